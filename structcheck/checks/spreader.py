"""The spreader plate between a jack and the beam, or beams, it pushes: bending across the webs.

The plate is a strip on the webs as pinned lines, the pad pressing evenly; that is the safe bound for strength.
"""

import math
from collections.abc import Iterable, Sequence

from structcheck.checks.basis import Basis, Case
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import (
    Assumption,
    Finding,
    NotNeeded,
    Outcome,
    TimesOnYield,
    complete,
    judged,
    not_checked,
    worst,
)
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.standards import handbook_plates as plates

NEEDED = ("spreader plate", "yield of the spreader plate")
ROUND = 8 / (3 * math.pi)
"""Side of the rectangle that bends a strip as a round pad of diameter 1 does: the same lever of each half."""


@record
class Spreader:
    """A plate between a jack's foot or saddle and the webs of one or two beams.

    along      size along the beams, mm
    across     size across them, mm
    thickness  mm; None: there is no plate
    steel      of the plate
    pieces     beams that carry the jack
    webs       distance between the middle planes of the outer webs, mm; 0 for one beam with one web
    web        thickness of each of them, on which the plate can rest
    stiffened  a pair of stiffeners stands under the pad and reaches as far out as it does
    """

    name: str
    pieces: int
    webs: float
    steel: Steel | None = None
    along: float | None = None
    across: float | None = None
    thickness: float | None = None
    stiffened: bool = False
    web: float = 0.0


@record
class SpreaderLoads:
    """A force through a pad on the plate.

    force      N
    along      pad along the beams, mm, or the diameter of a round one
    across     pad across the beams, mm; None: round, of diameter `along`
    offset     of the pad's middle from the middle between the webs, across, mm
    """

    case: Case
    force: float
    along: float
    across: float | None = None
    offset: float = 0.0


def check_spreader(part: Spreader, loads: Sequence[SpreaderLoads], basis: Basis) -> Outcome:
    """Plastic bending of the plate at ultimate force, elastic at the greatest force, times on yield at rated."""
    if part.thickness is None:
        return _without_plate(part)
    _refuse_contradictions(part, loads)
    findings: list[Finding] = []
    times: list[TimesOnYield] = []
    for load in loads:
        try:
            findings += _judge(part, load, basis, times)
        except NotCovered as reason:
            check = NEEDED[0] if load.case.limit == "ultimate" else NEEDED[1]
            findings.append(not_checked(part.name, check, str(reason), case=load.case.name))
    chosen = tuple(
        worst(f for f in findings if f.check == check) for check in NEEDED if any(f.check == check for f in findings)
    )
    least = min(times, key=lambda t: t.value, default=None)
    outcome = Outcome(chosen, (), tuple(_assumptions(part, loads)), (least,) if least else ())
    return complete(outcome, part.name, NEEDED, "no force was given for it")


def webs_share(webs: float, offset: float) -> float:
    """Share of the force on the nearer of two webs when the jack stands off their middle by `offset`, mm."""
    return min(1.0, 0.5 + abs(offset) / webs)


def _without_plate(part: Spreader) -> Outcome:
    if part.pieces > 1:
        reason = f"{part.pieces} beams carry one jack and no spreader plate between them is stated"
        return complete(Outcome(), part.name, NEEDED, reason)
    reason = "one beam carries the jack without a plate"
    return Outcome(does_not_apply=tuple(NotNeeded(part.name, check, reason) for check in NEEDED))


def unit_moments(part: Spreader, load: SpreaderLoads) -> float:
    """Greatest bending moment per width of the plate under a force of 1 N. Raises NotCovered."""
    along, across = _pad(load)
    along = min(along, part.along)
    on_plate = part.across - 2 * abs(load.offset)
    if on_plate <= 0:
        raise NotCovered("the force stands over the edge of the plate")
    # A pad that reaches over the edge presses on what is on the plate, evenly about the line of the force.
    across = min(across, on_plate)
    inside = across / 2 + abs(load.offset)
    between = abs(plates.strip_moment_between(1.0, part.webs, across))
    found = []
    if part.webs and abs(load.offset) > part.webs / 2:
        room = (part.webs + part.web) / 2
        if abs(load.offset) > room:
            reason = f"the jack stands {abs(load.offset):g} mm off the middle, outside the webs: the plate would tip"
            raise NotCovered(f"{reason}; keep it within {room:.4g} mm, or set the pieces further apart")
        # Over the near web itself, which bears all: the halves of the pad stand out from the line of the force.
        found.append(plates.strip_moment_beyond(1.0, across, across / 2))
        return found[0] / min(part.along, plates.strip_width(along, part.thickness, across / 2))
    if part.webs:
        found.append(_between(part.webs, across, abs(load.offset)) if load.offset else between)
        found[-1] /= min(part.along, plates.strip_width(along, part.thickness, part.webs))
    reach = inside - part.webs / 2
    if reach > 0:
        beyond = plates.strip_moment_beyond(1.0, across, reach)
        found.append(beyond / min(part.along, plates.strip_width(along, part.thickness, reach)))
    if part.stiffened and not part.webs and not load.offset:
        # A cross of web and stiffener carries each quarter half to the one, half to the other (strip method).
        over = plates.strip_moment_beyond(1.0, along, along / 2)
        over /= min(part.across, plates.strip_width(across, part.thickness, along / 2))
        found = [found[0] / 2, over / 2]
    return max(found)


def _pad(load: SpreaderLoads) -> tuple[float, float]:
    """Along and across; a round pad as the rectangle that bends a strip alike."""
    return (load.along * ROUND, load.along * ROUND) if load.across is None else (load.along, load.across)


def _between(L: float, a: float, offset: float) -> float:
    """Greatest moment between the supports under a unit force spread over a, its middle off theirs by `offset`."""
    start, end = L / 2 + offset - a / 2, L / 2 + offset + a / 2
    reaction = 0.5 - offset / L  # of the far support

    def moment(x: float) -> float:
        covered = max(x - start, 0.0)
        return reaction * x - covered**2 / (2 * a)

    turn = start + reaction * a
    places = [x for x in (turn, start, end, L / 2) if 0 <= x <= L]
    return max(abs(moment(x)) for x in places)


def _judge(part: Spreader, load: SpreaderLoads, basis: Basis, times: list[TimesOnYield]) -> list[Finding]:
    f_y = part.steel.f_y(part.thickness)
    unit = unit_moments(part, load)
    if load.case.limit == "ultimate":
        if not part.steel.in_en1993:
            raise NotCovered(f"{part.steel.name} is outside EN 1993")
        capacity = plates.plastic_moment(part.thickness, f_y, basis.gamma_M0) / unit
        return [judged(part.name, NEEDED[0], load.case.name, load.force, capacity, "kN", plates.PLASTIC)]
    stress = plates.bending_stress(unit * load.force, part.thickness)
    if load.case.limit == "rated":
        if stress:
            times.append(TimesOnYield(part.name, f_y / stress))
        return []
    source = "elastic bending of the strip under the pad"
    return [judged(part.name, NEEDED[1], load.case.name, stress, f_y, "MPa", source)]


def _assumptions(part: Spreader, loads: Sequence[SpreaderLoads]) -> Iterable[Assumption]:
    yield Assumption(part.name, "the pad presses evenly on the plate; the plate rests on the webs as on pinned lines")
    if any(load.offset for load in loads):
        text = (
            "the plate stays in the middle of the pieces while the jack stands off it; along them it goes with the jack"
        )
        yield Assumption(part.name, text)
    if any(_pad(load)[1] > part.across - 2 * abs(load.offset) for load in loads):
        text = "a pad that reaches over the plate's edge presses on what is on it, evenly about the line of the force"
        yield Assumption(part.name, text)
    if part.steel.assumed:
        yield Assumption(part.name, f"steel unknown, taken as {part.steel.name}", part.steel.condition)
    if not part.webs and any(load.offset for load in loads):
        yield Assumption(part.name, "jack and flange keep the plate level on its one web")


def _refuse_contradictions(part: Spreader, loads: Sequence[SpreaderLoads]) -> None:
    problems = [
        Problem(
            key, "" if value is None else f"{value:g} mm", "is no size of a plate", "a positive length", part=part.name
        )
        for key, value in (("along", part.along), ("across", part.across), ("thickness", part.thickness))
        if value is None or not value > 0
    ]
    if part.steel is None:
        problems.append(Problem("steel", "", "is missing", "the steel of the plate", part=part.name))
    if part.across is not None and part.across < part.webs:
        fault = "does not reach both webs"
        problems.append(Problem("across", f"{part.across:g} mm", fault, f"at least {part.webs:g} mm", part=part.name))
    for load in loads:
        if not load.along > 0 or (load.across is not None and not load.across > 0):
            problems.append(
                Problem("pad", f"{load.along:g} mm", "is no size of a pad", "a positive length", part=part.name)
            )
    if problems:
        raise InputError(problems)
