"""What happened to one block: the answer of the command `history`.

    >>> answer = history("0.105", name="bench.yaml", on=day)
    >>> answer.jobs, answer.trend

For the block that turned out bad: which jobs used it, and since when it may
have been bad.  The wear trend is a straight line through its calibrations;
when it leaves its grade and its owner's limit is only as sure as that line.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.answers.told import size_and_serial
from gaugestack.errors import TextError, UsageError
from gaugestack.grades import limits, read_standard
from gaugestack.inventory.state import calibrations_of, jobs_that_used
from gaugestack.inventory.state import history as records_about
from gaugestack.inventory.stockroom import open_set
from gaugestack.inventory.strikes import struck_by
from gaugestack.lengths import Length, engraved_text
from gaugestack.trend import Leaving, NoTrend, Trend, leaving_of, trend_of

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Sequence

    from gaugestack.blocks import Block, BlockSet
    from gaugestack.inventory.events import Record
    from gaugestack.inventory.state import JobUse
    from gaugestack.inventory.stockroom import Opened, Piece
    from gaugestack.trend import Calibration


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One record about the block; `struck` is the record that says it was a mistake."""

    record: Record
    struck: Record | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """One limit of the block: whose it is, from where to where, and when the trend leaves it.

    `inside` is None where no deviation is known, `leaving` where there is no trend.
    """

    limit: str
    lower: Length
    upper: Length
    inside: bool | None
    leaving: Leaving | None


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """Everything known of one block up to the day `on`.

    `alike` counts the pieces that share this history because nothing tells
    them apart; `jobs` are those since the day `since`, oldest first.
    """

    block_set: BlockSet
    piece: Piece
    alike: int
    on: dt.date
    entries: tuple[Entry, ...]
    jobs: tuple[JobUse, ...]
    since: dt.date | None
    calibrations: tuple[Calibration, ...]
    trend: Trend | NoTrend
    outlooks: tuple[Outlook, ...]
    remarks: tuple[str, ...] = ()


def history(
    size: str, *, name: str, on: dt.date, wear: bool = False, since: dt.date | None = None
) -> History:
    """Return the history of the block `size` (`SIZE` or `SIZE#SERIAL`) of a set.

    Raises UsageError where the text names no one block, RefusedFile for a set
    file or ledger.
    """
    opened = open_set(name, on=on)
    pieces = _pieces(opened, size, wear=wear)
    block = pieces[0].block
    known = [record for record in opened.records if record.event.on <= on]
    struck = struck_by(opened.records)
    counting = [record for record in known if record.n not in struck]
    calibrations = _up_to(calibrations_of(opened.block_set, counting, block), on)
    trend = trend_of(calibrations)
    return History(
        block_set=opened.block_set,
        piece=pieces[0],
        alike=len(pieces),
        on=on,
        entries=tuple(
            Entry(record=record, struck=struck.get(record.n)) for record in records_about(known, block)
        ),
        jobs=jobs_that_used(counting, block, since),
        since=since,
        calibrations=calibrations,
        trend=trend,
        outlooks=tuple(_outlooks(opened.block_set, block, trend)),
        remarks=tuple(_remarks(pieces, trend, opened.warnings)),
    )


def _pieces(opened: Opened, text: str, *, wear: bool) -> list[Piece]:
    """Return the pieces a text names, which nothing tells apart.  Raises UsageError."""
    unit = opened.block_set.unit
    size, serial = size_and_serial(text, unit)
    of_size = [each for each in opened.pieces if each.block.nominal == size]
    same = [each for each in of_size if each.block.wear == wear]
    found = [each for each in same if serial in ("", each.block.serial)]
    serials = sorted({each.block.serial for each in same})
    if not of_size:
        near = sorted({each.block.nominal for each in opened.pieces}, key=lambda known: abs(known - size))
        hint = "nearest: " + ", ".join(engraved_text(known, unit) for known in near[:2])
        raise UsageError.about(
            "SIZE", f"{opened.block_set.name} has no {engraved_text(size, unit)}", hint=hint
        )
    if not same:
        only = "an ordinary block: leave --wear away" if wear else "a wear block: say --wear"
        raise UsageError.about("SIZE", f"{engraved_text(size, unit)} is {only}")
    if not found or (len(serials) > 1 and not serial):
        hint = f"say SIZE#SERIAL; serials: {', '.join(filter(None, serials)) or 'none'}"
        raise UsageError.about("SIZE", f"{text} names no one block", hint=hint)
    return found


def _up_to(calibrations: Sequence[Calibration], on: dt.date) -> tuple[Calibration, ...]:
    """Return the calibrations that were there on a day; the set file's may be of a later one."""
    return tuple(each for each in calibrations if each.on <= on)


def _outlooks(block_set: BlockSet, block: Block, trend: Trend | NoTrend) -> Iterator[Outlook]:
    """Return the outlook on the grade's limits and on the owner's own, where they are known."""
    try:
        standard = read_standard(block_set.standard) if block_set.standard else None
    except TextError:
        standard = None
    if standard and block_set.grade:
        allowed = limits(standard, block_set.grade, block.nominal, unit=block.unit)
        if allowed:
            name = f"grade {block_set.grade} as new"
            yield _outlook(name, (allowed.lower, allowed.upper), block, trend)
    if block_set.retire_beyond is not None:
        own = block_set.retire_beyond
        yield _outlook("the owner's own limit", (Length(-own), own), block, trend)


def _outlook(name: str, ends: tuple[Length, Length], block: Block, trend: Trend | NoTrend) -> Outlook:
    """Return the outlook on one pair of limits."""
    lower, upper = ends
    return Outlook(
        limit=name,
        lower=lower,
        upper=upper,
        inside=None if block.deviation is None else lower <= block.deviation <= upper,
        leaving=leaving_of(trend, lower, upper) if isinstance(trend, Trend) else None,
    )


def _remarks(pieces: Sequence[Piece], trend: Trend | NoTrend, warnings: Sequence[str]) -> Iterator[str]:
    """Return what a person should know: pieces not told apart, growth, an odd ledger."""
    if len(pieces) > 1:
        yield f"{len(pieces)} pieces share this history: nothing tells them apart; serials would"
    if isinstance(trend, Trend) and trend.question:
        yield trend.question
    yield from warnings
