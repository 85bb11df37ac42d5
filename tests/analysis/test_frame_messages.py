"""What the frame solver says of input it cannot use and of structures that move, word by word."""

from dataclasses import replace

import pytest
from frame_cases import case, jack, member, ring

from structcheck.analysis import frame_system
from structcheck.analysis.frame import (
    PINNED,
    Frame,
    Joint,
    NodeLoad,
    PointOnMember,
    SelfWeight,
    Settlement,
    SpreadOnMember,
    Spring,
    Support,
    solve,
)
from structcheck.analysis.stability import critical
from structcheck.errors import InputError, Mechanism, StructcheckError, UnknownName

GIVEN = case("FR-01")[0]
NODES = {"a": (0, 0, 0), "b": (1000, 0, 0), "c": (1000, 0, 800)}
MEMBERS = [member("beam", "a", "b", 1e7), member("post", "b", "c", 1e7)]
HELD = [Support("a", "x y z rx ry rz")]
PUSH = [NodeLoad("c", (1e3, 0, 0))]


def message(error, nodes=NODES, members=MEMBERS, supports=HELD, springs=(), plane=None, cases=None):
    """What is said of a frame with one thing changed."""
    with pytest.raises(error) as caught:
        solve(Frame(nodes, members, supports, springs, plane), {"push": PUSH} if cases is None else cases)
    return str(caught.value)


def test_two_nodes_at_one_place():
    """Named, both of them; a spring between the two makes it right."""
    said = message(InputError, nodes=NODES | {"d": (1000, 0, 0)})
    assert said.startswith('node "d", nodes: (1000, 0, 0) is at the place of node "b"')
    nodes = NODES | {"d": (1000, 0, 0)}
    joined = Spring("bolt", "b", "d", dict.fromkeys(("x", "y", "z", "rx", "ry", "rz"), 1e6))
    assert solve(Frame(nodes, MEMBERS, HELD, [joined]), {"push": PUSH})


def test_spring_along_nothing():
    """A spring along the line between two nodes at one place has no direction."""
    said = message(InputError, nodes=NODES | {"d": (1000, 0, 0)}, springs=[Spring("s", "b", "d", {"along": 1.0})])
    assert said.startswith('spring "s", stiffness: along has no direction')


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"end": "x"}, 'member "post", end: "x" is not defined\n  wanted: one of a, b, c'),
        ({"end": "b"}, 'member "post", end: "b" is also its start'),
        ({"E": float("nan")}, 'member "post", E: nan is not positive and finite'),
        ({"A": 0.0}, 'member "post", A: 0.0 is not positive and finite'),
        ({"G": float("inf")}, 'member "post", G: inf is not positive and finite'),
        ({"Iy": -1.0}, 'member "post", Iy: -1.0 is negative or not finite'),
        ({"Asz": 0.0}, 'member "post", Asz: 0.0 is not positive\n  wanted: a positive area in mm2, or None'),
        ({"angle": float("inf")}, 'member "post", angle: inf is not finite'),
        ({"up": (0.0, 0.0, 2.0)}, 'member "post", up: (0.0, 0.0, 2.0) gives no side'),
        ({"at_start": Joint(ry=-1.0)}, 'member "post", at_start.ry: -1.0 is not a stiffness'),
        ({"at_end": Joint(offset=-5.0)}, 'member "post", at_end.offset: -5.0 mm is not a length'),
        ({"at_end": Joint(offset=800.0)}, 'member "post", offset: 0 + 800 mm leaves nothing to bend'),
        ({"name": "beam"}, 'name: "beam" is given to 2 members'),
    ],
)
def test_faults_of_a_member(change, words):
    """Each names the member, what was given and what is wanted."""
    assert words in message(InputError, members=[MEMBERS[0], replace(MEMBERS[1], **change)])


def test_a_near_name_is_offered():
    """A misspelt node brings up the one meant."""
    nodes = {"head left": (0, 0, 0), "head right": (1000, 0, 0)}
    said = message(InputError, nodes=nodes, members=[member("m", "head left", "head rigth", 1e7)], cases={})
    assert 'try:    end = "head right"' in said


def test_zero_length_member():
    """Two names for one place, joined by a member and a spring."""
    said = message(
        InputError,
        nodes=NODES | {"d": (1000, 0, 0)},
        members=[*MEMBERS, member("short", "b", "d", 1e7)],
        springs=[Spring("s", "b", "d", {"x": 1.0})],
    )
    assert 'member "short", end: "d" leaves the member no length' in said


def test_nothing_holds_the_structure():
    """No support at all is told before anything is solved."""
    said = message(InputError, supports=[])
    assert said == "supports: nothing holds the structure\n  wanted: at least one node held or on a spring"


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"supports": [Support("q", "x")]}, 'support, node: "q" is not defined'),
        ({"supports": [Support("a", "x w")]}, 'support of node "a", fixed: "w" is not defined'),
        ({"supports": [Support("a", "x", {"z": -1.0})]}, 'support of node "a", springs z: -1.0 is not a stiffness'),
        ({"springs": [Spring("s", "a", "c", {"q": 1.0})]}, 'spring "s", stiffness: "q" is not defined'),
        ({"nodes": NODES | {"d": (0, float("nan"), 0)}}, 'node "d", nodes: (0, nan, 0) is no place'),
        ({"members": []}, "members: there are none"),
        ({"plane": "zx"}, 'plane: "zx" is not known\n  wanted: one of xz, xy, yz'),
        ({"cases": {}}, "cases: there are none"),
    ],
)
def test_faults_of_the_rest(given, words):
    """Supports, springs, nodes, plane and cases."""
    assert words in message(InputError, **given)


@pytest.mark.parametrize(
    ("load", "words"),
    [
        (NodeLoad("q"), 'case "push", node: "q" is not defined'),
        (NodeLoad("c", (float("nan"), 0, 0)), 'case "push", load on node "c": (nan, 0, 0) is not finite'),
        (PointOnMember("q", 1.0), 'case "push", member: "q" is not defined\n  wanted: one of beam, post'),
        (PointOnMember("post", 801.0), 'case "push", load on member "post", at: 801 mm is off the member'),
        (PointOnMember("post", -1.0), "wanted: a position from 0 to 800 mm"),
        (PointOnMember("post", 1.0, axes="own"), 'axes: "own" is not known'),
        (SpreadOnMember("post", (1, 0, 0), 0.0, 900.0), 'load on member "post", end: 900 mm is off the member'),
        (SpreadOnMember("post", (1, 0, 0), 300.0, 300.0), "end: 300 mm leaves the load no length"),
        (SelfWeight(direction=(0, 0, 0)), "direction: (0, 0, 0) points nowhere"),
        (SelfWeight(members=["q"]), 'case "push", member: "q" is not defined'),
        (Settlement("c", {"x": 1.0}), 'case "push", node "c" x: is not held, so it cannot be moved'),
        (Settlement("a", {"x": float("inf")}), 'case "push", node "a" x: inf is not finite'),
    ],
)
def test_faults_of_a_load(load, words):
    """Each names the case, the member or node, and what was given."""
    assert words in message(InputError, cases={"push": [load]})


def test_all_faults_are_told_at_once():
    """Four faults of a frame, four problems."""
    with pytest.raises(InputError) as caught:
        solve(Frame(NODES, [replace(MEMBERS[0], E=-1.0, A=0.0, end="q")], []), {"push": PUSH})
    assert [problem.key for problem in caught.value.problems] == ["end", "E", "A", "supports"]


def test_unknown_names_in_questions():
    """A result asked for what it does not have offers the nearest."""
    found = solve(ring(GIVEN), {"rated": jack(1e3, 400.0), "proof": jack(2e3, 400.0)})
    for ask, words in (
        (lambda: found.displacement("bed lef", "rated"), 'try:    node = "bed left"'),
        (lambda: found.value("My", "heat", 0.0, "rated"), 'try:    member = "head"'),
        (lambda: found.value("Mx", "head", 0.0, "rated"), 'quantity: "Mx" is not defined'),
        (lambda: found.extremes("N", "head", "rate"), 'try:    case = "rated"'),
        (lambda: found.extremes("N", "head"), 'case: "None" is not defined\n  wanted: one of rated, proof'),
        (lambda: found.spring_force("s", "x", "rated"), 'spring: "s x" is not defined'),
        (lambda: found.deflection_extremes("head", "w", "rated"), 'direction: "w" is not defined'),
    ):
        with pytest.raises(UnknownName) as caught:
            ask()
        assert words in str(caught.value)


def pinned_ring(**change):
    """The ring with every corner released, and what `change` puts back."""
    plain = ring(GIVEN)
    members = [replace(m, at_start=PINNED, at_end=PINNED) if m.name in ("bed", "head") else m for m in plain.members]
    return Frame(plain.nodes, members, plain.supports, **({"plane": "xz"} | change))


def test_a_ring_with_four_pins_is_a_mechanism():
    """The head of a ring with four loose corners moves sideways."""
    with pytest.raises(Mechanism) as caught:
        solve(pinned_ring(), {"rated": jack(1e3, 400.0)})
    assert str(caught.value).startswith('node "head ')
    assert "can move along x: nothing there resists it" in str(caught.value)


def test_a_node_of_pins_only_can_turn():
    """Where every member is released, the node itself turns."""
    plain = ring(GIVEN)
    ends = {"head": {"at_start": PINNED}, "left": {"at_end": PINNED}}
    members = [replace(m, **ends.get(m.name, {})) for m in plain.members]
    with pytest.raises(Mechanism) as caught:
        solve(Frame(plain.nodes, members, plain.supports, plane="xz"), {"rated": jack(1e3, 400.0)})
    assert str(caught.value) == 'node "head left" can turn about y: nothing there resists it'


@pytest.mark.parametrize(
    ("supports", "plane", "words"),
    [
        ([Support("a", "z"), Support("b", "z")], "xz", "the structure can slide along x: no support holds it"),
        ([Support("a", "x z")], "xz", "the structure can turn about y: no support holds it"),
        ([Support("a", "x y z"), Support("b", "y z"), Support("c", "x")], None, "the structure can turn about x: no"),
        ([Support("a", "", {"y": 5.0})], "xy", "the structure can slide along x: no support holds it"),
    ],
)
def test_a_frame_not_held_enough_moves_as_one_piece(supports, plane, words):
    """The motion and the axis are named."""
    nodes = NODES if plane != "xy" else {name: (x, z, 0) for name, (x, _, z) in NODES.items()}
    assert words in message(Mechanism, nodes=nodes, supports=supports, plane=plane)


def test_a_loose_part_is_named_by_a_node():
    """A second piece that nothing holds."""
    nodes = NODES | {"d": (0, 0, 2000), "e": (500, 0, 2000)}
    said = message(Mechanism, nodes=nodes, members=[*MEMBERS, member("loose", "d", "e", 1e7)])
    assert said == 'the part with node "d" can slide along x: no support holds it'


def test_crossing_members_may_be_cut_where_they_cross():
    """Two braces that pass each other unconnected buckle apart, though their middles lie at one place."""
    nodes = {"a": (0, 0, 0), "b": (1000, 0, 0), "c": (1000, 0, 1000), "d": (0, 0, 1000)}
    links = [("a", "b"), ("b", "c"), ("c", "d"), ("d", "a"), ("a", "c"), ("b", "d")]
    frame = Frame(
        nodes, [member(a + b, a, b, 1e6) for a, b in links], [Support("a", "x z"), Support("b", "z")], (), "xz"
    )
    squeezed = {"one": [NodeLoad("c", (-1e4, 0, -1e4)), NodeLoad("d", (1e4, 0, -1e4))]}
    assert 0 < critical(frame, squeezed)["one"].factor < 1e4


def test_a_node_without_members_is_named():
    """Left over from an earlier drawing, say."""
    said = message(Mechanism, nodes=NODES | {"stray": (5, 5, 5)})
    assert said == 'node "stray" can move along x: nothing there resists it'


@pytest.mark.parametrize(
    ("joint", "words"),
    [
        (Joint(rx=0.0), 'member "beam" can turn about its own axis: both ends are released in rx'),
        (Joint(x=0.0), 'member "beam" can slide along its own axis: both ends are released in x'),
        (Joint(z=0.0), 'member "beam" can move between its nodes: its joints release it from both in one direction'),
    ],
)
def test_a_member_released_from_both_nodes(joint, words):
    """Named with the direction, since no node moves."""
    frame_members = [replace(MEMBERS[0], at_start=joint, at_end=joint), MEMBERS[1]]
    supports = [Support("a", "x y z rx ry rz"), Support("b", "x y z rx ry rz")]
    assert message(Mechanism, members=frame_members, supports=supports) == words


def test_a_slant_mechanism_is_found_behind_rounding():
    """A hinge about an axis that is no global one leaves the node free to turn, though no diagonal entry is nothing."""
    nodes = {"a": (0, 0, 0), "b": (700, 310, 450), "c": (1500, 0, 120)}
    hinge = Joint(rx=0.0, ry=0.0, rz=0.0)
    members = [member("one", "a", "b", 1e7, at_end=hinge), member("two", "b", "c", 1e7, at_start=hinge)]
    held = [Support("a", "x y z rx ry rz"), Support("c", "x y z rx ry rz")]
    said = message(Mechanism, nodes=nodes, members=members, supports=held, cases={"one": [NodeLoad("b", (1, 0, 0))]})
    assert said.startswith('node "b" can turn about ')


def test_very_unequal_stiffness_is_no_mechanism():
    """A soft frame with members that hardly stretch still stands."""
    found = solve(ring(GIVEN, area=1e11), {"one": [NodeLoad("head left", (1e3, 0, 0))]})
    assert found.displacement("head left")[0] > 0


def test_a_solution_out_of_tolerance_is_refused(monkeypatch):
    """With the tolerances set to nothing the rounding errors themselves are refused, in words."""
    frame, loads = ring(GIVEN, area=6000.0), {"one": jack(1e5, 333.0)}
    monkeypatch.setattr(frame_system, "RESIDUAL_TOLERANCE", 0.0)
    with pytest.raises(StructcheckError, match="the equations of the frame are not solved well enough: residual"):
        solve(frame, loads)
    monkeypatch.undo()
    monkeypatch.setattr(frame_system, "EQUILIBRIUM_TOLERANCE", 0.0)
    with pytest.raises(StructcheckError, match=r'node "\w+ \w+" is not in equilibrium: .* allowed 0e\+00'):
        solve(frame, loads)
