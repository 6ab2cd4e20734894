"""A figure that is known, or the names of what is missing to know it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic, TypeVar

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Known(Generic[T]):
    """A figure.

    Attributes:
        value: It; None while something is missing.
        how: How it is known, in words.
        missing: What is needed and not there.
    """

    value: T | None
    how: str = ""
    missing: tuple[str, ...] = ()


def known(value: T, how: str = "") -> Known[T]:
    """A figure that is known."""
    return Known(value, how)


def unknown(*missing: str) -> Known[T]:
    """A figure for which `missing` is needed."""
    return Known(None, missing=tuple(dict.fromkeys(missing)))
