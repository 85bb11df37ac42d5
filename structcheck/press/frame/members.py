"""A frame given as nodes and members: the jack pushes two nodes apart, joints are as stated or tried both ways."""

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from structcheck.checks.basis import Case
from structcheck.checks.section_resistance import Station
from structcheck.findings import Assumption, Finding, Outcome, judged, not_checked
from structcheck.press.cases import Forces
from structcheck.press.frame import answers, own_weight, retention, stability
from structcheck.press.frame.envelope import (
    SIGNED,
    Combination,
    Level,
    case_of,
    levelled,
    reduce,
    sample,
)
from structcheck.press.frame.given import Given
from structcheck.press.frame.lines import KINDS
from structcheck.press.frame.members_model import Model, model_of
from structcheck.press.frame.members_solved import SolvedMembers, StateAnswer, order_of_members, solve_members
from structcheck.press.frame.off_centre import Offsets
from structcheck.press.frame.on_demand import OnDemand
from structcheck.press.frame.order import Order, grown, said
from structcheck.press.frame.ringed import forces_at
from structcheck.press.frame.solving import levels_of
from structcheck.press.frame.words import EndForces, FrameAnswer, FramePart, PlaceForce
from structcheck.press.frame_schema import FrameTables, MemberTable
from structcheck.press.schema import Jack


def solved_members(given: Given) -> tuple[FrameAnswer, SolvedMembers]:
    """The demands of a frame of nodes and members, and what was solved for those who draw it. Raises InputError."""
    tables, jack, forces = given.tables, given.jack, given.forces
    assumptions: list[Assumption] = []
    model, off = model_of(tables, jack, given.sections, assumptions)
    stand = _stand(model)
    weight = own_weight.per_newton(forces) if own_weight.is_heavy(stand.mass, forces) else None
    found = solve_members(model, levels_of(forces), weight)
    order = order_of_members(found)
    outcome = Outcome(assumptions=(*assumptions, *_states_said(found), *off.assumptions))
    outcome += _stiffness(found, given) + said(found, order)
    outcome += _racking(tables, jack, off, forces)
    outcome += stability.tipping(stand, tables.feet)
    outcome += Outcome(assumptions=(own_weight.said(stand.mass, forces),))
    outcome += retention.line_of_force(jack, tables, off) + retention.retention(tables, ("jack foot", "saddle"))
    places = [f"{row.name}/{end}" for row in tables.member for end in ("start", "end")]
    pushes = _pushes(model, found.levels)
    answer = FrameAnswer(
        stations={row.name: _stations(found, row, order) for row in tables.member},
        ends=OnDemand({place: _later(found, place, order) for place in places}),
        forces={"platen": pushes, "jack foot": pushes},
        members={row.name: _described(model, row) for row in tables.member},
        off_axis=retention.off_axis(jack, tables, off),
        needed=tuple((place, "joint") for place in places),
        outcome=outcome,
        drawing=draw(model),
    )
    return answer, found


# ---- answers ---------------------------------------------------------------------------------


def _states_said(found: SolvedMembers) -> list[Assumption]:
    texts = [f"left out, since nothing but tight joints holds it: {text}" for text in found.refused]
    names = ", ".join(state.name for state in found.states)
    texts.append(f"each member takes the worst of these states of the joints: {names}")
    return [Assumption("frame", text) for text in texts]


def _described(model: Model, row: MemberTable) -> FramePart:
    return FramePart(model.parts[row.name].section, row.steel, row.pieces, model.lengths[row.name], "bar", row)


def _stations(found: SolvedMembers, row: MemberTable, order: Order) -> tuple[Station, ...]:
    part = found.model.parts[row.name]
    rows = sample(found.lines, row.name, found.combined, found.factors)
    rows = replace(rows, values=levelled(rows.values, part.stress_of_unit))
    signed = tuple(sorted({*SIGNED, *part.signed}))

    def make(_: Combination, case: Case, place: float, f: np.ndarray) -> Station:
        N, V_y, V_z, T, M_y, M_z = f.tolist()
        if part.turned:
            V_y, V_z, M_y, M_z = V_z, V_y, M_z, M_y
        return Station(case, f"{place:.0f} mm from node {row.start}", N, V_y, V_z, T, M_y, M_z)

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
        return forces_at(found, found.lines.at(name, at, side), found.model.parts[name], order, (name, [(at, side)]))

    return ends


def _stand(model: Model) -> stability.Stand:
    """Members at their middles, masses at their nodes, feet about the middle of the nodes that hold upwards."""
    tables, feet = model.tables, model.tables.feet
    at = {row.name: np.array([row.x, row.y, row.z]) for row in tables.node}
    standing = np.array([at[row.node] for row in tables.support if "z" in row.holds.split()] or list(at.values()))
    below = (feet.below if feet else None) or 0.0
    floor = float(standing[:, 2].min()) - below
    lumps = []
    for row in tables.member:
        x, y, z = ((at[row.start] + at[row.end]) / 2).tolist()
        lumps.append(stability.Lump(model.parts[row.name].kg_per_mm * model.lengths[row.name], x, y, z - floor))
    lumps += [stability.Lump(m.mass, *at[m.node][:2].tolist(), float(at[m.node][2]) - floor) for m in tables.mass]
    x, y = ((standing.min(axis=0) + standing.max(axis=0)) / 2)[:2].tolist()
    texts = ["feet, if any, stand evenly about the middle of the nodes held upwards"]
    if feet is None or feet.below is None:
        texts.append("the floor is taken at the lowest of them: [feet] below states otherwise")
    said = tuple(Assumption("frame", text) for text in texts)
    top = max(float(place[2]) for place in at.values()) - floor
    return stability.Stand(tuple(lumps), stability.edges_about(feet, x, y), top, "[feet] width and depth", said)


def _pushes(model: Model, levels: Sequence[Level]) -> tuple[PlaceForce, ...]:
    return tuple(
        PlaceForce(case_of(level, Combination(p, "", np.zeros(0))), row.share * level.force, p.head[0].x, p.head[0].y)
        for level in levels
        for p in model.positions
        for row in model.tables.push
        if p.central or not level.central_only
    )


def _stiffness(found: SolvedMembers, given: Given) -> Outcome:
    model, forces, limits = found.model, given.forces, given.limits
    flexible = {state.name: _opening(model, state) for state in found.states}
    name = max(flexible, key=lambda n: sum(flexible[n].values()))
    split, total = flexible[name], sum(flexible[name].values())
    share = sum(row.share for row in model.tables.push)
    R = forces.rated
    parts = ", ".join(f"{kind} {value / share * R:.3f}" for kind, value in split.items())
    texts = [f"opening between the jack's nodes at rated force: {total / share * R:.3f} mm ({parts}; {name})"]
    texts += answers.energy(total, forces, given.jack)
    found: tuple[Finding, ...] = ()
    if limits and limits.opening is not None:
        found = (judged("frame", "opening", f"rated; {name}", total / share * R, limits.opening, "mm", answers.SOURCE),)
    return Outcome(found, answers=tuple(texts))


def _opening(model: Model, state: StateAnswer) -> dict[str, float]:
    """Work of 1 N in the middle on the frame, by kind; what the members do not take is in the joints."""
    result, name = state.result, model.positions[0].name
    members = dict(zip(KINDS, state.lines.work()[:, 0, 0].tolist(), strict=True))
    whole = sum(float(np.dot(load.force, result.displacement(load.node, name)[:3])) for load in model.loads[name])
    return members | {"joints": max(0.0, whole - sum(members.values()))}


def _racking(tables: FrameTables, jack: Jack, off: Offsets, forces: Forces) -> Outcome:
    if tables.guides is not None and tables.guides.on != "ram":
        reason = "where the guides bear on the members is not described; a couple through them is not covered here"
        return Outcome((not_checked("frame", "racking", reason),))
    return retention.racking(tables, jack, off, forces, (), ())


def draw(model: Model) -> str:
    """Nodes, members and jacks as a list."""
    rows = [f"node {n.name}: x {n.x:g}, y {n.y:g}, z {n.z:g} mm" for n in model.tables.node]
    for m in model.tables.member:
        p = model.parts[m.name]
        pieces = f"{p.pieces} x " if p.pieces > 1 else ""
        rows.append(f"{m.name}: {m.start} to {m.end}, {model.lengths[m.name]:.4g} mm, {pieces}{p.section.designation}")
    rows += [f"jack: pushes {p.start} and {p.end} apart" for p in model.tables.push]
    return "\n".join(rows)
