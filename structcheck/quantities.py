"""Quantities at the border: text with a unit in, numbers in N, mm, MPa, kg, s, rad inside.

A user's text is never handed to pint whole: a reader of our own takes one number and one unit of a closed list,
because general readers take "8,5 mm" for 85 mm, "8 ton" for US tons and "3/8\"" for a bare ratio.
"""

import math
import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from pathlib import Path
from typing import Annotated, Any

from structcheck.errors import Problem, QuantityError

G_N = 9.80665
"""Standard gravity in m/s2, and so the newtons of one kilogram (ISO 80000-3)."""

LONGEST_TEXT = 60
LARGEST, SMALLEST = 1e15, 1e-9
"""In base units: sizes beyond which no press lies, and powers of them no floating number."""


@dataclass(frozen=True)
class Unit:
    """The unit of a formula's argument or result, as it is printed and as the unit file spells it."""

    label: str
    expression: str


ratio = Annotated[float, Unit("", "")]
N = Annotated[float, Unit("N", "N")]
mm = Annotated[float, Unit("mm", "mm")]
mm2 = Annotated[float, Unit("mm2", "mm**2")]
mm3 = Annotated[float, Unit("mm3", "mm**3")]
mm4 = Annotated[float, Unit("mm4", "mm**4")]
mm6 = Annotated[float, Unit("mm6", "mm**6")]
MPa = Annotated[float, Unit("MPa", "MPa")]
Nmm = Annotated[float, Unit("N mm", "N*mm")]
N_per_mm = Annotated[float, Unit("N/mm", "N/mm")]
kg = Annotated[float, Unit("kg", "kg")]
kg_per_m = Annotated[float, Unit("kg/m", "kg/m")]
rad = Annotated[float, Unit("rad", "radian")]
second = Annotated[float, Unit("s", "s")]


@dataclass(frozen=True)
class Kind:
    """A kind of quantity a key asks for.

    name      what the key wants, for messages ("a length")
    units     the units offered in messages
    base      expression of the base unit the number is turned into
    example   a text that is right
    weighs    a mass is read as the force of its weight (loads)
    si        exponents of kg, m, s, for a quantity of somebody else's registry
    to_base   factor from the SI value to the base unit
    """

    name: str
    units: str
    base: str
    example: str
    si: tuple[int, int, int]
    to_base: float
    weighs: bool = False

    @property
    def wanted(self) -> str:
        """The sentence of an error message."""
        return f"{self.name} in {self.units}"


LENGTH = Kind("a length", "mm, cm, m, in or ft", "mm", "900 mm", (0, 1, 0), 1e3)
FORCE = Kind("a force or mass", "N, kN, lbf, kip, kg, t, lb, short_ton or long_ton", "N", "8 t", (1, 1, -2), 1.0, True)
LINE_LOAD = Kind("a spread load", "N/mm, kN/m, kg/m, t/m or lbf/ft", "N/mm", "20 kN/m", (1, 0, -2), 1e-3, True)
MASS = Kind("a mass", "kg, t, g, lb, short_ton or long_ton", "kg", "25 kg", (1, 0, 0), 1.0)
STRESS = Kind("a stress or pressure", "MPa, N/mm2, bar, psi or ksi", "MPa", "235 MPa", (1, -1, -2), 1e-6)
MOMENT = Kind("a moment", "N m, kN m, N mm or lbf ft", "N*mm", "5 kN m", (1, 2, -2), 1e3, True)
RATE = Kind("a spring rate", "N/mm, kN/m, kg/mm or lb/in", "N/mm", "12.4 N/mm", (1, 0, -2), 1e-3, True)
ANGLE = Kind("an angle", "deg or rad", "radian", "30 deg", (0, 0, 0), 1.0)
AREA = Kind("an area", "mm2, cm2 or in2", "mm**2", "157 mm2", (0, 2, 0), 1e6)
LINE_MASS = Kind("a mass per length", "kg/m or lb/ft", "kg/mm", "14.4 kg/m", (1, -1, 0), 1e-3)
VOLUME = Kind("a volume", "litre, cm3 or mm3", "mm**3", "0.4 litre", (0, 3, 0), 1e9)


SPELLINGS: Mapping[str, str] = {
    **{u: u for u in "mm cm m in ft N kN MN lbf kip kgf t kg g lb short_ton long_ton".split()},
    **{u: u for u in "MPa kPa Pa GPa bar psi ksi deg rad s min J litre".split()},
    **{"inch": "in", "inches": "in", '"': "in", "″": "in", "foot": "ft", "feet": "ft", "'": "ft", "′": "ft"},
    **{"millimetre": "mm", "millimeter": "mm", "metre": "m", "meter": "m", "newton": "N", "kips": "kip"},
    **{"tonne": "t", "tonnes": "t", "kilogram": "kg", "lbs": "lb", "pound": "lb", "pounds": "lb"},
    **{"short ton": "short_ton", "short tons": "short_ton", "short_tons": "short_ton"},
    **{"long ton": "long_ton", "long tons": "long_ton", "long_tons": "long_ton"},
    **{
        "degree": "deg",
        "degrees": "deg",
        "°": "deg",
        "radian": "rad",
        "radians": "rad",
        "l": "litre",
        "litres": "litre",
    },
    **{f"{u}{p}": f"{u}**{n}" for u in ("mm", "cm", "m", "in") for n, ps in ((2, ("2", "^2", "²")),) for p in ps},
    **{f"{u}{p}": f"{u}**{n}" for u in ("mm", "cm", "m", "in") for n, ps in ((3, ("3", "^3", "³")),) for p in ps},
    **{f"{u}{p}": f"{u}**4" for u in ("mm", "cm", "in") for p in ("4", "^4", "⁴")},
    **{f"N/mm{p}": "MPa" for p in ("2", "^2", "²")},
    **{f"kN/mm{p}": "GPa" for p in ("2", "^2", "²")},
    **{
        f"{force}{dot}{length}": f"{force}*{length}"
        for force in ("N", "kN", "MN", "kgf")
        for length in ("mm", "cm", "m")
        for dot in ("", " ", "*", "·", ".")
        # "Nm" and "kNm" are moments to a builder; pint's registry reads them as a yarn count.
    },
    **{
        f"{force}{dot}{length}": f"lbf*{length}" if force in ("lb", "lbf") else f"{force}*{length}"
        for force in ("lb", "lbf", "kip")
        for length in ("in", "ft")
        for dot in (" ", "*", "·", "-", ".")
    },
    **{f"{load}/{length}": f"{load}/{length}" for load in ("N", "kN", "kgf") for length in ("mm", "cm", "m")},
    **{f"{load}/{length}": f"{load}/{length}" for load in ("kg", "t", "g") for length in ("mm", "cm", "m")},
    **{f"{load}/{length}": f"{load}/{length}" for load in ("lbf", "lb", "kip") for length in ("in", "ft")},
}

_NUMBER = re.compile(
    r"(?P<number>[+-]?(?:\d+\s+\d+/\d+|\d+/\d+|(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?))\s*(?P<unit>\D.*|)",
    re.ASCII | re.DOTALL,
)
_TON = re.compile(r"(?:US |UK |metric |imperial )?tons?", re.IGNORECASE)


UNIT_FILE = Path(__file__).with_name("units.txt")


@cache
def registry() -> Any:
    """The pint registry of our own unit file; about 10 ms, against 145 ms for pint's default."""
    import pint

    return pint.UnitRegistry(str(UNIT_FILE), cache_folder=None)


@cache
def _units() -> dict[str, tuple[float, Counter[str]]]:
    """Every unit of the unit file: its factor to the base units, and its dimensions.

    The same file as pint's registry reads, without the 110 ms that importing pint costs at every start; a test
    compares the two for every spelling.
    """
    known: dict[str, tuple[float, Counter[str]]] = {}
    for line in UNIT_FILE.read_text(encoding="utf-8").splitlines():
        name, *rest = (piece.strip() for piece in line.partition("#")[0].split("="))
        if rest:
            defined, *aliases = rest
            unit = (
                (1.0, Counter({defined: 1} if defined != "[]" else {})) if "[" in defined else _product(defined, known)
            )
            known |= dict.fromkeys((name, *aliases), unit)
    return known


def _product(expression: str, known: Mapping[str, tuple[float, Counter[str]]]) -> tuple[float, Counter[str]]:
    """Factor and dimensions of a product such as "lbf / in ** 2"."""
    factor, dimensions, sign = 1.0, Counter[str](), 1
    for piece in re.split(r"(\*\*|[*/])", expression.replace("**", "^").replace(" ", "")):
        if piece in ("*", "/"):
            sign = 1 if piece == "*" else -1
            continue
        word, _, power = piece.partition("^")
        count = sign * int(power or 1)
        value, kinds = known[word] if word in known else (float(word), Counter[str]())
        factor *= value**count
        for kind, times in kinds.items():
            dimensions[kind] += times * count
    return factor, dimensions


@cache
def _in_base(expression: str) -> tuple[float, tuple[tuple[str, int], ...]]:
    """Factor from a unit to the base units, and its dimensions."""
    factor, dimensions = _product(expression, _units())
    return factor, tuple(sorted((kind, count) for kind, count in dimensions.items() if count))


@cache
def _base_factor(kind: Kind) -> tuple[float, tuple[tuple[str, int], ...]]:
    return _in_base(kind.base)


def read(given: Any, kind: Kind, key: str, *, numbers: bool = False) -> float:
    """A text, a pint quantity or (where `numbers` allows) a number in base units, as a float in base units.

    given    what the user wrote
    kind     what is wanted; a load takes a mass too, as its weight with g = 9.80665 m/s2
    key      the key, option or argument, for the message
    numbers  take a bare number as base units (the Python face); a file or a command line must state a unit

    Raises QuantityError.
    """
    if isinstance(given, str):
        try:
            return _known_text(given, kind)
        except QuantityError:
            return _read_text(given, kind, key)  # refuses it with the key's name
    if hasattr(given, "to_base_units") and hasattr(given, "magnitude"):
        return _take_over(given, kind, key)
    if numbers and isinstance(given, int | float) and not isinstance(given, bool):
        if not math.isfinite(given):
            raise _refuse(key, repr(given), "is not a finite number", kind)
        return _in_reach(float(given), repr(given), kind, key)
    if isinstance(given, int | float) and not isinstance(given, bool) and math.isfinite(given):
        raise _refuse(key, repr(given), "has no unit", kind, *_with_units(_trim(given), float(given), kind))
    shown = str(given).lower() if isinstance(given, bool) else _quoted(given)
    raise _refuse(key, shown, "is not a quantity", kind)


@lru_cache(maxsize=4096)
def _known_text(text: str, kind: Kind) -> float:
    return _read_text(text, kind, "")


def _read_text(text: str, kind: Kind, key: str) -> float:
    shown = _quoted(text)
    if len(text) > LONGEST_TEXT:
        raise _refuse(key, shown, f"is longer than {LONGEST_TEXT} characters", kind)
    stripped = text.strip()
    if not stripped:
        raise _refuse(key, shown, "is empty", kind)
    _refuse_lookalikes(stripped, shown, kind, key)
    match = _NUMBER.fullmatch(stripped)
    if match is None:
        raise _refuse(key, shown, "is not one number with one unit", kind)
    number = _number(match["number"], shown, kind, key)
    unit = " ".join(match["unit"].split())
    if not unit:
        raise _refuse(key, shown, "has no unit", kind, *_with_units(match["number"], number, kind))
    factor = _factor(unit, match["number"], number, shown, kind, key)
    return _in_reach(number * factor, shown, kind, key)


def _with_units(digits: str, number: float, kind: Kind) -> list[str]:
    """The number with the unit it may have been meant in; a force or a mass of some size has several."""
    units = [kind.example.split(" ", 1)[1]]
    if kind.weighs:
        units = ["t", "kN"] if abs(number) < 500 else ["kg", "N"]
    return [f"{digits} {unit}" for unit in units]


def _in_reach(value: float, shown: str, kind: Kind, key: str) -> float:
    """The value, where it is of a size that a press can have and that can be calculated with."""
    if not abs(value) <= LARGEST:
        raise _refuse(key, shown, "is too large", kind)
    if 0 < abs(value) < SMALLEST:
        raise _refuse(key, shown, "is too small", kind)
    return value


def _refuse_lookalikes(text: str, shown: str, kind: Kind, key: str) -> None:
    """Texts that a lenient reader would take for another number."""
    comma = re.match(r"[+-]?(\d+),(\d+)(.*)", text, re.ASCII | re.DOTALL)
    if comma:
        whole, rest, tail = comma[1], comma[2], " ".join(comma[3].split())
        point = f"{whole}.{rest} {tail}".strip()
        if len(rest) == 3:
            fault = f"has a comma: {whole}{rest} or {_trim(float(f'{whole}.{rest}'))}?"
            raise _refuse(key, shown, fault, kind, f"{whole}{rest} {tail}".strip(), f"{whole}.{rest} {tail}".strip())
        raise _refuse(key, shown, "has a comma", kind, point)
    if "_" in text.split(" ")[0] and text[0].isdigit():
        raise _refuse(key, shown, "has an underscore in its number", kind, text.replace("_", "", 1))
    if any(character.isdigit() and not character.isascii() for character in text if character not in "²³⁴"):
        raise _refuse(key, shown, "has digits other than 0 to 9", kind)


def _number(text: str, shown: str, kind: Kind, key: str) -> float:
    if "/" in text:
        try:
            pieces = text.lstrip("+-").split()
            value = float(sum(Fraction(piece) for piece in pieces))
        except (ZeroDivisionError, OverflowError):
            raise _refuse(key, shown, "is not a finite number", kind) from None
        return -value if text.startswith("-") else value
    value = float(text)
    if not math.isfinite(value):
        raise _refuse(key, shown, "is too large", kind)
    if value == 0 and re.search(r"[1-9]", re.split(r"[eE]", text)[0]):
        raise _refuse(key, shown, "is too small", kind)
    return value


def _factor(unit: str, digits: str, number: float, shown: str, kind: Kind, key: str) -> float:
    """Factor from the spelled unit to the base unit of the kind; refuses a unit of another kind."""
    if _TON.fullmatch(unit):
        tons = ("t", "short_ton", "long_ton")
        weights = ", ".join(f"{digits} {u} is {number * _in_base(u)[0] * G_N / 1e3:.1f} kN" for u in tons)
        raise _refuse(key, shown, "could be three different tons", kind, *(f"{digits} {u}" for u in tons), more=weights)
    expression = SPELLINGS.get(unit)
    if expression is None:
        raise _unknown_unit(unit, digits, shown, kind, key)
    factor, dimensions = _in_base(expression)
    base, wanted = _base_factor(kind)
    if dimensions == wanted:
        return factor / base
    weighed = tuple(sorted(("[force]" if name == "[mass]" else name, count) for name, count in dimensions))
    if kind.weighs and weighed == wanted:
        return factor * G_N / base
    raise _refuse(key, shown, f"is not {kind.name}", kind)


_SIZE = re.compile(r"(?:\S+ ?)?[x×] ?([0-9.]+) ?([^ 0-9]+)", re.ASCII)
"""What follows the first number in "110 x 90 mm" or "110 mm x 90 mm"."""


def _unknown_unit(unit: str, digits: str, shown: str, kind: Kind, key: str) -> QuantityError:
    several = _SIZE.fullmatch(unit)
    if several:
        numbers = dict.fromkeys((digits, several[1])) if several[2] in SPELLINGS else {}
        choices = [f"{number} {several[2]}" for number in numbers] or [""]
        raise _refuse(key, shown, "is several numbers, where one is wanted", kind, *choices)
    close = [known for known in SPELLINGS if known.casefold() == unit.casefold()]
    remedy = f"{digits} {close[0]}" if close else ""
    return _refuse(key, shown, f'has a unit nobody here knows: "{unit}"', kind, remedy)


def _take_over(quantity: Any, kind: Kind, key: str) -> float:
    """A pint quantity of any registry, by its base units."""
    base = quantity.to_base_units()
    magnitude, exponents = float(base.magnitude), [0.0, 0.0, 0.0]
    for name, power in dict(base.unit_items() if hasattr(base, "unit_items") else base.units._units).items():
        place, scale, extra = _BASE_UNITS.get(name, (None, 1.0, ()))
        if place is None:
            raise _refuse(key, _quoted(str(quantity)), f"is not {kind.name}", kind)
        magnitude *= scale**power
        for index, count in ((place, 1), *extra):
            exponents[index] += count * power
    weighed = [exponents[0], exponents[1] + 1, exponents[2] - 2]
    if not math.isfinite(magnitude):
        raise _refuse(key, _quoted(str(quantity)), "is not a finite number", kind)
    if tuple(exponents) == kind.si:
        return _in_reach(magnitude * kind.to_base, _quoted(str(quantity)), kind, key)
    if kind.weighs and tuple(weighed) == kind.si:
        return _in_reach(magnitude * G_N * kind.to_base, _quoted(str(quantity)), kind, key)
    raise _refuse(key, _quoted(str(quantity)), f"is not {kind.name}", kind)


# Name of a base unit -> (place in kg, m, s; factor to SI; further places). The newton is a base unit of ours.
_BASE_UNITS: dict[str, tuple[int | None, float, tuple[tuple[int, int], ...]]] = {
    "kilogram": (0, 1.0, ()),
    "gram": (0, 1e-3, ()),
    "meter": (1, 1.0, ()),
    "metre": (1, 1.0, ()),
    "millimetre": (1, 1e-3, ()),
    "centimeter": (1, 1e-2, ()),
    "second": (2, 1.0, ()),
    "newton": (0, 1.0, ((1, 1), (2, -2))),
    "radian": (0, 1.0, ((0, -1),)),
}


def _refuse(key: str, given: str, fault: str, kind: Kind, *remedies: str, more: str = "") -> QuantityError:
    says = f"{key} " if key.startswith("--") else f"{key} = "
    choices = " or ".join(f'{says}"{remedy}"' for remedy in (remedies or (kind.example,)) if remedy)
    wanted = kind.wanted + (f" ({more})" if more else "")
    return QuantityError(Problem(key=key, given=given, fault=fault, wanted=wanted, remedy=choices))


def _quoted(given: Any) -> str:
    text = given if isinstance(given, str) else repr(given)
    text = "".join(c if c.isprintable() else "?" for c in text)
    return f'"{text if len(text) <= 70 else text[:67] + "..."}"'


def _trim(number: float) -> str:
    return f"{number:g}"
