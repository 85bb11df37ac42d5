"""Textbook formulas of plates."""

import tomllib
from pathlib import Path

import pytest

from structcheck.standards import handbook_plates as plates
from tests.printed import printed

FILE = Path(__file__).parents[1] / "reference" / "plates.toml"
CASES = {case["id"]: case for case in tomllib.loads(FILE.read_text())["case"]}


def test_circular_plates():
    """PT-14 (derived): simply supported and clamped, R 200, t 20, 1 MPa."""
    p, expected = CASES["PT-14"]["plate"], CASES["PT-14"]["expected"]
    D = plates.rigidity(210e3, p["t"], 0.3)
    assert plates.circular_deflection_simple(p["q"], p["R"], D, 0.3) == printed(expected["w_simple"])
    assert plates.circular_deflection_clamped(p["q"], p["R"], D) == printed(expected["w_clamped"])
    assert plates.circular_moment_simple(p["q"], p["R"], 0.3) / 1e3 == printed(expected["m_simple"])
    assert plates.circular_moment_clamped(p["q"], p["R"], 0.3) / 1e3 == printed(expected["m_clamped"])
    assert plates.circular_edge_moment(p["q"], p["R"]) / 1e3 == printed(expected["m_edge"])


def test_strip_moment_is_statics():
    """Half the force at the lever of the support less half at the lever of its own half pad."""
    F, L, a = 100e3, 80.0, 60.0
    assert plates.strip_moment_between(F, L, a) == pytest.approx(F / 2 * (L / 2) - F / 2 * (a / 4))
    assert plates.strip_moment_beyond(F, a, a / 2) == pytest.approx(F / 2 * a / 4)


def test_a_tiny_patch_gets_the_equivalent_radius():
    """A point on a 20 mm plate counts as 0.325 t; at r_0 = 0.5 t nothing is added (the limit of the formula)."""
    assert plates.equivalent_radius(0.0, 20.0) == pytest.approx(0.325 * 20)
    assert plates.equivalent_radius(10.0, 20.0) == pytest.approx(10.0, rel=0.02)


def test_elastic_and_plastic_moments_of_unit_width():
    """A plate at f_y has two thirds of its plastic moment."""
    m_el = 225.0 * 20.0**2 / 6
    assert plates.bending_stress(m_el, 20.0) == pytest.approx(225.0)
    assert m_el / plates.plastic_moment(20.0, 225.0, 1.0) == pytest.approx(2 / 3)


def test_punching_is_shear_on_the_perimeter():
    """80 x 80 on 10 mm of S235: 320 x 10 x 235/sqrt(3)."""
    assert plates.punching_resistance(320.0, 10.0, 235.0, 1.0) / 1e3 == printed("434.2")


def test_flange_resistance_falls_with_the_square_of_the_beams_stress():
    """At half the yield strength a quarter is gone; at yield all (form of EN 1993-6 6.7, memory)."""
    full = plates.flange_resistance(100.0, 10.0, 235.0, 30.0, 0.0, 1.0)
    assert plates.flange_resistance(100.0, 10.0, 235.0, 30.0, 117.5, 1.0) == pytest.approx(0.75 * full)
    assert plates.flange_resistance(100.0, 10.0, 235.0, 30.0, 235.0, 1.0) == pytest.approx(0.0)
    assert full == pytest.approx(100 * 25 * 235 / 30)
