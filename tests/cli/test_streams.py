"""Output that is closed, full or of few characters, and odd small files: one line each."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from fieldbook.cli.main import main
from fieldbook.quantities.admit import draft_from
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home, Settings
from fieldbook.store.shelf.shelf import Shelf
from tests.app.scenes import put_job
from tests.store.conftest import opening
from tests.watch.jobs import STEEL

FULL = Path("/dev/full")
MANY = 400
NEEDS_FULL = pytest.mark.skipif(not FULL.exists(), reason="there is no device that is always full")


@pytest.fixture
def home(tmp_path: Path) -> Home:
    return Home(tmp_path / "home")


@pytest.fixture
def job(home: Home) -> Path:
    return Shelf(home).create(opening())


def command(
    home: Home, *words: str, buffered: bool = True, **named: str
) -> tuple[list[str], dict[str, str]]:
    said = os.environ | {"PYTHONUNBUFFERED": "" if buffered else "1"} | named
    return [sys.executable, "-m", "fieldbook", "--home", str(home.path), *words], said


def lines(count: int) -> bytes:
    notes = ({"kind": "note", "by": "QA", "note": f"note {n}"} for n in range(count))
    return b"".join(json.dumps(note).encode() + b"\n" for note in notes)


def notes(job: Path) -> list[str]:
    with Book.open(job, "d-reader", write=False) as book:
        return [entry.note for entry in book.job.live("note")]


def one_line(told: str | bytes) -> str:
    text = told if isinstance(told, str) else told.decode()
    assert "Traceback" not in text
    assert "Exception" not in text
    assert text.count("\n") == 1, text
    assert text.startswith("fieldbook: ")
    return text


@pytest.mark.timeout(120)
@pytest.mark.parametrize("buffered", [True, False])
def test_enter_takes_no_more_lines_once_its_answers_do_not_get_out(
    home: Home, job: Path, *, buffered: bool
) -> None:
    given, said = command(home, "enter", job.name, buffered=buffered)
    with subprocess.Popen(
        given, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=said
    ) as running:
        assert running.stdin is not None
        assert running.stdout is not None
        assert running.stderr is not None
        running.stdin.write(lines(1))
        running.stdin.flush()
        assert json.loads(running.stdout.readline())["seq"] == 2
        running.stdout.close()
        try:
            running.stdin.write(lines(MANY))
            running.stdin.close()
        except BrokenPipeError:  # it is gone already
            pass
        told = one_line(running.stderr.read())
        assert running.wait() == 2

    assert "no line after it is recorded" in told
    assert f"saved as entry {len(notes(job)) + 1}:" not in told
    assert f"saved as entry {len(notes(job)) + 1}," in told
    assert len(notes(job)) < MANY


@NEEDS_FULL
@pytest.mark.timeout(120)
@pytest.mark.parametrize("buffered", [True, False])
def test_enter_on_a_full_output_stops_at_the_line_it_names(
    home: Home, job: Path, *, buffered: bool
) -> None:
    given, said = command(home, "enter", job.name, buffered=buffered)
    with FULL.open("wb") as full:
        done = subprocess.run(
            given, input=lines(50), stdout=full, stderr=subprocess.PIPE, env=said, check=False
        )

    assert done.returncode == 2
    assert "saved as entry 2, no line after it is recorded" in one_line(done.stderr)
    assert notes(job) == ["note 0"]


COMMANDS = ("jobs --json", "log 26-1", "lift 26-1", "paper 26-1")


@NEEDS_FULL
@pytest.mark.timeout(120)
@pytest.mark.parametrize("buffered", [True, False])
@pytest.mark.parametrize("words", COMMANDS)
def test_a_full_output_is_one_line(home: Home, job: Path, words: str, *, buffered: bool) -> None:
    given, said = command(home, *words.split(), buffered=buffered)
    with FULL.open("wb") as full:
        done = subprocess.run(given, stdout=full, stderr=subprocess.PIPE, env=said, check=False)

    if done.returncode == 0:
        pytest.fail(f"{words} said that it was done")
    assert done.returncode == 2
    one_line(done.stderr)


@pytest.mark.timeout(120)
def test_a_reader_that_goes_is_told_as_not_done(home: Home) -> None:
    """A damaged shelf must not look whole because nobody read to the end."""
    put_job(home, STEEL)
    given, said = command(home, "log", "S-1")
    with subprocess.Popen(
        given, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=said
    ) as running:
        assert running.stdout is not None
        assert running.stderr is not None
        running.stdout.close()
        told = running.stderr.read()
        assert running.wait() == 1

    assert "closed before all of the answer" in one_line(told)


@pytest.mark.timeout(120)
@pytest.mark.parametrize("characters", ["ascii", "latin-1", "utf-8"])
def test_any_console_takes_any_name_and_json_stays_json(home: Home, characters: str) -> None:
    name = "B\u00e4ckstr\u00f6m \u4e95\u6238 \U0001f6b0"
    said_of_it = {"job_number": "26-1", "line": "steel", "work": "pull", "owner": name}
    Shelf(home).create(draft_from({"kind": "job", "by": "QA", "values": said_of_it}))
    for words in ("jobs", "log 26-1", "lift 26-1", "paper 26-1"):
        given, said = command(home, *words.split(), PYTHONIOENCODING=characters)
        done = subprocess.run(given, capture_output=True, env=said, check=False)
        assert done.returncode in (0, 1), done.stderr
        assert b"Traceback" not in done.stderr
    for words in ("jobs", "log 26-1", "watch 26-1"):
        given, said = command(home, *words.split(), "--json", PYTHONIOENCODING=characters)
        done = subprocess.run(given, capture_output=True, env=said, check=False)
        told = json.loads(done.stdout.decode(characters))
        if words == "jobs":
            assert name in json.dumps(told, ensure_ascii=False)


@pytest.mark.timeout(120)
def test_streams_that_are_closed_from_the_start_are_nothing(home: Home, job: Path) -> None:
    given, said = command(home, "paper", job.name)
    for closed in ("<&-", ">&-", "2>&-", "<&- >&- 2>&-"):
        script = f'"$@" {closed}'
        done = subprocess.run(
            ["sh", "-c", script, "sh", *given], capture_output=True, env=said, check=False
        )
        assert (done.returncode, done.stderr) == (0, b""), closed


@pytest.mark.timeout(120)
@pytest.mark.parametrize("closed", [">&-", "<&- >&-", ">&- 2>&-"])
def test_enter_takes_nothing_where_its_output_is_closed_from_the_start(
    home: Home, job: Path, closed: str
) -> None:
    given, said = command(home, "enter", job.name)
    script = f'"$@" {closed}'
    done = subprocess.run(
        ["sh", "-c", script, "sh", *given],
        input=lines(50), capture_output=True, env=said, check=False,
    )  # fmt: skip

    assert done.returncode == 2
    assert notes(job) == []
    if "2>" not in closed:
        assert "nothing is recorded" in one_line(done.stderr)


HARMS: dict[str, Callable[[Path], None]] = {
    "a number of 5,000 digits": lambda path: _put(path, b"a = " + b"9" * 5_000),
    "a number of 400 digits": lambda path: _put(path, b"[[step]]\nminutes = " + b"9" * 400),
    "brackets": lambda path: _put(path, b"a = " + b"[" * 100_000),
    "dots": lambda path: _put(path, b".".join([b"a"] * 3_000) + b" = 1"),
    "a pipe": os.mkfifo,
    "a device": lambda path: path.symlink_to("/dev/zero"),
    "a folder": lambda path: path.mkdir(),
}


def _put(path: Path, raw: bytes) -> None:
    path.write_bytes(raw)


@pytest.mark.timeout(120)
@pytest.mark.parametrize("harm", HARMS.values(), ids=HARMS)
@pytest.mark.parametrize(
    ("file", "words", "code"),
    [
        ("gear/rig.toml", "gear", 2),
        ("steps/own.toml", "paper S-1 --text", 0),  # left out, and named
        ("localities/own.toml", "due --locality MI", 2),
        ("locality.txt", "due", 2),
        ("settings.toml", "paper S-1 --text", 0),  # the usual in its place, and named
        ("emergency.toml", "paper S-1 --text", 0),
        ("card.toml", "lift --card {home}/card.toml", 2),
        ("card.toml", "plan --card {home}/card.toml", 2),
    ],
)
def test_a_small_file_of_any_kind_is_one_line(
    home: Home,
    capsys: pytest.CaptureFixture[str],
    harm: Callable[[Path], None],
    file: str,
    words: str,
    code: int,
) -> None:
    put_job(home, STEEL)
    path = home.path / file
    path.parent.mkdir(exist_ok=True)
    harm(path)
    capsys.readouterr()
    ended = main(["--home", str(home.path), *words.format(home=home.path).split()])
    told = capsys.readouterr().err

    assert ended == code
    assert code == 2 or path.stem in one_line(told)
    one_line(told)


@pytest.mark.parametrize("wrong", ["units = 3", 'units = "furlong"', 'shared = "yes"'])
def test_a_setting_that_is_not_taken_is_named(
    home: Home, capsys: pytest.CaptureFixture[str], wrong: str
) -> None:
    home.path.mkdir()
    _put(home.path / "settings.toml", f'initials = "QA"\n{wrong}\n'.encode())
    assert main(["--home", str(home.path), "jobs"]) == 0
    assert f"settings.toml: {wrong.partition(' ')[0]}: " in one_line(capsys.readouterr().err)
    assert home.settings == Settings(initials="QA")


def test_sound_small_files_are_nothing_to_speak_of(
    home: Home, capsys: pytest.CaptureFixture[str]
) -> None:
    put_job(home, STEEL)
    home.keep(Settings(units="metric", shared=True))
    _put(home.emergency_file, b'[[number]]\nwho = "Office"\ncall = "555-0142"\n')
    capsys.readouterr()
    assert main(["--home", str(home.path), "paper", "S-1"]) == 0
    assert capsys.readouterr().err == ""
