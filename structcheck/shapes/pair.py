"""Two equal sections side by side with a gap: back to back, toe to toe, or simply beside each other."""

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal

import numpy as np

from structcheck.errors import InputError, NotCovered, Problem
from structcheck.shapes.channels import Channel
from structcheck.shapes.pieces import Integrals
from structcheck.shapes.section import Section
from structcheck.shapes.shape import Element, Fibre, Shape, check_axis
from structcheck.shapes.strips import Cell

Arrangement = Literal["back to back", "toe to toe"]


@dataclass(frozen=True, eq=False)
class Pair(Shape):
    """Two pieces mirrored in the z axis and tied so that they act together.

    piece     the right one, as it stands or mirrored
    distance  from the z axis to the centroid of either piece, mm
    mirror    the right piece is drawn with its left side outward
    cell      the cell the two close between them, where both seams are welded all along
    """

    piece: Shape
    distance: float
    mirror: bool
    cell: Cell | None = None

    @cached_property
    def integrals(self) -> Integrals:
        """About the middle between the pieces."""
        one = self.piece.integrals.centred()
        zero = 0.0 * one.A
        return Integrals(2 * one.A, zero, zero, 2 * (one.Jyy + one.A * self.distance**2), 2 * one.Jzz, zero)

    @property
    def _right(self) -> tuple[float, float]:
        """Inner and outer edge of the right piece from the z axis, mm."""
        left, right, *_ = self.piece.edges
        near, far = (-right, -left) if self.mirror else (left, right)
        return self.distance + near, self.distance + far

    @property
    def edges(self):
        """Left, right, bottom, top from the centroid, mm."""
        _, far = self._right
        return -far, far, *self.piece.edges[2:]

    @property
    def gap(self):
        """Clear distance between the pieces, mm."""
        return 2 * self._right[0]

    @cached_property
    def polygons(self) -> tuple[np.ndarray, ...]:
        """The outlines of both pieces, the right one first."""
        flip = np.array([-1.0, 1.0])
        right = [(p * flip if self.mirror else p) + np.array([self.distance, 0.0]) for p in self.piece.polygons]
        return (*right, *(p * flip for p in right))

    @property
    def Wpl_y(self):
        """Plastic modulus about y, mm3."""
        return 2 * self.piece.Wpl_y

    @property
    def Wpl_z(self):
        """Plastic modulus about z of the tied pair, mm3: the plastic axis runs through the gap."""
        return 2 * self.piece.A * self.distance

    @property
    def It(self):
        """Torsion constant, mm4: of the two apart, and of the cell they close."""
        return 2 * self.piece.It + (4 * self.cell.area**2 / self.cell.ds_t if self.cell else 0.0)

    @property
    def Wt(self):
        """Torsion modulus, mm3."""
        return 2 * self.cell.area * self.cell.t_min if self.cell else 2 * self.piece.Wt

    @property
    def Iw(self):
        """Warping constant of the two apart, mm6, what the ties add not counted; nothing where they close a cell."""
        return 0.0 * self.piece.Iw if self.cell else 2 * self.piece.Iw

    @property
    def z_s(self):
        """Shear centre along z, mm. Raises NotCovered for pieces that are not symmetric about y."""
        if np.any(abs(self.piece.Iyz) > 1e-6 * self.piece.Iy) or np.any(self.piece.z_s):
            raise NotCovered("the shear centre of two such pieces is not known")
        return 0.0 * self.piece.A

    def shear_area(self, axis: str, eta: float = 1.0):
        """Twice that of a piece."""
        return 2 * self.piece.shear_area(axis, eta)

    @property
    def Asy(self):
        """Twice that of a piece, mm2; the give of the ties is not in it."""
        return 2 * self.piece.Asy

    @property
    def Asz(self):
        """Twice that of a piece, mm2."""
        return 2 * self.piece.Asz

    @property
    def elements(self) -> tuple[Element, ...]:
        """The plates of both pieces."""
        sign = -1.0 if self.mirror else 1.0

        def moved(element: Element, side: float) -> Element:
            ends = ((side * (sign * y + self.distance), z) for y, z in (element.start, element.end))
            return replace(element, **dict(zip(("start", "end"), ends, strict=True)))

        return tuple(moved(element, side) for side in (1.0, -1.0) for element in self.piece.elements)

    def fibres(self, axis: str) -> tuple[Fibre, ...]:
        """About y as one piece with half the force each; about z the edges only, the ties carry the shear."""
        check_axis(axis)
        if axis == "y":
            return tuple(Fibre(f.name, f.lever, f.tau / 2) for f in self.piece.fibres("y"))
        near, far = self._right
        places = (("right", far), ("inner edge", near), ("inner edge", -near), ("left", -far))
        return tuple(Fibre(name, lever, 0.0) for name, lever in places)


def side_by_side(
    section: Section, gap: float, arrangement: Arrangement = "back to back", closed: bool = False
) -> Section:
    """Two of `section` with a clear gap between them, tied so that they act together.

    gap          mm, between the backs, the toes, or the near sides
    arrangement  of channels; "back to back" for sections that have no back
    closed       the toes of two channels touch and both seams are welded all along: torsion goes round
    """
    part = f"two {section.designation}"
    if not gap >= 0:
        raise InputError(Problem("gap", f"{gap:g} mm", "is no gap", "0 or more", part=part))
    piece = section.shape
    if closed and not (isinstance(piece, Channel) and arrangement == "toe to toe" and gap == 0):
        wanted = "two channels toe to toe without a gap"
        raise InputError(Problem("closed", "", "closes nothing", wanted, part=part))
    mirror = arrangement == "toe to toe"
    left, right, *_ = section.edges
    distance = gap / 2 + (right if mirror else -left)
    shape = Pair(piece, distance, mirror, _cell(piece, section.edges) if closed else None)
    words = f"{arrangement}, {gap:g} mm apart" + (", welded into a box" if closed else "")
    dimensions = {**section.dimensions, "gap": gap}
    return Section(
        f"2 x {section.designation} {words}", "", section.standard, section.route, dimensions, section.provenance, shape
    )


def _cell(piece: Channel, edges: tuple[float, float, float, float]) -> Cell:
    wide, deep = 2 * (edges[1] - edges[0]) - piece.tw, piece.h - piece.tf
    # Seams at the toes carry the flow: the thin toe of a tapered flange is the least wall.
    return Cell(wide * deep, 2 * (wide / piece.tf + deep / piece.tw), min(piece.tw, float(piece.t_toe)))


def piece_of(section: Section) -> Section | None:
    """One of the two pieces of a pair as a section of its own; None for a section that is no pair."""
    shape = section.shape
    if not isinstance(shape, Pair):
        return None
    dimensions = {name: size for name, size in section.dimensions.items() if name != "gap"}
    return replace(section, designation=f"one of {section.designation}", dimensions=dimensions, geometry=shape.piece)
