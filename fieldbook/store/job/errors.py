"""Why an entry is not on disk."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fieldbook.record.entry import Draft


class NotSaved(OSError):
    """An entry is not on disk; it is kept in hand, and recording the same draft tries it again."""

    def __init__(self, draft: Draft, why: str) -> None:
        super().__init__(why)
        self.draft = draft

    def __str__(self) -> str:
        return str(self.args[0])


class ReadOnly(NotSaved):
    """The book is held by another program, or cannot be written by this one."""
