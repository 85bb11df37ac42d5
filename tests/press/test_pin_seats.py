"""Pins at a corner claim no more than the members they go through have."""

import tomllib

import pytest

from structcheck.errors import InputError
from structcheck.questions import check_press
from tests.press.joints_given import ROOT, found

BEARING = tomllib.loads((ROOT / "examples" / "bearing_press.toml").read_text(encoding="utf-8"))


def pinned(uprights=None, **keys):
    """The bearing press with other bed pins, or other uprights."""
    given = BEARING | {"pin": [BEARING["pin"][0] | keys]}
    return check_press(given | ({"uprights": BEARING["uprights"] | uprights} if uprights else {}))


@pytest.mark.parametrize(
    ("keys", "words"),
    [
        ({"inner": "20 mm"}, r"inner: 20 mm is more than the left upright \(SHS 80x80x4\) has for it, 8 mm"),
        ({"outer": "9 mm"}, r"the bed \(2 x UPN 140\) has for it on each side, 7 mm"),
        ({"inner_edge": "60 mm"}, "whose edge is 40 mm from its middle"),
        ({"outer_end": "100 mm"}, "whose edge is 70 mm from its middle"),
        ({"diameter": "30 mm", "hole": "31 mm"}, 'hole: 26 mm is smaller than the 31 mm of "bed pins"'),
    ],
)
def test_what_the_members_do_not_have_is_refused(keys, words):
    """Two walls of 4 mm in the middle, a web of 7 on each side, 80 and 140 mm wide."""
    with pytest.raises(InputError, match=words):
        pinned(**keys)


def test_edges_that_are_there_are_taken():
    """Those of the sections themselves."""
    pins = found(pinned(inner_edge="40 mm", inner_end="100 mm", outer_end="70 mm", outer_edge="20 mm"), "bed pins")
    assert pins["lug geometry"].verdict in ("holds", "fails")


def test_the_plates_are_of_the_members_steel():
    """Of the frame's grade, not of the pin's; a stated one stays."""
    texts = [a.text for a in pinned(steel="S355").assumptions if a.part == "bed pins"]
    assert "steel of the inner plate unknown: S235" in texts
    assert not any("of the pin's steel" in text for text in texts)
    stated = [a.text for a in pinned(steel="S355", inner_steel="S275").assumptions if a.part == "bed pins"]
    assert "steel of the inner plate unknown: S235" not in stated


def test_a_hole_nobody_stated_is_a_condition():
    """The pin's hole weakens the upright that it goes through."""
    bare = {key: value for key, value in BEARING["uprights"].items() if key not in ("hole", "holes")}
    conditions = [a.condition for a in check_press(BEARING | {"uprights": bare}).conditions]
    assert any("no hole but those judged with bed pins weakens it" in text for text in conditions)
    assert not any("weakens it" in a.condition for a in pinned().conditions)


def test_a_doubler_rests_on_its_weld():
    """A condition: the weld is in no table of its own."""
    conditions = [a.condition for a in pinned(inner_doubler="6 mm").conditions]
    assert "the weld of the inner doubler carries its share" in conditions
