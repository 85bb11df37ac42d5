"""A beam of one span: its loads, shear, moment and deflection at rated load."""

import numpy as np

from structcheck.analysis.beam import BeamSolution, PointLoad, UniformLoad
from structcheck.report.figures import FAINT, HUES, INK, Figure, drawing, finished
from structcheck.report.figures_marks import arrow

SAMPLES = 121


def beam_figure(name: str, solution: BeamSolution, case: str = "rated") -> Figure:
    """Four strips of one length, each with its greatest value."""
    span = solution.span
    x = np.unique(np.concatenate([np.linspace(0, span, SAMPLES), [s.x for s in solution.stations()]]))
    stations = solution.stations()
    shear_x = np.array([s.x for s in stations for _ in (0, 1)])
    shear = np.array([v for s in stations for v in (s.V_left, s.V_right)]) / 1e3
    moment, bend = solution.M(x) / 1e6, solution.w(x)
    with drawing(6.6, 5.0) as canvas:
        load, v, m, w = canvas.subplots(4, 1, sharex=True, height_ratios=(1.1, 1, 1, 0.8))
        _loads(load, solution)
        order = np.argsort(shear_x, kind="stable")
        _strip(v, shear_x[order], shear[order], "shear", "kN")
        _strip(m, x, moment, "moment", "kN m")
        _strip(w, x, -np.abs(bend) * np.sign(bend), "deflection", "mm", filled=False)
        w.set_xlabel("mm from the left support")
        figures = [f"{np.abs(shear).max():.4g} kN shear", f"{np.abs(moment).max():.4g} kN m moment"]
        figures.append(f"{np.abs(bend).max():.4g} mm deflection")
        words = f"Beam of {span:.4g} mm, {case}: greatest {', '.join(figures)}."
        return finished(canvas, name, words, f"All pieces together, {case} load.", wide=38.0)


def _loads(axes, solution: BeamSolution) -> None:
    span = solution.span
    axes.set_axis_off()
    axes.set_ylim(-0.45, 1.25)
    axes.plot([0, span], [0, 0], color=INK, linewidth=4, solid_capstyle="butt")
    scale = span / 26
    _stand(axes, solution.supports, span, scale)
    for one in solution.loads:
        if isinstance(one, UniformLoad):
            total = one.intensity * (one.end - one.start)
            for place in np.linspace(one.start, one.end, max(3, int(12 * (one.end - one.start) / span))):
                arrow(axes, (place, 0.55), (place, 0.06))
            axes.plot([one.start, one.end], [0.55, 0.55], color=INK)
            middle = (one.start + one.end) / 2
        elif isinstance(one, PointLoad):
            total, middle = one.force, one.at
            arrow(axes, (middle, 0.85), (middle, 0.06), bold=True)
        else:
            continue
        axes.text(middle, 0.95, f"{total / 1e3:.4g} kN", ha="center", va="bottom")


def _stand(axes, supports: str, span: float, scale: float) -> None:
    held = {
        "simple": ("pin", "pin"),
        "fixed": ("wall", "wall"),
        "propped": ("wall", "pin"),
        "cantilever": ("wall", "none"),
    }[supports]
    for place, how in zip((0.0, span), held, strict=True):
        if how == "pin":
            axes.plot([place - scale * 0.5, place, place + scale * 0.5], [-0.4, -0.05, -0.4], color=INK, linewidth=1.4)
            axes.plot([place - scale * 0.8, place + scale * 0.8], [-0.4, -0.4], color=INK, linewidth=1.4)
        elif how == "wall":
            axes.plot([place, place], [-0.4, 0.4], color=INK, linewidth=5, solid_capstyle="butt")


def _strip(axes, x: np.ndarray, y: np.ndarray, name: str, unit: str, *, filled: bool = True) -> None:
    axes.axhline(0, color=FAINT, linewidth=0.8)
    if filled:
        axes.fill_between(x, 0, y, facecolor=HUES[1], edgecolor="none")
    axes.plot(x, y, color=INK)
    most = int(np.argmax(np.abs(y)))
    label = f"{abs(y[most]):.4g} {unit}"
    axes.annotate(
        label, (x[most], y[most]), (0, -4 if y[most] < 0 else 4), textcoords="offset points", ha="center",
        va="top" if y[most] < 0 else "bottom", annotation_clip=False,
    )  # fmt: skip
    axes.set_yticks([])
    axes.margins(y=0.35)
    axes.spines["left"].set_visible(False)
    axes.spines["bottom"].set_visible(False)
    axes.tick_params(axis="x", length=0)
    axes.set_ylabel(f"{name}\n{unit}", rotation=0, ha="right", va="center", color=FAINT)
