"""Springs as forces and lengths: stacks, sets under a platen, and the straight line through bench readings.

Lengths mm, forces N, rates N/mm. Springs push and never pull.
"""

from collections.abc import Sequence

import numpy as np

from structcheck.errors import InputError, Mechanism, Problem
from structcheck.record import record

SLOPE_STRAYS = 0.15
"""How far the slope of an end reading may lie from the median before the reading is left out; ours."""

FEWEST_READINGS = 3

# Student's t, two-sided 95 %, by degrees of freedom from 1; beyond the list 2.0 is near enough and never used small.
_STUDENT = (12.71, 4.30, 3.18, 2.78, 2.57, 2.45, 2.36, 2.31, 2.26, 2.23)


@record
class Member:
    """One spring of a stack: rate, free length and, where it is known, solid length."""

    rate: float
    free: float
    solid: float = 0.0


def rate_in_series(rates: Sequence[float]) -> float:
    """Rate of springs one on the other: the same force through all."""
    return float(1 / np.sum(1 / np.asarray(rates, dtype=float)))


def rate_side_by_side(rates: Sequence[float]) -> float:
    """Rate of springs side by side: the same travel for all."""
    return float(np.sum(rates))


def shared_force(members: Sequence[Member], length: float) -> np.ndarray:
    """Force of each spring between two plates `length` apart; one that does not reach gives nothing."""
    return np.array([max(0.0, m.rate * (m.free - length)) for m in members])


def shared_travel(members: Sequence[Member], travel: float) -> tuple[float, np.ndarray]:
    """(force, travel of each) of springs one on the other squeezed by `travel`.

    The softest takes most and goes solid first; from then on the others take the rest. Raises InputError past solid.
    """
    most = np.array([m.free - m.solid for m in members])
    rates = np.array([m.rate for m in members])
    if travel > most.sum():
        raise InputError(
            Problem("travel", f"{travel:g} mm", "is more than the stack has", f"at most {most.sum():.4g} mm to solid")
        )
    solid_force, taken = rates * most, np.zeros_like(most)
    for force in np.sort(solid_force):
        taken = np.minimum(force / rates, most)
        if taken.sum() >= travel:
            break
    free_to_move = solid_force >= force
    left = travel - most[~free_to_move].sum()
    through = left * rate_in_series(rates[free_to_move]) if free_to_move.any() else float(solid_force.max())
    return float(through), np.where(free_to_move, through / rates, most)


@record
class Rest:
    """How a plate rests on springs: force of each, sag at the origin, and slope (rad) along x and y."""

    forces: np.ndarray
    sag: float
    slope_x: float
    slope_y: float


def plate_on_springs(
    places: Sequence[tuple[float, float]], rates: Sequence[float], load: float, at: tuple[float, float]
) -> Rest:
    """A stiff plate without guides on springs of equal free length, loaded at one point.

    A spring that would have to pull lets go. Raises Mechanism where nothing keeps the plate from tipping over.
    """
    xy, k = np.asarray(places, dtype=float), np.asarray(rates, dtype=float)
    shape = np.column_stack([np.ones(len(xy)), xy])
    wanted = load * np.array([1.0, *at])
    acting = np.ones(len(xy), dtype=bool)
    for _ in range(len(xy) + 1):
        held = shape[acting]
        stiffness = held.T @ (k[acting, None] * held)
        # Springs in one line leave the slope across it free; the least-norm answer takes it as level.
        motion = np.linalg.lstsq(stiffness, wanted, rcond=1e-12)[0]
        if not np.allclose(stiffness @ motion, wanted, rtol=1e-9, atol=1e-9 * (abs(load) + 1)):
            raise Mechanism("nothing keeps the platen from tipping over: the load stands outside the springs")
        forces = np.where(acting, k * (shape @ motion), 0.0)
        pulling = forces < -1e-12 * abs(load)
        if not pulling.any():
            return Rest(forces, *(float(m) for m in motion))
        acting &= ~pulling
    raise Mechanism("nothing keeps the platen from tipping over: every spring lets go")


@record
class LeftOut:
    """A reading that the line does not use, by its place from 0, and why."""

    index: int
    reason: str


@record
class BenchFit:
    """A straight line F = rate (free - L) through bench readings.

    rate_margin  half the 95 % band of the rate, from the scatter of the readings
    scatter      standard deviation of the forces about the line, N
    drift        how much the rate changes from the first to the last reading used, over the rate
    used         how many readings the line rests on
    """

    rate: float
    free: float
    rate_margin: float
    scatter: float
    drift: float
    used: int
    left_out: tuple[LeftOut, ...]


def fit_readings(lengths: Sequence[float], forces: Sequence[float]) -> BenchFit:
    """The rate and free length of a spring from load-length readings, by least squares.

    Readings at an end whose slope strays are left out: softer at the start is seating, stiffer at the end is coils
    that touch. Raises InputError naming what is wrong with the readings.
    """
    L, F = np.asarray(lengths, dtype=float), np.asarray(forces, dtype=float)
    _refuse_readings(L, F)
    order = np.argsort(-L)
    L, F = L[order], F[order]
    slopes = np.diff(F) / -np.diff(L)
    median = float(np.median(slopes))
    if median <= 0:
        raise _readings("do not rise as the spring gets shorter", "more force at each shorter length")
    first, last, left_out = 0, len(L), []
    while first < last - 1 and (F[first] <= 0 or slopes[first] < (1 - SLOPE_STRAYS) * median):
        why = "no load" if F[first] <= 0 else "seating: softer than the rest"
        left_out.append(LeftOut(int(order[first]), why))
        first += 1
    while last - 2 > first and slopes[last - 2] > (1 + SLOPE_STRAYS) * median:
        left_out.append(LeftOut(int(order[last - 1]), "coils touch: stiffer than the rest"))
        last -= 1
    if last - first < FEWEST_READINGS:
        raise _readings(f"leave {last - first} on one straight line", f"at least {FEWEST_READINGS}, better five")
    return _line(L[first:last], F[first:last], tuple(left_out))


def _line(L: np.ndarray, F: np.ndarray, left_out: tuple[LeftOut, ...]) -> BenchFit:
    offset = L - L.mean()
    spread = float(offset @ offset)
    rate = -float(offset @ F) / spread
    free = L.mean() + F.mean() / rate
    degrees = len(L) - 2
    scatter = float(np.sqrt(np.sum((F - rate * (free - L)) ** 2) / degrees))
    student = _STUDENT[degrees - 1] if degrees <= len(_STUDENT) else _STUDENT[-1]
    bend = offset**2 - (offset**2).mean()
    bend -= offset * float(bend @ offset) / spread
    curvature = float(bend @ F) / float(bend @ bend)
    drift = abs(2 * curvature * np.ptp(L) / rate)
    return BenchFit(rate, float(free), student * scatter / spread**0.5, scatter, float(drift), len(L), left_out)


def _refuse_readings(L: np.ndarray, F: np.ndarray) -> None:
    if len(L) != len(F):
        raise _readings(f"are {len(L)} lengths and {len(F)} forces", "one force for each length")
    if not (np.isfinite(L).all() and np.isfinite(F).all()):
        raise _readings("hold something that is not a finite number", "finite lengths and forces")
    if len(L) < FEWEST_READINGS:
        raise _readings(f"are only {len(L)}", f"at least {FEWEST_READINGS}, better five")
    if np.ptp(L) == 0 or np.ptp(F) == 0:
        raise _readings("are all alike", "readings at different lengths, the force rising as the spring gets shorter")
    if len(np.unique(L)) < len(L):
        raise _readings("give the same length twice", "each length once")
    if (L <= 0).any() or (F < 0).any():
        raise _readings("hold a length or force below zero", "lengths above zero, forces from zero up")


def _readings(fault: str, wanted: str) -> InputError:
    return InputError(Problem("readings", "the readings", fault, wanted, 'readings = [["200 mm", "6.6 kg"], ...]'))
