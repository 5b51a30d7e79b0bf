from fractions import Fraction

import pytest

from gaugestack.angles.callout import read_taper
from gaugestack.angles.fit import (
    FRICTION,
    FRICTION_ALONE,
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
    ("text", "holding", "basis", "source"),
    [
        ("1:20", Holding.SELF_HOLDING, "seen", "Machinery's Handbook, standard tapers"),
        ("3deg included", Holding.SELF_HOLDING, "seen", "ISO 296:1991, clause 1"),
        ("0.750in/ft", Holding.SELF_HOLDING, "memory", "ASME B5.10, self-holding series up to 3/4 in/ft"),
        ("0.751in/ft", Holding.NOT_CLASSIFIED, "none", "no document known"),
        ("15.99deg included", Holding.NOT_CLASSIFIED, "none", "no document known"),
        ("16deg included", Holding.SELF_RELEASING, "seen", "ASME B5.10, steep tapers"),
        ("7:24", Holding.SELF_RELEASING, "seen", "about 16 degrees and more"),
    ],
)
def test_a_taper_is_classified_only_where_a_document_does(text, holding, basis, source):
    found = classification(cone(text))
    assert found.holding == holding
    assert found.basis == basis
    assert source in found.source


@pytest.mark.parametrize(
    ("name", "holding"),
    [
        ("morse 5", Holding.SELF_HOLDING),
        ("brown and sharpe 10", Holding.SELF_HOLDING),
        ("7/24 40", Holding.SELF_RELEASING),
    ],
)
def test_a_named_taper_is_classified_by_its_own_document(name, holding):
    published = find_published(name)
    found = classification(published.taper(name), published)
    assert (found.holding, found.source, found.basis) == (holding, published.document, published.basis)
    assert fit(published.taper(name), published=published).published == found


def test_a_named_taper_its_document_does_not_classify_is_judged_by_its_angle():
    published = find_published("jacobs 2")
    found = classification(published.taper("jacobs 2"), published)
    assert (found.holding, found.source) == (Holding.NOT_CLASSIFIED, "no document known")


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
    assert cautions[0] == (FRICTION_ALONE if text == "1:20" else RETENTION)
    for words in ("positive retention", "before anything spins", "machine maker", "local rules"):
        assert words in cautions[0]


def test_each_class_has_its_own_caution():
    sticks = "At 8.2971° per side friction may still stick it: do not count on it either way."
    assert fit(cone("1:20")).cautions == (FRICTION_ALONE, MILLING)
    assert fit(cone("1:10")).cautions == (RETENTION, UNKNOWN)
    assert fit(cone("7:24")).cautions == (RETENTION, sticks)
    assert fit(cone("90deg included")).cautions == (RETENTION,)


def test_a_fit_judges_every_range_of_friction_or_those_given():
    assert [one.friction for one in fit(cone("7:24")).by_friction] == list(FRICTION)
    assert [one.friction for one in fit(cone("7:24"), friction=FRICTION[1:]).by_friction] == list(
        FRICTION[1:]
    )
    # above 31 degrees per side no published friction holds: 0.60 is the most
    assert fit(cone("7:24"), friction=()).cautions == (RETENTION,)
