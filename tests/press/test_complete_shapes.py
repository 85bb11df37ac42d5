"""A builder of each shape of press can reach `holds`: described to the end, every listed check is done and holds.

And each thing that is left out keeps it from passing.
"""

import re
import tomllib
from pathlib import Path

import pytest

from structcheck.errors import InputError
from structcheck.questions import check_press

HERE = Path(__file__).parent / "complete"
EXAMPLES = Path(__file__).parents[2] / "examples"
SHAPES = {
    "closed": EXAMPLES / "bookbinders_press.toml",
    "closed, end plates": EXAMPLES / "bolted_corner_end_plate.toml",
    "H": HERE / "h_frame.toml",
    "posts": HERE / "posts.toml",
    "posts of S235": EXAMPLES / "veneer_press_on_posts.toml",
    "C": EXAMPLES / "eyelet_press_c_frame.toml",
    "O": EXAMPLES / "seal_press_o_frame.toml",
    "members": EXAMPLES / "tile_press_of_members.toml",
}


@pytest.mark.parametrize("path", SHAPES.values(), ids=SHAPES)
def test_a_complete_description_holds(path):
    """Nothing is left unchecked and nothing rests on what nobody confirmed."""
    result = check_press(path)
    assert tomllib.loads(path.read_text(encoding="utf-8"))["frame"]["shape"]
    assert result.verdict == "holds"
    assert not [f for f in result.findings if f.verdict == "not checked"]


def without(path: Path, *starts: str) -> str:
    """The description without the tables or lines that begin so."""
    text = path.read_text(encoding="utf-8")
    for start in starts:
        if start.startswith("["):
            text = re.sub(rf"^{re.escape(start)}\n.*?(?=^\[|\Z)", "", text, flags=re.MULTILINE | re.DOTALL)
        else:
            text = re.sub(rf"^{re.escape(start)} = .*\n", "", text, flags=re.MULTILINE)
    return text


@pytest.mark.parametrize(
    ("shape", "left_out", "part", "check"),
    [
        ("C", "[upper]", "upper arm", "web under load"),
        ("O", "[upper]", "head", "web under load"),
        ("O", "spreader", "bed", "spreader plate"),
        ("O", "edge", "head/left corner", "fatigue"),
        ("C", "[[platen]]", "platen", "platen"),
        ("C", "ram", "ram", "resultant"),
        ("H", "bed_pins", "bed pins", "retention"),
        ("H", "[[pin]]", "bed/left", "pin"),
        ("posts", "pad", "head", "web under load"),
        ("posts", "[[rod]]", "head/left", "joint"),
        ("members", "start_at", None, None),
        ("members", "pad", "head", "web under load"),
        ("members", "[[bolts]]", "bar/start and left post/start and left leg/end", "joint"),
        ("members", "[[platen]]", "platen", "platen"),
    ],
)
def test_what_is_left_out_is_never_a_pass(tmp_path, shape, left_out, part, check):
    """One thing less, and the press is incomplete; a place in the middle may be left out and is said."""
    path = tmp_path / "press.toml"
    path.write_text(without(SHAPES[shape], left_out), encoding="utf-8")
    result = check_press(path)
    if part is None:
        assert any("where the jack stands on it is not stated: in the middle" in a.text for a in result.assumptions)
        return
    assert result.verdict == "incomplete"
    assert [f.verdict for f in result.findings if (f.part, f.check) == (part, check)] == ["not checked"]


@pytest.mark.parametrize(
    ("shape", "was", "becomes", "message"),
    [
        ("C", 'pad = "50 mm"', 'pad = "100 mm"', "reaches past the end of the arm"),
        ("C", 'beyond = "40 mm"', 'beyond = "10 mm"', 'than 10 mm (beyond)\n  try:    beyond = "33 mm"'),
        ("C", 'reach = "120 mm"', 'reach = "90 mm"', "off centre, reaches past the corner at the back"),
        ("C", "[retention]", '[retention]\nbed_pins = "clips"', 'retention, bed_pins: has no meaning for shape = "C"'),
        ("O", "[upper]", '[upper]\nbeyond = "20 mm"', 'upper, beyond: has no meaning for shape = "O"'),
        ("O", "radius", 'reach = "90 mm"\nradius', 'plate, reach: has no meaning for shape = "O"'),
        (
            "O",
            '[lower]\napart = "30 mm"',
            '[lower]\napart = "60 mm"',
            "upper, apart: 30 mm is not the 60 mm between the",
        ),
        ("C", "radius", 'window = "90 mm"\nradius', 'plate, window: has no meaning for shape = "C"'),
        ("H", "[bed]", '[bed]\nrolls = "90 mm"', "bed, rolls: has no meaning for the bed"),
        ("H", "[head]", '[head]\npin_offset = "30 mm"', "head, pin_offset: has no meaning for the head"),
        ("H", "[head]", '[head]\nlevel = "300 mm"', "head, level: has no meaning for the head"),
        ("members", 'stroke = "120 mm"', 'stroke = "540 mm"', "wanted: at most 530 mm, between bar at 350 mm and head"),
        ("members", 'z = "1080 mm"', 'z = "540 mm"', "has nothing between it and what it pushes against"),
    ],
)
def test_what_does_not_fit_is_one_clear_message(tmp_path, shape, was, becomes, message):
    """A contact off its arm, a jack longer than what is clear between the members it stands between."""
    path = tmp_path / "press.toml"
    path.write_text(SHAPES[shape].read_text(encoding="utf-8").replace(was, becomes), encoding="utf-8")
    with pytest.raises(InputError) as refused:
        check_press(path)
    assert message in str(refused.value)


def test_what_ties_the_feet_of_an_h_frame_is_told_and_where_it_is_racked_a_condition(tmp_path):
    """Pinned corners and guides on the uprights: without a tie the frame racks, with one all the couple goes there."""
    path, told = tmp_path / "press.toml", SHAPES["H"].read_text(encoding="utf-8")
    text = "between the feet counts as one more upright, joined rigidly to both legs, and is not judged"
    assert [a.condition for a in check_press(SHAPES["H"]).assumptions if text in a.text] == [""]
    told = told.replace('ram = "125 mm"', 'ram = "25 mm"\nseat = "ball"')
    told = told.replace("[head]", 'corners = "pinned"\n[head]', 1)
    told = told.replace('on = "ram"', 'on = "uprights"').replace("bolted = true", 'handle = "0 mm"')
    path.write_text(told, encoding="utf-8")
    assert ("frame", "racking", "fails") in {(f.part, f.check, f.verdict) for f in check_press(path).findings}
    path.write_text(told.replace("[feet]", "[feet]\ntie = true"), encoding="utf-8")
    tied = check_press(path)
    assert ("frame", "racking", "fails") not in {(f.part, f.check, f.verdict) for f in tied.findings}
    assert any("the tie between the feet is no weaker than an upright" in a.condition for a in tied.conditions)


def test_a_jack_that_leans_rests_on_a_condition(tmp_path):
    """derived: 50 mm aside over 680 mm is 4.2 degrees."""
    path, told = tmp_path / "press.toml", SHAPES["members"].read_text(encoding="utf-8")
    path.write_text(told.replace('end_at = "350 mm"', 'end_at = "300 mm"'), encoding="utf-8")
    result = check_press(path)
    assert result.verdict == "holds if"
    assert [a.part for a in result.conditions if "4.2 degrees off square" in a.condition] == ["bar", "head"]


def test_an_arm_of_unknown_length_rests_on_a_condition(tmp_path):
    """It must go on at least as far as what presses on it."""
    path = tmp_path / "press.toml"
    path.write_text(without(SHAPES["C"], "beyond"), encoding="utf-8")
    result = check_press(path)
    assert result.verdict == "holds if"
    assert any("at least as far as what presses on it" in a.condition for a in result.assumptions if a.condition)


def test_what_holds_a_stop_is_judged_by_its_force(tmp_path):
    """A weld at both stops takes the place of `not checked`; bolts are refused there."""
    stops = '\n[stops]\nheight = "500 mm"\noffset = "45 mm"\n'
    weld = """
[[weld]]
name = "stop welds"
at = ["stops/left", "stops/right"]
throat = "5 mm"
length = "80 mm"
runs = 2
spacing = "50 mm"
steel = "S235"
thickness = "15 mm"
width = "50 mm"
other_width = "50 mm"
eccentricity = "25 mm"
inspected = true
gusset = true
"""
    path = tmp_path / "press.toml"
    text = SHAPES["closed"].read_text(encoding="utf-8")
    path.write_text(text + stops, encoding="utf-8")
    unsaid = {f.part for f in check_press(path).findings if f.verdict == "not checked"}
    assert unsaid == {"stops/left", "stops/right"}
    path.write_text(text + stops + weld, encoding="utf-8")
    result = check_press(path)
    assert not [f for f in result.findings if f.verdict == "not checked"]
    assert any(f.part == "stop welds" and "on the stops" in f.case for f in result.findings)
    path.write_text((text + stops).replace('at = "corners"', 'at = "stops/left"', 1), encoding="utf-8")
    with pytest.raises(InputError, match=r'"stops/left" is no place for \[\[bolts\]\]'):
        check_press(path)


@pytest.mark.parametrize("shape", ["H", "C", "members"])
def test_a_pin_at_the_feet_is_refused_in_words(tmp_path, shape):
    """The feet are a place, but no joint of the frame."""
    sizes = 'diameter = "20 mm"\nsteel = "S355"\ninner = "20 mm"\nouter = "10 mm"\n'
    pin = f'\n[[pin]]\nname = "foot pins"\nat = "feet"\n{sizes}'
    path = tmp_path / "press.toml"
    path.write_text(SHAPES[shape].read_text(encoding="utf-8") + pin, encoding="utf-8")
    with pytest.raises(InputError, match='"feet" is no joint of this frame'):
        check_press(path)


@pytest.mark.parametrize("shape", ["C", "members", "O"])
def test_packers_are_kept_or_asked_for_in_every_shape(tmp_path, shape):
    """What the builder says of them is judged, not dropped."""
    path = tmp_path / "press.toml"
    text = SHAPES[shape].read_text(encoding="utf-8")
    text = re.sub(r"packers = .*\n", "", text)
    for said, verdict in (("loose", "fails"), ("screwed to the bed", "holds"), ("", "not checked")):
        path.write_text(text.replace("[retention]", f'[retention]\npackers = "{said}"'), encoding="utf-8")
        found = [f.verdict for f in check_press(path).findings if (f.part, f.check) == ("packers", "retention")]
        assert found == [verdict]
    path.write_text(text, encoding="utf-8")
    found = next(f for f in check_press(path).findings if (f.part, f.check) == ("packers", "retention"))
    assert found.verdict == "not checked"
    assert "[retention] packers" in found.reason


def test_height_that_nobody_described_is_a_condition_where_no_packer_is_said_to_lie_in_it(tmp_path):
    """More packing than the platen and the spreaders are high: either something loose lies there or tooling."""
    path = tmp_path / "press.toml"
    text = SHAPES["closed"].read_text(encoding="utf-8")
    text = re.sub(r'packers = ".*"', 'packers = "none"', text)
    path.write_text(text, encoding="utf-8")
    assert any("no loose packer" in a.condition for a in check_press(path).conditions)
    path.write_text(re.sub(r'packing = ".*?"', 'packing = "30 mm"', text), encoding="utf-8")
    assert not any("no loose packer" in a.condition for a in check_press(path).conditions)


def conditions(tmp_path, shape, *changes):
    """Conditions of a complete press, changed."""
    path = tmp_path / "press.toml"
    text = SHAPES[shape].read_text(encoding="utf-8")
    for old, new in changes:
        assert re.search(old, text)
        text = re.sub(old, new, text, count=1)
    path.write_text(text, encoding="utf-8")
    return [a.condition for a in check_press(path).conditions]


def test_two_strengths_of_one_bar_are_a_condition(tmp_path):
    """A post is its rod: S235 and class 4.6 are one steel to a tenth, S355 and 4.6 are not."""
    assert not conditions(tmp_path, "posts of S235")
    found = conditions(tmp_path, "posts of S235", ('(?<=thread = "M36"\n)steel = "S235"', 'steel = "S355"'))
    assert any("stated to be twice" in condition for condition in found)


def test_one_jack_over_two_frames_wants_cross_members(tmp_path):
    """With a jack in each frame there are none; with one for both, something brings its force onto them."""
    two = ('shape = "closed"', 'shape = "closed"\nplanes = 2\nspacing = "400 mm"')
    assert any("cross members" in c for c in conditions(tmp_path, "closed", two))
    each = ('rating = "3 t"', 'rating = "3 t"\ncount = 2')
    assert not any("cross members" in c for c in conditions(tmp_path, "closed", two, each))


def test_whether_welded_corners_are_blocks_is_asked(tmp_path):
    """As stiff as a block they bend the uprights harder; said either way it is judged, or the builder's word."""
    zones = ("rigid_zones = .*\\n", "")
    assert any("rigid_zones" in c for c in conditions(tmp_path, "closed, end plates", zones))
    assert not conditions(tmp_path, "closed, end plates")
    assert not conditions(tmp_path, "closed, end plates", ("rigid_zones = true.*", "rigid_zones = false"))
    assert not conditions(tmp_path, "closed"), "bolted laps are asked of in a hint alone"


def test_travel_stated_beside_no_work_is_a_condition(tmp_path):
    """The ram crosses all that nothing fills; without the height of the work `travel` says that it fills the rest."""
    none = ("work = .*\\n", "")
    found = conditions(tmp_path, "closed", none)
    assert any(c.startswith("the work is at least") for c in found)
    with_none = [f for f in check_press(tmp_path / "press.toml").findings if f.check == "stroke"]
    assert with_none[0].verdict == "holds"
    conditions(tmp_path, "closed", ("work = .*", 'work = "0 mm"'))
    zero = next(f for f in check_press(tmp_path / "press.toml").findings if f.check == "stroke")
    assert zero.verdict == "fails"


@pytest.mark.parametrize("shape", ["C", "O"])
def test_a_foot_is_held_no_further_out_than_the_edge_it_stands_on(tmp_path, shape):
    """A force off the plates tips a foot that reaches past them (statics)."""
    path = tmp_path / "press.toml"
    text = re.sub("offset_across = .*\n", "", SHAPES[shape].read_text(encoding="utf-8"))
    path.write_text(text.replace("[jack]", '[jack]\noffset_across = "70 mm"', 1), encoding="utf-8")
    found = [f.verdict for f in check_press(path).findings if (f.part, f.check) == ("jack foot", "resultant")]
    assert "fails" in found


def test_ties_that_no_fatigue_detail_knows_of_are_a_condition(tmp_path):
    """Pieces tied at the load have holes or welds there, which rolled parent metal has not."""
    rolled = (r"(?<=\[head\]\n)(?s:(.*?))detail = [^\n]*", r'\1detail = "rolled parent metal"')
    found = conditions(tmp_path, "closed", rolled)
    assert any("ties" in condition for condition in found)
    assert not any("ties" in condition for condition in conditions(tmp_path, "closed"))


def test_a_force_further_off_spares_no_spreader(tmp_path):
    """It still comes in the middle too, where it bends the plate most."""
    path, text, uses = tmp_path / "press.toml", SHAPES["members"].read_text(encoding="utf-8"), []
    for off in ("5 mm", "12 mm"):
        path.write_text(re.sub("offset_across = .*", f'offset_across = "{off}"', text), encoding="utf-8")
        uses.append({f.part: f.utilisation for f in check_press(path).findings if f.check == "spreader plate"})
    assert uses[0]
    assert all(uses[1][part] >= use * (1 - 1e-9) for part, use in uses[0].items())
