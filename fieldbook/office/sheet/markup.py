"""HTML and SVG as a tree of elements, so that text from people can only ever be text.

Nothing here joins strings into markup: the standard library's element tree escapes what is put into
it, and `plain` takes out what a reader could not see.
"""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element, SubElement, tostring

from fieldbook.quantities.plain import plain

if TYPE_CHECKING:
    from collections.abc import Iterable

Child = Element | str | None
"""What an element may hold; None is left out, so that a part that is not there needs no branch."""

# A page that can run nothing, fetch nothing and send nothing, whatever is in it.
_POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; form-action 'none';"
    " base-uri 'none'"
)


def element(tag: str, *children: Child, **attributes: str | float) -> Element:
    """An element with its children in order.

    Args:
        tag: Its name.
        children: Elements and text; text is shown as it is, never read as markup.
        attributes: `class_` is `class`, any other underscore a hyphen.
    """
    made = Element(tag, {_name(name): _shown(value) for name, value in attributes.items()})
    extend(made, children)
    return made


def extend(parent: Element, children: Iterable[Child]) -> None:
    """Put more children behind those that `parent` has."""
    for child in children:
        if isinstance(child, Element):
            parent.append(child)
        elif child is not None and len(parent):
            parent[-1].tail = (parent[-1].tail or "") + plain(child)
        elif child is not None:
            parent.text = (parent.text or "") + plain(child)


def page(title: str, style: str, body: Iterable[Child]) -> str:
    """A whole document that needs nothing but itself.

    Args:
        title: What the reader's window and the file of a print are called.
        style: CSS of ours; text from people enters it only through `css_text`.
        body: What is in it.
    """
    html = Element("html", {"lang": "en"})
    head = SubElement(html, "head")
    SubElement(head, "meta", {"charset": "utf-8"})
    SubElement(head, "meta", {"http-equiv": "Content-Security-Policy", "content": _POLICY})
    SubElement(head, "meta", {"name": "viewport", "content": "width=device-width"})
    head.append(element("title", title))
    SubElement(head, "style").text = style
    extend(SubElement(html, "body"), body)
    return "<!DOCTYPE html>\n" + tostring(html, encoding="unicode", method="html") + "\n"


def css_text(text: str) -> str:
    r"""`text` as a CSS string, with everything but letters and digits escaped by its number.

    >>> css_text('a"b')
    '"a\\22 b"'
    """
    kept = (c if c.isascii() and c.isalnum() else f"\\{ord(c):x} " for c in plain(text))
    return f'"{"".join(kept)}"'


def _name(name: str) -> str:
    return name.rstrip("_").replace("_", "-")


def _shown(value: str | float) -> str:
    return plain(value) if isinstance(value, str) else f"{value:.2f}".rstrip("0").rstrip(".")
