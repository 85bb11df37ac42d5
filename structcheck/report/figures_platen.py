"""A platen to scale: in plan with its bearers and where the force presses, and from the side as it bends."""

import numpy as np
from matplotlib.patches import Circle, Polygon, Rectangle

from structcheck.analysis.plate import PlateSolution
from structcheck.checks.platen import Platen, PlatenLoads
from structcheck.report.figures import FAINT, HUES, INK, PAPER, Figure, Panel, drawing, fill, finished
from structcheck.report.figures_frame_lines import round_down
from structcheck.report.figures_marks import arrow, headed, measure, measure_up
from structcheck.report.figures_sheet import Sheet

SIZE, LEFT, RIGHT, ABOVE, BELOW = 3.2, 0.45, 0.75, 0.4, 0.75
"""Inches: the plate's longer side, and room round it."""

LEAST = 18.0
"""Width below which one view does not shrink, rem."""


def platen_figure(name: str, part: Platen, load: PlatenLoads, shape: PlateSolution, use: float | None) -> Panel:
    """Plan and side view under one load, deflections at it."""
    figures = (_plan(f"{name}-plan", part, load, use), _side(f"{name}-side", part, load, shape))
    pushed = "" if part.pushed is None else f" Round: the saddle of {part.pushed:.4g} mm that pushes on its other face."
    lies = "the bearers are dashed" if part.bearers is not None else "it lies on a frame along its edges"
    lies = lies if part.pushed is None or part.bearers is not None else "held between saddle and work"
    caption = (
        f"To scale, in mm; the force is that at {load.case.name}, {load.force / 1e3:.4g} kN, spread over the shaded "
        f"patch; {lies}.{pushed}"
    )
    return Panel(figures, caption, LEAST)


def _patch(part: Platen, load: PlatenLoads) -> tuple[float, float, float, float]:
    """Middle and size of the pressed patch."""
    along = part.length if load.along is None else load.along
    across = part.width if load.across is None else load.across
    at = part.length / 2 if load.at is None else load.at
    return at, part.width / 2 + load.aside, along, across


def _plan(name: str, part: Platen, load: PlatenLoads, use: float | None) -> Figure:
    scale = SIZE / max(part.length, part.width)
    wide, tall = part.length * scale + LEFT + RIGHT, part.width * scale + ABOVE + BELOW
    with drawing(wide, tall, font=11) as canvas:
        box = (-LEFT / scale, part.length + RIGHT / scale, -BELOW / scale, part.width + ABOVE / scale)
        sheet = Sheet(canvas, box)
        headed(canvas, "plan")
        sheet.add_patch(Rectangle((0, 0), part.length, part.width, facecolor="none", edgecolor=INK, linewidth=1.6))
        x, y, along, across = _patch(part, load)
        if load.shape == "round":
            sheet.add_patch(Circle((x, y), along / 2, linewidth=1.0, **fill(use)))
        else:
            sheet.add_patch(Rectangle((x - along / 2, y - across / 2), along, across, linewidth=1.0, **fill(use)))
        if part.pushed is not None:
            middle = (part.length / 2, part.width / 2)
            sheet.add_patch(Circle(middle, part.pushed / 2, facecolor=PAPER, edgecolor=INK, linewidth=1.2, zorder=4))
        for place in part.places:
            ends = [-0.12 / scale, part.width + 0.12 / scale]
            sheet.plot([place, place], ends, color=INK, linewidth=2.2, linestyle=(0, (5, 3)), zorder=5)
        level = -0.14 / scale
        if part.bearers is not None:
            measure(sheet, (part.places[0], level), (part.places[-1], level), f"bearers {_span(part):.5g} apart")
        measure(sheet, (0, level - 0.3 / scale), (part.length, level - 0.3 / scale), f"{part.length:.5g}")
        measure_up(sheet, part.length + 0.15 / scale, 0, part.width, f"{part.width:.5g}")
        patch = f"{along:.4g} across" if load.shape == "round" else f"{along:.4g} by {across:.4g}"
        words = (
            f"Platen {part.length:.5g} by {part.width:.5g} mm, {part.thickness:.4g} mm thick, pressed over {patch} mm."
        )
        return finished(canvas, name, words)


def _span(part: Platen) -> float:
    return part.places[-1] - part.places[0]


def _side(name: str, part: Platen, load: PlatenLoads, shape: PlateSolution) -> Figure:
    """The middle line of the plate, its bending drawn larger, and how far it is out of flat all over."""
    x, w = shape.x, shape.w[:, shape.w.shape[1] // 2]
    times = round_down(0.05 * part.length / max(float(np.abs(shape.w).max()), 1e-9))
    scale, t = SIZE / part.length, part.thickness
    low, high = -t - 0.8 / scale - 0.05 * part.length, 0.85 / scale
    with drawing(SIZE + LEFT + RIGHT, (high - low) * scale, font=11) as canvas:
        sheet = Sheet(canvas, (-LEFT / scale, part.length + RIGHT / scale, low, high))
        headed(canvas, "from the side")
        down = -times * w
        outline = np.column_stack([np.r_[x, x[::-1]], np.r_[down, down[::-1] - t]])
        sheet.add_patch(Polygon(outline, closed=True, facecolor=HUES[1], edgecolor=INK, linewidth=1.2))
        at, _, along, _ = _patch(part, load)
        places = np.linspace(at - 0.46 * along, at + 0.46 * along, max(2, min(7, round(along * scale / 0.4))))
        for place in places.tolist():
            tip = float(np.interp(place, x, down))
            arrow(sheet, (place, tip + 0.42 / scale), (place, tip + 0.03 / scale))
        for place in part.places:
            foot = float(np.interp(place, x, down)) - t
            half = 0.1 / scale
            corners = [(place, foot), (place - half, foot - 1.6 * half), (place + half, foot - 1.6 * half)]
            sheet.add_patch(Polygon(corners, closed=True, facecolor=PAPER, edgecolor=INK, linewidth=1.2))
        measure_up(sheet, part.length + 0.15 / scale, -t, 0.0, f"{t:.4g}")
        flat = shape.out_of_flat
        text = f"out of flat {flat:.3g} mm"
        if part.flatness is not None:
            text += f", wanted {part.flatness:.3g}"
        sheet.text(part.length / 2, low + 0.08 / scale, text, ha="center", va="bottom", fontweight="bold")
        sheet.text(
            part.length / 2, low + 0.28 / scale, f"bending drawn {times:g} times larger", ha="center", va="bottom",
            color=FAINT,
        )  # fmt: skip
        words = f"Platen from the side under {load.force / 1e3:.4g} kN: {text}; bending drawn {times:g} times larger."
        return finished(canvas, name, words)
