"""A ring solved for every position of the force in every state of its corners."""

from collections.abc import Hashable, Sequence
from functools import lru_cache
from typing import Any

import numpy as np

from structcheck.errors import StructcheckError
from structcheck.press.cases import Forces
from structcheck.press.frame import closed, own_weight
from structcheck.press.frame.envelope import Combination, Keeps, Level, combinations
from structcheck.press.frame.gauges import gauges
from structcheck.press.frame.off_centre import Position
from structcheck.press.frame.states import Loosened, Solved, corner_states, loosened, solved
from structcheck.press.frame.understood import Ring
from structcheck.press.frame_schema import AddedMass, Dial, Guides, Stops
from structcheck.record import record

NOTHING = 1e-6
"""Share of the jack's force the feet may carry and still count as carrying nothing."""


@record
class Ringed(Keeps):
    """A ring solved in every state.

    factors  (columns, combinations) of the loosened ring
    kept     what was found out of the same ring before, for one newton
    """

    ring: Ring
    positions: tuple[Position, ...]
    base: Loosened
    states: tuple[Solved, ...]
    combined: tuple[Combination, ...]
    levels: tuple[Level, ...]
    factors: np.ndarray
    kept: dict[Hashable, Any]
    own: own_weight.OwnWeight = own_weight.NOTHING


def levels_of(forces: Forces) -> tuple[Level, ...]:
    """The forces by which a frame is judged."""
    return (
        Level("ultimate", forces.ultimate),
        Level("greatest force", forces.greatest),
        Level("rated", forces.rated, central_only=True),
    )


def solve_ring(
    shape: Ring,
    places: tuple[Position, ...],
    over: tuple[float, float],
    guides: Guides | None,
    forces: Forces,
    dials: tuple[Dial, ...] = (),
    stops: Stops | None = None,
    masses: tuple[AddedMass, ...] | None = None,
    below: float = 0.0,
) -> Ringed:
    """Solve a ring for all positions of the force, 1 N each, in every state of its corners.

    masses, below  what hangs on it and how far the floor is below its bed, where its weight counts
    """
    base, states, combined, factors, kept = _for_one_newton(shape, places, over, guides, dials, stops, masses, below)
    own = own_weight.NOTHING
    if masses is not None:
        asked = "weight", own_weight.per_newton(forces)
        kept[asked] = own = kept.get(asked) or _weight(shape, base, states, forces)
    return Ringed(shape, places, base, states, combined, levels_of(forces), factors, kept, own)


@lru_cache(maxsize=16)
def _for_one_newton(
    shape: Ring,
    places: tuple[Position, ...],
    over: tuple[float, float],
    guides: Guides | None,
    dials: tuple[Dial, ...],
    stops: Stops | None,
    masses: tuple[AddedMass, ...] | None,
    below: float,
) -> tuple[Loosened, tuple[Solved, ...], tuple[Combination, ...], np.ndarray, dict[Hashable, Any]]:
    """What does not hang on how hard the jack pushes: kept while a rating or a joint is looked for."""
    built = closed.build(shape)
    cases = {position.name: closed.loads(shape, position, over, guides, stops) for position in places}
    cases |= {gauge.name: list(gauge.loads) for gauge in gauges(shape, dials)}
    if masses is not None:
        cases[own_weight.CASE] = own_weight.ring_loads(shape, masses, below)
    base = loosened(built.frame, cases, built.hinges, closed.PROP)
    corners = {hinge.place: shape.corners[hinge.place] for hinge in built.hinges}
    states = solved(base, corner_states(corners))
    combined = tuple(combinations(places, states))
    # As `combinations` has them: state by state, the positions each can carry.
    count = len(places)
    factors = np.concatenate([s.factors[:, :count][:, s.carried[:count]] for s in states], axis=1)
    _feet_carry_nothing(base, factors)
    return base, states, combined, factors, {}


def _weight(shape: Ring, base: Loosened, states: Sequence[Solved], forces: Forces) -> own_weight.OwnWeight:
    column, each = base.names.index(own_weight.CASE), own_weight.per_newton(forces)
    members = own_weight.ring_members(shape)
    found = own_weight.sizes_in(base.lines, members, [s.factors[:, column] for s in states])
    sizes = {
        s.state.name: {name: each * size for name, size in own.items()} for s, own in zip(states, found, strict=True)
    }
    weight = float(np.abs(base.result.answer.reactions[2::6, column].sum())) * shape.planes
    return own_weight.OwnWeight(sizes, each * weight, each)


def _feet_carry_nothing(base: Loosened, factors: np.ndarray) -> None:
    """The jack's force runs in a ring: what the ground would have to give is nothing, or the model is wrong."""
    reactions = base.result.answer.reactions @ factors
    held = base.result.structure.held
    worst = float(np.abs(reactions[held]).max(initial=0.0))
    if worst > NOTHING * max(1.0, float(np.ptp(base.result.structure.xyz))):
        raise StructcheckError(
            f"the feet would carry {worst:.1e} of the jack's force; the frame's loads do not balance"
        )
