"""The same frame with members cut into pieces, and its loads moved onto the pieces."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from structcheck.analysis.frame_arrays import Structure
from structcheck.analysis.frame_model import (
    RIGID,
    Frame,
    Load,
    Member,
    NodeLoad,
    PointOnMember,
    SelfWeight,
    SpreadOnMember,
    Vector,
)
from structcheck.record import record

ALONG = 1e-9
"""Share of a force along a member that is rounding."""
NEAR = 1e-6
"""Share of a length within which places are taken as one."""


@record
class Split:
    """A frame of pieces; `pieces` gives for each member of the first frame the numbers and beginnings of its own."""

    frame: Frame
    cases: Mapping[str, Sequence[Load]]
    pieces: Mapping[str, tuple[tuple[int, float], ...]]


def split(
    structure: Structure,
    cases: Mapping[str, Sequence[Load]],
    counts: Mapping[str, int],
    bows: Mapping[str, tuple[float, float]] | None = None,
) -> Split:
    """Cut the flexible part of each member into `counts` equal pieces (1 where none is given).

    Where a force along a member stands it is cut too: a piece has one axial force.

    bows  initial bow (mm) of a member along its local y and z, half a sine wave between the faces of its rigid zones;
          positions on a bowed member stay distances along its chord
    """
    nodes = dict(structure.frame.nodes)
    members: list[Member] = []
    pieces: dict[str, tuple[tuple[int, float], ...]] = {}
    cuts: dict[str, _Cut] = {}
    jumps = _jumps(structure, cases)
    for number, member in enumerate(structure.frame.members):
        places = _cuts(structure, number, counts.get(member.name, 1), jumps.get(member.name, ()))
        bow = (bows or {}).get(member.name, (0.0, 0.0))
        names = _add_nodes(nodes, structure, number, places, bow)
        first = len(members)
        members += _pieces_of(structure, number, names)
        pieces[member.name] = tuple((first + k, float(place)) for k, place in enumerate(places[:-1]))
        steps = np.diff([nodes[name] for name in names], axis=0)
        cuts[member.name] = _Cut(
            [piece.name for piece in members[first:]], names, places, np.linalg.norm(steps, axis=1)
        )
    frame = replace(structure.frame, nodes=nodes, members=members)
    moved = {
        case: [piece for load in loads for piece in _moved(load, structure, cuts)] for case, loads in cases.items()
    }
    return Split(frame, moved, pieces)


def _jumps(structure: Structure, cases: Mapping[str, Sequence[Load]]) -> dict[str, set[float]]:
    """Member -> where a force stands that has a part along it."""
    found: dict[str, set[float]] = {}
    for load in (load for loads in cases.values() for load in loads):
        if isinstance(load, PointOnMember):
            along = load.force[0]
            if load.axes == "global":
                along = float(np.dot(load.force, structure.axes[structure.member_index[load.member], 0]))
            if abs(along) > ALONG * sum(map(abs, load.force)):
                found.setdefault(load.member, set()).add(load.at)
    return found


def _cuts(structure: Structure, number: int, count: int, jumps: Collection[float]) -> np.ndarray:
    """Distances of the ends of the pieces from the start node."""
    length = structure.length[number]
    first, last = structure.offsets[number]
    inner = np.linspace(first, length - last, count + 1)[1:-1]
    near = NEAR * length
    own = [at for at in jumps if first + near < at < length - last - near]
    if own:
        kept = [place for place in inner if min(abs(place - at) for at in own) > near]
        inner = np.array(sorted({*kept, *own}))
    return np.concatenate([[0.0], inner, [length]])


def _add_nodes(
    nodes: dict[str, tuple[float, float, float]],
    structure: Structure,
    number: int,
    places: np.ndarray,
    bow: tuple[float, float],
) -> list[str]:
    member = structure.frame.members[number]
    begin, axes = structure.xyz[structure.ends[number, 0]], structure.axes[number]
    first, last = structure.offsets[number]
    wave = np.sin(np.pi * (places - first) / (structure.length[number] - first - last))
    names = [member.start]
    for k in range(1, len(places) - 1):
        name = f"{member.name} at {places[k]:g} mm ({k})"
        nodes[name] = tuple(begin + places[k] * axes[0] + wave[k] * (bow[0] * axes[1] + bow[1] * axes[2]))
        names.append(name)
    return [*names, member.end]


def _pieces_of(structure: Structure, number: int, names: list[str]) -> Iterator[Member]:
    member = structure.frame.members[number]
    last = len(names) - 2
    for k, (start, end) in enumerate(pairwise(names)):
        yield replace(
            member,
            name=member.name if last == 0 else f"{member.name} ({k + 1})",
            start=start,
            end=end,
            up=tuple(structure.axes[number, 2]),
            angle=0.0,
            at_start=member.at_start if k == 0 else RIGID,
            at_end=member.at_end if k == last else RIGID,
        )


@record
class _Cut:
    """The pieces of one member: names, nodes, the places of their ends on its chord, their own lengths."""

    names: list[str]
    nodes: list[str]
    places: np.ndarray
    lengths: np.ndarray

    def along(self, x: float, k: int) -> float:
        """Distance from the start of piece k; a bowed piece is a shade longer than its share of the chord."""
        part = (x - self.places[k]) / (self.places[k + 1] - self.places[k])
        return float(self.lengths[k] * min(max(part, 0.0), 1.0))


def _moved(load: Load, structure: Structure, cuts: Mapping[str, _Cut]) -> Iterator[Load]:
    """The loads on pieces that do what one load did on its member."""
    match load:
        case SelfWeight():
            chosen = None if load.members is None else [name for member in load.members for name in cuts[member].names]
            yield replace(load, members=chosen)
        case PointOnMember():
            cut = cuts[load.member]
            inner = np.flatnonzero(np.abs(cut.places[1:-1] - load.at) <= NEAR * cut.places[-1])
            if inner.size:
                # On the piece after the cut it would count as half of that piece's axial force.
                force, moment = _global(load, structure, load.force, load.moment)
                yield NodeLoad(cut.nodes[int(inner[0]) + 1], force, moment)
                return
            k = int(np.clip(np.searchsorted(cut.places, load.at, "right") - 1, 0, len(cut.names) - 1))
            force, moment = _global(load, structure, load.force, load.moment)
            yield PointOnMember(cut.names[k], cut.along(load.at, k), force, moment)
        case SpreadOnMember():
            yield from _spread(load, structure, cuts[load.member])
        case _:
            yield load


def _global(load: PointOnMember | SpreadOnMember, structure: Structure, *vectors: Vector) -> list[Vector]:
    if load.axes == "global":
        return list(vectors)
    axes = structure.axes[structure.member_index[load.member]]
    return [tuple(np.asarray(vector) @ axes) for vector in vectors]


def _spread(load: SpreadOnMember, structure: Structure, cut: _Cut) -> Iterator[SpreadOnMember]:
    end = cut.places[-1] if load.end is None else load.end
    first, last = map(np.array, _global(load, structure, load.force, load.force if load.to is None else load.to))
    for k, name in enumerate(cut.names):
        low, high = max(load.start, cut.places[k]), min(end, cut.places[k + 1])
        if high <= low:
            continue
        shares = ((place - load.start) / (end - load.start) for place in (low, high))
        ratio = (cut.places[k + 1] - cut.places[k]) / cut.lengths[k]
        here, there = (tuple(ratio * (first + share * (last - first))) for share in shares)
        yield SpreadOnMember(name, here, cut.along(low, k), cut.along(high, k), there)
