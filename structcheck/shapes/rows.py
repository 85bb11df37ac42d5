"""Rows of sizes: reading the library's files and a user's own, with every bad cell named."""

import csv
import math
import re
from collections.abc import Iterable
from functools import cache
from pathlib import Path

import numpy as np

from structcheck.errors import InputError, Problem
from structcheck.shapes.families import FAMILIES
from structcheck.shapes.section import Section

INCH = 25.4
PLAIN = ("designation", "family", "route", "standard", "provenance", "note")
LARGEST = 5000.0  # mm; nothing in a workshop is larger, so beyond it a unit was mistaken


def data_folder() -> Path:
    """The folder of the size lists: in the package, or beside it in a checkout."""
    package = Path(__file__).resolve().parent.parent
    beside = package.parent
    if not (package / "sections").is_dir() and (beside / "pyproject.toml").is_file():
        return beside / "sections"
    return package / "sections"


@cache
def family_rows(name: str) -> tuple[Section, ...]:
    """Every section of one family of the library, in the order of its files."""
    folder = data_folder()
    return tuple(row for file in FAMILIES[name].files for row in read_csv(folder / file))


def library() -> tuple[Section, ...]:
    """Every section of the library."""
    return tuple(row for name in FAMILIES for row in family_rows(name))


def read_csv(path: str | Path) -> tuple[Section, ...]:
    """Sections of a file in the library's columns; see sections/README.md.

    A dimension stands in its column in mm, or in the column with `_in` added in inches.
    Raises InputError with every problem of the file.
    """
    path = Path(path)
    try:
        with open(path, newline="", encoding="utf-8-sig") as file:
            lines = csv.DictReader(file, strict=True)
            heads = [head.strip() for head in lines.fieldnames or []]
            lines.fieldnames = heads
            numbered = [(lines.line_num, line) for line in lines]
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        raise InputError(Problem("", "", f"cannot be read: {error}", "a CSV file, UTF-8", file=str(path))) from None
    problems = list(_head_problems(heads))
    found: list[Section] = []
    own = path.parent != data_folder()  # ours are tested as a whole, and a look-up has no time for it
    for number, line in numbered if not problems else ():
        if any(line.values()):
            row = _row(line, problems, f"row {number}")
            if row and own and not _sound(row):
                wanted = "dimensions of a real section, the greater side as h, so that it is strongest about y"
                fault = Problem("dimensions", f'"{row.designation}"', "makes no sound section", wanted)
                problems.append(fault.within(part=f"row {number}"))
            found += [row] if row else []
    if problems:
        raise InputError(problem.within(file=str(path)) for problem in problems)
    return tuple(found)


def _head_problems(heads: list[str]) -> Iterable[Problem]:
    known = {name for family in FAMILIES.values() for name in (*family.required, *family.optional)}
    wanted = f"{', '.join(PLAIN)} and dimensions {', '.join(sorted(known))}, each in mm or with _in in inches"
    for head in ("designation", "family", "standard", "provenance"):
        if head not in heads:
            yield Problem(head, "", "column is missing", wanted, part="first row")
    for head in heads:
        if head not in PLAIN and head.removesuffix("_in") not in known:
            yield Problem(head, f'"{head}"', "is no known column", wanted, part="first row")
    for head in {head for head in heads if heads.count(head) > 1}:
        yield Problem(head, f'"{head}"', "stands there twice", "each column once", part="first row")


def _row(line: dict, problems: list[Problem], place: str) -> Section | None:
    before = len(problems)

    def fault(key: str, given, what: str, wanted: str) -> None:
        problems.append(Problem(key, f'"{given}"' if given else "", what, wanted, part=place))

    if None in line or None in line.values():
        fault("", "", "has more or fewer cells than the first row", "one cell for each column")
        return None
    cells = {key: value.strip() for key, value in line.items()}
    if not cells["designation"]:
        fault("designation", "", "is empty", 'a name such as "FL 80x10"')
    family = FAMILIES.get(cells["family"].upper())
    if family is None:
        fault("family", cells["family"], "is no known family", ", ".join(FAMILIES))
        return None
    route = cells.get("route", "") or family.routes[0]
    if route not in family.routes:
        fault("route", route, f"is no route of {family.name}", " or ".join(family.routes))
    dimensions = _dimensions(cells, family, fault)
    if len(problems) == before:
        dimensions = {name: float(value) for name, value in family.complete(dimensions, route).items()}
        impossible = _impossible(dimensions)
        if impossible:
            fault("dimensions", "", *impossible)
    if len(problems) > before:
        return None
    provenance, standard = cells["provenance"] or "own", cells["standard"]
    return Section(
        cells["designation"], family.name, standard, route, dimensions, provenance, note=cells.get("note", "")
    )


def _sound(section: Section) -> bool:
    """Whether the numbers that come out are those of a section, for rows nobody has tested."""
    with np.errstate(all="ignore"):
        values = section.properties().values()
        parts = (fibre.tau for axis in "yz" for fibre in section.fibres(axis))
        return (
            all(math.isfinite(value) and value >= 0 for value in (*values, *parts))
            and section.Iy >= section.Iz * (1 - 1e-9)
            and min(section.A, section.It, section.Avz, section.Asz) > 0
            and all(element.c > 0 for element in section.elements)
        )


def _dimensions(cells: dict, family, fault) -> dict[str, float]:
    found = {}
    for name in (*family.required, *family.optional):
        for key, scale in ((name, 1.0), (f"{name}_in", INCH)):
            text = cells.get(key, "")
            if text:
                value = _number(text)
                if value is None or not (0 <= value * scale <= LARGEST):
                    fault(key, text, "is no usable dimension", f"a number from 0 to {LARGEST:g} mm, point for decimals")
                found[name] = (value or 0.0) * (1.0 if name == "slope" else scale)
    # A round tube of the HSS family has D in place of h and b.
    needed = [name for name in family.required if not ("D" in found and name in ("h", "b"))]
    for name in needed:
        if name not in found:
            fault(name, "", f"is empty, and {family.name} needs it", "a dimension in mm")
    return found


def _number(text: str) -> float | None:
    if not re.fullmatch(r"\d{1,6}(\.\d{0,9})?|\.\d{1,9}", text, re.ASCII):
        return None
    value = float(text)
    return value if math.isfinite(value) else None


def _impossible(d: dict[str, float]) -> tuple[str, str] | None:
    """What is wrong with dimensions that are each fine alone, and what would be right."""
    for name in ("h", "b", "t", "tw", "tf", "D", "a"):
        if d.get(name, 1.0) <= 0:
            return f"{name} is 0", "a dimension above 0"
    side = min((d[name] for name in ("h", "b", "D") if name in d), default=0.0)
    if "t" in d and "D" not in d and "h" not in d:
        return None  # a flat or a plate: any two dimensions do
    root = d.get("r", d.get("r1", 0.0))
    rules = (
        ("t", 2 * d.get("t", 0.0) >= side, "the wall fills the section", "t less than half of the smaller side"),
        (
            "ro",
            d.get("ro", 0.0) > side / 2,
            "the outside corner radius does not fit",
            "ro at most half the smaller side",
        ),
        (
            "ri",
            d.get("t", 0.0) + d.get("ri", 0.0) > side / 2,
            "the inside corner radius does not fit",
            "t + ri at most half",
        ),
        (
            "ro",
            d.get("ro", 0.0) > d.get("ri", 0.0) + d.get("t", 0.0),
            "the corner is thinner than the wall",
            "ro at most ri + t",
        ),
        ("ri", d.get("ri", 0.0) > d.get("ro", 0.0), "the inside corner radius is the greater", "ri at most ro"),
        (
            "tf",
            2 * (d.get("tf", 0.0) + root) >= d.get("h", 0.0),
            "flanges and root radii fill the depth",
            "less than h / 2",
        ),
        ("tw", d.get("tw", 0.0) + root >= d.get("b", 0.0), "the web and root radius fill the width", "less than b"),
        (
            "slope",
            d.get("slope", 0.0) / 100 * d.get("u", 0.0) >= d.get("tf", 1.0),
            "the flange tapers to nothing",
            "a toe",
        ),
        (
            "r2",
            d.get("r2", 0.0) > d.get("t", d.get("tf", 0.0)),
            "the toe radius does not fit",
            "r2 at most the thickness",
        ),
    )
    return next(((fault, wanted) for name, broken, fault, wanted in rules if name in d and broken), None)
