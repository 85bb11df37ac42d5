"""Elastic stresses of bolts and plate: yield at the greatest force, times on yield, fatigue."""

import math
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import replace
from typing import Any

import numpy as np

from structcheck.checks import bolts_plate, bolts_prying, bolts_through
from structcheck.checks.basis import Basis
from structcheck.checks.bolts_group import BoltGroup, BoltLoads, in_plane, judged_as, pulls
from structcheck.checks.bolts_strength import prying_share
from structcheck.checks.fatigue import DETAILS, Detail, bolt_in_tension, fatigue
from structcheck.errors import NotCovered
from structcheck.findings import Finding, Outcome, TimesOnYield, judged, not_checked, worst
from structcheck.formula import recording

MISES = "EN 1993-1-1:2005 6.2.1(5), elastic, net section"
FATIGUE_CLASSES = ("5.6", "8.8", "10.9")

Stresses = Callable[[BoltGroup, Sequence[BoltLoads]], np.ndarray | Sequence[float]]
"""Stresses under each of some loads, of each bolt or the greatest."""


def bolt_stress(part: BoltGroup, load: BoltLoads) -> float:
    """Greatest elastic von Mises stress in a bolt, prying included where its lever is stated.

    With the thread in the plane both forces act on the stress area; otherwise the shank takes both and the thread the
    pull.
    """
    asked = _asked_of_bolts(part, load)
    if asked not in part.memo or recording():
        bolt_stresses(part, [load])
    return part.memo[asked]


def _asked_of_bolts(part: BoltGroup, load: BoltLoads) -> tuple[Any, ...]:
    return "bolt stress", part.spread, *load[1:]


def bolt_stresses(part: BoltGroup, loads: Sequence[BoltLoads]) -> np.ndarray:
    """`bolt_stress` of each load, (loads,), worked out together and kept for who asks for one."""
    tau, pull = _shear_stresses(part, loads), _pulls(part, loads)
    combined = np.sqrt((pull / part.plane_area) ** 2 + 3 * tau**2).max(axis=1)
    found = np.maximum(combined, pull.max(axis=1) / part.size.A_s)
    if bolts_through.is_pin(part):
        found = np.maximum(found, _bending_stresses(part, loads))
    for load, stress in zip(loads, found.tolist(), strict=True):
        part.memo[_asked_of_bolts(part, load)] = stress
    return found


def _shear_stresses(part: BoltGroup, loads: Sequence[BoltLoads]) -> np.ndarray:
    """Mean shear stress of each bolt, (loads, n); none in category C, which holds by friction up to ultimate."""
    if part.category == "C":
        return np.zeros((len(loads), part.count))
    forces = np.array([in_plane(part, load) for load in loads])
    return np.hypot(forces[..., 0], forces[..., 1]) / part.planes / part.plane_area


def _pulls(part: BoltGroup, loads: Sequence[BoltLoads]) -> np.ndarray:
    """Pull on each bolt, prying included, (loads, n)."""
    return np.array([pulls(part, load) for load in loads]) * (1 + prying_share(part))


def _bending_stresses(part: BoltGroup, loads: Sequence[BoltLoads]) -> Sequence[float]:
    return [bolts_through.bending_stress(part, load) for load in loads]


def plate_stress(part: BoltGroup, loads: BoltLoads) -> float:
    """Greatest elastic von Mises stress on a line of holes. Raises NotCovered where the plate's width is unknown."""
    return bolts_plate.plate_stress(part, loads) if loads.sheared else 0.0


def _plate_stresses(part: BoltGroup, loads: Sequence[BoltLoads]) -> None:
    """Work out the plate's stress of all loads together; where that cannot be, each load is told why."""
    sheared = [load for load in loads if load.sheared]
    with suppress(NotCovered):
        if sheared:
            bolts_plate.plate_stresses(part, sheared)


def check_elastic(part: BoltGroup, greatest: Sequence[BoltLoads], rated: Sequence[BoltLoads], basis: Basis) -> Outcome:
    """Yield at the greatest force, times on yield and fatigue from the rated cases; the force spreads elastically."""
    part = part if part.spread == "elastic" else judged_as(part, spread="elastic")
    _plate_stresses(part, [*greatest, *rated])
    return _yield(part, greatest) + _rated(part, rated, basis)


def _yield(part: BoltGroup, loads: Sequence[BoltLoads]) -> Outcome:
    """Yield at greatest force: the worst of bolts and plate."""
    findings = [finding for load in _hardest(part, loads) for finding in _in_case(part, load)]
    failed = [finding for finding in findings if finding.verdict == "fails"]
    # A bolt beyond yield fails the part even where the plate's net section is not known.
    return Outcome((worst(failed or findings),)) if findings else Outcome()


def _hardest(part: BoltGroup, loads: Sequence[BoltLoads]) -> Sequence[BoltLoads]:
    """The loads that stress bolts or plate the most by their yield strengths; all where some stress is not known."""
    if len(loads) < 2 or recording():
        return loads
    try:
        uses = [bolt_stresses(part, loads) / part.bolt_class.f_yb]
        uses.append(np.array([plate_stress(part, load) for load in loads]) / part.steel.f_y(part.plate))
        if part.lever is not None:
            bent = np.array([bolts_prying.bending_stress(part, load) for load in loads])
            uses.append(bent / part.steel.f_y(part.thinnest))
    except NotCovered:
        return loads
    used = np.max(uses, axis=0)
    return [loads[number] for number in np.flatnonzero(used >= used.max() * (1 - 1e-9))]


def _in_case(part: BoltGroup, load: BoltLoads) -> list[Finding]:
    check, case = "yield at greatest force", load.case.name
    if not load.sheared and not load.pulled:
        return []
    where = "bolt, thread in the shear plane" if part.thread == "in" else "bolt, shank in the shear plane"
    findings = []
    try:
        stress = bolt_stress(part, load)
        findings.append(judged(part.name, check, case, stress, part.bolt_class.f_yb, "MPa", MISES, reason=where))
    except NotCovered as reason:
        findings.append(not_checked(part.name, check, str(reason), case=case))
    if load.pulled and part.lever is not None:
        findings.append(_bent_plate(part, load))
    if load.sheared:
        try:
            stress, f_y = plate_stress(part, load), part.steel.f_y(part.plate)
            reason = "net section of the plate"
            findings.append(judged(part.name, check, case, stress, f_y, "MPa", MISES, reason=reason))
        except NotCovered as reason:
            findings.append(not_checked(part.name, check, str(reason), case=case))
    return findings


def _bent_plate(part: BoltGroup, load: BoltLoads) -> Finding:
    check, case = "yield at greatest force", load.case.name
    try:
        stress, f_y = bolts_prying.bending_stress(part, load), part.steel.f_y(part.thinnest)
    except NotCovered as reason:
        return not_checked(part.name, check, str(reason), case=case)
    return judged(part.name, check, case, stress, f_y, "MPa", MISES, reason="plate bent between bolts and web")


def _rated(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> Outcome:
    """Times on yield, and fatigue, from the rated cases."""
    loaded = [load for load in loads if load.sheared or load.pulled]
    if not loaded:
        return Outcome()
    return Outcome(times_on_yield=_times(part, loaded)) + _fatigue(part, loaded, basis)


def _times(part: BoltGroup, loads: Sequence[BoltLoads]) -> tuple[TimesOnYield, ...]:
    values = []
    for load in _hardest(part, loads):
        try:
            if stress := bolt_stress(part, load):
                values.append(part.bolt_class.f_yb / stress)
            if bent := bolts_prying.bending_stress(part, load):
                values.append(part.steel.f_y(part.thinnest) / bent)
            if load.sheared:
                values.append(part.steel.f_y(part.plate) / plate_stress(part, load))
        except NotCovered:
            continue
    return (TimesOnYield(part.name, min(values)),) if values else ()


def _fatigue(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> Outcome:
    """Bolts in shear and in tension and the plate around ordinary bolts, each in its worst rated case.

    What is known may condemn the part whatever is still unknown, and cannot pass it alone.
    """
    ranges: list[tuple[Detail, float]] = []
    gaps = _fatigue_gaps(part, loads)
    for detail, stresses in _details(part):
        worst_range, unknown = _greatest(part, stresses, loads)
        gaps += unknown
        if worst_range:
            ranges.append((detail, worst_range))
    gaps = list(dict.fromkeys(gaps))
    if not ranges:
        return Outcome((not_checked(part.name, "fatigue", "; ".join(gaps) or "no stress range is known"),))
    outcome = fatigue(part.name, ranges, basis)
    return replace(outcome, findings=tuple(_with_gaps(finding, gaps) for finding in outcome.findings))


def _greatest(part: BoltGroup, stresses: Stresses, loads: Sequence[BoltLoads]) -> tuple[float, list[str]]:
    """The greatest stress of those loads under which it is known, and why it is not under the others."""
    try:
        return max(np.ravel(stresses(part, loads)).tolist(), default=0.0), []
    except NotCovered as reason:
        if len(loads) < 2:
            return 0.0, [str(reason)]
    alone = [_greatest(part, stresses, [load]) for load in loads]
    return max(stress for stress, _ in alone), [reason for _, reasons in alone for reason in reasons]


def _details(part: BoltGroup) -> list[tuple[Detail, Stresses]]:
    """Every detail of a bolt and the plate, with the stress range it is judged on."""
    in_tension = bolt_in_tension(part.size.d)
    found: list[tuple[Detail, Stresses]] = [
        (DETAILS["bolt in shear"], _shear_stresses),
        (in_tension, lambda part, loads: _pulls(part, loads) / part.size.A_s),
        (DETAILS["plate with ordinary bolts"], lambda part, loads: [plate_stress(part, load) for load in loads]),
    ]
    if bolts_through.is_pin(part):
        # No detail is given for a bolt in bending; that of its thread in tension is the lowest it could be.
        found.append((replace(in_tension, name="bolt in bending"), _bending_stresses))
    return found


def _with_gaps(finding: Finding, gaps: Sequence[str]) -> Finding:
    """The finding of what is known beside what is not: a failure stays one, a pass is none yet."""
    if not gaps or finding.verdict == "not checked":
        return finding
    if finding.verdict == "fails":
        return replace(finding, reason=f"{finding.reason}; still unknown beside it: {'; '.join(gaps)}")
    # The curve for a plane through the shank flatters one through the thread: it can condemn such a bolt, not pass it.
    return not_checked(finding.part, finding.check, f"holds ({use_of(finding)}) so far as known; {'; '.join(gaps)}")


def use_of(finding: Finding) -> str:
    """The utilisation in words, rounded up."""
    if finding.utilisation is None:
        return "nothing is left"
    return f"{math.ceil(round(100 * finding.utilisation, 9)) / 100:.2f}"


def _fatigue_gaps(part: BoltGroup, loads: Sequence[BoltLoads]) -> list[str]:
    """What the details want and the part does not have or does not state."""
    tau = part.category != "C" and any(load.sheared for load in loads)
    sigma = any(load.pulled for load in loads)
    gaps = []
    if tau and part.thread == "in":
        gaps.append('the detail "bolt in shear" wants the thread out of the plane (thread = "out")')
    if tau and part.bolt_class.name not in FATIGUE_CLASSES:
        gaps.append(f'the detail "bolt in shear" is for classes {", ".join(FATIGUE_CLASSES)}')
    if part.slot and any(load.sheared for load in loads):
        gaps.append("no category of EN 1993-1-9 is for a plate with slots")
    if sigma and part.lever is None:
        gaps.append("prying, part of the pull on the bolts, is not known without `lever`")
    return gaps
