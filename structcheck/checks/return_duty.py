"""What springs of any kind must bring back, and what they take from the jack."""

import math

from structcheck.analysis.guides import slide
from structcheck.checks.basis import CLOSED, OPEN
from structcheck.checks.guide import Guide
from structcheck.errors import Problem
from structcheck.findings import Assumption, Finding, NotNeeded, judged
from structcheck.quantities import G_N
from structcheck.record import record
from structcheck.standards.handbook_springs import return_force_needed

OIL = 500.0
"""Newtons by which oil and seals of a jack hold its ram back, where nobody has measured them."""

USUAL_SHARE = 0.08
"""Share of the jack's force that return springs usually take at full stroke: 4 to 8 % (common practice)."""

STRAY = 0.10
"""How far springs as made stray from the rate of their dimensions (spring makers' tolerances, memory)."""

MARGIN = 1.25
"""Builders add 25 to 50 % to what must come back (common practice)."""


@record
class Duty:
    """The return duty of a set of springs, under the name of the part; N and kg.

    lifts   mass that must come back
    oil     held back by oil and seals; None: 500 N, assumed
    drag    friction of the guides; None: not known, none is counted; infinite: they jam
    rating  rated force of the jack; None: no jack stated
    count   springs that share
    own     mass of its own that each carries beside `lifts`, kg; None: not known
    """

    part: str
    lifts: float
    oil: float | None
    drag: float | None
    rating: float | None
    count: int
    own: float | None = None

    @property
    def held_back(self) -> float:
        """What oil and seals hold back, N."""
        return OIL if self.oil is None else self.oil

    @property
    def load(self) -> float:
        """Weight, oil and seals, N: what must come back before any friction of the guides."""
        return return_force_needed(self.lifts * G_N, self.held_back, 0.0)

    @property
    def own_weight(self) -> float:
        """What the springs carry of themselves beside `lifts`, N."""
        return self.count * (self.own or 0.0) * G_N

    @property
    def needed(self) -> float:
        """What must come back, N."""
        return return_force_needed(self.lifts * G_N, self.held_back, self.drag or 0.0)

    def friction(self, guide: Guide, weight_at: float, springs_at: float) -> float:
        """Friction of the guides at the top of the stroke, N; infinite where they jam.

        weight_at, springs_at  where the mass and the force of the springs stand, mm from the centre of the guides; what
                               oil and seals hold back acts at the ram, which is taken as in the centre
        """
        if not self.load:
            return 0.0
        load_at = self.lifts * G_N * weight_at / self.load
        return slide(self.load, load_at, springs_at, guide.length, guide.friction).drive - self.load

    def problems(self, part: str) -> list[Problem]:
        """Everything impossible in the duty."""
        found = [
            Problem(key, f"{value:g}", "is negative", "zero or more", part=part)
            for key in ("lifts", "oil", "drag", "rating")
            if (value := getattr(self, key)) is not None and value < 0
        ]
        if self.count < 1:
            wanted = "a whole number of springs"
            found.append(Problem("count", f"{self.count:g}", "is no spring at all", wanted, "count = 1", part))
        return found

    def return_force(self, each: float, source: str) -> Finding:
        """Whether the platen comes home at the top of the stroke, where springs press least; `each` of one spring.

        The springs' own weight is little beside a stated mass, which may hold it: it is added where it decides.
        """
        oil, drag = f"oil and seals {self.held_back:.4g} N", f"friction {self.drag or 0.0:.4g} N"
        reason, needed, pressing = f"{self.lifts:.4g} kg, {oil}, {drag}", self.needed, self.count * each
        if math.isinf(needed):
            reason = "the guides jam on the way back, whatever the springs"
        elif needed <= pressing < needed + self.own_weight:
            needed += self.own_weight
            reason += f"; half of the springs' own weight, {self.own_weight:.3g} N, decides"
        return judged(self.part, "spring return force", OPEN.name, needed, pressing, "kN", source, reason=reason)

    def rests_on_rate(self, each: float) -> bool:
        """Whether springs as weak as they may be made would no longer bring it back, where those described do."""
        pressing = self.count * each
        return (1 - STRAY) * pressing < self.needed <= pressing

    def full_stroke(self, each: float) -> Finding | NotNeeded:
        """Whether the springs, squeezed all the way, leave the jack anything."""
        check = "spring force at full stroke"
        if self.rating is None:
            return NotNeeded(self.part, check, "no jack stated")
        source = "statics: the jack's rated force"
        return judged(self.part, check, CLOSED.name, self.count * each, self.rating, "kN", source)

    def _of_own_weight(self) -> tuple[str, ...]:
        if self.own is None:
            return ("the springs' own weight is not known here: half of it hangs on what they lift and is not counted",)
        if not self.own_weight:
            return ()
        share = self.own_weight / self.load if self.load else math.inf
        text = f"half of the springs' own weight, {self.own_weight:.3g} N, hangs on what they lift"
        return (f"{text}: {share:.1%} of it, added where it decides",) if share < math.inf else ()

    def assumptions(self) -> tuple[Assumption, ...]:
        """What was taken for the user."""
        taken = []
        if self.held_back == OIL:
            taken.append(Assumption(self.part, f"oil and seals hold the ram back with {OIL:g} N until measured"))
        if self.drag is None:
            taken.append(Assumption(self.part, "no friction of the guides is counted"))
        taken += [Assumption(self.part, text) for text in self._of_own_weight()]
        if self.count > 1:
            taken.append(Assumption(self.part, f"the {self.count} springs are alike and share the load evenly"))
        return tuple(taken)

    def one_broken(self, each: float) -> str:
        """What happens when one spring breaks."""
        if self.count == 1:
            return "the only spring: broken, the platen does not come back"
        if math.isinf(self.needed):
            return "the guides jam, with all springs as with one broken"
        left = (self.count - 1) * each
        enough = "enough, but from one side: the guides may bind (a [[return_set]] with its places tells)"
        what = enough if left >= self.needed else "the platen hangs"
        return f"one of {self.count} broken: {left:.0f} N of the {self.needed:.0f} N needed, {what}"

    def advice(self, fitted: float, pressed: float) -> tuple[str, ...]:
        """What a builder would do about a thin margin, or about springs that eat the press; forces of one spring."""
        said = []
        if self.rating and self.count * pressed > USUAL_SHARE * self.rating:
            share = self.count * pressed / self.rating
            said.append(f"the springs take {share:.0%} of the jack at full stroke; 4 to 8 % is usual")
        if self.needed <= self.count * fitted < MARGIN * self.needed:
            said.append("builders add 25 to 50 % to what must come back (common practice)")
        return tuple(said)
