"""Warping torsion of thin open sections by sectorial coordinates (Vlasov, Thin-Walled Elastic Beams, 1961; recalled).

Middle lines: b from web to flange tip, h between the flanges. omega is measured from the shear centre.
"""

from typing import Annotated

from structcheck.formula import formula
from structcheck.maths import maximum
from structcheck.quantities import MPa, Nmm, Unit, mm, mm2, mm4, mm6, ratio

Bimoment = Annotated[float, Unit("N mm2", "N*mm**2")]

SOURCE = "Vlasov, Thin-Walled Elastic Beams (1961), recalled"


@formula("omega", f"{SOURCE}, I with equal flanges", trial={"b_f": 160.0, "h": 318.5})
def sectorial_coordinate_i(b_f: mm, h: mm) -> mm2:
    """Greatest sectorial coordinate, at the flange tips of an I of flange width b_f."""
    return b_f * h / 4


@formula("omega", f"{SOURCE}, channel", trial={"b": 51.5, "h": 111.0, "e": 18.5})
def sectorial_coordinate_channel(b: mm, h: mm, e: mm) -> mm2:
    """Greatest sectorial coordinate of a channel, at the tips or where the flanges meet the web.

    e  from the web's middle line to the shear centre
    """
    return maximum(b - e, e) * h / 2


@formula("S_omega", f"{SOURCE}, I with equal flanges", trial={"b_f": 160.0, "t_f": 11.5, "h": 318.5})
def sectorial_moment_i(b_f: mm, t_f: mm, h: mm) -> mm4:
    """Greatest sectorial first moment, in the middle of the flanges of an I."""
    return b_f**2 * t_f * h / 16


@formula("S_omega", f"{SOURCE}, channel", trial={"b": 51.5, "t_f": 9.0, "h": 111.0, "e": 18.5})
def sectorial_moment_channel(b: mm, t_f: mm, h: mm, e: mm) -> mm4:
    """Greatest sectorial first moment of a channel, in the flanges where omega is zero."""
    return t_f * h * (b - e) ** 2 / 4


@formula("sigma_w", SOURCE, trial={"B": 6.0e7, "omega": 1830.0, "I_w": 0.9e9})
def warping_stress(B: Bimoment, omega: mm2, I_w: mm6) -> MPa:
    """Normal stress of the bimoment B at the sectorial coordinate omega."""
    return B * omega / I_w


@formula("tau_w", SOURCE, trial={"T_w": 3.6e5, "S_omega": 272e3, "I_w": 0.9e9, "t": 9.0})
def warping_shear_stress(T_w: Nmm, S_omega: mm4, I_w: mm6, t: mm) -> MPa:
    """Shear stress of the warping torque in a wall of thickness t."""
    return T_w * S_omega / (I_w * t)


@formula("kappa L", SOURCE, trial={"G": 80769.0, "I_t": 4.1e4, "E": 210e3, "I_w": 0.9e9, "L": 700.0})
def torsion_length(G: MPa, I_t: mm4, E: MPa, I_w: mm6, L: mm) -> ratio:
    """How far Saint-Venant torsion takes over along a member: below 1 nearly all is warping, above 10 hardly any."""
    return L * (G * I_t / (E * I_w)) ** 0.5
