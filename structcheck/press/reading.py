"""From a press file to its description, or to every problem in it at once, in our own words."""

import difflib
import tomllib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any, TypeVar, get_origin

from pydantic import BaseModel, ValidationError

from structcheck.errors import InputError, Problem
from structcheck.press.missing_together import missing_together
from structcheck.press.not_toml import not_toml
from structcheck.press.own_sections import section_of, stand_in
from structcheck.press.schema import PressFile
from structcheck.press.section_schema import SectionTable
from structcheck.press.wording import (
    as_number,
    example,
    fault_of,
    fitting,
    item_of,
    line,
    needed_lines,
    of_one_table,
    shown,
    table_of,
    wanted_of,
)
from structcheck.shapes.section import Section

LARGEST_FILE = 1_000_000
Model = TypeVar("Model", bound=BaseModel)
Location = tuple[int | str, ...]
Told = tuple[Location, Problem]
"""A problem, and the keys and places that lead to it."""

PARTS = (
    *("beam", "upright", "bolts", "weld", "pin", "platen", "spring", "guide"),
    *("extension_spring", "die_spring", "spring_seat", "return_set", "bench"),
    *("end_plate", "rod", "tube_joint", "butt", "plate_on_flange", "weld_group", "cross_plate", "contact"),
    "base_plate",
)
_LISTS = frozenset(key for key, field in PressFile.model_fields.items() if get_origin(field.annotation) is list)


def read_press(text: str, file: str, *, sections: Sequence[Section] = ()) -> PressFile:
    """The description in a press file's text. Raises InputError with every problem found."""
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise InputError(not_toml(str(error), text, file, _LISTS)) from None
    except RecursionError:
        raise InputError(Problem("", "", "nests too deeply", "a press file in TOML", file=file)) from None
    if not data:
        problem = Problem("", "", "the file is empty", "a press file", 'schema = 1\n\n[jack]\nrating = "8 t"')
        raise InputError(problem.within(file=file))
    return press_of(data, file=file, sections=sections)


def press_of(data: Mapping[str, Any], *, file: str = "", sections: Sequence[Section] = ()) -> PressFile:
    """A description of the shape of a press file. Raises InputError with every problem found."""
    own, faults = _own_sections(data.get("section"), sections)
    also, behind = [*_repeated_names(data), *faults], missing_together(data)
    return describe(PressFile, data, file=file, also=also, behind=behind, sections=(*own, *sections))


def _own_sections(rows: Any, others: Sequence[Section]) -> tuple[list[Section], list[Told]]:
    """The sections a file describes, so that its other tables can name them, and what keeps them from being made."""
    made: list[Section] = []
    faults: list[Told] = []
    for index, row in enumerate(rows if isinstance(rows, list) else ()):
        loc = ("section", index)
        place = _place(loc, {"section": rows})
        try:
            table = describe(SectionTable, row)
        except InputError:
            made += stand_in(row)  # said where the whole file is read
            continue
        if table.name in (section.designation for section in made):
            fault, remedy = "is already the name of a section", f'name = "{table.name[:50]} 2"'
            again = Problem("name", f'"{table.name}"', fault, "a name of its own", remedy, place)
            faults.append(((*loc, "name"), again))
        try:
            made.append(section_of(table, (*made, *others)))
        except InputError as error:
            faults += [((*loc, problem.key), problem.within(part=place)) for problem in error.problems]
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


def describe(
    model: type[Model],
    data: Mapping[str, Any],
    *,
    file: str = "",
    part: str = "",
    spell: Callable[[str], str] = str,
    numbers: bool = False,
    also: Sequence[Told] = (),
    behind: Sequence[Told] = (),
    sections: Sequence[Section] = (),
) -> Model:
    """`data` as a description of this kind; every problem in one InputError, in our own words and in the file's order.

    spell    how a key is written for the user: itself in a file, `--key` on a command line
    numbers  bare numbers are base units (the Python face)
    also     problems found before, told with the rest
    behind   problems that a check would find later, told only beside others
    sections rows of the user's own list
    """
    told = list(also)
    try:
        made = model.model_validate(data, context={"spell": spell, "numbers": numbers, "sections": sections})
    except ValidationError as error:
        for detail in error.errors(include_url=False):
            told += [(tuple(detail["loc"]), problem) for problem in _problems(detail, model, data, spell)]
    if told:
        seen = {loc for loc, _ in told}
        told += [(loc, problem) for loc, problem in behind if loc not in seen]
        told.sort(key=lambda pair: _position(pair[0], data))
        raise InputError([problem.within(file=file, part=part) for _, problem in told])
    return made


def _position(loc: Location, data: Any) -> tuple[int, ...]:
    """Where a location stands in the file; what is missing from a table comes after what stands in it.

    A missing `schema` comes first: it has to stand before every table.
    """
    places = []
    for step in loc:
        if isinstance(data, Mapping):
            keys = list(data)
            places.append(keys.index(step) if step in data else -1 if loc == ("schema",) else len(keys))
            data = data.get(step)
        else:
            places.append(step if isinstance(step, int) else 0)
            data = data[step] if isinstance(data, list) and isinstance(step, int) and step < len(data) else None
    return tuple(places)


def _problems(
    detail: Mapping[str, Any], model: type[BaseModel], data: Mapping[str, Any], spell: Callable[[str], str]
) -> Sequence[Problem]:
    """Our words for one of pydantic's error details."""
    loc = tuple(detail["loc"])
    raised = detail.get("ctx", {}).get("error")
    place = _place(loc, data)
    table = _table_at(model, loc)
    known = {f.alias or name: f for name, f in (table.model_fields if table else {}).items()}
    plain = next((str(step) for step in reversed(loc) if isinstance(step, str)), "")
    field = known.get(plain) or (table.model_fields.get(plain) if table else None)
    if isinstance(raised, InputError):
        told = [fitting(problem.within(part=place), plain, field, spell) for problem in raised.problems]
        return [_whole_list(problem, loc, data) for problem in told]
    if detail["type"] == "extra_forbidden":
        return [_unknown_key(plain, detail["input"], known, spell, place, top=len(loc) == 1)]
    if detail["type"] == "missing":
        return [_missing_key(plain, field, spell, place, top=len(loc) == 1)]
    mixed = of_one_table(plain, detail["input"], known, top=len(loc) == 1) if loc[-1:] == (plain,) else None
    if mixed is not None:
        return [mixed.within(part=place)]
    remedy = as_number(plain, detail["type"], detail["input"], spell) or example(plain, field, spell)
    fault = fault_of(detail["type"], detail.get("ctx", {}))
    return [Problem(spell(plain), shown(detail["input"]), fault, wanted_of(field), remedy, place)]


def _unknown_key(
    key: str, given: Any, known: Mapping[str, Any], spell: Callable[[str], str], place: str, *, top: bool
) -> Problem:
    """A key nobody knows; the nearest is offered, unless it is as short as a symbol, which is near to anything."""
    near = difflib.get_close_matches(key, [k for k in known if len(k) > 2], n=1, cutoff=0.6)
    wanted = f"one of {', '.join(spell(k) for k in known)}"
    remedy = _renamed(near[0], given, known[near[0]], spell, top=top) if near else ""
    return Problem(spell(key), "", "is not a key here", wanted, remedy, place)


def _renamed(key: str, given: Any, field: Any, spell: Callable[[str], str], *, top: bool) -> str:
    """What was written, under the key that was meant."""
    if isinstance(given, str | bool | int | float):
        value = shown(given)
        return f"{spell(key)} {value}" if spell(key).startswith("--") else f"{key} = {value}"
    if not top:
        return spell(key)
    return f"[[{key}]]" if item_of(field.annotation) is not None else f"[{key}]"


def _missing_key(key: str, field: Any, spell: Callable[[str], str], place: str, *, top: bool) -> Problem:
    table = table_of(field.annotation) if field is not None else None
    if top and table is not None and item_of(field.annotation) is None:
        remedy = "\n".join([f"[{key}]", *needed_lines(table)])
    elif key == "name" and place:
        remedy = line(spell(key), place.split(" number ")[0].replace("_", " "))
    else:
        remedy = example(key, field, spell)
    wanted = (field.description if field is not None else "") or wanted_of(field)
    return Problem(spell(key), "", "is missing", wanted, remedy, place)


def _whole_list(problem: Problem, loc: Location, data: Any) -> Problem:
    """A remedy for one text of a list, written as the whole list."""
    key, _, value = problem.remedy.partition(" = ")
    if not (loc and isinstance(loc[-1], int) and value.startswith('"') and " or " not in value):
        return problem
    for step in loc[:-1]:
        data = data[step]
    if not (isinstance(data, list) and all(isinstance(item, str) for item in data)):
        return problem
    items = [value if index == loc[-1] else shown(item) for index, item in enumerate(data)]
    return replace(problem, remedy=line(key, f"[{', '.join(items)}]"))


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
    named = False  # tables under names of the user's, such as [corner."head/left"]
    for step in loc[:-1]:
        if isinstance(step, int) or table is None or named:
            named = False
            continue
        field = next((f for name, f in table.model_fields.items() if step in (name, f.alias)), None)
        named = field is not None and get_origin(field.annotation) is dict
        table = table_of(field.annotation) if field else None
    return table


def _repeated_names(data: Mapping[str, Any]) -> list[Told]:
    """Two parts of one name could not be told apart in the results."""
    seen: dict[str, str] = {}
    problems: list[Told] = []
    for kind in PARTS:
        rows = data.get(kind)
        for index, row in enumerate(rows if isinstance(rows, list) else ()):
            name = row.get("name") if isinstance(row, dict) else None
            if not isinstance(name, str):
                continue
            if name in seen:
                fault = f"is already the name of a {seen[name]}"
                remedy = f'name = "{name[:50]} 2"'
                again = Problem("name", f'"{name[:60]}"', fault, "a name of its own", remedy, kind)
                problems.append(((kind, index, "name"), again))
            seen.setdefault(name, kind)
    return problems
