"""EN 1993-1-8 section 7: tubes and plates on tubes, against an excerpt, hand arithmetic and limit analysis."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from structcheck.standards.en1993_1_8 import hollow, welds
from tests.printed import printed
from tests.reference.reading import case


def _yield_lines(f_y, t, b_0, b_1, h_1):
    """Least collapse force of a stiff patch b_1 by h_1 on a face b_0 wide held at both walls.

    Virtual work of a unit sinking: folds beside the patch and at the walls, folds at its ends and a distance x
    beyond them, four diagonals; m = f_y t^2 / 4.
    """
    c, m = (b_0 - b_1) / 2, f_y * t**2 / 4

    def force(x):
        sides = 2 * h_1 / c + 2 * (h_1 + 2 * x) / c
        ends = 2 * (b_1 + b_0) / x
        diagonals = 4 * (x / c + c / x)
        return m * (sides + ends + diagonals)

    return minimize_scalar(force, bounds=(0.01 * b_0, 5 * b_0), method="bounded", options={"xatol": 1e-9}).fun


@settings(max_examples=40, deadline=None)
@given(st.floats(0.25, 0.85), st.floats(0.3, 1.5), st.floats(60, 200), st.floats(3, 12))
def test_face_failure_is_the_yield_line_mechanism(beta, eta, b_0, t):
    """The table's form is the least of the mechanism's forces."""
    mechanism = _yield_lines(235.0, t, b_0, beta * b_0, eta * b_0)
    assert hollow.face_failure(1.0, 235.0, t, eta, beta, 1.0) == pytest.approx(mechanism, rel=1e-6)


def test_plate_across_a_tube():
    """HS-01: plate and side walls."""
    _, expected = case("tube_joints", "HS-01")
    width = hollow.effective_width(100.0, 6.3, 355.0, 355.0, 10.0, 90.0)
    assert width == printed(expected["b_eff"])
    assert hollow.transverse_plate_failure(355.0, 10.0, width, 1.0) / 1e3 == printed(expected["plate_kN"])
    assert hollow.punching_width(100.0, 6.3, 90.0) == printed(expected["b_e_p"])
    assert hollow.side_wall_failure(1.0, 355.0, 6.3, 10.0, 1.0) / 1e3 == printed(expected["side_wall_kN"])


def test_plate_along_a_tube():
    """HS-03: the lower of two readings; the yield-line form is 1 / (1 - t_1/b_0) higher."""
    _, expected = case("tube_joints", "HS-03")
    lower = hollow.face_failure_longitudinal_plate(1.0, 355.0, 6.3, 120.0, 100.0, 10.0, 1.0)
    assert lower / 1e3 == printed(expected["lower_kN"])
    assert _yield_lines(355.0, 6.3, 100.0, 10.0, 120.0) / 1e3 == printed(expected["yield_line_kN"])
    assert lower < _yield_lines(355.0, 6.3, 100.0, 10.0, 120.0)


def test_round_on_round():
    """Recalled forms, hand arithmetic."""
    g, expected = case("tube_joints", "round-T")
    beta = g["d_1"] / g["d_0"]
    T = hollow.round_face_failure_t(1.0, g["f_y"], g["t_0"], beta, 1.0, g["d_0"] / (2 * g["t_0"]))
    X = hollow.round_face_failure_x(1.0, g["f_y"], g["t_0"], beta, 1.0)
    punching = hollow.round_punching_shear(g["f_y"], g["t_0"], g["d_1"], 1.0)
    found = [T / 1e3, X / 1e3, punching / 1e3]
    assert found == [printed(expected[key]) for key in ("T_kN", "X_kN", "punching_kN")]


def test_chord_stress_only_takes_away():
    """Tension leaves the face alone; compression takes from it, more for a narrow brace."""
    assert hollow.chord_stress_factor(-0.8, 0.5) == 1.0
    assert hollow.chord_stress_factor(0.8, 0.4) == pytest.approx(0.5)
    assert hollow.chord_stress_factor(0.8, 1.0) == pytest.approx(0.98)
    assert hollow.chord_stress_factor_plate(0.5) == pytest.approx(0.65)
    assert hollow.round_chord_stress_factor(-0.5) == 1.0
    assert hollow.round_chord_stress_factor(0.5) == pytest.approx(1 - 0.3 * 0.5 * 1.5)


def test_side_wall_buckles_as_a_strut():
    """chi is the least root of the Ayrton-Perry quadratic, and 1 for a stocky wall; the slenderness is Euler's."""
    for lambda_bar in (0.3, 0.9, 2.0):
        eta = 0.49 * (lambda_bar - 0.2)
        roots = np.roots([lambda_bar**2, -(1 + eta + lambda_bar**2), 1.0])
        assert hollow.side_wall_buckling_factor(lambda_bar, 0.49) == pytest.approx(min(roots))
    assert hollow.side_wall_buckling_factor(0.2, 0.49) == pytest.approx(1.0)
    # A strip h_0 - 2 t_0 long, pinned: its radius of gyration is t_0 / sqrt(12), and sqrt(12) is 3.46.
    l_over_i = (150 - 2 * 6.3) / (6.3 / np.sqrt(12))
    euler = l_over_i / (np.pi * np.sqrt(210e3 / 355))
    assert hollow.side_wall_slenderness(150.0, 6.3, 210e3, 355.0) == pytest.approx(euler, rel=2e-3)


def test_full_strength_fillet_all_round():
    """One run on each wall: a over t is twice that of two fillets on a plate."""
    g, expected = case("tube_joints", "full-strength-all-round")
    for f_y, f_u, beta_w, text in zip(g["f_y"], g["f_u"], g["beta_w"], expected["ratio"], strict=True):
        assert 2 * welds.full_strength_throat(1.0, f_y, f_u, beta_w, 1.0, 1.25) == printed(text)
