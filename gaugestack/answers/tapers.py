"""The published tapers known here: document, edition, how well the row is known, angles.

>>> [found.published.name for found in tapers("morse 3")]
['morse 3']
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.angles.fit import classification
from gaugestack.angles.published import all_published, find_published
from gaugestack.errors import TextError

if TYPE_CHECKING:
    from gaugestack.angles.fit import Classification
    from gaugestack.angles.published import Published
    from gaugestack.angles.taper import Taper


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedTaper:
    """One published taper with its cone and its classification."""

    published: Published
    taper: Taper
    classification: Classification


def tapers(name: str | None = None) -> tuple[PublishedTaper, ...]:
    """Return every published taper; given a name, that one or every number of that series.

    Raises UsageError for a name nobody published.
    """
    everything = all_published()
    if name is None:
        return tuple(_described(one) for one in everything)
    word = " ".join(name.casefold().replace("&", " and ").split())
    series = tuple(one for one in everything if one.name.startswith(f"{word} "))
    if series:
        return tuple(_described(one) for one in series)
    try:
        return (_described(find_published(name)),)
    except TextError as error:
        raise error.named("NAME") from None


def _described(published: Published) -> PublishedTaper:
    """Return one published taper with its cone."""
    taper = published.taper(published.name)
    return PublishedTaper(published=published, taper=taper, classification=classification(taper, published))
