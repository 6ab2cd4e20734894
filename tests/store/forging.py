"""Lines with a right number, chain and checksum, and whatever one likes in them.

Written from the description of the format, not with the code that is tested.
"""

from __future__ import annotations

import datetime as dt
import hashlib
import json
import random
from pathlib import Path
from typing import Any

from fieldbook.record.ids import new_id

TIME = dt.datetime(2026, 5, 14, 8, 0, tzinfo=dt.UTC)
NO_LINE = "0" * 64
JOB = new_id(TIME)
DEVICE = "d-truck"


def forged(number: object, previous: object, key: str, body: object) -> bytes:
    return forged_text(number, previous, key, json.dumps(body, separators=(",", ":")))


def forged_text(number: object, previous: object, key: str, body: str) -> bytes:
    document = {"n": number, "prev": previous}
    text = json.dumps(document, separators=(",", ":"))[:-1]
    raw = f'{text},"{key}":{body}'.encode()
    return raw + b',"sum":"' + hashlib.sha256(raw).hexdigest()[:16].encode() + b'"}'


def hash_of(raw: bytes) -> str:
    return hashlib.sha256(raw).hexdigest()


def header(**changes: Any) -> dict[str, Any]:
    usual = {"format": "fieldbook log", "version": 1, "device": DEVICE, "job": JOB, "file": 1,
             "after": None}  # fmt: skip
    return usual | changes


def entry(place: int, **changes: Any) -> dict[str, Any]:
    time = TIME + dt.timedelta(minutes=place)
    usual = {"id": new_id(time), "seq": place, "time": time.isoformat(), "by": "QA",
             "device": DEVICE, "kind": "note", "note": f"entry {place}"}  # fmt: skip
    return usual | changes


def log_of(head: dict[str, Any], *bodies: object) -> bytes:
    """A whole file, its chain in order."""
    lines = [forged(1, NO_LINE, "head", head)]
    for body in bodies:
        lines.append(forged(len(lines) + 1, hash_of(lines[-1]), "entry", body))
    return b"\n".join(lines) + b"\n"


def write_log(folder: Path, raw: bytes, *, device: str = DEVICE, number: int = 1) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{device}-{number:04d}.jsonl"
    path.write_bytes(raw)
    return path


def nested(depth: int) -> Any:
    inner: Any = 1
    for _ in range(depth):
        inner = [inner]
    return inner


ATOMS: list[Any] = [
    None, True, False, 0, -1, 2**53, 2**80, 10**400, 1e308, -1e308, float("nan"), float("inf"),
    "", "x" * 5000, "\ud800", "\x1b[2J", "[/]", "[@click=app.quit]x[/]", "../../etc/passwd", "\0",
    "=cmd|' /C calc'!A0", "\u202egnp", "9999-12-31T23:59:59-23:59", "0001-01-01T00:00:00+23:59",
    [], {}, [[]], {"text": "1"}, {"text": "1", "number": float("nan"), "unit": "ft"}, nested(50),
]  # fmt: skip


def hostile(document: Any, chance: random.Random) -> Any:
    """The document with one thing in it replaced, added or taken out."""
    if not isinstance(document, dict) or not document or chance.random() < 0.1:
        return chance.choice(ATOMS)
    changed = dict(document)
    name = chance.choice(list(changed))
    fate = chance.randrange(6)
    if fate == 0:
        del changed[name]
    elif fate == 1:
        changed[chance.choice(["x", "", "\ud800", "__class__", "a" * 3000])] = chance.choice(ATOMS)
    else:
        changed[name] = hostile(changed[name], chance)
    return changed
