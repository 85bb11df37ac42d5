"""Threaded rods and studs as tension members: stress area, nuts and tapped holes, seats out of square."""

import math
from collections.abc import Sequence

from structcheck.checks.basis import Basis, Case, greatest
from structcheck.checks.fatigue import bolt_in_tension, fatigue
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Finding, Outcome, TimesOnYield, complete, judged, not_checked, worst
from structcheck.materials.bolts import BoltClass, BoltSize
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.standards import tightening as thread
from structcheck.standards.en1993_1_8 import bolts as clause

NEEDED = ("bolt tension", "thread stripping", "yield at greatest force", "fatigue")

E = 210e3
STANDARD_NUT = 0.8
"""Height of a nut over the diameter from which it bears its bolt (ISO 898-2 regular nuts, recalled)."""
CUT_THREAD = 0.85


@record(kw_only=True)
class Rod:
    """Threaded rods that share a pull evenly.

    length       free length between the nuts
    nut          height of the nut; None: a standard nut of the rod's class
    tapped       length screwed into a tapped hole, at one end or both; tapped_steel what it is tapped in
    rolled       thread rolled, or cut by a maker to EN 1090; otherwise resistance x 0.85 (3.6.1(3))
    tilt         seat out of square, radians; None: square
    """

    name: str
    size: BoltSize
    bolt_class: BoltClass
    length: float
    count: int = 1
    nut: float | None = None
    tapped: float | None = None
    tapped_steel: Steel | None = None
    rolled: bool = True
    tilt: float | None = None

    @property
    def d_s(self) -> float:
        """Diameter of the stress area."""
        return math.sqrt(4 * self.size.A_s / math.pi)


@record
class RodLoads:
    """Pull on all rods together in one case."""

    case: Case
    pull: float


def check_rod(part: Rod, loads: Sequence[RodLoads], basis: Basis) -> Outcome:
    """Judge threaded rods in tension. Raises InputError where they cannot be built."""
    _validate(part)
    by_limit = greatest(loads, lambda load: load.pull)
    findings = []
    for check, judge, limit in (
        ("bolt tension", _tension, "ultimate"),
        ("thread stripping", _stripping, "ultimate"),
        ("yield at greatest force", _yield, "greatest force"),
    ):
        if by_limit[limit]:
            try:
                findings.append(worst(judge(part, load, basis) for load in by_limit[limit]))
            except NotCovered as reason:
                findings.append(not_checked(part.name, check, str(reason)))
    outcome = Outcome(tuple(findings), assumptions=_assumptions(part))
    if rated := by_limit["rated"]:
        pull = max(load.pull for load in rated)
        value = part.bolt_class.f_yb / _stress(part, pull)
        outcome += Outcome(times_on_yield=(TimesOnYield(part.name, value),))
        # A seat out of square bends the rod anew at every press, and straightens it when the nut goes loose again.
        ranges = [(bolt_in_tension(part.size.d), _stress(part, pull))]
        outcome += fatigue(part.name, ranges, basis)
    return complete(outcome, part.name, NEEDED, "no load case for it was given")


def _of_one(part: Rod, basis: Basis) -> float:
    if not part.bolt_class.covered:
        raise NotCovered(f"class {part.bolt_class.name} is outside EN 1993-1-8 Table 3.1")
    one = clause.tension_resistance(0.9, part.bolt_class.f_ub, part.size.A_s, basis.gamma_M2)
    return one if part.rolled else CUT_THREAD * one


def _tension(part: Rod, load: RodLoads, basis: Basis) -> Finding:
    capacity = part.count * _of_one(part, basis)
    source = "EN 1993-1-8:2005 Table 3.4" + ("" if part.rolled else ", 3.6.1(3)")
    return judged(part.name, "bolt tension", load.case.name, load.pull, capacity, "kN", source)


def _stripping(part: Rod, load: RodLoads, basis: Basis) -> Finding:
    """The weaker of the rod's own thread and of what it is screwed into; one turn at the ends counts for nothing."""
    source, check = "thread stripping at 0.6 f_u (machine-design practice)", "thread stripping"
    whole = part.nut is None or part.nut >= STANDARD_NUT * part.size.d
    if part.tapped is None and whole:
        reason = "a standard nut of the rod's class bears the rod (ISO 898-2)"
        capacity = part.count * _of_one(part, basis)
        return judged(
            part.name, check, load.case.name, load.pull, capacity, "kN", "ISO 898-2 (recalled)", reason=reason
        )
    if part.tapped is not None and part.tapped_steel is None:
        raise NotCovered("`tapped_steel` is not stated: the thread in the plate may be the weaker one")
    ends = [] if whole else [_stripped(part, part.nut, part.bolt_class.f_ub, "nut", basis)]
    if not whole:
        ends.append((_of_one(part, basis), "no more than a standard nut bears"))
    if part.tapped is not None:
        ends.append(_stripped(part, part.tapped, part.tapped_steel.f_u(part.tapped), "plate", basis))
    capacity, reason = min(ends)
    return judged(part.name, check, load.case.name, load.pull, part.count * capacity, "kN", source, reason=reason)


def _stripped(part: Rod, length: float, inside: float, where: str, basis: Basis) -> tuple[float, str]:
    """Resistance of one rod's thread in a nut or plate of strength `inside`, and which thread gives way."""
    d, P = part.size.d, part.size.pitch
    engaged = length - P
    if engaged <= 0:
        raise NotCovered(f"less than one turn of thread is engaged in the {where}")
    d_2, D_1 = thread.pitch_diameter(d, P), thread.minor_diameter(d, P)
    own = thread.stripping_resistance(
        thread.bolt_thread_shear_area(engaged, P, D_1, d_2), part.bolt_class.f_ub, basis.gamma_M2
    )
    other = thread.stripping_resistance(thread.nut_thread_shear_area(engaged, P, d, d_2), inside, basis.gamma_M2)
    return min((own, f"thread of the rod in the {where}"), (other, f"thread of the {where}"))


def _stress(part: Rod, pull: float) -> float:
    bent = thread.bending_by_seat(E, part.d_s, part.tilt, part.length) if part.tilt else 0.0
    return pull / part.count / part.size.A_s + bent


def _yield(part: Rod, load: RodLoads, basis: Basis) -> Finding:
    reason = "pull and the bending of a seat out of square" if part.tilt else "pull"
    source = "EN 1993-1-1:2005 6.2.1(5), elastic, stress area"
    stress, f_yb = _stress(part, load.pull), part.bolt_class.f_yb
    return judged(part.name, "yield at greatest force", load.case.name, stress, f_yb, "MPa", source, reason=reason)


def _validate(part: Rod) -> None:
    problems = [
        Problem(key, f"{value:g} mm", "is not a length", "a length above nothing", part=f'rod "{part.name}"')
        for key in ("length", "nut", "tapped")
        if (value := getattr(part, key)) is not None and not (math.isfinite(value) and value > 0)
    ]
    if problems:
        raise InputError(problems)


def _assumptions(part: Rod) -> tuple[Assumption, ...]:
    made = []
    if part.bolt_class.assumed:
        text = f"rod without a mark: f_ub {part.bolt_class.f_ub:g} MPa"
        made.append(Assumption(part.name, text, part.bolt_class.condition))
    if part.tapped_steel is not None and part.tapped_steel.assumed:
        made.append(Assumption(part.name, "steel of the tapped plate unknown", part.tapped_steel.condition))
    if part.nut is None and part.tapped is None:
        made.append(Assumption(part.name, "standard nuts of the rod's class, at least 0.8 d high"))
    if part.tilt is None:
        made.append(Assumption(part.name, "seats square to the rods, or spherical washers"))
    if part.count > 1:
        made.append(Assumption(part.name, f"{part.count} rods share the pull evenly"))
    return tuple(made)
