"""The largest rating of the jack as text and as JSON."""

import textwrap
from collections.abc import Iterator
from typing import Any

from structcheck.findings import CAUTION, Finding
from structcheck.quantities import G_N
from structcheck.report.as_json import dumps
from structcheck.report.record import Record
from structcheck.report.table import columns_of_terminal, conditions, use_of
from structcheck.showing import show
from structcheck.sizing.rated import Largest, RatedLoad


def rating_text(rating: float) -> str:
    """A rating in kN and, rounded down too, in tonnes: "126.3 kN (12.87 t)"."""
    tonnes = f"{rating / G_N / 1e3:.9g}"
    whole, _, decimals = tonnes.partition(".")
    places = max(0, 4 - len(whole.lstrip("0")))
    return f"{rating / 1e3:.7g} kN ({whole}{'.' + decimals[:places] if decimals and places else ''} t)"


def rated_as_text(rated: RatedLoad, record: Record | None = None, width: int | None = None) -> str:
    """Both answers, what governs each, what was not judged."""
    columns = width or columns_of_terminal()
    lines = [line for block in _lines(rated, record) for line in _wrapped(block, columns)]
    return "\n".join(lines) + "\n"


def headline(rated: RatedLoad) -> str:
    """The answer in one line."""
    if rated.rating is None:
        return f"{rated.title}: NO RATING HOLDS{_why_none(rated)}"
    words = rating_text(rated.rating)
    if rated.not_checked:
        return f"{rated.title}: at most {words}, INCOMPLETE: not everything that matters could be checked"
    rests_on = "; ".join(f"{condition} ({parts})" for condition, parts in conditions(rated.result))
    return f"{rated.title}: holds a jack of {words}" + (f", IF {rests_on}" if rests_on else "")


def _why_none(rated: RatedLoad) -> str:
    """What stands in the way first, and what the press would carry without it."""
    if not rated.fails_anyway:
        without = next((one for one in (rated.strength, rated.stiffness) if one.rating is None and one.governing), None)
        return f": {without.reason}" if without else ""
    first, more = rated.fails_anyway[0], len(rated.fails_anyway) - 1
    others = f" and {more} more" if more else ""
    fails = "fail" if more else "fails"
    text = f" AS IT IS: {first.part}, {first.check}{others} {fails}, which no smaller jack mends"
    left = [one.rating for one in (rated.strength, rated.stiffness) if one.rating is not None]
    too_soft = rated.stiffness.rating is None and rated.stiffness.governing
    if rated.strength.rating is None or too_soft:
        return text
    return f"{text}; with it put right the rest holds {rating_text(min(left))}"


def _lines(rated: RatedLoad, record: Record | None) -> Iterator[str]:
    yield headline(rated)
    yield f"  stated      {show(rated.stated, 'kN')}{_compared(rated)}"
    for name, largest in (("strength", rated.strength), ("stiffness", rated.stiffness)):
        yield f"  {name:<11} {largest_text(largest)}"
        for finding in largest.governing:
            yield f"              {_finding(finding)}"
    for finding in rated.fails_anyway:
        yield f"  - fails whatever the jack: {use_of(finding)} {finding.part}, {finding.check}"
    for note in rated.notes:
        yield f"  - {note}"
    if rated.not_checked:
        yield ""
        yield "Not checked (not a pass)"
        yield from (f"  - {f.part}, {f.check}: {f.reason}" for f in rated.not_checked)
    yield ""
    yield "Caution"
    yield f"  - {CAUTION}"
    if record is not None:
        yield ""
        yield "Record"
        yield f"  - {record}"


def _compared(rated: RatedLoad) -> str:
    if rated.rating is None:
        return ""
    return ", within it" if rated.stated <= rated.rating else ", over it"


def largest_text(largest: Largest) -> str:
    """One of the two answers in words."""
    if largest.rating is not None:
        return rating_text(largest.rating)
    return f"none: {largest.reason}"


def _finding(finding: Finding) -> str:
    case = f" ({finding.case})" if finding.case else ""
    return f"{use_of(finding):>4} {finding.part}, {finding.check}{case}"


def _wrapped(line: str, columns: int) -> list[str]:
    indent = " " * (len(line) - len(line.lstrip()) + 2)
    return textwrap.wrap(line, columns, subsequent_indent=indent, break_on_hyphens=False) or [""]


def rated_as_json(rated: RatedLoad, record: Record | None = None) -> str:
    """Both answers, ratings of one jack in kN."""
    data = {
        "schema": 1,
        "title": rated.title,
        "stated": _kN(rated.stated),
        "jacks": rated.count,
        "rating": _kN(rated.rating),
        "strength": _largest(rated.strength),
        "stiffness": _largest(rated.stiffness),
        "fails anyway": [_brief(f) for f in rated.fails_anyway],
        "complete": not rated.not_checked,
        "not checked": [{"part": f.part, "check": f.check, "reason": f.reason} for f in rated.not_checked],
        "conditions": list(dict.fromkeys(a.condition for a in rated.result.conditions)),
        "notes": list(rated.notes),
        "caution": CAUTION,
    }
    if record is not None:
        data["record"] = record.as_dict()
    return dumps(data)


def _brief(f: Finding) -> dict[str, Any]:
    return {"part": f.part, "check": f.check, "case": f.case, "utilisation": f.utilisation}


def _kN(value: float | None) -> dict[str, Any] | None:
    return None if value is None else {"value": float(f"{value / 1e3:.7g}"), "unit": "kN"}


def _largest(largest: Largest) -> dict[str, Any]:
    found = [_brief(f) for f in largest.governing]
    return {
        "rating": _kN(largest.rating),
        "reason": largest.reason,
        "governing": found[0] if found else None,
        "next": found[1:],
    }
