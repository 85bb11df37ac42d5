"""Whether the press stays upright while it is pumped or moved, and what it weighs."""

import math
from collections.abc import Sequence

from structcheck.checks.basis import GREATEST, RATED, Case
from structcheck.findings import Assumption, NotNeeded, Outcome, judged, not_checked
from structcheck.press.frame.understood import Part, Ring
from structcheck.press.frame.words import PlaceForce
from structcheck.press.frame_schema import AddedMass, Feet, FrameTables
from structcheck.quantities import G_N, show

PUSH_FACTOR, WEIGHT_FACTOR, HEAVY_FACTOR = 1.5, 0.9, 1.35
"""EN 1990:2002 Table A1.2: a variable action that tips, a permanent one that holds, or that presses (B)."""
LEAN = 10.0
"""Degrees a thing on feet may lean while it is moved; ours."""
LIGHT = 0.05
"""Share of the rated force up to which the frame's own weight is left out; ours."""


def weights(ring: Ring, masses: Sequence[AddedMass], below: float) -> tuple[float, float]:
    """(mass in kg, height of its middle above the floor in mm) of members and added masses."""

    def planes(part: Part) -> int:
        return 1 if part.shared > 1 else ring.planes

    rows = [
        (part.kg_per_mm * ring.span * planes(part), below + z)
        for part, z in ((ring.head, ring.height), (ring.bed, 0.0))
    ]
    rows.append((2 * ring.upright.kg_per_mm * ring.height * ring.planes, below + ring.height / 2))
    if ring.legs:
        rows.append((2 * ring.upright.kg_per_mm * ring.legs * ring.planes, below - ring.legs / 2))
    rows += [(added.mass, added.height) for added in masses]
    total = sum(mass for mass, _ in rows)
    return total, sum(mass * z for mass, z in rows) / total


def on_a_foot(ring: Ring, tables: FrameTables) -> tuple[PlaceForce, ...]:
    """What one foot carries: its share of the weight, and of the push on the pump handle any way round.

    In the frame's plane, and across it between several planes, a pair of forces; across a single plane its moment.
    """
    feet = tables.feet or Feet()
    below = max(ring.legs, feet.below)
    mass, _ = weights(ring, tables.mass, below)
    handle = below + ring.height + ring.head.high if feet.handle is None else feet.handle
    count, found = 2 * ring.planes, []
    for case, weight, push in (
        (RATED, 1.0, 1.0),
        (GREATEST, 1.0, 1.0),
        (Case("pumping", "ultimate"), HEAVY_FACTOR, PUSH_FACTOR),
        (Case("pumping, light", "ultimate"), WEIGHT_FACTOR, PUSH_FACTOR),
    ):
        share, tips = weight * mass * G_N / count, push * feet.pumping * handle
        shear = push * feet.pumping / count
        levers = [ring.span * ring.planes]
        if ring.planes > 1:
            levers.append(2 * ring.spacing * (ring.planes - 1))
        else:
            found.append(PlaceForce(case, share, moment=tips / count, shear=shear))
        found += [PlaceForce(case, share + way * tips / lever, shear=shear) for lever in levers for way in (1, -1)]
    return tuple(found)


def tipping(ring: Ring, tables: FrameTables) -> Outcome:
    """`tipping` under the pumping force, and how far the press may lean while it is moved."""
    part, check, feet = "frame", "tipping", tables.feet
    below = max(ring.legs, feet.below if feet else 0.0)
    mass, height = weights(ring, tables.mass, below)
    answers = (
        f"mass of the members and what is added to them: {mass:.0f} kg, its middle {height:.0f} mm above the floor",
    )
    if feet and feet.bolted:
        return Outcome(does_not_apply=(NotNeeded(part, check, "bolted to the floor (stated)"),), answers=answers)
    if feet is None or feet.width is None or feet.depth is None:
        reason = "what the press stands on is not stated: [feet] width and depth, or bolted = true"
        return Outcome((not_checked(part, check, reason),), answers=answers)
    half = min(feet.width, feet.depth) / 2
    handle, assumed = feet.handle, ()
    if handle is None:
        handle = below + ring.height + ring.head.high
        text = f"height of the pump handle not stated: the top of the head, {handle:.0f} mm above the floor"
        assumed = (Assumption(part, text),)
    tips, holds = PUSH_FACTOR * feet.pumping * handle, WEIGHT_FACTOR * mass * G_N * half
    reason = f"{show(feet.pumping, 'N')} at the handle, level, over the nearer edge of the feet; the jack left out"
    found = judged(part, check, "pumping", tips, holds, "kN m", "EN 1990:2002 Table A1.2(A)", reason=reason)
    lean = math.degrees(math.atan2(half, height))
    answers += (f"the press tips over when it leans more than {lean:.0f} degrees",)
    advice = ()
    if lean < LEAN:
        advice = (
            f"frame: tips at {lean:.0f} degrees while it is moved on its feet; widen them or hold it (ours: {LEAN:g})",
        )
    return Outcome((found,), assumptions=assumed, answers=answers, advice=advice)


def standing(tables: FrameTables) -> Outcome:
    """`tipping` of a shape whose middle of mass is not worked out here."""
    if tables.feet and tables.feet.bolted:
        return Outcome(does_not_apply=(NotNeeded("frame", "tipping", "bolted to the floor (stated)"),))
    reason = "where the mass of this shape of frame lies is not worked out here: bolt it down, [feet] bolted = true"
    return Outcome((not_checked("frame", "tipping", reason),))


def weight_beside(ring: Ring, tables: FrameTables, rated: float) -> Outcome:
    """Own weight is left out of the frame's forces: said, and no pass where it is not small."""
    mass, _ = weights(ring, tables.mass, 0.0)
    share = mass * G_N / rated
    text = (
        f"own weight and added masses, {mass * G_N / 1e3:.2g} kN, are left out of the frame's forces: {share:.1%} of R"
    )
    if share > LIGHT:
        return Outcome((not_checked("frame", "own weight", f"{text}; more than {LIGHT:.0%}"),))
    return Outcome(assumptions=(Assumption("frame", text),))
