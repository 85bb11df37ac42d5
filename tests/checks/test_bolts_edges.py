"""Bolts that stand nearer one edge of their plate than the other."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.checks.basis import ULTIMATE
from structcheck.checks.bolts import BoltLoads
from structcheck.checks.bolts_group import NORTH
from structcheck.checks.bolts_plate import zigzag_cuts
from structcheck.checks.bolts_strength import bearing_of
from tests.checks.bolt_parts import BASIS, answer, full, loads


def test_each_edge_counts_for_the_bolts_it_holds():
    """25 mm on the left, 60 on the right: bearing by each bolt's own edge, the net section wider and pulled askew."""
    part = full(edge=60.0, far_edge=25.0)
    left, right = (bearing_of(part, index, NORTH, BASIS)[0] for index in (0, 1))
    assert left == bearing_of(full(edge=25.0), 0, NORTH, BASIS)[0]
    assert right == bearing_of(full(edge=60.0), 1, NORTH, BASIS)[0]
    ((_, cut, _),) = zigzag_cuts(part, [BoltLoads(ULTIMATE, 30e3)])
    assert cut.crossing.length == 25 + 80 + 60
    assert abs(cut.M).max() == pytest.approx(30e3 * (60 - 25) / 2)
    assert answer(part, loads(shear=30e3))["bolt spacing"].reason.startswith("`far_edge`")
    assert full(edge=60.0, far_edge=25.0, lever=30.0).nearer_edge == 25.0


@settings(max_examples=25, deadline=None)
@given(st.floats(22, 60), st.floats(22, 60), st.floats(-100, 100), st.floats(-10e3, 10e3))
def test_a_plate_turned_round_with_its_edges_is_worked_alike(edge, far_edge, eccentricity, across):
    """Mirrored with its load, the two edges changing places."""
    way = {"plate_runs": "along"}
    one = answer(full(edge=edge, far_edge=far_edge, **way), loads(20e3, eccentricity, across=across))
    other = answer(full(edge=far_edge, far_edge=edge, **way), loads(20e3, -eccentricity, across=-across))
    for check in ("bolt bearing", "net section", "block tearing", "yield at greatest force"):
        assert other[check].utilisation == pytest.approx(one[check].utilisation), check
