"""Addresses of places and databases, as they may be shown: without what opens them.

A name, a password, a key or a token in an address is nobody's to read over a shoulder, in a log or
in a report. What an address hides is known by its shape and not by one library's reading of it: a
secret may hold the very signs that part an address, and each library parts it elsewhere then.
"""

from __future__ import annotations

import re
from itertools import combinations
from typing import TYPE_CHECKING
from urllib.parse import quote, quote_plus, unquote, unquote_plus

if TYPE_CHECKING:
    from collections.abc import Iterator

HIDDEN = "***"
_SCHEME = re.compile(r"\s*[a-z][a-z0-9+.-]+:[:/]*", re.IGNORECASE)
_ADDRESS = re.compile(r"\s*[a-z][a-z0-9+.-]+(://|::)", re.IGNORECASE)
_NOT_OF_ANY_SERVER = re.compile(r"\s*(?:file|local|sqlite)[a-z0-9+]*:///", re.IGNORECASE)
"""Addresses that name a file here: nobody is asked for a password, and a folder may have an @."""
_ASKED, _ASKED_HERE = re.compile(r"[?#;&]"), re.compile(r"\?")
"""Where what is asked of a place begins, with a token in it or not."""
_ADDRESS_IN_WORDS = re.compile(r"[a-z][a-z0-9+.-]+:[:/]*\S*[@?#;&]\S*", re.IGNORECASE)
_SIGN = re.compile(r"[:/@?#&;=\s]")
"""Where a library may part an address, and so say a piece of a secret that has such a sign."""
_LOOKED_AT = 200
_SHORTEST, _SHORTEST_PART = 2, 4
"""Letters of a secret, and of a piece of one, that are looked for: fewer stand in any word."""


def is_address(text: str) -> bool:
    """Whether a text names a place by an address, as `s3://wells/truck`, and not a folder."""
    return _ADDRESS.match(text) is not None


def not_here(address: str) -> str:
    """That an address is no folder, without what opens it."""
    return f"{redacted(address)} is an address: name a folder or file of this machine"


def redacted(address: str) -> str:
    """An address as it may be shown; a folder, which is none, as it is.

    Everything up to the last @ is hidden, and everything from a ?, #, ; or & on. Where a sign could
    be of the password and of a query alike, all but the kind of address is hidden.

    >>> redacted("s3://name:se/cr@et@bucket/folder")
    's3://***@bucket/folder'
    >>> redacted("https://there/jobs?token=hush")
    'https://there/jobs?***'
    """
    shown, _ = _parted(address)
    return shown


def redacted_in(words: str, *addresses: str) -> str:
    """What a library says, without what `addresses` hide, in whatever piece or spelling it has it.

    Args:
        words: What it says.
        addresses: Those that it was given.
    """
    hidden = {piece for address in addresses for piece in _hidden(address)}
    for piece in sorted(hidden, key=len, reverse=True):  # the whole before its parts
        words = re.sub(re.escape(piece), HIDDEN, words, flags=re.IGNORECASE)
    return _ADDRESS_IN_WORDS.sub(lambda found: redacted(found[0]), words)


def _parted(address: str) -> tuple[str, list[str]]:
    """What is shown of an address, and what is not."""
    scheme = _SCHEME.match(address)
    if scheme is None:
        return address, []
    kind, rest = scheme[0], address[scheme.end() :]
    here = _NOT_OF_ANY_SERVER.match(address) is not None
    asked = (_ASKED_HERE if here else _ASKED).search(rest)
    at = -1 if here else rest.rfind("@")
    if asked is not None and asked.start() < at:
        return f"{kind}{HIDDEN}", [rest]
    hidden = []
    if asked is not None:
        hidden.append(rest[asked.end() :])
        rest = f"{rest[: asked.end()]}{HIDDEN}"
    if at >= 0:
        hidden.append(rest[:at])
        rest = f"{HIDDEN}{rest[at:]}"
    return f"{kind}{rest}", hidden


def _hidden(address: str) -> Iterator[str]:
    """Every piece of what an address hides, as a library may part it and spell it."""
    _, hidden = _parted(address)
    for whole in hidden:
        for said in {whole, unquote(whole), unquote_plus(whole)}:
            name, _, secret = said.partition(":")
            pieces = {piece for piece in (said, name, secret) if len(piece) >= _SHORTEST}
            signs = [-1, *(sign.start() for sign in _SIGN.finditer(said[:_LOOKED_AT])), len(said)]
            parts = {said[one + 1 : other] for one, other in combinations(signs, 2)}
            for piece in pieces | {part for part in parts if len(part) >= _SHORTEST_PART}:
                yield from (piece, quote(piece), quote(piece, safe=""), quote_plus(piece))
                yield repr(piece)[1:-1]
