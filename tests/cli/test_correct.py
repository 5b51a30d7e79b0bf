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


INDICATED = ("--rise", "0.0004in", "--span", "3in")


@pytest.mark.parametrize(
    ("words", "use", "degrees"),
    [
        (("3/4in/ft",), "inspection", 3 + 34 / 60 + 47 / 3600),
        (("3/4in/ft",), "compound", 1 + 47 / 60 + 24 / 3600),
        (("1:20",), "inspection", 2 + 51 / 60 + 51 / 3600),
        (("14.25deg", "included"), "compound", 7.125),
        (("1:20",), "compound", 1 + 25 / 60 + 56 / 3600),
    ],
)
def test_a_taper_is_corrected_from_the_one_of_its_angles_that_was_set(words, use, degrees):
    """Machinery's Handbook, tapers per foot and corresponding angles; ISO 1119: 1:20 is 2 51 51 included."""
    found = correct(*words, "--for", use, *INDICATED)

    assert found["old_angle_degrees"] == pytest.approx(degrees, abs=0.6 / 3600)
    assert found["for"] == use
    assert found["call_out"] == " ".join(words)


def test_a_taper_and_the_angle_it_has_are_corrected_alike():
    """7 7 30 and the half angle of 3 in per foot are 0.06 seconds apart: the same blocks, the same change."""
    taper = correct("3in/ft", "--for", "compound", *INDICATED)
    angle = correct("7d7m30s", *INDICATED)

    for field in ("take_out", "put_in", "error_measured_arcsec"):
        assert taper[field] == angle[field]
    assert inches(taper["change"]) == pytest.approx(inches(angle["change"]), abs=2e-8)
    assert "call_out" not in angle


def test_the_screen_says_which_angle_of_the_taper_was_set():
    def said(*words):
        return " ".join(gaugestack("correct", *words, *INDICATED, *BOX).out.split())

    assert "taper 1:20 on diameter (ISO 3040) = 0.6 in/ft on diameter: its half angle was set" in said(
        "1:20", "--for", "compound"
    )
    assert "its included angle was set" in said("morse", "2", "--for", "inspection")
    assert "taper flat, slope 1:12 measured" in said("flat", "1:12")


def test_a_taper_said_with_a_part_s_length_gives_the_error_on_its_diameter():
    """2 x 3 in x tan(27.5 s) x (1 + tan^2 of 7.125 degrees), derived."""
    found = correct("3in/ft", "--for", "compound", *INDICATED, "--part-length", "3in")

    assert inches(found["diameter_error"]) == pytest.approx(6 * 0.0004 / 3 * (1 + 0.125**2), rel=1e-3)


def test_a_question_about_the_taper_is_asked_here_too():
    asked = gaugestack("taper", "60deg included", "--json", *BOX).json["remarks"]

    assert set(asked) <= set(correct("60deg", "included", "--for", "compound", *INDICATED)["remarks"])


@pytest.mark.parametrize(
    ("words", "lines"),
    [
        (
            ("morse", "2"),
            ["--for: the half or the included angle of the cone?", "  compound or inspection"],
        ),
        (
            ("1:20",),
            [
                "ANGLE: '1:20' may be degrees and minutes or a taper",
                "  write it like 1d20m for the angle; add --for compound or --for inspection for",
                "    the taper",
            ],
        ),
        (
            ("flat", "1:12", "--part-length", "3in"),
            ["--part-length: means nothing for a flat: it has no half angle, no diameter"],
        ),
        (
            ("flat", "1:12", "--for", "compound"),
            [
                "--for: a flat wedge has no half and no included angle: compound asks for one of them",
                "  its one angle is 4.763642°",
            ],
        ),
        (
            ("1/4", "--for", "compound"),
            ["ANGLE: '1/4' may be a ratio, a slope or inches per foot", "    1/4"],
        ),
    ],
    ids=" ".join,
)
def test_what_was_set_must_be_one_thing(words, lines):
    done = gaugestack("correct", *words, *INDICATED, "--bar", "5in")

    assert (done.code, done.out) == (2, "")
    assert done.err.splitlines()[: len(lines)] == lines


def test_degrees_and_minutes_with_a_zero_are_no_ratio():
    assert correct("7:07", *INDICATED)["old_angle_degrees"] == pytest.approx(7 + 7 / 60)
    assert correct("7:07:30", *INDICATED)["old_angle_degrees"] == 7.125
