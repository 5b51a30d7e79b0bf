"""An angle set file to an AngleSet; everything wrong with the file is said at once.

    angle_set = load_angle_set(Path("angle-13.yaml"))

Format 1:

    format: 1                  required
    kind: angle                required: tells the file from a set of lengths
    name:, note:               texts
    source:, basis:            where the composition comes from; seen, memory,
                               common practice or computed
    pieces:                    angle blocks issued, without the square; checked
    blocks:                    required: {angle: 27d, serial: A1} or {angles: [1', 3', 9']}
    square:                    true where a 90 degree square belongs to the set
    absent:                    angles that are not there; 90d is the square

Every angle needs a mark (41d, 3', 18", 1d30'), because 3 alone could be any of
three blocks of the same set.  An angle stands once.  The file is never written to.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path, PurePath
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle, dms_text, read_angle
from gaugestack.angles.angleset import RIGHT_ANGLE, AngleBlock, AngleSet, in_order
from gaugestack.errors import TextError
from gaugestack.inventory.fields import NOTE_LIMIT, SERIAL_LIMIT, Fields, fields_of, items_of, scalar_of
from gaugestack.inventory.findings import Findings
from gaugestack.inventory.located import parse
from gaugestack.inventory.setfile import BASES, SOURCE_LIMIT
from gaugestack.inventory.setformat import fields_of_format
from gaugestack.inventory.textfile import read_text_file

if TYPE_CHECKING:
    from gaugestack.inventory.nodes import Node

KEYS = ("format", "kind", "name", "note", "source", "basis", "pieces", "blocks", "square", "absent")
BLOCK_KEYS = ("angle", "angles", "serial", "note")
MOST_BLOCKS = 60
LARGEST_SUM = Angle(arcseconds=Fraction(360 * 3600))
"""A full turn: no set of angle gauge blocks adds up to more (common practice)."""
_MARKS_HINT = "write 41d for degrees, 3' for minutes, 18\" for seconds"


def load_angle_set(path: Path | str) -> AngleSet:
    """Return the angle set a file describes.  Raises RefusedFile with every problem of the file."""
    return angle_set_of_text(read_text_file(path), file=str(path))


def angle_set_of_text(text: str, *, file: str) -> AngleSet:
    """Return the angle set a text describes; `file` names it in places.  Raises RefusedFile."""
    findings = Findings()
    fields = fields_of_format(parse(text, file=file), "an angle set file", KEYS, findings)
    read = _read_set(fields, file, findings)
    findings.refuse_if_any()
    return read


def _read_set(fields: Fields, file: str, findings: Findings) -> AngleSet:
    """Return what the fields describe; harmless values where something is wrong."""
    if fields.need("kind") and (kind := fields.scalar("kind")) and kind.text != "angle":
        findings.add(kind.problem(f"kind is angle here, not {kind.text!r}"))
    fields.need("blocks")
    name = fields.text("name") or PurePath(file).stem
    fields.text("note", NOTE_LIMIT)
    source, basis = fields.text("source", SOURCE_LIMIT), fields.choice("basis", BASES)
    before = len(findings)
    issued = _read_blocks(fields, findings)
    whole = len(findings) == before
    if whole:
        _refuse_wrong_count(fields, issued, findings)
    absent = _read_absent(fields.get("absent"), issued, findings, whole=whole)
    return AngleSet(
        name=name,
        blocks=in_order(block for block in issued if block not in absent),
        absent=in_order(absent),
        source=f"{source} ({basis})" if source and basis else source,
        file=file,
    )


def _read_blocks(fields: Fields, findings: Findings) -> tuple[AngleBlock, ...]:
    """Return every piece of the set as issued, the square last."""
    node = fields.get("blocks")
    items = items_of(node, "blocks", findings)
    if node is not None and not items and not len(findings):
        findings.add(node.problem("blocks is empty: a set has at least one block"))
    blocks: dict[Angle, AngleBlock] = {}
    for item in items:
        for block, where in _read_entry(item, findings):
            _keep(blocks, block, where, findings)
    if node is not None and sum(b.angle.arcseconds for b in blocks.values()) > LARGEST_SUM.arcseconds:
        findings.add(node.problem("the blocks add up to more than a full turn: no set does"))
    square = (AngleBlock(angle=RIGHT_ANGLE, square=True),) if fields.truth("square") else ()
    return (*blocks.values(), *square)


def _keep(blocks: dict[Angle, AngleBlock], block: AngleBlock, where: Node, findings: Findings) -> None:
    """Keep a block whose angle is new; at most 60 of them."""
    if block.angle in blocks:
        findings.add(where.problem(f"{block.engraved} stands twice"))
    elif len(blocks) == MOST_BLOCKS:
        findings.stop(where.problem(f"more than {MOST_BLOCKS} blocks: no angle set has so many"))
    blocks[block.angle] = block


def _read_entry(item: Node, findings: Findings) -> list[tuple[AngleBlock, Node]]:
    """Return the blocks of one entry, each with the node that gave it."""
    fields = fields_of(item, "a block", BLOCK_KEYS, findings)
    if fields is None:
        return []
    serial = fields.text("serial", SERIAL_LIMIT)
    fields.text("note", NOTE_LIMIT)
    if ("angle" in fields) == ("angles" in fields):
        hint = "write {angle: 27d} or {angles: [1', 3', 9']}"
        findings.add(item.problem("a block needs angle or angles, one of them", hint=hint))
        return []
    if "angles" in fields and serial:
        findings.add(fields.key("serial").problem("a serial belongs to one block: give it with angle"))
    one = fields.get("angle")
    nodes = (one,) if one else items_of(fields.get("angles"), "angles", findings)
    read = ((_read_size(node, findings), node) for node in nodes)
    return [(AngleBlock(angle=angle, serial=serial, place=node.place), node) for angle, node in read if angle]


def _read_size(node: Node, findings: Findings) -> Angle | None:
    """Return an engraved angle: marked, above zero, at most 90 degrees, in whole tenths of a second."""
    scalar = scalar_of(node, "an angle", findings)
    if scalar is None:
        return None
    try:
        read = read_angle(scalar.text)
    except TextError as error:
        findings.add(scalar.text_problem(error))
        return None
    fault = _size_fault(read.angle, bare=read.bare)
    if fault:
        findings.add(scalar.problem(fault, hint=_MARKS_HINT if read.bare else ""))
        return None
    return read.angle


def _size_fault(angle: Angle, *, bare: bool) -> str:
    """Say what keeps an angle from being a block's; nothing where it can be one."""
    if bare:
        return "degrees, minutes or seconds? the mark is missing"
    if not 0 < angle.arcseconds <= RIGHT_ANGLE.arcseconds:
        return "an angle block lies above 0 and up to 90 degrees"
    if (angle.arcseconds * 10).denominator != 1:
        return "not a whole number of tenths of a second"
    return ""


def _refuse_wrong_count(fields: Fields, issued: tuple[AngleBlock, ...], findings: Findings) -> None:
    """Refuse a declared number of angle blocks that the entries do not add up to."""
    declared = fields.whole("pieces", MOST_BLOCKS)
    counted = sum(not block.square for block in issued)
    if declared is not None and declared != counted:
        about = fields.get("pieces") or fields.node
        sentence = f"pieces says {declared}, but the blocks add up to {counted} (the square not counted)"
        findings.add(about.problem(sentence))


def _read_absent(
    node: Node | None, issued: tuple[AngleBlock, ...], findings: Findings, *, whole: bool
) -> tuple[AngleBlock, ...]:
    """Return the issued blocks whose angles are listed as absent, each listed once.

    `whole` says that all blocks could be read; else an unknown angle is nobody's fault.
    """
    gone: list[AngleBlock] = []
    for item in items_of(node, "absent", findings):
        angle = _read_size(item, findings)
        if angle is None:
            continue
        fitting = [block for block in issued if block.angle == angle]
        if not fitting and whole:
            findings.add(item.problem(f"{dms_text(angle, 1)} is no block of this set"))
        elif fitting and fitting[0] in gone:
            findings.add(item.problem(f"{fitting[0].engraved} is listed twice"))
        gone += fitting[:1]
    return tuple(gone)
