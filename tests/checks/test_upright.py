"""The upright: tension, tension with bending, holes, and what cannot occur."""

import math

import pytest

from structcheck.checks.basis import GREATEST, RATED, ULTIMATE, Basis, from_rated
from structcheck.checks.member_stress import Station
from structcheck.checks.upright import Upright, UprightLoads, check_upright
from structcheck.errors import InputError
from structcheck.materials.steels import find_steel
from structcheck.questions import check_press
from structcheck.shapes.built_up import welded_t
from structcheck.shapes.library import look_up
from structcheck.shapes.pair import side_by_side
from tests.printed import printed
from tests.reference.reading import case


def upright(name, steel="S235", **more):
    """An upright of a library section."""
    section = look_up(name).section
    return Upright("upright", section, find_steel(steel, route=section.route), length=950.0, **more)


def asked(part, loads, basis=None):
    """(findings by name, outcome)."""
    outcome = check_upright(part, loads, basis or Basis())
    return {f.check: f for f in outcome.findings}, outcome


def pulled(pull, moment=0.0):
    """The three central cases of a pull at rated force."""
    return from_rated(Basis(), lambda case, k: UprightLoads(case, k * pull, k * moment))


def test_the_press_upright_of_the_reference():
    """BC-07 (derived): 0.555 by the factor on all forces, 0.28 by the clause."""
    given, expected = case("members", "BC-07")
    part = upright("RHS 150x100x6.3 hot", "S355")
    found, outcome = asked(part, [UprightLoads(ULTIMATE, given["N"], given["M_y"])])
    finding = found["axial and bending"]
    assert finding.utilisation == printed(expected["utilisation"])
    assert finding.clause_ratio == pytest.approx(expected["clause"], rel=2e-3)
    assert found["axial"].utilisation == pytest.approx(expected["n"], rel=2e-3)
    assert any(n.check == "flexural buckling" for n in outcome.does_not_apply)


def test_the_elastic_stress_adds_pull_and_bending():
    """BC-07 (derived): 0.664 of f_y for the same forces."""
    given, expected = case("members", "BC-07")
    part = upright("RHS 150x100x6.3 hot", "S355")
    found, _ = asked(part, [UprightLoads(GREATEST, given["N"], given["M_y"])])
    assert found["yield at greatest force"].utilisation == pytest.approx(expected["elastic"], rel=2e-3)


def test_two_flats_with_a_bolt_hole():
    """2 FL 80x10, 18 mm hole: N_u = 0.9 A_net f_u / 1.25 by hand; the stress is that of the net section (derived)."""
    part = upright("FL 80x10", pieces=2, hole=18.0)
    found, outcome = asked(part, pulled(39e3))
    A_net = 2 * 10 * (80 - 18)
    assert found["net section"].capacity.value == pytest.approx(0.9 * A_net * 360 / 1.25)
    assert found["net section"].demand.value == pytest.approx(1.5 * 39e3)
    assert found["axial"].capacity.value == pytest.approx(2 * 800 * 235)
    assert found["yield at greatest force"].demand.value == pytest.approx(1.25 * 39e3 / A_net)
    assert "plate with ordinary bolts" in found["fatigue"].reason
    assert outcome.times_on_yield[0].value == pytest.approx(235 * A_net / 39e3)


def test_without_holes_the_net_section_does_not_apply():
    """It is named, not left out."""
    _, outcome = asked(upright("FL 80x10"), pulled(39e3))
    assert {n.check for n in outcome.does_not_apply} == {
        "net section",
        "flexural buckling",
        "lateral torsional buckling",
        "axial and bending",
    }


def test_a_pushed_flat_buckles_long_before_it_yields():
    """FL 80x10, 950 mm: pi^2 E I_z / L^2 is 15.3 kN of 188 kN."""
    for push, verdict in ((10e3, "holds"), (16e3, "fails")):
        found, _ = asked(upright("FL 80x10"), [UprightLoads(ULTIMATE, -push), UprightLoads(RATED, -0.7 * push)])
        assert found["flexural buckling"].verdict == verdict
        assert found["axial"].utilisation < 0.1


def test_more_tension_never_helps_by_a_better_class():
    """A slender tube bent as a class 3 or 4 section stays so however hard it is pulled."""
    part = upright("RHS 200x100x4", "S355")
    bent = {
        pull: asked(part, [UprightLoads(ULTIMATE, pull, 25e6)])[0]["axial and bending"].utilisation
        for pull in (1.0, 1e5, 3e5)
    }
    assert bent[1.0] < bent[1e5] < bent[3e5]


@pytest.mark.parametrize("more", [{"hole": 90.0}, {"hole": -1.0}, {"hole": 18.0, "holes": 5}])
def test_holes_that_leave_nothing_are_refused(more):
    """A hole wider than the flat is an error of input."""
    with pytest.raises(InputError, match="leaves no section"):
        check_upright(upright("FL 80x10", **more), pulled(1e3), Basis())


E, G = 210e3, 210e3 / 2.6


def bent(name, M, steel="S235", length=950.0, **more):
    """An upright under a moment alone."""
    section = look_up(name).section
    part = Upright("u", section, find_steel(steel, route=section.route), length=length)
    outcome = check_upright(part, [UprightLoads(ULTIMATE, 0.0, M, **more)], Basis())
    return {f.check: f for f in outcome.findings}, outcome


# Timoshenko and Gere (memory): a strip under uniform moment, M_cr = pi / L sqrt(EI_z GI_t); curve d of 6.3.2.2.
def test_a_flat_upright_bent_on_edge_buckles_sideways():
    """FL 80x10, 950 mm: recomputed by hand."""
    found, outcome = bent("FL 80x10", 1e6)
    I_z, I_t = 80 * 10**3 / 12, 80 * 10**3 / 3 * (1 - 0.63 / 8)
    M_cr = math.pi / 950 * math.sqrt(E * I_z * G * I_t)
    lam = math.sqrt(80**2 * 10 / 4 * 235 / M_cr)
    phi = 0.5 * (1 + 0.76 * (lam - 0.2) + lam**2)
    chi = 1 / (phi + math.sqrt(phi**2 - lam**2))
    buckling = found["lateral torsional buckling"]
    # The package counts the strip's small warping too.
    assert buckling.capacity.value == pytest.approx(chi * 16000 * 235, rel=0.01)
    assert buckling.utilisation > 1.5 * found["bending"].utilisation
    assert any("held sideways and against twisting" in a.text for a in outcome.assumptions)


def test_a_moment_across_uses_what_buckling_sideways_leaves():
    """Both add up; doubling both doubles it; tubes and rounds do not buckle so."""
    one, both, twice = (
        bent("FL 80x10", k * 1e6, moment_z=m)[0]["lateral torsional buckling"]
        for k, m in ((1, 0.0), (1, 5e4), (2, 1e5))
    )
    assert both.utilisation == pytest.approx(one.utilisation + 5e4 / (80 * 100 / 4 * 235))
    assert twice.utilisation == pytest.approx(2 * both.utilisation)
    _, outcome = bent("SHS 60x60x4", 1e6)
    assert "lateral torsional buckling" in {n.check for n in outcome.does_not_apply}


def test_an_angle_upright_buckles_by_its_own_stability():
    """Judged with both moments; a class 4 leg is refused."""
    alone, both = (bent("L 80x80x8", 1e6, moment_z=m)[0]["lateral torsional buckling"] for m in (0.0, 2e5))
    assert alone.verdict == "holds" and both.utilisation > alone.utilisation
    assert alone.utilisation > bent("L 80x80x8", 1e6)[0]["bending"].utilisation


def test_a_pushed_upright_buckles_by_the_curve_of_its_route():
    """SHS 60x60x4 cold formed, curve c, 950 mm, 40 kN (EN 1993-1-1 6.3.1 by hand); a pulled one does not."""
    section = look_up("SHS 60x60x4").section
    part = Upright("u", section, find_steel("S235", route=section.route), length=950.0)
    outcome = check_upright(part, [UprightLoads(ULTIMATE, -40e3, 5e5)], Basis())
    found = {f.check: f for f in outcome.findings}
    lam = math.sqrt(section.A * 235 / (math.pi**2 * E * section.Iy / 950**2))
    phi = 0.5 * (1 + 0.49 * (lam - 0.2) + lam**2)
    chi = 1 / (phi + math.sqrt(phi**2 - lam**2))
    assert found["flexural buckling"].capacity.value == pytest.approx(chi * section.A * 235)
    assert found["buckling with bending"].verdict == "holds"
    assert found["axial"].demand.value == 40e3
    longer = Upright("u", section, part.steel, length=950.0, buckling_length_across=1900.0)
    other = {f.check: f for f in check_upright(longer, [UprightLoads(ULTIMATE, -40e3)], Basis()).findings}
    assert other["flexural buckling"].capacity.value < found["flexural buckling"].capacity.value
    assert "about z" in other["flexural buckling"].reason


def test_uprights_of_plates_and_pairs_buckle_sideways_too():
    """A T by its own stability; a tied pair as its two pieces."""
    tee = Upright("u", welded_t(120.0, 100.0, 8.0, 10.0), find_steel("S235"), length=950.0)
    found = {f.check: f for f in check_upright(tee, [UprightLoads(ULTIMATE, 0.0, 2e6)], Basis()).findings}
    assert found["lateral torsional buckling"].utilisation >= found["bending"].utilisation
    section = look_up("UPN 120").section
    pair = Upright("u", side_by_side(section, 10.0), find_steel("S235"), length=950.0)
    two = Upright("u", section, find_steel("S235"), pieces=2, length=950.0)
    one, other = (
        {f.check: f for f in check_upright(part, [UprightLoads(ULTIMATE, 0.0, 5e6)], Basis()).findings}
        for part in (pair, two)
    )
    check = "lateral torsional buckling"
    assert one[check].utilisation == pytest.approx(other[check].utilisation)


@pytest.mark.parametrize("moments", [{"moment": "4 kN m"}, {"moment_across": "2 kN m"}])
def test_a_moment_either_way_round_is_the_same_question(moments):
    """Nobody is asked which side of a channel or T is compressed: the worse counts."""
    shapes = [
        {"shape": "channel", "h": "300 mm", "b": "80 mm", "tw": "3 mm", "tf": "6 mm"},
        {"shape": "t", "h": "160 mm", "b": "100 mm", "tw": "6 mm", "tf": "10 mm"},
        {"shape": "welded i", "h": "300 mm", "b": "180 mm", "tw": "4 mm", "tf": "5 mm", "b_bottom": "60 mm"},
    ]
    for shape in shapes:
        own = shape | {"name": "own", "throat": "3 mm", "inspected": True}
        if shape["shape"] == "welded i":
            own["tf_bottom"] = "10 mm"
        uses = []
        for sign in ("", "-"):
            part = {"name": "upright", "section": "own", "steel": "S235", "length": "600 mm", "pull": "20 kN"}
            part |= {key: sign + value for key, value in moments.items()}
            press = {"schema": 1, "title": "t", "jack": {"rating": "2 t"}, "section": [own], "upright": [part]}
            uses.append({f.check: f.utilisation for f in check_press(press).findings})
        assert uses[0] == uses[1]


def across(name, steel="S235", pull=0.0, **holes):
    """Findings of a member bent across by 0.3 kN m at every level."""
    loads = from_rated(Basis(), lambda case, k: UprightLoads(case, k * pull, 0.0, k * 0.3e6))
    return asked(upright(name, steel, **holes), loads)[0]


def test_a_hole_through_a_flat_takes_its_share_of_the_bending_across():
    """Derived: 62 of 80 mm are left, elastic and plastic; a flat of 225 MPa passed with 290 MPa at its hole."""
    found, whole = across("FL 80x10", hole=18.0), across("FL 80x10")
    assert found["bending"].capacity.value == pytest.approx(62 * 10**2 / 4 * 235)
    assert found["yield at greatest force"].demand.value == pytest.approx(1.25 * 0.3e6 / (62 * 10**2 / 6))
    assert whole["bending"].capacity.value == pytest.approx(80 * 10**2 / 4 * 235)


@pytest.mark.parametrize(
    ("name", "holes", "gone"),
    [
        ("SHS 80x80x5", {"hole": 18.0, "holes": 2}, [(18 * 5, 37.5, 5), (18 * 5, -37.5, 5)]),  # both side walls
        ("SHS 80x80x5", {"hole": 18.0}, [(18 * 5, 37.5, 5)]),
        (
            "HEA 140",
            {"hole": 18.0, "holes": 2, "hole_offset": 62.0},
            [(18 * 8.5, 48.4, 18), (18 * 8.5, -48.4, 18)],  # in a flange, 1.2 x 18 mm from its edges
        ),
        ("HEA 140", {"hole": 18.0}, [(18 * 5.5, 0.0, 5.5)]),
        ("UPN 120", {"hole": 18.0}, [(18 * 7, None, 7)]),  # in the web
        ("CHS 114.3x5", {"hole": 18.0, "holes": 2}, [(18 * 5, 54.65, 5), (18 * 5, -54.65, 5)]),
    ],
)
def test_what_holes_leave_for_the_elastic_stress_across(name, holes, gone):
    """Derived: I_z less the holes' about the centroid that is left, by (area, place, width) of each; with a pull."""
    section = look_up(name).section
    left, right = section.edges[:2]
    gone = [(area, left + width / 2 if y is None else y, width) for area, y, width in gone]
    A = section.A - sum(area for area, _, _ in gone)
    shift = abs(sum(area * y for area, y, _ in gone)) / A
    I_z = section.Iz - sum(area * (y**2 + width**2 / 12) for area, y, width in gone) - A * shift**2
    edge = max(-left, right) + shift
    alone = across(name, **holes)["yield at greatest force"].demand.value
    assert alone == pytest.approx(1.25 * 0.3e6 / I_z * edge, rel=1e-6)
    if not holes.get("hole_offset"):  # which moves the centroid along the depth as well
        pulled_too = across(name, pull=20e3, **holes)["yield at greatest force"].demand.value
        assert pulled_too == pytest.approx(1.25 * (20e3 / A + (0.3e6 + 20e3 * shift) / I_z * edge), rel=1e-6)


def test_holes_leave_no_more_than_their_share_of_the_plastic_modulus_across():
    """Derived: both side walls of a tube, 2 x 18 x 5 mm at 37.5 mm from the axis."""
    section = look_up("SHS 80x80x5").section
    left = across("SHS 80x80x5", hole=18.0, holes=2)["bending"].capacity.value / 235
    assert left == pytest.approx(section.Wpl_z - 2 * 18 * 5 * 37.5)


@pytest.mark.parametrize("told", [{"holes": 2}, {"hole_offset": 30.0}])
def test_holes_of_no_size_are_no_answer(told):
    """They counted as none."""
    with pytest.raises(InputError) as refused:
        across("HEA 140", **told)
    assert [problem.key for problem in refused.value.problems] == ["hole"]


@pytest.mark.parametrize(
    ("name", "twist", "told"), [("UPN 120", 0.0, True), ("UPN 120", 1e6, False), ("IPE 120", 0.0, False)]
)
def test_a_channel_that_bears_shear_in_its_web_is_a_condition(name, twist, told):
    """EN 1993-1-1 6.2.7 (memory): beside the shear centre it twists; nobody says where an upright's shear stands."""
    row = Station(ULTIMATE, "x = 0 mm", N=20e3, V_z=5e3, M_y=1e6, B=twist)
    outcome = check_upright(upright(name), [UprightLoads(ULTIMATE, 20e3, 1e6)], Basis(), [row])
    assert any("through the shear centre" in a.condition for a in outcome.assumptions) is told
