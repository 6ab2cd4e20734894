"""The lift check: may I lift this, and with which reading do I stop."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import Screen

from fieldbook.app.panels.gauge_bar import gauge_bar
from fieldbook.app.screens.load_path_text import TITLE, chain
from fieldbook.app.widgets.action_list import Action, ActionList
from fieldbook.app.widgets.literal import Literal
from fieldbook.quantities.convert import show
from fieldbook.quantities.safety import SAFETY
from fieldbook.watch.bands import band_words
from fieldbook.watch.lift.answer import lift_answer
from fieldbook.watch.text import check_words, out_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from textual.app import ComposeResult

    from fieldbook.app.host import Host
    from fieldbook.app.session import Session
    from fieldbook.watch.lift.lift import Loads
    from fieldbook.watch.state.position import Moment
    from fieldbook.watch.watcher import Look

_ACTIONS = (
    Action("s", "as it is now", "as_it_is"),
    Action("f", "line full", "full"),
    Action("d", "line drained", "drained"),
    Action("+", "one more out", "more"),
    Action("-", "one less out", "less"),
    Action("j", "every joint", "every"),
    Action("Right", "next job", "beside(1)"),
    Action("Left", "job before", "beside(-1)"),
    Action("Esc", "back", "back"),
)
_MARGIN = 2  # columns beside the bar
_OF_JOINTS = frozenset({"more", "less", "every"})


class LiftScreen(Screen[None]):
    """Loads, readings and every link, the weakest marked."""

    DEFAULT_CSS = """
    LiftScreen {
        & #job { padding: 0 1; color: $muted; text-wrap: nowrap; text-overflow: ellipsis; }
        & #verdict { padding: 0 1; text-style: bold; }
        & #verdict.stop { text-style: bold reverse; }
        & #bar { padding: 0 1; text-wrap: nowrap; }
        & .gone { display: none; }
        & .answer { padding: 0 1; text-style: bold; }
        & VerticalScroll { height: 1fr; padding: 0 1; }
        & .link { text-wrap: nowrap; text-overflow: ellipsis; }
    }
    """
    app: Host

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q,l", "back", "Back"),
        Binding("right", "beside(1)", "The next job's lift", priority=True),
        Binding("left", "beside(-1)", "The lift of the job before", priority=True),
        Binding("s", "as_it_is", "As it is now"),
        Binding("f", "full", "Take the line as full"),
        Binding("d", "drained", "Take the line as drained"),
        Binding("plus,equals_sign", "more", "One more joint out"),
        Binding("minus", "less", "One less joint out"),
        Binding("j", "every", "Every joint by itself, or the weakest of them"),
    ]

    def __init__(self, session: Session, *, alone: bool) -> None:
        """Check the job of `session`.

        Args:
            session: The open job.
            alone: Whether the job was opened on this screen, from the shelf.
        """
        super().__init__()
        self._session = session
        self._alone = alone
        self._joints: int | None = None
        self._drained: bool | None = None
        self._every = False

    def compose(self) -> ComposeResult:
        """Whose lift, the verdict, the rest to scroll, the acts."""
        yield Literal(self._session.name, id="job")
        yield Literal("", id="verdict")
        yield Literal("", id="stop-at", classes="answer")
        yield Literal("", id="gauge", classes="answer")
        yield Literal("", id="bar")
        yield VerticalScroll()
        yield ActionList(act for act in _ACTIONS if self.check_action(act.action, ()))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool:
        """A hose has no joints to ask about; beside a lift on the walk there is no other job."""
        del parameters
        if action.partition("(")[0] == "beside":
            return self._alone
        return action not in _OF_JOINTS or self._session.job.text("job", "line") != "hose"

    async def on_mount(self) -> None:
        """Check."""
        await self._check()

    async def _check(self) -> None:
        if self._joints is None and self._drained is None:
            look = self._session.look()
        else:
            look = self._session.look_if(joints_out=self._joints, drained=self._drained)
        check = look.lift.check
        case = f"   ASKED FOR: {asked}" if (asked := self._case(look.now)) else ""
        answer = lift_answer(look)
        where = f"   {out_words(look.now)}" if look.now.has_load else ""
        self.query_one("#verdict", Literal).say(
            f"{answer.verdict}{where}{case}", check.verdict.value
        )
        self.query_one("#stop-at", Literal).say(answer.stop_at)
        self.query_one("#gauge", Literal).say(answer.gauge, look.readings.check.verdict.value)
        bar = gauge_bar(look, self.size.width - _MARGIN)
        self.query_one("#bar", Literal).say(bar.text, bar.state)
        self.query_one("#bar", Literal).set_class(not bar.text, "gone")
        place = self.query_one(VerticalScroll)
        await place.remove_children()
        await place.mount_all(_lines(look, every=self._every))
        place.focus()

    def _case(self, now: Moment) -> str:
        words = []
        if self._joints is not None:
            whole = len(now.record.joint_ends)
            joints = f"{whole - self._joints} joints in" if now.counted_in else ""
            words.append(joints or f"{self._joints} joints out")
        if self._drained is not None:
            words.append("line drained" if self._drained else "line full")
        return ", ".join(words)

    async def action_as_it_is(self) -> None:
        """As the job is now."""
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

    async def action_every(self) -> None:
        """Show every joint by itself, or only the weakest of them."""
        self._every = not self._every
        await self._check()

    async def _shift(self, by: int) -> None:
        now = self._session.look().now
        at = self._joints if self._joints is not None else now.joints_out
        self._joints = min(max(at + by, 0), max(len(now.record.joint_ends), 0))
        await self._check()

    def action_beside(self, by: int) -> None:
        """The lift of the job below on the shelf, or above."""
        self.app.lift_beside(by)

    def action_back(self) -> None:
        """Back to where we were."""
        self.dismiss(None)


def _at_the_hook(look: Look) -> str:
    """The hook load that the reading never to pass means: a gauge may show another figure."""
    limit = look.lift.limit
    if limit is None or look.readings.never_of != look.lift.limit_of:
        return ""
    return f", {show(limit, 'lbf')} at the hook"


def _lines(look: Look, *, every: bool) -> Iterator[Literal]:
    check, gauge = look.lift.check, look.readings
    if check.missing:
        yield Literal(f"Missing: {', '.join(check.missing)}", classes="unknown")
    if look.lift.loads is not None:
        yield from _loads(look.lift.loads)
    yield Literal(f"Line: {look.draining.words}")
    yield from _in_service(look)
    full, drained = band_words(gauge.expect_full), band_words(gauge.expect_drained)
    yield Literal(f"Gauge should read: {full} full, {drained} drained")
    if look.now.outside is not None and gauge.expect_full is not None:
        yield Literal(f"  with {look.now.outside.words}")
    if gauge.never is not None:
        yield Literal(f"Limit from {gauge.never_of}{_at_the_hook(look)}")
    if gauge.never_needs:
        yield Literal(f"  not checked: {', '.join(gauge.never_needs)}", classes="unknown")
    yield from _path(look, every=every)
    if check.note:
        yield Literal(f"Note: {check.note}", classes="muted")
    for words in SAFETY:
        yield Literal(words, classes="caution")


def _in_service(look: Look) -> Iterator[Literal]:
    if (served := look.lift.served) is not None:
        yield Literal(f"Pull in service: {check_words(served)}", classes=served.verdict.value)


def _path(look: Look, *, every: bool) -> Iterator[Literal]:
    """The gauge and every link, and what the weakest link rests on."""
    if look.lift.links:
        yield Literal(TITLE, classes="title")
    for row in chain(look.lift.links, read=look.readings.check, every=every):
        yield Literal(row.text, classes=f"link {row.check.verdict.value}")
    weakest = look.lift.chain
    if weakest.formula:
        source = f"  Limit from {weakest.source}." if weakest.source else ""
        yield Literal(f"Why: {weakest.formula}.{source}", classes="muted")


def _loads(loads: Loads) -> Iterator[Literal]:
    yield Literal(
        f"Hook load, {loads.water}: {show(loads.full, 'lbf')} full,"
        f" {show(loads.drained, 'lbf')} drained; {show(loads.design, 'lbf')} full, well empty"
    )
    yield Literal(f"Worst case: {show(loads.worst, 'lbf')} ({loads.worst_case})", classes="title")
