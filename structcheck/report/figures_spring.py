"""A return spring's force over its length: fitted, pressed, solid, and where it must not be pressed to."""

from matplotlib.patches import Rectangle

from structcheck.checks.coil import Coil
from structcheck.checks.coil import Spring as Described
from structcheck.checks.coil_input import describe
from structcheck.errors import NotCovered
from structcheck.report.figures import FAINT, HUES, INK, Figure, drawing, finished
from structcheck.report.figures_sheet import Sheet

WIDE, TALL = 3.1, 2.2
"""Inches the line takes."""

STEP = 0.19
"""Inches a line of the legend takes."""


def spring_figure(name: str, spring: Described, gap: float | None) -> Figure | None:
    """The line of one spring; `gap` is the clearance before solid that the coils must keep, mm, None if not known.

    Nothing where the description does not give a rate and a solid length.
    """
    coil: Coil = describe(spring)
    try:
        solid = coil.L_c
        points = {
            "free": (spring.free, 0.0),
            "fitted": (spring.fitted, coil.force(spring.fitted)),
            "pressed": (spring.pressed, coil.force(spring.pressed)),
            "solid": (solid, coil.force(solid)),
        }
    except NotCovered:
        return None
    most = max(force for _, force in points.values())

    def at(length: float, force: float = 0.0) -> tuple[float, float]:
        """Pressed to the right, force upwards, inches."""
        return (spring.free - length) / (spring.free - solid) * WIDE, force / most * TALL

    with drawing(WIDE + 1.3, TALL + 1.35, font=11) as canvas:
        sheet = Sheet(canvas, (-0.25, WIDE + 1.05, -0.55, TALL + 0.8))
        if gap is not None:
            _zone(sheet, at(solid + gap)[0], WIDE, HUES[1], "keep clear", upright=True)
        _zone(sheet, at(spring.fitted)[0], at(spring.pressed)[0], HUES[0], "works here")
        sheet.plot([0, WIDE + 0.1], [0, 0], color=FAINT, linewidth=0.9)
        sheet.plot(*zip(at(spring.free), at(solid, most), strict=True), color=INK, linewidth=1.8)
        for word, (length, force) in points.items():
            spot = at(length, force)
            sheet.plot([spot[0]], [spot[1]], marker="o", color=INK, markersize=6)
            sheet.plot([spot[0], spot[0]], [-0.06, spot[1]], color=FAINT, linewidth=0.7, linestyle=(0, (2, 2)))
            text, beside, side = (f"{word} {force:.0f} N", (-7, 4), "right") if force else (word, (0, 6), "center")
            sheet.annotate(text, spot, beside, ha=side, va="bottom")
            sheet.annotate(f"{length:.4g}", (spot[0], -0.06), (0, -2), ha="center", va="top", color=FAINT)
        sheet.text(WIDE / 2, -0.32, "length, mm: pressed to the right", ha="center", va="top", color=FAINT)
        listed = "; ".join(f"{word} {length:.4g} mm, {force:.0f} N" for word, (length, force) in points.items())
        words = f"Force of one spring over its length: {listed}."
        if gap is not None:
            words += f" The last {gap:.4g} mm before solid must stay clear."
        return finished(canvas, name, words, "Force over length of one spring.")


def _zone(sheet: Sheet, left: float, right: float, colour: str, text: str, *, upright: bool = False) -> None:
    """A shaded range of lengths."""
    sheet.add_patch(Rectangle((left, 0), right - left, TALL + 0.1, facecolor=colour, edgecolor="none", zorder=0))
    middle = (left + right) / 2
    if upright:
        sheet.text(middle, 0.1, text, ha="center", va="bottom", rotation=90)
    else:
        sheet.text(middle, 0.06, text, ha="center", va="bottom", color=FAINT)
