import pytest

from gaugestack.blocks import Basis, Block, BlockSet, CalibrationUncertainty, Certificate
from gaugestack.errors import UsageError
from gaugestack.grades_tables import Standard
from gaugestack.lengths import Length, Unit
from gaugestack.uncertainty.knowledge import (
    Knowledge,
    calibration_uncertainty,
    drift_limits,
    knowledge_of,
    length_components,
)

MM = 1_000_000_000
STATED = CalibrationUncertainty(fixed=Length(50_000), per_length=500_000, coverage="2")
BY_GRADE = Knowledge(standard=Standard.ISO_3650, grade="1")
BY_CERTIFICATE = Knowledge(certificate=Certificate(number="K-1", uncertainty=STATED))
BOTH = Knowledge(
    standard=Standard.ISO_3650, grade="1", certificate=Certificate(number="K-1", uncertainty=STATED)
)


def block(millimetres=50, **more):
    return Block(nominal=Length(millimetres * MM), unit=Unit.MILLIMETRE, **more)


CERTIFIED = block(deviation=Length(120_000))


# National standard laboratory, published range: U = (0.05 + 0.5 L) µm: 10 mm 0.055 µm, 100 mm 0.10 µm (seen).
@pytest.mark.parametrize(("millimetres", "nanometres"), [(10, 55), (50, 75), (100, 100)])
def test_the_stated_uncertainty_grows_with_the_block(millimetres, nanometres):
    assert calibration_uncertainty(STATED, block(millimetres)) == pytest.approx(nanometres)


def test_a_set_in_inches_counts_its_microinches():
    stated = CalibrationUncertainty(fixed=Length(3 * 25_400), per_length=2_000_000, coverage="2")
    four_inches = Block(nominal=Length(4 * 25_400_000_000), unit=Unit.INCH)
    # certificate quoted in a published discussion: (3 + 2 L) µin, 11 µin at 4 in (seen)
    assert calibration_uncertainty(stated, four_inches) == pytest.approx(11 * 25.4)


def test_a_certified_block_takes_the_certificate_over_its_coverage_factor():
    (only,) = length_components(CERTIFIED, BY_CERTIFICATE, Basis.CERTIFIED, 1.0)
    assert only.contribution == pytest.approx(37.5)
    assert only.group == "calibration, certificate K-1 of the set"


def test_a_block_that_shares_nothing_goes_wrong_alone():
    (only,) = length_components(CERTIFIED, BY_CERTIFICATE, Basis.CERTIFIED, 0.0)
    assert (only.group, only.contribution) == ("", pytest.approx(37.5))


def test_a_half_shared_uncertainty_keeps_its_size():
    parts = length_components(CERTIFIED, BY_CERTIFICATE, Basis.CERTIFIED, 0.5)
    assert [bool(part.group) for part in parts] == [True, False]
    assert sum(part.contribution**2 for part in parts) == pytest.approx(37.5**2)


@pytest.mark.parametrize(
    ("piece", "basis"),
    [(block(), Basis.CERTIFIED), (CERTIFIED, Basis.NOMINAL), (block(), Basis.NOMINAL)],
)
def test_without_a_certified_length_the_limit_of_the_grade_counts_rectangular(piece, basis):
    (only,) = length_components(piece, BOTH, basis, 1.0)
    assert (only.value, only.distribution.value) == (400, "rectangular")  # grade 1, 50 mm: 0.40 µm


# ASME B89.1.9-2002: AS-1 allows 12 µin at 1 in; its metric table 0.40 µm up to 50 mm.
@pytest.mark.parametrize(("unit", "nanometres"), [(Unit.INCH, 12 * 25.4), (Unit.MILLIMETRE, 400)])
def test_the_limit_of_a_grade_is_that_of_the_unit_the_block_is_engraved_in(unit, nanometres):
    piece = Block(nominal=Length(25_400_000_000), unit=unit)
    known = Knowledge(standard=Standard.ASME_B89_1_9, grade="AS-1")
    (only,) = length_components(piece, known, Basis.NOMINAL, 1.0)
    assert only.value == pytest.approx(nanometres)


def test_a_deviation_whose_uncertainty_nobody_states_counts_by_its_grade():
    (only,) = length_components(CERTIFIED, BY_GRADE, Basis.CERTIFIED, 1.0)
    assert only.name == "grade 1 of 50 mm"


def test_a_block_nothing_is_known_of_is_refused():
    with pytest.raises(UsageError, match="nothing says how far the block 50 mm may be off"):
        length_components(CERTIFIED, Knowledge(), Basis.CERTIFIED, 1.0)


def test_a_grade_without_limits_at_that_length_is_refused():
    with pytest.raises(UsageError, match="nothing says how far"):
        length_components(block(2000), BY_GRADE, Basis.NOMINAL, 1.0)


def test_the_variation_of_the_certificate_comes_before_that_of_the_grade():
    own = block(deviation=Length(0), variation=Length(60_000))
    assert length_components(own, BOTH, Basis.CERTIFIED, 1.0)[-1].value == 60
    assert length_components(CERTIFIED, BOTH, Basis.CERTIFIED, 1.0)[-1].value == 180  # tolerance, grade 1


def test_a_variation_is_triangular_and_none_known_is_left_out():
    own = block(deviation=Length(0), variation=Length(60_000))
    assert length_components(own, BY_CERTIFICATE, Basis.CERTIFIED, 1.0)[-1].distribution.value == "triangular"
    assert len(length_components(CERTIFIED, BY_CERTIFICATE, Basis.CERTIFIED, 1.0)) == 1


def test_a_certificate_with_a_coverage_factor_of_zero_is_refused():
    zero = CalibrationUncertainty(fixed=Length(1000), coverage="0")
    with pytest.raises(UsageError, match="a coverage factor k of 0"):
        length_components(
            CERTIFIED, Knowledge(certificate=Certificate(uncertainty=zero)), Basis.CERTIFIED, 1.0
        )


def test_a_set_says_what_is_known_of_its_blocks():
    known = knowledge_of(
        BlockSet(name="k", unit=Unit.INCH, blocks=(), standard="ASME B89.1.9-2002", grade="AS-1")
    )
    assert (known.standard, known.grade) == (Standard.ASME_B89_1_9, "AS-1")


def test_a_set_with_a_certificate_is_known_by_it():
    certificate = Certificate(number="K-1", uncertainty=STATED)
    known = knowledge_of(BlockSet(name="k", unit=Unit.INCH, blocks=(), certificate=certificate))
    assert known.certificate is certificate


@pytest.mark.parametrize("standard", ["", "a leaflet"])
def test_a_standard_nobody_knows_counts_as_none(standard):
    known = knowledge_of(BlockSet(name="k", unit=Unit.INCH, blocks=(), standard=standard, grade="1"))
    assert known.standard is None


# ISO 3650:1998, 6.2.4 (memory): grade 1, 0.05 µm + 0.5e-6 l a year.
def test_drift_grows_with_the_years_and_the_length():
    assert drift_limits((block(100), block(10)), BY_GRADE, 2.0) == pytest.approx((200, 110))


def test_drift_where_a_standard_gives_no_figure_is_nothing():
    federal = Knowledge(standard=Standard.GGG_G_15C, grade="1")
    assert drift_limits((block(100),), federal, 2.0) == (0.0,)


def test_drift_of_a_set_without_a_standard_is_nothing():
    assert drift_limits((block(100),), Knowledge(), 2.0) == (0.0,)


@pytest.mark.parametrize("years", [-0.1, float("nan"), float("inf")])
def test_years_below_zero_are_refused(years):
    with pytest.raises(UsageError, match="since the calibration: zero or above"):
        drift_limits((block(),), BY_GRADE, years)


def test_no_years_are_allowed_and_move_nothing():
    assert drift_limits((block(),), BY_GRADE, 0) == (0.0,)
