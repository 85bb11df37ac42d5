"""A formula on one line, as it would be typed: for narrow screens, text alternatives and readers that speak it."""

import re
from collections.abc import Sequence
from typing import Any

import sympy
from sympy.core.function import AppliedUndef
from sympy.core.relational import Relational

from structcheck.report.working_shown import (
    GREEK,
    Number,
    base_needs_brackets,
    is_negative,
    is_root,
    named,
    needs_brackets,
    parted,
    signed_terms,
)


def linear(tree: Any) -> str:
    """The tree on one line: "k_1 · α_b · f_u · d · t / γ_M2"."""
    if isinstance(tree, Number):
        return tree.name
    if isinstance(tree, sympy.Symbol):
        base, index = named(tree.name)
        return f"{base}_{index}" if index else base
    if tree is sympy.pi:
        return "π"
    if isinstance(tree, sympy.Add):
        return _sum(tree)
    if is_root(tree):
        return f"sqrt({linear(tree.base)})"
    if isinstance(tree, sympy.Mul) or (isinstance(tree, sympy.Pow) and tree.exp.is_Number and tree.exp.is_negative):
        return _fraction(tree)
    if isinstance(tree, sympy.Pow):
        base = linear(tree.base)
        power = linear(tree.exp)
        return f"{_in_brackets(base, base_needs_brackets(tree.base))}^{_in_brackets(power, not tree.exp.is_Atom)}"
    if isinstance(tree, AppliedUndef):
        return f"{tree.func.__name__}({', '.join(map(linear, tree.args))})"
    if isinstance(tree, Relational):
        return f"{linear(tree.lhs)} {tree.rel_op} {linear(tree.rhs)}"
    if isinstance(tree, sympy.Piecewise):
        return "; ".join(_branch(value, condition) for value, condition in tree.args)
    return str(tree)


def _branch(value: Any, condition: Any) -> str:
    return f"{linear(value)} otherwise" if condition == sympy.true else f"{linear(value)} if {linear(condition)}"


def _sum(tree: Any) -> str:
    text = ""
    for negative, term in signed_terms(tree):
        signed = is_negative(term) and bool(text or negative)
        piece = _in_brackets(linear(term), signed or (negative and isinstance(term, sympy.Add)))
        text += f"{' - ' if negative else ' + '}{piece}" if text else f"{'-' if negative else ''}{piece}"
    return text


def _fraction(tree: Any) -> str:
    product = parted(tree)
    above = _row(product.above)
    if product.below:
        first = product.below[0]
        alone = len(product.below) == 1 and isinstance(first, sympy.Pow | sympy.Symbol | AppliedUndef)
        over = _in_brackets(above, len(product.above) == 1 and needs_brackets(product.above[0]))
        above = f"{over} / {_in_brackets(_row(product.below), not alone or needs_brackets(first))}"
    return f"-{_in_brackets(above, is_negative(product.above[0]))}" if product.negative else above


def _row(factors: Sequence[Any]) -> str:
    if len(factors) == 1:
        return linear(factors[0])
    return " · ".join(_in_brackets(linear(f), needs_brackets(f) or _is_fraction(f)) for f in factors)


def _is_fraction(factor: Any) -> bool:
    return isinstance(factor, sympy.Mul)


def _in_brackets(text: str, wanted: bool) -> str:
    return f"({text})" if wanted else text


def symbol_text(symbol: str) -> str:
    """A formula's symbol with Greek letters: "gamma_M2" is "γ_M2", "Delta sigma_D" is "Δσ_D"."""
    text = re.sub(r"[A-Za-z]+", lambda m: GREEK.get(m[0], m[0]), symbol)
    return re.sub(r"Δ (?=\w)", "Δ", text)
