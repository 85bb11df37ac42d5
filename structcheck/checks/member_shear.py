"""Slender webs in shear: EN 1993-1-5 section 5 where 6.2.6(6) of EN 1993-1-1 sends them there, with bending by 7.1."""

from collections.abc import Mapping
from math import isfinite
from typing import Any

from structcheck.checks.member_forms import clear_web, form
from structcheck.checks.member_interaction import bending_shear_factor, clause_bending_shear_ratio
from structcheck.checks.member_stress import Station
from structcheck.errors import NotCovered
from structcheck.findings import Finding, interaction
from structcheck.formula import remembered
from structcheck.record import record
from structcheck.shapes.pair import Pair
from structcheck.standards.en1993_1_1 import classification, cross_section
from structcheck.standards.en1993_1_5 import shear

UNSTIFFENED = (
    "h_w/t_w {:.0f} is over {:.0f} (6.22): shear buckling asks for stiffeners at the supports (EN 1993-1-5 5.1(2)); "
    "say `end_stiffeners` where the web has them"
)
CUT = "h_w/t_w {:.0f} is over {:.0f} (6.22): shear buckling of a web with holes or slots is not covered here"
FREE_EDGE = "h_w/t_w {:.0f} is over {:.0f} (6.22): EN 1993-1-5 section 5 has no web with a free edge"


@record
class SlenderWeb:
    """The webs of one piece along a force, where they buckle in shear.

    chi_w  share of their shear strength that is left
    V_b    resistance of one piece, the flanges' part left out, N
    share  share of the bending resistance lost as the shear nears V_b: what the flanges alone do not bear (7.1)
    """

    chi_w: float
    V_b: float
    share: float
    text: str


@remembered
def slender_web(
    section: Any, axis: str, f_y: float, eta: float, gamma_M1: float, panel: float | None
) -> SlenderWeb | None:
    """How the webs along `axis` buckle; None where they are stocky. Raises NotCovered where no clause reaches.

    panel  distance between the stiffeners at the supports, mm; None: none are stated
    """
    web = clear_web(section, axis)
    if web is None:
        return None
    h_w, t = float(web[0]), float(web[1])
    epsilon = float(classification.epsilon(f_y))
    limit = float(cross_section.shear_buckling_limit(epsilon, eta))
    if h_w / t <= limit:
        return None
    slender = _along(section, axis, limit)
    if form(section) == "rectangle" or any(element.kind != "internal" for element in slender):
        raise NotCovered(FREE_EDGE.format(h_w / t, limit))
    shape = getattr(section, "shape", section)
    if getattr(shape, "cuts", ()) or getattr(shape, "holes", ()):
        raise NotCovered(CUT.format(h_w / t, limit))
    if panel is None:
        raise NotCovered(UNSTIFFENED.format(h_w / t, limit))
    k_tau = shear.buckling_factor(h_w, panel)
    lambda_w = shear.slenderness(h_w, t, epsilon, k_tau)
    chi_w = float(shear.reduction(lambda_w, eta))
    A_w = _alike(slender) * h_w * t
    V_b = float(shear.web_resistance(chi_w, f_y, A_w, gamma_M1))
    text = f"h_w/t_w {h_w / t:.0f} over {limit:.0f}; k_tau {float(k_tau):.2f}, lambda_w {float(lambda_w):.2f}, "
    return SlenderWeb(chi_w, V_b, _share(section, axis), f"{text}chi_w {chi_w:.2f}; A_w {A_w:.0f} mm2")


def _along(section: Any, axis: str, limit: float) -> list[Any]:
    """The slender plates that run along the force."""
    along = [e for e in section.elements if abs(e.end[axis == "z"] - e.start[axis == "z"]) > e.c / 2]
    most = max((e.c / e.t for e in along), default=0.0)
    # The flat of a rolled web is a little shallower than its clear depth: the most slender is one whatever its flat.
    return [e for e in along if e.c / e.t > min(limit, most * (1 - 1e-9))]


def _alike(slender: list[Any]) -> int:
    """Webs alike in one piece; of unlike ones the most slender alone are counted on."""
    first = max(slender, key=lambda e: e.c / e.t)
    return sum(abs(e.c - first.c) < 1e-6 * first.c and abs(e.t - first.t) < 1e-6 * first.t for e in slender)


def _share(section: Any, axis: str) -> float:
    """1 - M_f,Rd / M_pl,Rd of 7.1(1) where both flanges are alike; else 1, which is safe."""
    shape = getattr(section, "shape", section)
    if axis != "z" or form(section) not in ("i", "channel") or isinstance(shape, Pair):
        return 1.0
    flanges = shape.b * shape.tf * (shape.h - shape.tf)
    return max(0.0, 1 - flanges / shape.Wpl_y)


def all_with_slender_web(
    check: str, member: Any, station: Station, slender: Mapping[str, SlenderWeb | None], torsion: float
) -> Finding:
    """Axial force and bending with webs slender in shear: all added, and the shear takes from all (7.1(4), safe).

    member   of `section_resistance`
    slender  webs by the axis of a shear that acts
    torsion  share of the shear strength that a torque takes
    """
    classified, able = member.about("y", station.M_y)
    classes, N_Rd, moved = [classified], able.N, {"y": 0.0, "z": 0.0}
    if station.N < 0:
        pressed, able = member.pressed()
        classes, N_Rd = [classified, pressed], able.N_c
        moved = {"y": abs(station.N) * able.e_z, "z": abs(station.N) * able.e_y}
    used = abs(station.N) / float(N_Rd)
    for axis, M in (("y", station.M_y), ("z", station.M_z)):
        if M or moved[axis]:
            classified, able = member.about(axis, M)
            used += (abs(M) + moved[axis]) / float(able.M_y if axis == "y" else able.M_z)
            classes.append(classified)
    v = torsion
    for axis, V in (("z", station.V_z), ("y", station.V_y)):
        web = slender.get(axis)
        v += abs(V) / (member.pieces * web.V_b if web else float(able.V_z if axis == "z" else able.V_y))
    ratio = clause_bending_shear_ratio(used, v, 1.0, 1.0)
    worst_class = max(classes, key=lambda one: one.number)
    reason = f"{station.where}; {worst_class.text}; axial force and bending {used:.2f}, shear {v:.2f} of its resistance"
    return interaction(
        member.name,
        check,
        station.case.name,
        float(bending_shear_factor(used, v, 1.0)),
        "EN 1993-1-5:2006 7.1(4), all added",
        clause_ratio=ratio if isfinite(ratio) else None,
        reason=reason,
    )
