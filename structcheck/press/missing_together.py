"""Keys that a part needs because of its other keys, read from the file as written.

A check tells them too, but only once the whole file can be read; here they are told beside its other problems.
"""

from collections.abc import Callable, Mapping
from typing import Any

from structcheck.errors import Problem
from structcheck.record import record

Row = Mapping[str, Any]


@record
class Need:
    """A key that a kind of part needs.

    key     the key named in the message
    when    whether this row needs it
    instead keys that may stand in its place
    """

    key: str
    wanted: str
    remedy: str
    when: Callable[[Row], bool] = lambda row: True
    instead: tuple[str, ...] = ()


def _more_than_one(key: str) -> Callable[[Row], bool]:
    return lambda row: isinstance(row.get(key), int) and row[key] > 1


def _alone(row: Row) -> bool:
    """The part takes a force of its own; a place in the frame gives it one otherwise."""
    return "at" not in row


def _runs_at_a_corner(row: Row) -> bool:
    return "at" in row and _more_than_one("runs")(row)


def _has_wire(row: Row) -> bool:
    return "wire" in row and "rate" not in row and "bench" not in row


def _force(key: str, *instead: str, when: Callable[[Row], bool] = _alone) -> Need:
    return Need(key, "the force on it", f'{key} = "8 t", or a share of the jack: {key} = 0.5', when, instead)


LIFTS = Need("lifts", "mass that must come back", 'lifts = "25 kg"')
PRESSED = Need("pressed", "length at the end of the stroke", 'pressed = "270 mm"', lambda row: "stroke" not in row)

NEEDS: Mapping[str, tuple[Need, ...]] = {
    "beam": (_force("load", "loads", when=lambda row: True),),
    "upright": (_force("pull", "push", "moment", "moment_across"),),
    "bolts": (
        Need("rows", "bolts along the force, or layout", "rows = 2", instead=("layout",)),
        Need("columns", "bolts across the force, or layout", "columns = 2", instead=("layout",)),
        Need("pitch", "the distance between rows, p_1", 'pitch = "60 mm"', _more_than_one("rows")),
        Need("gauge", "the distance between columns, p_2", 'gauge = "80 mm"', _more_than_one("columns")),
        _force("shear", "tension", "across", "twist", "bend_x", "bend_y"),
    ),
    "weld": (
        Need("throat", "the throat or the leg", 'throat = "4 mm"', instead=("leg",)),
        Need("spacing", "the distance between neighbouring runs", 'spacing = "80 mm"', _runs_at_a_corner),
        _force("along", "across"),
    ),
    "pin": (_force("pull"),),
    "spring": (
        Need("wire", "the wire and coil, or the rate of the spring", 'wire = "6 mm"', instead=("rate", "bench")),
        Need("mean", "the mean or the outside coil diameter", 'mean = "42 mm"', _has_wire, ("outside",)),
        Need("active", "the coils that work, or all turns", "active = 36", _has_wire, ("turns",)),
        Need("free", "free length", 'free = "515 mm"', instead=("bench",)),
        Need("fitted", "length at the top of the stroke", 'fitted = "420 mm"'),
        LIFTS,
        PRESSED,
    ),
    "extension_spring": (LIFTS,),
    "die_spring": (LIFTS,),
}


def missing_together(data: Mapping[str, Any]) -> list[tuple[tuple[int | str, ...], Problem]]:
    """What the parts of a press file need and do not state, each with its place in the file."""
    in_sets = bool(data.get("return_set"))  # what stands in a set takes its lengths and its mass from there
    jack = data.get("jack")
    known = {"stroke": jack["stroke"]} if isinstance(jack, dict) and "stroke" in jack else {}
    if _moves(data):
        known["lifts"] = "summed"
    told = []
    for kind, needs in NEEDS.items():
        rows = data.get(kind)
        if in_sets and kind.endswith("spring"):
            continue
        for index, row in enumerate(rows if isinstance(rows, list) else ()):
            if isinstance(row, dict):
                told += [((kind, index, n.key), _problem(n, kind, index, row)) for n in needs if _lacks(n, row | known)]
    return told


def _moves(data: Mapping[str, Any]) -> bool:
    """Whether the mass that springs lift can be summed."""
    platens, masses = (data.get(kind) if isinstance(data.get(kind), list) else [] for kind in ("platen", "mass"))
    still = [isinstance(row, dict) and row.get("moves") is False for row in platens]
    return not all(still) or any(isinstance(row, dict) and row.get("moves") is True for row in masses)


def _lacks(need: Need, row: Row) -> bool:
    return need.when(row) and not any(key in row for key in (need.key, *need.instead))


def _problem(need: Need, kind: str, index: int, row: Row) -> Problem:
    name = row.get("name")
    place = f'{kind} "{name}"' if isinstance(name, str) and name else f"{kind} number {index + 1}"
    return Problem(need.key, "", "is missing", need.wanted, need.remedy, place)
