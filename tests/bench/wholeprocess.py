"""Whole commands from start to end, beside an interpreter that only imports what they need.

Ours and floor run in turns, with byte code written, as an installation has it.
A command that is not there, or refuses, is reported as such and gets no
figure.  Each row says how many modules the command had loaded when it ended.

    python tests/bench/wholeprocess.py 7       a table of these rows alone, 7 starts each
"""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from rows import Goal, Row, timed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from plan import Plan

ROOT = Path(__file__).parents[2]
SOLVER = "from ortools.sat.python import cp_model"
SHELL = "import typer, rich"
FILES = "import typer, rich, yaml"
TABLES = "import typer, rich, yaml, numpy"
WORDS = "import typer"
HELP = "import typer; a = typer.Typer(); a.command()(lambda: None); a(['--help'])"
COUNTED = """
import sys
sys.argv[0] = "gaugestack"
try:
    from gaugestack.cli.main import main
    main()
finally:
    print(f"\\n{len(sys.modules)}")
"""
LEDGER = "{ledger}"
"""Stands for a set file whose ledger may be written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Command:
    """What is run, and the least that python could do for it: imports, or an empty command's help.

    `aim` is the most wanted over the floor, `fails` where the smoke run fails.
    With a `tab` the line is not run: that shell asks what may stand next.
    """

    line: str
    floor: str
    aim: float = 1.5
    fails: float = 3
    tab: str = ""


COMMANDS = (
    Command(line="--help", floor=SHELL, aim=4, fails=8),
    Command(line="--help", floor=HELP),
    Command(line="stack 0.6202in --set inch-81", floor=SOLVER, aim=1.15),
    Command(line="angle 30deg --bar 5in --set inch-81", floor=SOLVER, aim=1.15),
    Command(line="taper 3in/ft --bar 5in --set inch-81", floor=SOLVER, aim=1.15),
    Command(line="set list", floor=FILES),
    Command(line="set show inch-81", floor=FILES),
    Command(line="--version", floor=SHELL),
    Command(line="stack --help", floor=SHELL),
    Command(line="set --help", floor=SHELL),
    Command(line="angle-blocks 12d34m56s", floor=SOLVER),
    Command(line="job demo/saturday-job.yaml", floor=SOLVER, aim=3, fails=20),
    Command(line=f"record used 0.105 --job wedge --set {LEDGER}", floor=FILES),
    Command(line=f"history 0.105 --set {LEDGER}", floor=FILES),
    Command(line="reach 0.6202in", floor=SOLVER),
    Command(line="reach 0.2..4in --most 5", floor=TABLES, aim=2, fails=8),
    Command(line="plate 20deg 30deg --bottom 5in --top 5in --views part", floor=SOLVER, aim=2, fails=8),
    Command(line="correct 30deg --bar 5in --rise 0.0006in --span 3in", floor=SOLVER),
    Command(line="from-stack 0.1008in 0.150in --bar 5in", floor=FILES),
    Command(line="proof morse 3", floor=SHELL),
    Command(line="tapers morse 3", floor=SHELL),
    Command(line="schema stack", floor=SHELL),
    Command(line="set check inch-81", floor=TABLES, aim=2, fails=8),
    Command(line="set matters inch-81", floor=TABLES, aim=4, fails=40),
    Command(line="set buy demo/boatyard-inch.yaml", floor=TABLES, aim=4, fails=40),
    Command(line="set health demo/boatyard-inch.yaml", floor=TABLES, aim=4, fails=40),
    Command(line="lathe swing morse 3 --travel 3in", floor=SHELL),
    Command(line="lathe offset morse 3 --between 10in --length 3in", floor=SHELL),
    Command(line="lathe attachment 5/8in/ft --scale per-foot", floor=SHELL),
    Command(line="lathe collars 1:20 --difference 0.100in", floor=SHELL),
    Command(
        line="measure rolls morse 3 --end-diameter 0.778in --roll 0.25in --stack 2in",
        floor=SOLVER,
        aim=2,
        fails=8,
    ),
    Command(line="measure balls --large 40mm --small 32mm --tops 8mm -76mm", floor=SHELL),
    Command(line="measure discs 15deg --discs 1.5in 1in", floor=SOLVER),
    Command(line="measure bar 1:10 --bar 5in --low-stack 1in", floor=SOLVER),
    Command(line="budget stack 0.6202in --set demo/boatyard-inch.yaml", floor=SOLVER, aim=2, fails=8),
    Command(line="budget angle 30deg --bar 5in --set demo/boatyard-inch.yaml", floor=SOLVER, aim=2, fails=8),
    Command(line="card setup angle 7d7m30s --bar 5in", floor=SOLVER),
    Command(line="card box --set inch-81", floor=FILES, aim=3, fails=8),
    Command(line="card job demo/saturday-job.yaml", floor=SOLVER, aim=3, fails=20),
    Command(line="completion bash", floor=SHELL),
    Command(line="st", floor=WORDS, tab="zsh"),
    Command(line="stack 0.6202in --set inch-8", floor=WORDS, tab="zsh"),
    Command(line="taper mor", floor=WORDS, aim=2, tab="zsh"),
    Command(line="angle 30deg --bar 1", floor=FILES, aim=2, tab="zsh"),
    Command(line="stack 0.6202in --without 0.1", floor=FILES, aim=2, tab="zsh"),
)
"""`set copy` makes a file that is not there, and so cannot be run in turns: it does what `set show` does."""


def process_rows(plan: Plan) -> Iterator[Row]:
    """Return one row a command, for the first ones only in the smoke run."""
    yield from _rows(COMMANDS[: plan.commands], plan.starts)


def _rows(commands: tuple[Command, ...], starts: int) -> Iterator[Row]:
    """Return the rows of some commands; a ledger that is written lies in a directory of its own."""
    with TemporaryDirectory() as directory:
        own = Path(directory) / "bench.yaml"
        own.write_text((ROOT / "sets" / "inch-81.yaml").read_text(encoding="utf-8"), encoding="utf-8")
        for command in commands:
            yield _row(command, starts, str(own))


def _row(command: Command, starts: int, ledger: str) -> Row:
    """Return the row of one command; the first run of each is not counted."""
    words = command.line.replace(LEDGER, ledger).split()
    ours, counted, floor = ("-m", "gaugestack", *words), ("-c", COUNTED, *words), ("-c", command.floor)
    row = Row(
        figure=f"Tab after `gaugestack {command.line}`" if command.tab else f"`gaugestack {command.line}`",
        beside=f'floor: `python -c "{command.floor}"`',
        goal=Goal(aim=command.aim, fails=command.fails, floor=True),
        missing="not measured",
    )
    done, loaded, _ = _run(ours, command.tab), _run(counted, command.tab), _run(floor)
    if done.returncode or not done.stdout:
        return replace(row, missing=f"not measured: exit code {done.returncode}")
    turns = [
        (timed(partial(_run, ours, command.tab))[0], timed(partial(_run, floor))[0]) for _ in range(starts)
    ]
    mine, theirs = zip(*turns, strict=True)
    modules = loaded.stdout.split()[-1:]
    note = f"{int(modules[0])} modules" if modules else ""
    return replace(row, ours=mine, same=mine, peer=theirs, missing="", note=note)


def _run(words: tuple[str, ...], tab: str = "") -> subprocess.CompletedProcess[bytes]:
    """Run an interpreter in the project's root and return what came of it."""
    left_out = ("GAUGESTACK_SET", "PYTHONDONTWRITEBYTECODE")
    environment = {key: value for key, value in os.environ.items() if key not in left_out}
    if tab:
        environment["_GAUGESTACK_COMPLETE"] = tab
    return subprocess.run(
        [sys.executable, *words], cwd=ROOT, env=environment, capture_output=True, check=False, timeout=60
    )


def main(starts: int) -> None:
    """Print the table of all commands."""
    for row in _rows(COMMANDS, starts):
        if row.missing:
            print(f"{row.figure:<90} {row.missing}", flush=True)
            continue
        ours, floor = (median(times) * 1000 for times in (row.same, row.peer))
        print(f"{row.figure:<90} {ours:6.0f} ms {floor:6.0f} ms {row.ratio:6.2f}x  {row.note}", flush=True)


if __name__ == "__main__":
    main(int(sys.argv[1]))
