"""A group of weld runs in space under force and moment, elastic: the joined part moves as a rigid body.

Every run is a line with a throat. It answers a displacement with a traction (force per throat area) in the same
direction, the same stiffness in every direction. In a plane this is the weld treated as a line: I_u for moments out
of the plane, J_u for torsion in it; here both come out of one inertia tensor.
"""

from collections.abc import Sequence
from functools import cache, cached_property, lru_cache
from itertools import accumulate, pairwise

import numpy as np
from numpy.typing import ArrayLike

from structcheck.errors import Mechanism
from structcheck.record import record

Vector = tuple[float, float, float]

STATIONS_PER_TURN = 360


@cache
def _gauss() -> tuple[np.ndarray, np.ndarray]:
    # Found at the first use: numpy's polynomials take longer to import than a group takes to check.
    return np.polynomial.legendre.leggauss(12)


@record
class Line:
    """A straight run from `start` to `end` with a throat, mm."""

    start: Vector
    end: Vector
    throat: float

    @property
    def length(self) -> float:
        """Length in mm."""
        return float(np.linalg.norm(np.subtract(self.end, self.start)))

    def integration(self) -> tuple[np.ndarray, np.ndarray]:
        """Points (n, 3) and the lengths they stand for, exact for moments of second order."""
        start, along = np.asarray(self.start, float), np.subtract(self.end, self.start)
        points, weights = _gauss()
        return start + np.outer((points + 1) / 2, along), weights / 2 * self.length

    def stations(self) -> tuple[np.ndarray, np.ndarray]:
        """Points to look at with their unit tangents: the ends, where any stress measure of a line is greatest."""
        tangent = np.subtract(self.end, self.start) / self.length
        return np.array([self.start, self.end], float), np.array([tangent, tangent])


@record
class Arc:
    """A run on a circle: from `start` round `centre` through `angle` (rad, right hand about the unit `axis`)."""

    centre: Vector
    start: Vector
    axis: Vector
    angle: float
    throat: float

    @property
    def radius(self) -> float:
        """Radius in mm."""
        return float(np.linalg.norm(np.subtract(self.start, self.centre)))

    @property
    def length(self) -> float:
        """Length in mm."""
        return self.radius * abs(self.angle)

    def at(self, angles: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Points and unit tangents at angles from the start (rad)."""
        spoke = np.subtract(self.start, self.centre)
        side = np.cross(self.axis, spoke)
        cos, sin = np.cos(angles)[:, None], np.sin(angles)[:, None]
        points = np.asarray(self.centre, float) + cos * spoke + sin * side
        return points, (cos * side - sin * spoke) / self.radius

    def integration(self) -> tuple[np.ndarray, np.ndarray]:
        """Points (n, 3) and the lengths they stand for; Gauss points on each eighth of a turn."""
        pieces = max(1, int(np.ceil(abs(self.angle) / (np.pi / 4))))
        edges = np.linspace(0.0, self.angle, pieces + 1)
        points, weights = _gauss()
        angles = np.concatenate([a + (b - a) * (points + 1) / 2 for a, b in pairwise(edges)])
        return self.at(angles)[0], np.tile(weights / 2 * self.length / pieces, pieces)

    def stations(self) -> tuple[np.ndarray, np.ndarray]:
        """Points to look at with their unit tangents, one for each degree at least, both ends among them."""
        count = max(2, int(np.ceil(abs(self.angle) / (2 * np.pi) * STATIONS_PER_TURN)) + 1)
        return self.at(np.linspace(0.0, self.angle, count))


Run = Line | Arc


@record
class Station:
    """What a run feels: points (n, 3), unit tangents (n, 3), tractions (..., n, 3) on the throat in MPa."""

    points: np.ndarray
    tangents: np.ndarray
    tractions: np.ndarray


@record
class WeldGroup:
    """Runs that act together; area, centroid and inertia are of the throats as lines of their thickness."""

    runs: tuple[Run, ...]

    @cached_property
    def _cloud(self) -> tuple[np.ndarray, np.ndarray]:
        pieces = [run.integration() for run in self.runs]
        points = np.concatenate([points for points, _ in pieces])
        areas = np.concatenate([run.throat * lengths for run, (_, lengths) in zip(self.runs, pieces, strict=True)])
        return points, areas

    @cached_property
    def area(self) -> float:
        """Sum of throat times length, mm2."""
        return float(self._cloud[1].sum())

    @cached_property
    def centroid(self) -> np.ndarray:
        """Centre of the throat areas, mm."""
        points, areas = self._cloud
        return areas @ points / self.area

    @cached_property
    def inertia(self) -> np.ndarray:
        """Tensor of the throat areas about the centroid, mm4: resists the three moments."""
        points, areas = self._cloud
        r = points - self.centroid
        return np.sum(areas * np.einsum("ij,ij->i", r, r)) * np.eye(3) - np.einsum("i,ij,ik->jk", areas, r, r)

    @cached_property
    def _principal(self) -> tuple[np.ndarray, np.ndarray]:
        return np.linalg.eigh(self.inertia)

    @cached_property
    def _stations(self) -> tuple[tuple[np.ndarray, np.ndarray], ...]:
        return tuple(run.stations() for run in self.runs)

    @cached_property
    def _arms(self) -> np.ndarray:
        """From the centroid to every station of every run."""
        return np.concatenate([points for points, _ in self._stations]) - self.centroid

    @cached_property
    def _turned(self) -> np.ndarray:
        """From a rotation to what it moves at every station, (3, 3 stations): the cross product with the arm."""
        x, y, z = self._arms.T
        nothing = np.zeros_like(x)
        rows = (nothing, -z, y), (z, nothing, -x), (-y, x, nothing)
        return np.stack([np.stack(row, axis=1) for row in rows]).reshape(3, -1)

    @cached_property
    def plane(self) -> tuple[np.ndarray, np.ndarray] | None:
        """A point and two axes of the plane that straight runs lie in; None where they do not, or some are arcs."""
        if not all(isinstance(run, Line) for run in self.runs):
            return None
        points = np.array([end for run in self.runs for end in (run.start, run.end)], float)
        _, spread, axes = np.linalg.svd(points - self.centroid)
        if spread[1] < 1e-6 * spread[0] or spread[2] > 1e-6 * spread[0]:
            return None
        return self.centroid, axes[:2]

    @cached_property
    def _starts(self) -> list[int]:
        return [0, *accumulate(len(points) for points, _ in self._stations[:-1])]

    def motion(self, moment: np.ndarray) -> np.ndarray:
        """The rotation, in traction per mm of lever, that answers each moment (..., 3) about the centroid.

        Raises Mechanism where the runs lie on one line and the moment turns about it: only the root of the weld
        would carry that.
        """
        values, axes = self._principal
        stiff = values > 1e-9 * max(values[-1], 1e-30)
        parts = moment @ axes
        idle = np.abs(parts[..., ~stiff]).max(axis=-1, initial=0.0)
        if np.any(idle > 1e-9 * np.maximum(np.linalg.norm(moment, axis=-1), 1e-30)):
            raise Mechanism("the runs lie on one line and the load turns about it: only the weld's root would carry it")
        return (parts[..., stiff] / values[stiff]) @ axes[:, stiff].T

    def tractions(self, force: ArrayLike, moment: ArrayLike, at: ArrayLike) -> tuple[Station, ...]:
        """What each run feels under a force (N) through `at` and a moment (N mm), at its stations.

        One load, three vectors, or many: (loads, 3) each.
        """
        pull = np.asarray(force, float)
        turning = np.asarray(moment, float) + cross(np.asarray(at, float) - self.centroid, pull)
        moved = (self.motion(turning) @ self._turned).reshape(*pull.shape[:-1], -1, 3)
        felt = pull[..., None, :] / self.area + moved
        return tuple(
            Station(points, tangents, felt[..., start : start + len(points), :])
            for (points, tangents), start in zip(self._stations, self._starts, strict=True)
        )


def cross(a: np.ndarray, b: np.ndarray) -> np.ndarray:
    """Cross product along the last axis; numpy's own takes several times as long on few rows."""
    return a[..., _NEXT] * b[..., _LAST] - a[..., _LAST] * b[..., _NEXT]


_NEXT, _LAST = [1, 2, 0], [2, 0, 1]


def weld_group(runs: Sequence[Run]) -> WeldGroup:
    """The group of these runs. Raises ValueError where there is none, or one has no length or no throat."""
    if not runs or not all(run.length > 0 and run.throat > 0 for run in runs):
        raise ValueError("a weld group needs runs that have a length and a throat")
    return _group_of(tuple(runs))


@lru_cache(maxsize=64)
def _group_of(runs: tuple[Run, ...]) -> WeldGroup:
    """One object for the same runs, so that what it finds out of them is found once."""
    return WeldGroup(runs)


def parallel_runs(
    length: float, throat: float, offsets: Sequence[float], along: float, across: float, moment: float
) -> tuple[float, float]:
    """Greatest traction (along, across) in MPa of equal parallel runs under a force and a moment in one plane.

    offsets  places of the runs beside their middle, mm; all 0 for a moment out of the plane of the runs
    moment   about the middle of the group, N mm

    The closed form of `WeldGroup` for this plan: both parts are greatest at one end of one outer run.
    """
    area = len(offsets) * throat * length
    inertia = throat * (len(offsets) * length**3 / 12 + length * sum(x**2 for x in offsets))
    turning = abs(moment) / inertia
    farthest = max(abs(x) for x in offsets)
    return abs(along) / area + turning * farthest, abs(across) / area + turning * length / 2
