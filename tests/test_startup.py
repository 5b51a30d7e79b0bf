"""What a command loads before it answers: start-up is felt, and the solver costs half a second."""

import os
import subprocess
import sys

import pytest

SOLVING = {"ortools", "numpy", "pandas"}
PRETTY = {"rich.console", "rich.table", "rich.markdown", "rich.syntax", "pygments", "markdown_it"}
_PROGRAM = """
import sys
sys.argv = ["gaugestack", *sys.argv[1:]]
try:
    from gaugestack.cli.main import main
    main()
finally:
    print(*sys.modules, file=sys.stderr)
"""


def loaded_by(*arguments):
    """Return all modules a command has loaded when it ends."""
    environment = {key: value for key, value in os.environ.items() if not key.startswith("GAUGESTACK_")}
    done = subprocess.run(
        [sys.executable, "-c", _PROGRAM, *arguments],
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return set(done.stderr.split())


@pytest.mark.parametrize(
    "arguments",
    [
        ["--help"],
        ["--version"],
        ["stack", "--help"],
        ["set", "list"],
        ["set", "list", "--json"],
        ["set", "show", "inch-81"],
        ["set", "show", "inch-81", "--json"],
    ],
    ids=" ".join,
)
def test_a_command_that_chooses_no_stack_loads_neither_solver_nor_tables(arguments):
    assert loaded_by(*arguments) & (SOLVING | PRETTY) == set()


def test_help_does_not_even_read_yaml():
    assert loaded_by("--help") & {"yaml", "gaugestack.answers", "gaugestack.inventory.setfile"} == set()


def test_what_a_stack_needs_is_loaded_when_a_stack_is_chosen():
    assert "numpy" in loaded_by("stack", "0.6202in", "--set", "inch-81")


def test_importing_the_package_loads_nothing_heavy():
    program = "import sys, gaugestack; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)

    assert set(done.stdout.split()) & (SOLVING | PRETTY | {"yaml", "typer", "rich"}) == set()
