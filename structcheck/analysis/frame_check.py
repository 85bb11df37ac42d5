"""What can be wrong with a described frame or its loads: every fault found, each naming its thing."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from difflib import get_close_matches
from math import inf, isfinite, isinf

import numpy as np

from structcheck.analysis.frame_model import (
    DIRECTIONS,
    RIGID,
    Frame,
    Joint,
    Load,
    Member,
    NodeLoad,
    PointOnMember,
    SelfWeight,
    Settlement,
    SpreadOnMember,
)
from structcheck.errors import InputError, Problem

PLANES = {"xz": ("y", "rx", "rz"), "xy": ("z", "rx", "ry"), "yz": ("x", "ry", "rz")}


def unknown(key: str, given: str, known: Iterable[str], part: str = "") -> Problem:
    """A name nobody defined; offers the nearest."""
    known = [str(name) for name in known]
    near = get_close_matches(str(given), known, n=1)
    remedy = f'{key} = "{near[0]}"' if near else ""
    return Problem(key, f'"{given}"', "is not defined", "one of " + ", ".join(known), remedy, part)


def check_frame(frame: Frame) -> None:
    """Raise InputError with every fault of the structure; loads are looked at by `check_loads`."""
    problems = list(_nodes(frame))
    problems += _repeated("member", (member.name for member in frame.members))
    problems += _repeated("spring", (spring.name for spring in frame.springs))
    for member in frame.members:
        problems += _ends(f'member "{member.name}"', member.start, member.end, frame.nodes)
        problems += _figures(member)
        problems += _joint(member.name, "at_start", member.at_start)
        problems += _joint(member.name, "at_end", member.at_end)
    for spring in frame.springs:
        part = f'spring "{spring.name}"'
        problems += _ends(part, spring.start, spring.end, frame.nodes)
        problems += _stiffnesses(part, "stiffness", spring.stiffness, (*DIRECTIONS, "along"))
    problems += _supports(frame)
    if not problems:
        problems = list(_places(frame))
    if problems:
        raise InputError(problems)


def _repeated(kind: str, names: Iterable[str]) -> Iterator[Problem]:
    for name, count in Counter(names).items():
        if count > 1:
            yield Problem("name", f'"{name}"', f"is given to {count} {kind}s", f"a name of its own for each {kind}")


def _nodes(frame: Frame) -> Iterator[Problem]:
    if not frame.members:
        yield Problem("members", "", "there are none", "at least one member")
    for name, place in frame.nodes.items():
        if len(place) != 3 or not all(map(isfinite, place)):
            yield Problem(
                "nodes", f"{tuple(place)}", "is no place", "three finite numbers in mm", part=f'node "{name}"'
            )
    if frame.plane is not None and frame.plane not in PLANES:
        yield Problem("plane", f'"{frame.plane}"', "is not known", "one of " + ", ".join(PLANES))


def _ends(part: str, start: str, end: str, nodes: Mapping[str, object]) -> Iterator[Problem]:
    for key, name in (("start", start), ("end", end)):
        if name not in nodes:
            yield unknown(key, name, nodes, part)
    if start == end:
        yield Problem("end", f'"{end}"', "is also its start", "another node", part=part)


def _figures(member: Member) -> Iterator[Problem]:
    part = f'member "{member.name}"'
    positive = 0 < member.E < inf and 0 < member.G < inf and 0 < member.A < inf
    if positive and 0 <= member.Iy < inf and 0 <= member.Iz < inf and 0 <= member.J < inf and isfinite(member.angle):
        yield from _shear_areas(member, part)
        return
    for key in ("E", "G", "A"):
        value = getattr(member, key)
        if not (isfinite(value) and value > 0):
            yield Problem(key, f"{value}", "is not positive and finite", "a positive number", part=part)
    for key in ("Iy", "Iz", "J"):
        value = getattr(member, key)
        if not (isfinite(value) and value >= 0):
            yield Problem(key, f"{value}", "is negative or not finite", "a number in mm4, 0 or more", part=part)
    yield from _shear_areas(member, part)
    if not isfinite(member.angle):
        yield Problem("angle", f"{member.angle}", "is not finite", "an angle in rad", part=part)


def _shear_areas(member: Member, part: str) -> Iterator[Problem]:
    for key, value in (("Asy", member.Asy), ("Asz", member.Asz)):
        if value is not None and not value > 0:
            yield Problem(key, f"{value}", "is not positive", "a positive area in mm2, or None", part=part)


def _joint(member: str, key: str, joint: Joint) -> Iterator[Problem]:
    if joint is RIGID:
        return
    part = f'member "{member}"'
    for direction in DIRECTIONS:
        value = getattr(joint, direction)
        if not value >= 0:
            yield Problem(f"{key}.{direction}", f"{value}", "is not a stiffness", "0 or more, or infinite", part=part)
    if not (isfinite(joint.offset) and joint.offset >= 0):
        yield Problem(f"{key}.offset", f"{joint.offset} mm", "is not a length", "0 mm or more", part=part)


def _stiffnesses(part: str, key: str, given: Mapping[str, float], known: Sequence[str]) -> Iterator[Problem]:
    for direction, value in given.items():
        if direction not in known:
            yield unknown(key, direction, known, part)
        elif not (isfinite(value) and value >= 0):
            wanted = "0 or more, and finite"
            yield Problem(f"{key} {direction}", f"{value}", "is not a stiffness", wanted, part=part)


def _supports(frame: Frame) -> Iterator[Problem]:
    held = False
    for support in frame.supports:
        part = f'support of node "{support.node}"'
        if support.node not in frame.nodes:
            yield unknown("node", support.node, frame.nodes, "support")
        for direction in support.fixed.split():
            if direction not in DIRECTIONS:
                yield unknown("fixed", direction, DIRECTIONS, part)
        yield from _stiffnesses(part, "springs", support.springs, DIRECTIONS)
        held = held or bool(support.fixed.split()) or any(value > 0 for value in support.springs.values())
    if not held:
        yield Problem("supports", "", "nothing holds the structure", "at least one node held or on a spring")


def _places(frame: Frame) -> Iterator[Problem]:
    """Nodes that coincide, members without length, zones longer than their member, `up` along the member."""
    joined = {frozenset((spring.start, spring.end)) for spring in frame.springs}
    first: dict[tuple[float, ...], str] = {}
    for name, place in frame.nodes.items():
        other = first.setdefault(tuple(map(float, place)), name)
        if other != name and frozenset((other, name)) not in joined:
            fault = f'is at the place of node "{other}"'
            yield Problem(
                "nodes", f"{tuple(place)}", fault, "one node, or a spring between the two", part=f'node "{name}"'
            )
    for spring in frame.springs:
        if "along" in spring.stiffness and tuple(frame.nodes[spring.start]) == tuple(frame.nodes[spring.end]):
            part, wanted = f'spring "{spring.name}"', "directions x to rz for nodes at one place"
            yield Problem("stiffness", "along", "has no direction", wanted, part=part)
    for member in frame.members:
        part = f'member "{member.name}"'
        span = np.subtract(frame.nodes[member.end], frame.nodes[member.start])
        length = float(np.sqrt(span @ span))
        if length == 0.0:
            yield Problem("end", f'"{member.end}"', "leaves the member no length", "a node somewhere else", part=part)
        elif member.at_start.offset + member.at_end.offset >= length:
            given = f"{member.at_start.offset:g} + {member.at_end.offset:g} mm"
            yield Problem("offset", given, "leaves nothing to bend", f"less than {length:g} mm in all", part=part)
        elif member.up is not None:
            (x, y, z), (a, b, c) = span.tolist(), member.up
            across = (y * c - z * b) ** 2 + (z * a - x * c) ** 2 + (x * b - y * a) ** 2
            if not across > 1e-16 * length**2 * float(np.dot(member.up, member.up)):
                yield Problem("up", f"{member.up}", "gives no side", "a vector across the member", part=part)


def check_loads(frame: Frame, cases: Mapping[str, Sequence[Load]], lengths: Mapping[str, float]) -> None:
    """Raise InputError with every fault of the loads; `lengths` gives the length of each member."""
    held = {(node, direction) for node, direction in held_directions(frame)}
    problems: list[Problem] = []
    if not cases:
        problems.append(Problem("cases", "", "there are none", "at least one load case"))
    for case, loads in cases.items():
        part = f'case "{case}"'
        for load in loads:
            if isinstance(load, NodeLoad | Settlement):
                problems += _node_load(load, part, frame, held)
            else:
                problems += _member_load(load, part, lengths)
    if problems:
        raise InputError(problems)


def held_directions(frame: Frame) -> Iterator[tuple[str, str]]:
    """Every (node, direction) held by a support, the plane apart."""
    for support in frame.supports:
        for direction in support.fixed.split():
            yield support.node, direction


def _node_load(load: NodeLoad | Settlement, part: str, frame: Frame, held: set[tuple[str, str]]) -> Iterator[Problem]:
    if load.node not in frame.nodes:
        yield unknown("node", load.node, frame.nodes, part)
    elif isinstance(load, NodeLoad):
        yield from _vectors(part, f'load on node "{load.node}"', load.force, load.moment)
    else:
        for direction, value in load.moves.items():
            key = f'node "{load.node}" {direction}'
            if (load.node, direction) not in held:
                yield Problem(key, "", "is not held, so it cannot be moved", "a direction its support fixes", part=part)
            elif not isfinite(value):
                yield Problem(key, f"{value}", "is not finite", "a displacement in mm or rad", part=part)


def _member_load(
    load: PointOnMember | SpreadOnMember | SelfWeight, part: str, lengths: Mapping[str, float]
) -> Iterator[Problem]:
    if isinstance(load, SelfWeight):
        for name in load.members or ():
            if name not in lengths:
                yield unknown("member", name, lengths, part)
        yield from _vectors(part, "self weight", load.direction, (load.density, load.g))
        if not any(load.direction):
            yield Problem("direction", f"{load.direction}", "points nowhere", "a vector, such as (0, 0, -1)", part=part)
        return
    if load.member not in lengths:
        yield unknown("member", load.member, lengths, part)
        return
    length = lengths[load.member]
    where = f'load on member "{load.member}"'
    if load.axes not in ("global", "local"):
        yield Problem("axes", f'"{load.axes}"', "is not known", "global or local", part=part)
    if isinstance(load, PointOnMember):
        places = {"at": load.at}
        yield from _vectors(part, where, load.force, load.moment)
    else:
        end = length if load.end is None else load.end
        places = {"start": load.start, "end": end}
        yield from _vectors(part, where, load.force, load.to or load.force)
        if not load.start < end:
            fault = "leaves the load no length"
            yield Problem(f"{where}, end", f"{end:g} mm", fault, f"more than {load.start:g} mm", part=part)
    for key, place in places.items():
        if not -1e-9 * length <= place <= length * (1 + 1e-9):
            wanted = f"a position from 0 to {length:g} mm"
            yield Problem(f"{where}, {key}", f"{place:g} mm", "is off the member", wanted, part=part)


def _vectors(part: str, key: str, *vectors: Sequence[float]) -> Iterator[Problem]:
    for vector in vectors:
        if not all(map(isfinite, vector)):
            yield Problem(key, f"{tuple(vector)}", "is not finite", "finite numbers", part=part)


def has_joint(joint: Joint) -> bool:
    """Whether any direction of the joint is not rigid."""
    return not all(isinf(getattr(joint, direction)) for direction in DIRECTIONS)
