"""Platens on bearers and frames."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.analysis.plate import Patch
from structcheck.checks.basis import GREATEST, RATED, ULTIMATE, Basis
from structcheck.checks.platen import Platen, PlatenLoads, check_platen, strip_moment
from structcheck.errors import InputError
from structcheck.materials.steels import find_steel
from tests.printed import printed
from tests.reference.reading import case

BASIS = Basis()
TONNE = 9806.65
STEEL = find_steel("S235")
GLUE = Platen('platen "bed"', 1400.0, 350.0, 30.0, STEEL, 620.0, 0.3)


def cases(rated, greatest=1.25, **more):
    return [
        PlatenLoads(case, rated * factor, **more)
        for case, factor in ((RATED, 1.0), (GREATEST, greatest), (ULTIMATE, 1.5))
    ]


def findings(part, loads):
    return {f.check: f for f in check_platen(part, loads, BASIS).findings}


def test_gluing_platen_is_strong_enough_and_far_from_flat():
    """20 t all over 1400 x 350 x 30 on bearers 620 apart: the strip's moment at a bearer is q c^2 / 2.

    1.5 x 20 t / 1400 x 390^2 / 2 = 15.98 kN m, less where the elastic field is kinder; the tips hang by millimetres.
    """
    found = findings(GLUE, cases(20 * TONNE, 1.1))
    assert found["bending"].demand.value / 1e6 < 15.98
    assert found["bending"].capacity.value / 1e6 == printed("17.72")
    assert found["bending"].verdict == "holds"
    assert found["platen flatness"].verdict == "fails" and found["platen flatness"].demand.value > 6.0


def test_strip_moment_of_a_platen_with_overhang():
    """Statics: under the patch in the middle F L/4 - F a/8; all over, the larger of bearer and middle."""
    F, middle = 1e5, 700.0
    assert strip_moment(GLUE, Patch(F, middle, 175.0, 200.0, 350.0)) == pytest.approx(F * 620 / 4 - F * 200 / 8)
    q = F / 1400
    assert strip_moment(GLUE, Patch(F, middle, 175.0, 1400.0, 350.0)) == pytest.approx(q * 390**2 / 2)
    # A force on the overhang: the moment stands at the bearer.
    assert strip_moment(GLUE, Patch(F, 200.0, 175.0, 100.0, 350.0)) == pytest.approx(F * 190)


def test_without_a_limit_flatness_is_an_answer():
    """No verdict is drawn where the user has no limit."""
    outcome = check_platen(replace(GLUE, flatness=None), cases(TONNE), BASIS)
    assert "platen flatness" not in {f.check for f in outcome.findings}
    assert len(outcome.answers) == 2 and outcome.answers[1].endswith("mm out of flat at rated")


def test_the_pressure_on_the_work_is_told():
    """PLAT-02 (derived): 20 t on 300 x 300 is 2.179 MPa; 4 t over a large platen are less than an atmosphere."""
    i, expected = case("guides", "PLAT-02")
    square = cases(i["mass"] * 9.80665, along=i["side"], across=i["side"])
    told = check_platen(GLUE, square, BASIS).answers[0]
    assert float(expected["p"]) * 1000 == pytest.approx(2179) and "presses the work with 2179 kPa (316 psi)" in told
    assert "presses the work with 80.05 kPa (11.6 psi)" in check_platen(GLUE, cases(4 * TONNE), BASIS).answers[0]


def test_patch_in_the_middle_of_four_edges():
    """Roark (read): 80 x 80 on a square of 400, 20 mm: sigma = 1.28 W / t^2, within the figure's rounding."""
    part = Platen("p", 400.0, 400.0, 20.0, STEEL)
    found = findings(part, cases(1e5 / 1.25, along=80.0, across=80.0))
    assert found["yield at greatest force"].demand.value == pytest.approx(320.0, rel=5e-3)
    outcome = check_platen(part, cases(1e5, along=80.0, across=80.0), BASIS)
    assert [n.check for n in outcome.does_not_apply] == ["shear"]


def test_a_platen_between_saddle_and_work_dishes_freely():
    """Statics (derived): half the force at a quarter of the length against half of it under the saddle.

    100 kN all over 600 x 300 and a saddle of side 50: F (600 - 50) / 8 in the middle section, at least, and 1.124 mm
    out of flat by Morley elements of scikit-fem on 60 x 40 cells. Held along its edges it bent by 0.19 mm.
    """
    side = 50.0 * 2 / math.pi**0.5
    part = Platen("p", 600.0, 300.0, 30.0, STEEL, flatness=0.3, pushed=side)
    found = findings(part, cases(1e5))
    assert found["bending"].demand.value >= 1.5 * 1e5 * (600 - 50) / 8
    assert found["platen flatness"].demand.value == pytest.approx(1.124, rel=5e-3)


def test_a_saddle_behind_a_free_plate_stresses_it_as_a_round_one():
    """Timoshenko, Theory of Plates and Shells, round plates (memory), superposed so that the rim carries nothing.

    m = F / 4 pi (1.3 ln(p / c) + 0.7 (p^2 - c^2) / 4 R^2) for a plate, a patch and a saddle of the same areas.
    """
    F, R, p, c, t = 98e3, (500**2 / math.pi) ** 0.5, (400**2 / math.pi) ** 0.5, 19.0, 15.0
    m = F / (4 * math.pi) * (1.3 * math.log(p / c) + 0.7 * (p**2 - c**2) / (4 * R**2))
    part = Platen("p", 500.0, 500.0, t, STEEL, pushed=2 * c)
    found = findings(part, cases(F / 1.25, along=400.0, across=400.0))
    assert found["yield at greatest force"].demand.value == pytest.approx(6 * m / t**2, rel=0.02)


def test_bearers_and_a_saddle_behind_are_a_contradiction():
    """Pressed on both faces the bearers would carry nothing, and their shear was passed at 0."""
    with pytest.raises(InputError, match="stands beside bearers"):
        check_platen(replace(GLUE, pushed=50.0), cases(TONNE), BASIS)


def test_a_saddle_smaller_than_the_plate_is_thick_counts_with_its_equivalent_radius():
    """The stress under a point stays finite: it is that of radius 0.325 t."""
    part = Platen("p", 500.0, 500.0, 40.0, STEEL)
    point = findings(part, cases(5e4, along=0.0, across=0.0))["yield at greatest force"]
    small = findings(part, cases(5e4, along=26.0, shape="round"))["yield at greatest force"]
    wide = findings(part, cases(5e4, along=100.0, shape="round"))["yield at greatest force"]
    assert point.demand.value > small.demand.value > wide.demand.value
    assert findings(part, cases(5e4, along=0.0, across=0.0))["punching"].verdict == "fails"


def test_a_platen_that_lifts_off_its_bearer_is_not_checked():
    """A force on the overhang pulls the far bearer: every check is not checked, none passes."""
    found = findings(GLUE, cases(1e5, along=100.0, at=100.0))
    assert {f.verdict for f in found.values()} == {"not checked"}
    assert all("lifts off" in f.reason for f in found.values())


def test_a_thick_short_platen_has_no_flatness():
    """Spanning less than five times its thickness, bending alone understates the deflection (PT-16, memory)."""
    part = Platen("p", 100.0, 100.0, 25.0, STEEL, flatness=0.1)
    assert findings(part, cases(1e4, along=40.0, across=40.0))["platen flatness"].verdict == "not checked"


def test_large_deflection_is_said():
    """Over half the thickness (PT-16, memory) theory and platen are both beyond their use."""
    outcome = check_platen(replace(GLUE, thickness=8.0), cases(5 * TONNE), BASIS)
    assert any("half its thickness" in text for text in outcome.advice)


def test_three_bearers_use_the_elastic_field():
    """With a bearer under the load nothing much bends."""
    two = findings(replace(GLUE, bearers=(100.0, 1300.0)), cases(TONNE, along=60.0))
    three = findings(replace(GLUE, bearers=(100.0, 700.0, 1300.0)), cases(TONNE, along=60.0))
    assert three["bending"].utilisation < 0.3 * two["bending"].utilisation


def test_nonsense_is_refused():
    """A patch beside the platen, one bearer, bearers beyond the ends."""
    with pytest.raises(InputError, match="is not on the platen"):
        check_platen(GLUE, [PlatenLoads(RATED, 1.0, along=100.0, at=20.0)], BASIS)
    with pytest.raises(InputError, match="are not two places"):
        check_platen(replace(GLUE, bearers=(100.0,)), [], BASIS)
    with pytest.raises(InputError, match="stand beyond"):
        check_platen(replace(GLUE, bearers=1500.0), [], BASIS)


@settings(max_examples=15, deadline=None)
@given(along=st.floats(20.0, 600.0), force=st.floats(1e3, 5e5), t=st.floats(8.0, 14.0))
def test_more_force_or_less_plate_never_helps(along, force, t):
    """Utilisations are linear in the force and fall with the thickness (within one step of strength)."""
    part = replace(GLUE, thickness=t)
    base = findings(part, cases(force, along=along, across=100.0))
    more = findings(part, cases(2 * force, along=along, across=100.0))
    thick = findings(replace(part, thickness=1.1 * t), cases(force, along=along, across=100.0))
    for check, finding in base.items():
        assert more[check].utilisation == pytest.approx(2 * finding.utilisation)
        assert thick[check].utilisation <= finding.utilisation * (1 + 1e-9)


@pytest.mark.parametrize("bearers", [620.0, (390.0, 1010.0), (390.0, 1040.0), None])
@pytest.mark.parametrize(("first", "second"), [((640.0, 20.0), (760.0, -20.0)), ((760.0, -20.0), (640.0, 20.0))])
def test_a_load_beside_its_mirror_image_is_judged_as_if_alone_only_where_the_plate_is_alike(bearers, first, second):
    """Derived: the worse of two places, each judged by itself."""
    part = replace(GLUE, bearers=bearers, flatness=None)
    both = [cases(20 * TONNE, along=200.0, across=200.0, at=at, aside=aside) for at, aside in (first, second)]
    alone = [findings(part, loads) for loads in both]
    for check, found in findings(part, [*both[0], *both[1]]).items():
        assert found.utilisation == pytest.approx(max(one[check].utilisation for one in alone), rel=1e-9), check


def test_a_force_not_said_to_press_less_than_the_whole_platen_is_a_condition():
    """Statics: in the middle of two bearers F L / 4, spread over them F L / 8: the kinder one was taken in silence."""
    said = [a.condition for a in check_platen(GLUE, cases(TONNE), BASIS).assumptions if a.condition]
    assert said == ['the force presses platen "bed" from side to side']
    small = check_platen(GLUE, cases(TONNE, along=1400.0, across=350.0), BASIS)
    assert not [a for a in small.assumptions if a.condition]
    pushed = check_platen(replace(GLUE, bearers=None, pushed=60.0), cases(TONNE), BASIS)
    assert not [a for a in pushed.assumptions if a.condition]
