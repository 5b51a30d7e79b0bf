from fractions import Fraction

import pytest

from gaugestack.angles.callout import read_taper
from gaugestack.angles.fit import (
    FRICTION,
    MILLING,
    RETENTION,
    UNKNOWN,
    ByFriction,
    FrictionRange,
    Holding,
    by_friction,
    classification,
    fit,
)
from gaugestack.angles.published import find_published


def cone(text):
    return read_taper(text, bare_unit=None)


@pytest.mark.parametrize(
    ("text", "holding", "basis"),
    [
        ("1:20", Holding.SELF_HOLDING, "seen"),
        ("3deg included", Holding.SELF_HOLDING, "seen"),
        ("0.750in/ft", Holding.SELF_HOLDING, "memory"),
        ("0.751in/ft", Holding.NOT_CLASSIFIED, "none"),
        ("15.99deg included", Holding.NOT_CLASSIFIED, "none"),
        ("16deg included", Holding.SELF_RELEASING, "seen"),
        ("7:24", Holding.SELF_RELEASING, "seen"),
    ],
)
def test_a_taper_is_classified_only_where_a_document_does(text, holding, basis):
    found = classification(cone(text))
    assert found.holding == holding
    assert found.basis == basis
    assert found.source


@pytest.mark.parametrize(
    ("name", "holding"),
    [
        ("morse 5", Holding.SELF_HOLDING),
        ("brown and sharpe 10", Holding.SELF_HOLDING),
        ("7/24 40", Holding.SELF_RELEASING),
        ("jacobs 2", Holding.NOT_CLASSIFIED),
    ],
)
def test_a_named_taper_is_classified_by_its_own_document(name, holding):
    published = find_published(name)
    found = classification(published.taper(name), published)
    assert found.holding == holding
    if holding is not Holding.NOT_CLASSIFIED:
        assert found.source == published.document


@pytest.mark.parametrize(
    ("low", "high", "verdict"),
    [
        ("0.13", "0.20", ByFriction.HOLDS),
        ("0.125", "0.20", ByFriction.MAY_HOLD),
        ("0.10", "0.126", ByFriction.MAY_HOLD),
        ("0.10", "0.125", ByFriction.RELEASES),
        ("0.05", "0.10", ByFriction.RELEASES),
    ],
)
def test_a_cone_holds_where_its_half_tangent_is_below_the_friction(low, high, verdict):
    friction = FrictionRange(
        pair="any", low=Fraction(low), high=Fraction(high), source="a test's own range", basis="memory"
    )
    found = by_friction(cone("1:4"), friction)
    assert found.needed == 0.125
    assert found.verdict == verdict


def test_the_steep_taper_needs_more_friction_than_the_least_published():
    # half angle 8.297 degrees needs 0.146 to hold (computed from 3.5 in/ft)
    assert round(by_friction(cone("7:24"), FRICTION[0]).needed, 3) == 0.146
    assert by_friction(cone("7:24"), FRICTION[0]).verdict is ByFriction.HOLDS
    assert by_friction(cone("7:24"), FRICTION[1]).verdict is ByFriction.MAY_HOLD


def test_every_friction_range_names_its_source_and_basis():
    for one in FRICTION:
        assert 0 < one.low < one.high < 1
        assert one.source
        assert one.basis == "seen"


@pytest.mark.parametrize("text", ["1:20", "1:10", "7:24"])
def test_the_caution_on_retention_always_stands(text):
    cautions = fit(cone(text)).cautions
    assert cautions[0] == RETENTION
    for words in ("positive retention", "before anything spins", "machine maker", "local rules"):
        assert words in cautions[0]


def test_each_class_has_its_own_caution():
    assert MILLING in fit(cone("1:20")).cautions
    assert UNKNOWN in fit(cone("1:10")).cautions
    assert MILLING not in fit(cone("1:10")).cautions
    assert UNKNOWN not in fit(cone("1:20")).cautions
    assert any("friction may still stick it" in one for one in fit(cone("7:24")).cautions)
    assert len(fit(cone("90deg included")).cautions) == 1
