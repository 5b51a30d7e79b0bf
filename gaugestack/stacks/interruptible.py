"""Long work outside Python that Ctrl-C can still end.

    >>> status = interruptible(lambda: solver.solve(model), solver.stop_search)

Python hears of an interrupt only between its own steps, so a search of many
seconds would not notice it, and a search that listens by itself ends as if its
limit were reached.  Here the work runs beside, and this thread waits for it.
Knows no solver, and sets no signal handler.
"""

from __future__ import annotations

import threading
from contextlib import suppress
from typing import TYPE_CHECKING, Generic, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable

Result = TypeVar("Result")
_AGAIN = 0.05
"""Seconds after which the work is asked again to stop: it may not have begun to listen."""


def interruptible(work: Callable[[], Result], stop: Callable[[], object]) -> Result:
    """Return what `work` returns; raise what it raises.

    On Ctrl-C `stop` is called until the work has ended; then the interrupt goes on.
    """
    beside = _Beside(work)
    try:
        threading.Thread(target=beside.run, daemon=True).start()
        beside.ended.wait()
    except KeyboardInterrupt:
        while beside.called_off():
            with suppress(KeyboardInterrupt):
                stop()
                beside.ended.wait(_AGAIN)
        raise
    if beside.error is not None:
        raise beside.error
    return beside.results[0]


class _Beside(Generic[Result]):
    """Work for a thread of its own, and what it returned or raised.

    Tells itself when it has ended: a join that was interrupted takes a running
    thread for one that has stopped.
    """

    __slots__ = ("_begun", "_off", "_work", "ended", "error", "results")

    def __init__(self, work: Callable[[], Result]) -> None:
        """Remember the work."""
        self._work = work
        self._begun = self._off = False
        self.ended = threading.Event()
        self.results: list[Result] = []
        self.error: BaseException | None = None

    def run(self) -> None:
        """Do the work, unless it was called off before it began."""
        self._begun = True
        try:
            if not self._off:
                self.results.append(self._work())
        except BaseException as error:  # noqa: BLE001  (handed to the thread that waits)
            self.error = error
        finally:
            self.ended.set()

    def called_off(self) -> bool:
        """Let the work not begin any more; return whether it has, and goes on."""
        self._off = True
        return self._begun and not self.ended.is_set()
