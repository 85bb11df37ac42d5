"""What carries beside members and joints: the beams under jack and work, foot, saddle, platen and guides."""

import numpy as np

from structcheck.checks.introduction import FAR
from structcheck.press.frame.envelope import Combination, case_of, governing
from structcheck.press.frame.order import Order
from structcheck.press.frame.solving import Ringed
from structcheck.press.frame.words import PlaceForce
from structcheck.press.frame_schema import FrameTables, Guides


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
    half = found.ring.span / 2
    moments = _moments_under(found, beam, order)
    part = getattr(found.ring, beam)
    room = FAR * max(part.depth, float(part.section.dimensions.get("h", 0.0)))
    rows: list[tuple[Combination, float, float, float, float]] = []
    alike: dict[str, list[int]] = {}
    for number, combination in enumerate(found.combined):
        alike.setdefault(combination.position.name, []).append(number)
    for numbers in alike.values():
        for push in getattr(found.combined[numbers[0]].position, beam):
            # The states of one position differ in the moment alone: the largest outdoes the others.
            at = moments[push.x][numbers]
            worst = int(at.argmax())
            rows.append((found.combined[numbers[worst]], push.share, push.x, push.y, float(at[worst])))

    def make(case, level: float, share: float, x: float, y: float, M: float) -> PlaceForce:
        return PlaceForce(case, share * level, x, y, M * level, over)

    return _kept(found, rows, make, lambda x: max(0.0, room - half + abs(x)))


def _moments_under(found: Ringed, beam: str, order: Order) -> dict[float, np.ndarray]:
    """Size of the beam's moment per N in every combination, at each place where a force may stand, from the middle."""
    lines, half = found.base.lines, found.ring.span / 2
    weight = np.array([found.own.moment(c.state, beam) for c in found.combined])
    moments = {}
    for x in {push.x for position in found.positions for push in getattr(position, beam)}:
        sides = [np.abs(lines.at(beam, half + x, side)[4] @ found.factors) for side in ("left", "right")]
        moments[x] = np.maximum(*sides) + weight
        for bent, moment in order.moments(beam, half + x):
            moments[x][bent] = max(moments[x][bent], moment)
    return moments


def _kept(found: Ringed, rows, make, near) -> tuple[PlaceForce, ...]:
    """Rows no other outdoes: in force, way off the plane, moment, and how near a beam's end it stands."""
    answer: list[PlaceForce] = []
    for level in found.levels:
        used = [row for row in rows if row[0].position.central or not level.central_only]
        if not used:
            continue
        values = np.array([(row[1], abs(row[3]), row[4], near(row[2])) for row in used])
        for number in governing(values, signed=()):
            answer.append(make(case_of(level, used[number][0]), level.force, *used[number][1:]))
    return tuple(answer)


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
    answer = []
    for level in found.levels:
        for position in found.positions:
            if level.central_only and not position.central:
                continue
            total = position.total
            if not position.head:
                continue
            x = sum(push.share * push.x for push in position.head) / total
            y = sum(push.share * push.y for push in position.head) / total
            case = case_of(level, Combination(position, "", np.zeros(0)))
            # Where every plane has its own jack, the platen takes those of all planes.
            whole = total * found.ring.planes if position.taken == 1.0 else total / position.taken
            answer.append(PlaceForce(case, whole * level.force, x, y))
    return tuple(answer)


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
