"""Numbers as a reader sees them."""

import math
from collections.abc import Mapping

DISPLAYED: Mapping[str, tuple[str, float]] = {"N": ("kN", 1e3), "N mm": ("kN m", 1e5)}
"""Base unit -> (unit shown, from which value on); below it the base unit is shown."""


def figures(value: float, digits: int = 5) -> str:
    """A number with so many significant figures: whole where it is whole, "8.56e7" where it is long.

    >>> [figures(v) for v in (235.0, 2.8000000001, 85600000.0, 0.00012345678, -0.25)]
    ['235', '2.8', '8.56e7', '1.2346e-4', '-0.25']
    """
    if not math.isfinite(value):
        return "∞" if value > 0 else "-∞" if value < 0 else "no number"
    if value == 0:
        return "0"
    size = math.floor(math.log10(abs(float(f"{value:.{digits - 1}e}"))))
    if size >= 7 or size < -3:
        mantissa, power = f"{value:.{digits - 1}e}".split("e")
        return f"{_trimmed(mantissa)}e{int(power)}"
    if value == round(value):
        return str(round(value))
    return _trimmed(f"{value:.{max(0, digits - 1 - size)}f}")


def _trimmed(text: str) -> str:
    return text.rstrip("0").rstrip(".") if "." in text else text


def result_unit(base: str, value: float) -> str:
    """The output unit of a result in this base unit; empty where it is shown in the base unit."""
    unit, least = DISPLAYED.get(base, ("", math.inf))
    return unit if abs(value) >= least else ""
