"""Mutate an area of the package in a private copy and tell which mutants no test noticed.

    python tests/mutation/run.py lengths                     an area of areas.toml
    python tests/mutation/run.py angles --only '*/sine.py'   only these modules of it
    python tests/mutation/run.py angles --in /tmp/mutants    keep the copy; a second run there
                                                             tries only what still lives
    python tests/mutation/run.py angles --only '*/sine.py' --tests tests/angles/test_sine.py
                                                             first with the tests nearest to them
Wants the extra `mutation`.  Survivors that were judged stand, with a reason, in
survivors/AREA.toml; the others are printed in the form of that file.  Ends with
1 where the share of mutants noticed, equivalent ones not counted, is below 90 %.
"""

import argparse
import os
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from outcome import Judged, forget_living, mutants_of, say_changes, try_afresh
from privatecopy import AREAS, make_copy, modules_of

GOAL = 90
COLUMNS = ("mutants", "killed", "timeout", "equivalent", "left", "new")


def main():
    """Run one area."""
    asked = _arguments()
    AREAS[asked.area]["tests"] = asked.tests or AREAS[asked.area]["tests"]
    with tempfile.TemporaryDirectory(prefix="mutants-") as scratch:
        place = Path(asked.place or scratch).resolve()
        modules = modules_of(AREAS[asked.area], asked.only)
        make_copy(place, asked.area, asked.only)
        os.chdir(place)
        forget_living(place, modules)
        _mutmut(asked.jobs)
        mutants = [mutant for mutant in mutants_of(place) if mutant.path in modules]
        try_afresh(place, mutants, AREAS[asked.area]["tests"])
        say_changes(place, mutants)
    judged = Judged.of_area(asked.area)
    for mutant in mutants:
        if not mutant.dead:
            judged.judge(mutant)
    _print_new(mutants)
    if not asked.only:
        _print_idle(judged)
    return 0 if _print_scores(mutants) >= GOAL else 1


def _arguments():
    parser = argparse.ArgumentParser(description="Mutate an area of the package and show the survivors.")
    parser.add_argument("area", choices=AREAS)
    parser.add_argument("--only", action="append", default=[], metavar="PATTERN", help="only these modules")
    parser.add_argument("--tests", action="append", default=[], metavar="PATH", help="only these tests")
    parser.add_argument("--in", dest="place", metavar="DIRECTORY", help="keep the copy here")
    parser.add_argument("--jobs", type=int, default=1, metavar="N", help="mutants tried at once")
    return parser.parse_args()


def _mutmut(jobs):
    """Run the tool where we stand; its progress goes to stderr."""
    command = [str(Path(sys.executable).with_name("mutmut")), "run", "--max-children", str(jobs)]
    done = subprocess.run(command, stdout=sys.stderr, check=False)
    if done.returncode:
        raise SystemExit(f"mutmut ended with {done.returncode}")


def _print_new(mutants):
    """Print the survivors nobody judged, in the form of the list, function by function."""
    living = [mutant for mutant in mutants if not mutant.dead and not mutant.judged]
    for function in dict.fromkeys(mutant.function for mutant in living):
        print(f'[[survivor]]\nfunction = "{function}"\nkind = ""\nwhy = ""\nchanges = [')
        for mutant in living:
            if mutant.function == function:
                print(f"  '''{mutant.change}''',  # {mutant.name.rpartition('_')[2]} {mutant.fate}")
        print("]\n")


def _print_idle(judged):
    for function, change in judged.idle():
        print(f"judged, but no such survivor: {function}: {change}")


def _print_scores(mutants):
    """Print a row for each module and one for all; return the score of all."""
    print(f"{'':34}" + "".join(f"{name:>11}" for name in COLUMNS) + "      score")
    paths = sorted({mutant.path for mutant in mutants})
    for path in paths:
        _print_row(path.removeprefix("gaugestack/"), [mutant for mutant in mutants if mutant.path == path])
    return _print_row("all", mutants)


def _print_row(name, mutants):
    counts = Counter(mutant.fate if mutant.dead else mutant.judged or "new" for mutant in mutants)
    counts["mutants"] = len(mutants)
    noticed = sum(mutant.dead for mutant in mutants)
    score = 100 * noticed / max(1, len(mutants) - counts["equivalent"])
    print(f"{name:34}" + "".join(f"{counts[column]:11}" for column in COLUMNS) + f"{score:9.1f} %")
    return score


if __name__ == "__main__":
    sys.exit(main())
