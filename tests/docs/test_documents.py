"""Every command, file and Python line in the documents does what is printed there."""

import ast
import doctest
import os
import re
import shlex
import shutil
import subprocess
from pathlib import Path

import pytest
import typer

from gaugestack.cli.commands import app
from gaugestack.inventory.setfile import load_set
from tests.cli.shell import gaugestack
from tests.docs import documents

NAMES = ["README.md", "DEVELOPERS.md"]


def text_of(name):
    return (documents.ROOT / name).read_text(encoding="utf-8")


@pytest.fixture(scope="module", params=NAMES)
def rerun(request, tmp_path_factory):
    """Return a document, what it reads like when run, and the directory it ran in."""
    text = text_of(request.param)
    directory = tmp_path_factory.mktemp("documents")
    return text, documents.rerun(text, directory), directory


def test_every_console_block_prints_what_stands_under_its_commands(rerun):
    text, run_anew, _ = rerun

    assert run_anew == text


def test_the_pictures_of_a_document_are_those_its_commands_make(rerun):
    text, _, directory = rerun
    shown = sorted(re.findall(rf"\]\(({documents.PICTURES}/[^)]+)\)", text))
    made = documents.pictures_below(directory)

    assert [path.name for path in made] == [Path(name).name for name in shown]
    assert [path.read_bytes() for path in made] == [(documents.ROOT / name).read_bytes() for name in shown]


@pytest.mark.parametrize("name", NAMES)
def test_every_python_line_gives_what_stands_under_it(name):
    for body in documents.bodies(text_of(name), "pycon"):
        test = doctest.DocTestParser().get_doctest(body, {}, name, name, 0)

        assert doctest.DocTestRunner().run(test).failed == 0


@pytest.mark.parametrize("name", NAMES)
def test_every_python_block_can_be_parsed(name):
    for body in documents.bodies(text_of(name), "python"):
        ast.parse(body)


def table_commands():
    """Return the commands of the README's table of what is wanted, one a parameter."""
    rows = [line for line in text_of("README.md").splitlines() if line.startswith("| ")]
    return [command for row in rows for command in re.findall(r"`gaugestack ([^`]+)`", row)]


@pytest.fixture
def bench(tmp_path, monkeypatch):
    """Stand in a directory that holds what the README speaks of; `shop.yaml` has been copied."""
    documents.furnish(tmp_path, text_of("README.md"))
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("GAUGESTACK_SET", raising=False)
    monkeypatch.setenv("COLUMNS", "80")
    shutil.copy(documents.ROOT / "sets" / "inch-81.yaml", tmp_path / "shop.yaml")
    return tmp_path


@pytest.mark.parametrize("command", table_commands())
def test_every_command_of_the_readme_s_table_answers(command, bench):
    if command.startswith("set copy"):
        (bench / "shop.yaml").unlink()

    done = gaugestack(*shlex.split(command))

    assert (done.code, done.err) == (0, "")


def command_names(group, prefix=""):
    """Return the names of all commands of a group, those of its groups with the group's name."""
    for name, command in group.commands.items():
        if hasattr(command, "commands"):
            yield from command_names(command, f"{prefix}{name} ")
        else:
            yield f"{prefix}{name}"


def test_the_readme_s_table_has_every_command():
    shown = [f"{command} " for command in table_commands()]

    missing = {
        name
        for name in command_names(typer.main.get_command(app))
        if not any(command.startswith(f"{name} ") for command in shown)
    }

    assert missing == set()


def test_the_set_file_of_the_readme_loads_whole(tmp_path):
    [(name, text)] = documents.named_files(text_of("README.md")).items()
    (tmp_path / name).write_text(text, encoding="utf-8")

    block_set, bars = load_set(tmp_path / name)

    assert (len(block_set.blocks), len(block_set.absent), [bar.name for bar in bars]) == (
        81,
        2,
        ["bench bar"],
    )


@pytest.mark.parametrize("name", NAMES)
def test_every_link_in_the_documents_leads_somewhere(name):
    text = text_of(name)
    anchors = {heading.lower().replace(" ", "-") for heading in re.findall(r"^#+ (.+)$", text, re.MULTILINE)}
    links = re.findall(r"\]\(([^)]+)\)", text)

    wrong = [
        link
        for link in links
        if (link[1:] not in anchors if link.startswith("#") else not (documents.ROOT / link).exists())
    ]

    assert wrong == []


@pytest.mark.parametrize("name", ["demo/run", "tests/run", ".ci/run"])
def test_the_scripts_can_be_run_and_fail_loudly(name):
    path = documents.ROOT / name

    assert os.access(path, os.X_OK)
    assert "\nset -euo pipefail\n" in path.read_text(encoding="utf-8")
    subprocess.run(["bash", "-n", path], check=True)


def test_the_readme_names_the_two_commands_before_anything_else():
    head = text_of("README.md").split("\n## ")[0]

    assert "\n    ./demo/run " in head
    assert "\n    ./tests/run " in head


def test_developers_md_names_test_and_lint_in_its_first_ten_lines():
    head = "\n".join(text_of("DEVELOPERS.md").splitlines()[:10])

    assert "tests/run" in head
    assert "ruff" in head


def ready_venv(directory, root):
    """Return a stand-in for an environment in which gaugestack is installed already."""
    documents.furnish(directory, "")
    venv = directory / "a venv"
    shutil.copytree(directory / "bin", venv / "bin")
    (venv / "bin" / "python").write_text("#!/bin/sh\nexit 1\n", encoding="utf-8")
    (venv / "bin" / "python").chmod(0o755)
    stamp = subprocess.run(
        ["bash", "-c", 'printf "%s %s\n" "$(pwd -P)" "$(cksum <pyproject.toml)"'],
        cwd=root,
        capture_output=True,
        check=True,
    )
    (venv / ".gaugestack-plain").write_bytes(stamp.stdout)
    return venv


def copied_checkout(tmp_path):
    """Return a copy of what the demonstration needs, under a name with spaces."""
    root = tmp_path / "a check out"
    (root / "tests").mkdir(parents=True)
    data = [f"demo/{path.name}" for path in (documents.ROOT / "demo").iterdir() if path.is_file()]
    for name in [*data, "tests/venv.bash", "pyproject.toml"]:
        (root / name).parent.mkdir(exist_ok=True)
        shutil.copy(documents.ROOT / name, root / name)
    return root


def run_demo(tmp_path, root):
    (tmp_path / "made").mkdir()
    venv = ready_venv(tmp_path / "made", root)
    # the stand-in command imports from here, while the script itself clears PYTHONPATH
    command = venv / "bin" / "gaugestack"
    command.write_text(
        command.read_text(encoding="utf-8").replace("exec ", f"PYTHONPATH='{documents.ROOT}' exec "),
        encoding="utf-8",
    )
    (tmp_path / "temporary").mkdir()
    environment = {
        **documents.environment(tmp_path / "made"),
        "GAUGESTACK_VENV": str(venv),
        "TMPDIR": str(tmp_path / "temporary"),
    }
    return subprocess.run(
        [root / "demo" / "run"],
        cwd=tmp_path,
        env=environment,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )


def test_the_demonstration_runs_from_anywhere_in_a_path_with_spaces(tmp_path):
    done = run_demo(tmp_path, copied_checkout(tmp_path))

    assert (done.returncode, done.stderr) == (0, "")
    assert "included angle  3°34'47.4\"" in done.stdout
    assert "gaugestack/stack" in done.stdout


def files_below(directory):
    return {path.relative_to(directory): path.stat().st_mtime_ns for path in directory.rglob("*")}


def test_the_demonstration_leaves_nothing_behind_but_the_venv(tmp_path):
    root = copied_checkout(tmp_path)
    before = files_below(root)

    done = run_demo(tmp_path, root)

    assert "0.119 in is not fit: lent to Ola" in done.stdout
    assert files_below(root) == before
    assert list((tmp_path / "temporary").iterdir()) == []


def test_the_demonstration_cleans_up_where_it_fails_too(tmp_path):
    root = copied_checkout(tmp_path)
    (root / "demo" / "saturday-job.yaml").write_text("format: 2\n", encoding="utf-8")

    done = run_demo(tmp_path, root)

    assert "exit code 3 instead of 0" in done.stderr
    assert list((tmp_path / "temporary").iterdir()) == []


def test_the_demonstration_fails_loudly_where_its_set_is_broken(tmp_path):
    root = copied_checkout(tmp_path)
    (root / "demo" / "boatyard-inch.yaml").write_text("format: 2\n", encoding="utf-8")

    done = run_demo(tmp_path, root)

    assert done.returncode == 1
    assert "exit code 3 instead of 0" in done.stderr
