"""Every registered formula: one text for numbers, arrays, symbols and quantities."""

import importlib
import pkgutil
import random

import numpy as np
import pytest
import sympy

import structcheck.standards
from structcheck.formula import REGISTERED, Working, formula, remark
from structcheck.quantities import N, mm, registry


def _import_all() -> None:
    for module in pkgutil.walk_packages(structcheck.standards.__path__, "structcheck.standards."):
        importlib.import_module(module.name)


_import_all()
FORMULAS = [pytest.param(made, id=f"{made.__module__.rsplit('.', 1)[1]}.{made.__name__}") for made in REGISTERED]


def _trials(made, count=4):
    """The trial values, and random ones around them."""
    rng = random.Random(made.symbol)
    yield dict(made.trial)
    for _ in range(count):
        yield {
            name: value * rng.uniform(0.99, 1.01) if isinstance(value, float) else value
            for name, value in made.trial.items()
        }


@pytest.mark.parametrize("made", FORMULAS)
def test_symbols_give_the_same_number_as_floats(made):
    """What is shown is what was computed."""
    symbols = [sympy.Symbol(name) for name in made.parameters]
    shown = sympy.lambdify(symbols, made.expression(), modules=[{"min": min, "max": max}, "math"])
    for values in _trials(made):
        assert float(shown(**values)) == pytest.approx(float(made(**values)), rel=1e-11)


@pytest.mark.parametrize("made", FORMULAS)
def test_arrays_give_the_same_as_floats(made):
    """A sweep uses the same text."""
    rows = list(_trials(made))
    arrays = {name: np.array([row[name] for row in rows], dtype=float) for name in made.trial}
    together = np.broadcast_to(made(**arrays), (len(rows),))
    assert together == pytest.approx([float(made(**row)) for row in rows], rel=1e-12)


@pytest.mark.parametrize("made", [p for p in FORMULAS if not p.values[0].empirical])
def test_quantities_give_the_annotated_unit(made):
    """Called with its annotated units, a formula returns its annotated unit: the units in the signature are true."""
    units = registry()
    given = {n: units.Quantity(v, made.units[n].expression) for n, v in made.trial.items()}
    answer = made(**given)
    wanted = made.units["return"].expression
    assert units.Quantity(answer).to(wanted).magnitude == pytest.approx(float(made(**made.trial)), rel=1e-9)


@pytest.mark.parametrize("made", FORMULAS)
def test_every_formula_says_where_it_is_from(made):
    """Symbol, source with its edition, a docstring, a unit for every argument."""
    assert made.symbol
    assert made.source
    assert made.__doc__
    assert set(made.units) == {*made.parameters, "return"}
    assert set(made.trial) == set(made.parameters)


def test_a_working_keeps_each_call_with_its_values():
    """While it is open; afterwards nothing more is kept."""

    @formula("F", "a test", trial={"a": 1.0, "b": 2.0})
    def force(a: mm, b: mm) -> N:
        """A product."""
        return a * b

    REGISTERED.remove(force)
    with Working() as working:
        assert force(2.0, b=3.0) == 6.0
        remark("a branch", "a clause")
    force(4.0, 5.0)
    assert [(s.formula.symbol, s.values, s.result) for s in working.steps[:1]] == [("F", {"a": 2.0, "b": 3.0}, 6.0)]
    assert working.steps[1].text == "a branch"
    assert len(working.steps) == 2
