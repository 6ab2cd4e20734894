"""Units as people write them."""

_SHOWN = {
    "gallon": "gal",
    "degree": "deg",
    "percent": "%",
    "m**3/hour": "m3/h",
    "km/hour": "km/h",
    "hour": "h",
    "in**2": "in2",
    "cm**2": "cm2",
}


def show_unit(unit: str) -> str:
    """A recorded unit as people write it.

    >>> show_unit("percent")
    '%'
    """
    return _SHOWN.get(unit, unit)
