"""Weld runs as they lie, to scale, with the stress at their ends; every label stands beside them, none on another."""

from collections import Counter
from collections.abc import Iterator, Sequence

import numpy as np

from structcheck.analysis.weld_group import Run, weld_group
from structcheck.checks.weld_group import RunGroup, RunGroupLoads
from structcheck.record import record
from structcheck.report.figures import FAINT, HUES, Figure, drawing, finished, level
from structcheck.report.figures_marks import Point, arrow, measure
from structcheck.report.figures_sheet import Sheet

SIZE = 2.2
"""What the runs take on the paper, inches; so are all places below."""

LINE, COLUMN, GAP = 0.2, 0.82, 0.14
"""Height of a label, its width, and how far it stands off."""


@record
class Bar:
    """One run on the paper, its stations and what the stress at each end does."""

    places: np.ndarray
    pulls: np.ndarray
    sizes: tuple[float, float]

    def ends(self) -> Iterator[tuple[Point, Point, str]]:
        """Place, tip of the arrow and label of each end."""
        for number in (0, -1):
            spot, tip = self.places[number], self.places[number] + self.pulls[number]
            yield (float(spot[0]), float(spot[1])), (float(tip[0]), float(tip[1])), f"{self.sizes[number]:.3g} MPa"


@record
class Label:
    """A text in a column beside the runs and the place it tells of."""

    text: str
    of: Point
    at: Point


def run_group_figure(name: str, group: RunGroup, load: RunGroupLoads, use: float | None) -> Figure:
    """Runs as they lie in the plane they share, with the stress on the throat at their ends as arrows."""
    runs = [run.effective or run.whole for run in group.pieces]
    bars, spread, scale = _bars(runs, load)
    worst = max(range(len(bars)), key=lambda number: max(bars[number].sizes))
    marks = np.array([point for bar in bars for spot, tip, _ in bar.ends() for point in (spot, tip)])
    marks = np.concatenate([marks, *(bar.places for bar in bars)])
    labels = _labels(bars, float(marks[:, 0].min()) - GAP, float(marks[:, 0].max()) + GAP)
    heights = [*(label.at[1] for label in labels), *marks[:, 1]]
    left, right = float(marks[:, 0].min()) - GAP - COLUMN, float(marks[:, 0].max()) + GAP + COLUMN + 0.4
    low, high = min(heights) - 0.6, max(heights) + 0.15
    with drawing(right - left, high - low, font=11) as canvas:
        axes = Sheet(canvas, (left, right, low, high))
        for number, bar in enumerate(bars):
            _draw(axes, bar, HUES[min(level(use), 5)] if number == worst else FAINT, heavy=number == worst)
        for label in labels:
            _tell(axes, label)
        _dimensions(axes, bars, scale, low + 0.55, right - 0.4, wide=spread == 1)
        axes.text(left + 0.04, low + 0.06, _sizes(runs), color=FAINT, va="bottom")
        most = max(bars[worst].sizes)
        words = f"{len(runs)} weld runs under {np.linalg.norm(load.force) / 1e3:.4g} kN and their moment: "
        words += f"greatest stress on the throat {most:.4g} MPa in run {worst + 1}."
        wider = f", drawn {spread:.3g} times as far apart as they are" if spread > 1 else ""
        caption = (
            f"Runs as they count{wider}, lengths in mm; stress on the throat at their ends, arrows its part in this "
            f"plane, {load.case.name}. The run worked hardest is heavy."
        )
        return finished(canvas, name, words, caption)


def _bars(runs: Sequence[Run], load: RunGroupLoads) -> tuple[list[Bar], float, float]:
    """The runs on the paper, how much further apart than they are, and inches for 1 mm."""
    stations = weld_group(runs).tractions(load.force, load.moment, load.at)
    points = np.concatenate([station.points for station in stations])
    # Seen from where the runs spread widest: the axis along which they hardly do is looked along.
    across, up = sorted(int(axis) for axis in np.argsort(np.ptp(points, axis=0))[1:])
    middle = (points.max(axis=0) + points.min(axis=0)) / 2
    scale = SIZE / float(np.ptp(points, axis=0).max())
    spread = _spread(float(np.ptp(points[:, across])) * scale)
    most = max(float(np.linalg.norm(station.tractions, axis=1).max()) for station in stations)
    bars = []
    for station in stations:
        sizes = np.linalg.norm(station.tractions, axis=1)
        places = (station.points - middle)[:, [across, up]] * scale * (spread, 1.0)
        pulls = station.tractions[:, [across, up]] / most * 0.3 * SIZE
        bars.append(Bar(places, pulls, (float(sizes[0]), float(sizes[-1]))))
    return bars, spread, scale


def _spread(wide: float) -> float:
    """How much further apart narrow runs are drawn, so that they can be told from each other."""
    return 1.0 if wide <= 0 or wide > 0.3 * SIZE else 0.45 * SIZE / wide


def _labels(bars: Sequence[Bar], left: float, right: float) -> list[Label]:
    """Labels in two columns, those of the upper ends from the middle up, the others from the middle down."""
    ends = {(round(x, 6), round(y, 6), text): (x, y) for bar in bars for (x, y), _, text in bar.ends()}
    found = []
    for side, column in ((-1, left), (1, right)):
        for way in (-1, 1):
            own = [(y * way, -x * side, text, (x, y)) for (_, _, text), (x, y) in ends.items() if _of(x, y, side, way)]
            last = -LINE / 2
            for height, _, text, spot in sorted(own):
                last = max(height, last + LINE)
                found.append(Label(text, spot, (column, way * last)))
    return found


def _of(x: float, y: float, side: int, way: int) -> bool:
    """Whether an end stands in this quarter; what is on a middle line goes right and up."""
    return (x >= -1e-9) == (side > 0) and (y >= -1e-9) == (way > 0)


def _draw(axes: Sheet, bar: Bar, colour: str, *, heavy: bool) -> None:
    axes.plot(*bar.places.T, color=colour, linewidth=6 if heavy else 4, solid_capstyle="butt")
    for spot, tip, _ in bar.ends():
        if np.hypot(tip[0] - spot[0], tip[1] - spot[1]) > 0.02 * SIZE:
            arrow(axes, spot, tip, bold=heavy)


def _tell(axes: Sheet, label: Label) -> None:
    side = 1 if label.at[0] > label.of[0] else -1
    axes.plot([label.of[0], label.at[0]], [label.of[1], label.at[1]], color=FAINT, linewidth=0.7, zorder=1)
    axes.text(label.at[0] + 0.03 * side, label.at[1], label.text, ha="left" if side > 0 else "right", va="center")


def _dimensions(axes: Sheet, bars: Sequence[Bar], scale: float, below: float, beside: float, *, wide: bool) -> None:
    """Width and height of all runs together; no width where they are drawn further apart than they are."""
    places = np.concatenate([bar.places for bar in bars])
    (left, low), (right, high) = places.min(axis=0), places.max(axis=0)
    if wide and right - left > 0.1 * SIZE:
        measure(axes, (left, below), (right, below), f"{(right - left) / scale:.4g}")
    if high - low > 0.1 * SIZE:
        measure(axes, (beside, low), (beside, high), "")
        axes.text(beside + 0.07, (low + high) / 2, f"{(high - low) / scale:.4g}", rotation=90, va="center", color=FAINT)


def _sizes(runs: Sequence[Run]) -> str:
    """Length and throat of the runs, those alike together."""
    sizes = Counter((f"{run.length:.4g}", f"{run.throat:.3g}") for run in runs)
    lines = [f"{many} run{'s' if many > 1 else ''} of {length}, throat {a}" for (length, a), many in sizes.items()]
    return "\n".join(lines[:4])
