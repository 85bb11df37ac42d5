"""Torsion of a beam whose loads stand beside the shear centre of its pieces."""

from collections.abc import Sequence

import numpy as np

from structcheck.analysis.beam import BeamSolution, Load, PointLoad, UniformLoad
from structcheck.analysis.warping import FORKS, Ends, Numbers, Side, Torque, Twist, twist
from structcheck.checks.beam_description import Beam, eccentricity
from structcheck.checks.member_forms import E, G
from structcheck.standards.handbook_torsion import torsion_length

PARTS = 16
"""Torques that stand for a spread one where an end is built in."""

STATES: dict[str, tuple[Ends, ...]] = {
    "simple": (FORKS,),
    "fixed": (FORKS, Ends(left=True, right=True)),
    "propped": (FORKS, Ends(left=True)),
    "cantilever": (Ends(free=True), Ends(left=True, free=True)),
}
"""How the ends may be held: how far a built-in one is held from warping nobody knows, so both bounds are taken."""

WORDS = {
    "simple": "ends held against twisting, free to warp",
    "fixed": "ends held against twisting; both free to warp and held from it, the worse counts",
    "propped": "ends held against twisting; the built-in one both free to warp and held from it, the worse counts",
    "cantilever": "root held against twisting; both free to warp and held from it, the worse counts",
}
"""What is said of them."""


def twist_of_beam(beam: Beam, solution: BeamSolution, x: Numbers, side: Side, ends: Ends) -> Twist:
    """Internal torsion of all pieces together at x, from the loads at rated force.

    x and its side may be arrays, or else the sections a sweep.
    """
    kappa = torsion_length(G, beam.section.It, E, beam.section.Iw, 1.0)
    e = eccentricity(beam)
    # Beyond an end there is no beam.
    sides = np.where(np.asarray(x) <= 0, "right", np.where(np.asarray(x) >= beam.span, "left", side))
    found = resultants(solution.loads, 1 if beam.supports == "simple" else PARTS)
    return twist(beam.span, [Torque(force * e, at) for force, at in found], kappa, x, sides, ends)


def resultants(loads: Sequence[Load], parts: int = 1) -> list[tuple[float, float]]:
    """(force, place) of each load; a spread one in equal parts, each at its middle.

    Between forks a single one at the middle is safe.
    """
    found = [(load.force, load.at) for load in loads if isinstance(load, PointLoad)]
    for load in loads:
        if isinstance(load, UniformLoad):
            length = (load.end - load.start) / parts
            middles = load.start + length * (np.arange(parts) + 0.5)
            found += [(load.intensity * length, float(at)) for at in middles]
    return found
