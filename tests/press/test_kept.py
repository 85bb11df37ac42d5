"""What is kept from one check for the next never answers for another press."""

from pathlib import Path

import pytest

from structcheck.press.frame import members_solved, solving
from structcheck.questions import check_text

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
CHANGES = {
    "orchard_press": [
        ('rating = "8 t"', 'rating = "7 t"'),
        ('offset = "15 mm"', 'offset = "25 mm"'),
        ('span = "700 mm"', 'span = "690 mm"'),
        ('section = "UPN 120"\nsteel = "S235"\nquality = "JR"', 'section = "UPN 120"\nsteel = "S275"\nquality = "JR"'),
        ('section = "FL 80x10"', 'section = "FL 80x12"'),
        ("presses_per_day = 10", "presses_per_day = 300"),
        ('class = "8.8"', 'class = "5.6"'),
        ('edge = "40 mm"', 'edge = "38 mm"\nfar_edge = "42 mm"'),
    ],
    "bookbinders_press": [
        ('relief = "3.6 t"', 'relief = "3.7 t"'),
        ('offset_across = "10 mm"', 'offset_across = "8 mm"'),
        ('section = "FL 100x15"', 'section = "FL 100x20"'),
    ],
    "tile_press_of_members": [
        ('rating = "5 t"', 'rating = "4 t"'),
        ('relief = "5.5 t"', 'relief = "5.2 t"'),
        ('x = "-100 mm"', 'x = "-90 mm"'),
        ('section = "FL 150x15"', 'section = "FL 150x20"'),
        ('offset = "10 mm"', 'offset = "20 mm"'),
    ],
    "gluing_press_as_drawn": [
        ('length = "120 mm"', 'length = "110 mm"'),
        ('throat = "3 mm"', 'throat = "4 mm"'),
    ],
    "seal_press_o_frame": [('relief = "13 t"', 'relief = "14 t"'), ('thickness = "25 mm"', 'thickness = "30 mm"')],
}


def told(text: str) -> object:
    return check_text(text).as_dict()


def fresh(text: str) -> object:
    solving._for_one_newton.cache_clear()
    members_solved._for_one_newton.cache_clear()
    return told(text)


@pytest.mark.parametrize("name", CHANGES)
def test_presses_that_differ_a_little_are_told_apart(name):
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    assert all(before in text for before, _ in CHANGES[name])
    changed = [text.replace(*change) for change in CHANGES[name]]
    tried = [text, *changed, text]
    alone = [fresh(one) for one in tried]
    assert all(one != alone[0] for one in alone[1:-1])
    assert alone[0] == alone[-1]
    fresh(text)
    for one, expected in zip([*tried, *reversed(tried)], [*alone, *reversed(alone)], strict=True):
        assert told(one) == expected
