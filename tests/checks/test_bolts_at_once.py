"""Of many loads on a bolt group only those that can govern are judged one by one: the answer is that of judging all."""

import math
from contextlib import ExitStack
from unittest.mock import patch

import numpy as np
import pytest
from bolt_parts import BASIS, answer, full, group
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.analysis.bolt_group import elastic_in_plane, out_of_plane
from structcheck.checks import bolts, bolts_stress
from structcheck.checks.basis import Case
from structcheck.checks.bolts import BoltLoads

forces = st.sampled_from([0.0, 0.0, 5e3, 20e3, -20e3, 37e3])
moments = st.sampled_from([0.0, 0.0, 1e6, -1e6, 2.5e6])
rows = st.lists(
    st.tuples(
        st.sampled_from(["ultimate", "greatest force", "rated"]), forces, forces, moments, forces, moments, moments
    ),
    min_size=2,
    max_size=9,
)
LAYOUT = ((0.0, 0.0), (70.0, 10.0), (0.0, 90.0), (75.0, 80.0), (35.0, 150.0))
PARTS = {
    "plain": (full, {}),
    "pried": (full, {"lever": 30.0, "length": 60.0, "grip": 40.0, "backing": 5.0}),
    "no edge": (full, {"edge": None}),
    "loose": (full, {"size": "M12", "hole": 14.0}),
    "strip": (full, {"columns": 1, "gauge": None, "plate_runs": "along"}),
    "one way": (full, {"plate_runs": "across", "thread": "out"}),
    "slots": (full, {"slot": "short across", "category": "B"}),
    "layout": (group, {"layout": LAYOUT, "end": 40.0, "edge": 30.0}),
    "tube": (full, {"planes": 2, "gap": 30.0, "inner": 10.0, "ply": 5.0, "plate": 10.0}),
    "plastic": (full, {"rows": 3, "spread": "plastic", "steady": True}),
}


@pytest.mark.parametrize("name", PARTS)
@given(rows=rows)
@settings(deadline=None, max_examples=25)
def test_many_loads_at_once_are_as_hard_as_the_hardest_of_them(name, rows):
    made = [
        BoltLoads(Case(f"case {number}", limit), shear, 0.0, abs(tension), across, twist, bend_x, bend_y)
        for number, (limit, shear, across, twist, tension, bend_x, bend_y) in enumerate(rows)
    ]
    make, keys = PARTS[name]
    few = answer(make(**keys), made, BASIS)
    with ExitStack() as stack:
        stack.enter_context(patch.object(bolts, "AT_ONCE", {}))
        stack.enter_context(patch.object(bolts, "work_out", lambda part, loads: None))
        stack.enter_context(patch.object(bolts_stress, "_hardest", lambda part, loads: loads))
        every_one = answer(make(**keys), made, BASIS)
    assert few.keys() == every_one.keys()
    for check, alone in every_one.items():
        assert few[check].verdict == alone.verdict, check
        use = alone.utilisation
        assert few[check].utilisation == (use if use is None else pytest.approx(use, rel=1e-9)), check


@given(loads=st.lists(st.tuples(forces, forces, moments, moments), min_size=1, max_size=6), layout=st.booleans())
@settings(deadline=None)
def test_forces_of_many_loads_are_those_of_each(loads, layout):
    spots = np.array(LAYOUT) if layout else full().positions
    spots = spots - spots.mean(axis=0)
    together = elastic_in_plane(spots, np.array([load[:2] for load in loads]), np.array([load[2] for load in loads]))
    pulled = out_of_plane(spots, np.array([load[0] for load in loads]), np.array([load[2:] for load in loads]))
    for number, (x, y, twist, bend) in enumerate(loads):
        scale = 1 + math.hypot(x, y) + abs(twist) / 50 + abs(bend) / 50
        assert np.abs(together[number] - elastic_in_plane(spots, (x, y), twist)).max() < 1e-9 * scale
        assert np.abs(pulled[number] - out_of_plane(spots, x, (twist, bend))).max() < 1e-9 * scale
