"""Guides that slide on the uprights push on walls that no member check looks at. Forces and moments by hand."""

import copy
import tomllib
from pathlib import Path

import pytest

from structcheck.questions import check_press

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
GLUING, BINDERS = (
    tomllib.loads((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"))
    for name in ("gluing_press_as_drawn", "bookbinders_press")
)
WALL = "guide wall bending"


def found(base, uprights=None, guide=None, jack=None):
    press = copy.deepcopy(base)
    for row, keys in ((press["uprights"], uprights), (press["guide"][0], guide), (press["jack"], jack)):
        row.update(keys or {})
        for key in [key for key, value in row.items() if value is None]:
            del row[key]
    return check_press(press)


def wall(result):
    return next((f for f in result.findings if f.check == WALL), None)


def test_the_wall_of_a_tube_is_bent_by_the_couple_of_its_guides():
    """20 t at 20 mm over 150 mm on four columns, 60 mm wide less twice 5: F e / L as a load on a strip between webs."""
    judged = wall(found(GLUING))
    side = 1.5 * 2 * 10_000 * 9.80665 * 20 / 150 / 4
    assert judged.demand.value == pytest.approx(side * (50 - 50 / 2) / 4)
    assert judged.capacity.value == pytest.approx(60 * 25 / 4 * 235)


def test_across_the_frame_the_wider_wall_counts():
    """40 mm across against 10 in the plane: 100 mm less twice 5."""
    judged = wall(found(GLUING, jack={"offset": "10 mm", "offset_across": "40 mm"}, guide={"offset": "40 mm"}))
    side = 1.5 * 2 * 10_000 * 9.80665 * 40 / 150 / 4
    assert judged.demand.value == pytest.approx(side * (90 - 60 / 2) / 4)


def test_a_pad_of_unknown_size_and_an_open_section_are_no_pass():
    """What it pushes with is not known; a flange is judged by a part of its own."""
    assert "not stated: pad" in wall(found(GLUING, guide={"pad": None})).reason
    open_section = wall(found(GLUING, uprights={"section": "HEA 100"}))
    assert (open_section.verdict, "[[flange]]" in open_section.reason) == ("not checked", True)


def test_a_solid_upright_has_no_wall():
    """Its own bending is the frame's."""
    assert wall(found(BINDERS)) is None


def test_a_force_typed_on_a_guide_is_marked_as_the_users():
    """In a press file it stands in place of the jack's."""
    result = found(BINDERS, guide={"post": "RD 30", "steel": "S235", "force": "10 kN"})
    assert next(f for f in result.findings if f.check == "guide post bending").user_force


def test_friction_that_only_rollers_have_is_a_condition():
    """Greased steel slides at 0.04 and more (textbooks, read)."""
    assert [a.condition for a in found(BINDERS, guide={"friction": 0.01}).conditions] == [
        "the friction of platen on the uprights is no more than 0.01: rollers or a bearing"
    ]
