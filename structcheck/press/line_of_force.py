"""Where the line of the jack's force runs: inside the saddle, the foot and an eighth of the ram's diameter.

The saddle hands on the couple of a load off centre until the force stands at its edge, or, turning on a ball, until the
ball slips; guides take the rest. What the saddle hands on bends the ram, whatever guides are there. A platen that leans
in the play of its guides turns the force too, which walks off the ram's axis over its length.
"""

import math
from collections.abc import Iterator

from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, judged, not_checked, worst
from structcheck.press.frame.off_centre import BALL_FRICTION, reach_of_saddle
from structcheck.press.frame.words import FrameAnswer
from structcheck.press.frame_fit import foot_width
from structcheck.press.schema import PressFile
from structcheck.record import record

CHECK = "resultant"
STATICS = "statics of the platen"
CORE = "core of a round bar, d / 8"


@record
class Lean:
    """How far the platen leans in the play of its guides, in mm per mm; None: the play of a guide is not stated.

    length  of the shortest guide, mm
    """

    slope: float | None
    length: float


BALL_OR_NEARER = "beyond it the ram bends: a ball seat (seat), or stops that keep the work nearer, spare it"
NEARER = (
    "beyond it the ram bends: stops that keep the work nearer (offset) spare it; the guides are on it, so that a ball "
    "seat would not"
)
NO_GUIDES = "without guides nothing takes the couple beyond it: [guides], or stops that keep the work nearer (offset)"


@record
class Held:
    """A thing the line of force must stay inside: the most it may be off, what it is, how far it walks in a lean of 1.

    key     of the press file that says its size
    beyond  what happens there, and what spares it
    """

    thing: str
    reach: float | None
    off: float
    walk: float
    key: str
    beyond: str = ""


def line_of_force(press: PressFile, answer: FrameAnswer) -> Outcome:
    """Whether the resultant stays inside saddle, foot and ram of a jack in a described frame."""
    e = max(answer.off.plane, answer.off.across)
    if e == 0.0:
        return Outcome(does_not_apply=(NotNeeded("jack", CHECK, "no load off centre is allowed for"),))
    lean = _lean(press)
    things = list(_things(press, answer, e))
    judged_things = [_inside(one, lean) for one in things]
    names = dict.fromkeys(f.part for f in judged_things)
    found = Outcome(tuple(worst(f for f in judged_things if f.part == name) for name in names))
    if press.jack.seat == "ball":
        text = f"its ball seat is greased: friction {BALL_FRICTION:g} hands on no more than that share of its radius"
        found += Outcome(assumptions=(Assumption("saddle", text),))
    if not _guided(press):
        return found
    reason = "the guides take what goes beyond the saddle's edge"
    found += Outcome(does_not_apply=(NotNeeded("saddle", CHECK, reason),))
    return found + (_play_asked(things, lean) if lean is None or lean.slope is None else Outcome())


def force_off_axis(press: PressFile, answer: FrameAnswer) -> float:
    """How far off the jack's own axis the force may stand where it meets the saddle, mm."""
    e = max(answer.off.plane, answer.off.across)
    reach = reach_of_saddle(press.jack)
    return min(e, reach) if _guided(press) and reach is not None else e


def _guided(press: PressFile) -> bool:
    return press.guides is not None and press.guides.on != "ram"


def _lean(press: PressFile) -> Lean | None:
    """The lean of the guide that plays most for its length; None where no guide is described."""
    if not _guided(press) or not press.guide:
        return None
    shortest = min(guide.length for guide in press.guide)
    if any(guide.play is None for guide in press.guide):
        return Lean(None, shortest)
    return Lean(max(max((g.play or 0.0) - g.seam, 0.0) / g.length for g in press.guide), shortest)


def _things(press: PressFile, answer: FrameAnswer, e: float) -> Iterator[Held]:
    jack = press.jack
    passed = force_off_axis(press, answer)
    ram = jack.ram or jack.bore
    stroke, height = jack.stroke or 0.0, (jack.closed or 0.0) + (jack.stroke or 0.0)
    if press.guides is None:
        yield Held("saddle", reach_of_saddle(jack), e, 0.0, "saddle", NO_GUIDES)
    base = None if jack.base is None else jack.base / 2
    yield Held("jack foot", base, passed, height, "base")
    width = foot_width(press, answer)
    if base is not None and width is not None and width < jack.base:
        # A foot wider than what it stands on is held no further out than that is wide.
        yield Held("jack foot", width / 2, min(passed, answer.off.across), height, "base")
    on_ram = press.guides is not None and press.guides.on == "ram"
    yield Held("ram", ram / 8 if ram else None, passed, stroke, "ram", NEARER if on_ram else BALL_OR_NEARER)


def _inside(one: Held, lean: Lean | None) -> Finding:
    if one.reach is None:
        return not_checked(one.thing, CHECK, f"its size is not stated: [jack] {one.key}")
    slope = lean.slope if lean is not None and lean.slope is not None else 0.0
    walked = slope * one.walk
    reasons = []
    if walked:
        reasons.append(
            f"{walked:.2g} mm of it by a lean of {math.degrees(math.atan(slope)):.2g} deg in the guides' play"
        )
    if one.beyond:
        reasons.append(one.beyond)
    source = CORE if one.thing == "ram" else STATICS
    demand, case = one.off + walked, "off centre couple"
    return judged(one.thing, CHECK, case, demand, one.reach, "mm", source, reason="; ".join(reasons))


def _play_asked(things: list[Held], lean: Lean | None) -> Outcome:
    """The most play the guides may have, where nobody says how much they have."""
    length = lean.length if lean is not None else 0.0
    left = [(one.reach - one.off) / one.walk for one in things if one.reach is not None and one.walk > 0]
    most = min(left, default=0.0) * length
    text = "guides fit closely enough to take the couple before the ram bends; measure their play"
    if most <= 0:
        return Outcome(assumptions=(Assumption("guides", text),))
    condition = f"the guides have at most {most:.2g} mm of play"
    return Outcome(assumptions=(Assumption("guides", f"{text} (`play` of the [[guide]]): {condition}", condition),))
