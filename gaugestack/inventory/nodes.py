"""Located nodes: what a file says, each word with its place.

    Scalar     one text, exactly as written; never a float, date or truth value
    Sequence   items
    Mapping    pairs of a key (a Scalar) and a node

Does not parse; located.py builds them, fields.py reads them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from gaugestack.errors import Place, Problem

if TYPE_CHECKING:
    from gaugestack.errors import TextError


@dataclass(frozen=True, slots=True, kw_only=True)
class Located:
    """Where a node begins: its place, the line it stands in, how wide it is there."""

    place: Place
    source: str
    width: int = 1

    def problem(self, sentence: str, *, hint: str = "") -> Problem:
        """Return a problem whose caret stands under this node."""
        return Problem(
            place=self.place,
            sentence=sentence,
            source=self.source,
            start=self.place.column - 1,
            width=self.width,
            hint=hint,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Scalar(Located):
    """One text as written; `quoted` tells `''` from nothing at all."""

    text: str
    quoted: bool = False

    @property
    def missing(self) -> bool:
        """Whether nothing stands where a value should."""
        return not self.quoted and not self.text

    def text_problem(self, error: TextError) -> Problem:
        """Return a reader's complaint about this text, its caret under the wrong characters."""
        column = self.place.column - 1 + int(self.quoted)
        if not self.source.startswith(self.text, column):
            return self.problem(error.sentence, hint=error.hint)
        place = Place(file=self.place.file, line=self.place.line, column=column + 1)
        return error.at(place, source=self.source, offset=column)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sequence(Located):
    """A list of nodes."""

    items: tuple[Node, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mapping(Located):
    """Keys and their nodes, in the order of the file, every key once."""

    pairs: tuple[tuple[Scalar, Node], ...]


Node: TypeAlias = Scalar | Sequence | Mapping
