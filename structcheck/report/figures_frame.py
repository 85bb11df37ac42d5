"""The frame as it was understood, to scale, with the highest use of each member beside it."""

from matplotlib.patches import Circle, Rectangle

from structcheck.findings import Result
from structcheck.press.frame.solving import Ringed
from structcheck.press.frame.understood import Part, Ring
from structcheck.press.schema import PressFile
from structcheck.report.figures import FAINT, INK, PAPER, WASH, Figure, drawing, fill, finished
from structcheck.report.figures_frame_axes import axes_of, corners_of
from structcheck.report.figures_marks import measure, measure_up
from structcheck.report.figures_sheet import Sheet
from structcheck.report.figures_skeleton import Axis
from structcheck.report.figures_uses import Uses, uses_of

TALL, WIDE = 4.4, 2.7
"""Most the frame itself takes on the paper, inches: with the letters beside it no wider than a phone can show."""

LETTERS = 0.72
"""Room for "upright" beside the frame, inches."""


def understood(press: PressFile, result: Result, found: Ringed) -> Figure:
    """The frame to scale, each member in the hue of its highest use with the number beside it."""
    ring, uses = found.ring, uses_of(result)
    wide, high = ring.span + ring.upright.depth, ring.height + ring.legs + ring.head.high + ring.bed.low
    scale = min(TALL / high, WIDE / wide)  # inches for 1 mm
    beside, above, below = LETTERS / scale, 0.5 / scale, 1.0 / scale
    box = (
        -ring.upright.depth / 2 - beside,
        ring.span + ring.upright.depth / 2 + beside + (0.34 / scale),
        -max(ring.bed.low, ring.legs) - below,
        ring.height + ring.head.high + above,
    )
    with drawing((box[1] - box[0]) * scale, (box[3] - box[2]) * scale, font=11) as canvas:
        axes = Sheet(canvas, box)
        lines = axes_of(ring)
        order = [*(name for name in lines if name not in ("head", "bed")), "bed", "head"]
        for name in order:
            _member(axes, ring, name, lines[name], uses)
        _jack(axes, press, found)
        size = 0.055 / scale
        for x, y in corners_of(ring).values():
            axes.add_patch(Circle((x, y), size, facecolor=PAPER, edgecolor=INK, zorder=6))
        for name in order:
            _number(axes, ring, name, lines[name], uses, 0.06 / scale)
        _dimensions(axes, ring, 1.02 * beside, below - 0.3 / scale)
        words = _words(ring, uses)
        caption = (
            "To scale, in mm, from what the file says: look for slips of the pen. A member is shaded by its highest "
            "use, hatched above 1; the number beside it is that use. Dotted: lines along which the force may stand."
        )
        return finished(canvas, "figure-frame", words, caption)


def _part(ring: Ring, name: str) -> Part:
    return {"head": ring.head, "bed": ring.bed}.get(name, ring.upright)


def _member(axes: Sheet, ring: Ring, name: str, line: Axis, uses: Uses) -> None:
    """A beam from outer face to outer face of the uprights, an upright between the outer edges of the beams."""
    part = _part(ring, name)
    look = fill(uses[name][0]) if name in uses else {"facecolor": WASH, "edgecolor": INK}
    if line.up[1]:
        over = ring.upright.depth / 2
        corner, size = (-over, line.start[1] - part.low), (line.length + 2 * over, part.depth)
        shown = [-over, line.length + over], [line.start[1]] * 2
    else:
        outer = part.low if line.up[0] > 0 else part.high
        low = line.start[1] - (ring.bed.low if line.start[1] == 0 and not ring.legs else 0.0)
        high = line.start[1] + line.length + (ring.head.high if name.endswith("upright") else 0.0)
        corner, size = (line.start[0] - outer, low), (part.depth, high - low)
        shown = [line.start[0]] * 2, [low, high]
    axes.add_patch(Rectangle(corner, *size, linewidth=1.3, zorder=3 if line.up[1] else 2, **look))
    axes.plot(*shown, color=INK, linewidth=0.6, linestyle=(0, (8, 3, 2, 3)), zorder=5)


def _jack(axes: Sheet, press: PressFile, found: Ringed) -> None:
    """The jacks where they stand, and how far off centre the force was put."""
    ring, jack = found.ring, press.jack
    on_bed = press.frame is not None and press.frame.jack_on == "bed"
    low, high = ring.bed.high, ring.height - ring.head.low
    base, saddle = jack.base or 0.12 * ring.span, jack.saddle or 0.05 * ring.span
    for push in found.positions[0].bed if on_bed else found.positions[0].head:
        middle, body = ring.span / 2 + push.x, (high - low) * 0.34
        foot, way = (low, 1.0) if on_bed else (high, -1.0)
        ram = foot + way * body
        sizes = (((base, body), min(foot, ram), WASH), ((saddle, body / 2), min(ram, ram + way * body / 2), PAPER))
        for (width, height), bottom, colour in sizes:
            spot = (middle - width / 2, bottom)
            axes.add_patch(Rectangle(spot, width, height, facecolor=colour, edgecolor=FAINT, zorder=2))
        axes.text(middle, foot + way * body / 2, "jack", ha="center", va="center", color=FAINT, zorder=3)
    offs = sorted({round(p.x, 6) for position in found.positions for p in (*position.head, *position.bed)})
    for x in offs:
        place = ring.span / 2 + x
        axes.plot([place, place], [low, high], color=FAINT, linewidth=0.9, linestyle=(0, (1.5, 3)), zorder=1)


def _number(axes: Sheet, ring: Ring, name: str, line: Axis, uses: Uses, gap: float) -> None:
    text = "\n".join([*name.split(" "), uses[name][1] if name in uses else "not judged"])
    if name == "head":
        spot, how = (ring.span / 2, ring.height + ring.head.high + gap), {"ha": "center", "va": "bottom"}
    elif name == "bed":
        spot, how = (ring.span / 2, -ring.bed.low - gap), {"ha": "center", "va": "top"}
    else:
        side = -1.0 if name.startswith("left") else 1.0
        x = line.start[0] + side * (ring.upright.depth / 2 + gap)
        spot, how = (x, line.start[1] + line.length * 0.6), {"ha": "right" if side < 0 else "left", "va": "center"}
    axes.text(*spot, text, fontweight="bold", zorder=7, **how)


def _dimensions(axes: Sheet, ring: Ring, letters: float, below: float) -> None:
    level = -max(ring.bed.low, ring.legs) - below
    measure(axes, (0.0, level), (ring.span, level), f"span {ring.span:.5g}")
    beside = ring.span + ring.upright.depth / 2 + letters
    measure_up(axes, beside, 0.0, ring.height, f"height {ring.height:.5g}")
    measure_up(
        axes, ring.span * 0.84, ring.bed.high, ring.height - ring.head.low, f"opening {ring.opening:.5g}", left=True
    )
    if ring.legs:
        measure_up(axes, beside, -ring.legs, 0.0, f"legs {ring.legs:.5g}")


def _words(ring: Ring, uses: Uses) -> str:
    listed = ", ".join(f"{name} {uses[name][1]}" for name in axes_of(ring) if name in uses)
    sizes = f"head {ring.head.section.designation}, bed {ring.bed.section.designation}"
    sizes += f", uprights {ring.upright.section.designation}"
    return (
        f"Frame with span {ring.span:.5g} mm, height {ring.height:.5g} mm, opening {ring.opening:.5g} mm; {sizes}. "
        f"Highest use of each member: {listed}."
    )
