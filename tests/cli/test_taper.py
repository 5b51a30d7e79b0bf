"""The command `taper`: published names, flats, holding, table step, sketches."""

import pytest

from tests.cli.shell import gaugestack

INCH = ["--bar", "5in", "--set", "inch-81"]


def form(*arguments):
    done = gaugestack("taper", *arguments, *INCH, "--json")
    assert done.code in (0, 1)
    return done.json


@pytest.mark.parametrize("words", [["morse", "3"], ["morse 3"], ["MT3"]])
def test_a_published_taper_is_named_with_or_without_quotes(words):
    """Machinery's Handbook, standard tapers: 0.60235 in/ft; 5 in: 0.25082 and 0.12545 (computed)."""
    found = form(*words)

    assert found["taper_per_foot"] == "0.60235 in/ft"
    assert found["included_height"].startswith("0.25082")
    assert found["half_height"].startswith("0.12545")
    assert found["published"]["document"].startswith("Machinery's Handbook")
    assert found["published"]["basis"] == "seen"


def test_a_taper_that_nobody_published_has_no_published_part():
    assert "published" not in form("1:20")


def test_a_steep_taper_needs_retention_and_a_slow_one_is_called_self_holding():
    """ISO 296 and ASME B5.10 series; the caution stands for both."""
    steep, slow = form("7/24"), form("morse 3")

    assert steep["holding"]["classification"] == "self-releasing"
    assert slow["holding"]["classification"] == "self-holding"
    assert "positive retention" in steep["holding"]["cautions"][0]
    assert "positive retention" in slow["holding"]["cautions"][0]


def test_a_flat_has_one_angle_and_one_role():
    """1:12 as a wedge is 4.7636 degrees, as a cone 4.7719 (computed)."""
    flat, cone = form("flat", "1:12"), form("1:12")

    assert flat["flat_angle_degrees"] == pytest.approx(4.76364, abs=1e-5)
    assert cone["included_angle_degrees"] == pytest.approx(4.77189, abs=1e-5)
    assert [role["role"] for role in flat["roles"]] == ["flat"]
    assert {stack["role"] for stack in flat["stacks"]} == {"flat"}
    assert not {"half_angle_degrees", "included_angle_degrees"} & set(flat)


def test_the_table_s_step_stands_apart_from_the_steps_of_wringing():
    for words in (["flat", "1:12"], ["8deg/side", "--for", "compound"], ["3in/ft", "--for", "compound"]):
        lines = gaugestack("taper", *words, *INCH).out.splitlines()
        last = next(i for i, line in enumerate(lines) if line.endswith("faces seize"))

        assert lines[last + 1] == ""
        assert any(line.startswith("  table:     ") for line in lines[last + 2 : last + 5])


def test_a_flat_with_a_use_is_refused_and_its_angle_named():
    done = gaugestack("taper", "flat", "1:12", "--for", "compound", *INCH)

    assert done.code == 2
    assert "no half and no included angle" in done.err
    assert "4.763642" in done.err


def test_a_table_to_ten_minutes_is_said_with_its_error():
    """7 degrees 7.5 minutes stands between 7d00m and 7d10m: 150 seconds (derived)."""
    found = form("7d7m30s/side")
    tables = {role["role"]: role["ten_minute_table"] for role in found["roles"]}

    assert tables["compound"]["angle_degrees"] == pytest.approx(7 + 1 / 6)
    assert tables["compound"]["error_arcsec"] == 150
    assert '7°10\'00": +150" off' in gaugestack("taper", "7d7m30s/side", *INCH).out


def test_an_angle_on_the_table_has_no_table_error():
    assert form("7d10m/side")["roles"][0]["ten_minute_table"]["error_arcsec"] == 0


@pytest.mark.parametrize(
    ("words", "title"),
    [
        (["1:20"], "the half angle and the included angle"),
        (["1:20", "--for", "compound"], "swing the HALF angle"),
        (["1:20", "--for", "inspection"], "the INCLUDED angle"),
        (["flat", "1:20"], "one angle, no half of it"),
    ],
)
def test_a_sketch_shows_the_angle_of_the_set_up_asked_for(words, title):
    out = gaugestack("taper", *words, *INCH, "--sketch").out

    assert title in out
    assert max(map(len, out.splitlines())) <= 80


def test_without_asking_there_is_no_sketch():
    assert "flank" not in gaugestack("taper", "1:20", *INCH).out


def test_a_name_from_memory_says_so():
    assert any("from memory" in remark for remark in form("morse 1")["remarks"])
    assert form("morse 3")["remarks"] == []


def test_an_unknown_name_is_refused_with_the_nearest():
    done = gaugestack("taper", "morze", "3", *INCH)

    assert done.code == 2
    assert "morse 3" in done.err


def test_a_set_up_of_another_name_is_told_what_the_two_are():
    err = gaugestack("taper", "morse 3", "--bar", "5in", "--for", "halb").err

    assert err.splitlines()[0] == "--for: no set-up is called 'halb'"
    assert "compound sets half the angle, inspection the" in err
