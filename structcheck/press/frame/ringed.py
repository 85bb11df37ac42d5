"""A ring of two beams and two uprights, from its tables to the demands on its parts."""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import NamedTuple

import numpy as np

from structcheck.analysis.warping import Torque, Twist, twist
from structcheck.checks.basis import Case
from structcheck.checks.member_forms import closed as closed_section
from structcheck.checks.section_resistance import Station
from structcheck.findings import Assumption, Outcome
from structcheck.press.cases import Forces
from structcheck.press.frame import answers, closed, own_weight, stability
from structcheck.press.frame.drawing import draw
from structcheck.press.frame.envelope import (
    Combination,
    Sampled,
    case_of,
    cleaned,
    levelled,
    reduce,
    sample,
)
from structcheck.press.frame.gauges import gauges
from structcheck.press.frame.given import Given
from structcheck.press.frame.keeping import loose_things, retention
from structcheck.press.frame.off_centre import Offsets, offsets, on_stops, positions
from structcheck.press.frame.on_demand import OnDemand
from structcheck.press.frame.order import Analysed, Order, grown, order_of, said
from structcheck.press.frame.places import place_forces
from structcheck.press.frame.plates import plain
from structcheck.press.frame.racking import racking
from structcheck.press.frame.solving import Ringed, solve_ring
from structcheck.press.frame.understood import E, G, Part, Ring, fits, plate_section, ring
from structcheck.press.frame.words import EndForces, FrameAnswer, FramePart
from structcheck.press.frame_schema import FrameMember, FrameTables, Stops

JOINT_SIGNED = (0, 2, 4)
JOINT_WEIGHTS = np.array([1.0, 1.0, 1.0, 0.0, 0.0, 0.0])
JOINT_MINOR = 0.05
"""At a joint a force along the beam below a twentieth of the force across it is taken at its largest, pulling."""
TORSION = 3
_SIDES = np.array(["left", "right"])


def solved_ring(given: Given) -> tuple[FrameAnswer, Ringed]:
    """The demands of a closed frame, an H-frame or plates on posts, and the solved ring for those who draw it.

    Raises InputError.
    """
    tables = given.tables
    shape = ring(tables, given.jack, given.sections)
    off = offsets(given.jack, tables.frame, shape.span, tables.head.rolls)
    return answer_ring(shape, given, off, {"head": tables.head.over, "bed": tables.bed.over})


def answer_ring(shape: Ring, given: Given, off: Offsets, over: dict[str, float]) -> tuple[FrameAnswer, Ringed]:
    """A ring's answer, and the solved ring for those who look further."""
    tables, jack, forces = given.tables, given.jack, given.forces
    found, order, stand = _solved(shape, given, off, over)
    outcome = Outcome(assumptions=(*shape.assumptions, *off.assumptions, *_modelling(found, tables)))
    outcome += _stiffness(found, given, order)
    outcome += racking(tables, jack, off, forces, found.positions, found.states)
    outcome += retention(tables, loose_things(tables))
    outcome += stability.tipping(stand, tables.feet) + said(found, order, shape.one_piece)
    outcome += Outcome(assumptions=(own_weight.said(stand.mass, forces),))
    answer = FrameAnswer(
        stations=_stations(found, over, order) | _across(found, forces),
        ends={} if shape.one_piece else _ends(found, order, tables.stops),
        forces=place_forces(found, over, tables, order) | {"feet": stability.on_a_foot(shape, tables)},
        members=_members(shape, tables),
        off=off,
        needed=_needed(found.ring, tables),
        outcome=outcome,
        drawing=draw(shape, _said(shape, tables, off)),
        opening=shape.opening,
        stood_on=frozenset({tables.frame.jack_on}),
        clear=shape.span - shape.upright.depth,
    )
    return answer, found


def stations_of(
    shape: Ring, given: Given, off: Offsets, over: dict[str, float]
) -> tuple[dict[str, tuple[Station, ...]], Ringed]:
    """What the members of a ring carry and nothing else of its answer, and the solved ring."""
    found, order, _ = _solved(shape, given, off, over)
    return _stations(found, over, order), found


def _solved(shape: Ring, given: Given, off: Offsets, over: dict[str, float]) -> tuple[Ringed, Order, stability.Stand]:
    tables, jack, forces = given.tables, given.jack, given.forces
    places = positions(jack, tables.frame, tables.guides, off) + on_stops(tables.stops, tables.frame, off)
    fits(shape, tables, places)
    stand, spread = stability.ring_stand(shape, tables), (over["head"], over["bed"])
    masses = tuple(tables.mass) if own_weight.is_heavy(stand.mass, forces) else None
    below, _ = stability.floor_below(shape, tables.feet)
    found = solve_ring(shape, places, spread, tables.guides, forces, tuple(tables.dial), tables.stops, masses, below)
    return found, order_of(found, spread, tables.guides, tables.stops), stand


# ---- members ---------------------------------------------------------------------------------


def _stations(found: Ringed, over: dict[str, float], order: Order) -> dict[str, tuple[Station, ...]]:
    shape = found.ring
    members = [("head", shape.head, "{:.0f} mm from the left upright")]
    members += [("bed", shape.bed, "{:.0f} mm from the left upright")]
    for side in ("left", "right"):
        members.append((f"{side} upright", shape.upright, "{:.0f} mm above the bed's centre-line"))
        if shape.legs:
            members.append((f"{side} leg", shape.upright, "{:.0f} mm above the foot"))
    answer = {}
    for name, part, words in members:
        rows = found.once(("along", name), partial(_along, found, name, part, over.get(name, 0.0)))
        # What stands on an upright's inner face feels which way the upright is bent.
        signed = part.signed if name in ("head", "bed") else tuple(sorted({4, *part.signed}))
        make = _maker(found, name, part, words)
        answer[name] = tuple(
            station
            for levels, bent in grown(found, order, rows, name)
            for station in reduce(bent, found.combined, levels, make, signed, apart=TORSION)
        )
    return answer


def _along(found: Ringed, name: str, part: Part, over: float) -> Sampled:
    """Internal forces of a member for one newton."""
    rows = sample(found.base.lines, name, found.combined, found.factors, over, found.ring.span / 2)
    return replace(rows, values=levelled(rows.values, part.stress_of_unit))


def _maker(found: Ringed, name: str, part: Part, words: str):
    warps = name in ("head", "bed") and not closed_section(part.section)
    forces_at_level = {level.limit: level.force for level in found.levels}

    def make(combination: Combination, case: Case, place: float, forces: list[float]) -> Station:
        N, V_y, V_z, T, M_y, M_z = forces if part.shared == 1 else (part.shared * f for f in forces)
        if part.turned:
            V_y, V_z, M_y, M_z = V_z, V_y, M_z, M_y
        where = words.format(abs(place))
        if not (T and warps):
            return Station(case, where, N, V_y, V_z, T, M_y, M_z)
        level = forces_at_level[case.limit]
        half, pushes = found.ring.span / 2, getattr(combination.position, name)
        torques = [Torque(p.share * p.y, half + p.x) for p in pushes if p.y]
        find = partial(warped, part, found.ring.span, torques, place)
        turn = found.once(("warped", name, combination.position.name, place), find)
        if turn is None:
            return Station(case, where, N, V_y, V_z, T, M_y, M_z)
        return Station(case, where, N, V_y, V_z, level * turn.T_t, M_y, M_z, T_w=level * turn.T_w, B=level * turn.B)

    return make


def _across(found: Ringed, forces: Forces) -> dict[str, tuple[Station, ...]]:
    """Plates on four posts bend the other way too, between the two pairs: by statics, on simple supports."""
    shape = found.ring
    if shape.head.shared < 2:
        return {}
    rows = [
        Station(
            Case(level.limit, level.limit), "middle, across", V_y=level.force / 2, M_z=level.force * shape.spacing / 4
        )
        for level in own_weight.raised(found.levels, found.own.share)
    ]
    return {"head across": tuple(rows), "bed across": tuple(rows)}


def _members(shape: Ring, tables: FrameTables) -> dict[str, FramePart]:
    whole = tables.plate and plain(tables.plate)
    head, bed, uprights = (whole or table for table in (tables.head, tables.bed, tables.uprights))

    def one(part: Part, length: float, kind: str, table: FrameMember) -> FramePart:
        return FramePart(part.section, part.steel, part.pieces, length, kind, table)

    found = {
        "head": one(shape.head, shape.span, "beam", head),
        "bed": one(shape.bed, shape.span - 2 * shape.pin_offset, "beam", bed),
    }
    for side in ("left", "right"):
        found[f"{side} upright"] = one(shape.upright, shape.height, "upright", uprights)
        if shape.legs:
            found[f"{side} leg"] = one(shape.upright, shape.legs, "upright", uprights)
    if shape.head.shared > 1:
        for name, part, table in (("head", shape.head, head), ("bed", shape.bed, bed)):
            strip = plate_section(shape.span, part.depth)
            found[f"{name} across"] = FramePart(strip, part.steel, part.pieces, shape.spacing, "plate", table)
    return found


def warped(part: Part, span: float, torques: Sequence[Torque], place: float) -> Twist | None:
    """How an open beam carries its torque: ends held against twisting and free to warp, which is safe in the span.

    The harder side of the place; None where nothing turns or warps it.
    """
    kappa = math.sqrt(G * part.section.It / (E * part.section.Iw)) if part.section.Iw > 0 else 0.0
    if not torques or not kappa:
        return None
    sides = twist(span, torques, kappa, place, _SIDES)
    harder = int((np.abs(sides.T_w) + np.abs(sides.T_t)).argmax())
    return Twist(*(float(one[harder]) for one in (sides.B, sides.T_w, sides.T_t)))


# ---- joints ----------------------------------------------------------------------------------


def _ends(found: Ringed, order: Order, stops: Stops | None) -> OnDemand[tuple[EndForces, ...]]:
    shape, lines = found.ring, found.base.lines
    face = shape.upright.depth / 2
    answer: dict[str, Callable[[], tuple[EndForces, ...]]] = {}

    def later(beam: str, at: float, way: str, part: Part) -> Callable[[], tuple[EndForces, ...]]:
        def spot() -> Spot:
            return spot_of(lines.at(beam, at, way) @ found.factors)

        return lambda: forces_at(found, found.once((beam, at, way), spot), part, order, (beam, [(at, way)]))

    for beam, part in (("head", shape.head), ("bed", shape.bed)):
        pin = shape.pin_offset if beam == "bed" else 0.0
        for side, at, by in (("left", pin, face), ("right", shape.span - pin, shape.span - face)):
            place, way = f"{beam}/{side}", "right" if side == "left" else "left"
            answer[place] = later(beam, at, way, part)
            if beam == "bed" and shape.pinned_bed:
                continue
            answer[f"{place} face"] = later(beam, by, way, part)
    if stops is not None:
        answer |= {f"stops/{side}": partial(_on_a_stop, found, stops, side) for side in ("left", "right")}
    return OnDemand(answer)


def _on_a_stop(found: Ringed, stops: Stops, side: str) -> tuple[EndForces, ...]:
    """What a stop hands to its upright, about the upright's centre-line."""
    rows = []
    for level in found.levels:
        for position in found.positions:
            if position.stopped and (position.central or not level.central_only):
                force = closed.on_each_stop(found.ring, stops, position)[side] * level.force
                case = case_of(level, Combination(position, "", np.zeros(0)))
                rows.append(EndForces(case, V_z=force, M_y=stops.offset * force))
    return tuple(rows)


class Spot(NamedTuple):
    """Internal forces at one place for one newton, a row for each combination.

    turned_about  their small axial force stands at its largest, pulling, though it may press
    """

    rows: Sampled
    turned_about: bool


def spot_of(forces: np.ndarray) -> Spot:
    """The rows of forces (6, combinations) at a place."""
    exact = cleaned(forces.T)
    values = levelled(exact, JOINT_WEIGHTS, JOINT_MINOR, worse=1.0)
    rows = Sampled(values, np.zeros(len(values)), np.arange(len(values)))
    return Spot(rows, bool(((exact[:, 0] < 0) & (values[:, 0] > 0)).any()))


def forces_at(
    found: Analysed, spot: Spot, part: Part, order: Order, where: tuple[str, list[tuple[float, str]]]
) -> tuple[EndForces, ...]:
    """What can govern at a spot of a solved frame; `where` is a member, and where on it and on which side."""

    def make(_: Combination, case: Case, place: float, f: list[float]) -> EndForces:
        N, V_y, V_z, T, M_y, M_z = f
        if part.turned:
            V_y, V_z, M_y, M_z = V_z, V_y, M_z, M_y
        return EndForces(case, N, V_y, V_z, T, M_y, M_z, pressed=N if spot.turned_about else 0.0)

    return tuple(
        end
        for levels, bent in grown(found, order, spot.rows, *where)
        for end in reduce(bent, found.combined, levels, make, JOINT_SIGNED)
    )


# ---- words -----------------------------------------------------------------------------------


def _needed(shape: Ring, tables: FrameTables) -> tuple[tuple[str, str], ...]:
    on, other = ("bed", "head") if tables.frame.jack_on == "bed" else ("head", "bed")
    joints = [("head/left", "joint"), ("head/right", "joint")]
    joints += (
        [("bed/left", "pin"), ("bed/right", "pin")]
        if shape.pinned_bed
        else [
            ("bed/left", "joint"),
            ("bed/right", "joint"),
        ]
    )
    if shape.one_piece:
        joints = []
    if tables.stops is not None:
        joints += [("stops/left", "joint"), ("stops/right", "joint")]
    rest = [(f"{on}/load", "what the jack's foot stands on"), (f"{other}/load", "what the work bears on")]
    rest += [("platen", "platen")]
    if tables.guides is None or tables.guides.on != "ram":
        rest += [("guides", "guide")]
    if shape.planes > 1 and shape.head.shared == 1:
        rest += [("between the planes", "what carries the force to each plane")]
    return (*joints, *rest)


def _modelling(found: Ringed, tables: FrameTables) -> list[Assumption]:
    shape = found.ring
    corners = {hinge.place: shape.corners[hinge.place] for hinge in found.base.hinges}
    stated = {place: how for place, how in corners.items() if how != "unknown"}
    texts = []
    if len(stated) < len(corners):
        names = ", ".join(solved.state.name for solved in found.states)
        texts.append(
            f"how stiff the corners are is not known: each part takes the worst of {len(found.states)} states ({names})"
        )
    if stated:
        texts.append("corners as the user states them: " + ", ".join(f"{p} {_how(h)}" for p, h in stated.items()))
    if not shape.one_piece:
        zones = "rigid within the depth of the other member" if shape.rigid_zones else "flexible to where they meet"
        texts.append(
            f"members run along their centre-lines and are {zones}; loose corners are loose in the frame's plane only"
        )
        if tables.frame.rigid_zones is None and any(how != "pinned" for how in shape.corners.values()):
            texts.append(
                "corners as stiff as a block (welded all through, gusseted) bend the uprights harder: for them check "
                "once more with rigid_zones = true in [frame]"
            )
    if shape.planes > 1:
        texts.append(f"{shape.planes} planes, all alike: each part stands for its fellows in the other planes")
    if tables.guides and tables.guides.on == "uprights" and not tables.guides.length:
        texts.append("length of the guides not stated: their couple is put on the uprights at one height")
    if tables.guides and tables.guides.on == "uprights" and tables.guides.height is None:
        texts.append(f"height of the guides not stated: half way, {shape.height / 2:g} mm above the bed's centre-line")
    if tables.guides and tables.guides.on != "ram":
        texts.append("the guides of both sides share a couple equally")
    said = [Assumption("frame", text) for text in texts]
    if len(found.positions[0].head) > 1:
        # Work between them bends the other beam by more, up to F l / 4.
        met = "what each of several jacks pushes is met by the work straight across from it"
        said.append(Assumption("frame", f"{met}, not between them", met))
    return said + _tied(found, tables)


def _tied(found: Ringed, tables: FrameTables) -> list[Assumption]:
    """What takes the force of a jack onto frames side by side, where none has a jack of its own."""
    shape = found.ring
    if shape.planes == 1 or tables.frame.shape == "posts" or found.positions[0].taken == 1.0:
        return []
    what = f"cross members at head and bed bring the force of the jack onto {shape.planes} frames {shape.spacing:g} mm"
    text = f"{what} apart, as stiff and strong as that takes: none is described here, so none is judged"
    return [Assumption("frame", text, text)]


def _said(shape: Ring, tables: FrameTables, off: Offsets) -> list[str]:
    """What stands in and on the frame, in lines under its drawing."""
    frame, guides, stops = tables.frame, tables.guides, tables.stops
    places = ", ".join(f"{x:+g} mm" for x in frame.jacks) if frame.jacks else "in the middle"
    rows = [
        f"jack on the {frame.jack_on}, {places}; off centre {off.plane:g} mm in the plane, {off.across:g} mm across"
    ]
    if off.rolls:
        rows.append(f"head rolls {off.rolls:g} mm to each side")
    corners = dict.fromkeys(_how(how) for how in shape.corners.values())
    rows.append(f"corners {', '.join(corners)}")
    rows.append(f"guides on the {guides.on}" if guides else "no guides")
    if stops:
        rows.append(f"stops {stops.height:g} mm above the bed's centre-line")
    return rows


def _how(stiffness: str | float) -> str:
    return stiffness if isinstance(stiffness, str) else f"{stiffness / 1e6:g} kN m/rad"


def _stiffness(found: Ringed, given: Given, order: Order) -> Outcome:
    find = partial(_readings, found, given, order)
    # Only second-order readings hang on how hard the jack pushes.
    read = find() if order.exact.any() else found.once("readings", find)
    return answers.stiffness_answers(found.ring, read, given)


def _readings(found: Ringed, given: Given, order: Order) -> list[answers.Readings]:
    dials = gauges(found.ring, tuple(given.tables.dial))
    energy = {
        (solved.state.name, position.name): solved.springs[number]
        for solved in found.states
        for number, position in enumerate(found.positions)
    }
    springs = [energy[c.state, c.position.name] for c in found.combined]
    return answers.readings(found.base, found.combined, found.factors, springs, dials, order)
