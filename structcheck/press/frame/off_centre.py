"""Where the jack's force can stand: central, off centre in line, off centre as a couple, several jacks.

A position is written for a force of 1 N of all jacks together. Places are measured from the frame's middle, x to the
right in the frame's plane, y to the back across it.
"""

from functools import cached_property

from structcheck.findings import Assumption
from structcheck.press.frame_schema import FrameTable, Guides, Stops
from structcheck.press.schema import Jack
from structcheck.record import record

SIDES = {"left": (-1, 0), "right": (1, 0), "front": (0, -1), "back": (0, 1)}
LEAST_OFFSET = 50.0
LEAST_ACROSS = 10.0
SPAN_SHARE = 0.05
BALL_FRICTION = 0.15
"""Greased steel on steel (common practice): what a ball under the saddle still hands on of a couple."""
OTHER_JACK = 2 / 3
"""Of two jacks worked unevenly one gives its rating, the other two thirds."""


@record
class Push:
    """A share of the force at one place of a beam."""

    share: float
    x: float = 0.0
    y: float = 0.0


@record
class Position:
    """One way the force can stand.

    name      "" for the middle, else what every finding from it is called
    head, bed what pushes on each beam, shares of the force
    couple    about y (positive turns z towards x) and about x, per N: what is left to guides, stops or ram
    central   whether it is judged at rated force too
    stopped   the platen bears on stops on the uprights, not on the head
    taken     what one plane takes of each jack's force; 1 where every plane has its own jack
    met       the beam at whose corners each upright hands the couple about x on; "": the beams' own forces meet it
    across    how far to the back the work pushes on planes side by side, whose own pushes stay in their plane
    """

    name: str
    head: tuple[Push, ...]
    bed: tuple[Push, ...]
    couple: tuple[float, float] = (0.0, 0.0)
    central: bool = False
    stopped: bool = False
    taken: float = 1.0
    met: str = ""
    across: float = 0.0

    @cached_property
    def total(self) -> float:
        """Share of the force of all jacks that is at work."""
        return sum(push.share for push in self.head or self.bed)


@record
class Offsets:
    """How far off centre the load is allowed for, mm; `rolls`: how far jack and work may run together."""

    plane: float
    across: float
    rolls: float = 0.0
    assumptions: tuple[Assumption, ...] = ()


def offsets(jack: Jack, frame: FrameTable, span: float, rolls: float = 0.0) -> Offsets:
    """Stated offsets, or those taken where none is stated."""
    assumed = []
    plane, across = jack.offset, jack.offset_across
    if plane is None:
        plane = max(LEAST_OFFSET, (frame.tooling or 0.0) / 2, SPAN_SHARE * span)
        text = f"offset in the frame's plane not stated: {plane:g} mm taken (50 mm, half the tooling, 5 % of the span)"
        assumed.append(Assumption("frame", text))
    if across is None:
        across = max(LEAST_ACROSS, (jack.saddle or 0.0) / 4)
        text = f"offset across the frame not stated: {across:g} mm taken (10 mm, a quarter of the saddle)"
        assumed.append(Assumption("frame", text))
    return Offsets(plane, across, rolls, tuple(assumed))


def reach_of_saddle(jack: Jack) -> float | None:
    """How far off its axis the saddle hands the force on, mm: to its edge, or on a ball until that slips."""
    if jack.saddle is None:
        return None
    return jack.saddle / 2 * (BALL_FRICTION if jack.seat == "ball" else 1.0)


def positions(jack: Jack, frame: FrameTable, guides: Guides | None, off: Offsets) -> tuple[Position, ...]:
    """Every position of the force on one plane of the frame."""
    planes = frame.planes
    if frame.jacks is None and jack.count == planes and planes > 1:
        return _one_in_each_plane(jack, frame, guides, off)
    share = 1 / planes
    places = tuple(frame.jacks or (0.0,))
    found = [_in_line("", [Push(share / len(places), x) for x in places], central=True, taken=share)]
    if len(places) > 1:
        found += _uneven(places, share)
    for side, (right, back) in SIDES.items():
        e, across = right * off.plane, back * off.across
        along = right * max(off.plane, off.rolls)
        if along == across == 0.0:
            continue
        if across and planes > 1:
            # Planes side by side share the force as a lever does; the near one takes more.
            near = _near_share(off.across, planes, frame.spacing)
            moved = [Push(near / len(places), x) for x in places]
            found.append(_in_line(f"off centre in line, {side}", moved, taken=near, across=across))
            found += _couples_across(side, moved, across, share, guides, near)
            continue
        moved = [Push(share / len(places), x + along, across) for x in places]
        found.append(_in_line(f"off centre in line, {side}", moved, taken=share))
        if e or across:
            found += _couples(
                side, [Push(share / len(places), x) for x in places], e, across, jack, frame, guides, share
            )
    return tuple(found)


def on_stops(stops: Stops | None, frame: FrameTable, off: Offsets) -> tuple[Position, ...]:
    """The platen on stops of both uprights, the jack in the middle and off it: the head is left out."""
    if stops is None:
        return ()
    places, taken = tuple(frame.jacks or (0.0,)), 1 / frame.planes
    shifts = {"": 0.0, ", left": -off.plane, ", right": off.plane} if off.plane else {"": 0.0}
    return tuple(
        Position(
            f"on the stops{side}",
            (),
            tuple(Push(taken / len(places), x + shift) for x in places),
            central=not shift,
            stopped=True,
            taken=taken,
        )
        for side, shift in shifts.items()
    )


def _near_share(e: float, planes: int, spacing: float) -> float:
    """Share of the outermost of several planes when the force stands e off their middle (rigid cross-member)."""
    outer = (planes - 1) / 2 * spacing
    return 1 / planes + e * outer / sum(((i - (planes - 1) / 2) * spacing) ** 2 for i in range(planes))


def _in_line(
    name: str, pushes: list[Push], *, central: bool = False, taken: float = 1.0, across: float = 0.0
) -> Position:
    return Position(name, tuple(pushes), tuple(pushes), central=central, taken=taken, across=across)


def _uneven(places: tuple[float, ...], share: float) -> list[Position]:
    each = share / len(places)
    found = []
    for number, x in enumerate(places):
        pushes = [Push(each if i == number else each * OTHER_JACK, other) for i, other in enumerate(places)]
        found.append(_in_line(f"uneven, jack {number + 1} leads", pushes, central=True, taken=share))
        found.append(_in_line(f"jack {number + 1} alone", [Push(each, x)], central=True, taken=share))
    return found


def _couples(
    side: str,
    jacks: list[Push],
    e: float,
    across: float,
    jack: Jack,
    frame: FrameTable,
    guides: Guides | None,
    taken: float = 1.0,
) -> list[Position]:
    """The jack stays, the work pushes back at the offset.

    What the saddle passes on shifts the line of the jack's force by at most its radius; what it does not is left to
    the guides. Everything is linear in the saddle's part, so its least and its most are enough.
    """
    if guides and guides.on == "ram":
        # The ram takes it all: its foot then pushes at the offset too, which is the position in line.
        return []
    size = abs(e) + abs(across)
    radius = (jack.saddle or 0.0) / 2
    most = min(radius / size, 1.0)
    parts = [(most, "")]
    if guides:
        parts = [(0.0, "the guides take all of it")] + [(most, "the saddle takes its most")] * (most > 0)
    found = []
    for part, words in parts:
        work = tuple(Push(p.share, p.x + e, p.y + across) for p in jacks)
        base = tuple(Push(p.share, p.x + e * part, p.y + across * part) for p in jacks)
        head, bed = (work, base) if frame.jack_on == "bed" else (base, work)
        # The couple the beams' forces make is balanced by the guides: about y it is -F e for a push up at +e.
        sign = 1.0 if frame.jack_on == "bed" else -1.0
        total = sum(p.share for p in jacks)
        left = (1 - part) * total * sign
        name = f"off centre couple, {side}" + (f", {words}" if words else "")
        found.append(Position(name, head, bed, couple=(left * e, -left * across), taken=taken))
    return found


def _couples_across(
    side: str, moved: list[Push], across: float, share: float, guides: Guides | None, taken: float
) -> list[Position]:
    """The jack stays, the work pushes back across planes side by side, and guides on the uprights take the couple.

    All uprights share it. How each hands it on to head and bed hangs on what joins the planes there: all of it to
    either is the most that bends it.
    """
    if guides is None or guides.on != "uprights":
        return []
    name, pushes = f"off centre couple, {side}, the guides take all of it", tuple(moved)
    return [
        Position(
            f"{name}, met at the {beam}",
            pushes,
            pushes,
            couple=(0.0, -across * share),
            taken=taken,
            met=beam,
            across=across,
        )
        for beam in ("head", "bed")
    ]


def _one_in_each_plane(jack: Jack, frame: FrameTable, guides: Guides | None, off: Offsets) -> tuple[Position, ...]:
    """As many jacks as planes: each plane carries its own jack, which at its rating is the most it can meet."""
    share = 1 / jack.count
    alone = Push(share)
    found = [_in_line("", [alone], central=True)]
    for side, (right, back) in SIDES.items():
        e, across = right * off.plane, back * off.across
        along = right * max(off.plane, off.rolls)
        if along or across:
            found.append(_in_line(f"off centre in line, {side}", [Push(share, along, across)]))
        if e or across:
            found += _couples(side, [alone], e, across, jack, frame, guides)
    return tuple(found)
