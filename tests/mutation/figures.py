"""Change one figure of a module at a time, outside its functions, and tell which no test noticed.

    python tests/mutation/figures.py grades                       the tables of an area
    python tests/mutation/figures.py angles --only '*/published_rows.py'

mutmut changes functions only; what a table prints stands outside them.  A
number becomes the next one, a text with a digit has its last digit raised.
Every figure is tried in a process of its own, forked before the package is
imported, and nothing is written to the checkout.
"""

import argparse
import ast
import importlib.abc
import importlib.util
import os
import sys
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from privatecopy import AREAS, ROOT, modules_of


class _Changed(importlib.abc.SourceLoader, importlib.abc.MetaPathFinder):
    """Imports one module from a changed source."""

    def __init__(self, path, source):
        self.path, self.source = path, source
        self.name = ".".join(path.relative_to(ROOT).with_suffix("").parts)

    def find_spec(self, name, _path, _target=None):
        return importlib.util.spec_from_loader(name, self) if name == self.name else None

    def get_filename(self, _name):
        return str(self.path)

    def get_data(self, _path):
        return self.source.encode("utf-8")


def main():
    """Try every figure of the modules asked for; 1 where one went unnoticed."""
    asked = _arguments()
    os.chdir(ROOT)
    tests = asked.tests or AREAS[asked.area]["tests"]
    unnoticed = 0
    for name in modules_of(AREAS[asked.area], asked.only):
        unnoticed += _try_module(ROOT / name, tests)
    return 1 if unnoticed else 0


def figures_of(source):
    """Return line, column, end and what it becomes of every figure outside functions and docstrings."""
    lines = source.splitlines()
    found = []
    for node in _constants(ast.parse(source)):
        written = lines[node.lineno - 1].encode()[node.col_offset : node.end_col_offset].decode()
        changed = _changed(node.value, written)
        if changed and node.lineno == node.end_lineno:
            found.append((node.lineno, node.col_offset, node.end_col_offset, changed))
    return found


def _arguments():
    parser = argparse.ArgumentParser(description="Change the figures of an area's tables one at a time.")
    parser.add_argument("area", choices=AREAS)
    parser.add_argument("--only", action="append", default=[], metavar="PATTERN", help="only these modules")
    parser.add_argument("--tests", action="append", default=[], metavar="PATH", help="only these tests")
    return parser.parse_args()


def _constants(node):
    """Yield the literals that are reckoned with on import."""
    skipped = (ast.FunctionDef, ast.Lambda, ast.Import, ast.ImportFrom)
    for child in ast.iter_child_nodes(node):
        if isinstance(child, skipped) or (
            isinstance(child, ast.Expr) and isinstance(child.value, ast.Constant)
        ):
            continue
        if isinstance(node, ast.AnnAssign) and child is node.annotation:
            continue
        if isinstance(child, ast.Constant):
            yield child
        yield from _constants(child)


def _changed(value, written):
    """Return what a literal becomes, or nothing for one that is no figure."""
    if isinstance(value, bool) or not isinstance(value, (int, float, str)):
        return ""
    if not isinstance(value, str):
        return repr(value + 1)
    digits = [place for place, character in enumerate(written) if character in "0123456789"]
    if not digits or "\\" in written:
        return ""
    last = digits[-1]
    return f"{written[:last]}{(int(written[last]) + 1) % 10}{written[last + 1 :]}"


def _try_module(path, tests):
    """Try every figure of a module, say the score and return how many nobody noticed."""
    source = path.read_text(encoding="utf-8")
    figures = figures_of(source)
    if figures and not _lives(path, source, tests):
        raise SystemExit(f"{path}: its tests fail without any change")
    alive = [figure for figure in figures if _lives(path, _with(source, figure), tests)]
    for line, column, end, changed in alive:
        was = source.splitlines()[line - 1].encode()[column:end].decode()
        print(f"{path.relative_to(ROOT)}:{line}:{column + 1}: {was} => {changed}")
    print(
        f"{path.relative_to(ROOT)}: {len(figures) - len(alive)} of {len(figures)} figures noticed", flush=True
    )
    return len(alive)


def _with(source, figure):
    line, column, end, changed = figure
    lines = source.splitlines(keepends=True)
    old = lines[line - 1].encode()
    lines[line - 1] = (old[:column] + changed.encode() + old[end:]).decode()
    return "".join(lines)


def _lives(path, source, tests):
    """Return whether all tests pass with a changed source."""
    child = os.fork()
    if child == 0:
        code = 1
        sys.meta_path.insert(0, _Changed(path, source))
        try:
            with (
                Path(os.devnull).open("w", encoding="utf-8") as out,
                redirect_stdout(out),
                redirect_stderr(out),
            ):
                code = pytest.main(["-x", "-q", "-p", "no:cacheprovider", "-p", "quick", *tests])
        finally:
            os._exit(int(code))
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0


if __name__ == "__main__":
    sys.exit(main())
