"""What every frame must satisfy: agreement with an independent solution, equilibrium, reciprocity, superposition."""

from functools import partial

import frame_independent
import numpy as np
import pytest
from frame_random import loaded
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from structcheck.analysis.frame import NodeLoad, PointOnMember, Result, SpreadOnMember, solve
from structcheck.analysis.frame_arrays import prepare
from structcheck.analysis.frame_split import split
from structcheck.errors import Mechanism

SLOW = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def solved(frame, cases) -> Result:
    """Solve, passing over the few drawn frames that do not stand."""
    try:
        return solve(frame, cases)
    except Mechanism:
        assume(False)
        raise


def table(frame, ask):
    """One row of six for each node."""
    return np.array([ask(node) for node in frame.nodes])


@SLOW
@given(loaded())
def test_displacements_and_reactions_agree_with_an_independent_solution(drawn):
    """Flexibilities integrated numerically, joints as unknowns, sparse equations: the same answer."""
    frame, cases = drawn
    found = solved(frame, cases)
    moves, reactions = frame_independent.solve(frame, cases["case 0"])
    mine, other = table(frame, found.displacement), np.array([moves[node] for node in frame.nodes])
    for part in (slice(0, 3), slice(3, 6)):
        # Loads on held nodes move nothing but rounding errors.
        size = np.abs(other[:, part]).max()
        assert mine[:, part] == pytest.approx(other[:, part], abs=1e-6 * size + 1e-12)
    mine, other = table(frame, found.reaction), np.array([reactions[node] for node in frame.nodes])
    force = np.abs(other[:, :3]).max() + 1.0
    assert mine[:, :3] == pytest.approx(other[:, :3], abs=1e-6 * force)
    assert mine[:, 3:] == pytest.approx(other[:, 3:], abs=1e-6 * (np.abs(other[:, 3:]).max() + 1e3 * force))


def _stands_at(load, member, place):
    return isinstance(load, PointOnMember) and load.member == member and abs(load.at - place) < 1e-6


@SLOW
@given(loaded(), st.integers(2, 5))
def test_a_member_answers_inside_as_its_pieces_do_at_their_nodes(drawn, count):
    """Cut into pieces, every member gives the same deflections, diagrams and nodes: the fields are exact."""
    frame, cases = drawn
    whole = solved(frame, cases)
    structure = prepare(frame)
    parts = split(structure, cases, dict.fromkeys(structure.member_index, count))
    pieces = solve(prepare(parts.frame, check=False), parts.cases)
    moved = table(frame, whole.displacement)
    assert table(frame, pieces.displacement) == pytest.approx(moved, abs=1e-7 * np.abs(moved).max() + 1e-10)
    force = max(abs(whole.extremes("N", m.name).largest.value) for m in frame.members) + 1e-3
    force += max(abs(whole.extremes("Vz", m.name).largest.value) for m in frame.members)
    sag = np.abs(moved[:, :3]).max() + 1e-6
    for member in frame.members:
        number = structure.member_index[member.name]
        for piece, begin in parts.pieces[member.name][1:]:
            axes, name = structure.axes[number], parts.frame.members[piece].name
            here = axes @ pieces.displacement(parts.frame.members[piece].start)[:3]
            assert whole.deflection(member.name, begin) == pytest.approx(here, abs=1e-6 * sag)
            if any(_stands_at(load, member.name, begin) for loads in cases.values() for load in loads):
                continue  # the diagrams jump here: a rounding decides on which side of the cut the load is counted
            for quantity, scale in (("N", 1), ("Vy", 1), ("Vz", 1), ("T", 1e3), ("My", 1e3), ("Mz", 1e3)):
                inside = whole.value(quantity, member.name, begin)
                assert inside == pytest.approx(pieces.value(quantity, name, 0.0), abs=1e-6 * scale * force)


@SLOW
@given(loaded())
def test_diagrams_follow_from_end_forces_by_hand(drawn):
    """At seven places N, V, T and M are the sums of end forces and loads before the cut, one load at a time."""
    frame, cases = drawn
    found = solved(frame, cases)
    structure = prepare(frame)
    for number, member in enumerate(frame.members):
        R, length = structure.axes[number], structure.length[number]
        loads = frame_independent.member_loads(frame, cases["case 0"], member, R, length)
        start, _ = found.end_forces(member.name)
        for x in length * np.array([0.013, 0.21, 0.333, 0.51, 0.667, 0.81, 0.987]):
            before = start.copy()
            before[3:] += np.cross([-x, 0, 0], start[:3])
            for load in loads:
                if load[0] == "point" and load[1] < x:
                    rows = [(load[1], load[2], load[3])]
                elif load[0] == "spread" and load[1] < x:
                    end = min(x, load[2])
                    rows = [
                        (at, w * (load[3] + (at - load[1]) / (load[2] - load[1]) * (load[4] - load[3])), np.zeros(3))
                        for at, w in frame_independent.points([load[1], end])
                    ]
                else:
                    continue
                for at, force, moment in rows:
                    before += np.concatenate([force, moment + np.cross([at - x, 0, 0], force)])
            sums = before * [-1, 1, 1, -1, 1, -1]
            force = np.abs(start[:3]).sum() + sum(np.abs(load[-2]).sum() for load in loads) + 1.0
            for quantity, value in zip(("N", "Vy", "Vz", "T", "My", "Mz"), sums, strict=True):
                scale = force if quantity[0] in "NV" else force * length + np.abs(start[3:]).sum()
                assert found.value(quantity, member.name, x) == pytest.approx(value, abs=1e-8 * scale), quantity


@SLOW
@given(loaded())
def test_extremes_are_reached_and_never_passed(drawn):
    """Samples of every diagram stay within the extremes; the extreme is the value on one side of its place."""
    frame, cases = drawn
    found = solved(frame, cases)
    structure = prepare(frame)
    for number, member in enumerate(frame.members):
        first, last = structure.offsets[number]
        x = np.linspace(first, structure.length[number] - last, 301)
        for quantity in ("N", "Vz", "My", "Mz"):
            bound = found.extremes(quantity, member.name)
            least, most = bound.least, bound.most
            ask = partial(found.value, quantity, member.name)
            values = np.concatenate([ask(x[1:], side="left"), ask(x[:-1], side="right")])
            slack = 1e-9 * (np.abs(values).max() + 1.0) * 10
            assert least.value - slack <= values.min() and values.max() <= most.value + slack
            for extreme in (least, most):
                assert min(abs(ask(extreme.x, side=side) - extreme.value) for side in ("left", "right")) <= slack
        for relative in (False, True):
            bound = found.deflection_extremes(member.name, "y", relative=relative)
            values = found.deflection(member.name, x[1:-1], relative=relative)[1]
            slack = 1e-9 * (np.abs(found.answer.moves).max() + 1e-9)
            assert bound.least.value - slack <= values.min() and values.max() <= bound.most.value + slack


@SLOW
@given(loaded(), st.data())
def test_reciprocity(drawn, data):
    """Maxwell and Betti: the work of one pair of loads on the other's displacements is the same both ways."""
    frame, _ = drawn
    nodes = sorted(frame.nodes)
    first = NodeLoad(data.draw(st.sampled_from(nodes)), (3e3, -1e3, 2e3), (1e6, 2e5, -3e5))
    number = data.draw(st.integers(0, len(frame.members) - 1))
    member, length = frame.members[number].name, prepare(frame).length[number]
    reach = data.draw(st.integers(1, 19)) / 20 * length
    second = PointOnMember(member, reach, (500.0, 4e3, -2e3), axes="local")
    found = solved(frame, {"first": [first], "second": [second]})
    one = np.dot([*first.force, *first.moment], found.displacement(first.node, "second"))
    two = np.dot(second.force, found.deflection(member, reach, "first"))
    offset = frame.members[number].at_start.offset, frame.members[number].at_end.offset
    if offset[0] <= reach <= length - offset[1]:
        size = abs(one) + 1e-6 * np.abs(found.answer.moves).max() * 1e4
        assert one == pytest.approx(two, abs=1e-6 * size)


@SLOW
@given(loaded(cases=2))
def test_superposition(drawn):
    """Loads together give the sum of what they give apart."""
    frame, cases = drawn
    one, two = cases.values()
    found = solved(frame, {"one": one, "two": two, "both": [*one, *two]})
    for part in (found.answer.moves, found.answer.reactions, found.answer.ends.reshape(-1, 3)):
        apart = part[:, 0] + part[:, 1]
        assert part[:, 2] == pytest.approx(apart, abs=1e-9 * (np.abs(part).max() + 1e-6))
    for member in frame.members:
        middle = 500.0
        apart = sum(found.value("My", member.name, middle, case) for case in ("one", "two"))
        assert found.value("My", member.name, middle, "both") == pytest.approx(
            apart, abs=1e-9 * (np.abs(found.answer.ends).max() + 1.0)
        )


@SLOW
@given(loaded())
def test_the_whole_is_in_equilibrium(drawn):
    """Reactions balance every load, forces and moments about the origin, summed one by one here."""
    frame, cases = drawn
    found = solved(frame, cases)
    structure = prepare(frame)
    force, moment, size = np.zeros(3), np.zeros(3), 1.0
    for node, place in frame.nodes.items():
        reaction = found.reaction(node)
        force += reaction[:3]
        moment += reaction[3:] + np.cross(place, reaction[:3])
        size += np.abs(reaction[:3]).sum()
    for load in cases["case 0"]:
        if isinstance(load, NodeLoad):
            force += load.force
            moment += load.moment + np.cross(frame.nodes[load.node], load.force)
            size += np.abs(load.force).sum()
    for number, member in enumerate(frame.members):
        R, length = structure.axes[number], structure.length[number]
        begin = structure.xyz[structure.ends[number, 0]]
        for load in frame_independent.member_loads(frame, cases["case 0"], member, R, length):
            if load[0] == "point":
                rows = [(load[1], load[2], load[3])]
            else:
                rows = [
                    (at, w * (load[3] + (at - load[1]) / (load[2] - load[1]) * (load[4] - load[3])), np.zeros(3))
                    for at, w in frame_independent.points([load[1], load[2]])
                ]
            for at, pull, turn in rows:
                force += R.T @ pull
                moment += R.T @ turn + np.cross(begin + at * R[0], R.T @ pull)
                size += np.abs(pull).sum()
    assert force == pytest.approx(np.zeros(3), abs=1e-8 * size)
    assert moment == pytest.approx(np.zeros(3), abs=1e-8 * size * 1e3)


def test_linearly_varying_load_equals_many_small_steps():
    """A triangle of load on a built-in beam: fixed-end moments q L^2 / 30 and q L^2 / 20."""
    from frame_cases import straight

    L, q = 1200.0, 30.0
    frame = straight(L, {0: ("x z ry",), L: ("z ry",)}, 400e4)
    found = solve(frame, {"one": [SpreadOnMember("beam 1", (0, 0, 0), to=(0, 0, -q))]})
    assert found.value("My", "beam 1", 0.0) == pytest.approx(-q * L**2 / 30)
    assert found.value("My", "beam 1", L, side="left") == pytest.approx(-q * L**2 / 20)
