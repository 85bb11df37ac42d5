"""A pin through one inner plate between two outer ones, and the eyes of these plates, by EN 1993-1-8 3.13."""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

from structcheck.checks.basis import Basis, greatest
from structcheck.checks.fatigue import DETAILS, fatigue
from structcheck.checks.pin_part import Eye, Pin, PinLoads, assumptions, validate
from structcheck.errors import NotCovered
from structcheck.findings import (
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
from structcheck.materials.steels import Steel
from structcheck.standards.en1993_1_8 import pins as clause

__all__ = ["NEEDED", "Eye", "Pin", "PinLoads", "check_pin"]

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

Judge = Callable[[Pin, PinLoads, Basis], Finding]


def check_pin(part: Pin, loads: Sequence[PinLoads], basis: Basis) -> Outcome:
    """Judge a pin and the eyes it passes through. Raises InputError where it cannot be built."""
    validate(part)
    by_limit = greatest(loads, lambda load: abs(load.pull))
    rated = by_limit["rated"]
    outcome = _run(part, _STRENGTH, by_limit["ultimate"], rated, basis)
    outcome += _contact(part, rated, basis)
    outcome += _yield(part, by_limit["greatest force"])
    if rated:
        outcome += Outcome(times_on_yield=_times(part, rated)) + _fatigue(part, rated, basis)
    outcome += Outcome(assumptions=assumptions(part))
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
    return min(part.steel.f_y(part.diameter), plate.f_y)


def bearing(part: Pin, load: PinLoads, basis: Basis) -> Finding:
    """Bearing of pin and plates at ultimate."""
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
    inner, outer = part.plates
    return clause.bending_moment(abs(load.pull), outer.t, inner.t, part.gap)


def _bending_resistance(part: Pin, basis: Basis) -> float:
    _require(part.steel)
    modulus = clause.section_modulus(part.diameter)
    return clause.bending_resistance(modulus, part.steel.f_y(part.diameter), basis.gamma_M0)


def bending(part: Pin, load: PinLoads, basis: Basis) -> Finding:
    """Bending of the pin at ultimate."""
    capacity = _bending_resistance(part, basis)
    return judged(part.name, "pin bending", load.case.name, _moment(part, load), capacity, "kN m", TABLE_3_10)


def _bending_in_service(part: Pin, load: PinLoads, basis: Basis) -> Finding:
    _require(part.steel)
    modulus = clause.section_modulus(part.diameter)
    f_yp = part.steel.f_y(part.diameter)
    capacity = clause.bending_resistance_replaceable(modulus, f_yp, GAMMA_M6_SER)
    source = f"{TABLE_3_10} (replaceable, service)"
    return judged(part.name, "pin bending", load.case.name, _moment(part, load), capacity, "kN m", source)


def shear_and_bending(part: Pin, load: PinLoads, basis: Basis) -> Finding:
    """Shear with bending, as a load factor."""
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
    f_y, d_0 = plate.f_y, part.d_0
    # A hole drawn out towards the end leaves that much less behind the pin.
    a, c = plate.end - part.slot - d_0 / 2, plate.edge - d_0 / 2
    # Both rules of type A are linear in the force: what is left after the part that goes with the hole, in force.
    for_nothing = (
        a - clause.least_end_material(0.0, plate.t, f_y, d_0, basis.gamma_M0),
        c - clause.least_side_material(0.0, plate.t, f_y, d_0, basis.gamma_M0),
    )
    by_a = 2 * plate.t * f_y / basis.gamma_M0 * min(for_nothing)
    key = "end" if for_nothing[0] <= for_nothing[1] else "side"
    best = by_a, f"{plate.which} plate, type A, {key}"
    if not part.slot and plate.end >= 1.6 * d_0 and plate.edge >= 1.25 * d_0 and d_0 <= 2.5 * plate.t:
        by_b = (plate.t / clause.least_thickness(1.0, f_y, basis.gamma_M0)) ** 2
        best = max(best, (by_b, f"{plate.which} plate, type B"))
    return max(best[0], 0.0) / plate.share, best[1]


def _tear_out(part: Pin, load: PinLoads, basis: Basis) -> Finding:
    capacities = []
    for plate in part.plates:
        _require(plate.steel)
        if plate.end is None:
            raise NotCovered(f"`{plate.which}_end` not stated")
        tau = plate.f_y / (math.sqrt(3) * basis.gamma_M0)
        capacities.append(
            (clause.tear_out(plate.t, plate.end - part.slot, part.d_0, tau) / plate.share, f"{plate.which} plate")
        )
    capacity, reason = min(capacities)
    source = "machine-design practice, two shear planes at f_y/sqrt(3)"
    return judged(part.name, "lug tear-out", load.case.name, abs(load.pull), capacity, "kN", source, reason=reason)


_STRENGTH: dict[str, tuple[Judge, Judge | None]] = {
    "pin shear": (_shear, None),
    "pin bearing": (bearing, _bearing_in_service),
    "pin bending": (bending, _bending_in_service),
    "pin shear and bending": (shear_and_bending, None),
    "lug geometry": (_lug_geometry, None),
    "lug tear-out": (_tear_out, None),
}


def stresses(part: Pin, load: PinLoads) -> tuple[float, float]:
    """Elastic stresses of the pin: bending at the outermost fibre, shear in the middle of the section."""
    bent = _moment(part, load) / clause.section_modulus(part.diameter)
    return bent, 4 / 3 * abs(load.pull) / 2 / part.area


def _net_stress(part: Pin, load: PinLoads, plate: Eye) -> float:
    """Nominal stress on the material beside the hole. Raises NotCovered where the side is not stated."""
    if plate.edge is None:
        raise NotCovered(f"`{plate.which}_edge` not stated: the {plate.which} plate beside the hole is not known")
    return abs(load.pull) * plate.share / (2 * (plate.edge - part.d_0 / 2) * plate.t)


def _yield(part: Pin, loads: Sequence[PinLoads]) -> Outcome:
    """The worst of pin and eyes; a certain failure is not hidden behind an eye whose sides are not stated."""
    findings = [finding for load in loads for finding in _yield_in_case(part, load)]
    failed = [finding for finding in findings if finding.verdict == "fails"]
    return Outcome((worst(failed or findings),)) if findings else Outcome()


def _yield_in_case(part: Pin, load: PinLoads) -> list[Finding]:
    check, case = "yield at greatest force", load.case.name
    source = "EN 1993-1-1:2005 6.2.1(5), elastic"
    findings = []
    for row in (_pin_row, *(partial(_eye_row, plate=plate) for plate in part.plates)):
        try:
            stress, f_y, where = row(part, load)
            findings.append(judged(part.name, check, case, stress, f_y, "MPa", source, reason=where))
        except NotCovered as reason:
            findings.append(not_checked(part.name, check, str(reason), case=case))
    return findings


def _pin_row(part: Pin, load: PinLoads) -> tuple[float, float, str]:
    bent, cut = stresses(part, load)
    # On a round section the von Mises stress is greatest either at the fibre or in the middle.
    stress, where = max((bent, "bending of the pin"), (math.sqrt(3) * cut, "shear of the pin"))
    return stress, part.steel.f_y(part.diameter), where


def _eye_row(part: Pin, load: PinLoads, plate: Eye) -> tuple[float, float, str]:
    return _net_stress(part, load, plate), plate.f_y, f"{plate.which} plate beside the hole"


def _times(part: Pin, loads: Sequence[PinLoads]) -> tuple[TimesOnYield, ...]:
    values = []
    for load in loads:
        for row in (_pin_row, *(partial(_eye_row, plate=plate) for plate in part.plates)):
            try:
                stress, f_y, _ = row(part, load)
                values.append(f_y / stress)
            except NotCovered:
                continue
    return (TimesOnYield(part.name, min(values)),) if values else ()


def _fatigue(part: Pin, rated: Sequence[PinLoads], basis: Basis) -> Outcome:
    """A pin has no detail of its own: category 125 in bending, as a machined surface, 100 in shear; 50 for its eyes."""
    ranges, gaps = [], []
    try:
        pairs = [stresses(part, load) for load in rated]
        ranges.append((replace(DETAILS["cut edge"], name="pin in bending"), max(bent for bent, _ in pairs)))
        ranges.append((replace(DETAILS["parent metal in shear"], name="pin in shear"), max(cut for _, cut in pairs)))
    except NotCovered as reason:
        gaps.append(str(reason))
    for plate in part.plates:
        try:
            detail = replace(DETAILS["plate with ordinary bolts"], name=f"{plate.which} plate beside the hole")
            ranges.append((detail, max(_net_stress(part, load, plate) for load in rated)))
        except NotCovered as reason:
            gaps.append(str(reason))
    outcome = fatigue(part.name, ranges, basis)
    if not gaps or not outcome.findings or outcome.findings[0].verdict == "fails":
        return outcome
    return replace(outcome, findings=(not_checked(part.name, "fatigue", "; ".join(gaps)),))
