"""All return springs of a platen together: stacks, places, one broken, and the guides on the way back."""

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Literal

import numpy as np

from structcheck.analysis.springs import Member, plate_on_springs, rate_in_series, shared_force, shared_travel
from structcheck.checks.basis import OPEN, Basis
from structcheck.checks.coil import Coil, Spring, carried
from structcheck.checks.coil_input import describe
from structcheck.checks.guide import BINDING_LIMIT, Guide
from structcheck.checks.return_duty import Duty
from structcheck.checks.spring import check_spring
from structcheck.errors import InputError, Mechanism, NotCovered, Problem
from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, complete, judged, not_checked
from structcheck.record import record
from structcheck.standards.handbook_guides import BRACKET, binding_ratio

NEEDED = ("spring return force", "guide binding", "spring force at full stroke")

OF_THE_SET = ("spring return force", "spring force at full stroke")
"""Judged for all springs together, not for each."""


@record
class Place:
    """One column of springs under the platen.

    x        place along the line of the columns, from the centre of the platen, mm
    springs  from the bottom up where they stand one on the other, from the outside in where they are nested
    how      "alone", "series" or "nested"
    """

    x: float
    springs: tuple[Spring, ...]
    how: Literal["alone", "series", "nested"] = "alone"


@record(kw_only=True)
class ReturnSet:
    """Springs that bring one platen back; the lengths of the springs themselves are worked out here.

    fitted    height of every column at the open press; stroke is all the jack's, not only what the work takes
    lifts     mass that comes back, its centre at `centre` from the platen's; None: as far off as the guide's force
    oil, drag, rating as for one spring; drag None: worked out where the guide is stated
    guide     what the platen slides on; None: not stated
    own_lifted  `lifts` holds what the springs carry of themselves
    """

    name: str
    places: tuple[Place, ...]
    fitted: float
    stroke: float
    lifts: float
    centre: float | None = None
    oil: float | None = None
    drag: float | None = None
    rating: float | None = None
    guide: Guide | None = None
    own_lifted: bool = False

    @property
    def duty(self) -> Duty:
        """What all springs together must bring back."""
        own = 0.0 if self.own_lifted else self.carried
        return Duty(self.name, self.lifts, self.oil, self.drag, self.rating, 1, own)

    @property
    def carried(self) -> float | None:
        """Mass of their own that all springs carry, kg. None: not known of one."""
        each = [carried(spring) for place in self.places for spring in place.springs]
        return None if None in each else sum(mass or 0.0 for mass in each)


def check_platen_return(whole: ReturnSet, basis: Basis) -> Outcome:
    """The set as a whole and each spring on its own share. Raises InputError where the description cannot be."""
    _refuse_impossible(whole)
    worked = [_worked(whole, place) for place in whole.places]
    outcome = Outcome()
    for place, column in zip(whole.places, worked, strict=True):
        for spring in column:
            own = _each(spring, basis)
            outcome += _as_one_stack(spring, own) if place.how == "series" and spring.straight == "no" else own
    try:
        opened = [_force(place, column, open_=True) for place, column in zip(whole.places, worked, strict=True)]
        closed = [_force(place, column, open_=False) for place, column in zip(whole.places, worked, strict=True)]
    except NotCovered as reason:
        return complete(outcome, whole.name, NEEDED, str(reason))
    whole, rubbing = _with_friction(whole, opened)
    answers: list[Finding | NotNeeded] = [
        whole.duty.return_force(sum(opened), "statics; each column by its own rate and free length"),
        _binding(whole, opened),
        whole.duty.full_stroke(sum(closed)),
    ]
    outcome += Outcome(
        findings=tuple(a for a in answers if isinstance(a, Finding)),
        does_not_apply=tuple(a for a in answers if isinstance(a, NotNeeded)),
        assumptions=(*whole.duty.assumptions(), *rubbing, *_weakest(whole, sum(opened))),
        answers=tuple(f"{whole.name}: {text}" for text in _answers(whole, worked, opened, closed)),
        advice=_advice(whole),
    )
    return complete(outcome, whole.name, NEEDED, "not done")


def _weakest(whole: ReturnSet, pressing: float) -> tuple[Assumption, ...]:
    """What a return rests on that springs as made may not press with, where no rate is stated."""
    stated = all(spring.rate is not None for place in whole.places for spring in place.springs)
    if stated or not whole.duty.rests_on_rate(pressing):
        return ()
    condition = f"all springs of {whole.name} press with {whole.duty.needed:.0f} N at {whole.fitted:g} mm: measure it"
    text = "the rates follow from the dimensions; springs as made stray by 5 to 10 %"
    return (Assumption(whole.name, text, condition),)


def pressed_columns(whole: ReturnSet) -> list[tuple[Coil, float]]:
    """Of every column what stands on its seat, nested the widest, and the force of all of it at the end of the stroke.

    Raises InputError where the description cannot be, NotCovered where the force of a spring cannot be had.
    """
    _refuse_impossible(whole)
    found = []
    for place in whole.places:
        column = _worked(whole, place)
        found.append((describe(column[0]), _force(place, column, open_=False)))
    return found


def _worked(whole: ReturnSet, place: Place) -> tuple[Spring, ...]:
    """The springs of one column with the lengths each takes of the column's."""
    pressed = whole.fitted - whole.stroke
    if place.how != "series":
        return tuple(
            replace(s, fitted=min(whole.fitted, s.free), pressed=min(pressed, s.free)) for s in _on_each_other(place)
        )
    members = [_member(spring) for spring in place.springs]
    free = sum(m.free for m in members)
    if whole.fitted > free:
        given, wanted = f"{whole.fitted:g} mm", f"at most {free:g} mm"
        raise InputError(Problem("fitted", given, "is longer than the free stack", wanted, part=whole.name))
    try:
        _, first = shared_travel(members, free - whole.fitted)
        _, last = shared_travel(members, free - pressed)
    except InputError as error:
        raise error.within(part=whole.name) from None
    return tuple(
        replace(spring, fitted=spring.free - float(a), pressed=spring.free - float(b))
        for spring, a, b in zip(place.springs, first, last, strict=True)
    )


def _on_each_other(place: Place) -> tuple[Spring, ...]:
    """The springs of a column; nested, what an outer one leans on is the spring inside it, not the rod in that."""
    springs = list(place.springs)
    if place.how == "nested":
        for i, inner in enumerate(place.springs[1:]):
            if springs[i].straight == "rod":
                try:
                    springs[i] = replace(springs[i], rod=Coil(inner).D + Coil(inner).d)
                except NotCovered:
                    continue
    return tuple(springs)


def _as_one_stack(spring: Spring, own: Outcome) -> Outcome:
    """Springs one on the other bow out as one long spring, which the buckling of each alone does not tell."""
    check = "spring buckling"
    reason = "one on the other without a rod through all: the stack bows out as one long spring; state rod or tube"
    return replace(
        own,
        findings=(*(f for f in own.findings if f.check != check), not_checked(spring.name, check, reason)),
        does_not_apply=tuple(n for n in own.does_not_apply if n.check != check),
    )


def _member(spring: Spring) -> Member:
    coil = Coil(spring)
    try:
        return Member(coil.R, spring.free, coil.L_c)
    except NotCovered:
        return Member(coil.R, spring.free)


def _each(spring: Spring, basis: Basis) -> Outcome:
    """One spring's own checks; what is judged for all together is left to the set."""
    alone = replace(spring, count=1, lifts=0.0, oil=0.0, drag=0.0, rating=None)
    own, of_the_set = check_spring(alone, basis), alone.duty.assumptions()
    return Outcome(
        findings=tuple(f for f in own.findings if f.check not in OF_THE_SET),
        does_not_apply=tuple(n for n in own.does_not_apply if n.check not in OF_THE_SET),
        assumptions=tuple(a for a in own.assumptions if a not in of_the_set),
        answers=tuple(text for text in own.answers if "the only spring" not in text),
        advice=own.advice,
    )


def _force(place: Place, column: Sequence[Spring], *, open_: bool) -> float:
    """Force of one column: the least at the open press, the most at the end of the stroke."""
    coils = [describe(spring) for spring in column]
    forces = [c.least_force(c.spring.fitted) if open_ else c.force(c.spring.pressed) for c in coils]
    if place.how != "series":
        return float(sum(forces))
    # The same force goes through all; one that is solid by now no longer tells what it is.
    return float(min(forces) if open_ else max(forces))


def _binding(whole: ReturnSet, opened: Sequence[float]) -> Finding:
    """On the way back the springs drive: where their resultant stands beside the guides' centre, the guides bind."""
    check = "guide binding"
    if whole.guide is None:
        return not_checked(whole.name, check, "the guides are not stated")
    guide = whole.guide
    ratio = binding_ratio(guide.friction, abs(_resultant(whole, opened)), guide.length)
    source = f"{BRACKET}, on the way back; limit {BINDING_LIMIT:g} ours, 1 is the jam itself"
    return judged(whole.name, check, OPEN.name, ratio, BINDING_LIMIT, "", source)


def _with_friction(whole: ReturnSet, opened: Sequence[float]) -> tuple[ReturnSet, tuple[Assumption, ...]]:
    """The set with the friction of its guides at the top of the stroke, and what that rests on."""
    if whole.drag is not None or whole.guide is None:
        return whole, ()
    springs_at = _resultant(whole, opened)
    # Not stated, the mass stands on the side where it binds most.
    weight_at = -math.copysign(whole.guide.offset, springs_at) if whole.centre is None else whole.centre
    drag = whole.duty.friction(whole.guide, weight_at, springs_at)
    text = (
        f"friction of the guides at the top of the stroke {drag:.0f} N: the mass {abs(weight_at):.4g} mm from their "
        f"centre{'' if whole.centre is not None else ', as the force may stand'}, the springs {abs(springs_at):.4g} mm"
    )
    return replace(whole, drag=drag), (Assumption(whole.name, text),)


def _resultant(whole: ReturnSet, forces: Sequence[float]) -> float:
    total = sum(forces)
    return sum(f * place.x for f, place in zip(forces, whole.places, strict=True)) / total if total else 0.0


def broken(whole: ReturnSet, opened: Sequence[float], index: int) -> str:
    """What happens when the springs of one place give out."""
    left = [0.0 if i == index else force for i, force in enumerate(opened)]
    needed = whole.duty.needed if whole.guide is None else whole.duty.load
    where = f"springs at {whole.places[index].x:g} mm broken: {sum(left):.0f} N of {needed:.0f} N needed"
    if sum(left) < needed:
        return f"{where}, the platen hangs"
    aside = _resultant(whole, left)
    if whole.guide is None:
        return f"{where}, pushed {aside:.0f} mm from the middle: without guides the platen falls askew"
    weight_at = -math.copysign(whole.guide.offset, aside) if whole.centre is None else whole.centre
    drive = needed + whole.duty.friction(whole.guide, weight_at, aside)
    if math.isinf(drive):
        return f"{where}, pushed {aside:.0f} mm from the middle: the guides jam and the platen hangs askew"
    if drive > sum(left):
        return f"{where}, {drive:.0f} N with the guides binding {aside:.0f} mm from the push: the platen hangs askew"
    return f"{where}, {drive:.0f} N with the guides binding: the platen still comes back"


def _answers(
    whole: ReturnSet, worked: Sequence[Sequence[Spring]], opened: Sequence[float], closed: Sequence[float]
) -> list[str]:
    said = [f"all springs: open {sum(opened):.0f} N, closed {sum(closed):.0f} N"]
    said += [broken(whole, opened, index) for index in range(len(whole.places))]
    if whole.centre and len(whole.places) > 1:
        rates = [rate_of(replace(place, springs=column)) for place, column in zip(whole.places, worked, strict=True)]
        try:
            rest = plate_on_springs([(p.x, 0.0) for p in whole.places], rates, whole.duty.load, (whole.centre, 0.0))
            lean = math.degrees(math.atan(abs(rest.slope_x)))
            said.append(f"without guides the platen would lean {lean:.2f} deg on its springs")
        except Mechanism as reason:
            said.append(f"without guides: {reason}")
    return said


def rate_of(place: Place) -> float:
    """Rate of one column of springs. Raises NotCovered where one of theirs cannot be had."""
    rates = [Coil(spring).R for spring in place.springs]
    return rate_in_series(rates) if place.how == "series" else float(np.sum(rates))


def _advice(whole: ReturnSet) -> tuple[str, ...]:
    said = []
    if any(place.how == "nested" for place in whole.places):
        said.append(f"{whole.name}: wind nested springs opposite ways, or they lock into each other")
    if any(place.how == "series" for place in whole.places):
        said.append(f"{whole.name}: springs one on the other need a rod through all and a washer between")
    if len(whole.places) == 1 and whole.places[0].x:
        said.append(f"{whole.name}: never one spring at the side; two or four, even about the ram")
    return tuple(said)


def nested_forces(springs: Sequence[Spring], length: float) -> np.ndarray:
    """Force of each nested spring at one length, N; unequal lengths come in one after the other."""
    return shared_force([_member(spring) for spring in springs], length)


def _refuse_impossible(whole: ReturnSet) -> None:
    problems = whole.duty.problems(whole.name)
    if not whole.places or any(not place.springs for place in whole.places):
        problems.append(Problem("places", "", "has no spring", "at least one place with a spring", part=whole.name))
    if not whole.stroke > 0 or not whole.fitted > whole.stroke:
        given, wanted = f"{whole.stroke:g} mm", f"the jack's stroke, less than {whole.fitted:g} mm"
        problems.append(Problem("stroke", given, "leaves no spring", wanted, part=whole.name))
    for place in whole.places:
        problems += _nesting(place, whole.name)
        if place.how == "alone" and len(place.springs) > 1:
            given, fault = f"{len(place.springs)} springs at {place.x:g} mm", "stand there neither nested nor in series"
            remedy = 'how = "nested"'
            problems.append(Problem("how", given, fault, "how they stand: nested or series", remedy, whole.name))
    if problems:
        raise InputError(problems)


def _nesting(place: Place, part: str) -> list[Problem]:
    if place.how != "nested":
        return []
    problems = []
    for outer, inner in pairwise(place.springs):
        try:
            bore, outside = Coil(outer).D - Coil(outer).d, Coil(inner).D + Coil(inner).d
        except NotCovered:
            continue
        if outside >= bore:
            given, fault = f"{outside:g} mm outside", f"does not go into {outer.name}, {bore:g} mm inside"
            problems.append(Problem(inner.name, given, fault, f"less than {bore:g} mm", part=part))
    return problems
