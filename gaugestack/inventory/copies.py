"""A copy of a shipped set as a file of one's own, to edit and to keep a ledger beside.

    path = copy_set("inch-81", "bench.yaml", name="Bench set")

The copy is written beside its place and then put there in one step, so that
nobody ever sees half a file.  Nothing is ever overwritten, and a ledger that
lies there already is never given to the new set.
"""

from __future__ import annotations

import json
import os
import re
import tempfile
from pathlib import Path

from gaugestack.errors import RefusedFile, UsageError
from gaugestack.inventory.ledger import ledger_path
from gaugestack.inventory.setfile import set_of_text
from gaugestack.inventory.shipped import shipped_path
from gaugestack.inventory.textfile import read_text_file

_NAME_LINE = re.compile(r"^name:.*$", re.MULTILINE)
_ENDINGS = (".yaml", ".yml")


def copy_set(shipped: str, target: str, name: str = "") -> Path:
    """Write a copy of a shipped set and return its path; `name` takes the place of the set's name.

    Raises UsageError for an unknown set, an ending that is none of a set file,
    a name that cannot be one, a file that is there already; RefusedFile where
    it cannot be written.
    """
    text = _renamed(read_text_file(shipped_path(shipped)), name)
    path = Path(target)
    if path.suffix.casefold() not in _ENDINGS:
        raise UsageError.about("FILE", f"{target!r} is no name of a set file", hint="it ends in .yaml")
    for there in (path, ledger_path(path)):
        if os.path.lexists(there):
            raise _is_there(there)
    try:
        _put(text.encode("utf-8"), path)
    except FileExistsError:
        raise _is_there(path) from None
    except OSError as error:
        raise RefusedFile.whole(target, f"it cannot be written: {error.strerror}") from None
    return path


def _is_there(path: Path) -> UsageError:
    """Return the refusal of a file that is there already."""
    return UsageError.about("FILE", f"{path} is there already", hint="nothing is overwritten: name another")


def _renamed(text: str, name: str) -> str:
    """Return the text of a set file with another name.  Raises UsageError where it cannot be one."""
    if not name:
        return text
    renamed = _NAME_LINE.sub(lambda _: f"name: {json.dumps(name, ensure_ascii=False)}", text, count=1)
    try:
        set_of_text(renamed, file="NAME")
    except RefusedFile as refused:
        raise UsageError.about("--name", refused.problems[0].sentence) from None
    return renamed


def _put(data: bytes, path: Path) -> None:
    """Write a new file in one step.  Raises FileExistsError, OSError."""
    handle, temporary = tempfile.mkstemp(prefix=f".{path.stem}.", suffix=".new", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
            os.fchmod(file.fileno(), 0o644) if hasattr(os, "fchmod") else None
        _name_it(temporary, path)
    finally:
        Path(temporary).unlink(missing_ok=True)


def _name_it(temporary: str, path: Path) -> None:
    """Give a written file its name, which nobody else may have taken meanwhile."""
    try:
        os.link(temporary, path)
    except FileExistsError:
        raise
    except (OSError, NotImplementedError):
        if os.path.lexists(path):
            raise FileExistsError(str(path)) from None
        Path(temporary).rename(path)
