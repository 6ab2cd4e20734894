"""The seal: an entry that names the last line of every log, so that paper can tell.

Where its note does not hold them all, entries before it list the rest, each naming the one before
by its hash; the seal names the last of them. So its own hash is over every log all the same.
"""

from __future__ import annotations

import hashlib
import json
import re
from typing import TYPE_CHECKING

from fieldbook.quantities.admit import LONGEST_NOTE
from fieldbook.record.codec import to_document
from fieldbook.store.job.folder import read_folder
from fieldbook.store.log.line import NO_LINE
from fieldbook.store.log.problem import Problem

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from pathlib import Path

    from fieldbook.record.entry import Entry
    from fieldbook.store.job.folder import JobFolder

_HEAD = re.compile(r"([a-z0-9~.-]{1,80})=([0-9a-f]{64})")


LIST = "sealed_logs"
"""Kind of the entries before a seal that list what its note does not hold."""
_MORE = "more-logs"
"""In the place of a file's name, which ends otherwise: the hash is that of a list."""


def seal_note(words: str, heads: Mapping[str, str], more: str = "") -> str:
    """The note of a seal, or of a list: what a person wrote, then each log and its last hash.

    Args:
        words: What a person wrote.
        heads: File name -> hash of its last line.
        more: Hash of the list with more of them; empty without one.
    """
    lines = [f"{name}={head}" for name, head in sorted(heads.items())]
    lines += [f"{_MORE}={more}"] if more else []
    return "\n".join([words.strip(), *lines] if words.strip() else lines)


def listed_apart(words: str, heads: Mapping[str, str], more: str, own: str) -> dict[str, str]:
    """The heads for a list before the seal, as many as one holds; none where a seal's note does.

    Args:
        words: What a person wrote to the seal.
        heads: What is to be named yet.
        more: Hash of the last list so far.
        own: The file that lists and seal are written to: its last line is known last.
    """
    if len(seal_note(words, heads, more)) <= LONGEST_NOTE:
        return {}
    if len(seal_note(words, {own: NO_LINE}, NO_LINE)) > LONGEST_NOTE:
        return {}  # the words are too long by themselves, which is said of the seal
    found: dict[str, str] = {}
    for name, head in sorted(heads.items()):
        if name != own and len(seal_note("", found | {name: head}, more)) <= LONGEST_NOTE:
            found[name] = head
    return found


def sealed_heads(seal: Entry, entries: Iterable[Entry] = ()) -> dict[str, str]:
    """File name -> hash of its last line when the seal was set.

    Args:
        seal: The seal.
        entries: Those of its job, among which are the lists that it names.
    """
    return _named(seal, entries)[0]


def _named(seal: Entry, entries: Iterable[Entry]) -> tuple[dict[str, str], bool]:
    """The heads that a seal names, and whether every list of them is there."""
    heads = _heads(seal)
    if not (more := heads.pop(_MORE, "")):
        return heads, True
    lists = {seal_hash(entry): entry for entry in entries if entry.kind == LIST}
    while more in lists:
        listed = _heads(lists[more])
        more = listed.pop(_MORE, "")
        heads = listed | heads
    return heads, not more


def _heads(entry: Entry) -> dict[str, str]:
    found = (_HEAD.fullmatch(line) for line in entry.note.splitlines())
    return {head[1]: head[2] for head in found if head is not None}


def seal_hash(seal: Entry) -> str:
    """What is printed on the sheet: a hash over the whole seal, and so over every log it names."""
    text = json.dumps(to_document(seal), ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def broken_seals(folder: Path, seal: Entry) -> list[str]:
    """The files that are no longer what was sealed; empty when the seal holds.

    A file is what was sealed as long as its lines follow one from the other up to the line that
    the seal names. Lines after that are what arrived after the seal, and break nothing.

    Raises:
        OSError: A log cannot be read.
    """
    logs = read_folder(folder)
    heads = sealed_heads(seal, logs.entries())
    return [name for name, head in heads.items() if not _is_sealed(logs, name, head)]


def seals_of(logs: JobFolder) -> list[Entry]:
    """The seals among `logs`, each once, in the order of the log; struck ones too."""
    seals = {entry.id: entry for entry in logs.entries() if entry.kind == "seal"}
    return sorted(seals.values(), key=lambda entry: entry.order)


def seal_problems(logs: JobFolder) -> list[Problem]:
    """Every file that is no longer what a seal among `logs` names."""
    found = []
    for seal in seals_of(logs):
        whose = f"the seal of {seal.time:%Y-%m-%d %H:%M} by {seal.by}"
        heads, all_there = _named(seal, logs.entries())
        if not all_there:
            words = f"{whose} is broken: a list of logs that it names is not here"
            found.append(Problem(seal.device, 0, words))
        for name, head in heads.items():
            if name not in logs.logs:
                found.append(Problem(name, 0, f"{whose} names it, and it is not here"))
            elif not _is_sealed(logs, name, head):
                found.append(Problem(name, 0, f"{whose} is broken: it is not what was sealed"))
    return found


def after_seal(folder: Path, seal: Entry) -> list[Entry]:
    """The entries that the seal does not cover, in the order of the log.

    They were recorded after it, or came later from a device whose log it did not name so far.

    Raises:
        OSError: A log cannot be read.
    """
    logs = read_folder(folder)
    heads = sealed_heads(seal, logs.entries())
    covered = {seal.id}
    for name, log in logs.logs.items():
        last = _sealed_lines(logs, name, heads.get(name, ""))
        covered |= {entry.id for number, entry in log.entries if number <= last}
    later = {entry.id: entry for entry in logs.entries() if entry.id not in covered}
    return sorted(later.values(), key=lambda entry: entry.order)


def _is_sealed(logs: JobFolder, name: str, head: str) -> bool:
    return _sealed_lines(logs, name, head) > 0


def _sealed_lines(logs: JobFolder, name: str, head: str) -> int:
    """How many lines of a file are as they were sealed; 0 when the file is not."""
    log = logs.logs.get(name)
    if log is None or head not in log.line_of or log.line_of[head] > log.chained:
        return 0
    return log.line_of[head]
