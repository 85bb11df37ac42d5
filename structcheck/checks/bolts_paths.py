"""Lines a plate may part along between its bolts: every zigzag from hole to hole.

A zigzag runs from edge to edge across the force and through holes that stand further and further across. Its slanting
steps count s^2/4p more than their width (EN 1993-1-1 6.2.2.2(4)). Cut short by lines along the force it tears a block
out (EN 1993-1-8 3.10.2). Geometry only; what the steel bears is the caller's.
"""

import itertools
from dataclasses import field, replace
from functools import cached_property, lru_cache
from typing import Any

import numpy as np

from structcheck.checks.bolts_group import BoltGroup
from structcheck.errors import NotCovered
from structcheck.record import record

MOST = 20_000
MOST_ENTRIES = 2_000_000
"""Zigzags traced at most, and these times the bolts: beyond, the answer would take seconds."""

SAME = 1e-6
"""Holes nearer than this, mm, stand on one line."""


@record(eq=False)
class Zigzags:
    """Zigzags through one hole or more, an array entry each; lengths in mm.

    wide, long  how far a hole reaches across the force and along it; the lesser is its diameter or the slot's width
    ahead       of each bolt, along the force, towards the end pushed at; (bolts,)
    beside      of each bolt, across the force; (bolts,)
    holes       how many holes it runs through
    across      from its first hole to its last, slants counted, holes not taken off
    first       its first hole
    last        its last hole
    on          its holes, (zigzags, bolts); it runs over no other
    past        bolts from its first to its last hole across that stand on it or ahead of it, (zigzags, bolts)
    """

    wide: float
    long: float
    ahead: np.ndarray
    beside: np.ndarray
    holes: np.ndarray
    across: np.ndarray
    first: np.ndarray
    last: np.ndarray
    on: np.ndarray
    past: np.ndarray
    kept: dict[tuple[float, ...], Any] = field(default_factory=dict, repr=False)

    def only(self, some: np.ndarray) -> "Zigzags":
        """Some of them."""
        chosen = {name: getattr(self, name)[some] for name in ("holes", "across", "first", "last", "on", "past")}
        return replace(self, **chosen, kept={})

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
        return ~np.any(self._outside(self.first, -1.0) & (np.abs(self._gap(self.first)) < self.long / 2), axis=1)

    @cached_property
    def high_free(self) -> np.ndarray:
        """The same of the end from the last hole."""
        return ~np.any(self._outside(self.last, 1.0) & (np.abs(self._gap(self.last)) < self.long / 2), axis=1)

    def _outside(self, hole: np.ndarray, side: float) -> np.ndarray:
        return (self.beside - self.beside[hole][:, None]) * side > SAME

    def _gap(self, hole: np.ndarray) -> np.ndarray:
        return self.ahead - self.ahead[hole][:, None]

    def through(self, index: int) -> tuple[int, ...]:
        """The holes of one zigzag in their order."""
        held = np.flatnonzero(self.on[index])
        return tuple(int(hole) for hole in held[np.argsort(self.beside[held])])

    def steps(self, index: int) -> tuple[tuple[float, float], ...]:
        """Of each slanting step of one zigzag: along the force (s), less what slots draw it out, and across it (p)."""
        spots = [(self.ahead[hole], self.beside[hole]) for hole in self.through(index)]
        pairs = itertools.pairwise(spots)
        moved = ((float(_slanting(abs(b[0] - a[0]), self.wide, self.long)), float(b[1] - a[1])) for a, b in pairs)
        return tuple((s, p) for s, p in moved if s > SAME)


def _slanting(s: np.ndarray, wide: float, long: float) -> np.ndarray:
    """s of a step between holes this far apart along the force: slots along it bring it down by their length."""
    return np.maximum(s - max(long - wide, 0.0), 0.0)


def zigzags(part: BoltGroup, along_y: bool, sign: float, even: bool = False, whole: bool = False) -> Zigzags:
    """Every zigzag across y or x; `sign` is +1 where the end pushed at lies towards +y or +x.

    even   all bolts push alike. Then no slant weighs more than a straight line in full rows and columns: what it tears
           off is a mean of what two straight ones do, and it is longer. Only those are given there.
    whole  only those, and beginnings of those, that may part the plate from edge to edge: their slants outweigh not
           even all the holes that may still come

    Raises NotCovered where there are too many to trace.
    """
    straight = even and part.lines is not None
    asked = "zigzags", along_y, sign, straight, whole
    if asked in part.known:
        return part.known[asked]
    axis, cross = (1, 0) if along_y else (0, 1)
    spots, aside = (part.positions[:, axis] * sign).tolist(), part.positions[:, cross].tolist()
    holes = part.hole_size(not along_y), part.hole_size(along_y)
    return part.known.setdefault(asked, _traced(tuple(spots), tuple(aside), *holes, straight, whole))


@lru_cache(maxsize=16)
def _traced(
    spots: tuple[float, ...], aside: tuple[float, ...], wide: float, long: float, straight: bool, whole: bool
) -> Zigzags:
    """The zigzags of bolts at `spots` along the force and `aside` across it, kept for the next group that is alike.

    Hole by hole across the plate, each is added to every zigzag that ends before it and started as a new one.
    A step that runs over another hole is left out: the zigzag through that hole stands for it.
    """
    ahead, beside = np.array(spots), np.array(aside)
    holes = np.zeros(0, dtype=int)
    across, first, last = np.zeros(0), holes, holes
    on = past = np.zeros((0, len(ahead)), dtype=bool)
    for hole in np.argsort(beside, kind="stable"):
        width = beside[hole] - beside[last]
        goes_on = np.flatnonzero(width > SAME)
        if straight:
            goes_on = goes_on[np.abs(ahead[hole] - ahead[last[goes_on]]) < SAME]
        clear, between = _between(ahead, beside, last[goes_on], hole, (wide, long))
        goes_on, between = goes_on[clear], between[clear]
        p, s = width[goes_on], np.abs(ahead[hole] - ahead[last[goes_on]])
        longer = across[goes_on] + p + _slanting(s, wide, long) ** 2 / (4 * p)
        if whole:
            to_come = len(np.unique(np.round(beside[beside > beside[hole] + SAME] / SAME)))
            slants = longer - (beside[hole] - beside[first[goes_on]])
            kept = slants < (holes[goes_on] + 1 + to_come) * wide - SAME
            goes_on, longer, between = goes_on[kept], longer[kept], between[kept]
        beyond = (np.abs(beside - beside[hole]) <= SAME) & (ahead > ahead[hole] - SAME)
        itself = np.arange(len(ahead)) == hole
        starts = np.full(1, hole)
        if whole and np.any((beside < beside[hole] - SAME) & (np.abs(ahead - ahead[hole]) < long / 2)):
            starts = starts[:0]
        alone = np.ones((len(starts), 1), dtype=bool)
        holes = np.concatenate((holes, holes[goes_on] + 1, np.ones_like(starts)))
        across = np.concatenate((across, longer, np.zeros(len(starts))))
        first = np.concatenate((first, first[goes_on], starts))
        last = np.concatenate((last, np.full(len(goes_on), hole), starts))
        on = np.concatenate((on, on[goes_on] | itself, alone & itself))
        past = np.concatenate((past, past[goes_on] | between | beyond, alone & beyond))
        if len(holes) > MOST or on.size > MOST_ENTRIES:
            raise NotCovered(
                f"over {len(holes) - 1} zigzag lines run through these {len(ahead)} holes: not all of them are tried"
            )
    return Zigzags(wide, long, ahead, beside, holes, across, first, last, on, past)


def _between(
    ahead: np.ndarray, beside: np.ndarray, before: np.ndarray, hole: int, holes: tuple[float, float]
) -> tuple[np.ndarray, np.ndarray]:
    """Of each step from a hole to another: whether it runs over none on its way, and which bolts stand ahead of it."""
    (wide, long), d_0 = holes, min(holes)
    s, p = ahead[hole] - ahead[before], beside[hole] - beside[before]
    away = beside - beside[before][:, None]
    line = ahead[before][:, None] + s[:, None] * away / p[:, None]
    inside = (away > SAME) & (beside < beside[hole] - SAME)
    reach = (d_0 * np.hypot(s, p) + (long - d_0) * p + (wide - d_0) * np.abs(s)) / (2 * p)
    clear = ~np.any(inside & (np.abs(ahead - line) < reach[:, None]), axis=1)
    return clear, inside & (ahead > line - SAME)


@record(eq=False)
class Crossing:
    """The zigzags that part a plate from edge to edge, an array entry each, whatever the load.

    Those whose slants outweigh their holes are the whole plate's affair and left out.

    ways     those zigzags
    length   of the plate across the force
    net      width left, slants counted
    modulus  elastic section modulus of the width left for 1 mm of plate, slants not counted
    shift    of the centroid of the width left from the middle of the plate
    passed   1 for each bolt past the zigzag and its two ends, (bolts, zigzags)
    acting   from a force of each bolt, ahead and aside, to force ahead, force aside and moment, (2 bolts, 3 bolts)
    reach    hindmost and foremost hole of each zigzag, along the force
    """

    ways: Zigzags
    length: float
    net: np.ndarray
    modulus: np.ndarray
    shift: np.ndarray
    passed: np.ndarray
    acting: np.ndarray
    reach: tuple[np.ndarray, np.ndarray]


def crossing(ways: Zigzags, edges: tuple[float, float]) -> Crossing:
    """The zigzags from edge to edge of a plate; worked out once for all loads."""
    if edges in ways.kept:
        return ways.kept[edges]
    length, beside = edges[1] - edges[0], ways.beside - (edges[0] + edges[1]) / 2
    counts = (_net(ways, length) < length - SAME) & ways.low_free & ways.high_free
    kept = ways.only(counts) if np.any(counts) else ways
    ahead = np.where(kept.on, kept.ahead, np.nan)
    found = Crossing(
        kept,
        length,
        _net(kept, length),
        _modulus(kept, length, beside),
        np.abs(_centre(kept, length, beside)),
        (kept.past | kept.low | kept.high).astype(float).T,
        _acting(kept, beside),
        (np.nanmin(ahead, axis=1), np.nanmax(ahead, axis=1)),
    )
    return ways.kept.setdefault(edges, found)


def _acting(ways: Zigzags, beside: np.ndarray) -> np.ndarray:
    """Moments are about the middle of the plate: of the even part of the force ahead as if all bolts stood in their
    middle, of what is uneven and of the force aside at each bolt."""
    n = len(beside)
    itself, nothing = np.eye(n), np.zeros((n, n))
    of_ahead = np.diag(beside) + (beside.mean() - beside) / n
    rows = np.hstack((itself, nothing, of_ahead)), np.hstack((nothing, itself, np.diag(-ways.ahead)))
    return np.stack(rows, axis=1).reshape(2 * n, 3 * n)


def _net(ways: Zigzags, length: float) -> np.ndarray:
    slant = ways.across - (ways.beside[ways.last] - ways.beside[ways.first])
    return length + slant - ways.holes * ways.wide


@record(eq=False)
class Cut:
    """Zigzags under loads: force square to each, along it, and moment in the plane of the plate; (loads, zigzags)."""

    crossing: Crossing
    N: np.ndarray
    V: np.ndarray
    M: np.ndarray


def cut_along(ways: Zigzags, edges: tuple[float, float], forces: np.ndarray) -> Cut:
    """What passes every zigzag.

    A plain pull passes it in line with the whole group, as 6.2.3 has it, though more bolts may stand past one side of
    it than past the other; what turns the plate passes it with its moment.

    edges   of the plate across the force
    forces  of each bolt on the plate, towards `ahead` and towards `beside`, (loads, bolts, 2)
    """
    found = crossing(ways, edges)
    count, bolts = forces.shape[:2]
    passed = (forces.reshape(count, -1) @ found.acting).reshape(count, 3, bolts) @ found.passed
    N, V, about = passed[:, 0], passed[:, 1], passed[:, 2]
    # The moment is taken about both ends of the zigzag along the force, and the greater one kept.
    hind, fore = found.reach
    return Cut(found, N, V, np.maximum(np.abs(about + hind * V), np.abs(about + fore * V)))


def _modulus(ways: Zigzags, length: float, beside: np.ndarray) -> np.ndarray:
    """As of a straight line through as many holes as far across; next to nothing where none would be left of it."""
    wide, n, first, second = ways.wide, ways.holes, ways.on @ beside, ways.on @ beside**2
    centre = _centre(ways, length, beside)
    inertia = length**3 / 12 + length * centre**2 - n * wide**3 / 12
    inertia -= wide * (second - 2 * centre * first + n * centre**2)
    return np.maximum(inertia, SAME) / (length / 2 + np.abs(centre))


def _centre(ways: Zigzags, length: float, beside: np.ndarray) -> np.ndarray:
    return -(ways.on @ beside) * ways.wide / np.maximum(length - ways.holes * ways.wide, SAME)


@record(eq=False)
class Blocks:
    """Blocks that one end of a zigzag, or both, bounds along the force; net lengths in tension and shear, mm.

    within  1 for each bolt of the block, (blocks, bolts)
    bolts   how many they are
    edge    whether the tension runs on to an edge of the plate

    A block with tension to both edges is two of these side by side, and no weaker than the weaker of them.
    """

    tension: np.ndarray
    shear: np.ndarray
    within: np.ndarray
    bolts: np.ndarray
    edge: np.ndarray


def blocks_of(ways: Zigzags, edges: tuple[float, float], end: float) -> Blocks:
    """Every block between two lines along the force, and between one of them and an edge.

    A hole nearer than two diameters to a line along the force is taken off it, for the line may bend through it.

    end  of the plate, from where `ahead` is measured
    """
    if (*edges, end) in ways.kept:
        return ways.kept[*edges, end]
    wide, n, first, last = ways.wide, ways.holes, ways.first, ways.last
    line = end - ways.ahead - (_on_line(ways) - 0.5) * ways.long
    to_low, to_high = ways.beside[first] - edges[0], edges[1] - ways.beside[last]
    parts = (
        (ways.across - (n - 1) * wide, line[first] + line[last], ways.past, n > 1),
        (ways.across + to_low - (n - 0.5) * wide, line[last], ways.past | ways.low, ways.low_free),
        (ways.across + to_high - (n - 0.5) * wide, line[first], ways.past | ways.high, ways.high_free),
    )
    tension, shear, within = (np.concatenate([row[kind][row[3]] for row in parts]) for kind in range(3))
    edge = np.concatenate([np.full(int(row[3].sum()), number > 0) for number, row in enumerate(parts)])
    found = Blocks(tension, shear, within.astype(float), within.sum(axis=1), edge)
    return ways.kept.setdefault((*edges, end), found)


def _on_line(ways: Zigzags) -> np.ndarray:
    """Holes on the line that runs along the force from each bolt to the end, its own included."""
    near = np.abs(ways.beside - ways.beside[:, None]) < min(ways.wide, ways.long) + ways.wide - SAME
    before = ways.ahead - ways.ahead[:, None] > SAME
    return (near & before).sum(axis=1) + 1
