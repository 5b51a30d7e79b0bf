"""YAML text to located nodes.

    root = parse(read_text_file(path), file=str(path))

Every scalar stays the text it was, with its line and column: `010`, `1:30`
and `2.000` reach the readers of lengths unharmed.  Refused, each with its
place: anchors and aliases, tags, duplicate keys, keys that are no text,
several documents, nesting deeper than 20, control characters, broken syntax.
The only module that imports yaml.  Does not know what a set is.

The C parser is used where PyYAML has it: for a shipped set it takes a tenth of
the time of the one in Python, and its marks are the same but for an empty value
in braces and an unknown escape, where they differ by one column.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NoReturn, Protocol, cast

import yaml

from gaugestack.errors import Place, Problem
from gaugestack.inventory.findings import Findings
from gaugestack.inventory.nodes import Mapping, Node, Scalar, Sequence
from gaugestack.inventory.syntax import syntax_sentence
from gaugestack.inventory.textfile import read_text_file

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

DEEPEST = 20
"""The format needs four levels; twenty is a mistake or a trap."""

_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_LINE_END = re.compile("\r\n|[\r\n\x85\u2028\u2029]")
_NOT_TEXT = re.compile("[\0-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufeff\ufffe\uffff]")
_NO_ANCHORS = "write the value out where it is needed"


def read_nodes(path: Path | str) -> Node:
    """Return the root node of a file.  Raises RefusedFile with everything wrong in its syntax."""
    return parse(read_text_file(path), file=str(path))


def parse(text: str, *, file: str) -> Node:
    """Return the root node of a text; `file` is the name its places carry.  Raises RefusedFile."""
    builder = _Builder(text.removeprefix("\ufeff"), file)
    return builder.root()


class _Mark(Protocol):
    """A parser's mark: line and column from 0."""

    line: int
    column: int


class _Builder:
    """Turns the parser's events into nodes; lives for one text."""

    def __init__(self, text: str, file: str) -> None:
        """Split the text into lines, refusing characters that are no text."""
        self.file = file
        self.findings = Findings()
        self.lines = _LINE_END.split(text)
        self._refuse_control_characters()
        self.text = text

    def root(self) -> Node:
        """Return the one document's node."""
        try:
            events = yaml.parse(self.text, Loader=_LOADER)
            node = self._document(events)
        except yaml.YAMLError as error:
            self._refuse_syntax(error)
        self.findings.refuse_if_any()
        return node

    def _document(self, events: Iterator[yaml.Event]) -> Node:
        """Return the first document's node; a second one is a problem."""
        next(events)
        if isinstance(next(events), yaml.StreamEndEvent):
            self.findings.stop(self._problem(1, 1, "the file holds nothing but comments"))
        node = self._node(next(events), events, 1)
        next(events)
        event = next(events)
        if not isinstance(event, yaml.StreamEndEvent):
            sentence = "a second document begins here: one file describes one set"
            self.findings.stop(self._at(event, sentence))
        return node

    def _node(self, event: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Node:
        """Return the node that begins with `event`, taking its events."""
        if depth > DEEPEST:
            self.findings.stop(self._at(event, f"nested deeper than {DEEPEST} levels"))
        self._refuse_marks(event)
        if isinstance(event, yaml.SequenceStartEvent):
            return self._sequence(event, events, depth)
        if isinstance(event, yaml.MappingStartEvent):
            return self._mapping(event, events, depth)
        return self._scalar(event)

    def _scalar(self, event: yaml.Event) -> Scalar:
        """Return a scalar's node; an alias, already a problem, reads as nothing."""
        place, source, width = self._where(event)
        text = event.value if isinstance(event, yaml.ScalarEvent) else ""
        quoted = isinstance(event, yaml.ScalarEvent) and bool(event.style)
        return Scalar(place=place, source=source, width=width, text=text, quoted=quoted)

    def _sequence(self, start: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Sequence:
        """Return a list's node."""
        items = []
        while not isinstance(event := next(events), yaml.SequenceEndEvent):
            items.append(self._node(event, events, depth + 1))
        place, source, width = self._where(start)
        return Sequence(place=place, source=source, width=width, items=tuple(items))

    def _mapping(self, start: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Mapping:
        """Return a mapping's node, each key once."""
        pairs: dict[str, tuple[Scalar, Node]] = {}
        while not isinstance(event := next(events), yaml.MappingEndEvent):
            key = self._node(event, events, depth + 1)
            value = self._node(next(events), events, depth + 1)
            if not isinstance(key, Scalar):
                self.findings.add(key.problem("a key must be a plain word or number"))
            elif key.text in pairs:
                self.findings.add(_duplicate(key, pairs[key.text][0]))
            else:
                pairs[key.text] = (key, value)
        place, source, width = self._where(start)
        return Mapping(place=place, source=source, width=width, pairs=tuple(pairs.values()))

    def _refuse_marks(self, event: yaml.Event) -> None:
        """Refuse anchors, aliases and tags: they hide what a file says."""
        if isinstance(event, yaml.AliasEvent):
            self.findings.add(self._at(event, f"aliases (*{_anchor(event)}) are not read", hint=_NO_ANCHORS))
            return
        if _anchor(event):
            self.findings.add(self._at(event, f"anchors (&{_anchor(event)}) are not read", hint=_NO_ANCHORS))
        if getattr(event, "tag", None) is not None:
            self.findings.add(self._at(event, "tags (!) are not read", hint="leave the tag away"))

    def _refuse_control_characters(self) -> None:
        """Refuse every character that cannot be seen in a text file."""
        for number, line in enumerate(self.lines, start=1):
            for match in _NOT_TEXT.finditer(line):
                sentence = f"a control character (U+{ord(match[0]):04X}) in the text"
                self.findings.add(self._problem(number, match.start() + 1, sentence))
        self.findings.refuse_if_any()

    def _refuse_syntax(self, error: yaml.YAMLError) -> NoReturn:
        """Refuse the file with our sentence for the parser's complaint."""
        mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
        line, column = self._inside(_mark(mark)) if mark else (1, 1)
        opened = getattr(error, "context_mark", None)
        sentence, hint = syntax_sentence(
            str(getattr(error, "problem", None) or "it cannot be parsed"),
            before=self._line(line)[:column],
            opened=(opened.line + 1) if opened else 0,
        )
        self.findings.stop(self._problem(line, column, sentence, hint=hint))

    def _where(self, event: yaml.Event) -> tuple[Place, str, int]:
        """Return an event's place, line and width on that line."""
        start, end = _mark(event.start_mark), _mark(event.end_mark)
        line, column = self._inside(start)
        source = self._line(line)
        last = end.column if end.line == start.line else len(source)
        return Place(file=self.file, line=line, column=column), source, max(1, last - column + 1)

    def _at(self, event: yaml.Event, sentence: str, *, hint: str = "") -> Problem:
        """Return a problem at an event."""
        return self._problem(*self._inside(_mark(event.start_mark)), sentence, hint=hint)

    def _inside(self, mark: _Mark) -> tuple[int, int]:
        """Return a mark's line and column from 1; the end of the last line where it stands behind it."""
        if mark.line < len(self.lines):
            return mark.line + 1, mark.column + 1
        return len(self.lines), len(self.lines[-1]) + 1

    def _problem(self, line: int, column: int, sentence: str, *, hint: str = "") -> Problem:
        """Return a problem at a line and column."""
        place = Place(file=self.file, line=line, column=column)
        return Problem(place=place, sentence=sentence, source=self._line(line), start=column - 1, hint=hint)

    def _line(self, number: int) -> str:
        """Return a line of the text, counted from 1; nothing beyond its end."""
        return self.lines[number - 1] if number <= len(self.lines) else ""


def _mark(mark: object) -> _Mark:
    """Return an event's mark, which is always there when the text came as a string."""
    return cast("_Mark", mark)


def _anchor(event: object) -> str:
    """Return the name of an event's anchor, or nothing."""
    return str(getattr(event, "anchor", None) or "")


def _duplicate(key: Scalar, first: Scalar) -> Problem:
    """Say that a key stands twice, naming both places."""
    return key.problem(f"the key {key.text!r} stands twice: first in line {first.place.line}")
