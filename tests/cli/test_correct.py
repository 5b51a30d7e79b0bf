"""The command `correct`: a measured error, the next height, the next stack."""

import pytest

from tests.cli.shell import gaugestack

BOX = ["--bar", "5in", "--set", "inch-81"]


def correct(*arguments):
    done = gaugestack("correct", *arguments, *BOX, "--json")
    assert done.err == ""
    return done.json


def inches(text):
    number, unit = text.split()
    assert unit == "in"
    return float(number)


def test_the_exact_change_is_smaller_than_the_school_form_by_the_cosine():
    """L (sin(30 - e) - sin 30) against L rise / span: 1 / cos 30 = 1.1547 (derived)."""
    found = correct("30deg", "--rise", "0.0006in", "--span", "3in")

    assert inches(found["school_change"]) == pytest.approx(-0.001, abs=1e-7)
    assert inches(found["change"]) == pytest.approx(-0.000866, abs=1e-6)
    assert found["over_correction"] == pytest.approx(1.1547, abs=2e-4)
    assert (
        "15.5 % too much" in gaugestack("correct", "30deg", "--rise", "0.0006in", "--span", "3in", *BOX).out
    )


def test_a_low_stack_end_is_raised_and_a_high_one_lowered():
    assert inches(correct("30deg", "--rise", "0.0006in", "--span", "3in")["change"]) < 0
    assert inches(correct("30deg", "--rise", "-0.0006in", "--span", "3in")["change"]) > 0


def test_a_lever_s_tip_angle_takes_its_share_off():
    """Machinery's Handbook: 0.94 at 20 degrees."""
    plain = correct("30deg", "--rise", "0.0006in", "--span", "3in")
    tipped = correct("30deg", "--rise", "0.0006in", "--span", "3in", "--tip", "20deg")

    assert tipped["error_measured_arcsec"] / plain["error_measured_arcsec"] == pytest.approx(0.94, abs=0.005)


def test_the_new_stack_sets_the_new_angle():
    found = correct("7d7m30s", "--error", "0d1m")

    assert found["new_angle_degrees"] == pytest.approx(7.125 - 1 / 60)
    assert abs(found["error_arcsec"]) < 2.2


def test_one_block_is_changed_where_that_does():
    """0.6202 = 0.400 + 0.1002 + 0.120; 0.0002 in more is 0.1004 for 0.1002."""
    found = correct("7d7m30s", "--error", "-0d0m8s")

    assert found["one_block_changes"]
    assert [block["nominal"] for block in found["take_out"]] == ["0.1002 in"]
    assert len(found["put_in"]) == 1
    assert "one block changes" in gaugestack("correct", "7d7m30s", "--error", "-0d0m8s", *BOX).out


def test_the_rest_stays_where_one_block_is_changed_for_several():
    found = correct("30deg", "--rise", "0.0006in", "--span", "3in")

    assert found["rest_stays"]
    assert not found["one_block_changes"]
    assert [block["nominal"] for block in found["take_out"]] == ["0.500 in"]


def test_a_new_stack_is_said_where_one_block_does_not_reach_it():
    done = gaugestack("correct", "7d7m30s", "--rise", "0.0004in", "--span", "3in", *BOX)

    assert "a new stack" in " ".join(done.out.split())


def test_an_error_below_the_blocks_leaves_the_stack_and_says_so():
    found = correct("30deg", "--rise", "0.00001in", "--span", "3in")

    assert found["below_resolution"]
    assert found["take_out"] == found["put_in"] == []
    assert not correct("30deg", "--rise", "0.0006in", "--span", "3in")["below_resolution"]


def test_the_old_stack_may_be_named():
    words = [word for size in ("0.4in", "0.1in", "0.1202in") for word in ("--was", size)]
    done = gaugestack("correct", "7d7m30s", "--error", "0d1m", *words, *BOX)
    assert done.code == 2
    assert "--was: inch-81 has no 0.1202 in" in done.err

    words = [word for size in ("0.4in", "0.1002in", "0.120in") for word in ("--was", size)]
    named = correct("7d7m30s", "--error", "0d1m", *words)["old_stack"]
    assert {block["nominal"] for block in named} == {"0.400 in", "0.1002 in", "0.120 in"}


def test_blocks_that_do_not_make_the_old_height_are_refused():
    done = gaugestack("correct", "7d7m30s", "--error", "0d1m", "--was", "0.4in", *BOX)

    assert done.code == 2
    assert "--was: these blocks alone do not make the old height, 0.62017226 in" in done.err


def test_an_error_of_the_half_angle_counts_twice_where_the_included_one_is_set():
    inspection = correct("2d51m51s", "--half-error", "0d0m30s", "--for", "inspection")
    compound = correct("2d51m51s", "--half-error", "0d0m30s", "--for", "compound")

    assert inspection["error_measured_arcsec"] == 60
    assert compound["error_measured_arcsec"] == 30


def test_a_half_error_without_its_use_is_refused():
    done = gaugestack("correct", "2d51m51s", "--half-error", "0d0m30s", *BOX)

    assert done.code == 2
    assert done.err.startswith("--for: which angle was set?")


@pytest.mark.parametrize("words", [[], ["--error", "0d1m", "--rise", "0.001in"]], ids=["none", "two"])
def test_the_error_is_said_once(words):
    done = gaugestack("correct", "30deg", *words, *BOX)

    assert done.code == 2
    assert "say the error once" in done.err


def test_a_correction_that_leaves_no_angle_says_what_is_left():
    done = gaugestack("correct", "1deg", "--error", "2deg", *BOX)

    assert done.code == 2
    assert "leaves -1°00'00.0\"" in done.err


def test_the_error_is_also_said_over_the_part():
    found = correct(
        "7d7m30s", "--rise", "0.0004in", "--span", "3in", "--for", "compound", "--part-length", "3in"
    )

    assert found["diameter_error_said"] == "0.8 thousandths of an inch on diameter over 3 in"


def test_a_plate_s_base_height_stays_under_both(set_file):
    bars = set_file(
        "format: 1\nbars:\n  - {name: plate, centre_distance: 5in, base_height: 0.2in}\n", "bars.yaml"
    )
    done = gaugestack(
        "correct", "30deg", "--error", "0d1m", "--bars", bars, "--bar", "plate", "--set", "inch-81", "--json"
    )  # fmt: skip
    [stack] = done.json["stacks"]

    assert inches(stack["target"]) == pytest.approx(inches(done.json["new_height"]) + 0.2)
    assert abs(done.json["error_arcsec"]) < 5


def test_a_screen_is_at_most_80_columns_wide():
    out = gaugestack("correct", "30deg", "--rise", "0.0006in", "--span", "3in", *BOX).out

    assert max(map(len, out.splitlines())) <= 80


def test_a_stack_of_one_block_that_goes_leaves_no_rest():
    done = gaugestack(
        "correct", "30deg", "--bar", "100mm", "--rise", "12um", "--span", "75mm", "--set", "metric-88"
    )
    assert "(nothing of the old stack stays)" in " ".join(done.out.split())
    assert "-0.0139 mm (-13.9 µm)" in done.out


def test_a_taper_is_asked_for_the_one_of_its_angles_that_was_set():
    done = gaugestack("correct", "morse", "2", "--bar", "5in", "--rise", "0.001in", "--span", "3in")

    assert done.code == 2
    assert done.err.splitlines() == [
        "ANGLE: 'morse 2' is a taper, which has two angles: say the one that was set",
        "  gaugestack tapers morse 2 tells both",
    ]
    assert gaugestack("correct", "morse 2", "--bar", "5in", "--rise", "0.001in").err.startswith("ANGLE: ")
