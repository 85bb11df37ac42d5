"""Runs of fillet along the outline of a member's end, in the plane x = 0: y across its depth, z along it."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Any

from structcheck.checks.member_forms import form
from structcheck.checks.weld_group_description import GroupRun
from structcheck.errors import NotCovered
from structcheck.shapes.section import Section

Spot = tuple[float, float]


def ring_round(section: Section, turned: bool = False, at: Spot = (0.0, 0.0), **sizes: Any) -> tuple[GroupRun, ...]:
    """One fillet all round a tube or a solid bar whose middle stands at `at`. Raises NotCovered for other shapes.

    Rounded corners are cut straight, which takes nothing from the outline but length.
    """
    shape, kind = section.shape, form(section)
    if kind in ("tube", "round"):
        y, z = at
        return (GroupRun(start=(0.0, y + shape.D / 2, z), centre=(0.0, y, z), axis=(1.0, 0.0, 0.0), **sizes),)
    if kind not in ("hollow", "rectangle"):
        raise NotCovered(f"one run goes all round a tube or a bar, and not round {section.designation}")
    wide, deep = (shape.h, shape.b) if turned else (shape.b, shape.h)
    corners = _rounded(wide / 2, deep / 2, float(shape.ro) if kind == "hollow" else 0.0)
    return tuple(_lines([(at[0] + y, at[1] + z) for y, z in corners], continued=True, **sizes))


def _rounded(y: float, z: float, r: float) -> list[Spot]:
    """Corners of a rectangle from -y to y and -z to z, each cut off by r; closed."""
    found: list[Spot] = []
    for p, q in ((1, 1), (-1, 1), (-1, -1), (1, -1)):
        cut = [(p * y, q * (z - r)), (p * (y - r), q * z)]
        found += cut if p == q else cut[::-1]
    spots = list(dict.fromkeys(found))
    return [*spots, spots[0]]


def _lines(spots: Sequence[Spot], **more: Any) -> Iterator[GroupRun]:
    for (y, z), (y_2, z_2) in pairwise(spots):
        yield GroupRun(start=(0.0, y, z), end=(0.0, y_2, z_2), **more)


def fillets_on(section: Section, at: Spot = (0.0, 0.0), **sizes: Any) -> tuple[GroupRun, ...]:
    """Fillets along every side of every wall of a member's end, the middle of its outline at `at`; NotCovered else.

    Each wall of an I or a channel is welded on both its sides, and every run there loses its two ends.
    """
    kind, shape = form(section), section.shape
    if kind in ("tube", "hollow"):
        return ring_round(section, at=at, sides="around", plate=float(shape.t), **sizes)
    if kind == "rectangle":
        return ring_round(section, at=at, sides="both", plate=float(shape.b), **sizes)
    if kind == "round":
        return ring_round(section, at=at, sides="around", **sizes)
    if kind not in ("i", "channel"):
        raise NotCovered(f"the outline of {section.designation} is not followed by fillets here")
    return tuple(_of_walls(section, at, sizes))


def _of_walls(section: Section, at: Spot, sizes: dict[str, Any]) -> Iterator[GroupRun]:
    shape = section.shape
    tw, tf, h, b = float(shape.tw), float(shape.tf), float(shape.h), float(shape.b)
    root = float(shape.r if form(section) == "i" else shape.r1)
    inner = h / 2 - tf

    def run(start: Spot, end: Spot, t: float) -> GroupRun:
        (y, z), (y_2, z_2) = start, end
        ends = {"start": (0.0, at[0] + y, at[1] + z), "end": (0.0, at[0] + y_2, at[1] + z_2)}
        return GroupRun(**ends, sides="both", plate=t, **sizes)

    # A channel's web stands on the left, its back at -b/2.
    web = (-tw / 2, tw / 2) if form(section) == "i" else (-b / 2, tw - b / 2)
    for way in (1.0, -1.0):
        yield run((-b / 2, way * h / 2), (b / 2, way * h / 2), tf)
        for start, end in ((web[1] + root, b / 2), (web[0] - root, -b / 2)):
            if abs(end) > abs(start) or (start < end and start > web[0]):
                yield run((start, way * inner), (end, way * inner), tf)
    clear = inner - root
    backs = ((web[0], h / 2 if form(section) == "channel" else clear), (web[1], clear))
    for y, half in backs:
        yield run((y, -half), (y, half), tw)
