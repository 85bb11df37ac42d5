"""Torsion of a straight open member that warps: Saint-Venant and warping torque shared along the span.

Ends held against twisting and free to warp ("fork"). With kappa^2 = GI_t / EI_w the angle obeys
EI_w phi'''' - GI_t phi'' = m; the bimoment B = -EI_w phi'' has the Green's function used here. Units N, mm, MPa.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

Numbers = float | np.ndarray


@dataclass(frozen=True)
class Torque:
    """A torque (N mm) at a distance from the left end (mm)."""

    torque: float
    at: float


@dataclass(frozen=True)
class Twist:
    """Internal torsion just left and right of a place.

    B    bimoment, N mm2
    T_w  warping torque, N mm
    T_t  Saint-Venant torque, N mm
    """

    B: Numbers
    T_w: Numbers
    T_t: Numbers


def twist(span: float, torques: Sequence[Torque], kappa: float, x: float, side: str = "right") -> Twist:
    """Bimoment and torques at x, for torques along a member between two forks.

    kappa  sqrt(GI_t / EI_w), 1/mm
    side   which side of a torque standing at x itself
    """
    B = T_w = T = 0.0
    for one in torques:
        a, b = one.at, span - one.at
        left = x < a or (x == a and side == "left")
        near, far = (x, b) if left else (span - x, a)
        sign = 1.0 if left else -1.0
        B += one.torque / kappa * _ratio(kappa, near, far, span)
        T_w += sign * one.torque * _slope(kappa, near, far, span)
        T += one.torque * (b / span if left else -a / span)
    return Twist(B, T_w, T - T_w)


def _ratio(kappa: float, near: float, far: float, span: float) -> float:
    """sinh(kappa near) sinh(kappa far) / sinh(kappa span), without overflow."""
    grown = np.exp(kappa * (near + far - span))
    return (
        grown * (1 - np.exp(-2 * kappa * near)) * (1 - np.exp(-2 * kappa * far)) / (2 * (1 - np.exp(-2 * kappa * span)))
    )


def _slope(kappa: float, near: float, far: float, span: float) -> float:
    """cosh(kappa near) sinh(kappa far) / sinh(kappa span), without overflow."""
    grown = np.exp(kappa * (near + far - span))
    return (
        grown * (1 + np.exp(-2 * kappa * near)) * (1 - np.exp(-2 * kappa * far)) / (2 * (1 - np.exp(-2 * kappa * span)))
    )
