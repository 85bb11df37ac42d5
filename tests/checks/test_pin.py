"""Pins and eyes as a builder asks about them."""

import math
from dataclasses import replace

import pytest

from structcheck.checks.basis import GREATEST, Basis, from_rated
from structcheck.checks.pin import NEEDED, Pin, PinLoads, check_pin, stresses
from structcheck.errors import InputError
from structcheck.findings import Result
from structcheck.materials.steels import Steel, find_steel
from tests.printed import printed

BASIS = Basis()


def steel(f_y, f_u):
    return Steel("as in the case", "derived", ((100.0, f_y, f_u),), None)


EYES = {"inner_end": 120.0, "inner_edge": 120.0, "outer_end": 120.0, "outer_edge": 120.0}
CASE = Pin(
    name="p",
    diameter=40.0,
    steel=steel(355.0, 490.0),
    inner=20.0,
    outer=12.0,
    gap=2.0,
    hole=41.0,
    replaceable=False,
    inner_steel=steel(345.0, 490.0),
    outer_steel=steel(355.0, 490.0),
)


def loads(pull, basis=BASIS):
    return from_rated(basis, lambda case, factor: PinLoads(case, pull * factor))


def answer(part, pull, basis=BASIS):
    return {finding.check: finding for finding in check_pin(part, loads(pull, basis), basis).findings}


# EN 1993-1-8:2005 3.13, Table 3.10 (formulas read on an extract of the clause; values derived).
def test_shear_and_bending_is_a_load_factor():
    """200 kN: the clause's ratio is 0.265, the pin is truly worked to 0.515."""
    found = answer(CASE, 200e3 / 1.5)["pin shear and bending"]
    assert found.utilisation == printed("0.515")
    assert found.clause_ratio == printed("0.265")
    assert answer(CASE, 400e3 / 1.5)["pin shear and bending"].utilisation == pytest.approx(2 * found.utilisation)


def test_capacities_are_of_the_whole_pin():
    """Two planes of 295.6 kN; the outer plates bear 2 x 255.6, the middle one 414 kN and governs."""
    found = answer(CASE, 100e3)
    assert found["pin shear"].capacity.value / 2e3 == printed("295.6")
    assert found["pin bearing"].capacity.value / 1e3 == printed("414")
    assert found["pin bearing"].reason == "inner plate"
    assert found["pin bending"].capacity.value / 1e6 == printed("3.346")


def test_every_needed_check_is_answered_one_way_or_another():
    """A finding, or a reason why it cannot occur, with or without loads and gaps."""
    for part in (CASE, replace(CASE, gap=None), replace(CASE, replaceable=True)):
        for given in (loads(1e3), ()):
            outcome = check_pin(part, given, BASIS)
            answered = {f.check for f in outcome.findings} | {n.check for n in outcome.does_not_apply}
            assert answered >= set(NEEDED)


def test_replaceable_pins_are_judged_in_service_too():
    """0.6 instead of 1.5 in bearing and 0.8 in bending at rated load, and contact."""
    found = answer(replace(CASE, replaceable=True), 100e3)
    assert (found["pin bearing"].case, found["pin bending"].case) == ("rated", "rated")
    assert found["pin bearing"].capacity.value == pytest.approx(0.6 * 20 * 40 * 345)
    assert found["pin bending"].capacity.value == pytest.approx(0.8 * math.pi * 40**3 / 32 * 355)


def test_contact_grows_with_the_root_of_the_force():
    """The clause's ratio is of stresses; the utilisation doubles with the force."""
    part = replace(CASE, replaceable=True)
    one, two = answer(part, 50e3)["pin contact"], answer(part, 100e3)["pin contact"]
    stress = 0.591 * math.sqrt(210e3 * 50e3 * 1.0 / (40**2 * 20))
    assert one.clause_ratio == pytest.approx(stress / (2.5 * 345))
    assert one.utilisation == pytest.approx(one.clause_ratio**2)
    assert two.utilisation == pytest.approx(2 * one.utilisation)


def test_the_gap_is_part_of_the_lever():
    """A clevis 10 mm loose on each side bends its pin more; a gap not stated is no pass."""
    tight, loose = answer(CASE, 50e3)["pin bending"], answer(replace(CASE, gap=10.0), 50e3)["pin bending"]
    assert loose.demand.value / tight.demand.value == pytest.approx((20 + 40 + 24) / (20 + 8 + 24))
    missing = answer(replace(CASE, gap=None), 50e3)
    for check in ("pin bending", "pin shear and bending", "yield at greatest force", "fatigue"):
        assert missing[check].verdict == "not checked"


# EN 1993-1-8:2005 Table 3.9 type A at 200 kN (derived): a 41.8 mm, c 28.2 mm from the edge of the hole.
def test_eyes_are_measured_from_the_edge_of_the_hole():
    """An inner plate cut to just these lengths is used up at 200 kN; a hair less fails."""
    a, c = 41.826 + 20.5, 28.159 + 20.5
    wide = {"outer_end": 120.0, "outer_edge": 120.0}
    found = answer(replace(CASE, inner_end=a, inner_edge=c, **wide), 200e3 / 1.5)["lug geometry"]
    assert found.utilisation == pytest.approx(1.0, abs=1e-4)
    assert (
        answer(replace(CASE, inner_end=a - 0.1, inner_edge=c, **wide), 200e3 / 1.5)["lug geometry"].verdict == "fails"
    )


def test_an_eye_without_material_bears_nothing():
    """Two thirds of the hole behind it are wanted before any force."""
    narrow = replace(CASE, inner_end=40.0, inner_edge=40.0, outer_end=120.0, outer_edge=120.0)
    assert answer(narrow, 1e3)["lug geometry"].verdict == "fails"


# Machine-design lug (derived): 81 kN at 100 MPa on 15 mm, 40 mm from the end, hole 26.
def test_tear_out_counts_two_planes_from_the_holes_edge():
    """The second opinion: at f_y / sqrt(3) of the plate."""
    part = Pin(
        name="p",
        diameter=25.0,
        hole=26.0,
        steel=steel(100 * math.sqrt(3), 400.0),
        inner=15.0,
        outer=15.0,
        gap=0.0,
        inner_steel=steel(100 * math.sqrt(3), 400.0),
        outer_steel=steel(100 * math.sqrt(3), 400.0),
        inner_end=40.0,
        outer_end=40.0,
    )
    assert answer(part, 1e3)["lug tear-out"].capacity.value / 1e3 == printed("81")


def test_a_doubler_adds_to_its_wall():
    """Bearing on wall and doubler together; its weld is said to need a check."""
    thin = replace(CASE, outer=4.0)
    doubled = replace(thin, outer_doubler=6.0)
    weak, strong = answer(thin, 50e3)["pin bearing"], answer(doubled, 50e3)["pin bearing"]
    assert weak.reason == "outer plates"
    assert strong.capacity.value == pytest.approx(min(414e3, 2 * 1.5 * 10 * 40 * 355))
    texts = [a.text for a in check_pin(doubled, loads(50e3), BASIS).assumptions]
    assert any("check that weld" in text for text in texts)


def test_a_slot_takes_from_the_material_behind_the_pin():
    """10 mm of slot, 10 mm less to the end."""
    round_hole = replace(CASE, inner_end=75.0, inner_edge=60.0, outer_end=120.0, outer_edge=120.0)
    slotted = replace(round_hole, slot=10.0)
    shorter = replace(round_hole, inner_end=65.0, outer_end=110.0)
    assert answer(slotted, 50e3)["lug tear-out"].capacity == answer(shorter, 50e3)["lug tear-out"].capacity


def test_plates_of_unstated_steel_are_a_condition():
    """The pin's grade says nothing of the plates it passes through."""
    part = replace(CASE, inner_steel=None, outer_steel=None)
    outcome = check_pin(replace(part, **EYES), loads(20e3), BASIS)
    assert Result("", {}, outcome).verdict == "holds if"
    assert "inner plate of as in the case or better" in {a.condition for a in outcome.assumptions}


def test_steel_outside_en_1993_is_not_checked():
    """S185 has no pin rules."""
    found = answer(replace(CASE, steel=find_steel("S185")), 10e3)
    assert found["pin shear"].reason == "S185 is outside EN 1993-1-1"


# Strength-of-materials quiz sheet (read): 4 kN, 10 mm, two planes. Shigley knuckle joint (derived): 88.4 and 23.6 MPa.
def test_elastic_stresses_of_a_pin():
    """25.5 MPa mean in double shear; 88.4 MPa in bending and 23.6 MPa at most in shear on 12 mm."""
    thin = replace(CASE, diameter=10.0, hole=11.0)
    assert stresses(thin, PinLoads(GREATEST, 4e3))[1] * 3 / 4 == printed("25.5")
    knuckle = replace(CASE, diameter=12.0, hole=13.0, inner=18.0, outer=6.0, gap=0.0)
    bending, shear = stresses(knuckle, PinLoads(GREATEST, 4e3))
    assert bending == printed("88.4")
    assert shear == printed("23.6")


def test_yield_at_greatest_force_governs_over_plastic_bending():
    """1.5 W f_y at 1.5 R is f_y at R: at 1.25 R the pin yields, so it may not hold."""
    found = answer(replace(CASE, **EYES), 200e3)
    assert found["yield at greatest force"].utilisation == pytest.approx(1.25 * found["pin bending"].utilisation)


def test_eyes_whose_sides_are_not_stated_are_not_passed():
    """Yield and fatigue of pin and eyes are one finding; a pin beyond yield fails all the same."""
    found = answer(CASE, 50e3)
    assert found["yield at greatest force"].verdict == found["fatigue"].verdict == "not checked"
    assert answer(CASE, 400e3)["yield at greatest force"].verdict == "fails"
    assert answer(replace(CASE, **EYES), 50e3)["yield at greatest force"].verdict == "holds"


def test_a_pin_thicker_than_its_steel_is_listed_is_not_checked():
    """S355 ends at 100 mm: no strength, no error."""
    part = Pin("p", 120.0, find_steel("S355"), 60.0, 40.0, gap=2.0, **EYES)
    assert "listed to 100 mm" in answer(part, 50e3)["pin shear"].reason


@pytest.mark.parametrize("pulls", [(30e3, 50e3, 40e3), (50e3, -30e3), (20e3, -50e3), (0.0, 50e3)])
def test_of_many_pulls_the_greatest_governs_whichever_way_it_acts(pulls):
    """Derived: every use of a pin grows with its pull."""
    alone = check_pin(CASE, loads(50e3), BASIS)
    many = check_pin(CASE, [load for pull in pulls for load in loads(pull)], BASIS)
    assert {f.check: f.utilisation for f in many.findings} == {f.check: f.utilisation for f in alone.findings}
    assert many.times_on_yield == alone.times_on_yield


@pytest.mark.parametrize(
    ("keys", "text"),
    [
        (
            {"hole": 39.0},
            'pin "p", hole: 39 mm is smaller than the pin\n  wanted: at least 40 mm\n  try:    hole = "41 mm"',
        ),
        (
            {"inner_edge": 20.0},
            'pin "p", inner_edge: 20 mm lets the hole of 41 mm break out of the plate\n'
            "  wanted: more than 20.5 mm, from the hole's centre",
        ),
        ({"gap": -1.0}, 'pin "p", gap: -1 mm is below nothing\n  wanted: nothing or more\n  try:    gap = "1 mm"'),
    ],
)
def test_what_cannot_be_built_is_told(keys, text):
    """Place, what was found, what is wanted, what to write."""
    with pytest.raises(InputError) as error:
        check_pin(replace(CASE, **keys), loads(1e3), BASIS)
    assert str(error.value) == text
