"""What meets at a place of a described frame, and the forces there in the axes of the frame."""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import product
from typing import Protocol

import numpy as np

from structcheck.checks.basis import Case
from structcheck.errors import InputError, Problem
from structcheck.press.frame.demands import EndForces, FrameAnswer
from structcheck.press.frame.words import FramePart
from structcheck.record import record


class Standing(Protocol):
    """A table that stands at places of the frame."""

    name: str
    at: tuple[str, ...] | None


STOPS = "stops"
"""The part of a place's name that stands for what stops the platen on an upright."""


@record
class Meeting:
    """One place: the beam that ends there, the upright it meets (None in a free frame), and the forces.

    At a stop the beam is the upright itself, since nothing ends there.
    """

    place: str
    beam: FramePart
    upright: FramePart | None
    upright_name: str
    ends: tuple[EndForces, ...]


def ends_at(table: Standing, answer: FrameAnswer, *, face: bool = False) -> list[EndForces]:
    """The forces of every place, each case named with its place.

    face  at the upright's face, where the frame has one; else on its centre-line
    """
    return [end for meeting in meetings(table, answer, face=face) for end in meeting.ends]


def meetings(table: Standing, answer: FrameAnswer, *, face: bool = False, forces: bool = True) -> tuple[Meeting, ...]:
    """What meets at every place of a joint, with its forces unless they are not wanted.

    Raises InputError for a place the frame does not have.
    """
    asked = "meetings", table.at, face, forces
    if asked not in answer.memo:
        answer.memo[asked] = tuple(_meetings(table.at or (), answer, face, forces))
    return answer.memo[asked]


def _meetings(places: Sequence[str], answer: FrameAnswer, face: bool, forces: bool) -> Iterator[Meeting]:
    for place in places:
        key = f"{place} face" if face and f"{place} face" in answer.ends else place
        if key not in answer.ends:
            known = [name for name in answer.ends if " " not in name]
            wanted = f"one of {', '.join(known)}" if known else "no joint: this frame is cut from one plate"
            turned = "/".join(reversed(place.split("/")))
            remedy = f'at = "{turned}"' if turned in known else ""
            raise InputError(Problem("at", f'"{place}"', "is no joint of this frame", wanted, remedy))
        beam, upright = place.split("/")[0], upright_at(place)
        if beam == STOPS:
            ends = tuple(end._replace(case=_at_place(end.case, place)) for end in answer.ends[key])
            yield Meeting(place, answer.members[upright], None, upright, ends)
            continue
        part = answer.members[beam]
        turned = is_turned(part)
        ends = tuple(_in_plane(end, turned, place) for end in answer.ends[key]) if forces else ()
        yield Meeting(place, part, answer.members.get(upright), upright, ends)


def upright_at(place: str) -> str:
    """The name of the upright at a place, where the frame has one there."""
    return f"{place.rpartition('/')[2]} upright"


def both_ways(end: EndForces) -> Iterator[EndForces]:
    """What a row stands for at a joint that is the same from all sides: V_y, T and M_z each to either side."""
    if not (end.V_y or end.T or end.M_z):
        yield end
        return
    for V_y, T, M_z in product(*(_signs(value) for value in (end.V_y, end.T, end.M_z))):
        yield EndForces(end.case, end.N, V_y, end.V_z, T, end.M_y, M_z, end.pressed)


def pulled_and_pressed(end: EndForces) -> Iterator[EndForces]:
    """A row, and the same with its small force along the beam turned about, where that occurs."""
    yield end._replace(pressed=0.0)
    if end.pressed:
        yield end._replace(N=-end.pressed, pressed=0.0)


def corners_of(end: EndForces) -> Iterator[EndForces]:
    """What a row stands for where parts can relieve each other: N, V_z and M_y whole and left out, either way across.

    Uses are convex there, so that the worst of all that was left out for this row is no worse than these.
    """
    for way in both_ways(end):
        for N, V_z, M_y in product({-way.pressed if way.pressed else 0.0, way.N}, {0.0, way.V_z}, {0.0, way.M_y}):
            yield EndForces(way.case, N, way.V_y, V_z, way.T, M_y, way.M_z)


def to_figures(numbers: np.ndarray, figures: int) -> np.ndarray:
    """Numbers rounded to so many figures, so that those that only rounding tells apart are equal."""
    unit = 10.0 ** (np.floor(np.log10(np.where(numbers == 0, 1.0, np.abs(numbers)))) - (figures - 1))
    return np.round(numbers / unit) * unit + 0.0


def _signs(value: float) -> tuple[float, ...]:
    return (value, -value) if value else (value,)


def is_turned(part: FramePart) -> bool:
    """Whether a member is bent about its weak axis in the frame's plane: turned, or a plate that lies flat."""
    return part.table.turned or part.table.width is not None


def _in_plane(end: EndForces, turned: bool, place: str) -> EndForces:
    """In axes of the frame (V_z and M_y in its plane) where the frame answers in those of a turned section."""
    case, N, V_y, V_z, T, M_y, M_z, pressed = end
    if turned:
        V_y, V_z, M_y, M_z = V_z, V_y, M_z, M_y
    return EndForces(_at_place(case, place), N, V_y, V_z, T, M_y, M_z, pressed)


@lru_cache(maxsize=1024)
def _at_place(case: Case, place: str) -> Case:
    return Case(f"{case.name} at {place}", case.limit)
