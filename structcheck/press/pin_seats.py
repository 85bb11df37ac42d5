"""Pins at a corner held to the members they go through: walls, edges, steel and holes that must be there."""

from collections.abc import Sequence
from dataclasses import replace

from structcheck.checks.member_forms import form
from structcheck.checks.pin import Pin
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Outcome
from structcheck.press import schema
from structcheck.press.bolt_seats import ROUNDED, TUBES, Seat
from structcheck.press.frame.demands import FrameAnswer
from structcheck.press.meetings import upright_at
from structcheck.press.setting import Setting, steel_of

Pair = tuple[Seat, Seat]
"""The member in the middle of a pin, and the one on both its sides."""


def seated_pin(table: schema.PinTable, pin: Pin, answer: FrameAnswer, setting: Setting) -> tuple[Pin, Outcome]:
    """The pin with the steels of its members where none are stated, and what rests on their holes.

    Raises InputError where neither member can be in the middle with the other on both its sides.
    """
    fits: list[Pair] = []
    outcome = Outcome()
    for place in table.at or ():
        pairs = _pairs(place, answer)
        if not pairs:
            text = "the members it goes through are not described as such here: walls and edges are taken as stated"
            return pin, Outcome(assumptions=(Assumption(table.name, text),))
        tried = {pair: _faults(pin, *pair) for pair in pairs}
        fitting = [pair for pair, faults in tried.items() if not faults]
        if not fitting:
            raise InputError(min(tried.values(), key=len))
        fits += fitting
        outcome += _hole(table, pin, pairs[0][0])
    outcome = replace(outcome, assumptions=tuple(dict.fromkeys(outcome.assumptions)))
    return _of_members(pin, fits, setting), outcome


def _pairs(place: str, answer: FrameAnswer) -> tuple[Pair, ...]:
    """Either member in the middle, the upright first; none where the frame does not name both."""
    name, beam = upright_at(place), place.split("/")[0]
    if name not in answer.members or beam not in answer.members:
        return ()
    upright, across = Seat("along", name, answer.members[name]), Seat("across", beam, answer.members[beam])
    return (upright, across), (across, upright)


def apart_along(table: schema.PinTable, answer: FrameAnswer) -> float:
    """Between what shares a pin's force side by side, mm: the walls of a tube in its middle, else its outer parts."""
    tubes = [
        middle.inside + middle.wall()
        for place in table.at or ()
        for middle, sides in _pairs(place, answer)
        if form(middle.part.section) in TUBES and middle.part.pieces == 1 and sides.part.pieces == 2
    ]
    return min(tubes, default=table.inner + 2 * (table.gap or 0.0) + table.outer)


def held_corners(table: schema.PinTable, press: schema.PressFile) -> list[tuple[str, str]]:
    """The pin's places where the frame, as described, holds a moment in its plane, and what to write where it turns."""
    found = []
    members = {row.name: row for row in press.member}
    for place in table.at or ():
        name, _, side = place.rpartition("/")
        if name in members:
            how, remedy = getattr(members[name], f"at_{side}"), f'at_{side} = "pinned" of member "{name}"'
        elif name == "stops" or (name == "bed" and press.frame and press.frame.shape == "H"):
            continue  # a pin by itself; the frame knows
        else:
            corner = press.corner.get(place)
            how = corner.stiffness if corner else press.frame and press.frame.corners
            remedy = f'[corner."{place}"] stiffness = "pinned"'
        if how not in ("pinned", 0.0):
            found.append((place, f"{remedy}, or a joint that holds it"))
    return found


def _of_members(pin: Pin, fits: Sequence[Pair], setting: Setting) -> Pin:
    """Steels of the plates as the frame has them, the weakest of those that may be meant."""
    own = {}
    for which, key in enumerate(("inner_steel", "outer_steel")):
        steels = [steel_of(pair[which].part.steel, setting, pair[which].part.section.route) for pair in fits]
        if getattr(pin, key) is None and steels:
            own[key] = min(steels, key=lambda steel: (steel.steps[0][1], not steel.assumed))
    return replace(pin, **own)


def _faults(pin: Pin, middle: Seat, sides: Seat) -> list[Problem]:
    """What the pin claims and they do not have; the force runs upright: along an upright, across a beam."""
    there = {"inner": middle.walls(0.0), "outer": sides.walls(0.0) / 2}
    seats = {"inner": middle, "outer": sides}
    bad = []
    for which, most in there.items():
        stated, seat = getattr(pin, which), seats[which]
        if stated > most + ROUNDED:
            halves = "" if which == "inner" else " on each side"
            fault = f"is more than {seat.text} has for it{halves}, {most:.4g} mm"
            wanted = f"at most {most:.4g} mm; what is welded on is {which}_doubler"
            bad.append(Problem(which, f"{stated:g} mm", fault, wanted, f'{which} = "{most:.4g} mm"'))
        key = f"{which}_edge" if seat.runs == "along" else f"{which}_end"
        edge, half = getattr(pin, key), seat.width / 2
        if edge is not None and edge > half + ROUNDED:
            fault = f"lies beyond {seat.text}, whose edge is {half:.4g} mm from its middle"
            bad.append(Problem(key, f"{edge:g} mm", fault, f"at most {half:.4g} mm", f'{key} = "{half:.4g} mm"'))
    return bad


def _hole(table: schema.PinTable, pin: Pin, upright: Seat) -> Outcome:
    """The pin's hole in the upright: refused where it says less, a condition where it says nothing."""
    stated = getattr(upright.part.table, "hole", None)
    if stated is not None and stated < pin.d_0 - ROUNDED:
        fault, wanted = f'is smaller than the {pin.d_0:g} mm of "{table.name}"', "the largest hole there is"
        raise InputError(Problem("hole", f"{stated:g} mm", fault, wanted, f'hole = "{pin.d_0:g} mm"', "uprights"))
    if stated is not None:
        return Outcome()
    condition = f"{upright.name}: no hole but those judged with {table.name} weakens it; state `hole` and `holes`"
    return Outcome(assumptions=(Assumption(table.name, f"pinned, and {condition}", condition),))
