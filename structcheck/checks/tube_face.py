"""The face of a square or rectangular tube under a saddle, a pad or a plate, and the side walls behind it.

A stiff pad is taken as a stub welded to the tube: EN 1993-1-8 section 7, Table 7.11. A pad narrower than the face bends
the face; a plate that reaches both side walls may carry the force to them in bending, past the face.
"""

import math
from collections.abc import Iterable, Sequence
from typing import Literal, NamedTuple

from structcheck.analysis.plate import SIDES, Patch, Plate, solve_plate
from structcheck.checks.basis import Basis, Case
from structcheck.checks.spreader import Spreader, SpreaderLoads, unit_moments
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import (
    Assumption,
    Finding,
    Outcome,
    TimesOnYield,
    complete,
    judged,
    not_checked,
    worst,
)
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.shapes.hollow import Hollow
from structcheck.shapes.section import Section
from structcheck.standards import handbook_plates as plates
from structcheck.standards.en1993_1_8 import hollow

NEEDED = ("tube face", "yield at greatest force")
SOURCE = "EN 1993-1-8:2005 Table 7.11, a stiff pad as a stub"
E = 210_000.0
GAMMA_M5 = 1.0
CURVE_A, CURVE_C = 0.21, 0.49
THINNEST, SLENDEREST, FLATTEST, NARROWEST, STRONGEST = 2.5, 35.0, 2.0, 0.25, 460.0
"""Table 7.8 and 7.1.1: wall, width over wall, ratio of the sides, pad over face, yield strength."""


@record
class TubeFace:
    """A tube, or tubes side by side, pressed on the face across `section`'s depth.

    gap  clear distance between two tubes side by side, mm; the plate then presses their inner walls
    """

    name: str
    section: Section
    steel: Steel
    pieces: int = 1
    gap: float | None = None


@record
class TubeFaceLoad:
    """A force on the face, on all pieces together.

    force         N
    along         pad along the tube, mm, or the diameter of a round saddle
    across        pad across the face, mm; None: round
    plate         thickness of the plate between pad and face, mm; 0: none
    plate_along, plate_across, plate_steel  of that plate
    kind          "interior", or "opposite": pressed from both faces at one place
    to_end        from the end of the contact to the open end of the tube, mm; None: far
    M             bending moment alongside, all pieces, N mm
    flange        the face is in "compression" or "tension" by M
    """

    case: Case
    force: float
    along: float
    across: float | None = None
    plate: float = 0.0
    plate_along: float | None = None
    plate_across: float | None = None
    plate_steel: Steel | None = None
    kind: Literal["interior", "opposite"] = "interior"
    to_end: float | None = None
    M: float = 0.0
    flange: Literal["compression", "tension"] = "compression"
    place: str = ""


class Stub(NamedTuple):
    """The stiff pad on the face: along and across, mm; whether round."""

    h_1: float
    b_1: float
    round: bool


def check_tube_face(part: TubeFace, loads: Sequence[TubeFaceLoad], basis: Basis) -> Outcome:
    """Face, punching and side walls at ultimate force, elastic stress at the greatest, times on yield at rated."""
    _refuse_contradictions(part, loads)
    findings: list[Finding] = []
    times: list[TimesOnYield] = []
    for load in loads:
        check = NEEDED[0] if load.case.limit == "ultimate" else NEEDED[1]
        try:
            _refuse_uncovered(part, load)
            found = _strength(part, load, basis) if check == NEEDED[0] else _elastic(part, load, times)
            findings += [found] if found else []
        except NotCovered as reason:
            if load.case.limit != "rated":
                findings.append(not_checked(part.name, check, str(reason), case=load.case.name))
    chosen = tuple(
        worst(f for f in findings if f.check == check) for check in NEEDED if any(f.check == check for f in findings)
    )
    least = min(times, key=lambda t: t.value, default=None)
    outcome = Outcome(chosen, (), tuple(_assumptions(part, loads)), (least,) if least else ())
    return complete(outcome, part.name, NEEDED, "no force was given for it")


# ---- resistance -----------------------------------------------------------------------------


def _strength(part: TubeFace, load: TubeFaceLoad, basis: Basis) -> Finding:
    ways: list[tuple[float, str]] = []
    refused: list[NotCovered] = []
    for way in (_face_way, _bridge_way):
        try:
            ways.append(way(part, load, basis))
        except NotCovered as reason:
            refused.append(reason)
    if not ways:
        raise refused[0]
    capacity, how = max(ways)
    reason = "; ".join(word for word in (how, load.place) if word)
    return judged(part.name, NEEDED[0], load.case.name, load.force, capacity, "kN", SOURCE, reason=reason)


def _face_way(part: TubeFace, load: TubeFaceLoad, basis: Basis) -> tuple[float, str]:
    """All through the face under the pad; the plate only spreads it at 1:1. Resistance of one tube, one piece."""
    if part.pieces > 1:
        raise NotCovered("two tubes carry one force: a plate that reaches over both must carry it to their walls")
    shape, f_y = _tube(part)
    stub = _stub(load, shape.b)
    beta, eta = stub.b_1 / shape.b, stub.h_1 / shape.b
    if beta < NARROWEST:
        raise NotCovered(f"the pad is narrower than {NARROWEST:g} of the face (EN 1993-1-8 Table 7.8)")
    if beta >= 1 - 1e-9:
        return _loaded(part, load, beta, _side_walls(part, load, stub)), "side walls"
    if load.to_end is not None and load.to_end < shape.b:
        raise NotCovered("a pad narrower than the face beside an open end is not in EN 1993-1-8 section 7")
    shrink = math.pi / 4 if stub.round else 1.0
    low = min(beta, 0.85)
    face = _loaded(
        part, load, beta, lambda k_n: shrink * hollow.face_failure(k_n, f_y, shape.t, eta, low, GAMMA_M5)
    )  # fmt: skip
    if beta > 0.85:
        # Table 7.11: straight line from the face at 0.85 to the side walls at 1.
        walls = _loaded(part, load, beta, _side_walls(part, load, stub))
        face += (walls - face) * (beta - 0.85) / 0.15
    b_e_p = hollow.punching_width(shape.b, shape.t, stub.b_1)
    punched = shrink * hollow.punching_shear(f_y, shape.t, stub.h_1, b_e_p, GAMMA_M5)
    return min((face, "the face bends"), (punched, "the face is punched"))


def _bridge_way(part: TubeFace, load: TubeFaceLoad, basis: Basis) -> tuple[float, str]:
    """The plate in bending from side wall to side wall, and the walls under it."""
    shape, _ = _tube(part)
    walls = _wall_distance(part, shape)
    plate = _bridge(part, load, walls)
    f_y = plate.steel.f_y(plate.thickness)
    unit = unit_moments(plate, SpreaderLoads(load.case, 1.0, load.along, load.across))
    bent = plates.plastic_moment(plate.thickness, f_y, basis.gamma_M0) / unit
    stub = Stub(min(load.along + 2 * load.plate, plate.along), shape.b, False)
    # Two tubes under one plate are pressed at their inner walls: one wall of each, so two walls as in one tube.
    crushed = _loaded(part, load, 1.0, _side_walls(part, load, stub))
    return min((bent, "the plate bends between the side walls"), (crushed, "side walls"))


def _wall_distance(part: TubeFace, shape: Hollow) -> float:
    if part.pieces == 1:
        return float(shape.b - shape.t)
    if part.pieces > 2 or part.gap is None:
        raise NotCovered("the plate over several tubes: state the gap between two of them")
    return float(part.gap + shape.t)


def _bridge(part: TubeFace, load: TubeFaceLoad, walls: float) -> Spreader:
    needed = walls + float(part.section.shape.t)
    if not load.plate or load.plate_across is None or load.plate_along is None or load.plate_steel is None:
        raise NotCovered("no plate, or not all of its sizes and steel, are stated")
    if load.plate_across < needed - 1e-9:
        raise NotCovered(f"the plate does not reach over both side walls ({needed:g} mm)")
    return Spreader(part.name, 2, walls, load.plate_steel, load.plate_along, load.plate_across, load.plate)


def _side_walls(part: TubeFace, load: TubeFaceLoad, stub: Stub):
    """Resistance of the two walls as a function of k_n; an open end cuts the spread short."""
    shape, f_y = _tube(part)
    alpha = CURVE_A if part.section.route == "hot finished" else CURVE_C
    chi = hollow.side_wall_buckling_factor(hollow.side_wall_slenderness(shape.h, shape.t, E, f_y), alpha)
    f_b = chi * f_y * (0.8 if load.kind == "opposite" else 1.0)
    lost = 0.0 if load.to_end is None else max(2.5 * shape.t - load.to_end, 0.0)
    round_pad = math.pi / 4 if stub.round else 1.0  # Table 7.11, note on round braces
    walls = hollow.side_wall_failure
    return lambda k_n: round_pad * walls(k_n=k_n, f_b=f_b, t_0=shape.t, h_1=stub.h_1 - lost, gamma_M5=GAMMA_M5)


def _loaded(part: TubeFace, load: TubeFaceLoad, beta: float, resistance) -> float:
    """The force at which the resistance, cut by the bending that grows with the force, is reached."""
    _, f_y = _tube(part)
    n = abs(load.M) / part.pieces / part.section.Wel_y / f_y / GAMMA_M5
    if load.flange == "tension" or not n or not load.force:
        return resistance(1.0)
    # min(1.3 - 0.4 k n / beta, 1) R = k F: the first factor k of all actions that reaches it.
    full = resistance(1.0) / load.force
    if hollow.chord_stress_factor(full * n, beta) >= 1:
        return resistance(1.0)
    factor = 1.3 * resistance(1.0) / (load.force + 0.4 * n / beta * resistance(1.0))
    return factor * load.force


def _tube(part: TubeFace) -> tuple[Hollow, float]:
    shape = part.section.shape
    if not isinstance(shape, Hollow):
        raise NotCovered(f"only square and rectangular tubes are covered, not {part.section.designation}")
    return shape, part.steel.f_y(float(shape.t))


def _stub(load: TubeFaceLoad, b_0: float) -> Stub:
    """The pad spread at 1:1 through the plate, no further than plate and face reach."""
    rounded = load.across is None and not load.plate
    across = load.along if load.across is None else load.across
    spread = 2 * load.plate
    along, wide = load.along, across
    if load.across is None and load.plate:
        along, wide = load.along * math.sqrt(math.pi) / 2, load.along * math.sqrt(math.pi) / 2
    h_1 = min(along + spread, load.plate_along or math.inf) if load.plate else along
    b_1 = min(wide + spread, load.plate_across or math.inf) if load.plate else wide
    return Stub(h_1, min(b_1, b_0), rounded)


def _refuse_uncovered(part: TubeFace, load: TubeFaceLoad) -> None:
    shape, f_y = _tube(part)
    h, b, t = float(shape.h), float(shape.b), float(shape.t)
    if not part.steel.in_en1993:
        raise NotCovered(f"{part.steel.name} is outside EN 1993")
    if part.steel.imperial:
        raise NotCovered(f"no buckling curve of EN 1993 is known for {part.steel.name}")
    if t < THINNEST or f_y > STRONGEST:
        raise NotCovered(f"EN 1993-1-8 section 7 begins at {THINNEST:g} mm and ends at f_y = {STRONGEST:g} MPa")
    if max(h, b) / t > SLENDEREST or max(h, b) / min(h, b) > FLATTEST:
        raise NotCovered(
            f"{part.section.designation} is outside EN 1993-1-8 Table 7.8 "
            f"(sides at most {SLENDEREST:g} times the wall and {FLATTEST:g} times each other)"
        )


# ---- elastic stress -------------------------------------------------------------------------


def _elastic(part: TubeFace, load: TubeFaceLoad, times: list[TimesOnYield]) -> Finding | None:
    """The smaller of the stresses of the two ways, as each is a way the force can really go."""
    _, f_y = _tube(part)
    stresses, refused = [], []
    for way in (_face_stress, _bridge_stress):
        try:
            stresses.append(way(part, load))
        except NotCovered as reason:
            refused.append(reason)
    if not stresses:
        raise refused[0]
    # Shares of the yield strength, because plate and tube may differ in steel.
    share = min(stresses)
    if load.case.limit == "rated":
        if share:
            times.append(TimesOnYield(part.name, 1 / share))
        return None
    source = "elastic: face as a plate pinned on the side walls, or plate between them; walls at 1:1"
    return judged(part.name, NEEDED[1], load.case.name, share * f_y, f_y, "MPa", source, reason=load.place)


def _along(part: TubeFace, load: TubeFaceLoad) -> float:
    return abs(load.M) / part.pieces / part.section.Wel_y


def _face_stress(part: TubeFace, load: TubeFaceLoad) -> float:
    if part.pieces > 1:
        raise NotCovered("two tubes carry one force without a plate")
    shape, f_y = _tube(part)
    stub = _stub(load, float(shape.b))
    clear = float(shape.b - shape.t)
    walls = _wall_stress(part, load, stub)
    if stub.b_1 >= shape.b - 1e-9:
        return walls
    square = math.sqrt(math.pi) / 2 if stub.round else 1.0
    h_1, b_1 = stub.h_1 * square, min(stub.b_1 * square, clear)
    length = 4 * clear + h_1
    plate = Plate(length, clear, float(shape.t), dict.fromkeys(SIDES, "simple"))
    # A stiff pad presses hardest along its edges beside the walls.
    lines = [Patch(0.5, length / 2, (clear + side * b_1) / 2, h_1, 0.0) for side in (-1, 1)]
    m = solve_plate(plate, lines).greatest_moment
    bent = plates.bending_stress(m * load.force, float(shape.t))
    # Bending pulls one side of the wall and presses the other: one of them meets the sign of the beam's stress.
    return max((bent + _along(part, load)) / f_y, walls)


def _wall_stress(part: TubeFace, load: TubeFaceLoad, stub: Stub) -> float:
    shape, f_y = _tube(part)
    t = float(shape.t)
    end = t if load.to_end is None else min(t, load.to_end)
    across = load.force / (2 * t * (stub.h_1 + t + end))
    along = _along(part, load)
    sign = 1 if load.flange == "tension" else -1
    return math.sqrt(along**2 + across**2 + sign * along * across) / f_y


def _bridge_stress(part: TubeFace, load: TubeFaceLoad) -> float:
    shape, _ = _tube(part)
    plate = _bridge(part, load, _wall_distance(part, shape))
    unit = unit_moments(plate, SpreaderLoads(load.case, 1.0, load.along, load.across))
    bent = plates.bending_stress(unit * load.force, load.plate) / plate.steel.f_y(load.plate)
    stub = Stub(min(load.along + 2 * load.plate, plate.along), float(shape.b), False)
    return max(bent, _wall_stress(part, load, stub))


def _assumptions(part: TubeFace, loads: Sequence[TubeFaceLoad]) -> Iterable[Assumption]:
    yield Assumption(part.name, "the pad is stiff and lies flat on the face")
    if part.steel.assumed:
        yield Assumption(part.name, f"steel unknown, taken as {part.steel.name}", part.steel.condition)
    for steel in {load.plate_steel for load in loads if load.plate_steel and load.plate_steel.assumed}:
        yield Assumption(part.name, f"steel of the plate unknown, taken as {steel.name}", steel.condition)


def _refuse_contradictions(part: TubeFace, loads: Sequence[TubeFaceLoad]) -> None:
    problems = []
    for load in loads:
        for key in ("along", "across", "plate_along", "plate_across"):
            value = getattr(load, key)
            if value is not None and not value > 0:
                problems.append(Problem(key, f"{value:g} mm", "is no size", "a positive length", part=part.name))
        if not load.plate >= 0 or (load.to_end is not None and not load.to_end >= 0):
            problems.append(Problem("plate", f"{load.plate:g} mm", "is no thickness", "0 or more", part=part.name))
    if problems:
        raise InputError(problems)
