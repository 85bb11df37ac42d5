"""Section 6.3.1: buckling of members in compression; critical forces by elastic stability."""

from collections.abc import Mapping

from structcheck import maths
from structcheck.formula import formula
from structcheck.maths import maximum, minimum, sqrt
from structcheck.quantities import MPa, N, mm, mm2, mm4, mm6, ratio

CODE = "EN 1993-1-1:2005"

IMPERFECTION: Mapping[str, float] = {"a0": 0.13, "a": 0.21, "b": 0.34, "c": 0.49, "d": 0.76}
"""Imperfection factor alpha of each buckling curve (Table 6.1)."""


@formula("N_cr", "elastic stability, Euler", trial={"E": 210e3, "I": 8560e4, "L_cr": 5600.0})
def critical_force(E: MPa, I: mm4, L_cr: mm) -> N:  # noqa: E741
    """Critical force of flexural buckling about one axis.

    I     of the gross section, in class 4 too
    L_cr  buckling length about that axis
    """
    return maths.pi**2 * E * I / L_cr**2


@formula(
    "N_cr,T",
    "elastic stability, Timoshenko and Gere",
    trial={"i_0": 90.0, "G": 81e3, "I_t": 28.15e4, "E": 210e3, "I_w": 199.1e9, "L_T": 3000.0},
)
def critical_force_torsion(i_0: mm, G: MPa, I_t: mm4, E: MPa, I_w: mm6, L_T: mm) -> N:
    """Critical force of torsional buckling, ends held against twisting.

    i_0  polar radius of gyration about the shear centre: i_0^2 = i_y^2 + i_z^2 + y_0^2
    """
    return (G * I_t + maths.pi**2 * E * I_w / L_T**2) / i_0**2


@formula(
    "N_cr,TF",
    "elastic stability, Timoshenko and Gere; one axis of symmetry",
    trial={"N_cr_y": 1.2e6, "N_cr_T": 0.9e6, "beta": 0.7},
)
def critical_force_torsional_flexural(N_cr_y: N, N_cr_T: N, beta: ratio) -> N:
    """Critical force of torsional-flexural buckling of a section with the axis of symmetry y.

    N_cr_y  of flexure about the axis of symmetry, which couples with twisting
    beta    1 - (y_0 / i_0)^2, y_0 from centroid to shear centre
    """
    together = N_cr_y + N_cr_T
    return (together - sqrt(together**2 - 4 * beta * N_cr_y * N_cr_T)) / (2 * beta)


@formula("lambda_bar", f"{CODE} (6.49)", trial={"A": 14900.0, "f_y": 235.0, "N_cr": 5657e3})
def slenderness(A: mm2, f_y: MPa, N_cr: N) -> ratio:
    """Relative slenderness; A_eff in class 4."""
    return sqrt(A * f_y / N_cr)


@formula("Phi", f"{CODE} (6.49)", trial={"alpha": 0.34, "lambda_bar": 0.655})
def phi(alpha: ratio, lambda_bar: ratio) -> ratio:
    """Auxiliary of the reduction factor; alpha of Table 6.1."""
    return 0.5 * (1 + alpha * (lambda_bar - 0.2) + lambda_bar**2)


@formula("chi", f"{CODE} (6.49)", trial={"Phi": 0.792, "lambda_bar": 0.655})
def reduction(Phi: ratio, lambda_bar: ratio) -> ratio:
    """Reduction factor of flexural buckling, at most 1."""
    return minimum(1 / (Phi + sqrt(maximum(Phi**2 - lambda_bar**2, 0))), 1)


@formula("N_b,Rd", f"{CODE} (6.47), (6.48)", trial={"chi": 0.67, "A": 14900.0, "f_y": 235.0, "gamma_M1": 1.0})
def buckling_resistance(chi: ratio, A: mm2, f_y: MPa, gamma_M1: ratio) -> N:
    """Buckling resistance; A_eff in class 4."""
    return chi * A * f_y / gamma_M1
