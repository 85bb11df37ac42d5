"""What a key of a press file wants, in words, and a line to write instead that is valid TOML."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Annotated, Any, get_args, get_origin

from pydantic import BaseModel

from structcheck.errors import Problem
from structcheck.quantities import LENGTH

Spell = Callable[[str], str]

LENGTHS = {
    **dict.fromkeys(("plate", "thickness", "ply", "behind", "wall", "sheet", "outer", "backing", "tf", "t"), "10 mm"),
    **dict.fromkeys(("thickest", "seat_thickness", "tapped", "wall_t", "tf_bottom", "tw", "packing"), "10 mm"),
    **dict.fromkeys(("width", "along", "across", "b", "b_bottom", "h", "base", "below", "spacing"), "120 mm"),
    **dict.fromkeys(("pad", "pad_across", "bearing", "beyond", "pitch", "lever", "apart"), "60 mm"),
    **dict.fromkeys(("hole", "nut"), "18 mm"),
    **dict.fromkeys(
        ("edge", "end", "far_end", "far_edge", "inner_edge", "inner_end", "outer_edge", "outer_end"), "35 mm"
    ),
    **dict.fromkeys(("gap", "play", "slot", "inner_doubler", "outer_doubler", "overhang"), "2 mm"),
    **dict.fromkeys(("offset", "offset_across", "eccentricity", "hole_offset", "pin_offset", "rolls"), "10 mm"),
    **dict.fromkeys(("flatness", "corrosion", "level"), "0.5 mm"),
    **{"throat": "4 mm", "leg": "6 mm", "leg_2": "6 mm", "gauge": "80 mm", "diameter": "25 mm", "inner": "20 mm"},
    **{"wire": "6 mm", "wire_max": "6.1 mm", "mean": "42 mm", "outside": "48 mm", "washer": "30 mm"},
    **{"bore": "50 mm", "ram": "50 mm", "stroke": "150 mm", "saddle": "40 mm", "grip": "40 mm"},
}
"""Plausible lengths for keys that state no example of their own; all others are as long as a beam."""

NUMBERS = {"active": 36, "turns": 38, "mu": 0.2, "relaxation": 0.05, "warm": 80}
"""Plausible numbers for keys that need not be stated."""

_FAULTS = {
    "string_type": "is not a text",
    "int_type": "is not a whole number",
    "int_from_float": "is not a whole number",
    "float_type": "is not a number",
    "bool_type": "is not true or false",
    "list_type": "is not a list",
    "finite_number": "is not a finite number",
    "string_too_short": "is empty",
    "string_too_long": "is too long",
    "too_short": "is empty",
    "too_long": "is too long",
    "literal_error": "is not one of the choices",
    "model_type": "is not a table",
    "model_attributes_type": "is not a table",
    "dict_type": "is not a table",
}


def table_of(annotation: Any) -> type[BaseModel] | None:
    """The model inside `Model`, `Model | None` or `list[Model]`."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for found in map(table_of, get_args(annotation)) if found is not None), None)


def item_of(annotation: Any) -> Any:
    """What a list holds, None where the annotation is no list."""
    if get_origin(annotation) is list:
        return get_args(annotation)[0]
    if get_origin(annotation) in (dict, tuple):
        return None
    return next((found for found in map(item_of, get_args(annotation)) if found is not None), None)


def fault_of(kind: str, context: Mapping[str, Any]) -> str:
    """What is wrong, in our words for one of pydantic's kinds of error."""
    if kind in _FAULTS:
        return _FAULTS[kind]
    bounds = {"greater_than": ("gt", "above"), "greater_than_equal": ("ge", "at least")}
    bounds |= {"less_than": ("lt", "below"), "less_than_equal": ("le", "at most")}
    if kind in bounds:
        name, words = bounds[kind]
        return f"must be {words} {context.get(name):g}"
    return "cannot be used"


def wanted_of(field: Any) -> str:
    """What a field wants, from its type and description."""
    if field is None:
        return ""
    choices = _choices(field.annotation)
    if choices:
        return " or ".join(str(choice) if isinstance(choice, int) else f'"{choice}"' for choice in choices)
    kind = quantity_words(field) or _plain_kind(field.annotation) or "a table"
    item = item_of(field.annotation)
    if item is not None:
        kind = "a list of tables" if table_of(item) else f"a list, each {kind}" if quantity_words(field) else "a list"
    return f"{kind} ({field.description})" if field.description else kind


def _plain_kind(annotation: Any) -> str:
    kinds = {int: "a whole number", float: "a plain number", bool: "true or false", str: "a text"}
    return next((kinds[k] for k in (annotation, *get_args(annotation)) if k in kinds), "")


def _choices(annotation: Any) -> tuple[Any, ...]:
    if get_origin(annotation) is dict:
        return ()
    if get_origin(annotation) is not None and "Literal" in str(get_origin(annotation)):
        return get_args(annotation)
    return next((c for c in map(_choices, get_args(annotation)) if c), ())


def quantity_words(field: Any) -> str:
    """The words of a quantity field ("a length in mm ..."), empty where the field is none."""
    return next((str(schema.get("description", "")) for schema in _schemas(field)), "")


def _schemas(field: Any) -> list[dict[str, Any]]:
    """What the types of a field say of themselves, those within a list or a choice too."""
    found = (getattr(item, "json_schema", None) for item in (*field.metadata, *_metadata(field.annotation)))
    return [schema for schema in found if isinstance(schema, dict)]


def _metadata(annotation: Any) -> tuple[Any, ...]:
    own = annotation.__metadata__ if get_origin(annotation) is Annotated else ()
    inner = get_args(annotation)[:1] if own else get_args(annotation)
    return (*own, *(item for argument in inner for item in _metadata(argument)))


def _examples_of_type(field: Any) -> tuple[Any, ...]:
    return tuple(next((schema["examples"] for schema in _schemas(field) if schema.get("examples")), ()))


def example(key: str, field: Any, spell: Spell) -> str:
    """A line to write instead, empty where there is nothing sensible to offer."""
    shown = None if field is None else _value(key, field)
    return "" if shown is None else line(spell(key), shown)


def line(says: str, value: Any) -> str:
    """A key with its value, as TOML or as an option."""
    text = str(value).lower() if not isinstance(value, str) else value if value[:1] in "[{" else f'"{value}"'
    return f"{says} {text}" if says.startswith("--") else f"{says} = {text}"


def _value(key: str, field: Any) -> Any:
    """An example of a field: its own, else a plausible one of its type. Lists and tables as TOML writes them."""
    typical = _examples_of_type(field)
    if "unknown" in typical:
        return "unknown"  # no figure is offered that somebody would have to invent
    if field.examples:
        return _first(field)
    item = item_of(field.annotation)
    choices = _choices(field.annotation)
    if item is not None:
        table = table_of(item)
        return f"[{_inline(table)}]" if table else f'["{_of_type(key, typical)}"]' if typical else None
    if typical or choices:
        return _of_type(key, typical or choices)
    return _plain(key, field)


def _first(field: Any) -> Any:
    """The first of its examples; several texts for a list are one value of it."""
    first = field.examples[0]
    return first.replace(", ...", "") if isinstance(first, str) else first


def _of_type(key: str, typical: tuple[Any, ...]) -> Any:
    return LENGTHS.get(key, typical[0]) if typical[0] == LENGTH.example else typical[0]


def _plain(key: str, field: Any) -> Any:
    if field.annotation is str and field.is_required():
        return "head"
    if isinstance(field.default, str | bool | int | float):
        return field.default
    return NUMBERS.get(key, 1 if int in (field.annotation, *get_args(field.annotation)) else None)


def _inline(table: type[BaseModel]) -> str:
    return f"{{ {', '.join(needed_lines(table))} }}"


def needed_lines(table: type[BaseModel]) -> list[str]:
    """A line for every key that a table cannot do without."""
    needed = {f.alias or name: f for name, f in table.model_fields.items() if f.is_required()}
    return [text for key, field in needed.items() if (text := example(key, field, str))]


def as_number(key: str, kind: str, given: Any, spell: Spell) -> str:
    """The line without its quotes, where a number or a yes or no was written as a text."""
    text = given.strip() if isinstance(given, str) else ""
    whole = kind == "int_type" and text.isascii() and text.isdecimal()
    if whole or (kind == "float_type" and _is_number(text)) or (kind == "bool_type" and text in ("true", "false")):
        return line(spell(key), f"{text}").replace(f'"{text}"', text)
    return ""


def _is_number(text: str) -> bool:
    return text.isascii() and text.replace(".", "", 1).isdecimal() and text[:1].isdecimal() and text[-1:].isdecimal()


def fitting(problem: Problem, key: str, field: Any, spell: Spell) -> Problem:
    """The problem with this key's own example, where a reader offers that of every quantity of its kind."""
    typical = () if field is None else _examples_of_type(field)
    if problem.fault == "has no unit" or not any(problem.remedy.endswith(f'"{text}"') for text in typical):
        return replace(problem, remedy=problem.remedy.replace(", ...]", "]"))
    return replace(problem, remedy=example(key, field, spell) or problem.remedy)


def of_one_table(key: str, given: Any, known: Mapping[str, Any], *, top: bool) -> Problem | None:
    """`[platen]` where `[[platen]]` is meant, or the other way round; None where neither is the case."""
    field = known.get(key)
    table = table_of(field.annotation) if field is not None else None
    if table is None:
        return None
    several = item_of(field.annotation) is not None
    if several and isinstance(given, dict) and not top:
        return Problem(key, "", "is one table", "a list of tables", line(key, f"[{_inline(table)}]"))
    if several and top and not isinstance(given, list):
        found, fault = (f"[{key}]", "is one table") if isinstance(given, dict) else (shown(given), "is no table")
        write = f"[[{key}]], or [{key}s]" if f"{key}s" in known else f"[[{key}]]"
        return Problem(key, found, fault, f"a list of tables: write {write}", write)
    if top and not several and isinstance(given, list) and get_origin(field.annotation) is not dict:
        return Problem(key, f"[[{key}]]", "is a list of tables", f"one table: write [{key}]", f"[{key}]")
    return None


def shown(given: Any) -> str:
    """What was given, short and printable."""
    if isinstance(given, bool):
        return str(given).lower()
    if isinstance(given, str):
        return f'"{"".join(c if c.isprintable() else "?" for c in given)[:60]}"'
    if isinstance(given, int | float):
        return repr(given)[:40]
    return {dict: "a table", list: "a list"}.get(type(given), "this value")
