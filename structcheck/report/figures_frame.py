"""The frame as it was understood, to scale, with the highest use of each member beside it."""

from collections.abc import Iterator, Mapping
from typing import Any

from matplotlib.patches import Circle, Rectangle

from structcheck.findings import Result
from structcheck.press.frame.solving import Ringed
from structcheck.press.frame.understood import Part, Ring
from structcheck.press.schema import PressFile
from structcheck.report.figures import FAINT, INK, PAPER, WASH, Figure, Panel, drawing, fill, finished
from structcheck.report.figures_frame_axes import Axis, axes_of, corners_of
from structcheck.report.figures_frame_lines import lines_figures
from structcheck.report.figures_marks import measure
from structcheck.report.table import use_of

TALL, WIDE = 5.6, 4.6
"""Most the frame itself takes on the paper, inches."""

LETTERS = 0.8
"""Room for "upright" beside the frame, inches."""

Uses = Mapping[str, tuple[float | None, str]]


def figures_of_frame(press: PressFile, result: Result, found: Ringed, rated: float) -> Iterator[Figure | Panel]:
    """Every figure of a ring but those of the states of its corners."""
    yield understood(press, result, found)
    yield from lines_figures(found, rated)


def understood(press: PressFile, result: Result, found: Ringed) -> Figure:
    """The frame to scale, each member in the hue of its highest use with the number beside it."""
    ring, uses = found.ring, _uses(result)
    wide, high = ring.span + ring.upright.depth, ring.height + ring.legs + ring.head.high + ring.bed.low
    scale = min(TALL / high, WIDE / wide)  # inches for 1 mm
    letters = LETTERS / scale
    with drawing(wide * scale + 2.2 * LETTERS, high * scale + 1.3, font=11.5) as canvas:
        axes = canvas.add_axes((0.0, 0.0, 1.0, 1.0))
        axes.set_axis_off()
        axes.set_aspect("equal")
        lines = axes_of(ring)
        order = [*(name for name in lines if name not in ("head", "bed")), "bed", "head"]
        for name in order:
            _member(axes, ring, name, lines[name], uses)
        _jack(axes, press, found)
        size = 0.014 * max(ring.span, ring.height)
        for x, y in corners_of(ring).values():
            axes.add_patch(Circle((x, y), size, facecolor=PAPER, edgecolor=INK, zorder=6))
        for name in order:
            _number(axes, ring, name, lines[name], uses, 0.06 / scale)
        _dimensions(axes, ring, letters, 0.55 / scale)
        words = _words(ring, uses)
        caption = (
            "To scale, in mm, from what the file says: look for slips of the pen. A member is shaded by its highest "
            "use, hatched above 1; the number beside it is that use. Dotted: lines along which the force may stand."
        )
        return finished(canvas, "figure-frame", words, caption, wide=36.0)


def _uses(result: Result) -> Uses:
    found: dict[str, tuple[float | None, str]] = {}
    for finding in reversed(result.ranked):
        found[finding.part] = (finding.utilisation, use_of(finding))
    return found


def _part(ring: Ring, name: str) -> Part:
    return {"head": ring.head, "bed": ring.bed}.get(name, ring.upright)


def _member(axes: Any, ring: Ring, name: str, line: Axis, uses: Uses) -> None:
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


def _jack(axes: Any, press: PressFile, found: Ringed) -> None:
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


def _number(axes: Any, ring: Ring, name: str, line: Axis, uses: Uses, gap: float) -> None:
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


def _dimensions(axes: Any, ring: Ring, letters: float, below: float) -> None:
    level = -max(ring.bed.low, ring.legs) - (below if not ring.legs else 0.3 * below)
    measure(axes, (0.0, level), (ring.span, level), f"span {ring.span:.5g}")
    beside = ring.span + ring.upright.depth / 2 + letters
    _upright_measure(axes, beside, 0.0, ring.height, f"height {ring.height:.5g}")
    _upright_measure(
        axes, ring.span * 0.84, ring.bed.high, ring.height - ring.head.low, f"opening {ring.opening:.5g}", left=True
    )
    if ring.legs:
        _upright_measure(axes, beside, -ring.legs, 0.0, f"legs {ring.legs:.5g}")


def _upright_measure(axes: Any, x: float, low: float, high: float, text: str, *, left: bool = False) -> None:
    measure(axes, (x, low), (x, high), "")
    side: dict[str, Any] = {"ha": "right", "xytext": (-4, 0)} if left else {"ha": "left", "xytext": (4, 0)}
    place = (low + high) / 2
    axes.annotate(text, (x, place), textcoords="offset points", va="center", rotation=90, color=FAINT, **side)


def _words(ring: Ring, uses: Uses) -> str:
    listed = ", ".join(f"{name} {uses[name][1]}" for name in axes_of(ring) if name in uses)
    sizes = f"head {ring.head.section.designation}, bed {ring.bed.section.designation}"
    sizes += f", uprights {ring.upright.section.designation}"
    return (
        f"Frame with span {ring.span:.5g} mm, height {ring.height:.5g} mm, opening {ring.opening:.5g} mm; {sizes}. "
        f"Highest use of each member: {listed}."
    )
