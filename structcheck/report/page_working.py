"""The working of one part for the page: MathML, every full value beside the shown one."""

import json
from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from markupsafe import Markup

from structcheck.formula import Formula, Remark
from structcheck.report.numbers import figures
from structcheck.report.table import amount_text, is_statement, use_of
from structcheck.report.working import Again, Entry, Line, PartWorking
from structcheck.report.working_linear import linear, symbol_text
from structcheck.report.working_mathml import mathml, symbol_mathml
from structcheck.report.working_shown import Choice, Shown, kept_as_written, named, shown


def working_of(part: PartWorking) -> list[dict[str, Any]]:
    """What the template sets out, one block for what the checks share and one for each of them."""
    with kept_as_written():
        return _blocks(part)


def _blocks(part: PartWorking) -> list[dict[str, Any]]:
    blocks = []
    if part.shared:
        lines = [_line(step) for step in part.shared]
        blocks.append({"title": "Worked out for the checks", "lines": lines, "close": "", "reason": ""})
    return blocks + [_block(entry) for entry in part.entries]


def _block(entry: Entry) -> dict[str, Any]:
    finding = entry.finding
    title = f"{finding.check}, {finding.case}" if finding.case else finding.check
    close, use = "", ""
    if finding.demand and finding.capacity and finding.utilisation is not None and not is_statement(finding):
        of = f" ({symbol_text(entry.multiple)})" if entry.multiple else ""
        close = f"use = {amount_text(finding.demand)} / {amount_text(finding.capacity)}{of}"
        use = f"= {figures(finding.utilisation, 4)}"
    return {
        "title": f"{title}: " + f"{use_of(finding)} {finding.verdict}".removeprefix("- "),
        "lines": _lines(entry.steps),
        "close": close,
        "use": use,
        "source": finding.source,
        "reason": f"Because: {finding.reason}" if finding.reason else "",
    }


def _lines(steps: Sequence[Line]) -> list[dict[str, Any]]:
    again = [_again(step) for step in steps if isinstance(step, Again)]
    before = [{"kind": "again", "text": "; ".join(dict.fromkeys(again))}] if again else []
    return before + [_line(step) for step in steps if not isinstance(step, Again)]


def _again(step: Again) -> str:
    line = shown(step.step)
    return f"{symbol_text(line.symbol)} = {line.result_text} {line.unit}".rstrip()


def _line(step: Line) -> dict[str, Any]:
    if isinstance(step, Again):
        return {"kind": "again", "text": _again(step)}
    if isinstance(step, Remark):
        return {"kind": "remark", "text": step.text, "source": step.source}
    line = shown(step)
    units = step.formula.units
    return {
        "kind": "step",
        "source": line.source,
        "symbol": Markup(symbol_mathml(line.symbol)),
        "formula": _formula_set(step.formula, line.expression, tuple(choice.taken for choice in line.choices)),
        "numbers": Markup(mathml(line.numbers, line.choices)),
        "spoken": f"{symbol_text(line.symbol)} = {_spoken(step.formula, line.expression)} = {linear(line.numbers)}",
        "result": repr(line.result),
        "unit": line.unit,
        "result_text": f"{line.result_text} {line.unit}".rstrip(),
        "governs": "; ".join(_governs(choice) for choice in line.choices),
        "full": [(_name(name), repr(value), units[name].label) for name, value in line.values.items()],
        "values_json": _values_json(line),
    }


@lru_cache(maxsize=1024)
def _formula_set(_formula: Formula, tree: Any, taken: tuple[int, ...]) -> Markup:
    """The formula in its symbols, the terms that were taken marked; the same for every step that took them."""
    return Markup(mathml(tree, [Choice("", (), place) for place in taken]))


@lru_cache(maxsize=1024)
def _spoken(_formula: Formula, tree: Any) -> str:
    return linear(tree)


def _values_json(line: Shown) -> str:
    return json.dumps({name: repr(value) for name, value in line.values.items()}, ensure_ascii=False)


def _name(argument: str) -> str:
    base, index = named(argument)
    return f"{base}_{index}" if index else base


def _governs(choice: Choice) -> str:
    terms = ", ".join(figures(value) for value in choice.values)
    return f"{choice.kind} of {terms}: the {_ORDINALS[choice.taken]} governs"


_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")
