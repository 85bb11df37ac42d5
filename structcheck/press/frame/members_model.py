"""Nodes and members as described, turned into a frame for the analysis; the jack pushes two of them apart."""

import math
from collections.abc import Hashable, Iterator, Mapping, Sequence
from functools import cached_property
from math import inf

import numpy as np

from structcheck.analysis.frame import Frame, Joint, Member, NodeLoad, PointOnMember, SpreadOnMember, Spring, Support
from structcheck.analysis.frame_arrays import cross
from structcheck.analysis.frame_model import Load
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption
from structcheck.press.frame.members_faults import Places, faults, misplaced
from structcheck.press.frame.off_centre import OTHER_JACK, SIDES, Offsets, Position, Push, offsets
from structcheck.press.frame.understood import E, G, Part, part
from structcheck.press.frame_schema import ONE_PIECE, FrameLoadTable, FrameTables, MemberTable, PushTable
from structcheck.press.schema import Jack
from structcheck.record import record
from structcheck.shapes.section import Section

MOST_UNKNOWN = 12
"""Ends of unknown stiffness that are tried one by one."""
ALL_LOOSE = "all unknown joints loose"
JACK_ALONE = "the jack alone"
"""Its push in the middle without the user's own loads: what finds the opening by kinds."""


@record
class Spot:
    """Where a push stands: a node, or a place on a member, mm from its start."""

    name: str
    xyz: np.ndarray
    at: float | None = None

    def __str__(self) -> str:
        return self.name if self.at is None else f"{self.name} at {self.at:g} mm"


@record(eq=False)
class Model:
    """The frame as described; two are the same where what is solved under one newton is.

    lengths  of members between their nodes, mm
    held     length between the nodes where something holds a member sideways: those in line with it together
    pushes   share of the force of all jacks, where the jack stands and where the work bears
    loads    of each position for 1 N of all jacks, and of the jack alone where the user's own loads stand beside it
    rated    force of all jacks, N
    """

    tables: FrameTables
    parts: Mapping[str, Part]
    lengths: Mapping[str, float]
    held: Mapping[str, float]
    pushes: tuple[tuple[float, Spot, Spot], ...]
    positions: tuple[Position, ...]
    loads: Mapping[str, Sequence[Load]]
    rated: float

    @cached_property
    def solved_from(self) -> tuple[Hashable, ...]:
        """All that forces and movements under one newton rest on."""
        t = self.tables
        tables = (tuple(rows) for rows in (t.node, t.member, t.support, t.link, t.mass))
        loads = tuple((name, tuple(loads)) for name, loads in self.loads.items())
        return *tables, tuple(self.parts.items()), loads, self.positions

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Model) and self.solved_from == other.solved_from

    def __hash__(self) -> int:
        return hash(self.solved_from)


def model_of(
    tables: FrameTables, jack: Jack, rated: float, sections: tuple[Section, ...], assumptions: list[Assumption]
) -> tuple[Model, Offsets]:
    """The model of a description, and how far off centre it is loaded. Raises InputError with every fault."""
    places = {row.name: (row.x, row.y, row.z) for row in tables.node}
    problems = [*faults(tables, places), *misplaced(tables, places)]
    if problems:
        raise InputError(problems)
    parts = {row.name: part(row.name, row, sections, assumptions) for row in tables.member}
    lengths = {row.name: _distance(places[row.start], places[row.end]) for row in tables.member}
    shares = _shares(tables.push, jack)
    pushes = tuple(
        (share, _spot(tables, places, row.start, row.start_at), _spot(tables, places, row.end, row.end_at))
        for row, share in zip(tables.push, shares, strict=True)
    )
    _apart(pushes)
    span = max((_distance(a, b) for a in places.values() for b in places.values()), default=0.0)
    off = offsets(jack, tables.frame, span)
    found = _positions(off, shares if jack.count > 1 else [1.0])
    own = [load for row in tables.load for load in _own_load(row, places, lengths, rated)]
    pushed = dict(zip((position.name for position in found), _pushed(tables, places, pushes, found), strict=True))
    loads = {name: [*jacks, *own] for name, jacks in pushed.items()}
    if own:
        loads[JACK_ALONE] = pushed[found[0].name]
    assumptions += _middles(tables)
    held = held_lengths(tables, places, lengths)
    return Model(tables, parts, lengths, held, pushes, found, loads, rated), off


def _distance(a: Sequence[float], b: Sequence[float]) -> float:
    return math.dist(a, b)


def _axis(tables: FrameTables, places: Places, member: str) -> np.ndarray:
    row = next(row for row in tables.member if row.name == member)
    return np.subtract(places[row.end], places[row.start]) / _distance(places[row.start], places[row.end])


def _spot(tables: FrameTables, places: Places, name: str, at: float | None) -> Spot:
    if name in places:
        return Spot(name, np.array(places[name], dtype=float))
    row = next(row for row in tables.member if row.name == name)
    start, end = np.array(places[row.start], dtype=float), np.array(places[row.end], dtype=float)
    length = float(np.linalg.norm(end - start))
    at = length / 2 if at is None else at
    return Spot(name, start + at / length * (end - start), at)


def _middles(tables: FrameTables) -> Iterator[Assumption]:
    """Places on members that nobody stated."""
    members = {row.name for row in tables.member}
    spots = [(row.start, row.start_at, "the jack") for row in tables.push]
    spots += [(row.end, row.end_at, "the work") for row in tables.push]
    spots += [(row.on, row.at, "a load") for row in tables.load if row.load.of != "spread"]
    for name, at, what in spots:
        if name in members and at is None:
            yield Assumption(name, f"where {what} stands on it is not stated: in the middle")


def _shares(rows: Sequence[PushTable], jack: Jack) -> list[float]:
    """What each push takes of the force of all jacks. Raises InputError where that is not all of it."""
    if jack.count not in (1, len(rows)):
        wanted = f"one [[push]] for each of the {jack.count} jacks"
        raise InputError(Problem("push", f"{len(rows)}", "do not match the count of the jacks", wanted, "[[push]]"))
    unsaid = [row for row in rows if row.share is None]
    left = 1.0 - sum(row.share or 0.0 for row in rows)
    if abs(left) > 1e-6 and (left < 0 or not unsaid):
        given, wanted = f"{1 - left:g} together", "shares that add up to 1"
        raise InputError(Problem("share", given, "is not the whole force", wanted, "share = 0.5", "push"))
    return [left / len(unsaid) if row.share is None else row.share for row in rows]


def _apart(pushes: Sequence[tuple[float, Spot, Spot]]) -> None:
    """Raise InputError for a push from a place to itself."""
    for _, start, end in pushes:
        if not _distance(start.xyz, end.xyz):
            fault = "is at the place of the start"
            raise InputError(Problem("end", f'"{end}"', fault, "two places apart", part="push"))


def _positions(off: Offsets, shares: Sequence[float]) -> tuple[Position, ...]:
    """Even and uneven, and each jack alone where there are several; all off centre alike.

    A push of a position stands for each jack, or for all of them together where they cannot work unevenly.
    """

    def position(name: str, parts: Sequence[float], x: float = 0.0, y: float = 0.0, central: bool = True) -> Position:
        pushes = tuple(Push(part, x, y) for part in parts)
        return Position(name, pushes, pushes, central=central)

    found = [position("", shares)]
    for number in range(len(shares) if len(shares) > 1 else 0):
        leads = [share if k == number else share * OTHER_JACK for k, share in enumerate(shares)]
        alone = [share if k == number else 0.0 for k, share in enumerate(shares)]
        found += [position(f"uneven, jack {number + 1} leads", leads), position(f"jack {number + 1} alone", alone)]
    for side, (right, back) in SIDES.items():
        x, y = right * off.plane, back * off.across
        if x or y:
            found.append(position(f"off centre in line, {side}", shares, x, y, central=False))
    return tuple(found)


def at_work(pushes: Sequence[tuple[float, Spot, Spot]], position: Position) -> list[float]:
    """What each push takes in a position, of the force of all jacks."""
    if len(position.head) == len(pushes):
        return [push.share for push in position.head]
    return [share * position.head[0].share for share, *_ in pushes]


Line = tuple[np.ndarray, np.ndarray, np.ndarray]
"""The way the jack pushes the work, and square to it where an offset in the plane goes and one across: unit vectors."""


def line_of(start: Spot, end: Spot) -> Line:
    """The line of a push; an offset in the plane is counted to the right, or up where the jack pushes sideways."""
    way = (end.xyz - start.xyz) / _distance(start.xyz, end.xyz)
    along = np.array([1.0, 0.0, 0.0]) if abs(way[0]) < 0.9 else np.array([0.0, 0.0, 1.0])
    along = along - way * (along @ way)
    along /= math.sqrt(along @ along)
    return way, along, cross(way, along)


def off_line(line: Line, position: Position) -> np.ndarray:
    """How far off its line a jack pushes in a position, mm."""
    push, (_, along, across) = position.head[0], line
    return push.x * along + push.y * across


def _pushed(
    tables: FrameTables, places: Places, pushes: Sequence[tuple[float, Spot, Spot]], positions: Sequence[Position]
) -> Iterator[list[Load]]:
    """For each position: each jack pushes two places apart, along a line moved by the offset.

    On a member the place moves with it as far as it runs along the member; what is left is a moment there.
    """
    lines = [line_of(start, end) for _, start, end in pushes]
    on = {spot.name for _, *ends in pushes for spot in ends if spot.at is not None}
    axes = {name: _axis(tables, places, name) for name in on}
    for position in positions:
        found: list[Load] = []
        for share, (_, start, end), line in zip(at_work(pushes, position), pushes, lines, strict=True):
            off = off_line(line, position)
            for spot, force in ((end, share * line[0]), (start, -share * line[0])):
                vector = tuple(force.tolist())
                if spot.at is None:
                    found.append(NodeLoad(spot.name, vector, tuple(cross(off, force).tolist())))
                    continue
                axis = axes[spot.name]
                shift = float(off @ axis)
                turn = cross(off - shift * axis, force)
                found.append(
                    PointOnMember(spot.name, _on_member(tables, places, spot, shift), vector, tuple(turn.tolist()))
                )
        yield found


def _on_member(tables: FrameTables, places: Places, spot: Spot, shift: float) -> float:
    """The place moved along its member. Raises InputError where that leads off it."""
    row = next(row for row in tables.member if row.name == spot.name)
    length, at = _distance(places[row.start], places[row.end]), (spot.at or 0.0) + shift
    if not -1e-9 <= at <= length + 1e-9:
        fault = f'moves the force off the end of member "{spot.name}"'
        wanted = "a smaller offset, or a longer member"
        raise InputError(Problem("offset", f"{abs(shift):g} mm", fault, wanted, 'offset = "10 mm"', "jack"))
    return min(max(at, 0.0), length)


def _own_load(row: FrameLoadTable, places: Places, lengths: Mapping[str, float], rated: float) -> list[Load]:
    """A load of the user's for 1 N of all jacks."""
    way = np.zeros(3)
    way["xyz".index(row.way[-1])] = -1.0 if row.way[0] == "-" else 1.0
    size = row.load.value if row.load.of == "jack" else row.load.value / rated
    if row.on in places:
        return [NodeLoad(row.on, tuple(size * way))]
    if row.load.of == "spread":
        return [SpreadOnMember(row.on, tuple(size * way))]
    length = lengths[row.on]
    middle = length / 2 if row.at is None else row.at
    first, last = max(0.0, middle - row.over / 2), min(length, middle + row.over / 2)
    if last <= first:
        return [PointOnMember(row.on, middle, tuple(size * way))]
    return [SpreadOnMember(row.on, tuple(size / (last - first) * way), first, last)]


def own_torques(model: Model, member: str) -> dict[str, tuple[tuple[float, float], ...]]:
    """Position -> the torques that stand on a member for 1 N of all jacks, and where, mm from its start."""
    axis = _axis(model.tables, {row.name: (row.x, row.y, row.z) for row in model.tables.node}, member)
    found = {}
    for position in model.positions:
        torques = tuple(
            (float(np.dot(load.moment, axis)), load.at)
            for load in model.loads[position.name]
            if isinstance(load, PointOnMember) and load.member == member
        )
        kept = tuple((turn, at) for turn, at in torques if abs(turn) > 1e-9)
        if kept:
            found[position.name] = kept
    return found


def held_lengths(tables: FrameTables, places: Places, lengths: Mapping[str, float]) -> dict[str, float]:
    """Length of each member with those in line with it, where at their common node nothing else holds them."""
    held = {row.node for row in tables.support} | {end for row in tables.link for end in (row.start, row.end)}
    chain = {row.name: {row.name} for row in tables.member}
    for node in places:
        here = [row for row in tables.member if node in (row.start, row.end)]
        if len(here) != 2 or node in held:
            continue
        first, second = (_axis(tables, places, row.name) for row in here)
        if abs(first @ second) > 0.999:
            whole = chain[here[0].name] | chain[here[1].name]
            chain |= dict.fromkeys(whole, whole)
    return {name: sum(lengths[one] for one in whole) for name, whole in chain.items()}


def joint_states(rows: Sequence[MemberTable]) -> list[tuple[str, dict[tuple[str, str], float]]]:
    """Name of the state, and the stiffness of every end that is not rigid."""
    ends = {(row.name, end): getattr(row, f"at_{end}") for row in rows for end in ("start", "end")}
    loose = {end: how for end, how in ends.items() if how not in ("rigid", "unknown", ONE_PIECE)}
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
    found.append((ALL_LOOSE, stated | dict.fromkeys(unknown, 0.0)))
    return found


def frame_of(model: Model, joints: Mapping[tuple[str, str], float]) -> Frame:
    """The frame for the analysis; ends not in `joints` are rigid."""
    tables = model.tables

    def joint(member: MemberTable, end: str) -> Joint:
        how = joints.get((member.name, end), inf)
        # Stated in the plane of strong bending; a pin lets go of both, so that no hidden stiffness is counted on.
        return Joint(ry=how, rz=0.0 if how == 0.0 else inf, offset=getattr(member, f"zone_{end}"))

    members = []
    for row in tables.member:
        p = model.parts[row.name]
        ends = {"at_start": joint(row, "start"), "at_end": joint(row, "end")}
        figures = {"A": p.A, "Iy": p.I_plane, "Iz": p.I_across, "J": p.J, "Asy": p.As_across, "Asz": p.As_plane}
        members.append(Member(row.name, row.start, row.end, E=E, G=G, **figures, **ends))
    supports = [Support(row.node, row.held, row.springs.stated() if row.springs else {}) for row in tables.support]
    links = [Spring(row.name, row.start, row.end, row.springs.stated()) for row in tables.link]
    return Frame({row.name: (row.x, row.y, row.z) for row in tables.node}, members, supports, links)
