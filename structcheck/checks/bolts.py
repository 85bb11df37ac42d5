"""Bolts through a plate: a group in shear, with or beside its centre, in tension, or both."""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from structcheck.checks import bolts_plate, bolts_strength
from structcheck.checks.basis import Basis
from structcheck.checks.bolts_group import BoltGroup, BoltLoads, assumptions, in_plane, validate
from structcheck.checks.fatigue import DETAILS, bolt_in_tension, fatigue
from structcheck.errors import NotCovered
from structcheck.findings import (
    Assumption,
    Finding,
    NotNeeded,
    Outcome,
    TimesOnYield,
    complete,
    judged,
    not_checked,
    worst,
)

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

MISES = "EN 1993-1-1:2005 6.2.1(5), elastic, net section"
FATIGUE_CLASSES = ("5.6", "8.8", "10.9")

Judge = Callable[[BoltGroup, BoltLoads, Basis], Finding]


def check_bolts(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> Outcome:
    """Judge a group of bolts and the plate around them in every case given.

    Raises InputError where the group cannot be built.
    """
    validate(part)
    outcome = _strength(part, [load for load in loads if load.case.limit == "ultimate"], basis)
    outcome += _spacing(part)
    outcome += _slip(part)
    outcome += _yield(part, [load for load in loads if load.case.limit == "greatest force"])
    outcome += _at_rated(part, [load for load in loads if load.case.limit == "rated"], basis)
    outcome += Outcome(assumptions=assumptions(part, loads), advice=_advice(part))
    return complete(outcome, part.name, NEEDED, "no load case for it was given")


def _judge(part: BoltGroup, check: str, judge: Judge, loads: Sequence[BoltLoads], basis: Basis) -> Finding:
    """The finding of the case that governs; where the method does not reach, `not checked` with the reason."""
    try:
        return worst(judge(part, load, basis) for load in loads)
    except NotCovered as reason:
        return not_checked(part.name, check, str(reason))


def _strength(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> Outcome:
    if not loads:
        return Outcome()
    sheared = [load for load in loads if load.shear]
    pulled = [load for load in loads if load.tension]
    both = [load for load in sheared if load.tension]
    if not sheared and not pulled:
        return Outcome()
    in_shear: dict[str, Judge] = {
        "bolt shear": bolts_strength.shear,
        "bolt bearing": bolts_strength.bearing,
        "net section": bolts_plate.net_section,
        "block tearing": bolts_plate.block_tearing,
    }
    in_tension: dict[str, Judge] = {
        "bolt tension": bolts_strength.tension,
        "punching": bolts_strength.punching,
        "prying": _prying,
    }
    together: dict[str, Judge] = {"bolt shear and tension": bolts_strength.shear_and_tension}
    outcome = Outcome()
    for judges, cases, absent in (
        (in_shear, sheared, "no force across the bolts"),
        (in_tension, pulled, "no force along the bolts"),
        (together, both, "no case with force both across and along the bolts"),
    ):
        for check, judge in judges.items():
            if cases:
                outcome += Outcome((_judge(part, check, judge, cases, basis),))
            else:
                outcome += Outcome(does_not_apply=(NotNeeded(part.name, check, absent),))
    return outcome + _single_lap(part, sheared, basis)


def _prying(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    raise NotCovered("the end plate or flange that could pry on the bolts is not described")


def _single_lap(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> Outcome:
    """Where one row in one plane could be a plain lap, what its cap of 3.6.1(10) would change."""
    if part.single_lap is not None or part.rows > 1 or part.planes > 1 or not loads:
        return Outcome()
    held = _judge(part, "bolt bearing", bolts_strength.bearing, loads, basis)
    capped = _judge(replace(part, single_lap=True), "bolt bearing", bolts_strength.bearing, loads, basis)
    if held.utilisation is None or capped.utilisation is None or capped.utilisation <= held.utilisation:
        return Outcome()
    text = "the lapped plates are held against turning out of line; if not, single_lap = true"
    decides = held.verdict == "holds" and capped.verdict == "fails"
    condition = "the lapped plates are held against turning out of line" if decides else ""
    return Outcome(assumptions=(Assumption(part.name, text, condition),))


def _spacing(part: BoltGroup) -> Outcome:
    try:
        return Outcome((bolts_plate.spacing(part),))
    except NotCovered as reason:
        return Outcome((not_checked(part.name, "bolt spacing", str(reason)),))


def _slip(part: BoltGroup) -> Outcome:
    reason = "ordinary bolts that bear on the plates (category A); what they slip is within the clearance of the holes"
    return Outcome(does_not_apply=(NotNeeded(part.name, "slip", reason),))


def bolt_stress(part: BoltGroup, loads: BoltLoads) -> float:
    """Greatest elastic von Mises stress in a bolt.

    With the thread in the plane both forces act on the stress area; otherwise the shank takes both and the thread the
    pull.
    """
    tau = float(np.max(np.hypot(*in_plane(part, loads).T))) / part.planes / part.plane_area
    pull = loads.tension / part.count
    sigma = pull / part.plane_area
    return max(math.sqrt(sigma**2 + 3 * tau**2), pull / part.size.A_s)


def plate_stress(part: BoltGroup, loads: BoltLoads) -> float:
    """Greatest elastic von Mises stress on a line of holes. Raises NotCovered where the plate's width is unknown."""
    if not loads.shear:
        return 0.0
    return max(line.stress(part.plate, part.d_0) for line in bolts_plate.net_lines(part, loads))


def _yield(part: BoltGroup, loads: Sequence[BoltLoads]) -> Outcome:
    findings = [finding for load in loads for finding in _yield_in_case(part, load)]
    failed = [finding for finding in findings if finding.verdict == "fails"]
    # A bolt beyond yield fails the part even where the plate's net section is not known.
    return Outcome((worst(failed or findings),)) if findings else Outcome()


def _yield_in_case(part: BoltGroup, load: BoltLoads) -> list[Finding]:
    check, case = "yield at greatest force", load.case.name
    if not load.shear and not load.tension:
        return []
    bolt = bolt_stress(part, load)
    findings = [
        judged(part.name, check, case, bolt, part.bolt_class.f_yb, "MPa", MISES, reason=f"bolt, {_where(part)}")
    ]
    if load.shear:
        try:
            stress, f_y = plate_stress(part, load), part.steel.f_y(part.plate)
            reason = "net section of the plate"
            findings.append(judged(part.name, check, case, stress, f_y, "MPa", MISES, reason=reason))
        except NotCovered as reason:
            findings.append(not_checked(part.name, check, str(reason), case=case))
    return findings


def _where(part: BoltGroup) -> str:
    return "thread in the shear plane" if part.thread == "in" else "shank in the shear plane"


def _at_rated(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> Outcome:
    """Times on yield, and fatigue, from the rated cases."""
    loaded = [load for load in loads if load.shear or load.tension]
    if not loaded:
        return Outcome()
    return Outcome(times_on_yield=_times(part, loaded)) + _fatigue(part, loaded, basis)


def _times(part: BoltGroup, loads: Sequence[BoltLoads]) -> tuple[TimesOnYield, ...]:
    values = []
    for load in loads:
        values.append(part.bolt_class.f_yb / bolt_stress(part, load))
        try:
            if load.shear:
                values.append(part.steel.f_y(part.plate) / plate_stress(part, load))
        except NotCovered:
            continue
    return (TimesOnYield(part.name, min(values)),)


def _fatigue(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> Outcome:
    """Bolts in shear and in tension and the plate around ordinary bolts, each in its worst rated case."""
    tau = max(float(np.max(np.hypot(*in_plane(part, load).T))) for load in loads) / part.planes / part.plane_area
    sigma = max(load.tension for load in loads) / part.count / part.size.A_s
    ranges = []
    if tau:
        ranges.append((DETAILS["bolt in shear"], tau))
    if sigma:
        ranges.append((bolt_in_tension(part.size.d), sigma))
    gaps = _fatigue_gaps(part, tau)
    try:
        if tau:
            ranges.append((DETAILS["plate with ordinary bolts"], max(plate_stress(part, load) for load in loads)))
    except NotCovered as reason:
        gaps.append(str(reason))
    outcome = fatigue(part.name, ranges, basis)
    if not gaps or not outcome.findings or outcome.findings[0].verdict == "fails":
        return outcome
    # The curve for a plane through the shank flatters one through the thread: it can condemn such a bolt, not pass it.
    return replace(outcome, findings=(not_checked(part.name, "fatigue", "; ".join(gaps)),))


def _fatigue_gaps(part: BoltGroup, tau: float) -> list[str]:
    gaps = []
    if tau and part.thread == "in":
        gaps.append('the detail "bolt in shear" wants the thread out of the plane (thread = "out")')
    if tau and part.bolt_class.name not in FATIGUE_CLASSES:
        gaps.append(f'the detail "bolt in shear" is for classes {", ".join(FATIGUE_CLASSES)}')
    return gaps


def _advice(part: BoltGroup) -> tuple[str, ...]:
    if part.size.d < 12:
        return (f"{part.name}: EN 1090-2 asks for M12 at least in structural joints; {part.size.name} is given",)
    return ()
