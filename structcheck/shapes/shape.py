"""What every cross-section can tell about itself, whatever its family.

y is the strong axis and z runs along the depth, both from the centroid; Iy is the integral of z^2.
All in N and mm. The fields may be numpy arrays of one shape: one object is then a whole sweep of sizes.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from structcheck.shapes.outline import beyond, plastic_modulus
from structcheck.shapes.pieces import Integrals

DENSITY = 7850e-9  # kg/mm3, the figure the European and American size lists use


@dataclass(frozen=True)
class Element:
    """A plate of the section as EN 1993-1-1 Table 5.2 sees it.

    role    "flange", "web", "leg", "wall" or "bar"
    kind    "internal", "outstand", "tube" (c is the outside diameter) or "solid" (no local buckling)
    c, t    flat width between root radii or weld toes, and thickness, mm
    start   (y, z) of one flat end at mid-thickness from the centroid, mm
    end     the other; the free tip of an outstand
    """

    role: str
    kind: str
    c: float
    t: float
    start: tuple[float, float]
    end: tuple[float, float]


@dataclass(frozen=True)
class Fibre:
    """A place where the elastic stress is looked at.

    name   "top", "web-flange junction", "neutral axis", ...
    lever  signed distance from the elastic neutral axis, mm: sigma = M lever / I
    tau    shear stress there per unit shear force, S/(I t), 1/mm2
    """

    name: str
    lever: float
    tau: float


class Shape:
    """Base of the families: a subclass gives `integrals`, `edges`, `polygons`, `It` and the shear areas."""

    integrals: Integrals  # about any origin
    edges: tuple[float, float, float, float]  # left, right, bottom, top from the centroid, mm
    polygons: tuple[np.ndarray, ...]  # from the centroid

    # ---- area and bending -------------------------------------------------------------------

    @cached_property
    def _centred(self) -> Integrals:
        return self.integrals.centred()

    @cached_property
    def A(self):
        """Area, mm2."""
        return self.integrals.A

    @cached_property
    def centroid(self):
        """(y, z) of the centroid from the corner the family's drawing starts from, mm."""
        return self.integrals.Qy / self.A, self.integrals.Qz / self.A

    @cached_property
    def Iy(self):
        """Second moment about the strong axis, mm4."""
        return self._centred.Jzz

    @cached_property
    def Iz(self):
        """Second moment about the weak axis, mm4."""
        return self._centred.Jyy

    @cached_property
    def Iyz(self):
        """Product of inertia about y and z, mm4."""
        return self._centred.Jyz

    @cached_property
    def Iu(self):
        """Greatest principal second moment, mm4."""
        return (self.Iy + self.Iz) / 2 + np.hypot((self.Iy - self.Iz) / 2, self.Iyz)

    @cached_property
    def Iv(self):
        """Least principal second moment, mm4."""
        return (self.Iy + self.Iz) / 2 - np.hypot((self.Iy - self.Iz) / 2, self.Iyz)

    @cached_property
    def alpha(self):
        """Angle from y to the principal axis u, rad."""
        return 0.5 * np.arctan2(-2 * self.Iyz, self.Iy - self.Iz)

    @cached_property
    def Wel_y(self):
        """Least elastic modulus about y, mm3."""
        return self.Iy / np.maximum(-self.edges[2], self.edges[3])

    @cached_property
    def Wel_z(self):
        """Least elastic modulus about z, mm3."""
        return self.Iz / np.maximum(-self.edges[0], self.edges[1])

    @cached_property
    def Wpl_y(self):
        """Plastic modulus about y, mm3, from the outline unless the family has a closed form."""
        return plastic_modulus(self.polygons, "y")

    @cached_property
    def Wpl_z(self):
        """Plastic modulus about z, mm3, from the outline unless the family has a closed form."""
        return plastic_modulus(self.polygons, "z")

    @property
    def i_y(self):
        """Radius of gyration about y, mm."""
        return (self.Iy / self.A) ** 0.5

    @property
    def i_z(self):
        """Radius of gyration about z, mm."""
        return (self.Iz / self.A) ** 0.5

    @property
    def i_v(self):
        """Least radius of gyration, mm."""
        return (self.Iv / self.A) ** 0.5

    @property
    def mass(self):
        """Mass of a metre, kg/m."""
        return self.A * DENSITY * 1e3

    # ---- torsion and shear ------------------------------------------------------------------

    @property
    def It(self):
        """Saint-Venant torsion constant, mm4."""
        raise NotImplementedError

    @property
    def Wt(self):
        """Torsion modulus, mm3: greatest Saint-Venant shear stress = T / Wt."""
        raise NotImplementedError

    @property
    def Iw(self):
        """Warping constant about the shear centre, mm6; 0 where warping is not worth counting."""
        return 0.0 * self.A

    @property
    def y_s(self):
        """Shear centre from the centroid along y, mm."""
        return 0.0 * self.A

    @property
    def z_s(self):
        """Shear centre from the centroid along z, mm."""
        return 0.0 * self.A

    def shear_area(self, axis: str, eta: float = 1.0):
        """Shear area A_v of EN 1993-1-1 6.2.6(3) for a force along `axis` ("y" or "z"), mm2."""
        raise NotImplementedError

    @property
    def Asy(self):
        """Shear area for the deflection under a force along y, mm2."""
        raise NotImplementedError

    @property
    def Asz(self):
        """Shear area for the deflection under a force along z, mm2."""
        raise NotImplementedError

    # ---- parts ------------------------------------------------------------------------------

    @property
    def elements(self) -> tuple[Element, ...]:
        """The plates to classify."""
        raise NotImplementedError

    def levels(self, axis: str) -> tuple[tuple[str, float], ...]:
        """Named places between the extreme fibres, as distances from the centroid, mm."""
        return (("neutral axis", 0.0 * self.A),)

    def straight_cut(self, axis: str, level, width):
        """`cut` where the plates run straight, `width` mm together, from the level to an axis of symmetry."""
        return (self.Wpl_y if axis == "y" else self.Wpl_z) / 2 - width * level**2 / 2, width

    def fibres(self, axis: str) -> tuple[Fibre, ...]:
        """Where to look at the elastic stress: bending about `axis`, shear in the matching direction."""
        check_axis(axis)
        left, right, bottom, top = self.edges
        low, high, names = (bottom, top, ("bottom", "top")) if axis == "y" else (left, right, ("left", "right"))
        second_moment = self.Iy if axis == "y" else self.Iz
        inner = tuple(self._fibre(name, axis, level, second_moment) for name, level in self.levels(axis))
        return (Fibre(names[1], high, 0.0 * self.A), *inner, Fibre(names[0], low, 0.0 * self.A))

    def _fibre(self, name: str, axis: str, level, second_moment) -> Fibre:
        S, width = self.cut(axis, level)
        return Fibre(name, level, S / (second_moment * width))

    def cut(self, axis: str, level):
        """First moment (mm3) of what lies beyond one of the `levels`, and the material cut there (mm).

        From the outline, unless the family has a closed form.
        """
        cut = beyond(self.polygons, axis, level)
        return cut.S, cut.width

    def outline(self) -> tuple[np.ndarray, ...]:
        """Closed polygons of (y, z) from the centroid, mm: the outer one first, then the holes."""
        return self.polygons


class TwiceSymmetric(Shape):
    """A section symmetric about both axes, summed from its first quadrant `quarter`."""

    quarter: Integrals  # about the centroid

    @cached_property
    def integrals(self) -> Integrals:
        """Integrals of the whole section about its centroid."""
        zero = 0.0 * self.quarter.A
        return Integrals(4 * self.quarter.A, zero, zero, 4 * self.quarter.Jyy, 4 * self.quarter.Jzz, zero)

    @property
    def Wpl_y(self):
        """Plastic modulus about y, mm3."""
        return 4 * self.quarter.Qz

    @property
    def Wpl_z(self):
        """Plastic modulus about z, mm3."""
        return 4 * self.quarter.Qy


def check_axis(axis: str, known: tuple[str, ...] = ("y", "z")) -> None:
    """Refuse an axis the section does not have."""
    if axis not in known:
        raise ValueError(f"axis: {axis!r} is none of {', '.join(known)}")
