"""Cubic Hermite functions along one direction of a plate: value and slope at each line of its mesh.

Lines in mm. The functions of an element of length h are those of the unit element with their slopes scaled by h, so
every matrix is the unit element's, scaled.
"""

from collections.abc import Sequence
from functools import cached_property
from itertools import pairwise

import numpy as np

from structcheck.maths import distinct

NEAR = 1e-4
"""Share of a side within which places are taken as one."""

_GAUSS = np.array(
    [0.5 - np.sqrt(3 / 7 + 2 / 7 * np.sqrt(6 / 5)) / 2, 0.5 - np.sqrt(3 / 7 - 2 / 7 * np.sqrt(6 / 5)) / 2]
)
_GAUSS = np.concatenate([_GAUSS, 1 - _GAUSS[::-1]])
_WEIGHTS = np.array([18 - np.sqrt(30), 18 + np.sqrt(30), 18 + np.sqrt(30), 18 - np.sqrt(30)]) / 72


def _values(s: np.ndarray) -> np.ndarray:
    """The four functions of the unit element at s = 0..1, in the first axis."""
    return np.stack([1 - 3 * s**2 + 2 * s**3, s - 2 * s**2 + s**3, 3 * s**2 - 2 * s**3, s**3 - s**2])


def _unit_matrices() -> np.ndarray:
    """Integrals over the unit element of N N, N' N', N'' N'' and N'' N."""
    s = _GAUSS
    N = _values(s)
    dN = np.stack([6 * s**2 - 6 * s, 1 - 4 * s + 3 * s**2, 6 * s - 6 * s**2, 3 * s**2 - 2 * s])
    ddN = np.stack([12 * s - 6, 6 * s - 4, 6 - 12 * s, 6 * s - 2])
    return np.stack([(a * _WEIGHTS) @ b.T for a, b in ((N, N), (dN, dN), (ddN, ddN), (ddN, N))])


_UNIT = _unit_matrices()
_POWERS = np.array([1, -1, -3, -1])
"""Of the element's length, in its mass, slope, curve and mixed matrix."""


class Hermite:
    """The functions on a mesh.

    lines   places of the lines, mm
    breaks  numbers of the lines at which load or support begins
    whole   size of the plate; where the lines end at its middle, the other half mirrors them
    mass, slope, curve, mixed  integrals of N N, N' N', N'' N'' and N'' N, shape (2 lines, 2 lines)
    """

    def __init__(self, lines: np.ndarray, breaks: frozenset[int], whole: float) -> None:
        self.lines, self.breaks, self.whole = lines, breaks, whole
        self.mirrored = bool(lines[-1] < 0.75 * whole)
        h = np.diff(lines)
        scale = np.ones((len(h), 4))
        scale[:, 1::2] = h[:, None]
        lengths = h[:, None] ** _POWERS
        elements = _UNIT * (scale[:, :, None] * scale[:, None, :])[:, None] * lengths[:, :, None, None]
        sums = np.zeros((4, 2 * len(lines), 2 * len(lines)))
        for k, element in enumerate(elements):
            sums[:, 2 * k : 2 * k + 4, 2 * k : 2 * k + 4] += element
        self.mass, self.slope, self.curve, self.mixed = sums

    def load(self, middle: float, side: float) -> np.ndarray:
        """Integral of each function over what lies of a stretch on the lines, or its value at the nearest line."""
        found = np.zeros(2 * len(self.lines))
        if side == 0:
            found[2 * self.index(middle)] = self.share(middle)
            return found
        starts, h = self.lines[:-1], np.diff(self.lines)
        first = np.maximum(starts, middle - side / 2)
        loaded = np.maximum(np.minimum(self.lines[1:], middle + side / 2) - first, 0.0)
        values = _values(((first - starts)[:, None] + loaded[:, None] * _GAUSS) / h[:, None])
        parts = (values @ _WEIGHTS) * loaded
        parts[1::2] *= h
        found[:-2] += parts[:2].T.ravel()
        found[2:] += parts[2:].T.ravel()
        return found

    @cached_property
    def second(self) -> np.ndarray:
        """From unknowns to the second derivative at each line.

        The quintic through values and slopes of three neighbours is two orders better than the element's own
        curvature. It never reaches across a line where load or support begins: there both sides are averaged.
        """
        last = len(self.lines) - 1
        pairs = [(k, m) for k in range(last + 1) for m in self._middles(k)]
        shares = [1 / len(self._middles(k)) for k, _ in pairs]
        places = np.array([self.lines[m - 1 : m + 2] - self.lines[k] for k, m in pairs])
        rows = np.zeros((last + 1, 2 * last + 2))
        for (k, m), weights, share in zip(pairs, _curvatures(places), shares, strict=True):
            rows[k, 2 * m - 2 : 2 * m + 4] += weights * share
        return rows

    def _middles(self, k: int) -> list[int]:
        """Middle lines of the threes that tell the curvature at line k."""
        last = len(self.lines) - 1
        return [m for m in (k - 1, k + 1) if 1 <= m <= last - 1] if k in self.breaks else [k]

    def half(self) -> "Hermite":
        """The lines up to the middle; all where none runs there."""
        at = self.index(self.whole / 2)
        if abs(self.lines[at] - self.whole / 2) > 1e-9 * self.whole:
            return self
        return Hermite(self.lines[: at + 1], frozenset(k for k in self.breaks if k <= at), self.whole)

    def share(self, place: float) -> float:
        """How much of what acts at a place acts on these lines: of the middle, the mirrored half has its half."""
        beyond = place - self.lines[-1]
        if not self.mirrored or beyond < -1e-9 * self.whole:
            return 1.0
        return 0.5 if beyond < 1e-9 * self.whole else 0.0

    def index(self, place: float) -> int:
        """Number of the line nearest to a place."""
        return int(np.argmin(abs(self.lines - place)))


def mesh(size: float, cells: int, wanted: Sequence[float]) -> Hermite:
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
    return Hermite(np.concatenate([*runs, [size]]), frozenset(breaks.tolist()), size)


def _curvatures(places: np.ndarray) -> np.ndarray:
    """Weights of value, slope, value, ... at three places that give the second derivative at 0; one row for each."""
    size = np.abs(places).max(axis=1)[:, None]
    u, powers = (places / size)[:, :, None], np.arange(6)
    table = np.stack([u**powers, powers * u ** np.maximum(powers - 1, 0)], axis=2).reshape(-1, 6, 6)
    weights = 2 * np.linalg.inv(table)[:, 2] / size**2
    weights[:, 1::2] *= size
    return weights
