"""The working as text: clause in the margin, formula on its line, numbers below, result at the right edge."""

import textwrap
from collections.abc import Iterator, Sequence
from typing import Any

import sympy
from sympy.core.function import AppliedUndef
from sympy.printing.pretty.pretty import PrettyPrinter
from sympy.printing.pretty.stringpict import prettyForm, stringPict

from structcheck.findings import Finding, Result
from structcheck.formula import Remark, Step
from structcheck.report.numbers import figures
from structcheck.report.table import amount_text, is_statement, use_of
from structcheck.report.working import Again, Entry, Line, PartWorking, notebook
from structcheck.report.working_linear import linear, symbol_text
from structcheck.report.working_shown import (
    Choice,
    Number,
    Shown,
    base_needs_brackets,
    is_negative,
    is_root,
    named,
    needs_brackets,
    parted,
    shown,
    signed_terms,
)

MARGIN = 26
LEAD = "Numbers in N, mm and MPa, shown to five figures and used in full; > marks the term that governs."


class Notebook(PrettyPrinter):
    """sympy's printer in two dimensions, with sums and products in the order of the clause."""

    def _print_Symbol(self, tree: Any, **_: Any) -> prettyForm:
        if isinstance(tree, Number):
            return prettyForm(tree.name)
        base, index = named(tree.name)
        return prettyForm(f"{base}_{index}" if index else base)

    def _print_Number(self, tree: Any) -> prettyForm:
        return prettyForm(str(tree))

    def _print_Add(self, tree: Any, **_: Any) -> prettyForm:
        pieces: list[Any] = []
        for place, (negative, term) in enumerate(signed_terms(tree)):
            sign = ("-" if negative else "") if place == 0 else (" - " if negative else " + ")
            form = self._print(term)
            bracketed = (negative and isinstance(term, sympy.Add)) or (is_negative(term) and bool(place or negative))
            pieces += [sign, self._bracketed(form) if bracketed else form]
        return prettyForm(*stringPict.next(*[p for p in pieces if p != ""]))

    def _print_Mul(self, tree: Any) -> prettyForm:
        product = parted(tree)
        form = self._row(product.above)
        if product.below:
            form = form / self._row(product.below)
        if not product.negative:
            return form
        return prettyForm(*stringPict.next("-", self._bracketed(form) if is_negative(product.above[0]) else form))

    def _print_Piecewise(self, tree: Any) -> prettyForm:
        rows = []
        for value, condition in tree.args:
            when = prettyForm("otherwise") if condition == sympy.true else self._print_relation(condition)
            rows.append(prettyForm(*stringPict.next(self._print(value), "   ", when)))
        form = prettyForm(*stringPict.stack(*rows))
        return prettyForm(*form.parens("{", ""))

    def _print_relation(self, tree: Any) -> prettyForm:
        return prettyForm(*stringPict.next("if ", self._print(tree.lhs), f" {tree.rel_op} ", self._print(tree.rhs)))

    def _row(self, factors: Sequence[Any]) -> prettyForm:
        if len(factors) == 1:
            return self._print(factors[0])
        pieces: list[Any] = []
        for factor in factors:
            form = self._print(factor)
            pieces += ["⋅", self._bracketed(form) if needs_brackets(factor) else form]
        return prettyForm(*stringPict.next(*pieces[1:]))

    def _print_Pow(self, tree: Any) -> prettyForm:
        if is_root(tree):
            return self._print_nth_root(tree.base, sympy.Integer(2))
        if tree.exp.is_Number and tree.exp.is_negative:
            return self._print_Mul(tree)
        form = self._print(tree.base)
        function = isinstance(tree.base, AppliedUndef)  # the printer would raise the function's name
        base = self._bracketed(form) if function or base_needs_brackets(tree.base) else form
        return base ** self._print(tree.exp)

    def _bracketed(self, form: prettyForm) -> prettyForm:
        return prettyForm(*form.parens())


_PRINTER = Notebook({"use_unicode": True, "wrap_line": False, "full_prec": False})


def working_text(result: Result, columns: int = 100) -> str:
    """The working of every finding; empty where none was kept."""
    parts = notebook(result)
    if not parts:
        return ""
    return "\n".join(["Working", LEAD, *(line for part in parts for line in _part(part, columns))]) + "\n"


def _part(part: PartWorking, columns: int) -> Iterator[str]:
    if part.shared:
        yield from ("", f"{part.part}: worked out for the checks", "-" * columns)
        yield from _steps(part.shared, columns)
    for entry in part.entries:
        yield from _entry(entry, columns)


def _entry(entry: Entry, columns: int) -> Iterator[str]:
    finding = entry.finding
    title = f"{finding.part}: {finding.check}" + (f", {finding.case}" if finding.case else "")
    answer = f"{use_of(finding)} {finding.verdict}".removeprefix("- ")
    yield from ("", f"{title}{answer:>{max(1, columns - len(title))}}", "-" * columns)
    yield from _steps(entry.steps, columns)
    yield from _close(finding, entry.multiple, columns)


def _steps(steps: Sequence[Line], columns: int) -> Iterator[str]:
    before = [_named_again(step.step) for step in steps if isinstance(step, Again)]
    if before:
        yield from _beside("from above", textwrap.wrap("; ".join(dict.fromkeys(before)), columns - MARGIN), columns)
    for step in steps:
        if isinstance(step, Again):
            continue
        if isinstance(step, Remark):
            yield from _beside(step.source, textwrap.wrap(step.text, columns - MARGIN), columns)
        else:
            yield from _beside(step.formula.source, _lines(shown(step), columns - MARGIN), columns)


def _named_again(step: Step) -> str:
    line = shown(step)
    return f"{symbol_text(line.symbol)} = {line.result_text} {line.unit}".rstrip()


def _beside(clause: str, lines: Sequence[str], columns: int) -> Iterator[str]:
    margin = textwrap.wrap(clause, MARGIN - 2)
    for place in range(max(len(margin), len(lines))):
        left = margin[place] if place < len(margin) else ""
        yield f"{left:<{MARGIN}}{lines[place] if place < len(lines) else ''}".rstrip()


def _lines(line: Shown, width: int) -> list[str]:
    symbol = symbol_text(line.symbol)
    answer = f"= {line.result_text} {line.unit}".rstrip()
    formula, numbers = _block(f"{symbol} = ", line.expression), _block(" " * len(symbol) + " = ", line.numbers)
    room = width - len(answer) - 2
    if max(map(len, formula)) > width:
        formula = textwrap.wrap(f"{symbol} = {linear(line.expression)}", width, subsequent_indent="    ")
    if max(map(len, numbers)) > room:
        numbers = textwrap.wrap(f"{' ' * len(symbol)} = {linear(line.numbers)}", room, subsequent_indent="    ")
        numbers[-1] = f"{numbers[-1]:<{room}}  {answer}"
    else:
        level = next((i for i, text in enumerate(numbers) if text.startswith(" " * len(symbol) + " = ")), 0)
        numbers[level] = f"{numbers[level]:<{room}}  {answer:>{len(answer)}}"
    return [*formula, *numbers, *map(_chosen, line.choices)]


def _chosen(choice: Choice) -> str:
    """The terms of a min or a max, the one that governs marked."""
    terms = [f"{'>' if i == choice.taken else ''}{figures(v)}" for i, v in enumerate(choice.values)]
    return f"    {choice.kind}: {'  '.join(terms)}"


def _block(lead: str, tree: Any) -> list[str]:
    """A formula in two dimensions after its lead, which stands at the height of its bar."""
    form = _PRINTER._print(tree)
    return [
        f"{lead if row == form.baseline else ' ' * len(lead)}{text}".rstrip() for row, text in enumerate(form.picture)
    ]


def _close(finding: Finding, multiple: str, columns: int) -> Iterator[str]:
    """Demand over capacity, and why."""
    if finding.demand and finding.capacity and finding.utilisation is not None and not is_statement(finding):
        demand, capacity = amount_text(finding.demand), amount_text(finding.capacity)
        of = f" ({symbol_text(multiple)})" if multiple else ""
        text = f"use = {demand} / {capacity}{of}"
        answer = f"= {figures(finding.utilisation, 4)}"
        yield from _beside(finding.source, [f"{text:<{columns - MARGIN - len(answer)}}{answer}"], columns)
    if finding.reason:
        yield from _beside("", textwrap.wrap(f"because: {finding.reason}", columns - MARGIN), columns)
