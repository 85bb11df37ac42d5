"""`--find throat`, `--find count`, ...: the smallest that holds, its whole check, and why the next smaller does not."""

import argparse
from typing import Any

OF_A_SPRING = ("travel", "space", "rating")
"""What the search for a spring asks beside the keys of a spring."""


def add_finding(parser: Any, kind: str) -> None:
    """Add `--find` where something of this kind of part can be asked for."""
    from structcheck.sizing.find import UNKNOWNS, WantedTable

    if kind not in UNKNOWNS:
        return
    group = parser.add_argument_group("the unknown asked for")
    group.add_argument("--find", choices=UNKNOWNS[kind], help="answer with the smallest that holds")
    if kind == "spring":
        for name in OF_A_SPRING:
            text = f"with --find: {WantedTable.model_fields[name].description}"
            group.add_argument(f"--{name}", metavar=name.upper(), help=text)
        group.add_argument("--stock", metavar="CSV", help="with --find: a stock list of your own")


def refuse_without(arguments: argparse.Namespace) -> None:
    """Refuse what only a search asks. Raises InputError."""
    from structcheck.errors import InputError, Problem

    alone = [name for name in (*OF_A_SPRING, "stock") if getattr(arguments, name, None) is not None]
    if arguments.kind == "spring" and alone:
        wanted = "--fitted and --pressed of a spring that is known, or --find spring"
        raise InputError(Problem(f"--{name}", "", "is only asked with --find spring", wanted) for name in alone)


def run(arguments: argparse.Namespace, given: dict[str, Any], spell: Any) -> int:
    """Find it and print the answer; returns the exit status of the whole check shown."""
    from structcheck.cli.output import own_sections, show
    from structcheck.sizing.find import find

    own = own_sections(arguments.own_sections)
    stock = getattr(arguments, "stock", None)
    answer = find(arguments.kind, arguments.find, given, spell=spell, numbers=False, sections=own, stock=stock)
    return show(answer.result, arguments, answer)
