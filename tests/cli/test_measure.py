"""The commands of `measure`: rolls, balls and discs, both ways."""

import pytest

from tests.cli.shell import gaugestack

PLUG = ["rolls", "morse 3", "--end-diameter", "0.778in", "--roll", "0.25in", "--stack", "2in"]
BOX = ["--set", "inch-81"]


def measure(*arguments):
    """Return the JSON form of a command of `measure`."""
    done = gaugestack("measure", *arguments, "--json")
    assert done.err == ""
    return done.json


def size(text, unit="in"):
    number, said = text.split()
    assert said == unit
    return float(number)


def test_rolls_tell_both_sizes_to_expect():
    """0.250 in rolls, D0 0.778 in, Morse 3, stacks 0 and 2 in: 1.28435 and 1.38474 in (computed)."""
    over = measure(*PLUG, *BOX)["over_rolls"]

    assert size(over["low"]) == pytest.approx(1.28435, abs=5e-6)
    assert size(over["high"]) == pytest.approx(1.38474, abs=5e-6)


def test_rolls_stand_on_two_equal_stacks_that_share_no_block():
    found = measure(*PLUG, *BOX)
    left, right = found["stacks"]

    assert (left["role"], right["role"]) == ("left", "right")
    assert left["length"] == right["length"] == "2.000 in" or left["length"] == right["length"] == "2 in"
    names = [[block["nominal"] for block in stack["blocks"]] for stack in (left, right)]
    assert not set(names[0]) & set(names[1])


def test_rolls_that_were_measured_give_the_cone_and_its_end_back():
    over = measure(*PLUG, *BOX)["over_rolls"]
    words = [
        "rolls",
        "morse 3",
        "--readings",
        over["low"],
        over["high"],
        "--stack",
        "2in",
        "--roll",
        "0.25in",
    ]
    found = measure(*words, *BOX)

    assert found["measured"]["half_angle_error_arcsec"] == pytest.approx(0, abs=0.01)
    assert size(found["end_diameter"]) == pytest.approx(0.778, abs=1e-7)


def test_rolls_may_lie_on_a_lower_pair_instead_of_the_plate():
    found = measure(*PLUG, "--low-stack", "0.5in", *BOX)

    assert [stack["pair"] for stack in found["stacks"]] == ["high", "high", "low", "low"]
    assert found["stack_heights"] == {"low": "0.5 in", "high": "2 in"}


def test_a_low_pair_above_the_high_one_says_by_how_much():
    done = gaugestack("measure", *PLUG, "--low-stack", "2.25in")

    assert done.code == 2
    assert "--low-stack: the low stacks are 0.25 in above the high ones" in done.err


def test_readings_that_run_the_wrong_way_say_by_how_much_and_the_other_end_may_be_down():
    words = ["measure", "rolls", "--readings", "1.4in", "1.3in", "--stack", "2in"]
    done = gaugestack(*words)

    assert done.code == 2
    assert "--readings" in done.err
    assert "0.1 in" in done.err
    assert gaugestack(*words, "--large-end-down").code == 0


def test_heights_that_no_two_stacks_make_are_an_honest_no():
    done = gaugestack("measure", *PLUG[:-1], "0.0503in", *BOX)

    assert done.code == 1
    assert "Not possible" in done.out


def test_rolls_need_a_height_and_say_so():
    done = gaugestack("measure", *PLUG[:-2])

    assert done.code == 2
    assert "--stack: is wanted here" in done.err


def test_balls_give_centre_distance_and_angle():
    """A question bank: balls 40 and 32 mm, 8 mm above and 76 mm below the face: 80 mm, 5.7320 degrees."""
    found = measure("balls", "--large", "40mm", "--small", "32mm", "--tops", "8mm", "-76mm")

    assert found["centre_distance"] == "80 mm"
    assert found["measured"]["included_angle_degrees"] == pytest.approx(5.7320, abs=5e-5)


def test_balls_stand_where_their_tops_say_the_cone_again():
    there = measure("balls", "1:10", "--large", "40mm", "--small", "32mm", "--mouth", "45mm")
    tops = [there[ball]["top"] for ball in ("large_ball", "small_ball")]
    back = measure("balls", "1:10", "--large", "40mm", "--small", "32mm", "--tops", *tops)

    assert back["measured"]["half_angle_error_arcsec"] == pytest.approx(0, abs=0.01)
    assert size(back["mouth"], "mm") == pytest.approx(45, abs=1e-5)


def test_a_ball_says_above_or_below_the_face_on_the_screen():
    out = gaugestack("measure", "balls", "--large", "40mm", "--small", "32mm", "--tops", "8mm", "-76mm").out

    assert "8.0000 mm ABOVE the face" in out
    assert "76.0000 mm BELOW the face" in out


def test_a_ball_that_sits_on_the_edge_says_how_far():
    done = gaugestack("measure", "balls", "1:10", "--large", "40mm", "--small", "32mm", "--mouth", "39mm")

    assert done.code == 2
    assert "above the face: it sits on the edge" in done.err


def test_centres_nearer_than_any_cone_allows_say_by_how_much():
    done = gaugestack("measure", "balls", "--large", "40mm", "--small", "32mm", "--tops", "8mm", "1mm")

    assert done.code == 2
    assert "--tops" in done.err
    assert "too little" in done.err


def test_discs_stand_apart_by_a_stack():
    found = measure("discs", "7deg", "--discs", "1.5in", "1in", *BOX)

    assert size(found["centre_distance"]) == pytest.approx(0.5 / (2 * 0.0610485395), rel=1e-7)
    assert found["outcome"] == "found"


def test_discs_that_touch_give_the_angle():
    """Machinery's Handbook, 31st ed., p. 701: sin(angle / 2) = (D - d) / (D + d) where they touch."""
    found = measure("discs", "--discs", "1.5in", "1in", "--gap", "0", *BOX)

    assert found["angle_degrees"] == pytest.approx(23.073918, abs=1e-6)


def test_discs_that_would_overlap_say_by_how_much():
    done = gaugestack("measure", "discs", "40deg", "--discs", "1.5in", "1in")

    assert done.code == 2
    assert "--discs: the discs would overlap by 0.5190" in done.err


@pytest.mark.parametrize(
    "words",
    [
        [*PLUG, "--sketch"],
        ["balls", "1:10", "--large", "40mm", "--small", "32mm", "--mouth", "45mm", "--sketch"],
    ],
    ids=lambda words: words[0],
)
def test_a_screen_is_at_most_80_columns_wide(words):
    out = gaugestack("measure", *words).out

    assert max(map(len, out.splitlines())) <= 80


def test_a_bar_on_the_part_stands_on_two_stacks_whose_difference_counts():
    """h2 - h1 = L sin(included): 5 sin 5d43m29.3s = 0.498753 in (computed)."""
    found = measure("bar", "1:10", "--bar", "5in", "--low-stack", "1in", *BOX)
    low, high = found["stacks"]

    assert (low["role"], high["role"]) == ("low", "high")
    assert size(found["rise"]) == pytest.approx(0.498753, abs=5e-7)
    assert size(found["heights"]["high"]) - size(found["heights"]["low"]) == pytest.approx(
        size(found["rise"])
    )
    assert not {b["nominal"] for b in low["blocks"]} & {b["nominal"] for b in high["blocks"]}


def test_a_bar_above_a_level_axis_stands_at_the_half_angle():
    flank, axis = (
        measure("bar", "1:10", "--bar", "5in", "--low-stack", "1in", "--lies", lies, *BOX)
        for lies in ("flank", "axis")
    )

    assert flank["angle_degrees"] == pytest.approx(2 * axis["angle_degrees"])


def test_both_heights_under_a_bar_give_the_cone_back():
    there = measure("bar", "1:10", "--bar", "5in", "--low-stack", "1in", *BOX)["heights"]
    back = measure("bar", "1:10", "--bar", "5in", "--heights", there["low"], there["high"], *BOX)

    assert back["measured"]["half_angle_error_arcsec"] == pytest.approx(0, abs=0.01)


def test_heights_under_a_bar_that_do_not_rise_say_by_how_much():
    done = gaugestack("measure", "bar", "--bar", "5in", "--heights", "1.5in", "1.4in")

    assert done.code == 2
    assert "--heights: the second is 0.1 in below the first" in done.err


def test_a_rise_above_the_bar_is_refused():
    done = gaugestack("measure", "bar", "--bar", "5in", "--heights", "1in", "6.5in")

    assert done.code == 2
    assert "5.5 in is more than the centre distance, 5 in" in done.err


def test_a_bar_on_the_part_needs_the_stack_of_its_lower_roll():
    done = gaugestack("measure", "bar", "1:10", "--bar", "5in")

    assert done.code == 2
    assert done.err.startswith("--low-stack: is wanted here")
