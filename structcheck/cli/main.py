"""The entry point: finds the command, prints its answer, and turns every wrong input into a message and status 2."""

import argparse
import difflib
import re
import sys
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, NoReturn

from structcheck import __version__
from structcheck.errors import InputError, Problem

START = """\
structcheck: will this press frame hold its jack?

Ask about a whole press, described in a file:
  structcheck check press.toml
  structcheck rated press.toml                      the largest jack it can take
  structcheck report press.toml -o press.html       a page to look at, print and sign

or about one part:
  structcheck beam --section "SHS 100x100x5" --steel S275 --span "900 mm" --load "8 t"
  structcheck bolts --help     weld, spring, pin, guide, platen and upright likewise; joints of other kinds:
                               end-plate, base-plate, rod, weld-group, butt, plate-on-flange, tube-joint,
                               cross-plate, contact
  structcheck sections "RHS 1*"

Every command has --help with an example, and --json.
A check is not a sign-off: have a qualified engineer sign off; local codes and licensed practice come first.
"""

STATUS_HELP = (
    "exit status: 0 holds, 1 fails, 2 the input is wrong, 3 incomplete or holds only if something is confirmed"
)


class Parser(argparse.ArgumentParser):
    """An argument parser whose complaints are our own errors, and to which "-5kg" is a value as "-5 kg" is."""

    def __init__(self, *given: Any, **named: Any) -> None:
        super().__init__(*given, **named)
        self._negative_number_matcher = re.compile(r"-\.?\d")
        self.commands: Mapping[str, Parser] = {}

    @property
    def options(self) -> list[str]:
        """Every option it knows."""
        return [option for action in self._actions for option in action.option_strings]

    def error(self, message: str) -> NoReturn:
        """Raise what argparse would print; the caller prints it with status 2."""
        raise InputError(Problem("", "", message[:200], f"see {self.prog} --help", part=self.prog))


def build_parser(asked: str = "") -> Parser:
    """The parser of all commands; only the one asked for gets its options, which keeps the others unimported."""
    from structcheck.cli import check, question, rated, report, schema, sections, tighten

    parser = Parser(
        prog="structcheck", description="Checks of a jack-driven press frame, never a sign-off.", epilog=STATUS_HELP
    )
    parser.add_argument("--version", action="version", version=f"structcheck {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", parser_class=Parser)
    check.add(commands)
    rated.add(commands)
    report.add(commands)
    question.add(commands, asked)
    schema.add(commands)
    sections.add(commands)
    tighten.add(commands)
    parser.commands = commands.choices
    return parser


def _not_a_command(word: str, known: Iterable[str]) -> Problem:
    """A first word that names no command: the nearest is offered, or the check of a file named without one."""
    known = list(known)
    near = difflib.get_close_matches(word, known, n=1, cutoff=0.6)
    remedy = f"structcheck {near[0]}" if near else ""
    if word.endswith(".toml"):
        remedy = f"structcheck check {word}"
    return Problem("", f'"{word[:60]}"', "is no command", f"one of {', '.join(known)}", remedy, "structcheck")


def _not_options(words: Sequence[str], command: str | None, parser: Parser) -> Problem:
    """Words a command does not know; argparse would name the program alone."""
    asked = f"structcheck {command}" if command else "structcheck"
    known = parser.commands[command].options if command else parser.options
    near = [difflib.get_close_matches(word.split("=")[0], known, n=1, cutoff=0.7) for word in words]
    remedy = " ".join(found[0] for found in near if found)
    fault = f"unrecognized arguments: {' '.join(words)}"[:200]
    return Problem("", "", fault, f"see {asked} --help", remedy, asked)


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; returns the exit status."""
    words = list(sys.argv[1:] if argv is None else argv)
    if not words:
        sys.stdout.write(START)
        return 0
    try:
        parser = build_parser(words[0])
        if not words[0].startswith("-") and words[0] not in parser.commands:
            raise InputError(_not_a_command(words[0], parser.commands))
        arguments, unknown = parser.parse_known_args(words)
        if unknown:
            raise InputError(_not_options(unknown, arguments.command, parser))
        if arguments.command is None:
            sys.stdout.write(START)
            return 0
        return int(arguments.run(arguments))
    except InputError as error:
        if "--json" in words:
            from structcheck.report.as_json import errors_json

            print(errors_json(error))
        print(error, file=sys.stderr)
        return error.exit_status
    except BrokenPipeError:
        # The reader of our output went away (`| head`); that is no error of the user's.
        sys.stderr.close()
        return 0


if __name__ == "__main__":
    sys.exit(main())
