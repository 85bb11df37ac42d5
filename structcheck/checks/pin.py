"""A pin through one inner plate between two outer ones, and the eyes of these plates, by EN 1993-1-8 3.13."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from structcheck.checks.basis import Basis, Case
from structcheck.checks.fatigue import DETAILS, fatigue
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import (
    Assumption,
    Finding,
    NotNeeded,
    Outcome,
    TimesOnYield,
    complete,
    interaction,
    judged,
    not_checked,
    worst,
)
from structcheck.formula import remark
from structcheck.materials.steels import Steel
from structcheck.standards.en1993_1_8 import pins as clause

NEEDED = (
    "pin shear",
    "pin bearing",
    "pin bending",
    "pin shear and bending",
    "pin contact",
    "lug geometry",
    "lug tear-out",
    "yield at greatest force",
    "fatigue",
)

E = 210e3
GAMMA_M6_SER = 1.0
TABLE_3_10 = "EN 1993-1-8:2005 Table 3.10"
TABLE_3_9 = "EN 1993-1-8:2005 Table 3.9"
USUAL_CLEARANCE = 1.0


@dataclass(frozen=True)
class Pin:
    """A solid round pin in double shear.

    steel        of the pin, and of the plates where theirs is not stated
    hole         diameter d_0 in the plates; None: 1 mm more than the pin
    inner        thickness of the plate or plates between the outer ones, together
    outer        thickness of each outer plate
    gap          between inner and outer plate on each side; None: not stated
    replaceable  meant to be taken out: service checks too
    inner_steel, outer_steel  of the plates
    inner_end, outer_end      centre of the hole to the plate's end behind it, in the direction of the force
    inner_edge, outer_edge    centre of the hole to the nearer side of the plate
    """

    name: str
    diameter: float
    steel: Steel
    inner: float
    outer: float
    hole: float | None = None
    gap: float | None = None
    replaceable: bool = True
    inner_steel: Steel | None = None
    outer_steel: Steel | None = None
    inner_end: float | None = None
    inner_edge: float | None = None
    outer_end: float | None = None
    outer_edge: float | None = None

    @property
    def d_0(self) -> float:
        """Diameter of the hole."""
        return self.diameter + USUAL_CLEARANCE if self.hole is None else self.hole

    @property
    def area(self) -> float:
        """Section of the pin."""
        return math.pi * self.diameter**2 / 4

    @property
    def plates(self) -> tuple["Eye", "Eye"]:
        """The inner plate, and one of the two outer ones."""
        return (
            Eye("inner", self.inner, self.inner_steel or self.steel, 1.0, self.inner_end, self.inner_edge),
            Eye("outer", self.outer, self.outer_steel or self.steel, 0.5, self.outer_end, self.outer_edge),
        )


@dataclass(frozen=True)
class Eye:
    """One plate with its hole: which it is, thickness, steel, share of the pull, centre to end and to side."""

    which: Literal["inner", "outer"]
    t: float
    steel: Steel
    share: float
    end: float | None
    edge: float | None


@dataclass(frozen=True)
class PinLoads:
    """Pull across the pin in one case."""

    case: Case
    pull: float


Judge = Callable[[Pin, PinLoads, Basis], Finding]


def check_pin(part: Pin, loads: Sequence[PinLoads], basis: Basis) -> Outcome:
    """Judge a pin and the eyes it passes through. Raises InputError where it cannot be built."""
    _validate(part)
    by_limit = {
        limit: [load for load in loads if load.case.limit == limit and load.pull]
        for limit in ("ultimate", "greatest force", "rated")
    }
    rated = by_limit["rated"]
    outcome = _run(part, _STRENGTH, by_limit["ultimate"], rated, basis)
    outcome += _contact(part, rated, basis)
    outcome += _run(part, {"yield at greatest force": (_yield, None)}, by_limit["greatest force"], [], basis)
    if rated:
        value = min(_least_on_yield(part, load) for load in rated) if part.gap is not None else None
        outcome += Outcome(times_on_yield=() if value is None else (TimesOnYield(part.name, value),))
        outcome += _fatigue(part, rated, basis)
    outcome += Outcome(assumptions=_assumptions(part))
    return complete(outcome, part.name, NEEDED, "no load case for it was given")


def _run(
    part: Pin,
    judges: dict[str, tuple[Judge, Judge | None]],
    loads: Sequence[PinLoads],
    rated: Sequence[PinLoads],
    basis: Basis,
) -> Outcome:
    """Each check in its governing case; the second judge is the service check of a replaceable pin."""
    findings = []
    for check, (judge, service) in judges.items():
        try:
            judged_ones = [judge(part, load, basis) for load in loads]
            if service and part.replaceable:
                judged_ones += [service(part, load, basis) for load in rated]
                if not rated and judged_ones:
                    raise NotCovered("a replaceable pin is judged at service loads too, and no rated case was given")
        except NotCovered as reason:
            judged_ones = [not_checked(part.name, check, str(reason))]
        if judged_ones:
            findings.append(worst(judged_ones))
    return Outcome(tuple(findings))


def _require(*steels: Steel) -> None:
    for steel in steels:
        if not steel.in_en1993:
            raise NotCovered(f"{steel.name} is outside EN 1993-1-1")


def _shear_of_one_plane(part: Pin, basis: Basis) -> float:
    _require(part.steel)
    return clause.shear_resistance(part.area, part.steel.f_u(part.diameter), basis.gamma_M2)


def _shear(part: Pin, load: PinLoads, basis: Basis) -> Finding:
    capacity = 2 * _shear_of_one_plane(part, basis)
    return judged(part.name, "pin shear", load.case.name, abs(load.pull), capacity, "kN", TABLE_3_10)


def _lower_yield(part: Pin, plate: Eye) -> float:
    _require(part.steel, plate.steel)
    return min(part.steel.f_y(part.diameter), plate.steel.f_y(plate.t))


def _bearing(part: Pin, load: PinLoads, basis: Basis) -> Finding:
    return _bearing_by(part, load, clause.bearing_resistance, basis.gamma_M0, TABLE_3_10)


def _bearing_in_service(part: Pin, load: PinLoads, basis: Basis) -> Finding:
    source = f"{TABLE_3_10} (replaceable, service)"
    return _bearing_by(part, load, clause.bearing_resistance_replaceable, GAMMA_M6_SER, source)


def _bearing_by(part: Pin, load: PinLoads, resistance: Callable[..., float], gamma: float, source: str) -> Finding:
    capacities = [
        (resistance(plate.t, part.diameter, _lower_yield(part, plate), gamma) / plate.share, plate.which)
        for plate in part.plates
    ]
    capacity, which = min(capacities)
    reason = f"{which} plate{'s' if which == 'outer' else ''}"
    return judged(part.name, "pin bearing", load.case.name, abs(load.pull), capacity, "kN", source, reason=reason)


def _moment(part: Pin, load: PinLoads) -> float:
    if part.gap is None:
        raise NotCovered("`gap` between inner and outer plate is not stated: it is part of the pin's lever")
    return clause.bending_moment(abs(load.pull), part.outer, part.inner, part.gap)


def _bending_resistance(part: Pin, basis: Basis) -> float:
    _require(part.steel)
    modulus = clause.section_modulus(part.diameter)
    return clause.bending_resistance(modulus, part.steel.f_y(part.diameter), basis.gamma_M0)


def _bending(part: Pin, load: PinLoads, basis: Basis) -> Finding:
    capacity = _bending_resistance(part, basis)
    return judged(part.name, "pin bending", load.case.name, _moment(part, load), capacity, "kN m", TABLE_3_10)


def _bending_in_service(part: Pin, load: PinLoads, basis: Basis) -> Finding:
    _require(part.steel)
    modulus = clause.section_modulus(part.diameter)
    f_yp = part.steel.f_y(part.diameter)
    capacity = clause.bending_resistance_replaceable(modulus, f_yp, GAMMA_M6_SER)
    source = f"{TABLE_3_10} (replaceable, service)"
    return judged(part.name, "pin bending", load.case.name, _moment(part, load), capacity, "kN m", source)


def _shear_and_bending(part: Pin, load: PinLoads, basis: Basis) -> Finding:
    cut = abs(load.pull) / 2, _shear_of_one_plane(part, basis)
    clause_ratio = clause.shear_and_bending(_moment(part, load), _bending_resistance(part, basis), *cut)
    return interaction(
        part.name,
        "pin shear and bending",
        load.case.name,
        1 / math.sqrt(clause_ratio),
        TABLE_3_10,
        clause_ratio=clause_ratio,
    )


def _contact(part: Pin, rated: Sequence[PinLoads], basis: Basis) -> Outcome:
    if not part.replaceable:
        return Outcome(does_not_apply=(NotNeeded(part.name, "pin contact", "the pin is not meant to be taken out"),))
    return _run(part, {"pin contact": (_contact_stress, None)}, rated, [], basis)


def _contact_stress(part: Pin, load: PinLoads, basis: Basis) -> Finding:
    findings = []
    for plate in part.plates:
        force = abs(load.pull) * plate.share
        stress = clause.contact_stress(E, force, part.d_0, part.diameter, plate.t)
        allowed = clause.contact_resistance(_lower_yield(part, plate), GAMMA_M6_SER)
        # The stress grows with the root of the force, so the load factor is the square of what is left.
        factor = (allowed / stress) ** 2 if stress else math.inf
        findings.append(
            interaction(
                part.name,
                "pin contact",
                load.case.name,
                factor,
                "EN 1993-1-8:2005 3.13.2(3)",
                clause_ratio=stress / allowed,
                reason=f"{plate.which} plate: {stress:.0f} of {allowed:.0f} MPa",
            )
        )
    return worst(findings)


def _lug_geometry(part: Pin, load: PinLoads, basis: Basis) -> Finding:
    capacities = [_eye_capacity(part, plate, basis) for plate in part.plates]
    capacity, reason = min(capacities)
    return judged(part.name, "lug geometry", load.case.name, abs(load.pull), capacity, "kN", TABLE_3_9, reason=reason)


def _eye_capacity(part: Pin, plate: Eye, basis: Basis) -> tuple[float, str]:
    """Pull on the pin at which Table 3.9 is just met: by type A, or by type B where the outline reaches it."""
    _require(plate.steel)
    missing = [f"`{plate.which}_{key}`" for key in ("end", "edge") if getattr(plate, key) is None]
    if missing:
        raise NotCovered(f"{' and '.join(missing)} not stated")
    f_y, d_0 = plate.steel.f_y(plate.t), part.d_0
    a, c = plate.end - d_0 / 2, plate.edge - d_0 / 2
    # Both rules of type A are linear in the force: what is left after the part that goes with the hole, in force.
    for_nothing = (
        a - clause.least_end_material(0.0, plate.t, f_y, d_0, basis.gamma_M0),
        c - clause.least_side_material(0.0, plate.t, f_y, d_0, basis.gamma_M0),
    )
    by_a = 2 * plate.t * f_y / basis.gamma_M0 * min(for_nothing)
    key = "end" if for_nothing[0] <= for_nothing[1] else "side"
    best = by_a, f"{plate.which} plate, type A, {key}"
    if plate.end >= 1.6 * d_0 and plate.edge >= 1.25 * d_0 and d_0 <= 2.5 * plate.t:
        by_b = (plate.t / clause.least_thickness(1.0, f_y, basis.gamma_M0)) ** 2
        best = max(best, (by_b, f"{plate.which} plate, type B"))
    return max(best[0], 0.0) / plate.share, best[1]


def _tear_out(part: Pin, load: PinLoads, basis: Basis) -> Finding:
    capacities = []
    for plate in part.plates:
        _require(plate.steel)
        if plate.end is None:
            raise NotCovered(f"`{plate.which}_end` not stated")
        tau = plate.steel.f_y(plate.t) / (math.sqrt(3) * basis.gamma_M0)
        capacities.append((clause.tear_out(plate.t, plate.end, part.d_0, tau) / plate.share, f"{plate.which} plate"))
    capacity, reason = min(capacities)
    source = "machine-design practice, two shear planes at f_y/sqrt(3)"
    return judged(part.name, "lug tear-out", load.case.name, abs(load.pull), capacity, "kN", source, reason=reason)


_STRENGTH: dict[str, tuple[Judge, Judge | None]] = {
    "pin shear": (_shear, None),
    "pin bearing": (_bearing, _bearing_in_service),
    "pin bending": (_bending, _bending_in_service),
    "pin shear and bending": (_shear_and_bending, None),
    "lug geometry": (_lug_geometry, None),
    "lug tear-out": (_tear_out, None),
}


def _stresses(part: Pin, load: PinLoads) -> tuple[float, float]:
    """Elastic stresses of the pin: bending at the outermost fibre, shear in the middle of the section."""
    bending = _moment(part, load) / clause.section_modulus(part.diameter)
    return bending, 4 / 3 * abs(load.pull) / 2 / part.area


def _net_stress(part: Pin, load: PinLoads, plate: Eye) -> float:
    """Nominal stress on the material beside the hole."""
    return abs(load.pull) * plate.share / (2 * (plate.edge - part.d_0 / 2) * plate.t)


def _yield(part: Pin, load: PinLoads, basis: Basis) -> Finding:
    bending, shear = _stresses(part, load)
    # On a round section the von Mises stress is greatest either at the fibre or in the middle.
    stress, where = max((bending, "bending of the pin"), (math.sqrt(3) * shear, "shear of the pin"))
    source = "EN 1993-1-1:2005 6.2.1(5), elastic"
    check, case = "yield at greatest force", load.case.name
    rows = [(stress, part.steel.f_y(part.diameter), where)]
    rows += [
        (_net_stress(part, load, plate), plate.steel.f_y(plate.t), f"{plate.which} plate beside the hole")
        for plate in part.plates
        if plate.edge is not None
    ]
    return worst(judged(part.name, check, case, s, f_y, "MPa", source, reason=why) for s, f_y, why in rows)


def _least_on_yield(part: Pin, load: PinLoads) -> float:
    bending, shear = _stresses(part, load)
    values = [part.steel.f_y(part.diameter) / max(bending, math.sqrt(3) * shear)]
    values += [
        plate.steel.f_y(plate.t) / _net_stress(part, load, plate) for plate in part.plates if plate.edge is not None
    ]
    return min(values)


def _fatigue(part: Pin, rated: Sequence[PinLoads], basis: Basis) -> Outcome:
    try:
        stresses = [_stresses(part, load) for load in rated]
    except NotCovered as reason:
        return Outcome((not_checked(part.name, "fatigue", str(reason)),))
    ranges = [
        (DETAILS["cut edge"], max(bending for bending, _ in stresses)),
        (DETAILS["parent metal in shear"], max(shear for _, shear in stresses)),
    ]
    ranges += [
        (DETAILS["plate with ordinary bolts"], max(_net_stress(part, load, plate) for load in rated))
        for plate in part.plates
        if plate.edge is not None
    ]
    remark("a pin has no detail of its own: category 125 in bending, as a machined surface, 100 in shear")
    return fatigue(part.name, ranges, basis)


def _validate(part: Pin) -> None:
    problems = []

    def wrong(key: str, given: float, fault: str, wanted: str, remedy: str = "") -> None:
        problems.append(Problem(key, f"{given:g} mm", fault, wanted, remedy=remedy, part=f'pin "{part.name}"'))

    for key in ("diameter", "inner", "outer"):
        value = getattr(part, key)
        if not (math.isfinite(value) and value > 0):
            wrong(key, value, "is not a length", "a length above nothing")
    if part.gap is not None and not (math.isfinite(part.gap) and part.gap >= 0):
        wrong("gap", part.gap, "is not a gap", "nothing or more", 'gap = "1 mm"')
    if part.hole is not None and not part.diameter <= part.hole < math.inf:
        remedy = f'hole = "{part.diameter + USUAL_CLEARANCE:g} mm"'
        wrong("hole", part.hole, "is smaller than the pin", f"at least {part.diameter:g} mm", remedy)
    for key in ("inner_end", "inner_edge", "outer_end", "outer_edge"):
        value = getattr(part, key)
        if value is not None and not value > part.d_0 / 2:
            fault = f"lets the hole of {part.d_0:g} mm break out of the plate"
            wrong(key, value, fault, f"more than {part.d_0 / 2:g} mm, from the hole's centre")
    if problems:
        raise InputError(problems)


def _assumptions(part: Pin) -> tuple[Assumption, ...]:
    made = []
    if part.steel.assumed:
        made.append(Assumption(part.name, f"steel of the pin unknown: {part.steel.name}", part.steel.condition))
    if part.hole is None:
        made.append(Assumption(part.name, f"holes of {part.d_0:g} mm, {USUAL_CLEARANCE:g} mm wider than the pin"))
    for plate in part.plates:
        own = part.inner_steel if plate.which == "inner" else part.outer_steel
        named = f"{plate.which} plate"
        if own is None:
            f_y = plate.steel.f_y(plate.t)
            text = f"{named} of the pin's steel, {plate.steel.name}; else {plate.which}_steel"
            made.append(Assumption(part.name, text, f"{named} with f_y >= {f_y:g} MPa"))
        elif own.assumed:
            made.append(Assumption(part.name, f"steel of the {named} unknown: {own.name}", own.condition))
    return tuple(made)
