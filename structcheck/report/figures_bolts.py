"""A group of bolts to scale, the force of each bolt as an arrow, the one that is worked hardest filled."""

from itertools import pairwise

import numpy as np
from matplotlib.patches import Circle, Rectangle

from structcheck.checks.bolts_group import BoltGroup, BoltLoads, in_plane, pulls
from structcheck.report.figures import FAINT, INK, WASH, Figure, drawing, fill, finished
from structcheck.report.figures_marks import arrow, measure
from structcheck.report.figures_sheet import Sheet

SIZE, BESIDE, BELOW, LEAST = 2.5, 0.65, 0.75, 2.6
"""Inches: the longer side of the group, room for dimensions beside it and below it, the narrowest drawing."""


def bolts_figure(name: str, group: BoltGroup, loads: BoltLoads, use: float | None) -> Figure:
    """The group under one case; forces are what each bolt puts on the plate."""
    forces = in_plane(group, loads)
    pull = pulls(group, loads)
    sizes = np.hypot(*forces.T)
    worst = int(np.argmax(sizes + pull))
    spots = group.positions
    low, high = spots.min(axis=0), spots.max(axis=0)
    end, edge = group.end or 1.5 * group.d_0, group.edge or 1.5 * group.d_0
    far = group.far_end or end
    beside = group.far_edge or edge
    left, right, bottom, top = low[0] - beside, high[0] + edge, low[1] - far, high[1] + end
    reach = max(right - left, top - bottom)
    longest = float(sizes.max(initial=0.0))
    tips = spots + forces * (0.3 * reach / longest if longest > 0 else 0.0)
    (first, lowest), (last, highest) = np.minimum(tips.min(axis=0), low), np.maximum(tips.max(axis=0), high)
    scale = SIZE / reach
    box = (
        min(left - BESIDE / scale, first),
        max(right, last) + 0.1 / scale,
        min(bottom, lowest) - BELOW / scale,
        max(top, highest) + 0.1 / scale,
    )
    with drawing(max(LEAST, (box[1] - box[0]) * scale), (box[3] - box[2]) * scale, font=11) as canvas:
        axes = Sheet(canvas, box)
        axes.add_patch(Rectangle((left, bottom), right - left, top - bottom, facecolor=WASH, edgecolor=FAINT))
        for number, (spot, tip) in enumerate(zip(spots.tolist(), tips.tolist(), strict=True)):
            look = fill(use) if number == worst else {"facecolor": WASH, "edgecolor": INK}
            axes.add_patch(Circle(spot, group.d_0 / 2, linewidth=1.4, zorder=3, **look))
            if sizes[number] > 1e-6 * max(longest, 1.0):
                arrow(axes, spot, tip, bold=number == worst)
        text = f"{sizes[worst] / 1e3:.4g} kN" if longest else ""
        if pull[worst] > 0:
            text += f"{', ' if text else ''}pull {pull[worst] / 1e3:.4g} kN"
        canvas.text(0.5, 0.02, f"filled: {text}", va="bottom", ha="center", fontweight="bold")
        _measures(axes, group, (left, right, bottom, top), 0.16 / scale)
        words = _words(group, sizes, pull, worst)
        caption = (
            f"Each bolt's force on the plate, {loads.case.name}; the bolt worked hardest is filled. To scale, in mm."
        )
        return finished(canvas, name, words, caption)


def _measures(axes: Sheet, group: BoltGroup, box: tuple[float, float, float, float], step: float) -> None:
    left, _, bottom, top = box
    rows = sorted({round(float(y), 6) for y in group.positions[:, 1]})
    columns = sorted({round(float(x), 6) for x in group.positions[:, 0]})
    up = [(rows[-1], top, group.end), *((a, b, b - a) for a, b in pairwise(rows))]
    for a, b, value in up:
        if value is not None:
            measure(axes, (left - step, a), (left - step, b), f"{value:.4g}")
    across = [
        (left, columns[0], group.edge and (group.far_edge or group.edge)),
        *((a, b, b - a) for a, b in pairwise(columns)),
    ]
    for a, b, value in across:
        if value is not None:
            measure(axes, (a, bottom - step), (b, bottom - step), f"{value:.4g}")


def _words(group: BoltGroup, sizes: np.ndarray, pull: np.ndarray, worst: int) -> str:
    x, y = group.positions[worst]
    text = f"{group.count} bolts {group.size.name} with their forces on the plate. "
    text += f"The hardest worked stands {x:.4g} mm to the right of and {y:.4g} mm above the group's centre "
    text += f"and takes {sizes[worst] / 1e3:.4g} kN"
    return text + (f" and a pull of {pull[worst] / 1e3:.4g} kN." if pull[worst] > 0 else ".")
