"""Torsion of a straight open member that warps: Saint-Venant and warping torque shared along the span.

With kappa^2 = GI_t / EI_w the angle obeys EI_w phi'''' - GI_t phi'' = m, and the bimoment B = -EI_w phi'' the
equation kappa^2 B - B'' = m: Green's function between ends free to warp ("fork"), to which the bimoments of ends held
from warping are added. Units N, mm, MPa.
"""

from collections.abc import Sequence

import numpy as np

from structcheck.record import record

Numbers = float | np.ndarray
Side = str | np.ndarray


@record
class Torque:
    """A torque (N mm, or an array of them) at a distance from the left end (mm)."""

    torque: Numbers
    at: float


@record
class Ends:
    """How a member is held at its ends.

    left, right  held from warping (phi' = 0); else free to warp (B = 0)
    free         the right end may twist too: a cantilever, held against twisting at its left end
    """

    left: bool = False
    right: bool = False
    free: bool = False


FORKS = Ends()


@record
class Twist:
    """Internal torsion just left and right of a place.

    B    bimoment, N mm2
    T_w  warping torque, N mm
    T_t  Saint-Venant torque, N mm
    """

    B: Numbers
    T_w: Numbers
    T_t: Numbers


def twist(
    span: float, torques: Sequence[Torque], kappa: Numbers, x: Numbers, side: Side = "right", ends: Ends = FORKS
) -> Twist:
    """Bimoment and torques at x, for torques along a member.

    kappa  sqrt(GI_t / EI_w), 1/mm
    side   which side of a torque standing at x itself
    ends   how it is held; "forks" where left out
    """
    B, T_w, T = _between_forks(span, torques, kappa, x, side)
    if ends == FORKS:
        return Twist(B, T_w, T - T_w)
    whole = sum(one.torque for one in torques)
    if ends.free:
        # The tip bears nothing; what stands beyond x comes through it.
        T = T + (whole - _between_forks(span, torques, kappa, 0.0, "left")[2])
    B_left, B_right = _end_bimoments(span, torques, kappa, ends)
    shift = 0.0 if ends.free else (B_right - B_left) / span
    B = B + B_left * _fading(kappa, span - x, span) + B_right * _fading(kappa, x, span)
    T_w = T_w - B_left * _fading_slope(kappa, span - x, span) + B_right * _fading_slope(kappa, x, span)
    return Twist(B, T_w, T + shift - T_w)


def _between_forks(
    span: float, torques: Sequence[Torque], kappa: Numbers, x: Numbers, side: Side
) -> tuple[Numbers, Numbers, Numbers]:
    """B, T_w and the whole torque where both ends are free to warp and held against twisting."""
    B = T_w = T = 0.0 * np.asarray(x * kappa)
    for one in torques:
        a, b = one.at, span - one.at
        left = (x < a) | ((x == a) & (side == "left"))
        near, far = np.where(left, x, span - x), np.where(left, b, a)
        sign = np.where(left, 1.0, -1.0)
        B = B + one.torque / kappa * _ratio(kappa, near, far, span)
        T_w = T_w + sign * one.torque * _slope(kappa, near, far, span)
        T = T + one.torque * np.where(left, b, -a) / span
    return B, T_w, T


def _end_bimoments(span: float, torques: Sequence[Torque], kappa: Numbers, ends: Ends) -> tuple[Numbers, Numbers]:
    """B at both ends, from phi' = 0 (no Saint-Venant torque) at those held from warping."""
    near = kappa / np.tanh(kappa * span)
    if ends.free:
        whole = sum(one.torque for one in torques)
        _, slope, _ = _between_forks(span, torques, kappa, 0.0, "left")
        return ((slope - whole) / near if ends.left else 0.0 * kappa), 0.0 * kappa
    far = kappa / np.sinh(np.minimum(kappa * span, 700.0))
    # What Saint-Venant torsion would carry at each end with forks, and what end bimoments take from it.
    _, left_warping, left_whole = _between_forks(span, torques, kappa, 0.0, "left")
    _, right_warping, right_whole = _between_forks(span, torques, kappa, span, "right")
    left, right = left_whole - left_warping, right_whole - right_warping
    own, other = near - 1 / span, 1 / span - far
    if ends.left and ends.right:
        # own B_left + other B_right = -left;  other B_left + own B_right = right
        both = own**2 - other**2
        return -(own * left + other * right) / both, (own * right + other * left) / both
    return (-left / own if ends.left else 0.0 * kappa), (right / own if ends.right else 0.0 * kappa)


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


def _fading(kappa: Numbers, place: Numbers, span: float) -> Numbers:
    """sinh(kappa place) / sinh(kappa span), without overflow."""
    return np.exp(kappa * (place - span)) * (1 - np.exp(-2 * kappa * place)) / (1 - np.exp(-2 * kappa * span))


def _fading_slope(kappa: Numbers, place: Numbers, span: float) -> Numbers:
    """Its derivative by the place."""
    return kappa * np.exp(kappa * (place - span)) * (1 + np.exp(-2 * kappa * place)) / (1 - np.exp(-2 * kappa * span))
