"""Gathering beside a plain recursive copy with fsync of the same files, in turns.

300 jobs of the samples' length; FIELDBOOK_GATHER=10000 for the long run.

The aim is a third of the copy's speed at 10,000 jobs. The copy waits for the disk and hardly uses
a processor; gathering takes 14 to 20 us of one to read and check a line, 2.5 to 4 ms for a job of
150 lines, and 2 ms more to put it in its place. On two cores, where the copy took 1.3 and 1.5 ms a
job, 10,000 jobs were gathered at 0.35 and 0.41 of its speed, with 1.04 times the memory of 1,000.
Of 300 jobs the start of the other processes is a good part: 0.20 to 0.22 of a copy of 1.2 ms.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import Any

import pytest

from fieldbook.office.samples import build_shelf
from fieldbook.record.ids import new_id
from fieldbook.store.shelf.home import Home
from tests.store.forging import DEVICE, TIME, header, log_of, write_log

ROOT = Path(__file__).parents[2]
pytestmark = [pytest.mark.bench, pytest.mark.timeout(3600)]
COUNT = int(os.environ.get("FIELDBOOK_GATHER", "300"))
ROUNDS = 5 if COUNT <= 1000 else 1
LEAST_SPEED, MOST_MEMORY = 0.08, 1.15  # beside a copy that takes 0.4 ms a job
GATHER = """
import sys
from pathlib import Path
from time import perf_counter
from fieldbook.store.gather.gather import gather
start = perf_counter()
assert gather([Path(sys.argv[1])], Path(sys.argv[2])).clean
print(perf_counter() - start)
"""
PEAK = """
import resource, sys
from pathlib import Path
from fieldbook.store.gather import parallel_scan as looking
from fieldbook.store.gather.gather import gather
looking._MANY = 1  # however few the jobs, the same processes
assert gather([Path(sys.argv[1])], Path(sys.argv[2])).clean
whose = (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)
print(sum(resource.getrusage(who).ru_maxrss for who in whose))
"""


@pytest.fixture(scope="module")
def truck(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """`COUNT` jobs of the samples' length, each with a job id, entries and a number of its own."""
    samples = Home(tmp_path_factory.mktemp("samples"))
    build_shelf(samples, complete=True)
    logs = sorted(samples.jobs_folder.glob("*/*.jsonl"))
    texts = [log.read_text(encoding="utf-8").splitlines()[1:] for log in logs]
    bodies = [[json.loads(line)["entry"] for line in lines] for lines in texts]
    jobs = tmp_path_factory.mktemp("truck") / "jobs"
    for number in range(COUNT):
        entries = [renewed(body, number) for body in bodies[number % len(bodies)]]
        write_log(jobs / f"J-{number:05}", log_of(header(job=new_id(TIME)), *entries))
    return jobs.parent


def renewed(body: dict[str, Any], number: int) -> dict[str, Any]:
    entry = body | {"id": new_id(TIME), "device": DEVICE}
    if body["kind"] == "job":
        values = body["values"]
        named = values["job_number"] | {"text": f"J-{number:05}"}
        entry["values"] = values | {"job_number": named}
    return entry


def plain_copy(source: Path, target: Path) -> None:
    """As `cp -r` followed by an fsync of each file."""
    for path in sorted(source.rglob("*")):
        to = target / path.relative_to(source)
        if path.is_dir():
            to.mkdir(parents=True)
        else:
            with path.open("rb") as file, to.open("wb") as copy:
                shutil.copyfileobj(file, copy)
                copy.flush()
                os.fsync(copy.fileno())


def seconds(work: Callable[[], object]) -> float:
    start = perf_counter()
    work()
    return perf_counter() - start


def test_gathering_beside_a_plain_copy_with_sync(truck: Path, tmp_path: Path) -> None:
    copied, gathered, again = [], [], []
    for turn in range(ROUNDS):
        copied.append(seconds(partial(plain_copy, truck, tmp_path / f"c{turn}")))
        into = tmp_path / f"g{turn}"
        gathered.append(float(told_by(GATHER, truck, into)))
        again.append(float(told_by(GATHER, truck, into)))
        assert len(list((into / "jobs").iterdir())) == COUNT
    speed = median(copied) / median(gathered)
    print(
        f"\n{COUNT} jobs: a copy with fsync {median(copied) / COUNT * 1000:.1f} ms a job;"
        f" gathering at {speed:.2f} of its speed, again {median(copied) / median(again):.2f}"
    )
    assert speed >= LEAST_SPEED


def test_memory_stays_flat(truck: Path, tmp_path: Path) -> None:
    few = tmp_path / "few" / "jobs"
    few.mkdir(parents=True)
    for folder in sorted((truck / "jobs").iterdir())[: COUNT // 10]:
        shutil.copytree(folder, few / folder.name)
    many_peak, few_peak = (
        told_by(PEAK, truck, tmp_path / "a"),
        told_by(PEAK, few.parent, tmp_path / "b"),
    )
    ratio = int(many_peak) / int(few_peak)
    print(f"\npeak memory, {COUNT} jobs / {COUNT // 10}: {ratio:.2f}")
    assert ratio <= MOST_MEMORY


def told_by(program: str, truck: Path, into: Path) -> str:
    """What a program tells: one of its own, as its processes import what its first one did."""
    words = [sys.executable, "-c", program, str(truck), str(into)]
    return subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=True).stdout
