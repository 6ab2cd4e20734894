"""The sheet in a real browser: nothing is cut on letter or A4, heads repeat, pages are numbered.

Needs Chromium; without it these tests are skipped and say so.
"""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from pypdf import PdfReader

from fieldbook.office.filing.localities import localities
from fieldbook.office.samples import build_job
from fieldbook.office.sheet.context import account_of, customer_copy
from fieldbook.office.sheet.sheet import sheet
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home
from tests.office.browser import CHROMIUM, browser
from tests.watch.jobs import STEEL, job_of, says

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="Chromium is not installed")

PAPERS = {"letter": (612, 792), "A4": (595, 842)}  # points, of 1/72 inch
MARGINS = 2 * 14 / 25.4 * 96  # of the sheet, left and right, in CSS pixels
JOINTS = 90

# What a browser of that width shows wider than the sheet, by tag and words.
_MEASURE = """<script>
const edge = document.querySelector("main").getBoundingClientRect().right + 1;
const wide = [...document.querySelectorAll("main *")]
  .filter(e => e.getBoundingClientRect().right > edge)
  .map(e => e.tagName + ": " + e.textContent.slice(0, 40));
const text = [...document.querySelectorAll("svg")].flatMap(svg => {
  const box = svg.getBoundingClientRect();
  return [...svg.querySelectorAll("text")].filter(t => {
    const r = t.getBoundingClientRect();
    return r.left < box.left - 1 || r.right > box.right + 1
      || r.top < box.top - 1 || r.bottom > box.bottom + 1;
  }).map(t => "outside the drawing: " + t.textContent);
});
document.title = "measured " + JSON.stringify([...wide, ...text]);
</script>"""


def printed(html: str, paper: str, folder: Path) -> list[str]:
    """The text of each page as it comes out of the printer, on that paper."""
    on_paper = html.replace("</style>", f"@page {{ size: {paper}; }}</style>")
    page = folder / f"{paper}.html"
    page.write_text(on_paper, encoding="utf-8")
    pages = PdfReader(io.BytesIO(browser().pdf(page))).pages
    width, height = PAPERS[paper]
    for one in pages:
        assert abs(one.mediabox.width - width) < 1
        assert abs(one.mediabox.height - height) < 1
    return [" ".join(one.extract_text().split()) for one in pages]


def too_wide(html: str, paper: str, folder: Path) -> str:
    """What stands out of the sheet at the width that paper leaves it."""
    width = int(PAPERS[paper][0] / 72 * 96 - MARGINS)
    bare = re.sub(r"<meta http-equiv[^>]*>", "", html, count=1)  # it would forbid the measuring
    bare = bare.replace("@media screen", "@media speech")
    page = folder / "measured.html"
    page.write_text(bare.replace("</body>", f"{_MEASURE}</body>"), encoding="utf-8")
    title = browser().title(page, width)
    assert title.startswith("measured ")
    return title.removeprefix("measured ")


@pytest.fixture
def written(tmp_path: Path) -> Callable[[str], str]:
    def make(which: str) -> str:
        folder = build_job(Home(tmp_path), "26-127-steel", complete=True)
        with Book.open(folder, "d-reader", write=False) as book:
            if which == "long":
                book.job = job_of(
                    *STEEL,
                    *(
                        says("joint", direction="out", joint_number=n, joint_length=21,
                             gauge_reading=900, pipe_condition="good", on_joint="W" * 60)
                        for n in range(1, JOINTS + 1)
                    ),
                    says("finding", part="p" * 200, finding="f" * 400),
                    says("note") | {"note": "n" * 3000},
                    says("note") | {"note": "words " * 600},
                )  # fmt: skip
            return sheet(account_of(book))

    return make


@pytest.mark.parametrize("which", ["sample", "long"])
@pytest.mark.parametrize("paper", PAPERS)
def test_it_prints_on_paper(
    which: str, paper: str, written: Callable[[str], str], tmp_path: Path
) -> None:
    html = written(which)
    pages = printed(html, paper, tmp_path)

    job = "26-127" if which == "sample" else "S-1"
    for number, text in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in text
        assert job in text
    whole = " ".join(pages)
    assert "Ratings are for sound, undamaged gear" in whole
    assert too_wide(html, paper, tmp_path) == "[]"
    if which == "long":
        tallied = [text for text in pages if re.search(r"Joint Length Sum, ft Gauge", text)]
        assert len(tallied) >= 3
        assert all(f" {n * 21:,.2f} " in whole for n in range(1, JOINTS + 1))
        assert whole.replace(" ", "").count("n" * 50) >= 1
        assert whole.count("words") >= 600


@pytest.mark.parametrize(("name", "paper"), [("26-114-pvc", "letter"), ("26-163-pvc", "A4")])
def test_signatures_are_on_the_page_of_what_they_sign(
    name: str, paper: str, tmp_path: Path
) -> None:
    folder = build_job(Home(tmp_path), name, complete=True)
    with Book.open(folder, "d-reader", write=False) as book:
        context = account_of(book)
    for copy in (context, customer_copy(context)):
        last = printed(sheet(copy, localities()["MI"]), paper, tmp_path)[-1]
        assert "Signed in the log" in last
        assert "Michigan" in last
        assert "Ratings are for sound, undamaged gear" in last
