"""How a frame moves and what runs in it under the central rated force, in the states its joints may be in."""

import textwrap
from collections.abc import Iterator, Mapping
from typing import Any

import numpy as np
from matplotlib.patches import Circle

from structcheck.report.figures import FAINT, HUES, INK, PAPER, Figure, Panel, drawing, finished
from structcheck.report.figures_marks import headed
from structcheck.report.figures_sheet import Sheet
from structcheck.report.figures_skeleton import Axis, JointState, Skeleton

Diagram = tuple[np.ndarray, np.ndarray]
"""Places along a member and the values there."""

QUANTITIES = (("N", "axial force", "kN", 1e3), ("V", "shear", "kN", 1e3), ("M", "moment", "kN m", 1e6))

WIDE = 2.7
"""Width of a small figure, inches."""

SHAPE, KEY, LETTERS = (3.9, 3.7), 0.26, 36
"""Most the deflected shape takes, and a line of the key below it, inches; letters of such a line."""

LEAST = 14.0
"""Width below which a small figure does not shrink, rem: its letters of 10 points stay over 11 pixels."""

HAIR = 1e-9
"""Share of the force below which a diagram is nothing but rounding."""


def lines_figures(frame: Skeleton, rated: float) -> Iterator[Figure | Panel]:
    """The deflected shape and the internal forces."""
    yield deflected(frame, rated)
    yield diagrams(frame, rated)


def states_figures(frame: Skeleton, rated: float) -> Iterator[Panel]:
    """The moments in every state of the joints, where there are several."""
    if len(frame.states) > 1:
        yield joint_states(frame, rated)


def _two(frame: Skeleton) -> tuple[JointState, ...]:
    """The stiffest and the loosest state."""
    return frame.states if len(frame.states) == 1 else (frame.states[0], frame.states[-1])


# ---- how it moves ----------------------------------------------------------------------------


def deflected(frame: Skeleton, rated: float) -> Figure:
    """The frame's shape under the central rated force, movements drawn larger."""
    shapes = {state.name: {name: frame.moved(name, state) for name in frame.axes} for state in _two(frame)}
    most = {
        state: rated * max(float(np.hypot(*moved).max()) for _, moved in one.values()) for state, one in shapes.items()
    }
    times = round_down(0.12 * frame.size / max(max(most.values()), 1e-9))
    wide, tall = SHAPE[0], min(SHAPE[0] * _tall(frame), SHAPE[1])
    keys = [textwrap.wrap(f"{state}: at most {value:.3g} mm", LETTERS) for state, value in most.items()]
    below = KEY * sum(map(len, keys))
    with drawing(wide, tall + below, font=11) as canvas:
        sheet = _paper(canvas, frame, room=0.16, below=below / (tall + below))
        for line in frame.axes.values():
            sheet.plot(*line.at(np.array([0.0, line.length])), color=FAINT, linewidth=1.0, linestyle=(0, (4, 3)))
        for number, members in enumerate(shapes.values()):
            colour, width = (INK, 2.2) if number == 0 else (HUES[3], 2.2)
            for name, line in frame.axes.items():
                x, moved = members[name]
                sheet.plot(
                    *line.at(x + times * rated * moved[0], times * rated * moved[1]), color=colour, linewidth=width
                )
            _key(canvas, below - KEY * (0.5 + sum(map(len, keys[:number]))), keys[number], colour)
        listed = "; ".join(f"{state}, at most {value:.3g} mm" for state, value in most.items())
        words = f"Deflected shape under the central rated force, drawn {times:g} times larger: {listed}."
        caption = f"Rated force in the middle. Movements are drawn {times:g} times larger; dashed: unloaded."
        return finished(canvas, "figure-moved", words, caption)


def _key(canvas: Any, height: float, lines: list[str], colour: str) -> None:
    """What one of the shapes is, below the drawing."""
    wide, tall = canvas.get_size_inches()
    sheet = Sheet(canvas, (0.0, wide, 0.0, tall))
    sheet.plot([0.15, 0.5], [height, height], color=colour, linewidth=2.2)
    for number, line in enumerate(lines):
        sheet.text(0.6, height - number * KEY, line, va="center")


def _tall(frame: Skeleton) -> float:
    left, right, low, high = frame.box
    return min(1.6, max(0.5, (high - low) / max(right - left, 1e-9)))


def round_down(value: float) -> float:
    """To 1, 2 or 5 times a power of ten."""
    power = 10.0 ** np.floor(np.log10(value))
    return float(power * max(step for step in (1, 2, 5) if step * power <= value * (1 + 1e-9)))


def _paper(canvas: Any, frame: Skeleton, *, room: float, title: str = "", below: float = 0.0) -> Sheet:
    """A sheet that holds the frame and `room` times its smaller side round it, below a title and above a key."""
    left, right, low, high = frame.box
    side = room * frame.size
    above = 0.0
    if title:
        headed(canvas, title)
        above = 0.1
    box = (left - side, right + side, low - side, high + side)
    return Sheet(canvas, box, (0.0, below, 1.0, 1.0 - above - below))


# ---- what runs in it -------------------------------------------------------------------------


def diagrams(frame: Skeleton, rated: float) -> Panel:
    """Axial force, shear and moment; filled for the first state, a line for the last."""
    states = _two(frame)
    figures = []
    for quantity, name, unit, size in QUANTITIES:
        with drawing(WIDE, WIDE * _tall(frame) + 0.3) as canvas:
            sheet = _paper(canvas, frame, room=0.36, title=f"{name}, {unit}")
            tops = [_diagram(sheet, frame, quantity, s, rated / size, filled=s is states[0]) for s in states]
            said = ", ".join(f"{top:.4g} {unit} ({s.name})" for top, s in zip(tops, states, strict=True))
            words = f"Greatest {name} under the central rated force: {said}."
            figures.append(finished(canvas, f"figure-{name.replace(' ', '-')}", words))
    other = f"; the line: {states[-1].name}" if len(states) > 1 else ""
    caption = f"Rated force in the middle. Filled: {states[0].name}{other}. Moments on the side in tension."
    return Panel(tuple(figures), caption, LEAST)


def joint_states(frame: Skeleton, rated: float) -> Panel:
    """Moments in every state the joints may be in."""
    figures = []
    for number, state in enumerate(frame.states):
        title = "\n".join(textwrap.wrap(state.name, 24))
        with drawing(WIDE, WIDE * _tall(frame) + 0.4) as canvas:
            sheet = _paper(canvas, frame, room=0.3, title=title)
            most = _diagram(sheet, frame, "M", state, rated / 1e6, filled=True)
            for spot in state.loose:
                sheet.add_patch(
                    Circle(spot, 0.05 / sheet.scale, facecolor=PAPER, edgecolor=INK, linewidth=1.6, zorder=7)
                )
            words = f"{state.name}: greatest moment {most:.3g} kN m under the central rated force."
            figures.append(finished(canvas, f"figure-corners-{number}", words))
    caption = (
        "How stiff the corners are is not known, so each part takes the worst of these states. Moments in kN m, rated "
        "force in the middle; an open circle is a corner that turns freely."
    )
    return Panel(tuple(figures), caption, LEAST)


def _diagram(sheet: Sheet, frame: Skeleton, quantity: str, state: JointState, times: float, *, filled: bool) -> float:
    """One quantity along every member, drawn off its centre-line; returns the greatest value."""
    found = {name: frame.diagram(quantity, name, state) for name in frame.axes}
    most = max(float(np.abs(y).max()) for _, y in found.values())
    least = HAIR * (frame.size if quantity == "M" else 1.0)
    scale = 0.2 * frame.size / most if most > least else 0.0
    # A positive moment has tension at the bottom of a beam and on the outer face of an upright: along -z.
    side = -1.0 if quantity == "M" else 1.0
    for name, line in frame.axes.items():
        x, y = found[name]
        # Closed at both ends, so that what ends with a step is seen to end.
        near, far = line.at(x[[0, -1]]), line.at(x, side * scale * y)
        edge = np.r_[near[0][0], far[0], near[0][1]], np.r_[near[1][0], far[1], near[1][1]]
        if filled:
            sheet.fill(*edge, facecolor=HUES[1], edgecolor="none", zorder=1)
            sheet.plot(*line.at(np.array([0.0, line.length])), color=INK, linewidth=1.4)
        sheet.plot(*edge, color=HUES[5] if filled else INK, linewidth=1.2)
    if filled and most > least:
        own = {name: (x, y * times) for name, (x, y) in found.items() if name not in frame.twins}
        _labels(sheet, frame, own, side * scale / times, most * times)
    return most * times if most > least else 0.0


def _labels(sheet: Sheet, frame: Skeleton, found: Mapping[str, Diagram], scale: float, most: float) -> None:
    """The greatest value of each member; left out where it hardly shows, or stands at a corner beside its like."""
    told: list[float] = []
    worst = {name: _worst(frame.axes[name], *values) for name, values in found.items()}
    for name, place in sorted(
        worst.items(), key=lambda one: _at_end(frame.axes[one[0]], found[one[0]][0][one[1]]) != 0
    ):
        x, y = found[name]
        size = abs(float(y[place]))
        repeated = _at_end(frame.axes[name], x[place]) != 0 and any(abs(size - other) < 2e-3 * other for other in told)
        if size >= 0.03 * most and not repeated:
            told.append(size)
            _label(sheet, frame.axes[name], x, y, place, scale)


def _worst(line: Axis, x: np.ndarray, y: np.ndarray) -> int:
    """Where the value is greatest, the nearest to the middle if it is so at several places."""
    size = np.abs(y)
    among = np.flatnonzero(size >= size.max() * (1 - 1e-6))
    return int(among[np.argmin(np.abs(x[among] - 0.5 * line.length))])


def _at_end(line: Axis, x: float) -> float:
    """1 at the start of a member, -1 at its end, else 0: the way back from the corner."""
    return 1.0 if x < 0.05 * line.length else -1.0 if x > 0.95 * line.length else 0.0


def _label(sheet: Sheet, line: Axis, x: np.ndarray, y: np.ndarray, worst: int, scale: float) -> None:
    """A value beyond its line."""
    size = np.abs(y)
    px, py = line.at(x[worst : worst + 1], scale * y[worst])
    way = np.sign(scale * y[worst])
    right, up = way * line.up[0], way * line.up[1]
    # At an end the figure steps back from the corner, where other lines meet.
    end = _at_end(line, x[worst])
    sheet.annotate(
        f"{size[worst]:.3g}",
        (float(px[0]), float(py[0])),
        (5 * right + 12 * end * line.along[0], 4 * up + 12 * end * line.along[1]),
        ha="left" if right > 0.3 else "right" if right < -0.3 else "center",
        va="bottom" if up > 0.3 else "top" if up < -0.3 else "center",
        zorder=6,
    )
