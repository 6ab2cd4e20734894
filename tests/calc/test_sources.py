"""Every calculation names its source, and the page of sources is what the docstrings say."""

from __future__ import annotations

from tests.sources import PAGE, calculations, page


def test_every_public_function_names_its_source() -> None:
    found = list(calculations())

    assert len(found) > 150
    assert [f"{each.module}.{each.name}" for each in found if not each.source] == []


def test_the_page_is_made_from_the_docstrings() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "python -m tests.sources writes it"
