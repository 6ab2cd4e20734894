"""The joints of a job as findings left them: each with the thinnest wall that was found on it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from fieldbook.quantities.convert import as_quantity
from fieldbook.record.string import pump_came_out
from fieldbook.record.worn import Worn, worn_as_found, worn_going_in
from fieldbook.watch.state.drop_line import DropLine, Lacking, line_of
from fieldbook.watch.state.facts import Facts
from fieldbook.watch.state.temperature import hottest

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job


class Pipe:
    """Describes the drop line of one job, run by run and joint by joint."""

    def __init__(self, job: Job, *, as_found: bool) -> None:
        """Describe the line of `job`.

        Args:
            job: The job.
            as_found: The string that was found, also where another is to be set by now.
        """
        self._job = job
        self._line = job.text("job", "line")
        self._temperature = hottest(job)
        self._sheet_wave = Facts(job).get("hose_sheet", "wave_speed")
        self._numbered = as_found or (
            pump_came_out(job) is None and job.text("job", "work") != "set"
        )

    def line(self, entry: Entry) -> DropLine | Lacking:
        """The drop line of a run, with what findings say of the whole of it."""
        worn = Worn() if self._numbered else worn_going_in(self._job, entry)
        line = self._described(entry, worn)
        if isinstance(line, Lacking) or not worn.aside:
            return line
        numbers = ", ".join(str(number) for number in worn.aside)
        lack = f"which joints are new (set aside: {numbers})"
        return replace(
            line,
            tension=replace(line.tension, missing=(*line.tension.missing, lack)),
            pressure=replace(line.pressure, missing=(*line.pressure.missing, lack)),
        )

    def joint(self, entry: Entry, number: int, line: DropLine) -> DropLine:
        """One joint of a run of the string as it hung.

        Args:
            entry: The run.
            number: Of the joint, the top one being 1.
            line: The drop line of the run.
        """
        worn = worn_as_found(self._job, number) if self._numbered else Worn()
        found = self._described(entry, worn) if worn.wall is not None else line
        return found if isinstance(found, DropLine) else line

    def _described(self, entry: Entry, worn: Worn) -> DropLine | Lacking:
        wall = as_quantity(worn.wall) if worn.wall is not None else None
        return line_of(
            entry,
            self._line,
            self._temperature,
            found_wall=wall,
            sheet_wave=self._sheet_wave,
        )
