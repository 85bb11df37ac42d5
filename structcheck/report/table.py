"""A result as text: verdict first, then what goes first, a row a check, what was assumed, the caution."""

import math
import shutil
import textwrap
from collections.abc import Iterable, Mapping
from typing import Any

from tabulate import tabulate

from structcheck.findings import Amount, Finding, Result, TimesOnYield
from structcheck.quantities import in_unit
from structcheck.report.record import Record

ASKED_BY_JACK_STANDARD = 2.0
LOW_TIMES_ON_YIELD = 1.5
MOST_REASONS = 12
_HEADERS = ("part", "check", "case", "demand", "capacity", "use", "verdict", "source")


def columns_of_terminal() -> int:
    """Columns to wrap to: those of the terminal, within reason."""
    return max(80, min(shutil.get_terminal_size((120, 24)).columns, 160))


def as_text(result: Result, width: int | None = None, record: Record | None = None) -> str:
    """The whole answer as text, wrapped to the terminal or to `width`; the record at its foot."""
    columns = width or columns_of_terminal()
    blocks = [
        _headline(result, columns),
        _basis(result.basis, columns),
        f"The frame as understood\n{result.drawing}" if result.drawing else "",
        _findings(result, columns),
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
        "holds if": "HOLDS IF " + "; ".join(dict.fromkeys(a.condition for a in result.conditions)),
    }
    lines = [f"{result.title}: {words[result.verdict]}"]
    if result.verdict == "fails" and any(f.verdict == "not checked" for f in result.findings):
        lines.append("and not everything that matters could be checked")
    lines.append(f"  highest use       {_governing(result.governing)}")
    lines.append(f"  times on yield    {_yielding(result.times_on_yield)}")
    following = result.first_to_go[:3]
    if following:
        lines.append("  first to go       " + "; ".join(f"{f.part}, {f.check} {use_of(f)}" for f in following))
    return "\n".join(
        line if len(line) <= columns else textwrap.fill(line, columns, subsequent_indent=" " * 20) for line in lines
    )


def _governing(finding: Finding | None) -> str:
    if finding is None:
        return "none: no check could be done"
    case = f" ({finding.case})" if finding.case else ""
    return f"{use_of(finding)}  {finding.part}, {finding.check}{case}"


def _yielding(yielding: TimesOnYield | None) -> str:
    if yielding is None:
        return "no part here has a yield stress to compare with"
    low = "; below 1.5: little left against yield" if yielding.value < LOW_TIMES_ON_YIELD else ""
    asked = "a jack standard's excerpt (ASME B30.1) asks 2 for the jack's own structure"
    return f"{math.floor(yielding.value * 100) / 100:.2f}  {yielding.part}, at rated load{low} ({asked})"


def use_of(finding: Finding) -> str:
    """The utilisation rounded up to two decimals, so that 1.001 never shows as 1.00."""
    if finding.utilisation is None:
        return "-" if finding.verdict == "not checked" else "over"
    return f"{math.ceil(round(finding.utilisation * 100, 9)) / 100:.2f}"


def _basis(basis: Mapping[str, Any], columns: int) -> str:
    words = [f"{name} {value}" for name, value in basis_words(basis)]
    return textwrap.fill("Basis: " + "; ".join(words), columns, subsequent_indent="  ", break_on_hyphens=False)


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
    return f"{value:,.10g}".replace(",", " ") if isinstance(value, int | float) else str(value)


def _findings(result: Result, columns: int) -> str:
    done = [f for f in result.findings if f.verdict != "not checked"]
    if not done:
        return ""
    rows = [_row(f) for f in done]
    table = tabulate(rows, headers=_HEADERS, tablefmt="simple", disable_numparse=True, colalign=_ALIGN)
    if max(map(len, table.splitlines())) <= columns:
        return table
    # On a narrow screen the sources go below, numbered, and the table keeps its columns whole.
    sources = list(dict.fromkeys(f.source for f in done))
    numbered = [(*row[:-1], f"[{sources.index(f.source) + 1}]") for row, f in zip(rows, done, strict=True)]
    table = tabulate(numbered, headers=_HEADERS, tablefmt="simple", disable_numparse=True, colalign=_ALIGN)
    legend = [textwrap.fill(f"[{i}] {s}", columns, subsequent_indent="    ") for i, s in enumerate(sources, 1)]
    return table + "\n" + "\n".join(legend)


_ALIGN = ("left", "left", "left", "right", "right", "right", "left", "left")


def _row(f: Finding) -> tuple[str, ...]:
    mark = "*" if f.user_force else ""
    differs = f.clause_ratio is not None and abs(f.clause_ratio - (f.utilisation or 0)) > 0.005
    clause = f" ({f.clause_ratio:.2f} by the clause)" if differs else ""
    return (
        f.part,
        f.check,
        _short(f.case),
        amount_text(f.demand) + mark,
        amount_text(f.capacity),
        use_of(f) + clause,
        f.verdict,
        f.source,
    )


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
    if abs(value) >= 1e6 or abs(value) < 1e-3:
        return f"{value:.3e}"
    decimals = max(0, 3 - math.floor(math.log10(abs(value))))
    return f"{value:.{min(decimals, 4)}f}"


def _lists(result: Result, columns: int) -> Iterable[str]:
    skipped = [f for f in result.findings if f.verdict == "not checked"]
    reasons = [line for f in result.ranked if (line := _governed(f))]
    if len(reasons) > MOST_REASONS:
        left = len(reasons) - MOST_REASONS
        reasons = [*reasons[:MOST_REASONS], f"and {left} more, less used; all of them with --json"]
    typed = any(f.user_force for f in result.findings)
    yield "* from a force typed by the user" if typed else ""
    yield _bullets("Answers", result.outcome.answers, columns)
    yield _bullets("Not checked (not a pass)", [f"{f.part}, {f.check}: {f.reason}" for f in skipped], columns)
    yield _bullets("What governed", reasons, columns)
    yield _bullets("Assumed for you", [f"{a.part}: {a.text}" for a in result.assumptions], columns)
    yield _bullets("Advice", list(dict.fromkeys(result.outcome.advice)), columns)
    yield _bullets("Does not apply", [f"{n.part}, {n.check}: {n.reason}" for n in result.does_not_apply], columns)


def _governed(f: Finding) -> str:
    """What governed a finding, and its case where the table has it short."""
    words = [f.reason, f.case if f.case != _short(f.case) else ""]
    told = "; ".join(word for word in words if word)
    return f"{f.part}, {f.check}: {told}" if told else ""


def _bullets(title: str, lines: Iterable[str], columns: int) -> str:
    wrapped = [
        textwrap.fill(line, columns, initial_indent="  - ", subsequent_indent="    ", break_on_hyphens=False)
        for line in lines
    ]
    return "\n".join([title, *wrapped]) if wrapped else ""
