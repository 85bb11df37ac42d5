"""Torsion of open sections about their shear centre: what a load beside it does to a channel."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from structcheck.analysis.warping import Torque, Twist, twist
from structcheck.checks.member_forms import E, G, form
from structcheck.errors import NotCovered
from structcheck.standards import handbook_torsion as vlasov


@dataclass(frozen=True)
class Warping:
    """Sectorial properties of an open section.

    e      from the web's middle line to the shear centre, mm
    omega  greatest sectorial coordinate, mm2
    S      greatest sectorial first moment, mm4, in a wall of thickness t
    """

    e: float
    omega: float
    S: float
    t: float


def warping(section: Any) -> Warping:
    """Sectorial properties of a channel or an I. Raises NotCovered for other open sections."""
    shape, kind = getattr(section, "shape", section), form(section)
    if kind == "i":
        h = shape.h - shape.tf
        omega = vlasov.sectorial_coordinate_i(shape.b, h)
        return Warping(0.0, omega, vlasov.sectorial_moment_i(shape.b, shape.tf, h), shape.tf)
    if kind == "channel":
        b, h = shape.b - shape.tw / 2, shape.h - shape.tf
        e = shape.tw / 2 - section.centroid[0] - section.y_s
        omega = vlasov.sectorial_coordinate_channel(b, h, e)
        return Warping(e, omega, vlasov.sectorial_moment_channel(b, shape.tf, h, e), shape.tf)
    raise NotCovered("torsion of this open section needs its sectorial properties, which are not known here")


def twist_of_beam(
    section: Any, span: float, loads: Sequence[tuple[float, float]], eccentricity: float, x: float, side: str
) -> Twist:
    """Internal torsion of all pieces together at x.

    loads         (force of all pieces, place); a spread load counts at its middle, which is safe
    eccentricity  from the shear centre to the loads, mm
    """
    kappa = float(vlasov.torsion_length(G, section.It, E, section.Iw, 1.0))
    torques = [Torque(force * eccentricity, at) for force, at in loads]
    return twist(span, torques, kappa, x, side)
