"""Angles in bending: elastic about their principal axes, free to move sideways, class by Table 5.2.

A moment about a leg's axis bends an angle about both principal axes at once; the product of inertia says how.
"""

from typing import Any

import numpy as np

from structcheck.checks.member_class import SectionClass, section_class
from structcheck.checks.member_stress import Station, greatest_stress
from structcheck.errors import NotCovered
from structcheck.findings import Finding, interaction, judged
from structcheck.standards.en1993_1_1.cross_section import CODE


def angle_finding(check: str, member: Any, station: Station) -> Finding:
    """Bending of an angle alone, with shear, or with all forces: elastic (6.2.1(5), 6.2.9.2). Raises NotCovered.

    member  of `section_resistance`
    """
    if check == "bending":
        station = station._replace(N=0.0, V_y=0.0, V_z=0.0, T=0.0)
    elif check == "bending and shear":
        station = station._replace(N=0.0)
    classified = _classified(member, station)
    if classified.number == 4:
        raise NotCovered(f"{classified.text}: a class 4 leg in bending is not covered here")
    f_d = member.f_y / member.basis.gamma_M0
    found = greatest_stress(member.bent, [station], member.pieces)
    used = found.value / f_d
    reason = f"elastic about both principal axes, free to move sideways, {found.fibre}, {station.where}; "
    reason += classified.text
    if check == "bending":
        M = max(abs(station.M_y), abs(station.M_z))
        resistance = M / used if used else np.inf
        source = f"{CODE} (6.14), 6.2.1(5)"
        return judged(member.name, check, station.case.name, M, resistance, "kN m", source, reason=reason)
    source = f"{CODE} 6.2.1(5)" if check == "bending and shear" else f"{CODE} (6.42), 6.2.1(5)"
    k = 1 / used if used else np.inf
    return interaction(member.name, check, station.case.name, k, source, clause_ratio=used**2, reason=reason)


def _classified(member: Any, station: Station) -> SectionClass:
    """The class in the worse sense of the moments to one another; compression takes the angles' own row."""
    pieces, found = member.pieces, []
    for up in (1.0, -1.0):
        for right in (1.0, -1.0) if station.M_z else (1.0,):
            M_y, M_z = up * station.M_y / pieces, right * station.M_z / pieces
            found.append(section_class(member.section, member.f_y, N=-station.N / pieces, M_y=M_y, M_z=M_z))
    return max(found, key=lambda one: one.number)
