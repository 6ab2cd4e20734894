"""The job is the same whatever order its entries arrive in, and a strike can be struck."""

from __future__ import annotations

import datetime as dt
import random

from hypothesis import given
from hypothesis import strategies as st

from fieldbook.record.codec import from_document, to_document
from fieldbook.record.entry import Entry, Origin, Value
from fieldbook.record.ids import is_id, new_id
from fieldbook.record.job import Job
from fieldbook.record.tally import tally

TIME = dt.datetime(2026, 5, 14, 8, 0, tzinfo=dt.timezone(dt.timedelta(hours=-5)))


def entry(seq: int, kind: str = "note", strikes: Entry | None = None, device: str = "d-1",
          **values: float) -> Entry:  # fmt: skip
    time = TIME + dt.timedelta(minutes=seq)
    return Entry(
        id=new_id(time),
        seq=seq,
        time=time,
        by="QA",
        device=device,
        kind=kind,
        values={name: Value(str(number), number) for name, number in values.items()},
        strikes=strikes.id if strikes is not None else None,
    )


def live_ids(job: Job) -> set[str]:
    return {e.id for e in job.entries if job.is_live(e)}


@st.composite
def logs(draw: st.DrawFn) -> list[Entry]:
    """Entries of two devices, some of which strike an earlier or a later one."""
    made: list[Entry] = []
    for seq in range(1, draw(st.integers(1, 14)) + 1):
        strikes = draw(st.none() | st.sampled_from(made)) if made else None
        made.append(entry(seq, strikes=strikes, device=draw(st.sampled_from(["d-1", "d-2"]))))
    return made


def live_by_definition(entries: list[Entry]) -> set[str]:
    """From the last entry back: one that stands strikes what it names, if that came before it."""
    struck: set[str] = set()
    places = {e.id: e.order for e in entries}
    for e in sorted(entries, key=lambda e: e.order, reverse=True):
        if e.id not in struck and e.strikes in places and places[e.strikes] < e.order:
            struck.add(e.strikes)
    return set(places) - struck


@given(logs(), st.randoms(use_true_random=False))
def test_any_order_of_arrival_gives_the_same_job(
    entries: list[Entry], chance: random.Random
) -> None:
    shuffled = list(entries)
    chance.shuffle(shuffled)
    job, other = Job(entries), Job(shuffled)

    assert list(job.entries) == list(other.entries)
    assert live_by_definition(entries) == live_ids(job) == live_ids(other)
    assert list(job.live("note")) == list(other.live("note"))
    assert [e for e in job.entries if job.is_live(e)] == list(job.live("note"))


def test_a_strike_can_be_struck() -> None:
    first = entry(1)
    strike = entry(2, "strike", strikes=first)
    again = entry(3, "strike", strikes=strike)
    job = Job([first, strike])

    assert not job.is_live(first)
    assert job.struck_by(first) == (strike,)
    job.add(again)
    assert job.is_live(first)
    assert not job.is_live(strike)


def test_a_correction_takes_the_place_of_what_it_strikes() -> None:
    wrong = entry(1, "well", well_depth=52)
    right = entry(2, "well", strikes=wrong, well_depth=520)
    job = Job([wrong, right])
    value = job.value("well", "well_depth")

    assert value is not None
    assert value.number == 520


def test_the_newest_entry_that_says_anything_speaks() -> None:
    job = Job([entry(1, "rig", hook_rating=8000), entry(2, "rig", mast_rating=9000)])
    hook = job.value("rig", "hook_rating")

    assert hook is not None
    assert hook.number == 8000
    assert job.value("rig", "drum_pull") is None


def test_an_entry_is_taken_once() -> None:
    first = entry(1)
    job = Job([first])

    assert not job.add(first)
    assert len(job.entries) == 1


def test_a_clock_that_goes_back_is_noted_and_changes_no_order() -> None:
    late = entry(1)
    early = entry(2)._replace(time=TIME - dt.timedelta(days=1))
    job = Job([early, late])

    assert list(job.entries) == [late, early]
    assert job.clock_jumps() == [(late, early)]


def test_a_tally_names_gaps_and_doubles() -> None:
    numbers = (1, 2, 4, 4)
    entries = [entry(i, "joint", joint_number=n) for i, n in enumerate(numbers, 1)]
    out = [e._replace(values={**e.values, "direction": Value("out")}) for e in entries]
    found = tally(out, "out")

    assert (3, 5, [4]) == (found.count, found.next_number, found.doubles)
    assert [list(run) for run in found.gaps] == [[3]]
    assert tally(out, "in").count == 0


@given(
    st.text(max_size=30).filter(lambda t: not any("\ud800" <= c <= "\udfff" for c in t)),
    st.floats(allow_nan=False, allow_infinity=False),
    st.sampled_from(Origin),
)
def test_a_document_gives_back_the_entry(note: str, number: float, origin: Origin) -> None:
    made = Entry(
        id=new_id(TIME), seq=7, time=TIME, by="QA", device="d-1", kind="load", note=note,
        values={"gauge_reading": Value("x", number, "lbf", origin), "part": Value("top")},
    )  # fmt: skip

    assert from_document(to_document(made)) == made


def test_ids_are_ordered_by_time_and_have_their_shape() -> None:
    """RFC 9562, section 5.7: version 7 in the 13th digit, variant 8 to b in the 17th."""
    ids = [new_id(TIME + dt.timedelta(seconds=n)) for n in range(50)]

    assert ids == sorted(ids)
    assert all(is_id(i) and i[14] == "7" and i[19] in "89ab" for i in ids)
