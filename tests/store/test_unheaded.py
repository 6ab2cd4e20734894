"""A log that is not headed as one of ours is damaged, and says so at the line that is wrong."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from fieldbook.store.gather.folder_scan import look_at
from fieldbook.store.log.line import encode, hash_of
from fieldbook.store.log.reader import read_log
from fieldbook.store.log.writer import LogWriter

WORDS = "not the first line of a log of ours"


@pytest.fixture
def log(tmp_path: Path) -> Path:
    writer = LogWriter(tmp_path, "d-cab", "j-1")
    writer.append({"words": "first"})
    writer.close()
    return next(tmp_path.glob("*.jsonl"))


def header_of(path: Path) -> dict[str, Any]:
    header = read_log(path).header
    assert header is not None
    return header


def test_an_unheaded_log_of_another_format_is_damaged(log: Path) -> None:
    assert not any(WORDS in problem.words for problem in read_log(log).problems)
    another = header_of(log) | {"format": "another"}
    log.write_bytes(encode(1, "0" * 64, "head", another) + b"\n")
    read = read_log(log)

    assert read.damaged
    assert [problem.line for problem in read.problems if WORDS in problem.words] == [1]


def test_a_header_further_down_is_damage(log: Path) -> None:
    header = header_of(log)
    lines = log.read_bytes().splitlines()
    again = encode(len(lines) + 1, hash_of(lines[-1]), "head", header)
    log.write_bytes(b"\n".join([*lines, again]) + b"\n")
    read = read_log(log)

    assert read.damaged
    assert [p.line for p in read.problems if WORDS in p.words] == [len(lines) + 1]


@pytest.mark.parametrize("lines", [[], [encode(1, "0" * 64, "entry", {"words": "first"})]])
def test_a_folder_with_an_empty_or_unheaded_log_is_looked_at_file_by_file(
    folder: Path, lines: list[bytes]
) -> None:
    (sound,) = look_at(folder).files
    other = sound.name.replace("0001", "0002")
    (folder / other).write_bytes(b"".join(line + b"\n" for line in lines))

    assert look_at(folder).files == ()
