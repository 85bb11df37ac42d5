"""How a ring moves and what runs in it under the central rated force, in the states its corners may be in."""

import textwrap
from collections.abc import Iterator
from typing import Any

import numpy as np
from matplotlib.patches import Circle

from structcheck.press.frame.solving import Ringed
from structcheck.press.frame.states import Solved
from structcheck.report.figures import FAINT, HUES, INK, PAPER, Figure, Panel, drawing, finished
from structcheck.report.figures_frame_axes import axes_of, corners_of

PLACES = 25
"""Places along each member at which its line is drawn, beside those where loads stand."""

QUANTITIES = (("N", "axial force", "kN", 1e3), ("Vz", "shear", "kN", 1e3), ("My", "moment", "kN m", 1e6))

WIDE = 2.7
"""Width of a small figure, inches."""

LEAST = 14.0
"""Width below which a small figure does not shrink, rem: its letters of 10 points stay over 11 pixels."""


def lines_figures(found: Ringed, rated: float) -> Iterator[Figure | Panel]:
    """The deflected shape and the internal forces."""
    yield deflected(found, rated)
    yield diagrams(found, rated)


def states_figures(found: Ringed, rated: float) -> Iterator[Panel]:
    """The moments in every state of the corners, where there are several."""
    able = _able(found)
    if len(able) > 1:
        yield corner_states(found, able, rated)


def _able(found: Ringed) -> list[Solved]:
    """The states that can carry the central force."""
    return [solved for solved in found.states if solved.carried[0]]


def _two(found: Ringed) -> list[Solved]:
    """The stiffest and the loosest state."""
    able = _able(found)
    return able if len(able) == 1 else [able[0], able[-1]]


def _factors(solved: Solved) -> np.ndarray:
    """The central position's combination of columns in one state."""
    return solved.factors[:, 0]


# ---- how it moves ----------------------------------------------------------------------------


def deflected(found: Ringed, rated: float) -> Figure:
    """The frame's shape under the central rated force, movements drawn larger."""
    lines = axes_of(found.ring)
    shapes = {
        solved.state.name: {
            name: _moved(found, name, np.linspace(0, line.length, PLACES), _factors(solved)) * rated
            for name, line in lines.items()
        }
        for solved in _two(found)
    }
    most = {state: max(float(np.hypot(m[0], m[2]).max()) for m in one.values()) for state, one in shapes.items()}
    times = _round_down(0.09 * found.ring.span / max(max(most.values()), 1e-9))
    with drawing(4.4, 4.4 * _tall(found)) as canvas:
        axes = _paper(canvas, found, room=0.14)
        for line in lines.values():
            axes.plot(*line.at(np.array([0.0, line.length])), color=FAINT, linewidth=1.0, linestyle=(0, (4, 3)))
        for number, (state, members) in enumerate(shapes.items()):
            for place, (name, line) in enumerate(lines.items()):
                x, moved = np.linspace(0, line.length, PLACES), members[name]
                axes.plot(
                    *line.at(x + times * moved[0], times * moved[2]),
                    color=INK if number == 0 else HUES[3],
                    linewidth=2.2,
                    label=f"{state}: at most {most[state]:.3g} mm" if place == 0 else None,
                )
        axes.legend(loc="center", frameon=False)
        listed = "; ".join(f"{state}, at most {value:.3g} mm" for state, value in most.items())
        words = f"Deflected shape under the central rated force, drawn {times:g} times larger: {listed}."
        caption = f"Rated force in the middle. Movements are drawn {times:g} times larger; dashed: unloaded."
        return finished(canvas, "figure-moved", words, caption, wide=27.0, tight=False)


def _moved(found: Ringed, member: str, x: np.ndarray, factors: np.ndarray) -> np.ndarray:
    result = found.base.result
    values = np.stack([result.deflection(member, x, case) for case in result.cases])  # (c, 3, n)
    return np.einsum("c,cdn->dn", factors, values)


def _tall(found: Ringed) -> float:
    ring = found.ring
    return min(1.6, max(0.5, (ring.height + ring.legs) / ring.span))


def _round_down(value: float) -> float:
    """To 1, 2 or 5 times a power of ten."""
    power = 10.0 ** np.floor(np.log10(value))
    return float(power * max(step for step in (1, 2, 5) if step * power <= value * (1 + 1e-9)))


def _paper(canvas: Any, found: Ringed, *, room: float, title: str = "") -> Any:
    """Axes that hold the frame and `room` times its smaller side round it, to scale."""
    ring = found.ring
    axes = canvas.add_axes((0.0, 0.0, 1.0, 0.9 if title else 1.0))
    axes.set_axis_off()
    axes.set_aspect("equal")
    side = room * min(ring.span, ring.height)
    axes.set_xlim(-side, ring.span + side)
    axes.set_ylim(-ring.legs - side, ring.height + side)
    if title:
        canvas.text(0.5, 0.99, title, ha="center", va="top", fontweight="bold")
    return axes


# ---- what runs in it -------------------------------------------------------------------------


def diagrams(found: Ringed, rated: float) -> Panel:
    """Axial force, shear and moment; filled for the first state, a line for the last."""
    states = _two(found)
    figures = []
    for quantity, name, unit, size in QUANTITIES:
        with drawing(WIDE, WIDE * _tall(found) + 0.3) as canvas:
            axes = _paper(canvas, found, room=0.36, title=f"{name}, {unit}")
            tops = [_diagram(axes, found, quantity, s, rated / size, filled=s is states[0]) for s in states]
            said = ", ".join(f"{top:.4g} {unit} ({s.state.name})" for top, s in zip(tops, states, strict=True))
            words = f"Greatest {name} under the central rated force: {said}."
            figures.append(finished(canvas, f"figure-{name.replace(' ', '-')}", words, tight=False))
    other = f"; the line: {states[-1].state.name}" if len(states) > 1 else ""
    caption = f"Rated force in the middle. Filled: {states[0].state.name}{other}. Moments on the side in tension."
    return Panel(tuple(figures), caption, LEAST)


def corner_states(found: Ringed, able: list[Solved], rated: float) -> Panel:
    """Moments in every state the corners may be in."""
    figures = []
    for number, solved in enumerate(able):
        title = "\n".join(textwrap.wrap(solved.state.name, 22))
        with drawing(WIDE, WIDE * _tall(found) + 0.4) as canvas:
            axes = _paper(canvas, found, room=0.3, title=title)
            most = _diagram(axes, found, "My", solved, rated / 1e6, filled=True)
            for place, (x, y) in corners_of(found.ring).items():
                if place not in solved.state.holds:
                    size = 0.03 * max(found.ring.span, found.ring.height)
                    axes.add_patch(Circle((x, y), size, facecolor=PAPER, edgecolor=INK, linewidth=1.6, zorder=7))
            words = f"{solved.state.name}: greatest moment {most:.3g} kN m under the central rated force."
            figures.append(finished(canvas, f"figure-corners-{number}", words, tight=False))
    caption = (
        "How stiff the corners are is not known, so each part takes the worst of these states. Moments in kN m, rated "
        "force in the middle; an open circle is a corner that turns freely."
    )
    return Panel(tuple(figures), caption, LEAST)


def _diagram(axes: Any, found: Ringed, quantity: str, solved: Solved, times: float, *, filled: bool) -> float:
    """One quantity along every member, drawn off its centre-line; returns the greatest value."""
    ring, values = found.ring, {}
    lines = axes_of(ring)
    for name, line in lines.items():
        ends = np.array(found.base.result.stations(name))
        x = np.unique(np.concatenate([np.linspace(0, line.length, PLACES), ends, ends - 1e-6, ends + 1e-6]))
        x = x[(x >= 0) & (x <= line.length)]
        values[name] = x, _line_of(found, quantity, name, x, _factors(solved)) * times
    most = max(float(np.abs(y).max()) for _, y in values.values())
    scale = 0.2 * min(ring.span, ring.height) / most if most > 0 else 0.0
    # A positive moment has tension at the bottom of a beam and on the outer face of an upright: along -z.
    side = -1.0 if quantity == "My" else 1.0
    for name, line in lines.items():
        x, y = values[name]
        far = line.at(x, side * scale * y)
        if filled:
            near = line.at(x)
            axes.fill(np.r_[near[0], far[0][::-1]], np.r_[near[1], far[1][::-1]], facecolor=HUES[1], edgecolor="none")
            axes.plot(*line.at(np.array([0.0, line.length])), color=INK, linewidth=1.4)
        axes.plot(*far, color=HUES[5] if filled else INK, linewidth=1.2)
        if filled and not name.startswith("right"):
            _label(axes, line, x, y, side * scale, most)
    return most


def _label(axes: Any, line: Any, x: np.ndarray, y: np.ndarray, scale: float, most: float) -> None:
    """The greatest value of a member beyond its line; left out where it hardly shows."""
    size = np.abs(y)
    if size.max() < 0.03 * most:
        return
    among = np.flatnonzero(size >= size.max() * (1 - 1e-6))
    worst = among[np.argmin(np.abs(x[among] - 0.5 * line.length))]
    px, py = line.at(x[worst : worst + 1], scale * y[worst])
    way = np.sign(scale * y[worst])
    right, up = way * line.up[0], way * line.up[1]
    # At an end the figure steps back from the corner, where other lines meet.
    end = 1.0 if x[worst] < 0.05 * line.length else -1.0 if x[worst] > 0.95 * line.length else 0.0
    axes.annotate(
        f"{size[worst]:.3g}",
        (float(px[0]), float(py[0])),
        (5 * right + 12 * end * line.along[0], 4 * up + 12 * end * line.along[1]),
        textcoords="offset points",
        ha="left" if right > 0 else "right" if right < 0 else "center",
        va="bottom" if up > 0 else "top" if up < 0 else "center",
        zorder=6,
    )


def _line_of(found: Ringed, quantity: str, member: str, x: np.ndarray, factors: np.ndarray) -> np.ndarray:
    result = found.base.result
    return factors @ np.stack([result.value(quantity, member, x, case) for case in result.cases])
