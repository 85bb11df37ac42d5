"""Sentences on the page: symbols with their index set below, numbers in groups kept whole."""

import re

from markupsafe import Markup, escape

from structcheck.report.working_shown import named

_SYMBOL = re.compile(
    r"(?<![\w`.\[/-])"
    r"((?:(?:alpha|beta|gamma|epsilon|eta|lambda|mu|rho|sigma|tau|chi|psi)|[A-Za-z])_[A-Za-z0-9]{1,5}(?:,[A-Za-z0-9]{1,4})*)"
    r"(?![\w`\]=]|\s=\s[\"'\d])"
)
_CODE = re.compile(r"(`[^`]*`|\[[^\]]*\] \w+)")
_POWERS = re.compile(r"(?<=\d) ([cm]?m)([2-6])\b")
_RAISED = dict(zip("23456", "²³⁴⁵⁶", strict=True))
_GROUPS = re.compile(r"(?<=\d) (?=\d{3}(?!\d))")


def prose(text: str) -> Markup:
    """The text escaped, f_y as f with a low y, mm2 as mm²; code, and the keys of the file, stay as they are.

    >>> str(prose("f_y over `plate_f_y`, gamma_M0"))
    'f<sub>y</sub> over <code>plate_f_y</code>, γ<sub>M0</sub>'
    """
    pieces = _CODE.split(_GROUPS.sub("\u00a0", text))
    return Markup("").join(_code(piece) if number % 2 else _subscripted(piece) for number, piece in enumerate(pieces))


def _code(text: str) -> Markup:
    """A key of the file, without the marks it has in the terminal."""
    return Markup("<code>{}</code>").format(text.strip("`")) if text.startswith("`") else escape(text)


def _subscripted(text: str) -> Markup:
    pieces = _SYMBOL.split(_POWERS.sub(lambda met: f"\u00a0{met[1]}{_RAISED[met[2]]}", text))
    return Markup("").join(_low(piece) if number % 2 else escape(piece) for number, piece in enumerate(pieces))


def _low(symbol: str) -> Markup:
    base, index = named(symbol)
    return Markup("{}<sub>{}</sub>").format(base, index)
