"""Spreader plates between a jack and the webs."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.analysis.plate import Patch, Plate, solve_plate
from structcheck.checks.basis import GREATEST, RATED, ULTIMATE, Basis
from structcheck.checks.spreader import Spreader, SpreaderLoads, check_spreader, unit_moments, webs_share
from structcheck.errors import InputError
from structcheck.materials.steels import find_steel
from tests.printed import printed

BASIS = Basis()
TONNE = 9806.65
STEEL = find_steel("S235")
ORCHARD = Spreader('beam "head"', 2, 27.0, STEEL, 120.0, 120.0, 20.0)


def cases(rated, greatest=1.25, **more):
    return [
        SpreaderLoads(case, rated * factor, **more)
        for case, factor in ((RATED, 1.0), (GREATEST, greatest), (ULTIMATE, 1.5))
    ]


def findings(part, loads):
    return {f.check: f for f in check_spreader(part, loads, BASIS).findings}


def test_orchard_press_spreader_by_hand():
    """8 t on 110 x 110 over webs 27 mm apart: the pad stands 41.5 mm out on each side and that governs.

    M = F / 110 x 41.5^2 / 2 = 7.828 F; width 120 (pad 110 + 20, the plate's 120 ends it); plastic 20^2/4 x 225.
    """
    found = findings(ORCHARD, cases(8 * TONNE, along=110.0, across=110.0))["spreader plate"]
    assert found.capacity.value / 1e3 == printed("344.9")
    assert found.verdict == "holds"


def test_one_web_carries_the_pad_as_two_cantilevers():
    """10 t on 120 x 120 x 20 across one web: M = F a / 8; elastic at 1.1 R it is near yield."""
    part = Spreader('beam "head"', 1, 0.0, STEEL, 120.0, 120.0, 20.0)
    found = findings(part, cases(10 * TONNE, 1.1, along=120.0, across=120.0))
    assert found["spreader plate"].capacity.value == pytest.approx(120 * 400 / 4 * 225 / (120 / 8))
    stress = 1.1 * 10 * TONNE * 120 / 8 / (120 * 400 / 6)
    assert found["yield of the spreader plate"].demand.value == pytest.approx(stress)


def test_stiffeners_under_the_pad_halve_its_moment():
    """On the cross of web and stiffener each strip carries half (strip method)."""
    part = Spreader('beam "head"', 1, 0.0, STEEL, 120.0, 120.0, 20.0)
    load = SpreaderLoads(ULTIMATE, 1.0, 120.0, 120.0)
    assert unit_moments(replace(part, stiffened=True), load) == pytest.approx(unit_moments(part, load) / 2)


def test_two_beams_without_a_plate_are_not_checked():
    """Nothing stated carries the jack over the gap: never a pass."""
    part = Spreader('beam "head"', 2, 27.0)
    outcome = check_spreader(part, cases(1e4, along=60.0), BASIS)
    assert {f.verdict for f in outcome.findings} == {"not checked"}
    assert "no spreader plate" in outcome.findings[0].reason
    alone = check_spreader(Spreader('beam "head"', 1, 0.0), cases(1e4, along=60.0), BASIS)
    assert not alone.findings and {n.check for n in alone.does_not_apply} == {
        "spreader plate",
        "yield of the spreader plate",
    }


def test_the_elastic_moment_covers_plate_elements():
    """Strip with the spread width against elements, S from 27 to 300 mm: at most 6 % above (near the plate's edge)."""
    for webs in (27.0, 80.0, 300.0):
        for pad in (30.0, 60.0, 110.0):
            for along in (pad, pad + 40.0, 400.0):
                across = max(webs, pad) + 20.0
                part = Spreader("s", 2, webs, STEEL, along, across, 20.0)
                places = ((across - webs) / 2, (across + webs) / 2)
                plate = Plate(across, along, 20.0, bearers=places)
                exact = solve_plate(plate, [Patch(1.0, across / 2, along / 2, pad, pad)]).greatest_moment
                assert exact <= 1.06 * unit_moments(part, SpreaderLoads(ULTIMATE, 1.0, pad, pad))


def test_a_round_foot_bends_like_its_lever():
    """The half circle's centroid is 4 r / 3 pi out: the rectangle with that lever has side 0.849 d."""
    part = Spreader("s", 2, 200.0, STEEL, 60.0, 220.0, 20.0)
    rounded = unit_moments(part, SpreaderLoads(ULTIMATE, 1.0, 50.0))
    assert rounded * 60 == pytest.approx(200 / 4 - 4 * 25 / (3 * 3.14159265) / 2, rel=1e-6)


def test_off_centre_jack():
    """10 mm off between webs 27 mm apart puts 87 % on one web; beyond the web the plate tips: not checked."""
    assert webs_share(27.0, 10.0) == pytest.approx(0.870, abs=5e-4)
    wide = replace(ORCHARD, across=160.0)
    assert findings(wide, cases(1e4, along=50.0, across=50.0, offset=10.0))["spreader plate"].verdict == "holds"
    tipped = findings(wide, cases(1e4, along=50.0, across=50.0, offset=20.0))["spreader plate"]
    assert tipped.verdict == "not checked" and "would tip; keep it within 13.5 mm" in tipped.reason


def test_a_jack_over_one_web_rests_on_it_alone():
    """15 mm off between webs 27 mm apart and 7 mm thick: F a / 8 over that web; at 18 mm the plate tips (statics)."""
    part = replace(ORCHARD, web=7.0)
    unit = unit_moments(part, SpreaderLoads(ULTIMATE, 1.0, 60.0, 80.0, 15.0))
    assert unit == pytest.approx(80 / 8 / (60 + 20))
    assert webs_share(27.0, 15.0) == 1.0
    tipped = findings(part, cases(1e4, along=60.0, across=60.0, offset=18.0))["spreader plate"]
    assert tipped.verdict == "not checked" and "within 17 mm" in tipped.reason


def test_a_pad_over_the_edge_presses_on_what_is_on_the_plate():
    """110 wide and 10 mm off on a plate of 120: 100 mm are left about the line of the force, and it is said."""
    load = SpreaderLoads(ULTIMATE, 1.0, 110.0, 110.0, 10.0)
    assert unit_moments(ORCHARD, load) == pytest.approx(unit_moments(ORCHARD, replace(load, across=100.0)))
    texts = [
        a.text for a in check_spreader(ORCHARD, cases(1e4, along=110.0, across=110.0, offset=10.0), BASIS).assumptions
    ]
    assert any("reaches over the plate's edge" in text for text in texts)
    gone = findings(replace(ORCHARD, webs=110.0), cases(1e4, along=50.0, across=50.0, offset=60.0))["spreader plate"]
    assert gone.verdict == "not checked" and "over the edge" in gone.reason


# Derived: thin plate elements on the webs as lines.
@pytest.mark.parametrize(("webs", "pad", "offset"), [(80.0, 60.0, 15.0), (80.0, 30.0, 35.0), (27.0, 60.0, 10.0)])
def test_the_moment_of_an_eccentric_pad_covers_plate_elements(webs, pad, offset):
    """As in the middle, at most 6 % above."""
    across, along = webs + 120.0, pad + 40.0
    part = Spreader("s", 2, webs, STEEL, along, across, 20.0)
    places = ((across - webs) / 2, (across + webs) / 2)
    plate = Plate(across, along, 20.0, bearers=places)
    exact = solve_plate(plate, [Patch(1.0, across / 2 + offset, along / 2, pad, pad)]).greatest_moment
    assert exact <= 1.06 * unit_moments(part, SpreaderLoads(ULTIMATE, 1.0, pad, pad, offset))


def test_a_plate_that_does_not_reach_both_webs_is_refused():
    """And so is one without sizes."""
    with pytest.raises(InputError, match="does not reach both webs"):
        check_spreader(replace(ORCHARD, across=20.0), [], BASIS)
    with pytest.raises(InputError, match="is no size of a plate"):
        check_spreader(replace(ORCHARD, along=None), [], BASIS)


@settings(max_examples=30, deadline=None)
@given(t=st.floats(5.0, 16.0), force=st.floats(1e3, 3e5), webs=st.floats(20.0, 300.0), pad=st.floats(20.0, 110.0))
def test_more_force_or_less_plate_never_helps(t, force, webs, pad):
    """Utilisation grows with the force and falls with the thickness (one step of strength: below 16 mm)."""
    part = Spreader("s", 2, webs, STEEL, 120.0, 320.0, t)
    base = findings(part, cases(force, along=pad, across=pad))
    more = findings(part, cases(1.5 * force, along=pad, across=pad))
    thin = findings(replace(part, thickness=0.8 * t), cases(force, along=pad, across=pad))
    for check, finding in base.items():
        assert more[check].utilisation == pytest.approx(1.5 * finding.utilisation)
        assert thin[check].utilisation >= finding.utilisation
