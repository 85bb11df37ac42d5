"""C-frames and O-frames cut from plate: their outline with the hardest worked corner cut through, and its stress."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import numpy as np
from matplotlib.patches import Polygon

from structcheck.findings import Result
from structcheck.press.frame.c_frame import SolvedThroat
from structcheck.press.frame.envelope import case_of
from structcheck.press.frame.plates import Corners, Cut, curved_section
from structcheck.press.frame.solving import Ringed
from structcheck.press.frame_schema import PlateFrame
from structcheck.record import record
from structcheck.report.figures import FAINT, HUES, INK, WASH, Figure, drawing, fill, finished
from structcheck.report.figures_marks import Point, arrow, measure, measure_up
from structcheck.report.figures_sheet import Box, Sheet
from structcheck.report.figures_skeleton import Axis, JointState, Skeleton
from structcheck.report.figures_uses import Uses, uses_of
from structcheck.report.merged import named_together

TALL, WIDE = 3.6, 2.4
"""Most the plate takes on the paper, inches."""

LEFT, RIGHT, ABOVE, BELOW, NAMES = 1.0, 0.5, 0.42, 1.05, 0.9
"""Room round it for letters and dimensions, inches; for the names on the right of an O-frame."""

TIP = 0.35
"""How far beyond the line of the force an arm is drawn whose end is not stated, as a share of its depth."""


@record
class Outline:
    """The plate on paper: straight parts and corners, each a closed line, and where the window's inner corners stand.

    inner   corner -> (the sharp inner corner, the way from it into the window in x and in z)
    unsaid  arms whose ends are not stated
    """

    plate: PlateFrame
    opening: float
    parts: Mapping[str, Sequence[Point]]
    inner: Mapping[str, tuple[Point, Point]]
    force: float
    box: Box
    unsaid: tuple[str, ...] = ()


def throat_skeleton(found: SolvedThroat) -> Skeleton:
    """Back and arms as lines."""
    lever, height = found.throat.lever, found.throat.height
    axes = {
        "upper arm": Axis((0.0, height), (1.0, 0.0), (0.0, 1.0), lever),
        "lower arm": Axis((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), lever),
        "back": Axis((0.0, 0.0), (0.0, 1.0), (1.0, 0.0), height),
    }
    result = found.result
    factors = np.array([float(case == "force") for case in result.cases])
    return Skeleton(axes, (JointState("one piece", result, factors),))


def throat_outline(found: SolvedThroat, beyond: Mapping[str, float | None]) -> Outline:
    """A C-frame from its back's centre-line and its lower arm's; how far each arm goes on past the force."""
    plate, throat = found.throat.plate, found.throat
    b, r, low, high = plate.back / 2, plate.radius, plate.lower / 2, throat.height - plate.upper / 2
    depths = {"upper arm": plate.upper, "lower arm": plate.lower}
    past = {name: TIP * depth if beyond[name] is None else beyond[name] for name, depth in depths.items()}
    ends = {name: throat.lever + reach for name, reach in past.items()}
    inner = {"lower corner": ((b, low), (1.0, 1.0)), "upper corner": ((b, high), (1.0, -1.0))}
    parts = {
        "back": _box(-b, b, low + r, high - r),
        "lower arm": _box(b + r, max(ends["lower arm"], b + r), -low, low),
        "upper arm": _box(b + r, max(ends["upper arm"], b + r), high, high + plate.upper),
        "lower corner": _corner((b, low), (1.0, 1.0), plate.back, plate.lower, r),
        "upper corner": _corner((b, high), (1.0, -1.0), plate.back, plate.upper, r),
    }
    box = (-b, max(*ends.values(), b + r), -low, high + plate.upper)
    unsaid = tuple(name for name in depths if beyond[name] is None)
    return Outline(plate, throat.opening, parts, inner, throat.lever, box, unsaid)


def ring_outline(plate: PlateFrame, found: Ringed) -> Outline:
    """An O-frame from the centre-lines of its left side and its bed."""
    ring, b, r = found.ring, plate.back / 2, plate.radius
    low, high, span = plate.lower / 2, found.ring.height - plate.upper / 2, found.ring.span
    inner = {
        "bed/left corner": ((b, low), (1.0, 1.0)),
        "bed/right corner": ((span - b, low), (-1.0, 1.0)),
        "head/left corner": ((b, high), (1.0, -1.0)),
        "head/right corner": ((span - b, high), (-1.0, -1.0)),
    }
    parts: dict[str, Sequence[Point]] = {
        "bed": _box(b + r, span - b - r, -low, low),
        "head": _box(b + r, span - b - r, high, high + plate.upper),
        "left upright": _box(-b, b, low + r, high - r),
        "right upright": _box(span - b, span + b, low + r, high - r),
    }
    for name, (spot, way) in inner.items():
        parts[name] = _corner(spot, way, plate.back, plate.upper if name.startswith("head") else plate.lower, r)
    return Outline(plate, ring.opening, parts, inner, span / 2, (-b, span + b, -low, high + plate.upper))


def _box(left: float, right: float, low: float, high: float) -> list[Point]:
    return [(left, low), (right, low), (right, high), (left, high)]


def _corner(spot: Point, way: Point, back: float, arm: float, r: float) -> list[Point]:
    """A corner's own piece of plate, as far as its inner edge is curved."""
    (x, z), (right, up) = spot, way
    turn = np.linspace(0, np.pi / 2, 13)
    arc = [(x + right * r * (1 - np.sin(t)), z + up * r * (1 - np.cos(t))) for t in turn]
    outer = [(x - right * back, z + up * r), (x - right * back, z - up * arm), (x + right * r, z - up * arm)]
    return [*arc, *outer]


def outline_figure(outline: Outline, corners: Corners, result: Result) -> Figure:
    """The plate to scale, each part in the hue of its highest use, the hardest worked corner cut through."""
    uses = uses_of(result)
    left, right, low, high = outline.box
    # An O-frame has names on its right too, inside the dimensions.
    names = NAMES if outline.plate.window is not None else 0.0
    scale = min(TALL / (high - low), (WIDE - 0.4 * names) / (right - left))
    wide, tall = (right - left) * scale + LEFT + RIGHT + names, (high - low) * scale + ABOVE + BELOW
    box = (left - LEFT / scale, right + (RIGHT + names) / scale, low - BELOW / scale, high + ABOVE / scale)
    with drawing(wide, tall, font=11) as canvas:
        sheet = Sheet(canvas, box)
        for name, points in outline.parts.items():
            look = fill(uses[name][0]) if name in uses else {"facecolor": WASH, "edgecolor": INK}
            sheet.add_patch(Polygon(points, closed=True, linewidth=1.3, zorder=2, **look))
            _tell(sheet, name, points, uses, outline)
        _force(sheet, outline)
        _measures(sheet, outline, right + (names + 0.12) / scale)
        case, cut, level = corners.hardest()
        _cut(sheet, outline, case.corner, cut)
        listed = ", ".join(f"{name} {uses[name][1]}" for name in outline.parts if name in uses)
        words = f"Plate frame with an opening of {outline.opening:.5g} mm. Highest use: {listed}. "
        words += f"Worked hardest, {case.corner}, {cut.where}."
        caption = (
            f"To scale, in mm. Each part is shaded by its highest use, hatched above 1; the number beside it is that "
            f"use. Heavy dashes: the cut worked hardest, {case.corner}, {cut.where}, "
            f"{case_of(level, case.combination).name}."
        )
        if outline.unsaid:
            caption += f" Not stated, and drawn short: how far {named_together(outline.unsaid)} goes beyond the force."
        return finished(canvas, "figure-frame", words, caption)


def _tell(sheet: Sheet, name: str, points: Sequence[Point], uses: Uses, outline: Outline) -> None:
    """Name and use beside a part: corners and sides to the left or right, head and bed above and below."""
    left, right, low, high = outline.box
    gap = 0.07 / sheet.scale
    text = uses[name][1] if name in uses else "not judged"
    x, z = (float(v) for v in np.mean(points, axis=0))
    to_left = outline.plate.window is None or x < (left + right) / 2  # a C-frame's back is on its left
    if name in ("head", "upper arm"):
        sheet.text(x, high + gap, f"{name} {text}", ha="center", va="bottom", fontweight="bold")
        return
    if name in ("bed", "lower arm"):
        sheet.text(x, low - gap, f"{name} {text}", ha="center", va="top", fontweight="bold")
        return
    if name.endswith("corner"):
        z = high - 0.24 / sheet.scale if z > (low + high) / 2 else low + 0.24 / sheet.scale
    lines = [*name.split(" "), text]
    side: dict[str, Any] = {"ha": "right" if to_left else "left", "va": "center", "fontweight": "bold"}
    for number, line in enumerate(lines):
        height = z + ((len(lines) - 1) / 2 - number) * 0.17 / sheet.scale
        sheet.text(left - gap if to_left else right + gap, height, line, **side)


def _force(sheet: Sheet, outline: Outline) -> None:
    """The line of the force, and the pair of forces that pushes the arms apart."""
    low = outline.plate.lower / 2
    high, x, reach = low + outline.opening, outline.force, 0.3 * outline.opening
    sheet.plot([x, x], [low, high], color=FAINT, linewidth=0.8, linestyle=(0, (8, 3, 2, 3)), zorder=1)
    arrow(sheet, (x, low + reach), (x, low), bold=True)
    arrow(sheet, (x, high - reach), (x, high), bold=True)


def _measures(sheet: Sheet, outline: Outline, beside: float) -> None:
    """Opening, reach or window, depths and the inner radius."""
    plate, low = outline.plate, outline.box[2]
    inside, b, step = plate.lower / 2, plate.back / 2, 0.42 / sheet.scale
    first, second = low - 0.62 * step - 0.2 / sheet.scale, low - 1.7 * step
    if plate.reach is not None:
        measure(sheet, (b, first), (outline.force, first), f"reach {plate.reach:.5g}")
    elif plate.window is not None:
        measure(sheet, (b, first), (b + plate.window, first), f"window {plate.window:.5g}")
    measure(sheet, (-b, second), (b, second), f"{'back' if plate.reach is not None else 'side'} {plate.back:.5g}")
    measure_up(sheet, beside, inside, inside + outline.opening, f"opening {outline.opening:.5g}")
    measure_up(sheet, beside, -inside, inside, f"{plate.lower:.5g}")
    top = inside + outline.opening
    measure_up(sheet, beside, top, top + plate.upper, f"{plate.upper:.5g}")
    spot, (to_right, up) = next(iter(outline.inner.values()))
    mid = (1 - np.sqrt(0.5)) * plate.radius
    at = (spot[0] + to_right * mid, spot[1] + up * mid)
    offset = (6 * to_right, 7 * up)
    sheet.annotate(f"R {plate.radius:.5g}", at, offset, ha="left", va="bottom" if up > 0 else "top", color=FAINT)


def _cut(sheet: Sheet, outline: Outline, corner: str, cut: Cut) -> None:
    """The hardest worked cut, from the inner edge outwards, and where its bending leaves no stress."""
    spot, (right, up) = outline.inner[corner]
    r = outline.plate.radius
    share = {"half": np.pi / 4}.get(cut.where.split(" ")[0])
    meets_side = "back" in cut.where or "side" in cut.where
    turn = share if share is not None else 0.0 if meets_side else np.pi / 2
    middle = (spot[0] + right * r, spot[1] + up * r)
    way = (-right * np.cos(turn), -up * np.sin(turn))

    def at(radius: float) -> Point:
        return middle[0] + radius * way[0], middle[1] + radius * way[1]

    inner, outer = at(r), at(r + cut.depth)
    sheet.plot(*zip(inner, outer, strict=True), color=INK, linewidth=2.6, linestyle=(0, (3, 1.5)), zorder=6)
    neutral = at(curved_section(outline.plate, cut).r_neutral)
    sheet.plot(
        [neutral[0]], [neutral[1]], marker="o", markersize=6, markerfacecolor=WASH, markeredgecolor=INK, zorder=7
    )


# ---- the stress in the cut -------------------------------------------------------------------


def stress_figure(corners: Corners) -> Figure:
    """Stress across the hardest worked cut, from the inner edge to the outer."""
    plate, (case, cut, level) = corners.plate, corners.hardest()
    section = curved_section(plate, cut)
    at = np.linspace(section.inner, section.outer, 41)
    stress = level.force * np.asarray(section.stress(at, cut.N, cut.M))
    wide, tall = 2.6, 1.5
    top, bottom = max(float(stress.max()), 0.0), min(float(stress.min()), 0.0)
    x, y = (at - section.inner) / cut.depth * wide, stress / max(top - bottom, 1e-9) * tall
    low, high = bottom / max(top - bottom, 1e-9) * tall, top / max(top - bottom, 1e-9) * tall
    with drawing(wide + 1.4, high - low + 1.45, font=11) as canvas:
        sheet = Sheet(canvas, (-0.7, wide + 0.7, low - 0.95, high + 0.5))
        sheet.fill(np.r_[0, x, wide], np.r_[0, y, 0], facecolor=HUES[1], edgecolor="none", zorder=1)
        sheet.plot([0, wide], [0, 0], color=INK, linewidth=1.4)
        sheet.plot(np.r_[0, x, wide], np.r_[0, y, 0], color=HUES[5], linewidth=1.4)
        for place, value in ((x[0], stress[0]), (x[-1], stress[-1])):
            height = value / max(top - bottom, 1e-9) * tall
            up = value >= 0
            sheet.annotate(
                f"{value:.4g} MPa", (float(place), float(height)), (0, 4 if up else -4), ha="center",
                va="bottom" if up else "top", fontweight="bold",
            )  # fmt: skip
        neutral = (section.r_neutral - section.inner) / cut.depth * wide
        sheet.plot([neutral, neutral], [low - 0.1, high + 0.02], color=INK, linewidth=1.0, linestyle=(0, (6, 3, 1, 3)))
        sheet.annotate("neutral axis", (neutral, high + 0.02), (3, 2), ha="left", va="bottom")
        measure(sheet, (0, low - 0.36), (neutral, low - 0.36), f"{section.r_neutral - section.inner:.4g}")
        measure(sheet, (0, low - 0.66), (wide, low - 0.66), f"{cut.depth:.4g} from inner to outer edge")
        name = case_of(level, case.combination).name
        words = f"Stress across the {case.corner}, {cut.where}, {name}: {stress[0]:.4g} MPa at the inner edge, "
        deep = section.r_neutral - section.inner
        words += f"{stress[-1]:.4g} MPa at the outer; bending leaves none {deep:.4g} mm in."
        aside = " What bends and twists it out of the plate's plane comes on top in the check and is not drawn."
        aside = aside if cut.across or cut.twist else ""
        caption = (
            f"Stress across that cut by {level.limit} force, pull and bending in the plate's plane, "
            f"as a curved bar; pulling up.{aside}"
        )
        return finished(canvas, "figure-stress", words, caption)


def plate_figures(outline: Outline, corners: Corners, result: Result) -> Iterator[Figure]:
    """The outline, and the stress in its hardest worked cut."""
    yield outline_figure(outline, corners, result)
    yield stress_figure(corners)
