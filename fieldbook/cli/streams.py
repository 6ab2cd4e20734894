"""The streams of a command: they may be closed, full, or take fewer characters than are written."""

from __future__ import annotations

import codecs
import contextlib
import io
import os
import sys

from fieldbook.quantities.plain import plain

_ESCAPED = "fieldbook.escaped"
_CLOSED: list[str] = []


def ready_streams() -> None:
    """Make the three streams fit to be used, whatever began this program.

    A stream that was closed takes nothing and gives nothing; its number is taken, so that no log
    is opened under it. A character that the output cannot take is written as JSON escapes it, so
    that a JSON answer stays one.
    """
    codecs.register_error(_ESCAPED, _escaped)
    if sys.stdin is None:
        sys.stdin = open(os.devnull, encoding="utf-8")  # noqa: PTH123, SIM115 - to the end
    if sys.stdout is None:
        _CLOSED.append("output")
        sys.stdout = open(os.devnull, "w", encoding="utf-8")  # noqa: PTH123, SIM115 - as above
    if sys.stderr is None:
        sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: PTH123, SIM115 - as above
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors=_ESCAPED)


def is_output_closed() -> bool:
    """Whether the output was closed from the start, so that no answer can get out."""
    return bool(_CLOSED)


def _escaped(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    units = error.object[error.start : error.end].encode("utf-16-be", "surrogatepass").hex()
    return "".join(f"\\u{units[at : at + 4]}" for at in range(0, len(units), 4)), error.end


def say(words: str) -> None:
    """Say in one line on standard error what is wrong, where anybody can read it.

    Whatever it names, an address among it is said without what opens it.
    """
    from fieldbook.office.export.address import redacted_in  # noqa: PLC0415 - seldom needed

    words = redacted_in(words, *sys.argv)
    with contextlib.suppress(OSError):
        print(f"fieldbook: {plain(words)}", file=sys.stderr, flush=True)


def settle_output() -> None:
    """Let out what is still held; where it cannot get out, nothing more is tried."""
    try:
        sys.stdout.flush()
    except OSError:
        # What is still held would be tried once more at the end of Python, which ends badly then.
        with contextlib.suppress(OSError, ValueError):
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, sys.stdout.fileno())
            os.close(nowhere)
