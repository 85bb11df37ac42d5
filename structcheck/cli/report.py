"""`structcheck report FILE -o press.html`: one page with everything on it."""

import argparse
from pathlib import Path
from typing import Any


def add(commands: Any) -> None:
    """Add the command to the parser."""
    parser = commands.add_parser(
        "report",
        help="write a page to look at, print and sign",
        description="Check a press and write one self-contained page: verdict, figures, working, assumptions, input.",
        epilog="example: structcheck report examples/orchard_press.toml -o press.html",
    )
    parser.add_argument("file", metavar="FILE", help="the press file, or - for standard input")
    where = "where to write it; the file's name with .html if left out"
    parser.add_argument("-o", "--output", metavar="PAGE", help=where)
    parser.add_argument("--own-sections", metavar="CSV", help="sizes of your own, read beside the library")
    parser.add_argument("--date", metavar="YYYY-MM-DD", help="the date in the record; today's if not stated")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Check, write the page, say where it is."""
    from structcheck.cli.output import own_sections
    from structcheck.errors import InputError, Problem
    from structcheck.press.reading import read_file
    from structcheck.report.page import page

    own = own_sections(arguments.own_sections)
    text, name = read_file(arguments.file)
    made = page(text, name, sections=own, date=arguments.date)
    target = arguments.output or (Path(name).with_suffix(".html").name if arguments.file != "-" else "press.html")
    try:
        Path(target).write_text(made.html, encoding="utf-8", newline="\n")
    except OSError as error:
        fault = f"cannot be written: {error.strerror or 'the system refuses'}"
        raise InputError(Problem("--output", f'"{target}"', fault, "a place where a file may be written")) from None
    print(f"{made.result.title}: {made.result.verdict}; the page is {target}")
    return made.result.exit_status
