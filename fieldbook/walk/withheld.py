"""Why a hold point gets no yes at this moment: one rule for the screen and for `enter`.

A stop on the lift or the gauge is never passed, and neither are wires that are not proved dead. Any
other stop, a figure that refutes the hold, and what is unknown, is passed by name first: an entry
`check_passed` of the same person, for the same step, which names the check or the figure.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within
from fieldbook.walk.barring import barred_by
from fieldbook.walk.hold_check import Refutation, never_passed, refuted, rules_of
from fieldbook.walk.moves import MOVES
from fieldbook.walk.release import refusals, same, text_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from fieldbook.record.entry import Draft, Entry
    from fieldbook.record.job import Job
    from fieldbook.walk.definition.steps import Step
    from fieldbook.walk.stand import WalkStatus
    from fieldbook.walk.walk import Walk

NEVER_PASSED = ("lift", "gauge")
"""Checks whose stop nobody passes, by name or otherwise."""
_DOUBTFUL = ("stop", "unknown")
_FEW = 3
WAY_OUT = "read the gauge again, or change rig or limit"


def withheld(
    draft: Draft, walk: Walk, stand: WalkStatus, job: Job, verdicts: Mapping[str, str]
) -> list[str]:
    """Why `draft` may not release a hold point, or pass a step over; empty when it may.

    Args:
        draft: What is about to be recorded; only `hold` and `passed_over` are ever withheld.
        walk: The walk of the job.
        stand: Where the job is in it.
        job: The job.
        verdicts: Name of a check -> what it says now: within, caution, stop or unknown.
    """
    step = _step_of(draft, walk)
    if draft.kind == "passed_over" and step is not None:
        return stop_words(step, verdicts) or never_skipped(step, stand, job)
    if draft.kind != "hold":
        return []
    if step is None or step.hold is None or step.each_entry_is_the_yes:
        return ["its step is no hold of this walk that is signed by itself"]
    if found := _live(step, stand) or _not_yet(step, stand) or stop_words(step, verdicts):
        return found
    seen = against(step, stand, job)
    if found := [one.words for one in seen if one.rule.never]:
        return found
    found = list(refusals(step, draft, holder=stand.holders.get(step.id, "")).values())
    found += _no_owner(step, walk, stand)
    waiting = figures_not_passed(step, draft.by, job, seen)
    found += [f"{one.words}. Or go ahead by name first: {one.rule.name}" for one in waiting]
    open_checks = not_passed(step, draft.by, job, verdicts)
    if open_checks:
        said = " and ".join(f"{name} says {verdicts[name]}" for name in open_checks)
        found.append(f"{said}: go ahead by name first, with a reason and what you go by")
    return found


def _not_yet(step: Step, stand: WalkStatus) -> list[str]:
    """Why nobody is asked to sign yet; empty when somebody is."""
    if step not in stand.steps:
        return [f"'{step.title}' is not asked for on this job as it stands"]
    if names := stand.without_figures.get(step.id):
        words = ", ".join(within(definition(name).label) for name in names)
        return [f"its figures come first: {words}"]
    return []


def _live(step: Step, stand: WalkStatus) -> list[str]:
    """What took back an earlier yes that nobody passes, such as volts on the leads."""
    before = stand.steps[: stand.steps.index(step)] if step in stand.steps else ()
    earlier = (stand.taken_back.get(other.id) for other in before)
    return [since.words for since in earlier if since is not None and since.rule.never]


def _no_owner(step: Step, walk: Walk, stand: WalkStatus) -> list[str]:
    """Why a lock does not come off where nobody is written down as having put it on."""
    if not step.same_person or step.id in stand.holders:
        return []
    first = walk.step(step.same_person).title
    return [f"nobody is written down as having put the lock on: first '{first}'"]


def against(step: Step, stand: WalkStatus, job: Job) -> list[Refutation]:
    """What the figures say against releasing the hold of `step` now; empty where nothing does."""
    found = refuted(step, job, stand.steps)
    since = stand.taken_back.get(step.id)
    if since is not None and not any(one.entry == since.entry for one in found):
        anew = (e for e in job.live(step.records) if e.text("step") == step.id)
        # Measured again since, and saved at this step: what was said before no longer holds it.
        if since.entry is None or not any(e.order > since.entry.order for e in anew):
            found.append(since)
    return [*found, *_blanks(step, stand)]


def _blanks(step: Step, stand: WalkStatus) -> list[Refutation]:
    """The steps before `step` that nobody did or passed over, where its hold asks for all."""
    rule = next((rule for rule in rules_of(step) if not rule.figure), None)
    if rule is None or step not in stand.steps:
        return []
    before = stand.steps[: stand.steps.index(step)]
    titles = [other.title for other in before if stand.states[other.id].is_open]
    if not titles:
        return []
    more = f" and {len(titles) - _FEW} more" if len(titles) > _FEW else ""
    names = ", ".join(titles[:_FEW]) + more
    return [Refutation(rule, rule.say.replace("{figure}", names))]


def never_skipped(step: Step, stand: WalkStatus, job: Job) -> list[str]:
    """Why nobody passes the hold of `step` over; empty where a named person may."""
    found = [one.words for one in against(step, stand, job) if one.rule.never]
    if not found and never_passed(step):
        names = stand.without_figures.get(step.id, ())
        words = ", ".join(within(definition(name).label) for name in names)
        found = [f"never skipped: measure and write {words or 'it'}, then sign"]
    return found


def figures_not_passed(
    step: Step, by: str, job: Job, seen: Sequence[Refutation]
) -> list[Refutation]:
    """Of the figures against the hold of `step`, those that `by` has not passed by name since."""
    passed = [e for e in _since_the_last_yes(step, job) if same(e.by, by)]
    return [
        one
        for one in seen
        if not any(
            one.rule.name in {name.strip() for name in entry.text("check").split(",")}
            and (one.entry is None or entry.order > one.entry.order)
            for entry in passed
        )
    ]


def stop_words(step: Step, verdicts: Mapping[str, str]) -> list[str]:
    """The stop that nobody passes at `step`, in words; empty where there is none."""
    stops = [name for name in NEVER_PASSED if verdicts.get(name) == "stop"]
    by = barred_by(step, stops)
    return [f"STOP: {' and '.join(by)}. Not signed, not skipped: {WAY_OUT}"] if by else []


def doubtful(step: Step, verdicts: Mapping[str, str]) -> tuple[str, ...]:
    """The checks that `step` wakes and that do not hold, worst first."""
    said = {name: verdicts[name] for name in step.checks if name in verdicts}
    return tuple(name for word in _DOUBTFUL for name in said if said[name] == word)


def not_passed(step: Step, by: str, job: Job, verdicts: Mapping[str, str]) -> tuple[str, ...]:
    """The doubtful checks of `step` that `by` has not passed by name since it was last released."""
    passed = {
        name.strip()
        for entry in _since_the_last_yes(step, job)
        if same(entry.by, by)
        for name in entry.text("check").split(",")
    }
    return tuple(name for name in doubtful(step, verdicts) if name not in passed)


def failing_beside(
    step: Step, stand: WalkStatus, job: Job, verdicts: Mapping[str, str]
) -> tuple[Step, ...]:
    """The holds that go along with `step`, a move, whose last entry was no yes: a check says stop.

    As insulation on the way in (HP12): saving the reading is its yes, but not where it has fallen
    below half. The string waits for a better one, or for somebody who passes it by name.
    """
    if step.records not in MOVES:
        return ()
    return tuple(
        other for other in stand.steps if other.beside == step.id and fails(other, job, verdicts)
    )


def fails(step: Step, job: Job, verdicts: Mapping[str, str]) -> bool:
    """Whether a hold that each entry releases by itself has a stop that nobody passed by name.

    A stop that nobody may pass is not asked about here: it bars the move itself.
    """
    passable = set(step.checks) - set(NEVER_PASSED)
    stops = {name for name in passable if verdicts.get(name) == "stop"}
    if not stops or not step.each_entry_is_the_yes:
        return False
    passed = {
        name.strip()
        for entry in _since_the_last_yes(step, job)
        for name in entry.text("check").split(",")
    }
    return not stops <= passed


def _since_the_last_yes(step: Step, job: Job) -> Sequence[Entry]:
    """The live `check_passed` of a step that no figure of it and no yes to it came after."""
    later = [
        entry.order
        for kind in ("hold", step.records)
        for entry in job.live(kind)
        if entry.text("step") == step.id
    ]
    return [
        entry
        for entry in job.live("check_passed")
        if entry.text("step") == step.id and all(entry.order > order for order in later)
    ]


def _step_of(draft: Draft, walk: Walk) -> Step | None:
    name = text_of(draft, "step")
    return next((step for step in walk.steps if step.id == name), None)
