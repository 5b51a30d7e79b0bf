"""A survey as an SVG drawing of its own size: one unit of the drawing is a millimetre.

    >>> svg = range_svg(answer)

A strip for each count: black is what the set makes now, grey within a line what
only the set as issued made, white what neither does; nothing depends on colour.  A
column that is not full shows a nick, one that is not empty a line, however
little it is.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cards.reachpicture import blocks_said, counts_shown, share_text
from gaugestack.cards.reachscreen import heights_said, limit_said, span_said
from gaugestack.cards.svg import INK, escaped, fitted, number, opening
from gaugestack.lengths import PM_PER_INCH, exact_text
from gaugestack.stacks.survey import bins

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from fractions import Fraction

    from gaugestack.answers.reach import RangeAnswer
    from gaugestack.lengths import Unit
    from gaugestack.stacks.survey import Span, Survey

WIDTH, LEFT, RIGHT = 180, 24, 38
TOP, STRIP, BETWEEN, FOOT = 26, 9, 3, 20
COLUMNS = 236
LEAST = 0.3
"""What differs from nothing, or from all, is drawn at least as much."""
TITLE_ROOM = (WIDTH - 12) / 1.1
"""Width for the title, which is bold and so a tenth wider."""
GREY, PAPER = "#aaa", "#ffffff"
_TICKS = (1, 2, 5)


def range_svg(answer: RangeAnswer) -> str:
    """Return the drawing of a range, as a whole SVG file."""
    counts = counts_shown(answer.found.top)
    height = TOP + max(len(counts), 1) * (STRIP + BETWEEN) + FOOT
    head = opening((WIDTH, height), _title(answer), _description(answer))
    lines = [*head, f'<g fill="{INK}">', *_heading(answer)]
    columns = bins(answer.found, COLUMNS)
    for row, count in enumerate(counts):
        shares = [(column.within(count), column.within_issued(count)) for column in columns]
        lines += _strip(answer.found, count, shares, TOP + row * (STRIP + BETWEEN))
    base = height - FOOT
    lines += [*_axis(answer.found.span, answer.stock.unit, base), *_legend(base + 12), "</g>", "</svg>"]
    return "\n".join(lines) + "\n"


def _heading(answer: RangeAnswer) -> Iterator[str]:
    """Return the lines above the strips."""
    found, unit = answer.found, answer.stock.unit
    yield _text(6, 9, fitted(_title(answer), TITLE_ROOM, 5), size=5, more=' font-weight="bold"')
    yield _text(6, 15, f"{span_said(found.span, unit)}; {limit_said(found.most)}")
    end = WIDTH - RIGHT
    yield _text(LEFT - 2, TOP - 3, "at most", anchor="end")
    yield _text(end + 15, TOP - 3, "now", anchor="end")
    yield _text(WIDTH - 4, TOP - 3, "as issued", anchor="end")


def _strip(found: Survey, count: int, shares: Sequence[tuple[Fraction, Fraction]], top: int) -> Iterator[str]:
    """Return one strip: its count, both skylines, its frame, both shares."""
    middle, end = top + STRIP / 2 + 1.2, WIDTH - RIGHT
    yield _text(LEFT - 2, middle, blocks_said(count), anchor="end")
    if any(now != before for now, before in shares):
        yield (
            f'<path d="{_skyline([before for _, before in shares], top)}" fill="{GREY}" '
            f'stroke="{INK}" stroke-width="0.15"/>'
        )
    yield f'<path d="{_skyline([now for now, _ in shares], top)}"/>'
    yield (
        f'<rect x="{LEFT}" y="{top}" width="{end - LEFT}" height="{STRIP}" '
        f'fill="none" stroke="{INK}" stroke-width="0.2"/>'
    )
    yield _text(end + 15, middle, share_text(found.share(count)), anchor="end", more=' font-weight="bold"')
    yield _text(WIDTH - 4, middle, share_text(found.share_issued(count)), anchor="end")


def _skyline(shares: Sequence[Fraction], top: int) -> str:
    """Return the path around columns as high as their shares."""
    bottom, wide = top + STRIP, (WIDTH - RIGHT - LEFT) / len(shares)
    steps = [f"M{LEFT} {bottom}"]
    for index, share in enumerate(shares):
        if index == 0 or share != shares[index - 1]:
            steps.append(f"V{_number(bottom - _tall(share))}")
        steps.append(f"H{_number(LEFT + (index + 1) * wide)}")
    return "".join((*steps, f"V{bottom}Z"))


def _tall(share: Fraction) -> float:
    """Return how high a share is drawn."""
    if share in (0, 1):
        return float(share * STRIP)
    return min(max(float(share * STRIP), LEAST), STRIP - LEAST)


def _axis(span: Span, unit: Unit, base: int) -> Iterator[str]:
    """Return the ticks below the strips, and the unit."""
    wide, length = WIDTH - RIGHT - LEFT, span.high - span.low
    for height in _ticks(span, unit):
        x = _number(LEFT + (wide * (height - span.low) / length if length else wide / 2))
        yield f'<path d="M{x} {base - 2}v1.6" stroke="{INK}" stroke-width="0.2"/>'
        yield _text(x, base + 2.6, exact_text(height, unit).rpartition(" ")[0], anchor="middle")
    yield _text(WIDTH - RIGHT + 5, base + 2.6, unit.value)


def _ticks(span: Span, unit: Unit) -> list[int]:
    """Return round heights of the range, about eight, or its one height."""
    room = span.high - span.low
    one = PM_PER_INCH if unit.value == "in" else unit.picometres
    finest = one // 100_000
    sizes = (finest * 10**power * ten for power in range(12) for ten in _TICKS)
    every = next(size for size in sizes if room <= 8 * size)
    found = list(range(-(-span.low // every) * every, span.high + 1, every))
    return found or [span.low]


def _legend(y: int) -> Iterator[str]:
    """Return what black, grey and white mean."""
    said = (("now", INK), ("as issued only", GREY), ("neither", PAPER))
    x = float(LEFT)
    for words, fill in said:
        yield (
            f'<rect x="{_number(x)}" y="{y - 2.6}" width="6" height="3" fill="{fill}" '
            f'stroke="{INK}" stroke-width="0.2"/>'
        )
        yield _text(_number(x + 7.5), y, words)
        x += 16 + 2 * len(words)


def _title(answer: RangeAnswer) -> str:
    """Return the title of the drawing."""
    return f"What {answer.stock.name} reaches"


def _description(answer: RangeAnswer) -> str:
    """Return in words what the drawing shows."""
    found = answer.found
    made = f"{found.within(found.most)} of {heights_said(found.span.heights)} can be made"
    shares = "; ".join(
        f"at most {blocks_said(count)}: {share_text(found.share(count))}, "
        f"as issued {share_text(found.share_issued(count))}"
        for count in counts_shown(found.top)
    )
    return f"{span_said(found.span, answer.stock.unit)}; {made}. {shares}."


def _text(
    x: float | str, y: float, words: str, *, size: float = 3.4, anchor: str = "", more: str = ""
) -> str:
    """Return one piece of writing."""
    turned = f' text-anchor="{anchor}"' if anchor else ""
    return f'<text x="{x}" y="{_number(y)}" font-size="{size}"{turned}{more}>{escaped(words)}</text>'


def _number(value: float) -> str:
    """Return a number of the drawing, to a thousandth of a millimetre."""
    return number(value, 3)
