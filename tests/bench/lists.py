"""Long lists: what a target of one costs, in this process and as a whole command with every core.

Whole commands are run on a list and on half of it; half the difference of the
times is free of the start-up, which stands in a remark.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from functools import partial
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING

from cases import Case, load_case
from peers import bare_cp_sat
from rows import Check, Goal, Row, timed

from gaugestack.answers.batch import stack_each
from gaugestack.answers.stock import load
from gaugestack.cli.cores import cores
from gaugestack.lengths import Length, exact_text
from gaugestack.stacks.request import Found

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from plan import Plan

    from gaugestack.answers.stack import StackAnswer

ROOT = Path(__file__).parents[2]
NAME = "inch-81"
ALONE = f"`gaugestack stack HEIGHT --set {NAME}`, a process a height"


def list_rows(plan: Plan) -> Iterator[Row]:
    """Return the rows of lists."""
    case = load_case(NAME)
    yield _in_process(case, plan.heights)
    if plan.long:
        yield from _whole(case, plan.long, plan.starts)


def _in_process(case: Case, count: int) -> Row:
    """Return the row of a target in one process, answers whole, beside the bare solver."""
    answers = stack_each(_texts(case, count), stock=load([NAME]))
    next(answers)
    turns = []
    for _ in range(count - 1):
        seconds, answer = timed(partial(next, answers))
        turns.append((seconds, timed(partial(_bare, answer))[0], isinstance(answer.outcome, Found)))
    ours = tuple(mine for mine, _, _ in turns)
    return Row(
        figure=f"list, {NAME}, one core, a target",
        beside="floor: a bare CP-SAT model of the answer's own blocks",
        goal=Goal(aim=10, fails=100, floor=True),
        ours=ours,
        same=ours,
        peer=tuple(theirs for _, theirs, _ in turns),
        checks=(Check(what="made", compared=len(turns), agreed=sum(made for _, _, made in turns)),),
        note=f"{len(turns) / sum(ours):.0f} targets/s",
    )


def _bare(answer: StackAnswer) -> None:
    """Let the bare solver find an answer among its own blocks."""
    if isinstance(answer.outcome, Found):
        built = answer.outcome.stacks[0]
        bare_cp_sat([block.nominal for block in built.blocks], built.target)


def _whole(case: Case, count: int, starts: int) -> Iterator[Row]:
    """Return the rows of the whole command beside a process a height."""
    texts = _texts(case, count)
    with tempfile.TemporaryDirectory() as folder:
        long, half = Path(folder) / "long.txt", Path(folder) / "half.txt"
        long.write_text("\n".join(texts) + "\n", encoding="utf-8")
        half.write_text("\n".join(texts[: count // 2]) + "\n", encoding="utf-8")
        _list(half)
        turns = [(timed(partial(_list, long))[0], timed(partial(_list, half))[0]) for _ in range(3)]
    alone = tuple(timed(partial(_alone, text))[0] for text in texts[:starts])
    steady = tuple(max(whole - part, 1e-9) / (count - count // 2) for whole, part in turns)
    start_up = median(2 * part - whole for whole, part in turns)
    each = tuple(whole / count for whole, _ in turns)
    where = f"{NAME}, {cores()} cores"
    yield Row(
        figure=f"`stack --targets` of {count}, {where}, a target without start-up",
        beside=ALONE,
        goal=Goal(aim=150, fails=15),
        ours=steady,
        same=steady,
        peer=alone,
        note=f"{1 / median(steady):.0f} targets/s, wanted 300; start-up {start_up:.2f} s",
    )
    yield Row(
        figure=f"`stack --targets` of {count}, {where}, a target with all",
        beside=ALONE,
        goal=Goal(aim=100, fails=10),
        ours=each,
        same=each,
        peer=alone,
        note=f"{1 / median(each):.0f} targets/s",
    )


def _texts(case: Case, count: int) -> list[str]:
    """Return random heights as typed."""
    return [exact_text(Length(height * case.step), case.unit) for height in case.heights(count)]


def _list(path: Path) -> None:
    """Answer a list with the command."""
    _checked(("stack", "--targets", str(path), "--csv", "--set", NAME))


def _alone(text: str) -> None:
    """Answer one height with the command."""
    _checked(("stack", text, "--set", NAME))


def _checked(words: Sequence[str]) -> None:
    """Run a command that must answer.  Raises RuntimeError where it does not."""
    done = subprocess.run(
        [sys.executable, "-m", "gaugestack", *words], cwd=ROOT, capture_output=True, check=False, timeout=300
    )
    if done.returncode:
        raise RuntimeError(f"{' '.join(words)}: exit code {done.returncode}")
