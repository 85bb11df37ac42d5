"""Names in a press file that must stand in one of the lists: sections, steels, bolts, wire classes."""

from collections.abc import Callable
from dataclasses import replace
from typing import Annotated, Any

from pydantic import AfterValidator, BeforeValidator, ValidationInfo, WithJsonSchema

from structcheck.errors import InputError, Problem, QuantityError, UnknownName
from structcheck.materials.bolts import find_class, find_size
from structcheck.materials.steels import find_steel
from structcheck.materials.wires import find_wire
from structcheck.press.fields import spell
from structcheck.quantities import LENGTH, read
from structcheck.shapes.library import look_up


def _known(find: Callable[..., Any]) -> Any:
    """A text kept as written, once `find` knows it."""

    def validate(text: str, info: ValidationInfo) -> str:
        find(text, key=spell(info.field_name or "", info))
        return text

    return Annotated[str, AfterValidator(validate)]


SteelName = _known(find_steel)
SizeName = _known(find_size)
WireName = _known(find_wire)


def _class(text: str, info: ValidationInfo) -> str:
    find_class(text, key=spell("class", info))
    return text


ClassName = Annotated[str, AfterValidator(_class)]


def _section(text: str, info: ValidationInfo) -> str:
    key = spell(info.field_name or "", info)
    says = f"{key} " if key.startswith("--") else f"{key} = "
    try:
        look_up(text, (info.context or {}).get("sections", ()))
    except UnknownName as unknown:
        raise UnknownName([replace(p, key=key, remedy=says + p.remedy) for p in unknown.problems]) from None
    return text


SectionName = Annotated[str, AfterValidator(_section)]


def _round(text: str, info: ValidationInfo) -> str:
    """A diameter alone is that of a round bar; what is no length is left to be a section."""
    try:
        return _section(f"RD {read(text, LENGTH, 'post'):g}", info)
    except QuantityError:
        return _section(text, info)


PostName = Annotated[str, AfterValidator(_round)]


PLACES = ("head/left", "head/right", "bed/left", "bed/right")


def _places(given: Any, info: ValidationInfo) -> tuple[str, ...]:
    """One place or several, or "corners" for all four."""
    key = spell(info.field_name or "", info)
    names = [given] if isinstance(given, str) else given
    if names == ["corners"]:
        return PLACES
    unknown = [n for n in names if not _is_place(n)] if isinstance(names, list) and names else ["this value"]
    if unknown:
        shown = f'"{unknown[0][:40]}"' if isinstance(unknown[0], str) else repr(unknown[0])[:40]
        others = 'the end of a member ("strut/start"), "feet", "stops/left", or "corners"'
        wanted = f"one or several of {', '.join(PLACES)}, {others}"
        raise InputError(Problem(key, shown, "is no place of a frame", wanted, f'{key} = ["head/left", "head/right"]'))
    return tuple(dict.fromkeys(names))


def _is_place(name: Any) -> bool:
    """A corner, the end of a member, or the feet; whether the frame has it is known once it is built."""
    return isinstance(name, str) and len(name) <= 80 and (name.count("/") == 1 or name == "feet")


PlaceNames = Annotated[
    tuple[str, ...],
    BeforeValidator(_places),
    WithJsonSchema({"oneOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]}),
]
