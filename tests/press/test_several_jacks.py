"""Several jacks under one platen: what lies between them bends it and the beam they push against."""

import tomllib
from pathlib import Path

import pytest

from structcheck.errors import InputError
from structcheck.questions import check_press

EXAMPLES = Path(__file__).parents[2] / "examples"
BINDERS = tomllib.loads((EXAMPLES / "bookbinders_press.toml").read_text(encoding="utf-8"))


def two_jacks(patch="60 mm", **frame):
    """Two jacks of half the rating 150 mm beside the middle, under a platen of 16 mm."""
    jack = {"rating": "1.5 t", "relief": "1.8 t", "base": "60 mm", "count": 2}
    platen = BINDERS["platen"][0] | {"thickness": "16 mm", "along": patch, "across": patch}
    frame = BINDERS["frame"] | {"jacks": ["-150 mm", "150 mm"]} | frame
    return BINDERS | {"jack": BINDERS["jack"] | jack, "platen": [platen], "frame": frame}


def finding(result, part, check):
    return next(f for f in result.findings if (f.part, f.check) == (part, check))


def test_a_small_patch_between_two_jacks_bends_the_platen():
    """Statics (derived): half the force on a lever of 150 mm less a quarter of the patch, over the whole width.

    It was judged as if one saddle pushed straight under the patch.
    """
    found = finding(check_press(two_jacks()), "platen", "yield at greatest force")
    M = 2 * 1.8 * 9806.65 / 2 * (150 - 60 / 4)
    assert found.demand.value > M / (260 * 16**2 / 6)
    assert found.demand.value == pytest.approx(M / (260 * 16**2 / 6), rel=0.15)
    assert found.verdict == "fails"


def test_a_jack_beside_its_platen_is_not_checked():
    """A platen of 380 mm reaches 190 mm from the middle."""
    press = two_jacks()
    press["platen"][0] |= {"length": "290 mm"}
    found = finding(check_press(press), "platen", "bending")
    assert (found.verdict, "stands beside it" in found.reason) == ("not checked", True)


def test_work_between_several_jacks_is_a_condition():
    """Statics: work in the middle bends the head by F l / 4, work across from the jacks by F (l / 2 - x) / 2."""
    result = check_press(two_jacks())
    conditions = [a.condition for a in result.assumptions if a.part == "frame" and a.condition]
    assert conditions == ["what each of several jacks pushes is met by the work straight across from it"]


def test_where_several_jacks_of_a_free_frame_push_on_the_platen_is_not_known():
    """Each [[push]] stands somewhere in space: the platen is not checked, and was judged as pushed in its middle."""
    tiles = tomllib.loads((EXAMPLES / "tile_press_of_members.toml").read_text(encoding="utf-8"))
    two = tiles | {"jack": tiles["jack"] | {"count": 2}, "push": [tiles["push"][0] | {"share": 0.5}] * 2}
    assert finding(check_press(two), "platen", "bending").verdict == "not checked"


@pytest.mark.parametrize(
    ("frame", "jack", "key"),
    [
        ({}, {"count": 2}, "jacks"),
        ({"jacks": ["-50 mm", "50 mm"]}, {}, "jacks"),
        ({"jacks": ["-900 mm", "900 mm"]}, {"count": 2}, "jacks"),
        ({"planes": 2}, {}, "spacing"),
    ],
)
def test_where_planes_and_jacks_of_an_o_frame_stand_is_asked(frame, jack, key):
    """Two jacks nobody placed stood both in the middle, and planes without spacing ended in a traceback."""
    seals = tomllib.loads((EXAMPLES / "seal_press_o_frame.toml").read_text(encoding="utf-8"))
    with pytest.raises(InputError, match=f"frame, {key}: "):
        check_press(seals | {"frame": seals["frame"] | frame, "jack": seals["jack"] | jack})
