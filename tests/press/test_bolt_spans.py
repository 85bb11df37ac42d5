"""Bolts at corners through tubes: what they span is seen from the frame."""

import copy
import tomllib
from pathlib import Path

import pytest

from structcheck.errors import InputError
from structcheck.questions import check_press

ORCHARD = tomllib.loads(
    (Path(__file__).resolve().parents[2] / "examples" / "orchard_press.toml").read_text(encoding="utf-8")
)
TUBE, WEBS = 0, 1


def _press(**keys):
    """Tubes as uprights, 80 mm wide between the channels of head and bed."""
    press = copy.deepcopy(ORCHARD)
    press["uprights"] = {"section": "SHS 80x80x4 cold", "steel": "S235", "hole": "18 mm", "holes": 2, "quality": "JR"}
    for beam in ("head", "bed"):
        press[beam]["apart"] = "80 mm"
    press["bolts"][TUBE] |= {"plate": "8 mm", "ply": "4 mm", "name": "in the tube"}
    press["bolts"][WEBS] |= {"name": "in the webs"}
    for table in press["bolts"]:
        table |= keys
    return press


def _found(press, part):
    return {f.check: f for f in check_press(press).findings if f.part == part}


# EN 1993-1-8:2005 figure 3.11 (memory): M = F/8 (b + 4 c + 2 a), here the bending between two pairs of plates pressed
# together: F/2 (7 + 4)/2 = 2.75 mm F. W = pi 16^3 / 32, 1.5 W f_yb = 386 N m (8.8).
def test_a_tube_between_webs_bends_its_bolts():
    """Webs of 7 mm on walls of 4 mm, 72 mm open: longer than three diameters, a pin in both tables."""
    press = _press()
    for part in ("in the tube", "in the webs"):
        found = _found(press, part)
        share = found["bolt shear"].utilisation * 2 * 0.6 * 800 * 201.06 / 1.25  # of the worst bolt, N
        assert found["pin bending"].utilisation == pytest.approx(2.75 * share / 386.0e3, rel=0.01)
    texts = {a.text for a in check_press(press).assumptions if a.part == "in the tube"}
    assert any("outer plates 7 mm, inner 8 mm, gaps 0 mm" in text for text in texts)


def test_a_sleeve_makes_bolts_of_them():
    """Stated, they do not bend and may be tightened; not beside an open gap."""
    assert "pin bending" not in _found(_press(sleeve=True), "in the tube")
    tight = {"category": "C", "mu": 0.3}
    assert _found(_press(**tight), "in the tube")["slip"].verdict == "not checked"
    open_, filled = check_press(_press(**tight)), check_press(_press(sleeve=True, **tight))
    told = [{a.condition for a in result.conditions if "a sleeve stands" in a.condition} for result in (open_, filled)]
    assert len(told[0]) == 2 and not told[1]
    with pytest.raises(InputError, match="stands beside an open gap"):
        check_press(_press(sleeve=True, inner="10 mm", gap="31 mm"))
    flats = copy.deepcopy(ORCHARD)
    flats["bolts"][TUBE]["sleeve"] = True
    with pytest.raises(InputError, match="no tube stands at its places"):
        check_press(flats)


def test_a_flat_inside_a_tube_leaves_its_gaps():
    """A head of one flat 15 mm thick in a tube 72 mm clear: 28.5 mm open on each side."""
    press = _press(edge="40 mm")
    for beam in ("head", "bed"):
        press[beam] = {"section": "FL 120x15", "steel": "S235"}
    press["bolts"][WEBS] |= {"plate": "15 mm", "ply": "15 mm"}
    result = check_press(press)
    texts = {a.text for a in result.assumptions if a.part == "in the tube"}
    assert any("outer plates 4 mm, inner 15 mm, gaps 28.5 mm" in text for text in texts)
    assert next(f for f in result.findings if f.part == "in the tube" and f.check == "pin bending")


def test_gaps_smaller_than_the_tube_has_are_a_condition():
    """72 mm are open between the walls: none stated is no sleeve, all of it is what the frame shows."""
    told = {a.condition for a in check_press(_press(gap="0 mm")).conditions}
    assert any("span no more than the gaps stated, though 72 mm" in text for text in told)
    told = {a.condition for a in check_press(_press(inner="8 mm", hollow="72 mm")).conditions}
    assert not any("span no more than the gaps" in text for text in told)


def test_a_round_tube_is_spanned_too():
    """CHS 88.9x5: 5 mm under a head, 10 mm of walls in the middle."""
    press = _press(plate="10 mm", ply="5 mm", edge="44.4 mm")
    press["uprights"]["section"] = "CHS 88.9x5 cold"
    for beam in ("head", "bed"):
        press[beam]["apart"] = "88.9 mm"
    press["bolts"][WEBS] |= {"plate": "14 mm", "ply": "7 mm", "edge": "60 mm"}
    result = check_press(press)
    assert any("outer plates 7 mm, inner 10 mm, gaps 0 mm" in a.text for a in result.assumptions)
    assert not any("the plate is" in a.condition or "every ply" in a.condition for a in result.conditions)


def test_in_one_plane_the_far_wall_is_not_counted():
    """A bolt cut once bends across the tube: both walls stated as plate are a condition."""
    told = {a.condition for a in check_press(_press(planes=1)).conditions}
    assert any("has 4 mm to bear on" in text for text in told)
