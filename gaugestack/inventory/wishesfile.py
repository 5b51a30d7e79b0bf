"""Files of what a shop sets up: angles or taper call-outs, one a line.

    angles = load_angles("angles.txt")
    call_outs = load_call_outs("tapers.txt", Unit.INCH)

    7d30m       # after a number sign everything is a note

Empty lines are passed over; every line that cannot be read is named at once.
The file is never written to.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from gaugestack.angles.angle import read_angle
from gaugestack.angles.callout import read_call_out
from gaugestack.errors import Place, Problem, RefusedFile, TextError
from gaugestack.inventory.heightsfile import NOTE, lines_of
from gaugestack.inventory.textfile import read_text_file

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from gaugestack.angles.angle import ReadAngle
    from gaugestack.lengths import Unit

MOST_LINES = 2000
_Read = TypeVar("_Read")


def load_angles(path: Path | str) -> tuple[ReadAngle, ...]:
    """Return the angles of a file in the order of its lines.  Raises RefusedFile."""
    return _load(path, "angle", read_angle)


def load_call_outs(path: Path | str, unit: Unit) -> tuple[str, ...]:
    """Return the call-outs of a file, each of which can be read.  Raises RefusedFile."""

    def readable(text: str) -> str:
        read_call_out(text, bare_unit=unit)
        return text

    return _load(path, "call-out", readable)


def _load(path: Path | str, thing: str, read: Callable[[str], _Read]) -> tuple[_Read, ...]:
    """Return what `read` makes of every line; refuse a file with a wrong line, none, or too many."""
    name = str(path)
    problems: list[Problem] = []
    found: list[_Read] = []
    for number, line in lines_of(read_text_file(path)):
        try:
            found.append(read(line.partition(NOTE)[0].strip()))
        except TextError as error:
            offset = len(line) - len(line.lstrip())
            place = Place(file=name, line=number, column=1 + offset)
            problems.append(error.at(place, source=line, offset=offset))
    if problems:
        raise RefusedFile(problems)
    if not found:
        raise RefusedFile.whole(name, f"the file holds no {thing}", hint=f"write one {thing} a line")
    if len(found) > MOST_LINES:
        raise RefusedFile.whole(name, f"{len(found)} lines; at most {MOST_LINES}")
    return tuple(found)
