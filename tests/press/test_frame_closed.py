"""Closed frames: corner states, positions of the jack, and the demands that come out of them."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.analysis.frame import Frame, Joint, Member, Support, solve
from structcheck.press.frame import closed
from structcheck.press.frame.states import corner_states
from tests.press.frames import (
    GLUING,
    GLUING_JACK,
    ORCHARD,
    ORCHARD_JACK,
    VALUES,
    answer,
    bar,
    bare_ring,
    solved_ring,
    value,
)

RING, OFF, COUPLE = VALUES["ring"], VALUES["ring_off_centre"], VALUES["ring_couple"]
N, M_Y = 0, 4
L, H = RING["span"], RING["height"]


def near(expected: float, case: dict):
    """Within the tolerance of the case."""
    return pytest.approx(expected, rel=case["tolerance"])


def corner_moments(found, position: str, state: str) -> list[float]:
    """Sizes of the four corner moments."""
    at = [("head", 0.0, "right"), ("head", L, "left"), ("bed", 0.0, "right"), ("bed", L, "left")]
    return [abs(value(found, M_Y, beam, x, position, state, side)) for beam, x, side in at]


@pytest.fixture(scope="module")
def ring():
    """The ring of the check values, 100 mm off centre allowed for."""
    return solved_ring(bare_ring(), OFF["offset"], guides={})


# ---- corner states ---------------------------------------------------------------------------


def test_rigid_corners_give_the_handbook_moment(ring):
    """4.29 kNm at the corners, 55.7 at the middle (derived, slope-deflection)."""
    assert max(corner_moments(ring, "", "rigid")) == near(RING["M_corner_rigid"], RING)
    assert -value(ring, M_Y, "head", L / 2, "", "rigid") == near(RING["M_middle_rigid"], RING)


def test_one_loose_corner_raises_the_one_diagonally_opposite(ring):
    """6.64 kNm, 1.55 times the rigid ring's, diagonally across; the other end of its beam falls to half (derived)."""
    places = ["head/left", "head/right", "bed/left", "bed/right"]
    for loose, place in enumerate(places):
        moments = corner_moments(ring, "", f"{place} loose")
        across, beside = 3 - loose, loose ^ 1
        assert moments[loose] == pytest.approx(0.0, abs=1.0)
        assert moments[across] == max(moments) == near(RING["M_corner_one_loose"], RING)
        assert moments[across] / RING["M_corner_rigid"] == pytest.approx(1.55, abs=0.01)
        assert moments[beside] / RING["M_corner_rigid"] == pytest.approx(0.498, abs=0.005)


def test_a_loose_pair_leaves_the_other_pair_more(ring):
    """6.00 kNm with both corners of the head, or both of the bed, loose (derived)."""
    for beam in ("head", "bed"):
        moments = corner_moments(ring, "", f"both corners of the {beam} loose")
        assert max(moments) == near(RING["M_corner_head_loose"], RING)


def test_all_corners_loose_is_a_simple_beam_and_uprights_in_tension(ring):
    """PL/4 at the middle, no moment in an upright, half the force in each (statics)."""
    state = "all corners loose"
    assert -value(ring, M_Y, "head", L / 2, "", state) == pytest.approx(300e3 * L / 4, rel=1e-9)
    assert abs(value(ring, M_Y, "left upright", H / 2, "", state)) < 1.0
    assert value(ring, N, "left upright", H / 2, "", state) == pytest.approx(150e3, rel=1e-9)


def test_all_corners_loose_is_refused_where_a_couple_racks_the_frame(ring):
    """No answer by statics for a couple: four pins are a mechanism."""
    couples = {c.state for c in ring.combined if "couple" in c.position.name}
    assert "all corners loose" not in couples
    assert "rigid" in couples
    assert "all corners loose" in {c.state for c in ring.combined if "in line" in c.position.name}


def test_corners_partly_stated_are_tried_alone_and_together():
    """Two unknown corners of one side: rigid, each loose, both loose; the stated ones stay as stated."""
    corners = {"head/left": "unknown", "bed/left": "unknown", "head/right": "rigid", "bed/right": 5e8}
    names = {state.name: dict(state.holds) for state in corner_states(corners)}
    assert list(names) == ["rigid", "head/left loose", "bed/left loose", "all unknown corners loose"]
    assert names["all unknown corners loose"] == {"head/right": float("inf"), "bed/right": 5e8}


@settings(max_examples=25, deadline=None)
@given(
    span=st.floats(300, 2000),
    height=st.floats(300, 2500),
    beam=st.floats(1e5, 1e9),
    upright=st.floats(1e5, 1e9),
)
def test_a_symmetric_ring_obeys_the_closed_form(span, height, beam, upright):
    """M_corner = (PL/8)/(1 + k), k = I_b h / (I_c L), with equal head and bed and no shear strain (handbook)."""
    shape = bare_ring(head=bar(beam), bed=bar(beam), upright=bar(upright), span=span, height=height)
    found = solved_ring(shape, 0.0)
    k = beam * height / (upright * span)
    assert value(found, M_Y, "head", 0.0, "", "rigid") == pytest.approx(300e3 * span / 8 / (1 + k), rel=1e-9)


def _direct(shape, holds: dict, position) -> np.ndarray:
    """The same ring with its joints put into the stiffness matrix: moments at the ends of head and bed, per N."""
    built = closed.build(shape)
    members = []
    for member in built.frame.members:
        ends = {}
        for end, node in (("at_start", member.start), ("at_end", member.end)):
            if member.name in ("head", "bed"):
                ends[end] = Joint(ry=holds[node], offset=getattr(member, end).offset)
        members.append(Member(**{**member.__dict__, **ends}))
    supports = [Support("bed/left", "x y z rx"), Support("bed/right", "y z")]
    frame = Frame(built.frame.nodes, members, supports)
    result = solve(frame, {"one": closed.loads(shape, position, (0.0, 0.0), None)})
    return np.array([result.value("My", beam, x) for beam in ("head", "bed") for x in (0.0, shape.span)])


@settings(max_examples=25, deadline=None)
@given(
    beam=st.floats(1e6, 1e8),
    bed=st.floats(1e6, 1e8),
    upright=st.floats(1e6, 1e8),
    stiffness=st.lists(st.floats(1e7, 1e11), min_size=4, max_size=4),
    offset=st.floats(-150, 150),
    zones=st.booleans(),
)
def test_a_state_put_together_from_unit_actions_is_the_direct_solution(beam, bed, upright, stiffness, offset, zones):
    """Springs in all corners, rigid zones or none: combining the loosened ring's columns equals the direct solution."""
    corners = dict(zip(("head/left", "head/right", "bed/left", "bed/right"), stiffness, strict=True))
    shape = bare_ring(head=bar(beam, 5e3, 2e3), bed=bar(bed, 5e3, 2e3), upright=bar(upright, 4e3, 1e3), corners=corners)
    found = solved_ring(shape, abs(offset) + 1, guides={})
    for combination in found.combined:
        expected = _direct(shape, corners, combination.position)
        at = [
            found.base.lines.at(beam_, x, side)[M_Y] @ combination.factors
            for beam_ in ("head", "bed")
            for x, side in ((0.0, "right"), (L, "left"))
        ]
        assert np.allclose(at, expected, rtol=1e-6, atol=1e-6 * np.abs(expected).max())


# ---- positions -------------------------------------------------------------------------------


def test_a_jack_off_centre_loads_the_near_upright_more(ring):
    """188 and 112 kN with the jack 100 mm off the middle of 800 mm (derived, flexibility method)."""
    name = "off centre in line, left"
    assert value(ring, N, "left upright", 1.0, name, "rigid") == near(OFF["N_near"], OFF)
    assert value(ring, N, "right upright", 1.0, name, "rigid") == near(OFF["N_far"], OFF)
    assert value(ring, M_Y, "head", 0.0, name, "rigid") == near(OFF["M_corner_near"], OFF)
    assert value(ring, M_Y, "head", L, name, "rigid", "left") == near(OFF["M_corner_far"], OFF)


def test_a_couple_through_guides_doubles_the_worst_corner():
    """8.17 kNm with the work 50 mm beside the jack, guides at half height (derived)."""
    found = solved_ring(bare_ring(), COUPLE["offset"], guides={})
    name = "off centre couple, left, the guides take all of it"
    assert max(corner_moments(found, name, "rigid")) == near(COUPLE["M_corner"], COUPLE)


def test_a_jack_on_a_wide_foot_bends_the_beam_less():
    """4.20 kNm and 48.3 kNm with the force spread over 200 mm (derived)."""
    found = solved_ring(bare_ring(), 0.0, over=(200.0, 200.0))
    assert value(found, M_Y, "head", 0.0, "", "rigid") == near(RING["M_corner_patch_200"], RING)
    assert -value(found, M_Y, "head", L / 2, "", "rigid") == near(RING["M_middle_patch_200"], RING)


def test_the_greatest_moment_under_a_spread_load_is_found_between_its_ends():
    """With one corner loose the moment turns inside the spread, not at its middle."""
    data = ORCHARD | {"head": ORCHARD["head"] | {"over": "200 mm"}, "bed": ORCHARD["bed"] | {"over": "200 mm"}}
    got = answer(data, ORCHARD_JACK)
    most = max(abs(s.M_y) for s in got.stations["head"] if s.case.limit == "ultimate")
    # Simple beam, 117.68 kN over 200 mm of 700: F (L/4 - c/8), and no more by the offset of 15 mm.
    assert most == pytest.approx(117.68e3 * (700 / 4 - 200 / 8), rel=0.01)


def test_the_jacks_force_leaves_nothing_at_the_feet(ring):
    """The ring balances itself in every state and position."""
    reactions = ring.base.result.answer.reactions @ np.stack([c.factors for c in ring.combined], axis=1)
    held = ring.base.result.structure.held
    assert np.abs(reactions[held]).max() < 1e-6


def test_two_jacks_are_even_uneven_and_alone():
    """Each leads in turn at its rating with the other at two thirds, and each works alone."""
    data = ORCHARD | {"frame": ORCHARD["frame"] | {"jacks": ["-100 mm", "100 mm"]}}
    got = answer(data, ORCHARD_JACK | {"count": 2})
    names = {row.case.name for row in got.forces["jack foot"]}
    for name in ("uneven, jack 1 leads", "uneven, jack 2 leads", "jack 1 alone", "jack 2 alone"):
        assert name in names
    assert max(row.force for row in got.forces["jack foot"] if row.case.limit == "rated") == pytest.approx(
        8e3 * 9.80665
    )


# ---- answers and findings --------------------------------------------------------------------


def test_the_opening_is_split_into_its_parts():
    """Bending 0.454 mm for the ring of the check values (derived); its parts add up to the whole."""
    found = solved_ring(bare_ring(), 0.0)
    central = next(c for c in found.combined if c.state == "rigid" and not c.position.name)
    bending = 300e3 * float(central.factors @ found.base.work[0] @ central.factors)
    assert bending == near(RING["opening_bending"], RING)


def test_dials_and_opening_agree():
    """The opening at the middle is what head and bed bend and the uprights stretch."""
    got = answer(ORCHARD, ORCHARD_JACK)
    text = next(
        a for a in got.outcome.answers if a.startswith("opening at the load's line at rated force, at the most")
    )
    assert text == (
        "opening at the load's line at rated force, at the most: 1.095 mm (bending 0.733, shear 0.237, "
        "stretch of the uprights 0.125, give of the joints 0.000; all corners loose)"
    )


def test_no_guides_and_a_small_saddle_fail_by_racking():
    """With nothing to carry the couple the frame's racking fails, and says why."""
    data = {key: table for key, table in ORCHARD.items() if key != "guides"}
    got = answer(data, ORCHARD_JACK | {"offset": "50 mm"})
    finding = next(f for f in got.outcome.findings if f.check == "racking")
    assert finding.verdict == "fails"
    assert "no guides" in finding.reason


def test_a_saddle_wider_than_the_offset_needs_no_guides():
    """The saddle passes the whole couple on."""
    data = {key: table for key, table in ORCHARD.items() if key != "guides"}
    got = answer(data, ORCHARD_JACK)
    assert {(f.part, f.check): f.verdict for f in got.outcome.findings}["frame", "racking"] == "holds"


def test_a_ball_hands_on_too_little_of_a_couple_for_a_frame_without_guides():
    """Friction 0.15 on half of 38 mm is 2.85 mm of the 15; and a built-in ram is not reached over a ball at all."""
    for guides in ({}, {"guides": {"on": "ram"}}):
        data = {key: table for key, table in ORCHARD.items() if key != "guides"} | guides
        finding = next(
            f for f in answer(data, ORCHARD_JACK | {"seat": "ball"}).outcome.findings if f.check == "racking"
        )
        assert (finding.verdict, "ball" in finding.reason) == ("fails", True)


def test_what_is_not_said_to_be_kept_is_not_checked():
    """Retention is an input: missing is not a pass."""
    data = {key: table for key, table in ORCHARD.items() if key != "retention"}
    found = {f.part: f.verdict for f in answer(data, ORCHARD_JACK).outcome.findings if f.check == "retention"}
    assert found == dict.fromkeys(("jack foot", "saddle", "packers"), "not checked")
    found = {f.part: f.verdict for f in answer(ORCHARD, ORCHARD_JACK).outcome.findings if f.check == "retention"}
    assert found == dict.fromkeys(("jack foot", "saddle", "packers"), "holds")


def test_an_opening_limit_of_the_users_gives_a_verdict():
    """1.095 mm against 1 mm fails, against 1.2 mm holds; the softest state is the one judged."""
    for limit, verdict in ((1.0, "fails"), (1.2, "holds")):
        got = answer(ORCHARD, ORCHARD_JACK, opening=limit)
        finding = next(f for f in got.outcome.findings if f.check == "opening")
        assert (finding.verdict, finding.case) == (verdict, "rated; all corners loose")


def test_every_part_and_corner_has_demands_at_every_level():
    """Stations and end forces for each part and place at ultimate, greatest and rated force."""
    got = answer(ORCHARD, ORCHARD_JACK)
    assert set(got.stations) == {"head", "bed", "left upright", "right upright"}
    for rows in (*got.stations.values(), *got.ends.values()):
        assert {row.case.limit for row in rows} == {"ultimate", "greatest force", "rated"}
    assert ("head/left", "joint") in got.needed


def test_each_plane_carries_its_own_jack():
    """Two planes with a jack each: an upright takes a quarter of the whole force, more when off centre."""
    got = answer(GLUING, GLUING_JACK)
    central = [s.N for s in got.stations["left upright"] if s.case.limit == "rated"]
    assert max(central) == pytest.approx(10e3 * 9.80665 / 2, rel=0.02)


def test_the_moment_at_the_face_is_less_than_where_the_lines_meet_by_the_shear_times_half_the_depth():
    """An end plate stands at the upright's face, 50 mm nearer the jack (statics)."""
    got = answer(GLUING | {"frame": GLUING["frame"] | {"corners": "rigid"}}, GLUING_JACK)

    def at(place):
        return next(e for e in got.ends[place] if e.case.name == "rated; corners as stated")

    assert at("head/left face").M_y == pytest.approx(at("head/left").M_y + 50 * at("head/left").V_z)


def test_the_drawing_shows_what_was_understood():
    """Sections, measures and number of pieces stand in it."""
    assert answer(ORCHARD, ORCHARD_JACK).drawing == (
        "====================================  head     2 x UPN 120, 120 mm deep\n"
        "||                                ||\n"
        "||         opening 950 mm         ||\n"
        "||                                ||  uprights 2 x FL 80x10, 80 mm deep\n"
        "||         height 1070 mm         ||\n"
        "||                                ||\n"
        "====================================  bed      2 x UPN 120, 120 mm deep\n"
        "|<--------- span 700 mm ---------->|\n"
        "jack on the bed, in the middle; off centre 15 mm in the plane, 10 mm across\n"
        "corners unknown\n"
        "guides on the rods"
    )


def test_nothing_known_to_take_the_couple_is_not_checked():
    """Neither guides nor a saddle stated: no pass and no verdict."""
    data = {key: table for key, table in ORCHARD.items() if key != "guides"}
    got = answer(data, {key: text for key, text in ORCHARD_JACK.items() if key != "saddle"})
    assert next(f for f in got.outcome.findings if f.check == "racking").verdict == "not checked"


def test_a_jack_pushes_with_its_own_force_however_many_planes_carry_it():
    """One jack over two planes gives all of the force; one in each plane half of it; the platen always all."""
    apart = answer(GLUING, GLUING_JACK)
    between = answer(GLUING, GLUING_JACK | {"count": 1, "rating": "20 t", "relief": "22 t"})
    for got, one in ((apart, 10e3), (between, 20e3)):
        rated = {round(row.force) for row in got.forces["jack foot"] if row.case.limit == "rated"}
        assert rated == {round(one * 9.80665)}
        every = [row.force for row in got.forces["jack foot"] if row.case.limit == "ultimate"]
        assert max(every) == pytest.approx(1.5 * one * 9.80665)
        platen = {round(row.force) for row in got.forces["platen"] if row.case.limit == "rated"}
        assert platen == {round(20e3 * 9.80665)}


@pytest.mark.parametrize("on", ["bed", "head"])
@pytest.mark.parametrize(
    "guides",
    [{}, {"length": "120 mm"}, {"on": "rods"}, {"height": "400 mm", "length": "100 mm"}],
    ids=["one height", "a length", "rods", "low"],
)
def test_every_couple_is_balanced_whatever_takes_it(on, guides):
    """Jack below or above, guides of each kind, work off to each side: the ground gives nothing."""
    data = ORCHARD | {"guides": guides, "frame": ORCHARD["frame"] | {"jack_on": on}}
    got = answer(data, ORCHARD_JACK | {"offset": "40 mm", "offset_across": "20 mm"})
    names = {row.case.name.split(",")[1].strip() for row in got.forces["guides"]}
    assert {"left", "right", "front", "back"} <= names


def test_a_wider_saddle_does_not_ease_the_corners():
    """The guides may still have to take all of the couple, and that is the worst for the corners."""
    small, large = (answer(ORCHARD, ORCHARD_JACK | {"saddle": text, "offset": "19 mm"}) for text in ("1 mm", "38 mm"))
    worst = [max(abs(e.M_y) for e in got.ends["head/left"] if e.case.limit == "ultimate") for got in (small, large)]
    assert worst[1] == pytest.approx(worst[0], rel=1e-9)
