"""EN 1993-1-8:2005 section 7, hollow section joints: tubes and plates welded to a rectangular or round tube.

Index 0 is the tube that runs through (the chord), index 1 what is welded to it. Recalled, not read, but for the
lines of Table 7.13 that an excerpt confirmed; the yield-line forms were derived again in the tests.
"""

from structcheck import maths
from structcheck.formula import formula
from structcheck.maths import maximum, minimum, sqrt
from structcheck.quantities import MPa, N, Nmm, mm, mm3, ratio
from structcheck.standards.en1993_1_1.buckling import phi, reduction

_FACE = {"k_n": 1.0, "f_y0": 235.0, "t_0": 5.0, "eta": 0.8, "beta": 0.8, "gamma_M5": 1.0}


@formula("k_n", "EN 1993-1-8:2005 Tables 7.10, 7.11, 7.14", trial={"n": 0.6, "beta": 0.5})
def chord_stress_factor(n: ratio, beta: ratio) -> ratio:
    """Reduction for stress in the chord's face.

    n     stress of the connected face over f_y0, compression positive
    beta  width of the brace over width of the chord
    """
    return minimum(1.3 - 0.4 * n / beta, 1.0)


@formula("k_m", "EN 1993-1-8:2005 Table 7.13", trial={"n": 0.5})
def chord_stress_factor_plate(n: ratio) -> ratio:
    """Reduction for stress in the chord's face under a plate; n compression positive."""
    return minimum(1.3 * (1 - n), 1.0)


@formula("N_1,Rd", "EN 1993-1-8:2005 Table 7.11, chord face failure, theta = 90 degrees", trial=_FACE)
def face_failure(k_n: ratio, f_y0: MPa, t_0: mm, eta: ratio, beta: ratio, gamma_M5: ratio) -> N:
    """A yield-line mechanism in the face round a brace, or a stiff pad, narrower than 0.85 of the chord.

    eta   length of the brace along the chord over width of the chord; equal to beta for a square brace (Table 7.10)
    beta  width of the brace over width of the chord
    """
    return k_n * f_y0 * t_0**2 / (1 - beta) * (2 * eta + 4 * sqrt(1 - beta)) / gamma_M5


@formula(
    "F_Rd",
    "yield lines with fans round a rectangle (Johansen; form of Gomes, Jaspart and Maquoi 1996, recalled)",
    trial={"k": 0.94, "k_n": 1.0, "f_y0": 235.0, "t_0": 5.0, "eta": 0.4, "beta": 0.4, "gamma_M5": 1.0},
)
def face_of_bolts(k: ratio, k_n: ratio, f_y0: MPa, t_0: mm, eta: ratio, beta: ratio, gamma_M5: ratio) -> N:
    """The face round bolts, or round a flange pressed on through a plate: less than `face_failure` by its fans.

    k     for a group that is small beside the face
    eta   height of the group or flange over width of the chord
    beta  width between the bolt lines, or of what presses, over width of the chord
    """
    return k * k_n * f_y0 * t_0**2 / (1 - beta) * (2 * eta + maths.pi * sqrt(1 - beta)) / gamma_M5


@formula("k", "Gomes, Jaspart and Maquoi 1996 (recalled)", trial={"eta": 0.1, "beta": 0.3})
def small_group_factor(eta: ratio, beta: ratio) -> ratio:
    """What a group of bolts loses that is small beside the face it pulls."""
    return minimum(1.0, 0.7 + 0.6 * (eta + beta))


@formula(
    "F_Rd",
    "yield lines, a full fan round each bolt (Johansen)",
    trial={"n_b": 2.0, "k_n": 1.0, "f_y0": 235.0, "t_0": 5.0, "gamma_M5": 1.0},
)
def face_at_single_bolts(n_b: ratio, k_n: ratio, f_y0: MPa, t_0: mm, gamma_M5: ratio) -> N:
    """A cone in the face round each of n_b bolts, 4 pi m_pl for each."""
    return n_b * k_n * maths.pi * f_y0 * t_0**2 / gamma_M5


@formula(
    "N_1,Rd",
    "EN 1993-1-8:2005 Table 7.11, chord side wall, theta = 90 degrees",
    trial={"k_n": 0.9, "f_b": 200.0, "t_0": 5.0, "h_1": 80.0, "gamma_M5": 1.0},
)
def side_wall_failure(k_n: ratio, f_b: MPa, t_0: mm, h_1: mm, gamma_M5: ratio) -> N:
    """Both side walls crushed, or buckled, under a brace as wide as the chord; Table 7.13 has it with k_n = 1.

    f_b  strength of the wall: f_y0 in tension, reduced for buckling in compression
    h_1  length of the brace along the chord
    """
    return k_n * f_b * t_0 * (2 * h_1 + 10 * t_0) / gamma_M5


@formula(
    "lambda_bar",
    "EN 1993-1-8:2005 Table 7.11, theta = 90 degrees",
    trial={"h_0": 100.0, "t_0": 5.0, "E": 210000.0, "f_y0": 235.0},
)
def side_wall_slenderness(h_0: mm, t_0: mm, E: MPa, f_y0: MPa) -> ratio:
    """Slenderness of a side wall pressed from above, for the buckling curve of the tube."""
    return 3.46 * (h_0 / t_0 - 2) / (maths.pi * sqrt(E / f_y0))


def side_wall_buckling_factor(lambda_bar: float, alpha: float) -> float:
    """What buckling leaves of a side wall's strength (Table 7.11); alpha 0.21 hot finished, 0.49 cold formed."""
    return reduction(phi(alpha, lambda_bar), lambda_bar)


@formula(
    "b_eff",
    "EN 1993-1-8:2005 Table 7.11",
    trial={"b_0": 100.0, "t_0": 5.0, "f_y0": 235.0, "f_y1": 235.0, "t_1": 4.0, "b_1": 80.0},
)
def effective_width(b_0: mm, t_0: mm, f_y0: MPa, f_y1: MPa, t_1: mm, b_1: mm) -> mm:
    """Part of a wall or plate across the chord that really pulls: near the side walls only."""
    return minimum(10 / (b_0 / t_0) * (f_y0 * t_0 / (f_y1 * t_1)) * b_1, b_1)


@formula("b_e,p", "EN 1993-1-8:2005 Table 7.11", trial={"b_0": 100.0, "t_0": 5.0, "b_1": 80.0})
def punching_width(b_0: mm, t_0: mm, b_1: mm) -> mm:
    """Part of the width across the chord that counts in punching."""
    return minimum(10 / (b_0 / t_0) * b_1, b_1)


@formula(
    "N_1,Rd",
    "EN 1993-1-8:2005 Table 7.11, brace failure",
    trial={"f_y1": 235.0, "t_1": 4.0, "h_1": 90.0, "b_eff": 50.0, "gamma_M5": 1.0},
)
def brace_failure(f_y1: MPa, t_1: mm, h_1: mm, b_eff: mm, gamma_M5: ratio) -> N:
    """The brace's own walls, those across the chord with their effective width only."""
    return f_y1 * t_1 * (2 * h_1 - 4 * t_1 + 2 * b_eff) / gamma_M5


@formula(
    "N_1,Rd",
    "EN 1993-1-8:2005 Table 7.11, punching shear, theta = 90 degrees",
    trial={"f_y0": 235.0, "t_0": 5.0, "h_1": 88.0, "b_e_p": 44.0, "gamma_M5": 1.0},
)
def punching_shear(f_y0: MPa, t_0: mm, h_1: mm, b_e_p: mm, gamma_M5: ratio) -> N:
    """The face torn or pushed out round the brace; for a plate across the chord h_1 is its thickness."""
    return f_y0 * t_0 / sqrt(3) * (2 * h_1 + 2 * b_e_p) / gamma_M5


@formula("M_ip,1,Rd", "EN 1993-1-8:2005 Table 7.14, chord face failure", trial={**_FACE, "h_1": 80.0})
def face_failure_in_plane(k_n: ratio, f_y0: MPa, t_0: mm, eta: ratio, beta: ratio, gamma_M5: ratio, h_1: mm) -> Nmm:
    """Moment in the plane of chord and brace, brace narrower than 0.85 of the chord."""
    return k_n * f_y0 * t_0**2 * h_1 * (1 / (2 * eta) + 2 / sqrt(1 - beta) + eta / (1 - beta)) / gamma_M5


@formula(
    "M_ip,1,Rd",
    "EN 1993-1-8:2005 Table 7.14, chord side wall crushing",
    trial={"f_yk": 235.0, "t_0": 5.0, "h_1": 80.0, "gamma_M5": 1.0},
)
def side_wall_in_plane(f_yk: MPa, t_0: mm, h_1: mm, gamma_M5: ratio) -> Nmm:
    """Moment in the plane, brace wider than 0.85 of the chord; f_yk is f_y0 for a T, 0.8 f_y0 for a cross."""
    return 0.5 * f_yk * t_0 * (h_1 + 5 * t_0) ** 2 / gamma_M5


@formula(
    "M_ip,1,Rd",
    "EN 1993-1-8:2005 Table 7.14, brace failure",
    trial={"f_y1": 235.0, "W_pl_1": 34000.0, "b_eff": 50.0, "b_1": 90.0, "h_1": 90.0, "t_1": 4.0, "gamma_M5": 1.0},
)
def brace_failure_in_plane(f_y1: MPa, W_pl_1: mm3, b_eff: mm, b_1: mm, h_1: mm, t_1: mm, gamma_M5: ratio) -> Nmm:
    """Moment in the plane that the brace's walls bear, those across the chord with their effective width."""
    return f_y1 * (W_pl_1 - (1 - b_eff / b_1) * b_1 * (h_1 - t_1) * t_1) / gamma_M5


@formula(
    "N_1,Rd",
    "EN 1993-1-8:2005 Table 7.13, chord face failure",
    trial={"k_m": 1.0, "f_y0": 355.0, "t_0": 6.3, "beta": 0.6, "gamma_M5": 1.0},
)
def face_failure_transverse_plate(k_m: ratio, f_y0: MPa, t_0: mm, beta: ratio, gamma_M5: ratio) -> N:
    """The face under a plate across the chord, narrower than 0.85 of it."""
    return k_m * f_y0 * t_0**2 * (2 + 2.8 * beta) / sqrt(1 - 0.9 * beta) / gamma_M5


@formula(
    "N_1,Rd",
    "EN 1993-1-8:2005 Table 7.13, plate failure",
    trial={"f_y1": 355.0, "t_1": 10.0, "b_eff": 35.7, "gamma_M5": 1.0},
)
def transverse_plate_failure(f_y1: MPa, t_1: mm, b_eff: mm, gamma_M5: ratio) -> N:
    """The plate across the chord, with its effective width only."""
    return f_y1 * t_1 * b_eff / gamma_M5


@formula(
    "N_1,Rd",
    "EN 1993-1-8:2005 Table 7.13, plate along the chord",
    trial={"k_m": 1.0, "f_y0": 355.0, "t_0": 6.3, "h_1": 120.0, "b_0": 100.0, "t_1": 10.0, "gamma_M5": 1.0},
)
def face_failure_longitudinal_plate(k_m: ratio, f_y0: MPa, t_0: mm, h_1: mm, b_0: mm, t_1: mm, gamma_M5: ratio) -> N:
    """The face under a plate (a lug) along the middle of the chord.

    The lower of two forms seen: without the factor 1 / (1 - t_1 / b_0) that the yield-line solution has.
    """
    return k_m * f_y0 * t_0**2 * (2 * h_1 / b_0 + 4 * sqrt(1 - t_1 / b_0)) / gamma_M5


@formula("k_p", "EN 1993-1-8:2005 Table 7.2", trial={"n_p": 0.5})
def round_chord_stress_factor(n_p: ratio) -> ratio:
    """Reduction for compression in a round chord, n_p over f_y0; 1 where it is pulled (n_p 0 or less)."""
    return minimum(1 - 0.3 * maximum(n_p, 0.0) * (1 + maximum(n_p, 0.0)), 1.0)


_ROUND = {"k_p": 1.0, "f_y0": 235.0, "t_0": 5.0, "beta": 0.6, "gamma_M5": 1.0}


@formula("N_1,Rd", "EN 1993-1-8:2005 Table 7.2, T joint, theta = 90 degrees", trial={**_ROUND, "gamma": 10.0})
def round_face_failure_t(k_p: ratio, f_y0: MPa, t_0: mm, beta: ratio, gamma_M5: ratio, gamma: ratio) -> N:
    """A round tube welded square to a round chord; gamma is the chord's d_0 / (2 t_0)."""
    return gamma**0.2 * k_p * f_y0 * t_0**2 * (2.8 + 14.2 * beta**2) / gamma_M5


@formula("N_1,Rd", "EN 1993-1-8:2005 Table 7.2, X joint, theta = 90 degrees", trial=_ROUND)
def round_face_failure_x(k_p: ratio, f_y0: MPa, t_0: mm, beta: ratio, gamma_M5: ratio) -> N:
    """Two round tubes opposite each other on a round chord."""
    return k_p * f_y0 * t_0**2 * 5.2 / (1 - 0.81 * beta) / gamma_M5


@formula(
    "N_1,Rd",
    "EN 1993-1-8:2005 Table 7.2, punching shear, theta = 90 degrees",
    trial={"f_y0": 235.0, "t_0": 5.0, "d_1": 60.0, "gamma_M5": 1.0},
)
def round_punching_shear(f_y0: MPa, t_0: mm, d_1: mm, gamma_M5: ratio) -> N:
    """The wall torn out round a round brace with d_1 <= d_0 - 2 t_0."""
    return f_y0 / sqrt(3) * t_0 * maths.pi * d_1 / gamma_M5
