"""The screens. The only room that imports Textual; business rules live in walk, watch and store."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fieldbook.store.shelf.home import Home

_TURN_SECONDS = 0.0005
"""How long work behind may hold the interpreter before a key has its turn; Python's own 5 ms are
waited for several times on the way of a key to its echo."""


def run(home: Home, *, demo: bool = False, may_choose: bool = False, play: bool = False) -> None:
    """Open the app on `home` and return when it is closed.

    Args:
        home: The book's home.
        demo: Whether this is the demo, whose book is thrown away afterwards.
        play: Whether a pull is played by itself, until a stop.
        may_choose: Whether the first start asks for another folder than `home`.
    """
    from fieldbook.app.app import FieldbookApp  # noqa: PLC0415 - Textual loads only to be shown
    from fieldbook.app.theme.few_colours import dress, without_any  # noqa: PLC0415 - as above

    sys.setswitchinterval(_TURN_SECONDS)
    if without_any():
        os.environ["NO_COLOR"] = "1"  # as a person would say who sees none
    app = FieldbookApp(home, demo=demo, may_choose=may_choose)
    dress(app)
    if play:
        from fieldbook.app.play import play_a_pull  # noqa: PLC0415 - for the demo that asks for it

        app.run(auto_pilot=play_a_pull)
    else:
        app.run()
