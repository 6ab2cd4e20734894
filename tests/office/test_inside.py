"""What is inside leaks by no way into the customer's copy; what is struck stays struck in it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fieldbook.cli import main
from fieldbook.office.sheet import front
from fieldbook.office.sheet.context import customer_copy
from fieldbook.office.sheet.inside import DESCRIBES, inside_of, is_inside, without_inside
from fieldbook.office.sheet.sheet import sheet
from fieldbook.quantities.admit import draft_from
from fieldbook.quantities.definition import Definition, definition
from fieldbook.quantities.kinds import kinds
from fieldbook.record.entry import Draft
from fieldbook.record.job import Job
from fieldbook.store.job.book import Book
from fieldbook.store.log.seal import seal_note
from tests.app.scenes import put_job, scratch_home
from tests.office.test_sheet import told
from tests.watch.jobs import STEEL, entry, job_of, says
from tests.watch.jobs import record as add

PLANTED = "zq"  # no word of the trade has it
MAY_BE_INSIDE = ("finding", "follow_up", "material", "note")
NOT_WORDS = {"for_customer", "step", "part", "recorded", "role", "check", "answers", "reason",
             "relies_on", "witness", "written_by", "entered_by", "written_on", "written_at",
             "library_item", "amount_unit"}  # fmt: skip


def test_a_correction_that_is_inside_does_not_revive_what_it_strikes(tmp_path: Path) -> None:
    job = job_of(*STEEL, says("material", item="tape zx", amount=5))
    struck = job.entries[-1]
    add(job, says("material", item="tape zx", amount=2, for_customer="no")
        | {"strikes": struck.id, "note": "zq ours"})  # fmt: skip
    copy = customer_copy(told(job, tmp_path))
    html = sheet(copy)

    assert not copy.job.live("material")
    assert copy.job.live("material") == [e for e in job.live("material") if not is_inside(e)]
    assert "zq" not in html
    assert "<s>" in html  # crossed out, and still to be read
    assert copy.inside == 1


def test_a_struck_correction_that_is_inside_revives_what_it_struck_in_every_copy(
    tmp_path: Path,
) -> None:
    job = job_of(*STEEL, says("material", item="tape", amount=5))
    first = job.entries[-1]
    correction = add(job, says("material", item="zq", amount=2, for_customer="no")
                     | {"strikes": first.id})  # fmt: skip
    add(job, says("strike", reason="zq was wrong") | {"strikes": correction.id})
    copy = customer_copy(told(job, tmp_path))

    assert [e.id for e in copy.job.live("material")] == [first.id]
    assert "zq" not in sheet(copy)


MADE = ("note", "material", "finding", "strike", "level")


@settings(
    max_examples=200, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None
)
@given(
    steps=st.lists(
        st.tuples(
            st.sampled_from(MADE),
            st.sampled_from(["yes", "no", ""]),
            st.integers(min_value=0, max_value=9) | st.none(),
        ),
        max_size=10,
    )
)
def test_what_is_struck_is_struck_in_the_customers_copy_whatever_struck_it(
    steps: list[tuple[str, str, int | None]],
) -> None:
    job = Job()
    values: dict[str, dict[str, Any]] = {
        "material": {"item": "tape", "amount": 1},
        "finding": {"part": "motor", "finding": "worn"},
        "strike": {"reason": "wrong"},
        "level": {"water_level": 100},
    }
    for kind, mark, struck in steps:
        said = dict(values.get(kind, {}))
        if kind in MAY_BE_INSIDE and mark:
            said["for_customer"] = mark
        document = says(kind, **said) | {"note": "words"}
        if struck is not None and struck < len(job.entries):
            document["strikes"] = job.entries[struck].id
        if kind != "strike" or "strikes" in document:
            add(job, document)
    inside = inside_of(job)
    copy = Job(without_inside(job, inside))

    for one in job.entries:
        if one.id not in inside:
            kept = copy.get(one.id)
            assert kept is not None
            assert copy.is_live(kept) == job.is_live(one)
        else:
            left = copy.get(one.id)
            assert left is None or not (left.values or left.note)


def _some(quantity: Definition) -> Any:
    if quantity.dimension == "choice":
        return quantity.choices[0]
    known = {"date": "2026-05-14", "yes or no": "yes", "time of day": "09:05", "words": "x"}
    return known.get(quantity.dimension, 3)


def _planted(kind: str, mark: str) -> dict[str, Any]:
    """An entry of that kind with words in it that are the company's own."""
    needs, may = kinds()[kind].needs, kinds()[kind].may
    values = {n: _some(definition(n)) for n in needs if definition(n).dimension != "file"}
    if kind in MAY_BE_INSIDE:
        for name in (*needs, *may):
            if definition(name).dimension == "words" and name not in NOT_WORDS:
                values[name] = f"{mark} {name}"
        values["for_customer"] = "no"
    if kind == "job":
        values |= {"access": f"{mark} gate code", "line": "steel", "work": "pull"}
    return says(kind, **values) | {"note": f"{mark} note"}


@pytest.mark.parametrize("sealed", [True, False])
def test_words_that_are_inside_are_in_nothing_the_customer_is_sent(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, sealed: bool
) -> None:
    monkeypatch.setattr(front, "_MOST_LISTED", 1000)  # else most of what came after is not listed
    home = scratch_home(tmp_path / "home")
    folder = put_job(home, STEEL)
    marks: list[str] = []
    with Book.open(folder, "d-office00001") as book:
        if sealed:
            book.record(Draft("seal", "QA", note=seal_note("", book.heads())))
        for kind in sorted({*DESCRIBES, *MAY_BE_INSIDE}):
            mark = f"{PLANTED}{len(marks):02}"
            marks.append(mark)
            made = book.record(draft_from(_planted(kind, mark)))
            marks.append(again := f"{PLANTED}{len(marks):02}")
            if kind in MAY_BE_INSIDE:
                said = {"answers": made.id, "done_on": "2026-05-20", "outcome": f"{again} outcome"}
                book.record(draft_from(says("answer", **said) | {"note": f"{again} note"}))
            else:
                correction = _planted(kind, again) | {"strikes": made.id}
                book.record(draft_from(correction))
    secret = tmp_path / f"{PLANTED} yard.txt"
    secret.write_text(f"{PLANTED} what the yard asks", encoding="utf-8")
    shown = tmp_path / "head.txt"
    shown.write_text("the well head", encoding="utf-8")
    command = ["--home", str(home.path), "attach", str(folder)]
    noted = ["--by", "QA", "--note"]
    assert main([*command, str(secret), *noted, f"{PLANTED} ours", "--inside"]) == 0
    assert main([*command, str(shown), *noted, "theirs"]) == 0
    with Book.open(folder, "d-office00001", write=False) as book:
        held = book.job.live("attachment")[0]
    for damaged in (False, True):
        if damaged:
            (folder / held.text("file_hash")).unlink()
        out = tmp_path / f"out{damaged}"
        assert main(["--home", str(home.path), "jobfile", str(folder), "--out", str(out)]) == 0
        files = {path.name: path.read_bytes() for path in (out / "customer_files").iterdir()}
        sent = {"customer.html": (out / "customer.html").read_bytes()} | files

        office = (out / "sheet.html").read_text("utf-8") + (out / "events.csv").read_text("utf-8")
        assert [mark for mark in marks if mark not in office] == []
        assert [name for name, raw in sent.items() if PLANTED.encode() in raw] == []
        assert not any(PLANTED in name for name in files)
        assert len(files) == 1
        assert f"{PLANTED} yard.txt" in office
        assert (b"a file of the company" in sent["customer.html"]) is damaged


def test_an_answer_to_what_the_customer_may_know_is_in_the_copy(tmp_path: Path) -> None:
    job = job_of(*STEEL, says("follow_up", item="send the report") | {"note": "soon"})
    said = {"answers": job.entries[-1].id, "done_on": "2026-05-20", "outcome": "report zx sent"}
    job.add(entry(says("answer", **said), job.last_seq + 1))

    assert "report zx sent" in sheet(customer_copy(told(job, tmp_path)))


def test_of_many_entries_after_the_seal_each_copy_says_where_its_reader_finds_the_rest(
    tmp_path: Path,
) -> None:
    home = scratch_home(tmp_path / "home")
    folder = put_job(home, STEEL)
    with Book.open(folder, "d-office00001") as book:
        book.record(Draft("seal", "QA", note=seal_note("", book.heads())))
        for number in range(46):
            book.record(draft_from(says("material", item=f"tape {number}", amount=1)))
    out = tmp_path / "out"
    assert main(["--home", str(home.path), "jobfile", str(folder), "--out", str(out)]) == 0
    pages = {path.name: path.read_text(encoding="utf-8") for path in out.rglob("*.html")}
    ours = [page for page in pages.values() if "and 38 more, in events.csv" in page]
    theirs = [page for page in pages.values() if "and 38 more: ask us for the whole list" in page]
    assert (len(ours), len(theirs)) == (1, 1)
    assert "events.csv" not in theirs[0]
