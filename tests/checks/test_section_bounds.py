"""Of many stations only those that can govern are judged one by one: the answer is that of judging them all."""

from unittest.mock import patch

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.checks import section_resistance
from structcheck.checks.basis import Basis, Case
from structcheck.checks.member_interaction import bending_shear_factor
from structcheck.checks.member_stress import least_second_order_factor, second_order_factor
from structcheck.checks.section_resistance import Station, check_member_section
from structcheck.materials.steels import find_steel
from structcheck.shapes.library import look_up

SIZES = ("IPE 160", "HEB 120", "SHS 80x80x5", "RHS 100x60x4", "CHS 114.3x5", "FL 80x10", "UPN 120", "RHS 200x100x4")

shares = st.integers(-9, 9).map(lambda tenths: tenths / 10)
stations = st.lists(st.tuples(shares, shares, shares, shares, shares), min_size=3, max_size=9)


def judged(section, rows):
    """Utilisation and verdict by check."""
    outcome = check_member_section("part", section, find_steel("S235", route=section.route), 1, rows, Basis())
    return {f.check: (f.verdict, f.utilisation) for f in outcome.findings}


@pytest.mark.parametrize("size", SIZES)
@given(rows=stations, twist=st.booleans())
@settings(deadline=None, max_examples=25)
def test_all_stations_at_once_are_as_bad_as_the_worst_of_them(size, rows, twist):
    """Whatever forces meet, and with torsion where the wall is closed."""
    section = look_up(size).section
    closed = not size.startswith(("IPE", "HEB", "UPN"))
    made = [
        Station(
            Case(f"case {number}", "ultimate"),
            f"x = {number} mm",
            N=n * section.A * 235,
            V_y=v_y * section.Avy * 135,
            V_z=v_z * section.Avz * 135,
            T=0.2 * v_z * section.Wt * 135 if closed and twist else 0.0,
            M_y=m_y * section.Wel_y * 235,
            M_z=m_z * section.Wel_z * 235,
        )
        for number, (n, v_y, v_z, m_y, m_z) in enumerate(rows)
    ]
    few = judged(section, made)
    with patch.object(section_resistance, "greatest_utilisations", return_value=None):
        every_one = judged(section, made)
    assert few.keys() == every_one.keys()
    for check, (verdict, use) in every_one.items():
        assert few[check][0] == verdict
        assert few[check][1] == (use if use is None else pytest.approx(use, rel=1e-9))


@given(rows=stations, buckles=st.sampled_from([float("inf"), 1.3, 2.5, 40.0]))
@settings(deadline=None, max_examples=60)
def test_the_first_twisted_station_to_yield_is_found_without_solving_them_all(rows, buckles):
    section = look_up("UPN 120").section
    n, v_y, v_z, m_y, m_z = np.array(rows).T
    forces = {
        "N": n * section.A * 50,
        "V_y": v_y * section.Avy * 20,
        "V_z": v_z * section.Avz * 20,
        "T": v_z * section.Wt * 30,
        "M_y": m_y * section.Wel_y * 100,
        "M_z": m_z * section.Wel_z * 50,
        "T_w": v_y * 1e5,
        "B": m_z * 1e8,
    }
    k_cr = np.full(len(rows), buckles)
    every_one = second_order_factor(section, 235.0, k_cr, **forces)
    number, factor = least_second_order_factor(section, 235.0, k_cr, **forces)
    assert factor == pytest.approx(every_one.min(), rel=1e-9)
    assert every_one[number] == pytest.approx(every_one.min(), rel=1e-9)


def test_a_twist_that_grows_without_end_where_nothing_yields_before():
    """Derived: pure torque T with a push; f_d = vM(sigma, tau / (1 - k / k_cr)) k is met below the k_cr of 3.

    Its first-order factor is k_cr itself; beside a station that yields sooner at first order it was passed over.
    """
    section = look_up("HEB 120").section
    forces = {name: np.zeros(2) for name in ("V_y", "V_z", "M_y")} | {
        "N": np.array([-215e3, -180e3]),
        "T": np.array([-198e3, 60e3]),
        "M_z": np.array([0.0, -3.9e6]),
        "T_w": np.zeros(2),
        "B": np.array([0.0, 16.6e6]),
    }
    number, factor = least_second_order_factor(section, 355.0, np.array([3.0, np.inf]), **forces)
    sigma, tau = 215e3 / section.A, 198e3 / section.Wt / (1 - factor / 3.0)
    assert number == 0
    assert factor * np.hypot(sigma, np.sqrt(3) * tau) == pytest.approx(355.0, rel=1e-9)


def test_a_bimoment_alone_uses_no_shear():
    """At midspan of a twisted beam neither shear nor torque need act: it was divided by nothing."""
    section = look_up("UPN 120").section
    rows = [
        Station(Case("one", "ultimate"), "x = 0 mm", V_z=1e3, T=1e4),
        Station(Case("one", "ultimate"), "x = 1 mm", M_y=1e5, B=1e6),
    ]
    assert judged(section, rows)["shear"] == ("not checked", None)  # nobody has found how the first one warps


@pytest.mark.parametrize("v", [0.4, 0.9, np.array([0.4, 0.9])])
def test_shear_alone_where_the_flanges_bear_the_moment(v):
    """EN 1993-1-1 6.2.8 (derived): no moment, and none that shear could take; the shear alone is left."""
    assert bending_shear_factor(0.0 * v, v, 0.0) == pytest.approx(1 / np.asarray(v))
