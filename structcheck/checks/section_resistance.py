"""Checks of a member's cross-section from its internal forces: EN 1993-1-1 6.2, and nominal stress against yield."""

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

from structcheck.checks.basis import Basis
from structcheck.checks.member_class import SectionClass, section_class
from structcheck.checks.member_forms import clear_web, closed, form, require_en1993, yield_strength
from structcheck.checks.member_interaction import (
    Capacity,
    bending_shear_factor,
    capacity,
    clause_bending_shear_ratio,
    combined,
)
from structcheck.checks.member_stress import Station, greatest_stress
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, Finding, Outcome, TimesOnYield, interaction, judged, not_checked, worst
from structcheck.materials.steels import Steel
from structcheck.standards.en1993_1_1 import classification, cross_section
from structcheck.standards.en1993_1_1.cross_section import CODE

__all__ = ["Station", "check_member_section"]


def check_member_section(
    part: str, section: Any, steel: Steel, pieces: int, stations: Sequence[Station], basis: Basis
) -> Outcome:
    """Judge one member by the internal forces at its stations, all pieces together, shared equally.

    Ultimate stations feed axial, bending, shear, bending and shear, axial and bending, torsion; those at the greatest
    force `yield at greatest force`; rated ones times on yield. Only checks whose forces occur are made.
    """
    assumptions = material_assumptions(part, steel)
    findings: list[Finding] = []
    ultimate = [s for s in stations if s.case.limit == "ultimate"]
    try:
        require_en1993(section, steel)
        f_y = yield_strength(section, steel)
    except NotCovered as reason:
        findings += [not_checked(part, check, str(reason)) for check in _occurring(ultimate)]
    else:
        for check in _occurring(ultimate):
            method = _METHODS[check]
            findings.append(worst(_made(part, check, method, section, f_y, pieces, s, basis) for s in ultimate))
    findings += yield_findings(part, section, steel, pieces, stations)
    return Outcome(
        findings=tuple(findings),
        assumptions=assumptions,
        times_on_yield=times_on_yield(part, section, steel, pieces, stations),
    )


def material_assumptions(part: str, steel: Steel) -> tuple[Assumption, ...]:
    """What was taken for a steel nobody stated."""
    if not steel.assumed:
        return ()
    return (Assumption(part, f"steel unknown: taken as {steel.name} ({steel.source})", steel.condition),)


def _occurring(stations: Sequence[Station]) -> list[str]:
    """The checks whose forces occur at these stations."""
    N, T = any(s.N for s in stations), any(s.T for s in stations)
    V = any(s.V_y or s.V_z for s in stations)
    M_y, M_z = any(s.M_y for s in stations), any(s.M_z for s in stations)
    wanted = {
        "axial": N,
        "bending": M_y or M_z,
        "shear": V,
        "torsion": T,
        "bending and shear": (M_y or M_z) and V,
        "axial and bending": (N and (M_y or M_z)) or (M_y and M_z),
    }
    return [check for check, occurs in wanted.items() if occurs]


_Method = Callable[[str, str, Any, float, int, Station, Basis], Finding]


def _made(
    part: str, check: str, method: _Method, section: Any, f_y: float, pieces: int, station: Station, basis: Basis
) -> Finding:
    try:
        return method(part, check, section, f_y, pieces, station, basis)
    except NotCovered as reason:
        return not_checked(part, check, str(reason), case=station.case.name)


# ---- one check at one station ---------------------------------------------------------------


def _axial(part: str, check: str, section: Any, f_y: float, pieces: int, station: Station, basis: Basis) -> Finding:
    N_pl = pieces * cross_section.plastic_axial_resistance(section.A, f_y, basis.gamma_M0)
    source, reason = f"{CODE} (6.6)", f"gross section in tension, {station.where}"
    if station.N < 0:
        classified = section_class(section, f_y, N=-station.N)
        _no_class_4(classified)
        source, reason = f"{CODE} (6.10)", f"compression, {station.where}; {classified.text}"
    return judged(part, check, station.case.name, abs(station.N), float(N_pl), "kN", source, reason=reason)


def _bending(part: str, check: str, section: Any, f_y: float, pieces: int, station: Station, basis: Basis) -> Finding:
    found = [
        _bending_about(axis, part, check, section, f_y, pieces, station, basis)
        for axis, M in (("y", station.M_y), ("z", station.M_z))
        if M or axis == "y"
    ]
    return worst(found)


def _bending_about(
    axis: str, part: str, check: str, section: Any, f_y: float, pieces: int, station: Station, basis: Basis
) -> Finding:
    M = station.M_y if axis == "y" else station.M_z
    classified, able = _about(axis, section, f_y, pieces, station, basis)
    resistance = able.M_y if axis == "y" else able.M_z
    source = f"{CODE} {'(6.13)' if able.number <= 2 else '(6.14)'}"
    reason = f"{station.where}; {classified.text}" + ("" if axis == "y" else ", about z")
    return judged(part, check, station.case.name, abs(M), float(resistance), "kN m", source, reason=reason)


def _shear(part: str, check: str, section: Any, f_y: float, pieces: int, station: Station, basis: Basis) -> Finding:
    found = []
    for axis, V in (("z", station.V_z), ("y", station.V_y)):
        if V or axis == "z":
            _web_is_stocky(section, f_y, axis, basis.eta)
            A_v = section.shear_area(axis, basis.eta)
            V_pl = pieces * cross_section.plastic_shear_resistance(A_v, f_y, basis.gamma_M0)
            reason = f"{station.where}; A_v {float(pieces * A_v):.0f} mm2" + ("" if axis == "z" else ", along y")
            source = f"{CODE} (6.18)"
            found.append(judged(part, check, station.case.name, abs(V), float(V_pl), "kN", source, reason=reason))
    return worst(found)


def _bending_and_shear(
    part: str, check: str, section: Any, f_y: float, pieces: int, station: Station, basis: Basis
) -> Finding:
    found = []
    for axis, M, V in (("y", station.M_y, station.V_z), ("z", station.M_z, station.V_y)):
        if not (M or V) and axis == "z":
            continue
        _web_is_stocky(section, f_y, "z" if axis == "y" else "y", basis.eta)
        classified, able = _about(axis, section, f_y, pieces, station, basis)
        M_c, V_pl, share = (able.M_y, able.V_z, able.share_y) if axis == "y" else (able.M_z, able.V_y, able.share_z)
        M, V = abs(M), abs(V)
        factor = float(bending_shear_factor(M / M_c, V / V_pl, share))
        low = V_pl / 2 >= V
        reason = f"{station.where}; {classified.text}; " + (
            "V_Ed is at most V_pl,Rd / 2: no allowance as it stands (6.2.8(2))"
            if low
            else f"V_Ed is {V / float(V_pl):.2f} V_pl,Rd"
        )
        ratio = float(clause_bending_shear_ratio(M, V, float(M_c), float(V_pl), float(share)))
        clause = ratio if np.isfinite(ratio) else None
        source = f"{CODE} 6.2.8"
        found.append(interaction(part, check, station.case.name, factor, source, clause_ratio=clause, reason=reason))
    return worst(found)


def _axial_and_bending(
    part: str, check: str, section: Any, f_y: float, pieces: int, station: Station, basis: Basis
) -> Finding:
    if form(section) == "angle":
        raise NotCovered(_ANGLE)
    for axis, V in (("z", station.V_z), ("y", station.V_y)):
        if V:
            _web_is_stocky(section, f_y, axis, basis.eta)
    answer = combined(section, f_y, station, pieces, basis.gamma_M0, basis.eta)
    clause = "6.2.9.1" if answer.classified.number <= 2 else "6.2.9.2"
    also = ", 6.2.10" if station.V_y or station.V_z else ""
    return interaction(
        part,
        check,
        station.case.name,
        answer.factor,
        f"{CODE} {clause}{also}",
        clause_ratio=answer.clause_ratio if np.isfinite(answer.clause_ratio) else None,
        reason=f"{station.where}; {answer.classified.text}",
    )


def _torsion(part: str, check: str, section: Any, f_y: float, pieces: int, station: Station, basis: Basis) -> Finding:
    """Saint-Venant torsion of closed and solid sections, with the shear beside it (6.2.7)."""
    if station.T and not closed(section):
        raise NotCovered("torsion of an open section warps it: the member's length and ends decide, not this section")
    T_Rd = float(pieces * section.Wt * cross_section.shear_yield_strength(f_y) / basis.gamma_M0)
    source, reason = f"{CODE} 6.2.7", f"elastic, {station.where}"
    return judged(part, check, station.case.name, abs(station.T), T_Rd, "kN m", source, reason=reason)


_METHODS: dict[str, _Method] = {
    "axial": _axial,
    "bending": _bending,
    "shear": _shear,
    "torsion": _torsion,
    "bending and shear": _bending_and_shear,
    "axial and bending": _axial_and_bending,
}

_ANGLE = "bending of an angle turns about its principal axes, which is not covered here"


def _about(
    axis: str, section: Any, f_y: float, pieces: int, station: Station, basis: Basis
) -> tuple[SectionClass, Capacity]:
    """Class and resistances for bending about one axis. Raises NotCovered in class 4 and for angles."""
    if form(section) == "angle":
        raise NotCovered(_ANGLE)
    M = station.M_y if axis == "y" else station.M_z
    moments = {"M_y" if axis == "y" else "M_z": M or 1.0}
    classified = section_class(section, f_y, **moments)
    _no_class_4(classified)
    return classified, capacity(section, f_y, classified.number, pieces, basis.gamma_M0, basis.eta)


def _no_class_4(classified: SectionClass) -> None:
    if classified.number == 4:
        raise NotCovered(f"{classified.text}: effective widths are not covered here")


def _web_is_stocky(section: Any, f_y: float, axis: str, eta: float) -> None:
    """Raise NotCovered where the web could buckle in shear (6.2.6(6))."""
    web = clear_web(section, axis)
    if web is None:
        return
    limit = cross_section.shear_buckling_limit(classification.epsilon(f_y), eta)
    if web[0] / web[1] > limit:
        raise NotCovered(
            f"h_w/t_w {web[0] / web[1]:.0f} is over {limit:.0f} (6.22): shear buckling is not covered here"
        )


# ---- elastic stress --------------------------------------------------------------------------


def yield_findings(
    part: str, section: Any, steel: Steel, pieces: int, stations: Sequence[Station]
) -> tuple[Finding, ...]:
    """`yield at greatest force`: nominal elastic stress against f_y, from the stations at the greatest force."""
    check = "yield at greatest force"
    found = []
    try:
        f_y = yield_strength(section, steel)
    except NotCovered as reason:
        return (not_checked(part, check, str(reason)),)
    for station in stations:
        if station.case.limit == "greatest force":
            stress = greatest_stress(section, station, pieces)
            reason = f"{stress.fibre}, {station.where}"
            source = f"nominal elastic stress, {CODE} 6.2.1(5); f_y of {steel.source}"
            found.append(judged(part, check, station.case.name, float(stress.value), f_y, "MPa", source, reason=reason))
    return (worst(found),) if found else ()


def times_on_yield(
    part: str, section: Any, steel: Steel, pieces: int, stations: Sequence[Station]
) -> tuple[TimesOnYield, ...]:
    """f_y over the greatest elastic stress of the stations at rated load; nothing where nothing is stressed."""
    try:
        f_y = yield_strength(section, steel)
    except NotCovered:
        return ()
    stresses = [float(greatest_stress(section, s, pieces).value) for s in stations if s.case.limit == "rated"]
    most = max(stresses, default=0.0)
    return (TimesOnYield(part, f_y / most),) if most > 0 else ()
