"""`python -m tests.mutants`: which tests pass over each line, then each mistake against them."""

from __future__ import annotations

import argparse
import os
import shutil
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from queue import Queue

from coverage import CoverageData

from tests.mutants.operators import Mutant
from tests.mutants.sample import EQUIVALENT, sample

TOP = Path(__file__).resolve().parents[2]
COVERAGE = TOP / ".coverage.mutants"
ROOMS = (
    "calc",
    "published",
    "record",
    "quantities",
    "walk",
    "watch",
    "store",
    "office",
    "cli",
    "proof",
)
MOST_TESTS, PATIENCE = 150, 300
_FAILED = (1, 2)
"""What pytest ends with where a test failed, or could not be loaded for the mistake."""
LEFT_OUT = shutil.ignore_patterns(".*", "__pycache__", "__snapshots__")


def main() -> int:
    """Make the mistakes; 1 where fewer are found than the aim."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutants")
    parser.add_argument("--list", action="store_true", help="only say which there are")
    parser.add_argument("--jobs", type=int, default=2, help="how many at once")
    parser.add_argument("--only", default="", help="those whose key has these words")
    parser.add_argument("--aim", type=float, default=0.92, help="share that has to be found")
    given = parser.parse_args()
    chosen = [mutant for mutant in sample(TOP) if given.only in mutant.key]
    if given.list:
        print(*(f"{mutant.path}:{mutant.line} {mutant.key}" for mutant in chosen), sep="\n")
        return 0
    if not COVERAGE.exists():
        cover()
    data = CoverageData(str(COVERAGE))
    data.read()
    counts: Counter[str] = Counter()
    with tempfile.TemporaryDirectory() as folder, ThreadPoolExecutor(given.jobs) as pool:
        copies: Queue[Path] = Queue()
        for number in range(given.jobs):
            copies.put(copied(Path(folder) / str(number)))
        for mutant, found in pool.map(lambda m: (m, tried(m, data, copies)), chosen):
            counts[found] += 1
            print(f"{found:<10} {mutant.path}:{mutant.line} {mutant.key}", flush=True)
    tried_in_all = len(chosen) - counts["equivalent"]
    share = counts["found"] / tried_in_all if tried_in_all else 1.0
    print(f"{len(chosen)} mistakes: {dict(counts)}; {share:.1%} of {tried_in_all} found")
    return 0 if share >= given.aim else 1


def cover() -> None:
    """Run the tests of the rooms once, and keep which of them pass over which line."""
    tests = [str(TOP / "tests" / room) for room in ROOMS if (TOP / "tests" / room).is_dir()]
    words = ["-q", "-n", "auto", "--cov=calc", "--cov=fieldbook", "--cov-branch"]
    words += ["--cov-context=test", "--cov-report="]
    environment = {**os.environ, "COVERAGE_FILE": str(COVERAGE)}
    command = [sys.executable, "-m", "pytest", *words, *tests]
    subprocess.run(command, cwd=TOP, check=False, env=environment)


def copied(folder: Path) -> Path:
    """A copy of the tree to make mistakes in."""
    shutil.copytree(TOP, folder, ignore=LEFT_OUT)
    return folder


def tried(mutant: Mutant, data: CoverageData, copies: Queue[Path]) -> str:
    """Whether a test finds the mistake: found, survived, equivalent, or not run at all."""
    if mutant.key in EQUIVALENT:
        return "equivalent"
    tests = tests_of(mutant, data)
    with borrowed(copies) as copy, changed(copy, mutant):
        words = ["-x", "-q", "--no-header", "-p", "no:cacheprovider", f"--rootdir={copy}"]
        named = copy / "tests.txt"  # names of tests are longer than a command may be
        named.write_text("\n".join(tests), encoding="utf-8")
        try:
            ended = subprocess.run(
                [sys.executable, "-B", "-m", "pytest", *words, f"@{named}"],
                cwd=copy, capture_output=True, timeout=PATIENCE, check=False,
            )  # fmt: skip
        except subprocess.TimeoutExpired:
            return "found"
    if ended.returncode in _FAILED:
        return "found"
    return "survived" if ended.returncode == 0 else "not run"


def tests_of(mutant: Mutant, data: CoverageData) -> list[str]:
    """The tests that pass over the line, those of its own room first."""
    contexts = data.contexts_by_lineno(str(TOP / mutant.path)).get(mutant.line, [])
    names = sorted({name.partition("|")[0] for name in contexts if name})
    room = mutant.path.split("/")[1 if mutant.path.startswith("fieldbook") else 0]
    rooms = ("calc", "published") if room == "calc" else (room,)
    if not names:  # run once, at import or by the first of them: no test is named for it
        return [f"tests/{room}" for room in rooms]
    own = [name for name in names if name.startswith(tuple(f"tests/{room}/" for room in rooms))]
    others = [name for name in names if name not in own]
    return spread(own, MOST_TESTS) + spread(others, max(MOST_TESTS - len(own), 12))


def spread(names: list[str], most: int) -> list[str]:
    """So many of them, taken from all along the list."""
    step = max(len(names) / most, 1.0)
    return [names[int(at * step)] for at in range(min(len(names), most))]


@contextmanager
def borrowed(copies: Queue[Path]) -> Iterator[Path]:
    copy = copies.get()
    try:
        yield copy
    finally:
        copies.put(copy)


@contextmanager
def changed(copy: Path, mutant: Mutant) -> Iterator[None]:
    path = copy / mutant.path
    text = path.read_text(encoding="utf-8")
    path.write_text(mutant.applied(text), encoding="utf-8")
    try:
        yield
    finally:
        path.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    sys.exit(main())
