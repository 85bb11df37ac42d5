"""Thin rectangular plates in bending, on edges, bearers and points, under rectangular patches.

Kirchhoff's theory by conforming bicubic elements (Bogner, Fox and Schmit). On a rectangular mesh the stiffness is a sum
of products of one-dimensional Hermite matrices, so that supports along a line are dropped unknowns of one direction.

x runs along the length from the left edge, y across the width from the lower edge. w and loads are positive downward,
moments per width are positive sagging. N, mm, MPa.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np

from structcheck.errors import InputError, Mechanism, Problem
from structcheck.maths import distinct

SIDES = ("left", "right", "lower", "upper")
NU = 0.3
NEAR = 1e-4
"""Share of a side within which places are taken as one."""


@dataclass(frozen=True)
class Patch:
    """A force spread evenly over a rectangle; its middle and its sides, mm. A side of 0 is a line or a point."""

    force: float
    x: float
    y: float
    along: float
    across: float


@dataclass(frozen=True)
class Plate:
    """A plate and what holds it down.

    length, width, t  mm
    edges      side -> "simple" or "clamped"; a side not named is free
    bearers    positions x of rigid lines across the whole width; the plate may turn over them
    points     (x, y) of rigid points
    """

    length: float
    width: float
    t: float
    edges: Mapping[str, str] = field(default_factory=dict)
    bearers: tuple[float, ...] = ()
    points: tuple[tuple[float, float], ...] = ()
    E: float = 210_000.0
    nu: float = NU

    @property
    def D(self) -> float:
        """Bending stiffness per width, N mm."""
        return self.E * self.t**3 / (12 * (1 - self.nu**2))


@dataclass(frozen=True)
class PlateSolution:
    """Deflection and moments at the nodes of the mesh, and the force of each bearer.

    x, y            mesh lines, mm
    w               deflection, mm, shape (x, y)
    m_x, m_y, m_xy  moments per width, N
    bearer_forces   N, pressing the plate up, in the order of the bearers
    """

    x: np.ndarray
    y: np.ndarray
    w: np.ndarray
    m_x: np.ndarray
    m_y: np.ndarray
    m_xy: np.ndarray
    bearer_forces: tuple[float, ...]

    @property
    def out_of_flat(self) -> float:
        """Between the highest and the lowest place of the plate, mm."""
        return float(self.w.max() - self.w.min())

    @property
    def greatest_moment(self) -> float:
        """Greatest von Mises moment per width, N: the moment that makes the same comparative stress alone."""
        return float(np.sqrt(self.m_x**2 + self.m_y**2 - self.m_x * self.m_y + 3 * self.m_xy**2).max())

    def at(self, table: np.ndarray, x: float, y: float) -> float:
        """An entry of one of the tables at the node nearest to (x, y)."""
        return float(table[np.argmin(abs(self.x - x)), np.argmin(abs(self.y - y))])


def solve_plate(plate: Plate, patches: Sequence[Patch], cells: tuple[int, int] = (12, 8)) -> PlateSolution:
    """Deflections, moments and bearer forces. `cells` is about the number of elements along and across.

    Raises Mechanism where the supports let the plate move, InputError where a patch is not on the plate.
    """
    _refuse_outside(plate, patches)
    _refuse_mechanism(plate)
    X = _mesh(plate.length, cells[0], [*plate.bearers, *(p[0] for p in plate.points), *_ends(patches, "x", "along")])
    Y = _mesh(plate.width, cells[1], [*(p[1] for p in plate.points), *_ends(patches, "y", "across")])
    load = sum(
        np.outer(X.load(p.x, p.along), Y.load(p.y, p.across)) * (p.force / (max(p.along, 1.0) * max(p.across, 1.0)))
        if p.along and p.across
        else np.outer(X.load(p.x, p.along) / (p.along or 1.0), Y.load(p.y, p.across) / (p.across or 1.0)) * p.force
        for p in patches
    )
    free = _free(plate, X, Y)
    unknowns = _solve(plate, X, Y, load / plate.D, free)
    return _read(plate, X, Y, unknowns, load)


def _refuse_outside(plate: Plate, patches: Sequence[Patch]) -> None:
    problems = []
    for patch in patches:
        for key, at, side, size in (
            ("along", patch.x, patch.along, plate.length),
            ("across", patch.y, patch.across, plate.width),
        ):
            if not (side >= 0 and at - side / 2 >= -1e-6 and at + side / 2 <= size + 1e-6):
                problems.append(Problem(key, f"{side:g} mm at {at:g} mm", "is not on the plate", f"within {size:g} mm"))
    if problems:
        raise InputError(problems)


def _ends(patches: Sequence[Patch], middle: str, side: str) -> list[float]:
    found = []
    for patch in patches:
        at, half = getattr(patch, middle), getattr(patch, side) / 2
        found += [at - half, at, at + half]
    return found


def _mesh(size: float, cells: int, wanted: Sequence[float]) -> "_Hermite":
    """Lines through every wanted place, with at least two elements between neighbours."""
    places = distinct(np.round(np.clip([0.0, size / 2, size, *wanted], 0.0, size), 9))
    # Places a hair apart become one line: needle-thin elements would spoil the arithmetic.
    near = np.concatenate([[False], np.diff(places) <= NEAR * size])
    near[-1] = False
    places = np.append(places[:-1][~near[:-1] & (places[:-1] < size * (1 - NEAR))], size)
    runs = [
        np.linspace(start, end, max(2, round(cells * (end - start) / size)) + 1)[:-1] for start, end in pairwise(places)
    ]
    breaks = np.cumsum([0, *(len(run) for run in runs)])
    return _Hermite(np.concatenate([*runs, [size]]), frozenset(breaks.tolist()))


class _Hermite:
    """Cubic Hermite functions on the lines of one direction: value and slope at each line."""

    def __init__(self, lines: np.ndarray, breaks: frozenset[int]) -> None:
        self.lines, self.breaks = lines, breaks
        n = 2 * len(lines)
        self.mass, self.slope, self.curve, self.mixed = (np.zeros((n, n)) for _ in range(4))
        for k, h in enumerate(np.diff(lines)):
            part = slice(2 * k, 2 * k + 4)
            N, dN, ddN = (self._shape(_GAUSS, h, order) for order in (0, 1, 2))
            weights = _WEIGHTS * h
            self.mass[part, part] += (N * weights) @ N.T
            self.slope[part, part] += (dN * weights) @ dN.T
            self.curve[part, part] += (ddN * weights) @ ddN.T
            self.mixed[part, part] += (ddN * weights) @ N.T

    @staticmethod
    def _shape(s: np.ndarray, h: float, order: int) -> np.ndarray:
        """The four functions, or their derivatives, at s = 0..1 of an element of length h."""
        if order == 0:
            rows = (1 - 3 * s**2 + 2 * s**3, h * (s - 2 * s**2 + s**3), 3 * s**2 - 2 * s**3, h * (s**3 - s**2))
        elif order == 1:
            rows = ((6 * s**2 - 6 * s) / h, 1 - 4 * s + 3 * s**2, (6 * s - 6 * s**2) / h, 3 * s**2 - 2 * s)
        else:
            rows = ((12 * s - 6) / h**2, (6 * s - 4) / h, (6 - 12 * s) / h**2, (6 * s - 2) / h)
        return np.stack(rows)

    def load(self, middle: float, side: float) -> np.ndarray:
        """Integral of each function over a stretch, or its value at the nearest line."""
        found = np.zeros(2 * len(self.lines))
        if side == 0:
            found[2 * np.argmin(abs(self.lines - middle))] = 1.0
            return found
        low, high = middle - side / 2, middle + side / 2
        for k, (start, end) in enumerate(pairwise(self.lines)):
            first, last = max(start, low), min(end, high)
            if last > first:
                h = end - start
                s = (first - start + _GAUSS * (last - first)) / h
                found[2 * k : 2 * k + 4] += self._shape(s, h, 0) @ (_WEIGHTS * (last - first))
        return found

    @property
    def second(self) -> np.ndarray:
        """From unknowns to the second derivative at each line.

        The quintic through values and slopes of three neighbours is two orders better than the element's own
        curvature. It never reaches across a line where load or support begins: there both sides are averaged.
        """
        last = len(self.lines) - 1
        rows = np.zeros((last + 1, 2 * last + 2))
        for k in range(last + 1):
            sides = [m for m in (k - 1, k + 1) if 1 <= m <= last - 1] if k in self.breaks else [k]
            for m in sides:
                part = slice(2 * m - 2, 2 * m + 4)
                rows[k, part] += _curvature(self.lines[m - 1 : m + 2] - self.lines[k]) / len(sides)
        return rows

    def index(self, place: float) -> int:
        """Number of the line at a place."""
        return int(np.argmin(abs(self.lines - place)))


_GAUSS = np.array(
    [0.5 - np.sqrt(3 / 7 + 2 / 7 * np.sqrt(6 / 5)) / 2, 0.5 - np.sqrt(3 / 7 - 2 / 7 * np.sqrt(6 / 5)) / 2]
)
_GAUSS = np.concatenate([_GAUSS, 1 - _GAUSS[::-1]])
_WEIGHTS = np.array([18 - np.sqrt(30), 18 + np.sqrt(30), 18 + np.sqrt(30), 18 - np.sqrt(30)]) / 72


def _curvature(places: np.ndarray) -> np.ndarray:
    """Weights of value, slope, value, ... at three places that give the second derivative at 0."""
    size = np.abs(places).max()
    u, powers = places[:, None] / size, np.arange(6)
    values = u**powers
    slopes = powers * u ** np.maximum(powers - 1, 0)
    table = np.stack([values, slopes], axis=1).reshape(6, 6)
    weights = 2 * np.linalg.inv(table)[2] / size**2
    weights[1::2] *= size
    return weights


def _free(plate: Plate, X: _Hermite, Y: _Hermite) -> np.ndarray:
    """Which unknowns, (x function, y function), no support holds."""
    free = np.ones((2 * len(X.lines), 2 * len(Y.lines)), dtype=bool)
    for side, axis, line in (("left", 0, 0), ("right", 0, -2), ("lower", 1, 0), ("upper", 1, -2)):
        how = plate.edges.get(side)
        for offset in {None: (), "simple": (0,), "clamped": (0, 1)}[how]:
            free[(line + offset, slice(None)) if axis == 0 else (slice(None), line + offset)] = False
    for place in plate.bearers:
        free[2 * X.index(place)] = False
    for x, y in plate.points:
        free[2 * X.index(x), 2 * Y.index(y)] = False
    return free


def _solve(plate: Plate, X: _Hermite, Y: _Hermite, load: np.ndarray, free: np.ndarray) -> np.ndarray:
    """Unknowns of the plate of unit stiffness, by elimination from line to line (only neighbours meet)."""
    n, width = len(X.lines), 4 * len(Y.lines)
    keep = free.reshape(n, width)
    right = np.where(free, load, 0.0).reshape(n, width)
    pivots, carried = [], []
    for k in range(n):
        here = _block(plate.nu, X, Y, k, k)
        here = np.where(np.outer(keep[k], keep[k]), here, 0.0) + np.diag(np.where(keep[k], 0.0, 1.0))
        force = right[k].copy()
        if k:
            link = np.where(np.outer(keep[k], keep[k - 1]), _block(plate.nu, X, Y, k, k - 1), 0.0)
            both = np.linalg.solve(pivots[-1], np.column_stack([link.T, right[k - 1]]))
            here -= link @ both[:, :-1]
            force -= link @ both[:, -1]
            carried.append(both[:, :-1])
        right[k] = force
        pivots.append(here)
    found = np.empty((n, width))
    found[-1] = np.linalg.solve(pivots[-1], right[-1])
    for k in range(n - 2, -1, -1):
        found[k] = np.linalg.solve(pivots[k], right[k]) - carried[k] @ found[k + 1]
    return found.reshape(free.shape)


def _refuse_mechanism(plate: Plate) -> None:
    """The three motions of a rigid plate (sinking, two tilts) must all be held."""
    a, b = plate.length, plate.width
    held = [(1.0, x / a, y / b) for x, y in plate.points]
    held += [(1.0, x / a, end) for x in plate.bearers for end in (0.0, 1.0)]
    for side, ends, turn in (
        ("left", ((0.0, 0.0), (0.0, 1.0)), (0.0, 1.0, 0.0)),
        ("right", ((1.0, 0.0), (1.0, 1.0)), (0.0, 1.0, 0.0)),
        ("lower", ((0.0, 0.0), (1.0, 0.0)), (0.0, 0.0, 1.0)),
        ("upper", ((0.0, 1.0), (1.0, 1.0)), (0.0, 0.0, 1.0)),
    ):
        how = plate.edges.get(side)
        held += [(1.0, *end) for end in ends] if how else []
        held += [turn] if how == "clamped" else []
    if not held or np.linalg.matrix_rank(np.array(held), tol=1e-6) < 3:
        raise Mechanism("the plate can move or tip: it needs supports on at least three places not in one line")


def _block(nu: float, X: _Hermite, Y: _Hermite, i: int, j: int) -> np.ndarray:
    """Stiffness between the unknowns of two lines across the plate, for D = 1."""
    at = (slice(2 * i, 2 * i + 2), slice(2 * j, 2 * j + 2))
    return (
        _kron(X.curve[at], Y.mass)
        + _kron(X.mass[at], Y.curve)
        + nu * (_kron(X.mixed[at], Y.mixed.T) + _kron(X.mixed.T[at], Y.mixed))
        + 2 * (1 - nu) * _kron(X.slope[at], Y.slope)
    )


def _kron(a: np.ndarray, b: np.ndarray) -> np.ndarray:
    """The Kronecker product, without the overhead of the general function."""
    return (a[:, None, :, None] * b[None, :, None, :]).reshape(a.shape[0] * b.shape[0], -1)


def _read(plate: Plate, X: _Hermite, Y: _Hermite, unknowns: np.ndarray, load: np.ndarray) -> PlateSolution:
    D, nu = plate.D, plate.nu
    w_xx, w_yy = X.second @ unknowns[:, ::2], unknowns[::2] @ Y.second.T
    forces = []
    for place in plate.bearers:
        k = X.index(place)
        row = sum(
            _block(nu, X, Y, k, j) @ unknowns[2 * j : 2 * j + 2].ravel()
            for j in (k - 1, k, k + 1)
            if 0 <= j < len(X.lines)
        )
        missing = load[2 * k, ::2] - D * row[: 2 * len(Y.lines)][::2]
        forces.append(float(missing.sum()))
    return PlateSolution(
        X.lines,
        Y.lines,
        unknowns[::2, ::2],
        -D * (w_xx + nu * w_yy),
        -D * (w_yy + nu * w_xx),
        -D * (1 - nu) * unknowns[1::2, 1::2],
        tuple(forces),
    )
