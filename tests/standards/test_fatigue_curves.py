"""The S-N curves of EN 1993-1-9 figures 7.1 and 7.2."""

import pytest

from structcheck.standards import en1993_1_9 as curves
from tests.printed import printed
from tests.reference.reading import case


def test_anchor_ratios():
    """FAT-01: knee and cut-off over category."""
    _, expected = case("fatigue", "FAT-01")
    knee = curves.constant_amplitude_limit(1.0, 3)
    assert knee == printed(expected["D_over_C"])
    assert curves.cut_off_limit(1.0, 5) == printed(expected["L_over_D"])
    assert curves.cut_off_limit(knee, 5) == printed(expected["L_over_C"])
    assert curves.cut_off_limit_shear(1.0, 5) == printed(expected["shear_L_over_C"])


def test_the_slopes_meet_at_the_knee():
    """Both slopes give the constant amplitude limit at 5 million cycles, and lives follow ranges back."""
    knee = curves.constant_amplitude_limit(80.0, 3)
    assert curves.range_resisted(80.0, 5e6, 3) == pytest.approx(knee)
    assert curves.range_resisted_beyond_knee(knee, 5e6, 5) == pytest.approx(knee)
    assert curves.range_resisted_beyond_knee(knee, 1e8, 5) == pytest.approx(curves.cut_off_limit(knee, 5))
    assert curves.life(80.0, curves.range_resisted(80.0, 3e5, 3), 3, 1.0) == pytest.approx(3e5)
    beyond = curves.range_resisted_beyond_knee(knee, 3e7, 5)
    assert curves.life_beyond_knee(knee, beyond, 5, 1.0) == pytest.approx(3e7)
    assert curves.range_resisted(80.0, 2e6, 5) == 80.0


def test_bolt_size_factor():
    """Above 30 mm the category of a bolt goes down with the fourth root: M48, 0.889."""
    assert curves.bolt_size_factor(48.0) == printed("0.889")
    assert curves.bolt_size_factor(30.0) == 1.0
