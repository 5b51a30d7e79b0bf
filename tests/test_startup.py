"""What a command loads before it answers: start-up is felt, and the solver costs half a second."""

import os
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from gaugestack.cli.commands import PAGES

ROOT = Path(__file__).parents[1]
SOLVER = {"ortools", "pandas"}
TABLES = {"numpy"}
FILES = {"yaml"}
PRETTY = {"rich", "pygments", "markdown_it"}
NEVER = {"scipy", "pydantic", "weasyprint", *PRETTY}
_PROGRAM = """
import sys
sys.argv = ["gaugestack", *sys.argv[1:]]
try:
    from gaugestack.cli.main import main
    main()
finally:
    print(*sys.modules)
"""
JOB = "format: 1\nbar: 5in\nsetups:\n  - {name: jaw, height: 0.6202in}\n  - {name: wedge, angle: 7d7m30s}\n"

READS_NOTHING = [
    "--help",
    "stack --help",
    "set --help",
    "budget angle --help",
    "completion bash",
    "schema stack",
    "proof morse 3",
    "tapers morse 3",
    "lathe swing morse 3 --travel 3in",
    "lathe offset morse 3 --between 10in --length 3in",
    "lathe attachment 5/8in/ft --scale per-foot",
    "lathe collars 1:20 --difference 0.100in",
    "measure balls --large 40mm --small 32mm --tops 8mm -76mm",
]
READS_FILES = [
    "set list",
    "set list --json",
    "set show inch-81",
    "set show inch-81 --json",
    "set copy inch-81 new.yaml",
    "record used 0.105 --job wedge --set bench.yaml",
    "history 0.105 --set bench.yaml",
    "from-stack 0.1008in 0.150in --bar 5in",
]
COUNTS = [
    "set check bench.yaml",
    "set matters inch-36 --range 1..1.1in",
    "set buy inch-36 --range 1..1.1in",
    "set health inch-36",
    "reach 0.2..1in --most 3",
    "card box --set inch-81",
]
CHOOSES = [
    "stack 0.6202in",
    "stack 0.6202in --json",
    "angle 30deg --bar 5in",
    "taper 3in/ft --bar 5in",
    "angle-blocks 12d34m56s",
    "job monday.yaml",
    "reach 0.6202in",
    "plate 20deg 30deg --bottom 5in --top 5in --views part",
    "correct 30deg --bar 5in --rise 0.0006in --span 3in",
    "measure rolls morse 3 --end-diameter 0.778in --roll 0.25in --stack 2in",
    "measure discs 15deg --discs 1.5in 1in",
    "measure bar 1:10 --bar 5in --low-stack 1in",
    "budget stack 0.6202in --set demo.yaml",
    "budget angle 30deg --bar 5in --set demo.yaml",
    "card setup angle 7d7m30s --bar 5in",
    "card job monday.yaml",
]
SPARED = (
    *((line, NEVER | SOLVER | TABLES | FILES) for line in READS_NOTHING),
    *((line, NEVER | SOLVER | TABLES) for line in READS_FILES),
    *((line, NEVER | SOLVER) for line in COUNTS),
    *((line, NEVER) for line in CHOOSES),
    ("card check K7QF-2M9P --set bench.yaml", NEVER | SOLVER | TABLES),
    ("--version", NEVER | SOLVER | TABLES | FILES),
)
TYPED = [
    ("st", NEVER | SOLVER | TABLES | FILES),
    ("lathe s", NEVER | SOLVER | TABLES | FILES),
    ("stack 1in --", NEVER | SOLVER | TABLES | FILES),
    ("stack 1in --set inch", NEVER | SOLVER | TABLES | FILES),
    ("taper mor", NEVER | SOLVER | TABLES | FILES),
    ("angle 5d --bar 1", NEVER | SOLVER | TABLES),
    ("stack 1in --without 0.1", NEVER | SOLVER | TABLES),
]


@pytest.fixture(scope="module")
def bench(tmp_path_factory):
    """Return a directory that holds the files the commands name."""
    directory = tmp_path_factory.mktemp("bench")
    for name, source in (("bench.yaml", "sets/inch-81.yaml"), ("demo.yaml", "demo/boatyard-inch.yaml")):
        (directory / name).write_text((ROOT / source).read_text(encoding="utf-8"), encoding="utf-8")
    (directory / "monday.yaml").write_text(JOB, encoding="utf-8")
    return directory


def loaded_by(line, directory=None, **variables):
    """Return all modules a command has loaded when it ends."""
    environment = {key: value for key, value in os.environ.items() if not key.startswith("GAUGESTACK_")}
    done = subprocess.run(
        [sys.executable, "-c", _PROGRAM, *shlex.split(line)],
        env={**environment, **variables},
        cwd=directory,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode in (0, 1), done.stderr
    return set(done.stdout.splitlines()[-1].split())


@pytest.mark.parametrize(("line", "spared"), SPARED, ids=[line for line, _ in SPARED])
def test_a_command_loads_nothing_it_does_not_need(line, spared, bench):
    assert loaded_by(line, bench) & spared == set()


def test_every_command_is_watched():
    watched = {tuple(line.split()[:2]) for line, _ in SPARED} | {(line.split()[0],) for line, _ in SPARED}
    commands = {
        command
        for name, page in PAGES.items()
        for command in ([(name,)] if isinstance(page, str) else [(name, inner) for inner in page.pages])
    }

    assert commands - watched == set()


@pytest.mark.parametrize(("line", "spared"), TYPED, ids=[line for line, _ in TYPED])
def test_the_tab_key_loads_nothing_it_does_not_need(line, spared, bench):
    assert loaded_by(line, bench, _GAUGESTACK_COMPLETE="zsh") & spared == set()


def test_a_command_imports_no_other_command_s_module(bench):
    loaded = {name for name in loaded_by("set list", bench) if name.endswith("commands")}

    assert loaded == {"gaugestack.cli.commands", "gaugestack.cli.setcommands"}


def test_help_does_not_even_read_the_answers():
    assert loaded_by("--help") & {"gaugestack.answers", "gaugestack.inventory.setfile"} == set()


def test_what_a_stack_needs_is_loaded_when_a_stack_is_chosen():
    assert loaded_by("stack 0.6202in --set inch-81") >= {"numpy", "yaml"}


def test_importing_the_package_loads_nothing_heavy():
    program = "import sys, gaugestack; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)

    assert set(done.stdout.split()) & (SOLVER | TABLES | FILES | NEVER | {"typer"}) == set()
