"""A long list worked off by every core of the machine, its results in the order of the list.

    >>> rows = worked_off(task, items, tick)

`task.begin()` returns what does one item; the task travels to the other
processes, and so do items and results.  Another process has to start and to
load the solver before it helps, so that short lists are done here alone.  What
a helper cannot finish, for whatever reason, is done here again: a mistake is
then raised where it can be told.

Helpers are started afresh, never forked, because the solver has threads.  They
do not hear Ctrl-C, which this process answers for all; they end when it ends
them, or is gone.
"""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
from collections import deque
from contextlib import contextmanager, suppress
from multiprocessing.connection import wait
from typing import TYPE_CHECKING, Any, Generic, Protocol, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from multiprocessing.connection import Connection

Item = TypeVar("Item")
Result = TypeVar("Result")
In_contra = TypeVar("In_contra", contravariant=True)
Out_co = TypeVar("Out_co", covariant=True)

FEW = 400
"""Items that are done before a helper could have begun to help, for each helper."""
MOST_HELPERS = 15
CHUNK = 8
"""Items handed over at a time: few, so that all end together."""
AHEAD = 2
"""Chunks a helper holds, so that it need not wait for the next."""


class Task(Protocol[In_contra, Out_co]):
    """What is to be done with every item; a value that can be sent to another process."""

    def begin(self) -> Callable[[In_contra], Out_co]:
        """Return what does one item."""


def worked_off(
    task: Task[Item, Result], items: Sequence[Item], tick: Callable[[], None] | None = None
) -> list[Result]:
    """Return the result of each item; `tick` is called after each.  Raises what an item raises."""
    tick = tick or _nothing
    do, helpers = task.begin(), min(cores() - 1, len(items) // FEW, MOST_HELPERS)
    with _collected(long=len(items) >= FEW):
        if helpers < 1:
            return [_ticked(do(item), tick) for item in items]
        with _hired(task, helpers) as crew:
            return _Shared(items, crew, do, tick).results()


def cores() -> int:
    """Return how many cores this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


class _Shared(Generic[Item, Result]):
    """A list shared with helpers, chunk by chunk, until every item has its result."""

    def __init__(
        self,
        items: Sequence[Item],
        crew: Sequence[Connection],
        do: Callable[[Item], Result],
        tick: Callable[[], None],
    ) -> None:
        """Part the list; nothing is done yet."""
        self._items, self._do, self._tick = items, do, tick
        self._found: dict[int, list[Result]] = {}
        self._starts = range(0, len(items), CHUNK)
        self._todo = deque(self._starts)
        self._crew = list(crew)
        self._given: dict[Connection, deque[int]] = {}

    def results(self) -> list[Result]:
        """Return the results in the order of the items."""
        while len(self._found) < len(self._starts):
            self._listen(None if not self._todo else 0)
            if self._todo:
                start = self._todo.popleft()
                self._found[start] = [self._done_here(item) for item in self._chunk(start)]
        return [result for start in self._starts for result in self._found[start]]

    def _done_here(self, item: Item) -> Result:
        """Do one item, then hear what the helpers have to say."""
        result = _ticked(self._do(item), self._tick)
        self._listen(0)
        return result

    def _chunk(self, start: int) -> Sequence[Item]:
        """Return the items of a chunk."""
        return self._items[start : start + CHUNK]

    def _listen(self, timeout: float | None) -> None:
        """Hear helpers that have something to say, waiting for one as long as the timeout."""
        for connection in wait(self._crew, timeout) if self._crew else ():
            self._hear(connection)

    def _hear(self, connection: Any) -> None:  # noqa: ANN401  (what wait returns has no narrower type)
        """Take what a helper has done and give it more; who has failed or gone gets none, and leaves his."""
        given = self._given.setdefault(connection, deque())
        results = _received(connection)
        if results is None:
            self._crew.remove(connection)
            self._todo.extendleft(reversed(given))
            given.clear()
            return
        if results:
            self._found[given.popleft()] = results
        for _ in results:
            self._tick()
        with suppress(OSError):  # it has gone: that is heard next
            while self._todo and len(given) < AHEAD:
                connection.send(self._chunk(self._todo[0]))
                given.append(self._todo.popleft())


def _received(connection: Connection) -> list[Any] | None:
    """Return what a helper has done; None where it has failed or gone."""
    try:
        results: list[Any] | None = connection.recv()
    except (EOFError, OSError):
        return None
    return results


@contextmanager
def _collected(*, long: bool) -> Iterator[None]:
    """Let what a long list leaves behind be collected, which a command of one answer does without."""
    if not long or gc.isenabled():
        yield
        return
    gc.freeze()
    gc.enable()
    try:
        yield
    finally:
        gc.disable()
        gc.unfreeze()


@contextmanager
def _hired(task: Task[Item, Result], number: int) -> Iterator[list[Connection]]:
    """Start helpers, and end them whatever happens."""
    context = multiprocessing.get_context("spawn")
    pairs = [context.Pipe() for _ in range(number)]
    crew = [context.Process(target=_help, args=(theirs, task), daemon=True) for _, theirs in pairs]
    with _no_interrupt():
        for process in crew:
            process.start()
    for _, theirs in pairs:
        theirs.close()
    try:
        yield [ours for ours, _ in pairs]
    finally:
        for process in crew:
            process.kill()
        for process in crew:
            process.join()


@contextmanager
def _no_interrupt() -> Iterator[None]:
    """Let Ctrl-C wait while processes start, and let them start deaf to it."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, [signal.SIGINT])
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _help(connection: Connection, task: Task[Any, Any]) -> None:
    """Say that all is ready, do what is sent until nobody is there any more; say None of what fails."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    with suppress(EOFError, OSError):
        try:
            do = task.begin()
            connection.send([])
            while True:
                connection.send([do(item) for item in connection.recv()])
        except (EOFError, OSError):
            return
        except Exception:  # noqa: BLE001  (done again where it can be told)
            connection.send(None)


def _ticked(result: Result, tick: Callable[[], None]) -> Result:
    """Return a result, counted."""
    tick()
    return result


def _nothing() -> None:
    """Count nothing."""
