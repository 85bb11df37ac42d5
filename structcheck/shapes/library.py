"""Looking a section up by what people write: "shs 100x100x5", "80x10 flat", "HE 200 B", "W8X18"."""

import fnmatch
import re
from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

from structcheck.errors import Problem, UnknownName
from structcheck.shapes.families import COLD, FAMILIES, HOT, Family
from structcheck.shapes.rows import family_rows, library
from structcheck.shapes.section import Section

LONGEST = 60  # characters of a name
TIMES = re.compile(r"(?<=[\d.])\s*[x×*]\s*(?=[\d.])")
TOKENS = re.compile(r"[a-z]+|\d+(?:\.\d*)?(?:/\d+)?|\.\d+|[^\s\-_]", re.ASCII)
DIGITS = frozenset("0123456789")  # not str.isdigit, which knows superscripts and other scripts
NOISE = frozenset({"mm", "formed", "finished", "bar", "section", "hollow"})
ROUTES = {"cold": COLD, "hot": HOT, "cf": COLD, "hf": HOT, "cfshs": COLD, "hfshs": HOT}
NAMES = {word: family for family in FAMILIES.values() for word in family.words}


class LookUp(NamedTuple):
    """A section found, and what had to be assumed to find it."""

    section: Section
    assumptions: tuple[str, ...]


class Spelling(NamedTuple):
    """A name taken apart: its words, its numbers in order, and the route it names ("" if none)."""

    words: tuple[str, ...]
    numbers: tuple[float, ...]
    route: str

    @property
    def family(self) -> Family | None:
        """The family the words name, if they do."""
        return NAMES.get("".join(self.words))


def look_up(text: str, extra: Iterable[Section] = ()) -> LookUp:
    """The section somebody means by `text`, from the user's own rows first, then the library.

    A hollow section not labelled cold or hot is the cold formed one, and the answer says so.
    Raises UnknownName with the nearest three.
    """
    extra = tuple(extra)
    return _look_up(text, extra) if extra or not isinstance(text, str) else _in_library(text)


@lru_cache(maxsize=1024)
def _in_library(text: str) -> LookUp:
    return _look_up(text, ())


def _look_up(text: str, extra: tuple[Section, ...]) -> LookUp:
    if not isinstance(text, str) or not text.strip() or len(text) > LONGEST:
        shown = text[:LONGEST] + "..." if isinstance(text, str) and text.strip() else ""
        raise UnknownName(Problem("section", f'"{shown}"', "is no section", f"a name of 1 to {LONGEST} characters"))
    squashed = _squash(text)
    for section in extra:
        if _squash(section.designation) == squashed:
            return LookUp(section, ())
    spelling = spell(text)
    for rows in (extra, family_rows(spelling.family.name) if spelling.family else ()):
        found = [row for row in rows if _means(spelling, row)]
        if found:
            return LookUp(found[0], _assumptions(spelling, found[0]))
    raise _unknown(text, spelling, extra)


def matching(pattern: str, extra: Iterable[Section] = ()) -> list[Section]:
    """Every section whose designation fits a pattern such as "RHS 1*", the user's own first; none is an empty list."""
    if not isinstance(pattern, str) or len(pattern) > LONGEST:
        raise UnknownName(Problem("sections", "", "is no pattern", f"at most {LONGEST} characters"))
    wanted = _squash(pattern, keep="*?[]!")
    if not any(sign in wanted for sign in "*?["):
        wanted += "*"
    rows = (*extra, *library())
    return [row for row in rows if fnmatch.fnmatchcase(_squash(row.designation), wanted)]


@lru_cache(maxsize=4096)
def spell(text: str) -> Spelling:
    """A name taken apart, spelling and order forgiven."""
    plain = TIMES.sub(" ", text.lower())
    words: list[str] = []
    numbers: list[float] = []
    route = ""
    for token in TOKENS.findall(plain):
        if token in ROUTES and len(token) <= 4:
            route = ROUTES[token]
        elif token[-1] in DIGITS or token[0] in DIGITS:
            numbers.append(_value(token))
        elif token not in NOISE:
            words.append(token)
    return Spelling(tuple(words), tuple(numbers), route)


def _value(token: str) -> float:
    top, _, bottom = token.partition("/")
    try:
        return float(top) / float(bottom) if bottom else float(top)
    except ZeroDivisionError:
        return float("nan")


def _means(spelling: Spelling, row: Section) -> bool:
    own = spell(row.designation)
    family = FAMILIES.get(row.family)
    if family is None:
        return False  # a section of its own is known by its whole name only
    if own.words != spelling.words and (spelling.family is None or spelling.family is not family):
        return False
    if family.labelled and row.route != (spelling.route or family.routes[0]):
        return False
    return own.numbers in _readings(spelling.numbers, family)


def _readings(numbers: tuple[float, ...], family: Family) -> tuple[tuple[float, ...], ...]:
    """The numbers as written, and the short forms the family allows."""
    if family.name in ("SHS", "L") and len(numbers) == 2:
        return numbers, (numbers[0], *numbers)
    if family.name == "RHS" and len(numbers) == 3:
        return numbers, (numbers[1], numbers[0], numbers[2])
    if family.name == "SQ" and len(numbers) == 2 and numbers[0] == numbers[1]:
        return (numbers[:1],)
    return (numbers,)


def _assumptions(spelling: Spelling, row: Section) -> tuple[str, ...]:
    if FAMILIES[row.family].labelled and not spelling.route:
        return (f"hollow section not labelled cold or hot: taken as cold formed ({row.standard})",)
    if row.family == "PL":
        return (f"plate: the properties are those of a strip {row.dimensions['b']:g} mm wide, on edge",)
    return ()


def _squash(text: str, keep: str = "") -> str:
    plain = text.lower().replace("×", "x")
    if not keep:
        plain = plain.replace("*", "x")
    return re.sub(rf"[^a-z0-9./{re.escape(keep)}]", "", plain)


def _unknown(text: str, spelling: Spelling, extra: tuple[Section, ...]) -> UnknownName:
    family = spelling.family
    if family and spelling.numbers:
        rows = [row for row in (*extra, *family_rows(family.name)) if row.family == family.name]
        near = sorted(rows, key=lambda row: _distance(spelling, row))
    else:
        near = _nearest_spelling(text, (*extra, *library()))
    names = [row.designation for row in near[:3]]
    remedy = " or ".join(f'"{name}"' for name in names)
    fault = "is in no list of sizes" if family else "names no known family of sections"
    wanted = "a size in the library, or a row of your own CSV"
    return UnknownName(Problem("section", f'"{text}"', fault, wanted, remedy))


def _distance(spelling: Spelling, row: Section) -> tuple[float, bool]:
    """How far apart two sizes of a family are, as the sum of relative differences of their numbers."""
    own = spell(row.designation).numbers
    best = min(
        sum(abs(a - b) / max(a, b, 1e-9) for a, b in zip(numbers, own, strict=False)) + abs(len(numbers) - len(own))
        for numbers in _readings(spelling.numbers, FAMILIES[row.family])
    )
    return (best if best == best else float("inf")), spelling.route not in ("", row.route)


def _nearest_spelling(text: str, rows: tuple[Section, ...]) -> list[Section]:
    import difflib

    names = {_squash(row.designation): row for row in reversed(rows)}
    return [names[name] for name in difflib.get_close_matches(_squash(text), names, n=3, cutoff=0.0)]
