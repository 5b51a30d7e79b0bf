"""What this terminal can show, and printing to it in one piece.

    >>> emit(screen_text)

An answer goes out as it is: no wrapping, no markup, so that nothing a user
wrote into a file is taken for a command.  Where the encoding lacks a
character, a plain spelling stands in; in JSON, HTML and SVG its escape, so
that nothing is lost.
"""

from __future__ import annotations

import contextlib
import sys
from typing import TYPE_CHECKING

from gaugestack.cards.document import Document
from gaugestack.cards.drawing import ASCII, LINES, Pen
from gaugestack.cli.boundary import pipe_closed
from gaugestack.errors import UsageError

if TYPE_CHECKING:
    from collections.abc import Iterator

_PLAIN = str.maketrans(
    {
        "\N{MICRO SIGN}": "u",
        "\N{DEGREE SIGN}": " deg ",
        "\N{MINUS SIGN}": "-",
        "\N{RIGHT SINGLE QUOTATION MARK}": "'",
        "\N{REPLACEMENT CHARACTER}": "?",
    }
)


def pen() -> Pen:
    """Return the characters drawings may use here."""
    return LINES if _can_show("".join((*LINES.top, *LINES.joint, LINES.wear, LINES.plate))) else ASCII


def emit(text: str) -> None:
    """Write an answer to stdout in one piece.  Raises UsageError where it takes none: closed, or full."""
    with _taking():
        if isinstance(text, Document) and not _is_utf_8():
            text = text.escaped
        elif not _can_show(text):
            encoding = _encoding()
            text = text.translate(_PLAIN).encode(encoding, "replace").decode(encoding)
        sys.stdout.write(text)
        sys.stdout.flush()


def emit_bytes(data: bytes) -> None:
    """Write an answer that is no text to stdout.  Raises UsageError likewise."""
    with _taking():
        sys.stdout.buffer.write(data)
        sys.stdout.flush()


def is_a_screen() -> bool:
    """Tell whether a person sees what goes to stdout."""
    return sys.stdout is not None and sys.stdout.isatty()


@contextlib.contextmanager
def _taking() -> Iterator[None]:
    """Refuse a stdout that is closed or full; leave quietly where its reader has gone."""
    if sys.stdout is None:
        raise UsageError.about("stdout", "is closed: the answer cannot be written")
    try:
        yield
    except BrokenPipeError:  # typer would end it with 1, which says "impossible"
        raise SystemExit(pipe_closed()) from None
    except OSError as error:
        pipe_closed()
        raise UsageError.about("stdout", f"the answer cannot be written: {error.strerror}") from None


def _can_show(text: str) -> bool:
    """Tell whether stdout can encode a text."""
    try:
        text.encode(_encoding())
    except UnicodeEncodeError:
        return False
    return True


def _is_utf_8() -> bool:
    """Tell whether stdout encodes as JSON, HTML and SVG have to be."""
    return _encoding().casefold().replace("_", "-") in ("utf-8", "utf8")


def _encoding() -> str:
    """Return the encoding of stdout."""
    return getattr(sys.stdout, "encoding", None) or "ascii"
