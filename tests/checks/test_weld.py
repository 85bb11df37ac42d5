"""The weld question: contract numbers, what is not judged, and laws."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.analysis.weld_group import Line, weld_group
from structcheck.checks.basis import GREATEST, RATED, ULTIMATE, Basis, from_rated
from structcheck.checks.weld import NEEDED, Weld, WeldLoads, check_weld
from structcheck.checks.weld_strength import fillet_strength, weaker
from structcheck.errors import InputError
from structcheck.findings import Result
from structcheck.materials.steels import find_steel
from structcheck.questions import ask
from tests.printed import printed
from tests.reference.reading import case

S235, S275, S355 = (find_steel(name) for name in ("S235", "S275", "S355"))
BASIS = Basis()
PLAIN = Weld(name="foot", throat=4.0, length=120.0, runs=2, steel=S275, inspected=True)


def _ask(part, along=0.0, across=0.0, basis=BASIS):
    """The outcome under forces at rated load."""
    return check_weld(part, from_rated(basis, lambda c, f: WeldLoads(c, along * f, across * f)), basis)


def _found(outcome, check):
    return next(f for f in outcome.findings if f.check == check)


@pytest.mark.parametrize("strengths, per_mm", [("product standard", "0.891"), ("EN 1993-1-1", "0.935")])
def test_kilonewtons_for_each_millimetre(strengths, per_mm):
    """Throat 4 on S275, inspected, simplified: 0.891 kN/mm with f_u 410, 0.935 with 430; derived from 4.5.3.3."""
    part = replace(PLAIN, steel=find_steel("S275", strengths=strengths))
    finding = _found(_ask(part, along=40e3), "weld throat")
    assert finding.capacity.value / (2 * (120 - 2 * 4)) / 1e3 == printed(per_mm)
    assert finding.demand.value == pytest.approx(60e3)
    assert finding.case == "ultimate"
    assert finding.source == "EN 1993-1-8:2005 4.5.3.3"


def test_every_check_of_the_list_is_answered():
    """Throat, size, yield, fatigue; a plain inspected weld on a known steel holds."""
    outcome = _ask(PLAIN, along=40e3)
    answered = {f.check for f in outcome.findings} | {n.check for n in outcome.does_not_apply}
    assert answered == set(NEEDED)
    assert Result("", {}, outcome).verdict == "holds"


def test_yield_does_not_apply_to_filler_metal():
    """With the reason: no elastic limit of its own, the parts carry the check."""
    (left_out,) = _ask(PLAIN, along=40e3).does_not_apply
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
    finding = _found(_ask(PLAIN, along=30e3, across=40e3), "weld throat")
    assert finding.demand.value == pytest.approx(75e3)
    assert finding.utilisation == pytest.approx(_found(_ask(PLAIN, along=50e3), "weld throat").utilisation)


def test_directional_method_is_named_and_gains_across():
    """weld-07: 0.314 by the first condition; along, both methods agree; across it gains sqrt(1.5)."""
    g, expected = case("welds", "weld-07")
    part = replace(PLAIN, throat=float(g["a"]), length=float(g["l_eff"]), returned=True, steel=S235)
    directional = replace(part, method="directional")
    found = _found(_ask(directional, across=g["force"] / 1.5), "weld throat")
    assert found.utilisation == printed(expected["first"])
    assert found.source == "EN 1993-1-8:2005 4.5.3.2 (directional)"
    assert found.reason.startswith("first condition")
    plain = _found(_ask(part, across=g["force"] / 1.5), "weld throat")
    assert plain.utilisation / found.utilisation == printed("1.225")
    along = [_found(_ask(p, along=50e3), "weld throat").utilisation for p in (part, directional)]
    assert along[0] == pytest.approx(along[1])


def test_not_inspected_is_seven_tenths():
    """Both methods; the assumption is printed."""
    for method in ("simplified", "directional"):
        part = replace(PLAIN, method=method)
        sound, unknown = (_found(_ask(replace(part, inspected=i), 30e3, 20e3), "weld throat") for i in (True, False))
        assert unknown.capacity.value == pytest.approx(0.7 * sound.capacity.value)
    texts = [a.text for a in _ask(replace(PLAIN, inspected=False), 30e3).assumptions]
    assert any(text.startswith("weld not inspected: resistance x 0.7") for text in texts)


def test_leg_is_turned_into_a_throat():
    """0.7 x the leg, and said so."""
    outcome = _ask(replace(PLAIN, throat=None, leg=6.0), along=40e3)
    same = _ask(replace(PLAIN, throat=0.7 * 6.0), along=40e3)
    assert _found(outcome, "weld throat").capacity == _found(same, "weld throat").capacity
    assert any(a.text == "throat 4.2 mm taken as 0.7 x the smaller leg of 6 mm" for a in outcome.assumptions)


# EN 1993-1-8:2005 4.5.2(1): the height of the largest triangle in the fillet; 6 and 8 mm give 4.8 (derived).
def test_unequal_legs_are_a_throat_of_their_own():
    """6 and 8 mm: 48 / 10; that throat does not lie at 45 degrees, so the simplified rule counts."""
    outcome = _ask(replace(PLAIN, throat=None, leg=6.0, leg_2=8.0, method="directional"), along=40e3, across=20e3)
    same = _ask(replace(PLAIN, throat=4.8), along=40e3, across=20e3)
    assert _found(outcome, "weld throat").capacity.value == pytest.approx(_found(same, "weld throat").capacity.value)
    assert _found(outcome, "weld throat").source == "EN 1993-1-8:2005 4.5.3.3"
    assert any(a.text == "throat 4.8 mm of a flat fillet with legs of 6 and 8 mm" for a in outcome.assumptions)
    with pytest.raises(InputError, match="stands without the other leg"):
        _ask(replace(PLAIN, leg_2=8.0), along=1e3)


def test_returned_ends_count_whole():
    """weld-11: else a throat is lost at each end."""
    g, expected = case("welds", "weld-11")
    part = replace(PLAIN, throat=float(g["a"]), length=float(g["l"]))
    assert part.effective == printed(expected["l_eff"])
    assert replace(part, returned=True).effective == g["l"]


@pytest.mark.parametrize(
    "throat, length, demand, capacity, reason",
    [
        (2.5, 120.0, 3.0, 2.5, "throat"),
        (4.0, 37.0, 30.0, 29.0, "effective length"),
        (8.0, 63.0, 48.0, 47.0, "effective length"),
        (4.0, 120.0, 3.0, 4.0, "throat"),
    ],
)
def test_weld_size_is_the_worst_of_both(throat, length, demand, capacity, reason):
    """Throat 3 mm; effective length 30 mm or 6 a."""
    finding = _found(_ask(replace(PLAIN, throat=throat, length=length), along=1e3), "weld size")
    assert (finding.demand.value, finding.capacity.value, finding.reason) == (demand, capacity, reason)


def test_run_of_two_ends_only_fails():
    """A run of 8 mm with a throat of 4 has no length left."""
    outcome = _ask(replace(PLAIN, length=8.0), along=1e3)
    assert [_found(outcome, c).verdict for c in ("weld throat", "weld size", "fatigue")] == [
        "fails",
        "fails",
        "not checked",
    ]


@pytest.mark.parametrize("change", [{"runs": 1}, {"one_sided": True}])
def test_a_root_bent_open_is_not_judged(change):
    """One side only and a force across, or a lever: 4.12. Along the run it is judged."""
    part = replace(PLAIN, **change)
    for outcome in (_ask(part, across=1e3), _ask(replace(part, eccentricity=50.0), along=1e3)):
        finding = _found(outcome, "weld throat")
        assert finding.verdict == "not checked"
        assert "4.12" in finding.reason
    assert _found(_ask(part, along=1e3), "weld throat").verdict == "holds"


def test_a_run_round_a_hollow_section_is_judged():
    """4.12(3): whole length, no ends; with a force along its direction changes, so the simplified method counts."""
    ring = replace(PLAIN, runs=1, around=True, length=300.0)
    pulled = _found(_ask(ring, across=50e3), "weld throat")
    assert pulled.capacity.value / 300 / 1e3 == printed("0.891")
    both = [replace(ring, method=m) for m in ("simplified", "directional")]
    assert _found(_ask(both[1], across=50e3), "weld throat").capacity.value > pulled.capacity.value
    moved = [_found(_ask(p, along=50e3), "weld throat").capacity.value for p in both]
    assert moved[0] == pytest.approx(moved[1])
    assert "weld group" in _found(_ask(replace(ring, eccentricity=9.0), along=1e3), "weld throat").reason


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
    outcome = _ask(replace(PLAIN, steel=find_steel(steel)), along=1e3)
    assert reason in _found(outcome, "weld throat").reason
    assert _found(outcome, "fatigue").verdict == "not checked"
    assert Result("", {}, outcome).verdict == "incomplete"


def test_unknown_steel_called_weldable_holds_only_if():
    """Then S235 is taken, and the verdict rests on it."""
    result = Result("", {}, _ask(replace(PLAIN, steel=find_steel("unknown"), weldable=True), along=1e3))
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
    finding = _found(_ask(part, along=g["force"] / 1.5), "weld throat")
    assert finding.utilisation == printed(expected["utilisation"])


@pytest.mark.parametrize("spacing", [20.0, 60.0, 150.0, 700.0])
def test_lever_in_the_plane_is_the_groups_answer(spacing):
    """Three runs in a lap; the general group in space says the same. A lever of unknown plan is never better."""
    part = replace(PLAIN, runs=3, returned=True, eccentricity=80.0, plane="in", spacing=spacing)
    found = _found(_ask(part, along=10e3), "weld throat").utilisation
    lines = [Line((x, -60, 0), (x, 60, 0), 4.0) for x in (-spacing, 0, spacing)]
    stations = weld_group(lines).tractions((0, 15e3, 0), (0, 0, 0), (80, 0, 0))
    worst = max(float((s.tractions**2).sum(axis=1).max()) for s in stations) ** 0.5
    assert found == pytest.approx(worst / fillet_strength(S275, None, BASIS, True).simplified)
    unknown = _ask(replace(part, plane=None, spacing=None), along=10e3)
    assert _found(unknown, "weld throat").utilisation >= found * (1 - 1e-3)
    assert any("worst spacing" in a.text for a in unknown.assumptions)


def test_long_runs_lose_strength():
    """weld-13: 1500 mm at a throat of 5 counts for 0.8."""
    part = replace(PLAIN, throat=5.0, length=1500.0, returned=True)
    short = replace(part, length=750.0)
    long_one, short_one = (_found(_ask(p, along=100e3), "weld throat").capacity.value for p in (part, short))
    assert long_one / short_one == pytest.approx(2 * 0.8)


def test_fatigue_takes_root_across_and_shear_along():
    """Category 36 on the throat for a pull across, 80 with m = 5 along it, both at rated force."""
    area = 2 * 112 * 4
    across, along = (_found(_ask(PLAIN, **{way: 40e3}), "fatigue") for way in ("across", "along"))
    assert across.reason.startswith("weld root, category 36")
    assert along.reason.startswith("fillet weld in shear, category 80")
    assert across.demand.value == along.demand.value == pytest.approx(40e3 / area)
    both = _found(_ask(PLAIN, along=40e3, across=40e3), "fatigue")
    assert both.utilisation > max(across.utilisation, along.utilisation)


def test_thick_plate_pulled_through_its_thickness_is_a_condition():
    """Over 20 mm: free of layers, else the verdict is only holds if."""
    outcome = _ask(replace(PLAIN, thickest=25.0), across=10e3)
    assert Result("", {}, outcome).verdict == "holds if"
    assert "ultrasound" in Result("", {}, outcome).conditions[0].condition
    assert Result("", {}, _ask(replace(PLAIN, thickest=25.0), along=10e3)).verdict == "holds"


def test_thin_parts_are_not_covered():
    """4.1: 4 mm, or 2.5 mm for a hollow section."""
    assert "thinner than EN 1993-1-8 4.1" in _found(_ask(replace(PLAIN, thickness=3.0), 1e3), "weld throat").reason
    ring = replace(PLAIN, runs=1, around=True, thickness=3.0)
    assert _found(_ask(ring, across=1e3), "weld throat").verdict == "holds"


def test_throats_the_plates_do_not_take_get_advice():
    """Above 0.7 of the thinner part, or too small for a thick one: advice, never a verdict."""
    assert "above 0.7 x the thinner part of 5 mm" in _ask(replace(PLAIN, thickness=5.0), along=1e3).advice[0]
    assert "cools too fast" in _ask(replace(PLAIN, thickest=36.0), along=1e3).advice[0]
    assert _ask(replace(PLAIN, thickness=10.0, thickest=16.0), along=1e3).advice == ()


def test_throat_as_strong_as_the_part_is_told():
    """Plate 8 S275: 0.504 t on each side; a tube wall of 5 needs twice that share on its one side."""
    (text, *_) = _ask(replace(PLAIN, thickness=8.0), along=1e3).answers
    assert text == ("foot: a throat of 4.1 mm on both sides is as strong as the part of 8 mm (4.5.3.2, pulled square)")
    ring = replace(PLAIN, runs=1, around=True, length=300.0, thickness=5.0)
    assert "a throat of 5.1 mm all round" in _ask(ring, across=1e3).answers[0]


def test_corners_of_a_hollow_section_are_a_condition():
    """4.14: until the make is stated, or the wall is 4 mm at most."""
    ring = replace(PLAIN, runs=1, around=True, length=300.0, thickness=5.0)
    told = [Result("", {}, _ask(part, across=1e3)).verdict for part in (ring, replace(ring, killed=True))]
    assert told == ["holds if", "holds"]
    assert Result("", {}, _ask(replace(ring, thickness=4.0), across=1e3)).verdict == "holds"


def test_a_part_thicker_than_its_standard_lists_is_not_judged():
    """EN 10025-2 is listed to 100 mm here."""
    assert "no strength at 120 mm" in _found(_ask(replace(PLAIN, thickest=120.0), 1e3), "weld throat").reason


def test_contradictions_are_named_at_once():
    """No throat, a negative length, no runs."""
    with pytest.raises(InputError) as caught:
        _ask(replace(PLAIN, throat=None, length=-5.0, runs=0), along=1e3)
    assert {problem.key for problem in caught.value.problems} == {"throat", "length", "runs"}
    assert 'weld "foot", throat: neither throat nor leg is given' in str(caught.value)
    with pytest.raises(InputError, match="throat and leg are both given"):
        _ask(replace(PLAIN, leg=6.0), along=1e3)


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
    assert _found(check_weld(PLAIN, loads, BASIS), "weld throat").demand.value == 90e3


_FORCE = st.just(0.0) | st.floats(1e-3, 1e6)
_METHOD = st.sampled_from(["simplified", "directional"])
LAWS = settings(max_examples=40, deadline=None)


@LAWS
@given(_FORCE, _FORCE, st.floats(1.0, 10.0), _METHOD, st.floats(0, 200))
def test_actions_times_s_multiply_the_utilisation(along, across, factor, method, lever):
    """Throat: every action doubled doubles the utilisation."""
    part = replace(PLAIN, method=method, eccentricity=lever)
    one, more = (
        _found(check_weld(part, [WeldLoads(ULTIMATE, f * along, f * across)], BASIS), "weld throat").utilisation
        for f in (1.0, factor)
    )
    assert more == pytest.approx(factor * one)


@LAWS
@given(_FORCE, _FORCE, st.floats(0, 1e5), _METHOD)
def test_more_load_is_never_less(along, across, more, method):
    """Either force grown."""
    part = replace(PLAIN, method=method)
    base, *grown = (
        _found(check_weld(part, [WeldLoads(ULTIMATE, x, y)], BASIS), "weld throat").utilisation
        for x, y in ((along, across), (along + more, across), (along, across + more))
    )
    assert min(grown) >= base - 1e-12


@LAWS
@given(_FORCE, _FORCE)
def test_simplified_is_never_bolder_than_directional(along, across):
    """For a force along a leg, the simplified method is the safe one."""
    used = [
        _found(check_weld(replace(PLAIN, method=m), [WeldLoads(ULTIMATE, along, across)], BASIS), "weld throat")
        for m in ("simplified", "directional")
    ]
    assert used[0].utilisation >= used[1].utilisation - 1e-12


@LAWS
@given(_FORCE, _FORCE, st.integers(1, 4))
def test_every_run_doubled_halves_it(along, across, runs):
    """Twice the runs, half the utilisation."""
    part = replace(PLAIN, runs=2 * runs)
    one, two = (
        _found(check_weld(replace(part, runs=n), [WeldLoads(ULTIMATE, along, across)], BASIS), "weld throat")
        for n in (2 * runs, 4 * runs)
    )
    assert two.utilisation == pytest.approx(one.utilisation / 2)


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
    texts = [a.text for a in _ask(PLAIN, along=0.0, across=20e3).assumptions]
    assert any("ask plate_on_flange or tube_joint" in text for text in texts)
    assert any("no plate is pulled through a thickness of more than 20 mm" in text for text in texts)
    assert not any("4.10" in a.text for a in _ask(PLAIN, along=20e3).assumptions)


# EN 1993-1-9 Table 8.5 (memory): root 36 on the throat, toe 40 on the plate; t < 1.8 a turns the one before the other.
def test_a_thin_part_cracks_at_the_toe_first():
    """Two runs of 4 mm on 6 mm: the plate feels 2 x 4 / 6 of the throat's range, at category 40."""
    thin, thick = (_ask(replace(PLAIN, thickness=t), along=0.0, across=20e3) for t in (6.0, 8.0))
    assert _found(thin, "fatigue").reason.startswith("cruciform toe")
    assert _found(thick, "fatigue").reason.startswith("weld root")
    root = 20e3 / (2 * 4 * PLAIN.effective)
    assert _found(thin, "fatigue").demand.value == pytest.approx(root * 2 * 4 / 6)
    assert any("at least 7.2 mm thick" in a.text for a in _ask(PLAIN, along=0.0, across=20e3).assumptions)
