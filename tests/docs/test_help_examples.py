"""The example in every command's help is one that works."""

import shlex

import pytest
import typer

from gaugestack.cli.commands import app
from gaugestack.errors import ExitCode
from tests.cli.shell import gaugestack
from tests.docs import documents

JOB = "format: 1\nbar: 5in\nsetups:\n  - {name: jaw, height: 0.6202in}\n  - {name: wedge, angle: 7d7m30s}\n"
ANSWERS = {ExitCode.YES, ExitCode.NO, ExitCode.UNDECIDED}


def commands(group, prefix=""):
    """Yield name and command of all commands of a group, those of its groups too."""
    for name, command in group.commands.items():
        if hasattr(command, "commands"):
            yield from commands(command, f"{prefix}{name} ")
        else:
            yield f"{prefix}{name}", command


COMMANDS = dict(commands(typer.main.get_command(app)))


@pytest.fixture
def bench(tmp_path, monkeypatch):
    """Stand in a directory that holds the files the examples name."""
    documents.furnish(tmp_path, (documents.ROOT / "README.md").read_text(encoding="utf-8"))
    (tmp_path / "monday.yaml").write_text(JOB, encoding="utf-8")
    issued = (documents.ROOT / "sets" / "inch-81.yaml").read_text(encoding="utf-8")
    (tmp_path / "bench.yaml").write_text(issued, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("GAUGESTACK_SET", raising=False)
    monkeypatch.setenv("COLUMNS", "80")
    return tmp_path


@pytest.mark.parametrize("name", COMMANDS)
def test_the_example_of_a_command_is_answered(name, bench):
    example = COMMANDS[name].epilog.removeprefix("Example: gaugestack ")
    if name == "set copy":
        (bench / "bench.yaml").unlink()

    done = gaugestack(*shlex.split(example))

    assert example.startswith(f"{name} ") or example == name
    assert done.code in ANSWERS, done.err


@pytest.mark.parametrize("name", COMMANDS)
def test_the_example_can_be_copied_from_the_help_as_it_stands(name, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    shown = gaugestack(*name.split(), "--help").out

    assert max(map(len, shown.splitlines())) <= 80
    example = shown[shown.index("Example: ") :].rstrip()
    assert shlex.split(example.replace("\\\n", "")) == shlex.split(COMMANDS[name].epilog)


@pytest.mark.parametrize("name", COMMANDS)
def test_the_usage_names_what_is_given_and_no_types(name):
    usage, rest = gaugestack(*name.split(), "--help").out.split("\n\n", 1)

    assert not set("{}<>") & set(usage)
    assert "<str>" not in rest
    assert "<list" not in rest
