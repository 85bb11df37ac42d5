"""Warping torsion between forks against finite differences of its differential equation, and its limits."""

import numpy as np
import pytest
from scipy.integrate import solve_bvp

from structcheck.analysis.warping import Ends, Torque, twist

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


def by_collocation(torques, kappa, ends):
    """The fourth-order equation on its own, phi, phi', B, B' with EI_w = 1, by scipy's solve_bvp; torques as hats.

    Gives B and both torques anywhere; the members here are cut at the torques, so that every piece is smooth.
    """
    cuts = [0.0, *(one.at for one in torques if 0 < one.at < SPAN), SPAN]
    pieces = len(cuts) - 1
    lengths = np.diff(cuts)
    inside = [next((t.torque for t in torques if t.at == cut), 0.0) for cut in cuts[1:-1]]
    tip = sum(t.torque for t in torques if t.at == SPAN)

    def slopes(s, y):
        # On every piece, s from 0 to 1: phi' = theta, theta' = -B, B' = W, W' = kappa^2 B.
        rows = []
        for k, length in enumerate(lengths):
            _, theta, B, W = y[4 * k : 4 * k + 4]
            rows += [theta * length, -B * length, W * length, kappa**2 * B * length]
        return np.array(rows)

    def conditions(a, b):
        first, last = a[:4], b[-4:]
        found = [first[0], first[1] if ends.left else first[2]]
        if ends.free:
            # The tip's torque: kappa^2 phi' + B' = T there.
            found += [last[2], kappa**2 * last[1] + last[3] - tip]
        else:
            found += [last[0], last[1] if ends.right else last[2]]
        for k in range(pieces - 1):
            before, after = b[4 * k : 4 * k + 4], a[4 * k + 4 : 4 * k + 8]
            found += [before[0] - after[0], before[1] - after[1], before[2] - after[2]]
            found.append(before[3] - after[3] - inside[k])
        return np.array(found)

    s = np.linspace(0, 1, 40)
    solved = solve_bvp(slopes, conditions, s, np.zeros((4 * pieces, s.size)), tol=1e-4, max_nodes=5000)
    assert solved.success

    def at(x):
        k = min(int(np.searchsorted(cuts, x, side="right")) - 1, pieces - 1)
        _, theta, B, W = solved.sol((x - cuts[k]) / lengths[k])[4 * k : 4 * k + 4]
        return B, W, kappa**2 * theta

    return at


HELD = {
    "fixed": Ends(left=True, right=True),
    "propped": Ends(left=True),
    "propped the other way": Ends(right=True),
    "cantilever": Ends(left=True, free=True),
    "cantilever, root free to warp": Ends(free=True),
}


# Derived: scipy's collocation of the same equation with the end conditions written out.
@pytest.mark.parametrize("ends", HELD.values(), ids=HELD)
@pytest.mark.parametrize("kappa", [0.0008, 0.004, 0.02])
def test_ends_of_every_kind_by_collocation(ends, kappa):
    """Bimoment, warping torque and Saint-Venant torque all along."""
    torques = (*TORQUES, Torque(2e5, SPAN)) if ends.free else TORQUES
    at = by_collocation(torques, kappa, ends)
    for x in (0.0, 100.0, 249.0, 250.0, 400.0, 600.0, 699.0):
        found = twist(SPAN, torques, kappa, x, ends=ends)
        B, T_w, T_t = at(x)
        assert pytest.approx(B, rel=1e-3, abs=1e-4 * 4e5 * SPAN) == found.B
        assert pytest.approx(T_w, rel=1e-3, abs=1e-4 * 4e5) == found.T_w
        assert pytest.approx(T_t, rel=1e-3, abs=1e-4 * 4e5) == found.T_t


def test_the_ends_known_by_heart():
    """A torque at a tip: B = T tanh(kappa L) / kappa at the root; in the middle of held ends: T L / 8 in the limit."""
    tip = twist(SPAN, [Torque(1e5, SPAN)], 0.004, 0.0, ends=HELD["cantilever"])
    assert pytest.approx(-1e5 * np.tanh(0.004 * SPAN) / 0.004) == tip.B
    assert tip.T_t == pytest.approx(0.0, abs=1e-6) and tip.T_w == pytest.approx(1e5)
    for place, sign in ((0.0, -1), (SPAN / 2, 1)):
        held = twist(SPAN, [Torque(1e5, SPAN / 2)], 2e-5, place, "left", HELD["fixed"])
        assert pytest.approx(sign * 1e5 * SPAN / 8, rel=1e-4) == held.B


def test_many_sections_at_once():
    """A sweep's array of kappa gives what each gives alone."""
    many = np.array([0.001, 0.004, 0.02])
    for ends in HELD.values():
        swept = twist(SPAN, TORQUES, many, 300.0, ends=ends)
        alone = [twist(SPAN, TORQUES, float(kappa), 300.0, ends=ends) for kappa in many]
        assert pytest.approx([float(one.B) for one in alone]) == swept.B
        assert swept.T_t == pytest.approx([float(one.T_t) for one in alone])
