"""Mistakes that are easily made with sections, and unsafe."""

import pytest
from printed import printed

from structcheck.shapes.built_up import rib_with_plate, welded_box
from structcheck.shapes.channels import Channel
from structcheck.shapes.hollow import Hollow, cold_radii, hot_radii
from structcheck.shapes.library import look_up
from structcheck.shapes.rolled import RolledI


def cold(h: float, t: float) -> Hollow:
    """A cold formed square tube of any size."""
    return Hollow(h, h, t, *(float(r) for r in cold_radii(t)))


def test_a_thicker_wall_is_not_always_stiffer():
    """The corner radius steps at 6 and 10 mm: EN 10219-2 table gives 60x60x6.3 less I and more A than 60x60x6."""
    assert printed("12.0") == cold(60, 6).A / 100
    assert cold(60, 6).Iy / 1e4 == printed("56.1")
    assert printed("12.2") == cold(60, 6.3).A / 100
    assert cold(60, 6.3).Iy / 1e4 == printed("54.4")
    assert cold(80, 6.3).Iy < cold(80, 6).Iy
    assert [round(cold(100, t).Iy / 1e4) for t in (10, 12, 12.5)] == [411, 408, 410]


@pytest.mark.parametrize(("t", "ro", "ri"), [(6, 12, 6), (6.3, 15.75, 9.45), (10, 25, 15), (10.01, 30.03, 20.02)])
def test_the_corner_steps_stand_at_6_and_10(t, ro, ri):
    """Up to and with 6 mm 2t, up to and with 10 mm 2.5t, above 3t (EN 10219-2); inside one wall less."""
    assert [float(r) for r in cold_radii(t)] == pytest.approx([ro, ri])


def test_one_designation_cold_and_hot_are_two_sections():
    """100x100x5: cold 14.4 kg/m and I 271 cm4, hot 14.7 kg/m and I 279 cm4."""
    cold_one, hot_one = look_up("SHS 100x100x5 cold").section, look_up("SHS 100x100x5 hot").section
    assert (cold_one.standard, hot_one.standard) == ("EN 10219-2", "EN 10210-2")
    assert cold_one.mass == printed("14.4")
    assert cold_one.Iy / 1e4 == printed("271")
    assert hot_one.mass == printed("14.7")
    assert hot_one.Iy / 1e4 == printed("279")


def test_sharp_corners_would_be_unsafe_for_a_cold_tube():
    """Sharp corners add 3.5 % to A and 5.7 % to I of 100x100x5, 10.5 % and 20 % of 100x100x10."""
    for t, more_A, more_I in ((5, 0.035, 0.057), (10, 0.105, 0.20)):
        sharp, own = Hollow(100, 100, t, 0.0, 0.0), cold(100, t)
        assert pytest.approx(more_A, abs=0.006) == sharp.A / own.A - 1
        assert sharp.Iy / own.Iy - 1 == pytest.approx(more_I, abs=0.011)


def test_hot_radii_would_be_unsafe_for_a_cold_tube():
    """They add 2 to 7 % to A and 3 to 12 % to I."""
    for t in (5, 8, 10):
        hot = Hollow(100, 100, t, *hot_radii(t))
        assert 1.015 < hot.A / cold(100, t).A < 1.075
        assert 1.025 < hot.Iy / cold(100, t).Iy < 1.125


def test_the_flange_thickness_of_a_upn_is_measured_at_half_its_width():
    """UPN 200 (table: A 32.2, Iy 1910, Iz 148, zs 20.1): tf at (b - tw)/2 or parallel flanges do not give it."""
    own = look_up("UPN 200").section
    assert printed("32.2") == own.A / 100
    assert own.Iy / 1e4 == printed("1910", figures=3)
    assert own.Iz / 1e4 == printed("148")
    assert own.centroid[0] == printed("20.1")
    d = own.dimensions
    other = Channel(d["h"], d["b"], d["tw"], d["tf"], d["r1"], d["r2"], 0.08, (d["b"] - d["tw"]) / 2)
    assert other.Iy / 1e4 == pytest.approx(1946, abs=1)
    parallel = Channel(d["h"], d["b"], d["tw"], d["tf"], d["r1"], 0.0, 0.0, d["b"] / 2)
    assert parallel.Iz / own.Iz == pytest.approx(1.16, abs=0.005)


def test_a_us_tube_is_calculated_with_the_design_wall_and_weighed_by_the_nominal():
    """HSS4X4X1/4: wall 0.93 x 6.35 mm, but 12.2 lb/ft by the full wall."""
    tube = look_up("HSS4X4X1/4").section
    assert tube.dimensions["t"] == pytest.approx(0.93 * 6.35)
    assert tube.dimensions["t_nominal"] == pytest.approx(6.35)
    assert tube.mass / 1.488164 == printed("12.2")
    assert tube.mass > 1.05 * tube.A * 7.85e-3
    round_one = look_up("HSS4.000X0.250").section
    assert round_one.dimensions["t"] == pytest.approx(0.93 * 6.35)
    assert round_one.mass > 1.05 * round_one.A * 7.85e-3


def test_fillets_are_in_the_area_and_the_second_moment():
    """Without its root fillets an IPE 160 would have about 3 % less area."""
    own = look_up("IPE 160").section
    bare = RolledI(*(own.dimensions[name] for name in ("h", "b", "tw", "tf")), 0.0)
    assert 0.01 < 1 - bare.A / own.A < 0.04
    assert bare.Iy < own.Iy


def test_the_shear_area_for_resistance_is_not_the_one_for_deflection():
    """IPE 330: 3081 mm2 by EN 1993-1-1 6.2.6(3), 2302.5 mm2 of clear web; the first hides a quarter of the give."""
    shape = RolledI(330, 160, 7.5, 11.5, 18)
    assert shape.shear_area("z") == pytest.approx(3081, abs=1)
    assert shape.Asz == pytest.approx(2302.5)


def test_eta_lifts_the_least_shear_area_of_an_i_section():
    """A_v is at least eta h_w t_w; with 1.2 that can govern, and only for a rolled I."""
    shape = RolledI(600, 100, 12, 8, 5)
    assert shape.shear_area("z", 1.2) == pytest.approx(1.2 * 584 * 12)
    assert shape.shear_area("z", 1.0) < shape.shear_area("z", 1.2)


# Producer's dimension tables for IPE 330 (memory); the plain sum by hand.
def test_the_root_fillets_carry_a_quarter_of_the_torsion():
    """I_t 28.15 cm4; the sum of b t^3 / 3 gives 20.5 cm4, 27 % low."""
    shape = RolledI(330.0, 160.0, 7.5, 11.5, 18.0)
    plain = (2 * 160 * 11.5**3 + 307 * 7.5**3) / 3
    assert shape.It / 1e4 == pytest.approx(28.15, rel=0.004)
    assert plain / shape.It == pytest.approx(0.73, abs=0.01)


# First principles (derived, by integration over the depth).
def test_a_plate_with_one_rib_is_weakest_at_the_tip_of_the_rib():
    """300 x 20 on a rib of 150 x 15: W 489.5 cm3 at the plate, 118.7 at the tip, 217.0 plastic."""
    rib = rib_with_plate(150.0, 15.0, 20.0, 300.0)
    assert pytest.approx(8250) == rib.A
    assert pytest.approx(1624.1e4, rel=1e-4) == rib.Iy
    assert rib.Wel_y == pytest.approx(118.71e3, rel=1e-4)
    assert rib.Iy / rib.edges[3] == pytest.approx(489.47e3, rel=1e-4)
    assert rib.Wpl_y == pytest.approx(217.03e3, rel=1e-4)


# Bredt, and thin open strips (derived): 100 x 100 x 6.3 with sharp corners.
def test_one_seam_left_open_takes_over_a_hundred_parts_of_the_torsion():
    """518.3 cm4 round the closed wall; the slit one keeps 3.1 cm4 (its strips less their ends, 8 % lower)."""
    closed, slit = (welded_box(100.0, 100.0, 6.3, 6.3, closed=shut) for shut in (True, False))
    assert (closed.It - slit.It) / 1e4 == pytest.approx(518.27, rel=1e-4)
    assert slit.It / 1e4 == pytest.approx(3.1239, rel=0.1) and slit.It < 3.1239e4
