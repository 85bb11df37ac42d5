"""Whether a ring's first-order moments are enough: its elastic critical factor, and what to do where it is low.

Two things let a ring buckle. A pressed member bows between its ends: never below its Euler load between turning ends.
And pressed members lean, their ends moving sideways: not while the pulled uprights steady more than those push on,
N_pressed / L <= 1 / (h / T_left + h / T_right), since that much holds without any stiffness. Where both are settled by
this the least Euler factor is a lower bound; where not, the ring's geometric stiffness decides.
"""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Protocol

import numpy as np

from structcheck.analysis.frame import Frame, Joint, Result
from structcheck.analysis.frame_model import Load
from structcheck.analysis.stability import critical, second_order
from structcheck.errors import Mechanism, StructcheckError
from structcheck.findings import Assumption, Outcome, judged, not_checked
from structcheck.maths import first_of_greatest
from structcheck.press.frame import closed
from structcheck.press.frame.envelope import Combination, Level, Sampled, case_of, cleaned
from structcheck.press.frame.leaning import leans
from structcheck.press.frame.lines import rows_of
from structcheck.press.frame.own_weight import OwnWeight
from structcheck.press.frame.solving import Ringed
from structcheck.press.frame.states import State
from structcheck.press.frame.understood import E, G, Part, Ring
from structcheck.press.frame_schema import Guides, Stops
from structcheck.record import record
from structcheck.showing import count

FIRST_ORDER = 10.0
"""EN 1993-1-1:2005 5.2.1(3), elastic analysis."""
ENOUGH = "first-order moments are enough"
BEYOND = 0.999
"""Of a force at which axial forces do not settle: so near the critical one, it is taken to be beyond it."""
CASE = "bent"
SOFT = 1e-7
BUILT = Assumption(
    "frame",
    "where second order counts, its pressed members lean by 1 in 200 as built, to either side and as the frame "
    "buckles (EN 1993-1-1 5.3.2, not reduced); readings leave that out",
)
FLAT = Assumption("frame", "the jack stands flat: its force keeps its direction when the frame gives sideways")


Loaded = Callable[[Combination], tuple[Frame, Sequence[Load]]]
"""The frame of a combination, and its loads for 1 N of all jacks."""


@record
class Order:
    """How near a ring is to buckling.

    factors  (combinations,) N of all jacks at which it would buckle, never more than it takes
    exact    (combinations,) from the geometric stiffness, not the bound
    bent     limit -> number of a combination -> its second-order result, where that is needed
    """

    factors: np.ndarray
    exact: np.ndarray
    bent: Mapping[str, Mapping[int, Result]]
    levels: tuple[Level, ...]
    loaded: Loaded

    def at(self, combination: Combination, number: int, force: float) -> Result | None:
        """The second-order result of case CASE at a force; None where first order is enough at the greatest one.

        Also where there is none: then `elastic stability` is no pass.
        """
        greatest = max(level.force for level in self.levels)
        if not force < self.factors[number] < FIRST_ORDER * greatest:
            return None
        for level in self.levels:
            if level.force == force and number in self.bent[level.limit]:
                return self.bent[level.limit][number]
        frame, loads = self.loaded(combination)
        return _bent(frame, [scaled(load, force) for load in loads])

    def moments(self, member: str, x: float) -> Iterator[tuple[int, float]]:
        """(combination, size of the moment in the plane per N) at a place, where it is of second order."""
        for level in self.levels:
            for number, result in self.bent[level.limit].items():
                yield number, largest_moment(result, member, x) / level.force


def largest_moment(result: Result, member: str, x: float) -> float:
    """Size of the moment in the plane at a place, whichever way the frame leans, N mm."""
    return max(abs(result.value("My", member, x, case, side)) for case in result.cases for side in ("left", "right"))


class Analysed(Protocol):
    """A frame solved for every combination of position and state."""

    combined: Sequence[Combination]
    levels: tuple[Level, ...]
    own: OwnWeight


def order_of(found: Ringed, over: tuple[float, float], guides: Guides | None, stops: Stops | None) -> Order:
    """The critical force of every combination; where the bound is too low, the geometric stiffness and what it does."""
    factors = found.once("bounds", lambda: lower_bounds(found.ring, _axial(found, found.factors)))
    states = {s.state.name: s.state for s in found.states}

    def loaded(combination: Combination) -> tuple[Frame, list[Load]]:
        loads = closed.loads(found.ring, combination.position, over, guides, stops)
        return in_state(found.ring, states[combination.state]), loads

    return looked_into(found, factors, loaded)


def looked_into(found: Analysed, factors: np.ndarray, loaded: Loaded) -> Order:
    """Where the lower bounds of the critical forces, N, are too low: those forces themselves, and second order."""
    greatest = max(level.force for level in found.levels)
    factors = factors.copy()
    exact = factors < FIRST_ORDER * greatest
    bent: dict[str, dict[int, Result]] = {level.limit: {} for level in found.levels}
    for number in np.flatnonzero(exact):
        combination = found.combined[number]
        frame, loads = loaded(combination)
        buckled, mode = _exact(frame, loads, greatest)
        factors[number] = max(factors[number], buckled)
        for level in found.levels:
            if level.central_only and not combination.position.central:
                continue
            if level.force < factors[number] < FIRST_ORDER * level.force:
                result = _bent(frame, [scaled(load, level.force) for load in loads], mode)
                if result is None:
                    factors[number] = min(factors[number], BEYOND * level.force)
                else:
                    bent[level.limit][number] = result
    return Order(factors, exact, bent, found.levels, loaded)


SLACK = 0.99
"""Of the bound: Engesser's bar bears up to 0.3 % more than the frame's own shear-flexible members."""


def lower_bounds(ring: Ring, axial: Mapping[str, np.ndarray]) -> np.ndarray:
    """(combinations,) the least Euler factor; 0 where members could lean. `axial` in N per N, tension positive."""
    pressed = {name: np.maximum(-N, 0.0) for name, N in axial.items()}
    share = np.max([pressed[name] / euler(*_bar(ring, name)) for name in axial], axis=0)
    with np.errstate(divide="ignore", invalid="ignore"):
        factors = np.where(share > 1e-15, SLACK / share, np.inf)
        gives = sum(ring.height / np.maximum(axial[f"{side} upright"], 0.0) for side in ("left", "right"))
        steady = (pressed["head"] + pressed["bed"]) / ring.span * gives <= 1
    pushed = np.max([pressed[name] for name in axial], axis=0)
    return np.where(steady | (pushed <= 1e-9), factors, 0.0)


def _axial(found: Ringed, C: np.ndarray) -> dict[str, np.ndarray]:
    """The least axial force of each member, from both its ends."""
    index, axes = found.base.result.structure.member_index, found.base.result.structure.axes
    ends = found.base.result.answer.ends
    names = ["head", "bed", "left upright", "right upright"]
    return {
        name: np.minimum(
            -axes[index[name], 0] @ ends[index[name], :3] @ C, axes[index[name], 0] @ ends[index[name], 6:9] @ C
        )
        for name in names
    }


def _bar(ring: Ring, name: str) -> tuple[Part, float]:
    return (getattr(ring, name), ring.span) if name in ("head", "bed") else (ring.upright, ring.height)


def euler(part: Part, length: float) -> float:
    """Euler load of a member between turning ends, less by its shear (Engesser), N."""
    bent = min(part.I_plane, part.I_across) * math.pi**2 * E / length**2
    return 1 / (1 / bent + 1 / (G * min(part.As_plane, part.As_across)))


def in_state(ring: Ring, state: State) -> Frame:
    """The ring with its corners as they are in a state; of the loosened one's prop next to nothing is left.

    So a ring of loose corners is no mechanism for the matrix, and is held by what its pulled uprights steady or not.
    """
    built = closed.build(ring)
    holds = {(hinge.member, hinge.place): state.holds.get(hinge.place, 0.0) for hinge in built.hinges}

    def joint(member: str, node: str, there: Joint) -> Joint:
        return replace(there, ry=holds.get((member, node), there.ry))

    members = [
        replace(m, at_start=joint(m.name, m.start, m.at_start), at_end=joint(m.name, m.end, m.at_end))
        for m in built.frame.members
    ]
    supports = [
        replace(support, springs={way: SOFT * stiffness for way, stiffness in support.springs.items()})
        for support in built.frame.supports
    ]
    return replace(built.frame, members=members, supports=supports)


def _exact(frame: Frame, loads: Sequence[Load], force: float) -> tuple[float, Mapping[str, np.ndarray]]:
    """The force at which it buckles, and how; asked at a force at work, since a factor beyond 1e6 is taken for none."""
    try:
        found = critical(frame, {CASE: [scaled(load, force) for load in loads]})[CASE]
        return force * found.factor, found.mode
    except Mechanism:
        return 0.0, {}


def scaled(load: Load, factor: float) -> Load:
    """A load so many times as great."""
    named = {name: getattr(load, name, None) for name in ("force", "moment", "to")}
    return replace(load, **{name: tuple(factor * part for part in given) for name, given in named.items() if given})


def _bent(frame: Frame, loads: Sequence[Load], mode: Mapping[str, np.ndarray] | None = None) -> Result | None:
    """The second-order result, None where none is found: so near the critical force axial forces do not settle.

    mode  how it buckles: case CASE is then the frame as drawn, the others lean
    """
    try:
        return second_order(frame, {CASE: loads} | ({} if mode is None else leans(frame, loads, mode)))
    except StructcheckError:
        return None


def grown(
    found: Analysed, order: Order, rows: Sampled, member: str, places: Sequence[tuple[float, str]] | None = None
) -> list[tuple[tuple[Level, ...], Sampled]]:
    """(levels, rows) with second-order forces where they are needed and weight where it counts.

    places  where and on which side, if only there
    """
    if not any(order.bent.values()):
        return [(found.levels, found.own.on(rows, found.combined, member))]
    answer = []
    for level in found.levels:
        bent = order.bent[level.limit]
        kept = ~np.isin(rows.combination, list(bent))
        values, where, numbers = [rows.values[kept]], [rows.where[kept]], [rows.combination[kept]]
        for number, result in bent.items():
            for case in result.cases:
                at, own = rows_of(result, member, case, level.force, places)
                values.append(cleaned(own))
                where.append(at)
                numbers.append(np.full(len(at), number))
        bent_rows = Sampled(*(np.concatenate(part) for part in (values, where, numbers)))
        answer.append(((level,), found.own.on(bent_rows, found.combined, member)))
    return answer


def said(found: Analysed, order: Order, one_piece: bool = False) -> Outcome:
    """The critical factor of the ultimate force, and what follows from it."""
    level = found.levels[0]
    number = first_of_greatest(-order.factors)
    factor, combination = order.factors[number] / level.force, found.combined[number]
    if math.isinf(factor):
        text = f"{ENOUGH}: no member is pressed, and no force presses the frame out of shape"
        return Outcome(answers=(text,), assumptions=(FLAT,))
    where = case_of(level, combination).name
    least = "" if order.exact[number] else "at least "
    shown = f"{factor:.1f}" if factor < 100 else count(factor, 3)
    text = f"elastic critical factor of the ultimate force {least}{shown} ({where})"
    if factor <= 1:
        if order.exact[number] and factor > 1e-3:
            found_it = judged("frame", "elastic stability", where, 1.0, factor, "", "EN 1993-1-1 5.2.1")
            return Outcome((found_it,), answers=(text,), assumptions=(FLAT,))
        reason = f"{text}: nothing holds the frame then"
        return Outcome((not_checked("frame", "elastic stability", reason),), assumptions=(FLAT,))
    if factor < FIRST_ORDER and one_piece:
        reason = f"{text}; the corners of the plate are judged by first-order moments"
        return Outcome((not_checked("frame", "second order", reason),), assumptions=(FLAT,))
    if factor >= FIRST_ORDER:
        return Outcome(answers=(f"{text}: {ENOUGH} (EN 1993-1-1 5.2.1(3) asks 10)",), assumptions=(FLAT,))
    text += ": second-order moments are used, in the readings too (EN 1993-1-1 5.2.1(3) asks 10)"
    # No force can grow beyond it, however little of the members it uses up.
    found_it = judged("frame", "elastic stability", where, 1.0, factor, "", "EN 1993-1-1 5.2.1")
    return Outcome((found_it,), answers=(text,), assumptions=(FLAT, BUILT))
