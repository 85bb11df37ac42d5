"""What surrounds a part while it is checked, and what every kind of part does with its loads."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from structcheck.checks.basis import Basis
from structcheck.errors import InputError, Problem
from structcheck.findings import Outcome
from structcheck.materials.steels import Steel, find_steel
from structcheck.press import schema
from structcheck.press.fields import StatedLimit, StatedLoad
from structcheck.record import record
from structcheck.shapes.section import Section


@record
class Setting:
    """What surrounds a part: the basis, the jack's force where one is described, limits, the user's own sections.

    rated  force of all jacks in N; None in a question about one part, where every load is a force of the user's
    press  the whole description, where there is one: parts name each other in it
    opening  clear height between head and bed that the frame leaves, mm; None: no frame is described
    """

    basis: Basis
    rated: float | None = None
    spell: Callable[[str], str] = str
    sections: tuple[Section, ...] = ()
    limit: StatedLimit | None = None
    flatness: float | None = None
    press: schema.PressFile | None = None
    opening: float | None = None


@record
class PartKind:
    """How a kind of part is described, checked and titled."""

    table: type[schema.Part]
    run: Callable[[Any, Setting], Outcome]
    title: Callable[[Any], str]
    needed: tuple[str, ...]


def newtons(load: StatedLoad | None, setting: Setting, key: str) -> float:
    """A stated load in N at rated force; nothing stated is nothing."""
    if load is None:
        return 0.0
    if load.of == "jack":
        if setting.rated is None:
            raise InputError(_no_jack(key, load, setting))
        return load.value * setting.rated
    if load.of == "spread":
        wanted = "a force in N, kN, lbf or kip, or a mass in kg, t or lb"
        raise InputError(Problem(key, "", "is a spread load; only a beam takes one", wanted))
    return load.value


def _no_jack(key: str, load: StatedLoad, setting: Setting) -> Problem:
    wanted = "a force or mass with its unit; a plain number is a share of a jack and there is none here"
    return Problem(setting.spell(key), f"{load.value:g}", "has no unit", wanted, f'{key} = "8 t"')


def is_users(*loads: StatedLoad | None) -> bool:
    return any(load is not None and load.of != "jack" for load in loads)


def marked(outcome: Outcome, setting: Setting, users: bool) -> Outcome:
    """In a press file, findings from a force typed by the user say so."""
    if not users or setting.rated is None:
        return outcome
    findings = tuple(replace(f, user_force=f.verdict != "not checked") for f in outcome.findings)
    return replace(outcome, findings=findings)


def no_gusset(stated: bool) -> None:
    """Refuse `gusset` on a joint that stands nowhere in a frame."""
    if stated:
        wanted = "left out: a joint under a force of its own is compared with no member"
        raise InputError(Problem("gusset", "true", "means nothing without `at`", wanted))


def steel_of(grade: str, setting: Setting, route: str = "plate") -> Steel:
    """The steel of a grade, by the strengths of the basis."""
    return find_steel(grade, route=route, strengths=setting.basis.strengths)


def need_one(table: Any, kind: str, keys: tuple[str, ...], setting: Setting) -> None:
    """At least one of these loads must be stated: a part without a load would pass for nothing."""
    if all(getattr(table, key) is None for key in keys):
        key = setting.spell(keys[0])
        example = f'{key} "8 t"' if key.startswith("--") else f'{key} = "8 t", or a share of the jack: {key} = 0.5'
        also = f" (or {' or '.join(setting.spell(k) for k in keys[1:])})" if keys[1:] else ""
        wanted = f"the force on it{also}"
        raise InputError(Problem(key, "", "is missing", wanted, example, f'{kind} "{table.name}"'))
    if not any(_size(getattr(table, key)) for key in keys):
        key = setting.spell(next(key for key in keys if getattr(table, key) is not None))
        fault = "is nothing: a part without a load would pass for nothing"
        raise InputError(Problem(key, "0", fault, "the force it really takes", part=f'{kind} "{table.name}"'))


def _size(load: StatedLoad | float | None) -> float:
    """The size of a load or a moment, nothing where it is not stated."""
    return abs(load.value) if isinstance(load, StatedLoad) else abs(load or 0.0)
