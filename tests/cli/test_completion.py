"""The Tab key: what is offered, as each shell asks for it, and in the shells that are here."""

import os
import pty
import select
import shutil
import subprocess
import sys
import time
from typing import get_args

import pytest

from gaugestack.angles.readings_proofs import Kind as ProofKind
from gaugestack.angles.taper import Use
from gaugestack.answers.fromstack import SEATS
from gaugestack.answers.lathe import SCALES
from gaugestack.answers.onpart import ON_PART
from gaugestack.answers.plate import VIEWS
from gaugestack.blocks import Basis
from gaugestack.cards.papersize import read_paper
from gaugestack.cli.cardcommands import _KINDS
from gaugestack.cli.cardoutput import FORMS
from gaugestack.cli.completioncommand import SCRIPTS
from gaugestack.cli.completionvalues import WORDS
from gaugestack.inventory.certtablehead import ValueKind
from gaugestack.inventory.events import TRUSTS
from gaugestack.inventory.jobfile import Order
from gaugestack.inventory.shipped import shipped_names
from tests.cli.shell import gaugestack

HERE = [shell for shell in SCRIPTS if shutil.which(shell)]
HOSTILE = "$(touch stolen) `x`"
QUOTED = "\\$\\(touch\\ stolen\\)\\ \\`x\\`"
BARS = f"""
bars:
  - {{name: bench bar, centre_distance: 5in}}
  - {{name: "{HOSTILE}", centre_distance: 10in}}
"""


@pytest.fixture
def bench(tmp_path, monkeypatch):
    """Stand in a directory with a set file that describes bars, one that is refused, a text."""
    assert gaugestack("set", "copy", "inch-36", tmp_path / "mine.yaml").code == 0
    text = (tmp_path / "mine.yaml").read_text(encoding="utf-8")
    (tmp_path / "mine.yaml").write_text(text + BARS, encoding="utf-8")
    (tmp_path / "broken.yaml").write_text("format: 1\nblocks: [\n", encoding="utf-8")
    (tmp_path / "words.txt").write_text("", encoding="utf-8")
    (tmp_path / "sheets").mkdir()
    monkeypatch.chdir(tmp_path)
    return tmp_path


def asked(shell, *typed, **variables):
    """Return what a shell is told, as it asks: in the environment, with the words as arguments."""
    kept = {key: value for key, value in os.environ.items() if not key.startswith("GAUGESTACK_")}
    done = subprocess.run(
        [sys.executable, "-m", "gaugestack", *typed],
        env={**kept, "_GAUGESTACK_COMPLETE": shell, **variables},
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")
    return [tuple(line.split("\t")) for line in done.stdout.splitlines()]


def words(*typed, **variables):
    """Return the words offered to zsh; files to be listed stand as `:kind`."""
    return [value or f":{means}" for value, means in asked("zsh", *typed, **variables)]


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        (["la"], ["lathe"]),
        (["lathe", "o"], ["offset"]),
        (["stack", "1in", "--bas"], ["--basis"]),
        (["stack", "1in", "--basis", ""], ["nominal", "certified"]),
        (["stack", "1in", "--basis=c"], ["--basis=certified"]),
        (["stack", "1in", "--set", "metric-4"], ["metric-45", "metric-46", "metric-47"]),
        (["set", "show", "inch-8"], ["inch-81", "inch-83", "inch-88"]),
        (["set", "copy", "inch-8"], ["inch-81", "inch-83", "inch-88"]),
        (["angle-blocks", "5d", "--set", "angle-13"], ["angle-13"]),
        (["angle", "5d", "--bar", "10"], ["10in", "100mm"]),
        (["taper", "mo"], ["morse"]),
        (["taper", "brown", "and", "s"], ["sharpe"]),
        (["tapers", "morse", "4"], ["4", "4-1/2"]),
        (["card", "setup", "t"], ["taper"]),
        (["card", "setup", "taper", "jar"], ["jarno"]),
        (["card", "setup", "angle", "jar"], []),
        (["record", "cal"], ["calibrated"]),
        (["stack", "1in", "--without", "0.100"], ["0.100in", "0.1001in", "0.1002in"]),
        (["stack", "1in", "--set", "metric-46", "--with", "1.00"], ["1.005mm"]),
        (["stack", "1in", "--wear", "o"], ["own"]),
        (["budget", "stack", "1in", "--part-material", "br"], ["brass", "bronze"]),
        (["measure", "discs", "--discs", "1in", ""], []),
        (["stack", ""], []),
        (["completion", "z"], ["zsh"]),
        (["nothing", ""], []),
        (["stack", "1in", "--nothing", ""], []),
    ],
    ids=" ".join,
)
def test_what_may_stand_next_is_offered(typed, offered):
    found = [word for word in words(*typed) if not word.startswith(":")]

    assert [word for word in found if word in offered] == offered or set(found) >= set(offered)
    assert bool(found) == bool(offered)
    assert all(word.startswith(typed[-1]) for word in found)


def test_all_shipped_sets_are_offered_and_set_files():
    assert words("stack", "1in", "--set", "") == [*shipped_names(), ":yaml"]


@pytest.mark.parametrize(
    ("typed", "files"),
    [
        (["job", ""], [":yaml"]),
        (["angle", "5d", "--bars", ""], [":yaml"]),
        (["stack", "1in", "--svg", ""], [":any"]),
        (["card", "check", ""], [":any"]),
        (["set", "copy", "inch-81", ""], [":any"]),
    ],
    ids=" ".join,
)
def test_files_are_left_to_the_shell(typed, files):
    assert words(*typed) == files


def test_an_option_is_offered_once_unless_it_may_be_repeated():
    found = words("stack", "1in", "--set", "inch-81", "--most", "3", "--")

    assert "--set" in found
    assert "--most" not in found
    assert "--json" in found


def test_commands_and_options_say_what_they_are():
    assert asked("fish", "lathe", "sw") == [
        ("swing", "Swing the compound slide, and read it with an indicator.")
    ]
    assert asked("zsh", "stack", "1in", "--json") == [("--json", "Answer as JSON.")]


@pytest.mark.usefixtures("bench")
def test_described_bars_are_offered_as_they_are_named():
    described = ["5in", "10in", "100mm", "200mm", "bench bar", HOSTILE]

    assert words("angle", "5d", "--set", "mine.yaml", "--bar", "") == described
    assert words("angle", "5d", "--bar", "", GAUGESTACK_SET="mine.yaml") == described
    assert words("angle", "5d", "--set", "mine.yaml", "--bar", "'be") == ["bench bar"]
    assert words("angle", "5d", "--set", "mine.yaml", "--bar", "bench\\ b") == ["bench bar"]


def test_the_bars_of_a_bar_file_are_offered(bench):
    text = "format: 1\nbars:\n  - {name: plate in the corner, centre_distance: 10in}\n"
    (bench / "bars.yaml").write_text(text, encoding="utf-8")

    assert words("angle", "5d", "--bars", "bars.yaml", "--bar", "pl") == ["plate in the corner"]


def test_bash_gets_what_follows_its_last_word_break():
    assert asked("bash", "gaugestack stack 1in --set=metric-4")[0] == ("metric-45", "")
    assert asked("bash", "gaugestack card setup taper 'ja") == [("jarno", ""), ("jacobs", "")]
    assert asked("bash", "gaugestack la") == asked("zsh", "la")


@pytest.mark.parametrize(
    "name", ["nowhere.yaml", "no-such-set", "broken.yaml", "sheets", "words.txt", "/dev/zero", "\udcff"]
)
@pytest.mark.parametrize("option", ["--bar", "--without"])
@pytest.mark.usefixtures("bench")
def test_a_set_that_cannot_be_read_is_quiet(name, option):
    usual = ["5in", "10in", "100mm", "200mm"] if option == "--bar" else []

    assert words("angle", "5d", "--set", name, option, "") == usual
    assert words("angle", "5d", option, "", GAUGESTACK_SET=name) == usual
    assert words("angle", "5d", "--bars", name, "--bar", "")[:4] == ["5in", "10in", "100mm", "200mm"]


def test_a_pipe_in_place_of_a_set_is_not_waited_for(bench):
    os.mkfifo(bench / "pipe.yaml")

    assert words("stack", "1in", "--set", "pipe.yaml", "--without", "") == []


@pytest.mark.parametrize("shell", ["powershell", "bash_source", ""])
def test_a_shell_that_is_not_known_is_told_nothing_wrong(shell):
    asked(shell, "la")


def test_bash_that_hands_over_nothing_gets_nothing():
    assert asked("bash") == []


def test_the_fixed_words_are_those_the_commands_take():
    taken = {
        "--basis": Basis,
        "--for": Use,
        "--order": Order,
        "--form": FORMS,
        "--views": VIEWS,
        "--seat": SEATS,
        "--lies": ON_PART,
        "--scale": SCALES,
        "--kind": get_args(ProofKind),
        "--value": ValueKind,
        "--trust": [trust.value.replace(" ", "-") for trust in TRUSTS],
        "kind": _KINDS,
        "shell": SCRIPTS,
    }

    for name, known in taken.items():
        assert set(WORDS[name].split()) == {str(word) for word in known}, name
    for paper in WORDS["--paper"].split():
        assert read_paper(paper)
    for way in WORDS["--along"].split():
        reading = ("--travel", "3in", "--reading", "0.18in", "--along", way)
        assert gaugestack("lathe", "swing", "morse", "3", *reading).code == 0
    assert set(WORDS) == {*taken, "--paper", "--along"}


@pytest.mark.parametrize("shell", SCRIPTS)
def test_the_script_of_a_shell_is_printed(shell):
    done = gaugestack("completion", shell)

    assert (done.code, done.out, done.err) == (0, SCRIPTS[shell], "")


def test_a_shell_without_a_script_is_refused():
    done = gaugestack("completion", "zhs")

    assert (done.code, done.out) == (2, "")
    assert "did you mean" in done.err


@pytest.mark.parametrize("shell", HERE)
def test_a_shell_can_read_its_script(shell):
    option = "--no-execute" if shell == "fish" else "-n"
    done = subprocess.run([shell, option], input=SCRIPTS[shell], capture_output=True, text=True, check=False)

    assert (done.returncode, done.stderr) == (0, "")


BASH = """
source /dev/stdin <<< "$SCRIPT"
COMP_LINE=$LINE COMP_POINT=${#LINE}
read -ra COMP_WORDS <<< "$WORDS_OF_LINE"
COMP_CWORD=$((${#COMP_WORDS[@]} - 1))
_gaugestack gaugestack
printf '%s\\n' "${COMPREPLY[@]}"
"""


def in_bash(bench, line, words_of_line):
    """Return what bash would offer; bash splits words at = and :, so they come apart."""
    done = subprocess.run(
        ["bash", "--norc", "-c", BASH],
        env={
            "PATH": path_with_program(bench),
            "SCRIPT": SCRIPTS["bash"],
            "LINE": line,
            "WORDS_OF_LINE": words_of_line,
        },
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.stderr in ("", "bash: line 1: compopt: not currently executing completion function\n")
    return done.stdout.splitlines()


def path_with_program(bench):
    """Return a search path on which this checkout's command stands first."""
    (bench / "bin").mkdir(exist_ok=True)
    program = bench / "bin" / "gaugestack"
    program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m gaugestack "$@"\n', encoding="utf-8")
    program.chmod(0o755)
    return f"{program.parent}:{os.environ['PATH']}"


@pytest.mark.parametrize(
    ("line", "words_of_line", "offered"),
    [
        ("gaugestack la", "gaugestack la", ["lathe"]),
        ("gaugestack stack 1in --set m", "gaugestack stack 1in --set m", ["mine.yaml"]),
        ("gaugestack stack 1in --set=mine", "gaugestack stack 1in --set = mine", ["mine.yaml"]),
        ("gaugestack stack 1in --svg w", "gaugestack stack 1in --svg w", ["words.txt"]),
        ("gaugestack job b", "gaugestack job b", ["bin", "broken.yaml"]),
        ("gaugestack angle 5d --set mine.yaml --bar b", "gaugestack --bar b", ["bench\\ bar"]),
        ("gaugestack angle 5d --set mine.yaml --bar '$", "gaugestack --bar '$", [HOSTILE]),
        ("gaugestack angle 5d --set mine.yaml --bar \\$", "gaugestack --bar $", [QUOTED]),
    ],
)
def test_bash_offers_what_it_was_told_and_lists_the_files(line, words_of_line, offered, bench):
    found = in_bash(bench, line, words_of_line)

    assert sorted(word for word in found if not word.startswith("metric-")) == sorted(offered)
    assert not (bench / "stolen").exists()


STARTS = {
    "bash": (["bash", "--norc", "--noprofile", "-i"], 'eval "$(gaugestack completion bash)"'),
    "zsh": (
        ["zsh", "-f", "-i"],
        'autoload -Uz compinit; compinit -D -u; eval "$(gaugestack completion zsh)"',
    ),
    "fish": (["fish", "--no-config", "-i"], "gaugestack completion fish | source"),
}


class _Typist:
    """A shell on a terminal of its own, and what it has shown."""

    def __init__(self, shell, bench):
        words, self.install = STARTS[shell]
        environment = {"PATH": path_with_program(bench), "TERM": "xterm", "HOME": str(bench), "PS1": "> "}
        self.process, self.terminal = pty.fork()
        if not self.process:
            os.chdir(bench)
            os.execvpe(words[0], words, environment)  # noqa: S606  (a shell of our choice)

    def type(self, text, until, seconds=60):
        """Type, and return whether the text awaited is shown in time."""
        os.write(self.terminal, text.encode())
        shown, end = b"", time.monotonic() + seconds
        while until.encode() not in shown and time.monotonic() < end:
            if select.select([self.terminal], [], [], 0.2)[0]:
                shown += os.read(self.terminal, 65536)
        return until.encode() in shown

    def leave(self):
        """End the shell."""
        os.kill(self.process, 9)
        os.waitpid(self.process, 0)
        os.close(self.terminal)


@pytest.mark.parametrize("shell", HERE)
@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("gaugestack lathe sw\t", "swing"),
        ("gaugestack stack 1in --set=mi\t", "mine.yaml"),
        ("gaugestack stack 1in --set mi\t", "mine.yaml"),
        ("gaugestack angle 5d --set mine.yaml --bar b\t", "bench\\ bar"),
    ],
)
def test_the_tab_key_of_a_shell_completes_the_word(shell, typed, shown, bench):
    typist = _Typist(shell, bench)
    try:
        assert typist.type(f"{typist.install}; echo read''y\n", "ready")
        assert typist.type(typed, shown)
    finally:
        typist.leave()
    assert not (bench / "stolen").exists()
