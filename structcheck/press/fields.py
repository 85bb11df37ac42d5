"""Types of the press file's keys: texts with a unit become numbers in base units, loads become shares or forces."""

import re
from collections.abc import Callable
from dataclasses import fields, replace
from functools import cache
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationInfo, WithJsonSchema

from structcheck.errors import Problem, QuantityError
from structcheck.quantities import (
    ANGLE,
    FORCE,
    LENGTH,
    LINE_LOAD,
    LINE_MASS,
    LONGEST_TEXT,
    MASS,
    MOMENT,
    RATE,
    STRESS,
    Kind,
    read,
)
from structcheck.record import record


class Table(BaseModel):
    """A table of the press file: strict types, unknown keys refused, no nan and no infinity."""

    model_config = ConfigDict(
        strict=True, extra="forbid", frozen=True, allow_inf_nan=False, populate_by_name=True, defer_build=True
    )


class Part(Table):
    """What every part has."""

    name: str = Field(min_length=1, max_length=60, description="its name in the results; no two the same")


def stated(table: Table, part: type) -> dict[str, Any]:
    """What the table states under the names of the part's own fields; the rest keeps the part's defaults."""
    return {name: value for name in _shared(type(table), part) if (value := getattr(table, name)) is not None}


@cache
def _shared(table: type[Table], part: type) -> tuple[str, ...]:
    """The keys of a kind of table that are fields of a kind of part."""
    return tuple(field.name for field in fields(part) if field.name in table.model_fields)


@record
class StatedLoad:
    """A load as it was stated.

    of      "jack": a share of the jack's force; "user": a force of the user's, in N; "spread": N/mm over the span
    value   the share, the force or the line load
    """

    of: Literal["jack", "user", "spread"]
    value: float


def spell(key: str, info: ValidationInfo) -> str:
    """The key as the user knows it: `span` in a file, `--span` on the command line."""
    context = info.context or {}
    how: Callable[[str], str] = context.get("spell", str)
    return how(key)


def _numbers(info: ValidationInfo) -> bool:
    return bool((info.context or {}).get("numbers"))


def _quantity(kind: Kind, least: str) -> Any:
    """An annotated float read from a text of this kind; `least` says which signs are sensible."""

    def validate(given: Any, info: ValidationInfo) -> float:
        key = spell(info.field_name or "", info)
        value = read(given, kind, key, numbers=_numbers(info))
        if (least == "above zero" and value <= 0) or (least == "zero or more" and value < 0):
            raise QuantityError(Problem(key, f'"{given}"', f"must be {least}", kind.wanted, _remedy(key, kind.example)))
        return value

    schema = {"type": "string", "examples": [kind.example], "description": f"{kind.name} in {kind.units}"}
    return Annotated[float, BeforeValidator(validate), WithJsonSchema(schema)]


def _remedy(key: str, example: str) -> str:
    return f'{key} "{example}"' if key.startswith("--") else f'{key} = "{example}"'


Length = _quantity(LENGTH, "above zero")
Position = _quantity(LENGTH, "zero or more")
AnyLength = _quantity(LENGTH, "any")
Force = _quantity(FORCE, "above zero")
AnyForce = _quantity(FORCE, "zero or more")
Moment = _quantity(MOMENT, "any")
Mass = _quantity(MASS, "zero or more")
Rate = _quantity(RATE, "above zero")
Stress = _quantity(STRESS, "above zero")
AnyStress = _quantity(STRESS, "zero or more")
Angle = _quantity(ANGLE, "zero or more")
LineMass = _quantity(LINE_MASS, "zero or more")


def _read_load(given: Any, info: ValidationInfo) -> StatedLoad:
    key = spell(info.field_name or "", info)
    if isinstance(given, int | float) and not isinstance(given, bool) and not _numbers(info):
        if not 0 <= given <= 1000:
            wanted = "a share of the jack's force from 0 up, or a force with its unit"
            raise QuantityError(Problem(key, repr(given), "is not a share", wanted, f"{key} = 1.0"))
        return StatedLoad("jack", float(given))
    try:
        force = read(given, FORCE, key, numbers=_numbers(info))
    except QuantityError as refused:
        try:
            return StatedLoad("spread", _not_negative(read(given, LINE_LOAD, key), given, key))
        except QuantityError:
            raise refused from None
    return StatedLoad("user", _not_negative(force, given, key))


def _not_negative(value: float, given: Any, key: str) -> float:
    if value < 0:
        wanted = "a load with its unit; direction is part of the model, not of the sign"
        raise QuantityError(Problem(key, f'"{given}"', "is negative", wanted, _remedy(key, "8 t")))
    return value


Load = Annotated[
    StatedLoad,
    BeforeValidator(_read_load),
    WithJsonSchema(
        {
            "oneOf": [{"type": "number", "minimum": 0}, {"type": "string", "examples": ["8 t", "40 kN"]}],
            "examples": ["8 t", "40 kN"],
            "description": "a plain number is a share of the jack's force; a text is a force of the user's",
        }
    ),
]


@record
class StatedLimit:
    """A limit of deflection: a length in mm, or the span divided by a number."""

    length: float | None = None
    span_over: float | None = None

    def of(self, span: float) -> float:
        """The limit in mm for a span in mm."""
        return self.length if self.length is not None else span / (self.span_over or 1.0)


def _read_limit(given: Any, info: ValidationInfo) -> StatedLimit:
    key = spell(info.field_name or "", info)
    text = "".join(given.split()) if isinstance(given, str) else ""
    if (
        text[:2].upper() == "L/"
        and text[2:].isascii()
        and text[2:].isdigit()
        and 0 < len(text[2:]) < 7
        and int(text[2:])
    ):
        return StatedLimit(span_over=float(text[2:]))
    try:
        value = read(given, LENGTH, key, numbers=_numbers(info))
    except QuantityError as refused:
        problem = refused.problems[0]
        raise QuantityError(
            Problem(key, problem.given, problem.fault, "L/500, or a length in mm", _remedy(key, "L/500"))
        ) from None
    if value <= 0:
        raise QuantityError(
            Problem(key, f'"{given}"', "must be above zero", "L/500, or a length", _remedy(key, "L/500"))
        )
    return StatedLimit(length=value)


Limit = Annotated[
    StatedLimit,
    BeforeValidator(_read_limit),
    WithJsonSchema({"type": "string", "examples": ["L/500", "1.5 mm"]}),
]


def _read_relief(given: Any, info: ValidationInfo) -> tuple[str, float]:
    key = spell(info.field_name or "", info)
    try:
        return "force", read(given, FORCE, key, numbers=_numbers(info))
    except QuantityError as refused:
        try:
            return "pressure", read(given, STRESS, key)
        except QuantityError:
            raise QuantityError(_no_relief(given, key, refused.problems[0])) from None


def _no_relief(given: Any, key: str, problem: Problem) -> Problem:
    """What is no setting of a valve; a setting nobody knows is left out."""
    wanted = "a force or a pressure; left out, 1.25 R is taken"
    word = isinstance(given, str) and not any(character.isdigit() for character in given)
    remedy = f"leave {key} out: 1.25 R is then taken" if word else problem.remedy.replace('"8 t"', '"11 t"')
    return replace(problem, wanted=wanted, remedy=remedy)


def _sizes(example: str, *names: str) -> BeforeValidator:
    """Take "120 x 120 x 20 mm" for a table of lengths in this order; a table stays what it is."""

    def validate(given: Any, info: ValidationInfo) -> Any:
        if not isinstance(given, str):
            return given
        key = spell(info.field_name or "", info)
        pieces = re.split(r"\s*[x×*]\s*", given.strip()) if len(given) <= LONGEST_TEXT else []
        unit = pieces[-1].lstrip("0123456789./ ") if pieces else ""
        sizes = [piece if piece.endswith(unit) else f"{piece} {unit}" for piece in pieces]
        fault = _fault_of_sizes(sizes, unit, len(names))
        if fault:
            remedy = f"{given.strip()} mm" if fault == "has no unit" else example
            wanted = f"{' x '.join(names)} with a unit"
            raise QuantityError(Problem(key, f'"{given[:60]}"', fault, wanted, _remedy(key, remedy)))
        return dict(zip(names, sizes, strict=True))

    return BeforeValidator(validate)


def _fault_of_sizes(sizes: list[str], unit: str, count: int) -> str:
    """What is wrong with sizes written in one text, told once for all of them."""
    if len(sizes) != count:
        return "is not a size"
    try:
        values = [read(size if unit else f"{size} mm", LENGTH, "") for size in sizes]
    except QuantityError:
        return "is not a size"
    if not unit:
        return "has no unit"
    return "" if min(values) > 0 else "must be above zero"


PLATE_SIZE = _sizes("120 x 120 x 20 mm", "along", "across", "thickness")
FLAT_SIZE = _sizes("35 x 8 mm", "width", "thickness")


Relief = Annotated[
    tuple[str, float],
    BeforeValidator(_read_relief),
    WithJsonSchema({"type": "string", "examples": ["11 t", "700 bar"]}),
]
