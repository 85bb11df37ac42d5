"""A frame given as nodes and members: the jack pushes two nodes apart, joints are as stated or tried both ways."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import inf

import numpy as np

from structcheck.analysis.frame import Result, solve
from structcheck.analysis.stability import critical, second_order
from structcheck.checks.basis import Case
from structcheck.checks.section_resistance import Station
from structcheck.errors import InputError, Mechanism, Problem, StructcheckError
from structcheck.findings import Assumption, Finding, Outcome, judged, not_checked
from structcheck.press.cases import Forces
from structcheck.press.frame import answers, own_weight, retention, stability
from structcheck.press.frame.envelope import SIGNED, Combination, Level, Sampled, case_of, cleaned, reduce, sample
from structcheck.press.frame.given import Given
from structcheck.press.frame.lines import KINDS, Lines, lines_of, rows_of
from structcheck.press.frame.members_model import Model, frame_of, joint_states, model_of
from structcheck.press.frame.off_centre import Offsets
from structcheck.press.frame.order import FLAT, scaled
from structcheck.press.frame.own_weight import OwnWeight
from structcheck.press.frame.solving import levels_of
from structcheck.press.frame.words import EndForces, FrameAnswer, FramePart, PlaceForce
from structcheck.press.frame_schema import FrameTables, MemberTable
from structcheck.press.schema import Jack

SECOND_ORDER_BELOW = 10.0


@dataclass(frozen=True)
class StateAnswer:
    """One state of the joints: combinations, the first-order result per N, and the force in N at which it buckles."""

    name: str
    result: Result
    lines: Lines
    combined: list[Combination]
    factor: float


@dataclass(frozen=True)
class SolvedMembers:
    """A frame of nodes and members, solved in every state of its joints."""

    model: Model
    states: tuple[StateAnswer, ...]


def solved_members(given: Given) -> tuple[FrameAnswer, SolvedMembers]:
    """The demands of a frame of nodes and members, and what was solved for those who draw it. Raises InputError."""
    tables, jack, forces = given.tables, given.jack, given.forces
    assumptions: list[Assumption] = []
    model, off = model_of(tables, jack, given.sections, assumptions)
    levels = levels_of(forces)
    solved, refused = [], []
    for name, joints in joint_states(tables.member):
        try:
            solved.append(_solve(model, name, joints, forces.ultimate))
        except Mechanism as moves:
            refused.append(f"{name}: {moves}")
    if not solved:
        wanted = "joints and supports that hold the frame"
        raise InputError(Problem("support", "", f"the frame moves: {refused[0]}", wanted, part="frame"))
    for text in refused:
        assumptions.append(Assumption("frame", f"left out, since nothing but tight joints holds it: {text}"))
    names = ", ".join(s.name for s in solved)
    assumptions.append(Assumption("frame", f"each member takes the worst of these states of the joints: {names}"))
    outcome = Outcome(assumptions=(*assumptions, *off.assumptions))
    outcome += _stiffness(model, solved, given) + _order(solved, forces)
    outcome += _racking(tables, jack, off, forces)
    stand = _stand(model)
    outcome += stability.tipping(stand, tables.feet)
    outcome += Outcome(assumptions=(own_weight.said(stand.mass, forces), FLAT))
    weight = own_weight.NOTHING
    if own_weight.is_heavy(stand.mass, forces):
        weight = _weight(model, solved, forces)
    outcome += retention.line_of_force(jack, tables, off) + retention.retention(tables, ("jack foot", "saddle"))
    bent = {s.name: _second_order(model, s, levels) for s in solved if s.factor < SECOND_ORDER_BELOW * forces.ultimate}
    outcome += _unanswered(solved, levels, bent)
    ends = [(m, end) for m in tables.member for end in ("start", "end")]
    answer = FrameAnswer(
        stations={m.name: _stations(model, m, solved, levels, bent, weight) for m in tables.member},
        ends={f"{m.name}/{end}": _ends(model, m, end, solved, levels, bent, weight) for m, end in ends},
        forces={"platen": _pushes(model, levels), "jack foot": _pushes(model, levels)},
        members={m.name: _described(model, m) for m in tables.member},
        off_axis=retention.off_axis(jack, tables, off),
        needed=tuple((f"{m.name}/{end}", "joint") for m, end in ends),
        outcome=outcome,
        drawing=draw(model),
    )
    return answer, SolvedMembers(model, tuple(solved))


# ---- answers ---------------------------------------------------------------------------------


def _described(model: Model, row: MemberTable) -> FramePart:
    return FramePart(model.parts[row.name].section, row.steel, row.pieces, model.lengths[row.name], "bar", row)


def _solve(model: Model, name: str, joints: Mapping[tuple[str, str], float], force: float) -> StateAnswer:
    """One state; its critical force is asked at the force at work, since a factor beyond 1e6 is taken for none."""
    frame = frame_of(model, joints)
    result = solve(frame, model.loads)
    unit = np.eye(len(model.positions))
    combined = [Combination(position, name, unit[:, k]) for k, position in enumerate(model.positions)]
    at_work = {case: [scaled(load, force) for load in loads] for case, loads in model.loads.items()}
    factor = force * min(found.factor for found in critical(frame, at_work).values())
    return StateAnswer(name, result, lines_of(result), combined, factor)


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


def _weight(model: Model, states: Sequence[StateAnswer], forces: Forces) -> OwnWeight:
    each, names = own_weight.per_newton(forces), [row.name for row in model.tables.member]
    sizes = {}
    for state in states:
        result = solve(state.result.structure.frame, {own_weight.CASE: own_weight.member_loads(model.tables.mass)})
        found = own_weight.sizes_in(lines_of(result), names, np.ones(1))
        sizes[state.name] = {name: each * size for name, size in found.items()}
    return OwnWeight(sizes)


def _second_order(model: Model, state: StateAnswer, levels: Sequence[Level]) -> dict[str, Result]:
    """Second-order results by level, each position a case; beyond the critical load there is none."""
    found = {}
    for level in levels:
        grown = {name: [scaled(load, level.force) for load in loads] for name, loads in model.loads.items()}
        try:
            found[level.limit] = second_order(state.result.structure.frame, grown)
        except StructcheckError:
            # `elastic stability` fails for this state, or `second order` is not checked: see `_unanswered`.
            continue
    return found


def _unanswered(states: Sequence[StateAnswer], levels: Sequence[Level], bent: Mapping) -> Outcome:
    """Where second-order forces are needed and none are found, short of the critical force: never a pass."""
    lost = [s.name for s in states for level in levels if s.name in bent and level.limit not in bent[s.name]]
    beyond = [s.name for s in states for level in levels if s.factor <= level.force]
    names = ", ".join(dict.fromkeys(name for name in lost if name not in beyond))
    if not names:
        return Outcome()
    reason = f"no second-order answer is found so near the critical force ({names})"
    return Outcome((not_checked("frame", "second order", reason),))


def _rows(
    member: str,
    states: Sequence[StateAnswer],
    levels: Sequence[Level],
    bent: Mapping[str, Mapping[str, Result]],
    weight: OwnWeight,
    places: Sequence[float] | None,
) -> list[tuple[Level, Sampled, list[Combination]]]:
    """Samples of every level, per N of it, of all states together; at `places` only, where given."""
    found = []
    for level in levels:
        values, where, numbers, combined = [], [], [], []
        for state in states:
            curved = bent.get(state.name, {}).get(level.limit)
            if curved is not None:
                rows = _curved(member, state, curved, level.force, places)
            else:
                rows = sample(state.lines, member, state.combined)
                if places is not None:
                    keep = np.isin(np.round(rows.where, 6), np.round(places, 6))
                    rows = Sampled(rows.values[keep], rows.where[keep], rows.combination[keep])
            values.append(rows.values)
            where.append(rows.where)
            numbers.append(rows.combination + len(combined))
            combined += state.combined
        rows = Sampled(np.concatenate(values), np.concatenate(where), np.concatenate(numbers))
        found.append((level, weight.on(rows, combined, member), combined))
    return found


def _curved(member: str, state: StateAnswer, result: Result, force: float, places: Sequence[float] | None) -> Sampled:
    """Samples of a second-order result: stations, and where a moment is largest."""
    values, where, numbers = [], [], []
    at = None if places is None else [(x, side) for x in places for side in ("left", "right")]
    for number, combination in enumerate(state.combined):
        xs, rows = rows_of(result, member, combination.position.name, force, at)
        values.append(rows)
        where.append(xs)
        numbers.append(np.full(len(xs), number))
    return Sampled(cleaned(np.concatenate(values)), np.concatenate(where), np.concatenate(numbers))


def _stations(
    model: Model,
    row: MemberTable,
    states: Sequence[StateAnswer],
    levels: Sequence[Level],
    bent: Mapping,
    weight: OwnWeight,
) -> tuple[Station, ...]:
    turned = model.parts[row.name].turned
    signed = tuple(sorted({*SIGNED, *model.parts[row.name].signed}))

    def make(_: Combination, case: Case, place: float, f: np.ndarray) -> Station:
        N, V_y, V_z, T, M_y, M_z = f.tolist()
        if turned:
            V_y, V_z, M_y, M_z = V_z, V_y, M_z, M_y
        return Station(case, f"{place:.0f} mm from node {row.start}", N, V_y, V_z, T, M_y, M_z)

    found: tuple[Station, ...] = ()
    for level, rows, combined in _rows(row.name, states, levels, bent, weight, None):
        found += reduce(rows, combined, [level], make, signed, apart=3)
    return found


def _ends(
    model: Model,
    row: MemberTable,
    end: str,
    states: Sequence[StateAnswer],
    levels: Sequence[Level],
    bent: Mapping,
    weight: OwnWeight,
) -> tuple[EndForces, ...]:
    turned = model.parts[row.name].turned
    place = 0.0 if end == "start" else model.lengths[row.name]

    def make(_: Combination, case: Case, x: float, f: np.ndarray) -> EndForces:
        N, V_y, V_z, T, M_y, M_z = f.tolist()
        if turned:
            V_y, V_z, M_y, M_z = V_z, V_y, M_z, M_y
        return EndForces(case, N, V_y, V_z, T, M_y, M_z)

    found: tuple[EndForces, ...] = ()
    for level, rows, combined in _rows(row.name, states, levels, bent, weight, [place]):
        found += reduce(rows, combined, [level], make, (0, 2, 4))
    return found


def _pushes(model: Model, levels: Sequence[Level]) -> tuple[PlaceForce, ...]:
    return tuple(
        PlaceForce(case_of(level, Combination(p, "", np.zeros(0))), row.share * level.force, p.head[0].x, p.head[0].y)
        for level in levels
        for p in model.positions
        for row in model.tables.push
        if p.central or not level.central_only
    )


def _stiffness(model: Model, states: Sequence[StateAnswer], given: Given) -> Outcome:
    forces, limits = given.forces, given.limits
    flexible = {state.name: _opening(model, state) for state in states}
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


def _order(states: Sequence[StateAnswer], forces: Forces) -> Outcome:
    """Elastic critical factor of the ultimate force, and what follows from it."""
    worst = min(states, key=lambda s: s.factor)
    factor = worst.factor / forces.ultimate
    if factor == inf:
        return Outcome(answers=("first-order moments are enough: no force presses the frame out of shape",))
    text = f"elastic critical factor of the ultimate force {factor:.1f} ({worst.name})"
    if factor <= 1:
        found = judged("frame", "elastic stability", f"ultimate; {worst.name}", 1.0, factor, "", "EN 1993-1-1 5.2.1")
        return Outcome((found,), answers=(text,))
    order = "second-order moments are used" if factor < SECOND_ORDER_BELOW else "first-order moments are enough"
    return Outcome(answers=(f"{text}: {order} (EN 1993-1-1 5.2.1(3))",))


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
