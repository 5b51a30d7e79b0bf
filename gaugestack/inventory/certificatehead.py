"""The `certificate:` section: its head, and the deviations it gives by size.

    certificate = read_certificate(node, unit, findings)
    issued = with_deviations(node, issued, certificate.source, findings)

`source:` says where the values come from, in the words of `Trust`.  Without it
they are an unverified sheet, even where a number and a date stand: a box lid
can bear both.  Certificate tables are read in certificate.py; whether a
certificate is still valid on a day says blocks.due_state.
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.blocks import CalibrationUncertainty, Certificate, Trust
from gaugestack.errors import TextError
from gaugestack.inventory.absentpieces import nearest_size
from gaugestack.inventory.blockentries import TRUSTED, deviation_sentence, too_large
from gaugestack.inventory.fields import Fields, deviation_of, fields_of, scalar_of, size_of
from gaugestack.inventory.nodes import Mapping
from gaugestack.lengths import Length, engraved_text, read_length

if TYPE_CHECKING:
    from gaugestack.blocks import Block
    from gaugestack.inventory.findings import Findings
    from gaugestack.inventory.nodes import Node, Scalar
    from gaugestack.inventory.pieces import Issued
    from gaugestack.lengths import Unit

TABLE_KEYS = ("table", "columns", "value", "table_unit")
"""The keys about a certificate table."""
_KEYS = (
    "number", "date", "due", "temperature", "uncertainty", "source", "deviations",
    *TABLE_KEYS,
)  # fmt: skip
_UNCERTAINTY = ("fixed", "per_length", "coverage")
_TEMPERATURE = re.compile(r"(?P<degrees>[+-]?[0-9]{1,3}(?:\.[0-9]{1,3})?)\s*°\s*(?P<scale>[CF])")
_COVERAGE = re.compile(r"[0-9]{1,3}(?:\.[0-9]{1,4})?")
_PER_LENGTH_HINT = "write a length over a length: 1 µin/in or 0.5 µm/m"
_PARTS = 10**12
LARGEST_PER_LENGTH = _PARTS // 1000
"""One part in a thousand: no certificate is so bad."""
LARGEST_FIXED = Length(100_000_000)
"""0.1 mm, as for a deviation."""


def read_certificate(node: Node | None, unit: Unit, findings: Findings) -> Certificate | None:
    """Return the head of the certificate; None where the file has none."""
    fields = None if node is None else fields_of(node, "certificate", _KEYS, findings)
    if fields is None:
        return None
    _refuse_due_before_date(fields, findings)
    return Certificate(
        number=fields.text("number"),
        date=fields.day("date"),
        due=fields.day("due"),
        temperature=_temperature(fields, findings),
        uncertainty=_uncertainty(fields.get("uncertainty"), unit, findings),
        source=Trust(fields.choice("source", TRUSTED) or Trust.UNVERIFIED_SHEET),
    )


def source_remarks(node: Node | None) -> tuple[str, ...]:
    """Return a sentence where a certificate gives values and does not say where they come from."""
    keys = {key.text for key, _ in node.pairs} if isinstance(node, Mapping) else set()
    if not keys & {"deviations", "table"} or "source" in keys:
        return ()
    words = f"{', '.join(TRUSTED[:-1])} or {TRUSTED[-1]}"
    return (f"no source: ({words}) in the certificate: read as an unverified sheet",)


def with_deviations(node: Node | None, issued: Issued, trust: Trust, findings: Findings) -> Issued:
    """Return the pieces with the certificate's deviations; each belongs to one described piece."""
    deviations = Fields(node, findings).get("deviations") if isinstance(node, Mapping) else None
    if deviations is None:
        return issued
    if not isinstance(deviations, Mapping):
        findings.add(deviations.problem("deviations are pairs of size and deviation", hint="{0.1001: +2}"))
        return issued
    blocks, by_size = issued.blocks, issued.by_size()
    found: dict[int, Length] = {}
    for key, value in deviations.pairs:
        index = _piece_of(key, by_size, issued, findings)
        deviation = _deviation_of_node(value, issued.unit, findings)
        if index is None or deviation is None:
            continue
        _refuse_deviation(key, deviation, blocks[index], findings, again=index in found)
        found[index] = deviation
    changed = (
        replace(block, deviation=found[index], trust=trust) if index in found else block
        for index, block in enumerate(blocks)
    )
    return replace(issued, blocks=tuple(changed))


def _piece_of(
    key: Scalar, by_size: dict[Length, list[tuple[int, Block]]], issued: Issued, findings: Findings
) -> int | None:
    """Return the index of the one piece that has this size, ordinary blocks before wear blocks."""
    size = size_of(key, issued.unit, findings)
    if size is None:
        return None
    text = engraved_text(size, issued.unit)
    of_size = by_size.get(size, [])
    if not of_size:
        if issued.whole:
            hint = nearest_size(size, by_size, issued.unit)
            findings.add(key.problem(f"{text} is no size of this set", hint=hint))
        return None
    fitting = [item for item in of_size if not item[1].wear] or of_size
    if len(fitting) > 1:
        sentence = f"{len(fitting)} blocks are {text}: whose deviation is this?"
        hint = "write the deviation in each block's own entry, with its serial"
        findings.add(key.problem(sentence, hint=hint))
        return None
    return fitting[0][0]


def _deviation_of_node(node: Node, unit: Unit, findings: Findings) -> Length | None:
    """Return the deviation a node gives."""
    scalar = scalar_of(node, "a deviation", findings)
    return None if scalar is None else deviation_of(scalar, unit, findings)


def _refuse_deviation(
    key: Scalar,
    deviation: Length,
    block: Block,
    findings: Findings,
    *,
    again: bool,
) -> None:
    """Refuse a deviation that is a slip, or that is given twice."""
    if too_large(deviation, block.nominal):
        findings.add(key.problem(deviation_sentence(deviation, block.nominal, block.unit)))
    if again:
        findings.add(key.problem(f"the deviation of {block.engraved} is given twice here"))
    elif block.deviation is not None and block.place is not None:
        sentence = f"the deviation of {block.engraved} is given twice: also in line {block.place.line}"
        findings.add(key.problem(sentence))


def _refuse_due_before_date(fields: Fields, findings: Findings) -> None:
    """Refuse a due day before the day of the certificate."""
    first, due = fields.get("date"), fields.get("due")
    texts = [getattr(node, "text", "") for node in (first, due)]
    if due is not None and all(texts) and texts[1] < texts[0]:
        findings.add(due.problem("the certificate is due before its date"))


def _temperature(fields: Fields, findings: Findings) -> str:
    """Return the temperature as written: degrees Celsius or Fahrenheit, from freezing to 50 °C."""
    scalar = fields.scalar("temperature")
    if scalar is None:
        return ""
    match = _TEMPERATURE.fullmatch(scalar.text)
    if match is None:
        sentence = f"{scalar.text!r} is not a temperature"
        findings.add(scalar.problem(sentence, hint="write 20 °C or 68 °F"))
        return ""
    degrees = Fraction(match["degrees"])
    celsius = degrees if match["scale"] == "C" else (degrees - 32) * 5 / 9
    if not 0 <= celsius <= 50:
        findings.add(scalar.problem("no room for measuring is so cold or hot", hint="check the scale"))
    return scalar.text


def _uncertainty(node: Node | None, unit: Unit, findings: Findings) -> CalibrationUncertainty | None:
    """Return the certificate's uncertainty, `fixed` at least."""
    fields = None if node is None else fields_of(node, "uncertainty", _UNCERTAINTY, findings)
    if fields is None or not fields.need("fixed"):
        return None
    fixed = fields.deviation("fixed", unit)
    if fixed is not None and not 0 <= fixed <= LARGEST_FIXED:
        about = fields.get("fixed") or fields.node
        findings.add(about.problem("an uncertainty lies between 0 and 0.1 mm", hint="check the unit"))
    per_length = fields.scalar("per_length")
    return CalibrationUncertainty(
        fixed=fixed or Length(0),
        per_length=0 if per_length is None else _per_length(per_length, findings),
        coverage=_coverage(fields, findings),
    )


def _per_length(scalar: Scalar, findings: Findings) -> int:
    """Return a length over a length, times 1e12."""
    above, slash, below = scalar.text.partition("/")
    if not slash:
        findings.add(scalar.problem("not an uncertainty per length", hint=_PER_LENGTH_HINT))
        return 0
    unit_text = below.strip() if below.strip()[:1].isdigit() else f"1 {below.strip()}"
    try:
        ratio = Fraction(read_length(above, signed=True).length * _PARTS, read_length(unit_text).length)
    except TextError as error:
        findings.add(scalar.problem(error.sentence, hint=_PER_LENGTH_HINT))
        return 0
    if ratio.denominator != 1 or not 0 <= ratio <= LARGEST_PER_LENGTH:
        sentence = "an uncertainty per length lies between 0 and 0.001, in steps of 1e-12"
        findings.add(scalar.problem(sentence, hint=_PER_LENGTH_HINT))
        return 0
    return ratio.numerator


def _coverage(fields: Fields, findings: Findings) -> str:
    """Return the coverage factor as written, a number above zero; 2 where none is given."""
    scalar = fields.scalar("coverage")
    if scalar is None:
        return "2"
    if not _COVERAGE.fullmatch(scalar.text) or not Fraction(scalar.text):
        sentence = f"the coverage factor is a number above zero, not {scalar.text!r}"
        findings.add(scalar.problem(sentence, hint="write 2"))
    return scalar.text
