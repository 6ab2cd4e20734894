"""The sheet says what the record says and what is wrong with it; no text becomes markup."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fieldbook.cli import main
from fieldbook.office.samples import build_job
from fieldbook.office.sheet.axis import Axis
from fieldbook.office.sheet.context import SheetContext, account_of, customer_copy
from fieldbook.office.sheet.drawing import _ground
from fieldbook.office.sheet.front import front
from fieldbook.office.sheet.inside import DESCRIBES
from fieldbook.office.sheet.sheet import sheet
from fieldbook.office.sheet.well_picture import picture_of
from fieldbook.quantities.definition import Definition, definition
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.plain import plain
from fieldbook.record.entry import Draft, Entry, Value
from fieldbook.record.ids import new_id
from fieldbook.record.job import Job
from fieldbook.store.job.book import Book
from fieldbook.store.log.seal import seal_hash
from fieldbook.store.log.verify import verify
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from fieldbook.watch.watcher import Watcher
from tests.office.test_markup import Reader
from tests.store.shelves import FIRST
from tests.store.shelves import says as wrote
from tests.watch.jobs import STEEL, job_of, says
from tests.watch.jobs import record as add


def told(job: Job, folder: Path) -> SheetContext:
    """The account of a job in memory, as if nothing on disk were wrong."""
    with Book.open(folder, "d-reader", write=False) as book:
        book.job = job
        return account_of(book)


def text_of(html: str) -> str:
    return " ".join(" ".join(Reader(html).words.values()).split())


@pytest.fixture
def steel(tmp_path: Path) -> Path:
    return build_job(Home(tmp_path / "home"), "26-127-steel", complete=True)


def read(folder: Path) -> str:
    with Book.open(folder, "d-reader", write=False) as book:
        return sheet(account_of(book))


def record(folder: Path, *drafts: Draft) -> list[Entry]:
    with Book.open(folder, "d-late") as book:
        return [book.record(draft) for draft in drafts]


def test_a_tally_of_two_days_names_the_day_where_one_begins(steel: Path) -> None:
    with Book.open(steel, "d-reader", write=False) as book:
        whole = book.job
    first = whole.live("joint")[0]
    late = {joint.id for joint in whole.live("joint")[7:]}
    night = dt.timedelta(days=1)
    moved = (e._replace(time=e.time + night) if e.id in late else e for e in whole.entries)

    one_day, two_days = sheet(told(whole, steel)), sheet(told(Job(moved), steel))
    begins, again = first.time, whole.live("joint")[7].time + night
    assert f">{begins:%m-%d %H:%M}<" not in one_day
    assert f">{begins:%m-%d %H:%M}<" in two_days
    assert f">{again:%m-%d %H:%M}<" in two_days
    assert f">{whole.live('joint')[8].time + night:%m-%d %H:%M}<" not in two_days


def test_a_sealed_job_shows_its_hash_in_full_and_who_sealed_it(steel: Path) -> None:
    with Book.open(steel, "d-reader", write=False) as book:
        seal = book.job.last("seal")
        assert seal is not None
        words = text_of(sheet(account_of(book)))

    told = str(verify(steel)).replace(" ", "")
    assert f"byLM:{seal_hash(seal)}" in told
    assert "Sealed 2026-05-12 11:52 by LM" in words
    assert seal_hash(seal) in words.replace(" ", "")
    assert "NOT SEALED" not in words
    assert "AFTER THE SEAL" not in words


def test_a_job_under_way_says_boldly_that_it_is_not_sealed(tmp_path: Path) -> None:
    html = read(build_job(Home(tmp_path), "26-131-hose"))

    assert "<strong>NOT SEALED</strong>" in html
    assert "Break the plug, prove it dry" in html
    assert "<strong>NOT SIGNED</strong>" in html


def test_what_came_after_the_seal_stands_as_such(steel: Path) -> None:
    record(steel, Draft("note", "QA", note="the laboratory called"))

    words = text_of(read(steel))
    assert "AFTER THE SEAL" in words
    assert "the laboratory called" in words


def test_a_log_that_was_altered_after_the_seal_is_named_as_damaged(steel: Path) -> None:
    log = next(steel.glob("*.jsonl"))
    log.write_bytes(log.read_bytes().replace(b"rust through", b"rust throuqh", 1))

    html = read(steel)
    assert "SEALED, AND DAMAGED SINCE" in html
    assert "DAMAGE FOUND" in html
    assert "no longer covered by it" in html
    assert log.name in html


def test_a_clock_that_went_back_is_told(tmp_path: Path) -> None:
    job = job_of(*STEEL)
    late = job.entries[-1]
    job.add(late._replace(id=new_id(late.time), seq=late.seq + 1,
                    time=late.time - dt.timedelta(hours=2)))  # fmt: skip

    assert "CLOCK WENT BACK" in sheet(told(job, tmp_path))


def test_a_joint_written_afterwards_is_marked_where_it_stands(tmp_path: Path) -> None:
    joint = says("joint", direction="out", joint_number=1, joint_length=21,
                 recorded="afterwards, hold not witnessed")  # fmt: skip

    html = sheet(told(job_of(*STEEL, joint), tmp_path))
    assert "RECORDED FROM PAPER" in html
    assert "<strong>recorded from paper</strong>" in html


def test_what_was_struck_is_shown_struck_with_who_and_why(tmp_path: Path) -> None:
    job = job_of(*STEEL, says("note") | {"note": "the wrong well"})
    add(job, says("strike", reason="other farm") | {"strikes": job.entries[-1].id, "by": "ZZ"})
    html = sheet(told(job, tmp_path))

    assert "<s>Note. the wrong well</s>" in html
    assert "ZZ 2026-05-14" in html
    assert "other farm" in html


def test_a_stop_that_was_noted_stays_in_the_customers_copy(tmp_path: Path) -> None:
    job = job_of(*STEEL, says("stop_noted", check="lift", reason="rope fouled", share="112 %"))

    for context in (told(job, tmp_path), customer_copy(told(job, tmp_path))):
        assert "rope fouled" in sheet(context)


@pytest.mark.parametrize(
    ("kind", "values", "for_customer", "shown"),
    [
        ("note", {}, None, False),
        ("note", {}, "yes", True),
        ("note", {}, "no", False),
        ("follow_up", {"item": "quote"}, None, True),
        ("follow_up", {"item": "quote"}, "no", False),
        ("finding", {"part": "motor", "finding": "worn"}, None, True),
        ("finding", {"part": "motor", "finding": "worn"}, "no", False),
        ("finding", {"part": "line", "finding": "gone", "string_state": "lost"}, "no", True),
    ],
)
def test_what_the_customers_copy_leaves_out(
    tmp_path: Path, kind: str, values: dict[str, Any], for_customer: str | None, shown: bool
) -> None:
    marked = values if for_customer is None else values | {"for_customer": for_customer}
    job = job_of(*STEEL, says(kind, **marked) | {"note": "between ourselves"})
    context = told(job, tmp_path)
    copy = customer_copy(context)

    assert "between ourselves" in sheet(context)
    assert ("between ourselves" in sheet(copy)) is shown
    assert copy.inside == (0 if shown else 1)


def test_a_struck_inside_note_and_its_strike_are_inside_too(tmp_path: Path) -> None:
    job = job_of(*STEEL, says("note") | {"note": "they never pay"})
    add(job, says("strike", reason="they do pay") | {"strikes": job.entries[-1].id})
    html = sheet(customer_copy(told(job, tmp_path)))

    assert "pay" not in html


def test_checks_are_the_same_in_every_copy(tmp_path: Path) -> None:
    context = told(job_of(*STEEL), tmp_path)

    assert customer_copy(context).look == context.look
    assert context.look.verdict == Watcher(context.job).look().verdict


ENTRIES = ("note", "finding", "approval", "follow_up")
HOSTILE = st.text() | st.sampled_from(
    ["<script>alert(1)</script>", "</style><b>", "\"'><img src=x onerror=y>", "&lt;", "]]>", "<!--"]
)


@settings(
    max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None
)
@given(words=HOSTILE, kind=st.sampled_from(ENTRIES))
def test_no_text_of_an_entry_becomes_markup(tmp_path: Path, words: str, kind: str) -> None:
    shown = f"x{words}x"
    values = {"part": "p", "finding": "f"} if kind == "finding" else {}
    plain_job = job_of(*STEEL, says(kind, **values) | {"note": "xx"})
    job = Job(
        e._replace(note=shown, by=shown[:24]) if e.kind == kind else e for e in plain_job.entries
    )
    harmless, hostile = (Reader(sheet(told(j, tmp_path))) for j in (plain_job, job))

    assert hostile.tags == harmless.tags
    assert plain(shown) in "".join(hostile.words.values())


def test_a_hostile_job_title_stays_in_title_heading_and_foot(tmp_path: Path) -> None:
    title = '</title></style><script>alert("x")</script>'
    job = job_of(says("job", job_number="1", line="steel", work="pull", job_title=title))
    html = sheet(told(job, tmp_path))

    assert "<script" not in html
    assert Reader(html).words["title"].startswith(f"1 {title}")


def test_the_sheet_asks_for_nothing_from_anywhere(steel: Path) -> None:
    read_ = Reader(read(steel))
    outside = {"src", "href", "srcset", "action", "background", "poster", "data"}

    assert not outside & {name for attributes in read_.attributes for name in attributes}
    assert "url(" not in read_.words["style"]
    assert "@import" not in read_.words["style"]


def test_a_log_that_does_not_say_what_the_work_is_still_has_a_sheet(tmp_path: Path) -> None:
    job = job_of(says("note") | {"note": "only this was left"})

    assert "only this was left" in sheet(told(job, tmp_path))
    assert front(told(Job(), tmp_path))


def test_the_command_writes_both_sheets(steel: Path, tmp_path: Path) -> None:
    out = tmp_path / "file"

    assert main(["--home", str(tmp_path / "home"), "jobfile", str(steel), "--out", str(out)]) == 0
    assert "Office copy" in (out / "sheet.html").read_text(encoding="utf-8")
    assert "Customer's copy" in (out / "customer.html").read_text(encoding="utf-8")


ELSEWHERE = {
    "curve_point": "the planner's; in events.csv",
    "line_choice": "the planner's; in events.csv",
    "hose_sheet": "its window shows in the checks; in events.csv",
    "rack": "the tally has the joints that went in; in events.csv",
    "done": "the hold points and steps skipped tell; in events.csv",
}
"""Kinds whose figures the sheet does not repeat, and where they are."""


@pytest.mark.parametrize("kind", sorted(set(kinds()) - {"attachment"}))
def test_words_written_beside_any_entry_are_on_the_office_sheet(tmp_path: Path, kind: str) -> None:
    values = {name: _some(definition(name)) for name in kinds()[kind].needs}
    job = job_of(*STEEL[:1], says(kind, **values) | {"note": "beside the entry"} if kind != "strike"
                 else says("note") | {"note": "beside the entry"})  # fmt: skip
    context = told(job, tmp_path)

    hashes = kind in {"seal", "sealed_logs"}  # which are all that stands beside these
    assert ("beside the entry" in sheet(context)) is not hashes
    if kind in DESCRIBES | {"note"} and kind != "strike":
        assert "beside the entry" not in sheet(customer_copy(context))
        assert customer_copy(context).inside == 1


NO_WORDS_OF_THE_KIND = {
    "step", "role", "witness", "part", "recorded", "for_customer", "answers", "written_by",
    "written_on", "written_at", "entered_by", "reason", "relies_on",
}  # fmt: skip


def words_of_kind(kind: str) -> list[str]:
    return [
        name
        for name in (*kinds()[kind].needs, *kinds()[kind].may)
        if definition(name).dimension == "words" and name not in NO_WORDS_OF_THE_KIND
    ]


@pytest.mark.parametrize(
    "kind",
    sorted(k for k in set(kinds()) - set(ELSEWHERE) - {"job", "attachment"} if words_of_kind(k)),
)
def test_what_any_entry_says_is_on_the_office_sheet(tmp_path: Path, kind: str) -> None:
    values = {name: _some(definition(name)) for name in kinds()[kind].needs}
    values |= {name: f"said of {name}" for name in words_of_kind(kind)}
    html = sheet(told(job_of(*STEEL[:1], says(kind, **values) | {"note": "n"}), tmp_path))

    assert [name for name in words_of_kind(kind) if f"said of {name}" not in html] == []


def _some(quantity: Definition) -> Any:
    if quantity.dimension == "choice":
        return quantity.choices[0]
    plain_words = {"date": "2026-05-14", "yes or no": "yes", "time of day": "09:05", "words": "x"}
    return plain_words.get(quantity.dimension, 3)


def test_the_letterhead_of_the_company_stands_on_every_sheet(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    home = Home(tmp_path / "home")
    build_job(home, "26-127-steel")
    command = ["--home", str(home.path), "jobfile", "26-127", "--out", str(tmp_path / "file")]
    (home.path / "letterhead.txt").write_text("Alder & <Wells>\n\n2 Pump Row\n", encoding="utf-8")

    assert main(command) == 0
    for name in ("sheet.html", "customer.html"):
        html = (tmp_path / "file" / name).read_text(encoding="utf-8")
        assert "<span>Alder &amp; &lt;Wells&gt;</span><span>2 Pump Row</span>" in html
    (home.path / "letterhead.txt").write_bytes(b"\xff\xfe\xff")
    assert main(command) == 2
    assert "letterhead.txt is not UTF-8" in capsys.readouterr().err


@pytest.mark.parametrize("for_customer", [True, False])
def test_a_file_that_was_attached_is_named_with_its_words(
    tmp_path: Path, for_customer: bool
) -> None:
    job = job_of(*STEEL)
    words = {"file_hash": "ab" * 32, "file_title": "<wellhead>.jpg"}
    if not for_customer:
        words["for_customer"] = "no"
    values = {name: Value(text) for name, text in words.items()}
    last = job.entries[-1]
    job.add(last._replace(id=new_id(last.time), seq=last.seq + 1, kind="attachment",
                    values=values, note="before"))  # fmt: skip
    context = told(job, tmp_path)

    assert "&lt;wellhead&gt;.jpg" in sheet(context)
    assert ("&lt;wellhead&gt;.jpg" in sheet(customer_copy(context))) is for_customer


def test_on_a_pull_and_set_both_strings_are_told_and_each_is_drawn_in_its_time(
    tmp_path: Path,
) -> None:
    job = job_of(says("job", job_number="S-3", line="steel", work="pull and set"), *STEEL[1:])
    hung = picture_of(told(job, tmp_path)).parts[-1].end  # 18 joints of 21 ft, valve 1, pump 4
    add(job, says("pump_out", gauge_reading=95))
    out = told(job, tmp_path)
    add(job, says("piece", place=1, piece="joint", nps="2", schedule="40", steel_grade="A",
                  thread_design_factor=4, joint_count=10, joint_length=21))  # fmt: skip
    new = told(job, tmp_path)
    for number in range(1, 11):
        add(job, says("joint", direction="in", joint_number=number, joint_length=21))
    set_again = told(job, tmp_path)

    assert hung == pytest.approx(18 * 21 + 1 + 4)
    assert not picture_of(out).hangs
    assert picture_of(out).parts[-1].end == pytest.approx(hung)
    assert picture_of(new).parts[-1].end == pytest.approx(hung)  # nothing hangs: as it was found
    assert picture_of(set_again).hangs
    assert picture_of(set_again).parts[-1].end == pytest.approx(10 * 21 + 1 + 4)
    html = sheet(set_again)
    assert "String that was found, from the top down" in html
    assert "String that goes in, from the top down" in html
    assert "10 joints, 210.00 ft" in text_of(html)


def test_every_way_of_knowing_the_depth_is_told(steel: Path) -> None:
    with Book.open(steel, "d-reader", write=False) as book:
        context = account_of(book)
    found = context.look.depth.found
    assert found is not None
    words = text_of(sheet(context))

    assert "How deep the intake hung" in words
    assert f"{found.depth.m_as('ft'):,.1f} ft below ground" in words
    assert all(each.way.name in words for each in found.ways)


def test_what_was_found_otherwise_than_the_last_job_left_it_is_told(
    steel: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    home = Home(tmp_path / "home")
    opening = wrote(
        "job",
        job_number="16-1",
        line="steel",
        work="set",
        owner="Sallow Farm",
        well_name="Barn well",
    )
    folder = Shelf(home).create(opening, clock=lambda: FIRST)
    with Book.open(folder, home.device_id(), clock=lambda: FIRST) as book:
        book.record(wrote("level", water_level="150 ft", level_state="static"))
        book.record(wrote("joint", joint_number="1", direction="in", joint_length="21 ft"))
    written = ["jobfile", "26-127", "--home", str(home.path), "--out", str(tmp_path / "out")]

    assert main(written) == 0
    capsys.readouterr()
    for copy in ("sheet", "customer"):
        words = text_of((tmp_path / "out" / f"{copy}.html").read_text(encoding="utf-8"))
        assert f"Against the last visit, as set {FIRST:%Y-%m-%d}, job 16-1" in words
        assert "Static level: 168.2 ft; was 150 ft (+18.2 ft)" in words
        assert "Joints out: 18; 1 went in" in words
    assert "Against the last visit" not in read(steel)


def test_a_check_visit_has_no_trace_and_says_that_the_string_was_not_lifted(tmp_path: Path) -> None:
    words = text_of(read(build_job(Home(tmp_path), "26-163-pvc", complete=True)))

    assert "The string was not lifted on this visit and is not drawn." in words
    assert "Trace of the gauge" not in words
    assert "Not drawn. Missing" not in words


@pytest.mark.parametrize("name", ["26-114-pvc", "26-142-steel", "26-149-hose", "26-166-pvc"])
def test_of_a_string_that_was_landed_nothing_is_guessed_and_what_was_promised_is_told_once(
    tmp_path: Path, name: str
) -> None:
    folder = build_job(Home(tmp_path), name, complete=True)
    html = read(folder)
    words = text_of(html)
    with Book.open(folder, "d-reader", write=False) as book:
        said = [book.job.text("sample", "sample_tests"), book.job.text("permit", "record_duty")]

    assert "The last reading was taken with the string landed" in words
    assert "cannot tell" not in words
    assert "-0.0 ft" not in words
    to_come = html.partition("Notes and what is to come")[2].partition("<h2>")[0]
    assert [to_come.count(promise) for promise in said] == [1, 1]


def test_a_reading_that_another_device_wrote_again_is_neither_drawn_nor_weighed(
    tmp_path: Path,
) -> None:
    folder = build_job(Home(tmp_path), "26-142-steel")
    with Book.open(folder, "d-reader", write=False) as book:
        before = account_of(book)
        first = next(e for e in book.job.live("joint"))
    with Book.open(folder, "d-other0001") as book:
        book.record(Draft("joint", "MV", dict(first.values)))
        after = account_of(book)

    assert after.trace.read == before.trace.read
    assert after.look.telling.lines() == before.look.telling.lines()
    assert after.pull_trace is not None
    assert before.pull_trace is not None
    assert after.pull_trace.read == before.pull_trace.read


@pytest.mark.parametrize(("notes", "says"), [(0, "nothing."), (1, "1 entry."), (2, "2 entries.")])
def test_the_customers_copy_says_how_much_it_leaves_out(
    tmp_path: Path, notes: int, says: str
) -> None:
    folder = build_job(Home(tmp_path), "26-131-hose")
    record(folder, *(wrote("note", f"inside {n}") for n in range(notes)))
    with Book.open(folder, "d-reader", write=False) as book:
        words = text_of(sheet(customer_copy(account_of(book))))

    assert f"as the company's own notes: {says}" in words


def test_a_joint_that_is_not_written_is_loud_wherever_its_length_would_count(
    tmp_path: Path,
) -> None:
    joints = [
        says("joint", direction="in", joint_number=n, joint_length=21) for n in (1, 2, 5, 6, 8)
    ]
    context = told(
        job_of(says("job", job_number="S-2", work="set", line="steel"), *joints), tmp_path
    )
    html = sheet(context)

    assert "5 joints, 105.00 ft; joint 3, 4, 7 not written" in html
    rows = html.partition("Tally, into the well")[2]
    row = '<td class="n">{}</td><td class="n"></td><td class="n"></td>'
    loud = "<td><strong>blank</strong></td>"
    for number in ("3 to 4", "7"):
        before, _, after = rows.partition(row.format(number))
        assert after.partition("</tr>")[0].endswith(loud)
        assert before.count("<strong>blank") == (number == "7")

    out = says("joint", direction="out", joint_number=2, joint_length=21)
    pulled = sheet(told(job_of(*STEEL, out), tmp_path))
    assert "it is drawn by the joints that are written" in pulled


def test_a_finding_says_where_it_was_seen(tmp_path: Path) -> None:
    found = says("finding", part="drop pipe", finding="pitted", joint_number=7, found_at="150 ft")
    html = sheet(told(job_of(*STEEL, found), tmp_path))

    assert "joint 7, 150 ft" in html.partition("Findings")[2]


def test_the_ground_is_hatched_beside_the_casing_and_not_within(tmp_path: Path) -> None:
    picture = picture_of(told(job_of(*STEEL), tmp_path))
    strokes = list(_ground(Axis(0.0, 400.0, 20.0, 500.0), picture))
    spans = [sorted((float(s.attrib["x1"]), float(s.attrib["x2"]))) for s in strokes]

    assert len(spans) > 4
    assert all((54 <= low and high <= 92) or (148 <= low and high <= 172) for low, high in spans)
