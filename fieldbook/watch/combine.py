"""Several questions answered as one check: the worst rules, and all that is missing is named."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Check, Verdict, governing, worst

if TYPE_CHECKING:
    from collections.abc import Sequence


def together(name: str, parts: Sequence[Check], *, note: str = "") -> Check:
    """One check of several, which each say in `governs` what they looked at.

    Args:
        name: Of the whole.
        parts: One at least.
        note: Anything else the reader must know.
    """
    verdict = worst(parts)
    ruling = [part for part in parts if part.verdict is verdict]
    first = governing(ruling) or ruling[0]
    notes = [part.note for part in parts if part.note and part.verdict is not Verdict.WITHIN]
    return Check(
        name,
        verdict,
        demand=first.demand,
        allowable=first.allowable,
        share=first.share,
        governs=first.governs,
        missing=tuple(dict.fromkeys(lack for part in parts for lack in part.missing)),
        formula=first.formula,
        source=first.source,
        note="; ".join(dict.fromkeys([*notes, *([note] if note else [])])),
        at_least=first.at_least,
    )
