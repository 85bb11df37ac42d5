"""The height of the whole press: what is described stands in it, whatever is written. Sums by hand."""

import copy
import tomllib
from pathlib import Path

import pytest

from structcheck.questions import check_press

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
BINDERS = tomllib.loads((EXAMPLES / "bookbinders_press.toml").read_text(encoding="utf-8"))
"""Jack 185, packing 90 (plates of 25 on head and bed, platen 30), work 300 of 600 mm; stroke 120."""


def pressed(jack=None, **tables):
    press = copy.deepcopy(BINDERS) | tables
    press["jack"].update(jack or {})
    press["jack"] = {key: value for key, value in press["jack"].items() if value is not None}
    return check_press(press)


def found(result):
    return {f.check: f for f in result.findings if f.part == "jack"}


def conditions(result):
    return [a.condition for a in result.conditions]


def test_parts_described_are_summed_where_packing_is_not_stated():
    """185 + 30 + 25 + 25 + 300 = 565 mm, and said."""
    result = pressed({"packing": None})
    assert found(result)["jack opening"].demand.value == 565
    text = "packing not stated: platen 30 + spreader on the head 25 + spreader on the bed 25 = 80 mm of the parts"
    assert any(a.text.startswith(text) for a in result.assumptions)
    told = "jack: heights: jack 185 + platen 30 + spreader on the head 25 + spreader on the bed 25 + work 300 = 565 of"
    assert any(line.startswith(told) for line in result.outcome.answers)


def test_a_platen_that_fills_the_opening_does_not_hold():
    """120 mm thick: 655 mm of 600, though nobody wrote packing."""
    thick = [BINDERS["platen"][0] | {"thickness": "120 mm"}]
    assert found(pressed({"packing": None}, platen=thick))["jack opening"].verdict == "fails"


def test_less_packing_than_is_described_does_not_hold_silently():
    """60 stated beside 80 described: the opening goes by the more, the stroke by the less, and it is a condition."""
    result = pressed({"packing": "60 mm", "travel": None})
    assert found(result)["jack opening"].demand.value == 185 + 80 + 300
    assert found(result)["stroke"].demand.value == 600 - (185 + 60 + 300)
    assert [text for text in conditions(result) if text.startswith("packing 60 mm is all that stands")]
    assert result.verdict == "holds if"


def test_packing_that_holds_what_is_described_says_so():
    """90 mm hold the 80 described: no condition."""
    result = pressed()
    text = "jack: packing 90 mm holds platen 30 + spreader on the head 25 + spreader on the bed 25 = 80 mm"
    assert text in result.outcome.answers
    assert conditions(result) == []


def test_work_of_unknown_height_is_said():
    """None counts in the opening."""
    texts = [a.text for a in pressed({"work": None, "travel": None}).assumptions]
    assert "height of the work not stated: none is counted in the opening" in texts
    assert "height of the work not stated: none is counted in the opening" not in [
        a.text for a in pressed().assumptions
    ]


def test_springs_stand_between_the_platen_and_the_head():
    """600 - 185 - 30 - 25 = 360 mm: 300 mm fit with 60 mm to spare, 380 mm stand elsewhere."""
    text = "return springs: 300 mm of the 360 mm between the platen and the head when the ram is in; 60 mm of posts"
    assert any(line.startswith(text) for line in pressed().outcome.answers)
    long = [BINDERS["spring"][0] | {"free": "475 mm", "fitted": "380 mm", "pressed": "260 mm", "active": 40.0}]
    asked = "return springs stands beside the opening of 600 mm, where there are 380 mm for it: it leaves 360 mm"
    assert [c for c in conditions(pressed(spring=long)) if c.startswith(asked)]


def test_the_height_between_centre_lines_tells_springs_their_room_too():
    """Height in place of opening: 700 - 100 = 600 mm, the same room."""
    frame = {key: value for key, value in BINDERS["frame"].items() if key != "opening"} | {"height": "700 mm"}
    assert [line for line in pressed(frame=frame).outcome.answers if "of the 360 mm between the platen" in line]


@pytest.mark.parametrize("moves", [True, False])
def test_a_plate_that_stands_still_takes_height_too(moves):
    """A second plate of 20 mm; it leaves the springs theirs only where it does not ride on the ram."""
    still = BINDERS["platen"][0] | {"name": "anvil plate", "thickness": "20 mm", "moves": moves, "load": "3 t"}
    result = pressed({"packing": None}, platen=[*BINDERS["platen"], still])
    assert found(result)["jack opening"].demand.value == 585
    assert any(f"of the {340 if moves else 360} mm between" in line for line in result.outcome.answers)


def test_a_stroke_longer_than_the_jack_is_high_wants_a_ram_in_stages():
    """185 mm high and 200 of stroke."""
    asked = "the jack, 185 mm high, has a ram in stages: its stroke is 200 mm"
    assert asked in conditions(pressed({"stroke": "200 mm"}))
