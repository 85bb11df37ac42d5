"""Bolt groups as a builder asks about them: what each check answers, refuses and assumes."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.checks.basis import GREATEST, RATED, ULTIMATE, Basis
from structcheck.checks.bolts import NEEDED, BoltLoads, check_bolts
from structcheck.checks.bolts_strength import one_plane
from structcheck.errors import InputError
from structcheck.findings import Result
from tests.checks.bolt_parts import BASIS, answer, full, group, loads
from tests.printed import printed


# UK design tables to Eurocode 3, class 8.8 (read).
def test_one_bolt_in_one_plane():
    """M16 8.8, thread in the plane: 60.3 kN; tension 90.4 kN."""
    found = answer(group(end=35.0, edge=30.0), loads(shear=10e3, tension=10e3))
    assert found["bolt shear"].capacity.as_dict()["value"] == printed("60.3")
    assert found["bolt tension"].capacity.as_dict()["value"] == printed("90.4")


def test_every_needed_check_is_answered_one_way_or_another():
    """A finding, or a reason why it cannot occur."""
    for given_loads in (loads(shear=10e3), loads(tension=10e3), loads(shear=1e3, tension=1e3), ()):
        outcome = check_bolts(full(), given_loads, BASIS)
        answered = {f.check for f in outcome.findings} | {n.check for n in outcome.does_not_apply}
        assert answered >= set(NEEDED)


def test_class_12_9_and_s185_are_outside():
    """Strength is not checked, with the reason; yield still is."""
    found = answer(full(bolt_class="12.9"), loads(shear=10e3))
    assert found["bolt shear"].reason == "class 12.9 is outside EN 1993-1-8 Table 3.1"
    found = answer(full(steel="S185"), loads(shear=10e3))
    assert found["net section"].reason == "S185 is outside EN 1993-1-1"
    assert found["yield at greatest force"].verdict == "holds"


def test_unmarked_bolts_hold_only_if_confirmed():
    """f_ub 400 with the lower shear factor: 25.1 kN, and a condition on the verdict."""
    part = full(bolt_class="unknown", thread="out")
    outcome = check_bolts(part, loads(shear=10e3), Basis(static=True))
    assert one_plane(group(bolt_class="unknown"), BASIS) / 1e3 == printed("25.1")
    assert Result("", {}, outcome).verdict == "holds if"
    assert "f_ub >= 400 MPa" in {a.condition for a in outcome.assumptions}


def test_missing_distances_are_not_passed():
    """What needs them is not checked; the bolt itself still is."""
    found = answer(group(), loads(shear=10e3))
    assert found["bolt shear"].verdict == "holds"
    for check in ("bolt bearing", "net section", "block tearing", "bolt spacing", "yield at greatest force"):
        assert found[check].verdict == "not checked", check


def test_a_bolt_beyond_yield_fails_even_where_the_plate_is_not_known():
    """A certain failure is not hidden behind a missing edge."""
    assert answer(group(), loads(shear=58e3))["yield at greatest force"].verdict == "fails"


def test_doubling_every_action_doubles_every_utilisation():
    """Also where shear, pull, slip and bending of the plate meet."""
    part = full(category="B", lever=30.0, edge=32.0, thread="out")
    once = answer(part, loads(shear=20e3, eccentricity=40.0, tension=30e3, bend_y=1e6))
    twice = answer(part, loads(shear=40e3, eccentricity=40.0, tension=60e3, bend_y=2e6))
    for check, finding in once.items():
        if check != "bolt spacing" and finding.utilisation is not None:
            assert twice[check].utilisation == pytest.approx(2 * finding.utilisation), check


@settings(max_examples=30, deadline=None)
@given(st.floats(1e3, 5e4), st.floats(-150, 150), st.floats(1.0, 2.0))
def test_the_side_of_the_force_and_more_of_it(shear, eccentricity, more):
    """Mirrored, the joint is worked alike; more load is never less worked."""
    part = full(plate_runs="across")
    one = answer(part, loads(shear, eccentricity))
    mirrored, heavier = answer(part, loads(shear, -eccentricity)), answer(part, loads(shear * more, eccentricity))
    for check in ("bolt shear", "bolt bearing", "net section", "block tearing", "yield at greatest force"):
        assert mirrored[check].utilisation == pytest.approx(one[check].utilisation), check
        assert heavier[check].utilisation >= one[check].utilisation * (1 - 1e-9), check


def test_positions_give_the_same_as_rows_and_columns():
    """A layout of the same four spots, from another origin and in another order."""
    spots = ((180.0, 160.0), (100.0, 100.0), (180.0, 100.0), (100.0, 160.0))
    free = full(rows=1, columns=1, pitch=None, gauge=None, layout=spots)
    one, other = answer(full(), loads(30e3, 50.0)), answer(free, loads(30e3, 50.0))
    for check in ("bolt shear", "bolt bearing", "net section", "block tearing"):
        assert other[check].utilisation == pytest.approx(one[check].utilisation), check


def test_plastic_sharing_is_refused_without_reason_to_trust_it():
    """3.12: not under knocks, not in joints held by friction, not where shear governs."""
    thin = {"plate": 4.0, "spread": "plastic", "thread": "out"}
    refused = answer(full(**thin), loads(10e3, 60.0))["bolt shear"]
    assert refused.verdict == "not checked"
    assert "steady = true" in refused.reason
    steady = answer(full(steady=True, **thin), loads(10e3, 60.0))
    elastic = answer(full(plate=4.0, thread="out"), loads(10e3, 60.0))
    assert steady["bolt shear"].utilisation <= elastic["bolt shear"].utilisation
    thick = answer(full(steady=True, spread="plastic", plate=20.0), loads(10e3, 60.0))
    assert "below its bearing" in thick["bolt shear"].reason
    grip = answer(full(steady=True, category="C", **thin), loads(10e3, 60.0))
    assert "hold by friction" in grip["bolt bearing"].reason


def test_a_tube_is_not_clamped():
    """Preload without a sleeve bends the walls: no slip resistance."""
    part = full(category="C", ply=4.0, inner=10.0, gap=31.0, planes=2)
    assert "sleeve" in answer(part, loads(shear=10e3))["slip"].reason


@pytest.mark.parametrize(
    ("keys", "text"),
    [
        (
            {"rows": 2, "pitch": None},
            'bolts "b", pitch: is missing: 2 rows stand some distance apart\n'
            '  wanted: a length in mm\n  try:    pitch = "60 mm"',
        ),
        (
            {"hole": 14.0},
            'bolts "b", hole: 14 mm is smaller than M16\n'
            '  wanted: at least the bolt\'s 16 mm\n  try:    hole = "18 mm"',
        ),
        (
            {"pitch": 18.0},
            'bolts "b", pitch: 18 mm lets holes of 18 mm run into each other\n'
            "  wanted: more than 18 mm; Table 3.3 asks for 39.6 mm and more",
        ),
        (
            {"edge": 8.0},
            'bolts "b", edge: 8 mm lets the hole of 18 mm break out of the plate\n'
            "  wanted: more than half the hole; Table 3.3 asks for 21.6 mm",
        ),
        (
            {"grip": 40.0, "length": 50.0},
            'bolts "b", length: 50 mm is too short for a grip of 40 mm\n  wanted: 56 mm or more',
        ),
    ],
)
def test_what_cannot_be_built_is_told(keys, text):
    """Place, what was found, what is wanted, what to write."""
    with pytest.raises(InputError) as error:
        check_bolts(full(**keys), loads(shear=1e3), BASIS)
    assert str(error.value) == text


@pytest.mark.parametrize(
    ("keys", "key", "fault"),
    [
        ({"ply": 20.0}, "ply", "is more than the plate of 10 mm"),
        ({"grip": 8.0}, "grip", "is less than the plate of 10 mm"),
        ({"length": 20.0}, "length", "is too short for a grip of 10 mm"),
        ({"sink": 6.0}, "sink", "stands without `countersunk`"),
        ({"countersunk": True, "sink": 12.0}, "sink", "is deeper than the plate"),
        ({"inner": 10.0}, "inner", "stands without `gap`"),
        ({"mu": 0.5}, "mu", "means nothing in category A"),
        ({"single_lap": True, "planes": 2}, "single_lap", "stands beside 2 shear planes"),
        ({"rows": 1, "columns": 1, "layout": ((0.0, 0.0), (0.0, 60.0))}, "pitch", "stands beside layout"),
    ],
)
def test_keys_that_contradict_each_other_are_told(keys, key, fault):
    """Otherwise one of the two would be dropped without a word."""
    with pytest.raises(InputError) as error:
        check_bolts(full(**keys), loads(shear=1e3), BASIS)
    assert any(problem.key == key and fault in problem.fault for problem in error.value.problems)


def test_a_plate_under_three_millimetres_is_outside():
    """EN 1993-1-1 1.1.2(1); the thinnest of a sum counts."""
    for keys in ({"plate": 2.5}, {"plate": 5.0, "ply": 2.5}):
        found = answer(full(**keys), loads(shear=1e3))
        for check in ("bolt bearing", "net section", "block tearing"):
            assert found[check].reason.startswith("2.5 mm is thinner than the 3 mm"), check


def test_a_second_opinion_is_an_answer_not_a_finding():
    """The instantaneous centre is printed beside the elastic finding, where the force stands beside the centre."""
    answers = check_bolts(full(), loads(40e3, 50.0), BASIS).answers
    assert any("by the instantaneous centre, a method EN 1993-1-8 does not have" in text for text in answers)
    assert not any("instantaneous" in text for text in check_bolts(full(), loads(40e3), BASIS).answers)


def test_one_bolt_beside_the_force_is_refused():
    """The plates would turn about it."""
    with pytest.raises(InputError, match="turns the plates about the only bolt"):
        check_bolts(group(end=35.0, edge=30.0), loads(shear=1e3, eccentricity=20.0), BASIS)


def test_the_case_that_governs_is_named():
    """Two ultimate cases: the heavier one; rated and greatest feed their own checks."""
    worse = replace(ULTIMATE, name="off centre in line, left")
    given_loads = (BoltLoads(ULTIMATE, 20e3), BoltLoads(worse, 30e3), BoltLoads(GREATEST, 15e3), BoltLoads(RATED, 10e3))
    found = answer(full(), given_loads)
    assert found["bolt shear"].case == "off centre in line, left"
    assert found["yield at greatest force"].case == "greatest force"


def test_a_moment_alone_is_judged_as_a_load_factor_and_tears_no_block():
    """Bearing and net section judge it; 3.10.2 speaks of a force."""
    outcome = check_bolts(full(), loads(twist=2e6), BASIS)
    found = {f.check: f for f in outcome.findings}
    assert found["bolt shear"].capacity.as_dict() == {"value": 1.0, "unit": ""}
    assert "block tearing" in {n.check for n in outcome.does_not_apply}
    double = answer(full(), loads(twist=4e6))
    assert double["net section"].utilisation == pytest.approx(2 * found["net section"].utilisation)


def test_plates_pressed_together_pull_no_bolt():
    """A negative tension is no tension, and no pass either where nothing else is asked."""
    found = answer(full(), loads(tension=-10e3))
    assert found["bolt tension"].verdict == "not checked"
    sheared = check_bolts(full(), loads(shear=10e3, tension=-10e3), BASIS)
    assert "bolt tension" in {n.check for n in sheared.does_not_apply}


def test_a_moment_nobody_typed_is_not_checked_where_the_bolts_cannot_hold_it():
    """A frame's moment on one bolt, or across a single line of bolts: said, not raised; noise is no moment."""
    one = answer(group(end=35.0, edge=30.0), loads(shear=1e3, twist=1e5))
    assert one["bolt shear"].reason.startswith("one bolt cannot hold a moment")
    line = answer(full(columns=1, gauge=None), loads(shear=1e3, tension=1e3, bend_x=1e5))
    assert line["bolt tension"].reason.startswith("bolts in one line cannot hold bending")
    assert line["fatigue"].verdict == line["yield at greatest force"].verdict == "not checked"
    noise = answer(full(columns=1, gauge=None), loads(shear=1e3, tension=1e3, bend_x=1e-9, twist=1e-9))
    assert noise["bolt tension"].verdict == "holds"
