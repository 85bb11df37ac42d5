"""Two readers of shown formulas that share nothing with the printers: one of the line, one of the MathML.

Each turns what a reader sees, with the full values of its letters, into a number.
"""

import math
import operator
import re
import xml.etree.ElementTree as ElementTree

LETTERS = {
    "α": "alpha", "β": "beta", "γ": "gamma", "δ": "delta", "ε": "epsilon", "ζ": "zeta", "η": "eta", "θ": "theta",
    "κ": "kappa", "λ": "lambda", "μ": "mu", "ν": "nu", "ξ": "xi", "ρ": "rho", "σ": "sigma", "τ": "tau", "φ": "phi",
    "χ": "chi", "ψ": "psi", "ω": "omega", "Δ": "Delta", "Φ": "Phi", "Ψ": "Psi", "Ω": "Omega", "Γ": "Gamma",
    "Θ": "Theta", "Λ": "Lambda", "Σ": "Sigma",
}  # fmt: skip


def value_of_name(base: str, index: str, values: dict[str, float]) -> float:
    """The value of a letter with its index: π where there is no argument of that name."""
    words = [LETTERS.get(letter, letter) for letter in base] if any(c in LETTERS for c in base) else [base]
    words += [LETTERS.get(piece, piece) for piece in index.split(",") if piece]
    name = "_".join(words)
    if name not in values and base == "π":
        return math.pi
    return float(values[name])


class Tokens:
    """A list read from the front."""

    def __init__(self, items):
        self.items = list(items)

    def peek(self):
        return self.items[0] if self.items else None

    def take(self):
        return self.items.pop(0)

    def accept(self, *wanted):
        return self.take() if self.peek() in wanted else None


FUNCTIONS = {"min": min, "max": max, "sqrt": lambda terms: math.sqrt(terms[0])}


def read_line(text: str, values: dict[str, float]) -> float:
    """The value of a formula on one line: "min(p_1 / (3 · d_0) - 0.25, 1)"."""
    if " if " in text or text.endswith(" otherwise"):
        return _branch_of_line(text, values)
    found = re.findall(r"\d+(?:\.\d+)?(?:e-?\d+)?|[^\W\d]\w*(?:,\w+)*|[-+·/^(),∞]", _commas(text))
    tokens = Tokens(found)
    value = _sum(tokens, values)
    assert tokens.peek() is None, (text, tokens.items)
    return value


def _branch_of_line(text, values):
    """ "1 if k <= 0.2; 1 / k otherwise": the first row whose condition is true."""
    for row in text.split("; "):
        if row.endswith(" otherwise"):
            return read_line(row.removesuffix(" otherwise"), values)
        value, _, condition = row.partition(" if ")
        left, sign, right = re.fullmatch(r"(.*) (<=|>=|<|>) (.*)", condition).groups()
        if SIGNS[sign](read_line(left, values), read_line(right, values)):
            return read_line(value, values)
    raise AssertionError(text)


SIGNS = {"<": operator.lt, ">": operator.gt, "<=": operator.le, ">=": operator.ge, "≤": operator.le, "≥": operator.ge}


def _commas(text):
    """An argument's comma stands before a space; an index's comma does not."""
    return text.replace(", ", " , ")


def _sum(tokens, values):
    total = -_product(tokens, values) if tokens.accept("-") else _product(tokens, values)
    while sign := tokens.accept("+", "-"):
        term = _product(tokens, values)
        total = total + term if sign == "+" else total - term
    return total


def _product(tokens, values):
    value = _power(tokens, values)
    while sign := tokens.accept("·", "/"):
        factor = _power(tokens, values)
        value = value * factor if sign == "·" else value / factor
    return value


def _power(tokens, values):
    base = _atom(tokens, values)
    return base ** _atom(tokens, values) if tokens.accept("^") else base


def _atom(tokens, values):
    token = tokens.take()
    if token == "(":
        value = _sum(tokens, values)
        assert tokens.take() == ")"
        return value
    if token == "-":
        return -_atom(tokens, values)
    if token in FUNCTIONS:
        assert tokens.take() == "("
        terms = [_sum(tokens, values)]
        while tokens.accept(","):
            terms.append(_sum(tokens, values))
        assert tokens.take() == ")"
        return FUNCTIONS[token](terms)
    if token == "∞":
        return math.inf
    if token[0].isdigit():
        return float(token)
    base, _, index = token.partition("_")
    return value_of_name(base, index, values)


def read_mathml(text: str, values: dict[str, float]) -> float:
    """The value of a formula in presentation MathML."""
    return _element(ElementTree.fromstring(f"<mrow>{text}</mrow>"), values)


def _element(node, values):
    kind, children = node.tag, list(node)
    if kind == "mn":
        return math.inf if node.text == "∞" else float(node.text)
    if kind == "mi":
        return value_of_name(node.text, "", values)
    if kind == "msub":
        return value_of_name(children[0].text, children[1].text, values)
    if kind == "msup":
        return _element(children[0], values) ** _element(children[1], values)
    if kind == "mfrac":
        return _element(children[0], values) / _element(children[1], values)
    if kind == "msqrt":
        return math.sqrt(_row(children, values))
    assert kind == "mrow", kind
    if len(children) == 2 and children[1].tag == "mtable":
        return _branch_of_table(children[1], values)
    return _row(children, values)


def _branch_of_table(table, values):
    for value, when in table:
        words, *relation = when
        if words.text == "otherwise":
            return _row(list(value), values)
        left, sign, right = relation[0]
        if SIGNS[sign.text](_element(left, values), _element(right, values)):
            return _row(list(value), values)
    raise AssertionError("no row holds")


def _row(children, values):
    tokens = Tokens(children)
    value = _row_sum(tokens, values)
    assert tokens.peek() is None
    return value


def _operator(tokens, *wanted):
    node = tokens.peek()
    return tokens.take().text if node is not None and node.tag == "mo" and node.text in wanted else None


def _row_sum(tokens, values):
    total = -_row_product(tokens, values) if _operator(tokens, "−") else _row_product(tokens, values)
    while sign := _operator(tokens, "+", "−"):
        term = _row_product(tokens, values)
        total = total + term if sign == "+" else total - term
    return total


def _row_product(tokens, values):
    value = _row_atom(tokens, values)
    while _operator(tokens, "·"):
        value *= _row_atom(tokens, values)
    return value


def _row_atom(tokens, values):
    if _operator(tokens, "("):
        value = _row_sum(tokens, values)
        assert _operator(tokens, ")")
        return value
    node = tokens.take()
    if node.tag == "mi" and node.text in ("min", "max"):
        assert _operator(tokens, "(")
        terms = [_row_sum(tokens, values)]
        while _operator(tokens, ","):
            terms.append(_row_sum(tokens, values))
        assert _operator(tokens, ")")
        return min(terms) if node.text == "min" else max(terms)
    return _element(node, values)
