"""Lists written in one text, as on the command line: "40 120 mm", "-40 0; 40 0 mm", a run of weld in words.

Numbers stand apart by spaces with one unit at the end; a comma is never part of them, for it would be read two ways.
Each reader turns its text into the list a press file holds, whose own types then read it; what is no text stays.
"""

import re
from collections.abc import Collection
from typing import Any

from pydantic import BeforeValidator, ValidationInfo

from structcheck.errors import Problem, QuantityError
from structcheck.press.fields import spell

LONGEST = 400
"""Characters of one text; a layout of many bolts belongs in a file."""

_NUMBERS = re.compile(r"((?:[-+]?(?:\d+\.?\d*|\.\d+)(?:\s+|$))+)([^\d\s.;,][^\d;,]*)?", re.ASCII)


def _quantities(text: str) -> list[str]:
    """Every number with the unit at the end; none where the text is nothing of the kind."""
    found = _NUMBERS.fullmatch(text.strip())
    if found is None:
        return []
    unit = (found[2] or "").strip()
    return [f"{number} {unit}".strip() for number in found[1].split()]


def _refused(given: str, info: ValidationInfo, wanted: str, example: str) -> QuantityError:
    key = spell(info.field_name or "", info)
    remedy = f'{key} "{example}"' if key.startswith("--") else f'{key} = "{example}"'
    fault = "has a comma between numbers" if re.search(r"\d\s*,\s*[-\d]", given) else "is no such list"
    return QuantityError(Problem(key, f'"{given[:60]}"', fault, wanted, remedy))


def lengths(example: str) -> BeforeValidator:
    """A list of lengths: "40 120 mm"."""

    def validate(given: Any, info: ValidationInfo) -> Any:
        if not isinstance(given, str):
            return given
        found = _quantities(given) if len(given) <= LONGEST else []
        if not found:
            raise _refused(given, info, "lengths apart by spaces, one unit at the end", example)
        return found

    return BeforeValidator(validate)


def places(example: str) -> BeforeValidator:
    """A list of x and y: "-40 0; 40 0 mm"."""

    def validate(given: Any, info: ValidationInfo) -> Any:
        if not isinstance(given, str):
            return given
        rows = [piece.split() for piece in given.split(";")]
        last = _quantities(given.rpartition(";")[2])
        unit = last[-1].partition(" ")[2] if last else ""
        pairs = [_quantities(f"{' '.join(row)} {unit}") for row in rows[:-1]] + [last]
        if len(given) > LONGEST or not unit or any(len(pair) != 2 for pair in pairs):
            raise _refused(given, info, "x and y of every bolt, a semicolon between two, one unit at the end", example)
        return pairs

    return BeforeValidator(validate)


def three_of(given: Any) -> Any:
    """Three values of one text: "0 0 60 mm", or "0 0 -1" as numbers; None where it holds something else."""
    found = _quantities(given) if isinstance(given, str) and len(given) <= LONGEST else []
    if len(found) != 3:
        return None
    return [float(one) for one in found] if all(" " not in one for one in found) else found


RUN = "0 0 0 to 0 0 80 mm, throat 4 mm, sides both"
_WAY = re.compile(r"(.+?)\s+(to|round)\s+(.+)")
_DIRECTIONS = ("axis", "face", "face_2")


def run_of_weld(keys: Collection[str]) -> BeforeValidator:
    """A run in words: from a point to another or round a centre, then its keys, such as "throat 4 mm"."""

    def validate(given: Any, info: ValidationInfo) -> Any:
        if not isinstance(given, str):
            return given
        way, *rest = [piece.strip() for piece in given.split(",")]
        points = _WAY.fullmatch(way)
        made = _ends(*points.groups()) if points and len(given) <= LONGEST else {}
        for piece in rest:
            key, _, value = piece.partition(" ")
            key = key.replace("-", "_")
            if key in made:
                wanted = f"{key} once; another run is written as a text of its own"
                raise _refused(given, info, wanted, RUN)
            made[key] = _value(key, value.strip())
        if "start" not in made or None in made.values() or not made.keys() <= set(keys):
            also = ", ".join(key for key in keys if key not in ("start", "end", "centre"))
            wanted = f"a run: start to end, or start round centre, then with commas between any of {also}"
            raise _refused(given, info, wanted, RUN)
        return made

    return BeforeValidator(validate)


def _ends(start: str, way: str, end: str) -> dict[str, Any]:
    """Both points, of which the first may leave the unit to the second."""
    last = three_of(end)
    unit = "" if last is None or not isinstance(last[0], str) else last[0].partition(" ")[2]
    return {"start": three_of(start if re.search("[a-z]", start) else f"{start} {unit}"), _KEY[way]: last}


_KEY = {"to": "end", "round": "centre"}


def _value(key: str, text: str) -> Any:
    if not text:
        return True
    if key in _DIRECTIONS:
        return three_of(text)
    return int(text) if text.isascii() and text.isdecimal() and len(text) < 6 else text
