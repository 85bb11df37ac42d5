"""A section less its holes: what is left of any shape where rectangles are taken out of it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from structcheck.errors import InputError, Problem
from structcheck.shapes.outline import beyond, points
from structcheck.shapes.pieces import Integrals, rectangle
from structcheck.shapes.section import Section
from structcheck.shapes.shape import Element, Shape
from structcheck.shapes.strips import Strip, Strips

Hole = tuple[float, float, float, float]
"""y_1, y_2, z_1, z_2 from the centroid of the whole section, mm; all of it inside the material."""


@dataclass(frozen=True, eq=False)
class Net(Shape):
    """A shape with holes; torsion and warping are the whole shape's, which holes far apart hardly change."""

    whole: Shape
    holes: tuple[Hole, ...]

    @cached_property
    def integrals(self) -> Integrals:
        """About the centroid of the whole."""
        return self.whole.integrals.centred().minus(*(rectangle(*hole) for hole in self.holes))

    @property
    def edges(self):
        """Left, right, bottom, top from the new centroid, mm."""
        y, z = self.centroid
        left, right, bottom, top = self.whole.edges
        return left - y, right - y, bottom - z, top - z

    @cached_property
    def polygons(self) -> tuple[np.ndarray, ...]:
        """The whole outline, then the holes."""
        shift = np.array(self.centroid)
        cuts = (points((a, c), (b, c), (b, d), (a, d)) for a, b, c, d in self.holes)
        return tuple(polygon - shift for polygon in (*self.whole.polygons, *cuts))

    @property
    def It(self):
        """Of the whole, mm4."""
        return self.whole.It

    @property
    def Wt(self):
        """Of the whole, mm3; do not use it at a hole."""
        return self.whole.Wt

    @property
    def Iw(self):
        """Of the whole, mm6."""
        return self.whole.Iw

    @property
    def y_s(self):
        """Shear centre of the whole, from the new centroid, mm."""
        return self.whole.y_s - self.centroid[0]

    @property
    def z_s(self):
        """Shear centre of the whole, from the new centroid, mm."""
        return self.whole.z_s - self.centroid[1]

    def shear_area(self, axis: str, eta: float = 1.0):
        """That of the whole less every hole, wherever it is: safe for the one along the force."""
        return self.whole.shear_area(axis, eta) - sum((b - a) * (d - c) for a, b, c, d in self.holes)

    @property
    def Asy(self):
        """Of the whole, mm2: a hole is short."""
        return self.whole.Asy

    @property
    def Asz(self):
        """Of the whole, mm2."""
        return self.whole.Asz

    @property
    def elements(self) -> tuple[Element, ...]:
        """Those of the whole, seen from the new centroid."""
        y, z = self.centroid

        def moved(end: tuple[float, float]) -> tuple[float, float]:
            return end[0] - y, end[1] - z

        return tuple(replace(e, start=moved(e.start), end=moved(e.end)) for e in self.whole.elements)

    def levels(self, axis: str):
        """The whole's, seen from the new centroid, and the rims of the holes."""
        centre = self.centroid[1 if axis == "y" else 0]
        named = [(name, level - centre) for name, level in self.whole.levels(axis) if name != "neutral axis"]
        rims = [v - centre for hole in self.holes for v in (hole[2:] if axis == "y" else hole[:2])]
        low, high = self.edges[2:] if axis == "y" else self.edges[:2]
        inner = [("rim of a hole", v) for v in rims if low + 1e-6 < v < high - 1e-6]
        return tuple(sorted((*named, *inner, ("neutral axis", 0.0)), key=lambda pair: -pair[1]))


def net_section(section: Section, holes: Sequence[Hole]) -> Section:
    """The section with rectangular holes or slots (y_1, y_2, z_1, z_2 from its centroid, mm) taken out.

    A round hole across a flange is as wide as its diameter and as high as the flange is thick.
    Raises InputError for a hole that is not wholly in the material.
    """
    holes = tuple(holes)
    for hole in holes:
        _refuse_outside(section, hole)
    name = f"{section.designation} less {len(holes)} hole{'s' if len(holes) != 1 else ''}"
    shape = section.shape
    if isinstance(shape, Strips):
        y, z = shape.centroid
        cuts = tuple(Strip(a + y, b + y, c + z, d + z) for a, b, c, d in holes)
        return replace(section, designation=name, geometry=replace(shape, cuts=(*shape.cuts, *cuts)))
    return replace(section, designation=name, geometry=Net(shape, holes))


def _refuse_outside(section: Section, hole: Hole) -> None:
    a, b, c, d = hole
    size = f"{b - a:g} x {d - c:g} mm"
    wanted = "a hole wholly within the material, y_1 < y_2 and z_1 < z_2, from the centroid"
    if not (b > a and d > c):
        raise InputError(Problem("hole", size, "has no size", wanted, part=section.designation))
    inside = _area_within(section, hole)
    if inside < (b - a) * (d - c) * (1 - 1e-6):
        raise InputError(Problem("hole", size, "is not wholly in the material", wanted, part=section.designation))


def _area_within(section: Section, hole: Hole, slices: int = 64) -> float:
    """Material inside the hole's rectangle, by lines across it."""
    a, b, c, d = hole
    shape = section.shape
    if isinstance(shape, Strips):
        y, z = shape.centroid
        other = replace(shape, cuts=(*shape.cuts, Strip(a + y, b + y, c + z, d + z)))
        return shape.A - other.A
    total = 0.0
    for k in range(slices):
        level = c + (d - c) * (k + 0.5) / slices
        total += _length_in(shape.polygons, level, a, b)
    return total * (d - c) / slices


def _length_in(polygons: tuple[np.ndarray, ...], level: float, a: float, b: float) -> float:
    """Material on the line z = level between y = a and y = b."""
    crossings = []
    for polygon in polygons:
        y, z = polygon.T
        y_2, z_2 = np.roll(y, -1), np.roll(z, -1)
        cut = (z > level) != (z_2 > level)
        with np.errstate(divide="ignore", invalid="ignore"):
            crossings += list((y + (level - z) / (z_2 - z) * (y_2 - y))[cut])
    crossings = np.clip(np.sort(crossings), a, b)
    return float(np.sum(crossings[1::2] - crossings[::2]))


def first_moment(section: Section, axis: str, level: float) -> float:
    """First moment about the centroid of what lies beyond a level from it, mm3."""
    shape = section.shape
    if isinstance(shape, Strips):
        return shape.first_moment(axis, level)
    return float(beyond(shape.polygons, axis, level).S)
