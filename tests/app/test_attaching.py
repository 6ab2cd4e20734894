"""A photo is attached by its path; nobody types a hash."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.app.forms.path_field import completed, path_value
from fieldbook.quantities.typed import NotUnderstood
from fieldbook.store.log.verify import verify
from fieldbook.store.shelf.home import Home
from tests.app.crew import at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL


@pytest.fixture
def photos(tmp_path: Path) -> Path:
    folder = tmp_path / "photos"
    (folder / "older").mkdir(parents=True)
    for name in ("joint 3.jpg", "plate.jpg", ".hidden", "bad\x1bname"):
        (folder / name).write_bytes(name.encode())
    return folder


def test_names_are_completed(photos: Path) -> None:
    place = f"{photos}/"

    assert completed(f"{place}jo") == f"{place}joint 3.jpg"
    assert completed(f"{place}p") == f"{place}plate.jpg"
    assert completed(f"{place}o") == f"{place}older/"
    assert completed(place) == f"{place}joint 3.jpg"
    assert completed(f"{place}.") == f"{place}.hidden"
    assert completed(f"{place}bad") is None
    assert completed(f"{place}x") is None
    assert completed("/no/such/folder/x") is None
    assert completed("") is None


@pytest.mark.parametrize("text", ["/no/such/file", "~nobody-of-that-name/x", "/tmp", "a\x00b"])
def test_what_is_no_file_is_said(text: str) -> None:
    with pytest.raises(NotUnderstood):
        path_value(text)


async def test_a_photo_is_attached_with_a_few_words(home: Home, photos: Path) -> None:
    folder = put_job(home, STEEL)
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "f")
        crew.sees("Photo or paper", "File *")
        await crew.types(f"{photos}/gone", "enter")
        crew.sees("there is no such file")
        await crew.press(*["backspace"] * 4)
        await crew.types("jo")
        await crew.app.workers.wait_for_complete()
        await crew.press("right", "enter")
        await crew.types("thread", "enter")
        await crew.types("pits at the root", "enter")
        crew.sees("Photo or paper saved")
        await crew.press("escape", "v")
        crew.sees("file was called joint 3.jpg", "11 bytes, hash ", "pits at the root")

    (entry,) = crew.job(folder).live("attachment")
    assert entry.text("file_title") == "joint 3.jpg"
    assert (folder / entry.text("file_hash")).read_bytes() == b"joint 3.jpg"
    assert (entry.by, entry.note, entry.text("part")) == ("QA", "pits at the root", "thread")
    assert verify(folder).whole
