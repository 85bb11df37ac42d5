"""What the joints at a member's ends do to the member itself: a weld sets its fatigue, a bolt takes its hole."""

from collections import Counter
from collections.abc import Sequence
from typing import Any

from structcheck.checks.basis import Basis
from structcheck.checks.bolts_group import longest_slot, normal_clearance
from structcheck.checks.fatigue import DETAILS
from structcheck.checks.member_fatigue import UNKNOWN, check_member_fatigue
from structcheck.checks.member_forms import form
from structcheck.checks.member_stress import Station, greatest_stress
from structcheck.checks.pin_part import USUAL_CLEARANCE
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Outcome, not_checked
from structcheck.materials.bolts import find_size
from structcheck.press import schema
from structcheck.press.frame.words import EndForces, FramePart

THREAD = "bolt in tension"
"""The fatigue detail of a threaded bar, bent too: its notches are the same."""

WELDED = ("weld", "weld_group", "butt", "tube_joint", "plate_on_flange")

SAME = 1e-6
"""Holes nearer in size than this, mm, are alike."""


def standing_on(member: str, press: schema.PressFile, kinds: tuple[str, ...]) -> list[Any]:
    """The joints of these kinds at the ends of a beam ("head") or an upright ("left upright")."""
    side = member.removesuffix(" upright")
    return [
        table
        for kind in kinds
        for table in getattr(press, kind)
        if any(side in place.split("/") for place in table.at or ())
    ]


def end_fatigue(
    name: str, part: FramePart, ends: Sequence[EndForces], press: schema.PressFile, basis: Basis
) -> Outcome:
    """Fatigue of a beam where a joint is welded to its ends and its detail is not stated: by the lowest category."""
    names = _unsaid_welds(name, part, press)
    if not names or basis.static:
        return Outcome()
    stations = [Station(e.case, "", e.N, e.V_y, e.V_z, 0.0, e.M_y, e.M_z) for e in ends if e.case.limit == "rated"]
    try:
        stress = greatest_stress(part.section, stations, part.pieces).value if stations else 0.0
    except NotCovered as reason:
        return Outcome((not_checked(name, "fatigue", str(reason)),))
    text = f"fatigue at the ends: {names} on it, of unknown detail, category 36; state `detail` of the {name}"
    found = check_member_fatigue(name, part.section, UNKNOWN, stress, basis)
    return Outcome(found.findings, answers=found.answers, assumptions=(Assumption(name, text),))


def detail_of(name: str, part: FramePart, press: schema.PressFile) -> str | None:
    """The fatigue detail of an upright: as stated, else its thread, else the lowest where a joint is welded to it.

    Raises InputError where a better one than a thread's is stated for an upright that is threaded over its length.
    """
    if _unsaid_welds(name, part, press):
        return UNKNOWN
    stated = getattr(part.table, "detail", None)
    if getattr(part.table, "thread", None) is None or stated == UNKNOWN:
        return stated
    if stated in DETAILS and DETAILS[stated].category > DETAILS[THREAD].category:
        fault, wanted = "is better than the thread that runs over its length", f'"{THREAD}", or a lower category'
        raise InputError(Problem("detail", f'"{stated}"', fault, wanted, f'detail = "{THREAD}"', "uprights"))
    return THREAD if stated is None else stated


def _unsaid_welds(name: str, part: FramePart, press: schema.PressFile) -> str:
    if getattr(part.table, "detail", None) is not None:
        return ""
    return ", ".join(dict.fromkeys(table.name for table in standing_on(name, press, WELDED)))


def holes_unsaid(member: str, part: FramePart, press: schema.PressFile) -> Outcome:
    """A condition where bolts stand at an upright's ends and its stated holes do not count all that they drill.

    A pin is judged with its own plates only: without a `hole` the upright's net section is not checked.
    Raises InputError where a stated hole is smaller than that of bolts or pins which surely go through the member.
    """
    bolted, table = standing_on(member, press, ("bolts", "end_plate", "pin")), part.table
    hole = getattr(table, "hole", None)
    pins = ", ".join(dict.fromkeys(joint.name for joint in bolted if isinstance(joint, schema.PinTable)))
    if pins and hole is None:
        return Outcome((not_checked(member, "net section", f"{pins} through it, and no `hole` stated"),))
    # The plate of a lap that runs along the force is the upright, across it the beam or the member of a free frame.
    runs = "along" if member.endswith(" upright") else "across"
    if not bolted or (hole is not None and all(_counted(joint, part, runs) for joint in bolted)):
        return Outcome()
    names = ", ".join(dict.fromkeys(joint.name for joint in bolted))
    if hole is None:
        condition = f"{member}: no hole but those judged with {names} weakens it; state `hole` and `holes` if one does"
        return Outcome(assumptions=(Assumption(member, f"bolted ({names}) and no `hole` stated", condition),))
    _refuse_smaller(member, hole, bolted, runs)
    text = f"its {table.holes} of {hole:g} mm are less than {names} drill at one cross-section"
    condition = f"{member}: no hole but those judged with {names}, and its own `hole`, weakens it"
    return Outcome(assumptions=(Assumption(member, text, condition),))


def holes_placed(member: str, part: FramePart) -> Outcome:
    """What is taken where an upright states a hole and not where it stands: off the middle it would weaken it more."""
    table = part.table
    if getattr(table, "hole", None) is None or "hole_offset" in table.model_fields_set:
        return Outcome()
    return Outcome(assumptions=(Assumption(member, "its holes stand on its middle line (`hole_offset` not stated)"),))


def _counted(joint: Any, part: FramePart, runs: str) -> bool:
    """Whether the holes that a member states are no less than a joint's at one cross-section."""
    walls, abreast = 1, 1
    if isinstance(joint, schema.PinTable) or (_is_lap(joint) and not joint.gusset):
        walls = 2 if form(part.section) in ("hollow", "tube", "box") else 1
    if _is_lap(joint) and not joint.gusset and joint.plate_runs in (None, runs):
        abreast = _abreast(joint, runs)
    drilled = part.table.hole * part.table.holes
    return part.table.hole >= _hole(joint) - SAME and drilled >= walls * abreast * _hole(joint) - SAME


def _is_lap(joint: Any) -> bool:
    """Bolts through faces in the frame's plane, which may be the beam's alone where a gusset joins them."""
    return isinstance(joint, schema.BoltsTable) and joint.joint == "lap"


def _hole(joint: Any) -> float:
    """How far a joint's hole reaches across the member."""
    if isinstance(joint, schema.PinTable):
        return joint.diameter + USUAL_CLEARANCE if joint.hole is None else joint.hole
    d, stated, slot = find_size(joint.size).d, getattr(joint, "hole", None), getattr(joint, "slot", None)
    if slot is not None and slot.endswith("across"):
        return joint.slot_length or longest_slot(d, slot)
    return d + normal_clearance(d) if stated is None else stated


def _abreast(joint: schema.BoltsTable, runs: str) -> int:
    """Most bolts side by side across a member."""
    if joint.layout is None:
        return (joint.columns if runs == "along" else joint.rows) or 1
    return max(Counter(round(spot[1 if runs == "along" else 0], 3) for spot in joint.layout).values())


def _refuse_smaller(member: str, hole: float, bolted: Sequence[Any], runs: str) -> None:
    for joint in bolted:
        through = not _is_lap(joint) or (joint.plate_runs == runs and not joint.gusset)
        if through and hole < _hole(joint) - SAME:
            fault = f'is smaller than the {_hole(joint):g} mm that "{joint.name}" drill through it'
            wanted = "the largest hole there is, or left out"
            place = "uprights" if member.endswith(" upright") else f'member "{member}"'
            raise InputError(Problem("hole", f"{hole:g} mm", fault, wanted, f'hole = "{_hole(joint):g} mm"', place))
