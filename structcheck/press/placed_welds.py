"""Welds at places of a described frame: the frame's forces on them, and no more run than its members have room for.

Axes: x along the beam, y across the frame, z up.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from structcheck.checks.basis import Case
from structcheck.checks.member_forms import form
from structcheck.checks.weld_butt import Butt, check_butt
from structcheck.checks.weld_cautions import cold_corner
from structcheck.checks.weld_group import GroupRun, RunGroup, RunGroupLoads, check_run_group
from structcheck.checks.weld_outline import ring_round
from structcheck.checks.weld_room import (
    Room,
    box_of,
    longer_than_outline,
    points_beyond,
    room_of,
    runs_round,
    throat_above,
    upright_runs_beyond,
    wall_at,
)
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Outcome
from structcheck.press import joint_kinds as kinds
from structcheck.press import joint_schema, schema
from structcheck.press.frame.demands import EndForces, FrameAnswer
from structcheck.press.frame.words import FramePart
from structcheck.press.meetings import Meeting, both_ways, corners_of, is_turned, meetings, to_figures
from structcheck.press.setting import Setting, steel_of
from structcheck.press.weld_backing import backing

Rooms = list[tuple[Room, Room | None]]
"""Of every pair of members that a weld joins: the beam's end, and the upright."""


def _room(part: FramePart) -> Room:
    return room_of(part.section, part.pieces, getattr(part.table, "apart", None), is_turned(part))


def _rooms(met: Sequence[Meeting]) -> Rooms:
    found = [(_room(m.beam), None if m.upright is None else _room(m.upright)) for m in met]
    return list(dict.fromkeys(found))


def _refuse(problems: Sequence[Problem]) -> None:
    """Raise InputError with each of these once; places of one joint often fail alike."""
    if problems:
        raise InputError(dict.fromkeys(problems))


def _gusset(table: Any) -> Outcome:
    """What a weld on a part of its own rests on: that part is in no table."""
    condition = f"the gusset, haunch or cleat of {table.name} is as strong as its welds"
    text = f"welded to a part beside the members, which is judged nowhere ({condition})"
    return Outcome(assumptions=(Assumption(table.name, text, condition),))


def _corners(table: Any, met: Sequence[Meeting]) -> Outcome:
    """Conditions on the cold-formed tubes that meet here: a weld at a member's end runs over or near their corners."""
    members = [part for m in met for part in (m.beam, m.upright) if part is not None]
    found = [one for part in members for one in cold_corner(table.name, part.section, table.killed)]
    return Outcome(assumptions=tuple(dict.fromkeys(found)))


# ---- upright runs -----------------------------------------------------------------------------


def placed_weld(table: schema.WeldTable, answer: FrameAnswer, setting: Setting) -> Outcome:
    """Upright runs, side by side across the frame, or one all round, under the whole force and moment of the corner.

    `eccentricity` is how far the runs stand from where the frame's force is taken: from the upright's centre-line for
    a lap, from its face for an end plate.
    """
    group = run_group(table, answer, setting)
    outcome = check_run_group(group, run_group_loads(table, answer), setting.basis)
    met = meetings(table, answer, forces=False)
    outcome += _corners(table, met)
    if (table.joint == "end plate" or table.around) and not table.gusset:
        outcome += backing(table, met, setting)
    if table.gusset:
        return outcome + _gusset(table)
    if table.thickness is None and group.thickness is not None:
        text = f"thickness not stated: {group.thickness:g} mm, the thinnest wall the frame has there"
        outcome += Outcome(assumptions=(Assumption(table.name, text),))
    if group.runs[0].sides == "one" and not table.one_sided:
        text = "each run is alone on its wall or piece: what pulls across it opens its root (4.12)"
        outcome += Outcome(assumptions=(Assumption(table.name, text),))
    return outcome


def run_group(table: schema.WeldTable, answer: FrameAnswer, setting: Setting) -> RunGroup:
    """The runs at a corner as described. Raises InputError for what the members there have no room for."""
    if table.runs > 1 and table.spacing is None:
        wanted = "the distance between neighbouring runs, across the frame"
        raise InputError(Problem("spacing", "", "is missing for runs at a corner", wanted, 'spacing = "5 mm"'))
    met = meetings(table, answer, forces=False)
    rooms = [] if table.gusset else _rooms(met)
    wall = _known_wall(table, rooms)
    thickness = table.thickness if table.thickness is not None else wall
    runs = _round(table, met, thickness) if table.around else _upright(table, rooms, thickness)
    if not table.gusset:
        _refuse(_beyond(table, rooms, runs[0].a, wall))
    side = "both" if runs[0].sides == "both" else "alone"
    key = "leg" if table.throat is None else "throat"
    steel = steel_of(table.steel, setting)
    _refuse(throat_above(key, runs[0].a, thickness, steel, table.inspected, side))
    return RunGroup(
        name=table.name,
        runs=runs,
        steel=steel,
        inspected=table.inspected,
        method=table.method,
        weldable=table.weldable,
        thickest=table.thickest,
        thickness=thickness,
        width=table.width,
        other_width=table.other_width,
        dry=table.dry,
        pulled=table.pulled,
        hollow=any(one is not None and one.hollow for pair in rooms for one in pair),
    )


def _known_wall(table: schema.WeldTable, rooms: Rooms) -> float | None:
    """The thinnest wall that upright runs stand on, of the beam and in a lap of the upright; None: not known."""
    walls = [one.wall for at, on in rooms for one in (at, on if table.joint == "lap" else None) if one is not None]
    return None if None in walls else min(walls, default=None)


def _pulled(table: schema.WeldTable, rooms: Rooms) -> float | None:
    """Thickness of what a run alone pulls on: no less than the beam's own wall, as the root's lever grows with it."""
    walls = [at.wall for at, _ in rooms if at.wall is not None]
    return max((t for t in (table.thickness, *walls) if t is not None), default=None)


def _alone(table: schema.WeldTable, rooms: Rooms) -> bool:
    """Whether runs have no partner on the other side of what they hold, so that a pull across opens their roots.

    Each wall of a tube has a run on the one side only, and one that stops short of all round is alone; so is one of
    fewer than two for each piece.
    """
    tubes = table.joint == "end plate" and any(at.hollow for at, _ in rooms)
    lap = table.joint == "lap"
    pieces = max((max(at.pieces, on.pieces if lap and on else 1) for at, on in rooms), default=1)
    return tubes or table.runs < 2 * pieces


def _upright(table: schema.WeldTable, rooms: Rooms, thickness: float | None) -> tuple[GroupRun, ...]:
    middle = (table.runs - 1) / 2
    sides = "one" if table.one_sided or _alone(table, rooms) else "both"
    pulled = _pulled(table, rooms)
    return tuple(
        GroupRun(
            start=(0.0, (i - middle) * (table.spacing or 0.0), -table.length / 2),
            end=(0.0, (i - middle) * (table.spacing or 0.0), table.length / 2),
            throat=table.throat,
            leg=table.leg,
            leg_2=table.leg_2,
            sides=sides,
            plate=thickness if sides == "both" else pulled,
            returned=table.returned,
            stretches=table.stretches or 1,
            stretch=table.stretch,
            end_stretch=table.end_stretch,
        )
        for i in range(table.runs)
    )


def _round(table: schema.WeldTable, met: Sequence[Meeting], thickness: float | None) -> tuple[GroupRun, ...]:
    """One run all round the beam's end. Raises NotCovered for a beam that is no single tube."""
    beams = {(m.beam.section, m.beam.pieces, is_turned(m.beam)): m.beam for m in met}
    if len(beams) > 1:
        raise InputError(Problem("at", ", ".join(table.at or ()), "joins different sections", "a weld for each"))
    (beam,) = beams.values()
    if beam.pieces > 1:
        raise NotCovered("a run all round each of several pieces: describe them as a weld group")
    if table.runs != 1 or table.stretch is not None or table.gusset:
        fault = "cannot stand beside runs, stretches or a gusset: it is one whole run round the beam's end"
        raise InputError(Problem("around", "true", fault, "one run", "runs = 1"))
    sizes = {"throat": table.throat, "leg": table.leg, "leg_2": table.leg_2, "plate": thickness}
    return ring_round(beam.section, is_turned(beam), sides="around", **sizes)


def _beyond(table: schema.WeldTable, rooms: Rooms, a: float, wall: float | None) -> list[Problem]:
    problems = []
    for at, on in rooms:
        if table.around:
            problems += runs_round(table.length, at)
        else:
            spread = (table.runs - 1) * (table.spacing or 0.0)
            lapped = on if table.joint == "lap" else None
            if table.joint == "end plate" or on is not None:
                problems += upright_runs_beyond(table.length, table.runs, spread, a, at, lapped)
            else:
                problems += upright_runs_beyond(table.length, 1, 0.0, a, at, None)
    if wall is not None and table.thickness is not None and table.thickness > wall + 1e-6:
        fault = f"is more than the wall of {wall:g} mm that the frame has there"
        given = f"{table.thickness:g} mm"
        problems.append(Problem("thickness", given, fault, f"at most {wall:g} mm", f'thickness = "{wall:g} mm"'))
    return problems


def run_group_loads(table: schema.WeldTable, answer: FrameAnswer) -> list[RunGroupLoads]:
    """What the runs carry at each of their places, in every case."""
    # To which side the runs stand off, and so whether the lever adds to the moment, is not stated: both are judged.
    sides = dict.fromkeys((abs(table.eccentricity), -abs(table.eccentricity)))
    met = meetings(table, answer, face=table.joint == "end plate")
    return [
        RunGroupLoads(end.case, (end.N, end.V_y, end.V_z), (away, 0.0, 0.0), (end.T, end.M_y, end.M_z))
        for away in sides
        for m in met
        for row in _counting(m)
        for end in both_ways(row)
    ]


def _counting(m: Meeting) -> list[EndForces]:
    """The forces by which runs are judged: no elastic limit is known for them, so none at the greatest force."""
    return [row for row in m.ends if row.case.limit != "greatest force"]


# ---- runs of any shape ------------------------------------------------------------------------


def placed_weld_group(table: joint_schema.WeldGroupTable, answer: FrameAnswer, setting: Setting) -> Outcome:
    """Runs of any shape at the beam's end; the right side mirrors the left."""
    met = meetings(table, answer, face=table.joint == "end plate")
    group = kinds.run_group_of(table, setting)
    words = [
        "x runs from the upright towards the middle of the beam, y across the frame, z up; right mirrors left",
        "one group stands for all the pieces of the beam",
    ]
    outcome = _corners(table, met)
    if table.gusset:
        outcome += _gusset(table)
    else:
        on_face = table.joint == "end plate" or any(run.sides == "around" for run in group.runs)
        outcome += backing(table, met, setting) if on_face else Outcome()
        group, walls = _on_walls(group, met, table.joint == "lap")
        _refuse(_out_of_room(group, _rooms(met), table.joint == "lap"))
        if walls:
            each = " and ".join(f"{t:g}" for t in sorted(walls))
            words.append(f"runs whose plate is not stated stand on walls of {each} mm, as the frame has them")
    outcome += Outcome(assumptions=tuple(Assumption(table.name, text) for text in words))
    return check_run_group(group, _on_runs(met, symmetric=False), setting.basis) + outcome


def _on_walls(group: RunGroup, met: Sequence[Meeting], lap: bool) -> tuple[RunGroup, set[float]]:
    """The group with the wall of the beam that each run stands on, and these walls; only where each is known."""
    beams = dict.fromkeys((m.beam.section, is_turned(m.beam)) for m in met if m.beam.pieces == 1)
    if lap or len(beams) != 1 or len({m.beam.pieces for m in met}) > 1:
        return group, set()
    ((section, turned),) = beams
    runs, walls = [], set[float]()
    for run in group.runs:
        stands = run.kind == "fillet" and run.sides in ("both", "around") and run.plate is None
        t = wall_at(section, turned, _middle(run)) if stands and group.thickness is None else None
        runs.append(run if t is None else replace(run, plate=t))
        walls |= set() if t is None else {t}
    return replace(group, runs=tuple(runs), hollow=form(section) in ("hollow", "tube", "box")), walls


def _points(run: GroupRun) -> np.ndarray:
    if run.end is not None:
        return np.array([run.start, run.end], float)
    return run.whole.stations()[0]


def _middle(run: GroupRun) -> np.ndarray:
    points = _points(run)
    return points.mean(axis=0) if run.end is not None else points[len(points) // 2]


def _out_of_room(group: RunGroup, rooms: Rooms, lap: bool) -> list[Problem]:
    """Runs that the members have no room for; what cannot be a run is left to the check, which says so."""
    written = [(run.end is None) != (run.centre is None) and (run.throat or run.leg) for run in group.runs]
    if not all(written):
        return []
    problems = []
    for at, on in rooms:
        box = box_of(at, on, lap)
        for number, run in enumerate(group.runs, 1):
            problems += points_beyond(f"runs {number}", _points(run), max(run.a, 0.0), box, at.called)
        fillets = [run.whole.length for run in group.runs if run.kind == "fillet"]
        problems += longer_than_outline(fillets, at, on, lap)
    return problems


def _on_runs(met: Sequence[Meeting], *, symmetric: bool) -> list[RunGroupLoads]:
    """What the beam puts on the runs, in axes from the upright into the frame; force through their origin.

    The beam's V_z is what the joint gives it, and its M_y above zero has tension below. On runs that are not symmetric
    about the origin a part may relieve the others, so there each is also left out. All signs turned about, the stresses
    are the same.
    """
    acting = []
    for m in met:
        way = 1.0 if m.place.endswith(("/left", "/start")) else -1.0
        for row in _counting(m):
            for e in both_ways(row) if symmetric else corners_of(row):
                acting.append((e.case, (e.N, -way * e.V_z, -e.M_y, e.V_y, e.T, e.M_z)))
    first: dict[tuple[object, ...], tuple[Case, tuple[float, ...]]] = {}
    for one, row in zip(acting, _turned_alike([parts for _, parts in acting]), strict=True):
        first.setdefault((one[0].limit, *row), one)
    return [
        RunGroupLoads(case, (N, V_y, V_z), (0.0, 0.0, 0.0), (T, M_y, M_z))
        for case, (N, V_z, M_y, V_y, T, M_z) in first.values()
    ]


def _turned_alike(rows: Sequence[tuple[float, ...]]) -> list[list[float]]:
    """Rows of which those that are each other's opposites are equal: the first of a row that is not 0 is above it."""
    turns = [math.copysign(1.0, next((part for part in row if part), 1.0)) for row in rows]
    return to_figures(np.array(rows) * np.array(turns)[:, None], 9).tolist() if rows else []


# ---- butt welds -------------------------------------------------------------------------------


def placed_butt(table: joint_schema.ButtTable, answer: FrameAnswer, setting: Setting) -> Outcome:
    """An upright butt weld at the beam's end, under all that the end carries."""
    butt = kinds.butt_of(table, setting)
    own = check_butt(butt, [], setting.basis)
    met = meetings(table, answer, face=True)
    _refuse([p for at, _ in _rooms(met) for p in _butt_beyond(butt, at)])
    group = RunGroup(
        name=table.name,
        runs=_butt_runs(butt),
        steel=butt.steel,
        inspected=butt.inspected,
        weldable=butt.weldable,
        thickest=max(butt.thickest or 0.0, butt.thickness),
    )
    found = check_run_group(group, _on_runs(met, symmetric=True), setting.basis)
    # Size and cautions are those of the butt weld itself, not of the runs that stand for it.
    kept = [f for f in own.findings if f.check == "weld size"] + [f for f in found.findings if f.check != "weld size"]
    said = own.assumptions + found.assumptions + _corners(table, met).assumptions
    return backing(table, met, setting) + replace(found, findings=tuple(kept), assumptions=tuple(dict.fromkeys(said)))


def _butt_beyond(butt: Butt, at: Room) -> list[Problem]:
    problems = upright_runs_beyond(butt.length, 1, 0.0, 0.0, replace(at, sides=None), None, gusset=False)
    most = None if at.wall is None else at.wall * at.pieces
    if most is not None and butt.thickness > most + 1e-6:
        fault = f"is more than what {at.called} has there, {most:g} mm"
        given, remedy = f"{butt.thickness:g} mm", f'thickness = "{most:g} mm"'
        problems.append(Problem("thickness", given, fault, f"at most {most:g} mm", remedy))
    return problems


def _butt_runs(butt: Butt) -> tuple[GroupRun, ...]:
    """Runs that bear what the weld bears, the plate's thickness along y.

    A full one as two halves a third of the thickness apart: bent across the plate they feel its elastic edge stress.
    """
    t, lost = butt.thickness, 0.0 if butt.run_off else max(butt.throats)
    low, high = -butt.length / 2 + lost, butt.length / 2 - lost
    if high <= low:
        raise InputError(Problem("length", f"{butt.length:g} mm", "is no longer than the weld's ends", "a longer weld"))

    def run(y: float, **more: Any) -> GroupRun:
        return GroupRun(start=(0.0, y, low), end=(0.0, y, high), **more)

    if butt.full:
        return tuple(
            run(y, kind="full butt", throat=t / 2, sides="both", face=(1.0, 0.0, 0.0)) for y in (-t / 6, t / 6)
        )
    sides = "both" if len(butt.penetration) == 2 else "one"
    return tuple(
        run(way * (t - depth) / 2, kind="partial butt", throat=depth, proven=butt.proven, sides=sides, plate=t)
        for way, depth in zip((-1.0, 1.0), butt.penetration, strict=False)
    )
