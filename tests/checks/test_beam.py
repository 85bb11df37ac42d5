"""The beam question: each finding with its demand, capacity, source and reason."""

import numpy as np
import pytest
import scipy.optimize

from structcheck.checks.basis import RATED, ULTIMATE, Basis
from structcheck.checks.beam import Beam, BeamLoad, check_beam, needed
from structcheck.checks.member_stress import Station
from structcheck.errors import InputError
from structcheck.findings import Outcome, judged
from structcheck.materials.steels import find_steel
from structcheck.shapes.built_up import welded_t
from structcheck.shapes.library import look_up
from tests.printed import printed
from tests.reference.reading import case

EIGHT_TONNES = 8000 * 9.80665


def beam(name="SHS 100x100x5", steel="S275", span=900.0, **more):
    """A beam of a library section; its steel takes the section's route."""
    section = look_up(name).section
    return Beam("head", section, find_steel(steel, route=section.route), span=span, **more)


def by_check(outcome):
    """Findings by name; no check twice."""
    found = {f.check: f for f in outcome.findings}
    assert len(found) == len(outcome.findings)
    return found


def asked(part, loads, basis=None):
    """Findings of a beam by name."""
    return by_check(check_beam(part, loads, basis or Basis()))


def test_two_tubes_under_eight_tonnes():
    """M = P L / 4 at 1.5 P against two plastic moments; the class is in the text (EN 1993-1-1:2005 6.2.5, derived)."""
    part = beam(pieces=2, limit=900 / 500)
    found = asked(part, [BeamLoad(EIGHT_TONNES, 450.0)])
    bending = found["bending"]
    assert bending.demand.value == pytest.approx(1.5 * EIGHT_TONNES * 900 / 4)
    assert bending.capacity.value == pytest.approx(2 * part.section.Wpl_y * 275)
    assert bending.capacity.unit == "kN m"
    assert bending.reason == "x = 450 mm; class 1 (flange c/t 17.0, limits 30.5 / 35.1 / 38.8)"
    assert bending.source == "EN 1993-1-1:2005 (6.13)"
    assert bending.utilisation == printed("0.745")
    assert found["shear"].demand.value == pytest.approx(0.75 * EIGHT_TONNES)
    assert found["shear"].capacity.value == pytest.approx(2 * part.section.Avz * 275 / 3**0.5)
    yielding = found["yield at greatest force"]
    assert yielding.demand.value == pytest.approx(1.25 * EIGHT_TONNES * 900 / 8 / part.section.Wel_y, rel=1e-9)
    assert yielding.capacity.value == 275.0


def test_a_flat_bar_full_by_the_standard_fails_at_the_greatest_force():
    """EN bending 1.00 at 1.5 R is 1.25 f_y at 1.25 R: the plastic moment of a rectangle is 1.5 elastic ones."""
    part = beam("FL 80x10", "S235", 600.0)
    F = 4 * part.section.Wpl_y * 235 / 600 / 1.5
    found = asked(part, [BeamLoad(F, 300.0)])
    assert found["bending"].utilisation == pytest.approx(1.0)
    assert found["yield at greatest force"].utilisation == pytest.approx(1.25)
    assert found["yield at greatest force"].verdict == "fails"


def test_low_shear_is_said_to_be_low():
    """6.2.8(2): the finding stands, with the clause's ratio, and says that no allowance is made."""
    finding = asked(beam(pieces=2), [BeamLoad(EIGHT_TONNES, 450.0)])["bending and shear"]
    assert finding.reason.endswith("V_Ed is at most V_pl,Rd / 2: no allowance as it stands (6.2.8(2))")
    assert finding.clause_ratio == pytest.approx(finding.utilisation)
    assert finding.capacity.value == 1.0


@pytest.mark.parametrize("span", [120.0, 250.0, 400.0])
def test_the_factor_under_high_shear_is_the_root_of_the_clause(span):
    """k M = M_V,Rd(k V) solved by bracketing, over the places of a short beam (scipy, derived)."""
    part = beam("IPE 200", "S235", span)
    finding = asked(part, [BeamLoad(400e3, span / 2)])["bending and shear"]
    s = part.section.shape
    M, V = 1.5 * 400e3 * span / 4, 1.5 * 200e3
    V_pl, W_v = part.section.Avz * 235 / 3**0.5, (s.hw * s.tw) ** 2 / (4 * s.tw)

    def left(k):
        rho = (2 * k * V / V_pl - 1) ** 2 if k * V > V_pl / 2 else 0.0
        return k * M - 235 * (part.section.Wpl_y - rho * W_v)

    at_load = min(scipy.optimize.brentq(left, 1e-6, V_pl / V), V_pl / V) if left(V_pl / V) > 0 else V_pl / V
    assert finding.utilisation == pytest.approx(1 / at_load, rel=1e-9)


def test_the_deflection_has_its_shear_part():
    """P L^3 / 48 E I and P L / 4 G A_s for two tubes; the user's limit gives the verdict."""
    part = beam(pieces=2, limit=1.0)
    outcome = check_beam(part, [BeamLoad(EIGHT_TONNES, 450.0)], Basis())
    finding = by_check(outcome)["deflection"]
    s, P = part.section, EIGHT_TONNES / 2
    bending, shear = P * 900**3 / (48 * 210e3 * s.Iy), P * 900 / (4 * 210e3 / 2.6 * s.Asz)
    assert finding.demand.value == pytest.approx(bending + shear)
    assert finding.verdict == "fails"
    assert outcome.answers[0] == (
        "head: deflection at rated load 1.168 mm at x = 450 mm (bending 1.046 mm, shear 0.1214 mm; L/771)"
    )


def test_shear_area_of_the_resistance_is_not_that_of_the_deflection():
    """IPE 330's A_v is a third above the web: an IPE 300's too, and the deflection uses the web."""
    section = look_up("IPE 300").section
    assert section.Avz > 1.2 * section.Asz
    found = check_beam(beam("IPE 300", "S235", 600.0, limit=1.0), [BeamLoad(300e3, 300.0)], Basis())
    finding = by_check(found)["deflection"]
    bending = 300e3 * 600**3 / (48 * 210e3 * section.Iy)
    assert finding.demand.value - bending == pytest.approx(300e3 * 600 / (4 * 210e3 / 2.6 * section.Asz))


def test_our_own_limit_only_advises():
    """Without a limit the deflection is an answer; over L/500 there is advice, never a verdict."""
    outcome = check_beam(beam(), [BeamLoad(2 * EIGHT_TONNES, 450.0)], Basis())
    assert "deflection" not in by_check(outcome)
    assert any(n.check == "deflection" for n in outcome.does_not_apply)
    assert outcome.advice == ("head: deflection at rated load is over L/500, 1.8 mm, our advice for a coarse frame",)


def test_the_largest_deflection_is_not_under_an_off_centre_load():
    """The answer names the place: 0.87885 mm at 1081.7 mm for a load at 1300 mm of 2000 (bending alone, read)."""
    outcome = check_beam(beam(span=2000.0), [BeamLoad(20e3, 1300.0)], Basis())
    place = float(outcome.answers[0].split("x = ")[1].split(" mm")[0])
    assert 1000 < place < 1300


def test_times_on_yield_at_rated_load():
    """f_y over the elastic stress, with the shear of the fibres."""
    part = beam()
    outcome = check_beam(part, [BeamLoad(20e3, 450.0)], Basis())
    assert outcome.times_on_yield[0].value == pytest.approx(275 / (20e3 * 900 / 4 / part.section.Wel_y))


def test_what_a_beam_needs():
    """Web for I and channel, tube face for hollow, spreader for two pieces; what is not made is not checked."""
    assert {"web under load", "lateral torsional buckling"} < set(needed(beam("IPE 200")))
    assert "tube face" not in needed(beam("IPE 200"))
    assert "torsion" not in needed(beam("IPE 200"))
    assert {"web under load", "torsion", "spreader plate"} < set(needed(beam("UPN 120", pieces=2)))
    assert {"tube face"} < set(needed(beam()))
    assert "spreader plate" not in needed(beam())
    found = asked(beam("UPN 120", "S235", pieces=2, tied=True), [BeamLoad(1e3, 450.0)])
    missing = {"web under load", "spreader plate", "brittle fracture"}
    assert {check for check, f in found.items() if f.verdict == "not checked"} == missing


def test_findings_from_beside_are_taken_in():
    """Web, tube face and spreader come from their own checks; where both judge, the worse stays."""
    web = judged("head", "web under load", "ultimate", 1.0, 2.0, "kN", "a test")
    worse = judged("head", "yield at greatest force", "greatest force", 400.0, 235.0, "MPa", "a test")
    outcome = check_beam(beam("IPE 200"), [BeamLoad(1e3, 450.0)], Basis(), Outcome((web, worse)))
    found = by_check(outcome)
    assert found["web under load"] == web
    assert found["yield at greatest force"] == worse


def test_tubes_and_square_bars_do_not_buckle_sideways():
    """Named among what does not apply; a flat on edge and a channel are judged."""
    for name in ("SHS 100x100x5", "CHS 168.3x5", "RD 40", "SQ 40"):
        outcome = check_beam(beam(name), [BeamLoad(1e3, 450.0)], Basis())
        assert any(n.check == "lateral torsional buckling" for n in outcome.does_not_apply)
    for name in ("FL 80x10", "UPN 120", "IPE 200"):
        assert "lateral torsional buckling" in asked(beam(name), [BeamLoad(1e3, 450.0)])


def test_an_untied_pair_of_channels_warps():
    """TW-01 (derived): near f_y of S235 from warping alone; tied, there is no torsion."""
    given, expected = case("members", "TW-01")
    loads = [BeamLoad(given["force"], given["span"] / 2)]
    part = beam("UPN 120", "S235", given["span"], pieces=2)
    outcome = check_beam(part, loads, Basis())
    finding = by_check(outcome)["torsion"]
    warp = float(finding.reason.split(" MPa, ")[1].split(" MPa")[0])
    assert warp == pytest.approx(expected["sigma_w"], rel=5e-3)
    assert finding.verdict == "fails"
    assert any("ties not stated" in a.text for a in outcome.assumptions)
    tied = check_beam(beam("UPN 120", "S235", given["span"], pieces=2, tied=True), loads, Basis())
    assert any(n.check == "torsion" for n in tied.does_not_apply)
    assert by_check(tied)["yield at greatest force"].utilisation < finding.utilisation


@pytest.mark.parametrize("section", ["UPN 120", "FL 100x15"])
def test_stated_ties_are_printed_and_said_not_to_be_judged(section):
    """Of channels and flats alike; not where the pieces are not tied, or there is one piece to tie."""
    words = "its pieces are tied together at the load and at each support (stated); the ties are not judged"
    loads = [BeamLoad(1e3, 450.0)]

    def texts(**how) -> list[str]:
        return [a.text for a in check_beam(beam(section, "S235", **how), loads, Basis()).assumptions]

    assert words in texts(pieces=2, tied=True)
    for how in ({"pieces": 2, "tied": False}, {"pieces": 2}, {"pieces": 1, "tied": True}):
        assert words not in texts(**how)


def test_the_twist_grows_as_the_pair_leans_sideways():
    """At the factor found, bending with the twist grown by 1 / (1 - k / k_cr) just reaches f_y (derived)."""
    part = beam("UPN 120", "S235", 700.0, pieces=2)
    outcome = asked(part, [BeamLoad(EIGHT_TONNES, 350.0)])
    finding, lateral = outcome["torsion"], outcome["lateral torsional buckling"]
    k = 1 / finding.utilisation
    M_cr = float(lateral.reason.split("M_cr ")[1].split(" kN m")[0]) * 1e6
    M = lateral.demand.value
    bending = k * M / 2 / part.section.Wel_y
    warp = float(finding.reason.split(" MPa, ")[1].split(" MPa")[0])
    grown = 1 / (1 - k * M / M_cr)
    # The shear of Saint-Venant and warping torque at the same place adds 2 %.
    assert bending + k * warp * grown == pytest.approx(235.0, rel=0.03)
    assert finding.clause_ratio < finding.utilisation**2


def test_the_shear_centre_of_a_channel_lies_behind_its_web():
    """Parallel flanges: 3 b^2 t_f / (6 b t_f + h t_w) of the middle lines; tapered UPN 120: tables give 17.8 mm.

    Tables of rolled sections (recalled): 30.3 mm from centroid to shear centre, 16.0 mm from the back to the centroid.
    """
    from structcheck.checks.member_torsion import warping

    section = look_up("UPE 180").section
    s = section.shape
    b, h = s.b - s.tw / 2, s.h - s.tf
    assert warping(section).e == pytest.approx(3 * b**2 * s.tf / (6 * b * s.tf + h * s.tw), rel=1e-9)
    assert warping(look_up("UPN 120").section).e == pytest.approx(30.3 - 16.0 + 3.5, rel=0.05)


def test_sectorial_properties_agree_with_the_warping_constant():
    """omega integrated over the middle line of a channel gives I_w (thin-wall theory)."""
    from structcheck.checks.member_torsion import warping

    section = look_up("UPE 180").section
    s, e = section.shape, warping(section).e
    b, h = s.b - s.tw / 2, s.h - s.tf
    u, z = np.linspace(0, b, 20001), np.linspace(-h / 2, h / 2, 20001)
    flange = (u - e) * h / 2
    I_w = 2 * s.tf * np.trapezoid(flange**2, u) + s.tw * np.trapezoid((e * z) ** 2, z)
    assert I_w == pytest.approx(section.Iw, rel=1e-3)
    assert warping(section).omega == pytest.approx(np.abs(flange).max())


def test_a_class_4_tube_is_judged_by_its_effective_modulus():
    """SHS 200x200x5 in S355: class 4 flange; the resistance is below the elastic one and the clause is named."""
    part = beam("SHS 200x200x5 hot", "S355", 2000.0)
    finding = asked(part, [BeamLoad(50e3, 1000.0)])["bending"]
    assert "class 4 (flange" in finding.reason
    assert finding.source == "EN 1993-1-1:2005 (6.15)"
    assert finding.capacity.value < part.section.Wel_y * 355


def test_walls_thinner_than_three_millimetres_are_not_checked():
    """EN 1993-1-1 1.1.2(1); the elastic stress is still judged."""
    found = asked(beam("SHS 40x40x2.5"), [BeamLoad(1e3, 450.0)])
    assert found["bending"].verdict == "not checked"
    assert "2.5 mm is thinner than the 3 mm" in found["bending"].reason
    assert found["yield at greatest force"].verdict == "holds"


def test_steels_outside_the_standard_are_not_checked():
    """S185: strength not checked, the reason names the steel; nominal stress against its f_y is."""
    found = asked(beam("IPE 200", "S185"), [BeamLoad(1e3, 450.0)])
    assert found["bending"].reason == "S185 is no steel of EN 1993-1-1 (section 3)"
    assert found["lateral torsional buckling"].verdict == "not checked"
    assert found["yield at greatest force"].capacity.value == 185.0


def test_an_unknown_steel_is_a_condition():
    """S235 is assumed, and strength rests on it."""
    outcome = check_beam(beam("IPE 200", "unknown"), [BeamLoad(1e3, 450.0)], Basis())
    assert any(a.condition == "f_y >= 235 MPa" for a in outcome.assumptions)


def test_yield_strength_goes_by_the_thickest_part():
    """HEB 240 has a 17 mm flange: S235 counts 225 MPa, also for its 10 mm web."""
    found = asked(beam("HEB 240", "S235"), [BeamLoad(1e3, 450.0)])
    assert found["yield at greatest force"].capacity.value == 225.0


def test_an_angle_free_to_move_sideways_sags_more():
    """Vertical give of an angle is that of I_y - I_yz^2 / I_z: 1.6 times the held one for equal legs."""
    part = beam("L 80x80x8", "S235", limit=1.0)
    s = part.section
    free = s.Iy - s.Iyz**2 / s.Iz
    found = asked(part, [BeamLoad(1e3, 450.0)])["deflection"].demand.value
    assert found == pytest.approx(1e3 * 900**3 / (48 * 210e3 * free) + 1e3 * 900 / (4 * 210e3 / 2.6 * s.Asz))


def test_a_stem_in_compression_is_not_passed_by_its_flange():
    """A T hung upside down: a cantilever puts the stem in compression, a simple beam the flange."""
    section = welded_t(120, 100, 6, 10)
    steel = find_steel("S355")
    simple = asked(Beam("t", section, steel, span=500.0), [BeamLoad(1e3, 250.0)])["bending"]
    hung = asked(Beam("t", section, steel, span=500.0, supports="cantilever"), [BeamLoad(1e3, 500.0)])["bending"]
    assert "class 4 (web" in hung.reason or "class 3 (web" in hung.reason
    assert hung.capacity.value <= simple.capacity.value


def test_metal_lost_from_every_face():
    """0.5 mm a face makes a 5 mm wall 4 mm and the tube 99 mm wide."""
    part = beam(corrosion=0.5)
    finding = asked(part, [BeamLoad(20e3, 450.0)])["bending"]
    thin = look_up("SHS 100x100x4").section
    assert 0.95 * thin.Wpl_y * 275 < finding.capacity.value < thin.Wpl_y * 275
    with pytest.raises(InputError, match="leaves no wall"):
        check_beam(beam(corrosion=3.0), [BeamLoad(20e3, 450.0)], Basis())


def test_the_detail_decides_fatigue():
    """Parent metal unless stated, on the condition that nothing is welded on; "unknown" is category 36."""
    loads = [BeamLoad(20e3, 450.0)]
    outcome = check_beam(beam(), loads, Basis())
    assert any(a.condition == "nothing is welded on where the member is stressed" for a in outcome.assumptions)
    stated = check_beam(beam(detail="transverse attachment to 50 mm"), loads, Basis())
    assert not any(a.condition for a in stated.assumptions)
    unknown = asked(beam(detail="unknown"), loads)["fatigue"]
    assert "category 36" in unknown.reason
    assert unknown.utilisation > asked(beam(detail="transverse attachment to 50 mm"), loads)["fatigue"].utilisation
    with pytest.raises(InputError, match="is no detail known here"):
        check_beam(beam(detail="weldy"), loads, Basis())


def test_a_static_frame_has_no_verdict_on_fatigue():
    """The life is still an answer."""
    outcome = check_beam(beam(), [BeamLoad(20e3, 450.0)], Basis(static=True))
    assert "fatigue" not in by_check(outcome)
    assert any("life" in answer for answer in outcome.answers)


@pytest.mark.parametrize(
    ("part", "loads", "words"),
    [
        (beam(span=-1.0), [BeamLoad(1e3, 0.0)], "is no span"),
        (beam(), [], "is missing"),
        (beam(), [BeamLoad(1e3, 1000.0)], "is off the beam"),
        (beam(), [BeamLoad(1e3, 50.0, 200.0)], "is off the beam"),
        (beam(limit=0.0), [BeamLoad(1e3, 450.0)], "is no limit"),
        (beam(quality="J9"), [BeamLoad(1e3, 450.0)], "is no quality"),
        (beam(held_at=(950.0,)), [BeamLoad(1e3, 450.0)], "is off the beam"),
    ],
)
def test_nonsense_is_refused_with_words(part, loads, words):
    """Every fault names its key and what to write."""
    with pytest.raises(InputError, match=words) as refused:
        check_beam(part, loads, Basis())
    assert all(problem.part == 'beam "head"' for problem in refused.value.problems)


def test_moments_about_both_axes_buckle_a_beam_of_a_frame_together():
    """M_y / M_b + M_z / M_z,Rd at the frame's own stations (6.62 without axial force); alone the beam's own loads."""
    part = beam("IPE 200", "S235")
    loads = [BeamLoad(3e4, 450.0)]
    own = asked(part, loads)["lateral torsional buckling"]
    stations = [Station(ULTIMATE, "there", M_y=6e6, M_z=4e5), Station(RATED, "here", M_y=1e6)]
    found = by_check(check_beam(part, loads, Basis(), inside=stations))["lateral torsional buckling"]
    expected = 6e6 / own.capacity.value + 4e5 / (part.section.Wpl_z * 235)
    assert expected < own.utilisation and found == own
    stations[0] = Station(ULTIMATE, "there", M_y=12e6, M_z=4e6)
    found = by_check(check_beam(part, loads, Basis(), inside=stations))["lateral torsional buckling"]
    assert found.utilisation == pytest.approx(12e6 / own.capacity.value + 4e6 / (part.section.Wpl_z * 235))
    assert "about the weak axis" in found.reason and found.case == "ultimate"
