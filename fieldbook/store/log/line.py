"""One line of a log: a JSON object that carries its number, the line before it, and a checksum.

    {"n":2,"prev":"<hash of line 1>","entry":{...},"sum":"<checksum>"}

The checksum is over the very bytes before it, so a flipped bit anywhere in the line is found. The
hash of a line is over all its bytes without the line end; the next line names it, so a line that
was altered, taken out or put in is found too.
"""

from __future__ import annotations

import hashlib
from typing import Any, NamedTuple

from fieldbook.store.log.strict_json import BadJson, read_json, write_json

FORMAT = "fieldbook log"
VERSION = 1
NO_LINE = "0" * 64
LONGEST = 256 * 1024

_SUM = b',"sum":"'
_SUM_DIGITS = 16
_NOTHING_YET = hashlib.sha256()
_FIELDS = {key: {"n", "prev", key, "sum"} for key in ("head", "entry")}
SUM_LENGTH = len(_SUM) + _SUM_DIGITS + len(b'"}')
"""Length of the end of every line, which carries its checksum."""


class BadLine(ValueError):
    """The bytes are not a whole line of a log; the message says why."""


class TooLong(ValueError):
    """A line would be longer than is ever read back."""


class LogLine(NamedTuple):
    """A whole line.

    Attributes:
        number: Its place in its file, from 1.
        previous: Hash of the line before it.
        key: "head" for the first line of a file, "entry" for every other.
        body: The document it carries.
        hash: Of its bytes.
    """

    number: int
    previous: str
    key: str
    body: dict[str, Any]
    hash: str


def hash_of(raw: bytes) -> str:
    """Hash of a line's bytes, its line end left out."""
    return hashlib.sha256(raw).hexdigest()


def encode(number: int, previous: str, key: str, body: dict[str, Any]) -> bytes:
    """The bytes of a line, without its line end.

    Raises:
        ValueError: The body is not of finite numbers and Unicode text.
        TooLong: It would be longer than is ever read back.
    """
    document = {"n": number, "prev": previous, key: body}
    raw = write_json(document).encode("utf-8")[:-1]
    line = raw + _SUM + _digits(hashlib.sha256(raw)) + b'"}'
    if len(line) > LONGEST:
        raise TooLong(f"longer than {LONGEST} bytes")
    return line


def decode(raw: bytes) -> LogLine:
    """The line that `raw`, without its line end, holds.

    Raises:
        BadLine: The checksum is wrong, or it is not a line of a log.
    """
    if len(raw) > LONGEST:
        raise BadLine(f"longer than {LONGEST} bytes")
    line_hash = checked_hash(raw)
    if not line_hash:
        raise BadLine("its checksum is wrong")
    try:
        document = read_json(raw)
    except BadJson as error:
        raise BadLine(str(error)) from error
    return _line(document, line_hash)


def checked_hash(raw: bytes) -> str:
    """The hash of a line whose checksum is that of its bytes; empty where it is not."""
    sha = _NOTHING_YET.copy()  # in half the time that a new one takes
    sha.update(raw[:-SUM_LENGTH])
    tail = raw[-SUM_LENGTH:]
    if tail != _SUM + _digits(sha) + b'"}':
        return ""
    sha.update(tail)
    return sha.hexdigest()


def entry_start(number: int, previous: str) -> bytes:
    """How `encode` begins the line of an entry, up to the entry itself."""
    return f'{{"n":{number},"prev":"{previous}","entry":'.encode("ascii")


def _line(document: object, own_hash: str) -> LogLine:
    if not isinstance(document, dict):
        raise BadLine("not a JSON object")
    number, previous = document.get("n"), document.get("prev")
    key = "head" if "head" in document else "entry"
    body = document.get(key)
    if document.keys() != _FIELDS[key]:
        raise BadLine("not the fields of a line")
    if isinstance(number, bool) or not isinstance(number, int) or not isinstance(previous, str):
        raise BadLine("no line number, or no hash of the line before")
    if not isinstance(body, dict):
        raise BadLine(f"its {key} is not a JSON object")
    return LogLine(number, previous, key, body, own_hash)


def _digits(sha: hashlib._Hash) -> bytes:
    return sha.hexdigest()[:_SUM_DIGITS].encode("ascii")
