"""A foot plate under a member, pressed on concrete or on a bed of steel: EN 1993-1-8 6.2.5, T-stubs in compression.

What it presses is judged. What holds it down is not: anchors to a floor are never judged here.
"""

import math
from collections.abc import Sequence

from structcheck.checks.base_plate_area import pressed_area, pressed_sides
from structcheck.checks.base_plate_part import BasePlate, BasePlateLoads
from structcheck.checks.base_plate_weld import check_foot_fillets
from structcheck.checks.basis import Basis
from structcheck.checks.member_forms import form
from structcheck.checks.weld_room import throat_above
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import (
    Assumption,
    Finding,
    NotNeeded,
    Outcome,
    complete,
    interaction,
    judged,
    not_checked,
    worst,
)
from structcheck.standards.en1993_1_8 import base as clause
from structcheck.standards.en1993_1_8 import welds

NEEDED = ("bearing under the plate", "shear under the plate", "anchors", "yield at greatest force")
SOURCE = "EN 1993-1-8:2005 6.2.5, 6.2.8.2"
ALPHA_CC, GAMMA_C, BETA_J, FRICTION = 0.85, 1.5, 2 / 3, 0.2
"""EN 1992-1-1 2.4.2.4 and 3.1.6 (0.85, the lower of what annexes take); EN 1993-1-8 6.2.5(7), 6.2.2(6)."""

STRONGEST = 90.0
"""EN 1992-1-1 3.1.2: cylinder strength of C90/105, MPa (recalled)."""


def check_base_plate(part: BasePlate, loads: Sequence[BasePlateLoads], basis: Basis) -> Outcome:
    """Judge a foot plate. Raises InputError where it cannot be."""
    _validate(part)
    outcome = Outcome(assumptions=_assumptions(part))
    ultimate = [load for load in loads if load.case.limit == "ultimate"]
    greatest = [load for load in loads if load.case.limit == "greatest force"]
    for check, cases in ((NEEDED[0], ultimate), (NEEDED[3], greatest)):
        if cases:
            outcome += Outcome((_of_cases(part, check, cases, basis),))
    if ultimate:
        outcome += _shear(part, ultimate) + _anchors(part, [*ultimate, *greatest])
    outcome += check_foot_fillets(part, loads, basis, lifted=_lifts(part, loads))
    return complete(outcome, part.name, NEEDED, "no load case given")


def _of_cases(part: BasePlate, check: str, cases: Sequence[BasePlateLoads], basis: Basis) -> Finding:
    try:
        one = part.under_one
        return worst(_pressed(one, check, each, basis) for load in cases for each in load.on_pieces(part.stand))
    except NotCovered as reason:
        return not_checked(part.name, check, str(reason))


def _pressed(part: BasePlate, check: str, load: BasePlateLoads, basis: Basis) -> Finding:
    """All T-stubs under a plain push; with a moment the flange or wall on the pressed side, in linear sum."""
    if not part.steel.in_en1993:
        raise NotCovered(f"{part.steel.name} is outside EN 1993-1-1")
    f_jd = _strength(part, basis)
    c = clause.additional_width(part.thickness, part.steel.f_y(part.thickness), f_jd, basis.gamma_M0)
    push = max(load.push, 0.0)
    reason = f"f_jd {f_jd:.3g} MPa, c {c:.3g} mm"
    if not load.moment and not load.moment_across:
        capacity = clause.pressed_resistance(f_jd, pressed_area(part.section, c, part.length, part.width))
        return judged(part.name, check, load.case.name, push, capacity, "kN", SOURCE, reason=reason)
    ratio = 0.0
    halves = pressed_sides(part.section, c, part.length, part.width)
    used = []
    for moment, side in zip((load.moment, load.moment_across), halves, strict=True):
        if moment and side is None:
            raise NotCovered(f"a foot plate under a single {part.section.designation} bent across its depth")
        if side is not None:
            used.append(side.area)
            ratio += abs(moment) / side.lever / clause.pressed_resistance(f_jd, side.area)
    ratio += push / 2 / clause.pressed_resistance(f_jd, min(used))
    factor = math.inf if ratio == 0 else 1 / ratio
    return interaction(part.name, check, load.case.name, factor, SOURCE, clause_ratio=ratio, reason=reason)


def _strength(part: BasePlate, basis: Basis) -> float:
    """f_jd: of the joint to concrete, or the yield strength of the weaker steel."""
    if part.concrete is not None:
        f_cd = clause.concrete_strength(ALPHA_CC, part.concrete, GAMMA_C)
        return clause.bearing_strength(BETA_J, part.concentration, f_cd)
    if not part.bed.in_en1993:
        raise NotCovered(f"{part.bed.name} is outside EN 1993-1-1")
    return min(part.bed.steps[-1][1], part.steel.f_y(part.thickness)) / basis.gamma_M0


def _uplift(part: BasePlate, load: BasePlateLoads) -> float:
    """What pulls the most lifted side or piece off the bed, N."""
    return max(_lifted(part.under_one, each) for each in load.on_pieces(part.stand))


def _lifts(part: BasePlate, loads: Sequence[BasePlateLoads]) -> bool:
    """Whether a side of the plate is pulled up, as far as is known."""
    try:
        return any(_uplift(part, load) > 0 for load in loads)
    except NotCovered:
        return True


def _lifted(part: BasePlate, load: BasePlateLoads) -> float:
    if not load.moment and not load.moment_across:
        return max(-load.push, 0.0)
    along, across = pressed_sides(part.section, 0.0, part.length, part.width)
    if load.moment_across and across is None:
        raise NotCovered(f"a foot plate under a single {part.section.designation} bent across its depth")
    pulls = abs(load.moment) / along.lever + (abs(load.moment_across) / across.lever if across else 0.0)
    return pulls - load.push / 2


def _anchors(part: BasePlate, loads: Sequence[BasePlateLoads]) -> Outcome:
    try:
        pulled = max(_uplift(part, load) for load in loads)
    except NotCovered as reason:
        return Outcome((not_checked(part.name, NEEDED[2], str(reason)),))
    if pulled <= 0:
        return Outcome(does_not_apply=(NotNeeded(part.name, NEEDED[2], "no side of the plate is lifted"),))
    reason = (
        f"one side is lifted with {pulled / 1e3:.3g} kN: neither what holds it down nor the plate it bends is judged. "
        "Ask an engineer for anchors of that pull, their edge distances and the block (EN 1992-4), and for the plate "
        "they bend (EN 1993-1-8 6.2.6.5); or widen the feet or add weight until nothing lifts"
    )
    return Outcome((not_checked(part.name, NEEDED[2], reason),))


def _shear(part: BasePlate, loads: Sequence[BasePlateLoads]) -> Outcome:
    """By friction alone; what is more goes through anchors, which are not judged."""
    check = NEEDED[1]
    if not any(load.shear for load in loads):
        return Outcome(does_not_apply=(NotNeeded(part.name, check, "no shear"),))
    findings = []
    for load in loads:
        holds = clause.friction_resistance(FRICTION, max(load.push, 0.0))
        if abs(load.shear) > holds:
            reason = (
                f"{abs(load.shear) / 1e3:.3g} kN against {holds / 1e3:.3g} kN of friction: anchors are not judged. Ask "
                "for anchors that take that shear (EN 1992-4), or set the foot against a stop"
            )
            findings.append(not_checked(part.name, check, reason, case=load.case.name))
        elif load.shear:
            source = "EN 1993-1-8:2005 6.2.2(6)"
            findings.append(judged(part.name, check, load.case.name, abs(load.shear), holds, "kN", source))
    return Outcome((worst(findings),))


def _validate(part: BasePlate) -> None:
    low, high = part.section.edges[2:]
    left, right = part.section.edges[:2]
    across = right - left
    if part.pieces > 1 and part.apart is not None:
        across = part.pieces * across + (part.pieces - 1) * part.apart
    problems = [
        Problem(key, f"{given:g} mm", "is less than the member on it", f"{least:g} mm or more", part=part.name)
        for key, given, least in (("length", part.length, high - low), ("width", part.width, across))
        if given < least - 1e-9
    ]
    if (part.concrete is None) == (part.bed is None):
        wanted = "one of the two: what the plate stands on"
        fault = "stands beside bed_steel" if part.bed else "is missing"
        problems.append(Problem("concrete", "", fault, wanted, 'concrete = "20 MPa"', part.name))
    if part.concrete is not None and part.concrete <= 0:
        given = f"{part.concrete:g} MPa"
        problems.append(Problem("concrete", given, "must be above zero", "f_ck", 'concrete = "20 MPa"', part.name))
    if part.concrete is not None and part.concrete > STRONGEST:
        given, wanted = f"{part.concrete:g} MPa", f"f_ck of at most {STRONGEST:g} MPa (EN 1992-1-1 Table 3.1)"
        problems.append(Problem("concrete", given, "is no concrete", wanted, 'concrete = "20 MPa"', part.name))
    if not 1 <= part.concentration <= 3:
        problems.append(
            Problem(
                "concentration", f"{part.concentration:g}", "is out of range", "1 to 3", "concentration = 1", part.name
            )
        )
    if part.throat is not None and part.leg is not None:
        problems.append(Problem("throat", "", "throat and leg are both given", "one of the two", "", part.name))
    elif part.throat is not None or part.leg is not None:
        problems += _throat(part)
    if problems:
        raise InputError(problems)


def _throat(part: BasePlate) -> tuple[Problem, ...]:
    """Fillets above what the thinnest of the member's walls takes, or the plate."""
    key, a = ("throat", part.throat) if part.leg is None else ("leg", welds.throat_of_leg(part.leg))
    thinnest = min(part.thickness, *(element.t for element in part.section.elements))
    side = "alone" if form(part.section) in ("hollow", "tube", "round") else "both"
    found = throat_above(key, a, thinnest, part.section_steel or part.steel, part.inspected, side)
    return tuple(problem.within(part=part.name) for problem in found)


def _assumptions(part: BasePlate) -> tuple[Assumption, ...]:
    made = [
        ("the member stands on the middle of the plate", ""),
        ("anchors, if any, stand no nearer to the middle than the member's own walls", ""),
    ]
    if part.concrete is not None:
        text = (
            f"concrete: gamma_c {GAMMA_C:g}, alpha_cc {ALPHA_CC:g}; grout at least a fifth as strong as it and no "
            "thicker than a fifth of the plate's smaller side (beta_j 2/3); the block itself is not judged"
        )
        made.append((text, ""))
    else:
        text = "what is under the plate is solid steel, or stiff walls in line with the member's"
        made.append((text, text))
    for steel, what in ((part.steel, "plate"), (part.bed, "bed")):
        if steel is not None and steel.assumed:
            made.append((f"steel of the {what} unknown: {steel.name}", steel.condition))
    return tuple(Assumption(part.name, text, condition) for text, condition in made)
