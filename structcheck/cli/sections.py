"""`structcheck sections PATTERN`: stock sizes with their properties."""

import argparse
from typing import Any


def add(commands: Any) -> None:
    """Add the command to the parser."""
    parser = commands.add_parser(
        "sections",
        help="list stock sizes with their properties",
        description="List the sizes whose designation fits a pattern; * stands for anything.",
        epilog='example: structcheck sections "RHS 1*"',
    )
    parser.add_argument("pattern", nargs="?", default="*", metavar="PATTERN", help='such as "RHS 1*"; all if left out')
    parser.add_argument("--own-sections", metavar="CSV", help="sizes of your own, read beside the library")
    parser.add_argument("--json", action="store_true", help="answer in JSON")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """List the sections; a pattern that fits none is wrong input."""
    from structcheck.cli.output import own_sections
    from structcheck.report.sections import as_json, as_text
    from structcheck.shapes.library import matching

    own = own_sections(arguments.own_sections)
    found = matching(arguments.pattern, own)
    if not found:  # a name as it would be written in a press file, or one with its nearest three
        found = [_named(arguments.pattern, own)]
    print(as_json(found) if arguments.json else as_text(found))
    return 0


def _named(pattern: str, own: Any) -> Any:
    from structcheck.errors import InputError, Problem, UnknownName
    from structcheck.shapes.library import look_up

    try:
        return look_up(pattern, own).section
    except UnknownName as error:
        if not any(sign in pattern for sign in "*?["):
            raise
        wanted, remedy = "a pattern that fits", 'structcheck sections "RHS 1*"'
        raise InputError(Problem("PATTERN", f'"{pattern}"', "fits no section", wanted, remedy)) from error
