"""From what a person typed to a request: blocks kept out, kept in, wear pair, tolerance.

    >>> Choice(without=("0.105",)).request(block_set, targets)

Every text is read with the set's unit for bare numbers; what is wrong is a
UsageError naming the option.  Reads wear pairs from another set through
inventory/, nothing else.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.blocks import Basis, Block, BlockSet, total
from gaugestack.errors import TextError, UsageError, nearest
from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import find_set
from gaugestack.lengths import Length, Unit, engraved_text, exact_text, read_length
from gaugestack.stacks.request import StackRequest, Withheld

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

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
    """

    tolerance: str | None = None
    basis: Basis = Basis.NOMINAL
    without: tuple[str, ...] = ()
    keep: tuple[str, ...] = ()
    wear: str | None = None
    most: int | None = None

    def request(self, block_set: BlockSet, targets: Sequence[Length]) -> StackRequest:
        """Return the request for these targets.  Raises UsageError, RefusedFile."""
        out = tuple(_withheld(block_set, self.without))
        gone = {withheld.block for withheld in out}
        pool = tuple(block for block in block_set.ordinary if block not in gone)
        self._refuse_most()
        return StackRequest(
            targets=tuple(targets),
            tolerance=self.allowed(block_set),
            pool=pool,
            kept_in=_kept(block_set, pool, self.keep),
            ends=wear_ends(self.wear, block_set, len(targets)) if self.wear else (),
            most=self.most,
            basis=self.basis,
            withheld=out,
        )

    def allowed(self, block_set: BlockSet) -> Length:
        """Return the tolerance in picometres.  Raises UsageError."""
        if self.tolerance is None:
            return Length(block_set.finest_step // 2)
        try:
            read = read_length(self.tolerance, bare_unit=block_set.unit, signed=True)
        except TextError as error:
            raise error.named("--tolerance") from None
        if read.length < 0:
            raise UsageError.about("--tolerance", "below zero", hint="0 asks for exactly the height")
        return read.length

    def tolerance_said(self, block_set: BlockSet) -> str:
        """Say where the tolerance comes from."""
        if self.tolerance is not None:
            return "as asked"
        return f"half the set's step of {exact_text(block_set.finest_step, block_set.unit)}"

    def _refuse_most(self) -> None:
        """Refuse a largest count below one."""
        if self.most is not None and self.most < 1:
            raise UsageError.about("--most", f"{self.most} blocks make no stack", hint="at least 1")


def read_height(text: str, block_set: BlockSet, argument: str = "HEIGHT") -> ReadLength:
    """Return a height as typed; a bare number takes the set's unit.  Raises UsageError."""
    try:
        return read_length(text, bare_unit=block_set.unit)
    except TextError as error:
        raise error.named(argument) from None


def wear_ends(wear: str, block_set: BlockSet, stacks: int) -> tuple[tuple[Block, Block], ...]:
    """Return a wear pair for each of `stacks` stacks.

    Raises UsageError where the pair is not there, not enough, or could be one
    of several; RefusedFile where another set cannot be read.
    """
    source, size = _wear_source(wear, block_set)
    pairs = _pairs(source, size)
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


def _wear_source(wear: str, block_set: BlockSet) -> tuple[BlockSet, Length | None]:
    """Return the set that holds the pair and the size asked for, if any."""
    if wear == OWN:
        return block_set, None
    if wear[:1].isdigit() or wear[:1] == ".":
        try:
            return block_set, read_length(wear, bare_unit=block_set.unit).length
        except TextError as error:
            raise error.named("--wear") from None
    return load_set(find_set(wear))[0], None


def _pairs(source: BlockSet, size: Length | None) -> list[tuple[Block, Block]]:
    """Return every disjoint pair of equal wear blocks of a set, of one size where one is asked."""
    pairs = []
    wear = [block for block in source.blocks if block.wear and size in (None, block.nominal)]
    for nominal in sorted({block.nominal for block in wear}):
        equals = [block for block in wear if block.nominal == nominal]
        pairs += list(zip(equals[::2], equals[1::2], strict=False))
    return pairs


def _no_pair(source: BlockSet, size: Length | None) -> str:
    """Say that there is no pair."""
    what = "" if size is None else f" of {engraved_text(size, source.unit)}"
    return f"{source.name} has no pair of wear blocks{what}"


def _withheld(block_set: BlockSet, without: Sequence[str]) -> Iterator[Withheld]:
    """Return the blocks that are out: absent from the set, or kept out by the person."""
    for block in block_set.absent:
        yield Withheld(block=block, reason="absent")
    seen: set[Block] = set()
    for text in without:
        for block in _named(block_set.blocks, text, block_set.unit, "--without", block_set):
            if block not in seen:
                seen.add(block)
                yield Withheld(block=block, reason="kept out")


def _kept(block_set: BlockSet, pool: Sequence[Block], keep: Sequence[str]) -> tuple[Block, ...]:
    """Return one piece of the pool for each size kept in."""
    kept: list[Block] = []
    for text in keep:
        choices = _named(pool, text, block_set.unit, "--with", block_set)
        free = [block for block in choices if block not in kept]
        if not free:
            sentence = f"{text} is to be kept in oftener than there are pieces"
            raise UsageError.about("--with", sentence)
        kept.append(free[0])
    return tuple(kept)


def _named(
    blocks: Sequence[Block], text: str, unit: Unit, option: str, block_set: BlockSet
) -> tuple[Block, ...]:
    """Return the blocks a text names: every piece of a size, or the one with its serial."""
    size_text, _, serial = text.partition("#")
    try:
        size = read_length(size_text, bare_unit=unit).length
    except TextError as error:
        raise error.named(option) from None
    equals = tuple(block for block in blocks if block.nominal == size)
    found = tuple(block for block in equals if not serial or block.serial == serial)
    if found:
        return found
    if equals:
        sentence = f"no {engraved_text(size, unit)} with serial {serial}"
        raise UsageError.about(option, sentence, hint=nearest(serial, [b.serial for b in equals if b.serial]))
    sentence = f"{block_set.name} has no {engraved_text(size, unit)} to take"
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
