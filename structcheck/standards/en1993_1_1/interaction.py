"""6.3.3 with Annex B: bending and compression of members. n_y and n_z are N_Ed / (chi N_Rk / gamma_M1)."""

from structcheck.formula import formula
from structcheck.maths import maximum, minimum
from structcheck.quantities import ratio

CODE = "EN 1993-1-1:2005"
ANNEX = f"{CODE} Annex B Table B.1"


@formula("C_m", f"{CODE} Annex B Table B.3, linear diagram", trial={"psi": 0.2})
def equivalent_moment_linear(psi: ratio) -> ratio:
    """Factor of equivalent uniform moment for end moments M and psi M, at least 0.4; 0.9 in a frame that sways."""
    return maximum(0.6 + 0.4 * psi, 0.4)


@formula(
    "k_yy, k_zz",
    f"{ANNEX}, classes 1 and 2, I about y, hollow about y and z",
    trial={"C_m": 0.9, "lambda_bar": 0.6, "n": 0.3},
)
def plastic_factor(C_m: ratio, lambda_bar: ratio, n: ratio) -> ratio:
    """Interaction factor about one axis from C_m, slenderness and axial share about the same axis."""
    return minimum(C_m * (1 + (lambda_bar - 0.2) * n), C_m * (1 + 0.8 * n))


@formula("k_zz", f"{ANNEX}, classes 1 and 2, I about z", trial={"C_m": 0.9, "lambda_bar": 0.6, "n": 0.3})
def plastic_factor_weak(C_m: ratio, lambda_bar: ratio, n: ratio) -> ratio:
    """Interaction factor of an I about its weak axis."""
    return minimum(C_m * (1 + (2 * lambda_bar - 0.6) * n), C_m * (1 + 1.4 * n))


@formula("k_yy, k_zz", f"{ANNEX}, classes 3 and 4", trial={"C_m": 0.9, "lambda_bar": 0.6, "n": 0.3})
def elastic_factor(C_m: ratio, lambda_bar: ratio, n: ratio) -> ratio:
    """Interaction factor about one axis of an elastic section."""
    return minimum(C_m * (1 + 0.6 * lambda_bar * n), C_m * (1 + 0.6 * n))


@formula(
    "k_zy",
    f"{CODE} Annex B Table B.2, classes 1 and 2, lambda_z >= 0.4",
    trial={"lambda_z": 0.9, "n_z": 0.3, "C_mLT": 0.9},
)
def torsion_factor_plastic(lambda_z: ratio, n_z: ratio, C_mLT: ratio) -> ratio:
    """Interaction factor of members that twist as they buckle; C_mLT over the length between lateral restraints."""
    slow = 1 - 0.1 * lambda_z * n_z / (C_mLT - 0.25)
    return maximum(slow, 1 - 0.1 * n_z / (C_mLT - 0.25))


@formula(
    "k_zy",
    f"{CODE} Annex B Table B.2, classes 1 and 2, lambda_z < 0.4",
    trial={"lambda_z": 0.3, "n_z": 0.3, "C_mLT": 0.9},
)
def torsion_factor_stocky(lambda_z: ratio, n_z: ratio, C_mLT: ratio) -> ratio:
    """Interaction factor of stocky members that twist as they buckle."""
    return minimum(0.6 + lambda_z, 1 - 0.1 * lambda_z * n_z / (C_mLT - 0.25))


@formula(
    "k_zy",
    f"{CODE} Annex B Table B.2, classes 3 and 4",
    trial={"lambda_z": 0.9, "n_z": 0.3, "C_mLT": 0.9},
)
def torsion_factor_elastic(lambda_z: ratio, n_z: ratio, C_mLT: ratio) -> ratio:
    """Interaction factor of elastic members that twist as they buckle."""
    return maximum(1 - 0.05 * lambda_z * n_z / (C_mLT - 0.25), 1 - 0.05 * n_z / (C_mLT - 0.25))


@formula(
    "(6.61), (6.62)",
    f"{CODE} (6.61), (6.62)",
    trial={"n": 0.26, "k_y": 1.07, "m_y": 0.288, "k_z": 0.405, "m_z": 0.128},
)
def member_ratio(n: ratio, k_y: ratio, m_y: ratio, k_z: ratio, m_z: ratio) -> ratio:
    """Ratio of one of the two equations.

    n         N_Ed over the buckling resistance about y (6.61) or z (6.62)
    m_y, m_z  moments, with N e_N in class 4, over chi_LT M_y,Rk / gamma_M1 and M_z,Rk / gamma_M1
    k_y, k_z  k_yy and k_yz, or k_zy and k_zz
    """
    return n + k_y * m_y + k_z * m_z
