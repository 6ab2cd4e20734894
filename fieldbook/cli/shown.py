"""What a command prints, made safe to show: names from a disk are other people's text too.

A folder may be called anything: by what clears a line on a terminal, turns its direction, or is no
text at all in the terminal's encoding. All that a command prints goes through here, so that none of
it can hide what was said or end the command.
"""

from __future__ import annotations

import sys
from contextlib import contextmanager, redirect_stdout
from typing import TYPE_CHECKING, Any, TextIO, cast

from fieldbook.quantities.plain import plain

if TYPE_CHECKING:
    from collections.abc import Iterator


@contextmanager
def shown_plain() -> Iterator[None]:
    """Everything printed meanwhile is plain text, line by line."""
    with redirect_stdout(cast("TextIO", _Plain(sys.stdout))):
        yield


class _Plain:
    """A stream through which only plain text comes; else it is the stream itself."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def write(self, text: str) -> int:
        self._stream.write("\n".join(plain(line) for line in text.split("\n")))
        return len(text)

    def __getattr__(self, name: str) -> Any:  # noqa: ANN401 - whatever the stream has
        return getattr(self._stream, name)
