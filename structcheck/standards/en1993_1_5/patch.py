"""EN 1993-1-5:2006 section 6, resistance of a web to a transverse force, and 7.2 with 8 beside it.

Types of Figure 6.1: a, one flange, carried off by shear in the web; b, through the web to the other flange;
c, one flange beside an unstiffened end. The clear depth h_w runs between the flanges, not between the fillets.
"""

from structcheck.formula import formula
from structcheck.maths import minimum, sqrt
from structcheck.quantities import MPa, N, Nmm, mm, mm2, mm3, ratio

CLAUSE = "EN 1993-1-5:2006 section 6"


@formula("s_s", "EN 1993-1-5:2006 6.3(1)", trial={"pad": 60.0, "t_p": 25.0, "h_w": 370.0})
def stiff_bearing_length(pad: mm, t_p: mm, h_w: mm) -> mm:
    """Length on which the force enters the flange: spread at 1:1 through the plate under the pad.

    pad  length of the loading pad along the beam; 0 over a round pin or under a tilted face
    t_p  thickness of the plate or plates between pad and flange
    h_w  clear depth of the web
    """
    return minimum(pad + 2 * t_p, h_w)


@formula("k_F", "EN 1993-1-5:2006 Figure 6.1 a", trial={"h_w": 370.0, "a": 1000.0})
def k_F_one_flange(h_w: mm, a: mm) -> ratio:
    """Buckling factor, force through one flange (type a). a: distance between transverse stiffeners."""
    return 6 + 2 * (h_w / a) ** 2


@formula("k_F", "EN 1993-1-5:2006 Figure 6.1 b", trial={"h_w": 370.0, "a": 1000.0})
def k_F_both_flanges(h_w: mm, a: mm) -> ratio:
    """Buckling factor, force straight through the web to the other flange (type b)."""
    return 3.5 + 2 * (h_w / a) ** 2


@formula("k_F", "EN 1993-1-5:2006 Figure 6.1 c", trial={"s_s": 60.0, "c": 20.0, "h_w": 370.0})
def k_F_end(s_s: mm, c: mm, h_w: mm) -> ratio:
    """Buckling factor beside an unstiffened end (type c). c: from the loaded length to the end of the beam."""
    return minimum(2 + 6 * (s_s + c) / h_w, 6)


@formula("F_cr", "EN 1993-1-5:2006 (6.5)", trial={"k_F": 6.27, "E": 210e3, "t_w": 8.0, "h_w": 370.0})
def critical_force(k_F: ratio, E: MPa, t_w: mm, h_w: mm) -> N:
    """Elastic critical force of the web (the numbers of the clauses of 6.4 are recalled)."""
    return 0.9 * k_F * E * t_w**3 / h_w


@formula("m_1", "EN 1993-1-5:2006 (6.8)", trial={"f_yf": 355.0, "b_f": 200.0, "f_yw": 355.0, "t_w": 8.0})
def flange_part_m_1(f_yf: MPa, b_f: mm, f_yw: MPa, t_w: mm) -> ratio:
    """Plastic hinges in the flange. b_f: flange width, on each side of the web at most 15 epsilon t_f."""
    return f_yf * b_f / (f_yw * t_w)


@formula("m_2", "EN 1993-1-5:2006 (6.9)", trial={"h_w": 370.0, "t_f": 15.0})
def web_part_m_2(h_w: mm, t_f: mm) -> ratio:
    """Part of the web that bends with the flange; only where lambda_F > 0.5, else m_2 is 0."""
    return 0.02 * (h_w / t_f) ** 2


@formula("l_y", "EN 1993-1-5:2006 (6.10)", trial={"s_s": 120.0, "t_f": 15.0, "m_1": 25.0, "m_2": 12.2})
def loaded_length(s_s: mm, t_f: mm, m_1: ratio, m_2: ratio) -> mm:
    """Effective loaded length of the web; at most the distance between transverse stiffeners."""
    return s_s + 2 * t_f * (1 + sqrt(m_1 + m_2))


@formula(
    "l_e",
    "EN 1993-1-5:2006 (6.13)",
    trial={"k_F": 3.3, "E": 210e3, "t_w": 8.0, "f_yw": 355.0, "h_w": 370.0, "s_s": 60.0, "c": 20.0},
)
def end_length(k_F: ratio, E: MPa, t_w: mm, f_yw: MPa, h_w: mm, s_s: mm, c: mm) -> mm:
    """Length at an unstiffened end over which the force reaches the web (type c)."""
    return minimum(k_F * E * t_w**2 / (2 * f_yw * h_w), s_s + c)


@formula("l_y", "EN 1993-1-5:2006 (6.11)", trial={"l_e": 80.0, "t_f": 15.0, "m_1": 25.0, "m_2": 12.2})
def loaded_length_end_one_hinge(l_e: mm, t_f: mm, m_1: ratio, m_2: ratio) -> mm:
    """Effective loaded length at an unstiffened end, first form."""
    return l_e + t_f * sqrt(m_1 / 2 + (l_e / t_f) ** 2 + m_2)


@formula("l_y", "EN 1993-1-5:2006 (6.12)", trial={"l_e": 80.0, "t_f": 15.0, "m_1": 25.0, "m_2": 12.2})
def loaded_length_end_two_hinges(l_e: mm, t_f: mm, m_1: ratio, m_2: ratio) -> mm:
    """Effective loaded length at an unstiffened end, second form; the least of the three governs."""
    return l_e + t_f * sqrt(m_1 + m_2)


@formula("lambda_F", "EN 1993-1-5:2006 (6.4)", trial={"l_y": 333.0, "t_w": 8.0, "f_yw": 355.0, "F_cr": 1.64e6})
def slenderness(l_y: mm, t_w: mm, f_yw: MPa, F_cr: N) -> ratio:
    """Slenderness of the web under the force."""
    return sqrt(l_y * t_w * f_yw / F_cr)


@formula("chi_F", "EN 1993-1-5:2006 (6.3)", trial={"lambda_F": 0.76})
def reduction(lambda_F: ratio) -> ratio:
    """Reduction for local buckling."""
    return minimum(0.5 / lambda_F, 1)


@formula(
    "F_Rd",
    "EN 1993-1-5:2006 (6.1)",
    trial={"f_yw": 355.0, "chi_F": 0.66, "l_y": 333.0, "t_w": 8.0, "gamma_M1": 1.0},
)
def resistance(f_yw: MPa, chi_F: ratio, l_y: mm, t_w: mm, gamma_M1: ratio) -> N:
    """Resistance of one web to a transverse force, with L_eff = chi_F l_y."""
    return f_yw * chi_F * l_y * t_w / gamma_M1


@formula(
    "eta_1",
    "EN 1993-1-5:2006 (4.14)",
    trial={"N_Ed": 20e3, "A_eff": 5000.0, "M_Ed": 30e6, "W_eff": 400e3, "f_y": 355.0, "gamma_M0": 1.0},
)
def bending_ratio(N_Ed: N, A_eff: mm2, M_Ed: Nmm, W_eff: mm3, f_y: MPa, gamma_M0: ratio) -> ratio:
    """Use of the cross-section by axial force and bending, elastic on the effective section."""
    return (N_Ed / A_eff + M_Ed / W_eff) * gamma_M0 / f_y


@formula("eta_2 + 0.8 eta_1", "EN 1993-1-5:2006 7.2(1)", trial={"eta_2": 0.6, "eta_1": 0.75})
def with_bending(eta_2: ratio, eta_1: ratio) -> ratio:
    """Transverse force with bending, over its limit 1.4; eta_1 and eta_2 alone stay within 1."""
    return (eta_2 + 0.8 * eta_1) / 1.4


@formula(
    "h_w/t_w limit",
    "EN 1993-1-5:2006 8(1)",
    trial={"k": 0.55, "E": 210e3, "f_yf": 355.0, "A_w": 4200.0, "A_fc": 4400.0},
)
def flange_induced_limit(k: ratio, E: MPa, f_yf: MPa, A_w: mm2, A_fc: mm2) -> ratio:
    """Slenderness h_w/t_w up to which the compression flange does not buckle into the web.

    k     0.3 where plastic rotation, 0.4 where plastic moment, 0.55 where elastic moment is used
    A_w   area of the web, A_fc effective area of the compression flange
    """
    return k * E / f_yf * sqrt(A_w / A_fc)


@formula(
    "b_f",
    "EN 1993-1-5:2006 6.5(1)",
    trial={"b": 200.0, "t_w": 8.0, "f_yf": 355.0, "t_f": 15.0},
    empirical=True,
)
def flange_width(b: mm, t_w: mm, f_yf: MPa, t_f: mm) -> mm:
    """Flange width that counts: at most 15 epsilon t_f on each side of the web (limit of box girders, kept for all)."""
    return minimum(b, t_w + 30 * t_f * sqrt(235 / f_yf))


@formula("chi_F", "EN 1993-1-5:2006/A2:2019 6.4 (recalled, not read)", trial={"lambda_F": 1.8})
def reduction_amended(lambda_F: ratio) -> ratio:
    """Reduction of amendment A2, which leaves m_2 out of l_y; for lambda_F above 0.5, below it 1."""
    phi = 0.5 * (1 + 0.75 * (lambda_F - 0.5) + lambda_F)
    return minimum(1 / (phi + sqrt(phi**2 - lambda_F)), 1)
