"""What one straight beam must satisfy whatever its loads, against the frame solver, and what it says of bad input."""

import numpy as np
import pytest
from frame_cases import straight
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.analysis import frame
from structcheck.analysis.beam import PointLoad, PointMoment, UniformLoad, solve
from structcheck.errors import InputError

SPAN, INERTIA, SHEAR = 1000.0, 500e4, 800.0
EI, GAs = 210000.0 * INERTIA, 210000.0 / 2.6 * SHEAR
HELD = {
    "simple": {0.0: ("x z",), SPAN: ("z",)},
    "fixed": {0.0: ("x z ry",), SPAN: ("z ry",)},
    "propped": {0.0: ("x z ry",), SPAN: ("z",)},
    "cantilever": {0.0: ("x z ry",)},
}

places = st.floats(0.0, SPAN).map(lambda x: round(x, 1))
forces = st.floats(-1e5, 1e5).map(lambda f: round(f, 2))
points = st.builds(PointLoad, forces, places)
moments = st.builds(PointMoment, st.floats(-1e7, 1e7).map(lambda m: round(m, 1)), places)
spreads = (
    st.tuples(forces, places, places)
    .filter(lambda v: abs(v[1] - v[2]) > 1)
    .map(lambda v: UniformLoad(v[0] / 1e3, min(v[1:]), max(v[1:])))
)
loads = st.lists(st.one_of(points, moments, spreads), min_size=1, max_size=5)


def in_frame(load):
    """The same load for the frame solver, whose z points up and whose positive y moment is clockwise seen here."""
    match load:
        case PointLoad(force, at):
            return frame.PointOnMember("beam 1", at, (0, 0, -force))
        case UniformLoad(intensity, start, end):
            return frame.SpreadOnMember("beam 1", (0, 0, -intensity), start, end)
        case PointMoment(moment, at):
            return frame.PointOnMember("beam 1", at, moment=(0, -moment, 0))


def size_of(loads):
    """All the loads as one force, N: what rounding errors are measured against."""
    total = 0.0
    for load in loads:
        match load:
            case PointLoad(force, _):
                total += abs(force)
            case UniformLoad(intensity, start, end):
                total += abs(intensity) * (end - start)
            case PointMoment(moment, _):
                total += abs(moment) / SPAN
    return total


@pytest.mark.parametrize("supports", list(HELD))
@settings(max_examples=60, deadline=None)
@given(loads=loads)
def test_beam_and_frame_solver_agree(supports, loads):
    """Two separate routes, one with Macaulay sums and one with stiffness matrices, shear strain included."""
    beam = solve(SPAN, supports, loads, EI, GAs)
    framed = frame.solve(straight(SPAN, HELD[supports], INERTIA, shear=SHEAR), {"one": [in_frame(v) for v in loads]})
    push = 1e-9 * size_of(loads) + 1e-9
    turn, sag = push * SPAN, push * SPAN**3 / EI + 1e-15
    moment, sagging = framed.extremes("My", "beam 1").largest, framed.deflection_extremes("beam 1").largest
    assert abs(beam.greatest_moment().value) == pytest.approx(abs(moment.value), abs=turn)
    assert abs(beam.greatest_deflection().value) == pytest.approx(abs(sagging.value), abs=sag)
    assert framed.reaction("0")[2] == pytest.approx(beam.reaction_left, abs=push)
    for x in np.linspace(3.33, 996.77, 7):
        for side in ("left", "right"):
            assert framed.value("My", "beam 1", x, side=side) == pytest.approx(beam.M(x, side), abs=turn)
            assert framed.value("Vz", "beam 1", x, side=side) == pytest.approx(beam.V(x, side), abs=push)
        assert -framed.deflection("beam 1", x)[2] == pytest.approx(beam.w(x), abs=sag)


@pytest.mark.parametrize("supports", list(HELD))
@settings(max_examples=40, deadline=None)
@given(loads=loads)
def test_extremes_are_reached_and_never_passed(supports, loads):
    """Two thousand samples stay within the extremes, and the extreme is the value at its own place."""
    beam = solve(SPAN, supports, loads, EI, GAs)
    x = np.linspace(0.0, SPAN, 2001)
    push = 1e-9 * size_of(loads)
    for diagram, extreme, slack in (
        (beam.M, beam.greatest_moment(), push * SPAN),
        (beam.V, beam.greatest_shear(), push),
    ):
        inner = np.concatenate([diagram(x[1:], "left"), diagram(x[:-1], "right")])
        assert np.abs(inner).max() <= abs(extreme.value) + slack
        sides = [diagram(extreme.x, side) for side in ("left", "right")]
        assert min(abs(side - extreme.value) for side in sides) <= slack
    lowest = beam.greatest_deflection()
    assert np.abs(beam.w(x)).max() <= abs(lowest.value) + push * SPAN**3 / EI
    assert beam.w(lowest.x) == pytest.approx(lowest.value, rel=1e-12)


@settings(max_examples=40, deadline=None)
@given(loads=loads)
def test_parts_of_deflection_add_up_and_meet_the_supports(loads):
    """Bending part and shear part each vanish at both simple supports."""
    beam = solve(SPAN, "simple", loads, EI, GAs)
    x = np.linspace(0.0, SPAN, 11)
    size = size_of(loads) * SPAN**3 / EI
    assert beam.w_bending(x) + beam.w_shear(x) == pytest.approx(beam.w(x), abs=1e-12 * size)
    for end in (0.0, SPAN):
        assert abs(beam.w_bending(end)) <= 1e-12 * size
        assert abs(beam.w_shear(end)) <= 1e-12 * size


@pytest.mark.parametrize("supports", list(HELD))
def test_many_sections_at_once_equal_one_at_a_time(supports):
    """Arrays of stiffnesses give, entry by entry, what single numbers give."""
    loads = [PointLoad(4e4, 300.0), UniformLoad(-25.0, 200.0, 900.0), PointMoment(3e6, 640.0)]
    stiff = np.array([1e11, 4e11, 9e12])
    slide = np.array([2e7, 9e6, np.inf])
    many = solve(SPAN, supports, loads, stiff, slide)
    for k in range(3):
        one = solve(SPAN, supports, loads, float(stiff[k]), float(slide[k]))
        assert many.reaction_left[k] == pytest.approx(one.reaction_left, rel=1e-12)
        for way in ("greatest_moment", "greatest_shear", "greatest_deflection"):
            both = getattr(many, way)(), getattr(one, way)()
            assert both[0].value[k] == pytest.approx(both[1].value, rel=1e-10)
            assert both[0].x[k] == pytest.approx(both[1].x, abs=1e-6)
        assert many.w(410.0)[k] == pytest.approx(one.w(410.0), rel=1e-12)


def test_stations_show_both_sides_of_every_jump():
    """Ends, loads and the place without shear, in order, with the value before and beyond."""
    beam = solve(
        1000.0, "simple", [PointLoad(10e3, 250.0), UniformLoad(20.0, 500.0, 1000.0), PointMoment(1e6, 400.0)], EI
    )
    found = beam.stations()
    assert [station.x for station in found[:4]] == [0.0, 250.0, 400.0, 500.0]
    at_load, at_moment = found[1], found[2]
    assert at_load.V_left - at_load.V_right == pytest.approx(10e3)
    assert at_load.M_left == pytest.approx(at_load.M_right)
    assert at_moment.M_left - at_moment.M_right == pytest.approx(1e6)
    turn = found[4]
    assert 500.0 < turn.x < 1000.0
    assert turn.V_left == pytest.approx(0.0, abs=1e-9)
    assert found[-1].x == 1000.0 and found[-1].V_right == pytest.approx(-beam.reaction_right)


def test_doubling_the_shear_stiffness_halves_the_shear_deflection():
    """On a statically determinate beam the shear part goes with 1 / G A_s, the bending part does not move."""
    load = [PointLoad(1e4, 300.0)]
    soft, stiff = (solve(SPAN, "simple", load, EI, g) for g in (1e7, 2e7))
    assert soft.w_shear(300.0) == pytest.approx(2 * stiff.w_shear(300.0))
    assert soft.w_bending(300.0) == pytest.approx(stiff.w_bending(300.0))


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"span": 0.0}, "span: 0 is not a length a beam can have"),
        ({"span": float("nan")}, "span: nan is not a length"),
        ({"supports": "free"}, 'supports: "free" is not known\n  wanted: one of simple, fixed, propped, cantilever'),
        (
            {"loads": [PointLoad(1.0, 1200.0)]},
            "load 1, at: 1200 mm is off the beam\n  wanted: a position from 0 to 1000",
        ),
        ({"loads": [PointLoad(float("inf"), 5.0)]}, "load 1, force: inf is not a finite number"),
        ({"loads": [UniformLoad(1.0, 5.0, 5.0)]}, "load 1, end: 5 mm is not beyond start"),
        ({"loads": [PointLoad(1.0, 1.0), PointMoment(1.0, -1.0)]}, "load 2, at: -1 mm is off the beam"),
        ({"EI": -1.0}, "EI: -1.0 is not a stiffness"),
        ({"GAs": 0.0}, "GAs: 0.0 is not a stiffness"),
        ({"EI": np.ones(3), "GAs": np.ones(2)}, "GAs: shape (2,) differs from EI"),
    ],
)
def test_bad_input_is_named(change, words):
    """Every message names the argument, what was given and what is wanted."""
    arguments = {"span": SPAN, "supports": "simple", "loads": [], "EI": EI, "GAs": GAs} | change
    with pytest.raises(InputError) as caught:
        solve(**arguments)
    assert words in str(caught.value)


def test_all_faults_are_told_at_once():
    """Three faults, three problems."""
    with pytest.raises(InputError) as caught:
        solve(SPAN, "loose", [PointLoad(1.0, 2000.0)], -1.0)
    assert [problem.key for problem in caught.value.problems] == ["supports", "at", "EI"]
