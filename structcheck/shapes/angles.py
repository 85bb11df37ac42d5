"""Rolled angles. The drawing starts at the heel; one leg runs up z, the other along y."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from structcheck.shapes.outline import arc, beyond, joined, points
from structcheck.shapes.pieces import Integrals, fillet, rectangle
from structcheck.shapes.shape import Element, Fibre, Shape, check_axis


@dataclass(frozen=True, eq=False)
class Angle(Shape):
    """Leg h along z, leg b along y (b at most h), thickness t, root radius r1, toe radius r2, mm."""

    h: float
    b: float
    t: float
    r1: float
    r2: float

    @cached_property
    def integrals(self) -> Integrals:
        """The legs and the root fillet less the rounding of the toes, about the heel."""
        h, b, t = self.h, self.b, self.t
        return (
            rectangle(0.0, t, 0.0, h)
            .plus(
                rectangle(t, b, 0.0, t),
                fillet((t, t), (1.0, 0.0), (0.0, 1.0), self.r1),
            )
            .minus(
                fillet((t, h), (-1.0, 0.0), (0.0, -1.0), self.r2),
                fillet((b, t), (-1.0, 0.0), (0.0, -1.0), self.r2),
            )
        )

    @property
    def edges(self):
        """Left, right, bottom, top from the centroid, mm."""
        y, z = self.centroid
        return -y, self.b - y, -z, self.h - z

    @cached_property
    def polygons(self):
        """The outline with fillet and rounded toes."""
        (y, z), t, r1, r2 = self.centroid, self.t, self.r1, self.r2
        return (
            joined(
                points((-y, -z), (self.b - y, -z)),
                arc((self.b - y - r2, t - z - r2), r2, 0.0, np.pi / 2),
                arc((t - y + r1, t - z + r1), r1, -np.pi / 2, -np.pi),
                arc((t - y - r2, self.h - z - r2), r2, 0.0, np.pi / 2),
                points((-y, self.h - z)),
            ),
        )

    @property
    def It(self):
        """Torsion constant with the junction of the legs, mm4 (El Darwish and Johnston for an L junction).

        2 to 3 % above finite elements: the formula does not see the rounded toes.
        """
        t, r = self.t, self.r1
        alpha = 0.0768 + 0.0479 * r / t
        D = 2 * ((3 * r + 2 * t) - np.sqrt(2.0) * (2 * r + t))
        return (self.b + self.h - t) * t**3 / 3 + alpha * D**4 - 0.21 * t**4

    @property
    def Wt(self):
        """Torsion modulus, mm3; the rise of stress in the fillet is not in it."""
        return self.It / self.t

    @property
    def Iw(self):
        """Warping constant across the thickness of the legs, mm6."""
        return self.t**3 / 36 * ((self.h - self.t / 2) ** 3 + (self.b - self.t / 2) ** 3)

    @property
    def y_s(self):
        """Shear centre from the centroid along y, mm: where the middle lines of the legs cross."""
        return self.t / 2 - self.centroid[0]

    @property
    def z_s(self):
        """Shear centre from the centroid along z, mm."""
        return self.t / 2 - self.centroid[1]

    def shear_area(self, axis: str, eta: float = 1.0):
        """The leg along the force: 6.2.6(3) lists no angle."""
        check_axis(axis)
        return (self.h if axis == "z" else self.b) * self.t

    @property
    def Asy(self):
        """5/6 of the leg along y, mm2."""
        return 5 / 6 * self.b * self.t

    @property
    def Asz(self):
        """5/6 of the leg along z, mm2."""
        return 5 / 6 * self.h * self.t

    @property
    def elements(self) -> tuple[Element, ...]:
        """Two outstands from the root radius; the whole legs for sheet 3 of Table 5.2 are the dimensions."""
        (y, z), t = self.centroid, self.t
        root = t + self.r1
        return (
            Element("leg", "outstand", self.h - root, t, (t / 2 - y, root - z), (t / 2 - y, self.h - z)),
            Element("leg", "outstand", self.b - root, t, (root - y, t / 2 - z), (self.b - y, t / 2 - z)),
        )

    def fibres(self, axis: str) -> tuple[Fibre, ...]:
        """As for any shape about "y" and "z", true only where the angle is held from moving sideways; also "u", "v"."""
        check_axis(axis, ("y", "z", "u", "v"))
        if axis in "yz":
            return super().fibres(axis)
        cosine, sine = (np.asarray(f(self.alpha))[..., None] for f in (np.cos, np.sin))
        polygon = self.polygons[0]
        along = polygon[..., 0] * cosine + polygon[..., 1] * sine
        across = polygon[..., 1] * cosine - polygon[..., 0] * sine
        turned = (np.stack([along, across], axis=-1),)
        levels, second_moment, axis = (across, self.Iu, "y") if axis == "u" else (along, self.Iv, "z")
        cut = beyond(turned, axis, 0.0 * self.A)
        return (
            Fibre("greatest", levels.max(axis=-1), 0.0 * self.A),
            Fibre("neutral axis", 0.0 * self.A, cut.S / (second_moment * cut.width)),
            Fibre("least", levels.min(axis=-1), 0.0 * self.A),
        )
