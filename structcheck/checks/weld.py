"""The weld question: equal parallel fillets, or one run round a hollow section, under force along and across.

A fillet's strength is that of EN 1993-1-8 4.5.3: simplified for the finding, directional where asked for. What the
clause does not judge stays `not checked`: a run bent about its root, a steel nobody calls weldable, steels without
a correlation factor.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

from structcheck.analysis.weld_group import parallel_runs
from structcheck.checks.basis import Basis
from structcheck.checks.fatigue import DETAILS, fatigue, worse_of
from structcheck.checks.weld_cautions import STIFF_BEHIND, corner_of_unknown_make, size_advice, through_thickness
from structcheck.checks.weld_description import Weld, WeldLoads, refuse
from structcheck.checks.weld_intermittent import Intermittent, intermittent_size, staggered_gap
from structcheck.checks.weld_sizes import length_size, throat_size, worst_size
from structcheck.checks.weld_strength import Strength, fillet_strength, inspection, quality, steel_reason
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, complete, judged, not_checked, worst
from structcheck.record import record
from structcheck.showing import show
from structcheck.standards.en1993_1_8 import welds

NEEDED = ("weld throat", "weld size", "yield at greatest force", "fatigue")

NO_FORCE = 1e-6
"""Below this many newtons there is no force to speak of."""

TOE = "cruciform toe, any size"
"""The part beside a weld pulled across; the lowest of its categories, as the plate it stands on is not known."""

LEVERED = "a run round a section under a lever needs the shape of the section: ask as a weld group"

NO_YIELD = (
    "the throat is filler metal, which must be stronger than the plates (EN 1993-1-8 4.2); its strength is defined by "
    "f_u and has no elastic limit of its own. The parts joined carry this check"
)


@record
class _Throat:
    """Stress on the throat where it is greatest, in MPa."""

    along: float
    across: float

    @property
    def resultant(self) -> float:
        return math.hypot(self.along, self.across)

    @property
    def half(self) -> float:
        """What acts across along a leg meets the throat at 45 degrees: normal to it and shear on it alike."""
        return self.across / math.sqrt(2)


def check_weld(part: Weld, loads: Sequence[WeldLoads], basis: Basis) -> Outcome:
    """Throat, size and fatigue of a simple weld."""
    refuse(part)
    outcome = Outcome(
        (_size(part), *_parts_joined(part, loads)),
        does_not_apply=() if part.thickness else (NotNeeded(part.name, "yield at greatest force", NO_YIELD),),
        assumptions=_assumptions(part, loads),
        advice=size_advice(part.name, part.a, part.thickness, part.thickest),
    )
    why_not = _why_not(part, loads)
    if why_not:
        blocked = tuple(not_checked(part.name, check, why_not) for check in ("weld throat", "fatigue"))
        return outcome + Outcome(blocked)
    strength = fillet_strength(part.steel, part.thickest, basis, part.inspected)
    outcome += Outcome(answers=_full_strength(part, basis))
    ultimate = [load for load in loads if load.case.limit == "ultimate"]
    if ultimate:
        outcome += Outcome((worst(_strength(part, load, strength) for load in ultimate),))
    outcome += _fatigue(part, [load for load in loads if load.case.limit == "rated"], basis)
    return complete(outcome, part.name, NEEDED, "no load is given for this check")


def _parts_joined(part: Weld, loads: Sequence[WeldLoads]) -> tuple[Finding, ...]:
    """Yield of the thinner part beside the weld, where its thickness is stated: a weld may outlast what it holds."""
    if part.thickness is None:
        return ()
    plates = part.runs if part.one_sided or part.around else math.ceil(part.runs / 2)
    length = sum(part.laid.pieces) if part.laid else part.length
    area = part.thickness * length * plates
    levered = part.around and any(load.along * part.eccentricity for load in loads)
    check, source = "yield at greatest force", "EN 1993-1-1:2005 6.2.1(5), elastic, the thinner part along the weld"
    found = []
    for load in loads:
        if load.case.limit == "greatest force":
            try:
                f_y = part.steel.f_y(part.thickness)
            except NotCovered as reason:
                return (not_checked(part.name, check, str(reason)),)
            if levered:
                return (not_checked(part.name, check, LEVERED),)
            stress = max(math.hypot(load.across, math.sqrt(3) * load.along) / area, *_handed_on(part, load))
            found.append(judged(part.name, check, load.case.name, stress, f_y, "MPa", source))
    return (worst(found),) if found else ()


def _handed_on(part: Weld, load: WeldLoads) -> list[float]:
    """Stress of the thinner part where a lever loads the runs unevenly: what they hand it there, on its thickness.

    Off its face both fillets stand on one plate; in its face each stands on an edge of its own.
    """
    if not load.along * part.eccentricity or part.effective <= 0:
        return [0.0]
    found = []
    for plane in (part.plane,) if part.plane else ("out", "in"):
        fillets = min(part.runs, 2) if plane == "out" and not part.one_sided else 1
        for throat in _throats(replace(part, plane=plane), load):
            stress = math.hypot(throat.across, math.sqrt(3) * throat.along)
            found.append(stress * part.a * fillets / part.thickness)
    return found


def _why_not(part: Weld, loads: Sequence[WeldLoads]) -> str:
    """Why strength and fatigue cannot be judged, or nothing."""
    reason = steel_reason(part.steel, part.weldable)
    if reason:
        return reason
    if part.thickness is not None and part.thickness < (2.5 if part.around else 4.0):
        least = "2.5 mm for a hollow section" if part.around else "4 mm"
        return f"a part {part.thickness:g} mm thick is thinner than EN 1993-1-8 4.1 covers ({least})"
    try:
        for t in (part.thickness, part.thickest):
            if t is not None:
                part.steel.strengths(t)
    except NotCovered as why:
        return str(why)
    if part.around and part.eccentricity:
        return LEVERED
    across = any(load.across or load.along * part.eccentricity for load in loads)
    if across and not part.around and (part.runs == 1 or part.one_sided):
        return (
            "a fillet on one side, pulled across or bent about its root, is not judged (EN 1993-1-8 4.12); weld both "
            "sides, or say that the run goes round a whole hollow section"
        )
    return ""


def _size(part: Weld) -> Finding:
    """Throat and effective length against the least that may carry load, the worse of the two."""
    throat = throat_size(part.name, part.a)
    if part.laid is None:
        return worst_size((throat, length_size(part.name, part.a, part.effective)))
    counts = welds.effective_length(min(part.laid.pieces), part.a)
    return worst_size((throat, length_size(part.name, part.a, counts, "shortest stretch: "), _gaps(part)))


def _gaps(part: Weld) -> Finding:
    """How far apart the stretches of an intermittent run stand."""
    gap = part.laid.gap
    joined = Intermittent(
        name=part.name,
        gap=staggered_gap(gap, part.stretch) if part.staggered else gap,
        end_run=part.laid.pieces[0],
        thickness=part.thickness,
        other=part.thickest,
        width=part.width,
        other_width=part.other_width,
        pulled=part.pulled,
        dry=part.dry,
    )
    return intermittent_size(joined)


def _full_strength(part: Weld, basis: Basis) -> tuple[str, ...]:
    """The throat as strong as the thinner part, on both its sides, or round a hollow section on the one."""
    if part.thickness is None:
        return ()
    f_y, f_u = part.steel.strengths(part.thickness)
    both = welds.full_strength_throat(
        part.thickness, f_y, f_u, part.steel.beta_w, basis.gamma_M0, basis.gamma_M2
    ) / quality(part.inspected)
    throat, where = (2 * both, "all round") if part.around else (both, "on both sides")
    return (
        f"{part.name}: a throat of {math.ceil(10 * throat) / 10:g} mm {where} is as strong as the part of "
        f"{part.thickness:g} mm (4.5.3.2, pulled square)",
    )


def _offsets(part: Weld, spacing: float) -> list[float]:
    return [(i - (part.runs - 1) / 2) * spacing for i in range(part.runs)]


def _throats(part: Weld, load: WeldLoads) -> list[_Throat]:
    """Stress on the throat for every way the lever may lie that the user has not ruled out."""
    moment = load.along * part.eccentricity
    plans = [_offsets(part, 0.0)]
    if moment and part.plane == "in":
        plans = [_offsets(part, part.spacing)] if part.spacing is not None else _any_spacing(part)
    elif moment and part.plane is None:
        plans = _any_spacing(part) if part.spacing is None else [*plans, _offsets(part, part.spacing)]
    # What a whole run would feel, times (e + l)/l where it is laid in stretches (4.9): they stand out to its ends, so
    # this underrates none of them.
    gaps = part.spread / part.effective
    felt = [parallel_runs(part.spread, part.a, plan, load.along, load.across, moment) for plan in plans]
    return [_Throat(along * gaps, across * gaps) for along, across in felt]


def _any_spacing(part: Weld) -> list[list[float]]:
    """Spacings from none to five lengths; beyond, the lever of the runs grows faster than the moment's share."""
    return [_offsets(part, part.spread * step / 40) for step in range(201)]


def _strength(part: Weld, load: WeldLoads, strength: Strength) -> Finding:
    demand = math.hypot(load.along, load.across)
    directional = part.method == "directional" and part.leg_2 is None
    source = "EN 1993-1-8:2005 4.5.3.2 (directional)" if directional else "EN 1993-1-8:2005 4.5.3.3"
    if part.effective <= 0:
        why = "nothing is left of the run, or of its stretches, between their own two ends"
        return judged(part.name, "weld throat", load.case.name, demand, 0.0, "kN", source, reason=why)
    if demand < NO_FORCE:
        capacity = strength.simplified * part.a * part.effective * part.runs
        return judged(part.name, "weld throat", load.case.name, 0.0, capacity, "kN", source, reason="no force")
    throat = max(_throats(part, load), key=lambda each: _severity(part, each, strength))
    ratio, reason = _ratio(part, throat, strength)
    # A long run is pulled unevenly; kept for every run along the force, since who knows how its stress is shared.
    if load.along and part.spread > 150 * part.a:
        factor = welds.long_lap_factor(part.length, part.a)
        ratio, reason = (
            ratio / factor if factor > 0 else math.inf,
            f"{reason}; longer than 150 a, x {factor:.2f} (4.11)",
        )
    return judged(part.name, "weld throat", load.case.name, demand, demand / ratio, "kN", source, reason=reason)


def _by_simplified(part: Weld, throat: _Throat) -> bool:
    """Round a section the force along it is not along every part of the run; unequal legs do not meet at 45 degrees."""
    return part.method == "simplified" or part.leg_2 is not None or (part.around and throat.along > 0)


def _severity(part: Weld, throat: _Throat, strength: Strength) -> float:
    if _by_simplified(part, throat):
        return throat.resultant
    return float(strength.share(throat.half, throat.half, throat.along))


def _ratio(part: Weld, throat: _Throat, strength: Strength) -> tuple[float, str]:
    """Share of the throat's strength that is used, and which condition decides."""
    if _by_simplified(part, throat):
        return throat.resultant / strength.simplified, f"{show(strength.simplified, 'MPa')} on the throat"
    return strength.directional(throat.half, throat.half, throat.along)


def _fatigue(part: Weld, loads: Sequence[WeldLoads], basis: Basis) -> Outcome:
    """Root and throat in shear under the greatest ranges of the rated cases; the toe, another spot, apart."""
    if not loads:
        return Outcome()
    if part.effective <= 0:
        return Outcome((not_checked(part.name, "fatigue", "the run is no longer than its own two ends"),))
    cases = [(load, throat) for load in loads for throat in _throats(part, load)]
    across, along = max(t.across for _, t in cases), max(t.along for _, t in cases)
    ranges = [(DETAILS["weld root"], across)] if across else []
    if along or not ranges:
        ranges.append((DETAILS["fillet weld in shear"], along))
    case = loads[0].case.name
    outcome = fatigue(part.name, ranges, basis, case=case, together=True)
    if not across or part.thickness is None:
        return outcome
    sides = 1 if part.one_sided or part.around else 2
    toe = fatigue(part.name, [(DETAILS[TOE], across * part.a * sides / part.thickness)], basis, case=case)
    return worse_of(outcome, toe)


def _assumptions(part: Weld, loads: Sequence[WeldLoads]) -> tuple[Assumption, ...]:
    texts = [
        "filler metal at least as strong as the plates (EN 1993-1-8 4.2); the steel given is that of the weaker part",
    ]
    if part.leg is not None and part.leg_2 is not None:
        texts.append(f"throat {show(part.a, 'mm')} of a flat fillet with legs of {part.leg:g} and {part.leg_2:g} mm")
    elif part.leg is not None:
        texts.append(f"throat {show(part.a, 'mm')} taken as 0.7 x the smaller leg of {show(part.leg, 'mm')}")
    if not part.inspected:
        texts.append(inspection())
    if part.runs > 1:
        texts.append(f"the {part.runs} runs are equal and share the force equally")
    if part.runs > 1 and not part.one_sided and any(load.across for load in loads):
        texts.append("the runs stand on both sides of the part, so a force across bends none of them about its root")
    if any(load.across for load in loads):
        texts.append(STIFF_BEHIND)
        if part.thickness is None:
            least = (1 if part.one_sided or part.around else 2) * part.a * DETAILS["weld root"].category
            least /= DETAILS[TOE].category
            texts.append(
                f"the part pulled is at least {least:.1f} mm thick, so that no crack starts at the weld's toe first"
            )
        if part.thickest is None:
            texts.append("no plate is pulled through a thickness of more than 20 mm")
    texts += _lever_texts(part, loads)
    if part.laid:
        texts.append(
            f"each run laid in {part.stretches} stretches, {part.laid.gap:.4g} mm between them; in the fatigue of the "
            "parts themselves their ends count as an intermittent longitudinal weld"
        )
        if not part.pulled:
            texts.append("gaps as between parts that are pressed along the run or sheared, the stricter rule")
    strengths = {f_u for _, _, f_u in part.steel.steps}
    if part.thickest is None and len(strengths) > 1:
        texts.append(f"no part thicker than {part.steel.steps[0][0]:g} mm, so f_u {part.steel.steps[0][2]:g} MPa")
    made = [Assumption(part.name, text) for text in texts]
    if part.steel.assumed and part.weldable:
        text = f"steel unknown, taken as {part.steel.name}; weldable as stated"
        made.append(Assumption(part.name, text, part.steel.condition))
    if part.around and not part.killed and not (part.thickness is not None and part.thickness <= 4):
        made.append(corner_of_unknown_make(part.name))
    across = any(load.across or load.along * part.eccentricity for load in loads)
    return (*made, *through_thickness(part.name, part.thickest, across))


def _lever_texts(part: Weld, loads: Sequence[WeldLoads]) -> list[str]:
    if not part.eccentricity or not any(load.along for load in loads):
        return []
    texts = []
    if part.plane is None and part.runs > 1:
        texts.append("lever of the force either off the face or in it, whichever is worse, as none is stated")
    if part.plane != "out" and part.spacing is None and part.runs > 1:
        texts.append("the worst spacing of the runs is taken, as none is stated")
    if any(load.across for load in loads):
        texts.append("the force across acts through the middle of the runs")
    return texts
