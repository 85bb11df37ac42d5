"""What a section of the builder's own adds to a member's checks: the fillets between its plates, and its cuts."""

from collections.abc import Sequence

from structcheck.checks.basis import Basis
from structcheck.checks.fatigue import DETAILS, fatigue
from structcheck.checks.member_forms import require_en1993, thickness
from structcheck.checks.member_stress import Station, greatest_stress
from structcheck.checks.weld import NO_YIELD
from structcheck.checks.weld_intermittent import Intermittent, intermittent_size
from structcheck.checks.weld_room import throat_above
from structcheck.checks.weld_sizes import length_size, throat_size, worst_size
from structcheck.checks.weld_strength import fillet_strength, inspection, steel_reason
from structcheck.errors import InputError, NotCovered
from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, complete, judged, not_checked, worst
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.shapes.section import Section
from structcheck.standards.en1993_1_1 import cross_section
from structcheck.standards.en1993_1_8 import welds

NEEDED = ("weld throat", "weld size", "yield at greatest force", "fatigue")
TWISTED = "the member is twisted: what that puts into the seams of an open section is not judged"
FLOW = "shear flow V S / I and T / (2 A), EN 1993-1-8:2005 4.5.3.3"


@record
class Seam:
    """One seam of a section: its shear flow from 1 N along z, 1 N along y (1/mm) and 1 N mm of torque (1/mm2)."""

    name: str
    by_z: float = 0.0
    by_y: float = 0.0
    by_twist: float = 0.0


@record
class Stretched:
    """Seams laid in stretches, one at each end of the member; mm.

    stretch, gap  length of each, and clear between two
    end           length of the weld at each end of the member
    thinnest      thickness of the thinnest plate
    widths        of the narrowest and the widest plate
    dry           stated to stand neither in the weather nor in the wet
    """

    stretch: float
    gap: float
    end: float
    thinnest: float
    widths: tuple[float, float]
    dry: bool = False

    def share(self, a: float) -> float:
        """Part of a seam's length that is weld and counts; nothing where a stretch is no longer than its ends."""
        return max(welds.effective_length(self.stretch, a), 0.0) / (self.stretch + self.gap)


@record(kw_only=True)
class Seams:
    """All seams of one piece, alike.

    throat     of each fillet, mm; None: not stated
    runs       fillets at each seam
    stretched  how they are laid where they are intermittent; None: along the whole length
    thickness  of the thickest plate, mm
    unknown    why the flow in a seam is not known, else empty
    """

    name: str
    seams: tuple[Seam, ...]
    steel: Steel
    throat: float | None
    runs: int = 1
    stretched: Stretched | None = None
    thickness: float = 0.0
    inspected: bool = False
    weldable: bool = False
    unknown: str = ""

    @property
    def area(self) -> float:
        """Throat area of one seam that counts, mm2 for each mm of the member."""
        share = self.stretched.share(self.throat) if self.stretched else 1.0
        return self.runs * self.throat * share


def check_seams(part: Seams, stations: Sequence[Station], pieces: int, basis: Basis) -> Outcome:
    """The throat of the seams where the member is sheared and twisted most; what is not known is no pass."""
    reason = part.unknown or steel_reason(part.steel, part.weldable)
    if part.throat is None:
        reason = "the throat of the section's seams is not stated"
    closed = all(seam.by_twist for seam in part.seams)
    if not reason and not closed and any(station.T or station.T_w or station.B for station in stations):
        reason = TWISTED
    if reason:
        return complete(Outcome(), part.name, NEEDED, reason)
    if part.stretched and not part.stretched.share(part.throat):
        reason = "the stretches of the seams are no longer than their own two ends"
        return complete(Outcome(), part.name, NEEDED, reason)
    if bad := throat_above("throat", part.throat, part.thickness, part.steel, part.inspected, "alone"):
        raise InputError(bad).within(part=part.name)
    outcome = Outcome(
        (worst_size(_sizes(part)),),
        does_not_apply=(NotNeeded(part.name, "yield at greatest force", NO_YIELD),),
        assumptions=_assumptions(part),
    )
    ultimate = [station for station in stations if station.case.limit == "ultimate"]
    if ultimate:
        outcome += Outcome((_throat(part, ultimate, pieces, basis),))
    rated = [station for station in stations if station.case.limit == "rated"]
    if rated:
        flow = max(_flow(seam, station, pieces) for seam in part.seams for station in rated)
        range_ = flow / part.area
        outcome += fatigue(part.name, [(DETAILS["fillet weld in shear"], range_)], basis, case=rated[0].case.name)
    return complete(outcome, part.name, NEEDED, "no load is given for this check")


def _sizes(part: Seams) -> list[Finding]:
    """Throat, and where the seams are intermittent the length of a stretch and how far apart they stand."""
    found = [throat_size(part.name, part.throat)]
    laid = part.stretched
    if laid is None:
        return found
    counts = welds.effective_length(laid.stretch, part.throat)
    found.append(length_size(part.name, part.throat, counts, "a stretch: "))
    thin = {"thickness": laid.thinnest, "other": laid.thinnest}
    wide = {"width": laid.widths[0], "other_width": laid.widths[1]}
    joined = Intermittent(name=part.name, gap=laid.gap, end_run=laid.end, dry=laid.dry, **thin, **wide)
    return [*found, intermittent_size(joined)]


def _flow(seam: Seam, station: Station, pieces: int) -> float:
    """Shear flow in one seam of one piece, N/mm; the three are added, whichever way they run."""
    found = abs(station.V_z) * seam.by_z + abs(station.V_y) * seam.by_y + abs(station.T) * seam.by_twist
    return found / pieces


def _throat(part: Seams, stations: Sequence[Station], pieces: int, basis: Basis) -> Finding:
    try:
        strength = fillet_strength(part.steel, part.thickness, basis, part.inspected).simplified
    except NotCovered as why:
        return not_checked(part.name, "weld throat", str(why))
    capacity = part.area * strength
    return worst(
        judged(
            part.name,
            "weld throat",
            station.case.name,
            _flow(seam, station, pieces),
            capacity,
            "N/mm",
            FLOW,
            reason=f"{seam.name}, {station.where}",
        )
        for station in stations
        for seam in part.seams
    )


def _how(part: Seams) -> str:
    if part.stretched is None:
        return "the seams run along the whole length"
    return (
        "the seams run in stretches, one at each end of the member, whose gaps are judged as between plates pressed or "
        'sheared; the member\'s own fatigue detail is "intermittent longitudinal weld" or lower'
    )


def _assumptions(part: Seams) -> tuple[Assumption, ...]:
    made = [
        Assumption(part.name, f"{_how(part)}, filler metal at least as strong as the plates"),
    ]
    if not part.inspected:
        made.append(Assumption(part.name, inspection()))
    if part.steel.assumed and part.weldable:
        text = f"steel unknown, taken as {part.steel.name}; weldable as stated"
        made.append(Assumption(part.name, text, part.steel.condition))
    return tuple(made)


CUT_NEEDED = ("net section", "fatigue")


@record
class Cuts:
    """Holes or a slot already taken out of a section, which is therefore the net one."""

    name: str
    section: Section
    steel: Steel
    slotted: bool = False


def check_cuts(part: Cuts, stations: Sequence[Station], pieces: int, basis: Basis) -> Outcome:
    """Fracture of what is left, by elastic stress, and fatigue at the cut."""
    outcome = Outcome()
    ultimate = [station for station in stations if station.case.limit == "ultimate"]
    rated = [station for station in stations if station.case.limit == "rated"]
    if ultimate:
        outcome += Outcome((_fracture(part, ultimate, pieces, basis),))
    if rated and part.slotted:
        reason = "the corners of a slot are notches no category of EN 1993-1-9 is for"
        never = "the use states static = true, no verdict on fatigue; no life can be given for a slot"
        made = not_checked(part.name, "fatigue", reason)
        outcome += (
            Outcome(does_not_apply=(NotNeeded(part.name, "fatigue", never),)) if basis.static else Outcome((made,))
        )
    elif rated:
        outcome += _fatigue_of_holes(part, rated, pieces, basis)
    return complete(outcome, part.name, CUT_NEEDED, "no load is given for this check")


def _fatigue_of_holes(part: Cuts, rated: Sequence[Station], pieces: int, basis: Basis) -> Outcome:
    try:
        stress = greatest_stress(part.section, rated, pieces).value
    except NotCovered as why:
        return Outcome((not_checked(part.name, "fatigue", str(why)),))
    return fatigue(part.name, [(DETAILS["plate with ordinary bolts"], stress)], basis, case=rated[0].case.name)


def _fracture(part: Cuts, stations: Sequence[Station], pieces: int, basis: Basis) -> Finding:
    """0.9 f_u / gamma_M2, as (6.7) has it for a pull; for bending too, elastic, which is safe."""
    try:
        require_en1993(part.section, part.steel)
        strength = cross_section.net_axial_resistance(1.0, part.steel.f_u(thickness(part.section)), basis.gamma_M2)
        found = greatest_stress(part.section, stations, pieces)
    except NotCovered as why:
        return not_checked(part.name, "net section", str(why))
    source = f"{cross_section.CODE} (6.7), on elastic stress"
    case = found.station.case.name
    return judged(part.name, "net section", case, found.value, float(strength), "MPa", source)
