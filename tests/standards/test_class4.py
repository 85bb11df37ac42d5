"""Effective sections of class 4 (EN 1993-1-5 section 4) against published and derived values; see members.toml."""

from types import SimpleNamespace

import pytest

from structcheck.checks.basis import ULTIMATE, Basis
from structcheck.checks.member_class import internal_factor, outstand_factor, section_class
from structcheck.checks.member_effective import effective
from structcheck.checks.section_resistance import Station, check_member_section
from structcheck.materials.steels import find_steel
from structcheck.shapes.built_up import welded_channel, welded_i
from structcheck.shapes.hollow import Hollow, hot_radii
from structcheck.shapes.rolled import RolledI
from structcheck.shapes.section import Section
from structcheck.shapes.shape import Element
from structcheck.standards.en1993_1_1 import classification, cross_section
from structcheck.standards.en1993_1_5 import plates
from tests.printed import printed
from tests.reference.reading import case


def test_buckling_factors():
    """PL-11: Tables 4.1 and 4.2."""
    given, expected = case("members", "PL-11")
    assert [float(internal_factor(psi)) for psi in given["internal"]] == [
        pytest.approx(float(text), rel=1e-3) for text in expected["internal"]
    ]
    assert [float(outstand_factor(psi, True)) for psi in given["outstand"]] == [
        printed(text) for text in expected["outstand"]
    ]


def test_effective_area_of_a_rolled_i():
    """CL-02: 6095 mm2 as printed, from the tables' area and b_eff of the web."""
    given, expected = case("members", "CL-02")
    beam = RolledI(*(given[name] for name in ("h", "b", "tw", "tf", "r")))
    found = effective(beam, given["f_y"], N=1.0)
    epsilon = classification.epsilon(given["f_y"])
    lambda_p = plates.plate_slenderness(271.0, 7.5, epsilon, 4.0)
    assert lambda_p == printed(expected["lambda_p"])
    assert found.rho == printed(expected["rho"])
    assert found.rho * 271.0 == printed(expected["b_eff"])
    # The tables round A to 6260 mm2; from the dimensions it is 6260.6.
    assert found.A - beam.A + given["A"] == pytest.approx(float(expected["A_eff"]), abs=1.0)
    assert (found.e_y, found.e_z) == (0.0, 0.0)


def test_outstand_flange_in_bending():
    """PL-13: the neutral axis moves away from the reduced flange; the compressed edge governs."""
    given, expected = case("members", "PL-13")
    gross = welded_i(given["h"], given["b"], given["tw"], given["tf"])
    leg = given["throat"] * 2**0.5
    z = (given["h"] - given["tf"]) / 2
    root, tip = given["tw"] / 2 + leg, given["b"] / 2
    outstands = tuple(
        Element("flange", "outstand", tip - root, given["tf"], (p * root, q * z), (p * tip, q * z))
        for p in (-1, 1)
        for q in (-1, 1)
    )
    with_welds = SimpleNamespace(elements=outstands, A=gross.A, Iy=gross.Iy, Iz=gross.Iz, edges=gross.edges)
    found = effective(with_welds, given["f_y"], M_y=1.0)
    c_over_t = (tip - root) / given["tf"]
    epsilon = classification.epsilon(given["f_y"])
    assert c_over_t == pytest.approx(expected["c_over_t"], rel=3e-3)
    assert plates.plate_slenderness(c_over_t, 1.0, epsilon, 0.43) == pytest.approx(expected["lambda_p"], rel=3e-3)
    assert found.rho == pytest.approx(expected["rho"], rel=3e-3)
    assert given["b"] - 2 * (1 - found.rho) * (tip - root) == pytest.approx(expected["b_eff"], rel=3e-3)
    assert -found.e_z == pytest.approx(expected["shift"], rel=3e-3)
    assert found.Iy / 1e4 == pytest.approx(expected["I_eff_cm4"], rel=3e-3)
    assert found.W_y / 1e3 == pytest.approx(expected["W_eff_cm3"], rel=3e-3)
    assert cross_section.effective_bending_resistance(found.W_y, given["f_y"], 1.0) / 1e6 == pytest.approx(
        expected["M_kNm"], rel=3e-3
    )


def test_class_4_cross_section_with_axial_force():
    """BC-00: N over A_eff f_y and M_z over W f_y, summed."""
    given, expected = case("members", "BC-00")
    N_c = cross_section.effective_axial_resistance(given["A_eff"], given["f_y"], 1.0)
    M_z = cross_section.effective_bending_resistance(given["W_z"], given["f_y"], 1.0)
    assert (N_c / 1e3, M_z / 1e6) == (printed(expected["N_c_kN"]), printed(expected["M_z_kNm"]))
    assert given["N"] / N_c == printed(expected["term_N"])
    assert given["M_z"] / M_z == printed(expected["term_M"])
    # The example adds the rounded terms; unrounded they give 0.7644.
    found = cross_section.linear_ratio(given["N"], N_c, 0.0, 1.0, given["M_z"], M_z)
    assert found == pytest.approx(float(expected["sum"]), abs=1e-3)


def test_the_check_takes_the_effective_area():
    """BC-00 through the check: IPE 330 of S355 in compression is class 4, its text says so."""
    given, expected = case("members", "BC-00")
    section = Section("IPE 330", "", "", "rolled", {}, geometry=RolledI(330.0, 160.0, 7.5, 11.5, 18.0))
    station = Station(ULTIMATE, "here", N=-given["N"], M_z=given["M_z"])
    found = {
        f.check: f for f in check_member_section("post", section, find_steel("S355"), 1, [station], Basis()).findings
    }
    # A from the dimensions, not the tables' 6260 mm2.
    assert found["axial"].utilisation == pytest.approx(float(expected["term_N"]), rel=1e-3)
    assert "class 4" in found["axial"].reason
    assert found["axial and bending"].utilisation == pytest.approx(float(expected["sum"]), abs=1.5e-3)


def test_a_slender_channel_in_compression_is_bent_by_the_shift():
    """6.2.9.3: N e_N about z is counted, so that axial and bending is more than axial alone."""
    channel = welded_channel(200, 80, 4, 4)
    pressed = effective(channel, 355.0, N=1.0)
    assert pressed.e_y != 0.0
    station = Station(ULTIMATE, "here", N=-50e3, M_y=0.1e6)
    found = {
        f.check: f for f in check_member_section("post", channel, find_steel("S355"), 1, [station], Basis()).findings
    }
    N_c = pressed.A * 355.0
    M_z = min(effective(channel, 355.0, M_z=sign).W_z for sign in (1, -1)) * 355.0
    M_y = min(effective(channel, 355.0, M_y=sign).W_y for sign in (1, -1)) * 355.0
    by_hand = 50e3 / N_c + 0.1e6 / M_y + 50e3 * abs(pressed.e_y) / M_z
    assert found["axial and bending"].utilisation == pytest.approx(by_hand, rel=1e-9)


def test_nothing_is_lost_where_no_part_is_slender():
    """A stocky tube keeps its whole area and moduli."""
    tube = Hollow(100.0, 100.0, 6.0, *hot_radii(6.0))
    found = effective(tube, 355.0, N=1.0)
    assert (found.A, found.rho) == (pytest.approx(tube.A), 1.0)
    assert effective(tube, 355.0, M_y=1.0).W_y == pytest.approx(tube.Wel_y)


def test_the_webs_follow_the_reduced_flange():
    """A thin tube in bending: the gap in each web lies on the compressed side, and W_eff is below W_el."""
    tube = Hollow(300.0, 200.0, 4.0, *hot_radii(4.0))
    assert section_class(tube, 355.0, M_y=1.0).number == 4
    up, down = (effective(tube, 355.0, M_y=sign) for sign in (1.0, -1.0))
    assert up.e_z < 0 < down.e_z
    assert up.W_y == pytest.approx(down.W_y)
    assert up.W_y < tube.Wel_y
