"""EN 1993-1-2: steel when warm. From memory, to be confirmed against the text.

The yield factor stands for 2 % strain: a tool that must stay elastic goes by the proportional limit.
"""

from itertools import pairwise

from structcheck.errors import NotCovered
from structcheck.formula import formula
from structcheck.quantities import MPa, ratio

TABLE_3_1 = {
    # degC: yield at 2 % strain, proportional limit, elastic modulus
    20.0: (1.0, 1.0, 1.0),
    100.0: (1.0, 1.0, 1.0),
    200.0: (1.0, 0.807, 0.9),
    300.0: (1.0, 0.613, 0.8),
    400.0: (1.0, 0.42, 0.7),
    500.0: (0.78, 0.36, 0.6),
}
"""Reduction factors of carbon steel, EN 1993-1-2:2005 Table 3.1 (memory)."""


def reduction_factors(theta: float) -> tuple[float, float, float]:
    """(k_y, k_p, k_E) at theta degC, straight between the listed temperatures. Raises NotCovered above 500 degC."""
    rows = list(TABLE_3_1.items())
    if theta <= rows[0][0]:
        return rows[0][1]
    for (low, cool), (high, hot) in pairwise(rows):
        if theta <= high:
            share = (theta - low) / (high - low)
            k_y, k_p, k_E = (a + share * (b - a) for a, b in zip(cool, hot, strict=True))
            return k_y, k_p, k_E
    raise NotCovered(f"no factors above {rows[-1][0]:g} degC are here")


@formula("Delta l / l", "EN 1993-1-2:2005 3.4.1.1(1) (memory)", trial={"theta": 200.0}, empirical=True)
def thermal_elongation(theta: ratio) -> ratio:
    """Elongation of carbon steel from 20 degC to theta degC, up to 750 degC; nothing at 20."""
    return 1.2e-5 * theta + 0.4e-8 * theta**2 - 2.416e-4


@formula("sigma", "bar that may not grow", trial={"alpha": 1.2e-5, "E": 210e3, "rise": 100.0}, empirical=True)
def restrained_stress(alpha: ratio, E: MPa, rise: ratio) -> MPa:
    """Compression in a bar held at both ends and warmed by `rise` kelvin; alpha per kelvin."""
    return alpha * E * rise
