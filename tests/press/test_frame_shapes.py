"""H-frames, plates on posts, stops, planes side by side; tipping, buckling and what holds loose things."""

import math

import numpy as np
import pytest

from structcheck.errors import InputError
from structcheck.press.frame import own_weight
from structcheck.quantities import G_N
from tests.press.frames import (
    BEARING,
    BEARING_JACK,
    GLUING,
    GLUING_JACK,
    ORCHARD,
    ORCHARD_JACK,
    VALUES,
    answer,
    bare_ring,
    solved_ring,
    value,
)


@pytest.fixture(autouse=True)
def _weightless(monkeypatch):
    """What the jack's force alone does: own weight never counts."""
    monkeypatch.setattr(own_weight, "LIGHT", 1.0)


H_FRAME = VALUES["h_frame"]
N, V_Z, M_Y = 0, 2, 4
POSTS = {
    "frame": {"shape": "posts", "planes": 2, "spacing": "300 mm", "span": "400 mm", "height": "600 mm"},
    "head": {"width": "400 mm", "thickness": "40 mm", "steel": "S235"},
    "bed": {"width": "400 mm", "thickness": "40 mm", "steel": "S235"},
    "uprights": {"thread": "M24", "steel": "S235"},
}
CENTRED = {"rating": "80 kN", "offset": "0 mm", "offset_across": "0 mm"}


def ultimate(rows, component: str) -> float:
    """The largest size of one component at ultimate force."""
    return max(abs(getattr(row, component)) for row in rows if row.case.limit == "ultimate")


# ---- H-frames --------------------------------------------------------------------------------


def test_a_bed_on_pins_is_a_simple_beam():
    """60 kNm at the middle and 150 kN in each upright, whatever the corners of the head do (statics)."""
    found = solved_ring(bare_ring(pinned_bed=True), 0.0)
    for state in ("rigid", "head/left loose", "all corners loose"):
        assert value(found, M_Y, "bed", 400.0, "", state) == pytest.approx(H_FRAME["M_middle"], rel=1e-9)
        assert value(found, N, "left upright", 10.0, "", state) == pytest.approx(150e3, rel=0.02)


def test_a_pin_beside_the_uprights_line_bends_it():
    """150 kN at 30 mm is 4.5 kNm in the upright at the pin (statics), and a shorter bed."""
    found = solved_ring(bare_ring(pinned_bed=True, pin_offset=H_FRAME["pin_offset"]), 0.0)
    state = "all corners loose"
    assert abs(value(found, M_Y, "left upright", 0.0, "", state)) == pytest.approx(H_FRAME["M_upright"], rel=1e-9)
    assert value(found, M_Y, "bed", 400.0, "", state) == pytest.approx(150e3 * 370, rel=1e-9)


def test_legs_below_the_pins_carry_nothing_of_the_jack():
    """The ring closes above the pins: the legs only stand."""
    got = answer(BEARING, BEARING_JACK)
    for name in ("left leg", "right leg"):
        assert all(abs(row.N) < 1 and abs(row.M_y) < 1 for row in got.stations[name])


def test_a_rolling_head_goes_as_far_as_it_rolls():
    """Jack and work run 60 mm together; the near upright takes its lever's share."""
    data = BEARING | {"head": BEARING["head"] | {"rolls": "100 mm"}, "frame": BEARING["frame"] | {"corners": "pinned"}}
    got = answer(data, BEARING_JACK)
    most = ultimate(got.stations["left upright"], "N")
    assert most == pytest.approx(1.5 * 30e3 * G_N * (0.5 + 100 / 760), rel=1e-6)


def test_the_bearing_press_lists_its_pins_and_what_keeps_them():
    """An H-frame needs pins at its bed, and something that keeps them."""
    got = answer(BEARING, BEARING_JACK)
    assert ("bed/left", "pin") in got.needed
    assert ultimate(got.ends["bed/left"], "V_z") > 0
    assert ("bed pins", "not checked") in {(f.part, f.verdict) for f in got.outcome.findings if f.check == "retention"}


# ---- posts -----------------------------------------------------------------------------------


def test_four_posts_share_a_central_force():
    """A quarter of the force in each rod (statics, symmetry)."""
    got = answer(POSTS, CENTRED)
    assert ultimate(got.stations["left upright"], "N") == pytest.approx(120e3 / 4, rel=1e-3)


def test_a_post_near_the_load_takes_its_levers_share_both_ways():
    """20 mm towards the right and, apart from it, 30 mm to the back, of 400 and 300 mm."""
    got = answer(POSTS, CENTRED | {"offset": "20 mm", "offset_across": "30 mm"})
    near = {row.case.name.split(";")[0]: row.N for row in got.stations["right upright"] if row.case.limit == "ultimate"}
    assert max(near.values()) == pytest.approx(120e3 / 4 * (1 + 2 * 30 / 300), rel=0.01)


def test_a_plate_on_four_posts_bends_both_ways():
    """F L / 4 along the span and F s / 4 across it, each on the whole plate (statics)."""
    got = answer(POSTS | {"frame": POSTS["frame"] | {"corners": "pinned"}}, CENTRED)
    assert ultimate(got.stations["head"], "M_z") == pytest.approx(120e3 * 400 / 4, rel=1e-6)
    assert ultimate(got.stations["head across"], "M_z") == pytest.approx(120e3 * 300 / 4, rel=1e-6)
    assert got.members["head across"].section.dimensions == {"b": 400.0, "t": 40.0}


def test_a_threaded_post_counts_its_stress_area():
    """M24 has 353 mm2; the assumption says so."""
    got = answer(POSTS, CENTRED)
    assert pytest.approx(353) == got.members["left upright"].section.A
    assert any("stress area, 353 mm2" in a.text for a in got.outcome.assumptions)


def test_more_than_four_posts_are_refused():
    """Posts with plates are two or four."""
    with pytest.raises(InputError, match="more than posts with plates are counted for"):
        answer(POSTS | {"frame": POSTS["frame"] | {"planes": 3}}, CENTRED)


def test_a_member_needs_one_description():
    """A section, a plate or a thread: one of them."""
    for head in ({"steel": "S235"}, {"steel": "S235", "section": "UPN 120", "width": "100 mm", "thickness": "20 mm"}):
        with pytest.raises(InputError, match="wanted: one of: section; width and thickness of a plate; thread"):
            answer(ORCHARD | {"head": head}, ORCHARD_JACK)


# ---- planes, stops ---------------------------------------------------------------------------


def test_one_jack_between_two_planes_loads_the_near_one_more():
    """Half each, and a lever's share more when it stands 31 mm towards one of planes 620 mm apart."""
    data = GLUING | {"frame": GLUING["frame"] | {"corners": "pinned"}}
    got = answer(data, CENTRED | {"offset_across": "31 mm"})
    assert ultimate(got.stations["left upright"], "N") == pytest.approx(120e3 * (0.5 + 31 / 620) / 2, rel=1e-6)
    assert ("between the planes", "what carries the force to each plane") in got.needed


def test_stops_on_the_uprights_leave_the_head_out():
    """With the platen on stops the uprights below them are pulled and bent by the stop's lever, the head is not."""
    data = ORCHARD | {
        "stops": {"height": "500 mm", "offset": "50 mm"},
        "frame": ORCHARD["frame"] | {"corners": "rigid"},
    }
    got = answer(data, CENTRED)
    rows = [row for row in got.stations["left upright"] if row.case.name.startswith("on the stops")]
    assert rows
    most = max(abs(row.M_y) for row in rows)
    assert 0.4 * 60e3 * 50 < most <= 60e3 * 50 + 60e3 * 700 / 8
    assert not [row for row in got.stations["head"] if row.case.name.startswith("on the stops")]


def test_stops_hand_their_share_to_what_holds_them():
    """By the lever from stop to stop, 30 mm off the middle of 600: 0.55 of the force, and its moment (statics)."""
    data = ORCHARD | {"stops": {"height": "500 mm", "offset": "50 mm"}}
    got = answer(data, CENTRED | {"offset": "30 mm"})
    rows = [row for row in got.ends["stops/right"] if row.case.limit == "ultimate"]
    assert max(row.V_z for row in rows) == pytest.approx(120e3 * (0.5 + 30 / 600), rel=1e-9)
    assert max(row.M_y for row in rows) == pytest.approx(120e3 * (0.5 + 30 / 600) * 50, rel=1e-9)
    assert [row.V_z for row in got.ends["stops/left"] if row.case.limit == "rated"] == pytest.approx([40e3])
    pulls = [r.N for r in got.stations["right upright"] if r.case.name.startswith("on the stops, right")]
    assert max(pulls) == pytest.approx(120e3 * (0.5 + 30 / 700), rel=0.02)
    assert {("stops/left", "joint"), ("stops/right", "joint")} <= set(got.needed)


# ---- standing --------------------------------------------------------------------------------


def test_tipping_is_pumping_against_weight():
    """450 N x 1.5 at 1.2 m against 0.9 of the weight over half the feet (EN 1990 Table A1.2(A), derived)."""
    data = ORCHARD | {"feet": {"width": "700 mm", "depth": "500 mm", "below": "300 mm", "handle": "1200 mm"}}
    got = answer(data, ORCHARD_JACK)
    finding = next(f for f in got.outcome.findings if f.check == "tipping")
    members = 4 * 13.4 * 0.7 + 4 * 6.28 * 1.07
    assert finding.demand.value == pytest.approx(1.5 * 450 * 1200)
    assert finding.capacity.value == pytest.approx(0.9 * members * G_N * 250, rel=0.01)
    assert finding.verdict == "fails"


def test_a_press_bolted_down_does_not_tip_and_one_on_nothing_is_not_checked():
    """What it stands on is an input."""
    got = answer(ORCHARD | {"feet": {"bolted": True}}, ORCHARD_JACK)
    assert [n.reason for n in got.outcome.does_not_apply if n.check == "tipping"] == ["bolted to the floor (stated)"]
    found = {f.check: f.verdict for f in answer(ORCHARD, ORCHARD_JACK).outcome.findings}
    assert found["tipping"] == "not checked"


def test_an_added_mass_steadies_the_press_and_lifts_its_middle():
    """A hood of 100 kg at 1.5 m."""
    feet = {"width": "700 mm", "depth": "500 mm", "below": "300 mm", "handle": "1200 mm"}
    hood = [{"name": "hood", "mass": "100 kg", "height": "1500 mm"}]
    plain, hooded = (answer(ORCHARD | {"feet": feet} | more, ORCHARD_JACK) for more in ({}, {"mass": hood}))
    capacity = [next(f for f in a.outcome.findings if f.check == "tipping").capacity.value for a in (plain, hooded)]
    assert capacity[1] - capacity[0] == pytest.approx(0.9 * 100 * G_N * 250)


def test_a_ring_says_that_first_order_is_enough():
    """Its uprights are pulled; the beams are hardly pressed."""
    texts = answer(ORCHARD, ORCHARD_JACK).outcome.answers
    assert any("first-order moments are enough" in text for text in texts)


def test_the_energy_let_go_is_half_of_force_times_opening():
    """F_max squared times the flexibility over two; the oil's beside it when bore and stroke are known."""
    got = answer(ORCHARD, ORCHARD_JACK | {"bore": "45 mm"})
    text = next(t for t in got.outcome.answers if t.startswith("energy let go"))
    area = math.pi * 45**2 / 4
    F = 1.25 * 8e3 * G_N
    oil = (F / area) ** 2 * area * 150 / (2 * 1400) / 1e3
    frame = F * 1.25 * 1.095 / 2e3
    assert text == (
        f"energy let go if the work breaks at the greatest force: {frame:.0f} J in the frame, {oil:.0f} J in the oil "
        f"column (bulk modulus 1400 MPa), {frame + oil:.0f} J together"
    )


def test_offsets_not_stated_are_taken_and_said():
    """50 mm, half the tooling or 5 % of the span; 10 mm or a quarter of the saddle."""
    plain = {key: text for key, text in ORCHARD_JACK.items() if key != "offset"}
    got = answer(ORCHARD | {"frame": ORCHARD["frame"] | {"tooling": "160 mm"}}, plain | {"saddle": "60 mm"})
    texts = [a.text for a in got.outcome.assumptions]
    assert "offset in the frame's plane not stated: 80 mm taken (50 mm, half the tooling, 5 % of the span)" in texts
    assert "offset across the frame not stated: 15 mm taken (10 mm, a quarter of the saddle)" in texts


def test_guides_on_rods_push_the_beams_sideways():
    """The couple goes to head and bed as forces F e / h, half at each corner; the uprights shear it back."""
    data = ORCHARD | {"frame": ORCHARD["frame"] | {"corners": "rigid"}}
    got = answer(data, ORCHARD_JACK | {"offset_across": "0 mm"})
    side = max(row.force for row in got.forces["guides"] if row.case.limit == "ultimate")
    assert side == pytest.approx(1.5 * 8e3 * G_N * 15 / 1070 / 2, rel=1e-6)


def test_a_stated_stiffness_replaces_the_states():
    """One state, and the joints' own give in the opening."""
    data = ORCHARD | {"frame": ORCHARD["frame"] | {"corners": "100 kN m/rad"}}
    got = answer(data, ORCHARD_JACK)
    names = {row.case.name.split("; ")[1] for row in got.stations["head"]}
    assert names == {"corners as stated"}
    text = next(t for t in got.outcome.answers if t.startswith("opening at the load's line"))
    assert "give of the joints 0.000" not in text


def test_an_open_beam_under_an_off_centre_jack_is_told_how_it_warps():
    """Half the torque each way, a bimoment at the middle; none of it where the jack stands central."""
    got = answer(GLUING, GLUING_JACK)
    rows = [row for row in got.stations["head"] if row.T_w]
    assert rows
    F = max(row.force for row in got.forces["head/load"] if row.case.limit == "ultimate")
    assert max(abs(row.T) + abs(row.T_w) for row in rows) == pytest.approx(F * 10 / 2, rel=1e-6)
    assert max(abs(row.B) for row in rows) > 0


def test_every_answer_is_finite():
    """No nan and no infinity in any demand of the three presses."""
    for data, one in ((ORCHARD, ORCHARD_JACK), (BEARING, BEARING_JACK), (GLUING, GLUING_JACK)):
        got = answer(data, one)
        for rows in (*got.stations.values(), *got.ends.values()):
            for row in rows:
                assert np.isfinite([row.N, row.V_y, row.V_z, row.T, row.M_y, row.M_z]).all()
