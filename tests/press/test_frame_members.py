"""Frames given as nodes and members."""

import pytest

from structcheck.errors import InputError
from tests.press.frames import answer

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
        ({"push": [{"start": "B", "end": "Q"}]}, '"Q" is no node'),
        ({"node": RING["node"] + [node("A", 9, 9)]}, '"A" is given twice'),
        ({"push": []}, "push: there are none"),
        ({"node": RING["node"] + [node("G", 0, 0)]}, 'is at the place of node "A"'),
    ],
)
def test_a_wrong_node_or_member_is_one_clear_message(change, message):
    """Each fault names its thing."""
    with pytest.raises(InputError, match=message):
        answer(RING | change, JACK)
