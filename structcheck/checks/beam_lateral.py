"""Lateral torsional buckling of a beam of one span, M_cr by the stability of this beam under its own loads."""

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from math import inf
from typing import Any

from structcheck.analysis.beam import BeamSolution, Load, PointLoad, PointMoment, UniformLoad, solve
from structcheck.analysis.lateral import critical_factor
from structcheck.checks.angle_lateral import least_modulus
from structcheck.checks.basis import ULTIMATE, Basis
from structcheck.checks.beam_description import Beam
from structcheck.checks.member_class import class_in_bending
from structcheck.checks.member_forms import E, G, form, require_en1993, yield_strength
from structcheck.checks.member_interaction import capacity_of
from structcheck.checks.member_lateral import can_buckle, lateral_reduction
from structcheck.checks.member_stress import Station, along_member
from structcheck.findings import Finding, judged, worst
from structcheck.maths import first_of_greatest
from structcheck.standards.en1993_1_1 import lateral_torsional as code


def lateral_finding(beam: Beam, solution: BeamSolution, factor: float, basis: Basis, bent: Any = None) -> Finding:
    """The finding; every piece buckles by itself. Raises NotCovered outside EN 1993-1-1 6.3.2.

    factor  that of `critical_load_factor`
    bent    what holes leave of the section in bending; None: no holes that count
    """
    section, check = beam.section, "lateral torsional buckling"
    require_en1993(section, beam.steel)
    f_y = yield_strength(section, beam.steel)
    most = float(solution.greatest_moment().value)
    classified = class_in_bending(section, f_y, "y", 1.0 if most >= 0 else -1.0)
    bent, number = section if bent is None else bent, classified.number
    able = capacity_of(bent, f_y, number, beam.pieces, basis.gamma_M0, basis.eta)
    M_Rk = float(able.M_y) * basis.gamma_M0
    W = M_Rk / beam.pieces / f_y
    M_cr = factor * abs(most)
    found = lateral_reduction(section, beam.steel, f_y, W, M_cr / beam.pieces, beam.lateral_method)
    M_b = float(beam.pieces * code.buckling_resistance(found.chi, W, f_y, basis.gamma_M1))
    reason = f"M_cr {M_cr / 1e6:.4g} kN m by elastic stability; {found.text}; {classified.text}"
    M_Ed = basis.ultimate * abs(most)
    return judged(beam.name, check, ULTIMATE.name, M_Ed, M_b, "kN m", found.source, reason=reason)


def critical_load_factor(beam: Beam, solution: BeamSolution) -> float:
    """Factor on the rated loads at which the pieces buckle sideways; infinite where the shape cannot."""
    section = beam.section
    if form(section) not in ("i", "channel", "rectangle") or not can_buckle(section):
        return inf
    height = section.edges[3] if beam.load_height is None else beam.load_height
    stiffness = tuple(float(part) for part in (E * section.Iz, E * section.Iw, G * section.It))
    pieces, greatest = beam.pieces, max((abs(_size(load)) for load in solution.loads), default=0.0)
    if not greatest:
        return inf
    unit = tuple(replace(load, **{_WHAT[type(load)]: _size(load) / greatest}) for load in solution.loads)
    beam_of_one = solution.span, solution.supports, unit, float(solution.EI) / pieces, float(solution.GAs) / pieces
    return pieces * _factor_of_one(beam_of_one, stiffness, height, tuple(beam.held_at)) / greatest


_WHAT = {PointLoad: "force", UniformLoad: "intensity", PointMoment: "moment"}


def _size(load: Load) -> float:
    return getattr(load, _WHAT[type(load)])


@lru_cache(maxsize=256)
def _factor_of_one(
    beam: tuple[float, str, tuple[Load, ...], float, float],
    stiffness: tuple[float, float, float],
    height: float,
    held: tuple[float, ...],
) -> float:
    """Factor of one piece under loads whose largest is one: kept while a rating or a joint is looked for."""
    EIz, EIw, GIt = stiffness
    return critical_factor(solve(*beam), EIz=EIz, EIw=EIw, GIt=GIt, height=height, held=held)


def with_moments_across(
    finding: Finding, beam: Beam, stations: Sequence[Station], basis: Basis, bent: Any = None
) -> Finding:
    """The worse of a finding from the beam's own loads and of those in the frame, bent about both axes.

    The resistance stays that of the finding; what bends the beam about z takes its share of it (6.61 and 6.62 without
    axial force). Nothing changes where the finding was not made.
    """
    if finding.capacity is None:
        return finding
    section, M_b = beam.section, finding.capacity.value
    f_y = yield_strength(section, beam.steel)
    if form(section) == "angle":
        M_z = M_b * least_modulus(section, M_z=1.0) / least_modulus(section, M_y=1.0)
    else:
        number = max(class_in_bending(section, f_y, axis, sense).number for axis in "yz" for sense in (1.0, -1.0))
        bent = section if bent is None else bent
        able = capacity_of(bent, f_y, number, beam.pieces, basis.gamma_M1, basis.eta)
        M_z = float(able.M_z)
    bent_ones = [s for s in along_member(stations) if s.M_y]
    if not bent_ones:
        return finding
    uses = [s.M_y / M_b + s.M_z / M_z for s in bent_ones]
    governing = first_of_greatest(uses)
    used, s = uses[governing], bent_ones[governing]
    also = f", {s.M_z / M_z:.2f} of it by the moment about the weak axis" if s.M_z else ""
    reason = f"{s.where}{also}; {finding.reason}"
    other = judged(beam.name, finding.check, s.case.name, s.M_y, s.M_y / used, "kN m", finding.source, reason=reason)
    return worst((finding, other))
