"""Screens as they were last looked at; none is wider than 80 columns."""

import pytest

from tests.cli.golden import GOLDEN, SCREENS, screen


@pytest.mark.parametrize("name", SCREENS)
def test_a_screen_is_as_it_was_last_looked_at(name):
    assert screen(name) == (GOLDEN / f"{name}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", SCREENS)
def test_no_line_of_a_screen_is_wider_than_80_columns(name):
    assert [line for line in screen(name).splitlines() if len(line) > 80] == []


def test_every_kept_screen_has_its_command():
    assert {path.stem for path in GOLDEN.glob("*.txt")} == set(SCREENS)
