"""The manual page gaugestack(1), written from the commands as they are.

    python tests/docs/manual.py        write gaugestack/man/gaugestack.1 anew

Every command with its arguments, options, defaults and example comes from the
program; what no command says (files, environment, exit status) stands here.
Source of the macros: man(7).
"""

from __future__ import annotations

import re
import sys
import tomllib
from collections import Counter
from pathlib import Path

import typer

sys.path.insert(0, str(Path(__file__).parents[2]))

from gaugestack.cli.boundary import INTERRUPTED, PIPE_CLOSED
from gaugestack.cli.commands import app
from gaugestack.errors import ExitCode

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "gaugestack" / "man" / "gaugestack.1"
OFTEN = 6
"""An option that so many commands have in the same words is told once."""
FOR_ROFF = {
    "\\": r"\e", "-": r"\-", "'": r"\(aq", "`": r"\(ga", "^": r"\(ha", "~": r"\(ti", '"': r"\(dq",
}  # fmt: skip
TOLD_AGAIN = re.compile("again|several|twice")
EXAMPLE_WIDTH = 66
WORD = re.compile(r"""(?:'[^']*'|"[^"]*"|[^\s'"])+""")
MARKED = re.compile(r"\*(?P<bold>[^*]+)\*|_(?P<italic>[^_]+)_")
FRONT = """\
.SH DESCRIPTION
*gaugestack* takes a drawing's call-out to the right angle, to the sine height, to the fewest blocks of
the set you really own, to the order in which to wring them, to how well the angle is known, and to a
card for the box.  It keeps the set's condition between jobs.
.PP
Answers go to standard output, everything else to standard error.  With *--json* an answer is one JSON
object whose field _schema_ names its shape; *gaugestack schema* _NAME_ prints that shape.
.SH WHAT IS WRITTEN
.TP
Lengths
0.6202in, .6202", 15.752mm, 12 µm, 40uin, 5/8in, 1-3/8in.  A bare number takes the set's unit, and the
answer says so.  An inch is 25.4 mm; nothing is rounded on the way.
.TP
Angles
7d7m30s, 7:07:30, 7°7'30", 7.125deg, 0.1rad.
.TP
Tapers
3in/ft, 1:4, 0.25in/in, 50mm/m, 7.5deg/side, 15deg included, '1.25in to 0.75in over 4in', morse 3, flat
1:12.
.TP
Days
2026-11-25.
"""
BACK = """\
.SH FILES
.TP
Set file
YAML, format 1: _format_, _unit_ and _blocks_ are required.  It is never rewritten.  *gaugestack set
copy* makes one, *gaugestack set check* names what is wrong with it, *gaugestack schema set-file* prints
its JSON Schema for editors.
.TP
Ledger
_NAME_.ledger.yaml beside _NAME_.yaml, format 1: one record a line, written by *gaugestack record*.  It
is only ever made longer; a mistake is struck by a *void* record.
.TP
Certificate table
A CSV file that a set file names, or *gaugestack record calibrated --table*.  What its values are is
stated and never guessed.
.TP
Job file
YAML, format 1: _setups_ is required; each has a _height_, an _angle_ or a _taper_.
.TP
File of bars
YAML, format 1: _bars_ is required; sine bars by name.
.TP
Lists
Heights, angles or tapers, one a line; # begins a note.
.PP
A file that is refused is named with line and column, the line with a caret, and what to do.
.SH ENVIRONMENT
.TP
*GAUGESTACK_SET*
The set to take where no *--set* is given: a file or the name of a shipped set; else inch-81.
.TP
*COLUMNS*, *TERM*
The width of the help, and what the terminal can do, as everywhere.
.SH EXIT STATUS
{exits}
.SH CAUTIONS
The tool counts; it does not see the blocks.  Look at every face before wringing, never wring a burr,
and leave no stack wrung overnight.  Tall stacks are heavy and tip.  A sine bar is no work-holding device
for heavy cuts.  Tapers that are not self-holding need positive retention.  A certificate speaks for its
day and temperature; follow the machine maker's instructions and the local codes.
"""
EXITS = {
    ExitCode.YES: "Yes.",
    ExitCode.NO: "An honest no: it cannot be made, the tolerance is not kept, the card no longer holds.",
    ExitCode.USAGE: "An argument cannot be used as it was given.",
    ExitCode.REFUSED_FILE: "A file is refused; its name, line and column are in the message.",
    ExitCode.UNDECIDED: "Undecided: within the limits of the search, or because the doubt covers the limit.",
    ExitCode.OUR_BUG: "A fault of the program, which checks every stack before it shows it.",
    INTERRUPTED: "Interrupted (Ctrl-C).",
    PIPE_CLOSED: "The reader of the answer has gone.",
}


def commands(group, prefix=""):
    """Yield name and command of every command, those of groups with the group's name."""
    for name, command in group.commands.items():
        if hasattr(command, "commands"):
            yield from commands(command, f"{prefix}{name} ")
        else:
            yield f"{prefix}{name}", command


def options(command):
    """Return the options of a command that are shown."""
    return [param for param in command.params if param.opts[0].startswith("-") and not param.hidden]


def arguments(command):
    """Return the arguments of a command."""
    return [param for param in command.params if not param.opts[0].startswith("-")]


def said(text):
    """Return a text of the program as roff: no character is a command of roff."""
    shown = "".join(FOR_ROFF.get(c, c if c.isascii() else f"\\[u{ord(c):04X}]") for c in text)
    return f"\\&{shown}" if shown.startswith(".") else shown


def marked(text):
    """Return a text of this file as roff, *bold* and _italic_; lines that begin with a macro stay."""
    lines = []
    for line in text.splitlines():
        if line.startswith("."):
            lines.append(line)
            continue
        parts, end = [], 0
        for found in MARKED.finditer(line):
            font = "B" if found["bold"] else "I"
            parts += [
                said(line[end : found.start()]),
                f"\\f{font}{said(found['bold'] or found['italic'])}\\fR",
            ]
            end = found.end()
        lines.append("".join([*parts, said(line[end:])]))
    return "\n".join(lines)


def argument_word(param):
    """Return how an argument stands in the synopsis."""
    word = (param.metavar or param.name.upper()).strip("[]{}")
    return word if param.required else f"[{word}]"


def option_words(param):
    """Return how an option is written, its value after it."""
    names = " / ".join((*param.opts, *param.secondary_opts))
    return f"\\fB{said(names)}\\fR" + (f" \\fI{said(param.metavar)}\\fR" if param.metavar else "")


def option_help(param):
    """Return what an option is for, what it is where it is not given, and whether it can be given again."""
    default = "" if param.default in (None, "", False) or param.secondary_opts else f" [{param.default}]"
    again = " May be given again." if param.multiple and not TOLD_AGAIN.search(param.help) else ""
    needed = " Required." if param.required else ""
    return said(f"{param.help}{default}{needed}{again}")


def key(param):
    """Return what makes an option the same in two commands."""
    return option_words(param), option_help(param)


def often(found):
    """Return the options that many commands have in the same words, in the order of the program."""
    counts = Counter(key(param) for command in found.values() for param in options(command))
    return {words: text for words, text in counts if counts[words, text] >= OFTEN}


def tagged(entries):
    """Return a list of tagged paragraphs."""
    return [line for tag, text in entries for line in (".TP", tag, text)]


def command_lines(name, command, common):
    """Return the section of one command."""
    words = "".join(f" \\fI{said(argument_word(param))}\\fR" for param in arguments(command))
    own = [param for param in options(command) if common.get(option_words(param)) != option_help(param)]
    shared = [param for param in options(command) if param not in own]
    yield f".SS \\fBgaugestack {said(name)}\\fR [\\fIOPTIONS\\fR]{words}"
    yield said(command.help)
    yield from tagged(
        (f"\\fI{said(argument_word(p).strip('[]'))}\\fR", said(p.help)) for p in arguments(command)
    )
    yield from tagged((option_words(param), option_help(param)) for param in own)
    if shared:
        yield ".PP"
        yield "Also " + ", ".join(f"\\fB{said(param.opts[0])}\\fR" for param in shared) + "."
    yield ".PP"
    yield "Example:"
    yield ".PP"
    yield ".in +4n"
    yield ".EX"
    yield from map(said, example_lines(command.epilog.removeprefix("Example: ")))
    yield ".EE"
    yield ".in"


def example_lines(example):
    """Return an example in lines a shell takes for one."""
    lines = [""]
    for word in WORD.findall(example):
        if len(lines[-1]) + len(word) >= EXAMPLE_WIDTH:
            lines[-1] += " \\"
            lines.append("   ")
        lines[-1] += f"{' ' if lines[-1] else ''}{word}"
    return lines


def version():
    """Return the version of the checkout."""
    return tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["version"]


def page():
    """Return the whole page."""
    group = typer.main.get_command(app)
    found = dict(commands(group))
    common = often(found)
    exits = "\n".join(tagged((f"\\fB{int(code)}\\fR", said(text)) for code, text in EXITS.items()))
    sections = [line for name, command in found.items() for line in command_lines(name, command, common)]
    lines = [
        '.\\" Written by tests/docs/manual.py from the commands themselves; a change here is lost.',
        f'.TH GAUGESTACK 1 "" "gaugestack {version()}" "User Commands"',
        ".ad l",
        ".SH NAME",
        f"gaugestack \\- {said(group.help.rstrip('.'))}",
        ".SH SYNOPSIS",
        "\\fBgaugestack\\fR \\fICOMMAND\\fR [\\fIOPTIONS\\fR] [\\fIARGUMENTS\\fR]",
        ".br",
        "\\fBgaugestack\\fR [\\fICOMMAND\\fR] \\fB\\-\\-help\\fR",
        ".br",
        "\\fBgaugestack \\-\\-version\\fR",
        marked(FRONT.rstrip()),
        ".SH OPTIONS OF MANY COMMANDS",
        "The commands below name those of these that they take.",
        *tagged(common.items()),
        ".SH COMMANDS",
        *sections,
        marked(BACK.rstrip()).replace(said("{exits}"), exits),
    ]
    return "\n".join(lines) + "\n"


def main():
    """Write the page."""
    PAGE.parent.mkdir(exist_ok=True)
    PAGE.write_text(page(), encoding="ascii")


if __name__ == "__main__":
    main()
