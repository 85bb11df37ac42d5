"""Forces on the bolts of a group under a force and a moment in its plane, and under pull and bending out of it.

Positions are an array (n, 2) of x and y in mm from any origin; forces in N, moments in N mm, counter-clockwise
positive. Bolts are alike unless areas are given. What comes out is what each bolt puts on the plate, so that the sum
over the bolts is the load.
"""

import numpy as np

from structcheck.errors import Mechanism


def grid(rows: int, columns: int, pitch: float, gauge: float) -> np.ndarray:
    """Positions about their centre: `rows` along y `pitch` apart, `columns` along x `gauge` apart; row by row."""
    y = (np.arange(rows) - (rows - 1) / 2) * pitch
    x = (np.arange(columns) - (columns - 1) / 2) * gauge
    return np.array([(one_x, one_y) for one_y in y for one_x in x], dtype=float)


def elastic_in_plane(
    positions: np.ndarray, force: tuple[float, float], moment: float, areas: np.ndarray | None = None
) -> np.ndarray:
    """Elastic vector method: the plates stay rigid and each bolt gives in proportion to its force.

    force   x and y component, acting at the group's centre
    moment  about the group's centre

    Returns (n, 2). Raises Mechanism where a moment acts on bolts that all stand in one place.
    """
    share = _shares(positions, areas)
    arm = positions - share @ positions
    polar = float(np.sum(share * np.sum(arm**2, axis=1)))
    forces = share[:, None] * np.asarray(force, dtype=float)
    if moment == 0:
        return forces
    if polar <= 0:
        raise Mechanism("one bolt cannot hold a moment in the plane of the plates: they turn about it")
    turn = np.column_stack((-arm[:, 1], arm[:, 0]))
    return forces + moment / polar * share[:, None] * turn


def _shares(positions: np.ndarray, areas: np.ndarray | None) -> np.ndarray:
    if areas is None:
        return np.full(len(positions), 1 / len(positions))
    return np.asarray(areas, dtype=float) / float(np.sum(areas))
