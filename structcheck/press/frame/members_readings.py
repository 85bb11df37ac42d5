"""What dials read on a frame of nodes and members, and how far what a jack pushes apart goes out of parallel."""

from collections.abc import Iterator

import numpy as np

from structcheck.analysis.frame import Result
from structcheck.analysis.frame_arrays import cross
from structcheck.maths import first_of_greatest
from structcheck.press.frame.answers import between
from structcheck.press.frame.envelope import Level, case_of
from structcheck.press.frame.given import Given
from structcheck.press.frame.members_model import Spot, line_of
from structcheck.press.frame.members_solved import SolvedMembers
from structcheck.press.frame.order import CASE, Order
from structcheck.press.frame_schema import Dial
from structcheck.showing import show

STEP = 1.0
"""mm to each side of a place, between which its slope is taken."""


def readings(found: SolvedMembers, order: Order, given: Given) -> Iterator[str]:
    """Every dial at rated and proof load, and the tilt at rated load."""
    R = given.forces.rated
    proof = min(given.basis.proof_factor * R, given.forces.greatest)
    rows = {row.name: row for row in found.model.tables.member}
    for dial in given.tables.dial:
        both = [f"{between(list(_read(found, order, dial, force)))} at {show(force, 'kN')}" for force in (R, proof)]
        place = f"{dial.on}, {dial.at:g} mm from node {rows[dial.on].start}, against its ends"
        yield f"dial on {place}: {', '.join(both)} (rated, proof)"
    for push in range(len(found.model.pushes)):
        turns = np.abs(_turns(found, order, push, R))
        worst = first_of_greatest(turns)
        if turns[worst] > 1e-9:
            which = f" (jack {push + 1})" if len(found.model.pushes) > 1 else ""
            case = case_of(Level("ultimate", R), found.combined[worst]).name
            text = f"{turns[worst] * 1e3:.2f} mm per m ({case.removeprefix('ultimate; ')})"
            yield f"what the jack pushes apart{which} out of parallel at rated force: {text}"


def _read(found: SolvedMembers, order: Order, dial: Dial, force: float) -> Iterator[float]:
    """How far a member moves from the line between its ends in each state, in the plane of its strong bending."""
    count, case = len(found.model.positions), found.model.positions[0].name
    for number, state in enumerate(found.states):
        bent = order.at(found.combined[number * count], number * count, force)
        if bent is not None:
            yield float(bent.deflection(dial.on, dial.at, CASE, relative=True)[2])
        else:
            yield force * float(state.result.deflection(dial.on, dial.at, case, relative=True)[2])


def _turns(found: SolvedMembers, order: Order, push: int, force: float) -> np.ndarray:
    """(combinations,) how much what a jack pushes apart turns, in the plane of the jack's line and its offset."""
    _, start, end = found.model.pushes[push]
    way, along, _ = line_of(start, end)
    count = len(found.model.positions)

    def for_one_newton() -> np.ndarray:
        ends = (
            (_turn(state.result, end, way, along), _turn(state.result, start, way, along)) for state in found.states
        )
        return np.concatenate([(one - other)[:count] for one, other in ends])

    turns = force * found.once(("turns", push), for_one_newton)
    for number, combination in enumerate(found.combined):
        bent = order.at(combination, number, force)
        if bent is not None:
            turns[number] = float(_turn(bent, end, way, along)[0] - _turn(bent, start, way, along)[0])
    return turns


def _turn(result: Result, spot: Spot, way: np.ndarray, along: np.ndarray) -> np.ndarray:
    """(cases,) how much a place turns, from the line towards the offset."""
    if spot.at is None:
        first = 6 * result.structure.node_index[spot.name]
        # A turn about `axis` moves what lies ahead by the turn times its distance along.
        return cross(along, way) @ result.answer.moves[first + 3 : first + 6]
    places = np.array([max(0.0, spot.at - STEP), min(result.stations(spot.name)[-1], spot.at + STEP)])
    number = result.pieces[spot.name][0][0] if result.pieces else result.structure.member_index[spot.name]
    axes = result.structure.axes[number]
    moved = np.einsum("k,knc->nc", axes @ way, result.deflections(spot.name, places))
    run = (places[1] - places[0]) * float(axes[0] @ along)
    return (moved[1] - moved[0]) / run if abs(run) > 1e-6 else np.zeros(moved.shape[1])
