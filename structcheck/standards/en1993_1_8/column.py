"""EN 1993-1-8:2005 6.2.6, what stands behind an end plate: panel in shear, web pressed and pulled, beam's flange.

Recalled, not read. Index wc is the web of the member bolted to, fc its flange, fb the beam's flange, p the end plate.
"""

from structcheck import maths
from structcheck.formula import formula
from structcheck.maths import sqrt
from structcheck.quantities import MPa, N, Nmm, mm, mm2, ratio


@formula("V_wp,Rd", "EN 1993-1-8:2005 (6.7)", trial={"f_y_wc": 235.0, "A_vc": 1012.0, "gamma_M0": 1.0})
def panel_shear_resistance(f_y_wc: MPa, A_vc: mm2, gamma_M0: ratio) -> N:
    """Plastic shear of an unstiffened web panel with d / t_w <= 69 epsilon; A_vc its shear area."""
    return 0.9 * f_y_wc * A_vc / (sqrt(3) * gamma_M0)


@formula("omega_1", "EN 1993-1-8:2005 Table 6.3", trial={"b_eff": 140.0, "t_wc": 5.5, "A_vc": 1012.0})
def reduction_for_shear(b_eff: mm, t_wc: mm, A_vc: mm2) -> ratio:
    """What shear in the panel leaves of its web; beta = 1, a beam on one side (Table 5.4)."""
    return 1 / sqrt(1 + 1.3 * (b_eff * t_wc / A_vc) ** 2)


@formula(
    "b_eff,c,wc",
    "EN 1993-1-8:2005 (6.11)",
    trial={"t_fb": 7.4, "a_p": 4.0, "t_fc": 8.5, "s": 12.0, "s_p": 30.0},
)
def pressed_width(t_fb: mm, a_p: mm, t_fc: mm, s: mm, s_p: mm) -> mm:
    """Length of web that a beam's flange presses through its weld, the end plate and the flange.

    s    root radius of a rolled section
    s_p  what the end plate adds at 45 degrees: t_p, and up to 2 t_p where it goes on beyond the weld
    """
    return t_fb + 2 * sqrt(2) * a_p + 5 * (t_fc + s) + s_p


@formula(
    "lambda_p",
    "EN 1993-1-8:2005 (6.13c)",
    trial={"b_eff": 140.0, "d_wc": 92.0, "f_y_wc": 235.0, "E": 210000.0, "t_wc": 5.5},
)
def web_slenderness(b_eff: mm, d_wc: mm, f_y_wc: MPa, E: MPa, t_wc: mm) -> ratio:
    """Slenderness of the pressed web; d_wc clear between its roots."""
    return 0.932 * sqrt(b_eff * d_wc * f_y_wc / (E * t_wc**2))


@formula("rho", "EN 1993-1-8:2005 (6.13b)", trial={"lambda_p": 0.9})
def plate_reduction(lambda_p: ratio) -> ratio:
    """What buckling leaves of a pressed web more slender than 0.72."""
    return (lambda_p - 0.2) / lambda_p**2


@formula("k_wc", "EN 1993-1-8:2005 (6.14)", trial={"n": 0.8})
def reduction_for_axial_stress(n: ratio) -> ratio:
    """What pressing stress along the web leaves of it; n that stress at the root of the fillet over f_y."""
    return maths.minimum(1.0, 1.7 - n)


@formula(
    "F_c,wc,Rd",
    "EN 1993-1-8:2005 (6.9)",
    trial={"omega": 0.8, "k_wc": 1.0, "rho": 0.9, "b_eff": 140.0, "t_wc": 5.5, "f_y_wc": 235.0, "gamma": 1.0},
)
def web_compression_resistance(
    omega: ratio, k_wc: ratio, rho: ratio, b_eff: mm, t_wc: mm, f_y_wc: MPa, gamma: ratio
) -> N:
    """An unstiffened web pressed from one side; gamma_M0 with rho = 1, gamma_M1 with rho of buckling."""
    return omega * k_wc * rho * b_eff * t_wc * f_y_wc / gamma


@formula(
    "F_t,wc,Rd",
    "EN 1993-1-8:2005 (6.15)",
    trial={"omega": 0.8, "b_eff": 140.0, "t_wc": 5.5, "f_y_wc": 235.0, "gamma_M0": 1.0},
)
def web_tension_resistance(omega: ratio, b_eff: mm, t_wc: mm, f_y_wc: MPa, gamma_M0: ratio) -> N:
    """A web pulled by one or more rows; b_eff the effective length of their T-stub. With omega = 1 (6.22), a beam's."""
    return omega * b_eff * t_wc * f_y_wc / gamma_M0


@formula("F_c,fb,Rd", "EN 1993-1-8:2005 (6.21)", trial={"M_c_Rd": 29.1e6, "h": 160.0, "t_fb": 7.4})
def beam_compression_resistance(M_c_Rd: Nmm, h: mm, t_fb: mm) -> N:
    """Flange and web of the beam in compression, at the middle of its flange."""
    return M_c_Rd / (h - t_fb)
