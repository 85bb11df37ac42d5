"""All return springs of a platen together: stacks, places, one broken, and the guides on the way back."""

from dataclasses import replace

import pytest

from structcheck.checks.basis import Basis
from structcheck.checks.guide import Guide
from structcheck.checks.platen_return import NEEDED, Place, ReturnSet, check_platen_return, nested_forces
from structcheck.checks.spring import Spring
from structcheck.errors import InputError
from structcheck.materials.wires import find_wire
from tests.printed import printed
from tests.reference.reading import case

SELDOM = Basis(presses=9_000)
# The lengths fitted and pressed are worked out by the set; what stands here is not used.
COIL = Spring(
    name="coil",
    wire=6,
    mean=42,
    active=36,
    ends="ground",
    grade=find_wire("SM"),
    free=515,
    fitted=515,
    pressed=515,
    lifts=0,
    held="rod",
)
ORCHARD = ReturnSet(
    name="return",
    places=(Place(-250, (COIL,)), Place(250, (replace(COIL, name="coil 2"),))),
    fitted=420,
    stroke=150,
    lifts=25,
    rating=78_453.0,
    guide=Guide(name="bush", length=120, offset=15),
)


def of_set(whole):
    return {f.check: f for f in check_platen_return(whole, SELDOM).findings if f.part == whole.name}


def said(whole):
    return check_platen_return(whole, SELDOM).answers


def test_the_set_is_judged_whole_and_each_spring_alone():
    """Return force and full stroke once for all; stress, clearance and the rest for each spring."""
    outcome = check_platen_return(ORCHARD, SELDOM)
    parts = {(f.part, f.check) for f in outcome.findings}
    assert {("return", check) for check in NEEDED} <= parts
    for part in ("coil", "coil 2"):
        assert (part, "spring stress") in parts and (part, "spring return force") not in parts
    assert all(f.verdict == "holds" for f in outcome.findings)


def test_preload_at_the_top_of_the_stroke_counts():
    """SPR-37 (derived): 120 kg, 400 N of oil, 15 % of the weight as friction: 1753 N against 1990 N."""
    i, expected = case("springs", "SPR-37")
    spring = replace(COIL, wire=None, mean=None, active=None, rate=i["R"], free=200)
    weight = i["lifts"] * 9.80665
    whole = ReturnSet(
        name="platen",
        places=tuple(Place(x, (replace(spring, name=f"at {x}"),)) for x in (-200, -100, 100, 200)),
        fitted=200 - i["preload"],
        stroke=60,
        lifts=i["lifts"],
        oil=i["oil"],
        drag=i["friction"] * weight,
    )
    found = of_set(whole)["spring return force"]
    assert found.demand.value == printed(expected["needed"])
    assert found.capacity.value == printed(expected["available"])
    assert found.verdict == "holds"
    # A longer stroke gives no more force where it is wanted.
    assert of_set(replace(whole, stroke=90))["spring return force"].capacity.value == found.capacity.value


def test_the_travel_is_the_whole_stroke():
    """Somebody will run the ram out: the springs are pressed by the full stroke, and refused if that is below solid."""
    with pytest.raises(InputError, match="below the solid length"):
        check_platen_return(replace(ORCHARD, stroke=195), SELDOM)


def test_one_broken_spring_hangs_the_platen_or_drops_it_askew():
    """470 N of the 745 N needed is not enough; stiffer ones push from the side and jam the bush."""
    assert "return: springs at -250 mm broken: 470 N of 745 N needed, the platen hangs" in said(ORCHARD)
    light = replace(ORCHARD, lifts=5, oil=100)
    assert (
        "return: springs at -250 mm broken: 470 N of 149 N needed, pushed 250 mm from the middle: "
        "the guides jam and the platen hangs askew"
    ) in said(light)
    long_bush = replace(light, guide=Guide(name="bush", length=400, offset=15, friction=0.15))
    assert any("N with the guides binding: the platen still comes back" in text for text in said(long_bush))
    no_guide = replace(light, guide=None)
    assert any("without guides the platen falls askew" in text for text in said(no_guide))
    assert of_set(no_guide)["guide binding"].verdict == "not checked"


def test_one_spring_at_the_side_binds_the_guides_on_the_way_back():
    """The press side may be central and slide; the return side is not."""
    one = replace(ORCHARD, places=(Place(250, (replace(COIL, free=800, fitted=800, pressed=800),)),))
    outcome = check_platen_return(one, SELDOM)
    binding = next(f for f in outcome.findings if f.check == "guide binding")
    assert binding.demand.value == pytest.approx(2 * 0.35 * 250 / 120)
    assert binding.verdict == "fails"
    assert "return: never one spring at the side; two or four, even about the ram" in outcome.advice


def test_each_spring_of_a_stack_is_judged_on_its_own_share():
    """The softer of two takes more of the travel and is the first to be near solid."""
    soft = replace(COIL, name="soft", active=20, free=260)
    hard = replace(COIL, name="hard", active=12, free=260)
    whole = ReturnSet(
        name="stack", places=(Place(0, (soft, hard), "series"),), fitted=480, stroke=100, lifts=10, oil=100
    )
    outcome = check_platen_return(whole, SELDOM)
    left = {f.part: f.capacity.value for f in outcome.findings if f.check == "spring clearance before solid"}
    travel = 520 - 380
    assert left["soft"] == pytest.approx(260 - travel * 20 / 32 - 22 * 6)
    assert left["hard"] == pytest.approx(260 - travel * 12 / 32 - 14 * 6)
    stress = {f.part: f.demand.value for f in outcome.findings if f.check == "spring stress"}
    assert stress["soft"] == pytest.approx(stress["hard"])
    assert "stack: springs one on the other need a rod through all and a washer between" in outcome.advice


def test_a_stack_without_a_rod_through_all_is_no_pass_though_each_is_short():
    """Two of 90 mm do not buckle alone at any travel; one on the other they are one of 180 mm."""
    short = replace(COIL, active=5, free=90, held="no")
    alone = replace(ORCHARD, places=(Place(0, (short,)),), fitted=85, stroke=20)
    stack = Place(0, (replace(short, name="low"), replace(short, name="high")), "series")
    outcome = check_platen_return(alone, SELDOM)
    assert [n.reason[:9] for n in outcome.does_not_apply if n.check == "spring buckling"] == ["no travel"]
    outcome = check_platen_return(replace(alone, places=(stack,), fitted=170, stroke=40), SELDOM)
    found = [f for f in outcome.findings if f.check == "spring buckling"]
    assert {(f.part, f.verdict) for f in found} == {("low", "not checked"), ("high", "not checked")}
    assert "the stack bows out as one long spring" in found[0].reason
    assert not [n for n in outcome.does_not_apply if n.check == "spring buckling"]


def test_a_nested_spring_leans_on_the_one_inside_it():
    """36 mm inside an outer coil: 32 mm outside the inner one is close, 20 mm is not, whatever rod is in that."""
    for mean, buckles in ((28, False), (16, True)):
        inner = replace(COIL, name="inner", wire=4, mean=mean, active=30, free=400, rod=mean - 6)
        whole = replace(ORCHARD, places=(Place(0, (COIL, inner), "nested"),), guide=None)
        outcome = check_platen_return(whole, SELDOM)
        fit = next(f for f in outcome.findings if (f.part, f.check) == ("coil", "spring guide fit"))
        assert fit.demand.value == mean + 4 + 0.5
        assert bool([f for f in outcome.findings if (f.part, f.check) == ("coil", "spring buckling")]) == buckles


def test_two_springs_at_one_place_must_be_said_to_be_nested_or_stacked():
    """Side by side they cannot stand on one spot."""
    two = Place(0, (COIL, replace(COIL, name="other")))
    with pytest.raises(InputError, match="stand there neither nested nor in series"):
        check_platen_return(replace(ORCHARD, places=(two,)), SELDOM)


def test_nested_springs_of_unequal_length_add_up_where_they_reach():
    """The shorter adds nothing at the top of the stroke, where the force is wanted."""
    inner = replace(COIL, name="inner", wire=4, mean=28, active=30, free=400)
    whole = replace(ORCHARD, places=(Place(0, (COIL, inner), "nested"),), guide=None)
    rate, inner_rate = 81500 * 6**4 / (8 * 42**3 * 36), 81500 * 4**4 / (8 * 28**3 * 30)
    found = of_set(whole)
    assert found["spring return force"].capacity.value == pytest.approx(rate * 95)
    assert found["spring force at full stroke"].demand.value == pytest.approx(rate * 245 + inner_rate * 130)
    assert nested_forces((COIL, inner), 420).tolist() == pytest.approx([rate * 95, 0])
    assert "return: wind nested springs opposite ways, or they lock into each other" in (
        check_platen_return(whole, SELDOM).advice
    )


def test_a_nested_spring_that_does_not_go_in_is_refused():
    """36 mm inside the outer coil takes no 38 mm."""
    inner = replace(COIL, name="inner", wire=4, mean=34)
    with pytest.raises(InputError, match="38 mm outside does not go into coil, 36 mm inside"):
        check_platen_return(replace(ORCHARD, places=(Place(0, (COIL, inner), "nested"),)), SELDOM)


def test_an_unguided_platen_with_its_weight_off_centre_leans():
    """Springs do not keep it level; guides must."""
    assert any("without guides the platen would lean" in text for text in said(replace(ORCHARD, centre=30)))
    assert any("tipping over" in text for text in said(replace(ORCHARD, centre=300)))


def test_a_stack_pressed_below_solid_is_refused():
    """The stack names its own part and the travel it has."""
    stack = Place(0, (replace(COIL, active=20, free=260), replace(COIL, name="hard", active=12, free=260)), "series")
    with pytest.raises(InputError, match=r"return, travel: 340 mm is more than the stack has"):
        check_platen_return(replace(ORCHARD, places=(stack,), fitted=400, stroke=220), SELDOM)


def test_nonsense_is_refused():
    """No spring, no stroke, more stroke than spring."""
    for changes in ({"places": ()}, {"stroke": 0}, {"stroke": 500}, {"lifts": -1}):
        with pytest.raises(InputError):
            check_platen_return(replace(ORCHARD, **changes), SELDOM)


def test_a_set_that_springs_as_made_may_not_return_is_a_condition():
    """A tenth less than all press with: needed above that rests on what they really give."""
    opened = next(f for f in check_platen_return(ORCHARD, SELDOM).findings if f.check == "spring return force")
    pressing = opened.capacity.value

    def conditions(share):
        whole = replace(ORCHARD, lifts=0.0, oil=share * pressing, drag=0.0)
        return [a.condition for a in check_platen_return(whole, SELDOM).assumptions if "measure it" in a.condition]

    assert conditions(0.85) == []
    assert len(conditions(0.95)) == 1
