"""From the frame's answer to its members, joints and everything else the force runs through: no force typed twice."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from structcheck.checks.beam import between_supports, check_beam, merged
from structcheck.checks.beam_description import Beam, BeamLoad
from structcheck.checks.section_resistance import Station
from structcheck.checks.upright import Upright, UprightLoads, check_upright
from structcheck.checks.weld_cautions import unless_plain
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Outcome, not_checked
from structcheck.formula import cut
from structcheck.press import schema
from structcheck.press.cases import Forces
from structcheck.press.entering import check_entering, check_on_posts, entering
from structcheck.press.frame.demands import FrameAnswer, Given, analyse
from structcheck.press.frame.words import PlaceForce
from structcheck.press.joint_tables import none_checked
from structcheck.press.joints import JOINTS, PLACED, placed_platen
from structcheck.press.meetings import is_turned
from structcheck.press.member_ends import detail_of, end_fatigue, holes_placed, holes_unsaid
from structcheck.press.own_sections import check_own_section, is_own
from structcheck.press.parts import KINDS, Setting, is_users, marked, stated, steel_of
from structcheck.press.taken import taken


def frame_answer(press: schema.PressFile, forces: Forces, setting: Setting) -> FrameAnswer | None:
    """The analysis of the described frame, None where the press describes its parts only. Raises InputError."""
    if press.frame is None:
        _refuse_without_frame(press)
        return None
    missing = [key for key in ("head", "bed", "uprights") if getattr(press, key) is None]
    if missing and press.frame.shape in ("closed", "H"):
        wanted = "the section, steel and pieces of each"
        lines = 'section = "UPN 120"\nsteel = "S235"'
        raise InputError(Problem(key, "", "is missing beside [frame]", wanted, f"[{key}]\n{lines}") for key in missing)
    return analyse(Given(press, press.jack, forces, setting.basis, press.limits, setting.sections))


def _refuse_without_frame(press: schema.PressFile) -> None:
    """Parts of a frame, or places in one, that nobody described."""
    keys = ("head", "bed", "uprights", "guides", "feet", "stops")
    problems = [
        Problem(key, "", "is there without [frame]", "[frame] with its span and height")
        for key in keys
        if getattr(press, key) is not None
    ]
    wanted = "[frame] with its span and height, or the force on this part"
    problems += [
        Problem("at", "", "is a place in a frame that is not described", wanted, part=f'{kind} "{table.name}"')
        for kind in PLACED
        for table in getattr(press, kind)
        if table.at is not None
    ]
    if problems:
        raise InputError(problems)


def check_frame(press: schema.PressFile, answer: FrameAnswer, setting: Setting) -> Outcome:
    """The members of the frame, what nobody described of its load path, and what the frame itself answers."""
    outcome = answer.outcome
    for name in answer.members:
        cut()
        part = answer.members[name]
        outcome += _JUDGES[part.kind](name, press, answer, setting)
        if is_own(part.section, setting):
            steel, inside = steel_of(part.steel, setting, part.section.route), answer.stations[name]
            pressed = entering(name, press, answer, setting)
            outcome += check_own_section(name, part.section, steel, part.pieces, inside, setting, pressed)
    outcome = merged(marked(outcome, setting, _users(press)) + _missing(press, answer))
    done = {(f.part, f.check) for f in outcome.findings}
    return replace(outcome, does_not_apply=tuple(n for n in outcome.does_not_apply if (n.part, n.check) not in done))


def _beam(name: str, press: schema.PressFile, answer: FrameAnswer, setting: Setting) -> Outcome:
    """A beam between the uprights: its sections, buckling sideways, and what presses on it."""
    part = answer.members[name]
    table = part.table
    steel = steel_of(part.steel, setting, part.section.route)
    known = stated(table, Beam) | {"name": name, "section": part.section, "steel": steel}
    pressed = answer.forces[f"{name}/load"]
    own = {"span": part.length, "pieces": part.pieces, "limit": None, "turned": is_turned(part)}
    beam = Beam(**known | own | {"aside": _aside(pressed)})
    loads = [BeamLoad(p.force, part.length / 2 + p.offset, p.over) for p in pressed if p.case.limit == "rated"]
    beside = check_entering(name, press, answer, setting)
    ends = [end for side in ("left", "right") for end in answer.ends.get(f"{name}/{side}", ())]
    outcome = check_beam(beam, loads, setting.basis, beside, answer.stations[name])
    outcome += check_on_posts(name, press, answer, setting)
    return outcome + end_fatigue(name, part, ends, press, setting.basis)


def _upright(name: str, press: schema.PressFile, answer: FrameAnswer, setting: Setting) -> Outcome:
    """An upright, an arm of a plate, a member of a free frame: its sections, and buckling where it is pressed."""
    part = answer.members[name]
    steel = steel_of(part.steel, setting, part.section.route)
    known = stated(part.table, Upright) | {"name": name, "section": part.section, "steel": steel}
    known["detail"] = detail_of(name, part, press)
    upright = Upright(**known | {"length": part.held or part.length, "pieces": part.pieces})
    inside = answer.stations[name]
    loads = [UprightLoads(s.case, s.N, s.M_y, s.M_z) for s in inside]
    own, leaning = _pressed_bar(name, upright, answer, setting)
    outcome = merged(check_upright(upright, loads, setting.basis, [*inside, *own]) + leaning)
    outcome += check_entering(name, press, answer, setting)
    return outcome + holes_unsaid(name, part, press) + holes_placed(name, part)


def _pressed_bar(name: str, upright: Upright, answer: FrameAnswer, setting: Setting) -> tuple[list[Station], Outcome]:
    """What a member of a free frame that the jack presses does besides, as a beam: twist, and buckling sideways."""
    part = answer.members[name]
    pressed = [p for p in answer.forces.get(f"{name}/load", ()) if p.case.limit == "rated"]
    if part.kind != "bar" or not pressed or is_turned(part):
        return [], Outcome()
    # The states of the joints press at one place: each push counts once.
    most = {round(p.offset, 6): p for p in sorted(pressed, key=lambda p: p.force)}
    loads = [BeamLoad(p.force, part.length / 2 + p.offset, p.over) for p in most.values()]
    known = stated(part.table, Beam) | {"name": name, "section": part.section, "steel": upright.steel}
    aside = _aside(answer.forces[f"{name}/load"])
    beam = Beam(**known | {"span": part.length, "pieces": part.pieces, "aside": aside})
    return between_supports(beam, loads, setting.basis, answer.stations[name])


def _aside(pressed: Sequence[PlaceForce]) -> float:
    """How far off the frame's plane the jack may press, mm."""
    return max((abs(p.offset_across) for p in pressed), default=0.0)


_JUDGES = {"beam": _beam, "upright": _upright, "plate": _upright, "bar": _upright}


def _users(press: schema.PressFile) -> bool:
    """Whether forces of the user's stand on the frame beside the jack's."""
    return is_users(*(row.load for row in press.load))


_WRITTEN = {
    "joint": ": a [[bolts]], [[weld]] or other joint that has this place as its `at`",
    "pin": ": a [[pin]] that has this place as its `at`",
    "platen": ": a [[platen]]",
    "guide": ": a [[guide]]",
    "what carries the force to each plane": ": a [[platen]] on `bearers`",
}
"""The tables that describe what the load path lacks."""


def _missing(press: schema.PressFile, answer: FrameAnswer) -> Outcome:
    """What the load path needs and nobody described: never a pass."""
    placed = {place for kind in JOINTS for table in getattr(press, kind) for place in table.at or ()}
    there = {
        "platen": bool(press.platen),
        "guides": bool(press.guide),
        "between the planes": any(table.bearers for table in press.platen),
    }
    findings = []
    for places in answer.meetings:
        undone = [place for place in places if place not in placed]
        if len(undone) > 1:
            reason = f"members meet here and are joined by what nobody described: all but one of {', '.join(undone)}"
            findings.append(not_checked(" and ".join(places), "joint", reason))
    for place, what in answer.needed:
        if place in placed or there.get(place) or place.endswith("/load"):
            continue  # what stands on a beam is judged with the beam
        unsaid = f"{what} is not described" if what.startswith("what ") else f"no {what} is described"
        remedy = _WRITTEN.get(what, "")
        findings.append(not_checked(place, what, f"the force runs through here and {unsaid}{remedy}"))
    return Outcome(tuple(findings))


def check_parts(press: schema.PressFile, answer: FrameAnswer | None, setting: Setting) -> tuple[Outcome, list[Problem]]:
    """Every part that is described one by one, and the problems of all of them."""
    outcome, problems = Outcome(), []
    for kind in KINDS:
        for table in getattr(press, kind):
            cut()  # what was computed for the part before is none of this one's working
            try:
                outcome += run_part(kind, table, setting, answer)
            except InputError as error:
                problems += [p.within(part=f'{kind} "{table.name}"') for p in error.problems]
    return outcome, problems


def run_part(kind: str, table: Any, setting: Setting, answer: FrameAnswer | None = None) -> Outcome:
    """One part; where no method reaches it before a check begins, none of its checks is done, for that reason."""
    try:
        found = KINDS[kind].run(table, setting) if answer is None else _in_frame(kind, table, answer, setting)
    except NotCovered as why:
        found = none_checked(table.name, KINDS[kind].needed, str(why))
    found = unless_plain(found, getattr(table, "welded_on", ""))
    return found + taken(table.name, table)


def _in_frame(kind: str, table: Any, answer: FrameAnswer, setting: Setting) -> Outcome:
    """A part of a described press: at its places in the frame, or by a force of the user's."""
    run = KINDS[kind].run
    if kind == "platen" and table.load is None:
        return placed_platen(table, answer, setting)
    if kind not in PLACED or table.at is None:
        return run(table, setting)
    return marked(PLACED[kind](table, answer, setting), setting, setting.press is not None and _users(setting.press))
