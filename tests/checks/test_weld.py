"""The weld question: contract numbers, what is not judged, and what is printed."""

import math
from dataclasses import replace

import pytest

from structcheck.analysis.weld_group import Line, weld_group
from structcheck.checks.basis import GREATEST, RATED, ULTIMATE
from structcheck.checks.weld import NEEDED, WeldLoads, check_weld
from structcheck.checks.weld_strength import fillet_strength, weaker
from structcheck.findings import Result
from structcheck.materials.steels import find_steel
from structcheck.questions import ask
from tests.checks.weld_parts import BASIS, PLAIN, S235, S275, S355, ask_weld, found_in
from tests.printed import printed
from tests.reference.reading import case


@pytest.mark.parametrize("strengths, per_mm", [("product standard", "0.891"), ("EN 1993-1-1", "0.935")])
def test_kilonewtons_for_each_millimetre(strengths, per_mm):
    """Throat 4 on S275, inspected, simplified: 0.891 kN/mm with f_u 410, 0.935 with 430; derived from 4.5.3.3."""
    part = replace(PLAIN, steel=find_steel("S275", strengths=strengths))
    finding = found_in(ask_weld(part, along=40e3), "weld throat")
    assert finding.capacity.value / (2 * (120 - 2 * 4)) / 1e3 == printed(per_mm)
    assert finding.demand.value == pytest.approx(60e3)
    assert finding.case == "ultimate"
    assert finding.source == "EN 1993-1-8:2005 4.5.3.3"


def test_every_check_of_the_list_is_answered():
    """Throat, size, yield, fatigue; a plain inspected weld on a known steel holds."""
    outcome = ask_weld(PLAIN, along=40e3)
    answered = {f.check for f in outcome.findings} | {n.check for n in outcome.does_not_apply}
    assert answered == set(NEEDED)
    assert Result("", {}, outcome).verdict == "holds"


def test_yield_does_not_apply_to_filler_metal():
    """With the reason: no elastic limit of its own, the parts carry the check."""
    (left_out,) = ask_weld(PLAIN, along=40e3).does_not_apply
    assert left_out.check == "yield at greatest force"
    assert "filler metal" in left_out.reason


def test_nominal_throat_stress_at_greatest_force_stays_elastic():
    """Used to the full, the throat's equivalent stress at F_max is under 355 MPa, the least yield of filler metals.

    F_max is at most the ultimate force / 1.2 and gamma_M2 is 1.25: two thirds of f_u / beta_w. Derived; EN ISO 2560-A
    class 35 recalled.
    """
    for steel in (S235, S275, S355):
        simplified = fillet_strength(steel, None, BASIS, inspected=True).simplified
        assert 3**0.5 * simplified / 1.2 < 355


def test_demand_is_the_resultant():
    """30 along and 40 across are 50."""
    finding = found_in(ask_weld(PLAIN, along=30e3, across=40e3), "weld throat")
    assert finding.demand.value == pytest.approx(75e3)
    assert finding.utilisation == pytest.approx(found_in(ask_weld(PLAIN, along=50e3), "weld throat").utilisation)


def test_directional_method_is_named_and_gains_across():
    """weld-07: 0.314 by the first condition; along, both methods agree; across it gains sqrt(1.5)."""
    g, expected = case("welds", "weld-07")
    part = replace(PLAIN, throat=float(g["a"]), length=float(g["l_eff"]), returned=True, steel=S235)
    directional = replace(part, method="directional")
    found = found_in(ask_weld(directional, across=g["force"] / 1.5), "weld throat")
    assert found.utilisation == printed(expected["first"])
    assert found.source == "EN 1993-1-8:2005 4.5.3.2 (directional)"
    assert found.reason.startswith("first condition")
    plain = found_in(ask_weld(part, across=g["force"] / 1.5), "weld throat")
    assert plain.utilisation / found.utilisation == printed("1.225")
    along = [found_in(ask_weld(p, along=50e3), "weld throat").utilisation for p in (part, directional)]
    assert along[0] == pytest.approx(along[1])


def test_not_inspected_is_seven_tenths():
    """Both methods; the assumption is printed."""
    for method in ("simplified", "directional"):
        part = replace(PLAIN, method=method)
        sound, unknown = (
            found_in(ask_weld(replace(part, inspected=i), 30e3, 20e3), "weld throat") for i in (True, False)
        )
        assert unknown.capacity.value == pytest.approx(0.7 * sound.capacity.value)
    texts = [a.text for a in ask_weld(replace(PLAIN, inspected=False), 30e3).assumptions]
    assert any(text.startswith("weld not inspected: resistance x 0.7") for text in texts)


@pytest.mark.parametrize("change", [{"runs": 1}, {"one_sided": True}])
def test_a_root_bent_open_is_not_judged(change):
    """One side only and a force across, or a lever: 4.12. Along the run it is judged."""
    part = replace(PLAIN, **change)
    for outcome in (ask_weld(part, across=1e3), ask_weld(replace(part, eccentricity=50.0), along=1e3)):
        finding = found_in(outcome, "weld throat")
        assert finding.verdict == "not checked"
        assert "4.12" in finding.reason
    assert found_in(ask_weld(part, along=1e3), "weld throat").verdict == "holds"


def test_a_run_round_a_hollow_section_is_judged():
    """4.12(3): whole length, no ends; with a force along its direction changes, so the simplified method counts."""
    ring = replace(PLAIN, runs=1, around=True, length=300.0)
    pulled = found_in(ask_weld(ring, across=50e3), "weld throat")
    assert pulled.capacity.value / 300 / 1e3 == printed("0.891")
    both = [replace(ring, method=m) for m in ("simplified", "directional")]
    assert found_in(ask_weld(both[1], across=50e3), "weld throat").capacity.value > pulled.capacity.value
    moved = [found_in(ask_weld(p, along=50e3), "weld throat").capacity.value for p in both]
    assert moved[0] == pytest.approx(moved[1])
    assert "weld group" in found_in(ask_weld(replace(ring, eccentricity=9.0), along=1e3), "weld throat").reason


@pytest.mark.parametrize(
    "steel, reason",
    [
        ("A36", "has no correlation factor for A36"),
        ("S185", "S185 is outside EN 1993"),
        ("unknown", "steel of unknown grade is not known to be weldable"),
    ],
)
def test_steels_a_weld_is_not_judged_on(steel, reason):
    """US steel, S185, unknown: throat and fatigue are not checked, the verdict is incomplete."""
    outcome = ask_weld(replace(PLAIN, steel=find_steel(steel)), along=1e3)
    assert reason in found_in(outcome, "weld throat").reason
    assert found_in(outcome, "fatigue").verdict == "not checked"
    assert Result("", {}, outcome).verdict == "incomplete"


def test_unknown_steel_called_weldable_holds_only_if():
    """Then S235 is taken, and the verdict rests on it."""
    result = Result("", {}, ask_weld(replace(PLAIN, steel=find_steel("unknown"), weldable=True), along=1e3))
    assert result.verdict == "holds if"
    assert [a.condition for a in result.conditions] == ["f_y >= 235 MPa"]


def test_weaker_steel_gives_both_figures():
    """weld-16: S275 on S355 counts as S275, f_u and beta_w."""
    g, expected = case("welds", "weld-16")
    one, other = (find_steel(name, strengths=g["strengths"]) for name in g["steels"])
    for steel in (weaker(one, other), weaker(other, one)):
        assert fillet_strength(steel, None, BASIS, True).simplified == printed(expected["f_vw_d"])


def test_lever_off_the_face():
    """wgrp-16: two vertical fillets under a bracket, directional, 0.350."""
    g, expected = case("welds", "wgrp-16")
    part = replace(
        PLAIN,
        throat=float(g["a"]),
        length=float(g["l_eff"]),
        returned=True,
        steel=S235,
        eccentricity=float(g["lever"]),
        plane="out",
        method="directional",
    )
    finding = found_in(ask_weld(part, along=g["force"] / 1.5), "weld throat")
    assert finding.utilisation == printed(expected["utilisation"])


@pytest.mark.parametrize("spacing", [20.0, 60.0, 150.0, 700.0])
def test_lever_in_the_plane_is_the_groups_answer(spacing):
    """Three runs in a lap; the general group in space says the same. A lever of unknown plan is never better."""
    part = replace(PLAIN, runs=3, returned=True, eccentricity=80.0, plane="in", spacing=spacing)
    found = found_in(ask_weld(part, along=10e3), "weld throat").utilisation
    lines = [Line((x, -60, 0), (x, 60, 0), 4.0) for x in (-spacing, 0, spacing)]
    stations = weld_group(lines).tractions((0, 15e3, 0), (0, 0, 0), (80, 0, 0))
    worst = max(float((s.tractions**2).sum(axis=1).max()) for s in stations) ** 0.5
    assert found == pytest.approx(worst / fillet_strength(S275, None, BASIS, True).simplified)
    unknown = ask_weld(replace(part, plane=None, spacing=None), along=10e3)
    assert found_in(unknown, "weld throat").utilisation >= found * (1 - 1e-3)
    assert any("worst spacing" in a.text for a in unknown.assumptions)


def test_long_runs_lose_strength():
    """weld-13: 1500 mm at a throat of 5 counts for 0.8."""
    part = replace(PLAIN, throat=5.0, length=1500.0, returned=True)
    short = replace(part, length=750.0)
    long_one, short_one = (found_in(ask_weld(p, along=100e3), "weld throat").capacity.value for p in (part, short))
    assert long_one / short_one == pytest.approx(2 * 0.8)


def test_fatigue_takes_root_across_and_shear_along():
    """Category 36 on the throat for a pull across, 80 with m = 5 along it, both at rated force."""
    area = 2 * 112 * 4
    across, along = (found_in(ask_weld(PLAIN, **{way: 40e3}), "fatigue") for way in ("across", "along"))
    assert across.reason.startswith("weld root, category 36")
    assert along.reason.startswith("fillet weld in shear, category 80")
    assert across.demand.value == along.demand.value == pytest.approx(40e3 / area)
    both = found_in(ask_weld(PLAIN, along=40e3, across=40e3), "fatigue")
    assert both.utilisation > max(across.utilisation, along.utilisation)


def test_a_case_that_is_missing_is_no_pass():
    """Without a rated load fatigue is not checked, without an ultimate one the throat is not."""
    only = check_weld(PLAIN, [WeldLoads(GREATEST, 1e3, 0.0)], BASIS)
    assert {f.check: f.verdict for f in only.findings} == {
        "weld size": "holds",
        "weld throat": "not checked",
        "fatigue": "not checked",
    }


def test_the_worst_of_several_cases_governs():
    """Two ultimate cases: the larger force."""
    loads = [WeldLoads(ULTIMATE, 10e3, 0.0), WeldLoads(ULTIMATE, 0.0, 90e3), WeldLoads(RATED, 10e3, 0.0)]
    assert found_in(check_weld(PLAIN, loads, BASIS), "weld throat").demand.value == 90e3


@pytest.mark.parametrize("on", ["galvanised", "hardened", "threaded"])
@pytest.mark.parametrize(
    ("kind", "given"),
    [
        (
            "weld",
            {"throat": "4 mm", "length": "120 mm", "runs": 2, "steel": "S235", "along": "4 kN", "inspected": True},
        ),
        ("butt", {"length": "100 mm", "thickness": "10 mm", "steel": "S235", "across": "4 kN", "inspected": True}),
    ],
)
def test_what_is_no_plain_steel_is_not_welded_on_trust(kind, given, on):
    """Zinc, hardened steel and threads: neither strength nor fatigue nor yield beside the weld is a pass."""
    assert ask(kind, given).verdict == "holds"
    result = ask(kind, given | {"welded_on": on})
    assert result.verdict == "incomplete"
    found = {f.check: f for f in result.findings}
    assert found["weld throat"].verdict == found["fatigue"].verdict == "not checked"
    assert f"welded on a {on} part" in found["weld throat"].reason
    assert any("welded on plain" in a.text for a in ask(kind, given).assumptions)


def test_what_a_weld_pulls_on_is_said_to_be_stiff():
    """4.10 is a question of its own; so is a thick plate's layering."""
    texts = [a.text for a in ask_weld(PLAIN, along=0.0, across=20e3).assumptions]
    assert any("ask plate_on_flange or tube_joint" in text for text in texts)
    assert any("no plate is pulled through a thickness of more than 20 mm" in text for text in texts)
    assert not any("4.10" in a.text for a in ask_weld(PLAIN, along=20e3).assumptions)


# EN 1993-1-9 Table 8.5 (memory): root 36 on the throat, toe 40 on the plate; t < 1.8 a turns the one before the other.
def test_a_thin_part_cracks_at_the_toe_first():
    """Two runs of 4 mm on 6 mm: the plate feels 2 x 4 / 6 of the throat's range, at category 40."""
    thin, thick = (ask_weld(replace(PLAIN, thickness=t), along=0.0, across=20e3) for t in (6.0, 8.0))
    assert found_in(thin, "fatigue").reason.startswith("cruciform toe")
    assert found_in(thick, "fatigue").reason.startswith("weld root")
    root = 20e3 / (2 * 4 * PLAIN.effective)
    assert found_in(thin, "fatigue").demand.value == pytest.approx(root * 2 * 4 / 6)
    assert any("at least 7.2 mm thick" in a.text for a in ask_weld(PLAIN, along=0.0, across=20e3).assumptions)


def test_a_lever_bends_the_plate_between_its_fillets():
    """N / A + M / W of what the runs grip, 92 of 100 mm on 8 mm: 49.03 MPa, 6.79 in shear; as a lap half of it (hand).

    Two throats of 6 mm on 6 mm outlast the plate: their lever used to pass with the force alone.
    """
    load = [WeldLoads(GREATEST, 5e3, 10e3)]
    part = replace(PLAIN, length=100.0, eccentricity=80.0, thickness=8.0, plane="out")
    found = found_in(check_weld(part, load, BASIS), "yield at greatest force")
    across = 10e3 / (92 * 8) + 400e3 * 6 / (8 * 92**2)
    assert found.demand.value == pytest.approx(math.hypot(across, math.sqrt(3) * 5e3 / (92 * 8)), rel=1e-4)
    outlasting = replace(part, throat=6.0, thickness=6.0, eccentricity=420.0)
    assert found_in(check_weld(outlasting, load, BASIS), "yield at greatest force").verdict == "fails"
    round_a_tube = replace(part, around=True, runs=1)
    assert found_in(check_weld(round_a_tube, load, BASIS), "yield at greatest force").verdict == "not checked"
