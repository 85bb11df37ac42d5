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
    """A torque (N mm, or an array of them) at a distance from the left end (mm)."""

    torque: Numbers
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


def twist(span: float, torques: Sequence[Torque], kappa: Numbers, x: Numbers, side: str = "right") -> Twist:
    """Bimoment and torques at x, for torques along a member between two forks.

    kappa  sqrt(GI_t / EI_w), 1/mm
    side   which side of a torque standing at x itself
    """
    B = T_w = T = 0.0 * np.asarray(x * kappa)
    for one in torques:
        a, b = one.at, span - one.at
        left = (x < a) | ((x == a) & (side == "left"))
        near, far = np.where(left, x, span - x), np.where(left, b, a)
        sign = np.where(left, 1.0, -1.0)
        B = B + one.torque / kappa * _ratio(kappa, near, far, span)
        T_w = T_w + sign * one.torque * _slope(kappa, near, far, span)
        T = T + one.torque * np.where(left, b, -a) / span
    return Twist(B, T_w, T - T_w)


def _ratio(kappa: Numbers, near: Numbers, far: Numbers, span: float) -> Numbers:
    """sinh(kappa near) sinh(kappa far) / sinh(kappa span), without overflow."""
    grown = np.exp(kappa * (near + far - span))
    return (
        grown * (1 - np.exp(-2 * kappa * near)) * (1 - np.exp(-2 * kappa * far)) / (2 * (1 - np.exp(-2 * kappa * span)))
    )


def _slope(kappa: Numbers, near: Numbers, far: Numbers, span: float) -> Numbers:
    """cosh(kappa near) sinh(kappa far) / sinh(kappa span), without overflow."""
    grown = np.exp(kappa * (near + far - span))
    return (
        grown * (1 + np.exp(-2 * kappa * near)) * (1 - np.exp(-2 * kappa * far)) / (2 * (1 - np.exp(-2 * kappa * span)))
    )
