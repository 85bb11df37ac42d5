"""EN 1993-1-8:2005 section 4, welded connections: throats, lengths, fillets, butts, welds to flanges."""

from structcheck.formula import formula
from structcheck.maths import maximum, minimum, sqrt
from structcheck.quantities import MPa, N, N_per_mm, mm, ratio


@formula("a", "common practice, a little under 1/sqrt(2) of EN 1993-1-8:2005 4.5.2(1)", trial={"z": 6.0})
def throat_of_leg(z: mm) -> mm:
    """Throat of a fillet from its smaller leg z, flat or a little hollow."""
    return 0.7 * z


@formula("a", "EN 1993-1-8:2005 4.5.2(1)", trial={"z_1": 6.0, "z_2": 9.0})
def throat_of_unequal_legs(z_1: mm, z_2: mm) -> mm:
    """Throat of a flat fillet with legs z_1 and z_2: height of the largest triangle inside it, from the root."""
    return z_1 * z_2 / sqrt(z_1**2 + z_2**2)


@formula("l_eff", "EN 1993-1-8:2005 4.5.1(1)", trial={"l": 120.0, "a": 4.0})
def effective_length(l: mm, a: mm) -> mm:  # noqa: E741 - the standard's symbol
    """Effective length of a fillet whose ends are not returned: start and end count for nothing.

    l  overall length of full-size weld
    a  throat
    """
    return l - 2 * a


@formula("l_eff,min", "EN 1993-1-8:2005 4.5.1(2)", trial={"a": 4.0}, empirical=True)
def least_effective_length(a: mm) -> mm:
    """A fillet with a shorter effective length than this should not be designed to carry load."""
    return maximum(30, 6 * a)


@formula("f_vw,d", "EN 1993-1-8:2005 4.5.3.3(3)", trial={"f_u": 410.0, "beta_w": 0.85, "gamma_M2": 1.25})
def fillet_shear_strength(f_u: MPa, beta_w: ratio, gamma_M2: ratio) -> MPa:
    """Design shear strength of a fillet weld, simplified method: any direction of the force.

    f_u     nominal tensile strength of the weaker part joined
    beta_w  correlation factor of that part, Table 4.1
    """
    return f_u / sqrt(3) / (beta_w * gamma_M2)


@formula("F_w,Rd", "EN 1993-1-8:2005 4.5.3.3(2)", trial={"f_vw_d": 222.8, "a": 4.0})
def fillet_resistance(f_vw_d: MPa, a: mm) -> N_per_mm:
    """Resistance of a fillet for each mm of its effective length, simplified method."""
    return f_vw_d * a


@formula(
    "sigma_eq",
    "EN 1993-1-8:2005 4.5.3.2(6)",
    trial={"sigma_perp": 56.6, "tau_perp": 56.6, "tau_par": 26.3},
)
def equivalent_stress(sigma_perp: MPa, tau_perp: MPa, tau_par: MPa) -> MPa:
    """Equivalent stress on the throat, directional method. The stress along the weld's own axis does not count.

    sigma_perp  normal to the throat
    tau_perp    shear on the throat, square to the weld's axis
    tau_par     shear on the throat, along the weld's axis
    """
    return sqrt(sigma_perp**2 + 3 * (tau_perp**2 + tau_par**2))


@formula("f_w,Rd", "EN 1993-1-8:2005 4.5.3.2(6)", trial={"f_u": 360.0, "beta_w": 0.8, "gamma_M2": 1.25})
def equivalent_stress_limit(f_u: MPa, beta_w: ratio, gamma_M2: ratio) -> MPa:
    """Most the equivalent stress on the throat may be: first condition of the directional method."""
    return f_u / (beta_w * gamma_M2)


@formula("sigma_perp,Rd", "EN 1993-1-8:2005 4.5.3.2(6)", trial={"f_u": 360.0, "gamma_M2": 1.25})
def normal_stress_limit(f_u: MPa, gamma_M2: ratio) -> MPa:
    """Most the stress normal to the throat may be: second condition of the directional method."""
    return 0.9 * f_u / gamma_M2


@formula("beta_Lw.1", "EN 1993-1-8:2005 4.11(3)", trial={"L_j": 1500.0, "a": 5.0})
def long_lap_factor(L_j: mm, a: mm) -> ratio:
    """Reduction of a fillet in a lap joint longer than 150 a; 1 up to there.

    L_j  length of the lap in the direction of the force
    """
    return minimum(1.2 - 0.2 * L_j / (150 * a), 1.0)


@formula("beta_Lw.2", "EN 1993-1-8:2005 4.11(4)", trial={"L_w": 3400.0}, empirical=True)
def long_stiffener_weld_factor(L_w: mm) -> ratio:
    """Reduction of a fillet longer than 1.7 m between a transverse stiffener and a plate; between 0.6 and 1."""
    return maximum(0.6, minimum(1.1 - L_w / 1000 / 17, 1.0))


@formula(
    "a",
    "EN 1993-1-8:2005 4.5.3.2(6), plate square to a support",
    trial={"t": 10.0, "f_y": 235.0, "f_u": 360.0, "beta_w": 0.8, "gamma_M0": 1.0, "gamma_M2": 1.25},
)
def full_strength_throat(t: mm, f_y: MPa, f_u: MPa, beta_w: ratio, gamma_M0: ratio, gamma_M2: ratio) -> mm:
    """Throat of two equal fillets, one on each side, as strong as the plate pulled away; directional method.

    t  thickness of the plate
    """
    return sqrt(2) * beta_w * gamma_M2 / f_u * f_y / gamma_M0 * t / 2


@formula(
    "a",
    "EN 1993-1-8:2005 4.5.3.3, plate square to a support",
    trial={"t": 10.0, "f_y": 235.0, "gamma_M0": 1.0, "f_vw_d": 207.8},
)
def full_strength_throat_simplified(t: mm, f_y: MPa, gamma_M0: ratio, f_vw_d: MPa) -> mm:
    """Throat of two equal fillets, one on each side, as strong as the plate; simplified method."""
    return t * f_y / gamma_M0 / (2 * f_vw_d)


@formula("k", "EN 1993-1-8:2005 4.10(2)", trial={"t_f": 12.0, "t_p": 10.0, "f_y_f": 235.0, "f_y_p": 235.0})
def flange_spread_factor(t_f: mm, t_p: mm, f_y_f: MPa, f_y_p: MPa) -> ratio:
    """How far the flange (f) spreads the force of a plate (p) welded across it; at most 1."""
    return minimum(t_f / t_p * (f_y_f / f_y_p), 1)


@formula("b_eff", "EN 1993-1-8:2005 4.10(2)", trial={"t_w": 7.0, "s": 12.0, "k": 1.0, "t_f": 11.0})
def effective_width_on_i(t_w: mm, s: mm, k: ratio, t_f: mm) -> mm:
    """Part of a plate's width that an unstiffened flange of an I or H section really takes.

    s  root radius of a rolled section, sqrt(2) times the throat in a welded one
    k  flange spread factor
    """
    return t_w + 2 * s + 7 * k * t_f


@formula("b_eff,min", "EN 1993-1-8:2005 4.10(4)", trial={"f_y_p": 235.0, "f_u_p": 360.0, "b_p": 100.0})
def least_effective_width(f_y_p: MPa, f_u_p: MPa, b_p: mm) -> mm:
    """Below this effective width the flange must be stiffened."""
    return f_y_p / f_u_p * b_p


@formula("c_max", "EN 1993-1-8:2005 4.7.3(1)", trial={"t": 20.0}, empirical=True)
def largest_unwelded_gap(t: mm) -> mm:
    """Widest unwelded gap in a T of two partial penetration welds that may still count as full penetration."""
    return minimum(t / 5, 3)


@formula("L_1", "EN 1993-1-8:2005 4.3.2.2(4) figure 4.1", trial={"t": 10.0, "t_1": 12.0}, empirical=True)
def widest_gap_in_tension(t: mm, t_1: mm) -> mm:
    """Widest clear gap between the runs of an intermittent fillet, parts t and t_1 thick, in tension."""
    return minimum(16 * t, 16 * t_1, 200)


@formula("L_2", "EN 1993-1-8:2005 4.3.2.2(4) figure 4.1", trial={"t": 10.0, "t_1": 12.0, "b": 120.0}, empirical=True)
def widest_gap_in_compression(t: mm, t_1: mm, b: mm) -> mm:
    """Widest clear gap between the runs of an intermittent fillet in compression or shear, b the narrower width."""
    return minimum(12 * t, 12 * t_1, 0.25 * b, 200)


@formula("L_we", "EN 1993-1-8:2005 4.3.2.2(5) figure 4.1", trial={"b": 100.0, "b_1": 120.0})
def least_end_run(b: mm, b_1: mm) -> mm:
    """Shortest run at each end of an intermittent fillet; the larger of the two in figure 4.1."""
    return maximum(0.75 * b, 0.75 * b_1)


COLD_BENDS: tuple[tuple[float, float], ...] = (
    (25.0, float("inf")),
    (10.0, 16.0),
    (3.0, 12.0),
    (2.0, 10.0),
    (1.5, 8.0),
    (1.0, 4.0),
)
"""EN 1993-1-8:2005 Table 4.2 (recalled), the column where fatigue predominates: from this inner radius over thickness
of a cold bend on, (r / t, thickest t in mm) may be welded within 5 t of the bend."""


@formula("sigma_root", "elastic bending of the throat, for EN 1993-1-8:2005 4.12", trial={"m": 500.0, "a": 5.0})
def root_bending_stress(m: N, a: mm) -> MPa:
    """Bending stress of a throat about its own axis under a moment m for each mm of weld (N mm/mm)."""
    return 6 * m / a**2


@formula(
    "F_Rd",
    "EN 1993-1-8:2005 4.10(1), 6.2.6.4.3",
    trial={"b_eff": 100.0, "t_p": 10.0, "f_y_p": 235.0, "gamma_M0": 1.0},
)
def plate_force_on_flange(b_eff: mm, t_p: mm, f_y_p: MPa, gamma_M0: ratio) -> N:
    """Force that a plate welded across an unstiffened flange can bring, with its effective width only."""
    return b_eff * t_p * f_y_p / gamma_M0
