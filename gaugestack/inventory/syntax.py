"""The YAML parser's complaints in words for the bench.

    sentence, hint = syntax_sentence("did not find expected ',' or '}'", before="  - {from: 0.1 to:")

Knows the phrases of both parsers of PyYAML, the one in C and the one in
Python.  Imports neither.
"""

from __future__ import annotations

_INDENT = "lines of one list or mapping begin in the same column"
_QUOTE = "put the text in quotes: 'like this'"
_STRAY = "this line fits neither what stands above it nor a new key"
_TAB = "a tab: indent with spaces"
_PHRASES: dict[str, tuple[str, str]] = {
    "tab character": (_TAB, ""),
    "'\\t'": (_TAB, ""),
    "expected ',' or '}'": (
        "a comma or a closing } is missing before this",
        "write {a: 1, b: 2}",
    ),
    "expected ',' or ']'": ("a comma or a closing ] is missing before this", "write [1, 2]"),
    "mapping values are not allowed": (
        "a colon that cannot stand here",
        f"{_INDENT}; a text with a colon needs quotes",
    ),
    "could not find expected ':'": ("a key without its colon", "write key: value"),
    "found unexpected end of stream": ("the file ends inside a quoted text", "close the quote"),
    "unknown escape character": ("this backslash means nothing", "single quotes leave a backslash as it is"),
    "cannot start any token": ("no value can begin with this character", _QUOTE),
    "entries are not allowed": ("a list cannot begin here", "begin the list on a line of its own"),
    "expected key": (_STRAY, _INDENT),
    "expected '-' indicator": ("a list item or the end of the list is wanted here", _INDENT),
    "<block end>": (_STRAY, _INDENT),
    "node content": ("a value is missing here", ""),
}


def syntax_sentence(problem: str, *, before: str = "", opened: int = 0) -> tuple[str, str]:
    """Return our sentence and hint for a parser's `problem`.

    `before` is the line up to and with the wrong character, `opened` the line
    where the structure began (0 if that is not known).
    """
    if "\t" in before and not before.strip():
        return _TAB, ""
    for phrase, (sentence, hint) in _PHRASES.items():
        if phrase in problem:
            return sentence, _with_opening(hint, sentence, opened)
    return f"not readable as YAML: {problem}", ""


def _with_opening(hint: str, sentence: str, opened: int) -> str:
    """Name the line where an unclosed bracket or quote was opened."""
    if opened and ("closing" in sentence or "quoted" in sentence):
        return f"{hint}; opened in line {opened}"
    return hint
