"""What the tables of joints share: keys left out, sections and grades the frame knows, checks not done."""

from collections.abc import Iterable, Mapping
from typing import Any

from structcheck.checks.member_forms import form
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Outcome, not_checked
from structcheck.press.fields import Part
from structcheck.press.setting import Setting
from structcheck.shapes.library import look_up
from structcheck.shapes.section import Section

Known = Mapping[str, Any]
"""What the frame says of a place: section names or sections, and grades, under the table's own keys."""


def missing(table: Part, setting: Setting, *keys: str) -> InputError:
    """What must be stated and is not."""
    problems = []
    for key in keys:
        field, says = type(table).model_fields[key], setting.spell(key)
        example = (field.examples or [""])[0]
        remedy = f'{says} "{example}"' if says.startswith("--") else f'{says} = "{example}"'
        problems.append(Problem(says, "", "is missing", field.description or "", remedy if example else ""))
    return InputError(problems)


def section_of(table: Part, key: str, setting: Setting, known: Known) -> tuple[Section, Outcome]:
    """The section a table names, or the frame's. Raises InputError where neither says."""
    text = getattr(table, key)
    if text is None:
        if key not in known:
            raise missing(table, setting, key)
        return known[key], Outcome()
    found = look_up(text, setting.sections)
    return found.section, Outcome(assumptions=tuple(Assumption(table.name, taken) for taken in found.assumptions))


def grade_of(table: Part, key: str, known: Known, otherwise: str | None = None) -> str | None:
    """The grade a table states, else the frame's, else another part's."""
    return getattr(table, key) or known.get(key) or otherwise


def rolled_i(section: Section, key: str) -> Any:
    if form(section) != "i":
        fault, wanted = "is no I or H section", "an I or H section, its flange bolted or welded to"
        raise InputError(Problem(key, f'"{section.designation}"', fault, wanted, f'{key} = "IPE 160"'))
    return section.shape


def none_checked(name: str, needed: Iterable[str], reason: str) -> Outcome:
    """No check of a joint is done, for one reason."""
    return Outcome(tuple(not_checked(name, check, reason) for check in needed))
