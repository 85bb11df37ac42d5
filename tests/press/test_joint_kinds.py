"""The wider kinds of joint from a press file: with loads of the user's, and at places of a described frame."""

import math

import pytest

from structcheck.errors import InputError
from structcheck.press.parts import KINDS
from structcheck.questions import ask
from tests.press.joints_given import ALL, BUTT, CONTACT, CROSS, FLANGE, GROUP, PLATE, ROD, TUBE, found, press
from tests.printed import printed

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
    assert "the flange behind goes on past the outer rows, up and down" in [a.condition for a in typed.conditions]
    assert any(a.condition.startswith("the member behind goes on at least 140 mm") for a in named.conditions)
    stated = press(end_plate=[base | {"behind_section": "HEA 140", "behind_past": "200 mm", "behind_stress": "0 MPa"}])
    assert not any("behind" in a.condition for a in stated.conditions)
    assert found(stated, "corner plate")["web behind the end plate"].verdict == "holds"


@pytest.mark.parametrize(
    ("keys", "key"),
    [
        ({"behind_section": "HEA 140", "through": True}, "through"),
        ({"behind_section": "HEA 140", "behind_capped": True}, "behind_capped"),
        ({"behind_section": "SHS 120x120x6 cold", "behind_stiffeners": "40 x 8 mm"}, "behind_stiffeners"),
        ({"behind": "8 mm", "behind_lever": "25 mm", "behind_edge": "25 mm", "behind_past": "80 mm"}, "behind_past"),
    ],
)
def test_what_means_nothing_for_the_member_behind_is_refused(keys, key):
    """No key is dropped in silence."""
    with pytest.raises(InputError, match=f"{key}.*means nothing"):
        press(end_plate=[PLATE | {"section": "IPE 160", "moment": "1 kN m"} | keys])


def test_a_tube_behind_an_end_plate_is_judged_by_its_face():
    """Its wall, side walls and the whole joint, once the stress along the face is stated; fatigue stays open."""
    tube = PLATE | {"section": "IPE 160", "behind_section": "SHS 120x120x6 cold", "behind_stress": "20 MPa"}
    result = found(press(end_plate=[tube | {"moment": "1 kN m", "gauge": "60 mm"}]), "corner plate")
    assert "the tube's face yields" in result["part behind the end plate"].reason
    assert result["moment of the joint"].utilisation >= result["part behind the end plate"].utilisation
    assert result["fatigue"].verdict == "not checked"


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
