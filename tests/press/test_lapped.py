"""Tables of one lap against each other and the members they join."""

import copy
import tomllib
from pathlib import Path

import pytest

from structcheck.questions import check_press

ORCHARD = tomllib.loads(
    (Path(__file__).resolve().parents[2] / "examples" / "orchard_press.toml").read_text(encoding="utf-8")
)
FLATS, WEBS = 0, 1


def _result(**of_tables):
    """The press with keys of its groups of bolts changed."""
    press = copy.deepcopy(ORCHARD)
    for index, name in enumerate(("flats", "webs")):
        press["bolts"][index] |= of_tables.get(name, {})
    return check_press(press)


def _conditions(result):
    return {a.condition for a in result.conditions}


def _uses(result, part="corner bolts in the flats"):
    return {f.check: f.utilisation for f in result.findings if f.part == part}


@pytest.mark.parametrize(
    "keys", [{"size": "M12", "hole": "13 mm"}, {"class": "4.6"}, {"pitch": "45 mm"}, {"planes": 1}]
)
def test_tables_of_unlike_bolts_are_not_two_plates_of_one_joint(keys):
    """One of the two says something else of the same bolts: neither stands for the other's plate."""
    told = [c for c in _conditions(_result(webs=keys)) if c.startswith("the plates on the other side")]
    assert len(told) == 2
    assert not [c for c in _conditions(_result()) if c.startswith("the plates on the other side")]


def test_bolts_are_cut_no_more_often_than_the_members_meet():
    """Two flats and two webs are four plies, three planes at most."""
    both = {"planes": 4}
    told = [c for c in _conditions(_result(flats=both, webs=both)) if "are cut 4 times" in c]
    assert len(told) == 2 and told[0].endswith("meet in 3 planes at most")
    assert not [c for c in _conditions(_result(flats={"planes": 3}, webs={"planes": 3})) if "are cut" in c]


def test_bolts_off_the_middle_of_their_flat_are_pushed_beside_their_centre():
    """30 and 50 mm to the edges of an 80 mm flat: the flat's pull stands 10 mm beside the bolts."""
    off = _result(flats={"edge": "30 mm", "far_edge": "50 mm"})
    stated = _result(flats={"eccentricity": "10 mm"}, webs={"eccentricity": "10 mm"})
    assert _uses(off)["bolt shear"] == pytest.approx(_uses(stated)["bolt shear"])
    assert _uses(off)["bolt shear"] > 1.05 * _uses(_result())["bolt shear"]
    webs = "corner bolts in the webs"
    assert _uses(off, webs)["bolt shear"] == pytest.approx(_uses(stated, webs)["bolt shear"])
    assert any("10 mm off the middle of the upright" in a.text for a in off.assumptions if a.part == webs)


def test_bolts_off_the_middle_of_their_beam_are_turned_by_its_thrust():
    """32 and 38 mm to the edges of UPN 120: what the beam pushes along it stands 3 mm beside the bolts."""
    off = _result(webs={"end": "32 mm", "far_end": "38 mm"})
    assert _uses(off)["bolt shear"] > _uses(_result())["bolt shear"]
    assert any("3 mm off the middle of the beam" in a.text for a in off.assumptions)
