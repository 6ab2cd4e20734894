"""Simulates pulls in full counts and writes the confusion table.

`python -m tests.bench.confusion [faulty pulls] [clean pulls] [processes]`; 300, 1,000 and 2 when
left out, which takes half an hour of one core. Seeds are fixed: the same code gives the same table.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Sequence
from multiprocessing import Pool
from pathlib import Path

from fieldbook.watch.listen.telling import CONFIDENCE, CONFIDENCE_HELD
from tests.listen_sim.drawing import NAMES, names_for
from tests.listen_sim.scoring import (
    BIG,
    Outcome,
    Share,
    decided_if_big,
    false_alarms,
    outcome,
    power,
    tasks,
    wrong_of_decided,
)
from tests.listen_sim.strings import LINES

TABLE = Path(__file__).parents[2] / ".readme" / "confusion.md"


_PREFACE = f"""\
Written by `python -m tests.bench.confusion`. The pulls are simulated, on four strings, by statics
of their own (`tests/listen_sim`), with weights, water level, swell, sheave friction, drag and gauge
zero drawn off what was recorded; nothing here was checked against a field trace. A fault is given
three readings; what is decided first counts. An explanation is decided from a share of
{CONFIDENCE:g} ({CONFIDENCE_HELD:g} for what holds or catches) and two readings.
Intervals are Wilson's, 95 in 100."""
_DISTANCE = """\
Distance from the next best explanation in standard deviations of gauge and model together, over
the good readings and the three of the fault."""
_HEAD = (
    "| What was the matter | Pulls | Right | Cannot tell | As expected | Wrong"
    f" | At {BIG:g} or more, right | Wrongly said |"
)


def run(faulty: int, clean: int, processes: int) -> list[Outcome]:
    """The outcomes of that many pulls."""
    todo = tasks(faulty, clean)
    with Pool(processes) as pool:
        found = []
        for number, one in enumerate(pool.imap_unordered(outcome, todo, chunksize=25), 1):
            found.append(one)
            if number % 1000 == 0:
                print(f"{number:,} of {len(todo):,}", flush=True)
    return sorted(found)


def table(outcomes: Sequence[Outcome]) -> str:
    """The whole report as Markdown."""
    lines = [
        "# What the gauge is telling: how often it is right",
        "",
        _PREFACE,
        "",
        *_aims(outcomes),
        "",
        "## Power by size",
        "",
        _DISTANCE,
        "",
        "| Distance | Pulls | Decided rightly | Decided wrongly |",
        "|---|---:|---|---|",
        *(f"| {size} | {of.of:,} | {of} | {wrong} |" for size, of, wrong in power(outcomes)),
    ]  # fmt: skip
    for key, line in LINES.items():
        lines += ["", f"## {key}: {line.name}, gauge error {line.error:g} lbf of reading", ""]
        lines += _of_line(outcomes, key)
    return "\n".join(lines) + "\n"


def _aims(outcomes: Sequence[Outcome]) -> list[str]:
    rows = [
        "| Aim | All lines | " + " | ".join(LINES) + " |",
        "|---|---|" + "---|" * len(LINES),
    ]
    for words, count in (
        ("Of what is decided, wrong: at most 1 %", wrong_of_decided),
        ("Clean pulls with a false alarm: under 1 %", false_alarms),
        (f"At {BIG:g} standard deviations or more, decided rightly: 95 %", decided_if_big),
    ):
        shares = [count(outcomes)]
        shares += [count([o for o in outcomes if o.line == key]) for key in LINES]
        cells = (f"{share}, n {share.of:,}" for share in shares)
        rows.append(f"| {words} | " + " | ".join(cells) + " |")
    return rows


def _of_line(outcomes: Sequence[Outcome], key: str) -> list[str]:
    rows = [
        _HEAD,
        "|---|---:|---|---:|---:|---|---|---|",
    ]
    mine = [o for o in outcomes if o.line == key]
    for name in (*(n for n in NAMES if n in names_for(LINES[key])), ""):
        of = [o for o in mine if o.truth == name]
        count = len(of)
        right = Share(sum(o.right for o in of), count)
        wrong = Share(sum(bool(o.said) if not name else o.wrong for o in of), count)
        unnoticed = sum(o.unnoticed for o in of)
        open_yet = count - unnoticed - right.hits - wrong.hits
        said = Counter(o.said for o in of if o.said and o.said != name)
        words = ", ".join(f"{what} {n}" for what, n in said.most_common(3))
        big = decided_if_big(of) if name else Share(0, 0)
        far = f"{big}, n {big.of}" if big.of else "none so far apart"
        rows.append(
            f"| {name or 'nothing, the whole pull'} | {count:,} | {right if name else ''}"
            f" | {open_yet:,} | {unnoticed:,} | {wrong} | {far if name else ''} | {words} |"
        )
    return rows


def main() -> None:
    """Run, print the aims, write the table."""
    given = [int(word) for word in sys.argv[1:4]]
    faulty, clean, processes = (*given, *(300, 1000, 2)[len(given) :])
    outcomes = run(faulty, clean, processes)
    print("\n".join(_aims(outcomes)))
    TABLE.write_text(table(outcomes), encoding="utf-8")
    print(f"written: {TABLE}")


if __name__ == "__main__":
    main()
