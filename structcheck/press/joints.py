"""Joints and the platen of a described frame: they take their forces from the place where they stand.

A joint at several places is one part: each of its checks is judged at the place and in the case that governs.
"""

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import product
from typing import Any

import numpy as np

from structcheck.checks.bolts import check_bolts
from structcheck.checks.bolts_group import BoltGroup, BoltLoads
from structcheck.checks.pin import NEEDED as PIN_NEEDS
from structcheck.checks.pin import PinLoads, check_pin
from structcheck.checks.platen import NEEDED as PLATEN_NEEDS
from structcheck.checks.platen import Platen, PlatenLoads, check_platen
from structcheck.findings import Assumption, Outcome, not_checked
from structcheck.press import schema
from structcheck.press.bolt_seats import seated
from structcheck.press.bolt_spans import spanned
from structcheck.press.end_plates import welds_unsaid
from structcheck.press.frame.demands import EndForces, FrameAnswer
from structcheck.press.joint_tables import none_checked
from structcheck.press.lapped import companions_of, off_line, off_line_said, other_plates, planes_met
from structcheck.press.meetings import both_ways, corners_of, ends_at, to_figures
from structcheck.press.open_gaps import filled
from structcheck.press.parts import Setting, bolt_group, pin_of, platen_of
from structcheck.press.pin_seats import apart_along, held_corners, seated_pin
from structcheck.press.placed_joints import CARRYING_KINDS, PLACED_KINDS, alone, carries
from structcheck.press.placed_welds import placed_weld


def _ends(table: schema.Placed, answer: FrameAnswer) -> list[EndForces]:
    """The forces of every place, in the frame's axes."""
    return ends_at(table, answer, face=table.joint == "end plate")


def placed_bolts(table: schema.BoltsTable, answer: FrameAnswer, setting: Setting) -> Outcome:
    """Bolts at corners: through faces in the frame's plane (a lap), or through an end plate across the beam."""
    companions = companions_of(table, setting)
    off = off_line(table, answer, setting, companions)
    group, seat = seated(table, bolt_group(table, setting), answer, setting)
    group, span = spanned(table, group, answer)
    lever = lever_across(group)
    loads = _acting(table, answer, off, lever)
    outcome = check_bolts(group, loads, setting.basis) + seat + span + other_plates(table, companions)
    outcome += planes_met(table, answer, companions) + off_line_said(table, off)
    if table.joint == "end plate":
        outcome += welds_unsaid(table, setting, f"the welds of the plate of {table.name} carry what its bolts do")
    if _between_plates(table):
        text = "what pushes the joint sideways is taken by contact: the middle plates fill the gap of the outer ones"
        if lever:
            text = (
                f"what twists the joint pulls one of the outer plates harder, on a lever of {lever:.4g} mm: judged as "
            )
            text += "if both were; what pushes it along the bolts, their heads and nuts take"
        outcome += Outcome(assumptions=(Assumption(table.name, text),))
        if not any(one.gusset or one.sleeve for one in (table, *companions)):
            stated = 2 * ((group.gap or 0.0) + (table.packing or 0.0))
            outcome += filled(table.name, table.at or (), answer, stated)
    return outcome


def _acting(table: schema.BoltsTable, answer: FrameAnswer, off: tuple[float, float], lever: float) -> list[BoltLoads]:
    """The loads that are not alike; two plates of one lap ask for the same ones."""
    apart = table.layout is not None or table.far_edge is not None
    ways = table.joint, _between_plates(table), _lopsided(table), apart
    asked = "bolt loads", table.at, *ways, table.eccentricity, *off, lever
    if asked not in answer.memo:
        loads = bolt_loads(table, answer, off, lever)
        answer.memo[asked] = _unlike(loads, mirrored=not apart and not table.eccentricity)
    return answer.memo[asked]


def _between_plates(table: schema.BoltsTable) -> bool:
    """A tongue between two plates: it cannot lift off, so its bolts are not pulled."""
    return table.joint == "lap" and table.planes >= 2


def _unlike(loads: list[BoltLoads], *, mirrored: bool) -> list[BoltLoads]:
    """One of every set of equal loads; `mirrored`: or of each other's mirror images, alike for rows and columns."""
    rows = []
    for load in loads:
        flip = math.copysign(1.0, load.twist or load.across or load.bend_x or 1.0) if mirrored else 1.0
        sides = (load.across * flip, load.twist * flip, load.bend_x * flip)
        rows.append((load.shear, load.eccentricity, load.tension, load.bend_y, *sides))
    kept: dict[tuple[object, ...], BoltLoads] = {}
    for load, row in zip(loads, to_figures(np.array(rows), 6).tolist(), strict=True):
        kept.setdefault((load.case.limit, *row), load)
    return list(kept.values())


def bolt_loads(
    table: schema.BoltsTable, answer: FrameAnswer, off: tuple[float, float], lever: float = 0.0
) -> list[BoltLoads]:
    """What the bolts carry at each of their places, in every case.

    off    how far they stand off the middle of the upright and of the beam, to a side that is not told
    lever  of `lever_across`
    """
    beside = max(abs(table.eccentricity), off[0])
    words = _through_end_plate if table.joint == "end plate" else _tongue if _between_plates(table) else _through_lap
    stands_for = corners_of if _lopsided(table) else both_ways
    rows = _ends(table, answer)
    if words is _tongue:  # what acts across it is taken by contact, so that its sides say nothing
        rows = [side for row in rows for side in _outer_sides(row, lever)]
    loads = [words(end, beside) for row in rows for end in stands_for(row)]
    if beside:  # which side of the group it lies at each corner is not told: it must not relieve
        loads += [load._replace(eccentricity=-load.eccentricity) for load in loads]
    if off[1]:
        loads = [load._replace(twist=load.twist + load.across * way) for load in loads for way in (off[1], -off[1])]
    if table.layout is not None or table.far_edge is not None:  # they stand mirrored on the other side of the frame
        loads = [turned for load in loads for turned in _mirrored(load)]
    return loads


def lever_across(group: BoltGroup) -> float:
    """Between the outer plates of bolts that span open gaps, mm; none where the plates touch, or on one side alone."""
    if not group.gap or group.planes < 2:
        return 0.0
    outer = group.ply if group.outer is None else group.outer
    return (group.inner or 0.0) + (group.hollow or 0.0) + 2 * group.gap + (outer or 0.0)


def _outer_sides(end: EndForces, lever: float) -> Iterator[EndForces]:
    """Twice what either outer plate takes; without open gaps both take the same."""
    vertical, sideways = (2 * moment / lever if lever else 0.0 for moment in (end.T, end.M_z))
    for up, out in product(_ways(vertical), _ways(sideways)):
        yield EndForces(end.case, end.N + out, 0.0, end.V_z + up, 0.0, end.M_y, 0.0, end.pressed)


def _ways(size: float) -> tuple[float, ...]:
    return (size, -size) if size else (0.0,)


def _lopsided(table: schema.BoltsTable) -> bool:
    """Bolts or ends of the plate that are not the same from both sides, up and down."""
    if table.far_end not in (None, table.end) or table.far_edge not in (None, table.edge):
        return True
    if table.layout is None:
        return False
    spots = np.array(table.layout, dtype=float)
    spots = spots - spots.mean(axis=0)
    alike = {tuple(np.round(spot, 3) + 0.0) for spot in spots}
    return any({tuple(np.round(spot * way, 3) + 0.0) for spot in spots} != alike for way in ((-1, 1), (1, -1)))


def _mirrored(load: BoltLoads) -> Iterator[BoltLoads]:
    for side, x, y in product((1.0, -1.0), repeat=3):
        yield load._replace(
            across=load.across * side,
            twist=load.twist * side,
            eccentricity=load.eccentricity * side,
            bend_x=load.bend_x * x,
            bend_y=load.bend_y * y,
        )


def _through_lap(end: EndForces, eccentricity: float) -> BoltLoads:
    """Axes of the bolts: y along the upright towards the loaded end, x along the beam."""
    turn = math.copysign(1.0, end.V_z)
    return BoltLoads(
        end.case,
        shear=abs(end.V_z),
        eccentricity=eccentricity,
        tension=abs(end.V_y),
        across=end.N * turn,
        twist=end.M_y * turn,
        bend_x=end.M_z,
        bend_y=end.T,
    )


def _tongue(end: EndForces, eccentricity: float) -> BoltLoads:
    """A lap between two plates: what would pull on its bolts is taken by contact."""
    turn = math.copysign(1.0, end.V_z)
    return BoltLoads(end.case, abs(end.V_z), eccentricity, across=end.N * turn, twist=end.M_y * turn)


def _through_end_plate(end: EndForces, eccentricity: float) -> BoltLoads:
    """Axes of the bolts: y along the upright, x across the frame; a beam pressed on bears without its bolts."""
    turn = math.copysign(1.0, end.V_z)
    return BoltLoads(
        end.case,
        shear=abs(end.V_z),
        eccentricity=eccentricity,
        tension=max(end.N, 0.0),
        across=end.V_y * turn,
        twist=end.T * turn,
        bend_x=end.M_z,
        bend_y=end.M_y,
    )


def placed_pin(table: schema.PinTable, answer: FrameAnswer, setting: Setting) -> Outcome:
    """A pin across the frame: the resultant of the forces in the plane; it turns, and holds no moment there."""
    pin, found = seated_pin(table, pin_of(table, setting), answer, setting)
    ends = _ends(table, answer)
    held = held_corners(table, setting.press) if setting.press and carries(ends, "M_y") else []
    if held:
        place, remedy = held[0]
        reason = f"a pin turns, and the frame takes {place} to hold a moment in its plane: {remedy}"
        return none_checked(table.name, PIN_NEEDS, reason)
    if carries(ends, "V_y", "T", "M_z"):
        text = (
            "what twists the joint across the frame pulls one side of the pin harder, on a lever of "
            f"{apart_along(table, answer):.4g} mm: judged as if both were; its retention takes what pushes along it"
        )
        found += Outcome(assumptions=(Assumption(table.name, text),))
    if table.gap is not None:
        found += filled(table.name, table.at or (), answer, 2 * table.gap)
    return check_pin(pin, pin_pulls(table, answer), setting.basis) + found


def pin_pulls(table: schema.PinTable, answer: FrameAnswer) -> list[PinLoads]:
    """What the pin carries at each of its places, in every case: twice what its harder pulled side does."""
    apart = apart_along(table, answer)
    return [
        PinLoads(end.case, math.hypot(abs(end.N) + 2 * abs(end.M_z) / apart, abs(end.V_z) + 2 * abs(end.T) / apart))
        for end in _ends(table, answer)
    ]


def placed_platen(table: schema.PlatenTable, answer: FrameAnswer, setting: Setting) -> Outcome:
    """The platen under the force of the jack, in the middle and off it.

    On bearers its length runs from one frame to the next, else along the beams. A force off the middle presses a
    patch cut back about it, so that the patch stays on the plate.
    """
    platen = platen_at(table, setting)
    if platen.bearers is None and platen.pushed is None:
        reason = "what pushes on its other face is not stated: [jack] saddle, or `pushed`"
        return Outcome(tuple(not_checked(table.name, check, reason) for check in PLATEN_NEEDS))
    if platen.bearers is None and setting.press.jack.count > 1 and not _saddles(setting):
        reason = "several jacks push on it and where is not known here: ask for it alone, or state what it lies on"
        return Outcome(tuple(not_checked(table.name, check, reason) for check in PLATEN_NEEDS))
    loads = platen_pressed(table, answer, setting)
    if any(abs(x) > table.length / 2 or abs(y) > table.width / 2 for load in loads for x, y in load.saddles):
        reason = "a jack stands beside it: a larger one, or bearers where it lies on some"
        return Outcome(tuple(not_checked(table.name, check, reason) for check in PLATEN_NEEDS))
    if any(size is not None and size <= 0 for load in loads for size in (load.along, load.across)):
        reason = "where the force is off centre it stands off the platen: a larger one, or a smaller offset stated"
        return Outcome(tuple(not_checked(table.name, check, reason) for check in PLATEN_NEEDS))
    return check_platen(platen, loads, setting.basis)


def platen_at(table: schema.PlatenTable, setting: Setting) -> Platen:
    """The platen between jack and work; where it lies on nothing, the jack's saddle pushes on it."""
    platen = platen_of(table, setting)
    if platen.bearers is None and platen.pushed is None and setting.press:
        return replace(platen, pushed=setting.press.jack.saddle)
    return platen


def platen_pressed(table: schema.PlatenTable, answer: FrameAnswer, setting: Setting) -> list[PlatenLoads]:
    """The jack's force on the platen, in the middle and off it, in every case.

    Of several jacks one may push in the middle with all of it, which a wide patch bends more, or all where they stand,
    between which a small patch bends it.
    """
    loads = []
    pushed = (((0.0, 0.0),), *([_saddles(setting)] if _saddles(setting) and not table.bearers else []))
    for p in answer.forces["platen"]:
        far, aside = (p.offset_across, p.offset) if table.bearers else (p.offset, p.offset_across)
        along = _within(table.along, table.length, far)
        across = _within(table.across, table.width, aside)
        at = table.length / 2 + far
        loads += [PlatenLoads(p.case, p.force, along, across, table.shape, at, aside, saddles) for saddles in pushed]
    return loads


def _saddles(setting: Setting) -> tuple[tuple[float, float], ...]:
    """Where several jacks push on a platen, from its middle: beside each other, or one in each plane."""
    frame, jack = setting.press.frame, setting.press.jack
    if frame.jacks and len(frame.jacks) > 1:
        return tuple((x, 0.0) for x in frame.jacks)
    if jack.count == frame.planes > 1 and frame.spacing:
        return tuple((0.0, (i - (jack.count - 1) / 2) * frame.spacing) for i in range(jack.count))
    return ()


def _within(patch: float | None, size: float, offset: float) -> float | None:
    """The size of a patch that stays on the plate when it stands off the middle."""
    if patch is None and not offset:
        return None
    return min(patch or size, size - 2 * abs(offset))


PLACED: dict[str, Callable[[Any, FrameAnswer, Setting], Outcome]] = {
    "bolts": alone("bolts", placed_bolts),
    "weld": alone("weld", placed_weld),
    "pin": alone("pin", placed_pin),
    **PLACED_KINDS,
}
"""Kinds of part that can stand at a place of the frame."""

JOINTS = ("bolts", "weld", "pin", *CARRYING_KINDS)
"""Those that join what meets there."""
