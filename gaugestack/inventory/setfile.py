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
    certificate:               head, and deviations or a table beside this file
    retire_beyond:             the owner's own limit: a larger deviation is worn
    bars:                      sine bars that belong to the set

An unknown key is an error.  The file is never written to.  What happened to
the blocks later stands in the ledger, which is read elsewhere.  A standard or
grade that is not known is a remark of the set, no error.
"""

from __future__ import annotations

from pathlib import Path, PurePath
from typing import TYPE_CHECKING

from gaugestack.blocks import MOST_PIECES, BlockSet, Certificate, Trust
from gaugestack.inventory.absentpieces import part_absent
from gaugestack.inventory.blockentries import LARGEST_DEVIATION, read_entries
from gaugestack.inventory.certificatehead import TABLE_KEYS, read_certificate, source_remarks, with_deviations
from gaugestack.inventory.fields import NOTE_LIMIT, Fields
from gaugestack.inventory.findings import Findings
from gaugestack.inventory.located import parse
from gaugestack.inventory.pieces import Head, Issued, build_blocks
from gaugestack.inventory.setformat import fields_of_format
from gaugestack.inventory.textfile import read_text_file
from gaugestack.lengths import Length, Unit

if TYPE_CHECKING:
    from gaugestack.angles.sine import SineBar
    from gaugestack.inventory.nodes import Node

KEYS = (
    "format", "name", "unit", "standard", "grade", "material", "blocks", "absent",
    "certificate", "bars", "source", "basis", "pieces", "note",
    "retire_beyond",
)  # fmt: skip
BASES = ("seen", "memory", "common practice", "computed")
SOURCE_LIMIT = 300


def load_set(path: Path | str) -> tuple[BlockSet, tuple[SineBar, ...]]:
    """Return the set a file describes and the sine bars in it.

    Raises RefusedFile with every problem of the file.
    """
    return set_of_text(read_text_file(path), file=str(path))


def set_of_text(text: str, *, file: str, folder: Path | None = None) -> tuple[BlockSet, tuple[SineBar, ...]]:
    """Return the set and the sine bars a text describes; `file` names it in places.

    A certificate table is looked for in `folder`, or else in the folder of
    `file`.  Raises RefusedFile; the table's own problems come once the set's
    are mended.
    """
    findings = Findings()
    root = parse(text, file=file)
    fields = fields_of_format(root, "a set file", KEYS, findings)
    block_set, bars = _read_set(fields, file, findings)
    beside = Path(file).parent if folder is None else folder
    block_set = _with_table(block_set, fields.get("certificate"), beside, findings)
    findings.refuse_if_any()
    return block_set, bars


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
    certificate = read_certificate(fields.get("certificate"), unit, findings)
    issued = _read_blocks(fields, head, certificate, findings)
    bars = _bars(fields, unit, findings)
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
        retire_beyond=_retire_beyond(fields, unit, findings),
        file=file,
        remarks=(
            *_grade_remarks(texts["standard"], texts["grade"]),
            *source_remarks(fields.get("certificate")),
        ),
    )
    return block_set, bars


def _read_blocks(fields: Fields, head: Head, certificate: Certificate | None, findings: Findings) -> Issued:
    """Return every piece of the set as issued, with its deviation."""
    before = len(findings)
    entries = read_entries(fields.get("blocks"), head.unit, findings)
    blocks = build_blocks(entries, head, findings)
    whole = len(findings) == before
    declared = fields.whole("pieces", MOST_PIECES)
    if whole and declared is not None:
        _refuse_wrong_count(fields, declared, len(blocks), findings)
    issued = Issued(blocks=blocks, unit=head.unit, whole=whole)
    trust = certificate.source if certificate else Trust.UNVERIFIED_SHEET
    return with_deviations(fields.get("certificate"), issued, trust, findings)


def _with_table(block_set: BlockSet, node: Node | None, folder: Path, findings: Findings) -> BlockSet:
    """Return the set with the values of the certificate table its file names, if it names one.

    Raises RefusedFile: for a table, the set file must be whole.
    """
    if not any(key.text in TABLE_KEYS for key, _ in getattr(node, "pairs", ())):
        return block_set
    from gaugestack.inventory.certificate import read_table_key, with_certificate_table  # noqa: PLC0415 - few sets have a table, every start would pay for it

    table = read_table_key(node, folder, findings)
    findings.refuse_if_any()
    return with_certificate_table(block_set, table)


def _grade_remarks(standard: str, grade: str) -> tuple[str, ...]:
    """Return a sentence where the standard or the grade is none that is known."""
    if not standard and not grade:
        return ()
    from gaugestack.grades import grade_remarks  # noqa: PLC0415 - no shipped set has a grade, every start would pay for it

    return grade_remarks(standard, grade)


def _refuse_wrong_count(fields: Fields, declared: int, counted: int, findings: Findings) -> None:
    """Refuse a declared number of pieces that the entries do not add up to."""
    if declared != counted:
        about: Node = fields.get("pieces") or fields.node
        sentence = f"pieces says {declared}, but the blocks add up to {counted}"
        findings.add(about.problem(sentence))


def _retire_beyond(fields: Fields, unit: Unit, findings: Findings) -> Length | None:
    """Return the owner's limit of a deviation, above zero; a bare number counts µin or µm."""
    limit = fields.deviation("retire_beyond", unit)
    if limit is not None and not 0 < limit <= LARGEST_DEVIATION:
        about: Node = fields.get("retire_beyond") or fields.node
        findings.add(about.problem("retire_beyond lies above 0 and up to 0.1 mm", hint="write 25 µin"))
        return None
    return limit


def _unit(fields: Fields) -> Unit | None:
    """Return the unit of the set's bare numbers."""
    text = fields.choice("unit", [unit.value for unit in Unit])
    return Unit(text) if text else None


def _source(fields: Fields) -> str:
    """Return where the composition comes from, with its basis in brackets."""
    source, basis = fields.text("source", SOURCE_LIMIT), fields.choice("basis", BASES)
    return f"{source} ({basis})" if source and basis else source


def _bars(fields: Fields, unit: Unit | None, findings: Findings) -> tuple[SineBar, ...]:
    """Return the bars a set file describes; the rules of bars are loaded where it has any."""
    node = fields.get("bars")
    if node is None:
        return ()
    from gaugestack.inventory.barfile import read_bars  # noqa: PLC0415

    return read_bars(node, unit, findings)
