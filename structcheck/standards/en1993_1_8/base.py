"""EN 1993-1-8:2005 6.2.5 and 6.2.2, a plate that presses on concrete or on a bed of steel.

Recalled, not read; concrete by EN 1992-1-1 3.1.6 and 6.7.
"""

from structcheck.formula import formula
from structcheck.maths import sqrt
from structcheck.quantities import MPa, N, mm, mm2, ratio


@formula("f_cd", "EN 1992-1-1:2004 (3.15)", trial={"alpha_cc": 0.85, "f_ck": 20.0, "gamma_c": 1.5})
def concrete_strength(alpha_cc: ratio, f_ck: MPa, gamma_c: ratio) -> MPa:
    """Design strength of concrete from its cylinder strength."""
    return alpha_cc * f_ck / gamma_c


@formula("f_jd", "EN 1993-1-8:2005 (6.6)", trial={"beta_j": 2 / 3, "alpha": 1.0, "f_cd": 11.3})
def bearing_strength(beta_j: ratio, alpha: ratio, f_cd: MPa) -> MPa:
    """What the joint to concrete bears.

    beta_j  2/3 on grout at least a fifth as strong as the concrete and no thicker than a fifth of the plate's width
    alpha   concentration, sqrt(A_c1 / A_c0) of EN 1992-1-1 (6.63), at most 3
    """
    return beta_j * alpha * f_cd


@formula("c", "EN 1993-1-8:2005 (6.5)", trial={"t": 20.0, "f_y": 235.0, "f_jd": 7.6, "gamma_M0": 1.0})
def additional_width(t: mm, f_y: MPa, f_jd: MPa, gamma_M0: ratio) -> mm:
    """How far beside a wall of the member the plate, bent elastically, still presses."""
    return t * sqrt(f_y / (3 * f_jd * gamma_M0))


@formula("F_C,Rd", "EN 1993-1-8:2005 (6.4)", trial={"f_jd": 7.6, "A_eff": 20000.0})
def pressed_resistance(f_jd: MPa, A_eff: mm2) -> N:
    """T-stubs in compression; A_eff the sum of their b_eff l_eff."""
    return f_jd * A_eff


@formula("F_f,Rd", "EN 1993-1-8:2005 (6.1)", trial={"C_f_d": 0.2, "N_c_Ed": 50000.0})
def friction_resistance(C_f_d: ratio, N_c_Ed: N) -> N:
    """Friction under a pressed plate; 0.2 on mortar of sand and cement."""
    return C_f_d * N_c_Ed
