"""Rolled channels, with parallel or tapered flanges. The drawing starts at the back of the web, mid-depth."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from structcheck.shapes.outline import arc, joined, mirrored, points
from structcheck.shapes.pieces import Integrals, fillet, rectangle, triangle
from structcheck.shapes.shape import Element, Shape, check_axis


@dataclass(frozen=True, eq=False)
class Channel(Shape):
    """A rolled channel, mm.

    h, b, tw, tf  depth, width over the web, web and flange
    r1, r2        root radius and toe radius
    slope         fall of the flange's inner face, 0.08 for 8 %
    u             distance from the toe at which tf is measured
    """

    h: float
    b: float
    tw: float
    tf: float
    r1: float
    r2: float
    slope: float
    u: float

    @property
    def t_toe(self):
        """Flange thickness at the tip, the toe radius left out, mm."""
        return self.tf - self.slope * self.u

    @property
    def t_root(self):
        """Flange thickness at the face of the web, the fillet left out, mm."""
        return self.tf + self.slope * (self.b - self.tw - self.u)

    @property
    def _lean(self):
        """Unit vector along the flange's inner face, from web to toe, in the upper half."""
        size = np.sqrt(1 + self.slope**2)
        return 1 / size, self.slope / size

    @cached_property
    def _upper(self) -> Integrals:
        h, b, tw = self.h / 2, self.b, self.tw
        along, rise = self._lean
        root, toe = (tw, h - self.t_root), (b, h - self.t_toe)
        return (
            rectangle(0.0, tw, 0.0, h)
            .plus(
                rectangle(tw, b, h - self.t_toe, h),
                triangle((tw, h - self.t_toe), root, toe),
                fillet(root, (along, rise), (0.0, -1.0), self.r1),
            )
            .minus(fillet(toe, (-along, -rise), (0.0, 1.0), self.r2))
        )

    @cached_property
    def integrals(self) -> Integrals:
        """Twice the upper half, about the back of the web."""
        half, zero = self._upper, 0.0 * self._upper.A
        return Integrals(2 * half.A, 2 * half.Qy, zero, 2 * half.Jyy, 2 * half.Jzz, zero)

    @property
    def edges(self):
        """Left, right, bottom, top from the centroid, mm."""
        zs = self.centroid[0]
        return -zs, self.b - zs, -self.h / 2, self.h / 2

    @cached_property
    def polygons(self):
        """The outline with root fillets and rounded toes."""
        zs, h = self.centroid[0], self.h / 2
        angle = np.arctan(self.slope)
        reach = np.tan(np.pi / 4 - angle / 2)  # tangent length / radius at root and toe alike
        root = (self.tw - zs + self.r1, h - self.t_root - self.r1 * reach)
        toe = (self.b - zs - self.r2, h - self.t_toe + self.r2 * reach)
        upper = joined(
            arc(root, self.r1, np.pi, np.pi / 2 + angle),
            arc(toe, self.r2, angle - np.pi / 2, 0.0),
            points((self.b - zs, h), (-zs, h)),
        )
        return (mirrored(upper, "y"),)

    @property
    def Wpl_y(self):
        """Plastic modulus about y, mm3."""
        return 2 * self._upper.Qz

    @property
    def hw(self):
        """Web depth clear of the flanges at tf, mm."""
        return self.h - 2 * self.tf

    @property
    def It(self):
        """Torsion constant with the web-flange junctions, mm4 (El Darwish and Johnston for an L junction).

        A tapered flange is summed as the integral of t^3, its junction taken at tf.
        Within 0 and +2 % of finite elements for slopes of 0, 8 and 16.7 %.
        """
        b, tw, tf, r = self.b, self.tw, self.tf, self.r1
        t_toe, t_heel = self.t_toe, self.t_root + self.slope * tw
        flanges = b * (t_heel + t_toe) * (t_heel**2 + t_toe**2) / 6
        alpha = -0.0908 + 0.2621 * tw / tf + 0.1231 * r / tf - 0.0752 * tw * r / tf**2 - 0.0945 * (tw / tf) ** 2
        D = 2 * (3 * r + tw + tf - np.sqrt(2 * (2 * r + tw) * (2 * r + tf)))
        ends = 0.21 * (t_toe**4 + t_heel**4)
        return flanges + self.hw * tw**3 / 3 + 2 * alpha * D**4 - ends

    @property
    def Wt(self):
        """Torsion modulus at the thickest plate, mm3; the rise of stress in the fillet is not in it."""
        return self.It / np.maximum(self.t_root, self.tw)

    @cached_property
    def _middle(self):
        """The wall's middle line: height of the corner, and the integrals of t, t x and t x^2 of a flange.

        x runs from the middle of the web; the flange's middle line is z = z_0 + slope x / 2.
        """
        b, s = self.b - self.tw / 2, self.slope
        t_web = self.tf + s * (b - self.u)
        return (
            (self.h - t_web) / 2,
            t_web * b - s * b**2 / 2,
            t_web * b**2 / 2 - s * b**3 / 3,
            t_web * b**3 / 3 - s * b**4 / 4,
        )

    @cached_property
    def _offset(self):
        """Shear centre behind the middle of the web, mm, by the shear flow along the middle line."""
        (z_0, M_0, M_1, M_2), s = self._middle, self.slope
        flange = z_0**2 * M_0 + z_0 * s * M_1 + s**2 / 4 * M_2
        return z_0 * (z_0 * M_1 + s / 2 * M_2) / (self.tw * z_0**3 / 3 + flange)

    @property
    def Iw(self):
        """Warping constant along the middle line, mm6: within -4 and +1 % of finite elements."""
        (z_0, M_0, M_1, M_2), e = self._middle, self._offset
        k = z_0 - e * self.slope / 2
        flange = (e * z_0) ** 2 * M_0 - 2 * e * z_0 * k * M_1 + k**2 * M_2
        return 2 * flange + 2 / 3 * e**2 * self.tw * z_0**3

    @property
    def y_s(self):
        """Shear centre from the centroid, mm: negative, it lies behind the web.

        The producers' formula where the flanges are parallel; 2 to 7 % farther out than finite elements.
        """
        return self.tw / 2 - self.centroid[0] - self._offset

    def shear_area(self, axis: str, eta: float = 1.0):
        """EN 1993-1-1 6.2.6(3) b along the web; along the flanges, which it does not list, the flanges alone."""
        check_axis(axis)
        flanges = 2 * self.b * self.tf
        return flanges if axis == "y" else self.A - flanges + (self.tw + self.r1) * self.tf

    @property
    def Asy(self):
        """5/6 of the flanges, mm2."""
        return 5 / 6 * 2 * self.b * self.tf

    @property
    def Asz(self):
        """The web clear of the flanges, mm2."""
        return self.hw * self.tw

    @property
    def elements(self) -> tuple[Element, ...]:
        """Two outstands and the web, from the root radii."""
        zs, z = self.centroid[0], (self.h - self.tf) / 2
        root, tip, d = self.tw + self.r1 - zs, self.b - zs, self.hw - 2 * self.r1
        middle = self.tw / 2 - zs
        return (
            Element("flange", "outstand", tip - root, self.tf, (root, z), (tip, z)),
            Element("flange", "outstand", tip - root, self.tf, (root, -z), (tip, -z)),
            Element("web", "internal", d, self.tw, (middle, d / 2), (middle, -d / 2)),
        )

    def levels(self, axis: str):
        """The ends of the web's straight part, and the neutral axis."""
        if axis == "z":
            return (("neutral axis", 0.0 * self.A),)
        reach = np.tan(np.pi / 4 - np.arctan(self.slope) / 2)
        junction = self.h / 2 - self.t_root - self.r1 * reach
        return (
            ("web-flange junction", junction),
            ("neutral axis", 0.0 * self.A),
            ("web-flange junction", -junction),
        )

    def cut(self, axis: str, level):
        """Through the straight web; through the flanges by the outline."""
        return self.straight_cut(axis, level, self.tw) if axis == "y" else super().cut(axis, level)
