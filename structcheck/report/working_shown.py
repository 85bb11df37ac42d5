"""One evaluated formula, ready to be set out: its expression, the same with its numbers, what governed, its result.

sympy is imported here and by the printers only, and only when something is shown.
"""

import math
from collections.abc import Iterator, Mapping
from contextlib import AbstractContextManager
from functools import cache, lru_cache
from typing import Any

import sympy
from sympy.core.function import AppliedUndef
from sympy.core.relational import Relational

from structcheck import maths
from structcheck.formula import Formula, Step
from structcheck.record import record
from structcheck.report.numbers import figures, result_unit
from structcheck.showing import in_unit


class Number(sympy.Symbol):
    """A number that stands in an expression as it is to be read: "235", "-3.2", "8.56e7"."""

    __slots__ = ()


class Constant(Number):
    """A number of the clause itself."""

    __slots__ = ()


@record
class Choice:
    """What a min, a max or a branch chose: the values of its terms in order, and which of them it took."""

    kind: str
    values: tuple[float, ...]
    taken: int


@record
class Shown:
    """A step as a reader sees it.

    values      every argument, unrounded, in base units
    result      unrounded, in the unit of `unit`
    expression  in the symbols of the clause
    numbers     the same with the values in their places
    choices     of every min, max and branch, in the order they are written
    """

    symbol: str
    source: str
    values: Mapping[str, float]
    result: float
    unit: str
    result_text: str
    expression: Any
    numbers: Any
    choices: tuple[Choice, ...]


@lru_cache(maxsize=4096)
def shown(step: Step) -> Shown:
    """A step with numbers (not arrays) set out."""
    values = {name: plain(value) for name, value in step.values.items()}
    result = plain(step.result)
    unit = result_unit(step.formula.units["return"].label, result)
    tree = _expression(step.formula)
    with maths.symbolic(), sympy.evaluate(False):
        numbers = _tidy(sympy.sympify(step.formula.function(*(Number(figures(v)) for v in values.values()))))
    choices = tuple(_choices(tree, values))
    in_its_unit = in_unit(result, unit) if unit else result
    return Shown(
        symbol=step.formula.symbol,
        source=step.formula.source,
        values=values,
        result=in_its_unit,
        unit=unit or step.formula.units["return"].label,
        result_text=figures(in_its_unit),
        expression=tree,
        numbers=numbers,
        choices=choices,
    )


def kept_as_written() -> AbstractContextManager[None]:
    """To set many steps out within: each change of sympy's setting, in or out, makes it forget all it knows."""
    return sympy.evaluate(False)


def plain(value: Any) -> float:
    """A number of any kind as a Python float, or as the int it is."""
    return int(value) if isinstance(value, int) else float(value)


@cache
def _expression(formula: Formula) -> Any:
    with maths.symbolic(), sympy.evaluate(False):
        return _tidy(sympy.sympify(formula.function(*(sympy.Symbol(name) for name in formula.parameters))))


def _tidy(tree: Any) -> Any:
    """The tree with products flat and constants as `Number`, so that printers keep its order and its figures."""
    if isinstance(tree, sympy.Number):
        return Constant(figures(float(tree), 12))
    if tree.is_Atom:
        return tree
    with sympy.evaluate(False):
        if isinstance(tree, sympy.Pow):
            return sympy.Pow(_tidy(tree.base), tree.exp if tree.exp.is_Number else _tidy(tree.exp), evaluate=False)
        if isinstance(tree, sympy.Mul):
            return _product(tree)
        if isinstance(tree, sympy.Add):
            terms = [_tidy(term) for term in tree.args]
            return sympy.Add(*[piece for term in terms for piece in _terms(term)], evaluate=False)
        if isinstance(tree, sympy.Piecewise):
            return sympy.Piecewise(*_rows(tree), evaluate=False)
        if isinstance(tree, Relational):
            return tree.func(*map(_tidy, tree.args), evaluate=False)
        return tree.func(*map(_tidy, tree.args))


def _rows(tree: Any) -> list[tuple[Any, Any]]:
    """The rows of a branch; one that stands in the last row of another goes on its list."""
    found = []
    for value, condition in tree.args:
        if condition == sympy.true and isinstance(value, sympy.Piecewise):
            found += _rows(value)
        else:
            found.append((_tidy(value), _tidy(condition)))
    return found


def _terms(term: Any) -> tuple[Any, ...]:
    return term.args if isinstance(term, sympy.Add) else (term,)


def _product(tree: Any) -> Any:
    """Factors in the order written; a sign goes in front as -1, sympy's own 1 above a bar only where it is alone."""
    factors, negative = [], False
    given = sympy.Mul.make_args(tree)
    if sum(not is_below(f) for f in given) > 1:
        given = [f for f in given if f is not sympy.S.One]
    for factor in given:
        inner = _tidy(factor) if factor is not sympy.S.NegativeOne else sympy.S.NegativeOne
        for piece in inner.args if isinstance(inner, sympy.Mul) else (inner,):
            if piece is sympy.S.NegativeOne:
                negative = not negative
            elif isinstance(piece, Constant) and piece.name.startswith("-"):
                negative = not negative
                factors.append(Constant(piece.name[1:]))
            else:
                factors.append(piece)
    signed = [sympy.S.NegativeOne, *factors] if negative else factors
    return signed[0] if len(signed) == 1 else sympy.Mul(*signed, evaluate=False)


def is_below(factor: Any) -> bool:
    """Whether a factor of a product stands below the fraction bar."""
    return isinstance(factor, sympy.Pow) and factor.exp.is_Number and factor.exp.is_negative


def _choices(tree: Any, values: Mapping[str, float]) -> Iterator[Choice]:
    """The choices of a tree, outermost first, in the order written."""
    for node in sympy.preorder_traversal(tree):
        if isinstance(node, AppliedUndef) and node.func.__name__ in ("min", "max"):
            terms = tuple(evaluated(term, values) for term in node.args)
            best = min(terms) if node.func.__name__ == "min" else max(terms)
            yield Choice(node.func.__name__, terms, terms.index(best))
        elif isinstance(node, sympy.Piecewise):
            terms = tuple(evaluated(value, values) for value, _ in node.args)
            holds = [bool(evaluated(condition, values)) for _, condition in node.args]
            yield Choice("branch", terms, holds.index(True))


_RELATIONS = {"<": float.__lt__, "<=": float.__le__, ">": float.__gt__, ">=": float.__ge__}


def evaluated(tree: Any, values: Mapping[str, float]) -> float:
    """The value of a tidied tree."""
    if isinstance(tree, Number):
        return float(tree.name)
    if isinstance(tree, sympy.Symbol):
        return float(values[tree.name])
    if tree.is_number or tree in (sympy.true, sympy.false):
        return float(bool(tree)) if tree in (sympy.true, sympy.false) else float(tree)
    if isinstance(tree, Relational):
        left, right = (evaluated(side, values) for side in tree.args)
        return float(_RELATIONS[tree.rel_op](left, right))
    if isinstance(tree, sympy.Piecewise):
        return next(evaluated(value, values) for value, condition in tree.args if evaluated(condition, values))
    terms = [evaluated(argument, values) for argument in tree.args]
    if isinstance(tree, sympy.Add):
        return math.fsum(terms)
    if isinstance(tree, sympy.Mul):
        return math.prod(terms)
    if isinstance(tree, sympy.Pow):
        return terms[0] ** terms[1]
    if isinstance(tree, AppliedUndef):
        return min(terms) if tree.func.__name__ == "min" else max(terms)
    return float(tree.func(*terms))


# ---- what every printer shares ---------------------------------------------------------------


@record
class Product:
    """A product parted for a fraction bar."""

    negative: bool
    above: tuple[Any, ...]
    below: tuple[Any, ...]


def parted(tree: Any) -> Product:
    """A product as sign, factors above the bar and factors below it; `1` stands above where nothing else does."""
    factors = tree.args if isinstance(tree, sympy.Mul) else (tree,)
    negative = any(f is sympy.S.NegativeOne for f in factors)
    above = tuple(f for f in factors if not is_below(f) and f is not sympy.S.NegativeOne)
    below = tuple(_turned(f) for f in factors if is_below(f))
    if below and len(below) == 1 and isinstance(below[0], sympy.Mul):
        below = below[0].args
    return Product(negative, above or (Constant("1"),), below)


def _turned(factor: Any) -> Any:
    """x^-n as x^n, for below the bar."""
    if factor.exp is sympy.S.NegativeOne:
        return factor.base
    with sympy.evaluate(False):
        return sympy.Pow(factor.base, -1 * factor.exp if factor.exp.is_Integer else sympy.Rational(-factor.exp))


def signed_terms(tree: Any) -> list[tuple[bool, Any]]:
    """The terms of a sum as (negative, term without its sign)."""
    found = []
    for term in tree.args:
        if isinstance(term, Constant) and term.name.startswith("-"):
            found.append((True, Constant(term.name[1:])))
        elif isinstance(term, sympy.Mul) and any(f is sympy.S.NegativeOne for f in term.args):
            rest = [f for f in term.args if f is not sympy.S.NegativeOne]
            with sympy.evaluate(False):
                found.append((True, rest[0] if len(rest) == 1 else sympy.Mul(*rest, evaluate=False)))
        else:
            found.append((False, term))
    return found


def is_root(tree: Any) -> bool:
    """Whether a power is a square root."""
    return isinstance(tree, sympy.Pow) and tree.exp == sympy.S.Half


def needs_brackets(factor: Any) -> bool:
    """Whether a factor of a product stands in brackets: a sum, a negative number, a branch."""
    return isinstance(factor, sympy.Add | sympy.Piecewise) or (isinstance(factor, Number) and factor.name[0] == "-")


def is_negative(term: Any) -> bool:
    """A number below zero: it stands in brackets after any sign."""
    return isinstance(term, Number) and term.name.startswith("-")


def base_needs_brackets(base: Any) -> bool:
    """Whether the base of a power stands in brackets: anything but a name, a plain number, a root or a function."""
    if isinstance(base, Number):
        return base.name[0] == "-" or "e" in base.name
    return not (base.is_Atom or isinstance(base, AppliedUndef))


GREEK: Mapping[str, str] = {
    **dict(zip("alpha beta gamma delta epsilon zeta eta theta kappa lambda".split(), "αβγδεζηθκλ", strict=True)),
    **dict(zip("mu nu xi pi rho sigma tau phi chi psi omega".split(), "μνξπρστφχψω", strict=True)),
    **dict(zip("Gamma Delta Theta Lambda Sigma Phi Psi Omega".split(), "ΓΔΘΛΣΦΨΩ", strict=True)),
}


def named(name: str) -> tuple[str, str]:
    """A formula's argument as base and index: "gamma_M2" is ("γ", "M2"), "Delta_sigma_C" is ("Δσ", "C")."""
    pieces = name.split("_")
    base = GREEK.get(pieces[0], pieces[0])
    rest = pieces[1:]
    if pieces[0] == "Delta" and rest:
        base += GREEK.get(rest[0], rest[0])
        rest = rest[1:]
    return base, ",".join(GREEK.get(piece, piece) for piece in rest)
