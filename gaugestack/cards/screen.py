"""Answers as plain text for a terminal of 80 columns.

    >>> print(stack_text(answer))

Pure strings; the shell prints them as they are.  Sizes from a user's file
pass through `visible`, so that nothing in them can move the cursor.
"""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from gaugestack.answers.stackremarks import UNIT_WORDS
from gaugestack.blocks import Basis
from gaugestack.cards.certifiedscreen import certified_lines
from gaugestack.cards.drawing import LINES, Pen, drawn
from gaugestack.cards.fitting import columns, wrap
from gaugestack.cards.owners import NO_LABELS, blocks_said, labels_of, sets_said
from gaugestack.errors import visible
from gaugestack.lengths import Unit, engraved_text, exact_text, small_text
from gaugestack.stacks.request import Found, Impossible, Proof, Undecided

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.sets import ListedSet, SetAnswer
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import Block
    from gaugestack.stacks.request import Built, StackRequest, WayOut
    from gaugestack.stacks.wringing import WringingPlan

COLUMNS = 80
SAY_THEMSELVES = frozenset({"bar", "plate", "table"})
"""Words of a bar's name that say what it is."""
MOST_NAMED = 8
"""Blocks named in one line before the rest is counted."""


def stack_text(answer: StackAnswer, pen: Pen = LINES) -> str:
    """Return the screen of `stack`."""
    return page((*_head(answer), *outcome_lines(answer, pen), *remark_lines(answer.remarks)))


def outcome_lines(
    answer: StackAnswer, pen: Pen, extra: dict[int, str] | None = None, *, care: bool = True
) -> Iterator[str]:
    """Return the lines of an outcome; `extra` adds a sentence to the rung with that index.

    The steps of cleaning and parting are said once a screen, `care` where they are still to be said.
    """
    outcome = answer.outcome
    if isinstance(outcome, Found):
        for index, (built, plan) in enumerate(zip(outcome, answer.plans, strict=True)):
            yield from _found(answer, index, built, plan, pen)
            yield from step_lines(plan, care=care)
            care = care and len(plan.stack.blocks) < 2
    elif isinstance(outcome, Impossible):
        yield from _impossible(outcome, extra or {}, labels_of(answer.stock), _failing(answer, outcome))
    else:
        yield from _undecided(outcome)


def remark_lines(remarks: Iterable[str]) -> Iterator[str]:
    """Return the remarks, each with a dash, wrapped."""
    for number, remark in enumerate(remarks):
        if not number:
            yield ""
        yield from wrapped(remark, "note: ", "      ")


def set_text(answer: SetAnswer, extra: Iterable[str] = ()) -> str:
    """Return the screen of `set show`, and with `extra` lines of `set check`."""
    stock, block_set, unit = answer.stock, answer.stock.block_set, answer.stock.unit
    lines = wrapped(visible(f"{stock.name}: {at_hand(stock)}, sizes in {UNIT_WORDS[unit]}"), "", "  ")
    known = (block_set.standard, block_set.grade and f"grade {block_set.grade}", block_set.material)
    lines += wrapped(visible(", ".join(word for word in known if word)), "  ", "  ")
    if block_set.source:
        lines += wrapped(visible(f"composition: {block_set.source}"), "  ", "  ")
    if answer.every_step:
        low, high = (exact_text(length, unit) for length in answer.every_step)
        lines += wrapped(f"makes every {exact_text(answer.step, unit)} from {low} to {high}", "  ", "  ")
    lines += ["", *_series(answer)]
    for bar in stock.bars:
        lines += wrapped(
            visible(f"{bar_named(bar)}: {exact_text(bar.effective, bar.unit)} centres"), "  ", "  "
        )
    return page((*lines, *extra, *remark_lines(visible(remark) for remark in answer.remarks)))


def bar_named(bar: SineBar) -> str:
    """Return a bar's name, with the word `bar` before it where the name does not say what it is."""
    return bar.name if SAY_THEMSELVES & set(bar.name.casefold().split()) else f"bar {bar.name}"


def list_text(sets: tuple[ListedSet, ...]) -> str:
    """Return the screen of `set list`."""
    width = max(len(s.name) for s in sets)
    lines = []
    for s in sets:
        lead = f"{s.name:<{width}}  {s.pieces:>3} pieces  "
        lines += wrapped(s.source, lead, " " * len(lead))
    return page([*lines, "", *_WHERE_FROM])


_WHERE_FROM = (
    "seen: read in a copy of what is named; memory: written down without it at hand,",
    "so hold it against your case; common practice: usual in the trade",
)


def page(lines: Iterable[str]) -> str:
    """Return lines as one text that ends in a newline."""
    return "\n".join(lines).rstrip() + "\n"


def wrapped(text: str, lead: str, follow: str) -> list[str]:
    """Return a sentence wrapped to the screen, by columns where characters are not one column each."""
    if columns(text) != len(text):
        first, *rest = wrap(text, COLUMNS - 1 - max(len(lead), len(follow)))
        return [lead + first, *(follow + line for line in rest)]
    lines = textwrap.wrap(
        text, COLUMNS - 1, initial_indent=lead, subsequent_indent=follow, break_on_hyphens=False
    )
    return lines or ([lead.rstrip()] if lead.strip() else [])


def blocks_line(blocks: Iterable[Block], labels: Mapping[str, str] = NO_LABELS) -> str:
    """Return the blocks of a stack in one line, as they are pulled from the box."""
    names = blocks_said(blocks, labels)
    if len(names) <= MOST_NAMED:
        return " + ".join(names)
    return " + ".join(names[:MOST_NAMED]) + f" + {len(names) - MOST_NAMED} more"


def unit_of(blocks: Sequence[Block]) -> Unit:
    """Return the unit of a stack's lengths: that of its blocks, millimetres where they differ."""
    units = {block.unit for block in blocks}
    return units.pop() if len(units) == 1 else Unit.MILLIMETRE


def deviation_said(built: Built) -> str:
    """Say how far a stack is from what was asked."""
    unit = unit_of(built.blocks)
    places = 1 if abs(built.deviation) >= unit.small_picometres else 3
    return "exactly" if not built.deviation else f"{small_text(built.deviation, unit, places)} off"


def source_said(answer: StackAnswer) -> str:
    """Say which blocks were chosen from, and the tolerance."""
    return chosen_from(answer.stock, answer.request, answer.tolerance_said)


def chosen_from(stock: Stock, request: StackRequest, tolerance_said: str) -> str:
    """Say which blocks a request chooses from, and its tolerance."""
    said = f"{sets_said(stock)}, {at_hand(stock)}; "
    said += f"tolerance {exact_text(request.tolerance, stock.unit)} ({tolerance_said})"
    return said if request.basis is Basis.NOMINAL else f"{said}; certified lengths"


def at_hand(stock: Stock) -> str:
    """Say how many pieces are there, of how many."""
    there, issued = stock.at_hand(), len(stock.pieces)
    return f"{there} pieces" if there == issued else f"{there} of {issued} pieces"


def _head(answer: StackAnswer) -> Iterator[str]:
    """Return the first line: which set, which tolerance."""
    yield from wrapped(visible(source_said(answer)), "from ", "     ")


def _found(answer: StackAnswer, index: int, built: Built, plan: WringingPlan, pen: Pen) -> Iterator[str]:
    """Return a stack found: headline, drawing, steps."""
    height, unit = answer.heights[index], unit_of(built.blocks)
    count = len(built.blocks)
    asked = exact_text(height.length, height.unit)
    yield ""
    role = f"{answer.roles[index]} stack, " if answer.roles else ""
    yield f"{role}{asked}: {count} block{'s' * (count > 1)}, {deviation_said(built)}"
    if built.deviation:
        yield f"  the stack is {engraved_text(built.length, unit)}"
    if answer.known:
        said = answer.known[index].line("budget stack")
        yield from wrapped(visible(said), "  right within ", " " * 15)
    if answer.request.ends:
        pair = answer.request.ends[index][0]
        twice = engraved_text(2 * pair.nominal, pair.unit)
        yield f"  wear pair 2 x {pair.engraved} = {twice} is part of it"
    yield ""
    yield from drawn(plan.stack, unit, pen, labels_of(answer.stock))
    yield from certified_lines(built, plan)
    yield ""


def step_lines(plan: WringingPlan, *, care: bool) -> Iterator[str]:
    """Return the steps, numbered; without `care` only those that handle a block."""
    steps = (step for step in plan.steps if care or step.block)
    for number, step in enumerate(steps, 1):
        yield from wrapped(f"{step.action}: {step.reason}", f"{number:>3}  ", "     ")


def _failing(answer: StackAnswer, outcome: Impossible) -> str:
    """Name the one of several heights that fails by itself; nothing for a single height."""
    if outcome.failing is None or len(answer.heights) < 2:
        return ""
    height = answer.heights[outcome.failing]
    return f" {exact_text(height.length, height.unit)}"


def _impossible(
    outcome: Impossible, extra: dict[int, str], labels: Mapping[str, str], failing: str
) -> Iterator[str]:
    """Return why there is no stack and the ladder of ways out."""
    yield ""
    said = f"Not possible{failing and ','}{failing}: {outcome.sentence} (shown by {_PROOFS[outcome.proof]})."
    yield from wrapped(said, "", "  ")
    if outcome.ways_out:
        yield ""
        yield "Ways out:"
    for number, way in enumerate(outcome.ways_out):
        yield from _way_lines(way, extra.get(number, ""), labels)


def _way_lines(way: WayOut, extra: str, labels: Mapping[str, str]) -> Iterator[str]:
    """Return one rung: the sentence, then its stack."""
    sentence = way.sentence + (f", {extra}" if extra else "")
    yield from wrapped(visible(sentence), " -  ", "    ")
    if way.built:
        unit = unit_of(way.built.blocks)
        lead = f"      {engraved_text(way.built.length, unit)} = "
        yield from wrapped(blocks_line(way.built.blocks, labels), lead, " " * len(lead))


_PROOFS = {
    Proof.GRID: "the set's step",
    Proof.TOTAL: "adding up every block",
    Proof.ENDS: "the pair's own thickness",
    Proof.KEPT: "adding up the blocks kept in",
    Proof.TABLE: "the table of every sum the blocks make",
    Proof.COUNT: "the table of fewest blocks",
    Proof.REMAINDER: "counting those blocks",
    Proof.SOLVER: "the solver",
}


def _undecided(outcome: Undecided) -> Iterator[str]:
    """Return what is known at the limit."""
    yield ""
    yield from wrapped(f"Undecided: {outcome.sentence}.", "", "  ")
    yield f"  at least {outcome.at_least} blocks are needed"
    for built in outcome.best:
        yield from wrapped(blocks_line(built.blocks), "  best known: ", "    ")
    yield "  --effort 10 searches ten times as long"


def _series(answer: SetAnswer) -> Iterator[str]:
    """Return the sizes of a set, wrapped, the absent ones in brackets, wear blocks marked."""
    words = []
    for piece in reversed(answer.stock.pieces):
        size = piece.block.engraved.rpartition(" ")[0]
        size += "w" if piece.block.wear else ""
        size += f"#{piece.block.serial}" if piece.block.serial else ""
        words.append(size if piece.fit else f"[{size}]")
    yield from wrapped(visible("  ".join(words)), "  ", "  ")
    if any(piece.block.wear for piece in answer.stock.pieces):
        yield "  w: wear block, for the ends only"
    if not all(piece.fit for piece in answer.stock.pieces):
        yield "  [ ]: not fit for use"
