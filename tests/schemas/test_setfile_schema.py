"""The schema of a set file: it admits what the reader reads, and what it cannot see is listed."""

import re
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator, FormatChecker

from gaugestack.errors import RefusedFile, TextError
from gaugestack.inventory import barfile, blockentries, certificatehead, setfile
from gaugestack.inventory.setfile import set_of_text
from gaugestack.lengths import Unit, read_length
from tests.broken.test_broken_files import FAULTS
from tests.docs import documents
from tests.schemas.corevalues import core_values
from tests.schemas.setfile import _LENGTH, _SIGNED, set_file_schema

ROOT = Path(__file__).parents[2]
SCHEMA = set_file_schema()
CHECKER = Draft202012Validator(SCHEMA)
SETS = [path for path in sorted((ROOT / "sets").glob("*.yaml")) if not path.name.startswith("angle-")]
WHOLE = [
    *SETS,
    *sorted((ROOT / "demo").glob("boatyard-*.yaml")),
    ROOT / "tests" / "formats" / "v1" / "set.yaml",
]
NO_YAML = {
    "alias", "at-sign", "binary", "control-character", "duplicate-key", "duplicate-key-in-braces",
    "key-without-colon", "list-as-key", "missing-comma", "not-utf8", "open-bracket", "open-quote",
    "second-colon", "tab-indent", "two-documents", "unknown-escape", "wrong-indent",
}  # fmt: skip
"""Broken before there is anything to hold against a schema: an editor marks them as no YAML."""
UNSEEN = {
    # marks that are gone once YAML has made values of a text
    "anchor", "tag",
    # numbers that YAML can write and gaugestack does not read, or that are too fine
    "size-power", "size-word", "size-too-fine", "serial-too-long",
    # what two places say together
    "absent-more-than-pieces", "absent-no-wear", "absent-only-wear", "absent-twice", "absent-unknown",
    "absent-unknown-serial", "absent-which-serial", "bar-name-twice", "bar-roll-too-thick",
    "deviations-also-in-entry", "deviations-several-pieces", "deviations-size-twice",
    "deviations-unknown-size", "due-before-date", "pieces-wrong", "ranges-overlap", "serial-twice",
    "size-in-range-again", "size-in-range-with-pieces", "size-mixed-unit", "size-mixed-unit-metric",
    "size-twice", "size-twice-one-serial", "wear-size-twice",
    # reckoning
    "bar-base-negative", "bar-error-slip", "bar-too-long", "bar-too-short", "date-no-day",
    "deviation-above-tenth", "deviation-slip", "deviations-slip", "per-length-large", "range-downward",
    "range-remainder", "range-too-long", "temperature-wrong-scale",
}  # fmt: skip
"""Faults of a set file that no schema sees; `gaugestack set check FILE` names them."""


def of_a_set(name):
    """Tell a set file from the files of bars and tables beside it."""
    return not name.startswith("barfile-") and name not in ("certificate-table", "absent-table")


NAMES = sorted({fault[0] for fault in FAULTS if of_a_set(fault[0])})


def broken(name):
    return (ROOT / "tests" / "broken" / f"{name}.yaml").read_bytes()


def test_the_schema_is_one():
    Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize(
    ("part", "known"),
    [
        ("", setfile.KEYS),
        ("range", blockentries._RANGE),
        ("single", blockentries._SINGLE),
        ("certificate", certificatehead._KEYS),
        ("uncertainty", certificatehead._UNCERTAINTY),
        ("bar", barfile.BAR_KEYS),
    ],
)
def test_every_key_the_reader_knows_stands_in_the_schema(part, known):
    mapping = SCHEMA["$defs"][part] if part else SCHEMA

    assert sorted(mapping["properties"]) == sorted(known)


@pytest.mark.parametrize("path", WHOLE, ids=lambda path: path.name)
def test_a_set_that_is_read_is_admitted(path):
    assert [e.message for e in CHECKER.iter_errors(core_values(path.read_text(encoding="utf-8")))] == []


def test_the_set_file_of_the_readme_is_admitted():
    [text] = documents.named_files((ROOT / "README.md").read_text(encoding="utf-8")).values()

    assert CHECKER.is_valid(core_values(text))


@pytest.mark.parametrize("name", [name for name in NAMES if name not in NO_YAML | UNSEEN])
def test_a_fault_of_one_entry_is_seen_in_an_editor(name):
    assert not CHECKER.is_valid(core_values(broken(name).decode()))


@pytest.mark.parametrize("name", sorted(UNSEEN))
def test_what_the_schema_cannot_see_is_listed_and_nothing_else(name):
    assert CHECKER.is_valid(core_values(broken(name).decode()))


@pytest.mark.parametrize("name", sorted(NO_YAML))
def test_what_is_no_yaml_needs_no_schema(name):
    with pytest.raises((yaml.YAMLError, UnicodeDecodeError)):
        core_values(broken(name).decode())


def test_every_fault_listed_is_one_of_the_broken_files():
    assert set(NAMES) >= UNSEEN | NO_YAML


def test_a_checker_of_dates_sees_a_day_that_is_none():
    checker = Draft202012Validator(SCHEMA, format_checker=FormatChecker())

    assert not checker.is_valid(core_values(broken("date-no-day").decode()))


NUMBERS = st.from_regex(
    r"[+\u2212-]?([0-9]{1,4}([.][0-9]{0,6})?|[.][0-9]{1,6}|[0-9]{1,2}[ -][0-9]{1,2}/[0-9]{1,2})",
    fullmatch=True,
)
UNITS = st.sampled_from(
    [
        "",
        "in",
        "IN",
        '"',
        "″",
        "ft",
        "mm",
        "MM",
        "cm",
        "µm",
        "μm",
        "\u039cM",
        "um",
        "nm",
        "thou",
        "µin",
        "kg",
        "x",
    ]
)


@given(NUMBERS, st.sampled_from(["", " ", "  "]), UNITS)
def test_the_pattern_of_a_length_admits_what_is_read(number, space, unit):
    text = f"{number}{space}{unit}"
    for pattern, signed in ((_LENGTH, False), (_SIGNED, True)):
        try:
            read_length(text, bare_unit=Unit.INCH, signed=signed)
        except TextError:
            continue
        assert re.search(pattern, text)


LINES = (ROOT / "tests" / "formats" / "v1" / "set.yaml").read_text(encoding="utf-8").splitlines(keepends=True)
MORE = st.sampled_from(
    [
        "  - {size: 5.0, pieces: 1, serial: A}\n",
        "  - {size: 5.0 in, deviation: -4, trust: own comparison}\n",
        "  - {size: 5, wear: true, note: 7}\n",
        "  - {size: .5, wear: false}\n",
        '  - {size: 5/8, serial: "01"}\n',
        "  - {from: 6, to: 7, step: 0.25, material: ceramic}\n",
        "  - {size: 8, pieces: 2, deviation: 1}\n",
        "  - {size: 8, trust: own comparison}\n",
        "  - {size: 8, wear: yes}\n",
        "  - {size: 8 kg}\n",
        "  - {sise: 8}\n",
    ]
)


@given(st.lists(MORE, max_size=4, unique=True), st.sets(st.integers(1, len(LINES) - 1), max_size=6))
def test_whatever_file_is_read_is_admitted(more, left_away):
    first = next(number for number, line in enumerate(LINES) if line.startswith("absent:"))
    kept = [line for number, line in enumerate(LINES) if number not in left_away or number == first]
    place = kept.index(LINES[first])
    text = "".join([*kept[:place], *more, *kept[place:]])
    try:
        set_of_text(text, file="set.yaml")
    except RefusedFile:
        return
    assert [e.message for e in CHECKER.iter_errors(core_values(text))] == []
