"""Spring formulas of textbooks: curvature factors, fatigue on Zimmerli's data, square wire, return duty."""

from structcheck.formula import formula
from structcheck.quantities import MPa, N, N_per_mm, mm, ratio

WAHL = "Wahl, Mechanical Springs, as printed in the textbooks (read)"
ZIMMERLI = "Zimmerli's endurance data as in Shigley, Mechanical Engineering Design, ch. 10 (memory)"

LOGARITHMS = "straight in logarithms from 1e3 to 1e6 cycles, textbook practice (memory)"

ZIMMERLI_AMPLITUDE = 241.0
"""Zimmerli's shear amplitude for endless life in MPa, wire below 10 mm, not peened (memory)."""

ZIMMERLI_MEAN = 379.0
"""The mean shear stress that goes with it, MPa (memory)."""


@formula("K_W", WAHL, trial=dict(w=8.0))
def wahl_factor(w: ratio) -> ratio:
    """Wahl's factor on the shear stress, curvature and direct shear together; w = D/d."""
    return (4 * w - 1) / (4 * w - 4) + 0.615 / w


@formula("K_s", "direct shear factor of the textbooks (read)", trial=dict(w=8.0))
def direct_shear_factor(w: ratio) -> ratio:
    """Factor for direct shear alone, without curvature: what the textbooks put on the mean stress; w = D/d."""
    return 1 + 0.5 / w


@formula(
    "K_B", "Bergsträsser's factor as in Shigley, Mechanical Engineering Design, ch. 10 (memory)", trial=dict(w=8.0)
)
def bergstraesser_factor(w: ratio) -> ratio:
    """The factor of EN 13906-1 as American texts write it; w = D/d."""
    return (4 * w + 2) / (4 * w - 3)


@formula("S_su", "torsional strength 0.67 R_m, Shigley ch. 10 (memory)", trial=dict(R_m=1460.0))
def torsional_strength(R_m: MPa) -> MPa:
    """Ultimate shear strength of spring wire."""
    return 0.67 * R_m


@formula("S_se", f"Goodman line through {ZIMMERLI}", trial=dict(S_a=241.0, S_m=379.0, S_su=980.0))
def endurance_amplitude(S_a: MPa, S_m: MPa, S_su: MPa) -> MPa:
    """Amplitude for endless life without mean stress, from a tested pair of amplitude S_a and mean S_m."""
    return S_a / (1 - S_m / S_su)


@formula("S_3", "0.9 S_su at 1000 cycles, textbook practice (memory)", trial=dict(S_su=980.0))
def amplitude_at_1000(S_su: MPa) -> MPa:
    """Amplitude without mean stress at 1000 cycles."""
    return 0.9 * S_su


@formula(
    "S_N",
    LOGARITHMS,
    trial=dict(S_3=880.0, S_se=390.0, lg_N=5.0),
)
def amplitude_at_life(S_3: MPa, S_se: MPa, lg_N: ratio) -> MPa:
    """Amplitude without mean stress that N cycles leave; lg_N from 3 to 6, endless beyond."""
    return S_3 * (S_se / S_3) ** ((lg_N - 3) / 3)


@formula(
    "1/n_f",
    f"Goodman line through {ZIMMERLI}",
    trial=dict(tau_a=80.0, tau_m=500.0, S_N=500.0, S_su=980.0, gamma_Mf=1.35),
)
def goodman_ratio(tau_a: MPa, tau_m: MPa, S_N: MPa, S_su: MPa, gamma_Mf: ratio) -> ratio:
    """Inverse of the factor by which amplitude and mean can grow together.

    tau_a, tau_m  half the range and the mean of the corrected stress
    gamma_Mf      on the amplitude the wire bears; ours, the sources have none
    """
    return tau_a * gamma_Mf / S_N + tau_m / S_su


@formula("R", "rate of a spring of square wire, 5.58 rounded (memory)", trial=dict(G=80000.0, b=10.0, D=60.0, n=6.0))
def square_wire_rate(G: MPa, b: mm, D: mm, n: ratio) -> N_per_mm:
    """Rate of a spring of square wire of side b; D mean coil diameter, n coils that work."""
    return G * b**4 / (5.58 * D**3 * n)


@formula("F_back", "statics", trial=dict(F_g=245.0, F_oil=500.0, F_mu=50.0))
def return_force_needed(F_g: N, F_oil: N, F_mu: N) -> N:
    """What springs must push with for the platen to come home: weight, oil and seals, friction of the guides."""
    return F_g + F_oil + F_mu
