"""Gauge-block stacks, sine bars and tapers: from a call-out to the blocks of your own set.

The Python interface mirrors the commands:

    >>> import gaugestack
    >>> stock = gaugestack.load(["inch-81"])
    >>> answer = gaugestack.stack(["0.6202in"], stock=stock)
    >>> [block.engraved for block in answer.plans[0].stack.blocks]
    ['0.400 in', '0.1002 in', '0.120 in']

Importing this package imports neither ortools nor numpy; a function loads
what it needs when it is called.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from gaugestack.angles.sine import SineBar, height
    from gaugestack.answers.angle import angle, find_bar
    from gaugestack.answers.budget import Wish, angle_budget, stack_budget
    from gaugestack.answers.health import HeightsAsked, buy, health, matters
    from gaugestack.answers.options import Choice
    from gaugestack.answers.reach import reach, reach_range
    from gaugestack.answers.sets import check, listed, show
    from gaugestack.answers.stack import stack
    from gaugestack.answers.stock import Stock, load, stock_of
    from gaugestack.answers.taper import taper
    from gaugestack.blocks import BlockSet
    from gaugestack.errors import GaugestackError
    from gaugestack.inventory.setfile import load_set

__all__ = [
    "BlockSet",
    "Choice",
    "GaugestackError",
    "HeightsAsked",
    "SineBar",
    "Stock",
    "Wish",
    "angle",
    "angle_budget",
    "buy",
    "check",
    "find_bar",
    "health",
    "height",
    "listed",
    "load",
    "load_set",
    "matters",
    "reach",
    "reach_range",
    "show",
    "stack",
    "stack_budget",
    "stock_of",
    "taper",
]

_HOMES = {
    "BlockSet": "gaugestack.blocks",
    "Choice": "gaugestack.answers.options",
    "GaugestackError": "gaugestack.errors",
    "HeightsAsked": "gaugestack.answers.health",
    "SineBar": "gaugestack.angles.sine",
    "Stock": "gaugestack.answers.stock",
    "Wish": "gaugestack.answers.budget",
    "angle": "gaugestack.answers.angle",
    "angle_budget": "gaugestack.answers.budget",
    "buy": "gaugestack.answers.health",
    "check": "gaugestack.answers.sets",
    "find_bar": "gaugestack.answers.angle",
    "health": "gaugestack.answers.health",
    "height": "gaugestack.angles.sine",
    "listed": "gaugestack.answers.sets",
    "load": "gaugestack.answers.stock",
    "load_set": "gaugestack.inventory.setfile",
    "matters": "gaugestack.answers.health",
    "reach": "gaugestack.answers.reach",
    "reach_range": "gaugestack.answers.reach",
    "show": "gaugestack.answers.sets",
    "stack": "gaugestack.answers.stack",
    "stack_budget": "gaugestack.answers.budget",
    "stock_of": "gaugestack.answers.stock",
    "taper": "gaugestack.answers.taper",
}


def __getattr__(name: str) -> object:
    """Return a part of the interface, loading its module on first use."""
    if name not in _HOMES:
        raise AttributeError(f"module 'gaugestack' has no attribute {name!r}")
    return getattr(import_module(_HOMES[name]), name)
