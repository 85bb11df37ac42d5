"""The wall of a square or rectangular tube behind an end plate, and its side walls.

The face is judged by yield lines, alone under the rows and alone under the pressed flange: with half a width of tube
between the two they hardly meet, and rows nearer than that bear no moment. Ranges are those of EN 1993-1-8 section 7.
"""

import math
from functools import cache

from structcheck.analysis.plate import SIDES, Patch, Plate, solve_plate
from structcheck.checks.basis import Basis
from structcheck.checks.end_plate_part import EndPlate, EndPlateLoads, Support
from structcheck.checks.end_plate_rows import AtLimit, Bearing, Force, one_bolt, pulls
from structcheck.checks.tube_face import (
    CURVE_A,
    CURVE_C,
    FLATTEST,
    GAMMA_M5,
    NARROWEST,
    SLENDEREST,
    STRONGEST,
    THINNEST,
    E,
)
from structcheck.errors import NotCovered
from structcheck.record import record
from structcheck.standards import handbook_plates
from structcheck.standards.en1993_1_8 import bolts as bolt_clause
from structcheck.standards.en1993_1_8 import column, hollow

WIDEST, NEAREST = 0.85, 0.5
"""Width of the bolts over the face; clear height between rows and pressed flange over the face."""
UNPRESSED = "`behind_stress` is not stated: how hard the tube is pressed along the face bolted to"


@record
class Face:
    """The face bolted to: width b, depth h behind it, wall t, strength."""

    b: float
    h: float
    t: float
    f_y: float
    f_u: float


def on_face(part: EndPlate, state: AtLimit, basis: Basis) -> Bearing:
    """The tube's wall pulled by the rows and pressed by the beam's flange. Raises NotCovered outside its ranges."""
    face = face_of(part)
    return Bearing(
        (lambda first, last: _pulled(part, face, first, last, state, basis),),
        ((_pressed(part, face, state), "tube's face pressed by the beam's flange"),),
        lowest=part.flange + NEAREST * face.b,
    )


def on_walls(part: EndPlate, state: AtLimit, basis: Basis) -> Bearing:
    """The side walls: pulled or pressed along the rows, pressed under the flange, sheared as a panel."""
    face = face_of(part)
    A_v = float(part.support.section.shape.shear_area("y" if part.support.turned else "z", basis.eta))
    panel = column.panel_shear_resistance(face.f_y, A_v, basis.gamma_M0), "tube's side walls in shear"
    return Bearing(
        (lambda first, last: _walls_at_rows(part, face, first, last, state),),
        ((_crushed(part, face, state, _flange(part)[0]), "tube's side walls, pressed"), panel),
        (panel,),
    )


def face_of(part: EndPlate) -> Face:
    """The face, where section 7 knows it and the rows stand well on it. Raises NotCovered."""
    behind = part.support
    shape = behind.section.shape
    b, h = (float(shape.h), float(shape.b)) if behind.turned else (float(shape.b), float(shape.h))
    t = float(shape.t)
    name, steel = behind.section.designation, behind.steel
    if steel.imperial or not steel.in_en1993:
        raise NotCovered(f"{steel.name} has no rules for a tube's wall in EN 1993-1-8 section 7")
    f_y, f_u = steel.strengths(t)
    if t < THINNEST or f_y > STRONGEST or max(h, b) / t > SLENDEREST or max(h, b) / min(h, b) > FLATTEST:
        raise NotCovered(f"{name} is outside EN 1993-1-8 Table 7.8, within which a tube's wall is judged")
    if not NARROWEST <= part.gauge / b <= WIDEST:
        raise NotCovered(
            f"bolts {part.gauge:g} mm apart on a face {b:g} mm wide: judged from {NARROWEST:g} to {WIDEST:g} of it"
        )
    _refuse_places(part, behind, b)
    return Face(b, h, t, f_y, f_u)


def _refuse_places(part: EndPlate, behind: Support, b: float) -> None:
    if behind.past is None or behind.capped:
        return
    rows, pressed = min(part.ends), (part.past or 0.0) + behind.past
    if min(rows, pressed) < b:
        raise NotCovered(f"the tube ends within {b:g} mm of rows or flange, and is not said to be capped")


def _pulled(part: EndPlate, face: Face, first: int, last: int, state: AtLimit, basis: Basis) -> Force:
    heights, rows = part.heights, last - first + 1
    eta, beta = (heights[first] - heights[last]) / face.b, part.gauge / face.b
    k_n = hollow.chord_stress_factor(state.pressed, beta)
    k = hollow.small_group_factor(eta, beta)
    punched = bolt_clause.punching_resistance(part.size.d_m, face.t, face.f_u, basis.gamma_M2)
    return min(
        (hollow.face_of_bolts(k, k_n, face.f_y, face.t, eta, beta, GAMMA_M5), "the tube's face yields"),
        (hollow.face_at_single_bolts(2.0 * rows, k_n, face.f_y, face.t, GAMMA_M5), "the face yields at each bolt"),
        (2 * rows * punched, "a bolt is pulled through the tube's wall"),
        (2 * rows * one_bolt(part, basis), "bolts fail"),
    )


def _flange(part: EndPlate) -> tuple[float, float]:
    """Height and width of what presses: the beam's flange spread at 1:1 through the plate, no further than it goes."""
    leg = part.flange_throat * math.sqrt(2)
    spread = leg + part.plate
    return part.flange + spread + min(spread, part.past or 0.0), min(part.flange_width + 2 * part.plate, part.width)


def _pressed(part: EndPlate, face: Face, state: AtLimit) -> float:
    """Face under the flange; between 0.85 of the face and all of it a straight line to the side walls (Table 7.11)."""
    high, wide = _flange(part)
    beta = min(wide / face.b, 1.0)
    if beta < NARROWEST:
        raise NotCovered(f"the beam's flange is narrower than {NARROWEST:g} of the tube's face")
    k_n = hollow.chord_stress_factor(state.pressed, beta)
    bent = hollow.face_of_bolts(1.0, k_n, face.f_y, face.t, high / face.b, min(beta, WIDEST), GAMMA_M5)
    if beta <= WIDEST:
        return bent
    walls = _crushed(part, face, state, high)
    return min(bent, walls) + max(walls - bent, 0.0) * (beta - WIDEST) / (1 - WIDEST)


def _crushed(part: EndPlate, face: Face, state: AtLimit, high: float) -> float:
    """Side walls pressed over this height, with what buckling leaves of them."""
    alpha = CURVE_A if part.support.section.route == "hot finished" else CURVE_C
    chi = hollow.side_wall_buckling_factor(hollow.side_wall_slenderness(face.h, face.t, E, face.f_y), alpha)
    k_n = hollow.chord_stress_factor(state.pressed, 1.0)
    return hollow.side_wall_failure(k_n, chi * face.f_y, face.t, high, GAMMA_M5)


def _walls_at_rows(part: EndPlate, face: Face, first: int, last: int, state: AtLimit) -> Force:
    """Side walls along the rows: pulled, or pressed from the far wall by bolts that run through both."""
    high = part.heights[first] - part.heights[last]
    if part.support.through:
        return _crushed(part, face, state, high), "tube's side walls, pressed by the rows from the far wall"
    k_n = hollow.chord_stress_factor(state.pressed, 1.0)
    return hollow.side_wall_failure(k_n, face.f_y, face.t, high, GAMMA_M5), "tube's side walls, pulled"


# ---- elastic --------------------------------------------------------------------------------


def elastic_share(part: EndPlate, load: EndPlateLoads) -> float:
    """Elastic stress of the face over its yield strength: a plate pinned on the side walls, under bolts and flange.

    It yields at the bolts' heads long before its yield lines form, so that two thirds of them are no elastic limit.
    """
    face = face_of(part)
    if load.pressed is None:
        raise NotCovered(UNPRESSED)
    rows = pulls(part, load)
    with_moment = pulls(part, EndPlateLoads(load.case, moment=load.moment)) if load.moment else [0.0] * len(rows)
    bent = 0.0
    if load.moment:
        # In shares of all that is pressed, so that one solution serves every case.
        pressed = 2 * sum(with_moment)
        shares = tuple(force / pressed for force in with_moment)
        bent += pressed * _greatest(face, part, shares, 1.0)
    if load.pull:
        bent += load.pull * _greatest(face, part, (0.5 / len(rows),) * len(rows), 0.0)
    return (handbook_plates.bending_stress(bent, face.t) + load.pressed) / face.f_y


def _greatest(face: Face, part: EndPlate, shares: tuple[float, ...], pressed: float) -> float:
    """Greatest moment per length for these forces on one bolt of each row and this one under the flange."""
    clear, head = face.b - face.t, part.size.d_m
    low = -(part.past or 0.0) - 2 * clear
    length = part.top + 2 * clear - low
    patches = [
        (force, row - low, (clear + side * part.gauge) / 2, head, head)
        for force, row in zip(shares, part.heights, strict=True)
        for side in (-1, 1)
        if force
    ]
    high, wide = _flange(part)
    if pressed and wide < clear:
        patches += [(-pressed / 2, part.centre - low, (clear + side * wide) / 2, high, 0.0) for side in (-1, 1)]
    return _solved(clear, length, face.t, tuple(patches))


@cache
def _solved(clear: float, length: float, t: float, patches: tuple[tuple[float, ...], ...]) -> float:
    plate = Plate(length, clear, t, dict.fromkeys(SIDES, "simple"))
    return solve_plate(plate, [Patch(*patch) for patch in patches]).greatest_moment
