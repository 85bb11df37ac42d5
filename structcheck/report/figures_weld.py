"""Weld runs to scale, with the force on them or the stress it makes."""

from collections.abc import Sequence

import numpy as np
from matplotlib.patches import Rectangle

from structcheck.analysis.weld_group import Station, weld_group
from structcheck.checks.weld import Weld
from structcheck.checks.weld_group import RunGroup, RunGroupLoads
from structcheck.report.figures import FAINT, HUES, WASH, Figure, drawing, fill, finished, level
from structcheck.report.figures_marks import arrow, measure


def weld_figure(name: str, weld: Weld, along: float, across: float, case: str, use: float | None) -> Figure:
    """The runs one below the other; what their ends do not carry is left open."""
    step = max(6 * weld.a, weld.length / 6)
    height = step * weld.runs
    lost = 0.0 if weld.returned or weld.around else weld.a
    with drawing(5.4, min(4.2, 1.2 + 0.5 * weld.runs)) as canvas:
        axes = canvas.add_axes((0.0, 0.0, 1.0, 1.0))
        axes.set_axis_off()
        for number in range(weld.runs):
            y = -number * step
            axes.add_patch(Rectangle((0, y), weld.length, weld.a, facecolor=WASH, edgecolor=FAINT))
            inside = weld.length - 2 * lost
            axes.add_patch(Rectangle((lost, y), max(inside, 0.0), weld.a, linewidth=1.2, **fill(use)))
        middle, reach = -(weld.runs - 1) * step / 2 + weld.a / 2, weld.length * 0.28
        if along:
            arrow(axes, (weld.length * 1.04, middle), (weld.length * 1.04 + reach, middle), bold=True)
            axes.text(weld.length * 1.06 + reach, middle, f"{along / 1e3:.4g} kN", va="center")
        if across:
            x = weld.length * 0.5
            arrow(axes, (x, weld.a * 1.5), (x, weld.a * 1.5 + step * 0.9), bold=True)
            axes.text(x + weld.length * 0.02, weld.a * 1.5 + step * 0.6, f"{across / 1e3:.4g} kN", va="center")
        below = -(weld.runs - 1) * step - step * 0.55
        measure(axes, (0, below), (weld.length, below), f"{weld.length:.4g}, throat {weld.a:.3g}")
        axes.set_xlim(-0.05 * weld.length, weld.length * 1.65)
        axes.set_ylim(below - step * 0.9, max(weld.a * 2, (step * 1.2 if across else 0)) + 0.15 * height)
        pushes = [f"{force / 1e3:.4g} kN {way}" for force, way in ((along, "along"), (across, "across")) if force]
        words = (
            f"{weld.runs} fillet runs of {weld.length:.4g} mm, throat {weld.a:.3g} mm, under {' and '.join(pushes)}."
        )
        caption = f"All runs together, {case}; filled is the length that counts, {weld.effective:.4g} mm of each."
        return finished(canvas, name, words, caption, wide=30.0)


def run_group_figure(name: str, group: RunGroup, load: RunGroupLoads, use: float | None) -> Figure:
    """Runs as they lie in the plane they share, with the stress on the throat at their ends as arrows."""
    runs = [run.effective or run.whole for run in group.runs]
    stations = weld_group(runs).tractions(load.force, load.moment, load.at)
    points = np.concatenate([station.points for station in stations])
    # Seen from where the runs spread widest: the axis along which they hardly do is looked along.
    seen = np.argsort(np.ptp(points, axis=0))[1:]
    across, up = sorted(int(axis) for axis in seen)
    middle = points.mean(axis=0)
    reach = float(np.ptp(points, axis=0).max())
    sizes = [np.linalg.norm(station.tractions, axis=1) for station in stations]
    worst = max(range(len(runs)), key=lambda number: float(sizes[number].max()))
    most = float(sizes[worst].max())
    spread = _spread(stations, across, reach)
    with drawing(4.6, 3.6) as canvas:
        axes = canvas.add_axes((0.0, 0.0, 1.0, 1.0))
        axes.set_axis_off()
        axes.set_aspect("equal")
        for number, station in enumerate(stations):
            x = (station.points[:, across] - middle[across]) * spread
            y = station.points[:, up] - middle[up]
            colour = HUES[min(level(use), 5)] if number == worst else FAINT
            axes.plot(x, y, color=colour, linewidth=6 if number == worst else 4, solid_capstyle="butt")
            for place in (0, -1):
                pull = station.tractions[place][[across, up]] / most * 0.34 * reach
                start = (float(x[place]), float(y[place]))
                if np.hypot(*pull) > 0.02 * reach:
                    tip = (start[0] + float(pull[0]), start[1] + float(pull[1]))
                    arrow(axes, start, tip, bold=number == worst)
                text = f"{sizes[number][place]:.3g} MPa"
                shift = (9, 0) if x[place] >= 0 else (-9, 0)
                side = "left" if x[place] >= 0 else "right"
                axes.annotate(text, start, shift, textcoords="offset points", ha=side, va="center", zorder=6)
        axes.set_xlim(-0.95 * reach, 0.95 * reach)
        axes.set_ylim(-0.95 * reach, 0.95 * reach)
        words = f"{len(runs)} weld runs under {np.linalg.norm(load.force) / 1e3:.4g} kN and their moment: "
        words += f"greatest stress on the throat {most:.4g} MPa in run {worst + 1}."
        wider = f", drawn {spread:.3g} times as far apart as they are" if spread > 1 else ""
        caption = (
            f"Runs as they count{wider}; stress on the throat at their ends, arrows its part in this plane, "
            f"{load.case.name}. The run worked hardest is heavy."
        )
        return finished(canvas, name, words, caption, wide=26.0)


def _spread(stations: Sequence[Station], across: int, reach: float) -> float:
    """How much further apart narrow runs are drawn, so that they can be told from each other."""
    wide = float(np.ptp(np.concatenate([station.points[:, across] for station in stations])))
    return 1.0 if wide <= 0 or wide > 0.3 * reach else 0.45 * reach / wide
