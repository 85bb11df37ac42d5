"""A frame of two beams and two uprights as numbers: sections found, measures checked, ready to be built and solved."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import field
from functools import lru_cache

import numpy as np

from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption
from structcheck.materials.bolts import find_size
from structcheck.press.frame.off_centre import Position
from structcheck.press.frame_schema import CORNERS, FrameMember, FrameTable, FrameTables
from structcheck.press.schema import Jack
from structcheck.record import record
from structcheck.shapes.library import look_up
from structcheck.shapes.section import Section

E = 210_000.0
"""EN 1993-1-1:2005 3.2.6, MPa."""
G = 81_000.0


@record
class Part:
    """A member of the ring: all its pieces together, `depth` and inertias as the frame's plane sees them.

    low, high  from the centroid to the edges facing down and up (a beam), out and in (an upright), mm
    shared     planes that share one part (a plate on four posts); the figures are one plane's share
    """

    name: str
    section: Section
    pieces: int
    turned: bool
    apart: float | None
    low: float
    high: float
    A: float
    I_plane: float
    I_across: float
    J: float
    As_plane: float
    As_across: float
    steel: str = ""
    shared: int = 1

    @property
    def depth(self) -> float:
        """Depth in the frame's plane, mm."""
        return self.low + self.high

    @property
    def stress_of_unit(self) -> np.ndarray:
        """Largest stress from 1 N or 1 N mm of N, V_y, V_z, T, M_y, M_z in the frame's axes, nearly."""
        s = self.section
        W_plane, W_across = (s.Wel_z, s.Wel_y) if self.turned else (s.Wel_y, s.Wel_z)
        n = self.pieces / self.shared
        one = np.array([1 / self.A, 1.7 / self.As_across, 1.7 / self.As_plane, 1.7 / (n * s.Wt)])
        return np.concatenate([one, [1 / (n * W_plane), 1 / (n * W_across)]])

    @property
    def signed(self) -> tuple[int, ...]:
        """Which of N, V_y, V_z, T, M_y, M_z in the frame's axes act otherwise the other way round."""
        left, right, bottom, top = (abs(edge) for edge in self.section.edges)
        uneven = abs(bottom - top) > 1e-6, abs(left - right) > 1e-6
        in_plane, across = reversed(uneven) if self.turned else uneven
        return (0, *(4,) * in_plane, *(5,) * across)

    @property
    def kg_per_mm(self) -> float:
        """Mass of all pieces per mm."""
        return self.pieces * self.section.mass / 1e3


@record
class Ring:
    """One plane of a frame of two beams and two uprights.

    span, height  between centre-lines, mm
    opening       clear between bed and head, mm
    corners       place -> "unknown", "rigid", "pinned" or a stiffness in N mm/rad
    legs          length of the uprights below the bed (H-frame), mm; 0 where the bed joins their ends
    one_piece     cut from one plate, without joints
    pinned_bed    the bed rests on pins and cannot bend the uprights
    """

    head: Part
    bed: Part
    upright: Part
    span: float
    height: float
    opening: float
    corners: dict[str, str | float] = field(hash=False)
    planes: int = 1
    spacing: float = 0.0
    rigid_zones: bool = False
    pinned_bed: bool = False
    pin_offset: float = 0.0
    legs: float = 0.0
    tied_feet: bool = False
    one_piece: bool = False
    assumptions: tuple[Assumption, ...] = field(default=())


def ring(tables: FrameTables, jack: Jack, sections: tuple[Section, ...] = ()) -> Ring:
    """The ring a press file describes. Raises InputError with every fault of its measures."""
    frame, head, bed, uprights = tables.frame, tables.head, tables.bed, tables.uprights
    wanting = [name for name, table in (("head", head), ("bed", bed), ("uprights", uprights)) if table is None]
    if wanting:
        raise InputError([_missing(name) for name in wanting])
    assumptions: list[Assumption] = []
    plates = frame.planes if frame.shape == "posts" else 1
    parts = [
        part(name, table, sections, assumptions, shared)
        for name, table, shared in (("head", head, plates), ("bed", bed, plates), ("uprights", uprights, 1))
    ]
    problems = list(_faults(frame, jack, *parts))
    if problems:
        raise InputError(problems)
    height, opening = _heights(frame, *parts[:2])
    level = bed.level or 0.0
    assumptions += _tied_feet(tables)
    return Ring(
        *parts,
        span=frame.span,
        height=height,
        opening=opening,
        corners={
            place: tables.corner[place].stiffness if place in tables.corner else frame.corners for place in CORNERS
        },
        planes=frame.planes,
        spacing=frame.spacing or 0.0,
        rigid_zones=bool(frame.rigid_zones),
        pinned_bed=frame.shape == "H",
        pin_offset=bed.pin_offset if frame.shape == "H" else 0.0,
        legs=level if frame.shape == "H" else 0.0,
        tied_feet=bool(tables.feet and (tables.feet.tie or tables.feet.bolted)),
        assumptions=tuple(assumptions),
    )


def _tied_feet(tables: FrameTables) -> Iterator[Assumption]:
    """What holds the feet of an H-frame to each other: taken as an upright, and no part that anything here judges."""
    feet = tables.feet
    if tables.frame.shape != "H" or not tables.bed.level or feet is None or not (feet.tie or feet.bolted):
        return
    tie = "the tie" if feet.tie else "the floor"
    text = f"{tie} between the feet counts as one more upright, joined rigidly to both legs, and is not judged"
    racked = tables.guides is not None and tables.guides.on == "uprights"
    condition = f"{tie} between the feet is no weaker than an upright, and its joints no weaker than it"
    yield Assumption("feet", text, condition if racked else "")


def part(
    name: str, table: FrameMember, sections: tuple[Section, ...], assumptions: list[Assumption], shared: int = 1
) -> Part:
    """A member as stated, its pieces together."""
    s, turned = _section(name, table, sections, assumptions)
    return part_of(name, s, table.pieces, turned, table.steel, apart=table.apart, shared=shared)


def part_of(
    name: str,
    s: Section,
    pieces: int,
    turned: bool,
    steel: str,
    *,
    apart: float | None = None,
    shared: int = 1,
) -> Part:
    """A member of a section, its pieces together."""
    n = pieces / shared
    left, right, bottom, top = (abs(edge) for edge in s.edges)
    strong, weak = (s.Iy, s.Asz), (s.Iz, s.Asy)
    (I_plane, As_plane), (I_across, As_across) = (weak, strong) if turned else (strong, weak)
    low, high = (left, right) if turned else (bottom, top)
    return Part(
        name=name,
        section=s,
        pieces=pieces,
        turned=turned,
        apart=apart,
        low=low,
        high=high,
        A=n * s.A,
        I_plane=n * I_plane,
        I_across=n * I_across,
        J=n * s.It,
        As_plane=n * As_plane,
        As_across=n * As_across,
        steel=steel,
        shared=shared,
    )


def _section(
    name: str, table: FrameMember, sections: tuple[Section, ...], assumptions: list[Assumption]
) -> tuple[Section, bool]:
    """The section a table names or describes, and whether it is bent about its weak axis in the frame's plane."""
    plate = (table.width, table.thickness)
    stated = [table.section is not None, all(plate), table.thread is not None]
    if sum(stated) != 1 or any(plate) != all(plate):
        wanted = "one of: section; width and thickness of a plate; thread"
        fault = "is missing" if not any((*stated, *plate)) else "is stated twice or by half"
        raise InputError(Problem("section", "", fault, wanted, 'section = "UPN 120"', name))
    if table.section is not None:
        found = look_up(table.section, sections)
        assumptions += [Assumption(name, text) for text in found.assumptions]
        return found.section, table.turned
    if table.thread is not None:
        size = find_size(table.thread)
        text = f"threaded over its length: its stress area, {size.A_s:g} mm2, stands for it everywhere"
        assumptions.append(Assumption(name, text))
        D = math.sqrt(4 * size.A_s / math.pi)
        return Section(f"{size.name} rod", "RD", "", "bar", {"D": D}), False
    return plate_section(*plate), True


@lru_cache(maxsize=64)
def plate_section(b: float, t: float) -> Section:
    """A plate b deep and t thick."""
    return Section(f"plate {b:g}x{t:g}", "FL", "", "plate", {"b": b, "t": t})


def _heights(frame: FrameTable, head: Part, bed: Part) -> tuple[float, float]:
    """(between centre-lines, clear)."""
    beams = head.low + bed.high
    if frame.height is not None:
        return frame.height, frame.height - beams
    return frame.opening + beams, frame.opening


def _missing(name: str) -> Problem:
    remedy = f'[{name}] with section = "UPN 120", steel = "S235"'
    return Problem(name, "", "is not described", "the section, steel and pieces of it", remedy)


def _faults(frame: FrameTable, jack: Jack, head: Part, bed: Part, upright: Part) -> Iterator[Problem]:
    if frame.span is None:
        yield Problem("span", "", "is missing", "between the upright centre-lines", 'span = "700 mm"', "frame")
    elif frame.span <= upright.depth:
        given, wanted = f"{frame.span:g} mm", f"more than the depth of an upright, {upright.depth:g} mm"
        yield Problem("span", given, "leaves no room between the uprights", wanted, part="frame")
    if (frame.height is None) == (frame.opening is None):
        fault = "is missing" if frame.height is None else "stands beside opening"
        wanted = "one of the two: height between the beam centre-lines, or the clear opening between bed and head"
        yield Problem("height", "", fault, wanted, 'opening = "950 mm"', "frame")
        return
    _, opening = _heights(frame, head, bed)
    if opening <= 0:
        given = f"{frame.height:g} mm"
        wanted = f"more than {head.low + bed.high:g} mm, the depth of the two beams between their centre-lines"
        yield Problem("height", given, "puts the bed above the head", wanted, part="frame")
    elif jack.stroke is not None and jack.stroke > opening:
        given, wanted = f"{jack.stroke:g} mm", f"at most the clear opening, {opening:g} mm"
        yield Problem("stroke", given, "is longer than the opening the jack stands in", wanted, part="jack")
    if frame.shape == "posts" and frame.planes > 2:
        wanted = "1 for two posts, 2 for four"
        yield Problem(
            "planes", f"{frame.planes}", "is more than posts with plates are counted for", wanted, part="frame"
        )
    yield from standing_faults(frame, jack, frame.span)


def standing_faults(frame: FrameTable, jack: Jack, span: float | None) -> Iterator[Problem]:
    """What is missing or wrong of where planes and jacks stand, in any ring; span: between the uprights, mm."""
    if frame.planes > 1 and frame.spacing is None:
        wanted = "the distance between the planes, centre to centre"
        yield Problem("spacing", "", "is missing", wanted, 'spacing = "620 mm"', "frame")
    for place in frame.jacks or ():
        if span is not None and abs(place) >= span / 2:
            wanted = f"less than half the span, {span / 2:g} mm, from the middle"
            yield Problem("jacks", f"{place:g} mm", "stands beyond an upright", wanted, part="frame")
    if frame.jacks is not None and len(frame.jacks) != jack.count:
        given, wanted = f"{len(frame.jacks)} places", f"one place for each of the {jack.count} jacks"
        yield Problem("jacks", given, "do not match the count", wanted, part="frame")
    if frame.jacks is None and jack.count > 1 and frame.planes != jack.count:
        wanted = f"{jack.count} distances from the frame's middle, or as many planes as jacks"
        places = ", ".join(f'"{round((i - (jack.count - 1) / 2) * 200)} mm"' for i in range(jack.count))
        yield Problem("jacks", "", "is missing: where each jack stands", wanted, f"jacks = [{places}]", "frame")


def fits(ring: Ring, tables: FrameTables, positions: Sequence[Position]) -> None:
    """Raise InputError where a load, a guide, a stop or a dial stands outside the frame."""
    problems = list(_misfits(ring, tables, positions))
    if problems:
        raise InputError(problems)


def _misfits(ring: Ring, tables: FrameTables, positions: Sequence[Position]) -> Iterator[Problem]:
    reach = max((abs(push.x) for p in positions for push in (*p.head, *p.bed)), default=0.0)
    room = ring.span / 2 - ring.pin_offset
    if reach >= room:
        given, wanted = f"{reach:g} mm from the middle", f"less than {room:g} mm, where the beam ends"
        yield Problem("offset", given, "puts the load beyond an upright", wanted, part="jack")
    guides, stops = tables.guides, tables.stops
    if guides is not None and guides.on == "uprights":
        middle = ring.height / 2 if guides.height is None else guides.height
        half = (guides.length or 0.0) / 2
        if middle - half < 0 or middle + half > ring.height:
            given, wanted = (
                f"{middle:g} mm" + (f", {2 * half:g} mm long," if half else ""),
                f"guides between the beams, 0 to {ring.height:g} mm above the bed's centre-line",
            )
            yield Problem("height", given, "puts the guides beyond the uprights", wanted, part="guides")
    if stops is not None and stops.height >= ring.height:
        given, wanted = f"{stops.height:g} mm", f"less than {ring.height:g} mm, the height of the head"
        yield Problem("height", given, "puts the stops above the head", wanted, part="stops")
    for dial in tables.dial:
        if dial.at > ring.span:
            given, wanted = f"{dial.at:g} mm", f"at most the span, {ring.span:g} mm"
            yield Problem("at", given, "is beyond the beam", wanted, part="dial")
    for name in ("head", "bed"):
        table = getattr(tables, name)
        if table is not None and reach < room < table.over / 2 + reach:
            given, wanted = f"{table.over:g} mm", f"less than {2 * (room - reach):g} mm with the offset allowed for"
            yield Problem("over", given, "reaches beyond an upright", wanted, part=name)
