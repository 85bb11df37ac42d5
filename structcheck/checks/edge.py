"""A force pressed into the edge of a solid beam: a bar, a flat on edge, the upright leg of an angle.

The edge must not yield under the contact, and the strip below must not buckle as a strut whose pressed end is free to
move sideways: its buckling length is twice the depth, curve c. No clause of EN 1993 covers a plate with a free edge.
"""

import math
from collections.abc import Sequence
from typing import Any

from structcheck.checks.basis import Basis, Case
from structcheck.checks.member_forms import E
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, Finding, Outcome, TimesOnYield, judged, not_checked, worst
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.standards import handbook_edges as edge
from structcheck.standards.en1993_1_1 import buckling

CHECK, YIELD = "web under load", "yield at greatest force"
CURVE_C = 0.49
"""Imperfection factor of solid sections, EN 1993-1-1 Table 6.2."""
SWAYS = 2.0
"""Buckling length over depth of a strip built in at one end and free at the other."""


@record
class Edge:
    """The pressed edge of one piece: its thickness and the depth of the plate behind it, mm.

    Wel  elastic modulus of one piece in bending, for a force on the side in tension
    """

    name: str
    thickness: float
    depth: float
    Wel: float
    steel: Steel
    pieces: int

    @property
    def stock(self) -> float:
        """Thickness of the plate or bar as it was rolled, by which its steel is known: a plate may lie flat."""
        return min(self.thickness, self.depth)


@record
class EdgeLoad:
    """One force on the edges of all pieces in one case.

    along, across  the contact's length along the edge and its width across; None: not stated
    spread         of the force along the plate to mid-depth, of both sides together
    M              alongside, where the pressed side is in tension; else nothing
    share          of the hardest pressed piece; None: all alike
    missing        the key that would state `along`
    """

    case: Case
    force: float
    along: float | None
    across: float | None
    spread: float
    M: float
    share: float | None
    place: str
    missing: str


def check_edge(part: Edge, loads: Sequence[EdgeLoad], basis: Basis) -> Outcome:
    """Crushing and buckling under every force, and the stress at the greatest one against yield."""
    found, times = [], []
    for load in loads:
        check = CHECK if load.case.limit == "ultimate" else YIELD
        try:
            if load.case.limit == "ultimate":
                found.append(_strength(part, load, basis))
                continue
            stress, f_y = _stress(part, load), part.steel.f_y(part.stock)
        except NotCovered as reason:
            if load.case.limit != "rated":
                found.append(not_checked(part.name, check, str(reason), case=load.case.name))
            continue
        if load.case.limit == "rated":
            times.append(TimesOnYield(part.name, f_y / stress))
        else:
            reason = f"{load.place}, the contact on its edge"
            source = edge.CRUSHING
            found.append(judged(part.name, YIELD, load.case.name, stress, f_y, "MPa", source, reason=reason))
    findings = tuple(
        worst(f for f in found if f.check == c) for c in (CHECK, YIELD) if any(f.check == c for f in found)
    )
    least = min(times, key=lambda one: one.value, default=None)
    text = "what presses its edges bears evenly, and nothing but the beam itself holds the pressed edge sideways"
    assumed = (Assumption(part.name, text),) if loads else ()
    return Outcome(findings, assumptions=assumed, times_on_yield=(least,) if least else ())


def _contact(part: Edge, load: EdgeLoad) -> tuple[float, float]:
    """Width and length of the contact. Raises NotCovered."""
    if load.along is None:
        raise NotCovered(f"`{load.missing}`, the length of the contact on its edge, is not stated")
    if load.along <= 0:
        raise NotCovered("a round pin or a line on the edge of a solid beam: no method here; ask `contact`")
    return min(part.thickness, load.across or part.thickness), load.along


def _stress(part: Edge, load: EdgeLoad) -> float:
    """Pressure under the contact, with the bending stress across it where that pulls."""
    b, s = _contact(part, load)
    pressed = load.force * _shared(part, load) / (b * s)
    pulled = load.M / part.pieces / part.Wel
    return math.sqrt(pressed**2 + pulled**2 + pressed * pulled)


def _shared(part: Edge, load: EdgeLoad) -> float:
    """Share of the force on the hardest pressed piece."""
    return 1 / part.pieces if load.share is None else load.share


def _strength(part: Edge, load: EdgeLoad, basis: Basis) -> Finding:
    if not part.steel.in_en1993:
        raise NotCovered(f"{part.steel.name} is outside EN 1993")
    b, s = _contact(part, load)
    f_y = part.steel.f_y(part.stock)
    crushed = edge.crushing_resistance(b, s, f_y, basis.gamma_M0)
    A = edge.strip_area(part.thickness, s, load.spread)
    N_cr = buckling.critical_force(E, edge.strip_second_moment(part.thickness, A), SWAYS * part.depth)
    slender = buckling.slenderness(A, f_y, N_cr)
    chi = min(float(buckling.reduction(buckling.phi(CURVE_C, slender), slender)), 1.0)
    buckled = buckling.buckling_resistance(chi, A, f_y, basis.gamma_M1)
    one, what = min((crushed, "the edge yields"), (buckled, f"the strip below buckles, chi {chi:.2f}"))
    reason = f"{load.place}; contact {s:.4g} x {b:.4g} mm: {what} first"
    source = f"{edge.CRUSHING}; {edge.STRIP}"
    capacity = one / _shared(part, load)
    return judged(part.name, CHECK, load.case.name, load.force, capacity, "kN", source, reason=reason)


def edge_of(name: str, section: Any, steel: Steel, pieces: int, turned: bool = False) -> Edge:
    """The pressed edge of a solid bar, on its side if turned, or of the upright leg of an angle."""
    left, right, bottom, top = section.edges
    depth, width, Wel = (right - left, top - bottom, section.Wel_z) if turned else (
        top - bottom, right - left, section.Wel_y,
    )  # fmt: skip
    return Edge(name, float(getattr(section.shape, "t", width)), float(depth), float(Wel), steel, pieces)
