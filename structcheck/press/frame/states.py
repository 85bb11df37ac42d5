"""The states a frame's corners may be in, and the answer of each from one solution of the fully loosened frame.

A ring with rigid corners, with one or two of them loose or with springs in them differs from the ring with all corners
loose by one pair of moments at each corner and one sideways force. The loosened ring, held sideways by a spring as a
prop, is solved once for all loads and for each of these unit actions; every state is then a small system of equations:
at each corner that holds, the turn between beam and upright is what its stiffness allows, and a force equal and
opposite to the prop's takes the prop away.
"""

from collections.abc import Mapping, Sequence
from functools import cached_property

import numpy as np

from structcheck.analysis.frame import Frame, NodeLoad, PointOnMember, Result, solve
from structcheck.analysis.frame_model import Load
from structcheck.press.frame.lines import Lines, lines_of
from structcheck.record import record

STATICS = "all corners loose"
_NOTHING = 1e-7
"""Share of the force a prop may carry and still count as carrying nothing."""


@record
class State:
    """A state of the corners: place -> stiffness in N mm/rad, infinite where rigid; a place left out is loose."""

    name: str
    holds: Mapping[str, float]


@record
class Hinge:
    """A corner: the member whose end is loosened there, and where on it the joint stands."""

    place: str
    member: str
    node: str
    at: float


@record
class Loosened:
    """The loosened frame solved for loads and unit actions; columns: the loads, the hinges, a force at the prop.

    work  (q, c, c) internal work between any two columns, by kind: bending, shear, axial, torsion; the prop left out
    prop  (c,) what the ground pushes on the frame at the prop, with the force that stands there
    give  mm the prop yields for 1 N
    """

    result: Result
    lines: Lines
    names: tuple[str, ...]
    hinges: tuple[Hinge, ...]
    work: np.ndarray
    prop: np.ndarray
    give: float

    @cached_property
    def strains(self) -> np.ndarray:
        """(c, c) work of all kinds."""
        return self.work.sum(axis=0)

    @cached_property
    def undone(self) -> np.ndarray:
        """(hinges + 1, c) the turn at every hinge in each column, and the force at the prop.

        The turn is the work of the hinge's pair there: strains, and the prop's spring.
        """
        spring = self.prop.copy()
        spring[-1] -= 1.0
        own = slice(len(self.names), -1)
        turns = self.strains[own] + self.give * np.outer(spring[own], spring)
        return np.concatenate([turns, self.prop[None]])


@record
class Solved:
    """One state: columns -> combination of the loosened frame's columns, for the loads it can carry.

    factors  (c, loads) each load's combination
    carried  (loads,) False where nothing but the prop would keep the frame from racking
    springs  (loads,) twice the energy in sprung corners for each load
    """

    state: State
    factors: np.ndarray
    carried: np.ndarray
    springs: np.ndarray


def corner_states(corners: Mapping[str, str | float]) -> tuple[State, ...]:
    """The states to run for corners as stated; unknown ones are run rigid and loose."""
    fixed = {place: np.inf if how == "rigid" else how for place, how in corners.items() if not _open(how)}
    fixed = {place: float(how) for place, how in fixed.items()}
    unknown = [place for place, how in corners.items() if how == "unknown"]
    stated = "corners as stated"
    if not unknown:
        return (State(stated if fixed else STATICS, fixed),)

    def state(name: str, loose: Sequence[str]) -> State:
        return State(name, fixed | {place: np.inf for place in unknown if place not in loose})

    found = [state("rigid", ())]
    found += [state(f"{place} loose", (place,)) for place in unknown]
    for beam in ("head", "bed"):
        pair = [place for place in unknown if place.startswith(beam)]
        if len(pair) == 2:
            found.append(state(f"both corners of the {beam} loose", pair))
    if len(unknown) > 1 or not fixed:
        found.append(state(STATICS if not fixed else "all unknown corners loose", unknown))
    return tuple({tuple(sorted(s.holds.items())): s for s in found}.values())


def _open(how: str | float) -> bool:
    return how in ("unknown", "pinned")


def loosened(
    frame: Frame, loads: Mapping[str, Sequence[Load]], hinges: Sequence[Hinge], prop: tuple[str, str]
) -> Loosened:
    """Solve a frame whose hinges are released and whose prop (node, direction) is a spring to the ground."""
    cases: dict[str, Sequence[Load]] = dict(loads)
    for hinge in hinges:
        pair = [
            PointOnMember(hinge.member, hinge.at, moment=(0.0, 1.0, 0.0)),
            NodeLoad(hinge.node, moment=(0, -1.0, 0)),
        ]
        cases[f"hinge {hinge.place}"] = pair
    node, direction = prop
    way = ("x", "y", "z").index(direction)
    cases["prop"] = [NodeLoad(node, tuple(float(axis == way) for axis in range(3)))]
    result = solve(frame, cases)
    lines = lines_of(result)
    ground = result.answer.reactions[6 * result.structure.node_index[node] + way].copy()
    ground[-1] += 1.0
    stiffness = next(support.springs[direction] for support in frame.supports if support.node == node)
    return Loosened(result, lines, tuple(loads), tuple(hinges), lines.work(), ground, 1 / stiffness)


def solved(base: Loosened, states: Sequence[State]) -> tuple[Solved, ...]:
    """The combinations of columns that make the frame answer in each state."""
    loads, hinges = len(base.names), len(base.hinges)
    factors = np.zeros((len(states), len(base.prop), loads))
    factors[:, :loads] = np.eye(loads)
    springs = np.zeros((len(states), loads))
    for number, state in enumerate(states):
        holding = [place for place, hinge in enumerate(base.hinges) if hinge.place in state.holds]
        # With nothing to hold the corners all of the force at the prop goes into the prop: it cannot be taken away.
        if holding or abs(base.prop[-1]) >= _NOTHING:
            give = np.array([1 / state.holds[base.hinges[place].place] for place in holding])
            X = _undone(base, [*holding, hinges], give)
            factors[number, [loads + place for place in (*holding, hinges)]] = X
            springs[number] = give @ X[:-1] ** 2
    carried = np.abs(base.prop @ factors) < _NOTHING * np.maximum(base.lines.size[:loads], 1e-30)
    return tuple(map(Solved, states, factors, carried, springs))


def _undone(base: Loosened, rows: Sequence[int], give: np.ndarray) -> np.ndarray:
    """(rows, loads) what undoes the turns at the hinges that hold and the force at the prop, by each load.

    give  what the springs in these hinges turn by for 1 N mm
    """
    loads, own = len(base.names), base.undone[rows]
    A = own[:, [loads + row for row in rows]]
    A[range(len(give)), range(len(give))] += give
    return _solve(A, -own[:, :loads])


def _solve(A: np.ndarray, right: np.ndarray) -> np.ndarray:
    """Rows are turns and a force, unknowns moments and a movement: brought to one size before they are solved."""
    row = 1 / np.abs(A).max(axis=1)
    S = A * row[:, None]
    column = 1 / np.abs(S).max(axis=0)
    return column[:, None] * np.linalg.solve(S * column, right * row[:, None])
