"""Photos on the sheet, and what paper says of itself there."""

from __future__ import annotations

from pathlib import Path

from fieldbook.office.sheet.context import account_of
from fieldbook.office.sheet.sheet import sheet
from fieldbook.quantities.admit import draft_from
from fieldbook.record.entry import Draft
from fieldbook.store.job.attachments import attach
from fieldbook.store.job.book import Book
from tests.app.scenes import put_job, scratch_home
from tests.watch.jobs import STEEL

PAPER = {"written_by": "LM", "written_on": "2026-05-14", "written_at": "9:05"}


def test_the_sheet_lists_what_is_attached_and_marks_what_was_on_paper(tmp_path: Path) -> None:
    home = scratch_home(tmp_path / "home")
    folder = put_job(home, STEEL)
    photo = tmp_path / "<b>joint 3.jpg"
    photo.write_bytes(b"pits")
    joint = {"direction": "out", "joint_number": 1, "joint_length": 21} | PAPER
    hold = {"step": "ready.rig_level", "role": "crew lead"} | PAPER
    with Book.open(folder, home.device_id()) as book:
        attached = attach(folder, photo)
        book.record(Draft("attachment", "QA", attached.values(), note="pits at the root"))
        for kind, said in (("joint", joint), ("hold", hold)):
            book.record(draft_from({"kind": kind, "by": "QA", "values": said}))
        html = sheet(account_of(book))

    assert "&lt;b&gt;joint 3.jpg" in html
    assert "<b>joint" not in html
    assert "pits at the root" in html
    assert attached.name[:16] in html
    assert html.count("on paper by LM 2026-05-14 09:05") == 2
    assert "RECORDED FROM PAPER" in html
