"""A field for the path of a file, which completes names as they are typed."""

from __future__ import annotations

import asyncio
import os
from pathlib import Path
from typing import TYPE_CHECKING

from textual.suggester import Suggester

from fieldbook.app.forms.field import Field
from fieldbook.quantities.typed import NotUnderstood, plain_value
from fieldbook.store.job.attachments import refusal

if TYPE_CHECKING:
    from fieldbook.quantities.definition import Definition
    from fieldbook.record.entry import Value

_MOST_NAMES = 5_000  # of a folder; more are not looked through while somebody types


class PathField(Field):
    """A path; the right arrow takes over the name that is offered."""

    def __init__(self, definition: Definition) -> None:
        """A field for the path of the file that `definition` asks for."""
        super().__init__(definition)
        self.suggester = _Names()
        self.placeholder = "path; right arrow completes"


class _Names(Suggester):
    """The first name, in the order of the alphabet, that goes on from what is typed."""

    def __init__(self) -> None:
        super().__init__(use_cache=False, case_sensitive=True)

    async def get_suggestion(self, value: str) -> str | None:
        """The whole path, a folder's with a separator at its end."""
        return await asyncio.to_thread(completed, value)


def path_value(text: str) -> Value:
    """The path that was typed.

    Raises:
        NotUnderstood: There is no file there that could be attached.
    """
    try:
        path = Path(text.strip()).expanduser().absolute()
    except RuntimeError as problem:  # no such person's home
        raise NotUnderstood("there is no such file") from problem
    if why := refusal(path):
        raise NotUnderstood(why)
    return plain_value(str(path))


def completed(text: str) -> str | None:
    """`text` with the name at its end completed; None where no name goes on from it.

    Hidden files are offered only where a point is typed.
    """
    start, begun = os.path.split(text)
    if not text:
        return None
    try:
        with os.scandir(Path(start).expanduser()) as found:
            names = [
                entry.name + (os.sep if entry.is_dir() else "")
                for entry, _ in zip(found, range(_MOST_NAMES), strict=False)
                if entry.name.startswith(begun) and (begun or not entry.name.startswith("."))
            ]
    except (OSError, RuntimeError, ValueError):
        return None
    # What somebody gave a name that cannot be shown is not offered.
    name = min((name for name in names if name.isprintable()), default=None)
    return None if name is None else text[: len(text) - len(begun)] + name
