"""Whether what stands in the frame goes into it: sizes that contradict it are refused, doubtful ones are conditions."""

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Outcome
from structcheck.materials.bolts import find_size
from structcheck.press.frame.words import FrameAnswer, FramePart
from structcheck.press.frame_schema import CORNERS
from structcheck.press.heights import ROUNDING
from structcheck.press.mechanism_schema import GuideTable
from structcheck.press.meetings import is_turned
from structcheck.press.member_ends import WELDED
from structcheck.press.schema import PlatenTable, PressFile

IN_A_PLANE = ("closed", "H", "O")
"""Shapes whose uprights stand beside what moves; on posts a platen slides with holes of its own."""


def fit_in_frame(press: PressFile, answer: FrameAnswer) -> Outcome:
    """What rests on a size that may not fit. Raises InputError with every size that cannot be in this frame."""
    problems = [*_of_widths(press, answer), *_of_ram(press), *_of_patches(press)]
    problems += [*_of_springs(press), *_of_guides(press, answer), *_of_pieces(press, answer)]
    problems += [*_of_planes(press, answer), *_of_posts(press, answer), *_of_rods(press, answer)]
    if problems:
        raise InputError(problems)
    texts = [*_wide_platens(press, answer), *_guides_doubtful(press, answer)]
    texts += [*_pinned_doubtful(press), *_blocks_doubtful(press)]
    said = [Assumption(part, text) for part, text in _wide_spreaders(press, answer)]
    return Outcome(assumptions=(*(Assumption(part, text, text) for part, text in texts), *said))


def across(part: FramePart) -> float | None:
    """Width of a member across the frame's plane, all its pieces, mm; None where nobody says how far apart they are."""
    left, right, bottom, top = part.section.edges
    one = (top - bottom) if is_turned(part) else (right - left)
    if part.pieces == 1:
        return one
    apart = part.table.apart
    return None if apart is None else part.pieces * one + (part.pieces - 1) * apart


def foot_width(press: PressFile, answer: FrameAnswer) -> float | None:
    """Width across the frame of what the jack's foot stands on, mm: the beam, or a narrower spreader plate on it.

    A plate that sticks out beyond the beam tips as soon as the force does. In a C- or O-frame the beam is an edge.
    """
    name = press.frame.jack_on
    if press.plate is not None:
        table = getattr(press, "lower" if name == "bed" else "upper")
        gap = (table.apart if table is not None else None) or 0.0
        beam = press.plate.thickness * press.plate.pieces + gap * (press.plate.pieces - 1)
    else:
        table = getattr(press, name)
        beam = across(answer.members[name]) if name in answer.members else None
    plate = getattr(table, "spreader", None)
    widths = [width for width in (plate and plate.across, beam) if width is not None]
    return min(widths, default=None)


# ---- between the uprights --------------------------------------------------------------------


def _of_widths(press: PressFile, answer: FrameAnswer) -> Iterator[Problem]:
    clear = answer.clear
    if clear is None:
        yield from _beside_the_back(press)
        return
    yield from _beside_each_other(press, clear)
    for key in ("base", "saddle", "ram"):
        yield from _too_wide(key, getattr(press.jack, key), clear, "jack")
    yield from _too_wide("tooling", press.frame.tooling, clear, "frame")
    for name in ("head", "bed"):
        table = getattr(press, name)
        plate = getattr(table, "spreader", None)
        yield from _too_wide("pad", getattr(table, "pad", None), clear, name)
        yield from _too_wide("spreader", plate and plate.along, clear, name)
    if press.frame.shape in IN_A_PLANE and not _round_uprights(press):
        for table in press.platen:
            key, side = _in_plane(table)
            yield from _too_wide(key, side, clear, f'platen "{table.name}"')


def _too_wide(key: str, size: float | None, clear: float, part: str) -> Iterator[Problem]:
    if size is not None and size > clear + ROUNDING:
        fault = f"does not go between the uprights, {clear:g} mm apart"
        yield Problem(key, f"{size:g} mm", fault, f"at most {clear:g} mm in the frame's plane", part=part)


def _of_ram(press: PressFile) -> Iterator[Problem]:
    """A jack's own ram runs in its bore, over its foot; one that is built into the frame need not."""
    ram = press.jack.ram
    if ram is None or (press.guides is not None and press.guides.on == "ram"):
        return
    for key, size in (("bore", press.jack.bore), ("foot", press.jack.base)):
        if size is not None and ram > size + ROUNDING:
            fault, wanted = f"is wider than the jack's {key} of {size:g} mm", f"at most {size:g} mm"
            yield Problem("ram", f"{ram:g} mm", fault, wanted, part="jack")
            return


def _of_patches(press: PressFile) -> Iterator[Problem]:
    """What presses on a platen lies on it."""
    for table in press.platen:
        for key, size in (("along", table.length), ("across", table.width)):
            patch = getattr(table, key)
            if patch is not None and patch > size + ROUNDING:
                fault, wanted = f"reaches beyond a platen of {size:g} mm", f"at most {size:g} mm"
                yield Problem(key, f"{patch:g} mm", fault, wanted, part=f'platen "{table.name}"')


def _of_springs(press: PressFile) -> Iterator[Problem]:
    """Springs of a set stand under their platen, or beside it on arms no longer than itself."""
    reach = max((side for table in press.platen for side in (table.length, table.width)), default=None)
    for whole in press.return_set if reach is not None else ():
        furthest = max(abs(place.x) for place in whole.places)
        if furthest > reach + ROUNDING:
            fault, wanted = f"stand {furthest:g} mm off the middle of a platen of {reach:g} mm", "springs at the platen"
            yield Problem("places", f"{furthest:g} mm", fault, wanted, part=f'return_set "{whole.name}"')


def _beside_the_back(press: PressFile) -> Iterator[Problem]:
    """In a C-frame what stands about the force's line reaches to the back at most."""
    reach = press.plate.reach if press.frame.shape == "C" and press.plate is not None else None
    for key in ("base", "saddle"):
        size = getattr(press.jack, key)
        if reach is not None and size is not None and size / 2 > reach + ROUNDING:
            fault = f"stands in the back, {reach:g} mm from the line of the force"
            yield Problem(key, f"{size:g} mm", fault, f"at most {2 * reach:g} mm", part="jack")


def _beside_each_other(press: PressFile, clear: float) -> Iterator[Problem]:
    """Several jacks, each on its own foot, side by side between the uprights."""
    places, base = sorted(press.frame.jacks or ()), press.jack.base
    if base is None:
        return
    nearest = min((right - left for left, right in pairwise(places)), default=base)
    if nearest < base - ROUNDING:
        fault = f"stand {nearest:g} mm apart, less than a foot of {base:g} mm"
        yield Problem(
            "jacks", f"{len(places)} places", fault, f"{base:g} mm and more from one to the next", part="frame"
        )
    furthest = max((abs(place) for place in places), default=0.0)
    if furthest + base / 2 > clear / 2 + ROUNDING and base <= clear:
        fault = f"puts a foot of {base:g} mm into an upright"
        wanted = f"at most {(clear - base) / 2:g} mm from the middle"
        yield Problem("jacks", f"{furthest:g} mm", fault, wanted, part="frame")


def _in_plane(table: PlatenTable) -> tuple[str, float]:
    """The side of a platen in the frame's plane: on bearers its length runs from one frame to the next."""
    return ("width", table.width) if table.bearers else ("length", table.length)


def _round_uprights(press: PressFile) -> bool:
    """Whether the platen slides on the uprights, so that it may reach round them."""
    return press.guides is not None and press.guides.on == "uprights"


def _wide_platens(press: PressFile, answer: FrameAnswer) -> Iterator[tuple[str, str]]:
    if answer.clear is None or press.frame.shape not in IN_A_PLANE or not _round_uprights(press):
        return
    for table in press.platen:
        key, side = _in_plane(table)
        if side > answer.clear + ROUNDING:
            what = f"{table.name}, {key} {side:g} mm, is notched round the uprights"
            yield table.name, f"{what}, {answer.clear:g} mm apart, and bears the force beside its notches"


def _wide_spreaders(press: PressFile, answer: FrameAnswer) -> Iterator[tuple[str, str]]:
    for name in ("head", "bed"):
        plate = getattr(getattr(press, name), "spreader", None)
        beam = across(answer.members[name]) if name in answer.members else None
        if plate is not None and beam is not None and plate.across > beam + ROUNDING:
            text = (
                f"its spreader, {plate.across:g} mm across, sticks out beyond its {beam:g} mm, which counts for nothing"
            )
            yield name, text


# ---- guides ----------------------------------------------------------------------------------


def _of_guides(press: PressFile, answer: FrameAnswer) -> Iterator[Problem]:
    guides, tables = press.guides, press.guide
    if guides is None or guides.on == "ram" or not tables:
        return
    yield from _of_their_height(press, answer)
    lengths = [table.length for table in tables]
    if guides.length is not None and all(abs(length - guides.length) > ROUNDING for length in lengths):
        fault = f"is the length of no [[guide]]: {', '.join(f'{length:g} mm' for length in lengths)}"
        remedy = f'length = "{lengths[0]:g} mm"'
        yield Problem("length", f"{guides.length:g} mm", fault, "the length over which they bear", remedy, "guides")
    for table in tables:
        part = f'guide "{table.name}"'
        if answer.opening is not None and table.length > answer.opening + ROUNDING:
            fault = f"is longer than the opening of {answer.opening:g} mm that it slides in"
            yield Problem("length", f"{table.length:g} mm", fault, "between the outer edges of contact", part=part)
        if table.play is not None and table.play - table.seam >= table.length:
            fault, wanted = f"is as much as the guide is long, {table.length:g} mm", "the play of the guide"
            yield Problem("play", f"{table.play:g} mm", fault, wanted, part=part)
        yield from _of_spacing(table, press, answer, part)
        yield from _of_half_width(table, press, part)


def _of_their_height(press: PressFile, answer: FrameAnswer) -> Iterator[Problem]:
    """Guides on the uprights slide between the beams, not within their depth."""
    guides = press.guides
    if guides.on != "uprights" or guides.height is None or answer.opening is None or "bed" not in answer.members:
        return
    bed = answer.members["bed"]
    floor = bed.section.edges[1 if is_turned(bed) else 3]
    half = (guides.length or 0.0) / 2
    low, high = floor + half, floor + answer.opening - half
    if not low - ROUNDING <= guides.height <= high + ROUNDING:
        fault = f"puts the guides into a beam: they slide {floor:g} to {floor + answer.opening:g} mm above"
        wanted = f"{low:g} to {high:g} mm above the bed's centre-line, the middle of guides {2 * half:g} mm long"
        yield Problem("height", f"{guides.height:g} mm", fault, wanted, part="guides")


def _of_spacing(table: GuideTable, press: PressFile, answer: FrameAnswer, part: str) -> Iterator[Problem]:
    """Columns on uprights stand as far apart as those do; rods go between them, or through a platen that is as wide."""
    if table.spacing is None or table.columns == 1 or answer.clear is None:
        return
    span, planes = press.frame.span, press.frame.spacing
    if press.guides.on == "uprights" and span is not None:
        places = [span] if planes is None or press.frame.planes == 1 else [span, planes]
        if all(abs(table.spacing - place) > span - answer.clear + ROUNDING for place in places):
            fault = f"is not how far the uprights stand apart, {' or '.join(f'{p:g} mm' for p in places)}"
            wanted, remedy = "the distance between the columns", f'spacing = "{span:g} mm"'
            yield Problem("spacing", f"{table.spacing:g} mm", fault, wanted, remedy, part)
        return
    widest = max([answer.clear, *(max(platen.length, platen.width) for platen in press.platen)])
    if table.spacing >= widest:
        fault = f"puts the rods beyond uprights and platen, {widest:g} mm"
        yield Problem("spacing", f"{table.spacing:g} mm", fault, f"less than {widest:g} mm", part=part)


def _of_half_width(table: GuideTable, press: PressFile, part: str) -> Iterator[Problem]:
    """From the centre to the edge of a platen that is described."""
    if table.half_width is None or not press.platen:
        return
    halves = sorted(side / 2 for platen in press.platen for side in (platen.length, platen.width))
    if not halves[0] - ROUNDING <= table.half_width <= halves[-1] + ROUNDING:
        fault = f"is not half of a side of a platen: {', '.join(f'{half:g}' for half in dict.fromkeys(halves))} mm"
        wanted, remedy = "from the centre to the edge of the platen", f'half_width = "{halves[-1]:g} mm"'
        yield Problem("half_width", f"{table.half_width:g} mm", fault, wanted, remedy, part)


def _guides_doubtful(press: PressFile, answer: FrameAnswer) -> Iterator[tuple[str, str]]:
    """A guide that meets a beam before the stroke ends."""
    stroke = press.jack.stroke
    if press.guides is None or press.guides.on == "ram" or stroke is None or answer.opening is None:
        return
    for table in press.guide:
        if table.length + stroke > answer.opening + ROUNDING:
            runs = f"{table.length:g} mm and the stroke of {stroke:g} mm"
            yield (
                table.name,
                f"{table.name} passes the beams: {runs} are more than the opening of {answer.opening:g} mm",
            )


def _stated(press: PressFile, place: str) -> str | float:
    """How stiff a corner is said to be."""
    return press.corner[place].stiffness if place in press.corner else press.frame.corners


def _welded(press: PressFile) -> list[Any]:
    """Joints that cannot turn: welds of any kind and end plates."""
    return [table for kind in (*WELDED, "end_plate") for table in getattr(press, kind)]


def _pinned_doubtful(press: PressFile) -> Iterator[tuple[str, str]]:
    """Corners said to be pins where a joint stands that cannot turn: its moment, and the uprights', are left out."""
    frame = press.frame
    if frame.shape not in ("closed", "H", "posts"):
        return
    pinned = {place for place in CORNERS if _stated(press, place) == "pinned"}
    several = [table for table in press.bolts if table.layout or (table.rows or 1) * (table.columns or 1) > 1]
    for table in _welded(press) + several:
        places = [place for place in table.at or () if place in pinned]
        if places:
            yield "frame", f"{', '.join(places)}: {table.name} lets the corner turn as freely as a pin, as stated"


def _blocks_doubtful(press: PressFile) -> Iterator[tuple[str, str]]:
    """Corners joined by welds or end plates may be as stiff as a block, which bends the uprights harder."""
    frame = press.frame
    if frame.shape not in ("closed", "H") or frame.rigid_zones is not None:
        return
    held = {place for place in CORNERS if _stated(press, place) != "pinned"}
    stiff = [table.name for table in _welded(press) if held.intersection(table.at or ())]
    if stiff:
        text = f"the corners ({', '.join(stiff)}) are no blocks: members bend up to where their centre-lines meet"
        yield "frame", f"{text} (rigid_zones in [frame]: true judges them as blocks, false says that they are none)"


# ---- pieces that lap -------------------------------------------------------------------------


def _of_pieces(press: PressFile, answer: FrameAnswer) -> Iterator[Problem]:
    """Where plates lap at a corner, either the upright stands between the beam's pieces or the beam between its own."""
    laps = {place for table in (*press.bolts, *press.weld) if table.joint == "lap" for place in table.at or ()}
    if press.uprights is None or "left upright" not in answer.members:
        return
    upright = answer.members["left upright"]
    wide, gap = across(upright), _gap(upright)
    for name in ("head", "bed"):
        if name not in answer.members or not any(place.startswith(f"{name}/") for place in laps):
            continue
        beam = answer.members[name]
        if (gap is None and upright.pieces > 1) or (_gap(beam) is None and beam.pieces > 1):
            continue  # nobody says how far apart they are
        if gap is None and _gap(beam) is None:
            continue  # one piece on one piece: they lie face on face
        inside = wide is not None and _gap(beam) is not None and wide <= _gap(beam) + ROUNDING
        around = gap is not None and across(beam) is not None and across(beam) <= gap + ROUNDING
        if not inside and not around:
            given = f"{upright.table.apart:g} mm" if gap is not None else f"{beam.table.apart:g} mm"
            fault = (
                f"leaves upright and {name} in each other's way: {wide:g} mm of upright do not go between the pieces "
                f"of the {name}, nor {across(beam):g} mm of it between those of the upright"
            )
            part = "uprights" if gap is not None else name
            yield Problem("apart", given, fault, "the clear distance between the pieces", part=part)


def _gap(part: FramePart) -> float | None:
    return part.table.apart if part.pieces == 2 else None


# ---- planes and posts ------------------------------------------------------------------------------------


def _of_planes(press: PressFile, answer: FrameAnswer) -> Iterator[Problem]:
    """Planes side by side do not run into each other."""
    if press.frame.planes == 1 or press.frame.shape not in IN_A_PLANE:
        return
    widths = {name: across(answer.members[name]) or 0.0 for name in ("head", "bed", "left upright")}
    name = max(widths, key=widths.__getitem__)
    if press.frame.spacing < widths[name] - ROUNDING:
        fault = f"is less than the {name} is wide across the frame, {widths[name]:g} mm: the planes run into each other"
        wanted = f"{math.ceil(widths[name]):g} mm or more, from middle to middle"
        yield Problem("spacing", f"{press.frame.spacing:g} mm", fault, wanted, part="frame")


def _of_posts(press: PressFile, answer: FrameAnswer) -> Iterator[Problem]:
    """Plates on four posts reach over all of them."""
    if press.frame.shape != "posts" or press.frame.planes == 1:
        return
    apart = (press.frame.planes - 1) * press.frame.spacing
    least = apart + (across(answer.members["left upright"]) or 0.0)
    for name in ("head", "bed"):
        width = getattr(press, name).width
        if width is not None and width < least - ROUNDING:
            fault = f"does not reach over its posts, {apart:g} mm apart across it (spacing)"
            wanted = f"{math.ceil(least):g} mm or more, or posts that stand nearer"
            yield Problem("width", f"{width:g} mm", fault, wanted, f'width = "{math.ceil(least):g} mm"', name)


def _of_rods(press: PressFile, answer: FrameAnswer) -> Iterator[Problem]:
    """Rods at the corners of threaded uprights are those uprights: their thread, their number, no shorter than they."""
    thread = press.uprights.thread if press.uprights is not None else None
    if thread is None:
        return
    thick = sum(table.thickness or 0.0 for table in (press.head, press.bed))
    for rod in press.rod:
        part = f'rod "{rod.name}"'
        if not any(place.startswith(("head/", "bed/")) for place in rod.at or ()):
            continue
        if find_size(rod.size).name != find_size(thread).name:
            fault = f"is not the thread of the uprights, {thread}, which these rods are"
            yield Problem("size", f'"{rod.size}"', fault, "one thread for both", f'size = "{thread}"', part)
        pieces = press.uprights.pieces
        if rod.count != pieces:
            fault = f"is not the {pieces} that stand at each corner ([uprights] pieces)"
            wanted = "the rods at one corner, not those of the whole press"
            yield Problem("count", f"{rod.count}", fault, wanted, f"count = {pieces}", part)
        least = answer.opening + (0.0 if rod.tapped is not None else thick)
        if rod.length < least - ROUNDING:
            through = "the opening" if rod.tapped is not None else "the opening and both plates"
            fault = f"between the nuts is shorter than {through}, {least:g} mm"
            yield Problem(
                "length", f"{rod.length:g} mm", fault, f"{least:g} mm or more", f'length = "{least:g} mm"', part
            )
