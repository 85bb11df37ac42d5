"""What carries beside members and joints: the beams under jack and work, foot, saddle, platen and guides."""

from functools import partial

import numpy as np

from structcheck.checks.introduction import FAR
from structcheck.maths import first_of_greatest
from structcheck.press.frame.envelope import Combination, case_of, governing
from structcheck.press.frame.order import Order
from structcheck.press.frame.solving import Ringed
from structcheck.press.frame.words import PlaceForce
from structcheck.press.frame_schema import FrameTables, Guides

M_Y = 4


def place_forces(
    found: Ringed, over: dict[str, float], tables: FrameTables, order: Order
) -> dict[str, tuple[PlaceForce, ...]]:
    answer = {
        "head/load": _under_load(found, "head", over["head"], order),
        "bed/load": _under_load(found, "bed", over["bed"], order),
    }
    foot = "bed" if tables.frame.jack_on == "bed" else "head"
    answer["jack foot"] = answer["saddle"] = _jack_rows(found, foot)
    answer["platen"] = _platen(found)
    if tables.guides and tables.guides.on != "ram":
        answer["guides"] = _guides(found, tables.guides)
    return answer


def _under_load(found: Ringed, beam: str, over: float, order: Order) -> tuple[PlaceForce, ...]:
    """Force on the beam and its moment there, for the web under the load."""
    straight = not any(order.bent.values())
    find = partial(_rows_under, found, beam, order)
    rows = found.once(("under load", beam, found.own.each), find) if straight else find()
    return tuple(
        PlaceForce(case_of(level, c), share * level.force, x, y, M * level.force, over)
        for level in found.levels
        for c, share, x, y, M in rows[level.central_only]
    )


_Under = tuple[Combination, float, float, float, float]
"""Combination, share, place along the beam and off its plane, and moment there, for one newton."""


def _rows_under(found: Ringed, beam: str, order: Order) -> dict[bool, list[_Under]]:
    """What can govern under the load, of all positions and of the central ones."""
    half = found.ring.span / 2
    moments = _moments_under(found, beam, order)
    part = getattr(found.ring, beam)
    room = FAR * max(part.depth, float(part.section.dimensions.get("h", 0.0)))
    rows: list[_Under] = []
    alike: dict[str, list[int]] = {}
    for number, combination in enumerate(found.combined):
        alike.setdefault(combination.position.name, []).append(number)
    for numbers in alike.values():
        for push in getattr(found.combined[numbers[0]].position, beam):
            # The states of one position differ in the moment alone: the largest outdoes the others.
            at = moments[push.x][numbers]
            worst = first_of_greatest(at)
            rows.append((found.combined[numbers[worst]], push.share, push.x, push.y, float(at[worst])))

    central = [row for row in rows if row[0].position.central]
    return {only: _outdone_by_none(some, room - half) for only, some in ((False, rows), (True, central))}


def _moments_under(found: Ringed, beam: str, order: Order) -> dict[float, np.ndarray]:
    """Size of the beam's moment per N in every combination, at each place where a force may stand, from the middle."""
    lines, half = found.base.lines, found.ring.span / 2
    weight = np.array([found.own.moment(c.state, beam) for c in found.combined])
    xs = list({push.x: None for position in found.positions for push in getattr(position, beam)})
    sizes = np.abs(lines.around(M_Y, beam, half + np.array(xs)) @ found.factors).max(axis=0) + weight
    moments = dict(zip(xs, sizes, strict=True))
    for x in xs if any(order.bent.values()) else ():
        for bent, moment in order.moments(beam, half + x):
            moments[x][bent] = max(moments[x][bent], moment)
    return moments


def _outdone_by_none(rows: list[_Under], short: float) -> list[_Under]:
    """Rows no other outdoes: in force, way off the plane, moment, and how near a beam's end it stands.

    short  how much nearer to the end than the middle is a force that its nearness hurts, mm
    """
    if not rows:
        return []
    values = np.array([(share, abs(y), M, max(0.0, short + abs(x))) for _, share, x, y, M in rows])
    return [rows[number] for number in governing(values, signed=())]


def _jack_rows(found: Ringed, foot: str) -> tuple[PlaceForce, ...]:
    """Force of one jack, and how far the line of its force stands from the jack's own middle."""
    answer = []
    for level in found.levels:
        for position in found.positions:
            if level.central_only and not position.central:
                continue
            couple = "couple" in position.name
            for push in getattr(position, foot):
                x, y = (push.x, push.y) if couple else (0.0, 0.0)
                case = case_of(level, Combination(position, "", np.zeros(0)))
                answer.append(PlaceForce(case, push.share / position.taken * level.force, x, y))
    return tuple(dict.fromkeys(answer))


def _platen(found: Ringed) -> tuple[PlaceForce, ...]:
    """The whole force, and where the work pushes back."""
    rows = []
    for position in found.positions:
        if position.head:
            total = position.total
            x = sum(push.share * push.x for push in position.head) / total
            y = position.across + sum(push.share * push.y for push in position.head) / total
            # Where every plane has its own jack, the platen takes those of all planes.
            whole = total * found.ring.planes if position.taken == 1.0 else total / position.taken
            rows.append((Combination(position, "", np.zeros(0)), whole, x, y))
    return tuple(
        PlaceForce(case_of(level, c), whole * level.force, x, y)
        for level in found.levels
        for c, whole, x, y in rows
        if c.position.central or not level.central_only
    )


def _guides(found: Ringed, guides: Guides) -> tuple[PlaceForce, ...]:
    """On the guides of one side: the force at each end of their length, and the couple they take."""
    answer = []
    for level in found.levels[:2]:
        for position in found.positions:
            about_y, about_x = position.couple
            if not (about_y or about_x):
                continue
            couple = np.hypot(about_y, about_x) * level.force / 2
            lever = guides.length if guides.on == "uprights" else found.ring.height
            force = couple / lever if lever else 0.0
            case = case_of(level, Combination(position, "", np.zeros(0)))
            answer.append(PlaceForce(case, float(force), moment=float(couple)))
    return tuple(answer)
