"""Butt welds, plates across flanges, intermittent fillets, what must be known of thick and cold-formed steel."""

from dataclasses import replace

import pytest

from structcheck.checks.basis import ULTIMATE, Basis, from_rated
from structcheck.checks.weld import WeldLoads
from structcheck.checks.weld_butt import Butt, check_butt
from structcheck.checks.weld_cautions import cold_corner, thickest_cold_bend
from structcheck.checks.weld_flange import PlateOnFlange, PlateOnFlangeLoads, check_plate_on_flange, effective_width
from structcheck.errors import InputError
from structcheck.materials.steels import find_steel
from structcheck.shapes.library import look_up
from tests.printed import printed
from tests.reference.reading import case

BASIS = Basis()
S235 = find_steel("S235")
TEE = Butt(name="tee", length=100.0, thickness=20.0, steel=S235, run_off=True, inspected=True)
STIFF = PlateOnFlange(
    name="lug", base=look_up("IPE 160").section, base_steel=S235, width=60.0, thickness=10.0, steel=S235, throat=5.0
)


def _butt(part, along=0.0, across=0.0):
    return check_butt(part, from_rated(BASIS, lambda c, f: WeldLoads(c, along * f, across * f)), BASIS)


def _flange(part, force):
    return check_plate_on_flange(part, from_rated(BASIS, lambda c, f: PlateOnFlangeLoads(c, force * f)), BASIS)


def _found(outcome, check="weld throat"):
    return next(f for f in outcome.findings if f.check == check)


def test_full_penetration_has_the_plates_strength():
    """4.7.1: f_y of the plate (225 MPa at 20 mm), no beta_w; the plate's own yield is checked."""
    outcome = _butt(TEE, across=100e3)
    assert _found(outcome).capacity.value == pytest.approx(20 * 100 * 225)
    assert _found(outcome, "yield at greatest force").demand.value == pytest.approx(1.25 * 100e3 / 2000)
    assert _found(_butt(TEE, along=100e3)).capacity.value == pytest.approx(20 * 100 * 225 / 3**0.5)
    short = _butt(replace(TEE, run_off=False), across=100e3)
    assert _found(short).capacity.value == pytest.approx(20 * (100 - 40) * 225)


def test_tee_of_two_partial_welds():
    """weld-17: 9 + 11 on 20 with a gap of 3 counts as full; a gap of 3.5, or 9 + 10, or an unknown gap does not."""
    g, expected = case("welds", "weld-17")
    sizes = {"thickness": float(g["t"]), "penetration": tuple(map(float, g["penetration"])), "gap": float(g["gap"])}
    tee = replace(TEE, **sizes, proven=True)
    assert tee.full is expected["full"]
    assert not replace(tee, gap=3.5).full
    assert not replace(tee, gap=None).full
    assert not replace(tee, penetration=(9.0, 10.0)).full
    assert not replace(tee, proven=False).full and replace(tee, proven=False, penetration=(11.0, 13.0)).full
    assert _found(_butt(tee, across=1e3), "weld throat").source == "EN 1993-1-8:2005 4.7.1, as the plate"


def test_partial_penetration_is_a_fillet_less_two_millimetres():
    """4.7.2: 207.8 MPa on 7 + 7 of 9 + 9."""
    part = replace(TEE, penetration=(9.0, 9.0), gap=2.0)
    assert _found(_butt(part, across=1e3)).capacity.value / 100 / 14 == printed("207.8")
    assert _found(_butt(replace(part, proven=True), across=1e3)).capacity.value / 100 / 18 == printed("207.8")
    assert _butt(part, across=1e3).does_not_apply[0].check == "yield at greatest force"
    assert "weld root" in _found(_butt(part, across=1e3), "fatigue").reason


def test_partial_welds_from_both_sides_are_no_more_than_the_plate():
    """16 + 16 in 20 mm, less 2 each: 20 mm bear, not 28."""
    deep = _found(_butt(replace(TEE, penetration=(16.0, 16.0)), across=1e3)).capacity.value
    assert deep / 100 / 20 == printed("207.8")


def test_thin_plates_are_not_covered():
    """4.1: from 4 mm on."""
    outcome = _butt(replace(TEE, thickness=3.5), across=1e3)
    assert {_found(outcome, c).verdict for c in ("weld throat", "fatigue", "yield at greatest force")} == {
        "not checked"
    }


def test_partial_weld_from_one_side_opens():
    """Pulled across, not checked; along, judged."""
    part = replace(TEE, penetration=(9.0,))
    assert "4.12" in _found(_butt(part, across=1e3)).reason
    assert _found(_butt(part, along=1e3)).verdict == "holds"


def test_a_root_nobody_inspected_is_category_36():
    """71 only where it was."""
    found = [_found(_butt(replace(TEE, inspected=i), across=90e3), "fatigue").reason[:40] for i in (True, False)]
    assert found[0].startswith("butt weld, category 71")
    assert found[1].startswith("butt weld from one side, root not inspec")


def test_butt_input_that_cannot_be():
    """Deeper than the plate, three sides."""
    with pytest.raises(InputError, match="is more than the plate's 20 mm"):
        _butt(replace(TEE, penetration=(21.0,)))
    with pytest.raises(InputError, match="leaves part of the thickness unwelded"):
        _butt(replace(TEE, gap=2.0))
    with pytest.raises(InputError, match="is all of the plate's 20 mm"):
        _butt(replace(TEE, gap=30.0, penetration=(4.0, 4.0)))
    with pytest.raises(InputError, match="is not one side or two"):
        _butt(replace(TEE, penetration=(5.0, 5.0, 5.0)))


def test_only_part_of_a_plate_pulls_on_a_flange():
    """flange-01: 44.1 mm; the plate's width where that is less."""
    g, expected = case("welds", "flange-01")
    part = replace(STIFF, width=60.0, thickness=g["t_p"], steel=find_steel("S355"))
    assert effective_width(replace(part, steel=replace(part.steel, steps=((40, 355, 510),)))) == printed(
        expected["b_eff"]
    )
    assert effective_width(replace(STIFF, width=30.0)) == 30.0


def test_flange_must_be_stiffened():
    """4.10(4): under f_y/f_u of the plate's width the flange is not enough alone."""
    wide = replace(STIFF, width=80.0, thickness=20.0, throat=15.0, inspected=True, steel=find_steel("S355"))
    outcome = _flange(wide, 10e3)
    assert "stiffen the flange" in _found(outcome, "flange bending").reason
    assert _found(outcome, "flange bending").verdict == "not checked"
    assert "wider than the flange" in _found(_flange(replace(STIFF, width=90.0), 1e3), "flange bending").reason


def test_weld_on_a_flange_is_for_the_whole_plate():
    """4.10(5): full strength of the plate, though the force is small and part of the plate idles."""
    small = _flange(replace(STIFF, throat=4.5, inspected=True), 1.0)
    assert _found(small).verdict == "fails"
    assert _found(small).demand.value == printed("4.62")
    assert _found(_flange(replace(STIFF, throat=5.0, inspected=True), 1.0)).verdict == "holds"
    assert _found(_flange(STIFF, 1.0)).demand.value == pytest.approx(4.616 / 0.7, rel=1e-3)


def test_a_channel_or_tube_is_not_covered_here():
    """Their flanges have a web at one side, or are tube joints."""
    other = replace(STIFF, base=look_up("UPN 140").section)
    assert "no rolled I or H" in _found(_flange(other, 1e3), "flange bending").reason


@pytest.mark.parametrize("r_t, t", [(25, float("inf")), (10, 16), (3, 12), (2, 10), (1.5, 8), (1, 4), (0.9, 0)])
def test_cold_bends(r_t, t):
    """EN 1993-1-8 Table 4.2, fatigue column, memory."""
    assert thickest_cold_bend(r_t) == t


def test_corners_of_cold_formed_tube():
    """4.14: a 4 mm wall may be welded, a 5 mm one only of killed steel, a hot-finished one always."""
    thin, thick, hot = (look_up(f"SHS {name}").section for name in ("80x80x4", "100x100x5", "100x100x5 hot finished"))
    assert cold_corner("p", thin, False) == ()
    assert cold_corner("p", hot, False) == ()
    assert cold_corner("p", thick, False)[0].condition == "SHS 100x100x5 is of aluminium-killed steel, J2H or K2H"
    assert cold_corner("p", thick, True)[0].condition == ""


def test_missing_cases_are_no_pass():
    """Only an ultimate case: fatigue is not checked."""
    outcome = check_butt(TEE, [WeldLoads(ULTIMATE, 0.0, 1e3)], BASIS)
    assert _found(outcome, "fatigue").verdict == "not checked"


def test_a_thick_flange_is_pulled_through_its_thickness():
    """HEB 300 has a flange of 19 mm; at 20.5 mm, as HEB 320 has, it may be layered (EN 1993-1-10 section 3)."""
    base = look_up("HEB 300").section
    thin, thick = (
        replace(STIFF, base=replace(base, geometry=replace(base.shape, tf=tf))) for tf in (base.shape.tf, 20.5)
    )
    assert not any("through its thickness" in a.text for a in _flange(thin, 1e3).assumptions)
    assert any("free of layers" in a.condition for a in _flange(thick, 1e3).assumptions)


def test_a_plate_on_a_flange_keeps_the_least_sizes():
    """Throat 3 mm, effective length 30 mm; a plate under 4 mm is not covered (4.1)."""
    assert _found(_flange(replace(STIFF, throat=2.5), 1e3), "weld size").verdict == "fails"
    assert _found(_flange(replace(STIFF, width=35.0), 1e3), "weld size").reason.startswith("effective length")
    thin = _flange(replace(STIFF, thickness=3.0, throat=3.0), 1e3)
    assert {_found(thin, check).verdict for check in ("weld throat", "fatigue")} == {"not checked"}
