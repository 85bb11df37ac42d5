"""A beam of one span: its loads, shear, moment and deflection at rated load."""

import numpy as np

from structcheck.analysis.beam import BeamSolution, PointLoad, UniformLoad
from structcheck.report.figures import FAINT, HUES, INK, Figure, drawing, finished
from structcheck.report.figures_marks import arrow
from structcheck.report.figures_sheet import Sheet

SAMPLES = 121

WIDE = 3.4
"""Inches the span takes; so are all heights below."""

LOADS, STRIP, GAP = 0.95, 0.6, 0.62
"""What the loads, one diagram and the room between two diagrams take."""


def beam_figure(name: str, solution: BeamSolution, case: str = "rated") -> Figure:
    """Four strips of one length, each with its greatest value."""
    span = solution.span
    stations = solution.stations()
    x = np.unique(np.concatenate([np.linspace(0, span, SAMPLES), [s.x for s in stations]]))
    shear_x = np.array([s.x for s in stations for _ in (0, 1)])
    shear = np.array([v for s in stations for v in (s.V_left, s.V_right)]) / 1e3
    moment, bend = solution.M(x) / 1e6, solution.w(x)
    strips = (
        (shear_x, shear, "shear", "kN"),
        (x, moment, "moment", "kN m"),
        (x, -np.abs(bend) * np.sign(bend), "deflection", "mm"),
    )
    heights = [_height(values) for _, values, _, _ in strips]
    tall = LOADS + sum(heights) + GAP * len(strips) + 1.6
    with drawing(WIDE + 1.1, tall, font=11) as canvas:
        sheet = Sheet(canvas, (-0.55, WIDE + 0.55, -tall + LOADS + 0.3, LOADS + 0.3))
        _loads(sheet, solution)
        level = -0.35
        for (places, values, what, unit), height in zip(strips, heights, strict=True):
            level -= GAP
            order = np.argsort(places, kind="stable")
            _strip(sheet, level, places[order] / span * WIDE, values[order], f"{what}, {unit}")
            level -= height
        for place in _told(solution):
            sheet.annotate(f"{place:.5g}", (place / span * WIDE, level - 0.24), ha="center", va="top", color=FAINT)
        sheet.text(WIDE / 2, level - 0.46, "mm from the left support", ha="center", va="top", color=FAINT)
        figures = [f"{np.abs(shear).max():.4g} kN shear", f"{np.abs(moment).max():.4g} kN m moment"]
        figures.append(f"{np.abs(bend).max():.4g} mm deflection")
        words = f"Beam of {span:.4g} mm, {case}: greatest {', '.join(figures)}."
        return finished(canvas, name, words, f"All pieces together, {case} load.")


def _height(values: np.ndarray) -> float:
    """More where a diagram runs both ways."""
    both = values.max() > 0.05 * np.abs(values).max() and values.min() < -0.05 * np.abs(values).max()
    return STRIP * (1.6 if both else 1.0)


def _told(solution: BeamSolution) -> list[float]:
    """The ends and where forces stand, none so near another that their figures meet."""
    places = [0.0, solution.span]
    for one in solution.loads:
        at = one.at if isinstance(one, PointLoad) else None
        if at is not None and all(abs(at - other) > 0.14 * solution.span for other in places):
            places.append(at)
    return places


def _loads(sheet: Sheet, solution: BeamSolution) -> None:
    span = solution.span
    sheet.plot([0, WIDE], [0, 0], color=INK, linewidth=4, solid_capstyle="butt")
    _stand(sheet, solution.supports)
    for one in solution.loads:
        if isinstance(one, UniformLoad):
            total = one.intensity * (one.end - one.start)
            start, end = one.start / span * WIDE, one.end / span * WIDE
            for place in np.linspace(start, end, max(2, round((end - start) / 0.28))).tolist():
                arrow(sheet, (place, 0.55), (place, 0.06))
            sheet.plot([start, end], [0.55, 0.55], color=INK)
            middle = (start + end) / 2
        elif isinstance(one, PointLoad):
            total, middle = one.force, one.at / span * WIDE
            arrow(sheet, (middle, 0.85), (middle, 0.06), bold=True)
        else:
            continue
        sheet.text(middle, 0.92, f"{total / 1e3:.4g} kN", ha="center", va="bottom", fontweight="bold")


def _stand(sheet: Sheet, supports: str) -> None:
    held = {
        "simple": ("pin", "pin"),
        "fixed": ("wall", "wall"),
        "propped": ("wall", "pin"),
        "cantilever": ("wall", "none"),
    }[supports]
    for place, how in zip((0.0, WIDE), held, strict=True):
        if how == "pin":
            sheet.plot([place - 0.09, place, place + 0.09], [-0.24, -0.04, -0.24], color=INK, linewidth=1.4)
            sheet.plot([place - 0.14, place + 0.14], [-0.24, -0.24], color=INK, linewidth=1.4)
        elif how == "wall":
            sheet.plot([place, place], [-0.24, 0.24], color=INK, linewidth=5, solid_capstyle="butt")


def _strip(sheet: Sheet, top: float, x: np.ndarray, y: np.ndarray, title: str) -> None:
    """One diagram below `top`, its line of nothing where it fits, its greatest value beside it."""
    height = _height(y)
    high, low = max(float(y.max()), 0.0), min(float(y.min()), 0.0)
    scale = height / max(high - low, 1e-12)
    nothing = top - high * scale
    if title.startswith("deflection"):
        sheet.plot([0, WIDE], [nothing] * 2, color=FAINT, linewidth=0.8)
    else:
        sheet.fill(np.r_[0, x, WIDE], nothing + scale * np.r_[0, y, 0], facecolor=HUES[1], edgecolor="none", zorder=1)
        sheet.plot([0, WIDE], [nothing] * 2, color=FAINT, linewidth=0.8)
    sheet.plot(x, nothing + scale * y, color=INK, linewidth=1.6)
    most = int(np.argmax(np.abs(y)))
    down = y[most] < 0
    spot = (float(x[most]), nothing + scale * float(y[most]))
    side = "left" if spot[0] < 0.1 * WIDE else "right" if spot[0] > 0.9 * WIDE else "center"
    sheet.annotate(f"{abs(y[most]):.4g}", spot, (0, -3 if down else 3), ha=side, va="top" if down else "bottom",
                   fontweight="bold")  # fmt: skip
    sheet.text(-0.45, top + 0.22, title, ha="left", va="bottom", color=FAINT)
