"""The one place where errors become text and an exit code.

    >>> code = guarded(app)

Errors of this library are printed on stderr with their places and hints;
Ctrl-C and a closed pipe end quietly with the codes shells expect.  Any other
exception is our own fault: it ends with 70, never with the 1 of an honest no.
"""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

from gaugestack.errors import ExitCode, GaugestackError

if TYPE_CHECKING:
    from collections.abc import Callable

INTERRUPTED = 130
PIPE_CLOSED = 141
COLUMNS = 80
"""Columns of a line on stderr where it is no terminal."""
LEAST_COLUMNS = 40
"""A narrower terminal breaks the lines by itself."""
_HINT = "  "
_SOURCE = "    "
"""What a source line and a caret line begin with, and the further lines of a hint."""


def guarded(run: Callable[[], object]) -> int:
    """Run the command and return its exit code."""
    try:
        run()
        sys.stdout.flush()
    except GaugestackError as error:
        say("\n".join(_fitted(str(problem)) for problem in error.problems))
        return int(error.exit_code)
    except SystemExit as leave:
        return leave.code if isinstance(leave.code, int) else int(leave.code is not None)
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        return pipe_closed()
    except Exception:  # noqa: BLE001  (the last line: what nobody foresaw is reported, not hidden)
        return _our_fault()
    return 0


def say(text: str) -> None:
    """Print a sentence on stderr, whatever its encoding can hold."""
    if sys.stderr is None:  # closed by the shell
        return
    encoding = getattr(sys.stderr, "encoding", None) or "ascii"
    sys.stderr.write(text.encode(encoding, "replace").decode(encoding) + "\n")


def _fitted(text: str) -> str:
    """Return a mistake with its hint wrapped to the terminal; its other lines stay as they are."""
    *lines, hint = text.split("\n")
    width = _width()
    if not lines or hint.startswith(_SOURCE) or len(hint) <= width:
        return text
    from textwrap import wrap  # noqa: PLC0415  (a mistake pays for it, no answer does)

    wrapped = wrap(
        hint.strip(),
        width,
        initial_indent=_HINT,
        subsequent_indent=_SOURCE,
        break_long_words=False,
        break_on_hyphens=False,
    )
    return "\n".join((*lines, *wrapped))


def _width() -> int:
    """Return the columns of the terminal that stderr is, 80 where it is none."""
    try:
        return max(os.get_terminal_size(sys.stderr.fileno()).columns, LEAST_COLUMNS)
    except (OSError, ValueError, AttributeError):
        return COLUMNS


def _our_fault() -> int:
    """Show where the program failed and say whose fault it is."""
    from traceback import format_exc  # noqa: PLC0415

    say(format_exc().rstrip())
    say("gaugestack: this is a fault of the program: please report it with the lines above.")
    return int(ExitCode.OUR_BUG)


def pipe_closed() -> int:
    """Leave no complaint behind when the reader of our output has gone."""
    null = os.open(os.devnull, os.O_WRONLY)
    os.dup2(null, sys.stdout.fileno())
    return PIPE_CLOSED
