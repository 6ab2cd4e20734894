"""The jobs of the shelf as rows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.widgets.paged_rows import PagedRows

if TYPE_CHECKING:
    from pathlib import Path

    from fieldbook.store.shelf.shelf import Listing


class JobRows(PagedRows["Listing"]):
    """A row a job."""

    def key(self, item: Listing) -> Path:
        """Its folder."""
        return item.folder

    def words(self, item: Listing) -> str:
        """Number, title, line and work; below, where it is; the digit that goes to it."""
        place = next((n for n, shown in enumerate(self._shown[:9], 1) if shown is item), None)
        saved = item.saved.strftime("%Y-%m-%d") if item.saved is not None else "never"
        sealed = ", sealed" if item.sealed else ""
        trouble = f"  ! {len(item.problems)} found wrong" if item.problems else ""
        title = item.title or item.well or item.owner
        what = f"({item.line}, {item.work}{sealed}){trouble}"
        first = f"{place or ' '} {item.job_number}  {title}  {what}"
        return f"{first}\n      {item.status}  saved {saved}"
