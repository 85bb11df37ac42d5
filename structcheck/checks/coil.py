"""A compression spring as it is described, and what follows from the description alone."""

from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from structcheck.checks.return_duty import Duty
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption
from structcheck.materials.wires import Wire, find_wire
from structcheck.standards import en13906_1 as en

G_HOT = 78500.0
"""Shear modulus of hot-coiled spring steel (EN 10089) in MPa, as EN 13906-1 gives it (memory)."""

LOSS_PER_KELVIN = 0.25e-3
"""Share of the shear modulus of unalloyed and low-alloy wire lost per kelvin (EN 13906-1, memory)."""

RELAXES_FROM = 40.0
"""degC above which EN 13906-1 has curves of the force lost by relaxation (memory); they are not here."""

USUAL = 20.0
"""degC taken where no temperature is stated."""

COLDEST, WARMEST = -30.0, 100.0
"""degC between which spring wire has the strength of its table (a maker's page, read)."""

RATES_AGREE = 0.10
"""How far a stated rate may lie from that of the wire before the two contradict each other; ours."""


LEAST_DEAD = 1.0
"""Coils that do not work in a spring with ground ends: half a coil at each end at the very least."""


@dataclass(frozen=True, kw_only=True)
class Spring:
    """Return springs that work side by side, in the words of the press file; mm, N, kg, MPa.

    wire, mean | outside      wire diameter, coil diameter
    active | turns            coils that work, or all of them
    ends                      "plain": closed, not ground; "ground": closed and ground flat
    grade                     class of wire; None: unknown, taken as the weakest
    rate                      N/mm of one spring, stated or measured; alone, or beside the wire data
    free, fitted, pressed     lengths: loose, at the open press, at the end of the jack's stroke
    lifts                     mass that must come back, on all springs together, kg
    held                      "rod", "tube" or "no"; a stated rod or tube says so by itself
    rod, tube                 diameter of the rod inside, inside diameter of the tube around; None: not stated
    oil                       N held back by oil and seals; None: 500 N, assumed
    drag                      N of friction in the guides; None: none is counted
    rating                    the jack's rated force on these springs, N; None: no jack
    seats_parallel            the seats are held parallel and in line (seat factor 0.5), else 1
    coiling                   "cold" or "hot"
    strength                  least tensile strength stated in place of the grade's
    modulus                   shear modulus stated in place of the grade's (70000 MPa for stainless 1.4310, memory)
    permissible               shear stress allowed when solid, stated by the maker, in place of 0.56 R_m
    permissible_range         range of corrected shear stress the maker allows at so many presses
    wire_max                  greatest wire diameter, for the solid length
    rate_margin               how far the measured rate may be off, N/mm
    temperature               of the spring at work, degC; None: 20
    relaxation                share of the force lost at that temperature; None: not known
    """

    name: str
    wire: float | None = None
    mean: float | None = None
    outside: float | None = None
    active: float | None = None
    turns: float | None = None
    ends: Literal["plain", "ground"] = "plain"
    grade: Wire | None = None
    rate: float | None = None
    free: float
    fitted: float
    pressed: float
    count: int = 1
    lifts: float
    held: Literal["no", "rod", "tube"] = "no"
    rod: float | None = None
    tube: float | None = None
    oil: float | None = None
    drag: float | None = None
    rating: float | None = None
    seats_parallel: bool = False
    coiling: Literal["cold", "hot"] = "cold"
    strength: float | None = None
    modulus: float | None = None
    permissible: float | None = None
    permissible_range: float | None = None
    wire_max: float | None = None
    rate_margin: float = 0.0
    temperature: float | None = None
    relaxation: float | None = None

    @property
    def duty(self) -> Duty:
        """What these springs must bring back."""
        return Duty(self.name, self.lifts, self.oil, self.drag, self.rating, self.count)

    @property
    def warmth(self) -> float:
        """Temperature of the spring at work, degC."""
        return USUAL if self.temperature is None else self.temperature

    @property
    def straight(self) -> Literal["no", "rod", "tube"]:
        """By what it is kept straight."""
        return "rod" if self.rod is not None else "tube" if self.tube is not None else self.held


@dataclass(frozen=True)
class Coil:
    """What follows from a spring's description. A value that cannot be had raises NotCovered with the reason."""

    spring: Spring

    @cached_property
    def grade(self) -> Wire:
        """The wire class, the weakest where none is stated."""
        return self.spring.grade or find_wire("unknown")

    @property
    def d(self) -> float:
        """Wire diameter."""
        return self._need(self.spring.wire, "the wire diameter")

    @property
    def D(self) -> float:
        """Mean coil diameter."""
        if self.spring.mean is None and self.spring.outside is not None:
            return self.spring.outside - self.d
        return self._need(self.spring.mean, "the coil diameter")

    @property
    def w(self) -> float:
        """Spring index."""
        return self.D / self.d

    @property
    def dead(self) -> float:
        """Coils that close the ends and do not work: 2 cold coiled, 1.5 hot coiled."""
        return 1.5 if self.spring.coiling == "hot" else 2.0

    @property
    def n(self) -> float:
        """Coils that work."""
        if self.spring.active is None and self.spring.turns is not None:
            return self.spring.turns - self.dead
        return self._need(self.spring.active, "the number of coils")

    @property
    def n_t(self) -> float:
        """All coils."""
        return self.n + self.dead if self.spring.turns is None else self.spring.turns

    @property
    def G(self) -> float:
        """Shear modulus in MPa."""
        if self.spring.modulus is not None:
            return self.spring.modulus
        return G_HOT if self.spring.coiling == "hot" else self.grade.G

    @property
    def E(self) -> float:
        """Elastic modulus in MPa."""
        return self.grade.E

    @property
    def R_m(self) -> float:
        """Least tensile strength in MPa. Raises NotCovered where no table here has it."""
        if self.spring.strength is not None:
            return self.spring.strength
        if self.spring.coiling == "hot":
            raise NotCovered("hot-coiled bar: its strength is not in the wire tables here; state strength")
        if not COLDEST <= self.spring.warmth <= WARMEST:
            raise NotCovered(
                f"at {self.spring.warmth:g} degC the wire has not the strength of its table ({COLDEST:g} to "
                f"{WARMEST:g} degC); state strength"
            )
        return self.grade.R_m(self.d)

    @cached_property
    def computed_rate(self) -> float:
        """Rate from the wire, N/mm."""
        self.in_range()
        return en.spring_rate(self.G, self.d, self.D, self.n)

    @property
    def R(self) -> float:
        """Rate of one spring: as stated, else from the wire."""
        return self.computed_rate if self.spring.rate is None else self.spring.rate

    @cached_property
    def L_c(self) -> float:
        """Length with all coils touching."""
        lengths = {
            ("cold", "ground"): en.solid_length_cold_ground,
            ("cold", "plain"): en.solid_length_cold_plain,
            ("hot", "ground"): en.solid_length_hot_ground,
            ("hot", "plain"): en.solid_length_hot_plain,
        }
        return lengths[self.spring.coiling, self.spring.ends](self.n_t, self.spring.wire_max or self.d)

    @property
    def pitch(self) -> float:
        """Pitch of the free coils."""
        return self.d + (self.spring.free - self.L_c) / self.n

    def force(self, length: float) -> float:
        """The most one spring presses with at a length, N: cold, its rate at the upper end of what was measured."""
        return en.spring_force(self.R + self.spring.rate_margin, self.spring.free, length)

    def least_force(self, length: float) -> float:
        """The least one spring presses with at a length, N: warm and relaxed, its rate at the lower end."""
        warm = en.warm_shear_modulus(self.G, LOSS_PER_KELVIN, self.spring.warmth) / self.G
        kept = 1.0 - (self.spring.relaxation or 0.0)
        rate = (self.R - self.spring.rate_margin) * min(warm, 1.0)
        if self.spring.relaxation is None and self.spring.warmth > RELAXES_FROM:
            raise NotCovered(
                f"at {self.spring.warmth:g} degC the spring loses force by relaxation, for which EN 13906-1 has "
                "curves that are not here; state relaxation, the share lost, from its maker, or measured after two "
                "days pressed and warm"
            )
        return kept * en.spring_force(rate, self.spring.free, length)

    def stress(self, length: float) -> float:
        """Uncorrected shear stress at a length, MPa."""
        self.in_range()
        return en.shear_stress(self.force(length), self.D, self.d)

    def in_range(self) -> None:
        """Raise NotCovered where EN 13906-1 is not written for such a coil (its limits recalled)."""
        least, low, high = (3.0, 3.0, 12.0) if self.spring.coiling == "hot" else (2.0, 4.0, 20.0)
        if not low <= self.w <= high:
            raise NotCovered(
                f"D/d = {self.w:.3g} is outside {low:g} to {high:g}, for which EN 13906-1 is written (recalled)"
            )
        known = self.spring.active is not None or self.spring.turns is not None
        if known and self.n < least:
            raise NotCovered(f"{self.n:g} coils that work are fewer than the {least:g} of EN 13906-1 (recalled)")

    def _need(self, value: float | None, what: str) -> float:
        if value is None:
            raise NotCovered(f"{what} is not stated; a rate alone does not give it")
        return value


def describe(spring: Spring) -> Coil:
    """The spring worked out. Raises InputError naming everything impossible or contradictory."""
    problems = _impossible(spring)
    if problems:
        raise InputError(problems)
    coil = Coil(spring)
    problems = _contradictions(coil)
    if problems:
        raise InputError(problems)
    return coil


def _impossible(spring: Spring) -> list[Problem]:
    part = f'spring "{spring.name}"'
    problems = []

    def refuse(key: str, given: str, fault: str, wanted: str, remedy: str = "") -> None:
        problems.append(Problem(key, given, fault, wanted, remedy, part=part))

    for key in (
        "wire",
        "mean",
        "outside",
        "rate",
        "free",
        "fitted",
        "pressed",
        "strength",
        "modulus",
        "permissible",
        "permissible_range",
        "wire_max",
        "rod",
        "tube",
    ):
        value = getattr(spring, key)
        if value is not None and not value > 0:
            refuse(key, f"{value:g}", "is not positive", f"a {key} above zero")
    for key in ("active", "turns"):
        value = getattr(spring, key)
        dead = 0.0 if key == "active" else Coil(spring).dead
        if value is not None and not value > dead:
            needs = "a coil that works" if key == "active" else f"more than the {dead:g} that close the ends"
            refuse(key, f"{value:g}", "leaves no coil to work", needs, f"{key} = {8 + dead:g}")
    problems += spring.duty.problems(part)
    if spring.rate_margin < 0 or (spring.rate is not None and spring.rate_margin >= spring.rate):
        refuse("rate_margin", f"{spring.rate_margin:g} N/mm", "leaves no rate", "zero or more, less than the rate")
    if spring.relaxation is not None and not 0 <= spring.relaxation < 1:
        refuse("relaxation", f"{spring.relaxation:g}", "is not a share of the force", "from 0 to 1", "relaxation = 0.1")
    if spring.wire is None and spring.rate is None:
        refuse("wire", "", "is missing", "the wire and coil, or the rate of the spring", 'wire = "6 mm"')
    if spring.wire is not None and spring.rate is None:
        if spring.mean is None and spring.outside is None:
            refuse("mean", "", "is missing", "the mean or the outside coil diameter", 'mean = "42 mm"')
        if spring.active is None and spring.turns is None:
            refuse("active", "", "is missing", "the coils that work, or all turns", "active = 8")
    if spring.fitted > spring.free:
        refuse("fitted", f"{spring.fitted:g} mm", "is longer than the free spring", f"at most {spring.free:g} mm",
               f'fitted = "{spring.free:g} mm"')  # fmt: skip
    if spring.pressed > spring.fitted:
        refuse("pressed", f"{spring.pressed:g} mm", "is longer than fitted", f"at most {spring.fitted:g} mm",
               f'pressed = "{spring.fitted:g} mm"')  # fmt: skip
    return problems


def _contradictions(coil: Coil) -> list[Problem]:
    spring, part = coil.spring, f'spring "{coil.spring.name}"'
    problems = []

    def refuse(key: str, given: str, fault: str, wanted: str, remedy: str = "") -> None:
        problems.append(Problem(key, given, fault, wanted, remedy, part=part))

    if spring.wire is None or (spring.mean is None and spring.outside is None):
        return problems
    if coil.w <= 1:
        key = "mean" if spring.mean is not None else "outside"
        least = coil.d * (4 if key == "mean" else 5)
        refuse(key, f"{getattr(spring, key):g} mm", f"leaves no coil round wire of {coil.d:g} mm",
               f"the {key} diameter of the coil, usually {least:g} mm and more", f'{key} = "{least:g} mm"')  # fmt: skip
        return problems
    if spring.mean is not None and spring.outside is not None and abs(spring.outside - spring.mean - coil.d) > 0.01:
        refuse("outside", f"{spring.outside:g} mm", f"is not mean + wire = {spring.mean + coil.d:g} mm",
               "the mean or the outside diameter, not both", f'mean = "{spring.mean:g} mm"')  # fmt: skip
    if spring.wire_max is not None and spring.wire_max < coil.d:
        refuse("wire_max", f"{spring.wire_max:g} mm", "is less than the wire", f"at least {coil.d:g} mm")
    if spring.active is None and spring.turns is None:
        return problems
    if spring.active is not None and spring.turns is not None and spring.turns < spring.active:
        refuse("turns", f"{spring.turns:g}", "is fewer than the coils that work", f"{coil.n + coil.dead:g}")
        return problems
    if spring.turns is not None and spring.ends == "ground" and coil.n > 0 and spring.turns - coil.n < LEAST_DEAD:
        refuse("turns", f"{spring.turns:g}", "leave no coil to close and grind at the ends", f"{coil.n + coil.dead:g}")
        return problems
    for key in ("free", "pressed"):
        length = getattr(spring, key)
        if length < coil.L_c - 1e-9:
            refuse(key, f"{length:g} mm", f"is below the solid length: {coil.n_t:g} coils of {coil.d:g} mm wire, "
                   f"{spring.ends} ends, stand {coil.L_c:.4g} mm high with all touching",
                   f"more than {coil.L_c:.4g} mm", f'{key} = "{_above(coil.L_c)} mm"')  # fmt: skip
    if spring.rate is not None and abs(_wire_rate(coil) / spring.rate - 1) > RATES_AGREE:
        refuse("rate", f"{spring.rate:.4g} N/mm", f"contradicts the wire, which gives {_wire_rate(coil):.4g} N/mm",
               "a rate within a tenth of the wire's, or the rate alone, or the wire alone",
               f'rate = "{_wire_rate(coil):.4g} N/mm"')  # fmt: skip
    return problems


def _wire_rate(coil: Coil) -> float:
    return en.spring_rate(coil.G, coil.d, coil.D, coil.n)


def _above(length: float) -> str:
    return f"{int(length) + 10:d}"


def assumptions(coil: Coil) -> tuple[Assumption, ...]:
    """What was taken for the user."""
    spring = coil.spring
    taken = [*spring.duty.assumptions()]
    if spring.relaxation is None and spring.warmth <= RELAXES_FROM:
        text = f"at {spring.warmth:g} degC, no force is counted as lost by relaxation"
        taken.append(Assumption(spring.name, text))
    if spring.wire is not None:
        taken += _wire_assumptions(coil)
    return tuple(taken)


def _wire_assumptions(coil: Coil) -> list[Assumption]:
    spring, name = coil.spring, coil.spring.name
    taken = []
    if coil.grade.assumed and spring.strength is None and spring.coiling == "cold":
        text = f"class of wire not stated: {coil.grade.grade}, the weakest of EN 10270-1, is taken"
        taken.append(Assumption(name, text, coil.grade.condition))
    if (spring.active is None) != (spring.turns is None):
        text = f"{coil.dead:g} coils close the ends ({spring.coiling} coiled): {coil.n:g} work, {coil.n_t:g} in all"
        taken.append(Assumption(name, text))
    if spring.wire_max is None and spring.turns is not spring.active:
        taken.append(Assumption(name, f"the wire is nowhere thicker than {coil.d:g} mm (solid length)"))
    if spring.rate is None:
        taken.append(Assumption(name, "the rate follows from the dimensions; springs as made stray by 5 to 10 %"))
    return taken
