"""Webs under local forces: the presses of the examples, the traps, and what is refused."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.checks.basis import GREATEST, RATED, ULTIMATE, Basis
from structcheck.checks.web import check_web
from structcheck.checks.web_resistance import LocalLoad, Stiffeners, Web, bare_web, bearing_length, web_plate
from structcheck.errors import InputError, NotCovered
from structcheck.materials.steels import find_steel
from structcheck.shapes.built_up import welded_box
from structcheck.shapes.library import look_up
from structcheck.shapes.section import Section
from structcheck.standards.en1993_1_5 import patch
from tests.printed import printed

BASIS = Basis()
TONNE = 9806.65


BIG = Section("IPE 600", "IPE", "EN 10365", "rolled", {"h": 600.0, "b": 220.0, "tw": 12.0, "tf": 19.0, "r": 24.0})
DEEP = Section("IPE 330", "IPE", "EN 10365", "rolled", {"h": 330.0, "b": 160.0, "tw": 7.5, "tf": 11.5, "r": 18.0})
THIN = Section("thin web", "IPE", "", "rolled", {"h": 600.0, "b": 220.0, "tw": 6.0, "tf": 19.0, "r": 24.0})


def section(name):
    return next((own for own in (BIG, DEEP, THIN) if own.designation == name), None) or look_up(name).section


def web(name="IPE 160", steel="S235", **more):
    return Web('beam "head"', section(name), find_steel(steel), **more)


def cases(rated, M=0.0, greatest=1.25, **more):
    return [
        LocalLoad(case, rated * factor, M=M * factor, **more)
        for case, factor in ((RATED, 1.0), (GREATEST, greatest), (ULTIMATE, 1.5))
    ]


def findings(part, loads):
    return {f.check: f for f in check_web(part, loads, BASIS).findings}


def test_orchard_press_head_holds_on_its_spreader():
    """Two UPN 120, 8 t through a foot of 110 on 20 mm of plate: by hand with b_f = t_w, m_1 = 1.

    s_s = min(110 + 40, 120, h_w = 102) = 102; l_y = 102 + 2 x 9 x 2 = 138; lambda_F < 0.5: 138 x 7 x 235 = 227.0 kN
    each.
    """
    found = findings(web("UPN 120", pieces=2), cases(8 * TONNE, pad=110.0, plate=20.0, plate_length=120.0))
    under = found["web under load"]
    assert under.capacity.value / 1e3 == printed("454.0")
    assert under.demand.value == pytest.approx(1.5 * 8 * TONNE)
    assert under.verdict == "holds" and under.source == "EN 1993-1-5:2006 section 6"


def test_channel_pair_resting_on_pins_fails():
    """Two UPN 140 on round pins 20 mm from their ends under half of 30 t: nothing spreads the force but the flange."""
    found = findings(web("UPN 140", "unknown", pieces=2), cases(15 * TONNE, round_pin=True, kind="end", to_end=20.0))
    assert found["web under load"].utilisation > 2
    assert found["yield at greatest force"].verdict == "fails"


def test_a_round_pin_has_no_length_whatever_the_pad_says():
    """The contact of a round pin is a line; a pad that is not stated is one too."""
    pin = LocalLoad(ULTIMATE, 1e4, pad=60.0, round_pin=True)
    assert bearing_length(pin, 100.0) == (0.0, None)
    assert bearing_length(LocalLoad(ULTIMATE, 1e4), 100.0) == (0.0, None)
    texts = [a.text for a in check_web(web(), [LocalLoad(ULTIMATE, 1e4)], BASIS).assumptions]
    assert "length of the contact not stated: taken as a line across the flange" in texts


def test_spread_ends_with_the_plate_and_with_the_beam():
    """60 on 20 mm reaches 100, but a plate of 80 ends it; 5 mm from the beam's end only 5 mm of spread are there."""
    load = LocalLoad(ULTIMATE, 1e4, pad=60.0, plate=20.0)
    assert bearing_length(load, 300.0) == (100.0, None)
    assert bearing_length(replace(load, plate_length=80.0), 300.0) == (80.0, None)
    assert bearing_length(replace(load, to_end=5.0), 300.0) == (85.0, 0.0)
    assert bearing_length(replace(load, to_end=50.0), 300.0) == (100.0, 30.0)


def test_stiffener_pair_carries_the_force_as_a_strut():
    """IPE 160, pair of 38 x 8 flats with 75 + 8 + 75 mm of web: 294.7 kN at its end, for 10 t ultimate, 147 kN.

    By hand: end 2 x (38 - 9) x 8 + web 150 length-limited 158 x 5 = 464 + 790 mm2, 235 MPa.
    """
    found = findings(web(), cases(10 * TONNE, pad=120.0, plate=20.0, stiffeners=Stiffeners(38.0, 8.0)))
    assert found["web under load"].capacity.value == pytest.approx((2 * 29 * 8 + 158 * 5) * 235)
    assert found["web under load"].source == "EN 1993-1-5:2006 9.1, 9.4"
    assert "web under load with bending" not in found
    dropped = check_web(web(), cases(1e4, stiffeners=Stiffeners(38.0, 8.0)), BASIS).does_not_apply
    assert [n.check for n in dropped] == ["web under load with bending"]


def test_a_channel_stiffener_on_one_side_gives_nothing():
    """The eccentric strut of 9.4(3) is not covered, so the bare web's resistance stands."""
    bare = findings(web("UPN 140"), cases(5e4, pad=60.0))
    stiff = findings(web("UPN 140"), cases(5e4, pad=60.0, stiffeners=Stiffeners(50.0, 8.0)))
    assert stiff["web under load"].capacity == bare["web under load"].capacity


def test_slender_stiffeners_give_nothing():
    """Flats of 15 times their thickness buckle in torsion: the bare web stands."""
    bare = findings(web("HEA 300"), cases(5e4, pad=60.0))
    stiff = findings(web("HEA 300"), cases(5e4, pad=60.0, stiffeners=Stiffeners(120.0, 8.0)))
    assert stiff["web under load"].capacity == bare["web under load"].capacity


def test_type_b_is_weaker_than_type_a_for_a_slender_web():
    """A force passing straight through to the other flange buckles the web earlier (k_F 3.5 against 6)."""
    part = web("IPE 600")
    load = LocalLoad(ULTIMATE, 1e5, pad=200.0)
    assert bare_web(part, replace(load, kind="opposite"), BASIS) < bare_web(part, load, BASIS)


def test_an_end_is_weaker_and_takes_the_least_of_three_lengths():
    """Beside a free end l_y is the least of (6.10), (6.11) and (6.12), worked out here again."""
    part = web("thin web")
    p = web_plate(part.section, part.steel)
    load = LocalLoad(ULTIMATE, 1e5, pad=50.0, kind="end", to_end=10.0)
    k_F = 2 + 6 * 60 / p.h_w
    l_e = min(k_F * 210e3 * p.t_w**2 / (2 * p.f_yw * p.h_w), 60)
    m_1, m_2 = p.f_yf * p.b_f / (p.f_yw * p.t_w), 0.02 * (p.h_w / p.t_f) ** 2
    lengths = [
        50 + 2 * p.t_f * (1 + math.sqrt(m_1 + m_2)),
        l_e + p.t_f * math.sqrt(m_1 / 2 + (l_e / p.t_f) ** 2 + m_2),
        l_e + p.t_f * math.sqrt(m_1 + m_2),
    ]
    l_y = min(lengths)
    lambda_F = math.sqrt(l_y * p.t_w * p.f_yw * p.h_w / (0.9 * k_F * 210e3 * p.t_w**3))
    assert lambda_F > 0.5
    assert bare_web(part, load, BASIS) == pytest.approx(p.f_yw * l_y * p.t_w * 0.5 / lambda_F)
    assert bare_web(part, load, BASIS) < bare_web(part, replace(load, kind="interior", to_end=None), BASIS)


def test_h_w_runs_between_the_flanges_not_the_fillets():
    """IPE 330: 330 - 2 x 11.5 = 307 mm; between the fillets it would be 271."""
    assert web_plate(section("IPE 330"), find_steel("S355")).h_w == pytest.approx(307.0)


def test_m_2_goes_where_the_web_is_stocky():
    """m_2 counts only for lambda_F > 0.5: IPE 160 has l_y = s_s + 2 t_f (1 + sqrt(m_1))."""
    part = web()
    p = web_plate(part.section, part.steel)
    l_y = 40 + 2 * p.t_f * (1 + math.sqrt(p.b_f / p.t_w))
    assert bare_web(part, LocalLoad(ULTIMATE, 1e4, pad=40.0), BASIS) == pytest.approx(235 * l_y * p.t_w)


def test_no_jump_where_the_web_begins_to_be_slender():
    """By the letter the resistance jumps up where lambda_F passes 0.5; here more slenderness never helps."""
    sizes = [7.0 - 0.05 * k for k in range(60)]
    held = []
    for t in sizes:
        row = Section("I", "IPE", "", "rolled", {"h": 300.0, "b": 150.0, "tw": t, "tf": 10.7, "r": 15.0})
        part = Web("head", row, find_steel("S235"))
        held.append(bare_web(part, LocalLoad(ULTIMATE, 1e5, pad=60.0), BASIS))
    assert held == sorted(held, reverse=True)


def test_bending_beside_the_force_uses_the_clause_and_its_limit():
    """eta_2 + 0.8 eta_1 over 1.4, eta_1 elastic: doubling both actions doubles the utilisation."""
    part = web()
    once = findings(part, cases(3e4, M=5e6, pad=60.0))["web under load with bending"]
    twice = findings(part, cases(6e4, M=1e7, pad=60.0))["web under load with bending"]
    eta_1 = 1.5 * 5e6 / (part.section.Wel_y * 235)
    eta_2 = findings(part, cases(3e4, M=5e6, pad=60.0))["web under load"].utilisation
    assert once.utilisation == pytest.approx((eta_2 + 0.8 * eta_1) / 1.4)
    assert twice.utilisation == pytest.approx(2 * once.utilisation)


def test_on_the_tension_flange_the_stresses_add():
    """Tension along and compression across: von Mises at the root by 6.2.1(5), above what like signs would give."""
    part = web()
    pulled = findings(part, cases(5e4, M=1e7, pad=60.0, flange="tension"))
    pressed = findings(part, cases(5e4, M=1e7, pad=60.0))
    assert pulled["yield at greatest force"].utilisation > pressed["yield at greatest force"].utilisation
    assert pulled["web under load with bending"].source == "EN 1993-1-5:2006 7.2(2), EN 1993-1-1:2005 6.2.1(5)"


def test_tubes_are_not_for_this_check():
    """A tube has a face, not a flange with a web below its middle: not checked, never a pass."""
    found = findings(web("SHS 100x100x5"), cases(1e4, pad=60.0))
    assert {f.verdict for f in found.values()} == {"not checked"}
    with pytest.raises(NotCovered, match="not for SHS 100x100x5"):
        web_plate(section("SHS 100x100x5"), find_steel("S235"))


def test_a_jack_between_the_webs_of_a_box_is_not_checked():
    """It bends the flange plate; with a plate over both webs, each web takes half."""
    box = Web("head", welded_box(200.0, 150.0, 6.0, 10.0), find_steel("S235"))
    assert {f.verdict for f in findings(box, cases(1e4, pad=60.0)).values()} == {"not checked"}
    over = findings(box, cases(1e4, pad=60.0, over_webs=True))["web under load"]
    # m_1 = 1: a flange on one side of its web turns rather than bends, so l_y = 60 + 4 t_f.
    assert over.capacity.value == pytest.approx(2 * (60 + 40) * 6 * 235)


def test_the_welds_of_a_stiffener_are_told_their_force():
    """Each flat's share of the strut: 38 x 8 of 2 x 304 + (75 + 8 + 75) x 5 mm2."""
    outcome = check_web(web(), cases(1e5 / 1.5, pad=60.0, stiffeners=Stiffeners(38.0, 8.0)), BASIS)
    share = 1e2 * 304 / (608 + 158 * 5)
    assert outcome.answers == (
        f'beam "head": each stiffener flat carries {share:.4g} kN at ultimate, through its welds into the web',
    )


def test_forces_on_both_flanges_at_a_free_end_are_not_covered():
    """No figure of section 6 has them; a stiffener pair does cover it."""
    loads = cases(1e4, pad=40.0, kind="opposite", to_end=5.0)
    assert findings(web(), loads)["web under load"].verdict == "not checked"
    stiff = [replace(load, stiffeners=Stiffeners(38.0, 8.0)) for load in loads]
    assert findings(web(), stiff)["web under load"].verdict == "holds"


def test_steel_outside_en_1993_is_not_checked_and_unknown_steel_is_a_condition():
    """S185 is outside; an unknown steel is taken as S235 and said."""
    assert findings(web(steel="S185"), cases(1e4, pad=40.0))["web under load"].verdict == "not checked"
    conditions = [a.condition for a in check_web(web(steel="unknown"), cases(1e4, pad=40.0), BASIS).assumptions]
    assert "f_y >= 235 MPa" in conditions


def test_no_force_is_no_pass():
    """Without loads every needed check is not checked."""
    assert {f.verdict for f in check_web(web(), [], BASIS).findings} == {"not checked"}


def test_contradictions_are_refused_together():
    """A negative pad and an impossible share are both named."""
    with pytest.raises(InputError) as error:
        check_web(web(pieces=2), [LocalLoad(ULTIMATE, 1e4, pad=-5.0, share=0.2)], BASIS)
    assert [p.key for p in error.value.problems] == ["pad", "share"]


def test_unequal_shares_govern_by_the_hardest_pressed_piece():
    """Two channels with 60 % on one: 1 / 0.6 of one web instead of 2."""
    even = findings(web("UPN 120", pieces=2), cases(5e4, pad=60.0))["web under load"]
    uneven = findings(web("UPN 120", pieces=2), cases(5e4, pad=60.0, share=0.6))["web under load"]
    assert uneven.capacity.value == pytest.approx(even.capacity.value / 2 / 0.6)


LOADS = st.builds(
    LocalLoad,
    case=st.just(ULTIMATE),
    force=st.floats(1e3, 5e5),
    pad=st.floats(0.0, 200.0),
    plate=st.floats(0.0, 40.0),
    kind=st.sampled_from(["interior", "end"]),
    to_end=st.floats(0.0, 300.0),
    M=st.floats(0.0, 1e8),
)
NAMES = ["IPE 80", "IPE 300", "IPE 600", "thin web", "HEB 200", "UPN 80", "UPN 300"]


@settings(max_examples=40, deadline=None)
@given(load=LOADS, name=st.sampled_from(NAMES), grow=st.floats(1.0, 3.0))
def test_more_of_everything_never_helps_but_length_does(load, name, grow):
    """More force never lowers a utilisation; a longer pad, thicker plate, or more beam beyond never raises it."""
    part = web(name)
    base = findings(part, [load])["web under load"].utilisation
    assert findings(part, [replace(load, force=load.force * grow)])["web under load"].utilisation >= base
    for more in (
        {"pad": load.pad * grow + 1},
        {"plate": load.plate + grow},
        {"to_end": load.to_end + 10 * grow},
    ):
        assert findings(part, [replace(load, **more)])["web under load"].utilisation <= base * (1 + 1e-9)


def test_the_clause_is_the_one_of_the_formulas():
    """The finding's source is section 6, not a subclause that covers half of it."""
    assert patch.CLAUSE == "EN 1993-1-5:2006 section 6"
