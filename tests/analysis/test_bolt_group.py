"""Forces in bolt groups: published examples, an independent solution of equilibrium, and the laws they obey."""

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog, lsq_linear

from structcheck.analysis.bolt_group import elastic_in_plane, grid, out_of_plane, plastic_in_plane
from structcheck.analysis.bolt_group_ic import coefficient, moment_coefficient
from structcheck.errors import Mechanism
from tests.printed import printed

coordinate = st.integers(-200, 200).map(float)
spots = st.lists(st.tuples(coordinate, coordinate), min_size=2, max_size=9, unique=True).map(np.array)
amount = st.floats(-1e5, 1e5).filter(lambda x: abs(x) > 1)
few = settings(max_examples=40, deadline=None)


def magnitudes(forces):
    return np.hypot(*forces.T)


# Shigley's Mechanical Engineering Design, 9th ed., example 8-7 (read; the rectangle from the figure, recalled).
def test_the_machine_design_example():
    """16 kN at 425 mm on four bolts of 150 x 120 mm: 21.0 kN on the worst, 14.8 on the least."""
    forces = magnitudes(elastic_in_plane(grid(2, 2, 120, 150), (0, 16e3), 16e3 * 425))
    assert forces.max() / 1e3 == printed("21.0")
    assert forces.min() / 1e3 == printed("14.8")


# Steel Buildings in Europe, Multi-storey, Part 5: Joint Design, p. 5-41 (read; lever 80 mm inferred).
def test_the_fin_plate_example():
    """Ten bolts, 5 at 70 mm in 2 lines 60 mm apart: the group bears 584 kN where one bears 94 kN."""
    forces = magnitudes(elastic_in_plane(grid(5, 2, 70, 60), (0, 1.0), 80.0))
    assert 94 / forces.max() == pytest.approx(584, rel=0.003)  # the guide rounds alpha and beta to three decimals


# Elastic method by hand: direct 0.25, turning 6 x 4.5 / 45 = 0.6, resultant 0.65 (derived).
def test_four_bolts_in_a_row():
    """The elastic method gives less than the instantaneous centre: 1.538 against 1.73 times one bolt."""
    row = grid(4, 1, 3, 0)
    assert 1 / magnitudes(elastic_in_plane(row, (0, 1.0), 6.0)).max() == printed("1.538")
    assert coefficient(row, 6.0) == printed("1.73")


# AISC Steel Construction Manual, eccentrically loaded bolt groups, angle 0 (memory).
@pytest.mark.parametrize(
    ("rows", "columns", "gauge", "eccentricity", "published"),
    [
        (2, 1, 0, 2, "1.18"),
        (3, 1, 0, 2, "2.23"),
        (4, 1, 0, 2, "3.32"),
        (2, 1, 0, 3, "0.88"),
        (3, 1, 0, 3, "1.75"),
        (4, 1, 0, 3, "2.81"),
        (6, 2, 5.5, 16, "3.55"),
    ],
)
def test_instantaneous_centre_agrees_with_the_manual(rows, columns, gauge, eccentricity, published):
    """C of the manual, bolts 3 in apart; the farthest bolt counts 0.98, not 1."""
    found = coefficient(grid(rows, columns, 3, gauge), eccentricity)
    assert found == pytest.approx(float(published), rel=0.006)


# The same manual, moment alone (memory).
@pytest.mark.parametrize(("rows", "published"), [(2, "2.94"), (3, "5.89"), (4, "11.3")])
def test_moment_coefficients_agree_with_the_manual(rows, published):
    """C' of one row, bolts 3 in apart."""
    assert moment_coefficient(grid(rows, 1, 3, 0)) == printed(published)


@pytest.mark.parametrize("angle", [0, 15, 45, 75, 89])
@pytest.mark.parametrize("eccentricity", [0.1, 1, 6, 30])
def test_instantaneous_centre_settles_and_lies_above_elastic(angle, eccentricity):
    """Any direction of the load; never below 0.98 of the elastic answer."""
    group = grid(4, 2, 3, 3)
    turn = math.radians(angle)
    direction = math.sin(turn), math.cos(turn)
    elastic = 1 / magnitudes(elastic_in_plane(group, direction, eccentricity * direction[1])).max()
    assert coefficient(group, eccentricity, turn) >= 0.98 * elastic


@few
@given(spots, amount, amount, st.floats(-1e7, 1e7))
def test_elastic_forces_are_the_least_squares_solution(positions, x, y, moment):
    """Of all forces in equilibrium the elastic ones have the least sum of squares (solved by scipy)."""
    arm = positions - positions.mean(axis=0)
    n = len(positions)
    balance = np.zeros((3, 2 * n))
    balance[0, :n] = balance[1, n:] = 1
    balance[2, :n], balance[2, n:] = -arm[:, 1], arm[:, 0]
    scale = np.array([1, 1, 1 / 200])
    independent = lsq_linear(balance * scale[:, None], np.array([x, y, moment]) * scale, tol=1e-14).x
    forces = elastic_in_plane(positions, (x, y), moment)
    assert np.allclose(forces.T.ravel(), independent, atol=1e-6 * magnitudes(forces).max())


@few
@given(spots, amount, amount, st.floats(-1e7, 1e7))
def test_plastic_forces_are_in_equilibrium_and_ask_no_more_than_elastic_ones(positions, x, y, moment):
    """Lower bound theorem: what is in equilibrium is safe."""
    forces, elastic = plastic_in_plane(positions, (x, y), moment), elastic_in_plane(positions, (x, y), moment)
    arm = positions - positions.mean(axis=0)
    size = magnitudes(elastic).max()
    assert np.allclose(forces.sum(axis=0), [x, y], atol=1e-7 * size)
    assert np.sum(arm[:, 0] * forces[:, 1] - arm[:, 1] * forces[:, 0]) == pytest.approx(moment, abs=1e-5 * size * 200)
    assert magnitudes(forces).max() <= magnitudes(elastic).max() * (1 + 1e-9)


def test_plastic_limit_agrees_with_linear_programming():
    """Bolt strength as a polygon of 64 sides: the programme and the rounds agree within the polygon's half per cent."""
    group, moment = grid(3, 2, 70, 60), 150.0
    n, sides = len(group), 64
    turns = np.arange(sides) * 2 * np.pi / sides
    columns = 2 * n + 1
    rows = np.zeros((n * sides, columns))
    for bolt in range(n):
        rows[bolt * sides : (bolt + 1) * sides, bolt] = np.cos(turns)
        rows[bolt * sides : (bolt + 1) * sides, n + bolt] = np.sin(turns)
    balance = np.zeros((3, columns))
    balance[0, :n] = balance[1, n : 2 * n] = 1
    balance[2, :n], balance[2, n : 2 * n] = -group[:, 1], group[:, 0]
    balance[:, -1] = 0.0, -1.0, -moment
    cost = np.zeros(columns)
    cost[-1] = -1
    limits = [(None, None)] * columns
    programme = linprog(cost, rows, np.ones(n * sides), balance, np.zeros(3), limits)
    found = 1 / magnitudes(plastic_in_plane(group, (0, 1.0), moment)).max()
    assert found == pytest.approx(-programme.fun, rel=0.005)


@few
@given(spots, amount, amount, st.floats(-1e7, 1e7), st.floats(0, 6.3))
def test_turning_the_joint_with_its_load_turns_the_forces(positions, x, y, moment, angle):
    """Rotation law."""
    turn = np.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
    forces = elastic_in_plane(positions, (x, y), moment)
    turned = elastic_in_plane(positions @ turn.T, tuple(turn @ (x, y)), moment)
    assert np.allclose(turned, forces @ turn.T, atol=1e-6 * magnitudes(forces).max())


@few
@given(spots, amount, amount, st.floats(-1e7, 1e7))
def test_mirroring_the_joint_with_its_load_mirrors_the_forces(positions, x, y, moment):
    """Mirror law: the moment turns round."""
    mirror = np.array((-1.0, 1.0))
    forces = elastic_in_plane(positions, (x, y), moment)
    mirrored = elastic_in_plane(positions * mirror, (-x, y), -moment)
    assert np.allclose(mirrored, forces * mirror, atol=1e-6 * magnitudes(forces).max())


@few
@given(spots, amount, st.floats(-1e7, 1e7), st.randoms())
def test_the_order_of_the_bolts_does_not_matter(positions, y, moment, random):
    """Order law."""
    order = list(range(len(positions)))
    random.shuffle(order)
    forces = elastic_in_plane(positions, (0, y), moment)
    shuffled = elastic_in_plane(positions[order], (0, y), moment)
    assert np.allclose(shuffled, forces[order], atol=1e-6 * magnitudes(forces).max())


@few
@given(spots, amount, st.floats(1.0, 3.0))
def test_positions_times_s_divide_the_forces_of_a_moment_by_s(positions, moment, s):
    """Scaling law."""
    forces = elastic_in_plane(positions, (0, 0), moment)
    scaled = elastic_in_plane(positions * s, (0, 0), moment)
    assert np.allclose(scaled * s, forces, atol=1e-6 * magnitudes(forces).max())


@few
@given(spots, amount, amount)
def test_two_bolts_for_each_halve_the_forces(positions, y, moment):
    """Doubling law."""
    forces = elastic_in_plane(positions, (0, y), moment)
    doubled = elastic_in_plane(np.vstack([positions, positions]), (0, y), moment)
    assert np.allclose(2 * doubled[: len(positions)], forces, atol=1e-6 * magnitudes(forces).max())


@few
@given(spots, amount)
def test_a_bolt_at_the_centre_takes_nothing_of_a_moment(positions, moment):
    """Centre law, and the others' forces stay as they were."""
    centre = positions.mean(axis=0)
    assume(np.hypot(*(positions - centre).T).min() > 1)
    with_one = elastic_in_plane(np.vstack([positions, centre]), (0, 0), moment)
    assert magnitudes(with_one)[-1] == pytest.approx(0, abs=1e-6 * magnitudes(with_one).max())
    assert np.allclose(with_one[:-1], elastic_in_plane(positions, (0, 0), moment))


@few
@given(spots, amount, amount, st.floats(-1e7, 1e7), st.floats(1.0, 5.0))
def test_more_load_is_never_less_force(positions, x, y, moment, more):
    """Every force grows in step with the load."""
    forces = magnitudes(elastic_in_plane(positions, (x, y), moment))
    assert np.allclose(magnitudes(elastic_in_plane(positions, (more * x, more * y), more * moment)), more * forces)


def test_one_bolt_cannot_hold_a_moment():
    """The plates turn about it; no number comes out."""
    with pytest.raises(Mechanism, match="one bolt cannot hold a moment"):
        elastic_in_plane(grid(1, 1, 0, 0), (0, 1e3), 5e4)


def test_pull_and_bending_out_of_the_plane_are_in_balance():
    """Four bolts at 100 x 80 mm: the sums give back the pull and both moments."""
    group = grid(2, 2, 100, 80)
    forces = out_of_plane(group, 4e3, (80e3, 50e3))
    assert forces.sum() == pytest.approx(4e3)
    assert forces @ group == pytest.approx([80e3, 50e3])
    assert forces.max() == pytest.approx(1000 + 80e3 * 40 / (4 * 40**2) + 50e3 * 50 / (4 * 50**2))


def test_bolts_in_one_line_cannot_be_bent_about_it():
    """A single row has no lever across itself."""
    with pytest.raises(Mechanism, match="bolts in one line"):
        out_of_plane(grid(3, 1, 70, 0), 1e3, (5e4, 0))
