"""A round pin or roller pressed on a flat, or in the hollow of a hole: how much force the line of contact bears."""

import math
from collections.abc import Iterable, Sequence

from structcheck.checks.basis import Basis, Case
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Finding, Outcome, complete, judged, not_checked, worst
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.standards import handbook_contact as contact

NEEDED = ("contact",)
E, NU, GAMMA_M = 210_000.0, 0.3, 1.0


@record
class Contact:
    """A line contact.

    diameter  of the pin or roller, mm
    length    of the contact along the pin, all places that share the force together, mm
    steels    of the two bodies
    thick     of the two bodies, for their strength, mm; None: the pin's diameter
    hollow    diameter of the hole the pin lies in, mm; None: a flat
    """

    name: str
    diameter: float
    length: float
    steels: tuple[Steel, Steel]
    thick: tuple[float | None, float | None] = (None, None)
    hollow: float | None = None


@record
class ContactLoads:
    """The force across a contact, N."""

    case: Case
    force: float


def check_contact(part: Contact, loads: Sequence[ContactLoads], basis: Basis) -> Outcome:
    """Resistance at ultimate force; the peak pressure at rated force is an answer."""
    _refuse_contradictions(part)
    findings: list[Finding] = []
    answers: list[str] = []
    R = part.diameter / 2
    if part.hollow is not None:
        R = contact.relative_radius(R, part.hollow / 2)
    for load in loads:
        try:
            if load.case.limit == "ultimate":
                findings.append(_strength(part, load, R))
            elif load.case.limit == "rated":
                answers.append(_pressure(part, load, R))
        except NotCovered as reason:
            findings.append(not_checked(part.name, NEEDED[0], str(reason), case=load.case.name))
    outcome = Outcome((worst(findings),) if findings else (), (), tuple(_assumptions(part)), (), tuple(answers))
    return complete(outcome, part.name, NEEDED, "no force was given for it")


def _strengths(part: Contact) -> list[tuple[float, float]]:
    return [
        steel.strengths(part.diameter if t is None else t) for steel, t in zip(part.steels, part.thick, strict=True)
    ]


def _strength(part: Contact, load: ContactLoads, R: float) -> Finding:
    outside = [steel.name for steel in part.steels if not steel.in_en1993]
    if outside:
        raise NotCovered(f"{outside[0]} is outside EN 1993")
    f_u = min(f_u for _, f_u in _strengths(part))
    capacity = contact.roller_resistance(R, part.length, f_u, E, GAMMA_M)
    return judged(part.name, NEEDED[0], load.case.name, load.force, capacity, "kN", contact.ROLLER)


def _pressure(part: Contact, load: ContactLoads, R: float) -> str:
    pressure = contact.peak_pressure(load.force, part.length, R, E, NU)
    f_y = min(f_y for f_y, _ in _strengths(part))
    times = contact.FIRST_YIELD * f_y / pressure if pressure else math.inf
    return f"{part.name}: contact pressure {pressure:.0f} MPa at {load.case.name}, {times:.2f} times from first yield"


def _assumptions(part: Contact) -> Iterable[Assumption]:
    yield Assumption(part.name, "pin and seat touch along the whole length stated")
    for steel in dict.fromkeys(part.steels):
        if steel.assumed:
            yield Assumption(part.name, f"steel unknown, taken as {steel.name}", steel.condition)


def _refuse_contradictions(part: Contact) -> None:
    problems = [
        Problem(key, f"{value:g} mm", "is no size", "a positive length", part=part.name)
        for key, value in (("diameter", part.diameter), ("length", part.length))
        if not value > 0
    ]
    if part.hollow is not None and not part.hollow > part.diameter:
        wanted = f"more than {part.diameter:g} mm"
        problems.append(Problem("hollow", f"{part.hollow:g} mm", "is no hole for this pin", wanted, part=part.name))
    if problems:
        raise InputError(problems)
