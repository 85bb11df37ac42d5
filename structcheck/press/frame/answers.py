"""How far the frame gives: opening, deflections, tilt, dial readings and the energy let go when the work breaks.

Every reading is the work of a unit load pair, put where the dial stands, on the strains of the state asked.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from structcheck.analysis.frame import NodeLoad, PointOnMember
from structcheck.analysis.frame_model import Load
from structcheck.findings import Finding, Outcome, judged
from structcheck.press.cases import Forces
from structcheck.press.frame.envelope import Combination
from structcheck.press.frame.given import Given
from structcheck.press.frame.lines import KINDS
from structcheck.press.frame.states import Loosened
from structcheck.press.frame.understood import Ring
from structcheck.press.frame_schema import Dial
from structcheck.press.schema import Jack, Limits
from structcheck.quantities import show

OIL = 1400.0
"""Bulk modulus of hydraulic oil with the air it usually holds, MPa; common practice. A low value stores more."""
COARSE = 500.0
SOURCE = "virtual work on the frame's own analysis, shear included"


@dataclass(frozen=True)
class Gauge:
    """A dial: what it reads, and the pair of loads that finds it."""

    name: str
    loads: tuple[Load, ...]


def gauges(ring: Ring, dials: Sequence[Dial]) -> tuple[Gauge, ...]:
    """The dials that are always read, then the user's."""
    L, h = ring.span, ring.height
    found = [_from_chord(beam, L / 2, L, f"{beam}, middle against its ends") for beam in ("head", "bed")]
    for side in ("left", "right"):
        apart = (NodeLoad(f"head/{side}", (0, 0, 1.0)), NodeLoad(f"bed/{side}", (0, 0, -1.0)))
        found.append(Gauge(f"gap at the {side} upright", apart))
    for side, inwards in (("left", 1.0), ("right", -1.0)):
        bow = (
            PointOnMember(f"{side} upright", h / 2, (inwards, 0, 0)),
            NodeLoad(f"head/{side}", (-inwards / 2, 0, 0)),
            NodeLoad(f"bed/{side}", (-inwards / 2, 0, 0)),
        )
        found.append(Gauge(f"{side} upright, middle inwards", bow))
    found += [_from_chord(d.on, d.at, L, f"{d.on}, {d.at:g} mm from the left, against its ends") for d in dials]
    return tuple(found)


def _from_chord(beam: str, x: float, span: float, name: str) -> Gauge:
    way = 1.0 if beam == "head" else -1.0
    ends = (NodeLoad(f"{beam}/left", (0, 0, -way * (1 - x / span))), NodeLoad(f"{beam}/right", (0, 0, -way * x / span)))
    return Gauge(name, (PointOnMember(beam, x, (0, 0, way)), *ends))


@dataclass(frozen=True)
class Readings:
    """What dials read for 1 N, in one combination: by name, and the opening at the load's line by kind."""

    combination: Combination
    dials: Mapping[str, float]
    opening: Mapping[str, float]

    @property
    def total(self) -> float:
        """The whole opening at the load's line, mm per N."""
        return sum(self.opening.values())


def readings(
    base: Loosened, combined: Sequence[Combination], C: np.ndarray, springs: Sequence[float], names: Sequence[str]
) -> list[Readings]:
    """Readings of every combination; C are their factors, `springs` is twice the energy in sprung corners of each."""
    columns = [base.names.index(name) for name in names]
    dials = base.work.sum(axis=0)[columns] @ C
    shares = np.array([c.position.total for c in combined])
    work = np.sum(C * (base.work @ C), axis=1) / shares
    joints = np.asarray(springs) / shares
    kinds = (*KINDS, "joints")
    opening = np.concatenate([work, joints[None]]).T.tolist()
    return [
        Readings(combination, dict(zip(names, read, strict=True)), dict(zip(kinds, opened, strict=True)))
        for combination, read, opened in zip(combined, dials.T.tolist(), opening, strict=True)
    ]


def stiffness_answers(ring: Ring, found: Sequence[Readings], given: Given) -> Outcome:
    """Opening, deflections, tilt, readings at rated and proof load, energy; a verdict where the user set a limit."""
    central = [r for r in found if not r.combination.position.name]
    low, high = min(central, key=lambda r: r.total), max(central, key=lambda r: r.total)
    forces, R = given.forces, given.forces.rated
    answers = [_opening(high, R, "at the most")]
    if high is not low:
        answers.append(_opening(low, R, "at the least"))
    tilt = max(found, key=lambda r: abs(_tilt(r, ring)))
    if abs(_tilt(tilt, ring)) * R > 1e-9:
        turn, where = abs(_tilt(tilt, ring)) * R * 1e3, _said(tilt.combination)
        answers.append(f"head out of parallel with the bed at rated force: {turn:.2f} mm per m ({where})")
    answers += _dial_lines(central, R, min(given.basis.proof_factor * R, forces.greatest))
    answers += energy(high.total * high.combination.position.total * ring.planes, forces, given.jack)
    findings, advice = _limits(ring, central, high, R, given.limits)
    return Outcome(findings=findings, answers=tuple(answers), advice=advice)


def _said(combination: Combination) -> str:
    return "; ".join(text for text in (combination.position.name, combination.state) if text)


def _tilt(r: Readings, ring: Ring) -> float:
    return (r.dials["gap at the left upright"] - r.dials["gap at the right upright"]) / ring.span


def _opening(r: Readings, force: float, how: str) -> str:
    words = {"bending": "bending", "shear": "shear", "axial": "stretch of the uprights", "joints": "give of the joints"}
    split = ", ".join(f"{words[kind]} {r.opening[kind] * force:.3f}" for kind in words)
    return (
        f"opening at the load's line at rated force, {how}: {r.total * force:.3f} mm ({split}; {_said(r.combination)})"
    )


def _dial_lines(central: Sequence[Readings], rated: float, proof: float) -> list[str]:
    found = []
    for name in central[0].dials:
        values = [r.dials[name] for r in central]
        both = [f"{_between(values, force)} at {show(force, 'kN')}" for force in (rated, proof)]
        found.append(f"dial on {name}: {', '.join(both)} (rated, proof)")
    return found


def _between(values: Sequence[float], force: float) -> str:
    # Adding nothing turns a rounded -0.00 into 0.00.
    low, high = (f"{round(value * force, 2) + 0.0:.2f}" for value in (min(values), max(values)))
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
    ring: Ring, central: Sequence[Readings], high: Readings, rated: float, limits: Limits | None
) -> tuple[tuple[Finding, ...], tuple[str, ...]]:
    findings, advice = [], []
    if limits and limits.opening is not None:
        case = f"rated; {high.combination.state}"
        findings.append(judged("frame", "opening", case, high.total * rated, limits.opening, "mm", SOURCE))
    for beam in ("head", "bed"):
        dial = f"{beam}, middle against its ends"
        most = max(central, key=lambda r: abs(r.dials[dial]))
        bends = abs(most.dials[dial]) * rated
        if limits and limits.deflection is not None:
            limit = limits.deflection.of(ring.span)
            case = f"rated; {most.combination.state}"
            findings.append(judged(beam, "deflection", case, bends, limit, "mm", SOURCE))
        elif bends > ring.span / COARSE:
            text = f"{beam}: bends {bends:.2f} mm at rated force, span / {ring.span / bends:.0f}; "
            advice.append(text + "more than span / 500, a limit of ours for coarse work")
    return tuple(findings), tuple(advice)
