"""Widths in columns: cutting and wrapping what a user wrote."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gaugestack.cards.fitting import columns, cut, padded, wrap

WIDE = "\N{HAMMER AND WRENCH}\N{CJK UNIFIED IDEOGRAPH-91CF}"


@pytest.mark.parametrize(
    ("text", "wide"),
    [("abc", 3), ("", 0), ("\N{CJK UNIFIED IDEOGRAPH-91CF}", 2), ("e\N{COMBINING ACUTE ACCENT}", 1)],
)
def test_a_text_takes_its_columns(text, wide):
    assert columns(text) == wide


def test_a_text_that_fits_is_left_alone():
    assert cut("abc", 3) == "abc"


def test_a_text_too_long_ends_in_an_ellipsis():
    assert cut("abcdef", 4) == "abc\N{HORIZONTAL ELLIPSIS}"


def test_a_word_wider_than_the_line_is_broken():
    assert wrap("abcdefgh ij", 4) == ["abcd", "efgh", "ij"]


def test_words_are_kept_whole_where_they_fit():
    assert wrap("one two three", 7) == ["one two", "three"]


def test_nothing_wraps_to_one_empty_line():
    assert wrap("", 10) == [""]


def test_padding_counts_columns():
    assert padded("\N{CJK UNIFIED IDEOGRAPH-91CF}", 4) == "\N{CJK UNIFIED IDEOGRAPH-91CF}  "


@given(st.text(max_size=80), st.integers(min_value=2, max_value=40))
def test_nothing_is_ever_wider_than_asked(text, wide):
    assert columns(cut(text, wide)) <= wide
    assert all(columns(line) <= wide for line in wrap(text, wide))


@given(st.text(max_size=80), st.integers(min_value=2, max_value=40))
def test_wrapping_loses_no_character_but_spaces(text, wide):
    assert "".join("".join(wrap(text, wide)).split()) == "".join(text.split())
