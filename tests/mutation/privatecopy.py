"""A copy of the project that mutants may be written into."""

import ast
import json
import shutil
import tomllib
from fnmatch import fnmatch
from pathlib import Path

ROOT = Path(__file__).parents[2]
AREAS = tomllib.loads((Path(__file__).parent / "areas.toml").read_text(encoding="utf-8"))
_COPIED = ("gaugestack", "sets", "tests", "demo")
PLUGIN = "mutation_quick"
_PLAIN = {"property", "cached_property", "contextmanager", "contextlib.contextmanager"}
"""Decorators that can as well be applied one line later."""


def make_copy(place, area, only=()):
    """Lay the project into a directory, ready for the tool; what is there already is brought up to date.

    `only` are patterns of modules, to take some of the area's.
    """
    for name in _COPIED:
        shutil.copytree(
            ROOT / name, place / name, dirs_exist_ok=True, ignore=shutil.ignore_patterns("__pycache__")
        )
    shutil.copy(Path(__file__).with_name("quick.py"), place / f"{PLUGIN}.py")
    for path in (place / "gaugestack").rglob("*.py"):
        _undecorate(path)
    _settings(place, AREAS[area], only)


def modules_of(area, only=()):
    """Return the modules of an area, or those of them that one of the patterns fits."""
    every = sorted(str(path.relative_to(ROOT)) for pattern in area["modules"] for path in ROOT.glob(pattern))
    return [name for name in every if not only or any(fnmatch(name, pattern) for pattern in only)]


def undecorated(source):
    """Return a source whose properties are plain functions with `name = property(name)` behind them.

    The tool leaves decorated functions alone, and a third of the questions of
    our values are properties.
    """
    lines = source.splitlines()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.FunctionDef) and len(node.decorator_list) == 1:
            decorator = node.decorator_list[0]
            if ast.unparse(decorator) in _PLAIN:
                lines[decorator.lineno - 1] = None
                behind = f"{' ' * node.col_offset}{node.name} = {ast.unparse(decorator)}({node.name})"
                lines[node.end_lineno - 1] += f"\n{behind}"
    return "\n".join(line for line in lines if line is not None) + "\n"


def _undecorate(path):
    """Write a module of the copy anew, only where that changes it: an untouched file keeps its results."""
    new = undecorated(path.read_text(encoding="utf-8"))
    path.write_text(new, encoding="utf-8")


def _settings(place, area, only):
    """Write the copy's settings: the project's own and those of the tool."""
    tool = {
        "source_paths": ["gaugestack"],
        "also_copy": ["sets", "demo", f"{PLUGIN}.py"],
        "only_mutate": modules_of(area, only),
        "pytest_add_cli_args": ["-p", "no:cacheprovider", "-p", PLUGIN, "-k", area.get("chosen", "")],
        "pytest_add_cli_args_test_selection": area["tests"],
        "timeout_multiplier": 3.0,
        "use_git_change_detection": False,
        "on_dependency_change": "ignore",
    }
    own = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    table = "\n".join(f"{key} = {_toml(value)}" for key, value in tool.items())
    (place / "pyproject.toml").write_text(f"{own}\n[tool.mutmut]\n{table}\n", encoding="utf-8")


def _toml(value):
    """Write a setting; JSON's true, strings and lists are TOML's too."""
    return json.dumps(value)
