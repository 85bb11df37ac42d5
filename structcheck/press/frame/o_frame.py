"""An O-frame cut from plate: a ring with rigid corners, and every inner corner as a curved bar.

A corner is a block as deep as beam and side: less of them bends than their centre-lines are long, which hands corners
and sides more moment. So each takes the worse of two rings, one flexible to where the members meet and one rigid within
their depth; what plane stress elements find beyond both is put on the corners.
"""

from dataclasses import replace
from functools import partial

import numpy as np

from structcheck.errors import InputError
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
from structcheck.press.frame.ringed import answer_ring, stations_of
from structcheck.press.frame.solving import Ringed
from structcheck.press.frame.understood import Part, Ring, part_of, standing_faults
from structcheck.press.frame.words import FrameAnswer
from structcheck.press.frame_schema import CORNERS, FrameTables, PlateFrame

N, V, TWIST, M, ACROSS = 0, 2, 3, 4, 5
BEYOND = 1.11
"""Stress of plane stress elements at the inner edge over that of both rings: 1.11 at most in ten frames (derived)."""


def solved_o(given: Given) -> tuple[FrameAnswer, Ringed, Corners]:
    """The demands of an O-frame, and the solved ring with its corners for those who draw them. Raises InputError."""
    tables, basis = given.tables, given.basis
    plate = plate_table(tables, "window")
    shape = _ring(tables, plate, opened(tables))
    jack_or_error(given.jack, plate, shape.opening)
    if faults := list(standing_faults(tables.frame, given.jack, shape.span)):
        raise InputError(faults)
    off = offsets(given.jack, tables.frame, shape.span)
    over = {"head": 0.0, "bed": 0.0}
    answer, found = answer_ring(shape, given, off, over)
    stiffer, stiff = stations_of(replace(shape, rigid_zones=True), given, off, over)
    levels = raised(found.levels, max(found.own.share, stiff.own.share))
    # Half way round is inside the rigid block: what the sides hand on is no cut of that ring.
    ends = (replace(case, cuts=case.cuts[::2]) for case in _corners_once(plate, stiff))
    corners = Corners(plate, (*_corners_once(plate, found), *ends), levels)
    outcome = answer.outcome + corner_outcome(plate, corners.cases, levels, basis)
    stations = {name: (*rows, *stiffer[name]) for name, rows in answer.stations.items()}
    return replace(answer, stations=stations, outcome=outcome), found, corners


def _ring(tables: FrameTables, plate: PlateFrame, opening: float) -> Ring:
    def part(name: str, depth: float) -> Part:
        return part_of(name, section_of(plate, depth), plate.pieces, False, plate.steel)

    text = (
        "O-frame: rigid corners of one plate; members and corners take the worse of two rings, flexible to where the "
        f"centre-lines meet and rigid within the depth of the other member, corners {BEYOND - 1:.0%} more"
    )
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


def _corners_once(plate: PlateFrame, found: Ringed) -> list[CornerCase]:
    asked = "corners", plate.back, plate.upper, plate.lower, plate.radius
    return found.once(asked, partial(_corners, plate, found))


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
            side_rows = BEYOND * np.stack([upright[N], upright[V], -upright[M], upright[ACROSS], upright[TWIST]])
            beam_rows = BEYOND * np.stack([across[N], across[V], opens * across[M], across[ACROSS], across[TWIST]])
            for number, combination in enumerate(found.combined):
                cuts = ring_cuts(plate, arm, side_rows[:, number], beam_rows[:, number])
                cases.append(CornerCase(f"{beam}/{side} corner", combination, cuts))
    return cases
