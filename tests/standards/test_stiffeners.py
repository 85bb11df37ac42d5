"""Stiffener pairs under a force: EN 1993-1-5 section 9."""

import tomllib
from pathlib import Path

import pytest

from structcheck.standards.en1993_1_5 import stiffeners as strut
from tests.printed import printed

FILE = Path(__file__).parents[1] / "reference" / "local_forces.toml"
CASE = next(case for case in tomllib.loads(FILE.read_text())["case"] if case["id"] == "PL-09")
E = 210_000.0


def test_pair_of_flats_as_a_strut_with_15_epsilon_t_of_web():
    """PL-09 (derived): every figure from the web's part to the resistance."""
    g, expected = CASE["given"], CASE["expected"]
    side = strut.web_each_side(g["f_y"], g["t_w"])
    size = (g["b_s"], g["t_s"], g["t_w"], side, side)
    A, second = strut.strut_area(*size), strut.strut_second_moment(*size)
    slenderness = strut.strut_slenderness(0.75 * g["h_w"], A, second, g["f_y"], E)
    chi = strut.strut_reduction(slenderness)
    assert side == printed(expected["web"])
    assert strut.strut_area(*size) == printed(expected["A"])
    assert second / 1e4 == printed(expected["I_cm4"]) and (second / A) ** 0.5 == printed(expected["i"])
    assert slenderness == printed(expected["lambda_bar"]) and chi == printed(expected["chi"])
    assert strut.strut_resistance(chi, A, g["f_y"], 1.0) / 1e3 == printed(expected["N_kN"])
    assert strut.flat_ratio_class_3(g["f_y"]) == printed(expected["flat_limit"])


def test_torsion_of_a_flat_allows_less_than_class_3():
    """9.2.1(8) solved for a flat: I_T/I_p = (t/b)^2 of a thin flat about its root, so 13.0 for S235, 10.6 for S355."""
    assert strut.flat_ratio_against_torsion(E, 235.0) == printed("13.0")
    assert strut.flat_ratio_against_torsion(E, 355.0) == printed("10.6")
    b, t = strut.flat_ratio_against_torsion(E, 355.0) * 10, 10.0
    I_T, I_p = b * t**3 / 3, b**3 * t / 3
    assert I_T / I_p == pytest.approx(5.3 * 355 / E)


def test_curve_c_at_a_known_ordinate():
    """Curve c at 1.0 is 0.540 (EN 1993-1-1 Figure 6.4, memory)."""
    assert strut.strut_reduction(1.0) == printed("0.540")
    assert strut.strut_reduction(0.1) == 1.0


def test_clipped_corners_do_not_bear():
    """A flat of 90 clipped by 15 bears on 75 mm of its end."""
    whole = strut.end_resistance(90.0, 0.0, 12.0, 8.0, 60.0, 355.0, 1.0)
    assert whole - strut.end_resistance(90.0, 15.0, 12.0, 8.0, 60.0, 355.0, 1.0) == 2 * 15 * 12 * 355
