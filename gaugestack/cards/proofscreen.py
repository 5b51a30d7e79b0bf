"""What `proof` and `tapers` print, for a terminal of 80 columns.

>>> print(proof_text(answer))
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle, arcsec_text
from gaugestack.angles.flat import Flat
from gaugestack.angles.taper import Taper
from gaugestack.cards.anglescreen import both
from gaugestack.cards.rows import cone_said, head, row, shown
from gaugestack.cards.screen import page, wrapped
from gaugestack.errors import visible
from gaugestack.lengths import Unit, exact_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.answers.proof import ProofAnswer, ReversalAnswer
    from gaugestack.answers.tapers import PublishedTaper

_ONE_SIDED = (
    "Accept one-sidedly: an outside taper may err steep by its tolerance, an inside one slow; "
    "both are tight at the large end."
)


def proof_text(answer: ProofAnswer) -> str:
    """Return the screen of `proof`: readings first, then the checks with their blind sides."""
    lines = [*_asked_lines(answer.asked), *_reading_lines(answer)]
    if answer.reversal:
        lines += _reversal_lines(answer.reversal)
    kind = ""
    for check in answer.checks:
        if check.kind != kind:
            kind = check.kind
            lines += ["", f"== {kind}"]
        lines += wrapped(f"{check.name}: {check.do}", "[ ] ", "    ")
        lines += wrapped(f"finds {check.finds}", "     +  ", "        ")
        lines += wrapped(f"cannot detect {check.cannot_detect} ({check.basis})", "     -  ", "        ")
    return page((*lines, "", *wrapped(_ONE_SIDED, "", "")))


def tapers_text(found: tuple[PublishedTaper, ...]) -> str:
    """Return the screen of `tapers`: a line each, or one taper with all that is known of it."""
    if len(found) == 1:
        return page(_one_taper(found[0]))
    lines: list[str] = []
    document = ""
    for one in found:
        published = one.published
        if published.document != document:
            document = published.document
            lines += ["", *wrapped(f"{document}; edition: {published.edition}", "", "  ")]
        mark = " " if published.basis == "seen" else "?"
        ratio = f"{one.taper.one_in_text:<11}{one.taper.per_foot_text:<19}"
        lines.append(f" {mark}{published.name:<25}{ratio}included {_degrees(one.taper.included)}")
    return page((*lines[1:], "", "?  from memory: check the document before use"))


def _degrees(angle: Angle) -> str:
    """Return degrees to five decimals."""
    return f"{angle.degrees:.5f}\N{DEGREE SIGN}"


def _one_taper(one: PublishedTaper) -> Iterator[str]:
    """Return all that is known of one published taper."""
    published, taper = one.published, one.taper
    yield from head(published.title)
    yield from row("defined by", published.defining)
    yield from row("document", f"{published.document}; edition: {published.edition}")
    basis = "read in the document or a copy of its table" if published.basis == "seen" else "from memory"
    yield from row("basis", basis)
    yield from row("ratio", f"{taper.one_in_text}, {taper.per_foot_text} on diameter")
    yield from row("half angle", both(taper.half))
    yield from row("included", both(taper.included))
    for name, size in (
        ("gauge line", published.gauge_line),
        ("large end", published.large_end),
        ("small end", published.small_end),
        ("length", published.length),
    ):
        if size is not None:
            inch = "in/ft" in published.defining
            yield from row(name, exact_text(size, Unit.INCH if inch else Unit.MILLIMETRE))
    known = one.classification
    yield from row("holding", f"{known.holding.value} ({known.source})")
    if published.note:
        yield from row("note", published.note)


def _asked_lines(asked: Taper | Flat | Angle | None) -> list[str]:
    """Return what is to be proven."""
    if isinstance(asked, Taper):
        half, included = both(asked.half), both(asked.included)
        return [*head(cone_said(asked)), *row("half angle", half), *row("included", included)]
    if isinstance(asked, Flat):
        return [*head(asked.reading), *row("whole angle", both(asked.angle))]
    return head(both(asked)) if isinstance(asked, Angle) else []


def _reading_lines(answer: ProofAnswer) -> Iterator[str]:
    """Return what an indicator along a level top shows, right and wrong."""
    if answer.asked is not None:
        yield ""
    yield "indicator along a top that should be level: 0 all along when it is right"
    for one in answer.rows:
        unit = one.span.unit
        said = f"1 minute of error shows {shown(one.minute, unit)}"
        if one.confused is not None:
            said += f"; half and included mixed up, {shown(one.confused, unit)}"
        yield from row(f"over {visible(exact_text(one.span.length, unit))}", said)


def _reversal_lines(found: ReversalAnswer) -> Iterator[str]:
    """Return both shares of a reversal."""
    unit = found.span.unit
    yield ""
    yield f"reversal over {exact_text(found.span.length, unit)}, the part turned end for end in the same vee"
    for name, rise, angle in (
        ("the part", found.part, found.part_angle),
        ("the fixture", found.fixture, found.fixture_angle),
    ):
        yield from row(name, f"{shown(rise, unit)}, {arcsec_text(angle.arcseconds)}")
