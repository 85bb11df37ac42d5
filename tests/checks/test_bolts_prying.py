"""The T-stub: derived cases, plastic limit analysis by linear programming, and what a builder is told."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from structcheck.checks.basis import ULTIMATE, Basis
from structcheck.checks.bolts import BoltLoads, check_bolts
from structcheck.checks.bolts_prying import Flange, bending_stress, lengths, stub
from structcheck.checks.bolts_strength import prying_forces, tension_of_one
from structcheck.errors import InputError
from structcheck.standards.en1993_1_8 import tstub as clause
from tests.checks.bolt_parts import BASIS, answer, full, group, loads
from tests.printed import printed


# EN 1993-1-8:2005 6.2.4, flange of a 254 x 254 x 107 column, two M24 8.8 at 100 mm (derived; geometry recalled).
def test_the_column_flange_with_two_m24():
    """699.7 / 398.4 / 406.7 kN: mode 2 governs, with the non-circular length only."""
    m = clause.lever_from_root(100, 12.8, 12.7)
    flange = Flange(20.5, 265.0, m, min(75.0, (258.8 - 100) / 2))
    circular, other = clause.alone_circular(m), clause.alone_other(m, (258.8 - 100) / 2)
    bolts = 2 * tension_of_one(group(size="M24"), BASIS)
    made = stub(flange, (circular, other), bolts, 1, BASIS, A_s=353, bolt=0.0)
    assert made.resistance / 1e3 == printed("398.4")
    assert made.mode.startswith("mode 2")
    M_1 = clause.plastic_moment(min(circular, other), 20.5, 265, 1.0)
    assert clause.mode_1(M_1, 0.0, m) / 1e3 == printed("699.7")
    assert bolts / 1e3 == printed("406.7")
    # The circular length in mode 2 would not be the clause: it gives less here, and more with a wide edge.
    assert clause.mode_2(clause.plastic_moment(circular, 20.5, 265, 1.0), flange.n, bolts, m) < made.resistance


# EN 1993-1-8:2005 6.2.4, t 8, m 35, e 35, l_eff 120, two M16 8.8 (derived).
def test_a_thin_plate_yields_before_its_bolts():
    """60.3 / 105.6 / 180.9 kN: mode 1 governs."""
    bolts = 2 * tension_of_one(group(), BASIS)
    made = stub(Flange(8.0, 275.0, 35.0, 35.0), (120.0, 120.0), bolts, 1, BASIS, A_s=157, bolt=0.0)
    assert made.resistance / 1e3 == printed("60.3")
    assert made.mode.startswith("mode 1")
    assert clause.mode_2(clause.plastic_moment(120, 8, 275, 1.0), 35, bolts, 35) / 1e3 == printed("105.5")
    assert bolts / 1e3 == printed("180.9")


def test_long_bolts_do_not_let_the_plate_pry():
    """2 M_pl / m, half of mode 1: no shortcut to more resistance."""
    flange, bolts = Flange(8.0, 275.0, 35.0, 35.0), 180.9e3
    short = stub(flange, (120.0, 120.0), bolts, 1, BASIS, A_s=157, bolt=0.0)
    long = stub(flange, (120.0, 120.0), bolts, 1, BASIS, A_s=157, bolt=short.longest_bolt + 1)
    assert long.resistance == pytest.approx(short.resistance / 2)


def test_backing_plates_help_the_first_mode():
    """Table 6.2, method 1: 2 M_bp / m more."""
    gain = clause.mode_1(1e6, 5e5, 35.0) - clause.mode_1(1e6, 0.0, 35.0)
    assert gain == pytest.approx(2 * 5e5 / 35)


@settings(max_examples=40, deadline=None)
@given(st.floats(5, 40), st.floats(20, 60), st.floats(20, 60), st.floats(5e4, 3e5))
def test_the_modes_are_the_plastic_limit(t, m, e, bolts):
    """Half a T-stub as a strip: greatest force with moments at web and bolt within M_pl, the bolt within its strength.

    Unknown: force, bolt forces, prying, each of the whole stub; solved as a linear programme.
    """
    flange, l_eff = Flange(t, 275.0, m, e), 120.0
    made = stub(flange, (l_eff, l_eff), bolts, 1, BASIS, A_s=157, bolt=0.0)
    M, n = clause.plastic_moment(l_eff, t, 275, 1.0), flange.n
    # F - B + Q = 0; moment at the bolts Q n / 2, at the web (F m - Q n) / 2, of each half.
    solved = linprog(
        [-1, 0, 0],
        A_ub=[[0, 0, n / 2], [m / 2, 0, -n / 2], [-m / 2, 0, n / 2]],
        b_ub=[M, M, M],
        A_eq=[[1, -1, 1]],
        b_eq=[0],
        bounds=[(0, None), (0, bolts), (0, None)],
    )
    assert made.resistance == pytest.approx(-solved.fun, rel=1e-6)


def test_rows_far_apart_are_as_good_as_rows_alone_and_close_ones_share():
    """The group's lengths: never more than the sum of its rows, and less where they stand close."""
    flange = Flange(15.0, 235.0, 30.0, 35.0)
    alone = [sum(x) for x in zip(lengths(flange, (40.0, None), ()), lengths(flange, (None, 40.0), ()), strict=True)]
    close, far = lengths(flange, (40.0, 40.0), (60.0,)), lengths(flange, (40.0, 40.0), (400.0,))
    assert close[1] < alone[1] < far[1]
    assert close[1] == pytest.approx(40 + 60 + 40)  # a straight line across the whole plate


def test_a_row_between_two_free_ends_is_no_longer_than_the_plate():
    """A strip 60 mm long yields straight across."""
    assert lengths(Flange(15.0, 235.0, 50.0, 35.0), (30.0, 30.0), ())[1] == pytest.approx(60)


def test_prying_is_not_checked_until_its_lever_is_known():
    """Without `lever`, with one column, or with no pull at all."""
    pulled = loads(tension=20e3)
    assert "`lever` is not stated" in answer(full(), pulled)["prying"].reason
    assert "two columns" in answer(full(columns=1, gauge=None, lever=30.0), pulled)["prying"].reason
    assert answer(full(lever=30.0), pulled)["prying"].verdict == "holds"
    assert "prying" not in answer(full(lever=30.0), loads(shear=20e3))


def test_a_thinner_plate_pries_more_and_bears_less():
    """Resistance falls with the plate; the bolt feels the pull and half of it again at m = n."""
    thick, thin = full(lever=30.0, plate=15.0), full(lever=30.0, plate=6.0)
    pulled = loads(tension=20e3)
    assert answer(thin, pulled)["prying"].capacity.value < answer(thick, pulled)["prying"].capacity.value
    part = full(lever=30.0, edge=30.0)
    assert prying_forces(part, BoltLoads(ULTIMATE, tension=40e3)) == pytest.approx([5e3] * 4)


def test_a_bent_plate_is_held_to_yield_at_the_greatest_force():
    """The mechanism of mode 1 lies half as high again as first yield: yield governs at 1.25 against 1.5."""
    part = full(lever=30.0, plate=6.0)
    found = answer(part, loads(tension=20e3))
    assert found["yield at greatest force"].reason == "plate bent between bolts and web"
    assert found["yield at greatest force"].utilisation > found["prying"].utilisation


def test_a_long_grip_is_asked_for_or_assumed():
    """The grip up to which the plate pries is printed; a longer one stated lowers the resistance."""
    part = full(lever=30.0, plate=6.0)
    texts = [a.text for a in check_bolts(part, loads(tension=20e3), BASIS).assumptions]
    assert any("between head and nut are at most" in text for text in texts)
    long = replace(part, grip=2000.0)
    assert (
        answer(long, loads(tension=20e3))["prying"].utilisation
        > answer(part, loads(tension=20e3))["prying"].utilisation
    )


def test_basis_factors_reach_the_stub():
    """gamma_M0 on the plate."""
    flange = Flange(8.0, 275.0, 35.0, 35.0)
    plain = stub(flange, (120.0, 120.0), 1e6, 1, Basis(), A_s=157, bolt=0.0)
    factored = stub(flange, (120.0, 120.0), 1e6, 1, Basis(gamma_M0=1.1), A_s=157, bolt=0.0)
    assert factored.resistance == pytest.approx(plain.resistance / 1.1)


def test_a_head_needs_room_beside_the_weld():
    """A lever shorter than half the head is refused; one too short for a socket is advised against."""
    with pytest.raises(InputError, match="puts the head of M16 on the web's weld or root"):
        check_bolts(full(lever=10.0), loads(tension=1e3), BASIS)
    advice = check_bolts(full(lever=15.0), loads(tension=1e3), BASIS).advice
    assert any("a socket on M16" in text for text in advice)


def test_a_moment_across_the_web_counts_the_harder_pulled_side_twice():
    """5 kN a bolt and 0.625 more from the moment: 12.5 per cent more."""
    even, uneven = (answer(full(lever=30.0), loads(tension=20e3, bend_x=m))["prying"] for m in (0.0, 1e5))
    assert uneven.utilisation == pytest.approx(1.125 * even.utilisation)


def test_the_bent_width_of_a_plate_ends_at_its_edge():
    """Two rows 100 apart, 25 from the ends: 25 + 50 bends with each, not 100."""
    part = full(lever=30.0, pitch=100.0, end=25.0, edge=40.0)
    stress = bending_stress(part, BoltLoads(ULTIMATE, tension=40e3))
    assert stress == pytest.approx(6 * 10e3 * 30 / 2 / (75 * 10**2))


def test_a_backing_plate_helps_a_thin_plate():
    """Mode 1 grows by half of the backing plate's share; a thick plate, in mode 2, gains nothing."""
    pulled = loads(tension=20e3)
    thin, backed = full(lever=40.0, edge=60.0, plate=5.0), full(lever=40.0, edge=60.0, plate=5.0, backing=5.0)
    gain = answer(backed, pulled)["prying"].capacity.value / answer(thin, pulled)["prying"].capacity.value
    assert gain == pytest.approx(1.5)
