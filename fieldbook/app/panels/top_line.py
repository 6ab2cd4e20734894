"""The first line of a job: which job, who records, and whether all is on disk."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.shelf.when import when
from fieldbook.app.widgets.literal import Literal

if TYPE_CHECKING:
    import datetime as dt

    from fieldbook.app.session import Session
    from fieldbook.record.job import Job

_LEAST_TITLE = 10


class TopLine(Literal):
    """Number, title, drop line and work; initials; saved, with the time, or why not.

    Beside it what has to be known at every step: read only, from paper, company's steps left out.
    """

    DEFAULT_CSS = """
    TopLine { height: 1; text-style: bold; text-wrap: nowrap; text-overflow: ellipsis; }
    """

    def show_state(self, session: Session, initials: str, today: dt.date) -> None:
        """Show the state of the open job."""
        job = session.job
        state, saved = "", f"saved {_when(job, today)}" if job.entries else "empty"
        if session.unsaved:
            state, saved = "stop", "NOT SAVED"
        elif session.book.holder is not None:
            state, saved = "caution", "READ ONLY"
        elif session.paper is not None:
            state, saved = "caution", f"FROM PAPER, {saved}"
        elif session.left_out:
            state, saved = "caution", f"COMPANY STEPS OUT, {saved}"
        what = f"{job.text('job', 'line')} {job.text('job', 'work')}"
        right = f"  {initials or '??'}  {saved}"
        left = f"{job.text('job', 'job_number')} {job.text('job', 'job_title')}"
        # Where not all has room, which line is worked on is the first to give way.
        if len(f"{left}  {what}{right}") <= self.app.size.width:
            right = f"  {what}{right}"
        # As wide as the screen, whose new size is known before the line itself is laid out again.
        room = max(self.app.size.width - len(right), _LEAST_TITLE)
        if len(left) > room:
            left = f"{left[: room - 1]}\u2026"
        self.say(f"{left:<{room}}{right}", state)


def _when(job: Job, today: dt.date) -> str:
    """When the newest entry was saved: to the second today, as a crew looks whether it just was."""
    time = job.entries[-1].time
    return f"{time:%H:%M:%S}" if time.date() == today else when(time, today)
