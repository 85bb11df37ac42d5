"""Runs of weld in space as they are described: straight or round, whole or in stretches, and what they carry."""

import math
from dataclasses import replace
from functools import cached_property
from typing import Literal

import numpy as np

from structcheck.analysis.weld_group import Arc, Line, Vector
from structcheck.checks.basis import Case
from structcheck.checks.weld_intermittent import Stretches
from structcheck.checks.weld_room import Side, legs_apart, thinner_above, throat_above
from structcheck.errors import InputError, Problem
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.showing import show
from structcheck.standards.en1993_1_8 import welds

Kind = Literal["fillet", "partial butt", "full butt"]
Sides = Literal["both", "lap", "around", "one"]


@record(kw_only=True)
class GroupRun:
    """One run: straight from `start` to `end`, or round `centre` about `axis` through `angle` (rad); mm.

    throat    of a fillet; penetration of a partial butt as prepared; thickness of the plate for a full butt
    leg       of a fillet, in place of the throat; the smaller one where `leg_2` is not given
    leg_2     the other leg, where they are unequal
    sides     "both": its partner on the part's other side is in the group; "lap": the part lies flat on the other;
              "around": part of a run round a hollow section; "one": alone on one side, so its root opens;
              None: not stated, and a pull across is not judged
    plate     thickness of the part, for a run on one side
    face      direction from the root along `leg`, or along the plate of a butt weld, at `start`; None: the worst
    face_2    direction from the root along the other leg, at `start`; None: the worst
    returned  the ends run on round the corner
    continued its ends run into those of the next runs, as round a section: it has none of its own
    stretches an intermittent run: how many stretches it is laid in, one at each end; 1: it is whole
    stretch   length of each of them; of the first and last: `end_stretch`, if they differ
    called    what it is called in the results; the group gives it its number
    proven    trials show that the penetration of a partial butt is reached; else 2 mm less count
    """

    start: Vector
    end: Vector | None = None
    centre: Vector | None = None
    axis: Vector = (0.0, 0.0, 1.0)
    angle: float = 2 * math.pi
    kind: Kind = "fillet"
    throat: float | None = None
    leg: float | None = None
    leg_2: float | None = None
    sides: Sides | None = None
    plate: float | None = None
    face: Vector | None = None
    face_2: Vector | None = None
    returned: bool = False
    continued: bool = False
    proven: bool = False
    stretches: int = 1
    stretch: float | None = None
    end_stretch: float | None = None
    called: str = ""

    @property
    def laid(self) -> Stretches | None:
        """The stretches of an intermittent run; None where it is whole."""
        if self.stretch is None:
            return None
        return Stretches(self.whole.length, self.stretches, self.stretch, self.end_stretch)

    def part_of(self, start: float, end: float) -> "GroupRun":
        """The piece of the run between two lengths from its start, a run by itself."""
        run, piece = self.whole, replace(self, stretches=1, stretch=None, end_stretch=None)
        if isinstance(run, Line):
            way = np.subtract(run.end, run.start) / run.length
            first, last = (tuple(float(x) for x in np.asarray(run.start, float) + at * way) for at in (start, end))
            return replace(piece, start=first, end=last)
        first = tuple(float(x) for x in run.at(np.array([start / run.length * run.angle]))[0][0])
        return replace(piece, start=first, angle=(end - start) / run.length * run.angle)

    @property
    def a(self) -> float:
        """Throat that counts, mm."""
        if self.throat is not None:
            return self.throat - 2 if self.kind == "partial butt" and not self.proven else self.throat
        if self.leg_2 is not None:
            return welds.throat_of_unequal_legs(self.leg, self.leg_2)
        return welds.throat_of_leg(self.leg)

    @property
    def whole(self) -> Line | Arc:
        """The run as laid."""
        if self.centre is None:
            return Line(self.start, self.end, self.a)
        axis = np.asarray(self.axis, float)
        return Arc(self.centre, self.start, tuple(axis / np.linalg.norm(axis)), self.angle, self.a)

    @property
    def faced(self) -> bool:
        """Whether the directions of its legs, or of a full butt's plate, are stated."""
        return self.face is not None and (self.kind == "full butt" or self.face_2 is not None)

    @property
    def closed(self) -> bool:
        """A full turn has no ends, nor has what runs on into the next."""
        whole = self.centre is not None and abs(self.angle) >= 2 * math.pi - 1e-9 and self.stretch is None
        return whole or self.continued

    @property
    def effective(self) -> Line | Arc | None:
        """The run as it counts: a throat less at each end of a fillet; None where nothing is left."""
        run = self.whole
        if self.kind != "fillet" or self.returned or self.closed:
            return run
        if welds.effective_length(run.length, self.a) <= 0:
            return None
        cut = self.a / run.length
        if isinstance(run, Line):
            start, end = np.asarray(run.start, float), np.asarray(run.end, float)
            along = end - start
            return replace(run, start=tuple(start + cut * along), end=tuple(end - cut * along))
        first = run.at(np.array([cut * run.angle]))[0][0]
        return replace(run, start=tuple(first), angle=run.angle * (1 - 2 * cut))


@record(kw_only=True)
class RunGroup:
    """Runs that join one stiff part to another.

    steel      of the weaker part joined
    method     "simplified" (4.5.3.3) or "directional" (4.5.3.2)
    weldable   the user says the steel can be welded
    thickest   thickness of the thicker part, mm
    thickness, width, other_width  of the thinner part, and of both, mm; wanted where a run is intermittent
    dry        an intermittent run stands neither in the weather nor in the wet
    pulled     the parts are pulled along it; else pressed, or it carries shear
    hollow     a hollow section is among the parts
    """

    name: str
    runs: tuple[GroupRun, ...]
    steel: Steel
    inspected: bool = False
    method: Literal["simplified", "directional"] = "simplified"
    weldable: bool = False
    thickest: float | None = None
    thickness: float | None = None
    width: float | None = None
    other_width: float | None = None
    dry: bool = False
    pulled: bool = False
    hollow: bool = False

    @cached_property
    def pieces(self) -> tuple[GroupRun, ...]:
        """Every run, or every stretch of it, each with its name."""
        found: list[GroupRun] = []
        for number, run in enumerate(self.runs, 1):
            called = run.called or f"run {number}"
            if run.laid is None:
                found.append(replace(run, called=called))
                continue
            for stretch, (start, end) in enumerate(run.laid.places(), 1):
                found.append(replace(run.part_of(start, end), called=f"{called}, stretch {stretch}"))
        return tuple(found)


@record
class RunGroupLoads:
    """A force (N) through a point and a moment (N mm), in the axes of the runs."""

    case: Case
    force: Vector
    at: Vector = (0.0, 0.0, 0.0)
    moment: Vector = (0.0, 0.0, 0.0)


def refuse(part: RunGroup) -> None:
    """Raise InputError with everything about the runs that cannot be."""
    bad = []
    for number, run in enumerate(part.runs, 1):
        key = f"runs {number}"
        if (run.throat is None) == (run.leg is None):
            bad.append(Problem(key, "", "needs a throat or a leg, not both", "one of the two", 'throat = "4 mm"'))
        elif run.leg_2 is not None and run.leg is None:
            given = show(run.leg_2, "mm")
            bad.append(Problem(f"{key} leg_2", given, "stands without the other leg", "both legs", 'leg = "6 mm"'))
        elif not all(x is None or (math.isfinite(x) and x > 0) for x in (run.throat, run.leg, run.leg_2, run.plate)):
            bad.append(Problem(key, "", "has a size that is not above 0 mm", "lengths above 0 mm"))
        elif (run.end is None) == (run.centre is None):
            bad.append(Problem(key, "", "needs an end, or a centre, not both", "one of the two"))
        elif run.centre is not None and not _square(run):
            bad.append(
                Problem(key, "", "has a start that is not square to its axis", "centre, start and axis of a circle")
            )
        elif run.centre is not None and not 0 < abs(run.angle) <= 2 * math.pi + 1e-9:
            given, wanted = f"{math.degrees(run.angle):.4g} deg", "more than 0 and at most 360 deg"
            bad.append(Problem(f"{key} angle", given, "is no way round a circle", wanted))
        elif not run.whole.length > 0:
            bad.append(Problem(key, "", "has no length", "two different points"))
        else:
            bad += [*_no_stretches(key, run), *_throat_above(key, run, part)]
    bad += thinner_above(part.thickness, part.thickest)
    bad += [] if bad else _twice(part.runs)
    if not part.runs:
        bad.append(Problem("runs", "", "there is none", "one run or more"))
    if bad:
        raise InputError(bad).within(part=f'weld "{part.name}"')


def _throat_above(key: str, run: GroupRun, part: RunGroup) -> tuple[Problem, ...]:
    """A throat that the part does not take: a fillet's by its plate, a partial butt's within it."""
    t = run.plate or part.thickness
    if run.kind == "partial butt" and t is not None and run.throat is not None and run.throat > t:
        given, fault = f"{run.throat:g} mm", f"is deeper than the plate of {t:g} mm"
        return (Problem(f"{key} throat", given, fault, "less than that"),)
    if run.kind != "fillet":
        return ()
    side: Side = "both" if run.sides == "both" else "alone"
    if run.sides == "lap":
        t, side = run.plate, "edge" if run.plate else "alone"
    if bad := legs_apart(run.leg, run.leg_2):
        return tuple(replace(problem, key=f"{key} leg_2") for problem in bad)
    return throat_above(f"{key} throat", run.a, t, part.steel, part.inspected, side)


def _twice(runs: tuple[GroupRun, ...]) -> list[Problem]:
    """Runs laid on one another would count as often as they are written."""
    bad = []
    for second, run in enumerate(runs):
        first = next((n for n, other in enumerate(runs[:second]) if _overlap(other, run)), None)
        if first is not None:
            fault = f"lies where run {first + 1} does"
            bad.append(Problem(f"runs {second + 1}", "", fault, "every run once, and runs beside each other apart"))
    return bad


NEARER = 1.0
"""mm; no part has two runs so near to each other, be they on both its sides."""


def _overlap(one: GroupRun, other: GroupRun) -> bool:
    """Whether two straight runs, or two on one circle, share more of their length than where they meet."""
    if one.centre is not None and other.centre is not None:
        near = math.dist(one.centre, other.centre) < NEARER and abs(one.whole.radius - other.whole.radius) < NEARER
        alike = abs(float(np.dot(one.whole.axis, other.whole.axis))) > 1 - 1e-6
        return near and alike and abs(one.angle) + abs(other.angle) > 2 * math.pi + 1e-6
    if one.end is None or other.end is None:
        return False
    length = math.dist(one.start, one.end)
    way = [(b - a) / length for a, b in zip(one.start, one.end, strict=True)]
    along = []
    for spot in (other.start, other.end):
        off = [p - a for p, a in zip(spot, one.start, strict=True)]
        reach = sum(o * w for o, w in zip(off, way, strict=True))
        if sum(o * o for o in off) - reach * reach >= NEARER**2:
            return False
        along.append(reach)
    return min(length, max(along)) - max(0.0, min(along)) > 2 * NEARER


def _square(run: GroupRun) -> bool:
    spoke, axis = np.subtract(run.start, run.centre), np.asarray(run.axis, float)
    return abs(spoke @ axis) <= 1e-6 * np.linalg.norm(spoke) * np.linalg.norm(axis) and bool(np.any(axis))


def _no_stretches(key: str, run: GroupRun) -> list[Problem]:
    if run.stretch is None and run.stretches == 1 and run.end_stretch is None:
        return []
    if run.laid is None or run.returned or run.kind != "fillet":
        fault = (
            "has stretches and no `stretch`"
            if run.laid is None
            else "is in stretches, which are never returned and no butt"
        )
        return [Problem(key, "", fault, "a fillet of stretches, or a whole run", 'stretch = "60 mm"')]
    return [replace(problem, key=f"{key} {problem.key}") for problem in run.laid.problems()]
