"""Return springs that pull: their body, their hooks, and what happens when one lets go."""

import math
from collections.abc import Callable

from structcheck.checks.basis import CLOSED, Basis
from structcheck.checks.extension_coil import STATE_MOST, ExtensionSpring, impossible
from structcheck.checks.spring_fatigue import STATIC_PRESSES, THICKEST_FATIGUE
from structcheck.checks.spring_warm import WARMEST, assumed, warmth
from structcheck.errors import InputError, NotCovered
from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, complete, judged, not_checked
from structcheck.showing import count
from structcheck.standards import en13906_1 as en
from structcheck.standards import handbook_springs as handbook

NEEDED = (
    "spring return force",
    "spring stress",
    "hook bending",
    "hook torsion",
    "spring force at full stroke",
    "spring retention",
    "fatigue",
)

BODY, HOOK_BENDING, HOOK_TORSION = 0.45, 0.75, 0.40
"""Shares of R_m allowed under static duty, corrected stresses (Shigley ch. 10, memory)."""


MOST_STRESS = {"body": 0.30, "hook torsion": 0.28, "hook bending": 0.45 / math.sqrt(3)}
"""Greatest corrected shear stress over R_m for ten million pulls from nothing (spring makers' handbook, memory)."""

HOOK_FATIGUE = {"body": 1.0, "hook torsion": 0.85, "hook bending": 0.75}
"""Share of the wire's endurance left where a tool has bent the hook (as the handbook's, memory, rounded down)."""

OF_THE_WIRE = ("spring stress", "hook bending", "hook torsion")
BY_MAKER = "judged by the greatest length its maker permits at so many presses (stated)"


def check_extension_spring(spring: ExtensionSpring, basis: Basis) -> Outcome:
    """Every check of a pulling spring. Raises InputError where the description cannot be."""
    problems = impossible(spring)
    if problems:
        raise InputError(problems)
    found: list[Finding] = []
    never: list[NotNeeded] = []
    for check, method in _METHODS.items():
        try:
            answer = method(spring, basis)
        except NotCovered as reason:
            answer = not_checked(spring.name, check, str(reason))
            if spring.most is not None and check in OF_THE_WIRE:
                answer = NotNeeded(spring.name, check, BY_MAKER)
        (never if isinstance(answer, NotNeeded) else found).append(answer)
    outcome = Outcome(
        (*_travel(spring), *found),
        tuple(never),
        _assumptions(spring),
        answers=_answers(spring),
        advice=(_hazard(spring),),
    )
    return complete(outcome, spring.name, NEEDED, "not done")


def _return_force(spring: ExtensionSpring, basis: Basis) -> Finding:
    return spring.duty.return_force(
        spring.least_pull(spring.fitted), "statics; extension springs pull, fitted stretched"
    )


def _corrected(spring: ExtensionSpring, factor: float) -> float:
    return factor * en.shear_stress(spring.pull(spring.stretched), spring.D, spring.d)


def _against_wire(spring: ExtensionSpring, check: str, stress: float, share: float, source: str) -> Finding:
    allowed = share * spring.R_m
    return judged(spring.name, check, CLOSED.name, stress, allowed, "MPa", f"{source}; {share:.2f} R_m (memory)")


def _body(spring: ExtensionSpring, basis: Basis) -> Finding:
    spring.in_range()
    stress = _corrected(spring, en.stress_correction(spring.D / spring.d))
    return _against_wire(spring, "spring stress", stress, BODY, "EN 13906-2 (recalled), corrected stress")


def _bending(spring: ExtensionSpring, pull: float) -> float:
    """Greatest bending stress in the hook."""
    radius = spring.D / 2 if spring.hook is None else spring.hook
    factor = handbook.hook_bending_factor(2 * radius / spring.d)
    # The lever is the hook's own reach, which a wide hook makes longer than half the coil.
    return handbook.hook_bending_stress(pull, factor, max(spring.D, 2 * radius), spring.d)


def _hook_bending(spring: ExtensionSpring, basis: Basis) -> Finding:
    stress = _bending(spring, spring.pull(spring.stretched))
    return _against_wire(spring, "hook bending", stress, HOOK_BENDING, f"bending of a {handbook.HOOK}")


def _torsion_factor(spring: ExtensionSpring) -> float:
    """Curvature factor where the hook bends up."""
    radius = spring.d if spring.bend is None else spring.bend
    return handbook.hook_torsion_factor(2 * radius / spring.d)


def _hook_torsion(spring: ExtensionSpring, basis: Basis) -> Finding:
    stress = _corrected(spring, _torsion_factor(spring))
    return _against_wire(spring, "hook torsion", stress, HOOK_TORSION, f"torsion of a {handbook.HOOK}")


def _full_stroke(spring: ExtensionSpring, basis: Basis) -> Finding | NotNeeded:
    return spring.duty.full_stroke(spring.pull(spring.stretched))


def _travel(spring: ExtensionSpring) -> tuple[Finding, ...]:
    """The stretch against that of its maker's sheet, where it is stated."""
    if spring.most is None:
        return ()
    stretch, allowed = spring.stretched - spring.free, spring.most - spring.free
    source = "the greatest length its maker permits at so many presses, the user's"
    return (judged(spring.name, "spring travel", CLOSED.name, stretch, allowed, "mm", source),)


def _retention(spring: ExtensionSpring, basis: Basis) -> Finding | NotNeeded:
    if spring.tethered:
        return NotNeeded(spring.name, "spring retention", "a cable or rod through the spring catches it (stated)")
    reason = "no cable through the spring, and no guard, is stated: when a hook breaks the spring flies"
    return not_checked(spring.name, "spring retention", reason)


def _fatigue(spring: ExtensionSpring, basis: Basis) -> Finding | NotNeeded:
    if basis.static:
        return NotNeeded(spring.name, "fatigue", "static duty stated")
    if basis.presses <= STATIC_PRESSES:
        few = f"{count(basis.presses)} presses: up to {count(STATIC_PRESSES)} taken as static"
        return NotNeeded(spring.name, "fatigue", few)
    if spring.most is not None:
        return NotNeeded(spring.name, "fatigue", BY_MAKER)
    if spring.d > THICKEST_FATIGUE:
        raise NotCovered(f"wire of {spring.d:g} mm: Zimmerli's data end at {THICKEST_FATIGUE:g} mm; state {STATE_MOST}")
    used = {place: endurance_ratio(spring, place) for place in HOOK_FATIGUE}
    place = max(used, key=lambda one: used[one])
    least, most = (_corrected_at(spring, place, length) for length in (spring.fitted, spring.stretched))
    return judged(
        spring.name,
        "fatigue",
        "fitted to stretched",
        most - least,
        (most - least) / used[place] if used[place] else math.inf,
        "MPa",
        f"Goodman line through {handbook.ZIMMERLI} for endless life, hooks less, and spring makers' handbook (memory)",
        reason=f"{place}; stress corrected for curvature; no credit for fewer presses than endless",
    )


def _corrected_at(spring: ExtensionSpring, place: str, length: float) -> float:
    """Corrected shear stress at a place of the spring; bending in a hook as the shear that is as hard on the wire."""
    pull = spring.pull(length)
    if place == "hook bending":
        return handbook.equivalent_shear(_bending(spring, pull))
    factor = en.stress_correction(spring.D / spring.d) if place == "body" else _torsion_factor(spring)
    return factor * en.shear_stress(pull, spring.D, spring.d)


def endurance_ratio(spring: ExtensionSpring, place: str) -> float:
    """Inverse of the factor by which the pulls fitted and stretched can grow together for endless life at a place."""
    spring.in_range()
    if warmth(spring.temperature) > WARMEST:
        raise NotCovered(f"at {spring.temperature:g} degC: Zimmerli's data were found cold; state {STATE_MOST}")
    R_m = spring.R_m
    S_su = handbook.torsional_strength(R_m)
    if S_su <= handbook.ZIMMERLI_MEAN:
        raise NotCovered("the wire is weaker than what Zimmerli's data were found on")
    S_u = handbook.equivalent_shear(R_m) if place == "hook bending" else S_su
    tested = handbook.endurance_amplitude(handbook.ZIMMERLI_AMPLITUDE, handbook.ZIMMERLI_MEAN, S_su)
    pulled = MOST_STRESS[place] * R_m / 2
    S_e = min(HOOK_FATIGUE[place] * tested, handbook.endurance_amplitude(pulled, pulled, S_u))
    least, most = (_corrected_at(spring, place, length) for length in (spring.fitted, spring.stretched))
    tau_a, tau_m = (most - least) / 2, (most + least) / 2
    # Zimmerli's own amplitude is the most ever tested: the line promises more at a small mean stress.
    line = handbook.goodman_ratio(tau_a, tau_m, S_e, S_u)
    return max(line, tau_a / (HOOK_FATIGUE[place] * handbook.ZIMMERLI_AMPLITUDE))


_METHODS: dict[str, Callable[[ExtensionSpring, Basis], Finding | NotNeeded]] = dict(
    zip(
        NEEDED,
        (_return_force, _body, _hook_bending, _hook_torsion, _full_stroke, _retention, _fatigue),
        strict=True,
    )
)


def _assumptions(spring: ExtensionSpring) -> tuple[Assumption, ...]:
    taken = [*spring.duty.assumptions(), *assumed(spring.name, spring.temperature, spring.relaxation)]
    taken += _of_rate(spring)
    if spring.initial is None:
        taken.append(Assumption(spring.name, "no initial pull of closed coils is counted on to bring the platen back"))
    if spring.wire is not None and spring.wire_class.assumed:
        text = f"class of wire not stated: {spring.wire_class.grade}, the weakest of EN 10270-1, is taken"
        taken.append(Assumption(spring.name, text, spring.wire_class.condition))
    if spring.wire is not None and spring.hook is None:
        taken.append(Assumption(spring.name, "full loops: the hook has the coil's own radius"))
    if spring.wire is not None and spring.bend is None:
        taken.append(Assumption(spring.name, f"the hook bends up at a radius of {spring.d:g} mm, the wire diameter"))
    return tuple(taken)


def _of_rate(spring: ExtensionSpring) -> tuple[Assumption, ...]:
    if spring.rate is not None:
        return ()
    text, condition = "the rate follows from the dimensions; springs as made stray by 5 to 10 %", ""
    try:
        if spring.duty.rests_on_rate(spring.least_pull(spring.fitted)):
            condition = f"{spring.name}: as made they pull as their dimensions say; measure it"
    except NotCovered:
        pass
    return (Assumption(spring.name, text, condition),)


def stored(spring: ExtensionSpring) -> float:
    """Work stored in one spring at its longest, J."""
    stretch = spring.stretched - spring.free
    return ((spring.initial or 0.0) * stretch + en.spring_work(spring.rates[1], stretch)) / 1e3


def _answers(spring: ExtensionSpring) -> tuple[str, ...]:
    try:
        fitted, pulled = spring.least_pull(spring.fitted), spring.least_pull(spring.stretched)
        least = "at least " if spring.initial is None else ""
        rate = " to ".join(dict.fromkeys(f"{rate:.3g}" for rate in spring.rates))
        lines = (
            f"rate {rate} N/mm each",
            f"pull of each: fitted {least}{fitted:.0f} N, stretched {least}{pulled:.0f} N",
            spring.duty.one_broken(fitted),
        )
    except NotCovered:
        return ()
    return tuple(f"{spring.name}: {line}" for line in lines)


def _hazard(spring: ExtensionSpring) -> str:
    text = f"{spring.name}: extension springs break at the hooks and fly"
    try:
        work = stored(spring)
        text += f" ({'at least ' if spring.initial is None else ''}{work:.1f} J each when stretched"
        text += f", at most {handbook.flying_speed(work, spring.mass):.0f} m/s"
    except NotCovered:
        pass
    if "(" in text:
        text += ")"
    return f"{text}; a cable through the spring, or a cover, and a compression spring on a rod is safer"
