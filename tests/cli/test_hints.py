"""Hints on stderr: wrapped to the terminal, while the caret stays under its fault."""

import os
import sys
from itertools import pairwise

from gaugestack.cli import boundary
from tests.cli.shell import gaugestack


def test_a_long_hint_is_wrapped_at_80_columns():
    lines = gaugestack("taper", "7.5deg", "--bar", "5in").err.splitlines()

    assert all(len(line) <= 80 for line in lines)
    assert lines[-2:] == [
        "  7.5deg/side -> half 7.5°, included 15°; 7.5deg included -> half 3.75°,",
        "    included 7.5°",
    ]


def test_the_source_line_and_its_caret_stay_lines_of_their_own():
    lines = gaugestack("taper", "7.5deg", "--bar", "5in").err.splitlines()

    assert lines[1:3] == ["    7.5deg", "    ^^^^^^"]


def test_a_short_hint_stays_as_it_is():
    assert gaugestack("stack", "0.5in", "--on", "x").err.splitlines()[-1] == "  like 2026-11-25"


def test_a_long_source_line_is_cut_around_its_caret(tmp_path):
    file = tmp_path / "long.yaml"
    sizes = [f"{{size: 0.{number}}}" for number in range(101, 150)]
    file.write_text(f"format: 1\nunit: in\nblocks: [{', '.join([*sizes, '{size: 0.1000x}', *sizes[:9]])}]\n")
    lines = gaugestack("set", "check", file).err.splitlines()
    source, caret = next((one, two) for one, two in pairwise(lines) if "^" in two)

    assert len(source) <= 80
    assert source.startswith("    …")
    assert source.endswith("…")
    assert source[caret.index("^") :].startswith("x}")


def test_a_terminal_of_another_width_has_its_hints_wrapped_there(monkeypatch):
    monkeypatch.setattr(boundary, "_width", lambda: 40)

    assert all(len(line) <= 40 for line in boundary._fitted(f"x: y\n  {'some words ' * 20}").splitlines())


def test_off_a_terminal_a_line_has_80_columns(monkeypatch):
    assert boundary._width() == 80
    monkeypatch.setattr(os, "get_terminal_size", lambda _: os.terminal_size((120, 40)))
    monkeypatch.setattr(sys, "stderr", sys.__stderr__)

    assert boundary._width() == 120
    monkeypatch.setattr(os, "get_terminal_size", lambda _: os.terminal_size((0, 0)))
    assert boundary._width() == boundary.LEAST_COLUMNS
