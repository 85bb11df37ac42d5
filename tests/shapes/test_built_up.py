"""Sections welded from plates: exact integrals, fibres, torsion and shear centre by finite elements."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from polygons import integrals
from saint_venant import torsion_constant, warping

from structcheck.checks.member_class import class_in_bending
from structcheck.errors import InputError, NotCovered
from structcheck.shapes.built_up import (
    from_rectangles,
    rib_with_plate,
    shear_flow,
    welded_box,
    welded_channel,
    welded_i,
    welded_t,
)
from structcheck.shapes.library import look_up
from structcheck.shapes.net import net_section
from structcheck.shapes.pair import side_by_side
from structcheck.shapes.section import Section
from structcheck.shapes.strips import Cell, Strip, Strips

UNEQUAL = welded_i(400.0, 200.0, 8.0, 15.0, 150.0, 12.0)
BOX = welded_box(200.0, 150.0, 8.0, 10.0, overhang=20.0)
SECTIONS = [
    welded_i(400.0, 200.0, 8.0, 15.0),
    UNEQUAL,
    BOX,
    welded_channel(200.0, 80.0, 8.0, 12.0),
    welded_t(150.0, 120.0, 10.0, 12.0),
    rib_with_plate(120.0, 12.0, 20.0, 150.0),
    side_by_side(look_up("UPN 120").section, 20.0),
    side_by_side(look_up("UPN 120").section, 12.0, "toe to toe"),
]
NAMED = [pytest.param(section, id=section.designation) for section in SECTIONS]


def signed(section):
    """Integrals over all loops, outer ones positive and holes negative, by polygons apart from the package."""
    total = np.zeros(6)
    for loop in section.outline():
        y, z = loop.T
        turn = np.sign(np.sum(y * np.roll(z, -1) - np.roll(y, -1) * z))
        # A pair's outlines all bound material, whichever way they run.
        total += (1.0 if section.designation.startswith("2 x") else turn) * integrals(loop)
    return total


@pytest.mark.parametrize("section", NAMED)
def test_area_and_second_moments_agree_with_the_outline(section):
    """The drawn outline and the properties are of one section, about its centroid."""
    A, Qy, Qz, Jyy, Jzz, _ = signed(section)
    # An outline's arcs are drawn as chords.
    assert pytest.approx(A, rel=2e-4) == section.A
    assert (Qy, Qz) == (pytest.approx(0.0, abs=0.01 * A), pytest.approx(0.0, abs=0.01 * A))
    assert (section.Iz, section.Iy) == (pytest.approx(Jyy, rel=3e-4), pytest.approx(Jzz, rel=3e-4))


@pytest.mark.parametrize("section", NAMED[:6])
@pytest.mark.parametrize("axis", ["y", "z"])
def test_plastic_modulus_by_fibres(section, axis):
    """Twenty thousand fibres sorted by their lever: half the area on each side of the plastic axis."""
    loops = section.outline()
    column = 1 if axis == "y" else 0
    low = min(loop[:, column].min() for loop in loops)
    high = max(loop[:, column].max() for loop in loops)
    edges = np.linspace(low, high, 20001)
    middles = (edges[1:] + edges[:-1]) / 2
    width = np.zeros_like(middles)
    for loop in loops:
        u, v = loop[:, column], loop[:, 1 - column]
        for a, b, c, d in zip(u, v, np.roll(u, -1), np.roll(v, -1), strict=True):
            crossed = (a > middles) != (c > middles)
            with np.errstate(divide="ignore", invalid="ignore"):
                width += np.where(crossed, np.sign(c - a) * (b + (middles - a) / (c - a) * (d - b)), 0.0)
    areas = abs(width) * np.diff(edges)
    plastic = middles[np.searchsorted(np.cumsum(areas), areas.sum() / 2)]
    modulus = (areas * abs(middles - plastic)).sum()
    assert getattr(section, f"Wpl_{axis}") == pytest.approx(modulus, rel=1e-3)


@pytest.mark.parametrize(
    ("section", "low", "high"),
    [
        (welded_i(200.0, 120.0, 8.0, 12.0), -0.03, 0.04),
        (welded_channel(200.0, 80.0, 8.0, 12.0), -0.03, 0.03),
        (welded_t(150.0, 120.0, 10.0, 12.0), -0.12, 0.0),
        (rib_with_plate(120.0, 12.0, 20.0, 150.0), -0.12, 0.0),
        (welded_box(100.0, 80.0, 6.0, 8.0), -0.05, 0.0),
        (welded_box(100.0, 80.0, 6.0, 8.0, overhang=15.0), -0.05, 0.0),
    ],
    ids=lambda value: getattr(value, "designation", None),
)
def test_torsion_constant_by_finite_elements(section, low, high):
    """Plates alone leave out the junctions, which is safe; a box is Bredt's and its plates' own."""
    off = section.It / torsion_constant(section.outline(), 2.0) - 1
    assert low <= off <= high


def test_one_missing_seam_opens_a_box():
    """Slit against closed: more than a hundred times; elements with a real slit agree with the plates alone."""
    closed, slit = welded_box(200.0, 150.0, 5.0, 5.0), welded_box(200.0, 150.0, 5.0, 5.0, closed=False)
    assert closed.It / slit.It > 100
    cut = Strip(-70.5, -69.5, 195.0, 200.0)
    parted = Strips(slit.shape.strips, cuts=(cut,), slit=True)
    assert slit.It == pytest.approx(torsion_constant(parted.outline(), 1.6), rel=0.04)
    with pytest.raises(NotCovered, match="shear centre"):
        _ = slit.y_s


def test_shear_centre_and_warping_of_an_unequal_i_by_finite_elements():
    """Turned by a quarter so that it is symmetric about y."""
    turned = tuple(loop[:, ::-1] * np.array([1.0, -1.0]) for loop in UNEQUAL.outline())
    z_s, Iw = warping(turned, 4.0)
    assert UNEQUAL.z_s == pytest.approx(z_s, abs=0.02 * 400)
    assert UNEQUAL.Iw == pytest.approx(Iw, rel=0.05)


def test_shear_areas_of_welded_sections():
    """6.2.6(3): webs along z with eta, the rest along y; a T by its own line."""
    i = welded_i(400.0, 200.0, 8.0, 15.0)
    assert i.shear_area("z") == pytest.approx(370 * 8) and i.shear_area("z", 1.2) == pytest.approx(1.2 * 370 * 8)
    assert i.shear_area("y") == pytest.approx(2 * 200 * 15)
    assert BOX.shear_area("z") == pytest.approx(2 * 180 * 8)
    assert welded_t(150.0, 120.0, 10.0, 12.0).shear_area("z") == pytest.approx(10 * (150 - 6))


def test_seam_flow_of_an_i():
    """V S / I with S of one flange, both runs together."""
    i = welded_i(400.0, 200.0, 8.0, 15.0)
    assert shear_flow(i, 185.0) == pytest.approx(200 * 15 * 192.5 / i.Iy)
    assert shear_flow(UNEQUAL, UNEQUAL.edges[3] - 15.0) == pytest.approx(
        200 * 15 * (UNEQUAL.edges[3] - 7.5) / UNEQUAL.Iy
    )


def test_classified_plates():
    """An unequal I has four outstands and a web, a box two internal webs and flanges."""
    kinds = [(e.role, e.kind, e.c) for e in UNEQUAL.elements]
    assert kinds == [("flange", "outstand", 100.0)] * 2 + [("flange", "outstand", 75.0)] * 2 + [
        ("web", "internal", 373.0)
    ]
    webs = [e for e in BOX.elements if e.role == "web"]
    assert [(e.kind, e.c, e.t) for e in webs] == [("internal", 180.0, 8.0)] * 2


def test_overlapping_rectangles_count_once_and_holes_are_taken_out():
    """A cross of two flats 100 x 10 has the middle once; a hole cuts it out."""
    cross = from_rectangles("cross", [(-50, 50, -5, 5), (-5, 5, -50, 50)])
    assert pytest.approx(2 * 1000 - 100) == cross.A
    assert pytest.approx(2 * 1000 - 200) == net_section(cross, [(-5, 5, -5, 5)]).A
    assert len(cross.outline()) == 1 and len(cross.outline()[0]) == 12


def test_a_skew_section_has_no_moduli():
    """An L of rectangles bends sideways as well: refused, never a number for one axis alone."""
    angle = from_rectangles("L", [(0, 10, 0, 100), (10, 60, 0, 10)])
    for name in ("Wel_y", "Wpl_y", "Wel_z", "Wpl_z"):
        with pytest.raises(NotCovered, match="no axis of symmetry"):
            getattr(angle, name)
    with pytest.raises(NotCovered, match="shear centre"):
        _ = angle.z_s


def test_two_channels_back_to_back():
    """Iz by the parallel axis, plastic modulus with the axis in the gap, everything else doubled."""
    one = look_up("UPN 120").section
    pair = side_by_side(one, 20.0)
    arm = 10.0 + one.centroid[0]
    assert pytest.approx(2 * one.A) == pair.A and pair.Iy == pytest.approx(2 * one.Iy)
    assert pair.Iz == pytest.approx(2 * (one.Iz + one.A * arm**2))
    assert pair.Wpl_z == pytest.approx(2 * one.A * arm)
    assert pair.It == pytest.approx(2 * one.It)
    assert pair.edges[1] == pytest.approx(10.0 + 55.0)


def test_two_channels_toe_to_toe_close_a_box_only_if_both_seams_are_welded():
    """A hundred times the torsion constant, by the elements' own value of the closed outline."""
    one = look_up("UPE 120").section
    box, apart = side_by_side(one, 0.0, "toe to toe", closed=True), side_by_side(one, 0.0, "toe to toe")
    assert box.It > 90 * apart.It
    d = one.dimensions
    plain = welded_box(d["h"], 2 * d["b"], d["tw"], d["tf"])
    assert box.It == pytest.approx(torsion_constant(plain.outline(), 1.6), rel=0.03)
    with pytest.raises(InputError, match="closes nothing"):
        side_by_side(one, 5.0, "toe to toe", closed=True)


def test_holes_in_a_rolled_flange():
    """CS-16 (derived): IPE 330 with two 22 mm holes in one flange has I_net 10370 cm4, W 579.3 cm3 on that side."""
    ipe = Section("IPE 330", "IPE", "EN 10365", "rolled", {"h": 330.0, "b": 160.0, "tw": 7.5, "tf": 11.5, "r": 18.0})
    net = net_section(ipe, [(p - 11, p + 11, -165.0, -153.5) for p in (-45.0, 45.0)])
    assert net.Iy / 1e4 == pytest.approx(10370, rel=1e-3)
    assert net.Iy / -net.edges[2] / 1e3 == pytest.approx(579.3, rel=1e-3)
    assert net.Wpl_y < ipe.Wpl_y and pytest.approx(ipe.A - 2 * 22 * 11.5) == net.A
    with pytest.raises(InputError, match="not wholly in the material"):
        net_section(ipe, [(-90.0, -68.0, -165.0, -153.5)])


def test_a_holed_channel_still_has_its_shear_centre_behind_the_web():
    """Lost, a channel with a hole would no longer twist."""
    one = look_up("UPN 120").section
    net = net_section(one, [(-5.0, 5.0, -60.0, -53.0)])
    back = one.y_s + one.centroid[0]
    assert net.y_s + net.centroid[0] + one.centroid[0] == pytest.approx(back)
    assert net.y_s < -25


def test_two_angles_have_no_known_shear_centre():
    """Not symmetric about y: refused rather than taken as the middle."""
    with pytest.raises(NotCovered, match="shear centre of two such pieces"):
        _ = side_by_side(look_up("L 50x50x5").section, 10.0).z_s


def test_web_forces_find_the_web_of_a_box():
    """EN 1993-1-5 section 6 sees two webs, and of each flange only what is balanced about its web."""
    assert BOX.shape.web_and_flange == (200.0, 48.0, 8.0, 10.0, 0.0, 2)


def test_sizes_that_are_none_are_refused():
    """Flanges thicker than the section is deep, nothing at all, a flat of no width."""
    with pytest.raises(InputError, match="is no size of a plate"):
        welded_i(20.0, 100.0, 5.0, 12.0)
    with pytest.raises(InputError, match="are none"):
        from_rectangles("nothing", [])
    with pytest.raises(InputError, match="is no size of a plate"):
        from_rectangles("flat", [(0, 0, 0, 10)])


@settings(max_examples=40, deadline=None)
@given(
    h=st.floats(60.0, 400.0),
    b=st.floats(40.0, 300.0),
    tw=st.floats(4.0, 15.0),
    tf=st.floats(4.0, 20.0),
)
def test_more_plate_never_makes_a_section_weaker(h, b, tw, tf):
    """Every property of an unequal I grows with each thickness; plastic exceeds elastic."""
    base = welded_i(h, b, tw, tf, 0.8 * b, tf)
    for more in (welded_i(h, b, tw + 1, tf, 0.8 * b, tf), welded_i(h, b * 1.1, tw, tf, 0.8 * b, tf)):
        for name in ("A", "Iy", "Iz", "It", "Wpl_y", "Wpl_z"):
            assert getattr(more, name) > getattr(base, name)
    assert base.Wpl_y >= base.Wel_y and base.Wpl_z >= base.Wel_z


def test_a_cell_is_counted_only_where_it_is_stated():
    """Four loose rectangles in a ring are no tube."""
    ring = [(-50, 50, 0, 5), (-50, 50, 95, 100), (-50, -45, 5, 95), (45, 50, 5, 95)]
    cell = Cell(95.0 * 95.0, 4 * 95.0 / 5.0, 5.0)
    assert from_rectangles("ring", ring, cell).It > 100 * from_rectangles("ring", ring).It


def test_sections_of_one_name_and_other_plates_are_not_one_section():
    shallow, deep = (from_rectangles("tee of mine", [(0, 100, 0, 10), (45, 55, 10, height)]) for height in (110, 210))
    known = {shallow: "shallow", deep: "deep"}  # what is remembered of the one must not be answered for the other
    assert shallow != deep
    assert known[deep] == "deep"
    assert class_in_bending(shallow, 235.0, "y", 1.0) != class_in_bending(deep, 235.0, "y", 1.0)
