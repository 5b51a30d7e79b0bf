"""What the pictures are drawn of in the tests, and the drawings kept in tests/golden/svg/.

python tests/cards/samples.py        write them anew; look at each before you commit it
"""

import datetime as dt
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from gaugestack.angles.angle import read_angle
from gaugestack.angles.sine import SineBar, bar_of_length
from gaugestack.blocks import Block, Stack
from gaugestack.cards.barpicture import bar_svg
from gaugestack.cards.sharespicture import Chart, Share, shares_svg
from gaugestack.cards.stackpicture import stack_svg
from gaugestack.cards.trendpicture import LimitLine, Wear, trend_svg
from gaugestack.lengths import Length, Unit, read_length
from gaugestack.trend import Calibration, Trend, trend_of

GOLDEN = Path(__file__).parents[1] / "golden" / "svg"
INCH, MILLIMETRE = Unit.INCH, Unit.MILLIMETRE
HOSTILE = [
    "<script>alert(1)</script> & \"x\" 'y'",
    "\u202egnirts \x1b[31m\x00",
    "]]>\ud800",
    "W" * 300,
    "\U0001f600" * 90,
]
"""Names that no drawing may break on."""


def stack(*sizes, unit=INCH, serial=""):
    """Return a stack of sizes from the bottom; `w` behind one marks a wear block."""
    blocks = (
        Block(
            nominal=read_length(size.rstrip("w"), bare_unit=unit).length,
            unit=unit,
            wear=size.endswith("w"),
            serial=serial,
        )
        for size in sizes
    )
    return Stack(blocks=tuple(blocks))


def bar(text):
    read = read_length(text)
    return bar_of_length(read.length, read.unit)


PLATE = SineBar(
    name="sine plate",
    centre_distance=read_length("200mm").length,
    unit=MILLIMETRE,
    roll_diameter=read_length("20mm").length,
    base_height=read_length("20mm").length,
)
TALL = stack("0.05w", "3", "0.1001", "0.1009", "0.101", "0.149", "1", "0.05w")
THIN = stack("2", "1.005", "1.01", "1.1", "0.5", unit=MILLIMETRE)
HIGH = stack("100", "75", "1.0005", "50", "20", unit=MILLIMETRE)


def angle(text):
    return read_angle(text).angle


def calibrations(*pairs, one=25_400):
    """Return calibrations of (day, deviation in the small unit)."""
    return tuple(
        Calibration(
            on=dt.date.fromisoformat(day), deviation=Length(round(value * one)), uncertainty=Length(2 * one)
        )
        for day, value in pairs
    )


LIMITS = (
    LimitLine(name="grade AS-1 as new", lower=Length(-6 * 25_400), upper=Length(6 * 25_400)),
    LimitLine(name="the owner's own limit", lower=Length(-12 * 25_400), upper=Length(12 * 25_400)),
)
WORN = (
    ("2016-03-03", -1),
    ("2018-02-03", -2),
    ("2020-05-03", -4.2),
    ("2023-01-03", -5),
    ("2026-02-03", -7.5),
)


def wear(points=WORN, *, name="0.105 in of Bench set", limits=LIMITS):
    found = calibrations(*points)
    trend = trend_of(found)
    said = trend.sentence(INCH) if isinstance(trend, Trend) else trend.why
    return Wear(name=name, unit=INCH, calibrations=found, trend=trend, limits=limits, notes=(said,))


def chart(*pairs, title="15.752 mm"):
    shares = tuple(Share(name=name, share=share, adds="0.12 µm") for name, share in pairs)
    return Chart(title=title, notes=("right within 0.49 µm (k = 2.00)",), shares=shares)


DOUBTS = (("grade 1 of 30 mm", 0.6), ("warmth of the blocks against the room", 0.3), ("3 smaller ones", 0.1))
DRAWINGS = {
    "stack": lambda: stack_svg(stack("0.4", "0.1002", "0.12"), INCH),
    "stack-wear": lambda: stack_svg(TALL, INCH),
    "stack-reduced": lambda: stack_svg(HIGH, MILLIMETRE),
    "stack-narrow": lambda: stack_svg(THIN, MILLIMETRE, width_mm=90),
    "bar": lambda: bar_svg(angle("7d7m30s"), bar("5in"), stack("0.4", "0.1002", "0.12")),
    "bar-steep": lambda: bar_svg(angle("60deg"), bar("100mm"), stack("86.6", unit=MILLIMETRE)),
    "bar-difference": lambda: bar_svg(angle("0d3m"), bar("5in"), stack("0.105"), low=stack("0.1006")),
    "bar-plate": lambda: bar_svg(angle("15d"), PLATE, stack("70", "1.76", unit=MILLIMETRE)),
    "trend": lambda: trend_svg(wear()),
    "trend-one": lambda: trend_svg(wear(WORN[:1])),
    "shares": lambda: shares_svg([chart(*DOUBTS)]),
    "shares-two": lambda: shares_svg([chart(*DOUBTS), chart(*DOUBTS[1:], title="20 mm")]),
}


def main():
    """Write every drawing anew."""
    GOLDEN.mkdir(exist_ok=True)
    for name, draw in DRAWINGS.items():
        (GOLDEN / f"{name}.svg").write_text(draw(), encoding="utf-8")


if __name__ == "__main__":
    main()
