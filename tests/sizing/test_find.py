"""The unknown asked for: the smallest that holds by the same checks as the question, and why the next smaller fails."""

import pytest

from structcheck.errors import InputError
from structcheck.findings import Amount, Finding, Outcome, Result
from structcheck.questions import check_beam, check_bolts, check_pin, check_weld
from structcheck.shapes.library import matching
from structcheck.sizing.answer import Answer
from structcheck.sizing.find import (
    UNKNOWNS,
    find,
    find_count,
    find_diameter,
    find_lightest_section,
    find_size,
    find_spring,
    find_throat,
)

BOLTS = {
    "size": "M16",
    "bolt_class": "8.8",
    "pitch": "60 mm",
    "gauge": "80 mm",
    "end": "45 mm",
    "edge": "45 mm",
    "plate": "10 mm",
    "steel": "S275",
    "shear": "150 kN",
    "thread": "out",
    "static": True,
}
WELD = {"length": "120 mm", "runs": 2, "steel": "S275", "along": "100 kN", "inspected": True}
PIN = {
    "steel": "S355",
    "inner": "20 mm",
    "outer": "12 mm",
    "gap": "2 mm",
    "pull": "4 t",
    "inner_end": "50 mm",
    "inner_edge": "50 mm",
    "outer_end": "50 mm",
    "outer_edge": "50 mm",
}
BEAM = {"steel": "S275", "span": "900 mm", "load": "8 t", "pieces": 2, "pad": "80 mm", "bearing": "80 mm", "tied": True}
# Example A of the invented presses: 25 kg, 150 mm of stroke, 420 mm of room, rods of 30 mm, a jack of 8 t.
ORCHARD = {"lifts": "25 kg", "travel": "150 mm", "space": "420 mm", "count": 2, "rod": "30 mm", "rating": "8 t"}


def fails(result):
    return {f.check for f in result.findings if f.verdict == "fails"}


def test_the_orchard_press_gets_a_spring_stiff_enough_and_sees_why_the_next_softer_is_not():
    """The 6 mm spring presses with 940.5 N at the top of the stroke, the 5.5 mm one with 647 N of the 745 N needed."""
    answer = find_spring(**ORCHARD)
    assert answer.found["spring"] == "CS 6.0x42x38"
    assert answer.found["pressed"] == Amount(270.0, "mm")
    assert answer.result.verdict == "holds if"
    assert next(a.condition for a in answer.result.conditions).startswith("the maker of CS 6.0x42x38 permits")
    assert find_spring(**ORCHARD, presses_per_day=4.0).result.verdict == "holds"
    assert answer.smaller == "next softer, CS 5.5x40x38 (preload 647 N): spring return force: 745.2 against 647.4 N"
    back = next(f for f in answer.result.findings if f.check == "spring return force")
    assert (back.demand.value, back.capacity.value) == (pytest.approx(745.2, abs=0.05), pytest.approx(940.5, abs=0.05))
    assert any(f.check == "spring force at full stroke" for f in answer.result.findings)


def test_a_spring_comes_from_a_list_of_ones_own(tmp_path):
    """And the made ones are told beside it; an invented list says that it is invented."""
    mine = tmp_path / "mine.csv"
    mine.write_text("name,wire,mean,turns,ends,grade,coiling,free\nA,6,42,38,ground,SM,cold,515\n", encoding="utf-8")
    own, ours = find_spring(stock=str(mine), **ORCHARD), find_spring(**ORCHARD)
    assert own.found["spring"] == "A"
    assert own.smaller == ""
    assert any(line.startswith("made from wire: wire") for line in own.others)
    assert any("is invented" in line for line in ours.others) and not any("is invented" in line for line in own.others)


def test_no_spring_is_an_answer_too():
    """2.5 t on two springs of the list: none, and what the nearest lacks."""
    answer = find_spring(**ORCHARD | {"lifts": "2500 kg"})
    assert answer.found is None
    assert answer.result.verdict == "fails"
    assert answer.reason.startswith("none of the ")


@pytest.mark.parametrize("unknown", sorted({name for names in UNKNOWNS.values() for name in names}))
@pytest.mark.parametrize("findings", [(), (Finding("p", "c", "", None, None, 0.5, "holds", "s"),)])
def test_nothing_found_never_holds(unknown, findings):
    """Whatever was asked for and whatever its result says: the search itself is then what fails."""
    answer = Answer(unknown, None, Result("", {}, Outcome(findings)), reason="none does")
    assert answer.result.verdict == "fails" and answer.result.exit_status == 1
    assert answer.as_dict()["verdict"] == "fails"
    assert answer.result.findings[-1].reason == "none does"


@pytest.mark.parametrize(
    ("kind", "unknown", "given"),
    [
        ("bolts", "count", BOLTS | {"shear": "2000 kN"}),
        ("bolts", "size", BOLTS | {"rows": 1, "columns": 1, "shear": "2000 kN"}),
        ("weld", "throat", WELD | {"along": "2000 kN"}),
        ("pin", "diameter", PIN | {"pull": "400 t"}),
        ("beam", "section", BEAM | {"section": "UPN *", "load": "300 t"}),
        ("spring", "spring", ORCHARD | {"rod": "50 mm"}),
        ("spring", "spring", ORCHARD | {"rod": "300 mm"}),
    ],
)
def test_too_much_asked_fails_in_every_search(kind, unknown, given):
    """By the real searches."""
    answer = find(kind, unknown, given)
    assert answer.found is None
    assert answer.result.verdict == "fails"


def test_an_empty_stock_list_fails(tmp_path):
    """No spring was looked at: no finding speaks against one, and that is no pass."""
    empty = tmp_path / "none.csv"
    empty.write_text("name,wire,mean,turns,ends,grade,coiling,free\n", encoding="utf-8")
    answer = find_spring(stock=str(empty), **ORCHARD)
    assert (answer.reason, answer.result.exit_status) == ("the stock list is empty", 1)


def test_the_fit_over_the_rod_is_judged_on_the_spring_found():
    """30 mm and half a millimetre of play against 36 mm inside."""
    fit = next(f for f in find_spring(**ORCHARD).result.findings if f.check == "spring guide fit")
    assert (fit.demand.value, fit.capacity.value, fit.verdict) == (30.5, 36.0, "holds")


def test_one_bolt_is_said_to_turn():
    """Two need no such line."""
    one, more = find_count(**BOLTS | {"shear": "10 kN"}), find_count(**BOLTS)
    assert (one.found["rows"], one.found["columns"]) == (1, 1)
    assert any(line.startswith("one bolt alone lets the part turn") for line in one.lines)
    assert not any(line.startswith("one bolt alone") for line in more.lines)


def test_a_section_kept_out_by_the_spot_of_the_force_says_what_to_state():
    """8 t over 900 mm as lines on UPN: only the web under load keeps UPN 280 out; stated, it is silent."""
    bare = {key: value for key, value in BEAM.items() if key not in ("pad", "bearing")}
    lines = find_lightest_section(section="UPN *", **bare).lines
    assert any("web under load governs: state bearing, pad or held_by where" in line for line in lines)
    stated = find_lightest_section(section="UPN *", **BEAM | {"held_by": "flange"})
    assert not any("governs: state" in line for line in stated.lines)


def test_a_rod_of_unknown_diameter_is_said():
    """Held on it, but whether the coil goes over it is not judged."""
    wanted = {key: value for key, value in ORCHARD.items() if key != "rod"} | {"held": "rod"}
    answer = find_spring(**wanted)
    assert answer.found["spring"] == "CS 6.0x42x38"
    assert any("a rod of 27 to 35.5 mm is taken" in one.text for one in answer.result.assumptions)


def test_the_fewest_bolts_are_those_the_question_confirms():
    """What is found holds when asked; the next smaller pattern fails when asked."""
    answer = find_count(**BOLTS)
    again = check_bolts(**BOLTS | {"rows": answer.found["rows"], "columns": answer.found["columns"]})
    assert not fails(answer.result)
    assert answer.result.findings == again.findings
    assert answer.smaller.startswith("next smaller, rows ")
    count = answer.found["rows"] * answer.found["columns"]
    for rows in range(1, count):
        assert fails(check_bolts(**BOLTS | {"rows": rows, "columns": 1})), rows


def test_a_pitch_nobody_stated_is_part_of_the_answer():
    """Three holes of 18 mm in steps of 5: 55 mm."""
    answer = find_count(**{key: value for key, value in BOLTS.items() if key not in ("pitch", "gauge")})
    assert answer.found["pitch"] == Amount(55.0, "mm")


def test_bolts_outside_the_method_are_not_found():
    """Class 12.9 is not checked in shear: no number of them is an answer."""
    answer = find_count(**BOLTS | {"bolt_class": "12.9"})
    assert answer.found is None
    assert "outside EN 1993-1-8" in answer.reason
    assert answer.result.verdict == "incomplete"


def test_what_could_not_be_judged_stands_beside_the_answer():
    """No edge distance: shear decides, and the rest is named with its reason."""
    answer = find_count(**{key: value for key, value in BOLTS.items() if key not in ("end", "edge")})
    assert answer.found is not None
    assert answer.result.verdict == "incomplete"
    assert any(line.startswith("- bolt bearing: ") for line in answer.lines)


def test_the_thinnest_bolts_hold_and_a_hole_is_not_taken_with_them():
    """2 x 2 of the next size down fail; a stated hole would belong to one size only."""
    plates = BOLTS | {"rows": 2, "columns": 2}
    answer = find_size(**{key: value for key, value in plates.items() if key != "size"} | {"shear": "200 kN"})
    assert not fails(answer.result)
    assert answer.smaller.startswith("next smaller, size M")
    with pytest.raises(InputError, match="whose size is not known"):
        find_size(**plates | {"hole": "18 mm"})


def test_the_smallest_throat_in_half_millimetres():
    """Half a millimetre less fails when asked; a stated throat is put aside."""
    answer = find_throat(**WELD | {"throat": "10 mm"})
    throat = answer.found["throat"].value
    assert throat % 0.5 == 0
    assert not fails(check_weld(**WELD | {"throat": f"{throat} mm"}))
    assert fails(check_weld(**WELD | {"throat": f"{throat - 0.5} mm"}))
    assert answer.smaller.startswith(f"next smaller, throat {throat - 0.5:g} mm: fails ")
    light = find_throat(**WELD | {"along": "10 kN"})
    assert (light.found["throat"], light.smaller) == (
        Amount(3.0, "mm"),
        "3 mm is the least throat a fillet weld may have",
    )


def test_no_throat_is_enough_for_too_short_a_weld():
    """The reason says what else to change."""
    answer = find_throat(**WELD | {"along": "2000 kN"})
    assert answer.found is None
    assert "make the runs longer or more" in answer.reason
    assert answer.result.verdict == "fails"


def test_the_thinnest_stock_pin():
    """The next smaller of the stock fails when asked."""
    answer = find_diameter(**PIN)
    assert not fails(answer.result)
    assert answer.result.findings == check_pin(**PIN | {"diameter": f"{answer.found['diameter'].value} mm"}).findings
    smaller = answer.smaller.split("diameter ")[1].split(" mm")[0]
    assert fails(check_pin(**PIN | {"diameter": f"{smaller} mm"}))


def test_a_hole_keeps_its_clearance_to_the_pin_or_is_refused():
    """A hole without a pin says nothing of the clearance."""
    answer = find_diameter(**PIN | {"diameter": "30 mm", "hole": "32 mm"})
    assert answer.found["hole"].value - answer.found["diameter"].value == pytest.approx(2)
    with pytest.raises(InputError, match="is stated for a pin that is not known"):
        find_diameter(**PIN | {"hole": "26 mm"})


def test_the_lightest_channel_holds_and_no_lighter_one_does():
    """Every lighter one of the family fails when asked."""
    answer = find_lightest_section(section="UPN *", **BEAM)
    found = next(s for s in matching("UPN *") if s.designation == answer.found["section"])
    assert not fails(answer.result)
    for section in matching("UPN *"):
        if section.mass < found.mass:
            assert fails(check_beam(section=section.designation, **BEAM)), section.designation
    assert answer.smaller.startswith("next lighter, UPN ")
    assert len(answer.others) == 3 and answer.others[0].startswith(f"{found.designation} is the lightest that holds")


def test_a_section_is_not_chosen_for_what_could_not_be_judged_on_it():
    """No method here presses on the wall of a round tube: it is told as lighter, and not taken."""
    answer = find_lightest_section(section="*", **BEAM)
    assert answer.found["section"].startswith(("IPE", "W", "RHS"))
    assert any(line.startswith("CHS") and "not judged on it: tube face" in line for line in answer.others)
    assert find_lightest_section(section="CHS *", **BEAM).found["section"].startswith("CHS")


def test_no_section_of_a_small_family_holds_a_large_load():
    """The heaviest is shown with what it fails."""
    answer = find_lightest_section(section="UPN *", **BEAM | {"load": "300 t"})
    assert answer.found is None
    assert answer.reason.startswith("none of 12 sections holds; UPN 300, the heaviest: fails ")


@pytest.mark.parametrize(
    ("kind", "unknown", "given", "words"),
    [
        ("beam", "throat", {}, "is no unknown of beam"),
        ("guide", "length", {}, "a question about bolts"),
        ("beam", "section", BEAM | {"section": "XYZ *"}, "fits no section"),
        ("bolts", "count", {"size": "M16"}, "is missing"),
        ("weld", "throat", {key: value for key, value in WELD.items() if key != "along"}, "the force on it"),
        ("spring", "spring", ORCHARD | {"space": "100 mm"}, "is used up by the travel"),
        ("spring", "spring", ORCHARD | {"wire": "6 mm"}, "is not a key here"),
    ],
)
def test_what_cannot_be_asked_is_refused_in_words(kind, unknown, given, words):
    """By its key."""
    with pytest.raises(InputError, match=words):
        find(kind, unknown, given)


def test_the_json_of_an_answer_is_that_of_a_result_and_more():
    """found, smaller, others, and why there is none."""
    data = find_throat(**WELD).as_dict()
    assert data["schema"] == 1 and data["findings"] and data["caution"]
    assert data["asked for"] == "throat"
    assert data["found"]["throat"]["unit"] == "mm"
    assert data["smaller"].startswith("next smaller")
    assert data["none because"] == ""


BOLTS_ASKED = {"bolt_class": "8.8", "plate": "10 mm", "steel": "S275", "end": "40 mm", "edge": "40 mm"}


@pytest.mark.parametrize(
    ("kind", "unknown", "given", "words"),
    [
        ("bolts", "count", {**BOLTS_ASKED, "size": "M16", "shear": "1 kN"}, "fewer than one bolt there is not"),
        ("bolts", "size", {**BOLTS_ASKED, "rows": 1, "columns": 1, "shear": "1 kN"}, "M12 is the thinnest bolt tried"),
        (
            "pin",
            "diameter",
            {"steel": "S355", "inner": "10 mm", "outer": "6 mm", "gap": "1 mm", "pull": "100 N"},
            "8 mm is the thinnest stock pin",
        ),
        (
            "weld",
            "throat",
            {"length": "120 mm", "runs": 2, "steel": "S235", "along": "1 kN", "inspected": True},
            "3 mm is the least throat",
        ),
    ],
)
def test_where_nothing_smaller_is_tried_that_is_said(kind, unknown, given, words):
    """The first on the list holds: no smaller one fails, and the answer does not leave that out."""
    answer = find(kind, unknown, given)
    assert answer.found is not None
    assert words in answer.smaller
