"""The plate around the bolts: spacing of holes, net section, blocks torn out.

Every function judges one case and raises NotCovered where something needed is not stated.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np

from structcheck.checks.basis import Basis
from structcheck.checks.bolts_group import EAST, NORTH, SOUTH, WEST, BoltGroup, BoltLoads, Force, in_plane
from structcheck.checks.bolts_paths import Cut, cut_along, torn_out, zigzags
from structcheck.checks.bolts_strength import of_group, require_steel
from structcheck.errors import NotCovered
from structcheck.findings import Finding, judged
from structcheck.formula import unrecorded
from structcheck.maths import distinct, minimum
from structcheck.standards.en1993_1_1.net_section import gain_of_slant, net_area_of_zigzag
from structcheck.standards.en1993_1_8 import bolts as clause

NET_SECTION = "EN 1993-1-1:2005 6.2.3(2)"
BLOCK_TEARING = "EN 1993-1-8:2005 3.10.2"
TABLE_3_3 = "EN 1993-1-8:2005 Table 3.3"


def spacing(part: BoltGroup) -> Finding:
    """Bolt spacing: the distance that stands worst against Table 3.3."""
    missing = [key for key in ("end", "edge") if getattr(part, key) is None]
    if missing:
        raise NotCovered(f"{' and '.join(f'`{key}`' for key in missing)} not stated")
    given = {"end": part.end, "far_end": part.far_end, "edge": part.edge, "far_edge": part.far_edge}
    # A slot is measured from the centre of its rounded end (figure 3.1).
    drawn = {key: (part.hole_size(key.endswith("end")) - part.d_0) / 2 for key in given}
    edges = [(key, value - drawn[key]) for key, value in given.items() if value is not None]
    steps = _steps(part)
    # Slots want half as much again at their ends and edges (Table 3.3, e_3 and e_4).
    least_edge = 1.5 * part.d_0 if part.slot else clause.least_edge(part.d_0)
    rows = [(least_edge, value, f"`{key}`: least distance {least_edge:.4g} mm") for key, value in edges]
    rows += [(least, value, f"`{key}`: least distance {least:.4g} mm") for key, value, least in steps]
    if part.exposed is not False:
        why = "compression and exposed members only: exposed = false where it is neither"
        most = float(clause.greatest_spacing(part.thinnest))
        rows += [(value, most, f"`{key}`: greatest distance {most:.4g} mm ({why})") for key, value, _ in steps]
    if part.exposed:
        most = float(clause.greatest_edge(part.thinnest))
        rows += [(value, most, f"`{key}`: greatest distance {most:.4g} mm of an exposed edge") for key, value in edges]
    demand, capacity, reason = max(rows, key=lambda row: row[0] / row[1])
    return judged(part.name, "bolt spacing", "", demand, capacity, "mm", TABLE_3_3, reason=reason)


def _steps(part: BoltGroup) -> list[tuple[str, float, float]]:
    """Distances of neighbouring holes: name, distance, least of Table 3.3."""
    if part.layout is None:
        steps = [("pitch", part.pitch, clause.least_pitch(part.d_0))] if part.rows > 1 else []
        return steps + ([("gauge", part.gauge, clause.least_gauge(part.d_0))] if part.columns > 1 else [])
    found = []
    for index, spot in enumerate(part.positions):
        offset = np.delete(part.positions, index, axis=0) - spot
        if not len(offset):
            continue
        near = offset[np.argmin(np.hypot(*offset.T))]
        in_line = abs(near[0]) < 1e-6
        least = clause.least_pitch(part.d_0) if in_line else clause.least_gauge(part.d_0)
        found.append(("layout", float(np.hypot(*near)), least))
    return found


@dataclass(frozen=True)
class NetLine:
    """A straight line through a row or column of holes, and what passes it from the bolts on its free side.

    length   of the line across the plate
    holes    centres of the holes on it, from the middle of the line
    hole     how far a hole reaches along the line
    N, V, M  force square to the line, along it, and moment in the plane of the plate
    """

    length: float
    holes: tuple[float, ...]
    hole: float
    N: float
    V: float
    M: float
    what: str

    def net_area(self, t: float) -> float:
        """Area left by the holes."""
        return (self.length - len(self.holes) * self.hole) * t

    def net_modulus(self, t: float) -> float:
        """Elastic section modulus left by the holes about the centre of the net line."""
        return _net_modulus(self.length, self.holes, t, self.hole)

    def stress(self, t: float) -> float:
        """Greatest elastic von Mises stress; the peaks of direct and shear stress are taken at one point."""
        area = self.net_area(t)
        direct = abs(self.N) / area + abs(self.M) / self.net_modulus(t)
        return math.sqrt(direct**2 + 3 * (self.V / area) ** 2)


def net_lines(part: BoltGroup, loads: BoltLoads) -> list[NetLine]:
    """Every line of holes the plate may carry its force through.

    Along the force for a plate pulled; where the force stands beside the centre the plate may as well go on across
    it (a bracket), and unless `plate_runs` says which, both are given.
    """
    both = loads.turn or loads.across
    ways = [part.plate_runs] if part.plate_runs else ["along", "across"] if both else ["along"]
    lines = [line for way in ways for line in _lines(part, loads, way)]
    if any(line.length <= len(line.holes) * line.hole for line in lines):
        raise NotCovered("nothing is left of the plate between the holes")
    return lines


@lru_cache(maxsize=256)
def _net_modulus(length: float, holes: tuple[float, ...], t: float, d_0: float) -> float:
    area = (length - len(holes) * d_0) * t
    centre = -sum(hole * d_0 * t for hole in holes) / area
    second = t * length**3 / 12 + t * length * centre**2
    second -= sum(t * d_0**3 / 12 + t * d_0 * (hole - centre) ** 2 for hole in holes)
    return second / (length / 2 + abs(centre))


@dataclass(frozen=True)
class _Cuts:
    """The lines of holes of a plate that goes on one way, whatever the load.

    length  of each line
    holes   centres of the holes on each line, from its middle
    free    bolts on the free side, by the side's sign: (lines, bolts), 1 or 0
    arms    of the bolts from each line: square to it (lines, bolts), and along it from its middle (bolts)
    """

    length: float
    holes: tuple[tuple[float, ...], ...]
    free: dict[float, np.ndarray]
    arms: tuple[np.ndarray, np.ndarray]


def _cuts(part: BoltGroup, along_y: bool) -> _Cuts:
    asked = "cuts", along_y
    if asked in part.memo:
        return part.memo[asked]
    axis, cross = (1, 0) if along_y else (0, 1)
    low, high = _extent(part, along_y)
    stations = distinct(np.round(part.positions[:, axis], 9))
    ahead = part.positions[:, axis] - stations[:, None]
    beside = part.positions[:, cross] - (low + high) / 2
    holes = tuple(tuple(float(hole) for hole in beside[on_line]) for on_line in np.abs(ahead) < 1e-6)
    free = {side: (ahead * side > -1e-6).astype(float) for side in (1.0, -1.0)}
    return part.memo.setdefault(asked, _Cuts(high - low, holes, free, (ahead, beside)))


def _lines(part: BoltGroup, loads: BoltLoads, way: str) -> Iterator[NetLine]:
    along_y = way == "along"
    cuts = _cuts(part, along_y)
    forces = in_plane(part, loads)
    square, beside = (forces[:, 1], forces[:, 0]) if along_y else (forces[:, 0], forces[:, 1])
    moments = cuts.arms[1] * square - cuts.arms[0] * beside
    # The plate is pulled from behind the loaded end; a bracket may be held on either side.
    sides = (1.0 if loads.shear > 0 else -1.0,) if along_y and loads.shear and not loads.across else (1.0, -1.0)
    for side in sides:
        free = cuts.free[side]
        passed = zip(cuts.holes, free @ square, free @ beside, (free * moments).sum(axis=1), strict=True)
        for holes, N, V, M in passed:
            what = f"through {len(holes)} hole{'s' if len(holes) > 1 else ''}, plate {way} the force"
            yield NetLine(cuts.length, holes, part.hole_size(not along_y), float(N), float(V), float(M), what)


def _extent(part: BoltGroup, along_y: bool) -> tuple[float, float]:
    """From one edge of the plate to the other, along the line of holes."""
    if along_y:
        if part.edge is None:
            raise NotCovered("`edge` is not stated: the width of the plate is not known")
        return -float(part.outline[WEST]), float(part.outline[EAST])
    if part.end is None:
        raise NotCovered("`end` is not stated: the depth of the plate is not known")
    return -float(part.outline[SOUTH]), float(part.outline[NORTH])


def net_section(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """Net section under the force, and under its moment in the plane where it stands beside the centre."""
    require_steel(part)
    if part.lines is None:
        return _staggered_net_section(part, loads, basis)
    ratio, reason = max((_net_ratio(part, line, basis), line.what) for line in net_lines(part, loads))
    source = "EN 1993-1-1:2005 6.2.3(4)" if part.category == "C" else NET_SECTION
    return of_group(part, "net section", loads, loads.force, ratio, source, reason)


def _net_ratio(part: BoltGroup, line: NetLine, basis: Basis) -> float:
    t = part.plate
    area, modulus = line.net_area(t), line.net_modulus(t)
    return float(_net_share(part, basis, line.length * t, area, modulus, (line.N, line.V, line.M)))


def _net_share(part: BoltGroup, basis: Basis, gross: float, area: Any, modulus: Any, passed: tuple[Any, ...]) -> Any:
    """Share of a net section's resistance, numbers or arrays."""
    (N, V, M), (f_y, f_u) = passed, part.steel.strengths(part.plate)
    pulled = minimum(
        clause.gross_section_resistance(gross, f_y, basis.gamma_M0),
        clause.net_section_resistance(area, f_u, basis.gamma_M2),
    )
    if part.category == "C":
        pulled = clause.net_section_resistance_category_C(area, f_y, basis.gamma_M0)
    bent, cut = modulus * f_y / basis.gamma_M0, area * f_y / (math.sqrt(3) * basis.gamma_M0)
    # A linear sum of pull and bending, with the shear squared: below the yield surface everywhere on the net line.
    return np.hypot(abs(N) / pulled + abs(M) / bent, V / cut)


def _staggered_net_section(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """The same along every zigzag: the worst is looked for, then worked out."""
    t, found = part.plate, []
    for along_y, cut in zigzag_cuts(part, loads):
        with unrecorded():
            passed = cut.N, cut.V, cut.M
            shares = _net_share(part, basis, cut.length * t, cut.net * t, cut.modulus * t, passed)
        worst = cut.worst(shares)
        found.append((float(shares[worst]), along_y, cut, worst))
    _, along_y, cut, worst = max(found, key=lambda one: one[0])
    holes, steps = cut.ways.through(worst), cut.ways.steps(worst)
    slant = sum(gain_of_slant(s, p) for s, p in steps)
    area = net_area_of_zigzag(cut.length * t, len(holes), part.d_0, t, slant)
    passed = cut.N[worst], cut.V[worst], cut.M[worst]
    ratio = float(_net_share(part, basis, cut.length * t, area, cut.modulus[worst] * t, passed))
    way = "along" if along_y else "across"
    slanting = f", {len(steps)} step{'s' if len(steps) > 1 else ''} slanting" if steps else ""
    reason = f"through {len(holes)} hole{'s' if len(holes) > 1 else ''}{slanting}, plate {way} the force"
    source = "EN 1993-1-1:2005 6.2.3(4), 6.2.2.2(4)" if part.category == "C" else f"{NET_SECTION}, 6.2.2.2(4)"
    return of_group(part, "net section", loads, loads.force, ratio, source, reason)


def zigzag_cuts(part: BoltGroup, loads: BoltLoads) -> list[tuple[bool, Cut]]:
    """What passes every zigzag of holes, for each way the plate may run and each side it may be held from."""
    both = loads.turn or loads.across
    ways = [part.plate_runs == "along"] if part.plate_runs else [True, False] if both else [True]
    made = []
    for along_y in ways:
        forces, edges = in_plane(part, loads), _extent(part, along_y)
        pushes = forces[:, ::-1] if along_y else forces
        sides = (1.0 if loads.shear > 0 else -1.0,) if along_y and loads.shear and not loads.across else (1.0, -1.0)
        made += [(along_y, cut_along(zigzags(part, along_y, side), edges, pushes * (side, 1.0))) for side in sides]
    if any(np.any(cut.net <= 0) for _, cut in made):
        raise NotCovered("nothing is left of the plate between the holes")
    return made


def plate_stress(part: BoltGroup, loads: BoltLoads) -> float:
    """Greatest elastic von Mises stress on a line of holes. Raises NotCovered where the plate's width is unknown."""
    asked = "plate stress", part.plate_runs, part.spread, loads.shear, loads.across, loads.turn
    return part.memo[asked] if asked in part.memo else part.memo.setdefault(asked, _plate_stress(part, loads))


def _plate_stress(part: BoltGroup, loads: BoltLoads) -> float:
    if part.lines is not None:
        return max(line.stress(part.plate) for line in net_lines(part, loads))
    found = []
    for _, cut in zigzag_cuts(part, loads):
        stress = np.hypot(np.abs(cut.N) / cut.net + np.abs(cut.M) / cut.modulus, math.sqrt(3) * cut.V / cut.net)
        found.append(float(stress[cut.worst(stress)]))
    return max(found) / part.plate


@dataclass(frozen=True)
class Block:
    """A block that may be torn out: net lengths in tension and in shear, the force of its bolts, and what it is."""

    tension: float
    shear: float
    force: float
    what: str


def blocks(part: BoltGroup, loads: BoltLoads, along_y: bool) -> list[Block]:
    """Every block of neighbouring lines and of the bolts nearest the end pushed at, torn out towards that end.

    The tension path runs between the outer lines of the block, from one of them to the plate's edge, or from both to
    both edges.

    along_y  the block leaves along y, else along x
    """
    sign, ahead = _towards(part, loads, along_y)
    pushes = in_plane(part, loads)[:, 1 if along_y else 0] * sign
    asked = "blocks", along_y, sign
    if asked not in part.memo:
        part.memo[asked] = list(_outlines(part, along_y, sign, float(part.outline[ahead])))
    return [Block(tension, shear, float(pushes[bolts].sum()), what) for tension, shear, bolts, what in part.memo[asked]]


def _outlines(
    part: BoltGroup, along_y: bool, sign: float, end: float
) -> Iterator[tuple[float, float, np.ndarray, str]]:
    """Net lengths in tension and in shear of every block, the bolts it holds, and what it is."""
    axis, cross = (1, 0) if along_y else (0, 1)
    low, high = (WEST, EAST) if along_y else (SOUTH, NORTH)
    lines, deep = part.lines[cross], part.lines[axis] * sign
    order = np.lexsort((part.positions[:, cross], -part.positions[:, axis] * sign)).reshape(len(deep), len(lines))
    depths = end - np.sort(deep)[::-1]
    to_low, to_high = lines + part.outline[low], part.outline[high] - lines
    long, wide, last = part.hole_size(along_y), part.hole_size(not along_y), len(lines) - 1
    for count, depth in enumerate(depths, 1):
        shear = float(depth) - (count - 0.5) * long
        for first in range(last + 1):
            for final in range(first, last + 1):
                bolts = order[:count, first : final + 1].ravel()
                inside = float(lines[final] - lines[first]) - (final - first) * wide
                what = f"{count} x {final - first + 1} bolts"
                if final > first:
                    yield inside, 2 * shear, bolts, f"{what}, tension between the outer lines"
                if first == 0:
                    yield inside + float(to_low[0]) - wide / 2, shear, bolts, f"{what}, tension to one edge"
                if final == last:
                    yield inside + float(to_high[-1]) - wide / 2, shear, bolts, f"{what}, tension to one edge"
        for left in range(last):
            gap = float(lines[left + 1] - lines[left])
            width = float(to_low[0] + to_high[-1] + lines[-1] - lines[0]) - gap - last * wide
            yield width, 2 * shear, order[:count].ravel(), f"{count} deep, tension to both edges"


def _towards(part: BoltGroup, loads: BoltLoads, along_y: bool) -> tuple[float, Force]:
    """The end that is pushed at: its sense along the axis, and its direction."""
    missing = "end" if part.end is None else "edge" if part.edge is None else ""
    if missing:
        raise NotCovered(f"`{missing}` is not stated")
    sign = 1.0 if (loads.shear if along_y else loads.across) >= 0 else -1.0
    return sign, (NORTH if sign > 0 else SOUTH) if along_y else (EAST if sign > 0 else WEST)


def block_tearing(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """The block that is torn out first; 0.5 on its tension where the force stands beside the centre.

    A force along both axes is judged along each, and the ratios are added: the clause has no rule for it.
    """
    require_steel(part)
    ways = [way for way, force in ((True, loads.shear), (False, loads.across)) if force]
    worst_of_ways = [_worst_block(part, loads, basis, way) for way in ways]
    ratio, reason = sum(ratio for ratio, _ in worst_of_ways), "; ".join(what for _, what in worst_of_ways)
    source = f"{BLOCK_TEARING}({'3' if loads.turn else '2'})"
    return of_group(part, "block tearing", loads, loads.force, ratio, source, reason)


def _worst_block(part: BoltGroup, loads: BoltLoads, basis: Basis, along_y: bool) -> tuple[float, str]:
    f_y, f_u = part.steel.strengths(part.plate)
    torn = clause.block_tearing_eccentric if loads.turn else clause.block_tearing_concentric
    if part.lines is None:
        return _worst_staggered_block(part, loads, basis, along_y)
    ratios = []
    for block in blocks(part, loads, along_y):
        if block.force > 0:
            areas = block.tension * part.plate, block.shear * part.plate
            resistance = torn(*areas, f_y, f_u, basis.gamma_M0, basis.gamma_M2)
            ratios.append((block.force / resistance if resistance > 0 else math.inf, block.what))
    return max(ratios)


def _worst_staggered_block(part: BoltGroup, loads: BoltLoads, basis: Basis, along_y: bool) -> tuple[float, str]:
    """The same of every block that lines along the force bound on a zigzag."""
    f_y, f_u = part.steel.strengths(part.plate)
    torn = clause.block_tearing_eccentric if loads.turn else clause.block_tearing_concentric
    sign, ahead = _towards(part, loads, along_y)
    pushes = in_plane(part, loads)[:, 1 if along_y else 0] * sign
    ways, t = zigzags(part, along_y, sign), part.plate
    found = []
    for made in torn_out(ways, _extent(part, along_y), float(part.outline[ahead]), pushes):
        with unrecorded():
            resistance = torn(made.tension * t, made.shear * t, f_y, f_u, basis.gamma_M0, basis.gamma_M2)
        pushed = np.maximum(made.force, 0.0)
        ratio = np.where(pushed > 0, np.where(resistance > 0, pushed / np.maximum(resistance, 1e-9), math.inf), 0.0)
        found.append((float(ratio.max()), made, int(np.argmax(ratio))))
    ratio, made, worst = max(found, key=lambda one: one[0])
    torn(made.tension[worst] * t, made.shear[worst] * t, f_y, f_u, basis.gamma_M0, basis.gamma_M2)
    bolts = int(made.bolts[worst])
    tension = "to one edge" if made.edges else "between the outer lines"
    return ratio, f"{bolts} bolt{'s' if bolts > 1 else ''}, tension {tension}"
