"""Areas with corners: rectangles, triangles and root fillets, each as its integrals over (y, z).

Every function takes numbers or numpy arrays and returns `Integrals` about the origin, so that a section is a sum.
"""

from typing import NamedTuple

import numpy as np


class Integrals(NamedTuple):
    """Integrals of 1, y, z, y^2, z^2 and y z over an area (mm2, mm3, mm4)."""

    A: float
    Qy: float
    Qz: float
    Jyy: float
    Jzz: float
    Jyz: float

    def plus(self, *others: "Integrals") -> "Integrals":
        """This area and the others together."""
        return Integrals(*(sum(values[1:], values[0]) for values in zip(self, *others, strict=True)))

    def minus(self, *others: "Integrals") -> "Integrals":
        """This area with the others cut out."""
        return self.plus(*(Integrals(*(-value for value in other)) for other in others))

    def centred(self) -> "Integrals":
        """The same about axes through the centroid."""
        y, z = self.Qy / self.A, self.Qz / self.A
        return Integrals(
            self.A,
            0.0 * self.A,
            0.0 * self.A,
            self.Jyy - self.Qy * y,
            self.Jzz - self.Qz * z,
            self.Jyz - self.Qy * z,
        )


def rectangle(y_1, y_2, z_1, z_2) -> Integrals:
    """The rectangle y_1 to y_2 by z_1 to z_2, mm."""
    b, h = y_2 - y_1, z_2 - z_1
    A, y, z = b * h, (y_1 + y_2) / 2, (z_1 + z_2) / 2
    return Integrals(A, A * y, A * z, A * (y * y + b * b / 12), A * (z * z + h * h / 12), A * y * z)


def triangle(a, b, c) -> Integrals:
    """The triangle with the corners a, b and c, each (y, z) in mm; positive whichever way round."""
    (y_1, z_1), (y_2, z_2), (y_3, z_3) = a, b, c
    A = abs((y_2 - y_1) * (z_3 - z_1) - (y_3 - y_1) * (z_2 - z_1)) / 2
    y, z = (y_1 + y_2 + y_3) / 3, (z_1 + z_2 + z_3) / 3
    # Exact for second moments: a triangle weighs like a third of its area at each middle of a side.
    middles = (
        ((y_1 + y_2) / 2, (z_1 + z_2) / 2),
        ((y_2 + y_3) / 2, (z_2 + z_3) / 2),
        ((y_3 + y_1) / 2, (z_3 + z_1) / 2),
    )
    return Integrals(
        A,
        A * y,
        A * z,
        A / 3 * sum(p * p for p, _ in middles),
        A / 3 * sum(q * q for _, q in middles),
        A / 3 * sum(p * q for p, q in middles),
    )


def fillet(corner, first, second, r) -> Integrals:
    """The area between a corner and the arc of radius r that touches both its sides.

    corner         (y, z) of the corner, mm
    first, second  unit vectors along the two sides, away from the corner
    r              radius, mm; 0 gives nothing

    The kite from the corner to the arc's centre less the sector of the circle.
    """
    V_y, V_z = corner
    cosine = first[0] * second[0] + first[1] * second[1]
    half = np.arccos(cosine) / 2
    along_y, along_z = first[0] + second[0], first[1] + second[1]
    size = np.sqrt(along_y * along_y + along_z * along_z)
    p, q = along_y / size, along_z / size
    T, d, alpha = r / np.tan(half), r / np.sin(half), np.pi / 2 - half
    x_T, y_T = T * np.cos(half), T * np.sin(half)
    # Own axes: x from the corner to the centre of the arc, y across.
    kite = d * y_T
    kite_x = kite * (d + x_T) / 3
    kite_xx = kite / 6 * (d * d + x_T * x_T + d * x_T)
    kite_yy = kite * y_T * y_T / 6
    sector = alpha * r * r
    reach = 2 * r**3 * np.sin(alpha) / 3
    sector_x = sector * d - reach
    sector_xx = sector * d * d - 2 * d * reach + r**4 / 8 * (2 * alpha + np.sin(2 * alpha))
    sector_yy = r**4 / 8 * (2 * alpha - np.sin(2 * alpha))
    A, x, xx, yy = kite - sector, kite_x - sector_x, kite_xx - sector_xx, kite_yy - sector_yy
    # Turned by (p, q), then moved to the corner; the across axis is (-q, p).
    Jyy, Jzz, Jyz = p * p * xx + q * q * yy, q * q * xx + p * p * yy, p * q * (xx - yy)
    return Integrals(
        A,
        A * V_y + p * x,
        A * V_z + q * x,
        Jyy + 2 * V_y * p * x + A * V_y * V_y,
        Jzz + 2 * V_z * q * x + A * V_z * V_z,
        Jyz + V_y * q * x + V_z * p * x + A * V_y * V_z,
    )
