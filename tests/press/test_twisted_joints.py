"""A force off the frame's plane twists what stands between two plates, or hangs on two rods: one side takes more."""

import copy
import tomllib

import pytest

from structcheck.questions import check_press
from tests.press.joints_given import ROOT, found


def example(name):
    return tomllib.loads((ROOT / "examples" / f"{name}.toml").read_text(encoding="utf-8"))


ULTIMATE = 1.5
TONNE = 9806.65


def on_pins(across):
    """The bearing press with 8 t, its force `across` mm off the plane of the frame."""
    told = copy.deepcopy(example("bearing_press"))
    told["jack"] |= {
        "rating": "8 t",
        "relief": "8 t",
        "drive": "hand",
        "offset": "0 mm",
        "offset_across": f"{across} mm",
    }
    del told["head"]["rolls"]
    return check_press(told)


@pytest.mark.parametrize("across", [20, 60])
def test_a_bed_pin_shears_more_on_the_nearer_side(across):
    """derived: half the force at each end, and F e / 2 shared by walls 76 mm apart; twice the harder side's."""
    shear = found(on_pins(across), "bed pins")["pin shear"]
    force = ULTIMATE * 8 * TONNE
    assert shear.demand.value == pytest.approx(2 * (force / 4 + force * across / 2 / 76), rel=0.02)


def test_a_pin_without_offset_across_takes_half_the_force():
    """As before: nothing twists it."""
    assert found(on_pins(0), "bed pins")["pin shear"].demand.value == pytest.approx(ULTIMATE * 4 * TONNE, rel=0.02)


ORCHARD = example("orchard_press")
PIN = {
    "name": "corner pins",
    "at": "corners",
    "diameter": "30 mm",
    "steel": "S355",
    "hole": "31 mm",
    "inner": "20 mm",
    "outer": "7 mm",
    "gap": "0 mm",
    "inner_end": "60 mm",
    "inner_edge": "40 mm",
    "outer_end": "60 mm",
    "outer_edge": "60 mm",
}


def pinned_corners(corners):
    told = copy.deepcopy(ORCHARD)
    told["pin"], told["uprights"]["hole"], told["frame"]["corners"] = [PIN], "31 mm", corners
    told["jack"]["offset_across"] = "0 mm"
    del told["bolts"]
    return check_press(told)


@pytest.mark.parametrize("corners", ["unknown", "rigid", "800 kN m/rad"])
def test_one_pin_holds_no_corner_square(corners):
    """A frame on four pins folds up; it held, as its corners were believed to hold a moment."""
    result = pinned_corners(corners)
    finding = found(result, "corner pins")["pin shear"]
    assert finding.verdict == "not checked"
    assert "a pin turns" in finding.reason
    assert result.verdict in ("incomplete", "fails")


def test_pins_where_the_corners_turn_are_judged():
    """And the frame that they leave without a corner racks."""
    result = pinned_corners("pinned")
    assert found(result, "corner pins")["pin shear"].verdict == "holds"
    assert found(result, "frame")["racking"].verdict == "fails"


def on_rods(across, apart="264 mm"):
    """The veneer press in one plane, two posts of M36 at each side."""
    told = copy.deepcopy(example("veneer_press_on_posts"))
    told["jack"] |= {"offset": "0 mm", "offset_across": f"{across} mm"}
    told["uprights"] |= {"pieces": 2} | ({"apart": apart} if apart else {})
    told["rod"][0]["count"] = 2
    del told["frame"]["planes"], told["frame"]["spacing"]
    return check_press(told)


def test_the_nearer_of_two_rods_is_pulled_harder():
    """derived: rods 264 + 36 mm apart, force 40 mm off their middle: 1 + 2 x 40 / 300 of the even share."""
    even, uneven = (found(on_rods(across), "posts in the plates")["bolt tension"] for across in (0, 40))
    assert uneven.utilisation / even.utilisation == pytest.approx(1 + 2 * 40 / 300, rel=0.02)


def test_rods_of_unknown_distance_rest_on_a_condition():
    assert any("share the pull evenly" in a.condition for a in on_rods(40, apart=None).conditions)


def with_open_gaps(across):
    told = copy.deepcopy(ORCHARD)
    told["jack"]["offset_across"] = f"{across} mm"
    told["head"]["apart"] = told["bed"]["apart"] = "60 mm"
    for row in told["bolts"]:
        row |= {"inner": "20 mm", "gap": "20 mm"}
    return check_press(told)


def test_bolts_past_open_gaps_are_not_relieved_by_contact():
    """What has 20 mm of air on both sides touches nothing: the twist goes through the bolts."""
    part = "corner bolts in the flats"
    straight, twisted = (found(with_open_gaps(across), part)["bolt shear"].utilisation for across in (0, 60))
    assert twisted > 1.2 * straight
    assert not any("taken by contact" in a.text for a in with_open_gaps(60).assumptions)


def conditions(told):
    return [a.condition for a in check_press(told).conditions if "stand open" in a.condition]


@pytest.mark.parametrize(
    ("uprights", "apart", "keys", "open_"),
    [
        ({}, "20 mm", {}, None),
        ({}, "60 mm", {}, "40 mm"),
        ({}, "60 mm", {"inner": "20 mm", "gap": "20 mm"}, None),
        ({}, "60 mm", {"inner": "20 mm", "gap": "5 mm"}, "40 mm"),
        ({}, "60 mm", {"packing": "20 mm"}, None),
        ({"pieces": 1}, "20 mm", {}, "10 mm"),
        ({"apart": "134 mm"}, "20 mm", {}, "120 mm"),
    ],
)
def test_what_stands_open_between_the_plates_is_a_condition(uprights, apart, keys, open_):
    """derived: webs `apart`, between them two flats of 10 mm laid face on face, or these outside over both channels.

    There 20 mm lie between the webs and 50 from each web (of 7 mm, flanges of 55) to the flat past its toes. Bolts
    across air bend; they were judged as if all plates touched.
    """
    told = copy.deepcopy(ORCHARD)
    told["head"]["apart"] = told["bed"]["apart"] = apart
    told["uprights"] |= uprights
    for row in told["bolts"]:
        row |= keys
    found_ = conditions(told)
    assert found_ == [] if open_ is None else any(f"the {open_} that stand open" in text for text in found_)


def test_channels_toe_to_toe_keep_their_webs_from_what_stands_between():
    """Their flanges reach to it; a pin from web to web spans them."""
    told = example("bearing_press")
    toes, backs = (
        {"facing": facing, "apart": apart} for facing, apart in (("toe to toe", "80"), ("back to back", "86"))
    )
    for keys, open_ in ((toes, True), (backs, False)):
        told["bed"] |= keys | {"apart": f"{keys['apart']} mm"}
        assert bool(conditions(told)) is open_
