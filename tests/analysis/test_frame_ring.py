"""The closed frame of a press: closed form, self-equilibrium of the jack, released corners, rigid zones, many cases."""

import numpy as np
import pytest
from frame_cases import case, jack, member, ring
from hypothesis import given
from hypothesis import strategies as st

from structcheck.analysis.frame import (
    PINNED,
    RIGID,
    Frame,
    Joint,
    Member,
    NodeLoad,
    PointOnMember,
    SelfWeight,
    Settlement,
    SpreadOnMember,
    Support,
    prepare,
    rejointed,
    solve,
    solve_loads,
)

GIVEN = case("FR-01")[0]


@given(
    st.floats(300.0, 1500.0),
    st.floats(300.0, 2500.0),
    st.floats(1e6, 3e8),
    st.floats(1e6, 3e8),
)
def test_corner_moment_of_the_symmetric_ring(L, h, beam, upright):
    """M_corner = (P L / 8) / (1 + k), k = I_b h / (I_c L), to 1e-9 with members that do not stretch or shear."""
    P = 300e3
    found = solve(ring({"L": L, "h": h, "I_beam": beam, "I_upright": upright}, area=1e10), {"one": jack(P, L / 2)})
    k = beam * h / (upright * L)
    corner = P * L / 8 / (1 + k)
    # Small k keeps all of P L / 8 in the corner, large k all of P L / 4 in the middle.
    for name, x in (("bed", 0.0), ("bed", L)):
        assert found.value("My", name, x) == pytest.approx(-corner, rel=1e-9)
    assert found.extremes("My", "bed").most.value == pytest.approx(P * L / 4 - corner, rel=1e-9)
    assert abs(found.value("My", "left", h / 3)) == pytest.approx(corner, rel=1e-9)


@given(st.floats(50.0, 750.0), st.sampled_from([0.0, 1e8, float("inf")]))
def test_the_jack_leaves_no_reaction_at_the_feet(at, stiffness):
    """Its two forces balance each other: the floor carries nothing, wherever the jack stands, whatever the corners."""
    found = solve(ring(GIVEN, area=6000.0, shear=3000.0, joint=Joint(ry=stiffness)), {"one": jack(300e3, at)})
    for foot in ("bed left", "bed right"):
        assert np.abs(found.reaction(foot)[:3]).max() < 300e3 * 1e-9


def test_a_released_corner_raises_the_moment_at_the_corner_across():
    """One loose corner of the head: nothing there, half as much again diagonally opposite, less beside it."""
    loads = {"one": jack(GIVEN["P"], 400.0)}
    rigid, loose = solve(ring(GIVEN), loads), solve(ring(GIVEN, joint=PINNED), loads)
    assert loose.value("My", "head", 0.0) == pytest.approx(0.0, abs=1.0)
    across = abs(loose.value("My", "bed", 800.0)) / abs(rigid.value("My", "bed", 800.0))
    beside = abs(loose.value("My", "head", 800.0)) / abs(rigid.value("My", "head", 800.0))
    assert across == pytest.approx(1.55, abs=0.01) and beside == pytest.approx(0.50, abs=0.01)


def test_a_joint_spring_lies_between_hinge_and_rigid_corner():
    """From 0 to infinite stiffness the corner moment grows from nothing to that of the rigid corner."""
    loads = {"one": jack(GIVEN["P"], 400.0)}
    moments = [
        abs(solve(ring(GIVEN, joint=Joint(ry=k)), loads).value("My", "head", 0.0))
        for k in (0.0, 1e8, 1e9, 1e10, 1e11, 1e14, float("inf"))
    ]
    assert moments == sorted(moments)
    assert moments[-2] == pytest.approx(moments[-1], rel=1e-4)


def test_rigid_zones_equal_short_members_that_hardly_bend():
    """A zone at both ends of the head against the same head with stubs ten thousand times as stiff."""
    zone = Joint(offset=100.0)
    plain = ring(GIVEN, area=6000.0, shear=3000.0)
    zoned = [m if m.name != "head" else member("head", m.start, m.end, m.Iy, 6000.0, 3000.0, at_start=zone, at_end=zone)
             for m in plain.members]  # fmt: skip
    nodes = dict(plain.nodes) | {"a": (100, 0, 1200), "b": (700, 0, 1200)}
    stubbed = [m for m in plain.members if m.name != "head"]
    stubbed += [
        member("stub a", "head left", "a", 1e13, 1e11),
        member("head", "a", "b", GIVEN["I_beam"], 6000.0, 3000.0),
        member("stub b", "b", "head right", 1e13, 1e11),
    ]
    load = [PointOnMember("bed", 250.0, (0, 0, -1e5))]
    one = solve(
        Frame(plain.nodes, zoned, plain.supports, plane="xz"),
        {"one": [PointOnMember("head", 250.0, (0, 0, 1e5)), *load]},
    )
    two = solve(
        Frame(nodes, stubbed, plain.supports, plane="xz"), {"one": [PointOnMember("head", 150.0, (0, 0, 1e5)), *load]}
    )
    for x in (100.0, 200.0, 400.0, 690.0):
        assert one.value("My", "head", x) == pytest.approx(two.value("My", "head", x - 100.0), rel=1e-3)
        assert one.deflection("head", x) == pytest.approx(two.deflection("head", x - 100.0), rel=1e-3, abs=1e-4)
    assert one.stations("head") == (0.0, 100.0, 250.0, 700.0, 800.0)
    at_face = one.extremes("My", "head").most
    assert 100.0 <= at_face.x <= 700.0


def test_a_load_on_a_rigid_zone_goes_to_its_node():
    """Forces on both zones reach the supports without bending the span."""
    zone = Joint(offset=100.0)
    frame = Frame(
        {"a": (0, 0, 0), "b": (1000, 0, 0)},
        [member("m", "a", "b", 1e7, at_start=zone, at_end=zone)],
        [Support("a", "x z ry"), Support("b", "z ry")],
        plane="xz",
    )
    load = [PointOnMember("m", 40.0, (0, 0, -1e3)), SpreadOnMember("m", (0, 0, -2.0), 930.0, 1000.0)]
    found = solve(frame, {"one": load})
    assert found.reaction("a") == pytest.approx([0, 0, 1e3, 0, -40e3, 0])
    assert found.reaction("b") == pytest.approx([0, 0, 140.0, 0, 140.0 * 35.0, 0])
    assert found.extremes("My", "m").largest.value == pytest.approx(0.0, abs=1e-6)
    assert found.value("Vz", "m", 20.0) == pytest.approx(1e3)
    assert found.value("My", "m", 20.0) == pytest.approx(-40e3 + 1e3 * 20)


def test_cases_solved_together_equal_cases_solved_alone():
    """Ten positions of the jack in one go, from one prepared structure too."""
    frame = ring(GIVEN, area=6000.0, shear=3000.0)
    cases = {f"at {x}": jack(300e3, x) for x in range(100, 701, 60)}
    together = solve(prepare(frame), cases)
    for name, loads in cases.items():
        alone = solve(frame, {name: loads})
        for beam in ("bed", "head", "left"):
            one, other = alone.extremes("My", beam), together.extremes("My", beam, name)
            assert other.most.value == pytest.approx(one.most.value, rel=1e-9)
            assert other.most.x == pytest.approx(one.most.x, abs=1e-6)
        assert together.reaction("bed left", name) == pytest.approx(alone.reaction("bed left"), abs=1e-6)


def test_a_frame_with_other_joints_takes_over_what_does_not_hang_on_them():
    """Loads, stiffness of the bare members and clamped forces of the rigid ring serve the jointed one unchanged."""
    rigid, jointed = (ring(GIVEN, area=6000.0, shear=3000.0, joint=joint) for joint in (RIGID, Joint(ry=3e9)))
    cases = {f"at {x}": jack(300e3, x) for x in (150.0, 400.0)}
    first = solve(rigid, cases)
    second = solve_loads(rejointed(first.structure, jointed), first.loads, first)
    anew = solve(jointed, cases)
    assert np.abs(second.answer.moves - first.answer.moves).max() > 1e-3
    for part in ("moves", "flexible", "ends", "reactions"):
        assert getattr(second.answer, part) == pytest.approx(getattr(anew.answer, part), rel=1e-12, abs=1e-9)
    back = solve_loads(rejointed(second.structure, rigid), second.loads, second)
    assert back.answer.ends == pytest.approx(first.answer.ends, rel=1e-12, abs=1e-6)


def test_tables_hold_what_single_questions_answer():
    """The arrays for all members and cases agree with the answers one by one."""
    found = solve(ring(GIVEN, area=6000.0, shear=3000.0), {"a": jack(3e5, 300.0), "b": jack(1e5, 500.0)})
    table = found.diagram_tables
    assert table.least.shape == (6, 4, 2)
    bound = found.extremes("Vz", "head", "b")
    assert (table.least[2, 1, 1], table.x_least[2, 1, 1]) == (bound.least.value, bound.least.x)
    assert (table.most[2, 1, 1], table.x_most[2, 1, 1]) == (bound.most.value, bound.most.x)


def test_axes_and_signs():
    """A cantilever along each global axis: the tip follows the force, and the signs are those of the module's head."""
    for axis, along in enumerate(np.eye(3)):
        across = np.roll(along, 1)
        frame = Frame(
            {"root": (0, 0, 0), "tip": tuple(1000.0 * along)},
            [Member("m", "root", "tip", 210000.0, 81000.0, 1e3, 2e6, 2e6, 1e6, up=tuple(-across))],
            [Support("root", "x y z rx ry rz")],
        )
        found = solve(frame, {"one": [NodeLoad("tip", tuple(500.0 * across + 300.0 * along), tuple(7e4 * along))]})
        tip = found.displacement("tip")
        assert tip[:3] @ across == pytest.approx(500.0 * 1e9 / (3 * 210000.0 * 2e6))
        assert tip[:3] @ along == pytest.approx(300.0 * 1e3 / (210000.0 * 1e3))
        assert tip[3:] @ along == pytest.approx(7e4 * 1e3 / (81000.0 * 1e6))
        # Local z is against the force: the root hogs, tension on the side of +z.
        assert found.value("My", "m", 0.0) == pytest.approx(-500e3), axis
        assert found.value("Vz", "m", 0.0) == pytest.approx(500.0)
        assert found.value("N", "m", 10.0) == pytest.approx(300.0)
        assert found.value("T", "m", 10.0) == pytest.approx(7e4)


def test_settlement_of_a_support_bends_the_frame():
    """One built-in end sinking: M = 6 E I d / L^2 at both ends, from the settlement alone."""
    frame = Frame(
        {"a": (0, 0, 0), "b": (1000, 0, 0)},
        [member("m", "a", "b", 3e6)],
        [Support("a", "x z ry"), Support("b", "x z ry")],
        plane="xz",
    )
    found = solve(frame, {"one": [Settlement("b", {"z": -2.0})]})
    moment = 6 * 210000.0 * 3e6 * 2.0 / 1000.0**2
    assert found.value("My", "m", 0.0) == pytest.approx(-moment)
    assert found.value("My", "m", 1000.0) == pytest.approx(moment)
    assert found.displacement("b")[2] == -2.0


def test_self_weight_is_density_times_area_times_g():
    """A ring's weight stands on its feet: 7850 kg/m3, 9.80665 m/s2."""
    frame = ring(GIVEN, area=6000.0)
    found = solve(frame, {"one": [SelfWeight()]})
    weight = 7.85e-6 * 6000.0 * 2 * (800.0 + 1200.0) * 9.80665
    assert found.reaction("bed left")[2] + found.reaction("bed right")[2] == pytest.approx(weight)
    some = solve(frame, {"one": [SelfWeight(members=["left"])]})
    assert some.reaction("bed left")[2] == pytest.approx(weight * 1200.0 / 4000.0)


def test_the_place_of_an_extreme_is_exact():
    """Where begin + length of a run is not its end in floating point, the extreme keeps its side of a jump."""
    length, low, high = 2012.4611797498108, 201.24611797498108, 1509.345884812358
    assert low + (high - low) != high
    frame = Frame(
        {"a": (0, 0, 0), "b": (length, 0, 0)},
        [member("m", "a", "b", 1e6)],
        [Support("a", "x z"), Support("b", "z")],
        plane="xz",
    )
    loads = [PointOnMember("m", high, moment=(0, 1.0, 0)), PointOnMember("m", low)]
    found = solve(frame, {"one": loads})
    bounds = found.extremes("My", "m")
    for extreme in (bounds.least, bounds.most):
        sides = [found.value("My", "m", extreme.x, side=side) for side in ("left", "right")]
        assert min(abs(value - extreme.value) for value in sides) < 1e-12


def test_a_load_shorter_than_rounding_is_no_load():
    """A patch that ends a hair beyond its start, at either end of a member, changes nothing and breaks nothing."""
    frame = ring(GIVEN, area=6000.0)
    slivers = [
        SpreadOnMember("head", (0, 0, 5.0), 0.0, 1e-13),
        SpreadOnMember("head", (0, 0, 5.0), 800.0 - 1e-12, 800.0),
    ]
    plain, more = solve(frame, {"one": jack(1e5, 300.0)}), solve(frame, {"one": [*jack(1e5, 300.0), *slivers]})
    assert more.extremes("My", "head").most.value == pytest.approx(plain.extremes("My", "head").most.value, rel=1e-12)


def test_relative_deflection_leaves_out_the_movement_of_the_nodes():
    """The head rises with the uprights' stretch; relative to its ends only its own bending and shear are left."""
    found = solve(ring(GIVEN, area=500.0), {"one": jack(300e3, 400.0)})
    lift = found.displacement("head left")[2]
    assert lift == pytest.approx(150e3 * 1200.0 / (210000.0 * 500.0), rel=1e-6)
    apart = found.deflection("head", 400.0)[2] - found.deflection("head", 400.0, relative=True)[2]
    assert apart == pytest.approx(lift, rel=1e-9)
    bound = found.deflection_extremes("head", "z", relative=True).most
    assert bound.value == pytest.approx(found.deflection("head", 400.0, relative=True)[2])
    assert bound.x == pytest.approx(400.0)
