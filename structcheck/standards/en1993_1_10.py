"""EN 1993-1-10:2005 Table 2.1: greatest thickness against brittle fracture.

The table is recalled, not read. Its rows end where the standard's do: nothing is extended beyond them.
"""

from collections.abc import Mapping

from structcheck.formula import formula
from structcheck.quantities import mm, ratio

SOURCE = "EN 1993-1-10:2005 Table 2.1 (recalled, not read)"

TEMPERATURES = (10.0, 0.0, -10.0, -20.0, -30.0, -40.0, -50.0)
"""Reference temperatures T_Ed of the columns, degC."""

LEVELS = (0.75, 0.50, 0.25)
"""Stress levels sigma_Ed / f_y(t) of the three blocks."""

THICKNESSES: Mapping[tuple[str, str], tuple[tuple[int, ...], ...]] = {
    ("S235", "JR"): ((60, 50, 40, 35, 30, 25, 20), (90, 75, 65, 55, 45, 40, 35), (135, 115, 100, 85, 75, 65, 60)),
    ("S235", "J0"): ((90, 75, 60, 50, 40, 35, 30), (125, 105, 90, 75, 65, 55, 45), (175, 155, 135, 115, 100, 85, 75)),
    ("S235", "J2"): (
        (125, 105, 90, 75, 60, 50, 40),
        (170, 145, 125, 105, 90, 75, 65),
        (200, 200, 175, 155, 135, 115, 100),
    ),
    ("S275", "JR"): ((55, 45, 35, 30, 25, 20, 15), (80, 70, 55, 50, 40, 35, 30), (125, 110, 95, 80, 70, 60, 55)),
    ("S275", "J0"): ((75, 65, 55, 45, 35, 30, 25), (115, 95, 80, 70, 55, 50, 40), (165, 145, 125, 110, 95, 80, 70)),
    ("S275", "J2"): (
        (110, 95, 75, 65, 55, 45, 35),
        (155, 130, 115, 95, 80, 70, 55),
        (200, 190, 165, 145, 125, 110, 95),
    ),
    ("S355", "JR"): ((40, 35, 25, 20, 15, 15, 10), (65, 55, 45, 40, 30, 25, 25), (110, 95, 80, 70, 60, 55, 45)),
    ("S355", "J0"): ((60, 50, 40, 35, 25, 20, 15), (95, 80, 65, 55, 45, 40, 30), (150, 130, 110, 95, 80, 70, 60)),
    ("S355", "J2"): ((90, 75, 60, 50, 40, 35, 25), (135, 110, 95, 80, 65, 55, 45), (200, 175, 150, 130, 110, 95, 80)),
    ("S355", "K2"): (
        (110, 90, 75, 60, 50, 40, 35),
        (155, 135, 110, 95, 80, 65, 55),
        (200, 200, 175, 150, 130, 110, 95),
    ),
}
"""(grade, quality) -> thickness in mm by block of stress level, then by temperature."""


@formula("t", f"{SOURCE}, between two tabulated values", trial={"t_1": 50.0, "t_2": 40.0, "share": 0.3})
def between(t_1: mm, t_2: mm, share: ratio) -> mm:
    """Straight line between two thicknesses of the table; share 0 gives the first, 1 the second."""
    return t_1 + share * (t_2 - t_1)
