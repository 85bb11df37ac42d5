"""What parts offer to a weld: how thick a throat they take, and how long a run their end has room for."""

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import Literal

import numpy as np

from structcheck.checks.basis import Basis
from structcheck.checks.member_forms import form
from structcheck.checks.weld_strength import quality
from structcheck.errors import NotCovered, Problem
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.shapes.section import Section
from structcheck.showing import show
from structcheck.standards.en1993_1_8 import welds

Side = Literal["both", "alone", "edge"]
"""Fillets on both sides of the part; one on one side, or round a tube; one along the edge of a part that lies flat."""


def most_throat(t: float, steel: Steel, inspected: bool, side: Side = "both") -> float:
    """Thickest throat that a part t mm thick takes, mm; ours, as no clause says.

    As thick as the part, half as much again where it is alone, or as strong as the part where that is more: beyond it
    the part burns and gains nothing. Along an edge a leg ends where the edge does.
    """
    whole = 1.5 * t if side == "alone" else t
    if side == "edge":
        return t / math.sqrt(2)
    basis = Basis()
    try:
        f_y, f_u = steel.strengths(t)
    except NotCovered:
        return whole
    if steel.beta_w is None or not math.isfinite(steel.beta_w):
        return whole
    both = welds.full_strength_throat.function(t, f_y, f_u, steel.beta_w, basis.gamma_M0, basis.gamma_M2)
    return max(whole, both / quality(inspected) * (2 if side == "alone" else 1))


LARGEST_FILLET = 30.0
"""Ours, mm: a leg of 42 mm, laid in dozens of passes."""

LONGEST_LEG = 3.0
"""Ours: a leg more than three times the other lies so flat that its toe is no weld."""


def legs_apart(leg: float | None, leg_2: float | None) -> tuple[Problem, ...]:
    """Unequal legs that are no fillet's."""
    if leg is None or leg_2 is None or min(leg, leg_2) <= 0 or max(leg, leg_2) <= LONGEST_LEG * min(leg, leg_2):
        return ()
    fault, wanted = f"is no fillet's beside a leg of {leg:g} mm", f"at most {LONGEST_LEG:g} times the other leg"
    return (Problem("leg_2", show(leg_2, "mm"), fault, wanted, f'leg_2 = "{leg:g} mm"'),)


def throat_above(
    key: str, a: float, t: float | None, steel: Steel, inspected: bool, side: Side = "both"
) -> tuple[Problem, ...]:
    """What is wrong with a throat a: on a part t mm thick, where that is stated, and on any part."""
    if a > LARGEST_FILLET:
        wanted = f"at most {LARGEST_FILLET:g} mm; what is thicker is a butt weld"
        return (Problem(key, show(a, "mm"), "is a throat no fillet has", wanted, 'throat = "5 mm"'),)
    if t is None or not (math.isfinite(t) and t > 0):
        return ()
    most = most_throat(t, steel, inspected, side)
    if not a > most * 1.001:
        return ()
    if side == "edge":
        fault = f"is more than an edge {t:g} mm thick takes: the leg of {a * math.sqrt(2):.3g} mm stands over it"
    else:
        fault = f"is a throat above what a part {t:g} mm thick takes: it burns the part and gains nothing"
    wanted = f"a throat of at most {math.floor(10 * most) / 10:g} mm; 0.7 x the thickness is good practice"
    less = max(0.7 * t, 3.0)
    return (Problem(key, show(a, "mm"), fault, wanted, f'throat = "{less:.2g} mm"' if less <= most else ""),)


def thinner_above(thickness: float | None, thickest: float | None) -> tuple[Problem, ...]:
    """The two thicknesses told the wrong way round."""
    if thickness is None or thickest is None or not thickness > thickest:
        return ()
    fault = f"is the thinner part, and `thickest` the thicker one, {thickest:g} mm"
    return (Problem("thickness", show(thickness, "mm"), fault, f"at most {thickest:g} mm"),)


@record
class Room:
    """The end of a member as welds find it, in the axes of the frame; mm.

    called  its designation
    depth   upright, in the frame's plane
    run     longest upright run there is room for
    width   across the frame, all pieces and what is between them; None: not known
    wall    thickness of what an upright run stands on; None: not known
    sides   upright sides of one piece that can be welded; None: not known
    around  length of the outline of one piece; None: not known
    hollow  it can be welded from outside only
    pieces  side by side
    """

    called: str
    depth: float
    run: float
    width: float | None
    wall: float | None
    sides: int | None
    around: float | None
    hollow: bool = False
    pieces: int = 1

    @property
    def drawn_around(self) -> float:
        """The outline as one may draw it, its corners sharp, mm."""
        return max(self.around or 0.0, 2 * (self.depth + (self.width or 0.0) / self.pieces))


@lru_cache(256)
def room_of(section: Section, pieces: int, apart: float | None, turned: bool) -> Room:
    """What a member offers that is bent about its strong axis in the frame's plane, or about its weak one."""
    left, right, bottom, top = section.edges
    deep, wide = (right - left, top - bottom) if turned else (top - bottom, right - left)
    across = wide if pieces == 1 else None if apart is None else pieces * wide + (pieces - 1) * apart
    wall, sides = _upright_wall(section, turned)
    hollow = form(section) in ("hollow", "tube", "box")
    # The web of an I is welded between its flanges; the back of a channel as deep as it is.
    run = float(section.shape.h - 2 * section.shape.tf) if form(section) == "i" and not turned else deep
    return Room(section.designation, deep, run, across, wall, sides, _outline(section), hollow, pieces)


def _upright_wall(section: Section, turned: bool) -> tuple[float | None, int | None]:
    shape, kind = section.shape, form(section)
    if kind in ("i", "channel"):
        return (float(shape.tf), 4) if turned else (float(shape.tw), 2)
    if kind in ("hollow", "tube"):
        return float(shape.t), 2
    if kind == "rectangle":
        return float(shape.h if turned else shape.b), 2
    return None, None


def wall_at(section: Section, turned: bool, spot: np.ndarray) -> float | None:
    """Thickness of the wall of a member's end that is nearest to a spot (x, y, z) of the frame; None: not known."""
    if form(section) not in ("i", "channel", "hollow", "tube", "rectangle"):
        return None
    low, high = section.edges[0::2], section.edges[1::2]
    middle = (np.asarray(low) + np.asarray(high)) / 2  # the frame's axes go through the middle of the outline
    y, z = (float(at) for at in ((spot[2], spot[1]) if turned else (spot[1], spot[2])) + middle)
    if form(section) == "tube":
        return float(section.shape.t)
    nearest = min(section.elements, key=lambda e: _distance((y, z), e.start, e.end) - e.t / 2)
    return nearest.t


def _distance(spot: tuple[float, float], start: tuple[float, float], end: tuple[float, float]) -> float:
    """From a spot to the line between two others."""
    y, z = end[0] - start[0], end[1] - start[1]
    share = ((spot[0] - start[0]) * y + (spot[1] - start[1]) * z) / max(y * y + z * z, 1e-12)
    share = min(max(share, 0.0), 1.0)
    return math.hypot(spot[0] - start[0] - share * y, spot[1] - start[1] - share * z)


def _outline(section: Section) -> float | None:
    if form(section) in ("box", "other"):
        return None
    corners = section.outline()[0]
    return float(np.sum(np.linalg.norm(np.roll(corners, -1, axis=0) - corners, axis=1)))


def runs_round(length: float, at: Room) -> list[Problem]:
    """What is wrong with the length of a run all round a member's end."""
    if at.around is None:
        return []
    if 0.97 * at.around - SLACK <= length <= at.drawn_around + SLACK:
        return []
    fault, wanted = f"is not the way round {at.called}, {at.around:.4g} mm", "the whole outline, or a weld group"
    return [Problem("length", show(length, "mm"), fault, wanted, _write("length", at.around))]


def upright_runs_beyond(
    length: float, runs: int, spread: float, a: float, at: Room, on: Room | None, *, gusset: bool = True
) -> list[Problem]:
    """What is wrong with equal upright runs at the end of a member.

    spread  from the first run to the last, across the frame
    on      the member lapped on, where the two lie side by side; None: the runs join the end of `at` alone
    gusset  a part of its own may be longer, and there is a key to say so
    """
    problems = []
    if length > at.run + SLACK:
        fault = f"is longer than {at.called} has room for there, {at.run:.4g} mm"
        wanted, remedy = _at_most(at.run, gusset), _write("length", at.run)
        problems.append(Problem("length", show(length, "mm"), fault, wanted, remedy))
    most = _most_runs(at, on)
    if most is not None and runs > most:
        fault = f"upright runs are more than {at.called} has sides for"
        problems.append(Problem("runs", str(runs), fault, f"at most {most}", f"runs = {most}"))
    widths = [one.width for one in (at, on) if one is not None]
    if runs > 1 and None not in widths and spread > max(widths) + 2 * a + SLACK:
        fault = f"puts runs {spread:.4g} mm apart, beside {at.called}"
        wanted = f"all within {max(widths):.4g} mm across the frame"
        problems.append(Problem("spacing", show(spread / (runs - 1), "mm"), fault, wanted))
    return problems


SLACK = 1.0
"""What a drawing may be out by, mm."""


def _most_runs(at: Room, on: Room | None) -> int | None:
    """Two for each wall; in a lap two for each face on which one piece lies on another."""
    if on is not None:
        return 2 * (at.pieces + on.pieces - 1)
    return None if at.sides is None else at.sides * at.pieces


def _at_most(length: float, gusset: bool = True) -> str:
    if not gusset:
        return f"at most {length:.4g} mm"
    return f"at most {length:.4g} mm; on a gusset, haunch or cleat of its own, say gusset = true"


def _write(key: str, length: float) -> str:
    return f'{key} = "{math.floor(length):g} mm"'


Box = tuple[float | None, float | None, float | None]
"""How far from the origin runs may stand along x, y and z, mm; None: not known."""


def box_of(at: Room, on: Room | None, lap: bool) -> Box:
    """Where a weld at the end of `at` on the member `on` can lie: the overlap of a lap, or the face at x = 0.

    An end plate may stand between the face and the beam's end.
    """
    x = THICKEST_END if not lap else None if on is None else on.depth / 2
    widths = [one.width for one in (at, on if lap else None) if one is not None]
    return x, None if None in widths else max(widths) / 2, at.depth / 2


THICKEST_END = 40.0
"""Of the plate at a beam's end, mm; ours."""


def points_beyond(key: str, points: np.ndarray, a: float, box: Box, called: str) -> list[Problem]:
    """What is wrong with a run whose points stand outside the box, a throat and some slack aside."""
    for axis, most in enumerate(box):
        if most is None:
            continue
        far = float(np.max(np.abs(points[:, axis])))
        if far > most + 2 * a + SLACK:
            fault = f"goes out to {far:.4g} mm along {'xyz'[axis]}, where {called} offers {most:.4g} mm"
            return [Problem(key, "", fault, _at_most(most).replace("at most", "within"), "")]
    return []


def longer_than_outline(lengths: Sequence[float], at: Room, on: Room | None, lap: bool) -> list[Problem]:
    """What is wrong with fillets that are longer together than all there is to weld along."""
    total = sum(lengths)
    if lap:
        if on is None:
            return []
        most = 2 * (at.depth + on.depth) * (at.pieces + on.pieces - 1)
        what = f"the edges of {at.called} on {on.called}"
    else:
        if at.around is None:
            return []
        most, what = at.drawn_around * at.pieces, f"the outline of {at.called}"
    if total <= 1.02 * most + SLACK:
        return []
    fault = f"are {total:.4g} mm long together, and {what} {most:.4g} mm"
    return [Problem("runs", "", fault, _at_most(most))]
