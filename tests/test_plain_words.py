"""Names, docstrings and comments use the standard terms of Python and of the trade.

Words of a dialect, or archaic words, stop a reader who is new here. What stays has its reason
beside it.
"""

from __future__ import annotations

import ast
import io
import re
import tokenize
from collections.abc import Iterator
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[1]
ROOMS = sorted(
    path
    for top in ("calc", "fieldbook")
    for path in [TOP / top, *(TOP / top).iterdir()]
    if path.is_dir() and path.name != "__pycache__" and list(path.glob("*.py"))
)
NAMES = re.compile(r"(?:^|_)(told|tells|reckon\w*|deeds?|acts|glance|stands)(?=_|$)")
"""Parts of a name that say nothing to a Python programmer or to a pump crew."""
CLASSES = re.compile(r"^_?(Kept|Bare|Drawn|Hung|Told|Given)$")
"""Participles that name no thing."""
PROSE = re.compile(
    r"\b(told|reckon\w*|stands|a yes|asked wrongly|hitherto|thereof|whereof|of old|anew|nought"
    r"|deeds?)\b",
    re.IGNORECASE,
)


def parts(name: str) -> str:
    """`TraceBeside` as `trace_beside`."""
    return re.sub(r"(?<=[a-z0-9])(?=[A-Z])", "_", name).lower()


def names_of(tree: ast.AST) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
            yield node.name
        elif isinstance(node, ast.Name | ast.arg):
            yield node.id if isinstance(node, ast.Name) else node.arg
        elif isinstance(node, ast.Attribute):
            yield node.attr


def prose_of(text: str, tree: ast.Module) -> Iterator[str]:
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type == tokenize.COMMENT:
            yield token.string
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            yield str(node.value.value)


def found_in(path: Path) -> list[str]:
    text = path.read_text(encoding="utf-8")
    tree = ast.parse(text)
    names = {n for n in names_of(tree) if NAMES.search(parts(n)) or CLASSES.match(n)}
    prose = {match.group() for part in prose_of(text, tree) for match in PROSE.finditer(part)}
    return sorted(names) + sorted(f'"{word}"' for word in prose)


@pytest.mark.parametrize("room", ROOMS, ids=lambda room: str(room.relative_to(TOP)))
def test_names_and_prose_are_plain(room: Path) -> None:
    files = room.glob("*.py") if room.name in ("calc", "fieldbook") else room.rglob("*.py")
    found = {str(path.relative_to(TOP)): found_in(path) for path in sorted(files)}

    assert {path: words for path, words in found.items() if words} == {}
