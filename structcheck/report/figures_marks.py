"""Marks every figure shares: arrows of force and dimension lines."""

from typing import Any

from matplotlib.patches import FancyArrowPatch

from structcheck.report.figures import FAINT, INK
from structcheck.report.figures_sheet import Sheet

Point = tuple[float, float]


def arrow(sheet: Sheet, start: Point, end: Point, *, bold: bool = False, colour: str = INK) -> None:
    """A force."""
    patch = FancyArrowPatch(
        start, end, arrowstyle="-|>", mutation_scale=13 if bold else 10, linewidth=2.4 if bold else 1.4,
        color=colour, shrinkA=0, shrinkB=0, zorder=4,
    )  # fmt: skip
    sheet.add_patch(patch)


def measure(sheet: Sheet, start: Point, end: Point, text: str) -> None:
    """A dimension line with its figure beside it, or below it where it lies flat."""
    patch = FancyArrowPatch(
        start, end, arrowstyle="|-|,widthA=2.5,widthB=2.5", linewidth=0.9, color=FAINT, shrinkA=0, shrinkB=0
    )
    sheet.add_patch(patch)
    x, y = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    upright = abs(end[1] - start[1]) > abs(end[0] - start[0])
    if upright:
        sheet.annotate(text, (x, y), (-5, 0), ha="right", va="center", color=FAINT)
    else:
        sheet.annotate(text, (x, y), (0, -4), ha="center", va="top", color=FAINT)


def measure_up(sheet: Sheet, x: float, low: float, high: float, text: str, *, left: bool = False) -> None:
    """An upright dimension line with its figure turned along it."""
    measure(sheet, (x, low), (x, high), "")
    away, side = (-4, "right") if left else (4, "left")
    sheet.annotate(text, (x, (low + high) / 2), (away, 0), ha=side, va="center", rotation=90, color=FAINT)


def headed(canvas: Any, title: str) -> None:
    """A title over a small drawing."""
    tall = float(canvas.get_size_inches()[1])
    canvas.text(0.5, 1 - 0.05 / tall, title, ha="center", va="top", fontweight="bold")
