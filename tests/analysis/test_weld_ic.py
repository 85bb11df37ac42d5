"""The instantaneous centre of plane weld groups against published coefficients and its own statics."""

import numpy as np
import pytest
from scipy.optimize import fsolve

from structcheck.analysis import weld_ic
from structcheck.analysis.weld_ic import PlaneRun, ultimate_force
from structcheck.errors import NotCovered
from tests.reference.reading import case

SIXTEENTH = 0.6 * 70 * np.sqrt(0.5) / 16
"""Nominal kip for each inch of E70 fillet, 1/16 in of leg."""


def _group(shape, k, length, strength):
    """Runs and the x of their centroid; lengths in inches, strengths in kip."""
    far = k * length
    if shape == "C":
        runs = [((0, 0), (0, length)), ((0, 0), (far, 0)), ((0, length), (far, length))]
        return [PlaneRun(*run, strength) for run in runs], far**2 / (length + 2 * far)
    runs = [((0, 0), (0, length)), ((far, 0), (far, length))]
    return [PlaneRun(*run, strength) for run in runs], far / 2


def _coefficient(shape, k, a, phi, length=10.0):
    runs, x = _group(shape, k, length, SIXTEENTH * phi)
    return ultimate_force(runs, (0, -1), (x + a * length, length / 2)).force / length


@pytest.mark.parametrize("name", ["wgrp-10", "wgrp-11", "wgrp-14"])
def test_published_coefficients(name):
    """AISC coefficients within 0.6 %: the tables were made with fewer pieces and print three figures."""
    given, expected = case("welds", name)
    for a, C in zip(given["a"], expected["C"], strict=True):
        assert _coefficient(given["shape"], given["k"], a, given["phi"]) == pytest.approx(C, rel=0.006)


def test_coefficient_does_not_depend_on_the_size():
    """The law is the same for every leg and length."""
    assert _coefficient("C", 0.5, 0.5, 1.0, length=4.0) == pytest.approx(_coefficient("C", 0.5, 0.5, 1.0), rel=1e-6)


def test_centre_found_by_another_solver():
    """scipy's hybrid Powell method finds the same centre from another start."""
    runs, x = _group("C", 1.0, 10.0, SIXTEENTH)
    at, u = np.array([x + 8.0, 5.0]), np.array([0.0, -1.0])
    found = ultimate_force(runs, u, at)
    points, axes, strengths = weld_ic._pieces(runs)

    def rest(centre):
        forces, moment = weld_ic._answer(points, axes, strengths, centre)
        arm = at - centre
        return forces - moment / (arm[0] * u[1] - arm[1] * u[0]) * u

    other = fsolve(rest, [found.x - 0.7, found.y + 0.4], xtol=1e-12)
    assert other == pytest.approx([found.x, found.y], abs=1e-6)


def test_critical_piece_is_not_the_farthest():
    """A piece across its force breaks first though one along it stands farther out."""
    points = np.array([[10.0, 0.0], [8.0, 0.0]])
    axes = np.array([[0.0, 1.0], [1.0, 0.0]])  # the far one along its motion, the near one square to it
    forces, _ = weld_ic._answer(points, axes, np.array([1.0, 1.0]), np.array([0.0, 0.0]))
    theta = np.array([0.0, 90.0])
    turn = weld_ic.ultimate_deformation(theta) / [10.0, 8.0]
    assert np.argmin(turn) == 1
    shares = weld_ic.share_of_strength(theta, turn[1] * np.array([10.0, 8.0]) / weld_ic.deformation_at_peak(theta))
    assert forces[1] == pytest.approx(shares.sum())


def test_transverse_strength_is_half_as_much_again():
    """At its peak, a piece square to the force bears 1.5 times one along it."""
    assert weld_ic.share_of_strength(np.array([90.0]), np.array([1.0]))[0] == pytest.approx(1.5)
    assert weld_ic.share_of_strength(np.array([0.0]), np.array([1.0]))[0] == pytest.approx(1.0)


def test_force_through_the_centroid_has_no_centre():
    """Said in words."""
    runs, x = _group("C", 0.5, 10.0, 1.0)
    with pytest.raises(NotCovered, match="turns nothing"):
        ultimate_force(runs, (0, -1), (x, 0.0))
