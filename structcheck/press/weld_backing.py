"""What a weld at a place pulls and presses on behind its face: a wall that bends away bears far less than the weld."""

from collections.abc import Iterator, Sequence
from typing import Any

from structcheck.checks.member_forms import form
from structcheck.findings import Assumption, Finding, Outcome, not_checked
from structcheck.press.frame.words import FramePart
from structcheck.press.meetings import Meeting, is_turned
from structcheck.press.setting import Setting

CHECK = "wall behind the weld"


def backing(table: Any, met: Sequence[Meeting], setting: Setting) -> Outcome:
    """Not checked, for a weld of a beam's end to the face of an upright whose wall nothing else judges.

    An end plate between them is what the weld stands on; its own table, or that of its bolts, answers for the wall.
    """
    open_places = [m for m in met if m.place not in _answered(setting)]
    found = list(dict.fromkeys(_unjudged(table.name, open_places)))
    outcome = Outcome(tuple(found[:1]))
    if any(m.upright is None for m in open_places):
        condition = f"what {table.name} is welded to does not bend away under it"
        text = f"the member behind is not known in a frame of members ({condition}; a tube's wall: [[tube_joint]])"
        outcome += Outcome(assumptions=(Assumption(table.name, text, condition),))
    return outcome


def _answered(setting: Setting) -> set[str]:
    """Places where another table judges the wall, or has a plate between."""
    press = setting.press
    if press is None:
        return set()
    tables = [*press.end_plate, *press.tube_joint, *(bolts for bolts in press.bolts if bolts.joint == "end plate")]
    return {place for table in tables for place in table.at or ()}


def _unjudged(name: str, met: Sequence[Meeting]) -> Iterator[Finding]:
    for m in met:
        reason = None if m.upright is None else _open(m.upright, m.place)
        if reason:
            yield not_checked(name, CHECK, reason, source="EN 1993-1-8:2005 4.10, 6.2.6, 7.5")


def _open(upright: FramePart, place: str) -> str:
    """Why the face of this upright is not judged, or nothing for a solid bar, which bends as the member itself."""
    kind, what = form(upright.section), upright.section.designation
    if kind in ("rectangle", "round"):
        return ""
    if kind in ("hollow", "tube"):
        remedy = f"describe a [[tube_joint]] at {place}, or an end plate between them"
        return f"the wall of {what} bends away under the weld and bears less than it: {remedy}"
    if kind == "i" and not is_turned(upright):
        return (
            f"flange and web of {what} behind the weld are judged for bolted end plates only: describe one, "
            "or stiffen the web in line with both of the beam's flanges and ask an engineer (EN 1993-1-8 6.2.6)"
        )
    return f"the face of {what} that the weld stands on is not judged: ask an engineer, or weld to a solid bar"
