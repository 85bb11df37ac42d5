"""Tightening of bolts: torque, the preload it gives, and how much of the outside force a clamped bolt feels.

Handbook formulas; a preload got by torque is not a preload in the sense of EN 1993-1-8 unless EN 1090-2 is followed.
"""

from structcheck import maths
from structcheck.formula import formula
from structcheck.quantities import MPa, N, Nmm, mm, mm2, rad, ratio


@formula("d_2", "ISO 724", trial={"d": 16.0, "P": 2.0})
def pitch_diameter(d: mm, P: mm) -> mm:
    """Pitch diameter of a metric thread of diameter d and pitch P."""
    return d - 0.649519 * P


@formula("d_3", "ISO 724", trial={"d": 16.0, "P": 2.0})
def root_diameter(d: mm, P: mm) -> mm:
    """Root diameter of the bolt (not of the nut) of a metric thread."""
    return d - 1.226869 * P


@formula("A_s", "ISO 898-1:2013 9.1.6.1", trial={"d_2": 14.701, "d_3": 13.546})
def stress_area(d_2: mm, d_3: mm) -> mm2:
    """Stress area: of the mean of pitch and root diameter, not of the root."""
    return maths.pi / 4 * ((d_2 + d_3) / 2) ** 2


@formula(
    "F_M",
    "VDI 2230:2003 (assembly preload, torsion fully plastic)",
    trial={"nu": 0.9, "R_p02": 640.0, "A_s": 157.0, "P": 2.0, "d_2": 14.701, "d_3": 13.546, "mu_G": 0.12},
)
def assembly_preload(nu: ratio, R_p02: MPa, A_s: mm2, P: mm, d_2: mm, d_3: mm, mu_G: ratio) -> N:
    """Preload at which pull and torsion together use a share nu of the yield strength.

    R_p02     least 0.2 % proof strength: 640 MPa for 8.8 up to M16, 660 above
    mu_G      friction in the thread
    """
    d_0 = (d_2 + d_3) / 2
    return nu * R_p02 * A_s / maths.sqrt(1 + 3 * (3 / 2 * d_2 / d_0 * (P / (maths.pi * d_2) + 1.155 * mu_G)) ** 2)


@formula(
    "M_A",
    "VDI 2230:2003 (tightening torque)",
    trial={"F_M": 80.9e3, "P": 2.0, "d_2": 14.701, "mu_G": 0.12, "D_Km": 20.0, "mu_K": 0.12},
)
def tightening_torque(F_M: N, P: mm, d_2: mm, mu_G: ratio, D_Km: mm, mu_K: ratio) -> Nmm:
    """Torque that gives a preload; D_Km the mean diameter of the bearing face, mu_K the friction under it."""
    return F_M * (0.16 * P + 0.58 * d_2 * mu_G + D_Km / 2 * mu_K)


@formula("T", "machine-design practice: T = K F d", trial={"K": 0.2, "F": 68.3e3, "d": 16.0})
def torque_by_nut_factor(K: ratio, F: N, d: mm) -> Nmm:
    """Torque for a preload by one nut factor: about 0.2 dry, 0.15 oiled; it scatters by a quarter and more."""
    return K * F * d


@formula("F", "machine-design practice: T = K F d", trial={"K": 0.2, "T": 218e3, "d": 16.0})
def preload_by_nut_factor(K: ratio, T: Nmm, d: mm) -> N:
    """Preload a torque gives by one nut factor."""
    return T / (K * d)


@formula("F_M,min", "VDI 2230:2003 (tightening factor)", trial={"F_M_max": 41.9e3, "alpha_A": 1.8})
def least_preload(F_M_max: N, alpha_A: ratio) -> N:
    """Least preload to count on: the greatest over the scatter alpha_A of the way of tightening."""
    return F_M_max / alpha_A


@formula("F_i", "machine-design practice: 0.75 of the proof load", trial={"S_p": 580.0, "A_s": 157.0})
def usual_preload(S_p: MPa, A_s: mm2) -> N:
    """Preload usual for bolts that are undone again; S_p the proof stress of ISO 898-1."""
    return 0.75 * S_p * A_s


@formula("F_b", "machine-design practice: clamped joint", trial={"F_i": 10008.0, "P": 27023.0, "C": 0.667})
def bolt_force_in_joint(F_i: N, P: N, C: ratio) -> N:
    """Force in a bolt of a joint still clamped; C = k_b / (k_b + k_c), the bolt's share of the outside force P."""
    return F_i + C * P


@formula("F_c", "machine-design practice: clamped joint", trial={"F_i": 10008.0, "P": 27023.0, "C": 0.667})
def clamp_left(F_i: N, P: N, C: ratio) -> N:
    """Clamping force left between the plates under an outside force P."""
    return F_i - (1 - C) * P


@formula("D_1", "ISO 724", trial={"d": 16.0, "P": 2.0})
def minor_diameter(d: mm, P: mm) -> mm:
    """Minor diameter of the nut's thread (not the bolt's root)."""
    return d - 1.082532 * P


@formula(
    "A_SG",
    "machine-design practice: stripping, bolt",
    trial={"L": 12.0, "P": 2.0, "D_1": 13.835, "d_2": 14.701},
)
def bolt_thread_shear_area(L: mm, P: mm, D_1: mm, d_2: mm) -> mm2:
    """Area on which the bolt's thread shears off at the nut's minor diameter D_1; L the length in full thread."""
    return maths.pi * D_1 * L / P * (P / 2 + (d_2 - D_1) / maths.sqrt(3))


@formula("A_SM", "machine-design practice: stripping, nut", trial={"L": 12.0, "P": 2.0, "d": 16.0, "D_2": 14.701})
def nut_thread_shear_area(L: mm, P: mm, d: mm, D_2: mm) -> mm2:
    """Area on which the nut's or plate's thread shears off at the bolt's diameter d; D_2 its pitch diameter."""
    return maths.pi * d * L / P * (P / 2 + (d - D_2) / maths.sqrt(3))


@formula("F_S", "machine-design practice: stripping, 0.6 f_u", trial={"A": 390.0, "f_u": 800.0, "gamma_M2": 1.25})
def stripping_resistance(A: mm2, f_u: MPa, gamma_M2: ratio) -> N:
    """Force that strips a thread of shear area A."""
    return 0.6 * f_u * A / gamma_M2


@formula("sigma_b", "beam theory, E d_s theta 2 / L", trial={"E": 210e3, "d_s": 14.1, "theta": 0.01, "L": 900.0})
def bending_by_seat(E: MPa, d_s: mm, theta: rad, L: mm) -> MPa:
    """Bending stress of a rod whose one seat is out of square by theta, both ends held: M = 4 E I theta / L.

    d_s  diameter of the stress area; L the free length
    """
    return 2 * E * d_s * theta / L
