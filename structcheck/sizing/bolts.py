"""How many bolts, which size, how thick a pin: the smallest by which nothing fails, and why the next smaller does."""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import Any, Generic, TypeVar

from structcheck.checks.basis import Basis
from structcheck.checks.bolts import BoltGroup, BoltLoads, check_bolts
from structcheck.checks.pin import Pin, PinLoads, check_pin
from structcheck.errors import InputError
from structcheck.findings import Finding, Outcome, worst
from structcheck.materials.bolts import find_size, sizes
from structcheck.record import record

Part = TypeVar("Part", BoltGroup, Pin)

PATTERNS = (
    (1, 1),
    (2, 1),
    (1, 2),
    (3, 1),
    (4, 1),
    (2, 2),
    (3, 2),
    (4, 2),
    (3, 3),
    (5, 2),
    (6, 2),
    (4, 3),
    (5, 3),
    (4, 4),
)
"""Rows and columns a builder would drill, fewest bolts first."""

STOCK_PINS = (8, 10, 12, 14, 16, 18, 20, 22, 25, 28, 30, 32, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100)
"""Diameters of bright round bar commonly stocked, mm."""

BORNE = ("bolt shear", "bolt tension", "pin shear")
"""Checks without which nothing is known to hold."""


@record
class Found(Generic[Part]):
    """What was found.

    part           with the answer filled in; None where nothing holds
    outcome        of the answer, or of the last one tried
    smaller        the next smaller one tried
    smaller_fails  what fails on it
    reason         why the smaller one cannot be built, or why nothing was found
    """

    part: Part | None
    outcome: Outcome
    smaller: Part | None = None
    smaller_fails: Finding | None = None
    reason: str = ""


def find_count(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> Found[BoltGroup]:
    """The fewest bolts of the part's size, in rows and columns; its own count is put aside.

    A pitch or gauge that is not stated is three holes, in steps of 5 mm.
    """
    step = 5 * math.ceil(3 * part.d_0 / 5)
    spaced = replace(part, layout=None, pitch=part.pitch or step, gauge=part.gauge or step)
    tried = (replace(spaced, rows=rows, columns=columns) for rows, columns in PATTERNS)
    most = PATTERNS[-1][0] * PATTERNS[-1][1]
    return _first(tried, lambda p: check_bolts(p, loads, basis), f"no pattern up to {most} {part.size.name} holds")


def find_bolt_size(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> Found[BoltGroup]:
    """The thinnest bolts, from M12, in the part's pattern; holes are those of EN 1090-2."""
    listed = [find_size(name) for name in sizes()]
    tried = (replace(part, size=size, hole=None) for size in listed if size.d >= 12)
    return _first(tried, lambda p: check_bolts(p, loads, basis), f"no size up to {listed[-1].name} holds")


def find_diameter(part: Pin, loads: Sequence[PinLoads], basis: Basis) -> Found[Pin]:
    """The thinnest stock pin; the hole keeps its clearance."""
    clearance = part.d_0 - part.diameter
    tried = (replace(part, diameter=float(d), hole=None if part.hole is None else d + clearance) for d in STOCK_PINS)
    return _first(tried, lambda p: check_pin(p, loads, basis), f"no stock pin up to {STOCK_PINS[-1]} mm holds")


def _first(tried: Iterable[Any], check: Callable[[Any], Outcome], none: str) -> Found[Any]:
    """The first one by which nothing fails. A thicker pin weakens its eye, so every one is tried in turn."""
    smaller, fails, why, outcome = None, None, "", Outcome()
    built: tuple[Any, Finding] | None = None
    for part in tried:
        try:
            outcome = check(part)
        except InputError as error:
            smaller, fails, why = part, None, error.problems[0].fault
            continue
        against = [
            f for f in outcome.findings if f.verdict == "fails" or (f.check in BORNE and f.verdict == "not checked")
        ]
        if not against:
            return Found(part, outcome, smaller, fails, why)
        smaller, fails, why = part, worst(against), ""
        built = smaller, fails
    if built:
        # What cannot be built has no findings to show: the last that can stands for all.
        smaller, fails = built
    last = why if fails is None else f"{fails.check} fails last" if fails.verdict == "fails" else fails.reason
    return Found(None, outcome, smaller, fails, f"{none}: {last}")
