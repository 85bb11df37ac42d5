"""Warping torsion between forks against finite differences of its differential equation, and its limits."""

import numpy as np
import pytest

from structcheck.analysis.warping import Torque, twist

SPAN = 700.0
TORQUES = (Torque(4e5, 250.0), Torque(-1e5, 500.0))


def by_differences(kappa, count=2800):
    """Bimoment and angle: EI_w phi'''' - GI_t phi'' = m with EI_w = 1, as two second-order equations."""
    x = np.linspace(0.0, SPAN, count + 1)
    h = x[1]
    m = np.zeros(count + 1)
    for one in TORQUES:
        m[round(one.at / h)] += one.torque / h
    inner = slice(1, -1)
    second = (
        np.diag(-2 * np.ones(count - 1)) + np.diag(np.ones(count - 2), 1) + np.diag(np.ones(count - 2), -1)
    ) / h**2
    # B = -phi'':  -B'' + kappa^2 B = m
    B = np.zeros(count + 1)
    B[inner] = np.linalg.solve(-second + kappa**2 * np.eye(count - 1), m[inner])
    return x, B


@pytest.mark.parametrize("kappa", [0.0008, 0.004, 0.03])
def test_bimoment_by_finite_differences(kappa):
    """Nearly pure warping, mixed, and nearly pure Saint-Venant torsion."""
    x, B = by_differences(kappa)
    for k in (400, 1000, 1500, 2000, 2500):
        assert pytest.approx(B[k], rel=3e-3, abs=1e-4 * abs(B).max()) == twist(SPAN, TORQUES, kappa, float(x[k])).B


@pytest.mark.parametrize("place", [0.0, 100.0, 250.0, 400.0, 699.0])
def test_the_two_torques_add_up_to_statics(place):
    """T_w + T_t is the torque of a shaft held at both ends against twisting; T_w is the slope of B."""
    found = twist(SPAN, TORQUES, 0.004, place)
    total = sum(one.torque * (SPAN - one.at) / SPAN for one in TORQUES)
    total -= sum(one.torque for one in TORQUES if one.at <= place)
    assert found.T_w + found.T_t == pytest.approx(total)
    step = 1e-3
    slope = (twist(SPAN, TORQUES, 0.004, place + step).B - found.B) / step
    assert found.T_w == pytest.approx(slope, rel=1e-3)


def test_without_saint_venant_torsion_a_member_warps_like_a_beam_bends():
    """kappa to zero: B is the moment T a b / L of a simple beam."""
    found = twist(SPAN, [Torque(1e5, 200.0)], 1e-6, 200.0)
    assert pytest.approx(1e5 * 200.0 * 500.0 / SPAN, rel=1e-6) == found.B


def test_a_long_member_does_not_overflow():
    """kappa L of 2000: a bimoment T / (2 kappa) under the torque, Saint-Venant torsion elsewhere."""
    found = twist(1e4, [Torque(1e5, 5e3)], 0.2, 5e3)
    assert pytest.approx(1e5 / 0.4) == found.B
    assert twist(1e4, [Torque(1e5, 5e3)], 0.2, 1e3).T_t == pytest.approx(5e4)
