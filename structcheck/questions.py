"""The Python face: one function a question, each answering with a `Result`.

Values are texts with a unit, pint quantities of any registry, or numbers in base units (N, mm, MPa, kg, rad), by
keyword, named as the press file names them. Loads are what the jack really pushes: strength checks multiply them by
`factor` (1.5), stiffness and times on yield use them as given; design forces are asked with `factor=1`.

    >>> from structcheck.questions import check_weld
    >>> answer = check_weld(throat="4 mm", length="120 mm", runs=2, steel="S275", along="40 kN", inspected=True)
    >>> answer.verdict
    'holds'

Every function raises `InputError` (a ValueError) with every problem of the input, and every result carries the
caution: a check is not a sign-off.
"""

import hashlib
import json
import re
from collections.abc import Callable, Iterable, Mapping
from contextlib import nullcontext
from dataclasses import replace
from pathlib import Path
from typing import Any

from structcheck.errors import InputError, Problem
from structcheck.findings import Outcome, Result
from structcheck.formula import Working
from structcheck.press.cases import factors_shown
from structcheck.press.fields import Part
from structcheck.press.load_path import run_part
from structcheck.press.model import check_description
from structcheck.press.parts import KINDS, Setting, basis_of_question
from structcheck.press.reading import describe, press_of, read_file, read_press
from structcheck.press.schema import BasisTable, PressFile, QuestionTable, Use
from structcheck.shapes.library import matching
from structcheck.shapes.section import Section


def check_press(
    source: str | Path | Mapping[str, Any], *, sections: Iterable[Section] = (), working: bool = False
) -> Result:
    """Check a whole press.

    source    path of a press file, "-" for standard input, or the description itself as a mapping of the same shape
    sections  rows of the user's own CSV, see `structcheck.shapes.rows.read_csv`
    working   keep every formula that decided a finding, for `Result.working`; it takes a little longer
    """
    own = tuple(sections)
    if isinstance(source, Mapping):
        return _checked(press_of(source, sections=own), "", _one_text(source), own, working)
    text, name = read_file(str(source))
    return check_text(text, name, sections=own, working=working)


def check_text(text: str, name: str = "", *, sections: Iterable[Section] = (), working: bool = False) -> Result:
    """Check a whole press from the text of its file; `name` stands in messages."""
    own = tuple(sections)
    return _checked(read_press(text, name, sections=own), name, text, own, working)


def _checked(press: PressFile, name: str, text: str, own: tuple[Section, ...], working: bool) -> Result:
    with Working() if working else nullcontext():
        result = check_description(press, file=name, sections=own)
    return replace(result, input_sha256=sha256_of(text))


def sha256_of(text: str) -> str:
    """The hash by which an output is matched to its input; that of a file's text is what `sha256sum` gives."""
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def _one_text(given: Mapping[str, Any]) -> str:
    """What was given as one text, the same whatever the order of its keys, for its hash."""
    return json.dumps(given, sort_keys=True, default=str, ensure_ascii=False)


def ask(
    kind: str,
    given: Mapping[str, Any],
    *,
    spell: Callable[[str], str] = str,
    numbers: bool = True,
    sections: Iterable[Section] = (),
) -> Result:
    """One question about one part: `kind` is "beam", "bolts" and so on; `given` its keys and those of the basis.

    spell and numbers tell how keys are shown and whether a bare number is in base units; the command line sets them.
    """
    part, setting = described(kind, KINDS[kind].table, given, spell=spell, numbers=numbers, sections=sections)
    try:
        with Working():
            outcome = run_part(kind, part, setting)
    except InputError as error:
        raise InputError([respelt(problem, spell) for problem in error.problems]) from None
    return answered(kind, KINDS[kind].title(part), given, setting, outcome)


def described(
    kind: str,
    table: type[Part],
    given: Mapping[str, Any],
    *,
    spell: Callable[[str], str] = str,
    numbers: bool = True,
    sections: Iterable[Section] = (),
) -> tuple[Any, Setting]:
    """What a question says of its part and of what surrounds it. Raises InputError with every problem of both."""
    own = tuple(sections)
    about = {key: value for key, value in given.items() if key in _QUESTION_KEYS}
    rest = {"name": kind.replace("_", " ")} | {key: value for key, value in given.items() if key not in _QUESTION_KEYS}
    problems: list[Problem] = []
    asked = _try(lambda: describe(QuestionTable, about, spell=spell), problems)
    part = _try(lambda: describe(table, rest, spell=spell, numbers=numbers, sections=own), problems)
    if isinstance(getattr(part, "at", None), tuple):
        wanted = "the force on this part; a press file that describes the frame takes places"
        problems.append(
            Problem(spell("at"), ", ".join(part.at), "is a place in a frame, and none is described", wanted)
        )
    if problems:
        raise InputError(problems)
    return part, Setting(
        basis=basis_of_question(asked), spell=spell, sections=own, limit=asked.limit, flatness=asked.flatness
    )


def answered(kind: str, title: str, given: Mapping[str, Any], setting: Setting, outcome: Outcome) -> Result:
    """The result of a question, with the basis it rests on and the hash of what was asked."""
    basis = setting.basis
    shown = {"load_factor": basis.load_factor, **factors_shown(basis)}
    return Result(title, shown, outcome, input_sha256=sha256_of(_one_text({"question": kind, **given})))


_QUESTION_KEYS = frozenset({*QuestionTable.model_fields})


def _try(make: Callable[[], Any], problems: list[Problem]) -> Any:
    try:
        return make()
    except InputError as error:
        problems.extend(error.problems)
        return None


def respelt(problem: Problem, spell: Callable[[str], str]) -> Problem:
    """A problem found by a check, its key written as the user knows it."""
    if spell is str or problem.key.startswith("--"):
        return problem
    # What to write may be another key than the one at fault.
    remedy = re.sub(r"\b([a-z_]+) = ", lambda match: f"{spell(match[1])} ", problem.remedy)
    return replace(problem, key=spell(problem.key), remedy=remedy, part="")


def check_beam(**given: Any) -> Result:
    """A beam of one span: `section`, `steel`, `span`, `load` (or `loads`), `at`, `over`, `supports`, `pieces`, `limit`.

    >>> from structcheck.questions import check_beam
    >>> check_beam(section="SHS 100x100x5", steel="S275", span="900 mm", load="8 t").verdict in ("fails", "incomplete")
    True
    """
    return ask("beam", given)


def check_upright(**given: Any) -> Result:
    """An upright in tension: `section`, `steel`, `length`, `pull`, `moment`, `pieces`."""
    return ask("upright", given)


def check_bolts(**given: Any) -> Result:
    """A bolt group: `size`, `bolt_class` ("8.8"), `rows`, `columns`, `pitch`, `gauge`, `end`, `edge`, `plate`, `steel`,
    `shear`, `eccentricity`, `tension`, `across`, `twist`, `bend_x`, `bend_y`, `hole`, `thread`, `planes`; `layout` in
    place of rows and columns."""
    return ask("bolts", given)


def check_weld(**given: Any) -> Result:
    """Fillet welds: `throat` or `leg`, `length`, `runs`, `steel`, `along`, `across`, `inspected`, `method`."""
    return ask("weld", given)


def check_pin(**given: Any) -> Result:
    """A pin in double shear: `diameter`, `steel`, `inner`, `outer`, `gap`, `hole`, `replaceable`, `pull`."""
    return ask("pin", given)


def check_spring(**given: Any) -> Result:
    """Return springs: `wire`, `mean` or `outside`, `active` or `turns`, `ends`, `grade` (or `rate`), `free`, `fitted`,
    `pressed`, `count`, `lifts`, `held`."""
    return ask("spring", given)


def check_guide(**given: Any) -> Result:
    """A sliding guide: `length`, `offset`, `friction`."""
    return ask("guide", given)


def find_sections(pattern: str, *, sections: Iterable[Section] = ()) -> list[Section]:
    """Every stock section whose designation fits a pattern such as "RHS 1*", the user's own first."""
    return matching(pattern, tuple(sections))


__all__ = [
    "BasisTable",
    "Use",
    "ask",
    "check_beam",
    "check_bolts",
    "check_guide",
    "check_pin",
    "check_press",
    "check_spring",
    "check_text",
    "check_upright",
    "check_weld",
    "find_sections",
    "sha256_of",
]
