"""From a press file to its description, or to every problem in it at once, in our own words."""

import difflib
import re
import tomllib
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from structcheck.errors import InputError, Problem
from structcheck.press.own_sections import section_of, stand_in
from structcheck.press.schema import PressFile
from structcheck.press.section_schema import SectionTable
from structcheck.shapes.section import Section

LARGEST_FILE = 1_000_000
Model = TypeVar("Model", bound=BaseModel)

PARTS = (
    *("beam", "upright", "bolts", "weld", "pin", "platen", "spring", "guide"),
    *("extension_spring", "die_spring", "spring_seat", "return_set", "bench"),
    *("end_plate", "rod", "tube_joint", "butt", "plate_on_flange", "weld_group", "cross_plate", "contact"),
)


def read_press(text: str, file: str, *, sections: Sequence[Section] = ()) -> PressFile:
    """The description in a press file's text. Raises InputError with every problem found."""
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise InputError(_syntax(str(error), text, file)) from None
    except RecursionError:
        raise InputError(Problem("", "", "nests too deeply", "a press file in TOML", file=file)) from None
    if not data:
        problem = Problem(
            "", "", "the file is empty", "a press file", 'start with schema = 1 and [jack] rating = "8 t"'
        )
        raise InputError(problem.within(file=file))
    return press_of(data, file=file, sections=sections)


def press_of(data: Mapping[str, Any], *, file: str = "", sections: Sequence[Section] = ()) -> PressFile:
    """A description of the shape of a press file. Raises InputError with every problem found."""
    own, faults = _own_sections(data.get("section"), sections)
    return describe(PressFile, data, file=file, also=[*_repeated_names(data), *faults], sections=(*own, *sections))


def _own_sections(rows: Any, others: Sequence[Section]) -> tuple[list[Section], list[Problem]]:
    """The sections a file describes, so that its other tables can name them, and what keeps them from being made."""
    made: list[Section] = []
    faults: list[Problem] = []
    for number, row in enumerate(rows if isinstance(rows, list) else (), 1):
        place = _place(("section", number - 1), {"section": rows})
        try:
            table = describe(SectionTable, row)
        except InputError:
            made += stand_in(row)  # said where the whole file is read
            continue
        if table.name in (section.designation for section in made):
            fault, remedy = "is already the name of a section", f'name = "{table.name[:50]} 2"'
            faults.append(Problem("name", f'"{table.name}"', fault, "a name of its own", remedy, place))
        try:
            made.append(section_of(table, (*made, *others)))
        except InputError as error:
            faults += [problem.within(part=place) for problem in error.problems]
            made += stand_in(row)
    return made, faults


def read_file(path: str) -> tuple[str, str]:
    """(text, name) of a press file; "-" reads standard input. Raises InputError."""
    import sys

    if path == "-":
        raw, name = sys.stdin.buffer.read(LARGEST_FILE + 1), "standard input"
    else:
        name = path
        raw = _bytes_of(Path(path), name)
    if len(raw) > LARGEST_FILE:
        raise InputError(Problem("", "", "is larger than 1 MB", "a press file of a few kB", file=name))
    try:
        return raw.decode("utf-8-sig"), name
    except UnicodeDecodeError:
        raise InputError(Problem("", "", "is not text in UTF-8", "a press file in TOML, UTF-8", file=name)) from None


def _bytes_of(path: Path, name: str) -> bytes:
    try:
        with path.open("rb") as handle:
            return handle.read(LARGEST_FILE + 1)
    except FileNotFoundError:
        fault = "there is no such file"
    except IsADirectoryError:
        fault = "is a folder"
    except PermissionError:
        fault = "may not be read"
    except (OSError, ValueError):
        fault = "cannot be read"
    raise InputError(Problem("", "", fault, "the path of a press file", "structcheck check press.toml", file=name))


def _syntax(message: str, text: str, file: str) -> Problem:
    place = re.search(r"\(at (line \d+), column \d+\)", message)
    where = place[1] if place else "the end of the file"
    fault = message.split(" (at ")[0][:120]
    line = ""
    if place:
        number = int(place[1].split()[1])
        lines = text.splitlines()
        line = lines[number - 1].strip()[:60] if number <= len(lines) else ""
    shown = "".join(c if c.isprintable() else "?" for c in line)
    return Problem(
        where, f'"{shown}"' if shown else "", f"is not TOML: {fault}", 'lines like span = "900 mm"', file=file
    )


def describe(
    model: type[Model],
    data: Mapping[str, Any],
    *,
    file: str = "",
    part: str = "",
    spell: Callable[[str], str] = str,
    numbers: bool = False,
    also: Sequence[Problem] = (),
    sections: Sequence[Section] = (),
) -> Model:
    """`data` as a description of this kind; every problem in one InputError, in our own words.

    spell    how a key is written for the user: itself in a file, `--key` on a command line
    numbers  bare numbers are base units (the Python face)
    also     problems found before, reported with the rest
    sections rows of the user's own list
    """
    try:
        made = model.model_validate(data, context={"spell": spell, "numbers": numbers, "sections": sections})
    except ValidationError as error:
        found = [p for detail in error.errors(include_url=False) for p in _problems(detail, model, data, spell)]
        raise InputError([p.within(file=file, part=part) for p in (*also, *found)]) from None
    if also:
        raise InputError([p.within(file=file, part=part) for p in also])
    return made


def _problems(
    detail: Mapping[str, Any], model: type[BaseModel], data: Mapping[str, Any], spell: Callable[[str], str]
) -> Sequence[Problem]:
    """Our words for one of pydantic's error details."""
    loc = tuple(detail["loc"])
    raised = detail.get("ctx", {}).get("error")
    place = _place(loc, data)
    if isinstance(raised, InputError):
        return [problem.within(part=place) for problem in raised.problems]
    key = spell(next((str(step) for step in reversed(loc) if isinstance(step, str)), ""))
    table = _table_at(model, loc)
    known = {f.alias or name: f for name, f in (table.model_fields if table else {}).items()}
    plain = next((str(step) for step in reversed(loc) if isinstance(step, str)), "")
    given = _shown(detail["input"])
    kind = detail["type"]
    if kind == "extra_forbidden":
        near = difflib.get_close_matches(plain, known, n=1, cutoff=0.5)
        wanted = f"one of {', '.join(spell(k) for k in known)}"
        return [Problem(key, "", "is not a key here", wanted, spell(near[0]) if near else "", place)]
    example = _example(plain, known.get(plain), spell)
    if kind == "missing":
        what = (known[plain].description or "") if plain in known else ""
        return [Problem(key, "", "is missing", what or _wanted(known.get(plain)), example, place)]
    return [Problem(key, given, _fault(kind, detail.get("ctx", {})), _wanted(known.get(plain)), example, place)]


def _place(loc: tuple[Any, ...], data: Mapping[str, Any]) -> str:
    """The part a location lies in, as the user knows it: `beam "head"`."""
    if not loc or not isinstance(loc[0], str) or len(loc) < 2:
        return ""
    rows = data.get(loc[0])
    if isinstance(loc[1], int) and isinstance(rows, list) and loc[1] < len(rows):
        row = rows[loc[1]]
        name = row.get("name") if isinstance(row, dict) else None
        return f'{loc[0]} "{name}"' if isinstance(name, str) and name else f"{loc[0]} number {loc[1] + 1}"
    return loc[0]


def _table_at(model: type[BaseModel], loc: tuple[Any, ...]) -> type[BaseModel] | None:
    """The model of the table that holds the last key of a location."""
    table: type[BaseModel] | None = model
    for step in loc[:-1]:
        if isinstance(step, int) or table is None:
            continue
        field = next((f for name, f in table.model_fields.items() if step in (name, f.alias)), None)
        table = table_of(field.annotation) if field else None
    return table


def table_of(annotation: Any) -> type[BaseModel] | None:
    """The model inside `Model`, `Model | None` or `list[Model]`."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for argument in getattr(annotation, "__args__", ()):
        found = table_of(argument)
        if found is not None:
            return found
    return None


_FAULTS = {
    "string_type": "is not a text",
    "int_type": "is not a whole number",
    "int_from_float": "is not a whole number",
    "float_type": "is not a number",
    "bool_type": "is not true or false",
    "list_type": "is not a list of tables",
    "finite_number": "is not a finite number",
    "string_too_short": "is empty",
    "string_too_long": "is too long",
    "literal_error": "is not one of the choices",
    "model_type": "is not a table",
    "model_attributes_type": "is not a table",
    "dict_type": "is not a table",
}


def _fault(kind: str, context: Mapping[str, Any]) -> str:
    if kind in _FAULTS:
        return _FAULTS[kind]
    bounds = {"greater_than": ("gt", "above"), "greater_than_equal": ("ge", "at least")}
    bounds |= {"less_than": ("lt", "below"), "less_than_equal": ("le", "at most")}
    if kind in bounds:
        name, words = bounds[kind]
        return f"must be {words} {context.get(name):g}"
    return "cannot be used"


def _wanted(field: Any) -> str:
    """What a field wants, from its type and description."""
    if field is None:
        return ""
    choices = _choices(field.annotation)
    if choices:
        return " or ".join(str(choice) if isinstance(choice, int) else f'"{choice}"' for choice in choices)
    kinds = {int: "a whole number", float: "a plain number", bool: "true or false", str: "a text"}
    names = [kinds[k] for k in (field.annotation, *getattr(field.annotation, "__args__", ())) if k in kinds]
    kind = names[0] if names and not quantity_words(field) else quantity_words(field) or "a table"
    return f"{kind} ({field.description})" if field.description else kind


def _choices(annotation: Any) -> tuple[Any, ...]:
    if getattr(annotation, "__origin__", None) is not None and "Literal" in str(annotation.__origin__):
        return tuple(annotation.__args__)
    return next((c for c in map(_choices, getattr(annotation, "__args__", ())) if c), ())


def quantity_words(field: Any) -> str:
    """The words of a quantity field ("a length in mm ..."), empty where the field is none."""
    for item in _metadata(field):
        schema = getattr(item, "json_schema", None)
        if isinstance(schema, dict):
            return str(schema.get("description", ""))
    return ""


def _metadata(field: Any) -> tuple[Any, ...]:
    nested = tuple(
        item for argument in getattr(field.annotation, "__args__", ()) for item in getattr(argument, "__metadata__", ())
    )
    return (*field.metadata, *nested)


def _example(key: str, field: Any, spell: Callable[[str], str]) -> str:
    """A line to write instead."""
    if field is None:
        return ""
    examples = field.examples or next(
        (s["examples"] for s in (getattr(i, "json_schema", None) for i in _metadata(field)) if s and s.get("examples")),
        (),
    )
    choices = _choices(field.annotation)
    shown = examples[0] if examples else choices[0] if choices else _default_example(field)
    if shown is None:
        return ""
    says = spell(key)
    text = f'"{shown}"' if isinstance(shown, str) else str(shown).lower()
    return f"{says} {text}" if says.startswith("--") else f"{says} = {text}"


def _default_example(field: Any) -> Any:
    if field.annotation is str:
        return "head"
    return field.default if isinstance(field.default, bool | int | float) else 1 if field.annotation is int else None


def _shown(given: Any) -> str:
    if isinstance(given, bool):
        return str(given).lower()
    if isinstance(given, str):
        return f'"{"".join(c if c.isprintable() else "?" for c in given)[:60]}"'
    if isinstance(given, int | float):
        return repr(given)[:40]
    return {dict: "a table", list: "a list"}.get(type(given), "this value")


def _repeated_names(data: Mapping[str, Any]) -> list[Problem]:
    """Two parts of one name could not be told apart in the results."""
    seen: dict[str, str] = {}
    problems = []
    for kind in PARTS:
        rows = data.get(kind)
        for row in rows if isinstance(rows, list) else ():
            name = row.get("name") if isinstance(row, dict) else None
            if not isinstance(name, str):
                continue
            if name in seen:
                fault = f"is already the name of a {seen[name]}"
                problems.append(
                    Problem("name", f'"{name[:60]}"', fault, "a name of its own", f'name = "{name[:50]} 2"', kind)
                )
            seen.setdefault(name, kind)
    return problems
