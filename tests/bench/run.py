"""Measure gaugestack beside its peers and floors and print one table.

    python tests/bench/run.py                     the full run, some minutes
    python tests/bench/run.py --quick             the smoke run, some seconds
    python tests/bench/run.py --heights 1000      more random heights
    python tests/bench/run.py --write README.md   also put the table between the marks
                                                  <!-- bench:begin --> and <!-- bench:end -->

Every figure stands beside a peer or a floor measured in the same run.  Times
are wall times; other work on the machine makes them longer, ratios less so.
"""

from __future__ import annotations

import argparse
import os
import platform
import sys
from dataclasses import replace
from importlib.metadata import version
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

sys.path.insert(0, str(Path(__file__).parents[2]))

from certified import certified_rows
from differences import difference_rows
from growth import growth_rows
from jobs import job_rows
from lists import list_rows
from nominal import nominal_rows
from otheranswers import other_rows
from plan import FULL, QUICK
from reachtable import table_rows
from several import several_rows
from table import as_json, markdown
from wholeprocess import process_rows

from tests.marks import Marks

if TYPE_CHECKING:
    from rows import Row

MARKS = Marks("bench")

SECTIONS = {
    "nominal": nominal_rows,
    "certified": certified_rows,
    "tables": table_rows,
    "several": several_rows,
    "differences": difference_rows,
    "jobs": job_rows,
    "growth": growth_rows,
    "lists": list_rows,
    "others": other_rows,
    "process": process_rows,
}


def main() -> int:
    """Measure, print, write where asked; return the exit code."""
    options = _options()
    plan = QUICK if options.quick else FULL
    plan = replace(plan, heights=options.heights or plan.heights)
    about, answer = _about(), _answer_stream()
    rows: list[Row] = []
    for name in options.only or SECTIONS:
        print(f"measuring {name} ...", file=sys.stderr)
        rows += SECTIONS[name](plan)
    text = markdown(rows, about)
    answer.write(text)
    answer.flush()
    if options.write:
        MARKS.write(options.write, text)
    if options.json:
        options.json.write_text(as_json(rows), encoding="utf-8")
    return 0


def _answer_stream() -> TextIO:
    """Return the real standard output; from now on the solvers' own chatter goes to standard error."""
    answer = os.fdopen(os.dup(1), "w", encoding="utf-8")
    os.dup2(2, 1)
    return answer


def _options() -> argparse.Namespace:
    """Return the options of the command line."""
    parser = argparse.ArgumentParser(description="Measure gaugestack beside its peers and floors.")
    parser.add_argument("--heights", type=int, metavar="N", help="random heights a set")
    parser.add_argument("--quick", action="store_true", help="the smoke run")
    parser.add_argument("--only", action="append", choices=tuple(SECTIONS), help="only this part; repeatable")
    parser.add_argument("--write", type=Path, metavar="FILE", help="Markdown file with the two marks")
    parser.add_argument("--json", type=Path, metavar="FILE", help="also write the rows as JSON")
    options = parser.parse_args()
    if options.write:
        try:
            MARKS.around(options.write)
        except (OSError, ValueError) as error:
            parser.error(str(error))
    return options


def _about() -> str:
    """Return a line on the machine and the tools."""
    tools = ", ".join(f"{name} {version(name)}" for name in ("ortools", "scipy", "numpy"))
    load = f", load {os.getloadavg()[0]:.1f} at the start" if hasattr(os, "getloadavg") else ""
    return (
        f"Python {platform.python_version()}, {tools}; {os.cpu_count()} cores{load}. "
        "Ratios are of medians on the same cases in the same run, peer over ours (larger is better) or "
        "ours over floor (smaller is better); seeded random heights on the set's grid, "
        "from the range without gaps up to 10 in or 250 mm."
    )


if __name__ == "__main__":
    raise SystemExit(main())
