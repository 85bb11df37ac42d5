"""EN 1993-1-8:2005 section 3: bolts in shear, bearing and tension, spacing, deductions for holes.

Tables 3.3 and 3.4, 3.6, 3.8, 3.10; bearing factors in the form of the corrigendum of 2009. Which bolt is an end or an
inner one, and which edge counts, is decided by the caller.
"""

from structcheck import maths
from structcheck.formula import formula
from structcheck.quantities import MPa, N, mm, mm2, ratio


@formula("F_v,Rd", "EN 1993-1-8:2005 Table 3.4", trial={"alpha_v": 0.6, "f_ub": 800.0, "A": 157.0, "gamma_M2": 1.25})
def shear_resistance(alpha_v: ratio, f_ub: MPa, A: mm2, gamma_M2: ratio) -> N:
    """Shear resistance of one bolt in one plane.

    alpha_v   0.6 through the shank, and through the thread of 4.6, 5.6 and 8.8; 0.5 through the thread of the others
    f_ub      tensile strength of the bolt
    A         area of the shank, or A_s where the plane passes through the thread
    gamma_M2  1.25 unless the national annex says otherwise
    """
    return alpha_v * f_ub * A / gamma_M2


@formula("F_t,Rd", "EN 1993-1-8:2005 Table 3.4", trial={"k_2": 0.9, "f_ub": 800.0, "A_s": 157.0, "gamma_M2": 1.25})
def tension_resistance(k_2: ratio, f_ub: MPa, A_s: mm2, gamma_M2: ratio) -> N:
    """Tension resistance of one bolt; k_2 is 0.9, or 0.63 for a countersunk head. Prying is part of the demand."""
    return k_2 * f_ub * A_s / gamma_M2


@formula("B_p,Rd", "EN 1993-1-8:2005 Table 3.4", trial={"d_m": 24.67, "t_p": 10.0, "f_u": 470.0, "gamma_M2": 1.25})
def punching_resistance(d_m: mm, t_p: mm, f_u: MPa, gamma_M2: ratio) -> N:
    """Resistance of a plate to a bolt head or nut pulled through it.

    d_m       mean of the distances across points and across flats of head or nut, the smaller of the two
    t_p, f_u  thickness and tensile strength of the plate under it
    """
    return 0.6 * maths.pi * d_m * t_p * f_u / gamma_M2


@formula("alpha_b", "EN 1993-1-8:2005 Table 3.4", trial={"e_1": 40.0, "d_0": 22.0, "f_ub": 800.0, "f_u": 430.0})
def alpha_b_end(e_1: mm, d_0: mm, f_ub: MPa, f_u: MPa) -> ratio:
    """Bearing factor along the force of an end bolt: the plate's end, at e_1, is what it pushes towards."""
    return maths.minimum(e_1 / (3 * d_0), f_ub / f_u, 1)


@formula("alpha_b", "EN 1993-1-8:2005 Table 3.4", trial={"p_1": 70.0, "d_0": 22.0, "f_ub": 800.0, "f_u": 430.0})
def alpha_b_inner(p_1: mm, d_0: mm, f_ub: MPa, f_u: MPa) -> ratio:
    """Bearing factor along the force of an inner bolt: the next hole, p_1 away, is what it pushes towards."""
    return maths.minimum(p_1 / (3 * d_0) - 1 / 4, f_ub / f_u, 1)


@formula("k_1", "EN 1993-1-8:2005 Table 3.4, corrigendum 2009", trial={"e_2": 50.0, "d_0": 22.0})
def k_1_single_line(e_2: mm, d_0: mm) -> ratio:
    """Bearing factor across the force where a bolt has an edge, at e_2, on both sides and no neighbour."""
    return maths.minimum(2.8 * e_2 / d_0 - 1.7, 2.5)


@formula("k_1", "EN 1993-1-8:2005 Table 3.4, corrigendum 2009", trial={"e_2": 50.0, "p_2": 60.0, "d_0": 22.0})
def k_1_edge(e_2: mm, p_2: mm, d_0: mm) -> ratio:
    """Bearing factor across the force of an edge bolt: an edge at e_2 on one side, a neighbour at p_2 on the other."""
    return maths.minimum(2.8 * e_2 / d_0 - 1.7, 1.4 * p_2 / d_0 - 1.7, 2.5)


@formula("k_1", "EN 1993-1-8:2005 Table 3.4", trial={"p_2": 60.0, "d_0": 22.0})
def k_1_inner(p_2: mm, d_0: mm) -> ratio:
    """Bearing factor across the force of an inner bolt; p_2 is the distance to the nearer neighbour."""
    return maths.minimum(1.4 * p_2 / d_0 - 1.7, 2.5)


@formula(
    "F_b,Rd",
    "EN 1993-1-8:2005 Table 3.4",
    trial={"k_1": 2.12, "alpha_b": 0.61, "f_u": 430.0, "d": 20.0, "t": 10.0, "gamma_M2": 1.25},
)
def bearing_resistance(k_1: ratio, alpha_b: ratio, f_u: MPa, d: mm, t: mm, gamma_M2: ratio) -> N:
    """Bearing resistance of one bolt in one plate, normal round holes.

    k_1       edge factor across the force
    alpha_b   end or pitch factor along the force
    f_u       tensile strength of the plate, not of the bolt
    d         bolt diameter, not the hole
    t         plate thickness, or the sum of plates pushed the same way
    gamma_M2  1.25 unless the national annex says otherwise

    Oversize holes: times 0.8; slots across the force: times 0.6.
    """
    return k_1 * alpha_b * f_u * d * t / gamma_M2


@formula("F_b,Rd", "EN 1993-1-8:2005 3.6.1(10)", trial={"f_u": 470.0, "d": 16.0, "t": 6.0, "gamma_M2": 1.25})
def single_lap_bearing_limit(f_u: MPa, d: mm, t: mm, gamma_M2: ratio) -> N:
    """Most that one bolt may bear in a single lap with one row across the force; washers at both ends are asked for."""
    return 1.5 * f_u * d * t / gamma_M2


@formula(
    "F_v,Ed/F_v,Rd + F_t,Ed/(1.4 F_t,Rd)",
    "EN 1993-1-8:2005 Table 3.4",
    trial={"F_v_Ed": 40e3, "F_v_Rd": 60.3e3, "F_t_Ed": 50e3, "F_t_Rd": 90.4e3},
)
def shear_and_tension(F_v_Ed: N, F_v_Rd: N, F_t_Ed: N, F_t_Rd: N) -> ratio:
    """Shear with tension in one bolt, at most 1; tension alone is to be judged as well. F_t,Ed includes prying."""
    return F_v_Ed / F_v_Rd + F_t_Ed / (1.4 * F_t_Rd)


@formula("beta_Lf", "EN 1993-1-8:2005 3.8(1)", trial={"L_j": 600.0, "d": 20.0})
def long_joint_factor(L_j: mm, d: mm) -> ratio:
    """Factor on bolt shear (not on bearing) in a long joint; L_j between the end bolts along the force."""
    return maths.maximum(0.75, maths.minimum(1, 1 - (L_j - 15 * d) / (200 * d)))


@formula("beta_p", "EN 1993-1-8:2005 3.6.1(12)", trial={"d": 20.0, "t_p": 12.0})
def packing_factor(d: mm, t_p: mm) -> ratio:
    """Factor on bolt shear where packing thicker than d/3 is in the joint; t_p of the thicker packing."""
    return maths.minimum(1, 9 * d / (8 * d + 3 * t_p))


@formula("e_1, e_2", "EN 1993-1-8:2005 Table 3.3", trial={"d_0": 18.0})
def least_edge(d_0: mm) -> mm:
    """Least distance of a hole's centre from an end or an edge."""
    return 1.2 * d_0


@formula("p_1", "EN 1993-1-8:2005 Table 3.3", trial={"d_0": 18.0})
def least_pitch(d_0: mm) -> mm:
    """Least distance of holes along the force."""
    return 2.2 * d_0


@formula("p_2", "EN 1993-1-8:2005 Table 3.3", trial={"d_0": 18.0})
def least_gauge(d_0: mm) -> mm:
    """Least distance of lines of holes across the force, not staggered."""
    return 2.4 * d_0


@formula("p_1, p_2", "EN 1993-1-8:2005 Table 3.3", trial={"t": 10.0}, empirical=True)
def greatest_spacing(t: mm) -> mm:
    """Greatest distance of holes, for members in compression and exposed ones; t of the thinner outer plate."""
    return maths.minimum(14 * t, 200)


@formula("e_1, e_2", "EN 1993-1-8:2005 Table 3.3", trial={"t": 10.0}, empirical=True)
def greatest_edge(t: mm) -> mm:
    """Greatest distance from an end or edge exposed to weather; t of the thinner outer plate."""
    return 4 * t + 40


@formula("N_pl,Rd", "EN 1993-1-1:2005 6.2.3(2)", trial={"A": 3120.0, "f_y": 275.0, "gamma_M0": 1.0})
def gross_section_resistance(A: mm2, f_y: MPa, gamma_M0: ratio) -> N:
    """Yield of the plate away from the holes."""
    return A * f_y / gamma_M0


@formula("N_u,Rd", "EN 1993-1-1:2005 6.2.3(2)", trial={"A_net": 2592.0, "f_u": 430.0, "gamma_M2": 1.25})
def net_section_resistance(A_net: mm2, f_u: MPa, gamma_M2: ratio) -> N:
    """Rupture of the plate through the holes."""
    return 0.9 * A_net * f_u / gamma_M2


@formula("N_net,Rd", "EN 1993-1-1:2005 6.2.3(4)", trial={"A_net": 2592.0, "f_y": 275.0, "gamma_M0": 1.0})
def net_section_resistance_category_C(A_net: mm2, f_y: MPa, gamma_M0: ratio) -> N:
    """Yield of the plate through the holes, which joints that must not slip at ultimate are held to."""
    return A_net * f_y / gamma_M0


@formula(
    "V_eff,1,Rd",
    "EN 1993-1-8:2005 3.10.2(2)",
    trial={"A_nt": 770.0, "A_nv": 2210.0, "f_y": 275.0, "f_u": 430.0, "gamma_M0": 1.0, "gamma_M2": 1.25},
)
def block_tearing_concentric(A_nt: mm2, A_nv: mm2, f_y: MPa, f_u: MPa, gamma_M0: ratio, gamma_M2: ratio) -> N:
    """A block torn out by a force through the centre of the group; A_nt, A_nv net areas in tension and in shear."""
    return f_u * A_nt / gamma_M2 + f_y * A_nv / (maths.sqrt(3) * gamma_M0)


@formula(
    "V_eff,2,Rd",
    "EN 1993-1-8:2005 3.10.2(3)",
    trial={"A_nt": 770.0, "A_nv": 2210.0, "f_y": 275.0, "f_u": 430.0, "gamma_M0": 1.0, "gamma_M2": 1.25},
)
def block_tearing_eccentric(A_nt: mm2, A_nv: mm2, f_y: MPa, f_u: MPa, gamma_M0: ratio, gamma_M2: ratio) -> N:
    """A block torn out by a force beside the centre of the group; A_nt, A_nv net areas in tension and in shear."""
    return 0.5 * f_u * A_nt / gamma_M2 + f_y * A_nv / (maths.sqrt(3) * gamma_M0)


@formula(
    "N_u,Rd",
    "EN 1993-1-8:2005 3.10.3(2) (3.11)",
    trial={"e_2": 45.0, "d_0": 18.0, "t": 8.0, "f_u": 360.0, "gamma_M2": 1.25},
)
def angle_one_bolt(e_2: mm, d_0: mm, t: mm, f_u: MPa, gamma_M2: ratio) -> N:
    """Rupture of an angle pulled through one leg by one bolt."""
    return 2.0 * (e_2 - 0.5 * d_0) * t * f_u / gamma_M2


@formula(
    "N_u,Rd",
    "EN 1993-1-8:2005 3.10.3(2) (3.12), (3.13)",
    trial={"beta": 0.6, "A_net": 900.0, "f_u": 360.0, "gamma_M2": 1.25},
)
def angle_more_bolts(beta: ratio, A_net: mm2, f_u: MPa, gamma_M2: ratio) -> N:
    """Rupture of an angle pulled through one leg by two or more bolts in a line; beta of Table 3.8."""
    return beta * A_net * f_u / gamma_M2
