"""From what a person typed to a request: blocks kept out, kept in, wear pair, tolerance.

    >>> Choice(without=("0.105",)).request(stock, targets)

Every text is read with the set's unit for bare numbers; what is wrong is a
UsageError naming the option.  Reads wear pairs from another set through
inventory/, nothing else.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from gaugestack.answers.stock import Stock, load
from gaugestack.blocks import Basis, Block, total
from gaugestack.errors import TextError, UsageError, nearest
from gaugestack.lengths import Length, engraved_text, exact_text, read_length
from gaugestack.stacks.effort import USUAL, Effort
from gaugestack.stacks.request import StackRequest, Withheld

if TYPE_CHECKING:
    from collections.abc import Container, Iterator, Sequence

    from gaugestack.lengths import ReadLength

OWN = "own"


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """How stacks are to be chosen, as it was typed.

    tolerance  a length, "0" for exactly; None takes half the set's step
    without    sizes kept out, each `SIZE` or `SIZE#SERIAL`
    keep       sizes kept in, likewise
    wear       None for no wear blocks, "own" for the set's pair, a size for
               one of its pairs, or a set (file or shipped name) that holds one
    most       largest number of blocks in one stack
    less_used  of stacks equal so far take the one with the fewest uses
    times      how many times the usual effort an answer may take
    effort     the budget of an answer that is begun; none before it is
    """

    tolerance: str | None = None
    basis: Basis = Basis.NOMINAL
    without: tuple[str, ...] = ()
    keep: tuple[str, ...] = ()
    wear: str | None = None
    most: int | None = None
    less_used: bool = False
    times: int = 1
    effort: Effort | None = field(default=None, compare=False)

    def begun(self) -> Choice:
        """Return the choice with the one budget that all searches of an answer share.

        The same where an answer has begun already.  Raises UsageError.
        """
        if self.times < 1:
            raise UsageError.about("--effort", f"{self.times} times the usual", hint="at least 1")
        return self if self.effort else replace(self, effort=Effort(limit=self.times * USUAL))

    def request(self, stock: Stock, targets: Sequence[Length]) -> StackRequest:
        """Return the request for these targets.  Raises UsageError, RefusedFile."""
        out = (*stock.withheld, *_kept_out(stock, self.without))
        gone = {withheld.block for withheld in out}
        pool = tuple(block for block in stock.fit if block not in gone)
        self._refuse_most()
        return StackRequest(
            targets=tuple(targets),
            tolerance=self.allowed(stock),
            pool=pool,
            kept_in=_kept(stock, pool, self.keep),
            ends=wear_ends(self.wear, stock, gone, len(targets)) if self.wear else (),
            most=self.most,
            basis=self.basis,
            withheld=out,
            end_only=tuple(block for block in stock.end_only if block in pool),
            uses=stock.uses if self.less_used else (),
        )

    def allowed(self, stock: Stock) -> Length:
        """Return the tolerance in picometres.  Raises UsageError."""
        if self.tolerance is None:
            return Length(stock.step // 2)
        try:
            read = read_length(self.tolerance, bare_unit=stock.unit, signed=True)
        except TextError as error:
            raise error.named("--tolerance") from None
        if read.length < 0:
            raise UsageError.about("--tolerance", "below zero", hint="0 asks for exactly the height")
        return read.length

    def tolerance_said(self, stock: Stock) -> str:
        """Say where the tolerance comes from."""
        if self.tolerance is not None:
            return "as asked"
        return f"half the set's step of {exact_text(stock.step, stock.unit)}"

    def _refuse_most(self) -> None:
        """Refuse a largest count below one."""
        if self.most is not None and self.most < 1:
            raise UsageError.about("--most", f"{self.most} blocks make no stack", hint="at least 1")


def read_height(text: str, stock: Stock, argument: str = "HEIGHT") -> ReadLength:
    """Return a height as typed; a bare number takes the set's unit.  Raises UsageError."""
    try:
        return read_length(text, bare_unit=stock.unit)
    except TextError as error:
        raise error.named(argument) from None


def wear_ends(
    wear: str, stock: Stock, gone: Container[Block], stacks: int
) -> tuple[tuple[Block, Block], ...]:
    """Return a wear pair for each of `stacks` stacks, of blocks that are not `gone`.

    Raises UsageError where the pair is not there, not enough, or could be one
    of several; RefusedFile where another set cannot be read.
    """
    source, size = _wear_source(wear, stock)
    pairs = _pairs([block for block in source.wear if block not in gone and size in (None, block.nominal)])
    sizes = sorted({pair[0].nominal for pair in pairs})
    if not pairs:
        raise UsageError.about("--wear", _no_pair(source, size), hint=_WEAR_HINT)
    if len(sizes) > 1:
        named = " or ".join(engraved_text(length, source.unit) for length in sizes)
        raise UsageError.about("--wear", f"{source.name} has several pairs", hint=f"say which: {named}")
    if len(pairs) < stacks:
        sentence = f"{stacks} stacks need {stacks} pairs of wear blocks, {source.name} has {len(pairs)}"
        raise UsageError.about("--wear", sentence)
    return tuple(pairs[:stacks])


_WEAR_HINT = "name a set that holds a pair, like inch-wear-0.050 or metric-wear-2"


def _wear_source(wear: str, stock: Stock) -> tuple[Stock, Length | None]:
    """Return the stock that holds the pair and the size asked for, if any."""
    if wear == OWN:
        return stock, None
    if wear[:1].isdigit() or wear[:1] == ".":
        try:
            return stock, read_length(wear, bare_unit=stock.unit).length
        except TextError as error:
            raise error.named("--wear") from None
    return load([wear]), None


def _pairs(wear: Sequence[Block]) -> list[tuple[Block, Block]]:
    """Return every disjoint pair of equal wear blocks, the thinnest first."""
    pairs = []
    for nominal in sorted({block.nominal for block in wear}):
        equals = [block for block in wear if block.nominal == nominal]
        pairs += list(zip(equals[::2], equals[1::2], strict=False))
    return pairs


def _no_pair(source: Stock, size: Length | None) -> str:
    """Say that there is no pair."""
    what = "" if size is None else f" of {engraved_text(size, source.unit)}"
    return f"{source.name} has no pair of wear blocks{what}"


def _kept_out(stock: Stock, without: Sequence[str]) -> Iterator[Withheld]:
    """Return the blocks the person keeps out, beyond those that are out anyway."""
    out = {withheld.block for withheld in stock.withheld}
    everything = tuple(piece.block for piece in stock.pieces)
    for text in without:
        for block in _named(everything, text, stock, "--without"):
            if block not in out:
                out.add(block)
                yield Withheld(block=block, reason="kept out")


def _kept(stock: Stock, pool: Sequence[Block], keep: Sequence[str]) -> tuple[Block, ...]:
    """Return one piece of the pool for each size kept in."""
    kept: list[Block] = []
    everything = tuple(piece.block for piece in stock.pieces if not piece.block.wear)
    for text in keep:
        choices = _named(everything, text, stock, "--with")
        free = [block for block in choices if block in pool and block not in kept]
        if not free:
            raise UsageError.about("--with", _not_free(stock, choices, text))
        kept.append(free[0])
    return tuple(kept)


def _not_free(stock: Stock, choices: Sequence[Block], text: str) -> str:
    """Say why a block cannot be kept in."""
    reasons = {withheld.block: withheld.reason for withheld in stock.withheld}
    why = next((reasons[block] for block in choices if block in reasons), "")
    return f"{text} cannot be kept in: {why or 'every piece of it is kept in or kept out already'}"


def _named(blocks: Sequence[Block], text: str, stock: Stock, option: str) -> tuple[Block, ...]:
    """Return the blocks a text names: every piece of a size, or the one with its serial."""
    size_text, _, serial = text.partition("#")
    try:
        size = read_length(size_text, bare_unit=stock.unit).length
    except TextError as error:
        raise error.named(option) from None
    equals = tuple(block for block in blocks if block.nominal == size)
    found = tuple(block for block in equals if not serial or block.serial == serial)
    if found:
        return found
    if equals:
        sentence = f"no {engraved_text(size, stock.unit)} with serial {serial}"
        raise UsageError.about(option, sentence, hint=nearest(serial, [b.serial for b in equals if b.serial]))
    sentence = f"{stock.name} has no {engraved_text(size, stock.unit)}"
    raise UsageError.about(option, sentence, hint=_closest(blocks, size))


def _closest(blocks: Sequence[Block], size: Length) -> str:
    """Name the sizes of the set nearest a size it has not."""
    near = sorted({block.nominal: block for block in blocks}.items(), key=lambda item: abs(item[0] - size))[
        :2
    ]
    return "nearest: " + ", ".join(block.engraved for _, block in near) if near else ""


def lowest(request: StackRequest) -> Length | None:
    """Return the lowest stack the request's blocks make: the wear pair alone, or the thinnest block."""
    if request.ends:
        return total(request.ends[0])
    return min((block.nominal for block in request.pool), default=None)
