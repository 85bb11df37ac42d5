"""The working as LaTeX, for somebody who keeps their own file."""

import re
from collections.abc import Iterator, Sequence
from typing import Any

import sympy
from sympy.core.function import AppliedUndef
from sympy.core.relational import Relational

from structcheck.findings import Result
from structcheck.formula import Remark
from structcheck.report.numbers import figures
from structcheck.report.table import use_of
from structcheck.report.working import Again, notebook
from structcheck.report.working_shown import (
    GREEK,
    Number,
    Shown,
    base_needs_brackets,
    is_negative,
    is_root,
    needs_brackets,
    parted,
    shown,
    signed_terms,
)

_RELATIONS = {"<": "<", "<=": r"\le", ">": ">", ">=": r"\ge"}


def working_latex(result: Result) -> str:
    """The working of every finding as the body of a LaTeX document (amsmath)."""
    return "\n".join(_lines(result)) + "\n"


def _lines(result: Result) -> Iterator[str]:
    for part in notebook(result):
        yield rf"\section*{{{_text(part.part)}}}"
        yield from _steps(part.shared)
        for entry in part.entries:
            finding = entry.finding
            title = f"{finding.check}, {finding.case}" if finding.case else finding.check
            yield rf"\subsection*{{{_text(title)}: {use_of(finding)} {finding.verdict}}}"
            yield from _steps(entry.steps)
            if finding.utilisation is not None:
                yield rf"\noindent {_text(finding.source)}: use {figures(finding.utilisation, 4)}"
            if finding.reason:
                yield rf"\par\noindent {_text(finding.reason)}"


def _steps(steps: Sequence[Any]) -> Iterator[str]:
    for step in steps:
        if isinstance(step, Remark):
            yield rf"\par\noindent {_text(step.text)} {_text(step.source)}"
        elif not isinstance(step, Again):
            yield from _equation(shown(step))


def _equation(line: Shown) -> Iterator[str]:
    unit = rf"\,\mathrm{{{line.unit.replace(' ', chr(92) + ',')}}}" if line.unit else ""
    yield rf"\noindent\text{{{_text(line.source)}}}"
    yield r"\begin{align*}"
    yield rf"{_symbol(line.symbol)} &= {latex(line.expression)} \\"
    yield rf"&= {latex(line.numbers)} = {_number(line.result_text)}{unit}"
    yield r"\end{align*}"


def latex(tree: Any) -> str:
    """One expression."""
    if isinstance(tree, Number):
        return _number(tree.name)
    if isinstance(tree, sympy.Symbol):
        return _symbol(tree.name)
    if isinstance(tree, sympy.Add):
        text = ""
        for negative, term in signed_terms(tree):
            text += f" {'-' if negative else '+' if text else ''} " + _in(
                latex(term),
                (negative and isinstance(term, sympy.Add)) or (is_negative(term) and bool(text or negative)),
            )
        return text.strip()
    if is_root(tree):
        return rf"\sqrt{{{latex(tree.base)}}}"
    if isinstance(tree, sympy.Mul) or (isinstance(tree, sympy.Pow) and tree.exp.is_Number and tree.exp.is_negative):
        product = parted(tree)
        text = _row(product.above)
        if product.below:
            text = rf"\frac{{{text}}}{{{_row(product.below)}}}"
        return f"-{_in(text, is_negative(product.above[0]))}" if product.negative else text
    if isinstance(tree, sympy.Pow):
        return f"{_in(latex(tree.base), base_needs_brackets(tree.base))}^{{{latex(tree.exp)}}}"
    if isinstance(tree, AppliedUndef):
        return rf"\{tree.func.__name__}\left({', '.join(map(latex, tree.args))}\right)"
    if isinstance(tree, Relational):
        return f"{latex(tree.lhs)} {_RELATIONS[tree.rel_op]} {latex(tree.rhs)}"
    if isinstance(tree, sympy.Piecewise):
        rows = r" \\ ".join(f"{latex(value)} & {_when(condition)}" for value, condition in tree.args)
        return rf"\begin{{cases}} {rows} \end{{cases}}"
    return str(sympy.latex(tree))


def _when(condition: Any) -> str:
    return r"\text{otherwise}" if condition == sympy.true else rf"\text{{if }} {latex(condition)}"


def _row(factors: Sequence[Any]) -> str:
    if len(factors) == 1:
        return latex(factors[0])
    return r" \cdot ".join(_in(latex(f), needs_brackets(f)) for f in factors)


def _in(text: str, brackets: bool) -> str:
    return rf"\left({text}\right)" if brackets else text


def _number(text: str) -> str:
    mantissa, _, power = text.partition("e")
    return rf"{mantissa} \cdot 10^{{{power}}}" if power else mantissa


def _symbol(symbol: str) -> str:
    """ "gamma_M2" is \\gamma_{M2}; words that are no symbol stay upright."""
    pieces = []
    for word, index, other in re.findall(r"([A-Za-z]+)(?:_(\w+(?:[,_]\w+)*))?|([^A-Za-z]+)", symbol):
        if other:
            pieces.append(other)
            continue
        base = rf"\{word}" if word in GREEK else word if len(word) == 1 else rf"\mathrm{{{word}}}"
        marks = [rf"\{mark}" if mark in GREEK else rf"\mathrm{{{mark}}}" for mark in re.split("[,_]", index) if mark]
        pieces.append(f"{base}_{{{','.join(marks)}}}" if marks else base)
    return "".join(pieces)


def _text(words: str) -> str:
    for mark in "&%$#_{}":
        words = words.replace(mark, f"\\{mark}")
    return words.replace("^", r"\textasciicircum{}").replace("~", r"\textasciitilde{}")
