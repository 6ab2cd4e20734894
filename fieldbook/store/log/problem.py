"""What was found wrong on disk, in plain words."""

from __future__ import annotations

from dataclasses import dataclass

from fieldbook.quantities.plain import plain


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong with a log.

    Attributes:
        file: Name of the file.
        line: Line number from 1; 0 when it is the file as a whole.
        words: What is wrong and what was done about it.
        damage: Whether something recorded may be unreadable; a torn tail, which nobody was shown
            was saved, is none.
    """

    file: str
    line: int
    words: str
    damage: bool = True

    def __str__(self) -> str:
        where = f"{self.file}, line {self.line}" if self.line else self.file
        return plain(f"{where}: {self.words}")

    def document(self) -> dict[str, object]:
        """The problem as a JSON document."""
        return {"file": self.file, "line": self.line, "words": self.words, "damage": self.damage}
