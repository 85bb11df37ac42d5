"""One straight beam against handbook values, each with its source in tests/reference/frames.toml."""

import pytest
from frame_cases import CASES, case, close

from structcheck.analysis.beam import PointLoad, PointMoment, UniformLoad, solve


def test_every_case_says_where_it_comes_from():
    """No check value is without source, provenance and tolerance."""
    for name, entry in CASES.items():
        assert entry["source"] and entry["provenance"] in {"read", "memory", "derived"}, name
        assert 0 < entry["tolerance"] <= 0.01, name
        assert entry["inputs"] and entry["expected"], name


def test_central_load_on_a_simple_span():
    """BM-01: reactions, moment, deflection and end rotation."""
    given, wanted, tolerance = case("BM-01")
    found = solve(given["L"], "simple", [PointLoad(given["P"], given["L"] / 2)], given["E"] * given["I"])
    assert found.reaction_left == close(wanted["R"], tolerance)
    assert found.reaction_right == close(wanted["R"], tolerance)
    assert found.greatest_shear().value == close(wanted["V_max"], tolerance)
    assert found.greatest_moment().value == close(wanted["M_max"], tolerance)
    assert found.greatest_deflection().value == close(wanted["delta_mid"], tolerance)
    assert found.rotation(0.0) == close(wanted["theta_end"], tolerance)


def test_greatest_deflection_is_not_under_an_off_centre_load():
    """BM-02: the deflection's place and value, beside that under the load."""
    given, wanted, tolerance = case("BM-02")
    found = solve(given["L"], "simple", [PointLoad(given["P"], given["a"])], given["E"] * given["I"])
    assert found.reaction_left == close(wanted["R_left"], tolerance)
    assert found.reaction_right == close(wanted["R_right"], tolerance)
    assert found.greatest_moment().value == close(wanted["M_at_load"], tolerance)
    assert found.greatest_moment().x == given["a"]
    assert found.greatest_deflection().value == close(wanted["delta_max"], tolerance)
    assert found.greatest_deflection().x == close(wanted["x_of_delta_max"], tolerance)
    assert found.w(given["a"]) == close(wanted["delta_at_load"], tolerance)


def test_patch_load_in_the_middle():
    """BM-05: a base plate spreads the load and lowers the moment."""
    given, wanted, tolerance = case("BM-05")
    half, middle = given["c"] / 2, given["L"] / 2
    load = UniformLoad(given["W"] / given["c"], middle - half, middle + half)
    found = solve(given["L"], "simple", [load], given["E"] * given["I"])
    assert found.greatest_moment().value == close(wanted["M_max"], tolerance)
    assert found.w(middle) == close(wanted["delta_mid"], tolerance)


def test_patch_load_off_the_middle():
    """BM-06: the moment peaks inside the patch, where shear vanishes."""
    given, wanted, tolerance = case("BM-06")
    load = UniformLoad(given["w"], given["start"], given["end"])
    found = solve(given["L"], "simple", [load], given["E"] * given["I"])
    assert found.reaction_left == close(wanted["R_left"], tolerance)
    assert found.reaction_right == close(wanted["R_right"], tolerance)
    assert found.greatest_moment().value == close(wanted["M_max"], tolerance)
    assert found.greatest_moment().x == close(wanted["x_of_M_max"], tolerance)
    assert found.w(given["L"] / 2) == close(wanted["delta_mid"], tolerance)


def test_moment_in_the_span_makes_the_diagram_jump():
    """BM-07: an anticlockwise moment pushes the left support up; both sides of the jump."""
    given, wanted, tolerance = case("BM-07")
    found = solve(given["L"], "simple", [PointMoment(given["M0"], given["a"])], given["E"] * given["I"])
    assert found.reaction_left == close(wanted["R_left"], tolerance)
    assert found.reaction_right == close(wanted["R_right"], tolerance)
    assert found.M(given["a"], "left") == close(wanted["M_just_left"], tolerance)
    assert found.M(given["a"]) == close(wanted["M_just_right"], tolerance)
    assert abs(found.w(given["a"])) == close(wanted["abs_delta_at_moment"], tolerance)
    assert found.greatest_moment().value == close(wanted["M_just_right"], tolerance)


def test_uniform_load_on_a_simple_span():
    """BM-09."""
    given, wanted, tolerance = case("BM-09")
    found = solve(given["L"], "simple", [UniformLoad(given["w"], 0, given["L"])], given["E"] * given["I"])
    assert found.greatest_moment().value == close(wanted["M_max"], tolerance)
    assert abs(found.greatest_shear().value) == close(wanted["V_max"], tolerance)
    assert found.greatest_deflection().value == close(wanted["delta_mid"], tolerance)


def test_central_load_between_built_in_ends():
    """BM-10: end moments hog, the middle sags by as much."""
    given, wanted, tolerance = case("BM-10")
    found = solve(given["L"], "fixed", [PointLoad(given["P"], given["L"] / 2)], given["E"] * given["I"])
    assert found.moment_left == close(wanted["M_support"], tolerance)
    assert found.moment_right == close(wanted["M_support"], tolerance)
    assert found.M(given["L"] / 2) == close(wanted["M_mid"], tolerance)
    assert found.greatest_deflection().value == close(wanted["delta_mid"], tolerance)


def test_central_load_on_a_propped_beam():
    """BM-13: the place of the greatest deflection is counted from the prop, on the right here."""
    given, wanted, tolerance = case("BM-13")
    found = solve(given["L"], "propped", [PointLoad(given["P"], given["L"] / 2)], given["E"] * given["I"])
    assert found.reaction_right == close(wanted["R_prop"], tolerance)
    assert found.reaction_left == close(wanted["R_fixed"], tolerance)
    assert found.moment_left == close(wanted["M_fixed"], tolerance)
    assert found.M(given["L"] / 2) == close(wanted["M_at_load"], tolerance)
    assert found.greatest_deflection().value == close(wanted["delta_max"], tolerance)
    assert given["L"] - found.greatest_deflection().x == close(wanted["x_of_delta_max_from_prop"], tolerance)


def test_cantilever_loaded_between_root_and_tip():
    """BM-15: beyond the load the beam stays straight."""
    given, wanted, tolerance = case("BM-15")
    found = solve(given["L"], "cantilever", [PointLoad(given["P"], given["b"])], given["E"] * given["I"])
    assert found.moment_left == close(wanted["M_root"], tolerance)
    assert found.w(given["L"]) == close(wanted["delta_tip"], tolerance)
    assert found.w(given["b"]) == close(wanted["delta_at_load"], tolerance)
    assert found.reaction_right == 0.0 and found.moment_right == 0.0


def box_inertia(given):
    """Second moment of the welded box of TS-01."""
    outer, inner = given["h"], given["h"] - 2 * given["t_flange"]
    return (given["b"] * outer**3 - (given["b"] - 2 * given["t_web"]) * inner**3) / 12


def test_shear_outweighs_bending_in_a_short_deep_box():
    """TS-01: bending and shear parts apart, and together."""
    given, wanted, tolerance = case("TS-01")
    inertia, L = box_inertia(given), given["L"]
    assert inertia == close(wanted["I"], tolerance)
    GAs = given["G"] * wanted["A_shear"]
    found = solve(L, "simple", [PointLoad(given["P"], L / 2)], given["E"] * inertia, GAs)
    assert found.w_bending(L / 2) == close(wanted["delta_bending"], tolerance)
    assert found.w_shear(L / 2) == close(wanted["delta_shear"], tolerance)
    assert found.greatest_deflection().value == close(wanted["delta_total"], tolerance)
    ratio = found.w_shear(L / 2) / found.w_bending(L / 2)
    assert ratio == close(wanted["ratio_shear_to_bending"], tolerance)


def test_shear_deflection_of_a_cantilever():
    """TS-03."""
    given, wanted, tolerance = case("TS-03")
    L, GAs = given["L"], given["G"] * given["A_shear"]
    found = solve(L, "cantilever", [PointLoad(given["P"], L)], given["E"] * given["I"], GAs)
    assert found.w_bending(L) == close(wanted["delta_bending"], tolerance)
    assert found.w_shear(L) == close(wanted["delta_shear"], tolerance)
    assert found.w(L) == close(wanted["delta_total"], tolerance)


def test_shear_strain_moves_end_moments_of_unsymmetric_loads():
    """TS-05: with shear the two end moments draw together."""
    given, wanted, tolerance = case("TS-05")
    EI = given["E"] * box_inertia(given)
    load = [PointLoad(given["P"], given["a"])]
    found = solve(given["L"], "fixed", load, EI, given["G"] * given["A_shear"])
    assert found.moment_left == close(wanted["M_left"], tolerance)
    assert found.moment_right == close(wanted["M_right"], tolerance)
    assert found.reaction_left == close(wanted["R_left"], tolerance)
    assert solve(given["L"], "fixed", load, EI).moment_left == close(wanted["M_left_without_shear"], tolerance)


@pytest.mark.parametrize("shape", ["rectangle", "box"])
def test_share_of_shear_falls_with_slenderness(shape):
    """TS-06: shear over bending for a central load, at several L/h."""
    given, wanted, tolerance = case("TS-06")
    E = 210000.0
    if shape == "box":
        h, inertia, area = given["box_h"], given["box_I"], given["box_A_shear"]
    else:
        h, inertia, area = 100.0, 10.0 * 100.0**3 / 12, 5 / 6 * 10.0 * 100.0
    for slenderness, ratio in wanted[shape].items():
        L = float(slenderness) * h
        found = solve(L, "simple", [PointLoad(1e3, L / 2)], E * inertia, E / given["E_over_G"] * area)
        assert found.w_shear(L / 2) / found.w_bending(L / 2) == close(ratio, tolerance)
