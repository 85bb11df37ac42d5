"""The factor by which all forces can grow together until a criterion that rises with it is used up."""

from collections.abc import Callable, Sequence
from math import inf, isfinite

from structcheck.formula import unrecorded

ALIKE = 1e-12
"""Share by which two factors may differ and still be one, told apart by rounding alone."""
FAR = 1.0
"""Stands for what a criterion is further beyond 1: how far means nothing, often there is no end, and the search goes
straighter without."""
ROUNDING = 1e-14
"""How near to 1 a ratio can be told."""


def load_factor(criterion: Callable[[float], float], greatest: float) -> float:
    """The factor k at which criterion(k), rising with k, reaches 1; `greatest` is a factor it cannot pass.

    Regula falsi with the stale end's weight halved (Illinois), inside the bracket; 1e-13 relative.
    """
    if not isfinite(greatest):
        return inf
    with unrecorded():
        over = min(criterion(greatest) - 1, FAR)
        return _illinois(criterion, 0.0, greatest, -1.0, over) if over > 0 else greatest


def least_load_factor(
    criteria: Sequence[Callable[[float], float]], greatest: Sequence[float], guess: int = 0
) -> tuple[int, float]:
    """(number, factor) of the criterion that is the first to reach 1; see `load_factor`.

    guess  number of the one that seems to be it: of the others only those past 1 at its factor are looked into
    """
    first, least = guess, load_factor(criteria[guess], greatest[guess])
    for number, (criterion, most) in enumerate(zip(criteria, greatest, strict=True)):
        if number == guess:
            continue
        with unrecorded():
            sooner = most < least or (least < inf and criterion(least) > 1 + ALIKE)
        if sooner and (factor := load_factor(criterion, most)) < least:
            first, least = number, factor
    return first, least


def _illinois(criterion: Callable[[float], float], low: float, high: float, f_low: float, f_high: float) -> float:
    side = 0
    for _ in range(200):
        k = (low * f_high - high * f_low) / (f_high - f_low)
        if not low < k < high:
            k = (low + high) / 2
        f = criterion(k) - 1
        if abs(f) <= ROUNDING or high - low <= 1e-13 * high:
            return k
        if f > 0:
            high, f_high = k, min(f, FAR)
            f_low = f_low / 2 if side == 1 else f_low
            side = 1
        else:
            low, f_low = k, f
            f_high = f_high / 2 if side == -1 else f_high
            side = -1
    return low
