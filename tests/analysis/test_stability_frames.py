"""Critical load factors against Euler and Engesser, second order against benchmark cases and closed forms."""

import numpy as np
import pytest
from frame_cases import case, close, member, ring
from frame_random import frames
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from structcheck.analysis.frame import (
    PINNED,
    Frame,
    Joint,
    Member,
    NodeLoad,
    PointOnMember,
    SpreadOnMember,
    Support,
    solve,
)
from structcheck.analysis.stability import critical, lower_bound, second_order
from structcheck.errors import InputError, Mechanism

GIVEN = case("ST-03")[0]
EULER = np.pi**2 * GIVEN["E"] * GIVEN["I"] / GIVEN["L"] ** 2
ENDS = {
    "pin_pin": ("x z", "x"),
    "fixed_free": ("x z ry", ""),
    "fixed_pin": ("x z ry", "x"),
    "fixed_fixed": ("x z ry", "x ry"),
    "fixed_guided_sway": ("x z ry", "ry"),
}


def column(foot, head, shear=None, **more):
    """A column along z, held in the x-z plane."""
    nodes = {"foot": (0, 0, 0), "head": (0, 0, GIVEN["L"])}
    held = [Support("foot", foot), Support("head", head)]
    return Frame(nodes, [member("column", "foot", "head", GIVEN["I"], 1e6, shear, **more)], held, plane="xz")


def pressed(force):
    """A downward force on the head."""
    return {"one": [NodeLoad("head", (0, 0, -force))]}


@pytest.mark.parametrize("ends", list(ENDS))
def test_euler_columns(ends):
    """ST-03: five end conditions, each to 1 in 1000."""
    _, wanted, tolerance = case("ST-03")
    found = critical(column(*ENDS[ends]), pressed(1e3))["one"]
    assert 1e3 * found.factor == close(wanted[ends], tolerance)


def test_shear_strain_lowers_the_critical_load():
    """Engesser: 1 / N_cr = 1 / N_E + 1 / (G A_s), for a stout and a very soft web."""
    for shear in (2000.0, 200.0):
        frame = column(*ENDS["pin_pin"], shear=shear)
        wanted = 1 / (1 / EULER + 1 / (frame.members[0].G * shear))
        assert 1e3 * critical(frame, pressed(1e3))["one"].factor == close(wanted, 0.002)


def test_hinged_member_buckles_as_pin_ended():
    """Hinges at the member's ends, built-in nodes; and one hinge gives the propped column."""
    both = column("x z ry", "x ry", at_start=PINNED, at_end=PINNED)
    one = column("x z ry", "x ry", at_end=PINNED)
    assert 1e3 * critical(both, pressed(1e3))["one"].factor == close(EULER, 0.001)
    assert 1e3 * critical(one, pressed(1e3))["one"].factor == close(case("ST-03")[1]["fixed_pin"], 0.001)


def test_rigid_zones_shorten_a_built_in_column():
    """Built in at faces 2400 mm apart, it buckles as a column of that length."""
    zone = Joint(offset=300.0)
    found = critical(column("x z ry", "x ry", at_start=zone, at_end=zone), pressed(1e3))["one"]
    assert 1e3 * found.factor == close(4 * EULER * (3000.0 / 2400.0) ** 2, 0.001)


@pytest.mark.parametrize(("foot", "head", "zones"), [("x z ry", "", (0, 600)), ("x z", "x", (600, 600))])
def test_rigid_zones_tilt_under_the_axial_force(foot, head, zones):
    """A rigid arm a on a flexible length l: k a tan(k l) = 1 on a cantilever, k a tan(k l / 2) = 1 between pins."""
    from scipy.optimize import brentq

    first, last = zones
    flexible = GIVEN["L"] - first - last
    length = flexible if head == "" else flexible / 2
    root = brentq(lambda u: u * np.tan(u) - length / last, 1e-6, np.pi / 2 - 1e-9)
    frame = column(foot, head, at_start=Joint(offset=float(first)), at_end=Joint(offset=float(last)))
    wanted = (root / length) ** 2 * GIVEN["E"] * GIVEN["I"]
    assert 1e3 * critical(frame, pressed(1e3))["one"].factor == close(wanted, 0.001)


@pytest.mark.parametrize("plane", ["xz", "yz"])
def test_second_order_moment_is_that_of_the_displaced_loads(plane):
    """At the foot of a leaning cantilever with rigid zones: H L + N delta, in both planes of the member."""
    H, N, L = 2e3, 150e3, GIVEN["L"]
    side = "xyz".index(plane[0])
    turn = {"xz": "ry", "yz": "rx"}[plane]
    ends = {"at_start": Joint(offset=300.0), "at_end": Joint(offset=450.0)}
    frame = Frame(
        {"foot": (0, 0, 0), "head": (0, 0, L)},
        [member("column", "foot", "head", GIVEN["I"], 1e6, 4e3, **ends)],
        [Support("foot", f"{plane[0]} z", {turn: 3e9})],
        plane=plane,
    )
    force = [0.0, 0.0, -N]
    force[side] = H
    found = second_order(frame, {"one": [NodeLoad("head", tuple(force))]})
    wanted = H * L + N * found.displacement("head")[side]
    diagram = "My" if plane == "xz" else "Mz"
    assert wanted > 1.2 * H * L
    assert abs(found.value(diagram, "column", 0.0)) == pytest.approx(wanted, rel=1e-6)
    assert np.abs(found.reaction("foot")[3:]).max() == pytest.approx(wanted, rel=1e-6)
    # The deflected line of each piece ends on its node.
    row = 2 if plane == "xz" else 1
    for begin in found.stations("column")[1:-1]:
        before, after = (found.deflection("column", begin + step)[row] for step in (-1e-7, 1e-7))
        assert before == pytest.approx(after, rel=1e-6)


def test_column_in_space_buckles_about_its_weak_axis():
    """With Iz a quarter of Iy the mode is across the weak axis; the strong one is found when that is held."""
    nodes = {"foot": (0, 0, 0), "head": (0, 0, 3000)}
    section = {"E": 210000.0, "G": 80769.0, "A": 1e4, "Iy": 1000e4, "Iz": 250e4, "J": 1e6}
    held = [Support("foot", "x y z rz"), Support("head", "x y")]
    found = critical(Frame(nodes, [Member("column", "foot", "head", **section)], held), pressed(1e3))["one"]
    assert 1e3 * found.factor == close(EULER / 4, 0.001)
    turn = np.abs(found.mode["foot"][3:])
    assert turn[0] > 0 and turn[1] == pytest.approx(0.0, abs=1e-6 * turn[0])


def test_torsional_buckling_when_asked_for():
    """A stocky column with hardly any torsion constant: N = G J A / (Iy + Iz) with the twist term, flexure without."""
    nodes = {"foot": (0, 0, 0), "head": (0, 0, 1000)}
    section = {"E": 210000.0, "G": 80769.0, "A": 4e3, "Iy": 1000e4, "Iz": 1000e4, "J": 2e4}
    held = [Support("foot", "x y z rz"), Support("head", "x y rz")]
    frame = Frame(nodes, [Member("column", "foot", "head", **section)], held)
    twist = 80769.0 * 2e4 * 4e3 / 2000e4
    assert 1e3 * critical(frame, pressed(1e3), wagner=True)["one"].factor == close(twist, 1e-6)
    assert 1e3 * critical(frame, pressed(1e3))["one"].factor > 10 * twist


def test_sway_portal_against_its_exact_equation():
    """Pinned portal, load on both corners: k L tan(k L) = 6 / k_b of the slope-deflection equation, solved by scipy."""
    from scipy.optimize import brentq

    L, h, beam, upright = 800.0, 1200.0, 6000e4, 1500e4
    nodes = {"a": (0, 0, 0), "b": (0, 0, h), "c": (L, 0, h), "d": (L, 0, 0)}
    members = [
        member("left", "a", "b", upright, 1e9),
        member("beam", "b", "c", beam, 1e9),
        member("right", "d", "c", upright, 1e9),
    ]
    frame = Frame(nodes, members, [Support("a", "x z"), Support("d", "x z")], plane="xz")
    found = critical(frame, {"one": [NodeLoad(node, (0, 0, -1e3)) for node in "bc"]})["one"]
    ratio = 6 * beam / L / (upright / h)
    root = brentq(lambda u: u * np.tan(u) - ratio, 0.1, np.pi / 2 - 1e-9)
    assert 1e3 * found.factor == close(root**2 * 210000.0 * upright / h**2, 0.001)
    # Both corners sway the same way.
    assert found.mode["b"][0] == pytest.approx(found.mode["c"][0], rel=1e-6)


def test_tension_has_no_critical_factor():
    """A pulled column, and the uprights of a press ring under the jack, do not buckle."""
    found = critical(column(*ENDS["pin_pin"]), pressed(-1e3))["one"]
    assert found.factor == float("inf") and found.mode == {}


def test_cases_are_judged_one_by_one():
    """Twice the load, half the factor; a case in tension beside them is infinite."""
    frame = column(*ENDS["fixed_free"])
    cases = {name: pressed(force)["one"] for name, force in (("one", 1e3), ("two", 2e3), ("pull", -1e3))}
    found = critical(frame, cases)
    assert found["one"].factor == pytest.approx(2 * found["two"].factor, rel=1e-9)
    assert found["pull"].factor == float("inf")


@pytest.mark.parametrize("which", ["no_shear", "with_shear"])
def test_benchmark_of_a_loaded_strut(which):
    """ST-01: moments and deflections at four axial forces, with and without shear strain."""
    given, wanted, tolerance = case("ST-01")
    kip, inch = 4448.2216, 25.4
    E, L = given["E_ksi"] * kip / inch**2, given["L_ft"] * 12 * inch
    shear = given["d_in"] * given["tw_in"] * inch**2 if which == "with_shear" else None
    section = {"E": E, "G": E / 2.6, "A": 1e6, "Iy": given["I_in4"] * inch**4, "Iz": 1e8, "J": 1e6}
    strut = Member("strut", "a", "b", **section, Asz=shear)
    frame = Frame({"a": (0, 0, 0), "b": (L, 0, 0)}, [strut], [Support("a", "x z"), Support("b", "z")], plane="xz")
    load = SpreadOnMember("strut", (0, 0, -given["w_kip_ft"] * kip / (12 * inch)))
    cases = {f"{P:g}": [load, NodeLoad("b", (-P * kip, 0, 0))] for P in given["P_kip"]}
    found = second_order(frame, cases)
    for k, name in enumerate(cases):
        moment = found.extremes("My", "strut", name).most
        sag = found.deflection_extremes("strut", "z", name).least
        assert moment.value / (kip * inch) == close(wanted[f"M_{which}"][k], tolerance)
        assert -sag.value / inch == close(wanted[f"delta_{which}"][k], tolerance)
        assert moment.x == pytest.approx(L / 2, abs=1.0) and sag.x == pytest.approx(L / 2, abs=1.0)


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
def test_beam_column_against_its_closed_form(share):
    """Uniform load and thrust: M = q / k^2 (1 / cos(k L / 2) - 1), k^2 = N / E I, up to nine tenths of N_cr."""
    N, q = share * EULER, 2.0
    frame = column("x z", "x")
    loads = [*pressed(N)["one"], SpreadOnMember("column", (q, 0, 0))]
    k = np.sqrt(N / (GIVEN["E"] * GIVEN["I"]))
    wanted = q / k**2 * (1 / np.cos(k * GIVEN["L"] / 2) - 1)
    found = second_order(frame, {"one": loads})
    assert abs(found.extremes("My", "column").largest.value) == close(wanted, 0.004 if share > 0.8 else 0.001)
    # Between the nodes of the pieces the diagram follows the same curve.
    x = np.linspace(0, GIVEN["L"], 41)
    curve = q / k**2 * (np.cos(k * (GIVEN["L"] / 2 - x)) / np.cos(k * GIVEN["L"] / 2) - 1)
    assert np.abs(found.value("My", "column", x)) == pytest.approx(curve, abs=0.004 * wanted)


def test_tension_straightens_a_beam():
    """Uniform load and tension: M = q / k^2 (1 - 1 / cosh(k L / 2)), less than a tenth of first order here."""
    N, q, L = 20 * EULER, 2.0, GIVEN["L"]
    k = np.sqrt(N / (GIVEN["E"] * GIVEN["I"]))
    loads = [*pressed(-N)["one"], SpreadOnMember("column", (q, 0, 0))]
    found = second_order(column("x z", "x"), {"one": loads})
    wanted = q / k**2 * (1 - 1 / np.cosh(k * L / 2))
    assert wanted < 0.1 * q * L**2 / 8
    assert abs(found.value("My", "column", L / 2)) == close(wanted, 0.005)


@pytest.mark.parametrize("how", ["bow", "polygon"])
def test_initial_bow(how):
    """ST-05: a sine bow grows by 1 / (1 - N / N_cr), given as a bow or drawn as a polygon of twenty members."""
    given, wanted, tolerance = case("ST-05")
    L, e0, N = given["L"], given["e0"], given["N"]
    assert close(wanted["amplification"], tolerance) == 1 / (1 - N / EULER)
    if how == "bow":
        found = second_order(column("x z", "x"), pressed(N), bows={"column": (0.0, e0)})
        moment = found.extremes("My", "column").largest.value
    else:
        z = np.linspace(0, L, 21)
        names = ["foot", *(f"n{k}" for k in range(1, 20)), "head"]
        nodes = {n: (e0 * float(np.sin(np.pi * v / L)), 0.0, float(v)) for n, v in zip(names, z, strict=True)}
        members = [member(f"m{k}", names[k], names[k + 1], given["I"], 1e6) for k in range(20)]
        frame = Frame(nodes, members, [Support("foot", "x z"), Support("head", "x")], plane="xz")
        moment = second_order(frame, pressed(N)).extremes("My", "m9").largest.value
        assert abs(solve(frame, pressed(N)).extremes("My", "m9").largest.value) == close(wanted["M_I"], tolerance)
    assert abs(moment) == close(wanted["M_II"], tolerance)


def test_swaying_cantilever_against_its_closed_form():
    """A leaning force on a flagpole: M at the foot = H tan(k L) / k."""
    N, H, L = 0.4 * EULER / 4, 1e3, GIVEN["L"]
    k = np.sqrt(N / (GIVEN["E"] * GIVEN["I"]))
    found = second_order(column("x z ry", ""), {"one": [NodeLoad("head", (H, 0, -N))]})
    assert abs(found.value("My", "column", 0.0)) == close(H * np.tan(k * L) / k, 0.001)
    assert found.displacement("head")[0] == close(H / N * (np.tan(k * L) / k - L), 0.001)
    assert abs(found.reaction("foot")[4]) == close(H * np.tan(k * L) / k, 0.001)


def test_second_order_without_axial_force_is_first_order():
    """A beam that carries no axial force gives the same moments and deflections both ways, with joints and zones."""
    soft = Joint(ry=2e10, offset=120.0)
    frame = Frame(
        {"a": (0, 0, 0), "b": (2000, 0, 0)},
        [member("m", "a", "b", 5e7, 1e5, 3e3, at_start=soft, at_end=Joint(offset=80.0))],
        [Support("a", "x z ry"), Support("b", "z ry")],
        plane="xz",
    )
    loads = {"one": [PointOnMember("m", 700.0, (0, 0, -4e4)), SpreadOnMember("m", (0, 0, -9.0), 300.0)]}
    first, second = solve(frame, loads), second_order(frame, loads)
    x = np.linspace(0, 2000, 21)
    assert second.value("My", "m", x) == pytest.approx(first.value("My", "m", x), abs=1e-3)
    assert second.deflection("m", x)[2] == pytest.approx(first.deflection("m", x)[2], abs=1e-9)


def test_second_order_diagram_meets_the_end_forces():
    """With thrust, joints, zones and a moment load the diagram still ends on the end moments at both nodes."""
    soft = Joint(ry=2e10, offset=120.0)
    frame = Frame(
        {"a": (0, 0, 0), "b": (2000, 0, 0)},
        [member("m", "a", "b", 2e6, 2e3, 9e2, at_start=soft, at_end=Joint(offset=80.0))],
        [Support("a", "x z ry"), Support("b", "z", {"ry": 1e8})],
        plane="xz",
    )
    loads = [PointOnMember("m", 700.0, (0, 0, -4e3), (0, 5e5, 0)), NodeLoad("b", (-2e5, 0, 0))]
    found = second_order(frame, {"one": loads})
    start, end = found.end_forces("m")
    size = abs(found.extremes("My", "m").largest.value)
    assert found.value("My", "m", 0.0) == pytest.approx(start[4], abs=1e-9 * size)
    assert found.value("My", "m", 2000.0) == pytest.approx(-end[4], abs=1e-6 * size)
    x = np.linspace(1.0, 1999.0, 400)
    jumps = np.abs(np.diff(found.value("My", "m", x)))
    assert np.sort(jumps)[-2] < 0.03 * size
    assert jumps.max() == pytest.approx(5e5, rel=0.05)


def test_beyond_the_critical_load_is_refused():
    """Second order has no answer there: the case is named."""
    with pytest.raises(Mechanism) as caught:
        second_order(column("x z", "x"), pressed(1.05 * EULER))
    assert str(caught.value) == 'case "one": the load is beyond the elastic critical load of the frame'


def test_a_bow_of_an_unknown_member_is_named():
    """The nearest member is offered."""
    with pytest.raises(InputError) as caught:
        second_order(column("x z", "x"), pressed(1e3), bows={"colunm": (0.0, 5.0)})
    assert 'bows: "colunm" is not defined' in str(caught.value) and 'try:    bows = "column"' in str(caught.value)


def test_many_cases_of_a_ring_in_second_order():
    """The jack pulls the uprights straight: corner moments fall a little, and the names stay those of the frame."""
    given = case("FR-01")[0]
    frame = ring(given, area=6000.0)
    cases = {f"{P:g}": [NodeLoad("head left", (0, 0, P)), NodeLoad("bed left", (0, 0, -P))] for P in (1e5, 3e5)}
    found = second_order(frame, cases)
    assert found.cases == ("100000", "300000")
    assert found.stations("left")[0] == 0.0 and found.stations("left")[-1] == 1200.0
    for name, P in (("100000", 1e5), ("300000", 3e5)):
        assert found.value("N", "left", 600.0, name) == pytest.approx(P, rel=0.02)


def bound(frame, loads):
    """The lower bound for the axial forces of one case."""
    result = solve(frame, {"one": loads})
    structure = result.structure
    names = structure.member_index
    return lower_bound(structure, np.array([result.extremes("N", name).least.value for name in names]))


@pytest.mark.parametrize("shear", [None, 200.0])
@pytest.mark.parametrize("ends", list(ENDS))
def test_the_bound_of_a_column_is_near_its_critical_load(ends, shear):
    """Never above it; near it but for a propped column, where one piece a member is far too stiff."""
    frame = column(*ENDS[ends], shear=shear)
    exact = critical(frame, pressed(1e3))["one"].factor
    assert (0.3 if ends == "fixed_pin" else 0.6) * exact < bound(frame, pressed(1e3)["one"]) <= exact * 1.001


# Derived: the bound against the eigenvalue of the frame cut into pieces.
@settings(max_examples=40, deadline=None)
@given(frame=frames(), push=st.tuples(*[st.floats(-1e4, 1e4)] * 3))
def test_the_bound_of_a_frame_is_never_above_its_critical_factor(frame, push):
    """Frames in space with hinges, springs, sliding joints and rigid zones."""
    loads = [NodeLoad(name, push) for name in frame.nodes]
    try:
        exact = critical(frame, {"one": loads})["one"].factor
    except Mechanism:
        assume(False)
    assert bound(frame, loads) <= exact * 1.002


# Derived: u cot u + 3 - u^2 / 3 = 0 with u = (L / 2) sqrt(P / E I); 18.7 E I / L^2.
def test_a_column_pressed_from_its_middle_down():
    """Pinned at both ends, the force half way up: its upper half carries none of it."""
    from scipy.optimize import brentq

    root = brentq(lambda u: u / np.tan(u) + 3 - u**2 / 3, 1.8, 2.6)
    wanted = 4 * root**2 * GIVEN["E"] * GIVEN["I"] / GIVEN["L"] ** 2
    frame = column(*ENDS["pin_pin"])
    loads = [PointOnMember("column", GIVEN["L"] / 2, (0, 0, -1e3))]
    assert 1e3 * critical(frame, {"one": loads})["one"].factor == close(wanted, 0.001)
    bent = second_order(frame, {"one": [*loads, PointOnMember("column", GIVEN["L"] / 4, (1.0, 0, 0))]})
    assert bent.value("N", "column", 0.3 * GIVEN["L"]) == pytest.approx(-1e3)
    assert bent.value("N", "column", 0.7 * GIVEN["L"]) == pytest.approx(0.0, abs=1e-6)
