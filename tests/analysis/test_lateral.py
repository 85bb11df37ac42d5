"""Elastic lateral torsional buckling of a beam against published constants, coefficients and finer elements."""

import numpy as np
import pytest

from structcheck.analysis.beam import PointLoad, PointMoment, UniformLoad, solve
from structcheck.analysis.lateral import critical_factor
from tests.reference.reading import case

E = 210_000.0


def critical_moment(given, loads, height=0.0, *, supports="simple", I_w=None, **more):
    """M_cr in kN m: the factor on the loads times their greatest moment."""
    solution = solve(given["L"], supports, loads, E * 1e8)
    I_w = given.get("I_w", 1.0) if I_w is None else I_w
    factor = critical_factor(
        solution, EIz=E * given["I_z"], EIw=E * I_w, GIt=given["G"] * given["I_t"], height=height, **more
    )
    return factor * abs(solution.greatest_moment().value) / 1e6


def test_a_central_load_on_top_in_the_middle_and_below():
    """LT-07 (derived): another author's beam finite elements, to 0.1 %; on top it is worse, below better."""
    given, expected = case("members", "LT-07")
    load = [PointLoad(1e3, given["L"] / 2)]
    found = [critical_moment(given, load, height) for height in (given["z_g"], 0.0, -given["z_g"])]
    assert found == [pytest.approx(expected[f"{name}_kNm"], rel=1e-3) for name in ("top", "middle", "bottom")]


def test_a_spread_load_on_top():
    """LT-01 (read): 113.9 kN m by coefficients, 114.01 by elements."""
    given, expected = case("members", "LT-01")
    found = critical_moment(given, [UniformLoad(1.0, 0.0, given["L"])], given["z_g"])
    assert found == pytest.approx(expected["elements_kNm"], rel=1e-3)


def test_a_narrow_plate_on_edge():
    """LT-08 (memory): Timoshenko's constants for uniform moment, central load, spread load and a cantilever's tip."""
    given, expected = case("members", "LT-08")
    L = given["L"]
    uniform = critical_moment(given, [PointMoment(1e3, 0.0), PointMoment(-1e3, L)])
    central = critical_moment(given, [PointLoad(1.0, L / 2)]) * 4 / L * 1e3
    spread = critical_moment(given, [UniformLoad(1.0, 0.0, L)]) * 8 / L * 1e3
    tip = critical_moment(given, [PointLoad(1.0, L)], supports="cantilever") / L * 1e3
    assert [uniform, central, spread, tip] == [
        pytest.approx(expected[name], rel=5e-3)
        for name in ("M_cr_uniform_kNm", "P_cr_central_kN", "qL_cr_kN", "P_cr_tip_kN")
    ]


def test_a_triangular_diagram():
    """LT-05 (memory): 4247 kN m by elements lies between the coefficients 1.77 and 1.88 of two sources."""
    given, expected = case("members", "LT-05")
    beam = {"I_z": given["I_z"], "I_t": given["I_t"], "I_w": given["I_w"], "G": 81e3, "L": given["L_CD"]}
    assert critical_moment(beam, [PointMoment(1e3, 0.0)]) == pytest.approx(expected["elements_CD_kNm"], rel=1e-2)


def test_fewer_elements_are_at_most_a_tenth_of_a_percent_high():
    """Cubic elements converge from above: 4 and 8 against 32."""
    given, _ = case("members", "LT-07")
    loads = [PointLoad(1e3, 1000.0), UniformLoad(0.5, 2000.0, 5000.0)]
    fine = critical_moment(given, loads, 165.0, elements=32)
    for count in (4, 8):
        assert 1.0 <= critical_moment(given, loads, 165.0, elements=count) / fine < 1.001


def test_holding_the_middle_helps_and_arrays_answer_like_numbers():
    """A place held sideways raises the factor; a sweep gives the factors of its members."""
    given, _ = case("members", "LT-07")
    loads = [PointLoad(1e3, 2000.0)]
    free = critical_moment(given, loads, 165.0)
    assert critical_moment(given, loads, 165.0, held=(given["L"] / 2,)) > 2 * free
    solution = solve(given["L"], "simple", loads, 1e13)
    I_z = np.array([1.0, 2.0, 3.0]) * given["I_z"]
    both = {"EIw": E * given["I_w"], "GIt": 81e3 * given["I_t"], "height": 165.0}
    swept = critical_factor(solution, EIz=E * I_z, **both)
    assert list(swept) == [pytest.approx(critical_factor(solution, EIz=E * one, **both)) for one in I_z]


def test_a_beam_without_load_never_buckles():
    """The factor is infinite."""
    solution = solve(1000.0, "simple", [PointLoad(0.0, 500.0)], 1e12)
    assert critical_factor(solution, EIz=1e10, EIw=1e12, GIt=1e9, height=50.0) == np.inf
