"""Brittle fracture: the thickest part against EN 1993-1-10 Table 2.1."""

from itertools import pairwise
from typing import Any

from structcheck.checks.basis import Basis
from structcheck.checks.member_forms import form, thickness
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, Outcome, judged, not_checked
from structcheck.materials.steels import Steel
from structcheck.standards import en1993_1_10 as table

CHECK = "brittle fracture"
QUALITIES = ("JR", "J0", "J2", "K2")
WARM = 5.0
"""Lowest temperature in degC from which a steel of unknown quality is judged, as JR."""

_COLD_FORMED = ((16.0, 35.0), (40.0, 45.0))
"""Thickness up to which, and kelvin by which, a cold-formed hollow section counts as colder (common practice, recalled:
after the JRC report on hollow sections beside EN 1993-1-10)."""


def quality_of(text: str) -> str | None:
    """The quality a steel's name carries: "S355J2H" gives "J2"; None where it names none."""
    name = "".join(text.upper().split()).replace("JO", "J0")
    return next((quality for quality in QUALITIES if quality in name[4:]), None)


def check_brittle(part: str, section: Any, steel: Steel, quality: str | None, stress: float, basis: Basis) -> Outcome:
    """The finding "brittle fracture".

    quality  JR, J0, J2 or K2; None where nobody stated it
    stress   greatest nominal stress at rated force, MPa
    """
    try:
        quality, assumptions = _quality(part, steel, quality, basis.lowest_temperature)
        t = thickness(section)
        level = stress / steel.f_y(t)
        temperature = basis.lowest_temperature - _colder(section, t)
        allowed = greatest_thickness(steel.name, quality, level, temperature)
    except NotCovered as reason:
        return Outcome((not_checked(part, CHECK, str(reason)),))
    reason = f"{steel.name}{quality} at {temperature:g} degC, stress {max(level, 0.25):.2f} f_y"
    finding = judged(part, CHECK, "rated", t, allowed, "mm", table.SOURCE, reason=reason)
    return Outcome((finding,), assumptions=assumptions)


def _quality(part: str, steel: Steel, quality: str | None, lowest: float) -> tuple[str, tuple[Assumption, ...]]:
    if steel.imperial:
        raise NotCovered(f"{steel.name} is not in EN 1993-1-10")
    if quality is not None and not steel.assumed:
        return quality, ()
    if lowest < WARM:
        raise NotCovered(
            f"quality (JR, J0, J2, K2) of the steel not stated: not judged below +{WARM:g} degC (lowest {lowest:g})"
        )
    text = "quality of the steel not stated: judged as JR, the lowest of its standard"
    return "JR", (Assumption(part, text, "the steel is at least quality JR"),)


def _colder(section: Any, t: float) -> float:
    if form(section) not in ("hollow", "tube") or getattr(section, "route", "") != "cold formed":
        return 0.0
    for limit, kelvin in _COLD_FORMED:
        if t <= limit:
            return kelvin
    raise NotCovered(f"a cold-formed wall of {t:g} mm is outside the rule for cold forming")


def greatest_thickness(grade: str, quality: str, level: float, temperature: float) -> float:
    """The table's thickness in mm, straight lines between its rows and columns. Raises NotCovered outside it.

    Stresses below a quarter of f_y count as a quarter; temperatures above 10 degC as 10.
    """
    blocks = table.THICKNESSES.get((grade, quality))
    if blocks is None:
        raise NotCovered(f"{grade}{quality} is not in the part of the table kept here")
    if level > table.LEVELS[0]:
        raise NotCovered(f"stress {level:.2f} f_y is over the 0.75 f_y at which the table ends")
    if temperature < table.TEMPERATURES[-1]:
        raise NotCovered(f"{temperature:g} degC is below the -50 degC at which the table ends")
    level, temperature = max(level, table.LEVELS[-1]), min(temperature, table.TEMPERATURES[0])
    by_level = [_interpolate(table.TEMPERATURES, block, temperature) for block in blocks]
    return _interpolate(table.LEVELS, by_level, level)


def _interpolate(places: tuple[float, ...], values: Any, at: float) -> float:
    for (p_1, t_1), (p_2, t_2) in pairwise(zip(places, values, strict=True)):
        if p_2 <= at <= p_1:
            return float(table.between(t_1, t_2, (p_1 - at) / (p_1 - p_2)))
    raise NotCovered(f"{at:g} is outside the table")
