"""What is known of the blocks at hand: certificate, ledger, trend, grade."""

import datetime as dt

import pytest

from gaugestack.answers.stock import load, stock_of, together
from gaugestack.answers.uncertainty import best_basis, height_of
from gaugestack.blocks import Basis, Trust
from gaugestack.inventory.events import Event, Kind
from gaugestack.inventory.ledger import append
from gaugestack.inventory.setfile import load_set, set_of_text
from gaugestack.lengths import Length, Unit
from gaugestack.uncertainty.conditions import Conditions
from gaugestack.uncertainty.stack import height_components

SET = """\
format: 1
name: Bench
unit: mm
standard: ISO 3650
grade: "0"
blocks: [{size: 10}, {size: 20}]
certificate:
  date: 2024-01-01
  source: laboratory report
  uncertainty: {fixed: 0.05 µm, coverage: 2}
  deviations: {10: 0.1}
"""
NOW = dt.datetime(2026, 1, 1, 9)  # noqa: DTZ001  (the ledger's clock is the wall's)


def calibrated(on, deviation_nm, uncertainty_nm=None):
    return Event(
        kind=Kind.CALIBRATED,
        on=on,
        size=Length(10_000_000_000),
        unit=Unit.MILLIMETRE,
        deviation=Length(deviation_nm * 1000),
        uncertainty=None if uncertainty_nm is None else Length(uncertainty_nm * 1000),
        trust=Trust.LABORATORY_REPORT,
    )


@pytest.fixture
def with_ledger(tmp_path):
    """Return a function that records events and gives the stock on a day."""

    def write(*events, on=dt.date(2026, 1, 1)):
        path = tmp_path / "bench.yaml"
        path.write_text(SET, encoding="utf-8")
        if events:
            append(path, load_set(path)[0], events, clock_now=NOW)
        return load([str(path)], on=on)

    return write


def ten(stock, basis=Basis.CERTIFIED):
    """Return the height of the 10 mm block alone."""
    block = next(piece.block for piece in stock.pieces if piece.block.nominal == 10_000_000_000)
    return height_of((block,), basis, stock)


def calibration(height):
    """Return the calibration component of a height."""
    found = height_components(height, Conditions(wringing_limit=0.0))
    return [c for c in found if c.name.startswith("calibration")]


def test_the_set_file_s_certificate_counts_where_the_ledger_has_none(with_ledger):
    [component] = calibration(ten(with_ledger()))

    assert (component.value, component.divisor) == (50, 2)


def test_a_newer_calibration_of_the_ledger_counts_with_its_own_uncertainty(with_ledger):
    [component] = calibration(ten(with_ledger(calibrated(dt.date(2025, 6, 1), 80, 30))))

    assert (component.value, component.divisor) == (30, 2)
    assert "of 2025-06-01" in component.group


def test_a_calibration_of_the_ledger_without_an_uncertainty_leaves_the_grade(with_ledger):
    height = ten(with_ledger(calibrated(dt.date(2025, 6, 1), 80)))

    assert calibration(height) == []
    assert any(c.name.startswith("grade 0") for c in height_components(height, Conditions()))


# By hand: ISO 3650 grade 0, 20 nm + 0.25e-6 x 10 mm = 22.5 nm a year; 731 days.
def test_drift_is_what_the_standard_permits_where_there_is_no_trend(with_ledger):
    height = ten(with_ledger())

    assert height.drift_limits == (pytest.approx(22.5 * 731 / 365.25),)
    assert "permissible change" in height.drift_sources[0]


# By hand: exactly 10 nm down a year in the ledger, last seen a year before the day.
def test_drift_comes_from_the_trend_where_the_ledger_has_one(with_ledger):
    events = [calibrated(dt.date(2022 + n, 1, 1), 120 - 10 * n) for n in range(2)]
    height = ten(with_ledger(*events, calibrated(dt.date(2025, 1, 1), 90)))

    assert "trend of 4 calibrations" in height.drift_sources[0]
    assert height.drift_limits[0] == pytest.approx(10, abs=3)


def test_records_after_the_day_do_not_count(with_ledger):
    events = [calibrated(dt.date(2024 + n, 2, 1), 90) for n in range(2)]
    height = ten(with_ledger(*events, on=dt.date(2024, 1, 1)))

    assert height.drift_limits == ()
    assert calibration(height)[0].value == 50


def test_nominal_sizes_do_not_drift(with_ledger):
    assert ten(with_ledger(), Basis.NOMINAL).drift_limits == ()


def test_a_stock_without_a_day_does_not_drift():
    block_set, _ = set_of_text(SET, file="bench.yaml")

    assert ten(stock_of(block_set)).drift_limits == ()


@pytest.mark.parametrize(
    ("text", "basis"),
    [
        (SET, Basis.CERTIFIED),
        (SET.replace("  uncertainty: {fixed: 0.05 µm, coverage: 2}\n", ""), Basis.NOMINAL),
        (SET.replace("  deviations: {10: 0.1}\n", ""), Basis.NOMINAL),
    ],
)
def test_certified_lengths_are_best_where_their_uncertainty_is_stated(text, basis):
    block_set, _ = set_of_text(text, file="bench.yaml")

    assert best_basis(stock_of(block_set)) is basis


def test_two_sets_of_one_name_keep_what_each_of_them_knows():
    first, _ = set_of_text(SET, file="a.yaml")
    second, _ = set_of_text(SET.replace("0.05 µm", "0.07 µm"), file="b.yaml")
    stock = together([stock_of(first), stock_of(second)])
    tens = [piece.block for piece in stock.pieces if piece.block.nominal == 10_000_000_000]
    values = {
        block.owner: calibration(height_of((block,), Basis.CERTIFIED, stock))[0].value for block in tens
    }

    assert values == {"Bench": 50, "Bench (2)": 70}


def test_a_borrowed_wear_pair_is_known_by_its_own_set(tmp_path):
    wear = tmp_path / "wear.yaml"
    wear.write_text(
        'format: 1\nname: Wear\nunit: mm\nstandard: ISO 3650\ngrade: "1"\n'
        "blocks: [{size: 2, pieces: 2, wear: true, material: tungsten carbide}]\n",
        encoding="utf-8",
    )
    block_set, _ = set_of_text(SET, file="bench.yaml")
    pair = load([str(wear)]).wear
    height = height_of(pair, Basis.NOMINAL, stock_of(block_set), str(wear))

    assert height_components(height, Conditions())[0].name == "grade 1 of 2 mm"
