"""A platen and what presses it, and how it bends: the plate of analysis.plate that it is."""

import math
from dataclasses import replace
from functools import lru_cache
from typing import Literal, NamedTuple

from structcheck.analysis.plate import SIDES, Patch, Plate, PlateSolution, solve_plate
from structcheck.checks.basis import RATED, Case
from structcheck.errors import NotCovered
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.standards import handbook_plates as plates

E = 210_000.0


@record
class Platen:
    """A plate, and what it lies on.

    length, width, thickness  mm
    bearers   distance between two bearers across the whole width, about the middle, mm, or the place of each from the
              left end; None: a frame along all four edges
    flatness  how far from flat it may bend at rated force, mm; None: an answer is given, no verdict
    pushed    diameter of the round saddle that pushes on the middle of its other face, mm: the plate then stands free
              between saddle and work; None: it is held by what it lies on
    """

    name: str
    length: float
    width: float
    thickness: float
    steel: Steel
    bearers: float | tuple[float, ...] | None = None
    flatness: float | None = None
    pushed: float | None = None

    @property
    def places(self) -> tuple[float, ...]:
        """Where the bearers stand, from the left end, mm."""
        if isinstance(self.bearers, (int, float)):
            return (self.length - self.bearers) / 2, (self.length + self.bearers) / 2
        return tuple(sorted(self.bearers or ()))


class PlatenLoads(NamedTuple):
    """A force spread evenly over a patch.

    force    N
    along    patch along the length, mm, or its diameter if it is round; None: the whole length
    across   patch across, mm; None: the whole width
    shape    "rectangle" or "round"
    at       middle of the patch from the left end, mm; None: the middle
    aside    middle of the patch from the plate's middle line, mm
    saddles  where saddles push on the other face with equal shares, from the plate's middle, mm
    """

    case: Case
    force: float
    along: float | None = None
    across: float | None = None
    shape: Literal["rectangle", "round"] = "rectangle"
    at: float | None = None
    aside: float = 0.0
    saddles: tuple[tuple[float, float], ...] = ((0.0, 0.0),)


def alike(length: float, places: tuple[float, ...]) -> bool:
    """Whether the bearers stand as their mirror image does."""
    return places == tuple(length - place for place in reversed(places))


def patch_of(part: Platen, load: PlatenLoads, *, for_stress: bool) -> Patch:
    """The loaded rectangle; for stress a small patch is widened as its equivalent radius (handbook_plates)."""
    along = part.length if load.along is None else load.along
    across = part.width if load.across is None else load.across
    if load.shape == "round":
        along = across = along * math.sqrt(math.pi) / 2
    radius = math.sqrt(along * across / math.pi)
    if for_stress and radius < part.thickness / 2:
        side = plates.equivalent_radius(radius, part.thickness) * math.sqrt(math.pi)
        along, across = max(along, side), max(across, side)
    at = part.length / 2 if load.at is None else load.at
    if for_stress:  # a patch at the edge cannot be widened beyond it
        along = min(along, 2 * min(at, part.length - at))
        across = min(across, part.width - 2 * abs(load.aside))
    return Patch(load.force, at, part.width / 2 + load.aside, along, across)


Spot = tuple[float, float, float, float]
"""Middle and size of a patch."""


def _saddles(part: Platen, load: PlatenLoads, *, for_stress: bool) -> tuple[Spot, ...]:
    """What pushes on the other face, as patches of round loads."""
    if part.pushed is None:
        return ()
    behind = []
    for x, y in load.saddles:
        pushed = PlatenLoads(RATED, 1.0, part.pushed, shape="round", at=part.length / 2 + x, aside=y)
        patch = patch_of(part, pushed, for_stress=for_stress)
        behind.append((patch.x, patch.y, patch.along, patch.across))
    return tuple(behind)


class Bent(NamedTuple):
    """What the plate does under its load: out of flat, mm; greatest moment per width, N; bearer forces, N."""

    out_of_flat: float
    moment: float
    bearer_forces: tuple[float, ...]


def bent(part: Platen, load: PlatenLoads, *, for_stress: bool) -> Bent:
    """The bent plate. Raises NotCovered where it would lift off a bearer."""
    unit = _under_unit_force_anywhere(*_described(part, load, for_stress=for_stress))
    if unit.bearer_forces and min(unit.bearer_forces) < -1e-6:
        raise NotCovered("the platen lifts off a bearer")
    F = load.force
    return Bent(F * unit.out_of_flat, F * unit.moment, tuple(F * force for force in unit.bearer_forces))


def shape_of(part: Platen, load: PlatenLoads) -> PlateSolution:
    """The whole bent plate under a load as it presses, for those who draw it."""
    solved = _solved(*_described(part, load, for_stress=False))
    forces = tuple(load.force * force for force in solved.bearer_forces)
    return replace(solved, w=load.force * solved.w, bearer_forces=forces)


def _described(
    part: Platen, load: PlatenLoads, *, for_stress: bool
) -> tuple[tuple[float, float, float], tuple[float, ...], Spot, tuple[Spot, ...]]:
    """Size, bearers, the loaded patch and the saddles behind it."""
    patch = patch_of(part, load, for_stress=for_stress)
    return (
        (part.length, part.width, part.thickness),
        part.places,
        (patch.x, patch.y, patch.along, patch.across),
        _saddles(part, load, for_stress=for_stress),
    )


def _under_unit_force_anywhere(
    size: tuple[float, float, float], places: tuple[float, ...], patch: Spot, behind: tuple[Spot, ...]
) -> Bent:
    """A load right of the middle, or above it, bends a plate alike on both sides as its mirror image does."""
    length, width, _ = size
    x, y, along, across = patch
    turned = x > length / 2 and alike(length, places) and _mirrored(behind, 0, length)
    x = length - x if turned else x
    y = width - y if y > width / 2 and _mirrored(behind, 1, width) else y
    unit = _under_unit_force(size, places, (x, y, along, across), behind)
    return unit._replace(bearer_forces=unit.bearer_forces[::-1]) if turned else unit


def _mirrored(behind: tuple[Spot, ...], axis: int, size: float) -> bool:
    """Whether the saddles stand as their mirror image does."""
    return sorted(behind) == sorted((*spot[:axis], size - spot[axis], *spot[axis + 1 :]) for spot in behind)


@lru_cache(maxsize=256)
def _under_unit_force(
    size: tuple[float, float, float], places: tuple[float, ...], patch: Spot, behind: tuple[Spot, ...]
) -> Bent:
    """Linear in the force, so one solution serves every case of a place."""
    solved = _solved(size, places, patch, behind)
    return Bent(solved.out_of_flat, solved.greatest_moment, solved.bearer_forces)


def _solved(
    size: tuple[float, float, float], places: tuple[float, ...], patch: Spot, behind: tuple[Spot, ...]
) -> PlateSolution:
    """The plate under 1 N."""
    if not behind:
        edges = {} if places else dict.fromkeys(SIDES, "simple")
        return solve_plate(Plate(*size, edges, places, E=E), [Patch(1.0, *patch)])
    # Between saddle and work the plate is in balance: its corners only keep it in place. Held along its edges it
    # could not dish. A force off the middle pushes its couple into the corners, as the guides beside it take it.
    length, width, _ = size
    corners = tuple((x, y) for x in (0.0, length) for y in (0.0, width))
    pushed = [Patch(-1.0 / len(behind), *spot) for spot in behind]
    return solve_plate(Plate(*size, points=corners, E=E), [Patch(1.0, *patch), *pushed])
