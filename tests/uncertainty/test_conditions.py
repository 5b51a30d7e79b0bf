import math

import pytest

from gaugestack.errors import UsageError
from gaugestack.uncertainty.conditions import CAUTIOUS_FILM, SHOP_FILM, Conditions
from gaugestack.uncertainty.materials import Expansion

LIMITS = ["room_limit", "blocks_limit", "bar_limit", "part_limit", "wringing_limit"]


def test_every_default_prints_itself_as_assumed():
    lines = Conditions().lines()
    assert len(lines) == 8
    assert all(line.endswith("(assumed)") for line in lines)


def test_what_was_given_is_not_called_assumed():
    lines = Conditions(room=21.5, room_limit=0.5, part_material="brass").lines()
    assert lines[0] == "room 21.5 °C, right within 0.5 K"
    assert lines[3].endswith("; brass")


def test_half_given_is_half_assumed():
    assert Conditions(room=21.5).lines()[0] == "room 21.5 °C, right within 2 K (room limit assumed)"


def test_the_switches_say_which_way_they_stand():
    lines = "\n".join(
        Conditions(joints_together=True, foot_joint=False, calibration_shared=0.25, blocks_above=-1).lines()
    )
    assert "joints: all go wrong together\n" in lines
    assert "foot on the plate is no joint\n" in lines
    assert "go wrong together to 25%" in lines
    assert "blocks 1 K below the room" in lines


def test_an_expansion_of_your_own_is_named():
    own = Expansion(material="tool steel", per_kelvin=12e-6, half_width=1e-7, source="given", basis="seen")
    assert Conditions(bar_material=own).lines()[2].endswith("; tool steel")


# 25 nm (1 µin) and 50 nm (2 µin), trade rule, common practice.
def test_the_film_limits_are_one_and_two_microinches():
    assert (SHOP_FILM, CAUTIOUS_FILM) == (25, 50)
    assert Conditions().wringing_limit == SHOP_FILM


@pytest.mark.parametrize("name", LIMITS)
@pytest.mark.parametrize("value", [-0.1, math.nan, math.inf])
def test_a_limit_below_zero_or_not_finite_is_refused(name, value):
    with pytest.raises(UsageError, match="it is zero or above"):
        Conditions(**{name: value})


@pytest.mark.parametrize("name", LIMITS)
def test_a_limit_of_zero_is_allowed(name):
    assert getattr(Conditions(**{name: 0.0}), name) == 0


@pytest.mark.parametrize("name", ["room", "blocks_above", "bar_above", "part_above"])
def test_a_temperature_that_is_not_finite_is_refused(name):
    with pytest.raises(UsageError, match="not a finite number"):
        Conditions(**{name: math.nan})


@pytest.mark.parametrize("value", [-0.01, 1.01, math.nan])
def test_a_shared_part_outside_zero_to_one_is_refused(value):
    with pytest.raises(UsageError, match="it lies from 0"):
        Conditions(calibration_shared=value)


@pytest.mark.parametrize("value", [0, 1])
def test_the_ends_of_the_shared_part_are_allowed(value):
    assert Conditions(calibration_shared=value).calibration_shared == value
