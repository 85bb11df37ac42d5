"""A pin through one inner plate between two outer ones: what it is, how it is loaded, what is wrong or assumed."""

import math
from typing import Literal

from structcheck.checks.basis import Case
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption
from structcheck.materials.bolts import BoltClass
from structcheck.materials.steels import Steel
from structcheck.record import record

USUAL_CLEARANCE = 1.0


@record
class Pin:
    """A solid round pin in double shear.

    steel        of the pin, and of the plates where theirs is not stated
    hole         diameter d_0 in the plates; None: 1 mm more than the pin
    inner        thickness of the plate or plates between the outer ones, together
    outer        thickness of each outer plate or tube wall
    gap          between inner and outer plate on each side; None: not stated
    replaceable  meant to be taken out: service checks too
    inner_steel, outer_steel  of the plates
    inner_end, outer_end      centre of the hole to the plate's end behind it, in the direction of the force
    inner_edge, outer_edge    centre of the hole to the nearer side of the plate
    inner_doubler, outer_doubler  plate welded round the hole, of the same steel: adds to bearing and to the eye
    slot         how far the hole is drawn out along the force; the pin still bears on a half circle
    """

    name: str
    diameter: float
    steel: Steel
    inner: float
    outer: float
    hole: float | None = None
    gap: float | None = None
    replaceable: bool = True
    inner_steel: Steel | None = None
    outer_steel: Steel | None = None
    inner_end: float | None = None
    inner_edge: float | None = None
    outer_end: float | None = None
    outer_edge: float | None = None
    inner_doubler: float = 0.0
    outer_doubler: float = 0.0
    slot: float = 0.0

    @property
    def d_0(self) -> float:
        """Diameter of the hole."""
        return self.diameter + USUAL_CLEARANCE if self.hole is None else self.hole

    @property
    def area(self) -> float:
        """Section of the pin."""
        return math.pi * self.diameter**2 / 4

    @property
    def plates(self) -> tuple["Eye", "Eye"]:
        """The inner plate, and one of the two outer ones."""
        inner, outer = self.inner_steel or self.steel, self.outer_steel or self.steel
        return (
            Eye("inner", self.inner, self.inner_doubler, inner, 1.0, self.inner_end, self.inner_edge),
            Eye("outer", self.outer, self.outer_doubler, outer, 0.5, self.outer_end, self.outer_edge),
        )


@record
class Eye:
    """One plate with its hole: thickness, doubler, steel, share of the pull, centre to end and to side."""

    which: Literal["inner", "outer"]
    wall: float
    doubler: float
    steel: Steel
    share: float
    end: float | None
    edge: float | None

    @property
    def t(self) -> float:
        """Thickness at the hole."""
        return self.wall + self.doubler

    @property
    def f_y(self) -> float:
        """Yield strength, of the thicker of wall and doubler."""
        return self.steel.f_y(max(self.wall, self.doubler))


@record
class PinLoads:
    """Pull across the pin in one case."""

    case: Case
    pull: float


def steel_of_bolt(bolt_class: BoltClass) -> Steel:
    """The strengths of a property class, for a bolt that works as a pin."""
    steps = ((math.inf, bolt_class.f_yb, bolt_class.f_ub),)
    return Steel(
        name=f"class {bolt_class.name}",
        source=bolt_class.source,
        steps=steps,
        beta_w=None,
        in_en1993=bolt_class.covered,
        weldable=False,
        assumed=bolt_class.assumed,
    )


def validate(part: Pin) -> None:
    """Raise InputError with everything that cannot be built."""
    problems = []

    def wrong(key: str, given: float, fault: str, wanted: str, remedy: str = "") -> None:
        problems.append(Problem(key, f"{given:g} mm", fault, wanted, remedy=remedy, part=f'pin "{part.name}"'))

    for key in ("diameter", "inner", "outer"):
        value = getattr(part, key)
        if not (math.isfinite(value) and value > 0):
            wrong(key, value, "is not a length", "a length above nothing")
    for key in ("gap", "inner_doubler", "outer_doubler", "slot"):
        value = getattr(part, key)
        if value is not None and not (math.isfinite(value) and value >= 0):
            wrong(key, value, "is below nothing", "nothing or more", f'{key} = "1 mm"')
    if part.hole is not None and not part.diameter <= part.hole < math.inf:
        remedy = f'hole = "{part.diameter + USUAL_CLEARANCE:g} mm"'
        wrong("hole", part.hole, "is smaller than the pin", f"at least {part.diameter:g} mm", remedy)
    for key in ("inner_end", "inner_edge", "outer_end", "outer_edge"):
        value = getattr(part, key)
        if value is not None and not value > part.d_0 / 2:
            fault = f"lets the hole of {part.d_0:g} mm break out of the plate"
            wrong(key, value, fault, f"more than {part.d_0 / 2:g} mm, from the hole's centre")
    if problems:
        raise InputError(problems)


def assumptions(part: Pin) -> tuple[Assumption, ...]:
    """What is taken for the user."""
    made = []
    if part.steel.assumed:
        made.append(Assumption(part.name, f"steel of the pin unknown: {part.steel.name}", part.steel.condition))
    if part.hole is None:
        made.append(Assumption(part.name, f"holes of {part.d_0:g} mm, {USUAL_CLEARANCE:g} mm wider than the pin"))
    for plate in part.plates:
        own = part.inner_steel if plate.which == "inner" else part.outer_steel
        named = f"{plate.which} plate"
        if own is None:
            text = f"{named} of the pin's steel, {plate.steel.name}; else {plate.which}_steel"
            made.append(Assumption(part.name, text, f"{named} of {plate.steel.name} or better"))
        elif own.assumed:
            made.append(Assumption(part.name, f"steel of the {named} unknown: {own.name}", own.condition))
        if plate.doubler:
            text = f"the doubler of the {named} is welded all round, for its share of the pull: check that weld"
            made.append(Assumption(part.name, text, f"the weld of the {plate.which} doubler carries its share"))
    return tuple(made)
