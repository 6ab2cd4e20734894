"""One open job: its book, its walk, its checks, and what is half typed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Verdict
from fieldbook.quantities.admit import Refused
from fieldbook.record.entry import Draft
from fieldbook.store.job.attachments import attach
from fieldbook.walk.barring import held_up
from fieldbook.walk.definition.loading import load_for
from fieldbook.walk.entry.entry_words import title_of, words_of
from fieldbook.walk.entry.from_paper import Paper, from_paper, paper_problems
from fieldbook.walk.entry.never_kept import never_kept
from fieldbook.walk.withheld import against, failing_beside, fails, withheld
from fieldbook.watch.watcher import Look, Watcher
from fieldbook.watch.well.differences import differences

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from fieldbook.record.entry import Entry, Value
    from fieldbook.record.job import Job
    from fieldbook.record.memory import Memory
    from fieldbook.store.job.book import Book
    from fieldbook.store.job.drafts import Drafts
    from fieldbook.walk.definition.steps import Step
    from fieldbook.walk.hold_check import Refutation
    from fieldbook.walk.stand import WalkStatus
    from fieldbook.walk.walk import Walk


class Session:
    """What the screens share while a job is open.

    Attributes:
        book: The job's book.
        drafts: What is half typed, step by step.
        unsaved: Why the last entry is not on disk; empty when all is.
        paper: The paper that is being put into the book; None while entries are made as it
            happens.
        memory: What earlier jobs on the well remember; None until it is looked up, or where
            there are none.
    """

    def __init__(self, book: Book, *, company: Path | None, drafts: Drafts) -> None:
        """Work on `book`; it is closed where its steps cannot be read.

        Args:
            book: The open book.
            company: Folder of a company's own step files, if it has one.
            drafts: What was half typed when the job was left.

        Raises:
            BadWalk: Its log does not say which walk it is.
        """
        self._company = company
        self.book = book
        self.drafts = drafts
        self.unsaved = ""
        self.paper: Paper | None = None
        self.memory: Memory | None = None
        self._watcher = Watcher(self.job)
        self._look: tuple[int, Look] | None = None
        self._stand: tuple[int, WalkStatus] | None = None
        self._walk: tuple[tuple[str, ...], Walk] | None = None
        try:
            assert self.walk
        except BaseException:
            self.book.close()
            raise

    @property
    def job(self) -> Job:
        """The job as recorded."""
        return self.book.job

    @property
    def name(self) -> str:
        """Number and title of the job, as the first thing on each of its screens."""
        named = (self.job.text("job", name) for name in ("job_number", "job_title"))
        return " ".join(filter(None, named))

    @property
    def walk(self) -> Walk:
        """The steps of this job, for the drop line and the work that it is said to be.

        What is wrong among the company's own is left out, and named for as long as it is.
        """
        key = tuple(self.job.text("job", name) for name in ("line", "work", "start"))
        if self._walk is None or self._walk[0] != key:
            self._walk = (key, load_for(self.job, self._company))
        return self._walk[1]

    @property
    def left_out(self) -> str:
        """What of the company's steps is left out and the way out; empty where nothing is."""
        words = self.walk.left_out_words
        return f"{words} Mend it in {self._company}, then open the job again." if words else ""

    @property
    def stand(self) -> WalkStatus:
        """Where the job is in its walk, computed again only when something was recorded."""
        revision = self.job.revision
        if self._stand is None or self._stand[0] != revision:
            self._stand = (revision, self.walk.stand(self.job))
        return self._stand[1]

    def look(self) -> Look:
        """Every live check, computed again only when something was recorded."""
        revision = self.job.revision
        if self._look is None or self._look[0] != revision:
            self._look = (revision, self._watcher.look())
        return self._look[1]

    def differences(self) -> list[str]:
        """What is found otherwise than earlier jobs on this well remember."""
        return differences(self.job, self.memory)

    @property
    def verdicts(self) -> dict[str, str]:
        """What each live check says, by its name."""
        return {check.name: check.verdict.value for check in self.look().checks}

    @property
    def stopping(self) -> frozenset[str]:
        """The checks that say stop now, by name."""
        return frozenset(c.name for c in self.look().checks if c.verdict is Verdict.STOP)

    def withheld(self, draft: Draft) -> list[str]:
        """Why `draft` may not release a hold point, or pass a step over."""
        return withheld(draft, self.walk, self.stand, self.job, self.verdicts)

    def against(self, step: Step) -> list[Refutation]:
        """What the figures say against releasing the hold of `step` now."""
        return against(step, self.stand, self.job)

    def against_words(self, step: Step) -> str:
        """The first of what the figures say against the hold of `step`; empty where it is open."""
        state = self.stand.states.get(step.id)
        if step.hold is None or step.each_entry_is_the_yes or state is None or not state.is_open:
            return ""
        return next((one.words for one in self.against(step)), "")

    def held_up(self, step: Step) -> tuple[Step, ...]:
        """The holds that wait for release before `step` moves the string."""
        failing = failing_beside(step, self.stand, self.job, self.verdicts)
        return (*held_up(step, self.stand), *failing)

    def fails(self, step: Step) -> bool:
        """Whether the last entry of a hold that each entry releases was no yes."""
        return fails(step, self.job, self.verdicts)

    def look_if(self, *, joints_out: int | None, drained: bool | None) -> Look:
        """Every live check for another case than the one the job is in."""
        return self._watcher.look(joints_out=joints_out, drained=drained)

    def record(
        self,
        kind: str,
        by: str,
        values: Mapping[str, Value],
        *,
        note: str = "",
        strikes: str | None = None,
        at: Value | None = None,
    ) -> Entry:
        """Put an entry on disk, with what the paper says of itself where it comes from one.

        Raises:
            Refused: It is nonsense.
            NotSaved: It is not on disk; `unsaved` says why, and the same entry is tried again
                when the same is recorded again.
        """
        draft = Draft(kind=kind, by=by, values=dict(values), note=note, strikes=strikes)
        if self.paper is not None:
            draft = from_paper(draft, self.paper, at)
            if found := paper_problems(draft, self.book.now()):
                raise Refused("; ".join(found))
        if wrong := never_kept(draft, self.job):
            raise Refused("; ".join(wrong.values()), again=wrong)
        try:
            entry = self.book.record(draft)
        except OSError as problem:
            self.unsaved = str(problem)
            raise
        self.unsaved = ""
        return entry

    def attach(self, path: Path) -> dict[str, Value]:
        """Copy a file into the job's folder, and return what its entry says of it.

        Raises:
            Refused: It is no file, or too large, or this book may not be written.
            OSError: It is not on disk; `unsaved` says why.
        """
        if self.book.holder is not None:
            raise Refused(f"the book cannot be written: {self.book.holder}")
        try:
            attached = attach(self.book.folder, path)
        except ValueError as problem:
            raise Refused(f"{path.name}: {problem}") from problem
        except OSError as problem:
            self.unsaved = problem.strerror or str(problem)
            raise
        return attached.values()

    def title(self, entry: Entry) -> str:
        """What an entry is, in words; a strike says what it struck."""
        struck = self.job.get(entry.strikes) if entry.strikes is not None else None
        words = title_of(entry, self.walk)
        return words if struck is None else f"{words}, {title_of(struck, self.walk)}"

    def entry_words(self, entry: Entry) -> str:
        """What an entry is and says, in one line."""
        words = words_of(entry)
        return f"{self.title(entry)}: {words}" if words else self.title(entry)

    def newest_of(self, step: Step) -> Entry | None:
        """The newest live entry that goes the way of the step's form."""
        way = step.fixed.get("direction", "")
        entries = [e for e in self.job.live(step.records) if e.text("direction") in ("", way)]
        return entries[-1] if entries else None

    def written_for(self, step: Step) -> list[Entry]:
        """The live entries that the form of a step made."""
        return [e for e in self.job.live(step.records) if e.text("step") == step.id]

    def ticked(self, step: Step) -> Entry | None:
        """The newest live entry that says that a step on a page of ticks is done or passed over."""
        job = self.job
        kinds = dict.fromkeys(("done", "passed_over", step.records))
        found = [e for kind in kinds for e in job.live(kind) if e.text("step") == step.id]
        return max(found, key=lambda e: e.order, default=None)

    def reread(self) -> list[Entry]:
        """Take in what other devices and programs wrote since.

        Raises:
            OSError: The folder cannot be read.
        """
        return self.book.reread()

    def close(self) -> None:
        """Let go of the book."""
        self.book.close()
