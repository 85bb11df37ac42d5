"""Forces on the bolts of a group under a force and a moment in its plane, and under pull and bending out of it.

Positions are an array (n, 2) of x and y in mm from any origin; forces in N, moments in N mm, counter-clockwise
positive. Bolts are alike unless areas are given. What comes out is what each bolt puts on the plate, so that the sum
over the bolts is the load.
"""

import numpy as np
from numpy.typing import ArrayLike

from structcheck.errors import Mechanism

_STEPS = 200


def grid(rows: int, columns: int, pitch: float, gauge: float) -> np.ndarray:
    """Positions about their centre: `rows` along y `pitch` apart, `columns` along x `gauge` apart; row by row."""
    y = (np.arange(rows) - (rows - 1) / 2) * pitch
    x = (np.arange(columns) - (columns - 1) / 2) * gauge
    return np.array([(one_x, one_y) for one_y in y for one_x in x], dtype=float)


def elastic_in_plane(
    positions: np.ndarray, force: ArrayLike, moment: ArrayLike, areas: np.ndarray | None = None
) -> np.ndarray:
    """Elastic vector method: the plates stay rigid and each bolt gives in proportion to its force.

    force   x and y component, acting at the centre of the positions (not weighted by the areas); of many loads
            (loads, 2)
    moment  about that centre; of many loads (loads,)

    Returns (n, 2), of many loads (loads, n, 2). Raises Mechanism where a moment acts on bolts all in one place.
    """
    share = _shares(positions, areas)
    centre = share @ positions
    arm = positions - centre
    polar = float(share @ (arm * arm).sum(axis=1))
    shift = positions.sum(axis=0) / len(positions) - centre
    force = np.asarray(force, dtype=float)
    x, y = force[..., 0], force[..., 1]
    about = moment + (shift[0] * y - shift[1] * x)
    turns = np.abs(about) > 1e-9 * np.hypot(x, y)
    forces = share[:, None] * force[..., None, :]
    if not turns.any():
        return forces
    if polar <= 0:
        raise Mechanism("one bolt cannot hold a moment in the plane of the plates: they turn about it")
    turning = (np.where(turns, about, 0.0) / polar)[..., None] * share
    forces[..., 0] -= turning * arm[:, 1]
    forces[..., 1] += turning * arm[:, 0]
    return forces


def plastic_in_plane(positions: np.ndarray, force: tuple[float, float], moment: float) -> np.ndarray:
    """The distribution in equilibrium that asks least of the hardest worked bolt.

    Each round softens a bolt by what it gave in the last one. Every round is in equilibrium, so the best one kept is
    safe whether or not the rounds have settled (lower bound theorem); they settle on the plastic limit.
    """
    areas = np.ones(len(positions))
    best = elastic_in_plane(positions, force, moment)
    for _ in range(_STEPS):
        forces = elastic_in_plane(positions, force, moment, areas)
        worked = np.hypot(*forces.T)
        if worked.max() < np.hypot(*best.T).max():
            best = forces
        give = worked / areas
        # A bolt at the centre of rotation gives nothing; it stays stiff, not infinitely so.
        areas = 1 / np.maximum(give / give.max(), 1e-9)
    return best


def out_of_plane(positions: np.ndarray, pull: ArrayLike, bend: ArrayLike) -> np.ndarray:
    """Pull on each bolt of a rigid plate that turns about the group's centre; negative where the plate presses.

    pull  along the bolts; of many loads (loads,)
    bend  (pulling on the bolts towards +x, pulling on the bolts towards +y); of many loads (loads, 2)

    Returns (n,), of many loads (loads, n).

    The plate in truth turns about an edge it presses on, further away, so the pull on the bolts is not underrated.
    Raises Mechanism where the bolts stand in a line and are bent about it.
    """
    arm = positions - positions.mean(axis=0)
    pull, moment = np.asarray(pull, dtype=float), np.asarray(bend, dtype=float)
    forces = np.repeat(pull[..., None] / len(positions), len(positions), axis=-1)
    if not moment.any():
        return forces
    second = arm.T @ arm
    (a, b), (_, c) = second
    # Well spread bolts solve at once; those in one line hold only bending along it, found by least squares.
    spread = a * c - b * b > 1e-9 * (a + c) ** 2
    rows = np.atleast_2d(moment).T
    slope = (np.linalg.solve(second, rows) if spread else np.linalg.lstsq(second, rows, rcond=1e-12)[0]).T
    if not spread:
        tolerance = 1e-9 * np.maximum(np.abs(pull), np.abs(moment).max(axis=-1))
        if np.any(np.abs(slope @ second - rows.T).max(axis=-1) > tolerance):
            raise Mechanism("bolts in one line cannot hold bending about that line")
    return forces + (slope.reshape(moment.shape) @ arm.T)


def _shares(positions: np.ndarray, areas: np.ndarray | None) -> np.ndarray:
    if areas is None:
        return np.full(len(positions), 1 / len(positions))
    return np.asarray(areas, dtype=float) / float(np.sum(areas))
