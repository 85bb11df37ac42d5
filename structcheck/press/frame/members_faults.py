"""What cannot be in a frame of nodes and members: every fault of its tables, each naming its thing."""

from collections.abc import Iterator, Mapping
from math import dist

from structcheck.analysis.frame_model import DIRECTIONS
from structcheck.errors import Problem
from structcheck.press.frame_schema import ONE_PIECE, FrameTables

Places = Mapping[str, tuple[float, float, float]]
"""Node -> its place, mm."""


def faults(tables: FrameTables, places: Places) -> Iterator[Problem]:
    """Names that are given twice or stand for nothing, and tables that must not be empty."""
    for kind in ("node", "member", "support", "push"):
        if not getattr(tables, kind):
            yield Problem(kind, "", "there are none", f"at least one [[{kind}]]", f"[[{kind}]]", "frame")
    for kind in ("node", "member", "link"):
        names = [row.name for row in getattr(tables, kind)]
        for name in sorted({name for name in names if names.count(name) > 1}):
            yield Problem("name", f'"{name}"', "is given twice", f"a name of its own for each {kind}")
    members = [row.name for row in tables.member]
    for name in sorted(set(members) & set(places)):
        wanted = "a name of its own: pushes and loads name either"
        yield Problem("name", f'"{name}"', "is a node's name too", wanted, part=f'member "{name}"')
    either = [*places, *members]
    named = [(f'member "{row.name}"', row, ("start", "end"), places, "node") for row in tables.member]
    named += [(f'link "{row.name}"', row, ("start", "end"), places, "node") for row in tables.link]
    named += [("push", row, ("start", "end"), either, "member or node") for row in tables.push]
    named += [("load", row, ("on",), either, "member or node") for row in tables.load]
    named += [("support", row, ("node",), places, "node") for row in tables.support]
    for part, row, keys, known, what in named:
        for key in keys:
            name = getattr(row, key)
            if name not in known:
                yield Problem(key, f'"{name}"', f"is no {what}", f"one of {', '.join(known)}", part=part)


def misplaced(tables: FrameTables, places: Places) -> Iterator[Problem]:
    """Nodes at one place, members without length, places off members, directions that are none or held twice."""
    taken: dict[tuple, str] = {}
    for name, place in places.items():
        if place in taken:
            where = ", ".join(f"{value:g}" for value in place)
            fault = f'is at the place of node "{taken[place]}"'
            wanted = "a place of its own, or one node for both"
            yield Problem("x, y, z", f"{where} mm", fault, wanted, part=f'node "{name}"')
        taken.setdefault(place, name)
    lengths = {
        row.name: dist(places[row.start], places[row.end])
        for row in tables.member
        if row.start in places and row.end in places
    }
    yield from _of_members(tables, places, lengths)
    yield from _off_members(tables, places, lengths)
    yield from _of_supports(tables)


def _of_members(tables: FrameTables, places: Places, lengths: Mapping[str, float]) -> Iterator[Problem]:
    for row in tables.member:
        part, length = f'member "{row.name}"', lengths.get(row.name)
        if length is None:
            continue
        if row.start == row.end:
            yield Problem("end", f'"{row.end}"', "is its start too: it has no length", "two nodes apart", part=part)
        elif row.zone_start + row.zone_end >= length > 0:
            given, wanted = f"{row.zone_start + row.zone_end:g} mm", f"together less than its length, {length:g} mm"
            yield Problem("zone_start and zone_end", given, "leave nothing of it", wanted, part=part)
    for node in places:
        ends = [(row, end) for row in tables.member for end in ("start", "end") if getattr(row, end) == node]
        through = [row for row, end in ends if getattr(row, f"at_{end}") == ONE_PIECE]
        if through and not _is_one_piece(through, node, places):
            names = ", ".join(f'"{row.name}"' for row in through)
            fault = f'is "{ONE_PIECE}" at node "{node}"'
            wanted = "two members there in one line, of the same section, steel and pieces"
            yield Problem("at_start, at_end", "", fault, wanted, part=f"member {names}")


def _is_one_piece(rows: list, node: str, places: Places) -> bool:
    """Whether two members are one that goes on through a node."""
    if len(rows) != 2:
        return False
    kept = [(r.section, r.width, r.thickness, r.thread, r.steel, r.pieces, r.turned) for r in rows]
    far = [places[r.end if r.start == node else r.start] for r in rows]
    here = places[node]
    whole, parts = dist(*far), dist(far[0], here) + dist(here, far[1])
    return kept[0] == kept[1] and whole > 0 and parts <= whole * (1 + 1e-6)


def _off_members(tables: FrameTables, places: Places, lengths: Mapping[str, float]) -> Iterator[Problem]:
    """Places on members that lie beyond them, and places on nodes, which have none."""
    spots = [("push", "start_at", row.start, row.start_at, 0.0) for row in tables.push]
    spots += [("push", "end_at", row.end, row.end_at, 0.0) for row in tables.push]
    spots += [("load", "at", row.on, row.at, row.over) for row in tables.load]
    for part, key, name, at, over in spots:
        if name in places and (at is not None or over):
            yield Problem(key, "", f'has no meaning at node "{name}"', "a member's name", part=part)
        length = lengths.get(name)
        if length is None:
            continue
        middle = length / 2 if at is None else at
        if middle - over / 2 < -1e-9 or middle + over / 2 > length + 1e-9:
            given, wanted = f"{middle:g} mm", f"from 0 to {length:g} mm, its length"
            given += f", over {over:g} mm" if over else ""
            yield Problem(key, given, f'is not on member "{name}"', wanted, part=part)
    for row in tables.dial:
        length = lengths.get(row.on)
        if length is None:
            yield Problem("on", f'"{row.on}"', "is no member", f"one of {', '.join(lengths)}", part="dial")
        elif row.at > length:
            yield Problem("at", f"{row.at:g} mm", f'is not on member "{row.on}"', f"at most {length:g} mm", part="dial")
    for row in tables.load:
        if row.load.of == "spread" and (row.on in places or row.at is not None or row.over):
            wanted = "a member, all of its length, or a force with `at` and `over`"
            yield Problem("load", "", "is spread over a whole member", wanted, 'load = "2 kN"', "load")
        if not row.load.value:
            yield Problem("load", "0", "is nothing", "the force it really is", 'load = "2 kN"', "load")


def _of_supports(tables: FrameTables) -> Iterator[Problem]:
    for row in tables.support:
        part = f'support at "{row.node}"'
        ways = row.held.split()
        for way in ways:
            if way not in DIRECTIONS:
                wanted = f"some of {', '.join(DIRECTIONS)}, with spaces between"
                yield Problem("holds", f'"{way}"', "is no direction", wanted, 'holds = "x y z"', part)
        for way in (row.springs.stated() if row.springs else {}) if row.held else ():
            if way in ways:
                yield Problem("springs", way, "is held stiffly too", "one of the two", 'holds = "x y"', part)
    for row in tables.link:
        if not row.springs.stated():
            wanted = "a stiffness in one direction at least"
            remedy = 'springs = { along = "5 kN/mm" }'
            yield Problem("springs", "", "says nothing", wanted, remedy, f'link "{row.name}"')
