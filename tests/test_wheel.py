"""What is handed over: the contents of wheel and sdist, and a set loaded from an installed wheel."""

import os
import subprocess
import sys
import sysconfig
import tarfile
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def dist(tmp_path_factory):
    """Return the directory with a wheel that was built from the sdist of this checkout."""
    directory = tmp_path_factory.mktemp("dist")
    command = [sys.executable, "-m", "build", "--no-isolation", "--outdir", directory, ROOT]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return directory


def only(directory, pattern):
    [path] = directory.glob(pattern)
    return path


@pytest.fixture(scope="module")
def wheel(dist):
    with zipfile.ZipFile(only(dist, "*.whl")) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def own(directory, pattern):
    """Return the files of a directory of the checkout, relative to it."""
    return {str(path.relative_to(directory)) for path in directory.rglob(pattern)}


def test_the_wheel_carries_every_module_and_says_it_is_typed(wheel):
    expected = {f"gaugestack/{name}" for name in own(ROOT / "gaugestack", "*.py")} | {"gaugestack/py.typed"}

    assert expected <= set(wheel)


def test_the_wheel_carries_the_shipped_sets_unchanged(wheel):
    carried = {
        name.removeprefix("gaugestack/_sets/"): data
        for name, data in wheel.items()
        if name.startswith("gaugestack/_sets/")
    }

    assert carried == {path.name: path.read_bytes() for path in (ROOT / "sets").iterdir()}


def test_the_wheel_carries_the_schemas_unchanged(wheel):
    carried = {name: data for name, data in wheel.items() if name.startswith("gaugestack/schemas/")}

    assert carried == {
        f"gaugestack/schemas/{path.name}": path.read_bytes()
        for path in (ROOT / "gaugestack" / "schemas").iterdir()
    }


def test_the_wheel_puts_the_manual_page_where_man_looks(wheel):
    [page] = [data for name, data in wheel.items() if name.endswith(".data/data/share/man/man1/gaugestack.1")]

    assert page == (ROOT / "gaugestack" / "man" / "gaugestack.1").read_bytes()


def test_the_wheel_carries_nothing_else(wheel):
    others = [
        name
        for name in wheel
        if not name.startswith("gaugestack-")
        and not (name.startswith("gaugestack/") and name.endswith((".py", "py.typed", ".yaml", ".json")))
    ]

    assert others == []


def test_the_wheel_names_its_command(wheel):
    [entry_points] = [data for name, data in wheel.items() if name.endswith("entry_points.txt")]

    assert b"gaugestack = gaugestack.cli.main:main" in entry_points


def test_the_sdist_carries_sets_tests_demonstration_and_documents(dist):
    with tarfile.open(only(dist, "*.tar.gz")) as archive:
        names = {name.partition("/")[2] for name in archive.getnames()}

    assert {f"sets/{name}" for name in own(ROOT / "sets", "*")} <= names
    assert {f"gaugestack/schemas/{name}" for name in own(ROOT / "gaugestack" / "schemas", "*.json")} <= names
    assert {
        "README.md",
        "DEVELOPERS.md",
        "demo/run",
        "gaugestack/man/gaugestack.1",
        "gaugestack/py.typed",
        "tests/run",
        "tests/test_wheel.py",
        "pyproject.toml",
    } <= names


@pytest.fixture(scope="module")
def installed(dist, tmp_path_factory):
    """Return a fresh environment with the wheel in it; the libraries it needs are lent by this one."""
    venv = tmp_path_factory.mktemp("fresh") / "venv"
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", venv], check=True)
    paths = sysconfig.get_paths("venv", vars={"base": str(venv), "platbase": str(venv)})
    site = Path(paths["purelib"])
    with zipfile.ZipFile(only(dist, "*.whl")) as archive:
        archive.extractall(site)  # noqa: S202  (our own wheel)
    (site / "lent.pth").write_text(f"{sysconfig.get_paths()['purelib']}\n", encoding="utf-8")
    return Path(paths["scripts"]) / "python"


def run(python, *arguments):
    environment = {
        key: value for key, value in os.environ.items() if not key.startswith(("GAUGESTACK_", "PYTHON"))
    }
    return subprocess.run(
        [python, *arguments], cwd="/", env=environment, capture_output=True, text=True, check=False
    )


def test_an_installed_wheel_finds_its_own_sets(installed):
    program = "from gaugestack.inventory.shipped import shipped_path; print(shipped_path('inch-81'))"
    done = run(installed, "-c", program)

    assert done.stderr == ""
    assert Path(done.stdout.strip()).is_relative_to(installed.parents[1])


def test_an_installed_wheel_makes_a_stack(installed):
    done = run(installed, "-m", "gaugestack", "stack", "0.6202in", "--set", "inch-81")

    assert (done.returncode, done.stderr) == (0, "")
    assert "3 blocks, exactly" in done.stdout


def test_an_installed_wheel_prints_its_schemas(installed):
    done = run(installed, "-m", "gaugestack", "schema", "set-file")

    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == (ROOT / "gaugestack" / "schemas" / "set-file.json").read_text(encoding="utf-8")
