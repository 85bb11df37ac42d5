"""Where a force is pressed through a flange its seam bears it across and along; webs of welded boxes are judged."""

import math

import pytest

from structcheck.checks.basis import RATED, ULTIMATE, Basis
from structcheck.checks.seam_pressed import check_pressed_seams, least_covered, pressed_flow
from structcheck.checks.seams import Seam, Seams, Stretched
from structcheck.checks.web_resistance import LocalLoad, Web
from structcheck.materials.steels import find_steel
from structcheck.questions import check_press
from structcheck.shapes.built_up import welded_box, welded_i

JACK = {"rating": "80 kN", "relief": "100 kN"}
SEAM = {"throat": "4 mm", "runs": 2, "inspected": True}
I_BEAM = {"name": "my I", "shape": "welded i", "h": "160 mm", "b": "100 mm", "tw": "8 mm", "tf": "12 mm"} | SEAM
BOX = {
    "name": "my box",
    "shape": "box",
    "h": "160 mm",
    "b": "100 mm",
    "tw": "8 mm",
    "tf": "12 mm",
    "closed": True,
} | SEAM
I_Y = 2 * (100 * 12**3 / 12 + 1200 * 74**2) + 8 * 136**3 / 12
FLOW = 1200 * 74 / I_Y
STRENGTH = 360 / math.sqrt(3)
STEEL = find_steel("S235")


def press(section, **beam):
    table = {"name": "beam", "section": section["name"], "steel": "S235", "span": "900 mm", "load": 1.0} | beam
    result = check_press({"schema": 1, "jack": JACK, "section": [section], "beam": [table]})
    return result, {(f.part, f.check): f for f in result.findings}


# Derived by hand: the force spreads at 1:1 through the flange, 3.2.3 of EN 1993-1-5 (memory).
def test_the_seam_under_the_jack_bears_across_and_along():
    """120 kN on 60 + 2 x 12 mm and 60 kN x S / I, on two throats of 4 mm; no condition is left."""
    result, found = press(I_BEAM, pad="60 mm", held_by="web")
    throat = found["beam, seams under load", "weld throat"]
    assert throat.demand.value == pytest.approx(math.hypot(120e3 / 84, 60e3 * FLOW))
    assert throat.capacity.value == pytest.approx(8 * STRENGTH)
    assert "under the load" in throat.reason
    assert not any("bear on each other" in a.condition for a in result.conditions)
    rated = found["beam, seams under load", "fatigue"]
    assert rated.demand.value == pytest.approx(80e3 / 84 / 8)


def test_a_short_bearing_at_the_end_presses_its_seam_hardest():
    """60 kN on 10 mm at the beam's very end: spread inward only, 10 + 12 mm."""
    _, found = press(I_BEAM, pad="60 mm", bearing="10 mm")
    throat = found["beam, seams under load", "weld throat"]
    assert throat.demand.value == pytest.approx(math.hypot(60e3 / 22, 60e3 * FLOW))
    assert "at the support" in throat.reason


def test_what_spreads_the_force_eases_the_seam():
    """A longer pad, a plate under it, stiffeners that take their share past it; a line is the worst."""
    uses = []
    for more in (
        {},
        {"pad": "60 mm"},
        {"pad": "60 mm", "spreader": "200 x 100 x 20 mm"},
        {"pad": "60 mm", "spreader": "200 x 100 x 20 mm", "stiffeners": "40 x 8 mm"},
    ):
        _, found = press(I_BEAM, held_by="web", **more)
        uses.append(found["beam, seams under load", "weld throat"].utilisation)
    assert uses == sorted(uses, reverse=True) and len(set(uses)) == 4


def test_a_fillet_on_one_side_is_no_pass_but_where_the_plates_are_fitted():
    """It would be bent about its root; contact counts only as stated, and is printed."""
    one = I_BEAM | {"runs": 1}
    _, found = press(one, pad="60 mm")
    assert "bent about its root" in found["beam, seams under load", "weld throat"].reason
    result, found = press(one | {"fitted": True}, pad="60 mm")
    assert ("beam, seams under load", "weld throat") not in found
    assert any("fitted and bear" in a.text for a in result.assumptions)


def test_the_webs_of_a_welded_box_are_judged_under_a_plate_that_reaches_them():
    """Twice one web; without such a plate the flange between them would bend, and nothing is passed."""
    _, bare = press(BOX, pad="60 mm", bearing="60 mm")
    assert "between the webs" in bare["beam", "web under load"].reason
    result, found = press(BOX, pad="60 mm", bearing="60 mm", spreader="120 x 100 x 25 mm")
    assert found["beam", "web under load"].utilisation is not None
    assert any("reaches over both webs" in a.text for a in result.assumptions)
    throat = found["beam, seams under load", "weld throat"]
    assert throat.utilisation is not None
    web = Web("beam", welded_box(160.0, 100.0, 8.0, 12.0), STEEL)
    load = LocalLoad(ULTIMATE, 120e3, pad=60.0, plate=25.0, plate_length=120.0, V=60e3, over_webs=True)
    part = Seams(name="s", seams=(Seam("u", FLOW / 2, by_twist=1e-5),), steel=STEEL, throat=4.0, runs=2)
    flow = pressed_flow(part, web, load, 2e6)
    assert flow.across == pytest.approx(120e3 / 2 / (110 + 24))
    assert flow.along == pytest.approx(60e3 * FLOW / 2 + 20)


def test_an_i_of_unlike_flanges_is_judged_under_a_load():
    """Its web by the lesser flange."""
    _, found = press(I_BEAM | {"b_bottom": "140 mm", "tf_bottom": "10 mm"}, pad="60 mm", bearing="60 mm")
    assert found["beam", "web under load"].utilisation is not None


@pytest.mark.parametrize(("length", "least"), [(30.0, 0.0), (60.0, 0.0), (90.0, 30.0), (130.0, 40.0), (230.0, 80.0)])
def test_the_least_weld_a_length_can_meet(length, least):
    """Stretches of 40 every 100 mm, by sliding the length along (brute force)."""
    found = least_covered(length, 40.0, 100.0)
    assert found == pytest.approx(least)
    step = 0.25
    slid = []
    for k in range(400):
        start = k * step
        covered = sum(
            min(start + length, n * 100 + 40) - max(start, n * 100)
            for n in range(6)
            if min(start + length, n * 100 + 40) > max(start, n * 100)
        )
        slid.append(covered)
    assert found == pytest.approx(min(slid), abs=0.6)


def test_stretches_bear_by_the_least_of_them_under_the_force():
    """A force that may stand between two is not judged; else the least weld under it bears all of it."""
    laid = Stretched(stretch=60.0, gap=60.0, end=80.0, thinnest=8.0, widths=(100.0, 136.0), dry=True)
    part = Seams(name="s", seams=(Seam("u", FLOW),), steel=STEEL, throat=4.0, runs=2, stretched=laid, inspected=True)
    web = Web("beam", welded_i(160.0, 100.0, 8.0, 12.0), STEEL)

    def asked(pad):
        loads = [LocalLoad(case, 12e3, pad=pad, V=6e3) for case in (ULTIMATE, RATED)]
        made = check_pressed_seams(part, web, loads, {}, Basis(), False)
        return {f.check: f for f in made.findings}

    assert "between two stretches" in asked(30.0)["weld throat"].reason
    length = 96.0 + 24
    least = 52.0  # 120 mm is one pitch: 60 less both throats.
    stress = math.hypot(12e3 / length * length / least / 8, 6e3 * FLOW / (8 * 52 / 120))
    assert asked(96.0)["weld throat"].utilisation == pytest.approx(stress / STRENGTH)
    assert asked(96.0)["fatigue"].demand.value == pytest.approx(12e3 / least / 8)


def test_a_twisted_open_section_is_no_pass_at_its_seams():
    """What a torque does to the seams of an I nobody has found."""
    part = Seams(name="s", seams=(Seam("u", FLOW),), steel=STEEL, throat=4.0, runs=2)
    web = Web("beam", welded_i(160.0, 100.0, 8.0, 12.0), STEEL)
    made = check_pressed_seams(part, web, [LocalLoad(ULTIMATE, 1e3)], {"ultimate": 1e5}, Basis(), False)
    assert {f.verdict for f in made.findings} == {"not checked"}


PAIR = {"name": "two u", "shape": "pair", "section": "UPN 120", "gap": "10 mm", "facing": "toe to toe", "tied": True}


def test_a_tied_pair_is_pressed_and_buckles_as_its_pieces():
    """Webs, spreader and buckling sideways are those of two channels side by side, as `pieces = 2` has them."""
    more = {"load": 0.5, "pad": "60 mm", "bearing": "60 mm", "spreader": "120 x 140 x 20 mm"}
    _, pair = press(PAIR, **more)
    beam = {"name": "beam", "section": "UPN 120", "steel": "S235", "span": "900 mm", "pieces": 2, "tied": True}
    beam |= more | {"apart": "10 mm", "facing": "toe to toe"}
    two = {(f.part, f.check): f for f in check_press({"schema": 1, "jack": JACK, "beam": [beam]}).findings}
    for check in ("web under load", "web under load with bending", "spreader plate", "lateral torsional buckling"):
        assert pair["beam", check].utilisation == pytest.approx(two["beam", check].utilisation), check
    assert ("beam", "torsion") not in pair
    _, bare = press(PAIR, load=0.5, pad="60 mm", bearing="60 mm")
    assert bare["beam", "spreader plate"].verdict == "not checked"


def test_rectangles_under_a_plate_say_what_is_missing():
    """No web is known there: never a pass, never a crash."""
    rows = [["-50 mm", "50 mm", "0 mm", "12 mm"], ["-4 mm", "4 mm", "12 mm", "148 mm"]]
    plates = {"name": "plates", "shape": "rectangles", "rectangles": rows} | SEAM
    _, found = press(plates, pad="60 mm", spreader="120 x 120 x 20 mm")
    assert found["beam", "web under load"].verdict == "not checked"
    assert found["beam, seams under load", "weld throat"].verdict == "not checked"
