"""The screens. The only room that imports Textual; business rules live in walk, watch and store."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fieldbook.store.home import Home


def run(home: Home, *, demo: bool = False, may_choose: bool = False) -> None:
    """Open the app on `home` and return when it is closed.

    Args:
        home: The book's home.
        demo: Whether this is the demo, whose book is thrown away afterwards.
        may_choose: Whether the first start asks for another folder than `home`.
    """
    from fieldbook.app.app import FieldbookApp  # noqa: PLC0415 - Textual loads only to be shown

    FieldbookApp(home, demo=demo, may_choose=may_choose).run()
