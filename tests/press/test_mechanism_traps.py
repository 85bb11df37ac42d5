"""What goes wrong with the moving parts of a press, one by one, put into a whole press: none passes unseen.

Symptoms and causes are those builders report (common practice, no source); limits are those of the checks.
"""

import copy
import tomllib
from pathlib import Path

import pytest

from structcheck.errors import InputError
from structcheck.questions import check_press

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
BINDERS = tomllib.loads((EXAMPLES / "bookbinders_press.toml").read_text(encoding="utf-8"))


def press(base=BINDERS, **changes):
    """An example with keys changed in tables by name; None takes a key or a table out."""
    made = copy.deepcopy(base)
    for table, keys in changes.items():
        if keys is None:
            made.pop(table)
            continue
        row = made[table][0] if isinstance(made.get(table), list) else made.setdefault(table, {})
        row.update(keys)
        for key in [key for key, value in row.items() if value is None]:
            del row[key]
    return check_press(made)


def verdicts(result):
    return {(f.part, f.check): f.verdict for f in result.findings}


def conditions(result):
    return " ".join(a.condition for a in result.conditions)


def said(result):
    outcome = result.outcome
    return " ".join((*outcome.answers, *outcome.advice, *(a.text for a in result.assumptions)))


def test_the_press_without_a_trap_holds():
    """Else the traps below would show nothing."""
    assert (press().verdict, press().conditions) == ("holds", ())


@pytest.mark.parametrize(
    ("trap", "changes", "part", "check", "verdict"),
    [
        ("jams on the way", {"guide": {"length": "12 mm"}, "guides": {"length": "12 mm"}}, 0, "guide binding", "fails"),
        ("does not come home", {"spring": {"count": 2}}, 1, "spring return force", "fails"),
        (
            "does not come home: the mass that moves",
            {"platen": {"thickness": "60 mm"}},
            1,
            "spring return force",
            "fails",
        ),
        ("runs out of force: solid", {"spring": {"active": 30.0}}, 1, "spring clearance before solid", "fails"),
        ("bows and rubs", {"spring": {"rod": None}}, 1, "spring buckling", "fails"),
        ("bows: a rod too thin", {"spring": {"rod": "12 mm"}}, 1, "spring buckling", "fails"),
        ("the coil does not go over its rod", {"spring": {"rod": "39.8 mm"}}, 1, "spring guide fit", "fails"),
        ("gets shorter: stress", {"spring": {"grade": "SL", "free": "520 mm"}}, 1, "spring stress when solid", "fails"),
        ("gets shorter: heat", {"spring": {"temperature": 80.0}}, 1, "spring return force", "not checked"),
        ("used spring, hot coiled", {"spring": {"coiling": "hot"}}, 1, "spring stress", "not checked"),
        ("bears on one edge: play", {"guide": {"level": "0.1 mm", "half_width": "190 mm"}}, 0, "guide tilt", "fails"),
        ("ram scored: flat saddle", {"jack": {"seat": "flat"}}, "ram", "resultant", "fails"),
        (
            "locks when hot",
            {"guide": {"warm": 150.0, "columns": 2, "spacing": "500 mm"}},
            0,
            "guide heat growth",
            "fails",
        ),
        ("draws air", {"jack": {"posture": "inverted"}}, "jack", "stroke", "not checked"),
        ("kicks out", {"retention": {"jack_foot": "its weight"}}, "jack foot", "retention", "fails"),
        ("ram held fast", {"retention": {"saddle": "welded to the platen"}}, "saddle", "retention", "fails"),
        ("does not reach", {"jack": {"travel": None, "work": "180 mm"}}, "jack", "stroke", "fails"),
        ("does not go in", {"jack": {"closed": "240 mm"}}, "jack", "jack opening", "fails"),
    ],
)
def test_a_trap_is_no_pass(trap, changes, part, check, verdict):
    """Each by the check that catches it, whatever else holds."""
    part = {0: "platen on the uprights", 1: "return springs"}.get(part, part)
    result = press(**changes)
    assert verdicts(result).get((part, check)) == verdict, trap
    assert result.verdict in ("fails", "incomplete"), trap


def test_stick_slip_is_spoken_of_before_it_jams():
    """Dry friction of 0.35 over 35 mm at 15 mm holds back 0.3 of the drive: it holds, and is warned of."""
    short = {"guide": {"length": "35 mm", "friction": 0.15}, "guides": {"length": "35 mm"}}
    assert verdicts(press(**short))["platen on the uprights", "guide binding"] == "holds"
    assert "dry it holds back 30% of the drive, and less once it slides: it sticks part way, then bangs" in said(
        press(**short)
    )
    assert "it sticks part way" not in said(press())


def test_a_guide_that_jams_dry_rests_on_its_grease():
    """2 x 0.35 x 15 / 10 is 1.05; greased 0.45."""
    greased = {"guide": {"length": "10 mm", "friction": 0.15}, "guides": {"length": "10 mm"}}
    result = press(**greased)
    assert verdicts(result)["platen on the uprights", "guide binding"] == "holds"
    assert "is kept greased: dry it jams" in conditions(result)


def test_a_spring_nothing_keeps_on_its_seats_is_a_condition_and_its_energy_is_told():
    """Too short to bow, it still walks off and flies: cup, spigot or rod; what it stores stands in the answers."""
    short = {"active": 4.0, "free": "180 mm", "fitted": "178 mm", "pressed": "58 mm", "rod": None, "count": 4}
    free = press(spring=short, jack={"stroke": "120 mm"})
    assert "cups or spigots keep return springs on its seats" in conditions(free)
    assert "energy stored when pressed" in said(free)
    assert "a spring that gets loose flies" in said(free)
    assert "cups or spigots" not in conditions(press(spring=short | {"seats_parallel": True}))


def test_a_washer_pulled_through_is_asked_about():
    """Springs of a described press bear on something: a [[spring_seat]] judges it, or it is a condition."""
    assert "what return springs bears on takes its force" in conditions(press(spring_seat=None))
    thin = {"sheet": "0.05 mm", "washer": "14 mm", "thickness": "2 mm", "washer_steel": "S235", "size": "M12"}
    found = verdicts(press(spring_seat=thin | {"class": "8.8"}))
    assert found["spring seats on the platen", "punching"] == "fails"


def test_one_broken_spring_is_told():
    """The platen hangs, or comes back askew."""
    assert "one of 4 broken" in said(press())


def test_the_outside_diameter_typed_as_the_mean_is_found_where_both_or_a_rate_are_stated():
    """The commonest slip: 50 mm outside are 45 mean of 5 mm wire; as a mean they are another spring."""
    with pytest.raises(InputError, match="is not mean"):
        press(spring={"mean": "50 mm", "outside": "50 mm"})
    with pytest.raises(InputError, match="contradicts the wire"):
        press(spring={"mean": "50 mm", "rate": "2.54 N/mm"})


def test_all_turns_counted_as_working_ones_are_found_by_the_solid_length():
    """Builders count all: 29.5 turns are 27.5 that work, and a spring of 29.5 working ones has no clearance left."""
    by_turns = press(spring={"active": None, "turns": 29.5})
    assert by_turns.findings == press().findings
    assert verdicts(press(spring={"active": 29.5}))["return springs", "spring clearance before solid"] == "fails"


def test_the_whole_stroke_counts_not_what_the_work_takes():
    """Somebody will run the ram out: less is a condition."""
    assert "something stops the platen" in conditions(press(spring={"pressed": "240 mm"}))


def test_a_stated_travel_does_not_hide_what_the_heights_ask():
    """10 mm written, 25 mm to go before the work is met."""
    found = next(f for f in press(jack={"travel": "10 mm"}).findings if (f.part, f.check) == ("jack", "stroke"))
    assert found.demand.value == 25


def test_the_frame_outlives_a_valve_that_is_absent():
    """Nobody states it: 1.25 R as a normal event, and it is said."""
    bare = press(jack={"relief": None})
    assert "greatest force taken as 1.25 x rated = 36.77 kN; verify the valve" in said(bare)


def test_side_load_of_the_handle_and_longer_handles_are_warned_of():
    """Printed with every jack."""
    for words in ("never weld to the jack", "never touch the valve", "never lengthen the handle", "side load bends"):
        assert words in said(press())


def test_a_rated_mass_is_not_a_us_ton():
    """3 short tons are 9 % less than 3 t; a bare ton is refused."""
    with pytest.raises(InputError):
        press(jack={"rating": "3 ton"})
    assert press(jack={"rating": "3 short_ton", "relief": None}).basis["rated"] != press().basis["rated"]


def test_die_springs_are_never_told_by_their_colour():
    """It means other loads elsewhere."""
    die = {"name": "die", "rate": "40 N/mm", "free": "300 mm", "fitted": "280 mm", "held": "rod", "load_class": "red"}
    jack = {"rating": "3 t", "stroke": "50 mm"}
    with pytest.raises(InputError, match="is a colour"):
        check_press({"schema": 1, "jack": jack, "die_spring": [die | {"lifts": "5 kg"}]})
