"""Bolts that hold by friction: categories B and C of EN 1993-1-8 Table 3.2."""

import numpy as np

from structcheck.checks.basis import Basis
from structcheck.checks.bolts_group import BoltGroup, BoltLoads, in_plane, normal_clearance, pulls
from structcheck.checks.bolts_strength import of_group, refuse_long_slot
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, Finding
from structcheck.standards.en1993_1_8 import slip as clause

PRELOADED_CLASSES = ("8.8", "10.9")


def slip(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """Slip of the worst bolt: in service for category B, at ultimate for C; pull takes from the clamping."""
    if part.bolt_class.name not in PRELOADED_CLASSES:
        raise NotCovered(f"only classes {' and '.join(PRELOADED_CLASSES)} may be preloaded to hold by friction (3.1.2)")
    gamma = clause.GAMMA_M3 if part.category == "C" else clause.GAMMA_M3_SER
    preload = clause.preload(part.bolt_class.f_ub, part.size.A_s)
    mu = clause.FRICTION["D"] if part.mu is None else part.mu
    grip = clause.slip_resistance(k_s(part), part.planes, mu, preload, 0.0, gamma)
    shear, pull = np.hypot(*in_plane(part, loads).T), pulls(part, loads)
    # The pull lowers the resistance in step with the load: V + 0.8 F_t (grip / preload) <= grip is the same rule.
    ratio = float(np.max(shear + 0.8 * pull * grip / preload)) / grip
    clause_number = "3.9.2" if loads.pulled else "3.9.1"
    reason = f"category {part.category}, slip factor {mu:g}, k_s {k_s(part):g}"
    return of_group(part, "slip", loads, loads.force, ratio, f"EN 1993-1-8:2005 {clause_number}", reason)


def k_s(part: BoltGroup) -> float:
    """Factor for the kind of hole, Table 3.6."""
    if part.slot:
        refuse_long_slot(part)
        return clause.K_S[part.slot]
    wide = part.d_0 - part.size.d > normal_clearance(part.size.d)
    return clause.K_S["oversize" if wide else "normal"]


def assumptions(part: BoltGroup) -> tuple[Assumption, ...]:
    """What a grip by friction rests on."""
    if part.category not in ("B", "C"):
        return ()
    tight = "bolts tightened to F_p,C = 0.7 f_ub A_s by a method of EN 1090-2, not by torque alone"
    made = [Assumption(part.name, tight, "bolts are preloaded by EN 1090-2")]
    if part.mu is None:
        made.append(Assumption(part.name, "slip factor 0.2, surfaces as rolled (Table 3.7 class D)"))
    return tuple(made)
