"""Which levels of the water were read at rest."""

from __future__ import annotations

from fieldbook.record.levels import at_rest
from tests.watch.jobs import job_of, says


def test_levels_at_rest_are_those_with_a_figure_that_nobody_called_otherwise() -> None:
    job = job_of(
        says("level", water_level="90 ft", level_state="static"),
        says("level", water_level="140 ft", level_state="pumping", flow="30 gpm"),
        says("level", water_level="101 ft", level_state="recovering"),
        says("level", water_level="92 ft"),
    )

    assert [entry.text("water_level") for entry in at_rest(job.live("level"))] == ["90 ft", "92 ft"]
