"""Bolts through a plate: a group in shear, with or beside its centre, in tension, or both."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

import numpy as np

from structcheck.analysis.bolt_group_ic import ultimate
from structcheck.checks import bolts_plate, bolts_prying, bolts_slip, bolts_strength, bolts_stress, bolts_through
from structcheck.checks.basis import Basis
from structcheck.checks.bolts_at_once import AT_ONCE
from structcheck.checks.bolts_group import BoltGroup, BoltLoads, judged_as, work_out
from structcheck.checks.bolts_input import assumptions, validate
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, complete, not_checked, worst, worst_case
from structcheck.showing import show

__all__ = ["NEEDED", "BoltGroup", "BoltLoads", "check_bolts"]

NEEDED = (
    "bolt shear",
    "bolt bearing",
    "bolt tension",
    "punching",
    "bolt shear and tension",
    "bolt spacing",
    "net section",
    "block tearing",
    "slip",
    "prying",
    "yield at greatest force",
    "fatigue",
)

Judge = Callable[[BoltGroup, BoltLoads, Basis], Finding]

IN_SHEAR: dict[str, Judge] = {
    "bolt shear": bolts_strength.shear,
    "bolt bearing": bolts_strength.bearing,
    "net section": bolts_plate.net_section,
}
TEARING: dict[str, Judge] = {"block tearing": bolts_plate.block_tearing}
IN_TENSION: dict[str, Judge] = {
    "bolt tension": bolts_strength.tension,
    "punching": bolts_strength.punching,
    "prying": bolts_prying.prying,
}
THROUGH: dict[str, Judge] = {
    "pin bearing": bolts_through.bearing,
    "pin bending": bolts_through.bending,
    "pin shear and bending": bolts_through.shear_and_bending,
}
OF_THE_PLATES_WAY = ("net section", "yield at greatest force", "fatigue")
"""Checks that the way the plate goes on from the group decides."""
TOGETHER: dict[str, Judge] = {"bolt shear and tension": bolts_strength.shear_and_tension}


def check_bolts(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> Outcome:
    """Judge a group of bolts and the plate around them in every case given.

    Where a force stands beside the centre and nobody says which way the plate goes on, both ways are judged: what
    holds one way only is `not checked`. Raises InputError where the group cannot be built.
    """
    validate(part, loads)
    work_out(part, loads)
    if part.plate_runs is None and any(load.turn or load.across for load in loads):
        along = _check(judged_as(part, plate_runs="along"), loads, basis)
        known = {finding.check: finding for finding in along.findings if finding.check not in OF_THE_PLATES_WAY}
        across = _check(judged_as(part, plate_runs="across"), loads, basis, known)
        outcome = _either_way(part, along, across)
    else:
        outcome = _check(part, loads, basis)
    return outcome + Outcome(answers=_second_opinion(part, loads, basis))


def _either_way(part: BoltGroup, along: Outcome, across: Outcome) -> Outcome:
    """One outcome of two ways the plate may run: the worse, or `not checked` where only one of them fails."""
    others = {finding.check: finding for finding in across.findings}
    findings = [_of_both(finding, others.get(finding.check, finding)) for finding in along.findings]
    least = min((*along.times_on_yield, *across.times_on_yield), key=lambda t: t.value, default=None)
    return replace(
        along,
        findings=tuple(findings),
        times_on_yield=(least,) if least else (),
        answers=_answers_of_both(along.answers, across.answers),
    )


def _of_both(along: Finding, across: Finding) -> Finding:
    """The worse of two ways; where only one fails, neither a pass nor a failure is known, and both are told."""
    if "fails" not in (along.verdict, across.verdict) or along.verdict == across.verdict:
        return worst((along, across))
    failing, way, other, other_way = along, "along", across, "across"
    if across.verdict == "fails":
        failing, way, other, other_way = across, "across", along, "along"
    over = f"over ({bolts_stress.use_of(failing)}) if the plate runs {way} the force"
    beside = f", holds ({bolts_stress.use_of(other)}) if {other_way}: "
    if other.verdict == "not checked":
        beside = f"; if {other_way}, {other.reason}; "
    return not_checked(along.part, along.check, f"{over}{beside}state plate_runs", case=failing.case)


def _answers_of_both(along: tuple[str, ...], across: tuple[str, ...]) -> tuple[str, ...]:
    """What both ways answer once, and the rest with its way beside it."""
    told = [text if text in across else f"{text}, if the plate runs along the force" for text in along]
    told += [f"{text}, if the plate runs across the force" for text in across if text not in along]
    return tuple(told)


def _check(
    part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis, known: Mapping[str, Finding] = MappingProxyType({})
) -> Outcome:
    """One way the plate may run; `known` are findings that the other way gave already."""
    by_limit = {
        limit: [load for load in loads if load.case.limit == limit] for limit in ("ultimate", "greatest force", "rated")
    }
    outcome = _strength(part, by_limit["ultimate"], basis, known)
    outcome += _slip(part, loads, basis)
    outcome += _spacing(part)
    outcome += bolts_stress.check_elastic(part, by_limit["greatest force"], by_limit["rated"], basis)
    made = assumptions(part, loads) + bolts_slip.assumptions(part) + bolts_through.assumptions(part)
    if any(load.pulled for load in loads):
        made += bolts_prying.assumptions(part, basis)
    outcome += Outcome(assumptions=made, advice=_advice(part))
    return complete(outcome, part.name, NEEDED, "no load case for it was given")


def _judge(part: BoltGroup, check: str, judge: Judge, loads: Sequence[BoltLoads], basis: Basis) -> Finding:
    """The finding of the case that governs; where the method does not reach, `not checked` with the reason."""
    try:
        if part.spread == "plastic" and judge not in IN_TENSION.values():
            for load in loads:
                if refused := bolts_strength.plastic_refused(part, load, basis):
                    raise NotCovered(refused)
        most = AT_ONCE[judge](part, loads, basis) if judge in AT_ONCE and len(loads) > 1 else None
        return worst_case(lambda load: judge(part, load, basis), loads, most)
    except NotCovered as reason:
        return not_checked(part.name, check, str(reason))


def _strength(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis, known: Mapping[str, Finding]) -> Outcome:
    sheared = [load for load in loads if load.sheared]
    pulled = [load for load in loads if load.pulled]
    if not sheared and not pulled:
        return Outcome()
    outcome = Outcome()
    in_plane = _unlike(sheared, "shear", "across", "turn")
    for judges, cases, absent in (
        (IN_SHEAR, in_plane, "no force across the bolts"),
        (TEARING, [load for load in in_plane if load.force], "no force in the plane of the plate (3.10.2)"),
        (IN_TENSION, _unlike(pulled, "tension", "bend_x", "bend_y", "force"), "no force along the bolts"),
        (TOGETHER, [load for load in sheared if load.pulled], "no case with force both across and along the bolts"),
    ):
        for check, judge in judges.items():
            if check in ("bolt shear", "bolt shear and tension") and part.category == "C":
                why = "category C does not slip at ultimate (Table 3.2, 3.9.2)"
                outcome += Outcome(does_not_apply=(NotNeeded(part.name, check, why),))
            elif cases:
                outcome += Outcome((known.get(check) or _judge(part, check, judge, cases, basis),))
            else:
                outcome += Outcome(does_not_apply=(NotNeeded(part.name, check, absent),))
    if bolts_through.is_pin(part):
        outcome += Outcome(
            tuple(_judge(part, check, judge, sheared, basis) for check, judge in THROUGH.items() if sheared)
        )
    return outcome + _single_lap(part, sheared, basis)


def _unlike(loads: Sequence[BoltLoads], *components: str) -> list[BoltLoads]:
    """The first of every set of loads that are equal in what a check looks at."""
    kept: dict[tuple[float, ...], BoltLoads] = {}
    for load in loads:
        kept.setdefault(tuple(getattr(load, name) for name in components), load)
    return list(kept.values())


def _single_lap(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> Outcome:
    """Where one row in one plane could be a plain lap, what its cap of 3.6.1(10) would change."""
    wide, long = np.ptp(part.positions, axis=0)
    one_row = long == 0 or (wide == 0 and any(load.across for load in loads))
    if part.single_lap is not None or not one_row or part.planes > 1 or not loads:
        return Outcome()
    held = _judge(part, "bolt bearing", bolts_strength.bearing, loads, basis)
    capped = _judge(judged_as(part, single_lap=True), "bolt bearing", bolts_strength.bearing, loads, basis)
    if held.utilisation is None or capped.utilisation is None or capped.utilisation <= held.utilisation:
        return Outcome()
    text = "the lapped plates are held against turning out of line; if not, single_lap = true"
    decides = held.verdict == "holds" and capped.verdict == "fails"
    condition = "the lapped plates are held against turning out of line" if decides else ""
    return Outcome(assumptions=(Assumption(part.name, text, condition),))


def _slip(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> Outcome:
    if part.category not in ("B", "C"):
        why = "the bolts bear on the plates (category A); they may slip by the clearance of the holes"
        if part.slot and part.slot.endswith("along"):
            why = "category A: nothing is counted on friction"
        return Outcome(does_not_apply=(NotNeeded(part.name, "slip", why),))
    # Category B must not slip in service: the greatest force of the drive is taken for it, not the rated one.
    limit = "ultimate" if part.category == "C" else "greatest force"
    if part.gap or part.hollow:
        why = (
            "tube walls with nothing between them cannot be clamped: put a sleeve in, and leave `gap` and `hollow` out"
        )
        return Outcome((not_checked(part.name, "slip", why),))
    cases = [load for load in loads if load.case.limit == limit and load.sheared]
    if not cases:
        return Outcome(does_not_apply=(NotNeeded(part.name, "slip", "no force across the bolts"),))
    return Outcome((_judge(part, "slip", bolts_slip.slip, cases, basis),))


def _spacing(part: BoltGroup) -> Outcome:
    try:
        return Outcome((bolts_plate.spacing(part),))
    except NotCovered as reason:
        return Outcome((not_checked(part.name, "bolt spacing", str(reason)),))


def _second_opinion(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> tuple[str, ...]:
    """What the instantaneous centre gives where the force stands beside the centre; no finding rests on it."""
    turned = [load for load in loads if load.case.limit == "ultimate" and load.turn and load.force]
    if not turned or part.count == 1:
        return ()
    load = max(turned, key=lambda one: one.force)
    try:
        one = bolts_strength.one_plane(part, basis, bool(load.across)) * part.planes
        factor = ultimate(part.positions, (load.across, load.shear), load.turn)
    except NotCovered:
        return ()
    text = f"{part.name}: in bolt shear the group would bear {show(factor * one * load.force, 'kN')} there by the"
    return (f"{text} instantaneous centre, a method EN 1993-1-8 does not have",)


def _advice(part: BoltGroup) -> tuple[str, ...]:
    made = []
    if part.size.d < 12:
        made.append(f"{part.name}: EN 1090-2 asks for M12 at least in structural joints; {part.size.name} is given")
    socket = 0.75 * part.size.s_min
    if part.lever is not None and part.lever < socket:
        made.append(
            f"{part.name}: a socket on {part.size.name} wants some {socket:.0f} mm to the weld, not {part.lever:g}"
        )
    if not part.steady:
        made.append(f"{part.name}: under knocks or reversal lock or preload the nuts (EN 1993-1-8 2.6)")
    return tuple(made)
