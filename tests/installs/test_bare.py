"""The wheel beside nothing but what it asks for: every command answers there.

The libraries are lent by this environment, without those of the tests.
`python tests/installs/run.py` does the same from the package index.
"""

import re
import subprocess
import sys
import sysconfig
import zipfile
from importlib.metadata import distribution
from pathlib import Path

import pytest
from packaging.requirements import Requirement

from tests.installs.smoke import smoke

ROOT = Path(__file__).parents[2]
pytestmark = pytest.mark.slow


def plain(name):
    return re.sub("[-_.]+", "-", name).casefold()


def asked_for(name, found):
    """Collect a distribution and all it asks for, without extras."""
    if plain(name) in found:
        return
    found[plain(name)] = distribution(name)
    for text in found[plain(name)].requires or ():
        wanted = Requirement(text)
        if wanted.marker is None or wanted.marker.evaluate({"extra": ""}):
            asked_for(wanted.name, found)


def lend(site):
    """Put the libraries that gaugestack asks for into a directory, and none else."""
    found = {}
    asked_for("gaugestack", found)
    del found["gaugestack"]
    for dist in found.values():
        for top in {Path(file).parts[0] for file in dist.files if Path(file).parts[0] != ".."}:
            if not (site / top).exists():
                (site / top).symlink_to(dist.locate_file(top))
    return found


@pytest.fixture(scope="module")
def bare(tmp_path_factory):
    """Return the command of a fresh environment, and what was lent to it."""
    directory = tmp_path_factory.mktemp("bare")
    build = [sys.executable, "-m", "build", "--no-isolation", "--wheel", "--outdir", directory, ROOT]
    subprocess.run(build, check=True, capture_output=True)
    venv = directory / "venv"
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", venv], check=True)
    paths = sysconfig.get_paths("venv", vars={"base": str(venv), "platbase": str(venv)})
    lent = lend(Path(paths["purelib"]))
    [wheel] = directory.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(paths["purelib"])
    return Path(paths["scripts"]) / "python", lent


def test_nothing_is_lent_that_only_the_tests_need(bare):
    _, lent = bare

    assert {"ortools", "typer", "rich", "pyyaml", "numpy"} <= lent.keys()
    assert lent.keys() & {"pytest", "hypothesis", "scipy", "mpmath", "jsonschema", "weasyprint"} == set()


def test_every_command_answers_where_only_its_libraries_are(bare):
    python, _ = bare

    assert smoke(python, "-m", "gaugestack") == []
