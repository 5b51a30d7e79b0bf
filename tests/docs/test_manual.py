"""The manual page: as the commands are, with an example each, and drawn without a complaint."""

import re
import shutil
import subprocess

import pytest
import typer

from gaugestack.cli.commands import app
from gaugestack.errors import ExitCode
from tests.docs import manual

COMMANDS = dict(manual.commands(typer.main.get_command(app)))
needs_groff = pytest.mark.skipif(not shutil.which("groff"), reason="groff draws the page")


@pytest.fixture(scope="module")
def drawn():
    """Return the page as it is read at 80 columns, without overstriking."""
    command = ["groff", "-man", "-Tutf8", "-ww", "-rLL=80n", "-rHY=0", "-P-cbou", manual.PAGE]
    done = subprocess.run(command, capture_output=True, encoding="utf-8", check=True)
    assert done.stderr == ""
    return done.stdout


def squeezed(text):
    return " ".join(text.split())


def test_the_page_is_written_from_the_commands_as_they_are():
    """Written anew by `python tests/docs/manual.py`."""
    assert manual.PAGE.read_text(encoding="ascii") == manual.page()


@pytest.mark.parametrize("name", COMMANDS)
def test_a_command_has_an_example_of_its_own(name):
    assert COMMANDS[name].epilog.startswith(f"Example: gaugestack {name}")


@pytest.mark.parametrize("name", COMMANDS)
def test_everything_a_command_takes_is_said_of_it(name):
    assert all(param.help for param in [*manual.options(COMMANDS[name]), *manual.arguments(COMMANDS[name])])


def test_every_way_to_end_is_told():
    assert set(manual.EXITS) == {*ExitCode, 130, 141}


@needs_groff
@pytest.mark.parametrize("name", COMMANDS)
def test_a_command_stands_in_the_page_with_all_it_takes(name, drawn):
    start = re.search(rf"^   gaugestack {re.escape(name)} \[OPTIONS\]", drawn, re.MULTILINE).start()
    section = re.split(r"^(?=   gaugestack |[A-Z])", drawn[start:], flags=re.MULTILINE)[1]
    own = squeezed(section.replace("\\\n", ""))

    missing = [p.opts[0] for p in manual.options(COMMANDS[name]) if not re.search(rf"{p.opts[0]}\b", own)]

    assert missing == []
    assert squeezed(COMMANDS[name].help) in own
    assert squeezed(COMMANDS[name].epilog.removeprefix("Example: ")) in own


@needs_groff
def test_the_page_fits_80_columns(drawn):
    assert [line for line in drawn.splitlines() if len(line) > 80] == []


@needs_groff
def test_no_character_is_lost_on_the_way_to_the_reader(drawn):
    assert '0.6202in, .6202", 15.752mm, 12 µm' in squeezed(drawn)
    assert "7°7'30\"" in drawn
    assert "'1.25in to 0.75in over 4in'" in squeezed(drawn)


@pytest.mark.skipif(not shutil.which("man"), reason="man is not there")
def test_man_shows_it_without_a_warning():
    done = subprocess.run(["man", "--warnings", "-l", manual.PAGE], capture_output=True, check=True)

    assert done.stderr == b""
