"""Guides and sliding: when a bush jams, and how far play lets it lean."""

from structcheck.formula import formula
from structcheck.quantities import N, mm, ratio

BRACKET = "Beer and Johnston, Vector Mechanics: Statics, movable bracket (read), derived again"


@formula("2 mu e / L", BRACKET, trial={"mu": 0.35, "e": 15.0, "L": 120.0})
def binding_ratio(mu: ratio, e: mm, L: mm) -> ratio:
    """Friction of a guide over the force that should move it; at 1 it jams, whatever the force.

    mu  friction between guide and column
    e   distance of the force from the axis of the guide
    L   between the outer edges of contact: one bush, or two short ones far apart
    """
    return 2 * mu * e / L


@formula("N_g", BRACKET, trial={"F": 10e3, "e": 15.0, "L": 120.0})
def side_force(F: N, e: mm, L: mm) -> N:
    """Force across the column at each end of a guide, from a force F along it at the distance e."""
    return F * e / L
