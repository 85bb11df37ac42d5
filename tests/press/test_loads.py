"""Loads in a press file: shares of the jack, forces of the user's, marked."""

import pytest

from structcheck.errors import InputError
from structcheck.questions import check_press

WELD = {"name": "w", "throat": "4 mm", "length": "120 mm", "runs": 2, "steel": "S275", "inspected": True}
PRESS = {"schema": 1, "jack": {"rating": "4 t"}}


def _weld(**load):
    return next(f for f in check_press(PRESS | {"weld": [WELD | load]}).findings if f.check == "weld throat")


def test_a_plain_number_is_a_share_of_the_jack():
    """Half of 4 t, times 1.5."""
    finding = _weld(along=0.5)
    assert finding.demand.value == pytest.approx(0.5 * 4 * 9806.65 * 1.5)
    assert finding.user_force is False


def test_a_text_is_a_force_of_the_users_and_is_marked():
    """In the finding, and so in every output."""
    finding = _weld(along="2 t")
    assert finding.demand.value == pytest.approx(2 * 9806.65 * 1.5)
    assert finding.user_force is True


def test_a_part_without_a_load_is_refused():
    """A part nobody loads would pass for nothing."""
    with pytest.raises(InputError, match='weld "w", along: is missing'):
        _weld()


def test_the_greatest_force_scales_a_users_force_too():
    """A valve at 6 t on 4 t: ultimate 1.2 x 6 / 4 of what is stated."""
    result = check_press({"schema": 1, "jack": {"rating": "4 t", "relief": "6 t"}, "weld": [WELD | {"along": "2 t"}]})
    finding = next(f for f in result.findings if f.check == "weld throat")
    assert finding.demand.value == pytest.approx(2 * 9806.65 * 1.8)


def test_problems_of_all_parts_are_told_at_once():
    """Two parts, two complaints."""
    with pytest.raises(InputError) as refused:
        check_press(PRESS | {"weld": [WELD, WELD | {"name": "v"}]})
    assert len(refused.value.problems) == 2


def test_a_cantilever_without_a_place_is_loaded_at_its_end():
    """The worse place is taken, and said: M = F L."""
    beam = {"name": "arm", "section": "UPN 120", "steel": "S235", "span": "500 mm", "supports": "cantilever"}
    result = check_press(PRESS | {"beam": [beam | {"load": "1 t"}]})
    finding = next(f for f in result.findings if f.check == "bending")
    assert finding.demand.value == pytest.approx(9806.65 * 500 * 1.5)
    assert any("free end" in a.text for a in result.assumptions)


def test_own_sections_are_read_beside_the_library(tmp_path):
    """A yard's own size by its own name."""
    from structcheck.shapes.rows import read_csv

    file = tmp_path / "yard.csv"
    file.write_text("designation,family,b,t,standard,provenance\nrack bar,FL,90,22,none,measured\n", encoding="utf-8")
    beam = {"name": "bar", "section": "rack bar", "steel": "S235", "span": "500 mm", "load": "1 t"}
    result = check_press(PRESS | {"beam": [beam]}, sections=read_csv(file))
    finding = next(f for f in result.findings if f.check == "bending")
    assert finding.capacity.value == pytest.approx(22 * 90**2 / 4 * 225)
