"""How far work is that is long only where there is much of it; nothing is shown of little."""

from __future__ import annotations

from contextlib import ExitStack, contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator


@contextmanager
def progress_of_many(words: str, many: int) -> Iterator[Callable[[int, int], None]]:
    """A call that takes how much of how much is done, and shows it from `many` on."""
    with ExitStack() as stack:
        tell: Callable[[int, int], None] | None = None

        def on_progress(done: int, of: int) -> None:
            nonlocal tell
            if of < many:
                return
            if tell is None:
                from fieldbook.cli.progress import progress  # noqa: PLC0415 - seldom needed

                tell = stack.enter_context(progress(words))
            tell(done, of)

        yield on_progress
