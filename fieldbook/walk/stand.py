"""Where a job is in its walk, derived from its live entries and nothing else."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fieldbook.record.footage import in_feet
from fieldbook.walk.definition.conditions import conditions
from fieldbook.walk.definition.record_now import wanted
from fieldbook.walk.definition.steps import ANY_TIME, PHASES, Step
from fieldbook.walk.hold_check import Refutation, taken_back
from fieldbook.walk.progress import Progress, later, progress
from fieldbook.walk.states import StepState, lacking, releasing, state_of, unwitnessed

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

_BEFORE_ANY_MOVE = ("work suspended", "rig moved")
_OF_THE_WALK = ("done", "hold", "passed_over")


@dataclass(frozen=True, slots=True)
class SideStep:
    """A step that goes along with the current one.

    Attributes:
        step: The step.
        due: Whether it is time for it.
    """

    step: Step
    due: bool


@dataclass(frozen=True, slots=True)
class WalkStatus:
    """Where a job is.

    Attributes:
        steps: The steps that belong to the job as it is, in order.
        states: Step id -> how far it is; steps that can be opened any time are not in it.
        ahead: The open steps in the order they are to be done, those that cannot wait first.
        phase: The phase the job is in; empty when all are done.
        progress: Each phase of the walk, in order.
        beside: Steps that go along with the current one.
        open_holds: Hold points that nobody has released.
        passed_by_name: Hold points that a named person passed.
        holders: Step id -> initials on the hold that its `same_person` names, where there is one.
        without_figures: Step id -> the figures that its hold waits for.
        taken_back: Step id -> the figure since the yes to its hold that says otherwise.
        unwitnessed: Entries that are the yes of their hold, each joint too, and were written
            afterwards: nobody who answers for the log witnessed the hold.
        not_witnessed: The hold points that such entries released.
        later: Of a job that records at once, the steps that wait and are open, or leave blank what
            the office asks, most wanted first.
        not_asked: Of a sealed job, the company's own steps of which nothing is written: not asked,
            or added since. They are none of `steps`.
    """

    steps: tuple[Step, ...]
    states: Mapping[str, StepState]
    ahead: tuple[Step, ...]
    phase: str
    progress: tuple[Progress, ...]
    beside: tuple[SideStep, ...]
    open_holds: tuple[Step, ...]
    passed_by_name: tuple[Step, ...]
    holders: Mapping[str, str]
    without_figures: Mapping[str, tuple[str, ...]]
    taken_back: Mapping[str, Refutation]
    unwitnessed: int
    not_witnessed: tuple[Step, ...]
    later: tuple[Step, ...]
    not_asked: tuple[Step, ...]

    @property
    def current(self) -> Step | None:
        """The step to do now: one that cannot wait, or the first open one; None at the end."""
        return self.ahead[0] if self.ahead else None

    @property
    def following(self) -> Step | None:
        """The open step after it."""
        return self.ahead[1] if len(self.ahead) > 1 else None

    @property
    def office_asks(self) -> tuple[Step, ...]:
        """Of `later`, what the office asks for by name."""
        listed = wanted()
        return tuple(step for step in self.later if step.id in listed)

    def page_of(self, step: Step | None) -> tuple[Step, ...]:
        """The steps on the page of ticks that `step` is on; none where it has its own form."""
        if step is None or not step.page:
            return ()
        return tuple(other for other in self.steps if other.page == step.page)

    def after(self, step: Step) -> Step | None:
        """The open step to show once `step` is done: what cannot wait, else the next behind it.

        Where nothing is open behind it, the first that is open.
        """
        ahead = self.ahead
        if not ahead or ahead[0].phase == ANY_TIME or step not in self.steps:
            return self.current
        place = (step.turn, self.steps.index(step))
        behind = (s for s in ahead if (s.turn, self.steps.index(s)) > place)
        return next(behind, ahead[0])

    def holds_before(self, step: Step) -> tuple[Step, ...]:
        """The hold points, not released yet, that the walk meets before it comes to `step`.

        First what cannot wait: work that was stopped is taken up again, a rig that was moved is
        surveyed and set up again. A lost string holds nothing up: what is in hand comes out.
        """
        names = [other.id for other in self.steps]
        if step.id not in names or step.phase == ANY_TIME:
            return ()
        at_once = [
            other
            for other in self.steps
            if other.when in _BEFORE_ANY_MOVE and self.states[other.id].is_open
        ]
        before = set(names[: names.index(step.id)])
        return (*at_once, *(hold for hold in self.open_holds if hold.id in before))


def stand(steps: Sequence[Step], job: Job) -> WalkStatus:
    """Where `job` is among `steps`."""
    now = conditions(job)
    active = tuple(step for step in steps if now[step.when].holds)
    written = {
        name: [entry for entry in entries if now[step.when].counts(entry)]
        for name, (step, entries) in _written(active, job).items()
    }
    not_asked = _not_asked(active, written, job)
    active = tuple(step for step in active if step not in not_asked)
    holders = _holders(active, written)
    states = {
        step.id: state_of(step, written[step.id], holders.get(step.id, "")) for step in active
    }
    against = _taken_back(active, written, states, job)
    states |= dict.fromkeys(against, StepState.HELD)
    not_seen = {
        step.id: unwitnessed(
            step, written[step.id], releasing(step, written[step.id], holders.get(step.id, ""))
        )
        for step in active
        if step.hold is not None
    }
    rows = {
        s.id: [e for e in written[s.id] if e.kind == s.records]
        for s in active
        if s.hold is not None
    }
    ahead = _ahead(active, states)
    current = ahead[0] if ahead else None
    return WalkStatus(
        steps=active,
        states=states,
        ahead=tuple(ahead),
        phase=next((step.phase for step in ahead if step.phase in PHASES), ""),
        progress=progress(steps, active, states),
        beside=_beside(active, current, written),
        open_holds=tuple(s for s in active if s.hold is not None and states[s.id].is_open),
        passed_by_name=tuple(s for s in active if states[s.id] is StepState.PASSED_BY_NAME),
        holders=holders,
        without_figures={
            step.id: names
            for step in active
            if step.hold is not None and (names := lacking(step, rows[step.id]))
        },
        taken_back=against,
        unwitnessed=sum(map(len, not_seen.values())),
        not_witnessed=tuple(step for step in active if not_seen.get(step.id)),
        later=later(active, written, states),
        not_asked=not_asked,
    )


def _taken_back(
    active: Sequence[Step],
    written: Mapping[str, Sequence[Entry]],
    states: Mapping[str, StepState],
    job: Job,
) -> dict[str, Refutation]:
    """The holds whose yes a later figure takes back; none of a job that is sealed."""
    if job.last("seal") is not None:
        return {}
    ends: defaultdict[int, list[Entry]] = defaultdict(list)
    closed = [s for s in active if s.hold is not None and not states[s.id].is_open]
    for step in closed:
        ends[step.hold or 0] += [e for e in written[step.id] if e.kind in ("hold", "passed_over")]
    found = {}
    for step in closed:
        given = [e for e in written[step.id] if e.kind in ("hold", "passed_over")]
        if given and (against := taken_back(step, given[-1], job, active, ends)):
            found[step.id] = against
    return found


def _not_asked(
    active: Sequence[Step], written: Mapping[str, Sequence[Entry]], job: Job
) -> tuple[Step, ...]:
    """Of a sealed job, the steps of the company's own of which nothing is written.

    The company may have added them since, and what is sealed is not opened by that.
    """
    if job.last("seal") is None:
        return ()
    return tuple(step for step in active if step.company and not written[step.id])


def _written(active: Sequence[Step], job: Job) -> dict[str, tuple[Step, list[Entry]]]:
    """The live entries for each step, in the order of the log.

    An entry counts for the step it names. One that names none, as a gauge or a script may write
    it, counts for the steps that adopt its kind and ask for something it says.
    """
    written: dict[str, tuple[Step, list[Entry]]] = {step.id: (step, []) for step in active}
    adopting: defaultdict[str, list[Step]] = defaultdict(list)
    for step in active:
        if step.adopts:
            adopting[step.records].append(step)
    for kind in dict.fromkeys((*_OF_THE_WALK, *(step.records for step in active))):
        for entry in job.live(kind):
            name = entry.text("step")
            if name in written and kind in (*_OF_THE_WALK, written[name][0].records):
                written[name][1].append(entry)
            elif not name:
                for step in adopting[kind]:
                    if _adopts(step, entry):
                        written[step.id][1].append(entry)
    for _, entries in written.values():
        entries.sort(key=lambda entry: entry.order)
    return written


def _adopts(step: Step, entry: Entry) -> bool:
    agrees = all(entry.text(name) in ("", word) for name, word in step.fixed.items())
    return agrees and any(name in entry.values for name in step.asks if name not in step.known)


def _holders(active: Sequence[Step], written: Mapping[str, Sequence[Entry]]) -> dict[str, str]:
    """The initials on the hold that each step's `same_person` names."""
    held = {step.id: releasing(step, written[step.id]) for step in active}
    found = {step.id: held.get(step.same_person) for step in active if step.same_person}
    return {name: hold.by for name, hold in found.items() if hold is not None}


def _ahead(active: Sequence[Step], states: Mapping[str, StepState]) -> list[Step]:
    """The open steps in the order they are to be done, those that cannot wait first."""
    waiting = {step.id for step in active if step.repeat and states[step.id].is_open}
    ahead = [s for s in active if states[s.id].is_open and s.beside not in waiting and not s.waits]
    return sorted(ahead, key=lambda step: (step.phase != ANY_TIME, step.turn))


def _beside(
    active: Sequence[Step], current: Step | None, written: Mapping[str, Sequence[Entry]]
) -> tuple[SideStep, ...]:
    if current is None:
        return ()
    main = [entry for entry in written[current.id] if entry.kind == current.records]
    return tuple(
        SideStep(step, _is_due(step, main, written[step.id]))
        for step in active
        if step.beside == current.id
    )


def _is_due(step: Step, main: Sequence[Entry], done: Sequence[Entry]) -> bool:
    """Whether as much went by since the step was last done as it may wait."""
    if step.every is None:
        return False
    rows = [entry for entry in done if entry.kind == step.records]
    since = [entry for entry in main if not rows or entry.order > rows[-1].order]
    counters = [feet for entry in since if (feet := in_feet(entry, "footage")) is not None]
    if not counters:
        return len(since) >= step.every
    before = [in_feet(entry, "footage") for entry in main if entry not in since]
    start = next((feet for feet in reversed(before) if feet is not None), 0.0)
    return abs(counters[-1] - start) >= step.every
