"""Where the texts of a kind begin: this repository's own examples, broken files and documents.

texts("set")        bytes of every example
WORDS               the tokens of the trade, for a dictionary
"""

import re
from pathlib import Path

from gaugestack.inventory.events import Kind as EventKind
from gaugestack.inventory.ledgerlines import KEYS as LEDGER_KEYS
from tests.fuzz.kinds import BENCH, BENCH_TEXT

ROOT = Path(__file__).parents[2]
_DOCUMENTS = ("README.md", "DEVELOPERS.md")
_LONGEST_ARGUMENT = 64
_YAML = ("set", "bars", "job", "angle set")
LEDGER = f"""- {{format: 1, ledger of: "{BENCH.name}"}}
- {{n: 1, on: 2026-02-03, event: missing, size: "0.101 in", written: 2026-02-03T09:15:00}}
- {{n: 2, on: 2026-02-03, event: lent, size: "0.500 in", serial: "A1", to: "Ola", \
written: 2026-02-03T09:15:00}}
- {{n: 3, on: 2026-02-04, event: calibrated, size: "0.102 in", deviation: "+2.0 µin", \
trust: "laboratory report", written: 2026-02-04T09:15:00}}
- {{n: 4, on: 2026-02-05, event: void, size: "0.101 in", record: 1, why: "there", \
written: 2026-02-05T09:15:00}}
"""
_OWN = {
    "length": ("0.6202in", "1-3/8in", "12 µm", "-3 µin", "+0.25", ".5", '5/8"', "40uin", "1 ft", "0.1 thou"),
    "angle": ("7d7m30s", "7:07:30", "7°07'30\"", "7.125deg", "0.1rad", "-3'", "30"),
    "call-out": (
        "3in/ft",
        "1:4",
        "morse 3",
        "0.25in/in",
        "50mm/m",
        "7.5deg/side",
        "15deg included",
        "1.25in to 0.75in over 4in",
        "1.25in at 0in and 0.75in at 4in",
        "5% on diameter",
        "5%/side",
        "slope 1:20 per side",
        "flat 1:12",
        "flat 5%",
        "flat 5deg",
        "flat 1.5in to 1in over 6in",
        "wedge 0.25in/ft",
        "taper pin 4",
        "propeller shaft 1in",
        "7/24",
        "B&S 7",
        "jarno no. 6",
    ),
    "range": ("0.2..4in", "4..50mm", "every 5d from 5d to 30d", "every 30m", "1d", "every 1d to 20d"),
    "words": (
        "23C",
        "68 °F",
        "2 K",
        "a4",
        "100x150mm",
        "0.100#K-117",
        "steel",
        "steel=11.5+-0.5",
        "50%",
        "2",
    ),
    "code": ("T9DR-2SNW", "k7qf2m9p", "K7QF 2M9P"),
    "set": (
        BENCH_TEXT,
        'format: 1\nunit: mm\nblocks:\n  - {size: 1.5, deviation: -4 µm, note: "n"}\n',
        f"{BENCH_TEXT}certificate: {{table: values.csv, value: deviation, columns: {{nominal: Nominal}}}}\n",
    ),
    "bars": (
        "format: 1\nunit: mm\nbars:\n  - {name: a, centre_distance: 100, error: -2, roll_diameter: 20}\n",
    ),
    "job": (
        "format: 1\nname: m\nbar: 5in\nsetups:\n  - {name: a, height: 1in}\n  - {angle: 5deg, bar: 10in}\n",
    ),
    "angle set": ("format: 1\nkind: angle\nblocks: [{angles: [1', 3']}]\nsquare: true\nabsent: [90d]\n",),
    "table": (
        "Nominal (in),Deviation (µin)\n0.101,+3\n0.5,-2\n",
        "Size [in];Wear [0.00001 in];Serial\n0,101;0,5;\n0,5;-1,2;A1\n",
        'Nominal (in)\tActual (in)\tVariation (uin)\n"0.101"\t0.101003\t2\n',
    ),
    "heights": ("0.6202      # a height\n15.752 mm\n5/8in\n", "1\n\n2mm\n"),
    "wishes": ("7d30m       # an angle\n1:07\n", "3in/ft\nmorse 3\nflat 1:12\n15deg included # note\n"),
    "targets": (
        "0.6202in\n15.752 mm  # plug\n5/8\n",
        'height,name,tolerance\n0.6202in,jaw,\n15.752 mm,"a ""plug""",0.5um\n',
        "Angle;Name\n7d7m30s;jaw\n# note\n30;\n",
        "target\ttolerance\n1\t0\n",
    ),
    "ledger": (LEDGER, LEDGER[: LEDGER.index("missing") + 3]),
}


def texts(kind):
    """Return the texts a kind begins with."""
    own = [text.encode() for text in _OWN.get(kind, ())]
    if kind in _YAML:
        return [*own, *(path.read_bytes() for path in _yaml_files(kind))]
    if kind == "table":
        return [*own, *(path.read_bytes() for path in sorted(ROOT.glob("demo/**/*.csv")))]
    if kind == "ledger":
        return [*own, *(path.read_bytes() for path in sorted(ROOT.glob("tests/formats/v1/*.ledger.yaml")))]
    if kind in ("heights", "wishes", "targets"):
        return [*own, *(path.read_bytes() for path in sorted(ROOT.glob("demo/*.txt")))]
    return [*own, *_document_words()]


def _yaml_files(kind):
    """Return the YAML files of the repository that are of a kind, broken ones included."""
    every = [path for where in ("sets", "demo", "tests") for path in sorted(ROOT.glob(f"{where}/**/*.yaml"))]
    return [path for path in every if ".ledger" not in path.name and _kind_of(path) == kind]


def _kind_of(path):
    """Return what kind of file a YAML file is meant to be."""
    data = path.read_bytes()
    if b"setups:" in data:
        return "job"
    if b"kind: angle" in data:
        return "angle set"
    return "bars" if path.name.startswith("bar") and b"blocks:" not in data else "set"


def _document_words():
    """Return what stands between backquotes or blanks in the documents: calls, sizes, angles."""
    found = set()
    for name in _DOCUMENTS:
        text = (ROOT / name).read_text(encoding="utf-8")
        found |= set(re.findall(r"`([^`\n]{1,64})`", text))
        found |= {word for word in text.split() if re.search(r"[0-9]", word)}
    return [word.encode() for word in sorted(found) if len(word) <= _LONGEST_ARGUMENT]


_TOKENS = (Path(__file__).parent / "words.txt").read_text(encoding="utf-8").splitlines()
_ODD = (
    "\0", "\t", "\n", "\r\n", "\r", "\x0b", "\x0c", "\x1c", "\x85", "\xa0", "\u2028", "\u2029", "\ufeff",
    "\u202e", "\u200b", "\u0301", "e\u0301", "\u4e00", "\U0001f527", "\uff11", "\u0663", "\u00bd", "\u2032",
    "\u2033", "\u212a", "\u017f", "\u0130", "\ufb01", "\u1160", "\ud7ff",
)  # fmt: skip
WORDS = tuple(
    dict.fromkeys(
        [
            *_TOKENS,
            *(f"{word}: " for word in (*_TOKENS, *LEDGER_KEYS) if word.isidentifier()),
            *(kind.value for kind in EventKind),
            *_ODD,
        ]
    )
)
