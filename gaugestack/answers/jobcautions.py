"""What to take care of in a job: steep angles on the bar, tapers that do not hold by themselves.

>>> cautions(answer.tasks, stock.unit)
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.angles.callout import read_call_out
from gaugestack.angles.fit import fit
from gaugestack.angles.flat import Flat
from gaugestack.angles.published import find_published, looks_like_a_name
from gaugestack.angles.sine import steep_caution
from gaugestack.inventory.jobfile import Wanted

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.answers.job import Task
    from gaugestack.lengths import Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class JobCaution:
    """A caution, and the names of the set-ups it is for."""

    setups: tuple[str, ...]
    sentence: str

    @property
    def text(self) -> str:
        """The set-ups, then the caution."""
        return f"{', '.join(self.setups)}: {self.sentence}"


def cautions(tasks: Sequence[Task], unit: Unit) -> tuple[JobCaution, ...]:
    """Return every caution, those of the same words once with the set-ups they are for."""
    named: dict[str, list[str]] = {}
    for task in tasks:
        for sentence in _of(task, unit):
            named.setdefault(sentence, []).append(task.setup.name)
    return tuple(JobCaution(setups=tuple(names), sentence=text) for text, names in named.items())


def _of(task: Task, unit: Unit) -> Iterator[str]:
    """Return what to take care of in one set-up."""
    steep = steep_caution(task.angle) if task.angle is not None else None
    if steep:
        yield steep.sentence
    if task.setup.wanted is not Wanted.TAPER:
        return
    text = task.setup.text.text
    read = read_call_out(text, bare_unit=unit)
    if not isinstance(read, Flat):
        yield from fit(read, published=find_published(text) if looks_like_a_name(text) else None).cautions
