"""End plate of a press corner: a beam's end welded to a plate, the plate bolted to a flange, by EN 1993-1-8 6.2.

Rows of two bolts beside the web. Each row is a T-stub of the plate and one of the part behind it; rows are filled from
the tension side down, alone and in groups (6.2.7.2). A row beside the tension flange gets no more than a row beside the
web alone: less than Table 6.6 allows with its alpha, and safe.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import count

import numpy as np

from structcheck.checks.basis import Basis, Case
from structcheck.checks.bolts_prying import HEAD, NUT, Flange, lengths, stub
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Finding, Outcome, complete, interaction, judged, not_checked, worst
from structcheck.materials.bolts import BoltClass, BoltSize
from structcheck.materials.steels import Steel
from structcheck.standards.en1993_1_8 import bolts as bolt_clause
from structcheck.standards.en1993_1_8 import tstub as clause

NEEDED = (
    "end plate bending",
    "part behind the end plate",
    "web behind the end plate",
    "bolt shear and tension",
    "yield at greatest force",
)
SOURCE = "EN 1993-1-8:2005 6.2.4, 6.2.6.5, 6.2.7.2"


@dataclass(frozen=True, kw_only=True)
class EndPlate:
    """An end plate with two bolts a row.

    plate, width, steel   thickness and width of the plate, its steel
    depth, flange, web    of the beam: depth over all, flange and web thickness; flange_width of its flange
    beam_steel            of the beam; None: the plate's
    gauge                 between the two bolts of a row
    rows                  height of each row above the outer face of the flange in compression
    top                   height of the plate's end on the tension side, from the same face
    web_throat, flange_throat  of the fillets between beam and plate
    behind                thickness of the flange bolted to; behind_lever (m), behind_edge (e), behind_steel
    grip                  plates and washers between head and nut
    """

    name: str
    size: BoltSize
    bolt_class: BoltClass
    steel: Steel
    plate: float
    width: float
    depth: float
    flange: float
    flange_width: float
    web: float
    gauge: float
    rows: tuple[float, ...]
    top: float
    web_throat: float
    flange_throat: float
    beam_steel: Steel | None = None
    behind: float | None = None
    behind_lever: float | None = None
    behind_edge: float | None = None
    behind_steel: Steel | None = None
    grip: float | None = None

    @property
    def centre(self) -> float:
        """Height of the centre of compression: the middle of the compressed flange."""
        return self.flange / 2

    @property
    def heights(self) -> tuple[float, ...]:
        """Rows from the tension side down."""
        return tuple(sorted(self.rows, reverse=True))

    @property
    def edge(self) -> float:
        """e_min of 6.2.4, mm: bolt to the nearer edge of plate and flange behind; prying leans on what both cover."""
        own = (self.width - self.gauge) / 2
        return own if self.behind_edge is None else min(own, self.behind_edge)

    @property
    def outside(self) -> int:
        """Number of rows beyond the flange in tension: none or one."""
        return sum(row > self.depth for row in self.rows)


@dataclass(frozen=True)
class EndPlateLoads:
    """Moment (pulling on the top rows), pull along the beam and shear on the plate in one case."""

    case: Case
    moment: float = 0.0
    pull: float = 0.0
    shear: float = 0.0


@dataclass(frozen=True)
class Rows:
    """What the rows bear, from the tension side down: the force of each row and what limits it."""

    forces: tuple[float, ...]
    limits: tuple[str, ...]
    levers: tuple[float, ...]

    @property
    def moment(self) -> float:
        """Moment resistance."""
        return sum(force * lever for force, lever in zip(self.forces, self.levers, strict=True))


def check_end_plate(part: EndPlate, loads: Sequence[EndPlateLoads], basis: Basis) -> Outcome:
    """Judge an end plate. Raises InputError where it cannot be built."""
    _validate(part)
    findings = []
    for check, judge, limit in (
        ("end plate bending", _bending, "ultimate"),
        ("part behind the end plate", _behind, "ultimate"),
        ("bolt shear and tension", _shear_and_tension, "ultimate"),
        ("yield at greatest force", _yield, "greatest force"),
    ):
        cases = [load for load in loads if load.case.limit == limit]
        if cases:
            try:
                findings.append(worst(judge(part, load, basis) for load in cases))
            except NotCovered as reason:
                findings.append(not_checked(part.name, check, str(reason)))
    web = "shear, compression and tension of the web behind (6.2.6.1 to 6.2.6.3) are judged as that part's own"
    findings.append(not_checked(part.name, "web behind the end plate", web))
    return complete(Outcome(tuple(findings), assumptions=_assumptions(part)), part.name, NEEDED, "no load case given")


def rows_of_plate(part: EndPlate, basis: Basis, *, bent: bool = True) -> Rows:
    """Rows borne by plate, web and bolts, and by the flange in compression; bent or only pulled."""
    return _fill(part, lambda first, last: _plate_group(part, first, last, basis), basis, bent=bent)


def rows_behind(part: EndPlate, basis: Basis, *, bent: bool = True) -> Rows:
    """Rows borne by the flange the plate is bolted to. Raises NotCovered where it is not described."""
    keys = ("behind", "behind_lever", "behind_edge")
    missing = [f"`{key}`" for key in keys if getattr(part, key) is None]
    if missing:
        raise NotCovered(f"{', '.join(missing)} not stated: the flange the plate is bolted to (not a tube's wall)")
    return _fill(part, lambda first, last: _behind_group(part, first, last, basis), basis, bent=bent)


Group = Callable[[int, int], tuple[float, str] | None]


def _fill(part: EndPlate, group: Group, basis: Basis, *, bent: bool = True) -> Rows:
    """Row by row from the tension side, 6.2.7.2: alone, with the rows above it, and no more than compression bears.

    bent  the rows bear a moment; else a pull, with nothing in compression
    """
    forces: list[float] = []
    limits: list[str] = []
    levers = tuple(row - part.centre for row in part.heights)
    strongest = 1.9 * _one_bolt(part, basis)
    for row, lever in enumerate(levers):
        options = [(_compression(part, basis) - sum(forces), "flange in compression")] if bent else []
        for first in range(row, -1, -1):
            made = group(first, row)
            if made is None:
                break
            options.append((made[0] - sum(forces[first:row]), made[1]))
        if bent:
            above = zip(forces, levers, strict=False)
            why = "rows above reach their bolts first, 6.2.7.2(9)"
            options += [(force * lever / arm, why) for force, arm in above if force > strongest]
        force, limit = min(options)
        forces.append(max(force, 0.0) if lever > 0 or not bent else 0.0)
        limits.append(limit)
    return Rows(tuple(forces), tuple(limits), levers)


def _one_bolt(part: EndPlate, basis: Basis) -> float:
    if not part.bolt_class.covered:
        raise NotCovered(f"class {part.bolt_class.name} is outside EN 1993-1-8 Table 3.1")
    return bolt_clause.tension_resistance(0.9, part.bolt_class.f_ub, part.size.A_s, basis.gamma_M2)


def _compression(part: EndPlate, basis: Basis) -> float:
    steel = part.beam_steel or part.steel
    return part.flange_width * part.flange * steel.f_y(part.flange) / basis.gamma_M0


def _stub(part: EndPlate, flange: Flange, size: tuple[float, float], rows: int, basis: Basis) -> tuple[float, str]:
    bolt = 0.0 if part.grip is None else part.grip + (HEAD + NUT) / 2 * part.size.d
    made = stub(flange, size, 2 * rows * _one_bolt(part, basis), rows, basis, A_s=part.size.A_s, bolt=bolt)
    return made.resistance, made.mode


def _plate_group(part: EndPlate, first: int, last: int, basis: Basis) -> tuple[float, str] | None:
    """Rows beside the web or beyond a flange; a group runs on one side of a flange only (None across it)."""
    zones = {_zone(part, row) for row in part.heights[first : last + 1]}
    if len(zones) > 1:
        return None
    f_y, edge = part.steel.f_y(part.plate), part.edge
    if zones != {0}:
        return _outside(part, part.heights[first], f_y, edge, basis)
    m = clause.lever_from_weld(part.gauge, part.web, part.web_throat)
    steps = [float(step) for step in -np.diff(part.heights[first : last + 1])]
    free = part.top - part.heights[first] if first == 0 and part.top < part.depth - part.flange else None
    flange = Flange(part.plate, f_y, m, edge)
    size = lengths(flange, (free, None), steps)
    made = _stub(part, flange, size, last - first + 1, basis)
    steel = part.beam_steel or part.steel
    web = min(size) * part.web * steel.f_y(part.web) / basis.gamma_M0
    return min(made, (web, "web of the beam in tension"))


def _zone(part: EndPlate, row: float) -> int:
    """0 between the flanges, 1 beyond the flange in tension, -1 beyond the other."""
    return 1 if row > part.depth else -1 if row < 0 else 0


def _outside(part: EndPlate, row: float, f_y: float, edge: float, basis: Basis) -> tuple[float, str]:
    """A row beyond a flange; beyond the one in compression the plate is taken to end as it does on the other side."""
    beyond = row - part.depth if row > 0 else -row
    m_x = beyond - 0.8 * part.flange_throat * math.sqrt(2)
    e_x = part.top - part.depth - beyond
    if e_x <= 0:
        raise NotCovered("the plate's end beyond the flange in compression is not known")
    size = (
        clause.outside_flange_circular(m_x, part.gauge, edge),
        clause.outside_flange_other(m_x, e_x, part.gauge, edge, part.width),
    )
    return _stub(part, Flange(part.plate, f_y, m_x, e_x), size, 1, basis)


def _behind_group(part: EndPlate, first: int, last: int, basis: Basis) -> tuple[float, str]:
    steel = part.behind_steel or part.steel
    flange = Flange(part.behind, steel.f_y(part.behind), part.behind_lever, part.edge)
    steps = [float(step) for step in -np.diff(part.heights[first : last + 1])]
    return _stub(part, flange, lengths(flange, (None, None), steps), last - first + 1, basis)


Filled = Callable[..., Rows]


def _ratio(part: EndPlate, fill: Filled, load: EndPlateLoads, basis: Basis) -> float:
    """Moment and pull in linear sum; a pull counts on every row what the least of them bears."""
    if load.moment < 0 or load.pull < 0:
        raise NotCovered("rows are described for a moment that pulls on the top ones and a beam that is pulled")
    ratio = 0.0
    if load.moment:
        moment = fill(part, basis).moment
        ratio += load.moment / moment if moment > 0 else math.inf
    if load.pull:
        forces = fill(part, basis, bent=False).forces
        even = len(forces) * min(forces)
        ratio += load.pull / even if even > 0 else math.inf
    return ratio


def _finding(part: EndPlate, check: str, fill: Filled, load: EndPlateLoads, basis: Basis) -> Finding:
    ratio = _ratio(part, fill, load, basis)
    rows = fill(part, basis, bent=bool(load.moment))
    texts = [f"row {i}: {force / 1e3:.3g} kN, {why}" for i, force, why in zip(count(1), rows.forces, rows.limits)]
    reason = "; ".join(texts)
    if load.pull == 0 and load.moment:
        return judged(part.name, check, load.case.name, load.moment, rows.moment, "kN m", SOURCE, reason=reason)
    factor = math.inf if ratio == 0 else 1 / ratio
    return interaction(part.name, check, load.case.name, factor, SOURCE, clause_ratio=ratio, reason=reason)


def _require(*steels: Steel | None) -> None:
    for steel in steels:
        if steel is not None and not steel.in_en1993:
            raise NotCovered(f"{steel.name} is outside EN 1993-1-1")


def _bending(part: EndPlate, load: EndPlateLoads, basis: Basis) -> Finding:
    _require(part.steel, part.beam_steel)
    return _finding(part, "end plate bending", rows_of_plate, load, basis)


def _behind(part: EndPlate, load: EndPlateLoads, basis: Basis) -> Finding:
    _require(part.behind_steel or part.steel)
    return _finding(part, "part behind the end plate", rows_behind, load, basis)


def _shear_and_tension(part: EndPlate, load: EndPlateLoads, basis: Basis) -> Finding:
    """Shear shared evenly by all bolts, every one of them taken as pulled as hard as the rows in tension are."""
    plane = bolt_clause.shear_resistance(part.bolt_class.alpha_v, part.bolt_class.f_ub, part.size.A_s, basis.gamma_M2)
    sheared = abs(load.shear) / (2 * len(part.rows))
    # A row used up to its share of the moment pulls its bolts to that share of F_t,Rd at most, prying included.
    pulled = _ratio(part, rows_of_plate, load, basis) * _one_bolt(part, basis)
    ratio = bolt_clause.shear_and_tension(sheared, plane, pulled, _one_bolt(part, basis))
    factor = math.inf if ratio == 0 else 1 / ratio
    source = "EN 1993-1-8:2005 Table 3.4"
    return interaction(part.name, "bolt shear and tension", load.case.name, factor, source, clause_ratio=ratio)


def _yield(part: EndPlate, load: EndPlateLoads, basis: Basis) -> Finding:
    """A joint stays elastic up to two thirds of its resistance (6.3.1(6))."""
    ratios = [_ratio(part, rows_of_plate, load, basis)]
    reason = "plate; the part behind is not described"
    if part.behind is not None:
        ratios.append(_ratio(part, rows_behind, load, basis))
        reason = "plate and part behind it"
    ratio = 1.5 * max(ratios)
    factor = math.inf if ratio == 0 else 1 / ratio
    source = "EN 1993-1-8:2005 6.3.1(6)"
    check = "yield at greatest force"
    return interaction(part.name, check, load.case.name, factor, source, clause_ratio=ratio, reason=reason)


def _validate(part: EndPlate) -> None:
    problems = []

    def wrong(key: str, given: float, fault: str, wanted: str) -> None:
        problems.append(Problem(key, f"{given:g} mm", fault, wanted, part=f'end plate "{part.name}"'))

    half_head = part.size.e_min / 2
    if not part.rows:
        wrong("rows", 0, "hold no bolts", "one height or more")
    for row in part.rows:
        for face, inner in ((part.depth, part.depth - part.flange), (part.flange, 0.0)):
            toe = half_head + part.flange_throat * math.sqrt(2)
            if inner - toe < row < face + toe:
                wrong("rows", row, "puts a head on a flange or its weld", f"{toe:.0f} mm clear of the flange's faces")
    if part.outside > 1:
        wrong("rows", max(part.rows), "is a second row beyond the flange", "one row at most (6.2.7.2)")
    if part.gauge / 2 - part.web / 2 - part.web_throat * math.sqrt(2) < half_head:
        wrong("gauge", part.gauge, "puts the heads on the web's weld", f"{half_head:.0f} mm clear of it")
    if part.width <= part.gauge + part.size.d:
        wrong("width", part.width, "leaves no edge beside the bolts", f"more than {part.gauge + part.size.d:g} mm")
    if part.rows and part.top <= max(part.rows) + part.size.d / 2:
        wrong("top", part.top, "ends the plate in a hole", f"more than {max(part.rows) + part.size.d / 2:g} mm")
    if problems:
        raise InputError(problems)


def _assumptions(part: EndPlate) -> tuple[Assumption, ...]:
    made = [("the fillets of flange and web carry these rows: check them as welds", "")]
    if part.grip is None:
        made.append(("plates between head and nut short enough to pry (6.2.4, L_b*); else state `grip`", ""))
    for steel, what in ((part.steel, "plate"), (part.beam_steel, "beam"), (part.behind_steel, "part behind")):
        if steel is not None and steel.assumed:
            made.append((f"steel of the {what} unknown: {steel.name}", steel.condition))
    if part.bolt_class.assumed:
        made.append(("bolts without a mark", part.bolt_class.condition))
    if part.beam_steel is None:
        made.append((f"the beam is of the plate's steel, {part.steel.name}", ""))
    return tuple(Assumption(part.name, text, condition) for text, condition in made)
