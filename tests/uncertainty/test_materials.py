import pytest

from gaugestack.errors import UsageError
from gaugestack.uncertainty.materials import (
    BLOCK_MATERIALS,
    WORK_MATERIALS,
    Expansion,
    Role,
    expansion,
    known_materials,
)


# ISO 3650:1998, 6.2.2 (memory): (11.5 +/- 1.0)e-6 per K; work: spread 9.9e-6 to 13.0e-6.
def test_steel_is_known_better_as_a_block_than_as_work():
    block, work = expansion("steel", Role.BLOCK), expansion("steel", Role.WORK)
    assert (block.per_kelvin, block.half_width) == (11.5e-6, 1.0e-6)
    assert (work.per_kelvin, work.half_width) == (11.5e-6, 1.5e-6)


@pytest.mark.parametrize(
    ("name", "listed"),
    [
        ("Ceramic", "zirconia"),
        ("carbide", "tungsten carbide"),
        ("  tungsten   carbide ", "tungsten carbide"),
        ("carbon steel", "steel"),
        ("cast iron", "grey cast iron"),
    ],
)
def test_usual_names_lead_to_the_listed_material(name, listed):
    assert expansion(name, Role.BLOCK).material == listed


def test_work_may_be_of_a_block_material_and_the_reverse():
    assert expansion("zirconia", Role.WORK).per_kelvin == 9.5e-6
    assert expansion("brass", Role.BLOCK).per_kelvin == 19.9e-6


@pytest.mark.parametrize("role", list(Role))
def test_a_missing_material_is_refused_naming_all_that_are_known(role):
    with pytest.raises(UsageError) as caught:
        expansion("qqqq", role)
    for name in known_materials(role):
        assert name in str(caught.value)
    assert "or give the coefficient" in str(caught.value)


def test_a_slip_of_the_pen_gets_the_nearest_name():
    with pytest.raises(UsageError, match="did you mean 'aluminium'"):
        expansion("alumimium", Role.WORK)


def test_an_expansion_of_your_own_is_taken_as_it_is():
    own = Expansion(material="k", per_kelvin=1e-6, half_width=0.0, source="certificate", basis="seen")
    assert expansion(own, Role.WORK) is own


@pytest.mark.parametrize("row", [*BLOCK_MATERIALS, *WORK_MATERIALS])
def test_every_row_says_where_it_is_from_and_is_plausible(row):
    assert row.source
    assert row.basis in ("seen", "memory", "derived", "common practice")
    assert 0 < row.half_width < row.per_kelvin < 30e-6
