"""Published limits of gauge blocks, copied again by hand; source and basis stand beside each."""

from fractions import Fraction
from itertools import pairwise
from math import isqrt

import pytest

from gaugestack.grades import Standard, known_grades, limits, permissible_change
from gaugestack.lengths import Unit

MM, UM, NM, INCH, UIN = 1_000_000_000, 1_000_000, 1000, 25_400_000_000, 25_400

# ISO 3650:1998, clause 7, te and tv in µm; seen in reprints of the same table as
# DIN 861 (0, 1, 2); nominal lengths up to, then te and tv of 0, 1, 2
ISO_3650 = [
    (10, "0.12 0.10", "0.20 0.16", "0.45 0.30"),
    (25, "0.14 0.10", "0.30 0.16", "0.60 0.30"),
    (50, "0.20 0.10", "0.40 0.18", "0.80 0.30"),
    (75, "0.25 0.12", "0.50 0.18", "1.00 0.35"),
    (100, "0.30 0.12", "0.60 0.20", "1.20 0.35"),
    (150, "0.40 0.14", "0.80 0.20", "1.60 0.40"),
    (200, "0.50 0.16", "1.00 0.25", "2.00 0.40"),
    (250, "0.60 0.16", "1.20 0.25", "2.40 0.45"),
    (300, "0.70 0.18", "1.40 0.25", "2.80 0.50"),
    (400, "0.90 0.20", "1.80 0.30", "3.60 0.50"),
    (500, "1.10 0.25", "2.20 0.35", "4.40 0.60"),
    (600, "1.30 0.25", "2.60 0.40", "5.00 0.70"),
    (700, "1.50 0.30", "3.00 0.45", "6.00 0.70"),
    (800, "1.70 0.30", "3.40 0.50", "6.50 0.80"),
    (900, "1.90 0.35", "3.80 0.50", "7.50 0.90"),
    # tv of grade 2: 1.00 in one reprint, 1.50 in two, which is taken as a slip
    (1000, "2.00 0.40", "4.20 0.60", "8.00 1.00"),
]
# GGG-G-15C (1975), inch table, µin: memory, with confidence up to 4 in
GGG_G_15C = [
    (1, (1, -1), (2, -2), (4, -2), (8, -4)),
    (2, (2, -2), (4, -4), (8, -4), (16, -8)),
    (3, (3, -3), (5, -5), (10, -5), (20, -10)),
    (4, (4, -4), (6, -6), (12, -6), (24, -12)),
]
# the longer rows, less certain: L, L + 2, twice and four times that, up to 16 in; half of it below
GGG_G_15C += [
    (upto, (upto, -upto), (rest, -rest), (2 * rest, -rest), (4 * rest, -2 * rest))
    for upto, rest in ((size, size + 2) for size in (5, 6, 7, 8, 10, 12, 16))
]
GGG_G_15C += [(20, (20, -20), (20, -20), (40, -20), (80, -40))]
# Variation of grade K, ISO 3650:1998, clause 7: memory; that of the former grade 00, DIN 861: seen
TV_OF_K = [50, 50, 60, 60, 70, 80, 90, 100, 100, 120, 140, 160, 180, 200, 200, 250]
# Limit deviation of grade 00 in nm: DIN 861 (seen), but 70 up to 10 mm (ASME B89.1.9-2002: memory)
TE_OF_00 = [70, 70, 100, 120, 140, 200, 250, 300, 350, 450, 500, 600, 700, 800, 900, 1000]
# ASME B89.1.9-2002, inch table, µin, 00, 0, K, AS-1, AS-2: memory; of the doubtful
# row over 8 to 10 in, 104 for AS-2, only its place is tested
ASME_INCH = [
    (0.05, 4, 6, 12, 12, 24),
    (0.4, 3, 5, 8, 8, 18),
    (1, 3, 6, 12, 12, 24),
    (2, 4, 8, 16, 16, 32),
    (3, 5, 10, 20, 20, 40),
    (4, 6, 12, 24, 24, 48),
    (5, 8, 16, 32, 32, 64),
    (6, 8, 16, 32, 32, 64),
    (7, 10, 20, 40, 40, 80),
    (8, 10, 20, 40, 40, 80),
    (10, 12, 24, 48, 48, None),
    (12, 14, 28, 56, 56, 112),
    (16, 18, 36, 72, 72, 144),
    (20, 20, 44, 88, 88, 176),
]


def allowed(standard, grade, nominal, unit=Unit.MILLIMETRE):
    return limits(standard, grade, nominal, unit=unit)


@pytest.mark.parametrize(("upto", "zero", "one", "two"), ISO_3650)
def test_iso_3650_clause_7_te_and_tv(upto, zero, one, two):
    for grade, printed in (("0", zero), ("1", one), ("2", two)):
        te, tv = (int(Fraction(text) * UM) for text in printed.split())
        found = allowed(Standard.ISO_3650, grade, upto * MM)
        assert (found.upper, found.lower, found.variation, found.basis) == (te, -te, tv, "seen")


@pytest.mark.parametrize(("upto", "zero", "one", "two"), ISO_3650)
def test_asme_metric_grades_have_the_limits_of_iso_3650(upto, zero, one, two):
    # ASME B89.1.9-2002, scope (seen): K, 0, AS-1, AS-2 as ISO 3650 K, 0, 1, 2
    for asme, printed in (("0", zero), ("AS-1", one), ("AS-2", two)):
        te, tv = (int(Fraction(text) * UM) for text in printed.split())
        found = allowed(Standard.ASME_B89_1_9, asme, upto * MM)
        assert (found.upper, found.lower, found.variation, found.basis) == (te, -te, tv, "derived")


def test_grade_k_has_te_of_grade_1_and_a_smaller_tv():
    # ISO 3650:1998, clause 7: memory
    for (upto, _, one, _), variation in zip(ISO_3650, TV_OF_K, strict=True):
        found = allowed(Standard.ISO_3650, "K", upto * MM)
        assert found.upper == Fraction(one.split()[0]) * UM
        assert (found.variation, found.basis) == (variation * NM, "memory")


@pytest.mark.parametrize(("upto", "half", "one", "two", "three"), GGG_G_15C)
def test_ggg_g_15c_inch_limits(upto, half, one, two, three):
    for grade, (upper, lower) in zip(("0.5", "1", "2", "3"), (half, one, two, three), strict=True):
        found = allowed(Standard.GGG_G_15C, grade, upto * INCH, Unit.INCH)
        assert (found.upper, found.lower, found.variation) == (upper * UIN, lower * UIN, None)
        assert found.basis == "memory"


@pytest.mark.parametrize(("upto", "printed"), [(row[0], row[1:]) for row in ASME_INCH])
def test_asme_inch_limits(upto, printed):
    for grade, te in zip(("00", "0", "K", "AS-1", "AS-2"), printed, strict=True):
        found = allowed(Standard.ASME_B89_1_9, grade, int(upto * INCH), Unit.INCH)
        if te is not None:
            assert (found.upper, found.lower, found.variation) == (te * UIN, -te * UIN, None)
            assert (found.source, found.basis) == (ASME_INCH_SOURCE, "memory")


@pytest.mark.parametrize("row", range(16))
def test_asme_metric_grades_00_and_k_vary_as_grade_k_of_iso_3650(row):
    upto, te_of_k = ISO_3650[row][0], Fraction(ISO_3650[row][2].split()[0]) * 1000
    for grade, te in (("00", TE_OF_00[row]), ("K", te_of_k)):
        found = allowed(Standard.ASME_B89_1_9, grade, upto * MM)
        assert (found.upper, found.variation) == (te * NM, TV_OF_K[row] * NM)
        assert found.source == "ASME B89.1.9-2002, metric table of limit deviations"
        assert found.basis == "memory"


ASME_INCH_SOURCE = "ASME B89.1.9-2002, inch table of limit deviations"
ENDS = [
    # standard, unit, grade, lower end and whether it belongs, upper end of each row in the unit
    (Standard.ISO_3650, Unit.MILLIMETRE, "1", (Fraction(1, 2), True), [row[0] for row in ISO_3650]),
    (Standard.ASME_B89_1_9, Unit.MILLIMETRE, "AS-1", (Fraction(1, 2), True), [row[0] for row in ISO_3650]),
    (Standard.ASME_B89_1_9, Unit.INCH, "AS-1", (Fraction(1, 100), True), [row[0] for row in ASME_INCH]),
    (Standard.GGG_G_15C, Unit.INCH, "1", (0, False), [row[0] for row in GGG_G_15C]),
]


@pytest.mark.parametrize(("standard", "unit", "grade", "lowest", "ends"), ENDS)
def test_a_row_ends_with_its_printed_length_and_the_next_begins_a_picometre_above(
    standard, unit, grade, lowest, ends
):
    sizes = [int(Fraction(str(end)) * unit.picometres) for end in ends]
    for size, following in pairwise(sizes):
        assert allowed(standard, grade, size + 1, unit) == allowed(standard, grade, following, unit)
    assert allowed(standard, grade, sizes[-1] + 1, unit) is None
    begin = int(lowest[0] * unit.picometres)
    assert (allowed(standard, grade, begin, unit) is not None) == lowest[1]
    assert allowed(standard, grade, begin - 1, unit) is None
    assert allowed(standard, grade, begin + 1, unit) == allowed(standard, grade, sizes[0], unit)


def test_the_standards_are_called_by_their_designations():
    assert [str(standard) for standard in Standard] == ["ISO 3650", "ASME B89.1.9", "GGG-G-15C"]
    metric = allowed(Standard.GGG_G_15C, "1", MM)
    assert metric.source == "US Federal Specification GGG-G-15C (1975), metric table"


def test_asme_inch_limits_are_the_metric_ones_within_rounding():
    # Computed: 0.4 in to 8 in, every grade but 00, within a tenth of the metric limit
    for inches in (1, 2, 3, 4, 6, 8):
        for grade in ("0", "K", "AS-1", "AS-2"):
            inch = allowed(Standard.ASME_B89_1_9, grade, inches * INCH, Unit.INCH)
            metric = allowed(Standard.ASME_B89_1_9, grade, inches * 25 * MM)
            assert abs(inch.upper - metric.upper) <= metric.upper / 10


def test_four_grade_2_blocks_are_out_by_2_15_um_at_worst_and_1_12_um_as_root_sum_of_squares():
    # Computed from ISO 3650: three blocks up to 10 mm and one up to 50 mm
    each = [allowed(Standard.ISO_3650, "2", size * MM).upper for size in (1, 2, 5, 40)]

    assert sum(each) == 2_150_000
    assert round(isqrt(sum(limit * limit for limit in each)), -4) == 1_120_000


# US Army TB 9-5210-205-50, table 4 (seen, evaluated): 0.02 µm + 0.25e-6 L and
# 0.05 µm + 0.5e-6 L; ISO 3650:1998, 6.2.4, from memory
@pytest.mark.parametrize(
    ("standard", "grade", "millimetres", "change"),
    [
        (Standard.ASME_B89_1_9, "0", 25, 26_250),
        (Standard.ASME_B89_1_9, "0", 100, 45_000),
        (Standard.ASME_B89_1_9, "AS-1", 25, 62_500),
        (Standard.ASME_B89_1_9, "AS-2", 100, 100_000),
        (Standard.ISO_3650, "K", 25, 26_250),
        (Standard.ISO_3650, "2", 25, 62_500),
    ],
)
def test_permissible_change_in_a_year(standard, grade, millimetres, change):
    assert permissible_change(standard, grade, millimetres * MM) == change


def test_four_blocks_up_to_10_mm():
    # Computed from ISO 3650: 0.48, 0.80 and 1.80 µm for grades 0, 1 and 2
    sums = [4 * allowed(Standard.ISO_3650, grade, 5 * MM).upper for grade in ("0", "1", "2")]

    assert sums == [480_000, 800_000, 1_800_000]


def test_limits_grow_with_the_length_and_from_grade_to_grade():
    for standard in Standard:
        for unit in Unit:
            sizes = [size * unit.picometres // 4 for size in range(2, 80)]
            table = [
                [limits(standard, grade, size, unit=unit) for grade in known_grades(standard)]
                for size in sizes
            ]
            rows = [[found.deviation for found in row] for row in table if all(row)]
            assert len(rows) > 60
            assert all(row == sorted(row) for row in rows)
            assert all(a <= b for one, two in pairwise(rows) for a, b in zip(one, two, strict=True))
