"""Laws of the weld question: whatever the forces and the method."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.checks.basis import ULTIMATE
from structcheck.checks.weld import WeldLoads, check_weld
from tests.checks.weld_parts import BASIS, PLAIN, found_in

_FORCE = st.just(0.0) | st.floats(1e-3, 1e6)
_METHOD = st.sampled_from(["simplified", "directional"])
LAWS = settings(max_examples=40, deadline=None)


@LAWS
@given(_FORCE, _FORCE, st.floats(1.0, 10.0), _METHOD, st.floats(0, 200))
def test_actions_times_s_multiply_the_utilisation(along, across, factor, method, lever):
    """Throat: every action doubled doubles the utilisation."""
    part = replace(PLAIN, method=method, eccentricity=lever)
    one, more = (
        found_in(check_weld(part, [WeldLoads(ULTIMATE, f * along, f * across)], BASIS), "weld throat").utilisation
        for f in (1.0, factor)
    )
    assert more == pytest.approx(factor * one)


@LAWS
@given(_FORCE, _FORCE, st.floats(0, 1e5), _METHOD)
def test_more_load_is_never_less(along, across, more, method):
    """Either force grown."""
    part = replace(PLAIN, method=method)
    base, *grown = (
        found_in(check_weld(part, [WeldLoads(ULTIMATE, x, y)], BASIS), "weld throat").utilisation
        for x, y in ((along, across), (along + more, across), (along, across + more))
    )
    assert min(grown) >= base - 1e-12


@LAWS
@given(_FORCE, _FORCE)
def test_simplified_is_never_bolder_than_directional(along, across):
    """For a force along a leg, the simplified method is the safe one."""
    used = [
        found_in(check_weld(replace(PLAIN, method=m), [WeldLoads(ULTIMATE, along, across)], BASIS), "weld throat")
        for m in ("simplified", "directional")
    ]
    assert used[0].utilisation >= used[1].utilisation - 1e-12


@LAWS
@given(_FORCE, _FORCE, st.integers(1, 4))
def test_every_run_doubled_halves_it(along, across, runs):
    """Twice the runs, half the utilisation."""
    part = replace(PLAIN, runs=2 * runs)
    one, two = (
        found_in(check_weld(replace(part, runs=n), [WeldLoads(ULTIMATE, along, across)], BASIS), "weld throat")
        for n in (2 * runs, 4 * runs)
    )
    assert two.utilisation == pytest.approx(one.utilisation / 2)
