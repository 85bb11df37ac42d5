"""Diagrams of all members and load cases of a solved frame as arrays, and the internal work between load cases.

Column order of a vector of internal forces: N, V_y, V_z, T, M_y, M_z, local axes of the analysis.
"""

from collections.abc import Sequence
from functools import cached_property

import numpy as np

from structcheck.analysis.frame import Result
from structcheck.analysis.member import evaluate
from structcheck.record import record

QUANTITIES = ("N", "Vy", "Vz", "T", "My", "Mz")
KINDS = ("bending", "shear", "axial", "torsion")
_SIDES = {"left": -1e-9, "right": 1e-9}
"""mm beyond a place to look for the run it is taken to lie on."""
_KIND_OF = np.array([2, 1, 1, 3, 0, 0])
# Three points integrate the square of a parabola exactly up to a power of five.
_POINTS = np.array([0.5 - np.sqrt(0.15), 0.5, 0.5 + np.sqrt(0.15)])
_WEIGHTS = np.array([5, 8, 5]) / 18


@record
class Lines:
    """Internal forces along members; m members, S runs, c cases."""

    result: Result
    polynomials: np.ndarray  # (powers, 6, m, S, c)

    def ends_of_runs(self) -> tuple[np.ndarray, np.ndarray]:
        """(places, forces): (m, 2 S) mm from the start node, (6, m, 2 S, c), both sides of every jump."""
        runs = self.result.loads.runs
        h = runs.length[None, :, :, None]
        first, last = evaluate(self.polynomials, 0 * h), evaluate(self.polynomials, h)
        places = np.concatenate([runs.stations[:, :-1], runs.stations[:, 1:]], axis=1)
        return places, np.concatenate([np.broadcast_to(first, last.shape), last], axis=2)

    def at(self, member: str, x: float, side: str = "right") -> np.ndarray:
        """(6, c) internal forces at one place."""
        number, run, t = self._place(member, np.array(x), _SIDES[side])
        return evaluate(self.polynomials[:, :, number, run], t)

    def around(self, quantity: int, member: str, xs: np.ndarray) -> np.ndarray:
        """(2, n, c) one internal force left and right of places (n,)."""
        number, run, t = self._place(member, xs, np.array([[_SIDES["left"]], [_SIDES["right"]]]))
        return evaluate(self.polynomials[:, quantity, number, run], t[..., None])

    def _place(self, member: str, x: np.ndarray, beyond: np.ndarray | float) -> tuple[int, np.ndarray, np.ndarray]:
        """Member, run and distance into the run of places, a little `beyond` them."""
        number = self.result.structure.member_index[member]
        stations, lengths = self.result.loads.runs.stations[number], self.result.loads.runs.length[number]
        passed = (stations[:-1] <= (x + beyond)[..., None]) & (lengths > 0)
        run = (passed * np.arange(len(lengths))).max(axis=-1)
        return number, run, x - stations[run]

    @cached_property
    def _flexibility(self) -> np.ndarray:
        """(6, m) what 1 N or 1 N mm strains per mm."""
        E, G, A, Iy, Iz, J, Asy, Asz = self.result.structure.section
        stiffness = np.stack([E * A, G * Asy, G * Asz, G * J, E * Iy, E * Iz])
        return np.divide(1.0, stiffness, out=np.zeros_like(stiffness), where=stiffness > 0)

    def work(self) -> np.ndarray:
        """(kinds, c, c) internal work of each case on the strains of each other, kinds as in KINDS."""
        runs = self.result.loads.runs
        h = runs.length[None, :, :, None]
        values = np.stack([evaluate(self.polynomials, p * h) for p in _POINTS])
        weight = _WEIGHTS[:, None, None] * (runs.length * runs.flexible)
        found = np.zeros((len(KINDS), values.shape[-1], values.shape[-1]))
        for row, kind in enumerate(_KIND_OF):
            D = values[:, row].reshape(-1, values.shape[-1])
            w = (weight * self._flexibility[row][None, :, None]).reshape(-1, 1)
            found[kind] += D.T @ (w * D)
        return found

    @cached_property
    def size(self) -> np.ndarray:
        """(c,) sum of the sizes of the forces applied in each case, a moment as a force on the frame's own size."""
        reach = np.ptp(self.result.structure.xyz, axis=0).max()
        return self.result.loads.size[0] + self.result.loads.size[1] / reach


def lines_of(result: Result) -> Lines:
    """The diagrams of a frame solved in first order."""
    return Lines(result, result.diagrams)


def rows_of(
    result: Result, member: str, case: str, force: float, places: Sequence[tuple[float, str]] | None = None
) -> tuple[np.ndarray, np.ndarray]:
    """(places, (n, 6) internal forces per N of `force`) of one case: at its stations and where a moment is largest.

    places  (mm from the start, side) to look at in their stead
    """
    if places is None:
        xs = set(result.stations(member))
        for quantity in ("My", "Mz"):
            found = result.extremes(quantity, member, case)
            xs |= {found.least.x, found.most.x}
        places = [(x, side) for x in sorted(xs) for side in ("left", "right")]
    rows = [[result.value(q, member, x, case, side) / force for q in QUANTITIES] for x, side in places]
    return np.array([x for x, _ in places]), np.array(rows)
