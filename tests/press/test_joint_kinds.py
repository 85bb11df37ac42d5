"""The wider kinds of joint from a press file: with loads of the user's, and at places of a described frame."""

import math
import tomllib
from pathlib import Path

import pytest

from structcheck.errors import InputError
from structcheck.press.cases import jack_forces
from structcheck.press.load_path import frame_answer
from structcheck.press.model import setting_of
from structcheck.press.parts import KINDS
from structcheck.press.placed_joints import meetings
from structcheck.press.reading import press_of
from structcheck.questions import ask, check_press
from tests.printed import printed

ROOT = Path(__file__).resolve().parents[2]
GLUING = tomllib.loads((ROOT / "examples" / "gluing_press_as_drawn.toml").read_text(encoding="utf-8"))
JACK = {"rating": "40 kN", "relief": "50 kN"}

PLATE = {
    "name": "corner plate",
    "size": "M16",
    "class": "8.8",
    "plate": "15 mm",
    "width": "120 mm",
    "steel": "S235",
    "gauge": "70 mm",
    "rows": ["40 mm", "120 mm"],
    "top": "165 mm",
    "web_throat": "3 mm",
    "flange_throat": "4 mm",
}
ROD = {"name": "rods", "size": "M20", "class": "4.6", "length": "900 mm", "count": 4}
TUBE = {
    "name": "tube corner",
    "chord": "SHS 100x100x5 cold",
    "chord_steel": "S235",
    "brace": "SHS 80x80x4 cold",
    "throat": "6 mm",
    "cross": False,
    "beyond": "120 mm",
    "inspected": True,
}
BUTT = {"name": "butt", "length": "100 mm", "thickness": "10 mm", "steel": "S235", "run_off": True, "inspected": True}
FLANGE = {
    "name": "hanger",
    "base": "IPE 160",
    "base_steel": "S235",
    "width": "80 mm",
    "thickness": "10 mm",
    "steel": "S235",
    "throat": "6 mm",
}
CROSS = {
    "name": "jack plate",
    "gap": "80 mm",
    "along": "140 mm",
    "thickness": "25 mm",
    "steel": "S235",
    "throat": "5 mm",
    "wall": "8 mm",
    "wall_depth": "120 mm",
    "both": True,
    "inspected": True,
}
CONTACT = {"name": "pin on seat", "diameter": "30 mm", "length": "20 mm", "steel": "S355"}


def runs(*ys, half=60.0, throat="3 mm"):
    """Upright runs side by side across the frame."""
    return [
        {"start": ["0 mm", f"{y} mm", f"{-half} mm"], "end": ["0 mm", f"{y} mm", f"{half} mm"], "throat": throat}
        | {"sides": "both"}
        for y in ys
    ]


GROUP = {"name": "fillets", "steel": "S235", "inspected": True, "runs": runs(-2.5, 2.5)}


def press(**parts):
    return check_press({"schema": 1, "jack": JACK} | parts)


def found(result, part):
    return {f.check: f for f in result.findings if f.part == part}


def gluing(**changes):
    """The gluing press without its bolts and welds, with other joints in their place."""
    kept = {key: value for key, value in GLUING.items() if key not in ("bolts", "weld")}
    return {key: value for key, value in (kept | changes).items() if value is not None}


def ends(data, place):
    """What the frame puts on a place."""
    described = press_of(data)
    forces = jack_forces(described.jack, described.basis)
    answer = frame_answer(described, forces, setting_of(described, forces))
    return list(answer.ends[place])


# ---- typed ----------------------------------------------------------------------------------


def test_an_end_plate_takes_its_beam_from_the_library_and_a_share_of_the_jack():
    """A moment of 3 kN m and the whole jack as shear, both x 1.5; every needed check is answered."""
    result = press(end_plate=[PLATE | {"section": "IPE 160", "moment": "3 kN m", "shear": 1.0}])
    plate = found(result, "corner plate")
    assert set(plate) == set(KINDS["end_plate"].needed)
    assert plate["end plate bending"].demand.value == pytest.approx(1.5 * 3e6)
    # The flange in compression, 82 x 7.4 x 235 N, limits row 1, 116.3 mm above it (EN 1993-1-8 6.2.6.7, derived).
    assert plate["end plate bending"].capacity.value == pytest.approx(82 * 7.4 * 235 * 116.3)
    # 60 kN / 4 = 15 kN of 60.3 kN (Table 3.4: 0.6 x 800 x 157 / 1.25), and the moment's share of the bolts over 1.4.
    tension = 4.5e6 / (82 * 7.4 * 235 * 116.3)
    assert plate["bolt shear and tension"].utilisation == pytest.approx(15e3 / 60288 + tension / 1.4)
    assert plate["bolt shear and tension"].user_force is True
    assert plate["web behind the end plate"].verdict == plate["fatigue"].verdict == "not checked"


def test_a_moment_the_other_way_turns_the_plate_over():
    """Symmetric rows bear as much from below; a plate without its lower row far out does not."""
    base = PLATE | {"section": "IPE 160"}
    up, down = (found(press(end_plate=[base | {"moment": m}]), "corner plate") for m in ("3 kN m", "-3 kN m"))
    assert down["end plate bending"].utilisation == pytest.approx(up["end plate bending"].utilisation)
    odd = base | {"rows": ["70 mm", "120 mm"]}
    up, down = (found(press(end_plate=[odd | {"moment": m}]), "corner plate") for m in ("3 kN m", "-3 kN m"))
    assert down["end plate bending"].utilisation > up["end plate bending"].utilisation


def test_the_flange_behind_is_that_of_the_section_bolted_to():
    """HEA 140: t_f 8.5, m = (70 - 5.5) / 2 - 0.8 x 12 = 22.65, e the smaller of flange and plate, 25 (figure 6.8)."""
    base = PLATE | {"section": "IPE 160", "moment": "3 kN m"}
    named = press(end_plate=[base | {"behind_section": "HEA 140"}])
    typed = press(end_plate=[base | {"behind": "8.5 mm", "behind_lever": "22.65 mm", "behind_edge": "25 mm"}])
    one, other = (found(r, "corner plate")["part behind the end plate"] for r in (named, typed))
    assert one.utilisation == pytest.approx(other.utilisation)
    assert "the flange behind goes on past the outer rows, up and down" in [a.condition for a in named.conditions]


def test_four_rods_by_their_stress_area():
    """M20 4.6: 0.9 x 400 x 245 / 1.25 = 70.6 kN each, cut threads 0.85 of it (Table 3.4, 3.6.1(3); derived)."""
    cut, rolled = (found(press(rod=[ROD | {"pull": 1.0, "rolled": r}]), "rods")["bolt tension"] for r in (False, True))
    assert rolled.capacity.value / 4e3 == printed("70.6")
    assert cut.capacity.value / 4e3 == printed("60.0")
    assert cut.demand.value == pytest.approx(60e3)
    assert cut.user_force is False


def test_a_tube_on_a_tube_by_its_face():
    """SHS 80 on SHS 100x5 S235 in tension: 99.5 kN (EN 1993-1-8 Table 7.10, arithmetic by hand)."""
    result = press(tube_joint=[TUBE | {"pull": 1.0, "chord_stress": "0 MPa"}])
    face = found(result, "tube corner")["tube face"]
    assert face.capacity.value / 1e3 == printed("99.5")
    assert face.demand.value == pytest.approx(60e3)
    # 1.5 x 150 MPa of 235 pressed: k_n = 1.3 - 0.4 x 0.957 / 0.8 (Table 7.10, by hand).
    pressed = press(tube_joint=[TUBE | {"push": 1.0, "chord_stress": "150 MPa"}])
    k_n = 1.3 - 0.4 * 225 / 235 / 0.8
    assert found(pressed, "tube corner")["tube face"].utilisation == pytest.approx(face.utilisation / k_n)


def test_a_chord_that_ends_at_the_brace_is_no_pass():
    """Section 7 is for a chord that goes on: unknown is a condition, too short is not checked, a cap settles it."""
    base = {key: value for key, value in TUBE.items() if key != "beyond"} | {"pull": 1.0, "chord_stress": "0 MPa"}
    text = "the chord goes on at least 100 mm past the brace both ways, or its end is capped"
    assert text in [a.condition for a in press(tube_joint=[base]).conditions]
    short = found(press(tube_joint=[base | {"beyond": "40 mm"}]), "tube corner")["tube face"]
    assert (short.verdict, short.reason.split(";")[0]) == (
        "not checked",
        "only 40 mm of chord are left beyond the brace",
    )
    capped = press(tube_joint=[base | {"beyond": "40 mm", "capped": True}])
    assert found(capped, "tube corner")["tube face"].verdict == "holds"


def test_a_butt_weld_is_as_strong_as_its_plate():
    """100 x 10 x 235 = 235 kN (EN 1993-1-8 4.7.1)."""
    butt = found(press(butt=[BUTT | {"across": 1.0}]), "butt")
    assert butt["weld throat"].capacity.value == pytest.approx(235e3)
    assert butt["yield at greatest force"].demand.value == pytest.approx(50)
    partial = BUTT | {"across": 1.0, "penetration": ["4 mm", "4 mm"], "gap": "2 mm"}
    # Two throats of 4 - 2 mm: 100 x 4 mm2 x 207.8 MPa (4.7.2; f_u 360, beta_w 0.8).
    assert found(press(butt=[partial]), "butt")["weld throat"].capacity.value == pytest.approx(83.1e3, rel=1e-3)


def test_a_plate_on_a_flange_pulls_near_the_web_only():
    """IPE 160: b_eff = t_w + 2 r + 7 k t_f = 5 + 18 + 51.8 k, k = 7.4/10 here: 61.3 of 80 mm (4.10(2), by hand)."""
    hanger = found(press(plate_on_flange=[FLANGE | {"pull": 1.0}]), "hanger")["flange bending"]
    assert hanger.capacity.value == pytest.approx((23 + 7 * 0.74 * 7.4) * 10 * 235)


def test_a_weld_group_of_two_runs_by_hand():
    """60 kN down on 2 x (120 - 6) x 3 mm2 is 87.7 MPa of 207.8 (4.5.3.3)."""
    plain = found(press(weld_group=[GROUP | {"force": 1.0}]), "fillets")["weld throat"]
    assert plain.utilisation == pytest.approx(60e3 / (2 * 114 * 3) / 207.846, rel=1e-4)
    # 30 mm off, its moment adds 6 M / (2 a l^2) square to it.
    off = GROUP | {"force": 1.0, "through": ["30 mm", "0 mm", "0 mm"]}
    bent = found(press(weld_group=[off]), "fillets")["weld throat"]
    across = 60e3 * 30 * 6 / (2 * 3 * 114**2)
    assert bent.utilisation == pytest.approx(math.hypot(60e3 / 684, across) / 207.846, rel=1e-4)
    as_moment = GROUP | {"force": 1.0, "moment": ["0 kN m", "1.2 kN m", "0 kN m"]}
    assert found(press(weld_group=[as_moment]), "fillets")["weld throat"].utilisation == pytest.approx(bent.utilisation)


def test_a_round_run_needs_no_end():
    """A ring of 60 mm diameter and 4 mm throat: 60 kN / (pi x 60 x 4) = 79.6 MPa."""
    ring = {"start": ["30 mm", "0 mm", "0 mm"], "centre": ["0 mm", "0 mm", "0 mm"], "throat": "4 mm", "sides": "around"}
    result = press(weld_group=[GROUP | {"force": 1.0, "runs": [ring]}])
    assert found(result, "fillets")["weld throat"].utilisation == pytest.approx(
        60e3 / (math.pi * 240) / 207.846, rel=1e-3
    )


def test_a_plate_between_two_beams():
    """Pinned over 80 mm, pressed at a point: 60 kN x 80 / 4 of 140 x 25^2 / 4 x 225 MPa (plastic, by hand)."""
    plate = found(press(cross_plate=[CROSS | {"load": 1.0}]), "jack plate")["bending"]
    assert plate.demand.value == pytest.approx(60e3 * 20)
    assert plate.capacity.value == pytest.approx(140 * 625 / 4 * 225)


def test_a_pin_on_a_flat():
    """Twice the length of the line bears twice; a hollow of the pin's size bears more than a flat."""
    one, two, hollow = (
        found(press(contact=[CONTACT | {"force": 1.0} | more]), "pin on seat")["contact"].capacity.value
        for more in ({}, {"length": "40 mm"}, {"hollow": "32 mm"})
    )
    assert two == pytest.approx(2 * one)
    assert hollow > one


ALL = [
    ("end_plate", PLATE | {"section": "IPE 160", "moment": "3 kN m"}),
    ("rod", ROD | {"pull": 1.0}),
    ("tube_joint", TUBE | {"pull": 1.0, "chord_stress": "0 MPa"}),
    ("butt", BUTT | {"across": 1.0}),
    ("plate_on_flange", FLANGE | {"pull": 1.0}),
    ("weld_group", GROUP | {"force": 1.0}),
    ("cross_plate", CROSS | {"load": 1.0}),
    ("contact", CONTACT | {"force": 1.0}),
]


@pytest.mark.parametrize(("kind", "table"), ALL, ids=[kind for kind, _ in ALL])
def test_every_needed_check_of_every_kind_is_answered(kind, table):
    """Judged, not checked, or told why it cannot occur."""
    result = press(**{kind: [table]})
    answered = {x.check for x in (*result.findings, *result.does_not_apply) if x.part == table["name"]}
    assert set(KINDS[kind].needed) <= answered


@pytest.mark.parametrize(("kind", "table"), ALL, ids=[kind for kind, _ in ALL])
def test_a_joint_without_a_load_is_refused(kind, table):
    """It would pass for nothing."""
    loads = ("moment", "pull", "push", "across", "force", "load", "shear")
    with pytest.raises(InputError, match="is missing"):
        press(**{kind: [{key: value for key, value in table.items() if key not in loads}]})


def test_the_python_face_asks_about_one_joint():
    """By kind; a share of a jack has no jack there."""
    given = {key: value for key, value in ROD.items() if key not in ("name", "class")}
    answer = ask("rod", given | {"bolt_class": "4.6", "pull": "40 kN"})
    assert found(answer, "rod")["bolt tension"].demand.value == pytest.approx(60e3)
    assert answer.title == "Rods 4 x M20 4.6"
    with pytest.raises(InputError, match="has no unit"):
        ask("contact", {"diameter": "30 mm", "length": "20 mm", "steel": "S355", "force": 1.0}, numbers=False)


@pytest.mark.parametrize(
    ("parts", "words"),
    [
        ({"end_plate": [PLATE | {"moment": "3 kN m"}]}, "section: is missing"),
        ({"end_plate": [PLATE | {"moment": "3 kN m", "section": "SHS 100x100x5"}]}, "is no I or H section"),
        ({"tube_joint": [TUBE | {"pull": 1.0}]}, "chord_stress: is missing"),
        ({"tube_joint": [TUBE | {"pull": 1.0, "push": 1.0, "chord_stress": "0 MPa"}]}, "stands beside pull"),
        ({"weld_group": [GROUP | {"force": 1.0, "direction": [0, 0, 0]}]}, "direction: .* is none"),
        ({"weld_group": [GROUP | {"force": 1.0, "through": ["1 mm"]}]}, "through: is no triple"),
        ({"weld_group": [GROUP | {"force": 1.0, "runs": []}]}, "runs"),
        ({"rod": [ROD | {"pull": 1.0, "at": "head/left"}]}, "is a place in a frame that is not described"),
        ({"rod": [ROD | {"pull": 1.0}, ROD | {"pull": 1.0}]}, "is already the name of a rod"),
    ],
)
def test_wrong_input_is_told_in_words(parts, words):
    """With the key and what to write."""
    with pytest.raises(InputError, match=words):
        press(**parts)


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
    """Bending of an unknown corner, twist of a load in front: not checked, in words."""
    result = check_press(gluing(**{kind: [table | {"at": "head/left"}]}))
    findings = found(result, table["name"])
    assert any(f.verdict == "not checked" and reason in f.reason for f in findings.values())


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


@pytest.mark.parametrize(("kind", "table"), ALL, ids=[kind for kind, _ in ALL])
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
