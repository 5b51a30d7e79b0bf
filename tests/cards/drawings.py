"""Reading a drawing back: its boxes of text as estimated, its lines and rectangles, its words."""

import cmath
import math
import re
import xml.etree.ElementTree as ET

from gaugestack.cards.svg import wide

SVG = "{http://www.w3.org/2000/svg}"
EIGHT_POINTS = 8 * 25.4 / 72
BOLD = 1.1


def parsed(text):
    return ET.fromstring(text)  # noqa: S314  (our own text)


def words(text):
    return [node.text for node in parsed(text).iter(f"{SVG}text")]


def page(text):
    root = parsed(text)
    return tuple(float(root.get(side).removesuffix("mm")) for side in ("width", "height"))


def moved(text):
    """Return every element with how far down its group is moved."""
    for child in parsed(text):
        down = 0.0
        if child.tag == f"{SVG}g":
            down = float(re.search(r"translate\(0 ([\d.]+)\)", child.get("transform"))[1])
            yield from ((node, down) for node in child)
        else:
            yield child, down


def text_boxes(text):
    """Return the corners of each line of text, as a polygon, and its words."""
    found = []
    for node, down in moved(text):
        if node.tag != f"{SVG}text":
            continue
        size = float(node.get("font-size"))
        width = wide(node.text, size) * (BOLD if node.get("font-weight") else 1)
        start = {"start": 0.0, "middle": -width / 2, "end": -width}[node.get("text-anchor", "start")]
        turned = re.match(r"rotate\((-?[\d.]+)", node.get("transform", "rotate(0"))
        turn = cmath.rect(1, math.radians(float(turned[1])))
        place = complex(float(node.get("x")), float(node.get("y")) + down)
        corners = [start - 0.75j * size, start + width - 0.75j * size]
        corners += [start + width + 0.22j * size, start + 0.22j * size]
        found.append((node.text, [place + corner * turn for corner in corners]))
    return found


def overlaps(text):
    """Return the pairs of words whose boxes cover one another."""
    boxes = text_boxes(text)
    return [
        (one, other)
        for index, (one, first) in enumerate(boxes)
        for other, second in boxes[index + 1 :]
        if not any(_parted(first, second, axis) for axis in (*_axes(first), *_axes(second)))
    ]


def outside(text):
    """Return the words that leave the sheet."""
    width, height = page(text)
    return [
        said
        for said, corners in text_boxes(text)
        if not all(0 <= corner.real <= width and 0 <= corner.imag <= height for corner in corners)
    ]


def smallest_size(text):
    return min(float(node.get("font-size")) for node in parsed(text).iter(f"{SVG}text"))


def points(node):
    return [complex(*map(float, pair.split())) for pair in re.split("[MLZ]", node.get("d")) if pair]


def rectangles(text, fill):
    """Return corner and size of each closed path of a fill."""
    found = []
    for node, down in moved(text):
        if node.tag == f"{SVG}path" and node.get("d").endswith("Z") and node.get("fill") == fill:
            ends = points(node)
            xs, ys = [p.real for p in ends], [p.imag + down for p in ends]
            found.append((complex(min(xs), min(ys)), complex(max(xs) - min(xs), max(ys) - min(ys))))
    return found


def _axes(corners):
    return [1j * (corners[1] - corners[0]), 1j * (corners[2] - corners[1])]


def _parted(first, second, axis):
    ranges = [
        [corner.real * axis.real + corner.imag * axis.imag for corner in box] for box in (first, second)
    ]
    return max(ranges[0]) <= min(ranges[1]) or max(ranges[1]) <= min(ranges[0])
