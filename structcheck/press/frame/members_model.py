"""Nodes and members as described, turned into a frame for the analysis; the jack pushes two nodes apart."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import inf

import numpy as np

from structcheck.analysis.frame import Frame, Joint, Member, NodeLoad, Support
from structcheck.analysis.frame_model import DIRECTIONS, Load
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption
from structcheck.press.frame.off_centre import SIDES, Offsets, Position, Push, offsets
from structcheck.press.frame.understood import E, G, Part, part
from structcheck.press.frame_schema import FrameTables, MemberTable
from structcheck.press.schema import Jack
from structcheck.shapes.section import Section

MOST_UNKNOWN = 12
"""Ends of unknown stiffness that are tried one by one."""


@dataclass(frozen=True)
class Model:
    """The frame as described: parts, joints of every end, and the loads of each position for 1 N."""

    tables: FrameTables
    parts: Mapping[str, Part]
    lengths: Mapping[str, float]
    positions: tuple[Position, ...]
    loads: Mapping[str, Sequence[Load]]


def model_of(
    tables: FrameTables, jack: Jack, sections: tuple[Section, ...], assumptions: list[Assumption]
) -> tuple[Model, Offsets]:
    """The model of a description, and how far off centre it is loaded. Raises InputError with every fault."""
    places = {row.name: (row.x, row.y, row.z) for row in tables.node}
    problems = [*_faults(tables, places), *_misplaced(tables, jack, places)]
    if problems:
        raise InputError(problems)
    parts = {row.name: part(row.name, row, sections, assumptions) for row in tables.member}
    lengths = {row.name: _distance(places[row.start], places[row.end]) for row in tables.member}
    span = max((_distance(a, b) for a in places.values() for b in places.values()), default=0.0)
    off = offsets(jack, tables.frame, span)
    found = _positions(off)
    loads = {position.name: _loads(tables, places, position) for position in found}
    return Model(tables, parts, lengths, found, loads), off


def _faults(tables: FrameTables, places: Mapping[str, tuple]) -> Iterator[Problem]:
    for row in tables.member:
        yield from _unknown_nodes(f'member "{row.name}"', row, places)
    for row in tables.push:
        yield from _unknown_nodes("push", row, places)
    for kind in ("node", "member", "support", "push"):
        rows = getattr(tables, kind)
        if not rows:
            yield Problem(kind, "", "there are none", f"at least one [[{kind}]]", f"[[{kind}]]", "frame")
        names = [row.name for row in rows] if kind in ("node", "member") else []
        for name in sorted({name for name in names if names.count(name) > 1}):
            yield Problem("name", f'"{name}"', "is given twice", f"a name of its own for each {kind}")


def _misplaced(tables: FrameTables, jack: Jack, places: Mapping[str, tuple]) -> Iterator[Problem]:
    """Nodes at one place, supports that hold no direction there is, a jack longer than its nodes are apart."""
    taken: dict[tuple, str] = {}
    for name, place in places.items():
        if place in taken:
            where = ", ".join(f"{value:g}" for value in place)
            fault = f'is at the place of node "{taken[place]}"'
            yield Problem(
                "x, y, z", f"{where} mm", fault, "a place of its own, or one node for both", part=f'node "{name}"'
            )
        taken.setdefault(place, name)
    for row in tables.support:
        for way in row.holds.split():
            if way not in DIRECTIONS:
                wanted = f"some of {', '.join(DIRECTIONS)}, with spaces between"
                yield Problem(
                    "holds", f'"{way}"', "is no direction", wanted, 'holds = "x y z"', f'support at "{row.node}"'
                )
        if row.node not in places:
            yield Problem("node", f'"{row.node}"', "is no node", f"one of {', '.join(places)}", part="support")
    for push in tables.push:
        if push.start in places and push.end in places and jack.stroke is not None:
            room = _distance(places[push.start], places[push.end])
            if jack.stroke > room > 0:
                given, wanted = (
                    f"{jack.stroke:g} mm",
                    f"at most {room:g} mm, between its nodes {push.start} and {push.end}",
                )
                yield Problem("stroke", given, "is longer than the opening the jack stands in", wanted, part="jack")


def _unknown_nodes(place: str, row, places: Mapping[str, tuple]) -> list[Problem]:
    wanted = f"one of {', '.join(places)}"
    return [
        Problem(key, f'"{name}"', "is no node", wanted, part=place)
        for key, name in (("start", row.start), ("end", row.end))
        if name not in places
    ]


def _distance(a: Sequence[float], b: Sequence[float]) -> float:
    return float(np.linalg.norm(np.subtract(a, b)))


def _positions(off: Offsets) -> tuple[Position, ...]:
    found = [Position("", (Push(1.0),), (Push(1.0),), central=True)]
    for side, (right, back) in SIDES.items():
        x, y = right * off.plane, back * off.across
        if x or y:
            found.append(Position(f"off centre in line, {side}", (Push(1.0, x, y),), (Push(1.0, x, y),)))
    return tuple(found)


def _loads(tables: FrameTables, places: Mapping[str, tuple], position: Position) -> list[Load]:
    """Each jack pushes its two nodes apart, along a line moved by the offset: the force and its moment on both."""
    found: list[Load] = []
    push = position.head[0]
    for row in tables.push:
        line = np.subtract(places[row.end], places[row.start])
        size = float(np.linalg.norm(line))
        if not size:
            wanted = "two nodes apart"
            raise InputError(Problem("end", f'"{row.end}"', "is at the place of the start", wanted, part="push"))
        way = line / size
        along = np.array([1.0, 0.0, 0.0]) if abs(way[0]) < 0.9 else np.array([0.0, 0.0, 1.0])
        along = along - way * (along @ way)
        along /= np.linalg.norm(along)
        beside = push.x * along + push.y * np.cross(way, along)
        force, turn = row.share * way, row.share * np.cross(beside, way)
        found += [
            NodeLoad(row.end, tuple(force), tuple(turn)),
            NodeLoad(row.start, tuple(-force), tuple(-turn)),
        ]
    return found


def joint_states(rows: Sequence[MemberTable]) -> list[tuple[str, dict[tuple[str, str], float]]]:
    """Name of the state, and the stiffness of every end that is not rigid."""
    ends = {(row.name, end): getattr(row, f"at_{end}") for row in rows for end in ("start", "end")}
    loose = {end: how for end, how in ends.items() if how not in ("rigid", "unknown")}
    stated = {end: 0.0 if how == "pinned" else float(how) for end, how in loose.items()}
    unknown = [end for end, how in ends.items() if how == "unknown"]
    if not unknown:
        return [("joints as stated", stated)]
    if len(unknown) > MOST_UNKNOWN:
        given, wanted = f"{len(unknown)} ends", f"at most {MOST_UNKNOWN} not stated; at_start and at_end of the others"
        fault = "have joints of unknown stiffness"
        raise InputError(Problem("at_start", given, fault, wanted, 'at_start = "rigid"', "member"))
    found = [("rigid", stated)]
    found += [(f"{member}/{end} loose", stated | {(member, end): 0.0}) for member, end in unknown]
    found.append(("all unknown joints loose", stated | dict.fromkeys(unknown, 0.0)))
    return found


def frame_of(model: Model, joints: Mapping[tuple[str, str], float]) -> Frame:
    """The frame for the analysis; ends not in `joints` are rigid."""
    tables = model.tables

    def joint(member: str, end: str) -> Joint:
        how = joints.get((member, end), inf)
        # Stated in the plane of strong bending; a pin lets go of both, so that no hidden stiffness is counted on.
        return Joint(ry=how, rz=0.0 if how == 0.0 else inf)

    members = []
    for row in tables.member:
        p = model.parts[row.name]
        ends = {"at_start": joint(row.name, "start"), "at_end": joint(row.name, "end")}
        figures = {"A": p.A, "Iy": p.I_plane, "Iz": p.I_across, "J": p.J, "Asy": p.As_across, "Asz": p.As_plane}
        members.append(Member(row.name, row.start, row.end, E=E, G=G, **figures, **ends))
    supports = [Support(row.node, row.holds) for row in tables.support]
    return Frame({row.name: (row.x, row.y, row.z) for row in tables.node}, members, supports)
