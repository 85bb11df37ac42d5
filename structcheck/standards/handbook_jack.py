"""A hydraulic jack as an actuator: force and pressure, the effort at its handle, the stress in its ram."""

from structcheck import maths
from structcheck.formula import formula
from structcheck.quantities import MPa, N, mm, ratio


@formula("F", "pressure on the piston", trial={"p": 40.0, "d": 60.0})
def force_of_pressure(p: MPa, d: mm) -> N:
    """Force of a piston of diameter d; the piston, not the screw on it."""
    return p * maths.pi * d**2 / 4


@formula("p", "force over the piston", trial={"F": 196e3, "d": 60.0})
def pressure_of_force(F: N, d: mm) -> MPa:
    """Pressure under a piston of diameter d; 1 MPa is 10 bar."""
    return 4 * F / (maths.pi * d**2)


@formula(
    "F_h",
    "lever and pistons of a hand pump",
    trial={"F": 196e3, "d_pump": 12.0, "d_ram": 60.0, "l_short": 30.0, "l_long": 600.0, "eta": 0.85},
)
def handle_effort(F: N, d_pump: mm, d_ram: mm, l_short: mm, l_long: mm, eta: ratio) -> N:
    """Force of the hand at the end of the handle.

    d_pump, d_ram  diameters of pump plunger and ram
    l_short        from the pivot to the plunger; l_long to the hand
    eta            efficiency, about 0.85
    """
    return F * (d_pump / d_ram) ** 2 * (l_short / l_long) / eta


@formula("sigma_b", "bending of a round ram", trial={"F": 78e3, "e": 10.0, "d": 38.0})
def ram_bending_stress(F: N, e: mm, d: mm) -> MPa:
    """Bending stress of a ram pressed at e beside its axis; 8 e / d times the direct stress."""
    return 32 * F * e / (maths.pi * d**3)
