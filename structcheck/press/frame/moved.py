"""How far loads move with the frame: what a dial reads, and the opening, are the work of a unit load put there."""

from collections.abc import Sequence

import numpy as np

from structcheck.analysis.frame import NodeLoad, PointOnMember, Result, SpreadOnMember
from structcheck.analysis.frame_model import Load

# Three points integrate the square of a parabola exactly; a deflection under a spread load is nearly one.
_POINTS = np.array([0.5 - np.sqrt(0.15), 0.5, 0.5 + np.sqrt(0.15)])
_WEIGHTS = np.array([5, 8, 5]) / 18


def moved(result: Result, loads: Sequence[Load], case: str) -> float:
    """The work of forces on the movements of a case, N mm; moments on members, in global axes, are left out."""
    total = 0.0
    for load in loads:
        if isinstance(load, NodeLoad):
            total += float(np.dot((*load.force, *load.moment), result.displacement(load.node, case)))
        elif isinstance(load, PointOnMember):
            total += float(np.dot(load.force, _at(result, load.member, np.array([load.at]), case)[:, 0]))
        elif isinstance(load, SpreadOnMember):
            long = (result.stations(load.member)[-1] if load.end is None else load.end) - load.start
            along = np.asarray(load.force) @ _at(result, load.member, load.start + _POINTS * long, case)
            total += float(along @ _WEIGHTS) * long
    return total


def _at(result: Result, member: str, xs: np.ndarray, case: str) -> np.ndarray:
    """(3, n) movement of places on a member, global."""
    number = result.pieces[member][0][0] if result.pieces else result.structure.member_index[member]
    return result.structure.axes[number].T @ result.deflection(member, xs, case)
