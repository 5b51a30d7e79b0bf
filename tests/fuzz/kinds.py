"""Every kind of text the program reads: how it is read, and what it promises.

KINDS["length"].readings
"""

import os
import re
import tempfile
from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import pairwise
from pathlib import Path

from gaugestack.angles.angle import LONGEST_TEXT, read_angle
from gaugestack.angles.callout import read_call_out
from gaugestack.angles.flat import Flat
from gaugestack.angles.published import find_published
from gaugestack.answers.boxcard import read_row
from gaugestack.answers.circumstances import _block_material, _material, _number, _part
from gaugestack.answers.fingerprint import looks_like_a_code, read_code
from gaugestack.answers.ranges import read_range
from gaugestack.answers.told import size_and_serial
from gaugestack.cards.papersize import read_paper
from gaugestack.errors import GaugestackError, RefusedFile, TextError, UsageError
from gaugestack.inventory.anglesetfile import load_angle_set
from gaugestack.inventory.barfile import load_bars
from gaugestack.inventory.certtable import TableLayout, ValueKind, read_table
from gaugestack.inventory.heightsfile import load_heights
from gaugestack.inventory.jobfile import load_job
from gaugestack.inventory.ledger import ledger_path, read_ledger
from gaugestack.inventory.setfile import load_set, set_of_text
from gaugestack.inventory.targetsfile import Wanted, load_targets
from gaugestack.inventory.wishesfile import load_angles, load_call_outs
from gaugestack.lengths import LONGEST, Unit, counted, engraved_text, exact_text, read_length, small_bare
from gaugestack.uncertainty.temperature import read_temperature, read_temperature_difference
from tests.fuzz import writing

_EDITOR_LINE = re.compile("\r\n|[\r\n]")
_YAML_LINE = re.compile("\r\n|[\r\n\x85\u2028\u2029]")
_LEDGER_LINE = re.compile("\r?\n")
BENCH_TEXT = """format: 1
unit: in
name: Bench
blocks:
  - {from: 0.101, to: 0.109, step: 0.001}
  - {from: 0.1, to: 0.9, step: 0.1}
  - {size: 0.5, serial: A1}
  - {size: 0.5, serial: A2}
  - {size: 0.05, pieces: 2, wear: true}
"""
BENCH_TEXT = BENCH_TEXT.replace("to: 0.9, step: 0.1}", "to: 0.4, step: 0.1}")
BENCH, _ = set_of_text(BENCH_TEXT, file="bench.yaml")
_SHARED_MEMORY = Path("/dev/shm")  # noqa: S108  # a private directory in it; files on a disk are slow
_FOLDER = tempfile.TemporaryDirectory(
    prefix="texts-", dir=_SHARED_MEMORY if os.access(_SHARED_MEMORY, os.W_OK) else None
)
FOLDER = Path(_FOLDER.name)
_TEXT = FOLDER / "text.yaml"
(FOLDER / "values.csv").write_text("Nominal (in),Deviation (µin)\n0.101,+3\n0.5,-2\n", encoding="utf-8")


@dataclass(frozen=True, kw_only=True)
class Reading:
    """One reader of a text; `again` writes a value down, reads it and compares; `hinted` promises hints."""

    read: Callable
    again: Callable = lambda _value: None
    hinted: bool = False


@dataclass(frozen=True, kw_only=True)
class Kind:
    """A kind of text: its readers and the errors they declare."""

    name: str
    readings: tuple[Reading, ...]
    refusals: tuple[type[GaugestackError], ...]
    is_file: bool = False
    line: re.Pattern = _YAML_LINE

    @property
    def error(self):
        """The errors a reader may refuse a text with."""
        return self.refusals

    def text(self, data):
        """Return what a reader is given: an argument, or the file that holds the bytes."""
        if not self.is_file:
            return data.decode("utf-8", "surrogateescape")
        self.path.write_bytes(data)
        return _TEXT

    @property
    def path(self):
        """The file that holds the text."""
        return ledger_path(_TEXT) if self.name == "ledger" else _TEXT

    def lines(self, data):
        """Return the lines of a file as an editor counts them; of what is no text, the first place."""
        try:
            return self.line.split(data.decode("utf-8").removeprefix("\ufeff"))
        except UnicodeDecodeError:
            if self.name != "ledger":
                return [""]
            raw = data.removeprefix(b"\xef\xbb\xbf").split(b"\n")
            return [line.decode("utf-8", "replace").removesuffix("\r") for line in raw]


def same(one, other):
    """Say which two values should be the same and are not."""
    assert one == other, f"{one!r} reads again as {other!r}"


def _length_again(read):
    signed = read.length <= 0
    same(read.length, read_length(exact_text(read.length, read.unit), signed=signed).length)
    same(read.length, read_length(engraved_text(read.length, read.unit), signed=signed).length)
    same(read.length, read_length(read.text, bare_unit=read.unit, signed=signed).length)


def _small_again(length):
    for unit in Unit if abs(length) <= LONGEST else ():
        same(length, read_length(exact_text(length, unit), signed=True).length)


def _angle_again(read):
    text = writing.angle_text(read.angle)
    if len(text) <= LONGEST_TEXT:
        same(read.angle, read_angle(text, signed=True).angle)


def _call_out_again(read):
    angle = read.angle if isinstance(read, Flat) else read.half
    assert 0 < angle.degrees < 90
    text = f"{writing.angle_text(angle)} per side"
    if len(text) <= LONGEST_TEXT:
        same(angle, read_call_out(text, bare_unit=None).half)
    same(read, read_call_out(read.call_out, bare_unit=Unit.INCH))


def _range_again(ends):
    low, high = ends
    text = f"{exact_text(low.length, low.unit)}..{exact_text(high.length, high.unit)}"
    same((low.length, high.length), tuple(end.length for end in read_range(text, Unit.INCH)))


def _row_again(angles):
    assert angles == tuple(sorted(angles))
    if len(angles) > 1:
        steps = {other - one for one, other in pairwise(angles)}
        assert len(steps) == 1


def _row(text):
    """Read a row of angles; what names a file is the business of another kind."""
    try:
        return read_row(text)
    except RefusedFile:
        return ()


def _set_again(read):
    block_set, bars = read
    text = writing.set_text(block_set, bars)
    other, other_bars = set_of_text(text, file=block_set.file)
    for one in ("name", "unit", "blocks", "absent", "standard", "grade", "material", "retire_beyond"):
        same(getattr(block_set, one), getattr(other, one))
    same(block_set.certificate, other.certificate)
    same(bars, other_bars)


def _file_again(load, write, said=lambda value: value):
    """Return what writes a value into a file, reads it there and compares."""

    def again(value):
        path = FOLDER / "again.yaml"
        path.write_text(write(value), encoding="utf-8")
        same(*(said(one) for one in (value, load(path))))

    return again


def _bars_said(bars):
    return [replace(bar, file="") for bar in bars]


def _ledger_again(ledger):
    path = FOLDER / "again.yaml"
    ledger_path(path).write_text(writing.ledger_text(ledger, BENCH.name), encoding="utf-8")
    same(ledger.records, read_ledger(path, BENCH).records)


def _table_again(table):
    path = FOLDER / "again.csv"
    path.write_text(writing.table_text(table), encoding="utf-8")
    again = read_table(path, TableLayout(value=ValueKind.DEVIATION), BENCH)
    said = [[(one.block, one.deviation, one.variation) for one in read.values] for read in (table, again)]
    same(*said)


def _job_said(job):
    setups = [(s.name, s.wanted, s.text.text, s.use, s.bar and s.bar.text) for s in job.setups]
    return job.name, job.order, job.set and job.set.text, job.bar and job.bar.text, setups


def _job_again(job):
    path = FOLDER / "again.yaml"
    path.write_text(writing.job_text(job), encoding="utf-8")
    same(_job_said(job), _job_said(load_job(path)))


def _heights_again(heights):
    path = FOLDER / "again.yaml"
    lines = [exact_text(height.length, height.unit) for height in heights]
    path.write_text("\n".join(lines), encoding="utf-8")
    same([height.length for height in heights], [again.length for again in load_heights(path, Unit.INCH)])


def _angles_again(angles):
    path = FOLDER / "again.yaml"
    texts = [writing.angle_text(read.angle) for read in angles]
    if all(len(text) <= LONGEST_TEXT for text in texts):
        path.write_text("\n".join(texts), encoding="utf-8")
        same([read.angle for read in angles], [read.angle for read in load_angles(path)])


def _targets(word, read):
    wanted = Wanted(word=word, read=read, unit=Unit.INCH)

    def again(targets):
        path = FOLDER / "again.csv"
        path.write_text(writing.targets_text(targets), encoding="utf-8")
        said = [[(one.text, one.name, one.tolerance) for one in every] for every in (targets, load(path))]
        same(*said)

    def load(path):
        return load_targets(path, wanted)

    return Reading(read=load, again=again)


def _code_again(code):
    if code is not None:
        same(code, read_code(code.lower().replace("-", " ")))
        assert looks_like_a_code(code)


def _paper_again(paper):
    same((paper.width, paper.height), ((again := read_paper(paper.name)).width, again.height))


def _argument(name, *readings, refusals=(TextError,)):
    return Kind(name=name, readings=readings, refusals=refusals)


def _file(name, *readings, line=_YAML_LINE):
    return Kind(name=name, readings=readings, refusals=(RefusedFile,), is_file=True, line=line)


def _table(value):
    layout = TableLayout(value=value)
    return Reading(read=lambda path: read_table(path, layout, BENCH), again=_table_again)


_ALL = (
    _argument(
        "length",
        Reading(read=read_length, again=_length_again, hinted=True),
        Reading(
            read=lambda text: read_length(text, bare_unit=Unit.MILLIMETRE, signed=True),
            again=_length_again,
            hinted=True,
        ),
        Reading(read=lambda text: small_bare(text, Unit.INCH), again=_small_again),
        Reading(read=lambda text: counted(text, read_length("1 um").length), again=_small_again),
    ),
    _argument(
        "angle",
        Reading(read=read_angle, again=_angle_again, hinted=True),
        Reading(read=lambda text: read_angle(text, signed=True), again=_angle_again, hinted=True),
    ),
    _argument(
        "call-out",
        Reading(
            read=lambda text: read_call_out(text, bare_unit=Unit.INCH), again=_call_out_again, hinted=True
        ),
        Reading(read=lambda text: read_call_out(text, bare_unit=None), again=_call_out_again, hinted=True),
        Reading(read=find_published, hinted=True),
    ),
    _argument(
        "range",
        Reading(read=lambda text: read_range(text, Unit.INCH), again=_range_again),
        Reading(read=_row, again=_row_again),
        refusals=(UsageError,),
    ),
    _argument(
        "words",
        Reading(read=read_temperature, hinted=True),
        Reading(read=read_temperature_difference, hinted=True),
        Reading(read=read_paper, again=_paper_again),
        Reading(read=lambda text: size_and_serial(text, Unit.INCH)),
        Reading(read=lambda text: _material("--work", text)),
        Reading(read=_block_material),
        Reading(read=lambda text: _number("--coverage", text)),
        Reading(read=lambda text: _part("--shared", text)),
        refusals=(UsageError, TextError),
    ),
    _argument("code", Reading(read=read_code, again=_code_again), Reading(read=looks_like_a_code)),
    _file("set", Reading(read=load_set, again=_set_again)),
    _file("bars", Reading(read=load_bars, again=_file_again(load_bars, writing.bars_text, _bars_said))),
    _file(
        "ledger", Reading(read=lambda path: read_ledger(path, BENCH), again=_ledger_again), line=_LEDGER_LINE
    ),
    _file(
        "table",
        *(_table(value) for value in ValueKind),
        Reading(read=lambda path: read_table(path, TableLayout(), BENCH), again=_table_again),
        line=_EDITOR_LINE,
    ),
    _file("job", Reading(read=load_job, again=_job_again)),
    _file(
        "angle set",
        Reading(
            read=load_angle_set,
            again=_file_again(load_angle_set, writing.angle_set_text, lambda one: (one.blocks, one.absent)),
        ),
    ),
    _file(
        "heights",
        Reading(read=lambda path: load_heights(path, Unit.INCH), again=_heights_again),
        line=_EDITOR_LINE,
    ),
    _file(
        "wishes",
        Reading(read=load_angles, again=_angles_again),
        Reading(read=lambda path: load_call_outs(path, Unit.INCH)),
        line=_EDITOR_LINE,
    ),
    _file(
        "targets",
        _targets("height", lambda text: read_length(text, bare_unit=Unit.INCH)),
        _targets("angle", read_angle),
        line=_EDITOR_LINE,
    ),
)
KINDS = {kind.name: kind for kind in _ALL}
