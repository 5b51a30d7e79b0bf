import math

import pytest

from gaugestack.blocks import Basis, Block, CalibrationUncertainty, Certificate, Stack, Trust
from gaugestack.errors import UsageError
from gaugestack.grades_tables import Standard
from gaugestack.lengths import Length, Unit
from gaugestack.uncertainty.conditions import Conditions
from gaugestack.uncertainty.knowledge import Knowledge
from gaugestack.uncertainty.materials import Expansion
from gaugestack.uncertainty.stack import (
    Height,
    height_components,
    joint_components,
    stack_uncertainty,
)

MM = 1_000_000_000
COLD = Conditions(room_limit=0.0, blocks_limit=0.0, part_limit=0.0, bar_limit=0.0)
SIXTY = Knowledge(certificate=Certificate(uncertainty=CalibrationUncertainty(fixed=Length(60_000))))
GRADE_1 = Knowledge(standard=Standard.ISO_3650, grade="1")


def block(millimetres, **more):
    more.setdefault("deviation", Length(0))
    return Block(nominal=Length(round(millimetres * MM)), unit=Unit.MILLIMETRE, **more)


def height(*millimetres, known=SIXTY, low=(), **more):
    return Height(
        stack=Stack(blocks=tuple(block(size) for size in millimetres)),
        low=Stack(blocks=tuple(block(size) for size in low)),
        knowledge={"": known},
        **more,
    )


def cold(**more):
    return Conditions(room_limit=0.0, blocks_limit=0.0, part_limit=0.0, **more)


# Computed check: four blocks, each U = 60 nm (k = 2), three joints of standard uncertainty 10 nm.
@pytest.mark.parametrize(("shared", "standard"), [(0.0, 62.4500), (1.0, 121.2436)])
def test_four_blocks_and_three_joints_give_the_published_form_of_both_switches(shared, standard):
    conditions = cold(calibration_shared=shared, wringing_limit=10 * math.sqrt(3), foot_joint=False)
    budget = stack_uncertainty(height(1.001, 1.01, 1.1, 50), conditions).budget
    assert budget.combined == pytest.approx(standard, abs=5e-5)


def test_half_shared_blocks_lie_between_the_two_ends():
    conditions = cold(calibration_shared=0.5, wringing_limit=0.0)
    combined = stack_uncertainty(height(1.001, 1.01, 1.1, 50), conditions).budget.combined
    assert combined == pytest.approx(30 * math.sqrt(4 + 0.5 * 4 * 3))


# Computed check: limit per joint / sqrt 3, times the root of the joints or the joints themselves.
@pytest.mark.parametrize(
    ("limit", "together", "standard"),
    [
        (25, False, ["14.43", "20.41", "25.00", "28.87"]),
        (50, False, ["28.87", "40.82", "50.00", "57.74"]),
        (25, True, ["14.43", "28.87", "43.30", "57.74"]),
        (50, True, ["28.87", "57.74", "86.60", "115.47"]),
    ],
)
def test_joints_add_as_the_switch_says(limit, together, standard):
    conditions = cold(wringing_limit=limit, joints_together=together, foot_joint=False)
    exact = Knowledge(certificate=Certificate(uncertainty=CalibrationUncertainty(fixed=Length(0))))
    found = [
        stack_uncertainty(height(*range(1, joints + 2), known=exact), conditions).budget.combined
        for joints in (1, 2, 3, 4)
    ]
    assert [f"{value:.2f}" for value in found] == standard


@pytest.mark.parametrize(("foot", "joints"), [(True, 3), (False, 2)])
def test_the_foot_on_the_plate_is_a_joint_where_it_counts(foot, joints):
    assert len(joint_components(height(1, 2, 3), Conditions(foot_joint=foot))) == joints


def test_a_single_block_without_its_foot_has_no_joint():
    assert joint_components(height(10), Conditions(foot_joint=False)) == []


def test_films_that_go_wrong_together_cancel_between_high_and_low_stack():
    both = height(10, 2, low=(4, 3))
    together = joint_components(both, Conditions(joints_together=True))
    assert math.fsum(component.contribution for component in together) == 0
    assert {component.group for component in joint_components(both, Conditions())} == {""}


def test_one_certificate_cancels_between_high_and_low_stack_as_far_as_it_is_shared():
    both = height(10, low=(4,))
    exact = Conditions(wringing_limit=0.0)
    assert math.fsum(c.contribution for c in height_components(both, exact)) == 0


# EA-4/02, example S4: 30 nm, rectangular, 17.3 nm.
def test_drift_is_passed_in_and_rectangular():
    found = height_components(height(50, drift_limits=(30.0,)), Conditions())
    assert found[-1].name == "drift of 50 mm since it was calibrated"
    assert found[-1].contribution == pytest.approx(17.3, abs=0.05)


def test_drift_that_nobody_gave_is_named_as_left_out():
    assert stack_uncertainty(height(50), COLD).budget.remarks == (
        "drift since the calibration is left out: nobody gave it",
    )
    assert stack_uncertainty(height(50, drift_limits=(0.0,)), COLD).budget.remarks == ()


def test_drift_limits_that_are_not_one_a_block_are_refused():
    with pytest.raises(UsageError, match="2 drift limits for 1 blocks"):
        height(50, drift_limits=(1.0, 2.0))


def test_a_drift_limit_below_zero_is_refused():
    with pytest.raises(UsageError, match="it cannot be below zero"):
        stack_uncertainty(height(50, drift_limits=(-1.0,)), COLD)


def test_a_stack_without_blocks_is_refused():
    with pytest.raises(UsageError, match="a stack without blocks"):
        height()


def test_nominal_lengths_of_certified_blocks_count_by_grade_and_say_so():
    result = stack_uncertainty(height(50, known=GRADE_1, basis=Basis.NOMINAL), COLD)
    assert "the grade's limits count instead" in result.budget.remarks[1]
    assert any(component.name == "grade 1 of 50 mm" for component in result.budget.components)


def test_the_deviations_of_an_unverified_sheet_are_named():
    by_sheet = Height(stack=Stack(blocks=(block(50, trust=Trust.UNVERIFIED_SHEET),)), knowledge={"": SIXTY})
    assert "an unverified sheet are believed: 50 mm" in stack_uncertainty(by_sheet, COLD).budget.remarks[1]


def test_a_block_of_a_set_nobody_described_is_refused():
    stray = Height(stack=Stack(blocks=(block(50, owner="borrowed"),)), knowledge={"": SIXTY})
    with pytest.raises(UsageError, match="nothing says how far the block 50 mm may be off"):
        stack_uncertainty(stray, COLD)


# Computed: 1.16 µm on 100 mm of aluminium against steel, 1.15 µm on 100 mm of steel, each for 1 K.
@pytest.mark.parametrize(
    ("conditions", "nanometres"),
    [
        (Conditions(room=21, part_material="aluminium"), -1160),
        (Conditions(room=21), 0),
        (Conditions(blocks_above=1), 1150),
        (Conditions(part_above=1), -1150),
    ],
)
def test_the_shift_is_how_much_too_high_the_stack_stands(conditions, nanometres):
    assert stack_uncertainty(height(100), conditions).shift == pytest.approx(nanometres)


# Computed: 6 mm left between the two stacks, 11.6 nm a mm and kelvin between aluminium and steel.
def test_only_the_difference_of_two_stacks_grows():
    both = height(10, low=(4,))
    shift = stack_uncertainty(both, Conditions(room=21, part_material="aluminium")).shift
    assert shift == pytest.approx(-6 * 11.6)


def test_drift_of_the_low_stack_counts_against_the_other():
    found = height_components(height(10, low=(4,), drift_limits=(20.0, 10.0)), Conditions())[-2:]
    assert [component.contribution * 3**0.5 for component in found] == pytest.approx([20, -10])


def test_blocks_of_two_materials_grow_each_their_own_way():
    mixed = Height(
        stack=Stack(blocks=(block(60), block(40, material="tungsten carbide"))), knowledge={"": SIXTY}
    )
    shift = stack_uncertainty(mixed, Conditions(room=21)).shift
    assert shift == pytest.approx(60 * 11.5 + 40 * 4.5 - 100 * 11.5)


def test_an_expansion_of_your_own_replaces_that_of_the_blocks():
    own = Expansion(material="steel", per_kelvin=10.6e-6, half_width=0.0, source="certificate", basis="seen")
    assert stack_uncertainty(
        height(100), Conditions(room=21, block_expansions=(own,))
    ).shift == pytest.approx(-90)


def test_a_block_of_an_unknown_material_is_refused():
    odd = Height(stack=Stack(blocks=(block(50, material="amber"),)), knowledge={"": SIXTY})
    with pytest.raises(UsageError, match="'amber' has no expansion coefficient here"):
        stack_uncertainty(odd, COLD)


def test_a_recalibrated_block_is_known_by_its_own_certificate_and_not_by_its_set_s():
    better = Knowledge(certificate=Certificate(uncertainty=CalibrationUncertainty(fixed=Length(20_000))))
    both = height(10, 2, recalibrated={block(10): better})
    assert [component.value for component in height_components(both, cold(wringing_limit=0.0))] == [20, 60]


def test_a_drift_limit_of_zero_is_no_doubt_and_one_of_a_nanometre_is():
    found = height_components(height(10, 2, drift_limits=(0.0, 1.0)), COLD)
    assert [component.name for component in found if "drift" in component.name] == [
        "drift of 2 mm since it was calibrated"
    ]


def test_a_height_knows_its_own_length():
    assert height(10, 2, low=(4,)).length == 8 * MM


def test_a_height_counts_deviations_on_the_certified_basis_alone_in_whole_picometres():
    long = Stack(blocks=(block(10, deviation=Length(123)),))
    certified, nominal = (
        Height(stack=long, basis=basis).length for basis in (Basis.CERTIFIED, Basis.NOMINAL)
    )
    assert (certified, nominal) == (10 * MM + 123, 10 * MM)
    assert isinstance(certified, int)


def test_a_set_of_probability_changes_k_alone():
    usual, wide = (stack_uncertainty(height(50), COLD, probability=p).budget for p in (0.95, 0.99))
    assert usual.combined == wide.combined
    assert wide.k / usual.k == pytest.approx(2.5758293 / 1.9599640)
