"""Slender webs in shear, EN 1993-1-5 section 5 with 7.1, against plate theory and hand calculation."""

import math

import numpy as np
import pytest
from scipy.linalg import eigh

from structcheck.checks.basis import ULTIMATE, Basis
from structcheck.checks.member_shear import slender_web
from structcheck.checks.member_stress import Station
from structcheck.checks.section_resistance import check_member_section
from structcheck.errors import NotCovered
from structcheck.materials.steels import find_steel
from structcheck.questions import check_press
from structcheck.shapes.bars import Rectangle
from structcheck.shapes.built_up import welded_box, welded_i, welded_t
from structcheck.shapes.net import net_section
from structcheck.standards.en1993_1_5 import shear

STEEL = find_steel("S235")
DEEP = welded_i(632.0, 200.0, 5.0, 16.0)
"""h_w 600, t 5: 120 against 72."""


def ritz(a, b, terms=14):
    """k_tau of a plate a x b simply supported, from a double sine series (Timoshenko and Gere; energy method)."""
    pairs = [(m, n) for m in range(1, terms + 1) for n in range(1, terms + 1)]
    bending = np.diag([((m / a) ** 2 + (n / b) ** 2) ** 2 for m, n in pairs])
    geometry = np.zeros((len(pairs), len(pairs)))
    for i, (m, n) in enumerate(pairs):
        for j, (p, q) in enumerate(pairs):
            if (m + p) % 2 and (n + q) % 2:
                geometry[i, j] = m * n * p * q / ((m**2 - p**2) * (q**2 - n**2))
    # D pi^4 a b / 8 of bending against 4 tau t of shear, over D pi^2 / (b^2 t).
    return math.pi**2 * a * b**3 / 32 / np.max(np.abs(eigh(geometry, bending, eigvals_only=True)))


# Derived: a double sine series; the clause's parabola within 4 % of it.
@pytest.mark.parametrize("ratio", [1.0, 1.5, 2.0, 3.0, 0.6])
def test_k_tau_is_that_of_a_plate_in_shear(ratio):
    """Table: 9.34 for a square, 7.1 at 1.5, 6.6 at 2, 5.9 at 3."""
    found = float(shear.buckling_factor(1.0, ratio))
    exact = ritz(ratio, 1.0)
    assert found == pytest.approx(exact, rel=0.04)


# Memory: EN 1993-1-5 (5.3), (5.5), Table 5.1; recomputed here from E and tau_cr.
def test_the_slenderness_is_that_of_the_critical_stress():
    """0.76 sqrt(f_yw / tau_cr), sigma_E = 190 000 (t / h_w)^2; without k_tau above 5.34 it is h_w / (86.4 t eps)."""
    k_tau = 5.34 + 4 * 0.25
    tau_cr = k_tau * 190e3 * (5 / 600) ** 2
    assert shear.slenderness(600, 5, 1.0, k_tau) == pytest.approx(0.76 * math.sqrt(235 / tau_cr), rel=2e-3)
    assert shear.slenderness(600, 5, 1.0, 5.34) == pytest.approx(600 / (86.4 * 5), rel=1e-3)


@pytest.mark.parametrize("eta", [1.0, 1.2])
def test_the_reduction_meets_its_plateau(eta):
    """eta up to 0.83 / eta, then 0.83 / lambda: no step."""
    assert shear.reduction(0.5, eta) == eta
    assert shear.reduction(0.83 / eta, eta) == pytest.approx(eta)
    assert shear.reduction(1.66, eta) == pytest.approx(0.5)


def by_hand(span=1200.0, h_w=600.0, t=5.0):
    """V_bw,Rd of DEEP, step by step."""
    lambda_w = h_w / (37.4 * t * math.sqrt(5.34 + 4 * (h_w / span) ** 2))
    return 0.83 / lambda_w * 235 * h_w * t / math.sqrt(3)


def checked(section=DEEP, panel=1200.0, **forces):
    made = check_member_section("beam", section, STEEL, 1, [Station(ULTIMATE, "here", **forces)], Basis(), panel=panel)
    return {finding.check: finding for finding in made.findings}


def test_a_slender_web_bears_what_buckling_leaves():
    """Resistance by hand; without stiffeners at the supports it is no pass and says what to state."""
    found = checked(V_z=100e3)["shear"]
    assert found.capacity.value == pytest.approx(by_hand(), rel=1e-9)
    assert found.source == "EN 1993-1-5:2006 5.2"
    assert "end_stiffeners" in checked(panel=None, V_z=100e3)["shear"].reason
    assert checked(panel=None, V_z=100e3)["shear"].verdict == "not checked"


def test_a_web_at_the_limit_bears_no_more_for_being_thinner():
    """Across h_w / t_w = 72 the resistance falls, by the rolled web's fillets at most."""
    thick, thin = (checked(welded_i(632.0, 200.0, t, 16.0), V_z=1e3)["shear"].capacity.value for t in (8.34, 8.32))
    assert thin <= thick * (1 + 1e-9) and thin > 0.98 * thick


def test_bending_takes_from_the_shear_what_the_flanges_do_not_bear():
    """(7.1) holds with equality at the factor found: eta_1 + (1 - M_f / M_pl)(2 eta_3 - 1)^2 = 1."""
    M, V = 0.8 * DEEP.Wel_y * 235, 0.8 * by_hand()
    found = checked(M_y=M, V_z=V)["bending and shear"]
    k = 1 / found.utilisation
    M_f = 200 * 16 * 616 * 235
    M_pl = DEEP.Wpl_y * 235
    resistance = checked(M_y=M)["bending"].capacity.value
    eta_1, eta_3 = k * M / resistance, k * V / by_hand()
    assert eta_1 + (1 - M_f / M_pl) * (2 * eta_3 - 1) ** 2 == pytest.approx(1.0)
    # The clause's own eta_1 is over the plastic moment: never worse than what is used.
    assert k * M / M_pl + (1 - M_f / M_pl) * (2 * eta_3 - 1) ** 2 <= 1
    assert "7.1" in found.source
    with_force = checked(M_y=M, V_z=V, N=-50e3)["axial and bending"]
    assert with_force.utilisation > found.utilisation


def test_doubling_the_forces_doubles_the_utilisation():
    """In every check with a slender web."""
    once = checked(M_y=100e6, V_z=150e3, N=-50e3)
    twice = checked(M_y=200e6, V_z=300e3, N=-100e3)
    for check, finding in once.items():
        assert twice[check].utilisation == pytest.approx(2 * finding.utilisation, rel=1e-9)


def test_a_box_has_two_webs_and_a_torque_runs_round_them():
    """Twice the resistance of one web; the torque's share counts over what buckling leaves."""
    box = welded_box(632.0, 300.0, 5.0, 16.0)
    plain, twisted = checked(box, V_z=100e3)["shear"], checked(box, V_z=100e3, T=10e6)["shear"]
    assert plain.capacity.value == pytest.approx(2 * by_hand())
    chi = 0.83 / (600 / (37.4 * 5 * math.sqrt(5.34 + 1)))
    t = 10e6 / (2 * 295 * 616 * 5) / (235 / math.sqrt(3)) / chi
    assert twisted.utilisation == pytest.approx(plain.utilisation + t)


def test_what_the_clause_does_not_reach_is_refused():
    """A stem's free edge, holes in the web, a flat, an open section that is twisted."""
    for section in (
        welded_t(632.0, 200.0, 5.0, 16.0),
        net_section(welded_box(632.0, 300.0, 5.0, 16.0), [(145, 150, -20, 20)]),
    ):
        with pytest.raises(NotCovered):
            slender_web(section, "z", 235.0, 1.0, 1.0, 1200.0)
    with pytest.raises(NotCovered, match="free edge"):
        slender_web(Rectangle(800.0, 8.0), "z", 235.0, 1.0, 1.0, 1200.0)
    assert checked(V_z=1e3, T=1e3, B=1e6)["shear"].verdict == "not checked"


def test_a_press_file_states_the_stiffeners():
    """A head of plates with a thin web."""
    own = {"name": "deep", "shape": "welded i", "h": "632 mm", "b": "200 mm", "tw": "5 mm", "tf": "16 mm"}
    own |= {"throat": "3 mm", "runs": 2, "inspected": True}
    beam = {"name": "head", "section": "deep", "steel": "S235", "span": "1200 mm", "load": 1.0, "quality": "JR"}

    def found(**more):
        data = {"schema": 1, "jack": {"rating": "100 kN"}, "section": [own], "beam": [beam | more]}
        return {f.check: f for f in check_press(data).findings if f.part == "head"}

    assert found()["shear"].verdict == "not checked"
    assert found(end_stiffeners=True)["shear"].utilisation == pytest.approx(75e3 / by_hand())
