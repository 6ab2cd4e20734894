"""An office and three trucks: gathered, read, resolved, and sent without editing.

One truck's folder is whole, one has a byte changed in a sealed log and a torn end, and one has two
devices at odds over a joint, and a job that was given a number twice.
"""

from __future__ import annotations

import csv
import io
import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home
from tests.office.browser import CHROMIUM
from tests.office.test_print import printed, too_wide
from tests.whole.three_trucks import CLASHING, SPOILED, TORN, WHOLE, three_trucks

ROOT = Path(__file__).parents[2]


def fieldbook(*words: str, typed: str = "", code: int = 0) -> str:
    """What the program prints when it is run with these words and ends with `code`."""
    command = [sys.executable, "-m", "fieldbook", *words]
    done = subprocess.run(
        command, cwd=ROOT, input=typed, capture_output=True, text=True, check=False
    )
    assert done.returncode == code, done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def office(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The office's home after one gathering of the three trucks."""
    root = tmp_path_factory.mktemp("story")
    trucks = [str(truck) for truck in three_trucks(root)]
    home = root / "office"
    told = fieldbook("gather", *trucks, "--into", str(home), code=1)
    (root / "told").write_text(told, encoding="utf-8")
    again = json.loads(fieldbook("gather", *trucks, "--into", str(home), "--json", code=1))
    assert all(not job["new"] and not job["grown"] for job in again["jobs"])
    return home


def job_file(office: Path, job: str) -> Path:
    """The job file of a job, written by the program for Michigan."""
    out = office.parent / "files" / job
    written = fieldbook(
        "--home", str(office), "jobfile", job, "--out", str(out), "--locality", "MI"
    )
    assert sorted(map(Path, written.splitlines())) == sorted(
        p for p in out.rglob("*") if p.is_file()
    )
    return out


def sheets(folder: Path) -> list[str]:
    return [(folder / f"{name}.html").read_text(encoding="utf-8") for name in ("sheet", "customer")]


def second_of_its_number(office: Path) -> str:
    """The folder of the other job that was given the whole one's number."""
    (other,) = (p.name for p in Home(office).jobs_folder.iterdir() if p.name[:7] == f"{WHOLE}-")
    return other


def every_job(office: Path) -> list[str]:
    return [WHOLE, SPOILED, TORN, CLASHING, second_of_its_number(office)]


def test_gathering_says_what_is_new_damaged_torn_clashing_and_named_twice(office: Path) -> None:
    told = (office.parent / "told").read_text(encoding="utf-8")

    assert f"{SPOILED}: 1 new file, 0 grown" in told
    assert "line 31: damaged: its checksum is wrong; the lines around it are read" in told
    assert "line 67: was never finished; its 40 bytes are not taken" in told
    assert (
        "CLASH joint 1 out is recorded more than once: 20.94 ft by RO at 2026-08-19 08:17" in told
    )
    assert "19.40 ft by MV at" in told
    assert f"another job has the number {WHOLE} too" in told
    assert second_of_its_number(office) in told
    shelf = fieldbook("--home", str(office), "jobs")
    assert f"as {second_of_its_number(office)}\n" in shelf


def test_every_job_file_is_whole_in_itself(office: Path) -> None:
    for job in every_job(office):
        folder = job_file(office, job)
        whole: dict[str, Any] = json.loads((folder / "everything.json").read_text(encoding="utf-8"))
        schema = json.loads((folder / "everything.schema.json").read_text(encoding="utf-8"))
        Draft202012Validator(schema).validate(whole)
        for table in folder.glob("*.csv"):
            rows = list(csv.reader(io.StringIO(table.read_text(encoding="utf-8-sig"))))
            assert len({len(row) for row in rows}) == 1, table


def test_a_sealed_log_that_was_altered_is_named_so_on_every_sheet(office: Path) -> None:
    for text in sheets(job_file(office, SPOILED)):
        assert "SEALED, AND DAMAGED SINCE" in text
        assert "its checksum is wrong" in text
        assert "cannot be read, and is told nowhere: after " in text
        assert "sealed, and damaged since: nothing that can be read shows this done: Test" in text
        assert text.index("no longer covered by it") < text.index("cannot be read, and is told")
        assert "AFTER THE SEAL" not in text
    filed = sheets(job_file(office, SPOILED))[0].partition("Record to file: Michigan")[2]
    assert filed.index("NOT WHOLE") < filed.index("MISSING")
    assert "<strong>MISSING</strong><p>Contractor</p>" in filed, "no letterhead was written"


def test_an_end_that_was_never_finished_is_no_damage(office: Path) -> None:
    for text in sheets(job_file(office, TORN)):
        assert "NOT SEALED" in text
        assert "DAMAGE FOUND" not in text


def test_a_clash_is_loud_in_the_tally_until_somebody_settles_it(office: Path) -> None:
    for text in sheets(job_file(office, CLASHING)):
        assert "LOGS DISAGREE" in text
        assert "<strong>written twice</strong>, also 20.94 ft by RO 08:17" in text
        assert "which entry of joint 1 out counts: cross out the other" in text
        assert "as it hangs. The logs disagree; a joint that two devices wrote" in text
        assert "<dt>In</dt><dd>5 joints" in text
        assert "<dt>Setting planned</dt>" in text

    lines = fieldbook("--home", str(office), "log", CLASHING, "--json").splitlines()
    log = [json.loads(line) for line in lines]
    wrong = next(e for e in log if e["kind"] == "joint" and e["by"] == "MV")
    strike = {"kind": "strike", "by": "LM", "strikes": wrong["id"],
              "values": {"reason": "read off the wrong joint: MV agrees"}}  # fmt: skip
    fieldbook("--home", str(office), "enter", CLASHING, typed=json.dumps(strike))
    for text in sheets(job_file(office, CLASHING)):
        assert "LOGS DISAGREE" not in text
        assert "written twice" not in text
        assert "joint 1 out counts" not in text
        assert "read off the wrong joint: MV agrees" in text
    with Book.open(Home(office).jobs_folder / CLASHING, "d-reader0001", write=False) as book:
        assert next(e.text("joint_length") for e in book.job.live("joint")) == "20.94 ft"


def test_the_whole_one_says_nothing_of_damage_and_names_what_is_missing(office: Path) -> None:
    folder = job_file(office, WHOLE)
    office_copy, customers = sheets(folder)
    for text in (office_copy, customers):
        assert "DAMAGE" not in text
        assert "LOGS DISAGREE" not in text
        assert "Sealed 2026-05-12" in text
    assert "MISSING" in office_copy.partition("Record to file: Michigan")[2]
    assert [text.count("<img") for text in (office_copy, customers)] == [2, 1]
    assert [len(list(path.iterdir())) for path in sorted(folder.glob("*_files"))] == [1, 2]


@pytest.mark.skipif(CHROMIUM is None, reason="Chromium is not installed")
@pytest.mark.parametrize(("job", "paper"), [(SPOILED, "letter"), (WHOLE, "A4")])
def test_what_is_sent_prints_and_begins_with_its_summary(
    office: Path, tmp_path: Path, job: str, paper: str
) -> None:
    for text in sheets(job_file(office, job)):
        pages = printed(text, paper, tmp_path)
        assert "Summary" in pages[0]
        assert too_wide(text, paper, tmp_path) == "[]"
