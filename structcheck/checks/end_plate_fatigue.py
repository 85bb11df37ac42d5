"""Fatigue of an end plate: its bolts with all that pries on them, the plate at its welds, plate and flange at holes.

Bolts are taken as not preloaded: they feel the whole range.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from structcheck.checks.basis import Basis
from structcheck.checks.bolts_prying import Flange, lengths
from structcheck.checks.end_plate_part import EndPlate, EndPlateLoads
from structcheck.checks.end_plate_rows import pulls
from structcheck.checks.fatigue import DETAILS, Detail, bolt_in_tension, fatigue
from structcheck.errors import NotCovered
from structcheck.findings import NotNeeded, Outcome, not_checked
from structcheck.record import record
from structcheck.standards import handbook_plates
from structcheck.standards.en1993_1_8 import tstub as clause

CHECK = "fatigue"
TUBE = (
    "EN 1993-1-9 has no category for a tube's wall bent by bolts, nor for bolts that are bent as this wall turns under "
    "them. Ask an engineer for the ranges of stress at the wall's holes and corners and in the bolts (hot spot method, "
    "annex B, on a finite element model), or bolt to a flange, or to a tube stiffened inside"
)
LONGEST = 80.0
"""mm; plate and welds of a transverse attachment of category 71."""


@record
class _Bent:
    """A plate bent between bolt and web, the width of it that bends with one bolt, and the detail at the web."""

    flange: Flange
    width: float
    toe: Detail


def check_fatigue(seen: Sequence[tuple[EndPlate, EndPlateLoads]], basis: Basis) -> Outcome:
    """The worst detail in the worst rated case. A member behind that is not described leaves it open."""
    ranges: dict[Detail, float] = {}
    first = seen[0][0]
    try:
        for part, load in seen:
            for detail, stress in _ranges(part, load):
                ranges[detail] = max(stress, ranges.get(detail, 0.0))
    except NotCovered as reason:
        return _not_known(first.name, basis, str(reason))
    known = fatigue(first.name, list(ranges.items()), basis)
    return _beside_tube(first.name, known, basis) if first.on_tube else known


def _beside_tube(name: str, known: Outcome, basis: Basis) -> Outcome:
    """Bolts and plate alone: they may fail, and where they do not the tube's wall is still open."""
    unknown = _not_known(name, basis, TUBE)
    if not known.findings:
        return unknown
    (finding,) = known.findings
    if finding.verdict == "fails":
        return replace(known, findings=(replace(finding, reason=f"{finding.reason}; not checked beside it: {TUBE}"),))
    return unknown + Outcome(answers=known.answers)


def _not_known(name: str, basis: Basis, reason: str) -> Outcome:
    if basis.static:
        why = f"the use states static = true, no verdict on fatigue; no life can be given: {reason}"
        return Outcome(does_not_apply=(NotNeeded(name, CHECK, why),))
    return Outcome((not_checked(name, CHECK, reason, source="EN 1993-1-9:2005"),))


def _ranges(part: EndPlate, load: EndPlateLoads) -> list[tuple[Detail, float]]:
    bent, pull = _bent(part), max(pulls(part, load))
    # Held fast at web and bolt alike a plate pries with F m / (2 n), more than any softer bolt gives.
    pries = max(one.flange.m / (2 * one.flange.n) for one in bent)
    found = [
        (bolt_in_tension(part.size.d), pull * (1 + pries) / part.size.A_s),
        (DETAILS["bolt in shear"], abs(load.shear) / (2 * len(part.rows) * part.size.A_s)),
    ]
    for one in bent:
        # At the web a plate that does not pry is bent by the whole of F m, at the bolt one that does by half of it.
        at_web = handbook_plates.bending_stress(pull * one.flange.m / one.width, one.flange.t)
        at_hole = handbook_plates.bending_stress(pull * one.flange.m / 2 / (one.width - part.d_0), one.flange.t)
        found += [(one.toe, at_web), (DETAILS["plate with holes"], at_hole)]
    return found


def _bent(part: EndPlate) -> list[_Bent]:
    """End plate and flange behind; the elastic width spreads at 1:1 from head to web, no wider than the T-stub."""
    if part.on_tube:
        return [_Bent(plate := _of_plate(part), _width(part, plate), _toe(part))]
    if part.behind is None or part.behind_lever is None:
        raise NotCovered("the flange behind the end plate is not described")
    steel = part.behind_steel or part.steel
    behind = Flange(part.behind, steel.f_y(part.behind), part.behind_lever, part.edge)
    plates = ((_of_plate(part), _toe(part)), (behind, DETAILS["rolled parent metal"]))
    return [_Bent(flange, _width(part, flange), toe) for flange, toe in plates]


def _of_plate(part: EndPlate) -> Flange:
    """The plate beside the web, or beyond the flange, whichever lever is the longer."""
    m = clause.lever_from_weld(part.gauge, part.web, part.web_throat)
    if part.outside:
        m = max(m, part.heights[0] - part.depth)
    return Flange(part.plate, part.steel.f_y(part.plate), m, part.edge)


def _toe(part: EndPlate) -> Detail:
    if max(part.web + 3 * part.web_throat, part.flange + 3 * part.flange_throat) > LONGEST:
        raise NotCovered(f"a beam's flange more than {LONGEST:g} mm thick with its welds")
    return DETAILS["transverse attachment to 80 mm"]


def _width(part: EndPlate, flange: Flange) -> float:
    """No wider than the rows stand apart; a row at the plate's end has what is left there on both sides."""
    gaps = [a - b for a, b in pairwise(part.heights)]
    width = min(
        part.size.d + 2 * flange.m, lengths(flange, (None, None), ())[1], 2 * (part.top - part.heights[0]), *gaps
    )
    if width <= part.d_0:
        raise NotCovered("no plate is left beside a hole to bend between bolt and web")
    return width
