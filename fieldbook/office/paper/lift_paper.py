"""The lift check on paper: one page of text, for the day the screen is dark.

A limit that exists only in electronic form is gone with its battery (29 CFR 1926.1417(c), taken as
good practice), so the card carries what must be at hand: loads, the reading never to pass, the
weakest link, where every figure comes from, and room to sign.
"""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from fieldbook.quantities.convert import show
from fieldbook.quantities.definition import definition
from fieldbook.quantities.figures import figure
from fieldbook.quantities.labels import within
from fieldbook.quantities.plain import plain
from fieldbook.quantities.safety import SAFETY
from fieldbook.record.entry import Origin
from fieldbook.record.string import string_pieces
from fieldbook.watch.bands import band_words
from fieldbook.watch.card import LIFT_READS
from fieldbook.watch.lift.answer import lift_answer
from fieldbook.watch.text import most_loaded, out_words, shortened, word_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from calc.units import Quantity
    from fieldbook.record.entry import Entry, Value
    from fieldbook.record.job import Job
    from fieldbook.watch.watcher import Look

WIDTH = 78
LINES = 60
"""Lines of text that letter and A4 both take at six to the inch."""
_RULE = "-" * WIDTH
_LABEL = 26
_ONCE = ("well", "cable", "pump", "rig", "gauge", "limit")  # in one entry, or spread over several


def lift_paper(job: Job, look: Look, *, printed: str, doubts: Iterable[str] = ()) -> str:
    """The lift check of `job` as one page of text.

    Args:
        job: The job, or the one that a card describes.
        look: What the watch sees of it, for the case that is asked about.
        printed: Date and time of printing, in words.
        doubts: What looks wrong on the card that was asked about.
    """
    blocks = (
        (*_head(job, look, printed), *(_labelled("LOOK AGAIN", plain(words)) for words in doubts)),
        _loads(look),
        _links(look),
        _sources(job, look),
        (*(textwrap.fill(words, WIDTH) for words in SAFETY), *_signed()),
    )
    lines = [line for block in blocks for line in (_RULE, *block)]
    return "\n".join(part for line in lines for part in line.split("\n")) + "\n"


def _head(job: Job, look: Look, printed: str) -> Iterator[str]:
    number = plain(job.text("job", "job_number"))[:30]
    yield f"{'LIFT CARD  ' + number:<{WIDTH - len(printed)}}{printed}"
    named = (job.text("job", name) for name in ("job_title", "well_name", "line", "work"))
    yield plain(", ".join(filter(None, named)))[:WIDTH]
    check = look.lift.check
    verdict, *rest = lift_answer(look)
    where = f"; {out_words(look.now)}" if look.now.has_load else ""
    for words in filter(None, (f"{verdict}{where}", *rest)):
        yield textwrap.fill(plain(words), WIDTH, subsequent_indent="  ")
    if check.missing:
        yield _labelled("MISSING", ", ".join(check.missing))


def _loads(look: Look) -> Iterator[str]:
    gauge, loads = look.readings, look.lift.loads
    if loads is not None:
        yield "HOOK LOAD without friction            GAUGE should read"
        yield f"  {loads.water:<36}{_gauge_water(look)}".rstrip()
        for name, load, reading in (
            ("line full", loads.full, band_words(gauge.expect_full)),
            ("line drained", loads.drained, band_words(gauge.expect_drained)),
            ("full, well empty (design)", loads.design, ""),
        ):
            yield f"  {name:<25}{show(load, 'lbf'):>10} {reading}".rstrip()
        yield _labelled("  worst case", f"{show(loads.worst, 'lbf')}, {loads.worst_case}")
    if look.now.has_load and gauge.never is None:
        yield _labelled("NO READING TO STOP AT", "do not lift by the gauge")
    if look.now.has_load and gauge.never_needs:
        yield _labelled("  the reading needs", ", ".join(gauge.never_needs))
    check = look.lift.chain
    if check.share is not None:
        yield _labelled("WEAKEST LINK", f"{check.governs}, {check.share:.0%} of what it may carry")
        yield _labelled("  by", "; ".join(filter(None, (check.formula, check.source))))
    worst_case = loads.worst_case if loads is not None else ""
    notes = (note for note in look.lift.check.note.split("; ") if note != worst_case)
    if note := "; ".join(notes):
        yield _labelled("Note", note)


def _gauge_water(look: Look) -> str:
    """The level that the readings to expect are at: another one than that of the loads."""
    water = look.now.outside
    return water.words if water is not None and look.readings.expect_full is not None else ""


def _links(look: Look) -> Iterator[str]:
    yield f"{'LINK':<39}{'demand':>11}{'allowed':>11}{'share':>7} verdict"
    checks = most_loaded(look.lift.links)
    for check in checks:
        demand, allowed = (_figure(q) for q in (check.demand, check.allowable))
        share = f"{check.share:.0%}" if check.share is not None else "?"
        name = shortened(plain(check.governs or check.name), 38)
        yield f"{name:<39}{demand:>11}{allowed:>11}{share:>7} {word_of(check.verdict)}"
    origins = set(Origin)
    worked = dict.fromkeys(
        f"{c.governs.partition(', ')[0]}: {c.source}" for c in checks if c.source not in origins
    )
    if sourced := [words for words in worked if not words.endswith(": ")]:
        yield _labelled("  allowed, from", "; ".join(sourced))


def _figure(value: Quantity | None) -> str:
    return show(value, "lbf") if value is not None else "?"


def _sources(job: Job, look: Look) -> Iterator[str]:
    """Every figure that the check reads, as it was typed, gathered by how it is known."""
    yield "FIGURES, as recorded, by where each comes from"
    by_origin: dict[str, list[str]] = {}
    for kind in _ONCE:
        for name in LIFT_READS[kind]:
            if (value := job.value(kind, name)) is not None:
                by_origin.setdefault(value.origin, []).append(_said(name, value))
    pulleys = sorted(job.live("redirect"), key=_place)
    for kind, entries in (("redirect", pulleys), ("piece", string_pieces(job))):
        before: dict[str, Entry] = {}
        for number, entry in enumerate(entries, 1):
            called = entry.text("piece") or entry.text("part") or f"pulley {number}"
            for origin, words in _of_entry(entry, kind, before.get(called)):
                by_origin.setdefault(origin, []).append(f"{called}: {words}")
            before[called] = entry
    for source in look.now.record.sources:
        by_origin.setdefault(Origin.TABLE, []).append(source)
    for origin, said in by_origin.items():
        yield _labelled(f"  {origin}", "; ".join(said), label=18)


def _of_entry(entry: Entry, kind: str, before: Entry | None) -> Iterator[tuple[str, str]]:
    """Its figures; of a run of joints only what the run above it does not say the same."""
    names = [n for n in LIFT_READS[kind] if n not in ("part", "piece") and n in entry.values]
    said = before.values if before is not None and entry.text("piece") == "joint" else {}
    others = {n for n in names if entry.values[n] != said.get(n)}
    again = len(others) < len(names) and said.keys() - entry.values.keys() == set()
    by_origin: dict[str, list[str]] = {}
    for name in names:
        value = entry.values[name]
        if not again or name in others or name == "joint_count":
            by_origin.setdefault(value.origin, []).append(_said(name, value))
    if again:
        next(iter(by_origin.values())).append("the rest as the joints above")
    return ((origin, ", ".join(words)) for origin, words in by_origin.items())


def _said(name: str, value: Value) -> str:
    return f"{within(definition(name).label)} {figure(value)}"


def _place(entry: Entry) -> float:
    value = entry.values.get("place")
    return value.number if value is not None and value.number is not None else 0.0


def _signed() -> Iterator[str]:
    yield "Gauge at zero, seen by ____  Reading at first lift ________ lbf  held ____ min"
    yield ""
    yield "Checked by (tech) ______  Seen by (lead) ______  Date __________  Time _______"


def _labelled(head: str, words: str, *, label: int = _LABEL) -> str:
    indent = " " * label
    return textwrap.fill(f"{head:<{label}}{plain(words)}", WIDTH, subsequent_indent=indent)
