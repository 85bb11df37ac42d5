"""A formula as MathML for the page; the term of a min or a max that governs is marked."""

import html
import re
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

import sympy
from sympy.core.function import AppliedUndef
from sympy.core.relational import Relational

from structcheck.report.working_shown import (
    GREEK,
    Choice,
    Number,
    base_needs_brackets,
    is_negative,
    is_root,
    named,
    needs_brackets,
    parted,
    signed_terms,
)

RELATIONS = {"<": "&lt;", "<=": "≤", ">": "&gt;", ">=": "≥", "==": "="}


def mathml(tree: Any, choices: Sequence[Choice] = ()) -> str:
    """The inside of a <math> element."""
    return _Writer(iter(choices)).of(tree)


class _Writer:
    """Writes one tree; takes its choices in the order it meets them, which is the order they were made in."""

    def __init__(self, choices: Iterator[Choice]) -> None:
        self.choices = choices

    def of(self, tree: Any) -> str:
        if isinstance(tree, Number):
            return _number(tree.name)
        if isinstance(tree, sympy.Symbol):
            return identifier(tree.name)
        if tree is sympy.pi:
            return "<mi>π</mi>"
        if isinstance(tree, sympy.Add):
            return _row(self._sum(tree))
        if is_root(tree):
            return f"<msqrt>{self.of(tree.base)}</msqrt>"
        if isinstance(tree, sympy.Mul) or (isinstance(tree, sympy.Pow) and tree.exp.is_Number and tree.exp.is_negative):
            return self._fraction(tree)
        if isinstance(tree, sympy.Pow):
            base = _row(_bracketed(self.of(tree.base), base_needs_brackets(tree.base)))
            return f"<msup>{base}{self.of(tree.exp)}</msup>"
        if isinstance(tree, AppliedUndef):
            return self._function(tree)
        if isinstance(tree, Relational):
            return _row((self.of(tree.lhs), f"<mo>{RELATIONS[tree.rel_op]}</mo>", self.of(tree.rhs)))
        if isinstance(tree, sympy.Piecewise):
            return self._branches(tree)
        return _number(str(tree))

    def _sum(self, tree: Any) -> Iterator[str]:
        for place, (negative, term) in enumerate(signed_terms(tree)):
            if place or negative:
                yield f"<mo>{'−' if negative else '+'}</mo>"
            signed = is_negative(term) and bool(place or negative)
            yield from _bracketed(self.of(term), signed or (negative and isinstance(term, sympy.Add)))

    def _fraction(self, tree: Any) -> str:
        product = parted(tree)
        text = self._factors(product.above)
        if product.below:
            text = f"<mfrac>{text}{self._factors(product.below)}</mfrac>"
        return _row(("<mo>−</mo>", *_bracketed(text, is_negative(product.above[0])))) if product.negative else text

    def _factors(self, factors: Sequence[Any]) -> str:
        if len(factors) == 1:
            return self.of(factors[0])
        pieces: list[str] = []
        for factor in factors:
            if pieces:
                pieces.append("<mo>·</mo>")
            pieces += _bracketed(self.of(factor), needs_brackets(factor))
        return _row(pieces)

    def _function(self, tree: Any) -> str:
        choice = next(self.choices, None)
        pieces = [f"<mi>{tree.func.__name__}</mi>", "<mo>(</mo>"]
        for place, argument in enumerate(tree.args):
            if place:
                pieces.append("<mo>,</mo>")
            taken = choice is not None and choice.taken == place
            text = self.of(argument)
            pieces.append(f'<mrow class="taken">{text}</mrow>' if taken else text)
        return _row((*pieces, "<mo>)</mo>"))

    def _branches(self, tree: Any) -> str:
        choice = next(self.choices, None)
        rows = []
        for place, (value, condition) in enumerate(tree.args):
            taken = ' class="taken"' if choice is not None and choice.taken == place else ""
            when = "<mtext>otherwise</mtext>" if condition == sympy.true else f"<mtext>if </mtext>{self.of(condition)}"
            rows.append(f"<mtr{taken}><mtd>{self.of(value)}</mtd><mtd>{when}</mtd></mtr>")
        return f"<mrow><mo>{{</mo><mtable>{''.join(rows)}</mtable></mrow>"


def identifier(name: str) -> str:
    """A formula's argument with its index."""
    base, index = named(name)
    letter = f"<mi>{html.escape(base)}</mi>"
    return f"<msub>{letter}<mi>{html.escape(index)}</mi></msub>" if index else letter


def symbol_mathml(symbol: str) -> str:
    """What a formula gives, as the standard writes it: "F_b,Rd", "h_w/t_w", "(6.41)"."""
    pieces = []
    for word, index, other in re.findall(r"([A-Za-z]+)(?:_(\w+(?:,\w+)*))?|([^A-Za-z]+)", symbol):
        if other:
            pieces.append(f"<mo>{html.escape(other.strip())}</mo>" if other.strip() else "")
        else:
            letter = f"<mi>{GREEK.get(word, word)}</mi>"
            pieces.append(f"<msub>{letter}<mi>{GREEK.get(index, index)}</mi></msub>" if index else letter)
    return _row(piece for piece in pieces if piece)


def _number(text: str) -> str:
    if "e" in text:
        mantissa, power = text.split("e")
        return f"<mrow>{_number(mantissa)}<mo>·</mo><msup><mn>10</mn>{_number(power)}</msup></mrow>"
    if text.startswith("-"):
        return f"<mrow><mo>−</mo><mn>{text[1:]}</mn></mrow>"
    if "/" in text:
        above, below = text.split("/")
        return f"<mfrac><mn>{above}</mn><mn>{below}</mn></mfrac>"
    return f"<mn>{text}</mn>"


def _row(pieces: Iterable[str]) -> str:
    found = list(pieces)
    return found[0] if len(found) == 1 else f"<mrow>{''.join(found)}</mrow>"


def _bracketed(text: str, wanted: bool) -> tuple[str, ...]:
    return ("<mo>(</mo>", text, "<mo>)</mo>") if wanted else (text,)
