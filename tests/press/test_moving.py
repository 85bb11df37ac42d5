"""What springs must bring back, summed from what a press file describes: masses, and friction of the guides."""

import math

import pytest

from tests.press.test_mechanism import FRAME, GUIDE, JACK, ONE, SET, SPRING, findings, press, problems

ALONE = {key: value for key, value in SPRING.items() if key != "lifts"} | {"count": 4}
PLATEN = {"name": "platen", "length": "500 mm", "width": "400 mm", "thickness": "30 mm", "steel": "S235", "load": "8 t"}
HOOD = {"name": "hood", "mass": "6.5 kg", "height": "1 m"}
PLATEN_KG = 500 * 400 * 30 * 7.85e-6
COIL_KG = math.pi * 6**2 / 4 * math.pi * 42 * 38 * 7.85e-6
"""One coil of 38 turns: half of it hangs on what it lifts (statics)."""
OWN_KG = 4 * COIL_KG / 2
G = 9.80665


def duty(result, part="return springs"):
    return findings(result)[part, "spring return force"]


def said(result):
    return [a.text for a in result.assumptions]


def test_the_moving_mass_is_that_of_the_platen_and_what_is_added():
    """500 x 400 x 30 mm of steel are 47.1 kg by hand; a hood of 6.5 kg counts until it is said to stand still."""
    result = press(spring=[ALONE], platen=[PLATEN], mass=[HOOD])
    assert duty(result).demand.value == pytest.approx((PLATEN_KG + 6.5 + OWN_KG) * G + 500)
    assert not duty(result).user_force
    text = "moving mass, summed: platen 47.1 kg + hood 6.5 kg = 53.6 kg; add a [[mass]] for what else moves"
    assert text in said(result)
    assert "platen and hood counted as moving: write moves = false where it stands still" in said(result)
    still = press(spring=[ALONE], platen=[PLATEN], mass=[HOOD | {"moves": False}])
    assert duty(still).demand.value == pytest.approx((PLATEN_KG + OWN_KG) * G + 500)
    assert "half of the springs' own weight, 2.23 kg, is added to what they lift" in said(still)
    told = press(spring=[ALONE], platen=[PLATEN | {"moves": True}], mass=[HOOD | {"moves": True}])
    assert not [text for text in said(told) if "counted as moving" in text]


def test_without_a_platen_a_mass_that_moves_is_enough_and_nothing_is_not():
    """A hood that may stand still tells nothing of a platen nobody described."""
    only = press(spring=[ALONE], mass=[HOOD | {"moves": True}])
    assert duty(only).demand.value == pytest.approx((6.5 + OWN_KG) * G + 500)
    assert "lifts" in problems(spring=[ALONE], mass=[HOOD])
    assert "lifts" in problems(spring=[ALONE], platen=[PLATEN | {"moves": False}])
    for kind, table in (
        ("die_spring", {"name": "d", "rate": "40 N/mm", "free": "300 mm", "fitted": "280 mm"}),
        ("extension_spring", {"name": "p", "rate": "4 N/mm", "free": "300 mm", "fitted": "380 mm"}),
        ("return_set", {key: value for key, value in SET.items() if key != "lifts"}),
    ):
        assert "lifts" in problems(spring=[ONE], guide=[GUIDE], **{kind: [table]})


def test_a_stated_mass_is_marked_and_no_pass_where_more_is_described():
    """25 kg beside a platen of 47.1 kg: the figure is the user's, and what is described speaks against it."""
    less = press(spring=[SPRING], platen=[PLATEN])
    assert duty(less).user_force
    found = findings(less)["return springs", "moving mass"]
    assert found.verdict == "not checked"
    assert found.reason.startswith("25 kg to lift stated, but platen 47.1 kg is described as moving")
    more = press(spring=[ALONE | {"lifts": "50 kg"}], platen=[PLATEN])
    assert ("return springs", "moving mass") not in findings(more)
    assert "50 kg to lift is yours; what is described as moving weighs 47.1 kg" in said(more)


def test_springs_of_several_tables_are_told_to_share():
    """Each as if alone where nothing is stated; stated, they lift together what moves."""
    two = [ALONE | {"name": "left", "count": 2}, ALONE | {"name": "right", "count": 2}]
    alone = press(spring=two, platen=[PLATEN])
    needed = (PLATEN_KG + OWN_KG / 2) * G + 500
    assert duty(alone, "left").demand.value == duty(alone, "right").demand.value == pytest.approx(needed)
    assert any("as if these springs alone brought all of it back" in text for text in said(alone))
    shared = press(spring=[table | {"lifts": "24 kg"} for table in two], platen=[PLATEN])
    assert not [f for f in shared.findings if f.check == "moving mass"]
    short = press(spring=[table | {"lifts": "23 kg"} for table in two], platen=[PLATEN])
    assert [f.part for f in short.findings if f.check == "moving mass"] == ["left", "right"]


def test_the_springs_own_weight_beside_a_stated_mass_counts_where_it_decides():
    """By hand: two coils press 940.5 N; half of both weighs 10.9 N, beyond a stated mass that just comes back."""
    pressing, own = 2 * 81500 * 6**4 / (8 * 42**3 * 36) * 95, COIL_KG * G
    plenty = duty(press(spring=[SPRING | {"lifts": "25 kg"}]))
    assert plenty.demand.value == pytest.approx(25 * G + 500)
    mass = (pressing - 500 - own / 2) / G
    scant = duty(press(spring=[SPRING | {"lifts": f"{mass:.3f} kg"}]))
    assert (scant.verdict, scant.demand.value) == ("fails", pytest.approx(pressing + own / 2, abs=0.01))
    assert "half of the springs' own weight, 10.9 N, decides" in scant.reason
    told = said(press(spring=[SPRING]))
    assert (
        "half of the springs' own weight, 10.9 N, hangs on what they lift: 1.5% of it, added where it decides" in told
    )


def test_the_guides_rub_at_the_top_of_the_stroke():
    """Weight 15 mm beside a bush of 120 mm: 2 mu W e / L; springs 10 mm off line: (W e + P e_s) / (L / 2 mu - e_s)."""
    weight, oil, own = PLATEN_KG * G, 500.0, OWN_KG * G
    in_line = press(spring=[ALONE], platen=[PLATEN], guide=[GUIDE])
    rubbed = 2 * 0.35 * weight * 15 / 120
    assert duty(in_line).demand.value == pytest.approx(weight + own + oil + rubbed)
    assert any(text.startswith(f"friction of rods at the top of the stroke {rubbed:.0f} N") for text in said(in_line))
    assert "the springs stand even about the centre of rods (off_line 0)" in said(in_line)
    off = press(spring=[ALONE | {"off_line": "10 mm", "centre": "5 mm"}], platen=[PLATEN], guide=[GUIDE])
    across = (weight * 5 + (weight + oil) * 10) / (120 - 2 * 0.35 * 10)
    assert duty(off).demand.value == pytest.approx(weight + own + oil + 2 * 0.35 * across)
    mine = press(spring=[ALONE | {"drag": "80 N"}], platen=[PLATEN], guide=[GUIDE])
    assert duty(mine).demand.value == pytest.approx(weight + own + oil + 80)
    assert duty(mine).user_force


def test_springs_so_far_off_line_that_the_guides_jam_bring_nothing_back():
    """2 mu e / L = 1 at 171 mm: no force is enough."""
    jammed = duty(press(spring=[ALONE | {"off_line": "180 mm"}], platen=[PLATEN], guide=[GUIDE]))
    assert (jammed.verdict, jammed.reason) == ("fails", "the guides jam on the way back, whatever the springs")


def test_a_set_of_springs_rubs_by_where_its_springs_stand():
    """One of the two softer: the resultant moves, and with the mass on the far side the couples add up (by hand)."""
    soft = ONE | {"name": "soft", "active": 40.0, "free": "519 mm"}
    places = [{"x": "-200 mm", "springs": ["coil"]}, {"x": "200 mm", "springs": ["soft"]}]
    whole = {key: value for key, value in SET.items() if key != "lifts"} | {"places": places}
    result = press(spring=[ONE, soft], platen=[PLATEN], guide=[GUIDE], return_set=[whole])
    hard_force, soft_force = (81500 * 6**4 / (8 * 42**3 * n) * travel for n, travel in ((36, 95), (40, 99)))
    springs_at = 200 * (hard_force - soft_force) / (hard_force + soft_force)
    weight = (PLATEN_KG + COIL_KG / 2 + COIL_KG * 42 / 38 / 2) * G
    across = (weight * 15 + (weight + 500) * springs_at) / (120 - 2 * 0.35 * springs_at)
    assert duty(result, "back").demand.value == pytest.approx(weight + 500 + 2 * 0.35 * across)
    centred = press(spring=[ONE, soft], platen=[PLATEN], guide=[GUIDE], return_set=[whole | {"centre": "0 mm"}])
    across = (weight + 500) * springs_at / (120 - 2 * 0.35 * springs_at)
    assert duty(centred, "back").demand.value == pytest.approx(weight + 500 + 2 * 0.35 * across)


def test_the_weight_of_what_is_pushed_up_is_counted_all_the_same():
    """The safe side, and said."""
    frame = FRAME | {"platen": [{key: value for key, value in PLATEN.items() if key != "load"}]}
    up = said(press(spring=[ALONE], **frame))
    assert "the weight is counted against the springs; where the ram pushes up it helps them" in up
    down = FRAME | {"frame": FRAME["frame"] | {"jack_on": "head"}, "platen": frame["platen"]}
    assert not [text for text in said(press(spring=[ALONE], **down)) if "pushes up" in text]


def test_a_platen_nothing_lifts_again_is_no_pass():
    """Pushed down by a jack in the head it stays down; pushed up its weight brings it back, and the oil is told."""
    platen = {key: value for key, value in PLATEN.items() if key != "load"}
    up = press(**FRAME, platen=[platen])
    told = "only its weight brings it back: 462 N against 500 N of oil and seals until measured; the ram under platen"
    assert [text for text in said(up) if text.startswith(told)]
    condition = "the ram under platen is pushed back by hand, its valve open"
    assert condition in [a.condition for a in up.assumptions]
    by_hand = press(**FRAME, jack=JACK | {"pushed_back": True}, platen=[platen])
    assert not [a for a in by_hand.assumptions if a.condition == condition]
    heavy = press(**FRAME, platen=[platen | {"thickness": "60 mm"}])
    assert not [a for a in heavy.assumptions if a.condition.startswith("the ram under")]
    head = FRAME | {"frame": FRAME["frame"] | {"jack_on": "head"}}
    down = findings(press(**head, platen=[platen]))["platen", "spring return force"]
    assert (down.verdict, down.reason[:34]) == ("not checked", "nothing is described that lifts pl")
    still = findings(press(**head, platen=[platen | {"moves": False}]))
    assert ("platen", "spring return force") not in still


def test_springs_far_from_their_platen_are_refused():
    """Half a metre of platen and springs 1.2 m off its middle."""
    platen = {key: value for key, value in PLATEN.items() if key != "load"}
    places = [{"x": "-1200 mm", "springs": ["coil"]}, {"x": "1200 mm", "springs": ["coil"]}]
    whole = SET | {"places": places, "lifts": "50 kg"}
    assert (
        "1200 mm off the middle"
        in problems(**FRAME, platen=[platen], spring=[ONE], guide=[GUIDE], return_set=[whole])["places"].fault
    )


def test_a_jack_at_the_head_hangs_unless_it_is_said_to_stand():
    """Hung upside down it draws air, and it was taken as upright without a word."""
    head = FRAME | {"frame": FRAME["frame"] | {"jack_on": "head"}}
    condition = "the jack at the head stands upright, its foot on what it moves and its ram against the head"
    assert condition in [a.condition for a in press(**head).assumptions]
    stands = press(**head, jack=JACK | {"posture": "upright"})
    assert condition not in [a.condition for a in stands.assumptions]
    assert findings(press(**head, jack=JACK | {"posture": "inverted"}))["jack", "stroke"].verdict == "not checked"
