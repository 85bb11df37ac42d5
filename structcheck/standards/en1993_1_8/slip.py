"""EN 1993-1-8:2005 3.9: preloaded bolts that hold by friction (categories B, C and E)."""

from structcheck.formula import formula
from structcheck.quantities import MPa, N, mm2, ratio

K_S = {
    "normal": 1.0,
    "oversize": 0.85,
    "short across": 0.85,
    "long across": 0.7,
    "short along": 0.76,
    "long along": 0.63,
}
"""Table 3.6: holes, and slots by length and by the direction of their length to the force (recalled)."""

FRICTION = {"A": 0.5, "B": 0.4, "C": 0.3, "D": 0.2}
"""Table 3.7: slip factor by class of friction surface to EN 1090-2; D is a surface as rolled."""

GAMMA_M3 = 1.25
GAMMA_M3_SER = 1.1


@formula("F_p,C", "EN 1993-1-8:2005 3.9.1(2)", trial={"f_ub": 800.0, "A_s": 157.0})
def preload(f_ub: MPa, A_s: mm2) -> N:
    """Preload of a bolt of class 8.8 or 10.9 tightened by EN 1090-2."""
    return 0.7 * f_ub * A_s


@formula(
    "F_s,Rd",
    "EN 1993-1-8:2005 3.9.1(1), 3.9.2(1)",
    trial={"k_s": 1.0, "n": 1.0, "mu": 0.2, "F_p_C": 87920.0, "F_t_Ed": 0.0, "gamma_M3": 1.25},
)
def slip_resistance(k_s: ratio, n: ratio, mu: ratio, F_p_C: N, F_t_Ed: N, gamma_M3: ratio) -> N:
    """Slip resistance of one preloaded bolt.

    k_s       kind of hole, Table 3.6
    n         friction planes
    mu        slip factor, Table 3.7 or by test
    F_p_C     preload
    F_t_Ed    pull on the bolt from outside at the same limit state
    gamma_M3  1.25 at ultimate, 1.1 in service
    """
    return k_s * n * mu * (F_p_C - 0.8 * F_t_Ed) / gamma_M3
