"""The regulator's facts: given, not applicable in words, or missing by name. Hand calculations."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from fieldbook.cli import main
from fieldbook.office.filing.derived import DERIVED
from fieldbook.office.filing.filing import Answered, Filing, filing
from fieldbook.office.filing.localities import BadLocality, facts, localities
from fieldbook.office.samples import build_job
from fieldbook.office.sheet.context import SheetContext
from fieldbook.office.sheet.well_picture import picture_of
from fieldbook.store.shelf.home import Home
from tests.office.test_sheet import told
from tests.watch.jobs import HOSE, STEEL, job_of, record, says


def answered(filed: Filing, fact: str) -> tuple[str, str]:
    answer = next(a for a in filed.answers if a.fact.id == fact)
    return answer.how.value, answer.words


def of(folder: Path, *documents: dict[str, object], place: str | None = None) -> Filing:
    context = told(job_of(*documents), folder)
    return filing(context, localities()[place] if place is not None else None)


def setting(
    *more: dict[str, object], datum: str = "ground", **well: object
) -> list[dict[str, object]]:
    return [
        says("job", job_number="S-2", line="steel", work="set", owner="Quillmoor dairy"),
        says("well", datum=datum, **well),
        *more,
    ]


def test_every_fact_is_answered_and_a_blank_is_called_missing(tmp_path: Path) -> None:
    filed = of(tmp_path, *setting())

    assert [a.fact.id for a in filed.answers] == list(facts())
    assert all(a.words for a in filed.answers)
    assert answered(filed, "owner") == ("given", "Quillmoor dairy")
    assert answered(filed, "site") == ("missing", "MISSING")
    assert "Site" in filed.missing
    assert "Owner" not in filed.missing


def test_what_was_not_set_is_not_applicable_in_words(tmp_path: Path) -> None:
    filed = of(tmp_path, *STEEL)  # a pull

    how, words = answered(filed, "pump")
    assert how == Answered.NOT_APPLICABLE
    assert words == "not applicable: the work was to pull"
    assert "Pump set: maker, model, stages" not in filed.missing


def test_joints_are_not_applicable_on_a_hose(tmp_path: Path) -> None:
    documents = [says("job", job_number="H-1", line="hose", work="set"), *HOSE[1:]]

    assert (
        answered(of(tmp_path, *documents), "joints")[1] == "not applicable: the drop line is hose"
    )


def test_a_fact_whose_step_was_passed_over_gives_the_reason(tmp_path: Path) -> None:
    documents = setting(says("passed_over", step="plan.permit", reason="no permit here"))

    assert answered(of(tmp_path, *documents), "permit") == (
        "passed over", "not recorded: no permit here (QA)",
    )  # fmt: skip


def test_a_figure_left_out_for_a_reason_gives_the_reason_of_its_own_step(tmp_path: Path) -> None:
    documents = setting(
        says("permit", step="plan.permit", licence="L-1", reason="no permit for this parcel"),
        says("permit", step="close.pump_change", pump_change="repaired", reason="of another"),
    )

    assert answered(of(tmp_path, *documents), "permit") == (
        "passed over", "not recorded: no permit for this parcel (QA)",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("datum", "level", "ground", "casing"),
    [  # stick-up 1.5 ft: below ground is 1.5 ft less than below the top of the casing
        ("ground", "168.2 ft", "168.2 ft below ground", "169.70 ft below top of casing"),
        ("top of casing", "168.2 ft", "166.70 ft below ground", "168.2 ft below top of casing"),
        ("top of casing", "-2 ft", "-3.50 ft below ground", "-2 ft below top of casing"),
        ("ground", "50 m", "50 m below ground", "165.54 ft below top of casing"),
    ],
)
def test_depths_stand_on_the_datum_that_is_asked_for(
    tmp_path: Path, datum: str, level: str, ground: str, casing: str
) -> None:
    documents = setting(
        says("setting", datum=datum, setting_depth=level.lstrip("-")),
        says("level", water_level=level, level_state="static"),
        datum=datum,
        stick_up="1.5 ft",
    )
    filed = of(tmp_path, *documents, place="AZ")
    whole = of(tmp_path, *documents)

    assert answered(filed, "static_level")[1].startswith(ground)
    if not level.startswith("-"):
        assert answered(whole, "intake_below_ground")[1].startswith(ground)
        assert answered(whole, "intake_below_casing")[1].startswith(casing)


def test_without_the_stick_up_a_depth_is_not_turned_and_says_what_is_missing(
    tmp_path: Path,
) -> None:
    level = says("level", water_level="168.2 ft", level_state="static")
    filed = of(tmp_path, *setting(level, datum="top of casing"), place="AZ")

    assert answered(filed, "static_level")[1] == (
        "168.2 ft below top of casing; MISSING stick-up, to tell it below ground"
    )


def test_the_test_is_worked_out_from_its_own_levels(tmp_path: Path) -> None:
    filed = of(
        tmp_path,
        *setting(
            says("level", water_level="100 ft", level_state="static"),
            says("level", water_level="140 ft", level_state="pumping", flow="20 gpm",
                 minutes_on="4 h"),
            says("level", water_level="101 ft", level_state="static"),
        ),
    )  # fmt: skip

    assert answered(filed, "drawdown") == ("given", "40.0 ft (computed)")
    assert answered(filed, "specific_capacity") == ("given", "0.50 (computed)")
    assert answered(filed, "test_minutes") == ("given", "4 h")
    assert answered(filed, "static_level")[1] == "101 ft below ground"


def test_no_flow_gives_no_specific_capacity(tmp_path: Path) -> None:
    filed = of(
        tmp_path,
        *setting(
            says("level", water_level="100 ft", level_state="static"),
            says("level", water_level="100 ft", level_state="pumping", flow="0 gpm"),
        ),
    )

    assert answered(filed, "specific_capacity")[0] == "missing"


def test_shut_in_pressure_is_asked_only_of_a_flowing_well(tmp_path: Path) -> None:
    still = setting(says("level", water_level="10 ft", level_state="static"))
    flows = setting(says("level", water_level="-4 ft", level_state="static",
                         discharge_pressure="1.7 psi"))  # fmt: skip

    assert answered(of(tmp_path, *still), "shut_in")[0] == "not applicable"
    assert answered(of(tmp_path, *flows), "shut_in") == ("given", "1.7 psi")
    assert answered(of(tmp_path, *setting()), "shut_in")[0] == "missing"


def test_what_the_laboratory_answered_after_the_seal_is_told(tmp_path: Path) -> None:
    job = job_of(*setting(says("sample", sample_id="K-7")), says("seal"))
    sample = next(e for e in job.entries if e.kind == "sample")
    record(job, says("answer", answers=sample.id, done_on="2026-05-20", outcome="no coliform"))

    filed = filing(told(job, tmp_path))
    assert answered(filed, "result") == ("given", "no coliform (2026-05-20)")


def due(context: SheetContext, place: str) -> tuple[dt.date | None, str]:
    filed = filing(context, localities()[place])
    return filed.due, filed.due_words


def test_it_is_due_so_many_days_after_the_last_work_at_the_well(tmp_path: Path) -> None:
    level = says("level", water_level="101 ft", level_state="static")
    context = told(job_of(*setting(level), says("seal")), tmp_path)

    # 2026-05-14 and 60 days: 17 left of May, 30 of June, 13 of July
    assert due(context, "MI")[0] == dt.date(2026, 7, 13)
    assert due(context, "WI")[0] == dt.date(2026, 5, 24)
    assert due(context, "NE") == (None, "no number of days is known: check the rule")


def test_work_that_came_from_paper_is_dated_by_the_paper(tmp_path: Path) -> None:
    level = says("level", water_level="101 ft", level_state="static", recorded="afterwards",
                 written_by="LM", written_on="2026-05-10")  # fmt: skip

    context = told(job_of(*setting(level), says("seal")), tmp_path)
    assert due(context, "WI")[0] == dt.date(2026, 5, 20)


def test_where_the_crew_wrote_that_none_is_owed_the_day_says_so(tmp_path: Path) -> None:
    level = says("level", water_level="101 ft", level_state="static")
    for duty, none in (("repair in kind: no new record", True), ("pump record", False)):
        documents = setting(level, says("permit", record_duty=duty))
        day, words = due(told(job_of(*documents, says("seal")), tmp_path), "MI")
        assert day == dt.date(2026, 7, 13)
        assert words.endswith("the crew wrote that none is owed: check the rule") is none


def test_work_that_goes_on_has_no_due_date_and_says_so(tmp_path: Path) -> None:
    day, words = due(told(job_of(*STEEL), tmp_path), "MI")

    assert day is None
    assert words == "60 days after the work is finished; it is not yet"


def test_every_place_names_its_rule_and_that_it_is_to_be_checked() -> None:
    assert len(localities()) == 17
    for place in localities().values():
        assert place.source.endswith("; check the current official text")
        assert place.facts
        assert not place.own


def test_every_fact_has_a_source_and_every_derived_one_a_function() -> None:
    for fact in facts().values():
        assert fact.sources or fact.derived
        assert not fact.derived or fact.derived in DERIVED
    assert {f.derived for f in facts().values()} - {""} == set(DERIVED)


def company(folder: Path, text: str) -> Path:
    folder.mkdir(exist_ok=True)
    (folder / "own.toml").write_text(text, encoding="utf-8")
    return folder


def test_a_company_changes_a_place_and_adds_one(tmp_path: Path) -> None:
    folder = company(
        tmp_path / "localities",
        '[MI]\ndays = 45\n[lake]\nname = "Lake county"\nsource = "county rule 4"\n'
        'files = "Us."\nfacts = ["owner", "sample"]\ndatum = "top of casing"\n',
    )
    known = localities(folder)

    assert (known["MI"].days, known["MI"].own) == (45, True)
    assert known["MI"].facts == localities()["MI"].facts
    assert (known["lake"].facts, known["lake"].datum) == (("owner", "sample"), "top of casing")
    assert not known["AZ"].own


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("[MI]\ndays = 0", "own.toml: MI: days: is from 1 to 3650"),
        ("[MI]\ndays = true", "own.toml: MI: days: is from 1 to 3650"),
        ("[MI]\ndays = 30.0", "own.toml: MI: days"),
        ('[MI]\ndatum = "sea"', "own.toml: MI: datum: is one of: ground, top of casing"),
        ('[MI]\nfacts = ["owner", "colour"]', "'colour' is not one of"),
        ('[MI]\nfacts = ["owner", "owner"]', "names each fact once"),
        ("[MI]\nfacts = []", "names each fact once"),
        ("[MI]\nfacts = [1]", "is a list of texts"),
        ('[MI]\nfiles = " "', "is text that says something"),
        ("[MI]\nown = true", "own.toml: MI: own: unknown key"),
        ('[XX]\nname = "X"', "own.toml: XX: source: is needed for a new place"),
        ("MI = 3", "own.toml: MI: a place is a table"),
        ("[MI", "own.toml: not TOML"),
    ],
)
def test_a_companys_file_that_is_wrong_names_file_place_and_key(
    tmp_path: Path, text: str, problem: str
) -> None:
    with pytest.raises(BadLocality) as refused:
        localities(company(tmp_path / "localities", text))

    assert problem in str(refused.value)


def test_the_command_takes_a_place_and_refuses_one_that_nobody_knows(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    home = Home(tmp_path / "home")
    build_job(home, "26-127-steel", complete=True)
    out = tmp_path / "file"
    command = ["--home", str(home.path), "jobfile", "26-127", "--out", str(out), "--locality"]

    assert main([*command, "MI"]) == 0
    for name in ("sheet.html", "customer.html"):
        html = (out / name).read_text(encoding="utf-8")
        assert "Record to file: Michigan" in html
        assert "2026-07-11" in html  # 60 days after 2026-05-12
        assert "check the current official text" in html
    assert main([*command, "atlantis"]) == 2
    assert "no place 'atlantis' is known" in capsys.readouterr().err
    company(home.localities_folder, "[MI]\ndays = 0")
    assert main([*command, "MI"]) == 2
    assert "own.toml: MI: days" in capsys.readouterr().err


def test_a_well_measured_from_the_casing_is_drawn_with_its_bottom_below_ground(
    tmp_path: Path,
) -> None:
    well = says("well", datum="top of casing", well_depth=400, stick_up=2)
    job = job_of(STEEL[0], well, *STEEL[2:])
    picture = picture_of(told(job, tmp_path))

    assert (picture.ground, picture.rim, picture.bottom) == (2.0, 0.0, 402.0)


def test_a_length_that_lacks_a_joint_names_the_joint(tmp_path: Path) -> None:
    def into(number: int, **more: object) -> dict[str, object]:
        return says("joint", direction="in", joint_number=number, **more)

    whole = [into(1, joint_length=21), into(2, joint_length=20.5)]
    filed = of(tmp_path, *setting(*whole))
    assert answered(filed, "line_length")[1] == "41.50 ft (counted in)"
    assert answered(filed, "joints")[1] == "2"

    filed = of(tmp_path, *setting(*whole, into(4, joint_length=21)))
    assert answered(filed, "line_length")[1] == "62.50 ft (counted in); MISSING joint 3 not written"
    assert answered(filed, "joints")[1] == "3; MISSING joint 3 not written"
