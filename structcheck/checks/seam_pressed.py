"""Seams between web and flange where a force is pressed through them: across and along together, by the throat."""

import math
from collections.abc import Mapping, Sequence

from structcheck.checks.basis import Basis
from structcheck.checks.fatigue import DETAILS, fatigue
from structcheck.checks.seams import TWISTED, Seams
from structcheck.checks.web_resistance import LocalLoad, Web, bearing_length, on_both_sides, strut_size, web_plate
from structcheck.checks.weld_strength import fillet_strength, steel_reason
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, complete, judged, not_checked, worst
from structcheck.record import record
from structcheck.standards.en1993_1_5 import shear_lag
from structcheck.standards.en1993_1_8 import welds

NEEDED = ("weld throat", "fatigue")
SOURCE = "EN 1993-1-5:2006 3.2.3 and V S / I, EN 1993-1-8:2005 4.5.3.3"
FITTED = "the plates are fitted and bear on each other where a force is pressed in, as stated"
ONE_SIDED = (
    "a fillet on one side of the web would be bent about its root by the force pressed through it (EN 1993-1-8 4.12); "
    "weld both sides, or say `fitted` where the plates bear on each other"
)


@record
class Pressed:
    """Force across and along one seam where a force enters, N/mm of the member, and the length it enters on, mm."""

    across: float
    along: float
    length: float


def check_pressed_seams(
    part: Seams, web: Web, loads: Sequence[LocalLoad], torques: Mapping[str, float], basis: Basis, fitted: bool
) -> Outcome:
    """The throat where every force enters, one seam a web, and its fatigue; contact of the plates counts where stated.

    torques  greatest torque on all pieces by case
    """
    if fitted:
        never = tuple(NotNeeded(part.name, check, FITTED) for check in NEEDED)
        return Outcome(does_not_apply=never, assumptions=(Assumption(part.name, FITTED),))
    reason = part.unknown or steel_reason(part.steel, part.weldable)
    if part.throat is None:
        reason = "the throat of the section's seams is not stated"
    elif not reason and part.runs == 1:
        reason = ONE_SIDED
    elif not reason and any(torques.values()) and not all(seam.by_twist for seam in part.seams):
        reason = TWISTED
    if reason:
        return complete(Outcome(), part.name, NEEDED, reason)
    findings: list[Finding] = []
    ranges = []
    for load in loads:
        try:
            pressed = pressed_flow(part, web, load, torques.get(load.case.name, 0.0))
            if load.case.limit == "ultimate":
                findings.append(_throat(part, load, pressed, basis))
            elif load.case.limit == "rated":
                ranges.append((load.case.name, throat_stress(part, replace_along(pressed))))
        except NotCovered as why:
            findings.append(not_checked(part.name, NEEDED[0], str(why), case=load.case.name))
    outcome = Outcome((worst(findings),) if findings else ())
    if ranges:
        case, most = max(ranges, key=lambda one: one[1])
        outcome += fatigue(part.name, [(DETAILS["weld root"], most)], basis, case=case)
    return complete(outcome, part.name, NEEDED, "no force was given for it")


def replace_along(pressed: Pressed) -> Pressed:
    """What fatigue of the root looks at: the force across alone."""
    return Pressed(pressed.across, 0.0, pressed.length)


def pressed_flow(part: Seams, web: Web, load: LocalLoad, torque: float) -> Pressed:
    """What one seam bears where a force enters. Raises NotCovered for a section without webs under its flange."""
    plate = web_plate(web.section, web.steel)
    share = 1 / web.pieces if load.share is None else load.share
    s_s, c = bearing_length(load, plate.h_w)
    length = float(shear_lag.length_under_flange(s_s, plate.t_f, math.inf if c is None else c))
    force = load.force * share / plate.webs
    if load.stiffeners is not None and on_both_sides(web, load.stiffeners):
        area = strut_size(plate, load.stiffeners, load)[0]
        force *= 1 - 2 * load.stiffeners.width * load.stiffeners.thickness / area
    along = abs(load.V) * share * max(seam.by_z for seam in part.seams)
    along += torque * share * max(seam.by_twist for seam in part.seams)
    return Pressed(force / length, along, length)


def throat_stress(part: Seams, pressed: Pressed) -> float:
    """Resultant on the throat, MPa. Raises NotCovered where the force may stand between two stretches."""
    if part.throat is None:
        raise NotCovered("the throat of the section's seams is not stated")
    area = part.runs * part.throat
    across = pressed.across / area
    laid = part.stretched
    if laid is not None:
        weld = max(welds.effective_length(laid.stretch, part.throat), 0.0)
        least = least_covered(pressed.length, weld, laid.stretch + laid.gap)
        if least <= 0:
            raise NotCovered("the force may stand between two stretches of the seams, on contact alone")
        across *= pressed.length / least
    return math.hypot(across, pressed.along / part.area)


def least_covered(length: float, weld: float, pitch: float) -> float:
    """The least weld that a length can meet, wherever it lies over stretches of `weld` every `pitch`, mm."""
    whole = math.floor(length / pitch)
    return whole * weld + max(length - whole * pitch - (pitch - weld), 0.0)


def _throat(part: Seams, load: LocalLoad, pressed: Pressed, basis: Basis) -> Finding:
    strength = fillet_strength(part.steel, part.thickness, basis, part.inspected).simplified
    assert part.throat is not None
    area = part.runs * part.throat
    reason = (
        f"{load.place}: {pressed.across:.0f} N/mm across on {pressed.length:.0f} mm and {pressed.along:.0f} N/mm along"
    )
    demand, capacity = throat_stress(part, pressed) * area, strength * area
    return judged(part.name, NEEDED[0], load.case.name, demand, capacity, "N/mm", SOURCE, reason=reason)
