"""Frames given as nodes and members."""

import numpy as np
import pytest

from structcheck.analysis.frame import NodeLoad
from structcheck.errors import InputError
from structcheck.press.frame import leaning, order
from structcheck.press.frame.members_model import frame_of, joint_states, model_of
from tests.press.frames import answer, jack, tables
from tests.press.test_frame_order import PIECES, by_iteration

JACK = {"rating": "100 kN", "relief": "110 kN", "offset": "0 mm", "offset_across": "0 mm"}


def node(name: str, x: float, z: float) -> dict:
    """A node in the frame's plane."""
    return {"name": name, "x": f"{x} mm", "z": f"{z} mm"}


def member(name: str, start: str, end: str, section: str, joint: str = "rigid") -> dict:
    """A member with the same joint at both ends."""
    return {
        "name": name,
        "start": start,
        "end": end,
        "section": section,
        "steel": "S235",
        "at_start": joint,
        "at_end": joint,
    }


RING = {
    "frame": {"shape": "members"},
    "node": [
        *(node(name, x, 0) for name, x in (("A", 0), ("B", 400), ("C", 800))),
        *(node(name, x, 1200) for name, x in (("D", 0), ("E", 400), ("F", 800))),
    ],
    "member": [
        member("bed left", "A", "B", "IPE 160"),
        member("bed right", "B", "C", "IPE 160"),
        member("head left", "D", "E", "IPE 160"),
        member("head right", "E", "F", "IPE 160"),
        member("left", "A", "D", "RHS 100x60x5 cold"),
        member("right", "C", "F", "RHS 100x60x5 cold"),
    ],
    "support": [{"node": "A", "holds": "x y z rx"}, {"node": "C", "holds": "y z"}],
    "push": [{"start": "B", "end": "E"}],
}
CLOSED = {
    "frame": {"shape": "closed", "span": "800 mm", "height": "1200 mm", "corners": "rigid"},
    "head": {"section": "IPE 160", "steel": "S235"},
    "bed": {"section": "IPE 160", "steel": "S235"},
    "uprights": {"section": "RHS 100x60x5 cold", "steel": "S235"},
}
LEVER = {
    "frame": {"shape": "members"},
    "node": [
        *(node(name, x, 0) for name, x in (("a", 0), ("p", 300), ("b", 1000))),
        *(node(name, x, 600) for name, x in (("A", 0), ("P", 300), ("B", 1000))),
    ],
    "member": [
        member("base 1", "a", "p", "UPN 100"),
        member("base 2", "p", "b", "UPN 100"),
        member("lever 1", "A", "P", "UPN 100"),
        member("lever 2", "P", "B", "UPN 100"),
        member("strut", "a", "A", "RD 20"),
        member("tie", "p", "P", "RD 20"),
    ],
    "support": [{"node": "a", "holds": "x y z rx"}, {"node": "b", "holds": "y z"}, {"node": "B", "holds": "y"}],
    "push": [{"start": "b", "end": "B"}],
}


def rated(rows, component: str) -> float:
    """The largest size of one component at rated force."""
    return max(abs(getattr(row, component)) for row in rows if row.case.limit == "rated")


def test_a_ring_of_members_is_the_closed_frame():
    """Moments, forces and opening agree between the two descriptions of one frame."""
    free, ring = answer(RING, JACK), answer(CLOSED, JACK)
    assert rated(free.stations["head left"], "M_y") == pytest.approx(rated(ring.stations["head"], "M_y"), rel=1e-9)
    assert rated(free.stations["left"], "N") == pytest.approx(rated(ring.stations["left upright"], "N"), rel=1e-9)
    corner = rated(ring.ends["head/left"], "M_y")
    assert rated(free.ends["head left/start"], "M_y") == pytest.approx(corner, rel=1e-9)
    openings = [next(t for t in a.outcome.answers if t.startswith("opening")) for a in (free, ring)]
    assert [text.split(": ")[1].split(" mm")[0] for text in openings] == ["1.941", "1.941"]


def test_joints_not_stated_are_tried_loose_one_by_one():
    """Each unknown end rigid and loose; a state that leaves a mechanism is left out and said."""
    loose = {"at_start": "unknown", "at_end": "unknown"}
    rows = [m | (loose if m["name"] in ("left", "right") else {}) for m in RING["member"]]
    got = answer(RING | {"member": rows}, JACK)
    names = {row.case.name.split("; ")[1] for row in got.ends["head left/start"]}
    assert "left/end loose" in {*names, *(t for a in got.outcome.assumptions for t in a.text.split(", "))}
    assert any("left out, since nothing but tight joints holds it" in a.text for a in got.outcome.assumptions)


def test_a_joint_spring_shows_in_the_opening():
    """What members do not stretch is the joints' give."""
    soft = [m | {"at_start": "50 kN m/rad"} if m["name"] == "left" else m for m in RING["member"]]
    text = next(t for t in answer(RING | {"member": soft}, JACK).outcome.answers if t.startswith("opening"))
    assert "joints 0.000" not in text


def test_a_pressed_strut_is_judged_by_second_order():
    """The critical factor is below 10: moments on the bent frame are used, larger than those on the straight one."""
    got = answer(LEVER, JACK | {"rating": "2 kN", "relief": "2 kN"})
    text = next(t for t in got.outcome.answers if t.startswith("elastic critical factor"))
    assert "second-order moments are used" in text
    factor = float(text.split("force ")[1].split(" (")[0])
    assert 1 < factor < 10


def heavier(rating: str) -> tuple[dict, dict]:
    """The lever of heavy sections, and its jack."""
    sections = {"UPN 100": "HEB 200", "RD 20": "RHS 100x60x5"}
    rows = [row | {"section": sections[row["section"]]} for row in LEVER["member"]]
    return LEVER | {"member": rows}, JACK | {"rating": rating, "relief": rating}


def test_a_heavy_frame_is_judged_by_second_order_like_a_light_one():
    """5.7 times 300 kN: a critical force above a million newtons is no infinite one."""
    got = answer(*heavier("200 kN"))
    text = next(t for t in got.outcome.answers if t.startswith("elastic critical factor"))
    assert (
        text.startswith("elastic critical factor of the ultimate force 5.7") and "second-order moments are used" in text
    )


def test_members_and_joints_of_a_free_frame_carry_second_order_moments(monkeypatch):
    """Against first-order solutions of eight pieces a member with N x lean put on them until it repeats (derived)."""
    monkeypatch.setattr(leaning, "PHI", 0.0)
    data, jack_data = heavier("200 kN")
    got = answer(data, jack_data)
    described = tables(data)
    model, _ = model_of(described, jack(jack_data), 200e3, (), [])
    frame = frame_of(model, joint_states(described.member)[0][1])
    loads = [NodeLoad("lever 2", (0, 0, 300e3)), NodeLoad("base 2", (0, 0, -300e3))]
    moments = by_iteration(frame, loads, {"lever 2": PIECES, "base 2": PIECES})
    for name, along in moments.items():
        # The strong axis of a member along z bends it across the frame's plane.
        most = max(max(abs(s.M_y), abs(s.M_z)) for s in got.stations[name] if s.case.limit == "ultimate")
        assert most == pytest.approx(float(np.abs(along).max()), rel=0.005, abs=2e4)
        for end, value in (("start", along[0]), ("end", along[-1])):
            joint = max(max(abs(e.M_y), abs(e.M_z)) for e in got.ends[f"{name}/{end}"] if e.case.limit == "ultimate")
            assert joint == pytest.approx(float(abs(value)), rel=0.005, abs=2e4)


def test_a_strut_beyond_its_critical_load_fails():
    """No second-order answer exists beyond it; the finding says so."""
    got = answer(LEVER, JACK | {"rating": "40 kN", "relief": "40 kN"})
    finding = next(f for f in got.outcome.findings if f.check == "elastic stability")
    assert finding.verdict == "fails"


def test_a_frame_that_moves_is_told():
    """Without supports in one direction nothing can be answered."""
    with pytest.raises(InputError, match="the frame moves"):
        answer(RING | {"support": [{"node": "A", "holds": "x z"}]}, JACK)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"push": [{"start": "B", "end": "Q"}]}, '"Q" is no member or node'),
        ({"node": RING["node"] + [node("A", 9, 9)]}, '"A" is given twice'),
        ({"push": []}, "push: there are none"),
        ({"node": RING["node"] + [node("G", 0, 0)]}, 'node "G", x, y, z: 0, 0, 0 mm is at the place of node "A"'),
        ({"support": [{"node": "A", "holds": "x up"}]}, 'support at "A", holds: "up" is no direction'),
        ({"support": [{"node": "Q"}]}, '"Q" is no node'),
    ],
)
def test_a_wrong_node_or_member_is_one_clear_message(change, message):
    """Each fault names its thing."""
    with pytest.raises(InputError, match=message):
        answer(RING | change, JACK)


def test_a_jack_longer_than_its_nodes_are_apart_is_refused():
    """1200 mm between centre-lines."""
    with pytest.raises(InputError, match="stroke: 1300 mm is longer than the opening"):
        answer(RING, JACK | {"stroke": "1300 mm"})


def test_no_second_order_answer_is_never_a_pass():
    """A hair below the critical force the axial forces do not settle: it fails, never first order in silence."""
    got = answer(*heavier("1135 kN"))
    finding = next(f for f in got.outcome.findings if f.check == "elastic stability")
    assert finding.verdict == "fails" and finding.utilisation == pytest.approx(1.001, abs=1e-3)


def test_no_buckling_is_computed_where_a_bound_keeps_it_away(monkeypatch):
    """A stout frame needs no geometric stiffness of its own, and its moments stay of first order."""
    monkeypatch.setattr(order, "critical", None)
    text = next(t for t in answer(*heavier("2 kN")).outcome.answers if t.startswith("elastic critical factor"))
    assert "force at least " in text and "first-order moments are enough" in text


def test_second_order_moments_only_where_a_position_demands_them(monkeypatch):
    """The off-centre positions of the rated force are judged by nothing, so nothing is solved for them."""
    calls, real = [], order.second_order
    monkeypatch.setattr(order, "second_order", lambda frame, cases: calls.append(cases) or real(frame, cases))
    answer(LEVER, JACK | {"rating": "2 kN", "relief": "2 kN", "offset": "5 mm"})
    # Three positions at the ultimate and at the greatest force, one at the rated, in one state of the joints.
    assert len(calls) == 7


def test_the_opening_of_a_free_frame_is_of_second_order_where_its_moments_are():
    """Both are said. The lever is bent less: its pull straightens what pulls."""
    light, heavy = (answer(*heavier(rating)).outcome.answers for rating in ("2 kN", "200 kN"))
    assert not any("second order; by first" in text for text in light)
    text = next(t for t in heavy if t.startswith("opening"))
    bent, straight = (float(text.split(word)[1].split(end)[0]) for word, end in ((": ", " mm"), ("first order ", ":")))
    assert bent != straight and bent == pytest.approx(straight, rel=0.02)
