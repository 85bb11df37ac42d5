"""What the tables of one lap say of each other and of its members: the same bolts, how often cut, how far off line."""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from structcheck.analysis.bolt_group import grid
from structcheck.checks.bolts_group import EAST, NORTH, SOUTH, WEST
from structcheck.checks.member_forms import form
from structcheck.findings import Assumption, Outcome
from structcheck.press import schema
from structcheck.press.bolt_seats import ROUNDED, seats_at
from structcheck.press.frame.demands import FrameAnswer
from structcheck.press.frame.words import FramePart
from structcheck.press.meetings import is_turned, upright_at
from structcheck.press.parts import Setting, bolt_group

Companions = Sequence[schema.BoltsTable]


def other_plates(table: schema.BoltsTable, companions: Companions) -> Outcome:
    """A condition where only one of the plates that a lap joins is described at its places, for the same bolts."""
    places = {place for other in companions if _is_another(other, table) for place in other.at or ()}
    if table.joint != "lap" or places.issuperset(table.at or ()):
        return Outcome()
    condition = f"the plates on the other side of {table.name} are no weaker than the {table.plate:g} mm described"
    text = (
        "one plate of the joint is described: give the other a [[bolts]] table of the same bolts at the same places "
        f"({condition})"
    )
    return Outcome(assumptions=(Assumption(table.name, text, condition),))


def companions_of(table: schema.BoltsTable, setting: Setting) -> Companions:
    """Other tables of the same bolts at one of its places."""
    places = set(table.at or ())
    laps = [other for other in (setting.press.bolts if setting.press else ()) if other.joint == "lap"]
    return [o for o in laps if o is not table and not places.isdisjoint(o.at or ()) and _same_bolts(o, table)]


def _same_bolts(one: schema.BoltsTable, other: schema.BoltsTable) -> bool:
    alike = (one.size, one.bolt_class, one.planes) == (other.size, other.bolt_class, other.planes)
    return alike and _same_spots(_placed(one), _placed(other))


Placed = tuple[tuple[tuple[float, float], ...] | None, int, int, float, float]


def _placed(table: schema.BoltsTable) -> Placed:
    """What says where the bolts stand."""
    layout = None if table.layout is None else tuple((x, y) for x, y in table.layout)
    return layout, table.rows or 1, table.columns or 1, table.pitch or 0.0, table.gauge or 0.0


def _same_spots(one: Placed, other: Placed) -> bool:
    if one == other:
        return True
    spots, others = _spots(*one), _spots(*other)
    return spots.shape == others.shape and bool(np.allclose(spots, others, atol=ROUNDED))


@lru_cache(maxsize=64)
def _spots(
    layout: tuple[tuple[float, float], ...] | None, rows: int, columns: int, pitch: float, gauge: float
) -> np.ndarray:
    """Where the bolts stand about their middle, in a settled order."""
    if layout is None:
        spots = grid(rows, columns, pitch, gauge)
    else:
        spots = np.array(layout, dtype=float)
        spots = spots - spots.mean(axis=0)
    return spots[np.lexsort(np.round(spots, 1).T)]


def _is_another(other: schema.BoltsTable, table: schema.BoltsTable) -> bool:
    """Whether two tables at a place can be of two plates: gussets stand on a member, and a member is no two plates."""
    if other.gusset or table.gusset:
        return other.gusset != table.gusset
    return other.plate_runs is None or other.plate_runs != table.plate_runs


def planes_met(table: schema.BoltsTable, answer: FrameAnswer, companions: Companions) -> Outcome:
    """A condition where the bolts are said to be cut more often than the members at a place meet."""
    if table.joint != "lap" or table.gusset or any(other.gusset for other in companions):
        return Outcome()
    for place in table.at or ():
        pair = [answer.members.get(name) for name in (place.split("/")[0], upright_at(place))]
        plies = [_plies(part) for part in pair if part is not None]
        if len(plies) < 2 or None in plies or table.planes < sum(plies):
            continue
        condition = (
            f"the bolts of {table.name} are cut {table.planes} times each, though the members of {place} meet in "
            f"{sum(plies) - 1} planes at most"
        )
        return Outcome(assumptions=(Assumption(table.name, condition, condition),))
    return Outcome()


def _plies(part: FramePart) -> int | None:
    """Plates that a bolt through a member in the frame's plane goes through; None where the form does not tell."""
    kind = form(part.section)
    walls = {"i": 1, "channel": 1, "angle": 1, "rectangle": 1, "round": 1, "hollow": 2, "tube": 2, "box": 2}.get(kind)
    if walls is None:
        return None
    return part.pieces * (2 if is_turned(part) and kind in ("i", "channel") else walls)


def off_line(
    table: schema.BoltsTable, answer: FrameAnswer, setting: Setting, companions: Companions
) -> tuple[float, float]:
    """How far the bolts stand off the middle of the upright (x) and of the beam (y), by the edges stated on them."""
    off = [0.0, 0.0]
    if table.joint != "lap" or table.gusset:
        return 0.0, 0.0
    for one in (table, *companions):
        if one.gusset or not _has_sides(one):
            continue
        outline = bolt_group(one, setting).outline
        for seats in seats_at(one, answer):
            for seat in seats:
                axis, before, beyond = (0, WEST, EAST) if seat.runs == "along" else (1, SOUTH, NORTH)
                low, high = outline[before], outline[beyond]
                if low is not None and high is not None and low + high <= seat.width + ROUNDED:
                    off[axis] = max(off[axis], abs(high - low) / 2)
    return off[0], off[1]


def _has_sides(table: schema.BoltsTable) -> bool:
    """Whether the group may stand off the middle of its plate."""
    return table.layout is not None or table.far_edge is not None or table.far_end is not None


def off_line_said(table: schema.BoltsTable, off: tuple[float, float]) -> Outcome:
    """What the offsets are taken for."""
    names = (("upright", off[0]), ("beam", off[1]))
    texts = [f"{value:.4g} mm off the middle of the {name}" for name, value in names if value > ROUNDED]
    if not texts:
        return Outcome()
    text = f"by its edges the group stands {' and '.join(texts)}: the force counts as beside it"
    return Outcome(assumptions=(Assumption(table.name, text),))
