"""Bolts that fill no rows and columns: every zigzag the plate may part along, every block it may lose."""

import math
from itertools import combinations, pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.checks.basis import ULTIMATE
from structcheck.checks.bolts import BoltLoads, check_bolts
from structcheck.checks.bolts_paths import cut_along, zigzags
from structcheck.checks.bolts_plate import block_tearing, net_section, plate_stress
from structcheck.errors import NotCovered
from tests.checks.bolt_parts import BASIS, answer, full, group, loads

INCH = 25.4
STAGGER = ((0.0, 0.0), (40.0, 35.0), (80.0, 0.0))


def free(spots, **keys):
    """Bolts at these spots in a plate with 35 mm to the end and 30 mm to the edge."""
    return group(**({"layout": tuple(spots), "end": 35.0, "edge": 30.0} | keys))


# The three-hole plate of structural steel textbooks (McCormac, Structural Steel Design, net areas with stagger): 11 in
# wide, holes of 7/8 in, gauge 3 in, stagger 3 in; net widths of 9.25, 9.125 and 9.625 in (memory).
@pytest.mark.parametrize(("through", "width"), [((0, 1), 9.25), ((0, 1, 2), 9.125), ((0, 2), 9.625)])
def test_the_net_widths_of_the_textbooks_plate(through, width):
    """Two holes in line; three with one step slanting; two with one long step. The second governs."""
    spots = [(x * INCH, y * INCH) for x, y in ((2.5, 3.0), (5.5, 3.0), (8.5, 0.0))]
    part = free(spots, hole=0.875 * INCH, edge=2.5 * INCH)
    ways = zigzags(part, True, 1.0)
    edges = -2.5 * INCH + part.positions[:, 0].min(), 2.5 * INCH + part.positions[:, 0].max()
    cut = cut_along(ways, edges, np.ones((3, 2)))
    nets = {ways.through(index): cut.net[index] / INCH for index in range(len(cut.net))}
    assert nets[through] == pytest.approx(width)
    assert min(nets.values()) == pytest.approx(9.125)


# EN 1993-1-1:2005 6.2.2.2, as CS-18 of the reference cases (derived): 200 x 12, s 40, p 60, holes of 22.
def test_three_on_a_zigzag_weigh_more_than_two_in_line():
    """1768 mm2 against 1872: 0.9 x 1768 x 410 / 1.25 = 521.9 kN."""
    spots = ((0.0, 0.0), (60.0, 40.0), (120.0, 0.0))
    part = free(spots, size="M20", plate=12.0, edge=40.0, end=60.0)
    finding = answer(part, loads(shear=100e3))["net section"]
    assert finding.capacity.as_dict()["value"] == pytest.approx(0.9 * 1768.0 * 410 / 1.25 / 1e3)
    assert finding.reason == "through 3 holes, 2 steps slanting, plate along the force"
    assert finding.source == "EN 1993-1-1:2005 6.2.3(2), 6.2.2.2(4)"


def test_a_stagger_grows_from_a_row_to_lines_of_their_own():
    """No stagger is the row; a long one leaves the straight lines, each with the bolts that pull through it."""
    row = answer(free(((0.0, 0.0), (50.0, 0.0), (100.0, 0.0))), loads(60e3))["net section"].utilisation
    near = answer(free(((0.0, 0.0), (50.0, 0.01), (100.0, 0.0))), loads(60e3))["net section"].utilisation
    far = answer(free(((0.0, 0.0), (50.0, 300.0), (100.0, 0.0))), loads(60e3))["net section"]
    assert near == pytest.approx(row, rel=1e-4)
    assert far.utilisation == pytest.approx(90e3 / (0.9 * (160 - 36) * 10 * 430 / 1.25), rel=0.06)
    assert far.reason == "through 2 holes, plate along the force"


def _net_by_hand(part, force):
    """Largest use over every set of holes, its path interpolated; a plain pull, both sides of the plate alike."""
    x, y = part.positions.T
    f_y, f_u = part.steel.strengths(part.plate)
    wide = np.ptp(x) + 2 * part.edge
    worst = 0.0
    for size in range(1, part.count + 1):
        for chosen in combinations(range(part.count), size):
            order = sorted(chosen, key=lambda i: x[i])
            steps = [(x[b] - x[a], y[b] - y[a]) for a, b in pairwise(order)]
            if any(p < 1e-6 for p, _ in steps):
                continue
            past = np.sum(y >= np.interp(x, x[order], y[order]) - 1e-6)
            net = wide - size * part.d_0 + sum(s**2 / (4 * p) for p, s in steps)
            bears = min(wide * f_y, 0.9 * net * f_u / 1.25) * part.plate
            worst = max(worst, past / part.count * force / bears)
    return worst


def _block_by_hand(part, force, eccentric):
    """Largest use over every set of holes, its block closed by lines to the end at both sides or one."""
    x, y = part.positions.T
    f_y, f_u = part.steel.strengths(part.plate)
    end, west, east = y.max() + part.end, x.min() - part.edge, x.max() + part.edge
    worst = 0.0
    for size in range(1, part.count + 1):
        for chosen in combinations(range(part.count), size):
            order = sorted(chosen, key=lambda i: x[i])
            gaps = list(pairwise(order))
            if any(x[b] - x[a] < 1e-6 for a, b in gaps):
                continue
            middle = sum(x[b] - x[a] + (y[b] - y[a]) ** 2 / (4 * (x[b] - x[a])) for a, b in gaps)
            ahead = y >= np.interp(x, x[order], y[order]) - 1e-6
            left, right = order[0], order[-1]
            for open_left, open_right in ((False, False), (True, False), (False, True)):
                if size == 1 and not (open_left or open_right):
                    continue
                within = ahead & (open_left | (x >= x[left] - 1e-6)) & (open_right | (x <= x[right] + 1e-6))
                holes = size - 1 + 0.5 * (open_left or open_right)
                tension = middle + open_left * (x[left] - west) + open_right * (east - x[right]) - holes * part.d_0
                shear = 0.0
                for here, opened in ((left, open_left), (right, open_right)):
                    on = np.sum((np.abs(x - x[here]) < 2 * part.d_0 - 1e-6) & (y > y[here] + 1e-6)) + 0.5
                    shear += 0.0 if opened else end - y[here] - on * part.d_0
                factor = 0.5 if eccentric else 1.0
                bears = (factor * tension * f_u / 1.25 + shear * f_y / math.sqrt(3)) * part.plate
                worst = max(worst, np.sum(within) / part.count * force / bears if bears > 0 else math.inf)
    return worst


def _apart(spots, least=40.0):
    return all(math.dist(a, b) >= least for a, b in combinations(spots, 2))


coordinate = st.integers(0, 12).map(lambda n: 20.0 * n)
layouts = st.lists(st.tuples(coordinate, coordinate), min_size=2, max_size=7, unique=True).filter(_apart)


@settings(max_examples=60, deadline=None)
@given(layouts)
def test_no_path_is_missed(spots):
    """Every set of holes tried apart finds no zigzag and no block worse than the ones answered."""
    mirrored = {(x, y) for x, y in spots} | {(-80.0 - x, y) for x, y in spots}
    part = free(sorted(mirrored)[:9] if len(mirrored) <= 9 else spots)
    if part.lines is not None:
        return
    load = BoltLoads(ULTIMATE, 90e3)
    assert block_tearing(part, load, BASIS).utilisation == pytest.approx(_block_by_hand(part, 90e3, False))
    if len(mirrored) <= 9:
        assert net_section(part, load, BASIS).utilisation == pytest.approx(_net_by_hand(part, 90e3))


class _Untidy(type(full())):
    """Rows and columns taken for bolts at any places."""

    lines = None


@settings(max_examples=40, deadline=None)
@given(
    st.integers(1, 4), st.integers(2, 3), st.floats(40, 90), st.floats(44, 120), st.floats(22, 70), st.floats(22, 70)
)
def test_rows_and_columns_part_along_straight_lines(rows, columns, pitch, gauge, end, edge):
    """Traced as zigzags, a full pattern under a plain pull gives what its rows give."""
    part = full(rows=rows, columns=columns, pitch=pitch, gauge=gauge, end=end, edge=edge)
    untidy = _Untidy(**{key: getattr(part, key) for key in part.__dataclass_fields__})
    for sign in (1.0, -1.0):
        load = BoltLoads(ULTIMATE, sign * 50e3)
        for judge in (net_section, block_tearing):
            assert judge(untidy, load, BASIS).utilisation == pytest.approx(judge(part, load, BASIS).utilisation)
        assert plate_stress(untidy, load) == pytest.approx(plate_stress(part, load))


def test_beside_the_centre_half_the_tension_counts_and_the_moment_bends_the_zigzag():
    """3.10.2(3); and the same force beside the centre never uses the plate less."""
    part = free(STAGGER, plate_runs="along")
    straight, beside = answer(part, loads(40e3)), answer(part, loads(40e3, 60.0))
    assert beside["block tearing"].source == "EN 1993-1-8:2005 3.10.2(3)"
    for check in ("net section", "block tearing", "yield at greatest force"):
        assert beside[check].utilisation > straight[check].utilisation, check


@settings(max_examples=30, deadline=None)
@given(layouts, st.floats(-100, 100), st.floats(1.0, 3.0))
def test_mirrored_joints_are_alike_and_utilisation_grows_in_step(spots, eccentricity, more):
    """Mirrored with its load the plate is worked alike; actions times s give s times the use."""
    part = free(spots, plate_runs="across")
    other = free([(-x, y) for x, y in spots], plate_runs="across")
    one, mirrored = (
        BoltLoads(ULTIMATE, 20e3, eccentricity, across=5e3),
        BoltLoads(ULTIMATE, 20e3, -eccentricity, across=-5e3),
    )
    heavier = BoltLoads(ULTIMATE, 20e3 * more, eccentricity, across=5e3 * more)
    for judge in (net_section, block_tearing):
        here = judge(part, one, BASIS).utilisation
        assert judge(other, mirrored, BASIS).utilisation == pytest.approx(here, rel=1e-6)
        assert judge(part, heavier, BASIS).utilisation == pytest.approx(here * more, rel=1e-6)


def test_category_c_is_held_to_yield_of_the_zigzag():
    """6.2.3(4) on the staggered net area."""
    part = free(STAGGER, category="C")
    finding = answer(part, loads(40e3))["net section"]
    net = 140 - 3 * 18 + 2 * 35**2 / (4 * 40)
    assert finding.source == "EN 1993-1-1:2005 6.2.3(4), 6.2.2.2(4)"
    assert finding.capacity.as_dict()["value"] == pytest.approx(net * 10 * 275 / 1e3)


def test_every_check_of_a_staggered_group_is_done():
    """Nothing stays open for the stagger, fatigue of the plate included."""
    found = answer(free(STAGGER, thread="out"), loads(20e3))
    assert {finding.verdict for finding in found.values()} == {"holds"}


def test_too_many_paths_are_not_checked():
    """Eighteen bolts each on a line of their own: no answer rather than half of one."""
    spots = [(20.0 * i, 45.0 * (i % 4)) for i in range(18)]
    part = free(spots)
    with pytest.raises(NotCovered, match="zigzag lines run through these 18 holes"):
        zigzags(part, True, 1.0)
    found = answer(part, loads(20e3))
    assert found["net section"].verdict == found["block tearing"].verdict == "not checked"


def test_distances_not_stated_are_not_passed():
    """Without the edge neither the width nor a block is known."""
    found = {f.check: f for f in check_bolts(free(STAGGER, edge=None), loads(20e3), BASIS).findings}
    assert found["net section"].verdict == found["block tearing"].verdict == "not checked"
