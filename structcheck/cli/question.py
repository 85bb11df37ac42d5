"""`structcheck beam`, `bolts`, `weld` and so on: one question about one part.

The options are the keys of the press file with dashes; they are made from its description, so they cannot drift.
"""

import argparse
from typing import Any, Literal, get_args, get_origin

from structcheck.cli.output import SHOWING

HELP = {
    "beam": (
        "a beam of one span",
        'structcheck beam --section "SHS 100x100x5" --steel S275 --span "900 mm" --load "8 t" --at "450 mm" '
        "--supports simple --pieces 2 --limit L/500",
    ),
    "upright": (
        "an upright pulled by the press",
        'structcheck upright --section "FL 80x10" --steel S235 --pieces 2 --length "950 mm" --pull "4 t"',
    ),
    "flange": (
        "flanges bent between web and tip",
        'structcheck flange --section "IPE 160" --steel S235 --lever "25 mm" --along "60 mm" --force "1.5 t" '
        '--moment "3 kN m"',
    ),
    "bolts": (
        "a group of bolts",
        'structcheck bolts --size M16 --class 8.8 --rows 2 --columns 2 --pitch "60 mm" --gauge "80 mm" --end "35 mm" '
        '--edge "30 mm" --plate "10 mm" --steel S275 --shear "40 kN" --eccentricity "50 mm"',
    ),
    "weld": (
        "fillet welds",
        'structcheck weld --throat "4 mm" --length "120 mm" --runs 2 --steel S275 --along "40 kN" --inspected',
    ),
    "pin": (
        "a pin in double shear",
        'structcheck pin --diameter "25 mm" --steel S355 --inner "20 mm" --outer "12 mm" --gap "2 mm" --pull "4 t"',
    ),
    "rod": (
        "threaded rods that share a pull",
        'structcheck rod --size M20 --class 4.6 --length "900 mm" --count 4 --pull "8 t"',
    ),
    "butt": ("a butt weld", 'structcheck butt --length "100 mm" --thickness "10 mm" --steel S235 --across "4 t"'),
    "end_plate": (
        "an end plate of a beam, bolted to a flange or a tube",
        'structcheck end-plate --size M16 --class 8.8 --plate "15 mm" --width "120 mm" --steel S235 --gauge "70 mm" '
        '--rows "40 120 mm" --top "165 mm" --web-throat "3 mm" --flange-throat "4 mm" --section "IPE 160" '
        '--behind-section "HEB 120" --grip "26 mm" --moment "8 kN m" --shear "20 kN"',
    ),
    "base_plate": (
        "a plate under a member's foot",
        'structcheck base-plate --section "HEA 140" --length "240 mm" --width "240 mm" --thickness "20 mm" '
        '--steel S235 --concrete "20 MPa" --push "8 t"',
    ),
    "weld_group": (
        "weld runs of any shape in space",
        'structcheck weld-group --runs "0 -5 -40 to 0 -5 40 mm, throat 4 mm, sides both" '
        '--runs "0 5 -40 to 0 5 40 mm, throat 4 mm, sides both" --steel S235 --inspected --force "10 kN" '
        '--direction "0 0 -1" --through "60 0 0 mm"',
    ),
    "plate_on_flange": (
        "a plate welded square across a flange",
        'structcheck plate-on-flange --base "IPE 160" --base-steel S235 --width "80 mm" --thickness "10 mm" '
        '--steel S235 --throat "5 mm" --inspected --pull "4 t"',
    ),
    "tube_joint": (
        "a tube or flat welded to the face of a tube",
        'structcheck tube-joint --chord "SHS 100x100x5" --chord-steel S235 --brace "SHS 80x80x4" --throat "6 mm" '
        '--inspected --pull "4 t" --chord-stress "0 MPa" --beyond "150 mm"',
    ),
    "cross_plate": (
        "a plate under the jack, between two beams",
        'structcheck cross-plate --gap "80 mm" --along "140 mm" --thickness "25 mm" --steel S235 --throat "5 mm" '
        '--both --wall "8 mm" --wall-depth "120 mm" --load "1 t" --inspected',
    ),
    "contact": (
        "a pin pressed on a flat or in a hole",
        'structcheck contact --diameter "30 mm" --length "20 mm" --steel S355 --force "4 t"',
    ),
    "platen": (
        "a platen on bearers or on a frame along its edges",
        'structcheck platen --length "500 mm" --width "400 mm" --thickness "30 mm" --steel S235 --bearers "350 mm" '
        '--load "4 t" --along "300 mm" --across "300 mm"',
    ),
    "spring": (
        "return springs",
        'structcheck spring --wire "6 mm" --mean "42 mm" --active 36 --ends ground --grade SM --free "515 mm" '
        '--fitted "420 mm" --pressed "270 mm" --count 2 --lifts "25 kg" --held rod',
    ),
    "guide": ("a sliding guide", 'structcheck guide --length "120 mm" --offset "50 mm" --friction 0.15'),
}
_FILE_ONLY = ("loads", "bench", "joint", "moves", "centre", "off_line", "gusset", "sleeve")
"""Keys that name something else of a press file, or hold a list of tables."""

_REPEATED = {"beam": ("load", "at", "over")}
_LISTED = {"beam": ("held_at",), "weld_group": ("runs",)}
"""Options given once for each of what they list."""

SEE_ALSO = {
    "bolts": ("end-plate", "base-plate", "rod", "tighten"),
    "weld": ("weld-group", "butt", "plate-on-flange", "tube-joint", "cross-plate"),
    "pin": ("contact",),
}
"""Commands that ask about joints of the same sort."""


def add(commands: Any, asked: str) -> None:
    """Add every question to the parser; only the one asked for with its options."""
    for kind, (summary, example) in HELP.items():
        description = f"Check {summary}. Loads are what the jack pushes; strength checks multiply them by --factor."
        command = kind.replace("_", "-")
        parser = commands.add_parser(command, help=f"check {summary}", description=description)
        if command == asked:
            _fill(parser, kind, example)


def _fill(parser: Any, kind: str, example: str) -> None:
    from structcheck.cli.find import add_finding
    from structcheck.cli.output import add_showing
    from structcheck.press.parts import KINDS
    from structcheck.press.schema import QuestionTable

    # Only a beam's `at` is a distance; a joint's names places of a frame, and one part alone stands in none.
    hidden = _FILE_ONLY if kind == "beam" else (*_FILE_ONLY, "at")
    repeated = (*_REPEATED.get(kind, ()), *_LISTED.get(kind, ()))
    _add_options(parser, KINDS[kind].table, repeated, hidden)
    _add_options(parser.add_argument_group("factors, use and limits"), QuestionTable, (), ())
    add_finding(parser, kind)
    parser.add_argument("--own-sections", metavar="CSV", help="sizes of your own, read beside the library")
    add_showing(parser)
    also = f". see also: {', '.join(SEE_ALSO[kind])}" if kind in SEE_ALSO else ""
    parser.epilog = f"needed checks: {', '.join(KINDS[kind].needed)}. example: {example}{also}"
    parser.set_defaults(run=run, kind=kind)


def _add_options(parser: Any, table: Any, repeated: tuple[str, ...], hidden: tuple[str, ...]) -> None:
    for name, field in table.model_fields.items():
        if name in hidden:
            continue
        option = "--" + (field.alias or name).replace("_", "-")
        text = _described(field).replace("%", "%%")
        kinds = {field.annotation, *getattr(field.annotation, "__args__", ())}
        if bool in kinds and field.default is False:
            parser.add_argument(option, dest=name, action="store_const", const=True, help=text)
        elif bool in kinds:
            parser.add_argument(option, dest=name, action=argparse.BooleanOptionalAction, default=None, help=text)
        else:
            action = "append" if name in repeated else "store"
            parser.add_argument(option, dest=name, action=action, metavar=_metavar(name, field), help=text)


def _described(field: Any) -> str:
    """What an option means, what it may be, and what it is taken as."""
    annotations = (field.annotation, *getattr(field.annotation, "__args__", ()))
    literal = next((one for one in annotations if get_origin(one) is Literal), None)
    if literal is None:
        return field.description or ""
    words = ", ".join(f"{word} (if not stated)" if word == field.default else str(word) for word in get_args(literal))
    return f"{field.description}: {words}" if field.description else words


def _metavar(name: str, field: Any) -> str:
    """COUNT or NUMBER where a bare one is meant; the option's own name where it takes a text, such as a length."""
    from pydantic import BeforeValidator

    texts = any(isinstance(rule, BeforeValidator) for rule in field.metadata)
    return name.upper() if texts else {int: "COUNT", float: "NUMBER"}.get(field.annotation, name.upper())


def run(arguments: argparse.Namespace) -> int:
    """Ask the question and print the answer."""
    from structcheck.cli import find
    from structcheck.cli.output import own_sections, show
    from structcheck.questions import ask

    given = {k: v for k, v in vars(arguments).items() if k not in _NOT_KEYS and v is not None}
    kind = arguments.kind
    given = {key: _number(value, key, kind) for key, value in _loads_in_step(given, kind).items()}
    if getattr(arguments, "find", None):
        return find.run(arguments, given, _option)
    find.refuse_without(arguments)
    result = ask(kind, given, spell=_option, numbers=False, sections=own_sections(arguments.own_sections))
    return show(result, arguments)


_NOT_KEYS = frozenset({"command", "run", "kind", "own_sections", "find", "stock", *SHOWING})


def _option(key: str) -> str:
    return "--" + {"bolt_class": "class"}.get(key, key).replace("_", "-")


def _loads_in_step(given: dict[str, Any], kind: str) -> dict[str, Any]:
    """One load stays `load`, `at`, `over`; several, repeated in step, become `loads`."""
    names = _REPEATED.get(kind, ())
    lists = {name: given.pop(name) for name in names if name in given}
    if len(lists.get("load", ())) <= 1 and all(len(values) == 1 for values in lists.values()):
        return given | {name: values[0] for name, values in lists.items()}
    count = len(lists.get("load", ()))
    for name, values in lists.items():
        if len(values) != count:
            from structcheck.errors import InputError, Problem

            fault = f"is given {len(values)} times beside {count} times --load"
            raise InputError(Problem(f"--{name}", "", fault, "as often as --load, in the same order"))
    return given | {"loads": [{name: values[i] for name, values in lists.items()} for i in range(count)]}


def _number(value: Any, key: str, kind: str) -> Any:
    """A text for a count or a factor as the number it is; left as it is where it is none, to be refused by name."""
    from structcheck.press.parts import KINDS
    from structcheck.press.schema import QuestionTable

    fields = KINDS[kind].table.model_fields | QuestionTable.model_fields
    wanted = fields[key].annotation if key in fields else None
    kinds = {kind if isinstance(kind, type) else type(kind) for kind in (wanted, *getattr(wanted, "__args__", ()))}
    if not isinstance(value, str) or _has_unit_reader(fields.get(key)):
        return value
    text = value.strip()
    if int in kinds and text.lstrip("+-").isdecimal() and text.isascii() and len(text) < 10:
        return int(text)
    if float in kinds and text.isascii() and len(text) < 30 and "_" not in text:
        try:
            return float(text)
        except ValueError:
            return value
    return value


def _has_unit_reader(field: Any) -> bool:
    from structcheck.press.wording import quantity_words

    return field is not None and bool(quantity_words(field))
