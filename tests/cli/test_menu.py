"""The menu: one command is built for a line, and what is typed reaches it as it was."""

import pytest
import typer

from gaugestack.cli.commands import PAGES, app
from gaugestack.cli.menu import Group
from tests.cli.shell import gaugestack


@pytest.mark.parametrize(
    ("line", "meant"),
    [(["stak"], "'stack'"), (["set", "lst"], "'list'"), (["lathe", "swng"], "'swing'")],
)
def test_a_mistyped_command_is_answered_with_the_name_that_is_close(line, meant):
    done = gaugestack(*line)

    assert (done.code, done.out) == (2, "")
    assert f"No such command '{line[-1]}'" in done.err
    assert f"Did you mean {meant}" in done.err


@pytest.mark.parametrize("group", [[], *([name] for name, page in PAGES.items() if isinstance(page, Group))])
def test_the_menu_cuts_no_summary(group, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    lines = gaugestack(*group, "--help").out.splitlines()
    cut = [line for line in lines if line.endswith("...") and not line.endswith((", ...", "[ARGS]..."))]

    assert cut == []
    assert max(map(len, lines)) <= 80


@pytest.mark.parametrize("line", [["plate", "20deg"], ["record"], ["measure", "balls", "--large", "1in"]])
def test_what_must_be_given_is_asked_for(line):
    done = gaugestack(*line)

    assert (done.code, done.out) == (2, "")
    assert "Missing" in done.err


@pytest.mark.parametrize("count", ["4", "+4", " 4", "04"])
def test_a_count_is_a_number_however_it_is_written(count):
    assert gaugestack("stack", "0.6202in", "--most", count).out == gaugestack("stack", "0.6202in").out


@pytest.mark.parametrize("count", ["", "x", "4.5", "\N{ARABIC-INDIC DIGIT FOUR}"])
def test_a_count_that_is_no_number_is_refused(count):
    done = gaugestack("stack", "0.6202in", "--most", count)

    assert (done.code, done.out) == (2, "")
    assert "--most" in done.err


def test_a_text_reaches_the_command_as_it_was_typed():
    done = gaugestack("stack", " 0.6202in ", "--set", "no such  set")

    assert done.code == 2
    assert "'no such  set'" in done.err


def test_every_page_holds_the_command_of_its_name():
    root = typer.main.get_command(app)

    for name, page in PAGES.items():
        command = root.commands[name]
        inner = page.pages if isinstance(page, Group) else {}
        assert [command.commands[one].name for one in inner] == list(inner)
        assert command.name == name


def test_a_command_is_built_once():
    commands = typer.main.get_command(app).commands

    assert commands["stack"] is commands["stack"]
    assert len(commands) == len(PAGES)
    assert "no such" not in commands
