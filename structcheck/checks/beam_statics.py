"""Internal forces of a beam: its loads at rated force, the places that can govern, and the twist of channels."""

from collections.abc import Sequence
from math import inf
from typing import Any

import numpy as np

from structcheck.analysis.beam import BeamSolution, PointLoad, UniformLoad, solve
from structcheck.analysis.warping import Ends
from structcheck.checks.basis import Basis, Case, from_rated
from structcheck.checks.beam_description import Beam, BeamLoad, eccentricity
from structcheck.checks.beam_torsion import STATES, twist_of_beam
from structcheck.checks.member_forms import E, G
from structcheck.checks.member_stress import Station
from structcheck.formula import remembered
from structcheck.showing import show

SHORTEST = 1e-6
"""Of the span: a load spread over less stands at a point."""

SAMPLES = 16
"""Stations inside a spread load, where bending with shear may be worst between its ends."""


def solved(beam: Beam, loads: Sequence[BeamLoad]) -> BeamSolution:
    """The statics of all pieces together at rated force."""
    section = beam.section
    if beam.turned:
        free = section.Iz - section.Iyz**2 / section.Iy
        return _kept(beam.span, beam.supports, tuple(loads), beam.pieces * E * free, beam.pieces * G * section.Asy)
    EI, GAs = beam.pieces * E * second_moment(section), beam.pieces * G * section.Asz
    return _kept(beam.span, beam.supports, tuple(loads), EI, GAs)


def second_moment(section: Any) -> Any:
    """Second moment for the deflection along z, mm4; an angle free to move sideways bends about both axes."""
    return section.Iy - section.Iyz**2 / section.Iz


def solved_with(beam: Beam, loads: Sequence[BeamLoad], EI: Any, GAs: Any) -> BeamSolution:
    """The statics with stiffnesses given, numbers or arrays."""
    return _solved(beam.span, beam.supports, loads, EI, GAs)


def _solved(span: float, supports: str, loads: Sequence[BeamLoad], EI: Any, GAs: Any) -> BeamSolution:
    lines: list[PointLoad | UniformLoad] = []
    for load in loads:
        if load.over > SHORTEST * span:
            # Rounding must not put the end of a load that covers the span off it.
            start, end = max(load.at - load.over / 2, 0.0), min(load.at + load.over / 2, span)
            lines.append(UniformLoad(load.load / (end - start), start, end))
        else:
            lines.append(PointLoad(load.load, min(load.at, span)))
    return solve(span, supports, lines, EI, GAs)


_kept = remembered(_solved)


def stations(beam: Beam, solution: BeamSolution, basis: Basis, k_cr: float = inf) -> list[Station]:
    """Internal forces at every place that can govern, in the three central cases.

    k_cr  factor on the rated loads at which the beam buckles sideways
    """
    states = STATES[beam.supports] if eccentricity(beam) else STATES["simple"]
    if beam.turned:
        return [station for case in from_rated(basis, lambda *one: _lying(solution, *one)) for station in case]
    rows = places(solution)
    twists = [twist for ends in states for twist in _twists(beam, solution, rows, ends)]
    found = [(x, V, M, twist) for (x, _, V, M), twist in zip(rows * len(states), twists, strict=True)]

    def make(case: Case, k: float) -> list[Station]:
        return [
            Station(
                case,
                f"x = {show(x, 'mm')}",
                V_z=k * V,
                M_y=k * M,
                **{name: k * force for name, force in twist.items()},
                shared=bool(twist),
                to_buckling=k_cr / k,
            )
            for x, V, M, twist in found
        ]

    return [station for case in from_rated(basis, make) for station in case]


def _lying(solution: BeamSolution, case: Case, k: float) -> list[Station]:
    """Stations of a beam on its side; which side is up nobody says, so it is bent either way."""
    return [
        Station(case, f"x = {show(x, 'mm')}", V_y=k * V, M_z=sense * k * M)
        for x, _, V, M in places(solution)
        for sense in (1.0, -1.0)
    ]


def places(solution: BeamSolution) -> list[tuple[Any, str, Any, Any]]:
    """(x, side, V, M): both sides of every load and end, where V vanishes, and samples inside spread loads."""
    found: list[tuple[Any, str, Any, Any]] = []
    for s in solution.stations():
        found += [(s.x, "left", s.V_left, s.M_left), (s.x, "right", s.V_right, s.M_right)]
    for load in solution.loads:
        if isinstance(load, UniformLoad):
            inside = load.start + (load.end - load.start) / SAMPLES * np.arange(1, SAMPLES)
            if np.ndim(solution.reaction_left) == 0:
                V, M = solution.V(inside), solution.M(inside)
                found += [(float(x), "right", float(v), float(m)) for x, v, m in zip(inside, V, M, strict=True)]
            else:
                found += [(float(x), "right", solution.V(x), solution.M(x)) for x in inside]
    return found


def _twists(
    beam: Beam, solution: BeamSolution, rows: Sequence[tuple[Any, str, Any, Any]], ends: Ends
) -> list[dict[str, float]]:
    """What torsion adds to the station at each of the `places`."""
    if not eccentricity(beam):
        return [{}] * len(rows)
    x, side = np.array([row[0] for row in rows], float), np.array([row[1] for row in rows])
    found = twist_of_beam(beam, solution, x, side, ends)
    forces = zip(found.T_t.tolist(), found.T_w.tolist(), found.B.tolist(), strict=True)
    return [{"T": T, "T_w": T_w, "B": B} for T, T_w, B in forces]
