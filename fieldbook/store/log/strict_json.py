"""JSON, strictly: no NaN, no infinity, no key twice, no bottomless nesting."""

from __future__ import annotations

import json
import math
from typing import Any, NoReturn


class BadJson(ValueError):
    """The bytes are not one JSON value of the strict kind; the message says why."""


def write_json(document: object) -> str:
    """The document as one line of JSON, in the shortest form.

    Raises:
        ValueError: A number in it is not finite.
    """
    return _ENCODER.encode(document)


def read_json(raw: bytes) -> Any:  # noqa: ANN401 - JSON is of any type until it is looked at
    """The JSON value that `raw` holds.

    Raises:
        BadJson: Not UTF-8, not JSON, a number that is not finite, a key twice, nested too deep.
    """
    try:
        text = raw.decode("utf-8")
        found, end = _DECODER.raw_decode(text)
        # White space around it is rare, and looking for it is slow.
        return found if end == len(text) else _DECODER.decode(text)
    except UnicodeDecodeError as error:
        raise BadJson("not UTF-8 text") from error
    except RecursionError as error:
        raise BadJson("nested too deep") from error
    except BadJson:
        raise
    except ValueError as error:
        raise BadJson(f"not JSON: {error}"[:120]) from error


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise BadJson("a key stands twice in one object")
    return found


def _constant(name: str) -> NoReturn:
    raise BadJson(f"{name} is not a number")


def _float(text: str) -> float:
    number = float(text)
    if not math.isfinite(number):
        raise BadJson(f"{text[:20]} is not a finite number")
    return number


_ENCODER = json.JSONEncoder(ensure_ascii=False, allow_nan=False, separators=(",", ":"))
_DECODER = json.JSONDecoder(object_pairs_hook=_object, parse_constant=_constant, parse_float=_float)
