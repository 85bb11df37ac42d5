"""Bolts at corners against the members they lie on. What fits is geometry, by hand from the sizes of the sections."""

import copy
import tomllib
from pathlib import Path

import pytest

from structcheck.errors import InputError
from structcheck.questions import check_press

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
ORCHARD, BINDERS, GLUING, BEARING, TILE = (
    tomllib.loads((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"))
    for name in (
        "orchard_press",
        "bookbinders_press",
        "gluing_press_as_drawn",
        "bearing_press",
        "tile_press_of_members",
    )
)
FLATS, WEBS = 0, 1


def _press(base, index=FLATS, **keys):
    """An example with keys of one of its groups of bolts changed; None takes a key out."""
    press = copy.deepcopy(base)
    table = press["bolts"][index]
    for key, value in keys.items():
        table.pop(key, None)
        if value is not None:
            table[key] = value
    return press


def _on_tubes(press, uprights):
    """Other uprights, and head and bed far enough apart for them."""
    press["uprights"] = uprights
    for beam in ("head", "bed"):
        press[beam] |= {"apart": "80 mm"}


def _refused(press):
    with pytest.raises(InputError) as error:
        check_press(press)
    return {problem.key: problem for problem in error.value.problems}


def _conditions(press):
    return {a.condition for a in check_press(press).conditions}


def _on_plates(conditions):
    """Those on what the plate of a group is."""
    return [text for text in conditions if "the plate of" in text or "the plate is" in text]


def test_examples_lie_on_their_members():
    """What they state is there: no condition."""
    for base in (ORCHARD, BINDERS):
        assert not _on_plates(_conditions(base))


def test_edges_beyond_the_upright_are_refused():
    """One column with 140 mm on both sides is 280 mm wide; the flat has 80, so 40 on each side."""
    problem = _refused(_press(ORCHARD, edge="140 mm"))["edge"]
    assert problem.given == "140 mm"
    assert "make a plate 280 mm wide; the left upright (2 x FL 80x10) is 80 mm" in problem.fault
    assert problem.remedy == 'edge = "40 mm"'
    assert "edge" in _refused(_press(ORCHARD, edge="41 mm"))
    assert "edge" in _refused(_press(ORCHARD, edge="30 mm", far_edge="51 mm"))
    assert not _on_plates(_conditions(_press(ORCHARD, edge="30 mm", far_edge="50 mm")))


def test_ends_beyond_the_beam_are_refused():
    """Two rows 50 apart with 45 mm behind and ahead are 140 mm high; UPN 120 has 120."""
    problem = _refused(_press(ORCHARD, WEBS, end="45 mm"))["end"]
    assert "make a plate 140 mm wide; the head (2 x UPN 120) is 120 mm" in problem.fault
    assert "end" not in _refused(_press(ORCHARD, WEBS, end="45 mm", far_end="25 mm"))


# EN 10365 UPN 120: h 120, tf = r1 = 9 (memory), flat over 84 mm between its roots. ISO 4014 M16: e 26.17 (memory).
def test_heads_stand_clear_of_the_root():
    """Rows 54 mm apart reach 27 + 13.1 = 40.1 of 42 mm; 60 mm reach 43.1."""
    inside = {"pitch": "54 mm", "end": "33 mm"}
    outside = {"pitch": "60 mm", "end": "30 mm"}
    assert not _on_plates(_conditions(_press(ORCHARD, WEBS, **inside)))
    assert "root" in _refused(_press(ORCHARD, WEBS, **outside))["pitch"].fault


def test_a_socket_that_meets_the_root_is_told():
    """M16: 0.75 x 23.2 = 17.4 mm about each bolt; 25 + 17.4 passes the 42 mm of a UPN 120 web, 23 + 17.4 does not."""
    for pitch, told in (("50 mm", True), ("46 mm", False)):
        advice = check_press(_press(ORCHARD, WEBS, pitch=pitch, end="35 mm")).outcome.advice
        assert any("a socket on M16 wants some 17 mm" in text for text in advice) == told


# EN 10219-2: outer corner radius 2 t up to 6 mm (memory): SHS 80x80x4 is flat over 64 mm.
def test_heads_stand_clear_of_a_rounded_corner():
    """Columns 36 mm apart reach 18 + 13.1 = 31.1 of 32 mm; 39 mm reach 32.6."""
    press = _press(ORCHARD, columns=2, gauge="36 mm", edge="22 mm", plate="8 mm", ply="4 mm")
    _on_tubes(press, {"section": "SHS 80x80x4 cold", "steel": "S235", "hole": "18 mm", "holes": 4})
    assert not _on_plates(_conditions(press))
    press["bolts"][FLATS] |= {"gauge": "39 mm", "edge": "20.5 mm"}
    assert "rounded corner" in _refused(press)["gauge"].fault


def test_bolts_wider_apart_than_the_member_are_refused():
    """Two columns 70 mm apart with 18 mm holes take 88 mm of an 80 mm flat, whatever the edge."""
    press = _press(ORCHARD, columns=2, gauge="70 mm", edge=None)
    assert "holes 88 mm over all" in _refused(press)["gauge"].fault


def test_a_gusset_is_a_plate_of_its_own_and_said():
    """Its size is its own; it stands for no member, whose bolts are then still to describe."""
    result = check_press(_press(ORCHARD, edge="140 mm", gusset=True))
    assert any(a.text.startswith("its plate is a gusset") for a in result.assumptions)
    two = copy.deepcopy(ORCHARD)
    for table in two["bolts"]:
        table["gusset"] = True
    assert len([c for c in _conditions(two) if c.startswith("the plates on the other side")]) == 2


def test_two_tables_of_one_member_are_not_both_plates_of_a_joint():
    """The flats described twice leave the webs undescribed."""
    twice = copy.deepcopy(ORCHARD)
    twice["bolts"][WEBS] = twice["bolts"][FLATS] | {"name": "the flats again"}
    assert len([c for c in _conditions(twice) if c.startswith("the plates on the other side")]) == 2


def test_a_group_that_fits_one_member_only_rests_on_being_its_plate():
    """Not said which way the plate runs: 60 mm edges fit no 80 mm flat, so it must be the channels' webs."""
    told = _conditions(_press(ORCHARD, WEBS, plate_runs=None))
    words = 'the plate of corner bolts in the webs is the head (2 x UPN 120); say so by plate_runs = "across"'
    assert words in told
    neither = _refused(_press(ORCHARD, WEBS, plate_runs=None, end="90 mm"))
    assert set(neither) == {"edge", "end"}


@pytest.mark.parametrize(
    ("keys", "text"),
    [
        ({"plate": "30 mm"}, "the plate is the 30 mm stated, though the left upright (2 x FL 80x10) has 20 mm"),
        ({"ply": "15 mm"}, "every ply is the 15 mm stated, though a wall of the left upright (2 x FL 80x10) has 10 mm"),
        ({"steel": "S355"}, "the plate is of S355, though the left upright (2 x FL 80x10) is of S235"),
    ],
)
def test_a_plate_better_than_its_member_is_a_condition(keys, text):
    """A doubler may be there; nobody said so."""
    assert any(text in condition for condition in _conditions(_press(ORCHARD, **keys)))


def test_rust_takes_its_share_of_the_plate():
    """0.5 mm off both faces of each flat leaves 2 x 9 mm."""
    press = copy.deepcopy(ORCHARD)
    press["uprights"]["corrosion"] = "0.5 mm"
    assert any("has 18 mm to bear on" in condition for condition in _conditions(press))


def test_both_walls_of_a_tube_are_its_plate():
    """SHS 80x80x4: 8 mm in all, 4 mm under a head; 16 mm are not there."""
    press = _press(ORCHARD, planes=2, plate="8 mm", ply=None, thread="in")
    _on_tubes(press, {"section": "SHS 80x80x4 cold", "steel": "S235", "hole": "18 mm", "holes": 2})
    result = check_press(press)
    assert any(a.text == "the thinnest plate under a head or nut is the 4 mm of its member" for a in result.assumptions)
    press["bolts"][FLATS]["plate"] = "16 mm"
    assert any("has 8 mm to bear on" in condition for condition in _conditions(press))


def test_what_an_end_plate_is_bolted_to_is_a_condition():
    """Holes at gauge 70 reach over 88 mm; the tube's face across the frame is 60 mm wide."""
    told = [c for c in _conditions(GLUING) if "end plate bolts" in c]
    assert any("88 mm over all, the face of RHS 100x60x5" in text for text in told)
    narrow = [c for c in _conditions(_press(GLUING, gauge="40 mm")) if "end plate bolts" in c]
    assert any("judge it by an [[end_plate]]" in text for text in narrow)


# ---- holes stated on the upright ----------------------------------------------------------------


def _with_hole(base, **keys):
    press = copy.deepcopy(base)
    press["uprights"] |= keys
    return press


def test_a_hole_smaller_than_the_bolts_is_refused():
    """6 mm on a flat that 18 mm are drilled through."""
    problem = _refused(_with_hole(ORCHARD, hole="6 mm"))["hole"]
    assert problem.part == "uprights"
    assert problem.fault == 'is smaller than the 18 mm that "corner bolts in the flats" drill through it'


def test_a_smaller_hole_does_not_stand_for_bolts_that_may_lie_elsewhere():
    """The way of the plate unsaid, the group may be the beam's through a gusset: the condition stays."""
    press = _press(_with_hole(ORCHARD, hole="6 mm"), FLATS, plate_runs=None)
    assert any(c.startswith("left upright: no hole but those judged with") for c in _conditions(press))


def test_fewer_holes_than_are_drilled_at_one_place_are_not_enough():
    """One hole stated for a tube bolted through both walls."""
    press = _press(ORCHARD, planes=2, plate="8 mm", ply="4 mm")
    _on_tubes(press, {"section": "SHS 80x80x4 cold", "steel": "S235", "hole": "18 mm"})
    assert any(c.startswith("left upright: no hole but those judged with") for c in _conditions(press))
    press["uprights"]["holes"] = 2
    assert not any(c.startswith("left upright: no hole but") for c in _conditions(press))


def test_a_member_of_a_free_frame_counts_the_rows_across_its_depth():
    """Two rows go through each flat of the tile press at one cross-section: one hole is not enough."""
    assert not any(": no hole but" in c for c in _conditions(TILE))
    press = copy.deepcopy(TILE)
    next(member for member in press["member"] if member["name"] == "bar")["holes"] = 1
    assert any(c.startswith("bar: no hole but those judged with") for c in _conditions(press))


def test_an_upright_on_pins_wants_its_hole():
    """Without it nothing judges what the holes leave, which is the first to go; 6 mm are not those of a 25 mm pin."""
    stated = {f.check: f for f in check_press(BEARING).findings if f.part == "left upright"}
    assert stated["net section"].verdict == "fails"
    press = copy.deepcopy(BEARING)
    del press["uprights"]["hole"], press["uprights"]["holes"]
    found = {f.check: f for f in check_press(press).findings if f.part == "left upright"}
    assert found["net section"].verdict == "not checked"
    assert "no `hole` stated" in found["net section"].reason
    assert 'than the 26 mm that "bed pins" drill' in _refused(_with_hole(BEARING, hole="6 mm"))["hole"].fault
    assert any(c.startswith("left upright: no hole but") for c in _conditions(_with_hole(BEARING, holes=1)))


def test_gusset_means_nothing_under_a_force_of_its_own():
    """No member is there to compare with."""
    press = {"schema": 1, "jack": {"rating": "8 t"}}
    table = {k: v for k, v in ORCHARD["bolts"][FLATS].items() if k != "at"} | {"shear": 1.0, "gusset": True}
    assert "means nothing without" in _refused(press | {"bolts": [table]})["gusset"].fault
