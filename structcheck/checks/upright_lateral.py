"""Lateral torsional buckling of an upright bent about its strong axis, held at its ends from moving and twisting."""

from collections.abc import Sequence
from typing import Any

from structcheck.checks import strips_lateral
from structcheck.checks.angle_lateral import critical_moment_over, least_modulus
from structcheck.checks.basis import Basis
from structcheck.checks.general_lateral import CURVE
from structcheck.checks.member_class import class_in_bending
from structcheck.checks.member_forms import closed, form, require_en1993, yield_strength
from structcheck.checks.member_interaction import capacity_of
from structcheck.checks.member_lateral import Segment, can_buckle, critical_moment, lateral_reduction
from structcheck.checks.member_stress import Station, along_member
from structcheck.checks.strips_lateral import covered
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, NotNeeded, Outcome, judged, not_checked
from structcheck.materials.steels import Steel
from structcheck.maths import first_of_greatest
from structcheck.shapes.pair import piece_of
from structcheck.standards.en1993_1_1 import buckling
from structcheck.standards.en1993_1_1 import lateral_torsional as code

CHECK = "lateral torsional buckling"
HELD = f"{CHECK}: held sideways and against twisting at both ends, the greatest moment all along"


def upright_lateral(
    name: str,
    section: Any,
    steel: Steel,
    pieces: int,
    length: float,
    stations: Sequence[Station],
    basis: Basis,
    bent: Any,
) -> Outcome:
    """The finding, every piece by itself; a pull, which helps, is left out.

    bent  what holes leave of the section in bending; None: no holes
    """
    ultimate = [s for s in stations if s.case.limit == "ultimate"]
    if not any(s.M_y for s in ultimate):
        return Outcome(does_not_apply=(NotNeeded(name, CHECK, "no moment about the strong axis"),))
    if not can_buckle(section):
        reason = "a closed, round or square section does not buckle sideways at press spans"
        return Outcome(does_not_apply=(NotNeeded(name, CHECK, reason),))
    # A tied pair buckles by its pieces; at a welded slot what the slot leaves, and what the slot leaves bears.
    piece = piece_of(section) if bent is None and not closed(section) else None
    if piece is not None:
        section, pieces = piece, 2 * pieces
    section = getattr(section.shape, "left", None) or section
    try:
        require_en1993(section, steel)
        if form(section) == "angle":
            M_b, M_z, text, source = _angle(section, steel, pieces, length, basis, bent)
        else:
            M_b, M_z, text, source = _symmetric(section, steel, pieces, length, basis, bent)
    except NotCovered as reason:
        return Outcome((not_checked(name, CHECK, str(reason)),))

    # 6.61 and 6.62 without axial force: bending about both axes adds up.
    bent_ones = [s for s in along_member(ultimate) if s.M_y]
    uses = [s.M_y / M_b + s.M_z / M_z for s in bent_ones]
    governing = first_of_greatest(uses)
    used, s = uses[governing], bent_ones[governing]
    reason = f"{text}; {s.where}" + (", with the moment about the weak axis" if s.M_z else "")
    finding = judged(name, CHECK, s.case.name, s.M_y, s.M_y / used, "kN m", source, reason=reason)
    return Outcome((finding,), assumptions=(Assumption(name, HELD),))


def _symmetric(
    section: Any, steel: Steel, pieces: int, length: float, basis: Basis, bent: Any
) -> tuple[float, float, str, str]:
    """(M_b,Rd, M_z,Rd, text, source) of all pieces, by the worse class of the two senses."""
    f_y = yield_strength(section, steel)
    classified = max((class_in_bending(section, f_y, "y", sense) for sense in (1.0, -1.0)), key=lambda one: one.number)
    sideways = max(class_in_bending(section, f_y, "z", sense).number for sense in (1.0, -1.0))
    bent = section if bent is None else bent
    able = capacity_of(bent, f_y, classified.number, pieces, basis.gamma_M0, basis.eta)
    W = float(able.M_y) * basis.gamma_M0 / pieces / f_y
    if covered(section):
        M_cr = strips_lateral.critical_moment_over(section, length)
        lambda_LT = float(code.slenderness(W, f_y, M_cr))
        chi, clause = _chi(lambda_LT), f"{code.CODE} 6.3.2.2"
        how = f"lambda_LT {lambda_LT:.2f}, curve {CURVE}, chi_LT {chi:.2f}"
        if steel.imperial:
            raise NotCovered(f"{steel.name}: no EN buckling curve is assumed for a US steel")
    else:
        M_cr = critical_moment(section, Segment(length))
        found = lateral_reduction(section, steel, f_y, W, M_cr, "general")
        chi, how, clause = found.chi, found.text, found.source
    M_b = float(pieces * code.buckling_resistance(chi, W, f_y, basis.gamma_M1))
    M_z = float(capacity_of(bent, f_y, max(sideways, classified.number), pieces, basis.gamma_M1, basis.eta).M_z)
    return M_b, M_z, f"M_cr {M_cr / 1e6:.4g} kN m a piece; {how}; {classified.text}", clause


def _chi(lambda_LT: float) -> float:
    """chi_LT of the general case, curve d."""
    if lambda_LT <= 0.2:
        return 1.0
    return float(code.reduction_general(code.phi_general(buckling.IMPERFECTION[CURVE], lambda_LT), lambda_LT))


def _angle(
    section: Any, steel: Steel, pieces: int, length: float, basis: Basis, bent: Any
) -> tuple[float, float, str, str]:
    if bent is not None:
        raise NotCovered("bending of an angle at its holes turns about axes that are not covered here")
    if steel.imperial:
        raise NotCovered(f"{steel.name}: no EN buckling curve is assumed for a US steel")
    f_y = yield_strength(section, steel)
    classified = max(
        (class_in_bending(section, f_y, axis, sense) for axis in "yz" for sense in (1.0, -1.0)),
        key=lambda one: one.number,
    )
    if classified.number == 4:
        raise NotCovered(f"{classified.text}: a class 4 leg in bending is not covered here")
    W, M_cr = least_modulus(section, M_y=1.0), critical_moment_over(section, length)
    lambda_LT = float(code.slenderness(W, f_y, M_cr))
    chi = _chi(lambda_LT)
    M_b = float(pieces * code.buckling_resistance(chi, W, f_y, basis.gamma_M1))
    # Moments about both legs' axes buckle it together: what buckling leaves of one is taken of the other.
    M_z = float(pieces * code.buckling_resistance(chi, least_modulus(section, M_z=1.0), f_y, basis.gamma_M1))
    text = f"M_cr {M_cr / 1e6:.4g} kN m a piece; lambda_LT {lambda_LT:.2f}, curve {CURVE}, chi_LT {chi:.2f}"
    return M_b, M_z, f"{text}; {classified.text}", f"{code.CODE} 6.3.2.2"
