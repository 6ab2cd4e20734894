"""What figure refutes a hold point: the rules as data, the book's own and a company's.

The book's rules are in `refuting.toml`, by the number of the hold point, so every step of that
number has them. A step's own `refuted` adds to them, and nothing takes one away.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, fields
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from fieldbook.quantities.definition import definition, definitions
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.typed import NotUnderstood, parse

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from fieldbook.quantities.definition import Definition

LONGEST_SAY = 150
_LISTS = ("words", "kinds", "at")
_FLAGS = ("never", "needed", "later")
JOINTS_OUT = "counts.joints_out"
"""A bound: the joints that are recorded out of the well, while there are any."""
_BOUNDS = ("over", "under", "unlike", "words")


@dataclass(frozen=True, slots=True)
class HoldRule:
    """One rule: which figure keeps a hold point from its yes.

    A bound is a figure as typed, the name of a quantity that the same entry says, or
    `kind.quantity`, what the job says last, or `counts.joints_out`. Without a bound the figure only
    has to be there.

    Attributes:
        figure: The quantity; empty where the rule is about the steps that are still open.
        say: What is wrong and what to do; `{figure}` is what was written.
        over: The largest figure that lets the hold go.
        under: The smallest one.
        unlike: What the figure has to be equal to.
        words: The words that keep it.
        slack: How far it may be off its bound; "2 percent" is a share of the bound.
        allowed: `kind.quantity` that takes the place of the bound once the job says it.
        kinds: Kinds of entry that say the figure; empty for the kind that the step records.
        at: Steps whose entries count, beside those that name none; empty for the step of the hold
            and those behind it.
        called: What it is passed under, where it is passed by name; the quantity's name if empty.
        never: Whether nobody passes it by name, and nobody passes the step over.
        needed: Whether there is no yes without the figure.
        later: Whether it speaks only after the yes, which it takes back.
        until: Number of the hold point after whose release the figure says nothing any more.
        source: Where the bound comes from.
    """

    figure: str
    say: str
    over: str = ""
    under: str = ""
    unlike: str = ""
    words: tuple[str, ...] = ()
    slack: str = ""
    allowed: str = ""
    kinds: tuple[str, ...] = ()
    at: tuple[str, ...] = ()
    called: str = ""
    never: bool = False
    needed: bool = False
    later: bool = False
    until: int | None = None
    source: str = ""

    @property
    def name(self) -> str:
        """What it is passed under, where it is passed by name."""
        return self.called or self.figure.replace("_", " ")


_KEYS = {field.name for field in fields(HoldRule)}


@cache
def rules() -> Mapping[int, tuple[HoldRule, ...]]:
    """The book's own rules: number of a hold point -> what refutes it.

    Raises:
        ValueError: The file is wrong; the message names hold and key.
    """
    text = (files(__package__) / "hold_rules.toml").read_text(encoding="utf-8")
    found: dict[int, list[HoldRule]] = {}
    for table in tomllib.loads(text)["rule"]:
        number = table.pop("hold")
        found.setdefault(number, []).append(read_rule(table))
        for problem in problems(found[number][-1]):
            raise ValueError(f"hold_rules.toml: hold {number}: {problem}")
    return {number: tuple(many) for number, many in found.items()}


def read_rule(table: Mapping[str, Any]) -> HoldRule:
    """The rule that a table describes.

    Raises:
        ValueError: A key is missing, unknown or of the wrong type.
    """
    for key in ("figure", "say"):
        if key not in table:
            raise ValueError(f"a rule lacks '{key}'")
    for key, value in table.items():
        if key not in _KEYS:
            raise ValueError(f"'{key}' is not a key of a rule")
        if not _fits(key, value):
            raise ValueError(f"'{key}' of a rule is of the wrong type")
    given: dict[str, Any] = {k: tuple(v) if isinstance(v, list) else v for k, v in table.items()}
    return HoldRule(**given)


def _fits(key: str, value: object) -> bool:
    if key in _LISTS:
        return isinstance(value, list) and all(isinstance(word, str) for word in value)
    if key in _FLAGS:
        return isinstance(value, bool)
    if key == "until":
        return isinstance(value, int) and not isinstance(value, bool)
    return isinstance(value, str)


def problems(rule: HoldRule) -> Iterator[str]:
    """What is wrong with a rule, in words."""
    if not rule.say.strip() or len(rule.say) > LONGEST_SAY or not rule.say.isprintable():
        yield f"'say' is empty, cannot be shown or is longer than {LONGEST_SAY} characters"
    if not rule.figure:
        return
    if rule.figure not in definitions():
        yield f"'{rule.figure}' is no quantity"
        return
    for kind in rule.kinds:
        if kind not in kinds() or rule.figure not in {*kinds()[kind].needs, *kinds()[kind].may}:
            yield f"'{rule.figure}' does not belong to '{kind}'"
    if len([key for key in _BOUNDS if getattr(rule, key)]) > 1:
        yield f"has more than one of {', '.join(_BOUNDS)}"
    quantity = definition(rule.figure)
    for text in (rule.over, rule.under, rule.unlike, *rule.words):
        yield from _bound(text, quantity)
    for text in (rule.slack.removesuffix(" percent"), rule.allowed):
        if text and not text.replace(".", "").isdigit():
            yield from _bound(text, quantity)


def _bound(text: str, quantity: Definition) -> Iterator[str]:
    kind, _, name = text.rpartition(".")
    if not text or text == JOINTS_OUT or (name in definitions() and (not kind or kind in kinds())):
        return
    try:
        parse(text, quantity)
    except NotUnderstood as problem:
        yield f"'{text}' is no bound of '{quantity.name}': {problem}"
