"""The factor at which criteria that rise with the forces reach 1. Provenance: derived, roots in closed form."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from structcheck.analysis.load_factor import least_load_factor, load_factor

powers = st.lists(st.tuples(st.floats(0.05, 20.0), st.sampled_from([1.0, 1.66, 2.0, 6.0])), min_size=1, max_size=8)


def of(scale, power):
    return lambda k: (k / scale) ** power


@pytest.mark.parametrize(("scale", "power"), [(0.3, 1.0), (2.0, 1.66), (17.0, 6.0)])
def test_the_factor_is_the_root(scale, power):
    assert load_factor(of(scale, power), 3 * scale) == pytest.approx(scale, rel=1e-12)


def test_a_factor_that_cannot_be_passed_stands_where_the_criterion_stays_below_1():
    assert load_factor(lambda k: 0.1 * k, 4.0) == 4.0
    assert load_factor(lambda k: 0.0, math.inf) == math.inf


@given(criteria=powers, guess=st.integers(0, 7))
def test_the_first_to_reach_1_is_found_whichever_is_guessed(criteria, guess):
    """Also where a criterion is cut off below its root."""
    functions = [of(*one) for one in criteria]
    most = [scale * (0.5 if number % 3 == 2 else 2.0) for number, (scale, _) in enumerate(criteria)]
    alone = [load_factor(function, limit) for function, limit in zip(functions, most, strict=True)]
    number, factor = least_load_factor(functions, most, guess % len(criteria))
    assert factor == pytest.approx(min(alone), rel=1e-11)
    assert alone[number] == pytest.approx(min(alone), rel=1e-11)
