"""What of a foot plate presses: the walls of the member on it, each c wider, on the plate and nowhere twice.

Pressure is even (EN 1993-1-8 6.2.5), so the area must lie evenly about the member's own force: any area that does is
safe. EN 1993-1-8 has it for flanges and webs; a bar counts as a wall of its own, and a channel's area is cut back
until its middle lies under the channel's centre of area (derived).
"""

import math
from typing import NamedTuple

from structcheck.checks.member_forms import form
from structcheck.errors import NotCovered
from structcheck.shapes.section import Section


class Side(NamedTuple):
    """One of two sides that a moment presses in turn: distance between their middles, mm, and its area, mm2."""

    lever: float
    area: float


def pressed_area(section: Section, c: float, length: float, width: float) -> float:
    """Area pressed by a plain push, mm2. Raises NotCovered for shapes that are none of these."""
    shape, kind = section.shape, form(section)
    if kind in ("tube", "round"):
        inner = max(shape.D - 2 * (shape.t + c), 0.0) if kind == "tube" else 0.0
        return math.pi / 4 * (min(shape.D + 2 * c, length, width) ** 2 - inner**2)
    flange, wall = _walls(section)
    long, wide = min(shape.h + 2 * c, length), min(shape.b + 2 * c, width)
    if kind == "rectangle":
        return long * wide
    between = max(shape.h - 2 * (flange + c), 0.0)
    if kind == "hollow":
        return long * wide - between * max(shape.b - 2 * (wall + c), 0.0)
    if kind == "channel":
        return _about_centre(section, c, long, width, between)
    return (long - between) * wide + between * min(wall + 2 * c, wide)


def _about_centre(section: Section, c: float, long: float, width: float, between: float) -> float:
    """All that presses on the side of a channel's centre that turns less, and as much moment's worth on the other."""
    left, right = section.edges[:2]
    # The middle of its outline stands on the plate's middle.
    low, high = max(left - c, (left + right - width) / 2), min(right + c, (left + right + width) / 2)
    web = min(left + float(section.shape.tw) + c, high)
    strips = [(low, web, long), (web, high, long - between)]
    sides = ([_cut(s, 0.0, math.inf) for s in strips], [_mirrored(_cut(s, -math.inf, 0.0)) for s in strips][::-1])
    turns = [sum((b * b - a * a) / 2 * w for a, b, w in side) for side in sides]
    return sum(_up_to(side, min(turns)) for side in sides)


def _cut(strip: tuple[float, float, float], low: float, high: float) -> tuple[float, float, float]:
    a, b, w = strip
    return min(max(a, low), high), min(max(b, low), high), w


def _mirrored(strip: tuple[float, float, float]) -> tuple[float, float, float]:
    return -strip[1], -strip[0], strip[2]


def _up_to(strips: list[tuple[float, float, float]], turn: float) -> float:
    """Area from the centre outwards, until its moment about the centre is used up."""
    area = 0.0
    for a, b, w in strips:
        if b <= a or turn <= 0:
            continue
        end = min(b, math.sqrt(a * a + 2 * turn / w)) if w > 0 else b
        area += (end - a) * w
        turn -= (end * end - a * a) / 2 * w
    return area


def pressed_sides(section: Section, c: float, length: float, width: float) -> tuple[Side, Side | None]:
    """The sides along the depth and across it; None across a single channel, whose two sides differ.

    Across an I the flanges' halves on one side of the web press: as much as one flange, its middle half way out.
    """
    shape, kind = section.shape, form(section)
    if kind in ("tube", "round"):
        # Half a ring: its middle lies D / pi from the axis, on either side; half a disc's 2 D / (3 pi).
        lever = 2 * (shape.D - shape.t) / math.pi if kind == "tube" else 4 * shape.D / (3 * math.pi)
        side = Side(lever, pressed_area(section, c, length, width) / 2)
        return side, side
    flange, wall = _walls(section)
    if kind == "rectangle":
        return _half(shape.h, shape.b, c, length, width), _half(shape.b, shape.h, c, width, length)

    def side_of(size: float, t: float, across: float, plate: tuple[float, float]) -> Side:
        out = min(c, (plate[0] - size) / 2)
        return Side(size - t, (t + out + min(c, size / 2 - t)) * min(across + 2 * c, plate[1]))

    along = side_of(shape.h, flange, shape.b, (length, width))
    if kind == "hollow":
        return along, side_of(shape.b, wall, shape.h, (width, length))
    if kind == "channel":
        left, right = section.edges[:2]
        reach = 2 * min(-left, right) + 2 * min(c, (width - shape.b) / 2)
        return Side(along.lever, along.area * min(reach / min(shape.b + 2 * c, width), 1.0)), None
    return along, Side(shape.b / 2, along.area)


def _half(size: float, across: float, c: float, plate: float, plate_across: float) -> Side:
    """Half of a bar, its middle no further out than that of the bar's own half."""
    out = min(c, (plate - size) / 2)
    return Side(size / 2, (size / 2 + out) * min(across + 2 * c, plate_across))


def _walls(section: Section) -> tuple[float, float]:
    """Thickness of flange and web, or of the tube's wall. Raises NotCovered for other shapes."""
    shape, kind = section.shape, form(section)
    if kind in ("i", "channel"):
        return float(shape.tf), float(shape.tw)
    if kind == "hollow":
        return float(shape.t), float(shape.t)
    if kind == "rectangle":
        return float(shape.h), float(shape.b)
    raise NotCovered(
        f"a foot plate is judged under an I, an H, a channel, a tube or a bar, not under {section.designation}: ask an "
        "engineer which of its walls press (EN 1993-1-8 6.2.5), or stand it on one of these"
    )
