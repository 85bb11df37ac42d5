"""Square, rectangular and circular hollow sections."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from structcheck.shapes.outline import arc, rounded_rectangle
from structcheck.shapes.pieces import Integrals, fillet, rectangle
from structcheck.shapes.shape import DENSITY, Element, Shape, TwiceSymmetric, check_axis


def cold_radii(t):
    """Outside and inside corner radius of a cold-formed tube, mm (EN 10219-2 annex of section properties).

    Steps at 6 and 10 mm, so a thicker wall can make a tube less stiff: 60x60x6.3 is below 60x60x6.
    """
    outside = np.where(t <= 6, 2.0, np.where(t <= 10, 2.5, 3.0)) * t
    return outside, outside - t


def hot_radii(t):
    """Outside and inside corner radius of a hot-finished tube, mm (EN 10210-2 annex of section properties)."""
    return 1.5 * t, 1.0 * t


@dataclass(frozen=True, eq=False)
class Hollow(TwiceSymmetric):
    """Rectangular hollow section: depth h, width b, wall t, corner radii ro outside and ri inside, mm."""

    h: float
    b: float
    t: float
    ro: float
    ri: float

    @cached_property
    def quarter(self) -> Integrals:
        """First quadrant: the outer rounded rectangle less the inner."""
        return _rounded_quarter(self.b, self.h, self.ro).minus(
            _rounded_quarter(self.b - 2 * self.t, self.h - 2 * self.t, self.ri)
        )

    @property
    def edges(self):
        """Left, right, bottom, top from the centroid, mm."""
        return -self.b / 2, self.b / 2, -self.h / 2, self.h / 2

    @cached_property
    def polygons(self):
        """Outer outline and the hole."""
        t = self.t
        return rounded_rectangle(self.b, self.h, self.ro), rounded_rectangle(self.b - 2 * t, self.h - 2 * t, self.ri)

    @cached_property
    def _wall(self):
        """Area A_h within the wall's middle line and its length h_m (EN 10219-2 annex), mm2 and mm."""
        b, h, t = self.b, self.h, self.t
        R_c = (self.ro + self.ri) / 2
        return (b - t) * (h - t) - R_c**2 * (4 - np.pi), 2 * ((b - t) + (h - t)) - 2 * R_c * (4 - np.pi)

    @property
    def It(self):
        """Torsion constant of EN 10219-2 and EN 10210-2, mm4; hot tubes are truly up to 4 % stiffer."""
        A_h, h_m = self._wall
        return self.t**3 * h_m / 3 + 4 * A_h**2 * self.t / h_m

    @property
    def Wt(self):
        """Torsion modulus C_t of EN 10219-2 and EN 10210-2, mm3."""
        A_h, h_m = self._wall
        K = 2 * A_h * self.t / h_m
        return self.It / (self.t + K / self.t)

    def shear_area(self, axis: str, eta: float = 1.0):
        """EN 1993-1-1 6.2.6(3) f: the area shared by depth and width."""
        check_axis(axis)
        return self.A * (self.h if axis == "z" else self.b) / (self.b + self.h)

    @property
    def Asy(self):
        """The two flanges clear of the webs, mm2."""
        return 2 * (self.b - 2 * self.t) * self.t

    @property
    def Asz(self):
        """The two webs clear of the flanges, mm2: the corners hardly share in the deflection."""
        return 2 * (self.h - 2 * self.t) * self.t

    @property
    def elements(self) -> tuple[Element, ...]:
        """Four internal parts with c = b - 3t, as Table 5.2 and the design tables take it."""
        c_h, c_b = self.h - 3 * self.t, self.b - 3 * self.t
        y, z = (self.b - self.t) / 2, (self.h - self.t) / 2
        return (
            Element("flange", "internal", c_b, self.t, (-c_b / 2, z), (c_b / 2, z)),
            Element("flange", "internal", c_b, self.t, (-c_b / 2, -z), (c_b / 2, -z)),
            Element("web", "internal", c_h, self.t, (-y, c_h / 2), (-y, -c_h / 2)),
            Element("web", "internal", c_h, self.t, (y, c_h / 2), (y, -c_h / 2)),
        )

    def levels(self, axis: str):
        """The ends of the straight walls and the neutral axis."""
        # A hot tube's inside arc begins below its outside one.
        junction = (self.h if axis == "y" else self.b) / 2 - np.maximum(self.ro, self.t + self.ri)
        return (
            ("web-flange junction", junction),
            ("neutral axis", 0.0 * self.A),
            ("web-flange junction", -junction),
        )

    def cut(self, axis: str, level):
        """Through the two straight walls."""
        return self.straight_cut(axis, level, 2 * self.t)


@dataclass(frozen=True, eq=False)
class AmericanHollow(Hollow):
    """Hollow section to ASTM A500: t is the design wall, 0.93 of the wall `t_nominal` it is sold and weighed by."""

    t_nominal: float

    @property
    def It(self):
        """Thin-wall (Bredt) torsion constant, as the American tables have it, mm4."""
        A_h, h_m = self._wall
        return 4 * A_h**2 * self.t / h_m

    @property
    def C(self):
        """The tables' torsion constant C, mm3: mean stress across the wall, so 5 to 23 % above `Wt`."""
        t = self.t
        return 2 * (self.b - t) * (self.h - t) * t - 4.5 * (4 - np.pi) * t**3

    @property
    def mass(self):
        """Mass of a metre by the nominal wall, kg/m."""
        t = self.t_nominal
        return Hollow(self.h, self.b, t, 2 * t, t).A * DENSITY * 1e3


def _rounded_quarter(b, h, r) -> Integrals:
    corner = fillet((b / 2, h / 2), (-1.0, 0.0), (0.0, -1.0), r)
    return rectangle(0.0, b / 2, 0.0, h / 2).minus(corner)


@dataclass(frozen=True, eq=False)
class Tube(Shape):
    """Circular hollow section: outside diameter D and wall t, mm."""

    D: float
    t: float

    @cached_property
    def integrals(self) -> Integrals:
        """The ring, exactly."""
        D, d = self.D, self.D - 2 * self.t
        second, zero = np.pi / 64 * (D**4 - d**4), 0.0 * D
        return Integrals(np.pi / 4 * (D**2 - d**2), zero, zero, second, second, zero)

    @property
    def edges(self):
        """Left, right, bottom, top from the centroid, mm."""
        return -self.D / 2, self.D / 2, -self.D / 2, self.D / 2

    @cached_property
    def polygons(self):
        """Outer circle and the hole, drawn with more chords than a corner."""
        circles = (self.D / 2, self.D / 2 - self.t)
        return tuple(arc((0.0, 0.0), r, 0.0, 2 * np.pi, 240)[..., :-1, :] for r in circles)

    @property
    def Wpl_y(self):
        """Plastic modulus, mm3."""
        return (self.D**3 - (self.D - 2 * self.t) ** 3) / 6

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
        """EN 1993-1-1 6.2.6(3) g: 2 A / pi."""
        check_axis(axis)
        return 2 * self.A / np.pi

    @property
    def Asy(self):
        """Half the area, the thin ring, mm2."""
        return self.A / 2

    Asz = Asy

    def cut(self, axis: str, level):
        """Through the middle."""
        return self.Wpl_y / 2, 2 * self.t

    @property
    def elements(self) -> tuple[Element, ...]:
        """The wall; c is the outside diameter d of Table 5.2."""
        return (Element("wall", "tube", self.D, self.t, (0.0 * self.D, 0.0 * self.D), (0.0 * self.D, 0.0 * self.D)),)


@dataclass(frozen=True, eq=False)
class AmericanTube(Tube):
    """Round tube to ASTM A500: t is the design wall, 0.93 of the nominal wall it is weighed by."""

    t_nominal: float

    @property
    def mass(self):
        """Mass of a metre by the nominal wall, kg/m."""
        return Tube(self.D, self.t_nominal).A * DENSITY * 1e3
