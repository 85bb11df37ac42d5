"""A force pressed into the edge of a solid bar, a flat or a leg: by statics, for no clause of EN 1993 has it."""

from structcheck.formula import formula
from structcheck.quantities import MPa, N, mm, mm2, mm4, ratio

CRUSHING = "yield under the contact, EN 1993-1-1:2005 6.2.1(5)"
STRIP = "strip under the contact as a strut, 1:1 spread to mid-depth"


@formula("F_c,Rd", CRUSHING, trial={"b": 10.0, "s": 50.0, "f_y": 275.0, "gamma_M0": 1.0})
def crushing_resistance(b: mm, s: mm, f_y: MPa, gamma_M0: ratio) -> N:
    """Force at which the pressed edge yields, with nothing spread before it.

    b  width of the contact across the edge
    s  length of the contact along it
    """
    return b * s * f_y / gamma_M0


@formula("A_s", STRIP, trial={"t": 10.0, "s": 50.0, "spread": 150.0})
def strip_area(t: mm, s: mm, spread: mm) -> mm2:
    """Area of the strip of a plate of thickness t that carries a contact s long, `spread` added to it on both sides."""
    return t * (s + spread)


@formula("I_s", STRIP, trial={"t": 10.0, "A_s": 2000.0})
def strip_second_moment(t: mm, A_s: mm2) -> mm4:
    """Second moment of area of the strip across the plate."""
    return A_s * t**2 / 12
