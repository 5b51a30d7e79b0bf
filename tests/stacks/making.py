"""Short ways to say blocks, requests and stacks in the tests of this directory."""

from gaugestack.blocks import Basis, Block
from gaugestack.lengths import Length, Unit, read_length
from gaugestack.stacks.request import Built, StackRequest


def mm(number):
    """Return a length in millimetres, given as text or whole number."""
    return Length(read_length(f"{number}mm").length)


def block(number, **more):
    """Return a metric block of so many millimetres."""
    return Block(nominal=mm(number), unit=Unit.MILLIMETRE, **more)


def wear_pair(number, first=1):
    """Return a pair of equal wear blocks."""
    return tuple(block(number, wear=True, copy=first + index) for index in range(2))


def request(*targets, pool=(), tolerance=0, **more):
    """Return a request in millimetres."""
    return StackRequest(
        targets=tuple(mm(target) for target in targets),
        tolerance=mm(tolerance) if tolerance else Length(0),
        pool=tuple(pool),
        **more,
    )


def built(target, *blocks, basis=Basis.NOMINAL):
    """Return a stack built for a target in millimetres."""
    return Built(target=mm(target), blocks=blocks, basis=basis)


def sizes(stack):
    """Return the engraved sizes of a built stack."""
    return [piece.engraved.removesuffix(" mm") for piece in stack.blocks]
