"""Whether the press stays upright while it is pumped or moved, and what its feet carry of that."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import field

from structcheck.checks.basis import GREATEST, RATED, Case
from structcheck.findings import Assumption, NotNeeded, Outcome, judged, not_checked
from structcheck.press.frame.understood import Part, Ring
from structcheck.press.frame.words import PlaceForce
from structcheck.press.frame_schema import AddedMass, Feet, FrameTables
from structcheck.quantities import G_N
from structcheck.record import record
from structcheck.showing import show

PUSH_FACTOR, WEIGHT_FACTOR, HEAVY_FACTOR = 1.5, 0.9, 1.35
"""EN 1990:2002 Table A1.2: a variable action that tips, a permanent one that holds, or that presses (B)."""
LEAN = 10.0
"""Degrees a thing on feet may lean while it is moved; ours."""
EQUILIBRIUM = "EN 1990:2002 Table A1.2(A)"


@record
class Lump:
    """A mass in kg and the place of its middle, mm: to the right, to the back, up from the floor."""

    mass: float
    x: float
    y: float
    z: float


@record
class Stand:
    """How a press stands.

    lumps   all that has mass
    edges   left, right, front and back edge of the feet, mm in the axes of the lumps; empty where not stated
    top     height of the frame's top, where the pump's handle is taken to be if it is not stated
    wanted  what to write for the edges
    """

    lumps: tuple[Lump, ...]
    edges: tuple[float, float, float, float] | tuple[()]
    top: float
    wanted: str
    assumptions: tuple[Assumption, ...] = field(default=())

    @property
    def mass(self) -> float:
        """Of all together, kg."""
        return sum(lump.mass for lump in self.lumps)

    @property
    def middle(self) -> tuple[float, float, float]:
        """Middle of mass."""
        total = self.mass
        x, y, z = (sum(lump.mass * getattr(lump, axis) for lump in self.lumps) / total for axis in "xyz")
        return x, y, z

    @property
    def distances(self) -> Mapping[str, float]:
        """From the middle of mass to each edge of the feet; below zero beyond it."""
        x, y, _ = self.middle
        left, right, front, back = self.edges
        return {"left": x - left, "right": right - x, "front": y - front, "back": back - y}


def tipping(stand: Stand, feet: Feet | None) -> Outcome:
    """`tipping` over the nearest edge of the feet as it is pumped, and how far it may lean while it is moved."""
    part, check = "frame", "tipping"
    height = stand.middle[2]
    answers = (
        f"mass of the members and what is added to them: {stand.mass:.0f} kg, its middle {height:.0f} mm above "
        "the floor",
    )
    if feet and feet.bolted:
        reason = "bolted to the floor (stated)"
        return Outcome((), (NotNeeded(part, check, reason),), stand.assumptions, answers=answers)
    if feet is None or not stand.edges:
        reason = f"what the press stands on is not stated: {stand.wanted}, or bolted = true"
        return Outcome((not_checked(part, check, reason),), assumptions=stand.assumptions, answers=answers)
    handle, assumed = feet.handle, stand.assumptions
    if handle is None:
        handle = stand.top
        text = f"height of the pump handle not stated: the top of the frame, {handle:.0f} mm above the floor"
        assumed += (Assumption(part, text),)
    side, distance = min(stand.distances.items(), key=lambda item: item[1])
    tips = PUSH_FACTOR * feet.pumping * handle
    holds = WEIGHT_FACTOR * stand.mass * G_N * max(distance, 0.0)
    reason = f"{show(feet.pumping, 'N')} at the handle, level, over the {side} edge of the feet; the jack left out"
    found = judged(part, check, "pumping", tips, holds, "kN m", EQUILIBRIUM, reason=reason)
    if distance <= 0:
        reason = f"the middle of mass is {-distance:.0f} mm beyond the {side} edge of the feet: it tips of itself"
        found = judged(part, check, "pumping", tips, 0.0, "kN m", EQUILIBRIUM, reason=reason)
    lean = max(0.0, math.degrees(math.atan2(distance, height)))
    answers += (f"the press tips over to the {side} when it leans more than {lean:.0f} degrees",)
    advice = ()
    if lean < LEAN:
        advice = (
            f"frame: tips at {lean:.0f} degrees while it is moved on its feet; widen them or hold it (ours: {LEAN:g})",
        )
    return Outcome((found,), assumptions=assumed, answers=answers, advice=advice)


def edges_about(feet: Feet | None, x: float, y: float) -> tuple[float, float, float, float] | tuple[()]:
    """Edges of feet whose middle stands at a place; nothing where their size is not stated."""
    if feet is None or feet.width is None or feet.depth is None:
        return ()
    return x - feet.width / 2, x + feet.width / 2, y - feet.depth / 2, y + feet.depth / 2


# ---- rings -----------------------------------------------------------------------------------


def floor_below(ring: Ring, feet: Feet | None) -> tuple[float, tuple[Assumption, ...]]:
    """How far the floor lies below the bed's centre-line, mm."""
    if feet is not None and feet.below is not None:
        return max(ring.legs, feet.below), ()
    if ring.legs:
        return ring.legs, ()
    text = "height of the bed above the floor not stated ([feet] below): its lower edge is taken to lie on the floor"
    return ring.bed.low, (Assumption("frame", text),)


def ring_stand(ring: Ring, tables: FrameTables) -> Stand:
    """A ring on feet that stand evenly about its middle; added masses over the middle."""
    below, assumed = floor_below(ring, tables.feet)

    def planes(part: Part) -> int:
        return 1 if part.shared > 1 else ring.planes

    lumps = [
        Lump(part.kg_per_mm * ring.span * planes(part), 0.0, 0.0, below + z)
        for part, z in ((ring.head, ring.height), (ring.bed, 0.0))
    ]
    lumps.append(Lump(2 * ring.upright.kg_per_mm * ring.height * ring.planes, 0.0, 0.0, below + ring.height / 2))
    if ring.legs:
        lumps.append(Lump(2 * ring.upright.kg_per_mm * ring.legs * ring.planes, 0.0, 0.0, below - ring.legs / 2))
    lumps += added(tables.mass)
    edges = edges_about(tables.feet, 0.0, 0.0)
    return Stand(tuple(lumps), edges, below + ring.height + ring.head.high, "[feet] width and depth", assumed)


def added(masses: Sequence[AddedMass]) -> list[Lump]:
    """Masses given by their height, over the middle."""
    return [Lump(row.mass, 0.0, 0.0, row.height or 0.0) for row in masses]


def on_a_foot(ring: Ring, tables: FrameTables) -> tuple[PlaceForce, ...]:
    """What one foot carries: its share of the weight, and of the push on the pump handle any way round.

    In the frame's plane, and across it between several planes, a pair of forces; across a single plane its moment.
    """
    feet, stand = tables.feet or Feet(), ring_stand(ring, tables)
    handle = stand.top if feet.handle is None else feet.handle
    count, found = 2 * ring.planes, []
    for case, weight, push in (
        (RATED, 1.0, 1.0),
        (GREATEST, 1.0, 1.0),
        (Case("pumping", "ultimate"), HEAVY_FACTOR, PUSH_FACTOR),
        (Case("pumping, light", "ultimate"), WEIGHT_FACTOR, PUSH_FACTOR),
    ):
        share, tips = weight * stand.mass * G_N / count, push * feet.pumping * handle
        shear = push * feet.pumping / count
        levers = [ring.span * ring.planes]
        if ring.planes > 1:
            levers.append(2 * ring.spacing * (ring.planes - 1))
        else:
            found.append(PlaceForce(case, share, moment=tips / count, shear=shear))
        found += [PlaceForce(case, share + way * tips / lever, shear=shear) for lever in levers for way in (1, -1)]
    return tuple(found)
