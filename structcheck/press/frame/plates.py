"""C-frames and O-frames cut from plate: straight arms and back as members, every inner corner as a curved bar."""

import math
from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from structcheck.analysis.curved_beam import CurvedSection, Numbers, curved_rectangle
from structcheck.checks.basis import Basis
from structcheck.checks.fatigue import DETAILS, fatigue
from structcheck.checks.member_forms import yield_strength
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Finding, Outcome, TimesOnYield, judged, not_checked
from structcheck.formula import unrecorded
from structcheck.materials.steels import find_steel
from structcheck.maths import first_of_greatest
from structcheck.press.frame.envelope import Combination, Level, case_of
from structcheck.press.frame.understood import plate_section
from structcheck.press.frame_schema import FrameTables, PlateFrame, Standing
from structcheck.press.schema import Jack
from structcheck.record import record
from structcheck.shapes.section import Section
from structcheck.standards.en1993_1_1.cross_section import von_mises_stress

SOURCE = "Winkler-Bach curved beam"


@record
class Cut:
    """Forces on a section through a corner, per N of the jack.

    N pulls, M opens the corner in the plate's plane; `across` bends it out of its plane, `twist` turns it.
    """

    where: str
    depth: float
    N: float
    M: float
    across: float = 0.0
    twist: float = 0.0


@record
class CornerCase:
    """The cuts through one corner in one position of the force."""

    corner: str
    combination: Combination
    cuts: tuple[Cut, ...]


@record
class Corners:
    """All corners of a plate frame in every position, and the forces by which they are judged."""

    plate: PlateFrame
    cases: tuple[CornerCase, ...]
    levels: tuple[Level, ...]

    def hardest(self) -> tuple[CornerCase, Cut, Level]:
        """The cut that is worked hardest at the ultimate force."""
        level = next(level for level in self.levels if level.limit == "ultimate")
        each = [(case, cut) for case in self.cases for cut in case.cuts]
        case, cut = each[first_of_greatest(stresses_of(self.plate, [cut for _, cut in each]))]
        return case, cut, level


def plate_table(tables: FrameTables, key: str) -> PlateFrame:
    """The plate of a frame, with the measure its shape needs. Raises InputError."""
    plate, shape = tables.plate, tables.frame.shape
    if plate is None:
        remedy = '[plate] with thickness = "40 mm", steel = "S355", back = "200 mm"'
        raise InputError(Problem("plate", "", "is not described", "what the frame is cut from", remedy))
    if getattr(plate, key) is None:
        what = "to the line of the force" if key == "reach" else "the clear width inside"
        raise InputError(
            Problem(key, "", f"is missing for a frame of shape {shape}", what, f'{key} = "200 mm"', "plate")
        )
    room = (tables.frame.opening or math.inf) / 2
    if plate.radius > room:
        given, wanted = f"{plate.radius:g} mm", f"at most half the opening, {room:g} mm"
        raise InputError(Problem("radius", given, "is more than the opening has room for", wanted, part="plate"))
    return plate


def opened(tables: FrameTables) -> float:
    """The clear opening of a plate frame. Raises InputError where it is not stated."""
    frame = tables.frame
    if frame.opening is None:
        wanted = "the clear height between the arms"
        raise InputError(Problem("opening", "", "is missing", wanted, 'opening = "300 mm"', "frame"))
    return frame.opening


def section_of(plate: PlateFrame, depth: float) -> Section:
    """One plate of the back or an arm."""
    return plate_section(depth, plate.thickness)


def plain(plate: PlateFrame) -> Standing:
    """The table of an arm, a back or a beam cut from the plate: it says no more than the plate does."""
    return Standing(steel=plate.steel, pieces=plate.pieces, quality=plate.quality, detail=plate.detail)


def throat_cuts(plate: PlateFrame, arm: float, reach: float, beside: float = 0.0) -> tuple[Cut, ...]:
    """Cuts through the corner of a C-frame under 1 N at `reach` from the back's inner edge, `beside` the plate's plane.

    At an angle t from the back's own section the force pulls with cos t and bends with its lever about the centroid.
    The slanting cut counts no more depth than the thinner of back and arm has: the outer corner carries little.
    """
    r = plate.radius
    found = []
    for turn, depth, where in (
        (0.0, plate.back, "where the back meets the corner"),
        (math.pi / 4, min(plate.back, arm), "half way round the corner"),
        (math.pi / 2, arm, "where the arm meets the corner"),
    ):
        centroid = r + depth / 2
        lever = reach - r + centroid * math.cos(turn)
        found.append(
            Cut(where, depth, math.cos(turn), lever, abs(beside) * math.cos(turn), abs(beside) * math.sin(turn))
        )
    return tuple(found)


def ring_cuts(plate: PlateFrame, arm: float, side: np.ndarray, beam: np.ndarray) -> tuple[Cut, ...]:
    """Cuts through the corner of an O-frame from what side and beam carry at the corner's ends.

    side, beam  N, V, M (opening), moment across the plate, torque

    Half way round, the side's forces are carried on about the slanting section's own centroid.
    """
    r = plate.radius
    N_s, V_s, M_s, across, twist = side.tolist()
    N_b, _, M_b, across_b, twist_b = beam.tolist()
    depth = min(plate.back, arm)
    slant = (r + depth / 2) / math.sqrt(2)
    M_half = M_s - N_s * (r + plate.back / 2 - slant)
    M_half += math.copysign(abs(V_s) * slant, M_half)
    N_half = (N_s + abs(V_s)) / math.sqrt(2)
    both = max(abs(across), abs(across_b)), max(abs(twist), abs(twist_b))
    return (
        Cut("where the side meets the corner", plate.back, N_s, M_s, abs(across), abs(twist)),
        Cut("half way round the corner", depth, N_half, M_half, *both),
        Cut("where the beam meets the corner", arm, N_b, M_b, abs(across_b), abs(twist_b)),
    )


def corner_outcome(plate: PlateFrame, cases: Sequence[CornerCase], levels: Sequence[Level], basis: Basis) -> Outcome:
    """Each corner as a curved bar: elastic stress against yield, at ultimate and at the greatest force."""
    steel = find_steel(plate.steel, route="plate", strengths=basis.strengths)
    corners = dict.fromkeys(case.corner for case in cases)
    assumptions = []
    if steel.assumed:
        text = f"steel unknown: taken as {steel.name} ({steel.source})"
        assumptions = [Assumption(corner, text, steel.condition) for corner in corners]
    try:
        f_y = yield_strength(section_of(plate, plate.back), steel)
    except NotCovered as reason:
        checks = ("curved bending", "yield at greatest force")
        return Outcome(tuple(not_checked(corner, check, str(reason)) for corner in corners for check in checks))
    findings: list[Finding] = []
    times: list[TimesOnYield] = []
    beside = Outcome()
    for corner in corners:
        each = [(case, cut) for case in cases if case.corner == corner for cut in case.cuts]
        central = np.array([case.combination.position.central for case, _ in each])
        # All grow with the force alike: the hardest worked for one newton is so at every level.
        with unrecorded():
            stresses = stresses_of(plate, [cut for _, cut in each])
        for level in levels:
            hardest = each[first_of_greatest(np.where(central | (not level.central_only), stresses, -1.0))]
            most = _judged(corner, plate, *hardest, level, f_y, basis)
            if level.limit == "rated":
                times.append(TimesOnYield(corner, f_y / most.demand.value))
            elif level.limit == "ultimate" and not steel.in_en1993:
                reason = f"{steel.name} is no steel of EN 1993-1-1 (section 3)"
                findings.append(not_checked(corner, "curved bending", reason))
            else:
                findings.append(most)
        beside += _fatigue(corner, plate, f_y, times[-1].value, basis)
    return Outcome(tuple(findings), assumptions=tuple(assumptions), times_on_yield=tuple(times)) + beside


def _fatigue(corner: str, plate: PlateFrame, f_y: float, times: float, basis: Basis) -> Outcome:
    """Fatigue of the inner edge by its stress at rated force; how it was cut decides, and must be stated."""
    if plate.edge == "smooth" or basis.static:
        return fatigue(corner, [(DETAILS["cut edge"], f_y / times)], basis)
    reason = 'how the inner edges were cut is not stated: [plate] edge = "smooth" if all flaws are ground away'
    return Outcome((not_checked(corner, "fatigue", reason),))


def _judged(
    corner: str, plate: PlateFrame, case: CornerCase, cut: Cut, level: Level, f_y: float, basis: Basis
) -> Finding:
    stress = stress_of(plate, cut, level.force)
    name = case_of(level, case.combination).name
    ultimate = level.limit == "ultimate"
    check = "curved bending" if ultimate else "yield at greatest force"
    source = f"{SOURCE}, EN 1993-1-1 6.2.1(5)" if ultimate else f"{SOURCE}, nominal elastic stress"
    capacity = f_y / basis.gamma_M0 if ultimate else f_y
    return judged(corner, check, name, stress, capacity, "MPa", source, reason=cut.where)


def curved_section(plate: PlateFrame, cut: Cut) -> CurvedSection:
    """The section a cut passes through, all plates together."""
    return _resisting(plate, cut.depth).curved


@record
class _Resisting:
    """What a cut of one depth resists with, all plates together: as a curved bar, across the plate and in torsion."""

    curved: CurvedSection
    across: float
    twist: float

    def stress(self, N: Numbers, M: Numbers, across: Numbers, twist: Numbers) -> Numbers:
        """Greatest elastic stress, MPa: the largest of each, added although they stand at different points: safe."""
        return von_mises_stress(self.curved.greatest(N, M) + across / self.across, twist / self.twist)


def _resisting(plate: PlateFrame, depth: float) -> _Resisting:
    return _of_plates(plate.thickness, plate.pieces, plate.radius, depth)


@lru_cache(maxsize=64)
def _of_plates(thickness: float, pieces: int, radius: float, depth: float) -> _Resisting:
    flat = plate_section(depth, thickness)
    return _Resisting(curved_rectangle(thickness * pieces, radius, depth), pieces * flat.Wel_z, pieces * flat.Wt)


def stress_of(plate: PlateFrame, cut: Cut, force: float) -> float:
    """Greatest elastic stress in a cut under a force, MPa."""
    return force * _resisting(plate, cut.depth).stress(cut.N, cut.M, cut.across, cut.twist)


def stresses_of(plate: PlateFrame, cuts: Sequence[Cut]) -> np.ndarray:
    """(cuts,) the same of many cuts for one newton: those of one depth together."""
    table = np.array([(cut.depth, cut.N, cut.M, cut.across, cut.twist) for cut in cuts])
    found = np.empty(len(table))
    for depth in set(table[:, 0].tolist()):
        own = table[:, 0] == depth
        found[own] = _resisting(plate, depth).stress(*table[own, 1:].T)
    return found


def jack_or_error(jack: Jack, plate: PlateFrame, opening: float) -> None:
    """Raise InputError where the jack cannot stand in the opening."""
    if jack.stroke is not None and jack.stroke > opening:
        given, wanted = f"{jack.stroke:g} mm", f"at most the clear opening, {opening:g} mm"
        raise InputError(Problem("stroke", given, "is longer than the opening the jack stands in", wanted, part="jack"))
