"""Internal forces of a beam: its loads at rated force, the places that can govern, and the twist of channels."""

from collections.abc import Callable, Sequence
from typing import Any

from structcheck.analysis.beam import BeamSolution, PointLoad, UniformLoad, solve
from structcheck.checks.basis import Basis, Case, from_rated
from structcheck.checks.beam_description import Beam, BeamLoad, eccentricity
from structcheck.checks.member_forms import E, G
from structcheck.checks.member_stress import Station, greatest_stress
from structcheck.checks.member_torsion import twist_of_beam
from structcheck.quantities import show

SAMPLES = 16
"""Stations inside a spread load, where bending with shear may be worst between its ends."""


def solved(beam: Beam, loads: Sequence[BeamLoad]) -> BeamSolution:
    """The statics of all pieces together at rated force."""
    lines = []
    for load in loads:
        if load.over:
            # Rounding must not put the end of a load that covers the span off it.
            start, end = max(load.at - load.over / 2, 0.0), min(load.at + load.over / 2, beam.span)
            lines.append(UniformLoad(load.load / (end - start), start, end))
        else:
            lines.append(PointLoad(load.load, min(load.at, beam.span)))
    EI, GAs = beam.pieces * E * beam.section.Iy, beam.pieces * G * beam.section.Asz
    return solve(beam.span, beam.supports, lines, EI, GAs)


def stations(beam: Beam, solution: BeamSolution, basis: Basis) -> list[Station]:
    """Internal forces at every place that can govern, in the three central cases."""
    places = _places(solution)
    twisted = _twist(beam, solution)

    def make(case: Case, k: float) -> list[Station]:
        return [
            Station(
                case,
                f"x = {show(x, 'mm')}",
                V_z=k * V,
                M_y=k * M,
                **{name: k * value for name, value in twisted(x, side).items()},
            )
            for x, side, V, M in places
        ]

    return [station for case in from_rated(basis, make) for station in case]


def _places(solution: BeamSolution) -> list[tuple[float, str, float, float]]:
    """(x, side, V, M): both sides of every load and end, where V vanishes, and samples inside spread loads."""
    found = []
    for s in solution.stations():
        found += [(float(s.x), "left", float(s.V_left), float(s.M_left))]
        found += [(float(s.x), "right", float(s.V_right), float(s.M_right))]
    for load in solution.loads:
        if isinstance(load, UniformLoad):
            step = (load.end - load.start) / SAMPLES
            inside = [load.start + step * k for k in range(1, SAMPLES)]
            found += [(x, "right", float(solution.V(x)), float(solution.M(x))) for x in inside]
    return found


def _twist(beam: Beam, solution: BeamSolution) -> Callable[[float, str], dict[str, float]]:
    """What torsion adds to a station: a function of the place."""
    e = eccentricity(beam)
    if not e:
        return lambda x, side: {}
    if beam.supports == "cantilever":
        # Its free end needs another solution; the torque alone makes the checks say that it is missing.
        torque = sum(_force(load) for load in solution.loads) * e
        return lambda x, side: {"T": torque}
    loads = [(_force(load), _middle(load)) for load in solution.loads]

    def at(x: float, side: str) -> dict[str, float]:
        found = twist_of_beam(beam.section, beam.span, loads, e, x, side)
        return {"T": float(found.T_t), "T_w": float(found.T_w), "B": float(found.B)}

    return at


def _force(load: Any) -> float:
    return load.intensity * (load.end - load.start) if isinstance(load, UniformLoad) else load.force


def _middle(load: Any) -> float:
    return (load.start + load.end) / 2 if isinstance(load, UniformLoad) else load.at


def rated_stress(beam: Beam, net: Any, places: Sequence[Station]) -> float:
    """The greatest nominal elastic stress at rated force, MPa."""
    rated = [station for station in places if station.case.limit == "rated"]
    return greatest_stress(beam.section if net is None else net, rated, beam.pieces).value
