"""The line of the jack's force against saddle, foot and an eighth of the ram; distances by hand (statics)."""

import copy
import tomllib
from pathlib import Path

import pytest

from structcheck.questions import check_press

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
BINDERS = tomllib.loads((EXAMPLES / "bookbinders_press.toml").read_text(encoding="utf-8"))
"""15 mm off the middle; saddle and ram 25 mm, foot 90 mm on a bed 80 mm wide; 0.3 mm of play over 100 mm."""


def pressed(jack=None, guide=None, **tables):
    """The bookbinder's press with keys of its jack and guide changed; None takes a key or a table out."""
    press = copy.deepcopy(BINDERS) | tables
    for table, keys in ((press["jack"], jack or {}), (press["guide"][0], guide or {})):
        table.update(keys)
        for key in [key for key, value in table.items() if value is None]:
            del table[key]
    return check_press({key: table for key, table in press.items() if table is not None})


def resultants(result):
    return {f.part: f for f in result.findings if f.check == "resultant"}


def test_a_ball_hands_the_ram_no_more_than_its_friction():
    """0.15 x 12.5 mm, and 0.003 x 120 mm walked over the stroke: 2.235 of 25 / 8 mm."""
    found = resultants(pressed())
    assert found["ram"].demand.value == pytest.approx(0.15 * 12.5 + 0.003 * 120)
    assert found["ram"].capacity.value == 25 / 8
    assert found["jack foot"].demand.value == pytest.approx(0.15 * 12.5 + 0.003 * (185 + 120))
    assert found["jack foot"].capacity.value == 40
    assert any("its ball seat is greased" in a.text for a in pressed().assumptions)


def test_guides_do_not_spare_the_ram_what_a_flat_saddle_hands_on():
    """Flat, the force may stand at the saddle's edge, 12.5 mm off a ram of 25 mm, whatever guides are there."""
    found = resultants(pressed({"seat": "flat"}))["ram"]
    assert (found.verdict, found.demand.value) == ("fails", pytest.approx(12.5 + 0.36))
    assert "a ball seat" in found.reason
    near = resultants(pressed({"seat": "flat", "offset": "2 mm", "offset_across": "2 mm"}, {"offset": "2 mm"}))
    assert (near["ram"].verdict, near["ram"].demand.value) == ("holds", pytest.approx(2.36))


def test_a_ram_of_unknown_size_is_no_pass_and_a_piston_stands_for_it():
    """Guides or none."""
    assert resultants(pressed({"ram": None}))["ram"].verdict == "not checked"
    assert resultants(pressed({"ram": None, "bore": "40 mm"}))["ram"].capacity.value == 5


def test_a_lean_in_the_guides_turns_the_force_off_the_ram():
    """20 mm of play over 100 mm lean 11 degrees: 24 mm over the stroke."""
    found = resultants(pressed(guide={"play": "20 mm"}))
    assert {part: f.verdict for part, f in found.items()} == {"jack foot": "fails", "ram": "fails"}
    assert found["ram"].demand.value == pytest.approx(1.875 + 0.2 * 120)
    assert "a lean of 11 deg" in found["ram"].reason


def test_play_nobody_measured_is_a_condition():
    """(3.125 - 1.875) / 120 x 100 mm is the most there may be."""
    assert [a.condition for a in pressed(guide={"play": None}).conditions] == ["the guides have at most 1 mm of play"]


def test_a_foot_is_held_no_further_out_than_what_it_stands_on():
    """Two flats of 15 mm 50 mm apart are 80 mm wide: 40 mm, whatever plate lies on them, where the foot has 45."""
    bare = {key: value for key, value in BINDERS["bed"].items() if key != "spreader"}
    for bed in (bare, BINDERS["bed"]):
        found = resultants(pressed({"offset_across": "30 mm", "seat": "flat"}, bed=bed))["jack foot"]
        assert found.capacity.value == 40


def test_without_guides_saddle_foot_and_ram_are_judged_for_the_whole_offset():
    """15 mm beside 12.5, 45 and 25 / 8 mm."""
    press = {key: table for key, table in copy.deepcopy(BINDERS).items() if key not in ("guides", "guide")}
    press["jack"]["seat"] = "flat"
    found = resultants(check_press(press))
    assert {part: (f.demand.value, f.capacity.value) for part, f in found.items()} == {
        "saddle": (15, 12.5),
        "jack foot": (15, 45),
        "ram": (15, 25 / 8),
    }


@pytest.mark.parametrize(
    ("on", "words"), [("uprights", "a ball seat (seat), or stops"), ("ram", "a ball seat would not")]
)
def test_a_ball_seat_is_not_the_advice_where_the_guides_are_on_the_ram(on, words):
    """There it would leave the couple to nothing, and the frame racks."""
    guides = BINDERS["guides"] | {"on": on}
    ram = resultants(pressed({"seat": "flat"}, guides=guides))["ram"]
    assert words in ram.reason
    racks = [f.verdict for f in pressed({"seat": "ball"}, guides=guides).findings if f.check == "racking"]
    assert racks == ["fails" if on == "ram" else "holds"]


def test_what_lies_beyond_the_saddle_is_told():
    """Without guides nothing takes the couple there."""
    saddle = resultants(pressed({"seat": "flat", "offset": "60 mm"}, guides=None, guide=None))["saddle"]
    assert saddle.verdict == "fails"
    assert "[guides]" in saddle.reason
