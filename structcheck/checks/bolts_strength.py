"""Bolts themselves: shear, bearing, tension, punching, shear with tension, by EN 1993-1-8 Table 3.4.

Every function judges one case and raises NotCovered where the clause does not reach.
"""

import math

import numpy as np

from structcheck.checks.basis import Basis
from structcheck.checks.bolts_group import (
    EAST,
    NORTH,
    SOUTH,
    TINY,
    WEST,
    Around,
    BoltGroup,
    BoltLoads,
    Force,
    around,
    greatest_clearance,
    in_plane,
    longest_slot,
    normal_clearance,
    pulls,
)
from structcheck.checks.member_forms import THINNEST
from structcheck.errors import NotCovered
from structcheck.findings import Finding, interaction, judged
from structcheck.formula import recording, remark, remembered, unrecorded
from structcheck.standards.en1993_1_8 import bolts as clause
from structcheck.standards.en1993_1_8 import tstub

TABLE_3_4 = "EN 1993-1-8:2005 Table 3.4"
OVERSIZE, SLOT = 0.8, 0.6
NEGLIGIBLE = 1e-9
"""Share of the largest component of any bolt that is rounding, and pushes no way."""


def require_bolt(part: BoltGroup) -> None:
    """Raise NotCovered for a property class outside EN 1993-1-8."""
    if not part.bolt_class.covered:
        raise NotCovered(f"class {part.bolt_class.name} is outside EN 1993-1-8 Table 3.1")


def require_steel(part: BoltGroup) -> None:
    """Raise NotCovered for a plate outside EN 1993."""
    if not part.steel.in_en1993:
        raise NotCovered(f"{part.steel.name} is outside EN 1993-1-1")
    if part.thinnest < THINNEST:
        raise NotCovered(f"{part.thinnest:g} mm is thinner than the 3 mm from which EN 1993-1-1 holds (1.1.2(1))")


@remembered
def one_plane(part: BoltGroup, basis: Basis, across: bool = False) -> float:
    """F_v,Rd of one bolt in one plane, with the reductions for long joints, packing and loose M12 and M14.

    across  the joint is pushed across the force's axis too, so that its width makes it long as well
    """
    require_bolt(part)
    alpha_v = part.bolt_class.alpha_v if part.thread == "in" else 0.6
    resistance = clause.shear_resistance(alpha_v, part.bolt_class.f_ub, part.plane_area, basis.gamma_M2)
    length = float(np.max(np.ptp(part.positions, axis=0)[0 if across else 1 :]))
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


def of_group(
    part: BoltGroup, check: str, loads: BoltLoads, force: float, ratio: float, source: str, reason: str = ""
) -> Finding:
    """A finding from the worst bolt: in force on the group, or as load factor where a moment acts alone."""
    if force > TINY and 0 < ratio < math.inf:
        return judged(part.name, check, loads.case.name, force, force / ratio, "kN", source, reason=reason)
    factor = math.inf if ratio == 0 else 1 / ratio
    return interaction(part.name, check, loads.case.name, factor, source, clause_ratio=ratio, reason=reason)


def shear(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """Bolt shear: the resultant on the worst bolt, shared evenly by its planes."""
    resistance = one_plane(part, basis, bool(loads.across)) * part.planes
    forces = np.hypot(*in_plane(part, loads).T)
    ratio = float(np.max(forces)) / resistance
    if is_loose_small(part) and worst_bearing(part, loads, basis)[0] > ratio:
        raise NotCovered(
            f"3.6.1(5) allows {part.size.name} in {part.d_0:g} mm holes only where bearing does not govern, "
            f"as it does here: drill {part.size.d + 1:g} mm"
        )
    return of_group(part, "bolt shear", loads, loads.force, ratio, TABLE_3_4, _uneven(forces, loads.force))


def _uneven(forces: np.ndarray, total: float) -> str:
    most, even = float(np.max(forces)), total / len(forces)
    if most <= even * (1 + 1e-9):
        return ""
    times = f", {most / even:.3g} times its even share" if even else ""
    return f"the worst bolt takes {most / 1e3:.3g} kN{times}"


def worst_bearing(part: BoltGroup, loads: BoltLoads, basis: Basis) -> tuple[float, str]:
    """Highest ratio of a bolt's y or x component to its bearing resistance in that direction, each judged apart."""
    require_steel(part)
    require_bolt(part)
    ratios = []
    forces = in_plane(part, loads)
    negligible = NEGLIGIBLE * float(np.max(np.abs(forces), initial=0.0))
    for index, force in enumerate(forces.tolist()):
        for component, towards in _pushes(*force):
            if abs(component) > negligible:
                resistance, what = known_bearing(part, index, towards, basis)
                ratios.append((abs(component) / resistance if resistance > 0 else math.inf, what, index, towards))
    ratio, what, index, towards = max(ratios)
    if recording():
        bearing_of(part, index, towards, basis)  # once more, so that a working shows the bolt that governs
    return ratio, what


def known_bearing(part: BoltGroup, index: int, towards: Force, basis: Basis) -> tuple[float, str]:
    """`bearing_of`, worked out once for each bolt and direction."""
    asked = "bearing", index, towards, part.single_lap, basis.gamma_M2
    if asked not in part.known:
        with unrecorded():
            part.known[asked] = bearing_of(part, index, towards, basis)
    return part.known[asked]


def _pushes(x: float, y: float) -> tuple[tuple[float, Force], tuple[float, Force]]:
    """The components of a bolt's force, each with the direction it pushes in."""
    return (y, NORTH if y > 0 else SOUTH), (x, EAST if x > 0 else WEST)


def bearing_of(part: BoltGroup, index: int, towards: Force, basis: Basis) -> tuple[float, str]:
    """F_b,Rd of one bolt pushing in one of the four directions, and what stands around it in words."""
    f_u, vertical = part.steel.f_u(part.plate), towards in (NORTH, SOUTH)
    place = around(part, index, towards)
    alpha_b, what = _along(part, place, f_u, "end" if vertical else "edge")
    k_1, line = _across(part, place, "edge" if vertical else "end")
    t = part.bears_on
    resistance = clause.bearing_resistance(k_1, alpha_b, f_u, part.size.d, t, basis.gamma_M2)
    resistance *= hole_factor(part, vertical)
    if part.single_lap and np.ptp(part.positions[:, 1 if vertical else 0]) == 0 and part.planes == 1:
        resistance = min(resistance, clause.single_lap_bearing_limit(f_u, part.size.d, t, basis.gamma_M2))
    direction = "along the force" if vertical else "across the force"
    return resistance, f"{what} of the {line}, {direction}: k_1 {k_1:.3g}, alpha_b {alpha_b:.3g}"


def _along(part: BoltGroup, place: Around, f_u: float, key: str) -> tuple[float, str]:
    if place.ahead is None:
        raise NotCovered(f"`{key}` is not stated: bearing needs the distance to the plate's end")
    if place.ahead_end:
        return clause.alpha_b_end(place.ahead, part.d_0, part.bolt_class.f_ub, f_u), "end bolt"
    return clause.alpha_b_inner(place.ahead, part.d_0, part.bolt_class.f_ub, f_u), "inner bolt"


def _across(part: BoltGroup, place: Around, key: str) -> tuple[float, str]:
    if any(edge is None for edge in place.edges):
        raise NotCovered(f"`{key}` is not stated: bearing needs the distance to the plate's edge")
    edge = min((e for e in place.edges if e is not None), default=None)
    if edge is None:
        return clause.k_1_inner(min(place.holes), part.d_0), "inner line"
    if place.holes:
        return clause.k_1_edge(edge, min(place.holes), part.d_0), "edge line"
    return clause.k_1_single_line(edge, part.d_0), "single line"


def hole_factor(part: BoltGroup, along: bool) -> float:
    """1 for normal holes, 0.8 for oversize, 0.6 for slots across the push (Table 3.4 note 1).

    along  the bolt pushes along the force, not across it

    Raises NotCovered for wider holes, and where the bolt can slide in its slot.
    """
    if part.slot:
        refuse_long_slot(part)
        if along == part.slot.endswith("along"):
            raise NotCovered("the bolts can slide in their slots: nothing bears but a stop, to be checked apart")
        return SLOT
    clearance = part.d_0 - part.size.d
    if clearance <= normal_clearance(part.size.d) or (part.size.d in (12, 14) and clearance <= 2):
        return 1.0
    if clearance > greatest_clearance(part.size.d):
        widest = part.size.d + greatest_clearance(part.size.d)
        raise NotCovered(f"a hole of {part.d_0:g} mm for {part.size.name} is wider than the {widest:g} mm of EN 1090-2")
    remark("oversize hole: bearing times 0.8", "EN 1993-1-8:2005 Table 3.4, note 1")
    return OVERSIZE


def refuse_long_slot(part: BoltGroup) -> None:
    """Raise NotCovered for a slot longer than its kind, for which the factors are not given."""
    longest = longest_slot(part.size.d, part.slot) if part.slot else math.inf
    if part.slot_length is not None and part.slot_length > longest:
        raise NotCovered(f"a slot of {part.slot_length:g} mm is longer than the {longest:g} mm of EN 1090-2")


def bearing(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """Bolt bearing of the worst bolt and component; capacity is of the group."""
    ratio, what = worst_bearing(part, loads, basis)
    source = "EN 1993-1-8:2005 Table 3.4, 3.6.1(10)" if part.single_lap else TABLE_3_4
    return of_group(part, "bolt bearing", loads, loads.force, ratio, source, what)


def plastic_refused(part: BoltGroup, loads: BoltLoads, basis: Basis) -> str:
    """Why 3.12 does not let the force spread plastically here; empty where it does."""
    if part.category in ("B", "C"):
        return "3.12(2) wants an elastic distribution in joints that hold by friction"
    if not part.steady:
        return "3.12(2) wants an elastic distribution under impact, vibration or reversal; if none, steady = true"
    shear_one = one_plane(part, basis, bool(loads.across)) * part.planes
    for index, force in enumerate(in_plane(part, loads)):
        for component, towards in _pushes(*force):
            if component and bearing_of(part, index, towards, basis)[0] > shear_one:
                return "3.12(2) wants an elastic distribution where a bolt's shear resistance is below its bearing"
    return ""


def tension_of_one(part: BoltGroup, basis: Basis) -> float:
    """F_t,Rd of one bolt."""
    require_bolt(part)
    k_2 = 0.63 if part.countersunk else 0.9
    return clause.tension_resistance(k_2, part.bolt_class.f_ub, part.size.A_s, basis.gamma_M2)


def tension(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """Bolt tension of the worst bolt; prying is judged apart."""
    if part.category == "E" and part.bolt_class.name not in ("8.8", "10.9"):
        raise NotCovered("only classes 8.8 and 10.9 may be preloaded (3.1.2)")
    ratio = float(np.max(pulls(part, loads))) / tension_of_one(part, basis)
    return of_group(part, "bolt tension", loads, abs(loads.tension), ratio, TABLE_3_4)


def punching(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """The head or nut pulled through the thinnest plate under it."""
    one = punched(part, basis)
    pull = float(np.max(pulls(part, loads) + prying_forces(part, loads)))
    return of_group(part, "punching", loads, abs(loads.tension), pull / one, TABLE_3_4)


def punched(part: BoltGroup, basis: Basis) -> float:
    """B_p,Rd of one bolt. Raises NotCovered where the table has none."""
    require_steel(part)
    if part.countersunk:
        raise NotCovered("punching under a countersunk head is not in Table 3.4")
    if part.slot or part.d_0 - part.size.d > normal_clearance(part.size.d):
        raise NotCovered("punching over slots and oversize holes is not in Table 3.4: washers must cover them")
    return clause.punching_resistance(part.size.d_m, part.thinnest, part.steel.f_u(part.thinnest), basis.gamma_M2)


def prying_forces(part: BoltGroup, loads: BoltLoads) -> np.ndarray:
    """Prying on each bolt, (n,)."""
    return pulls(part, loads) * prying_share(part)


def prying_share(part: BoltGroup) -> float:
    """Prying over pull, from the elastic limit of a stiff bolt; nothing where no lever is stated.

    A plate held fast at web and bolt alike bends equally at both, so Q = F m / (2 n): more than any softer bolt gives.
    """
    if part.lever is None or part.nearer_edge is None:
        return 0.0
    return part.lever / (2 * tstub.prying_lever(part.nearer_edge, part.lever))


def shear_and_tension(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """Bolt shear and tension in the worst bolt; linear, so the ratio is the inverse of the load factor."""
    sheared = np.hypot(*in_plane(part, loads).T) / part.planes
    pulled = pulls(part, loads) + prying_forces(part, loads)
    plane, thread = one_plane(part, basis, bool(loads.across)), tension_of_one(part, basis)
    worst_bolt = int(np.argmax(sheared / plane + pulled / (1.4 * thread)))
    ratio = clause.shear_and_tension(float(sheared[worst_bolt]), plane, float(pulled[worst_bolt]), thread)
    reason = "prying included" if part.lever is not None else ""
    return interaction(
        part.name,
        "bolt shear and tension",
        loads.case.name,
        1 / ratio,
        TABLE_3_4,
        clause_ratio=ratio,
        reason=reason,
    )
