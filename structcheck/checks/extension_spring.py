"""Return springs that pull: their body, their hooks, and what happens when one lets go."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from structcheck.checks.basis import CLOSED, Basis
from structcheck.checks.coil_input import RATES_AGREE
from structcheck.checks.return_duty import Duty
from structcheck.checks.spring_fatigue import STATIC_PRESSES, THICKEST_FATIGUE
from structcheck.checks.spring_warm import WARMEST, assumed, require_strength, share_kept, warmth
from structcheck.checks.spring_warm import problems as spring_problems
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, complete, judged, not_checked
from structcheck.materials.wires import Wire, find_wire
from structcheck.quantities import count
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
STATE_MOST = "most, the greatest length its maker permits at so many presses"
INITIAL = (
    "the initial pull of its closed coils is not stated: hang weights on it until they just part and write initial "
    '(initial = "0 N" where they stand open)'
)
BY_MAKER = "judged by the greatest length its maker permits at so many presses (stated)"


@dataclass(frozen=True, kw_only=True)
class ExtensionSpring:
    """Springs that pull the platen back, side by side; mm, N, kg, MPa.

    wire, mean | outside        wire diameter, coil diameter
    active                      coils of the body; all of them work
    grade                       class of wire; None: unknown, taken as the weakest
    rate                        N/mm of one, stated or measured
    initial                     N that just open the coils; None: none is counted for the return
    free, fitted, stretched     lengths over the hooks: loose, at the open press, at the end of the stroke
    hook                        mean radius of the hook; None: half the coil diameter
    bend                        radius where the hook bends up from the body; None: the wire diameter
    tethered                    a cable or rod through the spring catches it when it breaks
    most                        greatest length over the hooks that its maker permits at so many presses
    temperature                 of the spring at work, degC; None: 20
    relaxation                  share of the force lost at that temperature; None: not known
    strength                    least tensile strength stated in place of the grade's
    own_lifted                  `lifts` holds what the springs carry of themselves
    """

    name: str
    wire: float | None = None
    mean: float | None = None
    outside: float | None = None
    active: float | None = None
    grade: Wire | None = None
    rate: float | None = None
    initial: float | None = None
    free: float
    fitted: float
    stretched: float
    count: int = 1
    lifts: float
    oil: float | None = None
    drag: float | None = None
    rating: float | None = None
    hook: float | None = None
    bend: float | None = None
    tethered: bool = False
    most: float | None = None
    temperature: float | None = None
    relaxation: float | None = None
    strength: float | None = None
    own_lifted: bool = False

    @property
    def duty(self) -> Duty:
        """What these springs must bring back."""
        try:
            own = 0.0 if self.own_lifted else self.mass / 2
        except NotCovered:
            own = None
        return Duty(self.name, self.lifts, self.oil, self.drag, self.rating, self.count, own)

    @property
    def mass(self) -> float:
        """Mass of one, two coils for its hooks included, kg. Raises NotCovered where its wire is not stated."""
        return handbook.wire_mass(self.d, self.D, _need(self.active, "the number of coils") + 2, handbook.STEEL)

    @property
    def d(self) -> float:
        """Wire diameter. Raises NotCovered where it is not stated."""
        return _need(self.wire, "the wire diameter")

    @property
    def D(self) -> float:
        """Mean coil diameter. Raises NotCovered where it is not stated."""
        if self.mean is None and self.outside is not None:
            return self.outside - self.d
        return _need(self.mean, "the coil diameter")

    @property
    def wire_class(self) -> Wire:
        """The class of wire, the weakest where none is stated."""
        return self.grade or find_wire("unknown")

    @property
    def R(self) -> float:
        """Rate of one spring: as stated, else from the wire."""
        return self.computed_rate if self.rate is None else self.rate

    @property
    def computed_rate(self) -> float:
        """Rate from the wire."""
        self.in_range()
        return en.spring_rate(self.wire_class.G, self.d, self.D, _need(self.active, "the number of coils"))

    @property
    def rates(self) -> tuple[float, float]:
        """The weakest and the stiffest one spring may be, by what is stated and by its wire."""
        try:
            return min(self.R, self.computed_rate), max(self.R, self.computed_rate)
        except NotCovered:
            return self.R, self.R

    @property
    def R_m(self) -> float:
        """Least tensile strength of the wire, MPa. Raises NotCovered where the table does not have it."""
        if self.strength is not None:
            return self.strength
        require_strength(self.temperature)
        return self.wire_class.R_m(self.d)

    def in_range(self) -> None:
        """Raise NotCovered where EN 13906-2 is not written for such a coil (its limits recalled)."""
        if not 4.0 <= self.D / self.d <= 20.0:
            raise NotCovered(f"D/d = {self.D / self.d:.3g} is outside 4 to 20, the range of EN 13906-2 (recalled)")
        if self.active is not None and self.active < 3.0:
            raise NotCovered(f"{self.active:g} coils are fewer than the 3 of EN 13906-2 (recalled)")

    def least_pull(self, length: float) -> float:
        """The least one spring pulls with at a length, N: warm, weak, without an initial pull nobody states."""
        kept = share_kept(self.temperature, self.relaxation)
        return kept * ((self.initial or 0.0) + self.rates[0] * (length - self.free))

    def pull(self, length: float) -> float:
        """The most one spring pulls with at a length, N. Raises NotCovered where its initial pull is not stated."""
        if self.initial is None:
            raise NotCovered(INITIAL)
        return self.initial + self.rates[1] * (length - self.free)


def _need(value: float | None, what: str) -> float:
    if value is None:
        raise NotCovered(f"{what} is not stated: state it, or {STATE_MOST}")
    return value


def check_extension_spring(spring: ExtensionSpring, basis: Basis) -> Outcome:
    """Every check of a pulling spring. Raises InputError where the description cannot be."""
    problems = _impossible(spring)
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


_SIZES = ("wire", "mean", "outside", "active", "free", "fitted", "stretched", "hook", "bend", "most")


def _impossible(spring: ExtensionSpring) -> list[Problem]:
    part = f'spring "{spring.name}"'
    problems = spring.duty.problems(part) + spring_problems(part, spring.relaxation)
    for key in (*_SIZES, "rate", "strength"):
        value = getattr(spring, key)
        if value is not None and not value > 0:
            problems.append(Problem(key, f"{value:g}", "is not positive", f"a {key} above zero", part=part))
    if spring.initial is not None and not 0 <= spring.initial < math.inf:
        problems.append(Problem("initial", f"{spring.initial:g}", "is negative", "zero or more", part=part))
    if spring.fitted < spring.free:
        given, wanted = f"{spring.fitted:g} mm", f"at least {spring.free:g} mm"
        problems.append(Problem("fitted", given, "is shorter than the loose spring", wanted, part=part))
    if spring.most is not None and spring.most <= spring.free:
        given, wanted = f"{spring.most:g} mm", f"more than the loose spring, {spring.free:g} mm"
        problems.append(Problem("most", given, "leaves nothing to stretch", wanted, part=part))
    if spring.stretched < spring.fitted:
        given, wanted = f"{spring.stretched:g} mm", f"at least {spring.fitted:g} mm"
        problems.append(Problem("stretched", given, "is shorter than fitted", wanted, part=part))
    if problems:
        return problems
    try:
        for key in ("hook", "bend"):
            radius = getattr(spring, key)
            if radius is not None and radius <= spring.d / 2:
                given, wanted = f"{radius:g} mm", f"a mean radius above {spring.d / 2:g} mm"
                problems.append(Problem(key, given, "is tighter than the wire can be bent", wanted, part=part))
        if spring.d >= spring.D:
            given, fault = f"{spring.D:g} mm", f"leaves no coil round wire of {spring.d:g} mm"
            problems.append(Problem("mean", given, fault, f"more than {4 * spring.d:g} mm", part=part))
        elif spring.active is not None and spring.free < spring.active * spring.d:
            least = f"at least the body, {spring.active * spring.d:.4g} mm"
            problems.append(Problem("free", f"{spring.free:g} mm", "is shorter than its own coils", least, part=part))
        elif spring.rate is not None and abs(spring.computed_rate / spring.rate - 1) > RATES_AGREE:
            fault = f"contradicts the wire, which gives {spring.computed_rate:.4g} N/mm"
            wanted = "a rate within a tenth of the wire's, or the rate alone, or the wire alone"
            problems.append(Problem("rate", f"{spring.rate:.4g} N/mm", fault, wanted, part=part))
    except NotCovered:
        if spring.rate is None:
            problems.append(Problem("wire", "", "is missing", "the wire and coil, or the rate", part=part))
    return problems
