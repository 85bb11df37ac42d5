"""Ribs that cross and share a load: each a beam on its own supports, tied in height where they cross.

Torsion of the ribs is left out, which for flats on edge is nothing. Units N, mm, MPa; forces and w positive downward.
"""

from collections.abc import Sequence
from math import inf

import numpy as np

from structcheck.analysis.beam import PointLoad, solve
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.record import record


@record
class Rib:
    """One rib.

    span      mm, simply supported at both ends unless `supports` says otherwise (see analysis.beam)
    EI, GAs   stiffnesses, N mm2 and N
    soft      places that turn more than the rib itself, as (position mm, rad per N mm): half-lap slots
    """

    name: str
    span: float
    EI: float
    GAs: float = inf
    supports: str = "simple"
    soft: tuple[tuple[float, float], ...] = ()


@record
class Crossing:
    """Where two ribs meet: the position along each, mm."""

    first: str
    at_first: float
    second: str
    at_second: float


@record
class RibLoad:
    """A force on one rib, N at mm."""

    rib: str
    force: float
    at: float


@record
class RibResult:
    """What one rib carries.

    loads       every force on it, those handed over at crossings included
    deflection  at the places of those forces, mm
    moments     there, N mm, sagging positive
    """

    loads: tuple[PointLoad, ...]
    deflection: tuple[float, ...]
    moments: tuple[float, ...]

    @property
    def carried(self) -> float:
        """Sum of the forces on the rib: its share, N."""
        return sum(load.force for load in self.loads)

    @property
    def greatest_moment(self) -> float:
        """The moment of largest size at a force, with its sign, N mm."""
        return max(self.moments, key=abs, default=0.0)


def solve_grillage(
    ribs: Sequence[Rib], crossings: Sequence[Crossing], loads: Sequence[RibLoad]
) -> dict[str, RibResult]:
    """Forces handed over at the crossings by equal deflection there, then each rib on its own.

    A load on a crossing may be put on either rib. Raises InputError for names and places that are not there,
    NotCovered for slots in a rib that its supports hold from turning.
    """
    _validate(ribs, crossings, loads)
    table = {rib.name: rib for rib in ribs}
    # Unknown: the force the first rib hands down to the second at each crossing.
    n = len(crossings)
    flexibility, gap = np.zeros((n, n)), np.zeros(n)
    for i, crossing in enumerate(crossings):
        for name, at, sign in _ends(crossing):
            gap[i] += sign * sum(
                load.force * _influence(table[name], load.at, at) for load in loads if load.rib == name
            )
            for j, other in enumerate(crossings):
                for also, place, other_sign in _ends(other):
                    if also == name:
                        flexibility[i, j] += sign * other_sign * _influence(table[name], place, at)
    handed = np.linalg.solve(flexibility, gap) if n else np.zeros(0)
    return {rib.name: _result(rib, crossings, loads, handed) for rib in ribs}


def _ends(crossing: Crossing) -> tuple[tuple[str, float, float], ...]:
    return (crossing.first, crossing.at_first, 1.0), (crossing.second, crossing.at_second, -1.0)


def _influence(rib: Rib, place: float, at: float) -> float:
    """Deflection at `at` under a unit force at `place`, the soft places' turn by virtual work."""
    solved = solve(rib.span, rib.supports, [PointLoad(1.0, place)], rib.EI, rib.GAs)
    if not rib.soft:
        return float(solved.w(at))
    virtual = solve(rib.span, rib.supports, [PointLoad(1.0, at)], rib.EI, rib.GAs)
    if rib.supports not in ("simple", "cantilever"):
        raise NotCovered(f"slots change the moments of {rib.name}, which is held at its ends")
    return float(solved.w(at)) + sum(give * float(solved.M(x)) * float(virtual.M(x)) for x, give in rib.soft)


def _result(rib: Rib, crossings: Sequence[Crossing], loads: Sequence[RibLoad], handed: np.ndarray) -> RibResult:
    found = [PointLoad(load.force, load.at) for load in loads if load.rib == rib.name]
    for force, crossing in zip(handed, crossings, strict=True):
        for name, at, sign in _ends(crossing):
            if name == rib.name:
                found.append(PointLoad(-sign * float(force), at))
    solved = solve(rib.span, rib.supports, found, rib.EI, rib.GAs)
    deflection = tuple(sum(load.force * _influence(rib, load.at, place.at) for load in found) for place in found)
    return RibResult(tuple(found), deflection, tuple(float(solved.M(load.at)) for load in found))


def _validate(ribs: Sequence[Rib], crossings: Sequence[Crossing], loads: Sequence[RibLoad]) -> None:
    spans = {rib.name: rib.span for rib in ribs}
    problems = []
    if len(spans) < len(ribs):
        problems.append(Problem("ribs", "", "have the same name twice", "a name for each"))
    places = [(load.rib, load.at, "load") for load in loads]
    places += [(name, at, "crossing") for crossing in crossings for name, at, _ in _ends(crossing)]
    for name, at, key in places:
        if name not in spans:
            problems.append(Problem(key, f'"{name}"', "is no rib", "one of " + ", ".join(spans)))
        elif not 0 < at < spans[name] + (1e-9 if key == "load" else 0.0):
            problems.append(Problem(key, f"{at:g} mm", f"is off {name}", f"between 0 and {spans[name]:g} mm"))
    if problems:
        raise InputError(problems)
