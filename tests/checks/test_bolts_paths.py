"""Bolts that fill no rows and columns: every zigzag the plate may part along, every block it may lose."""

import math
from itertools import combinations, pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.checks.basis import ULTIMATE
from structcheck.checks.bolts import BoltLoads, check_bolts
from structcheck.checks.bolts_group import in_plane
from structcheck.checks.bolts_paths import blocks_of, cut_along, zigzags
from structcheck.checks.bolts_plate import block_shares, block_tearing, net_section, net_shares, plate_stress
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
    cut = cut_along(ways, edges, np.ones((1, 3, 2)))
    widths = cut.crossing.net
    nets = {cut.crossing.ways.through(index): widths[index] / INCH for index in range(len(widths))}
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


def _sets(part, beside):
    """Every set of holes a line may run through from one side to the other, in order, and which bolts it is past."""
    x, y = part.positions.T
    for size in range(1, part.count + 1):
        for chosen in combinations(range(part.count), size):
            order = sorted(chosen, key=lambda i: x[i])
            if any(x[b] - x[a] < 1e-6 for a, b in pairwise(order)):
                continue
            steps = [(x[b] - x[a], y[b] - y[a]) for a, b in pairwise(order)]
            line = np.interp(x, x[order], y[order])
            others = [i for i in range(part.count) if i not in chosen]
            if beside and any(_clearance(part, order, i) < part.d_0 / 2 for i in others):
                continue
            yield order, steps, y >= line - 1e-6


def _clearance(part, order, hole):
    """From the middle of a hole to the line through others and straight on to the edges."""
    spots = part.positions[order]
    ends = [spots[0] - (1e4, 0.0), *spots, spots[-1] + (1e4, 0.0)]
    gaps = []
    for a, b in pairwise(ends):
        way = b - a
        along = np.clip((part.positions[hole] - a) @ way / (way @ way), 0.0, 1.0)
        gaps.append(math.dist(part.positions[hole], a + along * way))
    return min(gaps)


def _modulus_by_hand(part, order):
    """Of a strip across the plate less its holes, by fibres 0.1 mm wide."""
    x, wide = part.positions[:, 0], np.ptp(part.positions[:, 0]) + 2 * part.edge
    fibres = np.arange(-wide / 2 + 0.05, wide / 2, 0.1)
    middle = (x.max() + x.min()) / 2
    left = np.all([np.abs(fibres + middle - x[i]) > part.d_0 / 2 for i in order], axis=0)
    centre = fibres[left].mean()
    return float(np.sum((fibres[left] - centre) ** 2) * 0.1) / (wide / 2 + abs(centre))


def _net_by_hand(part, forces, beside=False):
    """Largest use over every set of holes: pull, bending about the ends of the line, and shear squared.

    beside  bolts push unlike: a line over a hole that it does not count is left out, and all are held from either side
    """
    x, y = part.positions.T
    f_y, f_u = part.steel.strengths(part.plate)
    wide, even = np.ptp(x) + 2 * part.edge, forces[:, 1].mean()
    middle = (x.max() + x.min()) / 2
    worst = 0.0
    for order, steps, past in _sets(part, beside):
        net = wide - len(order) * part.d_0 + sum(s**2 / (4 * p) for p, s in steps)
        bears = min(wide * f_y, 0.9 * net * f_u / 1.25) * part.plate
        share = abs(forces[past, 1].sum()) / bears
        if beside:
            if net > wide - 1e-6:
                continue
            moments = []
            for level in (y[order].min(), y[order].max()):
                turn = (x - middle) * (forces[:, 1] - even) - (y - level) * forces[:, 0]
                moments.append(abs(turn[past].sum()))
            share += max(moments) / (_modulus_by_hand(part, order) * part.plate * f_y)
            share = math.hypot(share, forces[past, 0].sum() / (net * part.plate * f_y / math.sqrt(3)))
        worst = max(worst, share)
    return worst


def _block_by_hand(part, pushes, eccentric):
    """Largest use over every set of holes, its block closed by lines to the end at both sides or one."""
    x, y = part.positions.T
    f_y, f_u = part.steel.strengths(part.plate)
    end, west, east = y.max() + part.end, x.min() - part.edge, x.max() + part.edge
    worst = 0.0
    for order, steps, ahead in _sets(part, False):
        middle = sum(p + s**2 / (4 * p) for p, s in steps)
        left, right = order[0], order[-1]
        for open_left, open_right in ((False, False), (True, False), (False, True)):
            if len(order) == 1 and not (open_left or open_right):
                continue
            within = ahead & (open_left | (x >= x[left] - 1e-6)) & (open_right | (x <= x[right] + 1e-6))
            holes = len(order) - 1 + 0.5 * (open_left or open_right)
            tension = middle + open_left * (x[left] - west) + open_right * (east - x[right]) - holes * part.d_0
            shear = 0.0
            for here, opened in ((left, open_left), (right, open_right)):
                on = np.sum((np.abs(x - x[here]) < 2 * part.d_0 - 1e-6) & (y > y[here] + 1e-6)) + 0.5
                shear += 0.0 if opened else end - y[here] - on * part.d_0
            factor = 0.5 if eccentric else 1.0
            bears = (factor * tension * f_u / 1.25 + shear * f_y / math.sqrt(3)) * part.plate
            push = pushes[within].sum()
            worst = max(worst, push / bears if bears > 0 else math.inf if push > 0 else 0.0)
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
    forces = np.tile((0.0, 90e3 / part.count), (part.count, 1))
    by_hand = _block_by_hand(part, forces[:, 1], False)
    assert block_tearing(part, load, BASIS).utilisation == pytest.approx(by_hand)
    if len(mirrored) <= 9:
        assert net_section(part, load, BASIS).utilisation == pytest.approx(_net_by_hand(part, forces))


@settings(max_examples=40, deadline=None)
@given(
    st.integers(1, 4),
    st.integers(1, 3),
    st.integers(44, 90),
    st.integers(44, 120),
    st.integers(22, 70),
    st.integers(22, 70),
    st.integers(-400, 400),
)
def test_no_path_is_missed_in_rows_and_columns_beside_their_centre(rows, columns, pitch, gauge, end, edge, off):
    """The same of full patterns pushed beside their centre, where a slanting line may be the worst."""
    part = full(rows=rows, columns=columns, pitch=pitch, gauge=gauge, end=end, edge=edge, plate_runs="along")
    if part.count == 1 or not off:
        return
    load = BoltLoads(ULTIMATE, 30e3, float(off))
    forces = in_plane(part, load)
    assert block_tearing(part, load, BASIS).utilisation == pytest.approx(_block_by_hand(part, forces[:, 1], True))
    assert net_section(part, load, BASIS).utilisation == pytest.approx(_net_by_hand(part, forces, True), rel=2e-3)


def test_a_slanting_line_may_tear_a_full_pattern_pushed_beside_its_centre():
    """Three by three, 176 mm beside: the hardest pushed column leaves with the upper part of its neighbour's."""
    keys = {"rows": 3, "columns": 3, "pitch": 72.0, "gauge": 74.0, "end": 50.0, "edge": 24.0, "plate_runs": "along"}
    part, load = full(**keys), BoltLoads(ULTIMATE, 50e3, 176.0)
    found = block_tearing(part, load, BASIS)
    assert found.reason == "5 bolts, tension to one edge"
    rows = blocks_of(zigzags(part, True, 1.0, even=True), (-98.0, 98.0), 122.0)
    bears = (0.5 * rows.tension * 410 / 1.25 + rows.shear * 275 / math.sqrt(3)) * 10
    straight = (rows.within @ in_plane(part, load)[:, 1] / bears).max()
    assert found.utilisation > 1.05 * straight


@settings(max_examples=25, deadline=None)
@given(layouts, st.lists(st.tuples(st.floats(-1, 1), st.floats(-1, 1), st.floats(-1, 1)), min_size=2, max_size=5))
def test_loads_judged_at_once_are_used_as_one_by_one(spots, pushes):
    """What is looked at to find the load that governs is what each load alone would use."""
    for part in (free(spots), full(), free(spots, plate_runs="across")):
        cases = [BoltLoads(ULTIMATE, 3e4 * y, across=3e4 * x, twist=2e6 * turn) for x, y, turn in pushes]
        cases = [load for load in cases if load.sheared and load.force]
        if not cases:
            continue
        for at_once, judge in ((net_shares, net_section), (block_shares, block_tearing)):
            alone = [judge(part, load, BASIS).utilisation for load in cases]
            assert at_once(part, cases, BASIS) == pytest.approx(alone), judge


def test_slots_draw_the_holes_of_a_zigzag_out():
    """A slot 22 x 18 across takes 22 from the width; one along takes its 4 mm off s."""
    spots = ((0.0, 0.0), (60.0, 40.0), (120.0, 0.0))
    across = answer(free(spots, slot="short across", edge=40.0), loads(60e3))["net section"]
    assert across.reason == "through 3 holes, 2 steps slanting, plate along the force"
    net = 200 - 3 * 22 + 2 * 40**2 / (4 * 60)
    assert across.capacity.as_dict()["value"] == pytest.approx(0.9 * net * 10 * 410 / 1.25 / 1e3)
    along = answer(free(spots, slot="short along", end=40.0, edge=40.0), loads(60e3))["net section"]
    net = 200 - 3 * 18 + 2 * (40 - 4) ** 2 / (4 * 60)
    assert along.capacity.as_dict()["value"] == pytest.approx(0.9 * net * 10 * 410 / 1.25 / 1e3)


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
    """Eighteen bolts each on a line of their own: no block rather than half of them; of the lines across the plate
    those whose slants outweigh their holes need no trying."""
    spots = [(20.0 * i, 45.0 * (i % 4)) for i in range(18)]
    part = free(spots)
    with pytest.raises(NotCovered, match="zigzag lines run through these 18 holes"):
        zigzags(part, True, 1.0)
    found = answer(part, loads(20e3))
    assert found["block tearing"].verdict == "not checked"
    assert found["net section"].verdict == "holds"
    found = answer(free([(x, 44.0 * (i % 8)) for i, x in enumerate(range(0, 600, 15))]), loads(20e3))
    assert "zigzag lines run through these 40 holes" in found["net section"].reason


@settings(max_examples=30, deadline=None)
@given(layouts, st.floats(-1, 1), st.floats(-1, 1), st.booleans())
def test_lines_that_need_no_trying_are_none_of_the_worst(spots, across, turn, along):
    """Every zigzag tried, and only those that may part the plate: the same lines are left."""
    part = free(spots)
    edges = (part.positions[:, 0 if along else 1].min() - 35.0, part.positions[:, 0 if along else 1].max() + 35.0)
    forces = in_plane(part, BoltLoads(ULTIMATE, 3e4, across=3e4 * across, twist=2e6 * turn))[None]
    every, few = (cut_along(zigzags(part, along, 1.0, whole=whole), edges, forces) for whole in (False, True))
    for of in ("N", "V", "M"):
        whole, part_of = (np.sort(getattr(cut, of)[0] / cut.crossing.net) for cut in (every, few))
        assert part_of == pytest.approx(whole)


def test_distances_not_stated_are_not_passed():
    """Without the edge neither the width nor a block is known."""
    found = {f.check: f for f in check_bolts(free(STAGGER, edge=None), loads(20e3), BASIS).findings}
    assert found["net section"].verdict == found["block tearing"].verdict == "not checked"
