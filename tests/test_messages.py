"""The search for messages finds what it should, and what no test says is noticed."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

from tests.messages import Message, Search, Watch, _Noting

ROOT = Path(__file__).parents[1]
SOURCE = """
HINT = "write it like this"
_RULES = (one_rule, other_rule)

class Fault(Exception):
    def __init__(self, text, sentence, *, hint=""):
        pass

def refuse(text, said):
    raise Fault(text, said, hint=HINT)

def first(text):
    refuse(text, "it is empty" if not text else f"{text} is too long")

def second(text):
    said = "one of two" if text else "the other of two"
    refuse("no message here", said)

def third(text):
    for rule in _RULES:
        for sentence in rule(text):
            raise Fault(text, sentence)

def one_rule(text):
    yield "a rule is broken"

def other_rule(text):
    return ["another rule is broken", "word"]

def plain(text):
    return "an answer of no error"
"""


def found(source):
    return {message.text.strip("\"'") for message in Search({"a.py": ast.parse(source)}).messages()}


def test_every_text_that_can_be_a_sentence_or_a_hint_is_found():
    assert found(SOURCE) == {
        "write it like this",
        "it is empty",
        "f'{text} is too long",
        "one of two",
        "the other of two",
        "a rule is broken",
        "another rule is broken",
    }


def test_a_private_function_of_another_module_is_not_meant():
    one = "def _said(sentence):\n    raise Fault(sentence=sentence)\n"
    other = "def go():\n    _said('only in its own module')\n"
    search = Search({"one.py": ast.parse(one), "other.py": ast.parse(other)})

    assert search.messages() == []


def test_a_note_changes_no_text_and_counts_the_branch_that_was_taken():
    source = "def go(text):\n    raise Fault(sentence='one of two' if text else 'the other of two')\n"
    search = Search({"a.py": ast.parse(source)})
    wanted = {
        (leaf.lineno, leaf.col_offset, type(leaf).__name__): place for place, leaf in enumerate(search.leaves)
    }
    tree = ast.fix_missing_locations(_Noting(wanted).visit(ast.parse(source)))
    said = []

    class Fault(Exception):  # noqa: N818
        def __init__(self, sentence):
            self.sentence = sentence

    space = {"Fault": Fault, "_message_said": lambda number, text: said.append(number) or text}
    exec(compile(tree, "a.py", "exec"), space)  # noqa: S102  # our own few lines
    with pytest.raises(Fault) as raised:
        space["go"]("")

    assert raised.value.sentence == "the other of two"
    assert [list(search.leaves)[number].value for number in said] == ["the other of two"]


def test_the_package_has_messages_of_every_layer():
    areas = {message.file.split("/")[1] for message in Watch().every}

    assert {
        "errors.py",
        "lengths.py",
        "angles",
        "inventory",
        "stacks",
        "uncertainty",
        "answers",
        "cli",
    } <= areas


def test_a_message_of_a_table_counts_by_its_words_in_the_tests():
    message = Message(file="a.py", line=1, column=0, text="f'{x} is too long by {y}'", standing=True)

    assert message.words == " is too long by "


def test_a_run_that_leaves_a_message_unsaid_fails():
    done = subprocess.run(
        [
            sys.executable,
            "-m",
            "pytest",
            "-q",
            "--messages",
            "-p",
            "no:cacheprovider",
            "tests/test_lengths.py",
        ],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )

    assert done.returncode == 1
    assert "gaugestack/angles/angle.py" in done.stdout
    assert "gaugestack/lengths.py" not in done.stdout.partition("said in no test")[2]
