"""Section 6.2: resistance of cross-sections."""

from structcheck.formula import formula
from structcheck.maths import maximum, minimum, sqrt
from structcheck.quantities import MPa, N, Nmm, mm, mm2, mm3, ratio

CODE = "EN 1993-1-1:2005"


@formula("N_pl,Rd", f"{CODE} (6.6), (6.10)", trial={"A": 2949.0, "f_y": 355.0, "gamma_M0": 1.0})
def plastic_axial_resistance(A: mm2, f_y: MPa, gamma_M0: ratio) -> N:
    """Resistance of the gross section to tension, or to compression in classes 1 to 3."""
    return A * f_y / gamma_M0


@formula("N_c,Rd", f"{CODE} (6.11)", trial={"A_eff": 6095.0, "f_y": 355.0, "gamma_M0": 1.0})
def effective_axial_resistance(A_eff: mm2, f_y: MPa, gamma_M0: ratio) -> N:
    """Resistance to compression in class 4; the moment N e_N is counted apart."""
    return A_eff * f_y / gamma_M0


@formula("N_u,Rd", f"{CODE} (6.7)", trial={"A_net": 600.0, "f_u": 360.0, "gamma_M2": 1.25})
def net_axial_resistance(A_net: mm2, f_u: MPa, gamma_M2: ratio) -> N:
    """Resistance of the net section at holes to tension."""
    return 0.9 * A_net * f_u / gamma_M2


@formula("M_pl,Rd", f"{CODE} (6.13)", trial={"W_pl": 146.7e3, "f_y": 355.0, "gamma_M0": 1.0})
def plastic_bending_resistance(W_pl: mm3, f_y: MPa, gamma_M0: ratio) -> Nmm:
    """Bending resistance, classes 1 and 2."""
    return W_pl * f_y / gamma_M0


@formula("M_el,Rd", f"{CODE} (6.14)", trial={"W_el": 973.9e3, "f_y": 355.0, "gamma_M0": 1.0})
def elastic_bending_resistance(W_el: mm3, f_y: MPa, gamma_M0: ratio) -> Nmm:
    """Bending resistance, class 3; W_el is the least."""
    return W_el * f_y / gamma_M0


@formula("M_c,Rd", f"{CODE} (6.15)", trial={"W_eff": 1270e3, "f_y": 355.0, "gamma_M0": 1.0})
def effective_bending_resistance(W_eff: mm3, f_y: MPa, gamma_M0: ratio) -> Nmm:
    """Bending resistance, class 4; W_eff is the least of the effective section."""
    return W_eff * f_y / gamma_M0


@formula("V_pl,Rd", f"{CODE} (6.18)", trial={"A_v": 1769.0, "f_y": 355.0, "gamma_M0": 1.0})
def plastic_shear_resistance(A_v: mm2, f_y: MPa, gamma_M0: ratio) -> N:
    """Plastic shear resistance without torsion.

    A_v  shear area of 6.2.6(3); valid where h_w/t_w is at most 72 epsilon/eta
    """
    return A_v * (f_y / sqrt(3)) / gamma_M0


@formula("tau_Rd", f"{CODE} 6.2.7", trial={"f_y": 355.0})
def shear_yield_strength(f_y: MPa) -> MPa:
    """Yield strength in shear, before gamma_M0."""
    return f_y / sqrt(3)


@formula("h_w/t_w", f"{CODE} (6.22)", trial={"epsilon": 0.81, "eta": 1.0})
def shear_buckling_limit(epsilon: ratio, eta: ratio) -> ratio:
    """Greatest slenderness of an unstiffened web that does not buckle in shear."""
    return 72 * epsilon / eta


@formula("rho", f"{CODE} 6.2.8(3)", trial={"V_Ed": 525e3, "V_pl_Rd": 689e3})
def shear_reduction(V_Ed: N, V_pl_Rd: N) -> ratio:
    """Loss of yield strength over the shear area; counted only where V_Ed is above V_pl,Rd / 2."""
    return (2 * V_Ed / V_pl_Rd - 1) ** 2


@formula("rho", f"{CODE} 6.2.8(4)", trial={"V_Ed": 250e3, "V_pl_T_Rd": 300e3})
def shear_reduction_with_torsion(V_Ed: N, V_pl_T_Rd: N) -> ratio:
    """Loss of yield strength over the shear area where torsion acts too; only where V_Ed is above V_pl,T,Rd / 2."""
    return (2 * V_Ed / V_pl_T_Rd - 1) ** 2


@formula(
    "M_y,V,Rd",
    f"{CODE} (6.30)",
    trial={"W_pl_y": 1501e3, "rho": 0.27, "A_w": 3617.0, "t_w": 9.5, "f_y": 275.0, "gamma_M0": 1.0},
)
def bending_resistance_with_shear(W_pl_y: mm3, rho: ratio, A_w: mm2, t_w: mm, f_y: MPa, gamma_M0: ratio) -> Nmm:
    """Bending resistance about the strong axis of an I with equal flanges under high shear.

    A_w  h_w t_w, the web between the flanges
    """
    return (W_pl_y - rho * A_w**2 / (4 * t_w)) * f_y / gamma_M0


@formula("f_y,red", f"{CODE} (6.29)", trial={"rho": 0.27, "f_y": 275.0})
def reduced_yield_strength(rho: ratio, f_y: MPa) -> MPa:
    """Yield strength over the shear area under high shear."""
    return (1 - rho) * f_y


@formula("n", f"{CODE} 6.2.9.1(5)", trial={"N_Ed": 300e3, "N_pl_Rd": 1047e3})
def axial_share(N_Ed: N, N_pl_Rd: N) -> ratio:
    """Axial force over its resistance."""
    return N_Ed / N_pl_Rd


@formula("a", f"{CODE} 6.2.9.1(5)", trial={"A": 6260.0, "b": 160.0, "t_f": 11.5})
def web_share_of_i(A: mm2, b: mm, t_f: mm) -> ratio:
    """Share of the web in the area of a rolled or welded I, at most 0.5."""
    return minimum((A - 2 * b * t_f) / A, 0.5)


@formula("a_w", f"{CODE} 6.2.9.1(5)", trial={"A": 2949.0, "b": 100.0, "t": 6.3})
def web_share_of_hollow(A: mm2, b: mm, t: mm) -> ratio:
    """Share of the webs in the area of a rectangular hollow section, at most 0.5."""
    return minimum((A - 2 * b * t) / A, 0.5)


@formula("a_f", f"{CODE} 6.2.9.1(5)", trial={"A": 2949.0, "h": 150.0, "t": 6.3})
def flange_share_of_hollow(A: mm2, h: mm, t: mm) -> ratio:
    """Share of the flanges in the area of a rectangular hollow section, at most 0.5."""
    return minimum((A - 2 * h * t) / A, 0.5)


@formula("M_N,Rd", f"{CODE} (6.36), (6.39), (6.40)", trial={"M_pl_Rd": 52.08e6, "n": 0.2866, "a": 0.5})
def bending_resistance_with_axial(M_pl_Rd: Nmm, n: ratio, a: ratio) -> Nmm:
    """Bending resistance with axial force: I about y, rectangular hollow section about either axis.

    a  a, a_w or a_f
    """
    return minimum(M_pl_Rd * (1 - n) / (1 - 0.5 * a), M_pl_Rd)


@formula("M_N,z,Rd", f"{CODE} (6.38)", trial={"M_pl_z_Rd": 54.6e6, "n": 0.6, "a": 0.4})
def weak_bending_resistance_with_axial(M_pl_z_Rd: Nmm, n: ratio, a: ratio) -> Nmm:
    """Bending resistance with axial force of an I about z; M_pl,z,Rd where n is at most a."""
    return M_pl_z_Rd * (1 - (maximum(n - a, 0) / (1 - a)) ** 2)


@formula("M_N,Rd", f"{CODE} (6.32)", trial={"M_pl_Rd": 12e6, "n": 0.4})
def plate_bending_resistance_with_axial(M_pl_Rd: Nmm, n: ratio) -> Nmm:
    """Bending resistance with axial force of a solid rectangle."""
    return M_pl_Rd * (1 - n**2)


@formula("alpha", f"{CODE} 6.2.9.1(6)", trial={"n": 0.2866})
def hollow_exponent(n: ratio) -> ratio:
    """Exponent of the biaxial criterion for rectangular hollow sections, at most 6."""
    return minimum(1.66 / (1 - 1.13 * n**2), 6)


@formula("beta", f"{CODE} 6.2.9.1(6)", trial={"n": 0.3})
def i_exponent(n: ratio) -> ratio:
    """Exponent on M_z of the biaxial criterion for I sections, at least 1; that on M_y is 2."""
    return maximum(5 * n, 1)


@formula(
    "(6.41)",
    f"{CODE} (6.41)",
    trial={"M_y_Ed": 20e6, "M_N_y_Rd": 49.5e6, "alpha": 1.83, "M_z_Ed": 8e6, "M_N_z_Rd": 34.1e6, "beta": 1.83},
)
def biaxial_ratio(M_y_Ed: Nmm, M_N_y_Rd: Nmm, alpha: ratio, M_z_Ed: Nmm, M_N_z_Rd: Nmm, beta: ratio) -> ratio:
    """Criterion of biaxial bending, classes 1 and 2; a sum of powers, not a utilisation."""
    return (M_y_Ed / M_N_y_Rd) ** alpha + (M_z_Ed / M_N_z_Rd) ** beta


@formula(
    "(6.2)",
    f"{CODE} (6.2)",
    trial={"N_Ed": 200e3, "N_Rd": 1047e3, "M_y_Ed": 15e6, "M_y_Rd": 42.5e6, "M_z_Ed": 2e6, "M_z_Rd": 34e6},
)
def linear_ratio(N_Ed: N, N_Rd: N, M_y_Ed: Nmm, M_y_Rd: Nmm, M_z_Ed: Nmm, M_z_Rd: Nmm) -> ratio:
    """Sum of the utilisations of axial force and bending: safe for every class and shape."""
    return N_Ed / N_Rd + M_y_Ed / M_y_Rd + M_z_Ed / M_z_Rd


@formula("sigma_v", f"{CODE} 6.2.1(5), its square root times f_y", trial={"sigma": 193.0, "tau": 42.3})
def von_mises_stress(sigma: MPa, tau: MPa) -> MPa:
    """Equivalent stress of one normal stress and shear at the same point.

    The clause compares squares; over f_y this is a utilisation.
    """
    return sqrt(sigma**2 + 3 * tau**2)
