"""A frame as lines on paper: where its members lie, the states its joints may be in, and what runs in it in each."""

from collections.abc import Mapping
from dataclasses import field
from functools import cached_property
from typing import Any

import numpy as np

from structcheck.analysis.frame import Result
from structcheck.record import record
from structcheck.report.figures_sheet import Box

PLACES = 25
"""Places along each member at which its line is drawn, beside those where loads stand."""

Point = tuple[float, float]


@record
class Axis:
    """A member's centre-line: where it starts, its direction, and where its local axis across points.

    across  the local axis that lies in the plane of the paper: z, or y where the member is seen from its other side
    """

    start: Point
    along: Point
    up: Point
    length: float
    across: str = "z"

    def at(self, x: np.ndarray, z: np.ndarray | float = 0.0) -> tuple[np.ndarray, np.ndarray]:
        """Points of the paper at x along the member and z off it."""
        return (
            self.start[0] + self.along[0] * x + self.up[0] * z,
            self.start[1] + self.along[1] * x + self.up[1] * z,
        )


@record
class JointState:
    """A state of the joints: its solution, the factor of each case of it, and where joints turn freely."""

    name: str
    result: Result
    factors: np.ndarray
    loose: tuple[Point, ...] = ()


@record
class Skeleton:
    """A frame under the central force of 1 N, in every state that can carry it, the stiffest first.

    axes  member -> its centre-line on the paper
    twin  members that mirror another one: their figures would say the same again
    """

    axes: Mapping[str, Axis]
    states: tuple[JointState, ...]
    twins: frozenset[str] = frozenset()
    _known: dict[Any, np.ndarray] = field(default_factory=dict, compare=False, repr=False)

    @cached_property
    def box(self) -> Box:
        """Left, right, low and high edge of all centre-lines."""
        points = np.array([line.at(x) for line in self.axes.values() for x in (np.array(0.0), np.array(line.length))])
        (left, low), (right, high) = points.min(axis=0).tolist(), points.max(axis=0).tolist()
        return left, right, low, high

    @property
    def size(self) -> float:
        """The smaller of width and height; the larger where they lie on one line."""
        wide, tall = self.box[1] - self.box[0], self.box[3] - self.box[2]
        return min(wide, tall) if min(wide, tall) > 0.2 * max(wide, tall) else 0.5 * max(wide, tall)

    def places(self, member: str, result: Result) -> np.ndarray:
        """Where along a member its diagrams are drawn: on both sides of everything that stands on it."""
        length, ends = self.axes[member].length, np.array(result.stations(member))
        x = np.concatenate([np.linspace(0, length, PLACES), ends, ends - 1e-6, ends + 1e-6])
        return np.unique(x[(x >= 0) & (x <= length)])

    def diagram(self, quantity: str, member: str, state: JointState) -> tuple[np.ndarray, np.ndarray]:
        """N, V or M in the plane of the paper: places along the member and values, N and N mm."""
        in_plane = {"N": "N", "V": f"V{self.axes[member].across}", "M": {"z": "My", "y": "Mz"}}
        name = in_plane[quantity] if quantity != "M" else in_plane["M"][self.axes[member].across]
        x = self.places(member, state.result)
        return x, state.factors @ self._all_cases(name, member, state.result, x)

    def moved(self, member: str, state: JointState) -> tuple[np.ndarray, np.ndarray]:
        """How the member moves: places along it, and movement along it and across it in the plane of the paper."""
        x, result = np.linspace(0, self.axes[member].length, PLACES), state.result
        key = ("moved", member, id(result))
        if key not in self._known:
            self._known[key] = np.stack([result.deflection(member, x, case) for case in result.cases])
        moved = np.einsum("c,cdn->dn", state.factors, self._known[key])
        return x, moved[[0, "xyz".index(self.axes[member].across)]]

    def _all_cases(self, quantity: str, member: str, result: Result, x: np.ndarray) -> np.ndarray:
        """Of every case of a solution; states that only weigh them differently share it."""
        key = (quantity, member, id(result))
        if key not in self._known:
            self._known[key] = np.stack([result.value(quantity, member, x, case) for case in result.cases])
        return self._known[key]
