"""The wells, and what is owed, as rows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.widgets.paged_rows import PagedRows
from fieldbook.office.reports.due import DueState

if TYPE_CHECKING:
    from fieldbook.office.reports.due import Owed
    from fieldbook.office.reports.wells import Well


class WellRows(PagedRows["Well"]):
    """A row a well."""

    DEFAULT_CSS = "WellRows { text-wrap: wrap; }"

    def key(self, item: Well) -> tuple[str, str]:
        """Its first job, which no other well has."""
        return item.visits[0].job_number, str(item.visits[0].folder)

    def words(self, item: Well) -> str:
        """Whose it is; below, how often and when last, and what is owed."""
        jobs = "1 job" if len(item.visits) == 1 else f"{len(item.visits)} jobs"
        last = item.visits[-1]
        late = sum(debt.state is DueState.LATE for debt in item.owed)
        owed = f"; {len(item.owed)} owed" if item.owed else ""
        owed += f", {late} late" if late else ""
        return f"{item.title}\n    {jobs}, last {last.day} {last.line} {last.work}{owed}"


class OwedRows(PagedRows["Owed"]):
    """A row for each thing that is owed."""

    def key(self, item: Owed) -> str:
        """The entry that promised it."""
        return item.id

    def words(self, item: Owed) -> str:
        """When and what; below, for whom."""
        whose = ", ".join(word for word in (item.owner, item.well) if word)
        promised_at = f"told {item.promised_at:%Y-%m-%d} by {item.by}"
        first = self.folded(f"{when(item)}  {item.what}: {item.words}", 6)
        return f"{first}\n{self.folded(f'    {item.job_number}  {whose}; {promised_at}', 6)}"


def when(debt: Owed) -> str:
    """When something is due, and whether it is late, in words."""
    if debt.due is None or debt.days is None:
        return "no day named"
    days = "1 day" if abs(debt.days) == 1 else f"{abs(debt.days)} days"
    if debt.state is DueState.LATE:
        return f"! {days} late, {debt.due}"
    return f"due {debt.due}, in {days}" if debt.days else f"due today, {debt.due}"
