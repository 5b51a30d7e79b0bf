"""Gauge-block stacks, sine bars and tapers: from a call-out to the blocks of your own set.

The Python interface mirrors the commands:

    >>> import gaugestack
    >>> block_set, bars = gaugestack.load_set("inch-81")
    >>> answer = gaugestack.stack(["0.6202in"], block_set=block_set)
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
    from gaugestack.answers import Choice, angle, check, find_bar, listed, show, stack, taper
    from gaugestack.blocks import BlockSet
    from gaugestack.errors import GaugestackError

__all__ = [
    "BlockSet",
    "Choice",
    "GaugestackError",
    "SineBar",
    "angle",
    "check",
    "find_bar",
    "height",
    "listed",
    "load_set",
    "show",
    "stack",
    "taper",
]

_HOMES = {
    "BlockSet": "gaugestack.blocks",
    "GaugestackError": "gaugestack.errors",
    "SineBar": "gaugestack.angles.sine",
    "height": "gaugestack.angles.sine",
}


def load_set(name: str) -> tuple[BlockSet, tuple[SineBar, ...]]:
    """Return a set and the bars its file describes, by file or shipped name.

    Raises UsageError for an unknown name, RefusedFile with every fault of a file.
    """
    from gaugestack.inventory.setfile import load_set as load  # noqa: PLC0415
    from gaugestack.inventory.shipped import find_set  # noqa: PLC0415

    return load(find_set(name))


def __getattr__(name: str) -> object:
    """Return a part of the interface, loading its module on first use."""
    if name not in __all__:
        raise AttributeError(f"module 'gaugestack' has no attribute {name!r}")
    return getattr(import_module(_HOMES.get(name, "gaugestack.answers")), name)
