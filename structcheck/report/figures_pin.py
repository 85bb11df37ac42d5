"""A pin and its plates to scale: each eye seen along the pin, and the pin cut along its length."""

from itertools import accumulate, pairwise

from matplotlib.patches import Circle, Rectangle

from structcheck.checks.pin_part import Eye, Pin, PinLoads
from structcheck.report.figures import FAINT, INK, PAPER, WASH, Figure, Panel, drawing, fill, finished
from structcheck.report.figures_marks import arrow, headed, measure, measure_up
from structcheck.report.figures_sheet import Sheet

SIZE = 1.35
"""Inches for the longest side of a plate or of the pin."""

LEAST = 13.0
"""Width below which one view does not shrink, rem."""


def pin_figure(name: str, pin: Pin, load: PinLoads, use: float | None) -> Panel:
    """The plate within, the plates outside, and the pin through them under one case."""
    inner, outer = pin.plates
    figures = (
        _eye(f"{name}-inner", pin, inner, "plate within"),
        _eye(f"{name}-outer", pin, outer, "plates outside"),
        _along(f"{name}-along", pin, load, use),
    )
    unknown = [eye.which for eye in pin.plates if eye.end is None or eye.edge is None]
    dashed = " Dashed: not stated, drawn at a guess." if unknown or pin.gap is None else ""
    caption = f"To scale, in mm; forces at {load.case.name}. The pin is shaded by its highest use.{dashed}"
    return Panel(figures, caption, LEAST)


def _eye(name: str, pin: Pin, eye: Eye, title: str) -> Figure:
    """One plate seen along the pin: the outer ones end above it and are pulled down, the inner one the other way."""
    hole, way = pin.d_0, 1.0 if eye.which == "outer" else -1.0
    end, edge = eye.end or 1.6 * hole, eye.edge or 1.6 * hole
    slot, body = pin.slot, 1.5 * max(end, edge)
    scale = SIZE / max(2 * edge, end + body)
    low, high = (-body, end) if way > 0 else (-end, body)
    with drawing(2 * edge * scale + 1.3, (end + body) * scale + 0.95, font=11) as canvas:
        box = (-edge - 0.25 / scale, edge + 1.05 / scale, low - 0.5 / scale, high + 0.45 / scale)
        sheet = Sheet(canvas, box)
        headed(canvas, title)
        sides, top = ("-" if value is not None else (0, (4, 3)) for value in (eye.edge, eye.end))
        sheet.add_patch(Rectangle((-edge, low), 2 * edge, high - low, facecolor=WASH, edgecolor="none", zorder=1))
        for x in (-edge, edge):
            sheet.plot([x, x], [low, high], color=INK, linewidth=1.3, linestyle=sides)
        sheet.plot([-edge, edge], [way * end] * 2, color=INK, linewidth=1.3, linestyle=top)
        for y in (-way * slot, 0.0) if slot else (0.0,):
            sheet.add_patch(Circle((0, y), hole / 2, facecolor=PAPER, edgecolor=INK, linewidth=1.3, zorder=2))
        sheet.add_patch(Circle((0, 0), pin.diameter / 2, facecolor="none", edgecolor=FAINT, linewidth=0.9, zorder=3))
        sheet.annotate(
            f"hole {hole:.4g}", (0, -way * (slot + hole / 2)), (0, -4 * way), ha="center",
            va="top" if way > 0 else "bottom", color=FAINT,
        )  # fmt: skip
        if eye.end is not None:
            measure_up(sheet, edge + 0.15 / scale, min(0.0, way * end), max(0.0, way * end), f"end {eye.end:.4g}")
        if eye.edge is not None:
            measure(sheet, (0, low - 0.12 / scale), (edge, low - 0.12 / scale), f"edge {eye.edge:.4g}")
        stated = [f"{word} {value:.4g}" for word, value in (("end", eye.end), ("edge", eye.edge)) if value is not None]
        said = ", ".join(stated) or "end and edge not stated"
        words = f"{title.capitalize()} of the pin, hole {hole:.4g} mm, {said}."
        return finished(canvas, name, words)


def _along(name: str, pin: Pin, load: PinLoads, use: float | None) -> Figure:
    """The pin cut along its length: outer plate, gap, inner plate, gap, outer plate."""
    inner, outer = pin.plates
    gap = 2.0 if pin.gap is None else pin.gap
    places = list(accumulate((outer.t, gap, inner.t, gap, outer.t), initial=0.0))
    length, d = places[-1], pin.diameter
    high = 2.0 * d
    scale = SIZE / max(length, 2 * high)
    with drawing(length * scale + 1.55, 2 * high * scale + 1.95, font=11) as canvas:
        box = (-0.65 / scale, length + 0.9 / scale, -high - 1.1 / scale, high + 0.85 / scale)
        sheet = Sheet(canvas, box)
        headed(canvas, "along the pin")
        for start, end in pairwise(places):
            if (start, end) in ((places[1], places[2]), (places[3], places[4])):
                continue
            inside = start == places[2]
            low = -1.3 * d if inside else -high
            tall = high + 1.3 * d
            sheet.add_patch(Rectangle((start, low), end - start, tall, facecolor=WASH, edgecolor=INK, zorder=1))
        over = 0.12 / scale
        pinned = Rectangle((-over, -d / 2), length + 2 * over, d, linewidth=1.4, zorder=3, **fill(use))
        sheet.add_patch(pinned)
        measure_up(sheet, length + 0.3 / scale, -d / 2, d / 2, f"pin {d:.4g}")
        _forces(sheet, places, high, load)
        level = -high - 0.55 / scale
        widths = [(places[0], places[1], _thick(outer)), (places[2], places[3], _thick(inner))]
        for start, end, text in widths:
            measure(sheet, (start, level), (end, level), text)
        stated = "not stated" if pin.gap is None else f"{pin.gap:.4g}"
        canvas.text(0.5, 0.01, f"gap {stated}", ha="center", va="bottom", color=FAINT)
        words = f"Pin of {d:.4g} mm through an inner plate of {_thick(inner)} mm between two outer ones of "
        words += f"{_thick(outer)} mm, gap {stated}, under {abs(load.pull) / 1e3:.4g} kN."
        return finished(canvas, name, words)


def _thick(eye: Eye) -> str:
    return f"{eye.wall:.4g} + {eye.doubler:.4g}" if eye.doubler else f"{eye.wall:.4g}"


def _forces(sheet: Sheet, places: list[float], high: float, load: PinLoads) -> None:
    """The whole pull on the inner plate, half of it on each outer one."""
    reach, middle = 0.3 / sheet.scale, places[-1] / 2
    arrow(sheet, (middle, high), (middle, high + reach), bold=True)
    sheet.annotate(
        f"{abs(load.pull) / 1e3:.4g} kN", (middle, high + reach), (6, -2), ha="left", va="center", fontweight="bold"
    )
    for start, end in (places[:2], places[4:]):
        arrow(sheet, ((start + end) / 2, -high), ((start + end) / 2, -high - reach))
