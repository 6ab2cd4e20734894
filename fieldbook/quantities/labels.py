"""Labels in the middle of a line."""

from __future__ import annotations


def within(label: str) -> str:
    """A label within a line: its first letter small, names and symbols as they are.

    >>> within("Water pH"), within("Hazen-Williams C"), within("NPT thread")
    ('water pH', 'Hazen-Williams C', 'NPT thread')
    """
    first = label.partition(" ")[0]
    return label[:1].lower() + label[1:] if first[1:] == first[1:].lower() else label
