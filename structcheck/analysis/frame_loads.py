"""Loads of all cases turned into arrays, and members cut into runs between the places where loads begin, stand or end.

Inside this file and the ones that use `Runs`, vectors are in plane order: x, y, z, then the moments that go with them:
about x; about -z, which bends with y; about y, which bends with z. In this order both planes obey the same equations.
"""

from collections.abc import Mapping, Sequence
from functools import cached_property
from math import factorial

import numpy as np

from structcheck.analysis.frame_arrays import _PLACE, Structure, cross
from structcheck.analysis.frame_model import (
    Load,
    NodeLoad,
    PointOnMember,
    SelfWeight,
    Settlement,
    SpreadOnMember,
)
from structcheck.maths import distinct
from structcheck.record import record

_ORDER = np.array([0, 1, 2, 3, 5, 4])
_SIGN = np.array([1.0, 1.0, 1.0, 1.0, -1.0, 1.0])
_TURN_SIGN = np.array([1.0, 1.0, 1.0, 1.0, 1.0, -1.0])
_BOTH_ENDS, _BOTH_SIGNS = np.concatenate([_ORDER, _ORDER + 6]), np.tile(_SIGN, 2)[:, None, None]


def forces_to_planes(vectors: np.ndarray) -> np.ndarray:
    """x, y, z, mx, my, mz along the first axis into plane order."""
    return vectors[_ORDER] * _SIGN.reshape(-1, *(1,) * (vectors.ndim - 1))


def end_forces_from_planes(vectors: np.ndarray) -> np.ndarray:
    """(12, m, c) in plane order by ends into (m, 12, c) in x, y, z, rx, ry, rz."""
    return (vectors * _BOTH_SIGNS)[_BOTH_ENDS].transpose(1, 0, 2)


def moves_to_planes(vectors: np.ndarray) -> np.ndarray:
    """Displacements x, y, z, rx, ry, rz into plane order: rotations become twist, slope of y, slope of z."""
    return vectors[_ORDER] * _TURN_SIGN.reshape(-1, *(1,) * (vectors.ndim - 1))


@record
class Loads:
    """All cases side by side; c cases."""

    names: tuple[str, ...]
    nodal: np.ndarray  # (6 n, c) forces and moments on nodes, global
    moves: np.ndarray  # (6 n, c) forced displacements of held directions
    runs: "Runs"
    resultant: np.ndarray  # (6, c) force, and moment about the frame's middle, of everything applied
    size: np.ndarray  # (2, c) sums of the sizes of all applied forces and moments


@record
class Runs:
    """Members cut at every load and at the faces of rigid zones; m members, S runs each (spare ones have no length)."""

    stations: np.ndarray  # (m, S + 1) mm from the start node
    length: np.ndarray  # (m, S)
    faces: np.ndarray  # (m, 2) where the flexible part begins and ends
    flexible: np.ndarray  # (m, S) whether the run can bend
    spread: np.ndarray  # (3, m, S, c) force per length at the start of each run
    slope: np.ndarray  # (3, m, S, c) its change per length
    jump: np.ndarray  # (6, m, S + 1, c) point forces and moments at each station
    loaded: bool  # whether any member carries anything

    @cached_property
    def spreads(self) -> bool:
        """Whether any member carries a spread force."""
        return bool(self.spread.any() or self.slope.any())

    @cached_property
    def jumps(self) -> np.ndarray:
        """(m, S + 1) whether a point load of any case stands there."""
        return self.jump.any(axis=(0, 3))

    @cached_property
    def last(self) -> np.ndarray:
        """(m,) the last run that has a length."""
        return ((self.length > 0) * np.arange(self.length.shape[1])).max(axis=1)

    @cached_property
    def levers(self) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        """Weights that sum loads on flexible parts over their distance d from the end face, d^n / n! for n = 0 to 3.

        Of point loads (4, m, S + 1), of spread forces and of their slopes (4, m, S).
        """
        d = self.faces[:, 1:] - self.stations
        powers = np.stack([d**n / factorial(n) for n in range(6)])
        first, last = powers[:, :, :-1], powers[:, :, 1:]
        inner = (self.stations >= self.faces[:, :1]) & (d >= 0)
        even = (first[1:5] - last[1:5]) * self.flexible
        sloping = (first[2:] - last[2:] - self.length * last[1:5]) * self.flexible
        return powers[:4] * inner, even, sloping


def gather(structure: Structure, cases: Mapping[str, Sequence[Load]]) -> Loads:
    """Loads that have been checked, turned into arrays."""
    count = len(cases)
    nodal, moves = np.zeros((len(structure.held), count)), np.zeros((len(structure.held), count))
    points: list[tuple] = []
    spreads: list[tuple] = []
    for case, loads in enumerate(cases.values()):
        for load in loads:
            match load:
                case NodeLoad():
                    first = 6 * structure.node_index[load.node]
                    nodal[first : first + 6, case] += (*load.force, *load.moment)
                case Settlement():
                    for direction, value in load.moves.items():
                        moves[6 * structure.node_index[load.node] + _PLACE[direction], case] += value
                case PointOnMember():
                    member = structure.member_index[load.member]
                    points.append((member, case, load.at, load.axes == "local", *load.force, *load.moment))
                case SpreadOnMember():
                    spreads.append(_spread(structure, load, case))
                case SelfWeight():
                    spreads += _weights(structure, load, case)
    points_table = np.array(points, dtype=float).reshape(-1, 10)
    spreads_table = np.array(spreads, dtype=float).reshape(-1, 11)
    runs = _runs(structure, points_table, spreads_table, count)
    resultant, size = _resultant(structure, nodal, points_table, spreads_table)
    return Loads(tuple(cases), nodal, moves, runs, resultant, size)


def _spread(structure: Structure, load: SpreadOnMember, case: int) -> tuple:
    member = structure.member_index[load.member]
    end = structure.length[member] if load.end is None else load.end
    to = load.force if load.to is None else load.to
    return (member, case, load.start, end, load.axes == "local", *load.force, *to)


def _weights(structure: Structure, load: SelfWeight, case: int) -> list[tuple]:
    names = structure.member_index if load.members is None else load.members
    way = np.array(load.direction, dtype=float)
    way *= load.density * load.g / np.sqrt(way @ way)
    rows = []
    for name in names:
        member = structure.member_index[name]
        force = way * structure.section[2, member]
        rows.append((member, case, 0.0, structure.length[member], False, *force, *force))
    return rows


def _runs(structure: Structure, points: np.ndarray, spreads: np.ndarray, count: int) -> Runs:
    length = structure.length
    faces = np.stack([structure.offsets[:, 0], length - structure.offsets[:, 1]], axis=1)
    # Places within rounding of an end are the end, so that no sliver of a run is left there.
    point_member, spread_member = points[:, 0].astype(int), spreads[:, 0].astype(int)
    at = _snapped(points[:, 2], length[point_member])
    start = _snapped(spreads[:, 2], length[spread_member])
    end = _snapped(spreads[:, 3], length[spread_member])
    stations = _stations(structure, faces, point_member, at, spread_member, start, end)
    runs = stations.shape[1] - 1
    axes = structure.axes

    jump = np.zeros((6, len(length), runs + 1, count))
    if len(points):
        vectors = _local(axes[point_member], points[:, 3], points[:, 4:7], points[:, 7:10])
        station = np.sum(stations[point_member] < at[:, None], axis=1)
        where = (slice(None), point_member, station, points[:, 1].astype(int))
        np.add.at(jump, where, forces_to_planes(np.concatenate(vectors, axis=1).T))
    spread, slope = np.zeros((2, 3, len(length), runs, count))
    if len(spreads):
        first, last = _local(axes[spread_member], spreads[:, 4], spreads[:, 5:8], spreads[:, 8:11])
        # A load shorter than the rounding of its ends covers no run and needs no slope.
        change = (last - first) / np.where(end > start, end - start, np.inf)[:, None]
        begins, finishes = stations[spread_member, :-1], stations[spread_member, 1:]
        covered = (begins >= start[:, None]) & (finishes <= end[:, None])
        here = first.T[:, :, None] + change.T[:, :, None] * (begins - start[:, None])
        where = (slice(None), spread_member, slice(None), spreads[:, 1].astype(int))
        # An index with a slice between arrays puts the arrays' axis first.
        np.add.at(spread, where, np.moveaxis(here * covered, 1, 0))
        np.add.at(slope, where, np.moveaxis(change.T[:, :, None] * covered, 1, 0))
    flexible = (stations[:, :-1] >= faces[:, :1]) & (stations[:, 1:] <= faces[:, 1:])
    loaded = bool(len(points) or len(spreads))
    return Runs(stations, np.diff(stations, axis=1), faces, flexible, spread, slope, jump, loaded)


def _snapped(place: np.ndarray, length: np.ndarray) -> np.ndarray:
    place = np.where(place < 1e-9 * length, 0.0, place)
    return np.where(place > length * (1 - 1e-9), length, place)


def _stations(
    structure: Structure,
    faces: np.ndarray,
    point_member: np.ndarray,
    at: np.ndarray,
    spread_member: np.ndarray,
    start: np.ndarray,
    end: np.ndarray,
) -> np.ndarray:
    """Sorted places of every member, filled up with its length to one width for all."""
    length = structure.length
    member = np.concatenate([point_member, spread_member, spread_member])
    place = np.concatenate([at, start, end])
    inner = (place > 0) & (place < length[member])
    # Complex numbers are ordered by their real part first: by member, then by place.
    found = distinct(member[inner] + 1j * place[inner])
    member, place = found.real.astype(int), found.imag
    counts = np.bincount(member, minlength=len(length))
    columns = np.arange(len(member)) - np.repeat(np.cumsum(counts) - counts, counts)
    zoned = structure.offsets.any()
    extra = np.concatenate([np.zeros_like(faces[:, :1]), faces], axis=1) if zoned else np.zeros((len(length), 1))
    stations = np.repeat(length[:, None], counts.max(initial=0) + 1, axis=1)
    stations[member, columns] = place
    return np.sort(np.concatenate([extra, stations], axis=1), axis=1)


def _local(axes: np.ndarray, local: np.ndarray, *vectors: np.ndarray) -> list[np.ndarray]:
    """Vectors in local axes, turned only where they were given in global ones."""
    return [np.where(local[:, None] > 0, vector, (axes @ vector[:, :, None])[:, :, 0]) for vector in vectors]


def _resultant(
    structure: Structure, nodal: np.ndarray, points: np.ndarray, spreads: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Force and moment about the middle of all that was applied, straight from the loads as described."""
    total = structure.sums @ nodal
    size = np.abs(nodal).reshape(-1, 2, 3, nodal.shape[1]).sum(axis=(0, 2))
    member = np.concatenate([points[:, 0], spreads[:, 0]]).astype(int)
    if not len(member):
        return total, size
    axes, begin = structure.axes[member], structure.xyz[structure.ends[member, 0]] - structure.middle
    case = np.concatenate([points[:, 1], spreads[:, 1]]).astype(int)
    local = np.concatenate([points[:, 3], spreads[:, 4]])[:, None] > 0
    reach = spreads[:, 3:4] - spreads[:, 2:3]
    first, last = spreads[:, 5:8], spreads[:, 8:11]
    pull = np.concatenate([points[:, 4:7], (first + last) / 2 * reach])
    # The load's own first moment about its start, which also serves where the two ends cancel.
    own = (first + 2 * last) / 6 * reach**2 + pull[len(points) :] * spreads[:, 2:3]
    lever = np.concatenate([points[:, 4:7] * points[:, 2:3], own])
    turn = np.concatenate([points[:, 7:10], np.zeros_like(first)])
    back = np.swapaxes(axes, 1, 2)
    pull, lever, turn = (np.where(local, (back @ v[:, :, None])[:, :, 0], v) for v in (pull, lever, turn))
    turn = turn + cross(begin, pull) + cross(axes[:, 0], lever)
    np.add.at(total.T, case, np.concatenate([pull, turn], axis=1))
    np.add.at(size.T, case, np.stack([np.abs(pull).sum(axis=1), np.abs(turn).sum(axis=1)], axis=1))
    return total, size
