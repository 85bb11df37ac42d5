"""Weld runs to scale, with the force on them."""

from matplotlib.patches import Rectangle

from structcheck.checks.weld import Weld
from structcheck.report.figures import FAINT, WASH, Figure, drawing, fill, finished
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
            for start, end in weld.laid.places() if weld.laid else ((0.0, weld.length),):
                axes.add_patch(Rectangle((start, y), end - start, weld.a, facecolor=WASH, edgecolor=FAINT))
                inside = max(end - start - 2 * lost, 0.0)
                axes.add_patch(Rectangle((start + lost, y), inside, weld.a, linewidth=1.2, **fill(use)))
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
        laid = f" in {weld.stretches} stretches" if weld.laid else ""
        words = f"{weld.runs} fillet runs of {weld.length:.4g} mm{laid}, throat {weld.a:.3g} mm, under "
        words += f"{' and '.join(pushes)}."
        caption = f"All runs together, {case}; filled is the length that counts, {weld.effective:.4g} mm of each."
        return finished(canvas, name, words, caption, wide=30.0)
