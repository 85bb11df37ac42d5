"""`structcheck check FILE`: a whole press."""

import argparse
from typing import Any


def add(commands: Any) -> None:
    """Add the command to the parser."""
    parser = commands.add_parser(
        "check",
        help="check a press described in a file",
        description="Check every part of a press described in a TOML file and say what goes first.",
        epilog="example: structcheck check examples/orchard_press.toml",
    )
    parser.add_argument("file", metavar="FILE", help="the press file, or - for standard input")
    parser.add_argument("--own-sections", metavar="CSV", help="sizes of your own, read beside the library")
    parser.add_argument("--json", action="store_true", help="answer in JSON")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Check the file and print the answer."""
    from structcheck.cli.output import own_sections, show
    from structcheck.questions import check_press

    result = check_press(arguments.file, sections=own_sections(arguments.own_sections))
    return show(result, as_json=arguments.json)
