"""Spring formulas of textbooks: curvature factors, fatigue on Zimmerli's data, square wire, return duty."""

from typing import Annotated

from structcheck import maths
from structcheck.formula import formula
from structcheck.quantities import MPa, N, N_per_mm, Unit, kg, mm, ratio

joule = Annotated[float, Unit("J", "J")]
metre_per_second = Annotated[float, Unit("m/s", "m/s")]
kg_per_mm3 = Annotated[float, Unit("kg/mm3", "kg/mm**3")]

WAHL = "Wahl, Mechanical Springs, as printed in the textbooks (read)"
ZIMMERLI = "Zimmerli's endurance data as in Shigley, Mechanical Engineering Design, ch. 10 (memory)"

LOGARITHMS = "straight in logarithms from 1e3 to 1e6 cycles, textbook practice (memory)"

ZIMMERLI_AMPLITUDE = 241.0
"""Zimmerli's shear amplitude for endless life in MPa, wire below 10 mm, not peened (memory)."""

ZIMMERLI_MEAN = 379.0
"""The mean shear stress that goes with it, MPa (memory)."""


@formula("K_W", WAHL, trial={"w": 8.0})
def wahl_factor(w: ratio) -> ratio:
    """Wahl's factor on the shear stress, curvature and direct shear together; w = D/d."""
    return (4 * w - 1) / (4 * w - 4) + 0.615 / w


@formula("K_s", "direct shear factor of the textbooks (read)", trial={"w": 8.0})
def direct_shear_factor(w: ratio) -> ratio:
    """Factor for direct shear alone, without curvature: what the textbooks put on the mean stress; w = D/d."""
    return 1 + 0.5 / w


@formula("K_B", "Bergsträsser's factor as in Shigley, Mechanical Engineering Design, ch. 10 (memory)", trial={"w": 8.0})
def bergstraesser_factor(w: ratio) -> ratio:
    """The factor of EN 13906-1 as American texts write it; w = D/d."""
    return (4 * w + 2) / (4 * w - 3)


@formula("S_su", "torsional strength 0.67 R_m, Shigley ch. 10 (memory)", trial={"R_m": 1460.0})
def torsional_strength(R_m: MPa) -> MPa:
    """Ultimate shear strength of spring wire."""
    return 0.67 * R_m


@formula("S_se", f"Goodman line through {ZIMMERLI}", trial={"S_a": 241.0, "S_m": 379.0, "S_su": 980.0})
def endurance_amplitude(S_a: MPa, S_m: MPa, S_su: MPa) -> MPa:
    """Amplitude for endless life without mean stress, from a tested pair of amplitude S_a and mean S_m."""
    return S_a / (1 - S_m / S_su)


@formula("S_3", "0.9 S_su at 1000 cycles, textbook practice (memory)", trial={"S_su": 980.0})
def amplitude_at_1000(S_su: MPa) -> MPa:
    """Amplitude without mean stress at 1000 cycles."""
    return 0.9 * S_su


@formula(
    "S_N",
    LOGARITHMS,
    trial={"S_3": 880.0, "S_se": 390.0, "lg_N": 5.0},
)
def amplitude_at_life(S_3: MPa, S_se: MPa, lg_N: ratio) -> MPa:
    """Amplitude without mean stress that N cycles leave; lg_N from 3 to 6, endless beyond."""
    return S_3 * (S_se / S_3) ** ((lg_N - 3) / 3)


@formula(
    "1/n_f",
    f"Goodman line through {ZIMMERLI}",
    trial={"tau_a": 80.0, "tau_m": 500.0, "S_N": 500.0, "S_su": 980.0},
)
def goodman_ratio(tau_a: MPa, tau_m: MPa, S_N: MPa, S_su: MPa) -> ratio:
    """Inverse of the factor by which amplitude and mean can grow together.

    tau_a, tau_m  half the range and the mean of the corrected stress
    """
    return tau_a / S_N + tau_m / S_su


@formula(
    "R", "rate of a spring of square wire, 5.58 rounded (memory)", trial={"G": 80000.0, "b": 10.0, "D": 60.0, "n": 6.0}
)
def square_wire_rate(G: MPa, b: mm, D: mm, n: ratio) -> N_per_mm:
    """Rate of a spring of square wire of side b; D mean coil diameter, n coils that work."""
    return G * b**4 / (5.58 * D**3 * n)


@formula("F_back", "statics", trial={"F_g": 245.0, "F_oil": 500.0, "F_mu": 50.0})
def return_force_needed(F_g: N, F_oil: N, F_mu: N) -> N:
    """What springs must push with for the platen to come home: weight, oil and seals, friction of the guides."""
    return F_g + F_oil + F_mu


@formula("v", "all the stored work into the motion of what flies", trial={"W": 50.36, "m": 0.6}, empirical=True)
def flying_speed(W: joule, m: kg) -> metre_per_second:
    """The fastest a mass m can fly off with the stored work W in J; an upper bound."""
    return maths.sqrt(2 * W / m)


STEEL = 7.85e-6
"""Density of steel, kg/mm3."""


@formula("m", "volume of the plate", trial={"l": 500.0, "b": 500.0, "t": 40.0, "rho": 7.85e-6})
def plate_mass(l: mm, b: mm, t: mm, rho: kg_per_mm3) -> kg:  # noqa: E741
    """Mass of a plate of length l, width b, thickness t; holes are not taken off. rho 7.85e-6 kg/mm3 for steel."""
    return l * b * t * rho


@formula("m", "volume of the wire", trial={"d": 6.0, "D": 42.0, "n_t": 38.0, "rho": 7.85e-6})
def wire_mass(d: mm, D: mm, n_t: ratio, rho: kg_per_mm3) -> kg:
    """Mass of a spring of n_t coils; rho 7.85e-6 kg/mm3 for steel."""
    return maths.pi**2 * d**2 / 4 * D * n_t * rho


HOOK = "hook of an extension spring, Shigley, Mechanical Engineering Design, ch. 10 (memory)"


@formula("K_A", f"bending of a {HOOK}", trial={"c_1": 8.0})
def hook_bending_factor(c_1: ratio) -> ratio:
    """Curvature factor where the hook bends; c_1 twice the mean radius of the hook over the wire diameter."""
    return (4 * c_1**2 - c_1 - 1) / (4 * c_1 * (c_1 - 1))


@formula("sigma_A", f"bending of a {HOOK}", trial={"F": 400.0, "K_A": 1.1, "D": 40.0, "d": 5.0})
def hook_bending_stress(F: N, K_A: ratio, D: mm, d: mm) -> MPa:
    """Tensile stress inside the hook, bending and pull together."""
    return F * (K_A * 16 * D / (maths.pi * d**3) + 4 / (maths.pi * d**2))


@formula("tau_eq", "von Mises, bending as the shear that is as hard on the wire", trial={"sigma": 700.0})
def equivalent_shear(sigma: MPa) -> MPa:
    """Shear stress that is as hard on the wire as the bending stress sigma."""
    return sigma / maths.sqrt(3)


@formula("K_B", f"torsion of a {HOOK}", trial={"c_2": 4.0})
def hook_torsion_factor(c_2: ratio) -> ratio:
    """Curvature factor where the hook bends up from the body; c_2 twice the radius of that bend over the wire."""
    return (4 * c_2 - 1) / (4 * c_2 - 4)


@formula(
    "sigma",
    "annular plate, edges free to turn, Timoshenko (derived again)",
    trial={"F": 2e3, "a": 30.0, "b": 10.0, "t": 6.0, "ln": 1.1},
)
def washer_stress(F: N, a: mm, b: mm, t: mm, ln: ratio) -> MPa:
    """Greatest bending stress of a washer pressed on at one edge and held at the other, at its hole.

    a, b, t  outer and inner radius, thickness
    ln       natural logarithm of a / b; Poisson's ratio is 0.3
    """
    return 3 * F / (2 * maths.pi * t**2) * (2.6 * a**2 / (a**2 - b**2) * ln + 0.7)
