"""The work pushes back across planes side by side: the guides' couple bends their uprights, as it does in the plane."""

import copy
import tomllib
from pathlib import Path

import pytest

from structcheck.questions import check_press

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
POSTS = tomllib.loads((EXAMPLES / "veneer_press_on_posts.toml").read_text(encoding="utf-8"))
ULTIMATE, OFF = 1.5 * 5 * 9806.65, 45.0
"""N; mm off the middle."""


def square(**offsets):
    """Four posts on a square of 400 mm: the frame's plane and the other are alike."""
    told = copy.deepcopy(POSTS)
    told["frame"]["spacing"] = told["guide"][0]["spacing"] = "400 mm"
    told["head"]["width"] = told["bed"]["width"] = "500 mm"
    told["jack"] |= {"offset": "0 mm", "offset_across": "0 mm"} | offsets
    return told


def found(told, check, part="left upright"):
    return next(f for f in check_press(told).findings if (f.part, f.check) == (part, check))


def test_each_post_takes_a_quarter_of_the_couple():
    """derived: F e on four posts, all of it handed on to one plate."""
    bending = found(square(offset_across="45 mm"), "bending")
    assert bending.demand.value == pytest.approx(ULTIMATE * OFF / 4, rel=0.02)
    assert "off centre couple" in bending.case


def test_across_is_no_milder_than_along():
    """It was sixteen times as mild, and a press that fails along held across."""
    along, across = (found(square(**{key: "45 mm"}), "yield at greatest force") for key in ("offset", "offset_across"))
    assert across.utilisation == pytest.approx(along.utilisation, rel=0.1)
    for key in ("offset", "offset_across"):
        assert found(square(**{key: "90 mm"}), "yield at greatest force").verdict == "fails"


def test_racking_names_what_takes_it():
    assert "guides on the uprights take it" in found(square(offset_across="45 mm"), "racking", "frame").reason
