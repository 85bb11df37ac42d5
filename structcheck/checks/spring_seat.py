"""Where a spring bears: the sheet its bolt goes through, the washer under it, and the bolt that holds it."""

import math
from collections.abc import Callable

from structcheck.checks.basis import CLOSED, Basis
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, complete, judged, not_checked
from structcheck.materials.bolts import BoltClass, BoltSize
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.standards import handbook_springs as handbook
from structcheck.standards.en1993_1_8 import bolts as clause

NEEDED = ("punching", "washer bending", "bolt tension", "seat wall bending")

TABLE_3_4 = "EN 1993-1-8:2005 Table 3.4"


@record(kw_only=True)
class SpringSeat:
    """The seat of one spring; mm, N.

    force            of the spring at its shortest, the whole of it; the factor of the loads is put on here
    mean             mean coil diameter: where the spring presses
    sheet, steel     thickness and steel of the sheet or tube wall the bolt goes through
    washer           outside diameter of the washer or washer plate; None: none
    thickness        of the washer
    washer_steel     of the washer; None: not stated
    hole             in the washer; None: 1 mm more than the bolt
    size, bolt_class of the bolt through the spring; None: no bolt carries the spring
    wall             width of the flat wall the seat stands on, between its webs; None: it bears on solid ground
    """

    name: str
    force: float
    mean: float
    sheet: float
    steel: Steel
    washer: float | None = None
    thickness: float | None = None
    washer_steel: Steel | None = None
    hole: float | None = None
    size: BoltSize | None = None
    bolt_class: BoltClass | None = None
    wall: float | None = None


def check_spring_seat(seat: SpringSeat, basis: Basis) -> Outcome:
    """Every check of a spring seat. Raises InputError where the description cannot be."""
    problems = _impossible(seat)
    if problems:
        raise InputError(problems)
    answers = []
    for check, method in _METHODS.items():
        try:
            answers.append(method(seat, basis))
        except NotCovered as reason:
            answers.append(not_checked(seat.name, check, str(reason)))
    outcome = Outcome(
        findings=tuple(a for a in answers if isinstance(a, Finding)),
        does_not_apply=tuple(a for a in answers if isinstance(a, NotNeeded)),
        assumptions=_assumptions(seat),
        advice=(f"{seat.name}: a cup or spigot keeps the spring from walking off its seat",),
    )
    return complete(outcome, seat.name, NEEDED, "not done")


def _ultimate(seat: SpringSeat, basis: Basis) -> float:
    return seat.force * basis.load_factor


def _strength(steel: Steel) -> Steel:
    if not steel.in_en1993:
        raise NotCovered(f"{steel.name} is outside EN 1993-1-1")
    return steel


def _punching(seat: SpringSeat, basis: Basis) -> Finding | NotNeeded:
    if seat.size is None:
        return NotNeeded(seat.name, "punching", "no bolt carries the spring")
    f_u = _strength(seat.steel).f_u(seat.sheet)
    capacity = clause.punching_resistance(seat.size.d_m, seat.sheet, f_u, basis.gamma_M2)
    source, reason = f"{TABLE_3_4}, B_p,Rd", "bolt head or nut alone on the sheet; no credit for the washer"
    return judged(seat.name, "punching", CLOSED.name, _ultimate(seat, basis), capacity, "kN", source, reason=reason)


def _washer(seat: SpringSeat, basis: Basis) -> Finding | NotNeeded:
    check = "washer bending"
    if seat.washer is None or seat.size is None:
        return NotNeeded(seat.name, check, "no washer on a bolt carries the spring")
    if seat.washer_steel is None:
        raise NotCovered("the steel of the washer is not stated")
    if seat.thickness is None:
        raise NotCovered("the thickness of the washer is not stated")
    inner = _hole(seat) / 2
    outer = min(seat.washer, seat.mean) / 2
    # The nut holds nearer the coil than the hole's edge does: taking the edge makes the lever longer, not shorter.
    stress = handbook.washer_stress(_ultimate(seat, basis), outer, inner, seat.thickness, math.log(outer / inner))
    f_y = _strength(seat.washer_steel).f_y(seat.thickness) / basis.gamma_M0
    return judged(seat.name, check, CLOSED.name, stress, f_y, "MPa", "Timoshenko, annular plate (derived); elastic")


def _bolt(seat: SpringSeat, basis: Basis) -> Finding | NotNeeded:
    if seat.size is None:
        return NotNeeded(seat.name, "bolt tension", "no bolt carries the spring")
    if seat.bolt_class is None:
        raise NotCovered("the property class of the bolt is not stated")
    if not seat.bolt_class.covered:
        raise NotCovered(f"class {seat.bolt_class.name} is outside EN 1993-1-8 Table 3.1")
    capacity = clause.tension_resistance(0.9, seat.bolt_class.f_ub, seat.size.A_s, basis.gamma_M2)
    return judged(
        seat.name, "bolt tension", CLOSED.name, _ultimate(seat, basis), capacity, "kN", f"{TABLE_3_4}, F_t,Rd"
    )


def _wall(seat: SpringSeat, basis: Basis) -> Finding | NotNeeded:
    """The flat wall as a strip as wide as the seat, on its two webs: what spreads beyond the strip is not counted."""
    check = "seat wall bending"
    if seat.wall is None:
        return NotNeeded(seat.name, check, "the seat is not said to stand on a wall between webs")
    across = _spread(seat)
    if across >= seat.wall:
        return NotNeeded(seat.name, check, "the washer reaches both webs")
    moment = _ultimate(seat, basis) * (seat.wall - across / 2) / 4
    f_y = _strength(seat.steel).f_y(seat.sheet)
    resistance = across * seat.sheet**2 / 4 * f_y / basis.gamma_M0
    source = "EN 1993-1-1:2005 (6.13) on a strip as wide as the seat"
    return judged(seat.name, check, CLOSED.name, moment, resistance, "kN m", source)


def _spread(seat: SpringSeat) -> float:
    """Width over which the spring bears on the wall; the nut's across-flats where it hangs on a bolt without washer."""
    if seat.washer is not None:
        return seat.washer
    return seat.size.s_min if seat.size is not None else seat.mean


_METHODS: dict[str, Callable[[SpringSeat, Basis], Finding | NotNeeded]] = dict(
    zip(NEEDED, (_punching, _washer, _bolt, _wall), strict=True)
)


def _hole(seat: SpringSeat) -> float:
    if seat.hole is not None:
        return seat.hole
    return seat.size.d + 1 if seat.size is not None else 0.0


def _assumptions(seat: SpringSeat) -> tuple[Assumption, ...]:
    taken = []
    if seat.wall is None:
        text = "what it stands on does not bend between webs: wall, the width between them, where it does"
        taken.append(Assumption(seat.name, text))
    if seat.steel.assumed:
        taken.append(Assumption(seat.name, f"sheet of unknown steel: {seat.steel.name}", seat.steel.condition))
    if seat.washer_steel is not None and seat.washer_steel.assumed:
        condition = seat.washer_steel.condition
        taken.append(Assumption(seat.name, f"washer of unknown steel: {seat.washer_steel.name}", condition))
    if seat.bolt_class is not None and seat.bolt_class.assumed:
        taken.append(Assumption(seat.name, "bolt without a mark", seat.bolt_class.condition))
    if seat.washer is not None and seat.hole is None and seat.size is not None:
        taken.append(Assumption(seat.name, f"hole in the washer {_hole(seat):g} mm, 1 mm more than the bolt"))
    return tuple(taken)


def _impossible(seat: SpringSeat) -> list[Problem]:
    part = f'seat "{seat.name}"'
    problems = []
    for key in ("force", "mean", "sheet", "washer", "thickness", "hole", "wall"):
        value = getattr(seat, key)
        if value is not None and not value > 0:
            problems.append(Problem(key, f"{value:g}", "is not positive", f"a {key} above zero", part=part))
    if problems:
        return problems
    if seat.hole is not None and seat.size is not None and seat.hole < seat.size.d:
        given, wanted = f"{seat.hole:g} mm", f"at least {seat.size.d:g} mm"
        problems.append(Problem("hole", given, f"does not take a {seat.size.name}", wanted, part=part))
    least = min(seat.mean, seat.washer or seat.mean)
    if _hole(seat) >= least:
        given, fault = f"{_hole(seat):g} mm", "is as wide as what stands on it"
        problems.append(Problem("hole", given, fault, f"less than {least:g} mm", part=part))
    return problems
