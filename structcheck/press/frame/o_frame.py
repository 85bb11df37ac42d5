"""An O-frame cut from plate: a ring with rigid corners, and every inner corner as a curved bar."""

from dataclasses import replace

import numpy as np

from structcheck.findings import Assumption
from structcheck.press.frame.given import Given
from structcheck.press.frame.off_centre import offsets
from structcheck.press.frame.own_weight import raised
from structcheck.press.frame.plates import (
    CornerCase,
    Corners,
    corner_outcome,
    jack_or_error,
    opened,
    plate_table,
    ring_cuts,
    section_of,
)
from structcheck.press.frame.ringed import answer_ring
from structcheck.press.frame.solving import Ringed
from structcheck.press.frame.understood import Part, Ring, part_of
from structcheck.press.frame.words import FrameAnswer
from structcheck.press.frame_schema import CORNERS, FrameTables, PlateFrame

N, V, TWIST, M, ACROSS = 0, 2, 3, 4, 5


def solved_o(given: Given) -> tuple[FrameAnswer, Ringed, Corners]:
    """The demands of an O-frame, and the solved ring with its corners for those who draw them. Raises InputError."""
    tables, basis = given.tables, given.basis
    plate = plate_table(tables, "window")
    shape = _ring(tables, plate, opened(tables))
    jack_or_error(given.jack, plate, shape.opening)
    off = offsets(given.jack, tables.frame, shape.span)
    over = {"head": 0.0, "bed": 0.0}
    answer, found = answer_ring(shape, given, off, over)
    levels = raised(found.levels, found.own.share)
    corners = Corners(plate, tuple(_corners(plate, found)), levels)
    outcome = answer.outcome + corner_outcome(plate, corners.cases, levels, basis)
    return replace(answer, outcome=outcome), found, corners


def _ring(tables: FrameTables, plate: PlateFrame, opening: float) -> Ring:
    def part(name: str, depth: float) -> Part:
        return part_of(name, section_of(plate, depth), plate.pieces, False, plate.steel)

    text = "O-frame: rigid corners of one plate; members run along their centre-lines"
    return Ring(
        head=part("head", plate.upper),
        bed=part("bed", plate.lower),
        upright=part("uprights", plate.back),
        span=plate.window + plate.back,
        height=opening + (plate.upper + plate.lower) / 2,
        opening=opening,
        corners=dict.fromkeys(CORNERS, "rigid"),
        planes=tables.frame.planes,
        spacing=tables.frame.spacing or 0.0,
        one_piece=True,
        assumptions=(Assumption("frame", text),),
    )


def _corners(plate: PlateFrame, found: Ringed) -> list[CornerCase]:
    """The four corners in every position. The sides' moment is positive with tension outside, the head's below."""
    shape, lines, factors = found.ring, found.base.lines, found.factors
    cases = []
    for beam, arm, opens in (("head", plate.upper, 1.0), ("bed", plate.lower, -1.0)):
        for side in ("left", "right"):
            along = plate.back / 2 + plate.radius
            x = along if side == "left" else shape.span - along
            up = arm / 2 + plate.radius
            z = up if beam == "bed" else shape.height - up
            upright = lines.at(f"{side} upright", z) @ factors
            across = lines.at(beam, x) @ factors
            side_rows = np.stack([upright[N], upright[V], -upright[M], upright[ACROSS], upright[TWIST]])
            beam_rows = np.stack([across[N], across[V], opens * across[M], across[ACROSS], across[TWIST]])
            for number, combination in enumerate(found.combined):
                cuts = ring_cuts(plate, arm, side_rows[:, number], beam_rows[:, number])
                cases.append(CornerCase(f"{beam}/{side} corner", combination, cuts))
    return cases
