"""Style sheets parsed once a process: each app under test would parse the same ones anew."""

from __future__ import annotations

from typing import Any

import pytest
from textual.css.stylesheet import Stylesheet

_parse = Stylesheet._parse_rules
_parsed: dict[Any, Any] = {}


def _parsed_once(sheet: Stylesheet, css: str, *said: Any, **named: Any) -> Any:
    """The rules of a piece of style, which nothing changes once they are parsed."""
    key = (css, said, tuple(sorted(named.items())), tuple(sorted(sheet._variables.items())))
    if key not in _parsed:
        _parsed[key] = _parse(sheet, css, *said, **named)
    return _parsed[key]


def parse_once(patch: pytest.MonkeyPatch) -> None:
    """Have the apps of a test share what is parsed."""
    patch.setattr(Stylesheet, "_parse_rules", _parsed_once)
