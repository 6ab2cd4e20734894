"""An entry in a line of plain words."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from fieldbook.quantities.definition import definitions
from fieldbook.quantities.figures import figure
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.labels import within
from fieldbook.quantities.plain import plain
from fieldbook.walk.entry.from_paper import NOT_WITNESSED, is_afterwards

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry
    from fieldbook.walk.walk import Walk

_UNSAID = frozenset(
    {"step", "direction", "joint_number", "place", "recorded", "written_by", "written_on"}
    | {"written_at", "entered_by", "file_hash", "file_size"}
)
_HASH_SHOWN = 8
_HASH = re.compile(r"\b[0-9a-f]{64}\b")
"""A SHA-256 in words; in full it is in the log and on the sheet."""
_SEALED_LOG = re.compile(r"\S+=[0-9a-f]{64}")
"""What a seal says of one log: its file, and the hash of its last line."""
_LISTED_BEFORE = "more-logs="
"""What a seal says of the entry before it that names more logs."""
_NAMES_LOGS = frozenset({"seal", "sealed_logs"})
_NAMED_BY_STEP = frozenset({"done", "hold", "passed_over", "check_passed"})


def title_of(entry: Entry, walk: Walk) -> str:
    """What the entry is: "Joint 13 out", "Finding, joint 9", "Hold released, First lift"."""
    kind = kinds().get(entry.kind)
    words = [kind.label if kind is not None else entry.kind]
    if number := entry.text("joint_number"):
        # Behind another word it would read as a running number.
        words[-1] += f" {number}" if words[-1].startswith("Joint") else f", joint {number}"
    elif number := entry.text("place"):
        words.append(number)
    if direction := entry.text("direction"):
        words.append(direction)
    title = " ".join(words)
    if entry.kind in _NAMED_BY_STEP and entry.text("step"):
        title += f", {_step_title(entry.text('step'), walk)}"
    return plain(title)


def _step_title(name: str, walk: Walk) -> str:
    try:
        return walk.step(name).title
    except KeyError:
        return name


def words_of(entry: Entry) -> str:
    """What the entry says, figure by figure."""
    return ", ".join(parts_of(entry))


def parts_of(entry: Entry) -> list[str]:
    """What the entry says, each figure by itself."""
    known = definitions()
    said = [
        f"{within(known[name].label)} {figure(value, name)}" if name in known else figure(value)
        for name, value in entry.values.items()
        if name not in _UNSAID
    ]
    if hashed := entry.text("file_hash"):
        said.append(f"{entry.text('file_size') or '?'} bytes, hash {hashed[:_HASH_SHOWN]}")
    if is_afterwards(entry):
        said.append(afterwards_words(entry))
    said += _note_of(entry)
    return [plain(words) for words in said]


def _note_of(entry: Entry) -> list[str]:
    """The note as written; of a seal how many logs it names, and not which line of each."""
    lines = entry.note.splitlines()
    seals = entry.kind in _NAMES_LOGS
    named = [line for line in lines if _SEALED_LOG.fullmatch(line)] if seals else []
    note = "\n".join(line for line in lines if line not in named)
    said = [_HASH.sub(lambda found: found[0][:_HASH_SHOWN], note)] if note else []
    logs = [line for line in named if not line.startswith(_LISTED_BEFORE)]
    if logs:
        more = "" if logs == named else ", and of those listed before it"
        said.append(f"names the last line of {len(logs)} log{'s' if len(logs) > 1 else ''}{more}")
    return said


def afterwards_words(entry: Entry) -> str:
    """That the entry was made afterwards, and what the paper says of itself."""
    hold = ", hold not witnessed" if entry.text("recorded") == NOT_WITNESSED else ""
    words = [f"recorded from paper{hold}"]
    if by := entry.text("written_by"):
        when = " ".join(filter(None, (entry.text("written_on"), entry.text("written_at"))))
        words.append(f"on paper by {by} {when}".rstrip())
    if entered := entry.text("entered_by"):
        words.append(f"entered by {entered}")
    return ", ".join(words)
