"""Buckling, lateral torsional buckling and their interaction against published and derived values (members.toml)."""

import numpy as np
import pytest
from scipy.optimize import brentq

from structcheck.checks.basis import ULTIMATE, Basis
from structcheck.checks.member_buckling import Lengths, modes, table_6_2
from structcheck.checks.member_column import Column, Pressed, annex_b, check_member_column
from structcheck.checks.member_forms import E, G
from structcheck.checks.member_lateral import Segment, critical_moment, curve_of, lateral_reduction
from structcheck.errors import NotCovered
from structcheck.materials.steels import find_steel
from structcheck.shapes.built_up import welded_box, welded_i
from structcheck.shapes.library import look_up
from structcheck.shapes.rolled import RolledI
from structcheck.shapes.section import Section
from structcheck.standards.en1993_1_1 import buckling, cross_section, interaction
from structcheck.standards.en1993_1_1 import lateral_torsional as lateral
from tests.printed import printed
from tests.reference.reading import case

CURVES = ("a0", "a", "b", "c", "d")
S355 = find_steel("S355")


def chi(curve, lambda_bar):
    """Reduction factor of a curve."""
    return buckling.reduction(buckling.phi(buckling.IMPERFECTION[curve], lambda_bar), lambda_bar)


def test_ordinates_of_the_curves():
    """FB-01: five curves at five slendernesses."""
    _, expected = case("members", "FB-01")
    for slenderness, row in expected.items():
        assert [chi(curve, float(slenderness)) for curve in CURVES] == [printed(text) for text in row]


@pytest.mark.parametrize("curve", CURVES)
def test_a_curve_is_the_first_yield_of_an_imperfect_strut(curve):
    """chi solves  chi + chi eta / (1 - chi lambda^2) = 1  with eta = alpha (lambda - 0.2)."""
    for slenderness in (0.3, 0.8, 1.4, 2.5):
        eta = buckling.IMPERFECTION[curve] * (slenderness - 0.2)
        root = brentq(lambda x: x + x * eta / (1 - x * slenderness**2) - 1, 1e-9, min(1, 1 / slenderness**2) - 1e-12)  # noqa: B023
        assert chi(curve, slenderness) == pytest.approx(root, rel=1e-9)


def test_selection_of_the_curve():
    """FB-03: rows of Table 6.2, y then z."""
    _, expected = case("members", "FB-03")
    rows = (
        ("i", "rolled", {"h_b": 2.0, "t_f": 40.0}),
        ("i", "rolled", {"h_b": 1.3, "t_f": 60.0}),
        ("i", "rolled", {"h_b": 1.2, "t_f": 20.0}),
        ("i", "rolled", {"h_b": 1.0, "t_f": 120.0}),
        ("i", "welded", {"h_b": 2.0, "t_f": 40.0}),
        ("i", "welded", {"h_b": 2.0, "t_f": 41.0}),
        ("hollow", "hot finished", {}),
        ("tube", "cold formed", {}),
        ("welded box", "welded", {}),
        ("welded box", "welded", {"heavy": True}),
        ("channel", "rolled", {}),
        ("angle", "rolled", {}),
    )
    found = [table_6_2(kind, route, "y", **more) + table_6_2(kind, route, "z", **more) for kind, route, more in rows]
    assert found == expected["curves"]
    assert table_6_2("i", "rolled", "y", h_b=2.0, t_f=20.0, s460=True) == "a0"
    assert table_6_2("hollow", "hot finished", "z", s460=True) == "a0"
    assert table_6_2("rectangle", "bar", "z") == "c"
    with pytest.raises(NotCovered):
        table_6_2("i", "rolled", "y", h_b=2.0, t_f=120.0)


def test_column_of_a_published_example():
    """FB-04: HE 300 B."""
    given, expected = case("members", "FB-04")
    N_y = buckling.critical_force(E, given["I_y"], given["L_y"])
    N_z = buckling.critical_force(E, given["I_z"], given["L_z"])
    assert (N_y / 1e3, N_z / 1e3) == (
        pytest.approx(float(expected["N_cr_y_kN"]), rel=2e-3),
        pytest.approx(float(expected["N_cr_z_kN"]), rel=2e-3),
    )
    lambda_y, lambda_z = (buckling.slenderness(given["A"], given["f_y"], N) for N in (N_y, N_z))
    assert (lambda_y, lambda_z) == (printed(expected["lambda_y"]), printed(expected["lambda_z"]))
    assert buckling.phi(0.34, lambda_y) == printed(expected["phi_y"])
    assert chi("b", lambda_y) == printed(expected["chi_y"])


def test_class_4_strut():
    """FB-06: the effective area in slenderness and resistance, the gross one in N_cr."""
    given, expected = case("members", "FB-06")
    N_cr = buckling.critical_force(E, given["I_y"], given["L"])
    assert N_cr / 1e3 == printed(expected["N_cr_kN"])
    lambda_bar = buckling.slenderness(given["A_eff"], given["f_y"], N_cr)
    # The example goes on from the rounded N_cr.
    assert lambda_bar == pytest.approx(float(expected["lambda_bar"]), rel=2e-4)
    assert buckling.phi(0.21, lambda_bar) == pytest.approx(float(expected["phi"]), rel=2e-4)
    assert chi("a", lambda_bar) == printed(expected["chi"])
    N_b = buckling.buckling_resistance(chi("a", lambda_bar), given["A_eff"], given["f_y"], 1.0)
    assert N_b / 1e3 == pytest.approx(float(expected["N_b_kN"]), rel=1e-3)
    # 1477 / 1720 of the rounded figures is the 0.859 of the example; unrounded it is 0.8584.
    assert given["N"] / N_b == pytest.approx(float(expected["utilisation"]), rel=1e-3)


def test_column_with_restraints():
    """FB-08: curves b and c by h/b."""
    given, expected = case("members", "FB-08")
    for axis, curve in (("y", "b"), ("z", "c")):
        N_cr = buckling.critical_force(E, given[f"I_{axis}"], given[f"L_{axis}"])
        lambda_bar = buckling.slenderness(given["A"], given["f_y"], N_cr)
        assert N_cr / 1e3 == pytest.approx(expected[f"N_cr_{axis}_kN"], rel=3e-3)
        assert lambda_bar == pytest.approx(expected[f"lambda_{axis}"], rel=3e-3)
        assert chi(curve, lambda_bar) == pytest.approx(expected[f"chi_{axis}"], rel=3e-3)
    assert chi("b", expected["lambda_y"]) * given["A"] * given["f_y"] / 1e3 == pytest.approx(
        expected["N_b_kN"], rel=3e-3
    )


def test_a_pile_as_a_column():
    """FB-09: six lengths of a table, through the check's own modes and curves."""
    given, expected = case("members", "FB-09")
    pile = Section("pile", "", "", "rolled", {}, geometry=RolledI(*(given[n] for n in ("h", "b", "tw", "tf", "r"))))
    assert pile.A * given["f_y"] / 1e3 == pytest.approx(expected["N_pl_kN"], rel=6e-3)
    for axis in ("y", "z"):
        for length, N_b in expected[f"{axis}_kN"].items():
            lengths = Lengths(float(length), float(length), 100.0)
            mode = next(m for m in modes(pile, S355, given["f_y"], lengths) if m.about == axis)
            assert mode.N_b / 1e3 == pytest.approx(N_b, rel=6e-3)


def test_cold_forming_costs_a_fifth():
    """FB-11: curve c for the cold-formed tube, a for the hot-finished one."""
    given, expected = case("members", "FB-11")
    tube = look_up("SHS 80x80x4").section
    assert pytest.approx(expected["A_cm2"], rel=1e-3) == tube.A / 100
    lengths = Lengths(given["L"], given["L"], given["L"])
    mode = min(modes(tube, find_steel("S355", route="cold formed"), given["f_y"], lengths), key=lambda m: m.N_b)
    assert mode.curve == "c"
    assert mode.slenderness == pytest.approx(expected["lambda_bar"], rel=1e-3)
    assert mode.chi == pytest.approx(expected["chi"], rel=1e-3)
    assert mode.N_b / 1e3 == pytest.approx(expected["N_b_kN"], rel=1e-3)
    assert chi("a", mode.slenderness) * tube.A * given["f_y"] / 1e3 == pytest.approx(
        expected["N_b_hot_curve_kN"], rel=1e-3
    )


def test_torsional_flexural_buckling_is_the_least_root_of_the_coupled_equation():
    """(N - N_y)(N - N_T) i_0^2 - N^2 y_0^2 = 0 for a channel: the lower root, below both alone."""
    N_y, N_T, beta = 1.9e6, 1.1e6, 0.7
    root = buckling.critical_force_torsional_flexural(N_y, N_T, beta)
    assert (root - N_y) * (root - N_T) - (1 - beta) * root**2 == pytest.approx(0.0, abs=1e-3 * N_y)
    assert root < min(N_y, N_T)
    channel = look_up("UPN 120").section
    ways = {m.about: m for m in modes(channel, find_steel("S235"), 235.0, Lengths(2000, 400, 2000))}
    assert ways["twist"].N_b < ways["y"].N_b


def test_us_steels_have_no_curve():
    """No EN buckling row is assumed for a US steel."""
    with pytest.raises(NotCovered, match="no EN buckling curve"):
        modes(look_up("W8X18").section, find_steel("A992"), 344.0, Lengths(2000, 2000, 2000))


# ---- lateral torsional buckling -------------------------------------------------------------


def test_a_rolled_beam_with_its_load_on_top():
    """LT-01: M_cr, slenderness and reduction of the rolled method, curve c."""
    given, expected = case("members", "LT-01")
    N_z = lateral.euler_term(E, given["I_z"], given["L"])
    assert N_z / 1e3 == pytest.approx(expected["euler_kN"], rel=2e-3)
    M_cr = lateral.critical_moment(
        given["C_1"], N_z, given["I_w"], given["I_z"], given["G"], given["I_t"], given["C_2"], given["z_g"]
    )
    lambda_LT = lateral.slenderness(given["W"], given["f_y"], M_cr)
    phi = lateral.phi_rolled(given["alpha_LT"], lambda_LT)
    found = [M_cr / 1e6, lambda_LT, phi, lateral.reduction_rolled(phi, lambda_LT)]
    assert found == [pytest.approx(expected[name], rel=2e-3) for name in ("M_cr_kNm", "lambda_LT", "phi_LT", "chi_LT")]


def test_the_factor_f_belongs_to_the_rolled_method():
    """LT-03: f and the modified reduction, at most 1 and 1/lambda^2."""
    given, expected = case("members", "LT-03")
    f = lateral.diagram_factor(given["k_c"], given["lambda_LT"])
    assert f == pytest.approx(expected["f"], rel=2e-3)
    assert lateral.reduction_modified(given["chi_LT"], f, given["lambda_LT"]) == pytest.approx(
        expected["chi_LT_mod"], rel=2e-3
    )
    assert lateral.reduction_modified(0.99, 0.8, 1.2) == pytest.approx(1 / 1.44)


def test_segments_between_restraints():
    """LT-05."""
    given, expected = case("members", "LT-05")
    for name in ("BC", "CD"):
        N_z = lateral.euler_term(E, given["I_z"], given[f"L_{name}"])
        M_cr = lateral.critical_moment(
            given[f"C_1_{name}"], N_z, given["I_w"], given["I_z"], 81e3, given["I_t"], 0.0, 0.0
        )
        assert M_cr / 1e6 == pytest.approx(expected[f"M_cr_{name}_kNm"], rel=1e-2)
        assert lateral.slenderness(given["W"], given["f_y"], M_cr) == pytest.approx(
            expected[f"lambda_{name}"], rel=1e-2
        )


def test_coefficients_of_a_central_load():
    """LT-07: load above the shear centre makes it worse, below better."""
    given, expected = case("members", "LT-07")
    N_z = lateral.euler_term(E, given["I_z"], given["L"])
    found = [
        lateral.critical_moment(
            given["C_1"], N_z, given["I_w"], given["I_z"], given["G"], given["I_t"], given["C_2"], height
        )
        / 1e6
        for height in (given["z_g"], 0.0, -given["z_g"])
    ]
    assert found == [pytest.approx(value, rel=5e-3) for value in expected["by_coefficients_kNm"]]
    assert found[0] < found[1] < found[2]


def test_welded_i_by_the_general_case():
    """LT-10: curve d; as a rolled section curve b would give 0.667."""
    given, expected = case("members", "LT-10")
    beam = welded_i(given["h"], given["b"], given["tw"], given["tf"])
    assert curve_of(beam, "general") == expected["curve"]
    M_cr = lateral.critical_moment(
        1.0,
        lateral.euler_term(E, expected["I_z_cm4"] * 1e4, given["L"]),
        expected["I_w_cm6"] * 1e6,
        expected["I_z_cm4"] * 1e4,
        given["G"],
        expected["I_t_cm4"] * 1e4,
        0.0,
        0.0,
    )
    assert M_cr / 1e6 == pytest.approx(expected["M_cr_kNm"], rel=2e-3)
    W = expected["W_pl_cm3"] * 1e3
    found = lateral_reduction(beam, S355, given["f_y"], W, M_cr, "general")
    assert found.slenderness == pytest.approx(expected["lambda_LT"], rel=2e-3)
    assert found.chi == pytest.approx(expected["chi_LT"], rel=2e-3)
    assert found.chi * W * given["f_y"] / 1e6 == pytest.approx(expected["M_b_kNm"], rel=2e-3)
    as_rolled = lateral.reduction_general(lateral.phi_general(0.34, found.slenderness), found.slenderness)
    assert as_rolled == pytest.approx(expected["chi_LT_if_rolled"], rel=2e-3)
    # The program's own properties leave the fillets out too; its shear modulus is E / 2.6.
    assert critical_moment(beam, Segment(given["L"])) / 1e6 == pytest.approx(expected["M_cr_kNm"], rel=1e-2)


def test_the_two_methods_are_not_mixed():
    """Plateau 0.2 with curve b in the general case, 0.4 with curve c in the rolled one; only an I takes the latter."""
    ipe = look_up("IPE 300").section
    W, f_y = ipe.Wpl_y, 235.0
    M_cr = W * f_y / 0.35**2
    general, as_rolled = (lateral_reduction(ipe, S355, f_y, W, M_cr, method) for method in ("general", "rolled"))
    assert (general.curve, as_rolled.curve) == ("a", "b")
    assert general.chi < 1.0
    assert as_rolled.chi == 1.0
    with pytest.raises(NotCovered, match=r"6\.3\.2\.3"):
        lateral_reduction(look_up("UPN 120").section, S355, f_y, W, M_cr, "rolled")


# ---- 6.3.3 with Annex B ----------------------------------------------------------------------


def test_hollow_member_in_compression_and_biaxial_bending():
    """BC-03: not susceptible to twisting, k_zy = 0.6 k_yy."""
    given, expected = case("members", "BC-03")
    section = look_up("RHS 150x100x6.3 hot").section
    steel = find_steel("S355", route="hot finished")
    C_my, C_mz = (interaction.equivalent_moment_linear(given[f"psi_{axis}"]) for axis in "yz")
    assert (C_my, C_mz) == (expected["C_my"], pytest.approx(expected["C_mz"]))
    load = Pressed(ULTIMATE, given["N"], given["M_y"], given["M_z"], C_my, C_mz)
    lengths = Lengths(given["L"], given["L"], given["L"])
    about = {m.about: m for m in modes(section, steel, 355.0, lengths)}
    for axis in "yz":
        assert about[axis].slenderness == pytest.approx(expected[f"lambda_{axis}"], rel=2e-3)
        assert about[axis].chi == pytest.approx(expected[f"chi_{axis}"], rel=2e-3)
    n_y, n_z = (given["N"] / about[axis].N_b for axis in "yz")
    k_yy, k_zz, k_yz, k_zy = annex_b(
        load, 1, n_y, n_z, about["y"].slenderness, about["z"].slenderness, hollow=True, twists=False
    )
    found = {"k_yy": k_yy, "k_zz": k_zz, "k_yz": k_yz, "k_zy": k_zy}
    assert found == {name: pytest.approx(expected[name], rel=2e-3) for name in found}
    outcome = check_member_column("strut", section, steel, 1, Column(lengths), [load], Basis())
    finding = outcome.findings[1]
    assert finding.check == "buckling with bending"
    assert finding.clause_ratio == pytest.approx(expected["eq_61"], rel=2e-3)
    assert f"6.62 {expected['eq_62']:.3f}" in finding.reason
    assert "Annex B" in finding.source


def test_class_3_box_in_a_swaying_frame():
    """BC-05: elastic factors, curve b."""
    given, expected = case("members", "BC-05")
    box = welded_box(given["h"], given["b"], given["t"], given["t"])
    assert pytest.approx(expected["A_cm2"], rel=2e-3) == box.A / 100
    assert box.Wel_y / 1e3 == pytest.approx(expected["W_el_cm3"], rel=2e-3)
    lengths = Lengths(given["L"], given["L"], given["L"])
    mode = modes(box, S355, given["f_y"], lengths)[0]
    assert (mode.curve, mode.slenderness, mode.chi) == (
        expected["curve"],
        pytest.approx(expected["lambda_bar"], rel=2e-3),
        pytest.approx(expected["chi"], rel=2e-3),
    )
    n = given["N"] / mode.N_b
    load = Pressed(ULTIMATE, given["N"], given["M_y"], C_my=given["C_my"])
    k_yy, _, _, k_zy = annex_b(load, 3, n, n, mode.slenderness, mode.slenderness, hollow=True, twists=False)
    assert (k_yy, k_zy) == (pytest.approx(expected["k_yy"], rel=2e-3), pytest.approx(expected["k_zy"], rel=2e-3))
    finding = check_member_column("post", box, S355, 1, Column(lengths), [load], Basis()).findings[1]
    assert finding.clause_ratio == pytest.approx(expected["eq_61"], rel=2e-3)
    assert f"6.62 {expected['eq_62']:.3f}" in finding.reason


def test_the_second_equation_can_govern_without_a_moment_about_z():
    """An I bent about y alone: 6.62 with its lower chi_z is the greater."""
    ipe = look_up("IPE 200").section
    load = Pressed(ULTIMATE, 200e3, 10e6)
    outcome = check_member_column(
        "post", ipe, find_steel("S235"), 1, Column(Lengths(2000, 2000, 2000)), [load], Basis()
    )
    assert "(6.62)" in outcome.findings[1].source


def test_the_factor_grows_all_forces_to_the_limit():
    """Forces grown by 1 / utilisation give a clause ratio of 1."""
    ipe = look_up("IPE 200").section
    column = Column(Lengths(2500, 2500, 2500), Segment(2500.0, 1.2))
    load = Pressed(ULTIMATE, 120e3, 8e6, 0.4e6, 0.9, 0.6, 0.9)
    first = check_member_column("post", ipe, find_steel("S235"), 1, column, [load], Basis()).findings[1]
    k = 1 / first.utilisation
    grown = Pressed(ULTIMATE, k * 120e3, k * 8e6, k * 0.4e6, 0.9, 0.6, 0.9)
    again = check_member_column("post", ipe, find_steel("S235"), 1, column, [grown], Basis()).findings[1]
    assert again.clause_ratio == pytest.approx(1.0, rel=1e-9)
    assert again.utilisation == pytest.approx(1.0, rel=1e-9)


def test_tension_does_not_buckle():
    """A pulled member goes to what does not apply."""
    outcome = check_member_column(
        "tie",
        look_up("IPE 200").section,
        find_steel("S235"),
        1,
        Column(Lengths(1, 1, 1)),
        [Pressed(ULTIMATE, -1e5)],
        Basis(),
    )
    assert not outcome.findings
    assert {n.check for n in outcome.does_not_apply} == {"flexural buckling", "buckling with bending"}


def test_gross_sections_of_the_press_upright():
    """BC-07: M_N and the linear sum, beside the load factor tested with the upright."""
    given, expected = case("members", "BC-07")
    tube = look_up("RHS 150x100x6.3 hot").section
    n = cross_section.axial_share(given["N"], tube.A * 355.0)
    a_w = cross_section.web_share_of_hollow(tube.A, given["b"], given["t"])
    M_N = cross_section.bending_resistance_with_axial(tube.Wpl_y * 355.0, n, a_w)
    linear = cross_section.linear_ratio(given["N"], tube.A * 355.0, given["M_y"], tube.Wpl_y * 355.0, 0.0, 1.0)
    elastic = (given["N"] / tube.A + given["M_y"] / tube.Wel_y) / 355.0
    assert [n, M_N / 1e6, given["M_y"] / M_N, linear, elastic] == [
        pytest.approx(expected[name], rel=3e-3) for name in ("n", "M_N_y_kNm", "clause", "linear", "elastic")
    ]


def test_arrays_give_the_chi_of_numbers():
    """A sweep uses the same text."""
    slenderness = np.array([0.3, 0.9, 1.7])
    assert list(chi("b", slenderness)) == [pytest.approx(chi("b", float(s))) for s in slenderness]
    assert pytest.approx(E / 2.6) == G
