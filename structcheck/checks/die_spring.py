"""Die springs of rectangular wire: judged by the rate of the maker's sheet and the travel of their load class."""

from collections.abc import Callable

from structcheck.checks import spring_warm
from structcheck.checks.basis import CLOSED, Basis
from structcheck.checks.return_duty import Duty
from structcheck.checks.spring_fatigue import STATIC_PRESSES
from structcheck.checks.spring_warm import share_kept
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, complete, judged, not_checked
from structcheck.record import record
from structcheck.standards import en13906_1 as en

NEEDED = ("spring return force", "die spring travel", "spring buckling", "spring force at full stroke")

TRAVEL = {
    "light": (0.25, 0.40),
    "medium": (0.25, 0.375),
    "heavy": (0.20, 0.30),
    "extra heavy": (0.17, 0.25),
}
"""Share of the free length, preload included, for long life and at most (common practice; makers differ)."""

COLOURS = ("green", "blue", "red", "yellow", "brown", "gold", "silver", "orange")

SOURCE = "load classes of ISO 10243 (memory), travel common practice"


@record(kw_only=True)
class DieSpring:
    """Die springs side by side; mm, N, kg.

    rate        N/mm of one, from its maker's sheet or measured: the standard fixes sizes, not rates
    load_class  "light", "medium", "heavy" or "extra heavy"; None: not known; a colour is refused
    most        greatest travel of the maker's sheet, mm, in place of the class's share
    held        "rod": a rod through the whole length; "tube"; "no"
    temperature, relaxation  at work, degC, and the share of the force lost there; None: 20, not known
    """

    name: str
    rate: float
    load_class: str | None = None
    free: float
    fitted: float
    pressed: float
    count: int = 1
    lifts: float
    oil: float | None = None
    drag: float | None = None
    rating: float | None = None
    most: float | None = None
    held: str = "no"
    temperature: float | None = None
    relaxation: float | None = None

    @property
    def duty(self) -> Duty:
        """What these springs must bring back."""
        return Duty(self.name, self.lifts, self.oil, self.drag, self.rating, self.count)

    def force(self, length: float) -> float:
        """The most one spring presses with at a length, N: cold."""
        return self.rate * (self.free - length)

    def least_force(self, length: float) -> float:
        """The least, N: warm and relaxed. Raises NotCovered where nobody says how much is lost."""
        return share_kept(self.temperature, self.relaxation) * self.force(length)


def check_die_spring(spring: DieSpring, basis: Basis) -> Outcome:
    """Every check of a die spring. Raises InputError where the description cannot be."""
    problems = _impossible(spring)
    if problems:
        raise InputError(problems)
    answers = [method(spring, basis) for method in _METHODS]
    fitted, pressed = spring.force(spring.fitted), spring.force(spring.pressed)
    work = en.spring_work(spring.rate, spring.free - spring.pressed) / 1e3
    outcome = Outcome(
        findings=tuple(a for a in answers if isinstance(a, Finding)),
        does_not_apply=tuple(a for a in answers if isinstance(a, NotNeeded)),
        assumptions=(
            *spring.duty.assumptions(),
            *spring_warm.assumed(spring.name, spring.temperature, spring.relaxation),
            *_held(spring),
        ),
        answers=(
            f"{spring.name}: force of each: fitted {fitted:.0f} N, pressed {pressed:.0f} N",
            f"{spring.name}: {spring.duty.one_broken(fitted)}",
            f"{spring.name}: energy stored when pressed: {work:.1f} J each",
        ),
        advice=(
            f"{spring.name}: a pocket and a rod through the whole length; never cut or grind a die spring; "
            "replace the set, not one",
            f"{spring.name}: what gets loose under load flies; fit and take it out with a threaded rod and nuts, and "
            "stand beside its axis",
            *(f"{spring.name}: {text}" for text in spring.duty.advice(fitted, pressed)),
        ),
    )
    return complete(outcome, spring.name, NEEDED, "not done")


def _held(spring: DieSpring) -> tuple[Assumption, ...]:
    """What a held die spring rests on: its bore is not known here."""
    if spring.held == "no":
        return ()
    condition = f"{spring.name}: its {spring.held} is as its maker's sheet says and goes over its whole length"
    return (Assumption(spring.name, f"what holds it fits it ({condition})", condition),)


def _return_force(spring: DieSpring, basis: Basis) -> Finding:
    try:
        least = spring.least_force(spring.fitted)
    except NotCovered as reason:
        return not_checked(spring.name, "spring return force", str(reason))
    return spring.duty.return_force(least, "statics with the rate stated")


def _travel(spring: DieSpring, basis: Basis) -> Finding:
    long_life = basis.presses > STATIC_PRESSES and not basis.static
    if spring.most is not None:
        allowed, reason = spring.most, "the maker's greatest travel, stated"
    elif spring.load_class is None:
        why = "neither the load class nor the maker's greatest travel is stated; a colour does not give them"
        return not_checked(spring.name, "die spring travel", why)
    else:
        share = TRAVEL[spring.load_class][0 if long_life else 1]
        allowed = share * spring.free
        reason = f"{share:.1%} of the free length, {'long life' if long_life else 'at most'}"
    return judged(
        spring.name,
        "die spring travel",
        CLOSED.name,
        spring.free - spring.pressed,
        allowed,
        "mm",
        SOURCE,
        reason=reason,
    )


def _buckling(spring: DieSpring, basis: Basis) -> Finding | NotNeeded:
    if spring.held != "no":
        return NotNeeded(spring.name, "spring buckling", f"held {'on a rod' if spring.held == 'rod' else 'in a tube'}")
    return not_checked(spring.name, "spring buckling", "no rule for rectangular wire is here: put a rod through it")


def _full_stroke(spring: DieSpring, basis: Basis) -> Finding | NotNeeded:
    return spring.duty.full_stroke(spring.force(spring.pressed))


_METHODS: tuple[Callable[[DieSpring, Basis], Finding | NotNeeded], ...] = (
    _return_force,
    _travel,
    _buckling,
    _full_stroke,
)


def _impossible(spring: DieSpring) -> list[Problem]:
    part = f'spring "{spring.name}"'
    problems = spring.duty.problems(part) + spring_warm.problems(part, spring.relaxation)
    if spring.load_class is not None and spring.load_class not in TRAVEL:
        given, classes = f'"{spring.load_class}"', ", ".join(TRAVEL)
        fault = "is not a load class of die springs"
        if spring.load_class.strip().lower() in COLOURS:
            fault = "is a colour: it means other loads in other systems and never stands for a rate"
        problems.append(Problem("load_class", given, fault, f"one of {classes}", 'load_class = "medium"', part))
    for key in ("rate", "free", "fitted", "pressed", "most"):
        value = getattr(spring, key)
        if value is not None and not value > 0:
            problems.append(Problem(key, f"{value:g}", "is not positive", f"a {key} above zero", part=part))
    if spring.fitted > spring.free:
        given, wanted = f"{spring.fitted:g} mm", f"at most {spring.free:g} mm"
        problems.append(Problem("fitted", given, "is longer than the free spring", wanted, part=part))
    if spring.pressed > spring.fitted:
        given, wanted = f"{spring.pressed:g} mm", f"at most {spring.fitted:g} mm"
        problems.append(Problem("pressed", given, "is longer than fitted", wanted, part=part))
    return problems
