"""Numbers on their way out: from base units to text in the unit of an output."""

import math
from collections.abc import Mapping

UNITS_OF_OUTPUT: Mapping[str, float] = {
    "": 1.0,
    "N": 1.0,
    "kN": 1e3,
    "kN m": 1e6,
    "MPa": 1.0,
    "mm": 1.0,
    "N/mm": 1.0,
    "kg": 1.0,
    "kg/m": 1e-3,
    "cm": 10.0,
    "cm2": 1e2,
    "cm3": 1e3,
    "cm4": 1e4,
    "cm6": 1e6,
    "deg": math.pi / 180,
    "J": 1e3,
}
"""Base units in one output unit; every printed number is a base value divided by its entry."""


def in_unit(value: float, unit: str) -> float:
    """A value in base units, in the unit of an output."""
    return value / UNITS_OF_OUTPUT[unit]


def show(value: float, unit: str, digits: int = 4) -> str:
    """A value in base units as text in the unit of an output: `show(78453.2, "kN")` is "78.45 kN"."""
    number = f"{in_unit(value, unit):.{digits}g}"
    if "e" in number:
        number = f"{float(number):.0f}" if abs(float(number)) >= 1 else number
    return f"{number} {unit}".strip()


def count(value: float, digits: int = 15) -> str:
    """A large whole number in groups of three: `count(50000)` is "50 000", `count(51234, 2)` is "51 000"."""
    return f"{float(f'{value:.{digits}g}'):,.0f}".replace(",", " ")
