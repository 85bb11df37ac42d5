"""Shear lag of the plate on a rib."""

import numpy as np
import pytest

from structcheck.shapes.built_up import rib_with_plate
from structcheck.standards.en1993_1_5 import shear_lag


def test_shares_at_the_ends_of_their_ranges():
    """Table 3.1 (memory): 1 to kappa 0.02, and both branches meet at 0.7."""
    assert shear_lag.effective_share(0.02) == shear_lag.effective_share_peaked(0.02) == 1.0
    assert shear_lag.effective_share(0.7) == pytest.approx(1 / (5.9 * 0.7), rel=0.01)
    assert shear_lag.effective_share_peaked(0.7) == pytest.approx(1 / (8.6 * 0.7), rel=0.04)


def test_a_force_leaves_less_of_the_plate_working_than_a_spread_load():
    """150 of plate on a rib spanning 400: 82 % under a spread load, half under a jack."""
    kappa = shear_lag.lag(75.0, 400.0)
    assert shear_lag.effective_share(kappa) == pytest.approx(0.816, abs=1e-3)
    assert shear_lag.effective_share_peaked(kappa) == pytest.approx(0.459, abs=0.02)


def test_a_peaked_moment_is_always_the_harder():
    """At every width the share under a force is below that under a spread load, and both fall with the width."""
    kappa = np.linspace(0.021, 2.0, 300)
    rounded, peaked = shear_lag.effective_share(kappa), shear_lag.effective_share_peaked(kappa)
    assert np.all(peaked < rounded)
    assert np.all(np.diff(rounded) < 5e-3) and np.all(np.diff(peaked) < 5e-3)


def test_the_plate_that_works_is_what_the_rib_is_given():
    """Half the plate width leaves the rib clearly weaker: the full width would be unsafe."""
    whole, working = rib_with_plate(120.0, 12.0, 20.0, 150.0), rib_with_plate(120.0, 12.0, 20.0, 70.0)
    assert working.Iy < 0.85 * whole.Iy
