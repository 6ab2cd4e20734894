"""Joints and hose are counted both ways, and what does not agree is said."""

from __future__ import annotations

import pytest

from fieldbook.quantities.convert import number_in
from fieldbook.quantities.definition import definition, units_of
from fieldbook.quantities.typed import parse
from fieldbook.record.footage import to_feet
from fieldbook.walk.counts import counts
from tests.walk.logs import Log


def joint(log: Log, number: int, length: str = "21", direction: str = "out") -> None:
    log.write("joint", direction=direction, joint_number=number, joint_length=length)


def hose(log: Log, length: str = "420 ft") -> None:
    log.write("piece", place=1, piece="hose", piece_length=length)


def reel(log: Log, counter: str, mark: str = "", direction: str = "out") -> None:
    more = {"mark": mark} if mark else {}
    log.write("footage", direction=direction, footage=counter, **more)


@pytest.mark.parametrize("unit", units_of("length"))
def test_every_unit_of_length_is_exact(unit: str) -> None:
    """Against the unit registry, which carries the same definitions."""
    value = parse(f"7 {unit}", definition("well_depth"))

    assert number_in(value, "ft") == pytest.approx(to_feet(7, unit), rel=1e-14)


def test_the_string_says_how_many_joints_there_are() -> None:
    log = Log()
    log.write("pump_out", prior_count=30)
    assert (30, "count on the last record") == (counts(log.job).joints, counts(log.job).joints_from)

    log.write("piece", place=1, piece="joint", joint_count=18, joint_length=21)
    log.write("piece", place=2, piece="joint", joint_length=20)
    log.write("piece", place=3, piece="pup", piece_length=5)
    log.write("piece", place=4, piece="check valve", piece_length=1)
    assert (20, "pieces of the string") == (counts(log.job).joints, counts(log.job).joints_from)


def test_where_the_pull_is() -> None:
    log = Log()
    joint(log, 1)
    assert "joint 1" == counts(log.job).where("out")

    log.write("piece", place=1, piece="joint", joint_count=18, joint_length=21)
    joint(log, 2)
    assert "joint 2 of 18" == counts(log.job).where("out")
    assert "joint 0 of 18" == counts(log.job).where("in")


def test_lengths_add_up_in_feet_whatever_they_were_typed_in() -> None:
    """20.98 ft and 6.4 m, which is 6.4 / 0.3048 = 20.9974 ft by hand."""
    log = Log()
    joint(log, 1, "20.98")
    joint(log, 2, "6.4 m")
    joint(log, 1, "20' 6\"", direction="in")

    assert counts(log.job).out_ft == pytest.approx(41.9774, abs=1e-4)
    assert counts(log.job).into_ft == pytest.approx(20.5)


def test_gaps_and_doubles_are_named() -> None:
    log = Log()
    for number in (1, 2, 2, 5):
        joint(log, number)
    found = counts(log.job)

    assert 3 == found.out.count
    assert ("not written out: joint 3, 4", "written out twice: joint 2") == found.problems


def test_a_joint_that_was_struck_is_not_counted() -> None:
    log = Log()
    joint(log, 1)
    joint(log, 2)
    log.strike(log.job.entries[-1])

    assert 1 == counts(log.job).out.count
    assert () == counts(log.job).problems


def test_more_joints_than_the_string_has_is_a_problem() -> None:
    log = Log()
    log.write("piece", place=1, piece="joint", joint_count=2, joint_length=21)
    for number in (1, 2, 3):
        joint(log, number)

    assert ("3 joints out, 2 in the string",) == counts(log.job).problems


def test_many_gaps_are_named_briefly() -> None:
    log = Log()
    joint(log, 9)

    assert ("not written out: joint 1, 2, 3, 4, 5 and 3 more",) == counts(log.job).problems


def test_the_counter_counts_on_from_the_last_mark() -> None:
    """The counter says 92 at the 100 ft mark; 50 ft further it says 142: 150 are out."""
    log = Log()
    hose(log)
    reel(log, "92", "100")
    reel(log, "142")
    out = counts(log.job).hose_out

    assert (142, 150, 8) == (out.counted_ft, out.feet, out.off_ft)
    assert "150 of 420 ft" == counts(log.job).where("out")


def test_the_last_feet_are_counted_when_the_pump_is_out() -> None:
    """The counter was 4 short at the 395 ft mark; it says 416 with the pump at the lip: 420."""
    log = Log()
    hose(log)
    reel(log, "391", "395")
    log.write("pump_out", footage="416 ft")
    log.write("pump_out", footage="420 ft")

    assert "420 of 420 ft" == counts(log.job).where("out")
    assert () == counts(log.job).problems


def test_going_in_the_marks_count_down() -> None:
    """Marks count from the top end: at the 320 ft mark, 420 - 320 = 100 ft of hose are in."""
    log = Log()
    hose(log)
    reel(log, "94", "320", direction="in")
    reel(log, "30 m", direction="in")
    into = counts(log.job).hose_in

    assert into.off_ft == pytest.approx(6)
    assert into.feet == pytest.approx(30 / 0.3048 + 6)
    assert counts(log.job).hose_out.feet is None


def test_without_the_length_of_the_hose_a_mark_going_in_corrects_nothing() -> None:
    log = Log()
    reel(log, "94", "320", direction="in")

    assert (94, None) == (counts(log.job).hose_in.feet, counts(log.job).hose_in.off_ft)
    assert "94 ft" == counts(log.job).where("in")


def test_the_last_record_says_the_length_of_the_hose_where_the_pieces_do_not() -> None:
    log = Log()
    log.write("prior", piece_length="100 m")
    assert counts(log.job).hose_ft == pytest.approx(328.084, abs=1e-3)

    hose(log)
    assert counts(log.job).hose_ft == 420


def test_more_hose_than_there_is_is_a_problem() -> None:
    log = Log()
    hose(log, "128 m")
    reel(log, "430")

    assert ("430 ft of hose out, 420 ft in the string",) == counts(log.job).problems
