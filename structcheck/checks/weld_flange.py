"""A plate welded square across an unstiffened flange (EN 1993-1-8 4.10): the flange bends away.

Only the part of the plate near the web really pulls. The weld is still judged against the full force of the plate,
because the stress peaks there (4.10(5)).
"""

import math
from collections.abc import Sequence

from structcheck.checks.basis import Basis, Case
from structcheck.checks.fatigue import DETAILS, fatigue
from structcheck.checks.weld import NO_YIELD
from structcheck.checks.weld_cautions import through_thickness
from structcheck.checks.weld_room import throat_above
from structcheck.checks.weld_sizes import length_size, throat_size, worst_size
from structcheck.checks.weld_strength import inspection, quality, steel_reason, weaker
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, complete, judged, not_checked, worst
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.shapes.rolled import RolledI
from structcheck.shapes.section import Section
from structcheck.showing import show
from structcheck.standards.en1993_1_8 import welds

NEEDED = ("flange bending", "weld throat", "weld size", "yield at greatest force", "fatigue")
THINNEST = 4.0
"""EN 1993-1-8 4.1(1), mm."""
SOURCE = "EN 1993-1-8:2005 4.10"


@record(kw_only=True)
class PlateOnFlange:
    """A plate square across a flange, a fillet on both its sides; mm.

    base       rolled I or H section
    width      of the plate across the flange
    thickness  of the plate
    """

    name: str
    base: Section
    base_steel: Steel
    width: float
    thickness: float
    steel: Steel
    throat: float | None = None
    leg: float | None = None
    inspected: bool = False
    weldable: bool = False

    @property
    def a(self) -> float:
        """Throat in mm."""
        return self.throat if self.throat is not None else welds.throat_of_leg(self.leg)


@record
class PlateOnFlangeLoads:
    """Force of the plate square to the flange, N."""

    case: Case
    force: float


def check_plate_on_flange(part: PlateOnFlange, loads: Sequence[PlateOnFlangeLoads], basis: Basis) -> Outcome:
    """The flange under the plate, the welds for the plate's full force, fatigue on what really pulls."""
    _refuse(part)
    outcome = Outcome(
        (_weld(part, basis), _size(part)),
        does_not_apply=(NotNeeded(part.name, "yield at greatest force", NO_YIELD),),
        assumptions=_assumptions(part),
    )
    ultimate = [load for load in loads if load.case.limit == "ultimate"]
    if ultimate:
        outcome += Outcome((worst(_flange(part, load, basis) for load in ultimate),))
    rated = [load for load in loads if load.case.limit == "rated"]
    if rated:
        outcome += _fatigue(part, rated, basis)
    return complete(outcome, part.name, NEEDED, "no load is given for this check")


def effective_width(part: PlateOnFlange) -> float:
    """Part of the plate's width that pulls, mm. Raises NotCovered where the flange must be stiffened."""
    shape, t_p = part.base.shape, part.thickness
    if not isinstance(shape, RolledI):
        raise NotCovered(f"{part.base.designation} is no rolled I or H section; ask a tube as a tube joint")
    if part.width > shape.b:
        raise NotCovered(f"a plate of {part.width:g} mm is wider than the flange of {shape.b:g} mm")
    for steel in (part.base_steel, part.steel):
        if not steel.in_en1993:
            raise NotCovered(f"{steel.name} is outside EN 1993")
    f_y_f, (f_y_p, f_u_p) = part.base_steel.f_y(shape.tf), part.steel.strengths(t_p)
    k = welds.flange_spread_factor(shape.tf, t_p, f_y_f, f_y_p)
    width = min(welds.effective_width_on_i(shape.tw, shape.r, k, shape.tf), part.width)
    least = welds.least_effective_width(f_y_p, f_u_p, part.width)
    if width < least:
        raise NotCovered(
            f"only {width:.0f} of {part.width:g} mm would pull, under the {least:.0f} mm of 4.10(4): stiffen the flange"
        )
    return width


def _refuse(part: PlateOnFlange) -> None:
    sizes = {"width": part.width, "thickness": part.thickness, "throat": part.throat, "leg": part.leg}
    bad = [
        Problem(key, show(value, "mm"), "must be more than nothing", "a length above 0 mm", f'{key} = "8 mm"')
        for key, value in sizes.items()
        if value is not None and not (math.isfinite(value) and value > 0)
    ]
    if (part.throat is None) == (part.leg is None):
        bad.append(Problem("throat", "", "one of throat and leg is needed", "one of the two", 'throat = "4 mm"'))
    elif not bad:
        key = "throat" if part.throat is not None else "leg"
        bad += throat_above(key, part.a, part.thickness, part.steel, part.inspected)
    if bad:
        raise InputError(bad).within(part=f'weld "{part.name}"')


def _flange(part: PlateOnFlange, load: PlateOnFlangeLoads, basis: Basis) -> Finding:
    try:
        width = effective_width(part)
    except NotCovered as why:
        return not_checked(part.name, "flange bending", str(why), case=load.case.name, source=SOURCE)
    capacity = welds.plate_force_on_flange(width, part.thickness, part.steel.f_y(part.thickness), basis.gamma_M0)
    reason = f"{width:.0f} of {part.width:g} mm of the plate pull"
    return judged(part.name, "flange bending", load.case.name, abs(load.force), capacity, "kN", SOURCE, reason=reason)


def _size(part: PlateOnFlange) -> Finding:
    length = welds.effective_length(part.width, part.a)
    return worst_size((throat_size(part.name, part.a), length_size(part.name, part.a, length)))


def _no_weld(part: PlateOnFlange) -> str:
    """Why a weld on these parts is not judged, or nothing."""
    if part.thickness < THINNEST:
        return f"a plate {part.thickness:g} mm thick is thinner than EN 1993-1-8 4.1 covers ({THINNEST:g} mm)"
    return next((r for s in (part.base_steel, part.steel) if (r := steel_reason(s, part.weldable))), "")


def _weld(part: PlateOnFlange, basis: Basis) -> Finding:
    """The throat against one as strong as the plate."""
    if reason := _no_weld(part):
        return not_checked(part.name, "weld throat", reason, source=SOURCE)
    steel, f_y = weaker(part.base_steel, part.steel), part.steel.f_y(part.thickness)
    f_u = steel.f_u(part.thickness)
    needed = welds.full_strength_throat(part.thickness, f_y, f_u, steel.beta_w, basis.gamma_M0, basis.gamma_M2)
    needed /= quality(part.inspected)
    source = "EN 1993-1-8:2005 4.10(5), 4.5.3.2 (full strength)"
    return judged(part.name, "weld throat", "", needed, part.a, "mm", source, reason="full force of the plate")


def _fatigue(part: PlateOnFlange, rated: Sequence[PlateOnFlangeLoads], basis: Basis) -> Outcome:
    reason = _no_weld(part)
    try:
        width = effective_width(part)
    except NotCovered as why:
        reason = reason or str(why)
    if reason:
        return Outcome((not_checked(part.name, "fatigue", reason),))
    load = max(rated, key=lambda each: abs(each.force))
    force = abs(load.force)
    ranges = [
        (DETAILS["weld root"], force / (2 * part.a * width)),
        (DETAILS["cruciform toe, any size"], force / (part.thickness * width)),
    ]
    return fatigue(part.name, ranges, basis, case=load.case.name)


def _assumptions(part: PlateOnFlange) -> tuple[Assumption, ...]:
    made = [Assumption(part.name, "a fillet on both sides of the plate, over its whole width")]
    if not part.inspected:
        made.append(Assumption(part.name, inspection()))
    for what, steel in (("flange", part.base_steel), ("plate", part.steel)):
        if steel.assumed:
            text = f"steel of the {what} unknown, taken as {steel.name}"
            made.append(Assumption(part.name, text, steel.condition))
    return (*made, *through_thickness(part.name, getattr(part.base.shape, "tf", None), True))
