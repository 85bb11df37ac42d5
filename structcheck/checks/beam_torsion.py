"""Torsion of a beam whose loads stand beside the shear centre of its pieces."""

from collections.abc import Sequence

from structcheck.analysis.beam import BeamSolution, Load, PointLoad, UniformLoad
from structcheck.analysis.warping import Torque, Twist, twist
from structcheck.checks.beam_description import Beam, eccentricity
from structcheck.checks.member_forms import E, G
from structcheck.standards.handbook_torsion import torsion_length


def twist_of_beam(beam: Beam, solution: BeamSolution, x: float, side: str) -> Twist:
    """Internal torsion of all pieces together at x, from the loads at rated force; sections may be a sweep."""
    kappa = torsion_length(G, beam.section.It, E, beam.section.Iw, 1.0)
    e = eccentricity(beam)
    return twist(beam.span, [Torque(force * e, at) for force, at in resultants(solution.loads)], kappa, x, side)


def resultants(loads: Sequence[Load]) -> list[tuple[float, float]]:
    """(force, place) of each load; a spread one counts at its middle, which is safe."""
    spread = [load for load in loads if isinstance(load, UniformLoad)]
    found = [(load.intensity * (load.end - load.start), (load.start + load.end) / 2) for load in spread]
    return found + [(load.force, load.at) for load in loads if isinstance(load, PointLoad)]
