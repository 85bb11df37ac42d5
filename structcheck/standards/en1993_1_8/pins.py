"""EN 1993-1-8:2005 3.13: connections made with pins (Tables 3.9 and 3.10, figure 3.11)."""

from structcheck import maths
from structcheck.formula import formula
from structcheck.quantities import MPa, N, Nmm, mm, mm2, mm3, ratio


@formula("F_v,Rd", "EN 1993-1-8:2005 Table 3.10", trial={"A": 1257.0, "f_up": 490.0, "gamma_M2": 1.25})
def shear_resistance(A: mm2, f_up: MPa, gamma_M2: ratio) -> N:
    """Shear resistance of the pin in one plane; A its section, f_up its tensile strength."""
    return 0.6 * A * f_up / gamma_M2


@formula("F_b,Rd", "EN 1993-1-8:2005 Table 3.10", trial={"t": 20.0, "d": 40.0, "f_y": 345.0, "gamma_M0": 1.0})
def bearing_resistance(t: mm, d: mm, f_y: MPa, gamma_M0: ratio) -> N:
    """Bearing of plate and pin.

    t    thickness of the plate
    d    diameter of the pin, not of the hole
    f_y  the lower yield strength of plate and pin
    """
    return 1.5 * t * d * f_y / gamma_M0


@formula(
    "F_b,Rd,ser",
    "EN 1993-1-8:2005 Table 3.10 (replaceable)",
    trial={"t": 20.0, "d": 40.0, "f_y": 345.0, "gamma_M6_ser": 1.0},
)
def bearing_resistance_replaceable(t: mm, d: mm, f_y: MPa, gamma_M6_ser: ratio) -> N:
    """Bearing at service loads of a pin meant to be taken out; arguments as for `bearing_resistance`."""
    return 0.6 * t * d * f_y / gamma_M6_ser


@formula("W_el", "EN 1993-1-8:2005 figure 3.11 (round section)", trial={"d": 40.0})
def section_modulus(d: mm) -> mm3:
    """Elastic section modulus of a solid round pin."""
    return maths.pi * d**3 / 32


@formula("M_Rd", "EN 1993-1-8:2005 Table 3.10", trial={"W_el": 6283.0, "f_yp": 355.0, "gamma_M0": 1.0})
def bending_resistance(W_el: mm3, f_yp: MPa, gamma_M0: ratio) -> Nmm:
    """Bending resistance of the pin: 1.5 times the elastic modulus, not the plastic one (1.70)."""
    return 1.5 * W_el * f_yp / gamma_M0


@formula(
    "M_Rd,ser",
    "EN 1993-1-8:2005 Table 3.10 (replaceable)",
    trial={"W_el": 6283.0, "f_yp": 355.0, "gamma_M6_ser": 1.0},
)
def bending_resistance_replaceable(W_el: mm3, f_yp: MPa, gamma_M6_ser: ratio) -> Nmm:
    """Bending at service loads of a pin meant to be taken out."""
    return 0.8 * W_el * f_yp / gamma_M6_ser


@formula("M_Ed", "EN 1993-1-8:2005 figure 3.11", trial={"F_Ed": 200e3, "a": 12.0, "b": 20.0, "c": 2.0})
def bending_moment(F_Ed: N, a: mm, b: mm, c: mm) -> Nmm:
    """Moment in the middle of a pin through one inner plate between two outer ones.

    a  thickness of each outer plate
    b  thickness of the inner plate
    c  gap on each side between them
    """
    return F_Ed / 8 * (b + 4 * c + 2 * a)


@formula(
    "(M_Ed/M_Rd)^2 + (F_v,Ed/F_v,Rd)^2",
    "EN 1993-1-8:2005 Table 3.10",
    trial={"M_Ed": 1.3e6, "M_Rd": 3.346e6, "F_v_Ed": 100e3, "F_v_Rd": 295.6e3},
)
def shear_and_bending(M_Ed: Nmm, M_Rd: Nmm, F_v_Ed: N, F_v_Rd: N) -> ratio:
    """Shear with bending of the pin, at most 1; quadratic, so its root is the inverse of the load factor."""
    return (M_Ed / M_Rd) ** 2 + (F_v_Ed / F_v_Rd) ** 2


@formula(
    "sigma_h,Ed",
    "EN 1993-1-8:2005 3.13.2(3) (3.15)",
    trial={"E": 210e3, "F_b_Ed_ser": 130e3, "d_0": 41.0, "d": 40.0, "t": 20.0},
)
def contact_stress(E: MPa, F_b_Ed_ser: N, d_0: mm, d: mm, t: mm) -> MPa:
    """Contact stress between a pin meant to be taken out and its hole, at service loads.

    d_0  diameter of the hole; d of the pin
    t    thickness of the plate
    """
    return 0.591 * maths.sqrt(E * F_b_Ed_ser * (d_0 - d) / (d**2 * t))


@formula("f_h,Rd", "EN 1993-1-8:2005 3.13.2(3) (3.16)", trial={"f_y": 345.0, "gamma_M6_ser": 1.0})
def contact_resistance(f_y: MPa, gamma_M6_ser: ratio) -> MPa:
    """Contact stress allowed; f_y is the lower yield strength of plate and pin."""
    return 2.5 * f_y / gamma_M6_ser


@formula(
    "a",
    "EN 1993-1-8:2005 Table 3.9 type A",
    trial={"F_Ed": 200e3, "t": 20.0, "f_y": 345.0, "d_0": 41.0, "gamma_M0": 1.0},
)
def least_end_material(F_Ed: N, t: mm, f_y: MPa, d_0: mm, gamma_M0: ratio) -> mm:
    """Material a plate of thickness t needs between the edge of the hole (not its centre) and the loaded end."""
    return F_Ed * gamma_M0 / (2 * t * f_y) + 2 * d_0 / 3


@formula(
    "c",
    "EN 1993-1-8:2005 Table 3.9 type A",
    trial={"F_Ed": 200e3, "t": 20.0, "f_y": 345.0, "d_0": 41.0, "gamma_M0": 1.0},
)
def least_side_material(F_Ed: N, t: mm, f_y: MPa, d_0: mm, gamma_M0: ratio) -> mm:
    """Material a plate of thickness t needs between the edge of the hole and each side."""
    return F_Ed * gamma_M0 / (2 * t * f_y) + d_0 / 3


@formula("t", "EN 1993-1-8:2005 Table 3.9 type B", trial={"F_Ed": 200e3, "f_y": 345.0, "gamma_M0": 1.0})
def least_thickness(F_Ed: N, f_y: MPa, gamma_M0: ratio) -> mm:
    """Thickness of a plate cut to the outline of type B: 1.6 d_0 to the end, 1.25 d_0 to each side of the centre.

    Type B further asks for d_0 at most 2.5 t.
    """
    return 0.7 * maths.sqrt(F_Ed * gamma_M0 / f_y)


@formula(
    "F_Rd",
    "machine-design practice: two planes from hole to end",
    trial={"t": 15.0, "e": 40.0, "d_0": 26.0, "tau": 100.0},
)
def tear_out(t: mm, e: mm, d_0: mm, tau: MPa) -> N:
    """Force that shears the material behind a pin out of the plate along two planes.

    e    centre of the hole to the end
    tau  shear stress allowed

    The planes are counted from the hole's edge nearest the end, e - d_0/2: the shortest length in use.
    """
    return 2 * (e - d_0 / 2) * t * tau
