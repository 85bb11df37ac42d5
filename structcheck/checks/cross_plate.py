"""A plate under the jack welded between two beams, lying flat, its ends on the inner faces of their webs.

How far webs and welds hold its ends nobody knows, so both bounds are taken: pinned for the plate, fixed for the welds
and for the webs that the plate's end bends.
"""

import math
from collections.abc import Iterable, Sequence

from structcheck.checks.basis import Basis, Case
from structcheck.checks.weld_room import throat_above
from structcheck.checks.weld_strength import fillet_strength, inspection, steel_reason
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Finding, Outcome, TimesOnYield, complete, judged, not_checked, worst
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.showing import show
from structcheck.standards import handbook_plates as plates
from structcheck.standards.en1993_1_8 import welds

NEEDED = ("bending", "shear", "weld throat", "wall bending", "yield at greatest force")
SHEAR = "EN 1993-1-1:2005 6.2.6"
WELD = "EN 1993-1-8:2005 4.5.3.3, ends fixed"
THINNEST_WELDED = 4.0


@record
class CrossPlate:
    """The plate, its welds and the webs (or tube walls) it stands between; mm.

    gap        clear between the webs
    along      size of the plate along the beams
    thickness  of the plate
    throat     of the fillets along its ends
    both       a run above and one below at each end; one alone would be bent about its root
    inspected  the welds are tested
    wall       thickness of a web
    wall_depth clear depth of a web between its flanges
    height     of the plate from the nearer flange of the beams; None: not stated, the worst
    to_centre  from the inner face of a web to the shear centre of its beam, away from the plate; None: not known
    """

    name: str
    gap: float
    along: float
    thickness: float
    steel: Steel
    throat: float
    wall: float
    wall_depth: float
    wall_steel: Steel
    both: bool = True
    inspected: bool = False
    height: float | None = None
    to_centre: float | None = None


@record
class CrossPlateLoads:
    """A force in the middle of the plate, spread evenly over `pad` between the beams; N, mm."""

    case: Case
    force: float
    pad: float = 0.0


def check_cross_plate(part: CrossPlate, loads: Sequence[CrossPlateLoads], basis: Basis) -> Outcome:
    """Plate, welds and webs at ultimate force, elastic stress at the greatest, times on yield at rated."""
    _refuse_contradictions(part, loads)
    findings: list[Finding] = []
    times: list[TimesOnYield] = []
    answers: list[str] = []
    for load in loads:
        if load.case.limit == "ultimate":
            for check, judge in _STRENGTH.items():
                try:
                    findings.append(judge(part, load, basis))
                except NotCovered as reason:
                    findings.append(not_checked(part.name, check, str(reason), case=load.case.name))
        elif load.case.limit == "greatest force":
            findings.append(_elastic(part, load))
        else:
            stress = _stress(part, load)
            times += [TimesOnYield(part.name, 1 / stress)] if stress else []
            answers += _twist(part, load)
    chosen = tuple(
        worst(f for f in findings if f.check == check) for check in NEEDED if any(f.check == check for f in findings)
    )
    least = min(times, key=lambda t: t.value, default=None)
    outcome = Outcome(chosen, (), tuple(_assumptions(part)), (least,) if least else (), tuple(answers))
    return complete(outcome, part.name, NEEDED, "no force was given for it")


# ---- bounds ---------------------------------------------------------------------------------


def pinned_moment(part: CrossPlate, load: CrossPlateLoads) -> float:
    """Moment in the middle of the plate, its ends free to turn, N mm."""
    return plates.strip_moment_between(load.force, part.gap, min(load.pad, part.gap))


def fixed_moment(part: CrossPlate, load: CrossPlateLoads) -> float:
    """Moment at each end of the plate, its ends held, N mm."""
    return plates.fixed_end_moment(load.force, part.gap, min(load.pad, part.gap))


def _wall_moment(part: CrossPlate, load: CrossPlateLoads) -> float:
    """Moment per width in the web beside the plate's end, N; near a flange one side of the web takes nearly all."""
    share = 1.0 if part.height is None else max(part.height, part.wall_depth - part.height) / part.wall_depth
    return plates.wall_moment(share * fixed_moment(part, load), part.along)


# ---- checks ---------------------------------------------------------------------------------


def _bending(part: CrossPlate, load: CrossPlateLoads, basis: Basis) -> Finding:
    _require_en1993(part)
    f_y = part.steel.f_y(part.thickness)
    capacity = plates.plastic_moment(part.thickness, f_y, basis.gamma_M0) * part.along
    return judged(part.name, "bending", load.case.name, pinned_moment(part, load), capacity, "kN m", plates.PLASTIC)


def _shear(part: CrossPlate, load: CrossPlateLoads, basis: Basis) -> Finding:
    _require_en1993(part)
    f_y = part.steel.f_y(part.thickness)
    capacity = plates.punching_resistance(2 * part.along, part.thickness, f_y, basis.gamma_M0)
    return judged(part.name, "shear", load.case.name, load.force, capacity, "kN", SHEAR)


def _weld(part: CrossPlate, load: CrossPlateLoads, basis: Basis) -> Finding:
    _require_en1993(part)
    if not part.both:
        raise NotCovered("a fillet on one side of the plate's end is bent about its root (EN 1993-1-8 4.12)")
    sides = ((part.steel, part.thickness), (part.wall_steel, part.wall))
    for steel, _ in sides:
        if reason := steel_reason(steel, False):
            raise NotCovered(reason)
    if min(part.thickness, part.wall) < THINNEST_WELDED:
        raise NotCovered(f"EN 1993-1-8 section 4 begins at {THINNEST_WELDED:g} mm")
    length = welds.effective_length(part.along, part.throat)
    if part.throat < 3 or length < welds.least_effective_length(part.throat):
        raise NotCovered("the runs are too thin or too short to carry load (EN 1993-1-8 4.5.1(2), 4.5.2(2))")
    strength = min(fillet_strength(steel, t, basis, part.inspected).simplified for steel, t in sides)
    capacity = strength * part.throat
    down = load.force / 4 / length
    out = fixed_moment(part, load) / part.thickness / length
    reason = "shear of the end and the couple of its fixed moment"
    return judged(
        part.name, "weld throat", load.case.name, math.hypot(down, out), capacity, "N/mm", WELD, reason=reason
    )


def _wall(part: CrossPlate, load: CrossPlateLoads, basis: Basis) -> Finding:
    _require_en1993(part)
    capacity = plates.plastic_moment(part.wall, part.wall_steel.f_y(part.wall), basis.gamma_M0)
    source = "plate strip between the flanges, ends of the cross plate fixed"
    # Per width; printed on the length of the plate's end.
    return judged(
        part.name,
        "wall bending",
        load.case.name,
        _wall_moment(part, load) * part.along,
        capacity * part.along,
        "kN m",
        source,
    )


_STRENGTH = {"bending": _bending, "shear": _shear, "weld throat": _weld, "wall bending": _wall}


def _require_en1993(part: CrossPlate) -> None:
    for steel in (part.steel, part.wall_steel):
        if not steel.in_en1993:
            raise NotCovered(f"{steel.name} is outside EN 1993")


def _stress(part: CrossPlate, load: CrossPlateLoads) -> float:
    """The greater share of the yield strength, in the plate or in the wall."""
    plate = plates.bending_stress(pinned_moment(part, load) / part.along, part.thickness)
    wall = plates.bending_stress(_wall_moment(part, load), part.wall)
    return max(plate / part.steel.f_y(part.thickness), wall / part.wall_steel.f_y(part.wall))


def _elastic(part: CrossPlate, load: CrossPlateLoads) -> Finding:
    f_y = part.steel.f_y(part.thickness)
    share = _stress(part, load)
    source = "elastic, plate pinned or its ends fixed on the webs"
    return judged(part.name, NEEDED[4], load.case.name, share * f_y, f_y, "MPa", source)


def _twist(part: CrossPlate, load: CrossPlateLoads) -> list[str]:
    if part.to_centre is None:
        return [f"{part.name}: the shear centre of the beams is not stated, so their twist is not given"]
    torque = load.force / 2 * part.to_centre
    return [f"{part.name}: twists each beam by {show(torque, 'kN m')} at {load.case.name} unless ties hold it"]


def _assumptions(part: CrossPlate) -> Iterable[Assumption]:
    yield Assumption(part.name, "the jack stands in the middle of the plate and presses evenly")
    if not part.inspected:
        yield Assumption(part.name, inspection())
    for steel in dict.fromkeys((part.steel, part.wall_steel)):
        if steel.assumed:
            yield Assumption(part.name, f"steel unknown, taken as {steel.name}", steel.condition)


def _refuse_contradictions(part: CrossPlate, loads: Sequence[CrossPlateLoads]) -> None:
    keys = ("gap", "along", "thickness", "throat", "wall", "wall_depth")
    problems = [
        Problem(key, f"{getattr(part, key):g} mm", "is no size", "a positive length", part=part.name)
        for key in keys
        if not getattr(part, key) > 0
    ]
    problems += throat_above("throat", part.throat, min(part.thickness, part.wall), part.steel, part.inspected, "alone")
    if part.height is not None and not 0 <= part.height <= part.wall_depth:
        wanted = f"from 0 to {part.wall_depth:g} mm"
        problems.append(Problem("height", f"{part.height:g} mm", "is not on the web", wanted, part=part.name))
    problems += [
        Problem("pad", f"{load.pad:g} mm", "is no size of a pad", "0 or more", part=part.name)
        for load in loads
        if not load.pad >= 0
    ]
    if problems:
        raise InputError(problems)
