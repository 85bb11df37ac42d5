"""`structcheck tighten`: torque for a bolt, the preload to expect, and how far it scatters."""

import argparse
from typing import Any

STATES = ("dry", "as delivered", "oiled", "greased")
WAYS = ("torque wrench", "by hand")
USUAL = ("8.8", "10.9")

NOTES = (
    "Most: the preload at the friction of that state, pull and torsion together at 90 % of yield. Least: what may be "
    "there all the same, by the scatter of the way of tightening. Count on the least; a joint that slips or opens at "
    "the least is not preloaded. Friction by state is common practice for plain steel on steel; plating, locking nuts "
    "and pastes differ: go by their maker, or measure."
)


def add(commands: Any) -> None:
    """Add the command to the parser."""
    parser = commands.add_parser(
        "tighten",
        help="torque for a bolt, and the preload to expect",
        description="Torque by size, class and lubrication, with the preload it gives and its scatter.",
        epilog="example: structcheck tighten --size M16 --class 8.8 --state oiled",
    )
    parser.add_argument("--size", metavar="SIZE", help="such as M16; every size if left out")
    parser.add_argument("--class", dest="bolt_class", metavar="CLASS", help="such as 8.8; 8.8 and 10.9 if left out")
    parser.add_argument("--state", metavar="STATE", help=f"{', '.join(STATES)}; all of them if left out")
    parser.add_argument("--by", metavar="WAY", default=WAYS[0], help=f"{' or '.join(WAYS)}; {WAYS[0]} if left out")
    parser.add_argument("--json", action="store_true", help="answer in JSON")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print the torques asked for."""
    from structcheck.checks.tightening import torque_for
    from structcheck.materials.bolts import find_class, find_size, sizes

    _refuse("--state", arguments.state, STATES)
    _refuse("--by", arguments.by, WAYS)
    names = (arguments.size,) if arguments.size is not None else sizes()
    classes = (arguments.bolt_class,) if arguments.bolt_class is not None else USUAL
    states = (arguments.state,) if arguments.state is not None else STATES
    known = [_marked(find_class(one, key="--class")) for one in classes]
    found = [
        torque_for(find_size(name, key="--size"), one, state, arguments.by)
        for name in names
        for one in known
        for state in states
    ]
    print(_as_json(found, arguments.by) if arguments.json else _as_text(found, arguments.by))
    return 0


def _refuse(key: str, given: str | None, choices: tuple[str, ...]) -> None:
    from structcheck.errors import InputError, Problem

    if given is not None and given not in choices:
        wanted = " or ".join(f'"{choice}"' for choice in choices)
        raise InputError(Problem(key, f'"{given[:60]}"', "is not one of the choices", wanted, f'{key} "{choices[0]}"'))


def _marked(bolt_class: Any) -> Any:
    from structcheck.errors import InputError, Problem

    if bolt_class.assumed:
        fault = "cannot be preloaded: what a bolt without a mark yields at is not known"
        raise InputError(Problem("--class", '"unknown"', fault, "the class marked on the head", "--class 8.8"))
    return bolt_class


def _as_text(found: list[Any], way: str) -> str:
    from tabulate import tabulate

    from structcheck.findings import CAUTION

    rows = [
        (t.size, t.bolt_class, t.state, f"{t.torque / 1e3:.3g}", f"{t.preload / 1e3:.3g}", f"{t.least / 1e3:.3g}")
        for t in found
    ]
    headers = ("size", "class", "state", "torque\nN m", "preload, most\nkN", f"least,\n{way} kN")
    aligned = ("left", "left", "left", "right", "right", "right")
    table = tabulate(rows, headers=headers, tablefmt="simple", disable_numparse=True, colalign=aligned)
    scatter = f"Scatter ({way}): the greatest preload is {found[0].preload / found[0].least:.3g} times the least."
    return f"{table}\n\n{scatter}\n{_wrapped(NOTES)}\nSource: {found[0].source}\n\n{_wrapped(CAUTION)}"


def _wrapped(text: str) -> str:
    import textwrap

    return "\n".join(textwrap.wrap(text, 100))


def _as_json(found: list[Any], way: str) -> str:
    from structcheck.findings import CAUTION
    from structcheck.report.as_json import dumps

    torques = [
        {
            "size": t.size,
            "class": t.bolt_class,
            "state": t.state,
            "by": way,
            "torque": {"value": t.torque / 1e3, "unit": "N m"},
            "preload": {"value": t.preload / 1e3, "unit": "kN"},
            "least preload": {"value": t.least / 1e3, "unit": "kN"},
            "scatter": t.preload / t.least,
            "source": t.source,
        }
        for t in found
    ]
    return dumps({"schema": 1, "torques": torques, "notes": NOTES, "caution": CAUTION})
