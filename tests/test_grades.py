"""What a grade allows, which one is still met, and when a certificate is due."""

from dataclasses import replace
from datetime import date

import pytest

from gaugestack.blocks import Block, Certificate, Due, DueState, due_state
from gaugestack.errors import TextError
from gaugestack.grades import (
    GradeMet,
    Limits,
    Standard,
    grade_remarks,
    grade_still_met,
    known_grades,
    limits,
    outside_grade,
    permissible_change,
    read_standard,
)
from gaugestack.lengths import Unit

MM, NM, INCH, UIN = 1_000_000_000, 1000, 25_400_000_000, 25_400
ISO, ASME, FEDERAL = Standard.ISO_3650, Standard.ASME_B89_1_9, Standard.GGG_G_15C


def metric(millimetres, deviation=None, variation=None):
    scaled = (None if nm is None else nm * NM for nm in (deviation, variation))
    deviation, variation = scaled
    return Block(nominal=millimetres * MM, unit=Unit.MILLIMETRE, deviation=deviation, variation=variation)


def inch(inches, deviation):
    return Block(nominal=int(inches * INCH), unit=Unit.INCH, deviation=deviation * UIN)


# Names


@pytest.mark.parametrize(
    ("text", "standard"),
    [
        ("ISO 3650", ISO),
        ("iso3650:1998", ISO),
        ("DIN EN ISO 3650", ISO),
        ("BS EN ISO 3650:1999", ISO),
        ("JIS B 7506:2004", ISO),
        ("ASME B89.1.9", ASME),
        ("ASME B89.1.9-2002", ASME),
        ("ANSI/ASME B89.1.9", ASME),
        ("GGG-G-15C", FEDERAL),
        ("ggg-g-15c", FEDERAL),
    ],
)
def test_a_standard_is_read_with_or_without_its_year(text, standard):
    assert read_standard(text) is standard


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("ISO 3560:1998", "did you mean 'ISO 3650'?"),
        ("ASME B98.1.9", "did you mean 'ASME B89.1.9'?"),
        ("ISO 3:2001", "did you mean 'ISO 3650'?"),
        (
            "of the shop",
            (
                "known: ASME B89.1.9, BS EN ISO 3650, DIN EN ISO 3650, EN ISO 3650, GGG-G-15C, ISO 3650, "
                "JIS B 7506"
            ),
        ),
    ],
)
def test_another_standard_is_refused_with_the_nearest(text, hint):
    with pytest.raises(TextError) as caught:
        read_standard(text)

    assert caught.value.sentence == f"{text!r} is no standard whose grades are known"
    assert caught.value.hint == hint
    assert (caught.value.text, caught.value.start, caught.value.end) == (text, 0, len(text))


def test_an_empty_text_is_no_standard():
    with pytest.raises(TextError, match="is no standard whose grades are known"):
        read_standard("")


def test_grades_stand_in_the_order_of_their_limits():
    assert known_grades(ISO) == ("0", "K", "1", "2")
    assert known_grades(ASME) == ("00", "0", "K", "AS-1", "AS-2")
    assert known_grades(FEDERAL) == ("0.5", "1", "2", "3")


def test_remarks_name_what_is_not_known():
    assert grade_remarks("", "") == ()
    assert grade_remarks("ISO 3650", "1") == ()
    assert grade_remarks("ISO 3650", "AS-1") == (
        "ISO 3650 has no grade 'AS-1' that is known here (known: 0, 1, 2, K)",
    )
    assert grade_remarks("", "1") == ("grade '1' without a standard: what it allows cannot be said",)
    assert grade_remarks("ISO 3650", "") == ()
    assert grade_remarks("ISO 3560", "1") == (
        "'ISO 3560' is no standard whose grades are known (did you mean 'ISO 3650'?)",
    )


# Limits


def test_a_length_belongs_to_the_row_that_ends_with_it():
    assert limits(ISO, "1", 10 * MM).upper == 200 * NM
    assert limits(ISO, "1", 10 * MM + 1).upper == 300 * NM


def test_iso_3650_reaches_from_half_a_millimetre_to_a_metre():
    assert limits(ISO, "1", MM // 2 - 1) is None
    assert limits(ISO, "1", MM // 2).upper == 200 * NM
    assert limits(ISO, "1", 1000 * MM).upper == 4200 * NM
    assert limits(ISO, "1", 1000 * MM + 1) is None


def test_the_federal_table_begins_above_zero():
    assert limits(FEDERAL, "1", 0, unit=Unit.INCH) is None
    assert limits(FEDERAL, "1", 1, unit=Unit.INCH).upper == 2 * UIN
    assert limits(FEDERAL, "1", 0) is None
    assert limits(FEDERAL, "1", 1).upper == 50 * NM


def test_a_grade_of_another_standard_has_no_limits():
    assert limits(ISO, "AS-1", MM) is None


def test_an_inch_block_has_the_inch_table_where_there_is_one():
    assert limits(ASME, "AS-1", INCH, unit=Unit.INCH).upper == 12 * UIN
    assert limits(ASME, "AS-1", INCH, unit=Unit.MILLIMETRE).upper == 400 * NM
    assert limits(ISO, "1", INCH, unit=Unit.INCH) == limits(ISO, "1", INCH)


def test_limits_name_their_source_and_the_larger_side():
    found = limits(FEDERAL, "3", INCH, unit=Unit.INCH)

    assert (found.upper, found.lower, found.deviation) == (8 * UIN, -4 * UIN, 8 * UIN)
    assert found.source == "US Federal Specification GGG-G-15C (1975), inch table"


def test_the_larger_of_two_unequal_limits_is_the_limit_deviation():
    wide_below = Limits(upper=2 * NM, lower=-5 * NM, variation=None, source="", basis="")

    assert wide_below.deviation == 5 * NM


# Outside a grade


def test_a_block_on_its_limit_is_inside():
    assert outside_grade(metric(5, 200, 160), ISO, "1") == ()
    assert outside_grade(metric(5, -200), ISO, "1") == ()


def test_a_block_beyond_its_limit_is_outside():
    (sentence,) = outside_grade(metric(5, 201), ISO, "1")

    assert sentence == (
        "the deviation +0.201 µm is outside grade 1 (-0.200 µm to +0.200 µm; "
        "ISO 3650:1998, clause 7, table of te and tv)"
    )
    assert len(outside_grade(metric(5, -201), ISO, "1")) == 1


def test_an_inch_block_is_told_to_a_hundredth_of_a_microinch():
    (sentence,) = outside_grade(replace(inch(1, 12), deviation=12 * UIN + 254), ASME, "AS-1")

    assert sentence.startswith("the deviation +12.01 µin is outside grade AS-1 (-12.00 µin to +12.00 µin; ")


def test_a_block_that_varies_too_much_is_outside():
    (sentence,) = outside_grade(metric(5, 0, 161), ISO, "1")

    assert sentence == (
        "the variation 0.161 µm is above that of grade 1 (0.160 µm; "
        "ISO 3650:1998, clause 7, table of te and tv)"
    )
    assert len(outside_grade(metric(5, 201, 161), ISO, "1")) == 2


def test_limits_that_are_not_symmetrical_are_kept_apart():
    assert outside_grade(inch(1, 8), FEDERAL, "3") == ()
    assert outside_grade(inch(1, -5), FEDERAL, "3") != ()


def test_a_block_without_a_value_is_not_outside():
    assert outside_grade(metric(5), ISO, "0") == ()


def test_a_length_without_limits_is_not_outside():
    assert outside_grade(metric(2000, 9000), ISO, "0") == ()


# The grade still met


def test_every_block_within_grade_0_makes_grade_0():
    blocks = [metric(5, 120), metric(20, -140)]

    assert grade_still_met(blocks, ISO) == GradeMet(grade="0", length_only=True)


def test_one_block_beyond_it_makes_the_next_grade_and_is_named():
    good, worn = metric(5, 120), metric(20, -150)

    assert grade_still_met([good, worn], ISO) == GradeMet(grade="1", limited_by=(worn,), length_only=True)


def test_grade_k_is_met_only_where_every_variation_was_judged():
    blocks = [metric(5, 150, 50), metric(20, 0, 50)]

    assert grade_still_met(blocks, ISO).grade == "K"
    assert grade_still_met([*blocks, metric(30, 0)], ISO).grade == "1"
    assert grade_still_met([*blocks, metric(30, 0, 70)], ISO).grade == "1"


def test_inch_blocks_never_make_grade_k_because_their_table_has_no_variation():
    block = replace(inch(1, 8), variation=0)

    assert grade_still_met([block], ASME) == GradeMet(grade="AS-1", limited_by=(block,), length_only=True)


def test_a_block_beyond_every_grade_makes_none():
    worn = metric(5, -500)

    assert grade_still_met([worn], ISO) == GradeMet(grade=None, limited_by=(worn,), length_only=True)


def test_blocks_without_a_value_are_named_and_do_not_count():
    bare, long = metric(5), metric(2000, 0, 0)

    met = grade_still_met([bare, long, metric(5, 0, 0)], ISO)

    assert met == GradeMet(grade="0", without_values=(bare,), outside_tables=(long,))


def test_an_inch_block_longer_than_the_inch_table_is_outside_it_though_the_metric_one_goes_on():
    long = inch(25, 0)

    assert grade_still_met([long, inch(1, 0)], ASME).outside_tables == (long,)
    assert limits(ASME, "0", long.nominal) is not None


def test_nothing_is_met_where_no_block_has_a_value():
    bare = metric(5)

    assert grade_still_met([bare], ISO).grade is None
    assert grade_still_met([], ISO).grade is None


# Change in a year


def test_a_change_in_a_year_is_known_where_a_source_gives_it():
    assert permissible_change(ISO, "0", 100 * MM) == 45_000
    assert permissible_change(ISO, "1", 4_000_001) == 50_002
    assert permissible_change(ISO, "0", 7_999_999) == 20_001
    assert permissible_change(ASME, "1", 100 * MM) is None
    assert permissible_change(ISO, "AS-1", 100 * MM) is None
    assert permissible_change(ASME, "00", 100 * MM) is None
    assert permissible_change(FEDERAL, "1", 100 * MM) is None


# Due


@pytest.mark.parametrize(
    ("on", "state", "days"),
    [
        (date(2027, 1, 3), DueState.VALID, 31),
        (date(2027, 1, 4), DueState.DUE_SOON, 30),
        (date(2027, 2, 3), DueState.DUE_SOON, 0),
        (date(2027, 2, 4), DueState.OVERDUE, -1),
    ],
)
def test_a_certificate_is_due_on_its_day_and_overdue_the_day_after(on, state, days):
    certificate = Certificate(date=date(2026, 2, 3), due=date(2027, 2, 3))

    assert due_state(certificate, on) == Due(state=state, days=days)


@pytest.mark.parametrize("certificate", [None, Certificate(date=date(2020, 1, 1))])
def test_without_a_due_day_nothing_is_due(certificate):
    assert due_state(certificate, date(2027, 2, 4)) == Due(state=DueState.NONE)
