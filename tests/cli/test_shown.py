"""Names from a disk are other people's text: none hides a line, turns it, or ends a command."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import unicodedata
from pathlib import Path

import pytest

from fieldbook.cli.main import main
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.store.conftest import opening

NAMES = [
    b"26-1\x1b[1A\x1b[2Kwhole",
    b"26-1\nwhole",
    b"26-1\r26-2: whole",
    "26-1\u202eelohw".encode(),
    "26-1\u009b2Jwhole".encode(),
    b"caf\xe9",
]


@pytest.fixture
def home(tmp_path: Path) -> Home:
    """A home of a hostile name, in which jobs have such names too; these jobs are damaged."""
    home = Home(tmp_path / os.fsdecode(b" ".join(NAMES)))
    folder = Shelf(home).create(opening())
    for name in map(os.fsdecode, NAMES):
        shutil.copytree(folder, home.jobs_folder / name)
        log = next((home.jobs_folder / name).glob("*.jsonl"))
        log.write_bytes(log.read_bytes().replace(b"26-1", b"26-7"))
    return home


def command(home: Home, *words: str, encoding: str = "utf-8") -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "fieldbook", "--home", str(home.path), *words],
        capture_output=True,
        check=False,
        env={**os.environ, "PYTHONIOENCODING": encoding},
    )


def check_plain(text: str) -> None:
    odd = [c for c in text if unicodedata.category(c) in {"Cc", "Cf", "Cs"} and c != "\n"]
    assert odd == [], text


COMMANDS = [
    (["verify", "{home}"], 1),
    (["verify", "{home}", "--json"], 1),
    (["gather", "{home}", "--into", "{home}/office"], 1),
    (["gather", "{home}", "--into", "{home}/office", "--json"], 1),
    (["jobs"], 1),  # of the damaged jobs no entry is read
    (["jobs", "--json"], 1),  # of the damaged jobs no entry is read
    (["find", "26", "--json"], 1),  # of the damaged jobs no entry is read
    (["wells", "--json"], 1),  # of the damaged jobs no entry is read
    (["due", "--json"], 1),  # of the damaged jobs no entry is read
    (["export", "--json"], None),
    (["gear"], 0),
    (["log", "{home}/jobs/26-1"], 0),
    (["jobfile", "26-1", "--out", "{home}/out"], 0),
    (["paper", "26-1", "--out", "{home}/paper.html"], 0),
    (["lift", "--card", "{home}/no card"], 2),
    (["verify", "{home}/nothing"], 2),
    (["gather", "{home}/nothing"], 2),
    (["enter", "{home}/nothing"], 2),
    (["attach", "26-1", "{home}/nothing", "--by", "QA", "--note", "x"], 2),
]


@pytest.mark.parametrize(("words", "code"), COMMANDS, ids=lambda words: str(words)[:40])
def test_what_a_command_prints_can_only_be_read(
    home: Home, words: list[str], code: int | None, capsys: pytest.CaptureFixture[str]
) -> None:
    given = [word.replace("{home}", str(home.path)) for word in words]
    done = main(["--home", str(home.path), *given])
    told = capsys.readouterr()

    assert code in (None, done), told
    assert told.out + told.err
    check_plain(told.out)
    check_plain(told.err)
    if "--json" in words:
        json.loads(told.out)


def test_json_names_the_folder_as_it_is(home: Home, capsys: pytest.CaptureFixture[str]) -> None:
    """So that a script can go there: what is no plain text is written as JSON writes it."""
    assert main(["--home", str(home.path), "jobs", "--json"]) == 1
    told = json.loads(capsys.readouterr().out)

    assert {job["folder"] for job in told} == {str(p) for p in home.jobs_folder.iterdir()}


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "utf-8"])
def test_a_terminal_of_another_encoding_ends_no_command(tmp_path: Path, encoding: str) -> None:
    home = Home(tmp_path / "b\u00fccher \u4e66")
    Shelf(home).create(opening("26-\u4e66"))
    for words, code in ((["verify", str(home.path)], 0), (["jobs"], 0), (["jobs", "--json"], 0)):
        done = command(home, *words, encoding=encoding)
        assert (done.returncode, done.stderr) == (code, b"")
        assert "26-" in done.stdout.decode(encoding)


def test_not_whole_cannot_be_taken_away_by_a_name(home: Home) -> None:
    done = command(home, "verify", str(home.path))
    told = done.stdout.decode()

    assert (done.returncode, done.stderr) == (1, b"")
    check_plain(told)
    assert told.splitlines()[0].endswith(": NOT WHOLE")
    assert not any(line.strip() in ("whole", "26-2: whole") for line in told.splitlines())
