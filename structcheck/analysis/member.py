"""What a straight member does between two stations: polynomials of the distance from a station, and where they vanish.

Between stations a load is at most linear, so every diagram and every deflection is a short polynomial. A polynomial is
an array of coefficients along the first axis, c0 + c1 t + c2 t^2 + ...; the other axes are whatever the caller solves
side by side: members, stretches, load cases, sections tried.
"""

from collections.abc import Sequence

import numpy as np

from structcheck.record import record

Numbers = float | np.ndarray

_STEPS = 60
_CLOSE = 1e-13


@record
class Extreme:
    """A value with its sign and the position x where it stands (mm from the start of the beam or member)."""

    value: Numbers
    x: Numbers


def evaluate(coefficients: Sequence[np.ndarray] | np.ndarray, t: np.ndarray | float) -> np.ndarray:
    """The polynomial at `t`, which broadcasts with the coefficients after their first axis."""
    total = coefficients[-1]
    for coefficient in coefficients[-2::-1]:
        total = total * t + coefficient
    return total


def derivative(coefficients: np.ndarray) -> np.ndarray:
    """Coefficients of the derivative; one fewer."""
    powers = np.arange(1, len(coefficients)).reshape(-1, *(1,) * (coefficients.ndim - 1))
    return coefficients[1:] * powers


def zeros(coefficients: np.ndarray, length: np.ndarray | float) -> np.ndarray:
    """Every zero of the polynomials on [0, length].

    coefficients  shape (degree + 1, ...)
    length        broadcasts with (...), not negative

    Returns shape (degree, ...), or fewer rows where the leading coefficients are nothing throughout. A polynomial with
    fewer zeros than rows has other points of [0, length] in the spare rows, so a caller looking for the extreme of the
    integral may simply try every row.
    """
    c = np.asarray(coefficients, dtype=float)
    scale = np.broadcast_to(np.asarray(length, dtype=float), c.shape[1:])
    return _zeros_of_unit(c * scale ** np.arange(len(c)).reshape(-1, *(1,) * scale.ndim)) * scale


def _zeros_of_unit(c: np.ndarray) -> np.ndarray:
    """Zeros on [0, 1], ascending along the first axis."""
    while len(c) > 1 and not c[-1].any():
        c = c[:-1]
    if len(c) == 1:
        return np.zeros((0, *c.shape[1:]))
    if len(c) == 2:
        with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
            return _inside(-c[:1] / c[1:])
    if len(c) == 3:
        return _zeros_of_quadratic(*c)
    return _zeros_between_turns(c)


def _inside(u: np.ndarray) -> np.ndarray:
    return np.clip(np.nan_to_num(u, nan=0.0, posinf=1.0, neginf=0.0), 0.0, 1.0)


def _zeros_of_quadratic(c: np.ndarray, b: np.ndarray, a: np.ndarray) -> np.ndarray:
    # Adding two quantities of one sign keeps the smaller root exact when `a` is all but nothing.
    q = -0.5 * (b + np.copysign(np.sqrt(np.maximum(b * b - 4 * a * c, 0.0)), b))
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        roots = np.stack((q / a, c / q))
    return np.sort(_inside(roots), axis=0)


def _zeros_between_turns(c: np.ndarray) -> np.ndarray:
    """One zero in each interval between turning points, where the polynomial is monotone."""
    u = np.zeros((len(c) - 1, *c.shape[1:]))
    # Most polynomials solved side by side are of lower degree, and most intervals hold no zero.
    high = c[-1] != 0
    low_degree = _zeros_of_unit(c[:-1, ~high])
    u[len(u) - len(low_degree) :, ~high] = low_degree
    c = c[:, high]
    turns = _zeros_of_unit(derivative(c))
    knots = np.concatenate([np.zeros_like(c[:1]), turns, np.ones_like(c[:1])])
    at_knots = evaluate(c[:, None], knots)
    crossed = at_knots[:-1] * at_knots[1:] <= 0
    found = knots[:-1].copy()
    rising = (at_knots[1:] > at_knots[:-1])[crossed]
    own = np.broadcast_to(c[:, None], (len(c), *crossed.shape))[:, crossed]
    found[crossed] = _bracketed(own, knots[:-1][crossed], knots[1:][crossed], rising)
    u[:, high] = found
    return u


def _bracketed(c: np.ndarray, low: np.ndarray, high: np.ndarray, rising: np.ndarray) -> np.ndarray:
    """Newton kept inside a bracket that only shrinks, so that it cannot leave its interval or miss the zero."""
    slope = derivative(c)
    u = 0.5 * (low + high)
    for _ in range(_STEPS):
        value = evaluate(c, u)
        beyond = (value > 0) == rising
        low, high = np.where(beyond, low, u), np.where(beyond, u, high)
        with np.errstate(divide="ignore", invalid="ignore"):
            step = u - value / evaluate(slope, u)
        better = np.where((step >= low) & (step <= high), step, 0.5 * (low + high))
        moved = np.abs(better - u).max(initial=0.0)
        u = better
        if moved < _CLOSE:
            break
    return u
