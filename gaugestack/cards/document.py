"""A text that programs read as UTF-8, with a spelling for any other encoding that loses nothing.

>>> Json(text).escaped
"""

from __future__ import annotations


class Document(str):
    """A text with a way to write it in ASCII that loses nothing."""

    __slots__ = ()

    @property
    def escaped(self) -> str:
        """The same document in ASCII."""
        raise NotImplementedError


class Json(Document):
    """A JSON text."""

    __slots__ = ()

    @property
    def escaped(self) -> str:
        """The text with the escapes of RFC 8259, section 7; other characters stand in strings only."""
        return "".join(letter if letter.isascii() else _escape(letter) for letter in self)


class Markup(Document):
    """HTML or SVG."""

    __slots__ = ()

    @property
    def escaped(self) -> str:
        """The text with numeric character references."""
        return self.encode("ascii", "xmlcharrefreplace").decode("ascii")


def _escape(letter: str) -> str:
    """Return a character as one or two units of UTF-16."""
    units = letter.encode("utf-16-be", "surrogatepass")
    return "".join(f"\\u{units[place : place + 2].hex()}" for place in range(0, len(units), 2))
