"""Section 6.3.2: lateral torsional buckling. The general case and that for rolled or equivalent welded sections
must not be mixed: each has its own plateau, curves and, the second alone, the factor f."""

from structcheck import maths
from structcheck.formula import formula
from structcheck.maths import maximum, minimum, sqrt
from structcheck.quantities import MPa, N, Nmm, mm, mm3, mm4, mm6, ratio

CODE = "EN 1993-1-1:2005"
STABILITY = "elastic stability: doubly symmetric section, fork ends, k = k_w = 1 (common practice beside EN 1993-1-1)"


@formula("N_cr,z", STABILITY, trial={"E": 210e3, "I_z": 788.1e4, "L": 5700.0})
def euler_term(E: MPa, I_z: mm4, L: mm) -> N:
    """pi^2 E I_z / L^2; L between the supports that hold the section against twisting and moving sideways."""
    return maths.pi**2 * E * I_z / L**2


@formula(
    "M_cr",
    STABILITY,
    trial={
        "C_1": 1.127,
        "N_cr_z": 502.75e3,
        "I_w": 199.1e9,
        "I_z": 788.1e4,
        "G": 80770.0,
        "I_t": 28.15e4,
        "C_2": 0.454,
        "z_g": 165.0,
    },
)
def critical_moment(C_1: ratio, N_cr_z: N, I_w: mm6, I_z: mm4, G: MPa, I_t: mm4, C_2: ratio, z_g: mm) -> Nmm:
    """Critical moment.

    C_1, C_2  by the shape of the moment diagram and the load
    z_g       height of the load above the shear centre; above is positive and makes it worse
    """
    return C_1 * N_cr_z * (sqrt(I_w / I_z + G * I_t / N_cr_z + (C_2 * z_g) ** 2) - C_2 * z_g)


@formula("lambda_LT", f"{CODE} 6.3.2.2(1)", trial={"W_y": 804.3e3, "f_y": 235.0, "M_cr": 113.9e6})
def slenderness(W_y: mm3, f_y: MPa, M_cr: Nmm) -> ratio:
    """Relative slenderness; W_pl, W_el or W_eff by the class."""
    return sqrt(W_y * f_y / M_cr)


@formula("Phi_LT", f"{CODE} 6.3.2.2(1)", trial={"alpha_LT": 0.76, "lambda_LT": 0.89})
def phi_general(alpha_LT: ratio, lambda_LT: ratio) -> ratio:
    """Auxiliary of the general case; alpha_LT of Table 6.3 by the curves of Table 6.4."""
    return 0.5 * (1 + alpha_LT * (lambda_LT - 0.2) + lambda_LT**2)


@formula("chi_LT", f"{CODE} (6.56)", trial={"Phi_LT": 1.158, "lambda_LT": 0.89})
def reduction_general(Phi_LT: ratio, lambda_LT: ratio) -> ratio:
    """Reduction factor of the general case, at most 1."""
    return minimum(1 / (Phi_LT + sqrt(maximum(Phi_LT**2 - lambda_LT**2, 0))), 1)


@formula("Phi_LT", f"{CODE} 6.3.2.3(1)", trial={"alpha_LT": 0.49, "lambda_LT": 1.288})
def phi_rolled(alpha_LT: ratio, lambda_LT: ratio) -> ratio:
    """Auxiliary for rolled sections (plateau 0.4, beta 0.75); alpha_LT by the curves of Table 6.5."""
    return 0.5 * (1 + alpha_LT * (lambda_LT - 0.4) + 0.75 * lambda_LT**2)


@formula("chi_LT", f"{CODE} (6.57)", trial={"Phi_LT": 1.34, "lambda_LT": 1.288})
def reduction_rolled(Phi_LT: ratio, lambda_LT: ratio) -> ratio:
    """Reduction factor for rolled sections, at most 1 and at most 1/lambda_LT^2."""
    root = sqrt(maximum(Phi_LT**2 - 0.75 * lambda_LT**2, 0))
    return minimum(1 / (Phi_LT + root), 1, 1 / lambda_LT**2)


@formula("f", f"{CODE} 6.3.2.3(2)", trial={"k_c": 0.94, "lambda_LT": 1.288})
def diagram_factor(k_c: ratio, lambda_LT: ratio) -> ratio:
    """Gain from the shape of the moment diagram, for rolled sections alone; k_c of Table 6.6, at most 1."""
    return minimum(1 - 0.5 * (1 - k_c) * (1 - 2 * (lambda_LT - 0.8) ** 2), 1)


@formula("chi_LT,mod", f"{CODE} (6.58)", trial={"chi_LT": 0.48, "f": 0.984, "lambda_LT": 1.288})
def reduction_modified(chi_LT: ratio, f: ratio, lambda_LT: ratio) -> ratio:
    """Reduction factor for rolled sections with f, at most 1 and at most 1/lambda_LT^2."""
    return minimum(chi_LT / f, 1, 1 / lambda_LT**2)


@formula("M_b,Rd", f"{CODE} (6.55)", trial={"chi_LT": 0.48, "W_y": 804.3e3, "f_y": 235.0, "gamma_M1": 1.0})
def buckling_resistance(chi_LT: ratio, W_y: mm3, f_y: MPa, gamma_M1: ratio) -> Nmm:
    """Buckling resistance moment."""
    return chi_LT * W_y * f_y / gamma_M1
