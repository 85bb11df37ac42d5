"""`structcheck schema`: the JSON Schema of the press file."""

import argparse
from typing import Any


def add(commands: Any) -> None:
    """Add the command to the parser."""
    parser = commands.add_parser(
        "schema",
        help="print the JSON Schema of the press file, for an editor",
        description="Print the JSON Schema of the press file, for an editor that completes and checks while you type.",
        epilog="example: structcheck schema > press.schema.json, and as first line of the press file: "
        "#:schema ./press.schema.json",
    )
    parser.set_defaults(run=run)


def run(_: argparse.Namespace) -> int:
    """Print it."""
    from structcheck.report.press_schema import press_schema_text

    print(press_schema_text(), end="")
    return 0
