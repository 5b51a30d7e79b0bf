"""A text between two marks of a Markdown file, written by the command that measures it.

    >>> Marks("bench").write(Path("DEVELOPERS.md"), table)

The marks are the lines <!-- NAME:begin --> and <!-- NAME:end -->.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path


@dataclass(frozen=True, slots=True)
class Marks:
    """Where a command's text stands in a file."""

    name: str

    def around(self, path: Path) -> tuple[str, str]:
        """Return what stands before and after the marks.  Raises ValueError unless each is there once."""
        begin, end = self._lines()
        old = path.read_text(encoding="utf-8")
        if old.count(begin) != 1 or old.count(end) != 1 or old.index(begin) > old.index(end):
            raise ValueError(f"{path} needs one line {begin} and after it one line {end}")
        return old.split(begin)[0], old.split(end)[1]

    def write(self, path: Path, text: str) -> None:
        """Put `text` between the marks.  Raises ValueError where they are not right."""
        begin, end = self._lines()
        before, after = self.around(path)
        new = path.with_name(path.name + ".new")
        new.write_text(f"{before}{begin}\n\n{text}\n{end}{after}", encoding="utf-8")
        new.replace(path)

    def _lines(self) -> tuple[str, str]:
        return f"<!-- {self.name}:begin -->", f"<!-- {self.name}:end -->"
