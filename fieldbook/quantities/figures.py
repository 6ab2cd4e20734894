"""A recorded figure in words: as typed, with its unit, and the number it is understood to be."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from fieldbook.quantities.definition import definitions
from fieldbook.quantities.estimates import without_about
from fieldbook.quantities.units import show_unit

if TYPE_CHECKING:
    from fieldbook.record.entry import Value

_DECIMAL = re.compile(r"[+-]?[0-9]+(?:\.(?P<places>[0-9]*))?|[+-]?\.(?P<only>[0-9]+)", re.ASCII)


def figure(value: Value, name: str = "") -> str:
    """A value as typed, with the unit that was understood where none was typed.

    Args:
        value: The value.
        name: The quantity it is of, where a plain number has a unit that is not recorded.
    """
    unit = value.unit or (definitions()[name].counted_in if name in definitions() else "")
    return f"{value.text} {show_unit(unit)}" if unit and is_bare(value) else value.text


def is_bare(value: Value) -> bool:
    """Whether the text of a value is digits alone, with no unit."""
    return without_about(value.text).replace(".", "").replace("-", "").isdigit()


def understood(value: Value) -> str:
    """The number that a figure was understood to be, in the unit typed or meant.

    It has as many places as were typed, for a place on the map is known by its fifth. A fraction,
    and inches after feet, have six digits.
    """
    if value.number is None:
        return value.text
    typed = _DECIMAL.match(without_about(value.text))
    if typed and float(typed[0]) == value.number:
        digits = f".{len(typed['places'] or typed['only'] or '')}f"
    else:
        digits = ".6g"
    return f"{value.number:,{digits}}"
