"""What became of the mutants, and the list of survivors that somebody judged."""

import json
import os
import subprocess
import sys
import tomllib
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

from mutmut.mutation.diff_apply import get_diff_for_mutant
from mutmut.stats import status_by_exit_code
from privatecopy import PLUGIN

JUDGED = Path(__file__).parent / "survivors"
DEAD = ("killed", "timeout", "segfault")
_HITS_ON_IMPORT = """
import importlib, os, pkgutil, sys
sys.path.insert(0, os.getcwd())
os.environ["MUTANT_UNDER_TEST"] = "stats"
from mutmut.configuration import config
os.chdir("..")
config()
os.chdir("mutants")
import gaugestack
for module in pkgutil.walk_packages(gaugestack.__path__, "gaugestack."):
    if not module.name.endswith("__main__"):
        importlib.import_module(module.name)
from mutmut.state import state
print("\\n".join(state()._stats))
"""


@dataclass(kw_only=True)
class Mutant:
    """One mutant: `change` is what it did to the source, `fate` the tool's word, `judged` the list's."""

    name: str
    path: str
    fate: str
    change: str = ""
    judged: str = ""

    @property
    def function(self):
        """The dotted name of the mutated function."""
        module, _, mangled = self.name.partition("__mutmut_")[0].rpartition(".")
        return f"{module}.{mangled.removeprefix('x_').removeprefix('xǁ').replace('ǁ', '.')}"

    @property
    def dead(self):
        """Whether a test noticed it."""
        return self.fate in DEAD


@dataclass
class Judged:
    """The survivors somebody has judged: the word for each change of a function, used up one by one."""

    words: dict = field(default_factory=dict)
    uses: Counter = field(default_factory=Counter)

    @classmethod
    def of_area(cls, area):
        """Read `survivors/AREA.toml`, where there is one."""
        path = JUDGED / f"{area}.toml"
        entries = tomllib.loads(path.read_text(encoding="utf-8"))["survivor"] if path.exists() else []
        judged = cls()
        for entry in entries:
            for change in entry["changes"]:
                key = (entry["function"], change)
                judged.words[key] = entry["kind"]
                judged.uses[key] += 1
        return judged

    def judge(self, mutant):
        """Give a survivor its word, or none where nobody judged it."""
        key = (mutant.function, mutant.change)
        if self.uses[key]:
            self.uses[key] -= 1
            mutant.judged = self.words[key]

    def idle(self):
        """Return the judged changes no survivor made: killed since, or the source was changed."""
        return [key for key, left in self.uses.items() for _ in range(left)]


def mutants_of(place):
    """Return all mutants of a copy the tool has been through."""
    found = []
    for meta in sorted((place / "mutants").rglob("*.py.meta")):
        path = str(meta.relative_to(place / "mutants")).removesuffix(".meta")
        codes = json.loads(meta.read_text(encoding="utf-8"))["exit_code_by_key"]
        found += [
            Mutant(name=name, path=path, fate=status_by_exit_code[code]) for name, code in codes.items()
        ]
    return found


def forget_living(place, modules):
    """Let the tool try all mutants of the modules again that no test killed."""
    for meta in [meta for name in modules for meta in (place / "mutants").glob(f"{name}.meta")]:
        told = json.loads(meta.read_text(encoding="utf-8"))
        codes = told["exit_code_by_key"]
        told["exit_code_by_key"] = {
            name: code if status_by_exit_code[code] in DEAD else None for name, code in codes.items()
        }
        meta.write_text(json.dumps(told), encoding="utf-8")
    (place / "mutants" / "mutmut-stats.json").unlink(missing_ok=True)


def try_afresh(place, mutants, tests):
    """Try survivors of functions that run on import again, each in a process of its own.

    The tool forks after the import: what a module made of such a function is
    older than the mutant.
    """
    on_import = set(_python(place, "-c", _HITS_ON_IMPORT, mutant="").stdout.split())
    tried = [one for one in mutants if not one.dead and one.name.partition("__mutmut_")[0] in on_import]
    if tried and not _lives(place, "", tests):
        raise SystemExit("the tests fail without any mutant")
    for mutant in tried:
        mutant.fate = "survived" if _lives(place, mutant.name, tests) else "killed"


def _lives(place, mutant, tests):
    """Return whether all tests pass with a mutant, or with none where it has no name."""
    options = ("-x", "-p", "no:cacheprovider", "-p", PLUGIN)
    return _python(place, "-m", "pytest", *options, *tests, mutant=mutant).returncode == 0


def _python(place, *arguments, mutant):
    return subprocess.run(
        [sys.executable, *arguments],
        cwd=place / "mutants",
        env={**os.environ, "MUTANT_UNDER_TEST": mutant, "PYTHONPATH": str(place / "mutants")},
        capture_output=True,
        text=True,
        check=False,
    )


def say_changes(place, mutants):
    """Fill in what each living mutant changed: the lines gone and come, without their margins."""
    here = Path.cwd()
    os.chdir(place)
    try:
        for mutant in mutants:
            if not mutant.dead:
                mutant.change = _change(get_diff_for_mutant(mutant.name, path=mutant.path))
    finally:
        os.chdir(here)


def _change(diff):
    body = [line for line in diff.splitlines()[2:] if line[:1] in "+-"]
    gone, come = (" ".join(line[1:].strip() for line in body if line[0] == mark) for mark in "-+")
    return f"{gone} => {come}"
