"""Which entries speak of the thing that is in use, and not of the one it took the place of.

What a job says of a rig, a gauge, a pump, a cable or a hose's sheet is spread over several entries,
the newest figure counting. Once another thing is named, nothing of the first holds for it: a mast
of the second rig that nobody wrote is not known, and is never the mast of the first.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from fieldbook.record.entry import Entry, Value

_NAMES = {
    "rig": ("rig_name",),
    "gauge": ("gauge_name",),
    "pump": ("pump_model", "motor_model"),
    "cable": ("cable_size",),
    "hose_sheet": (),
}
"""Kinds whose entries add up to one thing, with what else than its library item names it."""

_WHOLE_RIG = frozenset({"rig_name", "hoist", "mast_rating", "drum_pull", "reel_pull"})
"""An item that says none of these is a rope or a hook of the rig, and not another rig."""

_OUTLIVES = frozenset({"allowed_drop"})
"""What the crew chose for the job, whatever thing is in use."""


def in_use(kind: str, entries: Sequence[Entry], name: str = "") -> Sequence[Entry]:
    """The entries that speak of the thing in use.

    Args:
        kind: Of the entries.
        entries: Live entries of that kind, in the order of the log.
        name: The figure that is asked for; a few are the crew's choice and outlive the thing.
    """
    if kind not in _NAMES or name in _OUTLIVES:
        return entries
    at = _begins_at(kind, entries)
    return entries[at:] if at else entries


def came_into_use(kind: str, entries: Sequence[Entry]) -> Entry | None:
    """The entry by which the thing in use took the place of another; None where none was before."""
    at = _begins_at(kind, entries) if kind in _NAMES else 0
    return entries[at] if at else None


def takes_the_place(kind: str, entries: Sequence[Entry], said: Mapping[str, Value]) -> bool:
    """Whether an entry that says this would speak of another thing than the one in use."""
    if kind not in _NAMES or not entries:
        return False
    following = entries[-1]._replace(values=said)
    return _begins_at(kind, [*entries, following]) == len(entries)


def _begins_at(kind: str, entries: Sequence[Entry]) -> int:
    begins = 0
    named: dict[str, set[str]] = {}
    for at, entry in enumerate(entries):
        said = _names(kind, entry)
        if _is_another(kind, entry, said, named, begins < at):
            begins, named = at, {}
        for key, words in said.items():
            named.setdefault(key, set()).update(words)
    return begins


def _is_another(
    kind: str,
    entry: Entry,
    said: dict[str, set[str]],
    named: dict[str, set[str]],
    has_figures: bool,
) -> bool:
    if any(key in named and words.isdisjoint(named[key]) for key, words in said.items()):
        return True
    # A rig or a pump out of the library is a thing by itself; what was written before without a
    # name was of another. A gauge's zero is read on the job, often before its item is taken.
    from_library = "library_item" in entry.values and kind != "gauge"
    return from_library and bool(said) and has_figures and not named


def _names(kind: str, entry: Entry) -> dict[str, set[str]]:
    """What the entry calls the thing; an item's title and a name typed by hand count as one."""
    item = entry.text("library_item")
    if kind == "rig" and not _WHOLE_RIG.intersection(entry.values):
        item = ""
    first, *more = _NAMES[kind] or ("",)
    words = {_plain(text) for text in (item, entry.text(first) if first else "")} - {""}
    found = {"thing": words} if words else {}
    for key in more:
        if text := _plain(entry.text(key)):
            found[key] = {text}
    return found


def _plain(text: str) -> str:
    """A name without what two people write differently: "12 awg", "12"."""
    return text.casefold().removesuffix("awg").strip()
