"""A frame of nodes and members solved in every state of its joints, and how near each is to buckling."""

from collections.abc import Hashable, Mapping, Sequence
from functools import lru_cache, partial
from typing import Any

import numpy as np

from structcheck.analysis.frame import Frame, Result, loads_of, prepare, rejointed, solve_loads
from structcheck.analysis.frame_model import Load
from structcheck.analysis.frame_result import work_out_together
from structcheck.analysis.stability import lower_bound
from structcheck.errors import InputError, Mechanism, Problem
from structcheck.press.frame import own_weight
from structcheck.press.frame.envelope import Combination, Keeps, Level
from structcheck.press.frame.lines import Lines, lines_of
from structcheck.press.frame.members_model import Model, frame_of, joint_states
from structcheck.press.frame.order import FIRST_ORDER, Order, looked_into
from structcheck.press.frame.own_weight import OwnWeight
from structcheck.record import record

NOTHING = 1e-9
"""N in a member for 1 N of all jacks, below which nothing presses it."""
ENDLESS = 1e6
"""Times the force at work beyond which a critical force is none."""


@record
class StateAnswer:
    """One state of the joints, solved for every position of 1 N of all jacks."""

    name: str
    result: Result
    lines: Lines


@record
class SolvedMembers(Keeps):
    """A frame of nodes and members in every state of its joints.

    lines     the diagrams of all states side by side: the columns of `combined`
    refused   state -> how the frame moves in it
    factors   (columns, combinations) of all states
    kept      what was found out of the same frame before, for one newton
    """

    model: Model
    states: tuple[StateAnswer, ...]
    lines: Lines
    combined: tuple[Combination, ...]
    levels: tuple[Level, ...]
    own: OwnWeight
    refused: Mapping[str, str]
    factors: np.ndarray
    kept: dict[Hashable, Any]


def solve_members(model: Model, levels: Sequence[Level], weight: float | None) -> SolvedMembers:
    """Solve every state of the joints; weight: what own weight is per N of all jacks, where it counts.

    Raises InputError where the frame moves in every one of them.
    """
    states, lines, combined, refused, factors, kept = _for_one_newton(model, weight is not None)
    own = own_weight.NOTHING
    if weight is not None:
        kept["weight", weight] = own = kept.get(("weight", weight)) or _weight(model, states, weight)
    return SolvedMembers(model, states, lines, combined, tuple(levels), own, refused, factors, kept)


@lru_cache(maxsize=16)
def _for_one_newton(model: Model, heavy: bool) -> tuple[Any, ...]:
    """What does not hang on how hard the jack pushes: kept while a rating or a joint is looked for."""
    cases: dict[str, Sequence[Load]] = dict(model.loads)
    if heavy:
        cases[own_weight.CASE] = own_weight.member_loads(model.tables.mass)
    solved, refused, structure, loads = {}, {}, None, None
    for name, joints in joint_states(model.tables.member):
        # Only joints differ from state to state.
        frame = frame_of(model, joints)
        structure = prepare(frame) if loads is None else rejointed(structure, frame)
        loads = loads_of(structure, cases) if loads is None else loads
        try:
            solved[name] = solve_loads(structure, loads, next(iter(solved.values()), None))
        except Mechanism as moves:
            refused[name] = str(moves)
    if not solved:
        wanted = "joints and supports that hold the frame"
        raise InputError(
            Problem("support", "", f"the frame moves: {'; '.join(next(iter(refused.items())))}", wanted, part="frame")
        )
    work_out_together(list(solved.values()))
    states = tuple(StateAnswer(name, result, lines_of(result)) for name, result in solved.items())
    count = len(model.positions)
    factors = np.eye(count * len(states))
    each = ((state, position) for state in states for position in model.positions)
    combined = tuple(Combination(p, s.name, unit) for (s, p), unit in zip(each, factors, strict=True))
    beside = np.concatenate([state.lines.polynomials[..., :count] for state in states], axis=-1)
    lines = Lines(states[0].result, beside)
    return states, lines, combined, refused, factors, {}


def _weight(model: Model, states: Sequence[StateAnswer], each: float) -> OwnWeight:
    names, column = [row.name for row in model.tables.member], np.zeros(len(model.loads) + 1)
    column[-1] = each
    sizes = {state.name: next(own_weight.sizes_in(state.lines, names, [column])) for state in states}
    return OwnWeight(sizes, each=each)


def order_of_members(found: SolvedMembers) -> Order:
    """The critical force of every combination: a bound, and the geometric stiffness only where that is too low."""
    greatest = max(level.force for level in found.levels)
    count = len(found.model.positions)
    bounds = [found.once(("bounds", s.name, greatest), partial(_bounds, s, count, greatest)) for s in found.states]
    factors = np.concatenate(bounds)
    frames: Mapping[str, Frame] = {state.name: state.result.structure.frame for state in found.states}

    def loaded(combination: Combination) -> tuple[Frame, Sequence[Load]]:
        return frames[combination.state], found.model.loads[combination.position.name]

    order = looked_into(found, factors, loaded)
    order.factors[order.factors > ENDLESS * greatest] = np.inf
    return order


def _bounds(state: StateAnswer, count: int, greatest: float) -> np.ndarray:
    """(positions,) N: the bound of them all together, and of each alone where that would not do."""
    _, forces = state.lines.ends_of_runs()
    least = forces[0].min(axis=1)[:, :count]
    least = np.where(least < -NOTHING, least, 0.0)
    structure, matrices = state.result.structure, state.result.matrices
    together = lower_bound(structure, least.min(axis=1), matrices)
    if together >= FIRST_ORDER * greatest:
        return np.full(count, together)
    return np.array([lower_bound(structure, own, matrices) for own in least.T])
