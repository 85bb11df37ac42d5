"""Section 4: plate buckling factors and effective widths of class 4 parts without stiffeners.

Compression is positive; psi is the stress at the less compressed end over that at the more compressed one.
"""

from structcheck.formula import formula
from structcheck.maths import minimum, sqrt
from structcheck.quantities import mm, ratio

CODE = "EN 1993-1-5:2006"


@formula("k_sigma", f"{CODE} Table 4.1, 1 >= psi >= 0", trial={"psi": 0.5})
def internal_factor_compressed(psi: ratio) -> ratio:
    """Buckling factor of an internal part compressed over its whole width; 4.0 where psi is 1."""
    return 8.2 / (1.05 + psi)


@formula("k_sigma", f"{CODE} Table 4.1, 0 > psi > -1", trial={"psi": -0.5})
def internal_factor_reversed(psi: ratio) -> ratio:
    """Buckling factor of an internal part, the tension smaller than the compression; 23.9 where psi is -1."""
    return 7.81 - 6.29 * psi + 9.78 * psi**2


@formula("k_sigma", f"{CODE} Table 4.1, -1 > psi >= -3", trial={"psi": -2.0})
def internal_factor_tensioned(psi: ratio) -> ratio:
    """Buckling factor of an internal part, the tension greater than the compression."""
    return 5.98 * (1 - psi) ** 2


@formula("k_sigma", f"{CODE} Table 4.2, tip most compressed, 1 >= psi >= -3", trial={"psi": 0.5})
def outstand_factor_tip(psi: ratio) -> ratio:
    """Buckling factor of an outstand whose tip is the more compressed end; 0.43 where psi is 1."""
    return 0.57 - 0.21 * psi + 0.07 * psi**2


@formula("k_sigma", f"{CODE} Table 4.2, root most compressed, 1 > psi >= 0", trial={"psi": 0.5})
def outstand_factor_root_compressed(psi: ratio) -> ratio:
    """Buckling factor of an outstand whose root is the more compressed end, the tip compressed too."""
    return 0.578 / (psi + 0.34)


@formula("k_sigma", f"{CODE} Table 4.2, root most compressed, 0 > psi >= -1", trial={"psi": -0.5})
def outstand_factor_root_reversed(psi: ratio) -> ratio:
    """Buckling factor of an outstand whose root is the more compressed end, the tip in tension."""
    return 1.7 - 5 * psi + 17.1 * psi**2


@formula("lambda_p", f"{CODE} 4.4(2)", trial={"b": 271.0, "t": 7.5, "epsilon": 0.814, "k_sigma": 4.0})
def plate_slenderness(b: mm, t: mm, epsilon: ratio, k_sigma: ratio) -> ratio:
    """Relative slenderness of a plate part of width b and thickness t."""
    return (b / t) / (28.4 * epsilon * sqrt(k_sigma))


@formula("rho", f"{CODE} (4.2)", trial={"lambda_p": 0.782, "psi": 1.0})
def internal_reduction(lambda_p: ratio, psi: ratio) -> ratio:
    """Effective share of an internal part; counted only where lambda_p is above 0.5 + sqrt(0.085 - 0.055 psi)."""
    return minimum((lambda_p - 0.055 * (3 + psi)) / lambda_p**2, 1)


@formula("rho", f"{CODE} (4.3)", trial={"lambda_p": 0.986})
def outstand_reduction(lambda_p: ratio) -> ratio:
    """Effective share of an outstand; counted only where lambda_p is above 0.748."""
    return minimum((lambda_p - 0.188) / lambda_p**2, 1)
