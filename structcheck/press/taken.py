"""What was taken for keys left out, told in one line for each table: no number or choice is silent."""

from collections.abc import Collection
from functools import cache
from typing import Any

from structcheck.findings import Assumption, Outcome
from structcheck.press.frame.meaning import KEYS
from structcheck.press.schema import PressFile

UNITS = {"frame": "degC", "pumping": "N"}
WITH = {
    "holes": "hole",
    "facing": "apart",
    "tied": "apart",
    "joint": "at",
    "efficiency": "pump",
    "frame": "warm",
    "metal": "warm",
}
"""Keys that mean something only beside another one."""

UNLESS = {"held": ("rod", "tube")}
"""Keys that others say."""

SAID_ELSEWHERE = frozenset(
    {"thread", "grade", "corners", "title", "drive", "strengths", "spread", "direction", "friction"}
)


def taken(part: str, table: Any, means: Collection[str] | None = None) -> Outcome:
    """The defaults of a table that decide something: every choice, and every number but 0 (nothing there).

    means  the keys that mean something; all if None
    """
    stated = table.model_fields_set
    words = [
        words
        for name, words in _deciding(type(table))
        if name not in stated
        if means is None or name in means
        if WITH.get(name) is None or getattr(table, WITH[name], None) is not None
        if all(getattr(table, other, None) is None for other in UNLESS.get(name, ()))
    ]
    if not words:
        return Outcome()
    return Outcome(assumptions=(Assumption(part, f"not stated, taken as: {', '.join(words)}"),))


def taken_for_press(press: PressFile) -> Outcome:
    """The same for the tables that stand once in a press file."""
    outcome = taken("jack", press.jack)
    if not press.use.static:
        outcome += taken("use", press.use)
    for name in ("frame", "head", "bed", "uprights", "guides", "feet", "plate"):
        table = getattr(press, name, None)
        if table is not None:
            means = KEYS[press.frame.shape] if name == "frame" else None
            outcome += taken(name, table, means)
    return outcome


@cache
def _deciding(table: type[Any]) -> list[tuple[str, str]]:
    """The keys of a kind of table whose defaults decide something, each with that default in words."""
    defaults = ((name, field.default) for name, field in table.model_fields.items() if name not in SAID_ELSEWHERE)
    return [(name, f"{_spelt(name)} {_shown(name, default)}") for name, default in defaults if _decides(default)]


def _decides(default: Any) -> bool:
    return isinstance(default, str | int | float) and not isinstance(default, bool) and default not in ("", 0)


def _spelt(name: str) -> str:
    return name.replace("_", " ")


def _shown(name: str, value: Any) -> str:
    text = f"{value:g}" if isinstance(value, float) else str(value)
    return f"{text} {UNITS[name]}" if name in UNITS else text
