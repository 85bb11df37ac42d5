"""A frame given as nodes and members, as it was understood: to scale, each member in the hue of its highest use."""

import textwrap
from itertools import pairwise

import numpy as np
from matplotlib.patches import Circle, Polygon

from structcheck.findings import Result
from structcheck.press.frame.members_model import Model, joint_states
from structcheck.press.frame.members_solved import SolvedMembers
from structcheck.press.frame.understood import Part
from structcheck.press.frame_schema import MemberTable
from structcheck.report.figures import FAINT, INK, PAPER, WASH, Figure, drawing, fill, finished
from structcheck.report.figures_marks import Point, arrow, measure, measure_up
from structcheck.report.figures_sheet import Sheet
from structcheck.report.figures_skeleton import Axis, JointState, Skeleton
from structcheck.report.figures_uses import Uses, uses_of

WIDE, TALL = 2.2, 3.4
"""Most the nodes themselves take on the paper, inches."""

LEFT, RIGHT, ABOVE, BELOW = 0.95, 1.3, 1.05, 1.15
"""Room round them, inches."""

OBLIQUE = np.array([[1.0, 0.42, 0.0], [0.0, 0.26, 1.0]])
"""x to the right, z up, y slanting away: for frames that lie in no plane."""

MOST = 6
"""Dimensions in one chain; with more of them only the whole is given."""


def view_of(model: Model) -> tuple[np.ndarray, str]:
    """The two rows that turn places in space into places on paper, and the words for it."""
    places = np.array([(n.x, n.y, n.z) for n in model.tables.node])
    spread = np.ptp(places, axis=0)
    flat = int(np.argmin(spread))
    if spread[flat] > 1e-6 * spread.max():
        return OBLIQUE, "seen slantwise, y running up to the right"
    if flat == 1:
        return np.eye(3)[[0, 2]], "x to the right, z up"
    return (np.eye(3)[[1, 2]], "y to the right, z up") if flat == 0 else (np.eye(3)[[0, 1]], "x to the right, y up")


def nodes_skeleton(found: SolvedMembers) -> Skeleton:
    """The members as lines, in every state of their joints."""
    model = found.model
    view, _ = view_of(model)
    places = {n.name: view @ np.array([n.x, n.y, n.z]) for n in model.tables.node}
    local = found.states[0].result.structure.axes
    axes = {}
    for number, row in enumerate(model.tables.member):
        along, y, z = (view @ axis for axis in local[number])
        seen = [abs(along[0] * up[1] - along[1] * up[0]) for up in (z, y)]
        up, across = (z, "z") if seen[0] >= seen[1] - 1e-9 else (y, "y")
        axes[row.name] = Axis(_pair(places[row.start]), _pair(along), _pair(up), model.lengths[row.name], across)
    joints = dict(joint_states(model.tables.member))
    states = []
    for state in found.states:
        case = model.positions[0].name
        factors = np.array([float(name == case) for name in state.result.cases])
        loose = tuple(_near(axes[member], end) for (member, end), how in joints[state.name].items() if how == 0.0)
        states.append(JointState(state.name, state.result, factors, loose))
    return Skeleton(axes, tuple(states))


def _pair(values: np.ndarray) -> Point:
    return float(values[0]), float(values[1])


def _near(line: Axis, end: str) -> Point:
    """Just inside one end of a member, so that several that meet at a node can be told apart."""
    x, y = line.at(np.array(line.length * (0.05 if end == "start" else 0.95)))
    return float(x), float(y)


def nodes_figure(found: SolvedMembers, frame: Skeleton, result: Result) -> Figure:
    """The frame to scale, each member in the hue of its highest use with the number beside it."""
    model, uses = found.model, uses_of(result)
    view, seen = view_of(model)
    places = {n.name: _pair(view @ np.array([n.x, n.y, n.z])) for n in model.tables.node}
    left, right, low, high = frame.box
    scale = min(WIDE / max(right - left, 1.0), TALL / max(high - low, 1.0))
    wide, tall = (right - left) * scale + LEFT + RIGHT, (high - low) * scale + ABOVE + BELOW
    box = (left - LEFT / scale, right + RIGHT / scale, low - BELOW / scale, high + ABOVE / scale)
    with drawing(wide, tall, font=11) as canvas:
        sheet = Sheet(canvas, box)
        for name, line in frame.axes.items():
            _member(sheet, line, model.parts[name], uses.get(name))
            _tell(sheet, name, line, model.parts[name], uses, frame)
        for _, start, end in model.pushes:
            _jack(sheet, _pair(view @ start.xyz), _pair(view @ end.xyz))
        for support in model.tables.support:
            _support(sheet, places[support.node])
        middle = ((left + right) / 2, (low + high) / 2)
        for name, spot in places.items():
            sheet.add_patch(Circle(spot, 0.05 / scale, facecolor=PAPER, edgecolor=INK, zorder=6))
            # Names of nodes stand within the frame, those of members outside.
            way = (-1 if spot[0] > middle[0] else 1, -1 if spot[1] > middle[1] else 1)
            met = [_half(model, row) for row in model.tables.member if name in (row.start, row.end)]
            clear = 4 + 72 * scale * max(met, default=0.0)
            beside = (clear * way[0], clear * way[1])
            if any(support.node == name for support in model.tables.support):
                way, beside = (way[0], 0), (12 * way[0], -8)
            side, stands = "left" if way[0] > 0 else "right", {1: "bottom", 0: "center", -1: "top"}[way[1]]
            sheet.annotate(name, spot, beside, ha=side, va=stands, color=FAINT)
        if view is not OBLIQUE:
            _measures(sheet, list(places.values()), frame)
        listed = ", ".join(f"{name} {uses[name][1]}" for name in frame.axes if name in uses)
        words = f"Frame of {len(places)} nodes and {len(frame.axes)} members. Highest use of each member: {listed}."
        caption = (
            f"To scale, in mm, from what the file says ({seen}): look for slips of the pen. A member is shaded by its "
            "highest use, hatched above 1; the number beside it is that use. Triangles: held to the ground."
        )
        return finished(canvas, "figure-frame", words, caption)


def _member(sheet: Sheet, line: Axis, part: Part, use: tuple[float | None, str] | None) -> None:
    low, high = part.low, part.high
    if line.across == "y":
        edges = [abs(edge) for edge in part.section.edges]
        low, high = edges[2:] if part.turned else edges[:2]
    x, z = np.array([0.0, line.length, line.length, 0.0]), np.array([-low, -low, high, high])
    look = fill(use[0]) if use else {"facecolor": WASH, "edgecolor": INK}
    sheet.add_patch(Polygon(np.column_stack(line.at(x, z)), closed=True, linewidth=1.2, zorder=2, **look))
    sheet.plot(*line.at(x[:2]), color=INK, linewidth=0.6, linestyle=(0, (8, 3, 2, 3)), zorder=5)


def _half(model: Model, row: MemberTable) -> float:
    part = model.parts[row.name]
    return max(part.low, part.high)


def _tell(sheet: Sheet, name: str, line: Axis, part: Part, uses: Uses, frame: Skeleton) -> None:
    """Name and use beside a member, on its side away from the middle of the frame."""
    left, right, low, high = frame.box
    x, y = (float(v) for v in line.at(np.array(line.length / 2)))
    normal = np.array([-line.along[1], line.along[0]]) / max(np.hypot(*line.along), 1e-9)
    away = np.array([x - (left + right) / 2, y - (low + high) / 2])
    way = normal if normal @ away >= -1e-9 else -normal
    across = abs(way[0]) > 0.5
    room = 11 if across else max(8, int(line.length * sheet.scale / 0.1))
    text = "\n".join([*textwrap.wrap(name, room), uses[name][1] if name in uses else "not judged"])
    ha = ("left" if way[0] > 0 else "right") if across else "center"
    va = "center" if across else "bottom" if way[1] > 0 else "top"
    clear = 72 * sheet.scale * max(part.low, part.high) + 5  # points
    sheet.annotate(text, (x, y), tuple(clear * way), ha=ha, va=va,
                   fontweight="bold", zorder=7)  # fmt: skip


def _jack(sheet: Sheet, start: Point, end: Point) -> None:
    """The jack between two nodes: forces that push them apart."""
    a, b = np.array(start), np.array(end)
    sheet.plot([a[0], b[0]], [a[1], b[1]], color=FAINT, linewidth=0.8, linestyle=(0, (1.5, 3)), zorder=1)
    middle = (a + b) / 2
    for spot in (a, b):
        arrow(sheet, _pair(middle + 0.18 * (spot - middle)), _pair(middle + 0.82 * (spot - middle)), bold=True)
    sheet.annotate("jack", _pair(middle), (8, 0), va="center", ha="left", color=FAINT)


def _support(sheet: Sheet, spot: Point) -> None:
    size = 0.13 / sheet.scale
    corners = [(spot[0], spot[1]), (spot[0] - size, spot[1] - 1.5 * size), (spot[0] + size, spot[1] - 1.5 * size)]
    sheet.add_patch(Polygon(corners, closed=True, facecolor=PAPER, edgecolor=INK, linewidth=1.2, zorder=4))


def _measures(sheet: Sheet, places: list[Point], frame: Skeleton) -> None:
    """Chains of distances between the nodes, along the paper's width and up its side."""
    _, right, low, _ = frame.box
    level, beside = low - 0.85 / sheet.scale, right + 1.0 / sheet.scale
    for a, b in _steps([x for x, _ in places], 0.4 / sheet.scale):
        measure(sheet, (a, level), (b, level), f"{b - a:.5g}")
    for a, b in _steps([y for _, y in places], 0.4 / sheet.scale):
        measure_up(sheet, beside, a, b, f"{b - a:.5g}")


def _steps(values: list[float], least: float) -> list[tuple[float, float]]:
    """Neighbouring places, or the whole where they are many or too near each other for a figure."""
    found = sorted({round(value, 3) for value in values})
    steps = list(pairwise(found))
    crowded = len(steps) > MOST or any(b - a < least for a, b in steps)
    return [(found[0], found[-1])] if crowded and len(found) > 1 else steps
