"""What the joints at a member's ends do to the member itself: a weld sets its fatigue, a bolt takes its hole."""

from collections.abc import Sequence
from typing import Any

from structcheck.checks.basis import Basis
from structcheck.checks.member_fatigue import UNKNOWN, check_member_fatigue
from structcheck.checks.member_stress import Station, greatest_stress
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, Outcome, not_checked
from structcheck.press import schema
from structcheck.press.frame.words import EndForces, FramePart

WELDED = ("weld", "weld_group", "butt", "tube_joint", "plate_on_flange")


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
    """The fatigue detail of an upright: as stated, else the lowest where a joint is welded to it."""
    return UNKNOWN if _unsaid_welds(name, part, press) else getattr(part.table, "detail", None)


def _unsaid_welds(name: str, part: FramePart, press: schema.PressFile) -> str:
    if getattr(part.table, "detail", None) is not None:
        return ""
    return ", ".join(dict.fromkeys(table.name for table in standing_on(name, press, WELDED)))


def holes_unsaid(member: str, table: Any, press: schema.PressFile) -> Outcome:
    """A condition where bolts stand at an upright's ends and no hole of it is stated."""
    bolted = standing_on(member, press, ("bolts", "end_plate"))
    if not bolted or getattr(table, "hole", None) is not None:
        return Outcome()
    names = ", ".join(dict.fromkeys(joint.name for joint in bolted))
    condition = f"{member}: no hole but those judged with {names} weakens it; state `hole` and `holes` if one does"
    return Outcome(assumptions=(Assumption(member, f"bolted ({names}) and no `hole` stated", condition),))
