"""A beam bedded on an even elastic support: a bed on a bench or on grout (Hetenyi).

The support is taken to pull as well as to press; the answers say where it would. N, mm, MPa; w positive downward.
"""

from math import cos, cosh, exp, inf, isfinite, sin, sinh

from structcheck.errors import InputError, Problem
from structcheck.record import record


@record
class Bedded:
    """A central force P on a bedded beam.

    beta      (k / 4 EI)^(1/4), 1/mm
    w, M      deflection and bending moment under the force, mm and N mm
    w_end     deflection of the ends, mm; 0 for an endless beam. Negative: the end lifts off, the model is then off too
    """

    beta: float
    w: float
    M: float
    w_end: float


def bedded_beam(P: float, EI: float, k: float, length: float = inf) -> Bedded:
    """A force in the middle of a free beam of the given length.

    k  stiffness of the support, N/mm for each mm of beam
    """
    problems = [
        Problem(name, f"{value:g}", "is no stiffness or length", "a positive number")
        for name, value in (("EI", EI), ("k", k), ("length", length))
        if not value > 0
    ]
    if problems:
        raise InputError(problems)
    beta = (k / (4 * EI)) ** 0.25
    if not isfinite(length) or beta * length > 40:
        return Bedded(beta, P * beta / (2 * k), P / (4 * beta), 0.0)
    x = beta * length
    below = sinh(x) + sin(x)
    w = P * beta / (2 * k) * (cosh(x) + cos(x) + 2) / below
    M = P / (4 * beta) * (cosh(x) - cos(x)) / below
    w_end = 2 * P * beta / k * cosh(x / 2) * cos(x / 2) / below
    return Bedded(beta, w, M, w_end)


def endless_deflection(bedded: Bedded, x: float) -> float:
    """Deflection of an endless beam at a distance x from the force, mm; it passes zero at 3 pi / (4 beta)."""
    u = bedded.beta * abs(x)
    return bedded.w * exp(-u) * (cos(u) + sin(u))
