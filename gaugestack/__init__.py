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
    from gaugestack.angles.plates import Seat, Views
    from gaugestack.angles.sine import SineBar, height
    from gaugestack.answers.alternatives import Beside, alternatives
    from gaugestack.answers.angle import angle
    from gaugestack.answers.angleblocks import AngleChoice, angle_blocks
    from gaugestack.answers.bars import find_bar
    from gaugestack.answers.batch import angle_each, stack_each
    from gaugestack.answers.bores import BallsAsked, balls, discs
    from gaugestack.answers.boxcard import BoxWish, box_card
    from gaugestack.answers.budget import Wish, angle_budget, stack_budget
    from gaugestack.answers.cardcheck import check_card
    from gaugestack.answers.correct import CorrectAsked, correct
    from gaugestack.answers.fingerprint import fingerprint
    from gaugestack.answers.fromstack import from_stack
    from gaugestack.answers.health import HeightsAsked, buy, health, matters
    from gaugestack.answers.history import history
    from gaugestack.answers.job import JobChoice, job
    from gaugestack.answers.lathe import attachment, collars, offset, swing
    from gaugestack.answers.measured import Judging
    from gaugestack.answers.onpart import OnPartAsked, bar_on_part
    from gaugestack.answers.options import Choice
    from gaugestack.answers.plate import plate
    from gaugestack.answers.proof import proof
    from gaugestack.answers.reach import reach, reach_range
    from gaugestack.answers.record import CertificateTable, record
    from gaugestack.answers.rolls import RollsAsked, rolls
    from gaugestack.answers.sets import check, listed, show
    from gaugestack.answers.setupcard import angle_card, height_card, taper_card
    from gaugestack.answers.stack import stack
    from gaugestack.answers.stock import Stock, load, stock_of
    from gaugestack.answers.taper import taper
    from gaugestack.answers.tapers import tapers
    from gaugestack.answers.told import Told
    from gaugestack.blocks import BlockSet
    from gaugestack.errors import GaugestackError
    from gaugestack.inventory.copies import copy_set
    from gaugestack.inventory.jobfile import load_job
    from gaugestack.inventory.setfile import load_set
    from gaugestack.notebook import load_ipython_extension, shown, unload_ipython_extension

__all__ = [
    "AngleChoice",
    "BallsAsked",
    "Beside",
    "BlockSet",
    "BoxWish",
    "CertificateTable",
    "Choice",
    "CorrectAsked",
    "GaugestackError",
    "HeightsAsked",
    "JobChoice",
    "Judging",
    "OnPartAsked",
    "RollsAsked",
    "Seat",
    "SineBar",
    "Stock",
    "Told",
    "Views",
    "Wish",
    "alternatives",
    "angle",
    "angle_blocks",
    "angle_budget",
    "angle_card",
    "angle_each",
    "attachment",
    "balls",
    "bar_on_part",
    "box_card",
    "buy",
    "check",
    "check_card",
    "collars",
    "copy_set",
    "correct",
    "discs",
    "find_bar",
    "fingerprint",
    "from_stack",
    "health",
    "height",
    "height_card",
    "history",
    "job",
    "listed",
    "load",
    "load_ipython_extension",
    "load_job",
    "load_set",
    "matters",
    "offset",
    "plate",
    "proof",
    "reach",
    "reach_range",
    "record",
    "rolls",
    "show",
    "shown",
    "stack",
    "stack_budget",
    "stack_each",
    "stock_of",
    "swing",
    "taper",
    "taper_card",
    "tapers",
    "unload_ipython_extension",
]

_HOMES = {
    "RollsAsked": "gaugestack.answers.rolls",
    "CorrectAsked": "gaugestack.answers.correct",
    "OnPartAsked": "gaugestack.answers.onpart",
    "BallsAsked": "gaugestack.answers.bores",
    "Judging": "gaugestack.answers.measured",
    "Seat": "gaugestack.angles.plates",
    "Views": "gaugestack.angles.plates",
    "AngleChoice": "gaugestack.answers.angleblocks",
    "Beside": "gaugestack.answers.alternatives",
    "BlockSet": "gaugestack.blocks",
    "BoxWish": "gaugestack.answers.boxcard",
    "CertificateTable": "gaugestack.answers.record",
    "Choice": "gaugestack.answers.options",
    "GaugestackError": "gaugestack.errors",
    "HeightsAsked": "gaugestack.answers.health",
    "JobChoice": "gaugestack.answers.job",
    "SineBar": "gaugestack.angles.sine",
    "Stock": "gaugestack.answers.stock",
    "Told": "gaugestack.answers.told",
    "Wish": "gaugestack.answers.budget",
    "alternatives": "gaugestack.answers.alternatives",
    "angle": "gaugestack.answers.angle",
    "angle_blocks": "gaugestack.answers.angleblocks",
    "angle_budget": "gaugestack.answers.budget",
    "angle_card": "gaugestack.answers.setupcard",
    "angle_each": "gaugestack.answers.batch",
    "attachment": "gaugestack.answers.lathe",
    "balls": "gaugestack.answers.bores",
    "bar_on_part": "gaugestack.answers.onpart",
    "box_card": "gaugestack.answers.boxcard",
    "buy": "gaugestack.answers.health",
    "check": "gaugestack.answers.sets",
    "check_card": "gaugestack.answers.cardcheck",
    "collars": "gaugestack.answers.lathe",
    "copy_set": "gaugestack.inventory.copies",
    "correct": "gaugestack.answers.correct",
    "discs": "gaugestack.answers.bores",
    "find_bar": "gaugestack.answers.bars",
    "fingerprint": "gaugestack.answers.fingerprint",
    "from_stack": "gaugestack.answers.fromstack",
    "health": "gaugestack.answers.health",
    "height": "gaugestack.angles.sine",
    "height_card": "gaugestack.answers.setupcard",
    "history": "gaugestack.answers.history",
    "job": "gaugestack.answers.job",
    "listed": "gaugestack.answers.sets",
    "load": "gaugestack.answers.stock",
    "load_ipython_extension": "gaugestack.notebook",
    "load_job": "gaugestack.inventory.jobfile",
    "load_set": "gaugestack.inventory.setfile",
    "matters": "gaugestack.answers.health",
    "offset": "gaugestack.answers.lathe",
    "plate": "gaugestack.answers.plate",
    "proof": "gaugestack.answers.proof",
    "reach": "gaugestack.answers.reach",
    "reach_range": "gaugestack.answers.reach",
    "record": "gaugestack.answers.record",
    "rolls": "gaugestack.answers.rolls",
    "show": "gaugestack.answers.sets",
    "shown": "gaugestack.notebook",
    "stack": "gaugestack.answers.stack",
    "stack_budget": "gaugestack.answers.budget",
    "stack_each": "gaugestack.answers.batch",
    "stock_of": "gaugestack.answers.stock",
    "swing": "gaugestack.answers.lathe",
    "taper": "gaugestack.answers.taper",
    "taper_card": "gaugestack.answers.setupcard",
    "tapers": "gaugestack.answers.tapers",
    "unload_ipython_extension": "gaugestack.notebook",
}


def __getattr__(name: str) -> object:
    """Return a part of the interface, loading its module on first use."""
    if name not in _HOMES:
        raise AttributeError(f"module 'gaugestack' has no attribute {name!r}")
    return getattr(import_module(_HOMES[name]), name)
