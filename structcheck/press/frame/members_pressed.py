"""Where jack and work press on members of a free frame: force, and the moment the member has there."""

import math
from collections.abc import Iterator
from dataclasses import field
from functools import partial

import numpy as np

from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Finding, Outcome, not_checked
from structcheck.press.frame.envelope import Level, case_of, governing
from structcheck.press.frame.members_model import Spot, at_work, line_of, off_line
from structcheck.press.frame.members_solved import SolvedMembers
from structcheck.press.frame.order import Order, largest_moment
from structcheck.press.frame.places import FAR
from structcheck.press.frame.words import PlaceForce
from structcheck.press.schema import Jack
from structcheck.record import record

SQUARE = 0.5
"""Degrees a push may lean before it is told; half a millimetre under a foot of 60."""
STRAIGHT = 0.98
"""Cosine to which a push counts as square to a member."""
M_Y = 4


def clear_opening(found: SolvedMembers, jack: Jack) -> float | None:
    """The least clear distance between the faces a jack pushes apart, mm; None where one of them is not known.

    Raises InputError where the jack cannot stand there: between nodes by the distance of the nodes.
    """
    rooms, known = [], True
    for _, start, end in found.model.pushes:
        line = end.xyz - start.xyz
        room = float(np.linalg.norm(line))
        for spot, way in ((start, line), (end, -line)):
            if _unable(found, spot, line, "", ""):
                known = False
                continue
            part = found.model.parts[spot.name]
            room -= part.high if _axes(found, spot)[2] @ way > 0 else part.low
        if room <= 0:
            fault = "has nothing between it and what it pushes against"
            raise InputError(Problem("end", f'"{end}"', fault, f"room for the jack above {start}", part="push"))
        if jack.stroke is not None and jack.stroke > room:
            given, wanted = f"{jack.stroke:g} mm", f"at most {room:g} mm, between {start} and {end}"
            fault = "is longer than the opening the jack stands in"
            raise InputError(Problem("stroke", given, fault, wanted, part="jack"))
        rooms.append(room)
    return min(rooms) if known else None


@record
class PressedMembers:
    """Forces pressed into members by "member/load", and what cannot be judged of the others."""

    forces: dict[str, tuple[PlaceForce, ...]] = field(default_factory=dict)
    outcome: Outcome = field(default_factory=Outcome)


def pressed_members(found: SolvedMembers, order: Order) -> PressedMembers:
    """Every place the jack pushes against, in every case."""
    forces: dict[str, tuple[PlaceForce, ...]] = {}
    findings: list[Finding] = []
    leaning: list[Assumption] = []
    for number, (_, start, end) in enumerate(found.model.pushes):
        for spot, key, what in ((start, "start", "the jack"), (end, "end", "the work")):
            reason = _unable(found, spot, end.xyz - start.xyz, key, what)
            if reason:
                findings.append(not_checked(spot.name, "web under load", reason))
                continue
            leaning += _leaning(found, spot, end.xyz - start.xyz, what)
            rows = tuple(_rows(found, order, number, spot))
            forces[f"{spot.name}/load"] = forces.get(f"{spot.name}/load", ()) + rows
    return PressedMembers(forces, Outcome(tuple(findings), assumptions=tuple(leaning)))


def _unable(found: SolvedMembers, spot: Spot, line: np.ndarray, key: str, what: str) -> str:
    """Why what is pressed there cannot be judged, if it cannot."""
    if spot.at is None:
        return f"{what} pushes on a node: name the member it presses in [[push]] {key}, and the place in {key}_at"
    way = line / np.linalg.norm(line)
    if abs(way @ _axes(found, spot)[2]) < STRAIGHT:
        return f"{what} pushes slantwise, or on the side of the member: no method here for what it presses"
    return ""


def _leaning(found: SolvedMembers, spot: Spot, line: np.ndarray, what: str) -> list[Assumption]:
    """A condition where a push is not square to what it presses: flat feet and saddles would tip, rams be bent."""
    off = math.degrees(math.acos(min(1.0, abs(line @ _axes(found, spot)[2]) / float(np.linalg.norm(line)))))
    if off <= SQUARE:
        return []
    text = f"{what} pushes {off:.1f} degrees off square to {spot.name}"
    return [Assumption(spot.name, text, f"{text}: a seat cut to that keeps it from slipping and tipping")]


def _axes(found: SolvedMembers, spot: Spot) -> np.ndarray:
    structure = found.lines.result.structure
    return structure.axes[structure.member_index[spot.name]]


def _rows(found: SolvedMembers, order: Order, push: int, spot: Spot) -> Iterator[PlaceForce]:
    """The forces pressing at a spot that can govern."""
    length, straight = found.model.lengths[spot.name], not any(order.bent.values())
    is_end = spot is found.model.pushes[push][2]
    for level in found.levels:
        find = partial(_outdone_by_none, found, order, push, spot, level)
        asked = "pressed", push, is_end, level.central_only, found.own.each
        for number, share, x, across, M in found.once(asked, find) if straight else find():
            if share > 0:
                case = case_of(level, found.combined[number])
                where = (x - length / 2, across, abs(M) * level.force)
                yield PlaceForce(case, share * level.force, *where, pulled=M > 0)


def _outdone_by_none(
    found: SolvedMembers, order: Order, push: int, spot: Spot, level: Level
) -> list[tuple[int, float, float, float, float]]:
    """What no other outdoes: in force, way off the plane, moment of either sense, and how near an end it stands.

    Combination, share of the force, place along the member and off its plane, and moment there for one newton.
    """
    taken = {p.name: at_work(found.model.pushes, p)[push] for p in found.model.positions}
    length = found.model.lengths[spot.name]
    beam = found.model.parts[spot.name]
    room = FAR * max(beam.depth, float(beam.section.dimensions.get("h", 0.0)))
    is_end = spot is found.model.pushes[push][2]
    spots, moments = found.once(("pressed at", push, is_end), partial(_pressed_at, found, push, spot))
    rows = []
    for number, combination in enumerate(found.combined):
        if level.central_only and not combination.position.central:
            continue
        x, across = spots[combination.position.name]
        moment = moments[number]
        size = max([abs(moment), *_bent(order, spot.name, x, number, level.limit, level.force)])
        size += found.own.moment(combination.state, spot.name)
        rows.append((number, taken[combination.position.name], x, across, math.copysign(size, moment)))
    values = np.array([(F, abs(across), M, max(0.0, room - min(x, length - x))) for _, F, x, across, M in rows])
    return [rows[kept] for kept in governing(values, signed=(2,))]


def _pressed_at(found: SolvedMembers, push: int, spot: Spot) -> tuple[dict[str, tuple[float, float]], list[float]]:
    """Position -> place along the member and off its plane; and the moment there in every combination, for one newton.

    The moment is the larger of both sides, positive where it pulls the side that is pressed.
    """
    _, start, end = found.model.pushes[push]
    axes, line, spots = _axes(found, spot), line_of(start, end), {}
    for position in found.model.positions:
        off = off_line(line, position)
        spots[position.name] = (spot.at or 0.0) + float(off @ axes[0]), float(off @ axes[1])
    # What pushes towards +z presses the side of -z, which a positive moment pulls.
    sign = (1.0 if spot is end else -1.0) * float(np.sign(line[0] @ axes[2]))
    number = {name: row for row, name in enumerate(spots)}
    left, right = found.lines.around(M_Y, spot.name, np.array([x for x, _ in spots.values()]))
    moments = sign * np.where(np.abs(left) > np.abs(right), left, right)
    return spots, moments[[number[c.position.name] for c in found.combined], range(len(found.combined))].tolist()


def _bent(order: Order, member: str, x: float, number: int, limit: str, force: float) -> list[float]:
    """The moment of second order per N of the level, where it is needed."""
    result = order.bent[limit].get(number)
    if result is None:
        return []
    return [largest_moment(result, member, x) / force]
