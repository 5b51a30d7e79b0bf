"""The commands `proof` and `tapers`."""

import pytest

from gaugestack.angles.published import all_published
from tests.cli.shell import gaugestack


def answer(*arguments):
    done = gaugestack(*arguments, "--json")
    assert (done.code, done.err) == (0, "")
    return done.json


def inches(text):
    number, unit = text.split()
    assert unit == "in"
    return float(number)


def test_every_check_says_what_it_cannot_detect():
    checks = answer("proof")["checks"]

    assert len(checks) > 10
    assert all(check["cannot_detect"] for check in checks)
    assert {check["set_up"] for check in checks} == {"bar", "lathe", "plug", "bore"}


@pytest.mark.parametrize("kind", ["bar", "lathe", "plug", "bore"])
def test_one_kind_shows_its_checks_only(kind):
    assert {check["set_up"] for check in answer("proof", "--kind", kind)["checks"]} == {kind}


def test_an_unknown_kind_is_refused_with_the_nearest():
    done = gaugestack("proof", "--kind", "lath")

    assert done.code == 2
    assert "lathe" in done.err


def test_a_minute_over_three_inches_shows_0_00087_in():
    """1 minute over 3 in = 0.00087 in (bench practice, computed)."""
    [row] = answer("proof", "--span", "3in")["readings"]

    assert inches(row["per_minute"]) == pytest.approx(0.00087, abs=5e-6)
    assert row["half_for_included"] is None


def test_a_cone_also_says_what_half_for_included_would_show():
    [row] = answer("proof", "morse", "3", "--span", "3in")["readings"]

    assert inches(row["half_for_included"]) == pytest.approx(3 * 0.0250979, abs=1e-5)


def test_a_ratio_is_a_taper_and_colons_of_seconds_an_angle():
    assert answer("proof", "1:20")["half_angle_degrees"] == pytest.approx(1.4321, abs=1e-4)
    assert answer("proof", "7:07:30")["angle_degrees"] == 7.125


def test_what_is_neither_is_refused_as_a_call_out():
    done = gaugestack("proof", "nonsense", "words")

    assert done.code == 2
    assert done.err.startswith("CALLOUT: ")


def test_a_reversal_parts_the_part_from_the_fixture():
    """first = fixture + part, second = fixture - part (derived)."""
    found = answer("proof", "--span", "3in", "--reversal", "0.0003in", "-0.0001in")["reversal"]

    assert (found["part"], found["fixture"]) == ("0.0002 in", "0.0001 in")
    assert found["part_arcsec"] == pytest.approx(13.751, abs=1e-3)


def test_a_part_that_reads_alike_both_ways_is_right_and_the_fixture_wrong():
    found = answer("proof", "--span", "3in", "--reversal", "0.0004in", "0.0004in")["reversal"]

    assert (found["part"], found["fixture"]) == ("0 in", "0.0004 in")


def test_a_reversal_needs_its_one_span():
    done = gaugestack("proof", "--reversal", "0.0003in", "0.0001in")

    assert done.code == 2
    assert done.err.startswith("--span: ")


def test_every_published_taper_is_listed_with_document_edition_and_basis():
    listed = answer("tapers")["tapers"]

    assert [one["name"] for one in listed] == [one.name for one in all_published()]
    assert all(one["document"] and one["edition"] and one["basis"] in ("seen", "memory") for one in listed)


def test_a_series_lists_its_numbers():
    names = [one["name"] for one in answer("tapers", "jarno")["tapers"]]

    assert len(names) > 10
    assert all(name.startswith("jarno ") for name in names)


@pytest.mark.parametrize(
    ("number", "half"),
    [("0", 1.4908), ("1", 1.4287), ("2", 1.4307), ("3", 1.4377), ("4", 1.4876), ("5", 1.5073), ("6", 1.4933)],
)
def test_morse_half_angles_are_the_published_ones(number, half):
    """A sheet of dimensions of standard tapers, to four figures."""
    [one] = answer("tapers", "morse", number)["tapers"]

    assert one["half_angle_degrees"] == pytest.approx(half, abs=6e-5)


def test_a_row_from_memory_is_marked_on_the_screen():
    out = gaugestack("tapers", "morse").out

    assert " ?morse 1" in out
    assert "  morse 3" in out


def test_a_name_nobody_published_is_refused_with_the_nearest():
    done = gaugestack("tapers", "jarmo", "6")

    assert done.code == 2
    assert "jarno 6" in done.err


@pytest.mark.parametrize(
    "words",
    [
        ["proof", "morse 3", "--span", "3in", "--reversal", "0.1mm", "0.2mm"],
        ["tapers"],
        ["tapers", "morse 3"],
    ],
)
def test_a_screen_is_at_most_80_columns_wide(words):
    out = gaugestack(*words).out

    assert max(map(len, out.splitlines())) <= 80
