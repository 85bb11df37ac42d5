"""Curved bars: published and derived stresses, and the laws they must obey."""

import tomllib
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from structcheck.analysis.curved_beam import curved, curved_rectangle
from structcheck.errors import InputError

VALUES = tomllib.loads((Path(__file__).parent.parent / "reference" / "press_frames.toml").read_text(encoding="utf-8"))
THROAT, BAR = VALUES["curved_rectangle"], VALUES["curved_bar"]


def near(value: float, case: dict):
    """Within the tolerance of the case."""
    return pytest.approx(value, rel=case["tolerance"])


def test_a_throat_of_a_c_frame_is_stressed_a_third_more_than_a_straight_bar():
    """Plate 40 mm, radii 150 and 350, 50 kN through the centre of curvature (derived, Winkler-Bach)."""
    section = curved_rectangle(THROAT["thickness"], THROAT["inner"], THROAT["outer"] - THROAT["inner"])
    assert section.r_neutral == near(THROAT["r_neutral"], THROAT)
    assert section.eccentricity == near(THROAT["eccentricity"], THROAT)
    N = THROAT["force"]
    M = N * section.r_centroid
    assert near(THROAT["M"], THROAT) == M
    assert section.inner_stress(N, M) == near(THROAT["sigma_inner"], THROAT)
    assert section.outer_stress(N, M) == near(THROAT["sigma_outer"], THROAT)
    straight = 6 * M / (THROAT["thickness"] * 200**2)
    assert straight + N / section.area == near(THROAT["sigma_straight_inner"], THROAT)
    assert section.inner_stress(0, M) / straight == near(THROAT["inner_factor"], THROAT)


def test_a_moderately_curved_bar_has_the_derived_factors():
    """30 x 60 mm at an inner radius of 100 mm, 3 kNm opening (derived, Winkler-Bach)."""
    section = curved_rectangle(BAR["thickness"], BAR["inner"], BAR["outer"] - BAR["inner"])
    M = BAR["M"]
    straight = 6 * M / (30 * 60**2)
    assert section.r_neutral == near(BAR["r_neutral"], BAR)
    assert section.eccentricity == near(BAR["eccentricity"], BAR)
    assert section.inner_stress(0, M) == near(BAR["sigma_inner"], BAR)
    assert section.outer_stress(0, M) == near(BAR["sigma_outer"], BAR)
    assert section.inner_stress(0, M) / straight == near(BAR["inner_factor"], BAR)
    assert -section.outer_stress(0, M) / straight == near(BAR["outer_factor"], BAR)


@settings(max_examples=40, deadline=None)
@given(
    inner=st.floats(5, 500),
    layers=st.lists(st.tuples(st.floats(5, 100), st.floats(5, 100)), min_size=1, max_size=3),
    N=st.floats(-1e5, 1e5),
    M=st.floats(-1e7, 1e7),
)
def test_the_stresses_are_in_equilibrium_with_the_forces(inner, layers, N, M):
    """Integrated over the section they give N, and M about the centroid."""
    section = curved(inner, layers)
    force = moment = 0.0
    r = inner
    for width, height in layers:
        force += quad(lambda x, w=width: section.stress(x, N, M) * w, r, r + height)[0]
        moment += quad(lambda x, w=width: section.stress(x, N, M) * w * (section.r_centroid - x), r, r + height)[0]
        r += height
    size = abs(N) + abs(M) / section.r_centroid + 1
    assert force == pytest.approx(N, abs=1e-6 * size)
    assert moment == pytest.approx(M, abs=1e-6 * size * section.r_centroid)


def test_a_gently_curved_bar_is_a_straight_one():
    """With a radius of a thousand depths the stress is that of bending theory."""
    section = curved_rectangle(10, 1e5, 100)
    assert section.inner_stress(0, 1e6) == pytest.approx(6 * 1e6 / (10 * 100**2), rel=1e-3)


def test_two_layers_of_one_width_are_one_rectangle():
    """How a section is cut into layers does not matter."""
    one, two = curved_rectangle(20, 50, 80), curved(50, [(20, 30), (20, 50)])
    assert one.r_neutral == pytest.approx(two.r_neutral, rel=1e-12)


def test_arrays_give_what_numbers_give():
    """Forces may be arrays."""
    section = curved_rectangle(20, 50, 80)
    N, M = np.array([1e3, -2e3]), np.array([1e6, 2e6])
    assert section.greatest(N, M).tolist() == [section.greatest(n, m) for n, m in zip(N, M, strict=True)]


@pytest.mark.parametrize(("inner", "depth"), [(0.0, 50.0), (-3.0, 50.0), (20.0, 0.0), (float("nan"), 50.0)])
def test_a_sharp_corner_or_an_empty_section_is_refused(inner, depth):
    """A radius of zero has no finite stress."""
    with pytest.raises(InputError):
        curved_rectangle(20, inner, depth)
