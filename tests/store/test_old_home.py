"""A home that the program of commit 91f67bd wrote reads as before, and takes new entries.

`old_home/old_home.zip` holds two folders. `home` is what that program left on disk: a sealed hose
job, a hose job at its start, and a steel job half set that two devices wrote, with strikes and an
attachment; beside them gear, own steps, own places, settings and its index. `said` is what the same
program answered about them (`log`, `lift`, `verify`, `jobs`, `gear`, `jobfile`).
"""

from __future__ import annotations

import csv
import io
import json
import re
import shutil
import socket
import zipfile
from pathlib import Path
from typing import Any

import pytest

from calc.check import Verdict
from fieldbook.store.shelf.home import Home, Settings
from tests.cli.enter import Script
from tests.store.old_home.answers import ARCHIVE, Answers, logs, said

ALL_JOBS = pytest.mark.parametrize("job", ["26-131", "26-142", "26-149"])
ASSUMED = pytest.mark.parametrize("assumed", ["", "--drained", "--full"])
BEST_FIRST = (Verdict.WITHIN, Verdict.CAUTION, Verdict.UNKNOWN, Verdict.STOP)
SURGE = "speed of a pressure wave in the hose, from its sheet (for surge)"
NEW_JOINTS = "which joints are new (set aside: 9, 11)"
WORSE: dict[str, dict[str, tuple[str, str]]] = {
    # The pressure of a hose counts the surge, and nobody gave what the surge needs.
    "26-131": {"pressure": ("unknown", SURGE)},
    "26-149": {"pressure": ("unknown", SURGE)},
    # Steel goes by the wall that the crew measured, which may be that of a joint set aside. By it
    # the threads carry neither the string in service nor the pressure. The rope's last layer is
    # not written.
    "26-142": {
        "lift": ("stop", NEW_JOINTS),
        "gauge": ("unknown", NEW_JOINTS),
        "pressure": ("stop", NEW_JOINTS),
    },
}
"""Job -> check -> its verdict today, rightly worse than in the old program, and what it lacks."""
NEW_STEPS = {"26-142": {"plan.rope"}}
"""Steps that the walk has gained. The company's own step, and every other one, is as it was."""
OPEN_STATES = {"to do", "under way", "held"}


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """The old home, on a machine of another name than the one it was made on."""
    with zipfile.ZipFile(ARCHIVE) as archive:
        archive.extractall(tmp_path, [n for n in archive.namelist() if n.startswith("home/")])
    return tmp_path / "home"


@pytest.fixture
def same_machine(home: Path) -> Path:
    """The old home on the machine that made it: the device keeps its id."""
    name = re.sub(r"[^a-z0-9-]", "", socket.gethostname().lower().partition(".")[0]) or "here"
    (home / "device").write_text(f"d-0a11cab1 {name}\n", encoding="ascii")
    return home


@pytest.fixture
def script(
    home: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Script:
    """`fieldbook enter` on the hose job."""
    return Script(home / "jobs" / "26-149", monkeypatch, capsys)


@pytest.fixture
def today(capsys: pytest.CaptureFixture[str]) -> Answers:
    return Answers(capsys)


def verified(today: Answers, home: Path) -> Any:
    [report] = today.document(home, "verify", str(home / "jobs"))
    return {key: value for key, value in report.items() if key != "path"}


def test_every_line_every_head_and_the_seal_verify(home: Path, today: Answers) -> None:
    old = said("home")["verify"]

    assert verified(today, home) == old
    assert [file["entries"] for file in old["files"]] == [128, 139, 6, 103]
    assert old["whole"]
    assert len(old["seals"]) == 1


def test_the_shelf_lists_the_jobs_as_it_did(home: Path, today: Answers) -> None:
    for index in ("the old one", "none"):
        jobs = today.document(home, "jobs")
        for job in jobs:
            del job["folder"]
        assert jobs == said("home")["jobs"], index
        shutil.rmtree(home / "index", ignore_errors=True)


@ALL_JOBS
def test_every_entry_reads_as_it_did(home: Path, today: Answers, job: str) -> None:
    lines = today.text(home, "log", job, "--json").splitlines()

    assert [json.loads(line) for line in lines] == said(job)["log"]


@ALL_JOBS
def test_the_tables_of_the_job_file_are_the_same(
    home: Path, tmp_path: Path, today: Answers, job: str
) -> None:
    today.everything(home, job, tmp_path / "out")

    for name, text in said(job)["tables"].items():
        new = (tmp_path / "out" / name).read_text(encoding="utf-8-sig")
        assert list(csv.reader(io.StringIO(new))) == list(csv.reader(io.StringIO(text))), name


@ALL_JOBS
def test_the_rest_of_the_job_file_is_the_same(
    home: Path, tmp_path: Path, today: Answers, job: str
) -> None:
    """Heads, strikes, seals, what came after the seal, clashes, the bill, the record to file."""
    new = today.everything(home, job, tmp_path / "out")
    old = said(job)["everything"]
    del old["walk"]

    assert len(old) > 10
    assert {key: new[key] for key in old} == old


@ALL_JOBS
def test_the_walk_is_where_it_was(home: Path, tmp_path: Path, today: Answers, job: str) -> None:
    new = today.everything(home, job, tmp_path / "out")["walk"]
    old = said(job)["everything"]["walk"]

    for name, state in old["states"].items():
        # A step may ask for less today: then one that was open is done.
        fewer_asked = state in OPEN_STATES and new["states"].get(name) == "done"
        assert new["states"].get(name) == state or fewer_asked, name
    assert new["states"].keys() - old["states"].keys() == NEW_STEPS.get(job, set())
    for key in ("line", "work", "open_holds", "passed_by_name", "unwitnessed", "not_told"):
        assert new[key] == old[key], key


@ASSUMED
@ALL_JOBS
def test_the_string_hangs_as_it_did(home: Path, today: Answers, job: str, assumed: str) -> None:
    new = today.document(home, "lift", job, *filter(None, [assumed]))
    old = said(job)["lift"][assumed]

    assert new["out"] == old["out"]
    assert (new["hook_load"] is None) == (old["hook_load"] is None) == (job == "26-131")
    for key in ("full", "drained", "design", "worst") if old["hook_load"] else ():
        assert new["hook_load"][key] == old["hook_load"][key], key
    for key in ("read", "never", "never_of"):
        assert new["gauge"][key] == old["gauge"][key], key
    assert new["draining"]["proved"] == old["draining"]["proved"]
    assert [(link["name"], link["demand"]) for link in new["links"]] == [
        (link["name"], link["demand"]) for link in old["links"]
    ]
    assert new["depth"] == old["depth"]


@ASSUMED
@ALL_JOBS
def test_no_verdict_is_better_and_each_worse_one_has_its_reason(
    home: Path, today: Answers, job: str, assumed: str
) -> None:
    new = today.document(home, "lift", job, *filter(None, [assumed]))
    old = said(job)["lift"][assumed]
    now = {check["name"]: check for check in new["checks"]}

    for before, after in [
        (old, new),
        *((check, now[check["name"]]) for check in old["checks"]),
        *zip(old["links"], new["links"], strict=True),
    ]:
        ranks = [BEST_FIRST.index(Verdict(one["verdict"])) for one in (before, after)]
        assert ranks == sorted(ranks), before.get("name", "all")
    changed = {
        check["name"]: now[check["name"]]
        for check in old["checks"]
        if now[check["name"]]["verdict"] != check["verdict"]
    }
    assert {name: check["verdict"] for name, check in changed.items()} == {
        name: verdict for name, (verdict, _) in WORSE[job].items()
    }
    for name, (_, missing) in WORSE[job].items():
        assert missing in changed[name]["missing"]


def test_settings_gear_and_places_are_the_same(home: Path, tmp_path: Path, today: Answers) -> None:
    old_home = Home(home)
    assert old_home.settings == Settings(initials="RO", units="metric", safety_seen=True)
    assert old_home.place == "county-seven"
    assert old_home.letterhead == ("Ridge and Vale Pump Service", "12 Yard road")

    old = said("home")
    items = today.document(home, "gear")["items"]
    assert [{key: item[key] for key in old["gear"][0]} for item in items] == old["gear"]

    # The company changed the days of a place that the book knows.
    new = today.everything(home, "26-131", tmp_path / "out", "--locality", "MI")
    assert new["filing"] == old["filing_MI"]


def test_the_companys_own_steps_are_asked_in_its_words(home: Path, today: Answers) -> None:
    blank = ["--line", "steel", "--work", "pull"]
    page = " ".join(today.text(home, "paper", *blank, "--text").split())

    assert "Radio channel 4. Read the day's toolbox sheet aloud." in page
    assert "Fill in the daily sheet of the rig and hang it in the cab." in page


def test_the_device_goes_on_in_the_file_of_the_old_program(
    same_machine: Path, script: Script, today: Answers
) -> None:
    before = logs(same_machine)
    [answer] = script.enter({"kind": "note", "by": "RO", "note": "went on after the update"})
    after = logs(same_machine)

    assert "saved" in answer
    own = "26-149/d-0a11cab1-0001.jsonl"
    assert after[own].startswith(before[own])
    assert after[own].count(b"\n") == before[own].count(b"\n") + 1
    assert after | {own: b""} == before | {own: b""}
    report = verified(today, same_machine)
    assert report["whole"]
    assert [file["entries"] for file in report["files"]] == [128, 139, 6, 104]


def test_a_new_device_records_corrects_and_strikes_beside_the_old_logs(
    home: Path, script: Script, today: Answers
) -> None:
    before = logs(home)
    entries = said("26-149")["log"]
    new = script.enter(
        {"kind": "note", "by": "LM", "note": "a second cab"},
        {
            "kind": "strike",
            "by": "LM",
            "strikes": entries[-1]["id"],
            "values": {"reason": "checked"},
        },
    )
    after = logs(home)

    assert all("saved" in answer for answer in new)
    assert {name: after[name] for name in before} == before
    assert len(after) == len(before) + 1
    lines = today.text(home, "log", "26-149", "--json").splitlines()
    assert len(lines) == len(entries) + 2
    assert [json.loads(line)["seq"] for line in lines[-2:]] == [len(entries) + 1, len(entries) + 2]
    assert verified(today, home)["whole"]


def test_the_old_home_is_gathered_whole(home: Path, tmp_path: Path, today: Answers) -> None:
    office = tmp_path / "office"
    for _ in range(2):
        today.text(office, "gather", str(home))

    assert logs(office) == logs(home)
    assert verified(today, office) == said("home")["verify"]
    [photo] = [path for path in (home / "jobs" / "26-142").iterdir() if len(path.name) == 64]
    assert (office / "jobs" / "26-142" / photo.name).read_bytes() == photo.read_bytes()
