"""One straight beam of one span, solved exactly, with shear flexibility.

Signs, everywhere in this module:
    x  from the left support to the right          loads  positive downward
    w  deflection, positive downward                reactions  positive upward
    V  sum of the upward forces left of x           M  positive sagging
    a concentrated moment is positive anticlockwise, so that M drops by it at its place

Diagrams and deflections are sums of powers of the distance beyond each load (Macaulay), not samples. The stiffnesses
may be arrays, one entry for each section tried; loads are numbers. Units N, mm, MPa, rad.
"""

from collections.abc import Sequence
from functools import cached_property
from itertools import pairwise
from math import factorial, inf, isfinite

import numpy as np

from structcheck.analysis.member import Extreme, Numbers, zeros
from structcheck.errors import InputError, Problem
from structcheck.record import record

SUPPORTS = ("simple", "fixed", "propped", "cantilever")


@record
class PointLoad:
    """A force (N, downward) at a distance from the left support (mm)."""

    force: float
    at: float


@record
class UniformLoad:
    """A force per length (N/mm, downward) from `start` to `end`, both from the left support (mm)."""

    intensity: float
    start: float
    end: float


@record
class PointMoment:
    """A moment (N mm, anticlockwise) at a distance from the left support (mm)."""

    moment: float
    at: float


Load = PointLoad | UniformLoad | PointMoment


@record
class Station:
    """A place where a diagram has an end, a jump, a kink or a turn; inner values at the ends of the span."""

    x: Numbers
    V_left: Numbers
    V_right: Numbers
    M_left: Numbers
    M_right: Numbers


def _powers(x: Numbers, n: int, right: bool) -> Numbers:
    """x^n / n! where x is positive, else nothing; nothing at all for n < 0. `right` counts x = 0 as passed."""
    if n < 0:
        return 0.0 * x
    passed = x >= 0 if right else x > 0
    return np.where(passed, x**n / factorial(n), 0.0)


@record
class BeamSolution:
    """What `solve` found. Results have the shape of the stiffnesses; `x` given to a method broadcasts with it.

    reaction_left, reaction_right  N, upward
    moment_left, moment_right      N mm, sagging positive (so a built-in end under downward load is negative)
    """

    span: float
    supports: str
    loads: tuple[Load, ...]
    EI: Numbers
    GAs: Numbers
    reaction_left: Numbers
    reaction_right: Numbers
    moment_left: Numbers
    moment_right: Numbers
    rotation_left: Numbers

    def V(self, x: Numbers, side: str = "right") -> Numbers:
        """Shear force at x (N), just beyond a point load there, or before it with side="left"."""
        return self.reaction_left + _load_integral(self.loads, 0, x, side == "right")

    def M(self, x: Numbers, side: str = "right") -> Numbers:
        """Bending moment at x (N mm), just beyond a concentrated moment there, or before it with side="left"."""
        return self.moment_left + self.reaction_left * x + _load_integral(self.loads, 1, x, side == "right")

    def rotation(self, x: Numbers) -> Numbers:
        """Rotation of the cross-section at x (rad), positive when it turns clockwise: w falls away to the right."""
        turned = self.moment_left * x + self.reaction_left * x**2 / 2 + _load_integral(self.loads, 2, x)
        return self.rotation_left - turned / self.EI

    def w_bending(self, x: Numbers) -> Numbers:
        """Deflection at x from curvature (mm); on simple supports it vanishes at both."""
        return self._deflection_of_curvature(x) + self._chord() * x

    def w_shear(self, x: Numbers) -> Numbers:
        """Deflection at x from shear strain (mm); on simple supports it vanishes at both."""
        return self._sliding(x) - self._chord() * x

    def w(self, x: Numbers) -> Numbers:
        """Deflection at x (mm), bending and shear together."""
        return self._deflection_of_curvature(x) + self._sliding(x)

    def _deflection_of_curvature(self, x: Numbers) -> Numbers:
        bent = self.moment_left * x**2 / 2 + self.reaction_left * x**3 / 6 + _load_integral(self.loads, 3, x)
        return self.rotation_left * x - bent / self.EI

    def _sliding(self, x: Numbers) -> Numbers:
        # The integral of V, not M: a concentrated moment steps M and slides nothing.
        return (self.reaction_left * x + _load_integral(_forces(self.loads), 1, x)) / self.GAs

    def _chord(self) -> Numbers:
        """Slope handed from one part to the other so that each meets the two supports of a simple beam."""
        return self._sliding(self.span) / self.span if self.supports == "simple" else 0.0

    def stations(self) -> list[Station]:
        """Ends, loads, ends of runs and, inside uniform loads, the places where V vanishes, from left to right."""
        found = [self._station(x) for x in self._breaks()]
        for x, _, length, turn in self._turns_of_moment():
            if np.any((turn > x) & (turn < x + length)):
                found.append(self._station(turn))
        return sorted(found, key=lambda station: float(np.min(station.x)))

    def greatest_moment(self) -> Extreme:
        """The bending moment of largest size, with its sign."""
        return self._greatest_moment

    @cached_property
    def _greatest_moment(self) -> Extreme:
        turns = [(turn, self.M(turn)) for *_, turn in self._turns_of_moment()]
        ends = [(x, self.M(x, side)) for x, side in self._inner_sides()]
        return self._greatest(ends + turns)

    def greatest_shear(self) -> Extreme:
        """The shear force of largest size, with its sign."""
        return self._greatest([(x, self.V(x, side)) for x, side in self._inner_sides()])

    def greatest_deflection(self) -> Extreme:
        """The deflection of largest size, with its sign; it need not stand under the load."""
        candidates = [(x, self.w(x)) for x in self._breaks()]
        for x, intensity, length in self._runs():
            slope = (
                self.rotation(x) + self.V(x) / self.GAs,
                -self.M(x) / self.EI - intensity / self.GAs,
                -self.V(x) / (2 * self.EI),
                intensity / (6 * self.EI),
            )
            turns = x + zeros(np.stack(np.broadcast_arrays(*slope)), length)
            candidates += [(turn, self.w(turn)) for turn in turns]
        return self._greatest(candidates)

    def _breaks(self) -> list[float]:
        places = {0.0, float(self.span)}
        for load in self.loads:
            places.update((load.start, load.end) if isinstance(load, UniformLoad) else (load.at,))
        return sorted(places)

    def _runs(self) -> list[tuple[float, float, float]]:
        """Start, intensity and length of every stretch between breaks."""
        spread = [load for load in self.loads if isinstance(load, UniformLoad)]
        breaks = self._breaks()
        return [
            (x, sum(load.intensity for load in spread if load.start <= x < load.end), after - x)
            for x, after in pairwise(breaks)
        ]

    def _turns_of_moment(self) -> list[tuple[float, float, float, Numbers]]:
        """Runs under uniform load, each with the place where V vanishes, or the nearer end where it does not."""
        return [(x, q, length, x + np.clip(self.V(x) / q, 0.0, length)) for x, q, length in self._runs() if q != 0.0]

    def _inner_sides(self) -> list[tuple[float, str]]:
        breaks = self._breaks()
        return [(x, "right") for x in breaks[:-1]] + [(x, "left") for x in breaks[1:]]

    def _station(self, x: Numbers) -> Station:
        left = "right" if np.ndim(x) == 0 and x == 0.0 else "left"
        right = "left" if np.ndim(x) == 0 and x == self.span else "right"
        return Station(*map(_plain, (x, self.V(x, left), self.V(x, right), self.M(x, left), self.M(x, right))))

    def _greatest(self, candidates: list[tuple[Numbers, Numbers]]) -> Extreme:
        shape = np.shape(self.reaction_left)
        places, values = (
            np.stack([np.broadcast_to(part, shape) for part in parts]) for parts in zip(*candidates, strict=True)
        )
        best = np.argmax(np.abs(values), axis=0)[None]
        pick = (np.take_along_axis(table, best, axis=0)[0] for table in (values, places))
        return Extreme(*map(_plain, pick))


def solve(span: float, supports: str, loads: Sequence[Load], EI: Numbers, GAs: Numbers = inf) -> BeamSolution:
    """The exact solution of one span.

    span      mm
    supports  "simple"; "fixed" at both ends; "propped": built in at the left, propped at the right;
              "cantilever": built in at the left, free at the right
    loads     point loads, partial uniform loads and concentrated moments, in any number
    EI        bending stiffness, N mm2: a number or an array
    GAs       shear stiffness, N: the same shape as EI or a number; infinite leaves shear strain out

    Raises InputError, naming every argument that cannot be used.
    """
    loads = tuple(loads)
    _validate(span, supports, loads, EI, GAs)
    EI, GAs = (_plain(np.asarray(value, dtype=float)) for value in (EI, GAs))
    V_p, M_p, turn_p, sag_p = (_load_integral(loads, n, span) for n in range(4))
    slide_p = _load_integral(_forces(loads), 1, span)
    k = EI / GAs
    M_0 = rotation_0 = 0.0
    if supports == "simple":
        R_0 = -M_p / span
        rotation_0 = (R_0 * span**3 / 6 + sag_p) / (EI * span) - (R_0 + slide_p / span) / GAs
    elif supports == "cantilever":
        R_0 = -V_p
        M_0 = -M_p - R_0 * span
    elif supports == "propped":
        R_0 = (sag_p - M_p * span**2 / 2 - k * slide_p) / (span**3 / 3 + k * span)
        M_0 = -M_p - R_0 * span
    else:
        R_0 = (sag_p - turn_p * span / 2 - k * slide_p) / (span**3 / 12 + k * span)
        M_0 = -R_0 * span / 2 - turn_p / span
    free = supports == "cantilever"
    M_L = M_0 + R_0 * span + M_p if supports == "fixed" else 0.0
    found = (R_0, 0.0 if free else -V_p - R_0, M_0, M_L, rotation_0)
    shape = np.shape(k)
    return BeamSolution(
        float(span), supports, loads, EI, GAs, *(_plain(np.broadcast_to(value, shape)) for value in found)
    )


def _plain(value: Numbers) -> Numbers:
    return float(value) if np.ndim(value) == 0 else np.asarray(value)


def _forces(loads: Sequence[Load]) -> list[Load]:
    return [load for load in loads if not isinstance(load, PointMoment)]


def _load_integral(loads: Sequence[Load], n: int, x: Numbers, right: bool = True) -> Numbers:
    """What the loads alone add at x to V (n = 0), M (1), the integral of M (2) and its integral (3)."""
    total = 0.0 * x
    for load in loads:
        match load:
            case PointLoad(force, at):
                total = total - force * _powers(x - at, n, right)
            case UniformLoad(intensity, start, end):
                total = total - intensity * (_powers(x - start, n + 1, right) - _powers(x - end, n + 1, right))
            case PointMoment(moment, at):
                total = total - moment * _powers(x - at, n - 1, right)
    return total


def _validate(span: float, supports: str, loads: tuple[Load, ...], EI: Numbers, GAs: Numbers) -> None:
    problems = []
    if not (isfinite(span) and span > 0):
        raise InputError(Problem("span", f"{span:g}", "is not a length a beam can have", "a positive length in mm"))
    if supports not in SUPPORTS:
        problems.append(Problem("supports", f'"{supports}"', "is not known", "one of " + ", ".join(SUPPORTS)))
    for number, load in enumerate(loads, 1):
        problems += _problems_of_load(load, span, f"load {number}")
    if not np.all(np.isfinite(EI) & (np.asarray(EI) > 0)):
        problems.append(Problem("EI", str(EI), "is not a stiffness", "positive finite numbers in N mm2"))
    if not np.all(np.asarray(GAs) > 0):
        problems.append(Problem("GAs", str(GAs), "is not a stiffness", "positive numbers in N, or infinite"))
    if np.ndim(EI) and np.ndim(GAs) and np.shape(EI) != np.shape(GAs):
        problems.append(Problem("GAs", f"shape {np.shape(GAs)}", "differs from EI", f"shape {np.shape(EI)}"))
    if problems:
        raise InputError(problems)


def _problems_of_load(load: Load, span: float, part: str) -> list[Problem]:
    fields = vars(load)
    problems = [
        Problem(key, f"{value:g}", "is not a finite number", "a finite number", part=part)
        for key, value in fields.items()
        if not isfinite(value)
    ]
    problems += [
        Problem(key, f"{fields[key]:g} mm", "is off the beam", f"a position from 0 to {span:g} mm", part=part)
        for key in ("at", "start", "end")
        if key in fields and isfinite(fields[key]) and not 0 <= fields[key] <= span
    ]
    if isinstance(load, UniformLoad) and load.end <= load.start:
        problems.append(
            Problem("end", f"{load.end:g} mm", "is not beyond start", f"more than {load.start:g} mm", part=part)
        )
    return problems
