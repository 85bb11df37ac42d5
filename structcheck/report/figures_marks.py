"""Marks every figure shares: arrows of force, dimension lines, supports."""

from typing import Any

from matplotlib.patches import FancyArrowPatch, Polygon

from structcheck.report.figures import FAINT, INK, PAPER

Point = tuple[float, float]


def arrow(axes: Any, start: Point, end: Point, *, bold: bool = False, colour: str = INK) -> None:
    """A force."""
    patch = FancyArrowPatch(
        start, end, arrowstyle="-|>", mutation_scale=13 if bold else 10, linewidth=2.4 if bold else 1.4,
        color=colour, shrinkA=0, shrinkB=0, zorder=4,
    )  # fmt: skip
    axes.add_patch(patch)


def measure(axes: Any, start: Point, end: Point, text: str, *, away: float = 0.0) -> None:
    """A dimension line with its figure in the middle; upright where the line is."""
    patch = FancyArrowPatch(
        start, end, arrowstyle="|-|,widthA=2.5,widthB=2.5", linewidth=0.9, color=FAINT, shrinkA=0, shrinkB=0
    )
    axes.add_patch(patch)
    x, y = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    upright = abs(end[1] - start[1]) > abs(end[0] - start[0])
    if upright:
        axes.text(x - away, y, f"{text} ", ha="right", va="center", color=FAINT)
    else:
        axes.annotate(text, (x, y), (0, -4), textcoords="offset points", ha="center", va="top", color=FAINT)


def support(axes: Any, x: float, y: float, size: float, *, fixed: bool = False) -> None:
    """What a beam stands on: a triangle, or a wall where it is built in."""
    if fixed:
        axes.plot([x, x], [y - 1.6 * size, y + 1.6 * size], color=INK, linewidth=5, solid_capstyle="butt")
        return
    corners = [(x, y), (x - size * 0.7, y - size * 1.2), (x + size * 0.7, y - size * 1.2)]
    axes.add_patch(Polygon(corners, closed=True, facecolor=PAPER, edgecolor=INK, linewidth=1.4))
