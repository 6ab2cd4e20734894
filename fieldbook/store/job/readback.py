"""What cannot be read back is never written."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from fieldbook.quantities.admit import Refused
from fieldbook.record.codec import BadEntry, from_document, to_document

if TYPE_CHECKING:
    from fieldbook.record.entry import Draft, Entry


def as_read_back(entry: Entry) -> dict[str, Any]:
    """The document of an entry, which is sure to give the entry again when it is read.

    Of finite numbers and Unicode text, which is all that `from_document` lets through, JSON gives
    back exactly what it was given.

    Raises:
        Refused: It would not.
    """
    document = to_document(entry)
    try:
        same = from_document(document) == entry
    except BadEntry as error:
        raise Refused(f"it could not be read back: {error}"[:200]) from error
    if not same:
        raise Refused("it could not be read back as it was written")
    return document


def says_the_same(draft: Draft, entry: Entry) -> bool:
    """Whether a draft says what an entry says, which was read back already."""
    said = (draft.kind, draft.by, draft.note, draft.strikes, draft.values)
    return said == (entry.kind, entry.by, entry.note, entry.strikes, entry.values)
