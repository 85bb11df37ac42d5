"""Steels: strengths by thickness and edition, and what an unknown steel is worth."""

import tomllib
from pathlib import Path

import pytest

import structcheck.materials
from structcheck.errors import NotCovered, UnknownName
from structcheck.materials.steels import EN_1993, PRODUCT_STANDARD, find_steel

FILES = sorted(Path(structcheck.materials.__file__).parent.glob("*.toml"))

# EN 10025-2 (memory; f_u 410 and 470 also read in a UK national annex's tables), steps at 16 and 40 mm.
PRODUCT = [
    ("S185", 10, 185, 290),
    ("S235", 16, 235, 360),
    ("S235", 16.01, 225, 360),
    ("S235", 41, 215, 360),
    ("S275", 16, 275, 410),
    ("S275", 20, 265, 410),
    ("S275", 50, 255, 410),
    ("S355", 12, 355, 470),
    ("S355", 40, 345, 470),
    ("S355", 41, 335, 470),
]
# EN 1993-1-1:2005 Table 3.1 with the 2009 corrigendum (memory; 430 read in a joint design guide).
TABLE_3_1 = [
    ("S235", 40, 235, 360),
    ("S275", 40, 275, 430),
    ("S275", 41, 255, 410),
    ("S355", 40, 355, 490),
    ("S355", 41, 335, 470),
]


@pytest.mark.parametrize(("grade", "t", "f_y", "f_u"), PRODUCT)
def test_the_product_standard_is_the_default(grade, t, f_y, f_u):
    """The lower of the two sets, with its steps."""
    assert find_steel(grade).strengths(t) == (f_y, f_u)


@pytest.mark.parametrize(("grade", "t", "f_y", "f_u"), TABLE_3_1)
def test_table_3_1_is_had_by_asking(grade, t, f_y, f_u):
    """strengths = "EN 1993-1-1"."""
    assert find_steel(grade, strengths=EN_1993).strengths(t) == (f_y, f_u)


@pytest.mark.parametrize("grade", ["S235", "S275", "S355"])
@pytest.mark.parametrize("route", ["plate", "rolled", "hot finished", "cold formed"])
@pytest.mark.parametrize("t", [3, 10, 16, 16.5, 39, 40])
def test_the_default_is_never_above_table_3_1(grade, route, t):
    """It is the default because it is the lower."""
    product = find_steel(grade, route=route, strengths=PRODUCT_STANDARD).strengths(t)
    table = find_steel(grade, route=route, strengths=EN_1993).strengths(t)
    assert all(low <= high for low, high in zip(product, table, strict=True))


@pytest.mark.parametrize("text", ["S355", "s355", "S355J2", "S355 J2H", "S355K2"])
def test_quality_letters_do_not_change_the_strength(text):
    """S355J2H is S355 here; its toughness is asked for apart."""
    assert find_steel(text).name == "S355"


def test_beta_w_by_grade():
    """EN 1993-1-8 Table 4.1 (read in a joint design guide)."""
    assert [find_steel(g).beta_w for g in ("S235", "S275", "S355")] == [0.80, 0.85, 0.90]
    assert find_steel("A36").beta_w is None


def test_us_grades_in_mpa():
    """36, 46 (rounds 42), 50 ksi (ASTM, memory); the lower figure of A500 is kept."""
    assert find_steel("A36").f_y(10) == pytest.approx(36 * 6.894757, abs=0.05)
    assert find_steel("A992").f_u(10) == pytest.approx(65 * 6.894757, abs=0.1)
    assert find_steel("a500 gr. b").f_y(6) == pytest.approx(42 * 6.894757, abs=0.05)
    assert find_steel("A500 C").f_y(6) == pytest.approx(46 * 6.894757, abs=0.05)


def test_an_unknown_steel_is_s235_and_says_so():
    """Not weldable until the user says so; a condition of the verdict."""
    steel = find_steel("unknown")
    assert (steel.name, steel.assumed, steel.weldable) == ("S235", True, False)
    assert steel.condition == "f_y >= 235 MPa"
    assert find_steel("S235").condition == ""


def test_a_thickness_beyond_the_standard_is_not_covered():
    """No strength is invented."""
    with pytest.raises(NotCovered, match="no strength at 120 mm"):
        find_steel("S235").f_y(120)
    with pytest.raises(NotCovered):
        find_steel("S235", route="cold formed").f_y(41)


def test_s185_is_outside_en_1993():
    """And not known to be weldable."""
    steel = find_steel("S185")
    assert (steel.in_en1993, steel.weldable) == (False, False)


@pytest.mark.parametrize("bad", ["S2355", "", "steel", "x" * 100])
def test_an_unknown_name_offers_the_nearest(bad):
    """And says that "unknown" may be written."""
    with pytest.raises(UnknownName) as refused:
        find_steel(bad)
    assert '"unknown"' in str(refused.value)


@pytest.mark.parametrize("file", FILES, ids=lambda f: f.name)
def test_every_file_names_its_source(file):
    """Edition and provenance of every figure; none blank."""
    table = tomllib.loads(file.read_text(encoding="utf-8"))
    assert table["source"]
    assert table["provenance"]
    assert table["note"]
