"""Joints of every kind at their places in a described frame."""

import math
import tomllib

import pytest

from structcheck.errors import InputError
from structcheck.press.cases import jack_forces
from structcheck.press.load_path import frame_answer
from structcheck.press.meetings import meetings
from structcheck.press.model import setting_of
from structcheck.press.parts import KINDS
from structcheck.press.reading import press_of
from structcheck.questions import check_press
from tests.press.joints_given import (
    ALL,
    BUTT,
    CONTACT,
    CROSS,
    FLANGE,
    GLUING,
    GROUP,
    PLATE,
    ROD,
    ROOT,
    TUBE,
    ends,
    found,
    gluing,
    press,
)

# ---- at a place of the frame ----------------------------------------------------------------


def test_an_end_plate_at_a_corner_takes_moment_shear_and_pull_of_the_beams_end():
    """At the upright's face; the beam is the frame's; M of the ultimate cases over the rows' resistance (6.2.7.2)."""
    data = gluing(end_plate=[PLATE | {"at": ["head/left"]}])
    plate = found(check_press(data), "corner plate")["end plate bending"]
    M_Rd = 82 * 7.4 * 235 * 116.3
    # The second row bears what a pull leaves it: both rows alone, by the T-stub of the least one.
    ultimate = [e for e in ends(data, "head/left face") if e.case.limit == "ultimate"]
    assert plate.utilisation >= max(abs(e.M_y) for e in ultimate) / M_Rd
    assert plate.utilisation <= max(abs(e.M_y) for e in ultimate) / M_Rd + 0.05
    assert plate.case.endswith("at head/left")
    assert plate.user_force is False


BOLTED = tomllib.loads((ROOT / "examples" / "bolted_corner_end_plate.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("section", ["SHS 140x140x8 hot", "HEA 140"])
def test_what_the_frame_says_of_the_upright_stands_behind_the_end_plate(section):
    """Its section, grade and how hard it is pressed: the same plate asked alone with the governing moment and that."""
    upright = {key: value for key, value in BOLTED["uprights"].items() if key in ("steel", "quality")}
    table = BOLTED["end_plate"][0] | {"gauge": "76 mm", "behind_past": "150 mm"}
    frame = BOLTED["frame"] | {"rigid_zones": False}
    changed = {"frame": frame, "uprights": upright | {"section": section}, "end_plate": [table]}
    placed = found(check_press(BOLTED | changed), table["name"])["moment of the joint"]
    alone = {key: value for key, value in table.items() if key != "at"}
    alone |= {"section": "IPE 160", "beam_steel": "S235", "behind_section": section, "behind_steel": "S235"}
    alone |= {"moment": f"{placed.demand.value / 1.5} N mm", "behind_stress": "0 MPa"}
    free = found(press(end_plate=[alone]), table["name"])["moment of the joint"]
    assert placed.verdict == "holds"
    assert placed.capacity.value <= free.capacity.value * (1 + 1e-9)
    assert placed.capacity.value >= 0.6 * free.capacity.value


def test_an_end_plate_on_an_upright_of_no_known_form_is_not_judged_behind():
    """Two channels turn a web or nothing towards the beam."""
    upright = {"section": "UPN 140", "steel": "S235", "pieces": 2}
    plate = found(check_press(BOLTED | {"uprights": upright}), "end plates")
    for check in ("part behind the end plate", "web behind the end plate", "moment of the joint", "fatigue"):
        assert plate[check].verdict == "not checked"


def test_left_and_right_corners_are_alike():
    """A symmetric frame under a load in the middle and off it both ways."""
    left, right = (
        found(check_press(gluing(**{kind: [table | {"at": place}]})), table["name"])
        for kind, table in (("weld_group", GROUP | {"joint": "end plate"}),)
        for place in ("head/left", "head/right")
    )
    assert left["weld throat"].utilisation == pytest.approx(right["weld throat"].utilisation, rel=1e-6)


@pytest.mark.parametrize("place", ["head/left", "head/right", "bed/left", "bed/right"])
def test_force_and_moment_meet_the_runs_with_their_signs(place):
    """Statics: at the upright's centre-line, runs drawn on its face 50 mm in feel what they feel asked at the face."""
    face = GROUP | {"at": place, "joint": "end plate"}
    runs_in = [run | {end: ["50 mm", *run[end][1:]] for end in ("start", "end")} for run in GROUP["runs"]]
    line = GROUP | {"name": "drawn", "at": place, "joint": "lap", "runs": runs_in}
    data = gluing(weld_group=[face, line], frame=GLUING["frame"] | {"corners": "pinned"})
    result = check_press(data)
    one, other = found(result, "fillets")["weld throat"], found(result, "drawn")["weld throat"]
    assert one.utilisation == pytest.approx(other.utilisation, rel=0.01)
    wrong = [run | {end: ["-50 mm", *run[end][1:]] for end in ("start", "end")} for run in GROUP["runs"]]
    stiff = gluing(
        weld_group=[line, line | {"name": "outside", "runs": wrong}], frame=GLUING["frame"] | {"corners": "rigid"}
    )
    inside, outside = (found(check_press(stiff), name)["weld throat"].utilisation for name in ("drawn", "outside"))
    assert outside > 1.2 * inside


def test_a_weld_group_is_the_weld_it_describes():
    """The same two runs as [[weld]] and as [[weld_group]] at the same corners."""
    at = {"joint": "end plate", "at": ["head/left", "head/right"]}
    plain = {"name": "weld", "throat": "3 mm", "length": "120 mm", "runs": 2, "spacing": "5 mm", "steel": "S235"}
    result = check_press(gluing(weld=[plain | at | {"inspected": True}], weld_group=[GROUP | at]))
    one, other = found(result, "weld"), found(result, "fillets")
    for check in ("weld throat", "fatigue", "weld size"):
        assert one[check].utilisation == pytest.approx(other[check].utilisation), check


def test_a_lever_of_runs_at_a_corner_is_judged_both_ways():
    """To which side they stand off is not stated: the worse of adding to the corner's moment and taking from it."""
    at = {"joint": "end plate", "at": ["head/left"]}
    plain = {"name": "weld", "throat": "3 mm", "length": "120 mm", "runs": 2, "spacing": "5 mm", "steel": "S235"}
    centred, off = (
        found(check_press(gluing(weld=[plain | at | {"eccentricity": e}])), "weld")["weld throat"].utilisation
        for e in ("0 mm", "20 mm")
    )
    assert off > centred


def test_a_butt_weld_at_a_corner_bends_as_its_plate_does():
    """Pull and bending of a plate 120 x 5: the ends' M over t L^2 / 6 and N over t L, shear beside (beam theory)."""
    data = gluing(butt=[BUTT | {"at": "head/left", "length": "120 mm", "thickness": "5 mm"}])
    butt = found(check_press(data), "butt")["weld throat"]
    plain = [e for e in ends(data, "head/left face") if e.case.limit == "ultimate" and not (e.T or e.M_z or e.V_y)]
    by_hand = max(
        math.hypot(abs(e.N) / 600 + abs(e.M_y) * 6 / (5 * 120**2), math.sqrt(3) * e.V_z / 600) / 235 for e in plain
    )
    assert butt.utilisation >= by_hand * (1 - 1e-9)
    assert butt.utilisation <= by_hand * 1.05


@pytest.mark.parametrize(
    ("kind", "table", "reason"),
    [
        ("rod", ROD, "the corner also bends or shears these rods"),
        ("plate_on_flange", FLANGE, "the corner also bends or shears this plate"),
        ("tube_joint", {"name": "tube corner", "brace": "SHS 60x60x4", "throat": "6 mm"}, "across the plane"),
    ],
)
def test_what_a_kind_does_not_carry_is_never_dropped(kind, table, reason):
    """Bending of an unknown corner, twist of a load in front: not a pass, in words."""
    result = check_press(gluing(**{kind: [table | {"at": "head/left"}]}))
    findings = found(result, table["name"])
    assert any(f.verdict in ("not checked", "fails") and reason in f.reason for f in findings.values())


def test_a_described_corner_satisfies_the_load_path_but_a_contact_does_not():
    """A line of contact is the press of something else's joint."""
    at = {"at": "corners"}
    joined = check_press(gluing(end_plate=[PLATE | at]))
    assert not [f for f in joined.findings if f.check == "joint"]
    touching = check_press(gluing(contact=[CONTACT | at]))
    open_ = {f.part for f in touching.findings if f.check == "joint"}
    assert open_ == {"head/left", "head/right", "bed/left", "bed/right"}


def test_a_plate_between_two_beams_takes_what_presses_on_them():
    """Half as much again as the jack's force, more by how far it may stand off the middle between the beams."""
    orchard = tomllib.loads((ROOT / "examples" / "orchard_press.toml").read_text(encoding="utf-8"))
    result = check_press(orchard | {"cross_plate": [CROSS | {"at": "bed/load"}]})
    shear = found(result, "jack plate")["shear"].demand.value
    assert shear == pytest.approx(1.5 * 8 * 9806.65 * (1 + 2 * 15 / 80))
    with pytest.raises(InputError, match="is no beam under the jack"):
        check_press(orchard | {"cross_plate": [CROSS | {"at": "bed/left"}]})


def test_a_turned_beam_answers_in_the_frames_axes():
    """A flat head lies on its side: its shear at the corner is still half the force, in the frame's plane."""
    flat = {"width": "200 mm", "thickness": "80 mm", "steel": "S235"}
    frame = {"shape": "posts", "span": "500 mm", "opening": "600 mm", "corners": "pinned"}
    data = {
        "schema": 1,
        "jack": {"rating": "8 t", "offset": "0 mm", "offset_across": "0 mm"},
        "frame": frame,
        "head": flat,
        "bed": flat,
        "uprights": {"thread": "M36", "steel": "S355"},
        "rod": [ROD | {"size": "M36", "class": "8.8", "count": 1, "at": "head/left"}],
    }
    described = press_of(data)
    forces = jack_forces(described.jack, described.basis)
    answer = frame_answer(described, forces, setting_of(described, forces))
    (meeting,) = meetings(described.rod[0], answer)
    assert max(abs(e.V_z) for e in meeting.ends) == pytest.approx(6 * 9806.65, rel=0.02)
    assert max(abs(e.V_y) for e in meeting.ends) < 0.1 * 6 * 9806.65
    rod = found(check_press(data), "rods")["bolt tension"]
    assert rod.demand.value == pytest.approx(6 * 9806.65, rel=0.02)


def test_a_brace_that_is_no_tube_is_not_judged():
    """An I on a tube's face, typed or as the frame has it."""
    typed = press(tube_joint=[TUBE | {"brace": "IPE 80", "pull": 1.0, "chord_stress": "0 MPa"}])
    bare = {"name": "tube corner", "throat": "6 mm", "at": "head/left"}
    for result in (typed, check_press(gluing(tube_joint=[bare]))):
        faces = found(result, "tube corner")
        assert set(faces) == set(KINDS["tube_joint"].needed)
        assert {f.verdict for f in faces.values()} == {"not checked"}
        assert "is no hollow section and no flat" in faces["tube face"].reason


BOLTS = {
    "name": "b", "size": "M16", "class": "8.8", "rows": 2, "columns": 1, "pitch": "60 mm", "plate": "8 mm",
    "steel": "S235",
}  # fmt: skip
OLDER = [
    ("bolts", BOLTS | {"twist": "1 kN m"}),
    ("bolts", BOLTS | {"shear": "1 t"}),
    ("weld", {"name": "w", "throat": "4 mm", "length": "80 mm", "steel": "S235", "along": 1.0}),
    ("pin", {"name": "p", "diameter": "20 mm", "steel": "S235", "inner": "8 mm", "outer": "8 mm", "pull": "1 t"}),
]


@pytest.mark.parametrize(("kind", "table"), [*ALL, *OLDER])
def test_a_load_typed_beside_a_place_is_refused(kind, table):
    """It would be dropped without a word."""
    place = "bed/load" if kind == "cross_plate" else "head/left"
    with pytest.raises(InputError, match="stands beside at"):
        check_press(gluing(**{kind: [table | {"at": place}]}))


FREE = {
    "frame": {"shape": "members"},
    "node": [
        {"name": "A", "x": "0 mm", "z": "0 mm"},
        {"name": "B", "x": "0 mm", "z": "800 mm"},
        {"name": "C", "x": "600 mm", "z": "800 mm"},
        {"name": "D", "x": "600 mm", "z": "0 mm"},
        {"name": "E", "x": "300 mm", "z": "800 mm"},
        {"name": "F", "x": "300 mm", "z": "0 mm"},
    ],
    "member": [
        {"name": name, "start": start, "end": end, "section": "SHS 80x80x5 cold", "steel": "S235"}
        | {"at_start": "rigid", "at_end": "rigid"}
        for name, start, end in (
            ("left", "A", "B"),
            ("right", "D", "C"),
            ("top 1", "B", "E"),
            ("top 2", "E", "C"),
            ("low 1", "A", "F"),
            ("low 2", "F", "D"),
        )
    ],
    "support": [{"node": "A", "holds": "x y z rx ry rz"}],
    "push": [{"start": "F", "end": "E"}],
}


def test_a_tube_joint_in_a_free_frame_asks_for_the_chords_stress():
    """Nobody knows which member is the chord there."""
    data = {"schema": 1, "jack": {"rating": "2 t", "offset": "0 mm", "offset_across": "0 mm"}} | FREE
    joint = {key: value for key, value in TUBE.items() if key != "brace"} | {"at": "top 1/start"}
    with pytest.raises(InputError, match="chord_stress: is missing"):
        check_press(data | {"tube_joint": [joint]})
    kept = joint | {"brace": "SHS 80x80x5 cold", "chord_stress": "20 MPa"}
    face = found(check_press(data | {"tube_joint": [kept]}), "tube corner")["tube face"]
    assert face.utilisation > 0
