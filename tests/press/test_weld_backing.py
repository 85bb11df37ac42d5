"""A weld to the face of a tube or a flange bears no more than the wall behind it."""

import pytest

from structcheck.questions import ask, check_press
from tests.press.joints_given import BUTT, GROUP, PLATE, TUBE, found, gluing

CHECK = "wall behind the weld"
TUBES = {
    "head": {"section": "SHS 80x80x4 cold", "steel": "S235"},
    "uprights": {"section": "SHS 100x100x5 cold", "steel": "S235"},
}
AT = {"at": ["head/left", "head/right"]}
RING = {"name": "w", "steel": "S235", "throat": "4 mm", "length": "305 mm", "around": True, "killed": True} | AT
WEB = {"name": "w", "steel": "S235", "throat": "3 mm", "length": "100 mm", "runs": 2, "spacing": "5 mm"} | AT
HEA = {"uprights": {"section": "HEA 140", "steel": "S235"}}


def behind(**changes):
    return found(check_press(gluing(**changes)), "w").get(CHECK)


# EN 1993-1-8 Table 7.11 (memory): SHS 80 on SHS 100x5 bears 99.5 kN of the 276 of the tube; its weld is not what fails.
def test_a_tube_welded_to_a_tubes_face_is_no_pass_by_its_weld():
    """Whether the runs are called a lap or not; a tube joint at the same places answers for the wall."""
    open_face = behind(**TUBES, weld=[RING])
    assert open_face.verdict == "not checked" and "[[tube_joint]] at head/left" in open_face.reason
    joint = {key: value for key, value in TUBE.items() if key not in ("chord", "chord_steel", "brace")} | AT
    assert behind(**TUBES, weld=[RING], tube_joint=[joint]) is None
    half = joint | {"at": ["head/left"]}
    assert "at head/right" in behind(**TUBES, weld=[RING], tube_joint=[half]).reason


@pytest.mark.parametrize(
    ("uprights", "words"),
    [
        ({"section": "HEA 140", "steel": "S235"}, "judged for bolted end plates only"),
        ({"section": "HEA 140", "steel": "S235", "turned": True}, "is not judged: ask an engineer"),
        ({"section": "UPN 140", "steel": "S235"}, "is not judged: ask an engineer"),
    ],
)
def test_other_faces_are_open_too(uprights, words):
    """A flange, a web, a channel."""
    assert words in behind(uprights=uprights, weld=[WEB | {"joint": "end plate"}]).reason


def test_a_solid_bar_does_not_bend_away_and_a_lap_has_no_face():
    """Nor has a plate between beam and upright left anything open that its own bolts do not answer for."""
    assert behind(uprights={"section": "SQ 60", "steel": "S235"}, weld=[WEB | {"joint": "end plate"}]) is None
    assert behind(**HEA, weld=[WEB]) is None
    assert behind(**HEA, weld=[WEB | {"joint": "end plate"}], end_plate=[PLATE | AT]) is None


def test_groups_and_butt_welds_stand_on_faces_as_well():
    """A group by its joint, or by a run round a tube; a butt weld always."""
    group = GROUP | AT | {"name": "w"}
    assert behind(**HEA, weld_group=[group | {"joint": "end plate"}]).verdict == "not checked"
    assert behind(**HEA, weld_group=[group]) is None
    around = [run | {"sides": "around"} for run in group["runs"]]
    assert behind(**HEA, weld_group=[group | {"runs": around}]).verdict == "not checked"
    assert behind(**HEA, butt=[BUTT | AT | {"name": "w", "thickness": "5 mm"}]).verdict == "not checked"


def test_a_group_asked_alone_says_that_nothing_behind_it_may_bend_away():
    """As a weld that is pulled across does."""
    texts = [a.text for a in ask("weld_group", GROUP | {"force": "1 kN"}).assumptions]
    assert any("ask plate_on_flange or tube_joint" in text for text in texts)
