"""What is said of a guide or a patch and would be dropped."""

import pytest

from structcheck.errors import InputError
from structcheck.questions import ask

GUIDE = {"length": "150 mm", "offset": "60 mm", "steel": "S355"}
PLATEN = {"length": "500 mm", "width": "400 mm", "thickness": "30 mm", "steel": "S235", "load": "4 t"}


@pytest.mark.parametrize(
    ("own", "check"),
    [
        ({"post": "RD 10"}, "guide post bending"),
        ({"wall": "80 mm", "wall_t": "3 mm", "pad": "20 mm"}, "guide wall bending"),
    ],
)
def test_a_column_or_wall_without_its_force_is_not_checked(own, check):
    """It was left out, and the guide held."""
    result = ask("guide", GUIDE | own)
    found = next(f for f in result.findings if f.check == check)
    assert (result.verdict, found.verdict) == ("incomplete", "not checked")
    assert found.reason == "the force off the centre is not stated: force"


def test_a_wall_told_by_its_thickness_alone_is_not_checked():
    """It was left out, and the guide held."""
    result = ask("guide", GUIDE | {"wall_t": "3 mm", "post": "RD 80", "force": "1 kN"})
    found = next(f for f in result.findings if f.check == "guide wall bending")
    assert found.reason == "of the wall the guide pushes on is not stated: wall and pad"


def test_a_round_patch_has_a_diameter_and_no_width():
    """The width was dropped in silence."""
    with pytest.raises(InputError, match="stands beside a round patch"):
        ask("platen", PLATEN | {"shape": "round", "along": "100 mm", "across": "300 mm"})
    with pytest.raises(InputError, match="along: is missing"):
        ask("platen", PLATEN | {"shape": "round"})
