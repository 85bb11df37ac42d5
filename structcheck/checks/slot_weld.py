"""The weld that closes a half-lap slot: what it must carry for the slotted rib to count as more than what is left."""

from collections.abc import Sequence

from structcheck.checks.basis import Basis
from structcheck.checks.fatigue import DETAILS, fatigue
from structcheck.checks.member_stress import Station
from structcheck.checks.weld import NO_YIELD
from structcheck.checks.weld_room import throat_above
from structcheck.checks.weld_sizes import throat_size
from structcheck.checks.weld_strength import fillet_strength, inspection, quality, steel_reason
from structcheck.errors import InputError, NotCovered
from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, complete, judged, not_checked, worst
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.shapes.slots import Slot, SlotWeld
from structcheck.standards.en1993_1_8 import welds

NEEDED = ("weld throat", "weld size", "yield at greatest force", "fatigue")
THINNEST = 4.0
"""EN 1993-1-8 4.1(1): its welds are for material of 4 mm and more."""
SOURCE = "elastic stress of the rib as if whole, {}"


@record(kw_only=True)
class SlotJoint:
    """A slot and the weld that closes it, of one piece; `weldable` as the user states it of an unknown steel."""

    name: str
    slot: Slot
    weld: SlotWeld
    steel: Steel
    inspected: bool = False
    weldable: bool = False

    @property
    def length(self) -> float:
        """Of the weld as stated, mm."""
        return min(self.slot.depth, self.slot.depth if self.weld.length is None else self.weld.length)

    @property
    def throats(self) -> float:
        """What bears across the slot in each mm of its depth: both throats together, or the rib, mm."""
        return self.slot.t if self.weld.kind == "butt" else 2 * (self.weld.throat or 0.0)


def check_slot_weld(part: SlotJoint, stations: Sequence[Station], pieces: int, basis: Basis) -> Outcome:
    """The weld at its most stressed end, where it is taken to be as stiff as the rib; nothing known is no pass.

    The rib at the slot is judged by `Slot.welded`, which takes the weld to be softer: two bounds, both must hold.
    """
    if reason := _why_not(part):
        return complete(Outcome(), part.name, NEEDED, reason)
    a = part.weld.throat if part.weld.kind == "fillets" else None
    if a is not None and (bad := throat_above("throat", a, part.slot.t, part.steel, part.inspected)):
        raise InputError(bad).within(part=part.name)
    outcome = Outcome(
        (_size(part),),
        does_not_apply=(NotNeeded(part.name, "yield at greatest force", NO_YIELD),),
        assumptions=_assumptions(part),
    )
    ultimate = [station for station in stations if station.case.limit == "ultimate"]
    if ultimate:
        outcome += Outcome((worst(_throat(part, station, pieces, basis) for station in ultimate),))
    rated = [station for station in stations if station.case.limit == "rated"]
    if rated:
        force = max(end_force(part, station, pieces) for station in rated)
        ranges = [(DETAILS["cruciform toe, any size"], force / part.slot.t)]
        if part.weld.kind == "fillets":
            ranges.append((DETAILS["weld root"], force / part.throats))
        outcome += fatigue(part.name, ranges, basis, case=rated[0].case.name)
    return complete(outcome, part.name, NEEDED, "no load is given for this check")


def end_force(part: SlotJoint, station: Station, pieces: int) -> float:
    """Force along the rib in each mm of the weld at its most stressed end, one piece, N/mm."""
    stiff = part.slot.stiff(part.weld)
    assert stiff is not None
    lever = max(abs(strip) for strip in _weld_ends(part, stiff.centroid[1]))
    # Both senses of the moment occur as the press is used: the pull adds to either.
    stress = abs(station.N) / stiff.A + abs(station.M_y) * lever / stiff.Iy + _sideways(part, station)
    return stress / pieces * part.slot.t


def _weld_ends(part: SlotJoint, centroid: float) -> tuple[float, float]:
    strip = part.slot.stiff(part.weld).shape.strips[1]  # type: ignore[union-attr]
    return strip.z_1 - centroid, strip.z_2 - centroid


def _sideways(part: SlotJoint, station: Station) -> float:
    """Bending about z strains the weld as it strains what is left, MPa."""
    left = part.slot.left
    return abs(station.M_z) * part.slot.t / 2 / left.Iz


def _throat(part: SlotJoint, station: Station, pieces: int, basis: Basis) -> Finding:
    check, case = "weld throat", station.case.name
    try:
        if part.weld.kind == "butt":
            clause = "EN 1993-1-8:2005 4.7.1"
            strength = quality(part.inspected) * part.steel.f_y(part.slot.t) / basis.gamma_M0
        else:
            clause = "EN 1993-1-8:2005 4.5.3.3"
            strength = fillet_strength(part.steel, part.slot.t, basis, part.inspected).simplified
    except NotCovered as why:
        return not_checked(part.name, check, str(why), case=case)
    demand = end_force(part, station, pieces)
    reason = f"at the most stressed end of the weld, {station.where}"
    capacity = strength * part.throats
    return judged(part.name, check, case, demand, capacity, "N/mm", SOURCE.format(clause), reason=reason)


def _size(part: SlotJoint) -> Finding:
    """The throat; of a butt its whole thickness is stated to be welded."""
    throat = part.slot.t if part.weld.kind == "butt" else part.weld.throat or 0.0
    return throat_size(part.name, throat)


def _why_not(part: SlotJoint) -> str:
    if reason := steel_reason(part.steel, part.weldable):
        return reason
    if part.slot.t < THINNEST:
        return f"EN 1993-1-8 section 4 begins at {THINNEST:g} mm"
    if part.slot.stiff(part.weld) is None:
        return "nothing is left of the weld after its ends"
    lost = 0.0 if part.weld.returned else 2 * (part.weld.throat or part.slot.t)
    if part.weld.kind == "fillets" and part.length - lost < welds.least_effective_length(part.weld.throat or 0.0):
        return "the fillets in the slot are too short to carry load (EN 1993-1-8 4.5.1(2))"
    return ""


def _assumptions(part: SlotJoint) -> tuple[Assumption, ...]:
    through = "the rib that passes through the slot is sound through its thickness, and pulled by it"
    bears = "the ribs rest on one another in the slot: the weld hands no force across from rib to rib"
    how = "full penetration" if part.weld.kind == "butt" else "fillets on both faces of the rib"
    text = f"the slot is welded to both sides of the rib that passes through it, {how}, from its open end"
    made = [
        Assumption(part.name, f"{text}; the weld restores bending along the rib only, no shear and no twist"),
        Assumption(part.name, "between its ends the rib counts as elastic: the weld is not asked to yield"),
        Assumption(part.name, f"{through} (EN 1993-1-10 section 3)", through),
        Assumption(part.name, bears, bears),
    ]
    if not part.inspected:
        made.append(Assumption(part.name, inspection()))
    if part.steel.assumed and part.weldable:
        condition = part.steel.condition
        made.append(Assumption(part.name, f"steel unknown, taken as {part.steel.name}; weldable as stated", condition))
    return tuple(made)
