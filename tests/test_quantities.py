"""Reading quantities: one number, one unit of a closed list, and everything else refused with words that help."""

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from structcheck import quantities
from structcheck.errors import QuantityError
from structcheck.quantities import ANGLE, AREA, FORCE, LENGTH, LINE_LOAD, LINE_MASS, MASS, MOMENT, RATE, STRESS, read
from structcheck.showing import show

# Factors: ISO 80000 and the 1959 yard and pound agreement (1 in = 25.4 mm, 1 lb = 0.45359237 kg), g = 9.80665 m/s2.
READ = [
    ("900 mm", LENGTH, 900.0),
    ("1 1/2 in", LENGTH, 38.1),
    ('3/8"', LENGTH, 9.525),
    ("2 ft", LENGTH, 609.6),
    ("1e3 mm", LENGTH, 1000.0),
    ("8.5mm", LENGTH, 8.5),
    ("8 t", FORCE, 78453.2),
    ("8000 kg", FORCE, 78453.2),
    ("8 kN", FORCE, 8000.0),
    ("1000 lbf", FORCE, 4448.2216152605),
    ("1000 lb", FORCE, 4448.2216152605),
    ("1 kip", FORCE, 4448.2216152605),
    ("1 short_ton", FORCE, 8896.443230521),
    ("1 short ton", FORCE, 8896.443230521),
    ("1 long_ton", FORCE, 9964.01641818),
    ("25 kg", MASS, 25.0),
    ("10 Nm", MOMENT, 10e3),
    ("5 kNm", MOMENT, 5e6),
    ("5 kN m", MOMENT, 5e6),
    ("1 lbf ft", MOMENT, 1355.8179483314),
    ("235 MPa", STRESS, 235.0),
    ("235 N/mm2", STRESS, 235.0),
    ("235 N/mm²", STRESS, 235.0),
    ("1000 psi", STRESS, 6.894757293168),
    ("36 ksi", STRESS, 248.21126255406),
    ("700 bar", STRESS, 70.0),
    ("30 degrees", ANGLE, math.pi / 6),
    ("30 deg", ANGLE, math.pi / 6),
    ("30°", ANGLE, math.pi / 6),
    ("0.5 rad", ANGLE, 0.5),
    ("14.4 kg/m", LINE_MASS, 0.0144),
    ("20 kN/m", LINE_LOAD, 20.0),
    ("2 t/m", LINE_LOAD, 19.6133),
    ("71 lb/in", RATE, 12.43400530),
    ("12.4 N/mm", RATE, 12.4),
    ("1.57 cm2", AREA, 157.0),
]


@pytest.mark.parametrize(("text", "kind", "expected"), READ)
def test_a_text_is_read_in_base_units(text, kind, expected):
    """Every spelling of the list becomes N, mm, MPa, kg or rad."""
    assert read(text, kind, "key") == pytest.approx(expected, rel=1e-9)


# Text; what a general reader makes of it; words our refusal must hold.
REFUSED = [
    ("8,5 mm", LENGTH, 'try:    key = "8.5 mm"'),
    ("1,000 mm", LENGTH, "1000 or 1?"),
    ("8 ton", FORCE, "8 t is 78.5 kN, 8 short_ton is 71.2 kN, 8 long_ton is 79.7 kN"),
    ("8 tons", FORCE, 'key = "8 t" or key = "8 short_ton" or key = "8 long_ton"'),
    ("8 Tons", FORCE, "could be three different tons"),
    ("8 T", FORCE, 'try:    key = "8 t"'),
    ("5 Mpa", STRESS, 'try:    key = "5 MPa"'),
    ("9**9**9 mm", LENGTH, "unit nobody here knows"),
    ("nan mm", LENGTH, "is not one number with one unit"),
    ("inf mm", LENGTH, "is not one number with one unit"),
    ("1e400 mm", LENGTH, "is too large"),
    ("1e-400 mm", LENGTH, "is too small"),
    ("1_000 mm", LENGTH, "underscore"),
    ("٣ mm", LENGTH, "digits other than 0 to 9"),
    ("8", LENGTH, "has no unit"),
    ("", LENGTH, "is empty"),
    ("8 kg", LENGTH, "is not a length"),
    ("8 mm", FORCE, "is not a force or mass"),
    ("8 kg", STRESS, "is not a stress or pressure"),
    ("1/0 mm", LENGTH, "is not a finite number"),
    ("8 mm mm", LENGTH, "unit nobody here knows"),
    ("__import__('os') mm", LENGTH, "is not one number"),
    ("8 " + "m" * 70, LENGTH, "longer than 60 characters"),
]


@pytest.mark.parametrize(("text", "kind", "words"), REFUSED)
def test_a_text_that_could_be_misread_is_refused(text, kind, words):
    """The message names the key, quotes the text and says what to write."""
    with pytest.raises(QuantityError) as refused:
        read(text, kind, "key")
    assert words in str(refused.value)
    assert str(refused.value).startswith("key: ")


@pytest.mark.parametrize("given_value", [8, 8.5, True, None, [], {"a": 1}])
def test_a_bare_number_is_refused_where_a_unit_is_needed(given_value):
    """A file and a command line must state a unit."""
    with pytest.raises(QuantityError):
        read(given_value, LENGTH, "span")


def test_a_bare_number_is_base_units_in_python():
    """The Python face takes 900 for 900 mm, but never true for 1 nor nan."""
    assert read(900, LENGTH, "span", numbers=True) == 900.0
    for bad in (True, math.nan, math.inf):
        with pytest.raises(QuantityError):
            read(bad, LENGTH, "span", numbers=True)


def test_a_quantity_of_any_registry_is_taken_over():
    """By its base units, whatever registry made it; a mass is a load by its weight."""
    other = pint.UnitRegistry()
    assert read(2 * other.ft, LENGTH, "span") == pytest.approx(609.6)
    assert read(8 * other.metric_ton, FORCE, "load") == pytest.approx(78453.2)
    assert read(8 * other.kN, FORCE, "load") == pytest.approx(8000)
    assert read(36 * other.ksi, STRESS, "f_y") == pytest.approx(248.211, rel=1e-5)
    assert read(5 * other.kN * other.m, MOMENT, "moment") == pytest.approx(5e6)
    assert read(30 * other.degree, ANGLE, "angle") == pytest.approx(math.pi / 6)
    assert read(quantities.registry().Quantity(8, "kN"), FORCE, "load") == pytest.approx(8000)
    with pytest.raises(QuantityError):
        read(8 * other.kelvin, LENGTH, "span")
    with pytest.raises(QuantityError):
        read(8 * other.kN, LENGTH, "span")


def test_on_a_command_line_the_remedy_is_an_option():
    """The remedy can be pasted."""
    with pytest.raises(QuantityError) as refused:
        read("900", LENGTH, "--span")
    assert 'try:    --span "900 mm"' in str(refused.value)


@given(st.text(max_size=70))
def test_any_text_is_read_or_refused_and_never_crashes(text):
    """No text raises anything but our own error."""
    for kind in (LENGTH, FORCE):
        try:
            assert math.isfinite(read(text, kind, "key"))
        except QuantityError:
            continue


@given(st.floats(min_value=1e-6, max_value=1e9))
def test_a_number_written_out_is_read_back(number):
    """What Python writes as a plain number in mm is read as that number."""
    assert read(f"{number!r} mm", LENGTH, "key") == pytest.approx(number, rel=1e-15)


def test_show_prints_in_the_unit_of_the_output():
    """Four figures, no exponents."""
    assert show(78453.2, "kN") == "78.45 kN"
    assert show(0.305, "") == "0.305"


@pytest.mark.parametrize("expression", sorted(set(quantities.SPELLINGS.values())))
def test_a_unit_of_the_closed_list_is_what_pint_makes_of_it(expression):
    """Derived: our quick reading of the unit file against pint's registry of the same file."""
    unit = quantities.registry().Quantity(1.0, expression)
    factor, dimensions = quantities._in_base(expression)
    assert factor == pytest.approx(unit.to_base_units().magnitude, rel=1e-14)
    assert dict(dimensions) == {name: count for name, count in dict(unit.dimensionality).items() if count}


def test_the_unit_file_agrees_with_pints_own_registry():
    """Derived: every unit of ours against pint's default registry, to 1e-12."""
    ours, theirs = quantities.registry(), pint.UnitRegistry()
    pairs = {"mm": "mm", "in": "inch", "ft": "foot", "lb": "pound", "t": "metric_ton", "short_ton": "short_ton"}
    pairs |= {
        "long_ton": "long_ton",
        "lbf": "lbf",
        "kip": "kip",
        "psi": "psi",
        "ksi": "ksi",
        "bar": "bar",
        "deg": "degree",
    }
    for mine, other in pairs.items():
        unit = ours.Quantity(1, mine)
        base = {
            "[length]": "mm",
            "[mass]": "kg",
            "[force]": "N",
            "[force] / [length] ** 2": "MPa",
            "dimensionless": "radian",
        }
        target = base[str(unit.dimensionality)]
        assert unit.to(target).magnitude == pytest.approx(theirs.Quantity(1, other).to(target).magnitude, rel=1e-9)
