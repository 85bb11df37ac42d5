"""6.2.2.2 and 6.2.5(4): areas at holes."""

from structcheck.formula import formula
from structcheck.quantities import MPa, N, mm, mm2, ratio

CODE = "EN 1993-1-1:2005"


@formula("A_net", f"{CODE} 6.2.2.2(3)", trial={"A": 2400.0, "n": 2.0, "d_0": 22.0, "t": 12.0})
def net_area(A: mm2, n: ratio, d_0: mm, t: mm) -> mm2:
    """Net area with n holes of diameter d_0 in a line across the force."""
    return A - n * d_0 * t


@formula(
    "A_net",
    f"{CODE} 6.2.2.2(4)b",
    trial={"A": 2400.0, "n": 3.0, "d_0": 22.0, "t": 12.0, "steps": 2.0, "s": 40.0, "p": 60.0},
)
def net_area_staggered(A: mm2, n: ratio, d_0: mm, t: mm, steps: ratio, s: mm, p: mm) -> mm2:
    """Net area along a zig-zag through n holes with `steps` slanting steps; the lesser of this and the line governs.

    s  pitch of two neighbouring holes along the force
    p  their spacing across it
    """
    return A - t * (n * d_0 - steps * s**2 / (4 * p))


@formula("s^2/(4 p)", f"{CODE} 6.2.2.2(4)b", trial={"s": 40.0, "p": 60.0})
def gain_of_slant(s: mm, p: mm) -> mm:
    """What one slanting step of a zig-zag adds to the net width.

    s  pitch of the two holes along the force
    p  their spacing across it
    """
    return s**2 / (4 * p)


@formula(
    "A_net",
    f"{CODE} 6.2.2.2(4)b",
    trial={"A": 2400.0, "n": 3.0, "d_0": 22.0, "t": 12.0, "slant": 13.3},
)
def net_area_of_zigzag(A: mm2, n: ratio, d_0: mm, t: mm, slant: mm) -> mm2:
    """Net area along a zig-zag through n holes whose steps are unlike; slant is the sum of s^2/(4 p) of its steps."""
    return A - t * (n * d_0 - slant)


@formula("A_f,net", f"{CODE} (6.16), left side", trial={"A_f_net": 1334.0, "f_u": 490.0, "gamma_M2": 1.25})
def net_flange_side(A_f_net: mm2, f_u: MPa, gamma_M2: ratio) -> N:
    """Resistance of a tension flange at its holes; where it is at least the gross side the holes may be ignored."""
    return A_f_net * 0.9 * f_u / gamma_M2


@formula("A_f", f"{CODE} (6.16), right side", trial={"A_f": 1840.0, "f_y": 355.0, "gamma_M0": 1.0})
def gross_flange_side(A_f: mm2, f_y: MPa, gamma_M0: ratio) -> N:
    """Resistance of the gross tension flange."""
    return A_f * f_y / gamma_M0
