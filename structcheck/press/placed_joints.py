"""The wider kinds of joint at places of a described frame: every force from what the beam's end carries there.

What a kind's method does not carry is never dropped: it is turned into something the method carries and that is no
milder, said in words, or the joint is `not checked`.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from structcheck.checks import bolts_end_plate, bolts_rod, weld_flange
from structcheck.checks.basis import Case, Limit
from structcheck.checks.bolts_end_plate import EndPlateLoads
from structcheck.checks.bolts_rod import Rod, RodLoads, check_rod
from structcheck.checks.contact import ContactLoads, check_contact
from structcheck.checks.cross_plate import CrossPlateLoads, check_cross_plate
from structcheck.checks.member_corrosion import corroded
from structcheck.checks.member_forms import form
from structcheck.checks.tube_joint import TubeJointLoads
from structcheck.checks.weld_flange import PlateOnFlangeLoads, check_plate_on_flange
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Outcome
from structcheck.materials.steels import Steel
from structcheck.press import joint_kinds as kinds
from structcheck.press import joint_schema as schema
from structcheck.press.base_plates import placed_base_plate
from structcheck.press.end_plates import end_plate_of, judge_end_plate
from structcheck.press.frame.demands import EndForces, FrameAnswer
from structcheck.press.frame.words import FramePart
from structcheck.press.joint_tables import none_checked
from structcheck.press.meetings import (
    STOPS,
    Meeting,
    Standing,
    ends_at,
    is_turned,
    meetings,
    pulled_and_pressed,
)
from structcheck.press.parts import BOLT_LOADS
from structcheck.press.placed_welds import placed_butt, placed_weld_group
from structcheck.press.setting import Setting, steel_of

NOTHING = 1e-6
"""Share of the largest force of a place below which another is rounding."""


def _alike(table: Standing, met: Sequence[Meeting]) -> Meeting:
    """The first place of a joint, where all its places join the same sections. Raises InputError."""
    kept = [(m.beam.section, m.beam.steel, m.beam.pieces) for m in met]
    if any(one != kept[0] for one in kept):
        wanted = "a joint of its own for each pair of sections"
        fault = "joins different sections at its places"
        raise InputError(Problem("at", ", ".join(table.at or ()), fault, wanted, f'at = "{met[0].place}"'))
    return met[0]


def _known(first: Meeting, beam: str, upright: str) -> dict[str, Any]:
    """Sections, less what rust takes, and grades of the frame, under the keys of a table."""
    parts = [(beam, first.beam), (upright, first.upright)]
    known: dict[str, Any] = {}
    for key, part in parts:
        if part is not None:
            known |= {key: corroded(part.section, getattr(part.table, "corrosion", 0.0)), f"{key}_steel": part.steel}
    return known


def _said(table: Standing, *texts: str) -> Outcome:
    return Outcome(assumptions=tuple(Assumption(table.name, text) for text in texts))


def carries(ends: Sequence[EndForces], *names: str) -> bool:
    """Whether any of these components of a joint's forces is more than rounding."""
    largest = max((max(abs(e.N), abs(e.V_y), abs(e.V_z)) for e in ends), default=0.0)
    return any(abs(getattr(e, name)) > NOTHING * max(largest, 1.0) for e in ends for name in names)


# ---- bolted and threaded --------------------------------------------------------------------


def placed_end_plate(table: schema.EndPlateTable, answer: FrameAnswer, setting: Setting) -> Outcome:
    """An end plate at the upright's face, bent up or down, and across the frame too."""
    met = meetings(table, answer, face=True)
    first = _alike(table, met)
    if first.beam.pieces > 1 or is_turned(first.beam):
        reason = "an end plate is judged for a beam of one I or H section, upright"
        return none_checked(table.name, bolts_end_plate.NEEDED, reason)
    known = _known(first, "section", "behind_section")
    known["beam_steel"], known["behind_steel"] = known.pop("section_steel"), known.pop("behind_section_steel", None)
    behind = first.upright
    if behind is not None:
        known["behind_turned"] = is_turned(behind)
        faces = behind.pieces == 1 and (form(behind.section) == "hollow" or _faced_by_flange(behind))
        if not faces:
            del known["behind_section"]  # no flange faces the beam: a web, a flat, several pieces
    part, found = end_plate_of(table, setting, known)
    loads = [load for m in met for load in _on_end_plates(table, part, m, answer, setting)]
    words = (
        "a force pressing the beam on adds half of itself to the flange in compression, and takes nothing off the rows",
        "bending across the frame and twist are added to pull and shear of every bolt",
    )
    return found + judge_end_plate(table, part, loads, setting) + _said(table, *words)


def _faced_by_flange(behind: FramePart) -> bool:
    """Whether a flange of the upright faces the beam."""
    return form(behind.section) == "i" and not is_turned(behind)


def _on_end_plates(
    table: schema.EndPlateTable, part: Any, m: Meeting, answer: FrameAnswer, setting: Setting
) -> list[EndPlateLoads]:
    """Loads of one place, the member behind as pressed as anywhere along it; unknown where the frame has none."""
    ends = [end for row in m.ends for end in pulled_and_pressed(row)]
    pressed: dict[Limit, float] = {}
    if m.upright is not None or table.behind_stress is not None:
        pressed = _pressed_face(m, answer, table.behind_stress or 0.0, setting)
    lever, twisting = (part.gauge + min(part.flange_width, part.gauge)) / 2, _twisting(part)
    return [_on_end_plate(part, end, lever, twisting, pressed.get(end.case.limit)) for end in ends]


def _twisting(part: Any) -> float:
    """What a twist adds to the shear of all bolts, were each sheared as the outermost one is, per N mm."""
    spots = [(x, row) for row in part.rows for x in (-part.gauge / 2, part.gauge / 2)]
    middle = sum(row for _, row in spots) / len(spots)
    polar = sum(x**2 + (row - middle) ** 2 for x, row in spots)
    far = max(math.hypot(x, row - middle) for x, row in spots)
    return len(spots) * far / polar


def _on_end_plate(part: Any, end: EndForces, lever: float, twisting: float, pressed: float | None) -> EndPlateLoads:
    """Sagging (tension below) pulls on the lower rows; each column takes M_z over the lever to the other side."""
    thrust = max(-end.N, 0.0) * (part.depth - part.flange) / 2
    return EndPlateLoads(
        end.case,
        moment=-math.copysign(abs(end.M_y) + thrust, end.M_y),
        pull=max(end.N, 0.0) + 2 * abs(end.M_z) / lever,
        shear=math.hypot(end.V_y, end.V_z) + abs(end.T) * twisting,
        pressed=pressed,
    )


def placed_rod(table: schema.RodTable, answer: FrameAnswer, setting: Setting) -> Outcome:
    """Rods that the beam hangs on: its shear pulls on them; what bends them is judged with them as uprights."""
    met = meetings(table, answer)
    ends = [end for m in met for end in m.ends]
    threaded = all(m.upright is not None and m.upright.table.thread is not None for m in met)
    if not threaded and carries(ends, "N", "V_y", "M_y", "M_z", "T"):
        reason = "the corner also bends or shears these rods, which only uprights of `thread` are judged for"
        return none_checked(table.name, bolts_rod.NEEDED, reason)
    rod = kinds.rod_of(table, setting)
    twisting, unequal = _side_by_side(rod, met) if carries(ends, "T") else (0.0, Outcome())
    loads = [RodLoads(e.case, abs(e.V_z) + abs(e.T) * twisting) for e in ends]
    outcome = check_rod(rod, loads, setting.basis) + unequal
    outcome += _said(table, "bending and shear of the rods are judged with the uprights")
    posts = {(m.upright.steel, m.upright.section.route) for m in met if m.upright is not None}
    return outcome + _of_one_bar(rod, [steel_of(steel, setting, route) for steel, route in posts if threaded])


def _side_by_side(rod: Rod, met: Sequence[Meeting]) -> tuple[float, Outcome]:
    """What a twist of the beam adds to the pull of all rods, were each pulled as the outermost, per N mm."""
    if rod.count == 1:
        return 0.0, Outcome()  # it bends the only one
    apart = min((m.upright.table.apart or 0.0 for m in met if m.upright is not None), default=0.0)
    if not apart:
        text = f"the {rod.count} rods of a corner share the pull evenly off centre across too; state [uprights] apart"
        return 0.0, Outcome(assumptions=(Assumption(rod.name, text, text),))
    step = apart + rod.size.d
    spots = [(i - (rod.count - 1) / 2) * step for i in range(rod.count)]
    text = f"what a force off centre across pulls one rod harder, {step:.4g} mm from the next, is put on every one"
    return rod.count * spots[-1] / sum(x**2 for x in spots), Outcome(assumptions=(Assumption(rod.name, text),))


def _of_one_bar(rod: Rod, steels: Sequence[Steel]) -> Outcome:
    """A rod that is an upright is one bar: two strengths stated of it, more than a tenth apart, are a condition."""
    found = []
    for steel in steels:
        f_y, f_yb, name = steel.f_y(rod.size.d), rod.bolt_class.f_yb, rod.bolt_class.name
        if max(f_y, f_yb) > 1.1 * min(f_y, f_yb):
            both = f"{steel.name}, f_y {f_y:g} MPa, as upright and class {name}, {f_yb:g} MPa, as rod"
            text = f"each bar is as strong as it is stated to be twice: {both}"
            found.append(Assumption(rod.name, text, text))
    return Outcome(assumptions=tuple(found))


# ---- welded ---------------------------------------------------------------------------------


def placed_tube_joint(table: schema.TubeJointTable, answer: FrameAnswer, setting: Setting) -> Outcome:
    """The beam as brace on the upright's inner face, pressed as the upright is anywhere along its length."""
    met = meetings(table, answer, face=True)
    first = _alike(table, met)
    pieces = first.beam.pieces
    if first.upright is not None and first.upright.pieces != pieces:
        reason = "beam and upright are not of as many pieces: which tube stands on which is not known"
        return none_checked(table.name, kinds.tube_joint.NEEDED, reason)
    if first.upright is None and table.chord_stress is None:
        raise kinds.missing(table, setting, "chord_stress")
    part, found = kinds.tube_joint_of(table, setting, _known(first, "brace", "chord"))
    part = replace(part, **_lies(table, first))
    loads = []
    for m in met:
        pressed = _pressed_face(m, answer, table.chord_stress or 0.0, setting)
        loads += [
            TubeJointLoads(e.case, e.N / pieces, pressed[e.case.limit], e.M_y / pieces, abs(e.M_z) + abs(e.T))
            for row in m.ends
            for e in pulled_and_pressed(row)
        ]
    words = [
        "the upright's welded face is taken as pressed as hard as anywhere along it; its pull relieves nothing",
        "shear of the beam runs in the plane of the face, through the weld of full strength",
    ]
    words += ["the pieces share the forces evenly, each beam on an upright of its own"] if pieces > 1 else []
    return found + kinds.judge_tube_joint(table, part, loads, setting) + _said(table, *words)


def _lies(table: schema.TubeJointTable, first: Meeting) -> dict[str, str]:
    """Which sides meet, as the frame has them. Raises InputError where the table says otherwise."""
    found = {"brace_along": "b" if is_turned(first.beam) else "h"}
    if first.upright is not None:
        found["side"] = "h" if is_turned(first.upright) else "b"
    for key, value in found.items():
        if key in table.model_fields_set and getattr(table, key) != value:
            given, fault = f'"{getattr(table, key)}"', "is not how these members stand in the frame"
            raise InputError(Problem(key, given, fault, f'"{value}", or left out', f'{key} = "{value}"'))
    return found


def _pressed_face(m: Meeting, answer: FrameAnswer, stated: float, setting: Setting) -> dict[Limit, float]:
    """Greatest pressing stress along an upright's inner face, MPa, by limit; no less than what is stated at rated."""
    basis = setting.basis
    found: dict[Limit, float] = {
        "rated": stated,
        "greatest force": stated * basis.greatest,
        "ultimate": stated * basis.ultimate,
    }
    if m.upright is None:
        return found
    s, n, turned = m.upright.section, m.upright.pieces, is_turned(m.upright)
    for station in answer.stations.get(m.upright_name, ()):
        # Above zero the moment in the plane pulls on the outer face and presses the inner one.
        M_y, M_z = (abs(station.M_y), max(station.M_z, 0.0)) if turned else (max(station.M_y, 0.0), abs(station.M_z))
        stress = (max(-station.N, 0.0) / s.A + M_y / s.Wel_y + M_z / s.Wel_z) / n
        found[station.case.limit] = max(found[station.case.limit], stress)
    return found


def placed_plate_on_flange(table: schema.PlateOnFlangeTable, answer: FrameAnswer, setting: Setting) -> Outcome:
    """A plate that the beam hangs on by its flange: the beam's shear, and nothing beside it."""
    met = meetings(table, answer)
    ends = [end for m in met for end in m.ends]
    first = _alike(table, met)
    if carries(ends, "N", "V_y", "M_y", "M_z", "T"):
        reason = "the corner also bends or shears this plate, which is judged for a plain pull only"
        return none_checked(table.name, weld_flange.NEEDED, reason)
    part, found = kinds.plate_on_flange_of(table, setting, _known(first, "base", ""))
    loads = [PlateOnFlangeLoads(e.case, abs(e.V_z) / first.beam.pieces) for e in ends]
    return found + check_plate_on_flange(part, loads, setting.basis)


# ---- pressed --------------------------------------------------------------------------------


def placed_cross_plate(table: schema.CrossPlateTable, answer: FrameAnswer, setting: Setting) -> Outcome:
    """A plate under what presses on the bed or hangs under the head."""
    loads, known = [], {}
    for place in table.at or ():
        if not place.endswith("/load") or place not in answer.forces:
            places = [name for name in answer.forces if name.endswith("/load")]
            wanted = f"one of {', '.join(places)}" if places else "a frame whose beams carry the jack"
            raise InputError(Problem("at", f'"{place}"', "is no beam under the jack in this frame", wanted))
        beam = answer.members[place.removesuffix("/load")]
        if beam.pieces != 2:
            given = f'"{place}"'
            raise InputError(Problem("at", given, f"is a beam of {beam.pieces}", "two beams with a gap between them"))
        known = {"wall_steel": beam.steel}
        for p in answer.forces[place]:
            # A beam's own load keeps no offset across; the work's own does, case by case.
            off = max(
                (abs(w.offset_across) for w in answer.forces["platen"] if w.case.limit == p.case.limit), default=0
            )
            if off >= table.gap / 2:
                reason = f"the force may stand {off:g} mm off the middle, beyond the gap between the beams"
                return none_checked(table.name, kinds.cross_plate.NEEDED, reason)
            force = p.force * (1 + 2 * off / table.gap)
            loads.append(CrossPlateLoads(Case(f"{p.case.name} at {place}", p.case.limit), force, table.pad))
    words = "a force off the middle counts as the central one that presses both ends as hard as the nearer one"
    return check_cross_plate(kinds.cross_plate_of(table, setting, known), loads, setting.basis) + _said(table, words)


def placed_contact(table: schema.ContactTable, answer: FrameAnswer, setting: Setting) -> Outcome:
    """A pin across the frame: the force in the plane, and what presses one end of the line harder."""
    L = table.length

    def force(e: EndForces) -> float:
        return math.hypot(abs(e.N) + 6 * abs(e.M_z) / L, abs(e.V_z) + 6 * abs(e.T) / L)

    loads = [ContactLoads(e.case, force(e)) for e in ends_at(table, answer)]
    words = "a moment along the pin presses one end of the contact harder: added to the force as 6 M / length"
    return check_contact(kinds.contact_of(table, setting), loads, setting.basis) + _said(table, words)


LOADS = {
    "bolts": BOLT_LOADS,
    "weld": ("along", "across"),
    "pin": ("pull",),
    "end_plate": ("moment", "pull", "shear"),
    "rod": ("pull",),
    "tube_joint": ("pull", "push", "in_plane"),
    "butt": ("along", "across"),
    "plate_on_flange": ("pull",),
    "weld_group": ("force", "through", "moment"),
    "cross_plate": ("load",),
    "contact": ("force",),
    "base_plate": ("push", "pull", "moment", "moment_across", "shear"),
}
"""What a table states of its loads; at a place they come from the frame."""

ON_STOPS = ("weld", "weld_group", "pin")
"""What may hold a stop on its upright."""

Placing = Callable[[Any, FrameAnswer, Setting], Outcome]


def alone(kind: str, judge: Placing) -> Placing:
    """A load typed beside a place would be dropped, so it is refused."""

    def placed(table: Any, answer: FrameAnswer, setting: Setting) -> Outcome:
        typed = [key for key in LOADS[kind] if getattr(table, key) is not None]
        if typed:
            fault, wanted = "stands beside at", "one of the two: at a place the frame gives the forces"
            raise InputError([Problem(key, "", fault, wanted) for key in typed])
        stops = [place for place in table.at or () if place.startswith(f"{STOPS}/")]
        if stops and kind not in ON_STOPS:
            wanted = f"{', '.join(f'[[{one}]]' for one in ON_STOPS)} at a stop"
            raise InputError(Problem("at", f'"{stops[0]}"', f"is no place for [[{kind}]]", wanted))
        return judge(table, answer, setting)

    return placed


_JUDGES: dict[str, Placing] = {
    "end_plate": placed_end_plate,
    "rod": placed_rod,
    "tube_joint": placed_tube_joint,
    "butt": placed_butt,
    "plate_on_flange": placed_plate_on_flange,
    "weld_group": placed_weld_group,
    "cross_plate": placed_cross_plate,
    "contact": placed_contact,
    "base_plate": placed_base_plate,
}

PLACED_KINDS: dict[str, Placing] = {kind: alone(kind, judge) for kind, judge in _JUDGES.items()}
"""How each of these kinds is judged at a place of the frame."""

CARRYING_KINDS = tuple(kind for kind in PLACED_KINDS if kind not in ("cross_plate", "contact", "base_plate"))
"""Those that join two members by themselves; a line of contact is the press of something else's joint."""
