"""A pulling spring as it is described, and what follows from the description alone."""

import math

from structcheck.checks.coil_input import RATES_AGREE
from structcheck.checks.return_duty import Duty
from structcheck.checks.spring_warm import problems as spring_problems
from structcheck.checks.spring_warm import require_strength, share_kept
from structcheck.errors import NotCovered, Problem
from structcheck.materials.wires import Wire, find_wire
from structcheck.record import record
from structcheck.standards import en13906_1 as en
from structcheck.standards import handbook_springs as handbook

STATE_MOST = "most, the greatest length its maker permits at so many presses"
INITIAL = (
    "the initial pull of its closed coils is not stated: hang weights on it until they just part and write initial "
    '(initial = "0 N" where they stand open)'
)


@record(kw_only=True)
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
        return handbook.wire_mass(self.d, self.D, need(self.active, "the number of coils") + 2, handbook.STEEL)

    @property
    def d(self) -> float:
        """Wire diameter. Raises NotCovered where it is not stated."""
        return need(self.wire, "the wire diameter")

    @property
    def D(self) -> float:
        """Mean coil diameter. Raises NotCovered where it is not stated."""
        if self.mean is None and self.outside is not None:
            return self.outside - self.d
        return need(self.mean, "the coil diameter")

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
        return en.spring_rate(self.wire_class.G, self.d, self.D, need(self.active, "the number of coils"))

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


def need(value: float | None, what: str) -> float:
    if value is None:
        raise NotCovered(f"{what} is not stated: state it, or {STATE_MOST}")
    return value


_SIZES = ("wire", "mean", "outside", "active", "free", "fitted", "stretched", "hook", "bend", "most")


def impossible(spring: ExtensionSpring) -> list[Problem]:
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
