"""The frame: to scale with its utilisations, how it moves, its internal forces, and the states of its corners."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from matplotlib.patches import Circle, Rectangle

from structcheck.findings import Result
from structcheck.press.frame.solving import Ringed
from structcheck.press.frame.states import Solved
from structcheck.press.schema import PressFile
from structcheck.report.figures import FAINT, HUES, INK, PAPER, WASH, Figure, drawing, fill, finished
from structcheck.report.figures_marks import measure
from structcheck.report.table import use_of

PLACES = 41
"""Places along each member at which its line is drawn."""


@dataclass(frozen=True)
class Axis:
    """A member's centre-line on the paper: where it starts, its direction, and where its local z points."""

    start: tuple[float, float]
    along: tuple[float, float]
    up: tuple[float, float]
    length: float

    def at(self, x: np.ndarray, z: np.ndarray | float = 0.0) -> tuple[np.ndarray, np.ndarray]:
        """Points of the paper at x along the member and z off it."""
        return (
            self.start[0] + self.along[0] * x + self.up[0] * z,
            self.start[1] + self.along[1] * x + self.up[1] * z,
        )


def axes_of(found: Ringed) -> dict[str, Axis]:
    """Every member of the ring, z of a beam upwards and of an upright towards the middle of the frame."""
    ring = found.ring
    span, height, legs = ring.span, ring.height, ring.legs
    axes = {
        "head": Axis((0.0, height), (1.0, 0.0), (0.0, 1.0), span),
        "bed": Axis((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), span),
        "left upright": Axis((0.0, 0.0), (0.0, 1.0), (1.0, 0.0), height),
        "right upright": Axis((span, 0.0), (0.0, 1.0), (-1.0, 0.0), height),
    }
    if legs:
        axes["left leg"] = Axis((0.0, -legs), (0.0, 1.0), (1.0, 0.0), legs)
        axes["right leg"] = Axis((span, -legs), (0.0, 1.0), (-1.0, 0.0), legs)
    return axes


def figures_of_frame(press: PressFile, result: Result, found: Ringed, rated: float) -> Iterator[Figure]:
    """Every figure of a ring."""
    yield understood(press, result, found)
    yield deflected(found, rated)
    yield diagrams(found, rated)
    if len(found.states) > 1:
        yield corner_states(found, rated)


# ---- as understood ---------------------------------------------------------------------------


def understood(press: PressFile, result: Result, found: Ringed) -> Figure:
    """The frame to scale, each member in the hue of its highest use with the number beside it."""
    ring = found.ring
    uses = _uses(result)
    depths = {"head": ring.head.depth, "bed": ring.bed.depth}
    wide, high = ring.span + ring.upright.depth, ring.height + ring.legs
    margin = 0.13 * max(wide, high)
    scale = 6.4 / max(high + 3 * margin, 1.1 * (wide + 5 * margin))
    with drawing(max(3.4, (wide + 6 * margin) * scale), (high + 3 * margin) * scale) as canvas:
        axes = canvas.add_axes((0.0, 0.0, 1.0, 1.0))
        axes.set_axis_off()
        axes.set_aspect("equal")
        lines = axes_of(found)
        order = [name for name in lines if name not in depths] + list(depths)
        for name in order:
            _member(axes, lines[name], _edges(found, name), uses.get(name))
        _joints(axes, found, result)
        _jack(axes, press, found)
        for name in order:
            _number(axes, found, lines[name], name, uses.get(name), margin)
        _dimensions(axes, found, margin)
        axes.margins(0.01)
        words = _understood_words(found, result, uses)
        caption = (
            "To scale, in mm, from what the file says: look for slips of the pen. A member is shaded by its highest "
            "use, hatched above 1; the number beside it is that use."
        )
        return finished(canvas, "figure-frame", words, caption, wide=40.0)


def _uses(result: Result) -> dict[str, tuple[float | None, str]]:
    found: dict[str, tuple[float | None, str]] = {}
    for finding in reversed(result.ranked):
        found[finding.part] = (finding.utilisation, use_of(finding))
    return found


def _edges(found: Ringed, name: str) -> tuple[float, float]:
    """Distances from the centre-line to the two edges, along -z and z."""
    ring = found.ring
    part = {"head": ring.head, "bed": ring.bed}.get(name, ring.upright)
    return part.low, part.high


def _member(axes: Any, line: Axis, edges: tuple[float, float], use: tuple[float | None, str] | None) -> None:
    low, high = edges
    look = fill(use[0]) if use else {"facecolor": WASH, "edgecolor": INK}
    # A beam is drawn over the uprights, from outer face to outer face of its ends.
    x, y = line.at(np.array([0.0, line.length]), -low)
    x2, y2 = line.at(np.array([0.0, line.length]), high)
    left, bottom = min(*x, *x2), min(*y, *y2)
    axes.add_patch(
        Rectangle(
            (left, bottom),
            max(*x, *x2) - left,
            max(*y, *y2) - bottom,
            linewidth=1.3,
            zorder=2 if line.up[0] else 3,
            **look,
        )
    )
    axes.plot(*line.at(np.array([0.0, line.length])), color=INK, linewidth=0.6, linestyle=(0, (8, 3, 2, 3)), zorder=5)


def _joints(axes: Any, found: Ringed, result: Result) -> None:
    ring = found.ring
    size = 0.012 * max(ring.span, ring.height)
    for place, (x, y) in _corners(found).items():
        pinned = place.startswith("bed") and ring.pinned_bed
        axes.add_patch(Circle((x, y), size * (1.3 if pinned else 1.0), facecolor=PAPER, edgecolor=INK, zorder=6))


def _corners(found: Ringed) -> dict[str, tuple[float, float]]:
    ring = found.ring
    pin = ring.pin_offset
    return {
        "head/left": (0.0, ring.height),
        "head/right": (ring.span, ring.height),
        "bed/left": (pin, 0.0),
        "bed/right": (ring.span - pin, 0.0),
    }


def _jack(axes: Any, press: PressFile, found: Ringed) -> None:
    """The jacks where they stand, and how far off centre the force was put."""
    ring, jack = found.ring, press.jack
    on_bed = press.frame is not None and press.frame.jack_on == "bed"
    low, high = ring.bed.high, ring.height - ring.head.low
    base, saddle = jack.base or 0.12 * ring.span, jack.saddle or 0.05 * ring.span
    pushes = found.positions[0].bed if on_bed else found.positions[0].head
    for push in pushes:
        middle = ring.span / 2 + push.x
        body = (high - low) * 0.34
        foot, way = (low, 1.0) if on_bed else (high, -1.0)
        tip = foot + way * body * 1.5
        axes.add_patch(
            Rectangle((middle - base / 2, min(foot, foot + way * body)), base, body, facecolor=WASH, edgecolor=FAINT)
        )
        axes.add_patch(
            Rectangle(
                (middle - saddle / 2, min(foot + way * body, tip)), saddle, body / 2, facecolor=PAPER, edgecolor=FAINT
            )
        )
        axes.text(middle, foot + way * body / 2, "jack", ha="center", va="center", color=FAINT)
    offs = sorted({round(p.x, 6) for position in found.positions for p in (*position.head, *position.bed)})
    for x in offs:
        place = ring.span / 2 + x
        axes.plot([place, place], [low, high], color=FAINT, linewidth=0.8, linestyle=(0, (2, 3)), zorder=1)


def _number(
    axes: Any, found: Ringed, line: Axis, name: str, use: tuple[float | None, str] | None, margin: float
) -> None:
    ring = found.ring
    text = f"{name}\n{use[1]}" if use else f"{name}\nnot judged"
    gap = 0.12 * margin
    if name == "head":
        spot, how = (ring.span / 2, ring.height + ring.head.high + gap), {"ha": "center", "va": "bottom"}
    elif name == "bed":
        spot, how = (ring.span / 2, -ring.bed.low - gap), {"ha": "center", "va": "top"}
    else:
        side = -1.0 if name.startswith("left") else 1.0
        x = line.start[0] + side * (ring.upright.depth / 2 + gap)
        spot = (x, line.start[1] + line.length * 0.62)
        how = {"ha": "right" if side < 0 else "left", "va": "center"}
    axes.text(*spot, text, fontweight="bold", zorder=7, **how)


def _dimensions(axes: Any, found: Ringed, margin: float) -> None:
    ring = found.ring
    below = -max(ring.bed.low, ring.legs) - 0.95 * margin
    measure(axes, (0.0, below), (ring.span, below), f"span {ring.span:.5g}")
    beside = ring.span + ring.upright.depth / 2 + 1.5 * margin
    _upright_measure(axes, beside, 0.0, ring.height, f"height {ring.height:.5g}")
    inside = ring.span * 0.86
    _upright_measure(axes, inside, ring.bed.high, ring.height - ring.head.low, f"opening {ring.opening:.5g}", left=True)
    if ring.legs:
        _upright_measure(axes, beside, -ring.legs, 0.0, f"legs {ring.legs:.5g}")


def _upright_measure(axes: Any, x: float, low: float, high: float, text: str, *, left: bool = False) -> None:
    measure(axes, (x, low), (x, high), "")
    side = {"ha": "right", "xytext": (-5, 0)} if left else {"ha": "left", "xytext": (5, 0)}
    place = low + (high - low) * (0.72 if left else 0.28)
    axes.annotate(text, (x, place), textcoords="offset points", va="center", rotation=90, color=FAINT, **side)


def _understood_words(found: Ringed, result: Result, uses: Mapping[str, tuple[float | None, str]]) -> str:
    ring = found.ring
    listed = ", ".join(f"{name} {uses[name][1]}" for name in axes_of(found) if name in uses)
    sizes = f"head {ring.head.section.designation}, bed {ring.bed.section.designation}"
    sizes += f", uprights {ring.upright.section.designation}"
    return (
        f"Frame with span {ring.span:.5g} mm, height {ring.height:.5g} mm, opening {ring.opening:.5g} mm; {sizes}. "
        f"Highest use of each member: {listed}."
    )


# ---- how it moves and what runs in it --------------------------------------------------------


def _factors(solved: Solved) -> np.ndarray:
    """The central position's combination of columns in one state."""
    return solved.factors[:, 0]


def _shown_states(found: Ringed) -> list[Solved]:
    """The stiffest and the loosest state that can carry the central force."""
    able = [solved for solved in found.states if solved.carried[0]]
    return able if len(able) == 1 else [able[0], able[-1]]


def _line_of(found: Ringed, quantity: str, member: str, x: np.ndarray, factors: np.ndarray) -> np.ndarray:
    result = found.base.result
    values = np.stack([result.value(quantity, member, x, case) for case in result.cases])
    return factors @ values


def _moved(found: Ringed, member: str, x: np.ndarray, factors: np.ndarray) -> np.ndarray:
    result = found.base.result
    values = np.stack([result.deflection(member, x, case) for case in result.cases])  # (c, 3, n)
    return np.einsum("c,cdn->dn", factors, values)


def deflected(found: Ringed, rated: float) -> Figure:
    """The frame's shape under the central rated force, movements drawn larger."""
    lines = axes_of(found)
    shapes = {}
    for solved in _shown_states(found):
        shapes[solved.state.name] = {
            name: _moved(found, name, np.linspace(0, line.length, PLACES), _factors(solved)) * rated
            for name, line in lines.items()
        }
    most = {
        state: max(float(np.hypot(m[0], m[2]).max()) for m in members.values()) for state, members in shapes.items()
    }
    times = _round_down(0.09 * found.ring.span / max(max(most.values()), 1e-9))
    with drawing(4.8, 4.8 * _tall(found)) as canvas:
        axes = canvas.add_axes((0.0, 0.0, 1.0, 1.0))
        axes.set_axis_off()
        axes.set_aspect("equal")
        for line in lines.values():
            axes.plot(*line.at(np.array([0.0, line.length])), color=FAINT, linewidth=1.0, linestyle=(0, (4, 3)))
        for number, (state, members) in enumerate(shapes.items()):
            for place, (name, line) in enumerate(lines.items()):
                x = np.linspace(0, line.length, PLACES)
                moved = members[name]
                axes.plot(
                    *line.at(x + times * moved[0], times * moved[2]),
                    color=INK if number == 0 else HUES[3],
                    linewidth=2.2,
                    label=f"{state}: at most {most[state]:.3g} mm" if place == 0 else None,
                )
        axes.legend(loc="center", frameon=False)
        axes.margins(0.04)
        listed = "; ".join(f"{state}, at most {value:.3g} mm" for state, value in most.items())
        words = f"Deflected shape under the central rated force, drawn {times:g} times larger: {listed}."
        caption = f"Rated force in the middle. Movements are drawn {times:g} times larger; dashed: unloaded."
        return finished(canvas, "figure-moved", words, caption, wide=28.0)


def _tall(found: Ringed) -> float:
    ring = found.ring
    return min(1.5, max(0.5, (ring.height + ring.legs) / ring.span))


def _round_down(value: float) -> float:
    """To 1, 2 or 5 times a power of ten."""
    power = 10.0 ** np.floor(np.log10(value))
    return float(power * max(step for step in (1, 2, 5) if step * power <= value * (1 + 1e-9)))


_QUANTITIES = (("N", "axial force", "kN", 1e3), ("Vz", "shear", "kN", 1e3), ("My", "moment", "kN m", 1e6))


def diagrams(found: Ringed, rated: float) -> Figure:
    """Axial force, shear and moment under the central rated force; filled for the first state, a line for the last."""
    states = _shown_states(found)
    with drawing(9.6, 3.4 * _tall(found)) as canvas:
        said = []
        for number, (quantity, name, unit, size) in enumerate(_QUANTITIES):
            axes = canvas.add_subplot(1, 3, number + 1)
            top = [_diagram(axes, found, quantity, s, rated / size, filled=s is states[0]) for s in states]
            axes.set_title(f"{name}, {unit}", fontsize=10, color=INK)
            said.append(
                f"{name} at most "
                + ", ".join(f"{v:.4g} {unit} ({s.state.name})" for v, s in zip(top, states, strict=True))
            )
        words = f"Internal forces under the central rated force: {'; '.join(said)}."
        other = f"; the line: {states[-1].state.name}" if len(states) > 1 else ""
        caption = f"Rated force in the middle. Filled: {states[0].state.name}{other}. Moments on the side in tension."
        return finished(canvas, "figure-forces", words, caption, wide=60.0)


def _diagram(axes: Any, found: Ringed, quantity: str, solved: Solved, times: float, *, filled: bool) -> float:
    """One quantity along every member, drawn off its centre-line; returns the greatest value."""
    lines = axes_of(found)
    values = {}
    for name, line in lines.items():
        ends = np.array(found.base.result.stations(name))
        x = np.unique(np.concatenate([np.linspace(0, line.length, PLACES), ends, ends - 1e-6, ends + 1e-6]))
        x = x[(x >= 0) & (x <= line.length)]
        values[name] = x, _line_of(found, quantity, name, x, _factors(solved)) * times
    most = max(float(np.abs(y).max()) for _, y in values.values())
    scale = 0.2 * min(found.ring.span, found.ring.height) / most if most > 0 else 0.0
    # A positive moment has tension at the bottom of a beam and on the outer face of an upright: along -z.
    side = -1.0 if quantity == "My" else 1.0
    axes.set_axis_off()
    axes.set_aspect("equal")
    axes.margins(0.08)
    for name, line in lines.items():
        x, y = values[name]
        if filled:
            axes.plot(*line.at(np.array([0.0, line.length])), color=INK, linewidth=1.2)
            near, far = line.at(x), line.at(x, side * scale * y)
            axes.fill(np.r_[near[0], far[0][::-1]], np.r_[near[1], far[1][::-1]], facecolor=HUES[1], edgecolor="none")
        axes.plot(*line.at(x, side * scale * y), color=HUES[5] if filled else INK, linewidth=1.2)
        worst = int(np.argmax(np.abs(y)))
        if filled and abs(y[worst]) > 1e-3 * most and not name.startswith("right"):
            px, py = line.at(x[worst : worst + 1], side * scale * y[worst] * 1.12)
            axes.annotate(
                f"{abs(y[worst]):.3g}", (float(px[0]), float(py[0])), ha="center", va="center", fontsize=9, zorder=6
            )
    return most


def corner_states(found: Ringed, rated: float) -> Figure:
    """Moments under the central rated force in every state the corners may be in."""
    able = [solved for solved in found.states if solved.carried[0]]
    columns = 4
    rows = -(-len(able) // columns)
    with drawing(9.6, (2.5 * _tall(found) + 0.5) * rows) as canvas:
        said = []
        for number, solved in enumerate(able):
            axes = canvas.add_subplot(rows, columns, number + 1)
            most = _diagram(axes, found, "My", solved, rated / 1e6, filled=True)
            axes.set_title(solved.state.name, fontsize=9.5, color=INK)
            for place, (x, y) in _corners(found).items():
                if place not in solved.state.holds:
                    size = 0.03 * max(found.ring.span, found.ring.height)
                    axes.add_patch(Circle((x, y), size, facecolor=PAPER, edgecolor=INK, linewidth=1.6, zorder=7))
            said.append(f"{solved.state.name} {most:.3g} kN m")
        words = f"Greatest moment in each state of the corners, central rated force: {'; '.join(said)}."
        caption = (
            "How stiff the corners are is not known, so each part takes the worst of these states. "
            "Moments in kN m, rated force in the middle; an open circle is a corner that turns freely."
        )
        return finished(canvas, "figure-corners", words, caption, wide=60.0)
