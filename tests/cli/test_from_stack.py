"""The command `from-stack`: the blocks on the bench to angle and taper."""

import pytest

from tests.cli.shell import gaugestack

BOX = ["--bar", "5in", "--set", "inch-81"]


def from_stack(*arguments):
    return gaugestack("from-stack", *arguments, *BOX, "--json").json


def test_a_published_stack_gives_its_angle_and_taper():
    """A trade school page: 0.2520 in on a 5 in bar is 2 degrees 53 minutes 20 seconds, 0.6052 in/ft."""
    found = from_stack("0.152in", "0.1in", "--seat", "flank")
    [seat] = found["seats"]

    assert found["length"] == "0.252 in"
    assert found["angle_degrees"] == pytest.approx(2 + 53 / 60 + 20 / 3600, abs=3e-4)
    assert float(seat["taper_per_foot"].split()[0]) == pytest.approx(0.6052, abs=5e-5)


def test_the_seat_decides_whether_the_angle_is_half_or_included():
    [flank], [axis] = (from_stack("0.25in", "--seat", seat)["seats"] for seat in ("flank", "axis"))

    assert flank["included_angle_degrees"] == axis["half_angle_degrees"]


def test_without_a_seat_both_usual_ones_are_told():
    assert [seat["seat"][:12] for seat in from_stack("0.25in")["seats"]] == ["the part lie", "the part's a"]


def test_a_block_the_set_does_not_hold_is_remarked_and_still_counts():
    found = from_stack("0.152in", "0.1in")

    assert found["remarks"] == ["inch-81 holds no 0.152 in for it"]
    assert from_stack("0.15in", "0.1in")["remarks"] == []


def test_a_block_named_twice_is_remarked_where_the_set_has_one():
    assert from_stack("0.1in", "0.1in")["remarks"] == ["inch-81 holds no 0.100 in for it"]


def test_a_bare_number_takes_the_set_s_unit_and_says_so():
    assert from_stack("0.25")["remarks"][0] == "0.25 taken in inches, the unit of inch-81"


def test_more_blocks_than_the_bar_says_what_is_impossible():
    done = gaugestack("from-stack", "4in", "2in", *BOX)

    assert done.code == 2
    assert "6 in is more than the centre distance, 5 in" in done.err


def test_an_unknown_seat_is_refused_with_the_nearest():
    done = gaugestack("from-stack", "0.25in", *BOX, "--seat", "flanc")

    assert done.code == 2
    assert "flank" in done.err


def test_the_sketch_is_the_seat_s():
    assert (
        "part's axis along the bar"
        in gaugestack("from-stack", "0.25in", *BOX, "--seat", "axis", "--sketch").out
    )
