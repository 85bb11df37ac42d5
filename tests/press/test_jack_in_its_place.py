"""The jack in its place: reach, room, posture and what is judged once, from a press file to findings."""

import pytest

from tests.press.test_mechanism import FRAME, JACK, SELDOM, SPRING, findings, press, problems


def test_the_jack_must_reach_and_fit():
    """Opening 520, jack 230, packing 40, work 130: 120 mm to the work and 20 to press it are 140 of 150 mm."""
    place = {"closed": "230 mm", "opening": "520 mm", "packing": "40 mm", "work": "130 mm", "squash": "20 mm"}
    result = press(JACK | place, spring=[SPRING])
    found = findings(result)
    assert found["jack", "stroke"].utilisation == pytest.approx(140 / 150)
    assert found["jack", "jack opening"].utilisation == pytest.approx(400 / 520)
    assert "jack: 93% of the stroke is needed; plan on 80 %" in result.outcome.advice
    far = findings(press(JACK | place | {"opening": "560 mm"}, spring=[SPRING]))["jack", "stroke"]
    assert far.verdict == "fails"


def test_a_file_about_single_parts_owes_nothing_of_the_jacks_place():
    """But what it says of it is judged, and what it leaves out is told as not asked."""
    result = press(spring=[SPRING], use=SELDOM)
    assert result.verdict == "holds"
    assert {n.check for n in result.does_not_apply if n.part == "jack"} == {
        "stroke",
        "jack opening",
        "jack centring",
        "retention",
    }
    begun = findings(press(JACK | {"closed": "230 mm"}, spring=[SPRING]))
    assert begun["jack", "stroke"].verdict == "not checked"
    assert findings(press(JACK | {"retained": False}, spring=[SPRING]))["jack", "retention"].verdict == "fails"
    centred = findings(press(JACK | {"ram": "40 mm"}, spring=[SPRING]))["jack", "jack centring"]
    assert (centred.demand.value, centred.capacity.value, centred.verdict) == (15, 5, "fails")
    turning = findings(press(JACK | {"ram": "40 mm", "seat": "ball"}, spring=[SPRING]))["jack", "jack centring"]
    assert (turning.demand.value, turning.verdict) == (pytest.approx(0.15 * 19), "holds")


def test_the_cautions_about_the_jack_stand_in_every_press():
    """Welding to it, its valve, its handle."""
    advice = " ".join(press(spring=[SPRING]).outcome.advice)
    for words in ("never weld to the jack", "never touch the valve", "never lengthen the handle"):
        assert words in advice


def test_a_jack_that_pumps_upside_down_is_no_pass():
    """A bottle jack draws air; its maker may allow it."""
    hung = JACK | {"travel": "100 mm", "posture": "inverted"}
    assert findings(press(hung, spring=[SPRING]))["jack", "stroke"].verdict == "not checked"
    assert findings(press(hung | {"inverted_oil": True}, spring=[SPRING]))["jack", "stroke"].verdict == "holds"


def test_more_than_the_jack_can_give_is_refused():
    """The work needs 9 t of an 8 t jack."""
    assert "is over the rated force" in problems(JACK | {"planned": "9 t"}, spring=[SPRING])["planned"].fault


def test_in_a_described_frame_each_thing_of_the_jack_is_judged_once():
    """The frame judges retention and the line of the force thing by thing; the jack's own are left out."""
    place = {"closed": "230 mm", "packing": "400 mm", "work": "280 mm", "squash": "60 mm", "ram": "45 mm"}
    found = press(JACK | place, **FRAME).findings
    checks = [(f.part, f.check) for f in found if f.part in ("jack", "jack foot", "saddle", "ram")]
    assert len(checks) == len(set(checks))
    assert ("jack", "retention") not in checks
    unkept = findings(press(JACK | place | {"retained": False}, **FRAME))
    assert unkept["jack", "retention"].verdict == "fails"
    assert ("jack", "jack centring") not in checks
    assert ("jack foot", "retention") in checks
    assert {(f.check, f.verdict) for f in found if f.part == "jack"} == {("stroke", "holds"), ("jack opening", "holds")}


def test_in_a_described_frame_the_reach_of_the_jack_is_owed():
    """Its closed height is not stated: not a pass."""
    found = findings(press(JACK, **FRAME))
    assert found["jack", "stroke"].verdict == "not checked"
