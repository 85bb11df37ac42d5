"""Foot plates in a press file: asked alone, and under the feet of a described frame."""

import tomllib

import pytest

from structcheck.errors import InputError
from structcheck.questions import ask, check_press
from tests.press.joints_given import FOOT, PLATE, ROOT, found, gluing, press

STRAIGHTENING = tomllib.loads((ROOT / "examples" / "bolted_corner_end_plate.toml").read_text(encoding="utf-8"))
PLACED = {key: value for key, value in FOOT.items() if key != "section"} | {"at": "feet"}
G = 9.80665


def standing(**changes):
    """The straightening press on foot plates, with other feet or masses."""
    return check_press(STRAIGHTENING | {"base_plate": [PLACED]} | changes)


def test_a_foot_plate_bears_a_share_of_the_jack():
    """The whole jack, 40 kN, by 1.5 (ultimate) on 240 x 240 mm at f_jd 7.56 MPa; no anchors, no shear."""
    result = press(base_plate=[FOOT | {"push": 1.0}])
    foot = found(result, "foot")
    assert foot["bearing under the plate"].demand.value == pytest.approx(60e3)
    assert foot["bearing under the plate"].capacity.value == pytest.approx(240**2 * 2 / 3 * 0.85 * 20 / 1.5)
    assert {n.check for n in result.does_not_apply if n.part == "foot"} == {"anchors", "shear under the plate"}


def test_it_is_asked_as_any_part():
    """By keyword, with forces of the user's; push beside pull and a plate without a load are refused."""
    answer = ask("base_plate", {**FOOT, "push": "100 kN", "moment": "2 kN m", "throat": "4 mm", "inspected": True})
    assert answer.verdict == "holds"
    assert ask("base_plate", {**FOOT, "pull": "1 kN"}).verdict == "incomplete"
    with pytest.raises(InputError, match="stands beside pull"):
        ask("base_plate", {**FOOT, "push": "1 kN", "pull": "1 kN"})
    with pytest.raises(InputError, match="is missing"):
        ask("base_plate", FOOT)


def test_feet_carry_weight_and_the_push_on_the_handle():
    """1.35 W on two feet; across the plane half of 1.5 P h bends each, and lifts a side where the press is light."""
    feet = {"below": "350 mm", "bolted": True, "pumping": "450 N", "handle": "1000 mm"}
    result = standing(feet=feet, mass=[{"name": "stand", "mass": "4000 kg", "height": "600 mm"}])
    foot = found(result, "foot")
    assert foot["bearing under the plate"].verdict == "holds"
    # Half of the depth and all of the plate beyond it, over the plate's width; the flanges' halves 140 / 2 apart.
    area, f_jd = (133 / 2 + (240 - 133) / 2) * 240, 2 / 3 * 0.85 * 20 / 1.5
    heavier = (1.35 * 4066 * G / 4 + 1.5 * 450 * 1000 / 2 / (140 / 2)) / f_jd / area
    assert foot["bearing under the plate"].utilisation == pytest.approx(heavier, rel=1e-3)
    assert {n.check for n in result.does_not_apply if n.part == "foot"} == {"anchors"}
    light = found(standing(feet=feet), "foot")
    assert light["anchors"].verdict == light["shear under the plate"].verdict == "not checked"


def test_it_stands_at_the_feet_and_nothing_else_does():
    """Other places, and other joints there, are refused."""
    with pytest.raises(InputError, match="is no place for a foot plate"):
        check_press(gluing(base_plate=[FOOT | {"at": "head/left"}]))
    with pytest.raises(InputError, match="is no joint of this frame"):
        check_press(gluing(end_plate=[PLATE | {"at": "feet"}]))


def test_under_several_pieces_their_distance_must_be_known():
    """Never a pass without; with it, and under a turned member, the plate is judged."""
    uprights = STRAIGHTENING["uprights"]
    feet = {"below": "350 mm", "bolted": True, "pumping": "450 N", "handle": "1000 mm"}
    foot = found(standing(uprights=uprights | {"pieces": 2}), "foot")
    for check in ("bearing under the plate", "anchors", "yield at greatest force"):
        assert foot[check].verdict == "not checked" and "`apart`" in foot[check].reason
    mass = [{"name": "stand", "mass": "4000 kg", "height": "600 mm"}]
    plates = [PLACED | {"width": "400 mm", "length": "400 mm"}]
    told = {"feet": feet, "mass": mass, "base_plate": plates}
    for change in ({"pieces": 2, "apart": "60 mm"}, {"turned": True}):
        judged = found(standing(uprights=uprights | change, **told), "foot")["bearing under the plate"]
        assert judged.verdict == "holds"
    with pytest.raises(InputError, match="is the frame's at its feet"):
        standing(base_plate=[PLACED | {"pieces": 2}])


def test_its_fillets_are_a_condition_until_they_are_stated():
    """Then they are judged with what the foot carries, and the frame says what the member is made of."""
    bare = standing()
    assert any("the fillets between foot and its member" in one.condition for one in bare.conditions)
    told = standing(base_plate=[PLACED | {"throat": "4 mm", "inspected": True}])
    foot = found(told, "foot")
    assert {foot[check].verdict for check in ("weld throat", "weld size", "fatigue")} == {"holds"}
    assert not any("fillets between" in one.condition for one in told.conditions)
    assert not any("the member's steel is not stated" in a.text for a in told.assumptions)
    with pytest.raises(InputError) as caught:
        standing(base_plate=[PLACED | {"throat": "12 mm"}])
    assert [p.key for p in caught.value.problems] == ["throat"] and "a part 5.5 mm thick takes" in str(caught.value)
