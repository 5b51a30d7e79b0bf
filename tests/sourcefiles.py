"""The package's modules as syntax trees, for the tests of its layers and sizes."""

import ast
from functools import cache
from pathlib import Path

PACKAGE = Path(__file__).parents[1] / "gaugestack"


@cache
def trees():
    """Return the syntax tree of every module by its dotted name, without the package's own name in front."""
    return {
        _name(path): ast.parse(path.read_text(encoding="utf-8")) for path in sorted(PACKAGE.rglob("*.py"))
    }


def _name(path):
    return ".".join(path.relative_to(PACKAGE).with_suffix("").parts)


def area(module):
    """Return the directory, or the single module, a module belongs to."""
    return module.split(".")[0]


def imported(tree, *, types=True):
    """Return the dotted names a tree imports; `types` counts those under TYPE_CHECKING too."""
    names = []
    for node in _walk(tree, types=types):
        if isinstance(node, ast.Import):
            names += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            names += [f"{node.module}.{alias.name}" for alias in node.names]
    return names


def _walk(tree, *, types):
    waiting = [tree]
    while waiting:
        node = waiting.pop()
        yield node
        for_types = isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING"
        waiting += node.orelse if for_types and not types else list(ast.iter_child_nodes(node))


def own_imports(tree, *, types=True):
    """Return the modules of the package a tree imports, by the names of `trees`."""
    found = set()
    for name in imported(tree, types=types):
        if name.split(".")[0] == "gaugestack":
            found.add(_module(name.removeprefix("gaugestack").removeprefix(".")))
    return found


def _module(name):
    """Return the module that holds a dotted name."""
    while name and name not in trees():
        if f"{name}.__init__" in trees():
            return f"{name}.__init__"
        name = name.rpartition(".")[0]
    return name or "__init__"
