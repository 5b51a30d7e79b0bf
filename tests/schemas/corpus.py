"""Commands whose JSON shows every field that an answer can have, run in a directory of their own.

    with Bench() as bench:
        bench.answer("stack 0.6202in")

The examples of the README and of the help, the screens of tests/golden/, and
what those do not show: records, measured tapers, what cannot be made.
"""

from __future__ import annotations

import datetime as dt
import os
import shlex
import shutil
import tempfile
from pathlib import Path
from unittest import mock

import gaugestack
from tests.cli.golden import SCREENS
from tests.cli.shell import gaugestack as run
from tests.docs import documents
from tests.docs.test_documents import table_commands
from tests.docs.test_help_examples import COMMANDS as HELP
from tests.docs.test_help_examples import JOB

WORN = """\
format: 1
name: Worn set
unit: in
standard: ASME B89.1.9
grade: AS-1
blocks:
  - {from: 0.1001, to: 0.1009, step: 0.0001}
  - {from: 0.101, to: 0.149, step: 0.001}
  - {from: 0.100, to: 1.000, step: 0.100}
  - {size: 0.050, pieces: 2, wear: true}
  - {size: 2.500, wear: true, serial: W}
  - {size: 2.000, serial: A}
  - {size: 2.000, serial: B, deviation: -400 µin, trust: own comparison}
  - {size: 0.0625, serial: K}
certificate: {date: 2025-01-01, due: 2026-01-01, uncertainty: {fixed: 2 µin}}
bars:
  - {name: off, centre_distance: 5, error: 80 µin, base_height: 0.25}
"""
SMALL = "format: 1\nname: Small set\nunit: in\nblocks: [{from: 0.1, to: 0.3, step: 0.1}]\n"
WEAR = "format: 1\nname: Wear blocks\nunit: in\nblocks: [{size: 0.05, wear: true, serial: K}]\n"
SQUARE = """\
format: 1
kind: angle
name: Angle blocks
square: true
blocks:
  - {angles: [3d, 9d]}
  - {angle: 1d, serial: A}
"""
FILES = {
    "worn.yaml": WORN,
    "small.yaml": SMALL,
    "wear.yaml": WEAR,
    "angles.yaml": SQUARE,
    "tall.yaml": "format: 1\nname: Tall set\nunit: in\nblocks: [{size: 2}, {size: 3, deviation: +2 µin}]\n",
    "list.csv": "name,height\njaw,0.6202\nfar,0.0503\n",
    "angles.txt": "30deg\n7d7m30s\n0d3m\n",
    "steep.txt": "30deg\n7d7m30s\n",
    "heights.txt": "0.6202\n0.7203\n",
    "monday.yaml": JOB,
    "far.yaml": "format: 1\nbar: 5in\nsetups: [{name: far, height: 0.0004in}, {name: cone, taper: 1:900,"
    " for: compound}]\n",
}
BOATYARD = "--set demo/boatyard-inch.yaml"
READ = "--band 1m --part-length 3in"
RECORDED = (
    "record lent 0.105 --to Ola --back 2026-01-31 --on 2026-01-05 --set worn.yaml",
    "record lent 0.050 --wear --to Ola --on 2026-01-05 --set worn.yaml",
    "record lent 2.000 --serial A --to Ola --on 2026-01-05 --set worn.yaml",
    "record one-good-face 0.107 --on 2026-01-05 --set worn.yaml",
    "record suspect 0.108 --why dented --on 2026-01-05 --set worn.yaml",
    "record used 0.110 0.300 --job 'key way' --on 2026-01-05 --set worn.yaml",
    "record used 0.111 --job 'key way' --on 2026-01-05 --set worn.yaml",
    "record void 7 --why 'another block' --on 2026-01-06 --set worn.yaml",
    *(
        f"record calibrated 0.300 --deviation {deviation} --variation 1uin --uncertainty 2uin"
        f" --trust laboratory-report --source 'report {year}' --on {year}-02-01 --set worn.yaml"
        for year, deviation in ((2023, "1uin"), (2024, "-1uin"), (2025, "-3uin"), (2026, "-5uin"))
    ),
    *(
        f"record calibrated {piece} --deviation -400uin --trust own-comparison --on 2026-02-01"
        " --set worn.yaml"
        for piece in ("2.500 --wear", "2.000 --serial B")
    ),
)
TOLD = (
    "history 0.300 --since 2026-01-01 --on 2026-03-01 --set worn.yaml",
    "history 0.105 --on 2026-03-01 --set worn.yaml",
    "history 0.111 --on 2026-03-01 --set worn.yaml",
    "history 0.050 --wear --on 2026-03-01 --set worn.yaml",
    "set show worn.yaml --on 2026-03-01",
    "set show inch-wear-0.050",
    "set show demo/boatyard-inch.yaml",
    "set check worn.yaml --on 2026-03-01",
    "set check wear.yaml",
    "card check {code} --on 2026-03-01 --set worn.yaml",
    "set matters small.yaml --heights heights.txt",
    "set matters small.yaml --height 0.3in",
    "set buy demo/boatyard-inch.yaml --heights heights.txt",
    "set health worn.yaml --on 2026-03-01",
    "stack 2.0625in --set worn.yaml --without 2.000#A --on 2026-03-01",
    f"stack --targets list.csv {BOATYARD}",
    "angle --targets angles.txt --bar 5in --set inch-81",
    f"angle --targets steep.txt --bar 5in {BOATYARD}",
    "stack 0.4in --proof-stack --set small.yaml",
    "stack 0.2in 0.4in --set small.yaml",
    "stack 0.6202in --set inch-81 --set metric-47 --why",
    f"stack 0.6202in --wear own {BOATYARD}",
    f"angle 30deg --bar 'bench bar' --why --basis certified {BOATYARD}",
    "angle 30deg --bar off --set worn.yaml",
    "angle 0d0m1s --bar off --set worn.yaml",
    f"taper 1:16 --bar 'bench bar' --why --basis certified {BOATYARD}",
    "taper flat 1:100 --bar 5in --why",
    "taper 3in/ft --bar 5in --for compound --tolerance 1uin --set small.yaml",
    "tapers",
    f"from-stack 0.300in 0.400in --bar 5in {BOATYARD}",
    "from-stack 2.000in 3.000in --bar 5in --seat flank --set tall.yaml",
    f"plate 20deg 30deg --bottom 5in --top 5in --views part {BOATYARD}",
    "plate 20deg 30deg --bottom 5in --top 5in --views plate --set small.yaml",
    "angle-blocks 6d --set angles.yaml",
    "angle-blocks 91d --set angles.yaml",
    "angle-blocks 5d --most 1 --set angles.yaml",
    "angle-blocks 7d30m --set angles.yaml",
    "job far.yaml --set small.yaml",
    "correct 30deg --bar 5in --half-error 1m --for compound --part-length 3in",
    "correct 30deg --bar 5in --rise 0.0006in --span 3in --set small.yaml",
    "correct flat 1:12 --bar 5in --rise 0.0006in --span 3in",
    f"lathe swing 1:20 --travel 3in --reading 0.0770in --along carriage {READ} --radius 5in",
    "lathe offset 1:20 --between 10in --length 3in --measured 0.25in",
    f"lathe collars 1:20 --collars 1.1in 1in --spacing 2in {READ}",
    f"measure rolls morse 3 --end-diameter 0.778in --roll 0.25in --stack 2in --readings 1.3in 1.4in {READ}",
    f"measure rolls morse 3 --end-diameter 0.778in --roll 0.25in --stack 2in {BOATYARD}",
    f"measure balls 1:10 --large 40mm --small 32mm --tops 8mm -76mm {READ}",
    "measure balls 1:10 --large 40mm --small 32mm --mouth 50mm",
    f"measure bar 1:10 --bar 5in --heights 1in 1.5in {READ}",
    f"measure bar 1:10 --bar 5in --low-stack 1in {BOATYARD}",
    "measure discs 15deg --discs 1.5in 1in",
    "proof 30deg --span 3in --reversal 0.001in 0.002in",
    "proof flat 1:12 --span 3in",
    f"budget stack 0.6202in --least-uncertainty {BOATYARD}",
    f"budget stack 0.6202in --within-uncertainty 30uin --k 2 --drawing-tolerance 50uin {BOATYARD}",
    f"budget stack 0.0503in {BOATYARD}",
    f"budget angle 30deg --bar 5in --over 3in {BOATYARD}",
    f"budget angle 0d0m1s --bar 5in --most 1 --basis nominal {BOATYARD}",
    "measure bar 1:10 --bar 5in --low-stack 1in --set small.yaml",
    "measure discs 15deg --discs 1.5in 1in --set small.yaml",
    f"lathe collars 1:20 --collars 1.3in 1in --spacing 2in {READ}",
)


def examples():
    """Return the commands shown elsewhere, those that record or copy out of the way."""
    shown = [shlex.split(command) for command in table_commands()]
    shown += [shlex.split(command.epilog.removeprefix("Example: gaugestack ")) for command in HELP.values()]
    shown += list(SCREENS.values())
    kept = {shlex.join(command): command for command in shown}
    return [command for command in kept.values() if has_json(command)]


def has_json(command):
    """Tell whether a command answers as JSON: cards, schemas and scripts of a shell do not."""
    found = next(found for name, found in HELP.items() if f"{' '.join(command)} ".startswith(f"{name} "))
    return any("--json" in param.opts for param in found.params)


class Bench:
    """A directory that holds what the commands speak of; left when the test session ends."""

    def __init__(self):
        """Furnish the directory."""
        self._directory = tempfile.TemporaryDirectory()
        self.path = Path(self._directory.name)
        documents.furnish(self.path, (documents.ROOT / "README.md").read_text(encoding="utf-8"))
        for name, text in FILES.items():
            (self.path / name).write_text(text, encoding="utf-8")
        stock = gaugestack.load([str(self.path / "worn.yaml")], on=dt.date(2026, 3, 1))
        self._code = gaugestack.fingerprint(stock)

    def answer(self, *arguments):
        """Return the JSON a command answers, as `done` runs it."""
        done = self.done(*arguments)
        return done.json if done.out.startswith("{") else {"schema": "none", "said": done.out + done.err}

    def done(self, *arguments):
        """Return how a command ended with --json; `{code}` is that of worn.yaml with nothing recorded."""
        words = self.words(arguments)
        self.issue(words)
        plain = {key: value for key, value in os.environ.items() if not key.startswith("GAUGESTACK_")}
        before = Path.cwd()
        os.chdir(self.path)
        try:
            with mock.patch.dict(os.environ, {**plain, "COLUMNS": "80"}, clear=True):
                return run(*words, "--json")
        finally:
            os.chdir(before)

    def words(self, arguments):
        """Return a command line with the code of worn.yaml in its place."""
        return tuple(word.format(code=self._code) for word in arguments)

    def issue(self, arguments):
        """Put a set of its own, or none, where the command looks for one."""
        own = self.path / "bench.yaml"
        if "bench.yaml" not in arguments:
            return
        (self.path / "bench.ledger.yaml").unlink(missing_ok=True)
        own.unlink(missing_ok=True)
        if tuple(arguments[:2]) != ("set", "copy"):
            shutil.copy(documents.ROOT / "sets" / "inch-81.yaml", own)

    def close(self):
        """Take the directory away."""
        self._directory.cleanup()


def commands():
    """Return every command, in the order they must run."""
    return [*map(tuple, examples()), *(tuple(shlex.split(text)) for text in (*RECORDED, *TOLD))]
