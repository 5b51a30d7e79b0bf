"""The command `from-stack`: the blocks on the bench to angle and taper."""

import math

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


KNOWN = """\
format: 1
name: Known set
unit: in
blocks:
  - {size: 0.100, deviation: -4 µin, trust: own comparison}
  - {size: 0.300, serial: A, deviation: +20 µin, trust: laboratory report}
  - {size: 0.300, serial: B, deviation: -100 µin, trust: laboratory report}
  - {size: 0.500}
  - {size: 5.000, deviation: +2 µin}
"""


def known(path, *sizes):
    return gaugestack("from-stack", *sizes, "--bar", "5in", "--set", path, "--json").json


def test_the_certified_sum_and_its_angle_stand_beside_those_of_the_sizes(set_file):
    """h = L sin(angle), solved for the angle in degrees (common practice): asin(0.900016 / 5)."""
    found = known(set_file(KNOWN), "0.1in", "0.3in", "0.5in")
    certified = found["certified"]

    assert (found["length"], certified["length"], certified["deviation"]) == (
        "0.9 in",
        "0.900016 in",
        "0.000016 in",
    )
    assert found["angle_degrees"] == pytest.approx(math.degrees(math.asin(0.9 / 5)), abs=1e-9)
    assert certified["angle_degrees"] == pytest.approx(math.degrees(math.asin(0.900016 / 5)), abs=1e-9)
    turned = 3600 * math.degrees(math.asin(0.900016 / 5) - math.asin(0.9 / 5))
    assert certified["difference_arcsec"] == pytest.approx(turned, abs=1e-4)
    assert (certified["counted"], certified["known_from"]) == (2, ["own comparison", "laboratory report"])


def test_the_screen_tells_both_sums_and_both_angles(set_file):
    path = set_file(KNOWN)
    out = " ".join(
        gaugestack("from-stack", "0.1in", "0.3in", "0.5in", "--bar", "5in", "--set", path).out.split()
    )

    assert "certified 0.900016 in, +16.0 µin (2 of 3 known, own comparison, laboratory report)" in out
    assert '+0.67" from that of the sizes' in out


def test_of_several_pieces_that_deviate_differently_it_is_said_which_is_counted(set_file):
    path = set_file(KNOWN)

    assert known(path, "0.3in")["remarks"] == [
        "of 2 pieces of 0.300 in that deviate differently, A is counted"
    ]
    assert known(path, "0.3in", "0.3in")["remarks"] == []
    assert known(path, "0.3in", "0.3in")["certified"]["deviation"] == "-0.00008 in"


def test_blocks_of_which_no_deviation_is_known_have_no_certified_sum(set_file):
    assert "certified" not in known(set_file(KNOWN), "0.5in")
    assert "certified" not in from_stack("0.25in")


def test_a_block_that_is_not_fit_is_counted_only_where_no_other_piece_is_there(set_file):
    path = set_file(KNOWN)
    lent = ("record", "lent", "0.300", "--serial", "A", "--to", "Ola", "--on", "2026-01-05", "--set", path)
    assert gaugestack(*lent).code == 0

    assert known(path, "0.3in")["certified"]["deviation"] == "-0.0001 in"


def test_a_certified_sum_above_the_bar_sets_no_angle(set_file):
    path = set_file(KNOWN)
    found = gaugestack("from-stack", "5in", "--bar", "5in", "--set", path, "--seat", "flank")

    assert found.code == 0
    assert "its angle none: that sum leaves the bar" in " ".join(found.out.split())
