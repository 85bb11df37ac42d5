"""Springs, seats, guides and bench tests, from a press file to findings."""

import pytest

from structcheck.errors import InputError
from structcheck.questions import check_press

# Example A of the invented presses, what moves of it.
SPRING = {
    "name": "return springs",
    "wire": "6 mm",
    "mean": "42 mm",
    "active": 36.0,
    "ends": "ground",
    "grade": "SM",
    "free": "515 mm",
    "fitted": "420 mm",
    "count": 2,
    "lifts": "25 kg",
    "rod": "35 mm",
}
ONE = {key: value for key, value in SPRING.items() if key not in ("fitted", "count", "lifts")} | {"name": "coil"}
JACK = {"rating": "8 t", "stroke": "150 mm", "offset": "15 mm", "saddle": "38 mm", "base": "110 mm"}
SELDOM = {"presses_per_day": 4.0, "days": 250.0, "years": 10.0}
READINGS = [["480 mm", "17.7 kg"], ["440 mm", "37.8 kg"], ["400 mm", "58.1 kg"], ["360 mm", "78.2 kg"]]
BENCH = {"name": "on the scale", "readings": READINGS, "free": "515 mm", "after": "514 mm"}
SET = {
    "name": "back",
    "places": [{"x": "-200 mm", "springs": ["coil"]}, {"x": "200 mm", "springs": ["coil"]}],
    "fitted": "420 mm",
    "lifts": "25 kg",
    "guide": "rods",
}
GUIDE = {"name": "rods", "length": "120 mm", "columns": 2, "spacing": "400 mm", "play": "0.2 mm"}
FRAME = {
    "frame": {"span": "700 mm", "opening": "950 mm"},
    "head": {"section": "UPN 120", "steel": "S235", "pieces": 2},
    "bed": {"section": "UPN 120", "steel": "S235", "pieces": 2},
    "uprights": {"section": "FL 80x10", "steel": "S235", "pieces": 2},
}


def press(jack=None, **parts):
    return check_press({"schema": 1, "jack": JACK if jack is None else jack} | parts)


def findings(result):
    return {(f.part, f.check): f for f in result.findings}


def problems(jack=None, **parts):
    with pytest.raises(InputError) as caught:
        press(jack, **parts)
    return {p.key: p for p in caught.value.problems}


def test_the_end_of_the_stroke_follows_from_the_jack():
    """420 mm fitted less 150 mm of stroke is 270 mm, and the output says so."""
    told, stated = press(spring=[SPRING]), press(spring=[SPRING | {"pressed": "270 mm"}])
    assert told.findings == stated.findings
    assert "at the end of the jack's stroke of 150 mm the spring is 270 mm long" in [a.text for a in told.assumptions]


def test_a_spring_stated_for_less_than_the_jack_can_do_rests_on_a_stop():
    """Somebody will run the ram out: without a stop the spring goes on."""
    result = press(spring=[SPRING | {"pressed": "320 mm"}], use=SELDOM)
    assert "something stops the platen when the spring is 320 mm long" in [a.condition for a in result.conditions]
    assert press(spring=[SPRING | {"pressed": "260 mm"}], use=SELDOM).conditions == ()


def test_without_a_stroke_the_pressed_length_is_asked_for():
    """And what else is missing, by its key."""
    assert problems({"rating": "8 t"}, spring=[SPRING])["pressed"].remedy == 'pressed = "270 mm"'
    bare = {key: value for key, value in SPRING.items() if key not in ("free", "fitted", "lifts")}
    assert {"free", "fitted", "lifts"} <= set(problems(spring=[bare]))


def test_a_stroke_longer_than_the_spring_is_refused():
    """Nothing would be left of it."""
    assert "is used up by the jack's stroke" in problems(spring=[SPRING | {"fitted": "140 mm"}])["fitted"].fault


def test_the_jack_gives_the_force_the_springs_may_take():
    """At full stroke against the rating of all jacks together."""
    found = findings(press(spring=[SPRING]))["return springs", "spring force at full stroke"]
    assert found.capacity.value == pytest.approx(78_453, abs=1)
    assert found.demand.as_dict()["unit"] == "kN"


def test_a_bench_test_gives_the_rate_and_its_scatter():
    """4.95 N/mm by the wire; off the scale as much, with the free length where the line meets no load."""
    used = {"name": "used", "bench": "on the scale", "fitted": "420 mm", "lifts": "15 kg", "held": "rod"}
    result = press(spring=[used], bench=[BENCH])
    found = findings(result)
    assert found["used", "spring return force"].capacity.value == pytest.approx(470, abs=8)
    assert found["used", "spring return force"].verdict == "fails"
    assert found["used", "spring stress"].verdict == "not checked"
    assert found["on the scale", "bench free length"].verdict == "holds"
    assert found["on the scale", "spring set"].verdict == "holds"


def test_a_bench_test_beside_the_wire_must_agree_with_it():
    """A rate that the wire cannot give is a contradiction, not an average."""
    result = press(spring=[SPRING | {"bench": "on the scale"}], bench=[BENCH])
    assert findings(result)["return springs", "spring stress"].verdict == "holds"
    soft = [[length, f"{float(force.split()[0]) / 2} kg"] for length, force in READINGS]
    wrong = problems(spring=[SPRING | {"bench": "on the scale"}], bench=[BENCH | {"readings": soft}])
    assert "contradicts the wire" in wrong["rate"].fault


@pytest.mark.parametrize(
    ("readings", "words"),
    [
        ([["400 mm", "10 kg"]] * 4, "are all alike"),
        ([["400 mm"]], "holds something that is no pair"),
        ([["400 mm", "10"]], "has no unit"),
    ],
)
def test_useless_readings_are_refused_in_words(readings, words):
    """By the bench test, and by the spring that rests on it."""
    with pytest.raises(InputError, match=words):
        press(spring=[SPRING], bench=[BENCH | {"readings": readings}])


def test_a_name_that_is_in_no_table_is_refused_with_the_nearest():
    """Springs, benches and guides name each other."""
    assert (
        problems(spring=[SPRING | {"bench": "on a scale"}], bench=[BENCH])["bench"].remedy == 'bench = "on the scale"'
    )
    assert problems(return_set=[SET], guide=[GUIDE])["springs"].wanted == "a [[spring]] of this file"
    assert problems(return_set=[SET], spring=[ONE])["guide"].fault == "is the name of no [[guide]]"


def test_a_set_of_springs_is_judged_together_and_each_on_its_share():
    """Two alike at two places: 940.5 N at the open press against 745.2 N, as two side by side (statics).

    And what the guide holds back: 2 x 0.35 x 245 N x 15 / 120 mm = 21.5 N.
    """
    result = press(spring=[ONE], guide=[GUIDE], return_set=[SET])
    found = findings(result)
    whole = found["back", "spring return force"]
    assert (whole.demand.value, whole.capacity.value) == (
        pytest.approx(745.16 + 21.45, abs=0.05),
        pytest.approx(940.5, abs=0.05),
    )
    assert found["coil at -200 mm", "spring stress"].demand.value == pytest.approx(600.5, abs=0.05)
    assert found["back", "guide binding"].utilisation == 0
    assert not [f for f in result.findings if f.part == "coil"]
    assert any("springs at -200 mm broken" in text for text in result.outcome.answers)


def test_the_springs_of_a_set_help_the_guide_they_stand_beside():
    """Two springs of 4.95 N/mm at 200 mm carry 0.66 N m of a tilt of 0.2 in 120 (derived)."""
    result = press(spring=[ONE], guide=[GUIDE], return_set=[SET])
    assert "rods: the springs carry 0.66 N m of tilt before the bushes bear" in result.outcome.answers


def test_what_the_set_says_is_not_said_twice():
    """Fitted length, mass and count belong to the set."""
    said = ONE | {"fitted": "420 mm", "lifts": "25 kg", "count": 2}
    assert {"fitted", "lifts", "count"} <= set(problems(spring=[said], guide=[GUIDE], return_set=[SET]))


def test_a_guide_takes_the_offset_and_the_force_of_the_jack():
    """15 mm off centre; its post bends under the whole ultimate force (derived: 117.7 kN x 15 mm over two columns)."""
    plain = findings(press(guide=[GUIDE]))["rods", "guide binding"]
    assert plain.demand.value == pytest.approx(2 * 0.35 * 15 / 120)
    posts = press(guide=[GUIDE | {"post": "RD 30", "steel": "S355"}])
    assert findings(posts)["rods", "guide post bending"].demand.value == pytest.approx(1.5 * 78_453 * 15 / 2, rel=1e-4)
    assert "as the jack's offset says" in " ".join(a.text for a in posts.assumptions)


@pytest.mark.parametrize("post", ["RD 30", "30 mm", "3 cm"])
def test_a_post_may_be_a_plain_diameter(post):
    """Of a round bar; what is neither is refused with what to write."""
    found = findings(press(guide=[GUIDE | {"post": post, "steel": "S355"}]))["rods", "guide post bending"]
    assert found.capacity.value == pytest.approx(345 * 3.141592654 * 30**3 / 32, rel=1e-3)
    assert "RD" in problems(guide=[GUIDE | {"post": "34.5 mm"}])["post"].remedy
    assert problems(guide=[GUIDE | {"post": "a thick one"}])["post"].wanted


def test_an_offset_nobody_stated_is_taken_and_said():
    """50 mm, as for the frame."""
    result = press({"rating": "8 t"}, guide=[GUIDE])
    assert findings(result)["rods", "guide binding"].demand.value == pytest.approx(2 * 0.35 * 50 / 120)
    assert any("offset not stated: 50 mm taken" in a.text for a in result.assumptions)


def test_a_warm_platen_without_play_locks():
    """Aluminium at 120 degC on steel columns 400 mm apart grows 0.9 mm (derived), more than a play of 0.2 mm."""
    warm = findings(press(guide=[GUIDE | {"warm": 120.0, "metal": "aluminium"}]))["rods", "guide heat growth"]
    assert warm.verdict == "fails"
    assert warm.demand.value == pytest.approx(400 * 23e-6 * 100, rel=0.01)


def test_extension_springs_are_stretched_by_the_stroke():
    """Their hooks are judged at the end of it; untethered they are no pass."""
    puller = {"name": "puller", "wire": "4 mm", "mean": "40 mm", "active": 60.0, "grade": "SH", "free": "330 mm"}
    puller |= {"fitted": "360 mm", "lifts": "2 kg", "count": 2, "initial": "0 N"}
    found = findings(press(extension_spring=[puller]))
    rate = 81_500 * 4**4 / (8 * 40**3 * 60)
    assert found["puller", "spring force at full stroke"].demand.value == pytest.approx(2 * rate * 180)
    assert found["puller", "spring retention"].verdict == "not checked"


def test_die_springs_go_by_class_or_sheet_never_by_colour():
    """A colour is refused, a class judged by its share of the free length."""
    die = {"name": "die", "rate": "40 N/mm", "free": "300 mm", "fitted": "280 mm", "lifts": "10 kg", "held": "rod"}
    jack = JACK | {"stroke": "50 mm"}
    found = findings(press(jack, die_spring=[die | {"load_class": "medium"}]))["die", "die spring travel"]
    assert (found.demand.value, found.capacity.value) == (70, 75)
    assert "is a colour" in problems(jack, die_spring=[die | {"load_class": "red"}])["load_class"].fault


def test_a_seat_takes_the_force_of_its_spring_pressed():
    """One spring at 270 mm presses with 1213 N, times 1.5; its coil says where."""
    seat = {"name": "seat", "spring": "return springs", "sheet": "5 mm", "steel": "S235", "size": "M12", "class": "8.8"}
    seat |= {"washer": "50 mm", "thickness": "6 mm", "washer_steel": "S235"}
    found = findings(press(spring=[SPRING], spring_seat=[seat]))
    assert found["seat", "bolt tension"].demand.value == pytest.approx(1.5 * 1213, rel=1e-3)
    assert problems(spring_seat=[seat])["spring"].fault == "is the name of no [[spring]] or [[die_spring]]"
    twice = problems(spring=[SPRING], spring_seat=[seat | {"force": "1 kN"}])
    assert twice["force"].fault == "stands beside spring"
    alone = {key: value for key, value in seat.items() if key != "spring"}
    assert {"force", "mean"} == set(problems(spring_seat=[alone]))


def test_a_seat_under_a_set_takes_the_most_of_its_places():
    """Nested, both press on one seat: 1213 N and the inner's, where the outer coil stands."""
    seat = {"name": "seat", "spring": "coil", "sheet": "5 mm", "steel": "S235", "size": "M12", "class": "8.8"}
    inner = ONE | {"name": "inner", "wire": "4 mm", "mean": "28 mm", "active": 30.0, "free": "400 mm", "rod": "20 mm"}
    places = [SET["places"][0], {"x": "200 mm", "springs": ["coil", "inner"], "how": "nested"}]
    result = press(spring=[ONE, inner], guide=[GUIDE], return_set=[SET | {"places": places}], spring_seat=[seat])
    forces = 81500 * 6**4 / (8 * 42**3 * 36) * 245 + 81500 * 4**4 / (8 * 28**3 * 30) * 130
    assert findings(result)["seat", "bolt tension"].demand.value == pytest.approx(1.5 * forces)


def test_springs_in_the_height_of_the_press():
    """Higher than the opening they must stand elsewhere, and the verdict says so; the sum of heights is printed."""
    room = press(JACK | {"opening": "950 mm"}, spring=[SPRING])
    assert "return springs: 420 mm of the clear height of 950 mm" in room.outcome.answers
    tight = press(JACK | {"opening": "400 mm"}, spring=[SPRING])
    condition = "return springs stands beside the opening of 400 mm, where there are 420 mm for it"
    assert condition in [a.condition for a in tight.conditions]
    pulled = {"name": "puller", "wire": "4 mm", "mean": "40 mm", "active": 60.0, "free": "330 mm", "fitted": "360 mm"}
    beside = press(JACK | {"opening": "500 mm"}, extension_spring=[pulled | {"lifts": "2 kg"}])
    assert any("where there are 510 mm for it" in a.condition for a in beside.conditions)


def test_springs_under_a_warm_platen_are_as_warm():
    """90 degC on the guide: the springs lose force that nobody stated; a temperature of their own is theirs."""
    warm = GUIDE | {"warm": 90.0, "play": "1 mm"}
    result = press(spring=[SPRING], guide=[warm])
    assert findings(result)["return springs", "spring return force"].verdict == "not checked"
    assert "springs whose temperature is not stated are as warm as the platen, 90 degC" in [
        a.text for a in result.assumptions
    ]
    cold = press(spring=[SPRING | {"temperature": 30.0}], guide=[warm])
    assert findings(cold)["return springs", "spring return force"].verdict == "holds"
    lost = press(spring=[SPRING | {"relaxation": 0.05}], guide=[warm])
    by_heat = 0.95 * (1 - 0.25e-3 * 70)
    assert findings(lost)["return springs", "spring return force"].capacity.value == pytest.approx(
        940.5 * by_heat, rel=1e-4
    )


def test_pulling_and_die_springs_under_a_warm_platen_are_as_warm():
    """No kind of spring stays cold beside it."""
    warm = GUIDE | {"warm": 90.0, "play": "1 mm"}
    puller = {"name": "puller", "wire": "4 mm", "mean": "40 mm", "active": 60.0, "free": "330 mm", "fitted": "360 mm"}
    die = {"name": "die", "rate": "40 N/mm", "free": "300 mm", "fitted": "280 mm", "held": "rod"}
    for kind, table in (("extension_spring", puller), ("die_spring", die)):
        part = table | {"lifts": "2 kg"}
        bare = press(guide=[warm], **{kind: [part]})
        assert findings(bare)[table["name"], "spring return force"].verdict == "not checked"
        assert any("as warm as the platen" in a.text for a in bare.assumptions)
        stated = press(guide=[warm], **{kind: [part | {"relaxation": 0.05}]})
        assert findings(stated)[table["name"], "spring return force"].verdict != "not checked"


def test_a_hot_coiled_spring_lives_by_its_makers_figures():
    """Nothing here has its stresses: permissible (solid, less when pressed as 0.50 to 0.56) and permissible_range."""
    hot = {"name": "used", "wire": "12 mm", "mean": "100 mm", "turns": 7.5, "coiling": "hot", "free": "380 mm"}
    hot |= {"fitted": "370 mm", "pressed": "220 mm", "lifts": "5 kg", "rod": "80 mm", "ends": "ground"}
    bare = findings(press(spring=[hot]))
    unknown = ("spring stress", "spring stress when solid", "fatigue")
    assert {bare["used", check].verdict for check in unknown} == {"not checked"}
    stated = press(spring=[hot | {"permissible": "900 MPa", "permissible_range": "600 MPa"}])
    found = findings(stated)
    assert found["used", "spring stress when solid"].capacity.value == pytest.approx(900)
    assert found["used", "spring stress"].capacity.value == pytest.approx(900 * 0.50 / 0.56)
    assert found["used", "fatigue"].capacity.value == pytest.approx(600)
    assert {found["used", check].verdict for check in unknown} <= {"holds", "fails"}


def test_rods_that_take_the_couple_are_judged_or_not_passed():
    """A platen on rods of its own: nothing else of the frame bends for it, so their section is owed."""
    on_rods = FRAME | {"guides": {"on": "rods", "length": "120 mm"}}
    bare = findings(press(guide=[GUIDE], **on_rods))["rods", "guide post bending"]
    assert bare.verdict == "not checked"
    stated = findings(press(guide=[GUIDE | {"post": "RD 35", "steel": "S355"}], **on_rods))
    assert stated["rods", "guide post bending"].demand.value == pytest.approx(1.5 * 78_453 * 15 / 2, rel=1e-4)
    on_uprights = FRAME | {"guides": {"on": "uprights", "length": "120 mm"}}
    sliding = GUIDE | {"spacing": "700 mm"}
    assert ("rods", "guide post bending") not in findings(press(guide=[sliding], **on_uprights))


def test_a_mass_that_is_summed_is_not_asked_for_beside_other_problems():
    """A wrong section elsewhere does not make `lifts` missing; without a platen it is."""
    bare = {key: value for key, value in SPRING.items() if key != "lifts"}
    wrong = [GUIDE | {"post": "RD 34.5"}]
    platen = {"name": "p", "length": "400 mm", "width": "300 mm", "thickness": "20 mm", "steel": "S235", "load": "8 t"}
    assert set(problems(spring=[bare], guide=wrong, platen=[platen])) == {"post"}
    assert set(problems(spring=[bare], guide=wrong)) == {"post", "lifts"}
    assert set(problems(spring=[bare], guide=wrong, platen=[platen | {"moves": False}])) == {"post", "lifts"}


def test_a_guide_nearer_to_the_force_than_the_press_is_judged_for_is_a_condition():
    """5 mm for the guide, 15 for the jack: somebody must keep the work there."""
    near = press(guide=[GUIDE | {"offset": "5 mm"}])
    assert [a.condition for a in near.conditions] == ["the force stands no further than 5 mm from the centre of rods"]
    assert press(guide=[GUIDE | {"offset": "15 mm"}]).conditions == ()
    assert press({"rating": "8 t"}, guide=[GUIDE | {"offset": "5 mm"}]).conditions == ()


@pytest.mark.parametrize(("held", "by"), [("no", "rod"), ("no", "tube"), ("tube", "rod")])
def test_held_and_the_diameter_beside_it_must_say_the_same(held, by):
    """The kinder of two contradictory words is never taken."""
    spring = {"name": "return", "wire": "6 mm", "mean": "42 mm", "active": 36.0, "ends": "ground", "grade": "SM"}
    spring |= {"free": "515 mm", "fitted": "420 mm", "lifts": "25 kg", "held": held, by: "32 mm"}
    with pytest.raises(InputError, match="held"):
        findings(press(spring=[spring]))
