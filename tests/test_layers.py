"""The layers of the package and the fences around files, clock and heavy libraries."""

import ast
import subprocess
import sys

import pytest

from tests.sourcefiles import area, imported, own_imports, trees

LAYERS = {
    "errors": 0,
    "lengths": 1,
    "blocks": 2,
    "angles": 2,
    "grades_tables": 2,
    "grades": 3,
    "trend": 3,
    "inventory": 4,
    "stacks": 4,
    "uncertainty": 4,
    "answers": 5,
    "cards": 6,
    "cli": 7,
    "notebook": 7,
    "__init__": 8,
    "__main__": 8,
}
"""What stands higher may import what stands lower; areas of one layer never import each other."""
FENCES = {
    "numpy": {"stacks.reach", "stacks.closest", "stacks.leastmiss", "stacks.meeting"},
    "ortools": {"stacks.model"},
    "yaml": {"inventory.located"},
    "weasyprint": {"cli.pdf"},
}
SHELL = {"typer", "rich"}
FILE_AREAS = {"inventory", "cli"}
FILE_LIBRARIES = {"os", "io", "pathlib", "shutil", "tempfile", "glob", "fcntl"}
FILE_CALLS = {
    "open", "read_text", "read_bytes", "write_text", "write_bytes", "unlink", "mkdir", "rmdir", "touch",
    "fsync", "iterdir", "glob", "rglob", "is_file", "is_dir", "exists", "stat",
}  # fmt: skip
CLOCK_LIBRARIES = {"time", "locale", "getpass", "platform", "socket"}
CLOCK_AND_ENVIRONMENT = {
    "now", "utcnow", "today", "environ", "getenv", "cwd", "getcwd", "home", "expanduser", "argv", "stdin",
    "stdout", "stderr",
}  # fmt: skip
TALK = {"print", "input", "exit", "breakpoint"}
MODULES = sorted(trees())
BELOW_CLI = [module for module in MODULES if area(module) not in ("cli", "__main__")]


def libraries(module, *, types=True):
    """Return the top names of everything a module imports."""
    return {name.split(".")[0] for name in imported(trees()[module], types=types)}


def importers(library):
    return {module for module in MODULES if library in libraries(module)}


def attributes(module):
    """Return the names of all attributes a module reads."""
    return {node.attr for node in ast.walk(trees()[module]) if isinstance(node, ast.Attribute)}


def calls(module):
    """Return the last names of all calls of a module."""
    functions = [node.func for node in ast.walk(trees()[module]) if isinstance(node, ast.Call)]
    return {
        f.id if isinstance(f, ast.Name) else f.attr
        for f in functions
        if isinstance(f, ast.Name | ast.Attribute)
    }


def test_every_area_has_a_layer():
    assert {area(module) for module in MODULES} <= set(LAYERS)


@pytest.mark.parametrize("module", MODULES)
def test_imports_point_downward(module):
    here = area(module)
    upward = {
        name
        for name in own_imports(trees()[module])
        if area(name) not in (here, "__init__") and LAYERS[area(name)] >= LAYERS[here]
    }

    assert upward == set()


def test_no_modules_import_each_other_in_a_circle():
    graph = {module: own_imports(trees()[module], types=False) - {module} for module in MODULES}
    while free := {module for module, needs in graph.items() if not needs & graph.keys()}:
        graph = {module: needs for module, needs in graph.items() if module not in free}

    assert graph == {}


@pytest.mark.parametrize("library", FENCES)
def test_a_heavy_library_is_imported_behind_its_fence_only(library):
    assert importers(library) == FENCES[library]


@pytest.mark.parametrize("library", sorted(SHELL))
def test_the_shell_s_libraries_stay_in_the_shell(library):
    assert {area(module) for module in importers(library)} <= {"cli"}


@pytest.mark.parametrize("module", MODULES)
def test_nothing_else_is_imported_but_the_standard_library(module):
    assert libraries(module) <= {*sys.stdlib_module_names, "gaugestack", *FENCES, *SHELL}


@pytest.mark.parametrize("module", [module for module in MODULES if area(module) not in FILE_AREAS])
def test_files_are_opened_in_inventory_and_cli_only(module):
    assert libraries(module, types=False) & FILE_LIBRARIES == set()
    assert not [name for name in imported(trees()[module]) if name.startswith("importlib.resources")]
    assert calls(module) & FILE_CALLS == set()


@pytest.mark.parametrize("module", BELOW_CLI)
def test_clock_environment_and_streams_belong_to_cli_only(module):
    assert libraries(module, types=False) & CLOCK_LIBRARIES == set()
    assert attributes(module) & CLOCK_AND_ENVIRONMENT == set()


@pytest.mark.parametrize("module", BELOW_CLI)
def test_only_cli_talks(module):
    assert calls(module) & TALK == set()


def loaded_by(statement):
    """Return the top names of all modules that a fresh interpreter holds after a statement."""
    program = f"import sys; {statement}; print(*sorted({{m.split('.')[0] for m in sys.modules}}))"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    return set(done.stdout.split())


def test_importing_the_package_loads_no_heavy_library():
    assert loaded_by("import gaugestack") & {"ortools", "numpy", "yaml", "typer", "rich", "pandas"} == set()


def test_no_import_at_all_loads_the_solver():
    names = [f"gaugestack.{module}".removesuffix(".__init__") for module in MODULES if module != "__main__"]

    assert loaded_by(f"import {', '.join(names)}") & {"ortools", "pandas"} == set()
