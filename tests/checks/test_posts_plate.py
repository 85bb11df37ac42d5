"""A plate on four posts: the elastic stress under the pad."""

import pytest

from structcheck.checks.basis import GREATEST, RATED, Basis
from structcheck.checks.posts_plate import PostsPlate, PostsPlateLoad, check_posts_plate, stress_of
from structcheck.materials.steels import find_steel

STEEL = find_steel("S235")


def plate(t: float = 40.0, span: float = 360.0) -> PostsPlate:
    """A square one."""
    return PostsPlate("head", span, span, t, STEEL)


def load(pad: float, force: float = 50e3, x: float = 0.0) -> PostsPlateLoad:
    """A square pad."""
    return PostsPlateLoad(GREATEST, force, pad, pad, x, 0.0)


def test_a_small_pad_is_harder_than_bending_over_the_whole_width():
    """F (L - c / 2) / 4 over the whole width is what statics leaves at least; a smaller pad presses a point harder."""
    small, large = stress_of(plate(), load(40.0)), stress_of(plate(), load(200.0))
    even = 50e3 * (360 - 20) / 4 / (360 * 40**2 / 6)
    assert small > 1.3 * even and small > large
    assert stress_of(plate(), load(40.0, 100e3)) == pytest.approx(2 * small)
    assert stress_of(plate(80.0), load(40.0)) == pytest.approx(small / 4)


def test_it_is_judged_at_the_greatest_force_and_said_at_the_rated():
    """The worst place counts; a thickness without a strength is not checked."""
    loads = [load(60.0), load(60.0, x=30.0), PostsPlateLoad(RATED, 40e3, 60.0, 60.0, 0.0, 0.0)]
    found = check_posts_plate(plate(), loads, Basis())
    assert found.findings[0].demand.value == max(stress_of(plate(), one) for one in loads[:2])
    assert found.times_on_yield[0].value == pytest.approx(225 / stress_of(plate(), loads[2]))
    assert check_posts_plate(plate(300.0), loads, Basis()).findings[0].verdict == "not checked"
    assert "past the lines" in check_posts_plate(plate(), [load(400.0), loads[2]], Basis()).findings[0].reason
