"""A round pin or roller on a flat or in a hollow, steel on steel: Hertz, and the rule of roller bearings."""

from structcheck import maths
from structcheck.formula import formula
from structcheck.maths import sqrt
from structcheck.quantities import MPa, N, mm, ratio

HERTZ = "Hertz, line contact of two steel bodies"
ROLLER = "EN 1337-4:2004, line contact of rollers (recalled, not read)"
FIRST_YIELD = 1.67
"""Peak pressure over f_y at which steel first yields, below the surface (Hertz and Tresca)."""


@formula("R", "relative curvature", trial={"R_1": 12.5, "R_2": 13.0})
def relative_radius(R_1: mm, R_2: mm) -> mm:
    """Radius of the roller on a flat that touches as a pin of radius R_1 does in a hollow of radius R_2."""
    return R_1 * R_2 / (R_2 - R_1)


@formula("p_0", HERTZ, trial={"F": 50e3, "L": 60.0, "R": 12.5, "E": 210e3, "nu": 0.3})
def peak_pressure(F: N, L: mm, R: mm, E: MPa, nu: ratio) -> MPa:
    """Greatest pressure in a contact of length L, both bodies of the same steel."""
    return sqrt(F * E / (2 * maths.pi * (1 - nu**2) * L * R))


@formula("N_Rd", ROLLER, trial={"R": 12.5, "L": 60.0, "f_u": 360.0, "E": 210e3, "gamma_m": 1.0})
def roller_resistance(R: mm, L: mm, f_u: MPa, E: MPa, gamma_m: ratio) -> N:
    """Force a contact bears; f_u of the softer body. It lets the surface yield a little."""
    return 23 * R * L * f_u**2 / (E * gamma_m**2)
