"""Files of a job go out beside the sheet, pictures in it; what is inside stays in the office."""

from __future__ import annotations

import base64
import hashlib
from pathlib import Path

import pytest

from fieldbook.cli import main
from fieldbook.office.sheet import attached
from fieldbook.office.sheet.attached import AttachedFile
from fieldbook.quantities.typed import plain_value
from fieldbook.record.entry import Draft, Entry
from fieldbook.store.job.attachments import attach
from fieldbook.store.job.book import Book
from tests.app.scenes import put_job, scratch_home
from tests.watch.jobs import STEEL, job_of
from tests.whole.three_trucks import picture

FILES = {
    "well head.png": (picture(200), "the well head as left", "yes"),
    "yard.png": (picture(40), "what the yard asks", "no"),
    "sheet of the pump.pdf": (b"%PDF-1.4 a curve", "curve from the maker", "yes"),
    "page.html": (b"<script>alert(1)</script>", "what was sent", "yes"),
}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A job to which `FILES` were attached."""
    folder = put_job(scratch_home(tmp_path / "home"), STEEL)
    for title, (raw, words, for_customer) in FILES.items():
        source = tmp_path / title
        source.write_bytes(raw)
        said = {"for_customer": plain_value(for_customer)}
        record(folder, Draft("attachment", "QA", attach(folder, source).values() | said, words))
    return folder


def record(folder: Path, draft: Draft) -> Entry:
    with Book.open(folder, "d-office00001") as book:
        return book.record(draft)


def job_file(tmp_path: Path, folder: Path) -> Path:
    out = tmp_path / "out"
    told = ["--home", str(tmp_path / "home"), "jobfile", str(folder), "--out", str(out)]
    assert main(told) == 0
    return out


def named(title: str) -> str:
    return f"{hashlib.sha256(FILES[title][0]).hexdigest()[:16]}_{title.replace(' ', '_')}"


def beside(out: Path, copy: str) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in (out / f"{copy}_files").iterdir()}


def test_every_file_lies_beside_the_sheet_and_those_for_the_customer_beside_the_customers(
    tmp_path: Path, folder: Path
) -> None:
    out = job_file(tmp_path, folder)

    assert beside(out, "sheet") == {named(title): raw for title, (raw, _, _) in FILES.items()}
    theirs = {named(title): raw for title, (raw, _, whose) in FILES.items() if whose == "yes"}
    assert beside(out, "customer") == theirs
    for copy in ("sheet", "customer"):
        html = (out / f"{copy}.html").read_text(encoding="utf-8")
        assert all(f'href="{copy}_files/{name}"' in html for name in beside(out, copy))


def test_pictures_are_in_the_sheet_and_nothing_else_is(tmp_path: Path, folder: Path) -> None:
    out = job_file(tmp_path, folder)
    office, customers = ((out / f"{c}.html").read_text("utf-8") for c in ("sheet", "customer"))
    inside, shown = (base64.b64encode(picture(shade)).decode() for shade in (40, 200))

    assert office.count("<img") == 2
    assert customers.count("<img") == 1
    assert f"data:image/png;base64,{shown}" in customers
    assert f"data:image/png;base64,{inside}" in office
    assert "what the yard asks" not in customers
    assert "img-src data:" in office


def test_what_is_struck_afterwards_is_taken_away_and_a_file_of_somebody_else_is_not(
    tmp_path: Path, folder: Path
) -> None:
    out = job_file(tmp_path, folder)
    (out / "customer_files" / "letter.txt").write_text("dear customer", encoding="utf-8")
    with Book.open(folder, "d-reader", write=False) as book:
        first = book.job.live("attachment")[0]
    record(folder, Draft("strike", "QA", {"reason": plain_value("wrong")}, strikes=first.id))
    job_file(tmp_path, folder)

    assert named("well head.png") not in beside(out, "customer") | beside(out, "sheet")
    assert "letter.txt" in beside(out, "customer")


@pytest.mark.parametrize("harm", ["gone", "altered"])
def test_a_file_that_is_not_what_was_attached_is_named_and_never_sent(
    tmp_path: Path, folder: Path, harm: str
) -> None:
    path = folder / hashlib.sha256(picture(200)).hexdigest()
    path.unlink() if harm == "gone" else path.write_bytes(picture(201))
    out = job_file(tmp_path, folder)
    html = (out / "customer.html").read_text(encoding="utf-8")

    assert named("well head.png") not in beside(out, "customer")
    assert "<img" not in html
    assert "NOT HERE" in html
    assert "well head.png" in html


def test_a_sheet_holds_no_more_pictures_than_a_reader_can_open(
    tmp_path: Path, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(attached, "MOST_SHOWN", len(picture(200)))
    html = (job_file(tmp_path, folder) / "sheet.html").read_text(encoding="utf-8")

    assert html.count("<img") == 1
    assert html.count("too large to be shown here") == 1


@pytest.mark.parametrize(
    ("raw", "media"),
    [
        (b"\xff\xd8\xff\xe0\x00\x10JFIF", "image/jpeg"),
        (b"RIFF\x0a\x00\x00\x00WEBPVP8 ", "image/webp"),
        (b"GIF89a\x01", "image/gif"),
        (b"RIFF\x00\x00\x00\x00WAVEfmt ", ""),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", ""),
        (b"", ""),
    ],
)
def test_a_picture_is_told_by_what_it_holds_and_not_by_its_name(raw: bytes, media: str) -> None:
    entry = job_of(*STEEL).entries[0]
    assert AttachedFile(entry, "photo.jpg", raw).picture == media
