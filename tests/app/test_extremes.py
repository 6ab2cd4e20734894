"""Every screen stands whatever the crew wrote: all figures at zero, at their least, their most."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from fieldbook.quantities.admit import Refused, draft_from
from fieldbook.quantities.definition import definition
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.typed import LARGEST
from fieldbook.store.shelf.home import Home
from tests.app.crew import LARGE, at_the_keys
from tests.app.scenes import put_job
from tests.watch.attempt_jobs import BASES

WALKED = (
    (("enter",), ""),
    (("escape", "l"), "Gauge should read:"),
    (("j",), "Gauge should read:"),
    (("escape", "t"), "Gauge over what is"),
    (("escape", "c"), "Job card"),
    (("escape", "w"), ""),
)
_TOLD = ("load", "meter", "duty", "setting", "depth", "chlorine", "tank", "drain", "arrival")


def end_of(name: str, which: str) -> Any:
    """A word, or a number of a quantity at one of its ends."""
    known = definition(name)
    if known.is_words:
        words = {"date": "2026-05-14", "time of day": "09:00", "yes or no": "yes"}
        return known.choices[0] if known.choices else words.get(known.dimension, "words")
    step = 1.0 if known.dimension == "count" else 1e-6
    least = known.at_least if known.at_least is not None else (known.above or 0.0) + step
    most = known.at_most if known.at_most is not None else LARGEST
    return {"zero": 0, "least": least, "most": most}[which]


def documents(line: str, which: str) -> Iterator[dict[str, Any]]:
    """A job whose every figure, but what numbers it, stands at an end that the gate takes."""
    for document in BASES[line]:
        values = dict(document["values"])
        for name in set(values) - {"place"}:
            if definition(name).is_words:
                continue
            said = {**values, name: end_of(name, which)}
            if taken(document | {"values": said}):
                values = said
        yield document | {"values": values}
    for kind in _TOLD:
        known = kinds()[kind]
        values = {name: end_of(name, which) for name in (*known.needs, *known.may[:12])}
        said = {"kind": kind, "by": "QA", "values": values}
        if taken(said):
            yield said


def taken(document: dict[str, Any]) -> bool:
    try:
        draft_from(document)
    except Refused:
        return False
    return True


@pytest.mark.parametrize("line", BASES)
@pytest.mark.parametrize("which", ["zero", "least", "most"])
async def test_every_screen_stands_at_the_ends_of_every_figure(
    home: Home, line: str, which: str
) -> None:
    put_job(home, documents(line, which))
    async with at_the_keys(home, LARGE) as crew:
        for keys, word in WALKED:
            await crew.press(*keys)
            crew.sees(word)
        await crew.press("escape", "o")
        await crew.planned()
        crew.sees(" sch ")
