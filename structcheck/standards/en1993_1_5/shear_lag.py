"""EN 1993-1-5:2006 section 3, shear lag: how much of a wide plate works with the rib or web under it (recalled).

With 3.2.3, how far a force spreads through the flange.
"""

from structcheck.formula import formula
from structcheck.maths import maximum, minimum, where
from structcheck.quantities import mm, ratio


@formula("kappa", "EN 1993-1-5:2006 3.2.1", trial={"b_0": 75.0, "L_e": 400.0})
def lag(b_0: mm, L_e: mm) -> ratio:
    """Width over length of a plate without stiffeners.

    b_0  width on one side of the rib: to the free edge, or half the distance to the next rib
    L_e  distance between the places where the moment vanishes
    """
    return b_0 / L_e


@formula("beta_1", "EN 1993-1-5:2006 Table 3.1, sagging", trial={"kappa": 0.19})
def effective_share(kappa: ratio) -> ratio:
    """Share of the plate that works under a rounded moment, as of a spread load."""
    return where(kappa <= 0.02, 1.0, where(kappa <= 0.7, 1 / (1 + 6.4 * kappa**2), 1 / (5.9 * maximum(kappa, 0.02))))


@formula("beta_2", "EN 1993-1-5:2006 Table 3.1, hogging", trial={"kappa": 0.19})
def effective_share_peaked(kappa: ratio) -> ratio:
    """Share of the plate that works under a peaked moment, as of a single force or over a support."""
    k = maximum(kappa, 0.02)
    middle = 1 / (1 + 6.0 * (k - 1 / (2500 * k)) + 1.6 * k**2)
    return where(kappa <= 0.02, 1.0, where(kappa <= 0.7, middle, 1 / (8.6 * k)))


@formula("s_e", "EN 1993-1-5:2006 3.2.3(1)", trial={"s_s": 60.0, "t_f": 15.0, "c": 1000.0})
def length_under_flange(s_s: mm, t_f: mm, c: mm) -> mm:
    """Length of web, or of the seam on its edge, that a force through the flange reaches: spread at 1:1.

    s_s  length on which the force enters the flange
    c    beam left beyond that length at the nearer end
    """
    return s_s + t_f + minimum(t_f, c)
