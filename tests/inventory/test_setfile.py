"""What a set file may say; what it may not is in tests/broken."""

import time
from datetime import date

import pytest

from gaugestack.errors import RefusedFile
from gaugestack.inventory.setfile import load_set, set_of_text
from gaugestack.inventory.shipped import shipped_path
from gaugestack.lengths import Unit

INCH = "format: 1\nunit: in\n"
METRIC = "format: 1\nunit: mm\n"


def read(text):
    return set_of_text(text, file="bench.yaml")[0]


def blocks(entries, head=INCH, tail=""):
    lines = "".join(f"  - {entry}\n" for entry in entries)
    return read(f"{head}blocks:\n{lines}{tail}")


def sentences(text):
    with pytest.raises(RefusedFile) as caught:
        read(text)
    return [problem.sentence for problem in caught.value.problems]


def test_a_set_without_a_name_is_called_after_its_file():
    block_set = blocks(["{size: 0.1}"])

    assert (block_set.name, block_set.blocks[0].owner) == ("bench", "bench")


def test_a_range_holds_both_its_ends():
    block_set = blocks(["{from: 1, to: 1.5, step: 0.25}"], METRIC)

    assert [block.engraved for block in block_set.blocks] == ["1.5 mm", "1.25 mm", "1 mm"]


def test_a_range_of_one_size_is_one_block():
    assert len(blocks(["{from: 0.1, to: 0.1, step: 0.1}"]).blocks) == 1


def test_a_size_may_carry_the_units_own_name():
    assert blocks(["{size: 0.1 in}", '{size: 0.2"}', "{size: 5/8 in}"]).finest_step == 635_000_000


def test_equal_pieces_are_numbered():
    assert [block.copy for block in blocks(["{size: 0.1, pieces: 3}"]).blocks] == [1, 2, 3]


def test_two_serials_are_two_blocks():
    block_set = blocks(["{size: 0.1, serial: B}", "{size: 0.1, serial: A}"])

    assert [(block.serial, block.copy) for block in block_set.blocks] == [("A", 1), ("B", 1)]


@pytest.mark.parametrize("told", ["serial: A", "deviation: -4", "note: scratched"])
def test_an_entry_describes_a_piece_of_a_range_and_is_no_second_one(told):
    ranged = "{from: 0.1, to: 0.3, step: 0.1, material: ceramic}"
    block_set = blocks([ranged, f"{{size: 0.2, {told}}}"])

    assert len(block_set.blocks) == 3
    assert {block.material for block in block_set.blocks} == {"ceramic"}


def test_two_descriptions_of_one_piece_of_a_range_are_refused():
    ranged = "blocks:\n  - {from: 0.1, to: 0.3, step: 0.1}\n"
    twice = "  - {size: 0.2, serial: A}\n  - {size: 0.2, serial: B}\n"

    assert sentences(INCH + ranged + twice) == ["0.200 in stands twice: first in line 4"] * 2


def test_wear_blocks_are_a_kind_apart():
    block_set = blocks(["{size: 0.05}", "{size: 0.05, pieces: 2, wear: true}"])

    assert [block.wear for block in block_set.blocks] == [False, True, True]


def test_the_material_of_an_entry_comes_before_that_of_the_set():
    block_set = blocks(["{size: 0.2, material: ceramic}", "{size: 0.1}"], INCH + "material: carbide\n")

    assert [block.material for block in block_set.blocks] == ["ceramic", "carbide"]


def test_a_bare_deviation_counts_the_small_unit_of_the_set():
    assert blocks(["{size: 0.1, deviation: -4}"]).blocks[0].deviation == -4 * 25_400
    assert blocks(["{size: 1, deviation: +0.25}"], METRIC).blocks[0].deviation == 250_000


def test_a_deviation_may_be_in_any_unit():
    assert blocks(["{size: 0.1, deviation: 0.1 µm}"]).blocks[0].deviation == 100_000


def test_a_deviation_of_one_hundredth_of_the_size_is_read():
    assert blocks(["{size: 0.1, deviation: 0.001 in}"]).blocks[0].deviation == 25_400_000


def test_an_absent_piece_leaves_the_blocks_but_stays_issued():
    block_set = blocks(["{from: 0.1, to: 0.3, step: 0.1}"], INCH + "pieces: 3\n", "absent: [0.2]\n")

    assert (len(block_set.blocks), len(block_set.absent), len(block_set.issued)) == (2, 1, 3)


def test_a_wear_block_and_a_serial_can_be_absent():
    entries = [
        "{size: 0.05}",
        "{size: 0.05, pieces: 2, wear: true}",
        "{size: 1, serial: A}",
        "{size: 1, serial: B}",
    ]
    block_set = blocks(entries, tail="absent: [{size: 0.05, wear: true}, {size: 1, serial: A}]\n")

    assert [(block.serial, block.wear, block.copy) for block in block_set.absent] == [
        ("A", False, 1),
        ("", True, 2),
    ]
    assert block_set.wear_pairs() == ()


def test_both_of_two_equal_pieces_can_be_absent():
    block_set = blocks(["{size: 0.1, pieces: 2}"], tail="absent: [0.1, 0.1]\n")

    assert (block_set.blocks, len(block_set.absent)) == ((), 2)


def test_a_certificate_may_give_only_a_number():
    certificate = blocks(["{size: 0.1}"], tail="certificate: {number: 7}\n").certificate

    assert (certificate.number, certificate.date, certificate.uncertainty) == ("7", None, None)


def test_a_certificate_may_be_due_the_day_it_is_dated():
    tail = "certificate: {date: 2024-02-29, due: 2024-02-29, temperature: 68 °F}\n"
    certificate = blocks(["{size: 0.1}"], tail=tail).certificate

    assert (certificate.date, certificate.due) == (date(2024, 2, 29), date(2024, 2, 29))
    assert certificate.temperature == "68 °F"


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("1 µin/in", 10**6),
        ("0.5 µm/m", 500_000),
        ("0.05 µm/100 mm", 500_000),
        ("0 µm/m", 0),
        ("1 mm/m", 10**9),
    ],
)
def test_an_uncertainty_per_length_is_a_pure_number(text, parts):
    tail = f"certificate:\n  uncertainty: {{fixed: 0.05, per_length: {text}, coverage: 2.0}}\n"
    uncertainty = blocks(["{size: 1}"], METRIC, tail).certificate.uncertainty

    assert (uncertainty.fixed, uncertainty.per_length, uncertainty.coverage) == (50_000, parts, "2.0")


def test_a_certificate_may_speak_of_an_absent_piece():
    tail = "absent: [0.1]\ncertificate:\n  deviations: {0.1: +2, 0.2: 0}\n"
    block_set = blocks(["{size: 0.1}", "{size: 0.2}"], tail=tail)

    assert (block_set.absent[0].deviation, block_set.blocks[0].deviation) == (50_800, 0)


def test_a_deviation_belongs_to_the_ordinary_block_beside_wear_blocks():
    entries = ["{size: 0.05}", "{size: 0.05, pieces: 2, wear: true}"]
    block_set = blocks(entries, tail="certificate:\n  deviations: {0.05: 3}\n")

    assert [block.deviation for block in block_set.blocks] == [76_200, None, None]


@pytest.mark.parametrize(
    ("entry", "shown"), [("1.0005", "1.0005"), ("all", "0.050"), ("{note: new}", "0.050")]
)
def test_an_entry_without_a_key_is_shown_how_its_size_is_written(entry, shown):
    with pytest.raises(RefusedFile) as refused:
        set_of_text(f"format: 1\nunit: mm\nblocks:\n  - {entry}\n", file="bench.yaml")

    assert [problem.hint for problem in refused.value.problems] == [
        f"write {{size: {shown}}} or {{from: 0.101, to: 0.149, step: 0.001}}"
    ]


def test_the_basis_of_the_source_stays_with_it():
    head = METRIC + "source: list in the lid\nbasis: common practice\n"

    assert blocks(["{size: 1}"], head).source == "list in the lid (common practice)"


def test_a_thousand_pieces_are_read_and_one_more_is_refused():
    assert len(blocks(["{from: 0.001, to: 1, step: 0.001}"], METRIC).blocks) == 1000
    over = METRIC + "blocks:\n  - {from: 0.001, to: 1, step: 0.001}\n  - {size: 2}\n"
    assert sentences(over) == ["1001 pieces up to here: a set file describes at most 1000"]


def test_a_range_of_a_million_million_sizes_is_refused_at_once():
    began = time.monotonic()

    sentences(METRIC + "blocks:\n  - {from: 0.000000001, to: 1000, step: 0.000000001}\n")

    assert time.monotonic() - began < 0.5


def test_ten_thousand_blocks_are_refused_quickly():
    text = METRIC + "blocks:\n" + "".join(f"  - {{size: {n / 1000}}}\n" for n in range(1, 10_001))
    began = time.monotonic()

    assert sentences(text) == ["1001 pieces up to here: a set file describes at most 1000"]
    assert time.monotonic() - began < 2


def test_names_of_an_entry_that_could_not_be_read_are_not_blamed():
    text = INCH + "blocks:\n  - {from: 0.1, to: 0.35, step: 0.1}\n  - {size: 1}\nabsent: [0.2]\n"
    text += "certificate:\n  deviations: {0.3: 1}\n"

    assert sentences(text) == ["the steps do not end on 'to': 0.05 in is left over"]


def test_the_inch_set_loads_in_a_few_milliseconds():
    path = shipped_path("inch-81")
    load_set(path)
    spans = []
    for _ in range(10):
        began = time.perf_counter()
        load_set(path)
        spans.append(time.perf_counter() - began)

    assert min(spans) < 0.010


def test_units_of_a_set_are_inch_or_millimetre():
    assert (blocks(["{size: 1}"]).unit, blocks(["{size: 1}"], METRIC).unit) == (Unit.INCH, Unit.MILLIMETRE)
