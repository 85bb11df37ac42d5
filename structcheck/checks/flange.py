"""A flange bent by a force between its web and its tip: a foot, a clamp or a hanger beside the web.

The outstanding part is a cantilever plate; the force spreads at 1:1 to its root.
"""

import math
from collections.abc import Iterable, Sequence

from structcheck.checks.basis import Basis, Case
from structcheck.checks.web_resistance import WebPlate, one_sided, web_plate
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
from structcheck.shapes.section import Section
from structcheck.standards import handbook_plates as plates

NEEDED = ("flange bending", "yield at greatest force")
SOURCE = "cantilever plate, form of EN 1993-6 6.7"
FILLET = 0.8
"""Share of the root radius that shortens the lever, as in EN 1993-1-8 6.2.4."""


@record
class Flange:
    """The flanges of a beam, or of beams side by side, pressed between web and tip."""

    name: str
    section: Section
    steel: Steel
    pieces: int = 1


@record
class FlangeLoad:
    """A force on the flanges, all pieces together.

    force    N
    lever    from the face of the web to the middle of the contact, mm
    along    contact along the beam, mm
    sides    flange halves, of all pieces, that share the force equally
    to_end   from the end of the contact to the end of the beam, mm; None: far
    M        bending moment alongside, all pieces, N mm
    """

    case: Case
    force: float
    lever: float
    along: float = 0.0
    sides: int = 2
    to_end: float | None = None
    M: float = 0.0
    place: str = ""


def check_flange(part: Flange, loads: Sequence[FlangeLoad], basis: Basis) -> Outcome:
    """Plastic bending of the flange at ultimate force, elastic at the greatest, times on yield at rated."""
    _refuse_contradictions(part, loads)
    findings: list[Finding] = []
    times: list[TimesOnYield] = []
    dropped: list[NotNeeded] = []
    for load in loads:
        check = NEEDED[0] if load.case.limit == "ultimate" else NEEDED[1]
        try:
            plate = web_plate(part.section, part.steel)
            if load.lever > _outstand(part, plate):
                raise InputError(_beyond_tip(part, load, _outstand(part, plate)))
            if _lever(plate, load) <= 0:
                dropped += [NotNeeded(part.name, check, "the force stands on web and root") for check in NEEDED]
                continue
            if load.case.limit == "ultimate":
                findings.append(_strength(part, load, plate, basis))
            else:
                findings += _elastic(part, load, plate, times)
        except NotCovered as reason:
            if load.case.limit != "rated":
                findings.append(not_checked(part.name, check, str(reason), case=load.case.name))
    chosen = tuple(
        worst(f for f in findings if f.check == check) for check in NEEDED if any(f.check == check for f in findings)
    )
    judged_ones = {f.check for f in chosen}
    least = min(times, key=lambda t: t.value, default=None)
    outcome = Outcome(
        chosen,
        tuple(n for n in dict.fromkeys(dropped) if n.check not in judged_ones),
        tuple(_assumptions(part)),
        (least,) if least else (),
    )
    return complete(outcome, part.name, NEEDED, "no force was given for it")


def _outstand(part: Flange, plate: WebPlate) -> float:
    shape = part.section.shape
    if plate.webs > 1:
        raise NotCovered("the flange between the webs of a box is no cantilever")
    whole = float(shape.b) - plate.t_w
    return whole if one_sided(shape) else whole / 2


def _beyond_tip(part: Flange, load: FlangeLoad, outstand: float) -> Problem:
    wanted = f"at most {outstand:g} mm from the face of the web"
    return Problem("lever", f"{load.lever:g} mm", "is beyond the tip of the flange", wanted, part=part.name)


def _lever(plate: WebPlate, load: FlangeLoad) -> float:
    return load.lever - FILLET * plate.root


def _root(load: FlangeLoad, m: float) -> float:
    return plates.root_length(load.along, m, m if load.to_end is None else load.to_end)


def _bending(part: Flange, load: FlangeLoad) -> float:
    """The beam's own stress in its outer fibre, MPa."""
    return abs(load.M) / part.pieces / part.section.Wel_y


def _strength(part: Flange, load: FlangeLoad, plate: WebPlate, basis: Basis) -> Finding:
    if not part.steel.in_en1993:
        raise NotCovered(f"{part.steel.name} is outside EN 1993")
    m = _lever(plate, load)
    side = load.force / load.sides
    alone = plates.flange_resistance(_root(load, m), plate.t_f, plate.f_yf, m, 0.0, basis.gamma_M0)
    used = (_bending(part, load) * basis.gamma_M0 / plate.f_yf) ** 2
    # k F = R (1 - k2 s2): the factor k by which the force and the beam's bending can grow together.
    factor = (math.sqrt(side**2 + 4 * used * alone**2) - side) / (2 * used * alone) if used else alone / side
    return judged(
        part.name, NEEDED[0], load.case.name, load.force, factor * load.force, "kN", SOURCE, reason=load.place
    )


def _elastic(part: Flange, load: FlangeLoad, plate: WebPlate, times: list[TimesOnYield]) -> list[Finding]:
    m = _lever(plate, load)
    across = plates.bending_stress(load.force / load.sides * m / _root(load, m), plate.t_f)
    along = _bending(part, load)
    # One face of the flange has stresses of unlike sign along and across.
    stress = math.sqrt(along**2 + across**2 + along * across)
    if load.case.limit == "rated":
        if stress:
            times.append(TimesOnYield(part.name, plate.f_yf / stress))
        return []
    reason = " ".join(("in the flange", load.place)).strip()
    return [judged(part.name, NEEDED[1], load.case.name, stress, plate.f_yf, "MPa", "elastic", reason=reason)]


def _assumptions(part: Flange) -> Iterable[Assumption]:
    yield Assumption(part.name, "the flange halves named share the force equally")
    if part.steel.assumed:
        yield Assumption(part.name, f"steel unknown, taken as {part.steel.name}", part.steel.condition)


def _refuse_contradictions(part: Flange, loads: Sequence[FlangeLoad]) -> None:
    problems = []
    for load in loads:
        if not load.lever >= 0 or not load.along >= 0:
            problems.append(
                Problem("lever", f"{load.lever:g} mm", "is no place on a flange", "0 or more", part=part.name)
            )
        if load.sides < 1:
            problems.append(
                Problem("sides", f"{load.sides}", "is no number of flange halves", "1 or more", part=part.name)
            )
    if problems:
        raise InputError(problems)
