"""EN 1993-1-9:2005, fatigue: the S-N curves of 7.1 and the size factor of bolts in tension.

Numbers of stress cycles are pure numbers. The curves start at 10,000 cycles. Above 5 million cycles the curve of
direct stress goes on with slope 5 to its cut-off at 100 million: lower, and so safer, than the constant amplitude
limit that 7.1 would allow where every press were exactly alike.
"""

from structcheck.formula import formula
from structcheck.quantities import MPa, mm, ratio

REFERENCE_CYCLES = 2e6
"""Cycles at which the detail category is read off the curve (7.1(2))."""
KNEE_CYCLES = 5e6
"""Cycles of the constant amplitude limit of direct stress (7.1(2))."""
CUT_OFF_CYCLES = 1e8
"""Cycles of the cut-off limit (7.1(2), 7.1(3))."""
FEWEST_CYCLES = 1e4
"""Cycles at which the curves begin (figures 7.1 and 7.2)."""


@formula("Delta sigma_R", "EN 1993-1-9:2005 7.1(2)", trial={"Delta_sigma_C": 80.0, "N_R": 5e4, "m": 3.0})
def range_resisted(Delta_sigma_C: MPa, N_R: ratio, m: ratio) -> MPa:
    """Stress range resisted N_R times on the first slope.

    Delta_sigma_C  detail category, the range at 2 million cycles (tau for shear)
    N_R            cycles, 10,000 to 5 million for direct stress, to 100 million for shear
    m              slope, 3 for direct stress, 5 for shear
    """
    return Delta_sigma_C * (2e6 / N_R) ** (1 / m)


@formula("Delta sigma_D", "EN 1993-1-9:2005 7.1(2)", trial={"Delta_sigma_C": 80.0, "m": 3.0})
def constant_amplitude_limit(Delta_sigma_C: MPa, m: ratio) -> MPa:
    """Range of direct stress at 5 million cycles, where the slope changes; m = 3, so 0.737 of the category."""
    return Delta_sigma_C * (2 / 5) ** (1 / m)


@formula("Delta sigma_R", "EN 1993-1-9:2005 7.1(3)", trial={"Delta_sigma_D": 58.9, "N_R": 2e7, "m": 5.0})
def range_resisted_beyond_knee(Delta_sigma_D: MPa, N_R: ratio, m: ratio) -> MPa:
    """Range of direct stress resisted N_R times, 5 to 100 million, on the second slope m = 5.

    Delta_sigma_D  constant amplitude limit
    """
    return Delta_sigma_D * (5e6 / N_R) ** (1 / m)


@formula("Delta sigma_L", "EN 1993-1-9:2005 7.1(3)", trial={"Delta_sigma_D": 58.9, "m": 5.0})
def cut_off_limit(Delta_sigma_D: MPa, m: ratio) -> MPa:
    """Range of direct stress, at 100 million cycles, below which no damage is done; 0.549 of Delta_sigma_D."""
    return Delta_sigma_D * (5 / 100) ** (1 / m)


@formula("Delta tau_L", "EN 1993-1-9:2005 7.1(2)", trial={"Delta_tau_C": 80.0, "m": 5.0})
def cut_off_limit_shear(Delta_tau_C: MPa, m: ratio) -> MPa:
    """Range of shear stress, at 100 million cycles, below which no damage is done; 0.457 of the category."""
    return Delta_tau_C * (2 / 100) ** (1 / m)


@formula(
    "N_R", "EN 1993-1-9:2005 7.1(2)", trial={"Delta_sigma_C": 80.0, "Delta_sigma": 60.0, "m": 3.0, "gamma_Mf": 1.35}
)
def life(Delta_sigma_C: MPa, Delta_sigma: MPa, m: ratio, gamma_Mf: ratio) -> ratio:
    """Cycles resisted at a stress range, on the first slope; m = 3 for direct stress, 5 for shear.

    gamma_Mf  partial factor on fatigue strength, Table 3.1
    """
    return 2e6 * (Delta_sigma_C / (gamma_Mf * Delta_sigma)) ** m


@formula(
    "N_R", "EN 1993-1-9:2005 7.1(3)", trial={"Delta_sigma_D": 58.9, "Delta_sigma": 36.0, "m": 5.0, "gamma_Mf": 1.35}
)
def life_beyond_knee(Delta_sigma_D: MPa, Delta_sigma: MPa, m: ratio, gamma_Mf: ratio) -> ratio:
    """Cycles resisted at a range of direct stress below the constant amplitude limit, on the second slope m = 5."""
    return 5e6 * (Delta_sigma_D / (gamma_Mf * Delta_sigma)) ** m


@formula("k_s", "EN 1993-1-9:2005 Table 8.1 (bolts in tension)", trial={"d": 36.0}, empirical=True)
def bolt_size_factor(d: mm) -> ratio:
    """Size factor on the category of bolts and rods in tension thicker than 30 mm (1 below)."""
    return (30 / d) ** 0.25
