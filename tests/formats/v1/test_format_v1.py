"""Files of format 1, frozen: whatever the program becomes, they read like this."""

from datetime import date
from pathlib import Path

from gaugestack.angles.sine import SineBar
from gaugestack.blocks import CalibrationUncertainty, Certificate
from gaugestack.inventory.barfile import load_bars
from gaugestack.inventory.setfile import load_set
from gaugestack.lengths import PM_PER_INCH, PM_PER_MM, Unit

HERE = Path(__file__).parent
SET, bars = load_set(HERE / "set.yaml")


def piece(inches, *, wear=False):
    (found,) = (block for block in SET.issued if block.engraved == f"{inches} in" and block.wear == wear)
    return found


def test_the_head_of_the_set_reads_as_written():
    assert (SET.name, SET.unit, SET.standard) == ("Bench set, bought second-hand", Unit.INCH, "ASME B89.1.9")
    assert (SET.grade, SET.material) == ("AS-1", "steel")
    assert SET.source == "list in the lid of the box (seen)"
    assert SET.file == str(HERE / "set.yaml")


def test_81_ordinary_pieces_and_2_wear_blocks_were_issued():
    assert sum(not block.wear for block in SET.issued) == 81
    assert sum(block.wear for block in SET.issued) == 2
    assert [block.engraved for block in SET.absent] == ["0.137 in", "0.105 in"]
    assert len(SET.blocks) == 81


def test_a_described_piece_keeps_its_serial_deviation_and_note():
    block = piece("0.100")

    assert (block.serial, block.deviation, block.note) == ("K-117", -4 * 25_400, "scratched corner")
    assert (block.material, block.owner, block.place.line) == ("steel", SET.name, 17)


def test_wear_blocks_are_a_pair_of_another_material():
    pair = SET.wear_pairs()[0]

    assert [block.copy for block in pair] == [1, 2]
    assert {block.material for block in pair} == {"tungsten carbide"}


def test_the_certificate_reads_as_written():
    assert SET.certificate == Certificate(
        number="demo-0117",
        date=date(2026, 2, 3),
        due=date(2027, 2, 3),
        temperature="20 °C",
        uncertainty=CalibrationUncertainty(fixed=2 * 25_400, per_length=1_000_000, coverage="2"),
    )
    assert piece("0.1001").deviation == 2 * 25_400
    assert piece("0.1002").deviation == -25_400
    assert piece("0.1003").deviation is None


def test_the_bars_of_the_set_read_as_written():
    file = str(HERE / "set.yaml")
    assert bars == (
        SineBar(
            name="bench",
            centre_distance=5 * PM_PER_INCH,
            error=-20 * 25_400,
            unit=Unit.INCH,
            roll_diameter=PM_PER_INCH * 3 // 4,
            file=file,
        ),
        SineBar(
            name="plate",
            centre_distance=100 * PM_PER_MM,
            error=2_000_000,
            unit=Unit.MILLIMETRE,
            kind="compound",
            base_height=10 * PM_PER_MM,
            file=file,
        ),
    )


def test_a_bar_file_reads_as_written():
    short, long = load_bars(HERE / "bars.yaml")

    assert (short.name, short.centre_distance, short.error) == ("short", 100 * PM_PER_MM, 1_500_000)
    assert (short.roll_diameter, short.unit, short.kind) == (20 * PM_PER_MM, Unit.MILLIMETRE, "single")
    assert (long.centre_distance, long.error, long.unit) == (10 * PM_PER_INCH, -20 * 25_400, Unit.INCH)
