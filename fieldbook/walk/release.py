"""Whether what a person wrote releases a hold point, or passes it by name."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fieldbook.record.entry import Draft, Entry
    from fieldbook.walk.steps import Step


def refusals(
    step: Step,
    said: Draft | Entry,
    *,
    holder: str = "",
    verdict: str = "within",
    over_rating: bool = False,
) -> list[str]:
    """Why `said` does not release the hold of `step`, in plain words; empty when it does.

    Args:
        step: The hold point.
        said: An entry of kind `hold`, made or about to be.
        holder: Initials on the hold that `same_person` names; empty when it has none.
        verdict: The worst verdict of the checks that the step wakes.
        over_rating: Whether a link is over its rating.
    """
    found = []
    if _text(said, "role") not in step.release:
        found.append(f"released by: {' or '.join(step.release)}")
    second = _text(said, "witness")
    if step.witness and (not second.strip() or same(second, said.by)):
        found.append("a second person puts initials beside the first")
    if step.same_person and holder and not same(holder, said.by):
        found.append(f"only {holder}, who put it on, takes it off")
    if over_rating:
        found.append("a link over its rating is never passed: change the rig")
    elif verdict in ("unknown", "stop") and not relied(said):
        found.append(f"the check says {verdict}: write the reason and what is relied on")
    return found


def relied(said: Draft | Entry) -> bool:
    """Whether it gives a reason and what the person relies on."""
    return bool(_text(said, "reason").strip() and _text(said, "relies_on").strip())


def same(initials: str, others: str) -> bool:
    """Whether two sets of initials are of one person."""
    return initials.strip().casefold() == others.strip().casefold()


def _text(said: Draft | Entry, name: str) -> str:
    value = said.values.get(name)
    return value.text if value is not None else ""
