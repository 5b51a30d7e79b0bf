"""The plan of a job as JSON: the form "gaugestack/job".

>>> text(job_form(answer))
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.answers.jobcautions import cautions
from gaugestack.cards.jobscreen import MODEL, failure_said
from gaugestack.cards.jsonform import Form, bar_form, block_form, built_form, degrees, headed, seconds
from gaugestack.inventory.shipped import file_said
from gaugestack.lengths import exact_text
from gaugestack.stacks.sequencerequest import JobFound, JobUndecided

if TYPE_CHECKING:
    from collections.abc import Iterable

    from gaugestack.answers.job import JobAnswer, Task
    from gaugestack.blocks import Block
    from gaugestack.stacks.sequencerequest import JobStep


def job_form(answer: JobAnswer) -> Form:
    """Return the form "gaugestack/job": `steps` in the order they are made, blocks from the bottom up."""
    stock = answer.stock
    form: Form = {
        "name": answer.job.name,
        "file": answer.job.file,
        "set": {"name": stock.name, "file": file_said(stock.block_set.file), "pieces": len(stock.pieces)},
        "order": "free" if answer.request.free else "fixed",
        "tolerance": exact_text(answer.request.requests[0].tolerance, stock.unit),
        "tolerance_reason": answer.tolerance_said,
        "basis": answer.request.requests[0].basis.value,
        "setups": len(answer.tasks),
        "counted": MODEL,
        "cautions": [
            {"setups": list(one.setups), "sentence": one.sentence}
            for one in cautions(answer.tasks, stock.unit)
        ],
        "steps": [],
    }
    return headed("job", {**form, **_outcome(answer)})


def _outcome(answer: JobAnswer) -> Form:
    """Return how it ended: the plan, or every set-up that cannot be made."""
    outcome, plan = answer.outcome, answer.plan
    if plan is None:
        failures = [
            {**_task(answer.tasks[place]), "reason": failure_said(one)} for place, one in answer.failures
        ]
        return {"outcome": "impossible", "failures": failures}
    form: Form = {
        "outcome": "found" if isinstance(outcome, JobFound) else "undecided",
        "wrings": plan.wrings,
        "naive_wrings": plan.naive,
        "at_least": plan.wrings,
        "steps": [_step(answer, step) for step in plan.steps],
    }
    if isinstance(outcome, JobUndecided):
        form |= {"at_least": outcome.at_least, "reason": outcome.sentence}
    return form


def _step(answer: JobAnswer, step: JobStep) -> Form:
    """Return one set-up: what is handled, the stack, the joints to make."""
    task, built = answer.tasks[step.setup], answer.built(step)
    form: Form = {
        **_task(task),
        "setup": step.setup + 1,
        "stack": built_form(built, task.unit),
        "keep_wrung": [_blocks(pile) for pile in step.kept],
        "part": _blocks(step.loose),
        "take_off": _blocks(step.off),
        "add": _blocks(step.on),
        "wrings": step.wrings,
    }
    error = task.error_arcsec(built.length)
    if error is not None:
        form["error_arcsec"] = seconds(error)
    return form


def _task(task: Task) -> Form:
    """Return what a set-up asks for."""
    setup = task.setup
    form: Form = {
        "name": setup.name,
        "wanted": setup.wanted.value,
        "text": setup.text.text,
        "height": exact_text(task.height, task.unit),
        "line": setup.place.line,
    }
    if setup.use:
        form["for"] = setup.use.value
    if task.angle is not None and task.bar is not None:
        form |= {"angle_degrees": degrees(task.angle), "bar": bar_form(task.bar)}
    return form


def _blocks(blocks: Iterable[Block]) -> list[Form]:
    """Return blocks by name."""
    return [block_form(block) for block in blocks]
