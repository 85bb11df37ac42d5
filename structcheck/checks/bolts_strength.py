"""Bolts themselves: shear, bearing, tension, punching, shear with tension, by EN 1993-1-8 Table 3.4.

Every function judges one case and raises NotCovered where the clause does not reach.
"""

import math
from dataclasses import dataclass

import numpy as np

from structcheck.checks.basis import Basis
from structcheck.checks.bolts_group import (
    EAST,
    NORTH,
    SOUTH,
    WEST,
    BoltGroup,
    BoltLoads,
    Force,
    around,
    greatest_clearance,
    in_plane,
    normal_clearance,
)
from structcheck.errors import NotCovered
from structcheck.findings import Finding, interaction, judged
from structcheck.formula import remark
from structcheck.standards.en1993_1_8 import bolts as clause

TABLE_3_4 = "EN 1993-1-8:2005 Table 3.4"
OVERSIZE = 0.8


def require_bolt(part: BoltGroup) -> None:
    """Raise NotCovered for a property class outside EN 1993-1-8."""
    if not part.bolt_class.covered:
        raise NotCovered(f"class {part.bolt_class.name} is outside EN 1993-1-8 Table 3.1")


def require_steel(part: BoltGroup) -> None:
    """Raise NotCovered for a plate outside EN 1993."""
    if not part.steel.in_en1993:
        raise NotCovered(f"{part.steel.name} is outside EN 1993-1-1")


def one_plane(part: BoltGroup, basis: Basis) -> float:
    """F_v,Rd of one bolt in one plane, with the reductions for long joints, packing and loose M12 and M14."""
    require_bolt(part)
    alpha_v = part.bolt_class.alpha_v if part.thread == "in" else 0.6
    resistance = clause.shear_resistance(alpha_v, part.bolt_class.f_ub, part.plane_area, basis.gamma_M2)
    length = float(np.ptp(part.positions[:, 1]))
    if length > 15 * part.size.d:
        resistance *= clause.long_joint_factor(length, part.size.d)
    if part.packing > part.size.d / 3:
        resistance *= clause.packing_factor(part.size.d, part.packing)
    if is_loose_small(part):
        remark("M12 or M14 in a 2 mm clearance hole: times 0.85", "EN 1993-1-8:2005 3.6.1(5)")
        resistance *= 0.85
    return resistance


def is_loose_small(part: BoltGroup) -> bool:
    """M12 or M14 in a hole with more than 1 mm clearance. Raises NotCovered beyond the 2 mm of 3.6.1(5)."""
    clearance = part.d_0 - part.size.d
    if part.size.d not in (12, 14) or clearance <= 1:
        return False
    if clearance > 2:
        raise NotCovered(f"{part.size.name} in a hole of {part.d_0:g} mm: 3.6.1(5) allows 2 mm clearance at most")
    return True


def shear(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """Bolt shear: the resultant on the worst bolt, shared evenly by its planes."""
    resistance = one_plane(part, basis) * part.planes
    forces = np.hypot(*in_plane(part, loads).T)
    ratio = float(np.max(forces)) / resistance
    if is_loose_small(part):
        bearing_ratio, _ = worst_bearing(part, loads, basis)
        if bearing_ratio > ratio:
            hole = part.size.d + 1
            raise NotCovered(
                f"3.6.1(5) allows {part.size.name} in {part.d_0:g} mm holes only where bearing does not govern, "
                f"as it does here: drill {hole:g} mm"
            )
    force = abs(loads.shear)
    uneven = _uneven(forces, force)
    return judged(part.name, "bolt shear", loads.case.name, force, force / ratio, "kN", TABLE_3_4, reason=uneven)


def _uneven(forces: np.ndarray, total: float) -> str:
    most, even = float(np.max(forces)), total / len(forces)
    if most <= even * (1 + 1e-9):
        return ""
    return f"the worst bolt takes {most / 1e3:.3g} kN, {most / even:.3g} times its even share"


@dataclass(frozen=True)
class Bearing:
    """The bearing that governs: the bolt's component, its resistance, and which bolt it is."""

    force: float
    resistance: float
    what: str


def worst_bearing(part: BoltGroup, loads: BoltLoads, basis: Basis) -> tuple[float, Bearing]:
    """Highest ratio of a bolt's y or x component to its bearing resistance in that direction, each judged apart."""
    require_steel(part)
    require_bolt(part)
    ratios = []
    forces = in_plane(part, loads)
    negligible = 1e-9 * float(np.max(np.abs(forces), initial=0.0))
    for index, (x, y) in enumerate(forces):
        for component, towards in ((y, NORTH if y > 0 else SOUTH), (x, EAST if x > 0 else WEST)):
            if abs(component) <= negligible:
                continue
            resistance, what = bearing_of(part, index, towards, basis)
            ratio = abs(component) / resistance if resistance > 0 else math.inf
            ratios.append((ratio, Bearing(abs(float(component)), resistance, what)))
    return max(ratios, key=lambda pair: pair[0])


def bearing_of(part: BoltGroup, index: int, towards: Force, basis: Basis) -> tuple[float, str]:
    """F_b,Rd of one bolt pushing in one of the four directions, and what stands around it in words."""
    d_0, f_ub, f_u = part.d_0, part.bolt_class.f_ub, part.steel.f_u(part.plate)
    place = around(part, index, towards)
    vertical = towards in (NORTH, SOUTH)
    ahead_key, beside_key = ("end", "edge") if vertical else ("edge", "end")
    if place.ahead is None:
        raise NotCovered(f"`{ahead_key}` is not stated: bearing needs the distance to the plate's end")
    if any(edge is None for edge in place.edges):
        raise NotCovered(f"`{beside_key}` is not stated: bearing needs the distance to the plate's edge")
    if place.ahead_end:
        alpha_b, what = clause.alpha_b_end(place.ahead, d_0, f_ub, f_u), "end bolt"
    else:
        alpha_b, what = clause.alpha_b_inner(place.ahead, d_0, f_ub, f_u), "inner bolt"
    edge = min((e for e in place.edges if e is not None), default=None)
    if edge is None:
        k_1, line = clause.k_1_inner(min(place.holes), d_0), "inner line"
    elif place.holes:
        k_1, line = clause.k_1_edge(edge, min(place.holes), d_0), "edge line"
    else:
        k_1, line = clause.k_1_single_line(edge, d_0), "single line"
    resistance = clause.bearing_resistance(k_1, alpha_b, f_u, part.size.d, part.plate, basis.gamma_M2)
    resistance *= hole_factor(part)
    if part.single_lap and part.rows == 1 and part.planes == 1:
        limit = clause.single_lap_bearing_limit(f_u, part.size.d, part.plate, basis.gamma_M2)
        resistance = min(resistance, limit)
    direction = "along the force" if vertical else "across the force"
    return resistance, f"{what} of the {line}, {direction}: k_1 {k_1:.3g}, alpha_b {alpha_b:.3g}"


def hole_factor(part: BoltGroup) -> float:
    """1 for normal holes, 0.8 for oversize ones (Table 3.4 note 1). Raises NotCovered for wider ones."""
    clearance = part.d_0 - part.size.d
    allowed_small = part.size.d in (12, 14) and clearance <= 2
    if clearance <= normal_clearance(part.size.d) or allowed_small:
        return 1.0
    if clearance > greatest_clearance(part.size.d):
        widest = part.size.d + greatest_clearance(part.size.d)
        raise NotCovered(f"a hole of {part.d_0:g} mm for {part.size.name} is wider than the {widest:g} mm of EN 1090-2")
    remark("oversize hole: bearing times 0.8", "EN 1993-1-8:2005 Table 3.4, note 1")
    return OVERSIZE


def bearing(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """Bolt bearing of the worst bolt and component; capacity is of the group."""
    ratio, governing = worst_bearing(part, loads, basis)
    force = abs(loads.shear)
    source = "EN 1993-1-8:2005 Table 3.4, 3.6.1(10)" if part.single_lap else TABLE_3_4
    capacity = force / ratio if ratio > 0 else math.inf
    return judged(part.name, "bolt bearing", loads.case.name, force, capacity, "kN", source, reason=governing.what)


def tension_of_one(part: BoltGroup, basis: Basis) -> float:
    """F_t,Rd of one bolt."""
    require_bolt(part)
    k_2 = 0.63 if part.countersunk else 0.9
    return clause.tension_resistance(k_2, part.bolt_class.f_ub, part.size.A_s, basis.gamma_M2)


def tension(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """Bolt tension, prying not included."""
    capacity = part.count * tension_of_one(part, basis)
    return judged(part.name, "bolt tension", loads.case.name, loads.tension, capacity, "kN", TABLE_3_4)


def punching(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """The head or nut pulled through the thinnest plate under it."""
    require_steel(part)
    if part.countersunk:
        raise NotCovered("punching under a countersunk head is not in Table 3.4")
    f_u = part.steel.f_u(part.thinnest)
    one = clause.punching_resistance(part.size.d_m, part.thinnest, f_u, basis.gamma_M2)
    return judged(part.name, "punching", loads.case.name, loads.tension, part.count * one, "kN", TABLE_3_4)


def shear_and_tension(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """Bolt shear and tension in the worst bolt; linear, so the ratio is the inverse of the load factor."""
    sheared = float(np.max(np.hypot(*in_plane(part, loads).T))) / part.planes
    pulled = loads.tension / part.count
    ratio = clause.shear_and_tension(sheared, one_plane(part, basis), pulled, tension_of_one(part, basis))
    return interaction(part.name, "bolt shear and tension", loads.case.name, 1 / ratio, TABLE_3_4, clause_ratio=ratio)
