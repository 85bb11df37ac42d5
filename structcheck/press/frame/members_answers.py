"""What a frame of nodes and members answers: its opening, how it stands, what its links carry, its drawing."""

import math
from collections.abc import Iterator, Sequence

import numpy as np

from structcheck.analysis.frame_model import Load
from structcheck.findings import Assumption, Finding, Outcome, judged, not_checked
from structcheck.maths import first_of_greatest
from structcheck.press.frame import answers, stability
from structcheck.press.frame.envelope import Level, case_of
from structcheck.press.frame.given import Given
from structcheck.press.frame.lines import KINDS
from structcheck.press.frame.members_model import JACK_ALONE, Model
from structcheck.press.frame.members_solved import SolvedMembers, StateAnswer
from structcheck.press.frame.moved import moved
from structcheck.press.frame.order import CASE, Order
from structcheck.press.frame_schema import LinkTable, MemberTable, SupportTable

NOTHING = 1e-9
"""mm; a deflection below it is rounding."""


def stiffness(found: SolvedMembers, order: Order, given: Given) -> Outcome:
    """The opening between jack and work at rated force, and the energy let go."""
    model, forces, limits = found.model, given.forces, given.limits
    R, F = forces.rated, forces.greatest
    first = found.once("opening", lambda: [_first(model, state) for state in found.states])
    number = first_of_greatest([_opening(found, order, k, one, R) for k, one in enumerate(first)])
    name, opening = found.states[number].name, _opening(found, order, number, first[number], R)
    parts = ", ".join(f"{kind} {value * R:.3f}" for kind, value in _split(model, found.states[number], first[number]))
    straight = first[number] * R
    second = "" if math.isclose(opening, straight) else f"by second order; by first order {straight:.3f}: "
    texts = [f"opening between the jack's nodes at rated force: {opening:.3f} mm ({second}{parts}; {name})"]
    texts += answers.energy(_opening(found, order, number, first[number], F) / F, forces, given.jack)
    findings: tuple[Finding, ...] = ()
    if limits and limits.opening is not None:
        case = f"rated; {name}"
        findings = (judged("frame", "opening", case, opening, limits.opening, "mm", answers.SOURCE),)
    return Outcome(findings, answers=tuple(texts))


def _jack(model: Model) -> Sequence[Load]:
    """What the jacks in the middle push apart for 1 N."""
    return model.loads.get(JACK_ALONE, model.loads[model.positions[0].name])


def _first(model: Model, state: StateAnswer) -> float:
    """How far the places that a jack in the middle pushes apart move for 1 N, mm; of several jacks by share."""
    return moved(state.result, _jack(model), model.positions[0].name)


def _opening(found: SolvedMembers, order: Order, state: int, first: float, force: float) -> float:
    """The same at a force, mm, by second order where that is needed."""
    number = state * len(found.model.positions)
    bent = order.at(found.combined[number], number, force)
    if bent is None:
        return first * force
    return moved(bent, _jack(found.model), CASE)


def _split(model: Model, state: StateAnswer, whole: float) -> Iterator[tuple[str, float]]:
    """The opening by kind for 1 N; what the members do not take is in joints, links and supports."""
    names = state.result.cases
    alone = names.index(JACK_ALONE) if JACK_ALONE in names else 0
    kinds = state.lines.work()[:, alone, 0].tolist()
    yield from zip(KINDS, kinds, strict=True)
    joints = whole - sum(kinds)
    yield "joints", joints if abs(joints) > 1e-9 * abs(whole) else 0.0


def deflections(found: SolvedMembers, order: Order, given: Given) -> Outcome:
    """How far each member bends from the line between its ends at rated force, against the user's limit."""
    limit = given.limits.deflection if given.limits else None
    if limit is None:
        return Outcome()
    R, count, worst = given.forces.rated, len(found.model.positions), {}
    for number, combination in enumerate(found.combined):
        if not combination.position.central:
            continue
        bent = order.at(combination, number, R)
        result, case, force = found.states[number // count].result, combination.position.name, R
        if bent is not None:
            result, case, force = bent, CASE, 1.0
        for row in found.model.tables.member:
            ways = (result.deflection_extremes(row.name, way, case, relative=True).largest.value for way in "yz")
            bends = force * max(abs(value) for value in ways)
            bends = bends if bends > NOTHING else 0.0
            if bends >= worst.get(row.name, (-1.0, 0))[0]:
                worst[row.name] = bends, number
    level = Level("rated", R)
    return Outcome(
        tuple(
            judged(
                name,
                "deflection",
                case_of(level, found.combined[number]).name,
                bends,
                limit.of(found.model.lengths[name]),
                "mm",
                "frame analysis, from the line between the member's ends",
            )
            for name, (bends, number) in worst.items()
        )
    )


def links(found: SolvedMembers, order: Order) -> Outcome:
    """The force of every spring between nodes against what its maker allows."""
    return Outcome(tuple(finding for row in found.model.tables.link for finding in _link(found, order, row)))


def _link(found: SolvedMembers, order: Order, row: LinkTable) -> Iterator[Finding]:
    check, ways = "link", row.springs.stated()
    if any(way.startswith("r") for way in ways):
        yield not_checked(row.name, "link moment", "a spring that turns: what its moment does to it has no method here")
    level = next(level for level in found.levels if level.limit == "greatest force")
    forces = [way for way in ways if not way.startswith("r")]
    if not forces:
        return
    most = max(
        (_link_force(found, order, row.name, forces, number, level.force), number)
        for number in range(len(found.combined))
    )
    case = case_of(level, found.combined[most[1]]).name
    if row.bears is None:
        reason = f"it carries up to {most[0] / 1e3:.3g} kN; what it may carry is not stated: [[link]] bears"
        yield not_checked(row.name, check, reason)
        return
    yield judged(row.name, check, case, most[0], row.bears, "kN", "its maker's figure, stated by the user")


def _link_force(found: SolvedMembers, order: Order, name: str, ways: list[str], number: int, force: float) -> float:
    bent = order.bent["greatest force"].get(number)
    if bent is not None:
        return max(math.hypot(*(bent.spring_force(name, way, case) for way in ways)) for case in bent.cases)
    state = found.states[number // len(found.model.positions)]
    case = found.combined[number].position.name
    return force * math.hypot(*(state.result.spring_force(name, way, case) for way in ways))


def stand_of(model: Model) -> stability.Stand:
    """Members at their middles, masses at their nodes, feet about the middle of the nodes that hold upwards."""
    tables, feet = model.tables, model.tables.feet
    at = {row.name: np.array([row.x, row.y, row.z]) for row in tables.node}
    holding = [row.node for row in tables.support if "z" in row.held.split() or (row.springs and row.springs.z)]
    standing = np.array([at[node] for node in holding] or list(at.values()))
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


def draw(model: Model) -> str:
    """Nodes, members, what holds and what pushes, as a list."""
    tables = model.tables
    rows = [f"node {n.name}: x {n.x:g}, y {n.y:g}, z {n.z:g} mm" for n in tables.node]
    rows += [_member(model, row) for row in tables.member]
    rows += [_support(row) for row in tables.support]
    rows += [f"link {row.name}: {row.start} to {row.end}, {_springs(row.springs.stated())}" for row in tables.link]
    for share, start, end in model.pushes:
        part = f"; {share:g} of the force" if share != 1.0 else ""
        rows.append(f"jack: pushes {start} and {end} apart{part}")
    for row in tables.load:
        how = {"jack": "of the jack's force", "user": "N", "spread": "N/mm all along"}[row.load.of]
        place = "" if row.at is None else f" at {row.at:g} mm"
        place += f" over {row.over:g} mm" if row.over else ""
        rows.append(f"load on {row.on}{place}: {row.load.value:g} {how}, towards {row.way}")
    rows += [f"mass {row.name}: {row.mass:g} kg on {row.node}" for row in tables.mass]
    return "\n".join(rows)


def _member(model: Model, row: MemberTable) -> str:
    part = model.parts[row.name]
    pieces = f"{part.pieces} x " if part.pieces > 1 else ""
    turned = ", turned" if part.turned else ""
    ends = ", ".join(
        f"{end} {how if isinstance(how, str) else f'{how / 1e6:g} kN m/rad'}"
        + (f" {zone:g} mm from the node" if zone else "")
        for end, how, zone in (("start", row.at_start, row.zone_start), ("end", row.at_end, row.zone_end))
    )
    text = f"{row.name}: {row.start} to {row.end}, {model.lengths[row.name]:.4g} mm, {pieces}{part.section.designation}"
    return f"{text}{turned}; {ends}"


def _support(row: SupportTable) -> str:
    held = f"holds {row.held}" if row.held else ""
    springs = _springs(row.springs.stated()) if row.springs else ""
    return f"support {row.node}: {'; '.join(text for text in (held, springs) if text)}"


def _springs(stated: dict[str, float]) -> str:
    units = {way: (1e6, "kN m/rad") if way.startswith("r") else (1.0, "N/mm") for way in stated}
    return "springs " + ", ".join(f"{way} {stated[way] / each:g} {unit}" for way, (each, unit) in units.items())
