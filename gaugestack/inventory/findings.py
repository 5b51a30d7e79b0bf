"""The problems of one file, collected until the file is refused.

    findings = Findings()
    findings.add(problem)
    findings.refuse_if_any()

Lives as long as one reading; nothing here is shared.  Does not print.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from gaugestack.errors import RefusedFile

if TYPE_CHECKING:
    from typing import NoReturn

    from gaugestack.errors import Problem

MOST_PROBLEMS = 100
"""A file with more problems than this is not the file that was meant."""


class Findings:
    """Problems found so far in one file."""

    __slots__ = ("_problems",)

    def __init__(self) -> None:
        """Begin with none."""
        self._problems: list[Problem] = []

    def __len__(self) -> int:
        """How many problems were found so far."""
        return len(self._problems)

    def add(self, problem: Problem) -> None:
        """Keep one problem; raises RefusedFile at once when there are too many."""
        self._problems.append(problem)
        if len(self._problems) >= MOST_PROBLEMS:
            sentence = f"{MOST_PROBLEMS} problems so far: the rest of the file was not checked"
            self._problems.append(replace(problem, sentence=sentence, source="", hint=""))
            self._refuse()

    def refuse_if_any(self) -> None:
        """Raise RefusedFile with everything found, in the order of the file."""
        if self._problems:
            self._refuse()

    def stop(self, problem: Problem) -> NoReturn:
        """Keep one problem after which nothing can be read, and refuse the file."""
        self._problems.append(problem)
        self._refuse()

    def _refuse(self) -> NoReturn:
        """Raise the problems in the order of their places."""
        raise RefusedFile(sorted(self._problems, key=lambda found: (found.place.line, found.place.column)))
