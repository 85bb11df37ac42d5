"""Keys and tables that mean something for a shape of frame: one that means nothing is told, never dropped."""

from collections.abc import Iterator

from structcheck.errors import InputError, Problem
from structcheck.press.frame_schema import FrameTables

_EVERY = {"frame", "guides", "retention"}
_RING = _EVERY | {"head", "bed", "uprights", "corner", "feet", "stops", "mass", "dial"}
TABLES: dict[str, set[str]] = {
    "closed": _RING,
    "H": _RING,
    "posts": _RING,
    "O": _EVERY | {"plate", "upper", "lower", "feet", "mass", "dial"},
    "C": _EVERY | {"plate", "upper", "lower", "feet", "mass"},
    "members": _EVERY | {"feet", "mass", "node", "member", "support", "push", "link", "load", "dial"},
}
_MEASURES = {"shape", "planes", "spacing", "span", "height", "opening", "corners", "jack_on", "jacks", "tooling"}
KEYS: dict[str, set[str]] = {
    "closed": _MEASURES | {"rigid_zones"},
    "H": _MEASURES | {"rigid_zones"},
    "posts": _MEASURES,
    "O": {"shape", "planes", "spacing", "opening", "jack_on", "jacks", "tooling"},
    "C": {"shape", "opening", "jack_on", "tooling"},
    "members": {"shape", "tooling"},
}

_OF_MASS: dict[str, dict[str, str]] = {
    "C": {"height": 'height = "900 mm"', "out": 'out = "300 mm"'},
    "members": {"node": 'node = "A"'},
}
_OF_ANY_MASS = {"height": 'height = "900 mm"'}


def refuse_what_means_nothing(tables: FrameTables) -> None:
    """Raise InputError for every table and key that this shape of frame has no use for."""
    problems = list(_problems(tables))
    if problems:
        raise InputError(problems)


def _problems(tables: FrameTables) -> Iterator[Problem]:
    shape = tables.frame.shape
    fault = f'has no meaning for shape = "{shape}"'
    stated = tables.model_fields_set & set(FrameTables.model_fields)
    for name in sorted(stated - TABLES[shape]):
        if getattr(tables, name):
            yield Problem(name, "", fault, f"the tables {', '.join(sorted(TABLES[shape]))}")
    for key in sorted(tables.frame.model_fields_set - KEYS[shape]):
        yield Problem(key, "", fault, f"the keys {', '.join(sorted(KEYS[shape]))}", part="frame")
    yield from _between_one(tables)
    yield from _of_other_parts(tables)
    yield from _of_masses(tables)
    for dial in tables.dial if shape != "members" else ():
        if dial.on not in ("head", "bed"):
            yield Problem("on", f'"{dial.on}"', "is no beam of this frame", "head or bed", 'on = "head"', "dial")
    if tables.feet is not None and "behind" in tables.feet.model_fields_set and shape != "C":
        yield Problem("behind", "", fault, 'shape = "C"', part="feet")
    if tables.retention is not None and tables.retention.bed_pins is not None and shape != "H":
        yield Problem("bed_pins", "", fault, 'shape = "H"', part="retention")
    for name in ("upper", "lower"):
        edge = getattr(tables, name)
        if edge is not None and edge.beyond is not None and shape != "C":
            yield Problem("beyond", "", fault, 'shape = "C"', part=name)
    if shape == "H":
        for place in sorted(tables.corner):
            if place.startswith("bed"):
                yield Problem(f'corner."{place}"', "", "is a pin in an H-frame", "corners of the head only")
        return
    for key in ("level", "pin_offset"):
        if tables.bed is not None and key in tables.bed.model_fields_set:
            yield Problem(key, "", fault, 'shape = "H"', part="bed")
    if tables.feet is not None and "tie" in tables.feet.model_fields_set:
        yield Problem("tie", "", fault, 'shape = "H"', part="feet")


def _between_one(tables: FrameTables) -> Iterator[Problem]:
    """Distances between planes or pieces of which there is one: another number was meant."""
    rows = [("frame", "spacing", "planes", tables.frame.spacing, tables.frame.planes)]
    for name in ("head", "bed", "uprights"):
        table = getattr(tables, name)
        if table is not None:
            rows.append((name, "apart", "pieces", table.apart, table.pieces))
    for part, key, several, given, number in rows:
        if given is not None and number == 1:
            fault = f"is the distance between {several}, and there is one ({several} = 1)"
            yield Problem(key, f"{given:g} mm", fault, f"{several} above 1, or no {key}", f"{several} = 2", part)


def _of_other_parts(tables: FrameTables) -> Iterator[Problem]:
    """Keys of the other beam, or of the other shape cut from plate: nothing would read them here."""
    shape = tables.frame.shape
    for part, keys, owner in (("head", ("level", "pin_offset"), "bed"), ("bed", ("rolls",), "head")):
        table = getattr(tables, part)
        for key in keys if table is not None else ():
            if key in table.model_fields_set:
                yield Problem(key, "", f"has no meaning for the {part}", f"{key} of [{owner}]", part=part)
    if tables.plate is None:
        return
    for key, owner in (("window", "O"), ("reach", "C")):
        if key in tables.plate.model_fields_set and shape != owner:
            yield Problem(key, "", f'has no meaning for shape = "{shape}"', f'shape = "{owner}"', part="plate")
    gaps = {name: edge.apart for name, edge in (("upper", tables.upper), ("lower", tables.lower)) if edge is not None}
    if None not in gaps.values() and len(set(gaps.values())) > 1:
        fault = f"is not the {gaps['lower']:g} mm between the same plates at [lower]"
        yield Problem("apart", f"{gaps['upper']:g} mm", fault, "one clear distance between the plates", part="upper")


def _of_masses(tables: FrameTables) -> Iterator[Problem]:
    """Where a mass sits, in the words of the shape: all of them and no others."""
    shape = tables.frame.shape
    wanted = _OF_MASS.get(shape, _OF_ANY_MASS)
    nodes = {row.name for row in tables.node}
    for row in tables.mass:
        place = f'mass "{row.name}"'
        for key in ("height", "out", "node"):
            given = getattr(row, key)
            if given is None and key in wanted:
                yield Problem(key, "", "is missing", "where its middle is", wanted[key], place)
            if given is not None and key not in wanted:
                yield Problem(key, "", f'has no meaning for shape = "{shape}"', ", ".join(wanted), part=place)
        if row.node is not None and shape == "members" and row.node not in nodes:
            yield Problem("node", f'"{row.node}"', "is no node", f"one of {', '.join(sorted(nodes))}", part=place)
