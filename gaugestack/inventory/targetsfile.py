"""A list of heights or angles, one a line: a plain list, or a CSV table as a spreadsheet saves it.

    targets = load_targets("monday.csv", wanted)

    0.6202in              height,name,tolerance
    15.752 mm  # plug     0.6202in,jaw,
                          15.752 mm,plug,0.5um

Where the first line is no heading every line is one target, and after a number
sign everything is a note.  A heading names its columns: the target's, `name`,
`tolerance`, in any order; a line that begins with a number sign is then a note.
Columns are parted by commas, semicolons or tabs.  Empty lines are passed over;
every line that cannot be used is named at once, and one refuses the list.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugestack.errors import RefusedFile, TextError, UsageError, nearest
from gaugestack.inventory.certtablecells import DELIMITERS, numbered, refuse_open_quotes, row_of
from gaugestack.inventory.fields import NAME_LIMIT
from gaugestack.inventory.findings import Findings
from gaugestack.inventory.textfile import read_text_file, text_of_bytes
from gaugestack.lengths import read_length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from pathlib import Path

    from gaugestack.errors import Place
    from gaugestack.inventory.certtablecells import Row
    from gaugestack.inventory.nodes import Scalar
    from gaugestack.lengths import Unit

MOST_TARGETS = 10_000
NOTE = "#"
ANY = "target"
NAME = "name"
TOLERANCE = "tolerance"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What the lines of a list are: `word` names the column, `read` refuses a text that is none of it.

    `unit` is that of a bare number in the column of tolerances.
    """

    word: str
    read: Callable[[str], object]
    unit: Unit

    @property
    def headings(self) -> tuple[str, ...]:
        """Every name a column can have."""
        return (self.word, ANY, NAME, TOLERANCE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """One line of a list: the target as written, and what was said about it.

    `name` is empty and `tolerance` None where nothing was; `place` is None for
    a target that came from no file.
    """

    text: str
    name: str = ""
    tolerance: str | None = None
    place: Place | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Heading:
    """A heading: its cells, what parts them, and which column is which."""

    row: Row
    mark: str
    columns: dict[str, int]


def load_targets(path: Path | str, wanted: Wanted) -> tuple[Target, ...]:
    """Return the targets of a file in the order of its lines.  Raises RefusedFile with every problem."""
    return targets_of_text(read_text_file(path), file=str(path), wanted=wanted)


def targets_of_bytes(data: bytes, *, file: str, wanted: Wanted) -> tuple[Target, ...]:
    """Return the targets of what was read from a stream called `file`; raises likewise."""
    return targets_of_text(text_of_bytes(data, file=file), file=file, wanted=wanted)


def targets_of_text(text: str, *, file: str, wanted: Wanted) -> tuple[Target, ...]:
    """Return the targets of a text; `file` names it in places.  Raises RefusedFile."""
    lines = [(number, line) for number, line in numbered(text) if _says(line)]
    if not lines:
        sentence, hint = f"there is no {wanted.word} in it", f"write one {wanted.word} a line"
        raise RefusedFile.whole(file, sentence, hint=hint)
    findings = Findings()
    heading = _heading(lines[0], file, wanted)
    if heading is None:
        rows = [_whole_line(number, line, file) for number, line in lines]
        targets = tuple(_plain_targets(rows, wanted, findings))
    else:
        _check_heading(heading, wanted, findings)
        rows = [row_of(number, line, heading.mark, file) for number, line in lines[1:]]
        _refuse_no_rows(heading, rows, findings)
        targets = tuple(_table_targets(rows, heading, wanted, findings))
    refuse_open_quotes(rows, findings)
    findings.refuse_if_any()
    if len(targets) > MOST_TARGETS:
        raise RefusedFile.whole(
            file, f"{len(targets)} {wanted.word}s; at most {MOST_TARGETS}", hint="part it"
        )
    return targets


def _says(line: str) -> bool:
    """Tell whether a line says something: more than blanks, marks between cells, or a note."""
    return bool(line.strip(" \t;,\N{NO-BREAK SPACE}")) and not line.lstrip().startswith(NOTE)


def _heading(line: tuple[int, str], file: str, wanted: Wanted) -> _Heading | None:
    """Return the heading a first line is, with the mark that shows most columns; None where it is none."""
    found = None
    for mark in reversed(DELIMITERS):
        row = row_of(*line, mark, file)
        names = [_folded(cell) for cell in row.cells]
        columns = {name: names.index(name) for name in wanted.headings if name in names}
        if columns and (found is None or len(columns) > len(found.columns)):
            found = _Heading(row=row, mark=mark, columns=columns)
    return found


def _folded(cell: Scalar) -> str:
    """Return a heading without case and surplus blanks."""
    return " ".join(cell.text.casefold().split())


def _check_heading(heading: _Heading, wanted: Wanted, findings: Findings) -> None:
    """Refuse columns that are unknown or there twice; without that of the targets, the list at once."""
    names = [_folded(cell) for cell in heading.row.cells]
    for place, cell in enumerate(heading.row.cells):
        if names[place] and names[place] not in wanted.headings:
            hint = nearest(cell.text, wanted.headings)
            findings.add(cell.problem(f"{cell.text!r} is no column of this list", hint=hint))
        elif names[place] and names[place] in names[:place]:
            findings.add(cell.problem(f"two columns are called {cell.text!r}"))
    if wanted.word in names and ANY in names:
        cell = heading.row.cells[max(names.index(wanted.word), names.index(ANY))]
        findings.add(cell.problem(f"{wanted.word!r} and {ANY!r} are the same column"))
    if wanted.word not in names and ANY not in names:
        findings.stop(heading.row.cells[0].problem(f"there is no column {wanted.word!r}"))


def _refuse_no_rows(heading: _Heading, rows: Sequence[Row], findings: Findings) -> None:
    """Refuse a heading with nothing beneath it."""
    if not rows:
        findings.add(heading.row.cells[0].problem("there is no row beneath the heading"))


def _whole_line(number: int, line: str, file: str) -> Row:
    """Return a line of a plain list as a row; a second cell shows that it is none."""
    said = line.partition(NOTE)[0]
    rows = [row_of(number, said, mark, file) for mark in DELIMITERS]
    row = max(rows, key=lambda each: len(each.cells))
    return replace(row, cells=tuple(replace(cell, source=line) for cell in row.cells))


def _plain_targets(rows: Sequence[Row], wanted: Wanted, findings: Findings) -> Iterator[Target]:
    """Return the target of every line of a plain list."""
    for row in rows:
        cell, *others = row.cells
        if others:
            hint = (
                f"write decimals with a point; columns want a heading like {wanted.word},{NAME},{TOLERANCE}"
            )
            findings.add(others[0].problem("a second column, and no heading says what it is", hint=hint))
        elif _is_read(cell, wanted, findings, _hint_for_a_name(cell.text, wanted)):
            yield Target(text=cell.text, place=cell.place)


def _table_targets(
    rows: Sequence[Row], heading: _Heading, wanted: Wanted, findings: Findings
) -> Iterator[Target]:
    """Return the target of every row that can be read."""
    named = {place for place, cell in enumerate(heading.row.cells) if cell.text}
    for row in rows:
        before = len(findings)
        for surplus in (cell for place, cell in enumerate(row.cells) if cell.text and place not in named):
            findings.add(surplus.problem("a cell without a heading", hint=f"{len(named)} columns have one"))
        target = _cell(row, heading, wanted.word) or _cell(row, heading, ANY) or row.cells[0]
        name, tolerance = (_cell(row, heading, column) for column in (NAME, TOLERANCE))
        _is_read(target, wanted, findings)
        _refuse_long(name, findings)
        _refuse_no_tolerance(tolerance, wanted.unit, findings)
        if len(findings) == before:
            yield Target(
                text=target.text,
                name=name.text if name else "",
                tolerance=tolerance.text if tolerance and tolerance.text else None,
                place=target.place,
            )


def _cell(row: Row, heading: _Heading, column: str) -> Scalar | None:
    """Return the cell of a column; None where there is no such column, or the row ends before it."""
    place = heading.columns.get(column)
    return row.cells[place] if place is not None and place < len(row.cells) else None


def _hint_for_a_name(text: str, wanted: Wanted) -> str:
    """Return what to write instead of a name before a target; nothing where there is none."""
    name, _, target = text.rpartition(" ")
    if not name[:1].isalpha():
        return ""
    try:
        wanted.read(target)
    except (TextError, UsageError):
        return ""
    return f"names want a table: a heading {NAME},{wanted.word} and commas between the cells"


def _is_read(cell: Scalar, wanted: Wanted, findings: Findings, hint: str = "") -> bool:
    """Tell whether a cell holds a target; what is wrong with it is a problem, with `hint` where given."""
    try:
        wanted.read(cell.text)
    except TextError as error:
        wrong = TextError(error.text, error.start, error.end, error.sentence, hint=hint or error.hint)
        findings.add(cell.text_problem(wrong))
    except UsageError as error:
        findings.add(cell.problem(error.problems[0].sentence, hint=error.problems[0].hint))
    else:
        return True
    return False


def _refuse_long(name: Scalar | None, findings: Findings) -> None:
    """Refuse a name that is no name."""
    if name and len(name.text) > NAME_LIMIT:
        findings.add(name.problem(f"a name longer than {NAME_LIMIT} characters"))


def _refuse_no_tolerance(cell: Scalar | None, unit: Unit, findings: Findings) -> None:
    """Refuse what is no tolerance; an empty cell leaves it to the option."""
    if cell is None or not cell.text:
        return
    try:
        if read_length(cell.text, bare_unit=unit, signed=True).length < 0:
            findings.add(cell.problem("below zero", hint="0 asks for exactly the height"))
    except TextError as error:
        findings.add(cell.text_problem(error))
