r"""Rows of a screen: a name, then what is said about it, wrapped to 80 columns.

    >>> print(*row("swing", "1°26'15.7\""), sep="\n")

Lengths stand rounded for a person: 0.00001 in, 0.0001 mm.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.angles.angle import arcsec_text, dms_text, short_degrees_text
from gaugestack.cards.screen import wrapped
from gaugestack.errors import visible
from gaugestack.lengths import Unit, rounded_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from gaugestack.angles.angle import Angle
    from gaugestack.angles.taper import Taper

NAME = 15


def row(name: str, said: str) -> Iterator[str]:
    """Return one row, its name in the first columns."""
    yield from wrapped(visible(said), f"  {name:<{NAME}}", " " * (NAME + 2))


def shown(length: int, unit: Unit) -> str:
    """Return a length rounded to what an indicator or a micrometer shows."""
    return rounded_text(length, unit, 5 if unit is Unit.INCH else 4)


def way_off(arcseconds: object) -> str:
    """Return an error with its word: steep above zero, slow below."""
    off = float(arcseconds)  # type: ignore[arg-type]
    word = "too steep" if off > 0 else "too slow"
    return f"{arcsec_text(off)}, {word}" if round(off, 1) else "none"


def cone_said(taper: Taper) -> str:
    """Return a cone as it was read, with its ratio and taper per foot, neither of them said twice."""
    ratios = (taper.one_in_text, f"{taper.per_foot_text} on diameter")
    unsaid = ", ".join(text for text in ratios if text not in taper.reading)
    return f"{taper.reading} = {unsaid}" if unsaid else taper.reading


def angle_mark(angle: Angle) -> str:
    """Return an angle as it stands in a drawing."""
    return f"{dms_text(angle, 1)} ({short_degrees_text(angle, 4)})"


def head(text: str) -> list[str]:
    """Return the first lines of a screen."""
    return wrapped(visible(text), "", "  ")


def figure_lines(figures: Iterable[str]) -> Iterator[str]:
    """Return the sketches, each after an empty line, set in a little."""
    for figure in figures:
        yield ""
        for line in figure.splitlines():
            yield f"  {line}".rstrip()
