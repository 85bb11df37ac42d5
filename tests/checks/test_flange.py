"""Flanges bent between web and tip."""

from dataclasses import replace

import pytest

from structcheck.analysis.plate import Patch, Plate, solve_plate
from structcheck.checks.basis import GREATEST, RATED, ULTIMATE, Basis
from structcheck.checks.flange import Flange, FlangeLoad, check_flange
from structcheck.errors import InputError
from structcheck.materials.steels import find_steel
from structcheck.shapes.library import look_up

BASIS = Basis()
PART = Flange("bed", look_up("HEB 200").section, find_steel("S235"))


def cases(rated, M=0.0, **more):
    return [
        FlangeLoad(case, rated * factor, M=M * factor, **more)
        for case, factor in ((RATED, 1.0), (GREATEST, 1.25), (ULTIMATE, 1.5))
    ]


def findings(loads, part=PART):
    return {f.check: f for f in check_flange(part, loads, BASIS).findings}


def test_a_clamp_on_the_flange_by_hand():
    """HEB 200: lever 60 less 0.8 x 18 = 45.6; root 50 + 2 x 45.6 = 141.2; two sides of 15^2/4 x 235."""
    found = findings(cases(3e4, lever=60.0, along=50.0))["flange bending"]
    assert found.capacity.value == pytest.approx(2 * 141.2 * 15**2 / 4 * 235 / 45.6)


def test_the_spread_to_the_root_agrees_with_plate_elements():
    """A long cantilever plate under a point at its tip: root moment 0.509 F (Jaramillo), so 1.96 levers of root."""
    plate = Plate(60.0, 1200.0, 15.0, {"left": "clamped"})
    solved = solve_plate(plate, [Patch(1.0, 60.0, 600.0, 0.0, 0.0)], (24, 48))
    assert -solved.m_x.min() == pytest.approx(0.509, abs=0.01)
    assert 1 / -solved.m_x.min() == pytest.approx(1.96, abs=0.05)


def test_the_beams_own_bending_takes_its_square():
    """The answer is exact where both grow together: F/R + s^2 = 1."""
    load = FlangeLoad(ULTIMATE, 3e4, lever=60.0, along=50.0, M=6e7)
    factor = 1 / findings([load])["flange bending"].utilisation
    alone = findings([replace(load, M=0.0)])["flange bending"].capacity.value
    share = factor * 6e7 / PART.section.Wel_y / 235
    assert factor * 3e4 / alone + share**2 == pytest.approx(1.0)


def test_near_the_end_of_the_beam_less_root_bends():
    """At the end only one side of the spread is there."""
    far = findings(cases(3e4, lever=60.0, along=50.0))["flange bending"].capacity.value
    near = findings(cases(3e4, lever=60.0, along=50.0, to_end=0.0))["flange bending"].capacity.value
    assert near / far == pytest.approx((50 + 45.6) / 141.2)


def test_over_the_web_nothing_bends_and_beyond_the_tip_nothing_stands():
    """The lever decides what is asked."""
    outcome = check_flange(PART, cases(3e4, lever=10.0), BASIS)
    assert not outcome.findings and {n.check for n in outcome.does_not_apply} == {
        "flange bending",
        "yield at greatest force",
    }
    with pytest.raises(InputError, match="is beyond the tip"):
        check_flange(PART, cases(3e4, lever=120.0), BASIS)


def test_a_tube_has_no_such_flange():
    """Not checked, never a pass."""
    part = Flange("bed", look_up("SHS 100x100x5").section, find_steel("S235"))
    assert {f.verdict for f in findings(cases(1e4, lever=20.0), part).values()} == {"not checked"}


def test_a_question_and_a_press_file_reach_the_flange():
    """Load factor 1.5; an unstated moment alongside is a condition; too many halves are refused."""
    from structcheck.errors import InputError
    from structcheck.questions import ask, check_press

    words = {"section": "IPE 160", "steel": "S235", "lever": "25 mm", "along": "60 mm", "force": "20 kN"}
    result = ask("flange", words)
    bending = next(f for f in result.findings if f.check == "flange bending")
    assert bending.demand.value == pytest.approx(30e3)
    assert any("moment of the beam alongside" in a.condition for a in result.conditions)
    more = next(f for f in ask("flange", words | {"moment": "6 kN m"}).findings if f.check == "flange bending")
    assert more.utilisation > bending.utilisation
    table = words | {"name": "clamp", "force": 0.2}
    made = check_press({"schema": 1, "jack": {"rating": "100 kN"}, "flange": [table]})
    assert next(f for f in made.findings if f.check == "flange bending").demand.value == pytest.approx(30e3)
    with pytest.raises(InputError, match="more than there are"):
        ask("flange", words | {"sides": 3})
