"""What stands behind an end plate: flange and web of an I, the whole joint, bearing and fatigue."""

import math
from dataclasses import replace

import pytest
from scipy.optimize import linprog

from structcheck.checks.basis import Basis
from structcheck.checks.bolts_end_plate import NEEDED, on_joint, on_part_behind, on_web_behind, rows_of_joint
from structcheck.checks.bolts_prying import Flange, beside_stiffener
from structcheck.checks.end_plate_rows import AtLimit, on_plate
from structcheck.checks.web_resistance import Stiffeners
from structcheck.materials.bolts import find_class
from structcheck.shapes.rolled import RolledI
from tests.checks.end_plate_parts import BASIS, CORNER, EXTENDED, HEA, S235, answer, rows, supported
from tests.printed import printed

# HEA 140: t_w 5.5, t_f 8.5, r 12, A 31.42 cm2 (section tables, memory); A_vc = A - 2 b t_f + (t_w + 2 r) t_f.
A_VC = 3142 - 2 * 140 * 8.5 + (5.5 + 24) * 8.5
F_T = 0.9 * 800 * 157 / 1.25


def omega(b_eff):
    """EN 1993-1-8 Table 6.3, beta = 1 (memory)."""
    return 1 / math.sqrt(1 + 1.3 * (b_eff * 5.5 / A_VC) ** 2)


# EN 1993-1-8:2005 6.2.6.1 to 6.2.6.4 (memory), by hand (derived).
def test_the_flange_behind_by_hand():
    """m 25.65, e 32: mode 2 against mode 1 for a row, and for both rows 70 apart."""
    m, e, n, t = 25.65, 32.0, min(32.0, 1.25 * 25.65), 8.5
    alone, both = min(4 * m + 1.25 * e, 2 * math.pi * m), min(4 * m + 1.25 * e + 70, 2 * math.pi * m + 140)

    def stub(length, bolts):
        M = 0.25 * length * t**2 * 235
        return min(4 * M / m, (2 * M + n * bolts) / (m + n), bolts)

    found = rows(CORNER, on_part_behind)
    assert found.forces[0] == pytest.approx(stub(alone, 2 * F_T))
    assert sum(found.forces) == pytest.approx(stub(both, 4 * F_T))
    assert found.limits[0] == "mode 1, the flange behind yields"


def test_the_web_behind_by_hand():
    """Pulled over the effective lengths of the flange, pressed over (6.11), sheared as a panel (6.7)."""
    alone = min(4 * 25.65 + 1.25 * 32, 2 * math.pi * 25.65)
    pulled = omega(alone) * alone * 5.5 * 235
    s_p = 15 + min(25 - 4 * math.sqrt(2), 15)
    b_eff = 7.4 + 2 * math.sqrt(2) * 4 + 5 * (8.5 + 12) + s_p
    slender = 0.932 * math.sqrt(b_eff * 92 * 235 / (210e3 * 5.5**2))
    rho = 1.0 if slender <= 0.72 else (slender - 0.2) / slender**2
    pressed = omega(b_eff) * rho * b_eff * 5.5 * 235
    panel = 0.9 * 235 * A_VC / math.sqrt(3)
    found = rows(CORNER, on_web_behind)
    assert found.forces[0] == pytest.approx(min(pulled, pressed, panel), rel=1e-3)
    assert sum(found.forces) == pytest.approx(min(pressed, panel), rel=1e-3)
    assert panel / 1e3 == printed("123.7")


def test_the_joint_bears_no_more_than_the_least_of_its_parts_in_each_row():
    """Row by row the least of plate, flange and webs; so its moment is at most the least of theirs."""
    for part in (CORNER, EXTENDED):
        parts = [rows(part, judge) for judge in (on_plate, on_part_behind, on_web_behind)]
        whole = rows(part, on_joint)
        assert whole.moment <= min(one.moment for one in parts) * (1 + 1e-9)
        assert whole.forces[0] == pytest.approx(min(one.forces[0] for one in parts))
        assert whole == rows_of_joint(part, BASIS)


@pytest.mark.parametrize("part", [CORNER, EXTENDED, replace(EXTENDED, plate=10.0, rows=(205.0, 115.0, 85.0, 45.0))])
def test_the_moment_is_the_greatest_that_rows_and_groups_allow(part):
    """Row forces as a linear programme under every group, alone and together, and every sum (derived)."""
    bearing, levers = on_joint(part, AtLimit(), BASIS), [row - part.centre for row in part.heights]
    count = len(levers)
    most, limits = [], []
    for group in bearing.groups:
        for first in range(count):
            for last in range(first, count):
                if (made := group(first, last)) is not None:
                    most.append([float(first <= row <= last) for row in range(count)])
                    limits.append(made[0])
    for force, _ in bearing.sums:
        most.append([1.0] * count)
        limits.append(force)
    solved = linprog([-lever for lever in levers], A_ub=most, b_ub=limits, bounds=(0, None))
    assert rows(part, on_joint).moment == pytest.approx(-solved.fun, rel=1e-6)


def test_every_check_is_done_where_all_is_described():
    """Nothing owed; the whole joint is used no less than any part of it."""
    found = answer(CORNER, 2e6, shear=20e3)
    assert set(found) == set(NEEDED)
    assert {f.verdict for f in found.values()} == {"holds"}
    for check in NEEDED[:3]:
        assert found["moment of the joint"].utilisation >= found[check].utilisation - 1e-12


def test_all_of_it_grows_in_step_with_the_actions():
    """Doubled actions, pressing stress and shear of the beam included, use twice as much."""
    for one, two in (((3e6, 10e3, 50e3, 60.0), (6e6, 20e3, 100e3, 120.0)), ((1e6, 0, 0, 100.0), (2e6, 0, 0, 200.0))):
        first, second = answer(CORNER, *one), answer(CORNER, *two)
        for check in NEEDED[:-1]:
            assert second[check].utilisation == pytest.approx(2 * first[check].utilisation), check


def test_moment_and_pull_add_up():
    """EN 1993-1-8 6.2.7.1(3) (memory): the shares of moment and of pull, for each alone, in sum."""
    moment, pull = (answer(CORNER, *given)["moment of the joint"].utilisation for given in ((2e6, 0), (0, 20e3)))
    assert answer(CORNER, 2e6, 20e3)["moment of the joint"].utilisation == pytest.approx(moment + pull)


def test_pressing_along_the_member_weakens_its_web():
    """k_wc = 1.7 - n from n = 0.7 on (6.14); where nobody states the stress it is taken as yielding."""
    free, some, all_of = (on_web_behind(CORNER, AtLimit(n), BASIS).sums[0][0] for n in (0.7, 0.9, 1.0))
    assert (some / free, all_of / free) == pytest.approx((0.8, 0.7))
    unknown = answer(CORNER, 2e6, pressed=None)["web behind the end plate"]
    assert unknown.utilisation == pytest.approx(
        answer(CORNER, 2e6, pressed=1e4)["web behind the end plate"].utilisation
    )
    assert unknown.utilisation > answer(CORNER, 2e6)["web behind the end plate"].utilisation


def test_an_end_near_by_weakens_flange_and_web():
    """A row near the member's end, and a web pressed near it, bear less; far from it as if it went on."""
    far, near, none = (supported(CORNER, past=past) for past in (400.0, 20.0, None))
    assert rows(far, on_joint).forces == pytest.approx(rows(none, on_joint).forces)
    pressed = [on_web_behind(part, AtLimit(), BASIS).sums[0][0] for part in (near, far)]
    assert pressed[0] < pressed[1]
    top = replace(supported(CORNER, past=5.0), rows=(140.0, 45.0), top=165.0, past=5.0)
    assert rows(top, on_part_behind).forces[0] < rows(supported(top, past=400.0), on_part_behind).forces[0]


def test_stiffeners_bear_what_is_pressed_and_part_the_rows():
    """The web pressed no longer governs; the flange is held beside them, no group runs across (Table 6.5)."""
    pair = Stiffeners(60.0, 10.0)
    slim = replace(CORNER, plate=10.0, past=0.0)
    bare, held = (on_web_behind(p, AtLimit(), BASIS).sums[0][0] for p in (slim, supported(slim, stiffeners=pair)))
    assert held > bare
    open_, parted = rows(EXTENDED, on_part_behind), rows(supported(EXTENDED, stiffeners=pair), on_part_behind)
    assert parted.forces[0] > open_.forces[0]
    assert parted.moment > open_.moment
    # The row 45 below the flange's middle, 40 clear of a flat 10 thick; M 8.5 mm, S235, mode 1 (derived).
    gain = beside_stiffener(Flange(8.5, 235.0, 25.65, 32.0), 160 - 3.7 - 115 - 5)
    length = min(4 * 25.65 + 1.25 * 32 + gain, 2 * math.pi * 25.65)
    made = rows(supported(CORNER, stiffeners=pair), on_part_behind).forces[0]
    assert made == pytest.approx(length * 8.5**2 * 235 / 25.65)


def test_a_slender_panel_is_not_checked():
    """6.2.6.1(1): beyond d / t_w = 69 epsilon its shear is not known."""
    slender = replace(HEA, geometry=RolledI(h=800.0, b=140.0, tw=5.5, tf=8.5, r=12.0))
    found = answer(supported(CORNER, section=slender), 2e6)
    assert found["web behind the end plate"].verdict == "not checked"
    assert "69 epsilon" in found["web behind the end plate"].reason
    assert found["moment of the joint"].verdict == "not checked"


def test_a_flange_by_numbers_leaves_its_web_open():
    """Thickness, lever and edge judge the flange; the web and the whole joint are no pass."""
    found = answer(replace(CORNER, support=None), 2e6)
    assert found["part behind the end plate"].verdict == "holds"
    assert found["web behind the end plate"].verdict == found["moment of the joint"].verdict == "not checked"
    assert "web behind not judged" in found["yield at greatest force"].reason


# EN 1993-1-8:2005 6.2.6.7 (memory): M_c,Rd / (h - t_f); IPE 160 W_pl 123.9 cm3 (section tables, memory).
def test_the_beam_s_flange_and_web_in_compression():
    """123.9 x 235 / 152.6 kN; in high shear the web's share of it goes, at the plastic one all of it (6.2.8)."""
    free, half, high, sheared = (on_plate(CORNER, AtLimit(0.0, s), BASIS).sums[0][0] for s in (0.0, 0.5, 0.75, 1.0))
    assert free == pytest.approx(123.9e3 * 235 / 152.6, rel=1e-3)
    assert half == free
    assert high == pytest.approx(free - 0.25 * (free - sheared))
    assert sheared == pytest.approx(82 * 7.4 * 235)


def test_a_deep_beam_s_web_counts_for_a_fifth():
    """6.2.6.7(1), beyond 600 mm: the flange alone over 0.8."""
    deep = RolledI(h=700.0, b=150.0, tw=12.0, tf=10.0, r=15.0)
    part = replace(
        CORNER, beam=replace(HEA, geometry=deep), depth=700.0, flange=10.0, flange_width=150.0, rows=(600.0,)
    )
    assert on_plate(part, AtLimit(), BASIS).sums[0][0] == pytest.approx(150 * 10 * 235 / 0.8)


def test_bearing_by_hand():
    """Flange 8.5: alpha_b from the pitch 70 / 54 - 1/4 capped at 1, k_1 from the edge 32 (Table 3.4, derived)."""
    found = answer(CORNER, 1e6, shear=20e3)["bearing"]
    k_1 = min(2.8 * 32 / 18 - 1.7, 1.4 * 76 / 18 - 1.7, 2.5)
    assert found.capacity.value == pytest.approx(k_1 * 1.0 * 360 * 16 * 8.5 / 1.25)
    assert found.demand.value == pytest.approx(20e3 * 1.5 / 4)
    near = answer(supported(CORNER, past=-45.0), 1e6, shear=20e3)["bearing"]
    assert near.capacity.value < found.capacity.value


# EN 1993-1-9:2005 Table 8.1, category 50 on the stress area with prying (memory); elastic bounds derived.
def test_fatigue_of_the_bolts_by_hand():
    """The upper row takes M / 111.3 mm; half to each bolt, and Q = F m / (2 n) on top."""
    thick = replace(CORNER, plate=60.0, behind=60.0)
    found = answer(thick, 1e6, basis=Basis(presses=2e6))["fatigue"]
    m, n = 38 - 2.5 - 0.8 * 4 * math.sqrt(2), 32.0
    assert found.demand.value == pytest.approx(1e6 / 111.3 / 2 * (1 + m / (2 * n)) / 157)
    assert found.capacity.value == pytest.approx(50 / 1.35)
    assert found.reason.startswith("bolt in tension")


def test_rows_on_both_sides_of_the_flange_share_in_fatigue():
    """The row past the flange no longer bears the moment alone."""
    alone = replace(EXTENDED, rows=(205.0,), plate=60.0, behind=60.0)
    pair = replace(EXTENDED, plate=60.0, behind=60.0)
    one, two = (answer(p, 1e6, basis=Basis(presses=2e6))["fatigue"].demand.value for p in (alone, pair))
    assert two < one
    assert two / one == pytest.approx(201.3**2 / (201.3**2 + 111.3**2))


def test_a_thin_plate_cracks_before_its_bolts():
    """6 mm of plate bend between bolt and web, at the toe or the hole."""
    thin = answer(replace(CORNER, plate=6.0), 1e6)["fatigue"]
    assert thin.reason.startswith(("plate with holes", "transverse attachment"))
    assert thin.utilisation > answer(CORNER, 1e6)["fatigue"].utilisation


def test_fatigue_turned_off_is_said_and_unknown_is_no_pass():
    """static = true gives a reason; a member behind that is not described leaves fatigue open."""
    assert answer(replace(CORNER, support=None, behind=None), 1e6)["fatigue"].verdict == "not checked"
    assert "fatigue" not in answer(CORNER, 1e6, basis=Basis(static=True))


def test_more_material_never_bears_less():
    """Thicker flange and web behind, thicker plate, stronger bolts."""
    base = rows(CORNER, on_joint).moment
    thick = replace(HEA, geometry=RolledI(h=140.0, b=140.0, tw=7.0, tf=12.0, r=12.0))
    for part in (
        supported(replace(CORNER, behind=12.0), section=thick),
        replace(CORNER, plate=20.0),
        replace(CORNER, bolt_class=find_class("10.9")),
        replace(CORNER, support=replace(CORNER.support, steel=S235)),
    ):
        assert rows(part, on_joint).moment >= base * (1 - 1e-9)
