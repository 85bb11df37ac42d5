"""Return springs: does the platen come home, and does the spring live, stay off solid and stay straight."""

import math
from collections.abc import Callable

from structcheck.checks.basis import CLOSED, Basis
from structcheck.checks.coil import Coil, Spring, assumptions
from structcheck.checks.coil_input import describe
from structcheck.checks.spring_fatigue import STATIC_PRESSES, fatigue, fatigue_assumed, fatigue_margin, of_cycled_wire
from structcheck.checks.spring_fit import fit_assumed, fits, too_loose
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, complete, judged, not_checked
from structcheck.standards import en13906_1 as en

NEEDED = (
    "spring return force",
    "spring stress",
    "spring stress when solid",
    "spring clearance before solid",
    "spring buckling",
    "spring force at full stroke",
    "fatigue",
)


def check_spring(spring: Spring, basis: Basis) -> Outcome:
    """Every check a return spring needs. Raises InputError where the description cannot be."""
    coil = describe(spring)
    found: list[Finding] = []
    never: list[NotNeeded] = []
    for check, method in _METHODS.items():
        try:
            answer = method(coil, basis)
        except NotCovered as reason:
            answer = not_checked(spring.name, check, str(reason))
        (never if isinstance(answer, NotNeeded) else found).append(answer)
    outcome = Outcome(
        findings=(*fits(coil), *found),
        does_not_apply=tuple(never),
        assumptions=assumptions(coil) + fit_assumed(coil) + _of_fatigue(coil, basis),
        answers=_answers(coil, basis),
        advice=_advice(coil, basis),
    )
    return complete(outcome, spring.name, NEEDED, "not done")


def _of_fatigue(coil: Coil, basis: Basis) -> tuple[Assumption, ...]:
    try:
        return fatigue_assumed(coil, basis)
    except NotCovered:
        return ()


def _return_force(coil: Coil, basis: Basis) -> Finding:
    spring = coil.spring
    source = f"statics with {en.EDITION}" if spring.rate is None else "statics with the rate stated"
    return spring.duty.return_force(coil.least_force(spring.fitted), source)


def _stress(coil: Coil, basis: Basis) -> Finding:
    return judged(
        coil.spring.name,
        "spring stress",
        CLOSED.name,
        coil.stress(coil.spring.pressed),
        _permissible(coil, en.permissible_stress),
        "MPa",
        f"{en.EDITION}: {_limit_text(coil, 0.50)}",
    )


def _stress_solid(coil: Coil, basis: Basis) -> Finding:
    return judged(
        coil.spring.name,
        "spring stress when solid",
        "solid",
        coil.stress(coil.L_c),
        _permissible(coil, en.permissible_stress_solid),
        "MPa",
        f"{en.EDITION}: {_limit_text(coil, 0.56)}",
    )


def _permissible(coil: Coil, limit: Callable[[float], float]) -> float:
    """Allowed shear stress; a stated one is that when solid, and is less when pressed as 0.50 to 0.56."""
    if coil.spring.permissible is not None:
        return coil.spring.permissible * limit(1.0) / en.permissible_stress_solid(1.0)
    if coil.spring.coiling == "hot":
        raise NotCovered(
            "hot coiled: EN 13906-1 gives the allowed stress as a curve that is not here; state permissible, the shear "
            "stress its maker allows when solid"
        )
    return limit(coil.R_m)


def _limit_text(coil: Coil, share: float) -> str:
    if coil.spring.permissible is not None:
        return "stress uncorrected; the allowed stress when solid is the user's"
    strength = "stated" if coil.spring.strength is not None else coil.grade.source
    return f"stress uncorrected, {share:.2f} R_m; R_m {strength}"


def _clearance(coil: Coil, basis: Basis) -> Finding:
    spring = coil.spring
    coil.in_range()
    return judged(
        spring.name,
        "spring clearance before solid",
        CLOSED.name,
        _least_gaps(coil),
        spring.pressed - coil.L_c,
        "mm",
        f"{en.EDITION}: S_a",
        reason=f"solid at {coil.L_c:.4g} mm",
    )


def _least_gaps(coil: Coil) -> float:
    """S_a for static duty, whatever the number of presses: a press is pumped, its coils do not clash by inertia."""
    least = en.clearance_hot if coil.spring.coiling == "hot" else en.clearance_cold
    return least(coil.n, coil.D, coil.d)


def _seat_factor(spring: Spring) -> float:
    return 0.5 if spring.seats_parallel else 1.0


def buckling_limit(coil: Coil, nu: float) -> float:
    """Travel at which the spring bows out, mm; infinite where none does."""
    radicand = en.buckling_radicand(coil.G, coil.E, coil.D, nu, coil.spring.free)
    return math.inf if radicand < 0 else en.buckling_travel(coil.spring.free, coil.G, coil.E, radicand)


def _buckling(coil: Coil, basis: Basis) -> Finding | NotNeeded:
    spring, check = coil.spring, "spring buckling"
    loose = too_loose(coil) if spring.straight != "no" else ""
    if spring.straight != "no" and not loose:
        return NotNeeded(spring.name, check, f"held {'on a rod' if spring.straight == 'rod' else 'in a tube'}")
    nu = _seat_factor(spring)
    s_K = buckling_limit(coil, nu)
    if math.isinf(s_K):
        return NotNeeded(spring.name, check, f"no travel buckles it (seat factor {nu:g}, {en.EDITION})")
    why = "seats held parallel" if spring.seats_parallel else "seats not said to be held parallel"
    travel, reason = spring.free - spring.pressed, f"seat factor {nu:g}: {why}"
    reason = f"{loose}; {reason}" if loose else reason
    return judged(spring.name, check, CLOSED.name, travel, s_K, "mm", f"{en.EDITION}: s_K", reason=reason)


def _full_stroke(coil: Coil, basis: Basis) -> Finding | NotNeeded:
    return coil.spring.duty.full_stroke(coil.force(coil.spring.pressed))


_METHODS: dict[str, Callable[[Coil, Basis], Finding | NotNeeded]] = dict(
    zip(NEEDED, (_return_force, _stress, _stress_solid, _clearance, _buckling, _full_stroke, fatigue), strict=True)
)


def _answers(coil: Coil, basis: Basis) -> tuple[str, ...]:
    """Numbers the builder wants that no check judges; what cannot be had is left out."""
    spring = coil.spring
    lines = [
        lambda: f"rate {coil.R:.3g} N/mm each, {spring.count * coil.R:.3g} N/mm all {spring.count}",
        lambda: f"force of each: fitted {coil.force(spring.fitted):.0f} N, pressed {coil.force(spring.pressed):.0f} N",
        lambda: f"solid at {coil.L_c:.4g} mm with {coil.force(coil.L_c):.0f} N; index D/d = {coil.w:.3g}",
        lambda: (
            f"stress fitted {coil.stress(spring.fitted):.0f}, pressed {coil.stress(spring.pressed):.0f}, "
            f"solid {coil.stress(coil.L_c):.0f} MPa (uncorrected)"
        ),
        lambda: spring.duty.one_broken(coil.least_force(spring.fitted)),
        lambda: f"energy stored when pressed: {en.spring_work(coil.R, spring.free - spring.pressed) / 1e3:.1f} J each",
        lambda: (
            f"outside diameter {coil.D + coil.d:.4g} mm, up to "
            f"{coil.D + coil.d + max(0.0, en.outside_growth(coil.pitch, coil.d, coil.D)):.4g} mm when solid"
        ),
        lambda: f"surges at {en.surge_frequency(coil.d, coil.n, coil.D, coil.G, 7.85):.0f} Hz",
        lambda: fatigue_margin(coil, basis),
        lambda: "buckles at a travel of " + ", ".join(_buckling_text(coil, nu) for nu in (0.5, 1.0)),
    ]
    said = []
    for line in lines:
        try:
            said.append(f"{spring.name}: {line()}")
        except NotCovered:
            continue
    return tuple(said)


def _buckling_text(coil: Coil, nu: float) -> str:
    s_K = buckling_limit(coil, nu)
    return f"{'none' if math.isinf(s_K) else f'{s_K:.4g} mm'} (seat factor {nu:g})"


def _advice(coil: Coil, basis: Basis) -> tuple[str, ...]:
    spring = coil.spring
    said = [
        f"{spring.name}: a spring that gets loose flies; keep it on a rod or in a tube through its whole length, "
        "fit and take it out with a threaded rod and nuts, and stand beside its axis"
    ]
    if spring.coiling == "hot":
        said.append(
            f"{spring.name}: a used suspension spring breaks at pits near its ends; shape its seats to the end coils, "
            "never cut it (fewer coils are stiffer, a cut end walks off) nor heat it; fitting it is the danger"
        )
    for advise in (_of_duty, _of_rubbing, _of_cycling, of_cycled_wire, _of_travel):
        try:
            said += [f"{spring.name}: {text}" for text in advise(coil, basis)]
        except NotCovered:
            continue
    return tuple(said)


def _of_duty(coil: Coil, basis: Basis) -> tuple[str, ...]:
    spring = coil.spring
    return spring.duty.advice(coil.least_force(spring.fitted), coil.force(spring.pressed))


def _of_rubbing(coil: Coil, basis: Basis) -> tuple[str, ...]:
    spring = coil.spring
    if spring.straight == "no" or spring.free - spring.pressed <= buckling_limit(coil, _seat_factor(spring)):
        return ()
    return (f"pressed home it leans on its {spring.straight} and rubs: smooth and greased",)


def _of_cycling(coil: Coil, basis: Basis) -> tuple[str, ...]:
    if basis.presses <= STATIC_PRESSES or basis.static:
        return ()
    times, S_a = (2.0 if coil.spring.coiling == "hot" else 1.5), _least_gaps(coil)
    return (
        f"a spring that is cycled fast wants {times:g} S_a = {times * S_a:.4g} mm before solid ({en.EDITION}); "
        f"a press is pumped slowly, so S_a = {S_a:.4g} mm is judged",
    )


def _of_travel(coil: Coil, basis: Basis) -> tuple[str, ...]:
    spring = coil.spring
    share = (spring.free - spring.pressed) / (spring.free - coil.L_c)
    return (f"{share:.0%} of the travel to solid is used; common practice keeps to 80 %",) if share > 0.8 else ()
