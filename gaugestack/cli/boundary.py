"""The one place where errors become text and an exit code.

    >>> code = guarded(app)

Errors of this library are printed on stderr with their places and hints;
Ctrl-C and a closed pipe end quietly with the codes shells expect.  Any other
exception is our own fault: it ends with 70, never with the 1 of an honest no.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from gaugestack.errors import ExitCode, GaugestackError

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import TextIO

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
    if sys.stderr is None:  # closed by the shell; what is meant for it must not reach stdout
        sys.stderr = Path(os.devnull).open("w", encoding="utf-8")  # noqa: SIM115  (for as long as we live)
    try:
        run()
        sys.stdout.flush()
    except GaugestackError as error:
        say("\n".join(_fitted(str(problem)) for problem in error.problems))
        return int(error.exit_code)
    except SystemExit as leave:
        return _unheard(leave.__context__) or _left(leave)
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError as error:
        return _unheard(error) or pipe_closed()
    except Exception as error:  # noqa: BLE001  (the last line: what nobody foresaw is reported, not hidden)
        return _unheard(error) or _our_fault()
    return 0


def say(text: str) -> None:
    """Print a sentence on stderr, whatever its encoding can hold."""
    encoding = getattr(sys.stderr, "encoding", None) or "ascii"
    try:
        sys.stderr.write(text.encode(encoding, "replace").decode(encoding) + "\n")
        sys.stderr.flush()
    except OSError:  # full, or its reader gone: the exit code still tells
        _to_nothing(sys.stderr)


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
    _to_nothing(sys.stdout)
    return PIPE_CLOSED


def _left(leave: SystemExit) -> int:
    """Return the exit code of a program that left by itself."""
    return leave.code if isinstance(leave.code, int) else int(leave.code is not None)


def _unheard(error: BaseException | None) -> int:
    """Return the exit code of a wrong command line that stderr did not take; 0 where that did not happen."""
    if not isinstance(error, OSError):
        return 0
    code = getattr(error.__context__, "exit_code", 0)
    if code:
        _to_nothing(sys.stderr)
    return int(code)


def _to_nothing(stream: TextIO) -> None:
    """Let what is still written to a stream go nowhere."""
    null = os.open(os.devnull, os.O_WRONLY)
    os.dup2(null, stream.fileno())
