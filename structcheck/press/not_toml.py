"""What is wrong in a text that is no TOML, in words of the press file, with the line to write instead."""

import re
import tomllib
from collections.abc import Collection, Sequence
from dataclasses import replace

from structcheck.errors import Problem

_TWICE = re.compile(r"Cannot (overwrite|declare|mutate|redefine)")
_PLACE = re.compile(r"\s*\(at (?:(line \d+), column \d+|end of document)\)")
_PAIR = re.compile(r"([A-Za-z_][\w-]*)\s*[=:]\s*([^\s#\[{].*)", re.ASCII)
_HEAD = re.compile(r"\s*\[+\s*([\w-]+)\s*\]+", re.ASCII)
_QUOTES = "\"'“”„‘’«»"
_WORDS = {"yes": "true", "no": "false", "true": "true", "false": "false"}


def not_toml(message: str, text: str, file: str, lists: Collection[str]) -> Problem:
    """The problem that stopped the reading of TOML.

    lists   names of the tables that are written once for each of several, in double brackets
    """
    place = _PLACE.search(message)
    fault = message[: place.start()] if place else message
    lines = text.splitlines()
    number = int(place[1].split()[1]) if place and place[1] else None
    if number is None and _TWICE.match(fault):
        number = max((at for at, line in enumerate(lines, 1) if line.strip()), default=None)
    line = lines[number - 1].strip() if number is not None and number <= len(lines) else ""
    where = f"line {number}" if number is not None else "the end of the file"
    shown = "".join(c if c.isprintable() else "?" for c in line[:60])
    given = f"`{shown}`" if shown else ""
    if _TWICE.match(fault):
        return replace(_written_twice(line, lines[: (number or 1) - 1], lists), key=where, given=given, file=file)
    wanted = 'lines like span = "900 mm": a quantity or a word in straight quotes, a count without'
    return Problem(where, given, f"is not TOML: {fault[:120]}", wanted, _mended(line), file=file)


def _written_twice(line: str, before: Sequence[str], lists: Collection[str]) -> Problem:
    """A key or a table that stands in an earlier line too."""
    table = _HEAD.match(line)
    if table is None:
        mine = [at for at, text in enumerate(before, 1) if text.lstrip().startswith("[")]
        key = line.split("=")[0].strip()
        since = range(mine[-1] if mine else 0, len(before))
        first = next((at + 1 for at in since if before[at].split("=")[0].strip() == key), None)
        return Problem("", "", _twice(first), "one line for each key: leave one out")
    same = (at for at, text in enumerate(before, 1) if (head := _HEAD.match(text)) and head[1] == table[1])
    first = next(same, None)
    if table[1] in lists:
        each = f"[[{table[1]}]]"
        return Problem("", "", _twice(first), "each of several in a table of its own, in double brackets", each)
    return Problem("", "", _twice(first), "one table of this name, with all its keys")


def _twice(first: int | None) -> str:
    return "is written twice" + (f", first in line {first}" if first is not None else "")


def _mended(line: str) -> str:
    """The line with its quotes, its equals sign or its small letters, where that makes it TOML; else nothing."""
    pair = _PAIR.fullmatch(line)
    if not pair:
        return ""
    value = pair[2].split("#")[0].strip().strip(_QUOTES).strip()
    if any(quote in value for quote in _QUOTES):
        return ""
    plain = _WORDS.get(value.lower(), value)
    for written in (plain, f'"{value}"'):
        mended = f"{pair[1]} = {written}"
        if mended != line and _is_toml(mended):
            return mended
    return ""


def _is_toml(line: str) -> bool:
    try:
        return bool(tomllib.loads(line))
    except tomllib.TOMLDecodeError:
        return False
