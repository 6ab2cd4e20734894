"""Imports run one way: each room may import only what stands beside it here."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
MOST_MODULES = 15
"""In one folder: with more of them nobody sees at a glance where a thing is."""

MAY_IMPORT = {
    "calc": set(),
    "fieldbook.small_file": set(),
    "fieldbook.record": set(),
    "fieldbook.quantities": {"fieldbook.record", "calc.units"},
    "fieldbook.walk": {"fieldbook.record", "fieldbook.quantities", "fieldbook.small_file"},
    "fieldbook.watch": {"fieldbook.record", "fieldbook.quantities", "fieldbook.small_file", "calc"},
    "fieldbook.store": {"fieldbook.record", "fieldbook.quantities", "fieldbook.small_file"},
    "fieldbook.gear": {
        "fieldbook.record", "fieldbook.quantities", "fieldbook.small_file",
        "fieldbook.store.log.disk",
    },
    "fieldbook.office": {
        "fieldbook.record", "fieldbook.quantities", "fieldbook.walk", "fieldbook.watch",
        "fieldbook.store", "fieldbook.small_file", "calc",
    },
    "fieldbook.app": {
        "fieldbook.record", "fieldbook.quantities", "fieldbook.walk", "fieldbook.watch",
        "fieldbook.store", "fieldbook.gear", "fieldbook.office", "calc",
    },
    "fieldbook.cli": {
        "fieldbook.record", "fieldbook.quantities", "fieldbook.walk", "fieldbook.watch",
        "fieldbook.store", "fieldbook.gear", "fieldbook.office", "fieldbook.app",
        "fieldbook.small_file", "calc",
    },
}  # fmt: skip
"""quantities and record hold no screen and no disk; entries are what every room speaks of."""

ONLY_HERE = {
    "textual": "fieldbook.app",
    "textual_plotext": "fieldbook.app",
    "tinydb": "fieldbook.store",
    "pint": "calc",
    "sqlalchemy": "fieldbook.office",
    "fsspec": "fieldbook.office",
}


def room_of(module: str) -> str:
    parts = module.split(".")
    return "calc" if parts[0] == "calc" else ".".join(parts[:2])


def imports() -> list[tuple[str, str]]:
    """(importing module, imported module) of every import in the product, wherever it stands."""
    found = []
    for path in sorted([*ROOT.glob("calc/**/*.py"), *ROOT.glob("fieldbook/**/*.py")]):
        module = ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                found += [(module, alias.name) for alias in node.names]
            elif isinstance(node, ast.ImportFrom):
                assert node.level == 0, f"{module} has a relative import"
                found.append((module, node.module or ""))
    return found


def test_rooms_import_only_what_they_may() -> None:
    wrong = []
    for importer, imported in imports():
        if imported.partition(".")[0] not in ("calc", "fieldbook") or imported == "fieldbook":
            continue
        room, other = room_of(importer), room_of(imported)
        if room in ("fieldbook", "fieldbook.__main__") or room == other:
            continue
        if other not in MAY_IMPORT[room] and imported not in MAY_IMPORT[room]:
            wrong.append(f"{importer} imports {imported}")

    assert wrong == []


def modules() -> dict[str, Path]:
    """Every module of the product by its name, with its file."""
    paths = [*ROOT.glob("calc/**/*.py"), *ROOT.glob("fieldbook/**/*.py")]
    return {
        ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__"): path
        for path in paths
    }


def imported_modules(path: Path, known: dict[str, Path]) -> set[str]:
    """The modules of the product that a file imports, for the type checker alone or when called."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            for alias in node.names:
                inner = f"{node.module}.{alias.name}"
                found.add(inner if inner in known else str(node.module))
    return found & known.keys()


def circles(graph: dict[str, set[str]]) -> list[str]:
    """The modules of every circle, and those on the way from one circle to another."""
    left = {module: needs - {module} for module, needs in graph.items()}
    while True:
        imported = set().union(*left.values())
        within = {m: n & left.keys() for m, n in left.items() if n & left.keys() and m in imported}
        if within.keys() == left.keys():
            return sorted(left)
        left = within


def test_no_import_runs_in_a_circle() -> None:
    known = modules()
    graph = {module: imported_modules(path, known) for module, path in known.items()}

    assert circles({"a": {"b"}, "b": {"c"}, "c": {"a"}, "d": {"a"}}) == ["a", "b", "c"]
    assert circles(graph) == []


def test_no_folder_holds_more_modules_than_one_sees_at_a_glance() -> None:
    folders = Counter(path.parent for path in modules().values() if path.name != "__init__.py")

    assert {str(f.relative_to(ROOT)): n for f, n in folders.items() if n > MOST_MODULES} == {}


@pytest.mark.parametrize(("library", "room"), ONLY_HERE.items())
def test_a_library_is_imported_in_one_room(library: str, room: str) -> None:
    importers = {room_of(m) for m, name in imports() if name.partition(".")[0] == library}

    assert importers <= {room}


@pytest.mark.parametrize(
    ("module", "unloaded"),
    [
        ("fieldbook.cli", {"textual", "pint", "tinydb", "rich"}),
        ("fieldbook.record.job", {"textual", "pint", "tinydb"}),
        ("fieldbook.quantities.admit", {"textual", "pint", "tinydb"}),
        ("fieldbook.store.job.book", {"textual", "pint"}),
        ("fieldbook.walk", {"textual", "pint", "tinydb"}),
        ("fieldbook.gear.inventory", {"textual", "pint", "tinydb"}),
        ("fieldbook.app.app", {"pint", "tinydb", "plotext"}),
        ("calc.drop_line.hanging", {"fieldbook", "textual"}),
    ],
)
def test_importing_does_not_load_what_it_may_never_need(module: str, unloaded: set[str]) -> None:
    script = f"import sys, {module}; print(*sys.modules)"
    loaded = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, cwd=ROOT
    ).stdout.split()

    assert unloaded.isdisjoint(loaded)
