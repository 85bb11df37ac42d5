"""Many roots at once against scipy's Brent, one by one (derived)."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from structcheck.analysis.falling import falling_root

coefficients = st.lists(
    st.tuples(st.floats(0.01, 50.0), st.floats(0.0, 50.0), st.floats(0.0, 0.99)), min_size=1, max_size=8
)


@given(rows=coefficients)
@settings(deadline=None)
def test_every_root_is_found_from_below(rows):
    """Of (1 - a k) (1 - c k) - b k^3, which falls from 1 at nothing up to the first of 1 / a and 1 / c."""
    a, b, c = np.array(rows).T
    calls = []

    def left(k):
        calls.append(k)
        return (1 - a * k) * (1 - c * k) - b * k**3

    most = 1 / np.maximum(a, c)
    found = falling_root(left, most)
    for number, (one_a, one_b, one_c) in enumerate(rows):

        def alone(k, a=one_a, b=one_b, c=one_c):
            return (1 - a * k) * (1 - c * k) - b * k**3

        high = float(most[number])
        root = high if alone(high) >= 0 else brentq(alone, 0.0, high, xtol=1e-15, rtol=1e-14)
        assert abs(found[number] - root) <= 3e-12 * high
    assert len(calls) < 60
