"""What a calculation refuses, as one small tree.

CalcError
├── OutOfRange        a value is finite but outside what the formula or table covers
├── NotFinite         a value is NaN or infinite
└── WrongDimension    a value is not the kind of quantity asked for (a length where a force belongs)
"""


class CalcError(ValueError):
    """A calculation was asked for something it cannot answer."""


class OutOfRange(CalcError):
    """A value lies outside what the formula or the table covers; nothing is extrapolated."""


class NotFinite(CalcError):
    """A value is NaN or infinite."""


class WrongDimension(CalcError):
    """A value has the wrong dimension for its place in the formula."""
