"""`fieldbook enter`: entries from standard input, each answered only once it is on disk."""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING, Any

from fieldbook.cli.errors import CannotGoOn
from fieldbook.cli.opening import load_walk, open_book
from fieldbook.cli.streams import is_output_closed
from fieldbook.quantities.admit import Refused, draft_from, is_sure
from fieldbook.store.job.errors import NotSaved
from fieldbook.store.log.strict_json import BadJson, read_json
from fieldbook.walk.entry.doubts import doubts_of
from fieldbook.walk.entry.from_paper import marked, paper_problems
from fieldbook.walk.entry.never_kept import never_kept
from fieldbook.walk.withheld import withheld
from fieldbook.watch.document import check_document
from fieldbook.watch.watcher import Watcher

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterator

    from fieldbook.record.entry import Draft
    from fieldbook.store.job.book import Book

_LONGEST_LINE = 64 * 1024


def enter(given: argparse.Namespace) -> int:
    """Record each line; 1 when any was refused."""
    if is_output_closed():
        raise CannotGoOn("the output is closed, so no answer can be given: nothing is recorded")
    refused = False
    with open_book(given, given.job, write=True) as book:
        if book.holder is not None:
            raise CannotGoOn(f"the book cannot be written: {book.holder}")
        gate = _Gate(book, given)
        for line in _lines():
            answer = gate.answer(line)
            refused = refused or "refused" in answer
            _tell(answer)
    return 1 if refused else 0


def _tell(answer: dict[str, Any]) -> None:
    """Write an answer; where it does not get out, no more lines are taken.

    Raises:
        CannotGoOn: It did not get out. Who sends the lines could not know which of them are saved.
    """
    try:
        print(json.dumps(answer, ensure_ascii=True), flush=True)
    except OSError as error:
        became = f"saved as entry {answer['seq']}" if "seq" in answer else "refused"
        raise CannotGoOn(
            f"the output cannot be written ({error.strerror or error}): the line read last is"
            f" {became}, no line after it is recorded"
        ) from error


def _lines() -> Iterator[bytes]:
    """Lines of standard input, none of them ever held longer than the limit allows."""
    source = sys.stdin.buffer
    while line := source.readline(_LONGEST_LINE + 1):
        whole = line
        while len(line) > _LONGEST_LINE and not line.endswith(b"\n"):
            line = source.readline(_LONGEST_LINE + 1)
        if whole.strip():
            yield whole


class _Gate:
    """Takes one line after the other into a book."""

    def __init__(self, book: Book, given: argparse.Namespace) -> None:
        self._book = book
        self._given = given
        self._watcher = Watcher(book.job)

    def answer(self, line: bytes) -> dict[str, Any]:
        if len(line) > _LONGEST_LINE:
            return {"refused": f"a line longer than {_LONGEST_LINE} bytes"}
        try:
            draft = marked(draft_from(read_json(line)))
            if refusal := self._refusal(draft):
                return refusal
            entry = self._book.record(draft)
        except (BadJson, Refused) as problem:
            return {"refused": str(problem)}
        except NotSaved as problem:
            return {"refused": f"NOT SAVED: {problem}"}
        look = self._watcher.look()
        checks = [check_document(check) for check in look.checks]
        brief = look.telling.brief()
        return {"saved": entry.id, "seq": entry.seq, "checks": checks, "telling": brief}

    def _refusal(self, draft: Draft) -> dict[str, Any]:
        """Why an entry that is no nonsense is not taken as things are; empty where it is."""
        found = paper_problems(draft, self._book.now())
        found = found or list(never_kept(draft, self._book.job).values())
        if not found and draft.kind in ("hold", "passed_over"):
            found = self._withheld(draft)
        if found:
            return {"refused": "; ".join(found)}
        doubts = self._doubts(draft) if not is_sure(draft) else []
        if not doubts:
            return {}
        words = f'{"; ".join(doubts)}: look again; "sure": true keeps it as it is'
        return {"refused": words, "doubt": doubts}

    def _doubts(self, draft: Draft) -> list[str]:
        """What a form would ask about, each in words."""
        is_signed = draft.kind == "setting" and self._is_signed(draft)
        return list(doubts_of(self._book.job, draft, is_signed=is_signed).values())

    def _is_signed(self, draft: Draft) -> bool:
        """Whether the entry is for a step at which others sign for it."""
        try:
            step = load_walk(self._given, self._book.job).step(draft.values["step"].text)
        except (CannotGoOn, KeyError):
            return False
        return step.hold is not None

    def _withheld(self, draft: Draft) -> list[str]:
        job = self._book.job
        try:
            walk = load_walk(self._given, job)
        except CannotGoOn as problem:
            return [str(problem)]
        verdicts = {check.name: check.verdict.value for check in self._watcher.look().checks}
        return withheld(draft, walk, walk.stand(job), job, verdicts)
