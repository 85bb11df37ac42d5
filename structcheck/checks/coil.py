"""A compression spring as it is described, and what follows from the description alone."""

import contextlib
from functools import cached_property
from typing import Literal

from structcheck.checks.return_duty import Duty
from structcheck.checks.spring_warm import assumed, require_strength, share_kept, warmth
from structcheck.errors import NotCovered
from structcheck.findings import Assumption
from structcheck.materials.wires import Wire, find_wire
from structcheck.record import record
from structcheck.standards import en13906_1 as en
from structcheck.standards import handbook_springs as handbook

G_HOT = 78500.0
"""Shear modulus of hot-coiled spring steel (EN 10089) in MPa, as EN 13906-1 gives it (memory)."""


@record(kw_only=True)
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
    own_lifted                `lifts` holds what the springs carry of themselves
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
    own_lifted: bool = False

    @property
    def duty(self) -> Duty:
        """What these springs must bring back."""
        return Duty(
            self.name,
            self.lifts,
            self.oil,
            self.drag,
            self.rating,
            self.count,
            0.0 if self.own_lifted else carried(self),
        )

    @property
    def warmth(self) -> float:
        """Temperature of the spring at work, degC."""
        return warmth(self.temperature)

    @property
    def straight(self) -> Literal["no", "rod", "tube"]:
        """By what it is kept straight."""
        return "rod" if self.rod is not None else "tube" if self.tube is not None else self.held


@record
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
        require_strength(self.spring.temperature)
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

    @cached_property
    def rates(self) -> tuple[float, float]:
        """The weakest and the stiffest one spring may be: what was measured, with its margin, and what the wire gives.

        Both are known to stray, and nothing says which of the two is right: the return goes by the weaker, stresses and
        what is taken from the jack by the stiffer.
        """
        margin = self.spring.rate_margin
        known = [self.R - margin, self.R + margin]
        if self.spring.rate is not None:
            with contextlib.suppress(NotCovered):
                known.append(self.computed_rate)
        return min(known), max(known)

    def force(self, length: float) -> float:
        """The most one spring presses with at a length, N: cold, at the stiffer rate."""
        return en.spring_force(self.rates[1], self.spring.free, length)

    def least_force(self, length: float) -> float:
        """The least one spring presses with at a length, N: warm and relaxed, at the weaker rate."""
        kept = share_kept(self.spring.temperature, self.spring.relaxation)
        return kept * en.spring_force(self.rates[0], self.spring.free, length)

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


def _weakest(coil: Coil) -> str:
    """The rate a return rests on that a spring as made may not have; empty where there is enough in hand."""
    spring = coil.spring
    try:
        least = coil.least_force(spring.fitted)
    except NotCovered:
        return ""
    if not spring.duty.rests_on_rate(least):
        return ""
    enough = coil.R * spring.duty.needed / (spring.count * least)
    return f"the rate of {spring.name} is at least {enough:.4g} N/mm each: measure it"


def carried(spring: Spring) -> float | None:
    """Mass of its own that one spring carries beside the load, kg: half of it hangs on either end. None: not known."""
    coil = Coil(spring)
    try:
        return handbook.wire_mass(coil.d, coil.D, coil.n_t, handbook.STEEL) / 2
    except NotCovered:
        return None


def assumptions(coil: Coil) -> tuple[Assumption, ...]:
    """What was taken for the user."""
    spring = coil.spring
    taken = [*spring.duty.assumptions()]
    taken += assumed(spring.name, spring.temperature, spring.relaxation)
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
        text = "the rate follows from the dimensions; springs as made stray by 5 to 10 %"
        taken.append(Assumption(name, text, _weakest(coil)))
    elif (rates := coil.rates)[1] > rates[0]:
        text = f"its rate is known as {rates[0]:.4g} to {rates[1]:.4g} N/mm, by what is stated and by the wire"
        taken.append(Assumption(name, f"{text}: the weaker for the return, the stiffer for stresses and the jack"))
    return taken
