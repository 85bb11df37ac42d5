"""What moves in a press, from what is described: the mass that must come back, and the friction of its guides.

A mass nobody said stands still is counted: more to bring back is the safe side.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Any

from structcheck.checks.guide import Guide
from structcheck.checks.return_duty import OIL, Duty
from structcheck.findings import Assumption, Outcome, not_checked
from structcheck.press.heights import spring_room
from structcheck.press.schema import PressFile
from structcheck.press.setting import Setting
from structcheck.quantities import G_N
from structcheck.record import record
from structcheck.standards.handbook_springs import STEEL, plate_mass

CHECK = "moving mass"
"""Whether the mass a spring is said to lift is at least that of what is described as moving."""

ROUNDING = 0.5
"""kg; a stated mass is a weighed one."""

DUTY = "spring return force"


@record
class Moving:
    """What moves with the platen: (what it is, kg) of each, and whether anybody said that it does."""

    rows: tuple[tuple[str, float], ...]
    unsaid: tuple[str, ...]

    @property
    def mass(self) -> float:
        """All of it, kg."""
        return sum(mass for _, mass in self.rows)

    @property
    def text(self) -> str:
        """The sum in words."""
        terms = " + ".join(f"{what} {mass:.4g} kg" for what, mass in self.rows)
        return terms if len(self.rows) == 1 else f"{terms} = {self.mass:.4g} kg"


def moving(press: PressFile | None) -> Moving | None:
    """What moves; None where neither a platen nor a mass that is said to move is described."""
    if press is None:
        return None
    platens = [table for table in press.platen if table.moves is not False]
    if not platens and not any(table.moves for table in press.mass):
        return None
    rows = [(t.name, plate_mass(t.length, t.width, t.thickness, STEEL)) for t in platens]
    rows += [(t.name, t.mass) for t in press.mass if t.moves is not False]
    unsaid = tuple(t.name for t in (*platens, *press.mass) if t.moves is None)
    return Moving(tuple(rows), unsaid)


def lifted(table: Any, setting: Setting) -> tuple[float | None, Outcome]:
    """The mass these springs bring back, kg, and what was taken for it; None where nobody says it."""
    whole = moving(setting.press)
    if whole is None:
        return table.lifts, Outcome()
    if table.lifts is not None:
        return table.lifts, _beside(table, whole, setting.press)
    said = [f"moving mass, summed: {whole.text}; add a [[mass]] for what else moves"]
    if whole.unsaid:
        said.append(f"{' and '.join(whole.unsaid)} counted as moving: write moves = false where it stands still")
    if len(_returning(setting.press)) > 1:
        said.append("judged as if these springs alone brought all of it back: a [[return_set]] shares it")
    if setting.press.frame is not None and setting.press.frame.jack_on == "bed":
        said.append("the weight is counted against the springs; where the ram pushes up it helps them")
    return whole.mass, Outcome(assumptions=tuple(Assumption(table.name, text) for text in said))


def with_own_weight(part: Any, table: Any) -> tuple[Any, Outcome]:
    """Springs that lift the mass summed from the parts, with half of their own added to it: they are parts too."""
    own = part.duty.own_weight / G_N
    if table.lifts is not None or not own:
        return part, Outcome()
    text = f"half of the springs' own weight, {own:.3g} kg, is added to what they lift"
    whole = replace(part, lifts=part.lifts + own, own_lifted=True)
    return whole, Outcome(assumptions=(Assumption(table.name, text),))


def brought_back(press: PressFile) -> Outcome:
    """Whether anything is described that brings the platen of a frame back: springs, or its weight."""
    whole = moving(press)
    if whole is None or press.frame is None or _returning(press):
        return Outcome()
    part, weight = whole.rows[0][0], whole.mass * G_N
    if press.frame.jack_on == "head":
        reason = f"nothing is described that lifts {whole.text} again: springs, or moves = false where it stands still"
        return Outcome((not_checked(part, DUTY, reason),))
    text = f"only its weight brings it back: {weight:.0f} N against {OIL:.0f} N of oil and seals until measured"
    if press.jack.pushed_back:
        return Outcome(
            assumptions=(Assumption(part, f"{text}; the ram is pushed back by hand, its valve open (stated)"),)
        )
    if weight >= OIL:
        return Outcome(assumptions=(Assumption(part, text),))
    condition = f"the ram under {part} is pushed back by hand, its valve open"
    remedy = f"{text}; {condition}: say so with pushed_back = true in [jack], or describe springs"
    return Outcome(assumptions=(Assumption(part, remedy, condition),))


def _returning(press: PressFile) -> list[Any]:
    """Every table of springs that bring something back by itself; a spring of a set lifts with its set."""
    of_sets = {name for whole in press.return_set for place in whole.places for name in place.springs}
    alone = [table for table in press.spring if table.name not in of_sets]
    return [*alone, *press.extension_spring, *press.die_spring, *press.return_set]


def _beside(table: Any, whole: Moving, press: PressFile) -> Outcome:
    """A stated mass beside the sum: no pass where all the springs together are said to lift less than moves."""
    stated = sum(whole.mass if other.lifts is None else other.lifts for other in _returning(press))
    if stated >= whole.mass - ROUNDING:
        text = f"{table.lifts:.4g} kg to lift is yours; what is described as moving weighs {whole.mass:.4g} kg"
        return Outcome(assumptions=(Assumption(table.name, text),))
    reason = (
        f"{stated:.4g} kg to lift stated, but {whole.text} is described as moving: leave lifts "
        "out, or write moves = false where something stands still"
    )
    return Outcome((not_checked(table.name, CHECK, reason),))


def rubbed(table: Any, lifts: float, guides: tuple[Guide, ...]) -> tuple[float | None, Outcome]:
    """Friction of the guides at the top of the stroke, N, for springs whose places are not told; None: not known."""
    if table.drag is not None or not guides:
        return table.drag, Outcome()
    found = []
    for guide in guides:
        weight_at = guide.offset if table.centre is None else table.centre
        drag = Duty(table.name, lifts, table.oil, None, None, 1).friction(guide, weight_at, -(table.off_line or 0.0))
        found.append((drag, weight_at, guide))
    drag, weight_at, guide = max(found, key=lambda one: one[0])
    where = "" if table.centre is not None else ", as the force may stand"
    texts = [
        f"friction of {guide.name} at the top of the stroke {drag:.0f} N: the mass {weight_at:.4g} mm from their "
        f"centre{where}, friction {guide.friction:g}"
    ]
    if table.off_line is None:
        texts.append(f"the springs stand even about the centre of {guide.name} (off_line 0)")
    return drag, Outcome(assumptions=tuple(Assumption(table.name, text) for text in texts))


def room(name: str, length: float, setting: Setting, *, pulled: bool = False) -> Outcome:
    """Springs in the height of the press: `length` is the longest they are while it works, mm.

    Pressed, they stand between the platen and the beam it moves to; pulled, anywhere in the clear height.
    """
    press = setting.press
    clear = press and (press.jack.opening or setting.opening)
    if not clear:
        return Outcome()
    left, where = (clear, f"of the clear height of {clear:g} mm") if pulled else spring_room(press, clear)
    if length > left:
        beside = f"{name} stands beside the opening of {clear:g} mm, where there are {length:g} mm for it"
        if left < clear:
            beside += f": it leaves {max(left, 0.0):g} mm for springs, jack and platen taken off"
        return Outcome(assumptions=(Assumption(name, beside, beside),))
    told = f"{name}: {length:g} mm {where}"
    if left - length > ROUNDING and left < clear:
        told += f"; {left - length:g} mm of posts or washers stand under or over it"
    return Outcome(answers=(told,))


def unseated(names: Iterable[str], setting: Setting) -> Outcome:
    """Springs of a described press that no [[spring_seat]] names: what they bear on is judged by nobody."""
    press = setting.press
    if press is None or press.frame is None:
        return Outcome()
    seated = {seat.spring for seat in press.spring_seat}
    texts = {name: f"what {name} bears on takes its force" for name in names if name not in seated}
    return Outcome(
        assumptions=tuple(
            Assumption(name, f"{text}: a [[spring_seat]] judges sheet, washer and bolt", text)
            for name, text in texts.items()
        )
    )


def marked_stated(outcome: Outcome, table: Any, setting: Setting) -> Outcome:
    """In a press file the return force says where mass or friction is the user's own figure."""
    if setting.press is None or (table.lifts is None and table.drag is None):
        return outcome
    return replace(outcome, findings=tuple(_mark(outcome.findings, table.name)))


def _mark(findings: tuple[Any, ...], part: str) -> Iterator[Any]:
    for finding in findings:
        users = (finding.part, finding.check) == (part, DUTY) and finding.verdict != "not checked"
        yield replace(finding, user_force=True) if users else finding
