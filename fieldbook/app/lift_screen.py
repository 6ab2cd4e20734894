"""The lift check: may I lift this, and with which reading do I stop."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import Screen

from calc.units import magnitude
from fieldbook.app.acts import Acts
from fieldbook.app.limits_panel import band, bar
from fieldbook.app.literal import Literal
from fieldbook.quantities.convert import show
from fieldbook.quantities.safety import SAFETY

if TYPE_CHECKING:
    from collections.abc import Iterator

    from textual.app import ComposeResult

    from calc.check import Check
    from fieldbook.app.session import Session
    from fieldbook.watch.watcher import Look

_ACTS = (
    ("s", "as it stands", "as_it_stands"),
    ("f", "line full", "full"),
    ("d", "line drained", "drained"),
    ("+", "one more out", "more"),
    ("-", "one less out", "less"),
    ("Esc", "back", "back"),
)


class LiftScreen(Screen[None]):
    """Loads, readings and every link, the weakest first."""

    DEFAULT_CSS = """
    LiftScreen {
        & #verdict { padding: 0 1; text-style: bold; }
        & VerticalScroll { height: 1fr; padding: 0 1; }
        & .link { text-wrap: nowrap; text-overflow: ellipsis; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q,l", "back", "Back"),
        Binding("s", "as_it_stands", "As it stands"),
        Binding("f", "full", "Line full"),
        Binding("d", "drained", "Line drained"),
        Binding("plus,equals_sign", "more", "One more joint out"),
        Binding("minus", "less", "One less joint out"),
    ]

    def __init__(self, session: Session) -> None:
        """Check the job of `session`."""
        super().__init__()
        self._session = session
        self._joints: int | None = None
        self._drained: bool | None = None

    def compose(self) -> ComposeResult:
        """Verdict, the rest to scroll, the acts."""
        yield Literal("", id="verdict")
        yield VerticalScroll()
        yield Acts(_ACTS)

    async def on_mount(self) -> None:
        """Check."""
        await self._check()

    async def _check(self) -> None:
        if self._joints is None and self._drained is None:
            look = self._session.look()
        else:
            look = self._session.look_if(joints_out=self._joints, drained=self._drained)
        check = look.lift.check
        case = f"   asked for: {self._case()}" if self._case() else ""
        self.query_one("#verdict", Literal).say(
            f"LIFT: {check.verdict.value.upper()}   {_out(look)}{case}", check.verdict.value
        )
        place = self.query_one(VerticalScroll)
        await place.remove_children()
        await place.mount_all(_lines(look))
        place.focus()

    def _case(self) -> str:
        words = []
        if self._joints is not None:
            words.append(f"{self._joints} joints out")
        if self._drained is not None:
            words.append("line drained" if self._drained else "line full")
        return ", ".join(words)

    async def action_as_it_stands(self) -> None:
        """As the job stands."""
        self._joints = self._drained = None
        await self._check()

    async def action_full(self) -> None:
        """Take the line as full."""
        self._drained = False
        await self._check()

    async def action_drained(self) -> None:
        """Take the line as drained."""
        self._drained = True
        await self._check()

    async def action_more(self) -> None:
        """Ask with one more joint out."""
        await self._shift(1)

    async def action_less(self) -> None:
        """Ask with one less joint out."""
        await self._shift(-1)

    async def _shift(self, by: int) -> None:
        now = self._session.look().now
        at = self._joints if self._joints is not None else now.joints_out
        self._joints = min(max(at + by, 0), max(len(now.record.joint_ends), 0))
        await self._check()

    def action_back(self) -> None:
        """Back to where we were."""
        self.dismiss(None)


def _out(look: Look) -> str:
    now = look.now
    if not now.hangs:
        return "pump out, nothing hangs"
    if now.footage_out is not None:
        return f"{show(now.footage_out, 'ft')} of {now.record.hose_ft:,.0f} ft of hose out"
    return f"{now.joints_out} of {len(now.record.joint_ends)} joints out"


def _lines(look: Look) -> Iterator[Literal]:
    check, loads, told = look.lift.check, look.lift.loads, look.readings
    if check.missing:
        yield Literal(f"Missing: {', '.join(check.missing)}", classes="unknown")
    if loads is not None:
        yield Literal(
            f"Hook load  full {show(loads.full, 'lbf')}   drained {show(loads.drained, 'lbf')}   "
            f"full with no water in the well {show(loads.design, 'lbf')}"
        )
        yield Literal(f"Worst still possible {show(loads.worst, 'lbf')}: {loads.worst_case}")
    yield Literal(f"Draining: {look.draining.words}")
    never = show(told.never, "lbf") if told.never is not None else "unknown"
    yield Literal(
        f"Gauge: expect {band(told.expect_full)} full, {band(told.expect_drained)} drained"
    )
    yield Literal(f"NEVER PASS {never}  {told.never_of}", classes="title")
    if told.check.missing:
        yield Literal(f"  needs {', '.join(told.check.missing)}", classes="unknown")
    if look.lift.links:
        yield Literal(f"The lift, link by link, the most loaded first{'':<8}", classes="title")
    known = sorted((link.check for link in look.lift.links), key=_weakest_first)
    for number, link in enumerate(known):
        yield _link(link, weakest=number == 0 and link.share is not None)
    if check.source:
        yield Literal(f"Limit of the weakest: {check.source}. {check.formula}", classes="muted")
    if check.note:
        yield Literal(f"Note: {check.note}", classes="muted")
    for words in SAFETY:
        yield Literal(words, classes="caution")


def _weakest_first(check: Check) -> float:
    return -(check.share if check.share is not None else 0.0)


def _link(check: Check, *, weakest: bool) -> Literal:
    share = f"{check.share:.0%}" if check.share is not None else "?"
    figures = ""
    if check.demand is not None and check.allowable is not None:
        demand = magnitude(check.demand, "lbf", "demand")
        figures = f"{demand:,.0f} of {show(check.allowable, 'lbf')}"
    mark = ">" if weakest else " "
    shown = bar(check.share) if check.share is not None else " " * 22
    line = f"{mark} {check.governs[:26]:<26} {shown} {share:>5} {check.verdict.value:<8} {figures}"
    return Literal(line, classes=f"link {check.verdict.value}")
