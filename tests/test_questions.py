"""The Python face: texts, quantities and base units give the same answer; unit systems too."""

import doctest

import pint
import pytest

import structcheck.questions as questions
from structcheck.errors import InputError

ASKED = {"section": "SHS 100x100x5", "steel": "S275", "span": "900 mm", "load": "8 t"}


def _numbers(result):
    return [(f.check, f.utilisation) for f in result.findings if f.utilisation is not None]


def test_texts_quantities_and_base_units_agree():
    """Three ways to say the same."""
    units = pint.UnitRegistry()
    as_text = questions.check_beam(**ASKED)
    as_quantity = questions.check_beam(**ASKED | {"span": 0.9 * units.m, "load": 8 * units.metric_ton})
    as_number = questions.check_beam(**ASKED | {"span": 900, "load": 8 * 9806.65})
    for other in (as_quantity, as_number):
        for (check, one), (same, two) in zip(_numbers(as_text), _numbers(other), strict=True):
            assert check == same
            assert two == pytest.approx(one, rel=1e-12)


@pytest.mark.parametrize(
    ("span", "load"),
    [("0.9 m", "8000 kg"), ("35.433070866141732 in", "17636.98097479 lbf"), ("90 cm", "78.4532 kN")],
)
def test_any_unit_system_gives_the_same_answer(span, load):
    """To 1e-9."""
    for (_, one), (_, two) in zip(
        _numbers(questions.check_beam(**ASKED)),
        _numbers(questions.check_beam(**ASKED | {"span": span, "load": load})),
        strict=True,
    ):
        assert two == pytest.approx(one, rel=1e-9)


def test_a_wrong_argument_is_refused_with_every_problem():
    """As a ValueError too."""
    with pytest.raises(ValueError) as refused:
        questions.check_beam(section="SHS 100x100x7", steel="S1", span="900", load="8 t", colour="red")
    assert {p.key for p in refused.value.problems} == {"section", "steel", "span", "colour"}
    with pytest.raises(InputError):
        questions.check_beam(**ASKED | {"pieces": True})


def test_every_result_carries_the_caution():
    """API results too."""
    result = questions.check_beam(**ASKED)
    assert "qualified engineer" in result.caution
    assert "qualified engineer" in result.as_dict()["caution"]


def test_the_examples_of_the_docstrings_run():
    """As written."""
    assert doctest.testmod(questions).failed == 0


def test_the_exported_names_exist():
    """`__all__` is true."""
    assert all(hasattr(questions, name) for name in questions.__all__)


def test_twice_the_load_is_twice_the_utilisation():
    """Of every check whose demand comes from the load, interactions included."""
    once = {f.check: f for f in questions.check_beam(**ASKED).findings}
    twice = {f.check: f for f in questions.check_beam(**ASKED | {"load": "16 t"}).findings}
    for check in ("bending", "shear", "bending and shear", "yield at greatest force"):
        assert twice[check].utilisation == pytest.approx(2 * once[check].utilisation, rel=1e-9)
