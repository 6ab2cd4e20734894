"""What may enter the log: the one gate for the screen, for `enter` and for logs from elsewhere."""

from __future__ import annotations

from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any

from fieldbook.quantities.definition import PLAIN, Definition, definitions, units_of
from fieldbook.quantities.initials import INITIALS, initials_problem
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.labels import within
from fieldbook.quantities.typed import LARGEST, NotUnderstood, parse, refuse_nonsense
from fieldbook.record.entry import Draft, Origin, Value
from fieldbook.record.ids import is_id

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from fieldbook.record.entry import Entry

_DRAFT_FIELDS = {"kind", "by", "values", "note", "strikes", "sure"}
_VALUE_FIELDS = {"value", "unit", "origin"}
_LONGEST_WORDS = 400
LONGEST_NOTE = 4000
_LONGEST_INITIALS = 24
_ANSWERS_CACHED = 16384
SURE = "sure"
CONFIRMED = {SURE: Value("yes", origin=Origin.STATED)}
"""What an entry says besides whose doubts were asked about, and confirmed."""


class Refused(ValueError):
    """An entry is not taken; the message says why, in plain words.

    Attributes:
        again: The quantities that are wrong, and are to be typed again; empty where none is alone.
    """

    def __init__(self, words: str, *, again: Collection[str] = ()) -> None:
        """Say why not, and what is to be typed again."""
        super().__init__(words)
        self.again = again


def is_sure(entry: Draft | Entry) -> bool:
    """Whether what looks wrong in an entry was asked about, and confirmed."""
    return SURE in entry.values and entry.values[SURE].text == CONFIRMED[SURE].text


def problems(draft: Draft | Entry) -> list[str]:
    """Why the entry may not be recorded, in plain words; empty when it may.

    Only nonsense is named here: what is merely implausible is for the crew to decide.
    """
    found = frame_problems(draft.kind, draft.by, draft.note, draft.values)
    if draft.kind == "strike" and draft.strikes is None:
        found.append("a strike names the entry it strikes")
    if draft.kind == "handover" and _said(draft, "witness") == draft.by.strip().casefold():
        found.append("nobody hands over to himself: the second person puts initials here")
    if draft.kind in kinds():
        said = (value_problem(draft.kind, *item) for item in draft.values.items())
        found += [problem for problem in said if problem]
    return found


def new_problems(draft: Draft) -> list[str]:
    """Why a new entry may not be recorded: `problems`, and what was taken before and is no more."""
    found = problems(draft)
    said = [("initials", draft.by)] if draft.by.strip() else []
    said += [(name, draft.values[name].text) for name in INITIALS if name in draft.values]
    for name, text in said:
        if problem := initials_problem(text):
            found.append(f"{within(definitions()[name].label)}: {problem}")
    return found


def frame_problems(kind_name: str, by: str, note: str, names: Collection[str]) -> list[str]:
    """What is wrong with an entry apart from what its values say and what it strikes.

    Args:
        kind_name: Its kind.
        by: The initials.
        note: The words.
        names: Of the quantities it speaks of.
    """
    kind = kinds().get(kind_name)
    if kind is None:
        return [f"'{kind_name[:32]}' is not a kind of entry"]
    found = []
    if not 0 < len(by.strip()) <= _LONGEST_INITIALS:
        found.append("initials are needed")
    if kind.needs_note and not note.strip():
        found.append("words are needed")
    if len(note) > LONGEST_NOTE:
        found.append(f"the note is longer than {LONGEST_NOTE} characters")
    known = definitions()
    found += [f"{within(known[n].label)} is needed" for n in kind.needs if n not in names]
    return found


def value_problem(kind_name: str, name: str, value: Value) -> str:
    """Why an entry of a kind may not say this of a quantity; empty when it may."""
    if name not in _said_by(kind_name):
        return f"'{name[:32]}' does not belong to '{kind_name}'"
    problem = _value_problem(name, value.text, value.number, value.unit)
    return f"{within(definitions()[name].label)}: {problem}" if problem else ""


def _said(draft: Draft | Entry, name: str) -> str:
    value = draft.values.get(name)
    return value.text.strip().casefold() if value is not None else ""


@cache
def _said_by(kind: str) -> frozenset[str]:
    """Every quantity that entries of a kind may speak of."""
    known = kinds()[kind]
    return frozenset((*known.needs, *known.may))


@lru_cache(maxsize=_ANSWERS_CACHED)
def _value_problem(name: str, text: str, number: float | None, unit: str) -> str:
    """Why this is no value of a quantity; a shelf says the same few thousand again and again."""
    definition = definitions()[name]
    if len(text) > _LONGEST_WORDS:
        return f"longer than {_LONGEST_WORDS} characters"
    if not definition.is_words:
        return _number_problem(definition, number, unit)
    if number is not None:
        return "a number where words belong"
    try:
        parse(text, definition)
    except NotUnderstood as problem:
        return str(problem)
    return ""


def _number_problem(definition: Definition, number: float | None, unit: str) -> str:
    if number is None:
        return "words where a number belongs"
    if definition.dimension in PLAIN:
        foreign = unit != ""
    else:
        foreign = unit not in units_of(definition.dimension)
    if foreign:
        return f"unknown unit '{unit[:12]}'"
    try:
        refuse_nonsense(number, unit, definition)
    except NotUnderstood as problem:
        return str(problem)
    return ""


def draft_from(document: object) -> Draft:
    """The entry that a JSON document from outside asks for.

    The document is `{"kind", "by", "values": {name: value}, "note", "strikes", "sure"}`, where a
    value is text as a crew would type it, a number in the quantity's own unit, or
    `{"value": number or text, "unit": text, "origin": text}`. `"sure": true` says that what looks
    wrong in it was looked at and is right; the entry keeps it as the value of `sure`.

    Raises:
        Refused: It is not such a document, or `problems` finds something in it.
    """
    if not isinstance(document, dict):
        raise Refused("an entry is a JSON object on one line")
    if unknown := sorted(map(str, set(document) - _DRAFT_FIELDS)):
        raise Refused(f"unknown field {unknown[0][:32]!r}")
    texts = {name: document.get(name, "") for name in ("kind", "by", "note")}
    for name, text in texts.items():
        if not isinstance(text, str):
            raise Refused(f"{name} is text")
    strikes = document.get("strikes")
    if strikes is not None and not (isinstance(strikes, str) and is_id(strikes)):
        raise Refused("strikes is the id of an entry")
    values = document.get("values", {})
    if not isinstance(values, dict):
        raise Refused("values is a JSON object of quantity and value")
    sure = document.get("sure", False)
    if not isinstance(sure, bool):
        raise Refused("sure is true or false")
    draft = Draft(
        kind=texts["kind"],
        by=texts["by"].strip(),
        values=_values(values) | (CONFIRMED if sure else {}),
        note=texts["note"],
        strikes=strikes,
    )
    if found := new_problems(draft):
        raise Refused("; ".join(found))
    return draft


def _values(document: Mapping[str, Any]) -> dict[str, Value]:
    known = definitions()
    values = {}
    for name, given in document.items():
        if name not in known:
            raise Refused(f"'{name[:32]}' is not a quantity")
        try:
            values[name] = _value(known[name], given)
        except NotUnderstood as problem:
            raise Refused(f"{within(known[name].label)}: {problem}") from problem
    return values


def _value(definition: Definition, given: object) -> Value:
    unit = ""
    origin = Origin.MEASURED
    if isinstance(given, dict):
        if "value" not in given or set(given) - _VALUE_FIELDS:
            raise NotUnderstood("a value is text, a number, or an object of value, unit, origin")
        unit = given.get("unit", "")
        if not isinstance(unit, str):
            raise NotUnderstood("the unit is text")
        try:
            origin = Origin(given.get("origin", Origin.MEASURED))
        except ValueError as error:
            known = ", ".join(Origin)
            raise NotUnderstood(f"the origin is one of: {known}") from error
        given = given["value"]
    if isinstance(given, bool) or not isinstance(given, str | int | float):
        raise NotUnderstood("a value is text or a number")
    if isinstance(given, str):
        text = given
    elif abs(given) <= LARGEST:  # false for NaN too
        text = f"{given:.12f}".rstrip("0").rstrip(".") if isinstance(given, float) else str(given)
    else:
        raise NotUnderstood("far larger than anything on a well, or not a number")
    return parse(f"{text} {unit}".strip(), definition, origin=origin)
