"""Tube faces under saddles, pads and plates."""

import tomllib
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.checks.basis import GREATEST, RATED, ULTIMATE, Basis
from structcheck.checks.tube_face import TubeFace, TubeFaceLoad, check_tube_face
from structcheck.errors import InputError
from structcheck.materials.steels import find_steel
from structcheck.shapes.library import look_up
from structcheck.standards.en1993_1_8 import hollow
from tests.printed import printed

FILE = Path(__file__).parents[1] / "reference" / "local_forces.toml"
CASES = {case["id"]: case for case in tomllib.loads(FILE.read_text())["case"]}
BASIS = Basis()
TONNE = 9806.65
PLATE = find_steel("S235")


def tube(name="SHS 100x100x5", steel="S275", **more):
    section = look_up(name).section
    return TubeFace('beam "head"', section, find_steel(steel, route=section.route), **more)


def cases(rated, M=0.0, **more):
    return [
        TubeFaceLoad(case, rated * factor, M=M * factor, **more)
        for case, factor in ((RATED, 1.0), (GREATEST, 1.25), (ULTIMATE, 1.5))
    ]


def findings(part, loads):
    return {f.check: f for f in check_tube_face(part, loads, BASIS).findings}


def test_plate_across_the_face_nearly_as_wide():
    """HS-01 (read): effective width, plate failure, punching width and the two side walls."""
    g, expected = CASES["HS-01"]["given"], CASES["HS-01"]["expected"]
    b_eff = hollow.effective_width(g["b_0"], g["t_0"], g["f_y"], g["f_y"], g["t_1"], g["b_1"])
    assert b_eff == printed(expected["b_eff"])
    assert hollow.transverse_plate_failure(g["f_y"], g["t_1"], b_eff, 1.0) / 1e3 == printed(expected["plate_kN"])
    assert hollow.punching_width(g["b_0"], g["t_0"], g["b_1"]) == printed(expected["b_e_p"])
    walls = hollow.side_wall_failure(k_n=1.0, f_b=g["f_y"], t_0=g["t_0"], h_1=g["t_1"], gamma_M5=1.0)
    assert walls / 1e3 == printed(expected["side_walls_kN"])


def test_plate_along_the_face_takes_the_lower_reading():
    """HS-03 (derived): 87.3 kN, not the 97.0 kN of the yield lines, until the clause has been read."""
    g, expected = CASES["HS-03"]["given"], CASES["HS-03"]["expected"]
    lower = hollow.face_failure_longitudinal_plate(1.0, g["f_y"], g["t_0"], g["h_1"], g["b_0"], g["t_1"], 1.0)
    assert lower / 1e3 == printed(expected["lower_kN"])
    lines = hollow.face_failure(1.0, g["f_y"], g["t_0"], g["h_1"] / g["b_0"], g["t_1"] / g["b_0"], 1.0)
    assert lines / 1e3 == printed(expected["yield_lines_kN"])


def test_the_yield_lines_are_an_upper_bound_found_again():
    """Work of the mechanism, the reach of its ends varied: its least is the formula of the face (derived).

    Sides and ends are four flat pieces round the pad. A piece turning by theta about its outer hinge does
    m theta on that hinge and m theta on the projection of all its inner hinges, which is as long.
    """
    f_y, t, b, b_1, h_1 = 275.0, 5.0, 100.0, 40.0, 60.0
    m, gap = f_y * t**2 / 4, 30.0

    def work(x):
        return 2 * 2 * m * (h_1 + 2 * x) / gap + 2 * 2 * m * b / x

    least = min(work(x / 100) for x in range(100, 20000))
    assert least == pytest.approx(hollow.face_failure(1.0, f_y, t, h_1 / b, b_1 / b, 1.0), rel=1e-4)


def test_a_saddle_on_the_face_bends_it_and_fails_in_yield():
    """SHS 100x100x5 under a 40 mm saddle: pi/4 of the square pad's yield lines; elastically far beyond yield."""
    found = findings(tube(), cases(TONNE, along=40.0))
    expected = 3.14159265 / 4 * 275 * 25 / 0.6 * (2 * 0.4 + 4 * 0.6**0.5)
    assert found["tube face"].capacity.value == pytest.approx(expected)
    assert found["tube face"].reason == "the face bends"
    assert found["yield at greatest force"].verdict == "fails"


def test_a_plate_over_both_walls_may_carry_past_the_face():
    """Under the same saddle a plate 100 x 100 x 20 raises the resistance severalfold, by the better of both ways."""
    bare = findings(tube(), cases(TONNE, along=40.0))["tube face"]
    loads = cases(TONNE, along=40.0, plate=20.0, plate_along=100.0, plate_across=100.0, plate_steel=PLATE)
    plated = findings(tube(), loads)["tube face"]
    assert plated.capacity.value > 2 * bare.capacity.value


def test_compression_of_the_face_by_bending_takes_resistance_away():
    """k_n = 1.3 - 0.4 n / beta: the force and the moment grow together, so the answer is exact at its own factor."""
    load = TubeFaceLoad(ULTIMATE, 2e4, along=60.0, across=60.0, M=6e6)
    part = tube()
    found = findings(part, [load])["tube face"]
    factor = 1 / found.utilisation
    n = factor * 6e6 / part.section.Wel_y / 275
    k_n = hollow.chord_stress_factor(n, 0.6)
    assert k_n < 1
    assert factor * 2e4 == pytest.approx(hollow.face_failure(k_n, 275.0, 5.0, 0.6, 0.6, 1.0))
    pulled = findings(part, [replace(load, flange="tension")])["tube face"]
    assert pulled.utilisation < found.utilisation


def test_a_pad_as_wide_as_the_face_presses_the_side_walls():
    """beta = 1: both walls over h_1 + 5 t, reduced for buckling on curve c for a cold formed tube."""
    found = findings(tube(), cases(1e4, along=80.0, across=100.0))["tube face"]
    chi = hollow.side_wall_buckling_factor(hollow.side_wall_slenderness(100.0, 5.0, 210e3, 275.0), 0.49)
    assert found.capacity.value == pytest.approx(chi * 275 * 5 * (2 * 80 + 50))
    both = findings(tube(), cases(1e4, along=80.0, across=100.0, kind="opposite"))["tube face"]
    assert both.capacity.value == pytest.approx(0.8 * found.capacity.value)
    end = findings(tube(), cases(1e4, along=80.0, across=100.0, to_end=0.0))["tube face"]
    assert end.capacity.value == pytest.approx(chi * 275 * 5 * (2 * 80 + 25))


@pytest.mark.parametrize(
    ("part", "load", "words"),
    [
        (tube(), {"along": 20.0}, "narrower than 0.25"),
        (tube(), {"along": 40.0, "to_end": 20.0}, "open end"),
        (tube(pieces=2), {"along": 40.0}, "two tubes"),
        (tube("CHS 114.3x5"), {"along": 40.0}, "only square and rectangular"),
        (tube("SHS 120x120x3"), {"along": 40.0}, "outside EN 1993-1-8 Table 7.8"),
    ],
)
def test_what_the_tables_do_not_cover_is_not_checked(part, load, words):
    """Outside the range of Table 7.8 nothing passes."""
    found = findings(part, cases(1e3, **load))["tube face"]
    assert found.verdict == "not checked" and words in found.reason


def test_two_tubes_under_one_plate_are_pressed_at_their_inner_walls():
    """The plate spans from inner wall to inner wall, and each tube gives one wall."""
    loads = cases(TONNE, along=60.0, across=60.0, plate=20.0, plate_along=120.0, plate_across=150.0, plate_steel=PLATE)
    found = findings(tube(pieces=2, gap=20.0), loads)["tube face"]
    assert found.verdict == "holds"
    assert findings(tube(pieces=2), loads)["tube face"].verdict == "not checked"


def test_nonsense_is_refused():
    """Sizes below nothing."""
    with pytest.raises(InputError, match="is no size"):
        check_tube_face(tube(), [TubeFaceLoad(ULTIMATE, 1e4, along=-4.0)], BASIS)


@settings(max_examples=25, deadline=None)
@given(along=st.floats(30.0, 100.0), across=st.floats(30.0, 100.0), M=st.floats(0.0, 8e6), force=st.floats(1e3, 1e5))
def test_more_of_both_actions_raises_the_utilisation_by_the_same_factor(along, across, M, force):
    """The utilisation is the inverse of the factor on all actions: doubling all doubles it."""
    once = findings(tube(), [TubeFaceLoad(ULTIMATE, force, along, across, M=M)])["tube face"]
    twice = findings(tube(), [TubeFaceLoad(ULTIMATE, 2 * force, along, across, M=2 * M)])["tube face"]
    assert twice.utilisation == pytest.approx(2 * once.utilisation)
