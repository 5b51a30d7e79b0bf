"""The command `plate`: a compound sine plate and two stacks from one set."""

import pytest

from tests.cli.shell import gaugestack

BOX = ["--bottom", "5in", "--set", "inch-81"]


def plate(*arguments):
    return gaugestack("plate", *arguments, *BOX, "--json").json


@pytest.mark.parametrize(
    ("first", "second", "corrected", "height"),
    [("20deg", "30deg", 28.4812, 2.3844), ("10deg", "15deg", 14.7822, 1.2757)],
)
def test_the_second_angle_is_corrected_and_not_taken_as_seen(first, second, corrected, height):
    """A note on compound angles: tan C = tan B cos A; heights computed (uncorrected 2.5000 and 1.2941)."""
    found = plate(first, second, "--views", "part")

    assert found["bottom_angle_degrees"] == pytest.approx(corrected, abs=5e-5)
    assert float(found["bottom_height"].split()[0]) == pytest.approx(height, abs=5e-5)


def test_the_true_tilt_is_told():
    """acos(cos 20 cos 28.4812) = 34.3136 degrees (computed)."""
    assert plate("20deg", "30deg", "--views", "part")["true_tilt_degrees"] == pytest.approx(34.3136, abs=5e-5)


def test_the_views_decide_which_plate_takes_the_corrected_angle():
    of_part, of_plate = (plate("20deg", "30deg", "--views", what) for what in ("part", "plate"))

    assert of_part["top_angle_degrees"] == of_plate["bottom_angle_degrees"] == 20
    assert of_part["bottom_angle_degrees"] == of_plate["top_angle_degrees"]


def test_views_that_are_not_said_are_refused_with_both_meanings():
    done = gaugestack("plate", "20deg", "30deg", *BOX)

    assert done.code == 2
    assert "plate: " in done.err
    assert " part:\n" in done.err


def test_two_stacks_share_no_block():
    low, high = plate("20deg", "20deg", "--views", "part")["stacks"]

    assert (low["role"], high["role"]) == ("bottom", "top")
    names = [{block["nominal"] for block in stack["blocks"]} for stack in (low, high)]
    assert not names[0] & names[1]


def test_the_stacks_error_is_told_for_both_plates_and_the_tilt():
    found = plate("20deg", "30deg", "--views", "part")

    for name in ("bottom", "top", "tilt"):
        assert abs(found[f"{name}_error_arcsec"]) < 5


def test_two_bars_may_differ():
    bars = ["--bottom", "10in", "--top", "5in"]
    found = gaugestack("plate", "20deg", "30deg", "--views", "part", *bars, "--set", "inch-81", "--json").json

    assert found["bottom_bar"]["centre_distance"] == "10 in"
    assert found["top_bar"]["centre_distance"] == "5 in"


def test_a_bar_that_is_no_bar_is_refused_under_its_own_option():
    done = gaugestack("plate", "20deg", "30deg", "--views", "part", "--bottom", "5in", "--top", "bench")

    assert done.code == 2
    assert "--top: no bar is named 'bench'" in done.err


@pytest.mark.parametrize("second", ["90deg", "0deg"])
def test_a_view_no_plate_sets_is_refused(second):
    done = gaugestack("plate", "20deg", second, "--views", "part", *BOX)

    assert done.code == 2
    assert done.err.startswith("SECOND: ")


def test_heights_the_set_does_not_make_together_are_an_honest_no():
    done = gaugestack("plate", "0d20m", "0d20m", "--views", "part", *BOX)

    assert done.code == 1
    assert "Not possible" in done.out


def test_a_screen_is_at_most_80_columns_wide():
    out = gaugestack("plate", "20deg", "30deg", "--views", "part", *BOX, "--sketch").out

    assert max(map(len, out.splitlines())) <= 80
