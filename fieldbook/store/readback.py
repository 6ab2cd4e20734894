"""What cannot be read back is never written."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from fieldbook.quantities.admit import Refused, problems
from fieldbook.record.codec import BadEntry, from_document, to_document
from fieldbook.record.entry import Draft
from fieldbook.store.strict_json import BadJson, read_json, write_json

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry


def as_read_back(entry: Entry) -> dict[str, Any]:
    """The document of an entry, which is sure to give the entry again when it is read.

    Raises:
        Refused: It would not.
    """
    document = to_document(entry)
    try:
        same = from_document(read_json(write_json(document).encode("utf-8"))) == entry
    except (BadEntry, BadJson, ValueError) as error:
        raise Refused(f"it could not be read back: {error}"[:200]) from error
    if found := problems(Draft(entry.kind, entry.by, entry.values, entry.note, entry.strikes)):
        raise Refused("; ".join(found))
    if not same:
        raise Refused("it could not be read back as it was written")
    return document
