"""A set file to a BlockSet; everything wrong with the file is said at once.

    block_set, bars = load_set(Path("bench.yaml"))

Format 1:

    format: 1                  required
    unit: in                   required: in or mm, for bare numbers
    name:, standard:, grade:, material:, note:      texts
    source:, basis:            where the composition comes from; seen, memory,
                               common practice or computed
    pieces:                    how many were issued; checked against the blocks
    blocks:                    required: ranges and single sizes
    absent:                    sizes that are not there
    certificate:               head and deviations
    bars:                      sine bars that belong to the set

An unknown key is an error.  The file is never written to.  What happened to
the blocks later stands in the ledger, which is read elsewhere.
"""

from __future__ import annotations

from pathlib import PurePath
from typing import TYPE_CHECKING

from gaugestack.blocks import MOST_PIECES, BlockSet
from gaugestack.inventory.absentpieces import part_absent
from gaugestack.inventory.barfile import read_bars
from gaugestack.inventory.blockentries import read_entries
from gaugestack.inventory.certificatehead import read_certificate, with_deviations
from gaugestack.inventory.fields import NOTE_LIMIT, Fields
from gaugestack.inventory.findings import Findings
from gaugestack.inventory.located import parse
from gaugestack.inventory.pieces import Head, Issued, build_blocks
from gaugestack.inventory.setformat import fields_of_format
from gaugestack.inventory.textfile import read_text_file
from gaugestack.lengths import Unit

if TYPE_CHECKING:
    from pathlib import Path

    from gaugestack.angles.sine import SineBar
    from gaugestack.inventory.nodes import Node

KEYS = (
    "format", "name", "unit", "standard", "grade", "material", "blocks", "absent",
    "certificate", "bars", "source", "basis", "pieces", "note",
)  # fmt: skip
BASES = ("seen", "memory", "common practice", "computed")
SOURCE_LIMIT = 300


def load_set(path: Path | str) -> tuple[BlockSet, tuple[SineBar, ...]]:
    """Return the set a file describes and the sine bars in it.

    Raises RefusedFile with every problem of the file.
    """
    return set_of_text(read_text_file(path), file=str(path))


def set_of_text(text: str, *, file: str) -> tuple[BlockSet, tuple[SineBar, ...]]:
    """Return the set and the sine bars a text describes; `file` names it in places.

    Raises RefusedFile.
    """
    findings = Findings()
    root = parse(text, file=file)
    fields = fields_of_format(root, "a set file", KEYS, findings)
    read = _read_set(fields, file, findings)
    findings.refuse_if_any()
    return read


def _read_set(fields: Fields, file: str, findings: Findings) -> tuple[BlockSet, tuple[SineBar, ...]]:
    """Return what the fields describe; harmless values where something is wrong."""
    texts = {key: fields.text(key) for key in ("name", "standard", "grade", "material")}
    source = _source(fields)
    fields.text("note", NOTE_LIMIT)
    fields.need("unit", "blocks")
    unit = _unit(fields)
    name = texts["name"] or PurePath(file).stem
    material = texts["material"] or "steel"
    if unit is None:
        findings.refuse_if_any()
        unit = Unit.INCH
    head = Head(name=name, unit=unit, material=material)
    issued = _read_blocks(fields, head, findings)
    certificate = read_certificate(fields.get("certificate"), unit, findings)
    bars = read_bars(fields.get("bars"), unit, findings)
    present, absent = part_absent(fields.get("absent"), issued, findings)
    block_set = BlockSet(
        name=name,
        unit=unit,
        blocks=present,
        absent=absent,
        standard=texts["standard"],
        grade=texts["grade"],
        material=material,
        source=source,
        certificate=certificate,
        file=file,
    )
    return block_set, bars


def _read_blocks(fields: Fields, head: Head, findings: Findings) -> Issued:
    """Return every piece of the set as issued, with its deviation."""
    before = len(findings)
    entries = read_entries(fields.get("blocks"), head.unit, findings)
    blocks = build_blocks(entries, head, findings)
    whole = len(findings) == before
    declared = fields.whole("pieces", MOST_PIECES)
    if whole and declared is not None:
        _refuse_wrong_count(fields, declared, len(blocks), findings)
    issued = Issued(blocks=blocks, unit=head.unit, whole=whole)
    return with_deviations(fields.get("certificate"), issued, findings)


def _refuse_wrong_count(fields: Fields, declared: int, counted: int, findings: Findings) -> None:
    """Refuse a declared number of pieces that the entries do not add up to."""
    if declared != counted:
        about: Node = fields.get("pieces") or fields.node
        sentence = f"pieces says {declared}, but the blocks add up to {counted}"
        findings.add(about.problem(sentence))


def _unit(fields: Fields) -> Unit | None:
    """Return the unit of the set's bare numbers."""
    text = fields.choice("unit", [unit.value for unit in Unit])
    return Unit(text) if text else None


def _source(fields: Fields) -> str:
    """Return where the composition comes from, with its basis in brackets."""
    source, basis = fields.text("source", SOURCE_LIMIT), fields.choice("basis", BASES)
    return f"{source} ({basis})" if source and basis else source
