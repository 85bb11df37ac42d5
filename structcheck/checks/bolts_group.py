"""A group of bolts as it is judged: what it is, how it is loaded, and what stands around each hole."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np

from structcheck.analysis.bolt_group import elastic_in_plane, grid
from structcheck.checks.basis import Case
from structcheck.errors import InputError, Mechanism, Problem
from structcheck.findings import Assumption
from structcheck.materials.bolts import BoltClass, BoltSize
from structcheck.materials.steels import Steel

Force = tuple[float, float]
NORTH, SOUTH, EAST, WEST = (0.0, 1.0), (0.0, -1.0), (1.0, 0.0), (-1.0, 0.0)


@dataclass(frozen=True)
class BoltGroup:
    """Bolts in rows and columns through a plate.

    rows        along y, the direction of the force, `pitch` apart (p_1)
    columns     along x, `gauge` apart (p_2)
    plate       thickness of the thinnest plate, or the sum of plates, pushed one way
    end         from the row nearest the loaded end to that end (e_1)
    edge        from the outer columns to the edge, the same on both sides (e_2)
    hole        diameter d_0; None: by EN 1090-2
    thread      the shear planes pass through the thread ("in") or the shank ("out")
    planes      shear planes of each bolt
    far_end     from the row farthest from the loaded end to the end behind it; None: taken as `end`
    ply         thinnest single plate under a head or nut, or outer plate; None: taken as `plate`
    packing     thickness of loose packing in the joint, the thicker where there are two
    single_lap  two plates lapped and not held against turning out of line (3.6.1(10)); None: not stated
    countersunk countersunk heads
    plate_runs  where the plate goes on from the group: "along" the force or "across" it; None: not stated
    exposed     True: to weather, or corrosion; False: neither exposed nor in compression; None: not stated
    """

    name: str
    size: BoltSize
    bolt_class: BoltClass
    rows: int
    columns: int
    plate: float
    steel: Steel
    pitch: float | None = None
    gauge: float | None = None
    end: float | None = None
    edge: float | None = None
    hole: float | None = None
    thread: Literal["in", "out"] = "in"
    planes: int = 1
    far_end: float | None = None
    ply: float | None = None
    packing: float = 0.0
    single_lap: bool | None = None
    countersunk: bool = False
    plate_runs: Literal["along", "across"] | None = None
    exposed: bool | None = None

    @property
    def d_0(self) -> float:
        """Hole diameter, given or by EN 1090-2."""
        return self.size.d + normal_clearance(self.size.d) if self.hole is None else self.hole

    @property
    def thinnest(self) -> float:
        """The single plate under a head or nut."""
        return self.plate if self.ply is None else self.ply

    @property
    def shank(self) -> float:
        """Area of the unthreaded shank."""
        return math.pi * self.size.d**2 / 4

    @property
    def plane_area(self) -> float:
        """Area of a bolt in a shear plane."""
        return self.size.A_s if self.thread == "in" else self.shank

    @property
    def count(self) -> int:
        """Number of bolts."""
        return len(self.positions)

    @cached_property
    def positions(self) -> np.ndarray:
        """Centres of the bolts about the group's centre, (n, 2); the loaded end lies in +y."""
        return grid(self.rows, self.columns, self.pitch or 0.0, self.gauge or 0.0)

    @cached_property
    def outline(self) -> dict[Force, float | None]:
        """Distance of the plate's end or edge in each direction from the group's centre; None where not stated."""
        reach = np.max(np.abs(self.positions), axis=0)
        far = self.end if self.far_end is None else self.far_end
        return {
            NORTH: None if self.end is None else float(reach[1]) + self.end,
            SOUTH: None if far is None else float(reach[1]) + far,
            EAST: None if self.edge is None else float(reach[0]) + self.edge,
            WEST: None if self.edge is None else float(reach[0]) + self.edge,
        }


@dataclass(frozen=True)
class BoltLoads:
    """Loads on the whole group in one case.

    shear         along y, towards the loaded end
    eccentricity  of the shear from the group's centre, along x
    tension       along the bolts, through the group's centre
    """

    case: Case
    shear: float = 0.0
    eccentricity: float = 0.0
    tension: float = 0.0


def normal_clearance(d: float) -> float:
    """Clearance of a normal round hole, EN 1090-2 Table 11 (recalled): 1 mm to M14, 2 mm to M24, 3 mm from M27."""
    return 1.0 if d <= 14 else 2.0 if d <= 24 else 3.0


def greatest_clearance(d: float) -> float:
    """Clearance of an oversize round hole, EN 1090-2 Table 11 (recalled); below M12 the table has none."""
    return normal_clearance(d) if d < 12 else 3.0 if d <= 14 else 4.0 if d <= 22 else 6.0 if d <= 24 else 8.0


def in_plane(part: BoltGroup, loads: BoltLoads) -> np.ndarray:
    """Force of each bolt on the plate, (n, 2), by the elastic method."""
    try:
        return elastic_in_plane(part.positions, (0.0, loads.shear), loads.shear * loads.eccentricity)
    except Mechanism:
        raise InputError(
            _problem(
                part,
                "eccentricity",
                f"{loads.eccentricity:g} mm",
                "turns the plates about the only bolt",
                "two bolts or more where the force acts beside the group's centre",
                "rows = 2",
            )
        ) from None


@dataclass(frozen=True)
class Around:
    """What a bolt meets when it pushes in one direction: distances in mm, None where the plate's edge is not stated.

    ahead        to the next hole, or to the plate's end
    ahead_end    it is the plate's end
    holes        distances of neighbours across the force, at most one a side
    edges        distances of edges across the force, on the sides without a neighbour
    """

    ahead: float | None
    ahead_end: bool
    holes: tuple[float, ...]
    edges: tuple[float | None, ...]


def around(part: BoltGroup, index: int, direction: Force) -> Around:
    """What stands around bolt `index` when it pushes in one of the four directions."""
    along = np.asarray(direction)
    across = np.array((-along[1], along[0]))
    offset = part.positions - part.positions[index]
    u, v = offset @ along, offset @ across
    tiny = 1e-9
    in_line = u[(u > tiny) & (np.abs(v) < part.d_0)]
    holes, edges = [], []
    for side in (1.0, -1.0):
        # A neighbour of the next line within 45 degrees counts, at its true distance where the lines are staggered.
        beside = (v * side > tiny) & (np.abs(u) <= np.abs(v) + tiny)
        if np.any(beside):
            holes.append(float(np.min(np.hypot(u, v)[beside])))
        else:
            edges.append(_to_edge(part, index, _direction(across * side)))
    if in_line.size:
        return Around(float(np.min(in_line)), False, tuple(holes), tuple(edges))
    return Around(_to_edge(part, index, direction), True, tuple(holes), tuple(edges))


def _direction(vector: np.ndarray) -> Force:
    return float(round(vector[0])) + 0.0, float(round(vector[1])) + 0.0


def _to_edge(part: BoltGroup, index: int, direction: Force) -> float | None:
    limit = part.outline[direction]
    return None if limit is None else limit - float(part.positions[index] @ np.asarray(direction))


def _problem(part: BoltGroup, key: str, given: str, fault: str, wanted: str, remedy: str = "") -> Problem:
    return Problem(key=key, given=given, fault=fault, wanted=wanted, remedy=remedy, part=f'bolts "{part.name}"')


def validate(part: BoltGroup) -> None:
    """Raise InputError with everything that cannot be built."""
    problems = [*_missing_steps(part), *_impossible_sizes(part)]
    if not problems:
        problems = _overlaps(part)
    if problems:
        raise InputError(problems)


def _missing_steps(part: BoltGroup) -> list[Problem]:
    problems = []
    for count_key, step_key, example in (("rows", "pitch", "60 mm"), ("columns", "gauge", "80 mm")):
        count, step = getattr(part, count_key), getattr(part, step_key)
        if count < 1:
            problems.append(_problem(part, count_key, f"{count}", "is no group", "1 or more", f"{count_key} = 2"))
        elif count > 1 and step is None:
            fault = f"is missing: {count} {count_key} stand some distance apart"
            problems.append(_problem(part, step_key, "", fault, "a length in mm", f'{step_key} = "{example}"'))
    if part.planes < 1:
        problems.append(_problem(part, "planes", f"{part.planes}", "is no shear plane", "1, 2 or more", "planes = 1"))
    return problems


def _impossible_sizes(part: BoltGroup) -> list[Problem]:
    problems = []
    for key in ("plate", "pitch", "gauge", "end", "edge", "far_end", "ply"):
        value = getattr(part, key)
        if value is not None and not (math.isfinite(value) and value > 0):
            problems.append(_problem(part, key, f"{value:g} mm", "is not a length", "a length above nothing"))
    if part.hole is not None and not part.size.d <= part.hole < math.inf:
        wanted = f"at least the bolt's {part.size.d:g} mm"
        remedy = f'hole = "{part.size.d + normal_clearance(part.size.d):g} mm"'
        problems.append(
            _problem(part, "hole", f"{part.hole:g} mm", f"is smaller than {part.size.name}", wanted, remedy)
        )
    for key in ("end", "edge", "far_end"):
        value = getattr(part, key)
        if value is not None and 0 < value <= part.d_0 / 2:
            fault = f"lets the hole of {part.d_0:g} mm break out of the plate"
            wanted = f"more than half the hole; Table 3.3 asks for {1.2 * part.d_0:g} mm"
            problems.append(_problem(part, key, f"{value:g} mm", fault, wanted))
    return problems


def _overlaps(part: BoltGroup) -> list[Problem]:
    spots = part.positions
    for i in range(len(spots)):
        gaps = np.hypot(*(spots[i + 1 :] - spots[i]).T)
        if gaps.size and np.min(gaps) <= part.d_0:
            key = "pitch" if part.rows > 1 and (part.pitch or 0) <= part.d_0 else "gauge"
            fault = f"lets holes of {part.d_0:g} mm run into each other"
            wanted = f"more than {part.d_0:g} mm; Table 3.3 asks for {2.2 * part.d_0:g} mm and more"
            return [_problem(part, key, f"{np.min(gaps):g} mm", fault, wanted)]
    return []


def assumptions(part: BoltGroup, loads: Sequence[BoltLoads]) -> tuple[Assumption, ...]:
    """What is taken for the user, in the order it matters."""
    made = []
    if part.bolt_class.assumed:
        text = f"bolts without a mark: f_ub {part.bolt_class.f_ub:g} MPa, the worse of classes 4.6 and 4.8"
        made.append((text, part.bolt_class.condition))
    if part.steel.assumed:
        made.append((f"steel of the plate unknown: taken as {part.steel.name}", part.steel.condition))
    if part.hole is None:
        made.append((f"holes of {part.d_0:g} mm for {part.size.name} (EN 1090-2 normal clearance)", ""))
    sheared = any(load.shear for load in loads)
    if sheared and part.thread == "in":
        made.append(("the thread lies in the shear plane", ""))
    if sheared:
        made.append((f"the other plates of the joint are no weaker than the {part.plate:g} mm taken", ""))
    if sheared and part.far_end is None and part.end is not None and any(load.eccentricity for load in loads):
        made.append((f"the end behind the group is no nearer than the loaded end ({part.end:g} mm)", ""))
    if part.ply is None and any(load.tension for load in loads):
        made.append((f"every plate under a head or nut is at least {part.plate:g} mm thick", ""))
    return tuple(Assumption(part.name, text, condition) for text, condition in made)
