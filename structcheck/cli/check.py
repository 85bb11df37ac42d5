"""`structcheck check FILE`: a whole press."""

import argparse
from typing import Any


def add(commands: Any) -> None:
    """Add the command to the parser."""
    from structcheck.cli.output import add_showing

    parser = commands.add_parser(
        "check",
        help="check a press described in a file",
        description="Check every part of a press described in a TOML file and say what goes first.",
        epilog="example: structcheck check examples/orchard_press.toml",
    )
    parser.add_argument("file", metavar="FILE", help="the press file, or - for standard input")
    parser.add_argument("--own-sections", metavar="CSV", help="sizes of your own, read beside the library")
    add_showing(parser)
    parser.add_argument("--watch", action="store_true", help="check again whenever the file is saved; Ctrl-C ends it")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Check the file and print the answer."""
    from structcheck.cli.output import own_sections, show
    from structcheck.questions import check_press

    own = own_sections(arguments.own_sections)
    if arguments.watch:
        from structcheck.cli.watch import watch

        return watch(arguments.file, own)
    return show(check_press(arguments.file, sections=own, working=arguments.working or arguments.latex), arguments)
