"""A card: the figures of a lift or a plan on one page, answered without a job.

A card is a TOML file whose sections are kinds of entry and whose keys are quantities, written as a
crew would type them. It becomes a job that is on no disk, so its answer is the same as a job's.
"""

from __future__ import annotations

import datetime as dt
from typing import Any

from fieldbook.quantities.admit import Refused, draft_from
from fieldbook.quantities.definition import definition
from fieldbook.quantities.kinds import kinds
from fieldbook.record.entry import Entry
from fieldbook.record.ids import new_id
from fieldbook.record.job import Job
from fieldbook.small_file import BadToml, read_toml

LIFT = (
    "job", "well", "level", "rig", "redirect", "gauge", "limit", "piece", "cable", "pump", "drain",
)  # fmt: skip
"""Sections that a lift check asks for."""
PLAN = (
    "job", "well", "level", "duty", "setting", "rig", "redirect", "cable", "pump", "curve_point",
    "line_choice", "piece",
)  # fmt: skip
"""Sections that a plan asks for."""
LIFT_READS = {
    "job": ("line",),
    "well": ("datum", "stick_up", "deepest_level", "water_temperature"),
    "level": ("water_level", "level_state"),
    "rig": (
        "hoist", "parts_of_line", "sheave_factor", "block_weight", "drum_pull", "drum_layer",
        "layer_in_use", "drum_diameter", "rope_diameter", "sheave_diameter",
        "rope_breaking", "rope_design_factor", "mast_rating", "dead_end", "hook_rating",
        "holding_rating", "lifting_sub_rating", "reel_pull", "dry_friction",
    ),
    "redirect": ("part", "turn_angle", "sheave_factor", "pulley_rating", "anchor_rating"),
    "gauge": (
        "gauge_place", "turn_angle", "gauge_zero", "gauge_capacity", "gauge_error", "calibrated",
    ),
    "limit": ("stop_load",),
    "piece": (
        "piece", "line", "nps", "schedule", "steel_grade", "joint_count", "joint_length",
        "piece_length", "piece_weight", "coupling_weight", "line_weight", "least_wall",
        "thread_design_factor", "tension_rating", "fitting_rating", "hose_bore", "hose_swell",
        "hose_density",
    ),
    "cable": ("cable_weight",),
    "pump": ("pump_weight", "pump_length"),
    "drain": ("drained_by", "load_before", "load_after", "air_drawn"),
}  # fmt: skip
"""What the lift check reads, in the order a blank card asks for it; a card may say more."""
_SECTIONS = tuple(dict.fromkeys((*LIFT, *PLAN, "hose_sheet")))
_LISTS = ("redirect", "piece", "curve_point", "line_choice")
_PLACED = ("redirect", "piece")
_BY = "card"


class BadCard(ValueError):
    """The card cannot be used; the message names section and key."""


def job_from_card(text: str) -> Job:
    """The job that a card describes.

    Raises:
        BadCard: Not TOML, an unknown section or key, or a value that is nonsense.
    """
    try:
        card = read_toml(text.encode("utf-8", "replace"))
    except BadToml as error:
        raise BadCard(f"the card is {error}") from error
    if unknown := [name for name in card if name not in _SECTIONS]:
        raise BadCard(f"[{unknown[0][:32]}] is not a section of a card")
    entries: list[Entry] = []
    for section in _SECTIONS:
        for number, table in enumerate(_tables(card, section), 1):
            entries.append(_entry(section, number, table, seq=len(entries) + 1))
    return Job(entries)


def _tables(card: dict[str, Any], section: str) -> list[dict[str, Any]]:
    found = card.get(section, [])
    tables = found if isinstance(found, list) else [found]
    if not all(isinstance(table, dict) for table in tables):
        raise BadCard(f"[{section}] is a section with one key a line")
    return tables


def _entry(section: str, number: int, table: dict[str, Any], *, seq: int) -> Entry:
    filled = {name: value for name, value in table.items() if value != ""}
    if section in _PLACED:
        filled.setdefault("place", number)
    if section == "job":
        filled.setdefault("job_number", "card")
        filled.setdefault("work", "pull")
    try:
        draft = draft_from({"kind": section, "by": _BY, "values": filled})
    except Refused as problem:
        raise BadCard(f"[{section}] {problem}") from problem
    now = dt.datetime.now(dt.UTC)
    return Entry(
        id=new_id(now), seq=seq, time=now, by=_BY, device=_BY, kind=section, values=draft.values
    )


_HEADS = {
    LIFT: (
        "# A lift card.",
        "# Repeat [[redirect]] for each pulley, [[piece]] for each run of joints, length of hose,",
        "# valve and fitting, from the top down.",
    ),
    PLAN: (
        "# A plan card.",
        "# Repeat [[redirect]] for each pulley, [[curve_point]] for each point of the pump,",
        "# [[line_choice]] for what each sheet says (without a size for every size of its",
        "# line), [[piece]] for each valve and fitting. Take out a section that does not apply.",
    ),
}


def blank_card(sections: tuple[str, ...] = LIFT) -> str:
    """An empty card with the sections of `LIFT` or `PLAN`, every key with its unit and meaning."""
    title, *repeats = _HEADS[sections]
    lines = [
        f'{title} Write values as you would say them: "20.98 ft", "742 lb", 2, "steel".',
        "# Leave a line empty when you do not know: the answer then names it as missing.",
        *repeats,
    ]
    for section in sections:
        kind = kinds()[section]
        head = f"[[{section}]]" if section in _LISTS else f"[{section}]"
        lines += ["", head]
        asked = LIFT_READS.get(section) if sections == LIFT else None
        for name in asked or (*kind.needs, *kind.may):
            if asked is None and name in _not_on_a_card():
                continue
            known = definition(name)
            unit = f", {known.unit}" if known.unit else ""
            hint = f" ({' | '.join(known.choices)})" if known.choices else ""
            lines.append(f'{name} = ""  # {known.label}{unit}: {known.meaning}{hint}')
    return "\n".join(lines) + "\n"


def _not_on_a_card() -> set[str]:
    unneeded = {"place", "job_number", "work", "owner", "site", "complaint", "emergency"}
    anywhere = set(kinds()["seal"].may)
    of_gear = {"library_item", "wind_limit", "inspected", "inspection_due", "calibration_due"}
    of_gear |= {"rig_inspection_due", "rope_inspection_due"}
    return (unneeded | anywhere | of_gear) - {"part"}
