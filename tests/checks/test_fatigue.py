"""Fatigue of a part: the worst detail, lives in presses, what a static use turns off."""

import math
import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.checks.basis import Basis
from structcheck.checks.fatigue import DETAILS, bolt_in_tension, fatigue, life_in_presses, range_allowed
from structcheck.questions import check_beam
from tests.printed import printed
from tests.reference.reading import case

ROOT, SHEAR = DETAILS["weld root"], DETAILS["fillet weld in shear"]


@pytest.mark.parametrize("gamma, key", [(1.0, "life_1_0"), (1.35, "life_1_35")])
def test_life_of_a_weld_root(gamma, key):
    """FAT-02."""
    given_, expected = case("fatigue", "FAT-02")
    assert life_in_presses(DETAILS[given_["detail"]], given_["range"], gamma) == pytest.approx(expected[key], abs=1)


@pytest.mark.parametrize("gamma, key", [(1.0, "life_1_0"), (1.35, "life_1_35")])
def test_life_of_a_bolt_in_tension(gamma, key):
    """FAT-04: on the stress area."""
    given_, expected = case("fatigue", "FAT-04")
    stress = given_["force"] / given_["A_s"]
    assert stress == printed(expected["range"])
    assert life_in_presses(bolt_in_tension(16.0), stress, gamma) == pytest.approx(expected[key], abs=1)


def test_partial_factor_bites_below_the_constant_amplitude_limit():
    """FAT-06: without it the life would be long past the knee, with it 3.33 million."""
    given_, expected = case("fatigue", "FAT-06")
    detail = DETAILS["transverse attachment to 50 mm"]
    assert detail.category == given_["category"]
    assert life_in_presses(detail, given_["range"], 1.35) == pytest.approx(expected["life_1_35"], abs=1)
    assert range_allowed(detail, 5e6, 1.0) == printed(expected["limit"])
    assert range_allowed(detail, 5e6, 1.35) == printed(expected["limit_1_35"])
    assert life_in_presses(detail, given_["range"], 1.0) > 5e6


def test_categories_recalled():
    """Categories and slopes of EN 1993-1-9 tables 8.1 to 8.5, memory; each says so."""
    named = {"weld root": 36, "fillet weld in shear": 80, "transverse attachment to 50 mm": 80}
    named |= {"transverse attachment to 80 mm": 71, "rolled parent metal": 160, "cut edge": 125}
    named |= {"plate with holes": 90, "plate with ordinary bolts": 50, "bolt in tension": 50, "bolt in shear": 100}
    assert {name: DETAILS[name].category for name in named} == named
    assert {name for name, d in DETAILS.items() if d.m == 5} == {
        "bolt in shear",
        "parent metal in shear",
        "fillet weld in shear",
    }
    assert all("recalled, not read" in d.source for d in DETAILS.values())
    assert bolt_in_tension(30.0).category == 50
    assert bolt_in_tension(48.0).category == printed("44.46")


def test_finding_of_the_worst_detail():
    """Demand is the range at rated force, capacity the range allowed at the stated presses."""
    outcome = fatigue("head", [(ROOT, 60.0), (SHEAR, 60.0)], Basis(presses=50_000))
    (finding,) = outcome.findings
    assert finding.check == "fatigue"
    assert finding.case == "rated"
    assert finding.demand.value == 60.0
    # 36 (2e6 / 5e4)^(1/3) / 1.35
    assert finding.capacity.value == printed("91.2")
    assert finding.reason == "weld root, category 36: life 175 000 presses"
    assert outcome.answers == (
        "head: weld root (category 36) at a range of 60 MPa, life 175 000 presses",
        "head: fillet weld in shear (category 80) at a range of 60 MPa, life 1 870 000 presses",
    )


def test_few_presses_are_judged_where_the_curves_begin():
    """Under 10 000 presses no more range is allowed than at 10 000."""
    few, many = (fatigue("p", [(ROOT, 60.0)], Basis(presses=n)).findings[0] for n in (500, 10_000))
    assert few.capacity == many.capacity
    assert few.reason.endswith("judged at 10 000 presses, where the curves begin (500 are stated)")
    assert "judged at" not in many.reason


def test_static_use_turns_the_verdict_off_but_prints_the_life():
    """The user's statement stands as the reason, the shortest life with it."""
    outcome = fatigue("p", [(ROOT, 200.0), (SHEAR, 60.0)], Basis(static=True))
    assert outcome.findings == ()
    (left_out,) = outcome.does_not_apply
    assert left_out.reason == (
        "the use states static = true, no verdict on fatigue; "
        "shortest life under 10 000 presses, where the curves begin"
    )
    assert len(outcome.answers) == 2


def test_direct_and_shear_at_one_spot_add_their_damages():
    """Each alone holds with room; together they do not: n/N + n/N is above 1."""
    ranges, basis = [(ROOT, 80.0), (SHEAR, 112.0)], Basis(presses=50_000)
    assert all(fatigue("p", [one], basis).findings[0].verdict == "holds" for one in ranges)
    (finding,) = fatigue("p", ranges, basis, together=True).findings
    assert finding.verdict == "fails"
    damage = sum(50_000 / life_in_presses(d, s, 1.35) for d, s in ranges)
    assert finding.clause_ratio == pytest.approx(damage)
    # The utilisation is the inverse of the factor at which the damage is just 1.
    factor = 1 / finding.utilisation
    assert sum(50_000 / life_in_presses(d, factor * s, 1.35) for d, s in ranges) == pytest.approx(1.0, rel=1e-9)


def test_nothing_known_is_no_pass():
    """No range, or one that is not a number."""
    assert fatigue("p", [], Basis()).findings[0].verdict == "not checked"
    assert fatigue("p", [(ROOT, math.nan)], Basis()).findings[0].verdict == "fails"
    assert fatigue("p", [(ROOT, math.nan), (SHEAR, 1.0)], Basis(), together=True).findings[0].verdict == "fails"
    assert fatigue("p", [(ROOT, 0.0)], Basis()).findings[0].utilisation == 0


def test_a_range_over_one_and_a_half_yield_is_never_allowed():
    """Clause 8(1), where the detail knows its yield strength."""
    detail = replace(DETAILS["rolled parent metal"], most=1.5 * 235)
    assert range_allowed(detail, 1e4, 1.0) == 352.5
    assert range_allowed(DETAILS["rolled parent metal"], 1e4, 1.0) > 352.5


@settings(max_examples=50, deadline=None)
@given(
    st.sampled_from(sorted(DETAILS)),
    st.floats(1.0, 600.0),
    st.floats(1.01, 3.0),
    st.floats(1e4, 9e7),
    st.floats(1, 1.4),
)
def test_more_range_never_lives_longer(name, stress, more, presses, gamma):
    """Life falls with the range; the allowed range falls with the presses; both tell the same story."""
    detail = DETAILS[name]
    assert life_in_presses(detail, more * stress, gamma) <= life_in_presses(detail, stress, gamma)
    assert range_allowed(detail, more * presses, gamma) <= range_allowed(detail, presses, gamma)
    allowed = range_allowed(detail, presses, gamma)
    assert (
        life_in_presses(detail, allowed * 1.000001, gamma) <= presses <= life_in_presses(detail, allowed * 0.999, gamma)
    )


@pytest.mark.parametrize("section", ["UPN 120", "SHS 100x100x5", "FL 80x20"])
def test_the_line_offered_confirms_that_nothing_is_welded_on(section):
    """`detail`, as the assumption says to write it, takes the condition away."""
    asked = {"section": section, "steel": "S275", "span": "900 mm", "load": "2 t"}
    (taken,) = [a.text for a in check_beam(**asked).assumptions if "says so" in a.text]
    detail = re.search(r'detail = "([^"]*)"', taken)[1]
    assert not [one for one in check_beam(**asked, detail=detail).conditions if "welded on" in one.condition]
