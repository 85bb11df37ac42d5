"""Springs that pull, die springs, springs off a bench, and the seats under them."""

import math
from dataclasses import replace

import pytest

from structcheck.checks.basis import Basis
from structcheck.checks.die_spring import DieSpring, check_die_spring
from structcheck.checks.extension_spring import NEEDED, ExtensionSpring, check_extension_spring, stored
from structcheck.checks.measured_spring import BenchTest, measure
from structcheck.checks.spring import Spring, check_spring
from structcheck.checks.spring_seat import SpringSeat, check_spring_seat
from structcheck.errors import InputError
from structcheck.materials.bolts import find_class, find_size
from structcheck.materials.steels import find_steel
from structcheck.materials.wires import find_wire
from structcheck.standards.en1993_1_8.bolts import punching_resistance
from tests.printed import printed
from tests.reference.reading import case

SELDOM = Basis(presses=9_000)
PULLING = ExtensionSpring(
    name="pull",
    wire=4,
    mean=28,
    active=40,
    grade=find_wire("SM"),
    free=220,
    fitted=280,
    stretched=380,
    count=2,
    lifts=20,
    oil=100,
    initial=40,
    bend=12,
    tethered=True,
)
DIE = DieSpring(
    name="die", rate=44, load_class="light", free=51, fitted=45, pressed=31, count=4, lifts=20, oil=300, held="rod"
)


def by_check(outcome):
    return {f.check: f for f in outcome.findings}


def test_a_pulling_spring_is_judged_in_body_and_hooks():
    """By hand: F = F_0 + R s, sigma = F (16 K_A D / pi d^3 + 4 / pi d^2), hook formulas as in Shigley (memory)."""
    found = by_check(check_extension_spring(PULLING, SELDOM))
    rate = 81500 * 4**4 / (8 * 28**3 * 40)
    pull = 40 + rate * 160
    assert found["spring return force"].capacity.value == pytest.approx(2 * (40 + rate * 60))
    K_A = (4 * 49 - 7 - 1) / (4 * 7 * 6)
    sigma = pull * (16 * K_A * 28 / (math.pi * 64) + 4 / (math.pi * 16))
    assert found["hook bending"].demand.value == pytest.approx(sigma)
    assert found["hook bending"].capacity.value == pytest.approx(0.75 * 1530)
    tau = 8 * pull * 28 / (math.pi * 64)
    assert found["hook torsion"].demand.value == pytest.approx(tau * 23 / 20)
    assert found["spring stress"].demand.value == pytest.approx(tau * 7.5 / 6.25)


def test_every_check_of_a_pulling_spring_is_answered():
    """A tether takes the place of the retention finding; few presses that of fatigue."""
    outcome = check_extension_spring(PULLING, SELDOM)
    assert sorted([f.check for f in outcome.findings] + [n.check for n in outcome.does_not_apply]) == sorted(NEEDED)


def test_a_pulling_spring_that_nothing_catches_is_no_pass():
    """When a hook breaks it flies: not checked until a cable is stated, and the work in it is said."""
    loose = check_extension_spring(replace(PULLING, tethered=False), SELDOM)
    assert by_check(loose)["spring retention"].verdict == "not checked"
    assert "fly" in loose.advice[0] and "J each" in loose.advice[0] and "m/s" in loose.advice[0]
    assert stored(PULLING) == pytest.approx((40 * 160 + 81500 * 256 / (8 * 28**3 * 40) * 160**2 / 2) / 1e3)


def test_a_held_die_spring_rests_on_the_rod_of_its_sheet():
    """Its bore is not known here."""
    held = check_die_spring(DIE, SELDOM)
    assert [a.condition for a in held.assumptions if a.condition] == [
        "die: its rod is as its maker's sheet says and goes over its whole length"
    ]
    assert by_check(check_die_spring(replace(DIE, held="no"), SELDOM))["spring buckling"].verdict == "not checked"


@pytest.mark.parametrize(("check", "spring"), [(check_extension_spring, PULLING), (check_die_spring, DIE)])
def test_springs_of_every_kind_lose_force_when_warm(check, spring):
    """Above 40 degC no pass until the share lost is stated: then it and the softer wire (0.025 % per kelvin) count."""
    cold = by_check(check(spring, SELDOM))["spring return force"]
    warm = by_check(check(replace(spring, temperature=80.0), SELDOM))["spring return force"]
    assert (warm.verdict, warm.reason[:48]) == ("not checked", "at 80 degC the spring loses force by relaxation,")
    stated = check(replace(spring, temperature=80.0, relaxation=0.08), SELDOM)
    force = by_check(stated)["spring return force"].capacity.value
    assert force == pytest.approx(0.92 * (1 - 0.25e-3 * 60) * cold.capacity.value)
    assert any("8.0% of the force is lost by relaxation at 80 degC (stated)" in a.text for a in stated.assumptions)
    with pytest.raises(InputError, match="relaxation"):
        check(replace(spring, relaxation=1.0), SELDOM)


def test_a_pulling_spring_too_warm_for_its_table_wants_its_strength():
    """Wire has the strength of its table up to 100 degC (a maker's page, read)."""
    warm = replace(PULLING, temperature=150.0, relaxation=0.2)
    assert by_check(check_extension_spring(warm, SELDOM))["hook bending"].verdict == "not checked"
    stated = by_check(check_extension_spring(replace(warm, strength=1400.0), SELDOM))["hook bending"]
    assert stated.capacity.value == pytest.approx(0.75 * 1400)


def test_a_pull_that_springs_as_made_may_not_have_is_a_condition():
    """A tenth less of the rate by dimensions; a rate that is stated is taken."""
    pull = 2 * (40 + 81500 * 4**4 / (8 * 28**3 * 40) * 60)
    scant = replace(PULLING, lifts=0.0, oil=0.95 * pull)
    assert [a.condition for a in check_extension_spring(scant, SELDOM).assumptions if a.condition] == [
        "pull: as made they pull as their dimensions say; measure it"
    ]
    assert not [a for a in check_extension_spring(replace(scant, oil=0.85 * pull), SELDOM).assumptions if a.condition]


def test_of_two_rates_of_a_pulling_spring_the_weaker_returns_and_a_contradiction_is_refused():
    """2.97 N/mm by its wire (derived); 2.8 stated returns less; 2 is another spring."""
    rate = 81500 * 4**4 / (8 * 28**3 * 40)
    found = by_check(check_extension_spring(replace(PULLING, rate=2.8), SELDOM))
    assert found["spring return force"].capacity.value == pytest.approx(2 * (40 + 2.8 * 60))
    tau = 8 * (40 + rate * 160) * 28 / (math.pi * 64)
    assert found["hook torsion"].demand.value == pytest.approx(tau * 23 / 20)
    with pytest.raises(InputError, match="contradicts the wire"):
        check_extension_spring(replace(PULLING, rate=2.0), SELDOM)


@pytest.mark.parametrize(
    ("key", "value"), [("fitted", 200), ("stretched", 250), ("mean", 4), ("bend", 1), ("free", 100), ("count", 0)]
)
def test_an_impossible_pulling_spring_is_refused(key, value):
    """Each by its key."""
    with pytest.raises(InputError) as caught:
        check_extension_spring(replace(PULLING, **{key: value}), SELDOM)
    assert key in {p.key for p in caught.value.problems}


def test_die_spring_travel_by_load_class():
    """DIE-01 (memory): shares of the free length, preload included, long life and at most."""
    i, expected = case("springs", "DIE-01")
    for load_class, limits in expected.items():
        spring = replace(DIE, load_class=load_class, free=i["L_0"], fitted=100, pressed=90)
        found = [
            by_check(check_die_spring(spring, Basis(presses=n)))["die spring travel"].capacity.value
            for n in (50_000, 9_000)
        ]
        assert found == [printed(limit) for limit in limits]


def test_a_colour_never_stands_for_a_rate():
    """Green is light in one system and something else in another."""
    with pytest.raises(InputError, match="is a colour: it means other loads in other systems"):
        check_die_spring(replace(DIE, load_class="green"), SELDOM)


def test_a_die_spring_tells_what_it_stores_and_how_it_is_treated():
    """44 N/mm by 20 mm are 8.8 J; never cut or ground, the set replaced."""
    outcome = check_die_spring(DIE, SELDOM)
    assert "die: energy stored when pressed: 8.8 J each" in outcome.answers
    advice = " ".join(outcome.advice)
    assert "never cut or grind a die spring; replace the set, not one" in advice and "flies" in advice


def test_an_unknown_load_class_is_not_a_pass():
    """Neither class nor the maker's travel: not checked; the maker's travel is taken in its place."""
    unknown = replace(DIE, load_class=None)
    assert by_check(check_die_spring(unknown, SELDOM))["die spring travel"].verdict == "not checked"
    stated = by_check(check_die_spring(replace(unknown, most=18), SELDOM))["die spring travel"]
    assert (stated.capacity.value, stated.verdict) == (18, "fails")


def test_die_spring_rates_go_with_one_over_the_length_only_roughly():
    """DIE-02 (memory, low confidence): R L_0 about 2400 within a tenth; a guard, never a verdict."""
    i, expected = case("springs", "DIE-02")
    for L_0, rate in zip(i["L_0"], expected["R"], strict=True):
        assert i["R_L_0"] / L_0 == pytest.approx(float(rate), rel=0.1)


def test_columns_of_die_springs():
    """DIE-03 (derived): four columns of two in series."""
    i, expected = case("springs", "DIE-03")
    rate = i["columns"] * i["R"] / i["in_series"]
    travel = i["in_series"] * i["share"] * i["L_0"]
    assert (rate, travel) == (printed(expected["R"]), printed(expected["travel"]))
    assert rate * travel == pytest.approx(float(expected["F"]), rel=1e-3)


BENCH = BenchTest(
    name="used",
    lengths=(200, 190, 180, 170, 160, 150),
    forces=(64.8, 212.0, 361.6, 513.6, 668.0, 824.8),
    free=204,
    after=204,
)


def test_a_bench_test_gives_a_spring_to_judge():
    """The rate with its band goes into the spring: least for the return, most for the force at full stroke."""
    fit, outcome = measure(BENCH)
    assert {f.verdict for f in outcome.findings} == {"holds"}
    spring = Spring(
        name="used", rate=fit.rate, rate_margin=fit.rate_margin, free=204, fitted=190, pressed=160, lifts=5, oil=100
    )
    found = by_check(check_spring(replace(spring, rating=1e4), SELDOM))
    assert found["spring return force"].capacity.value == pytest.approx(14 * (fit.rate - fit.rate_margin))
    assert found["spring force at full stroke"].demand.value == pytest.approx(44 * (fit.rate + fit.rate_margin))


@pytest.mark.parametrize(("changes", "check"), [({"free": 210}, "bench free length"), ({"after": 201}, "spring set")])
def test_readings_that_cannot_be_trusted_fail(changes, check):
    """Free length off the line by more than 3 mm; shorter afterwards by more than 1 %."""
    _, outcome = measure(replace(BENCH, **changes))
    assert by_check(outcome)[check].verdict == "fails"


def test_a_progressive_winding_has_no_one_rate():
    """A rate that rises all the way is not a straight line, and is not passed off as one."""
    lengths = tuple(range(300, 190, -10))
    for bend in (0.01, 0.03):
        forces = tuple(5.0 * (310 - L) + bend * (310 - L) ** 2 for L in lengths)
        _, outcome = measure(BenchTest(name="suspension", lengths=lengths, forces=forces))
        assert by_check(outcome)["bench straightness"].verdict == "fails"


def test_what_a_bench_leaves_out_is_said():
    """Seating and touching coils by reading and reason."""
    test = BenchTest(name="used", lengths=(210, 200, 190, 180, 170, 160), forces=(5, 20, 170, 320, 470, 900))
    _, outcome = measure(test)
    assert "used: reading 6 (160 mm, 900 N) left out: coils touch: stiffer than the rest" in outcome.answers
    assert "used: reading 1 (210 mm, 5 N) left out: seating: softer than the rest" in outcome.answers


def test_alike_readings_are_refused_with_the_part():
    """Nonsense off a bench names the spring."""
    with pytest.raises(InputError, match=r'bench "used", readings: the readings are all alike'):
        measure(replace(BENCH, lengths=(200,) * 6))


SEAT = SpringSeat(
    name="seat",
    force=1213,
    mean=42,
    sheet=3,
    steel=find_steel("S235"),
    washer=50,
    thickness=5,
    washer_steel=find_steel("S235"),
    size=find_size("M16"),
    bolt_class=find_class("4.6"),
)


def test_punching_of_thin_sheet():
    """PLAT-04 (memory): d_m 24 on 3 and 1.5 mm sheet."""
    i, expected = case("guides", "PLAT-04")
    for t, resistance in expected.items():
        assert punching_resistance(i["d_m"], float(t), i["f_u"], i["gamma_M2"]) / 1e3 == printed(resistance)


def test_a_seat_is_judged_at_the_factored_force():
    """Bolt by 0.9 f_ub A_s / 1.25, punching by the head alone, washer as an annular plate, all at 1.5 F."""
    found = by_check(check_spring_seat(SEAT, SELDOM))
    assert found["bolt tension"].demand.value == pytest.approx(1.5 * 1213)
    assert found["bolt tension"].capacity.value == pytest.approx(0.9 * 400 * 157 / 1.25)
    assert found["punching"].capacity.value == pytest.approx(0.6 * math.pi * find_size("M16").d_m * 3 * 360 / 1.25)
    assert found["washer bending"].verdict == "holds"
    assert by_check(check_spring_seat(replace(SEAT, thickness=1.5), SELDOM))["washer bending"].verdict == "fails"


def test_a_thin_tube_wall_bends_under_a_seat():
    """A strip of the wall as wide as the washer; a washer as wide as the tube needs none."""
    wall = check_spring_seat(replace(SEAT, wall=90, force=3000), SELDOM)
    bending = by_check(wall)["seat wall bending"]
    assert bending.demand.value == pytest.approx(1.5 * 3000 * (90 - 25) / 4)
    assert bending.capacity.value == pytest.approx(50 * 9 / 4 * 235)
    wide = check_spring_seat(replace(SEAT, wall=50), SELDOM)
    assert "reaches both webs" in next(n.reason for n in wide.does_not_apply if n.check == "seat wall bending")


def test_a_seat_of_unknown_parts_is_not_passed():
    """Washer of no stated steel, bolt 12.9: not checked, each with its reason."""
    found = by_check(check_spring_seat(replace(SEAT, washer_steel=None, bolt_class=find_class("12.9")), SELDOM))
    assert found["washer bending"].reason == "the steel of the washer is not stated"
    assert found["bolt tension"].reason == "class 12.9 is outside EN 1993-1-8 Table 3.1"
    with pytest.raises(InputError, match="does not take a M16"):
        check_spring_seat(replace(SEAT, hole=15), SELDOM)
