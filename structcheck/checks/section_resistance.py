"""Checks of a member's cross-section from its internal forces: EN 1993-1-1 6.2, and nominal stress against yield."""

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

from structcheck.checks.basis import Basis
from structcheck.checks.member_angle import angle_finding
from structcheck.checks.member_forms import closed, form, require_en1993, yield_strength
from structcheck.checks.member_interaction import bending_shear_factor, clause_bending_shear_ratio, combined
from structcheck.checks.member_shear import SlenderWeb, all_with_slender_web
from structcheck.checks.member_stress import Elastic, Station, forces_of, greatest_stress, least_second_order_factor
from structcheck.checks.member_torsion import warping
from structcheck.checks.section_bounds import greatest_utilisations
from structcheck.checks.section_member import Member, Weakest, share_of_torsion, twisted, with_torsion_as_shear
from structcheck.errors import NotCovered
from structcheck.findings import (
    Assumption,
    Finding,
    Outcome,
    TimesOnYield,
    interaction,
    judged,
    not_checked,
    worst,
    worst_case,
)
from structcheck.formula import recording
from structcheck.materials.steels import Steel
from structcheck.maths import first_of_greatest
from structcheck.standards import handbook_torsion
from structcheck.standards.en1993_1_1 import cross_section
from structcheck.standards.en1993_1_1.cross_section import CODE

__all__ = ["Station", "check_member_section"]


def check_member_section(
    part: str,
    section: Any,
    steel: Steel,
    pieces: int,
    stations: Sequence[Station],
    basis: Basis,
    *,
    bent: Any = None,
    elastic: Elastic | None = None,
    panel: float | None = None,
) -> Outcome:
    """Judge one member by the internal forces at its stations, all pieces together, shared equally.

    Ultimate stations feed axial, bending, shear, bending and shear, axial and bending, torsion; those at the greatest
    force `yield at greatest force`; rated ones times on yield. Only checks whose forces occur are made.

    bent     what holes leave of the section in bending, where they count (6.2.5(4)); None: the section
    elastic  the stresses of the stations in what holes leave of the section; None: in the section
    panel    distance between the stiffeners at its supports, for webs slender in shear; None: none stated
    """
    elastic = Elastic(section, stations, pieces) if elastic is None else elastic
    findings: list[Finding] = []
    ultimate = [s for s in stations if s.case.limit == "ultimate"]
    try:
        require_en1993(section, steel)
        bent = section if bent is None else bent
        member = Member(part, section, yield_strength(section, steel), pieces, basis, bent, panel)
    except NotCovered as reason:
        findings += [not_checked(part, check, str(reason)) for check in _occurring(ultimate)]
    else:
        for check in _occurring(ultimate):
            if check == "torsion" and not closed(section):
                findings.append(_open_torsion(check, member, [s for s in ultimate if twisted(s)]))
            else:
                picked = ultimate if form(section) == "angle" else _greatest(check, ultimate)
                findings.append(_of_stations(check, member, picked))
    findings += yield_findings(part, steel, elastic)
    return Outcome(
        findings=tuple(findings),
        assumptions=material_assumptions(part, steel),
        times_on_yield=times_on_yield(part, steel, elastic),
    )


def material_assumptions(part: str, steel: Steel) -> tuple[Assumption, ...]:
    """What was taken for a steel nobody stated."""
    if not steel.assumed:
        return ()
    return (Assumption(part, f"steel unknown: taken as {steel.name} ({steel.source})", steel.condition),)


def _occurring(stations: Sequence[Station]) -> list[str]:
    """The checks whose forces occur at these stations."""
    N, T = any(s.N for s in stations), any(twisted(s) for s in stations)
    V = any(s.V_y or s.V_z for s in stations)
    M_y, M_z = any(s.M_y for s in stations), any(s.M_z for s in stations)
    wanted = {
        "axial": N,
        "bending": M_y or M_z,
        "shear": V,
        "torsion": T,
        "bending and shear": (M_y or M_z) and (V or T),
        "axial and bending": (N and (M_y or M_z)) or (M_y and M_z),
    }
    return [check for check, occurs in wanted.items() if occurs]


def _greatest(check: str, stations: Sequence[Station]) -> Sequence[Station]:
    """The stations that can govern a check: where it rests on one force alone, those of its greatest and least."""
    if check == "shear" and any(twisted(s) for s in stations):
        return stations
    forces = {"axial": ("N",), "bending": ("M_y", "M_z"), "shear": ("V_y", "V_z")}.get(check)
    if forces is None:
        return stations
    values = [np.array([getattr(s, force) for s in stations]) for force in forces]
    found = [stations[first_of_greatest(sign * value)] for value in values for sign in (1, -1)]
    return list({id(station): station for station in found}.values())


def _of_stations(check: str, member: Member, stations: Sequence[Station]) -> Finding:
    """The finding of the station that governs."""
    warped = [s for s in stations if s.B] if check == "axial and bending" else []
    plain = [s for s in stations if s not in warped] if warped else stations
    bounds = greatest_utilisations(check, member, plain)
    found = [worst_case(lambda station: _made(check, member, station), plain, bounds)] if plain else []
    # No clause combines N and both moments with a bimoment; the elastic sum of all stresses always may (6.2.1(5)).
    found += [_open_torsion(check, member, warped)] if warped else []
    return worst(found)


def _made(check: str, member: Member, station: Station) -> Finding:
    method = angle_finding if form(member.section) == "angle" and "bending" in check else _METHODS[check]
    try:
        return method(check, member, station)
    except NotCovered as reason:
        return not_checked(member.name, check, str(reason), case=station.case.name)


# ---- one check at one station ---------------------------------------------------------------


def _axial(check: str, member: Member, station: Station) -> Finding:
    section, f_y, gamma_M0 = member.section, member.f_y, member.basis.gamma_M0
    if station.N >= 0:
        resistance = member.pieces * cross_section.plastic_axial_resistance(section.A, f_y, gamma_M0)
        source, reason = f"{CODE} (6.6)", f"gross section in tension, {station.where}"
    else:
        classified, able = member.pressed()
        resistance = able.N_c
        source = f"{CODE} {'(6.11)' if classified.number == 4 else '(6.10)'}"
        reason = f"compression, {station.where}; {classified.text}"
    return judged(member.name, check, station.case.name, abs(station.N), float(resistance), "kN", source, reason=reason)


def _bending(check: str, member: Member, station: Station) -> Finding:
    found = []
    for axis, M in (("y", station.M_y), ("z", station.M_z)):
        if not M and axis == "z":
            continue
        classified, able = member.about(axis, M)
        resistance = able.M_y if axis == "y" else able.M_z
        source = f"{CODE} {_BENDING_CLAUSE[classified.number]}"
        reason = f"{station.where}; {classified.text}" + ("" if axis == "y" else ", about z")
        case = station.case.name
        found.append(judged(member.name, check, case, abs(M), float(resistance), "kN m", source, reason=reason))
    return worst(found)


_BENDING_CLAUSE = {1: "(6.13)", 2: "(6.13)", 3: "(6.14)", 4: "(6.15)"}


def _shear(check: str, member: Member, station: Station) -> Finding:
    found = []
    basis = member.basis
    for axis, V in (("z", station.V_z), ("y", station.V_y)):
        if not V and axis == "y":
            continue
        if slender := member.slender(axis):
            V_pl, text, source = member.pieces * slender.V_b, slender.text, "EN 1993-1-5:2006 5.2"
        else:
            A_v = member.pieces * member.bent.shear_area(axis, basis.eta)
            V_pl = float(cross_section.plastic_shear_resistance(A_v, member.f_y, basis.gamma_M0))
            text, source = f"A_v {float(A_v):.0f} mm2", f"{CODE} (6.18)"
        factor, torsion = _left_by_torsion(member, station, abs(V) / V_pl, slender)
        reason = f"{station.where}; {text}" + ("" if axis == "z" else ", along y") + torsion
        source += ", 6.2.7(9)" if torsion else ""
        resistance = abs(V) * factor if torsion and V else V_pl
        found.append(judged(member.name, check, station.case.name, abs(V), resistance, "kN", source, reason=reason))
    return worst(found)


def _left_by_torsion(member: Member, station: Station, v: float, slender: SlenderWeb | None) -> tuple[float, str]:
    """Factor by which shear and torsion can grow together (6.26 to 6.28), and what to say of it."""
    torsion = "; with the torque growing too" if twisted(station) else ""
    # Where a bimoment acts alone there is neither shear nor torque.
    used = v + share_of_torsion(member, station, slender) if torsion else v
    return (1 / used if used > 0 else np.inf), torsion


def _torsion(check: str, member: Member, station: Station) -> Finding:
    """Torsion of a closed or solid section, elastic (6.2.7)."""
    tau_Rd = cross_section.shear_yield_strength(member.f_y) / member.basis.gamma_M0
    T_Rd = float(member.pieces * member.section.Wt * tau_Rd)
    source, reason = f"{CODE} 6.2.7", f"elastic, {station.where}"
    return judged(member.name, check, station.case.name, abs(station.T), T_Rd, "kN m", source, reason=reason)


def _open_torsion(check: str, member: Member, stations: Sequence[Station]) -> Finding:
    """Torsion of an open section: all elastic stresses with warping (6.2.7), the twist growing sideways."""
    try:
        share_of_torsion(member, next((s for s in stations if s.warping_unknown), stations[0]))
        f_d = member.f_y / member.basis.gamma_M0
        station, k, stress, warp = _weakest(member, stations)
    except NotCovered as reason:
        return not_checked(member.name, check, str(reason), case=stations[0].case.name)
    grown = 1 / (1 - 1 / station.to_buckling) if station.to_buckling > 1 else np.inf
    source = f"{CODE} 6.2.7(5), 6.2.1(5); {handbook_torsion.SOURCE}"
    reason = (
        f"elastic stress with bending and shear {stress:.0f} MPa, {warp:.0f} MPa of it warping, {station.where}; "
        f"as it stands the twist grows {grown:.2f} times by leaning sideways"
    )
    ratio = (stress / f_d) ** 2
    return interaction(member.name, check, station.case.name, k, source, clause_ratio=ratio, reason=reason)


def _weakest(member: Member, stations: Sequence[Station]) -> Weakest:
    """The station whose twisted section yields first."""
    asked = {id(s) for s in stations}
    for among, weakest in () if recording() else member.weakest:
        if asked <= among and id(weakest.station) in asked:
            return weakest
    forces = forces_of(stations, member.pieces)
    k_cr = np.array([s.to_buckling for s in stations])
    number, k = least_second_order_factor(member.section, member.f_y / member.basis.gamma_M0, k_cr, **forces)
    stress = greatest_stress(member.section, [stations[number]], member.pieces).value
    found = Weakest(stations[number], k, stress, warping_stress_of(member, stations[number]))
    member.weakest.append((asked, found))
    return found


def warping_stress_of(member: Member, station: Station) -> float:
    """Normal stress of the bimoment alone, MPa."""
    omega = warping(member.section).omega
    return float(handbook_torsion.warping_stress(abs(station.B) / member.pieces, omega, member.section.Iw))


def _bending_and_shear(check: str, member: Member, station: Station) -> Finding:
    found = []
    for axis, M, V in (("y", abs(station.M_y), station.V_z), ("z", abs(station.M_z), station.V_y)):
        if axis == "z" and not (M or V):
            continue
        slender = member.slender("z" if axis == "y" else "y")
        classified, able = member.about(axis, station.M_y if axis == "y" else station.M_z)
        M_c, V_pl, share = (able.M_y, able.V_z, able.share_y) if axis == "y" else (able.M_z, able.V_y, able.share_z)
        M_c, V_pl, share = float(M_c), float(V_pl), float(share)
        if slender:
            V_pl, share = member.pieces * slender.V_b, 1.0 if classified.number == 4 else slender.share
        v = abs(V) / V_pl
        if twisted(station):
            # Torsion takes its share of the shear strength first (6.2.8(4)); v + t is at least v / (1 - t).
            v += share_of_torsion(member, station, slender)
        factor = float(bending_shear_factor(M / M_c, v, share))
        name, clause = ("V_bw,Rd", "EN 1993-1-5:2006 7.1") if slender else ("V_pl,Rd", f"{CODE} 6.2.8")
        state = f"V_Ed is {v:.2f} {name}"
        if v <= 0.5:
            state = f"V_Ed is at most {name} / 2: no allowance as it stands ({'7.1(1)' if slender else '6.2.8(2)'})"
        ratio = clause_bending_shear_ratio(M, v, M_c, share)
        found.append(
            interaction(
                member.name,
                check,
                station.case.name,
                factor,
                clause,
                clause_ratio=ratio if np.isfinite(ratio) else None,
                reason=f"{station.where}; {classified.text}; {state}",
            )
        )
    return worst(found)


def _axial_and_bending(check: str, member: Member, station: Station) -> Finding:
    slender = {axis: member.slender(axis) for axis, V in (("z", station.V_z), ("y", station.V_y)) if V}
    if any(slender.values()):
        t = max(share_of_torsion(member, station, web) for web in slender.values()) if twisted(station) else 0.0
        return all_with_slender_web(check, member, station, slender, t)
    found = next((k for used_up, k in member.used_up if used_up is station), None)
    station = with_torsion_as_shear(member, station)
    answer = combined(member.bent, member.f_y, station, member.pieces, member.resistances, found)
    clause = {3: "6.2.9.2", 4: "6.2.9.3"}.get(answer.classified.number, "6.2.9.1")
    also = ", 6.2.10" if station.V_y or station.V_z else ""
    return interaction(
        member.name,
        check,
        station.case.name,
        answer.factor,
        f"{CODE} {clause}{also}",
        clause_ratio=answer.clause_ratio if np.isfinite(answer.clause_ratio) else None,
        reason=f"{station.where}; {answer.classified.text}",
    )


_METHODS: dict[str, Callable[[str, Member, Station], Finding]] = {
    "axial": _axial,
    "bending": _bending,
    "shear": _shear,
    "torsion": _torsion,
    "bending and shear": _bending_and_shear,
    "axial and bending": _axial_and_bending,
}


# ---- elastic stress --------------------------------------------------------------------------


def yield_findings(part: str, steel: Steel, elastic: Elastic) -> tuple[Finding, ...]:
    """`yield at greatest force`: nominal elastic stress against f_y, from the stations at the greatest force."""
    check = "yield at greatest force"
    try:
        stress = elastic.greatest("greatest force")
        if stress is None:
            return ()
        f_y = yield_strength(elastic.section, steel)
    except NotCovered as reason:
        return (not_checked(part, check, str(reason)),)
    source = f"nominal elastic stress, {CODE} 6.2.1(5); f_y of {steel.source}"
    reason = f"{stress.fibre}, {stress.station.where}"
    case = stress.station.case.name
    return (judged(part, check, case, stress.value, f_y, "MPa", source, reason=reason),)


def times_on_yield(part: str, steel: Steel, elastic: Elastic) -> tuple[TimesOnYield, ...]:
    """f_y over the greatest elastic stress of the stations at rated load; nothing where nothing is stressed."""
    try:
        stress = elastic.greatest("rated")
        if stress is None or not stress.value > 0:
            return ()
        return (TimesOnYield(part, yield_strength(elastic.section, steel) / stress.value),)
    except NotCovered:
        return ()
