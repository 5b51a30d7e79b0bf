"""Files the commands write: whole, or not at all.

    >>> save_svg("reach.svg", text)

An existing file of that name is replaced: outputs can always be made again.
Never used for a set or its ledger.
"""

from __future__ import annotations

import os
import stat
from pathlib import Path

from gaugestack.errors import UsageError


def save_svg(name: str, text: str) -> None:
    """Write a drawing; its name ends in .svg, so that no slip of the keyboard costs a set file.

    Raises UsageError for another name, or where it cannot be written.
    """
    if not name.casefold().endswith(".svg"):
        raise UsageError.about("--svg", "the drawing's name ends in .svg", hint=f"like {name}.svg")
    replace_file(name, text)


def replace_file(name: str, text: str) -> None:
    """Write a text whole, as `replace_bytes` does."""
    replace_bytes(name, text.encode("utf-8"))


def replace_bytes(name: str, data: bytes) -> None:
    """Write data to a temporary file beside `name`, then rename it to that name.

    A device or pipe is written to as it is.  Raises UsageError where that
    cannot be done; then nothing has changed.
    """
    path = Path(name)
    try:
        if path.exists() and not stat.S_ISREG(path.stat().st_mode):
            path.write_bytes(data)
        else:
            _renamed(path.resolve(), data)
    except (OSError, ValueError, RuntimeError) as error:  # some Pythons: a loop of links
        why = getattr(error, "strerror", None) or error
        raise UsageError.about(name, f"the file cannot be written: {why}") from None


def _renamed(path: Path, data: bytes) -> None:
    """Write beside the path and rename; no leavings where that fails."""
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with beside.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)
