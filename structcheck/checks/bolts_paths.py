"""Lines a plate may part along where its bolts do not fill rows and columns: every zigzag from hole to hole.

A zigzag runs from edge to edge across the force and through holes that stand further and further across. Its slanting
steps count s^2/4p more than their width (EN 1993-1-1 6.2.2.2(4)). Cut short by lines along the force it tears a block
out (EN 1993-1-8 3.10.2). Geometry only; what the steel bears is the caller's.
"""

import itertools
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from structcheck.checks.bolts_group import BoltGroup
from structcheck.errors import NotCovered

MOST = 20_000
"""Zigzags traced at most."""

SAME = 1e-6
"""Holes nearer than this, mm, stand on one line."""


@dataclass(frozen=True, eq=False)
class Zigzags:
    """Every zigzag through one hole or more, an array entry each; lengths in mm.

    d_0       diameter of the holes
    ahead     of each bolt, along the force, towards the end pushed at; (bolts,)
    beside    of each bolt, across the force; (bolts,)
    holes     how many holes it runs through
    across    from its first hole to its last, slants counted, holes not taken off
    first     its first hole
    last      its last hole
    on        its holes, (zigzags, bolts); it runs over no other
    past      bolts from its first to its last hole across that stand on it or ahead of it, (zigzags, bolts)
    """

    d_0: float
    ahead: np.ndarray
    beside: np.ndarray
    holes: np.ndarray
    across: np.ndarray
    first: np.ndarray
    last: np.ndarray
    on: np.ndarray
    past: np.ndarray
    kept: dict[tuple[float, float], tuple[np.ndarray, np.ndarray]] = field(default_factory=dict, repr=False)

    def left(self, edges: tuple[float, float]) -> tuple[np.ndarray, np.ndarray]:
        """Net width from edge to edge and its section modulus for 1 mm of plate; worked out once for all loads."""
        if edges not in self.kept:
            length, beside = edges[1] - edges[0], self.beside - (edges[0] + edges[1]) / 2
            self.kept[edges] = length + _slant(self) - self.holes * self.d_0, _modulus(self, length, beside)
        return self.kept[edges]

    @cached_property
    def low(self) -> np.ndarray:
        """Bolts past a straight end that runs from the first hole to the edge on its side, (zigzags, bolts)."""
        return self._outside(self.first, -1.0) & (self._gap(self.first) > -SAME)

    @cached_property
    def high(self) -> np.ndarray:
        """The same from the last hole."""
        return self._outside(self.last, 1.0) & (self._gap(self.last) > -SAME)

    @cached_property
    def low_free(self) -> np.ndarray:
        """Whether that end runs over no hole: if it does, the zigzag through that hole stands for it."""
        return ~np.any(self._outside(self.first, -1.0) & (np.abs(self._gap(self.first)) < self.d_0 / 2), axis=1)

    @cached_property
    def high_free(self) -> np.ndarray:
        """The same of the end from the last hole."""
        return ~np.any(self._outside(self.last, 1.0) & (np.abs(self._gap(self.last)) < self.d_0 / 2), axis=1)

    @cached_property
    def passed(self) -> np.ndarray:
        """1 for each bolt past the zigzag and its two ends, (zigzags, bolts)."""
        return (self.past | self.low | self.high).astype(float)

    @cached_property
    def reach(self) -> tuple[np.ndarray, np.ndarray]:
        """Hindmost and foremost hole of each zigzag, along the force."""
        low = np.where(self.on, self.ahead, np.inf).min(axis=1)
        return low, np.where(self.on, self.ahead, -np.inf).max(axis=1)

    def _outside(self, hole: np.ndarray, side: float) -> np.ndarray:
        return (self.beside - self.beside[hole][:, None]) * side > SAME

    def _gap(self, hole: np.ndarray) -> np.ndarray:
        return self.ahead - self.ahead[hole][:, None]

    def through(self, index: int) -> tuple[int, ...]:
        """The holes of one zigzag in their order."""
        held = np.flatnonzero(self.on[index])
        return tuple(int(hole) for hole in held[np.argsort(self.beside[held])])

    def steps(self, index: int) -> tuple[tuple[float, float], ...]:
        """Of each slanting step of one zigzag: along the force (s) and across it (p)."""
        spots = [(self.ahead[hole], self.beside[hole]) for hole in self.through(index)]
        pairs = itertools.pairwise(spots)
        moved = ((float(abs(b[0] - a[0])), float(b[1] - a[1])) for a, b in pairs)
        return tuple((s, p) for s, p in moved if s > SAME)


def zigzags(part: BoltGroup, along_y: bool, sign: float) -> Zigzags:
    """Every zigzag across y or x; `sign` is +1 where the end pushed at lies towards +y or +x.

    Raises NotCovered where there are too many to trace.
    """
    asked = "zigzags", along_y, sign
    if asked in part.memo:
        return part.memo[asked]
    if part.slot:
        raise NotCovered("slots that fill no rows and columns: the plate around them is not judged")
    axis, cross = (1, 0) if along_y else (0, 1)
    ahead, beside = part.positions[:, axis] * sign, part.positions[:, cross]
    _, together = np.unique(np.round(beside / SAME), return_counts=True)
    count = np.prod(together + 1.0) - 1
    if count > MOST:
        raise NotCovered(f"{count:.3g} zigzag lines run through these {part.count} holes; {MOST} are traced at most")
    return part.memo.setdefault(asked, _traced(ahead, beside, part.d_0))


def _traced(ahead: np.ndarray, beside: np.ndarray, d_0: float) -> Zigzags:
    """Hole by hole across the plate, each added to every zigzag that ends before it and started as a new one.

    A step that runs over another hole is left out: the zigzag through that hole stands for it.
    """
    holes = np.zeros(0, dtype=int)
    across, first, last = np.zeros(0), holes, holes
    on = past = np.zeros((0, len(ahead)), dtype=bool)
    for hole in np.argsort(beside, kind="stable"):
        width = beside[hole] - beside[last]
        goes_on = np.flatnonzero(width > SAME)
        p, before = width[goes_on], last[goes_on]
        s = ahead[hole] - ahead[before]
        away = beside - beside[before][:, None]
        line = ahead[before][:, None] + s[:, None] * away / p[:, None]
        inside = (away > SAME) & (beside < beside[hole] - SAME)
        over = inside & (np.abs(ahead - line) < d_0 / 2 * np.hypot(s, p)[:, None] / p[:, None])
        clear = ~np.any(over, axis=1)
        goes_on, p, s, between = goes_on[clear], p[clear], s[clear], (inside & (ahead > line - SAME))[clear]
        beyond = (np.abs(beside - beside[hole]) <= SAME) & (ahead > ahead[hole] - SAME)
        itself = np.arange(len(ahead)) == hole
        holes = np.concatenate((holes, holes[goes_on] + 1, [1]))
        across = np.concatenate((across, across[goes_on] + p + s**2 / (4 * p), [0.0]))
        first = np.concatenate((first, first[goes_on], [hole]))
        last = np.concatenate((last, np.full(len(goes_on), hole), [hole]))
        on = np.concatenate((on, on[goes_on] | itself, [itself]))
        past = np.concatenate((past, past[goes_on] | between | beyond, [beyond]))
    return Zigzags(d_0, ahead, beside, holes, across, first, last, on, past)


@dataclass(frozen=True, eq=False)
class Cut:
    """Zigzags from edge to edge under one load, an array entry each: what is left of the plate and what passes it.

    length   of the plate across the force
    net      width left, slants counted
    modulus  elastic section modulus of the width left for 1 mm of plate, slants not counted
    N, V, M  force square to the line, along it, and moment in the plane of the plate
    """

    ways: Zigzags
    length: float
    net: np.ndarray
    modulus: np.ndarray
    N: np.ndarray
    V: np.ndarray
    M: np.ndarray

    def worst(self, shares: np.ndarray) -> int:
        """The zigzag of the highest share; those whose slants outweigh their holes are the whole plate's affair."""
        counts = (self.net < self.length - SAME) & self.ways.low_free & self.ways.high_free
        return int(np.argmax(np.where(counts, shares, -1.0)))


def cut_along(ways: Zigzags, edges: tuple[float, float], forces: np.ndarray) -> Cut:
    """What passes every zigzag.

    A plain pull passes it in line with the whole group, as 6.2.3 has it, though more bolts may stand past one side of
    it than past the other; what turns the plate passes it with its moment.

    edges   of the plate across the force
    forces  of each bolt on the plate, towards `ahead` and towards `beside`, (bolts, 2)
    """
    length, middle = edges[1] - edges[0], (edges[0] + edges[1]) / 2
    past, beside = ways.passed, ways.beside - middle
    total = past @ forces
    # The moment is taken about both ends of the zigzag along the force, and the greater one kept.
    even = forces[:, 0].mean()
    about = past @ (beside * (forces[:, 0] - even) + beside.mean() * even - ways.ahead * forces[:, 1])
    ends = [about + reach * total[:, 1] for reach in ways.reach]
    net, modulus = ways.left(edges)
    return Cut(ways, length, net, modulus, total[:, 0], total[:, 1], np.maximum(*np.abs(ends)))


def _slant(ways: Zigzags) -> np.ndarray:
    return ways.across - (ways.beside[ways.last] - ways.beside[ways.first])


def _modulus(ways: Zigzags, length: float, beside: np.ndarray) -> np.ndarray:
    """As of a straight line through as many holes as far across; next to nothing where none would be left of it."""
    d_0, n, first, second = ways.d_0, ways.holes, ways.on @ beside, ways.on @ beside**2
    width = np.maximum(length - n * d_0, SAME)
    centre = -first * d_0 / width
    inertia = length**3 / 12 + length * centre**2 - n * d_0**3 / 12
    inertia -= d_0 * (second - 2 * centre * first + n * centre**2)
    return np.maximum(inertia, SAME) / (length / 2 + np.abs(centre))


@dataclass(frozen=True, eq=False)
class TornOut:
    """Blocks that one end of a zigzag, or both, bounds along the force; net lengths in tension and shear, mm.

    force   of the bolts of the block
    bolts   how many they are
    edges   sides on which the tension runs on to the plate's edge: 0 or 1
    """

    tension: np.ndarray
    shear: np.ndarray
    force: np.ndarray
    bolts: np.ndarray
    edges: int


def torn_out(ways: Zigzags, edges: tuple[float, float], end: float, pushes: np.ndarray) -> list[TornOut]:
    """Every block between two lines along the force, and between one of them and an edge.

    A hole nearer than two diameters to a line along the force is taken off it, for the line may bend through it.

    end     of the plate, from where `ahead` is measured
    pushes  of each bolt towards it, (bolts,)
    """
    d_0, n, first, last = ways.d_0, ways.holes, ways.first, ways.last
    line = end - ways.ahead - (_on_line(ways) - 0.5) * d_0
    to_low, to_high = ways.beside[first] - edges[0], edges[1] - ways.beside[last]
    parts = (
        (ways.across - (n - 1) * d_0, line[first] + line[last], ways.past, n > 1, 0),
        (ways.across + to_low - (n - 0.5) * d_0, line[last], ways.past | ways.low, ways.low_free, 1),
        (ways.across + to_high - (n - 0.5) * d_0, line[first], ways.past | ways.high, ways.high_free, 1),
    )
    return [
        TornOut(tension[some], shear[some], within[some] @ pushes, within[some].sum(axis=1), sides)
        for tension, shear, within, some, sides in parts
        if np.any(some)
    ]


def _on_line(ways: Zigzags) -> np.ndarray:
    """Holes on the line that runs along the force from each bolt to the end, its own included."""
    near = np.abs(ways.beside - ways.beside[:, None]) < 2 * ways.d_0 - SAME
    before = ways.ahead - ways.ahead[:, None] > SAME
    return (near & before).sum(axis=1) + 1
