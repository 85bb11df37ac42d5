"""What a free frame can be told: springs, zones, loads, places on members; each against statics by hand (derived)."""

from pathlib import Path

import pytest

from structcheck.errors import InputError
from structcheck.press.fields import StatedLimit
from structcheck.questions import check_press
from structcheck.shapes.library import look_up
from tests.press.frames import answer
from tests.press.test_frame_members import CLOSED, JACK, RING, member, node, rated
from tests.press.test_frame_plates import C_FRAME

E, G = 210e3, 81e3
L, W = 2000.0, 3.0
BEAM = look_up("IPE 100").section
POST = look_up("RD 30").section
BIG = JACK | {"rating": "1000 kN", "relief": "1100 kN"}
"""Beside it the frame weighs nothing."""


def frame(*extra: dict, **tables) -> dict:
    """A post that the jack pulls, and a beam of 2 m beside it whose ends are held in place."""
    given = {
        "frame": {"shape": "members"},
        "node": [node("X", 5000, 0), node("Y", 5000, 2000), node("A", 0, 0), node("M", 1000, 0), node("B", 2000, 0)],
        "member": [
            member("post", "X", "Y", "RD 30"),
            member("left", "A", "M", "IPE 100") | {"at_end": "one piece"},
            member("right", "M", "B", "IPE 100") | {"at_start": "one piece"},
        ],
        "support": [
            {"node": "X", "holds": "x y z rx ry rz"},
            {"node": "A", "holds": "x y z rx"},
            {"node": "B", "holds": "y z"},
            *extra,
        ],
        "push": [{"start": "X", "end": "Y"}],
    }
    return given | tables


UNIFORM = [{"on": one, "load": "3 kN/m", "way": "-z"} for one in ("left", "right")]


def moment_at(got, name: str, place: str) -> float:
    """Size of the moment at rated force at a place of a member, N mm."""
    return max(abs(s.M_y) for s in got.stations[name] if s.case.limit == "rated" and s.where.startswith(place))


def test_a_beam_under_a_uniform_load():
    """w L^2 / 8, and the load is a force of the user's."""
    got = answer(frame(load=UNIFORM), BIG)
    assert rated(got.stations["left"], "M_y") == pytest.approx(W * L**2 / 8, rel=1e-9)


def test_a_force_at_a_place_and_one_spread_over_a_part():
    """P a b / L under a point, P (L / 4 - c / 8) under a part c about the middle; a share of the jack's force too."""
    beam = [member("post", "X", "Y", "RD 30"), member("beam", "A", "B", "IPE 100")]
    nodes = [row for row in frame()["node"] if row["name"] != "M"]
    for load, wanted in (
        ({"load": "4 kN", "at": "500 mm"}, 4e3 * 500 * 1500 / 2000),
        ({"load": 0.004, "at": "500 mm"}, 4e3 * 500 * 1500 / 2000),
        ({"load": "4 kN", "over": "800 mm"}, 4e3 * (2000 / 4 - 800 / 8)),
    ):
        rows = [{"on": "beam", "way": "-z"} | load]
        got = answer(frame(member=beam, node=nodes, load=rows), BIG)
        assert rated(got.stations["beam"], "M_y") == pytest.approx(wanted, rel=1e-9)


def test_a_support_that_is_a_spring():
    """Under a beam's middle: R = w's deflection there / (the beam's give + the spring's), shear included."""
    k = 500.0
    got = answer(frame({"node": "M", "springs": {"z": "500 N/mm"}}, load=UNIFORM), BIG)
    EI, GA = E * BEAM.Iy, G * BEAM.Asz
    R = (5 * W * L**4 / (384 * EI) + W * L**2 / (8 * GA)) / (L**3 / (48 * EI) + L / (4 * GA) + 1 / k)
    assert moment_at(got, "left", "1000 mm") == pytest.approx(abs(W * L**2 / 8 - R * L / 4), rel=1e-9)


def test_a_support_that_turns_on_a_spring():
    """M at that end = w L^3 / 24 E I / (L / 3 E I + 1 / (G A_s L) + 1 / c)."""
    c = 200e6
    got = answer(frame({"node": "A", "springs": {"ry": "200 kN m/rad"}}, load=UNIFORM), BIG)
    EI, GA = E * BEAM.Iy, G * BEAM.Asz
    wanted = W * L**3 / (24 * EI) / (L / (3 * EI) + 1 / (GA * L) + 1 / c)
    assert moment_at(got, "left", "0 mm") == pytest.approx(wanted, rel=1e-9)


def test_a_spring_between_two_nodes_shares_the_jacks_force():
    """Beside a post it takes k / (k + E A / L) of it; judged by what its maker allows, not checked without."""
    k = 20e3
    row = {"name": "pad", "start": "X", "end": "Y", "springs": {"along": "20 kN/mm"}}
    wanted = k / (k + E * POST.A / 2000) * 1100e3
    got = answer(frame(link=[row]), BIG)
    finding = next(f for f in got.outcome.findings if f.part == "pad")
    assert finding.verdict == "not checked" and f"{wanted / 1e3:.3g} kN" in finding.reason
    got = answer(frame(link=[row | {"bears": "500 kN"}]), BIG)
    finding = next(f for f in got.outcome.findings if f.part == "pad")
    assert finding.verdict == "holds" and finding.demand.value == pytest.approx(wanted, rel=1e-6)
    assert rated(got.stations["post"], "N") == pytest.approx(1000e3 * (1 - k / (k + E * POST.A / 2000)), rel=1e-6)


def test_a_spring_that_turns_is_never_passed():
    """No method judges its moment."""
    row = {"name": "hinge", "start": "X", "end": "Y", "springs": {"ry": "5 kN m/rad"}, "bears": "5 kN"}
    got = answer(frame(link=[row]), BIG)
    assert [f.verdict for f in got.outcome.findings if f.part == "hinge"] == ["not checked"]


def opening(got) -> float:
    """Printed opening at rated force, mm."""
    text = next(t for t in got.outcome.answers if t.startswith("opening"))
    return float(text.split(": ")[1].split(" mm")[0])


def test_rigid_zones_do_not_stretch():
    """F (L - zones) / E A of the post alone."""
    jack = JACK | {"rating": "100 kN", "relief": "100 kN"}
    post = member("post", "X", "Y", "RD 30") | {"zone_start": "300 mm", "zone_end": "200 mm"}
    rows = [post, *frame()["member"][1:]]
    assert opening(answer(frame(member=rows), jack)) == pytest.approx(100e3 * 1500 / (E * POST.A), abs=6e-4)
    assert opening(answer(frame(), jack)) == pytest.approx(100e3 * 2000 / (E * POST.A), abs=6e-4)


WHOLE = RING | {
    "node": [row for row in RING["node"] if row["name"] not in ("B", "E")],
    "member": [
        member("bed", "A", "C", "IPE 160"),
        member("head", "D", "F", "IPE 160"),
        *(row for row in RING["member"] if row["name"] in ("left", "right")),
    ],
    "push": [{"start": "bed", "end": "head"}],
}


def test_a_jack_between_two_members_is_the_closed_frame():
    """In the middle and off centre in line, where it moves along the members as it does along head and bed."""
    jack = JACK | {"offset": "60 mm"}
    free, ring = answer(WHOLE, jack), answer(CLOSED, jack)
    for limit in ("ultimate", "rated"):
        most = [
            max(abs(s.M_y) for s in got.stations["head"] if s.case.limit == limit and "couple" not in s.case.name)
            for got in (free, ring)
        ]
        assert most[0] == pytest.approx(most[1], rel=1e-9)
    pressed = [p for p in free.forces["head/load"] if p.case.limit == "rated"]
    assert max(p.moment for p in pressed) == pytest.approx(rated(free.stations["head"], "M_y"), rel=1e-9)
    assert not any(p.pulled for p in pressed)
    assert free.opening == pytest.approx(1200 - 160)


def test_the_offset_that_leaves_a_member_is_refused():
    """10 mm from its end, 60 mm off centre."""
    with pytest.raises(InputError, match='moves the force off the end of member "bed"'):
        answer(WHOLE | {"push": [{"start": "bed", "start_at": "10 mm", "end": "head"}]}, JACK | {"offset": "60 mm"})


def test_what_a_jack_on_a_node_presses_is_not_checked():
    """Which member it crushes is not told."""
    reasons = [f.reason for f in answer(RING, JACK).outcome.findings if f.check == "web under load"]
    assert len(reasons) == 2 and all("name the member it presses" in reason for reason in reasons)


def test_members_in_line_are_held_only_at_their_ends():
    """A beam given in two halves is as long as both for buckling sideways; a support between parts it."""
    assert {answer(RING, JACK).members[name].held for name in ("bed left", "bed right")} == {800.0}
    got = answer(frame({"node": "M", "holds": "z"}), BIG)
    assert got.members["left"].held == 1000.0


def test_all_but_one_of_the_members_at_a_node_need_a_joint():
    """Two halves of one piece need none between them."""
    assert answer(frame(), BIG).meetings == ()
    corner = ("bed left/start", "left/start")
    assert corner in answer(RING, JACK).meetings and ("bed left/end", "bed right/start") in answer(RING, JACK).meetings


SPRUNG = {"node": "A", "holds": "x y z", "springs": {"z": "5 kN/mm"}}


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"support": [*RING["support"][1:], SPRUNG]}, 'support at "A", springs: z is held stiffly too'),
        ({"push": [{"start": "B", "start_at": "5 mm", "end": "E"}]}, 'start_at: has no meaning at node "B"'),
        ({"push": [{"start": "left", "start_at": "5 m", "end": "E"}]}, 'start_at: 5000 mm is not on member "left"'),
        ({"load": [{"on": "left", "load": "0 kN", "way": "x"}]}, "load: 0 is nothing"),
        ({"load": [{"on": "A", "load": "2 kN/m", "way": "x"}]}, "load: is spread over a whole member"),
        ({"load": [{"on": "left", "load": "2 kN", "way": "x", "at": "1.1 m", "over": "300 mm"}]}, "is not on member"),
        ({"load": [{"on": "Q", "load": "2 kN", "way": "x"}]}, '"Q" is no member or node'),
        ({"link": [{"name": "pad", "start": "A", "end": "Q", "springs": {"x": "1 N/mm"}}]}, '"Q" is no node'),
        ({"link": [{"name": "pad", "start": "A", "end": "C", "springs": {}}]}, 'link "pad", springs: says nothing'),
        ({"member": [*RING["member"], member("A", "A", "F", "RD 20")]}, '"A" is a node\'s name too'),
        ({"member": [*RING["member"], member("dot", "A", "A", "RD 20")]}, 'member "dot", end: "A" is its start too'),
        (
            {"member": [RING["member"][0] | {"zone_start": "300 mm", "zone_end": "100 mm"}, *RING["member"][1:]]},
            "zone_start and zone_end: 400 mm leave nothing of it",
        ),
        (
            {"member": [RING["member"][0] | {"at_start": "one piece"}, *RING["member"][1:]]},
            'is "one piece" at node "A"',
        ),
    ],
)
def test_what_cannot_be_is_one_clear_message(change, message):
    """Each fault names its thing."""
    with pytest.raises(InputError, match=message) as refused:
        answer(RING | change, JACK)
    assert len(refused.value.problems) == 1


def test_the_drawing_shows_what_was_understood():
    """Supports, springs, joints and loads too, so that a slip of the pen is seen."""
    row = {"name": "pad", "start": "X", "end": "Y", "springs": {"along": "20 kN/mm"}}
    text = answer(frame({"node": "M", "springs": {"z": "500 N/mm"}}, load=UNIFORM, link=[row]), BIG).drawing
    for line in (
        "left: A to M, 1000 mm, IPE 100; start rigid, end one piece",
        "support M: springs z 500 N/mm",
        "link pad: X to Y, springs along 20000 N/mm",
        "load on left: 3 N/mm all along, towards -z",
        "jack: pushes X and Y apart",
    ):
        assert line in text.splitlines()


def test_a_limit_of_deflection_is_judged_for_every_member():
    """5 w L^4 / 384 E I + w L^2 / 8 G A_s from the line between the ends of a beam of one piece."""
    beam = [member("post", "X", "Y", "RD 30"), member("beam", "A", "B", "IPE 100")]
    nodes = [row for row in frame()["node"] if row["name"] != "M"]
    rows = [{"on": "beam", "load": "3 kN/m", "way": "-z"}]
    got = answer(frame(member=beam, node=nodes, load=rows), BIG, deflection=StatedLimit(span_over=500))
    finding = next(f for f in got.outcome.findings if (f.part, f.check) == ("beam", "deflection"))
    wanted = 5 * W * L**4 / (384 * E * BEAM.Iy) + W * L**2 / (8 * G * BEAM.Asz)
    assert finding.demand.value == pytest.approx(wanted, rel=1e-6) and finding.capacity.value == 4.0


def test_a_c_frame_has_no_deflection_to_limit():
    """A limit that nothing judges is not dropped."""
    with pytest.raises(InputError, match="limits, deflection: has no meaning for shape"):
        answer(C_FRAME, JACK, deflection=StatedLimit(length=1.0))


TWO = {"count": 2, "rating": "50 kN", "relief": "55 kN"}
SIDE_BY_SIDE = [{"start": "bed", "end": "head", "start_at": at, "end_at": at} for at in ("250 mm", "550 mm")]


def test_two_jacks_work_even_uneven_and_alone():
    """As in the closed frame with jacks 150 mm off its middle; the platen takes them together."""
    free = answer(WHOLE | {"push": SIDE_BY_SIDE}, JACK | TWO)
    ring = answer(CLOSED | {"frame": CLOSED["frame"] | {"jacks": ["-150 mm", "150 mm"]}}, JACK | TWO)
    for part, other in (("left", "left upright"), ("right", "right upright"), ("head", "head")):
        for component in ("N", "V_z", "M_y"):
            most = [
                max(abs(getattr(s, component)) for s in rows if s.case.limit == "ultimate")
                for rows in (free.stations[part], ring.stations[other])
            ]
            assert most[0] == pytest.approx(most[1], rel=1e-9)
    platen = {p.case.name: p.force for p in free.forces["platen"] if p.case.limit == "rated"}
    wanted = {"": 100e3, ", uneven, jack 1 leads": 83.333e3, ", jack 1 alone": 50e3}
    assert {name: platen[f"rated{name}"] for name in wanted} == pytest.approx(wanted, rel=1e-4)


@pytest.mark.parametrize(
    ("pushes", "jack", "message"),
    [
        (SIDE_BY_SIDE[:1], TWO, "push: 1 do not match the count of the jacks"),
        ([row | {"share": 1.0} for row in SIDE_BY_SIDE], TWO, "share: 2 together is not the whole force"),
        ([SIDE_BY_SIDE[0] | {"share": 0.3}], {}, "share: 0.3 together is not the whole force"),
    ],
)
def test_pushes_share_the_whole_force(pushes, jack, message):
    """No more and no less, one for each jack."""
    with pytest.raises(InputError, match=message):
        answer(WHOLE | {"push": pushes}, JACK | jack)


def test_forces_of_the_users_on_the_frame_are_marked(tmp_path):
    """Every finding that rests on them, of members and joints; shares of the jack's force are not."""
    text = (Path(__file__).parents[2] / "examples" / "tile_press_of_members.toml").read_text(encoding="utf-8")
    marks = {}
    for load in ('"2 kN"', "0.01"):
        path = tmp_path / "press.toml"
        path.write_text(text + f'\n[[load]]\non = "head"\nload = {load}\nway = "-z"\n', encoding="utf-8")
        marks[load] = {f.part for f in check_press(path).findings if f.user_force}
    assert {"bar", "left post", "post bolts in the flats"} <= marks['"2 kN"'] and not marks["0.01"]


def test_two_jacks_in_one_throat_are_refused():
    """Side by side they would stand off its plane, one after the other off its line."""
    with pytest.raises(InputError, match="count: 2 is more than a C-frame is counted for"):
        answer(C_FRAME, JACK | {"count": 2})


def test_a_joint_that_must_be_tight_is_a_condition():
    """A post that hangs on one stiff joint: with it loose the frame moves."""
    rows = [frame()["member"][0] | {"at_start": "unknown"}, *frame()["member"][1:]]
    conditions = [a.condition for a in answer(frame(member=rows), BIG).outcome.assumptions if a.condition]
    assert "post/start is tight" in conditions


def test_dials_and_tilt_of_a_free_frame_are_those_of_the_closed_one():
    """At rated and proof load, off centre in line as in the middle."""
    jack = JACK | {"offset": "60 mm"}
    free = answer(WHOLE | {"dial": [{"on": "head", "at": "200 mm"}]}, jack)
    ring = answer(CLOSED | {"dial": [{"on": "head", "at": "200 mm"}]}, jack)
    texts = [
        next(t for t in got.outcome.answers if t.startswith("dial on head, 200 mm")).split("ends: ")[1]
        for got in (free, ring)
    ]
    assert texts[0] == texts[1]


def test_a_cantilever_pushed_at_its_tip_turns_by_statics():
    """F a^2 / 2 E I of each of two built-in arms of 500 mm, the shear no part of it at a node; and the dial none."""
    arms = {
        "node": [node("a", 0, 0), node("b", 500, 0), node("c", 0, 1000), node("d", 500, 1000)],
        "member": [member("lower", "a", "b", "IPE 100"), member("upper", "c", "d", "IPE 100")],
        "support": [{"node": name, "holds": "x y z rx ry rz"} for name in ("a", "c")],
        "push": [{"start": "b", "end": "d"}],
    }
    got = answer({"frame": {"shape": "members"}} | arms, JACK)
    text = next(t for t in got.outcome.answers if "out of parallel" in t)
    wanted = 2 * 100e3 * 500**2 / (2 * E * BEAM.Iy) * 1e3
    assert float(text.split(": ")[1].split(" mm")[0]) == pytest.approx(wanted, abs=0.006)


@pytest.mark.parametrize(
    ("dial", "message"),
    [
        ({"on": "Q", "at": "5 mm"}, 'on: "Q" is no member'),
        ({"on": "left", "at": "5 m"}, "at: 5000 mm is not on member"),
    ],
)
def test_a_dial_stands_on_a_member(dial, message):
    """Named, and within its length."""
    with pytest.raises(InputError, match=message):
        answer(RING | {"dial": [dial]}, JACK)
    with pytest.raises(InputError, match='on: "Q" is no beam of this frame'):
        answer(CLOSED | {"dial": [{"on": "Q", "at": "5 mm"}]}, JACK)


def test_an_open_member_under_a_jack_beside_its_plane_warps_as_a_head_does():
    """Bimoment and warping torque of the closed frame's head; a node's twist is left to the check."""
    jack = JACK | {"offset_across": "20 mm"}
    free, ring = answer(WHOLE, jack), answer(CLOSED, jack)
    for figure in ("B", "T_w"):
        most = [max(abs(getattr(s, figure)) for s in got.stations["head"]) for got in (free, ring)]
        assert most[0] == pytest.approx(most[1], rel=1e-6) and most[0] > 0
    assert any("ends are held against twisting and free to warp" in a.text for a in free.outcome.assumptions)
