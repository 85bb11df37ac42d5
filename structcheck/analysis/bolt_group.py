"""Forces on the bolts of a group under a force and a moment in its plane, and under pull and bending out of it.

Positions are an array (n, 2) of x and y in mm from any origin; forces in N, moments in N mm, counter-clockwise
positive. Bolts are alike unless areas are given. What comes out is what each bolt puts on the plate, so that the sum
over the bolts is the load.
"""

import math

import numpy as np

from structcheck.errors import Mechanism

_STEPS = 200


def grid(rows: int, columns: int, pitch: float, gauge: float) -> np.ndarray:
    """Positions about their centre: `rows` along y `pitch` apart, `columns` along x `gauge` apart; row by row."""
    y = (np.arange(rows) - (rows - 1) / 2) * pitch
    x = (np.arange(columns) - (columns - 1) / 2) * gauge
    return np.array([(one_x, one_y) for one_y in y for one_x in x], dtype=float)


def elastic_in_plane(
    positions: np.ndarray, force: tuple[float, float], moment: float, areas: np.ndarray | None = None
) -> np.ndarray:
    """Elastic vector method: the plates stay rigid and each bolt gives in proportion to its force.

    force   x and y component, acting at the centre of the positions (not weighted by the areas)
    moment  about that centre

    Returns (n, 2). Raises Mechanism where a moment acts on bolts that all stand in one place.
    """
    share = _shares(positions, areas)
    centre = share @ positions
    arm = positions - centre
    polar = float(share @ (arm * arm).sum(axis=1))
    shift = positions.sum(axis=0) / len(positions) - centre
    about = moment + float(shift[0] * force[1] - shift[1] * force[0])
    forces = share[:, None] * np.asarray(force, dtype=float)
    if abs(about) <= 1e-9 * math.hypot(*force):
        return forces
    if polar <= 0:
        raise Mechanism("one bolt cannot hold a moment in the plane of the plates: they turn about it")
    forces[:, 0] -= about / polar * share * arm[:, 1]
    forces[:, 1] += about / polar * share * arm[:, 0]
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


def out_of_plane(positions: np.ndarray, pull: float, bend: tuple[float, float]) -> np.ndarray:
    """Pull on each bolt of a rigid plate that turns about the group's centre; negative where the plate presses.

    bend  (pulling on the bolts towards +x, pulling on the bolts towards +y)

    The plate in truth turns about an edge it presses on, further away, so the pull on the bolts is not underrated.
    Raises Mechanism where the bolts stand in a line and are bent about it.
    """
    arm = positions - positions.mean(axis=0)
    forces = np.full(len(positions), pull / len(positions))
    if not any(bend):
        return forces
    second = arm.T @ arm
    moment = np.asarray(bend, dtype=float)
    (a, b), (_, c) = second
    # Well spread bolts solve at once; those in one line hold only bending along it, found by least squares.
    spread = a * c - b * b > 1e-9 * (a + c) ** 2
    slope = np.linalg.solve(second, moment) if spread else np.linalg.lstsq(second, moment, rcond=1e-12)[0]
    tolerance = 1e-9 * max(abs(pull), float(np.abs(moment).max()))
    if not spread and np.abs(second @ slope - moment).max() > tolerance:
        raise Mechanism("bolts in one line cannot hold bending about that line")
    return forces + arm @ slope


def _shares(positions: np.ndarray, areas: np.ndarray | None) -> np.ndarray:
    if areas is None:
        return np.full(len(positions), 1 / len(positions))
    return np.asarray(areas, dtype=float) / float(np.sum(areas))
