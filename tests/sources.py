"""`python -m tests.sources` writes calc/SOURCES.md from the docstrings of calc and the tests."""

from __future__ import annotations

import ast
import re
import sys
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

TOP = Path(__file__).resolve().parents[1]
PAGE = TOP / "calc" / "SOURCES.md"
TOOLS = frozenset({"units", "table", "interpolate", "errors", "check", "__init__"})
"""Modules that calculate nothing of the trade."""
HEAD = """# Every calculation, its source and its check

Made from the docstrings by `python -m tests.sources`; a test fails where it differs, or where a
public function names no source. A source is given as it was read; "from memory" says that it was
not at hand. "Checked in" is the module in `tests/published` that holds values from outside, or a
labelled hand calculation, of that function; each names its source beside the value. Demand against
limit (`check`), units (`units`) and straight lines between the points of a table (`interpolate`)
are the project's own and are held in `tests/calc`.
"""


class Calculation(NamedTuple):
    """One public function or method.

    Attributes:
        module: Its module below `calc`, such as "drop_line.pipe".
        name: Of the function, with its class.
        does: The first sentence of its docstring.
        source: What its docstring gives as its source; empty where it gives none.
    """

    module: str
    name: str
    does: str
    source: str


def calculations() -> Iterator[Calculation]:
    """Every public function of calc, and every public method that names a source."""
    for path in sorted((TOP / "calc").rglob("*.py")):
        if path.stem in TOOLS:
            continue
        module = ".".join(path.relative_to(TOP / "calc").with_suffix("").parts)
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                yield _calculation(module, node.name, node)
            elif isinstance(node, ast.ClassDef):
                for method in node.body:
                    if isinstance(method, ast.FunctionDef) and not method.name.startswith("_"):
                        found = _calculation(module, f"{node.name}.{method.name}", method)
                        if found.source:
                            yield found


def _calculation(module: str, name: str, node: ast.FunctionDef) -> Calculation:
    text = ast.get_docstring(node) or ""
    source = re.search(r"^Source: (.*?)(?=\n\n|\Z)", text, re.MULTILINE | re.DOTALL)
    does = " ".join(text.split("\n\n")[0].split())
    return Calculation(module, name, does, " ".join(source[1].split()) if source else "")


def checked_in() -> dict[str, list[str]]:
    """Name of a function or class of calc -> the modules of tests/published that use it."""
    found: dict[str, list[str]] = defaultdict(list)
    for path in sorted((TOP / "tests" / "published").glob("test_*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        names = {n.id for n in ast.walk(tree) if isinstance(n, ast.Name)}
        names |= {n.attr for n in ast.walk(tree) if isinstance(n, ast.Attribute)}
        for name in sorted(names):
            found[name].append(path.name)
    return found


def page() -> str:
    """The page as the docstrings have it."""
    checks, rows = checked_in(), []
    unchecked = []
    module = ""
    for each in calculations():
        if each.module != module:
            module = each.module
            rows += ["", f"## {module}", "", "| Function | Does | Source | Checked in |"]
            rows += ["|---|---|---|---|"]
        tests = checks.get(each.name.rpartition(".")[2], [])
        if not tests:
            unchecked.append(f"`{module}.{each.name}`")
        cells = (f"`{each.name}`", each.does, each.source.rstrip("."), ", ".join(tests) or "-")
        rows.append(f"| {' | '.join(cell.replace('|', chr(92) + '|') for cell in cells)} |")
    foot = ["", "## With no value from outside", "", ", ".join(unchecked) or "None.", ""]
    return HEAD + "\n".join((*rows, *foot))


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
    print(f"{PAGE.name}: {sum(1 for _ in calculations())} calculations", file=sys.stderr)
