"""`structcheck rated FILE`: the largest jack rating at which the press holds."""

import argparse
from typing import Any


def add(commands: Any) -> None:
    """Add the command to the parser."""
    parser = commands.add_parser(
        "rated",
        help="the largest jack a press can take",
        description="Find the largest jack rating at which a press holds, for strength and for stiffness apart.",
        epilog="exit status: 0 found; 1 no rating holds; 3 incomplete, or holds only if something is confirmed. "
        "example: structcheck rated examples/orchard_press.toml",
    )
    parser.add_argument("file", metavar="FILE", help="the press file, or - for standard input")
    parser.add_argument("--own-sections", metavar="CSV", help="sizes of your own, read beside the library")
    parser.add_argument("--json", action="store_true", help="answer in JSON")
    parser.add_argument("--date", metavar="YYYY-MM-DD", help="the date in the record; today's if not stated")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Find the rating and print it."""
    from structcheck.cli.output import own_sections
    from structcheck.press.reading import read_file, read_press
    from structcheck.questions import sha256_of
    from structcheck.report.rated import rated_as_json, rated_as_text
    from structcheck.report.record import record_of
    from structcheck.sizing.rated import rated_load

    own = own_sections(arguments.own_sections)
    text, name = read_file(arguments.file)
    rated = rated_load(read_press(text, name, sections=own), file=name, sections=own)
    record = record_of(rated.result, arguments.date, sha256_of(text))
    print(rated_as_json(rated, record) if arguments.json else rated_as_text(rated, record), end="")
    if arguments.json:
        print()
    return rated.exit_status
