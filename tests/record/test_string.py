"""The string that was found and the string that goes in, from one list of pieces."""

from __future__ import annotations

from fieldbook.record.entry import Entry
from fieldbook.record.job import Job
from fieldbook.record.string import joints_in, string_pieces
from tests.walk.logs import Log


def pulled_and_set(work: str = "pull and set") -> Log:
    log = Log()
    log.write("job", job_number="26-001", line="steel", work=work)
    log.write("piece", place=1, piece="joint", joint_count=18, joint_length="21 ft")
    log.write("piece", place=2, piece="check valve", piece_length="0.6 ft")
    log.write("pump_out", prior_count=18, rack_count=18)
    return log


def said(pieces: list[Entry]) -> list[str]:
    return [f"{piece.text('piece')} {piece.text('joint_count')}".strip() for piece in pieces]


def test_nothing_new_is_written_so_the_same_string_goes_in() -> None:
    job = pulled_and_set().job

    assert said(string_pieces(job)) == ["joint 18", "check valve"]


def test_lengths_written_once_the_pump_is_out_replace_the_lengths_and_not_the_valves() -> None:
    log = pulled_and_set()
    log.write("piece", place=1, piece="joint", joint_count=19, joint_length="21 ft")

    assert said(string_pieces(log.job)) == ["joint 19", "check valve"]
    assert said(string_pieces(log.job, as_found=True)) == ["joint 18", "check valve"]


def test_valves_written_anew_replace_the_valves_and_not_the_lengths() -> None:
    log = pulled_and_set()
    log.write("piece", place=2, piece="check valve", piece_length="0.7 ft")
    log.write("piece", place=3, piece="torque arrestor", piece_length="1 ft")

    assert said(string_pieces(log.job)) == ["joint 18", "check valve", "torque arrestor"]
    assert [p.values["piece_length"].number for p in string_pieces(log.job)[1:]] == [0.7, 1.0]


def test_a_correction_describes_the_string_of_what_it_corrects() -> None:
    log = pulled_and_set()
    found = string_pieces(log.job)[0]
    log.write(
        "piece", strikes=found.id, place=1, piece="joint", joint_count=17, joint_length="21 ft"
    )

    assert said(string_pieces(log.job, as_found=True)) == ["joint 17", "check valve"]
    assert said(string_pieces(log.job)) == ["joint 17", "check valve"]


def test_a_job_that_sets_nothing_has_one_string() -> None:
    log = pulled_and_set("pull")
    log.write("piece", place=3, piece="pup", piece_length="5 ft")

    both = [string_pieces(log.job, as_found=found) for found in (True, False)]
    assert both[0] == both[1]
    assert joints_in(both[0]) == 19


def test_no_piece_is_no_string() -> None:
    assert string_pieces(Job()) == []
