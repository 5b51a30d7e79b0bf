"""Ask random requests over all shipped sets, and hold every answer against a table of our own.

    python tests/promise/run.py                          100 000 requests; goes on where it was stopped
    python tests/promise/run.py --requests 2000          the first of them
    python tests/promise/run.py --write DEVELOPERS.md    also put the figures between the marks
                                                         <!-- promise:begin --> and <!-- promise:end -->
    python tests/promise/run.py --again 17:4             one request once more, with all that is wrong

One process; everything depends on the seed alone.  What is done is kept, a
line a chunk, in the file --kept; a chunk begun and not ended is done again.
Exit code 1 where anything disagrees.
"""

from __future__ import annotations

import argparse
import datetime as dt
import json
import platform
import sys
import tempfile
from collections import Counter
from hashlib import sha256
from importlib.metadata import version
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from tests.marks import Marks  # noqa: E402
from tests.promise.kinds import KINDS, SIZE, Chunk, run_chunk  # noqa: E402

MARKS = Marks("promise")


def main() -> int:
    """Run what is left to run, print and write the figures; return the exit code."""
    options = _options()
    if options.again:
        number, place = map(int, options.again.split(":"))
        return _report([run_chunk(options.seed, number, only=place)])
    sources, started = digest(), dt.datetime.now(tz=dt.UTC)
    kept = options.kept or Path(tempfile.gettempdir()) / f"gaugestack-promise-{options.seed}.jsonl"
    wanted = -(-options.requests // SIZE)
    done = kept_chunks(kept)
    for number in range(wanted):
        if number not in done:
            chunk = run_chunk(options.seed, number)
            done[number] = (chunk, sources)
            with kept.open("a", encoding="utf-8") as file:
                file.write(json.dumps({**vars(chunk), "sources": sources, "on": f"{started:%F}"}) + "\n")
            if chunk.faults or number % 20 == 0:
                asked = sum(one.counts.total() for one, _ in done.values())
                print(f"{asked} requests", *chunk.faults, sep="\n", file=sys.stderr, flush=True)
    chunks = [done[number] for number in range(wanted)]
    text = figures(chunks, options.seed, f"{started:%F}")
    print(text, end="")
    if options.write:
        MARKS.write(options.write, text)
    return _report([chunk for chunk, _ in chunks])


def _options() -> argparse.Namespace:
    """Return the options of the command line."""
    parser = argparse.ArgumentParser(description="Hold the solver's answers against independent tables.")
    parser.add_argument("--requests", type=int, default=100_000, metavar="N")
    parser.add_argument("--seed", type=int, default=1, metavar="N")
    parser.add_argument("--kept", type=Path, metavar="FILE", help="what is done, a line a chunk")
    parser.add_argument("--again", metavar="CHUNK:PLACE", help="one request once more")
    parser.add_argument("--write", type=Path, metavar="FILE", help="Markdown file with the two marks")
    options = parser.parse_args()
    if options.write:
        try:
            MARKS.around(options.write)
        except (OSError, ValueError) as error:
            parser.error(str(error))
    return options


def _report(chunks: list[Chunk]) -> int:
    """Print every disagreement; return the exit code."""
    faults = [fault for chunk in chunks for fault in chunk.faults]
    for fault in faults:
        print(fault)
    return 1 if faults else 0


def digest() -> str:
    """Return eight characters that stand for the sources that choose blocks, and the sets."""
    found = sha256()
    parts = ("gaugestack/stacks/*.py", "gaugestack/blocks.py", "gaugestack/angles/angleset.py", "sets/*.yaml")
    for path in sorted(path for part in parts for path in ROOT.glob(part)):
        found.update(path.read_bytes())
    return found.hexdigest()[:8]


def kept_chunks(kept: Path) -> dict[int, tuple[Chunk, str]]:
    """Return the chunks done before; torn ones and those that disagreed are to be done again."""
    done: dict[int, tuple[Chunk, str]] = {}
    for line in kept.read_text(encoding="utf-8").splitlines() if kept.exists() else ():
        try:
            read = json.loads(line)
        except json.JSONDecodeError:
            continue
        sources, _ = read.pop("sources"), read.pop("on")
        chunk = Chunk(**{**read, "counts": Counter(read["counts"])})
        if chunk.faults:
            done.pop(chunk.number, None)
        else:
            done[chunk.number] = (chunk, sources)
    return done


def figures(chunks: list[tuple[Chunk, str]], seed: int, on: str) -> str:
    """Return the table for the document."""
    tools = ", ".join(f"{name} {version(name)}" for name in ("ortools", "numpy"))
    sources = Counter(one for chunk, one in chunks for _ in range(chunk.counts.total()))
    states = ", ".join(f"{one} ({count})" if len(sources) > 1 else one for one, count in sources.items())
    about = f"{on}, seed {seed}, Python {platform.python_version()}, {tools}; state of the sources {states}."
    heads = ("requests", "asked", "found", "impossible", "undecided", "whole order", "count and miss",
             "bound or silent", "disagreements", "ms each")  # fmt: skip
    lines = [_line(heads), _line(["---", *["---:"] * (len(heads) - 1)])]
    lines += [_line(_cells(name, [chunk for chunk, _ in chunks if chunk.kind == name])) for name in KINDS]
    lines.append(_line(_cells("all", [chunk for chunk, _ in chunks])))
    return "\n".join([about, "", *lines]) + "\n"


def _cells(name: str, chunks: list[Chunk]) -> list[str]:
    """Return a row: how the requests of a kind ended, and how far the tables spoke of them."""
    counts: Counter[str] = sum((chunk.counts for chunk in chunks), Counter())
    asked = counts.total()

    def number(*words: str) -> str:
        return str(sum(n for key, n in counts.items() if any(word in key for word in words)))

    return [
        name,
        str(asked),
        number("found,"),
        number("impossible,"),
        number("undecided,", "raised", "refused"),
        number("table: order", "table: impossible"),
        number("table: count"),
        number("table: bound", "table: silent"),
        str(sum(len(chunk.faults) for chunk in chunks)),
        f"{1000 * sum(chunk.seconds for chunk in chunks) / max(asked, 1):.0f}",
    ]


def _line(cells: list[str] | tuple[str, ...]) -> str:
    """Return one line of the table."""
    return "| " + " | ".join(cells) + " |"


if __name__ == "__main__":
    raise SystemExit(main())
