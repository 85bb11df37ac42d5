"""Weld runs to scale, with the force on them."""

from matplotlib.patches import Rectangle

from structcheck.checks.weld import Weld
from structcheck.report.figures import FAINT, WASH, Figure, drawing, fill, finished
from structcheck.report.figures_marks import arrow, measure
from structcheck.report.figures_sheet import Sheet

LENGTH, STEP, ROUND = 2.4, 0.42, 0.75
"""Inches: a run's length, from one run to the next, room for forces round the runs."""


def weld_figure(name: str, weld: Weld, along: float, across: float, case: str, use: float | None) -> Figure:
    """The runs one below the other on the plate they hold; what their ends do not carry is left open."""
    scale = LENGTH / weld.length
    # To scale along the run; a throat is drawn no thinner than can be seen.
    throat = max(weld.a * scale, 0.11)
    lost = 0.0 if weld.returned or weld.around else weld.a * scale
    low, high = -0.5, (weld.runs - 1) * STEP + throat + (ROUND if across else 0.25)
    right = LENGTH + (1.75 if along else 0.35)
    with drawing(right + 0.25, high - low + 0.25, font=11) as canvas:
        sheet = Sheet(canvas, (-0.25, right, low - 0.25, high))
        plate = (weld.runs - 1) * STEP + throat + 0.3
        sheet.add_patch(Rectangle((-0.12, -0.15), LENGTH + 0.24, plate, facecolor=WASH, edgecolor=FAINT, zorder=0))
        for number in range(weld.runs):
            y = number * STEP
            for start, end in weld.laid.places() if weld.laid else ((0.0, weld.length),):
                left, size = start * scale, (end - start) * scale
                sheet.add_patch(Rectangle((left, y), size, throat, facecolor="none", edgecolor=FAINT))
                inside = max(size - 2 * lost, 0.0)
                sheet.add_patch(Rectangle((left + lost, y), inside, throat, linewidth=1.2, **fill(use)))
        middle = ((weld.runs - 1) * STEP + throat) / 2
        if along:
            arrow(sheet, (LENGTH + 0.2, middle), (LENGTH + 0.75, middle), bold=True)
            sheet.text(LENGTH + 0.82, middle, f"{along / 1e3:.4g} kN", va="center", fontweight="bold")
        if across:
            arrow(sheet, (LENGTH / 2, high - ROUND + 0.2), (LENGTH / 2, high - 0.1), bold=True)
            sheet.text(
                LENGTH / 2 + 0.1, high - ROUND / 2 + 0.05, f"{across / 1e3:.4g} kN", va="center", fontweight="bold"
            )
        measure(sheet, (0, low + 0.2), (LENGTH, low + 0.2), f"{weld.length:.4g}, throat {weld.a:.3g}")
        pushes = [f"{force / 1e3:.4g} kN {way}" for force, way in ((along, "along"), (across, "across")) if force]
        laid = f" in {weld.stretches} stretches" if weld.laid else ""
        runs = f"{weld.runs} fillet run{'s' if weld.runs > 1 else ''}"
        words = f"{runs} of {weld.length:.4g} mm{laid}, throat {weld.a:.3g} mm, under {' and '.join(pushes)}."
        counts = f"filled is the length that counts, {weld.effective:.4g} mm of each"
        caption = f"All runs together, {case}; {counts}. Lengths in mm and to scale; thin throats are drawn thicker."
        return finished(canvas, name, words, caption)
