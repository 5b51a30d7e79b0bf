"""The commands of `lathe`: values known from elsewhere, both directions, refusals."""

import pytest

from tests.cli.shell import gaugestack


def lathe(*arguments):
    """Return the JSON form of a command of `lathe`."""
    done = gaugestack("lathe", *arguments, "--json")
    assert done.err == ""
    return done.json


def inches(text):
    number, unit = text.split()
    assert unit == "in"
    return float(number)


def test_swing_reads_over_carriage_and_slide():
    """Morse 3: 0.025098 over 1 in of carriage, 0.025090 over 1 in of slide (computed from 0.60235 in/ft)."""
    [row] = lathe("swing", "morse 3", "--travel", "1in")["readings"]

    assert inches(row["carriage"]["per_side"]) == pytest.approx(0.025098, abs=5e-7)
    assert inches(row["slide"]["per_side"]) == pytest.approx(0.025090, abs=5e-7)
    assert inches(row["carriage"]["on_diameter"]) == pytest.approx(2 * 0.025098, abs=1e-6)


def test_swing_is_the_half_angle_and_the_other_scale_its_complement():
    found = lathe("swing", "7/24")

    assert found["swing_degrees"] == pytest.approx(8.297145, abs=1e-6)
    assert found["swing_degrees"] + found["other_scale_degrees"] == pytest.approx(90)


def test_a_minute_of_error_shows_0_00029_in_over_an_inch():
    """0.000291 in per inch and minute (bench practice, computed)."""
    [row] = lathe("swing", "1:50", "--travel", "1in")["readings"]

    assert inches(row["carriage"]["per_minute"]) == pytest.approx(0.000291, abs=1e-6)


@pytest.mark.parametrize("along", ["slide", "carriage"])
def test_the_reading_it_tells_gives_the_angle_back(along):
    [row] = lathe("swing", "1:20", "--travel", "3in")["readings"]
    reading = row[along]["per_side"]
    back = lathe("swing", "1:20", "--travel", "3in", "--reading", reading, "--along", along)

    assert back["measured"]["half_angle_error_arcsec"] == pytest.approx(0, abs=0.01)


def test_a_reading_without_its_way_is_refused():
    done = gaugestack("lathe", "swing", "1:20", "--travel", "3in", "--reading", "0.075in")

    assert done.code == 2
    assert "--along: was the slide moved or the carriage?" in done.err


def test_a_reading_longer_than_the_slide_s_travel_says_by_how_much():
    done = gaugestack("lathe", "swing", "1:20", "--travel", "1in", "--reading", "1.25in", "--along", "slide")

    assert done.code == 2
    assert "0.25 in too much" in done.err


def test_a_bare_number_is_refused_where_no_set_gives_a_unit():
    done = gaugestack("lathe", "swing", "1:20", "--travel", "3")

    assert done.code == 2
    assert "a unit is missing" in done.err


@pytest.mark.parametrize(
    ("reading", "code", "word"),
    [("0.07502in", 0, "ACCEPTED"), ("0.0770in", 1, "too steep"), ("0.0749in", 1, "too slow")],
)
def test_an_outside_taper_is_accepted_on_the_steep_side_only(reading, code, word):
    done = gaugestack(
        "lathe", "swing", "1:20", "--travel", "3in", "--reading", reading, "--along", "carriage",
        "--band", "1m",
    )  # fmt: skip

    assert done.code == code
    assert word in done.out


def test_an_inside_taper_is_accepted_on_the_slow_side():
    words = ["swing", "1:20", "--travel", "3in", "--reading", "0.0749in", "--along", "carriage"]

    assert gaugestack("lathe", *words, "--band", "4m", "--inside").code == 0
    assert gaugestack("lathe", *words, "--band", "4m").code == 1


def test_too_steep_is_moved_back_at_the_indicator():
    """radius tan(error): 1 minute at 4 in is 0.00116 in."""
    words = ["swing", "1:20", "--travel", "3in", "--reading", "0.076in", "--along", "carriage"]
    found = lathe(*words, "--radius", "4in")["measured"]
    seconds = found["half_angle_error_arcsec"]

    assert seconds > 0
    assert inches(found["move_at_indicator"]) == pytest.approx(-4 * seconds / 206264.806, rel=1e-4)


def test_an_error_is_also_said_in_thousandths_over_the_part():
    words = ["swing", "1:20", "--travel", "3in", "--reading", "0.076in", "--along", "carriage"]
    found = lathe(*words, "--part-length", "3in")["measured"]

    assert found["diameter_error_said"] == "2.0 thousandths of an inch on diameter over 3 in"


def test_what_is_to_be_judged_needs_a_reading_with_a_call_out():
    done = gaugestack("measure", "rolls", "--readings", "1.2in", "1.3in", "--stack", "1in", "--band", "1m")

    assert done.code == 2
    assert "--band: needs the call-out" in done.err


def test_offset_is_exact_and_the_shop_rule_stands_beside_it():
    """0.30108 against 0.30118 in over 12 in for Morse 3 (computed)."""
    found = lathe("offset", "morse 3", "--between", "12in", "--length", "3in")

    assert inches(found["offset"]) == pytest.approx(0.30108, abs=5e-6)
    assert inches(found["shop_rule_offset"]) == pytest.approx(0.30118, abs=1e-5)
    assert inches(found["shop_rule_excess"]) > 0


@pytest.mark.parametrize(
    ("call_out", "between", "length", "shop"),
    [
        ("1.5in to 1in over 4in", "10in", "4in", 0.625),
        ("0.0625in/in", "15in", "4in", 0.46875),
        ("1in/ft", "36in", "12in", 1.5),
    ],
)
def test_the_shop_rule_gives_the_published_offsets(call_out, between, length, shop):
    """A test bank on turning: 15 in at 0.0625 in/in; an old machine-shop handbook: 3 ft at 1 in/ft."""
    done = gaugestack("lathe", "offset", call_out, "--between", between, "--length", length, "--json")
    assert inches(done.json["shop_rule_offset"]) == pytest.approx(shop)


def test_a_tailstock_that_does_not_go_so_far_says_by_how_much_in_the_unit_asked():
    done = gaugestack(
        "lathe", "offset", "morse 3", "--between", "12in", "--length", "3in", "--limit", "0.25in"
    )

    assert done.code == 2
    assert "--limit: an offset of 0.30108" in done.err
    assert " mm" not in done.err


def test_a_limit_that_is_far_enough_changes_nothing():
    words = ["offset", "morse 3", "--between", "12in", "--length", "3in"]

    assert lathe(*words) == lathe(*words, "--limit", "0.31in")


def test_a_taper_longer_than_the_work_says_by_how_much():
    done = gaugestack("lathe", "offset", "1:50", "--between", "3in", "--length", "4in")

    assert done.code == 2
    assert "--length: the taper is 1 in longer" in done.err


def test_an_offset_that_is_set_says_what_it_turns():
    words = ["offset", "1:50", "--between", "300mm", "--length", "100mm"]
    offset = lathe(*words)["offset"]

    assert lathe(*words, "--measured", offset)["measured"]["half_angle_error_arcsec"] == pytest.approx(
        0, abs=0.01
    )


@pytest.mark.parametrize(
    ("scale", "setting"),
    [("per-foot", "0.625 in/ft"), ("half", "1.4917° half angle"), ("included", "2.9835° included angle")],
)
def test_an_attachment_is_set_by_what_its_scale_counts(scale, setting):
    assert lathe("attachment", "5/8in/ft", "--scale", scale)["setting"] == setting


def test_an_attachment_whose_scale_is_not_named_is_refused_with_all_three():
    done = gaugestack("lathe", "attachment", "5/8in/ft")

    assert done.code == 2
    assert "--scale" in done.err
    for said in ("0.625 in/ft", "1.4917°", "2.9835°"):
        assert said in done.err


def test_collars_stand_apart_by_the_difference_over_the_rate():
    found = lathe("collars", "1:20", "--difference", "0.100in")

    assert found["spacing"] == "2 in"


def test_two_measured_collars_say_the_error():
    right = lathe("collars", "1:20", "--collars", "1.1in", "1.0in", "--spacing", "2in")
    steep = lathe("collars", "1:20", "--collars", "1.1in", "1.0in", "--spacing", "1.99in")

    assert right["measured"]["half_angle_error_arcsec"] == pytest.approx(0, abs=1e-6)
    assert steep["measured"]["half_angle_error_arcsec"] > 20


def test_collars_that_do_not_fall_are_refused_with_the_amount():
    done = gaugestack("lathe", "collars", "1:20", "--collars", "1.0in", "1.1in", "--spacing", "2in")

    assert done.code == 2
    assert "--collars: the large collar is 0.1 in below the small one" in done.err


@pytest.mark.parametrize(
    "words",
    [
        ["swing", "morse 3", "--sketch"],
        ["offset", "1:50", "--between", "10in", "--length", "3in", "--sketch"],
        ["attachment", "1:50", "--scale", "half", "--sketch"],
        ["collars", "1:20", "--difference", "1mm", "--sketch"],
    ],
    ids=lambda words: words[0],
)
def test_a_screen_is_at_most_80_columns_wide(words):
    done = gaugestack("lathe", *words)

    assert done.code == 0
    assert max(map(len, done.out.splitlines())) <= 80


def test_a_flat_is_no_cone_to_turn():
    done = gaugestack("lathe", "swing", "flat 1:12")

    assert done.code == 2
    assert "a flat wedge is no cone" in done.err


def test_the_readings_of_a_swing_name_their_unit():
    both = gaugestack("lathe", "swing", "morse 3", "--travel", "3in", "--travel", "50mm").out

    assert "\n  in inches\n" in gaugestack("lathe", "swing", "morse 3", "--travel", "3in").out
    assert "\n  in millimetres\n" in gaugestack("lathe", "swing", "morse 3", "--travel", "50mm").out
    assert "\n  in the unit of each travel\n" in both
