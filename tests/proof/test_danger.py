"""Where each figure gets dangerous is written once, and no verdict gets better on the way there."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from calc.check import Check, Verdict
from fieldbook.office.samples import sample_names
from fieldbook.quantities.definition import definition, definitions
from fieldbook.quantities.kinds import kinds
from fieldbook.record.entry import Value
from fieldbook.record.job import Job
from fieldbook.watch.planner.document import plan_document
from fieldbook.watch.planner.plan import plan
from fieldbook.watch.watcher import Watcher
from tests.proof.changed import MOMENTS, Entries, at_moment, may_say, without
from tests.proof.reading import Read, noting

RANK = {Verdict.WITHIN: 0, Verdict.CAUTION: 1, Verdict.UNKNOWN: 2, Verdict.STOP: 3}
MOVED = {"higher": (1.02, 1.2, 3.0), "lower": (0.98, 0.8, 0.3)}
AT_ZERO = {"higher": 0.5, "lower": -0.5}

NOT_ASKED = {
    ("meter", "insulation"): "nothing was measured: its hold asks for the figure itself",
    ("setting", "datum"): "no setting is planned any more, so that none is judged",
    ("setting", "setting_depth"): "no setting is planned any more, so that none is judged",
    ("depth", "datum"): "no depth was agreed on any more, so that none is judged",
    ("depth", "setting_depth"): "no depth was agreed on any more, so that none is judged",
    ("meter", "volts_ab"): "nothing was measured",
    ("joint", "direction"): "no string went in again, so that no run of its pump is judged",
    ("joint", "joint_length"): "no string went in again, so that no run of its pump is judged",
    ("joint", "joint_number"): "no string went in again, so that no run of its pump is judged",
    ("footage", "direction"): "no string went in again, so that no run of its pump is judged",
    ("footage", "footage"): "no string went in again, so that no run of its pump is judged",
}
"""Kind and quantity -> why a check that found fault may be gone with the figure."""

KINDER = {
    ("footage", "mark"): "the counter's own figure stands where no mark corrects it",
    ("load", "gauge_reading"): "nothing was read there",
    ("joint", "gauge_reading"): "nothing was read there",
    ("meter", "flow"): "nothing was read there",
    ("prior", "water_level"): "nothing was read there: other levels stand",
    ("meter", "amps_a"): "a motor that takes no amps loses no volts in its cable",
    ("meter", "amps_b"): "a motor that takes no amps loses no volts in its cable",
    ("meter", "amps_c"): "a motor that takes no amps loses no volts in its cable",
    ("meter", "part"): "says which motor was read: another check is made of the reading",
    ("piece", "pressure_rating"): "the published rating stands where no sheet gives one",
}
"""Kind and quantity -> why the share of a check may fall with the figure, and it stay good."""
_HARDLY = 0.005  # share of a share: the heaviest water there is weighs that little more


def checks_of(entries: Entries) -> dict[str, Check]:
    """Every check and every link, by name."""
    look = Watcher(Job(entries)).look()
    links = {f"link {link.check.name}": link.check for link in look.lift.links}
    return {check.name: check for check in look.checks} | links


def read_by_a_check() -> Read:
    """Every figure that any check or the planner reads, over all samples at all moments."""
    read: Read = set()
    for name in sample_names():
        for moment in MOMENTS:
            Watcher(noting(at_moment(name, moment), read)).look()
        plan_document(plan(noting(at_moment(name, "whole"), read), only=["PVC 1-1/4 sch 80"]))
    return read


def test_every_figure_that_a_check_reads_says_where_it_gets_dangerous() -> None:
    read = {name for _, name in read_by_a_check() if not definition(name).is_words}

    assert len(read) > 100
    assert {name for name in read if not definition(name).danger} == set()


def test_what_is_kept_for_the_record_alone_is_not_called_dangerous() -> None:
    assert [d.name for d in definitions().values() if d.danger and d.record] == []


def said(entries: Entries) -> list[tuple[str, str]]:
    """Kind and name of every number that is written."""
    numbers = {(e.kind, n) for e in entries for n, v in e.values.items() if v.number is not None}
    return sorted(numbers)


def moved(entries: Entries, kind: str, name: str, factor: float, at_zero: float) -> Entries | None:
    """A number moved wherever a kind says it; None where that is nonsense."""
    found = []
    for entry in entries:
        value = entry.values.get(name) if entry.kind == kind else None
        if value is not None and value.number is not None:
            number = value.number * factor if value.number else at_zero
            other = Value(f"{number:g}", number, value.unit, value.origin)
            if not may_say(kind, name, other):
                return None
            entry = entry._replace(values={**entry.values, name: other})  # noqa: PLW2901
        found.append(entry)
    return tuple(found)


def bettered(before: dict[str, Check], after: dict[str, Check]) -> Iterator[str]:
    for name, check in before.items():
        found = after.get(name)
        if found is None:
            if check.verdict is not Verdict.WITHIN and not name.startswith("link "):
                yield f"{name} {check.verdict} -> gone"
        elif RANK[found.verdict] < RANK[check.verdict]:
            yield f"{name} {check.verdict} -> {found.verdict} ({found.governs})"


@pytest.mark.parametrize("name", sample_names())
def test_moving_a_figure_where_it_gets_dangerous_betters_no_verdict(name: str) -> None:
    """(a): of every sample at every moment, all checks and all links; one step a figure."""
    bad, tried = [], 0
    for at, moment in enumerate(MOMENTS):
        entries = at_moment(name, moment)
        before = checks_of(entries)
        for nth, (kind, quantity) in enumerate(said(entries)):
            danger = definition(quantity).danger
            if danger not in MOVED:
                continue
            factor = MOVED[danger][(at + nth) % 3]
            other = moved(entries, kind, quantity, factor, AT_ZERO[danger])
            if other is not None:
                tried += 1
                found = bettered(before, checks_of(other))
                bad += [f"{moment}: {kind}.{quantity} x {factor}: {words}" for words in found]

    assert bad == []
    assert tried > 30


def kinder(
    kind: str, name: str, before: dict[str, Check], after: dict[str, Check]
) -> Iterator[str]:
    """The checks that stay good by less of their limit, as if a kinder figure stood there."""
    for check, old in before.items():
        new = after.get(check)
        if new is None or new.verdict not in (Verdict.WITHIN, Verdict.CAUTION):
            continue
        if old.share and new.share is not None and new.share < old.share * (1.0 - _HARDLY):
            yield f"no {kind}.{name}: {check} falls from {old.share:.3f} to {new.share:.3f}"


@pytest.mark.parametrize("name", sample_names())
def test_taking_a_figure_away_makes_nothing_within(name: str) -> None:
    """(b): what is missing is unknown, or taken at its worst; no check gets kinder without it."""
    bad, tried = [], 0
    for moment in MOMENTS:
        entries = at_moment(name, moment)
        before = checks_of(entries)
        read: Read = set()
        Watcher(noting(entries, read)).look()
        written = {(e.kind, n) for e in entries for n in e.values}
        for kind, quantity in sorted(read & written):
            if kind == "job" or quantity == "step":
                continue
            tried += 1
            after = checks_of(without(entries, kind, quantity))
            if not (quantity in kinds()[kind].needs or (kind, quantity) in KINDER):
                bad += [f"{moment}: {each}" for each in kinder(kind, quantity, before, after)]
            for check, old in before.items():
                new = after.get(check)
                gone = new is None and not check.startswith("link ")
                if old.verdict is Verdict.WITHIN or (gone and (kind, quantity) in NOT_ASKED):
                    continue
                if gone or (new is not None and new.verdict is Verdict.WITHIN):
                    bad.append(f"{moment}: no {kind}.{quantity}: {check} {old.verdict} -> within")

    assert bad == []
    assert tried > 0
