"""Awkward but honest input: a drawing that cannot be written; wide letters."""

import pytest

from gaugestack.cards.fitting import columns
from tests.cli.shell import gaugestack

WIDE = """format: 1
name: "工場の測定室にあるミリメートルのブロックゲージの古い方の組 the one in the drawer"
unit: mm
blocks: [{from: 1, to: 9, step: 1}, {size: 10}]
"""
DRAWN = [
    ["lathe", "swing", "1:20"],
    ["lathe", "attachment", "1:20", "--scale", "per-foot"],
    ["taper", "1:20", "--bar", "5in"],
    ["from-stack", "0.5in", "--bar", "5in"],
]


@pytest.mark.parametrize("arguments", DRAWN, ids=lambda arguments: arguments[0])
def test_nothing_is_answered_where_the_drawing_cannot_be_written(arguments, tmp_path):
    done = gaugestack(*arguments, "--svg", tmp_path / "nowhere" / "x.svg")

    assert (done.code, done.out) == (2, "")
    assert "cannot be written" in done.err


@pytest.mark.parametrize("command", [["show"], ["check"], ["health"], ["matters"]])
def test_a_name_in_wide_letters_stays_within_the_screen(command, set_file):
    done = gaugestack("set", *command, set_file(WIDE))

    assert done.out
    assert max(columns(line) for line in done.out.splitlines()) <= 80
