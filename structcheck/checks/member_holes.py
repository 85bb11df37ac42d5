"""Holes in members: the net section in tension, and holes in a tension flange (EN 1993-1-1 6.2.2, 6.2.3, 6.2.5)."""

from dataclasses import replace
from math import sqrt
from typing import Any

import numpy as np

from structcheck.checks.member_forms import form
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.record import record
from structcheck.shapes.shape import Fibre
from structcheck.standards.en1993_1_1 import net_section as code

NOTHING = 1e-9
"""Share of a shear area that stands for none left."""


@record
class Holes:
    """Holes in one cross-section of one piece.

    diameter  mm
    count     walls drilled through at that cross-section: 2 for one hole through both walls of a tube
    offset    of the holes from the middle line, mm; 0 on the middle of the depth
    """

    diameter: float
    count: int = 1
    offset: float = 0.0


def drilled_wall(section: Any, holes: Holes) -> float:
    """Thickness the holes go through, mm: the flange where they stand off the web, else the wall or flat."""
    shape = getattr(section, "shape", section)
    kind = form(section)
    if kind in ("i", "channel"):
        return shape.tf if abs(holes.offset) > shape.hw / 2 else shape.tw
    if kind in ("hollow", "tube", "angle"):
        return shape.t
    if kind == "rectangle":
        return shape.b
    raise NotCovered("the wall that these holes go through is not known for this shape")


def validate(part: str, section: Any, holes: Holes) -> None:
    """Raise InputError where the holes leave nothing."""
    try:
        left = section.A - holes.count * holes.diameter * drilled_wall(section, holes)
    except NotCovered as why:
        given = f"{holes.diameter:g} mm"
        raise InputError(
            Problem("hole", given, f"cannot be placed: {why}", "holes of the section itself", "", part)
        ) from None
    if holes.diameter <= 0 or holes.count < 1 or left <= 0:
        given = f"{holes.count} of {holes.diameter:g} mm"
        raise InputError(Problem("hole", given, "leaves no section", "holes smaller than the section", "", part))
    low, high = section.edges[2:]
    reach = abs(holes.offset) + (holes.diameter / 2 if form(section) in ("rectangle", "hollow") else 0.0)
    if reach > max(-low, high) + 1e-9:
        wanted = f"holes within {max(-low, high):.4g} mm of mid-depth, their edges included"
        raise InputError(Problem("hole_offset", f"{holes.offset:g} mm", "puts them off the section", wanted, "", part))


def undrilled(part: str, hole: float | None, count: int, offset: float | None) -> list[Problem]:
    """Faults of holes told by their number or place but not their size: they would count as none."""
    if hole is not None or (count == 1 and not offset):
        return []
    told = "holes" if count != 1 else "hole_offset"
    return [Problem("hole", "", f"is missing beside {told}", "the diameter of these holes", 'hole = "18 mm"', part)]


def said_across(section: Any, holes: Holes) -> tuple[str, ...]:
    """What was taken for where the holes stand across the depth, if it was not known."""
    beside = _beside_web(section, holes)
    return ("across its depth the holes stand 1.2 diameters from the edge",) if beside else ()


class Net:
    """A section with holes taken out, for bending about y or z and axial force; the rest is that of the section itself.

    The holes stand `offset` from the middle of the depth, all on the one side, in the worse sense; across it where
    `_across` puts them.

    shift, shift_across  how far the centroid moves along z and y, mm
    """

    def __init__(self, section: Any, holes: Holes) -> None:
        self._section = section
        self._holes = holes
        t = drilled_wall(section, holes)
        gone = holes.count * holes.diameter * t
        self.shape = getattr(section, "shape", section)
        self.A = section.A - gone
        z, depth = abs(holes.offset), holes.diameter if abs(holes.offset) <= _web_reach(section) else t
        self.shift = gone * z / self.A
        self.Iy = section.Iy - gone * (z**2 + depth**2 / 12) - self.A * self.shift**2
        self.Wel_y = self.Iy / (self._edge(section) + self.shift)
        width = 2 * t if form(section) == "hollow" else getattr(self.shape, "tw", t)
        # The plastic axis moves until tension and compression balance again.
        self.Wpl_y = section.Wpl_y - gone * max(z, depth / 4) - gone**2 / (4 * width) * (z > 0)
        if form(section) != "angle":  # its holes are judged about no axis
            self._weaken_across(section, gone / holes.count)

    def _weaken_across(self, section: Any, gone: float) -> None:
        places, along = _across(section, self._holes)
        left, right = section.edges[:2]
        self.shift_across = gone * abs(sum(places)) / self.A
        self.Iz = section.Iz - gone * sum(y**2 + along**2 / 12 for y in places) - self.A * self.shift_across**2
        self.Wel_z = self.Iz / (max(-left, right) + self.shift_across)
        # Half of a channel's area lies beyond a line that is not its centroid.
        plastic_axis = left + section.A / (2 * self.shape.h) if form(section) == "channel" else 0.0
        beside = gone * sum(max(abs(y - plastic_axis), along / 4) for y in places)
        one_sided = gone * abs(sum(np.sign(places)))
        width = 2 * self.shape.t if form(section) in ("hollow", "tube") else self.shape.h
        self.Wpl_z = section.Wpl_z - beside - one_sided**2 / (4 * width)

    @property
    def cuts_web(self) -> bool:
        """Whether the holes stand in what bears a shear along the depth."""
        return not _beside_web(self._section, self._holes)

    def shear_area(self, axis: str, eta: float = 1.0) -> Any:
        """Less the holes in what bears the shear. Only those of fasteners might be left out (6.2.6(7))."""
        whole, holes = self._section.shear_area(axis, eta), self._holes
        through = form(self._section) == "rectangle" or (axis == "z") == self.cuts_web
        gone = holes.count * holes.diameter * drilled_wall(self._section, holes) if through else 0.0
        return max(whole - gone, NOTHING * whole)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Net) and (self._section, self._holes) == (other._section, other._holes)

    def __hash__(self) -> int:
        return hash((self._section, self._holes))

    @staticmethod
    def _edge(section: Any) -> float:
        return max(-section.edges[2], section.edges[3])

    def fibres(self, axis: str) -> tuple[Fibre, ...]:
        """Those of the section, with the lever from the axis that has moved."""
        found, shift = self._section.fibres(axis), self.shift_across if axis == "z" else self.shift
        along = "y" if axis == "z" else "z"
        more = self._section.shear_area(along) / self.shear_area(along)
        return tuple(replace(f, lever=abs(f.lever) + shift if f.lever else f.lever, tau=f.tau * more) for f in found)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._section, name)


def _web_reach(section: Any) -> float:
    """How far from the middle of the depth holes stand in the web or the side walls."""
    shape = getattr(section, "shape", section)
    return shape.hw / 2 if form(section) in ("i", "channel") else float("inf")


def _beside_web(section: Any, holes: Holes) -> bool:
    """Whether holes stand in a flange, or reach into the upper or lower wall of a hollow section."""
    if form(section) == "hollow":
        return abs(holes.offset) > section.edges[3] - section.shape.t - holes.diameter / 2
    return form(section) in ("i", "channel") and abs(holes.offset) > _web_reach(section)


def _across(section: Any, holes: Holes) -> tuple[list[float], float]:
    """(places of the holes along y from the centroid, how far each reaches along it), mm.

    Through the thickness of a flat, in web or side walls, or in a flange 1.2 diameters from its edges (the nearest that
    EN 1993-1-8 Table 3.3 lets them), on either side in turn.
    """
    shape, kind = getattr(section, "shape", section), form(section)
    left, right = section.edges[:2]
    turns = [1.0 if number % 2 == 0 else -1.0 for number in range(holes.count)]
    if kind == "rectangle":
        return [0.0 for _ in turns], shape.b
    if kind in ("i", "channel") and _beside_web(section, holes):
        edge = max(right - 1.2 * holes.diameter, 0.0)
        return [edge * (side if kind == "i" else 1.0) for side in turns], holes.diameter
    if kind in ("i", "channel"):
        return [left + shape.tw / 2 if kind == "channel" else 0.0 for _ in turns], shape.tw
    middle = right - shape.t / 2
    if kind == "tube":
        middle = sqrt(max(middle**2 - holes.offset**2, 0.0))
        return [middle * side for side in turns], max(shape.t, holes.diameter * (1 - middle / right))
    if _beside_web(section, holes):
        edge = max(right - 1.2 * holes.diameter, 0.0)
        return [edge * side for side in turns], holes.diameter
    return [middle * side for side in turns], shape.t


def flange_holes_count(section: Any, f_y: float, f_u: float, holes: Holes, gamma_M0: float, gamma_M2: float) -> bool:
    """Whether holes in the tension flange must be counted in bending (6.2.5(4))."""
    shape = getattr(section, "shape", section)
    if form(section) not in ("i", "channel"):
        return True
    A_f = shape.b * shape.tf
    A_f_net = A_f - holes.count * holes.diameter * shape.tf
    return bool(code.net_flange_side(A_f_net, f_u, gamma_M2) < code.gross_flange_side(A_f, f_y, gamma_M0))
