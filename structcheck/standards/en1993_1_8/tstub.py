"""EN 1993-1-8:2005 6.2.4: the equivalent T-stub in tension, its modes and effective lengths (Tables 6.2, 6.4, 6.6).

Forces are of all bolts of the T-stub, both sides of the web.
"""

from structcheck import maths
from structcheck.formula import formula
from structcheck.quantities import MPa, N, Nmm, mm, mm2, ratio

_ROW = {"m": 33.4, "e": 75.0, "e_1": 50.0, "p": 100.0}


@formula("m", "EN 1993-1-8:2005 figure 6.8", trial={"w": 100.0, "t_w": 8.0, "a": 4.0})
def lever_from_weld(w: mm, t_w: mm, a: mm) -> mm:
    """Bolt to web, less 0.8 of the weld: w between the bolt lines, t_w the web, a the throat of its fillets."""
    return w / 2 - t_w / 2 - 0.8 * a * maths.sqrt(2)


@formula("m", "EN 1993-1-8:2005 figure 6.8", trial={"w": 100.0, "t_w": 12.8, "r": 12.7})
def lever_from_root(w: mm, t_w: mm, r: mm) -> mm:
    """Bolt to web of a rolled section, less 0.8 of its root radius r."""
    return w / 2 - t_w / 2 - 0.8 * r


@formula("n", "EN 1993-1-8:2005 Table 6.2", trial={"e_min": 75.0, "m": 33.4})
def prying_lever(e_min: mm, m: mm) -> mm:
    """Bolt to the line on which the flange presses; e_min the least edge distance of the two parts."""
    return maths.minimum(e_min, 1.25 * m)


@formula("M_pl,Rd", "EN 1993-1-8:2005 Table 6.2", trial={"l_eff": 210.0, "t_f": 20.5, "f_y": 265.0, "gamma_M0": 1.0})
def plastic_moment(l_eff: mm, t_f: mm, f_y: MPa, gamma_M0: ratio) -> Nmm:
    """Plastic moment of a strip l_eff of the flange (or of a backing plate)."""
    return 0.25 * l_eff * t_f**2 * f_y / gamma_M0


@formula("F_T,1,Rd", "EN 1993-1-8:2005 Table 6.2", trial={"M_pl_1_Rd": 5.85e6, "M_bp_Rd": 0.0, "m": 33.4})
def mode_1(M_pl_1_Rd: Nmm, M_bp_Rd: Nmm, m: mm) -> N:
    """Complete yielding of the flange, method 1; M_bp_Rd of backing plates, nothing where there are none."""
    return (4 * M_pl_1_Rd + 2 * M_bp_Rd) / m


@formula(
    "F_T,1,Rd",
    "EN 1993-1-8:2005 Table 6.2, method 2",
    trial={"M_pl_1_Rd": 1.19e6, "m": 35.0, "n": 35.0, "e_w": 7.5},
)
def mode_1_washer(M_pl_1_Rd: Nmm, m: mm, n: mm, e_w: mm) -> N:
    """Complete yielding with the bolt's force spread under its head or washer; e_w = d_w / 4."""
    return (8 * n - 2 * e_w) * M_pl_1_Rd / (2 * m * n - e_w * (m + n))


@formula(
    "F_T,2,Rd",
    "EN 1993-1-8:2005 Table 6.2",
    trial={"M_pl_2_Rd": 6.49e6, "n": 41.8, "F_t_Rd": 406.7e3, "m": 33.4},
)
def mode_2(M_pl_2_Rd: Nmm, n: mm, F_t_Rd: N, m: mm) -> N:
    """Bolt failure with yielding of the flange; F_t_Rd is the sum of all bolts, M_pl,2 of the non-circular length."""
    return (2 * M_pl_2_Rd + n * F_t_Rd) / (m + n)


@formula("F_T,1-2,Rd", "EN 1993-1-8:2005 Table 6.2", trial={"M_pl_1_Rd": 5.85e6, "m": 33.4})
def mode_without_prying(M_pl_1_Rd: Nmm, m: mm) -> N:
    """Yielding of the flange where long bolts let it lift clear, so that nothing pries."""
    return 2 * M_pl_1_Rd / m


@formula(
    "L_b*",
    "EN 1993-1-8:2005 Table 6.2",
    trial={"m": 33.4, "A_s": 353.0, "n_b": 1.0, "l_eff_1": 210.0, "t_f": 20.5},
)
def longest_bolt_with_prying(m: mm, A_s: mm2, n_b: ratio, l_eff_1: mm, t_f: mm) -> mm:
    """Length of bolt (grip, washers and half of head and nut) up to which the flange pries; n_b rows of two bolts."""
    return 8.8 * m**3 * A_s * n_b / (l_eff_1 * t_f**3)


@formula("l_eff,cp", "EN 1993-1-8:2005 Table 6.4, 6.6", trial={"m": _ROW["m"]})
def alone_circular(m: mm) -> mm:
    """A row alone away from an end: circular pattern."""
    return 2 * maths.pi * m


@formula("l_eff,nc", "EN 1993-1-8:2005 Table 6.4, 6.6", trial={"m": _ROW["m"], "e": _ROW["e"]})
def alone_other(m: mm, e: mm) -> mm:
    """A row alone away from an end: any other pattern."""
    return 4 * m + 1.25 * e


@formula("l_eff,cp", "EN 1993-1-8:2005 Table 6.4", trial={"m": _ROW["m"], "e_1": _ROW["e_1"]})
def end_alone_circular(m: mm, e_1: mm) -> mm:
    """A row alone near a free end at e_1: circular pattern."""
    return maths.minimum(2 * maths.pi * m, maths.pi * m + 2 * e_1)


@formula("l_eff,nc", "EN 1993-1-8:2005 Table 6.4", trial={"m": _ROW["m"], "e": _ROW["e"], "e_1": _ROW["e_1"]})
def end_alone_other(m: mm, e: mm, e_1: mm) -> mm:
    """A row alone near a free end at e_1: any other pattern."""
    return maths.minimum(4 * m + 1.25 * e, 2 * m + 0.625 * e + e_1)


@formula("lambda", "EN 1993-1-8:2005 figure 6.11", trial={"m": _ROW["m"], "m_1": _ROW["m"], "e": _ROW["e"]})
def stiffened_position(m: mm, m_1: mm, e: mm) -> ratio:
    """lambda_1 (m the lever m_1) or lambda_2 (m the distance m_2 to the stiffener, less 0.8 of its weld)."""
    return m / (m_1 + e)


@formula("lambda_1", "EN 1993-1-8:2005 figure 6.11, far from the stiffener", trial={"alpha": 6.0})
def stiffened_far(alpha: ratio) -> ratio:
    """Where a curve of alpha runs straight up: there alpha m is 4 m + 1.25 e, as without a stiffener."""
    return 1.25 / (alpha - 2.75)


@formula(
    "lambda_1",
    "EN 1993-1-8:2005 figure 6.11, its equation in handbooks (recalled)",
    trial={"alpha": 6.0, "lambda_1_lim": 0.385, "lambda_2": 0.4},
)
def stiffened_near(alpha: ratio, lambda_1_lim: ratio, lambda_2: ratio) -> ratio:
    """A curve of alpha below lambda_2 = alpha lambda_1,lim / 2, where it turns away."""
    return lambda_1_lim + (1 - lambda_1_lim) * (1 - 2 * lambda_2 / (alpha * lambda_1_lim)) ** (0.185 * alpha**1.785)


@formula(
    "Delta l_eff,nc",
    "EN 1993-1-8:2005 Tables 6.5 and 6.6 against Table 6.4",
    trial={"alpha": 6.0, "m": _ROW["m"], "e": _ROW["e"]},
)
def gained_beside_stiffener(alpha: ratio, m: mm, e: mm) -> mm:
    """What a row beside a stiffener or the beam's flange has beyond one that is not, alone and at a group's end."""
    return alpha * m - (4 * m + 1.25 * e)


@formula("l_eff,cp", "EN 1993-1-8:2005 Table 6.4, 6.6", trial={"p": _ROW["p"]})
def inner_in_group_circular(p: mm) -> mm:
    """A row between two others p apart, in their group: circular pattern."""
    return 2 * p


@formula("l_eff,nc", "EN 1993-1-8:2005 Table 6.4, 6.6", trial={"p": _ROW["p"]})
def inner_in_group_other(p: mm) -> mm:
    """A row between two others p apart, in their group: any other pattern."""
    return 1 * p


@formula("l_eff,cp", "EN 1993-1-8:2005 Table 6.4", trial={"m": _ROW["m"], "p": _ROW["p"], "e_1": _ROW["e_1"]})
def end_in_group_circular(m: mm, p: mm, e_1: mm) -> mm:
    """The last row of a group, near a free end at e_1: circular pattern."""
    return maths.minimum(maths.pi * m + p, 2 * e_1 + p)


@formula(
    "l_eff,nc",
    "EN 1993-1-8:2005 Table 6.4",
    trial={"m": _ROW["m"], "e": _ROW["e"], "p": _ROW["p"], "e_1": _ROW["e_1"]},
)
def end_in_group_other(m: mm, e: mm, p: mm, e_1: mm) -> mm:
    """The last row of a group, near a free end at e_1: any other pattern."""
    return maths.minimum(2 * m + 0.625 * e + 0.5 * p, e_1 + 0.5 * p)


@formula("l_eff,cp", "EN 1993-1-8:2005 Table 6.6", trial={"m_x": 35.0, "w": 90.0, "e": 35.0})
def outside_flange_circular(m_x: mm, w: mm, e: mm) -> mm:
    """The row of an extended end plate beyond the beam's flange: circular pattern.

    m_x  row to the flange, less 0.8 of the weld
    w    between the two bolts of the row; e from bolt to the plate's side
    """
    return maths.minimum(2 * maths.pi * m_x, maths.pi * m_x + w, maths.pi * m_x + 2 * e)


@formula(
    "l_eff,nc",
    "EN 1993-1-8:2005 Table 6.6",
    trial={"m_x": 35.0, "e_x": 40.0, "w": 90.0, "e": 35.0, "b_p": 160.0},
)
def outside_flange_other(m_x: mm, e_x: mm, w: mm, e: mm, b_p: mm) -> mm:
    """The row of an extended end plate beyond the beam's flange: any other pattern.

    e_x  row to the plate's end; b_p the plate's width
    """
    return maths.minimum(
        4 * m_x + 1.25 * e_x,
        e + 2 * m_x + 0.625 * e_x,
        0.5 * b_p,
        0.5 * w + 2 * m_x + 0.625 * e_x,
    )
