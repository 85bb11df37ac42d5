"""Weld groups as lines: published tables, direct integration, and laws any group obeys."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.spatial.transform import Rotation

from structcheck.analysis.weld_group import Arc, Line, parallel_runs, weld_group
from structcheck.errors import Mechanism
from tests.printed import printed
from tests.reference.reading import case


def _plane(*lines, throat=1.0):
    """Lines in the plane z = 0, from pairs of points."""
    return weld_group([Line((*start, 0.0), (*end, 0.0), throat) for start, end in lines])


def _worst(group, force, moment=(0, 0, 0), at=(0, 0, 0)):
    return max(float(np.max(np.linalg.norm(s.tractions, axis=1))) for s in group.tractions(force, moment, at))


def test_lines_of_the_tables():
    """wgrp-01, 03, 05: two lines, box, L; J_u for torsion in the plane, I_u for bending out of it."""
    given_, expected = case("welds", "wgrp-01")
    d, b = given_["d"], given_["b"]
    two = _plane(((0, 0), (0, d)), ((b, 0), (b, d)))
    assert two.inertia[2, 2] == pytest.approx(expected["J_u"], rel=1e-5)
    assert two.inertia[0, 0] == pytest.approx(expected["I_u"], rel=1e-5)
    box = _plane(((0, 0), (0, d)), ((b, 0), (b, d)), ((0, 0), (b, 0)), ((0, d), (b, d)))
    assert box.inertia[2, 2] == pytest.approx(case("welds", "wgrp-03")[1]["J_u"], rel=1e-5)
    assert box.inertia[0, 0] == pytest.approx(case("welds", "wgrp-03")[1]["I_u"], rel=1e-5)
    corner = _plane(((0, 0), (0, d)), ((0, 0), (b, 0)))
    assert corner.inertia[2, 2] == pytest.approx(case("welds", "wgrp-05")[1]["J_u"], rel=1e-5)


def test_channel_keeps_the_second_term():
    """J_u and centroid of a channel; the first term alone would be 3.6e6."""
    given_, expected = case("welds", "channel")
    d, b = given_["d"], given_["b"]
    group = _plane(((0, 0), (0, d)), ((0, 0), (b, 0)), ((0, d), (b, d)))
    assert group.centroid[0] == pytest.approx(expected["x"])
    assert group.inertia[2, 2] == pytest.approx(expected["J_u"], rel=1e-5)
    assert group.inertia[2, 2] == pytest.approx((8 * b**3 + 6 * b * d**2 + d**3) / 12 - b**4 / (2 * b + d))


def test_circle():
    """wgrp-06: two circles under torsion; the believed 49.7 kN, not the printed slip 49.2."""
    given_, expected = case("welds", "wgrp-06")
    throat = given_["leg"] / np.sqrt(2)
    one = weld_group([Arc((0, 0, 0), (given_["r"], 0, 0), (0, 0, 1), 2 * np.pi, throat)])
    assert one.inertia[2, 2] / throat / 1e3 == printed("402")
    for_one_kN = _worst(one, (0, 0, 0), (0, 0, 1e3 * given_["lever"] / given_["welds"]))
    assert given_["tau"] / for_one_kN == pytest.approx(float(expected["kN"]), rel=2e-3)


def test_bracket_in_its_plane():
    """wgrp-07: inches; the lever is to the group's centroid and J_u resists it."""
    g, expected = case("welds", "wgrp-07")
    throat = g["leg"] * np.sqrt(0.5)
    half = g["spacing"] / 2
    group = weld_group([Line((0, y, 0), (g["l"], y, 0), throat) for y in (-half, half)])
    assert group.inertia[2, 2] / throat == printed("5.333")
    stress = _worst(group, (0, -1, 0), at=(g["l"] / 2 + g["lever"], 0, 0))
    assert stress == pytest.approx(expected["tau_per_force"], rel=expected["tolerance"])
    assert g["tau"] / stress == pytest.approx(expected["force"], rel=expected["tolerance"])


def test_bracket_out_of_its_plane():
    """wgrp-16: I_u, not J_u, resists a moment out of the plane."""
    g, expected = case("welds", "wgrp-16")
    half = g["l_eff"] / 2
    group = weld_group([Line((x, -half, 0), (x, half, 0), g["a"]) for x in (0, g["spacing"])])
    stations = group.tractions((0, g["force"], 0), (0, 0, 0), (g["spacing"] / 2, 0, g["lever"]))
    traction = np.abs(stations[0].tractions[0])
    assert traction[2] == printed(expected["bending"])
    assert traction[1] == printed(expected["along"])


def test_one_line_cannot_turn_about_itself():
    """A moment about the run's own axis is the root's; it is refused in words, any other moment is borne."""
    group = weld_group([Line((0, 0, 0), (100, 0, 0), 4.0)])
    with pytest.raises(Mechanism, match="only the weld's root would carry it"):
        group.tractions((0, 0, 0), (1e5, 0, 0), (0, 0, 0))
    assert _worst(group, (0, 0, 0), (0, 1e5, 0)) == pytest.approx(1e5 * 6 / (4 * 100**2))


def test_group_needs_length_and_throat():
    """An empty group, or a run of no length, is no group."""
    with pytest.raises(ValueError, match="have a length and a throat"):
        weld_group([])
    with pytest.raises(ValueError, match="have a length and a throat"):
        weld_group([Line((0, 0, 0), (0, 0, 0), 4.0)])


def test_closed_form_of_parallel_runs():
    """Three runs 60 apart, force, pull and moment in the plane: as the group says."""
    offsets, l_eff, a = (-60.0, 0.0, 60.0), 100.0, 4.0
    group = weld_group([Line((x, -l_eff / 2, 0), (x, l_eff / 2, 0), a) for x in offsets])
    stations = group.tractions((7e3, 20e3, 0), (0, 0, 3e6), (0, 0, 0))
    along, across = parallel_runs(l_eff, a, offsets, 20e3, 7e3, 3e6)
    assert max(np.max(np.abs(s.tractions[:, 1])) for s in stations) == pytest.approx(along)
    assert max(np.max(np.abs(s.tractions[:, 0])) for s in stations) == pytest.approx(across)


def _bent():
    """A group in space: two lines, a half circle, throats of their own."""
    return [
        Line((0, 0, 0), (120, 10, 0), 4.0),
        Line((0, 0, 0), (0, 80, 40), 6.0),
        Arc((60, 40, 30), (60, 80, 30), (1, 0, 0), np.pi, 5.0),
    ]


def _parametric(run):
    """Points of a run at s in 0 to 1, written down without the code under test."""
    if isinstance(run, Line):
        return lambda s: np.add(run.start, np.multiply(s, np.subtract(run.end, run.start)))
    turn = Rotation.from_rotvec(np.multiply(run.axis, run.angle))
    spoke = np.subtract(run.start, run.centre)
    return lambda s: np.add(run.centre, Rotation.from_rotvec(turn.as_rotvec() * s).apply(spoke))


def _integral(runs, what):
    """Sum over the runs of throat times the integral of a function of place, by adaptive quadrature."""
    total = 0.0
    for run in runs:
        place = _parametric(run)
        total += run.throat * run.length * quad(lambda s, p=place: what(p(s)), 0, 1, epsabs=1e-10)[0]
    return total


def test_properties_agree_with_direct_integration():
    """Area, centroid and inertia of a group in space by adaptive quadrature."""
    runs, group = _bent(), weld_group(_bent())
    area = _integral(runs, lambda p: 1.0)
    centre = np.array([_integral(runs, lambda p, i=i: p[i]) for i in range(3)]) / area
    assert group.area == pytest.approx(area)
    assert group.centroid == pytest.approx(centre)
    for i in range(3):
        for j in range(3):

            def entry(p, i=i, j=j):
                r = p - centre
                return (r @ r if i == j else 0.0) - r[i] * r[j]

            assert group.inertia[i, j] == pytest.approx(_integral(runs, entry), rel=1e-8, abs=1e-3)


def test_tractions_balance_the_load():
    """Tractions integrated over all runs give back force and moment; adaptive quadrature."""
    runs, group = _bent(), weld_group(_bent())
    force, moment, at = np.array([3e3, -8e3, 5e3]), np.array([2e5, 4e5, -3e5]), np.array([150.0, 20.0, 60.0])
    turning = moment + np.cross(at - group.centroid, force)
    rotation = group.motion(turning)

    def traction(p):
        return force / group.area + np.cross(rotation, p - group.centroid)

    for i in range(3):
        assert _integral(runs, lambda p, i=i: traction(p)[i]) == pytest.approx(force[i], rel=1e-8)
        about = _integral(runs, lambda p, i=i: np.cross(p, traction(p))[i])
        assert about == pytest.approx((moment + np.cross(at, force))[i], rel=1e-8)
    for run, station in zip(runs, group.tractions(force, moment, at), strict=True):
        place = _parametric(run)
        assert station.points[0] == pytest.approx(place(0.0))
        assert station.points[-1] == pytest.approx(place(1.0))
        assert station.tractions[-1] == pytest.approx(traction(place(1.0)))
        assert np.linalg.norm(station.tangents, axis=1) == pytest.approx(1.0)


_SIDE = st.floats(-200, 200)
_POINT = st.tuples(_SIDE, _SIDE, _SIDE)
_LOAD = st.tuples(*[st.floats(-1e5, 1e5)] * 3)
LAWS = settings(max_examples=30, deadline=None)


def _stresses(runs, force, moment, at):
    return [s.tractions for s in weld_group(runs).tractions(force, moment, at)]


@LAWS
@given(_LOAD, _LOAD, _POINT, st.tuples(*[st.floats(-3, 3)] * 3))
def test_turning_joint_and_load_turns_the_tractions(force, moment, at, turn):
    """No direction of space is special."""
    rotation = Rotation.from_rotvec(turn)

    def moved(run):
        if isinstance(run, Line):
            return Line(tuple(rotation.apply(run.start)), tuple(rotation.apply(run.end)), run.throat)
        ends = (tuple(rotation.apply(v)) for v in (run.centre, run.start, run.axis))
        return Arc(*ends, run.angle, run.throat)

    before = _stresses(_bent(), force, moment, at)
    loads = (rotation.apply(v) for v in (force, moment, at))
    after = _stresses([moved(run) for run in _bent()], *loads)
    for old, new in zip(before, after, strict=True):
        assert new == pytest.approx(rotation.apply(old), rel=1e-6, abs=1e-6)


@LAWS
@given(_LOAD, _LOAD, _POINT)
def test_a_mirrored_joint_has_mirrored_tractions(force, moment, at):
    """Mirrored in x = 0: forces change sign in x, moments in y and z."""
    flip = np.array([-1.0, 1.0, 1.0])
    lines = _bent()[:2]
    mirrored = [Line(tuple(flip * run.start), tuple(flip * run.end), run.throat) for run in lines]
    before = _stresses(lines, force, moment, at)
    after = _stresses(mirrored, flip * force, -flip * moment, flip * at)
    for old, new in zip(before, after, strict=True):
        assert new == pytest.approx(flip * old, rel=1e-6, abs=1e-6)


@LAWS
@given(_LOAD, _LOAD, _POINT, st.permutations([0, 1, 2]))
def test_order_of_runs_is_nothing(force, moment, at, order):
    """Runs in another order feel the same."""
    runs = _bent()
    before, after = _stresses(runs, force, moment, at), _stresses([runs[i] for i in order], force, moment, at)
    for place, i in enumerate(order):
        assert after[place] == pytest.approx(before[i], rel=1e-7, abs=1e-7)


@LAWS
@given(_LOAD, _LOAD, _POINT, st.floats(0.1, 10))
def test_tractions_grow_with_the_load(force, moment, at, factor):
    """Elastic: every traction is multiplied by the factor of the load."""
    before = _stresses(_bent(), force, moment, at)
    after = _stresses(_bent(), np.multiply(force, factor), np.multiply(moment, factor), at)
    for old, new in zip(before, after, strict=True):
        assert new == pytest.approx(factor * old, rel=1e-9, abs=1e-9)


@LAWS
@given(_LOAD, st.floats(0.2, 5))
def test_a_larger_joint_bears_moments_with_less(moment, factor):
    """All lengths times s: tractions of a pure moment divided by s squared (s for the lever, s for the length)."""
    runs = _bent()[:2]
    larger = [Line(tuple(np.multiply(factor, r.start)), tuple(np.multiply(factor, r.end)), r.throat) for r in runs]
    before, after = (_stresses(each, (0, 0, 0), moment, (0, 0, 0)) for each in (runs, larger))
    for old, new in zip(before, after, strict=True):
        assert new * factor**2 == pytest.approx(old, rel=1e-6, abs=1e-6)


@LAWS
@given(_LOAD, _LOAD, _POINT, st.floats(1.1, 4))
def test_thicker_throats_everywhere_divide_the_tractions(force, moment, at, factor):
    """Every throat times s divides every stress by s."""
    thicker = [replace(run, throat=factor * run.throat) for run in _bent()]
    before, after = _stresses(_bent(), force, moment, at), _stresses(thicker, force, moment, at)
    for old, new in zip(before, after, strict=True):
        assert factor * new == pytest.approx(old, rel=1e-8, abs=1e-8)
