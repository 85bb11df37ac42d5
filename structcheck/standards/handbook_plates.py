"""Plates in bending, by the textbooks: strips under a pad, local spread, punching, circular plates.

Moments with "per width" are N mm on each mm, so N. Poisson's ratio is an argument, 0.3 for steel.
"""

from structcheck import maths
from structcheck.formula import formula
from structcheck.maths import sqrt
from structcheck.quantities import MPa, N, Nmm, mm, ratio

PLASTIC = "EN 1993-1-1:2005 6.2.5, plate of unit width"
STATICS = "statics of a strip"
THEORY = "thin plate theory, closed form (Timoshenko and Woinowsky-Krieger)"


@formula("m_pl,Rd", PLASTIC, trial={"t": 20.0, "f_y": 225.0, "gamma_M0": 1.0})
def plastic_moment(t: mm, f_y: MPa, gamma_M0: ratio) -> N:
    """Plastic moment per width. A field of elastic moments whose von Mises moment stays below it is safe."""
    return t**2 / 4 * f_y / gamma_M0


@formula("sigma", "elastic plate of unit width", trial={"m": 8e3, "t": 20.0})
def bending_stress(m: N, t: mm) -> MPa:
    """Stress at the face of a plate under the moment per width m."""
    return 6 * m / t**2


@formula("M_mid", STATICS, trial={"F": 100e3, "L": 80.0, "a": 60.0})
def strip_moment_between(F: N, L: mm, a: mm) -> Nmm:
    """Moment midway between two line supports L apart under F spread evenly over a; negative when a > 2 L."""
    return F * L / 4 - F * a / 8


@formula("M_web", STATICS, trial={"F": 100e3, "a": 60.0, "reach": 35.0})
def strip_moment_beyond(F: N, a: mm, reach: mm) -> Nmm:
    """Moment over a line support beyond which `reach` of the pad length a stands out; F is the whole force."""
    return F / a * reach**2 / 2


@formula("b_eff", "1:1 spread to mid-plane, bounded by plate elements", trial={"b": 60.0, "t": 20.0, "L": 27.0})
def strip_width(b: mm, t: mm, L: mm) -> mm:
    """Width of plate that bends under a pad of width b, before the plate's own edge ends it.

    L  distance over which the strip spans, or stands out; a short strip does not spread by the whole thickness
    """
    return b + maths.minimum(t, 0.7 * L)


@formula("V_Rd", "EN 1993-1-1:2005 (6.18)", trial={"u": 240.0, "t": 20.0, "f_y": 225.0, "gamma_M0": 1.0})
def punching_resistance(u: mm, t: mm, f_y: MPa, gamma_M0: ratio) -> N:
    """Plastic shear through the thickness along the perimeter u of the loaded patch, no spread counted."""
    return u * t * f_y / sqrt(3) / gamma_M0


@formula("r'_0", "Roark, Formulas for Stress and Strain, 7th ed., chapter 11", trial={"r_0": 4.0, "t": 20.0})
def equivalent_radius(r_0: mm, t: mm) -> mm:
    """Radius with which the stress under a small patch is computed, r_0 < 0.5 t (Westergaard; recalled)."""
    return sqrt(1.6 * r_0**2 + t**2) - 0.675 * t


@formula("D", THEORY, trial={"E": 210e3, "t": 20.0, "nu": 0.3})
def rigidity(E: MPa, t: mm, nu: ratio) -> Nmm:
    """Bending stiffness of a plate per width."""
    return E * t**3 / (12 * (1 - nu**2))


@formula("w", THEORY, trial={"q": 1.0, "R": 200.0, "D": 1.54e8, "nu": 0.3})
def circular_deflection_simple(q: MPa, R: mm, D: Nmm, nu: ratio) -> mm:
    """Deflection in the middle of a circular plate of radius R, edge simply supported, under pressure q."""
    return (5 + nu) / (1 + nu) * q * R**4 / (64 * D)


@formula("w", THEORY, trial={"q": 1.0, "R": 200.0, "D": 1.54e8})
def circular_deflection_clamped(q: MPa, R: mm, D: Nmm) -> mm:
    """Deflection in the middle of a circular plate of radius R, edge clamped, under pressure q."""
    return q * R**4 / (64 * D)


@formula("m", THEORY, trial={"q": 1.0, "R": 200.0, "nu": 0.3})
def circular_moment_simple(q: MPa, R: mm, nu: ratio) -> N:
    """Moment per width in the middle of a circular plate, edge simply supported, under pressure q."""
    return (3 + nu) * q * R**2 / 16


@formula("m", THEORY, trial={"q": 1.0, "R": 200.0, "nu": 0.3})
def circular_moment_clamped(q: MPa, R: mm, nu: ratio) -> N:
    """Moment per width in the middle of a circular plate, edge clamped, under pressure q."""
    return (1 + nu) * q * R**2 / 16


@formula("m_edge", THEORY, trial={"q": 1.0, "R": 200.0})
def circular_edge_moment(q: MPa, R: mm) -> N:
    """Moment per width at the clamped edge of a circular plate under pressure q, hogging."""
    return -q * R**2 / 8


@formula("l_eff", "1:1 spread to the root of a cantilever plate", trial={"b": 40.0, "m": 30.0, "end": 30.0})
def root_length(b: mm, m: mm, end: mm) -> mm:
    """Length of a flange's root that bends under a pad of length b at the lever m.

    end  root on the side of the beam's end, at most m

    Elastic theory of a long cantilever plate has 1.96 m for a point load at its tip (root moment 0.509 F).
    """
    return b + m + maths.minimum(m, end)


@formula(
    "F_f,Rd",
    "form of EN 1993-6:2007 6.7 (recalled)",
    trial={"l_eff": 100.0, "t_f": 10.0, "f_y": 235.0, "m": 30.0, "sigma": 80.0, "gamma_M0": 1.0},
)
def flange_resistance(l_eff: mm, t_f: mm, f_y: MPa, m: mm, sigma: MPa, gamma_M0: ratio) -> N:
    """Force at the lever m from the root that one side of a flange bears in bending.

    sigma  stress of the beam's own bending in the middle of the flange
    """
    return l_eff * t_f**2 / 4 * f_y / gamma_M0 / m * (1 - (sigma * gamma_M0 / f_y) ** 2)


@formula("M_end", STATICS, trial={"F": 100e3, "L": 80.0, "a": 60.0})
def fixed_end_moment(F: N, L: mm, a: mm) -> Nmm:
    """Moment at each held end of a span L under F spread evenly over a in its middle, a at most L."""
    return F * L / 8 * (1 - (a / L) ** 2 / 3)


@formula("m", "strip of wall as long as the moment's", trial={"M": 125e3, "b": 120.0})
def wall_moment(M: Nmm, b: mm) -> N:
    """Moment per width in a wall where a part M of an end moment enters it over a length b.

    No spread along the wall is counted: by plate elements a couple on a line makes 0.5 to 0.83 of this, but a spread
    at 1:1 would be as much as 2.4 times too kind.
    """
    return M / b
