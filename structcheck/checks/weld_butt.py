"""Butt welds (EN 1993-1-8 4.7)."""

import math
from collections.abc import Sequence

from structcheck.checks.basis import Basis
from structcheck.checks.fatigue import DETAILS, fatigue
from structcheck.checks.weld import NO_FORCE, NO_YIELD, WeldLoads
from structcheck.checks.weld_cautions import through_thickness
from structcheck.checks.weld_room import thinner_above
from structcheck.checks.weld_sizes import throat_size
from structcheck.checks.weld_strength import fillet_strength, inspection, quality, steel_reason
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, complete, judged, not_checked, worst
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.showing import show
from structcheck.standards.en1993_1_8 import welds

NEEDED = ("weld throat", "weld size", "yield at greatest force", "fatigue")
UNPROVEN = 2.0
"""Penetration in mm that does not count where no trial proves it; ours."""
THINNEST = 4.0
"""EN 1993-1-8 4.1(1), mm."""


@record(kw_only=True)
class Butt:
    """A butt weld along the edge of a plate, or both edges of a T; mm.

    length       of the weld
    thickness    of the plate
    penetration  None: full; else depth of the weld from each side that is welded
    gap          left unwelded between two partial welds of a T
    run_off      its ends are full size, on run-off plates or returned; else a throat is lost at each end
    proven       trials show that the penetration is reached
    """

    name: str
    length: float
    thickness: float
    steel: Steel
    penetration: tuple[float, ...] | None = None
    gap: float | None = None
    run_off: bool = False
    proven: bool = False
    inspected: bool = False
    weldable: bool = False
    thickest: float | None = None

    @property
    def full(self) -> bool:
        """Full penetration, or a T that counts as such (4.7.3)."""
        if self.penetration is None:
            return True
        lost = 0.0 if self.proven else 2 * UNPROVEN
        enough = len(self.penetration) == 2 and sum(self.penetration) - lost >= self.thickness
        return enough and self.gap is not None and self.gap <= welds.largest_unwelded_gap(self.thickness)

    @property
    def throats(self) -> tuple[float, ...]:
        """Throats that count, mm."""
        if self.full:
            return (self.thickness,)
        return tuple(depth - (0 if self.proven else UNPROVEN) for depth in self.penetration)

    @property
    def area(self) -> float:
        """Throat area that counts, mm2; no more than the plate has, however deep each side goes."""
        within = min(1.0, self.thickness / max(sum(self.throats), 1e-9))
        return within * sum(
            max(a, 0.0) * max(self.length if self.run_off else welds.effective_length(self.length, a), 0.0)
            for a in self.throats
        )


def check_butt(part: Butt, loads: Sequence[WeldLoads], basis: Basis) -> Outcome:
    """A butt weld under force along it and across it."""
    _refuse(part)
    across = any(load.across for load in loads)
    outcome = Outcome(
        (_size(part),),
        does_not_apply=(NotNeeded(part.name, "yield at greatest force", NO_YIELD),) if not part.full else (),
        assumptions=_assumptions(part, across),
    )
    reason = steel_reason(part.steel, part.weldable)
    if not reason and part.thickness < THINNEST:
        reason = f"a plate {part.thickness:g} mm thick is thinner than EN 1993-1-8 4.1 covers ({THINNEST:g} mm)"
    if not reason and not part.full and len(part.penetration) == 1 and across:
        reason = "a partial butt weld from one side, pulled across, opens at its root (EN 1993-1-8 4.12)"
    if not reason and part.area <= 0:
        reason = "nothing is left of the weld after its ends and unproven penetration"
    if reason:
        checks = ("weld throat", "fatigue", *(("yield at greatest force",) if part.full else ()))
        return outcome + Outcome(tuple(not_checked(part.name, check, reason) for check in checks))
    outcome += Outcome(_findings(part, loads, basis))
    rated = [load for load in loads if load.case.limit == "rated"]
    return complete(outcome + _fatigue(part, rated, basis), part.name, NEEDED, "no load is given for this check")


def _findings(part: Butt, loads: Sequence[WeldLoads], basis: Basis) -> tuple[Finding, ...]:
    """Strength, and for a full weld, which is the plate itself, yield at the greatest force."""
    made = []
    ultimate = [load for load in loads if load.case.limit == "ultimate"]
    greatest = [load for load in loads if load.case.limit == "greatest force"]
    if ultimate:
        made.append(worst(_throat(part, load, basis) for load in ultimate))
    if part.full and greatest:
        f_y = part.steel.f_y(part.thickness)
        made.append(
            worst(
                judged(
                    part.name,
                    "yield at greatest force",
                    load.case.name,
                    _plate_stress(part, load),
                    f_y * quality(part.inspected),
                    "MPa",
                    "EN 1993-1-1:2005 6.2.1(5)",
                )
                for load in greatest
            )
        )
    return tuple(made)


def _plate_stress(part: Butt, load: WeldLoads) -> float:
    return float(welds.equivalent_stress(load.across / part.area, 0.0, load.along / part.area))


def _throat(part: Butt, load: WeldLoads, basis: Basis) -> Finding:
    demand = math.hypot(load.along, load.across)
    if part.full:
        stress, source = _plate_stress(part, load), "EN 1993-1-8:2005 4.7.1, as the plate"
        limit = quality(part.inspected) * part.steel.f_y(part.thickness) / basis.gamma_M0
    else:
        stress, source = demand / part.area, "EN 1993-1-8:2005 4.7.2, 4.5.3.3"
        limit = fillet_strength(part.steel, part.thickest, basis, part.inspected).simplified
    capacity = demand * limit / stress if demand > NO_FORCE else limit * part.area
    return judged(part.name, "weld throat", load.case.name, demand, capacity, "kN", source)


def _size(part: Butt) -> Finding:
    return throat_size(part.name, min(part.throats))


def _fatigue(part: Butt, rated: Sequence[WeldLoads], basis: Basis) -> Outcome:
    if not rated:
        return Outcome()
    across = max(abs(load.across) for load in rated) / part.area
    along = max(abs(load.along) for load in rated) / part.area
    detail = "weld root"
    if part.full:
        detail = "butt weld" if part.inspected else "butt weld from one side, root not inspected"
    ranges = [(DETAILS[detail], across)] if across else []
    if along or not ranges:
        ranges.append((DETAILS["fillet weld in shear"], along))
    return fatigue(part.name, ranges, basis, case=rated[0].case.name, together=True)


def _refuse(part: Butt) -> None:
    sizes = {"length": (part.length,), "thickness": (part.thickness,), "penetration": part.penetration or ()}
    bad = [
        Problem(key, show(value, "mm"), "must be more than nothing", "a length above 0 mm", f'{key} = "8 mm"')
        for key, values in sizes.items()
        for value in values
        if not (math.isfinite(value) and value > 0)
    ]
    if part.penetration is not None and len(part.penetration) not in (1, 2):
        bad.append(Problem("penetration", str(part.penetration), "is not one side or two", "one depth a side"))
    if part.penetration and max(part.penetration) > part.thickness:
        deepest = show(max(part.penetration), "mm")
        bad.append(Problem("penetration", deepest, f"is more than the plate's {part.thickness:g} mm", "less than that"))
    if part.gap is not None and part.penetration is None:
        fault = "leaves part of the thickness unwelded, and no penetration is stated: then it is full"
        remedy = 'penetration = ["4 mm", "4 mm"]'
        bad.append(Problem("gap", show(part.gap, "mm"), fault, "left out, or with the depth of each side", remedy))
    if part.gap is not None and part.gap >= part.thickness:
        bad.append(Problem("gap", show(part.gap, "mm"), f"is all of the plate's {part.thickness:g} mm", "less"))
    bad += thinner_above(part.thickness, part.thickest)
    if bad:
        raise InputError(bad).within(part=f'weld "{part.name}"')


def _assumptions(part: Butt, across: bool) -> tuple[Assumption, ...]:
    texts = ["filler metal at least as strong as the plates (EN 1993-1-8 4.2)"]
    if not part.inspected:
        texts.append(inspection())
    if not part.full and not part.proven:
        texts.append(f"{UNPROVEN:g} mm of the penetration do not count, as no trial proves it (ours)")
    if not part.run_off:
        texts.append("a throat is lost at each end of the weld, as no run-off plates are stated")
    made = [Assumption(part.name, text) for text in texts]
    if part.steel.assumed and part.weldable:
        text = f"steel unknown, taken as {part.steel.name}; weldable as stated"
        made.append(Assumption(part.name, text, part.steel.condition))
    return (*made, *through_thickness(part.name, part.thickest, across))
