"""Facts about what sets reach, each one computed twice, apart from one another.

basis: computed.  No figure here is published; they were worked out by subset
sums with another program, and must come out of this one as they stand.  The
make-up of the sets is in test_set_compositions.py; the 1 mm-base set of 55
pieces is the published set of 56 without its 0.5 mm block.
"""

from fractions import Fraction

import pytest

from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import shipped_path
from gaugestack.lengths import Length, read_length
from gaugestack.stacks.ranking import what_matters
from gaugestack.stacks.survey import Span, every_step, survey


def length(text):
    return read_length(text).length


def span(low, high, step):
    return Span(low=length(low), high=length(high), step=length(step))


def blocks(name, *gone):
    out = [length(text) for text in gone]
    return tuple(block for block in load_set(shipped_path(name))[0].ordinary if block.nominal not in out)


def set_of_55(*gone):
    return blocks("metric-56", "0.5 mm", *gone)


def per_cent(part, whole, places=1):
    return round(float(Fraction(part, whole) * 100), places)


FROM_4_TO_50 = span("4 mm", "50 mm", "0.001 mm")


@pytest.mark.parametrize(
    ("gone", "five", "six"),
    [
        ((), 46_001, 46_001),
        (("1.005 mm",), 44_561, 46_001),
        (("1.005 mm", "1.06 mm", "1.3 mm"), 41_835, 45_849),
        (("10 mm", "20 mm"), 46_001, 46_001),
    ],
)
def test_losing_a_fine_block_of_the_set_of_55_hurts_and_a_plain_one_hardly_does(gone, five, six):
    found = survey(set_of_55(*gone), set_of_55(), FROM_4_TO_50, 5)
    assert found.span.heights == 46_001
    assert (found.within(5), found.within(6)) == (five, six)


@pytest.mark.parametrize(
    ("gone", "five", "six"),
    [
        (("1.005 mm",), 96.9, 100.0),
        (("1.005 mm", "1.06 mm", "1.3 mm"), 90.9, 99.7),
        (("10 mm", "20 mm"), 100.0, 100.0),
    ],
)
def test_the_shares_of_the_set_of_55_round_to_the_figures_given(gone, five, six):
    found = survey(set_of_55(*gone), set_of_55(), FROM_4_TO_50, 5)
    assert per_cent(found.within(5), 46_001) == five
    assert per_cent(found.within(6), 46_001) == six


@pytest.mark.parametrize(("gone", "made"), [((), 1300), (("1.005 mm",), 1210)])
def test_below_4_mm_a_single_stack_of_the_set_of_55_reaches_about_a_third(gone, made):
    found = survey(set_of_55(*gone), set_of_55(), span("0.5 mm", "4 mm", "0.001 mm"))
    assert (found.within(55), found.span.heights) == (made, 3501)


USUAL_81 = span("0.2 in", "4 in", "0.0001 in")


# set, range, heights by number of blocks; rounded, the shares given
HISTOGRAMS = {
    "inch-81": (USUAL_81, (0, 20, 1716, 12_892, 23_373), {2: "4.5", 3: "34", 4: "61.5"}),
    "inch-36": (USUAL_81, None, {4: "24", 5: "37", 6: "26"}),
    "metric-45": (span("3 mm", "100 mm", "0.001 mm"), (0, 16, 541, 7263, 32_319, 56_862), {4: "33", 5: "59"}),
    "metric-87": (span("2 mm", "100 mm", "0.001 mm"), (0, 26, 2178, 22_150, 73_647), {3: "23", 4: "75"}),
    "metric-112": (span("2 mm", "100 mm", "0.001 mm"), (0, 50, 3546, 31_342, 63_063), {3: "32", 4: "64"}),
}


@pytest.mark.parametrize("name", HISTOGRAMS)
def test_so_many_heights_need_so_many_blocks(name):
    looked, counts, shares = HISTOGRAMS[name]
    found = survey(blocks(name), blocks(name), looked)
    assert counts is None or found.counts == counts
    for number, share in shares.items():
        places = len(share.partition(".")[2])
        assert per_cent(found.counts[number], looked.heights, places) == float(share)


def test_882_of_the_1000_heights_below_0_2_inch_cannot_be_made_by_the_set_of_81():
    found = survey(blocks("inch-81"), blocks("inch-81"), span("0.1 in", "0.1999 in", "0.0001 in"))
    assert sum(gap.heights for gap in found.gaps) == 882
    assert found.share(81) == Fraction(118, 1000)


def value_of(name, engraved, looked):
    return next(value for value in what_matters(blocks(name), looked) if value.block.engraved == engraved)


@pytest.mark.parametrize(
    ("engraved", "lost", "longer"),
    [
        ("2.000 in", 0, 26),
        ("3.000 in", 0, 21),
        ("0.1009 in", 98, 9),
        ("0.1004 in", 96, 9),
        ("0.450 in", 0, 4),
    ],
)
def test_a_missing_block_of_the_set_of_81_costs_so_much(engraved, lost, longer):
    value = value_of("inch-81", engraved, USUAL_81)
    assert value.lost == lost
    assert per_cent(value.longer, 38_001, 0) == longer


def test_without_0_050_the_set_of_81_loses_441_heights_from_0_2511_to_0_2999():
    found = survey(blocks("inch-81", "0.050 in"), blocks("inch-81"), USUAL_81)
    assert sum(gap.heights for gap in found.lost) == 441
    ends = [(gap.first, gap.last + (gap.times - 1) * gap.every) for gap in found.lost]
    assert (min(a for a, _ in ends), max(b for _, b in ends)) == (length("0.2511 in"), length("0.2999 in"))


@pytest.mark.parametrize("gone", [f"0.100{n} in" for n in range(1, 10)])
def test_a_missing_last_figure_block_loses_heights_up_to_0_3002_inch_only(gone):
    found = survey(blocks("inch-81", gone), blocks("inch-81"), USUAL_81)
    assert all(gap.last + (gap.times - 1) * gap.every <= length("0.3002 in") for gap in found.lost)
    assert 96 <= sum(gap.heights for gap in found.lost) <= 99


@pytest.mark.parametrize(("engraved", "lost"), [("1.009 mm", 81), ("1.09 mm", 81), ("1.9 mm", 81)])
def test_a_missing_last_of_a_series_of_the_set_of_45_makes_9_per_cent_longer(engraved, lost):
    value = value_of("metric-45", engraved, span("3 mm", "100 mm", "0.001 mm"))
    assert (value.lost, per_cent(value.longer, 97_001, 0)) == (lost, 9)


def test_a_missing_whole_millimetre_of_the_set_of_45_loses_two_heights_or_none():
    values = what_matters(blocks("metric-45"), span("3 mm", "100 mm", "0.001 mm"))
    whole = {v.block.engraved: v.lost for v in values if v.block.nominal % length("1 mm") == 0}
    assert {size for size, lost in whole.items() if lost == 2} == {"1 mm", "2 mm"}
    assert {lost for size, lost in whole.items() if size not in {"1 mm", "2 mm"}} == {0}


def test_without_0_5_mm_the_set_of_87_loses_441_heights():
    assert value_of("metric-87", "0.5 mm", span("2 mm", "100 mm", "0.001 mm")).lost == 441


# set: step, every step from, to, sum of all
COVERAGE = {
    "inch-81": ("0.0001 in", "0.2 in", "26.3295 in", "26.5295 in"),
    "inch-36": ("0.0001 in", "0.3 in", "11.4495 in", "11.7495 in"),
    "inch-88": ("0.000025 in", "0.3 in", "26.8734 in", "27.1734 in"),
    "inch-35": ("0.0001 in", "0.3 in", "11.3995 in", "11.6995 in"),
    "inch-34": ("0.0001 in", "0.3 in", "10.9995 in", "11.2995 in"),
    "inch-thin-28": ("0.00005 in", "0.06 in", "0.81955 in", "0.87955 in"),
    "metric-112": ("0.0005 mm", "3 mm", "930.7955 mm", "933.7955 mm"),
    "metric-88": ("0.0005 mm", "3 mm", "713.2955 mm", "716.2955 mm"),
    "metric-87": ("0.001 mm", "2 mm", "713.295 mm", "715.295 mm"),
    "metric-103": ("0.005 mm", "2 mm", "922.755 mm", "924.755 mm"),
    "metric-47": ("0.005 mm", "3 mm", "570.955 mm", "573.955 mm"),
    "metric-46": ("0.001 mm", "3 mm", "623.995 mm", "626.995 mm"),
    "metric-45": ("0.001 mm", "3 mm", "523.995 mm", "526.995 mm"),
    "metric-32": ("0.005 mm", "3 mm", "185.955 mm", "188.955 mm"),
    "metric-122": ("0.0005 mm", "3 mm", "1307.7955 mm", "1310.7955 mm"),
    "metric-76": ("0.005 mm", "2 mm", "480.255 mm", "482.255 mm"),
    "metric-56": ("0.001 mm", "3 mm", "579.495 mm", "582.495 mm"),
}


@pytest.mark.parametrize("name", COVERAGE)
def test_every_step_is_made_from_here_to_there(name):
    step, first, last, whole = map(length, COVERAGE[name])
    run = every_step(blocks(name))
    assert run is not None
    assert (run.first, run.last) == (first, last)
    assert sum(block.nominal for block in blocks(name)) == whole
    assert every_step(blocks(name), Length(step)) == run


@pytest.mark.parametrize(
    ("name", "first"), [("metric-112", "2 mm"), ("metric-88", "2 mm"), ("metric-87", "2 mm")]
)
def test_whole_micrometres_are_made_from_2_mm_where_the_half_ones_begin_at_3(name, first):
    run = every_step(blocks(name), length("0.001 mm"))
    assert run is not None
    assert run.first == length(first)
