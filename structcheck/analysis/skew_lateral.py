"""Lateral torsional buckling of a thin bar of any section under one moment all along, which bends it both ways.

With the twist phi = sin(pi x / L) and the motion sideways it asks for, the energy's second variation vanishes where

    GI_t - K M - H M = M^2 L^2 / pi^2 (m_u^2 / EI_v + m_v^2 / EI_u)

for a moment M whose parts about the principal axes are m_u M and m_v M; the bending the bar has already is left out,
and so is its warping, both of which would raise M. K is Wagner's integral of sigma r^2 over the section. Units N, mm.
"""

from collections.abc import Sequence
from math import pi, sqrt

from structcheck.analysis.beam import Load, PointLoad


def critical_uniform_moment(GIt: float, wagner: float, lifted: float, softness: float, L: float) -> float:
    """The least moment, N mm, at which the bar buckles between places that hold it from moving sideways and twisting.

    wagner    integral of sigma r^2 for M = 1, r from the shear centre, in the sense that softens the bar, mm
    lifted    what loads above the shear centre add to it: a sum(F) 2 L / (pi^2 M), mm
    softness  m_u^2 / EI_v + m_v^2 / EI_u, 1 / (N mm2)
    """
    c, b = softness * L**2 / pi**2, abs(wagner) + max(lifted, 0.0)
    # The lesser root, written so that nothing cancels.
    return 2 * GIt / (b + sqrt(b * b + 4 * c * GIt))


def force_within(loads: Sequence[Load], start: float, end: float) -> float:
    """Force that stands between two places held, N; one on such a place twists nothing."""
    return sum(_within(load, start, end) for load in loads)


def _within(load: Load, start: float, end: float) -> float:
    if isinstance(load, PointLoad):
        return abs(load.force) if start < load.at < end else 0.0
    return abs(load.intensity) * max(min(load.end, end) - max(load.start, start), 0.0)
