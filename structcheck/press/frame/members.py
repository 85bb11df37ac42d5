"""A frame given as nodes and members: the jack pushes two nodes apart, joints are as stated or tried both ways."""

from collections import defaultdict
from collections.abc import Callable
from dataclasses import replace
from functools import partial

import numpy as np

from structcheck.analysis.warping import Torque
from structcheck.checks.basis import Case
from structcheck.checks.member_forms import closed as closed_section
from structcheck.checks.section_resistance import Station
from structcheck.findings import Assumption, Outcome, not_checked
from structcheck.press.cases import Forces
from structcheck.press.frame import own_weight, stability
from structcheck.press.frame.envelope import (
    SIGNED,
    Combination,
    Sampled,
    case_of,
    levelled,
    reduce,
    sample,
)
from structcheck.press.frame.given import Given
from structcheck.press.frame.keeping import loose_things, retention
from structcheck.press.frame.members_answers import deflections, draw, links, stand_of, stiffness
from structcheck.press.frame.members_model import ALL_LOOSE, Model, at_work, model_of, own_torques
from structcheck.press.frame.members_pressed import clear_opening, pressed_members
from structcheck.press.frame.members_readings import readings
from structcheck.press.frame.members_solved import SolvedMembers, order_of_members, solve_members
from structcheck.press.frame.off_centre import Offsets
from structcheck.press.frame.on_demand import OnDemand
from structcheck.press.frame.order import Order, grown, said
from structcheck.press.frame.racking import racking
from structcheck.press.frame.ringed import forces_at, spot_of, warped
from structcheck.press.frame.solving import levels_of
from structcheck.press.frame.words import EndForces, FrameAnswer, FramePart, PlaceForce
from structcheck.press.frame_schema import ONE_PIECE, FrameTables, MemberTable
from structcheck.press.schema import Jack


def solved_members(given: Given) -> tuple[FrameAnswer, SolvedMembers]:
    """The demands of a frame of nodes and members, and what was solved for those who draw it. Raises InputError."""
    tables, jack, forces = given.tables, given.jack, given.forces
    assumptions: list[Assumption] = []
    model, off = model_of(tables, jack, forces.rated, given.sections, assumptions)
    stand = stand_of(model)
    weight = own_weight.per_newton(forces) if own_weight.is_heavy(stand.mass, forces) else None
    found = solve_members(model, levels_of(forces), weight)
    order = order_of_members(found)
    pressed = pressed_members(found, order)
    outcome = Outcome(assumptions=(*assumptions, *_states_said(found), *off.assumptions))
    outcome += stiffness(found, order, given) + said(found, order) + links(found, order) + pressed.outcome
    outcome += deflections(found, order, given) + Outcome(answers=tuple(readings(found, order, given)))
    outcome += _racking(tables, jack, off, forces)
    outcome += stability.tipping(stand, tables.feet)
    outcome += Outcome(assumptions=(own_weight.said(stand.mass, forces),))
    outcome += retention(tables, loose_things(tables))
    places = [f"{row.name}/{end}" for row in tables.member for end in ("start", "end")]
    answer = FrameAnswer(
        stations={row.name: _stations(found, row, order) for row in tables.member},
        ends=OnDemand({place: _later(found, place, order) for place in places}),
        forces=_pushes(found) | pressed.forces,
        members={row.name: _described(model, row) for row in tables.member},
        off=off,
        needed=(("platen", "platen"),),
        meetings=_meetings(tables),
        opening=clear_opening(found, jack),
        stood_on=frozenset(start.name for _, start, _ in model.pushes),
        outcome=outcome,
        drawing=draw(model),
    )
    return answer, found


# ---- answers ---------------------------------------------------------------------------------


def _states_said(found: SolvedMembers) -> list[Assumption]:
    """What was taken of the joints: where a single one must be tight or the frame moves, that is a condition."""
    names = ", ".join(state.name for state in found.states)
    said = [Assumption("frame", f"each member takes the worst of these states of the joints: {names}")]
    for name, moves in found.refused.items():
        text = f"left out, since nothing but tight joints holds it: {name}: {moves}"
        condition = f"{name.removesuffix(' loose')} is tight" if name != ALL_LOOSE else ""
        said.append(Assumption("frame", text, condition))
    if any(own_torques(found.model, name) for name, p in found.model.parts.items() if not closed_section(p.section)):
        text = "torsion of open sections under the jack: their ends are held against twisting and free to warp"
        said.append(Assumption("frame", text))
    return said


def _described(model: Model, row: MemberTable) -> FramePart:
    section, length = model.parts[row.name].section, model.lengths[row.name]
    return FramePart(section, row.steel, row.pieces, length, "bar", row, held=model.held[row.name])


def _stations(found: SolvedMembers, row: MemberTable, order: Order) -> tuple[Station, ...]:
    part = found.model.parts[row.name]

    def along() -> Sampled:
        rows = sample(found.lines, row.name, found.combined, found.factors)
        return replace(rows, values=levelled(rows.values, part.stress_of_unit))

    rows = found.once(("along", row.name), along)
    signed = tuple(sorted({*SIGNED, *part.signed}))
    own = {} if closed_section(part.section) else own_torques(found.model, row.name)
    own = defaultdict(tuple, own)

    def make(combination: Combination, case: Case, place: float, f: list[float]) -> Station:
        N, V_y, V_z, T, M_y, M_z = f
        if part.turned:
            V_y, V_z, M_y, M_z = V_z, V_y, M_z, M_y
        where = f"{place:.0f} mm from node {row.start}"
        torques = own[combination.position.name] if T else ()
        if not torques:
            return Station(case, where, N, V_y, V_z, T, M_y, M_z)
        level = next(level.force for level in found.levels if level.limit == case.limit)
        find = partial(warped, part, found.model.lengths[row.name], [Torque(t, at) for t, at in torques], place)
        turn = found.once(("warped", row.name, combination.position.name, place), find)
        if turn is None:
            return Station(case, where, N, V_y, V_z, abs(T), M_y, M_z)
        # What the member's own torques do not make comes from its ends, without warping.
        T_t = level * abs(turn.T_t) + abs(abs(T) - level * abs(turn.T_t + turn.T_w))
        return Station(case, where, N, V_y, V_z, T_t, M_y, M_z, T_w=level * turn.T_w, B=level * turn.B)

    return tuple(
        station
        for levels, bent in grown(found, order, rows, row.name)
        for station in reduce(bent, found.combined, levels, make, signed, apart=3)
    )


def _later(found: SolvedMembers, place: str, order: Order) -> Callable[[], tuple[EndForces, ...]]:
    """What the joint at one end of a member carries, when it is asked."""
    name, end = place.rsplit("/", 1)
    at, side = (0.0, "right") if end == "start" else (found.model.lengths[name], "left")

    def ends() -> tuple[EndForces, ...]:
        spot = found.once((name, at, side), lambda: spot_of(found.lines.at(name, at, side)))
        return forces_at(found, spot, found.model.parts[name], order, (name, [(at, side)]))

    return ends


def _pushes(found: SolvedMembers) -> dict[str, tuple[PlaceForce, ...]]:
    """The whole force on the platen and that of each jack, and how far off the middle they stand."""
    rows: dict[str, list[PlaceForce]] = {"platen": [], "jack foot": []}
    for level in found.levels:
        for p in found.model.positions:
            if level.central_only and not p.central:
                continue
            case, x, y = case_of(level, Combination(p, "", np.zeros(0))), p.head[0].x, p.head[0].y
            each = at_work(found.model.pushes, p)
            rows["platen"].append(PlaceForce(case, sum(each) * level.force, x, y))
            rows["jack foot"] += [PlaceForce(case, share * level.force, x, y) for share in each if share]
    return {name: tuple(places) for name, places in rows.items()}


def _meetings(tables: FrameTables) -> tuple[tuple[str, ...], ...]:
    """The ends of members at each node, one of those that are one piece: all but one of them need a joint."""
    found = []
    for node in tables.node:
        ends = [(row, end) for row in tables.member for end in ("start", "end") if getattr(row, end) == node.name]
        through = [one for one in ends if getattr(one[0], f"at_{one[1]}") == ONE_PIECE]
        found.append(tuple(f"{row.name}/{end}" for row, end in ends if (row, end) not in through[1:]))
    return tuple(places for places in found if len(places) > 1)


def _racking(tables: FrameTables, jack: Jack, off: Offsets, forces: Forces) -> Outcome:
    if tables.guides is not None and tables.guides.on != "ram":
        reason = "where the guides bear on the members is not described; a couple through them is not covered here"
        return Outcome((not_checked("frame", "racking", reason),))
    return racking(tables, jack, off, forces, (), ())
