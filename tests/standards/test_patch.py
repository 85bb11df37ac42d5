"""Transverse forces on webs: EN 1993-1-5 section 6, 7.2 and 8, against values worked through apart from the package."""

import tomllib
from pathlib import Path

import pytest

from structcheck.standards.en1993_1_5 import patch
from tests.printed import printed

FILE = Path(__file__).parents[1] / "reference" / "local_forces.toml"
CASES = {case["id"]: case for case in tomllib.loads(FILE.read_text())["case"]}
E = 210_000.0


def factors(girder, k_F):
    g = girder
    F_cr = patch.critical_force(k_F, E, g["t_w"], g["h_w"])
    m_1 = patch.flange_part_m_1(g["f_y"], g["b_f"], g["f_y"], g["t_w"])
    m_2 = patch.web_part_m_2(g["h_w"], g["t_f"])
    l_y = patch.loaded_length(g["s_s"], g["t_f"], m_1, m_2)
    return F_cr, m_1, m_2, l_y, patch.slenderness(l_y, g["t_w"], g["f_y"], F_cr)


@pytest.mark.parametrize(
    ("name", "k"), [("PL-01", patch.k_F_one_flange), ("PL-03", patch.k_F_both_flanges), ("PL-05", patch.k_F_one_flange)]
)
def test_every_factor_of_section_6_agrees(name, k):
    """One flange, both flanges, and a slender web: every intermediate value (derived; PL-05 memory)."""
    girder, expected = CASES[name]["girder"], CASES[name]["expected"]
    k_F = k(girder["h_w"], girder["a"])
    F_cr, m_1, m_2, l_y, lambda_F = factors(girder, k_F)
    chi = patch.reduction(lambda_F)
    assert k_F == printed(expected["k_F"])
    assert F_cr / 1e3 == printed(expected["F_cr_kN"])
    assert m_1 == printed(expected["m_1"]) and m_2 == printed(expected["m_2"])
    assert l_y == printed(expected["l_y"])
    assert lambda_F == printed(expected["lambda_F"]) and chi == printed(expected["chi_F"])
    F_Rd = patch.resistance(girder["f_y"], chi, l_y, girder["t_w"], 1.0)
    assert F_Rd / 1e3 == printed(expected["F_Rd_kN"])


def test_the_amended_reduction_leaves_m_2_out():
    """Amendment A2 as recalled (PL-05, memory): a shorter length, a milder curve."""
    girder, later = CASES["PL-05"]["girder"], CASES["PL-05"]["later"]
    F_cr, m_1, *_ = factors(girder, patch.k_F_one_flange(girder["h_w"], girder["a"]))
    l_y = patch.loaded_length(girder["s_s"], girder["t_f"], m_1, 0.0)
    lambda_F = patch.slenderness(l_y, girder["t_w"], girder["f_y"], F_cr)
    chi = patch.reduction_amended(lambda_F)
    assert l_y == printed(later["l_y"]) and lambda_F == printed(later["lambda_F"])
    assert chi == printed(later["chi_F"])
    assert patch.resistance(girder["f_y"], chi, l_y, girder["t_w"], 1.0) / 1e3 == printed(later["F_Rd_kN"])


def test_interaction_with_bending_is_linear_with_the_limit_1_4():
    """PL-07 (derived): 0.60 + 0.8 x 0.75 = 1.2 of 1.4."""
    given, expected = CASES["PL-07"]["given"], CASES["PL-07"]["expected"]
    used = patch.with_bending(given["eta_2"], given["eta_1"])
    assert used * float(expected["limit"]) == printed(expected["sum"])


def test_the_pad_spreads_through_the_plate_but_no_further_than_the_web_is_deep():
    """PL-08 (derived): 60 mm through 25 mm gives 110 mm; never more than h_w."""
    given, expected = CASES["PL-08"]["given"], CASES["PL-08"]["expected"]
    assert patch.stiff_bearing_length(**given) == printed(expected["s_s"])
    assert patch.stiff_bearing_length(60.0, 25.0, 90.0) == 90.0


def test_flange_induced_buckling():
    """PL-16 (derived): h_w/t_w 116.67 of 317.87."""
    given, expected = CASES["PL-16"]["given"], CASES["PL-16"]["expected"]
    limit = patch.flange_induced_limit(given["k"], E, given["f_yf"], given["A_w"], given["A_fc"])
    assert limit == printed(expected["limit"])
    assert given["h_w"] / given["t_w"] == printed(expected["ratio"])


def test_only_15_epsilon_t_f_of_a_wide_flange_counts():
    """Each side of the web, by 6.5(1); with S355 epsilon is 0.8136."""
    assert patch.flange_width(600.0, 8.0, 355.0, 10.0) == pytest.approx(8 + 2 * 15 * 0.81362 * 10, rel=1e-4)
    assert patch.flange_width(200.0, 8.0, 355.0, 10.0) == 200.0
