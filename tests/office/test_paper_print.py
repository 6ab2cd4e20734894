"""The form in a real browser: it prints on letter and on A4, every page numbered, nothing cut."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.office.paper.paper_page import paper_page
from fieldbook.walk.definition.loading import load
from tests.office.browser import CHROMIUM
from tests.office.test_paper import empty, filled
from tests.office.test_print import PAPERS, printed, too_wide

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="Chromium is not installed")


@pytest.mark.parametrize("paper", PAPERS)
def test_an_empty_form_prints_whole(paper: str, tmp_path: Path) -> None:
    html = paper_page(empty("hose", "set"))
    pages = printed(html, paper, tmp_path)
    whole = " ".join(pages)

    for number, text in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in text
    for step in load("hose", "set").steps:
        assert step.title in whole
    assert too_wide(html, paper, tmp_path) == "[]"


def test_a_form_of_a_job_keeps_its_heads_on_every_page_of_the_tally(tmp_path: Path) -> None:
    html = paper_page(filled(joints=75))
    pages = printed(html, "letter", tmp_path)
    tally = [text for text in pages if "Ties" in text]

    assert len(tally) > 2
    assert too_wide(html, "letter", tmp_path) == "[]"
