"""The working: for each finding the formulas that decided it, as an engineer's notebook has them.

Formula, numbers and result come from the very calls the check made (`Finding.trace`); nothing is computed again.
"""

import math
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Any

import numpy as np

from structcheck.findings import Finding, Result
from structcheck.formula import Remark, Step
from structcheck.record import record

MOST_OF_ONE = 4
"""Distinct calls of one formula that are all shown; of a longer search only those the answer came from."""

TIMES = (1, *range(2, 25))
"""Whole multiples by which a result becomes the answer: pieces, planes, bolts, springs."""


@record
class Again:
    """A step set out before in the same part."""

    step: Step


Line = Step | Remark | Again


@record
class Entry:
    """One finding and what decided it, in order; `multiple` tells how the capacity came from a result."""

    finding: Finding
    steps: tuple[Line, ...]
    multiple: str = ""


@record
class PartWorking:
    """The working of one part: what its checks share, then each check."""

    part: str
    shared: tuple[Line, ...]
    entries: tuple[Entry, ...]

    @property
    def told(self) -> bool:
        """Whether any formula was evaluated for it; statics and measures alone need no working."""
        return bool(self.shared) or any(entry.steps for entry in self.entries)


def notebook(result: Result) -> tuple[PartWorking, ...]:
    """The working of every part, in the order of the findings; nothing where no working was kept."""
    traced = [f for f in result.findings if f.trace is not None and f.verdict != "not checked"]
    if not traced:
        return ()
    index = _Results(traced[0].trace.working.steps)
    parts = []
    for part in dict.fromkeys(f.part for f in traced):
        own = [f for f in traced if f.part == part]
        entries = [_entry(f, index) for f in own]
        used = {_identity(step) for entry in entries for step in entry.steps}
        met = [step for f in sorted(own, key=lambda f: f.trace.start) for step in f.trace.steps]
        shared = tuple(s for s in _few(_distinct(met), set()) if _identity(s) not in used)
        parts.append(PartWorking(part, shared, tuple(_once(entries))))
    return tuple(parts)


def _once(entries: Iterable[Entry]) -> Iterator[Entry]:
    """The entries of a part, what was set out before only named again."""
    seen: dict[Any, Step | Remark] = {}
    for entry in entries:
        lines: list[Line] = []
        for step in entry.steps:
            first = seen.setdefault(_identity(step), step)
            if first is step:
                lines.append(step)
            elif isinstance(first, Step):
                lines.append(Again(first))
        yield replace(entry, steps=tuple(lines))


def _entry(finding: Finding, index: "_Results") -> Entry:
    """What its numbers came from, and what else was computed for it by its own publication."""
    trace = finding.trace
    assert trace is not None
    amounts = [a.value for a in (finding.demand, finding.capacity) if a]
    numbers = [n for n in (*amounts, finding.utilisation, finding.clause_ratio) if n is not None and math.isfinite(n)]
    reached = index.reached(numbers, trace.end)
    for place in range(trace.start, trace.end):
        step = index.steps[place]
        if isinstance(step, Step) and _is_scalar(step) and place not in reached and _of_one_book(step, finding):
            reached |= {place: step} | index.came_from(step, place)
    used = {_identity(step) for step in reached.values()}
    by_place = {**reached, **{p: s for p, s in enumerate(trace.steps, trace.start) if isinstance(s, Remark)}}
    kept = _few(_distinct(step for _, step in sorted(by_place.items())), used)
    return Entry(finding, tuple(kept), index.multiple(finding, trace.end))


_BOOK = re.compile(r"\b(?:EN|ISO) [\d-]*\d")


def _of_one_book(step: Step, finding: Finding) -> bool:
    """Whether a step that was met on the way is of the publication the finding names; any, where it names none."""
    books = set(_BOOK.findall(finding.source))
    return not books or bool(books & set(_BOOK.findall(step.formula.source)))


class _Results:
    """The results of all steps of a working, so that the step a number came from is found at once.

    A number is met again where it is the same to 1e-12. One so round (1, 2.5, 235) that meeting it proves nothing
    must have the name of the argument too.
    """

    def __init__(self, steps: Sequence[Step | Remark]) -> None:
        self.steps = steps
        values, places, inside = [], [], []
        self.named: dict[tuple[str, float], list[int]] = {}
        for place, step in enumerate(steps):
            if isinstance(step, Remark):
                continue
            result = np.abs(np.asarray(step.result, dtype=float)).ravel()
            values.append(result)
            places.append(np.full(result.size, place))
            inside.append(np.arange(result.size))
            if result.size == 1:
                self.named.setdefault((_bare(step.formula.symbol), float(result[0])), []).append(place)
        joined = np.concatenate(values) if values else np.zeros(0)
        order = np.argsort(joined, kind="stable")
        self.values = joined[order]
        self.places = np.concatenate(places)[order] if places else np.zeros(0, int)
        self.inside = np.concatenate(inside)[order] if inside else np.zeros(0, int)

    def reached(self, numbers: Iterable[float], end: int) -> dict[int, Step]:
        """Steps, by their place, whose results became these numbers, and the steps their own values came from."""
        queue = [(abs(n) / times, "", end) for n in numbers for times in TIMES]
        return self._followed(queue)

    def came_from(self, step: Step, place: int) -> dict[int, Step]:
        """The steps whose results a step was given."""
        return self._followed([(abs(float(v)), k, place) for k, v in step.values.items() if _is_number(v)])

    def _followed(self, queue: list[tuple[float, str, int]]) -> dict[int, Step]:
        found: dict[int, Step] = {}
        while queue:
            number, name, before = queue.pop()
            met = self._latest(number, name, before)
            if met is None:
                continue
            place, inside = met
            if place not in found:
                step = _at(self.steps[place], inside)
                found[place] = step
                queue += [(abs(float(v)), k, place) for k, v in step.values.items() if _is_number(v)]
        return found

    def multiple(self, finding: Finding, end: int) -> str:
        """How the capacity came from a result: "2 x M_pl,Rd"; empty where it is one itself, or none."""
        if finding.capacity is None:
            return ""
        for times in TIMES:
            met = self._latest(finding.capacity.value / times, "", end)
            if met is not None:
                step = self.steps[met[0]]
                return f"{times} x {step.formula.symbol}" if times > 1 and isinstance(step, Step) else ""
        return ""

    def _latest(self, number: float, name: str, before: int) -> tuple[int, int] | None:
        """Place of the latest step before `before` that gives this number, and where in its arrays."""
        if _plain(number):
            places = [p for p in self.named.get((_bare(name), number), ()) if p < before] if name else []
            return (places[-1], 0) if places else None
        low, high = np.searchsorted(self.values, (number * (1 - 1e-12), number * (1 + 1e-12)), side="left")
        fitting = [i for i in range(low, high) if self.places[i] < before]
        best = max(fitting, key=lambda i: self.places[i], default=None)
        return None if best is None else (int(self.places[best]), int(self.inside[best]))


def _at(step: Any, inside: int) -> Step:
    """The step, at one place of its arrays where it was made with arrays."""
    if _is_scalar(step):
        return step
    shape = np.shape(step.result)
    values = {name: np.broadcast_to(value, shape).ravel()[inside].item() for name, value in step.values.items()}
    return _Placed(step.formula, step.args, values, np.asarray(step.result).ravel()[inside].item())


class _Placed(Step):
    """A step at one place of its arrays; `args` still tells which call it was, the values stand in `kwargs`."""

    @property
    def values(self) -> dict[str, Any]:  # type: ignore[override]
        return dict(self.kwargs)


def _plain(number: float) -> bool:
    return number == 0 or float(f"{number:.4g}") == number


def _bare(name: str) -> str:
    return name.replace("_", "").replace(",", "").lower()


def _is_number(value: Any) -> bool:
    return type(value) is float or isinstance(value, _NUMBERS) or (isinstance(value, np.ndarray) and value.ndim == 0)


_NUMBERS = (int, float, np.number)


@lru_cache(maxsize=8192)
def _is_scalar(step: Step | Remark) -> bool:
    return isinstance(step, Remark) or all(map(_is_number, (step.result, *step.values.values())))


@lru_cache(maxsize=8192)
def _identity(step: Any) -> Any:
    """Two calls of one formula with the same values are one line of the notebook."""
    if isinstance(step, Remark):
        return step
    return step.formula, tuple((n, float(v)) for n, v in step.values.items() if _is_number(v))


def _distinct(steps: Iterable[Step | Remark]) -> list[Step | Remark]:
    return list({_identity(step): step for step in steps if _is_scalar(step)}.values())


def _few(steps: Sequence[Step | Remark], reached: set[Any]) -> list[Step | Remark]:
    """The steps, where a formula was called again and again only the calls that were used, else the last."""
    calls: dict[Any, list[Step]] = {}
    for step in steps:
        if isinstance(step, Step):
            calls.setdefault(step.formula, []).append(step)
    kept = {id(call) for of_one in calls.values() for call in _kept(of_one, reached)}
    return [step for step in steps if isinstance(step, Remark) or id(step) in kept]


def _kept(calls: list[Step], reached: set[Any]) -> list[Step]:
    if len(calls) <= MOST_OF_ONE:
        return calls
    return [call for call in calls if _identity(call) in reached] or calls[-1:]
