"""How the jack's force enters members of a frame: what presses on each, where, and through what."""

import math
from collections.abc import Iterator
from dataclasses import replace

from structcheck.checks.introduction import Introduction, Pressing, check_introduction, local_loads
from structcheck.checks.member_corrosion import corroded
from structcheck.checks.posts_plate import PostsPlate, PostsPlateLoad, check_posts_plate
from structcheck.checks.web_resistance import LocalLoad
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Outcome
from structcheck.press import schema
from structcheck.press.frame.demands import FrameAnswer
from structcheck.press.frame.words import FramePart
from structcheck.press.frame_schema import EdgeTable
from structcheck.press.meetings import is_turned
from structcheck.press.parts import Setting, beam_introduction, steel_of

ARMS = {"head": "upper", "upper arm": "upper", "bed": "lower", "lower arm": "lower"}
"""The table that tells how forces enter a beam or arm cut from plate."""


def introduced(
    name: str, press: schema.PressFile, answer: FrameAnswer, setting: Setting
) -> tuple[Introduction, list[Pressing]]:
    """How forces enter a member of the frame, and every one of them."""
    part = answer.members[name]
    steel = steel_of(part.steel, setting, part.section.route)
    table = _described(name, part, press)
    how = beam_introduction(table, steel, setting) if table is not None else Introduction()
    if how.pad is None and name in answer.stood_on and press.jack.base is not None:
        how = replace(how, pad=press.jack.base, pad_across=press.jack.base)
    if part.kind == "plate":
        _on_the_arm(name, how, press, answer)
        how = replace(how, beyond=None)
    return how, [*_under_load(name, part, press, answer), *_at_ends(name, answer)]


def _on_the_arm(name: str, how: Introduction, press: schema.PressFile, answer: FrameAnswer) -> None:
    """Raise InputError where what presses on an arm reaches past its end or onto the back."""
    if how.pad is None or press.plate is None:
        return
    long = max(how.pad, how.spreader.along) if how.spreader else how.pad
    off = max(abs(p.offset) for p in answer.forces[f"{name}/load"])
    key = "spreader" if how.spreader is not None and how.spreader.along > how.pad else "pad"
    rooms = {"the end of the arm": how.beyond, "the corner at the back": press.plate.reach - press.plate.radius}
    for what, room in rooms.items():
        if room is not None and long / 2 + off > room + 1e-9:
            given = f"{long:g} mm along, {off:g} mm off centre,"
            wanted, remedy = f"at most {max(2 * (room - off), 0):g} mm along", ""
            if what == "the end of the arm":
                wanted += f", or an arm that ends further out than {room:g} mm (beyond)"
                remedy = f'beyond = "{math.ceil(long / 2 + off):g} mm"'
            raise InputError(Problem(key, given, f"reaches past {what}", wanted, remedy, name))


def _described(name: str, part: FramePart, press: schema.PressFile) -> schema.Entered | EdgeTable | None:
    """The table with the keys of its contacts."""
    if isinstance(part.table, schema.Entered):
        return part.table
    return getattr(press, ARMS[name]) if name in ARMS else None


def entering(name: str, press: schema.PressFile, answer: FrameAnswer, setting: Setting) -> list[LocalLoad]:
    """The forces on the webs of a member of the frame."""
    part = answer.members[name]
    if is_turned(part) or f"{name}/load" not in answer.forces:
        return []
    how, pressings = introduced(name, press, answer, setting)
    return local_loads(part.section, part.pieces, how, pressings)


def check_entering(name: str, press: schema.PressFile, answer: FrameAnswer, setting: Setting) -> Outcome:
    """What the forces do where they enter a member; nothing where none does."""
    if f"{name}/load" not in answer.forces:
        return Outcome()
    part = answer.members[name]
    how, pressings = introduced(name, press, answer, setting)
    thinner = corroded(part.section, getattr(part.table, "corrosion", 0.0))
    steel = steel_of(part.steel, setting, part.section.route)
    outcome = check_introduction(name, thinner, steel, part.pieces, how, pressings, setting.basis, is_turned(part))
    edge = getattr(press, ARMS[name]) if part.kind == "plate" else None
    if part.kind == "plate" and (edge is None or edge.beyond is None):
        text = f"{name}: it goes on past the line of the force at least as far as what presses on it"
        said = f"how far it goes on past the line of the force is not stated: [{ARMS[name]}] beyond"
        outcome += Outcome(assumptions=(Assumption(name, said, text),))
    return outcome


def check_on_posts(name: str, press: schema.PressFile, answer: FrameAnswer, setting: Setting) -> Outcome:
    """A head or bed that is a plate on four posts, bent both ways at once."""
    other = answer.members.get(f"{name} across")
    if other is None:
        return Outcome()
    part, (how, _) = answer.members[name], introduced(name, press, answer, setting)
    if how.pad is None:
        return Outcome()  # `web under load` says that it is missing
    steel = steel_of(part.steel, setting, part.section.route)
    left, right, bottom, top = part.section.edges
    thickness = min(right - left, top - bottom) - 2 * getattr(part.table, "corrosion", 0.0)
    plate = PostsPlate(name, part.length, other.length, thickness, steel)
    across = how.pad_across or how.pad
    loads = [
        PostsPlateLoad(p.case, p.force, how.pad, across, p.offset, p.offset_across) for p in answer.forces["platen"]
    ]
    return check_posts_plate(plate, loads, setting.basis)


def _under_load(name: str, part: FramePart, press: schema.PressFile, answer: FrameAnswer) -> Iterator[Pressing]:
    edge = getattr(press, ARMS[name]) if part.kind == "plate" else None
    beyond = (edge and edge.beyond) or 0.0
    for p in answer.forces[f"{name}/load"]:
        x, near = part.length / 2 + p.offset, None
        place = f"under the load, {x:.0f} mm from the left upright"
        if part.kind == "bar":
            place = f"under the load, {x:.0f} mm from node {part.table.start}"
        elif part.kind == "plate":
            place = "at the line of the force"
            near = max(0.0, beyond - p.offset)
        near = min(x, part.length - x) if near is None else near
        flange = "tension" if p.pulled else "compression"
        beside = {"flange": flange, "offset": p.offset_across, "pad": p.over or None}
        yield Pressing(p.case, "load", place, p.force, p.moment, p.force, near, **beside)


def _at_ends(name: str, answer: FrameAnswer) -> Iterator[Pressing]:
    """Where the beam sits on its ends, its reaction presses its flange; one cut from the frame's plate has no ends."""
    for side in ("left", "right"):
        for end in answer.ends.get(f"{name}/{side}", ()):
            force = abs(end.V_z)
            yield Pressing(end.case, "support", f"at the {side} end", force, abs(end.M_y), force, 0.0)
