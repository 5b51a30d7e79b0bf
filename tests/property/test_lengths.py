"""Lengths under Hypothesis: what is printed is read back as it was."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gaugestack.errors import TextError
from gaugestack.lengths import LONGEST, Unit, engraved_text, exact_text, read_length, rounded_text, small_text

UNITS = st.sampled_from(Unit)
LENGTHS = st.one_of(st.integers(1, LONGEST), st.integers(1, 10**6).map(lambda n: n * 254_000))


@given(LENGTHS, UNITS)
def test_an_exact_text_is_read_back_to_the_picometre(length, unit):
    assert read_length(exact_text(length, unit)).length == length


@given(st.integers(-LONGEST, LONGEST), UNITS)
def test_an_exact_text_keeps_its_sign(length, unit):
    assert read_length(exact_text(length, unit), signed=True).length == length


@given(LENGTHS, UNITS)
def test_an_engraved_text_is_read_back_to_the_picometre(length, unit):
    assert read_length(engraved_text(length, unit)).length == length


@given(st.integers(1, 10**9), UNITS)
def test_a_text_is_as_short_as_exactness_allows(length, unit):
    digits, _, name = exact_text(length, unit).partition(" ")

    assert name in (unit, Unit.MILLIMETRE)
    assert "." not in digits or not digits.endswith("0")


@given(st.integers(0, 300), st.integers(1, 99), st.integers(0, 6), st.booleans())
def test_a_fraction_is_read_as_the_number_it_is(whole, over, power, metric):
    under = 2**power
    unit = Unit.MILLIMETRE if metric else Unit.INCH
    text = f"{whole}-{over}/{under}{unit}" if whole else f"{over}/{under}{unit}"

    assert read_length(text).length == (whole + Fraction(over, under)) * unit.picometres


@given(st.fractions(min_value=Fraction(1, 2000), max_value=1000, max_denominator=2000))
def test_a_fraction_is_read_exactly_or_refused(value):
    picometres = value * Unit.INCH.picometres
    text = f"{value.numerator}/{value.denominator} in"

    if picometres.denominator == 1:
        assert read_length(text).length == picometres
    else:
        with pytest.raises(TextError, match="not a whole number of picometres"):
            read_length(text)


@given(st.fractions(min_value=-(10**13), max_value=10**13), UNITS, st.integers(0, 9))
def test_a_rounded_text_is_at_most_half_a_place_off(length, unit, places):
    number = Fraction(rounded_text(length, unit, places).partition(" ")[0])

    assert abs(number - length / unit.picometres) <= Fraction(1, 2 * 10**places)


@given(st.integers(-(10**9), 10**9), UNITS, st.integers(0, 3))
def test_a_deviation_is_at_most_half_a_place_off(length, unit, places):
    number = Fraction(small_text(length, unit, places).partition(" ")[0])

    assert abs(number - Fraction(length, unit.small_picometres)) <= Fraction(1, 2 * 10**places)


@given(st.text(max_size=70), st.sampled_from([None, *Unit]), st.booleans())
def test_any_text_is_read_or_refused_with_a_place_in_it(text, bare_unit, signed):
    faults, lengths = (), ()
    try:
        lengths = (read_length(text, bare_unit=bare_unit, signed=signed).length,)
    except TextError as refused:
        faults = (refused,)

    assert all(0 <= fault.start < fault.end <= max(len(text), 1, fault.start + 1) for fault in faults)
    assert all(abs(length) <= LONGEST and (signed or length > 0) for length in lengths)
