"""Springs by other routes: energy, beams along the helix, an eigenvalue, numpy's least squares, scipy's roots."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.linalg import eigh
from scipy.optimize import brentq

from structcheck.analysis.springs import (
    LeftOut,
    Member,
    fit_readings,
    plate_on_springs,
    shared_force,
    shared_travel,
)
from structcheck.errors import InputError, Mechanism
from structcheck.standards import en13906_1 as en
from tests.printed import printed
from tests.reference.reading import case

G, E = 81500.0, 206000.0


def test_rate_by_the_energy_of_the_twisted_wire():
    """Castigliano: the work of torsion alone along the helix gives G d^4 / 8 D^3 n."""
    d, D, n = 6.0, 42.0, 36.0
    J = math.pi * d**4 / 32
    flexibility, _ = quad(lambda turn: (D / 2) ** 2 / (G * J) * D / 2, 0, 2 * math.pi * n)
    assert en.spring_rate(G, d, D, n) == pytest.approx(1 / flexibility)


def _beam_stiffness(length, d):
    """Straight element of round wire, 12 x 12, along its own x; no shear."""
    A, I = math.pi * d**2 / 4, math.pi * d**4 / 64  # noqa: E741
    a, t, b = E * A / length, G * 2 * I / length, E * I / length**3
    k = np.zeros((12, 12))
    for i, j, value in ((0, 6, a), (3, 9, t)):
        k[np.ix_((i, j), (i, j))] = value * np.array([[1, -1], [-1, 1]])
    bend = b * np.array(
        [
            [12, 6 * length, -12, 6 * length],
            [6 * length, 4 * length**2, -6 * length, 2 * length**2],
            [-12, -6 * length, 12, -6 * length],
            [6 * length, 2 * length**2, -6 * length, 4 * length**2],
        ]
    )
    k[np.ix_((1, 5, 7, 11), (1, 5, 7, 11))] = bend
    turn = np.diag([1, -1, 1, -1])
    k[np.ix_((2, 4, 8, 10), (2, 4, 8, 10))] = turn @ bend @ turn
    return k


def _rate_of_helix(d, D, n, pitch, per_turn=36):
    """Rate of a helix of straight beams, pushed along its axis through stiff arms at both ends."""
    angle = np.linspace(0, 2 * math.pi * n, round(per_turn * n) + 1)
    nodes = np.column_stack([D / 2 * np.cos(angle), D / 2 * np.sin(angle), pitch * angle / (2 * math.pi)])
    K = np.zeros((6 * len(nodes),) * 2)
    for i in range(len(nodes) - 1):
        along = nodes[i + 1] - nodes[i]
        length = np.linalg.norm(along)
        x = along / length
        y = np.cross([0, 0, 1.0], x)
        y /= np.linalg.norm(y)
        turn = np.kron(np.eye(4), np.array([x, y, np.cross(x, y)]))
        K[6 * i : 6 * i + 12, 6 * i : 6 * i + 12] += turn.T @ _beam_stiffness(length, d) @ turn
    pushed = np.zeros(len(K))
    arm = np.array([0, 0, nodes[-1][2]]) - nodes[-1]
    force = np.array([0, 0, -1.0])
    pushed[-6:] = np.concatenate([force, np.cross(arm, force)])
    moved = np.zeros(len(K))
    moved[6:] = np.linalg.solve(K[6:, 6:], pushed[6:])
    end = moved[-6:-3] + np.cross(moved[-3:], arm)
    return -1 / end[2]


@pytest.mark.parametrize(("d", "D"), [(3.0, 42.0), (6.0, 42.0)])
def test_rate_by_beams_along_the_helix(d, D):
    """A helix of small pitch, as beams in space with bending and torsion, is as stiff as the formula says."""
    # The formula leaves out the pitch and bending; at a small pitch they are worth less than one per cent.
    assert _rate_of_helix(d, D, 4.0, 1.2 * d) == pytest.approx(en.spring_rate(G, d, D, 4.0), rel=0.01)


def _least_factor(share, L_0, d, D, n, hinged=True, pieces=80):
    """Lowest load factor of a spring squeezed by `share` of its length, as a column that bends and shears.

    Rigid slices on springs of bending and shear; the load works across the tilted slices (Haringx's column).
    """
    length = L_0 * (1 - share)
    I = math.pi * d**4 / 64  # noqa: E741
    alpha = 2 * E * I * length / (math.pi * D * n * (1 + E / (2 * G)))
    beta = length * E * d**4 / (8 * n * D**3)
    load = en.spring_rate(G, d, D, n) * L_0 * share
    h = length / pieces
    size = pieces + 1
    stiff, geometric = np.zeros((2 * size, 2 * size)), np.zeros((2 * size, 2 * size))
    for i in range(pieces):
        curvature, slope, tilt = (np.zeros(2 * size) for _ in range(3))
        curvature[size + i], curvature[size + i + 1] = -1 / h, 1 / h
        slope[i], slope[i + 1] = -1 / h, 1 / h
        tilt[size + i] = tilt[size + i + 1] = 0.5
        sheared = slope - tilt
        stiff += h * (alpha * np.outer(curvature, curvature) + beta * np.outer(sheared, sheared))
        # Shortening of a slice: psi y' - psi^2 / 2.
        both = np.outer(tilt, slope)
        geometric += h * load * (both + both.T - np.outer(tilt, tilt))
    held = [0, pieces] if hinged else [0, pieces, size, size + pieces]
    free = np.setdiff1d(np.arange(2 * size), held)
    inverse = eigh(geometric[np.ix_(free, free)], stiff[np.ix_(free, free)], eigvals_only=True)
    return 1 / inverse.max()


@pytest.mark.parametrize(("nu", "hinged"), [(1.0, True), (0.5, False)])
def test_buckling_travel_against_an_eigenvalue(nu, hinged):
    """The travel at which the column of slices goes unstable is s_K, hinged (nu 1) and held parallel (nu 0.5)."""
    L_0, d, D, n = 250.0, 5.0, 40.0, 12.0
    share = brentq(lambda s: _least_factor(s, L_0, d, D, n, hinged) - 1, 0.02, 0.45, xtol=1e-5)
    s_K = en.buckling_travel(L_0, G, E, en.buckling_radicand(G, E, D, nu, L_0))
    assert share * L_0 == pytest.approx(s_K, rel=2e-3)


def test_nested_springs_share_by_their_rates():
    """SPR-25 Bhandari 10.18 (read)."""
    i, expected = case("springs", "SPR-25")
    rates = [en.spring_rate(i["G"], *i[key]) for key in ("outer", "inner")]
    members = [Member(rate, 200.0) for rate in rates]
    s = i["F"] / sum(rates)
    forces = shared_force(members, 200.0 - s)
    assert s == printed(expected["s"])
    assert list(forces) == [printed(expected["F_outer"]), printed(expected["F_inner"])]


def test_unequal_nested_springs_give_a_kinked_line():
    """The shorter one gives nothing until it is reached."""
    members = [Member(10.0, 100.0), Member(20.0, 80.0)]
    assert [shared_force(members, L).sum() for L in (90.0, 80.0, 70.0)] == [100.0, 200.0, 500.0]


def test_the_softer_of_a_stack_goes_solid_first():
    """SPR-33 (derived): 10 on 15 N/mm, the softer takes 60 % until solid, then the other goes on alone."""
    members = [Member(10.0, 100.0, 40.0), Member(15.0, 100.0, 40.0)]
    force, taken = shared_travel(members, 50.0)
    assert (force, *taken) == pytest.approx((300.0, 30.0, 20.0))
    force, taken = shared_travel(members, 110.0)
    assert (force, *taken) == pytest.approx((750.0, 60.0, 50.0))
    with pytest.raises(InputError, match=r"at most 120 mm to solid"):
        shared_travel(members, 121.0)


@given(
    rates=st.lists(st.floats(1, 50), min_size=2, max_size=4),
    share=st.floats(0.02, 0.98),
    room=st.lists(st.floats(10, 80), min_size=4, max_size=4),
)
@settings(max_examples=40, deadline=None)
def test_a_stack_agrees_with_a_root_finder(rates, share, room):
    """The travels of the members add up, the force is the one scipy finds."""
    members = [Member(rate, 100.0, 100.0 - most) for rate, most in zip(rates, room, strict=False)]
    most = sum(m.free - m.solid for m in members)
    force, taken = shared_travel(members, share * most)

    def total(F):
        return sum(min(F / m.rate, m.free - m.solid) for m in members) - share * most

    assert taken.sum() == pytest.approx(share * most)
    assert force == pytest.approx(brentq(total, 0, 50 * 80 + 1), rel=1e-6, abs=1e-6)


def test_a_platen_on_two_springs_leans():
    """SPR-39 (derived): 50 mm off the middle, 583 and 417 N, 1.59 deg."""
    i, expected = case("springs", "SPR-39")
    half = i["spacing"] / 2
    rest = plate_on_springs([(half, 0), (-half, 0)], [i["R"]] * 2, i["load"], (i["at"], 0))
    assert list(rest.forces) == [printed(expected["F_1"]), printed(expected["F_2"])]
    assert i["spacing"] * rest.slope_x == printed(expected["sag_difference"])
    assert math.degrees(math.atan(rest.slope_x)) == printed(expected["tilt"])


def test_four_springs_balance_the_load_and_one_may_let_go():
    """Forces and moments balance; a spring that would have to pull gives nothing."""
    places = [(100, 100), (100, -100), (-100, 100), (-100, -100)]
    rest = plate_on_springs(places, [5, 6, 7, 8], 900.0, (40, 20))
    assert rest.forces.sum() == pytest.approx(900)
    assert rest.forces @ np.array(places) == pytest.approx([900 * 40, 900 * 20])
    corner = plate_on_springs(places, [5, 5, 5, 5], 900.0, (80, 80))
    assert corner.forces.min() == 0
    assert corner.forces @ np.array(places) == pytest.approx([900 * 80, 900 * 80])


def test_a_platen_loaded_outside_its_springs_tips():
    """Springs push only: beyond the last one nothing holds."""
    with pytest.raises(Mechanism, match="tipping over"):
        plate_on_springs([(100, 0), (-100, 0)], [5, 5], 900.0, (150, 0))
    with pytest.raises(Mechanism, match="tipping over"):
        plate_on_springs([(0, 0)], [5], 900.0, (10, 0))


def test_bench_readings_give_rate_and_free_length():
    """BENCH-01 (derived): no reading of it is left out."""
    i, expected = case("springs", "BENCH-01")
    fit = fit_readings(i["L"], i["F"])
    assert (fit.rate, fit.free) == (printed(expected["R"]), printed(expected["L_0"]))
    assert fit.rate == pytest.approx(15.2, rel=1e-9)
    assert (fit.used, fit.left_out) == (6, ())


@given(st.lists(st.floats(-3, 3), min_size=6, max_size=6), st.permutations(range(6)))
@settings(max_examples=40, deadline=None)
def test_the_line_is_numpys_whatever_the_order_of_the_readings(errors, order):
    """Slope, axis and the band of the slope against numpy's own fit and its covariance."""
    L = np.array([200, 190, 180, 170, 160, 150.0])
    F = 15.0 * (206 - L) + np.array(errors)
    fit = fit_readings(L[list(order)], F[list(order)])
    assert fit.drift == pytest.approx(abs(2 * np.polyfit(L, F, 2)[0] * 50 / fit.rate), abs=1e-9)
    (slope, axis), covariance = np.polyfit(L, F, 1, cov=True)
    assert fit.rate == pytest.approx(-slope)
    assert fit.free == pytest.approx(-axis / slope)
    assert fit.rate_margin == pytest.approx(2.78 * math.sqrt(abs(covariance[0, 0])), rel=1e-6, abs=1e-9)


def test_seating_and_touching_coils_are_left_out_and_said():
    """A soft first step, no load, and a last step that is stiffer than the rest are not the spring's rate."""
    L = [210, 200, 190, 180, 170, 160, 150]
    F = [0.0, 110.0, 180.0, 330.0, 480.0, 630.0, 1100.0]
    fit = fit_readings(L, F)
    assert fit.rate == pytest.approx(15.0)
    assert fit.left_out == (
        LeftOut(0, "no load"),
        LeftOut(1, "seating: softer than the rest"),
        LeftOut(6, "coils touch: stiffer than the rest"),
    )


@pytest.mark.parametrize(
    ("L", "F", "said"),
    [
        ([200, 200, 200], [10, 20, 30], "are all alike"),
        ([200, 190, 180], [10, 10, 10], "are all alike"),
        ([200, 190], [10, 20], "are only 2"),
        ([200, 190, 180], [10, 20], "are 3 lengths and 2 forces"),
        ([200, 190, 190, 180], [10, 20, 30, 40], "same length twice"),
        ([200, 190, 180], [30, 20, 10], "do not rise"),
        ([200, 190, float("nan")], [10, 20, 30], "not a finite number"),
        ([200, 190, 180], [-10, 20, 30], "below zero"),
    ],
)
def test_useless_readings_are_refused(L, F, said):
    """Each with what is wrong with it."""
    with pytest.raises(InputError, match=said):
        fit_readings(L, F)
