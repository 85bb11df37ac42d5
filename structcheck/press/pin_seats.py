"""Pins at a corner held to the members they go through: walls, edges, steel and holes that must be there."""

from collections.abc import Sequence
from dataclasses import replace

from structcheck.checks.pin import Pin
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Outcome
from structcheck.press import schema
from structcheck.press.bolt_seats import ROUNDED, Seat
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
        name, beam = upright_at(place), place.split("/")[0]
        if name not in answer.members or beam not in answer.members:
            text = "the members it goes through are not described as such here: walls and edges are taken as stated"
            return pin, Outcome(assumptions=(Assumption(table.name, text),))
        upright, across = Seat("along", name, answer.members[name]), Seat("across", beam, answer.members[beam])
        tried = {pair: _faults(pin, *pair) for pair in ((upright, across), (across, upright))}
        fitting = [pair for pair, faults in tried.items() if not faults]
        if not fitting:
            raise InputError(min(tried.values(), key=len))
        fits += fitting
        outcome += _hole(table, pin, upright)
    outcome = replace(outcome, assumptions=tuple(dict.fromkeys(outcome.assumptions)))
    return _of_members(pin, fits, setting), outcome


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
