"""The file of a ledger: opened under a lock, and only ever made longer.

    with locked(path, for_writing=True) as file:
        data = file.read()
        file.add(line)

What `add` was given is on the disk when it returns.  Where it raises, nothing
was recorded, and the error says so: the one write was undone, or what is left
of it is a torn line, which readers know.  Nothing else is ever cut away.
Waits for the lock as long as another process holds it.  Does not know what a
record is.
"""

from __future__ import annotations

import errno
import os
import stat
from contextlib import contextmanager
from typing import TYPE_CHECKING

from gaugestack.errors import RefusedFile

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path
    from types import ModuleType

LARGEST_LEDGER = 16 << 20
"""16 MiB: a hundred thousand records."""
_FLAGS = os.O_NONBLOCK | os.O_CLOEXEC if os.name == "posix" else 0
_NO_DIRECTORY_SYNC = frozenset({errno.EINVAL, errno.ENOTSUP, errno.EACCES, errno.EPERM})
_REASONS = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "your share of the disk is full",
    errno.EFBIG: "the file may not grow any larger",
    errno.EROFS: "the disk is read-only",
    errno.EACCES: "you have no permission for this file",
    errno.EPERM: "you have no permission for this file",
    errno.EISDIR: "this is a directory, not a file",
    errno.ENOENT: "there is no such directory",
    errno.ENOTDIR: "there is no such directory",
    errno.EIO: "the disk has failed",
}


class LedgerFile:
    """An open and locked ledger."""

    __slots__ = ("_fd", "_path")

    def __init__(self, fd: int, path: Path) -> None:
        """Take an open file."""
        self._fd = fd
        self._path = path

    def read(self) -> bytes:
        """Return the whole file.  Raises RefusedFile where it cannot be read or is too large."""
        try:
            size = os.fstat(self._fd).st_size
            if size > LARGEST_LEDGER:
                raise RefusedFile.whole(str(self._path), "the ledger is larger than 16 MiB")
            return self._all_bytes(size)
        except OSError as error:
            raise RefusedFile.whole(str(self._path), f"the file cannot be read: {_reason(error)}") from None

    def add(self, data: bytes) -> None:
        """Add bytes at the end with one write, and wait until the disk has them.

        Raises RefusedFile, which says that nothing was recorded.
        """
        before = os.fstat(self._fd).st_size
        try:
            self._write_once(data)
            os.fsync(self._fd)
            _sync_directory(self._path)
        except OSError as error:
            self._take_back(before, _reason(error))

    def _write_once(self, data: bytes) -> None:
        """Write everything at once; half a write means that the disk is full."""
        if os.write(self._fd, data) < len(data):
            raise OSError(errno.ENOSPC, "short write")

    def _take_back(self, before: int, reason: str) -> None:
        """Undo a write that failed, under the same lock, before anybody was told of it."""
        name = str(self._path)
        try:
            os.ftruncate(self._fd, before)
            os.fsync(self._fd)
        except OSError:
            sentence = f"{reason}: nothing was recorded, but a torn line may be left in the file"
            raise RefusedFile.whole(name, sentence, hint="look at the end of the file") from None
        raise RefusedFile.whole(name, f"{reason}: nothing was recorded")

    def _all_bytes(self, size: int) -> bytes:
        """Return `size` bytes from the beginning."""
        parts, offset = [], 0
        while offset < size and (part := os.pread(self._fd, size - offset, offset)):
            parts.append(part)
            offset += len(part)
        return b"".join(parts)


@contextmanager
def locked(path: Path, *, for_writing: bool) -> Iterator[LedgerFile]:
    """Open and lock the ledger; a ledger opened for writing is made where it is missing.

    Readers share the lock, so that none sees half a write.  Raises RefusedFile,
    and FileNotFoundError where a ledger that is only read does not exist.
    """
    fd = _open_locked(path, for_writing=for_writing)
    try:
        yield LedgerFile(fd, path)
    finally:
        os.close(fd)


def _open_locked(path: Path, *, for_writing: bool) -> int:
    """Return the file descriptor of the locked ledger.

    An editor may have put another file in its place while we waited; then the
    new one is opened.
    """
    while True:
        fd = _open(path, for_writing=for_writing)
        try:
            _lock(fd, path, for_writing=for_writing)
            if _is_still(path, fd):
                return fd
        except BaseException:
            os.close(fd)
            raise
        os.close(fd)


def _open(path: Path, *, for_writing: bool) -> int:
    """Open the ledger, which must be a plain file."""
    flags = os.O_RDWR | os.O_APPEND | os.O_CREAT if for_writing else os.O_RDONLY
    outcome = "nothing was recorded" if for_writing else "the ledger cannot be read"
    try:
        fd = os.open(path, flags | _FLAGS, 0o666)
    except FileNotFoundError:
        if not for_writing:
            raise
        raise RefusedFile.whole(str(path), f"there is no such directory: {outcome}") from None
    except OSError as error:
        raise RefusedFile.whole(str(path), f"{_reason(error)}: {outcome}") from None
    if stat.S_ISREG(os.fstat(fd).st_mode):
        return fd
    os.close(fd)
    raise RefusedFile.whole(str(path), f"this is no plain file: {outcome}")


def _lock(fd: int, path: Path, *, for_writing: bool) -> None:
    """Lock the file: alone for writing, with other readers for reading."""
    locks = _locks()
    if locks is None:
        if for_writing:
            sentence = "files cannot be locked on this system: nothing was recorded"
            raise RefusedFile.whole(str(path), sentence)
        return
    try:
        locks.flock(fd, locks.LOCK_EX if for_writing else locks.LOCK_SH)
    except OSError as error:
        if for_writing:
            sentence = f"the file cannot be locked ({_reason(error)}): nothing was recorded"
            raise RefusedFile.whole(str(path), sentence) from None


def _locks() -> ModuleType | None:
    """Return the module that locks files; None where the system has no such locks."""
    try:
        import fcntl  # noqa: PLC0415  # not on every system
    except ImportError:
        return None
    return fcntl


def _is_still(path: Path, fd: int) -> bool:
    """Return whether the open file is still the one of that name."""
    try:
        return os.path.samestat(path.stat(), os.fstat(fd))
    except FileNotFoundError:
        return False


def _sync_directory(path: Path) -> None:
    """Wait until the disk knows the file's name; some systems cannot and need not.

    Every time, not only for a new file: whoever made it may have died before.
    """
    try:
        fd = os.open(path.parent, os.O_RDONLY)
        try:
            os.fsync(fd)
        finally:
            os.close(fd)
    except OSError as error:
        if error.errno not in _NO_DIRECTORY_SYNC:
            raise


def _reason(error: OSError) -> str:
    """Return why the system refused, in words for the bench."""
    return _REASONS.get(error.errno or 0, error.strerror or str(error))
