"""Text stays text in a page, whatever it says."""

from __future__ import annotations

from html.parser import HTMLParser

from hypothesis import given
from hypothesis import strategies as st

from fieldbook.office.sheet.markup import css_text, element, page
from fieldbook.quantities.plain import plain


class Reader(HTMLParser):
    """What a browser's parser sees in a page."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[str] = []
        self.attributes: list[dict[str, str | None]] = []
        self.words: dict[str, str] = {}
        self._open: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes.append(dict(attrs))
        self._open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        while self._open and self._open.pop() != tag:
            pass

    def handle_data(self, data: str) -> None:
        if self._open:
            self.words[self._open[-1]] = self.words.get(self._open[-1], "") + data

    def handle_comment(self, data: str) -> None:
        self.tags.append(f"!--{data}")


@given(st.text(), st.text())
def test_text_and_attributes_come_back_as_they_were_and_add_no_element(text: str, at: str) -> None:
    written = page(
        text, f".x::after {{ content: {css_text(text)} }}", [element("p", text, title=at)]
    )
    read = Reader(written)

    assert read.tags == ["html", "head", "meta", "meta", "meta", "title", "style", "body", "p"]
    assert read.words.get("p", "") == plain(text)
    assert read.attributes[-1] == {"title": plain(at)}


def test_what_would_end_the_style_or_open_a_script_stays_in_its_string() -> None:
    hostile = '</style><script>alert(1)</script>"; } @import url(x)'

    assert set(css_text(hostile)) <= set('"\\ 0123456789abcdefghijklmnopqrstuvwxyz')
    assert Reader(page(hostile, css_text(hostile), [hostile])).tags.count("script") == 0


def test_children_keep_their_order_and_what_is_not_there_leaves_nothing() -> None:
    made = page("t", "", [element("p", "a ", element("b", "b"), None, " c", class_="x")])

    assert '<p class="x">a <b>b</b> c</p>' in made
