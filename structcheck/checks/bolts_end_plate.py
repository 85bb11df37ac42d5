"""End plate of a press corner: a beam's end welded to a plate, the plate bolted to a member, by EN 1993-1-8 6.2.

Rows of two bolts beside the web. Each row is a T-stub of the plate and one of what stands behind it; both, and the webs
they pull, press and shear, are judged alone and together (6.2.7.2).
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import count, pairwise

from structcheck.checks import end_plate_support, end_plate_tube
from structcheck.checks.basis import Basis
from structcheck.checks.end_plate_fatigue import check_fatigue
from structcheck.checks.end_plate_part import EndPlate, EndPlateLoads, Support, validate
from structcheck.checks.end_plate_rows import (
    AtLimit,
    Bearing,
    Judge,
    Rows,
    even_pull,
    fill,
    on_plate,
    one_bolt,
    share,
)
from structcheck.errors import NotCovered
from structcheck.findings import (
    Assumption,
    Finding,
    Outcome,
    TimesOnYield,
    complete,
    interaction,
    judged,
    not_checked,
    worst_case,
)
from structcheck.formula import remembered, unrecorded
from structcheck.materials.steels import Steel
from structcheck.standards.en1993_1_1 import cross_section
from structcheck.standards.en1993_1_8 import bolts as bolt_clause

__all__ = ["EndPlate", "EndPlateLoads", "Support", "check_end_plate", "rows_behind", "rows_of_joint", "rows_of_plate"]

NEEDED = (
    "end plate bending",
    "part behind the end plate",
    "web behind the end plate",
    "moment of the joint",
    "bolt shear and tension",
    "bearing",
    "yield at greatest force",
    "fatigue",
)
SOURCES = {
    "end plate bending": "EN 1993-1-8:2005 6.2.4, 6.2.6.5, 6.2.6.7, 6.2.6.8, 6.2.7.2",
    "part behind the end plate": "EN 1993-1-8:2005 6.2.4, 6.2.6.4, 6.2.7.2",
    "web behind the end plate": "EN 1993-1-8:2005 6.2.6.1 to 6.2.6.3, 6.2.7.2",
    "moment of the joint": "EN 1993-1-8:2005 6.2.7.1(3), 6.2.7.2",
}
TUBE = "yield lines; EN 1993-1-8:2005 section 7"
STEPS = 8
"""Halvings of the range in which the factor of growth lies; what is left of it is on the safe side."""


def check_end_plate(
    part: EndPlate, loads: Sequence[EndPlateLoads], basis: Basis, turned: EndPlate | None = None
) -> Outcome:
    """Judge an end plate. Raises InputError where it cannot be built.

    turned  the same plate as seen when its lower rows are pulled, on which moments below zero are judged
    """
    validate(part)
    part, turned = _kept(part), turned and _kept(turned)
    seen = _hardest([one for load in loads for one in _seen(part, turned, load)])
    findings = []
    for check, judge, rests_on, limit in (
        ("end plate bending", _by(on_plate, "end plate bending"), on_plate, "ultimate"),
        ("part behind the end plate", _by(on_part_behind, "part behind the end plate"), on_part_behind, "ultimate"),
        ("web behind the end plate", _by(on_web_behind, "web behind the end plate"), on_web_behind, "ultimate"),
        ("moment of the joint", _by(on_joint, "moment of the joint"), on_joint, "ultimate"),
        ("bolt shear and tension", _shear_and_tension, None, "ultimate"),
        ("bearing", _bearing, None, "ultimate"),
        ("yield at greatest force", _yield, None, "greatest force"),
    ):
        cases = [(plate, load) for plate, load in seen if load.case.limit == limit]
        if cases:
            try:
                most = rests_on and [_most(plate, rests_on, load, basis) for plate, load in cases]
                findings.append(worst_case(lambda one, judge=judge: judge(*one, basis), cases, most))
            except NotCovered as reason:
                findings.append(not_checked(part.name, check, str(reason)))
    outcome = Outcome(tuple(findings), assumptions=_assumptions(part))
    rated = [(plate, load) for plate, load in seen if load.case.limit == "rated"]
    if rated:
        outcome += check_fatigue(rated, basis) + Outcome(times_on_yield=_times(rated, basis))
    return complete(outcome, part.name, NEEDED, "no load case given")


@lru_cache(maxsize=64)
def _kept(part: EndPlate) -> EndPlate:
    """The first plate that was equal to this one: what is remembered of it is then found without comparing again."""
    return part


def _hardest(seen: Sequence[tuple[EndPlate, EndPlateLoads]]) -> list[tuple[EndPlate, EndPlateLoads]]:
    """The loads that no earlier one on the same plate outdoes in all it does: these are used no harder than it is."""
    kept: list[tuple[EndPlate, EndPlateLoads]] = []
    for plate, load in seen:
        if not any(plate is other and _outdoes(one, load) for other, one in kept):
            kept.append((plate, load))
    return kept


def _outdoes(one: EndPlateLoads, load: EndPlateLoads) -> bool:
    if one.case.limit != load.case.limit or (one.pressed is None) != (load.pressed is None):
        return False
    if load.moment < 0 or load.pull < 0:  # nothing is known of these, and that is told of each
        return False
    pairs = (
        (one.moment, load.moment),
        (one.pull, load.pull),
        (abs(one.shear), abs(load.shear)),
        (one.pressed or 0.0, load.pressed or 0.0),
    )
    return all(less <= more * (1 + 1e-12) for more, less in pairs)


def _times(seen: Sequence[tuple[EndPlate, EndPlateLoads]], basis: Basis) -> tuple[TimesOnYield, ...]:
    """The elastic limit over the rated loads; nothing where it is not known."""
    try:
        share = max(_elastic(part, load, basis)[0] for part, load in seen)
    except NotCovered:
        return ()
    return (TimesOnYield(seen[0][0].name, 1 / share),) if share else ()


def _seen(part: EndPlate, turned: EndPlate | None, load: EndPlateLoads) -> list[tuple[EndPlate, EndPlateLoads]]:
    """The load on the plate as it is seen from the side that is pulled; without a moment, from both."""
    if turned is None or load.moment > 0:
        return [(part, load)]
    over = turned, replace(load, moment=abs(load.moment))
    return [over] if load.moment else [(part, load), over]


def on_part_behind(part: EndPlate, state: AtLimit, basis: Basis) -> Bearing:
    """The flange or the tube's face bolted to."""
    where = end_plate_tube.on_face if part.on_tube else end_plate_support.on_flange
    return where(part, state, basis)


def on_web_behind(part: EndPlate, state: AtLimit, basis: Basis) -> Bearing:
    """The web or the side walls behind it."""
    where = end_plate_tube.on_walls if part.on_tube else end_plate_support.on_web
    return where(part, state, basis)


def on_joint(part: EndPlate, state: AtLimit, basis: Basis) -> Bearing:
    """All of it together: each row and group bears what the weakest of its parts does."""
    return on_plate(part, state, basis) + on_part_behind(part, state, basis) + on_web_behind(part, state, basis)


def rows_of_plate(part: EndPlate, basis: Basis) -> Rows:
    """Rows of a moment borne by plate, web and bolts, and by the beam's flange in compression."""
    return fill(part, on_plate(part, AtLimit(), basis), basis)


def rows_behind(part: EndPlate, basis: Basis) -> Rows:
    """Rows borne by what the plate is bolted to. Raises NotCovered where it is not described."""
    return fill(part, on_part_behind(part, AtLimit(), basis), basis)


def rows_of_joint(part: EndPlate, basis: Basis) -> Rows:
    """Rows borne by all of the joint, the member behind free of other stress."""
    return fill(part, on_joint(part, AtLimit(), basis), basis)


def _ratio(part: EndPlate, judge: Judge, load: EndPlateLoads, basis: Basis) -> tuple[float, AtLimit]:
    """Share of the joint used, and how the members are stressed when it is used up; the trials are not kept."""
    with unrecorded():
        return _searched(part, judge, load, basis)


@remembered
def _searched(part: EndPlate, judge: Judge, load: EndPlateLoads, basis: Basis) -> tuple[float, AtLimit]:
    """The members' own stress grows with the joint's actions: the factor of growth is closed in upon from below."""
    if load.moment < 0 or load.pull < 0:
        raise NotCovered("rows are described for a moment that pulls on the top ones and a beam that is pulled")
    _require(part.steel, part.beam_steel, part.behind_steel, part.support.steel if part.support else None)

    def used(state: AtLimit) -> float:
        return share(part, judge, state, load, basis)

    free = used(AtLimit())
    state = _at_limit(part, judge, load, math.inf if free == 0 else 1 / free, basis)
    found = used(state)
    if not 0 < found < math.inf or found <= free:
        return found, state
    low, high = 1 / found, 1 / free
    for _ in range(STEPS):
        middle = (low + high) / 2
        if used(_at_limit(part, judge, load, middle, basis)) * middle <= 1:
            low = middle
        else:
            high = middle
    return 1 / low, _at_limit(part, judge, load, low, basis)


def _at_limit(part: EndPlate, judge: Judge, load: EndPlateLoads, grows: float, basis: Basis) -> AtLimit:
    """How the members are stressed when all actions have grown by this factor."""
    sheared = 0.0
    if part.beam is not None and load.shear:
        area = float(part.beam.shear_area("z", basis.eta))
        plastic = cross_section.plastic_shear_resistance(area, part.of_beam.f_y(part.flange), basis.gamma_M0)
        sheared = abs(load.shear) * grows / plastic
    if part.support is None:
        return AtLimit(sheared=sheared)
    if load.pressed is None:
        if part.on_tube and judge is not on_plate:
            raise NotCovered(end_plate_tube.UNPRESSED)
        return AtLimit(1.0, sheared)
    shape = part.support.section.shape
    f_y = part.support.steel.f_y(float(shape.t if part.on_tube else shape.tw))
    pressed = min(load.pressed * grows / f_y, 1.0) if load.pressed else 0.0
    return AtLimit(pressed, sheared)


def _by(judge: Judge, check: str) -> Callable[[EndPlate, EndPlateLoads, Basis], Finding]:
    return lambda part, load, basis: _finding(part, check, judge, load, basis)


def _most(part: EndPlate, judge: Judge, load: EndPlateLoads, basis: Basis) -> float:
    """A bound on the use that `_finding` finds: its factor of growth is closed in upon from below."""
    return _ratio(part, judge, load, basis)[0] or math.inf


def _finding(part: EndPlate, check: str, judge: Judge, load: EndPlateLoads, basis: Basis) -> Finding:
    ratio, state = _ratio(part, judge, load, basis)
    bearing = judge(part, state, basis)
    rows = fill(part, bearing, basis)
    texts = [f"row {i}: {force / 1e3:.3g} kN, {why}" for i, force, why in zip(count(1), rows.forces, rows.limits)]
    if load.pull or not load.moment:
        even, why = even_pull(part, bearing)
        texts = [*(texts if load.moment else ()), f"a plain pull: {even / 1e3:.3g} kN, {why}"]
    reason = "; ".join(texts)
    source = TUBE if part.on_tube and check != "end plate bending" else SOURCES[check]
    if load.pull == 0 and load.moment:
        return judged(part.name, check, load.case.name, load.moment, rows.moment, "kN m", source, reason=reason)
    factor = math.inf if ratio == 0 else 1 / ratio
    return interaction(part.name, check, load.case.name, factor, source, clause_ratio=ratio, reason=reason)


def _require(*steels: Steel | None) -> None:
    for steel in steels:
        if steel is not None and not steel.in_en1993:
            raise NotCovered(f"{steel.name} is outside EN 1993-1-1")


def _known(part: EndPlate, load: EndPlateLoads, basis: Basis) -> tuple[float, str]:
    """The greatest share of what is described, and what that is."""
    ratios, left_out = [_ratio(part, on_plate, load, basis)[0]], []
    for judge, name in ((on_part_behind, "part behind"), (on_web_behind, "web behind"), (on_joint, "")):
        try:
            ratios.append(_ratio(part, judge, load, basis)[0])
        except NotCovered:
            left_out += [name] if name else []
    if not left_out:
        return max(ratios), "plate, part and web behind together"
    return max(ratios), f"{' and '.join(left_out)} not judged"


def _shear_and_tension(part: EndPlate, load: EndPlateLoads, basis: Basis) -> Finding:
    """Shear shared evenly by all bolts, every one of them taken as pulled as hard as the rows in tension are."""
    plane = bolt_clause.shear_resistance(part.bolt_class.alpha_v, part.bolt_class.f_ub, part.size.A_s, basis.gamma_M2)
    # A row used up to its share of the moment pulls its bolts to that share of F_t,Rd at most, prying included.
    pulled = _known(part, load, basis)[0] * one_bolt(part, basis)
    ratio = bolt_clause.shear_and_tension(_sheared(part, load), plane, pulled, one_bolt(part, basis))
    factor = math.inf if ratio == 0 else 1 / ratio
    source = "EN 1993-1-8:2005 Table 3.4"
    return interaction(part.name, "bolt shear and tension", load.case.name, factor, source, clause_ratio=ratio)


def _sheared(part: EndPlate, load: EndPlateLoads) -> float:
    return abs(load.shear) / (2 * len(part.rows))


def _bearing(part: EndPlate, load: EndPlateLoads, basis: Basis) -> Finding:
    """The weaker of plate and part behind at the bolt with the least end distance, whichever way it is pushed."""
    t, capacity, steel = min(_plies(part, basis), key=lambda ply: ply[1])
    reason = f"{t:g} mm of {steel.name}, one bolt"
    source = "EN 1993-1-8:2005 Table 3.4"
    return judged(part.name, "bearing", load.case.name, _sheared(part, load), capacity, "kN", source, reason=reason)


def _plies(part: EndPlate, basis: Basis) -> list[tuple[float, float, Steel]]:
    """Thickness, resistance at one bolt and steel of the plate, and of the flange or wall behind it."""
    past = part.top - part.depth if part.past is None else part.past
    own = min(part.top - part.heights[0], part.heights[-1] + past)
    behind = min((end for end in part.ends if end is not None), default=math.inf)
    plies = [(part.plate, part.steel, own, (part.width - part.gauge) / 2)]
    if part.on_tube:
        face = end_plate_tube.face_of(part)
        plies.append((face.t, part.support.steel, behind, (face.b - part.gauge) / 2))
    elif part.behind is not None:
        plies.append((part.behind, part.behind_steel or part.steel, behind, part.edge))
    made = []
    for t, steel, end, edge in plies:
        _require(steel)
        f_u, f_ub = steel.f_u(t), part.bolt_class.f_ub
        alpha_b = bolt_clause.alpha_b_end(min(end, 1e6), part.d_0, f_ub, f_u)
        for above, below in pairwise(part.heights):
            alpha_b = min(alpha_b, bolt_clause.alpha_b_inner(above - below, part.d_0, f_ub, f_u))
        k_1 = bolt_clause.k_1_edge(edge, part.gauge, part.d_0)
        resistance = bolt_clause.bearing_resistance(k_1, alpha_b, f_u, part.size.d, t, basis.gamma_M2)
        made.append((t, resistance, steel))
    return made


def _elastic(part: EndPlate, load: EndPlateLoads, basis: Basis) -> tuple[float, str, str]:
    """Share of its elastic limit: two thirds of a joint's resistance (6.3.1(6)), a tube's face by its stress."""
    known, reason = _known(part, load, basis)
    ratio = 1.5 * known
    if part.on_tube and (face := end_plate_tube.elastic_share(part, load)) > ratio:
        return face, "the tube's face bends at the bolts or under the flange", "elastic: face as a plate on side walls"
    return ratio, reason, "EN 1993-1-8:2005 6.3.1(6)"


def _yield(part: EndPlate, load: EndPlateLoads, basis: Basis) -> Finding:
    ratio, reason, source = _elastic(part, load, basis)
    factor = math.inf if ratio == 0 else 1 / ratio
    check = "yield at greatest force"
    return interaction(part.name, check, load.case.name, factor, source, clause_ratio=ratio, reason=reason)


def _assumptions(part: EndPlate) -> tuple[Assumption, ...]:
    made: list[tuple[str, str]] = []
    if part.grip is None and not part.on_tube:
        made.append(("plates between head and nut short enough to pry (6.2.4, L_b*); else state `grip`", ""))
    steels = [(part.steel, "plate"), (part.beam_steel, "beam"), (part.behind_steel, "part behind")]
    if part.on_tube:
        steels.append((part.support.steel, "part behind"))
    for steel, what in steels:
        if steel is not None and steel.assumed:
            made.append((f"steel of the {what} unknown: {steel.name}", steel.condition))
    if part.bolt_class.assumed:
        made.append(("bolts without a mark", part.bolt_class.condition))
    if part.beam_steel is None:
        made.append((f"the beam is of the plate's steel, {part.steel.name}", ""))
    made.append(("holes are normal round ones, threads may lie in the shear plane, bolts not counted as preloaded", ""))
    made.append(("fatigue: the row beside the flange in tension takes the moment, shared with one just past it", ""))
    return tuple(Assumption(part.name, text, condition) for text, condition in (*made, *_of_support(part)))


def _of_support(part: EndPlate) -> list[tuple[str, str]]:
    """What is taken for granted of the member behind."""
    made = [("moment and pull are added as shares (6.2.7.1(3)), also where the pull is small", "")]
    behind = part.support
    if behind is None:
        return made
    wide = max(float(behind.section.shape.h), float(behind.section.shape.b))
    if behind.past is None:
        text = f"the member behind goes on at least {wide:g} mm past the end plate, up and down (behind_past)"
        made.append((text, text))
    if part.on_tube:
        text = "bolts through both walls are snug, not tightened: no sleeve holds the walls apart"
        made += [(text, "")] if behind.through else []
        return [*made, ("nothing pries on the tube's wall: the plate bends without it", "")]
    if behind.stiffeners is not None:
        made.append(("stiffeners behind stand in the line of each of the beam's flanges; their welds not judged", ""))
    return [*made, ("panel behind: beta = 1, a beam on one side of it only (Table 5.4)", "")]
