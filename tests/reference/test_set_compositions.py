"""The shipped sets against published lists: counts, series, sums and coverage.

Where a list was read in its source the row says "seen"; where it was not, the
row says "memory"; sums and coverage are "computed" and agree with a second
computation made apart from this program.
"""

from fractions import Fraction

import pytest

from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import shipped_names, shipped_path
from gaugestack.lengths import read_length

TENTHS = ("0.1001", "0.1009", "0.0001")
THOUSANDTHS = ("0.101", "0.149", "0.001")
FIFTIES = ("0.050", "0.950", "0.050")
INCHES = ("1.000", "4.000", "1.000")
NINE_THOUSANDTHS = ("0.101", "0.109", "0.001")
NINE_HUNDREDTHS = ("0.110", "0.190", "0.010")
TENTHS_OF_INCH = ("0.100", "0.500", "0.100")
BINARY = ("0.0625", "0.078125", "0.093750", "0.109375")
SMALL = ("0.100", "0.200", "0.300", "0.500")
MICROMETRES = ("1.001", "1.009", "0.001")
HUNDREDTHS = ("1.01", "1.49", "0.01")
NINE_HUNDREDTHS_MM = ("1.01", "1.09", "0.01")
NINE_TENTHS_MM = ("1.1", "1.9", "0.1")
HALVES = ("0.5", "24.5", "0.5")
SHORT_HALVES = ("0.5", "9.5", "0.5")
QUARTERS = ("25", "100", "25")
ONES = ("1", "9", "1")
TENS = ("10", "100", "10")

# name: (pieces, series and single sizes, source, basis)
COMPOSITIONS = {
    "inch-81": (81, [TENTHS, THOUSANDTHS, FIFTIES, INCHES], "shop tutorial, list of the set of 81", "seen"),
    "inch-83": (
        83,
        [TENTHS, THOUSANDTHS, FIFTIES, INCHES, "0.050", "0.050"],
        "set of 81 with a wear pair",
        "memory",
    ),
    "inch-88": (
        88,
        [
            TENTHS,
            THOUSANDTHS,
            FIFTIES,
            INCHES,
            "0.100025",
            "0.100050",
            "0.100075",
            "0.0625",
            "0.078125",
            "0.093750",
            "0.109375",
        ],
        "Machinery's Handbook, precision gage blocks",
        "memory",
    ),
    "inch-36": (
        36,
        ["0.050", TENTHS, NINE_THOUSANDTHS, NINE_HUNDREDTHS, TENTHS_OF_INCH, "1.000", "2.000", "4.000"],
        "set lists of the trade",
        "memory",
    ),
    "inch-35": (
        35,
        [TENTHS, NINE_THOUSANDTHS, NINE_HUNDREDTHS, TENTHS_OF_INCH, "1.000", "2.000", "4.000"],
        "set lists of the trade",
        "memory",
    ),
    "inch-34": (
        34,
        [
            TENTHS,
            NINE_THOUSANDTHS,
            NINE_HUNDREDTHS,
            "0.100",
            "0.200",
            "0.300",
            "0.500",
            "1.000",
            "2.000",
            "4.000",
        ],
        "GGG-G-15C, set list",
        "memory",
    ),
    "inch-28": (
        28,
        [
            TENTHS,
            NINE_THOUSANDTHS,
            "0.110",
            "0.120",
            "0.130",
            "0.140",
            "0.100",
            "0.200",
            "0.300",
            "0.500",
            "1.000",
            "2.000",
        ],
        "composed from the usual series",
        "common practice",
    ),
    "inch-thin-28": (
        28,
        ["0.02005", ("0.0201", "0.0209", "0.0001"), ("0.021", "0.029", "0.001"), ("0.010", "0.090", "0.010")],
        "Machinery's Handbook, precision gage blocks",
        "memory",
    ),
    "inch-wear-0.050": (2, ["0.050", "0.050"], "machine shop course cards", "seen"),
    "inch-wear-0.100": (2, ["0.100", "0.100"], "machine shop course cards", "seen"),
    "metric-32": (
        32,
        ["1.005", NINE_HUNDREDTHS_MM, NINE_TENTHS_MM, ONES, "10", "20", "30", "60"],
        "DIN set lists",
        "memory",
    ),
    "metric-45": (
        45,
        [MICROMETRES, NINE_HUNDREDTHS_MM, NINE_TENTHS_MM, ONES, ("10", "90", "10")],
        "German apprentice course, gauge blocks DIN 861",
        "seen",
    ),
    "metric-46": (
        46,
        [MICROMETRES, NINE_HUNDREDTHS_MM, NINE_TENTHS_MM, ONES, TENS],
        "ISO and DIN set lists",
        "memory",
    ),
    "metric-47": (
        47,
        ["1.005", NINE_HUNDREDTHS_MM, NINE_TENTHS_MM, ("1", "24", "1"), QUARTERS],
        "JIS B 7506, annex 2",
        "memory",
    ),
    "metric-56": (
        56,
        ["0.5", MICROMETRES, NINE_HUNDREDTHS_MM, NINE_TENTHS_MM, ("1", "24", "1"), QUARTERS],
        "JIS set lists",
        "memory",
    ),
    "metric-76": (
        76,
        ["1.005", HUNDREDTHS, SHORT_HALVES, ("10", "40", "10"), ("50", "100", "25")],
        "JIS set lists",
        "memory",
    ),
    "metric-87": (87, [MICROMETRES, HUNDREDTHS, SHORT_HALVES, TENS], "JIS B 7506, annex 2", "memory"),
    "metric-88": (
        88,
        ["1.0005", MICROMETRES, HUNDREDTHS, SHORT_HALVES, TENS],
        "set lists of the trade",
        "memory",
    ),
    "metric-103": (103, ["1.005", HUNDREDTHS, HALVES, QUARTERS], "JIS B 7506, annex 2", "memory"),
    "metric-112": (
        112,
        ["1.0005", MICROMETRES, HUNDREDTHS, HALVES, QUARTERS],
        "textbook problem, set M112 (its 70 is a misprint for 75)",
        "seen",
    ),
    "metric-122": (
        122,
        ["1.0005", MICROMETRES, HUNDREDTHS, ("1.6", "1.9", "0.1"), HALVES, ("30", "100", "10"), "25", "75"],
        "DIN set list",
        "memory",
    ),
    "metric-thin-20": (20, [("0.10", "0.29", "0.01")], "GOST 9038-90, set no. 10", "memory"),
    "metric-wear-2": (2, ["2", "2"], "set lists of the trade", "common practice"),
    "metric-wear-2.5": (2, ["2.5", "2.5"], "textbook problem on slip gauges", "seen"),
}

# name: (step, every step from, every step to, sum of all); basis: computed by subset sums
COVERAGE = {
    "inch-81": ("0.0001 in", "0.2000 in", "26.3295 in", "26.5295 in"),
    "inch-88": ("0.000025 in", "0.300000 in", "26.873400 in", "27.173400 in"),
    "inch-36": ("0.0001 in", "0.3000 in", "11.4495 in", "11.7495 in"),
    "inch-35": ("0.0001 in", "0.3000 in", "11.3995 in", "11.6995 in"),
    "inch-34": ("0.0001 in", "0.3000 in", "10.9995 in", "11.2995 in"),
    "inch-thin-28": ("0.00005 in", "0.06000 in", "0.81955 in", "0.87955 in"),
    "metric-32": ("0.005 mm", "3.000 mm", "185.955 mm", "188.955 mm"),
    "metric-45": ("0.001 mm", "3.000 mm", "523.995 mm", "526.995 mm"),
    "metric-46": ("0.001 mm", "3.000 mm", "623.995 mm", "626.995 mm"),
    "metric-47": ("0.005 mm", "3.000 mm", "570.955 mm", "573.955 mm"),
    "metric-56": ("0.001 mm", "3.000 mm", "579.495 mm", "582.495 mm"),
    "metric-76": ("0.005 mm", "2.000 mm", "480.255 mm", "482.255 mm"),
    "metric-87": ("0.001 mm", "2.000 mm", "713.295 mm", "715.295 mm"),
    "metric-88": ("0.0005 mm", "3.0000 mm", "713.2955 mm", "716.2955 mm"),
    "metric-103": ("0.005 mm", "2.000 mm", "922.755 mm", "924.755 mm"),
    "metric-112": ("0.0005 mm", "3.0000 mm", "930.7955 mm", "933.7955 mm"),
    "metric-122": ("0.0005 mm", "3.0000 mm", "1307.7955 mm", "1310.7955 mm"),
}


def sizes_of(parts, unit):
    sizes = []
    for part in parts:
        if isinstance(part, str):
            sizes.append(Fraction(part))
            continue
        first, last, step = map(Fraction, part)
        sizes += [first + count * step for count in range(int((last - first) / step) + 1)]
    return sorted(size * unit.picometres for size in sizes)


def heights(sizes, step):
    """Return the heights some blocks add up to, as bits: bit h stands for h steps."""
    reached = 1
    for size in sizes:
        reached |= reached << (size // step)
    return reached


def gapless(reached, first, last):
    """Return whether every step from `first` to `last` is reached, and the next one each way is not."""
    wanted = ((1 << (last - first + 1)) - 1) << first
    return reached & wanted == wanted and not reached >> (first - 1) & 1 and not reached >> (last + 1) & 1


def test_every_shipped_set_is_checked():
    assert set(shipped_names()) == set(COMPOSITIONS)


@pytest.mark.parametrize("name", COMPOSITIONS)
def test_the_pieces_are_those_of_the_list(name):
    pieces, parts, _, _ = COMPOSITIONS[name]
    block_set, bars = load_set(shipped_path(name))

    assert len(block_set.issued) == pieces
    assert sorted(block.nominal for block in block_set.issued) == sizes_of(parts, block_set.unit)
    assert (block_set.absent, bars, block_set.name) == ((), (), name)


@pytest.mark.parametrize("name", COMPOSITIONS)
def test_the_file_says_where_its_list_comes_from(name):
    block_set, _ = load_set(shipped_path(name))

    assert block_set.source.endswith(f"({COMPOSITIONS[name][3]})")


@pytest.mark.parametrize("name", COVERAGE)
def test_every_step_of_the_computed_range_can_be_built_and_no_more(name):
    step, first, last, total = (read_length(text).length for text in COVERAGE[name])
    block_set, _ = load_set(shipped_path(name))
    sizes = [block.nominal for block in block_set.issued]

    assert (block_set.finest_step, sum(sizes)) == (step, total)
    assert gapless(heights(sizes, step), first // step, last // step)


def test_inch_81_cannot_build_0_1011():
    """Published claim "any size from 0.100 in" (shop tutorial, seen) is false; computed."""
    block_set, _ = load_set(shipped_path("inch-81"))
    step = block_set.finest_step
    reached = heights([block.nominal for block in block_set.issued], step)

    assert not reached >> 1011 & 1
    assert reached >> 1010 & 1


def test_metric_45_cannot_build_2_217():
    """German apprentice course, gauge blocks DIN 861 (seen): not all lengths can be made."""
    block_set, _ = load_set(shipped_path("metric-45"))
    reached = heights([block.nominal for block in block_set.issued], block_set.finest_step)

    assert not reached >> 2217 & 1
    assert reached >> 3217 & 1
