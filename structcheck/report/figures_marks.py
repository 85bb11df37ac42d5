"""Marks every figure shares: arrows of force and dimension lines."""

from typing import Any

from matplotlib.patches import FancyArrowPatch

from structcheck.report.figures import FAINT, INK

Point = tuple[float, float]


def arrow(axes: Any, start: Point, end: Point, *, bold: bool = False, colour: str = INK) -> None:
    """A force."""
    patch = FancyArrowPatch(
        start, end, arrowstyle="-|>", mutation_scale=13 if bold else 10, linewidth=2.4 if bold else 1.4,
        color=colour, shrinkA=0, shrinkB=0, zorder=4,
    )  # fmt: skip
    axes.add_patch(patch)


def measure(axes: Any, start: Point, end: Point, text: str) -> None:
    """A dimension line with its figure beside it, or below it where it lies flat."""
    patch = FancyArrowPatch(
        start, end, arrowstyle="|-|,widthA=2.5,widthB=2.5", linewidth=0.9, color=FAINT, shrinkA=0, shrinkB=0
    )
    axes.add_patch(patch)
    x, y = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    upright = abs(end[1] - start[1]) > abs(end[0] - start[0])
    if upright:
        axes.annotate(text, (x, y), (-5, 0), textcoords="offset points", ha="right", va="center", color=FAINT)
    else:
        axes.annotate(text, (x, y), (0, -4), textcoords="offset points", ha="center", va="top", color=FAINT)
