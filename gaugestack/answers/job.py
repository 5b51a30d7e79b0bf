"""A job of many set-ups in the fewest wrings: the answer of the command `job`.

    >>> answer = job(load_job("job.yaml"), stock=stock)
    >>> answer.outcome

Every text of the file becomes a height here: angles over their sine bar,
tapers over the angle they are set up for.  What cannot be is said at once,
each mistake with its place in the file.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from gaugestack.angles.angle import read_angle
from gaugestack.angles.callout import read_call_out
from gaugestack.angles.flat import setting_angle
from gaugestack.angles.sine import angle_of, stack_height
from gaugestack.answers.angle import set_angle
from gaugestack.answers.bars import find_bar
from gaugestack.answers.difference import difference_said
from gaugestack.answers.options import Choice
from gaugestack.errors import RefusedFile, TextError, UsageError
from gaugestack.inventory.jobfile import Order, Wanted
from gaugestack.lengths import Length, Unit, read_length
from gaugestack.stacks.explain import explained
from gaugestack.stacks.request import Built, Impossible, Undecided, WayOut
from gaugestack.stacks.sequence import sequence
from gaugestack.stacks.sequencerequest import JobFound, JobImpossible, JobRequest, JobUndecided
from gaugestack.stacks.sequencesearch import MOST_NODES

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from fractions import Fraction

    from gaugestack.angles.angle import Angle
    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.stock import Stock
    from gaugestack.errors import Problem
    from gaugestack.inventory.jobfile import Job, SetUp
    from gaugestack.inventory.nodes import Scalar
from gaugestack.stacks.sequencerequest import JobOutcome, JobPlan, JobStep


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One set-up of the file as a height; `angle` and `bar` None for a plain height."""

    setup: SetUp
    height: Length
    unit: Unit
    angle: Angle | None = None
    bar: SineBar | None = None

    def achieved(self, length: Length) -> Angle | None:
        """Return the angle a stack sets; None for a height, or a stack taller than any sine."""
        if self.bar is None:
            return None
        rise = length - self.bar.base_height
        return angle_of(Length(rise), self.bar) if 0 <= rise <= self.bar.effective else None

    def error_arcsec(self, length: Length) -> Fraction | None:
        """Return the error of the angle that a stack sets, achieved minus asked; None for a height."""
        achieved = self.achieved(length)
        return None if self.angle is None or achieved is None else achieved - self.angle


@dataclass(frozen=True, slots=True, kw_only=True)
class JobAnswer:
    """A plan for all set-ups, or which of them cannot be made.

    `tasks` stand in the order of the file, the steps of the plan in the order
    they are made.  `failures` holds the place of each task that cannot be
    made, and why.
    """

    job: Job
    stock: Stock
    request: JobRequest
    tasks: tuple[Task, ...]
    tolerance_said: str
    outcome: JobOutcome
    failures: tuple[tuple[int, Impossible | Undecided], ...] = ()

    @property
    def plan(self) -> JobPlan | None:
        """The plan, proven the best or not; None where the job cannot be made."""
        return self.outcome.plan if isinstance(self.outcome, JobFound | JobUndecided) else None

    def built(self, step: JobStep) -> Built:
        """Return the stack of a step against the height of its task, blocks from the bottom up."""
        one = self.request.requests[step.setup]
        return Built(target=one.targets[0], blocks=step.stack.blocks, basis=one.basis)


@dataclass(frozen=True, slots=True, kw_only=True)
class JobChoice:
    """How a job is to be planned: stacks as in `Choice`, the bar and the order where the file is silent.

    `order` overrules the file.
    """

    choice: Choice = field(default_factory=Choice)
    bar: str | None = None
    bars: tuple[SineBar, ...] = ()
    order: Order | None = None


def job(read: Job, *, stock: Stock, wish: JobChoice | None = None) -> JobAnswer:
    """Return the plan of a job file on the blocks at hand.

    Raises RefusedFile with every set-up that means nothing, UsageError for an
    option that cannot be met.
    """
    wish = wish or JobChoice()
    choice = wish.choice.begun()
    tasks = _tasks(read, stock, wish)
    free = (wish.order or read.order) is Order.FREE
    requests = tuple(choice.request(stock, [task.height]) for task in tasks)
    request = JobRequest(requests=requests, free=free)
    outcome = sequence(request, choice.effort, MOST_NODES * choice.times)
    return JobAnswer(
        job=read,
        stock=stock,
        request=request,
        tasks=tasks,
        tolerance_said=wish.choice.tolerance_said(stock),
        outcome=outcome,
        failures=tuple(_failures(request, tasks, stock, choice))
        if isinstance(outcome, JobImpossible)
        else (),
    )


def _failures(
    request: JobRequest, tasks: Sequence[Task], stock: Stock, choice: Choice
) -> Iterator[tuple[int, Impossible | Undecided]]:
    """Return every set-up that cannot be made by itself, with its ways out."""
    for place, one in enumerate(request.requests):
        outcome = explained(one, choice.effort)
        if isinstance(outcome, Impossible):
            ways = (*_under_both_rolls(tasks[place], stock, choice), *outcome.ways_out)
            yield place, replace(outcome, ways_out=ways)
        elif isinstance(outcome, Undecided):
            yield place, outcome


def _under_both_rolls(task: Task, stock: Stock, choice: Choice) -> Iterator[WayOut]:
    """Return the two stacks that set an angle which no single stack sets: a plan keeps to single stacks."""
    if task.angle is None or task.bar is None:
        return
    found = set_angle(task.angle, bar=task.bar, stock=stock, choice=choice).difference
    if found:
        said = difference_said(found, task.unit)
        yield WayOut(kind="difference", sentence=f"by itself, not in a plan: {said}, one under each roll")


def _tasks(read: Job, stock: Stock, wish: JobChoice) -> tuple[Task, ...]:
    """Return every set-up as a height.  Raises RefusedFile with all that cannot be."""
    tasks: list[Task] = []
    problems: list[Problem] = []
    for setup in read.setups:
        try:
            tasks.append(_task(setup, read, stock, wish))
        except TextError as error:
            problems.append(setup.text.text_problem(error))
        except RefusedFile as error:
            problems += error.problems
    if problems:
        raise RefusedFile(dict.fromkeys(problems))
    return tuple(tasks)


def _task(setup: SetUp, read: Job, stock: Stock, wish: JobChoice) -> Task:
    """Return one set-up as a height.  Raises TextError about its text, RefusedFile about all else."""
    if setup.wanted is Wanted.HEIGHT:
        length = read_length(setup.text.text, bare_unit=stock.unit)
        return Task(setup=setup, height=length.length, unit=length.unit)
    angle = _angle(setup, stock)
    bar = _bar(setup, read, stock, wish)
    try:
        height = stack_height(angle, bar)
    except UsageError as error:
        raise RefusedFile([_at(setup.text, error)]) from None
    return Task(setup=setup, height=height, unit=bar.unit, angle=angle, bar=bar)


def _angle(setup: SetUp, stock: Stock) -> Angle:
    """Return the angle the bar is set to."""
    if setup.wanted is Wanted.ANGLE:
        return read_angle(setup.text.text).angle
    return setting_angle(read_call_out(setup.text.text, bare_unit=stock.unit), setup.use)


def _bar(setup: SetUp, read: Job, stock: Stock, wish: JobChoice) -> SineBar:
    """Return the bar of a set-up: its own, else the job's, else the caller's.  Raises RefusedFile."""
    said = setup.bar or read.bar
    known = (*stock.bars, *wish.bars)
    if said is None and wish.bar is None and len(known) != 1:
        hint = "write bar: 5in with the set-up or the job, or give --bar"
        raise RefusedFile([setup.text.problem(f"{setup.name!r} needs a sine bar", hint=hint)])
    if said is None:
        return find_bar(wish.bar, stock, known)
    try:
        return find_bar(said.text, stock, known, "bar")
    except UsageError as error:
        raise RefusedFile([_at(said, error)]) from None


def _at(scalar: Scalar, error: UsageError) -> Problem:
    """Return a complaint about a text with its place in the file."""
    told = error.problems[0]
    return scalar.problem(told.sentence, hint=told.hint)
