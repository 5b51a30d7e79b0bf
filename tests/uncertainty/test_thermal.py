import pytest

from gaugestack.uncertainty.conditions import Conditions
from gaugestack.uncertainty.materials import Expansion, Role, expansion
from gaugestack.uncertainty.thermal import Segment, Side, shift, thermal_components

STEEL = expansion("steel", Role.BLOCK)
ALUMINIUM = expansion("aluminium", Role.WORK)
MM100 = 1e8  # nm


def side(name, weight, material=STEEL, above=0.0, limit=0.0):
    return Side(name=name, parts=(Segment(weight=weight, expansion=material),), above=above, limit=limit)


# Computed: 100 mm of aluminium 23.1e-6 on steel 11.5e-6, both 1 K above 20 °C, 1.16 µm.
def test_one_kelvin_parts_aluminium_from_steel_by_1_16_micrometres():
    sides = (side("blocks", MM100), side("part", -MM100, ALUMINIUM))
    assert shift(sides, 1.0) == pytest.approx(-1160)


# Computed: 100 mm of steel 1 K warm, 1.15 µm.
def test_blocks_one_kelvin_warmer_grow_by_1_15_micrometres():
    assert shift((side("blocks", MM100, above=1.0), side("part", -MM100)), 0.0) == pytest.approx(1150)


@pytest.mark.parametrize("room_above", [-5.0, 0.0, 0.1, 13.7])
def test_equal_bodies_equally_warm_do_not_move_at_all(room_above):
    assert shift((side("blocks", MM100), side("part", -MM100)), room_above) == 0


def test_several_materials_of_one_side_add():
    both = Side(
        name="blocks",
        parts=(Segment(weight=6e7, expansion=STEEL), Segment(weight=4e7, expansion=ALUMINIUM)),
        above=0.0,
        limit=0.0,
    )
    assert shift((both,), 1.0) == pytest.approx(60 * 11.5 + 40 * 23.1)


# Computed check: 100 mm, difference of coefficients triangular 2e-6 (two of 1e-6 each), room +/- 0.5 °C
# rectangular: 23.570 nm.
def test_the_products_of_coefficients_and_room_give_the_published_form_of_the_term():
    other = Expansion(material="k", per_kelvin=11.5e-6, half_width=1e-6, source="given", basis="seen")
    sides = (side("blocks", MM100), side("part", -MM100, other))
    found = thermal_components(sides, Conditions(room_limit=0.5))
    assert [component.distribution.value for component in found] == ["product", "product"]
    assert sum(component.contribution**2 for component in found) ** 0.5 == pytest.approx(23.570, abs=5e-4)


def test_nothing_warm_and_nothing_in_doubt_gives_no_terms():
    sides = (side("blocks", MM100), side("part", -MM100))
    assert thermal_components(sides, Conditions(room_limit=0.0)) == ()


def test_a_side_known_to_be_warm_brings_its_coefficient_into_doubt():
    sides = (side("blocks", MM100, above=5.0),)
    (only,) = thermal_components(sides, Conditions(room_limit=0.0))
    assert only.name == "expansion of steel of the blocks"
    assert only.contribution == pytest.approx(MM100 * 5 * 1e-6 / 3**0.5)
