"""The CP-SAT model: one function a rule, canonical stages, one proven optimum.

A `Puzzle` holds whole numbers only; `decide` returns how many pieces of each
kind stand in each stack.  The order of preference is settled inside the
model, so that the optimum is unique:

    0. fewest scarce blocks     (only where the puzzle has any; it then ends
                                 with which of them, the largest first)
    1. fewest blocks            (a constant where the puzzle fixes it)
    2. smallest sum of deviations, or deviation of the difference
    3. fewest thin blocks
    4. fewest uses so far       (only where the puzzle counts them)
    5. the lower second stack   (only where a difference of two is wanted)
    6. the largest blocks first, stack by stack: of two answers the one whose
       blocks, listed from the largest, first shows a larger one

These are the digits of one number, most significant first.  Digits are packed
into as few objectives as 50 bits allow, each solved to proven optimality and
fixed before the next.

The only importer of ortools, and only when a puzzle is decided: it loads slowly.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, auto
from typing import Any

from gaugestack.stacks.effort import Effort
from gaugestack.stacks.interruptible import interruptible
from gaugestack.stacks.preference import digits, packed


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """Pieces that nothing tells apart for this request.

    `size` in picometres, `pieces` how many there are, `least` how many must
    be used over all stacks.  `scarce` pieces are not at hand: using few of
    them comes before everything else.  `end_only` pieces stand at an end or
    nowhere; `uses` is what one piece adds to the wear so far; `nominal` is the
    engraved size where `size` is a certified one, else 0.
    """

    size: int
    pieces: int
    thin: bool
    least: int = 0
    scarce: bool = False
    end_only: bool = False
    uses: int = 0
    nominal: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Pile:
    """One stack of the puzzle.

    `heights` are the sums allowed as closed ranges, `aim` the sum wanted (all
    picometres), `kinds` the indices of kinds that may stand here, `most` the
    largest count, `exactly` the count where it is fixed.  `nominals` are the
    nominal sums that can meet `heights` at all, where sizes are certified.
    `standing` blocks stand in the pile already, `faces` of them with one good
    face; `ends` positions take such.
    """

    aim: int
    heights: tuple[tuple[int, int], ...]
    kinds: tuple[int, ...]
    most: int | None = None
    exactly: int | None = None
    ends: int = 2
    standing: int = 0
    faces: int = 0
    nominals: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Lift:
    """By how much the first of two piles stands higher than the second, in picometres.

    `aim` is the difference wanted, `low`..`high` what is allowed; `step`
    divides every nominal size.
    """

    aim: int
    low: int
    high: int
    step: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Puzzle:
    """What the solver decides.

    `total` fixes the number of blocks over all piles, `thin` the number of
    thin ones; None leaves them to the objective.  `tight` says that the table
    has left little to search.  With a `lift` there are two piles, and what
    counts is their difference, not the height of each.
    """

    kinds: tuple[Kind, ...]
    piles: tuple[Pile, ...]
    total: int | None = None
    thin: int | None = None
    tight: bool = False
    lift: Lift | None = None
    barred: tuple[tuple[int, ...], ...] = ()


class Verdict(Enum):
    """How a puzzle ended."""

    OPTIMAL = auto()
    INFEASIBLE = auto()
    LIMIT = auto()


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """`counts[pile][kind]` of the best answer known; empty where none is."""

    verdict: Verdict
    counts: tuple[tuple[int, ...], ...] = ()


@dataclass(slots=True, kw_only=True)
class Draft:
    """A model under construction and its count variables, `count[pile][kind]`."""

    cp: Any
    model: Any
    puzzle: Puzzle
    count: list[dict[int, Any]]

    def height(self, count: dict[int, Any]) -> Any:  # noqa: ANN401  (ortools has no types)
        """Return the sum of sizes of one pile."""
        return self.cp.LinearExpr.weighted_sum(
            list(count.values()), [self.puzzle.kinds[k].size for k in count]
        )

    def difference(self) -> Any:  # noqa: ANN401  (ortools has no types)
        """Return how much higher the first pile stands than the second."""
        return self.height(self.count[0]) - self.height(self.count[1])

    def every(self, kind: int) -> list[Any]:
        """Return the variables of one kind over all piles."""
        return [pile[kind] for pile in self.count if kind in pile]

    def all(self) -> list[Any]:
        """Return all variables."""
        return [variable for pile in self.count for variable in pile.values()]

    def thin(self) -> list[Any]:
        """Return the variables of thin kinds."""
        return [v for pile in self.count for k, v in pile.items() if self.puzzle.kinds[k].thin]

    def scarce(self) -> dict[int, list[Any]]:
        """Return the variables of each scarce kind."""
        return {k: self.every(k) for k, kind in enumerate(self.puzzle.kinds) if kind.scarce and self.every(k)}


def decide(puzzle: Puzzle, effort: Effort | None = None) -> Decision:
    """Return the best answer of the puzzle and how sure it is; what it took is spent of the effort."""
    effort = effort or Effort()
    if any(not pile.heights for pile in puzzle.piles):
        return Decision(verdict=Verdict.INFEASIBLE)
    if not effort.left:
        return Decision(verdict=Verdict.LIMIT)
    draft = _build(puzzle)
    for rule in _RULES:
        rule(draft)
    return _solve_in_stages(draft, effort)


def height_is_allowed(draft: Draft) -> None:
    """Make the sizes of a pile add up to one of its heights."""
    for pile, count in zip(draft.puzzle.piles, draft.count, strict=True):
        expression = draft.height(count)
        domain = draft.cp.Domain.from_intervals([list(ends) for ends in pile.heights])
        draft.model.add_linear_expression_in_domain(expression, domain)


def difference_is_allowed(draft: Draft) -> None:
    """Make the first pile stand higher than the second by what is allowed, where a difference is wanted."""
    lift = draft.puzzle.lift
    if lift:
        draft.model.add_linear_constraint(draft.difference(), lift.low, lift.high)


def nominal_can_meet_height(draft: Draft) -> None:
    """Keep the nominal sum of a pile near enough for its certified sum to be allowed.

    Implied by the heights; said again because on the coarse grid of nominal
    sizes it prunes what a sum of deviations does not.
    """
    for pile, count in zip(draft.puzzle.piles, draft.count, strict=True):
        if pile.nominals:
            sizes = [draft.puzzle.kinds[k].nominal for k in count]
            expression = draft.cp.LinearExpr.weighted_sum(list(count.values()), sizes)
            domain = draft.cp.Domain.from_intervals([list(ends) for ends in pile.nominals])
            draft.model.add_linear_expression_in_domain(expression, domain)


def one_face_at_an_end(draft: Draft) -> None:
    """Let blocks with one good face stand at the open ends of a pile only, and never alone."""
    for pile, count in zip(draft.puzzle.piles, draft.count, strict=True):
        chosen = [variable for k, variable in count.items() if draft.puzzle.kinds[k].end_only]
        if chosen or pile.faces:
            faces = draft.cp.LinearExpr.sum(chosen) + pile.faces
            blocks = draft.cp.LinearExpr.sum(list(count.values())) + pile.standing
            draft.model.add(faces <= pile.ends)
            draft.model.add(faces <= 2 * blocks - 2)


def no_piece_twice(draft: Draft) -> None:
    """Let all piles together use no more pieces of a kind than there are."""
    for index, kind in enumerate(draft.puzzle.kinds if len(draft.count) > 1 else ()):
        variables = draft.every(index)
        if len(variables) > 1:
            draft.model.add(draft.cp.LinearExpr.sum(variables) <= kind.pieces)


def kept_in_are_used(draft: Draft) -> None:
    """Use the kinds that must be used."""
    for index, kind in enumerate(draft.puzzle.kinds):
        if kind.least:
            draft.model.add(draft.cp.LinearExpr.sum(draft.every(index)) >= kind.least)


def not_too_many(draft: Draft) -> None:
    """Let no pile hold more blocks than it may."""
    for pile, count in zip(draft.puzzle.piles, draft.count, strict=True):
        if pile.most is not None:
            draft.model.add(draft.cp.LinearExpr.sum(list(count.values())) <= pile.most)


def count_is_met(draft: Draft) -> None:
    """Give each pile the number of blocks it must have, where that is fixed."""
    for pile, count in zip(draft.puzzle.piles, draft.count, strict=True):
        if pile.exactly is not None:
            draft.model.add(draft.cp.LinearExpr.sum(list(count.values())) == pile.exactly)


def totals_are_kept(draft: Draft) -> None:
    """Keep the number of blocks, and of thin ones, where the puzzle fixes it."""
    puzzle = draft.puzzle
    if puzzle.total is not None:
        draft.model.add(draft.cp.LinearExpr.sum(draft.all()) == puzzle.total)
    thin = draft.thin()
    if puzzle.thin is not None and thin:
        draft.model.add(draft.cp.LinearExpr.sum(thin) == puzzle.thin)


def no_barred_answer(draft: Draft) -> None:
    """Give no barred answer again: take fewer of one of its kinds, or more blocks in all."""
    for counts in draft.puzzle.barred:
        taken = {kind: count for kind, count in enumerate(counts) if count}
        if not taken.keys() <= draft.count[0].keys():
            continue
        other = [draft.model.new_bool_var("") for _ in range(len(taken) + 1)]
        for literal, (kind, count) in zip(other, taken.items(), strict=False):
            draft.model.add(draft.count[0][kind] < count).only_enforce_if(literal)
        everything = draft.cp.LinearExpr.sum(list(draft.count[0].values()))
        draft.model.add(everything > sum(counts)).only_enforce_if(other[-1])
        draft.model.add_bool_or(other)


_RULES = (
    height_is_allowed,
    difference_is_allowed,
    nominal_can_meet_height,
    one_face_at_an_end,
    no_piece_twice,
    kept_in_are_used,
    not_too_many,
    count_is_met,
    totals_are_kept,
    no_barred_answer,
)


def _build(puzzle: Puzzle) -> Draft:
    """Return a model with its variables and no rule yet."""
    from ortools.sat.python import cp_model  # noqa: PLC0415  (0.3 s: only when a puzzle is decided)

    model = cp_model.CpModel()
    count = [
        {k: model.new_int_var(0, puzzle.kinds[k].pieces, "") for k in sorted(pile.kinds)}
        for pile in puzzle.piles
    ]
    return Draft(cp=cp_model, model=model, puzzle=puzzle, count=count)


def _solve_in_stages(draft: Draft, effort: Effort) -> Decision:
    """Minimise each packed objective in turn, fixing what was proven."""
    solver = _solver(draft, effort)
    objectives = list(packed(list(digits(draft)))) or [0]
    decision = Decision(verdict=Verdict.LIMIT)
    for objective in objectives:
        draft.model.minimize(objective)
        solver.parameters.max_deterministic_time = effort.left
        status = _search(draft, solver)
        effort.spend(solver.response_proto.deterministic_time)
        decision = _read(draft, solver, status, decision)
        if decision.verdict is not Verdict.OPTIMAL:
            return decision
        draft.model.add(objective == round(solver.objective_value))
        _hint(draft, decision)
    return decision


def _search(draft: Draft, solver: Any) -> Any:  # noqa: ANN401  (no types)
    """Return the solver's status; a tight puzzle takes milliseconds, any other can be interrupted."""
    if draft.puzzle.tight:
        return solver.solve(draft.model)
    return interruptible(lambda: solver.solve(draft.model), solver.stop_search)


def _solver(draft: Draft, effort: Effort) -> Any:  # noqa: ANN401  (ortools has no types)
    """Return a solver set up for the puzzle.

    On a tight puzzle presolve costs more than it saves, and with the search
    fixed to the order of the last digits the first answer found is nearly
    always the best, so that only the proof is left.
    """
    solver = draft.cp.CpSolver()
    solver.parameters.catch_sigint_signal = False  # else Ctrl-C would pass for the limit
    solver.parameters.num_workers = effort.workers
    solver.parameters.random_seed = effort.seed
    if draft.puzzle.tight:
        draft.model.add_decision_strategy(draft.all(), draft.cp.CHOOSE_FIRST, draft.cp.SELECT_MAX_VALUE)
        solver.parameters.search_branching = draft.cp.FIXED_SEARCH
    if draft.puzzle.tight or _linked(draft.puzzle):
        solver.parameters.cp_model_presolve = False
    return solver


def _linked(puzzle: Puzzle) -> bool:
    """Tell whether certified lengths are summed: presolve can take minutes and gigabytes there, uncounted."""
    off_grid = puzzle.lift and any(kind.nominal for kind in puzzle.kinds)
    return bool(off_grid) or any(pile.nominals for pile in puzzle.piles)


def _read(draft: Draft, solver: Any, status: Any, before: Decision) -> Decision:  # noqa: ANN401  (no types)
    """Return what the solver says; keeps the answer of the stage before on a limit."""
    cp = draft.cp
    if status == cp.INFEASIBLE:
        return Decision(verdict=Verdict.INFEASIBLE)
    if status not in (cp.OPTIMAL, cp.FEASIBLE):
        return Decision(verdict=Verdict.LIMIT, counts=before.counts)
    width = range(len(draft.puzzle.kinds))
    counts = tuple(tuple(int(solver.value(c[k])) if k in c else 0 for k in width) for c in draft.count)
    verdict = Verdict.OPTIMAL if status == cp.OPTIMAL else Verdict.LIMIT
    return Decision(verdict=verdict, counts=counts)


def _hint(draft: Draft, decision: Decision) -> None:
    """Give the next stage the answer of this one to start from."""
    draft.model.clear_hints()
    for count, values in zip(draft.count, decision.counts, strict=True):
        for kind, variable in count.items():
            draft.model.add_hint(variable, values[kind])
