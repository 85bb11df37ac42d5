"""Sections of the builder's own in a press file: named like any other, with their seams and cuts judged."""

import math
import tomllib
from pathlib import Path

import pytest

from structcheck.errors import InputError
from structcheck.press.cases import jack_forces
from structcheck.press.load_path import frame_answer
from structcheck.press.model import setting_of
from structcheck.press.own_sections import own_sections
from structcheck.press.reading import press_of
from structcheck.questions import check_press

ROOT = Path(__file__).resolve().parents[2]
GLUING = tomllib.loads((ROOT / "examples" / "gluing_press_as_drawn.toml").read_text(encoding="utf-8"))
JACK = {"rating": "80 kN", "relief": "100 kN"}
SIZES = {"h": "160 mm", "b": "100 mm", "tw": "8 mm", "tf": "12 mm"}
SEAM = {"throat": "4 mm", "runs": 2, "inspected": True}
I_BEAM = {"name": "my I", "shape": "welded i"} | SIZES | SEAM
PLAIN_HEAD = {key: value for key, value in GLUING["head"].items() if key != "stiffeners"}
WIDE = "120 x 110 x 20 mm"
BOX = {"name": "my box", "shape": "box", "closed": True} | SIZES | SEAM | {"runs": 1}


def press(*sections, **beam):
    table = {"name": "beam", "section": sections[0]["name"], "steel": "S235", "span": "900 mm", "load": 1.0} | beam
    return check_press({"schema": 1, "jack": JACK, "section": list(sections), "beam": [table]})


def found(result, part="beam"):
    return {f.check: f for f in result.findings if f.part == part}


def made(*sections):
    """The sections of a file by name."""
    described = press_of({"schema": 1, "jack": JACK, "section": list(sections), "rod": []})
    return {section.designation: section for section in own_sections(described.section)}


# f_vw,d of S235: 360 / sqrt(3) / (0.8 x 1.25) = 207.8 MPa (EN 1993-1-8 4.5.3.3).
STRENGTH = 360 / math.sqrt(3)
I_Y = 2 * (100 * 12**3 / 12 + 1200 * 74**2) + 8 * 136**3 / 12


def test_a_welded_beam_is_judged_as_a_beam_of_its_own_plates():
    """M = 120 kN x 900 / 4; W_pl = 2 x 1200 x 74 + 8 x 136^2 / 4 (by hand)."""
    bending = found(press(I_BEAM))["bending"]
    assert bending.demand.value == pytest.approx(120e3 * 900 / 4)
    assert bending.capacity.value == pytest.approx((2400 * 74 + 2 * 136**2) * 235)


def test_the_seam_of_an_i_bears_its_shear_flow():
    """V S / I: 60 kN x 1200 x 74 / I on two fillets of 4 mm (derived)."""
    throat = found(press(I_BEAM), "beam, seams")["weld throat"]
    assert throat.demand.value == pytest.approx(60e3 * 1200 * 74 / I_Y)
    assert throat.capacity.value == pytest.approx(2 * 4 * STRENGTH)
    assert throat.demand.as_dict()["unit"] == "N/mm"
    rated = found(press(I_BEAM), "beam, seams")["fatigue"]
    assert rated.demand.value == pytest.approx(40e3 * 1200 * 74 / I_Y / 8)


def test_a_box_shares_the_flow_between_its_seams():
    """Two webs, one fillet each: half the flow of a flange; where a seam may be open, one takes all of it."""
    I_y = 2 * (100 * 12**3 / 12 + 1200 * 74**2) + 2 * 8 * 136**3 / 12
    throat = found(press(BOX), "beam, seams")["weld throat"]
    assert throat.demand.value == pytest.approx(60e3 * 1200 * 74 / I_y / 2)
    assert throat.capacity.value == pytest.approx(4 * STRENGTH)
    slit = found(press(BOX | {"closed": False}), "beam, seams")["weld throat"]
    assert slit.demand.value == pytest.approx(2 * throat.demand.value)


def test_a_torque_runs_round_the_seams_of_a_box():
    """T / (2 A) with A = 92 x 148 mm2 between the middle lines, beside V S / (2 I) (Bredt)."""
    data = GLUING | {"section": [BOX], "head": PLAIN_HEAD | {"section": "my box", "spreader": WIDE}}
    described = press_of(data)
    forces = jack_forces(described.jack, described.basis)
    answer = frame_answer(described, forces, setting_of(described, forces))
    ultimate = [s for s in answer.stations["head"] if s.case.limit == "ultimate"]
    assert any(s.T for s in ultimate)
    I_y = 2 * (100 * 12**3 / 12 + 1200 * 74**2) + 2 * 8 * 136**3 / 12
    by_hand = max(abs(s.V_z) * 1200 * 74 / I_y / 2 + abs(s.T) / (2 * 92 * 148) for s in ultimate if not s.V_y)
    throat = found(check_press(data), "head, seams")["weld throat"]
    assert throat.demand.value == pytest.approx(by_hand)


def test_the_seams_of_an_open_section_that_is_twisted_are_no_pass():
    """Its jack may stand off the middle across the frame."""
    result = check_press(GLUING | {"section": [I_BEAM], "head": PLAIN_HEAD | {"section": "my I"}})
    assert "twisted" in found(result, "head, seams")["weld throat"].reason


def test_seams_without_a_throat_or_a_known_steel_are_no_pass():
    """Every needed check of the seams says why."""
    bare = press({key: value for key, value in I_BEAM.items() if key != "throat"})
    assert {f.reason for f in found(bare, "beam, seams").values()} == {
        "the throat of the section's seams is not stated"
    }
    unknown = found(press(I_BEAM, steel="unknown"), "beam, seams")["weld throat"]
    assert "not known to be weldable" in unknown.reason
    said = press(I_BEAM | {"weldable": True}, steel="unknown")
    assert found(said, "beam, seams")["weld throat"].verdict == "holds"


def test_rectangles_laid_on_each_other_are_the_beam_they_make():
    """The same I from three rectangles: one seam's flow is the whole at its level, as there."""
    rows = [["-50 mm", "50 mm", "0 mm", "12 mm"], ["-4 mm", "4 mm", "12 mm", "148 mm"]]
    rows += [["-50 mm", "50 mm", "148 mm", "160 mm"]]
    plates = {"name": "plates", "shape": "rectangles", "rectangles": rows} | SEAM
    for name in ("A", "Iy", "Iz", "Wpl_y"):
        assert getattr(made(plates)["plates"], name) == pytest.approx(getattr(made(I_BEAM)["my I"], name)), name
    one, other = (found(press(table), "beam, seams")["weld throat"].demand.value for table in (plates, I_BEAM))
    assert one == pytest.approx(other)


def test_plates_side_by_side_are_not_judged_by_level():
    """A flange welded to the web's side hangs on a seam that stands upright."""
    rows = [
        ["0 mm", "8 mm", "0 mm", "160 mm"],
        ["8 mm", "80 mm", "0 mm", "12 mm"],
        ["8 mm", "80 mm", "148 mm", "160 mm"],
    ]
    throat = found(press({"name": "u", "shape": "rectangles", "rectangles": rows} | SEAM), "beam, seams")["weld throat"]
    assert throat.verdict == "not checked"
    assert "touch side by side" in throat.reason or "twisted" in throat.reason


def test_two_channels_are_one_section_if_they_are_tied():
    """Twice the plastic modulus of one UPN 120; what ties them is a condition until it is stated."""
    pair = {"name": "twin", "shape": "pair", "section": "UPN 120", "gap": "20 mm"}
    twin, one = press(pair), press({"name": "single", "shape": "library", "section": "UPN 120"})
    assert found(twin)["bending"].capacity.value == pytest.approx(2 * found(one)["bending"].capacity.value)
    text = 'the two pieces of "twin" are tied along their length, so that they act as one'
    assert text in [a.condition for a in twin.conditions]
    assert text not in [a.condition for a in press(pair | {"tied": True}).conditions]


def test_holes_are_judged_for_fracture_and_fatigue():
    """SHS 100x5 with 18 mm across the middle of both faces: W falls by 180 x 47.5^2 x 2 / 50, nearly (by hand)."""
    holes = [["-9 mm", "9 mm", "45 mm", "50 mm"], ["-9 mm", "9 mm", "-50 mm", "-45 mm"]]
    plain = {"name": "tube", "shape": "library", "section": "SHS 100x100x5 cold"}
    whole, drilled = made(plain)["tube"], made(plain | {"holes": holes})["tube"]
    assert whole.Iy - drilled.Iy == pytest.approx(2 * (18 * 5**3 / 12 + 90 * 47.5**2))
    result = press(plain | {"holes": holes}, load=0.2)
    fracture = found(result, "beam, holes")["net section"]
    assert fracture.capacity.value == pytest.approx(0.9 * 360 / 1.25)
    assert fracture.demand.value >= 0.2 * 120e3 * 900 / 4 / drilled.Wel_y * (1 - 1e-9)
    assert "plate with ordinary bolts" in found(result, "beam, holes")["fatigue"].reason


def test_a_slot_leaves_half_the_rib_and_has_no_category():
    """A quarter of the modulus is left; its corners are not judged for fatigue."""
    rib = {"name": "rib", "shape": "flat", "h": "120 mm", "t": "20 mm"}
    slotted = made(rib | {"slot": {"depth": "60 mm", "width": "21 mm"}})["rib"]
    assert slotted.Wel_y == pytest.approx(made(rib)["rib"].Wel_y / 4)
    result = press(rib | {"slot": {"depth": "60 mm", "width": "21 mm"}}, load=0.02)
    assert found(result, "beam, slot")["fatigue"].verdict == "not checked"


def test_an_own_section_serves_head_bed_and_upright():
    """Wherever a section is named."""
    tables = {"head": GLUING["head"], "bed": GLUING["bed"], "uprights": GLUING["uprights"]}
    for name, table in tables.items():
        kept = {key: value for key, value in table.items() if key != "stiffeners"}
        kept |= {"spreader": WIDE} if "spreader" in kept else {}
        result = check_press(GLUING | {"section": [BOX], name: kept | {"section": "my box"}})
        parts = {f.part for f in result.findings}
        assert ({f"{name}, seams"} if name != "uprights" else {"left upright, seams", "right upright, seams"}) <= parts


def test_one_own_section_can_name_another_above_it():
    """A pair of a channel of plates."""
    channel = {"name": "u", "shape": "channel"} | SIZES | SEAM
    pair = {"name": "two u", "shape": "pair", "section": "u", "gap": "10 mm", "tied": True}
    assert pytest.approx(2 * made(channel)["u"].A) == made(channel, pair)["two u"].A


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"tw": None}, 'section "my I", tw: is missing for shape "welded i"'),
        ({"rib": "10 mm"}, 'rib: means nothing for shape "welded i"'),
        ({"shape": "star"}, "shape: .* is not one of the choices"),
        ({"h": "20 mm"}, "is no size of a plate"),
        ({"name": "IPE 160"}, "is the name of a stock size"),
        ({"throat": "4"}, "has no unit"),
        ({"shape": "rectangles", "rectangles": [["0 mm", "1 mm"]]}, "is no rectangle"),
        (
            {
                "shape": "rectangles",
                "rectangles": [["0 mm", "9 mm", "0 mm", "9 mm"], ["9 mm", "20 mm", "9 mm", "20 mm"]],
            },
            "rectangles: number 2 touches none of the others",
        ),
        ({"holes": [["0 mm", "9 mm", "0 mm", "200 mm"]]}, "is not wholly in the material"),
    ],
)
def test_wrong_sections_are_told_in_words(change, words):
    """With the section, the key and what to write."""
    base = I_BEAM if change.get("shape") != "rectangles" else {"name": "plates"} | SEAM
    given = {key: value for key, value in (base | change).items() if value is not None}
    with pytest.raises(InputError, match=words):
        press(given)


def test_all_faults_of_a_file_are_told_at_once():
    """A section that cannot be made does not hide what else is wrong, nor is it called unknown where it is named."""
    with pytest.raises(InputError) as caught:
        press(I_BEAM | {"h": "20 mm"}, I_BEAM, span="0 mm")
    keys = {(p.part, p.key) for p in caught.value.problems}
    assert ('beam "beam"', "span") in keys
    assert ('beam "beam"', "section") not in keys
    assert any("is already the name of a section" in p.fault for p in caught.value.problems)


def test_a_skew_section_is_refused():
    """Bent about one axis it bends about the other too."""
    rows = [
        ["-50 mm", "50 mm", "0 mm", "12 mm"],
        ["-4 mm", "4 mm", "12 mm", "148 mm"],
        ["-4 mm", "50 mm", "148 mm", "160 mm"],
    ]
    with pytest.raises(InputError, match="no axis of symmetry"):
        press({"name": "z", "shape": "rectangles", "rectangles": rows} | SEAM)


def test_one_upright_plate_bears_a_shear_across_it_too():
    """A slotted flat is a bar: its area bears either way, as that of the whole one does (EN 1993-1-1 6.2.6(3))."""
    rib = {"name": "rib", "shape": "flat", "h": "120 mm", "t": "20 mm", "slot": {"depth": "60 mm", "width": "21 mm"}}
    section = made(rib)["rib"]
    assert section.Avy == section.Avz == pytest.approx(60 * 20)
    upright = {"name": "u", "section": "rib", "steel": "S235", "length": "900 mm", "pull": 0.1, "moment": "0.1 kN m"}
    result = check_press({"schema": 1, "jack": JACK, "section": [rib], "upright": [upright]})
    assert found(result, "u")["axial and bending"].verdict in ("holds", "fails")
    assert found(result, "u, slot")["net section"].demand.value == pytest.approx(
        1.5 * (8e3 / 1200 + 0.1e6 * 6 / (20 * 60**2))
    )
