"""Table 5.2: greatest width-to-thickness ratios of the parts of a cross-section, class by class.

Compression is positive. alpha is the share of a part in compression when it yields through, psi the ratio of the
elastic stresses at its ends, both of the part's own width c.
"""

from structcheck.formula import formula
from structcheck.maths import sqrt
from structcheck.quantities import MPa, ratio

TABLE = "EN 1993-1-1:2005 Table 5.2"


@formula("epsilon", TABLE, trial={"f_y": 355.0, "f_ref": 235.0})
def epsilon(f_y: MPa, f_ref: MPa = 235.0) -> ratio:
    """Strain parameter.

    f_y    yield strength
    f_ref  235 MPa, the strength for which the table is written
    """
    return sqrt(f_ref / f_y)


@formula("c/t", f"{TABLE} sheet 1, class 1, alpha > 0.5", trial={"alpha": 0.7, "epsilon": 0.81})
def internal_1_mostly_compressed(alpha: ratio, epsilon: ratio) -> ratio:
    """Internal part, class 1, more than half of it compressed; 33 epsilon where all of it is."""
    return 396 * epsilon / (13 * alpha - 1)


@formula("c/t", f"{TABLE} sheet 1, class 1, alpha <= 0.5", trial={"alpha": 0.4, "epsilon": 0.81})
def internal_1_mostly_tensioned(alpha: ratio, epsilon: ratio) -> ratio:
    """Internal part, class 1, at most half of it compressed; 72 epsilon in pure bending."""
    return 36 * epsilon / alpha


@formula("c/t", f"{TABLE} sheet 1, class 2, alpha > 0.5", trial={"alpha": 0.7, "epsilon": 0.81})
def internal_2_mostly_compressed(alpha: ratio, epsilon: ratio) -> ratio:
    """Internal part, class 2, more than half of it compressed; 38 epsilon where all of it is."""
    return 456 * epsilon / (13 * alpha - 1)


@formula("c/t", f"{TABLE} sheet 1, class 2, alpha <= 0.5", trial={"alpha": 0.4, "epsilon": 0.81})
def internal_2_mostly_tensioned(alpha: ratio, epsilon: ratio) -> ratio:
    """Internal part, class 2, at most half of it compressed; 83 epsilon in pure bending."""
    return 41.5 * epsilon / alpha


@formula("c/t", f"{TABLE} sheet 1, class 3, psi > -1", trial={"psi": -0.4, "epsilon": 0.81})
def internal_3_mostly_compressed(psi: ratio, epsilon: ratio) -> ratio:
    """Internal part, class 3, the tension smaller than the compression; 42 epsilon where all is compressed alike."""
    return 42 * epsilon / (0.67 + 0.33 * psi)


@formula("c/t", f"{TABLE} sheet 1, class 3, psi <= -1", trial={"psi": -1.4, "epsilon": 0.81})
def internal_3_mostly_tensioned(psi: ratio, epsilon: ratio) -> ratio:
    """Internal part, class 3, the tension at least as great as the compression; 124 epsilon in pure bending."""
    return 62 * epsilon * (1 - psi) * sqrt(-psi)


@formula("c/t", f"{TABLE} sheet 2, class 1", trial={"alpha": 0.8, "epsilon": 0.81})
def outstand_1_tip_compressed(alpha: ratio, epsilon: ratio) -> ratio:
    """Outstand, class 1, tip in compression; 9 epsilon where all of it is compressed."""
    return 9 * epsilon / alpha


@formula("c/t", f"{TABLE} sheet 2, class 2", trial={"alpha": 0.8, "epsilon": 0.81})
def outstand_2_tip_compressed(alpha: ratio, epsilon: ratio) -> ratio:
    """Outstand, class 2, tip in compression; 10 epsilon where all of it is compressed."""
    return 10 * epsilon / alpha


@formula("c/t", f"{TABLE} sheet 2, class 1, tip in tension", trial={"alpha": 0.8, "epsilon": 0.81})
def outstand_1_tip_tensioned(alpha: ratio, epsilon: ratio) -> ratio:
    """Outstand, class 1, tip in tension."""
    return 9 * epsilon / (alpha * sqrt(alpha))


@formula("c/t", f"{TABLE} sheet 2, class 2, tip in tension", trial={"alpha": 0.8, "epsilon": 0.81})
def outstand_2_tip_tensioned(alpha: ratio, epsilon: ratio) -> ratio:
    """Outstand, class 2, tip in tension."""
    return 10 * epsilon / (alpha * sqrt(alpha))


@formula("c/t", f"{TABLE} sheet 2, class 3, compression", trial={"epsilon": 0.81})
def outstand_3_compressed(epsilon: ratio) -> ratio:
    """Outstand, class 3, compressed alike over its width."""
    return 14 * epsilon


@formula("c/t", f"{TABLE} sheet 2, class 3", trial={"k_sigma": 0.57, "epsilon": 0.81})
def outstand_3(k_sigma: ratio, epsilon: ratio) -> ratio:
    """Outstand, class 3, in bending and compression.

    k_sigma  buckling factor of EN 1993-1-5 Table 4.2
    """
    return 21 * epsilon * sqrt(k_sigma)


@formula("h/t", f"{TABLE} sheet 3", trial={"epsilon": 0.81})
def angle_3_leg(epsilon: ratio) -> ratio:
    """Angle in compression, class 3, first of two criteria: the longer leg h over t."""
    return 15 * epsilon


@formula("(b+h)/2t", f"{TABLE} sheet 3", trial={"epsilon": 0.81})
def angle_3_legs(epsilon: ratio) -> ratio:
    """Angle in compression, class 3, second criterion: the mean leg over t."""
    return 11.5 * epsilon


@formula("d/t", f"{TABLE} sheet 3, class 1", trial={"epsilon": 0.81})
def tube_1(epsilon: ratio) -> ratio:
    """Tubular section, class 1; d is the outside diameter, epsilon stands squared."""
    return 50 * epsilon**2


@formula("d/t", f"{TABLE} sheet 3, class 2", trial={"epsilon": 0.81})
def tube_2(epsilon: ratio) -> ratio:
    """Tubular section, class 2."""
    return 70 * epsilon**2


@formula("d/t", f"{TABLE} sheet 3, class 3", trial={"epsilon": 0.81})
def tube_3(epsilon: ratio) -> ratio:
    """Tubular section, class 3; beyond it EN 1993-1-6 rules."""
    return 90 * epsilon**2
