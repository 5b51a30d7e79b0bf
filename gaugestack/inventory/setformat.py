"""The `format:` key, which every file of ours begins with.

    fields = fields_of_format(root, "a set file", KEYS, findings)

Only format 1 is known.  A file of another format is refused at once: nothing
else in it would mean what we think.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.inventory.fields import Fields, fields_of
from gaugestack.inventory.nodes import Mapping, Scalar

if TYPE_CHECKING:
    from collections.abc import Iterable

    from gaugestack.inventory.findings import Findings
    from gaugestack.inventory.nodes import Node

FORMAT = "1"


def fields_of_format(root: Node, what: str, known: Iterable[str], findings: Findings) -> Fields:
    """Return the fields of a whole file of format 1; `what` names the kind of file.

    Raises RefusedFile at once where the file is no mapping or of another format.
    """
    if not isinstance(root, Mapping):
        findings.stop(root.problem(f"{what} is written with keys and values", hint="begin it with format: 1"))
    _refuse_other_format(root, findings)
    return fields_of(root, what, known, findings) or Fields(root, findings)


def _refuse_other_format(root: Mapping, findings: Findings) -> None:
    """Refuse a file without `format: 1`; one with another format is read no further."""
    value = next((value for key, value in root.pairs if key.text == "format"), None)
    if value is None:
        findings.add(root.problem("the key 'format' is missing", hint="begin the file with format: 1"))
    elif not isinstance(value, Scalar) or value.text != FORMAT:
        written = value.text if isinstance(value, Scalar) else "this"
        findings.stop(value.problem(f"format {written!r} is not known: this program reads format 1"))
