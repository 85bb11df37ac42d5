"""EN 1993-1-5:2006 section 9, a pair of transverse stiffeners under a force, as a strut with part of the web."""

from structcheck import maths
from structcheck.formula import formula
from structcheck.maths import maximum, minimum, sqrt
from structcheck.quantities import MPa, N, mm, mm2, mm4, ratio

CLAUSE = "EN 1993-1-5:2006 9.1, 9.4"


@formula("15 epsilon t_w", "EN 1993-1-5:2006 9.1(2)", trial={"f_yw": 355.0, "t_w": 8.0}, empirical=True)
def web_each_side(f_yw: MPa, t_w: mm) -> mm:
    """Web that works with the stiffener, each side of it; never more than there is."""
    return 15 * sqrt(235 / f_yw) * t_w


@formula(
    "A_st",
    "EN 1993-1-5:2006 9.1(2)",
    trial={"b_s": 90.0, "t_s": 12.0, "t_w": 8.0, "left": 97.6, "right": 97.6},
)
def strut_area(b_s: mm, t_s: mm, t_w: mm, left: mm, right: mm) -> mm2:
    """Area of a pair of flats b_s by t_s with the web between them and left and right of them."""
    return 2 * b_s * t_s + (left + t_s + right) * t_w


@formula(
    "I_st",
    "EN 1993-1-5:2006 9.1(2)",
    trial={"b_s": 90.0, "t_s": 12.0, "t_w": 8.0, "left": 97.6, "right": 97.6},
)
def strut_second_moment(b_s: mm, t_s: mm, t_w: mm, left: mm, right: mm) -> mm4:
    """Second moment of the same area about the middle plane of the web."""
    return t_s * (2 * b_s + t_w) ** 3 / 12 + (left + right) * t_w**3 / 12


@formula(
    "lambda_bar",
    "EN 1993-1-5:2006 9.4(2)",
    trial={"L_cr": 277.5, "A": 3818.0, "I": 6.65e6, "f_y": 355.0, "E": 210e3},
)
def strut_slenderness(L_cr: mm, A: mm2, I: mm4, f_y: MPa, E: MPa) -> ratio:  # noqa: E741 - the standard's symbol
    """Slenderness of the strut; L_cr at least 0.75 h_w, where both flanges are held sideways."""
    return L_cr / (sqrt(I / A) * maths.pi * sqrt(E / f_y))


@formula("chi", "EN 1993-1-5:2006 9.4(2), curve c of EN 1993-1-1", trial={"lambda_bar": 0.6})
def strut_reduction(lambda_bar: ratio) -> ratio:
    """Reduction for buckling of the strut out of the web's plane, alpha 0.49."""
    x = maximum(lambda_bar, 0.2)
    phi = 0.5 * (1 + 0.49 * (x - 0.2) + x**2)
    return minimum(1 / (phi + sqrt(phi**2 - x**2)), 1)


@formula("N_b,Rd", "EN 1993-1-5:2006 9.4", trial={"chi": 0.9, "A": 3818.0, "f_y": 355.0, "gamma_M1": 1.0})
def strut_resistance(chi: ratio, A: mm2, f_y: MPa, gamma_M1: ratio) -> N:
    """Resistance of the strut; f_y the lower of web and stiffener."""
    return chi * A * f_y / gamma_M1


@formula(
    "N_c,Rd",
    "EN 1993-1-5:2006 9.4(2)",
    trial={"b_s": 90.0, "clip": 15.0, "t_s": 12.0, "t_w": 8.0, "web": 60.0, "f_y": 355.0, "gamma_M0": 1.0},
)
def end_resistance(b_s: mm, clip: mm, t_s: mm, t_w: mm, web: mm, f_y: MPa, gamma_M0: ratio) -> N:
    """Resistance at the loaded end, where the flats are clipped for the root fillet or the weld.

    clip  cut from each flat at its inner corner
    web   length of web under the load, the flats' thickness included
    """
    return (2 * (b_s - clip) * t_s + web * t_w) * f_y / gamma_M0


@formula("b_s/t_s limit", "EN 1993-1-5:2006 9.2.1(8)", trial={"E": 210e3, "f_y": 355.0})
def flat_ratio_against_torsion(E: MPa, f_y: MPa) -> ratio:
    """b_s/t_s up to which a flat does not buckle in torsion: I_T/I_p = (t_s/b_s)^2 at least 5.3 f_y/E."""
    return sqrt(E / (5.3 * f_y))


@formula("14 epsilon", "EN 1993-1-1:2005 Table 5.2", trial={"f_y": 355.0}, empirical=True)
def flat_ratio_class_3(f_y: MPa) -> ratio:
    """b_s/t_s up to which a flat in compression is fully effective (outstand, class 3)."""
    return 14 * sqrt(235 / f_y)
