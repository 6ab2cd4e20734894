"""The seal: an entry that names the last line of every log, so that paper can tell."""

from __future__ import annotations

import hashlib
import json
import re
from typing import TYPE_CHECKING

from fieldbook.record.codec import to_document
from fieldbook.store.folder import read_folder
from fieldbook.store.problem import Problem

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from fieldbook.record.entry import Entry
    from fieldbook.store.folder import JobFolder

_HEAD = re.compile(r"([a-z0-9~.-]{1,80})=([0-9a-f]{64})")


def seal_note(words: str, heads: Mapping[str, str]) -> str:
    """The note of a seal: what a person wrote, then a line for each log and its last hash."""
    lines = [f"{name}={head}" for name, head in sorted(heads.items())]
    return "\n".join([words.strip(), *lines] if words.strip() else lines)


def sealed_heads(seal: Entry) -> dict[str, str]:
    """File name -> hash of its last line when the seal was set."""
    found = (_HEAD.fullmatch(line) for line in seal.note.splitlines())
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
    return [name for name, head in sealed_heads(seal).items() if not _is_sealed(logs, name, head)]


def seals_of(logs: JobFolder) -> list[Entry]:
    """The seals among `logs`, each once, in the order of the log; struck ones too."""
    seals = {entry.id: entry for entry in logs.entries() if entry.kind == "seal"}
    return sorted(seals.values(), key=lambda entry: entry.order)


def seal_problems(logs: JobFolder) -> list[Problem]:
    """Every file that is no longer what a seal among `logs` names."""
    found = []
    for seal in seals_of(logs):
        whose = f"the seal of {seal.time:%Y-%m-%d %H:%M} by {seal.by}"
        for name, head in sealed_heads(seal).items():
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
    heads = sealed_heads(seal)
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
