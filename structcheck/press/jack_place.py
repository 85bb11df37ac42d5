"""The jack in its press: does it fit and reach, is it pressed on its axis, is it kept."""

from dataclasses import replace
from typing import Any

from structcheck.checks import jack as checks
from structcheck.checks.basis import Basis
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, NotNeeded, Outcome
from structcheck.press.fields import stated
from structcheck.press.frame.demands import FrameAnswer
from structcheck.press.frame.off_centre import reach_of_saddle
from structcheck.press.heights import ROUNDING, in_the_way, packing_of
from structcheck.press.line_of_force import force_off_axis, line_of_force
from structcheck.press.schema import PressFile

OF_THE_FRAME = ("jack centring", "retention")
"""What a described frame judges thing by thing: the line of the force in saddle, foot and ram, and what keeps them."""

NO_FRAME = "no frame is described: the file is about single parts, not about how the jack stands"


def check_jack_place(press: PressFile, answer: FrameAnswer | None, basis: Basis) -> Outcome:
    """The jack of a press. In a file about single parts only what is said of its place is judged."""
    jack, beside = _jack(press, answer)
    outcome = checks.check_jack(jack, basis) + beside
    if answer is not None:
        outcome += line_of_force(press, answer)
        # What the jack itself is said not to have no words of [retention] put right.
        left_out = set(OF_THE_FRAME) - ({"retention"} if press.jack.retained is False else set())
        return replace(
            outcome,
            findings=tuple(f for f in outcome.findings if f.check not in left_out),
            does_not_apply=tuple(n for n in outcome.does_not_apply if n.check not in left_out),
        )
    unsaid = tuple(f for f in outcome.findings if f.verdict == "not checked" and not _is_said(f.check, press))
    return replace(
        outcome,
        findings=tuple(f for f in outcome.findings if f not in unsaid),
        does_not_apply=outcome.does_not_apply + tuple(NotNeeded(f.part, f.check, NO_FRAME) for f in unsaid),
    )


def _is_said(check: str, press: PressFile) -> bool:
    """Whether the file says something of what this check is about, so that the rest of it is owed."""
    jack = press.jack
    said = {
        "stroke": (jack.travel, jack.closed, jack.opening),
        "jack opening": (jack.closed, jack.opening),
        "jack centring": (jack.ram,),
        "retention": (jack.retained,),
    }
    return any(value is not None for value in said[check])


def _jack(press: PressFile, answer: FrameAnswer | None) -> tuple[checks.Jack, Outcome]:
    table = press.jack
    own: dict[str, Any] = stated(table, checks.Jack)
    if answer is not None:
        own["off_axis"] = force_off_axis(press, answer)
        own["opening"] = _opening(table.opening, answer.opening)
    elif table.offset is not None or table.offset_across is not None:
        own["off_axis"] = max(table.offset or 0.0, table.offset_across or 0.0)
        reach = reach_of_saddle(table)
        if table.seat == "ball" and reach is not None:
            own["off_axis"] = min(own["off_axis"], reach)
    own["packing"], own["packing_most"], of_packing = packing_of(press)
    if table.packing is None:
        own["counted"] = tuple((row.what, row.height) for row in in_the_way(press))
    beside = _standing(press)
    heights_known = table.closed is not None and own.get("opening") is not None
    counted = _of_stages(table.stroke, table.closed) + (of_packing if heights_known else Outcome())
    if "work" not in table.model_fields_set:
        own["work"] = None
    jack = checks.Jack(**own)
    return jack, counted + (_of_work(jack) if heights_known else Outcome()) + beside


def _of_work(jack: checks.Jack) -> Outcome:
    """Work of no height stated: the ram has all the gap to go, or the travel stated is right and the work fills it."""
    if jack.work is not None or jack.opening is None:
        return Outcome()
    text = "height of the work not stated: none is counted in the opening"
    gap = jack.opening - jack.stack
    if jack.travel is None or gap <= jack.travel + ROUNDING:
        return Outcome(assumptions=(Assumption("jack", text),))
    condition = f"the work is at least {gap - jack.travel:g} mm high"
    why = f"the ram has {gap:g} mm to go before it meets anything, though travel says {jack.travel:g} mm"
    return Outcome(assumptions=(Assumption("jack", f"{condition}: none is stated (work), and {why}", condition),))


def _standing(press: PressFile) -> Outcome:
    """A jack at the head pushes down: upside down, where it does not stand on what moves with its ram at the head."""
    if press.frame is None or press.frame.jack_on != "head" or "posture" in press.jack.model_fields_set:
        return Outcome()
    condition = "the jack at the head stands upright, its foot on what it moves and its ram against the head"
    text = f'{condition}: write posture = "upright" in [jack], or "inverted" where it hangs'
    return Outcome(assumptions=(Assumption("jack", text, condition),))


def _of_stages(stroke: float | None, closed: float | None) -> Outcome:
    """A single ram cannot run out further than the jack is high."""
    if stroke is None or closed is None or stroke <= closed:
        return Outcome()
    condition = f"the jack, {closed:g} mm high, has a ram in stages: its stroke is {stroke:g} mm"
    return Outcome(assumptions=(Assumption("jack", condition, condition),))


def _opening(stated: float | None, clear: float | None) -> float | None:
    """What there is for jack and work, mm: what the builder says, which may not be more than the frame leaves."""
    if stated is None or clear is None or stated <= clear + ROUNDING:
        return clear if stated is None else stated
    fault = f"is more than the {clear:g} mm that the frame leaves between head and bed"
    wanted = "what is clear at the jack, from what it stands on to what it presses"
    raise InputError(Problem("opening", f"{stated:g} mm", fault, wanted, f'opening = "{clear:g} mm"', "jack"))
