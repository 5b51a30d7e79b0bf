"""Every fault a file can have: its place and its sentence, exactly."""

from pathlib import Path

import pytest

from gaugestack.errors import RefusedFile
from gaugestack.inventory.barfile import load_bars
from gaugestack.inventory.setfile import load_set

HERE = Path(__file__).parent
FAULTS = [
    ("tab-indent", "4:1", "a tab: indent with spaces"),
    ("missing-comma", "4:18", "a comma or a closing } is missing before this"),
    ("open-bracket", "6:5", "a comma or a closing ] is missing before this"),
    ("open-quote", "6:1", "the file ends inside a quoted text"),
    ("second-colon", "5:12", "a colon that cannot stand here"),
    ("key-without-colon", "6:1", "a key without its colon"),
    ("wrong-indent", "5:3", "this line fits neither what stands above it nor a new key"),
    ("at-sign", "5:7", "no value can begin with this character"),
    ("unknown-escape", "5:9", "this backslash means nothing"),
    ("duplicate-key", "5:1", "the key 'unit' stands twice: first in line 2"),
    ("duplicate-key-in-braces", "4:19", "the key 'size' stands twice: first in line 4"),
    ("anchor", "4:5", "anchors (&first) are not read"),
    ("alias", "5:9", "aliases (*first) are not read"),
    ("tag", "4:12", "tags (!) are not read"),
    ("list-as-key", "5:3", "a key must be a plain word or number"),
    ("two-documents", "5:1", "a second document begins here: one file describes one set"),
    ("only-comments", "1:1", "the file holds nothing but comments"),
    ("empty", "1:1", "the file is empty"),
    ("control-character", "5:8", "a control character (U+0007) in the text"),
    ("binary", "1:1", "this is a binary file (or UTF-16), not UTF-8 text"),
    ("not-utf8", "1:1", "not UTF-8 text: byte 29, in line 3, is 0xE9"),
    ("too-deep", "3:28", "nested deeper than 20 levels"),
    ("a-list", "1:1", "a set file is written with keys and values"),
    ("format-missing", "1:1", "the key 'format' is missing"),
    ("format-unknown", "1:9", "format '2' is not known: this program reads format 1"),
    ("unit-missing", "1:1", "the key 'unit' is missing"),
    ("unit-unknown", "2:7", "unit is in or mm, not 'inch'"),
    ("unit-empty", "2:6", "unit has no value"),
    ("blocks-missing", "1:1", "the key 'blocks' is missing"),
    ("blocks-empty", "3:9", "blocks is empty: a set has at least one block"),
    ("blocks-no-list", "3:9", "blocks is a list"),
    ("unknown-key", "5:1", "a set file has no key 'abssent'"),
    ("unknown-key-in-block", "4:19", "a block has no key 'serail'"),
    ("name-too-long", "5:7", "name is longer than 80 characters"),
    (
        "name-hidden-character",
        "5:7",
        "name holds a character that cannot be seen (U+202E, right-to-left override)",
    ),
    ("name-a-list", "5:7", "name takes one value"),
    ("basis-unknown", "5:8", "basis is seen, memory, common practice or computed, not 'heard'"),
    ("pieces-wrong", "3:9", "pieces says 2, but the blocks add up to 1"),
    ("pieces-no-number", "3:9", "pieces is a whole number from 1 to 1000, not 'many'"),
    ("range-remainder", "4:23", "the steps do not end on 'to': 0.0005 in is left over"),
    ("range-downward", "4:23", "'to' is below 'from'"),
    ("range-step-zero", "4:36", "zero: a length is above zero"),
    ("range-without-step", "4:5", "the key 'step' is missing"),
    ("range-wear", "4:41", "'wear' does not fit a range"),
    ("range-serial", "4:41", "'serial' does not fit a range"),
    ("range-too-long", "4:5", "10000 pieces up to here: a set file describes at most 1000"),
    ("range-and-size", "4:41", "'size' does not fit a range"),
    (
        "ranges-overlap",
        "5:5",
        "this range gives 0.100 in, 0.200 in, 0.300 in and 2 more again: first in line 4",
    ),
    ("entry-without-braces", "4:5", "a block needs a size, or from, to and step"),
    ("entry-without-size", "4:5", "a block needs a size, or from, to and step"),
    ("size-empty", "4:12", "size has no value"),
    ("size-sexagesimal", "4:13", "':30' is not a unit of length"),
    ("size-comma", "4:14", "a comma: write the decimal point as a point"),
    ("size-power", "4:13", "powers of ten are not read: write the number out"),
    ("size-zero", "4:12", "zero: a length is above zero"),
    ("size-negative", "4:12", "below zero: a length is above zero"),
    ("size-word", "4:12", "no number here"),
    ("size-mixed-unit", "4:12", "mixed units: a size in the other unit"),
    ("size-mixed-unit-metric", "4:12", "mixed units: a size in the other unit"),
    ("size-above-1-m", "4:12", "longer than 1 m: no gauge block is"),
    ("size-too-fine", "4:12", "not a whole number of picometres"),
    ("size-twice", "6:5", "0.100 in stands twice: first in line 4"),
    ("size-twice-one-serial", "5:5", "0.100 in stands twice: first in line 4"),
    ("size-in-range-again", "5:5", "0.200 in stands twice: first in line 4"),
    ("size-in-range-with-pieces", "5:5", "0.200 in stands twice: first in line 4"),
    ("wear-size-twice", "5:5", "0.050 in stands twice: first in line 4"),
    ("serial-twice", "5:5", "serial 'A' of 0.100 in stands twice: first in line 4"),
    ("serial-too-long", "4:27", "serial is longer than 40 characters"),
    ("serial-for-two-pieces", "4:38", "one serial for 2 pieces"),
    ("deviation-for-two-pieces", "4:41", "one deviation for 2 pieces"),
    ("pieces-zero", "4:27", "pieces is a whole number from 1 to 99, not '0'"),
    ("pieces-hundred", "4:27", "pieces is a whole number from 1 to 99, not '100'"),
    ("wear-yes", "4:25", "wear is true or false, not 'yes'"),
    ("note-too-long", "4:25", "note is longer than 200 characters"),
    ("deviation-slip", "4:30", "a deviation of +1100.0 µin at 0.100 in: a slip?"),
    ("deviation-above-tenth", "4:28", "a deviation of +101.0 µm at 100 mm: a slip?"),
    ("deviation-word", "4:30", "no number here"),
    ("absent-unknown", "5:10", "0.105 in is no size of this set"),
    ("absent-twice", "5:17", "0.100 in is listed twice"),
    ("absent-more-than-pieces", "5:24", "0.100 in is listed more often than its 2 pieces"),
    ("absent-only-wear", "5:10", "only wear blocks are 0.050 in"),
    ("absent-no-wear", "5:10", "no 0.100 in block is a wear block"),
    ("absent-which-serial", "6:10", "several 0.100 in blocks differ by their serials: say which is absent"),
    ("absent-unknown-serial", "5:10", "no 0.100 in block has the serial 'B'"),
    ("absent-no-list", "5:9", "absent is a list"),
    ("absent-without-size", "5:10", "the key 'size' is missing"),
    ("certificate-no-mapping", "5:14", "certificate is written with keys and values"),
    ("certificate-unknown-key", "6:3", "certificate has no key 'nummber'"),
    ("certificate-table", "6:10", "the table 'values.csv': there is no such file"),
    ("table-a-folder", "6:10", "the table '..': this is a directory, not a file"),
    ("table-beside-deviations", "6:3", "a table beside deviations: write one of the two"),
    ("table-unit-unknown", "7:15", "deviation: 'lb' is not a unit of length"),
    ("columns-unknown-key", "7:13", "columns has no key 'nominel'"),
    ("value-unknown", "7:10", "value is deviation, actual or wear, not 'size'"),
    ("value-without-table", "6:3", "'value' belongs to a table, and there is none"),
    (
        "certificate-source-unknown",
        "6:11",
        "source is laboratory report, own comparison or unverified sheet, not 'hearsay'",
    ),
    (
        "certificate-source-nominal",
        "6:11",
        "source is laboratory report, own comparison or unverified sheet, not 'nominal only'",
    ),
    (
        "trust-unknown",
        "4:41",
        "trust is laboratory report, own comparison or unverified sheet, not 'guess'",
    ),
    ("trust-without-deviation", "4:19", "'trust' belongs to a deviation, and there is none"),
    ("date-no-day", "6:9", "the calendar has no 2026-02-30"),
    ("date-order", "6:9", "'03.02.2026' is not a date"),
    ("due-before-date", "7:8", "the certificate is due before its date"),
    ("temperature-word", "6:16", "'room' is not a temperature"),
    ("temperature-wrong-scale", "6:16", "no room for measuring is so cold or hot"),
    ("uncertainty-without-fixed", "6:16", "the key 'fixed' is missing"),
    ("uncertainty-negative", "6:24", "an uncertainty lies between 0 and 0.1 mm"),
    ("per-length-bare", "6:39", "not an uncertainty per length"),
    ("per-length-no-length", "6:39", "'lb' is not a unit of length"),
    ("per-length-large", "6:39", "an uncertainty per length lies between 0 and 0.001, in steps of 1e-12"),
    ("coverage-zero", "6:37", "the coverage factor is a number above zero, not '0'"),
    ("coverage-word", "6:37", "the coverage factor is a number above zero, not 'two'"),
    ("deviations-no-mapping", "6:15", "deviations are pairs of size and deviation"),
    ("deviations-unknown-size", "6:16", "0.1001 in is no size of this set"),
    ("deviations-size-twice", "6:26", "the deviation of 0.100 in is given twice here"),
    ("deviations-empty", "6:23", "a deviation has no value"),
    ("deviations-also-in-entry", "6:16", "the deviation of 0.100 in is given twice: also in line 4"),
    ("deviations-several-pieces", "6:16", "2 blocks are 0.100 in: whose deviation is this?"),
    ("deviations-slip", "6:16", "a deviation of +1001.0 µin at 0.100 in: a slip?"),
    ("bar-unknown-key", "6:35", "a bar has no key 'center'"),
    ("bar-without-distance", "6:5", "the key 'centre_distance' is missing"),
    ("bar-name-twice", "7:5", "the bar 'A' stands twice"),
    ("bar-too-short", "6:32", "a centre distance of 9 mm is below 10 mm"),
    ("bar-too-long", "6:32", "a centre distance of 2001 mm is above 2 m"),
    ("bar-kind", "6:41", "kind is single or compound, not 'double'"),
    ("bar-error-slip", "6:42", "an error of the centre distance above 0.1 mm: a slip?"),
    ("bar-roll-too-thick", "6:50", "roll_diameter lies between 0 and 2.5 in on this bar"),
    ("bar-base-negative", "6:48", "base_height lies between 0 and 5 in on this bar"),
    ("barfile-bare-number", "3:33", "a unit is missing"),
    ("barfile-without-bars", "1:1", "the key 'bars' is missing"),
    ("barfile-with-blocks", "3:1", "a bar file has no key 'blocks'"),
]


def problems_of(path):
    load = load_bars if path.name.startswith("barfile") else load_set
    with pytest.raises(RefusedFile) as caught:
        load(path)
    return caught.value.problems


@pytest.mark.parametrize(("name", "where", "sentence"), FAULTS, ids=[fault[0] for fault in FAULTS])
def test_the_fault_is_named_with_its_place(name, where, sentence):
    path = HERE / f"{name}.yaml"

    (problem,) = problems_of(path)

    assert (f"{problem.place.line}:{problem.place.column}", problem.sentence) == (where, sentence)
    assert str(problem).startswith(f"{path}:{where}: ")


def test_every_broken_file_stands_in_the_table():
    written = {path.stem for path in HERE.glob("*.yaml")} - {"many-faults"}

    assert written == {fault[0] for fault in FAULTS}


def test_a_file_with_many_faults_names_them_all_in_the_order_of_the_file():
    problems = problems_of(HERE / "many-faults.yaml")

    assert [(problem.place.line, problem.sentence) for problem in problems] == [
        (3, "a set file has no key 'grde'"),
        (4, "pieces is a whole number from 1 to 1000, not 'none'"),
        (6, "the steps do not end on 'to': 0.0005 in is left over"),
        (7, "':30' is not a unit of length"),
        (8, "mixed units: a size in the other unit"),
        (8, "wear is true or false, not 'maybe'"),
        (10, "0.500 in stands twice: first in line 9"),
        (11, "'furlong' is not a unit of length"),
        (13, "'yesterday' is not a date"),
        (14, "'20' is not a temperature"),
        (16, "a centre distance of 5000 mm is above 2 m"),
    ]
