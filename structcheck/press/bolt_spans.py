"""Bolts at a corner that go through a tube: they span its hollow and bend like pins, unless a sleeve fills it."""

import math
from dataclasses import replace
from typing import Any

from structcheck.checks.bolts_group import BoltGroup
from structcheck.checks.member_forms import form
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Outcome
from structcheck.press import schema
from structcheck.press.bolt_seats import ROUNDED, TUBES, Seat, both_seats_at
from structcheck.press.frame.demands import FrameAnswer


def spanned(table: schema.BoltsTable, group: BoltGroup, answer: FrameAnswer) -> tuple[BoltGroup, Outcome]:
    """The group with the plies and gaps that the frame shows, and what rests on them.

    Raises InputError where a sleeve is stated beside an open gap, or where there is no tube.
    """
    pairs = [seats for seats in both_seats_at(table, answer) if any(_is_tube(seat) for seat in seats)]
    if table.sleeve and (group.gap or group.hollow):
        raise InputError(Problem("sleeve", "true", "stands beside an open gap", "one of the two"))
    if table.sleeve and not pairs:
        raise InputError(Problem("sleeve", "true", "means nothing: no tube stands at its places", "left out"))
    if table.joint != "lap" or table.gusset or table.sleeve:
        return group, Outcome()
    if not pairs:
        return group, Outcome()
    clamped = Outcome() if table.category == "A" else _conditional(table, _sleeve(table, pairs))
    if group.planes == 1:
        return group, clamped
    known = [_plies(seats) for seats in pairs]
    if group.gap is not None or group.hollow is not None:
        open_ = max((_open(one["gap"], one["hollow"]) for one in known if one is not None), default=math.inf)
        if _open(group.gap, group.hollow) >= open_ - ROUNDED:
            return group, clamped
        text = f"the bolts of {table.name} span no more than the gaps stated, though {open_:.4g} mm stand open"
        return group, _conditional(table, text) + clamped
    if None in known:
        return group, _conditional(table, _sleeve(table, pairs))
    plies = max((one for one in known if one is not None), key=_lever)
    text = (
        f"its bolts go through a tube with nothing inside (outer plates {plies['outer']:.4g} mm, inner "
        f"{plies['inner']:.4g} mm, gaps {plies['gap']:.4g} mm); sleeve = true where one fills it"
    )
    return replace(group, **plies), Outcome(assumptions=(Assumption(table.name, text),)) + clamped


def _open(gap: float | None, hollow: float | None) -> float:
    """What a bolt spans between its plates."""
    return 2 * (gap or 0.0) + (hollow or 0.0)


def _is_tube(seat: Seat) -> bool:
    return form(seat.part.section) in TUBES


def _plies(seats: list[Seat]) -> dict[str, Any] | None:
    """A tube between two pieces of the other member, or round its only one; None for anything else."""
    tubes, others = [s for s in seats if _is_tube(s)], [s for s in seats if not _is_tube(s)]
    if len(tubes) != 1 or len(others) != 1 or tubes[0].part.pieces != 1:
        return None
    (tube,), (other,) = tubes, others
    if other.part.pieces == 2:
        return {"outer": other.wall(), "inner": 2 * tube.wall(), "gap": 0.0, "hollow": tube.inside}
    inner = other.walls(0.0)
    if other.part.pieces != 1 or inner > tube.inside:
        return None
    return {"outer": tube.wall(), "inner": inner, "gap": (tube.inside - inner) / 2, "hollow": None}


def _lever(plies: dict[str, Any]) -> float:
    """What bends the bolt (EN 1993-1-8 figure 3.11)."""
    return plies["inner"] + 4 * plies["gap"] + 2 * plies["outer"]


def _sleeve(table: schema.BoltsTable, pairs: list[list[Seat]]) -> str:
    names = sorted({seat.part.section.designation for seats in pairs for seat in seats if _is_tube(seat)})
    return f"a sleeve stands in the {' and '.join(names)} round each bolt of {table.name}; say so by sleeve = true"


def _conditional(table: schema.BoltsTable, condition: str) -> Outcome:
    return Outcome(assumptions=(Assumption(table.name, condition, condition),))
