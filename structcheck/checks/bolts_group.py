"""A group of bolts as it is judged: what it is, how it is loaded, and what stands around each hole."""

import math
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from functools import cached_property, lru_cache
from typing import Any, Literal, NamedTuple

import numpy as np

from structcheck.analysis.bolt_group import elastic_in_plane, grid, out_of_plane, plastic_in_plane
from structcheck.checks.basis import Case
from structcheck.errors import Mechanism, NotCovered
from structcheck.materials.bolts import BoltClass, BoltSize
from structcheck.materials.steels import Steel
from structcheck.maths import distinct
from structcheck.record import record

Force = tuple[float, float]
NORTH, SOUTH, EAST, WEST = (0.0, 1.0), (0.0, -1.0), (1.0, 0.0), (-1.0, 0.0)


TINY = 1e-3
"""N or N mm below which a force or moment is the noise of an analysis."""

Slot = Literal["short across", "long across", "short along", "long along"]


@record(kw_only=True)
class BoltGroup:
    """Bolts in rows and columns, or at stated positions, through a plate.

    rows        along y, the direction of the force, `pitch` apart (p_1)
    columns     along x, `gauge` apart (p_2)
    layout      x and y of every bolt instead of rows and columns, from any origin
    plate       thickness of the thinnest plate, or the sum of plates, pushed one way
    end         from the bolts nearest the loaded end (+y) to that end (e_1)
    edge        from the outer bolts to the edge (e_2), the same on both sides unless far_edge is given
    hole        diameter d_0; None: by EN 1090-2
    thread      the shear planes pass through the thread ("in") or the shank ("out")
    planes      shear planes of each bolt
    far_edge    from the outer bolts to the edge on the -x side; None: taken as `edge`
    far_end     from the bolts farthest from the loaded end to the end behind them; None: taken as `end`
    ply         thinnest single plate under a head or nut, or outer plate; None: taken as `plate`
    packing     thickness of loose packing in the joint, the thicker where there are two
    single_lap  two plates lapped and not held against turning out of line (3.6.1(10)); None: not stated
    countersunk countersunk heads: k_2 0.63, and half the countersink is lost to bearing
    sink        depth of the countersink in the plate; 0 beside countersunk: not stated, the whole plate is taken
    plate_runs  where the plate goes on from the group: "along" the force or "across" it; None: not stated
    exposed     True: to weather, or corrosion; False: neither exposed nor in compression; None: not stated
    spread      how the plates share the force among the bolts: "elastic" or "plastic" (3.12)
    steady      stated to be free of impact, vibration and reversal (pressing, not breaking or punching)
    category    of EN 1993-1-8 Table 3.2: A bears, B holds by friction in service, C at ultimate; E is preloaded in pull
    mu          slip factor; None: 0.2
    slot        slotted holes, their length and their direction to the force; None: round
    slot_length over all; None: the longest of its kind in EN 1090-2
    lever       bolt to the face of the web or weld that pulls (m of 6.2.4), web midway between two columns
    backing     thickness of loose plates under the heads, of the plate's steel and at least as long as its yield lines
    grip        all plates and washers between head and nut
    length      of the bolt under its head
    inner, gap  a bolt through a tube: the plate in the middle and the open gap on each side of it
    hollow      a bolt through a tube in the middle, its two walls `inner` together: the clear width inside it
    outer       each outer plate of such a bolt; None: `ply`
    """

    name: str
    size: BoltSize
    bolt_class: BoltClass
    rows: int = 1
    columns: int = 1
    plate: float
    steel: Steel
    layout: tuple[tuple[float, float], ...] | None = None
    pitch: float | None = None
    gauge: float | None = None
    end: float | None = None
    edge: float | None = None
    hole: float | None = None
    thread: Literal["in", "out"] = "in"
    planes: int = 1
    far_end: float | None = None
    far_edge: float | None = None
    ply: float | None = None
    packing: float = 0.0
    single_lap: bool | None = None
    countersunk: bool = False
    sink: float = 0.0
    plate_runs: Literal["along", "across"] | None = None
    exposed: bool | None = None
    spread: Literal["elastic", "plastic"] = "elastic"
    steady: bool = False
    category: Literal["A", "B", "C", "E"] = "A"
    mu: float | None = None
    slot: Slot | None = None
    slot_length: float | None = None
    lever: float | None = None
    backing: float = 0.0
    grip: float | None = None
    length: float | None = None
    inner: float | None = None
    gap: float | None = None
    hollow: float | None = None
    outer: float | None = None

    @property
    def d_0(self) -> float:
        """Hole diameter (width of a slot), given or by EN 1090-2."""
        return self.size.d + normal_clearance(self.size.d) if self.hole is None else self.hole

    def hole_size(self, along_y: bool) -> float:
        """How far a hole reaches along the force (y) or across it (x)."""
        if self.slot is None or self.slot.endswith("along") != along_y:
            return self.d_0
        return longest_slot(self.size.d, self.slot) if self.slot_length is None else self.slot_length

    @property
    def thinnest(self) -> float:
        """The single plate under a head or nut."""
        return self.plate if self.ply is None else self.ply

    @property
    def nearer_edge(self) -> float | None:
        """The smaller of the two edge distances; None where `edge` is not stated."""
        return self.edge if self.edge is None or self.far_edge is None else min(self.edge, self.far_edge)

    @property
    def bears_on(self) -> float:
        """Thickness of the plate that counts in bearing: half of a countersink is lost (Table 3.4)."""
        return self.plate - ((self.sink or self.plate) / 2 if self.countersunk else 0.0)

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
        if self.layout is None:
            return _in_rows(self.rows, self.columns, self.pitch or 0.0, self.gauge or 0.0)
        spots = np.array(self.layout, dtype=float)
        return spots - spots.mean(axis=0)

    @cached_property
    def spots(self) -> list[list[float]]:
        """The same as plain numbers, for those who go from bolt to bolt."""
        return self.positions.tolist()

    @cached_property
    def lines(self) -> tuple[np.ndarray, np.ndarray] | None:
        """x of the columns and y of the rows where the bolts fill every crossing of the two; None where they do not."""
        if "lines" not in self.known:
            x, y = (distinct(np.round(self.positions[:, axis], 6)) for axis in (0, 1))
            self.known["lines"] = (x, y) if len(x) * len(y) == self.count else None
        return self.known["lines"]

    @cached_property
    def memo(self) -> dict[Any, Any]:
        """Forces already worked out for this group: a press asks for them in many checks."""
        return {}

    @cached_property
    def known(self) -> dict[Any, Any]:
        """What hangs on the bolts and their plate alone, whatever the load: kept for the next group that is alike."""
        return _known_of(self)

    @cached_property
    def outline(self) -> dict[Force, float | None]:
        """Distance of the plate's end or edge in each direction from the group's centre; None where not stated."""
        low, high = self.positions.min(axis=0), self.positions.max(axis=0)
        far = self.end if self.far_end is None else self.far_end
        beside = self.edge if self.far_edge is None or self.edge is None else self.far_edge
        return {
            NORTH: None if self.end is None else float(high[1]) + self.end,
            SOUTH: None if far is None else far - float(low[1]),
            EAST: None if self.edge is None else float(high[0]) + self.edge,
            WEST: None if beside is None else beside - float(low[0]),
        }


class BoltLoads(NamedTuple):
    """Loads on the whole group in one case.

    shear         along y, towards the loaded end
    eccentricity  of the shear from the group's centre, along x
    tension       along the bolts, through the group's centre
    across        force along x through the group's centre
    twist         moment in the plane of the plates, counter-clockwise
    bend_x        moment out of the plane that pulls on the bolts towards +x
    bend_y        moment out of the plane that pulls on the bolts towards +y, the loaded end
    """

    case: Case
    shear: float = 0.0
    eccentricity: float = 0.0
    tension: float = 0.0
    across: float = 0.0
    twist: float = 0.0
    bend_x: float = 0.0
    bend_y: float = 0.0

    @property
    def turn(self) -> float:
        """Moment in the plane about the group's centre."""
        return self.shear * self.eccentricity + self.twist

    @property
    def force(self) -> float:
        """Resultant in the plane."""
        return math.hypot(self.shear, self.across)

    @property
    def sheared(self) -> bool:
        """Anything acts across the bolts."""
        return self.force > TINY or abs(self.turn) > TINY

    @property
    def pulled(self) -> bool:
        """Anything pulls along the bolts; plates pressed together do not."""
        return self.tension > TINY or max(abs(self.bend_x), abs(self.bend_y)) > TINY


@lru_cache(maxsize=128)
def _known_of(_: BoltGroup) -> dict[Any, Any]:
    return {}


_in_rows = lru_cache(maxsize=128)(grid)


def judged_as(part: BoltGroup, **ways: Any) -> BoltGroup:
    """The same bolts with another `spread`, `plate_runs` or `single_lap`; what is worked out of their places stays."""
    other = replace(part, **ways)
    other.__dict__.update(
        {name: getattr(part, name) for name in ("positions", "spots", "lines", "memo", "known", "outline")}
    )
    return other


def normal_clearance(d: float) -> float:
    """Clearance of a normal round hole, EN 1090-2 Table 11 (recalled): 1 mm to M14, 2 mm to M24, 3 mm from M27."""
    return 1.0 if d <= 14 else 2.0 if d <= 24 else 3.0


def longest_slot(d: float, slot: Slot) -> float:
    """Length of a slot over all, EN 1090-2 Table 11 (recalled): a short one 4 to 10 mm over d, a long one 2.5 d."""
    if slot.startswith("long"):
        return 2.5 * d
    return d + (4.0 if d <= 14 else 6.0 if d <= 22 else 8.0 if d <= 24 else 10.0)


def greatest_clearance(d: float) -> float:
    """Clearance of an oversize round hole, EN 1090-2 Table 11 (recalled); below M12 the table has none."""
    return normal_clearance(d) if d < 12 else 3.0 if d <= 14 else 4.0 if d <= 22 else 6.0 if d <= 24 else 8.0


def in_plane(part: BoltGroup, loads: BoltLoads) -> np.ndarray:
    """Force of each bolt on the plate, (n, 2), by the distribution the part states. Raises NotCovered: a mechanism."""
    asked = "in plane", part.spread, loads.across, loads.shear, loads.turn
    if asked in part.memo:
        return part.memo[asked]
    spread = plastic_in_plane if part.spread == "plastic" else elastic_in_plane
    try:
        return part.memo.setdefault(asked, spread(part.positions, (loads.across, loads.shear), loads.turn))
    except Mechanism as why:
        raise NotCovered(str(why)) from None


def pulls(part: BoltGroup, loads: BoltLoads) -> np.ndarray:
    """Pull on each bolt from outside, (n,), nothing where the plates press; prying not included.

    Raises NotCovered where the bolts cannot hold the moment.
    """
    asked = "pulls", loads.tension, loads.bend_x, loads.bend_y
    if asked in part.memo:
        return part.memo[asked]
    try:
        forces = out_of_plane(part.positions, loads.tension, (loads.bend_x, loads.bend_y))
    except Mechanism as why:
        raise NotCovered(str(why)) from None
    return part.memo.setdefault(asked, np.maximum(forces, 0.0))


def work_out(part: BoltGroup, loads: Sequence[BoltLoads]) -> None:
    """Find elastic forces and pulls of all these loads at once, for whoever asks for them one by one.

    Where some load makes a mechanism nothing is found here: who asks for it is told.
    """
    if not loads:
        return
    acting = [(load.across, load.shear, load.turn) for load in loads]
    with suppress(Mechanism):
        rows = np.array(acting)
        for row, forces in zip(acting, elastic_in_plane(part.positions, rows[:, :2], rows[:, 2]), strict=True):
            part.memo["in plane", "elastic", *row] = forces
    pulling = dict.fromkeys((load.tension, load.bend_x, load.bend_y) for load in loads)
    with suppress(Mechanism):
        rows = np.array(list(pulling))
        pulled = np.maximum(out_of_plane(part.positions, rows[:, 0], rows[:, 1:]), 0.0)
        for row, forces in zip(pulling, pulled, strict=True):
            part.memo["pulls", *row] = forces


@record
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
    asked = "around", index, direction
    return part.known[asked] if asked in part.known else part.known.setdefault(asked, _around(part, index, direction))


def _around(part: BoltGroup, index: int, direction: Force) -> Around:
    a, b = direction
    spots, tiny = part.spots, 1e-9
    x, y = spots[index]
    # Along the push, and to its left.
    apart = [((p - x) * a + (q - y) * b, (q - y) * a - (p - x) * b) for p, q in spots]
    in_line = min((u for u, v in apart if u > tiny and abs(v) < part.d_0), default=None)
    holes, edges = [], []
    for side in (1.0, -1.0):
        # A neighbour of the next line within 45 degrees counts, at its true distance where the lines are staggered.
        beside = [math.hypot(u, v) for u, v in apart if v * side > tiny and abs(u) <= abs(v) + tiny]
        if beside:
            holes.append(min(beside))
        else:
            edges.append(_to_edge(part, index, (-b * side + 0.0, a * side + 0.0)))
    if in_line is not None:
        return Around(in_line, False, tuple(holes), tuple(edges))
    return Around(_to_edge(part, index, direction), True, tuple(holes), tuple(edges))


def _to_edge(part: BoltGroup, index: int, direction: Force) -> float | None:
    limit = part.outline[direction]
    x, y = part.spots[index]
    return None if limit is None else limit - (x * direction[0] + y * direction[1])
