"""The parts of a section: plates to classify, fibres to look at."""

import numpy as np
import pytest
from polygons import above, section_integrals

from structcheck.shapes.library import library, look_up
from structcheck.shapes.shape import Element

SOME = library()[::5]


def designation(section) -> str:
    """What to call a section in a test report."""
    return section.designation


def test_the_plates_of_an_i_section_are_measured_from_the_root_radius():
    """IPE 160: outstands c = (82 - 5 - 18)/2 = 29.5, web c = 160 - 14.8 - 18 = 127.2."""
    section = look_up("IPE 160").section
    assert [(e.role, e.kind, round(e.c, 6), e.t) for e in section.elements] == [
        ("flange", "outstand", 29.5, 7.4)
    ] * 4 + [("web", "internal", 127.2, 5.0)]


def test_the_plates_of_a_tube_follow_the_convention_of_the_table():
    """RHS 100x60x4: c = b - 3t on every wall; a round tube gives its outside diameter."""
    walls = look_up("RHS 100x60x4").section.elements
    assert [(e.role, e.kind, e.c, e.t) for e in walls] == [("flange", "internal", 48, 4)] * 2 + [
        ("web", "internal", 88, 4)
    ] * 2
    zero = (0.0, 0.0)
    assert look_up("CHS 60.3x2.9").section.elements == (Element("wall", "tube", 60.3, 2.9, zero, zero),)


@pytest.mark.parametrize("section", SOME, ids=designation)
def test_every_plate_lies_in_the_section_and_is_as_long_as_its_ends_say(section):
    """Start to end is c, the ends lie within the edges, and an outstand ends at a tip."""
    left, right, bottom, top = section.edges
    for element in section.elements:
        if element.kind == "tube":
            continue
        assert np.hypot(*np.subtract(element.end, element.start)) == pytest.approx(element.c)
        for y, z in (element.start, element.end):
            assert left - 1e-9 <= y <= right + 1e-9
            assert bottom - 1e-9 <= z <= top + 1e-9
        if element.kind == "outstand":
            assert min(abs(element.end[0] - left), abs(element.end[0] - right), abs(element.end[1] - top)) < 1e-9


@pytest.mark.parametrize("section", SOME, ids=designation)
@pytest.mark.parametrize("axis", ["y", "z"])
def test_the_extreme_fibres_carry_the_elastic_modulus(section, axis):
    """I over the greatest lever is Wel; the extremes carry no shear, the neutral axis at least V/A."""
    fibres = section.fibres(axis)
    second_moment, modulus = (section.Iy, section.Wel_y) if axis == "y" else (section.Iz, section.Wel_z)
    assert second_moment / max(abs(fibre.lever) for fibre in fibres) == pytest.approx(modulus)
    assert fibres[0].tau == fibres[-1].tau == 0.0
    assert fibres[0].lever > fibres[-1].lever
    assert max(fibre.tau for fibre in fibres) > 1 / section.A


@pytest.mark.parametrize("section", SOME, ids=designation)
@pytest.mark.parametrize("axis", ["y", "z"])
def test_the_shear_stress_is_that_of_the_outline_cut_there(section, axis):
    """S / (I t) of every fibre between the extremes agrees with the polygon clipped at its lever."""
    polygons = [polygon if axis == "y" else polygon[:, ::-1] for polygon in section.outline()]
    second_moment = section.Iy if axis == "y" else section.Iz
    for fibre in section.fibres(axis)[1:-1]:
        # A hair beside the level, since a corner of the outline may stand on it.
        hair = 1e-3 * section.edges[3 if axis == "y" else 1]
        lower, upper = (section_integrals([above(p, fibre.lever + k * hair) for p in polygons]) for k in (-1, 1))
        width = (lower[0] - upper[0]) / (2 * hair)
        assert fibre.tau == pytest.approx((lower[2] + upper[2]) / 2 / (second_moment * width), rel=0.005)


def test_shear_stress_at_the_neutral_axis_is_the_textbook_one():
    """1.5 V/A in a flat, 4/3 V/A in a round, 2 V/A in a thin ring, S/(I t) in an I section."""
    flat, bar, ring, beam = (look_up(name).section for name in ("FL 80x10", "RD 20", "CHS 168.3x4", "IPE 160"))
    middle = {
        section: next(f.tau for f in section.fibres("y") if f.name == "neutral axis")
        for section in (flat, bar, ring, beam)
    }
    assert middle[flat] * flat.A == pytest.approx(1.5)
    assert middle[bar] * bar.A == pytest.approx(4 / 3)
    assert middle[ring] * ring.A == pytest.approx(2.0, rel=0.01)
    assert middle[beam] == pytest.approx(beam.Wpl_y / 2 / (beam.Iy * 5.0), rel=1e-4)


def test_shear_stresses_of_the_web_add_up_to_the_force():
    """RHS 100x60x4: with a parabola through junction and neutral axis both webs carry nearly all of the force."""
    section = look_up("RHS 100x60x4").section
    junction, middle = section.fibres("y")[1:3]
    carried = 2 * 4 * 2 * junction.lever * (junction.tau + 2 / 3 * (middle.tau - junction.tau))
    assert 0.88 < carried < 1.0


def test_an_angle_has_fibres_about_its_principal_axes():
    """Greatest levers about u and v of an L 60x60x6 give its moduli; other sections know y and z only."""
    angle = look_up("L 60x60x6").section
    assert angle.fibres("v")[0].lever > 0
    assert angle.fibres("u")[0].lever == pytest.approx(-angle.fibres("u")[-1].lever, rel=1e-6)
    for section, axis in ((look_up("IPE 160").section, "u"), (angle, "x")):
        with pytest.raises(ValueError, match="axis"):
            section.fibres(axis)


def test_a_section_has_no_other_numbers():
    """A misspelt property is an AttributeError, not a silent zero."""
    with pytest.raises(AttributeError, match="no 'Wel_x'"):
        _ = look_up("IPE 160").section.Wel_x
