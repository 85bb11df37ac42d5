"""EN 1993-1-5:2006 section 5, resistance of a slender web to shear, with 7.1 and Annex A.3 beside it (recalled).

Plates without longitudinal stiffeners, with transverse ones at the supports; the end post is not rigid, the flanges'
own part of the resistance (5.4) is left out.
"""

from structcheck.formula import formula
from structcheck.maths import minimum, sqrt, where
from structcheck.quantities import MPa, N, mm, mm2, ratio

CODE = "EN 1993-1-5:2006"


@formula("k_tau", f"{CODE} (A.5)", trial={"h_w": 600.0, "a": 1200.0})
def buckling_factor(h_w: mm, a: mm) -> ratio:
    """Shear buckling factor of a web h_w deep between transverse stiffeners a apart, edges simply supported."""
    return where(a >= h_w, 5.34 + 4.00 * (h_w / a) ** 2, 4.00 + 5.34 * (h_w / a) ** 2)


@formula("lambda_w", f"{CODE} (5.6)", trial={"h_w": 600.0, "t": 5.0, "epsilon": 1.0, "k_tau": 6.3})
def slenderness(h_w: mm, t: mm, epsilon: ratio, k_tau: ratio) -> ratio:
    """Slenderness of the web in shear: 0.76 sqrt(f_yw / tau_cr), E = 210 000 MPa."""
    return h_w / (37.4 * t * epsilon * sqrt(k_tau))


@formula("chi_w", f"{CODE} Table 5.1, non-rigid end post", trial={"lambda_w": 1.3, "eta": 1.0})
def reduction(lambda_w: ratio, eta: ratio) -> ratio:
    """Share of the web's shear strength that is left by buckling."""
    return minimum(eta, 0.83 / lambda_w)


@formula(
    "V_bw,Rd",
    f"{CODE} (5.2)",
    trial={"chi_w": 0.64, "f_yw": 235.0, "A_w": 3000.0, "gamma_M1": 1.0},
)
def web_resistance(chi_w: ratio, f_yw: MPa, A_w: mm2, gamma_M1: ratio) -> N:
    """Resistance of the web to shear buckling; A_w = h_w t."""
    return chi_w * f_yw * A_w / (sqrt(3) * gamma_M1)
