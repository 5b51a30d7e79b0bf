"""Values written down again, so that what is read of them can be held against what they were."""

import json
from collections import Counter
from fractions import Fraction

from gaugestack.angles.angle import dms_text
from gaugestack.blocks import Trust
from gaugestack.inventory.ledgerlines import head_line, line_of
from gaugestack.lengths import Unit, exact_text


def angle_text(angle):
    """Write an angle with every decimal of its seconds; all that can be read end there."""
    places = next(n for n in range(80) if (angle.arcseconds * 10**n).denominator == 1)
    return dms_text(angle, places)


def quoted(text):
    """Write a text in double quotes, as YAML and JSON read it."""
    return json.dumps(text, ensure_ascii=False)


def _mapping(**pairs):
    """Write the pairs that say something in braces."""
    return "{" + ", ".join(f"{key}: {value}" for key, value in pairs.items() if value) + "}"


def _head(**pairs):
    """Write the pairs that say something, one a line, below the format."""
    said = [f"{key}: {value}" for key, value in pairs.items() if value]
    return "\n".join(["format: 1", *said, ""])


def exact(length):
    """Write a length in millimetres, where all its decimals end."""
    return exact_text(length, Unit.MILLIMETRE)


def _size(length, unit):
    """Write an engraved size in the unit of its set.

    A size of an inch set that has no end in inches was written as a fraction.
    """
    text = exact_text(length, unit)
    if text.endswith(unit.value):
        return quoted(text)
    inches = Fraction(length, unit.picometres)
    return quoted(f"{inches.numerator}/{inches.denominator} {unit.value}")


def set_text(block_set, bars):
    """Write a set piece by piece, without its names of source and basis."""
    pieces = Counter(_entry(block, block_set.unit) for block in block_set.issued)
    entries = [entry if count == 1 else f"{entry[:-1]}, pieces: {count}}}" for entry, count in pieces.items()]
    lines = [f"  - {entry}" for entry in entries]
    gone = [f"  - {_absent(block, block_set.unit)}" for block in block_set.absent]
    retire = "" if block_set.retire_beyond is None else quoted(exact(block_set.retire_beyond))
    head = _head(
        name=quoted(block_set.name),
        unit=block_set.unit.value,
        standard=block_set.standard and quoted(block_set.standard),
        grade=block_set.grade and quoted(block_set.grade),
        material=quoted(block_set.material),
        retire_beyond=retire,
        certificate=certificate_text(block_set.certificate),
    )
    return head + "\n".join(["blocks:", *lines, *(["absent:", *gone] if gone else []), *_bars(bars), ""])


def certificate_text(certificate):
    """Write the head of a certificate; nothing for none."""
    if certificate is None:
        return ""
    known = certificate.uncertainty
    uncertainty = known and _mapping(
        fixed=quoted(exact(known.fixed)),
        per_length=quoted(f"{exact(known.per_length)} / 1 m") if known.per_length else "",
        coverage=known.coverage,
    )
    return _mapping(
        number=quoted(certificate.number) if certificate.number else "",
        date=certificate.date,
        due=certificate.due,
        temperature=certificate.temperature and quoted(certificate.temperature),
        uncertainty=uncertainty,
        source=certificate.source.value,
    )


def _entry(block, unit):
    """Write one piece."""
    return _mapping(
        size=_size(block.nominal, unit),
        wear="true" if block.wear else "",
        material=quoted(block.material),
        serial=block.serial and quoted(block.serial),
        deviation="" if block.deviation is None else quoted(exact(block.deviation)),
        trust="" if block.trust is Trust.NOMINAL_ONLY else block.trust.value,
        note=block.note and quoted(block.note),
    )


def _absent(block, unit):
    """Write one piece that is not there."""
    serial = block.serial and quoted(block.serial)
    return _mapping(size=_size(block.nominal, unit), wear="true" if block.wear else "", serial=serial)


def bars_text(bars):
    """Write sine bars as a file of their own."""
    return "\n".join([_head(), *_bars(bars), ""]) if bars else "format: 1\nbars: []\n"


def _bars(bars):
    """Write the section of the bars, each in the unit it was described in."""
    return ["bars:", *(f"  - {_bar(bar)}" for bar in bars)] if bars else []


def _bar(bar):
    """Write one bar."""
    return _mapping(
        name=quoted(bar.name),
        centre_distance=_size(bar.centre_distance, bar.unit),
        error=quoted(exact(bar.error)),
        roll_diameter="" if bar.roll_diameter is None else _size(bar.roll_diameter, bar.unit),
        kind=bar.kind,
        base_height=quoted(exact(bar.base_height)),
    )


def job_text(job):
    """Write a job."""
    setups = [
        _mapping(
            name=quoted(one.name),
            **{one.wanted.value: quoted(one.text.text)},
            **{"for": one.use.value if one.use else ""},
            bar=quoted(one.bar.text) if one.bar else "",
        )
        for one in job.setups
    ]
    head = _head(
        name=quoted(job.name),
        set=quoted(job.set.text) if job.set else "",
        bar=quoted(job.bar.text) if job.bar else "",
        order=job.order.value,
    )
    return head + "\n".join(["setups:", *(f"  - {setup}" for setup in setups), ""])


def angle_set_text(angle_set):
    """Write a set of angle blocks, one a line."""
    every = (*angle_set.blocks, *angle_set.absent)
    blocks = [
        "  - " + _mapping(angle=quoted(block.engraved), serial=block.serial and quoted(block.serial))
        for block in every
        if not block.square
    ]
    square = "true" if any(block.square for block in every) else ""
    absent = "[" + ", ".join(quoted(block.engraved) for block in angle_set.absent) + "]"
    head = _head(kind="angle", name=quoted(angle_set.name), square=square, absent=absent)
    return head + "\n".join(["blocks:", *blocks, ""])


def ledger_text(ledger, name):
    """Write a ledger as the program does."""
    return head_line(name) + "".join(line_of(record) for record in ledger.records)


def table_text(table):
    """Write a table of deviations, with serials and variations where it has them."""
    lines = ["Nominal (mm)\tDeviation (mm)\tSerial\tVariation (mm)"]
    for value in table.values:
        variation = "" if value.variation is None else exact(value.variation)
        cells = (exact(value.block.nominal), exact(value.deviation), f'"{value.serial}"', variation)
        lines.append("\t".join(cell.removesuffix(" mm") for cell in cells))
    return "\n".join([*lines, ""])


def targets_text(targets):
    """Write a list of targets as a table, every cell in quotes."""
    rows = [(target.text, target.name, target.tolerance or "") for target in targets]
    cells = [["target", "name", "tolerance"], *rows]
    return "\n".join(",".join('"' + cell.replace('"', '""') + '"' for cell in row) for row in cells)
