"""What is found otherwise than the last record says."""

from __future__ import annotations

from typing import Any

from fieldbook.record.memory import Memory, remember
from fieldbook.watch.well.differences import differences
from tests.office.sampled import sample_job
from tests.walk.logs import Log


def memory() -> Memory:
    found = remember([sample_job("26-114-pvc")])
    assert found is not None
    return found


def found(*entries: tuple[str, dict[str, Any]]) -> list[str]:
    log = Log()
    log.write("job", job_number="27-001", line="pvc", work="pull and set")
    for kind, values in entries:
        log.write(kind, **values)
    return differences(log.job, memory())


def test_nothing_is_otherwise_where_nothing_was_found() -> None:
    assert found() == []
    assert differences(Log().job, None) == []


def test_the_half_year_later_visit_shows_level_insulation_and_the_air_that_was_lost() -> None:
    words = differences(sample_job("26-163-pvc"), memory())

    assert "Static level: 79.8 ft; was 72.6 ft (+7.2 ft)" in words
    assert any(line.startswith("Insulation to ground: 310 Mohm; was 340 Mohm") for line in words)
    assert any(line.startswith("Precharge: 22 psi; was 38 psi") for line in words)


def test_the_same_figure_in_another_unit_is_no_difference() -> None:
    assert found(("well", {"well_depth": "97.536 m"})) == []
    assert found(("well", {"well_depth": "96 m"})) == ["Well depth: 96 m; was 97.54 m"]


def test_another_pump_than_was_set_is_seen_and_one_that_is_chosen_is_not() -> None:
    another = ("pump", {"pump_serial": "Z-1"})
    out = ("pump_out", {"prior_count": 13, "rack_count": 13})

    assert any("Z-1" in line for line in found(another))
    assert not any("Z-1" in line for line in found(out, another))


def test_a_joint_more_or_less_than_went_in_is_seen_once_the_pump_is_out() -> None:
    joints = [
        ("joint", {"direction": "out", "joint_number": n, "joint_length": "20.03 ft"})
        for n in range(1, 13)
    ]
    assert found(*joints) == []
    assert found(*joints, ("pump_out", {})) == ["Joints out: 12; 13 went in"]


def test_another_string_than_was_set_is_seen() -> None:
    piece = {"place": 1, "piece": "joint", "nps": "1-1/4", "joint_count": 12}
    words = found(("piece", piece))

    assert "String: 12 joints; was 13 joints" in words
    assert any(line.startswith("String: none; was check valve") for line in words)
