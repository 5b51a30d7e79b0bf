"""A moving bar on stderr while an answer takes longer than a second.

    >>> with patience("trying every choice"):
    ...     answer = buy(stock, count=3)

Only on a terminal, and gone when the answer is there; stdout is not touched.
"""

from __future__ import annotations

import sys
import threading
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from rich.progress import Progress

AFTER = 1.0
"""Seconds before anything is shown."""


@contextmanager
def patience(doing: str) -> Iterator[None]:
    """Show that work goes on, and for how long already, where it takes more than a second."""
    if not sys.stderr.isatty():
        yield
        return
    late = _Late(doing)
    timer = threading.Timer(AFTER, late.start)
    timer.daemon = True
    timer.start()
    try:
        yield
    finally:
        timer.cancel()
        late.stop()


class _Late:
    """A bar that starts at most once, and never after it was stopped."""

    __slots__ = ("_bar", "_doing", "_done", "_lock")

    def __init__(self, doing: str) -> None:
        """Remember what is being done."""
        self._doing = doing
        self._lock = threading.Lock()
        self._bar: Progress | None = None
        self._done = False

    def start(self) -> None:
        """Show the bar."""
        from rich.console import Console  # noqa: PLC0415  (only what takes long pays for it)
        from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn  # noqa: PLC0415

        columns = (TextColumn("{task.description}", markup=False), BarColumn(), TimeElapsedColumn())
        bar = Progress(*columns, console=Console(stderr=True), transient=True)
        with self._lock:
            if not self._done:
                bar.add_task(self._doing, total=None)
                bar.start()
                self._bar = bar

    def stop(self) -> None:
        """Take the bar away."""
        with self._lock:
            self._done = True
            if self._bar:
                self._bar.stop()
