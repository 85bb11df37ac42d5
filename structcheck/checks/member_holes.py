"""Holes in members: the net section in tension, and holes in a tension flange (EN 1993-1-1 6.2.2, 6.2.3, 6.2.5)."""

from dataclasses import replace
from typing import Any

from structcheck.checks.member_forms import form
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.record import record
from structcheck.shapes.shape import Fibre
from structcheck.standards.en1993_1_1 import net_section as code


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


class Net:
    """A section with holes taken out, for bending about y and axial force; the rest is that of the section itself.

    The holes stand `offset` from the middle of the depth, all on the one side, in the worse sense.
    """

    def __init__(self, section: Any, holes: Holes) -> None:
        self._section = section
        self._holes = holes
        t = drilled_wall(section, holes)
        gone = holes.count * holes.diameter * t
        self.shape = getattr(section, "shape", section)
        self.A = section.A - gone
        z, depth = abs(holes.offset), holes.diameter if abs(holes.offset) <= self._web_reach(section) else t
        self.shift = gone * z / self.A
        self.Iy = section.Iy - gone * (z**2 + depth**2 / 12) - self.A * self.shift**2
        self.Wel_y = self.Iy / (self._edge(section) + self.shift)
        width = 2 * t if form(section) == "hollow" else getattr(self.shape, "tw", t)
        # The plastic axis moves until tension and compression balance again.
        self.Wpl_y = section.Wpl_y - gone * max(z, depth / 4) - gone**2 / (4 * width) * (z > 0)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Net) and (self._section, self._holes) == (other._section, other._holes)

    def __hash__(self) -> int:
        return hash((self._section, self._holes))

    @staticmethod
    def _web_reach(section: Any) -> float:
        shape = getattr(section, "shape", section)
        return shape.hw / 2 if form(section) in ("i", "channel") else float("inf")

    @staticmethod
    def _edge(section: Any) -> float:
        return max(-section.edges[2], section.edges[3])

    def fibres(self, axis: str) -> tuple[Fibre, ...]:
        """Those of the section, about y with the lever from the axis that has moved."""
        found = self._section.fibres(axis)
        if axis == "z":
            return found
        return tuple(replace(f, lever=abs(f.lever) + self.shift if f.lever else f.lever) for f in found)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._section, name)


def flange_holes_count(section: Any, f_y: float, f_u: float, holes: Holes, gamma_M0: float, gamma_M2: float) -> bool:
    """Whether holes in the tension flange must be counted in bending (6.2.5(4))."""
    shape = getattr(section, "shape", section)
    if form(section) not in ("i", "channel"):
        return True
    A_f = shape.b * shape.tf
    A_f_net = A_f - holes.count * holes.diameter * shape.tf
    return bool(code.net_flange_side(A_f_net, f_u, gamma_M2) < code.gross_flange_side(A_f, f_y, gamma_M0))
