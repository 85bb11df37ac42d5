"""Lines of a text that say the same of several parts or checks, told once."""

import re
from collections.abc import Hashable, Iterable, Sequence
from typing import TypeVar

_SIDES = re.compile(r"\b(left|right)\b")
_OTHER = {"left": "right", "right": "left"}
Key = TypeVar("Key", bound=Hashable)


def named_together(names: Sequence[str]) -> str:
    """Several names as one: "left and right upright", "head, bed and platen".

    >>> named_together(["right upright", "left upright"]), named_together(["head", "bed", "platen"])
    ('left and right upright', 'head, bed and platen')
    """
    left: list[str] = []
    for name in names:
        twin = _SIDES.sub(lambda side: _OTHER[side[1]], name, count=1)
        if twin != name and twin in left:
            left[left.index(twin)] = _SIDES.sub("left and right", name, count=1)
        else:
            left.append(name)
    return left[0] if len(left) == 1 else f"{', '.join(left[:-1])} and {left[-1]}"


def of_parts(lines: Iterable[tuple[str, str]]) -> list[tuple[str, list[str]]]:
    """(part, text) as parts, named together where the same is said of them, with all that is said of those.

    What is said of one part alone stands beside what it shares with others.

    >>> of_parts([("head", "a"), ("jack", "b"), ("bed", "a"), ("head", "c")])
    [('head and bed', ['a']), ('head', ['c']), ('jack', ['b'])]
    """
    pairs = list(lines)
    first = {part: at for at, part in reversed(list(enumerate(part for part, _ in pairs)))}
    alike = _gathered((tuple(dict.fromkeys(parts)), text) for text, parts in _gathered((t, p) for p, t in pairs))
    return [(named_together(parts), texts) for parts, texts in sorted(alike, key=lambda one: first[one[0][0]])]


def of_checks(lines: Iterable[tuple[str, str, str]]) -> list[str]:
    """(part, check, text) as lines; checks of a part, then parts, of which the same is said stand in one."""
    one_part = _gathered(((part, text), check) for part, check, text in lines)
    alike = _gathered((("; ".join(checks), text), part) for (part, text), checks in one_part)
    return [f"{named_together(parts)}, {checks}: {text}" for (checks, text), parts in alike]


def of_sides(lines: Iterable[str]) -> list[str]:
    """Lines whose lead, up to the colon, differs in left and right alone stand in one."""
    split = [line.partition(": ") for line in lines]
    found = _gathered(((_SIDES.sub("", lead, count=1), colon, text), lead) for lead, colon, text in split)
    return [f"{named_together(list(dict.fromkeys(leads)))}{colon}{text}" for (_, colon, text), leads in found]


def rows_merged(rows: Iterable[Sequence[str]]) -> list[tuple[str, ...]]:
    """Rows of part, check and values; one row where every value is the same.

    Merged are the checks of one part, and parts that are the left and the right of one thing.
    """
    one_part = _gathered(((part, tuple(values)), check) for part, check, *values in rows)
    checked = [(part, "; ".join(checks), values) for (part, values), checks in one_part]
    sides = _gathered(((_SIDES.sub("", part, count=1), checks, values), part) for part, checks, values in checked)
    return [(named_together(parts), checks, *values) for (_, checks, values), parts in sides]


def _gathered(pairs: Iterable[tuple[Key, str]]) -> list[tuple[Key, list[str]]]:
    found: dict[Key, list[str]] = {}
    for key, value in pairs:
        found.setdefault(key, []).append(value)
    return list(found.items())
