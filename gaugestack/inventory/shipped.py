"""The sets that come with the program, and the way from a name to a file.

    path = find_set("inch-81")          a shipped set
    path = find_set("bench.yaml")       a file
    path = find_angle_set("angle-13")   a shipped set of angle blocks, or a file

A wheel carries the sets in gaugestack/_sets, a checkout in sets/ beside the
package.  Does not read the files.
"""

from __future__ import annotations

import os
from pathlib import Path

from gaugestack.errors import UsageError, nearest

DEFAULT_SET = "inch-81"
"""The set that is taken where none is named."""
_SUFFIXES = (".yaml", ".yml")
_ANGLE = "angle-"
"""With this begin the names of the shipped sets of angle blocks, and no others."""
_PACKAGE = Path(__file__).parent.parent


def shipped_names() -> tuple[str, ...]:
    """Return the names of the shipped sets of gauge blocks, sorted."""
    return tuple(name for name in _all_names() if not name.startswith(_ANGLE))


def shipped_angle_names() -> tuple[str, ...]:
    """Return the names of the shipped sets of angle blocks, sorted."""
    return tuple(name for name in _all_names() if name.startswith(_ANGLE))


def shipped_path(name: str) -> Path:
    """Return the file of a shipped set.  Raises UsageError for an unknown name."""
    names = shipped_names()
    if name in names:
        return _directory() / f"{name}.yaml"
    hint = f"{nearest(name, names)}; a file of your own is named with its .yaml ending"
    raise UsageError.about("--set", f"no shipped set is called {name!r}", hint=hint)


def find_set(name_or_path: str) -> Path:
    """Return the file of a set: a path, an existing file, or a shipped set's name.

    A text with a path separator or a .yaml or .yml ending is always a path,
    whether it exists or not.  Raises UsageError for a name that is neither.
    """
    path = Path(name_or_path)
    if _is_path(name_or_path) or (name_or_path not in shipped_names() and _is_file(path)):
        return path
    return shipped_path(name_or_path)


def find_angle_set(name_or_path: str) -> Path:
    """Return the file of a set of angle blocks: a path, an existing file, or a shipped set's name.

    Raises UsageError for a name that is none of them.
    """
    path, names = Path(name_or_path), shipped_angle_names()
    if _is_path(name_or_path) or (name_or_path not in names and _is_file(path)):
        return path
    if name_or_path in names:
        return _directory() / f"{name_or_path}.yaml"
    hint = f"{nearest(name_or_path, names)}; a file of your own is named with its .yaml ending"
    raise UsageError.about("--set", f"no shipped set of angle blocks is called {name_or_path!r}", hint=hint)


def file_said(file: str) -> str:
    """Return the file of a set as it is told: a shipped set by its name, wherever it is installed."""
    path = Path(file)
    return path.stem if file and path.parent == _directory() else file


def _is_path(text: str) -> bool:
    """Return whether a text can only be meant as a path: it has a separator or a YAML ending."""
    path = Path(text)
    return len(path.parts) > 1 or "/" in text or path.suffix.casefold() in _SUFFIXES


def _all_names() -> tuple[str, ...]:
    """Return the names of everything shipped, sorted."""
    files = os.listdir(_directory())  # noqa: PTH208  (every name that is looked up asks again)
    return tuple(sorted(file.removesuffix(".yaml") for file in files if file.endswith(".yaml")))


def _directory() -> Path:
    """Return the directory of the shipped sets, in a wheel or a checkout."""
    inside = _PACKAGE / "_sets"
    return inside if inside.is_dir() else _PACKAGE.parent / "sets"


def _is_file(path: Path) -> bool:
    """Return whether a path names an existing file; a text that can be no path does not."""
    try:
        return path.is_file()
    except (OSError, ValueError):
        return False
