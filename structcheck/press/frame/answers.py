"""How far the frame gives: opening, deflections, tilt, dial readings and the energy let go when the work breaks.

Every reading is the work of a unit load pair, put where the dial stands: on the strains of the state asked, or on the
movements of the bent frame where first order is not enough.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from typing import NamedTuple

import numpy as np

from structcheck.findings import Finding, Outcome, judged
from structcheck.maths import first_of_greatest
from structcheck.press.cases import Forces
from structcheck.press.frame.envelope import Combination
from structcheck.press.frame.gauges import Gauge
from structcheck.press.frame.given import Given
from structcheck.press.frame.lines import KINDS
from structcheck.press.frame.moved import moved
from structcheck.press.frame.order import CASE, Order
from structcheck.press.frame.states import Loosened
from structcheck.press.frame.understood import E, G, Ring
from structcheck.press.schema import Jack, Limits
from structcheck.showing import show

OIL = 1400.0
"""Bulk modulus of hydraulic oil with the air it usually holds, MPa; common practice. A low value stores more."""
COARSE = 500.0
SOURCE = "virtual work on the frame's own analysis, shear included"


Bent = Callable[[float], tuple[Mapping[str, float], float] | None]


def straight(_force: float) -> None:
    """First order is enough."""


def bent_readings(order: Order, combination: Combination, number: int, dials: Sequence[Gauge]) -> Bent:
    """What dials read and how far the frame opens by second order; nothing where first order is enough."""
    if not order.exact[number]:
        return straight

    @cache
    def at(force: float) -> tuple[Mapping[str, float], float] | None:
        result = order.at(combination, number, force)
        if result is None:
            return None
        pushes = [load for load in order.loaded(combination)[1] if getattr(load, "force", None)]
        read = {dial.name: moved(result, dial.loads, CASE) for dial in dials}
        return read, moved(result, pushes, CASE) / combination.position.total

    return at


class Readings(NamedTuple):
    """What dials read in one combination.

    numbers  name of a dial -> its number
    read     by the dials' numbers, mm for 1 N, by first order
    split    opening at the load's line, by kind and then of the joints, mm for 1 N, by first order
    bent     force -> the same in mm by second order, dials and opening, where that is needed
    """

    combination: Combination
    numbers: Mapping[str, int]
    read: Sequence[float]
    split: Sequence[float]
    bent: Bent = straight

    @property
    def dials(self) -> dict[str, float]:
        """What every dial reads, mm for 1 N, by first order."""
        return dict(zip(self.numbers, self.read, strict=True))

    @property
    def opening(self) -> dict[str, float]:
        """Opening at the load's line, by kind, mm for 1 N, by first order."""
        return dict(zip((*KINDS, "joints"), self.split, strict=True))

    @property
    def total(self) -> float:
        """The whole opening at the load's line, mm per N, by first order."""
        return sum(self.split)

    def dial(self, name: str, force: float) -> float:
        """What a dial reads at a force, mm."""
        bent = self.bent(force)
        return self.read[self.numbers[name]] * force if bent is None else bent[0][name]

    def opened(self, force: float) -> float:
        """The opening at the load's line at a force, mm."""
        bent = self.bent(force)
        return self.total * force if bent is None else bent[1]


def readings(
    base: Loosened,
    combined: Sequence[Combination],
    C: np.ndarray,
    springs: Sequence[float],
    dials: Sequence[Gauge],
    order: Order,
) -> list[Readings]:
    """Readings of every combination; C are their factors, `springs` is twice the energy in sprung corners of each."""
    number_of = {name: number for number, name in enumerate(dict.fromkeys(dial.name for dial in dials))}
    columns = [base.names.index(name) for name in number_of]
    read = base.strains[columns] @ C
    shares = np.array([c.position.total for c in combined])
    work = np.sum(C * (base.work @ C), axis=1) / shares
    joints = np.asarray(springs) / shares
    opening = np.concatenate([work, joints[None]]).T.tolist()
    return [
        Readings(combination, number_of, one, opened, bent_readings(order, combination, number, dials))
        for number, (combination, one, opened) in enumerate(zip(combined, read.T.tolist(), opening, strict=True))
    ]


def stiffness_answers(ring: Ring, found: Sequence[Readings], given: Given) -> Outcome:
    """Opening, deflections, tilt, readings at rated and proof load, energy; a verdict where the user set a limit."""
    central = [r for r in found if not r.combination.position.name]
    forces, R = given.forces, given.forces.rated
    opened = np.array([r.opened(R) for r in central])
    low, high = central[first_of_greatest(-opened)], central[first_of_greatest(opened)]
    across = plates_across(ring)
    more = sum(across.values())
    answers = [_opening(high, R, "at the most", more)]
    if high is not low or across:
        answers.append(_opening(low, R, "at the least"))
    tilt = found[first_of_greatest([abs(_tilt(r, ring, R)) for r in found])]
    if abs(_tilt(tilt, ring, R)) > 1e-9:
        turn, where = abs(_tilt(tilt, ring, R)) * 1e3, _said(tilt.combination)
        answers.append(f"head out of parallel with the bed at rated force: {turn:.2f} mm per m ({where})")
    answers += _dial_lines(central, R, min(given.basis.proof_factor * R, forces.greatest))
    for beam, give in across.items():
        answers.append(f"{beam}: bends across too, up to {give * R:.2f} mm at rated force, which its dials leave out")
    F = forces.greatest
    flexible = high.opened(F) / F * high.combination.position.total * ring.planes + more
    answers += energy(flexible, forces, given.jack)
    findings, advice = _limits(ring, central, high, R, given.limits, across)
    return Outcome(findings=findings, answers=tuple(answers), advice=advice)


def plates_across(ring: Ring) -> dict[str, float]:
    """How far plates on four posts bend between the two pairs under 1 N in the middle, mm: strips as long as the span.

    Beside the bending along them it is the most: the plate is bent both ways at once, each helped by the other.
    """
    if ring.head.shared < 2:
        return {}
    S, b = ring.spacing, ring.span
    return {
        part.name: S**3 / (48 * E * b * part.depth**3 / 12) + S / (4 * G * b * part.depth / 1.2)
        for part in (ring.head, ring.bed)
    }


def _said(combination: Combination) -> str:
    return "; ".join(text for text in (combination.position.name, combination.state) if text)


def _tilt(r: Readings, ring: Ring, force: float) -> float:
    return (r.dial("gap at the left upright", force) - r.dial("gap at the right upright", force)) / ring.span


def _opening(r: Readings, force: float, how: str, across: float = 0.0) -> str:
    """In words; `across` is what plates on four posts bend between the pairs, mm per N."""
    words = {"bending": "bending", "shear": "shear", "axial": "stretch of the uprights", "joints": "give of the joints"}
    gives = [f"{words[kind]} {r.opening[kind] * force:.3f}" for kind in words]
    split = ", ".join([*gives, f"plates across {across * force:.3f}"] if across else gives)
    opened, first = r.opened(force) + across * force, (r.total + across) * force
    second = "" if math.isclose(opened, first) else f"by second order; by first order {first:.3f}: "
    return (
        f"opening at the load's line at rated force, {how}: {opened:.3f} mm ({second}{split}; {_said(r.combination)})"
    )


def _dial_lines(central: Sequence[Readings], rated: float, proof: float) -> list[str]:
    found = []
    for name in central[0].numbers:
        both = [f"{between([r.dial(name, force) for r in central])} at {show(force, 'kN')}" for force in (rated, proof)]
        found.append(f"dial on {name}: {', '.join(both)} (rated, proof)")
    return found


def between(values: Sequence[float]) -> str:
    """Readings of several states as one text, mm."""
    # Adding nothing turns a rounded -0.00 into 0.00.
    low, high = (f"{round(value, 2) + 0.0:.2f}" for value in (min(values), max(values)))
    return f"{low} mm" if low == high else f"{low} to {high} mm"


def energy(flexibility: float, forces: Forces, jack: Jack) -> list[str]:
    """What is let go when the work breaks: `flexibility` in mm per N of all jacks, at the jack's own line."""
    F = forces.greatest
    frame = F * F * flexibility / 2e3
    text = f"energy let go if the work breaks at the greatest force: {frame:.0f} J in the frame"
    if jack.bore is None or jack.stroke is None:
        return [text + "; that of the oil needs bore and stroke of the jack"]
    area = math.pi * jack.bore**2 / 4
    oil = (F / jack.count / area) ** 2 * area * jack.stroke / (2 * OIL) * jack.count / 1e3
    return [f"{text}, {oil:.0f} J in the oil column (bulk modulus {OIL:g} MPa), {frame + oil:.0f} J together"]


def _limits(
    ring: Ring,
    central: Sequence[Readings],
    high: Readings,
    rated: float,
    limits: Limits | None,
    across: Mapping[str, float],
) -> tuple[tuple[Finding, ...], tuple[str, ...]]:
    findings, advice = [], []
    if limits and limits.opening is not None:
        case = f"rated; {high.combination.state}"
        opened = high.opened(rated) + sum(across.values()) * rated
        findings.append(judged("frame", "opening", case, opened, limits.opening, "mm", SOURCE))
    for beam in ("head", "bed"):
        dial = f"{beam}, middle against its ends"
        most = central[first_of_greatest([abs(r.dial(dial, rated)) for r in central])]
        bends = abs(most.dial(dial, rated)) + across.get(beam, 0.0) * rated
        if limits and limits.deflection is not None:
            limit = limits.deflection.of(ring.span)
            case = f"rated; {most.combination.state}"
            findings.append(judged(beam, "deflection", case, bends, limit, "mm", SOURCE))
        elif bends > ring.span / COARSE:
            text = f"{beam}: bends {bends:.2f} mm at rated force, span / {ring.span / bends:.0f}; "
            advice.append(text + "more than span / 500, a limit of ours for coarse work")
    return tuple(findings), tuple(advice)
