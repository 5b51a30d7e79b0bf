"""The set-up sheet of a job as plain text for a terminal of 80 columns.

    >>> print(job_text(answer))

One paragraph a set-up, in the order they are made: what stays wrung, what comes
off, what goes on, and the stack from the bottom up.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.angles.angle import arcsec_text, dms_text
from gaugestack.answers.jobcautions import cautions
from gaugestack.cards.screen import at_hand, blocks_line, deviation_said, page, wrapped
from gaugestack.errors import visible
from gaugestack.inventory.jobfile import Wanted
from gaugestack.lengths import exact_text
from gaugestack.stacks.request import Impossible
from gaugestack.stacks.sequencerequest import JobFound, JobUndecided

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from gaugestack.answers.job import JobAnswer, Task
    from gaugestack.blocks import Block
    from gaugestack.stacks.request import Built, Undecided
    from gaugestack.stacks.sequencerequest import JobStep

MODEL = (
    "a joint made counts one wring, a joint that stays as it is counts none; piles may be turned over, "
    "nothing is left wrung aside for later; thin blocks and blocks with one good face keep their places "
    "(joints left for long seize: common practice)"
)
"""What the plan takes to be true."""


def job_text(answer: JobAnswer) -> str:
    """Return the screen of `job`."""
    lines = [*_head(answer)]
    if answer.plan:
        lines += [*_totals(answer), *_steps(answer), "", *wrapped(MODEL, "counted: ", "  ")]
        lines += _cautions(answer)
    else:
        lines += _failures(answer)
    return page(lines)


def _cautions(answer: JobAnswer) -> Iterator[str]:
    """Return what to take care of, each with its set-ups."""
    for caution in cautions(answer.tasks, answer.stock.unit):
        yield from wrapped(visible(caution.text), "CAUTION: ", "  ")


def wanted_said(task: Task) -> str:
    """Say what a set-up asks for, as it is written in the file."""
    setup = task.setup
    said = "" if setup.wanted is Wanted.HEIGHT else f"{setup.wanted.value} "
    said += setup.text.text
    if setup.use:
        said += f" for {setup.use.value}"
    if task.bar:
        said += f" on {task.bar.name}"
    return said


def proof_said(answer: JobAnswer) -> str:
    """Say how sure the number of wrings is."""
    if isinstance(answer.outcome, JobFound):
        return "no plan takes fewer"
    if isinstance(answer.outcome, JobUndecided) and answer.outcome.at_least:
        return f"not proven the fewest: at least {answer.outcome.at_least}"
    return "not proven the fewest"


def _head(answer: JobAnswer) -> Iterator[str]:
    """Return the job, its set-ups, the set."""
    count, stock = len(answer.tasks), answer.stock
    order = "in whatever order is best" if answer.request.free else "in the order of the file"
    yield from wrapped(visible(f"{answer.job.name}: {_counted(count, 'set-up')}, {order}"), "", "  ")
    tolerance = exact_text(answer.request.requests[0].tolerance, stock.unit)
    said = f"{stock.name}, {at_hand(stock)}; tolerance {tolerance} ({answer.tolerance_said})"
    yield from wrapped(visible(said), "from ", "     ")


def _totals(answer: JobAnswer) -> Iterator[str]:
    """Return the wrings of the plan against those without one."""
    plan = answer.plan
    if plan:
        yield ""
        said = f"{_counted(plan.wrings, 'wring')} in all, {plan.naive} with every stack made afresh"
        yield f"{said}; {proof_said(answer)}"


def _steps(answer: JobAnswer) -> Iterator[str]:
    """Return the paragraphs of all set-ups, in the order they are made."""
    for number, step in enumerate(answer.plan.steps if answer.plan else (), 1):
        task, built = answer.tasks[step.setup], answer.built(step)
        yield ""
        head = f"{task.setup.name}: {wanted_said(task)}"
        yield from wrapped(visible(head), f"{number:>2}  ", "    ")
        yield from _handling(step)
        yield from _row("stack", f"{blocks_line(step.stack.blocks)}, from the bottom")
        yield from _row("gives", _given(task, built))
        yield from _row("wrings", str(step.wrings))


def _given(task: Task, built: Built) -> str:
    """Say what a stack really gives: its angle where one is asked for, its length, how far both are off."""
    length = f"{exact_text(built.length, task.unit)}, {deviation_said(built)}"
    achieved, error = task.achieved(built.length), task.error_arcsec(built.length)
    if achieved is None or error is None:
        return length
    return f"{dms_text(achieved, 1)}, error {arcsec_text(error)}; {length}"


def _handling(step: JobStep) -> Iterator[str]:
    """Return what to do with the blocks of the set-up before, and what comes out of the case."""
    for pile in step.kept:
        yield from _row("keep wrung", blocks_line(pile))
    rows = (("take off", step.off), ("part", step.loose), ("add", step.on))
    for name, blocks in rows:
        if blocks:
            yield from _row(name, _listed(blocks) + (", used again" if name == "part" else ""))


def _failures(answer: JobAnswer) -> Iterator[str]:
    """Return every set-up that cannot be made, with the nearest that can."""
    for place, outcome in answer.failures:
        task = answer.tasks[place]
        yield ""
        head = f"{task.setup.name}: {wanted_said(task)}, {exact_text(task.height, task.unit)}"
        yield from wrapped(visible(head), "", "  ")
        yield from wrapped(failure_said(outcome), "  ", "    ")
        for way in outcome.ways_out[:2] if isinstance(outcome, Impossible) else ():
            yield from wrapped(visible(way.sentence), "   -  ", "      ")


def failure_said(outcome: Impossible | Undecided) -> str:
    """Say why a set-up cannot be made."""
    word = "not possible" if isinstance(outcome, Impossible) else "undecided"
    return f"{word}: {outcome.sentence}"


def _row(name: str, said: str) -> Iterator[str]:
    """Return one line of a set-up."""
    yield from wrapped(visible(said), f"    {name:<11} ", " " * 16)


def _listed(blocks: Iterable[Block]) -> str:
    """Name blocks one after the other."""
    return ", ".join(block.engraved for block in blocks)


def _counted(number: int, word: str) -> str:
    """Return a number with its word."""
    return f"{number} {word}{'s' * (number != 1)}"
