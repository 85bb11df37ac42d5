"""Instantaneous-centre method for bolt groups loaded in their plane beside their centre: ultimate load of the group.

The plates turn as rigid bodies about one point; each bolt resists square to its radius and in step with its slip.
The law is that of the AISC manual: R = R_ult (1 - exp(-10 D))^0.55, D in inches, 0.34 inch at the farthest bolt.
A second opinion: EN 1993-1-8 speaks of elastic and plastic distributions only.
"""

import math
from functools import lru_cache

import numpy as np

from structcheck.analysis.bolt_group import elastic_in_plane
from structcheck.errors import NotCovered

FARTHEST_SLIP = 0.34
_ROUNDS = 2000
SETTLED = 1e-7
"""Share of R_ult by which the bolts may still differ from the factor when the search ends."""


def resistance_of_bolts(slips: np.ndarray) -> np.ndarray:
    """Share of R_ult each bolt gives, from its slip over that of the farthest bolt."""
    return (1 - np.exp(-10 * FARTHEST_SLIP * slips)) ** 0.55


def coefficient(positions: np.ndarray, eccentricity: float, angle: float = 0.0) -> float:
    """C: ultimate load of the group over R_ult of one bolt.

    eccentricity  from the group's centre to the load, along x, in the unit of the positions
    angle         of the load from the y axis, radians

    Raises NotCovered where the search does not settle.
    """
    direction = math.sin(angle), math.cos(angle)
    return ultimate(positions, direction, eccentricity * direction[1])


def moment_coefficient(positions: np.ndarray) -> float:
    """C': ultimate moment of the group over R_ult, in the length unit of the positions."""
    return ultimate(positions, (0.0, 0.0), 1.0)


def ultimate(positions: np.ndarray, force: tuple[float, float], moment: float) -> float:
    """Factor on a load, force and moment about the centre, at which the farthest bolt is used up; R_ult is 1.

    Each round takes every bolt as a spring of the stiffness it had at its last slip, so every round is in equilibrium.
    """
    return _settled(tuple(map(tuple, positions.tolist())), force, moment)


@lru_cache(maxsize=256)
def _settled(spots: tuple[tuple[float, ...], ...], force: tuple[float, float], moment: float) -> float:
    positions, areas = np.array(spots), np.ones(len(spots))
    for _ in range(_ROUNDS):
        forces = np.hypot(*elastic_in_plane(positions, force, moment, areas).T)
        slips = forces / areas
        slips = slips / slips.max()
        resisted = resistance_of_bolts(slips)
        # Work of the load equals the work of the bolts; once settled every bolt gives the same factor.
        factor = float(resisted @ slips / (forces @ slips))
        if np.abs(resisted - factor * forces).max() < SETTLED:
            return factor
        # A bolt at the centre of rotation gives nothing; it stays stiff, not infinitely so.
        areas = np.where(slips > 1e-12, resisted, 1.0) / np.maximum(slips, 1e-12)
    raise NotCovered("the centre of rotation of the bolt group was not found")
