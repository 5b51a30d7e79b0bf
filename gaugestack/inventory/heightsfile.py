"""A file of heights, one a line: the heights somebody's jobs need.

    heights = load_heights("jobs.txt", Unit.INCH)

    0.6202      # a bare number takes the unit of the set
    15.752 mm   # after a number sign everything is a note

Empty lines are passed over; every line that is no height is named at once.
The file is never written to.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from gaugestack.errors import Place, Problem, RefusedFile, TextError
from gaugestack.inventory.textfile import read_text_file
from gaugestack.lengths import read_length

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from gaugestack.lengths import ReadLength, Unit

MOST_HEIGHTS = 10_000
NOTE = "#"
_LINE_END = re.compile("\r\n|[\r\n]")


def load_heights(path: Path | str, unit: Unit) -> tuple[ReadLength, ...]:
    """Return the heights of a file, each above zero, in the order of its lines.

    Raises RefusedFile with every line that is no height, or where there is none.
    """
    name = str(path)
    problems: list[Problem] = []
    heights: list[ReadLength] = []
    for number, line in lines_of(read_text_file(path)):
        try:
            heights.append(read_length(line.partition(NOTE)[0].rstrip(), bare_unit=unit))
        except TextError as error:
            problems.append(error.at(Place(file=name, line=number, column=1), source=line))
    if problems:
        raise RefusedFile(problems)
    if not heights:
        raise RefusedFile.whole(name, "the file holds no height", hint="write one height a line")
    if len(heights) > MOST_HEIGHTS:
        raise RefusedFile.whole(name, f"{len(heights)} heights; at most {MOST_HEIGHTS}")
    return tuple(heights)


def lines_of(text: str) -> Iterator[tuple[int, str]]:
    """Return the lines that say something, with their numbers as an editor counts them."""
    for number, line in enumerate(_LINE_END.split(text), 1):
        if line.partition(NOTE)[0].strip():
            yield number, line
