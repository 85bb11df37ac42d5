"""From the answers of all corner states to the few internal forces that can govern a part.

One set of forces is left out where another of the same kind of case is at least as large in every component and has the
same signs where signs matter. So what is left out lies in the box between nothing and what is kept, and in its mirror
images where a sign was not looked at. Whoever judges what is kept must judge that box by its hardest corner:

- a use that grows with the size of every component does so by the kept set itself (members, plain groups of bolts);
- where parts can relieve each other (a layout of bolts, runs drawn anywhere) the use is still convex, being the largest
  of sizes of sums, and greatest at a corner: each part whole or left out, with every sign that was not looked at.

Axial and shear forces that hardly stress the part are all set to the largest of them first.
"""

from collections.abc import Callable, Hashable, Sequence
from dataclasses import field
from functools import lru_cache
from typing import Any, NamedTuple, TypeVar

import numpy as np

from structcheck.analysis.member import evaluate
from structcheck.checks.basis import Case, Limit
from structcheck.press.frame.lines import Lines
from structcheck.press.frame.off_centre import Position
from structcheck.press.frame.states import Solved
from structcheck.record import record

Found = TypeVar("Found")

SIGNED = (0, 4)
"""Axial force and strong-axis moment: compression differs from tension, and one flange from the other."""
MANY = 40
"""Rows from which on it is quicker to drop what the largest outdoes than to compare all with all."""
_LATER = np.triu(np.ones((MANY, MANY), dtype=bool), 1)
NEGLIGIBLE = 1e-9
"""Share of a component's largest value that is nothing."""
MINOR = 0.01
"""Share of the largest stress below which an axial or shear force is no reason to keep a row of its own."""


_ROUNDING = np.array([1e-8, 1e-8, 1e-8, 1e-6, 1e-6, 1e-6])


class Combination(NamedTuple):
    """A position of the load in a state of the corners: columns of the loosened frame and their factors."""

    position: Position
    state: str
    factors: np.ndarray


@record
class Level:
    """A force by which positions are judged: N of all jacks, and which positions it takes."""

    limit: Limit
    force: float
    central_only: bool = False


def combinations(positions: Sequence[Position], states: Sequence[Solved]) -> list[Combination]:
    """Every position in every state that can carry it."""
    return [
        Combination(position, solved.state.name, solved.factors[:, number])
        for solved in states
        for number, position in enumerate(positions)
        if solved.carried[number]
    ]


def case_of(level: Level, combination: Combination) -> Case:
    """The case a combination is reported under: `off centre in line, left; head/left loose`."""
    return _case(level.limit, combination.position.name, combination.state)


@lru_cache(maxsize=1024)
def _case(limit: Limit, position: str, state: str) -> Case:
    parts = (position or limit,) if limit == "ultimate" else (limit, position)
    name = ", ".join(part for part in parts if part)
    return Case(f"{name}; {state}" if state else name, limit)


class Keeps:
    """Something that never changes, and keeps what was once found out of it."""

    kept: dict[Hashable, Any]

    def once(self, asked: Hashable, find: Callable[[], Found]) -> Found:
        """What `find` finds; looked up where it was asked before."""
        if asked not in self.kept:
            self.kept[asked] = find()
        return self.kept[asked]


@record
class Sampled(Keeps):
    """Internal forces of one member at every place that matters; n samples of 6 components for 1 N."""

    values: np.ndarray  # (n, 6)
    where: np.ndarray  # (n,) mm from the start node
    combination: np.ndarray  # (n,) number
    kept: dict[Hashable, Any] = field(default_factory=dict, init=False, repr=False)

    def governing(
        self, combined: Sequence[Combination], central_only: bool, signed: tuple[int, ...], apart: int | None
    ) -> np.ndarray:
        """Rows that no other outdoes (`governing`), of all positions or of the central ones."""

        def find() -> np.ndarray:
            if not central_only:
                return governing(self.values, signed, apart)
            among = np.array([c.position.central for c in combined])[self.combination].nonzero()[0]
            return among[governing(self.values[among], signed, apart)]

        return self.once((central_only, signed, apart), find)


def sample(
    lines: Lines,
    member: str,
    combined: Sequence[Combination],
    C: np.ndarray,
    over: float = 0.0,
    middle: float = 0.0,
) -> Sampled:
    """Both sides of every jump, every other station, and the places between where the moment turns under a spread load.

    C       (columns, combinations) their factors side by side
    over    length each push is spread over; within it only its own quarters are looked at, not the others' ends
    middle  mm from the start node to the frame's middle
    """
    number = lines.result.structure.member_index[member]
    runs = lines.result.loads.runs
    used = np.flatnonzero((runs.length[number] > 0) & runs.flexible[number])
    polynomials = lines.polynomials[:, :, number, used] @ C  # (powers, 6, runs, combinations)
    begins, h = runs.stations[number, used], runs.length[number, used]
    # Where nothing jumps the end of a run is the beginning of the next.
    jumps = runs.jumps[number, used + 1]
    jumps[-1:] = True
    places = np.concatenate([begins, (begins + h)[jumps]])
    forces = np.concatenate([polynomials[0], evaluate(polynomials[:, :, jumps], h[jumps, None])], axis=1)
    if over and member in ("head", "bed"):
        row, combination = _own(places, member, combined, over, middle).nonzero()
        values, where = forces[:, row, combination], places[row]
    else:
        values, where = forces.reshape(6, -1), places.repeat(len(combined))
        combination = np.tile(np.arange(len(combined)), len(places))
    if runs.spreads:
        slope, curve = polynomials[1, 4], polynomials[2, 4]
        turn = np.divide(-slope, 2 * curve, out=np.full_like(slope, -1.0), where=np.abs(curve) > 1e-12)
        inside = (turn > 0) & (turn < h[:, None])
        row, column = inside.nonzero()
        turned = evaluate(polynomials[:, :, row, column], turn[inside])
        values = np.concatenate([values, turned], axis=1)
        where, combination = np.concatenate([where, begins[row] + turn[inside]]), np.concatenate([combination, column])
    return Sampled(cleaned(values.T), where, combination)


def _own(places: np.ndarray, member: str, combined: Sequence[Combination], over: float, middle: float) -> np.ndarray:
    """(places, combinations) False where a place lies inside a spread load and is none of its quarters."""
    # All states of one position load the beam at the same places.
    pushed = {c.position.name: [push.x for push in getattr(c.position, member)] for c in combined}
    number = {name: row for row, name in enumerate(pushed)}
    pushes = [(row, x) for row, xs in enumerate(pushed.values()) for x in xs]
    of, at = np.array(pushes, dtype=float).reshape(-1, 2).T
    quarter = (places[:, None] - middle - at) / over * 4
    inside = (np.abs(quarter) < 2) & (np.abs(quarter - np.rint(quarter)) >= 1e-6)
    other = np.zeros((len(places), len(pushed)), dtype=bool)
    place, push = inside.nonzero()
    other[place, of[push].astype(int)] = True
    return ~other[:, [number[c.position.name] for c in combined]]


def cleaned(values: np.ndarray) -> np.ndarray:
    """Rounding left by the solver, far below the 1 N at work, is nothing."""
    return np.where(np.abs(values) <= _ROUNDING, 0.0, values)


def levelled(values: np.ndarray, weights: np.ndarray, minor: float = MINOR, worse: float = -1.0) -> np.ndarray:
    """Axial and shear forces too small to matter, set to their largest, so that they do not tell rows apart.

    weights  stress from 1 N or 1 N mm of each component; what stays below `minor` of the largest sum is small
    worse    sign of the axial force that is the harder one: -1 compression in a member, 1 tension in a joint
    """
    stress = np.abs(values) * weights
    least = minor * stress.sum(axis=1).max(initial=0.0)
    values = values.copy()
    for column in (0, 2):
        if 0 < stress[:, column].max(initial=0.0) < least:
            most = np.abs(values[:, column]).max()
            turned = column == 0 and (worse * values[:, 0] > 0).any()
            values[:, column] = worse * most if turned else most
    return values


def governing(values: np.ndarray, signed: Sequence[int] = SIGNED, apart: int | None = None) -> np.ndarray:
    """Rows of (n, k) that no other row outdoes; rows with something in column `apart` do not outdo those without."""
    if len(values) < 2:
        return np.arange(len(values))
    ways, total = _ways(values, signed, apart)
    left, kept = np.arange(len(values)), []
    while left.size > MANY:
        first = total.argmax()
        kept.append(left[first])
        reach = ways[:, first] * (1 + NEGLIGIBLE) + NEGLIGIBLE
        rest = (ways > reach[:, None]).any(axis=0).nonzero()[0]
        left, ways, total = left.take(rest), ways.take(rest, axis=1), total.take(rest)
    # The few that are left are compared all with all, the largest first.
    order = (-total).argsort(kind="stable")
    left, ways = left.take(order), ways.take(order, axis=1)
    reach = ways * (1 + NEGLIGIBLE) + NEGLIGIBLE
    outdone = (ways[:, None] <= reach[..., None]).all(axis=0) & _LATER[: left.size, : left.size]
    alone = left[~outdone.any(axis=0)]
    return np.concatenate([kept, alone]) if kept else alone


def _ways(values: np.ndarray, signed: Sequence[int], apart: int | None) -> tuple[np.ndarray, np.ndarray]:
    """(ways, n) what a row is large in, as shares of the largest, and (n,) the sum of its shares.

    Where the sign matters each sense is a way of its own; and so is being without what stands apart.
    """
    forces = values.T.copy()
    size = np.abs(forces)
    most = size.max(axis=1)
    most[most == 0] = 1.0
    size /= most[:, None]
    count = len(size)
    ways = np.empty((count + len(signed) + (apart is not None), len(values)))
    ways[:count] = size
    if apart is not None:
        ways[-1] = size[apart] <= NEGLIGIBLE
    for number, row in enumerate(signed, start=count):
        up = forces[row] > 0
        np.multiply(size[row], up, out=ways[row])
        np.multiply(size[row], ~up, out=ways[number])
    # Rounded, so that of mirror images the first is looked at first, whatever machine solved.
    return ways, np.round(size.sum(axis=0), 9)


def reduce(
    samples: Sampled,
    combined: Sequence[Combination],
    levels: Sequence[Level],
    make: Callable[[Combination, Case, float, list[float]], Any],
    signed: Sequence[int] = SIGNED,
    apart: int | None = None,
) -> tuple[Any, ...]:
    """What can govern at each level: `make(combination, case, place, forces)` for each row kept."""
    found = []
    for level in levels:
        kept = samples.governing(combined, level.central_only, tuple(signed), apart)
        # Adding nothing turns -0.0 into 0.0.
        forces = (samples.values[kept] * level.force + 0.0).tolist()
        numbers, places = samples.combination[kept].tolist(), samples.where[kept].tolist()
        for number, place, own in zip(numbers, places, forces, strict=True):
            combination = combined[number]
            found.append(make(combination, case_of(level, combination), place, own))
    return tuple(found)
