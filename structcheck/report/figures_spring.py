"""A return spring's force over its length: fitted, pressed, solid, and where it must not be pressed to."""

from structcheck.checks.coil import Coil, describe
from structcheck.checks.coil import Spring as Described
from structcheck.errors import NotCovered
from structcheck.report.figures import FAINT, HUES, INK, Figure, drawing, finished


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
    with drawing(6.6, 3.0) as canvas:
        axes = canvas.add_axes((0.08, 0.14, 0.9, 0.82))
        if gap is not None:
            axes.axvspan(solid, solid + gap, facecolor=HUES[1], edgecolor=FAINT, linewidth=0.8)
            middle = solid + gap / 2
            axes.text(middle, most * 0.06, "keep clear", ha="center", va="bottom", rotation=90, color=INK)
        axes.axvspan(spring.pressed, spring.fitted, facecolor=HUES[0], edgecolor="none", zorder=0)
        axes.text((spring.pressed + spring.fitted) / 2, most * 0.05, "works here", ha="center", color=FAINT)
        axes.plot([spring.free, solid], [0, points["solid"][1]], color=INK)
        for word, (length, force) in points.items():
            axes.plot([length], [force], "o", color=INK, markersize=6)
            text = f"{word} {length:.4g} mm" + (f", {force:.0f} N" if force else "")
            axes.annotate(text, (length, force), (-7, 5), textcoords="offset points", ha="right", va="bottom")
        axes.set_xlim(spring.free + 0.28 * (spring.free - solid), solid - 0.05 * (spring.free - solid))
        axes.set_ylim(0, most * 1.25)
        axes.set_xlabel("length, mm (pressed to the right)")
        axes.set_ylabel("force of one, N")
        listed = "; ".join(f"{word} {length:.4g} mm, {force:.0f} N" for word, (length, force) in points.items())
        words = f"Force of one spring over its length: {listed}."
        if gap is not None:
            words += f" The last {gap:.4g} mm before solid must stay clear."
        return finished(canvas, name, words, "Force over length of one spring.", wide=36.0)
