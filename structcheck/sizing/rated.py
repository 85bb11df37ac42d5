"""The largest jack rating at which a press holds, for strength and for stiffness apart, on the real chain of checks.

The whole press is checked again and again with another rating. What the user stated stays as stated: forces typed in
a load key, and the setting of the valve; where no valve is stated its share of the rating is taken as ever.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import cached_property

from structcheck.findings import Finding, Result
from structcheck.press.cases import jack_forces
from structcheck.press.model import check_description
from structcheck.press.schema import PressFile
from structcheck.record import record
from structcheck.shapes.section import Section
from structcheck.showing import show

STIFFNESS = frozenset({"deflection", "opening", "platen flatness"})
"""Checks against the user's limits of stiffness; every other check is one of strength."""

WIDEST = 4096.0
"""How far from the stated rating an answer is looked for, as a factor either way."""

CLOSE, JUST_BELOW = 0.9993, 0.9998
"""A utilisation from which on a rating counts as used up but for its rounding, and the one that is aimed at."""

LOWEST = 20
"""Times that a frame which falls over is tried at two thirds of the force."""

Key = tuple[str, str]


@record
class Largest:
    """The largest rating of one jack by one kind of check.

    rating     N, of one jack, rounded down to four figures; None where there is none
    governing  the finding that is used up at that rating, then the next two
    reason     why there is none
    """

    rating: float | None
    governing: tuple[Finding, ...] = ()
    reason: str = ""


@record
class RatedLoad:
    """What a press can carry.

    stated       rating in the file, N, one jack
    result       the press checked at the strength's rating; at the stated one where there is none
    fails_anyway findings that fail whatever the jack is rated: a stroke too short, a spring pressed too far
    not_checked  what could not be judged at that rating; with any of these the answer is incomplete
    notes        what must be known to use the answer
    """

    title: str
    stated: float
    count: int
    strength: Largest
    stiffness: Largest
    result: Result
    fails_anyway: tuple[Finding, ...] = ()
    not_checked: tuple[Finding, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def rating(self) -> float | None:
        """The lower of the two; None where one has none or something fails anyway."""
        too_soft = self.stiffness.rating is None and bool(self.stiffness.governing)
        if self.strength.rating is None or too_soft or self.fails_anyway:
            return None
        return min(self.strength.rating, self.stiffness.rating or math.inf)

    @property
    def exit_status(self) -> int:
        """1 where no rating holds; 3 where something was not checked or strength rests on a condition; else 0."""
        if self.rating is None:
            return 1
        return 3 if self.not_checked or self.result.conditions else 0


def rated_load(
    press: PressFile, *, file: str = "", sections: tuple[Section, ...] = (), as_stated: Result | None = None
) -> RatedLoad:
    """The largest rating of the jack for strength and for stiffness. Raises InputError as a check does.

    as_stated  the press checked as it stands, where that is known already
    """
    trials = _Trials(press, file, sections)
    if as_stated is not None:
        trials.known[press.jack.rating] = as_stated
    strength = _largest(trials, _of_strength, "nothing that was judged depends on the jack")
    stiffness = _largest(trials, _of_stiffness, "no limit of stiffness is stated")
    result = trials.at(strength.rating or press.jack.rating)
    return RatedLoad(
        title=press.title,
        stated=press.jack.rating,
        count=press.jack.count,
        strength=strength,
        stiffness=stiffness,
        result=result,
        fails_anyway=tuple(f for f in result.ranked if f.verdict == "fails" and not trials.moves(f)),
        not_checked=tuple(f for f in result.findings if f.verdict == "not checked"),
        notes=tuple(_notes(press, strength, result, trials)),
    )


@dataclass
class _Trials:
    """The press checked at other ratings, each once."""

    press: PressFile
    file: str
    sections: tuple[Section, ...]
    valve_too: bool = False
    known: dict[float, Result] = field(default_factory=dict)

    def at(self, rating: float) -> Result:
        """The result at this rating. A bigger jack's valve opens at the stated one's share of the rating.

        That of a smaller one keeps its setting, or with `valve_too` its share.
        """
        if rating not in self.known:
            jack = self.press.jack.model_copy(update={"rating": rating})
            if jack.relief is not None and (self.valve_too or rating > self.press.jack.rating):
                kind, value = jack.relief
                scaled = value * rating / self.press.jack.rating
                jack = jack.model_copy(update={"relief": (kind, scaled)})
            described = self.press.model_copy(update={"jack": jack})
            self.known[rating] = check_description(described, file=self.file, sections=self.sections)
        return self.known[rating]

    def moves(self, finding: Finding) -> bool:
        """Whether a finding depends on the jack's force at all."""
        key = (finding.part, finding.check)
        return any(abs(more - less) > 1e-9 * max(more, less) for less, more in self._pairs(key))

    def falls(self, finding: Finding) -> bool:
        """Whether a bigger jack eases it, such as springs that must be pressed by it: it sets no largest rating."""
        return any(more < less * (1 - 1e-9) for less, more in self._pairs((finding.part, finding.check)))

    def _pairs(self, key: Key) -> list[tuple[float, float]]:
        """Uses at the stated force and at half as much again, where both are known; one that appears counts too."""
        less, more = self._compared
        if key in less and key in more:
            return [(less[key], more[key])] if less[key] != more[key] else []
        return [(0.0, more[key])] if key in more else [(0.0, less[key])] if key in less else []

    @cached_property
    def _compared(self) -> tuple[dict[Key, float], dict[Key, float]]:
        """The uses at the stated rating and at 1.5 times it, the valve set in proportion.

        Lower down where the frame falls over there: beyond its critical force what its members use says nothing.
        """
        less, turns = self.press.jack.rating, 0
        while turns < LOWEST and _falls_over(self.with_valve.at(1.5 * less)):
            less, turns = less / 1.5, turns + 1
        return _uses(self.with_valve.at(less)), _uses(self.with_valve.at(1.5 * less))

    @cached_property
    def with_valve(self) -> "_Trials":
        """The same with a stated valve kept at its share of the rating."""
        if self.press.jack.relief is None or self.valve_too:
            return self
        stated = self.press.jack.rating
        return replace(self, valve_too=True, known={stated: self.at(stated)})


def _falls_over(result: Result) -> bool:
    return any(f.check == "elastic stability" and f.verdict == "fails" for f in result.findings)


def _uses(result: Result) -> dict[Key, float]:
    return {(f.part, f.check): _use(f) for f in result.findings if f.verdict != "not checked"}


def _use(finding: Finding) -> float:
    return math.inf if finding.utilisation is None else finding.utilisation


def _largest(trials: _Trials, belongs: Callable[[Finding], bool], nothing: str) -> Largest:
    """The largest rating at which every finding that belongs holds."""

    def ranked(rating: float) -> list[Finding]:
        return [f for f in trials.at(rating).ranked if belongs(f) and trials.moves(f)]

    def most(rating: float) -> float:
        return max((_use(f) for f in ranked(rating) if not trials.falls(f)), default=0.0)

    stated = trials.press.jack.rating
    if not ranked(stated):
        return Largest(None, (), nothing)
    low, high = _bracket(most, stated)
    if low is None:
        left = next(f for f in ranked(_rounded(stated / WIDEST)) if not trials.falls(f))
        valve = ", its valve as stated" if trials.press.jack.relief is not None else ""
        reason = f"{left.part}, {left.check} fails however small the jack{valve}"
        return Largest(None, tuple(ranked(stated)[:3]), reason)
    if math.isinf(high):
        return Largest(None, (), nothing)
    rating = _closed_in(most, low, high)
    failing = [f for f in ranked(rating) if f.verdict == "fails"]
    if failing:
        reason = f"{failing[0].part}, {failing[0].check} fails at every rating the rest could carry"
        return Largest(None, tuple(failing[:3]), reason)
    return Largest(rating, tuple(ranked(rating)[:3]))


def _bracket(most: Callable[[float], float], stated: float) -> tuple[float | None, float]:
    """(a rating that holds, one that does not): nothing where none holds, infinity where all do.

    Most presses are used in proportion to the rating, so the rating that would follow from that is tried first.
    """
    least, greatest, use = _rounded(stated / WIDEST), stated * WIDEST, most(stated)
    guess = stated * JUST_BELOW / use if 0 < use < math.inf else stated
    guess = _rounded(min(max(guess, least), greatest))
    if most(guess) <= 1:
        low, high = guess, _beyond(most, stated, guess)
        while not _used_up(most, low) and most(high) <= 1:
            low, high = high, max(_rounded(2 * high), _beyond(most, low, high))
            if high > greatest:
                return low, math.inf
        return low, high
    if most(_rounded(stated)) <= 1:
        return _rounded(stated), guess
    return (None, stated) if most(least) > 1 else (least, guess)


def _beyond(most: Callable[[float], float], first: float, second: float) -> float:
    """The next rating to try above two that are known: where a straight line through them is used up."""
    more, use = most(second) - most(first), most(second)
    straight = second + (JUST_BELOW - use) * (second - first) / more if more * (second - first) > 0 else math.inf
    least = max(first, 1.01 * second)
    return _rounded(straight if least < straight < 2 * second else least)


def _closed_in(most: Callable[[float], float], low: float, high: float) -> float:
    """The rating, from below, at which the highest use reaches 1: straight lines, halving where they do not settle."""
    for turn in range(60):
        if _used_up(most, low) or high - low <= 1e-4 * low:
            return low
        below, above = most(low), most(high)
        straight = low + (high - low) * (JUST_BELOW - below) / (above - below) if math.isfinite(above) else math.nan
        straight, halfway = _rounded(straight), _rounded((low + high) / 2)
        middle = straight if turn % 3 < 2 and low < straight < high else halfway
        if not low < middle < high:
            return low
        if most(middle) <= 1:
            low = middle
        else:
            high = middle
    return low


def _used_up(most: Callable[[float], float], rating: float) -> bool:
    """Whether the use stands so near to 1 that a rating of four figures cannot bring it nearer."""
    return most(rating) >= CLOSE - _step(rating) / rating


def _step(rating: float) -> float:
    """The last of four figures."""
    return 10.0 ** (math.floor(math.log10(rating)) - 3)


def _rounded(rating: float) -> float:
    """The rating to four figures, never up."""
    if not math.isfinite(rating) or rating <= 0:
        return rating
    step = _step(rating)
    return float(f"{math.floor(rating / step * (1 + 1e-12)) * step:.4g}")


def _notes(press: PressFile, strength: Largest, result: Result, trials: _Trials) -> list[str]:
    """What must be known to use the answer."""
    notes = []
    if press.jack.count > 1:
        notes.append(f"the rating is that of one of {press.jack.count} jacks pushing together")
    if press.jack.relief is not None:
        share = _greatest_of_one(press) / press.jack.rating
        notes.append(
            f"a bigger jack's valve is taken to open at {share:.3g} times its rating, as the stated one does; "
            "that of a smaller one keeps the setting stated"
        )
    if press.jack.relief is not None and strength.rating is None and strength.governing:
        other = _largest(trials.with_valve, _of_strength, "")
        if other.rating is not None:
            share = _greatest_of_one(press) / press.jack.rating
            taken = show(other.rating, "kN")
            notes.append(f"a jack of {taken} whose valve opens at {share:.3g} times that would be held")
    if strength.rating is not None:
        notes += [text for text in result.outcome.advice if text.startswith("the valve opens")]
    if strength.rating is not None and strength.rating > press.jack.rating:
        notes.append("foot, saddle, ram and heights are those of the jack described: check again with a bigger one's")
    if any(f.user_force for f in result.findings):
        notes.append("forces typed by the user keep their size")
    return notes


def _greatest_of_one(press: PressFile) -> float:
    return jack_forces(press.jack, press.basis).greatest / press.jack.count


def _of_strength(finding: Finding) -> bool:
    return finding.check not in STIFFNESS


def _of_stiffness(finding: Finding) -> bool:
    return finding.check in STIFFNESS
