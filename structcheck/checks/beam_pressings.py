"""The forces a single beam is pressed by: its loads and, where it sits on them, its supports."""

from collections.abc import Sequence

from structcheck.checks.basis import Basis, Case, from_rated
from structcheck.checks.beam_description import Beam, BeamLoad
from structcheck.checks.beam_statics import solved
from structcheck.checks.introduction import Pressing
from structcheck.showing import show

SUPPORTS = {"simple": (0, 1), "propped": (1,), "fixed": (), "cantilever": ()}
"""Ends that rest on something; a built-in end is held by its joint."""


def beam_pressings(beam: Beam, loads: Sequence[BeamLoad], basis: Basis) -> tuple[Pressing, ...]:
    """Every local force in the three central cases, with the moment and shear alongside.

    A load spread over part of the span is a pad of that length; one over the whole span has no place that it presses.
    """
    solution = solved(beam, loads)
    points = [load for load in loads if load.over < beam.span]
    ends = [(0.0, solution.reaction_left), (beam.span, solution.reaction_right)]

    def make(case: Case, k: float) -> list[Pressing]:
        found = []
        for load in points:
            M = float(solution.M(load.at))
            V = max(abs(float(solution.V(load.at, side))) for side in ("left", "right"))
            place = f"under the load, x = {show(load.at, 'mm')}"
            to_end = min(load.at, beam.span - load.at)
            flange = "compression" if M >= 0 else "tension"
            found.append(
                Pressing(case, "load", place, load.load * k, abs(M) * k, V * k, to_end, flange, pad=load.over or None)
            )
        for index in SUPPORTS[beam.supports]:
            x, force = ends[index]
            place = f"at the support, x = {show(x, 'mm')}"
            found.append(Pressing(case, "support", place, abs(float(force)) * k, 0.0, abs(float(force)) * k, 0.0))
        return found

    return tuple(pressing for case in from_rated(basis, make) for pressing in case)
