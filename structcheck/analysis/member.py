"""What a straight member does between two stations: polynomials of the position, and where they turn.

Between stations the load is at most linear, so every diagram is a short polynomial of the distance t from the station.
"""

import numpy as np

_STEPS = 80


def evaluate(coefficients, t):
    """c0 + c1 t + c2 t^2 + ... for coefficients along the first axis; the rest broadcasts with `t`."""
    total = coefficients[-1]
    for coefficient in coefficients[-2::-1]:
        total = total * t + coefficient
    return total


def _turns_of_cubic(c0, c1, c2, c3):
    """Where the slope of c0 + c1 u + c2 u^2 + c3 u^3 vanishes, clipped to [0, 1]; shape (2, ...), ascending."""
    root = np.sqrt(np.maximum(c2 * c2 - 3 * c1 * c3, 0.0))
    # Adding quantities of one sign keeps the root near zero when c3 is all but nothing.
    q = -(c2 + np.copysign(root, c2))
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        turns = np.stack(np.broadcast_arrays(q / (3 * c3), c1 / q))
    return np.sort(np.clip(np.nan_to_num(turns, nan=0.0, posinf=1.0, neginf=0.0), 0.0, 1.0), axis=0)


def zeros_of_cubic(coefficients, length):
    """Every zero of c0 + c1 t + c2 t^2 + c3 t^3 on [0, length].

    coefficients  shape (4, ...)
    length        shape (...) or a number, positive

    Returns shape (3, ...). Where there are fewer than three zeros the spare places hold points of [0, length] that are
    no zeros (ends or turning points), so a caller looking for the extreme of the integral may try all three.
    """
    c = np.asarray(coefficients, dtype=float)
    scale = np.asarray(length, dtype=float)
    c = np.stack(np.broadcast_arrays(c[0], c[1] * scale, c[2] * scale**2, c[3] * scale**3))
    turns = _turns_of_cubic(*c)
    knots = np.concatenate([np.zeros_like(turns[:1]), turns, np.ones_like(turns[:1])])
    low, high = knots[:-1], knots[1:]
    at_low, at_high = evaluate(c, low), evaluate(c, high)
    crossed = at_low * at_high <= 0
    rising = at_high > at_low
    u = np.where(crossed, 0.5 * (low + high), low)
    # The cubic is monotone between knots: Newton kept inside a shrinking bracket cannot miss.
    for _ in range(_STEPS):
        value = evaluate(c, u)
        above = (value > 0) == rising
        low, high = np.where(above, low, u), np.where(above, u, high)
        with np.errstate(divide="ignore", invalid="ignore"):
            step = u - value / (c[1] + u * (2 * c[2] + u * 3 * c[3]))
        better = np.where((step >= low) & (step <= high), step, 0.5 * (low + high))
        better = np.where(crossed, better, u)
        if np.max(np.abs(better - u), initial=0.0) < 1e-14:
            break
        u = better
    return u * scale
