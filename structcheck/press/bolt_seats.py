"""Bolts at a corner held to the member they lie on: what they claim of its width, walls and steel must be there.

In the frame's plane the plate of a group is the upright ("along" the force) or the beam ("across" it), unless it is
stated as a gusset. A member ends where its section ends, so that an edge beyond it is none.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from structcheck.checks.bolts_group import EAST, NORTH, SOUTH, WEST, BoltGroup
from structcheck.checks.member_corrosion import corroded
from structcheck.checks.member_forms import form
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Outcome
from structcheck.press import schema
from structcheck.press.frame.words import FrameAnswer, FramePart
from structcheck.press.meetings import is_turned, upright_at
from structcheck.press.setting import Setting, steel_of
from structcheck.record import record

TUBES = ("hollow", "tube", "box")
ROUNDED = 0.1
"""mm by which edges that are written down rounded may pass the section's."""


@record
class Seat:
    """A member that may be the plate of a group.

    runs  "along": the upright, which reaches across the force; "across": the beam
    name  of the member
    part  the member
    """

    runs: str
    name: str
    part: FramePart

    @property
    def turned(self) -> bool:
        """Its depth lies across the frame."""
        return is_turned(self.part)

    @property
    def ends(self) -> tuple[float, float]:
        """Its edges in the frame's plane, from its centre-line."""
        edges = self.part.section.edges
        return edges[:2] if self.turned else edges[2:]

    @property
    def width(self) -> float:
        """From edge to edge in the frame's plane."""
        return self.ends[1] - self.ends[0]

    @property
    def text(self) -> str:
        """The member in words."""
        pieces = f"{self.part.pieces} x " if self.part.pieces > 1 else ""
        return f"the {self.name} ({pieces}{self.part.section.designation})"

    def walls(self, level: float) -> float:
        """All that a bolt at this distance from the middle goes through, rust taken off, mm."""
        section = corroded(self.part.section, getattr(self.part.table, "corrosion", 0.0))
        middle = sum(self.ends) / 2
        _, width = section.shape.cut("z" if self.turned else "y", middle + level)
        return float(width) * self.part.pieces

    @property
    def inside(self) -> float:
        """Clear width across the frame between the walls of a tube, mm."""
        edges = self.part.section.edges
        across = edges[3] - edges[2] if self.turned else edges[1] - edges[0]
        return across - 2 * self.wall()

    def wall(self) -> float:
        """The thinnest single wall that a bolt goes through, rust taken off, mm."""
        section = corroded(self.part.section, getattr(self.part.table, "corrosion", 0.0))
        if form(section) == "tube":
            return float(section.shape.t)
        axis = 0 if self.turned else 1
        along = [e.t for e in section.elements if abs(e.end[axis] - e.start[axis]) > e.c / 2]
        return float(min(along, default=0.0)) or self.walls(0.0) / self.part.pieces

    def flats(self) -> list[tuple[float, float]]:
        """Strips on which a head sits flat, from the middle, between roots or rounded corners; empty where unknown."""
        shape = form(self.part.section)
        if shape == "hollow":
            flat = self.width / 2 - self.part.section.shape.ro
            return [(-flat, flat)]
        if shape not in ("i", "channel", "angle"):
            return []
        axis, middle = 0 if self.turned else 1, sum(self.ends) / 2
        spans = [sorted((e.start[axis] - middle, e.end[axis] - middle)) for e in self.part.section.elements]
        along = zip(spans, self.part.section.elements, strict=True)
        return [(low, high) for (low, high), e in along if high - low > e.c / 2]


def seated(
    table: schema.BoltsTable, group: BoltGroup, answer: FrameAnswer, setting: Setting
) -> tuple[BoltGroup, Outcome]:
    """The group with what its member says of it, and what rests on that.

    Raises InputError where the group cannot lie on any member that may be its plate.
    """
    if table.joint == "end plate":
        return group, _behind_end_plate(table, group, answer, setting)
    if table.gusset:
        text = "its plate is a gusset: it is compared with no member, whose own bolts want a table of their own"
        return group, Outcome(assumptions=(Assumption(table.name, text),))
    outcome, thinnest = Outcome(), []
    for seats in seats_at(table, answer):
        if not seats:
            text = "the member that its plate is part of is not described here: plate and edges are taken as stated"
            outcome += Outcome(assumptions=(Assumption(table.name, text),))
            continue
        own, found = _on_members(table, group, seats, setting)
        outcome += found
        for seat in own:
            outcome += _spanner(table, group, seat)
        thinnest += [seat.wall() for seat in own if len(own) == 1]
    if group.ply is None and thinnest and min(thinnest) < group.plate - ROUNDED:
        text = f"the thinnest plate under a head or nut is the {min(thinnest):.4g} mm of its member"
        outcome += Outcome(assumptions=(Assumption(table.name, text),))
        group = replace(group, ply=min(thinnest))
    return group, replace(outcome, assumptions=tuple(dict.fromkeys(outcome.assumptions)))


def seats_at(table: schema.BoltsTable, answer: FrameAnswer) -> list[list[Seat]]:
    """The members that may be the plate, once for each pair of sections that meet."""
    return [[s for s in seats if table.plate_runs in (None, s.runs)] for seats in both_seats_at(table, answer)]


def both_seats_at(table: schema.BoltsTable, answer: FrameAnswer) -> list[list[Seat]]:
    """The upright and the beam, as far as the frame has them, once for each pair of sections that meet."""
    asked = "seats", table.at
    if asked not in answer.memo:
        answer.memo[asked] = _seats(table.at or (), answer)
    return answer.memo[asked]


def _seats(places: Sequence[str], answer: FrameAnswer) -> list[list[Seat]]:
    kept: dict[object, list[Seat]] = {}
    for place in places:
        named = (("along", upright_at(place)), ("across", place.split("/")[0]))
        seats = [Seat(runs, one, answer.members[one]) for runs, one in named if one in answer.members]
        kept.setdefault(tuple((s.part.section, s.part.steel, s.part.pieces, s.turned) for s in seats), seats)
    return list(kept.values())


def _on_members(
    table: schema.BoltsTable, group: BoltGroup, seats: Sequence[Seat], setting: Setting
) -> tuple[list[Seat], Outcome]:
    """The members that the group can lie on, and conditions where it is not like them."""
    faults = {seat.runs: _faults(table, group, seat) for seat in seats}
    fit = [seat for seat in seats if not faults[seat.runs]]
    if not fit and (table.plate_runs or len(seats) == 2):
        raise InputError(problem for seat in seats for problem in faults[seat.runs])
    unlike = {seat.runs: _unlike(table, group, seat, setting) for seat in fit}
    own = [seat for seat in fit if not unlike[seat.runs]]
    if not fit:
        condition = f"the plate of {table.name} is not {seats[0].text}, which has no room for it"
        return [], _conditional(table, condition)
    if own:
        if len(own) == len(seats):
            return own, Outcome()
        return own, _conditional(
            table, f'the plate of {table.name} is {own[0].text}; say so by plate_runs = "{own[0].runs}"'
        )
    conditions = [f"{table.name}: {text}" for seat in fit for text in unlike[seat.runs]]
    outcome = Outcome()
    for condition in conditions:
        outcome += _conditional(table, condition)
    return fit, outcome


def _conditional(table: schema.BoltsTable, condition: str) -> Outcome:
    return Outcome(assumptions=(Assumption(table.name, condition, condition),))


def _faults(table: schema.BoltsTable, group: BoltGroup, seat: Seat) -> list[Problem]:
    """Why the group cannot lie on a member: holes, edges or heads where there is none of it."""
    axis, key = (0, "gauge") if seat.runs == "along" else (1, "pitch")
    spots = group.positions[:, axis]
    reach = float(spots.max() - spots.min())
    key = "layout" if table.layout is not None else key if reach else "hole"
    where, hole = seat.text, group.hole_size(axis == 1)
    if reach + hole >= seat.width:
        fault = f"puts holes {reach + hole:.4g} mm over all on {where}, {seat.width:.4g} mm wide"
        return [Problem(key, "", fault, "bolts that fit on the member, or gusset = true for a plate of its own")]
    return _edges_beyond(group, seat, reach) or _heads_off_flat(group, seat, key)


def _levels(group: BoltGroup, seat: Seat) -> np.ndarray:
    """Of each bolt from the middle of the member: by the edges where they fill it, else the group in the middle."""
    spots = group.positions[:, 0 if seat.runs == "along" else 1]
    low, high = (WEST, EAST) if seat.runs == "along" else (SOUTH, NORTH)
    before, beyond = group.outline[low], group.outline[high]
    if before is not None and beyond is not None and before + beyond > seat.width - ROUNDED:
        return spots - (beyond - before) / 2
    return spots - (spots.max() + spots.min()) / 2


def _heads_off_flat(group: BoltGroup, seat: Seat, key: str) -> list[Problem]:
    """Heads or nuts that would stand on a root or a rounded corner."""
    half, flats = group.size.e_min / 2, seat.flats()
    off = _off_flat(group, seat, half)
    if not off:
        return []
    fault = f"puts a head of {group.size.name} on a root, rounded corner or edge of {seat.text}"
    strips = " and ".join(f"{low:.4g} to {high:.4g}" for low, high in sorted(set(flats)))
    wanted = f"bolts {half:.3g} mm and more inside its flat, which lies {strips} mm from its middle"
    return [Problem(key, f"{off[0]:.4g} mm from the middle", fault, wanted)]


def _off_flat(group: BoltGroup, seat: Seat, half: float) -> list[float]:
    """Bolts about which a circle of this radius does not lie on a flat, by their distance from the middle."""
    flats = [(low - ROUNDED + half, high + ROUNDED - half) for low, high in seat.flats()]
    levels = _levels(group, seat).tolist() if flats else []
    return [level for level in levels if not any(low <= level <= high for low, high in flats)]


def _spanner(table: schema.BoltsTable, group: BoltGroup, seat: Seat) -> Outcome:
    """Advice where a socket stands on the root beside a head that clears it; outside a tube nothing is in its way."""
    half = 0.75 * group.size.s_min
    if form(seat.part.section) in TUBES or not _off_flat(group, seat, half):
        return Outcome()
    text = (
        f"{table.name}: a socket on {group.size.name} wants some {half:.0f} mm from the bolt to the root of {seat.text}"
    )
    return Outcome(advice=(text,))


def _edges_beyond(group: BoltGroup, seat: Seat, reach: float) -> list[Problem]:
    """Edges that lie off the member."""
    (low, high), near, far = (
        ((WEST, EAST), "edge", "far_edge") if seat.runs == "along" else ((SOUTH, NORTH), "end", "far_end")
    )
    if group.outline[high] is None or group.outline[low] is None:
        return []
    claimed = group.outline[low] + group.outline[high]
    if claimed <= seat.width + ROUNDED:
        return []
    stated, other = getattr(group, near), getattr(group, far)
    beside = f"{far} {other:g} mm" if other is not None else f"as much on the other side ({far} is not stated)"
    fault = f"and {beside} make a plate {claimed:.4g} mm wide; {seat.text} is {seat.width:.4g} mm"
    even = (seat.width - reach) / 2
    wanted = f"edges that are there ({even:.4g} mm on both sides, or each its own), or gusset = true"
    return [Problem(near, f"{stated:g} mm", fault, wanted, f'{near} = "{even:.4g} mm"')]


def _unlike(table: schema.BoltsTable, group: BoltGroup, seat: Seat, setting: Setting) -> list[str]:
    """What the table says of its plate and the member does not have."""
    one_only = group.planes == 1 and form(seat.part.section) in TUBES  # the far wall bears little on a bolt so bent
    walls, wall = min(seat.walls(level) for level in set(_levels(group, seat).tolist())), seat.wall()
    texts = []
    walls = wall if one_only else walls
    if group.plate > walls + ROUNDED:
        texts.append(f"the plate is the {group.plate:g} mm stated, though {seat.text} has {walls:.4g} mm to bear on")
    if group.ply is not None and group.ply > wall + ROUNDED:
        texts.append(f"every ply is the {group.ply:g} mm stated, though a wall of {seat.text} has {wall:.4g} mm")
    own, others = steel_of(seat.part.steel, setting, seat.part.section.route), group.steel
    if own.name != others.name and _stronger(group, own):
        texts.append(f"the plate is of {others.name}, though {seat.text} is of {own.name}")
    return texts


def _stronger(group: BoltGroup, own: object) -> bool:
    try:
        pairs = zip(group.steel.strengths(group.thinnest), own.strengths(group.thinnest), strict=True)
        return any(taken > there for taken, there in pairs)
    except NotCovered:
        return True


def _behind_end_plate(table: schema.BoltsTable, group: BoltGroup, answer: FrameAnswer, setting: Setting) -> Outcome:
    """A condition on what an end plate is bolted to, which a group of bolts says nothing of."""
    outcome = Outcome()
    press = setting.press
    judged = {place for other in (press.end_plate if press else ()) for place in other.at or ()}
    for place in table.at or ():
        upright = answer.members.get(upright_at(place))
        if place in judged:
            continue
        if upright is None:  # a frame of members does not tell which of them is behind
            outcome += _conditional(table, f"what {table.name} are bolted to bears what they put on it")
            continue
        edges = upright.section.edges
        face = edges[3] - edges[2] if is_turned(upright) else edges[1] - edges[0]
        spots = group.positions[:, 0]
        over = float(spots.max() - spots.min()) + group.hole_size(False)
        name = upright.section.designation
        condition = (
            f"the upright's face behind {table.name} bears what its bolts put on it; judge it by an [[end_plate]]"
        )
        if upright.pieces == 1 and over > face + ROUNDED:
            condition = (
                f"a plate wide enough stands on the upright behind {table.name}: its holes are {over:.4g} mm over all, "
                f"the face of {name} {face:.4g} mm"
            )
        outcome += _conditional(table, condition)
    return replace(outcome, assumptions=tuple(dict.fromkeys(outcome.assumptions)))
