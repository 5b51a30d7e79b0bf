"""The command `angle-blocks`: which blocks, which way each points, how it ends."""

from tests.cli.shell import gaugestack

ASKED = ("angle-blocks", "12d34m56s", "--set", "angle-16")


def test_the_fewest_blocks_stand_in_wringing_order_with_the_way_they_point():
    done = gaugestack(*ASKED, "--json")

    assert (done.code, done.json["schema"], done.json["outcome"]) == (0, "gaugestack/angle-blocks", "found")
    assert [(block["nominal"], block["turned"]) for block in done.json["blocks"]] == [
        ("15°", False),
        ("3°", True),
        ("30'", False),
        ("5'", False),
        ('5"', True),
        ('1"', False),
    ]
    assert sum(-b["arcsec"] if b["turned"] else b["arcsec"] for b in done.json["blocks"]) == 45296


def test_the_screen_shows_the_angle_reached_by_each_block():
    done = gaugestack(*ASKED)

    assert "  2  - 3°       turned round  = 12°00'00\"" in done.out
    assert "Wring 3° on, turned round: mark against the others" in done.out
    assert max(map(len, done.out.splitlines())) <= 80


def test_a_square_is_named_and_never_turned():
    out = gaugestack("angle-blocks", "90d", "--set", "angle-12-square").out

    assert "square" in out
    assert "turned" not in out


def test_an_angle_between_two_steps_gets_the_nearer_one():
    done = gaugestack("angle-blocks", "12d34m56.4s", "--set", "angle-16", "--json")

    assert (done.code, done.json["error_arcsec"]) == (0, -0.4)
    assert done.json["tolerance_reason"] == "half the set's step of 0°00'01\""


def test_zero_tolerance_asks_for_exactly():
    done = gaugestack("angle-blocks", "12d34m56.4s", "--set", "angle-16", "--tolerance", "0", "--json")

    assert (done.code, done.json["outcome"], done.json["proof"]) == (1, "impossible", "grid")
    assert (done.json["below"]["error_arcsec"], done.json["above"]["error_arcsec"]) == (-0.4, 0.6)


def test_a_block_kept_out_is_not_used():
    done = gaugestack(*ASKED, "--without", "5m", "--json")

    assert done.code == 0
    assert "5'" not in [block["nominal"] for block in done.json["blocks"]]
    assert done.json["at_hand"] == 15


def test_a_block_that_is_not_there_cannot_be_kept_out():
    done = gaugestack(*ASKED, "--without", "4d")

    assert done.code == 2
    assert "no block of 4°00'00\"" in done.err


def test_the_largest_number_of_blocks_is_kept_to():
    assert gaugestack(*ASKED, "--most", "6").code == 0
    done = gaugestack(*ASKED, "--most", "5")

    assert (done.code, "more than the 5 allowed" in done.out) == (1, True)


def test_an_unknown_set_and_an_angle_that_is_none_are_refused():
    assert gaugestack("angle-blocks", "1d", "--set", "angle-17").code == 2
    assert gaugestack("angle-blocks", "one degree").code == 2
    assert "zero needs no blocks" in gaugestack("angle-blocks", "0d").err
    assert gaugestack("angle-blocks", "1d", "--most", "0").code == 2


def test_a_bare_angle_is_told_to_be_degrees():
    assert "12.5 read as decimal degrees" in gaugestack("angle-blocks", "12.5").out


def test_a_set_file_of_one_s_own_is_read(set_file):
    own = set_file("format: 1\nkind: angle\nblocks:\n  - {angle: 2d, serial: K7}\n  - {angles: [30']}\n")
    done = gaugestack("angle-blocks", "1d30m", "--set", own, "--json")

    assert [(b["nominal"], b.get("serial"), b["turned"]) for b in done.json["blocks"]] == [
        ("2°", "K7", False),
        ("30'", None, True),
    ]


def test_a_faulty_set_file_is_refused_with_its_place(set_file):
    done = gaugestack("angle-blocks", "1d", "--set", set_file("format: 1\nkind: angle\nblocks: [3]\n"))

    assert (done.code, "my-set.yaml:3:" in done.err) == (3, True)
