"""The guide question: binding, and what is refused."""

from dataclasses import replace

import pytest

from structcheck.checks.basis import Basis
from structcheck.checks.guide import DRY, GREASED, Guide, check_guide
from structcheck.errors import InputError, NotCovered
from structcheck.materials.steels import find_steel
from structcheck.shapes.library import look_up
from structcheck.standards.en1993_1_2 import reduction_factors, restrained_stress, thermal_elongation
from tests.printed import printed
from tests.reference.reading import case


def binding(**keys):
    return check_guide(Guide(name="bush", **keys), Basis()).findings[0]


def test_the_movable_bracket_jams_at_four_times_the_contact_spacing():
    """Beer and Johnston, movable bracket (read): contacts 6 in apart, mu 0.25, jams from x = 12 in."""
    jam = binding(length=6 * 25.4, offset=12 * 25.4, friction=0.25)
    assert jam.demand.value == pytest.approx(1.0)
    assert (jam.verdict, jam.reason) == ("fails", "jams, whatever the force")


@pytest.mark.parametrize(("mu", "length"), [(0.10, 30), (0.20, 60), (0.35, 105)])
def test_shortest_bush_at_150_mm(mu, length):
    """L = 2 mu e at e = 150 mm (derived): the jam itself, so twice the limit."""
    assert binding(length=length, offset=150, friction=mu).utilisation == pytest.approx(2.0)


def test_the_two_to_one_rule_has_no_margin_left():
    """Trade rule arm = 2 x bearing length (read) is the jam itself at mu = 0.25 (derived)."""
    assert binding(length=100, offset=200, friction=0.25).demand.value == pytest.approx(1.0)


def test_dry_friction_is_said_and_both_lines_are_printed():
    """0.35 is taken for the user and shown; greased stands beside it."""
    outcome = check_guide(Guide(name="bush", length=120, offset=15), Basis())
    assert outcome.findings[0].verdict == "holds"
    assert [a.text for a in outcome.assumptions] == ["friction of the guide 0.35: steel on steel, dry"]
    assert outcome.answers == ("bush: 2 mu e / L is 0.09 dry (friction 0.35), 0.04 greased (0.15); 1 is the jam",)


@pytest.mark.parametrize(("key", "value"), [("length", 0), ("offset", -5), ("friction", -0.1)])
def test_nonsense_is_refused(key, value):
    """An impossible number is named by its key."""
    keys = {"length": 120, "offset": 15, key: value}
    with pytest.raises(InputError) as caught:
        binding(**keys)
    assert [(p.key, p.part) for p in caught.value.problems] == [(key, 'guide "bush"')]


def found(**keys):
    return {f.check: f for f in check_guide(Guide(name="bush", **keys), Basis()).findings}


def answers(**keys):
    return check_guide(Guide(name="bush", **keys), Basis()).answers


def test_friction_taken_lies_in_the_published_range():
    """GUIDE-07 (read): steel on steel, dry and greased, at rest and sliding."""
    _, expected = case("guides", "GUIDE-07")
    for state, mu in (("dry", DRY), ("greased", GREASED)):
        for motion in ("static", "sliding"):
            low, high = (float(value) for value in expected[f"{motion}_{state}"])
            assert low <= mu <= high


def test_play_leans_the_platen_and_a_limit_gives_a_verdict():
    """GUIDE-05: 2.08 mm at the edge; the user's limit decides, without one it is an answer."""
    keys = {"length": 120, "offset": 15, "play": 0.5, "half_width": 500}
    assert "bush: leans 0.239 deg in its play, 2.08 mm at the edge" in answers(**keys)
    assert set(found(**keys)) == {"guide binding"}
    limited = found(**keys, level=1.0)["guide tilt"]
    assert (limited.demand.value, limited.verdict) == (pytest.approx(2.083, abs=0.0005), "fails")
    assert found(length=120, offset=15, level=1.0)["guide tilt"].reason == "play is not stated"


def test_the_side_force_bends_the_columns():
    """F e shared by two 30 mm bars: M = 1.5 x 78.45 kN x 15 mm / 2, W = pi d^3 / 32, by hand."""
    bar = look_up("round 30").section
    keys = {"length": 120, "offset": 15, "columns": 2, "force": 78_453.0}
    bending = found(**keys, post=bar, steel=find_steel("S235"))["guide post bending"]
    assert bending.demand.value == pytest.approx(1.5 * 78_453 * 15 / 2)
    assert bending.capacity.value == pytest.approx(3.141593 * 30**3 / 32 * 225, rel=1e-3)
    assert bending.verdict == "fails"
    assert "bush: each column is pushed across with 4.9 kN at each end of its bush, at rated load" in answers(**keys)
    assert found(**keys)["guide post bending"].verdict == "not checked"


def test_the_side_force_bends_the_wall_of_a_tube():
    """A strip as wide as the pad: N = 1.5 F e / L, M = N (b - p/2) / 4 against p t^2 / 4 f_y, by hand."""
    keys = {"length": 200, "offset": 15, "force": 20_000.0, "steel": find_steel("S235")}
    wall = found(**keys, wall=70, wall_t=5, pad=40)["guide wall bending"]
    assert wall.demand.value == pytest.approx(1.5 * 20_000 * 15 / 200 * (70 - 20) / 4)
    assert wall.capacity.value == pytest.approx(40 * 25 / 4 * 235)
    assert found(**keys, wall=70)["guide wall bending"].verdict == "not checked"


def test_bushes_with_unequal_play_are_said():
    """Even bearing is an assumption; the far bush alone jams where the columns stand wider than the bush is long."""
    keys = {"length": 120, "offset": 15, "columns": 2, "spacing": 500}
    assert "bush: if the far bush alone bears (the others looser) the guides jam: ream the bushes alike" in answers(
        **keys
    )
    texts = [a.text for a in check_guide(Guide(name="bush", **keys), Basis()).assumptions]
    assert "the 2 bushes are alike and bear evenly" in texts


def test_a_warm_platen_locks_when_it_outgrows_the_play():
    """TEMP-03: 1 m of steel at 100 degC grows 0.998 mm between cold columns; aluminium about twice that."""
    keys = {"length": 120, "offset": 15, "columns": 2, "spacing": 1000, "play": 0.5, "warm": 100}
    grown = found(**keys)["guide heat growth"]
    assert (grown.demand.value, grown.verdict) == (printed("0.998"), "fails")
    assert found(**keys, metal="aluminium")["guide heat growth"].demand.value == pytest.approx(1.84)
    assert found(**keys, frame=100.0)["guide heat growth"].demand.value == pytest.approx(0, abs=1e-12)
    del keys["spacing"]
    assert found(**keys)["guide heat growth"].verdict == "not checked"


def test_a_weld_seam_takes_up_the_play_of_tube_in_tube():
    """2 mm of play less a seam of 1.5 is 0.5; a seam as high as the play is refused."""
    keys = {"length": 120, "offset": 15, "play": 2.0, "half_width": 500}
    assert "bush: leans 0.239 deg in its play, 2.08 mm at the edge" in answers(**keys, seam=1.5)
    with pytest.raises(InputError, match="leaves nothing to slide in"):
        answers(**keys, seam=2.0)


def test_springs_apart_carry_some_tilt_and_springs_in_line_none():
    """Two of 5 N/mm, 500 apart, leaning 0.5 in 120 mm: k a^2 / 2 x lean = 2.6 N m."""
    keys = {"length": 120, "offset": 15, "play": 0.5}
    apart = answers(**keys, springs=((-250.0, 5.0), (250.0, 5.0)))
    assert "bush: the springs carry 2.6 N m of tilt before the bushes bear" in apart
    assert "bush: the springs carry 0 N m of tilt before the bushes bear" in answers(**keys, springs=((0.0, 10.0),))


def test_elongation_of_steel():
    """TEMP-03 (memory): nothing at 20 degC by construction."""
    i, expected = case("guides", "TEMP-03")
    for theta, growth in expected.items():
        assert thermal_elongation(float(theta)) * i["L"] == printed(growth)


def test_reduction_factors_of_steel():
    """TEMP-01 (memory): k_y holds to 400 degC at 2 % strain, the proportional limit does not."""
    _, expected = case("guides", "TEMP-01")
    for theta, factors in expected.items():
        assert list(reduction_factors(float(theta))) == [printed(factor) for factor in factors]
    assert reduction_factors(150.0) == pytest.approx((1.0, 0.9035, 0.95))
    with pytest.raises(NotCovered):
        reduction_factors(501.0)


def test_a_bar_that_may_not_grow():
    """TEMP-05 Kakani 13.1 (read): -172 MPa is reached at 106 degC; S235 yields below 100 K of rise."""
    i, expected = case("guides", "TEMP-05")
    assert restrained_stress(i["alpha"], i["E"], float(expected["T"]) - i["T_0"]) == pytest.approx(i["sigma"])
    assert restrained_stress(1.2e-5, 210e3, 100.0) > 235


@pytest.mark.parametrize(("key", "value"), [("columns", 3), ("play", -1), ("force", -1), ("spacing", 0)])
def test_more_nonsense_is_refused(key, value):
    """Each by its key."""
    keys = {"length": 120, "offset": 15, "columns": 2} | {key: value}
    with pytest.raises(InputError) as caught:
        found(**keys)
    assert key in {p.key for p in caught.value.problems}


def test_a_guide_that_leans_far_in_its_play_is_no_pass():
    """20 mm over 200 lean 5.7 degrees; the user's limit judges it, 3 mm over 200 need none."""
    loose = Guide(name="guide", length=200, offset=15, play=20)
    tilt = {f.check: f for f in check_guide(loose, Basis()).findings}["guide tilt"]
    assert (tilt.verdict, tilt.reason[:16]) == ("not checked", "leans 5.7 deg in")
    judged = check_guide(replace(loose, level=1.0, half_width=150), Basis())
    assert {f.check: f.verdict for f in judged.findings}["guide tilt"] == "fails"
    assert "guide tilt" not in {f.check for f in check_guide(replace(loose, play=3), Basis()).findings}
