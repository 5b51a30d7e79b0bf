"""The wear of a block on paper and in the terminal: points and limits measured."""

import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.cards.trendpicture import trend_svg
from gaugestack.cards.trendrows import trend_rows
from gaugestack.lengths import Length
from tests.cards.drawings import SVG, moved, outside, overlaps, points, words
from tests.cards.samples import INCH, WORN, LimitLine, calibrations, wear

ENDS = (Length(-6 * 25_400), Length(6 * 25_400))


def dots(text):
    circles = [node for node, _ in moved(text) if node.tag == f"{SVG}circle"]
    return [complex(float(node.get("cx")), float(node.get("cy"))) for node in circles]


def limit_lines(text):
    """Return how far down each limit line lies, the highest first."""
    return sorted(points(node)[0].imag for node, _ in moved(text) if node.get("stroke-width") == "0.9")


def dashed(text):
    return [node for node, _ in moved(text) if node.get("stroke-dasharray") == "2.4 1.4"]


def test_each_calibration_is_a_point_between_the_limits_where_it_belongs():
    text = trend_svg(wear())
    _, upper, lower, _ = limit_lines(text)
    middle, one = (upper + lower) / 2, (lower - upper) / 12

    assert [(middle - dot.imag) / one for dot in dots(text)] == pytest.approx([v for _, v in WORN], abs=0.02)


def test_days_lie_where_they_belong_between_the_years():
    text = trend_svg(wear())
    years = {
        node.text: float(node.get("x"))
        for node, _ in moved(text)
        if node.tag == f"{SVG}text" and node.text in ("2018", "2020")
    }
    year = (years["2020"] - years["2018"]) / 2

    assert (dots(text)[1].real - years["2018"]) / year == pytest.approx(33 / 365, abs=0.01)


def test_each_limit_line_carries_its_value_and_its_name():
    said = words(trend_svg(wear()))

    assert "-6.0 µin grade AS-1 as new" in said
    assert "+12.0 µin the owner's own limit" in said


def test_a_trend_has_its_band_and_its_sentence():
    text = trend_svg(wear())

    assert len(dashed(text)) == 2
    assert any(said.startswith("wears: -0.6 µin a year") for said in words(text))


def test_two_calibrations_are_points_without_a_line():
    text = trend_svg(wear(WORN[:2]))

    assert len(dots(text)) == 2
    assert dashed(text) == []


def test_a_block_without_calibrations_says_so():
    assert "no calibration is known" in words(trend_svg(wear(())))


def test_a_block_without_limits_is_drawn_too():
    text = trend_svg(wear(limits=()))

    assert limit_lines(text) == []
    assert len(dots(text)) == 5


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.dates(min_value=dt.date(1901, 1, 1), max_value=dt.date(2199, 12, 31)).map(str),
            st.integers(-500, 500),
        ),
        max_size=12,
    ),
    st.integers(0, 10**7),
)
def test_no_label_lies_on_another_whatever_the_wear(found, limit):
    limits = (
        LimitLine(name="grade 0", lower=Length(-limit), upper=Length(limit)),
        LimitLine(name="own", lower=Length(-limit - 1), upper=Length(limit + 1)),
    )
    text = trend_svg(wear(tuple(found), limits=limits))

    assert overlaps(text) == []
    assert outside(text) == []


def test_a_row_stands_between_the_walls_where_the_deviation_does():
    head, zero = trend_rows(calibrations(("2026-02-03", 0)), ENDS, INCH)
    left, right = zero.index("|"), zero.rindex("|")

    assert "-6.0 µin" in head
    assert "+6.0 µin" in head
    assert zero.index("o") == (left + right) / 2


@pytest.mark.parametrize(("value", "before"), [(-7, True), (7, False)])
def test_a_deviation_outside_stands_beyond_its_wall(value, before):
    row = list(trend_rows(calibrations(("2026-02-03", value)), ENDS, INCH))[1]

    assert (row.index("o") < row.index("|")) is before
    assert row.index("|") < row.rindex("|")


@pytest.mark.parametrize(("value", "step"), [(-6, 1), (6, -1)])
def test_a_deviation_on_the_limit_stands_inside_at_the_wall(value, step):
    row = list(trend_rows(calibrations(("2026-02-03", value)), ENDS, INCH))[1]
    wall = row.index("|") if step > 0 else row.rindex("|")

    assert row.index("o") == wall + step


def test_rows_are_in_the_order_of_their_days_and_below_80_columns():
    rows = list(trend_rows(calibrations(*reversed(WORN)), ENDS, INCH))

    assert [row.split()[0] for row in rows[1:]] == [day for day, _ in WORN]
    assert max(map(len, rows)) <= 80
