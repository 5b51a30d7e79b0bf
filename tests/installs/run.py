"""gaugestack installed in every way we tell of, on every Python and with the oldest and newest libraries.

    python tests/installs/run.py                       all rows; some 5 minutes and 3 GB, from the index
    python tests/installs/run.py oldest 3.13 pipx      some rows
    python tests/installs/run.py --suite oldest        the quick tests too, there
    python tests/installs/run.py --write DEVELOPERS.md put the table into the document

Each row is an environment of its own in a temporary directory, in which every
command answers its own example.  Pythons are looked for on PATH and in pyenv.
Exits with 1 where a row fails.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from tests.installs.smoke import environment, examples, smoke  # noqa: E402

VERSIONS = ("3.11", "3.12", "3.13", "3.14")
TOLD = ("ortools", "typer", "rich", "pyyaml")
BY_MODULE = ("--version", "stack")
"""The commands that `python -m gaugestack` is tried with."""
FEW = ("--version", "stack", "set list", "set copy", "schema", "card box")
"""The commands that show whether everything was installed, where libraries and Python are tried elsewhere."""
MARK = "<!-- installs:{} -->"


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One environment: what pip is told to install, and on which Python."""

    name: str
    python: str
    what: tuple[str, ...]
    said: str


def pythons():
    """Return the newest Python of each version that can be found."""
    found = {}
    pyenv = Path(os.environ.get("PYENV_ROOT", Path.home() / ".pyenv")) / "versions"
    for version in VERSIONS:
        installed = sorted(pyenv.glob(f"{version}.*/bin/python{version}"))
        path = str(installed[-1]) if installed else shutil.which(f"python{version}")
        if path:
            found[version] = path
    return found


def lowest():
    """Return the oldest libraries that pyproject.toml admits, as pip is told them."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    bounds = (re.fullmatch(r"([\w-]+)>=([\d.]+)(?:,<\d+)?", text) for text in project["dependencies"])
    return tuple(f"{bound[1]}=={bound[2]}" for bound in bounds)


def built(directory):
    """Return wheel and sdist of this checkout."""
    run(sys.executable, "-m", "build", "--outdir", directory, ROOT)
    return next(directory.glob("*.whl")), next(directory.glob("*.tar.gz"))


def rows(directory):
    """Return every row."""
    wheel, sdist = built(directory)
    found = pythons()
    first = next(iter(found.values()))
    ways = {
        "sdist": (str(sdist),),
        "checkout": (str(ROOT),),
        "editable": ("--editable", str(ROOT)),
        "oldest": (str(wheel), *lowest()),
    }
    told = {
        "sdist": "the sdist",
        "checkout": "the checkout",
        "editable": "the checkout, in place",
        "oldest": "the wheel, the oldest libraries admitted",
    }
    yield from (
        Row(name=version, python=path, what=(str(wheel),), said="the wheel")
        for version, path in found.items()
    )
    yield from (Row(name=name, python=first, what=what, said=told[name]) for name, what in ways.items())
    yield Row(name="pipx", python=first, what=(str(wheel),), said="the wheel, by pipx")


def run(*command, **more):
    """Run a command that must succeed."""
    done = subprocess.run(
        [*map(str, command)], env=environment(), capture_output=True, encoding="utf-8", check=False, **more
    )
    if done.returncode:
        raise RuntimeError(f"{' '.join(map(str, command))}\n{done.stdout}{done.stderr}")
    return done.stdout


def installed(row, directory):
    """Return the command that a row installs, and the Python beside it."""
    venv = directory / "venv"
    run(row.python, "-m", "venv", venv)
    pip = (venv / "bin" / "python", "-m", "pip", "--quiet", "--disable-pip-version-check")
    if row.name != "pipx":
        run(*pip, "install", "--no-compile", *row.what)
        return venv / "bin" / "gaugestack", venv / "bin" / "python"
    run(*pip, "install", "--no-compile", "pipx")
    places = {"PIPX_HOME": "home", "PIPX_BIN_DIR": "bin", "PIPX_MAN_DIR": "man"}
    own = {**environment(), **{key: str(directory / name) for key, name in places.items()}}
    done = subprocess.run(
        [venv / "bin" / "pipx", "install", *row.what],
        env=own,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    if done.returncode or not (directory / "man" / "man1" / "gaugestack.1").exists():
        raise RuntimeError(done.stdout + done.stderr)
    return directory / "bin" / "gaugestack", directory / "home" / "venvs" / "gaugestack" / "bin" / "python"


def libraries(python):
    """Return the versions of the libraries beside a Python, and of itself."""
    program = (
        "import sys; from importlib.metadata import version as v;"
        f"print(sys.version.split()[0], *map(v, {TOLD}))"
    )
    return run(python, "-c", program).split()


def manual(python):
    """Tell whether the manual page lies where man looks."""
    return (Path(python).parents[1] / "share" / "man" / "man1" / "gaugestack.1").exists()


def size(python):
    """Return the megabytes that the libraries beside a Python take, what pip brings itself among them."""
    libraries = Path(python).parents[1] / "lib"
    return round(sum(path.stat().st_size for path in libraries.rglob("*") if path.is_file()) / 1e6)


def suite(row, python):
    """Return how the quick tests end beside the libraries of a row."""
    pins = [f"{name}=={version}" for name, version in zip(TOLD, libraries(python)[1:], strict=True)]
    run(python, "-m", "pip", "install", "--quiet", f"{ROOT}[test]", *pins)
    command = [python, "-m", "pytest", "-m", "not slow", "-p", "no:cacheprovider", *QUIET.get(row.name, ())]
    unhurried = {**environment(), "CI": "1"}  # no deadline of hypothesis on a busy machine
    done = subprocess.run(
        command, cwd=ROOT, env=unhurried, capture_output=True, encoding="utf-8", check=False
    )
    return done.stdout.strip().splitlines()[-1], done.returncode, done.stdout


QUIET = {"oldest": ("-W", "ignore::DeprecationWarning")}
"""Old libraries beside new ones warn of each other."""


def tried(row, *, tests):
    """Return the cells of a row, and whether all was well; what was not is printed."""
    with tempfile.TemporaryDirectory() as directory:
        command, python = installed(row, Path(directory))
        only = None if row.name in (*VERSIONS, "oldest") else FEW
        faults = [*smoke(command, only=only), *smoke(python, "-m", "gaugestack", only=BY_MODULE)]
        faults += [] if manual(python) else ["no manual page"]
        told = (*libraries(python), f"{size(python)} MB")
        ended = "" if not faults else f"{len(faults)} FAULTS"
        if tests:
            line, code, out = suite(row, python)
            ended = f"{ended} {line}".strip()
            faults += [out] if code else []
    print("\n".join(faults), file=sys.stderr)
    answered = ended or f"{len(only or examples())} of {len(examples())} tried, all answer"
    return (row.said, *told, answered), not faults


def attempted(row, *, tests):
    """Return the cells of a row, and whether all was well; one that cannot be installed is told too."""
    try:
        cells, well = tried(row, tests=tests)
    except RuntimeError as error:
        print(error, file=sys.stderr)
        cells, well = (row.said, Path(row.python).name, *("" for _ in TOLD), "", "CANNOT BE INSTALLED"), False
    print(" | ".join(cells), file=sys.stderr, flush=True)
    return cells, well


def table(cells):
    """Return the rows as Markdown."""
    heads = ("installed", "Python", *TOLD, "takes", "commands")
    lines = [heads, ["---"] * len(heads), *cells]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines) + "\n"


def put(name, text):
    """Put the table between the marks of a document."""
    path = ROOT / name
    before, _, rest = path.read_text(encoding="utf-8").partition(MARK.format("begin"))
    _, _, after = rest.partition(MARK.format("end"))
    path.write_text(
        f"{before}{MARK.format('begin')}\n\n{text}\n{MARK.format('end')}{after}", encoding="utf-8"
    )


def main():
    """Try the rows that are named, or all."""
    parser = argparse.ArgumentParser(description="Install gaugestack in every way and try it.")
    parser.add_argument("rows", nargs="*", help="names: 3.11 ... sdist checkout editable oldest pipx")
    parser.add_argument("--suite", action="store_true", help="run the quick tests in each environment too")
    parser.add_argument("--write", metavar="FILE", help="put the table into a document of the checkout")
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as directory:
        chosen = [row for row in rows(Path(directory)) if not asked.rows or row.name in asked.rows]
        results = [attempted(row, tests=asked.suite) for row in chosen]
    text = table([cells for cells, _ in results])
    print(text, end="")
    if asked.write:
        put(asked.write, text)
    sys.exit(not all(well for _, well in results))


if __name__ == "__main__":
    main()
