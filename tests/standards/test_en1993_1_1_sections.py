"""Classes and cross-sections of EN 1993-1-1 against published and derived values; sources stand in members.toml."""

import numpy as np
import pytest

from structcheck.checks.basis import ULTIMATE, Basis
from structcheck.checks.member_class import internal_limits, outstand_limits, section_class
from structcheck.checks.member_holes import Holes, Net, flange_holes_count
from structcheck.checks.section_resistance import Station, check_member_section
from structcheck.materials.steels import find_steel
from structcheck.shapes.built_up import welded_i, welded_t
from structcheck.shapes.hollow import Hollow, hot_radii
from structcheck.shapes.library import look_up
from structcheck.shapes.rolled import RolledI
from structcheck.shapes.shape import Element
from structcheck.standards.en1993_1_1 import classification, cross_section, net_section
from tests.printed import printed
from tests.reference.reading import case


def rolled(given):
    """A rolled I of a case."""
    return RolledI(*(given[name] for name in ("h", "b", "tw", "tf", "r")))


def hot(given):
    """A hot-finished hollow section of a case."""
    return Hollow(given["h"], given.get("b", given["h"]), given["t"], *hot_radii(given["t"]))


def ratios(classified):
    """Slenderness of each part by role."""
    return {part.element.role: float(part.slenderness) for part in classified.parts}


def test_a_rolled_i_in_bending_is_class_1():
    """CL-01: c is measured from the root radius."""
    given, expected = case("members", "CL-01")
    found = section_class(rolled(given), given["f_y"], M_y=1.0)
    assert classification.epsilon(given["f_y"]) == printed(expected["epsilon"])
    assert {p.element.role: float(p.element.c) for p in found.parts} == {
        "flange": printed(expected["flange_c"]),
        "web": printed(expected["web_c"]),
    }
    assert ratios(found) == {"flange": printed(expected["flange_ratio"]), "web": printed(expected["web_ratio"])}
    assert found.number == expected["number"]


def test_the_same_section_is_class_4_in_compression():
    """CL-02: a class belongs to a section and a state of stress."""
    given, expected = case("members", "CL-02")
    found = section_class(rolled(given), given["f_y"], N=1.0)
    web = found.parts[-1]
    assert float(web.slenderness) == printed(expected["web_ratio"])
    assert float(web.limits[2]) == printed(expected["limit_class3"])
    assert found.number == expected["number"]


def test_weld_legs_shorten_the_parts_of_a_welded_i():
    """CL-04: limits and ratios; without the welds the ratios are larger, never more favourable."""
    given, expected = case("members", "CL-04")
    epsilon = classification.epsilon(given["f_y"])
    assert epsilon == printed(expected["epsilon"])
    assert given["flange_c"] / given["tf"] == printed(expected["flange_ratio"])
    assert given["web_c"] / given["tw"] == printed(expected["web_ratio"])
    flange, web = outstand_limits(1.0, epsilon, True), internal_limits(0.5, -1.0, epsilon)
    assert [float(limit) for limit in flange] == [printed(text) for text in expected["flange_limits"]]
    assert [float(limit) for limit in web] == [printed(text) for text in expected["web_limits"]]
    bare = section_class(welded_i(400, 200, 8, 15), given["f_y"], M_y=1.0)
    assert ratios(bare)["flange"] > given["flange_c"] / given["tf"]
    assert ratios(bare)["web"] > given["web_c"] / given["tw"]
    assert bare.number == expected["number"]


def test_a_tube_can_be_class_1_as_a_beam_and_class_4_as_a_strut():
    """CL-05: c = b - 3t."""
    given, expected = case("members", "CL-05")
    tube = hot(given)
    bent = section_class(tube, given["f_y"], M_y=1.0)
    assert ratios(bent) == {"flange": printed(expected["flange_ratio"]), "web": printed(expected["web_ratio"])}
    assert bent.number == expected["bending"]
    assert section_class(tube, given["f_y"], N=1.0).number == expected["compression"]


def test_axial_force_and_moment_take_alpha_and_psi():
    """CL-07: alpha from the plastic stress blocks, psi from the elastic stresses when the edge yields."""
    given, expected = case("members", "CL-07")
    shape = rolled(given)
    # psi of the case belongs to the moment that, with N, brings the web's more compressed end to f_y.
    direct = given["N"] / shape.A
    M_y = (given["f_y"] - direct) * shape.Iy / (shape.hw / 2 - shape.r)
    found = section_class(shape, given["f_y"], N=given["N"], M_y=M_y)
    web = found.parts[-1]
    assert float(web.element.c) == printed(expected["c"])
    assert float(web.slenderness) == printed(expected["ratio"])
    assert [float(limit) for limit in web.limits] == [
        pytest.approx(float(expected[f"limit_{number}"]), rel=2e-3) for number in (1, 2, 3)
    ]
    assert float(web.psi) == pytest.approx(float(expected["psi"]), rel=2e-3)
    assert int(web.number) == expected["number"]
    assert section_class(shape, given["f_y"], N=given["N"]).number == 4


def test_the_limits_are_those_of_2005():
    """CL-08: a tube that the later edition would call class 3 is class 2."""
    given, expected = case("members", "CL-08")
    found = section_class(hot(given), given["f_y"], N=1.0)
    assert float(found.parts[0].slenderness) == printed(expected["ratio"])
    assert [float(limit) for limit in found.parts[0].limits] == [printed(text) for text in expected["limits"]]
    assert found.number == expected["number"]


def test_classes_are_tried_in_order():
    """An outstand whose class 3 limit is the smaller one is still class 2 where the class 2 limit holds it."""
    from structcheck.checks.member_class import Part

    part = Part(Element("leg", "outstand", 95.0, 10.0, (0, 0), (0, 0)), 9.5, (9.0, 10.0, 9.2), 1.0)
    assert int(part.number) == 2


def test_round_tubes_take_epsilon_squared():
    """CHS 168.3x5 in S355: d/t 33.7 lies between 50 and 70 epsilon^2 (EN 1993-1-1:2005 Table 5.2 sheet 3)."""
    found = section_class(look_up("CHS 168.3x5").section, 355.0, M_y=1.0)
    assert [float(limit) for limit in found.parts[0].limits] == [printed("33.1"), printed("46.3"), printed("59.6")]
    assert found.number == 2


def test_angles_have_two_criteria():
    """L 80x80x8: in S235 h/t 10 and (b+h)/2t 10 fit 15 and 11.5 epsilon; in S355 the second does not."""
    angle = look_up("L 80x80x8").section
    assert section_class(angle, 235.0, N=1.0).number == 3
    assert section_class(angle, 355.0, N=1.0).number == 4
    assert section_class(angle, 355.0, N=-1.0).number == 1


def test_class_4_leg_of_a_thick_angle_stays_whole():
    """LEG-01: rho is 1.0, the 0.915 of a published example is not believed."""
    from structcheck.checks.member_effective import effective
    from structcheck.shapes.angles import Angle

    given, expected = case("members", "LEG-01")
    angle = Angle(given["h"], given["h"], given["t"], 16.0, 8.0)
    assert effective(angle, given["f_y"], N=1.0).rho == expected["rho"]


def test_bending_of_a_hollow_section():
    """CS-01: both axes and N_pl."""
    given, expected = case("members", "CS-01")
    tube, f_y = hot(given), given["f_y"]
    assert cross_section.plastic_bending_resistance(tube.Wpl_y, f_y, 1.0) / 1e6 == pytest.approx(
        expected["M_y_kNm"], rel=3e-3
    )
    assert cross_section.plastic_bending_resistance(tube.Wpl_z, f_y, 1.0) / 1e6 == pytest.approx(
        expected["M_z_kNm"], rel=3e-3
    )
    assert cross_section.plastic_axial_resistance(tube.A, f_y, 1.0) / 1e3 == pytest.approx(expected["N_kN"], rel=3e-3)


def test_class_3_has_no_plastic_moment():
    """CS-03: elastic resistance, the plastic one not allowed; flange and web ratios from the weld toes."""
    given, expected = case("members", "CS-03")
    leg = given["throat"] * 2**0.5
    epsilon = classification.epsilon(given["f_y"])
    flange = ((given["b"] - given["tw"]) / 2 - leg) / given["tf"]
    web = (given["h"] - 2 * given["tf"] - 2 * leg) / given["tw"]
    assert flange == printed(expected["flange_ratio"])
    assert web == pytest.approx(float(expected["web_ratio"]), rel=2e-5)
    limits = outstand_limits(1.0, epsilon, True)
    assert limits[1] < flange <= limits[2]
    limits = internal_limits(0.5, -1.0, epsilon)
    assert limits[0] < web <= limits[1]
    section = welded_i(given["h"], given["b"], given["tw"], given["tf"])
    assert section.Wel_y / 1e3 == printed(expected["W_el_cm3"])
    assert cross_section.elastic_bending_resistance(section.Wel_y, given["f_y"], 1.0) / 1e6 == printed(
        expected["M_kNm"]
    )
    assert cross_section.plastic_bending_resistance(section.Wpl_y, given["f_y"], 1.0) / 1e6 == printed(
        expected["M_pl_kNm"]
    )
    member = check_member_section("b", section, find_steel("S355"), 1, [Station(ULTIMATE, "here", M_y=100e6)], Basis())
    assert member.findings[0].capacity.value / 1e6 == printed(expected["M_kNm"])
    assert "class 3" in member.findings[0].reason


def test_shear_of_a_channel_counts_one_root():
    """CS-05."""
    given, expected = case("members", "CS-05")
    A_v = given["A"] - 2 * given["b"] * given["tf"] + (given["tw"] + given["r"]) * given["tf"]
    assert A_v == printed(expected["A_v"])
    assert cross_section.plastic_shear_resistance(A_v, given["f_y"], 1.0) / 1e3 == printed(expected["V_kN"])


def test_shear_areas():
    """CS-07: by shape; eta 1.0 is always safe."""
    _, expected = case("members", "CS-07")
    ipe = RolledI(330.0, 160.0, 7.5, 11.5, 18.0)
    tube = hot({"h": 150.0, "b": 100.0, "t": 6.3})
    welded = welded_i(400, 200, 8, 15)
    found = {
        "rolled_i": ipe.shear_area("z"),
        "rolled_i_floor_1_2": 1.2 * ipe.hw * ipe.tw,
        "welded_i": welded.shear_area("z"),
        "welded_i_1_2": welded.shear_area("z", 1.2),
        "rhs_depth": tube.shear_area("z"),
        "rhs_width": tube.shear_area("y"),
        "chs": look_up("CHS 168.3x5").section.shear_area("z"),
        "flat": look_up("FL 120x20").section.shear_area("z"),
        "welded_t": welded_t(100, 100, 8, 10).shear_area("z"),
    }
    assert found == {name: pytest.approx(value, rel=1e-3) for name, value in expected.items()}


@pytest.mark.parametrize(("eta", "mark"), [(1.2, ""), (1.0, "_eta_1")])
def test_bending_with_high_shear(eta, mark):
    """CS-08: eta decides the shear area and with it rho."""
    given, expected = case("members", "CS-08")
    beam, f_y = rolled(given), given["f_y"]
    A_v = beam.shear_area("z", eta)
    V_pl = cross_section.plastic_shear_resistance(A_v, f_y, 1.0)
    rho = cross_section.shear_reduction(given["V"], V_pl)
    M_V = cross_section.bending_resistance_with_shear(beam.Wpl_y, rho, beam.hw * beam.tw, beam.tw, f_y, 1.0)
    assert [A_v, V_pl / 1e3, M_V / 1e6] == [
        pytest.approx(expected[name + mark], rel=5e-3) for name in ("A_v", "V_kN", "M_V_kNm")
    ]
    assert rho == pytest.approx(expected["rho" + mark], abs=5e-3)
    assert given["M"] < M_V


def test_high_shear_is_judged_by_the_factor_on_all_forces():
    """CS-08: M and V grown by 1 / utilisation just meet the clause; the clause's own ratio stands beside it."""
    given, expected = case("members", "CS-08")
    from structcheck.shapes.section import Section

    section = Section("UB", "", "", "rolled", {}, geometry=rolled(given))
    station = Station(ULTIMATE, "here", V_z=given["V"], M_y=given["M"])
    outcome = check_member_section("b", section, find_steel("S275"), 1, [station], Basis(eta=1.2))
    finding = next(f for f in outcome.findings if f.check == "bending and shear")
    k, V_pl = 1 / finding.utilisation, expected["V_kN"] * 1e3
    rho = cross_section.shear_reduction(k * given["V"], V_pl)
    M_V = cross_section.bending_resistance_with_shear(
        section.Wpl_y, rho, section.shape.hw * 9.5, 9.5, given["f_y"], 1.0
    )
    assert k * given["M"] == pytest.approx(M_V, rel=2e-3)
    assert finding.clause_ratio == pytest.approx(given["M"] / 1e6 / expected["M_V_kNm"], rel=5e-3)


def test_biaxial_bending_with_axial_force():
    """CS-10: 0.611 by the factor on all forces, 0.26 by the clause."""
    given, expected = case("members", "CS-10")
    tube, f_y = hot(given), given["f_y"]
    n = cross_section.axial_share(given["N"], tube.A * f_y)
    a_w = cross_section.web_share_of_hollow(tube.A, tube.b, tube.t)
    a_f = cross_section.flange_share_of_hollow(tube.A, tube.h, tube.t)
    M_y, M_z = (
        cross_section.bending_resistance_with_axial(W * f_y, n, a) for W, a in ((tube.Wpl_y, a_w), (tube.Wpl_z, a_f))
    )
    exponent = cross_section.hollow_exponent(n)
    ratio = cross_section.biaxial_ratio(given["M_y"], M_y, exponent, given["M_z"], M_z, exponent)
    assert [n, a_w, a_f, M_y / 1e6, M_z / 1e6, exponent, ratio] == [
        pytest.approx(expected[name], rel=2e-3)
        for name in ("n", "a_w", "a_f", "M_N_y_kNm", "M_N_z_kNm", "exponent", "clause")
    ]
    section = look_up("RHS 150x100x6.3 hot").section
    station = Station(ULTIMATE, "here", N=given["N"], M_y=given["M_y"], M_z=given["M_z"])
    steel = find_steel("S355", route="hot finished")
    outcome = check_member_section("u", section, steel, 1, [station], Basis())
    finding = next(f for f in outcome.findings if f.check == "axial and bending")
    assert finding.utilisation == printed(expected["utilisation"])
    assert finding.clause_ratio == pytest.approx(expected["clause"], rel=2e-3)
    assert finding.demand.value == finding.utilisation
    assert finding.capacity.value == 1.0


def test_the_elastic_criterion_is_a_square_root():
    """CS-12: the clause compares squares; the utilisation is the root of its ratio."""
    given, expected = case("members", "CS-12")
    stress = cross_section.von_mises_stress(given["sigma"], given["tau"])
    assert stress == pytest.approx(expected["sigma_eq"], rel=2e-3)
    assert stress / given["f_y"] == pytest.approx(expected["utilisation"], rel=2e-3)
    assert (stress / given["f_y"]) ** 2 == pytest.approx(expected["squares"], rel=2e-3)


def test_torsion_takes_its_share_of_the_shear_strength():
    """CS-13: with the W_t of the product standard 39.2 MPa; Bredt's mean wall would give 35.4 and 300.0 kN."""
    given, expected = case("members", "CS-13")
    section = look_up("RHS 150x100x6.3 hot").section
    steel = find_steel("S355", route="hot finished")
    assert given["T"] / section.Wt == pytest.approx(expected["tau_W_t"], rel=3e-3)
    station = Station(ULTIMATE, "here", V_z=given["V"], T=given["T"])
    found = {f.check: f for f in check_member_section("b", section, steel, 1, [station], Basis()).findings}
    share = expected["tau_W_t"] / (given["f_y"] / 3**0.5)
    assert found["torsion"].utilisation == pytest.approx(share, rel=3e-3)
    factor = 1 / (given["V"] / 1e3 / expected["V_pl_kN"] + share)
    assert found["shear"].utilisation == pytest.approx(1 / factor, rel=3e-3)
    # Grown by the factor, (6.28) is just met.
    V_pl_T = (1 - factor * share) * expected["V_pl_kN"]
    assert factor * given["V"] / 1e3 == pytest.approx(V_pl_T, rel=1e-9)


def test_holes_in_the_tension_flange_count():
    """CS-16: not ignorable in S355, nor in S235; net properties by hand and by `Net`."""
    given, expected = case("members", "CS-16")
    beam = rolled(given)
    A_f = given["b"] * given["tf"]
    A_f_net = A_f - given["count"] * given["hole"] * given["tf"]
    assert (A_f, A_f_net) == (expected["A_f"], expected["A_f_net"])
    assert net_section.net_flange_side(A_f_net, given["f_u"], 1.25) / 1e3 == pytest.approx(
        expected["left_kN"], rel=3e-3
    )
    assert net_section.gross_flange_side(A_f, given["f_y"], 1.0) / 1e3 == pytest.approx(expected["right_kN"], rel=3e-3)
    assert net_section.net_flange_side(A_f_net, 360.0, 1.25) / 1e3 == printed(str(expected["left_S235_kN"]))
    assert net_section.gross_flange_side(A_f, 235.0, 1.0) / 1e3 == printed(str(expected["right_S235_kN"]))
    holes = Holes(given["hole"], given["count"], (given["h"] - given["tf"]) / 2)
    assert flange_holes_count(beam, given["f_y"], given["f_u"], holes, 1.0, 1.25)
    net = Net(beam, holes)
    assert net.Iy / 1e4 == pytest.approx(expected["I_net_cm4"], rel=3e-3)
    assert net.Wel_y / 1e3 == pytest.approx(expected["W_net_cm3"], rel=3e-3)
    assert 1 - net.Wel_y / beam.Wel_y == pytest.approx(expected["loss"], rel=5e-3)


def test_sections_with_holes_are_told_apart_by_their_holes_and_themselves():
    """What is kept of one answers for another with the same holes only."""
    beam, other, holes = look_up("IPE 160").section, look_up("IPE 180").section, Holes(14.0, 2, 70.0)
    assert Net(beam, holes) == Net(beam, Holes(14.0, 2, 70.0)) and hash(Net(beam, holes)) == hash(Net(beam, holes))
    assert Net(beam, holes) != Net(beam, Holes(14.0, 2, 60.0))
    assert Net(beam, holes) != Net(other, holes)


def test_the_plastic_modulus_at_holes_is_that_of_the_fibres():
    """Net of an I with two holes in a flange against summing the fibres over the depth, to 0.2 %."""
    given, _ = case("members", "CS-16")
    beam = RolledI(given["h"], given["b"], given["tw"], given["tf"], 0.0)
    net = Net(beam, Holes(given["hole"], 2, (given["h"] - given["tf"]) / 2))
    z = np.linspace(-beam.h / 2, beam.h / 2, 200_001)
    z = (z[1:] + z[:-1]) / 2
    width = np.where(np.abs(z) > beam.hw / 2, beam.b, beam.tw)
    width = width - np.where(z < -beam.hw / 2, 2 * given["hole"], 0.0)
    area = width * (z[1] - z[0])
    axis = z[np.searchsorted(np.cumsum(area), area.sum() / 2)]
    assert np.sum(area * np.abs(z - axis)) == pytest.approx(net.Wpl_y, rel=2e-3)


def test_staggered_holes():
    """CS-18: the zig-zag governs."""
    given, expected = case("members", "CS-18")
    A, t, d_0, s, p = (given[name] for name in ("A", "t", "d_0", "s", "p"))
    assert net_section.net_area(A, 2, d_0, t) == printed(expected["line_2"])
    assert net_section.net_area_staggered(A, 3, d_0, t, 2, s, p) == printed(expected["zigzag_3"])
