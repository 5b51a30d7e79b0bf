"""Whole commands from start to end, beside an interpreter that only imports what they need.

Ours and floor run in turns.  A command that is not there, or refuses, is
reported as such and gets no figure.
"""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from rows import Goal, Row, timed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from plan import Plan

ROOT = Path(__file__).parents[2]
SOLVER = "from ortools.sat.python import cp_model"
SHELL = "import typer, rich"
FILES = "import typer, rich, yaml"
HELP = "import typer; a = typer.Typer(); a.command()(lambda: None); a(['--help'])"


@dataclass(frozen=True, slots=True)
class Command:
    """What is run, and the least that python could do for it: imports, or an empty command's help.

    `aim` is the most wanted over the floor, `fails` where the smoke run fails.
    """

    words: tuple[str, ...]
    floor: str
    aim: float = 1.5
    fails: float = 3


COMMANDS = (
    Command(("--help",), SHELL, 4, 8),
    Command(("--help",), HELP),
    Command(("stack", "0.6202in", "--set", "inch-81"), SOLVER),
    Command(("angle", "30deg", "--bar", "5in", "--set", "inch-81"), SOLVER),
    Command(("taper", "3in/ft", "--bar", "5in", "--set", "inch-81"), SOLVER),
    Command(("set", "list"), SHELL),
    Command(("set", "show", "inch-81"), FILES),
)


def process_rows(plan: Plan) -> Iterator[Row]:
    """Return one row a command, for the first ones only in the smoke run."""
    for command in COMMANDS[: plan.commands]:
        yield _row(command, plan.starts)


def _row(command: Command, starts: int) -> Row:
    """Return the row of one command; the first run of each is not counted."""
    ours = ("-m", "gaugestack", *command.words)
    floor = ("-c", command.floor)
    row = Row(
        figure=f"`gaugestack {' '.join(command.words)}`",
        beside=f'floor: `python -c "{command.floor}"`',
        goal=Goal(aim=command.aim, fails=command.fails, floor=True),
        missing="not measured",
    )
    done, _ = _run(ours), _run(floor)
    if done.returncode or not done.stdout:
        return replace(row, missing=f"not measured: exit code {done.returncode}")
    turns = [(timed(partial(_run, ours))[0], timed(partial(_run, floor))[0]) for _ in range(starts)]
    mine, theirs = zip(*turns, strict=True)
    return replace(row, ours=mine, same=mine, peer=theirs, missing="")


def _run(words: tuple[str, ...]) -> subprocess.CompletedProcess[bytes]:
    """Run an interpreter in the project's root and return what came of it."""
    environment = {key: value for key, value in os.environ.items() if key != "GAUGESTACK_SET"}
    return subprocess.run(
        [sys.executable, *words], cwd=ROOT, env=environment, capture_output=True, check=False, timeout=60
    )
