"""A ring of two beams and two uprights, built for the analysis and loaded in every position.

Global axes: x to the right, y to the back, z up; the bed's centre-line is z = 0 and the left upright x = 0.
"""

from collections.abc import Sequence
from itertools import pairwise

from structcheck.analysis.frame import (
    RIGID,
    Frame,
    Joint,
    Member,
    NodeLoad,
    PointOnMember,
    SpreadOnMember,
    Support,
)
from structcheck.analysis.frame_model import Load
from structcheck.press.frame.off_centre import Position, Push
from structcheck.press.frame.states import Hinge
from structcheck.press.frame.understood import E, G, Part, Ring
from structcheck.press.frame_schema import Guides, Stops
from structcheck.record import record

PROP = ("head/left", "x")
"""Keeps the loosened ring from racking; carries nothing in any state that is used."""


@record
class Built:
    """The loosened ring and where its corners stand."""

    frame: Frame
    hinges: tuple[Hinge, ...]
    lengths: dict[str, float]


def build(ring: Ring) -> Built:
    """The ring with every corner loose in its plane, on supports that carry nothing under the jack's force."""
    h, L, legs = ring.height, ring.span, ring.legs
    nodes = {
        "bed/left": (0.0, 0.0, 0.0),
        "bed/right": (L, 0.0, 0.0),
        "head/left": (0.0, 0.0, h),
        "head/right": (L, 0.0, h),
    }
    beam_zone = ring.upright.depth / 2 if ring.rigid_zones else 0.0
    zones = (0.0 if ring.pinned_bed else ring.bed.high, ring.head.low) if ring.rigid_zones else (0.0, 0.0)
    loose = Joint(ry=0.0, offset=beam_zone)
    # A pin beside the upright's centre-line hangs on it by a rigid arm.
    bed_end = Joint(ry=0.0, offset=ring.pin_offset) if ring.pinned_bed else loose
    members = [
        _member("head", "head/left", "head/right", ring.head, None, loose, loose),
        _member("bed", "bed/left", "bed/right", ring.bed, None, bed_end, bed_end),
    ]
    for side, inwards in (("left", 1.0), ("right", -1.0)):
        ends = Joint(offset=zones[0]), Joint(offset=zones[1])
        name = f"{side} upright"
        members.append(_member(name, f"bed/{side}", f"head/{side}", ring.upright, (inwards, 0.0, 0.0), *ends))
    if legs:
        nodes |= {"foot/left": (0.0, 0.0, -legs), "foot/right": (L, 0.0, -legs)}
        for side, inwards in (("left", 1.0), ("right", -1.0)):
            up = (inwards, 0.0, 0.0)
            members.append(_member(f"{side} leg", f"foot/{side}", f"bed/{side}", ring.upright, up, RIGID, RIGID))
        if ring.tied_feet:
            members.append(_member("foot tie", "foot/left", "foot/right", ring.upright, None, RIGID, RIGID))
    stands = "foot" if legs else "bed"
    supports = [
        Support(f"{stands}/left", "x y z rx"),
        Support(f"{stands}/right", "y z"),
        Support(PROP[0], springs={PROP[1]: 1e-4 * E * ring.upright.A / h}),
    ]
    places = ["head/left", "head/right"] if ring.pinned_bed else ["head/left", "head/right", "bed/left", "bed/right"]
    hinges = []
    for place in places:
        beam, side = place.split("/")
        hinges.append(Hinge(place, beam, place, beam_zone if side == "left" else L - beam_zone))
    return Built(Frame(nodes, members, supports), tuple(hinges), {"head": L, "bed": L, "upright": h})


def _member(name: str, start: str, end: str, part: Part, up, at_start: Joint, at_end: Joint) -> Member:
    return Member(
        name,
        start,
        end,
        E=E,
        G=G,
        A=part.A,
        Iy=part.I_plane,
        Iz=part.I_across,
        J=part.J,
        Asy=part.As_across,
        Asz=part.As_plane,
        up=up,
        at_start=at_start,
        at_end=at_end,
    )


def loads(
    ring: Ring, position: Position, over: tuple[float, float], guides: Guides | None, stops: Stops | None = None
) -> list[Load]:
    """The loads of one position for 1 N of all jacks; `over` is the spread on head and bed, mm."""
    found: list[Load] = []
    pushed: tuple[tuple[str, Sequence[Push], float, float], ...] = (
        ("head", position.head, 1.0, over[0]),
        ("bed", position.bed, -1.0, over[1]),
    )
    for beam, pushes, way, width in pushed:
        for push in pushes:
            found += _push(ring, beam, push, way, width)
    if position.stopped and stops:
        found += _stopped(ring, position, stops)
    if any(position.couple):
        found += _couple(ring, position, guides)
    if position.met:
        turn = (-position.couple[1] / 2, 0.0, 0.0)
        found += [NodeLoad(f"{position.met}/{side}", moment=turn) for side in ("left", "right")]
    return found


def _stopped(ring: Ring, position: Position, stops: Stops) -> list[Load]:
    """Stops on both uprights, a lever's share of the force on each, `offset` inside the centre-line."""
    found: list[Load] = []
    for (side, force), inwards in zip(on_each_stop(ring, stops, position).items(), (1.0, -1.0), strict=True):
        # A force up at a place to the right turns the upright the other way about y.
        turn = -inwards * stops.offset * force
        found.append(PointOnMember(f"{side} upright", stops.height, (0.0, 0.0, force), (0.0, turn, 0.0)))
    return found


def on_each_stop(ring: Ring, stops: Stops, position: Position) -> dict[str, float]:
    """side -> what its stop takes of 1 N, by the lever of the platen from stop to stop."""
    right = sum(push.share * (push.x / (ring.span - 2 * stops.offset) + 0.5) for push in position.bed)
    return {"left": position.total - right, "right": right}


def _push(ring: Ring, beam: str, push: Push, way: float, over: float) -> list[Load]:
    x, force = ring.span / 2 + push.x, way * push.share
    turn = PointOnMember(beam, x, moment=(force * push.y, 0.0, 0.0))
    half = min(over / 2, x, ring.span - x)
    if half <= 0:
        return [PointOnMember(beam, x, (0.0, 0.0, force), (force * push.y, 0.0, 0.0))]
    # In quarters, so that the places between its ends are looked at too.
    ends = [x + half * step for step in (-1.0, -0.5, 0.0, 0.5, 1.0)]
    spread = [SpreadOnMember(beam, (0.0, 0.0, force / (2 * half)), a, b) for a, b in pairwise(ends)]
    return [*spread, turn] if push.y else [*spread]


def _couple(ring: Ring, position: Position, guides: Guides | None) -> list[Load]:
    """The guides' couple on the frame, half to each side; balances what the beams' forces leave."""
    about_y, about_x = position.couple
    if guides is None:
        # Nothing is there to take it: `racking` says so, and the frame's own answer is that of built-in guides.
        return _on_uprights(ring, about_y, about_x, ring.height / 2, None)
    if guides.on == "rods":
        return _on_beams(ring, about_y, about_x)
    height = guides.height if guides.height is not None else ring.height / 2
    return _on_uprights(ring, about_y, about_x, height, guides.length)


def _on_uprights(ring: Ring, about_y: float, about_x: float, height: float, length: float | None) -> list[Load]:
    found: list[Load] = []
    for name in ("left upright", "right upright"):
        if not length:
            found.append(PointOnMember(name, height, moment=(about_x / 2, about_y / 2, 0.0)))
            continue
        half = length / 2
        # A moment about y is a push to the right above and to the left below; about x, to the front above.
        force = (about_y / (2 * length), -about_x / (2 * length), 0.0)
        back = (-force[0], -force[1], 0.0)
        found += [PointOnMember(name, height + half, force), PointOnMember(name, height - half, back)]
    return found


def _on_beams(ring: Ring, about_y: float, about_x: float) -> list[Load]:
    """Rods between bed and head hand the couple to both as forces across them."""
    force = (about_y / (2 * ring.height), -about_x / (2 * ring.height), 0.0)
    back = (-force[0], -force[1], 0.0)
    return [NodeLoad(f"{beam}/{side}", f) for beam, f in (("head", force), ("bed", back)) for side in ("left", "right")]
