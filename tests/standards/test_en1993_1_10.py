"""Thickness against brittle fracture (EN 1993-1-10 Table 2.1, recalled; see members.toml)."""

from itertools import pairwise

import pytest

from structcheck.checks.basis import Basis
from structcheck.checks.member_brittle import check_brittle, greatest_thickness, quality_of
from structcheck.errors import NotCovered
from structcheck.materials.steels import find_steel
from structcheck.shapes.library import look_up
from structcheck.standards.en1993_1_10 import THICKNESSES
from tests.reference.reading import case

FLAT = look_up("FL 80x20").section


def test_thicknesses_of_the_table():
    """BR-01: one figure from each corner of the table."""
    _, expected = case("members", "BR-01")
    found = {
        "S235JR_0_075": greatest_thickness("S235", "JR", 0.75, 0.0),
        "S355J2_minus_20_075": greatest_thickness("S355", "J2", 0.75, -20.0),
        "S275J0_minus_50_025": greatest_thickness("S275", "J0", 0.25, -50.0),
        "S355K2_minus_30_050": greatest_thickness("S355", "K2", 0.50, -30.0),
    }
    assert found == expected


def test_the_table_falls_with_cold_and_stress_and_rises_with_quality():
    """Every row falls from column to column and rises from block to block; J2 bears more than J0, J0 than JR."""
    for blocks in THICKNESSES.values():
        for block in blocks:
            assert list(block) == sorted(block, reverse=True)
        for high, low in pairwise(blocks):
            assert all(a <= b for a, b in zip(high, low, strict=True))
    for grade in ("S235", "S275", "S355"):
        for worse, better in (("JR", "J0"), ("J0", "J2")):
            pairs = zip(THICKNESSES[grade, worse], THICKNESSES[grade, better], strict=True)
            assert all(a <= b for low, high in pairs for a, b in zip(low, high, strict=True))


@pytest.mark.parametrize("grade", ["S235", "S275", "S355"])
def test_a_better_quality_is_the_worse_one_warmer(grade):
    """27 J at 20, 0 and -20 degC: J0 at any temperature bears what JR bears 20 kelvin warmer, J2 what J0 bears.

    A recalled table that kept this shift in every row was recalled right, or wrong three times alike.
    """
    for worse, better in (("JR", "J0"), ("J0", "J2")):
        for low, high in zip(THICKNESSES[grade, worse], THICKNESSES[grade, better], strict=True):
            assert high[2:] == low[:5]


def test_straight_lines_between_rows_and_columns():
    """Half way between 0 and -10 degC, and between 0.75 and 0.50 f_y."""
    assert greatest_thickness("S235", "JR", 0.75, -5.0) == pytest.approx(45.0)
    assert greatest_thickness("S235", "JR", 0.625, 0.0) == pytest.approx((50 + 75) / 2)
    assert greatest_thickness("S235", "JR", 0.1, 25.0) == 135.0


def test_nothing_is_extended_beyond_the_table():
    """Stress over 0.75 f_y, colder than -50 degC, or a grade that is not there: not covered."""
    for arguments in (("S235", "JR", 0.76, 0.0), ("S235", "JR", 0.5, -51.0), ("S185", "JR", 0.5, 0.0)):
        with pytest.raises(NotCovered):
            greatest_thickness(*arguments)


def test_unknown_quality_is_not_judged_in_the_cold():
    """Below +5 degC not checked; from there judged as JR, on the condition that it is."""
    cold = check_brittle("tie", FLAT, find_steel("S235"), None, 100.0, Basis())
    assert cold.findings[0].verdict == "not checked"
    assert "below +5 degC" in cold.findings[0].reason
    warm = check_brittle("tie", FLAT, find_steel("S235"), None, 100.0, Basis(lowest_temperature=5.0))
    assert warm.findings[0].verdict == "holds"
    assert warm.assumptions[0].condition == "the steel is at least quality JR"


def test_scrap_is_never_judged_by_a_quality_somebody_typed():
    """An assumed steel counts as unknown quality."""
    outcome = check_brittle("tie", FLAT, find_steel("unknown"), "J2", 100.0, Basis())
    assert outcome.findings[0].verdict == "not checked"


def test_the_finding_is_thickness_against_thickness():
    """FL 80x20 of S355J0 at 0 degC and half of f_y (345 MPa at 20 mm): 20 of 80 mm."""
    finding = check_brittle("tie", FLAT, find_steel("S355"), "J0", 172.5, Basis()).findings[0]
    assert (finding.demand.value, finding.capacity.value, finding.capacity.unit) == (20.0, pytest.approx(80.0), "mm")
    assert "recalled" in finding.source


def test_cold_formed_walls_count_as_colder():
    """The same wall hot finished and cold formed: 35 kelvin apart."""
    hot, cold = (look_up(f"SHS 100x100x5 {route}").section for route in ("hot", "cold"))
    found = [
        check_brittle("b", s, find_steel("S355", route=s.route), "J2", 150.0, Basis()).findings[0] for s in (hot, cold)
    ]
    assert "at 0 degC" in found[0].reason
    assert "at -35 degC" in found[1].reason
    assert found[1].capacity.value < found[0].capacity.value


def test_the_quality_is_read_from_a_steels_name():
    """S355J2H names J2, S235 names none."""
    assert [quality_of(name) for name in ("S355J2H", "S235JR", "S275 J0H", "S235", "unknown")] == [
        "J2",
        "JR",
        "J0",
        None,
        None,
    ]


def test_us_steels_are_not_in_the_standard():
    """A36: not checked."""
    assert check_brittle("b", FLAT, find_steel("A36"), "JR", 100.0, Basis()).findings[0].verdict == "not checked"
