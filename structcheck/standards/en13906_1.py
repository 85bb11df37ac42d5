"""EN 13906-1: cylindrical helical compression springs of round wire. Recalled, the text itself was not at hand.

d wire, D mean coil diameter, w = D/d, n coils that work, n_t all coils, L_0 free, L_c solid length, s travel from free.
"""

from typing import Annotated

from structcheck import maths
from structcheck.formula import formula
from structcheck.quantities import MPa, N, N_per_mm, Nmm, Unit, mm, ratio

EDITION = "EN 13906-1:2013 (recalled)"

per_second = Annotated[float, Unit("Hz", "1/s")]
kg_per_dm3 = Annotated[float, Unit("kg/dm3", "kg/litre")]


@formula("R", f"{EDITION}, rate", trial={"G": 81500.0, "d": 5.0, "D": 40.0, "n": 8.0})
def spring_rate(G: MPa, d: mm, D: mm, n: ratio) -> N_per_mm:
    """Rate of a compression spring of round wire.

    G  shear modulus
    d  wire diameter
    D  mean coil diameter, not the outside
    n  coils that work, not all
    """
    return G * d**4 / (8 * D**3 * n)


@formula("F", f"{EDITION}, force", trial={"R": 12.4, "L_0": 120.0, "L": 90.0})
def spring_force(R: N_per_mm, L_0: mm, L: mm) -> N:
    """Force of a spring of rate R and free length L_0 held at length L."""
    return R * (L_0 - L)


@formula("W", f"{EDITION}, spring work", trial={"R": 12.4, "s": 90.0})
def spring_work(R: N_per_mm, s: mm) -> Nmm:
    """Energy stored at the travel s from the free length; 1000 N mm are 1 J."""
    return R * s**2 / 2


@formula("tau", f"{EDITION}, shear stress", trial={"F": 870.0, "D": 40.0, "d": 5.0})
def shear_stress(F: N, D: mm, d: mm) -> MPa:
    """Shear stress in the wire without the curvature factor: what static checks and the solid length are judged by."""
    return 8 * F * D / (maths.pi * d**3)


@formula("k", f"{EDITION}, stress correction factor (Bergsträsser)", trial={"w": 8.0})
def stress_correction(w: ratio) -> ratio:
    """Factor on the shear stress for the curvature of the wire; for dynamic duty only.

    w  D/d, from 4 to 20
    """
    return (w + 0.5) / (w - 0.75)


@formula("tau_k", f"{EDITION}, corrected shear stress", trial={"k": 1.17, "tau": 600.0})
def corrected_stress(k: ratio, tau: MPa) -> MPa:
    """Shear stress at the inside of the coil, for dynamic duty."""
    return k * tau


@formula("tau_zul", f"{EDITION}, permissible stress pressed, cold coiled", trial={"R_m": 1460.0})
def permissible_stress(R_m: MPa) -> MPa:
    """Shear stress allowed at the pressed length under static duty; R_m least strength of the wire."""
    return 0.50 * R_m


@formula("tau_c,zul", f"{EDITION}, permissible stress when solid, cold coiled", trial={"R_m": 1460.0})
def permissible_stress_solid(R_m: MPa) -> MPa:
    """Shear stress allowed with all coils touching; R_m least strength of the wire."""
    return 0.56 * R_m


@formula("L_c", f"{EDITION}, solid length, cold coiled, ends closed and ground", trial={"n_t": 10.0, "d_max": 5.0})
def solid_length_cold_ground(n_t: ratio, d_max: mm) -> mm:
    """Length with all coils touching; n_t all coils, d_max the greatest wire diameter."""
    return n_t * d_max


@formula("L_c", f"{EDITION}, solid length, cold coiled, ends closed, not ground", trial={"n_t": 10.0, "d_max": 5.0})
def solid_length_cold_plain(n_t: ratio, d_max: mm) -> mm:
    """Length with all coils touching; n_t all coils, d_max the greatest wire diameter."""
    return (n_t + 1.5) * d_max


@formula("L_c", f"{EDITION}, solid length, hot coiled, ends closed and ground", trial={"n_t": 7.5, "d_max": 14.0})
def solid_length_hot_ground(n_t: ratio, d_max: mm) -> mm:
    """Length with all coils touching; n_t all coils, d_max the greatest bar diameter."""
    return (n_t - 0.3) * d_max


@formula("L_c", f"{EDITION}, solid length, hot coiled, ends not ground", trial={"n_t": 7.5, "d_max": 14.0})
def solid_length_hot_plain(n_t: ratio, d_max: mm) -> mm:
    """Length with all coils touching; n_t all coils, d_max the greatest bar diameter."""
    return (n_t + 1.1) * d_max


@formula("S_a", f"{EDITION}, least sum of gaps, cold coiled", trial={"n": 8.0, "D": 40.0, "d": 5.0})
def clearance_cold(n: ratio, D: mm, d: mm) -> mm:
    """Gaps that must be left, all together, at the shortest length worked at; 1.5 times this for dynamic duty."""
    return n * (0.0015 * D**2 / d + 0.1 * d)


@formula("S_a", f"{EDITION}, least sum of gaps, hot coiled", trial={"n": 6.0, "D": 100.0, "d": 14.0})
def clearance_hot(n: ratio, D: mm, d: mm) -> mm:
    """Gaps that must be left, all together, at the shortest length worked at; twice this for dynamic duty."""
    return 0.02 * n * (D + d)


@formula("1 - p", f"{EDITION}, buckling", trial={"G": 81500.0, "E": 206000.0, "D": 40.0, "nu": 1.0, "L_0": 120.0})
def buckling_radicand(G: MPa, E: MPa, D: mm, nu: ratio, L_0: mm) -> ratio:
    """What stands under the root of the buckling travel; negative: no travel buckles the spring.

    nu  seat factor: 0.5 ends held parallel and in line, 0.7 one end hinged, 1 both hinged or free to shift, 2 one free
    """
    return 1 - (1 - G / E) / (0.5 + G / E) * (maths.pi * D / (nu * L_0)) ** 2


@formula("s_K", f"{EDITION}, buckling travel", trial={"L_0": 120.0, "G": 81500.0, "E": 206000.0, "radicand": 0.65})
def buckling_travel(L_0: mm, G: MPa, E: MPa, radicand: ratio) -> mm:
    """Travel from the free length at which the spring bows out; radicand from `buckling_radicand`, not negative."""
    return L_0 * 0.5 / (1 - G / E) * (1 - maths.sqrt(radicand))


@formula("Delta D_e", f"{EDITION}, growth of the outside diameter", trial={"m": 13.75, "d": 5.0, "D": 40.0})
def outside_growth(m: mm, d: mm, D: mm) -> mm:
    """How much the outside diameter grows from free to solid where the ends can turn.

    m  pitch of the free coils
    """
    return 0.1 * (m**2 - 0.8 * m * d - 0.2 * d**2) / D


@formula("f_e", f"{EDITION}, surge", trial={"d": 5.0, "n": 8.0, "D": 40.0, "G": 81500.0, "rho": 7.85}, empirical=True)
def surge_frequency(d: mm, n: ratio, D: mm, G: MPa, rho: kg_per_dm3) -> per_second:
    """Lowest frequency of waves along a spring held at both ends (half a wave).

    rho  density in kg/dm3, 7.85 for steel; the factor 3560 hides its unit and that of G
    """
    return 3560 * d / (n * D**2) * maths.sqrt(G / rho)


@formula("G_T", f"{EDITION}, shear modulus when warm", trial={"G": 81500.0, "r": 0.25e-3, "T": 100.0}, empirical=True)
def warm_shear_modulus(G: MPa, r: ratio, T: ratio) -> MPa:
    """Shear modulus at T degC from that at 20 degC.

    r  loss per kelvin, 0.25e-3 for unalloyed and low-alloy wire
    """
    return G * (1 - r * (T - 20))
