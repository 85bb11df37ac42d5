"""Elastic stress of an angle, bent about a leg's axis and so about both principal axes at once."""

from typing import Any

import numpy as np

from structcheck.errors import NotCovered

SAMPLES = 21
"""Places along each leg where stress is looked at; the shear flow is a parabola, so its peak is met to 0.1 %."""

Point = tuple[str, Any, Any]
"""Place, normal stress, shear stress, MPa."""


def gradients(section: Any, M_y: Any, M_z: Any) -> tuple[Any, Any]:
    """Slopes (along z, along y) of the compression stress that moments put on a skew section, MPa / mm.

    M_y compresses the top, M_z the right: with sigma = a z + b y the integrals of sigma z and sigma y are the moments.
    """
    span = section.Iy * section.Iz - section.Iyz**2
    return (M_y * section.Iz - M_z * section.Iyz) / span, (M_z * section.Iy - M_y * section.Iyz) / span


def angle_points(section: Any, N: Any, V_y: Any, V_z: Any, M_y: Any, M_z: Any) -> list[Point]:
    """Stress along both legs of one angle, at either face; forces positive.

    Which way round the angle stands nobody says: the moments take the worse sense to one another, and what N, V_y and
    V_z put at a point is added. Raises NotCovered where an angle with holes is bent.
    """
    if hasattr(section, "shift") and (np.any(M_y) or np.any(M_z)):
        raise NotCovered("bending of an angle at its holes turns about axes that are not covered here")
    shape = getattr(section, "shape", section)
    slopes = [gradients(section, M_y, sense * M_z) for sense in (1.0, -1.0)]
    flows = gradients(section, V_z, 0.0 * V_z), gradients(section, 0.0 * V_y, V_y)
    points = []
    for leg in ("upright", "lying"):
        for share in np.linspace(0.0, 1.0, SAMPLES):
            y, z, beyond, mean_y, mean_z = _place(shape, leg, float(share))
            tau = sum(np.abs(a * mean_z + b * mean_y) * beyond for a, b in flows)
            name = f"at the {'tip' if share == 0 else 'heel' if share == 1 else 'side'} of the {leg} leg"
            for off in (-shape.t / 2, shape.t / 2):
                dy, dz = (off, 0.0) if leg == "upright" else (0.0, off)
                bending = [np.abs(a * (z + dz) + b * (y + dy)) for a, b in slopes]
                points.append((name, N / section.A + np.maximum(*bending), tau))
    return points


def _place(shape: Any, leg: str, share: float) -> tuple[Any, ...]:
    """A share of the way from a leg's tip to the heel: (y, z), and the length beyond it with its middle (y, z), mm."""
    y_0, z_0 = shape.centroid
    whole = shape.h if leg == "upright" else shape.b
    along, beyond = whole * (1 - share), whole * share
    across = shape.t / 2
    if leg == "upright":
        return across - y_0, along - z_0, beyond, across - y_0, along + beyond / 2 - z_0
    return along - y_0, across - z_0, beyond, along + beyond / 2 - y_0, across - z_0
