"""What the commands share: printing a result, reading a user's own sizes."""

import argparse
from typing import Any

from structcheck.findings import Result
from structcheck.report.as_json import result_json
from structcheck.report.record import record_of
from structcheck.report.table import as_text, columns_of_terminal
from structcheck.shapes.rows import read_csv
from structcheck.shapes.section import Section
from structcheck.sizing.answer import Answer

SHOWING = ("json", "working", "latex", "date")
"""The options every answer takes."""


def add_showing(parser: Any) -> None:
    """Add the options every answer takes."""
    parser.add_argument("--json", action="store_true", help="answer in JSON")
    parser.add_argument("--working", action="store_true", help="set out every formula with its numbers")
    parser.add_argument("--latex", action="store_true", help="the working in LaTeX and nothing else")
    parser.add_argument("--date", metavar="YYYY-MM-DD", help="the date in the record; today's if not stated")


def show(result: Result, arguments: argparse.Namespace, found: Answer | None = None) -> int:
    """Print the result as asked, behind what was found where something was; returns its exit status."""
    record = record_of(result, arguments.date)
    if arguments.latex:
        from structcheck.report.working_latex import working_latex

        print(working_latex(result), end="")
    elif arguments.json:
        print(result_json(found or result, record, _working_json(result) if arguments.working else None))
    else:
        if found is not None:
            print(found.as_text(columns_of_terminal()))
        if arguments.working:
            from structcheck.report.working_text import working_text

            print(working_text(result, columns_of_terminal()))
        print(as_text(result, record=record), end="")
    return result.exit_status


def _working_json(result: Result) -> list[dict[str, Any]]:
    from structcheck.report.working_json import working_dicts

    return working_dicts(result)


def own_sections(path: str | None) -> tuple[Section, ...]:
    """The rows of the user's own CSV, none where no file is named."""
    return tuple(read_csv(path)) if path else ()
