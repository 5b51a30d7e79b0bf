"""A bar on stderr that counts, for work of many equal parts.

    >>> with counting("composing", 180) as tick:
    ...     box_card(stock, wish, tick)

Only on a terminal and only for many parts; stdout is not touched.
"""

from __future__ import annotations

import sys
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

FEW = 20
"""Fewer parts than this are done before a bar could be read."""


@contextmanager
def counting(doing: str, total: int) -> Iterator[Callable[[], None] | None]:
    """Show how many of `total` parts are done; yields what to call after each, if anything is shown."""
    if total < FEW or not sys.stderr.isatty():
        yield None
        return
    from rich.console import Console  # noqa: PLC0415  (only what takes long pays for it)
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn  # noqa: PLC0415

    columns = (TextColumn("{task.description}", markup=False), BarColumn(), MofNCompleteColumn())
    with Progress(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(doing, total=total)
        yield lambda: bar.advance(task)
