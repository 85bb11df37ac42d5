"""Solid rectangles and rounds: flats, plates, square and round bars."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from structcheck.shapes.outline import arc, points
from structcheck.shapes.pieces import Integrals, rectangle
from structcheck.shapes.shape import Element, Shape, TwiceSymmetric, check_axis

ODD = np.arange(1, 20, 2)  # terms of the torsion series; ten give eight figures for a square


@dataclass(frozen=True, eq=False)
class Rectangle(TwiceSymmetric):
    """A solid rectangle of depth h and thickness b, on edge: b is at most h. mm."""

    h: float
    b: float

    @cached_property
    def quarter(self) -> Integrals:
        """First quadrant."""
        return rectangle(0.0, self.b / 2, 0.0, self.h / 2)

    @property
    def edges(self):
        """Left, right, bottom, top from the centroid, mm."""
        return -self.b / 2, self.b / 2, -self.h / 2, self.h / 2

    @cached_property
    def polygons(self):
        """The four corners."""
        y, z = self.b / 2, self.h / 2
        return (points((y, z), (-y, z), (-y, -z), (y, -z)),)

    @property
    def It(self):
        """Torsion constant by Saint-Venant's series, mm4 (Timoshenko and Goodier, Theory of Elasticity)."""
        slender = np.expand_dims(np.asarray(self.h / self.b), -1)
        series = np.sum(np.tanh(ODD * np.pi / 2 * slender) / ODD**5, axis=-1)
        return self.h * self.b**3 / 3 * (1 - 192 / np.pi**5 * self.b / self.h * series)

    @property
    def Wt(self):
        """Torsion modulus for the stress at the middle of the long side, mm3, by the same series."""
        slender = np.expand_dims(np.asarray(self.h / self.b), -1)
        decay = np.exp(-ODD * np.pi / 2 * slender)
        series = np.sum(2 * decay / (1 + decay**2) / ODD**2, axis=-1)
        return self.It / (self.b * (1 - 8 / np.pi**2 * series))

    @property
    def Iw(self):
        """Warping constant of a thin strip across its thickness, mm6."""
        return self.h**3 * self.b**3 / 144

    def shear_area(self, axis: str, eta: float = 1.0):
        """The whole area: 6.2.6(3) lists no solid bar, and a plastic rectangle shears evenly."""
        check_axis(axis)
        return self.A

    @property
    def Asy(self):
        """5/6 of the area, mm2."""
        return 5 / 6 * self.A

    Asz = Asy

    @property
    def elements(self) -> tuple[Element, ...]:
        """One solid bar along the depth."""
        zero = 0.0 * self.h
        return (Element("bar", "solid", self.h, self.b, (zero, -self.h / 2), (zero, self.h / 2)),)

    def cut(self, axis: str, level):
        """Through the bar."""
        return self.straight_cut(axis, level, self.b if axis == "y" else self.h)


@dataclass(frozen=True, eq=False)
class Round(Shape):
    """A solid round of diameter D, mm."""

    D: float

    @cached_property
    def integrals(self) -> Integrals:
        """The circle, exactly."""
        second, zero = np.pi / 64 * self.D**4, 0.0 * self.D
        return Integrals(np.pi / 4 * self.D**2, zero, zero, second, second, zero)

    @property
    def edges(self):
        """Left, right, bottom, top from the centroid, mm."""
        return -self.D / 2, self.D / 2, -self.D / 2, self.D / 2

    @cached_property
    def polygons(self):
        """The circle."""
        return (arc((0.0, 0.0), self.D / 2, 0.0, 2 * np.pi, 240)[..., :-1, :],)

    @property
    def Wpl_y(self):
        """Plastic modulus, mm3."""
        return self.D**3 / 6

    Wpl_z = Wpl_y

    @property
    def It(self):
        """Polar second moment, mm4."""
        return 2 * self.Iy

    @property
    def Wt(self):
        """Torsion modulus, mm3."""
        return 2 * self.Wel_y

    def shear_area(self, axis: str, eta: float = 1.0):
        """The whole area: 6.2.6(3) lists no solid bar, and a plastic round shears evenly."""
        check_axis(axis)
        return self.A

    @property
    def Asy(self):
        """0.9 of the area, mm2."""
        return 0.9 * self.A

    Asz = Asy

    def cut(self, axis: str, level):
        """Through the middle."""
        return self.Wpl_y / 2, self.D

    @property
    def elements(self) -> tuple[Element, ...]:
        """One solid bar."""
        zero = 0.0 * self.D
        return (Element("bar", "solid", self.D, self.D, (zero, -self.D / 2), (zero, self.D / 2)),)
