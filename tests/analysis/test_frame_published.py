"""Frames, beams on springs, ribs and foundations against published or independent values, sources in frames.toml."""

import numpy as np
import pytest
from frame_cases import E, case, close, jack, member, ring, straight

from structcheck.analysis.frame import (
    Frame,
    Joint,
    NodeLoad,
    PointOnMember,
    SpreadOnMember,
    Spring,
    Support,
    solve,
)


def down(force):
    """A force downward."""
    return (0.0, 0.0, -force)


def test_guided_end_does_not_rotate():
    """BM-17: built in on one side, sliding without rotation on the other."""
    given, wanted, tolerance = case("BM-17")
    L = given["L"]
    frame = straight(L, {0: ("x z ry",), L: ("ry",)}, given["I"])
    found = solve(frame, {"one": [SpreadOnMember("beam 1", down(given["w"]))]})
    assert found.value("My", "beam 1", 0.0) == close(wanted["M_fixed"], tolerance)
    assert found.value("My", "beam 1", L) == close(wanted["M_guided"], tolerance)
    assert -found.displacement(f"{L:g}")[2] == close(wanted["delta_guided"], tolerance)


def test_overhang_lifts_the_span():
    """BM-19: uplift at the far support and its place in the span."""
    given, wanted, tolerance = case("BM-19")
    L, a = given["L"], given["a"]
    frame = straight(L + a, {0: ("x z",), L: ("z",)}, given["I"], [L])
    found = solve(frame, {"one": [NodeLoad(f"{L + a:g}", down(given["P"]))]})
    assert found.reaction(f"{L:g}")[2] == close(wanted["R_near"], tolerance)
    assert found.reaction("0")[2] == close(wanted["R_far"], tolerance)
    assert found.value("My", "beam 2", 0.0) == close(wanted["M_support"], tolerance)
    assert -found.displacement(f"{L + a:g}")[2] == close(wanted["delta_tip"], tolerance)
    rise = found.deflection_extremes("beam 1").most
    assert rise.value == close(wanted["uplift_in_span"], tolerance)
    assert rise.x == close(wanted["x_of_uplift"], tolerance)


def test_three_equal_spans():
    """BM-21: continuity over two inner supports."""
    given, wanted, tolerance = case("BM-21")
    L = given["L"]
    frame = straight(3 * L, {0: ("x z",), L: ("z",), 2 * L: ("z",), 3 * L: ("z",)}, given["I"], [L, 2 * L])
    load = [SpreadOnMember(f"beam {k}", down(given["w"])) for k in (1, 2, 3)]
    found = solve(frame, {"one": load})
    assert found.reaction("0")[2] == close(wanted["R_end"], tolerance)
    assert found.reaction(f"{L:g}")[2] == close(wanted["R_inner"], tolerance)
    assert found.extremes("My", "beam 1").least.value == close(wanted["M_inner_support"], tolerance)
    assert found.extremes("My", "beam 1").most.value == close(wanted["M_end_span"], tolerance)
    assert found.extremes("My", "beam 2").most.value == close(wanted["M_mid_span"], tolerance)
    assert -found.deflection_extremes("beam 1").least.value == close(wanted["delta_end_span"], tolerance)


def test_beam_hung_on_two_springs_tilts():
    """BM-22: reactions of springs to the ground, and the tilt."""
    given, wanted, tolerance = case("BM-22")
    L = given["L"]
    frame = straight(L, {0: ("x", {"z": given["k_left"]}), L: ("", {"z": given["k_right"]})}, given["I"])
    found = solve(frame, {"one": [PointOnMember("beam 1", given["a"], down(given["P"]))]})
    left, right = found.displacement("0")[2], found.displacement(f"{L:g}")[2]
    assert found.reaction("0")[2] == close(wanted["R_left"], tolerance)
    assert found.reaction(f"{L:g}")[2] == close(wanted["R_right"], tolerance)
    assert (-left, -right) == (close(wanted["delta_left"], tolerance), close(wanted["delta_right"], tolerance))
    assert -found.deflection("beam 1", given["a"])[2] == close(wanted["delta_at_load"], tolerance)
    assert (left - right) / L == close(wanted["tilt"], tolerance)


def test_beam_on_three_springs_between_nodes():
    """BM-23, with springs between nodes standing on a held node instead of springs to the ground."""
    given, wanted, tolerance = case("BM-23")
    L = given["L"]
    beam = straight(L, {0: ("x",)}, given["I"], [L / 2])
    places = ("0", f"{L / 2:g}", f"{L:g}")
    nodes = dict(beam.nodes) | {f"floor {x}": (float(x), 0.0, -500.0) for x in places}
    springs = [Spring(f"leg {x}", f"floor {x}", x, {"along": given["k"]}) for x in places]
    held = [*beam.supports, *(Support(f"floor {x}", "x z ry") for x in places)]
    found = solve(Frame(nodes, beam.members, held, springs, "xz"), {"one": [NodeLoad(places[1], down(given["P"]))]})
    assert -found.spring_force(f"leg {places[1]}", "along") == close(wanted["R_mid"], tolerance)
    assert -found.spring_force("leg 0", "along") == close(wanted["R_end"], tolerance)
    assert -found.displacement(places[1])[2] == close(wanted["delta_mid"], tolerance)
    assert found.value("My", "beam 1", L / 2) == close(wanted["M_mid"], tolerance)


@pytest.mark.parametrize("how", ["joint", "support"])
def test_rotational_springs_at_the_ends(how):
    """BM-24: the same springs as joints of the member and as springs of its nodes."""
    given, wanted, tolerance = case("BM-24")
    L, k = given["L"], given["k_rot"]
    if how == "joint":
        ends = {"at_start": Joint(ry=k), "at_end": Joint(ry=k)}
        frame = straight(L, {0: ("x z ry",), L: ("z ry",)}, given["I"], **ends)
    else:
        frame = straight(L, {0: ("x z", {"ry": k}), L: ("z", {"ry": k})}, given["I"])
    found = solve(frame, {"one": [PointOnMember("beam 1", L / 2, down(given["P"]))]})
    assert found.value("My", "beam 1", 0.0) == close(wanted["M_end"], tolerance)
    assert found.value("My", "beam 1", L / 2) == close(wanted["M_mid"], tolerance)
    assert -found.deflection("beam 1", L / 2)[2] == close(wanted["delta_mid"], tolerance)
    fixity = found.value("My", "beam 1", 0.0) / (-given["P"] * L / 8)
    assert fixity == close(wanted["fixity"], tolerance)


def test_ring_under_the_jack():
    """FR-01: corner and middle moments, tension in the uprights, opening of the beams."""
    given, wanted, tolerance = case("FR-01")
    L, h = given["L"], given["h"]
    k = given["I_beam"] * h / (given["I_upright"] * L)
    assert k == close(wanted["k"], tolerance)
    found = solve(ring(given), {"rated": jack(given["P"], L / 2)})
    assert found.value("My", "bed", 0.0) == close(-wanted["M_corner"], tolerance)
    assert found.value("My", "bed", L / 2) == close(wanted["M_mid_beam"], tolerance)
    for upright in ("left", "right"):
        assert found.extremes("N", upright).least.value == close(wanted["N_upright"], tolerance)
        assert abs(found.value("My", upright, [0.0, h / 3, h])) == close([wanted["M_upright"]] * 3, tolerance)
    opening = found.deflection("head", L / 2)[2] - found.deflection("bed", L / 2)[2]
    assert opening == close(wanted["opening"], tolerance)


def portal(given):
    """Pinned feet, one beam on two columns, members that do not stretch."""
    L, h = given["L"], given["h"]
    nodes = {"foot left": (0, 0, 0), "foot right": (L, 0, 0), "left": (0, 0, h), "right": (L, 0, h)}
    members = [
        member("near", "foot left", "left", given["I_upright"], 1e9),
        member("far", "foot right", "right", given["I_upright"], 1e9),
        member("beam", "left", "right", given["I_beam"], 1e9),
    ]
    return Frame(nodes, members, [Support("foot left", "x z"), Support("foot right", "x z")], plane="xz")


def test_portal_under_a_central_load():
    """FR-03: thrust of the feet and corner moment."""
    given, wanted, tolerance = case("FR-03")
    found = solve(portal(given), {"one": [PointOnMember("beam", given["L"] / 2, down(given["P"]))]})
    assert found.reaction("foot left")[0] == close(wanted["H"], tolerance)
    assert found.reaction("foot right")[0] == close(-wanted["H"], tolerance)
    assert found.value("My", "beam", 0.0) == close(wanted["M_corner"], tolerance)
    assert found.extremes("My", "beam").most.value == close(wanted["M_mid"], tolerance)


def test_portal_pushed_from_the_side():
    """FR-05: the feet share the push unequally and form a couple."""
    given, wanted, tolerance = case("FR-05")
    found = solve(portal(given), {"one": [PointOnMember("near", given["a"], (-given["P"], 0, 0))]})
    assert found.reaction("foot left")[0] == close(-wanted["H_near"], tolerance)
    assert found.reaction("foot right")[0] == close(wanted["H_far"], tolerance)
    assert abs(found.reaction("foot left")[2]) == close(wanted["V"], tolerance)
    assert found.reaction("foot left")[2] == pytest.approx(-found.reaction("foot right")[2])


def test_ring_with_the_jack_off_the_middle():
    """FR-09: unequal uprights and corners."""
    given, wanted, tolerance = case("FR-09")
    found = solve(ring(given), {"off": jack(given["P"], given["x"])})
    assert found.value("My", "bed", 0.0) == close(-wanted["M_corner_near"], tolerance)
    assert found.value("My", "bed", given["L"]) == close(-wanted["M_corner_far"], tolerance)
    assert found.value("My", "bed", given["x"]) == close(wanted["M_at_load"], tolerance)
    assert found.value("N", "left", 600.0) == close(wanted["N_near"], tolerance)
    assert found.value("N", "right", 600.0) == close(wanted["N_far"], tolerance)


@pytest.mark.parametrize("e", [0.0, 30.0])
def test_beams_on_pins_in_uprights(e):
    """FR-11: pinned beams leave the uprights in tension only, or bent by V e where pins stand off their centre-lines.

    The uprights stand outside the pins by e, reached through stiff brackets.
    """
    given, wanted, tolerance = case("FR-11")
    L, h = given["L"], 1200.0
    nodes, members = {}, []
    for level, z in (("bed", 0.0), ("head", h)):
        nodes |= {f"{level} {side}": (x, 0.0, z) for side, x in (("left", -e), ("right", L + e))}
        stub = Joint(ry=0.0, offset=e)
        members.append(member(level, f"{level} left", f"{level} right", 6000e4, at_start=stub, at_end=stub))
    members += [member(side, f"bed {side}", f"head {side}", 1500e4) for side in ("left", "right")]
    held = [Support("bed left", "x z"), Support("bed right", "z"), Support("head left", "x")]
    middle = L / 2 + e
    found = solve(Frame(nodes, members, held, plane="xz"), {"one": jack(given["P"], middle)})
    assert found.value("My", "bed", middle) == close(wanted["M_mid"], tolerance)
    assert abs(found.extremes("Vz", "bed").largest.value) == close(wanted["V"], tolerance)
    assert found.extremes("N", "left").most.value == close(wanted["N_upright"], tolerance)
    bending = wanted["M_upright_eccentric"] if e == given["e"] else 0.0
    assert abs(found.extremes("My", "left").largest.value) == pytest.approx(bending, rel=tolerance, abs=1.0)


def test_ring_with_the_force_spread_over_a_base():
    """FR-12: a patch lowers corner and middle moments."""
    given, wanted, tolerance = case("FR-12")
    L, c = given["L"], given["c"]
    ends = ((L - c) / 2, (L + c) / 2)
    load = [
        SpreadOnMember("head", (0, 0, given["P"] / c), *ends),
        SpreadOnMember("bed", down(given["P"] / c), *ends),
    ]
    found = solve(ring(given), {"one": load})
    assert found.value("My", "bed", 0.0) == close(-wanted["M_corner"], tolerance)
    assert found.extremes("My", "bed").most.value == close(wanted["M_mid"], tolerance)


def test_crossing_ribs_share_by_stiffness():
    """GR-01: the short rib takes most of the load; its torsion constant is nothing."""
    given, wanted, tolerance = case("GR-01")
    a, b = given["L_long"] / 2, given["L_short"] / 2
    nodes = {"west": (-a, 0, 0), "east": (a, 0, 0), "south": (0, -b, 0), "north": (0, b, 0), "middle": (0, 0, 0)}
    members = [member(end, end, "middle", given["I"], J=0.0) for end in list(nodes)[:4]]
    held = [Support("west", "x y z rz rx"), Support("east", "y z rz rx")]
    held += [Support("south", "x z rz ry"), Support("north", "x z rz ry")]
    found = solve(Frame(nodes, members, held), {"one": [NodeLoad("middle", down(given["P"]))]})
    assert 2 * found.reaction("west")[2] == close(wanted["share_long"], tolerance)
    assert 2 * found.reaction("south")[2] == close(wanted["share_short"], tolerance)
    assert -found.displacement("middle")[2] == close(wanted["delta"], tolerance)
    assert found.extremes("My", "south").most.value == close(wanted["M_short"], tolerance)
    assert found.extremes("My", "west").most.value == close(wanted["M_long"], tolerance)


def on_foundation(given, step):
    """A beam on springs at equal steps, loaded in the middle; nodes are named by their distance from the load."""
    count = round(given["L"] / step)
    x = np.arange(count + 1) * step - given["L"] / 2
    names = [f"{place:g}" for place in x]
    share = np.full(count + 1, given["k"] * step)
    share[[0, -1]] /= 2
    inertia = given["EI"] / E
    beams = [member(f"beam {k + 1}", names[k], names[k + 1], inertia) for k in range(count)]
    held = [Support(name, springs={"z": float(k)}) for name, k in zip(names, share, strict=True)]
    nodes = {name: (float(place), 0.0, 0.0) for name, place in zip(names, x, strict=True)}
    frame = Frame(nodes, beams, [*held, Support("0", "x")], plane="xz")
    return x, solve(frame, {"one": [NodeLoad("0", down(given["P"]))]})


def test_long_beam_on_a_foundation():
    """WF-01: deflection and moment under the load, and where the beam first lifts off."""
    given, wanted, tolerance = case("WF-01")
    assert (given["k"] / (4 * given["EI"])) ** 0.25 == close(wanted["beta"], tolerance)
    x, found = on_foundation(given, 50.0)
    w = np.array([-found.displacement(f"{place:g}")[2] for place in x])
    assert w.max() == close(wanted["w_max"], tolerance)
    middle = f"beam {len(x) // 2}"
    assert found.extremes("My", middle).most.value == close(wanted["M_max"], tolerance)
    beyond = x > 0
    crossing = np.interp(0.0, -w[beyond][:60], x[beyond][:60])
    assert crossing == close(wanted["first_zero_of_w"], tolerance)


def test_short_beam_on_a_foundation():
    """WF-03: a machine bed, free at both ends."""
    given, wanted, tolerance = case("WF-03")
    x, found = on_foundation(given, 25.0)
    assert -found.displacement("0")[2] == close(wanted["w_centre"], tolerance)
    assert -found.displacement("750")[2] == close(wanted["w_end"], tolerance)
    assert found.extremes("My", f"beam {len(x) // 2}").most.value == close(wanted["M_centre"], tolerance)
