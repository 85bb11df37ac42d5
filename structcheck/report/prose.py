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
_GROUPS = re.compile(r"(?<=\d) (?=\d{3}(?!\d))")


def prose(text: str) -> Markup:
    """The text escaped, f_y as f with a low y; what stands as code, and the keys of the file, stay as they are.

    >>> str(prose("f_y over `plate_f_y`, gamma_M0"))
    'f<sub>y</sub> over `plate_f_y`, γ<sub>M0</sub>'
    """
    pieces = _CODE.split(_GROUPS.sub("\u00a0", text))
    return Markup("").join(escape(piece) if number % 2 else _subscripted(piece) for number, piece in enumerate(pieces))


def _subscripted(text: str) -> Markup:
    pieces = _SYMBOL.split(text)
    return Markup("").join(_low(piece) if number % 2 else escape(piece) for number, piece in enumerate(pieces))


def _low(symbol: str) -> Markup:
    base, index = named(symbol)
    return Markup("{}<sub>{}</sub>").format(base, index)
