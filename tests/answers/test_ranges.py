"""Ranges as they are typed: both ends, their units, the steps they lie on."""

import pytest

from gaugestack.answers.ranges import read_range, read_span
from gaugestack.answers.stock import load
from gaugestack.errors import UsageError
from gaugestack.lengths import PM_PER_INCH, PM_PER_MM, Unit, exact_text

STOCK = load(["metric-88"])


def ends(text, unit=Unit.MILLIMETRE):
    low, high = read_range(text, unit)
    return low.length, high.length


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("4..50mm", 4 * PM_PER_MM, 50 * PM_PER_MM),
        ("0.2in..4in", PM_PER_INCH // 5, 4 * PM_PER_INCH),
        ("0.2..4in", PM_PER_INCH // 5, 4 * PM_PER_INCH),
        ("1in..2", PM_PER_INCH, 2 * PM_PER_INCH),
        ("4..50", 4 * PM_PER_MM, 50 * PM_PER_MM),
        ("1in..30mm", PM_PER_INCH, 30 * PM_PER_MM),
        ("0..5 mm", 0, 5 * PM_PER_MM),
        (" 4 .. 5 mm ", 4 * PM_PER_MM, 5 * PM_PER_MM),
        ("1/2..3/4in", PM_PER_INCH // 2, PM_PER_INCH * 3 // 4),
    ],
)
def test_a_bare_end_takes_the_unit_of_the_other(text, low, high):
    assert ends(text) == (low, high)


@pytest.mark.parametrize("text", ["5", "5-6mm", "5..", "..", "6..5mm", "-1..5mm", "1..2..3", "0..0mm"])
def test_what_is_no_range_is_refused(text):
    with pytest.raises(UsageError):
        read_range(text, Unit.MILLIMETRE)


def span(text, step=None):
    return read_span(text, stock=STOCK, blocks=STOCK.fit, step=step)


def test_a_range_on_the_steps_is_taken_as_it_is():
    found = span("4..5mm")

    assert (found.span.heights, found.remarks) == (2001, ())


def test_ends_between_steps_move_inward_and_it_is_said():
    found = span("4.0002..4.0012mm")

    assert exact_text(found.span.low, Unit.MILLIMETRE) == "4.0005 mm"
    assert exact_text(found.span.high, Unit.MILLIMETRE) == "4.001 mm"
    assert found.remarks == (
        "the range begins at 4.0005 mm, the nearest step inside",
        "the range ends at 4.001 mm, the nearest step inside",
    )


def test_a_range_from_zero_begins_with_the_first_step():
    found = span("0..1mm", "0.5mm")

    assert (found.span.heights, found.remarks) == (
        2,
        ("the range begins at 0.5 mm, the first step above zero",),
    )


def test_a_step_off_the_grid_is_refused_with_the_grid():
    with pytest.raises(UsageError, match=r"take a multiple of 0\.0005 mm"):
        span("4..5mm", "0.7um")
