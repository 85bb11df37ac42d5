"""A tube or a plate welded square to the face of a tube: the face, the weld, the corner zones, fatigue.

The connected face nearly always governs, not the weld (EN 1993-1-8 section 7). The weld is judged against full
strength of what it holds (7.3.1), because the force along its length is far from even.
"""

import math
from collections.abc import Sequence
from typing import Literal

from structcheck.checks.basis import Basis, Case
from structcheck.checks.member_class import class_in_compression
from structcheck.checks.tube_wall import Face, Upon, face_of, force_limits, moment_limits
from structcheck.checks.weld_cautions import cold_corner
from structcheck.checks.weld_room import throat_above
from structcheck.checks.weld_sizes import throat_size
from structcheck.checks.weld_strength import inspection, quality, steel_reason, weaker
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import (
    Assumption,
    Finding,
    NotNeeded,
    Outcome,
    complete,
    interaction,
    judged,
    not_checked,
    worst,
)
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.shapes.section import Section
from structcheck.showing import show
from structcheck.standards.en1993_1_8 import welds

NEEDED = ("tube face", "weld throat", "weld size", "yield at greatest force", "fatigue")

NO_YIELD = (
    "the resistances of EN 1993-1-8 section 7 are those of a wall that yields in lines, kept low enough to limit its "
    "dent; the tubes as members carry this check"
)
NO_FATIGUE = (
    "EN 1993-1-9 gives no category for a T joint of hollow sections; its stresses peak many times above nominal and "
    "need a hot spot analysis. Ask an engineer for the hot spot stress ranges in wall and brace (annex B), or join "
    "them by plates that have a category"
)


@record(kw_only=True)
class TubeJoint:
    """A brace square to a chord, welded all round; lengths in mm.

    chord, brace    hollow sections, or a flat as the brace
    side            the chord's connected face is b or h wide
    brace_along     the side of the brace that lies along the chord: its "h" or "b"
    plate_along     a flat brace lies along the chord (a lug) or across it
    cross           an equal brace stands opposite and its force passes straight through (an X joint); None: not stated
    throat, leg     of the fillet all round, or on both sides of a flat
    inspected       by somebody who can judge a weld
    killed          the cold-formed tubes are of aluminium-killed steel fit for welding at corners (J2H, K2H)
    weldable        the user says the steels can be welded
    """

    name: str
    chord: Section
    chord_steel: Steel
    brace: Section
    brace_steel: Steel
    side: Literal["b", "h"] = "b"
    brace_along: Literal["h", "b"] = "h"
    plate_along: bool | None = None
    cross: bool | None = None
    throat: float | None = None
    leg: float | None = None
    inspected: bool = False
    killed: bool = False
    weldable: bool = False

    @property
    def flat(self) -> bool:
        """The brace is a plate."""
        return self.brace.route in ("bar", "plate")

    @property
    def wall(self) -> float:
        """Thickness that is welded, mm."""
        return self.brace.dimensions["t"]

    @property
    def upon(self) -> Upon:
        """What stands on the face."""
        d, f_y1 = self.brace.dimensions, self.brace_steel.f_y(self.wall)
        if self.flat:
            if self.plate_along:
                return Upon("plate along", d["t"], d["b"], d["t"], f_y1)
            return Upon("plate across", d["b"], d["b"], d["t"], f_y1)
        if "D" in d:
            return Upon("round tube", d["D"], d["D"], d["t"], f_y1)
        along, across = (d["h"], d["b"]) if self.brace_along == "h" else (d["b"], d["h"])
        return Upon("tube", across, along, d["t"], f_y1)


@record
class TubeJointLoads:
    """What the brace brings to the face and what the chord carries.

    pull       axial force of the brace, tension positive, N
    in_plane   moment of the brace in the plane of the joint, N mm
    out_plane  moment across that plane, N mm
    stress     of the chord's connected face along the chord, compression positive, MPa
    """

    case: Case
    pull: float
    stress: float
    in_plane: float = 0.0
    out_plane: float = 0.0


def check_tube_joint(part: TubeJoint, loads: Sequence[TubeJointLoads], basis: Basis) -> Outcome:
    """The chord's face, the weld against full strength, and what fatigue needs."""
    _refuse(part)
    outcome = Outcome(
        (_weld(part, basis), _size(part), *_fatigue(part, basis)),
        does_not_apply=(NotNeeded(part.name, "yield at greatest force", NO_YIELD), *_static(part, basis)),
        assumptions=_assumptions(part),
    )
    ultimate = [load for load in loads if load.case.limit == "ultimate"]
    if ultimate:
        outcome += Outcome((worst(_face(part, load) for load in ultimate),))
    return complete(outcome, part.name, NEEDED, "no load is given for this check")


def _refuse(part: TubeJoint) -> None:
    bad = [
        Problem(key, show(value, "mm"), "must be more than nothing", "a length above 0 mm", f'{key} = "5 mm"')
        for key, value in {"throat": part.throat, "leg": part.leg}.items()
        if value is not None and not (math.isfinite(value) and value > 0)
    ]
    if part.plate_along is not None and not part.flat:
        fault = f"means nothing for {part.brace.designation}, which is no flat"
        bad.append(Problem("plate", "", fault, "left out, or a flat as the brace", 'brace = "FL 80x10"'))
    if part.throat is not None and part.leg is not None:
        bad.append(Problem("throat", "", "throat and leg are both given", "one of the two", 'throat = "5 mm"'))
    elif part.throat is not None or part.leg is not None:
        key, a = ("throat", part.throat) if part.throat is not None else ("leg", welds.throat_of_leg(part.leg))
        steel, side = weaker(part.chord_steel, part.brace_steel), "both" if part.flat else "alone"
        bad += throat_above(key, a, part.wall, steel, part.inspected, side)
    if bad:
        raise InputError(bad).within(part=f'tube joint "{part.name}"')


def _face(part: TubeJoint, load: TubeJointLoads) -> Finding:
    """Force and in-plane moment of the brace on the chord's face, added as 7.5.2.2 wants."""
    source, case = "EN 1993-1-8:2005 7.5.2", load.case.name
    try:
        face, upon = _fitted(part, load)
        n = load.stress / face.f_y0
        cross = part.cross is not False
        force = min(force_limits(face, upon, n, compression=load.pull < 0, cross=cross))
        if not (load.in_plane or load.out_plane):
            return judged(part.name, "tube face", case, abs(load.pull), force.value, "kN", source, reason=force.mode)
        W_pl = part.brace.Wpl_y if part.brace_along == "h" else part.brace.Wpl_z
        moment = min(moment_limits(face, upon, n, W_pl, cross=cross))
    except NotCovered as why:
        return not_checked(part.name, "tube face", str(why), case=case, source=source)
    ratio = abs(load.pull) / force.value + abs(load.in_plane) / moment.value
    reason = f"force: {force.mode}; moment: {moment.mode}"
    factor = 1 / ratio if ratio > 0 else math.inf
    return interaction(part.name, "tube face", case, factor, source, clause_ratio=ratio, reason=reason)


def _fitted(part: TubeJoint, load: TubeJointLoads) -> tuple[Face, Upon]:
    """The face and what stands on it. Raises NotCovered for what section 7 leaves out."""
    for steel in (part.chord_steel, part.brace_steel):
        if not steel.in_en1993:
            raise NotCovered(f"{steel.name} is outside EN 1993")
    if load.out_plane:
        raise NotCovered("a moment of the brace across the plane of the joint is not judged")
    if part.flat and part.plate_along is None:
        raise NotCovered("say whether the plate lies along the tube or across it")
    if not part.flat:
        pressed = load.pull < 0 or load.in_plane
        if pressed and class_in_compression(part.brace, part.brace_steel.f_y(part.wall)).number > 2:
            raise NotCovered(f"{part.brace.designation} pressed is not class 1 or 2 (EN 1993-1-8 Table 7.8)")
    return face_of(part.chord, part.chord_steel, part.side), part.upon


def _weld(part: TubeJoint, basis: Basis) -> Finding:
    """The throat against the one as strong as the wall it holds: a run on the one side of a tube, both of a plate."""
    source, check = "EN 1993-1-8:2005 7.3.1, 4.5.3.2 (full strength)", "weld throat"
    steel = weaker(part.chord_steel, part.brace_steel)
    for each in (part.chord_steel, part.brace_steel):
        reason = steel_reason(each, part.weldable)
        if reason:
            return not_checked(part.name, check, reason, source=source)
    needed = full_strength(part, steel, basis)
    given = part.throat if part.throat is not None else part.leg and welds.throat_of_leg(part.leg)
    if not given:
        return not_checked(part.name, check, f"no throat is stated; full strength needs {show(needed, 'mm')}")
    if given < needed:
        return not_checked(
            part.name,
            check,
            f"a throat of {show(given, 'mm')} is under the {show(needed, 'mm')} of full strength, and how unevenly the "
            "force runs along it is not judged",
            source=source,
        )
    return judged(part.name, check, "", needed, given, "mm", source, reason="as strong as the wall it holds")


def _size(part: TubeJoint) -> Finding:
    """The throat against the least there is; all round a tube a run has no ends."""
    given = part.throat if part.throat is not None else part.leg and welds.throat_of_leg(part.leg)
    if not given:
        return not_checked(part.name, "weld size", "no throat is stated")
    return throat_size(part.name, given)


def full_strength(part: TubeJoint, steel: Steel, basis: Basis) -> float:
    """Throat in mm that is as strong as the brace's wall, quality of the weld included."""
    f_y, f_u = part.brace_steel.f_y(part.wall), steel.f_u(part.wall)
    double = welds.full_strength_throat(part.wall, f_y, f_u, steel.beta_w, basis.gamma_M0, basis.gamma_M2)
    return (1 if part.flat else 2) * double / quality(part.inspected)


def _fatigue(part: TubeJoint, basis: Basis) -> tuple[Finding, ...]:
    return () if basis.static else (not_checked(part.name, "fatigue", NO_FATIGUE, source="EN 1993-1-9:2005"),)


def _static(part: TubeJoint, basis: Basis) -> tuple[NotNeeded, ...]:
    reason = "the use states static = true, no verdict on fatigue; no life can be given for this joint"
    return (NotNeeded(part.name, "fatigue", reason),) if basis.static else ()


def _near_corners(part: TubeJoint) -> bool:
    """Whether the weld runs within 5 t of the chord's corners."""
    d = part.chord.dimensions
    if part.side not in d:
        return False
    return (d[part.side] - part.upon.b_1) / 2 < 5 * d["t"]


def _assumptions(part: TubeJoint) -> tuple[Assumption, ...]:
    around = "on both sides of the plate" if part.flat else "all round the tube"
    made = [Assumption(part.name, f"welded {around}, filler metal at least as strong as the steels joined")]
    if not part.inspected:
        made.append(Assumption(part.name, inspection()))
    if part.cross is None:
        text = "an equal force stands on the opposite face, the worse case, as nothing is stated"
        made.append(Assumption(part.name, text))
    for section, steel in ((part.chord, part.chord_steel), (part.brace, part.brace_steel)):
        if steel.assumed:
            text = f"{section.designation}: steel unknown, taken as {steel.name}"
            made.append(Assumption(part.name, text, steel.condition))
        if section is part.brace or _near_corners(part):
            made += cold_corner(part.name, section, part.killed)
    return tuple(dict.fromkeys(made))
