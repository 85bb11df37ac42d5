"""Arithmetic for formulas that answers in the kind it is given.

The same formula is called with floats, numpy arrays, pint quantities or, to be shown, with sympy symbols.
Plain `math` would refuse three of them, so formulas take `sqrt`, `minimum`, `maximum`, `where` and `pi` from here.
Inside `symbolic()` the answers stay unevaluated, so that a formula prints as it is written.
"""

import math
from collections.abc import Iterator
from contextlib import contextmanager
from functools import reduce
from typing import Any

import numpy as np

_showing = False


@contextmanager
def symbolic() -> Iterator[None]:
    """Answer in unevaluated sympy expressions; for printing a formula, never for a result."""
    global _showing
    before, _showing = _showing, True
    try:
        yield
    finally:
        _showing = before


def __getattr__(name: str) -> Any:
    """`pi` and `inf`: a float to calculate with, the sympy symbol while a formula is shown."""
    if name == "pi":
        if not _showing:
            return math.pi
        import sympy

        return sympy.pi
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


def _is_quantity(x: Any) -> bool:
    return hasattr(x, "dimensionality")


def sqrt(x: Any) -> Any:
    """Square root of a number, an array, a quantity or an expression."""
    if type(x) is float and not _showing:
        return math.sqrt(x)
    if _showing:
        import sympy

        return sympy.sqrt(x, evaluate=False)
    if isinstance(x, np.ndarray):
        return np.sqrt(x)
    if _is_quantity(x):
        return x**0.5
    return math.sqrt(x)


def minimum(*terms: Any) -> Any:
    """Least of the terms; shown, it keeps every term in the order written."""
    return _extreme("min", np.minimum, min, terms)


def maximum(*terms: Any) -> Any:
    """Greatest of the terms; shown, it keeps every term in the order written."""
    return _extreme("max", np.maximum, max, terms)


def _extreme(name: str, of_arrays: Any, of_numbers: Any, terms: tuple[Any, ...]) -> Any:
    if _showing:
        import sympy

        # sympy's own Min and Max reorder and drop terms; a named function keeps the clause as printed.
        return sympy.Function(name)(*terms)
    if _PLAIN.issuperset(map(type, terms)):
        return of_numbers(terms)
    if any(isinstance(term, np.ndarray) for term in terms):
        return reduce(of_arrays, terms)
    if any(_is_quantity(term) for term in terms):
        return reduce(lambda a, b: of_numbers(a, b, key=lambda q: _base_magnitude(q)), terms)
    return of_numbers(terms)


_PLAIN = frozenset((float, int, np.float64))


def _base_magnitude(x: Any) -> float:
    return float(x.to_base_units().magnitude) if _is_quantity(x) else float(x)


def distinct(values: np.ndarray) -> np.ndarray:
    """Sorted values of an array, each once; numpy's own brings in its masked arrays, a tenth of a cold start."""
    ordered = np.sort(values, axis=None)
    return ordered[np.concatenate([[True], ordered[1:] != ordered[:-1]])] if ordered.size else ordered


def first_of_greatest(values: Any) -> int:
    """Number of the greatest value; of those that only rounding tells apart the first, whatever machine rounded."""
    values = np.asarray(values, dtype=float)
    most = float(values.max())
    return int((values >= just_below(most)).argmax())


def just_below(most: float) -> float:
    """What is as great as `most` but for rounding."""
    return most * (1 - _ALIKE if most > 0 else 1 + _ALIKE)


_ALIKE = 1e-9


def where(condition: Any, then: Any, otherwise: Any) -> Any:
    """`then` where the condition holds, else `otherwise`; both sides are computed and must be finite."""
    if _showing:
        import sympy

        return sympy.Piecewise((then, condition), (otherwise, True), evaluate=False)
    if isinstance(condition, np.ndarray):
        return np.where(condition, then, otherwise)
    return then if condition else otherwise
