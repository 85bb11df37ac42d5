"""The load path: every part of a described press takes its force from where it stands, and none is left out."""

import tomllib
from pathlib import Path

import pytest

from structcheck.errors import InputError
from structcheck.questions import check_press

ROOT = Path(__file__).resolve().parents[2]
ORCHARD = tomllib.loads((ROOT / "examples" / "orchard_press.toml").read_text(encoding="utf-8"))
T = 9806.65


def _press(**changes):
    """The orchard press with some of its tables changed or, where None, left out."""
    return {key: value for key, value in (ORCHARD | changes).items() if value is not None}


def _found(result, part, check):
    return next(f for f in result.findings if (f.part, f.check) == (part, check))


def test_the_head_bends_as_a_beam_on_two_supports_where_its_corners_are_loose():
    """F L / 4 at 1.5 R is the least that the worst corner state can give (derived, statics)."""
    moment = _found(check_press(_press()), "head", "bending").demand.value
    assert 12 * T * 700 / 4 <= moment <= 1.02 * 12 * T * 700 / 4


def test_a_corner_joint_carries_half_the_force():
    """Bolts at every corner: half of 1.5 R, and a little more where the work stands off centre (statics)."""
    demand = _found(check_press(_press()), "corner bolts in the flats", "bolt shear").demand.value
    assert 6 * T <= demand <= 6 * T * 1.1


def test_an_upright_is_pulled_by_half_the_force():
    """Half of 1.5 R, more where the work stands off centre."""
    demand = _found(check_press(_press()), "left upright", "axial").demand.value
    off = 15 / 700
    assert demand == pytest.approx(12 * T * (0.5 + off), rel=0.02)


def test_a_joint_nobody_described_leaves_the_press_incomplete():
    """Each corner, the platen and the guides are on the list of the load path."""
    result = check_press(_press(bolts=None, platen=None, guide=None, spring=None))
    missing = {f.part: f.reason for f in result.findings if f.reason.startswith("the force runs through here")}
    assert set(missing) == {"head/left", "head/right", "bed/left", "bed/right", "platen", "guides"}
    for part, table in {"head/left": "[[bolts]]", "platen": "[[platen]]", "guides": "[[guide]]"}.items():
        assert table in missing[part]


def test_a_joint_at_one_corner_does_not_speak_for_the_others():
    """Three corners stay open."""
    bolts = [ORCHARD["bolts"][0] | {"at": "head/left"}]
    result = check_press(_press(bolts=bolts))
    assert _found(result, "head/right", "joint").verdict == "not checked"
    assert not [f for f in result.findings if f.part == "head/left"]


def test_a_computed_force_is_not_marked_as_the_users():
    """And a typed one is, beside a described frame too."""
    weld = {"name": "bracket", "throat": "4 mm", "length": "80 mm", "runs": 2, "steel": "S235", "along": "5 kN"}
    result = check_press(_press(weld=[weld]))
    assert _found(result, "corner bolts in the flats", "bolt shear").user_force is False
    assert _found(result, "bracket", "weld throat").user_force is True


def test_the_finding_names_the_case_and_the_corner_state_that_governed():
    """ "off centre ..., ...; ... loose"."""
    finding = _found(check_press(_press()), "corner bolts in the flats", "bolt shear")
    assert "loose" in finding.case or "rigid" in finding.case
    assert " at " in finding.case


def test_a_rigid_corner_that_is_stated_takes_moment_off_the_beam():
    """Stated corners are used as stated: the head bends less than between pins."""
    loose = _found(check_press(_press()), "head", "bending").demand.value
    frame = ORCHARD["frame"] | {"corners": "rigid"}
    rigid = _found(check_press(_press(frame=frame)), "head", "bending").demand.value
    assert rigid < loose


def test_the_spreader_and_the_webs_are_judged_with_the_beam():
    """Force enters the head and the bed through what stands on them."""
    result = check_press(_press(jack=ORCHARD["jack"] | {"offset_across": "5 mm"}))
    for beam in ("head", "bed"):
        assert _found(result, beam, "web under load").verdict == "holds"
        assert _found(result, beam, "spreader plate").verdict == "holds"
    bare = check_press(_press(head={k: v for k, v in ORCHARD["head"].items() if k != "spreader"}))
    assert _found(bare, "head", "spreader plate").verdict == "not checked"


def test_a_force_beside_the_middle_of_two_channels_presses_one_web_harder():
    """Webs 27 mm apart, 5 mm off their middle: 0.5 + 5/27 of it on the nearer one; at 15 mm all; at 18 mm it tips."""
    offsets = ("5 mm", "15 mm", "18 mm")
    near, far, beyond = (check_press(_press(jack=ORCHARD["jack"] | {"offset_across": e})) for e in offsets)
    near_use, far_use = (_found(r, "head", "web under load").utilisation for r in (near, far))
    assert near_use / far_use == pytest.approx(0.5 + 5 / 27, rel=0.01)
    assert _found(far, "head", "spreader plate").verdict == "holds"
    assert "outside the webs" in _found(beyond, "head", "spreader plate").reason


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"frame": None}, "head: is there without [frame]"),
        ({"head": None}, "head: is missing beside [frame]"),
        ({"bolts": [ORCHARD["bolts"][0] | {"at": "middle"}]}, '"middle" is no place of a frame'),
        ({"bolts": [ORCHARD["bolts"][0] | {"at": "head/middle"}]}, '"head/middle" is no joint of this frame'),
        ({"bolts": [{k: v for k, v in ORCHARD["bolts"][0].items() if k != "at"}]}, "shear: is missing"),
        ({"frame": ORCHARD["frame"] | {"span": "0 mm"}}, "must be above zero"),
    ],
)
def test_a_frame_that_cannot_be_is_refused_in_words(changes, words):
    """One clear message."""
    with pytest.raises(InputError) as refused:
        check_press(_press(**changes))
    assert words in str(refused.value)


def test_a_weld_at_a_corner_carries_force_and_moment():
    """Two upright fillets under half the force and the corner's moment use more than under the force alone."""
    weld = {
        "name": "web fillets",
        "at": "corners",
        "joint": "end plate",
        "throat": "5 mm",
        "length": "100 mm",
        "runs": 2,
        "spacing": "7 mm",
        "steel": "S235",
        "inspected": True,
    }
    placed = _found(check_press(_press(bolts=None, weld=[weld])), "web fillets", "weld throat")
    alone = {k: v for k, v in weld.items() if k not in ("at", "joint")} | {"along": 0.5}
    typed = _found(check_press(_press(bolts=None, weld=[alone])), "web fillets", "weld throat")
    assert placed.utilisation > typed.utilisation > 0


def test_runs_at_a_corner_need_their_spacing():
    """Their lever is not guessed."""
    weld = {"name": "w", "at": "corners", "throat": "5 mm", "length": "100 mm", "runs": 2, "steel": "S235"}
    with pytest.raises(InputError, match="spacing: is missing for runs at a corner"):
        check_press(_press(weld=[weld]))


def test_the_drawing_of_what_was_understood_is_in_the_result():
    """So that a typing error is seen."""
    drawing = check_press(_press()).drawing
    assert "span 700 mm" in drawing
    assert "2 x UPN 120" in drawing


def test_what_bridges_two_planes_is_asked_for_by_its_table():
    frame = ORCHARD["frame"] | {"planes": 2, "spacing": "400 mm"}
    result = check_press(_press(frame=frame))
    reason = _found(result, "between the planes", "what carries the force to each plane").reason
    assert reason.endswith("a [[platen]] on `bearers`")


def test_corners_as_stiff_as_blocks_bend_the_uprights_harder_and_that_is_said():
    """The uprights, shorter between rigid ends, draw more of the moment (statics)."""
    along = check_press(_press())
    block = check_press(_press(frame=ORCHARD["frame"] | {"rigid_zones": True}))
    check = "axial and bending"
    bent = [_found(result, "left upright", check).utilisation for result in (along, block)]
    assert bent[1] > bent[0]
    said = [any("rigid_zones = true" in a.text for a in result.assumptions) for result in (along, block)]
    assert said == [True, False]
