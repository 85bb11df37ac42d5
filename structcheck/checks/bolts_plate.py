"""The plate around the bolts: spacing of holes, net section, blocks torn out.

Every function judges one case and raises NotCovered where something needed is not stated.
"""

import math
from collections.abc import Sequence
from typing import Any

import numpy as np

from structcheck.checks.basis import Basis
from structcheck.checks.bolts_group import EAST, NORTH, SOUTH, WEST, BoltGroup, BoltLoads, in_plane
from structcheck.checks.bolts_paths import Blocks, Crossing, Cut, blocks_of, cut_along, zigzags
from structcheck.checks.bolts_strength import of_group, require_steel
from structcheck.errors import NotCovered
from structcheck.findings import Finding, judged
from structcheck.formula import recording, remembered, unrecorded
from structcheck.maths import minimum
from structcheck.record import record
from structcheck.standards.en1993_1_1.net_section import gain_of_slant, net_area_of_zigzag
from structcheck.standards.en1993_1_8 import bolts as clause

NET_SECTION = "EN 1993-1-1:2005 6.2.3(2)"
BLOCK_TEARING = "EN 1993-1-8:2005 3.10.2"
TABLE_3_3 = "EN 1993-1-8:2005 Table 3.3"


@remembered
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
    """Net section along every zigzag: under the force, and its moment in the plane where it stands beside the centre.

    The worst is looked for, then worked out.
    """
    asked = _asked_of_net(part, loads, basis)
    if asked not in part.memo:
        net_shares(part, [loads], basis)
    line: _Line = part.memo[asked]
    holes, steps = line.plate.ways.through(line.number), line.plate.ways.steps(line.number)
    ratio = _worked_out(part, basis, line, len(holes), steps) if recording() else line.share
    way = "along" if line.along_y else "across"
    slanting = f", {len(steps)} step{'s' if len(steps) > 1 else ''} slanting" if steps else ""
    reason = f"through {len(holes)} hole{'s' if len(holes) > 1 else ''}{slanting}, plate {way} the force"
    source = "EN 1993-1-1:2005 6.2.3(4)" if part.category == "C" else NET_SECTION
    slant = ", 6.2.2.2(4)" if steps or part.lines is None else ""
    return of_group(part, "net section", loads, loads.force, ratio, source + slant, reason)


@record(eq=False)
class _Line:
    """The zigzag that uses most of the plate under one load: its number, its share, and N, V and M that pass it."""

    plate: Crossing
    number: int
    along_y: bool
    share: float
    passed: tuple[float, float, float]


def _worked_out(part: BoltGroup, basis: Basis, line: _Line, holes: int, steps: Sequence[tuple[float, float]]) -> float:
    """The share of one line, step by step as a working shows it."""
    plate, t = line.plate, part.plate
    net, gross = float(plate.net[line.number]) * t, plate.length * t
    if steps:
        net = net_area_of_zigzag(gross, holes, plate.ways.wide, t, sum(gain_of_slant(s, p) for s, p in steps))
    return float(_share(part, basis, gross, net, float(plate.modulus[line.number]) * t, line.passed))


def _asked_of_net(part: BoltGroup, load: BoltLoads, basis: Basis) -> tuple[Any, ...]:
    return "net section", part.plate_runs, part.spread, load.shear, load.across, load.turn, _factors(basis)


def _factors(basis: Basis) -> tuple[float, float]:
    return basis.gamma_M0, basis.gamma_M2


def net_shares(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> np.ndarray:
    """What `net_section` uses of the plate under each load, all of them at once; it then finds the line it is of."""
    require_steel(part)
    cuts = zigzag_cuts(part, loads)
    with unrecorded():
        shares = [np.where(counts[:, None], _net_share(part, basis, cut), 0.0) for _, cut, counts in cuts]
    worst = [share.argmax(axis=1).tolist() for share in shares]
    most = np.array([share.max(axis=1) for share in shares])
    for number, (load, which) in enumerate(zip(loads, most.argmax(axis=0).tolist(), strict=True)):
        along_y, cut, _ = cuts[which]
        at = number, worst[which][number]
        passed = float(cut.N[at]), float(cut.V[at]), float(cut.M[at])
        line = _Line(cut.crossing, at[1], along_y, float(shares[which][at]), passed)
        part.memo[_asked_of_net(part, load, basis)] = line
    return most.max(axis=0)


def _net_share(part: BoltGroup, basis: Basis, cut: Cut) -> np.ndarray:
    """Share of every zigzag's resistance, (loads, zigzags)."""
    t, plate = part.plate, cut.crossing
    return _share(part, basis, plate.length * t, plate.net * t, plate.modulus * t, (cut.N, cut.V, cut.M))


def _share(part: BoltGroup, basis: Basis, gross: float, area: Any, modulus: Any, passed: tuple[Any, ...]) -> Any:
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


def zigzag_cuts(part: BoltGroup, loads: Sequence[BoltLoads]) -> list[tuple[bool, Cut, np.ndarray]]:
    """What passes every zigzag of holes, for each way the plate may run and each side it may be held from.

    Along the force for a plate pulled; where the force stands beside the centre the plate may as well go on across
    it (a bracket), and unless `plate_runs` says which, both are given. Beside each stands which loads it is for.
    """
    beside = np.array([bool(load.turn or load.across) for load in loads])
    ways = [part.plate_runs == "along"] if part.plate_runs else [True, False] if beside.any() else [True]
    forces, made = np.array([in_plane(part, load) for load in loads]), []
    for along_y in ways:
        edges = _extent(part, along_y)
        pushes = forces[..., ::-1] if along_y else forces
        for side in (1.0, -1.0):
            counts = np.array([_held(load, along_y, side) for load in loads])
            counts &= beside | along_y if part.plate_runs is None else True
            if counts.any():
                paths = zigzags(part, along_y, side, even=along_y and not beside.any(), whole=True)
                made.append((along_y, cut_along(paths, edges, pushes * (side, 1.0)), counts))
    if any(cut.crossing.net.min() <= 0 for _, cut, _ in made):
        raise NotCovered("nothing is left of the plate between the holes")
    return made


def _held(load: BoltLoads, along_y: bool, side: float) -> bool:
    """Whether a plate may be held from this side: pulled, it is from behind the loaded end; a bracket from either."""
    return not along_y or not load.shear or bool(load.across) or (load.shear > 0) == (side > 0)


def plate_stress(part: BoltGroup, loads: BoltLoads) -> float:
    """Greatest elastic von Mises stress on a line of holes; the peaks of direct and shear stress are taken together.

    Holes to one side move the centroid of what is left, which the pull then bends.

    Raises NotCovered where the plate's width is unknown.
    """
    asked = _stress_asked(part, loads)
    if asked not in part.memo:
        plate_stresses(part, [loads])
    return part.memo[asked]


def _stress_asked(part: BoltGroup, loads: BoltLoads) -> tuple[Any, ...]:
    return "plate stress", part.plate_runs, part.spread, loads.shear, loads.across, loads.turn


def plate_stresses(part: BoltGroup, loads: Sequence[BoltLoads]) -> None:
    """Work out `plate_stress` of all these loads at once. Raises NotCovered like it."""
    found = []
    for _, cut, counts in zigzag_cuts(part, loads):
        net, modulus = cut.crossing.net, cut.crossing.modulus
        N, M = np.abs(cut.N), np.abs(cut.M) + np.abs(cut.N) * cut.crossing.shift
        stress = np.hypot(N / net + M / modulus, math.sqrt(3) * cut.V / net)
        found.append(np.where(counts, stress.max(axis=1), 0.0))
    for load, stress in zip(loads, (np.max(found, axis=0) / part.plate).tolist(), strict=True):
        part.memo[_stress_asked(part, load)] = stress


def blocks(part: BoltGroup, loads: Sequence[BoltLoads], along_y: bool, sign: float) -> tuple[Blocks, np.ndarray]:
    """Every block that lines along the force bound on a zigzag, and its force under each load, (loads, blocks).

    along_y  the block leaves along y, else along x
    sign     +1 where it leaves towards +y or +x

    Raises NotCovered where the plate's end or edge is not stated.
    """
    missing = "end" if part.end is None else "edge" if part.edge is None else ""
    if missing:
        raise NotCovered(f"`{missing}` is not stated")
    pushes = np.array([in_plane(part, load)[:, 1 if along_y else 0] for load in loads]) * sign
    asked = "blocks", along_y, sign, not any(load.turn for load in loads)
    if asked not in part.known:
        ahead = (NORTH if sign > 0 else SOUTH) if along_y else (EAST if sign > 0 else WEST)
        ways = zigzags(part, along_y, sign, even=asked[3])
        part.known[asked] = blocks_of(ways, _extent(part, along_y), float(part.outline[ahead]))
    found = part.known[asked]
    return found, np.maximum(pushes @ found.within.T, 0.0)


def block_tearing(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """The block that is torn out first; 0.5 on its tension where the force stands beside the centre.

    A force along both axes is judged along each, and the ratios are added: the clause has no rule for it.
    """
    require_steel(part)
    ways = [(way, force) for way, force in ((True, loads.shear), (False, loads.across)) if force]
    worst_of_ways = [_worst_block(part, loads, basis, way, math.copysign(1.0, force)) for way, force in ways]
    ratio, reason = sum(ratio for ratio, _ in worst_of_ways), "; ".join(what for _, what in worst_of_ways)
    source = f"{BLOCK_TEARING}({'3' if loads.turn else '2'})"
    return of_group(part, "block tearing", loads, loads.force, ratio, source, reason)


def _worst_block(part: BoltGroup, loads: BoltLoads, basis: Basis, along_y: bool, sign: float) -> tuple[float, str]:
    asked = _asked_of_blocks(part, loads, basis, along_y)
    if asked not in part.memo:
        _torn_first(part, [loads], basis, along_y, sign)
    found, worst, ratio = part.memo[asked]
    if recording():
        _torn(part, basis, float(found.tension[worst]), float(found.shear[worst]), bool(loads.turn))
    bolts, where = int(found.bolts[worst]), "to one edge" if found.edge[worst] else "between the outer lines"
    return ratio, f"{bolts} bolt{'s' if bolts > 1 else ''}, tension {where}"


def _asked_of_blocks(part: BoltGroup, load: BoltLoads, basis: Basis, along_y: bool) -> tuple[Any, ...]:
    return "block", along_y, part.spread, load.shear, load.across, load.turn, _factors(basis)


def block_shares(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> np.ndarray:
    """What `block_tearing` uses of the plate under each load, all of them at once."""
    require_steel(part)
    shares = np.zeros(len(loads))
    for along_y in (True, False):
        pushed = [load.shear if along_y else load.across for load in loads]
        for sign in (1.0, -1.0):
            if counts := [number for number, push in enumerate(pushed) if push * sign > 0]:
                shares[counts] += _torn_first(part, [loads[number] for number in counts], basis, along_y, sign)
    return shares


def _torn_first(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis, along_y: bool, sign: float) -> np.ndarray:
    """Share of the block that is torn out first one way, under each load; `_worst_block` then finds which it is."""
    found, force = blocks(part, loads, along_y, sign)
    with unrecorded():
        share = _torn_share(part, basis, found, force, [bool(load.turn) for load in loads])
    worst, most = share.argmax(axis=1).tolist(), share.max(axis=1)
    for load, number, ratio in zip(loads, worst, most.tolist(), strict=True):
        part.memo[_asked_of_blocks(part, load, basis, along_y)] = found, number, ratio
    return most


def _torn_share(part: BoltGroup, basis: Basis, found: Blocks, force: np.ndarray, turned: Sequence[bool]) -> np.ndarray:
    """Share of each block's resistance, (loads, blocks)."""
    bears = {beside: _torn(part, basis, found.tension, found.shear, beside) for beside in set(turned)}
    resistance = np.array([bears[beside] for beside in turned])
    return np.where(resistance > 0, force / np.maximum(resistance, 1e-9), np.where(force > 0, math.inf, 0.0))


def _torn(part: BoltGroup, basis: Basis, tension: Any, shear: Any, beside: bool) -> Any:
    """Resistance of a block, number or array; `beside`: the force stands beside the group's centre."""
    (f_y, f_u), t = part.steel.strengths(part.plate), part.plate
    torn = clause.block_tearing_eccentric if beside else clause.block_tearing_concentric
    return torn(tension * t, shear * t, f_y, f_u, basis.gamma_M0, basis.gamma_M2)
