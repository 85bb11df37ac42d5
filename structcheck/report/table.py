"""A result as text: verdict first, then what was not checked, a row a check, what was assumed, the caution."""

import math
import re
import shutil
import textwrap
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from tabulate import tabulate

from structcheck.findings import RULES_OF_DETAIL, Amount, Finding, Result, TimesOnYield
from structcheck.report.merged import named_together, of_checks, of_parts, of_sides, rows_merged
from structcheck.report.record import Record
from structcheck.showing import count, in_unit

ASKED_BY_JACK_STANDARD = 2.0
LOW_TIMES_ON_YIELD = 1.5
MOST_REASONS = 12
MOST_FAILING = 5
BY_THE_CLAUSE = (
    "the ratio that the clause's own formula gives; the use beside it is 1 / the factor by which the forces could grow "
    "until that ratio is 1"
)
NO_STRENGTH = "a rule of detail, not a strength"
_HEADERS = ("part", "check", "case", "demand", "capacity", "use", "verdict", "source")


def columns_of_terminal() -> int:
    """Columns to wrap to: those of the terminal, within reason."""
    return max(80, min(shutil.get_terminal_size((120, 24)).columns, 160))


def as_text(result: Result, width: int | None = None, record: Record | None = None) -> str:
    """The whole answer as text, wrapped to the terminal or to `width`; the record at its foot."""
    columns = width or columns_of_terminal()
    blocks = [
        _headline(result, columns),
        _bullets("Not checked (not a pass)", _skipped(result), columns),
        _findings(result, columns),
        f"The frame as understood\n{result.drawing}" if result.drawing else "",
        _basis(result.basis, columns),
        *_lists(result, columns),
        _bullets("Caution", [result.caution], columns),
        _bullets("Record", [str(record)] if record else [], columns),
    ]
    return "\n\n".join(block for block in blocks if block) + "\n"


def _headline(result: Result, columns: int) -> str:
    words = {
        "holds": "HOLDS: every listed check holds",
        "fails": "FAILS",
        "incomplete": "INCOMPLETE: not everything that matters could be checked; this is not a pass",
        "holds if": "HOLDS IF " + "; ".join(f"{words} ({parts})" for words, parts in conditions(result)),
    }
    lines = [f"{result.title}: {words[result.verdict]}"]
    if result.verdict == "holds if":
        lines.append('  to confirm        write what "Assumed for you" names, where it is true')
    if result.verdict == "fails" and any(f.verdict == "not checked" for f in result.findings):
        lines.append("and not everything that matters could be checked")
    if over := failing(result):
        lines.append(f"  over the limit    {over}")
    lines.append(f"  highest use       {_governing(result)}")
    lines.append(f"  times on yield    {_yielding(result.times_on_yield)}")
    following = result.first_to_go[:3]
    if following:
        lines.append("  first to go       " + "; ".join(f"{f.part}, {f.check} {use_of(f)}" for f in following))
    return "\n".join(line if len(line) <= columns else _wrapped(line, columns, " " * 20) for line in lines)


def failing(result: Result) -> str:
    """The worst failing check of each part with its use, two sides of one thing once; the other checks are counted."""
    over = [finding for finding in result.ranked if finding.verdict == "fails"]
    worst: dict[str, Finding] = {}
    for finding in over:
        worst.setdefault(finding.part, finding)
    parts: dict[tuple[str, str], list[str]] = {}
    for part, finding in worst.items():
        parts.setdefault((finding.check, use_of(finding)), []).append(part)
    shown = list(parts.items())[:MOST_FAILING]
    told = [f"{named_together(of)}, {check} {use}" for (check, use), of in shown]
    left = len(over) - sum(len(of) for _, of in shown)
    return "; ".join([*told, *([f"and {left} more checks" if left > 1 else "and 1 more check"] if left else [])])


def conditions(result: Result) -> list[tuple[str, str]]:
    """Each condition on which strength rests, with the parts it belongs to."""
    parts: dict[str, list[str]] = {}
    for one in result.conditions:
        parts.setdefault(one.condition, []).append(one.part)
    return [(words, named_together(list(dict.fromkeys(of)))) for words, of in parts.items()]


def _governing(result: Result) -> str:
    finding = result.governing
    return "none: no check could be done" if finding is None else f"{use_of(finding)}  {governing_words(result)}"


def governing_words(result: Result) -> str:
    """What has the highest use; where no load brings it nearer, that is said."""
    finding = result.governing
    assert finding is not None
    if finding.check not in RULES_OF_DETAIL:
        return f"{finding.part}, {finding.check}" + (f" ({finding.case})" if finding.case else "")
    case = f"{finding.case}; " if finding.case else ""
    return f"{finding.part}, {finding.check} ({case}{NO_STRENGTH})"


def _yielding(yielding: TimesOnYield | None) -> str:
    if yielding is None:
        return "no part here has a yield stress to compare with"
    low = "; below 1.5: little left against yield" if yielding.value < LOW_TIMES_ON_YIELD else ""
    asked = "a jack standard's excerpt (ASME B30.1) asks 2 for the jack's own structure"
    return f"{math.floor(yielding.value * 100) / 100:.2f}  {yielding.part}, at rated load{low} ({asked})"


def use_of(finding: Finding) -> str:
    """The utilisation rounded up to two decimals, so that 1.001 never shows as 1.00; "-" where nothing is measured."""
    if is_statement(finding) and finding.utilisation == 0:
        return "-"
    if finding.utilisation is None:
        return "-" if finding.verdict == "not checked" else "over"
    return f"{math.ceil(round(finding.utilisation * 100, 9)) / 100:.2f}"


def is_statement(finding: Finding) -> bool:
    """Whether it says that something is so, without a demand and a capacity to compare."""
    nothing = finding.demand is not None and finding.demand.value == 0
    return finding.check == "retention" or (finding.check == "racking" and nothing)


def _wrapped(line: str, columns: int, indent: str, first: str = "") -> str:
    """Wrapped, but never within a number in groups of three."""
    whole = re.sub(r"(?<=\d) (?=\d{3}(?!\d))", "\u00a0", line)
    text = textwrap.fill(whole, columns, initial_indent=first, subsequent_indent=indent, break_on_hyphens=False)
    return text.replace("\u00a0", " ")


def _basis(basis: Mapping[str, Any], columns: int) -> str:
    words = [f"{name} {value}" for name, value in basis_words(basis)]
    return _wrapped("Basis: " + "; ".join(words), columns, "  ")


def basis_words(basis: Mapping[str, Any]) -> Iterable[tuple[str, str]]:
    """Each factor and force of the basis, in words."""
    return ((_plain(name), _value(value)) for name, value in basis.items())


def _plain(name: str) -> str:
    return name if name.startswith("gamma") else name.replace("_", " ")


def _value(value: Any) -> str:
    if isinstance(value, Mapping):
        return f"{value['value']:.4g} {value['unit']}"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return count(value) if value == round(value) else f"{value:.10g}"
    return str(value)


def _findings(result: Result, columns: int) -> str:
    done = [f for f in result.findings if f.verdict != "not checked"]
    if not done:
        return ""
    rows = rows_merged(_row(f) for f in done)
    explained = [_wrapped(f"by the clause: {BY_THE_CLAUSE}", columns, "    ")] if any(map(clause_of, done)) else []
    table = _table(rows)
    if max(map(len, table.splitlines())) <= columns:
        return "\n".join([table, *explained])
    # On a narrow screen the sources go below, numbered, and the table keeps its columns whole.
    sources = list(dict.fromkeys(row[-1] for row in rows))
    table = _table([(*row[:-1], f"[{sources.index(row[-1]) + 1}]") for row in rows])
    numbered = (_wrapped(f"[{i}] {s}", columns, "    ") for i, s in enumerate(sources, 1))
    return "\n".join([table, *numbered, *explained])


def _table(rows: Iterable[Sequence[str]]) -> str:
    return tabulate(rows, headers=_HEADERS, tablefmt="simple", disable_numparse=True, colalign=_ALIGN)


_ALIGN = ("left", "left", "left", "right", "right", "right", "left", "left")


def _row(f: Finding) -> tuple[str, ...]:
    mark = "*" if f.user_force else ""
    by_clause = clause_of(f)
    clause = f" ({by_clause} by the clause)" if by_clause else ""
    return (
        f.part,
        f.check,
        _short(f.case),
        demand_of(f) + mark,
        capacity_of(f),
        use_of(f) + clause,
        f.verdict,
        f.source,
    )


def clause_of(f: Finding) -> str:
    """The clause's own ratio where it is not the use; else nothing."""
    if f.clause_ratio is None or abs(f.clause_ratio - (f.utilisation or 0)) <= 0.005:
        return ""
    return f"{f.clause_ratio:.2f}" if f.clause_ratio < 1e3 else count(f.clause_ratio)


def demand_of(f: Finding) -> str:
    """The demand as it is shown."""
    return "-" if is_statement(f) else amount_text(f.demand)


def capacity_of(f: Finding) -> str:
    """The capacity as it is shown."""
    return "-" if is_statement(f) else amount_text(f.capacity)


def _short(case: str) -> str:
    """A case without its place and state, which stand in full under "What governed"."""
    return case.split(",")[0].split(";")[0]


def amount_text(amount: Amount | None) -> str:
    if amount is None:
        return "-"
    # A spring's few hundred newtons read better as newtons.
    unit = "N" if amount.unit == "kN" and 0 < abs(amount.value) < 1e3 else amount.unit
    return f"{_figures(in_unit(amount.value, unit))} {unit}".strip()


def _figures(value: float) -> str:
    """Four figures, never in exponents a builder has to decode."""
    if value == 0:
        return "0"
    if abs(value) >= 1e4:
        return count(value)
    if abs(value) < 1e-3:
        return f"{value:.3e}"
    decimals = max(0, 3 - math.floor(math.log10(abs(value))))
    return f"{value:.{min(decimals, 4)}f}"


def _skipped(result: Result) -> list[str]:
    return of_checks((f.part, f.check, f.reason) for f in result.findings if f.verdict == "not checked")


def _lists(result: Result, columns: int) -> Iterable[str]:
    reasons = of_checks((f.part, f.check, told) for f in result.ranked if (told := _governed(f)))
    if len(reasons) > MOST_REASONS:
        left = len(reasons) - MOST_REASONS
        reasons = [*reasons[:MOST_REASONS], f"and {left} more, less used; all of them with --json"]
    typed = any(f.user_force for f in result.findings)
    yield "* from a force typed by the user" if typed else ""
    yield _bullets("Answers", of_sides(result.outcome.answers), columns)
    yield _bullets("What governed", reasons, columns)
    yield _by_part("Assumed for you", ((a.part, a.text) for a in result.assumptions), columns)
    yield _bullets("Advice", of_sides(dict.fromkeys(result.outcome.advice)), columns)
    never = of_checks((n.part, n.check, n.reason) for n in result.does_not_apply)
    yield _bullets("Does not apply", never, columns)


def _governed(f: Finding) -> str:
    """What governed a finding, and its case where the table has it short."""
    words = [f.reason, f.case if f.case != _short(f.case) else ""]
    return "; ".join(word for word in words if word)


def _by_part(title: str, lines: Iterable[tuple[str, str]], columns: int) -> str:
    """Lines under the parts they are about; a part with a single line has it beside its name."""
    blocks = [
        [_wrapped(f"{parts}: {texts[0]}", columns, "    ", "  - ")]
        if len(texts) == 1
        else [f"  - {parts}", *(_wrapped(text, columns, "        ", "      - ") for text in texts)]
        for parts, texts in of_parts(lines)
    ]
    return "\n".join([title, *(line for block in blocks for line in block)]) if blocks else ""


def _bullets(title: str, lines: Iterable[str], columns: int) -> str:
    wrapped = [_wrapped(line, columns, "    ", "  - ") for line in lines]
    return "\n".join([title, *wrapped]) if wrapped else ""
