"""What can stand next on a command line: the other side of the shell's Tab key.

    _GAUGESTACK_COMPLETE=zsh gaugestack stack 0.6202in --set inch

The shell hands over the words up to the cursor, the last one unfinished, as
they were typed (bash: the line up to the cursor as one text).  Each line that comes back is a
word, a tab and what it means; a line that begins with a tab names the kind of
file the shell is to list: `yaml` or `any`.  Nothing is ever said on stderr.
"""

from __future__ import annotations

import os
import re
import shlex
import sys
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from gaugestack.cli.completionvalues import values

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

SHELL = "_GAUGESTACK_COMPLETE"
"""The environment variable that holds the asking shell's name."""
SHELLS = ("bash", "zsh", "fish")
_HERE = "\0"
"""Stands for the cursor: no command line holds it."""
_WORD_BREAKS = re.compile(r".*[=:]", re.DOTALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cursor:
    """Where the line stops: the command reached, the words after its name, the unfinished word.

    `before` is what of that word is already settled, such as `--set=`.
    """

    command: Any
    words: tuple[str, ...]
    unfinished: str
    before: str = ""


def complete() -> int:
    """Print what can stand next and return 0; print nothing where anything is amiss."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 2)
    try:
        shell = os.environ[SHELL]
        lines = list(offered(_typed(shell, sys.argv[1:]), shell))
        sys.stdout.reconfigure(encoding="utf-8", errors="strict")  # type: ignore[union-attr]
        sys.stdout.write("".join(f"{line}\n" for line in lines))
        sys.stdout.flush()
    except BaseException:  # noqa: BLE001  (a word is being typed: whatever is wrong is told when it is run)
        os.dup2(nowhere, 1)
    return 0


def _typed(shell: str, words: Sequence[str]) -> list[str]:
    """Return the words typed after the program's name, without the quotes the shell has left on them."""
    if shell == "bash":
        return _split(words[0])[1:]
    if shell == "zsh":
        return [_split(word)[-1] for word in words]
    return [*words[:-1], *(_split(word)[-1] for word in words[-1:])]


def offered(typed: Sequence[str], shell: str) -> Iterator[str]:
    """Yield the lines for the words typed after the program's name, the last one unfinished."""
    *words, last = typed or [""]
    cursor = _cursor(words, last)
    settled = _WORD_BREAKS.match(last) if shell == "bash" else None  # readline replaces only what follows
    for value, means in _choices(cursor):
        if not value:
            yield f"\t{means}"
        elif value.startswith(cursor.unfinished) and value.isprintable():
            whole = cursor.before + value
            word = whole.removeprefix(settled[0]) if settled else whole
            yield f"{word}\t{' '.join(means.split())}"


def _cursor(words: Sequence[str], last: str) -> Cursor:
    """Return where the line stops; options of a group take no value."""
    from typer.main import get_command  # noqa: PLC0415

    from gaugestack.cli.commands import app  # noqa: PLC0415

    command: Any = get_command(app)
    rest = list(words)
    while rest and hasattr(command, "commands"):
        word = rest.pop(0)
        command = command.commands.get(word) or (command if word.startswith("-") else None)
    before, equals, after = last.partition("=")
    if equals and last.startswith("--"):
        return Cursor(command=command, words=(*rest, before), unfinished=after, before=before + equals)
    return Cursor(command=command, words=tuple(rest), unfinished=last)


def _choices(cursor: Cursor) -> Iterable[tuple[str, str]]:
    """Return what may stand at the cursor: commands, options or the values of one of them."""
    if cursor.command is None:
        return []
    pending = _option_in_want(cursor)
    words = cursor.words[: -1 - pending[1]] if pending else cursor.words
    context = cursor.command.make_context("gaugestack", list(words), resilient_parsing=True)
    params = cursor.command.get_params(context)
    if pending:
        return values(pending[0], context.params, cursor.command.name)
    if cursor.unfinished.startswith("-") and "--" not in words:
        return _options(params, words)
    if hasattr(cursor.command, "commands"):
        return [(name, item.get_short_help_str(80)) for name, item in cursor.command.commands.items()]
    argument = _argument_in_want(params, context.params)
    return values(argument, context.params, cursor.command.name) if argument else []


def _option_in_want(cursor: Cursor) -> tuple[Any, int] | None:
    """Return the option the unfinished word belongs to and how many of its values stand already."""
    options = {name: param for param in cursor.command.params for name in param.opts}
    for have, word in enumerate(reversed(cursor.words)):
        param = options.get(word)
        if param is not None and param.param_type_name == "option":
            wants = 0 if param.is_flag else param.nargs
            return (param, have) if have < wants else None
    return None


def _argument_in_want(params: Sequence[Any], given: dict[str, Any]) -> Any | None:  # noqa: ANN401
    """Return the first argument without a value, or the one that takes any number."""
    arguments = [param for param in params if param.param_type_name == "argument"]
    return next((a for a in arguments if a.nargs == -1 or given.get(a.name) is None), None)


def _options(params: Sequence[Any], words: Sequence[str]) -> list[tuple[str, str]]:
    """Return the options that may still be given."""
    return [
        (name, param.help or "")
        for param in params
        if param.param_type_name == "option" and not param.hidden
        if param.multiple or not {*param.opts, *param.secondary_opts} & {*words}
        for name in (*param.opts, *param.secondary_opts)
    ]


def _split(line: str) -> list[str]:
    """Return the words of a line up to the cursor without their quotes; the last may be open or empty."""
    for close in ("", "'", '"'):
        try:
            *words, last = shlex.split(f"{line}{_HERE}{close}")
        except ValueError:
            continue
        return [*words, last.removesuffix(_HERE)]
    return [""]
