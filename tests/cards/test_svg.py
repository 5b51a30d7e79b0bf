"""Words that fit their room, and labels that keep apart."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gaugestack.cards.svg import ELLIPSIS, escaped, filled, fitted, number, spread, wide


@pytest.mark.parametrize(
    ("text", "safe"),
    [('a<b>&"c"', "a&lt;b&gt;&amp;&quot;c&quot;"), ("a\x00\u202eb", "a\ufffd\ufffdb"), ("plain", "plain")],
)
def test_a_text_is_escaped_and_without_control_characters(text, safe):
    assert escaped(text) == safe


@pytest.mark.parametrize(("value", "text"), [(1.0, "1"), (-0.001, "0"), (1.239, "1.24"), (-2.5, "-2.5")])
def test_a_number_has_two_decimals_and_no_closing_zeros(value, text):
    assert number(value) == text


def test_words_that_fit_stay_whole():
    assert fitted("short", wide("short", 3), 3) == "short"


def test_words_that_do_not_fit_are_cut_with_an_ellipsis():
    cut = fitted("much too long", 15, 3)

    assert cut.endswith(ELLIPSIS)
    assert wide(cut, 3) <= 15


@given(st.text(), st.floats(1, 200))
def test_cut_words_never_leave_their_room_where_an_ellipsis_fits(words, room):
    assert wide(fitted(words, room, 3), 3) <= max(room, wide(ELLIPSIS, 3))


def test_a_sentence_fills_its_lines():
    assert filled("one two three", wide("one two", 3), 3) == ("one two", "three")


def test_labels_with_room_stay_where_they_are_wanted():
    assert spread([0, 10, 20], 5, 0, 30) == [0, 10, 20]


def test_crowded_labels_share_the_shift():
    assert spread([10, 10, 10], 4, 0, 30) == [6, 10, 14]


def test_labels_stay_above_the_lowest_and_below_the_highest_line():
    assert spread([0, 0, 0], 4, 2, 30) == [2, 6, 10]
    assert spread([30, 30, 30], 4, 2, 30) == [22, 26, 30]


@given(st.lists(st.floats(0, 100), max_size=30).map(sorted))
def test_labels_are_always_a_line_apart_and_in_order(wanted):
    places = spread(wanted, 5, 0, 200)

    assert len(places) == len(wanted)
    assert all(after - before >= 5 - 1e-9 for before, after in pairwise(places))
    assert all(-1e-9 <= place <= 200 + 1e-9 for place in places)
