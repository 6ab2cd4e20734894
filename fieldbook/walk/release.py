"""Whether what a person wrote releases a hold point, or passes it by name."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fieldbook.record.entry import Draft, Entry
    from fieldbook.walk.definition.steps import Step


def refusals(step: Step, said: Draft | Entry, *, holder: str = "") -> dict[str, str]:
    """Why `said` is no yes to the hold of `step`, by the line that is wrong; empty when it is.

    What the checks say at that moment is for `withheld`.

    Args:
        step: The hold point.
        said: An entry of kind `hold`, made or about to be.
        holder: Initials on the hold that `same_person` names; empty when it has none.
    """
    found = {}
    if (role := text_of(said, "role")) not in step.release:
        other = f"not by {role}" if role else "and no role is named"
        found["role"] = f"this hold is signed by {' or '.join(step.release)}, {other}"
    second = text_of(said, "witness")
    if step.witness and (not second.strip() or same(second, said.by)):
        found["witness"] = "a second person puts initials beside the first"
    if step.same_person and holder and not same(holder, said.by):
        found["initials"] = f"only {holder}, who put it on, takes it off"
    return found


def relied(said: Draft | Entry) -> bool:
    """Whether it gives a reason and what the person relies on."""
    return bool(text_of(said, "reason").strip() and text_of(said, "relies_on").strip())


def same(initials: str, others: str) -> bool:
    """Whether two sets of initials are of one person."""
    return initials.strip().casefold() == others.strip().casefold()


def text_of(said: Draft | Entry, name: str) -> str:
    """The value of `name` as typed, or an empty text."""
    value = said.values.get(name)
    return value.text if value is not None else ""
