"""Bad input: each a sentence, an exit code, nothing on stdout, no traceback, and soon."""

import time

import pytest

from tests.cli.shell import gaugestack

SECONDS = 2
HEAD = "format: 1\nunit: in\nblocks:\n"
BOMB = "".join(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}' if n else '1'] * 9)}]\n" for n in range(9))
ARGUMENTS = {
    "a height of zero": (["stack", "0"], "zero"),
    "a height below zero": (["stack", "--", "-1in"], "below zero"),
    "an absurdly large height": (["stack", "99999999in"], "longer than"),
    "a height with far too many digits": (["stack", "1" * 5000], "HEIGHT"),
    "a height finer than a picometre": (["stack", "0.00000000000001in"], "HEIGHT"),
    "a height that is no number": (["stack", "abc"], "no number"),
    "a height that is NaN": (["stack", "nan"], "no number"),
    "an infinite height": (["stack", "inf"], "HEIGHT"),
    "an empty height": (["stack", ""], "empty"),
    "a decimal comma": (["stack", "0,62"], "comma"),
    "a power of ten": (["stack", "1e-3in"], "powers of ten"),
    "two heights in one argument": (["stack", "0.1 0.2"], "a second number"),
    "an unknown unit": (["stack", "3 furlongs"], "furlongs"),
    "no height at all": (["stack"], "HEIGHT"),
    "an angle of zero": (["angle", "0", "--bar", "5in"], "zero"),
    "an angle below zero": (["angle", "--bar", "5in", "--", "-5"], "zero"),
    "an angle of 90 degrees": (["angle", "90", "--bar", "5in"], "90"),
    "an angle above 90 degrees": (["angle", "91d", "--bar", "5in"], "90"),
    "an angle of more than a turn": (["angle", "1e9", "--bar", "5in"], "ANGLE"),
    "an angle that is NaN": (["angle", "nan", "--bar", "5in"], "finite"),
    "an empty angle": (["angle", "", "--bar", "5in"], "empty"),
    "an angle with 61 minutes": (["angle", "5d61m", "--bar", "5in"], "ANGLE"),
    "an angle without a bar": (["angle", "5deg"], "--bar"),
    "an unknown bar": (["angle", "5deg", "--bar", "banana"], "known: 100mm"),
    "a bar of zero": (["angle", "5deg", "--bar", "0in"], "--bar"),
    "a bare angle as a taper": (["taper", "7.5deg", "--bar", "5in"], "7.5deg/side"),
    "an empty taper": (["taper", "", "--bar", "5in"], "CALLOUT"),
    "a taper that is none": (["taper", "banana", "--bar", "5in"], "CALLOUT"),
    "a taper with a second slash": (["taper", "3in/ft/ft", "--bar", "5in"], "CALLOUT"),
    "an unknown shipped set": (["stack", "1in", "--set", "inch-82"], "did you mean 'inch-8"),
    "an unknown use": (["taper", "1:4", "--bar", "5in", "--for", "lathe"], "compound"),
    "an unknown basis": (["stack", "1in", "--basis", "real"], "nominal"),
    "a tolerance below zero": (["stack", "1in", "--tolerance", "-1"], "below zero"),
    "a count of no blocks": (["stack", "1in", "--most", "0"], "--most"),
    "a count that is no number": (["stack", "1in", "--most", "few"], "--most"),
    "a block kept out that is not there": (["stack", "1in", "--without", "0.777"], "--without"),
    "a wear pair that is not there": (["stack", "1in", "--wear", "own"], "pair"),
    "an unknown command": (["stak", "1in"], "stack"),
    "an unknown option": (["stack", "1in", "--bogus"], "--bogus"),
}
FILES = {
    "an empty file": ("", "empty"),
    "another format": ("format: 2\n", "format '2'"),
    "a list": ("- 1\n", "keys and values"),
    "a YAML bomb": (BOMB + HEAD + "  - {size: 0.1}\n", "anchor"),
    "a key given twice": ("format: 1\nunit: in\nunit: mm\nblocks:\n  - {size: 0.1}\n", "unit"),
    "a size given twice": (HEAD + "  - {size: 0.1}\n  - {size: 0.100}\n", "0.1"),
    "a block without a size": (HEAD + "  - {note: the big one}\n", "needs a size"),
    "a step of zero": (HEAD + "  - {from: 0.1, to: 0.2, step: 0}\n", "step"),
    "a range that does not divide": (HEAD + "  - {from: 0.1, to: 0.2, step: 0.03}\n", "left over"),
    "units mixed": (HEAD + "  - {size: 2.54mm}\n", "mm"),
    "a size that is no number": (HEAD + "  - {size: thick}\n", "no number"),
    "10 000 blocks in a range": (HEAD + "  - {from: 0.1, to: 1.0999, step: 0.0001}\n", "at most"),
    "no blocks": ("format: 1\nunit: in\nblocks: []\n", "blocks"),
    "an unknown key": (HEAD + "  - {size: 0.1}\nclour: red\n", "clour"),
}
COMMANDS = [["stack", "1in", "--set"], ["set", "show"], ["set", "check"]]


def timed(*arguments):
    """Run a command that must be refused soon."""
    begin = time.perf_counter()
    done = gaugestack(*arguments)
    assert time.perf_counter() - begin < SECONDS
    assert done.out == ""
    assert "Traceback" not in done.err
    return done


@pytest.mark.parametrize("case", ARGUMENTS)
def test_an_argument_is_refused_with_a_sentence_and_exit_code_2(case):
    arguments, said = ARGUMENTS[case]
    done = timed(*arguments)

    assert done.code == 2
    assert said in done.err


@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
@pytest.mark.parametrize("case", FILES)
def test_a_file_is_refused_by_name_with_a_sentence_and_exit_code_3(case, command, set_file):
    text, said = FILES[case]
    path = set_file(text)
    done = timed(*command, path)

    assert done.code == 3
    assert done.err.startswith(f"{path}:")
    assert said in done.err


def test_10_000_blocks_written_one_by_one_are_refused_soon(set_file):
    lines = (f"  - {{size: {0.1 + n / 100000:.5f}}}\n" for n in range(10_000))
    done = timed("set", "check", set_file(HEAD + "".join(lines)))

    assert done.code == 3
    assert "at most" in done.err


def test_a_missing_file_is_refused(tmp_path):
    done = timed("stack", "1in", "--set", tmp_path / "gone.yaml")

    assert (done.code, done.err) == (3, f"{tmp_path / 'gone.yaml'}:1:1: there is no such file\n")


def test_a_directory_is_refused(tmp_path):
    done = timed("stack", "1in", "--set", tmp_path)

    assert done.code == 3
    assert "directory" in done.err


def test_a_binary_file_is_refused(tmp_path):
    path = tmp_path / "set.yaml"
    path.write_bytes(bytes(range(256)))
    done = timed("stack", "1in", "--set", path)

    assert done.code == 3
    assert "binary" in done.err


def test_a_file_far_too_large_is_refused(set_file):
    done = timed("stack", "1in", "--set", set_file("#" * (2 << 20)))

    assert done.code == 3
    assert "larger than" in done.err


def test_every_fault_of_a_file_is_said_at_once(set_file):
    done = timed("set", "check", set_file(HEAD + "  - {size: thick}\n  - {size: thin}\nclour: red\n"))

    assert [done.err.count(word) for word in ("thick", "thin}", "'clour'")] == [1, 1, 1]


def test_a_broken_bar_file_is_refused_by_name(set_file):
    path = set_file("format: 1\nbars:\n  - {name: long}\n", "bars.yaml")
    done = timed("angle", "5deg", "--bar", "long", "--bars", path)

    assert done.code == 3
    assert "bars.yaml:3:" in done.err


def test_words_of_a_file_cannot_move_the_cursor(set_file):
    done = timed("set", "check", set_file('format: 1\nname: "a\\e[2Jb"\nunit: in\nblocks: [{size: 0.1}]\n'))

    assert done.code == 3
    assert "\x1b" not in done.err
