"""The jack as part of the press: does it fit and reach, is it pressed on its axis, is it kept from kicking out."""

import math
from collections.abc import Callable
from typing import Literal

from structcheck.checks.basis import RATED, Basis
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Finding, NotNeeded, Outcome, complete, judged, not_checked
from structcheck.record import record
from structcheck.standards import handbook_jack as handbook

NEEDED = ("stroke", "jack opening", "jack centring", "retention")

EFFORT = 450.0
"""Newtons at the handle of a trolley jack (AS 2615-2016, read); an ASME PALD part has 444 N (read)."""

PLANNED = 0.8
"""Share of force and of stroke to plan on (jack makers' handbooks, read)."""

STRONGEST_RAM = 1000.0
"""MPa on ram, piston, saddle or foot by the rating above which its diameter is a slip of the pen (ours)."""

HIGH_PRESSURE = 70.0
"""MPa above which common jacks and hoses are not made."""

CAUTIONS = (
    "never weld to the jack, its ram or its saddle",
    "never touch the valve, and rate the press from the force at which it lifts",
    "never lengthen the handle",
    "never pump it lying or upside down unless its maker says it may: it draws air",
    "never press with the screw of the saddle run out; it is for the idle approach",
    "side load bends the ram, the more the further it is out",
)


@record(kw_only=True)
class Jack:
    """One jack as it stands in the press; mm, N.

    rating             rated force
    bore               piston diameter
    stroke             travel of the ram
    closed, screw      height with the ram in; how far the saddle's screw is run out
    base, saddle, ram  side or diameter of the foot, diameters of saddle and ram
    opening            clear height at the jack, from what it stands on to what it presses, without the work
    packing, work      heights of what lies between jack and head: packing and tooling; the work before pressing,
                       None where nobody said
    packing_most       the height the opening is judged by, where more is described than `packing` says; 0: `packing`
    counted            (what, height) of the parts that make up `packing`, where nobody stated it
    squash             how far the work is pressed together
    travel             travel needed, in place of what the heights give
    planned            greatest force the work needs
    off_axis           how far the force stands off the ram's axis
    retained           a pocket, strap or pin keeps the jack from kicking out
    posture            "upright", "lying" or "inverted"; inverted_oil: the maker allows it to pump so
    pump, lever, short pump plunger; handle from pivot to hand and to the plunger
    longer             a longer handle somebody means to use
    """

    name: str = "jack"
    rating: float
    bore: float | None = None
    stroke: float | None = None
    closed: float | None = None
    screw: float = 0.0
    base: float | None = None
    saddle: float | None = None
    ram: float | None = None
    opening: float | None = None
    packing: float = 0.0
    packing_most: float = 0.0
    counted: tuple[tuple[str, float], ...] = ()
    work: float | None = None
    squash: float = 0.0
    travel: float | None = None
    planned: float | None = None
    off_axis: float | None = None
    retained: bool | None = None
    posture: Literal["upright", "lying", "inverted"] = "upright"
    inverted_oil: bool = False
    pump: float | None = None
    lever: float | None = None
    short: float | None = None
    efficiency: float = 0.85
    longer: float | None = None

    @property
    def stack(self) -> float:
        """Height of jack, packing and work before pressing. Raises NotCovered without the jack's closed height."""
        return _need(self.closed, "the closed height of the jack") + self.screw + self.packing + (self.work or 0.0)

    @property
    def needed(self) -> float:
        """Travel needed: to meet the work, then to press it together."""
        if self.travel is not None and (self.work is None or not (self.closed and self.opening)):
            return self.travel
        opening = _need(self.opening, "the travel needed, or the opening of the press,")
        return max(opening - self.stack + self.squash, self.squash, self.travel or 0.0)


def _need(value: float | None, what: str) -> float:
    if value is None:
        raise NotCovered(f"{what} is not stated")
    return value


def check_jack(jack: Jack, basis: Basis) -> Outcome:
    """Every check of a jack in its press. Raises InputError where the description cannot be."""
    problems = _impossible(jack)
    if problems:
        raise InputError(problems)
    answers: list[Finding | NotNeeded] = []
    for check, method in _METHODS.items():
        try:
            answers.append(method(jack))
        except NotCovered as reason:
            answers.append(not_checked(jack.name, check, str(reason)))
    outcome = Outcome(
        findings=tuple(a for a in answers if isinstance(a, Finding)),
        does_not_apply=tuple(a for a in answers if isinstance(a, NotNeeded)),
        answers=_answers(jack),
        advice=_advice(jack),
    )
    return complete(outcome, jack.name, NEEDED, "not done")


def _stroke(jack: Jack) -> Finding:
    stroke = _need(jack.stroke, "the stroke of the jack")
    if jack.posture != "upright" and not jack.inverted_oil:
        raise NotCovered(
            f"{jack.posture}: an ordinary bottle jack pumps upright only and else draws air; inverted_oil, if its "
            "maker says it may"
        )
    needed = jack.needed
    stated = jack.travel is not None and needed <= jack.travel
    source = "geometry: travel stated" if stated else "geometry: heights of jack, packing and work"
    reason = "" if stated else _what_fills(jack)
    return judged(jack.name, "stroke", RATED.name, needed, stroke, "mm", source, reason=reason)


def _what_fills(jack: Jack) -> str:
    """Where the travel comes from, and what lessens it."""
    filled = f"opening {jack.opening:g} mm less {jack.stack:g} mm of jack, packing and work"
    return f"{filled}: more `packing` or `work`, where it is there, leaves less"


def _opening(jack: Jack) -> Finding:
    opening = _need(jack.opening, "the opening of the press")
    more = max(jack.packing_most - jack.packing, 0.0)
    reason = f"with {more:g} mm more of the parts described than packing says" if more else ""
    source = "geometry: heights of jack, packing and work"
    return judged(jack.name, "jack opening", "open", jack.stack + more, opening, "mm", source, reason=reason)


def centring_limits(jack: Jack) -> dict[str, float]:
    """How far off the axis the force may stand: inside saddle and foot, and an eighth of the ram."""
    saddle = _need(jack.saddle, "the diameter of the saddle")
    base = _need(jack.base, "the size of the foot")
    ram = _need(jack.ram or jack.bore, "the diameter of the ram")
    return {"saddle": saddle / 2, "foot": base / 2, "an eighth of the ram": ram / 8}


def _centring(jack: Jack) -> Finding:
    off_axis = _need(jack.off_axis, "how far the force stands off the ram's axis")
    limits = centring_limits(jack)
    least = min(limits, key=lambda name: limits[name])
    source = "statics; beyond an eighth of its diameter the ram bends more than it presses (derived)"
    reason = f"the least is {least}; a ball seat or a pocket 1 mm larger than the saddle centres the force"
    return judged(jack.name, "jack centring", RATED.name, off_axis, limits[least], "mm", source, reason=reason)


def _retention(jack: Jack) -> Finding | NotNeeded:
    if jack.retained:
        return NotNeeded(jack.name, "retention", "kept from kicking out (stated)")
    if jack.retained is None:
        raise NotCovered("what keeps the jack from kicking out is not stated: a pocket, strap or pin")
    why = "nothing keeps the jack from kicking out"
    return judged(jack.name, "retention", RATED.name, 1.0, 0.0, "", "common practice", reason=why)


_METHODS: dict[str, Callable[[Jack], Finding | NotNeeded]] = dict(
    zip(NEEDED, (_stroke, _opening, _centring, _retention), strict=True)
)


def _effort(jack: Jack, lever: float) -> float:
    pump = _need(jack.pump, "the pump plunger")
    ram = _need(jack.bore, "the piston")
    return handbook.handle_effort(jack.rating, pump, ram, _need(jack.short, "the short arm"), lever, jack.efficiency)


def _answers(jack: Jack) -> tuple[str, ...]:
    """Numbers a builder wants; what cannot be had is left out."""
    lines = (
        lambda: _heights(jack),
        lambda: f"{jack.rating / 1e3:.4g} kN is {_pressure(jack) * 10:.0f} bar on the {jack.bore:g} mm piston",
        lambda: f"handle effort at rated force {_effort(jack, _need(jack.lever, 'the handle')):.0f} N",
        lambda: _longer_handle(jack),
        lambda: (
            f"pressure under the foot {_over_square(jack.rating, jack.base):.1f} MPa if square, "
            f"{handbook.pressure_of_force(jack.rating, _need(jack.base, 'the foot')):.1f} MPa if round"
        ),
        lambda: (
            "pressure under the saddle "
            f"{handbook.pressure_of_force(jack.rating, _need(jack.saddle, 'the saddle')):.0f} MPa"
        ),
        lambda: _ram_stress(jack),
    )
    said = []
    for line in lines:
        try:
            said.append(f"{jack.name}: {line()}")
        except NotCovered:
            continue
    return tuple(said)


def _heights(jack: Jack) -> str:
    """What stands in the opening one on the other, and where the stroke goes."""
    opening, stack = _need(jack.opening, "the opening"), jack.stack
    packing = jack.counted or (("packing", jack.packing),)
    parts = (("jack", jack.closed), ("screw", jack.screw), *packing, ("work", jack.work))
    text = " + ".join(f"{name} {height:g}" for name, height in parts if height)
    text = f"heights: {text} = {stack:g} of {opening:g} mm"
    if jack.stroke is None or jack.travel is not None:
        return text
    met = max(opening - stack, 0.0)
    left = jack.stroke - met - jack.squash
    end = f"{left:g} mm left" if left >= 0 else f"{-left:g} mm short"
    return f"{text}; of the stroke {met:g} mm to meet the work, {jack.squash:g} mm to press it, {end}"


def _pressure(jack: Jack) -> float:
    return handbook.pressure_of_force(jack.rating, _need(jack.bore, "the piston"))


def _over_square(force: float, side: float | None) -> float:
    return force / _need(side, "the foot") ** 2


def _longer_handle(jack: Jack) -> str:
    longer, lever = _need(jack.longer, "a longer handle"), _need(jack.lever, "the handle")
    force = jack.rating * EFFORT / _effort(jack, longer)
    return (
        f"with a handle of {longer:g} mm in place of {lever:g} mm, {EFFORT:g} N at the hand give {force / 1e3:.4g} kN, "
        f"{force / jack.rating:.2f} times the rating: only the valve stands between"
    )


def _ram_stress(jack: Jack) -> str:
    ram, off = _need(jack.ram or jack.bore, "the ram"), _need(jack.off_axis, "the offset")
    direct = handbook.pressure_of_force(jack.rating, ram)
    bending = handbook.ram_bending_stress(jack.rating, off, ram)
    return f"ram stress {direct:.0f} MPa direct, {bending:.0f} MPa bending at {off:g} mm off its axis"


def _advice(jack: Jack) -> tuple[str, ...]:
    said = [*CAUTIONS]
    if jack.planned is not None and jack.planned > PLANNED * jack.rating:
        said.append(f"the work needs {jack.planned / jack.rating:.0%} of the rating; plan on 80 %")
    try:
        if jack.stroke is not None and jack.needed > PLANNED * jack.stroke:
            said.append(f"{jack.needed / jack.stroke:.0%} of the stroke is needed; plan on 80 %")
    except NotCovered:
        pass
    if jack.bore is not None and _pressure(jack) > HIGH_PRESSURE:
        said.append(f"{_pressure(jack) * 10:.0f} bar at rated force: is {jack.bore:g} mm the piston, not the screw?")
    return tuple(f"{jack.name}: {text}" for text in said)


_NAMES = {"ram": "ram", "bore": "piston", "saddle": "saddle", "base": "foot"}


def _impossible(jack: Jack) -> list[Problem]:
    problems = []
    for key in ("rating", "bore", "stroke", "closed", "base", "saddle", "ram", "opening", "pump", "lever", "short"):
        value = getattr(jack, key)
        if value is not None and not value > 0:
            problems.append(Problem(key, f"{value:g}", "is not positive", f"a {key} above zero", part=jack.name))
    for key in ("screw", "packing", "work", "squash", "travel", "planned", "off_axis"):
        value = getattr(jack, key)
        if value is not None and value < 0:
            problems.append(Problem(key, f"{value:g}", "is negative", "zero or more", part=jack.name))
    for key in _NAMES:
        size = getattr(jack, key)
        if size and size > 0 and jack.rating / (math.pi * size**2 / 4) > STRONGEST_RAM:
            given, fault = f"{size:g} mm", f"is too thin for {jack.rating / 1e3:.4g} kN: no steel bears that"
            problems.append(Problem(key, given, fault, f"the diameter of the {_NAMES[key]}", part=jack.name))
    if jack.planned is not None and jack.planned > jack.rating:
        given, wanted = f"{jack.planned / 1e3:.4g} kN", f"at most the rating, {jack.rating / 1e3:.4g} kN"
        problems.append(Problem("planned", given, "is over the rated force", wanted, part=jack.name))
    if not 0 < jack.efficiency <= 1:
        wanted = "above 0, at most 1"
        problems.append(Problem("efficiency", f"{jack.efficiency:g}", "is no efficiency", wanted, part=jack.name))
    for key in ("saddle", "bore"):
        value = getattr(jack, key)
        if value is not None and jack.base is not None and value > jack.base > 0:
            given, fault = f"{value:g} mm", f"is wider than the jack's foot of {jack.base:g} mm"
            problems.append(
                Problem(key, given, fault, f"at most the foot, or the foot's own size ({key})", part=jack.name)
            )
    if jack.work and jack.squash > jack.work:
        given, wanted = f"{jack.squash:g} mm", f"less than the work's height, {jack.work:g} mm"
        problems.append(Problem("squash", given, "is more than there is", wanted, part=jack.name))
    return problems
