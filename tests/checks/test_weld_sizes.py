"""Sizes of a simple weld: throat and leg, length and ends, and what the parts take."""

from dataclasses import replace

import pytest

from structcheck.checks.basis import from_rated
from structcheck.checks.weld import WeldLoads
from structcheck.checks.weld_room import most_throat
from structcheck.errors import InputError
from structcheck.findings import Result
from structcheck.questions import ask
from structcheck.sizing.welds import find_throat
from tests.checks.weld_parts import BASIS, PLAIN, S275, S355, ask_weld, found_in
from tests.press.joints_given import CROSS, FLANGE, PLATE, TUBE
from tests.printed import printed
from tests.reference.reading import case


def test_leg_is_turned_into_a_throat():
    """0.7 x the leg, and said so."""
    outcome = ask_weld(replace(PLAIN, throat=None, leg=6.0), along=40e3)
    same = ask_weld(replace(PLAIN, throat=0.7 * 6.0), along=40e3)
    assert found_in(outcome, "weld throat").capacity == found_in(same, "weld throat").capacity
    assert any(a.text == "throat 4.2 mm taken as 0.7 x the smaller leg of 6 mm" for a in outcome.assumptions)


# EN 1993-1-8:2005 4.5.2(1): the height of the largest triangle in the fillet; 6 and 8 mm give 4.8 (derived).
def test_unequal_legs_are_a_throat_of_their_own():
    """6 and 8 mm: 48 / 10; that throat does not lie at 45 degrees, so the simplified rule counts."""
    outcome = ask_weld(replace(PLAIN, throat=None, leg=6.0, leg_2=8.0, method="directional"), along=40e3, across=20e3)
    same = ask_weld(replace(PLAIN, throat=4.8), along=40e3, across=20e3)
    assert found_in(outcome, "weld throat").capacity.value == pytest.approx(
        found_in(same, "weld throat").capacity.value
    )
    assert found_in(outcome, "weld throat").source == "EN 1993-1-8:2005 4.5.3.3"
    assert any(a.text == "throat 4.8 mm of a flat fillet with legs of 6 and 8 mm" for a in outcome.assumptions)
    with pytest.raises(InputError, match="stands without the other leg"):
        ask_weld(replace(PLAIN, leg_2=8.0), along=1e3)


def test_returned_ends_count_whole():
    """weld-11: else a throat is lost at each end."""
    g, expected = case("welds", "weld-11")
    part = replace(PLAIN, throat=float(g["a"]), length=float(g["l"]))
    assert part.effective == printed(expected["l_eff"])
    assert replace(part, returned=True).effective == g["l"]


THROAT = "throat: no less than 3 mm carries load"
LENGTH = "effective length: no less than 30 mm and 6 throats carries load"


@pytest.mark.parametrize(
    "throat, length, demand, capacity, reason",
    [
        (2.5, 120.0, 3.0, 2.5, f"{THROAT} (beside it: effective length 0.27)"),
        (4.0, 37.0, 30.0, 29.0, f"{LENGTH} (beside it: throat 0.75)"),
        (8.0, 63.0, 48.0, 47.0, f"{LENGTH} (beside it: throat 0.38)"),
        (4.0, 120.0, 3.0, 4.0, f"{THROAT} (beside it: effective length 0.27)"),
    ],
)
def test_weld_size_is_the_worst_of_both(throat, length, demand, capacity, reason):
    """Throat 3 mm; effective length 30 mm or 6 a: which it is, and what else was compared, is said."""
    finding = found_in(ask_weld(replace(PLAIN, throat=throat, length=length), along=1e3), "weld size")
    assert (finding.demand.value, finding.capacity.value, finding.reason) == (demand, capacity, reason)


def test_run_of_two_ends_only_fails():
    """A run of 8 mm with a throat of 4 has no length left."""
    outcome = ask_weld(replace(PLAIN, length=8.0), along=1e3)
    assert [found_in(outcome, c).verdict for c in ("weld throat", "weld size", "fatigue")] == [
        "fails",
        "fails",
        "not checked",
    ]


def test_thick_plate_pulled_through_its_thickness_is_a_condition():
    """Over 20 mm: free of layers, else the verdict is only holds if."""
    outcome = ask_weld(replace(PLAIN, thickest=25.0), across=10e3)
    assert Result("", {}, outcome).verdict == "holds if"
    assert "ultrasound" in Result("", {}, outcome).conditions[0].condition
    assert Result("", {}, ask_weld(replace(PLAIN, thickest=25.0), along=10e3)).verdict == "holds"


def test_thin_parts_are_not_covered():
    """4.1: 4 mm, or 2.5 mm for a hollow section."""
    assert (
        "thinner than EN 1993-1-8 4.1"
        in found_in(ask_weld(replace(PLAIN, throat=3.0, thickness=3.0), 1e3), "weld throat").reason
    )
    ring = replace(PLAIN, runs=1, around=True, thickness=3.0)
    assert found_in(ask_weld(ring, across=1e3), "weld throat").verdict == "holds"


def test_throats_the_plates_do_not_take_get_advice():
    """Above 0.7 of the thinner part, or too small for a thick one: advice, never a verdict."""
    assert "above 0.7 x the thinner part of 5 mm" in ask_weld(replace(PLAIN, thickness=5.0), along=1e3).advice[0]
    assert "cools too fast" in ask_weld(replace(PLAIN, thickest=36.0), along=1e3).advice[0]
    assert ask_weld(replace(PLAIN, thickness=10.0, thickest=16.0), along=1e3).advice == ()


def test_throat_as_strong_as_the_part_is_told():
    """Plate 8 S275: 0.504 t on each side; a tube wall of 5 needs twice that share on its one side."""
    (text, *_) = ask_weld(replace(PLAIN, thickness=8.0), along=1e3).answers
    assert text == ("foot: a throat of 4.1 mm on both sides is as strong as the part of 8 mm (4.5.3.2, pulled square)")
    ring = replace(PLAIN, runs=1, around=True, length=300.0, thickness=5.0)
    assert "a throat of 5.1 mm all round" in ask_weld(ring, across=1e3).answers[0]


def test_corners_of_a_hollow_section_are_a_condition():
    """4.14: until the make is stated, or the wall is 4 mm at most."""
    ring = replace(PLAIN, runs=1, around=True, length=300.0, thickness=5.0)
    told = [Result("", {}, ask_weld(part, across=1e3)).verdict for part in (ring, replace(ring, killed=True))]
    assert told == ["holds if", "holds"]
    assert Result("", {}, ask_weld(replace(ring, thickness=4.0), across=1e3)).verdict == "holds"


def test_a_part_thicker_than_its_standard_lists_is_not_judged():
    """EN 10025-2 is listed to 100 mm here."""
    assert "no strength at 120 mm" in found_in(ask_weld(replace(PLAIN, thickest=120.0), 1e3), "weld throat").reason


def test_contradictions_are_named_at_once():
    """No throat, a negative length, no runs."""
    with pytest.raises(InputError) as caught:
        ask_weld(replace(PLAIN, throat=None, length=-5.0, runs=0), along=1e3)
    assert {problem.key for problem in caught.value.problems} == {"throat", "length", "runs"}
    assert 'weld "foot", throat: neither throat nor leg is given' in str(caught.value)
    with pytest.raises(InputError, match="throat and leg are both given"):
        ask_weld(replace(PLAIN, leg=6.0), along=1e3)


# Ours, with no clause: as thick as the part, half as much again where alone, or as strong as the part (4.5.3.2).
@pytest.mark.parametrize(
    ("change", "most"),
    [
        ({"thickness": 5.0}, 5.0),
        ({"thickness": 5.0, "runs": 1}, 7.5),
        ({"thickness": 5.0, "around": True, "runs": 1, "length": 300.0}, 7.5),
        # S355 beyond 16 mm ... 345 and 470 MPa: sqrt(2) x 0.9 x 1.25 / 470 x 355 x 5 / 0.7, all round and uninspected.
        ({"thickness": 5.0, "around": True, "runs": 1, "length": 300.0, "steel": S355, "inspected": False}, 8.58),
    ],
)
def test_a_throat_above_what_the_part_takes_is_refused(change, most):
    """One clear message; just under it there is advice only."""
    part = replace(PLAIN, **change)
    assert any("above 0.7 x" in text for text in ask_weld(replace(part, throat=most * 0.999), along=1e3).advice)
    with pytest.raises(InputError) as caught:
        ask_weld(replace(part, throat=most * 1.01), along=1e3)
    assert [p.key for p in caught.value.problems] == ["throat"]
    assert "is a throat above what a part 5 mm thick takes" in str(caught.value)
    leg = replace(part, throat=None, leg=most * 1.01 / 0.7)
    with pytest.raises(InputError, match="leg: "):
        ask_weld(leg, along=1e3)


def test_thicknesses_the_wrong_way_round_are_refused():
    """`thickness` is the thinner part."""
    with pytest.raises(InputError, match="is the thinner part"):
        ask_weld(replace(PLAIN, thickness=20.0, thickest=10.0), along=1e3)


def test_an_edge_takes_no_leg_that_stands_over_it():
    """A lap along an edge of 5 mm: a leg of 5, so a throat of 3.5 (5 / sqrt(2), derived)."""
    assert most_throat(5.0, S275, True, "edge") == pytest.approx(3.5355, abs=1e-4)
    run = {"start": ["0 mm"] * 3, "end": ["0 mm", "0 mm", "90 mm"], "sides": "lap", "plate": "5 mm"}
    ask("weld_group", {"steel": "S235", "force": "1 kN", "runs": [run | {"throat": "3.5 mm"}]})
    with pytest.raises(InputError, match="stands over it"):
        ask("weld_group", {"steel": "S235", "force": "1 kN", "runs": [run | {"throat": "4 mm"}]})


@pytest.mark.parametrize(
    ("kind", "given", "key"),
    [
        ("end_plate", PLATE | {"section": "IPE 160", "moment": "3 kN m", "web_throat": "9 mm"}, "web_throat"),
        ("end_plate", PLATE | {"section": "IPE 160", "moment": "3 kN m", "flange_throat": "9 mm"}, "flange_throat"),
        ("tube_joint", TUBE | {"pull": "1 kN", "chord_stress": "0 MPa", "throat": "20 mm"}, "throat"),
        ("plate_on_flange", FLANGE | {"pull": "1 kN", "throat": "30 mm"}, "throat"),
        ("cross_plate", CROSS | {"load": "1 kN", "throat": "30 mm"}, "throat"),
    ],
)
def test_no_kind_of_joint_takes_any_throat(kind, given, key):
    """Web and flange, tube, plate: the throat is compared with what it stands on."""
    with pytest.raises(InputError) as caught:
        ask(kind, given)
    assert key in [p.key for p in caught.value.problems] and "above what a part" in str(caught.value)


def test_the_smallest_throat_is_looked_for_within_what_the_part_takes():
    """On 5 mm no throat above 5 is tried, and none of 3 on 2 mm."""
    loads = from_rated(BASIS, lambda case, f: WeldLoads(case, 900e3 * f, 0.0))
    found = find_throat(replace(PLAIN, thickness=5.0), loads, BASIS)
    assert found.throat is None and "no throat up to 5 mm, the most a part of 5 mm takes, holds" in found.reason
    assert "takes no throat of 3 mm" in find_throat(replace(PLAIN, thickness=2.0), loads, BASIS).reason


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"around": True, "one_sided": True, "runs": 1}, "stands beside around"),
        ({"plane": "in"}, "says where a lever lies, and there is none"),
    ],
)
def test_keys_that_contradict_each_other_are_refused(change, words):
    """Said of a weld that cannot have it."""
    with pytest.raises(InputError, match=words):
        ask_weld(replace(PLAIN, **change), along=1e3)
